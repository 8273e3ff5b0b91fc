//! Names people type, files people write, and what happens when they are wrong.

use super::{si, t};
use mistcoat::Error;
use mistcoat::solvent::{Catalogue, Solvent, find};

const LEAN: &str = r#"[[solvent]]
name = "shed thinner"
synonyms = ["the blue can"]
source = "label of the can"
formula = "C7H14O2"
boiling_point = { value = "140 °C" }
density = { at_20C = "0.86 g/mL", per_kelvin = "-0.9 kg/m3" }
viscosity = { readings = [{ at = "20 °C", value = "0.8 mPa.s" }] }
surface_tension = { at_20C = "25 mN/m" }
vapour_pressure = { form = "point-and-boiling-point", point = { at = "20 °C", value = "600 Pa" } }
"#;

#[rstest::rstest]
#[case("N-Butyl Acetate", "n-butyl acetate")]
#[case("n butylacetate", "n-butyl acetate")]
#[case("2-Propanol", "isopropanol")]
#[case("IPA", "isopropanol")]
#[case("mek", "methyl ethyl ketone")]
#[case("n_butyl_acetate", "n-butyl acetate")]
#[case("mineral spirits", "white spirit")]
#[case("Xylene", "mixed xylenes")]
#[case("pgmea", "1-methoxy-2-propyl acetate")]
fn names_people_type(#[case] typed: &str, #[case] name: &str) {
    assert_eq!(find(typed).unwrap().name(), name);
}

#[rstest::rstest]
#[case("acetne", "acetone")]
#[case("buthyl acetate", "butyl acetate")]
#[case("tolune", "toluene")]
fn near_names(#[case] typed: &str, #[case] near: &str) {
    let text = find(typed).unwrap_err().to_string();
    assert!(
        text.contains(&format!("{typed:?}")) && text.contains(near) && text.contains("catalogue"),
        "{text}"
    );
}

#[test]
fn all_names_find_their_solvent() {
    for s in Catalogue::builtin().unwrap().iter() {
        for name in s.synonyms().iter().map(String::as_str).chain([s.name(), s.id()]) {
            assert_eq!(find(name).unwrap(), *s, "{name}");
        }
    }
}

#[rstest::rstest]
#[case("acetone", "90 °C", "60 °C")]
#[case("acetone", "-5 °C", "0 °C")]
#[case("p-xylene", "10 °C", "13.3 °C")]
fn temperature_out_of_range(#[case] name: &str, #[case] at: &str, #[case] limit: &str) {
    let s = find(name).unwrap();
    for text in [
        s.density(t(at)).unwrap_err().to_string(),
        s.viscosity(t(at)).unwrap_err().to_string(),
        s.surface_tension(t(at)).unwrap_err().to_string(),
    ] {
        assert!(text.contains(at) && text.contains("allowed is") && text.contains(name), "{text}");
        assert!(text.contains(limit) || text.contains("54.9 °C"), "{text}"); // acetone boils at 56 °C
    }
    let nan: mistcoat::quantity::Temperature = mistcoat::quantity::Quantity::from_si(f64::NAN);
    assert!(matches!(s.vapour_pressure(nan), Err(Error::Range(_))));
    assert!(matches!(s.diffusivity(nan), Err(Error::Range(_))));
}

#[test]
fn a_lean_record_is_enough_and_says_what_it_guesses() {
    let mine = Catalogue::from_toml(LEAN, "mine.toml").unwrap();
    let s = mine.find("The Blue Can").unwrap();
    let close = |a: f64, b: f64, tol: f64| assert!((a / b - 1.0).abs() < tol, "{a} {b}");
    close(si(s.molar_mass()), 0.130_187, 1e-4); // n-amyl acetate has this formula
    close(si(s.vapour_pressure(t("20 °C")).unwrap().best), 600.0, 1e-9);
    close(si(s.viscosity(t("20 °C")).unwrap().best), 0.8e-3, 0.02);
    let amyl = find("n-amyl acetate").unwrap();
    let of =
        |s: &Solvent| si(s.viscosity(t("40 °C")).unwrap().best) / si(s.viscosity(t("20 °C")).unwrap().best);
    close(of(&s), of(&amyl), 0.05); // Lewis and Squires against measured temperatures
    close(s.kernel().diffusivity_m2_s(298.15), amyl.kernel().diffusivity_m2_s(298.15), 1e-3);
    assert_eq!(s.source("melting_point").unwrap().unwrap().keys, ["EST_TM"]);
    assert_eq!(s.source("density").unwrap().unwrap().citations, ["label of the can"]);
    assert!(s.flash_point().is_none() && s.relative_evaporation_rate().is_none());
}

