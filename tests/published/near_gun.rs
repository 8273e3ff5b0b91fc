//! The air at the gun: rows worked by hand, and `tests/data/dilution_air.csv`, against what the crate computes.

use mistcoat::air::Room;
use mistcoat::blend::{Basis, Blend};
use mistcoat::dose::{Parts, Thinning};
use mistcoat::estimate::Estimate;
use mistcoat::paint::{Family, Paint};
use mistcoat::quantity::{Length, Quantity, RelativeHumidity, parse};
use mistcoat::safety::{NearGun, lower_flammable_limit, near_gun};
use mistcoat::solvent::find;
use mistcoat::spray::{Airbrush, Shot};
use serde::Deserialize;

/// One number beside another.
#[allow(dead_code, reason = "each user reads its own columns")]
pub struct Row {
    pub quantity: &'static str,
    pub conditions: String,
    pub unit: &'static str,
    pub published: f64,
    pub computed: f64,
    pub tolerance_percent: f64,
    pub source: String,
}

/// Cubic feet of a US gallon.
const FT3_PER_GALLON: f64 = 0.133_680_56;
const JET: &str = "worked by hand: Ricou and Spalding, 1.6 of Chen and Rodi on the axis, Le Chatelier";

pub fn shot(family: Family, liquid: &str, thinner: f64, psi: f64, flow: &str, distance: &str) -> Shot {
    let blend = Blend::from_names(&[(liquid, 1.0)], Basis::Volume, None).unwrap();
    let thinning = Thinning::from_parts(Parts { thinner, paint: 1.0 }).unwrap();
    let mix = Paint::typical(family, "hull green (invented)").unwrap().thin(&blend, thinning).unwrap();
    let room = Room::new(parse("25 °C").unwrap(), RelativeHumidity::new(0.5).unwrap()).unwrap();
    Airbrush::new(parse("0.3 mm").unwrap(), parse(&format!("{psi} psi")).unwrap(), parse(distance).unwrap())
        .unwrap()
        .with_paint_flow(Estimate::exact(parse(flow).unwrap()))
        .unwrap()
        .spray(&mix, &room)
        .unwrap()
}

pub fn near(shot: &Shot, at: &[&str]) -> NearGun {
    let at: Vec<Length> = at.iter().map(|x| parse(x).unwrap()).collect();
    near_gun(shot, &at).unwrap().unwrap()
}

pub fn rows() -> Vec<Row> {
    let mut all = Vec::new();
    for (liquid, psi, flow) in [
        ("acetone", 20.0, "1.2 mL/min"),
        ("toluene", 15.0, "3 mL/min"),
        ("n-butyl acetate", 30.0, "0.6 mL/min"),
    ] {
        in_the_jet(liquid, psi, flow, &mut all);
    }
    fresh_air(&mut all);
    all
}

/// The solvent sprayed in a second, as moles, in the air that the nozzle gives times 0.32 x/d (Ricou and Spalding), 1.6
/// times richer on the axis (Chen and Rodi), over 1/Σ(y/L) (Le Chatelier). Free air of the gun: 28.965 g/mol, 1.184 g/L at
/// 25 °C.
fn in_the_jet(liquid: &str, psi: f64, flow: &str, all: &mut Vec<Row>) {
    let shot = shot(Family::SolventLacquer, liquid, 50.0, psi, flow, "100 mm");
    let volatile = shot.mix().volatile().unwrap();
    let t = parse("25 °C").unwrap();
    let flow_m3_s = parse::<mistcoat::quantity::VolumeRate>(flow).unwrap().si();
    let liquid_m3_s = flow_m3_s * (1.0 - shot.mix().volume_solids().best.si());
    let kg_s = liquid_m3_s * volatile.density(t).unwrap().best().si();
    let mol_s: f64 =
        volatile.ingredients().iter().map(|i| kg_s * i.mass_fraction / i.solvent.molar_mass().si()).sum();
    let limit = lower_flammable_limit(&volatile).unwrap().unwrap().limit.si();
    let nozzle_mol_s = shot.air_demand().unwrap().best().si() * 1.184 / 28.965e-3;
    let found = near(&shot, &["50 mm", "100 mm"]);
    for (place, x_m) in found.places.iter().zip([0.05, 0.1]) {
        let air = nozzle_mol_s * 0.32 * x_m / shot.jet().equivalent_diameter().si();
        all.push(Row {
            quantity: "spray with its mist over the lower flammable limit",
            conditions: format!("{liquid}, {flow}, {psi} psi, at {:.0} mm", 1e3 * x_m),
            unit: "%",
            published: 100.0 * 1.6 * mol_s / (1.6 * mol_s + air) / limit,
            computed: 100.0 * place.with_mist.best.si(),
            tolerance_percent: 2.0,
            source: JET.to_owned(),
        });
    }
}

#[derive(Debug, Deserialize)]
struct Vapour {
    solvent: String,
    cubic_feet_per_gallon: f64,
    tolerance_percent: f64,
    source: String,
}

/// `4 (100 − L) V/L` cubic feet of air a gallon, V from the table, L from the catalogue. The table is for 70 °F, the gun sprays
/// at 25 °C (1.3 %), 400 parts of the liquid to one of paint.
fn fresh_air(all: &mut Vec<Row>) {
    let path = format!("{}/tests/data/dilution_air.csv", env!("CARGO_MANIFEST_DIR"));
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_path(path).unwrap();
    for row in reader.deserialize() {
        let row: Vapour = row.unwrap();
        let found = near(&shot(Family::SolventLacquer, &row.solvent, 400.0, 20.0, "3 mL/min", "100 mm"), &[]);
        let limit = 100.0 * find(&row.solvent).unwrap().lower_flammable_limit().unwrap().value.si();
        all.push(Row {
            quantity: "fresh air that keeps a quarter of the limit",
            conditions: format!(
                "{}, {} ft³ of vapour a gallon, limit of the catalogue {limit:.2} %",
                row.solvent, row.cubic_feet_per_gallon
            ),
            unit: "ft³/gal",
            published: 4.0 * (100.0 - limit) * row.cubic_feet_per_gallon / limit,
            computed: found.air_for_quarter.best.si() / (3e-6 / 60.0) * FT3_PER_GALLON,
            tolerance_percent: row.tolerance_percent,
            source: row.source,
        });
    }
}
