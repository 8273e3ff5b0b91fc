//! How fast does it leave? Relative evaporation rates: published, predicted, and in words.
//!
//! Where nothing is published the rate follows from the properties. A wet face in dry air at 25 °C cools
//! until the heat it draws from the air covers the heat of vaporisation (source `WETBULB`):
//!
//! ```text
//! m = k M Patm/(R Tf) ln(1/(1 - P(Ts)/Patm))      k ~ D^(2/3), Tf = (T + Ts)/2
//! X h (T - Ts) = m dH/M                           h = rho cp k (alpha/D)^(2/3)
//! rate = (m / density) / (the same of n-butyl acetate)
//! ```
//!
//! X = 3.29 is the heat drawn in the test over that by convection on the wet face. It was set on 43 solvents
//! with published rates; median error 8 %, nine of ten within 27 %. Not covered: moist air, so water and
//! strong alcohols come out a third too fast.

use super::kernel::{ATMOSPHERE_PA, GAS_CONSTANT_J_MOL_K, PureKernel, T25_K};
use super::pure::Solvent;
use super::scale::{EvaporationClass, RateScale, SCALE_STD, ScaleFamily};
use crate::error::Result;
use crate::estimate::{Estimate, ModelError};
use crate::quantity::{Number, Quantity};

/// Heat drawn in the test over convection on the wet face (source `WETBULB`).
const X_HEAT: f64 = 3.29;
/// Volumetric heat capacity of air in J/(m3 K) (source `AIR`).
const AIR_RHO_CP_J_M3_K: f64 = 1192.0;
/// Thermal diffusivity of air in m2/s (source `AIR`).
const AIR_ALPHA_M2_S: f64 = 2.19e-5;
/// Factor by which the model misses published rates: root mean square of the logarithm (source `WETBULB`).
const WETBULB_FACTOR: f64 = 1.19;
/// Spread between makers of a rate: 15 % between two of them (source `VD_E`).
const MAKERS_STD: f64 = 0.10;
/// Rate of 2-butoxyethanol that turns rates relative to it (source `CARPENTER56`).
const BUTOXYETHANOL_RATE: f64 = 0.08;
/// How far a wet paper lies below the air for a cut (source `WETBULB`).
const CUT_COOLING_K: f64 = 1.0;

impl Solvent {
    /// Which family it belongs to when a rate is turned from one scale to the other.
    pub fn scale_family(&self) -> ScaleFamily {
        let has = |wanted: &str| {
            self.record().unifac.as_ref().is_some_and(|u| u.original.keys().any(|g| g == wanted))
        };
        let one_oxygen = self.formula().ends_with('O');
        if has("H2O") {
            ScaleFamily::Water
        } else if one_oxygen && (has("OH") || has("CH3OH")) {
            ScaleFamily::Alcohol
        } else {
            ScaleFamily::Plain
        }
    }

    /// Published relative evaporation rate, n-butyl acetate = 1: the geometric mean of the published values
    /// that are used, the other scales turned. The interval is their scatter, at least that usual between
    /// makers. None where nothing is published.
    ///
    /// ```
    /// let e = mistcoat::solvent::find("acetone")?.relative_evaporation_rate().unwrap();
    /// assert!((5.0..7.0).contains(&mistcoat::quantity::Quantity::si(e.best)));
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn relative_evaporation_rate(&self) -> Option<Estimate<Number>> {
        let used: Vec<_> = self.published_rates().iter().filter(|r| r.used).collect();
        if used.is_empty() {
            return None;
        }
        if used.iter().any(|r| r.source.0.iter().any(|k| k == "D3539")) {
            return Some(Estimate::exact(Number::from_si(1.0))); // n-butyl acetate itself
        }
        let logs: Vec<f64> = used
            .iter()
            .map(|r| {
                match r.scale {
                    RateScale::ButylAcetate => r.value,
                    RateScale::Ether => self.scale_family().product() / r.value,
                    RateScale::Butoxyethanol => BUTOXYETHANOL_RATE * r.value,
                }
                .ln()
            })
            .collect();
        let n = logs.len() as f64;
        let mean = logs.iter().sum::<f64>() / n;
        let scatter = if logs.len() > 1 {
            (logs.iter().map(|l| (l - mean).powi(2)).sum::<f64>() / (n - 1.0)).sqrt()
        } else {
            0.0
        };
        let parts = [ModelError::new("published evaporation rates", scatter.max(MAKERS_STD))];
        Some(Estimate::relative(Number::from_si(mean.exp()), &parts))
    }

