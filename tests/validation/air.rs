//! The air of the room and of the gun.

use super::report::{Measure, Row, Section, celsius, data, number};
use super::{published_near_gun, published_room, published_session};
use mistcoat::air::{Orifice, Room};
use mistcoat::quantity::{Quantity, Ratio, RelativeHumidity, of, parse, to};
use std::collections::HashMap;

fn grid_room(r: &HashMap<String, String>) -> Room {
    let humidity = RelativeHumidity::new(number(r, "relative_humidity_pct") / 100.0).unwrap();
    Room::new(celsius(number(r, "temperature_degC")), humidity)
        .unwrap()
        .with_pressure(Quantity::from_si(number(r, "pressure_Pa")))
        .unwrap()
}

fn conditions(r: &HashMap<String, String>) -> String {
    let kpa = number(r, "pressure_Pa") / 1e3;
    format!("{} °C, {} % humidity, {kpa} kPa", r["temperature_degC"], r["relative_humidity_pct"])
}

pub fn psychrometrics() -> Section {
    let mut rows = Vec::new();
    for r in data("psychrometrics.csv") {
        let room = grid_room(&r);
        let conditions = conditions(&r);
        let dew = to(room.dew_point().unwrap(), "°C").unwrap();
        let wet = to(room.wet_bulb().unwrap(), "°C").unwrap();
        let source = r["source"].as_str();
        rows.push(
            Row::new("dew point", &conditions, "°C", number(&r, "dew_point_degC"), dew, source).within(0.03),
        );
        rows.push(
            Row::new("wet bulb", &conditions, "°C", number(&r, "wet_bulb_degC"), wet, source).within(0.01),
        );
    }
    let dew = |t: f64, humidity: f64| {
        let room = Room::new(celsius(t), RelativeHumidity::new(humidity / 100.0).unwrap()).unwrap();
        to(room.dew_point().unwrap(), "°C").unwrap()
    };
    let chart = "Application guide of a coatings maker, dew point chart in whole degrees";
    rows.push(Row::new("dew point", "16 °C, 71 % humidity", "°C", 11.0, dew(16.0, 71.0), chart).within(0.5));
    let page = "Physics answer page, Magnus form with 17.27 and 237.7 °C";
    rows.push(Row::new("dew point", "22 °C, 78 % humidity", "°C", 17.98, dew(22.0, 78.0), page).within(0.05));
    let text =
        "Against the ASHRAE equations over a grid, at sea level and 1500 m up, and two printed examples.";
    Section::new("Damp air", Measure::Difference("K"), rows, text).worst(15)
}

pub fn humidity_ratios() -> Section {
    let data = data("psychrometrics.csv");
    let rows = data.iter().map(|r| {
        let ratio = 1e3 * grid_room(r).humidity_ratio().unwrap().si();
        let conditions = conditions(r);
        Row::new("humidity ratio", &conditions, "g/kg", number(r, "humidity_ratio_g_kg"), ratio, &r["source"])
            .within(0.1)
    });
    let text = "The same grid. The two laws for the vapour pressure of water differ by 0.05 %.";
    Section::new("Humidity ratio", Measure::Percent, rows.collect(), text).worst(10)
}

pub fn nozzles() -> Section {
    let room = Room::new(parse("60 °F").unwrap(), RelativeHumidity::new(0.0).unwrap()).unwrap();
    let rows = data("orifice_discharge.csv");
    let rows = rows.iter().map(|r| {
        let (psi, inches) = (number(r, "gauge_psi"), number(r, "diameter_in"));
        let hole = Orifice::round(of(inches, "in").unwrap(), Ratio::from_si(1.0)).unwrap();
        let flow = to(hole.free_air(of(psi, "psi").unwrap(), &room).unwrap(), "ft3/min").unwrap();
        let conditions = format!("{psi} psi gauge, {inches} in");
        Row::new(
            "free air through a round hole",
            &conditions,
            "ft³/min",
            number(r, "free_air_cfm"),
            flow,
            &r["source"],
        )
        .within(2.0)
    });
    let text = "Flow of an ideal gas with coefficient 1. The table prints three digits and does not state its free air: 60 °F and 14.7 psi are assumed.";
    Section::new("Air through nozzles", Measure::Percent, rows.collect(), text)
}

pub fn room_vapour() -> Section {
    let rows = published_room::rows().into_iter().map(|r| {
        let computed = published_room::computed(&r);
        Row::new("vapour in the room", &r.conditions, &r.unit, r.published, computed, &r.source)
            .said_to_be(&r.provenance)
            .within(r.tolerance_percent)
    });
    let text = "The well-mixed room, an average that the air near the gun exceeds many times; see `air::RoomVapour`.";
    Section::new("Vapour in a room", Measure::Percent, rows.collect(), text)
}

pub fn session_vapour() -> Section {
    let rows = published_session::rows().into_iter().map(|r| {
        let computed = published_session::computed(&r);
        Row::new("exposure over a session", &r.conditions, &r.unit, r.published, computed, &r.source)
            .said_to_be(&r.provenance)
            .within(r.tolerance_percent)
    });
    let text = "Sums over the limits of 29 CFR 1910.1000, the worst 8 h and 15 min, and the air within half a metre; see \
                `safety::SessionAir`. The arithmetic is exact; how well a real room mixes is not: that stands in the intervals. \
                No measured exposure at an airbrush was found in print.";
    Section::new("Exposure over a session", Measure::Percent, rows.collect(), text)
}

pub fn near_gun() -> Section {
    let rows = published_near_gun::rows().into_iter().map(|r| {
        Row::new(r.quantity, &r.conditions, r.unit, r.published, r.computed, &r.source)
            .within(r.tolerance_percent)
    });
    let text = "The spray against the lower flammable limit, by hand from the laws of the jet, and fresh air for a quarter of \
                the limit from the vapour volumes of 29 CFR 1910.94(c). These check the sums; how rich the air at a real gun is \
                was not found in print. See `safety::near_gun`.";
    Section::new("Air near the gun", Measure::Percent, rows.collect(), text)
}
