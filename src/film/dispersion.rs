//! When may a waterborne coat be touched, and is the room warm enough for it to become a film at all?
//!
//! Polymer particles in water. **Drying**: water leaves as from open water until the particles touch, at 74 vol% of solids
//! (Kiil); the rest diffuses as vapour through the layer that is already dry, `J = D Δc/(δ + D/k)` with D 7e-7 m2/s. As the
//! dry layer grows from nothing to the whole film, that stretches the last stage by `1 + k h/(2 D)`, h the dry film: 1 % for
//! 10 µm in a room, a half for 0.5 mm. **Touch dry**, as used here: packed, and water down to 5 % of the volume of water
//! and solids; no standard gives a number, a factor 1.5 stands for the choice.
//!
//! **Film formation**: above the minimum film-formation temperature (MFFT) the particles flow into one film, below it the coat
//! dries to powder or cracks. Coalescing aid lowers it ([`crate::paint`], common practice). The film counts at its coldest.
//!
//! Neglected: a skin that closes early (in thick coats drying then slows far more), particles that deform before they
//! touch, slow glycols that keep a dry film tacky, and hardening after touch dry, which goes on for days.

use super::coat::Film;
use super::course::{Seen, is_water, wet_surface};
use super::drying::Drying;
use super::tip::PACKED;
use super::trace::Trace;
use super::volatile::Volatile;
use crate::answer::Answer;
use crate::blend::Blend;
use crate::error::{Result, out_of_range};
use crate::estimate::{Estimate, ModelError, Scale};
use crate::paint::curing;
use crate::quantity::{
    Density, Quantity, Ratio, Temperature, TemperatureDifference, Time, VolumeFraction, as_text, show,
};
use crate::warning::Warning;
use crate::working::Step;
use serde::{Deserialize, Serialize};

/// Minimum film-formation temperatures of dispersions on the market, K.
const MFFT_K: (f64, f64) = (223.15, 373.15);
/// A value from a data sheet, K (source key `MFFT_SHEET`).
const MFFT_STD_K: f64 = 3.0;
/// Density of an acrylic binder, kg/m3 (source key `BINDER`).
const DENSITY_KG_M3: f64 = 1180.0;
/// Diffusivity of water vapour through the dry layer, m2/s (source key `CLOSE_PACKING`).
const DRY_LAYER_M2_S: f64 = 7e-7;
/// Water left at touch dry, of the volume of water and solids, and ln of the spread of that choice (source key
/// `DISPERSION_MARK`).
const WATER_LEFT: f64 = 0.05;
const MARK_SPREAD: f64 = 0.405;

/// The binder of a waterborne paint: particles that flow together.
///
/// ```
/// use mistcoat::{blend::Blend, film::Dispersion, quantity::{parse, VolumeFraction}};
/// let hard = Dispersion::new(parse("20 °C")?)?;
/// let carrier = Blend::from_names(
///     &[("water", 95.0), ("dipropylene glycol methyl ether", 5.0)], mistcoat::blend::Basis::Volume, None)?;
/// let with_aid = hard.film_formation_temperature(&carrier, VolumeFraction::new(0.3)?)?;
/// assert!(with_aid.best < hard.bare().best);
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Dispersion {
    mfft: Estimate<Temperature>,
    #[serde(with = "as_text")]
    density: Density,
    #[serde(with = "as_text")]
    share: Ratio,
}

impl Dispersion {
    /// Particles of this minimum film-formation temperature without coalescing aid, known within 3 K; 1.18 g/mL, no pigment.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside −50 to 100 °C.
    pub fn new(mfft: Temperature) -> Result<Self> {
        Self::estimated(&Estimate::absolute(mfft, &[ModelError::new("MFFT of the data sheet", MFFT_STD_K)]))
    }

