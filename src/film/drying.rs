//! What a dried coat can tell: curves, times, temperature, warnings.

use super::advice::{dew_warning, soft_when_warm, warm_warnings};
use super::coat::Film;
use super::course::{Course, is_water, phase_split};
use super::dispersion::formation_warning;
use super::stored::Stored;
use super::trace::Segment;
use crate::error::{Result, out_of_range};
use crate::quantity::{Length, Quantity, Ratio, Temperature, Time, show};
use crate::warning::Warning;
use serde::{Deserialize, Serialize};

/// The course of one drying coat.
///
/// Curves have one entry for each of [`Drying::times`]; the points lie where the integrator needed them, dense
/// when things move. "Lost" counts only what the coat arrived with: water taken up from the air is in
/// [`Drying::amounts`], but neither as loss nor as solvent left.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Stored")]
pub struct Drying {
    pub(super) film: Film,
    pub(super) species: Vec<String>,
    pub(super) times_s: Vec<f64>,
    pub(super) temperature_k: Vec<f64>,
    /// Mass of each species as a share of the volatile mass that arrived.
    pub(super) amounts: Vec<Vec<f64>>,
    pub(super) left: Vec<f64>,
    pub(super) volume_m: Vec<f64>,
    pub(super) segments: Vec<Segment>,
    pub(super) soft_until_s: [Option<f64>; 2],
    pub(super) least_above_glass_k: Option<f64>,
    pub(super) arrived: Vec<bool>,
    /// When each coat but the first landed: share still held of what the coats before it brought.
    pub(super) kept: Vec<f64>,
    /// Share of the volatile mass of all coats that the film held when the last had landed.
    pub(super) wet_share: f64,
    pub(super) warnings: Vec<Warning>,
    pub(super) steps: usize,
    pub(super) evaluations: usize,
}

impl Drying {
    pub(super) fn new(film: Film, course: Course) -> Self {
        let Course { species, trace, airs, mut warnings } = course;
        warnings.extend(phase_split(&film));
        let mass: f64 = species.iter().map(|s| s.arrived_mol_m2 * s.molar_mass_kg_mol).sum();
        let points = trace.times_s.len();
        let mut volume_m = vec![trace.solids_m; points];
        let mut left = vec![0.0; points];
        let mut amounts = trace.amounts_mol_m2;
        for (amounts, s) in amounts.iter_mut().zip(&species) {
            for ((n, volume), left) in amounts.iter_mut().zip(&mut volume_m).zip(&mut left) {
                *volume += *n * s.molar_volume_m3_mol;
                *n *= s.molar_mass_kg_mol / mass;
                if s.arrived_mol_m2 > 0.0 {
                    *left += *n;
                }
            }
        }
        warnings.extend(dew_warning(&film, &airs));
        warnings.extend(warm_warnings(&film, &airs));
        if trace.soft_until_s.iter().all(Option::is_some) {
            warnings.extend(soft_when_warm(&film, &airs));
        }
        warnings.extend(formation_warning(&film, &airs));
        if trace.work.gave_way {
            warnings.push(Warning::new(
                "unsettled-liquid",
                "while it dries the liquid comes near to parting into two and jumps to and fro: times and amounts \
                 around there are rough; use liquids that mix with each other and with water",
            ));
        }
        Self {
            film,
            species: species.iter().map(|s| s.name.clone()).collect(),
            times_s: trace.times_s,
            temperature_k: trace.temperature_k,
            amounts,
            left,
            volume_m,
            segments: trace.segments,
            soft_until_s: trace.soft_until_s,
            least_above_glass_k: trace.least_above_glass_k,
            arrived: species.iter().map(|s| s.arrived_mol_m2 > 0.0).collect(),
            kept: trace.kept,
            wet_share: trace.wet_share,
            warnings,
            steps: trace.work.steps + trace.work.rejected,
            evaluations: trace.work.evaluations,
        }
    }

    /// The coat that dried.
    pub fn film(&self) -> &Film {
        &self.film
    }

    /// Names of the species, in the order of [`Self::amounts`]; a petroleum cut appears as its surrogates, and
    /// water from the air comes last.
    pub fn species(&self) -> &[String] {
        &self.species
    }

    /// Times of the points, from zero.
    pub fn times(&self) -> Vec<Time> {
        self.times_s.iter().map(|t| Time::from_si(*t)).collect()
    }

    /// Film temperature at each time.
    pub fn temperatures(&self) -> Vec<Temperature> {
        self.temperature_k.iter().map(|t| Temperature::from_si(*t)).collect()
    }

    /// Share of the mass of volatile matter that the coat arrived with and still holds, 1 to 0.
    pub fn solvent_left(&self) -> &[f64] {
        &self.left
    }

    /// For each species its mass at each time, as a share of all volatile mass that arrived.
    pub fn amounts(&self) -> &[Vec<f64>] {
        &self.amounts
    }

    /// For each species its mass fraction among the volatiles in the film, at each time.
    pub fn composition(&self) -> Vec<Vec<f64>> {
        let total = |i: usize| -> f64 { self.amounts.iter().map(|a| a[i]).sum() };
        self.amounts
            .iter()
            .map(|a| a.iter().enumerate().map(|(i, m)| m / total(i).max(f64::MIN_POSITIVE)).collect())
            .collect()
    }

    /// Thickness of the film at each time, solids and liquid.
    pub fn thicknesses(&self) -> Vec<Length> {
        self.volume_m.iter().map(|h| Length::from_si(*h)).collect()
    }

