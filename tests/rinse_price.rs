//! What the cleaning costs: against trying everything, and what must hold for any prices.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed test panics")]

use mistcoat::quantity::{Quantity, Ratio, Volume, parse};
use mistcoat::rinse::{
    Bench, CheapCleaner, CleanerPrice, Cleaners, Gun, PricedOrder, Shade, Tolerance, fraction_left,
};
use proptest::prelude::*;

fn price(name: &str, costs: f64) -> CleanerPrice {
    CleanerPrice::new(name, costs, parse("1 L").unwrap(), "EUR").unwrap()
}

fn cleaners(good: f64, cheap: f64, may_stay: f64) -> Cleaners {
    Cleaners {
        good: price("house thinner", good),
        cheap: Some(CheapCleaner {
            price: price("recovered thinner", cheap),
            may_stay: Ratio::from_si(may_stay),
        }),
    }
}

fn ml(v: f64) -> Volume {
    Volume::from_si(1e-6 * v)
}

fn bench() -> Bench {
    Bench {
        hold_up: Gun::find("gravity airbrush").unwrap().hold_up.clone(),
        fill: ml(2.0),
        least_portion: ml(1.0),
        tolerance: Tolerance::Perceptible,
    }
}

fn shades(names: &[&str]) -> Vec<Shade> {
    names.iter().map(|n| Shade::typical(n).unwrap()).collect()
}

// By hand: four portions of 1 mL leave 0.15/1.15 to the fourth, 2.9e-4; at 9.50 a litre they cost 0.038.
#[test]
fn by_hand() {
    let only = Cleaners { good: price("house thinner", 9.5), cheap: None };
    let found = only.cheapest(ml(0.15), parse("0.03 %").unwrap(), ml(1.0)).unwrap();
    assert_eq!(found.good.portions, 4);
    approx::assert_relative_eq!(found.cost, 0.038, max_relative = 1e-12);
    assert!(found.cheap.is_none() && found.saves().abs() < 1e-15);
    assert_eq!(found.words(), "4 × 1 mL of good thinner: 0.04 EUR");
    // With a cleaner that costs nothing only the last portions cost: 5 % of it may stay, two portions leave 1.7 %.
    let free = cleaners(9.5, 0.0, 0.05).cheapest(ml(0.15), parse("0.03 %").unwrap(), ml(1.0)).unwrap();
    assert_eq!(free.good.portions, 2);
    approx::assert_relative_eq!(free.cost, 0.019, max_relative = 1e-9);
    assert!(free.words().contains("less than good thinner alone"));
}

/// Every split on a fine grid of what the good portions leave.
fn tried(c: &Cleaners, h: f64, f: f64, least: f64) -> f64 {
    let cheap = c.cheap.as_ref().unwrap();
    let each = |left: f64, n: u32| (h * (left.powf(-1.0 / f64::from(n)) - 1.0)).max(least);
    let mut best = f64::INFINITY;
    for n in 1..=12 {
        best = best.min(c.good.of(ml(f64::from(n) * each(f, n))));
        for m in 1..=12 {
            for i in 0..=400 {
                let ln_g = f.ln() * (1.0 - f64::from(i) / 400.0);
                let g = ln_g.exp();
                if g <= cheap.may_stay.si() {
                    let good = c.good.of(ml(f64::from(n) * each(g, n)));
                    best = best.min(good + cheap.price.of(ml(f64::from(m) * each(f / g, m))));
                }
            }
        }
    }
    best
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn no_split_is_cheaper_and_the_gun_is_clean(
        good in 1.0_f64..50.0, cheap in 0.0_f64..50.0, may_stay in 0.001_f64..0.5,
        ln_f in -9.0_f64..-0.1, h in 0.05_f64..2.0, least in 0.1_f64..2.0,
    ) {
        let f = ln_f.exp();
        let c = cleaners(good, cheap, may_stay);
        let found = c.cheapest(ml(h), Ratio::from_si(f), ml(least)).unwrap();
        let grid = tried(&c, h, f, least);
        prop_assert!(found.cost <= grid * (1.0 + 1e-9), "{} > {grid}", found.cost);
        prop_assert!(found.cost <= found.good_alone && found.cost >= 0.0);
        let portions = |s: &mistcoat::rinse::Split| vec![s.each; s.portions as usize];
        let good_leaves = fraction_left(ml(h), &portions(&found.good)).unwrap().si();
        let mut left = good_leaves;
        if let Some(first) = &found.cheap {
            left *= fraction_left(ml(h), &portions(first)).unwrap().si();
            prop_assert!(good_leaves <= may_stay * (1.0 + 1e-9));
            prop_assert!(first.each.si() >= 1e-6 * least * (1.0 - 1e-9));
        }
        prop_assert!(left <= f * (1.0 + 1e-6), "{left} > {f}");
        // Twice the prices, twice the cost.
        let twice = cleaners(2.0 * good, 2.0 * cheap, may_stay).cheapest(ml(h), Ratio::from_si(f), ml(least)).unwrap();
        prop_assert!((twice.cost - 2.0 * found.cost).abs() <= 1e-6 * twice.cost + 1e-12);
        // A cleaner no cheaper than the thinner is left out unless it costs the same.
        if cheap > good * 1.001 {
            prop_assert!(found.saves() <= 1e-9 * found.cost);
        }
    }
}

