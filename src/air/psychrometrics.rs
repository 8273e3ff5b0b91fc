//! How damp is the air: saturation pressure, dew point, wet bulb, humidity ratio.
//!
//! **Saturation pressure** over liquid water, Wagner and Pruss (IAPWS), with τ = 1 − T/Tc:
//! `ln(p/pc) = (Tc/T)(a1 τ + a2 τ^1.5 + a3 τ^3 + a4 τ^3.5 + a5 τ^4 + a6 τ^7.5)`.
//! **Dew point**: the temperature at which that pressure equals `RH · psat(T)`.
//! **Humidity ratio**: `W = 0.621945 p_w/(P − p_w)`, kilogram of water per kilogram of dry air.
//! **Wet bulb** t* (t in °C), the balance of the ASHRAE Handbook of Fundamentals:
//! `W = [(2501 − 2.326 t*) Ws(t*) − 1.006 (t − t*)]/(2501 + 1.86 t − 4.186 t*)`.
//!
//! Accuracy: within 0.03 K (dew point), 0.01 K (wet bulb) and 0.1 % (humidity ratio) of the ASHRAE
//! equations as the open library PsychroLib has them, over 5 to 50 °C at 84 and 101 kPa (`tests/data/psychrometrics.csv`).
//! Below 0 °C everything refers to supercooled liquid water: hoar frost already forms slightly above the
//! dew point given here. Neglected: the enhancement factor of moist air (0.4 %).

use super::properties::ZERO_CELSIUS;
use crate::error::{Result, out_of_range};
use crate::quantity::{Pressure, Quantity, Ratio, RelativeHumidity, Temperature, show};

/// Ratio of the molar masses of water and dry air (source key `ASHRAE_PSY`).
const MASS_RATIO: f64 = 0.621_945;
/// Below this relative humidity the dew point lies under −60 °C and means nothing for a coat.
const DRIEST: f64 = 1e-3;

/// Wagner and Pruss (source key `IAPWS_PSAT`); 1e-3 Pa at 175 K up to the critical point.
pub(crate) fn saturation_pressure_pa(temperature_k: f64) -> f64 {
    const CRITICAL_K: f64 = 647.096;
    const CRITICAL_PA: f64 = 22.064e6;
    let tau = 1.0 - temperature_k / CRITICAL_K;
    let root = tau.sqrt();
    let tau3 = tau * tau * tau;
    let sum = -7.859_517_83 * tau + 1.844_082_59 * tau * root - 11.786_649_7 * tau3
        + 22.680_741_1 * tau3 * root
        - 15.961_871_9 * tau3 * tau
        + 1.801_225_02 * tau3 * tau3 * tau * root;
    CRITICAL_PA * (CRITICAL_K / temperature_k * sum).exp()
}

/// Inverts [`saturation_pressure_pa`]. Starts from the Magnus form (source key `WMO_MAGNUS`), then Newton on
/// ln p, whose slope is taken from the function itself.
pub(crate) fn dew_point_k(vapour_pressure_pa: f64) -> f64 {
    let g = (vapour_pressure_pa / 611.2).ln();
    let mut t = ZERO_CELSIUS + 243.12 * g / (17.62 - g);
    for _ in 0..6 {
        let ln_p = saturation_pressure_pa(t).ln();
        let slope = (saturation_pressure_pa(t + 0.01).ln() - ln_p) / 0.01;
        let step = (vapour_pressure_pa.ln() - ln_p) / slope;
        t += step;
        if step.abs() < 1e-10 {
            break;
        }
    }
    t
}

/// Pressure of water vapour in equilibrium with liquid water.
///
/// # Errors
/// A [`crate::error::RangeError`] outside −40 to 100 °C.
///
/// ```
/// use mistcoat::{air::psychrometrics::saturation_pressure, quantity::{parse, to}};
/// let p = saturation_pressure(parse("25 °C")?)?;
/// assert!((to(p, "Pa")? - 3169.9).abs() < 0.2); // IAPWS
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn saturation_pressure(temperature: Temperature) -> Result<Pressure> {
    check(temperature)?;
    Ok(Pressure::from_si(saturation_pressure_pa(temperature.si())))
}

/// The temperature at which dew forms on a surface.
///
/// # Errors
/// A [`crate::error::RangeError`] outside −40 to 100 °C, or for air drier than 0.1 % relative humidity,
/// which has no dew point worth a number.
///
/// ```
/// use mistcoat::{air::psychrometrics::dew_point, quantity::{parse, to, RelativeHumidity}};
/// let t = dew_point(parse("25 °C")?, RelativeHumidity::new(0.5)?)?;
/// assert!((to(t, "°C")? - 13.86).abs() < 0.02); // ASHRAE equations
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn dew_point(temperature: Temperature, humidity: RelativeHumidity) -> Result<Temperature> {
    check(temperature)?;
    if humidity.get() < DRIEST {
        return Err(out_of_range(
            "relative humidity",
            humidity.to_string(),
            "0.1 % or more for a dew point",
            "air this dry forms no dew; leave the dew point out",
        ));
    }
    Ok(Temperature::from_si(dew_point_k(humidity.get() * saturation_pressure_pa(temperature.si()))))
}

