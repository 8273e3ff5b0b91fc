//! Vapour over a session: `tests/data/session_vapour.csv` against what the crate computes.

use crate::case::Row;
use mistcoat::air::Room;
use mistcoat::blend::{Basis, Blend};
use mistcoat::quantity::{Quantity, of};
use mistcoat::quantity::{Ratio, RelativeHumidity, Volume, parse, to};
use mistcoat::safety::{Authority, SessionAir, SessionExposure};
use mistcoat::solvent::find;
use std::sync::LazyLock;

pub fn rows() -> Vec<Row> {
    crate::case::rows("session_vapour.csv")
}

fn air(per_hour: f64) -> SessionAir {
    let room = Room::new(parse("25 °C").unwrap(), RelativeHumidity::new(0.5).unwrap()).unwrap();
    let room = room.with_volume(parse("30 m3").unwrap()).unwrap();
    let room = room.with_air_changes(of(per_hour, "/h").unwrap()).unwrap();
    SessionAir::new(&room)
        .unwrap()
        .with_mixing(Ratio::from_si(1.0))
        .unwrap()
        .with_authority(Authority::OshaPel)
}

/// Evaporated from the begin, all of it, within so many minutes.
fn poured(air: SessionAir, liquid: &Blend, volume: Volume, minutes: f64) -> SessionExposure {
    let (begin, lasts) = (of(0.0, "min").unwrap(), of(minutes, "min").unwrap());
    air.cleaning("spill", liquid, volume, Ratio::from_si(1.0), begin, lasts).unwrap().run().unwrap()
}

fn volume_of(blend: &Blend, kg: f64) -> Volume {
    Volume::from_si(kg / blend.density(parse("25 °C").unwrap()).unwrap().best().si())
}

/// What makes 500, 45 and 40 ppm in 30 m3, as the ideal gas has it.
static RULE: LazyLock<SessionExposure> = LazyLock::new(|| {
    let parts = [("acetone", 500.0), ("toluene", 45.0), ("methanol", 40.0)];
    let blend = Blend::from_names(&parts, Basis::Mole, None).unwrap();
    let moles = 1e-6 * 30.0 * 101_325.0 / (8.314_462_618 * 298.15);
    let kg = parts.iter().map(|(name, ppm)| ppm * moles * find(name).unwrap().molar_mass().si()).sum();
    poured(air(0.0), &blend, volume_of(&blend, kg), 0.0)
});

static TERNARY: LazyLock<SessionExposure> = LazyLock::new(|| {
    let parts = [("acetone", 50.0), ("n-butyl acetate", 35.0), ("2-butoxyethanol", 15.0)];
    let blend = Blend::from_names(&parts, Basis::Mass, None).unwrap();
    poured(air(0.5), &blend, volume_of(&blend, 8.3e-3), 10.0)
});

fn peak(found: &SessionExposure, solvent: &str) -> f64 {
    to(found.vapours.iter().find(|v| v.solvent == solvent).unwrap().peak, "ppm").unwrap()
}

pub fn computed(row: &Row) -> f64 {
    match row.case.as_str() {
        "rule-sum" => RULE.shift_sum.best.si(),
        "rule-acetone" => peak(&RULE, "acetone"),
        "rule-toluene" => peak(&RULE, "toluene"),
        "rule-methanol" => peak(&RULE, "methanol"),
        "ternary-acetone" => peak(&TERNARY, "acetone"),
        "ternary-butyl-acetate" => peak(&TERNARY, "n-butyl acetate"),
        "ternary-butoxyethanol" => peak(&TERNARY, "2-butoxyethanol"),
        "ternary-peak" => TERNARY.peak().si(),
        "ternary-flammable" => 100.0 * TERNARY.flammable_share.si(),
        "ternary-acetone-8h" => {
            let acetone = TERNARY.vapours.iter().find(|v| v.solvent == "acetone").unwrap();
            to(acetone.shift_mean, "ppm").unwrap()
        }
        "near-zone" => {
            let toluene = Blend::from_names(&[("toluene", 1.0)], Basis::Mass, None).unwrap();
            let found = poured(air(100.0), &toluene, of(500.0, "mL").unwrap(), 480.0);
            found.near_short_sum.best.si() / found.short_sum.best.si()
        }
        other => panic!("no case {other:?}"),
    }
}
