//! Guards shared by all who take a quantity.

use super::{Quantity, show};
use crate::error::{Error, Result, out_of_range};

/// SI numbers between which every quantity of the bench lies with room to spare, and products of a few of them
/// stay within the range of a number.
const LEAST_SI: f64 = 1e-60;
const MOST_SI: f64 = 1e60;

/// The SI number of a quantity that must be above zero and finite.
pub(crate) fn positive<Q: Quantity>(what: &str, q: Q) -> Result<f64> {
    let si = q.si();
    if (LEAST_SI..=MOST_SI).contains(&si) {
        return Ok(si);
    }
    Err(refused(what, q, "above 0 and finite"))
}

/// The SI number of a quantity that may be zero, but not negative.
pub(crate) fn not_negative<Q: Quantity>(what: &str, q: Q) -> Result<f64> {
    let si = q.si();
    if si == 0.0 || (LEAST_SI..=MOST_SI).contains(&si) {
        return Ok(si);
    }
    Err(refused(what, q, "zero or above, and finite"))
}

fn refused<Q: Quantity>(what: &str, q: Q, limit: &str) -> Error {
    let limit = if q.si() > 0.0 && q.si().is_finite() { "1e-60 to 1e60 in SI units" } else { limit };
    out_of_range(what, show(q), limit, format!("write for example {:?}", Q::EXAMPLE))
}