/// Mass of water vapour per mass of dry air.
///
/// # Errors
/// A [`crate::error::RangeError`] outside −40 to 100 °C or when the vapour pressure reaches the pressure.
pub fn humidity_ratio(
    temperature: Temperature,
    humidity: RelativeHumidity,
    pressure: Pressure,
) -> Result<Ratio> {
    check(temperature)?;
    super::room::check_pressure(pressure)?;
    let p_w = humidity.get() * saturation_pressure_pa(temperature.si());
    if p_w >= pressure.si() {
        return Err(out_of_range(
            "water vapour pressure",
            show(Pressure::from_si(p_w)),
            format!("less than the air pressure, {}", show(pressure)),
            "check temperature, humidity and pressure of the room",
        ));
    }
    Ok(Ratio::from_si(ratio(p_w, pressure.si())))
}

/// The temperature a wet surface in moving air settles at.
///
/// # Errors
/// As [`humidity_ratio`].
///
/// ```
/// use mistcoat::{air::psychrometrics::wet_bulb, quantity::{parse, to, RelativeHumidity}};
/// let t = wet_bulb(parse("25 °C")?, RelativeHumidity::new(0.5)?, parse("1 atm")?)?;
/// assert!((to(t, "°C")? - 17.89).abs() < 0.02); // ASHRAE equations
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn wet_bulb(
    temperature: Temperature,
    humidity: RelativeHumidity,
    pressure: Pressure,
) -> Result<Temperature> {
    let w = humidity_ratio(temperature, humidity, pressure)?.si();
    let t = temperature.si() - ZERO_CELSIUS;
    // Coefficients of the balance in kJ/kg and kJ/(kg K): source key `ASHRAE_PSY`.
    let excess = |bulb: f64| {
        let saturated = ratio(saturation_pressure_pa(bulb + ZERO_CELSIUS), pressure.si());
        ((2501.0 - 2.326 * bulb) * saturated - 1.006 * (t - bulb)) / (2501.0 + 1.86 * t - 4.186 * bulb) - w
    };
    // Rises with the bulb temperature, which lies between absolute dryness and the air temperature.
    let (mut low, mut high) = (t - 80.0, t);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if excess(middle) > 0.0 {
            high = middle;
        } else {
            low = middle;
        }
    }
    Ok(Temperature::from_si(0.5 * (low + high) + ZERO_CELSIUS))
}

fn ratio(vapour_pressure_pa: f64, pressure_pa: f64) -> f64 {
    MASS_RATIO * vapour_pressure_pa / (pressure_pa - vapour_pressure_pa)
}

fn check(temperature: Temperature) -> Result<()> {
    if (-40.0..=100.0).contains(&(temperature.si() - ZERO_CELSIUS)) {
        return Ok(());
    }
    Err(out_of_range(
        "air temperature",
        show(temperature),
        "-40 °C to 100 °C",
        "check the thermometer and its unit",
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    // IAPWS, Revised Supplementary Release on Saturation Properties (1992), check values.
    #[rstest::rstest]
    #[case(273.16, 611.657)]
    #[case(373.1243, 101_325.0)]
    fn iapws_check_values(#[case] t: f64, #[case] p: f64) {
        approx::assert_relative_eq!(saturation_pressure_pa(t), p, max_relative = 1e-4);
    }

    proptest::proptest! {
        #[test]
        fn dew_point_inverts(t in 253.15_f64..333.15) {
            let back = dew_point_k(saturation_pressure_pa(t));
            proptest::prop_assert!((back - t).abs() < 1e-7);
        }

        // Dew point <= wet bulb <= dry bulb, whatever the humidity.
        #[test]
        fn bulbs_are_in_order(t in 278.15_f64..323.15, rh in 0.05_f64..1.0) {
            let (t, rh) = (Temperature::from_si(t), RelativeHumidity::new(rh).unwrap());
            let wet = wet_bulb(t, rh, Pressure::from_si(101_325.0)).unwrap();
            let dew = dew_point(t, rh).unwrap();
            proptest::prop_assert!(dew.si() <= wet.si() + 2e-2 && wet.si() <= t.si() + 1e-9);
        }
    }

    #[test]
    fn dry_air_has_no_dew_point() {
        let e = dew_point(Temperature::from_si(293.15), RelativeHumidity::new(0.0).unwrap()).unwrap_err();
        let text = e.to_string();
        assert!(text.contains("0.1 %") && text.contains("leave the dew point out"), "{text}");
    }
}
