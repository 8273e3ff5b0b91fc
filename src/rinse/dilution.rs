//! What a portion of cleaner leaves behind, and how to split it.

use crate::error::{Result, out_of_range};
use crate::quantity::{Quantity, Ratio, Volume, not_negative, positive, show};
use serde::{Deserialize, Serialize};

/// More portions than this nobody pours.
pub(super) const MOST_PORTIONS: u32 = 50;
/// A remainder below this is beyond what rinsing can promise: film on the walls decides.
const LEAST_FRACTION: f64 = 1e-9;

/// Equal portions of cleaner.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Split {
    /// How many.
    pub portions: u32,
    /// Each of them.
    #[serde(with = "crate::quantity::as_text")]
    pub each: Volume,
    /// All together.
    #[serde(with = "crate::quantity::as_text")]
    pub total: Volume,
}

impl Split {
    pub(super) fn of(portions: u32, each: f64) -> Self {
        Self { portions, each: Volume::from_si(each), total: Volume::from_si(f64::from(portions) * each) }
    }
}

/// Share of the old paint that is left after these portions: the product of `h/(h + v)`.
///
/// # Errors
/// A [`crate::error::RangeError`] for a hold-up that is not above zero, or a negative portion.
///
/// ```
/// use mistcoat::{quantity::{parse, Quantity}, rinse::fraction_left};
/// let left = fraction_left(parse("0.15 mL")?, &[parse("3 mL")?, parse("3 mL")?])?;
/// assert!((left.si() / 2.27e-3 - 1.0).abs() < 0.01);
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn fraction_left(hold_up: Volume, portions: &[Volume]) -> Result<Ratio> {
    let h = positive("hold-up", hold_up)?;
    let mut left = 1.0;
    for v in portions {
        left *= h / (h + not_negative("portion of cleaner", *v)?);
    }
    Ok(Ratio::from_si(left))
}

/// Portions of this size until no more than `fraction` is left.
///
/// # Errors
/// A [`crate::error::RangeError`] for a hold-up or portion that is not above zero, a fraction outside 1e-9 to 1, or
/// more than 50 portions.
pub fn portions_needed(hold_up: Volume, portion: Volume, fraction: Ratio) -> Result<u32> {
    let (h, v) = (positive("hold-up", hold_up)?, positive("portion of cleaner", portion)?);
    let f = wanted(fraction)?;
    let mut left = 1.0;
    for n in 0..=MOST_PORTIONS {
        // A hair of tolerance: a portion worked out for this fraction must not ask for one more.
        if left <= f * (1.0 + 1e-9) {
            return Ok(n);
        }
        left *= h / (h + v);
    }
    let remedy = "pour larger portions: one of at least the hold-up halves what is left";
    Err(out_of_range("portion of cleaner", show(portion), "one that cleans in 50 portions or fewer", remedy))
}

/// The size of `portions` equal portions that leave `fraction`. Equal ones need the least cleaner in all (the product
/// of `h + v` is largest for equal factors).
///
/// # Errors
/// A [`crate::error::RangeError`] for a hold-up that is not above zero, a fraction outside 1e-9 to 1, or a count outside
/// 1 to 50.
///
/// ```
/// use mistcoat::{quantity::{parse, show}, rinse::equal_portions};
/// let one = equal_portions(parse("0.15 mL")?, parse("0.1 %")?, 1)?;
/// let three = equal_portions(parse("0.15 mL")?, parse("0.1 %")?, 3)?;
/// assert_eq!((show(one.total), show(three.total)), ("150 mL".into(), "4.05 mL".into()));
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn equal_portions(hold_up: Volume, fraction: Ratio, portions: u32) -> Result<Split> {
    let h = positive("hold-up", hold_up)?;
    let f = wanted(fraction)?;
    if !(1..=MOST_PORTIONS).contains(&portions) {
        let remedy = "three or four portions do nearly all that more would";
        return Err(out_of_range("number of portions", portions.to_string(), "1 to 50", remedy));
    }
    Ok(Split::of(portions, h * (f.powf(-1.0 / f64::from(portions)) - 1.0)))
}

/// The split with the least cleaner when a portion must be at least `least_portion` to wet cup and passages.
///
/// # Errors
/// As for [`equal_portions`]; also a least portion that is not above zero.
pub fn best_split(hold_up: Volume, fraction: Ratio, least_portion: Volume) -> Result<Split> {
    let least = positive("least portion", least_portion)?;
    let mut best: Option<Split> = None;
    for n in 1..=MOST_PORTIONS {
        let each = equal_portions(hold_up, fraction, n)?.each.si();
        let split = Split::of(n, each.max(least));
        // Fewer portions win a tie.
        if best.is_none_or(|b| split.total.si() < b.total.si() * (1.0 - 1e-9)) {
            best = Some(split);
        }
        if each <= least {
            break;
        }
    }
    best.ok_or_else(|| out_of_range("number of portions", "0", "1 to 50", "report this as a defect"))
}

/// What endlessly many portions would need: `h ln(1/f)`, the floor under every split.
///
/// # Errors
/// As for [`equal_portions`].
pub fn least_cleaner(hold_up: Volume, fraction: Ratio) -> Result<Volume> {
    Ok(Volume::from_si(-positive("hold-up", hold_up)? * wanted(fraction)?.ln()))
}

fn wanted(fraction: Ratio) -> Result<f64> {
    let f = fraction.si();
    if (LEAST_FRACTION..=1.0).contains(&f) {
        return Ok(f);
    }
    let remedy = "1 in 1000 serves for most colours, 1 in 10000 from black to white";
    Err(out_of_range("fraction to leave", show(fraction), "1e-9 to 1", remedy))
}

/// Cheap cleaner first, then good thinner that carries the cheap one out.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TwoStage {
    /// Portions of cheap cleaner; none when the good thinner is all that is needed.
    pub cheap: Split,
    /// Portions of good thinner at the end.
    pub good: Split,
}

/// Splits a rinse in cheap cleaner and good thinner: the last portions are good, as many as bring what is left of the
/// cheap cleaner in the gun down to `cheap_left`. Both clean alike in this model; test that the cheap one dissolves the
/// paint, and that the two mix.
///
/// # Errors
/// As for [`best_split`].
///
/// ```
/// use mistcoat::{quantity::parse, rinse::cheap_then_good};
/// let plan = cheap_then_good(parse("0.15 mL")?, parse("0.01 %")?, parse("1 mL")?, parse("5 %")?)?;
/// assert_eq!((plan.cheap.portions, plan.good.portions), (3, 2));
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn cheap_then_good(
    hold_up: Volume,
    fraction: Ratio,
    least_portion: Volume,
    cheap_left: Ratio,
) -> Result<TwoStage> {
    let whole = best_split(hold_up, fraction, least_portion)?;
    let each = whole.each;
    let good = portions_needed(hold_up, each, cheap_left)?.clamp(1, whole.portions);
    Ok(TwoStage { cheap: Split::of(whole.portions - good, each.si()), good: Split::of(good, each.si()) })
}
