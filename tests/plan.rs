//! A session from a list of layers: amounts, timeline, rinses, cautions, refusals.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed test panics")]

use mistcoat::air::Room;
use mistcoat::bench::{Job, Plan, PlanLayer, Price, Session, Setup, What};
use mistcoat::blend::{Basis, Blend};
use mistcoat::film::{OpenCup, Substrate};
use mistcoat::layers::Place;
use mistcoat::paint::{Family, Paint};
use mistcoat::quantity::{Quantity, RelativeHumidity, Time, parse};
use mistcoat::rinse::Shade;
use mistcoat::safety::{SourceKind, VapourSource};
use mistcoat::spray::Airbrush;
use proptest::prelude::*;

fn thinner_of(family: Family) -> Blend {
    let parts: &[(&str, f64)] = match family {
        Family::WaterborneAcrylic => &[("water", 95.0), ("propylene glycol", 5.0)],
        Family::AlcoholAcrylic => &[("isopropanol", 60.0), ("1-methoxy-2-propanol", 40.0)],
        Family::SolventLacquer => &[("acetone", 30.0), ("n-butyl acetate", 55.0), ("2-butoxyethanol", 15.0)],
        Family::AlkydEnamel | Family::ArtistsOil => &[("white spirit", 100.0)],
    };
    Blend::from_names(parts, Basis::Volume, Some("house thinner")).unwrap()
}

fn room() -> Room {
    Room::new(parse("21 °C").unwrap(), RelativeHumidity::new(0.5).unwrap()).unwrap()
}

fn club_room() -> Room {
    room().with_volume(parse("60 m3").unwrap()).unwrap().with_air_changes(parse("6 /h").unwrap()).unwrap()
}

fn layer(family: Family, name: &str, job: &str, area: &str) -> PlanLayer {
    let gun =
        Airbrush::new(parse("0.3 mm").unwrap(), parse("20 psi").unwrap(), parse("80 mm").unwrap()).unwrap();
    let paint = Paint::typical(family, name).unwrap();
    let mut setup = Setup::new(&paint, &thinner_of(family), 1.0, &gun, &room());
    setup.substrate = Substrate::named("wood").unwrap();
    setup.wet_passes = 4;
    PlanLayer::new(&setup, Job::named(job).unwrap(), parse(area).unwrap())
}

/// The Saltmarsh Lane boat; every number of it is invented.
fn boat(family: Family) -> Session {
    let shade = |name: &str| Shade::typical(name).unwrap();
    let layers = vec![
        layer(family, "grey primer", "primer", "600 cm2").at(Place::Primer),
        layer(family, "deckhouse cream", "base coat", "150 cm2").with_shade(shade("cream")),
        layer(family, "red oxide", "over a mask", "200 cm2").masked().unwrap().with_shade(shade("red oxide")),
        layer(family, "deep green", "over a mask", "250 cm2")
            .masked()
            .unwrap()
            .with_shade(shade("deep green")),
        layer(family, "clear", "gloss clear", "600 cm2").at(Place::Finish),
    ];
    Session::new(
        layers,
        &Blend::from_names(&[("acetone", 1.0)], Basis::Volume, Some("acetone cleaner")).unwrap(),
    )
    .unwrap()
}

/// Two quick layers.
fn pair() -> Session {
    let layers = vec![
        layer(Family::SolventLacquer, "grey primer", "primer", "60 cm2").at(Place::Primer),
        layer(Family::SolventLacquer, "deep green", "base coat", "40 cm2"),
    ];
    Session::new(
        layers,
        &Blend::from_names(&[("acetone", 1.0)], Basis::Volume, Some("acetone cleaner")).unwrap(),
    )
    .unwrap()
}

fn plan(session: &Session) -> Plan {
    session.plan().unwrap()
}

