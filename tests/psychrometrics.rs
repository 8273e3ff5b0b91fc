//! Room air against the ASHRAE equations and against worked examples.

use mistcoat::air::Room;
use mistcoat::air::psychrometrics::saturation_pressure;
use mistcoat::quantity::{Quantity, RelativeHumidity, Temperature, to};
use serde::Deserialize;

#[derive(Deserialize)]
#[allow(non_snake_case, reason = "column names carry units")]
struct Row {
    temperature_degC: f64,
    relative_humidity_pct: f64,
    pressure_Pa: f64,
    saturation_pressure_Pa: f64,
    dew_point_degC: f64,
    wet_bulb_degC: f64,
    humidity_ratio_g_kg: f64,
    source: String,
}

#[test]
fn grid_of_the_ashrae_equations() {
    let mut rows = csv::Reader::from_path("tests/data/psychrometrics.csv").unwrap();
    let mut count = 0;
    for row in rows.deserialize() {
        let row: Row = row.unwrap();
        let humidity = RelativeHumidity::new(row.relative_humidity_pct / 100.0).unwrap();
        let temperature = Temperature::from_si(row.temperature_degC + 273.15);
        let room = Room::new(temperature, humidity)
            .unwrap()
            .with_pressure(Quantity::from_si(row.pressure_Pa))
            .unwrap();
        let what = format!(
            "{} °C, {} %, {} Pa ({})",
            row.temperature_degC, row.relative_humidity_pct, row.pressure_Pa, row.source
        );
        // Two formulas for the vapour pressure of water (Hyland and Wexler there) differ by up to 0.05 %.
        let p = saturation_pressure(temperature).unwrap().si();
        assert!((p / row.saturation_pressure_Pa - 1.0).abs() < 6e-4, "{what}: {p} Pa");
        let dew = to(room.dew_point().unwrap(), "°C").unwrap();
        assert!((dew - row.dew_point_degC).abs() < 0.03, "{what}: dew point {dew}");
        let wet = to(room.wet_bulb().unwrap(), "°C").unwrap();
        assert!((wet - row.wet_bulb_degC).abs() < 0.01, "{what}: wet bulb {wet}");
        let ratio = 1e3 * room.humidity_ratio().unwrap().si();
        assert!((ratio / row.humidity_ratio_g_kg - 1.0).abs() < 1e-3, "{what}: humidity ratio {ratio}");
        count += 1;
    }
    assert!(count > 90, "{count} rows");
}

// Worked examples seen in print: a coating application guide (chart, rounded to whole degrees) and a physics
// answer page (constants 17.27 and 237.7).
#[rstest::rstest]
#[case(16.0, 71.0, 11.0, 0.5)]
#[case(22.0, 78.0, 17.98, 0.05)]
fn printed_dew_points(#[case] t: f64, #[case] rh: f64, #[case] dew: f64, #[case] tolerance: f64) {
    let room =
        Room::new(Temperature::from_si(t + 273.15), RelativeHumidity::new(rh / 100.0).unwrap()).unwrap();
    assert!((to(room.dew_point().unwrap(), "°C").unwrap() - dew).abs() < tolerance);
}
