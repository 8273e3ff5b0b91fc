//! Hiding against worked values, against the two-flux equations integrated here, and what must always hold.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test says by panicking what went wrong")]

use approx::assert_relative_eq;
use mistcoat::dose::{Parts, Thinning};
use mistcoat::estimate::{Estimate, ModelError};
use mistcoat::hiding::{
    CardReading, Criterion, Gloss, Ground, HidingPower, Job, Optics, absorption_over_scattering,
    dry_film_of_spray, dry_film_per_pass, from_two_grounds, scattering_power, typical_loss,
};
use mistcoat::quantity::{
    Length, Quantity, Ratio, Reflectance, SpreadingRate, VolumeFraction, of, parse, to,
};
use mistcoat::source;
use proptest::prelude::*;
use rstest::rstest;
use serde::Deserialize;

#[derive(Debug, Deserialize)]
struct Check {
    id: String,
    what: String,
    a: f64,
    b: Option<f64>,
    c: Option<f64>,
    expected: f64,
    tolerance: f64,
    source: String,
}

fn r(x: f64) -> Reflectance {
    Reflectance::new(x).unwrap()
}

fn um(x: f64) -> Length {
    of(x, "um").unwrap()
}

fn exact<Q: Quantity>(text: &str) -> Estimate<Q> {
    Estimate::exact(parse(text).unwrap())
}

fn paint(reflectivity: f64, per_um: f64) -> Optics {
    Optics::from_reflectivity(r(reflectivity), of(per_um, "1/um").unwrap()).unwrap()
}

#[test]
fn published_and_worked_values() {
    let mut rows = csv::Reader::from_path("tests/data/hiding_checks.csv").unwrap();
    let mut count = 0;
    for row in rows.deserialize() {
        let c: Check = row.unwrap();
        let (a, b) = (c.a, c.b.unwrap_or(f64::NAN));
        let third = c.c.unwrap_or(f64::NAN);
        let job = |dry: Length, unit: &str| Job {
            area: of(third, unit).unwrap(),
            dry: Estimate::exact(dry),
            volume_solids: Estimate::exact(Ratio::from_si(a)),
            thinning: Thinning::NONE,
            loss: exact("0 %"),
        };
        let got = match c.what.as_str() {
            "absorption_over_scattering" => absorption_over_scattering(r(a)).unwrap(),
            "over_black" => paint(a, b).reflectance(um(third), Reflectance::ZERO).unwrap().get(),
            "contrast" => Ground::Card.contrast(&paint(a, b), um(third), None).unwrap().get(),
            "thickness" => {
                let criterion = Criterion::new(Ratio::from_si(third)).unwrap();
                to(Ground::Card.thickness(&paint(a, b), criterion, None).unwrap(), "um").unwrap()
            }
            "spray_film" => {
                let film = dry_film_of_spray(
                    of(a, "mL/min").unwrap(),
                    VolumeFraction::new(b).unwrap(),
                    VolumeFraction::new(third).unwrap(),
                    parse("20 mm").unwrap(),
                    parse("50 mm/s").unwrap(),
                );
                to(film.unwrap(), "um").unwrap()
            }
            "paint_us_gal" => {
                let paint = job(of(b, "mil").unwrap(), "ft2").amounts().unwrap().paint.best();
                to(paint, "US gal").unwrap()
            }
            "paint_litre" => to(job(um(b), "m2").amounts().unwrap().paint.best(), "L").unwrap(),
            "ft2_gal_to_m2_l" => to(of::<SpreadingRate>(a, "ft2/US gal").unwrap(), "m2/L").unwrap(),
            other => panic!("{other}?"),
        };
        assert!((got - c.expected).abs() <= c.tolerance, "{} {}: {got} ({})", c.id, c.what, c.source);
        count += 1;
    }
    assert!(count >= 14, "{count} rows");
}

/// Reflectance from the two fluxes themselves: down I' = −(K+S) I + S J, up J' = (K+S) J − S I, J = R_g I at the
/// ground. Fourth-order Runge-Kutta from the ground up.
fn integrated(k: f64, s: f64, x: f64, ground: f64) -> f64 {
    const STEPS: usize = 4000;
    let h = x / STEPS as f64;
    let slope = |i: f64, j: f64| ((k + s) * i - s * j, s * i - (k + s) * j);
    let (mut i, mut j) = (1.0, ground);
    for _ in 0..STEPS {
        let a = slope(i, j);
        let b = slope(i + h / 2.0 * a.0, j + h / 2.0 * a.1);
        let c = slope(i + h / 2.0 * b.0, j + h / 2.0 * b.1);
        let d = slope(i + h * c.0, j + h * c.1);
        i += h / 6.0 * (a.0 + 2.0 * b.0 + 2.0 * c.0 + d.0);
        j += h / 6.0 * (a.1 + 2.0 * b.1 + 2.0 * c.1 + d.1);
    }
    j / i
}

