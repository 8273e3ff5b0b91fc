//! Dilution arithmetic and drops against published values, and what must always hold.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    clippy::needless_pass_by_value,
    reason = "a test says by panicking what went wrong"
)]

#[path = "published/dose.rs"]
mod published;

use approx::{assert_abs_diff_eq, assert_relative_eq};
use mistcoat::dose::{
    Batch, Counting, Densities, DropVolumes, Dropper, Parts, Repair, Thinning, VocContent, alligation,
    counted_volume, cut_of_solution, cut_of_solvent, drop_factor, drop_recipes, dry_film,
    practical_spreading_rate, pvc, spreading_rate, tip_ratio, volume_solids_from_resin,
    volume_solids_from_volatile, wet_film,
};
use mistcoat::estimate::{Estimate, ModelError};
use mistcoat::quantity::{
    Density, DynamicViscosity, Length, Mass, Quantity, Ratio, SurfaceTension, Volume, VolumeFraction, of, to,
};
use mistcoat::source;
use proptest::prelude::*;
use rstest::rstest;
use serde::Deserialize;

fn q<Q: Quantity>(value: f64, unit: &str) -> Q {
    of(value, unit).unwrap()
}

fn fraction(x: f64) -> VolumeFraction {
    VolumeFraction::new(x).unwrap()
}

fn x(value: f64) -> Thinning {
    Thinning::from_paint_fraction(fraction(value)).unwrap()
}

fn parts(thinner: f64, paint: f64) -> Thinning {
    Thinning::from_parts(Parts { thinner, paint }).unwrap()
}

fn percent(p: f64) -> Ratio {
    Ratio::from_si(p / 100.0)
}

fn rows<T: for<'de> Deserialize<'de>>(file: &str) -> Vec<T> {
    let path = format!("{}/tests/data/{file}", env!("CARGO_MANIFEST_DIR"));
    csv::Reader::from_path(path).unwrap().deserialize().map(Result::unwrap).collect()
}

#[test]
fn published_dilution_arithmetic() {
    let checks = published::checks();
    assert_eq!(checks.len(), 23);
    for k in &checks {
        let got = k.computed();
        assert!(
            (got - k.expected).abs() <= k.tolerance,
            "{}: {got} against {} ({})",
            k.id,
            k.expected,
            k.source
        );
    }
}

// Drops.

#[derive(Debug, Deserialize)]
struct Factor {
    form: String,
    given: f64,
    value: f64,
}

/// The fit against Harkins and Brown and the International Critical Tables: within 1.25 % from 0.30 to 1.20,
/// within 0.55 % from 0.40 to 1.15.
#[test]
fn drop_factor_against_the_tables() {
    for r in rows::<Factor>("harkins_brown.csv") {
        let (at, f) = match r.form.as_str() {
            "x_f" => (r.given, r.value),
            "v_over_r3_F" => (r.given.powf(-1.0 / 3.0), 1.0 / (core::f64::consts::TAU * r.value)),
            other => panic!("{other}"),
        };
        let limit = if (0.40..=1.15).contains(&at) { 0.0055 } else { 0.0125 };
        let miss = drop_factor(at).unwrap() / f - 1.0;
        assert!(miss.abs() < limit, "x = {at}: {miss:+.4}");
        // And the solution of the balance finds the same point.
        let balance = core::f64::consts::TAU * at.powi(3) * drop_factor(at).unwrap();
        assert_relative_eq!(tip_ratio(balance).unwrap(), at, max_relative = 1e-10);
    }
}

/// Published drops: within 2 % where the theory claims it, and the stated misses where it does not.
#[test]
fn drops_against_published_tables() {
    let data = published::weights();
    assert_abs_diff_eq!(
        to(published::glass_tip(&data).tip_diameter().unwrap(), "mm").unwrap(),
        4.08,
        epsilon = 0.02
    );
    for w in &data {
        let predicted = w.predicted(&data);
        let miss = 100.0 * (predicted / w.published - 1.0);
        // The stated misses are whole percents of rounded tables; surface tensions of the mixtures move the
        // prediction by as much again.
        let slack = if w.set == "minims" { 1.6 } else { 0.7 };
        assert!(
            (miss - w.deviation_pct).abs() < slack,
            "{} {:?}: {miss:+.1} % ({})",
            w.liquid,
            w.tip_mm,
            w.source
        );
        if w.deviation_pct.abs() <= 1.0 {
            assert!(miss.abs() < 2.0, "{w:?}: {miss:+.1} %");
        }
    }
}

