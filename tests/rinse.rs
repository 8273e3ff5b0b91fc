//! Rinsing against published extraction examples, the order of colours against brute force, what must always hold.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test says by panicking what went wrong")]

use approx::assert_relative_eq;
use mistcoat::estimate::Estimate;
use mistcoat::quantity::{Quantity, Ratio, Reflectance, Volume, of, parse, to};
use mistcoat::rinse::{
    Bench, Gun, Shade, Tolerance, best_order, best_split, cautions, cheap_then_good, equal_portions,
    fraction_left, least_cleaner, lightness, portions_needed, weighed_hold_up,
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

fn ml(v: f64) -> Volume {
    of(v, "mL").unwrap()
}

fn shade(name: &str, r: f64) -> Shade {
    Shade::new(name, Reflectance::new(r).unwrap(), 1.0).unwrap()
}

fn bench() -> Bench {
    Bench {
        hold_up: Gun::find("gravity airbrush").unwrap().hold_up.clone(),
        fill: ml(2.0),
        least_portion: ml(1.0),
        tolerance: Tolerance::Perceptible,
    }
}

#[test]
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "whole counts in the table")]
fn published_and_worked_values() {
    let mut rows = csv::Reader::from_path("tests/data/rinse_checks.csv").unwrap();
    let mut count = 0;
    for row in rows.deserialize() {
        let k: Check = row.unwrap();
        let (a, b, c) = (k.a, k.b.unwrap_or(f64::NAN), k.c.unwrap_or(f64::NAN));
        let got = match k.what.as_str() {
            "left" => fraction_left(ml(a), &vec![ml(b); c as usize]).unwrap().si(),
            "unequal" => fraction_left(ml(a), &[ml(b), ml(c)]).unwrap().si(),
            "tolerated" => {
                let tolerance = if c < 2.0 { Tolerance::Perceptible } else { Tolerance::Acceptable };
                shade("new", a).tolerates(&shade("old", b), tolerance).unwrap().share.si()
            }
            "shift" => {
                let new = shade("new", a);
                new.lightness_with(&shade("old", b), c).unwrap() - new.lightness()
            }
            "lightness" => lightness(Reflectance::new(a).unwrap()),
            other => panic!("{other}?"),
        };
        assert!((got - k.expected).abs() <= k.tolerance, "{} {}: {got} ({})", k.id, k.what, k.source);
        count += 1;
    }
    assert!(count >= 18, "{count} rows");
}

/// All orders by recursion; nothing of the dynamic programme.
fn brute(cost: &[Vec<f64>], used: &mut Vec<usize>, so_far: f64, best: &mut f64) {
    if used.len() == cost.len() {
        *best = best.min(so_far);
        return;
    }
    for next in 0..cost.len() {
        if !used.contains(&next) {
            let step = used.last().map_or(0.0, |&last| cost[last][next]);
            used.push(next);
            brute(cost, used, so_far + step, best);
            used.pop();
        }
    }
}

fn path_cost(cost: &[Vec<f64>], order: &[usize]) -> f64 {
    order.windows(2).map(|w| cost[w[0]][w[1]]).sum()
}

#[test]
fn sixteen_colours_are_ordered_and_seventeen_refused() {
    // On a line of lightness where going up costs the step and going down nothing, falling order is free.
    let n = 16;
    let cost: Vec<Vec<f64>> =
        (0..n).map(|a: usize| (0..n).map(|b: usize| b.saturating_sub(a) as f64).collect()).collect();
    let best = best_order(&cost, None).unwrap();
    assert_eq!(best.order, (0..n).rev().collect::<Vec<_>>());
    let from_five = best_order(&cost, Some(5)).unwrap();
    assert_eq!((from_five.order[0], from_five.cost), (5, 10.0)); // up to 15 once, then down past the used one
    let text = best_order(&vec![vec![1.0; 17]; 17], None).unwrap_err().to_string();
    assert!(text.contains("17") && text.contains("1 to 16"), "{text}");
    let many: Vec<Shade> = (0..17).map(|i| shade(&format!("c{i}"), 0.05 + 0.05 * f64::from(i))).collect();
    assert!(bench().colour_order(&many, None).unwrap_err().to_string().contains("1 to 16"));
}

