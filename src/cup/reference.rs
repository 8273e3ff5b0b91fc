//! Liquids whose viscosity is known without measuring it: water, and glycerol with water.
//!
//! They turn a syringe barrel or a drilled cup into an instrument ([`super::FlowCup::calibrate`]). Tap or
//! distilled water will do; glycerol is sold by chemists. Weigh the two: one percent of glycerol too much at
//! 60 % by mass is already 7 % in viscosity. Keep the temperature within half a degree.
//!
//! ```text
//! water     η = 1e-6 Σ a_i (T/300 K)^b_i                       IAPWS SR6-08
//!           ρ = rational polynomial in °C                      Kell 1975
//! mixture   η = η_w^α η_g^(1−α), α from mass fraction and °C    Cheng 2008
//!           ρ = ideal volumes times a contraction              Volk and Kähler 2018
//! ```
//!
//! Measured here: water within 0.01 % of the full IAPWS formulation at 0 to 60 °C; mixtures within 3.6 %
//! (mean 1.3 %) of the 112 rows of Segur and Oberstar 1951. The density of mixtures was fitted by its authors
//! at 15 to 30 °C; outside it may be wrong by 0.5 %, which the interval dwarfs.

use crate::error::{Result, out_of_range};
use crate::estimate::{Estimate, ModelError};
use crate::quantity::{Density, DynamicViscosity, KinematicViscosity, Quantity, Ratio, Temperature, show};

/// Ice point in K.
const ICE_K: f64 = 273.15;
/// The correlations are used and were checked between these temperatures, °C.
const RANGE_C: (f64, f64) = (0.0, 60.0);

/// Factors and powers of (T/300 K) for water at 0.1 MPa, in µPa s. Source key `IAPWS_SR6`.
const WATER_VISCOSITY: [(f64, f64); 4] = [(280.68, -1.9), (511.45, -7.7), (61.131, -19.6), (0.45903, -40.0)];
/// Standard uncertainty of water's viscosity, relative; half of the 0.2 % usually stated (from memory).
const WATER_STD: f64 = 0.001;
/// Root mean square of ln(Cheng/measured) on the 112 rows of Segur and Oberstar (computed; see tests).
const MIXTURE_STD: f64 = 0.017;

/// A liquid of known viscosity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ReferenceLiquid {
    /// Zero means pure water by the better correlation.
    glycerol_mass_fraction: f64,
}

impl ReferenceLiquid {
    /// Pure water.
    pub const fn water() -> Self {
        Self { glycerol_mass_fraction: 0.0 }
    }

    /// Glycerol and water, by the share of glycerol in the mass of the mix.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] outside 0 % to 100 %, or for NaN.
    ///
    /// ```
    /// use mistcoat::{cup::reference::ReferenceLiquid, quantity::{parse, to}};
    /// let mix = ReferenceLiquid::glycerol_water(parse("60 %")?)?;
    /// let eta = mix.dynamic_viscosity(parse("20 °C")?)?;
    /// // Segur and Oberstar 1951 measured 10.8 mPa.s.
    /// assert!((to(eta.best, "mPa.s")? - 10.8).abs() < 0.2);
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn glycerol_water(glycerol_by_mass: Ratio) -> Result<Self> {
        let w = glycerol_by_mass.si();
        if (0.0..=1.0).contains(&w) {
            Ok(Self { glycerol_mass_fraction: w })
        } else {
            let remedy = "weigh both: mass of glycerol over mass of the mix, for example \"60 %\"";
            Err(out_of_range("glycerol by mass of the mix", show(glycerol_by_mass), "0 % to 100 %", remedy))
        }
    }

    /// Share of glycerol in the mass.
    pub fn glycerol_by_mass(&self) -> Ratio {
        Ratio::from_si(self.glycerol_mass_fraction)
    }

