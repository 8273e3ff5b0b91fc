//! Counting drops: how sure is a volume of N drops?

use crate::error::{Result, out_of_range};
use crate::estimate::{Estimate, ModelError};
use crate::quantity::{Quantity, Ratio, Volume, not_negative};

/// Scatter of single drops from one bottle, relative standard deviation: repeatability coefficients of 19
/// bottles average 5.07 µL on 33.8 to 63.4 µL, read as 1.96 s. Source key `DROP_BOTTLES`; rounded up for a
/// hand that shakes.
pub(super) const DROP_SCATTER: f64 = 0.07;
/// Standard uncertainty of the count when the last drop is doubtful: 1/√12 (GUM).
pub(super) const LAST_DROP_STD: f64 = 0.288_675_134_594_812_9;

/// How the drops are counted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Counting {
    /// Relative standard deviation of single drops from one bottle.
    pub scatter: Ratio,
    /// Whether the last drop may be one too many or too few.
    pub doubtful_last_drop: bool,
}

impl Default for Counting {
    /// 7 % per drop, and a count that is right.
    fn default() -> Self {
        Self { scatter: Ratio::from_si(DROP_SCATTER), doubtful_last_drop: false }
    }
}

/// Volume of `drops` drops: `V = N v`, `u²(V) = N s² + N² u²(v) + v² u²(N)`.
///
/// The first term shrinks with counting, the second (how well the drop volume is known) does not.
///
/// # Errors
/// [`crate::error::RangeError`] for zero drops or a negative scatter.
///
/// ```
/// use mistcoat::dose::{Counting, Dropper, counted_volume};
/// use mistcoat::quantity::{parse, show};
/// let drop = Dropper::weighed(20, parse("0.41 g")?, parse("0.88 g/mL")?)?;
/// let v = counted_volume(10, drop.measured().unwrap(), Counting::default())?;
/// assert_eq!(show(v.best), "0.233 mL");
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn counted_volume(drops: u32, drop: &Estimate<Volume>, counting: Counting) -> Result<Estimate<Volume>> {
    if drops == 0 {
        return Err(out_of_range("number of drops", "0", "at least 1", "count at least one drop"));
    }
    let n = f64::from(drops);
    let scatter = not_negative("scatter of single drops", counting.scatter)?;
    let parts = [
        ModelError::new("volume of a drop", drop.relative_std()),
        ModelError::new("scatter of the drops", scatter / n.sqrt()),
        ModelError::new("last drop", if counting.doubtful_last_drop { LAST_DROP_STD / n } else { 0.0 }),
    ];
    Ok(Estimate::relative(Volume::from_si(n * drop.best.si()), &parts))
}
