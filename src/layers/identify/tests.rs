use super::*;

fn share(found: &Identification, name: &str) -> f64 {
    found.candidates().iter().find(|c| c.kind.name() == name).unwrap().likelihood.si()
}

// Common practice: which bottle it is when the signs are plain.
#[rstest::rstest]
#[case("waterborne acrylic", &[("thinner named on the label", "water"), ("drop in water", "spreads into a milk")])]
#[case("alcohol acrylic", &[("smell", "alcohol"), ("alcohol rub", "film dissolves within a few strokes")])]
#[case("solvent lacquer", &[("smell", "nail varnish or pear drops"), ("hot-solvent rub", "film dissolves within a few strokes")])]
#[case("alkyd enamel", &[("smell", "white spirit or turpentine"), ("alcohol rub", "nothing comes off")])]
#[case("artists' oil", &[("smell", "linseed or nuts"), ("drop in water", "floats as oily drops")])]
fn plain_signs(#[case] kind: &str, #[case] signs: &[(&str, &str)]) {
    let mut clues = Identify::new();
    for (test, answer) in signs {
        clues = clues.test(test, answer).unwrap();
    }
    let found = clues.run().unwrap();
    assert_eq!(found.best().kind.name(), kind, "{:?}", found.candidates());
    assert!(found.best().likelihood.si() > 0.6);
    let sum: f64 = found.candidates().iter().map(|c| c.likelihood.si()).sum();
    approx::assert_relative_eq!(sum, 1.0, max_relative = 1e-12);
}

// A "lacquer" may be sold as acrylic, an alcohol paint as water-based: the label alone does not settle it, a drop in
// water turns it.
#[test]
fn labels_mislead() {
    let label = Identify::new().label("Acrylic paint, water-based").unwrap();
    assert!(!label.run().unwrap().is_settled());
    let told = label.test("drop in water", "clouds, then strings or crumbs").unwrap();
    let told = told.test("smell", "alcohol").unwrap().run().unwrap();
    assert_eq!(told.best().kind, Kind::Family(Family::AlcoholAcrylic));
    let lacquer = Identify::new().label("acrylic LACQUER").unwrap().run().unwrap();
    assert_eq!(lacquer.best().kind, Kind::Family(Family::SolventLacquer));
    assert!(lacquer.clues().iter().any(|c| c.contains("any glossy paint")));
}

#[test]
fn two_packs_raise_the_alarm_and_are_not_smelled() {
    let found = Identify::new().label("2K clear, mix with hardener").unwrap().run().unwrap();
    assert_eq!(found.best().kind, Kind::IsocyanateTwoPack);
    assert!(found.best().kind.family().is_none());
    assert!(found.cautions()[0].contains("do not spray it at home"));
    assert!(found.tests_left().iter().all(|t| t.name != "smell"));
    let harmless = Identify::new().test("drop in water", "spreads into a milk").unwrap().run().unwrap();
    assert!(harmless.cautions().iter().all(|c| !c.contains("isocyanate")));
    assert!(harmless.cautions().iter().any(|c| c.contains("safety data sheet")));
}

/// Worked by hand: two kinds would be left at one half each by an answer that fits no other; the expected information of
/// a test cannot exceed the uncertainty there is, and a test that was made is not offered again.
#[test]
fn next_test_is_the_most_telling() {
    let all = Identify::tests().unwrap();
    assert_eq!(all.len(), 5);
    assert!(all.windows(2).all(|p| p[0].expected_bits >= p[1].expected_bits));
    let start = uncertainty_bits(&table().unwrap().bench);
    // -Σ P log2 P of 0.38, 0.20, 0.17, 0.15, 0.05, 0.05.
    approx::assert_abs_diff_eq!(start, 2.2722, epsilon = 1e-3);
    assert!(all.iter().all(|t| t.expected_bits < start && t.expected_bits > 0.0));
    let found = Identify::new().test("Drop in water", "Spreads into a milk").unwrap().run().unwrap();
    assert!(found.tests_left().iter().all(|t| t.name != "drop in water"));
    // The expected information is the mean over the answers of what each would leave: by chain rule the uncertainty
    // after the likeliest answer must be below what was there.
    assert!(uncertainty_bits(&Kind::ALL.map(|k| share(&found, k.name()))) < start);
}

#[test]
fn bad_clues_are_refused_with_near_names() {
    let text = Identify::new().test("drop of water", "milk").unwrap_err().to_string();
    assert!(text.contains("drop in water"), "{text}");
    let text = Identify::new().test("smell", "alcohl").unwrap_err().to_string();
    assert!(text.contains("alcohol"), "{text}");
    assert!(Identify::new().label("hull green").unwrap_err().to_string().contains("leave it out"));
    assert!(Identify::new().run().unwrap_err().to_string().contains("drop in water"));
    assert!(read("schema = 1").is_err());
    assert!(read(&TEXT.replace("bench = [0.38", "bench = [0.48")).is_err());
}

#[test]
fn json_and_table() {
    let found = Identify::new().label("enamel").unwrap().run().unwrap();
    let json = serde_json::to_string(&found).unwrap();
    assert_eq!(serde_json::from_str::<Identification>(&json).unwrap(), found);
    assert!(serde_json::from_str::<Kind>("\"alkyd\"").is_err());
    let text = found.table().to_text();
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for part in
        ["alkyd enamel", "Next, the most telling test", "judgement", "common practice", "safety data sheet"]
    {
        assert!(text.contains(part), "no {part:?} in {text}");
    }
}