    /// The same, with its interval.
    ///
    /// # Errors
    /// As [`Dispersion::new`].
    pub fn estimated(mfft: &Estimate<Temperature>) -> Result<Self> {
        if !(MFFT_K.0..=MFFT_K.1).contains(&mfft.best.si()) {
            return Err(out_of_range(
                "minimum film-formation temperature",
                show(mfft.best),
                "-50 °C to 100 °C",
                "acrylics for painting have 0 °C to 30 °C without coalescing aid; see the data sheet of the binder",
            ));
        }
        Ok(Self { mfft: mfft.clone(), density: Density::from_si(DENSITY_KG_M3), share: Ratio::from_si(1.0) })
    }

    /// The same with pigment: its share of the volume of the dry film.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for more than 90 %.
    pub fn with_pigment(mut self, volume_concentration: VolumeFraction) -> Result<Self> {
        if volume_concentration.get() > 0.9 {
            return Err(out_of_range(
                "pigment volume concentration",
                volume_concentration.to_string(),
                "at most 90 %",
                "above that there is no film; gloss paints have 10 % to 25 %, matt ones 40 % to 60 %",
            ));
        }
        self.share = Ratio::from_si(1.0 - volume_concentration.get());
        Ok(self)
    }

    /// Minimum film-formation temperature without coalescing aid.
    pub fn bare(&self) -> &Estimate<Temperature> {
        &self.mfft
    }

    /// Minimum film-formation temperature with the coalescing aid that a wet coat of this carrier and volume solids holds:
    /// 2.5 K lower for each mass per cent on the binder, up to 12 %.
    ///
    /// # Errors
    /// Errors of the blend's density.
    pub fn film_formation_temperature(
        &self,
        volatile: &Blend,
        solids: VolumeFraction,
    ) -> Result<Estimate<Temperature>> {
        let rule = curing::coalescing()?;
        let room = Temperature::from_si(298.15);
        let aid: f64 = volatile
            .ingredients()
            .iter()
            .filter(|i| rule.aids.iter().any(|aid| aid == i.solvent.name()))
            .map(|i| i.mass_fraction)
            .sum();
        let aid = aid * volatile.density(room)?.best().si() * (1.0 - solids.get());
        let binder = solids.get() * self.share.si() * self.density.si();
        if aid <= 0.0 || binder <= 0.0 {
            return Ok(self.mfft.clone());
        }
        let percent = (100.0 * aid / binder).min(rule.most_percent);
        let parts = [
            ModelError::new("MFFT of the bare particles", self.mfft.std()),
            ModelError::new("what coalescing aid does", percent * rule.per_percent_std_k),
        ];
        Ok(Estimate::absolute(
            Temperature::from_si(self.mfft.best.si() - percent * rule.per_percent_k),
            &parts,
        ))
    }
}

/// A film colder than its particles need.
pub(super) fn formation_warning(film: &Film, airs: &[Seen]) -> Option<Warning> {
    let mfft = film.film_formation_temperature()?;
    let coldest = airs.iter().map(|a| a.coldest_k.min(a.room.temperature().si())).reduce(f64::min)?;
    let cures = "warm the room and the part, dry it in slower air, or add the paint's coalescing aid";
    let shown = show(Temperature::from_si((coldest * 10.0).round() / 10.0));
    if coldest < mfft.best.si() {
        Some(Warning::new(
            "film-formation",
            format!(
                "the film is down to {shown}, below the minimum film-formation temperature of this paint, {mfft}: the particles do \
                 not flow together and it may dry powdery or cracked; {cures}"
            ),
        ))
    } else if coldest < mfft.best.si() + mfft.std() {
        Some(Warning::new(
            "film-formation-near",
            format!(
                "the film is down to {shown}, within {} of the minimum film-formation temperature of this paint, {mfft}, as well \
                 as that is known; {cures}",
                show(TemperatureDifference::from_si(mfft.std()))
            ),
        ))
    } else {
        None
    }
}