/// A 3 mm dropper gives water drops of 45 to 55 mg (USP 32 <1101>), and by hand close to the 50 mg of 20
/// drops per millilitre.
#[test]
fn medicine_dropper() {
    let (gamma, rho): (SurfaceTension, Density) = (q(72.74, "mN/m"), q(0.9982, "g/mL"));
    let tip = Dropper::tip(q(3.0, "mm")).unwrap();
    let mg = |d: &Dropper| d.drop_volume(gamma, rho, None).unwrap().best().si() * rho.si() * 1e6;
    assert_abs_diff_eq!(mg(&tip), 47.6, epsilon = 0.1);
    assert!((45.0..55.0).contains(&mg(&tip)));
    assert_relative_eq!(mg(&tip.clone().by_hand()), 50.0, max_relative = 0.01);
    let a = tip.drop_volume(gamma, rho, None).unwrap();
    // ±10 %
    assert_relative_eq!(a.estimate.high.si() / a.best().si(), 1.105, max_relative = 0.003);
    assert!(a.working.steps.iter().filter(|s| !s.source.is_empty()).all(|s| source::find(&s.source).is_ok()));
}

/// Drops per millilitre from a 3 mm tip at 20 °C, worked out beforehand from the same theory.
#[rstest]
#[case("ethanol", 22.35, 0.7895, 58.0)]
#[case("n-butyl acetate", 25.1, 0.882, 58.0)]
#[case("toluene", 28.5, 0.867, 50.0)]
#[case("chloroform", 27.1, 1.489, 94.0)]
#[case("ether", 17.0, 0.7138, 70.0)]
fn drops_per_ml(#[case] liquid: &str, #[case] mn_m: f64, #[case] g_ml: f64, #[case] per_ml: f64) {
    let tip = Dropper::tip(q(3.0, "mm")).unwrap();
    let v = tip.drop_volume(q(mn_m, "mN/m"), q(g_ml, "g/mL"), None).unwrap().best();
    assert!((1e-6 / v.si() - per_ml).abs() < 1.0, "{liquid}: {}", 1e-6 / v.si());
}

#[test]
fn viscous_liquids_warn() {
    let tip = Dropper::tip(q(3.0, "mm")).unwrap();
    let thick: DynamicViscosity = q(1.4, "Pa.s");
    let a = tip.drop_volume(q(63.4, "mN/m"), q(1.261, "g/mL"), Some(thick)).unwrap();
    assert_eq!(a.warnings[0].code, "drop-viscous");
    assert!(a.estimate.high.si() / a.best().si() > 1.35);
    let thin = tip.drop_volume(q(63.4, "mN/m"), q(1.261, "g/mL"), Some(q(5.0, "mPa.s"))).unwrap();
    assert!(thin.warnings.is_empty());
}

#[test]
fn weighed_and_counted() {
    let d = Dropper::weighed(20, q(0.41, "g"), q(0.88, "g/mL")).unwrap();
    let v = d.measured().unwrap();
    assert_relative_eq!(v.best.si() * 1e9, 410.0 / 0.88 / 20.0, max_relative = 1e-12);
    // 7 % per drop over √20, and the scale.
    assert_relative_eq!(v.relative_std(), 0.0173, max_relative = 0.02);
    assert_eq!(d.drop_volume(q(20.0, "mN/m"), q(0.88, "g/mL"), None).unwrap().best(), v.best);
    let c = Dropper::counted(25, q(1.0, "mL")).unwrap();
    assert_relative_eq!(to(c.measured().unwrap().best, "uL").unwrap(), 40.0, max_relative = 1e-12);
    for dropper in [d, c, Dropper::tip(q(3.0, "mm")).unwrap().by_hand()] {
        let json = serde_json::to_string(&dropper).unwrap();
        assert_eq!(serde_json::from_str::<Dropper>(&json).unwrap(), dropper);
    }
}

