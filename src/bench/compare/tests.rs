//! The chain agrees with its links, keeps the mass balance and refuses what it cannot answer.

use super::*;
use crate::blend::Basis;
use crate::film::Film;
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
        let film = Film::of_mix(&row.mix, c.wet_film().unwrap(), &room);
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

fn gun(pressure: &str, distance: &str) -> Airbrush {
    Airbrush::new(parse("0.3 mm").unwrap(), parse(pressure).unwrap(), parse(distance).unwrap()).unwrap()
}

// The columns of a gun are those of the shot by itself, and the coat that dries is the one it lays.
#[test]
fn a_gun_lays_the_coat() {
    let room = Room::new(parse("21 °C").unwrap(), RelativeHumidity::new(0.5).unwrap()).unwrap();
    let gun = gun("20 psi", "80 mm");
    let question = Compare::new(&lacquer(), &thinner()).room(&room).airbrush(&gun).wet_passes(2);
    let c = question.run().unwrap();
    assert_eq!((c.wet_film(), c.airbrush()), (None, Some(&gun)));
    for row in c.rows() {
        let shot = gun.spray(&row.mix, &room).unwrap();
        let sprayed = row.sprayed.as_ref().unwrap();
        assert_eq!(sprayed.drop_size.estimate, shot.drop_size().unwrap().estimate);
        assert_eq!(sprayed.flight_loss.estimate, shot.flight_loss().unwrap().estimate);
        let dry = shot.film(2).unwrap().dry().unwrap();
        assert_eq!(row.touch_dry.as_ref().unwrap().estimate, dry.touch_dry().unwrap().estimate);
        assert_eq!(row.dry_film.best, sprayed.dry_per_pass.best() * 2.0);
        approx::assert_relative_eq!(
            row.wet_film.si(),
            2.0 * sprayed.wet_per_pass.best().si(),
            max_relative = 1e-12
        );
    }
    // More thinner: finer drops, more passes (common practice).
    for pair in c.rows().windows(2) {
        let [a, b] = [&pair[0], &pair[1]].map(|r| r.sprayed.as_ref().unwrap());
        assert!(b.drop_size.best() < a.drop_size.best());
        assert!(b.judged.passes > a.judged.passes);
    }
    let text = c.table().to_text();
    for words in ["goes wrong first", "drops, µm", "2 passes wet in wet", "base coat", "80 mm"] {
        assert!(text.contains(words), "{words}: {text}");
    }
    assert!(c.working(Some(1.0)).unwrap().to_text().contains("wet film of a pass"));
    let json = serde_json::to_string(&c).unwrap();
    assert_eq!(serde_json::from_str::<Comparison>(&json).unwrap(), c);
    // A stated wet film is laid in as many passes as it takes.
    let stated = question.wet_film(parse("25 µm").unwrap()).run().unwrap();
    let row = &stated.rows()[1];
    assert_eq!(row.wet_film, parse("25 µm").unwrap());
    let shot = gun.spray(&row.mix, &room).unwrap();
    approx::assert_relative_eq!(
        row.dry_film.best.si(),
        25e-6 * shot.deposit_solids().get(),
        max_relative = 1e-12
    );
}

// Acetone from afar lands as dust (common practice): the row stays, says so, and has no film to dry.
#[test]
fn dust_keeps_its_row() {
    let fast = Blend::from_names(&[("acetone", 1.0)], Basis::Mass, None).unwrap();
    let c = Compare::new(&lacquer(), &fast)
        .thinner_per_paint(&[1.0, 3.0])
        .airbrush(&gun("40 psi", "480 mm"))
        .run()
        .unwrap();
    let last = &c.rows()[1];
    assert!(last.touch_dry.is_none() && last.flash_off.is_none());
    let judged = &last.sprayed.as_ref().unwrap().judged;
    assert!(!judged.margin(crate::bench::Fault::DrySpray).unwrap().holds());
    assert!(last.warnings.iter().any(|w| w.code == "no-film"), "{:?}", last.warnings);
}

#[rstest]
#[case::none(0, None, "1 to 20")]
#[case::many(21, None, "1 to 20")]
#[case::thick(1, Some("6 mm"), "1 µm to 5 mm")]
fn bad_coats_of_a_gun(#[case] passes: u32, #[case] wet: Option<&str>, #[case] says: &str) {
    let mut question =
        Compare::new(&lacquer(), &thinner()).airbrush(&gun("20 psi", "80 mm")).wet_passes(passes);
    if let Some(wet) = wet {
        question = question.wet_film(parse(wet).unwrap());
    }
    assert!(question.run().unwrap_err().to_string().contains(says));
}
