//! Drops of thinner that bring a thickened mix back, and what they leave it as.

use super::course::CupCourse;
use super::run::{Followed, Thickening};
use crate::dose::Dropper;
use crate::error::{Error, Result, bad_data};
use crate::estimate::{Estimate, Input, ModelError, Scale, propagate};
use crate::film::flash_off::MODEL_SPREAD;
use crate::quantity::as_text::{self, Text};
use crate::quantity::{Mass, Number, Quantity, Ratio, Time, Volume, digits, show};
use crate::warning::Warning;
use crate::working::{Step, Working};
use serde::{Deserialize, Serialize};

/// Halvings that bring an amount to its last digits.
const BISECTIONS: usize = 50;
/// A restored mix that dries slower than this is told of.
const SLOWER: f64 = 0.9;
/// Mass fractions that are read back add up to one within this.
const ROUNDING: f64 = 1e-6;

/// What brings a mix in an open cup back to the viscosity it was poured with.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Record", into = "Record")]
pub struct TopUp {
    /// Mass that has left, less what came from the air.
    pub lost_mass: Mass,
    /// Its volume.
    pub lost_volume: Volume,
    /// Whole thinner to add.
    pub thinner: Estimate<Volume>,
    /// The same in drops.
    pub drops: Estimate<Number>,
    /// Mass fractions of the liquid of the mix as poured.
    pub poured: Vec<(String, Ratio)>,
    /// Mass fractions of the liquid once restored: richer in what is slow.
    pub restored: Vec<(String, Ratio)>,
    /// Mass that leaves the restored mix each second over that of the mix as poured.
    pub evaporation_rate: Ratio,
    /// What to mind.
    pub warnings: Vec<Warning>,
    /// The steps.
    pub working: Working,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    #[serde(with = "as_text")]
    lost_mass: Mass,
    #[serde(with = "as_text")]
    lost_volume: Volume,
    thinner: Estimate<Volume>,
    drops: Estimate<Number>,
    poured: Vec<(String, Text<Ratio>)>,
    restored: Vec<(String, Text<Ratio>)>,
    #[serde(with = "as_text")]
    evaporation_rate: Ratio,
    warnings: Vec<Warning>,
    working: Working,
}

impl From<TopUp> for Record {
    fn from(t: TopUp) -> Self {
        let texts =
            |shares: Vec<(String, Ratio)>| shares.into_iter().map(|(name, x)| (name, Text(x))).collect();
        Self {
            lost_mass: t.lost_mass,
            lost_volume: t.lost_volume,
            thinner: t.thinner,
            drops: t.drops,
            poured: texts(t.poured),
            restored: texts(t.restored),
            evaporation_rate: t.evaporation_rate,
            warnings: t.warnings,
            working: t.working,
        }
    }
}

impl TryFrom<Record> for TopUp {
    type Error = Error;

    fn try_from(r: Record) -> Result<Self> {
        let wrong = |field: &str, problem: &str| {
            Err(bad_data("stored top-up", None, Some(field), problem, "top up the cup again and store that"))
        };
        for (field, shares) in [("poured", &r.poured), ("restored", &r.restored)] {
            let whole: f64 = shares.iter().map(|(_, x)| x.0.si()).sum();
            let parts = shares.iter().all(|(_, x)| (0.0..=1.0).contains(&x.0.si()));
            if !parts || (whole - 1.0).abs() > ROUNDING {
                return wrong(field, "holds mass fractions that do not make one whole");
            }
        }
        if r.thinner.best.si() < 0.0 || r.drops.best.si() < 0.0 {
            return wrong("drops", "is below zero");
        }
        if r.evaporation_rate.si() < 0.0 {
            return wrong("evaporation_rate", "is below zero");
        }
        let shares =
            |texts: Vec<(String, Text<Ratio>)>| texts.into_iter().map(|(name, x)| (name, x.0)).collect();
        Ok(Self {
            lost_mass: r.lost_mass,
            lost_volume: r.lost_volume,
            thinner: r.thinner,
            drops: r.drops,
            poured: shares(r.poured),
            restored: shares(r.restored),
            evaporation_rate: r.evaporation_rate,
            warnings: r.warnings,
            working: r.working,
        })
    }
}

