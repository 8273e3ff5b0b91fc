//! Every value has a source that resolves; every figure from memory says so.

use super::{number, rows, si};
use mistcoat::quantity::Quantity;
use mistcoat::solvent::{Catalogue, PROPERTIES, PropertySource, SafetyValue, find};
use mistcoat::source::{self, Provenance};

/// All source keys of a TOML tree, and the values that have none where one is due.
fn keys(value: &toml::Value, out: &mut Vec<String>) {
    match value {
        toml::Value::Table(table) => {
            for (name, inner) in table {
                match (name.as_str(), inner) {
                    ("source", toml::Value::String(key)) => out.push(key.clone()),
                    ("source", toml::Value::Array(many)) => {
                        out.extend(many.iter().map(|k| k.as_str().unwrap().to_owned()));
                    }
                    _ => keys(inner, out),
                }
            }
            let has_value = ["value", "at_20C", "ln_a", "form", "d"].iter().any(|k| table.contains_key(*k));
            let is_reading = table.contains_key("at");
            assert!(!has_value || is_reading || table.contains_key("source"), "no source in {table:?}");
        }
        toml::Value::Array(items) => items.iter().for_each(|item| keys(item, out)),
        _ => {}
    }
}

#[test]
fn every_value_of_the_data_files_has_a_source_that_resolves() {
    let folder = format!("{}/data/solvents", env!("CARGO_MANIFEST_DIR"));
    let mut count = 0;
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|e| e == "toml") {
            let tree: toml::Table = toml::from_str(&std::fs::read_to_string(&path).unwrap()).unwrap();
            let mut found = Vec::new();
            keys(&toml::Value::Table(tree), &mut found);
            for key in &found {
                source::find(key).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
            }
            count += found.len();
        }
    }
    assert!(count > 1500, "{count}");
}

#[test]
fn every_property_tells_its_source() {
    for s in Catalogue::builtin().unwrap().iter() {
        for property in PROPERTIES {
            let Some(found) = s.source(property).unwrap() else { continue };
            assert!(!found.keys.is_empty() && found.keys.len() == found.citations.len(), "{s} {property}");
            for key in &found.keys {
                source::find(key).unwrap_or_else(|e| panic!("{s} {property}: {e}"));
            }
        }
    }
}

#[test]
fn unknown_property_offers_a_near_one() {
    let text = find("acetone").unwrap().source("flashpoint").unwrap_err().to_string();
    assert!(text.contains("flash_point") && text.contains("vapour_pressure"), "{text}");
}

fn marked<Q: Quantity>(value: &SafetyValue<Q>) -> bool {
    value.to_string().contains("from memory, check the safety data sheet")
}

/// Fire figures: what was not seen in a source is marked where it is shown, what was seen is not.
#[test]
fn fire_figures_from_memory_are_marked() {
    let mut unseen = 0;
    for row in rows("solvent_fire_seen.csv") {
        let s = find(&row["solvent"]).unwrap();
        let (si_value, shown) = match row["property"].as_str() {
            "flash_point" => s.flash_point().map(|v| (si(v.value) - 273.15, marked(&v))),
            "lower_flammable_limit" => s.lower_flammable_limit().map(|v| (1e2 * si(v.value), marked(&v))),
            "upper_flammable_limit" => s.upper_flammable_limit().map(|v| (1e2 * si(v.value), marked(&v))),
            other => panic!("{other}"),
        }
        .unwrap();
        assert!((si_value - number(&row, "value")).abs() < 1e-9, "{row:?}: {si_value}");
        assert_eq!(shown, row["seen"] == "no", "{row:?}");
        unseen += usize::from(shown);
    }
    assert!(unseen > 60, "{unseen}");
}

#[test]
fn keys_from_memory_are_named_so() {
    for s in source::all().unwrap() {
        if s.key.ends_with("_mem") {
            assert_eq!(s.provenance, Provenance::FromMemory, "{}", s.key);
        }
        let says_published = s.provenance == Provenance::Published;
        assert!(!(says_published && s.citation.contains("from memory")), "{} is from memory", s.key);
    }
}

#[test]
fn exposure_limits_tell_theirs() {
    let methanol = find("methanol").unwrap();
    for l in methanol.exposure_limits().iter().filter(|l| l.name.starts_with("OSHA")) {
        assert!(methanol.exposure_limit_source(l).is_from_memory());
    }
    let ethanol = find("ethanol").unwrap();
    let osha = ethanol.exposure_limits().iter().find(|l| l.name == "OSHA PEL").unwrap();
    assert!(!ethanol.exposure_limit_source(osha).is_from_memory());
    assert_eq!(osha.value.to_string(), "1000 ppm");
}

#[test]
fn others_are_shown_with_their_source() {
    let found: PropertySource = find("n-propanol").unwrap().source("flash_point").unwrap().unwrap();
    assert!(found.others.iter().any(|o| o.contains("15 °C") && o.contains("IEC")), "{:?}", found.others);
}