#[test]
fn closed_form_solves_the_two_flux_equations() {
    for (k, s, x) in
        [(0.0, 0.1, 30.0), (0.0006, 0.1, 91.0), (0.0125, 0.05, 60.0), (0.25, 0.05, 11.0), (0.46, 0.04, 2.0)]
    {
        let optics = Optics::new(of(s, "1/um").unwrap(), of(k, "1/um").unwrap()).unwrap();
        for ground in [0.0, 0.3, 0.8, 1.0] {
            let ours = optics.reflectance(um(x), r(ground)).unwrap().get();
            let theirs = integrated(k, s, x, ground);
            assert!((ours - theirs).abs() < 1e-9, "K {k}, S {s}, X {x}, ground {ground}: {ours} {theirs}");
        }
    }
}

/// The constants of the surface from Fresnel's equations, integrated here for a binder of refractive index 1.5:
/// mirrored at right angles ((n-1)/(n+1))^2, diffuse light thrown back inside 1 - (1 - r_outside)/n^2.
#[test]
fn gloss_constants_follow_from_fresnel() {
    let n: f64 = 1.5;
    let steps = 20_000;
    let mut outside = 0.0;
    for i in 0..steps {
        let theta = (f64::from(i) + 0.5) / f64::from(steps) * std::f64::consts::FRAC_PI_2;
        let inner = (theta.sin() / n).asin();
        let s = ((theta.cos() - n * inner.cos()) / (theta.cos() + n * inner.cos())).powi(2);
        let p = ((n * theta.cos() - inner.cos()) / (n * theta.cos() + inner.cos())).powi(2);
        outside += f64::midpoint(s, p) * (2.0 * theta).sin() * std::f64::consts::FRAC_PI_2 / f64::from(steps);
    }
    let thrown_back = 1.0 - (1.0 - outside) / (n * n);
    assert!((thrown_back - 0.6).abs() < 0.005, "{thrown_back}"); // the rounded 60 %
    assert_relative_eq!(((n - 1.0) / (n + 1.0)).powi(2), 0.04, epsilon = 1e-12);
    // A perfect white under that surface gives back all but the mirrored light.
    assert_relative_eq!(Gloss::typical().measured(r(1.0)).get(), 0.96, epsilon = 1e-12);
}

#[test]
fn a_card_that_was_counted_asks_for_the_same_count() {
    let per_pass = Estimate::relative(um(2.0), &[ModelError::new("dry film per pass", 0.15)]);
    for class in ["white", "cream", "yellow", "red oxide", "deep green", "black"] {
        for count in [1, 3, 8, 30] {
            let fitted = HidingPower::from_card_passes("own", class, None, count, &per_pass).unwrap();
            let passes = fitted.passes_to_hide(&per_pass, Ground::Card, Criterion::STANDARD).unwrap();
            assert_eq!(passes.whole, count, "{class}");
            assert!(passes.fewest <= count && count <= passes.most);
            // A fit on one's own card no longer rests on the class.
            assert!(!passes.number.warnings.iter().any(|w| w.code == "typical-hiding"));
        }
    }
}

#[test]
fn the_interval_of_a_fitted_reading_holds_the_truth() {
    // 300 cards with readings scattered by their stated uncertainty, from a fixed generator.
    let truth = paint(0.75, 0.09);
    let mut seed = 12345_u64;
    let mut noise = || {
        let mut sum = 0.0;
        for _ in 0..12 {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            sum += (seed >> 11) as f64 / (1_u64 << 53) as f64;
        }
        sum - 6.0
    };
    let mut held = [0; 2];
    for _ in 0..300 {
        let at = |ground: f64, by: f64| r(truth.reflectance(um(20.0), r(ground)).unwrap().get() + 0.005 * by);
        let reading = CardReading {
            over_black: at(0.0, noise()),
            over_white: at(0.8, noise()),
            black: r(0.0),
            white: r(0.8),
            std: Ratio::from_si(0.005),
        };
        let thickness = Estimate::relative(um(20.0 * (0.1 * noise()).exp()), &[ModelError::new("film", 0.1)]);
        let fit = reading.fit("cream", &thickness, None).unwrap();
        let inside = |low: f64, x: f64, high: f64| i32::from(low <= x && x <= high);
        let (s, f) = (fit.scattering(), fit.reflectivity());
        held[0] += inside(s.low.si(), truth.scattering().si(), s.high.si());
        held[1] += inside(f.low.si(), 0.75, f.high.si());
    }
    // 95 % of 300 is 285; three binomial standard deviations are 11.
    assert!(held.iter().all(|h| (274..=296).contains(h)), "{held:?}");
}

