//! Blends against published tables, bad input, and what must hold for any recipe.
#![allow(clippy::unwrap_used, reason = "a failed test panics")]

use mistcoat::blend::{Basis, Blend, hansen, unifac::Table};
use mistcoat::quantity::{
    DynamicViscosity, Number, Quantity, SolubilityParameter, SurfaceTension, Temperature, of, parse, to,
};
use mistcoat::solvent::{self, EvaporationClass};
use mistcoat::{Error, source};
use proptest::prelude::*;
use rstest::rstest;
use serde::Deserialize;

fn read<T: for<'a> Deserialize<'a>>(file: &str) -> Vec<T> {
    let path = format!("{}/tests/data/{file}", env!("CARGO_MANIFEST_DIR"));
    csv::Reader::from_path(path).unwrap().deserialize().map(Result::unwrap).collect()
}

fn celsius(t: f64) -> Temperature {
    of(t, "°C").unwrap()
}

fn blend(parts: &[(&str, f64)], basis: Basis) -> Blend {
    Blend::from_names(parts, basis, None).unwrap()
}

fn by_mass(parts: &[(&str, f64)]) -> Blend {
    blend(parts, Basis::Mass)
}

const HOUSE: [(&str, f64); 3] = [("acetone", 50.0), ("n-butyl acetate", 35.0), ("2-butoxyethanol", 15.0)];

// ---------------------------------------------------------------- published tables

#[derive(Debug, Deserialize)]
#[allow(non_snake_case, reason = "column names with units")]
struct ViscosityRow {
    temperature_C: f64,
    ethanol_mass_percent: f64,
    viscosity_mPa_s: f64,
}

/// The excess was fitted to this table, so this shows the quality of the fit, and that the interval of
/// an aqueous blend holds.
#[test]
fn ethanol_water_viscosity_follows_bingham_and_jackson() {
    let rows: Vec<ViscosityRow> = read("ethanol_water_viscosity.csv");
    let (mut worst, mut inside, mut count) = (0.0_f64, 0, 0);
    for r in rows.iter().filter(|r| r.ethanol_mass_percent > 0.0 && r.ethanol_mass_percent < 100.0) {
        let w = r.ethanol_mass_percent;
        let answer =
            by_mass(&[("ethanol", w), ("water", 100.0 - w)]).viscosity(celsius(r.temperature_C)).unwrap();
        let published: DynamicViscosity = of(r.viscosity_mPa_s, "mPa.s").unwrap();
        worst = worst.max((answer.best().si() / published.si() - 1.0).abs());
        inside += usize::from((answer.estimate.low..=answer.estimate.high).contains(&published));
        count += 1;
        assert!(answer.warnings.iter().any(|w| w.code == "aqueous-viscosity"), "{r:?}");
    }
    println!("largest error {:.1} %, {inside} of {count} inside the interval", worst * 100.0);
    assert!(worst < 0.135, "{worst}");
    assert_eq!((inside, count), (63, 63));
}

#[derive(Debug, Deserialize)]
#[allow(non_snake_case, reason = "column names with units")]
struct SurfaceRow {
    solvent: String,
    mass_percent: f64,
    surface_tension_mN_m: f64,
}

/// Both published tables (25 °C); the plain rule is 25 % and 50 % off here.
#[test]
fn aqueous_surface_tension_within_its_claim() {
    for r in read::<SurfaceRow>("aqueous_surface_tension.csv") {
        let w = r.mass_percent;
        let answer =
            by_mass(&[(&r.solvent, w), ("water", 100.0 - w)]).surface_tension(celsius(25.0)).unwrap();
        let published: SurfaceTension = of(r.surface_tension_mN_m, "mN/m").unwrap();
        let error = answer.best().si() / published.si() - 1.0;
        println!("{} {w} %: {:+.1} %", r.solvent, error * 100.0);
        assert!((-0.07..0.16).contains(&error), "{r:?} {error}");
        if w > 0.0 && w < 100.0 {
            assert!((answer.estimate.low..=answer.estimate.high).contains(&published), "{r:?}");
        }
    }
}

/// Density of ethanol and water at 20 °C, OIML alcoholometric table (from memory): the interval must hold the
/// contraction that the rule neglects.
#[rstest]
#[case(20.0, 968.6)]
#[case(40.0, 935.2)]
#[case(50.0, 913.8)]
#[case(60.0, 891.1)]
#[case(80.0, 843.4)]
fn contraction_lies_inside_the_interval(#[case] percent: f64, #[case] kg_m3: f64) {
    let answer = by_mass(&[("ethanol", percent), ("water", 100.0 - percent)]).density(celsius(20.0)).unwrap();
    let low = answer.best().si() / kg_m3 - 1.0;
    assert!((-0.037..-0.01).contains(&low), "ideal volumes are {low} off");
    assert!(answer.estimate.high.si() > kg_m3);
    assert!(answer.warnings.iter().any(|w| w.code == "aqueous-contraction"));
}

