//! Tables of drying coats: each row as the coat dried by itself, bad rows counted, stopped work kept.
#![allow(clippy::unwrap_used, clippy::panic, clippy::float_cmp)]

use mistcoat::air::Room;
use mistcoat::blend::{Basis, Blend};
use mistcoat::dose::{Parts, Thinning};
use mistcoat::film::{Binder, DryTable, Film, RowState, Setting, Substrate};
use mistcoat::paint::{Family, Paint};
use mistcoat::progress::{Progress, for_rows};
use mistcoat::quantity::{Quantity, RelativeHumidity, VolumeFraction, of, parse, to};
use proptest::prelude::*;
use rstest::rstest;

const BASE: Setting = Setting {
    wet_thickness_um: 25.0,
    temperature_degc: 21.0,
    relative_humidity_pct: 55.0,
    air_speed_m_s: 0.15,
    solids_pct: Some(15.0),
    binder_tg_degc: None,
    thinner_per_paint: None,
};

fn thinner() -> Blend {
    let parts = [("acetone", 50.0), ("n-butyl acetate", 35.0), ("2-butoxyethanol", 15.0)];
    Blend::from_names(&parts, Basis::Mass, None).unwrap()
}

fn room(s: &Setting) -> Room {
    let humidity = RelativeHumidity::new(s.relative_humidity_pct * 0.01).unwrap();
    Room::new(of(s.temperature_degc, "degC").unwrap(), humidity)
        .unwrap()
        .with_air_speed(of(s.air_speed_m_s, "m/s").unwrap())
        .unwrap()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]
    #[test]
    fn a_row_is_the_coat_by_itself_bit_for_bit(
        um in 5.0..80.0_f64, warm in 8.0..35.0_f64, humid in 10.0..90.0_f64, air in 0.0..2.0_f64,
        solids in 5.0..40.0_f64, glass in 20.0..60.0_f64,
    ) {
        let setting = Setting {
            wet_thickness_um: um,
            temperature_degc: warm,
            relative_humidity_pct: humid,
            air_speed_m_s: air,
            solids_pct: Some(solids),
            binder_tg_degc: Some(glass),
            ..BASE
        };
        let table = DryTable::of_blend(&thinner())
            .with_substrate(Substrate::named("wood").unwrap())
            .with_losses(&[50.0]).unwrap()
            .with_residuals(&[1.0]).unwrap();
        let dried = table.run(3, |row| if row == 1 { setting } else { BASE }, &Progress::new(3)).unwrap();
        let film = Film::new(&thinner(), VolumeFraction::new(solids * 0.01).unwrap(), of(um, "µm").unwrap(), &room(&setting))
            .unwrap()
            .with_substrate(Substrate::named("wood").unwrap())
            .with_binder(Binder::new(of(glass, "degC").unwrap()).unwrap());
        let dry = film.dry().unwrap();
        let at = |name: &str| dried.column(name).unwrap()[1];
        prop_assert_eq!(at("t50_s"), dry.time_to_lose(parse("50 %").unwrap()).unwrap().si());
        prop_assert_eq!(at("coldest_degC"), to(dry.coldest(), "degC").unwrap());
        let touch = dry.touch_dry().map_or(f64::NAN, |t| t.best().si());
        prop_assert!(at("touch_dry_s") == touch || (at("touch_dry_s").is_nan() && touch.is_nan()));
        prop_assert_eq!(at("residual_1h_pct"), to(dry.residual_solvent(parse("1 h").unwrap()).unwrap().best(), "%").unwrap());
    }
}

#[test]
fn a_thinned_paint_by_ratio_is_its_mix() {
    let paint = Paint::typical(Family::SolventLacquer, "hull green").unwrap();
    let ratios = [3.0, 0.5, 1.0, 0.5, 2.0];
    let setting = |row: usize| Setting { solids_pct: None, thinner_per_paint: Some(ratios[row]), ..BASE };
    let table = DryTable::of_paint(&paint, &thinner());
    let dried = table.run(5, setting, &Progress::new(5)).unwrap();
    for (row, ratio) in ratios.into_iter().enumerate() {
        let parts = Thinning::from_parts(Parts { thinner: ratio, paint: 1.0 }).unwrap();
        let mix = paint.thin(&thinner(), parts).unwrap();
        let dry = Film::of_mix(&mix, parse("25 µm").unwrap(), &room(&BASE)).unwrap().dry().unwrap();
        assert_eq!(
            dried.column("flash_off_s").unwrap()[row],
            dry.time_to_lose(parse("90 %").unwrap()).unwrap().si()
        );
        assert_eq!(dried.column("block_free_s").unwrap()[row], dry.block_free().unwrap().best().si());
    }
}