#[test]
fn undercoats_and_thinning() {
    let per_pass: Estimate<Length> = exact("2 um");
    let yellow = HidingPower::typical("yellow").unwrap();
    let count =
        |ground| yellow.passes_to_hide(&per_pass, ground, Criterion::STANDARD).unwrap().number.best().si();
    // An undercoat near its own lightness halves the passes; white alone, lighter than the yellow, saves few.
    let [black, pale, white] = [0.04, 0.65, 0.85].map(|g| count(Ground::Undercoat(r(g))));
    assert!(black > 2.0 * pale && white < black, "{black} over black, {pale} over pale, {white} over white");
    let same = yellow.passes_to_hide(&per_pass, Ground::Undercoat(r(0.6)), Criterion::STANDARD).unwrap();
    assert_eq!((same.whole, same.number.best().si()), (0, 0.0));
    let codes: Vec<&str> = same.number.warnings.iter().map(|w| w.code.as_str()).collect();
    assert!(codes.contains(&"hides-poorly") && codes.contains(&"typical-hiding"));
    // 1:1 to 2 parts of thinner at one wet film: 1.5 times the passes (the paint fraction falls from 1/2 to 1/3).
    let wet = exact("25 um");
    let film = |thinner: f64| {
        let x = Thinning::from_parts(Parts { thinner, paint: 1.0 }).unwrap().paint_fraction().get();
        dry_film_per_pass(&wet, &Estimate::exact(Ratio::from_si(0.3 * x))).unwrap()
    };
    let n = |thinner: f64| {
        let green = HidingPower::typical("deep green").unwrap();
        green.passes_to_hide(&film(thinner), Ground::Card, Criterion::STANDARD).unwrap().number.best().si()
    };
    assert_relative_eq!(n(2.0) / n(1.0), 1.5, max_relative = 1e-9);
}

#[test]
fn paint_thinner_and_losses_add_up() {
    let job = Job {
        area: parse("600 cm2").unwrap(),
        dry: exact("20 um"),
        volume_solids: exact("30 %"),
        thinning: Thinning::from_parts(Parts { thinner: 1.0, paint: 2.0 }).unwrap(),
        loss: typical_loss("airbrush").unwrap().share.clone(),
    };
    let a = job.amounts().unwrap();
    // By hand: 0.06 m2 x 20e-6 m / (0.30 x 0.35) = 11.43 mL of paint, half of that in thinner.
    assert_relative_eq!(to(a.paint.best(), "mL").unwrap(), 11.43, max_relative = 1e-3);
    assert_relative_eq!(to(a.thinner.best, "mL").unwrap(), 5.714, max_relative = 1e-3);
    assert_relative_eq!(a.mix.best.si(), a.paint.best().si() + a.thinner.best.si(), max_relative = 1e-12);
    assert!(a.paint.estimate.low < a.paint.best() && a.paint.best() < a.paint.estimate.high);
    let all_lost = Job { loss: exact("100 %"), ..job };
    assert!(all_lost.amounts().unwrap_err().to_string().contains("below 100 %"));
}

#[test]
fn every_step_cites_a_known_source() {
    let white = HidingPower::typical("white").unwrap().with_gloss(Gloss::typical());
    let passes = white.passes_to_hide(&exact("2 um"), Ground::Card, Criterion::STANDARD).unwrap();
    let steps = [
        passes.number.working.steps,
        white.contrast_ratio(&exact("30 um"), Ground::Card).unwrap().working.steps,
        white.reflectance(&exact("30 um"), r(0.5)).unwrap().working.steps,
    ];
    for step in steps.concat().iter().filter(|s| !s.source.is_empty()) {
        assert!(source::find(&step.source).is_ok(), "{}", step.source);
    }
    assert!(source::find(&typical_loss("brush").unwrap().source).is_ok());
}

