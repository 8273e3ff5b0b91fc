//! Evaporation tests run by the drying engine, against the published lists.
#![allow(clippy::unwrap_used, clippy::panic, clippy::print_stdout, reason = "a failed test panics")]

use mistcoat::blend::{Basis, Blend};
use mistcoat::film::EvaporationTest;
use mistcoat::quantity::{Quantity, Ratio, parse, to};
use mistcoat::solvent::Catalogue;
use serde::Deserialize;

#[derive(Debug, Deserialize)]
struct Row {
    test: EvaporationTest,
    solvent: String,
    published: f64,
    seen: Option<f64>,
}

/// The catalogue with the liquids of the lists that it leaves out.
fn liquids() -> Catalogue {
    let path = format!("{}/tests/data/further_solvents.toml", env!("CARGO_MANIFEST_DIR"));
    Catalogue::builtin().unwrap().with(&Catalogue::load(path).unwrap())
}

fn pure(catalogue: &Catalogue, name: &str) -> Blend {
    Blend::new(vec![(catalogue.find(name).unwrap(), 1.0)], Basis::Mass, None).unwrap()
}

fn rows(test: EvaporationTest) -> Vec<Row> {
    let path = format!("{}/tests/data/evaporometer.csv", env!("CARGO_MANIFEST_DIR"));
    let mut reader = csv::Reader::from_path(path).unwrap();
    reader.deserialize().map(Result::<Row, _>::unwrap).filter(|r| r.test == test).collect()
}

fn rms_factor(logs: &[f64]) -> f64 {
    (logs.iter().map(|l| l * l).sum::<f64>() / logs.len() as f64).sqrt().exp()
}

/// Logarithm of computed over published, every row.
fn misses(test: EvaporationTest) -> Vec<(Row, f64)> {
    let catalogue = liquids();
    rows(test)
        .into_iter()
        .map(|row| {
            let answer = test.rate(&pure(&catalogue, &row.solvent)).unwrap();
            let miss = (answer.best().si() / row.published).ln();
            (row, miss)
        })
        .collect()
}

fn logs(misses: &[(Row, f64)]) -> Vec<f64> {
    misses.iter().map(|m| m.1).collect()
}

fn worst(misses: &[(Row, f64)]) -> (&str, f64) {
    let (row, miss) = misses.iter().max_by(|a, b| a.1.abs().total_cmp(&b.1.abs())).unwrap();
    (&row.solvent, miss.abs().exp())
}

/// One constant, set by n-butyl acetate alone. The worst are the liquids whose published rates have one digit.
#[test]
fn paper_list() {
    let misses = misses(EvaporationTest::paper());
    assert_eq!(misses.len(), 37);
    let all = rms_factor(&logs(&misses));
    let seen: Vec<f64> = misses.iter().filter_map(|(r, m)| Some(m + (r.published / r.seen?).ln())).collect();
    println!(
        "rms factor {all:.3}, worst {:?}; {} seen in a source {:.3}",
        worst(&misses),
        seen.len(),
        rms_factor(&seen)
    );
    assert!(all <= 1.20, "{all}");
    assert_eq!(seen.len(), 14);
    assert!(rms_factor(&seen) <= 1.22, "{seen:?}");
    assert!(worst(&misses).1 < 1.60, "{:?}", worst(&misses));
}

/// Nothing to set: without cooling and Stefan flow the ratio is that of vapour pressure, diffusivity and molar volume.
#[test]
fn metal_plate_list() {
    let misses = misses(EvaporationTest::metal_plate());
    assert_eq!(misses.len(), 13);
    let all = rms_factor(&logs(&misses));
    println!("rms factor {all:.3}, worst {:?}", worst(&misses));
    assert!(all <= 1.14, "{all}");
    // One constant for all rows, in place of the reference alone: 1.115.
    let mean = logs(&misses).iter().sum::<f64>() / 13.0;
    let fitted: Vec<f64> = logs(&misses).iter().map(|m| m - mean).collect();
    println!("with one constant {:.3}", rms_factor(&fitted));
    assert!(rms_factor(&fitted) <= 1.12, "{}", rms_factor(&fitted));
    // All of them hang on the reference. With its vapour pressure at 25 °C after McGarry (1619 Pa; thermo 0.6.1) in place
    // of the catalogue's 1554 Pa the list fits within 1.12.
    let reference = mistcoat::solvent::find("n-butyl acetate").unwrap();
    let ours = reference.vapour_pressure(parse("25 °C").unwrap()).unwrap().best.si();
    let other: Vec<f64> = logs(&misses).iter().map(|m| m - (1618.8 / ours).ln()).collect();
    assert!(rms_factor(&other) <= 1.12, "{}", rms_factor(&other));
}

/// Tied to n-butyl acetate, and tied to ether as the scale is defined (its own cooling is the hardest to get right).
#[test]
fn ether_scale() {
    let test = EvaporationTest::spot();
    let misses = misses(test);
    assert_eq!(misses.len(), 13);
    let ether = test.rate(&pure(&liquids(), "diethyl ether")).unwrap().best().si();
    let tied: Vec<f64> = logs(&misses).iter().map(|m| m - ether.ln()).collect();
    println!(
        "rms factor {:.3}, worst {:?}; tied to ether {:.3}",
        rms_factor(&logs(&misses)),
        worst(&misses),
        rms_factor(&tied)
    );
    assert!(rms_factor(&logs(&misses)) <= 1.20);
    assert!(rms_factor(&tied) <= 1.25);
}