#[test]
fn the_boat_from_primer_to_clear() {
    let plan = plan(&boat(Family::SolventLacquer));
    let names: Vec<&str> = plan.layers().iter().map(|l| l.name.as_str()).collect();
    assert_eq!(names, ["grey primer", "deckhouse cream", "red oxide", "deep green", "clear"]);
    for l in plan.layers() {
        assert!(l.coats == l.passes.div_ceil(l.wet_passes) && l.passes >= 1, "{l}");
        let laid: u32 = (1..=l.coats).map(|c| l.passes_of_coat(c)).sum();
        assert_eq!(laid, l.passes);
        // Passes build the film of the job, and none too many.
        let one = l.dry_film.best.si() / f64::from(l.passes);
        let wanted = Job::named(&l.job).unwrap().dry_film.si();
        assert!(l.dry_film.best.si() >= wanted * (1.0 - 1e-9) && l.dry_film.best.si() - one < wanted, "{l}");
        // Waits are the upper ends of the engine, or practice.
        for wait in [&l.flash_off, &l.touch_dry, &l.until_mask, &l.until_next] {
            assert!(
                wait.estimate.as_ref().is_none_or(|e| wait.lasts >= e.high && wait.at_best <= wait.lasts),
                "{wait}"
            );
            assert!(mistcoat::source::find(&wait.source).is_ok(), "{}", wait.source);
        }
        // Lacquer over lacquer waits a quarter of an hour at least (data/coats.toml).
        assert!(l.name == "clear" || l.until_next.lasts >= parse("15 min").unwrap());
        // A recipe within the ratio that whole drops can hold, and enough for the part.
        let made = l.mix.made().si();
        assert!((made / l.mix.wanted.si() - 1.0).abs() < 0.1 && made > l.mix.sprayed.best.si());
        assert!((l.mix.thinner.si() / l.mix.paint.si() / l.thinner_per_paint - 1.0).abs() < 0.05);
    }
    // Four changes and the wash at the end; the change to the clear knows no shade of it.
    assert_eq!(plan.washes().len(), 5);
    assert_eq!(plan.washes().iter().filter(|w| w.change.is_some()).count(), 2);
    assert!(plan.total().best < plan.planned() && plan.bench_time() < plan.planned());
    assert!(plan.total().low < plan.total().best && plan.total().best < plan.total().high);
    let text = plan.to_string().split_whitespace().collect::<Vec<_>>().join(" ");
    for part in [
        "deep green",
        "for tape: block-free",
        "coats of 4 passes",
        "clean up",
        "used up",
        "Who decides",
        "common practice",
    ] {
        assert!(text.contains(part), "no {part:?} in {text}");
    }
    // Each caution once, under the last table.
    for caution in plan.cautions() {
        assert_eq!(text.matches(caution.text.as_str()).count(), 1, "{caution}");
    }
}

#[test]
fn the_mix_is_what_the_area_takes() {
    // 60 cm2 of 15 µm from 28 % transfer: V = A X/(VS TE), the spreading rate of any paint handbook.
    let plan = plan(&pair());
    let l = &plan.layers()[0];
    let solids = Paint::typical(Family::SolventLacquer, "x").unwrap().volume_solids().best.si();
    let paint = 60e-4 * l.dry_film.best.si() / (solids * 0.28);
    approx::assert_relative_eq!(l.mix.sprayed.best.si(), 2.0 * paint, max_relative = 1e-9);
    let wanted = 1.25 * 2.0 * paint + l.mix.remainder.best.si();
    approx::assert_relative_eq!(l.mix.wanted.si(), wanted, max_relative = 1e-9);
    // Sprayed volume over flow is the time of the bare passes: the same film from both ends.
    let gun = &plan.session().layers[0].setup;
    let thinning =
        mistcoat::dose::Thinning::from_parts(mistcoat::dose::Parts { thinner: 1.0, paint: 1.0 }).unwrap();
    let mix = gun.paint.thin(&gun.thinner, thinning).unwrap();
    let flow = gun.gun.spray(&mix, &gun.room).unwrap().paint_flow().unwrap().best().si();
    let bare = l.pass_time.best.si() * f64::from(l.passes)
        / mistcoat::bench::Habits::usual().unwrap().turning.best.si();
    approx::assert_relative_eq!(l.mix.sprayed.best.si(), flow * bare, max_relative = 1e-6);
}