    /// Source key of the viscosity.
    pub const fn source(&self) -> &'static str {
        if self.glycerol_mass_fraction == 0.0 { "IAPWS_SR6" } else { "CHENG2008" }
    }

    /// Dynamic viscosity at 0 to 60 °C.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] outside that range.
    pub fn dynamic_viscosity(&self, temperature: Temperature) -> Result<Estimate<DynamicViscosity>> {
        let t_c = celsius(temperature)?;
        let w = self.glycerol_mass_fraction;
        let (pa_s, what, std) = if w == 0.0 {
            (water_viscosity_pa_s(t_c), "viscosity of water", WATER_STD)
        } else {
            (mixture_viscosity_pa_s(w, t_c), "viscosity of glycerol and water", MIXTURE_STD)
        };
        Ok(Estimate::relative(DynamicViscosity::from_si(pa_s), &[ModelError::new(what, std)]))
    }

    /// Density at 0 to 60 °C.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] outside that range.
    pub fn density(&self, temperature: Temperature) -> Result<Density> {
        let t_c = celsius(temperature)?;
        let w = self.glycerol_mass_fraction;
        Ok(Density::from_si(if w == 0.0 { water_density_kg_m3(t_c) } else { mixture_density_kg_m3(w, t_c) }))
    }

    /// Kinematic viscosity at 0 to 60 °C: what a flow cup sees.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] outside that range.
    ///
    /// ```
    /// use mistcoat::{cup::reference::ReferenceLiquid, quantity::{parse, to}};
    /// let nu = ReferenceLiquid::water().kinematic_viscosity(parse("20 °C")?)?;
    /// assert!((to(nu.best, "mm2/s")? - 1.0034).abs() < 1e-3);
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn kinematic_viscosity(&self, temperature: Temperature) -> Result<Estimate<KinematicViscosity>> {
        let eta = self.dynamic_viscosity(temperature)?;
        let rho = self.density(temperature)?.si();
        let part = |e: DynamicViscosity| KinematicViscosity::from_si(e.si() / rho);
        Ok(Estimate {
            best: part(eta.best),
            low: part(eta.low),
            high: part(eta.high),
            coverage: eta.coverage,
            contributors: eta.contributors,
        })
    }
}

impl core::fmt::Display for ReferenceLiquid {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        if self.glycerol_mass_fraction == 0.0 {
            f.write_str("water")
        } else {
            write!(f, "{} glycerol by mass in water", show(self.glycerol_by_mass()))
        }
    }
}

fn celsius(temperature: Temperature) -> Result<f64> {
    let t_c = temperature.si() - ICE_K;
    // A hair of rounding at the ends is not a fault of the user.
    if (RANGE_C.0 - 1e-9..=RANGE_C.1 + 1e-9).contains(&t_c) {
        return Ok(t_c);
    }
    let remedy = "time the reference liquid at room temperature, for example \"20 °C\"";
    Err(out_of_range("temperature of the reference liquid", show(temperature), "0 °C to 60 °C", remedy))
}

fn water_viscosity_pa_s(t_c: f64) -> f64 {
    let reduced = (t_c + ICE_K) / 300.0;
    WATER_VISCOSITY.iter().map(|(a, b)| a * reduced.powf(*b)).sum::<f64>() * 1e-6
}

/// Source key `KELL1975`; the rational form for air-free water at one atmosphere.
fn water_density_kg_m3(t: f64) -> f64 {
    let top = 999.83952
        + t * (16.945176
            + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12))));
    top / (1.0 + 16.879850e-3 * t)
}

/// Source key `CHENG2008`, equations 6 and 9 to 12 and 21, 22.
fn mixture_viscosity_pa_s(w: f64, t: f64) -> f64 {
    let water = 1.790e-3 * ((-1230.0 - t) * t / (36100.0 + 360.0 * t)).exp();
    let glycerol = 12.100 * ((-1233.0 + t) * t / (9900.0 + 70.0 * t)).exp();
    let a = 0.705 - 0.0017 * t;
    let b = (4.9 + 0.036 * t) * a.powf(2.5);
    let alpha = 1.0 - w + a * b * w * (1.0 - w) / (a * w + b * (1.0 - w));
    (alpha * water.ln() + (1.0 - alpha) * glycerol.ln()).exp()
}

/// Source key `VOLK2018`: volumes add, then contract.
fn mixture_density_kg_m3(w: f64, t: f64) -> f64 {
    let glycerol = 1273.3 - 0.6121 * t;
    let water = water_density_kg_m3(t);
    let ideal = 1.0 / (w / glycerol + (1.0 - w) / water);
    let depth = 1.78e-6 * t * t - 1.82e-4 * t + 1.41e-2;
    // At w = 1 the sine is zero up to rounding, which may be negative.
    ideal * (1.0 + depth * (w.powf(1.31) * std::f64::consts::PI).sin().max(0.0).powf(0.81))
}
