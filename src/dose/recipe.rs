//! Whole drops: which small counts come nearest to a wanted ratio and amount?
//!
//! Drops of paint and of thinner differ in size, so the counts are not in the wanted ratio, and rounding to
//! whole drops makes an error that is stated with each recipe.

use super::counting::DROP_SCATTER;
use super::thinning::{Parts, Thinning};
use crate::error::{Result, out_of_range};
use crate::estimate::{Estimate, ModelError};
use crate::quantity::{Quantity, Ratio, Volume, as_text, digits, positive, show};
use serde::{Deserialize, Serialize};

/// A ratio off by this much counts as much as an amount off by the next one.
const RATIO_WEIGHT: f64 = 0.05;
const AMOUNT_WEIGHT: f64 = 0.15;
/// More drops than this are not counted; take a syringe.
const MOST_DROPS: f64 = 2000.0;
/// Without a wanted amount: no more drops of paint than this, begin at a ratio no worse than this (half of it is
/// the counting error of ten drops against ten), and stop at a ratio as good as the last.
const SMALL_COUNT: u32 = 30;
const USABLE_RATIO: f64 = 0.06;
const GOOD_RATIO: f64 = 0.01;

/// Volume of one drop of paint and of one drop of thinner, each from its own dropper.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DropVolumes {
    /// One drop of stock paint.
    pub paint: Estimate<Volume>,
    /// One drop of thinner.
    pub thinner: Estimate<Volume>,
}

/// A recipe in whole drops.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DropRecipe {
    /// Drops of stock paint.
    pub paint_drops: u32,
    /// Drops of thinner.
    pub thinner_drops: u32,
    /// What the counts make, by volume.
    pub thinning: Thinning,
    /// Error of thinner per paint that rounding makes: (made − wanted)/wanted. Zero for undiluted paint.
    #[serde(with = "as_text")]
    pub ratio_error: Ratio,
    /// Volume of the mix.
    #[serde(with = "as_text")]
    pub total: Volume,
    /// Error of the amount: (made − wanted)/wanted; `None` when no amount was wanted.
    #[serde(default, with = "as_text::option", skip_serializing_if = "Option::is_none")]
    pub amount_error: Option<Ratio>,
    /// Paint fraction with the spread from drop volumes and from counting (7 % per drop).
    pub paint_fraction: Estimate<Ratio>,
}

impl core::fmt::Display for DropRecipe {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let drops = |n: u32| if n == 1 { "1 drop".to_owned() } else { format!("{n} drops") };
        write!(
            f,
            "{} thinner to {} paint: {}, ",
            drops(self.thinner_drops),
            drops(self.paint_drops),
            self.thinning
        )?;
        let percent = 100.0 * self.ratio_error.si();
        if percent.abs() < 1.0 {
            f.write_str("within 1 % of the wanted ratio")?;
        } else {
            let word = if percent > 0.0 { "more" } else { "less" };
            write!(f, "{:.0} % {word} thinner than wanted", percent.abs())?;
        }
        write!(f, ", {} of mix", show(self.total))
    }
}