#[test]
fn own_solvents_lie_over_the_built_in_ones() {
    let mine = Catalogue::from_toml(&LEAN.replace("the blue can", "IPA"), "mine.toml").unwrap();
    let builtin = Catalogue::builtin().unwrap();
    let all = builtin.with(&mine);
    assert_eq!(all.len(), builtin.len() + 1);
    assert_eq!(all.find("ipa").unwrap().name(), "shed thinner");
    assert_eq!(all.find("isopropanol").unwrap().name(), "isopropanol");
    assert_eq!(all.iter().last().unwrap().name(), "shed thinner");
    for s in builtin.iter() {
        assert_eq!(all.find(s.name()).unwrap(), *s);
    }
    let again = all.with(&mine);
    assert_eq!(again, all);
}

#[test]
fn cuts_of_ones_own() {
    let cut = LEAN.replace(
        "source =",
        "surrogate = { mole_fractions = { \"n-octane\" = 0.5, toluene = 0.5 } }\nsource =",
    );
    let s = Catalogue::from_toml(&cut, "mine.toml").unwrap().find("shed thinner").unwrap();
    assert!(s.is_cut() && s.surrogate().len() == 2);
    let json = serde_json::to_string(&s).unwrap();
    assert_eq!(serde_json::from_str::<Solvent>(&json).unwrap(), s);
}

#[test]
fn json_round_trip() {
    let json = serde_json::to_string(&find("toluene").unwrap()).unwrap();
    assert_eq!(json, "\"toluene\"");
    for s in Catalogue::builtin().unwrap().iter() {
        let json = serde_json::to_string(s).unwrap();
        assert_eq!(serde_json::from_str::<Solvent>(&json).unwrap(), *s);
    }
    let own = Catalogue::from_toml(LEAN, "mine.toml").unwrap().find("shed thinner").unwrap();
    let json = serde_json::to_string(&own).unwrap();
    assert_eq!(serde_json::from_str::<Solvent>(&json).unwrap(), own);
    assert!(serde_json::from_str::<Solvent>("\"acetne\"").unwrap_err().to_string().contains("acetone"));
}