#[test]
fn nights_are_no_time_at_the_bench() {
    let mut session = pair();
    let enamel = |name, job| layer(Family::AlkydEnamel, name, job, "30 cm2");
    session.layers = vec![enamel("red oxide", "primer"), enamel("deep green", "base coat")];
    let plan = plan(&session);
    assert_eq!(plan.visits().len(), 2);
    assert!(plan.bench_time().si() < 0.2 * plan.planned().si(), "{:?}", plan.visits());
    assert!(plan.time_away() > parse("20 h").unwrap());
    let text = plan.timeline().to_text().split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("in 2 visits") && text.contains("more than 2 h without work"), "{text}");
}

#[test]
fn waits_spread_the_whole() {
    let plan = plan(&pair());
    let total = plan.total();
    // The last layer dries at the end of the timeline: its own interval lies within that of the whole.
    let dry = plan.layers()[1].touch_dry.estimate.clone().unwrap();
    assert!(total.high - total.best >= dry.high - dry.best, "{total:?} {dry:?}");
    assert!(total.best - total.low >= dry.best - dry.low, "{total:?} {dry:?}");
    let names: Vec<&str> = total.contributors.iter().map(|c| c.what.as_str()).collect();
    for what in
        ["drying of grey primer", "drying of deep green", "pace of the handwork", "pace of the spraying"]
    {
        assert!(names.contains(&what), "no {what} in {names:?}");
    }
    // The same paint twice moves together.
    let mut twice = pair();
    twice.layers[1].setup = twice.layers[0].setup.clone();
    let twice = twice.plan().unwrap();
    let drying = twice.total().contributors.iter().filter(|c| c.what.starts_with("drying"));
    assert_eq!(drying.count(), 1);
}

#[test]
fn people_multiply_amounts() {
    let one = plan(&pair());
    let six = plan(&pair().for_people(6));
    let shared = plan(&pair().for_people(6).sharing(2));
    for ((a, b), c) in one.materials().iter().zip(six.materials()).zip(shared.materials()) {
        approx::assert_relative_eq!(b.total.si(), 6.0 * a.total.si(), max_relative = 1e-12);
        approx::assert_relative_eq!(b.used.high.si(), 6.0 * a.used.high.si(), max_relative = 1e-12);
        assert_eq!(a.each, b.each);
        // Who shares a gun shares the cleaner.
        let times = if c.kind == mistcoat::bench::MaterialKind::Cleaner { 2.0 } else { 6.0 };
        approx::assert_relative_eq!(c.total.si(), times * a.total.si(), max_relative = 1e-12);
    }
    // Side by side they take as long as one; in turns longer, but less than one after the other.
    assert_eq!((one.total(), one.planned()), (six.total(), six.planned()));
    assert!(shared.total().best > one.total().best && shared.planned() > one.planned());
    assert!(shared.planned().si() < 3.0 * one.planned().si());
    let has = |p: &Plan, key: &str| p.cautions().iter().any(|c| c.key == key);
    assert!(has(&six, "pregnancy") && has(&six, "children") && !has(&one, "children"));
    assert!(shared.steps().iter().any(|s| s.what == What::HandOver));
}

