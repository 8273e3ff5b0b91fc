//! Guards shared by the functions of this module.

use crate::error::{Result, out_of_range};
use crate::quantity::{Quantity, show};

/// SI numbers between which every quantity of the bench lies with room to spare, and products of a few of them
/// stay within the range of a number.
const LEAST_SI: f64 = 1e-60;
const MOST_SI: f64 = 1e60;

/// The SI number of a quantity that must be above zero and finite.
pub(super) fn positive<Q: Quantity>(what: &str, q: Q) -> Result<f64> {
    let si = q.si();
    if (LEAST_SI..=MOST_SI).contains(&si) {
        return Ok(si);
    }
    Err(out_of_range(
        what,
        show(q),
        "above zero and finite (1e-60 to 1e60 in SI units)",
        format!("write for example {:?}", Q::EXAMPLE),
    ))
}

/// The SI number of a quantity that may be zero, but not negative.
pub(super) fn not_negative<Q: Quantity>(what: &str, q: Q) -> Result<f64> {
    let si = q.si();
    if si == 0.0 || (LEAST_SI..=MOST_SI).contains(&si) {
        return Ok(si);
    }
    Err(out_of_range(
        what,
        show(q),
        "zero or above, and finite (up to 1e60 in SI units)",
        format!("write for example {:?}", Q::EXAMPLE),
    ))
}
