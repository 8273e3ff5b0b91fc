//! Settings at the bench: judged, recommended, mapped, diagnosed.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed test panics")]

use mistcoat::air::Room;
use mistcoat::bench::{Axis, Cell, Defect, Fault, Job, Setup, diagnose, pieces, recommend_watched, window};
use mistcoat::blend::{Basis, Blend};
use mistcoat::film::Substrate;
use mistcoat::paint::{Family, Paint};
use mistcoat::progress::Progress;
use mistcoat::quantity::{Quantity, RelativeHumidity, parse, show};
use mistcoat::spray::Airbrush;
use proptest::prelude::*;

fn room(celsius: f64, humidity: f64) -> Room {
    let t = mistcoat::quantity::Temperature::from_si(celsius + 273.15);
    Room::new(t, RelativeHumidity::new(humidity).unwrap()).unwrap()
}

fn gun(psi: f64, mm: f64) -> Airbrush {
    let pressure = mistcoat::quantity::of(psi, "psi").unwrap();
    Airbrush::new(parse("0.3 mm").unwrap(), pressure, mistcoat::quantity::of(mm, "mm").unwrap()).unwrap()
}

fn thinner_of(family: Family) -> Blend {
    let parts: &[(&str, f64)] = match family {
        Family::WaterborneAcrylic => &[("water", 95.0), ("propylene glycol", 5.0)],
        Family::AlcoholAcrylic => &[("isopropanol", 60.0), ("1-methoxy-2-propanol", 40.0)],
        Family::SolventLacquer => &[("acetone", 30.0), ("n-butyl acetate", 55.0), ("2-butoxyethanol", 15.0)],
        Family::AlkydEnamel | Family::ArtistsOil => &[("white spirit", 100.0)],
    };
    Blend::from_names(parts, Basis::Volume, None).unwrap()
}

fn setup(family: Family, ratio: f64, psi: f64, mm: f64) -> Setup {
    let paint = Paint::typical(family, "club paint (invented)").unwrap();
    let mut setup = Setup::new(&paint, &thinner_of(family), ratio, &gun(psi, mm), &room(25.0, 0.5));
    setup.substrate = Substrate::named("wood").unwrap();
    setup
}

fn job(name: &str) -> Job {
    Job::named(name).unwrap()
}

// Common practice on typical paints at 20 psi (138 kPa) and about 25 °C with a 0.3 mm nozzle: equal parts cover quickly;
// two parts of thinner to one of paint are finer and take more passes; and at equal parts the coat is touch dry within a
// few minutes. What the model says beside "within about a minute" stands in the module docs of `bench::setup`.
#[rstest::rstest]
#[case(Family::AlcoholAcrylic)]
#[case(Family::SolventLacquer)]
#[case(Family::WaterborneAcrylic)]
fn more_thinner_is_finer_and_takes_more_passes(#[case] family: Family) {
    let base = job("base coat");
    let equal = setup(family, 1.0, 20.0, 80.0).judge(&base).unwrap();
    let thin = setup(family, 2.0, 20.0, 80.0).judge(&base).unwrap();
    assert!(thin.drop_size < equal.drop_size);
    assert!(thin.passes > 1.2 * equal.passes);
    // Quick to cover: a handful of passes for 12 µm.
    assert!((3.0..16.0).contains(&equal.passes), "{}", equal.passes);
    if let Some(touch) = equal.touch_dry {
        assert!((20.0..300.0).contains(&touch.si()), "{}", show(touch));
    }
}

// Thinner still needs lower pressure (common practice): 30 mm from the part the highest pressure at which the air does not
// drive the wet film aside falls from 18 psi at equal parts to 10 at two parts of thinner and 8 at three.
#[rstest::rstest]
#[case(1.0, 16.0, false)]
#[case(1.0, 22.0, true)]
#[case(2.0, 16.0, true)]
#[case(2.0, 8.0, false)]
#[case(3.0, 9.0, true)]
#[case(3.0, 6.0, false)]
fn thinner_still_needs_lower_pressure(#[case] ratio: f64, #[case] psi: f64, #[case] driven: bool) {
    let judged = setup(Family::AlcoholAcrylic, ratio, psi, 30.0).judge(&job("fine lines")).unwrap();
    assert_eq!(judged.margin(Fault::Spidering).is_some(), driven, "{judged:?}");
}

