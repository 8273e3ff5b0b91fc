//! What a wet coat must say about itself before its flow can be worked out: how thick it is, how it thickens, surface
//! tension, density.

use super::yielding::check_yield_stress;
use crate::error::{Result, out_of_range};
use crate::estimate::{Estimate, ModelError};
use crate::paint::{Family, Mix, ViscosityTemperature};
use crate::quantity::{
    Density, DynamicViscosity, Pressure, Quantity, Ratio, SurfaceTension, Temperature, VolumeFraction,
    as_text, positive, show,
};
use serde::{Deserialize, Serialize};

/// Surface tension and density when nothing is said, and their standard uncertainties (source key `FLOW_USUAL`).
const USUAL_SURFACE_TENSION_N_M: f64 = 0.027;
const USUAL_DENSITY_KG_M3: f64 = 1000.0;
const SURFACE_TENSION_SPREAD: f64 = 0.1;
const DENSITY_SPREAD: f64 = 0.1;
/// Points by which a dilution law is carried past the stock paint.
const LAW_POINTS: u32 = 4;
/// Thickest that a dilution law is carried to, ln Pa.s: 1e6 Pa.s.
const LAW_ENDS_LN: f64 = 13.815_510_557_964_274;
/// Solids at which particles touch, and the share of it up to which the law is used (source key `CLOSE_PACKING`).
const PACKED: f64 = super::tip::PACKED;
const NEARLY_PACKED: f64 = 0.97;
/// A packed bed of particles no longer flows, Pa.s: as block-free (source key `FILM_VISCOSITY`).
const PACKED_PA_S: f64 = 1e7;
/// Exponent over the packing of Krieger and Dougherty: intrinsic viscosity of spheres (source key `FILM_VISCOSITY`).
const INTRINSIC: f64 = 2.5;

/// How a wet coat flows, and how it thickens as it dries.
///
/// A coat of a [`Mix`] brings its own; a coat of liquids and a share of solids is given one with
/// [`super::Film::with_flow`].
///
/// ```
/// use mistcoat::{Estimate, film::Flow, quantity::{parse, VolumeFraction}};
/// let flow = Flow::new(&Estimate::exact(parse("20 mPa.s")?), parse("23 °C")?)?
///     .thickens_to(VolumeFraction::new(0.3)?, &Estimate::exact(parse("120 mPa.s")?))?
///     .with_surface_tension(&Estimate::exact(parse("25 mN/m")?))?;
/// assert!(flow.clone().thickens_to(VolumeFraction::new(0.4)?, &Estimate::exact(parse("90 mPa.s")?)).is_err());
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Flow {
    viscosity: Estimate<DynamicViscosity>,
    #[serde(with = "as_text")]
    temperature: Temperature,
    /// Share of solids of the wet viscosity, where the coat was laid thicker or thinner than that; none: as it was laid.
    #[serde(default, with = "as_text::option", skip_serializing_if = "Option::is_none")]
    mixed_at: Option<Ratio>,
    rule: ViscosityTemperature,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    thicker: Vec<Thicker>,
    surface_tension: Estimate<SurfaceTension>,
    density: Estimate<Density>,
    /// Of a coat that stiffens at rest.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    yield_stress: Option<Estimate<Pressure>>,
}

/// A point of the way from wet to dry.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Thicker {
    #[serde(with = "as_text")]
    pub(super) solids: Ratio,
    pub(super) viscosity: Estimate<DynamicViscosity>,
}

