//! How fast does it leave? Relative evaporation rates: published, predicted, and in words.
//!
//! Two scales are printed on data sheets. The *rate* of ASTM D3539 sets n-butyl acetate to 1 and grows with
//! speed. The *evaporation number* of DIN 53170 sets diethyl ether to 1 and grows with time. They turn into
//! each other by `number = c / rate`, with c 11.5 for liquids without hydroxyl, 14.5 for simple alcohols, 24
//! for water, within 15 % (source `VD_E`): air humidity and the paper differ between the tests.
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
use super::record::RateScale;
use crate::error::{Result, out_of_range};
use crate::estimate::{Estimate, ModelError};
use crate::quantity::{Number, Quantity};
use serde::{Deserialize, Serialize};

/// Heat drawn in the test over convection on the wet face (source `WETBULB`).
const X_HEAT: f64 = 3.29;
/// Volumetric heat capacity of air in J/(m3 K) (source `AIR`).
const AIR_RHO_CP_J_M3_K: f64 = 1192.0;
/// Thermal diffusivity of air in m2/s (source `AIR`).
const AIR_ALPHA_M2_S: f64 = 2.19e-5;
/// Factor by which the model misses published rates: root mean square of the logarithm (source `WETBULB`).
const WETBULB_FACTOR: f64 = 1.19;
/// Standard uncertainty of the change of scale: 15 % as the 95 % reach.
const SCALE_STD: f64 = 0.075;
/// Spread between makers of a rate: 15 % between two of them (source `VD_E`).
const MAKERS_STD: f64 = 0.10;
/// Rate of 2-butoxyethanol that turns rates relative to it (source `CARPENTER56`).
const BUTOXYETHANOL_RATE: f64 = 0.08;
/// How far a wet paper lies below the air for a cut (source `WETBULB`).
const CUT_COOLING_K: f64 = 1.0;

/// How fast, in words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum EvaporationClass {
    /// Rate above 3; number below 10.
    Fast,
    /// Rate 0.8 to 3; number 10 to 35.
    Medium,
    /// Rate below 0.8; number 35 to 50.
    Slow,
    /// Number above 50; the rate scale has no such class.
    VerySlow,
}

impl core::fmt::Display for EvaporationClass {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(match self {
            Self::Fast => "fast",
            Self::Medium => "medium",
            Self::Slow => "slow",
            Self::VerySlow => "very slow",
        })
    }
}

impl EvaporationClass {
    /// Class of a rate with n-butyl acetate = 1: above 3 fast, 0.8 to 3 medium, below 0.8 slow.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] for a rate that is not above zero.
    pub fn of_rate(rate: Number) -> Result<Self> {
        let e = positive(rate, "relative evaporation rate")?;
        Ok(if e > 3.0 {
            Self::Fast
        } else if e >= 0.8 {
            Self::Medium
        } else {
            Self::Slow
        })
    }

    /// Class of an evaporation number of DIN 53170, ether = 1: below 10, 10 to 35, 35 to 50, above 50.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] for a number that is not above zero.
    pub fn of_number(number: Number) -> Result<Self> {
        let n = positive(number, "evaporation number")?;
        Ok(if n < 10.0 {
            Self::Fast
        } else if n <= 35.0 {
            Self::Medium
        } else if n <= 50.0 {
            Self::Slow
        } else {
            Self::VerySlow
        })
    }
}

fn positive(q: Number, what: &str) -> Result<f64> {
    let value = q.si();
    if value.is_finite() && value > 0.0 {
        return Ok(value);
    }
    Err(out_of_range(what, format!("{value}"), "more than 0", "take it from the data sheet, with its scale"))
}

/// The families that differ in how the two scales compare.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ScaleFamily {
    /// No hydroxyl group, or one beside an ether or ketone group.
    Plain,
    /// An alcohol without other oxygen.
    Alcohol,
    /// Water.
    Water,
}

