//! Volatile organic content: of the whole, and less water and exempt solvents.
//!
//! `VOC = (m_volatile − m_water − m_exempt) / (V − V_water − V_exempt)` (EPA Method 24, ASTM D3960). Rules
//! count the organic thinner that is added at the bench.

use super::thinning::Thinning;
use crate::error::{Result, out_of_range};
use crate::quantity::{Density, Mass, MassConcentration, Quantity, Volume, not_negative, positive, show};

/// What a volume of paint holds that evaporates.
///
/// ```
/// use mistcoat::{dose::VocContent, quantity::{parse, to}};
/// // 1 US gal with 42 % solids and 52 % water by volume; the other 6 % weighs 7.36 lb/US gal.
/// let paint = VocContent::new(parse("1 US gal")?, parse("0.4416 lb")?)?.water(parse("0.52 US gal")?)?;
/// assert!((to(paint.less_water_and_exempt()?, "lb/US gal")? - 0.92).abs() < 1e-3);
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VocContent {
    volume: f64,
    organic: f64,
    water: f64,
    exempt: f64,
}

impl VocContent {
    /// A volume of paint and the mass of organic volatiles in it, water and exempt solvents not counted.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] for a volume that is not above zero or a negative mass.
    pub fn new(volume: Volume, organic_volatiles: Mass) -> Result<Self> {
        Ok(Self {
            volume: positive("volume of paint", volume)?,
            organic: not_negative("mass of organic volatiles", organic_volatiles)?,
            water: 0.0,
            exempt: 0.0,
        })
    }

    /// The volume of water in it.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] for a negative volume.
    pub fn water(self, water: Volume) -> Result<Self> {
        Ok(Self { water: not_negative("volume of water", water)?, ..self })
    }

    /// The volume of exempt solvents in it.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] for a negative volume.
    pub fn exempt(self, exempt: Volume) -> Result<Self> {
        Ok(Self { exempt: not_negative("volume of exempt solvents", exempt)?, ..self })
    }

    /// Organic volatiles per volume of the whole paint.
    pub fn total(&self) -> MassConcentration {
        MassConcentration::from_si(self.organic / self.volume)
    }

    /// Organic volatiles per volume less water and exempt solvents, the figure most rules limit.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] when water and exempt solvents fill the whole volume.
    pub fn less_water_and_exempt(&self) -> Result<MassConcentration> {
        let rest = self.volume - self.water - self.exempt;
        if rest > 0.0 {
            return Ok(MassConcentration::from_si(self.organic / rest));
        }
        Err(out_of_range(
            "volume of water and exempt solvents",
            show(Volume::from_si(self.water + self.exempt)),
            format!("below the volume of paint, {}", show(Volume::from_si(self.volume))),
            "check the volumes: the paint holds solids too",
        ))
    }

    /// Two paints mixed, or the same paint with a thinner (whose volatiles are its whole mass).
    #[must_use]
    pub fn combined(&self, other: &Self) -> Self {
        Self {
            volume: self.volume + other.volume,
            organic: self.organic + other.organic,
            water: self.water + other.water,
            exempt: self.exempt + other.exempt,
        }
    }
}

/// VOC of a mix from that of the paint, thinned with an organic thinner:
/// `x VOC + (1 − x) ρ_thinner`.
///
/// # Errors
/// [`crate::error::RangeError`] for a negative VOC or a density that is not above zero.
///
/// ```
/// use mistcoat::{dose::{Thinning, voc_after_thinning}, quantity::{parse, show}};
/// // 1 L of paint at 420 g/L with 0.25 L of thinner of 870 g/L.
/// let mix = Thinning::from_percent_of_paint(parse("25 %")?)?;
/// assert_eq!(show(voc_after_thinning(parse("420 g/L")?, parse("0.87 g/mL")?, mix)?), "510 g/L");
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn voc_after_thinning(
    paint: MassConcentration,
    thinner: Density,
    thinning: Thinning,
) -> Result<MassConcentration> {
    let x = thinning.paint_fraction().get();
    let voc = not_negative("volatile organic content of the paint", paint)?;
    let rho = positive("density of the thinner", thinner)?;
    Ok(MassConcentration::from_si(x * voc + (1.0 - x) * rho))
}