impl Flow {
    /// A coat of this viscosity when wet, at this temperature. Surface tension 27 mN/m and density 1 g/mL, each within 10 %,
    /// until given.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a viscosity that is not above zero.
    pub fn new(viscosity: &Estimate<DynamicViscosity>, temperature: Temperature) -> Result<Self> {
        positive("viscosity of the wet coat", viscosity.best)?;
        let spread = |what: &str, std: f64| [ModelError::new(what, std)];
        Ok(Self {
            viscosity: viscosity.clone(),
            temperature,
            mixed_at: None,
            rule: ViscosityTemperature::LewisSquires,
            thicker: Vec::new(),
            surface_tension: Estimate::relative(
                SurfaceTension::from_si(USUAL_SURFACE_TENSION_N_M),
                &spread("surface tension", SURFACE_TENSION_SPREAD),
            ),
            density: Estimate::relative(
                Density::from_si(USUAL_DENSITY_KG_M3),
                &spread("density of the wet coat", DENSITY_SPREAD),
            ),
            yield_stress: None,
        })
    }

    /// The same, known to have thickened to this viscosity when it holds this share of solids by volume: the undiluted paint,
    /// or a reading of the paint with solvent let off. Call in rising order.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] unless solids and viscosity rise from point to point.
    pub fn thickens_to(
        mut self,
        solids: VolumeFraction,
        viscosity: &Estimate<DynamicViscosity>,
    ) -> Result<Self> {
        let before = self.thicker.last();
        let (least_solids, least) =
            before.map_or((0.0, self.viscosity.best), |t| (t.solids.si(), t.viscosity.best));
        if solids.get() <= least_solids || solids.get() > 1.0 {
            return Err(out_of_range(
                "solids of the thicker coat",
                solids.to_string(),
                format!("more than {}, up to 100 %", show(Ratio::from_si(least_solids))),
                "give the points in the order of rising solids",
            ));
        }
        if viscosity.best.si().is_nan() || viscosity.best.si() <= least.si() {
            return Err(out_of_range(
                "viscosity of the thicker coat",
                show(viscosity.best),
                format!("more than {}, that of the point before it", show(least)),
                "a coat thickens as it loses solvent; check the order of the points and the units",
            ));
        }
        self.thicker.push(Thicker { solids: solids.into(), viscosity: viscosity.clone() });
        Ok(self)
    }

    /// The same with another surface tension.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 10 to 80 mN/m.
    pub fn with_surface_tension(mut self, surface_tension: &Estimate<SurfaceTension>) -> Result<Self> {
        if !(0.010..=0.080).contains(&surface_tension.best.si()) {
            return Err(out_of_range(
                "surface tension of the wet coat",
                show(surface_tension.best),
                "10 mN/m to 80 mN/m",
                "solvent paints have 22 mN/m to 30 mN/m, waterborne ones 28 mN/m to 45 mN/m, water 73 mN/m",
            ));
        }
        self.surface_tension = surface_tension.clone();
        Ok(self)
    }

    /// The same with another density.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 0.5 to 5 g/mL.
    pub fn with_density(mut self, density: &Estimate<Density>) -> Result<Self> {
        if !(500.0..=5000.0).contains(&density.best.si()) {
            return Err(out_of_range(
                "density of the wet coat",
                show(density.best),
                "0.5 g/mL to 5 g/mL",
                "thinned paints have 0.85 g/mL to 1.3 g/mL",
            ));
        }
        self.density = density.clone();
        Ok(self)
    }

    /// The same with a yield stress, as it lies wet: the coat hangs where its weight does not reach it ([`super::hanging_thickness`]).
    /// Nothing is taken unless given.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 0 to 100 Pa.
    pub fn with_yield_stress(mut self, yield_stress: &Estimate<Pressure>) -> Result<Self> {
        check_yield_stress(yield_stress.best)?;
        self.yield_stress = (yield_stress.best.si() > 0.0).then(|| yield_stress.clone());
        Ok(self)
    }

    /// Yield stress of the wet coat, where one is given.
    pub fn yield_stress(&self) -> Option<&Estimate<Pressure>> {
        self.yield_stress.as_ref()
    }

    /// Viscosity of the wet coat, at [`Flow::temperature`]; of one that a gun has laid, that of the mix in the cup.
    pub fn viscosity(&self) -> &Estimate<DynamicViscosity> {
        &self.viscosity
    }