impl ScaleFamily {
    /// The product of rate and number.
    const fn product(self) -> f64 {
        match self {
            Self::Plain => 11.5,
            Self::Alcohol => 14.5,
            Self::Water => 24.0,
        }
    }

    /// The evaporation number (ether = 1) of a rate (n-butyl acetate = 1), within 15 %.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] for a rate that is not above zero.
    ///
    /// ```
    /// use mistcoat::{quantity::{Number, Quantity}, solvent::ScaleFamily};
    /// let number = ScaleFamily::Plain.number_of_rate(Number::from_si(5.6))?; // acetone; DIN 53170 lists 2
    /// assert!(number.low.si() < 2.0 && 2.0 < number.high.si());
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn number_of_rate(self, rate: Number) -> Result<Estimate<Number>> {
        self.turned(positive(rate, "relative evaporation rate")?)
    }

    /// The rate (n-butyl acetate = 1) of an evaporation number (ether = 1), within 15 %.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] for a number that is not above zero.
    pub fn rate_of_number(self, number: Number) -> Result<Estimate<Number>> {
        self.turned(positive(number, "evaporation number")?)
    }

    #[allow(clippy::unnecessary_wraps, reason = "keeps the two callers one line each")]
    fn turned(self, value: f64) -> Result<Estimate<Number>> {
        let parts = [ModelError::new("change of evaporation scale", SCALE_STD)];
        Ok(Estimate::relative(Number::from_si(self.product() / value), &parts))
    }
}

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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::digits;

    // Class limits as printed in trade glossaries and DIN 53170.
    #[rstest::rstest]
    #[case(5.6, EvaporationClass::Fast)]
    #[case(3.0, EvaporationClass::Medium)]
    #[case(0.8, EvaporationClass::Medium)]
    #[case(0.79, EvaporationClass::Slow)]
    fn class_of_rate(#[case] rate: f64, #[case] class: EvaporationClass) {
        assert_eq!(EvaporationClass::of_rate(Number::from_si(rate)).unwrap(), class);
    }

    #[rstest::rstest]
    #[case(2.0, EvaporationClass::Fast)]
    #[case(11.0, EvaporationClass::Medium)]
    #[case(38.0, EvaporationClass::Slow)]
    #[case(163.0, EvaporationClass::VerySlow)]
    fn class_of_number(#[case] number: f64, #[case] class: EvaporationClass) {
        assert_eq!(EvaporationClass::of_number(Number::from_si(number)).unwrap(), class);
    }

    #[rstest::rstest]
    #[case(0.0)]
    #[case(-1.0)]
    #[case(f64::NAN)]
    #[case(f64::INFINITY)]
    fn no_class_of_nonsense(#[case] rate: f64) {
        let text = EvaporationClass::of_rate(Number::from_si(rate)).unwrap_err().to_string();
        assert!(text.contains("more than 0") && text.contains("data sheet"), "{text}");
    }

    // Pairs of both scales for one solvent: DIN 53170 numbers as tabulated by Brock, Groteklaes and Mischke
    // against rates of trade glossaries. 15 % is what the rule claims.
    #[rstest::rstest]
    #[case("acetone", 2.0, 5.6)]
    #[case("toluene", 6.1, 1.95)]
    #[case("MIBK", 7.0, 1.6)]
    #[case("2-butoxyethanol", 163.0, 0.072)]
    #[case("ethanol", 8.3, 1.65)]
    #[case("n-butanol", 33.0, 0.44)]
    #[case("water", 80.0, 0.3)]
    fn scales_turn(#[case] name: &str, #[case] number: f64, #[case] rate: f64) {
        let family = crate::solvent::find(name).unwrap().scale_family();
        let turned = family.rate_of_number(Number::from_si(number)).unwrap();
        assert!((turned.best.si() / rate - 1.0).abs() < 0.15, "{} for {name}", digits(turned.best.si(), 3));
    }
}
