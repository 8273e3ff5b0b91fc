//! The chain agrees with its links, keeps the mass balance and refuses what it cannot answer.

use super::*;
use crate::blend::Basis;
use crate::paint::Family;
use crate::quantity::parse;
use rstest::rstest;

fn lacquer() -> Paint {
    Paint::typical(Family::SolventLacquer, "hull green (invented)").unwrap()
}

fn thinner() -> Blend {
    let parts = [("acetone", 50.0), ("n-butyl acetate", 35.0), ("2-butoxyethanol", 15.0)];
    Blend::from_names(&parts, Basis::Mass, Some("house thinner")).unwrap()
}

fn iso4() -> FlowCup {
    FlowCup::standard("ISO 2431", "4").unwrap()
}

#[test]
fn agrees_with_its_links() {
    let room = Room::new(parse("23 °C").unwrap(), RelativeHumidity::new(0.6).unwrap()).unwrap();
    let c = Compare::new(&lacquer(), &thinner()).cup(&iso4()).room(&room).run().unwrap();
    for row in c.rows() {
        let t = room.temperature();
        assert_eq!(row.viscosity.estimate, row.mix.viscosity(t).unwrap().estimate);
        assert_eq!(
            row.efflux_time.as_ref().unwrap().estimate,
            row.mix.efflux_time(&iso4(), t).unwrap().estimate
        );
        let film = Film::of_mix(&row.mix, c.wet_film(), &room);
        let flash = film.unwrap().dry().unwrap().flash_off().unwrap();
        assert_eq!(row.flash_off.as_ref().unwrap().estimate, flash.estimate);
    }
}

#[test]
fn more_thinner_is_thinner_leaner_and_slower() {
    let c = Compare::new(&lacquer(), &thinner()).thinner_per_paint(&[0.0, 0.5, 1.0, 2.0, 3.0]).run().unwrap();
    for pair in c.rows().windows(2) {
        assert!(pair[1].viscosity.best() < pair[0].viscosity.best());
        assert!(pair[1].dry_film.best < pair[0].dry_film.best);
        // The same wet film holds more solvent, and this thinner is slower at its end than the carrier.
        assert!(pair[1].flash_off.as_ref().unwrap().best() > pair[0].flash_off.as_ref().unwrap().best());
    }
    // Mass balance: wet film x paint fraction x volume solids of the paint.
    for row in c.rows() {
        let x = row.mix.paint_fraction().get();
        let dry = 25e-6 * x * lacquer().volume_solids().best.si();
        approx::assert_relative_eq!(row.dry_film.best.si(), dry, max_relative = 1e-12);
    }
}

#[rstest]
#[case::none(&[], "1 to 50")]
#[case::many(&[1.0; 51], "1 to 50")]
#[case::negative(&[1.0, -0.5], "-0.5")]
#[case::nan(&[f64::NAN], "NaN")]
fn bad_ratios_are_refused(#[case] ratios: &[f64], #[case] says: &str) {
    let e = Compare::new(&lacquer(), &thinner()).thinner_per_paint(ratios).run().unwrap_err();
    assert!(matches!(e, Error::Range(_)), "{e}");
    assert!(e.to_string().contains(says), "{e}");
}

#[test]
fn a_thinner_that_curdles_is_refused() {
    let water = Blend::from_names(&[("water", 1.0)], Basis::Mass, None).unwrap();
    let e = Compare::new(&lacquer(), &water).run().unwrap_err();
    assert!(matches!(e, Error::PhaseSplit(_)), "{e}");
}

#[test]
fn the_cut_is_named_as_poured() {
    let enamel = Paint::typical(Family::AlkydEnamel, "cream").unwrap();
    let spirit = Blend::from_names(&[("white spirit", 1.0)], Basis::Mass, None).unwrap();
    let c = Compare::new(&enamel, &spirit).thinner_per_paint(&[1.0]).run().unwrap();
    assert!(
        c.rows()[0].left_at_flash_off[0].0.contains("white spirit"),
        "{:?}",
        c.rows()[0].left_at_flash_off
    );
}

#[test]
fn polystyrene_is_warned_of_and_wood_is_not() {
    let on = |name| {
        let c =
            Compare::new(&lacquer(), &thinner()).substrate(Substrate::named(name).unwrap()).run().unwrap();
        c.warnings().iter().any(|w| w.code == "attacks-polystyrene")
    };
    assert!(on("polystyrene") && !on("wood"));
}