#[rstest]
#[case::no_scattering(Optics::new(parse("0 1/um").unwrap(), parse("0.1 1/um").unwrap()).err(), "scattering")]
#[case::negative_absorption(Optics::new(parse("0.1 1/um").unwrap(), parse("-0.1 1/um").unwrap()).err(), "absorption")]
#[case::blackest(absorption_over_scattering(Reflectance::ZERO).err(), "hides completely")]
#[case::brighter_than_full(scattering_power(r(0.9), r(0.9)).err(), "thinner film")]
#[case::negative_film(paint(0.9, 0.1).reflectance(um(-1.0), r(0.0)).err(), "thickness")]
#[case::nan_film(paint(0.9, 0.1).reflectance(Length::from_si(f64::NAN), r(0.0)).err(), "thickness")]
#[case::criterion(Criterion::new(Ratio::from_si(1.0)).err(), "99.9 %")]
#[case::nan_criterion(Criterion::new(Ratio::from_si(f64::NAN)).err(), "50 %")]
#[case::patchy(
    Ground::Patchy { darkest: r(0.5), lightest: r(0.5) }.thickness(&paint(0.9, 0.1), Criterion::STANDARD, None).err(),
    "undercoat"
)]
#[case::same_grounds(from_two_grounds([r(0.5), r(0.5)], [r(0.1), r(0.12)], um(10.0)).err(), "black and the white")]
#[case::hidden(from_two_grounds([r(0.5), r(0.5)], [r(0.0), r(0.8)], um(10.0)).err(), "thinner film")]
#[case::swapped(from_two_grounds([r(0.7), r(0.2)], [r(0.0), r(0.8)], um(10.0)).err(), "reflectances is 70 % and 20 %")]
#[case::impossible(from_two_grounds([r(0.3), r(0.95)], [r(0.0), r(0.8)], um(10.0)).err(), "order of their grounds")]
#[case::gloss(Gloss::typical().internal(r(0.99)).err(), "mirrored")]
#[case::wild_gloss(Gloss::new(r(0.3), r(0.6), false).err(), "k1")]
#[case::class(HidingPower::typical("creme").err(), "cream")]
#[case::tool(typical_loss("air brush gun").err(), "airbrush")]
#[case::count(HidingPower::from_card_passes("x", "white", None, 0, &exact("2 um")).err(), "first count")]
#[case::no_film(HidingPower::from_card_passes("x", "white", None, 3, &exact("0 um")).err(), "per pass")]
#[case::no_solids(dry_film_per_pass(&exact("20 um"), &exact("0 %")).err(), "volume solids")]
fn bad_input_is_refused(#[case] error: Option<mistcoat::Error>, #[case] says: &str) {
    let text = error.unwrap().to_string();
    assert!(text.contains(says), "{text}");
}

proptest! {
    #![proptest_config(ProptestConfig { rng_seed: proptest::test_runner::RngSeed::Fixed(41), ..ProptestConfig::default() })]

    #[test]
    fn thicker_hides_more_and_reflectance_stays_between_ground_and_full_hiding(
        full in 0.02..0.98_f64, s in 0.001..1.0_f64, x in 0.0..300.0_f64, more in 0.01..50.0_f64, ground in 0.0..1.0_f64,
        glossy: bool,
    ) {
        let optics = paint(full, s);
        let value = optics.reflectance(um(x), r(ground)).unwrap().get();
        let (low, high) = (full.min(ground), full.max(ground));
        prop_assert!((low - 1e-9..=high + 1e-9).contains(&value));
        let gloss = glossy.then(Gloss::typical);
        let c = |x: f64| Ground::Card.contrast(&optics, um(x), gloss.as_ref()).unwrap().get();
        prop_assert!(c(x + more) >= c(x) - 1e-12);
        // S scales the thickness and nothing else.
        let need = |o: &Optics| Ground::Card.thickness(o, Criterion::STANDARD, gloss.as_ref()).unwrap().si();
        prop_assert!((need(&paint(full, 2.0 * s)) * 2.0 / need(&optics) - 1.0).abs() < 1e-9);
        let reached = c(need(&optics) * 1e6);
        prop_assert!((reached - 0.98).abs() < 1e-6, "{}", reached);
    }

    #[test]
    fn two_readings_give_the_film_back(
        full in 0.02..0.97_f64, sx in 0.02..4.0_f64, x in 1.0..100.0_f64, dark in 0.0..0.2_f64, light in 0.5..0.9_f64,
    ) {
        let truth = paint(full, sx / x);
        let grounds = [r(dark), r(light)];
        let readings = grounds.map(|g| truth.reflectance(um(x), g).unwrap());
        prop_assume!(readings[0].get() / readings[1].get() < 0.995);
        let found = from_two_grounds(readings, grounds, um(x)).unwrap();
        prop_assert!((found.scattering().si() / truth.scattering().si() - 1.0).abs() < 1e-5);
        prop_assert!((found.reflectivity().get() - full).abs() < 1e-6);
    }

    #[test]
    fn gloss_there_and_back(inside in 0.0..1.0_f64, seen: bool) {
        let gloss = Gloss::new(r(0.04), r(0.6), seen).unwrap();
        prop_assert!((gloss.internal(gloss.measured(r(inside))).unwrap().get() - inside).abs() < 1e-12);
    }

    #[test]
    fn a_mix_lies_between_its_parts(one in 0.03..0.95_f64, two in 0.03..0.95_f64, share in 0.0..1.0_f64, s in 0.02..0.5_f64) {
        let mixed = paint(one, 0.1).mixed_with(&paint(two, s), share).unwrap().reflectivity().get();
        prop_assert!((one.min(two) - 1e-9..=one.max(two) + 1e-9).contains(&mixed));
    }
}