#[derive(Debug, Deserialize)]
#[allow(non_snake_case, reason = "column names with units")]
struct FlashRow {
    ethanol_volume_percent: f64,
    flash_point_C: f64,
}

#[test]
fn ethanol_water_flash_points() {
    let rows: Vec<FlashRow> = read("ethanol_water_flash_point.csv");
    let errors: Vec<f64> = rows
        .iter()
        .map(|r| {
            let v = r.ethanol_volume_percent;
            let b = blend(&[("ethanol", v), ("water", 100.0 - v)], Basis::Volume);
            assert_eq!(b.activity().table(), Some(Table::Dortmund));
            to(b.flash_point().unwrap().unwrap().best(), "°C").unwrap() - r.flash_point_C
        })
        .collect();
    let mean = errors.iter().map(|e| e.abs()).sum::<f64>() / errors.len() as f64;
    println!("mean error {mean:.2} K, {errors:.1?}");
    // 1.3 K was found with an independent implementation and slightly different vapour pressures.
    assert_eq!(errors.len(), 11);
    assert!(mean < 1.5, "{mean}");
}

/// Independent implementation with flash points -20, 22 and 67 °C of the parts: -14.1 °C fresh, 26.4 °C
/// once the acetone has gone. The catalogue has -18, 22 and 62 °C, so 2 K apart are allowed.
#[test]
fn thinner_flash_point_rises_once_the_acetone_has_gone() {
    let fresh = by_mass(&HOUSE).flash_point().unwrap().unwrap();
    let aged = by_mass(&[("n-butyl acetate", 70.0), ("2-butoxyethanol", 30.0)]);
    let aged = aged.flash_point().unwrap().unwrap();
    let (fresh_c, aged_c) = (to(fresh.best(), "°C").unwrap(), to(aged.best(), "°C").unwrap());
    assert!((fresh_c + 14.1).abs() < 2.2 && (aged_c - 26.4).abs() < 1.0, "{fresh_c} {aged_c}");
    assert!(fresh.warnings.iter().any(|w| w.message.contains("safety data sheet")));
}

/// A liquid alone has its own published flash point, a cut included; water has none.
#[rstest]
#[case("acetone")]
#[case("white spirit")]
#[case("gum turpentine")]
fn flash_point_of_one_liquid_is_its_own(#[case] name: &str) {
    let own = solvent::find(name).unwrap().flash_point().unwrap().value;
    let of_blend = by_mass(&[(name, 1.0)]).flash_point().unwrap().unwrap();
    assert_eq!(of_blend.best(), own);
    assert!(by_mass(&[("water", 1.0)]).flash_point().unwrap().is_none());
}

/// Known at 25 °C from handbook solubilities; the white spirit and methanol pair from memory.
#[rstest]
#[case("water", "n-butyl acetate", true)]
#[case("water", "toluene", true)]
#[case("white spirit", "methanol", true)]
#[case("water", "dimethyl carbonate", true)]
#[case("water", "mixed xylenes", true)]
#[case("water", "gum turpentine", true)]
#[case("propylene glycol", "toluene", true)]
#[case("acetone", "water", false)]
#[case("ethanol", "water", false)]
#[case("2-butoxyethanol", "water", false)]
#[case("diacetone alcohol", "water", false)]
#[case("white spirit", "acetone", false)]
#[case("white spirit", "turpentine", false)]
#[case("n-butyl acetate", "toluene", false)]
fn known_pairs_split_or_mix(#[case] a: &str, #[case] b: &str, #[case] splits: bool) {
    let even = by_mass(&[(a, 1.0), (b, 1.0)]);
    let phases = even.phases(celsius(25.0)).unwrap();
    assert_eq!(!phases.is_one(), splits, "{phases:?}");
    source::find(&phases.source).unwrap();
    assert_eq!(even.require_one_liquid(celsius(25.0)).is_err(), splits);
}