/// Recipes in whole drops for a thinning, best first, at most `most` of them.
///
/// With a wanted amount, ratio and amount are weighed together (5 % in the ratio against 15 % in the
/// amount). Without one, the list starts with the fewest drops that hold the ratio to 6 % and each further recipe
/// has more drops and a better ratio, to within 1 %.
///
/// # Errors
/// [`crate::error::RangeError`] for an amount below a drop of paint with its thinner, or above 2000 drops,
/// or a drop volume that is not above zero.
///
/// ```
/// use mistcoat::dose::{Dropper, DropVolumes, Parts, Thinning, drop_recipes};
/// use mistcoat::quantity::parse;
/// let tip = Dropper::tip(parse("3 mm")?)?;
/// let drops = DropVolumes {
///     paint: tip.drop_volume(parse("35 mN/m")?, parse("1.2 g/mL")?, None)?.estimate,
///     thinner: tip.drop_volume(parse("22.4 mN/m")?, parse("0.789 g/mL")?, None)?.estimate,
/// };
/// let even = Thinning::from_parts(Parts { thinner: 1.0, paint: 1.0 })?;
/// let best = &drop_recipes(even, Some(parse("1 mL")?), &drops, 3)?[0];
/// assert!(best.thinner_drops > best.paint_drops); // alcohol drops are smaller
/// assert!(best.ratio_error.value.abs() < 0.05);
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn drop_recipes(
    wanted: Thinning,
    total: Option<Volume>,
    drops: &DropVolumes,
    most: usize,
) -> Result<Vec<DropRecipe>> {
    let v_p = positive("volume of a drop of paint", drops.paint.best)?;
    let v_t = positive("volume of a drop of thinner", drops.thinner.best)?;
    // Thinner drops per paint drop, not a whole number.
    let per_drop = wanted.thinner_per_paint() * v_p / v_t;
    let mut found: Vec<(f64, DropRecipe)> = Vec::new();
    if let Some(total) = total {
        let v = positive("amount of mix", total)?;
        let ideal = v * wanted.paint_fraction().get() / v_p;
        let count = ideal * (1.0 + per_drop);
        if ideal < 0.5 || count > MOST_DROPS {
            let least = Volume::from_si(v_p + per_drop * v_t);
            return Err(out_of_range(
                "amount of mix",
                show(total),
                format!("{} (one drop of paint with its thinner) to {MOST_DROPS} drops", show(least)),
                if ideal < 0.5 { "mix more, or thin in two steps" } else { "measure with a syringe instead" },
            ));
        }
        let reach = (0.25 * ideal).ceil().max(1.0);
        let mut n_p = (ideal.round() - reach).max(1.0);
        while n_p <= ideal.round() + reach {
            for n_t in [(n_p * per_drop).floor(), (n_p * per_drop).ceil()] {
                if let Some(r) = recipe(n_p, n_t, wanted, Some(v), drops)? {
                    let amount = r.amount_error.map_or(0.0, Quantity::si);
                    let cost = (r.ratio_error.si() / RATIO_WEIGHT).powi(2) + (amount / AMOUNT_WEIGHT).powi(2);
                    found.push((cost, r));
                }
            }
            n_p += 1.0;
        }
        found.sort_by(|a, b| a.0.total_cmp(&b.0));
    } else {
        for n_p in 1..=SMALL_COUNT {
            let exact = f64::from(n_p) * per_drop;
            if f64::from(n_p) + exact > MOST_DROPS {
                break;
            }
            for n_t in [exact.floor(), exact.ceil()] {
                if let Some(r) = recipe(f64::from(n_p), n_t, wanted, None, drops)? {
                    found.push((f64::from(n_p) + n_t, r));
                }
            }
        }
        found.sort_by(|a, b| {
            let error = |r: &DropRecipe| r.ratio_error.si().abs();
            a.0.total_cmp(&b.0).then(error(&a.1).total_cmp(&error(&b.1)))
        });
        let mut best = f64::INFINITY;
        found.retain(|(_, r)| {
            let error = r.ratio_error.si().abs();
            let better = error < best && best > GOOD_RATIO;
            best = if better { error } else { best };
            better
        });
        // One drop of each is no recipe for 2 : 1. Where no count holds the ratio, the nearest stands alone.
        let usable = found.iter().position(|(_, r)| r.ratio_error.si().abs() <= USABLE_RATIO);
        found.drain(..usable.unwrap_or(found.len().saturating_sub(1)));
    }
    if found.is_empty() {
        return Err(out_of_range(
            "drops of thinner to one drop of paint",
            digits(per_drop, 3),
            format!("a recipe of up to {MOST_DROPS} drops"),
            "measure with a syringe, or thin in two steps",
        ));
    }
    found.dedup_by(|a, b| (a.1.paint_drops, a.1.thinner_drops) == (b.1.paint_drops, b.1.thinner_drops));
    Ok(found.into_iter().map(|(_, r)| r).take(most).collect())
}

/// One pair of counts; `None` when it holds no thinner although some is wanted.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "counts are whole and below 2000")]
fn recipe(
    n_p: f64,
    n_t: f64,
    wanted: Thinning,
    total: Option<f64>,
    drops: &DropVolumes,
) -> Result<Option<DropRecipe>> {
    let ratio = wanted.thinner_per_paint();
    if n_t < 1.0 && ratio > 0.0 {
        return Ok(None);
    }
    let (paint, thinner) = (n_p * drops.paint.best.si(), n_t * drops.thinner.best.si());
    let thinning = Thinning::from_parts(Parts { thinner, paint })?;
    let x = thinning.paint_fraction().get();
    // u(x) = x (1 − x) u(r)/r for each cause (GUM)
    let part = |what: &str, relative: f64| ModelError::new(what, x * (1.0 - x) * relative);
    let spread = [
        part("volume of a drop of paint", drops.paint.relative_std()),
        part("volume of a drop of thinner", drops.thinner.relative_std()),
        part("counting drops of paint", DROP_SCATTER / n_p.sqrt()),
        part("counting drops of thinner", DROP_SCATTER / n_t.max(1.0).sqrt()),
    ];
    Ok(Some(DropRecipe {
        paint_drops: n_p as u32,
        thinner_drops: n_t as u32,
        thinning,
        ratio_error: Ratio::from_si(if ratio > 0.0 {
            thinning.thinner_per_paint() / ratio - 1.0
        } else {
            0.0
        }),
        total: Volume::from_si(paint + thinner),
        amount_error: total.map(|v| Ratio::from_si((paint + thinner) / v - 1.0)),
        paint_fraction: Estimate::absolute(Ratio::from_si(x), &spread),
    }))
}
