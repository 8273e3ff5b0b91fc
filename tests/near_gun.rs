//! The air at the gun against the lower flammable limit: worked by hand, and what must hold for any gun.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed test panics")]

use mistcoat::paint::{Family, Paint};
use mistcoat::quantity::{Length, Quantity, parse, to};
use mistcoat::safety::{NearGun, near_gun};
use proptest::prelude::*;

#[path = "published/near_gun.rs"]
mod published;

use published::{near, shot};

// By hand from the laws of the jet, and fresh air by the rule of 29 CFR 1910.94(c)(6): tests/published/near_gun.rs, which the
// validation report prints.
#[test]
fn every_row_holds() {
    let rows = published::rows();
    assert_eq!(rows.len(), 17);
    for r in rows {
        let off = 100.0 * (r.computed / r.published - 1.0);
        assert!(off.abs() <= r.tolerance_percent, "{}, {}: off by {off} %", r.quantity, r.conditions);
    }
}

#[test]
fn the_jet_and_what_has_evaporated() {
    let shot = shot(Family::SolventLacquer, "acetone", 50.0, 20.0, "1.2 mL/min", "100 mm");
    let jet = shot.jet();
    approx::assert_relative_eq!(
        0.32 * 0.1 / jet.equivalent_diameter().si(),
        jet.entrainment_at(parse("100 mm").unwrap()).unwrap().si(),
        max_relative = 1e-9
    );
    // What has evaporated by then is what the flight says.
    let place = &near(&shot, &["100 mm"]).places[0];
    let lost = shot.flight_loss().unwrap().best().si();
    approx::assert_relative_eq!(place.evaporated.si(), lost, max_relative = 1e-6);
    approx::assert_relative_eq!(
        place.share_of_limit.best.si(),
        lost * place.with_mist.best.si(),
        max_relative = 0.05
    );
}

#[test]
fn it_cautions_and_never_says_safe() {
    for (family, liquid) in [
        (Family::SolventLacquer, "acetone"),
        (Family::AlkydEnamel, "white spirit"),
        (Family::AlcoholAcrylic, "isopropanol"),
        (Family::WaterborneAcrylic, "1-methoxy-2-propanol"),
    ] {
        let found = near(&shot(family, liquid, 1.0, 20.0, "1 mL/min", "80 mm"), &[]);
        let text = format!("{}{}", found.table().to_text(), found.working().to_text());
        assert!(found.cautions().last().unwrap().contains("licensed practice decide"));
        assert!(found.warnings.iter().any(|w| w.code == "mist-burns"));
        assert!(text.contains("mist") && text.contains("from memory") && !text.contains("safe "), "{text}");
        assert!(found.citations().len() >= 7);
        assert_eq!(found.warnings.iter().any(|w| w.code == "from-memory"), found.limit.from_memory);
        assert!(found.quarter_to >= found.burns_to);
        let json = serde_json::to_string(&found).unwrap();
        assert_eq!(serde_json::from_str::<NearGun>(&json).unwrap(), found);
    }
}

#[test]
fn water_does_not_burn_and_a_flood_does() {
    // A waterborne paint may bring a little glycol; water alone has nothing to burn.
    let paint = Paint::typical(Family::WaterborneAcrylic, "cream (invented)").unwrap();
    let organic = paint.carrier().ingredients().iter().any(|i| i.solvent.id() != "water");
    let wet = shot(Family::WaterborneAcrylic, "water", 1.0, 20.0, "1 mL/min", "80 mm");
    assert_eq!(near_gun(&wet, &[]).unwrap().is_some(), organic);
    let flood = near(&shot(Family::SolventLacquer, "acetone", 3.0, 15.0, "60 mL/min", "80 mm"), &[]);
    assert!(flood.burns_to > parse("20 mm").unwrap());
    assert!(flood.warnings.iter().any(|w| w.code == "around-flammable"));
    // The reach is where the curve passes the limit.
    let there = near(
        &shot(Family::SolventLacquer, "acetone", 3.0, 15.0, "60 mL/min", "80 mm"),
        &[&format!("{} mm", to(flood.burns_to, "mm").unwrap())],
    );
    approx::assert_relative_eq!(there.places[0].with_mist.best.si(), 1.0, max_relative = 1e-3);
}

#[rstest::rstest]
#[case(&["1 mm"], ["distance", "1 mm", "5 mm"])]
#[case(&["2 m"], ["distance", "2 m", "mm"])]
fn bad_input(#[case] at: &[&str], #[case] says: [&str; 3]) {
    let shot = shot(Family::SolventLacquer, "acetone", 1.0, 20.0, "1 mL/min", "80 mm");
    let at: Vec<Length> = at.iter().map(|x| parse(x).unwrap()).collect();
    let text = near_gun(&shot, &at).unwrap_err().to_string();
    for part in says {
        assert!(text.contains(part), "no {part:?} in: {text}");
    }
    assert!(near_gun(&shot, &[Length::from_si(f64::NAN)]).is_err());
    assert!(near_gun(&shot, &vec![Length::from_si(0.05); 101]).unwrap_err().to_string().contains("101"));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    /// Farther is thinner, more paint is richer, more evaporates on the way, and the vapour is never more than all of it.
    #[test]
    fn monotone(flow in 0.2_f64..20.0, psi in 10.0_f64..40.0, thinner in 0.0_f64..3.0) {
        let at = ["10 mm", "30 mm", "100 mm"];
        let run = |flow: f64| near(&shot(Family::SolventLacquer, "acetone", thinner, psi, &format!("{flow} mL/min"), "100 mm"), &at);
        let (less, more) = (run(flow), run(1.3 * flow));
        for pair in less.places.windows(2) {
            prop_assert!(pair[1].with_mist.best <= pair[0].with_mist.best);
            prop_assert!(pair[1].evaporated.si() >= pair[0].evaporated.si() - 2e-3);
        }
        for (a, b) in less.places.iter().zip(&more.places) {
            prop_assert!(b.with_mist.best >= a.with_mist.best);
            prop_assert!(a.share_of_limit.best.si() <= a.with_mist.best.si() * 1.6);
            prop_assert!(a.with_mist.low < a.with_mist.best && a.with_mist.best < a.with_mist.high);
        }
        prop_assert!(more.burns_to >= less.burns_to && more.around.best > less.around.best);
    }
}