// A fast thinner from afar: the paint lands as dust, and coming nearer cures it (common practice).
#[test]
fn a_fast_thinner_from_afar_lands_dry() {
    let mut fast = setup(Family::SolventLacquer, 2.0, 30.0, 250.0);
    fast.thinner = Blend::from_names(&[("acetone", 100.0)], Basis::Volume, None).unwrap();
    let found = diagnose("dry spray", &fast, &job("base coat")).unwrap();
    assert_eq!(found.causes[0].margin.fault, Fault::DrySpray);
    assert!(found.causes[0].probability > 0.8);
    assert!(found.causes[0].change.is_some());
    fast.gun = gun(30.0, 120.0);
    assert!(fast.judge(&job("base coat")).unwrap().margin(Fault::DrySpray).unwrap().holds());
}

#[test]
fn margins_are_told_in_order_with_their_numbers() {
    let judged = setup(Family::SolventLacquer, 1.0, 20.0, 80.0).judge(&job("gloss clear")).unwrap();
    assert!(judged.margins.windows(2).all(|m| m[0].sigmas() <= m[1].sigmas()));
    assert!(judged.margins.iter().all(|m| !m.why.is_empty() && m.factor > 0.0));
    for fault in
        [Fault::Spatter, Fault::DrySpray, Fault::OrangePeel, Fault::Run, Fault::Blush, Fault::TipDrying]
    {
        assert!(judged.margin(fault).is_some(), "{fault}");
    }
    let json = serde_json::to_string(&judged).unwrap();
    assert_eq!(serde_json::from_str::<mistcoat::bench::Judged>(&json).unwrap(), judged);
}

#[test]
fn polystyrene_wants_a_primer() {
    let mut bare = setup(Family::SolventLacquer, 1.0, 20.0, 80.0);
    bare.substrate = Substrate::default();
    let primed = Setup { primed: true, ..bare.clone() };
    let holds = |s: &Setup| s.judge(&job("base coat")).unwrap().margin(Fault::Attack).unwrap().holds();
    assert!(!holds(&bare) && holds(&primed));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(6))]
    // Every recommended setting, judged again by itself, keeps every limit it claims; misses are misses.
    #[test]
    fn recommendations_hold_what_they_claim(
        family in 0..5_usize,
        which in 0..7_usize,
        celsius in 10.0..32.0_f64,
        humidity in 0.2..0.85_f64,
        ratio in 0.3..3.0_f64,
    ) {
        let wanted = &Job::all().unwrap()[which];
        let mut start = setup(Family::ALL[family], 1.0, 20.0, 80.0);
        start.room = room(celsius, humidity);
        let ratios = [ratio];
        let progress = Progress::new(pieces(wanted, &ratios));
        let found = recommend_watched(&start, wanted, &ratios, &progress).unwrap();
        prop_assert_eq!(progress.done(), progress.total());
        for choice in &found.choices {
            let again = choice.setup.judge(wanted).unwrap();
            prop_assert!(again.is_good());
            prop_assert_eq!(&again, &choice.judged);
            prop_assert!(again.drop_size <= wanted.largest_drop && again.passes <= wanted.most_passes);
        }
        prop_assert!(found.choices.is_empty() != found.misses.is_empty());
        for miss in &found.misses {
            prop_assert!(!miss.judged.is_good());
        }
        prop_assert_eq!(found.choices.is_empty(), !found.advice.is_empty());
    }
}

#[test]
fn nothing_fits_says_what_to_change() {
    let mut impossible = job("gloss clear");
    impossible.most_passes = 1.0;
    impossible.wet_passes = (1, 1);
    let start = setup(Family::AlkydEnamel, 1.0, 20.0, 80.0);
    let found = recommend_watched(&start, &impossible, &[1.0], &Progress::new(20)).unwrap();
    assert!(found.choices.is_empty() && !found.misses.is_empty());
    let text = found.table().to_text();
    assert!(text.contains("nothing fits") && found.advice.iter().any(|a| a.contains("thin less")), "{text}");
}

#[test]
fn a_map_knows_its_edges() {
    let start = setup(Family::SolventLacquer, 1.0, 20.0, 80.0);
    let x = (Axis::ThinnerPerPaint, vec![0.0, 0.5, 1.5, 6.0]);
    let y = (Axis::Distance, vec![40.0, 80.0, 250.0]);
    let progress = Progress::new(12);
    let map = window(&start, &job("base coat"), x, y, &progress).unwrap();
    assert!(map.is_complete() && progress.done() == 12 && map.refused.is_none());
    // Undiluted from afar spatters or lands dry; far too thin takes too many passes or runs.
    assert!(matches!(map.cell(0, 2), Some(Cell::Fault(..))));
    assert!(matches!(map.cell(3, 2), Some(Cell::Fault(..))));
    // A cell is the setting judged by itself.
    let alone = setup(Family::SolventLacquer, 1.5, 20.0, 80.0).judge(&job("base coat")).unwrap();
    let sigmas = match map.cell(2, 1).unwrap() {
        Cell::Good(s) => {
            assert!(alone.is_good());
            s
        }
        Cell::Fault(fault, s) => {
            assert_eq!(fault, alone.worst().fault);
            s
        }
        other => panic!("{other:?}"),
    };
    approx::assert_relative_eq!(sigmas, alone.worst().sigmas(), max_relative = 1e-12);
}

