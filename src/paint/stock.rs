//! The paint in the bottle: what is in it, how thick it is, how it answers to thinner.

use super::family::{Family, TYPICAL_TEMPERATURE_K, Typical};
use super::file::{PaintFile, SCHEMA};
use super::prior::ShapePrior;
use super::temperature::{ViscosityTemperature, check_temperature};
use super::two_pack::refuse_two_pack;
use crate::blend::{Basis, Blend};
use crate::error::{Error, Result, out_of_range};
use crate::estimate::Estimate;
use crate::quantity::{
    Density, DynamicViscosity, Length, Quantity, Ratio, SurfaceTension, Temperature, show,
};
use serde::{Deserialize, Serialize};

/// A paint solid weighs between these, from resin to heavy pigment.
const SOLIDS_DENSITY_KG_M3: (f64, f64) = (800.0, 8000.0);

/// The pigment, for settling.
#[derive(Debug, Clone, PartialEq)]
pub struct Pigment {
    /// Density of the pigment itself.
    pub density: Estimate<Density>,
    /// Diameter of the grains as they float, clumps counting as grains.
    pub diameter: Estimate<Length>,
    /// Volume of pigment per volume of dry film (PVC).
    pub volume_concentration: Estimate<Ratio>,
}

/// A paint as it comes in the bottle.
///
/// Values that nobody gave are the typical ones of the family, with their wide range
/// ([`Paint::typical_fields`] lists them). Build one with [`Paint::typical`], [`Paint::load`] or
/// [`Paint::from_toml`]; improve it with [`Paint::calibrated`].
///
/// ```
/// use mistcoat::paint::{Family, Paint};
/// let paint = Paint::typical(Family::SolventLacquer, "hull green")?;
/// assert!(paint.volume_solids().low < paint.volume_solids().best);
/// assert!(paint.typical_fields().contains(&"stock_viscosity"));
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "PaintFile", into = "PaintFile")]
pub struct Paint {
    pub(super) name: String,
    pub(super) family: Family,
    pub(super) note: Option<String>,
    pub(super) volume_solids: Estimate<Ratio>,
    pub(super) density: Estimate<Density>,
    pub(super) carrier: Blend,
    pub(super) stock_viscosity: Estimate<DynamicViscosity>,
    pub(super) stock_temperature: Temperature,
    pub(super) binder_tg: Estimate<Temperature>,
    pub(super) surface_tension: Estimate<SurfaceTension>,
    pub(super) pigment: Pigment,
    pub(super) temperature_rule: ViscosityTemperature,
    pub(super) shape: ShapePrior,
    pub(super) typical: Vec<&'static str>,
}

impl Paint {
    /// A paint of which only the family is known: typical values, common practice.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for an empty name, or one that names an isocyanate two-pack.
    pub fn typical(family: Family, name: &str) -> Result<Self> {
        Self::try_from(PaintFile::bare(family, name))
    }

    /// Name of the paint.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Family of the paint.
    pub fn family(&self) -> Family {
        self.family
    }

    /// Remark of whoever described the paint.
    pub fn note(&self) -> Option<&str> {
        self.note.as_deref()
    }

    /// Volume of dry film per volume of wet paint.
    pub fn volume_solids(&self) -> &Estimate<Ratio> {
        &self.volume_solids
    }

    /// Density of the paint at 20 °C.
    pub fn density_at_20c(&self) -> &Estimate<Density> {
        &self.density
    }

    /// The volatile part of the paint.
    pub fn carrier(&self) -> &Blend {
        &self.carrier
    }

    /// Viscosity of the stock paint at [`Self::stock_temperature`].
    pub fn stock_viscosity(&self) -> &Estimate<DynamicViscosity> {
        &self.stock_viscosity
    }

    /// Temperature of [`Self::stock_viscosity`].
    pub fn stock_temperature(&self) -> Temperature {
        self.stock_temperature
    }

    /// Glass transition temperature of the dry binder.
    pub fn binder_tg(&self) -> &Estimate<Temperature> {
        &self.binder_tg
    }

    /// Surface tension of the paint near 20 °C.
    pub fn surface_tension(&self) -> &Estimate<SurfaceTension> {
        &self.surface_tension
    }

