//! Paint and thinner in one cup: how thick, how fast through my flow cup, how much solid, how much vapour?
//!
//! A [`Mix`] is a paint, a thinner and a [`Thinning`]. Volumes are measured at 20 °C before mixing and taken to
//! add up (ideal volumes): alcohol-water mixes shrink by a few percent, ester and hydrocarbon mixes by less than
//! one. Viscosity is the dilution law with the thinner's own viscosity from its composition; solids and film
//! follow from the mass balance, since thinner leaves and solids stay: `VS' = x VS`, `dry = wet x VS`.

use super::calibrate::near_thinner;
use super::fit::DilutionReading;
use super::law::DilutionLaw;
use super::stock::{Paint, reference_temperature};
use crate::answer::Answer;
use crate::blend::Blend;
use crate::cup::FlowCup;
use crate::dose::Thinning;
use crate::error::{Error, Result};
use crate::estimate::{Estimate, Scale, propagate};
use crate::quantity::{
    Density, DynamicViscosity, KinematicViscosity, Quantity, Temperature, Time, VolumeFraction, show,
};
use crate::working::{Step, Working};
use serde::{Deserialize, Serialize};

/// A paint thinned to a stated degree; immutable.
///
/// ```
/// use mistcoat::blend::{Basis, Blend};
/// use mistcoat::dose::{Parts, Thinning};
/// use mistcoat::paint::{Family, Paint};
/// use mistcoat::quantity::parse;
/// let paint = Paint::typical(Family::SolventLacquer, "hull green")?;
/// let thinner = Blend::from_names(&[("n-butyl acetate", 70.0), ("acetone", 30.0)], Basis::Volume, None)?;
/// let mix = paint.thin(&thinner, Thinning::from_parts(Parts { thinner: 1.0, paint: 1.0 })?)?;
/// let undiluted = paint.viscosity(parse("21 °C")?)?;
/// assert!(mix.viscosity(parse("21 °C")?)?.best() < undiluted.best);
/// assert!((mix.volume_solids().best.value - paint.volume_solids().best.value / 2.0).abs() < 1e-12);
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Record")]
pub struct Mix {
    paint: Paint,
    thinner: Blend,
    thinning: Thinning,
}

/// The form in files; a mix that separates is refused as in [`Paint::thin`].
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    paint: Paint,
    thinner: Blend,
    thinning: Thinning,
}

impl TryFrom<Record> for Mix {
    type Error = Error;

    fn try_from(r: Record) -> Result<Self> {
        r.paint.thin(&r.thinner, r.thinning)
    }
}

impl Paint {
    /// Thins the paint. Refused when carrier and thinner do not stay one liquid at 20 °C, since then the resin
    /// comes out too.
    ///
    /// # Errors
    /// A [`crate::error::PhaseSplit`], or an error of the thinner's properties.
    pub fn thin(&self, thinner: &Blend, thinning: Thinning) -> Result<Mix> {
        let mix = Mix { paint: self.clone(), thinner: thinner.clone(), thinning };
        if thinning.paint_fraction().get() < 1.0 {
            mix.volatile()?.require_one_liquid(reference_temperature())?;
        }
        Ok(mix)
    }

    /// Thins the paint to a viscosity at a temperature.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a viscosity the thinner cannot give (at or below its own, or above the
    /// paint's), and those of [`Self::thin`].
    pub fn thin_to(&self, thinner: &Blend, viscosity: DynamicViscosity, t: Temperature) -> Result<Mix> {
        let x = self.law(thinner, t)?.paint_fraction_for(viscosity)?.best();
        self.thin(thinner, Thinning::from_paint_fraction(x.try_into()?)?)
    }

    /// Thins the paint to an efflux time in a flow cup at a temperature.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a time the cup or the thinner cannot give, and those of [`Self::thin`].
    pub fn thin_to_time(&self, thinner: &Blend, time: Time, cup: &FlowCup, t: Temperature) -> Result<Mix> {
        let nu = cup.kinematic_viscosity(time)?.best().si();
        let law = self.law(thinner, t)?;
        // The density of the mix depends a little on x; two rounds settle it, twenty are safe.
        let mut x = 1.0;
        for _ in 0..20 {
            let eta = DynamicViscosity::from_si(nu * mix_density(self, thinner, x, t)?.best.si());
            let next = law.paint_fraction_for(eta)?.best().si();
            let moved = (next - x).abs();
            x = next;
            if moved < 1e-13 {
                break;
            }
        }
        self.thin(thinner, Thinning::from_paint_fraction(VolumeFraction::new(x)?)?)
    }

