//! What to mind before trusting a mix: family against thinner, typical values, warm waterborne paint, paste.

use super::family::Family;
use super::mix::Mix;
use crate::blend::Blend;
use crate::error::Result;
use crate::quantity::{Quantity, Ratio, Temperature, TemperatureDifference, digits, show};
use crate::warning::Warning;

/// Warming a waterborne metallic paint by more than this may thicken it.
const WARM_WATERBORNE_K: f64 = 5.0;
/// Share of water in a thinner above which resins of solvent paints come out (source key `compat-practice`).
const WATER_CURDLES: f64 = 0.02;
/// Share of water in a thinner below which dispersions are at risk (source key `compat-practice`).
const WATER_KEEPS_DISPERSION: f64 = 0.5;

/// Thickening, in ln η, of carrier and thinner together beyond that of each alone from which the mix warns: a
/// fifth. The dilution law knows only what each is alone.
const THICKENING: f64 = 0.2;

impl Mix {
    /// How much thicker, in ln η, the liquids become by meeting than the dilution law can know.
    fn thickening_on_mixing(&self, t: Temperature) -> Result<f64> {
        let carrier = self.x() * (1.0 - self.paint().volume_solids.best.si());
        let thinner = 1.0 - self.x();
        let excess = |blend: &Blend| blend.aqueous_excess(t.si());
        let apart = (carrier * excess(&self.paint().carrier) + thinner * excess(self.thinner()))
            / (carrier + thinner);
        Ok(excess(&self.volatile()?) - apart)
    }

    /// What is known to go wrong between this family and this thinner; test a few drops on glass.
    pub fn compatibility(&self) -> Vec<Warning> {
        let water = self.thinner().water_volume_fraction();
        let family = self.paint().family();
        let thinned = self.x() < 1.0;
        let mut out = Vec::new();
        if thinned && !family.takes_water() && water > WATER_CURDLES {
            out.push(Warning::new(
                "water-curdles-resin",
                format!(
                    "the thinner holds {} water (more than {}), which throws the resin of {family} out even where \
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

    pub(super) fn warnings(&self, t: Temperature) -> Result<Vec<Warning>> {
        let mut out = self.compatibility();
        let paint = self.paint();
        if paint.typical.contains(&"stock_viscosity") {
            out.push(Warning::new(
                "stock-viscosity-typical",
                format!(
                    "the stock viscosity of {} is typical of its family, {}: {}; time the paint in a cup and \
                     calibrate",
                    paint.name, paint.family, paint.stock_viscosity
                ),
            ));
        }
        let thickening = if self.x() < 1.0 { self.thickening_on_mixing(t)? } else { 0.0 };
        if thickening > THICKENING {
            out.push(Warning::new(
                "aqueous-thickening",
                format!(
                    "water meets water-soluble solvent here, and the two are up to {} times thicker together than the \
                     dilution law, which knows them apart, can tell: time this mix in a cup",
                    digits(thickening.exp(), 2)
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
                    show(TemperatureDifference::from_si(t.si() - paint.stock_temperature.si()))
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