    /// The pigment.
    pub fn pigment(&self) -> &Pigment {
        &self.pigment
    }

    /// What the paint does on thinning: the habit of its family, or what its readings showed.
    pub fn shape(&self) -> &ShapePrior {
        &self.shape
    }

    /// How its viscosity changes with temperature.
    pub fn temperature_rule(&self) -> &ViscosityTemperature {
        &self.temperature_rule
    }

    /// Fields that nobody gave and the family filled in.
    pub fn typical_fields(&self) -> &[&'static str] {
        &self.typical
    }

    /// Viscosity of the stock paint at another temperature.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 0 to 50 °C.
    pub fn viscosity(&self, t: Temperature) -> Result<Estimate<DynamicViscosity>> {
        self.temperature_rule.at(&self.stock_viscosity, self.stock_temperature, t)
    }

    /// Density of the paint: the carrier expands with temperature, the solids are taken not to.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 0 to 50 °C.
    pub fn density(&self, t: Temperature) -> Result<Estimate<Density>> {
        let swell = self.expansion(t)?;
        let scaled = |d: Density| Density::from_si(d.si() / swell);
        let d = &self.density;
        Ok(Estimate { best: scaled(d.best), low: scaled(d.low), high: scaled(d.high), ..d.clone() })
    }

    /// Volume at `t` over volume at 20 °C.
    pub(super) fn expansion(&self, t: Temperature) -> Result<f64> {
        check_temperature(t)?;
        let solids = self.volume_solids.best.si();
        let carrier =
            self.carrier.density(reference_temperature())?.best().si() / self.carrier.density(t)?.best().si();
        Ok(solids + (1.0 - solids) * carrier)
    }
}

/// Volumes are measured at this temperature.
pub(super) fn reference_temperature() -> Temperature {
    Temperature::from_si(TYPICAL_TEMPERATURE_K)
}

impl TryFrom<PaintFile> for Paint {
    type Error = Error;

    fn try_from(file: PaintFile) -> Result<Self> {
        refuse_two_pack(&file.name)?;
        refuse_two_pack(file.note.as_deref().unwrap_or_default())?;
        if file.name.trim().is_empty() {
            return Err(out_of_range(
                "name of the paint",
                "empty",
                "at least one letter",
                "name it, for example \"hull green\"",
            ));
        }
        if file.schema != SCHEMA {
            return Err(out_of_range(
                "schema of the paint",
                file.schema.to_string(),
                SCHEMA.to_string(),
                "write the schema this program knows, or update the program",
            ));
        }
        let usual = file.family.typical()?;
        let mut typical = Vec::new();
        let pigment = file.pigment.unwrap_or_default();
        let paint = Self {
            volume_solids: given(
                file.volume_solids.as_ref(),
                &usual.volume_solids,
                "volume_solids",
                &mut typical,
            )?,
            density: given(file.density.as_ref(), &usual.density, "density", &mut typical)?,
            stock_viscosity: given(
                file.stock_viscosity.as_ref(),
                &usual.stock_viscosity,
                "stock_viscosity",
                &mut typical,
            )?,
            binder_tg: given(file.binder_tg.as_ref(), &usual.binder_tg, "binder_tg", &mut typical)?,
            surface_tension: given(
                file.surface_tension.as_ref(),
                &usual.surface_tension,
                "surface_tension",
                &mut typical,
            )?,
            pigment: Pigment {
                density: given(
                    pigment.density.as_ref(),
                    &usual.pigment_density,
                    "pigment.density",
                    &mut typical,
                )?,
                diameter: given(
                    pigment.diameter.as_ref(),
                    &usual.pigment_diameter,
                    "pigment.diameter",
                    &mut typical,
                )?,
                volume_concentration: given(
                    pigment.volume_concentration.as_ref(),
                    &usual.pigment_volume_concentration,
                    "pigment.volume_concentration",
                    &mut typical,
                )?,
            },
            carrier: carrier(file.carrier, usual, &mut typical)?,
            stock_temperature: file.stock_temperature.map_or_else(reference_temperature, |t| t.0),
            temperature_rule: file.temperature_rule.unwrap_or(ViscosityTemperature::LewisSquires),
            shape: match file.shape {
                Some(shape) => shape,
                None => file.family.shape_prior()?.clone(),
            },
            name: file.name,
            family: file.family,
            note: file.note,
            typical,
        };
        paint.check()?;
        Ok(paint)
    }
}