impl CupCourse {
    /// Drops of the mix's own thinner that restore its viscosity at a time.
    ///
    /// Usually more than what was lost: the slow part that stays is itself the thicker liquid.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a time outside those followed, or where the mix has not thickened; errors of
    /// the drop.
    pub fn top_up(&self, time: Time, dropper: &Dropper) -> Result<TopUp> {
        self.check_time(time)?;
        let (cup, room) = (self.cup(), self.cup().room());
        let area = cup.area_m2();
        let mix = cup.mix();
        let mut inputs = Self::inputs();
        inputs.push(Input::new("evaporation model", 0.0, MODEL_SPREAD));
        let per_area = |x: &[f64]| -> Result<f64> {
            let (followed, law) = self.again(x)?;
            let at = followed.amounts_at(time.si() * x.last().map_or(1.0, |ln| ln.exp()));
            self.volume_to_restore(&followed, &law, &at)
        };
        let start: Vec<f64> = inputs.iter().map(|i| i.best).collect();
        let best_m = per_area(&start)?;
        if best_m <= 0.0 {
            return Err(crate::error::out_of_range(
                "viscosity of the mix",
                show(self.thickened(time)?.best()),
                "more than 100 % of what it was poured with",
                "it has not thickened: water from the air or a thin slow solvent made up for what left; add nothing",
            ));
        }
        let thinner: Estimate<Volume> = propagate(&inputs, &[], Scale::Log, |x| Ok(per_area(x)? * area))?;
        let t = room.temperature();
        let blend = mix.thinner();
        let drop = dropper.drop_volume(
            blend.surface_tension(t)?.best(),
            blend.density(t)?.best(),
            Some(blend.viscosity(t)?.best()),
        )?;
        let count = [
            ModelError::new("thinner to add", thinner.relative_std()),
            ModelError::new("volume of a drop", drop.estimate.relative_std()),
        ];
        let drops = Estimate::relative(Number::from_si(thinner.best.si() / drop.best().si()), &count);
        let here = self.followed.amounts_at(time.si());
        let restored = self.with_thinner(&self.followed, &here, best_m);
        let poured = self.followed.amounts(0);
        let rate = |n: &[f64]| -> Result<f64> {
            Ok(cup.pool().fluxes(Some(n))?.iter().map(|f| f.flux_kg_m2_s.max(0.0)).sum())
        };
        let evaporation_rate = Ratio::from_si(rate(&restored)? / rate(&poured)?);
        let lost_mass = self.followed.mass_kg_m2(&poured) - self.followed.mass_kg_m2(&here);
        let lost_volume = self.followed.liquid_m(&poured) - self.followed.liquid_m(&here);
        let mut warnings: Vec<Warning> = self.warnings().to_vec();
        warnings.extend(drop.warnings.iter().cloned());
        if evaporation_rate.si() < SLOWER {
            warnings.push(Warning::new(
                "top-up-slower",
                format!(
                    "the restored mix evaporates at {} of the rate it was poured with: what left was the fast part; top up with \
                     the fast solvents alone, or mix afresh, where drying time matters",
                    show(Ratio::from_si((100.0 * evaporation_rate.si()).round() / 100.0))
                ),
            ));
        }
        let mut working = self.working();
        working.push(
            Step::new(
                "thinner that restores the viscosity",
                "η(n + n_thinner) = η0",
                r"\eta(n + n_t) = \eta_0",
            )
            .numbers(format!("after {}, {} lost", show(time), show(Volume::from_si(lost_volume * area))))
            .result(thinner.to_string())
            .source("dilution-law"),
        );
        working.push(
            Step::new("drops", "N = V/v", r"N = V/v")
                .numbers(format!("{} / {}", show(thinner.best), show(drop.best())))
                .result(format!("{} drops", digits(drops.best.si(), 2)))
                .source("IDEAL_VOLUMES"),
        );
        Ok(TopUp {
            lost_mass: Mass::from_si(lost_mass * area),
            lost_volume: Volume::from_si(lost_volume * area),
            thinner,
            drops,
            poured: self.shares(&poured),
            restored: self.shares(&restored),
            evaporation_rate,
            warnings,
            working,
        })
    }

    /// Amounts after so much whole thinner, m3/m2, was stirred in.
    fn with_thinner(&self, followed: &Followed, amounts: &[f64], volume_m: f64) -> Vec<f64> {
        let thinner = self.cup().mix().thinner().species();
        let mut added = vec![0.0; amounts.len()];
        let mut molar = 0.0;
        for part in thinner {
            let index = followed.solvents.iter().position(|s| s.id() == part.solvent.id());
            if let Some(i) = index {
                added[i] += part.mole_fraction;
                molar += part.mole_fraction * followed.species[i].molar_volume_m3_mol;
            }
        }
        amounts.iter().zip(added).map(|(n, x)| n + x * volume_m / molar).collect()
    }

    /// Volume of whole thinner, m3/m2, after which the viscosity is as poured; zero when it is not above it.
    fn volume_to_restore(&self, followed: &Followed, law: &Thickening, amounts: &[f64]) -> Result<f64> {
        if followed.ln_rise(law, amounts)? <= 0.0 {
            return Ok(0.0);
        }
        let (mut low, mut high) = (0.0, self.cup().depth().si());
        for _ in 0..BISECTIONS {
            let middle = 0.5 * (low + high);
            if followed.ln_rise(law, &self.with_thinner(followed, amounts, middle))? > 0.0 {
                low = middle;
            } else {
                high = middle;
            }
        }
        Ok(0.5 * (low + high))
    }
}
