//! Worked examples of vapour in a room: `tests/data/room_vapour.csv` against what the crate computes.

use crate::case::Row;
use mistcoat::air::{Release, Room, RoomVapour};
use mistcoat::quantity::{Quantity, Ratio, RelativeHumidity, Time, VolumeRate, of, parse, to};
use mistcoat::solvent::find;

pub fn rows() -> Vec<Row> {
    crate::case::rows("room_vapour.csv")
}

fn room(temperature: &str, volume: &str, per_hour: f64) -> Room {
    Room::new(parse(temperature).unwrap(), RelativeHumidity::new(0.5).unwrap())
        .unwrap()
        .with_volume(parse(volume).unwrap())
        .unwrap()
        .with_air_changes(of(per_hour, "/h").unwrap())
        .unwrap()
}

/// Fresh air by flow, in a room of 100 m3: the steady state does not know the volume.
fn ventilated(temperature: &str, flow: &str) -> Room {
    let flow: VolumeRate = parse(flow).unwrap();
    room(temperature, "100 m3", 3600.0 * flow.si() / 100.0)
}

/// Parts per million of a steady release of so many kg/s.
fn steady_ppm(room: &Room, liquid: &str, mixing: f64, kg_s: f64) -> f64 {
    let vapour = RoomVapour::new(room, find(liquid).unwrap().molar_mass())
        .unwrap()
        .with_mixing(Ratio::from_si(mixing))
        .unwrap();
    let each = Time::from_si(60.0);
    let steady = vapour.steady(Quantity::from_si(60.0 * kg_s), each).unwrap().best();
    to(vapour.volume_share(steady).unwrap(), "ppm").unwrap()
}

/// Share of the ternary thinner (8.3 g within 10 min in 30 m3 at 0.5 /h) at a time.
fn session(liquid: &str, share: f64, minutes: f64, unit: &str) -> f64 {
    let vapour = RoomVapour::new(&room("25 °C", "30 m3", 0.5), find(liquid).unwrap().molar_mass())
        .unwrap()
        .with_mixing(Ratio::from_si(1.0))
        .unwrap()
        .with_release(
            Release::new(of(8.3 * share, "g").unwrap(), Time::from_si(0.0), parse("10 min").unwrap())
                .unwrap(),
        );
    let c = vapour.concentration(Time::from_si(60.0 * minutes)).unwrap().best();
    if unit == "ppm" { to(vapour.volume_share(c).unwrap(), "ppm").unwrap() } else { to(c, unit).unwrap() }
}

pub fn computed(row: &Row) -> f64 {
    match row.case.as_str() {
        "steady-toluene-0.5" => {
            steady_ppm(&ventilated("26.667 °C", "100 ft3/min"), "toluene", 0.5, 1e-4 / 60.0)
        }
        "steady-toluene-0.1" => {
            steady_ppm(&ventilated("26.667 °C", "100 ft3/min"), "toluene", 0.1, 1e-4 / 60.0)
        }
        "tank-toluene" => {
            // Evaporation by the book's coefficient from the catalogue's vapour pressure.
            let toluene = find("toluene").unwrap();
            let molar_mass = toluene.molar_mass().si();
            let pressure = toluene.vapour_pressure(parse("25 °C").unwrap()).unwrap().best.si();
            let k_m_s = 0.83e-2 * (18.0 / (1e3 * molar_mass)).cbrt();
            let area = core::f64::consts::PI / 4.0 * (5.0 * 0.3048_f64).powi(2);
            let kg_s = k_m_s * area * pressure * molar_mass / (8.314_463 * 298.15);
            steady_ppm(&ventilated("25 °C", "3000 ft3/min"), "toluene", 1.0, kg_s)
        }
        "session-peak" => session("acetone", 1.0, 10.0, "mg/m3"),
        "session-30" => session("acetone", 1.0, 30.0, "mg/m3"),
        "session-60" => session("acetone", 1.0, 60.0, "mg/m3"),
        "session-acetone" => session("acetone", 0.5, 10.0, "ppm"),
        "session-butyl-acetate" => session("n-butyl acetate", 0.35, 10.0, "ppm"),
        "session-butoxyethanol" => session("2-butoxyethanol", 0.15, 10.0, "ppm"),
        other => panic!("no computation for {other}"),
    }
}