#[test]
fn the_boat_is_sprayed_light_to_dark() {
    let colours: Vec<Shade> =
        ["red oxide", "deep green", "cream"].iter().map(|c| Shade::typical(c).unwrap()).collect();
    let plan = bench().colour_order(&colours, None).unwrap();
    assert_eq!(plan.order, ["cream", "red oxide", "deep green"]);
    assert!(plan.cleaner.best < plan.as_given.best);
    assert!(plan.cleaner.low <= plan.cleaner.best && plan.cleaner.best < plan.cleaner.high);
    let sum: f64 = plan.changes.iter().map(|c| c.split.total.si()).sum();
    assert_relative_eq!(plan.cleaner.best.si(), sum, max_relative = 1e-9);
    // Red oxide and green are near in lightness: hue decides, and the plan says so.
    assert!(plan.warnings.iter().any(|w| w.code == "hue-may-show"));
    let started = bench().colour_order(&colours, Some("Deep Green")).unwrap();
    assert_eq!(started.order[0], "deep green");
    let table = plan.table();
    assert_eq!(table.rows(), 2);
    for needed in ["drain", "vapour", "safety data sheets", "isocyanates", "Dried paint"] {
        assert!(table.notes.iter().any(|n| n.contains(needed)), "{needed}");
    }
    assert!(plan.cautions.len() == cautions().unwrap().len());
    for step in plan.changes.iter().flat_map(|c| &c.cleaner.working.steps) {
        assert!(source::find(&step.source).is_ok(), "{}", step.source);
    }
    let again: mistcoat::rinse::ColourOrder =
        serde_json::from_str(&serde_json::to_string(&plan).unwrap()).unwrap();
    assert_eq!(again.order, plan.order);
}

#[test]
fn light_to_dark_forgives_hundreds_of_times_more() {
    let (white, black) = (shade("white", 0.90), shade("black", 0.04));
    let ratio = black.tolerates(&white, Tolerance::Perceptible).unwrap().share.si()
        / white.tolerates(&black, Tolerance::Perceptible).unwrap().share.si();
    assert!((200.0..350.0).contains(&ratio), "{ratio}");
    // A tenth of the tinting strength tolerates ten times the paint.
    let weak = Shade::new("weak", Reflectance::new(0.04).unwrap(), 0.1).unwrap();
    let by = |old: &Shade| white.tolerates(old, Tolerance::Perceptible).unwrap().share.si();
    assert_relative_eq!(by(&weak) / by(&black), 10.0, max_relative = 0.01);
    // CIEDE2000 weighs lightness less far from the middle: 0.8 there allows more than 0.8 in CIELAB.
    let c2000 = white.tolerates(&black, Tolerance::PerceptibleCiede2000).unwrap().share.si();
    assert!(c2000 > 0.8 / 1.2 * by(&black));
}

#[test]
fn first_cheap_then_good() {
    let plan = cheap_then_good(ml(0.15), Ratio::from_si(1e-4), ml(1.0), Ratio::from_si(0.05)).unwrap();
    let all = vec![plan.good.each; (plan.cheap.portions + plan.good.portions) as usize];
    assert!(fraction_left(ml(0.15), &all).unwrap().si() <= 1e-4);
    let cheap_left = fraction_left(ml(0.15), &all[..plan.good.portions as usize]).unwrap().si();
    assert!(cheap_left <= 0.05 && plan.cheap.portions > 0);
    let none = cheap_then_good(ml(0.15), Ratio::from_si(0.1), ml(1.0), Ratio::from_si(1e-4)).unwrap();
    assert_eq!((none.cheap.portions, none.cheap.total.si()), (0, 0.0));
}

#[test]
fn a_larger_fill_forgives_more() {
    let (from, to) = (shade("black", 0.04), shade("white", 0.90));
    let with = |fill: f64| Bench { fill: ml(fill), ..bench() }.change(&from, &to).unwrap();
    assert!(with(5.0).split.total < with(1.0).split.total);
    assert_relative_eq!(with(4.0).fraction.si() / with(2.0).fraction.si(), 2.0, max_relative = 1e-9);
    // Nothing to rinse by colour: one portion all the same.
    let same = bench().change(&from, &shade("other black", 0.04)).unwrap();
    assert_eq!(same.split.portions, 1);
}

