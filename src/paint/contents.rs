//! What a mix holds: solids, density, all that evaporates, VOC, film build, settling.
//!
//! Mass balance throughout, ideal volumes: thinner and carrier leave, solids stay.

use super::mix::{Mix, mix_density};
use super::settling::{Settling, settling};
use super::stock::reference_temperature;
use crate::blend::Blend;
use crate::dose::VocContent;
use crate::error::Result;
use crate::estimate::Estimate;
use crate::quantity::{
    Density, Length, Mass, MassConcentration, Quantity, Ratio, Temperature, Volume, VolumeFraction, as_text,
    digits, positive, show,
};
use crate::working::{Step, Working};
use serde::{Deserialize, Serialize};

/// Volatile organic content of a mix.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Voc {
    /// Organic volatiles per volume of the mix.
    #[serde(with = "as_text")]
    pub total: MassConcentration,
    /// Organic volatiles per volume of the mix less its water and exempt solvents.
    #[serde(with = "as_text")]
    pub less_water_and_exempt: MassConcentration,
    /// The steps.
    pub working: Working,
}

impl Mix {
    /// Volume of dry film per volume of mix: `x VS`.
    pub fn volume_solids(&self) -> Estimate<Ratio> {
        let x = self.x();
        let scale = |v: Ratio| Ratio::from_si(v.si() * x);
        let vs = &self.paint().volume_solids;
        Estimate { best: scale(vs.best), low: scale(vs.low), high: scale(vs.high), ..vs.clone() }
    }

    /// Density at a temperature; ideal volumes.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 0 to 50 °C.
    pub fn density(&self, t: Temperature) -> Result<Estimate<Density>> {
        mix_density(self.paint(), self.thinner(), self.x(), t)
    }

    /// All that evaporates: carrier and thinner together, by volume.
    ///
    /// # Errors
    /// An error of the blend, for example an activity model that lacks a group.
    pub fn volatile(&self) -> Result<Blend> {
        let carrier = self.x() * (1.0 - self.paint().volume_solids.best.si());
        let thinner = 1.0 - self.x();
        if carrier <= 0.0 {
            return Ok(self.thinner().clone());
        }
        if thinner <= 0.0 {
            return Ok(self.paint().carrier.clone());
        }
        self.paint().carrier.mixed_with(carrier, self.thinner(), thinner, None)
    }

    /// Volatile organic content: total, and less water and exempt solvents.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] when water and exempt solvents are all there is.
    pub fn voc(&self) -> Result<Voc> {
        let x = self.x();
        let volatile = 1.0 - x * self.paint().volume_solids.best.si();
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
                .numbers(format!(
                    "1 − {} × {}",
                    digits(x, 4),
                    digits(self.paint().volume_solids.best.si(), 3)
                ))
                .result(show(Ratio::from_si(volatile)))
                .source("IDEAL_VOLUMES"),
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
            .source("EPA_METHOD24"),
        );
        Ok(Voc { total, less_water_and_exempt: less, working })
    }

    /// Dry film that a wet film of this mix leaves: `dry = wet x VS`.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a wet film that is not positive.
    pub fn dry_film(&self, wet: Length) -> Result<Estimate<Length>> {
        positive("wet film thickness", wet)?;
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
        positive("dry film thickness", dry)?;
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
        let pigment = &self.paint().pigment;
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
                .source("IDEAL_VOLUMES"),
        );
        working.push(
            Step::new("volume solids of the mix", "VS' = x VS", r"VS' = x\,VS")
                .numbers(format!("{} × {}", digits(x, 4), show(self.paint().volume_solids.best)))
                .result(self.volume_solids().to_string())
                .source("IDEAL_VOLUMES"),
        );
        working
    }
}
