//! Cleaner through the gun between two layers, and at the end.

use super::habits::Habits;
use super::planned::PlannedLayer;
use super::session::Session;
use crate::error::Result;
use crate::estimate::Estimate;
use crate::quantity::{Quantity, Ratio, Volume, show};
use crate::rinse::{Bench, Change, Split, best_split};
use crate::warning::Warning;
use serde::{Deserialize, Serialize};

/// A rinse of one gun.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GunWash {
    /// Layer that was in the gun, counted from 0.
    pub after: usize,
    /// Portions of cleaner.
    pub split: Split,
    /// Cleaner in all, with its interval.
    pub cleaner: Estimate<Volume>,
    /// Name of the cleaner.
    pub with: String,
    /// The change of colour, where both shades are known.
    pub change: Option<Change>,
    /// Why so much.
    pub why: String,
}

/// The rinse after a layer; None when the next layer is the same paint and comes before it dries in the gun.
pub(super) fn after(
    session: &Session,
    planned: &[PlannedLayer],
    index: usize,
) -> Result<(Option<GunWash>, Option<Warning>)> {
    let habits = Habits::usual()?;
    let layer = &session.layers[index];
    let with = session.cleaner_after(layer).label();
    let bench = &session.bench;
    let Some(next) = session.layers.get(index + 1) else {
        let why = format!("wash at the end, until {} of the paint is left", show(habits.left));
        return Ok((Some(down_to(bench, habits.left, index, with, why)?), None));
    };
    let same = next.setup.paint == layer.setup.paint
        && next.setup.slowed_thinner()? == layer.setup.slowed_thinner()?;
    if same {
        if planned[index].until_next.lasts <= habits.gun_stands {
            return Ok((None, None));
        }
        let why = format!("same paint, more than {} until it is sprayed again", show(habits.gun_stands));
        return Ok((Some(down_to(bench, Ratio::from_si(1.0), index, with, why)?), None));
    }
    let (Some(from), Some(to)) = (layer.shade()?, next.shade()?) else {
        let why = format!("a shade is not given: until {} of the paint is left", show(habits.left));
        return Ok((Some(down_to(bench, habits.left, index, with, why)?), None));
    };
    // A smaller fill forgives less.
    let fill = planned[index + 1].mix.made().si().min(bench.fill.si());
    let fill = Volume::from_si(fill.max(bench.hold_up.best.si()));
    let change = Bench { fill, ..bench.clone() }.change(&from, &to)?;
    let warning = change.cleaner.warnings.first().cloned();
    let why = format!("{} may stay in the fill of {}", show(change.tolerated), next.name);
    let cleaner = change.cleaner.estimate.clone();
    Ok((
        Some(GunWash { after: index, split: change.split, cleaner, with, change: Some(change), why }),
        warning,
    ))
}

/// Until this share of what the gun keeps is old paint; cleaner grows with the hold-up.
fn down_to(bench: &Bench, left: Ratio, after: usize, with: String, why: String) -> Result<GunWash> {
    let split = best_split(bench.hold_up.best, left, bench.least_portion)?;
    let n = f64::from(split.portions);
    let of = |hold_up: Volume| {
        let each = hold_up.si() * (left.si().powf(-1.0 / n) - 1.0);
        Volume::from_si(n * each.max(bench.least_portion.si()))
    };
    let h = &bench.hold_up;
    let cleaner = Estimate {
        best: split.total,
        low: of(h.low).min_of(split.total),
        high: of(h.high).max_of(split.total),
        coverage: h.coverage,
        contributors: h.contributors.clone(),
    };
    Ok(GunWash { after, split, cleaner, with, change: None, why })
}

/// The nearer and the farther end, so that rounding never turns an interval inside out.
trait Ends {
    fn min_of(self, other: Self) -> Self;
    fn max_of(self, other: Self) -> Self;
}

impl Ends for Volume {
    fn min_of(self, other: Self) -> Self {
        if other < self { other } else { self }
    }
    fn max_of(self, other: Self) -> Self {
        if other > self { other } else { self }
    }
}

impl core::fmt::Display for GunWash {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(
            f,
            "{} × {} of {} ({} in all): {}",
            self.split.portions,
            show(self.split.each),
            self.with,
            self.cleaner,
            self.why
        )
    }
}