/// Reads off a course of this film, or of one with an input moved, when it is touch dry, s.
pub(super) fn touch_dry_reader(film: &Film) -> Result<impl Fn(&Trace) -> Result<f64>> {
    let surface = wet_surface(film)?;
    let species = surface.species.clone();
    let dry_m = film.dry_build().si();
    let fluxes = surface.first_fluxes();
    let water =
        film.volatile().species().iter().find(|s| is_water(&s.solvent)).map(|s| s.solvent.name().to_owned());
    let index = species.iter().position(|s| Some(&s.name) == water.as_ref());
    let (Some(index), true) = (index, dry_m > 0.0) else {
        return Err(out_of_range(
            "volatile matter of a dispersion",
            film.volatile().label(),
            "water, and solids that stay",
            "a dispersion dries by losing water; give a solution its Film::with_binder",
        ));
    };
    let stretch = 1.0 + fluxes.get(index).map_or(0.0, |f| f.k_m_s) * dry_m / (2.0 * DRY_LAYER_M2_S);
    Ok(move |trace: &Trace| {
        let solids = trace.solids_m;
        let packed = crossing(trace, |n| liquid_m(n, &species) - solids * (1.0 - PACKED) / PACKED);
        let dry = crossing(trace, |n| {
            n(index) * species[index].molar_volume_m3_mol - solids * WATER_LEFT / (1.0 - WATER_LEFT)
        });
        match (packed, dry) {
            (Some(packed), Some(dry)) if dry > packed => Ok(packed + (dry - packed) * stretch),
            (Some(packed), Some(_)) => Ok(packed),
            _ => Err(stays_wet(film, packed.is_some())),
        }
    })
}

/// When a dispersion is touch dry.
pub(super) fn touch_dry(dry: &Drying) -> Result<Answer<Time>> {
    let film = dry.film();
    let at = touch_dry_reader(film)?;
    let best = at(&film.dry_moved(super::coat::Moved::NOTHING)?.trace)?;
    let mut answer: Answer<Time> = dry.answer(best, Scale::Log, at, |result| {
        Step::new(
            "time until touch dry: particles packed, water down to 5 vol%",
            "t_packed + (t_dry − t_packed) (1 + k h/(2 D))",
            r"t_p + (t_d - t_p)\left(1 + \frac{k h}{2 D}\right)",
        )
        .result(result)
        .source("CLOSE_PACKING")
    })?;
    let std = answer.estimate.relative_std();
    let mut parts: Vec<ModelError> = answer
        .estimate
        .contributors
        .iter()
        .map(|c| ModelError::new(c.what.clone(), std * c.share.sqrt()))
        .collect();
    parts.push(ModelError::new("what touch dry means for a dispersion", MARK_SPREAD));
    answer.estimate = Estimate::relative(answer.estimate.best, &parts);
    answer.working.push(
        Step::new("spread of the definition", "factor 1.5", r"\times 1.5")
            .result(answer.estimate.to_string())
            .source("DISPERSION_MARK"),
    );
    Ok(answer)
}

fn liquid_m(n: &dyn Fn(usize) -> f64, species: &[Volatile]) -> f64 {
    species.iter().enumerate().map(|(i, s)| n(i).max(0.0) * s.molar_volume_m3_mol).sum()
}

/// When something that starts above zero first falls to it, by straight lines.
fn crossing(trace: &Trace, over: impl Fn(&dyn Fn(usize) -> f64) -> f64) -> Option<f64> {
    let at = |point: usize| over(&|i: usize| trace.amounts_mol_m2[i][point]);
    let mut before = (0.0, at(0));
    if before.1 <= 0.0 {
        return Some(0.0);
    }
    for (point, &t) in trace.times_s.iter().enumerate().skip(1) {
        let here = at(point);
        if here <= 0.0 {
            let (t0, value) = before;
            return Some(t0 + (t - t0) * value / (value - here));
        }
        before = (t, here);
    }
    None
}

fn stays_wet(film: &Film, packed: bool) -> crate::error::Error {
    let remedy = if packed {
        "water stays in the film: dry the air, or use less glycol, which holds it"
    } else {
        "slow glycols or water keep the particles apart: dry or warm the air, use less retarder, or follow it longer with `until`"
    };
    out_of_range(
        "state of the coat at which it is touch dry",
        "packed, with 5 % of water",
        format!("a coat that gets there in {}", show(film.followed_for())),
        remedy,
    )
}