#[test]
fn materials_are_the_sum_of_the_layers() {
    let mut session = pair();
    let price = |name: &str, costs| Price { name: name.to_owned(), costs, per: parse("100 mL").unwrap() };
    session.prices = vec![price("Grey Primer", 8.0), price("house thinner", 2.0)];
    "shillings".clone_into(&mut session.currency);
    let plan = plan(&session);
    let of = |kind: &str| -> f64 {
        plan.materials().iter().filter(|m| m.kind.word() == kind).map(|m| m.total.si()).sum()
    };
    let layers = plan.layers().iter();
    approx::assert_relative_eq!(
        of("paint"),
        layers.clone().map(|l| l.mix.paint.si()).sum::<f64>(),
        max_relative = 1e-12
    );
    approx::assert_relative_eq!(
        of("thinner"),
        layers.map(|l| l.mix.thinner.si()).sum::<f64>(),
        max_relative = 1e-12
    );
    let rinses: f64 = plan.washes().iter().map(|w| 1.25 * w.split.total.si()).sum();
    approx::assert_relative_eq!(of("cleaner"), rinses, max_relative = 1e-12);
    // 8 for 100 mL of primer and 2 for 100 mL of thinner.
    let primer = plan.layers()[0].mix.paint.si();
    approx::assert_relative_eq!(
        plan.cost().unwrap(),
        (8.0 * primer + 2.0 * of("thinner")) / 1e-4,
        max_relative = 1e-9
    );
    let text = plan.materials_table().to_text();
    assert!(text.contains("shillings") && text.contains("2 without a price"), "{text}");
    let mut free = session.clone();
    free.prices.clear();
    assert!(free.plan().unwrap().cost().is_none());
}

#[test]
fn the_air_holds_what_was_sprayed_and_rinsed() {
    let in_room = |people: u32| {
        let mut session = pair().for_people(people);
        session.layers.iter_mut().for_each(|l| l.setup.room = club_room());
        plan(&session)
    };
    let (one, six) = (in_room(1), in_room(6));
    let (alone, crowd) = (one.exposure().unwrap(), six.exposure().unwrap());
    // Six times the vapour in the same time: the well-mixed room is linear.
    approx::assert_relative_eq!(
        crowd.shift_sum.best.si(),
        6.0 * alone.shift_sum.best.si(),
        max_relative = 1e-6
    );
    assert!(!alone.cautions().is_empty());
    // Mass balance: what the coats and rinses let go is at most what was sprayed and half of the cleaner.
    let mut liquid = 0.0;
    for l in one.layers() {
        liquid += l.mix.sprayed.best.si();
    }
    let rinsed: f64 = one.washes().iter().map(|w| w.split.total.si()).sum();
    let of = |cups: bool| {
        let sources = alone.sources.iter().filter(move |s| (s.kind == SourceKind::OpenCup) == cups);
        sources.map(|s| s.released.si()).sum::<f64>() / 800.0
    };
    assert!(of(false) < liquid + 0.5 * rinsed && of(false) > 0.5 * rinsed, "{liquid} and {rinsed}");
    // The cups let go of less than they hold: the mix of each layer, and 10 mL of thinner beside it.
    let held: f64 = one.layers().iter().map(|l| l.mix.made().si() + 10e-6).sum();
    assert!(of(true) > 0.0 && of(true) < held, "{held}");
    let text = one.to_string().split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("Worst 8 h") && text.contains("lower flammable limit"), "{text}");
    // Without a size of the room nothing is said of its air, and that is said.
    assert!(plan(&pair()).exposure().is_none());
    assert!(plan(&pair()).warnings().iter().any(|w| w.code == "no-exposure"));
    // A night between two enamels: two sittings.
    let mut nights = pair();
    let enamel = |name, job| layer(Family::AlkydEnamel, name, job, "30 cm2");
    nights.layers = vec![enamel("red oxide", "primer"), enamel("deep green", "base coat")];
    nights.layers.iter_mut().for_each(|l| l.setup.room = club_room());
    assert_eq!(plan(&nights).exposures().len(), 2);
}

