//! Finishing chemistry for the hobby bench: from a bottle of paint to a dry film, with numbers.
//!
//! A finisher has a bottle, a thinner, a cup and a room, and asks how much, how thick, how long. Each module
//! answers one of the questions and may be used alone; each stands only on those above it in this list:
//!
//! - [`quantity`], [`estimate`], [`working`], [`source`], [`answer`], [`table`]: values with units, how sure
//!   they are, how they were worked out and where each constant comes from.
//! - [`solvent`]: what is this liquid? Properties, rates, limits, every value with its source.
//! - [`blend`]: what does this thinner do? Activities, one liquid or two, viscosity, flash point, solvency.
//! - [`cup`] and [`dose`]: seconds to viscosity and back; drops, parts, percent, solids, film build.
//! - [`paint`]: how thick is the mix at this ratio, and how much thinner for these seconds?
//! - [`air`] and [`film`]: how does the coat dry in this room?
//! - [`spray`]: how fine does this gun spray, how wet does it land, how thick is a pass?
//! - [`hiding`]: how many passes until the ground no longer shows, and how much paint?
//! - [`layers`]: what is this paint, what may meet what, in which order?
//! - [`safety`]: what is in the air, may it burn, what must everybody know?
//! - [`rinse`]: how to get from one colour to the next with the least cleaner?
//! - [`mod@bench`]: the whole chain in one call.
//!
//! ```
//! use mistcoat::blend::{Basis, Blend};
//! use mistcoat::dose::{Parts, Thinning};
//! use mistcoat::paint::{Family, Paint};
//! use mistcoat::quantity::parse;
//! let paint = Paint::typical(Family::SolventLacquer, "hull green")?;
//! let thinner = Blend::from_names(&[("acetone", 50.0), ("n-butyl acetate", 50.0)], Basis::Volume, None)?;
//! let mix = paint.thin(&thinner, Thinning::from_parts(Parts { thinner: 1.0, paint: 1.0 })?)?;
//! let answer = mix.viscosity(parse("21 °C")?)?;
//! println!("{answer}"); // best value and 95 % interval
//! println!("{}", answer.working); // each formula with its numbers and its source
//! for warning in &answer.warnings {
//!     println!("mind: {warning}");
//! }
//! # Ok::<(), mistcoat::Error>(())
//! ```
//!
//! Every signature takes quantities, never a bare number with a unit in mind. What cannot be answered comes back
//! as an [`Error`] that names the value, the limit and the remedy; what is usable but doubtful as a [`Warning`].
//!
//! Feature `parallel` (off by default) works out the rows of a [`bench::Compare`] and of a [`film::DryTable`] on all cores.
#![deny(missing_docs)]

pub mod answer;
pub mod error;
pub mod estimate;
pub mod names;
pub mod progress;
pub mod quantity;
pub mod source;
pub mod table;
pub mod warning;
pub mod working;

pub mod solvent;

pub mod blend;

pub mod cup;

pub mod dose;

pub mod paint;

pub mod air;

pub mod film;

pub mod hiding;
pub mod spray;

pub mod layers;

pub mod rinse;
pub mod safety;

pub mod bench;

pub use answer::Answer;
pub use error::{Error, Result};
pub use estimate::Estimate;
pub use warning::Warning;
pub use working::Working;

/// The snippets of the README, run as doctests.
#[cfg(doctest)]
#[doc = include_str!("../README.md")]
pub struct ReadmeSnippets;
