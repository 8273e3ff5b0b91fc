//! Vapour pressure at 20 °C against values independent of the correlation in the catalogue.

use super::{number, rows, si, t};
use mistcoat::solvent::{Catalogue, find};
use proptest::prelude::*;

/// The least standard uncertainty of a value whose sources disagree.
const SPREAD: f64 = 0.019;

#[test]
fn confirmed_values_lie_within_three_per_cent_and_others_say_so() {
    let (mut confirmed, mut spread) = (0, 0);
    for row in rows("vapour_pressure_20c.csv") {
        let p = find(&row["solvent"]).unwrap().vapour_pressure(t("20 °C")).unwrap();
        let off = si(p.best) / number(&row, "independent_pa") - 1.0;
        if row["verdict"] == "confirmed" {
            assert!(100.0 * off.abs() < number(&row, "tolerance_percent"), "{}: {p} {off}", row["solvent"]);
            confirmed += 1;
        } else {
            assert!(p.relative_std() >= SPREAD, "{}: {p} hides that its sources differ", row["solvent"]);
            spread += 1;
        }
    }
    assert_eq!((confirmed, spread), (37, 12));
}

/// The refit used in loops follows the equation of the record.
#[test]
fn antoine_of_the_kernel_follows_the_equation() {
    let mut worst: f64 = 0.0;
    for s in Catalogue::builtin().unwrap().iter() {
        for c in (0..=60).step_by(5) {
            let at = t(&format!("{c} °C"));
            if let Ok(p) = s.vapour_pressure(at) {
                let off = (s.kernel().vapour_pressure_pa(si(at)) / si(p.best) - 1.0).abs();
                assert!(off < 0.003, "{}: {:.2} % off at {c} °C", s.name(), 100.0 * off);
                worst = worst.max(off);
            }
        }
    }
    println!("worst deviation of the Antoine refit from 0 to 60 °C: {:.3} %", 100.0 * worst);
}

proptest! {
    #[test]
    fn rises_with_temperature_and_density_falls(c in 0.0_f64..59.0, warmer in 0.1_f64..1.0) {
        let (cool, warm) = (t(&format!("{c} °C")), t(&format!("{} °C", c + warmer)));
        for s in Catalogue::builtin().unwrap().iter() {
            if let (Ok(a), Ok(b)) = (s.vapour_pressure(cool), s.vapour_pressure(warm)) {
                prop_assert!(si(a.best) < si(b.best), "{}", s.name());
                prop_assert!(si(a.low) < si(a.best) && si(a.best) < si(a.high));
            }
            if let (Ok(a), Ok(b)) = (s.density(cool), s.density(warm)) {
                prop_assert!(si(a.best) > si(b.best), "{}", s.name());
            }
            if let (Ok(a), Ok(b)) = (s.viscosity(cool), s.viscosity(warm)) {
                prop_assert!(si(a.best) > si(b.best), "{}", s.name());
            }
            if let (Ok(a), Ok(b)) = (s.diffusivity(cool), s.diffusivity(warm)) {
                prop_assert!(si(a.best) < si(b.best), "{}", s.name());
            }
        }
    }
}