fn given<Q: Quantity>(
    own: Option<&super::uncertain::Uncertain<Q>>,
    usual: &Estimate<Q>,
    field: &'static str,
    typical: &mut Vec<&'static str>,
) -> Result<Estimate<Q>> {
    if let Some(value) = own {
        return value.estimate(&field.replace(['_', '.'], " "));
    }
    typical.push(field);
    Ok(usual.clone())
}

fn carrier(own: Option<Blend>, usual: &Typical, typical: &mut Vec<&'static str>) -> Result<Blend> {
    if let Some(blend) = own {
        return Ok(blend);
    }
    typical.push("carrier");
    let parts: Vec<(&str, f64)> = usual.carrier.iter().map(|(n, v)| (n.as_str(), *v)).collect();
    Blend::from_names(&parts, Basis::Volume, None)
}

/// Refuses an estimate that reaches outside `low` to `high` (SI numbers).
fn within<Q: Quantity>(field: &str, e: &Estimate<Q>, low: f64, high: f64, remedy: &str) -> Result<()> {
    if e.low.si() >= low && e.high.si() <= high && e.best.si().is_finite() {
        return Ok(());
    }
    let limit = format!("{} to {}", show(Q::from_si(low)), show(Q::from_si(high)));
    Err(out_of_range(field, e.to_string(), limit, remedy))
}

impl Paint {
    pub(super) fn check(&self) -> Result<()> {
        const LEAVE_OUT: &str = "leave it out to use the family's, or see data/demo for an example";
        within(
            "volume_solids",
            &self.volume_solids,
            0.01,
            1.0,
            "take it from the data sheet, for example \"22 %\"",
        )?;
        within("density", &self.density, 600.0, 4000.0, "weigh 10 mL and divide, for example \"0.98 g/mL\"")?;
        within(
            "stock_viscosity",
            &self.stock_viscosity,
            1e-4,
            1e4,
            "time the paint in a cup, for example \"135 mPa.s\"",
        )?;
        within("binder_tg", &self.binder_tg, 150.0, 500.0, LEAVE_OUT)?;
        within("surface_tension", &self.surface_tension, 0.015, 0.08, LEAVE_OUT)?;
        within("pigment.density", &self.pigment.density, 500.0, 12000.0, LEAVE_OUT)?;
        within("pigment.diameter", &self.pigment.diameter, 1e-8, 5e-4, LEAVE_OUT)?;
        within("pigment.volume_concentration", &self.pigment.volume_concentration, 0.0, 0.95, LEAVE_OUT)?;
        check_temperature(self.stock_temperature)?;
        self.shape.check()?;
        self.temperature_rule.check()?;
        self.check_solids_density()
    }

    /// Density and volume solids must leave a believable density for the solids.
    fn check_solids_density(&self) -> Result<()> {
        let vs = self.volume_solids.best.si();
        let carrier = self.carrier.density(reference_temperature())?.best().si();
        let solids = (self.density.best.si() - (1.0 - vs) * carrier) / vs;
        if (SOLIDS_DENSITY_KG_M3.0..=SOLIDS_DENSITY_KG_M3.1).contains(&solids) {
            return Ok(());
        }
        Err(out_of_range(
            "density of the solids that density and volume_solids leave",
            show(Density::from_si(solids)),
            format!(
                "{} to {}",
                show(Density::from_si(SOLIDS_DENSITY_KG_M3.0)),
                show(Density::from_si(SOLIDS_DENSITY_KG_M3.1))
            ),
            format!(
                "density {}, volume solids {} and a carrier of {} do not go together; weigh 10 mL of the paint, \
                 and check whether the solids were given by weight",
                show(self.density.best),
                show(self.volume_solids.best),
                show(Density::from_si(carrier))
            ),
        ))
    }
}
