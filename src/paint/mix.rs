//! Paint and thinner in one cup: how thick, how fast through my flow cup, how much solid, how much vapour?
//!
//! A [`Mix`] is a paint, a thinner and a [`Thinning`]. Volumes are measured at 20 °C before mixing and taken to
//! add up (ideal volumes): alcohol-water mixes shrink by a few percent, ester and hydrocarbon mixes by less than
//! one. Viscosity is the dilution law with the thinner's own viscosity from its composition; solids and film
//! follow from the mass balance, since thinner leaves and solids stay: `VS' = x VS`, `dry = wet x VS`.

use super::calibrate::near_thinner;
use super::family::Family;
use super::fit::DilutionReading;
use super::law::DilutionLaw;
use super::settling::{Settling, settling};
use super::stock::{Paint, reference_temperature};
use crate::answer::Answer;
use crate::blend::Blend;
use crate::cup::FlowCup;
use crate::dose::{Thinning, VocContent};
use crate::error::{Result, out_of_range};
use crate::estimate::{Estimate, Input, Scale, propagate};
use crate::quantity::{
    Density, DynamicViscosity, KinematicViscosity, Length, Mass, MassConcentration, Quantity, Ratio,
    Temperature, Time, Volume, VolumeFraction, digits, show,
};
use crate::warning::Warning;
use crate::working::{Step, Working};
use serde::{Deserialize, Serialize};

/// Warming a waterborne metallic paint by more than this may thicken it.
const WARM_WATERBORNE_K: f64 = 5.0;
/// Share of water in a thinner above which resins of solvent paints come out (source key `compat-practice`).
const WATER_CURDLES: f64 = 0.02;
/// Share of water in a thinner below which dispersions are at risk (source key `compat-practice`).
const WATER_KEEPS_DISPERSION: f64 = 0.5;

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
#[serde(deny_unknown_fields)]
pub struct Mix {
    paint: Paint,
    thinner: Blend,
    thinning: Thinning,
}

/// Volatile organic content of a mix.
#[derive(Debug, Clone, PartialEq)]
pub struct Voc {
    /// Organic volatiles per volume of the mix.
    pub total: MassConcentration,
    /// Organic volatiles per volume of the mix less its water and exempt solvents.
    pub less_water_and_exempt: MassConcentration,
    /// The steps.
    pub working: Working,
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
        DilutionLaw::fit(&[stock], thinner.viscosity(t)?.estimate, &self.shape)
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