#[test]
fn open_cups_give_off_what_they_lose() {
    let with = |cups_open: &str, people: u32| {
        let mut session = pair().for_people(people);
        session.layers.iter_mut().for_each(|l| l.setup.room = club_room());
        session.cups_open = parse(cups_open).unwrap();
        plan(&session)
    };
    let cups = |p: &Plan| -> Vec<VapourSource> {
        let all = p.exposure().unwrap().sources.iter();
        all.filter(|s| s.kind == SourceKind::OpenCup).cloned().collect()
    };
    let (lids, short, long) = (with("0 min", 1), with("5 min", 1), with("1 h", 1));
    // With lids on there are none; else one of the mix and one of thinner a layer. Longer open, more in the air.
    assert!(cups(&lids).is_empty());
    assert_eq!((cups(&short).len(), cups(&long).len()), (4, 4));
    let worst = |p: &Plan| p.exposure().unwrap().shift_sum.best.si();
    assert!(worst(&lids) < worst(&short) && worst(&short) < worst(&long));
    // Two of them: twice the vapour.
    let pairs = with("1 h", 2);
    for (one, two) in cups(&long).iter().zip(cups(&pairs)) {
        approx::assert_relative_eq!(two.released.si(), 2.0 * one.released.si(), max_relative = 1e-9);
        approx::assert_relative_eq!(one.brought.si(), one.released.si() + one.kept.si(), max_relative = 1e-9);
        assert!(one.released.si() > 0.0 && one.kept.si() > 0.0, "{one:?}");
    }
    // The same cup by itself: 10 mL in 30 mm for as long as the layer takes from mixing to the last coat.
    let of_layer = |what: What| long.steps().iter().filter(move |s| s.layer == 1 && s.what == what);
    let start = of_layer(What::Mix).next().unwrap().start;
    let open_for = of_layer(What::Spray).next_back().unwrap().end() - start;
    let setup = &long.session().layers[1].setup;
    let parts = mistcoat::dose::Parts { thinner: 1000.0, paint: 1.0 };
    let thinner =
        setup.paint.thin(&setup.thinner, mistcoat::dose::Thinning::from_parts(parts).unwrap()).unwrap();
    let depth = 4.0 * 10e-6 / (std::f64::consts::PI * 9e-4);
    let depth = mistcoat::quantity::Length::from_si(depth);
    let course = OpenCup::new(&thinner, parse("30 mm").unwrap(), depth, &club_room()).unwrap();
    let course = course.until(open_for).unwrap().stand().unwrap();
    // It draws water from the air meanwhile, which does not count.
    let solvents = course.species().into_iter().zip(course.amounts()).filter(|(name, _)| *name != "water");
    let lost: f64 = solvents.map(|(_, m)| m[0].si() - m.last().unwrap().si()).sum();
    let cup = cups(&long).into_iter().find(|c| c.name == "cups of thinner, deep green").unwrap();
    approx::assert_relative_eq!(cup.released.si(), lost, max_relative = 1e-3);
    assert_eq!((cup.start, cup.lasts), (start, open_for));
}

#[test]
fn what_hides_decides_the_passes() {
    let mut session = pair();
    let yellow = mistcoat::hiding::HidingPower::typical("yellow").unwrap();
    session.layers[1] = session.layers[1].clone().with_hiding(yellow);
    let (before, after) = (plan(&pair()), plan(&session));
    let hide = after.layers()[1].passes_to_hide.clone().unwrap();
    assert!(hide.whole > before.layers()[1].passes, "{hide:?}");
    assert_eq!(after.layers()[1].passes, hide.whole);
    // Its shade then sizes the rinse too, once the other shade is known.
    session.layers[0] = session.layers[0].clone().with_shade(Shade::typical("grey").unwrap());
    assert!(plan(&session).washes()[0].change.is_some());
}

#[test]
fn the_same_paint_twice_needs_no_rinse_while_it_is_wet() {
    let mut session = pair();
    session.layers[1].setup = session.layers[0].setup.clone();
    let twice = plan(&session);
    // A quarter of an hour between lacquers: longer than paint may stand in the gun.
    assert_eq!(twice.washes()[0].split.portions, 1);
    assert_eq!(twice.washes().len(), 2);
    assert_eq!(twice.materials().iter().filter(|m| m.kind.word() == "paint").count(), 1);
}

