//! Every number says where it comes from: each source key in the data, the tests and the workings resolves.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed test panics")]

use mistcoat::bench::Compare;
use mistcoat::blend::{Basis, Blend};
use mistcoat::cup::FlowCup;
use mistcoat::dose::Dropper;
use mistcoat::paint::{Family, Paint};
use mistcoat::quantity::parse;
use mistcoat::source;
use std::path::{Path, PathBuf};

/// Files under `folder` with this ending.
fn files(folder: &Path, ending: &str, found: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            files(&path, ending, found);
        } else if path.extension().is_some_and(|e| e == ending) {
            found.push(path);
        }
    }
}

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// Every text under a field called `source`, however deep.
fn collect(value: &toml::Value, found: &mut Vec<String>) {
    match value {
        toml::Value::Table(table) => {
            for (field, inner) in table {
                match inner {
                    toml::Value::String(key) if field == "source" => found.push(key.clone()),
                    toml::Value::Array(keys) if field == "source" => {
                        found.extend(keys.iter().filter_map(|k| k.as_str().map(str::to_owned)));
                    }
                    _ => collect(inner, found),
                }
            }
        }
        toml::Value::Array(list) => list.iter().for_each(|v| collect(v, found)),
        _ => {}
    }
}

#[test]
fn every_key_in_the_toml_files_resolves() {
    let mut paths = Vec::new();
    files(&root().join("data"), "toml", &mut paths);
    let mut seen = 0;
    for path in paths {
        if path.components().any(|c| c.as_os_str() == "sources") {
            continue;
        }
        let value: toml::Value = toml::from_str(&std::fs::read_to_string(&path).unwrap()).unwrap();
        let mut keys = Vec::new();
        collect(&value, &mut keys);
        seen += keys.len();
        for key in keys {
            assert!(source::find(&key).is_ok(), "{}: {key:?} is no source", path.display());
        }
    }
    assert!(seen > 500, "only {seen} keys seen: is the walk broken?");
}

#[test]
fn every_key_in_the_csv_files_of_data_resolves() {
    let mut paths = Vec::new();
    files(&root().join("data"), "csv", &mut paths);
    assert!(!paths.is_empty());
    for path in paths {
        let mut reader = csv::Reader::from_path(&path).unwrap();
        let column = reader.headers().unwrap().iter().position(|h| h == "source");
        let column = column.unwrap_or_else(|| panic!("{} has no column `source`", path.display()));
        for row in reader.records() {
            let key = row.unwrap()[column].to_owned();
            assert!(source::find(&key).is_ok(), "{}: {key:?} is no source", path.display());
        }
    }
}

/// Keys written in the code itself: `.source("KEY")` of a step and `source: "KEY"` of a value.
#[test]
fn every_key_in_the_code_resolves() {
    let mut paths = Vec::new();
    files(&root().join("src"), "rs", &mut paths);
    let mut seen = 0;
    for path in paths {
        let text = std::fs::read_to_string(&path).unwrap();
        let code = text.split("#[cfg(test)]").next().unwrap_or_default();
        let code: Vec<&str> = code.lines().filter(|l| !l.trim_start().starts_with("//")).collect();
        let code = code.join("\n");
        for before in [".source(\"", "source: \"", "cite(\""] {
            for after in code.split(before).skip(1) {
                let key = after.split('"').next().unwrap_or_default();
                seen += 1;
                assert!(source::find(key).is_ok(), "{}: {key:?} is no source", path.display());
            }
        }
    }
    assert!(seen > 30, "only {seen} keys seen: is the walk broken?");
}

#[test]
fn every_step_of_a_comparison_cites_a_known_source() {
    let cup = FlowCup::standard("ISO 2431", "4").unwrap();
    let dropper = Dropper::tip(parse("3 mm").unwrap()).unwrap();
    for family in Family::ALL {
        let paint = Paint::typical(family, "club paint (invented)").unwrap();
        let liquid = if family.takes_water() { "water" } else { "white spirit" };
        let thinner = Blend::from_names(&[(liquid, 1.0)], Basis::Volume, None).unwrap();
        let comparison = Compare::new(&paint, &thinner).cup(&cup).dropper(&dropper, None).run().unwrap();
        let mut steps = comparison.working(None).unwrap().steps;
        for row in comparison.rows() {
            steps.extend(row.mix.voc().unwrap().working.steps);
        }
        assert!(steps.iter().filter(|s| !s.source.is_empty()).count() >= 16, "{family}");
        for step in steps.iter().filter(|s| !s.source.is_empty()) {
            assert!(
                source::find(&step.source).is_ok(),
                "{family}, {}: {:?} is no source",
                step.name,
                step.source
            );
        }
    }
}