#[rstest]
#[case::no_hold_up(fraction_left(ml(0.0), &[ml(1.0)]).err(), "hold-up")]
#[case::negative_portion(fraction_left(ml(1.0), &[ml(-1.0)]).err(), "portion")]
#[case::nan_portion(fraction_left(ml(1.0), &[Volume::from_si(f64::NAN)]).err(), "portion")]
#[case::fraction(equal_portions(ml(1.0), Ratio::from_si(0.0), 3).err(), "1e-9 to 1")]
#[case::nan_fraction(equal_portions(ml(1.0), Ratio::from_si(f64::NAN), 3).err(), "fraction")]
#[case::none(equal_portions(ml(1.0), Ratio::from_si(0.1), 0).err(), "1 to 50")]
#[case::drops(portions_needed(ml(1.0), ml(0.01), Ratio::from_si(1e-6)).err(), "larger portions")]
#[case::least(best_split(ml(1.0), Ratio::from_si(1e-3), ml(0.0)).err(), "least portion")]
#[case::strength(Shade::new("x", Reflectance::new(0.5).unwrap(), 0.0).err(), "strength")]
#[case::no_name(Shade::new(" ", Reflectance::new(0.5).unwrap(), 1.0).err(), "name")]
#[case::gun(Gun::find("gravty airbrush").err(), "gravity airbrush")]
#[case::colour(Shade::typical("deep grean").err(), "deep green")]
#[case::fill(Bench { fill: ml(0.1), ..bench() }.change(&shade("a", 0.1), &shade("b", 0.5)).err(), "hold-up")]
#[case::twice(bench().colour_order(&[shade("a", 0.1), shade("A", 0.5)], None).err(), "stands once")]
#[case::start(bench().colour_order(&[shade("cream", 0.7), shade("b", 0.5)], Some("creme")).err(), "cream")]
#[case::nothing(bench().colour_order(&[], None).err(), "1 to 16")]
#[case::ragged(best_order(&[vec![0.0, 1.0], vec![1.0]], None).err(), "square")]
#[case::negative(best_order(&[vec![0.0, -1.0], vec![1.0, 0.0]], None).err(), "0 or above")]
#[case::nan(best_order(&[vec![0.0, f64::NAN], vec![1.0, 0.0]], None).err(), "0 or above")]
#[case::far_start(best_order(&[vec![0.0]], Some(1)).err(), "count from 0")]
#[case::lighter_wet(
    weighed_hold_up(parse("10 g").unwrap(), parse("9.9 g").unwrap(), parse("0.9 g/mL").unwrap(), parse("0.01 g").unwrap()).err(),
    "dry mass"
)]
fn bad_input_is_refused(#[case] error: Option<mistcoat::Error>, #[case] says: &str) {
    let text = error.unwrap().to_string();
    assert!(text.contains(says), "{text}");
}

#[test]
fn one_colour_needs_no_change() {
    let plan = bench().colour_order(&[shade("cream", 0.75)], None).unwrap();
    assert_eq!((plan.order.len(), plan.changes.len(), plan.cleaner.best.si()), (1, 0, 0.0));
    assert!(plan.table().to_text().contains("drain"));
}

#[test]
fn weighing_tells_how_sure() {
    let h: Estimate<Volume> = weighed_hold_up(
        parse("112.40 g").unwrap(),
        parse("112.53 g").unwrap(),
        parse("0.87 g/mL").unwrap(),
        parse("0.01 g").unwrap(),
    )
    .unwrap();
    // 0.13 g of liquid, each weighing 0.01 g: 0.01 sqrt(2)/0.13 = 10.9 %.
    assert_relative_eq!(to(h.best, "mL").unwrap(), 0.13 / 0.87, max_relative = 1e-9);
    assert_relative_eq!(h.relative_std(), 0.109, max_relative = 0.02);
}