#[test]
fn a_paint_that_hardly_leaves_the_gun_is_told_by_layer() {
    let mut session = pair();
    session.layers[1] = layer(Family::ArtistsOil, "glaze", "base coat", "5 cm2");
    session.layers[0] = layer(Family::ArtistsOil, "ground", "primer", "50 cm2");
    session.layers[1].setup.thinner_per_paint = 0.3;
    let text = session.plan().unwrap_err().to_string();
    assert!(text.contains("of a coat of glaze") && text.contains("pressure"), "{text}");
}

#[test]
fn an_order_that_lifts_is_refused_with_the_one_that_works() {
    let mut session = pair();
    session.layers[0] = layer(Family::AlkydEnamel, "oil primer", "primer", "60 cm2").at(Place::Primer);
    let text = session.plan().unwrap_err().to_string();
    assert!(text.contains("oil primer") && text.contains("coat of a family between"), "{text}");
    // An oil glaze under a clear goes on top of it instead.
    let glaze = layer(Family::ArtistsOil, "oil glaze", "soft edge", "20 cm2");
    session.layers = vec![
        pair().layers[1].clone(),
        glaze,
        layer(Family::WaterborneAcrylic, "clear", "gloss clear", "40 cm2"),
    ];
    let text = session.plan().unwrap_err().to_string();
    assert!(text.contains("deep green, then clear, then oil glaze"), "{text}");
    // A finish under a colour.
    let mut upside = pair();
    upside.layers[0].place = Place::Finish;
    let text = upside.plan().unwrap_err().to_string();
    assert!(text.contains("grey primer lies under deep green"), "{text}");
    // Enamel over enamel is a matter for scrap, and takes a night.
    let enamel = |name, job| layer(Family::AlkydEnamel, name, job, "30 cm2");
    session.layers = vec![enamel("red oxide", "primer"), enamel("deep green", "base coat")];
    let told = plan(&session);
    let codes: Vec<&str> = told.warnings().iter().map(|w| w.code.as_str()).collect();
    assert!(codes.contains(&"coat-test-first") && codes.contains(&"another-day"), "{codes:?}");
    assert!(told.cautions().iter().any(|c| c.key == "rags"));
}

#[test]
fn no_plan_without_its_cautions() {
    let plan = plan(&pair().for_people(2));
    assert_eq!(plan.cautions().last().unwrap().key, "data-sheet");
    let json = serde_json::to_value(&plan).unwrap();
    assert_eq!(serde_json::from_value::<Plan>(json.clone()).unwrap(), plan);
    let refused = |change: &dyn Fn(&mut serde_json::Value)| {
        let mut changed = json.clone();
        change(&mut changed);
        serde_json::from_value::<Plan>(changed).unwrap_err().to_string()
    };
    let text = refused(&|v| v["cautions"] = serde_json::json!([]));
    assert!(
        text.contains("missing or changed") && text.contains("Fire") && text.contains("all its cautions"),
        "{text}"
    );
    assert!(refused(&|v| drop(v.as_object_mut().unwrap().remove("cautions"))).contains("cautions"));
    // One left out, one softened, two in another order.
    refused(&|v| drop(v["cautions"].as_array_mut().unwrap().pop()));
    let soft = refused(&|v| v["cautions"][0]["text"] = serde_json::json!("Nothing to worry about."));
    assert!(soft.contains("Vapour"), "{soft}");
    assert!(refused(&|v| v["cautions"].as_array_mut().unwrap().swap(0, 1)).contains("order"));
    // The session decides, not the file: people in the room bring cautions of their own.
    let alone = refused(&|v| {
        v["session"]["people"] = serde_json::json!(1);
        v["session"]["guns"] = serde_json::json!(1);
    });
    assert!(alone.contains("not those of the session"), "{alone}");
    assert!(refused(&|v| v["schema"] = serde_json::json!(9)).contains("9 where 1"));
    assert!(refused(&|v| v["layers"] = serde_json::json!([])).contains("layers"));
}