/// The definition of the scale: 470 s, 10 s either way; exactly 1.
#[rstest::rstest]
#[case(EvaporationTest::Paper)]
#[case(EvaporationTest::MetalPlate)]
fn reference(#[case] test: EvaporationTest) {
    let acetate = pure(&liquids(), "n-butyl acetate");
    let seconds = to(test.time_to_lose(&acetate, test.end()).unwrap().best(), "s").unwrap();
    assert!((seconds - 470.0).abs() < 0.5, "{seconds}");
    approx::assert_relative_eq!(test.rate(&acetate).unwrap().best().si(), 1.0, max_relative = 1e-12);
}

/// A blend dries by itself: between its parts, nearer to the slow one than the mean by volume, because the test waits
/// for the last tenth.
#[rstest::rstest]
#[case("acetone", "2-butoxyethanol")]
#[case("ethyl acetate", "n-butyl acetate")]
#[case("isopropanol", "water")]
fn blends(#[case] fast: &str, #[case] slow: &str) {
    for test in EvaporationTest::ALL {
        let rate = |parts: &[(&str, f64)]| {
            test.rate(&Blend::from_names(parts, Basis::Volume, None).unwrap()).unwrap().best().si()
        };
        let (a, b) = (rate(&[(fast, 1.0)]), rate(&[(slow, 1.0)]));
        let mixed = rate(&[(fast, 50.0), (slow, 50.0)]);
        assert!(a.min(b) < mixed && mixed < a.max(b), "{test}: {a} {mixed} {b}");
        let faster = if test == EvaporationTest::Spot { mixed < b } else { mixed > b };
        assert!(faster, "{test}: {mixed} {b}");
    }
}

#[test]
fn the_interval_says_where_it_comes_from() {
    let answer = EvaporationTest::paper().rate(&pure(&liquids(), "toluene")).unwrap();
    let causes: Vec<&str> = answer.estimate.contributors.iter().map(|c| c.what.as_str()).collect();
    assert_eq!(causes, ["evaporation model", "vapour pressures"]);
    let published = 1.95;
    assert!(answer.estimate.low.si() < published && published < answer.estimate.high.si());
    let text = answer.working.to_text();
    for part in ["toluene", "ASTM D3539", "n-butyl acetate", "t_ref"] {
        assert!(text.contains(part), "no {part:?} in {text}");
    }
    let json = serde_json::to_string(&EvaporationTest::MetalPlate).unwrap();
    assert_eq!(json, "\"metal-plate\"");
}

#[rstest::rstest]
#[case(0.0)]
#[case(-0.5)]
#[case(1.0)]
#[case(f64::NAN)]
fn bad_shares(#[case] share: f64) {
    let text = EvaporationTest::paper()
        .time_to_lose(&pure(&liquids(), "toluene"), Ratio::from_si(share))
        .unwrap_err()
        .to_string();
    for part in ["share of the mass lost", "99.5 %", "90 %"] {
        assert!(text.contains(part), "no {part:?} in {text}");
    }
}

#[test]
fn two_liquids_are_refused() {
    let blend = Blend::from_names(&[("water", 50.0), ("toluene", 50.0)], Basis::Mass, None).unwrap();
    for test in EvaporationTest::ALL {
        assert!(matches!(test.rate(&blend), Err(mistcoat::Error::PhaseSplit(_))), "{test}");
    }
}

/// Glycerol loses nothing worth a year, and takes up water where there is some.
#[test]
fn what_never_evaporates_is_told() {
    let text = EvaporationTest::spot().rate(&pure(&liquids(), "glycerol")).unwrap_err().to_string();
    assert!(text.contains("glycerol") && text.contains("within a year"), "{text}");
}

/// The closed form of `Blend::evaporation_as_it_dries` (wet-bulb balance, heat gain set on 43 rates) tells the same as the
/// engine: two ways to one number, apart by no more than either is from print.
#[rstest::rstest]
#[case::house(&[("acetone", 50.0), ("n-butyl acetate", 35.0), ("2-butoxyethanol", 15.0)])]
#[case::lacquer(&[("toluene", 40.0), ("isopropanol", 30.0), ("n-butyl acetate", 30.0)])]
#[case::slow(&[("xylene", 60.0), ("1-methoxy-2-propyl acetate", 40.0)])]
#[case::alcohols(&[("ethanol", 70.0), ("1-methoxy-2-propanol", 30.0)])]
#[case::cut(&[("white spirit", 100.0)])]
fn closed_form(#[case] parts: &[(&str, f64)]) {
    let blend = Blend::from_names(parts, Basis::Mass, None).unwrap();
    let engine = EvaporationTest::paper().rate(&blend).unwrap().best().si();
    let closed = blend.evaporation_as_it_dries(100).unwrap().overall_rate.best.si();
    println!("{}: engine {engine:.3}, closed form {closed:.3}", blend.label());
    assert!((engine / closed).ln().abs() < 1.25_f64.ln(), "{}: {engine} and {closed}", blend.label());
}
