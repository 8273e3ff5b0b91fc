//! The questions of the bench, each answered in one call that runs the models below it in order.
//!
//! - [`compare`]: what do half a part, one, two and three parts of thinner to one of paint do?
//!
//! Results are tables ([`table::Table`]) that print as text or HTML and export as plain columns.

pub mod table;