/// What is wrong, what the message must say, and the line it must name (0: none).
#[rstest::rstest]
#[case::empty("", &["empty", "[[solvent]]"], 0)]
#[case::blank(" \n\n", &["empty"], 0)]
#[case::not_toml("[[solvent", &["mine.toml"], 1)]
#[case::no_solvent("x = 1", &["unknown field"], 1)]
#[case::missing(&LEAN.replace("formula = \"C7H14O2\"\n", ""), &["formula"], 1)]
#[case::unknown_field(&LEAN.replace("formula =", "formule ="), &["formule"], 5)]
#[case::wrong_unit(&LEAN.replace("0.86 g/mL", "0.86 g"), &["g/mL", "density"], 7)]
#[case::no_unit(&LEAN.replace("\"0.86 g/mL\"", "0.86"), &["density", "unit"], 7)]
#[case::negative(&LEAN.replace("0.86 g/mL", "-0.86 g/mL"), &["-0.86 g/mL", "0.4 g/mL", "check"], 7)]
#[case::not_finite(&LEAN.replace("0.86 g/mL", "nan g/mL"), &["finite"], 7)]
#[case::heavy(&LEAN.replace("0.86 g/mL", "8600 g/mL"), &["allowed is", "3 g/mL"], 7)]
#[case::grows_denser(&LEAN.replace("-0.9 kg", "0.9 kg"), &["density", "allowed is", "sign"], 7)]
#[case::thick(&LEAN.replace("0.8 mPa.s", "0.8 MPa"), &["viscosity"], 8)]
#[case::viscosity_nothing(&LEAN.replace("readings = [{ at = \"20 °C\", value = \"0.8 mPa.s\" }]", "ln_a = 1.0"), &["ln_a and b"], 8)]
#[case::two_close(&LEAN.replace("}] }", "}, { at = \"21 °C\", value = \"0.79 mPa.s\" }] }"), &["3 K apart"], 8)]
#[case::pressure(&LEAN.replace("600 Pa", "600 kPa"), &["600 kPa", "allowed is"], 10)]
#[case::coefficients(&LEAN.replace("form = \"point-and-boiling-point\", point = { at = \"20 °C\", value = \"600 Pa\" }", "form = \"antoine-log10\", coefficients = [1.0]"), &["3 coefficients", "1 coefficients given"], 10)]
#[case::form(&LEAN.replace("point-and-boiling-point", "antoin"), &["antoin", "antoine-log10"], 10)]
#[case::formula(&LEAN.replace("C7H14O2", "Xy2"), &["Xy2", "C6H12O2"], 5)]
#[case::molar_mass(&LEAN.replace("formula", "molar_mass = { value = \"90 g/mol\" }\nformula"), &["90 g/mol", "130.19 g/mol"], 5)]
#[case::flash(&format!("{LEAN}flash_point = {{ value = \"150 °C\" }}\n"), &["150 °C", "140 °C", "safety data sheet"], 11)]
#[case::limits(&format!("{LEAN}lower_flammable_limit = {{ value = \"5 %\" }}\nupper_flammable_limit = {{ value = \"2 %\" }}\n"), &["2 %", "5 %"], 12)]
#[case::fractions(&LEAN.replace("source =", "surrogate = { mole_fractions = { toluene = 0.7 } }\nsource ="), &["0.7", "allowed is 1"], 4)]
#[case::component(&LEAN.replace("source =", "surrogate = { mole_fractions = { tolune = 1.0 } }\nsource ="), &["tolune", "toluene"], 4)]
#[case::twice(&format!("{LEAN}{LEAN}"), &["shed thinner", "taken"], 12)]
#[case::nameless(&LEAN.replace("shed thinner", " -"), &["empty"], 2)]
#[case::antoine(&format!("{LEAN}antoine = {{ a = 10.0, b = 1500.0, c = -50.0 }}\n"), &["antoine", "1 %"], 11)]
#[case::rate(&format!("{LEAN}evaporation_rates = [{{ value = -1.0, scale = \"n-butyl acetate = 1\" }}]\n"), &["-1", "more than 0"], 11)]
#[case::exposure(&format!("{LEAN}exposure_limits = [{{ name = \"x\", over = \"8 h\", value = \"200\" }}]\n"), &["200 ppm"], 11)]
fn bad_files(#[case] text: &str, #[case] says: &[&str], #[case] line: usize) {
    let Err(Error::Data(e)) = Catalogue::from_toml(text, "mine.toml") else { panic!("accepted") };
    let message = e.to_string();
    for part in says {
        assert!(message.contains(part), "{part:?} is not in: {message}");
    }
    assert_eq!(e.file, "mine.toml");
    assert_eq!(e.line.unwrap_or(0), line, "{message}");
    assert!(!e.remedy.is_empty());
}

#[test]
fn files_on_disk() {
    let folder = std::env::temp_dir().join(format!("mistcoat-solvents-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let path = folder.join("mine.toml");
    std::fs::write(&path, LEAN).unwrap();
    assert_eq!(Catalogue::load(&path).unwrap().len(), 1);
    std::fs::write(&path, [0xff, 0xfe, 0x00]).unwrap();
    assert!(Catalogue::load(&path).unwrap_err().to_string().contains("UTF-8"));
    std::fs::write(&path, "#".repeat(3_000_000)).unwrap();
    let text = Catalogue::load(&path).unwrap_err().to_string();
    assert!(text.contains("2000000") && text.contains("split"), "{text}");
    std::fs::remove_dir_all(&folder).unwrap();
    let text = Catalogue::load(&path).unwrap_err().to_string();
    assert!(text.contains("mine.toml") && text.contains("check path"), "{text}");
}

proptest::proptest! {
    #[test]
    fn no_text_makes_it_panic(text in "\\PC{0,200}") {
        let _ = Catalogue::from_toml(&text, "any");
        let _ = Catalogue::from_toml(&format!("[[solvent]]\n{text}"), "any");
        let _ = Catalogue::from_toml(&LEAN.replace("0.86 g/mL", &text), "any");
        let _ = find(&text);
    }
}