    fn x(&self) -> f64 {
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
        let inputs = [
            Input::new("viscosity of the mix", eta.best().si().ln(), eta.estimate.relative_std()),
            Input::new("density of the mix", rho.best.si().ln(), rho.relative_std()),
        ];
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

    /// Volume of dry film per volume of mix: `x VS`.
    pub fn volume_solids(&self) -> Estimate<Ratio> {
        let x = self.x();
        let scale = |v: Ratio| Ratio::from_si(v.si() * x);
        let vs = &self.paint.volume_solids;
        Estimate { best: scale(vs.best), low: scale(vs.low), high: scale(vs.high), ..vs.clone() }
    }

    /// Density at a temperature; ideal volumes.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 0 to 50 °C.
    pub fn density(&self, t: Temperature) -> Result<Estimate<Density>> {
        mix_density(&self.paint, &self.thinner, self.x(), t)
    }

    /// All that evaporates: carrier and thinner together, by volume.
    ///
    /// # Errors
    /// An error of the blend, for example an activity model that lacks a group.
    pub fn volatile(&self) -> Result<Blend> {
        let carrier = self.x() * (1.0 - self.paint.volume_solids.best.si());
        let thinner = 1.0 - self.x();
        if carrier <= 0.0 {
            return Ok(self.thinner.clone());
        }
        if thinner <= 0.0 {
            return Ok(self.paint.carrier.clone());
        }
        self.paint.carrier.mixed_with(carrier, &self.thinner, thinner, None)
    }

    /// Volatile organic content: total, and less water and exempt solvents.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] when water and exempt solvents are all there is.
    pub fn voc(&self) -> Result<Voc> {
        let x = self.x();
        let volatile = 1.0 - x * self.paint.volume_solids.best.si();
        let blend = self.volatile()?;
        let rho = blend.density(reference_temperature())?.best().si();
        let (mut organic, mut water, mut exempt) = (0.0, 0.0, 0.0);
        for part in blend.ingredients() {
            let volume = volatile * part.volume_fraction;
            if part.solvent.id() == "water" {
                water += volume;
            } else if part.solvent.voc_exempt() == Some(true) {
                exempt += volume;
            } else {
                organic += volatile * rho * part.mass_fraction;
            }
        }
        let content = VocContent::new(Volume::from_si(1.0), Mass::from_si(organic))?
            .water(Volume::from_si(water))?
            .exempt(Volume::from_si(exempt))?;
        let (total, less) = (content.total(), content.less_water_and_exempt()?);
        let mut working = Working::new(format!("VOC of {}", self.words()));
        working.push(
            Step::new("volatile part of the mix", "1 − x VS", r"1 - x\,VS")
                .numbers(format!("1 − {} × {}", digits(x, 4), digits(self.paint.volume_solids.best.si(), 3)))
                .result(show(Ratio::from_si(volatile)))
                .source("ideal-volumes"),
        );
        working.push(
            Step::new(
                "VOC less water and exempt solvents",
                "m_organic / (V − V_water − V_exempt)",
                r"\frac{m_{org}}{V - V_w - V_{ex}}",
            )
            .numbers(format!(
                "{} g/L / (1 − {} − {})",
                digits(organic, 4),
                digits(water, 3),
                digits(exempt, 3)
            ))
            .result(show(less))
            .source("EPA-Method-24"),
        );
        Ok(Voc { total, less_water_and_exempt: less, working })
    }

    /// Dry film that a wet film of this mix leaves: `dry = wet x VS`.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a wet film that is not positive.
    pub fn dry_film(&self, wet: Length) -> Result<Estimate<Length>> {
        positive_length("wet film thickness", wet)?;
        let vs = self.volume_solids();
        let scale = |v: Ratio| Length::from_si(v.si() * wet.si());
        Ok(Estimate {
            best: scale(vs.best),
            low: scale(vs.low),
            high: scale(vs.high),
            coverage: vs.coverage,
            contributors: vs.contributors,
        })
    }

    /// Wet film of this mix that leaves the wanted dry film: `wet = dry/(x VS)`.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a dry film that is not positive.
    pub fn wet_film(&self, dry: Length) -> Result<Estimate<Length>> {
        positive_length("dry film thickness", dry)?;
        let vs = self.volume_solids();
        let scale = |v: Ratio| Length::from_si(dry.si() / v.si());
        Ok(Estimate {
            best: scale(vs.best),
            low: scale(vs.high),
            high: scale(vs.low),
            coverage: vs.coverage,
            contributors: vs.contributors,
        })
    }

    /// How fast the pigment sinks in this mix, and when the top `depth` of the cup is clear of it.
    ///
    /// # Errors
    /// Those of [`Self::viscosity`] and of [`super::settling()`].
    pub fn settling(&self, depth: Length, t: Temperature) -> Result<Settling> {
        let pigment = &self.paint.pigment;
        let fraction = self.volume_solids().best.si() * pigment.volume_concentration.best.si();
        settling(
            &pigment.diameter,
            &pigment.density,
            self.volatile()?.density(t)?.best(),
            &self.viscosity(t)?.estimate,
            VolumeFraction::new(fraction)?,
            depth,
        )
    }

    /// What is in the mix and how its solids follow.
    pub fn working(&self) -> Working {
        let x = self.x();
        let mut working = Working::new(self.words());
        working.push(
            Step::new("paint fraction", "x = Vp/(Vp + Vt)", r"x = \frac{V_p}{V_p + V_t}")
                .numbers(format!("1/(1 + {})", digits(1.0 / x - 1.0, 4)))
                .result(show(Ratio::from_si(x)))
                .source("ideal-volumes"),
        );
        working.push(
            Step::new("volume solids of the mix", "VS' = x VS", r"VS' = x\,VS")
                .numbers(format!("{} × {}", digits(x, 4), show(self.paint.volume_solids.best)))
                .result(self.volume_solids().to_string())
                .source("ideal-volumes"),
        );
        working
    }

    fn words(&self) -> String {
        format!("{} with {} parts thinner to 1 part paint", self.paint.name, digits(1.0 / self.x() - 1.0, 3))
    }

    /// What is known to go wrong between this family and this thinner; test a few drops on glass.
    pub fn compatibility(&self) -> Vec<Warning> {
        let water: f64 = self
            .thinner
            .ingredients()
            .iter()
            .filter(|i| i.solvent.id() == "water")
            .map(|i| i.volume_fraction)
            .sum();
        let family = self.paint.family;
        let thinned = self.x() < 1.0;
        let mut out = Vec::new();
        if thinned && !family.takes_water() && water > WATER_CURDLES {
            out.push(Warning::new(
                "water-curdles-resin",
                format!(
                    "the thinner holds {} water (more than {}), which throws the resin of a {family} out even where \
                     the solvents stay one liquid: take a thinner without water",
                    show(Ratio::from_si(water)),
                    show(Ratio::from_si(WATER_CURDLES))
                ),
            ));
        }
        if thinned && family == Family::WaterborneAcrylic && water < WATER_KEEPS_DISPERSION {
            out.push(Warning::new(
                "solvent-breaks-dispersion",
                format!(
                    "the thinner holds {} water (less than {}); strong solvent can make the dispersion of a {family} \
                     clump: thin with water and at most a little glycol or alcohol",
                    show(Ratio::from_si(water)),
                    show(Ratio::from_si(WATER_KEEPS_DISPERSION))
                ),
            ));
        }
        out
    }

    fn warnings(&self, t: Temperature) -> Result<Vec<Warning>> {
        let mut out = self.compatibility();
        let paint = &self.paint;
        if paint.typical.contains(&"stock_viscosity") {
            out.push(Warning::new(
                "stock-viscosity-typical",
                format!(
                    "the stock viscosity of {} is the typical {} of a {} ({} to {}): time the paint in a cup and \
                     calibrate",
                    paint.name,
                    show(paint.stock_viscosity.best),
                    paint.family,
                    show(paint.stock_viscosity.low),
                    show(paint.stock_viscosity.high)
                ),
            ));
        }
        if paint.family.typical()?.thickens_when_warm
            && t.si() - paint.stock_temperature.si() > WARM_WATERBORNE_K
        {
            out.push(Warning::new(
                "waterborne-may-thicken-warm",
                format!(
                    "{} is {} above the temperature of the reading; metallic waterborne paints can thicken on \
                     warming: read it at this temperature",
                    show(t),
                    show(crate::quantity::TemperatureDifference::from_si(t.si() - paint.stock_temperature.si()))
                ),
            ));
        }
        if paint.family == Family::ArtistsOil && self.x() > 0.8 {
            out.push(Warning::new(
                "paste-gels-at-rest",
                format!(
                    "{} at {} paint is a paste that gels at rest (below about 80 % paint it flows); one viscosity \
                     does not describe it: thin further before you trust a cup",
                    paint.name,
                    show(Ratio::from_si(self.x()))
                ),
            ));
        }
        Ok(out)
    }
}

fn positive_length(what: &str, l: Length) -> Result<()> {
    if l.si().is_finite() && l.si() > 0.0 {
        return Ok(());
    }
    Err(out_of_range(what, show(l), "a finite value above 0", "write for example \"25 µm\""))
}