proptest! {
    #![proptest_config(ProptestConfig { rng_seed: proptest::test_runner::RngSeed::Fixed(43), ..ProptestConfig::default() })]

    #[test]
    fn the_order_is_the_best_of_all(
        n in 1..=8_usize, costs in prop::collection::vec(0.0..10.0_f64, 64), start in 0..8_usize, fixed: bool,
    ) {
        let cost: Vec<Vec<f64>> = (0..n).map(|a| costs[8 * a..8 * a + n].to_vec()).collect();
        let start = (fixed && start < n).then_some(start);
        let found = best_order(&cost, start).unwrap();
        let mut sorted = found.order.clone();
        sorted.sort_unstable();
        prop_assert_eq!(sorted, (0..n).collect::<Vec<_>>());
        prop_assert!((path_cost(&cost, &found.order) - found.cost).abs() < 1e-9);
        let mut best = f64::INFINITY;
        let mut used: Vec<usize> = start.into_iter().collect();
        brute(&cost, &mut used, 0.0, &mut best);
        prop_assert!((found.cost - best).abs() < 1e-9, "{} against {}", found.cost, best);
        prop_assert!(start.is_none_or(|s| found.order[0] == s));
    }

    #[test]
    fn equal_portions_are_best(h in 0.01..10.0_f64, v in prop::collection::vec(0.01..20.0_f64, 1..8)) {
        let total: f64 = v.iter().sum();
        let n = v.len();
        let left = |portions: &[f64]| {
            fraction_left(ml(h), &portions.iter().map(|&p| ml(p)).collect::<Vec<_>>()).unwrap().si()
        };
        let equal = left(&vec![total / n as f64; n]);
        prop_assert!(equal <= left(&v) * (1.0 + 1e-12));
        prop_assert!(equal >= (-total / h).exp() * (1.0 - 1e-12));
    }

    #[test]
    fn splits_do_what_they_promise(h in 0.01..10.0_f64, ln_f in -13.0..-0.1_f64, n in 1..20_u32, least in 0.01..5.0_f64) {
        let f = Ratio::from_si(ln_f.exp());
        let split = equal_portions(ml(h), f, n).unwrap();
        let left = fraction_left(ml(h), &vec![split.each; n as usize]).unwrap().si();
        prop_assert!((left / f.si() - 1.0).abs() < 1e-9);
        prop_assert_eq!(portions_needed(ml(h), split.each, f).unwrap(), n);
        prop_assert!(split.total >= least_cleaner(ml(h), f).unwrap());
        let best = best_split(ml(h), f, ml(least)).unwrap();
        prop_assert!(best.each.si() >= ml(least).si() * (1.0 - 1e-12));
        prop_assert!(fraction_left(ml(h), &vec![best.each; best.portions as usize]).unwrap().si() <= f.si() * (1.0 + 1e-9));
        // No other count of portions of at least that size needs less.
        for other in 1..=50_u32 {
            let each = equal_portions(ml(h), f, other).unwrap().each.si().max(ml(least).si());
            prop_assert!(best.total.si() <= f64::from(other) * each * (1.0 + 1e-9));
        }
    }

    #[test]
    fn more_of_the_old_colour_shows_more(new in 0.03..0.95_f64, old in 0.03..0.95_f64, t in 0.1..10.0_f64) {
        let new = shade("new", new);
        let old = Shade::new("old", Reflectance::new(old).unwrap(), t).unwrap();
        for tolerance in [Tolerance::Perceptible, Tolerance::Acceptable, Tolerance::PerceptibleCiede2000] {
            let allowed = new.tolerates(&old, tolerance).unwrap();
            let share = allowed.share.si();
            prop_assert!(share > 0.0 && share <= 0.2);
            let moved = (new.lightness_with(&old, share).unwrap() - new.lightness()).abs();
            // S_L of CIEDE2000 is at most 1.75 over the scale of lightness.
            prop_assert!(moved <= tolerance.difference() * 1.76 + 1e-6);
        }
        let (strict, lax) = (new.tolerates(&old, Tolerance::Perceptible).unwrap(), new.tolerates(&old, Tolerance::Acceptable).unwrap());
        prop_assert!(lax.share >= strict.share);
    }
}