fn permutations(n: usize) -> Vec<Vec<usize>> {
    if n == 0 {
        return vec![Vec::new()];
    }
    let mut all = Vec::new();
    for shorter in permutations(n - 1) {
        for at in 0..n {
            let mut longer = shorter.clone();
            longer.insert(at, n - 1);
            all.push(longer);
        }
    }
    all
}

#[test]
fn the_order_against_all_orders() {
    let colours = shades(&["red oxide", "deep green", "cream", "white", "black"]);
    let c = cleaners(9.5, 2.0, 0.05);
    let found = bench().cheapest_order(&colours, None, &c).unwrap();
    let pair = |a: usize, b: usize| {
        let change = bench().change(&colours[a], &colours[b]).unwrap();
        c.cheapest(bench().hold_up.best, change.fraction, ml(1.0)).unwrap().cost
    };
    let costs = permutations(5).into_iter().map(|p| p.windows(2).map(|w| pair(w[0], w[1])).sum::<f64>());
    let best = costs.fold(f64::INFINITY, f64::min);
    approx::assert_relative_eq!(found.cost.best.si(), best, max_relative = 1e-6);
    let sum: f64 = found.changes.iter().map(|p| p.rinse.cost).sum();
    approx::assert_relative_eq!(sum, best, max_relative = 1e-6);
    assert!(found.as_given >= sum * (1.0 - 1e-9) && found.good_alone >= sum * (1.0 - 1e-9));
    assert!(found.cost.low <= found.cost.best && found.cost.best < found.cost.high);
}

#[test]
fn the_boat_light_before_dark_with_cautions() {
    let boat = shades(&["red oxide", "deep green", "cream"]);
    let found = bench().cheapest_order(&boat, None, &cleaners(9.5, 2.0, 0.05)).unwrap();
    assert_eq!(found.order[0], "cream");
    let text = found.table().to_text();
    assert!(text.contains("EUR") && text.contains("test on scrap") && text.contains("The wash at the end"));
    assert!(!found.cautions.is_empty() && found.cautions.iter().all(|c| text.contains(&c[..20])));
    let from = bench().cheapest_order(&boat, Some("deep green"), &cleaners(9.5, 2.0, 0.05)).unwrap();
    assert_eq!(from.order[0], "deep green");
    let json = serde_json::to_string(&found).unwrap();
    assert_eq!(serde_json::from_str::<PricedOrder>(&json).unwrap(), found);
    let one = bench().cheapest_order(&boat[..1], None, &cleaners(9.5, 2.0, 0.05)).unwrap();
    assert!(one.changes.is_empty() && one.cost.best.si().abs() < 1e-15);
}

#[rstest::rstest]
#[case(CleanerPrice::new("thinner", -1.0, ml(1000.0), "EUR").map(|_| ()), ["price of thinner", "-1", "bottle"])]
#[case(CleanerPrice::new("thinner", f64::NAN, ml(1000.0), "EUR").map(|_| ()), ["price of thinner", "NaN", "bottle"])]
#[case(CleanerPrice::new("thinner", 1.0, ml(0.0), "EUR").map(|_| ()), ["volume that the price", "above 0", "write"])]
#[case(cleaners(1.0, 1.0, 0.0).cheapest(ml(0.15), parse("1 %").unwrap(), ml(1.0)).map(|_| ()), ["may stay", "0 %", "5 %"])]
#[case(cleaners(1.0, 1.0, 0.05).cheapest(ml(0.0), parse("1 %").unwrap(), ml(1.0)).map(|_| ()), ["hold-up", "above 0", "write"])]
#[case(bench().cheapest_order(&shades(&["cream"]), Some("teal"), &cleaners(1.0, 1.0, 0.05)).map(|_| ()), ["first colour", "teal", "session"])]
#[case(bench().cheapest_order(&[], None, &cleaners(1.0, 1.0, 0.05)).map(|_| ()), ["colours", "0", "1 to 16"])]
fn bad_input(#[case] result: mistcoat::Result<()>, #[case] says: [&str; 3]) {
    let text = result.unwrap_err().to_string();
    for part in says {
        assert!(text.contains(part), "no {part:?} in: {text}");
    }
}

#[test]
fn two_currencies_are_not_added() {
    let mut two = cleaners(9.5, 2.0, 0.05);
    two.good = CleanerPrice::new("house thinner", 9.5, ml(1000.0), "USD").unwrap();
    let text = two.check().unwrap_err().to_string();
    assert!(text.contains("EUR") && text.contains("USD") && text.contains("nothing is converted"), "{text}");
}
