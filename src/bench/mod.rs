//! The questions of the bench, each answered in one call that runs the models below it in order.
//!
//! - [`Compare`]: what do half a part, one, two and three parts of thinner to one of paint do?
//! - [`waterborne_pairs`]: does the dilution law hold for a real paint?
//!
//! Results are tables ([`crate::table::Table`]) that print as text or HTML and export as plain columns.

mod compare;
mod comparison;
mod measured;

pub use compare::{Compare, USUAL_RATIOS};
pub use comparison::{Comparison, Row};
pub use measured::{MeasuredPair, waterborne_pairs, waterborne_table};