    /// Temperature of the viscosities.
    pub fn temperature(&self) -> Temperature {
        self.temperature
    }

    /// Surface tension of the wet coat.
    pub fn surface_tension(&self) -> &Estimate<SurfaceTension> {
        &self.surface_tension
    }

    /// Density of the wet coat.
    pub fn density(&self) -> &Estimate<Density> {
        &self.density
    }

    /// The same of a liquid that held so much of solids when its viscosity was known, and holds another share now.
    pub(super) fn mixed_at(mut self, solids: VolumeFraction) -> Self {
        self.mixed_at = self.mixed_at.or(Some(solids.into()));
        self
    }

    /// Share of solids of the wet viscosity in a coat laid with this share.
    pub(super) fn wet_solids(&self, laid: VolumeFraction) -> f64 {
        self.mixed_at.map_or(laid.get(), Ratio::si)
    }

    pub(super) fn thicker(&self) -> &[Thicker] {
        &self.thicker
    }

    pub(super) fn rule(&self) -> &ViscosityTemperature {
        &self.rule
    }

    /// That of a thinned paint; `None` where its viscosity cannot be had (too cold for its rule).
    pub(super) fn of_mix(mix: &Mix, temperature: Temperature) -> Option<Self> {
        let paint = mix.paint();
        let wet = mix.viscosity(temperature).ok()?.estimate;
        let mut flow = Self::new(&wet, temperature).ok()?;
        flow.rule = paint.temperature_rule().clone();
        let tension = paint.surface_tension();
        flow = flow.clone().with_surface_tension(tension).unwrap_or(flow);
        if let Ok(density) = mix.density(temperature) {
            flow = flow.clone().with_density(&density).unwrap_or(flow);
        }
        let solids = paint.volume_solids().best.si();
        let stock = paint.viscosity(temperature).ok()?;
        if mix.paint_fraction().get() < 1.0 {
            flow = flow.then(solids, &stock);
        }
        Some(flow.beyond_stock(mix, temperature, solids, &stock))
    }

    /// With one more point where it rises.
    fn then(self, solids: f64, viscosity: &Estimate<DynamicViscosity>) -> Self {
        let Ok(solids) = VolumeFraction::new(solids) else { return self };
        self.clone().thickens_to(solids, viscosity).unwrap_or(self)
    }

    /// Past the stock paint, for binders that do not harden by losing solvent: the dilution law, then the packed bed.
    fn beyond_stock(
        mut self,
        mix: &Mix,
        temperature: Temperature,
        stock_solids: f64,
        stock: &Estimate<DynamicViscosity>,
    ) -> Self {
        let packs = match mix.paint().family() {
            Family::SolventLacquer | Family::AlcoholAcrylic => return self,
            Family::WaterborneAcrylic => true,
            Family::AlkydEnamel | Family::ArtistsOil => false,
        };
        let end = if packs { NEARLY_PACKED * PACKED } else { 1.0 };
        let law = mix.paint().law(mix.thinner(), temperature).ok();
        let stock_ln = stock.best.si().ln();
        for i in 1..=LAW_POINTS {
            let solids = stock_solids + (end - stock_solids) * f64::from(i) / f64::from(LAW_POINTS);
            if solids <= stock_solids {
                break;
            }
            let by_law = law.as_ref().and_then(|law| law.ln_viscosity_beyond(solids / stock_solids));
            let by_packing = if packs {
                let room = |s: f64| 1.0 - s / PACKED;
                stock_ln - INTRINSIC * PACKED * (room(solids) / room(stock_solids)).ln()
            } else {
                stock_ln
            };
            let ln = by_law.unwrap_or(LAW_ENDS_LN).max(by_packing).min(LAW_ENDS_LN);
            self = self.then(solids, &Estimate::exact(DynamicViscosity::from_si(ln.exp())));
        }
        if packs { self.then(PACKED, &Estimate::exact(DynamicViscosity::from_si(PACKED_PA_S))) } else { self }
    }
}