    /// Relative evaporation rate predicted from the properties by the wet-bulb model, n-butyl acetate = 1. Of
    /// a cut, over the loss of 90 % by mass, its surrogate evaporating one kelvin below the air.
    ///
    /// # Errors
    /// [`crate::error::DataError`] when the embedded catalogue is damaged.
    pub fn predicted_relative_evaporation_rate(&self) -> Result<Estimate<Number>> {
        let reference = super::find("n-butyl acetate")?;
        let (rate, _) = wet_bulb(reference.kernel());
        let own = if self.is_cut() { cut_rate_m_s(self.surrogate()) } else { wet_bulb(self.kernel()).0 };
        let mut parts = super::spread::vapour_pressure(self.record());
        parts.push(ModelError::new("wet-bulb model of the test", WETBULB_FACTOR.ln()));
        Ok(Estimate::relative(Number::from_si(own / rate), &parts))
    }

    /// The published rate, or failing that the predicted one.
    ///
    /// # Errors
    /// As [`Solvent::predicted_relative_evaporation_rate`].
    pub fn evaporation_rate(&self) -> Result<Estimate<Number>> {
        self.relative_evaporation_rate().map_or_else(|| self.predicted_relative_evaporation_rate(), Ok)
    }

    /// Class by the published rate, or failing that the predicted one, on the n-butyl acetate scale.
    ///
    /// # Errors
    /// As [`Solvent::predicted_relative_evaporation_rate`].
    pub fn evaporation_class(&self) -> Result<EvaporationClass> {
        EvaporationClass::of_rate(self.evaporation_rate()?.best)
    }

    /// Evaporation number of DIN 53170, ether = 1: turned from the rate.
    ///
    /// # Errors
    /// As [`Solvent::predicted_relative_evaporation_rate`].
    pub fn evaporation_number(&self) -> Result<Estimate<Number>> {
        let rate = self.evaporation_rate()?;
        let parts = [
            ModelError::new("change of evaporation scale", SCALE_STD),
            ModelError::new("relative evaporation rate", rate.relative_std()),
        ];
        Ok(Estimate::relative(Number::from_si(self.scale_family().product() / rate.best.si()), &parts))
    }
}

/// Volume flux over the constant of the test, and the temperature of the wet face in K.
fn wet_bulb(k: &PureKernel) -> (f64, f64) {
    let d = k.diffusivity_m2_s(T25_K);
    let transfer = d.powf(2.0 / 3.0); // the constant of the test cancels
    let heat = X_HEAT * AIR_RHO_CP_J_M3_K * transfer * (AIR_ALPHA_M2_S / d).powf(2.0 / 3.0);
    let flux = |ts_k: f64| {
        let p = (k.vapour_pressure_pa(ts_k) / ATMOSPHERE_PA).min(0.999_999);
        let film_k = 0.5 * (T25_K + ts_k);
        transfer * ATMOSPHERE_PA / (GAS_CONSTANT_J_MOL_K * film_k) * -(-p).ln_1p()
    };
    // Heat drawn less heat spent falls as the face warms: one root between cold and air.
    let (mut low, mut high) = (T25_K - 80.0, T25_K);
    for _ in 0..60 {
        let mid = 0.5 * (low + high);
        if heat * (T25_K - mid) > flux(mid) * k.heat_of_vaporisation_j_mol {
            low = mid;
        } else {
            high = mid;
        }
    }
    let ts_k = 0.5 * (low + high);
    (flux(ts_k) * k.molar_mass_kg_mol / k.density_kg_m3(T25_K), ts_k)
}

/// Mean volume flux over the loss of 90 % by mass, on the scale of [`wet_bulb`].
///
/// With constant coefficients every component decays as `n0 exp(-kappa s)` along a common pseudo-time s, and
/// the time spent is `sum (n0/kappa)(1 - exp(-kappa s))`.
fn cut_rate_m_s(surrogate: &[(Solvent, f64)]) -> f64 {
    const LOST: f64 = 0.9;
    let t_k = T25_K - CUT_COOLING_K;
    let parts: Vec<(f64, f64, f64, f64)> = surrogate
        .iter()
        .map(|(s, x)| {
            let k = s.kernel();
            let transfer = k.diffusivity_m2_s(T25_K).powf(2.0 / 3.0);
            let kappa = transfer * k.vapour_pressure_pa(t_k) / (GAS_CONSTANT_J_MOL_K * 0.5 * (t_k + T25_K));
            (*x, k.molar_mass_kg_mol, k.density_kg_m3(T25_K), kappa)
        })
        .collect();
    let mass: f64 = parts.iter().map(|(x, m, ..)| x * m).sum();
    let volume: f64 = parts.iter().map(|(x, m, rho, _)| x * m / rho).sum();
    let left = |s: f64| parts.iter().map(|(x, m, _, kappa)| x * m * (-kappa * s).exp()).sum::<f64>() / mass;
    let (mut low, mut high) = (0.0, 1.0);
    while left(high) > 1.0 - LOST && high < 1e30 {
        high *= 2.0;
    }
    for _ in 0..100 {
        let mid = 0.5 * (low + high);
        if left(mid) > 1.0 - LOST { low = mid } else { high = mid }
    }
    let time: f64 = parts.iter().map(|(x, _, _, kappa)| x / kappa * (1.0 - (-kappa * low).exp())).sum();
    LOST * volume / time
}