/// `u²(V) = N s² + N² u²(v) + v² u²(N)` term by term.
#[test]
fn count_error() {
    let v = 40e-9;
    let drop: Estimate<Volume> = Estimate::relative(Volume::from_si(v), &[ModelError::new("weighing", 0.02)]);
    let u = |n: u32, doubtful_last_drop: bool| {
        let c = Counting { scatter: percent(6.0), doubtful_last_drop };
        counted_volume(n, &drop, c).unwrap().relative_std() * f64::from(n) * v
    };
    for n in [1_u32, 10, 100] {
        let m = f64::from(n);
        let sure = (m * (0.06 * v).powi(2) + (m * 0.02 * v).powi(2)).sqrt();
        let doubtful = (sure * sure + v * v / 12.0).sqrt();
        assert_relative_eq!(u(n, false), sure, max_relative = 1e-6);
        assert_relative_eq!(u(n, true), doubtful, max_relative = 1e-6);
    }
    assert!(counted_volume(0, &drop, Counting::default()).is_err());
}

#[test]
fn equal_counts_are_not_equal_volumes() {
    let tip = Dropper::tip(q(3.0, "mm")).unwrap();
    let drops = DropVolumes {
        paint: tip.drop_volume(q(35.0, "mN/m"), q(1.2, "g/mL"), None).unwrap().estimate,
        thinner: tip.drop_volume(q(22.4, "mN/m"), q(0.789, "g/mL"), None).unwrap().estimate,
    };
    let recipes = drop_recipes(parts(2.0, 1.0), Some(q(2.0, "mL")), &drops, 5).unwrap();
    assert_eq!(recipes.len(), 5);
    for r in &recipes {
        let made = f64::from(r.thinner_drops) * drops.thinner.best.si()
            / (f64::from(r.paint_drops) * drops.paint.best.si());
        assert_relative_eq!(r.ratio_error.si(), made / 2.0 - 1.0, epsilon = 1e-12);
        assert_relative_eq!(r.thinning.thinner_per_paint(), made, max_relative = 1e-12);
        let total = f64::from(r.thinner_drops) * drops.thinner.best.si()
            + f64::from(r.paint_drops) * drops.paint.best.si();
        assert_relative_eq!(r.total.si(), total, max_relative = 1e-12);
        assert_relative_eq!(r.amount_error.unwrap().si(), total / 2e-6 - 1.0, epsilon = 1e-12);
        assert!(r.paint_fraction.low < r.paint_fraction.best);
    }
    assert!(recipes[0].ratio_error.si().abs() < 0.03 && recipes[0].amount_error.unwrap().si().abs() < 0.05);
    // Smallest counts first when no amount is wanted; each further one is nearer.
    let small = drop_recipes(parts(2.0, 1.0), None, &drops, 10).unwrap();
    assert!(small.windows(2).all(|w| {
        w[1].paint_drops + w[1].thinner_drops > w[0].paint_drops + w[0].thinner_drops
            && w[1].ratio_error.si().abs() < w[0].ratio_error.si().abs()
    }));
    assert!(small.last().unwrap().ratio_error.si().abs() < 0.01);
    // The smallest one holds the ratio too: one drop of each is no recipe for 2 : 1 or 1 : 2.
    for wanted in [parts(2.0, 1.0), parts(1.0, 2.0), parts(1.0, 1.0), parts(3.0, 1.0)] {
        let first = &drop_recipes(wanted, None, &drops, 1).unwrap()[0];
        assert!(first.ratio_error.si().abs() <= 0.06, "{first}");
        assert!(first.paint_drops + first.thinner_drops <= 30, "{first}");
    }
    // No count of 30 drops of paint or fewer holds 1 in 500: the nearest stands alone.
    let trace = drop_recipes(parts(1.0, 500.0), None, &drops, 10).unwrap();
    assert_eq!((trace.len(), trace[0].paint_drops, trace[0].thinner_drops), (1, 30, 1));
    // What the counts are and how far off, in words.
    let text = small[0].to_string();
    assert!(text.contains("thinner than wanted") || text.contains("within 1 %"), "{text}");
    assert_eq!(parts(1.0, 1.0 - 1e-9).to_string(), "1 part thinner to 1 part paint");
    // Undiluted paint takes no thinner.
    let neat = drop_recipes(Thinning::NONE, Some(q(1.0, "mL")), &drops, 2).unwrap();
    assert!(neat.iter().all(|r| r.thinner_drops == 0 && r.ratio_error.si().abs() < 1e-15));
}