/// Measured limits of the table (from memory, 25 °C): does the model see each split by itself, and how far are
/// its solubilities in water off? A trace of a third liquid keeps the measured list out of it.
#[rstest]
#[case("n-butanol", 7.4)]
#[case("methyl ethyl ketone", 24.0)]
#[case("ethyl acetate", 7.9)]
#[case("methyl isobutyl ketone", 1.8)]
#[case("n-butyl acetate", 0.68)]
#[case("toluene", 0.052)]
fn model_sees_the_measured_splits(#[case] name: &str, #[case] percent: f64) {
    let b = by_mass(&[(name, 50.0), ("water", 50.0), ("n-decane", 1e-6)]);
    let phases = b.phases(celsius(25.0)).unwrap();
    assert_eq!(phases.source, "MICHELSEN82");
    let aqueous = phases.liquids.iter().find(|l| l.rich_in == "water").unwrap();
    let factor = aqueous.mass_fractions[0] * 100.0 / percent;
    println!("{name}: {factor:.2} times the measured solubility");
    assert!((1.0 / 3.0..3.0).contains(&factor), "{factor}");
}

/// Equilibrium means equal activities, and the two liquids make up the blend.
#[test]
fn two_liquids_are_in_equilibrium_and_close_the_balance() {
    let b = by_mass(&[("water", 45.0), ("n-butanol", 30.0), ("toluene", 25.0)]);
    let phases = b.phases(celsius(25.0)).unwrap();
    let [one, two] = phases.liquids.as_slice() else { panic!("it splits") };
    let (mut scratch, mut g1, mut g2) = (b.activity().scratch(), [0.0; 3], [0.0; 3]);
    b.activity().ln_gamma(298.15, &one.mole_fractions, &mut scratch, &mut g1);
    b.activity().ln_gamma(298.15, &two.mole_fractions, &mut scratch, &mut g2);
    for i in 0..3 {
        let (a1, a2) = (one.mole_fractions[i].ln() + g1[i], two.mole_fractions[i].ln() + g2[i]);
        approx::assert_abs_diff_eq!(a1, a2, epsilon = 1e-7);
        let total = one.share_of_mass * one.mass_fractions[i] + two.share_of_mass * two.mass_fractions[i];
        approx::assert_abs_diff_eq!(total, b.ingredients()[i].mass_fraction, epsilon = 1e-7);
    }
}

#[test]
fn split_names_temperature_parts_and_remedy() {
    let b = Blend::from_names(&[("water", 1.0), ("toluene", 1.0)], Basis::Volume, Some("shed mix")).unwrap();
    let e = b.require_one_liquid(celsius(25.0)).unwrap_err();
    assert!(matches!(e, Error::PhaseSplit(_)));
    let text = e.to_string();
    for part in ["shed mix", "25 °C", "water", "toluene", "add a solvent that mixes with both"] {
        assert!(text.contains(part), "{part:?} is missing in {text}");
    }
    // Values that assume one liquid are refused in the same words.
    let t = celsius(25.0);
    for refused in [
        b.partial_pressures(t).unwrap_err(),
        b.vapour_pressure(t).unwrap_err(),
        b.viscosity(t).unwrap_err(),
        b.kinematic_viscosity(t).unwrap_err(),
        b.surface_tension(t).unwrap_err(),
        b.relative_evaporation_rate().unwrap_err(),
        b.evaporation_class().unwrap_err(),
        b.evaporation_as_it_dries(10).unwrap_err(),
    ] {
        assert_eq!(refused, e);
    }
    // The flash point is given all the same, with a warning: it is asked for safety's sake.
    assert!(b.flash_point().unwrap().unwrap().warnings.iter().any(|w| w.code == "blend-splits"));
}

/// Acetone to PVC: 6.27 from rounded parameters (15.5/10.4/7.0 and 18.2/7.5/8.3), by the equation itself.
#[test]
fn hansen_distance_and_red() {
    let mpa = |v: f64| -> SolubilityParameter { of(v, "MPa^0.5").unwrap() };
    let acetone = solvent::Hansen { d: mpa(15.5), p: mpa(10.4), h: mpa(7.0) };
    let pvc = solvent::Hansen { d: mpa(18.2), p: mpa(7.5), h: mpa(8.3) };
    approx::assert_abs_diff_eq!(
        to(hansen::distance(&acetone, &pvc), "MPa^0.5").unwrap(),
        6.27,
        epsilon = 0.01
    );
    // Practice (from memory): toluene dissolves polystyrene, methanol leaves it alone.
    assert!(by_mass(&[("toluene", 1.0)]).red("polystyrene").unwrap().red.si() < 1.0);
    assert!(by_mass(&[("methanol", 1.0)]).red("Polystyrene").unwrap().red.si() > 1.5);
    let e = by_mass(&HOUSE).red("linseed oil (liquid)").unwrap_err().to_string();
    assert!(e.contains("radius") && e.contains("test on scrap"), "{e}");
    let e = by_mass(&HOUSE).red("polystyren").unwrap_err().to_string();
    assert!(e.contains("did you mean \"polystyrene\""), "{e}");
    for p in hansen::polymers().unwrap() {
        source::find(&p.source).unwrap();
    }
}

