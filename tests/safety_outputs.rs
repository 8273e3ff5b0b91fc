//! Every output of `safety` and of the room's vapour carries its sources and its cautions, and values from memory are told as
//! such where they are shown. A new public name of the module fails here until it is walked.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed test panics")]

use mistcoat::air::{Release, Room, RoomVapour};
use mistcoat::blend::{Basis, Blend};
use mistcoat::dose::{Parts, Thinning};
use mistcoat::paint::{Family, Paint};
use mistcoat::quantity::{Quantity, Ratio, RelativeHumidity, Time, parse};
use mistcoat::safety::{
    Authority, MixtureExposure, SessionAir, Work, all_cautions, cautions, cupboard, flammable_liquid,
    lower_flammable_limit, mixture_exposure, near_gun, short_term_exposure,
};
use mistcoat::solvent::{Concentration, LimitKind, Solvent};
use mistcoat::source::Provenance;
use mistcoat::spray::Airbrush;

/// Outputs that the tests below walk, with their parts.
const WALKED: [&str; 24] = [
    "Caution",
    "Cupboard",
    "ExposureTerm",
    "FlammableLimit",
    "FlammableLiquid",
    "GunAir",
    "MixtureExposure",
    "NearGun",
    "SessionAir",
    "SessionExposure",
    "SessionVapour",
    "VapourSource",
    "Ventilation",
    "all_cautions",
    "cautions",
    "cupboard",
    "flammable_liquid",
    "lower_flammable_limit",
    "mixture_exposure",
    "near_gun",
    "short_term_exposure",
    "FlammableClass", // words inside FlammableLiquid
    "SourceKind",     // words inside VapourSource
    "EXCURSION",      // inside short_term_exposure
];
/// Arithmetic on what the caller gives, or what is asked for: nothing here says how bad the air is.
const ARITHMETIC: [&str; 5] =
    ["Authority", "Work", "sum_of_shares", "time_weighted_average", "vapour_volume"];

