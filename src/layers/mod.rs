//! What is in this bottle, what may meet what, and in which order?
//!
//! * [`Identify`]: kind of paint from label words, smell, a drop in water and two rubs, with likelihoods and the
//!   next most telling test;
//! * [`thinner_with_paint`], [`cleaner_with_paint`], [`thinner_on_substrate`]: will it dissolve, curdle or attack;
//! * [`coat_over_coat`] and [`check_stack`]: which coat may go over which, after how long, and the order that works.
//!
//! Each answer is a [`Judgement`]: verdict, reasons with their sources, and the trial on scrap that settles it.
//! What rests on common practice says so; none of it replaces the trial.

mod coats;
mod identify;
mod judgement;
mod liquids;
mod stack;

pub use coats::{CoatRule, coat_over_coat, coat_rules};
pub use identify::{Candidate, Identification, Identify, Kind, NextTest};
pub use judgement::{Judgement, Reason, Verdict};
pub use liquids::{cleaner_with_paint, thinner_on_substrate, thinner_with_paint};
pub use stack::{Layer, Place, StackCheck, check_stack};