// ---------------------------------------------------------------- evaporation

/// A pure liquid must give the prediction of the solvent itself.
#[rstest]
#[case("acetone")]
#[case("ethanol")]
#[case("n-butyl acetate")]
#[case("2-butoxyethanol")]
#[case("water")]
fn rate_of_a_liquid_alone_is_its_predicted_rate(#[case] name: &str) {
    let own = solvent::find(name).unwrap().predicted_relative_evaporation_rate().unwrap();
    let ours = by_mass(&[(name, 1.0)]).relative_evaporation_rate().unwrap();
    approx::assert_relative_eq!(ours.best().si(), own.best.si(), max_relative = 1e-4);
    let table = by_mass(&[(name, 1.0)]).evaporation_as_it_dries(10).unwrap();
    approx::assert_relative_eq!(table.overall_rate.best.si(), own.best.si(), max_relative = 1e-3);
}

/// Published rates of cuts (data sheets and IPCS Environmental Health Criteria 187) against the loss of 90 % of
/// the surrogate. VM&P naphtha's surrogate was chosen with its rate in mind and is no test.
#[rstest]
#[case("mixed xylenes", 0.66)]
#[case("white spirit", 0.13)]
#[case("mineral spirits, low aromatic", 0.15)]
#[case("gum turpentine", 0.34)]
fn cuts_dry_at_their_published_rate(#[case] name: &str, #[case] published: f64) {
    let table = by_mass(&[(name, 1.0)]).evaporation_as_it_dries(10).unwrap();
    let ratio = table.overall_rate.best.si() / published;
    println!("{name}: {ratio:.2} of published");
    // The claim of the model on single solvents: nine of ten within 27 %.
    assert!((1.0 / 1.27..1.27).contains(&ratio), "{ratio}");
}

#[test]
fn house_thinner_ends_slow() {
    let table = by_mass(&HOUSE).evaporation_as_it_dries(20).unwrap();
    assert_eq!((table.class_fresh, table.class_at_90), (EvaporationClass::Fast, EvaporationClass::Slow));
    assert_eq!(table.rows.len(), 20);
    for pair in table.rows.windows(2) {
        assert!(pair[1].time > pair[0].time && pair[1].relative_rate < pair[0].relative_rate);
        approx::assert_abs_diff_eq!(pair[1].mass_lost - pair[0].mass_lost, 0.05, epsilon = 1e-12);
        approx::assert_abs_diff_eq!(pair[1].residue.iter().sum::<f64>(), 1.0, epsilon = 1e-12);
    }
    // By the film model of an independent implementation the acetone is gone at half loss: 0/42/54/4 of
    // acetone, n-butyl acetate, 2-butoxyethanol and water at 75 %.
    let at_75 = &table.rows[15];
    assert!(at_75.residue[0] < 0.01 && (at_75.residue[1] - 0.44).abs() < 0.05, "{at_75:?}");
}

/// The ideal law has an exact solution: with constant κ the total time is the sum of those of the parts. n-Hexane
/// and n-heptane are as good as ideal and slow enough to keep the face temperature within a few kelvin.
#[test]
fn drying_time_lies_between_the_parts() {
    let time = |parts: &[(&str, f64)]| {
        let t = by_mass(parts).evaporation_as_it_dries(10).unwrap();
        1.0 / t.overall_rate.best.si()
    };
    let (fast, slow) = (time(&[("n-octane", 1.0)]), time(&[("n-decane", 1.0)]));
    let mixed = time(&[("n-octane", 1.0), ("n-decane", 1.0)]);
    assert!(fast < mixed && mixed < slow, "{fast} {mixed} {slow}");
}

// ---------------------------------------------------------------- table choice

#[rstest]
#[case(&[("ethanol", 1.0), ("water", 1.0)], Some(Table::Dortmund))]
#[case(&[("ethanol", 1.0), ("water", 1.0), ("acetone", 1.0)], Some(Table::Dortmund))]
#[case(&[("2-butoxyethanol", 1.0), ("water", 1.0)], Some(Table::Original))]
#[case(&[("ethanol", 1.0), ("1-methoxy-2-propanol", 1.0), ("water", 1.0)], Some(Table::Original))]
#[case(&[("dipropylene glycol methyl ether", 1.0), ("water", 1.0)], Some(Table::Original))]
#[case(&[("acetone", 1.0), ("water", 1.0)], Some(Table::Original))]
#[case(&[("ethanol", 1.0), ("toluene", 1.0)], Some(Table::Original))]
fn automatic_table(#[case] parts: &[(&str, f64)], #[case] table: Option<Table>) {
    let b = by_mass(parts);
    assert_eq!(b.activity().table(), table);
    assert!(!b.activity().reason().is_empty());
}

