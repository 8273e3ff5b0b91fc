//! Drying films against an independent integration of the same equations.

use super::report::{Measure, Row, Section, celsius, data, number};
use mistcoat::air::Room;
use mistcoat::blend::{Basis, Blend};
use mistcoat::film::{Binder, Drying, Film, Substrate};
use mistcoat::quantity::{Length, Quantity, Ratio, RelativeHumidity, Velocity, VolumeFraction, to};
use std::collections::HashMap;
use std::fmt::Write as _;

fn dried(r: &HashMap<String, String>) -> (String, Drying) {
    let parts: Vec<(&str, f64)> = r["mass_parts"]
        .split(';')
        .map(|p| p.split_once('=').map(|(n, v)| (n, v.parse().unwrap())).unwrap())
        .collect();
    let blend = Blend::from_names(&parts, Basis::Mass, None).unwrap();
    let room = Room::new(
        celsius(number(r, "temperature_degC")),
        RelativeHumidity::new(number(r, "relative_humidity_pct") / 100.0).unwrap(),
    )
    .unwrap()
    .with_air_speed(Velocity::from_si(number(r, "air_speed_m_s")))
    .unwrap();
    let solids = VolumeFraction::new(number(r, "solids_pct") / 100.0).unwrap();
    let mut film = Film::new(&blend, solids, Length::from_si(1e-6 * number(r, "wet_um")), &room)
        .unwrap()
        .with_substrate(Substrate::named(&r["substrate"]).unwrap())
        .with_part_length(Length::from_si(1e-3 * number(r, "part_length_mm")))
        .unwrap();
    let mut name = format!("{}, {} µm on {}", blend.label(), r["wet_um"], r["substrate"]);
    if let Ok(glass) = r["binder_tg_degC"].parse() {
        film = film.with_binder(Binder::new(celsius(glass)).unwrap());
        let _ = write!(name, ", {} % binder of {glass} °C", r["solids_pct"]);
    }
    let _ = write!(
        name,
        "; {} °C, {} %, {} m/s",
        r["temperature_degC"], r["relative_humidity_pct"], r["air_speed_m_s"]
    );
    (name, film.dry().unwrap())
}

/// Films of the bench, then films over the whole catalogue.
fn films() -> impl Iterator<Item = HashMap<String, String>> {
    ["film_reference.csv", "film_catalogue_reference.csv"].into_iter().flat_map(data)
}

pub fn times() -> Section {
    let mut rows = Vec::new();
    for r in films() {
        let (name, dry) = dried(&r);
        for (column, share) in [("t50_s", 0.5), ("t90_s", 0.9), ("t99_s", 0.99)] {
            let Ok(published) = r[column].parse() else { continue };
            let ours = dry.time_to_lose(Ratio::from_si(share)).unwrap().si();
            let what = format!("time to lose {} %", 100.0 * share);
            // Hydrocarbons under dew part from the water they gather; the moment of it is ill defined, in the reference too.
            let hydrocarbons = r["mass_parts"].split(';').all(|part| {
                ["o-xylene", "toluene", "n-heptane"].contains(&part.split('=').next().unwrap_or(part))
            });
            let parts = hydrocarbons && dry.warnings().iter().any(|w| w.code == "blush-dew");
            let tolerance = if parts { 2.5 } else { 0.5 };
            rows.push(Row::new(&what, &name, "s", published, ours, &r["source"]).within(tolerance));
        }
        for (what, column) in [("touch dry", "touch_dry_s"), ("block-free", "block_free_s")] {
            let Ok(published) = r[column].parse() else { continue };
            let mark = if what == "touch dry" { dry.touch_dry() } else { dry.block_free() };
            rows.push(
                Row::new(what, &name, "s", published, mark.unwrap().best().si(), &r["source"]).within(1.0),
            );
        }
    }
    let text = "The same equations integrated by scipy's LSODA at 1e-7 with the activities of another library: it checks the \
        integrator and the algebra. How good the equations are is a matter of the rates above; no measured course of a drying \
        blend was found in print. 156 films of the bench, on which the tolerances of the engine were set, then 200 drawn over the whole \
        catalogue. One film, of hydrocarbons that gather dew, parts from the water; the moment of that is ill defined in \
        the reference too, and its times are only held within 2.5 %.";
    Section::new("Drying times", Measure::Percent, rows, text).worst(15)
}

pub fn temperatures() -> Section {
    let rows = films().map(|r| {
        let (name, dry) = dried(&r);
        let cold = to(dry.coldest(), "°C").unwrap();
        Row::new("coldest", &name, "°C", number(&r, "coldest_degC"), cold, &r["source"]).within(0.1)
    });
    let text = "Lowest temperature of the same films.";
    Section::new("Film temperatures", Measure::Difference("K"), rows.collect(), text).worst(10)
}