    /// The dilution law of this paint with a thinner at a temperature.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 0 to 50 °C, or for a thinner thicker than the paint.
    pub fn law(&self, thinner: &Blend, t: Temperature) -> Result<DilutionLaw<DynamicViscosity>> {
        let stock = DilutionReading::new(1.0, self.viscosity(t)?)?;
        let thinner = thinner.viscosity(t)?;
        let mut law = DilutionLaw::fit(&[stock], &thinner.estimate, &self.shape)?;
        law.warnings.extend(thinner.warnings);
        Ok(law)
    }
}

/// Density of a mix at `t`, volumes measured at 20 °C.
pub(super) fn mix_density(
    paint: &Paint,
    thinner: &Blend,
    x: f64,
    t: Temperature,
) -> Result<Estimate<Density>> {
    let t20 = reference_temperature();
    let thinner_20 = thinner.density(t20)?.estimate;
    let swell = x * paint.expansion(t)? + (1.0 - x) * thinner_20.best.si() / thinner.density(t)?.best().si();
    propagate(
        &[paint.density.as_input("density of the paint"), thinner_20.as_input("density of the thinner")],
        &[],
        Scale::Log,
        |rho| Ok((x * rho[0] + (1.0 - x) * rho[1]) / swell),
    )
}

impl Mix {
    /// The paint.
    pub fn paint(&self) -> &Paint {
        &self.paint
    }

    /// The thinner.
    pub fn thinner(&self) -> &Blend {
        &self.thinner
    }

    /// How far the paint is thinned.
    pub fn thinning(&self) -> Thinning {
        self.thinning
    }

    /// Volume of stock paint per volume of mix.
    pub fn paint_fraction(&self) -> VolumeFraction {
        self.thinning.paint_fraction()
    }

    pub(super) fn x(&self) -> f64 {
        self.thinning.paint_fraction().get()
    }

    /// Viscosity at a temperature.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 0 to 50 °C, or for a thinner thicker than the paint.
    pub fn viscosity(&self, t: Temperature) -> Result<Answer<DynamicViscosity>> {
        let stock = self.paint.viscosity(t)?;
        let mut working = Working::new(format!("Viscosity of {} at {}", self.words(), show(t)));
        if t != self.paint.stock_temperature {
            working.push(self.paint.temperature_rule.step(
                self.paint.stock_viscosity.best,
                self.paint.stock_temperature,
                t,
                &stock,
            ));
        }
        // Undiluted paint needs no law, and may be had with a thinner thicker than itself.
        if self.x() >= 1.0 {
            working.push(Step::new("undiluted", "η = η1", r"\eta = \eta_1").result(stock.to_string()));
            return Ok(Answer::new(stock, working).with_warnings(self.warnings(t)?));
        }
        let law = self.paint.law(&self.thinner, t)?;
        let answer = law.viscosity(self.paint_fraction())?;
        working.append(answer.working);
        Ok(Answer::new(answer.estimate, working)
            .with_warnings(answer.warnings)
            .with_warnings(self.warnings(t)?))
    }

    /// Kinematic viscosity at a temperature.
    ///
    /// # Errors
    /// Those of [`Self::viscosity`].
    pub fn kinematic_viscosity(&self, t: Temperature) -> Result<Answer<KinematicViscosity>> {
        let eta = self.viscosity(t)?;
        let rho = self.density(t)?;
        let inputs =
            [eta.estimate.as_log_input("viscosity of the mix"), rho.as_log_input("density of the mix")];
        let estimate: Estimate<KinematicViscosity> =
            propagate(&inputs, &[], Scale::Log, |v| Ok((v[0] - v[1]).exp()))?;
        let mut working = eta.working;
        working.push(
            Step::new("kinematic viscosity", "ν = η/ρ", r"\nu = \eta/\rho")
                .numbers(format!("{} / {}", show(eta.estimate.best), show(rho.best)))
                .result(estimate.to_string()),
        );
        Ok(Answer::new(estimate, working).with_warnings(eta.warnings))
    }

    /// Seconds to expect in a flow cup. Warns when the mix is too thin for the cup and names cups that serve.
    ///
    /// # Errors
    /// Those of [`Self::viscosity`], and a [`crate::error::RangeError`] where the cup's equation ends.
    pub fn efflux_time(&self, cup: &FlowCup, t: Temperature) -> Result<Answer<Time>> {
        let nu = self.kinematic_viscosity(t)?;
        let time = cup.efflux_time_from(&nu.estimate)?;
        let near = if self.x() < 1.0 { near_thinner(&self.thinner, cup, time.best(), t)? } else { None };
        let mut working = nu.working;
        working.append(time.working);
        Ok(Answer::new(time.estimate, working)
            .with_warnings(nu.warnings)
            .with_warnings(time.warnings)
            .with_warnings(near))
    }

    pub(super) fn words(&self) -> String {
        format!("{}, {}", self.paint.name, self.thinning)
    }
}
