//! The integrals of levelling and sag on films whose answer is known in closed form.

use super::*;
use crate::air::Room;
use crate::blend::{Basis, Blend};
use crate::dose::{Parts, Thinning};
use crate::estimate::Estimate;
use crate::film::{Binder, Substrate};
use crate::paint::{Family, Paint};
use crate::quantity::{RelativeHumidity, Time, VolumeFraction, parse};
use proptest::prelude::*;

fn room() -> Room {
    Room::new(parse("21 °C").unwrap(), RelativeHumidity::new(0.5).unwrap()).unwrap()
}

fn film(solvents: &[(&str, f64)], solids: f64, wet: &str) -> Film {
    let blend = Blend::from_names(solvents, Basis::Mass, None).unwrap();
    Film::new(&blend, VolumeFraction::new(solids).unwrap(), parse(wet).unwrap(), &room()).unwrap()
}

fn flow(viscosity: &str) -> Flow {
    Flow::new(&Estimate::exact(parse(viscosity).unwrap()), parse("21 °C").unwrap()).unwrap()
}

fn moving(film: &Film, from_to: [f64; 2]) -> Moving {
    let course = film.dry_moved(Moved::NOTHING).unwrap();
    let thickening = Thickening::new(film, &course, Moved::NOTHING, Nudge::default()).unwrap();
    thickening.moving(2e-3, from_to)
}

// A film of glycerol keeps its depth, and on metal its temperature: both integrals are rate × time.
#[test]
fn constant_depth_and_viscosity() {
    let dry_room = Room::new(parse("21 °C").unwrap(), RelativeHumidity::new(0.0).unwrap()).unwrap();
    let glycerol = Blend::from_names(&[("glycerol", 1.0)], Basis::Mass, None).unwrap();
    let film =
        Film::new(&glycerol, VolumeFraction::new(0.0).unwrap(), parse("50 µm").unwrap(), &dry_room).unwrap();
    let film = film
        .with_substrate(Substrate::Isothermal)
        .until(Time::from_si(10.0))
        .unwrap()
        .with_flow(flow("2 Pa.s"));
    let m = moving(&film, [0.0, f64::INFINITY]);
    let (h, eta, l) = (50e-6_f64, 2.0, 2e-3_f64);
    let orchard = 16.0 * core::f64::consts::PI.powi(4) * h.powi(3) / (3.0 * l.powi(4) * eta) * 10.0;
    approx::assert_relative_eq!(m.levelling, orchard, max_relative = 0.06); // finite depth: kh = 0.16
    approx::assert_relative_eq!(m.levelling, mobility(h, l) / eta * 10.0, max_relative = 2e-3);
    approx::assert_relative_eq!(m.sag_m, 1000.0 * 9.80665 * h * h / (2.0 * eta) * 10.0, max_relative = 2e-3);
}

#[test]
fn marks_of_the_binder_are_on_the_curve() {
    let film = film(&[("n-butyl acetate", 1.0)], 0.15, "25 µm")
        .with_binder(Binder::new(parse("50 °C").unwrap()).unwrap())
        .with_flow(flow("20 mPa.s"));
    let dry = film.dry().unwrap();
    let course = dry.viscosities().unwrap();
    approx::assert_relative_eq!(course[0].si(), 0.020, max_relative = 1e-9);
    assert!(course.windows(2).all(|w| w[1].si() >= 0.93 * w[0].si()), "it thickens but for the warmth");
    for (mark, eta) in [(dry.touch_dry().unwrap(), 1e3), (dry.block_free().unwrap(), 1e7)] {
        let after = dry.times().partition_point(|t| *t <= mark.best());
        let (before, after) = (course[after - 1].si(), course[after].si());
        assert!(before <= eta * 1.3 && after >= eta / 1.3, "{eta}: {before} to {after}");
    }
}

#[test]
fn families_thicken_all_the_way() {
    for family in Family::ALL {
        let liquid = if family.takes_water() { "water" } else { "white spirit" };
        let thinner = Blend::from_names(&[(liquid, 1.0)], Basis::Volume, None).unwrap();
        let paint = Paint::typical(family, "club paint (invented)").unwrap();
        let mix =
            paint.thin(&thinner, Thinning::from_parts(Parts { thinner: 1.0, paint: 1.0 }).unwrap()).unwrap();
        let film = Film::of_mix(&mix, parse("25 µm").unwrap(), &room()).unwrap();
        let course = film.dry_moved(Moved::NOTHING).unwrap();
        let thickening = Thickening::new(&film, &course, Moved::NOTHING, Nudge::default()).unwrap();
        let ln: Vec<f64> = (0..=50)
            .map(|i| {
                let solids = film.solids().get() + (1.0 - film.solids().get()) * f64::from(i) / 50.0;
                thickening.ln_at(solids, 294.15)
            })
            .collect();
        assert!(ln.windows(2).all(|w| w[1] >= w[0] - 1e-12), "{family}: {ln:?}");
        let end = (ln[50] / core::f64::consts::LN_10).round();
        assert!((0.0..=12.0).contains(&end), "{family}: 1e{end} Pa s when dry");
        assert!(ln[50] - ln[0] > 2.0, "{family} hardly thickens: {}", ln[50] - ln[0]); // a paste of oil least
        // Half the stock paint's thinner is its own viscosity again.
        let stock = paint.viscosity(parse("21 °C").unwrap()).unwrap().best.si();
        let at_stock = thickening.ln_at(paint.volume_solids().best.si(), 294.15).exp();
        approx::assert_relative_eq!(at_stock, stock, max_relative = 1e-6);
    }
}

#[test]
fn unknown_flow_is_an_error_that_says_what_to_give() {
    let bare = film(&[("acetone", 1.0)], 0.1, "25 µm");
    let text = bare.dry().unwrap().viscosities().unwrap_err().to_string();
    assert!(text.contains("with_flow"), "{text}");
    let soft = bare.with_flow(flow("20 mPa.s"));
    let text = soft.dry().unwrap().viscosities().unwrap_err().to_string();
    assert!(text.contains("thickens_to"), "{text}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn sums_add_in_time(part in 0.01_f64..0.99, acetone in 0.0_f64..1.0, wet in 5.0_f64..100.0) {
        let film = film(&[("acetone", acetone), ("n-butyl acetate", 1.0)], 0.15, &format!("{wet} µm"))
            .with_binder(Binder::new(parse("50 °C").unwrap()).unwrap())
            .with_flow(flow("20 mPa.s"));
        let end = film.dry().unwrap().flash_off().unwrap().best().si() * 2.0;
        let cut = part * end;
        let whole = moving(&film, [0.0, end]);
        let (first, then) = (moving(&film, [0.0, cut]), moving(&film, [cut, end]));
        approx::assert_relative_eq!(first.levelling + then.levelling, whole.levelling, max_relative = 5e-3);
        approx::assert_relative_eq!(first.sag_m + then.sag_m, whole.sag_m, max_relative = 5e-3);
    }
}