#[rstest::rstest]
#[case::layer(|s: &mut Session| s.layers[1].name = "2K clear".into())]
#[case::title(|s: &mut Session| s.title = "polyisocyanate evening".into())]
#[case::job(|s: &mut Session| s.layers[0].job.name = "two-pack gloss".into())]
#[case::cleaner(|s: &mut Session| s.cleaner = s.cleaner.clone().named("2K thinner"))]
#[case::own_cleaner(|s: &mut Session| s.layers[0].cleaner = Some(s.cleaner.clone().named("isocyanate hardener")))]
#[case::thinner(|s: &mut Session| s.layers[0].setup.thinner = s.cleaner.clone().named("2-pack hardener"))]
fn isocyanates_are_refused_on_every_path(#[case] change: fn(&mut Session)) {
    let mut session = pair();
    change(&mut session);
    let text = session.plan().unwrap_err().to_string();
    assert!(text.contains("not for home spraying"), "{text}");
    // As a file: the words of a plan that was good, changed.
    let mut json = serde_json::to_value(plan(&pair())).unwrap();
    json["session"] = serde_json::to_value(&session).unwrap();
    let text = serde_json::from_value::<Plan>(json).unwrap_err().to_string();
    assert!(text.contains("not for home spraying"), "{text}");
    // A paint of that name is not even built.
    assert!(Paint::typical(Family::SolventLacquer, "2K clear").is_err());
}