#[test]
fn cautions_always_defer_to_the_data_sheet() {
    let c = Compare::new(&lacquer(), &thinner()).run().unwrap();
    assert!(c.cautions().iter().any(|t| t.contains("safety data sheet")));
    assert!(c.cautions().iter().any(|t| t.contains("flash point")));
    let text = c.table().to_text();
    assert!(text.contains("local codes") && text.contains("Ventilate"), "{text}");
    assert!(!text.contains("Rags:") && !text.contains("mist burns"), "{text}");
    // Drying oils heat a heap of rags; a combustible thinner burns as mist.
    let spirit = Blend::from_names(&[("white spirit", 1.0)], Basis::Volume, None).unwrap();
    for family in [Family::AlkydEnamel, Family::ArtistsOil] {
        let paint = Paint::typical(family, "cabin").unwrap();
        let text = Compare::new(&paint, &spirit).run().unwrap().table().to_text();
        assert!(text.contains("Rags:") && text.contains("mist burns below that"), "{text}");
        assert!(text.contains("with white spirit."), "a liquid alone needs no percentage: {text}");
    }
}

#[test]
fn json_round_trip_and_working() {
    let c = Compare::new(&lacquer(), &thinner()).cup(&iso4()).run().unwrap();
    let json = serde_json::to_string(&c).unwrap();
    assert_eq!(serde_json::from_str::<Comparison>(&json).unwrap(), c);
    let one = c.working(Some(1.0)).unwrap().to_text();
    for part in ["dilution law", "ISO 2431", "flash-off", "dry film"] {
        assert!(one.contains(part), "no {part} in {one}");
    }
    // Of several ratios each step says which one it belongs to.
    let all = c.working(None).unwrap();
    assert!(all.steps.iter().all(|s| s.name.contains("thinner to") || s.name.contains("undiluted")));
    let e = c.working(Some(7.0)).unwrap_err().to_string();
    assert!(e.contains('7') && e.contains("0.5, 1, 2, 3"), "{e}");
}

#[test]
fn drops_that_cannot_be_counted_cost_no_row() {
    let dropper = Dropper::tip(parse("3 mm").unwrap()).unwrap();
    let asked = Compare::new(&lacquer(), &thinner()).thinner_per_paint(&[1.0, 500.0]);
    let c = asked.dropper(&dropper, Some(parse("1 mL").unwrap())).run().unwrap();
    assert!(c.rows()[0].drops.is_some() && c.rows()[1].drops.is_none());
    assert!(c.warnings().iter().any(|w| w.code == "no-drop-recipe" && w.message.contains("500 parts")));
}

#[test]
fn water_does_not_hide_that_the_paint_burns() {
    let paint = Paint::typical(Family::AlcoholAcrylic, "cream").unwrap();
    let water = Blend::from_names(&[("water", 1.0)], Basis::Volume, None).unwrap();
    let c = Compare::new(&paint, &water).thinner_per_paint(&[0.2]).run().unwrap();
    assert!(c.cautions()[0].starts_with("Fire: the paint is"), "{:?}", c.cautions());
}

#[test]
fn a_message_whose_numbers_change_is_told_for_the_first_ratio() {
    let c = Compare::new(&lacquer(), &thinner()).thinner_per_paint(&[2.0, 3.0]).cup(&iso4()).run().unwrap();
    let told = c.warnings();
    let cup = told.iter().find(|w| w.code == "cup-time-below-range").unwrap();
    assert!(
        cup.message.starts_with("At 2 parts of thinner: ")
            && cup.message.ends_with("(likewise at 3 parts of thinner)")
    );
    // The same at all ratios: told as it is.
    let alike = told.iter().find(|w| w.code == "stock-viscosity-typical").unwrap();
    assert!(!alike.message.contains("of thinner:"), "{alike}");
}

#[test]
fn working_covers_solids_viscosity_cup_and_flash_off() {
    let c = Compare::new(&lacquer(), &thinner()).thinner_per_paint(&[1.0]).cup(&iso4()).run().unwrap();
    let text = c.working(Some(1.0)).unwrap().to_text();
    for step in
        ["paint fraction", "volume solids of the mix", "dilution law", "equation of ISO 2431", "flash-off"]
    {
        assert!(text.contains(step), "{step}:\n{text}");
    }
}