#[test]
fn every_public_name_is_walked() {
    let path = format!("{}/src/safety/mod.rs", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(path).unwrap();
    let mut seen = 0;
    for list in text.split("\npub use ").skip(1) {
        let list = list.split(';').next().unwrap();
        let names = list.split_once('{').map_or(list, |(_, names)| names.trim_end_matches('}'));
        for name in names.split([',', '\n', ' ']).map(str::trim).filter(|n| !n.is_empty()) {
            seen += 1;
            let known = WALKED.contains(&name) || ARITHMETIC.contains(&name);
            assert!(known, "{name} is new in `safety`: walk it here, with its sources and cautions");
        }
    }
    assert_eq!(seen, WALKED.len() + ARITHMETIC.len(), "a name of this test is no longer in `safety`");
}

/// What must hold of anything that is shown.
fn told(what: &str, text: &str, sources: &[String], cautions: &[String], from_memory: bool) {
    assert!(!sources.is_empty(), "{what} has no source");
    assert!(sources.iter().all(|s| s.len() > 12), "{what}: {sources:?} cites nothing");
    assert!(!cautions.is_empty(), "{what} has no caution");
    assert!(
        cautions.last().unwrap().contains("local codes and licensed practice decide"),
        "{what}: who decides does not come last in {cautions:?}"
    );
    if from_memory {
        assert!(text.contains("from memory"), "{what} hides that it is from memory: {text}");
    }
}

fn catalogue() -> Vec<Solvent> {
    let all: Vec<Solvent> = mistcoat::solvent::Catalogue::builtin().unwrap().iter().cloned().collect();
    assert!(all.len() > 50);
    all
}

fn of_exposure(what: &str, found: &MixtureExposure) {
    let sources: Vec<String> = found.terms.iter().flat_map(|t| t.source.citations.clone()).collect();
    let memory = found.terms.iter().any(|t| t.source.is_from_memory());
    let text = found.table().to_text().split_whitespace().collect::<Vec<_>>().join(" ");
    if found.terms.is_empty() {
        // Nothing to cite; it says so.
        assert!(!found.without_limit.is_empty() && text.contains("lower bound"), "{what}: {text}");
        return;
    }
    told(what, &text, &sources, &found.cautions, memory);
    for t in &found.terms {
        assert!(text.contains(&t.authority), "{what}: {text}");
    }
}

#[test]
fn exposure_of_every_solvent() {
    let mut limits = 0;
    for solvent in catalogue() {
        if solvent.id() == "water" {
            continue;
        }
        let air = [(solvent.clone(), Concentration::Volume(parse::<Ratio>("1 ppm").unwrap()))];
        for authority in [Authority::Lowest, Authority::OshaPel, Authority::NioshRel] {
            for over in
                [LimitKind::Shift, LimitKind::ShortTerm, LimitKind::Ceiling, LimitKind::ImmediateDanger]
            {
                let found = mixture_exposure(&air, authority, over).unwrap();
                limits += found.terms.len();
                of_exposure(&format!("{} over {over}", solvent.name()), &found);
            }
            of_exposure(solvent.name(), &short_term_exposure(&air, authority).unwrap());
        }
    }
    assert!(limits > 150, "only {limits} limits seen: is the walk broken?");
}

#[test]
fn fire_of_every_solvent() {
    let t = parse("21 °C").unwrap();
    let (mut limits, mut remembered) = (0, 0);
    for solvent in catalogue() {
        let name = solvent.name().to_owned();
        let blend = Blend::pure(solvent).unwrap();
        match lower_flammable_limit(&blend) {
            Ok(Some(limit)) => {
                limits += 1;
                remembered += u32::from(limit.from_memory);
                told(&name, &limit.terms.join("; "), &limit.sources, &limit.cautions(), limit.from_memory);
                let shelf = cupboard(&blend, parse("1 mL").unwrap(), parse("0.2 m3").unwrap(), t);
                let shelf = shelf.unwrap().unwrap();
                let text = shelf.cautions.join(" ");
                told(&name, &text, &shelf.limit.sources, &shelf.cautions, shelf.limit.from_memory);
            }
            Ok(None) => assert_eq!(name, "water"),
            Err(e) => assert!(e.to_string().contains("safety data sheet"), "{e}"),
        }
        match flammable_liquid(&blend) {
            Ok(found) => {
                let text = format!("{found} {}", found.cautions.join(" "));
                told(&name, &found.to_string(), &found.sources, &found.cautions, found.from_memory);
                assert!(text.contains("mist"), "{text}");
            }
            Err(e) => assert!(e.to_string().contains("safety data sheet"), "{e}"),
        }
    }
    assert!(limits > 50 && remembered > 5, "{limits} limits, {remembered} from memory");
}

fn room() -> Room {
    Room::new(parse("21 °C").unwrap(), RelativeHumidity::new(0.5).unwrap())
        .unwrap()
        .with_volume(parse("30 m3").unwrap())
        .unwrap()
        .with_air_changes(parse("2 /h").unwrap())
        .unwrap()
}

#[test]
fn a_session_with_every_solvent() {
    for solvent in catalogue() {
        let name = solvent.name().to_owned();
        let blend = Blend::pure(solvent).unwrap();
        let minutes = |m: f64| Time::from_si(60.0 * m);
        let found = SessionAir::new(&room())
            .unwrap()
            .cleaning("gun", &blend, parse("5 mL").unwrap(), Ratio::from_si(0.3), minutes(0.0), minutes(5.0))
            .unwrap()
            .run()
            .unwrap();
        let memory = found.shift.terms.iter().chain(&found.short.terms).any(|t| t.source.is_from_memory());
        let text = found.table().to_text();
        told(&name, &text, &found.citations(), &found.cautions(), memory);
        let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
        for caution in found.cautions() {
            assert!(text.contains(&caution), "{name}: {caution:?} is not under the table");
        }
        let gone = found.sources_table();
        assert!(gone.notes.iter().any(|n| n.contains("licensed practice decide")));
        assert!(found.ventilation.words.contains("bench") || found.ventilation.words.contains("booth"));
        let unsourced: Vec<String> = found
            .working()
            .steps
            .into_iter()
            .filter(|s| s.source.is_empty() && !s.formula.contains("brought"))
            .map(|s| s.name)
            .collect();
        assert!(unsourced.is_empty(), "{name}: steps without a source: {unsourced:?}");
    }
}

#[test]
fn the_room_of_one_vapour() {
    let vapour = RoomVapour::new(&room(), parse("92 g/mol").unwrap())
        .unwrap()
        .with_release(Release::new(parse("5 g").unwrap(), Time::from_si(0.0), Time::from_si(600.0)).unwrap());
    let answers = [
        vapour.peak().unwrap(),
        vapour.concentration(Time::from_si(900.0)).unwrap(),
        vapour.average(Time::from_si(0.0), Time::from_si(900.0)).unwrap(),
        vapour.steady(parse("1 g").unwrap(), Time::from_si(60.0)).unwrap(),
    ];
    let air = vapour.air_changes_to_stay_below(parse("50 mg/m3").unwrap()).unwrap();
    let all = answers.iter().map(|a| (&a.warnings, &a.working)).chain([(&air.warnings, &air.working)]);
    for (warnings, working) in all {
        assert!(warnings.iter().any(|w| w.message.contains("safety data sheet")), "{warnings:?}");
        assert!(working.steps.iter().any(|s| s.source == "ROOM_MIXING"));
    }
}

#[test]
fn the_gun_and_the_cautions_of_every_family() {
    let gun = Airbrush::new(parse("0.3 mm").unwrap(), parse("20 psi").unwrap(), parse("80 mm").unwrap());
    let gun = gun.unwrap();
    for family in Family::ALL {
        let paint = Paint::typical(family, "club paint (invented)").unwrap();
        let liquid = if family.takes_water() { "water" } else { "white spirit" };
        let liquid = if family == Family::SolventLacquer { "acetone" } else { liquid };
        let thinner = Blend::from_names(&[(liquid, 1.0)], Basis::Volume, None).unwrap();
        let thinning = Thinning::from_parts(Parts { thinner: 1.0, paint: 1.0 }).unwrap();
        let Ok(mix) = paint.thin(&thinner, thinning) else { panic!("{family} does not take {liquid}") };
        let shot = gun.spray(&mix, &room()).unwrap();
        if let Some(found) = near_gun(&shot, &[]).unwrap() {
            let text = found.table().to_text();
            told(family.name(), &text, &found.citations(), &found.cautions(), true);
            assert!(found.working().steps.iter().all(|s| !s.source.is_empty() || s.numbers.is_empty()));
        }
        for work in [
            Work { spray: true, rinse: true, workshop: true },
            Work { spray: true, ..Work::default() },
            Work::default(),
        ] {
            let list = cautions(&[&paint], &[&thinner], work).unwrap();
            let sources: Vec<String> = list.iter().map(|c| c.citation().unwrap().to_string()).collect();
            let texts: Vec<String> = list.iter().map(|c| c.text.clone()).collect();
            // "Who decides" reads "... local codes and licensed practice decide. ..." and stands last.
            told(family.name(), "", &sources, &texts, false);
        }
    }
    for caution in all_cautions().unwrap() {
        assert!(caution.citation().is_ok(), "{caution}");
    }
}

/// The file of sources says of each whether it is from memory, and the text form of a source shows it.
#[test]
fn memory_shows_in_every_citation() {
    for source in mistcoat::source::all().unwrap() {
        assert_eq!(
            source.to_string().ends_with("(from memory)"),
            source.provenance == Provenance::FromMemory,
            "{source}"
        );
    }
}