#[rstest::rstest]
#[case::none(|s: &mut Session| s.layers.clear(), "1 to 8")]
#[case::many(|s: &mut Session| s.layers = vec![s.layers[0].clone(); 9], "1 to 8")]
#[case::twice(|s: &mut Session| s.layers[1].name = "Grey primer".into(), "stands once")]
#[case::nameless(|s: &mut Session| s.layers[1].name = " ".into(), "a name")]
#[case::no_area(|s: &mut Session| s.layers[0].area = parse("0 cm2").unwrap(), "100 m2")]
#[case::nan_area(|s: &mut Session| s.layers[0].area = mistcoat::quantity::Area::from_si(f64::NAN), "450 cm2")]
#[case::masking(|s: &mut Session| s.layers[0].mask = Some(parse("-1 min").unwrap()), "0 s to 24 h")]
#[case::wait(|s: &mut Session| s.layers[0].wait = Some(Time::from_si(f64::NAN)), "365 d")]
#[case::nobody(|s: &mut Session| s.people = 0, "1 to 60")]
#[case::crowd(|s: &mut Session| s.people = 61, "1 to 60")]
#[case::no_gun(|s: &mut Session| s.guns = 0, "one for each person")]
#[case::guns(|s: &mut Session| s.guns = 2, "one for each person")]
#[case::cups(|s: &mut Session| s.cups_open = Time::from_si(f64::NAN), "lids on")]
#[case::cups_days(|s: &mut Session| s.cups_open = parse("25 h").unwrap(), "24 h")]
#[case::margin(|s: &mut Session| s.margin = parse("-5 %").unwrap(), "500 %")]
#[case::bench(|s: &mut Session| s.bench.fill = parse("0.01 mL").unwrap(), "hold-up")]
#[case::room(|s: &mut Session| s.layers[1].setup.room = Room::new(parse("25 °C").unwrap(), RelativeHumidity::new(0.5).unwrap()).unwrap(), "one room")]
#[case::job(|s: &mut Session| s.layers[0].job.most_passes = f64::NAN, "1 to 1000")]
#[case::passes(|s: &mut Session| s.layers[0].job.dry_film = parse("900 µm").unwrap(), "50 coats")]
#[case::wet(|s: &mut Session| s.layers[0].setup.wet_passes = 0, "1 to 20")]
#[case::price(|s: &mut Session| s.prices.push(Price { name: "deep grean".into(), costs: 1.0, per: parse("1 L").unwrap() }), "deep green")]
#[case::costs(|s: &mut Session| s.prices.push(Price { name: "deep green".into(), costs: f64::NAN, per: parse("1 L").unwrap() }), "price of deep green")]
#[case::per(|s: &mut Session| s.prices.push(Price { name: "deep green".into(), costs: 1.0, per: parse("0 L").unwrap() }), "volume for the price")]
fn bad_input_is_refused(#[case] change: fn(&mut Session), #[case] says: &str) {
    let mut session = pair();
    change(&mut session);
    let text = session.plan().unwrap_err().to_string();
    assert!(text.contains(says), "{text}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(5))]

    // Whatever is planned: nobody and no gun does two things at once, waits are kept, amounts add up.
    #[test]
    fn plans_hold_what_they_claim(
        family in 0..5_usize, job in 0..7_usize, cm2 in 5.0..900.0_f64, ratio in 0.3..2.5_f64,
        people in 1..6_u32, share in 0..6_u32, masked: bool,
    ) {
        let job = Job::all().unwrap()[job].name.clone();
        let mut session = pair();
        session.layers[1] = layer(Family::ALL[family], "colour", &job, &format!("{cm2} cm2"));
        session.layers[0] = layer(Family::ALL[family], "ground", "primer", "50 cm2");
        session.layers[1].setup.thinner_per_paint = ratio;
        session.layers[1].mask = masked.then(|| parse("10 min").unwrap());
        let session = session.for_people(people).sharing(1 + share % people);
        let plan = match session.plan() {
            Ok(plan) => plan,
            Err(e) => {
                // A job that the setting cannot do is told so.
                let text = e.to_string();
                prop_assert!(["passes for", "thinner", "of a coat of"].iter().any(|w| text.contains(w)), "{text}");
                return Ok(());
            }
        };
        for person in 1..=people {
            let own: Vec<_> = plan.steps().iter().filter(|s| s.person == person).collect();
            let sprays = |layer: usize| own.iter().filter(move |s| s.layer == layer && s.what == What::Spray);
            prop_assert_eq!(sprays(1).count(), plan.layers()[1].coats as usize);
            let end = sprays(0).map(|s| s.end().si()).fold(0.0, f64::max);
            let next = sprays(1).map(|s| s.start.si()).fold(f64::INFINITY, f64::min);
            prop_assert!(next + 1e-6 >= end + plan.layers()[0].until_next.lasts.si());
            if let Some(tape) = own.iter().find(|s| s.what == What::Mask) {
                prop_assert!(tape.start.si() + 1e-6 >= end + plan.layers()[0].until_mask.lasts.si());
            }
        }
        let path: f64 = plan.layers().iter().map(|l| {
            l.pass_time.best.si() * f64::from(l.passes) + l.flash_off.lasts.si() * f64::from(l.coats - 1)
                + l.until_next.lasts.si()
        }).sum();
        prop_assert!(plan.planned().si() + 1e-6 >= path);
        let total = plan.total();
        prop_assert!(total.low <= total.best && total.best <= total.high && total.best.si() <= plan.planned().si() + 1e-6);
        // Visits stand apart, hold all work, and bench and away make the whole.
        let away = mistcoat::bench::Habits::usual().unwrap().away;
        prop_assert!(plan.visits().windows(2).all(|v| v[1].start - v[0].end > away));
        for step in plan.steps().iter().filter(|s| s.what.is_work()) {
            prop_assert!(plan.visits().iter().any(|v| v.start <= step.start && step.end() <= v.end));
        }
        let parts = plan.bench_time().si() + plan.time_away().si();
        prop_assert!((parts - plan.planned().si()).abs() < 1e-6 && plan.time_away().si() >= -1e-6);
        for m in plan.materials() {
            prop_assert!(m.used.low <= m.used.best && m.used.best <= m.used.high && m.total > m.used.best * 0.9);
        }
        prop_assert!(!plan.cautions().is_empty() && plan.timeline().rows() >= 6);
    }
}