#[rstest]
#[case(0.001, "one drop of paint", "mix more")]
#[case(500.0, "2000 drops", "syringe")]
#[case(0.0, "above 0", "5 mL")]
#[case(f64::NAN, "above 0", "5 mL")]
fn refused_amounts(#[case] ml: f64, #[case] limit: &str, #[case] remedy: &str) {
    let one = Estimate::exact(q(0.05, "mL"));
    let drops = DropVolumes { paint: one.clone(), thinner: one };
    let total = Volume::from_si(ml * 1e-6);
    let e = drop_recipes(parts(1.0, 1.0), Some(total), &drops, 3).unwrap_err().to_string();
    assert!(e.contains(limit) && e.contains(remedy), "{e}");
}

// Thinning.

#[rstest]
#[case("2 parts thinner to 1 part paint", 1.0 / 3.0)]
#[case("thinner 2 : paint 1", 1.0 / 3.0)]
#[case("Paint:Thinner 1:2", 1.0 / 3.0)]
#[case("1 part paint to 2 parts thinner", 1.0 / 3.0)]
#[case("2:1 thinner:paint", 1.0 / 3.0)]
#[case("thinner=2, paint=1", 1.0 / 3.0)]
#[case("50 % of paint", 2.0 / 3.0)]
#[case("50% thinner of the paint", 2.0 / 3.0)]
#[case("50 percent of mix", 0.5)]
fn words(#[case] text: &str, #[case] fraction: f64) {
    assert_relative_eq!(Thinning::from_text(text).unwrap().paint_fraction().get(), fraction, epsilon = 1e-12);
}

/// A bare ratio and a bare percentage are refused with both readings shown.
#[rstest]
#[case("2:1", &["thinner=2, paint=1 (33 % paint", "thinner=1, paint=2 (67 % paint"])]
#[case("33 % paint", &["33 % of paint", "67 % of mix"])]
#[case("3 to 1", &["thinner=3, paint=1 (25 % paint", "thinner=1, paint=3 (75 % paint"])]
#[case("1/1", &["thinner=1, paint=1"])]
#[case("50 %", &["50 % of paint", "50 % of mix"])]
#[case("33 % thinner", &["33 % of paint", "33 % of mix"])]
#[case("", &["name the parts"])]
#[case("a splash", &["name the parts"])]
#[case("2 thinner 1 thinner", &["name the parts"])]
#[case("nan paint 1 thinner", &["name the parts"])]
#[case("0 parts paint to 2 parts thinner", &["parts of paint", "above 0"])]
#[case("-1 part thinner to 2 parts paint", &["parts of thinner", "0 or above"])]
#[case("100 % of mix", &["0 % to below 100 %", "share of the paint"])]
fn refused_words(#[case] text: &str, #[case] parts: &[&str]) {
    let e = Thinning::from_text(text).unwrap_err().to_string();
    for part in parts {
        assert!(e.contains(part), "{part:?} is not in {e:?}");
    }
}

