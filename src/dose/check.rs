//! Guards shared by the functions of this module.

use crate::error::{Result, out_of_range};
use crate::quantity::{Quantity, show};

/// The SI number of a quantity that must be above zero and finite.
pub(super) fn positive<Q: Quantity>(what: &str, q: Q) -> Result<f64> {
    let si = q.si();
    if si > 0.0 && si.is_finite() {
        return Ok(si);
    }
    Err(out_of_range(what, show(q), "above zero and finite", format!("write for example {:?}", Q::EXAMPLE)))
}

/// The SI number of a quantity that may be zero, but not negative.
pub(super) fn not_negative<Q: Quantity>(what: &str, q: Q) -> Result<f64> {
    let si = q.si();
    if si >= 0.0 && si.is_finite() {
        return Ok(si);
    }
    Err(out_of_range(
        what,
        show(q),
        "zero or above, and finite",
        format!("write for example {:?}", Q::EXAMPLE),
    ))
}
