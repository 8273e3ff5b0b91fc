use super::*;

fn one(name: &str) -> Blend {
    Blend::from_names(&[(name, 1.0)], Basis::Volume, None).unwrap()
}

fn paint(family: Family) -> Paint {
    Paint::typical(family, "club paint (invented)").unwrap()
}

// Common practice of the trade (US Army TM 43-0139 on thinners, read; the rest from memory): its own thinner dissolves,
// the wrong one curdles.
#[rstest::rstest]
#[case(Family::SolventLacquer, "n-butyl acetate", Verdict::Fine)]
#[case(Family::SolventLacquer, "white spirit", Verdict::No)]
#[case(Family::SolventLacquer, "water", Verdict::No)]
#[case(Family::AlkydEnamel, "white spirit", Verdict::Fine)]
#[case(Family::AlkydEnamel, "water", Verdict::No)]
#[case(Family::WaterborneAcrylic, "water", Verdict::TestFirst)]
#[case(Family::WaterborneAcrylic, "acetone", Verdict::No)]
fn thinners(#[case] family: Family, #[case] thinner: &str, #[case] verdict: Verdict) {
    let judged = thinner_with_paint(&paint(family), &one(thinner)).unwrap();
    assert_eq!(judged.verdict, verdict, "{judged}");
    assert!(!judged.trial.is_empty() && judged.cautions[0].contains("safety data sheets"));
    assert!(judged.reasons.iter().all(|r| crate::source::find(&r.source).is_ok()), "{judged}");
}

// A true solvent that leaves first and a diluent that stays throw cellulose nitrate out while the coat dries, though the
// fresh mix is clear: the reason why lacquer thinners end in a slow true solvent (common practice).
#[test]
fn the_last_solvent_counts() {
    let ends_badly = Blend::from_names(&[("acetone", 60.0), ("xylene", 40.0)], Basis::Volume, None).unwrap();
    let judged = thinner_with_paint(&paint(Family::SolventLacquer), &ends_badly).unwrap();
    assert_ne!(judged.verdict, Verdict::Fine, "{judged}");
    assert!(judged.reasons.iter().any(|r| r.text.contains("what is left when")), "{judged}");
}

// Immersions in a published study (CRREL SR 95-1): acetone, MEK dissolve ABS; acetone and toluene swell PVC.
#[rstest::rstest]
#[case("acetone", "polystyrene", Verdict::No)]
#[case("toluene", "polystyrene", Verdict::No)]
#[case("isopropanol", "polystyrene", Verdict::TestFirst)]
#[case("white spirit", "polystyrene", Verdict::TestFirst)]
#[case("water", "polystyrene", Verdict::Fine)]
#[case("acetone", "brass", Verdict::Fine)]
#[case("water", "card", Verdict::TestFirst)]
fn substrates(#[case] liquid: &str, #[case] material: &str, #[case] verdict: Verdict) {
    let judged = thinner_on_substrate(&one(liquid), material).unwrap();
    assert_eq!(judged.verdict, verdict, "{judged}");
}

#[test]
fn never_a_bare_yes_for_solvent_on_plastic() {
    for solvent in crate::solvent::Catalogue::builtin().unwrap().iter().filter(|s| s.id() != "water") {
        let Ok(blend) = Blend::new(vec![(solvent.clone(), 1.0)], Basis::Mass, None) else { continue };
        for material in ["polystyrene", "ABS", "resin"] {
            if let Ok(judged) = thinner_on_substrate(&blend, material) {
                assert_ne!(judged.verdict, Verdict::Fine, "{judged}");
            }
        }
    }
    let text = thinner_on_substrate(&one("acetone"), "polystirene").unwrap_err().to_string();
    assert!(text.contains("polystyrene"), "{text}");
}

#[rstest::rstest]
#[case(Family::SolventLacquer, "acetone", true, Verdict::Fine)]
#[case(Family::SolventLacquer, "water", true, Verdict::No)]
#[case(Family::WaterborneAcrylic, "water", true, Verdict::No)]
#[case(Family::WaterborneAcrylic, "isopropanol", true, Verdict::TestFirst)]
#[case(Family::AlkydEnamel, "white spirit", false, Verdict::Fine)]
#[case(Family::AlkydEnamel, "acetone", true, Verdict::TestFirst)]
fn cleaners(#[case] family: Family, #[case] cleaner: &str, #[case] dried: bool, #[case] verdict: Verdict) {
    let judged = cleaner_with_paint(&paint(family), &one(cleaner), dried).unwrap();
    assert_eq!(judged.verdict, verdict, "{judged}");
}

#[test]
fn tables_carry_sources_and_cautions() {
    let text =
        thinner_with_paint(&paint(Family::SolventLacquer), &one("white spirit")).unwrap().table().to_text();
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for part in ["RED", "Trial", "Source", "from memory", "safety data sheets"] {
        assert!(text.contains(part), "no {part:?} in {text}");
    }
}