#[test]
fn waterborne_touch_dry_is_that_of_the_coat() {
    let paint = Paint::typical(Family::WaterborneAcrylic, "deckhouse cream").unwrap();
    let water = Blend::from_names(&[("water", 1.0)], Basis::Mass, None).unwrap();
    let mix = paint.thin(&water, Thinning::from_parts(Parts { thinner: 0.3, paint: 1.0 }).unwrap()).unwrap();
    let setting = Setting { solids_pct: None, ..BASE };
    let dried = DryTable::of_mix(&mix).run(1, |_| setting, &Progress::new(1)).unwrap();
    let dry = Film::of_mix(&mix, parse("25 µm").unwrap(), &room(&BASE)).unwrap().dry().unwrap();
    assert_eq!(dried.column("touch_dry_s").unwrap()[0], dry.touch_dry().unwrap().best().si());
    assert!(dried.column("block_free_s").unwrap()[0].is_nan()); // no such mark for particles in water
}

#[rstest]
#[case(Setting { wet_thickness_um: 0.0, ..BASE }, "wet film thickness")]
#[case(Setting { temperature_degc: -5.0, ..BASE }, "temperature")]
#[case(Setting { relative_humidity_pct: 101.0, ..BASE }, "humidity")]
#[case(Setting { air_speed_m_s: f64::INFINITY, ..BASE }, "air speed")]
#[case(Setting { solids_pct: Some(99.0), ..BASE }, "volume solids")]
#[case(Setting { binder_tg_degc: Some(900.0), ..BASE }, "glass transition")]
#[case(Setting { thinner_per_paint: Some(1.0), ..BASE }, "thinner per paint")]
fn bad_rows_are_counted_and_leave_the_others(#[case] bad: Setting, #[case] says: &str) {
    let table = DryTable::of_blend(&thinner());
    let setting = |row: usize| match row {
        1 => Setting { wet_thickness_um: f64::NAN, ..BASE },
        2 | 4 => bad,
        _ => BASE,
    };
    let dried = table.run(5, setting, &Progress::new(5)).unwrap();
    let found = dried.bad().unwrap();
    assert_eq!((found.count, found.first), (2, 2));
    assert!(found.error.to_string().contains(says), "{}", found.error);
    assert_eq!(table.bad_rows(5, setting).unwrap().as_ref(), Some(found));
    assert_eq!(dried.states()[..3], [RowState::Dried, RowState::Empty, RowState::Bad]);
    let flash = dried.column("flash_off_s").unwrap();
    assert!(flash[1].is_nan() && flash[2].is_nan() && flash[0] == flash[3]);
}

#[rstest]
#[case(DryTable::of_blend(&thinner()).with_losses(&[0.0]).map(|_| ()), "share")]
#[case(DryTable::of_blend(&thinner()).with_losses(&[100.0]).map(|_| ()), "share")]
#[case(DryTable::of_blend(&thinner()).with_residuals(&[-1.0]).map(|_| ()), "0 h or more")]
#[case(DryTable::of_blend(&thinner()).with_residuals(&[f64::NAN]).map(|_| ()), "0 h or more")]
fn questions_without_an_answer_are_refused(#[case] got: mistcoat::Result<()>, #[case] says: &str) {
    assert!(got.unwrap_err().to_string().contains(says));
}

#[test]
fn stopped_work_keeps_what_is_finished() {
    let progress = Progress::new(4000);
    let table = DryTable::of_blend(&thinner());
    let setting = |row: usize| {
        if row == 17 {
            progress.cancel();
        }
        BASE
    };
    let dried = table.run(4000, setting, &progress).unwrap();
    assert!(!dried.is_complete());
    let finished = dried.states().iter().filter(|s| **s != RowState::Waiting).count();
    assert_eq!(finished, progress.done());
    assert!(finished < 4000);
    for (state, flash) in dried.states().iter().zip(dried.column("flash_off_s").unwrap()) {
        assert_eq!(*state == RowState::Dried, flash.is_finite());
    }
    // A handle that was cancelled before lets nothing begin.
    let mut rows = vec![1.0; 10];
    for_rows(&mut rows, &progress, || (), |(), _, x| *x = 2.0);
    assert_eq!(rows, [1.0; 10]);
}

#[test]
fn no_rows_are_no_work() {
    let dried = DryTable::of_blend(&thinner()).run(0, |_| BASE, &Progress::new(0)).unwrap();
    assert!(dried.is_complete() && dried.bad().is_none() && dried.column("flash_off_s").unwrap().is_empty());
}