#[test]
fn missing_parameters_are_said() {
    let b = by_mass(&[("2-butoxyethanol", 1.0), ("1-methoxy-2-propyl acetate", 1.0)]);
    let vapour = b.partial_pressures(celsius(20.0)).unwrap();
    let warning = vapour.warnings.iter().find(|w| w.code == "unifac-missing-pair").unwrap();
    assert!(warning.message.contains("CH2O with OCCOH") || warning.message.contains("OCCOH with CH2O"));
}

/// Groups of the catalogue and of the reference file are the same, so the comparison with `thermo` holds for
/// blends made by name.
#[test]
fn catalogue_has_the_groups_that_were_compared() {
    #[derive(Deserialize)]
    #[allow(non_snake_case, reason = "column names with units")]
    struct Row {
        blend: usize,
        table: Table,
        temperature_C: f64,
        solvent: String,
        mole_fraction: f64,
        gamma: f64,
    }
    let rows: Vec<Row> = read("unifac_reference.csv");
    for group in rows.chunk_by(|a, b| a.blend == b.blend) {
        let parts: Vec<(&str, f64)> = group.iter().map(|r| (r.solvent.as_str(), r.mole_fraction)).collect();
        let gamma = blend(&parts, Basis::Mole)
            .activity_coefficients(celsius(group[0].temperature_C), Some(group[0].table))
            .unwrap();
        for ((name, g), row) in gamma.iter().zip(group) {
            assert_eq!(*name, row.solvent);
            approx::assert_relative_eq!(*g, row.gamma, max_relative = 1e-6);
        }
    }
}

// ---------------------------------------------------------------- bad input

#[rstest]
#[case::empty(&[], &["total amount of the blend is 0", "more than 0", "name at least one solvent"])]
#[case::zero(&[("acetone", 0.0)], &["total amount of the blend is 0", "more than 0", "name at least one"])]
#[case::negative(&[("acetone", -1.0)], &["mass of acetone is -1", "0 or more", "share of the recipe"])]
#[case::nan(&[("acetone", f64::NAN)], &["mass of acetone is NaN", "0 or more", "share of the recipe"])]
#[case::infinite(&[("acetone", f64::INFINITY)], &["mass of acetone is inf", "finite", "share of the recipe"])]
#[case::unknown(&[("acetne", 1.0)], &["unknown solvent \"acetne\"", "did you mean \"acetone\""])]
#[case::huge(&[("acetone", 1e308), ("toluene", 1e308)], &["total amount of the blend is inf", "finite"])]
fn bad_recipes_are_refused(#[case] parts: &[(&str, f64)], #[case] expected: &[&str]) {
    let text = Blend::from_names(parts, Basis::Mass, None).unwrap_err().to_string();
    for part in expected {
        assert!(text.contains(part), "{part:?} is missing in {text}");
    }
}

#[rstest]
#[case(-40.0)]
#[case(120.0)]
#[case(f64::NAN)]
fn impossible_temperatures_are_refused(#[case] t: f64) {
    let b = by_mass(&HOUSE);
    let t = Temperature::from_si(t + 273.15);
    let errors = [
        b.density(t).unwrap_err(),
        b.viscosity(t).unwrap_err(),
        b.kinematic_viscosity(t).unwrap_err(),
        b.surface_tension(t).unwrap_err(),
        b.phases(t).unwrap_err(),
        b.require_one_liquid(t).unwrap_err(),
        b.partial_pressures(t).unwrap_err(),
        b.vapour_pressure(t).unwrap_err(),
        b.activity_coefficients(t, None).unwrap_err(),
    ];
    for e in errors {
        let text = e.to_string();
        assert!(text.contains("temperature of the blend is") && text.contains("-20 °C to 80 °C"), "{text}");
        assert!(text.contains("temperature of the liquid at the bench"), "{text}");
    }
}

#[test]
fn beyond_the_fit_comes_a_warning() {
    let b = by_mass(&HOUSE);
    let codes = |t: f64| -> Vec<String> {
        b.density(celsius(t)).unwrap().warnings.into_iter().map(|w| w.code).collect()
    };
    assert_eq!(codes(-10.0), ["temperature-beyond-fit"]);
    assert!(codes(20.0).is_empty());
}

