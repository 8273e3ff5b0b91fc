//! The questions of the bench, each answered in one call that runs the models below it in order.
//!
//! - [`Compare`]: what do half a part, one, two and three parts of thinner to one of paint do?
//! - [`Retarder`]: what do 10, 20 and 30 % of a slow solvent buy, and what do they cost?
//! - [`waterborne_pairs`]: does the dilution law hold for a real paint?
//!
//! Results are tables ([`crate::table::Table`]) that print as text or HTML and export as plain columns.

mod compare;
mod comparison;
mod measured;
mod retarder;

pub use compare::{Compare, USUAL_RATIOS};
use compare::{distinct, or_warning};
pub use comparison::{Comparison, Row};
use comparison::{estimate_cell, sentence, share_cell};
pub use measured::{MeasuredPair, waterborne_pairs, waterborne_table};
pub use retarder::{Retarder, RetarderAnswer, RetarderRow, USUAL_SHARES};