    /// Mass fractions of the volatiles in the film at one time, by linear interpolation; the last known for
    /// times past the end.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a negative time.
    pub fn composition_at(&self, time: Time) -> Result<Vec<(String, Ratio)>> {
        let t = time.si();
        if t.is_nan() || t < 0.0 {
            return Err(out_of_range("time", show(time), "0 s or more", "count from the wet coat"));
        }
        let after = self.times_s.partition_point(|x| *x <= t);
        let at = |a: &[f64]| -> f64 {
            match (self.times_s.get(after), after.checked_sub(1)) {
                (Some(&t1), Some(before)) => {
                    let t0 = self.times_s[before];
                    let s = (t - t0) / (t1 - t0);
                    a[before] * (1.0 - s) + a[after] * s
                }
                (Some(_), None) => a[after],
                (None, _) => a.last().copied().unwrap_or(0.0),
            }
        };
        let masses: Vec<f64> = self.amounts.iter().map(|a| at(a)).collect();
        let total: f64 = masses.iter().sum::<f64>().max(f64::MIN_POSITIVE);
        Ok(self.species.iter().cloned().zip(masses.iter().map(|m| Ratio::from_si(m / total))).collect())
    }

    /// When this share (by mass) of the volatile matter that the coat arrived with has left.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a share outside 0 to 99.9 %, or one that the coat does not lose
    /// while it is followed (a slow solvent, or water in humid air); the message says what holds it.
    ///
    /// ```
    /// # use mistcoat::{air::Room, blend::{Basis, Blend}, film::Film, quantity::{parse, show, Ratio, Quantity, RelativeHumidity, VolumeFraction}};
    /// # let thinner = Blend::from_names(&[("acetone", 50.0), ("n-butyl acetate", 35.0), ("2-butoxyethanol", 15.0)], Basis::Mass, None)?;
    /// # let room = Room::new(parse("25 °C")?, RelativeHumidity::new(0.5)?)?;
    /// let dry = Film::new(&thinner, VolumeFraction::new(0.0)?, parse("25 µm")?, &room)?.dry()?;
    /// let half = dry.time_to_lose(parse("50 %")?)?;
    /// let most = dry.time_to_lose(parse("90 %")?)?;
    /// assert!(most > 10.0 * half); // the glycol ether sets the end
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn time_to_lose(&self, share: Ratio) -> Result<Time> {
        check_share(share)?;
        first_time(&self.segments, share).ok_or_else(|| self.never(share))
    }

    /// Most volatile matter lost while the coat was followed.
    pub fn most_lost(&self) -> Ratio {
        Ratio::from_si(1.0 - self.left.iter().copied().fold(1.0, f64::min))
    }

    /// For each coat that landed on others ([`Film::over`]): share of the volatile mass brought before it that the film
    /// still held when it landed. Empty for a coat by itself.
    pub fn kept(&self) -> &[f64] {
        &self.kept
    }

    /// Lowest film temperature.
    pub fn coldest(&self) -> Temperature {
        Temperature::from_si(self.temperature_k.iter().copied().fold(f64::INFINITY, f64::min))
    }

    /// Dew, cold, missing activity parameters, air too warm for the part or for wet solvent; empty when there is nothing to mind.
    pub fn warnings(&self) -> &[Warning] {
        &self.warnings
    }

    /// Steps the integrator took, accepted and rejected.
    pub fn steps(&self) -> usize {
        self.steps
    }

    /// Evaluations of the activity model that the run needed: times the cost of one, the least it could take.
    pub fn activity_evaluations(&self) -> usize {
        self.evaluations
    }

    /// What keeps the coat from losing this share.
    pub(super) fn never(&self, share: Ratio) -> crate::error::Error {
        let last = self
            .amounts
            .iter()
            .zip(&self.species)
            .zip(&self.arrived)
            .filter(|(_, arrived)| **arrived)
            .map(|((a, name), _)| (a.last().copied().unwrap_or(0.0), name))
            .max_by(|a, b| a.0.total_cmp(&b.0));
        let name = last.map_or("the slowest solvent", |(_, name)| name.as_str());
        let remedy = if self
            .film
            .volatile()
            .species()
            .iter()
            .any(|s| is_water(&s.solvent) && s.solvent.name() == name)
        {
            format!(
                "{name} stays, in equilibrium with air of {} humidity: warm the part or dry the air",
                self.film.last_room().relative_humidity()
            )
        } else {
            format!(
                "{name} stays: use less of it or a faster one, warm the part, or follow the coat longer with `until`"
            )
        };
        out_of_range(
            "wanted loss of volatile matter",
            show(share),
            format!(
                "at most {}, what this coat loses in {}",
                show(self.most_lost()),
                show(self.film.followed_for())
            ),
            remedy,
        )
    }
}

pub(super) fn check_share(share: Ratio) -> Result<()> {
    if share.si() > 0.0 && share.si() <= 0.999 {
        return Ok(());
    }
    Err(out_of_range(
        "share of volatile matter lost",
        show(share),
        "more than 0 %, at most 99.9 %",
        "90 % is flash-off; past 99.9 % a film has no definite end",
    ))
}

pub(super) fn first_time(segments: &[Segment], share: Ratio) -> Option<Time> {
    segments.iter().find_map(|s| s.time_of(1.0 - share.si())).map(Time::from_si)
}