#[test]
fn other_refusals() {
    let b = by_mass(&HOUSE);
    let e = b.mixed_with(-1.0, &b, 1.0, None).unwrap_err().to_string();
    assert!(e.contains("volume of acetone 50 %") && e.contains("0 or more"), "{e}");
    assert!(b.mixed_with(0.0, &b, 0.0, None).is_err());
    for rows in [0, 1, 1001] {
        let e = b.evaporation_as_it_dries(rows).unwrap_err().to_string();
        assert!(e.contains(&format!("is {rows}, allowed is 2 to 1000")), "{e}");
    }
    assert!("parts".parse::<Basis>().unwrap_err().to_string().contains("\"mass\", \"volume\" or \"mole\""));
    assert!("dortmnd".parse::<Table>().unwrap_err().to_string().contains("did you mean \"dortmund\""));
}

#[test]
fn a_solvent_without_groups_counts_as_ideal_and_says_so() {
    let mine = solvent::Catalogue::from_toml(
        r#"
        [[solvent]]
        name = "shed thinner"
        source = "invented for this test"
        formula = "C7H14O2"
        boiling_point = { value = "140 °C" }
        density = { at_20C = "0.86 g/mL", per_kelvin = "-0.9 kg/m3" }
        viscosity = { readings = [{ at = "20 °C", value = "0.8 mPa.s" }] }
        surface_tension = { at_20C = "25 mN/m" }
        vapour_pressure = { form = "point-and-boiling-point", point = { at = "20 °C", value = "600 Pa" } }
        "#,
        "my_solvents.toml",
    )
    .unwrap();
    let shed = mine.find("shed thinner").unwrap();
    let b = Blend::new(vec![(shed, 1.0), (solvent::find("water").unwrap(), 1.0)], Basis::Mass, None).unwrap();
    assert_eq!(b.activity().table(), None);
    for warnings in
        [b.partial_pressures(celsius(20.0)).unwrap().warnings, b.phases(celsius(20.0)).unwrap().warnings]
    {
        assert!(warnings.iter().any(|w| w.code == "activity-ideal" && w.message.contains("shed thinner")));
    }
    let e = b.activity_coefficients(celsius(20.0), Some(Table::Original)).unwrap_err().to_string();
    assert!(e.contains("groups of shed thinner") && e.contains("solvent file"), "{e}");
    let e = b.flash_point().unwrap_err().to_string();
    assert!(e.contains("flash point of shed thinner is unknown") && e.contains("safety data sheet"), "{e}");
    let e = b.hansen().unwrap_err().to_string();
    assert!(e.contains("Hansen parameters of shed thinner"), "{e}");
    // The recipe carries the user's solvent in full.
    let json = serde_json::to_string(&b).unwrap();
    assert_eq!(serde_json::from_str::<Blend>(&json).unwrap(), b);
}

// ---------------------------------------------------------------- values