#[test]
fn a_map_stops_and_keeps_what_was_done() {
    let start = setup(Family::SolventLacquer, 1.0, 20.0, 80.0);
    let progress = Progress::new(4);
    progress.cancel();
    let axes = || ((Axis::Pressure, vec![100.0, 140.0]), (Axis::Distance, vec![60.0, 120.0]));
    let (x, y) = axes();
    let map = window(&start, &job("base coat"), x, y, &progress).unwrap();
    assert!(map.cells.iter().all(|c| *c == Cell::Waiting) && !map.is_complete());
    // A setting out of range is a cell, not the end of the map.
    let (x, _) = axes();
    let y = (Axis::Humidity, vec![50.0, 150.0]);
    let map = window(&start, &job("base coat"), x, y, &Progress::new(4)).unwrap();
    assert!(matches!(map.cell(0, 1), Some(Cell::Refused)) && map.refused.is_some());
}

#[rstest::rstest]
#[case((Axis::Pressure, vec![1.0]), (Axis::Pressure, vec![1.0]), "two different")]
#[case((Axis::Pressure, vec![]), (Axis::Distance, vec![1.0]), "1 to 1000")]
#[case((Axis::Pressure, vec![f64::NAN]), (Axis::Distance, vec![1.0]), "finite")]
fn bad_maps(#[case] x: (Axis, Vec<f64>), #[case] y: (Axis, Vec<f64>), #[case] says: &str) {
    let start = setup(Family::SolventLacquer, 1.0, 20.0, 80.0);
    let text = window(&start, &job("primer"), x, y, &Progress::new(1)).unwrap_err().to_string();
    assert!(text.contains(says), "{text}");
}

// The first cause and the direction of the cure, as painters know them (common practice, from memory).
#[rstest::rstest]
#[case("spatter", Family::SolventLacquer, 0.0, 10.0, 80.0, Fault::Spatter)]
#[case("run", Family::SolventLacquer, 3.0, 25.0, 25.0, Fault::Run)]
#[case("poor hiding", Family::SolventLacquer, 4.0, 20.0, 150.0, Fault::TooManyPasses)]
fn causes(
    #[case] defect: &str,
    #[case] family: Family,
    #[case] ratio: f64,
    #[case] psi: f64,
    #[case] mm: f64,
    #[case] first: Fault,
) {
    let found = diagnose(defect, &setup(family, ratio, psi, mm), &job("base coat")).unwrap();
    let cause = &found.causes[0];
    assert_eq!(cause.margin.fault, first, "{}", found.table().to_text());
    assert!(cause.probability > 0.5 && !found.look_beyond, "{}", found.table().to_text());
    if let Some(change) = cause.change {
        assert!((change.from - change.to).abs() > 0.0);
    }
    let text = found.table().to_text();
    assert!(text.contains("Beyond the model") && text.contains("common practice"), "{text}");
}

#[test]
fn a_sound_setting_points_beyond_the_model() {
    let found =
        diagnose("fisheyes", &setup(Family::SolventLacquer, 1.0, 20.0, 80.0), &job("primer")).unwrap();
    assert!(found.causes.is_empty() && found.look_beyond);
    assert!(found.table().to_text().contains("silicone"));
    assert!(Defect::named("orang peel").unwrap_err().to_string().contains("orange peel"));
    for defect in Defect::all().unwrap() {
        assert!(!defect.looks.is_empty() && (!defect.faults.is_empty() || !defect.beyond.is_empty()));
    }
}

#[test]
fn bad_jobs() {
    let good = job("base coat");
    let bad = Job { dry_film: parse("0 µm").unwrap(), ..good.clone() };
    assert!(bad.checked().unwrap_err().to_string().contains("dry film"));
    assert!(Job { most_passes: f64::NAN, ..good.clone() }.checked().is_err());
    assert!(Job { wet_passes: (3, 2), ..good }.checked().is_err());
    assert!(Job::named("base cot").unwrap_err().to_string().contains("base coat"));
    let mut many = setup(Family::SolventLacquer, 1.0, 20.0, 80.0);
    many.wet_passes = 0;
    assert!(many.judge(&job("primer")).unwrap_err().to_string().contains("1 to 20"));
}