#[test]
fn refused_thinnings() {
    let bad = |r: mistcoat::Result<Thinning>, limit: &str| {
        let e = r.unwrap_err().to_string();
        assert!(e.contains(limit) && (e.contains("for example") || e.contains("thinner=")), "{e}");
    };
    bad(Thinning::from_paint_fraction(VolumeFraction::ZERO), "above 0 and up to 1");
    for p in [f64::NAN, f64::INFINITY, -1.0, 0.0] {
        bad(Thinning::from_parts(Parts { thinner: 1.0, paint: p }), "above 0 and finite");
    }
    for t in [f64::NAN, f64::INFINITY, -1.0] {
        bad(Thinning::from_parts(Parts { thinner: t, paint: 1.0 }), "0 or above, and finite");
        bad(Thinning::from_percent_of_paint(Ratio::from_si(t)), "0 % or above");
    }
    let d = Densities { thinner: q(0.0, "g/mL"), paint: q(1.2, "g/mL") };
    bad(Thinning::from_parts_by_mass(Parts { thinner: 1.0, paint: 1.0 }, d), "above 0");
    assert!(serde_json::from_str::<Thinning>(r#"{"paint_fraction": 1.5}"#).is_err());
    assert!(serde_json::from_str::<Thinning>(r#"{"ratio": 0.5}"#).is_err());
}

// Films, volatiles, pigments, batches: refusals and worked values.

#[test]
fn films_and_solids() {
    // NV 45 % by weight, paint 1.10, volatile 0.87 g/mL: 30.5 % by volume (worked from the definition).
    let vs = volume_solids_from_volatile(percent(45.0), q(1.10, "g/mL"), q(0.87, "g/mL")).unwrap();
    assert_abs_diff_eq!(vs.get(), 0.305, epsilon = 5e-4);
    // The dry solids then weigh 1.62 g/mL, and the second form gives the same share.
    let solids: Density = q(0.45 * 1.10 / vs.get(), "g/mL");
    let same = volume_solids_from_resin(percent(45.0), q(1.10, "g/mL"), solids).unwrap();
    assert_relative_eq!(same.get(), vs.get(), epsilon = 1e-12);
    let e =
        volume_solids_from_volatile(percent(10.0), q(1.5, "g/mL"), q(0.8, "g/mL")).unwrap_err().to_string();
    assert!(e.contains("contradict"), "{e}");
    assert!(volume_solids_from_volatile(percent(110.0), q(1.1, "g/mL"), q(0.8, "g/mL")).is_err());
    let rate = spreading_rate(fraction(0.65), q(125.0, "um")).unwrap();
    let lossy = practical_spreading_rate(rate, fraction(0.35)).unwrap();
    assert_relative_eq!(to(lossy, "m2/L").unwrap(), 5.2 * 0.65, max_relative = 1e-12);
    assert!(practical_spreading_rate(rate, VolumeFraction::ONE).is_err());
    assert!(
        wet_film(q(100.0, "um"), VolumeFraction::ZERO).unwrap_err().to_string().contains("volume solids")
    );
    for bad in [0.0, -1.0, f64::NAN] {
        assert!(wet_film(Length::from_si(bad), fraction(0.5)).is_err());
        assert!(dry_film(Length::from_si(bad), fraction(0.5)).is_err());
    }
}

#[test]
fn volatiles_and_pigment() {
    let full = VocContent::new(q(1.0, "L"), q(10.0, "g")).unwrap().water(q(1.0, "L")).unwrap();
    let e = full.less_water_and_exempt().unwrap_err().to_string();
    assert!(e.contains("below the volume of paint, 1 L"), "{e}");
    let exempt = VocContent::new(q(1.0, "L"), q(300.0, "g")).unwrap().exempt(q(0.25, "L")).unwrap();
    assert_relative_eq!(
        to(exempt.less_water_and_exempt().unwrap(), "g/L").unwrap(),
        400.0,
        max_relative = 1e-12
    );
    assert!(VocContent::new(q(0.0, "L"), q(1.0, "g")).is_err());
    assert_relative_eq!(pvc(q(30.0, "mL"), q(70.0, "mL")).unwrap().get(), 0.30, epsilon = 1e-12);
    assert!(pvc(q(0.0, "mL"), q(0.0, "mL")).is_err());
    // 1 lb in 1 US gal of solution is 119.83 g/L; the same in a gallon of solvent is less.
    let of_solution = cut_of_solution(q(1.0, "lb"), q(1.0, "US gal")).unwrap();
    let of_solvent = cut_of_solvent(q(1.0, "lb"), q(1.0, "US gal"), q(1.1, "g/mL")).unwrap();
    assert_abs_diff_eq!(to(of_solution, "g/L").unwrap(), 119.83, epsilon = 0.01);
    assert!(of_solvent < of_solution);
}

#[test]
fn batches() {
    let thick = Batch::new(q(10.0, "mL"), x(0.5)).unwrap();
    let Repair::AddThinner(v) = thick.repair(x(0.25), Thinning::NONE).unwrap() else { panic!("too thick") };
    assert_relative_eq!(to(v, "mL").unwrap(), 10.0, max_relative = 1e-12);
    assert_eq!(thick.repair(x(0.5), Thinning::NONE).unwrap(), Repair::Nothing);
    let e = thick.repair(x(0.8), x(0.7)).unwrap_err().to_string();
    assert!(e.contains("70 %") && e.contains("above the target, 80 %") && e.contains("undiluted"), "{e}");
    let both = thick.combined(&Batch::new(q(30.0, "mL"), x(0.1)).unwrap()).unwrap();
    assert_relative_eq!(both.thinning().paint_fraction().get(), 0.2, max_relative = 1e-12);
    let twenty = Batch::from_paint(q(5.0, "mL"), parts(2.0, 1.0)).unwrap().scaled_to(q(300.0, "mL")).unwrap();
    assert_relative_eq!(to(twenty.paint(), "mL").unwrap(), 100.0, max_relative = 1e-12);
    assert_relative_eq!(to(twenty.thinner(), "mL").unwrap(), 200.0, max_relative = 1e-12);
    assert!(Batch::new(q(0.0, "mL"), x(0.5)).is_err());
    let e = alligation(fraction(0.5), fraction(0.2), fraction(0.6)).unwrap_err().to_string();
    assert!(e.contains("60 %") && e.contains("20 % to 50 %"), "{e}");
    assert!(alligation(fraction(0.3), fraction(0.3), fraction(0.3)).is_err());
}

#[test]
fn droppers_refuse_nonsense() {
    for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert!(Dropper::tip(Length::from_si(bad)).is_err());
        assert!(Dropper::unwetted_tip(Length::from_si(bad)).is_err());
        assert!(Dropper::weighed(20, Mass::from_si(bad), q(0.9, "g/mL")).is_err());
        let tip = Dropper::tip(q(3.0, "mm")).unwrap();
        assert!(tip.drop_volume(SurfaceTension::from_si(bad), q(0.9, "g/mL"), None).is_err());
        assert!(tip.drop_volume(q(25.0, "mN/m"), Density::from_si(bad), None).is_err());
        assert!(
            tip.drop_volume(q(25.0, "mN/m"), q(0.9, "g/mL"), Some(DynamicViscosity::from_si(bad))).is_err()
        );
    }
    assert!(Dropper::weighed(0, q(0.4, "g"), q(0.9, "g/mL")).unwrap_err().to_string().contains("at least 1"));
    let wide = Dropper::tip(q(30.0, "mm")).unwrap();
    let e = wide.drop_volume(q(25.0, "mN/m"), q(0.9, "g/mL"), None).unwrap_err().to_string();
    assert!(e.contains("narrower tip"), "{e}");
    let e = Dropper::tip_from_drop(q(5.0, "mL"), q(72.7, "mN/m"), q(1.0, "g/mL")).unwrap_err().to_string();
    assert!(e.contains("count the drops again"), "{e}");
    assert!(drop_factor(1.3).is_err() && drop_factor(f64::NAN).is_err() && tip_ratio(0.0).is_err());
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    /// Every wording leads to the same paint fraction.
    #[test]
    fn wordings_agree(f in 0.001_f64..1.0, rho_t in 600.0_f64..1300.0, rho_p in 800.0_f64..2000.0) {
        let t = x(f);
        let d = Densities { thinner: Density::from_si(rho_t), paint: Density::from_si(rho_p) };
        let again = [
            Thinning::from_percent_of_paint(t.percent_of_paint()).unwrap(),
            Thinning::from_percent_of_mix(t.percent_of_mix()).unwrap(),
            parts(t.thinner_per_paint(), 1.0),
            Thinning::from_parts_by_mass(Parts { thinner: t.thinner_per_paint_by_mass(d).unwrap(), paint: 1.0 }, d).unwrap(),
            Thinning::from_percent_of_mix_by_mass(t.percent_of_mix_by_mass(d).unwrap(), d).unwrap(),
            serde_json::from_str(&serde_json::to_string(&t).unwrap()).unwrap(),
        ];
        for a in again {
            prop_assert!((a.paint_fraction().get() / f - 1.0).abs() < 1e-9, "{a:?} against {f}");
        }
    }

    /// Repairs reach the target and keep the paint.
    #[test]
    fn repairs_balance(v in 0.1_f64..1000.0, now in 0.05_f64..0.95, want in 0.05_f64..0.95) {
        let batch = Batch::new(q(v, "mL"), x(now)).unwrap();
        let (thinner, paint) = match batch.repair(x(want), Thinning::NONE).unwrap() {
            Repair::AddThinner(t) => (t.si(), 0.0),
            Repair::AddPaint(p) => (0.0, p.si()),
            Repair::Nothing => (0.0, 0.0),
        };
        prop_assert!(thinner >= 0.0 && paint >= 0.0);
        let total = batch.volume().si() + thinner + paint;
        prop_assert!(((batch.paint().si() + paint) / total / want - 1.0).abs() < 1e-9);
        prop_assert!((batch.paint() + batch.thinner() - batch.volume()).si().abs() < 1e-15 * v);
    }

    /// Alligation stays between its stocks and hits the target.
    #[test]
    fn alligation_balances(a in 0.0_f64..1.0, b in 0.0_f64..1.0, f in 0.0_f64..1.0) {
        prop_assume!((a - b).abs() > 1e-6);
        let (s, w) = (a.max(b), a.min(b));
        let target = (w + f * (s - w)).clamp(w, s);
        let p = alligation(fraction(s), fraction(w), fraction(target)).unwrap();
        prop_assert!(p.strong >= 0.0 && p.weak >= 0.0 && (p.strong + p.weak - 1.0).abs() < 1e-9);
        prop_assert!((p.strong * s + p.weak * w - target).abs() < 1e-9);
    }

    /// Wider tips, higher tension and lighter liquids give larger drops.
    #[test]
    fn drops_grow(d in 0.3_f64..4.2, gamma in 15.0_f64..75.0, rho in 0.6_f64..1.6, by in 1.01_f64..1.3) {
        let v = |d: f64, g: f64, r: f64| {
            Dropper::tip(q(d, "mm")).unwrap().drop_volume(q(g, "mN/m"), q(r, "g/mL"), None).map(|a| a.best().si())
        };
        let base = v(d, gamma, rho).unwrap();
        prop_assert!(v(d * by, gamma, rho).map_or(true, |w| w > base));
        prop_assert!(v(d, gamma * by, rho).unwrap() > base);
        prop_assert!(v(d, gamma, rho / by).unwrap() > base);
        // And the tip is found again from its drop.
        let found = Dropper::tip_from_drop(Volume::from_si(base), q(gamma, "mN/m"), q(rho, "g/mL")).unwrap();
        prop_assert!((found.tip_diameter().unwrap().si() / (d * 1e-3) - 1.0).abs() < 1e-6);
    }

    /// Rounding to whole drops never costs more than one drop of thinner, and counts make what they say.
    #[test]
    fn recipes_are_near(r in 0.1_f64..8.0, size in 0.3_f64..3.0, ml in 0.8_f64..10.0) {
        let drops = DropVolumes {
            paint: Estimate::exact(q(0.045, "mL")),
            thinner: Estimate::exact(q(0.045 * size, "mL")),
        };
        let list = drop_recipes(parts(r, 1.0), Some(q(ml, "mL")), &drops, 4);
        prop_assume!(list.is_ok());
        for recipe in list.unwrap() {
            let exact = f64::from(recipe.paint_drops) * r / size;
            prop_assert!((f64::from(recipe.thinner_drops) - exact).abs() <= 1.0 + 1e-9);
        }
    }

    /// Any text is read or refused, never a panic.
    #[test]
    fn any_text(text in "\\PC{0,40}") {
        let _ = Thinning::from_text(&text);
    }
}