#[test]
fn equality_and_files() {
    let a = Blend::from_names(&HOUSE, Basis::Mass, Some("house thinner")).unwrap();
    let mut reversed = HOUSE;
    reversed.reverse();
    assert_eq!(Blend::from_names(&reversed, Basis::Mass, Some("house thinner")).unwrap(), a);
    assert_ne!(Blend::from_names(&HOUSE, Basis::Volume, Some("house thinner")).unwrap(), a);
    let json = serde_json::to_string(&a).unwrap();
    assert_eq!(serde_json::from_str::<Blend>(&json).unwrap(), a);
    let e = serde_json::from_str::<Blend>(r#"{"basis":"mass","parts":[],"colour":"red"}"#).unwrap_err();
    assert!(e.to_string().contains("colour"), "{e}");
    let e = serde_json::from_str::<Blend>(r#"{"basis":"mass","parts":[]}"#).unwrap_err();
    assert!(e.to_string().contains("name at least one solvent"), "{e}");
}

#[test]
fn duplicates_add_up_and_zeros_go() {
    let b = by_mass(&[("acetone", 1.0), ("Acetone", 1.0), ("toluene", 2.0), ("water", 0.0)]);
    assert_eq!(b.parts().len(), 2);
    assert_eq!(b, by_mass(&[("acetone", 2.0), ("toluene", 2.0)]));
}

#[test]
fn a_cut_is_one_ingredient_and_several_species() {
    let b = by_mass(&[("white spirit", 50.0), ("n-decane", 50.0)]);
    assert_eq!(b.ingredients().len(), 2);
    assert_eq!(b.species().len(), 5, "n-decane of the cut and of the can are one species");
    let decane = b.species().iter().find(|s| s.solvent.name() == "n-decane").unwrap();
    assert_eq!(decane.ingredient, 1, "most of it comes from the can");
}

#[test]
fn workings_cite_known_sources() {
    let b = by_mass(&[("ethanol", 1.0), ("water", 1.0)]);
    let t = celsius(20.0);
    let steps = [
        b.density(t).unwrap().working,
        b.viscosity(t).unwrap().working,
        b.kinematic_viscosity(t).unwrap().working,
        b.surface_tension(t).unwrap().working,
        b.relative_evaporation_rate().unwrap().working,
        by_mass(&HOUSE).surface_tension(t).unwrap().working,
    ]
    .into_iter()
    .flat_map(|w| w.steps);
    for step in steps {
        if !step.source.is_empty() {
            source::find(&step.source).unwrap_or_else(|e| panic!("{}: {e}", step.name));
        }
        assert!(!step.result.is_empty(), "{}", step.name);
    }
}

fn names() -> Vec<String> {
    solvent::Catalogue::builtin().unwrap().iter().map(|s| s.name().to_owned()).collect()
}

fn recipe() -> impl Strategy<Value = (Vec<(String, f64)>, Basis)> {
    let basis = prop_oneof![Just(Basis::Mass), Just(Basis::Volume), Just(Basis::Mole)];
    (prop::collection::vec((prop::sample::select(names()), 0.01_f64..100.0), 1..6), basis)
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, cases: 64, ..ProptestConfig::default() })]

    #[test]
    fn fractions_sum_to_one_and_bases_agree((parts, basis) in recipe()) {
        let parts: Vec<(&str, f64)> = parts.iter().map(|(n, a)| (n.as_str(), *a)).collect();
        let b = blend(&parts, basis);
        let sums = [
            b.ingredients().iter().map(|i| i.mass_fraction).sum::<f64>(),
            b.ingredients().iter().map(|i| i.volume_fraction).sum(),
            b.ingredients().iter().map(|i| i.mole_fraction).sum(),
            b.mole_fractions().iter().sum(),
        ];
        for sum in sums {
            prop_assert!((sum - 1.0).abs() < 1e-12);
        }
        // The same blend from its fractions on each basis.
        for other in [Basis::Mass, Basis::Volume, Basis::Mole] {
            let again: Vec<(&str, f64)> = b
                .ingredients()
                .iter()
                .map(|i| {
                    let share = match other {
                        Basis::Mass => i.mass_fraction,
                        Basis::Volume => i.volume_fraction,
                        Basis::Mole => i.mole_fraction,
                    };
                    (i.solvent.name(), share)
                })
                .collect();
            for (x, y) in b.ingredients().iter().zip(blend(&again, other).ingredients()) {
                prop_assert!((x.mass_fraction - y.mass_fraction).abs() < 1e-12);
                prop_assert!((x.mole_fraction - y.mole_fraction).abs() < 1e-12);
            }
        }
        // Mass is kept when cuts are taken apart.
        let molar = b.molar_mass().si();
        let per_mole: f64 = b.species().iter().map(|s| s.mole_fraction * s.solvent.kernel().molar_mass_kg_mol).sum();
        prop_assert!((molar / per_mole - 1.0).abs() < 1e-12);
    }

    #[test]
    fn values_lie_between_those_of_the_parts((parts, basis) in recipe(), t in 0.0_f64..60.0) {
        let parts: Vec<(&str, f64)> = parts.iter().map(|(n, a)| (n.as_str(), *a)).collect();
        let b = blend(&parts, basis);
        let t_k = t + 273.15;
        let range = |f: &dyn Fn(&solvent::PureKernel) -> f64| {
            let v: Vec<f64> = b.ingredients().iter().map(|i| f(i.solvent.kernel())).collect();
            (v.iter().copied().fold(f64::INFINITY, f64::min), v.iter().copied().fold(0.0, f64::max))
        };
        let (low, high) = range(&|k| k.density_kg_m3(t_k));
        let rho = b.density(celsius(t)).unwrap().best().si();
        prop_assert!(rho >= low * (1.0 - 1e-12) && rho <= high * (1.0 + 1e-12));
        let (low, high) = range(&|k| k.viscosity_pa_s(t_k));
        if !b.phases(celsius(t)).unwrap().is_one() {
            prop_assert!(matches!(b.viscosity(celsius(t)), Err(Error::PhaseSplit(_))));
            return Ok(());
        }
        let eta = b.viscosity(celsius(t)).unwrap().best().si();
        // Aqueous blends may be thicker than all their parts.
        prop_assert!(eta >= low * (1.0 - 1e-12) && (eta <= high * (1.0 + 1e-12) || b.ingredients().iter().any(|i| i.solvent.name() == "water")));
        let (low, high) = range(&|k| k.surface_tension_n_m(t_k));
        let answer = b.surface_tension(celsius(t)).unwrap();
        let sigma = answer.best().si();
        prop_assert!(sigma > low * 0.85 && sigma <= high * (1.0 + 1e-9), "{sigma} of {low} to {high}");
        // Every estimate holds its best value.
        let e = b.viscosity(celsius(t)).unwrap().estimate;
        prop_assert!(e.low <= e.best && e.best <= e.high);
    }

    #[test]
    fn partial_pressures_are_positive_and_add_up((parts, basis) in recipe(), t in 0.0_f64..60.0) {
        let parts: Vec<(&str, f64)> = parts.iter().map(|(n, a)| (n.as_str(), *a)).collect();
        let b = blend(&parts, basis);
        if !b.phases(celsius(t)).unwrap().is_one() {
            prop_assert!(matches!(b.partial_pressures(celsius(t)), Err(Error::PhaseSplit(_))));
            return Ok(());
        }
        let vapour = b.partial_pressures(celsius(t)).unwrap();
        prop_assert!(vapour.partial.iter().all(|(_, p)| p.si() > 0.0));
        let sum: f64 = vapour.partial.iter().map(|(_, p)| p.si()).sum();
        prop_assert!((sum / vapour.total.si() - 1.0).abs() < 1e-12);
        prop_assert_eq!(b.vapour_pressure(celsius(t)).unwrap(), vapour.total);
    }

    /// Neighbours in a row of alkanes are as good as ideal: less of one, less of its vapour.
    #[test]
    fn dilution_lowers_the_partial_pressure(x in 0.05_f64..0.9, more in 0.01_f64..0.09, t in 0.0_f64..60.0) {
        let p = |x: f64| {
            let b = blend(&[("n-hexane", x), ("n-heptane", 1.0 - x)], Basis::Mole);
            b.partial_pressures(celsius(t)).unwrap().partial[0].1.si()
        };
        prop_assert!(p(x + more) > p(x));
        // And near Raoult's law.
        let pure = solvent::find("n-hexane").unwrap().kernel().vapour_pressure_pa(t + 273.15);
        prop_assert!((p(x) / (x * pure) - 1.0).abs() < 0.02);
    }

    #[test]
    fn mixing_by_volume_keeps_every_mass(own in 0.1_f64..10.0, others in 0.1_f64..10.0) {
        let (a, b) = (by_mass(&HOUSE), by_mass(&[("toluene", 60.0), ("acetone", 40.0)]));
        let mixed = a.mixed_with(own, &b, others, Some("in the cup")).unwrap();
        let (rho_a, rho_b) = (a.density_kg_m3(293.15), b.density_kg_m3(293.15));
        let (mass_a, mass_b) = (own * rho_a, others * rho_b);
        let acetone = mixed.ingredients().iter().find(|i| i.solvent.name() == "acetone").unwrap();
        let expected = (0.5 * mass_a + 0.4 * mass_b) / (mass_a + mass_b);
        prop_assert!((acetone.mass_fraction - expected).abs() < 1e-12);
        prop_assert_eq!(mixed.name(), Some("in the cup"));
    }

    /// Any recipe can be dried: fractions stay fractions, the residue never grows a species from nothing.
    #[test]
    fn any_recipe_dries((parts, basis) in recipe()) {
        let parts: Vec<(&str, f64)> = parts.iter().map(|(n, a)| (n.as_str(), *a)).collect();
        let b = blend(&parts, basis);
        if !b.phases(celsius(25.0)).unwrap().is_one() {
            prop_assert!(matches!(b.evaporation_as_it_dries(5), Err(Error::PhaseSplit(_))));
            return Ok(());
        }
        let table = b.evaporation_as_it_dries(5).unwrap();
        for row in &table.rows {
            prop_assert!(row.relative_rate > Number::from_si(0.0) && row.time.is_finite());
            prop_assert!(row.residue.iter().all(|w| (0.0..=1.0 + 1e-12).contains(w)));
        }
    }
}

#[test]
fn mixed_temperatures_parse() {
    // The string form used in the docs.
    let t: Temperature = parse("25 °C").unwrap();
    assert!(by_mass(&HOUSE).vapour_pressure(t).unwrap().si() > 1e4);
}
