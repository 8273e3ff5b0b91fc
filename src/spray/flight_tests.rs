use super::*;
use crate::air::{Orifice, Room};
use crate::blend::{Basis, Blend};
use crate::film::Film;
use crate::quantity::{Ratio, RelativeHumidity, VolumeFraction, parse};

const FILM_M: f64 = 1e-4;

fn room(celsius: f64, humidity: f64) -> Room {
    let t = crate::quantity::Temperature::from_si(celsius + 273.15);
    Room::new(t, RelativeHumidity::new(humidity).unwrap()).unwrap()
}

fn flight(parts: &[(&str, f64)], solids: f64, room: &Room, jet: Option<Jet>) -> Flight {
    let blend = Blend::from_names(parts, Basis::Mass, None).unwrap();
    let film =
        Film::new(&blend, VolumeFraction::new(solids).unwrap(), Length::from_si(FILM_M), room).unwrap();
    let surface = film::wet_surface(&film).unwrap();
    Flight::new(surface, FILM_M, jet, 0.02e-3 / 950.0)
}

/// 2 bar through 0.5 mm2 at 0.8, with 0.02 g/s of paint in it.
fn jet(room: &Room) -> Jet {
    let nozzle = Orifice::effective(parse("0.4 mm2").unwrap()).unwrap();
    let jet = Jet::new(&nozzle, parse("2 bar").unwrap(), room).unwrap();
    jet.loaded(Ratio::from_si(0.02e-3 / jet.mass_flow_kg_s)).unwrap()
}

/// Share of the volatile mass lost.
fn lost(flight: &mut Flight, um: f64, cm: f64) -> f64 {
    let landed = flight.fly(um * 1e-6, End::Distance(cm * 1e-2), 1.0).unwrap();
    let mass = |n: &[f64]| -> f64 {
        n.iter().zip(&flight.surface().species).map(|(n, s)| n * s.molar_mass_kg_mol).sum()
    };
    1.0 - mass(&landed.amounts) / mass(flight.start())
}

// Solvent lost in flight at 5, 10, 20 and 30 cm, in per cent of its mass, 10 vol% of solids, 2 bar, 25 °C: an integration of
// the same laws by scipy with thermo's data and UNIFAC (computed apart from this code, printed as whole numbers). It had
// no water in the drops of organic liquids, hence the dry air here. Pure-liquid data of the two differ by some per cent;
// 3.5 points, or 12 % of the loss, holds for all 96 numbers.
#[rstest::rstest]
#[case(&[("acetone", 1.0)], 0.0, [[29, 74, 100, 100], [16, 31, 75, 100], [10, 16, 31, 52]])]
#[case(&[("methyl ethyl ketone", 1.0)], 0.0, [[19, 54, 100, 100], [10, 21, 56, 95], [6, 10, 21, 38]])]
#[case(&[("n-butyl acetate", 1.0)], 0.0, [[5, 18, 59, 99], [2, 6, 19, 38], [1, 2, 6, 12]])]
#[case(&[("ethanol", 1.0)], 0.0, [[9, 28, 82, 100], [5, 10, 29, 55], [3, 5, 11, 19]])]
#[case(&[("isopropanol", 1.0)], 0.0, [[8, 27, 80, 100], [4, 10, 28, 53], [2, 4, 10, 18]])]
#[case(&[("2-butoxyethanol", 1.0)], 0.0, [[0, 2, 6, 14], [0, 1, 2, 4], [0, 0, 1, 1]])]
#[case(&[("water", 1.0)], 0.5, [[0, 2, 10, 22], [0, 1, 3, 7], [0, 1, 1, 2]])]
#[case(&[("acetone", 50.0), ("n-butyl acetate", 35.0), ("2-butoxyethanol", 15.0)], 0.0,
    [[22, 52, 79, 90], [12, 24, 52, 66], [8, 12, 24, 40]])]
fn losses_in_flight(#[case] parts: &[(&str, f64)], #[case] humidity: f64, #[case] table: [[i32; 4]; 3]) {
    let room = room(25.0, humidity);
    let mut flight = flight(parts, 0.1, &room, Some(jet(&room)));
    for (um, row) in [10.0, 20.0, 40.0].into_iter().zip(table) {
        for (cm, percent) in [5.0, 10.0, 20.0, 30.0].into_iter().zip(row) {
            let ours = 100.0 * lost(&mut flight, um, cm);
            let printed = f64::from(percent);
            let allowed = (0.12 * printed).max(3.5);
            assert!(
                (ours - printed).abs() < allowed,
                "{} {um} µm, {cm} cm: {ours:.1} %, printed {printed} %",
                parts[0].0
            );
        }
    }
}

// Flight of the 20 µm drops of that table: 0.4, 1.3, 7.7 and 19 ms.
#[test]
fn times_of_flight() {
    let room = room(25.0, 0.0);
    let mut flight = flight(&[("n-butyl acetate", 1.0)], 0.1, &room, Some(jet(&room)));
    for (cm, ms) in [(5.0, 0.4), (10.0, 1.3), (20.0, 7.7), (30.0, 19.0)] {
        let landed = flight.fly(20e-6, End::Distance(cm * 1e-2), 1.0).unwrap();
        approx::assert_relative_eq!(landed.time_s * 1e3, ms, max_relative = 0.15);
    }
}

// The d² law of a water drop in still air of 25 °C and 50 % humidity: wet bulb 17.3 °C, K 6.5e-10 m2/s, life of 10, 20,
// 50 and 100 µm 0.155, 0.62, 3.9 and 15.5 s (worked from the cited law; its K carries 5 % of its vapour data).
#[rstest::rstest]
#[case(10.0, 0.155)]
#[case(20.0, 0.62)]
#[case(50.0, 3.9)]
#[case(100.0, 15.5)]
fn square_law_of_water(#[case] um: f64, #[case] life_s: f64) {
    let room = room(25.0, 0.5);
    let mut flight = flight(&[("water", 1.0)], 0.0, &room, None);
    let half = flight.fly(um * 1e-6, End::Time(0.5 * life_s), 0.1).unwrap();
    let squared = half.volume.powf(2.0 / 3.0);
    let told = 0.5 * life_s / (1.0 - squared);
    approx::assert_relative_eq!(told, life_s, max_relative = 0.05);
    assert!((half.temperature_k - 273.15 - 17.3).abs() < 0.5, "{}", half.temperature_k - 273.15);
    // The law is the same all the way, and the drop is gone at its end.
    let later = flight.fly(um * 1e-6, End::Time(0.8 * life_s), 0.1).unwrap().volume.powf(2.0 / 3.0);
    approx::assert_relative_eq!((1.0 - later) / (1.0 - squared), 1.6, max_relative = 0.01);
    assert!(flight.fly(um * 1e-6, End::Time(1.2 * life_s), 0.1).unwrap().volume < 0.01);
}

// Ranz and Marshall at rest (Sh = 2), by hand: air of 25 °C and 90 % humidity holds 2852 Pa of water; D of water in air 25 mm2/s
// (handbook), the film between drop and air near 290 K: a fresh drop gathers 12 D p_w/(d² R T) = 8.87e5 mol/(m3 s) at 20 µm.
// What has gathered holds back its like, and the drop shrinks: within 10 % while that is little.
#[rstest::rstest]
#[case("ethanol", 20.0)]
#[case("isopropanol", 20.0)]
#[case("acetone", 20.0)]
#[case("ethanol", 40.0)]
fn water_comes_as_by_hand(#[case] solvent: &str, #[case] um: f64) {
    let room = room(25.0, 0.9);
    let mut flight = flight(&[(solvent, 1.0)], 0.1, &room, None);
    let time_s = 1e-4 * (um / 20.0) * (um / 20.0);
    let landed = flight.fly(um * 1e-6, End::Time(time_s), 0.1).unwrap();
    let by_hand = 12.0 * 25e-6 * 2852.0 / ((um * 1e-6).powi(2) * GAS_CONSTANT * 290.0) * time_s;
    approx::assert_relative_eq!(landed.amounts[1], by_hand, max_relative = 0.10);
    // Dry air brings none.
    let mut dry = self::flight(&[(solvent, 1.0)], 0.1, &self::room(25.0, 0.0), None);
    assert_eq!(dry.fly(um * 1e-6, End::Time(time_s), 0.1).unwrap().amounts.len(), 1);
}

// Water in air that is full: nothing happens, but that the cold jet lets a trace condense.
#[test]
fn saturated_air_takes_nothing() {
    let room = room(20.0, 1.0);
    let mut hanging = flight(&[("water", 1.0)], 0.1, &room, None);
    let landed = hanging.fly(10e-6, End::Time(1.0), 1.0).unwrap();
    approx::assert_relative_eq!(landed.volume, 1.0, max_relative = 1e-9);
    let mut flying = flight(&[("water", 1.0)], 0.1, &room, Some(jet(&room)));
    let landed = flying.fly(10e-6, End::Distance(0.1), 1.0).unwrap();
    assert!((0.97..1.08).contains(&landed.volume), "{}", landed.volume);
}

// A fine drop of acetone is solids long before 10 cm, and stays what it is.
#[test]
fn fine_drops_dry_to_dust() {
    let room = room(25.0, 0.0);
    let mut flight = flight(&[("acetone", 1.0)], 0.1, &room, Some(jet(&room)));
    let landed = flight.fly(5e-6, End::Distance(0.2), 1.0).unwrap();
    approx::assert_relative_eq!(landed.volume, 0.1, max_relative = 1e-3);
    assert!((landed.temperature_k - 298.15).abs() < 5.0);
}

// The step control holds the volume within 2 per cent of what was sprayed, and much better for drops of usual size.
#[rstest::rstest]
#[case(&[("acetone", 1.0)])]
#[case(&[("water", 1.0)])]
#[case(&[("acetone", 50.0), ("n-butyl acetate", 35.0), ("2-butoxyethanol", 15.0)])]
fn steps_are_fine_enough(#[case] parts: &[(&str, f64)]) {
    let room = room(25.0, 0.5);
    let mut flight = flight(parts, 0.1, &room, Some(jet(&room)));
    for um in [5.0, 10.0, 20.0, 40.0] {
        for cm in [5.0, 10.0, 20.0] {
            let usual = flight.fly(um * 1e-6, End::Distance(cm * 1e-2), 1.0).unwrap();
            let fine = flight.fly(um * 1e-6, End::Distance(cm * 1e-2), 0.02).unwrap();
            approx::assert_abs_diff_eq!(usual.volume, fine.volume, epsilon = 0.02);
        }
    }
}

proptest::proptest! {
    #![proptest_config(proptest::prelude::ProptestConfig::with_cases(48))]

    // Finer loses more, farther loses more; nothing is negative, nothing is lost that was not there, solids stay.
    #[test]
    fn ledger_and_trends(
        um in 1.0_f64..200.0, cm in 1.0_f64..40.0, humidity in 0.0_f64..1.0, celsius in 5.0_f64..40.0,
        solids in 0.0_f64..0.6, share in 0.0_f64..1.0,
    ) {
        let room = room(celsius, humidity);
        let parts = [("acetone", share), ("water", 0.5 * (1.0 - share)), ("2-butoxyethanol", 0.5)];
        let mut flight = flight(&parts, solids, &room, Some(jet(&room)));
        let there = End::Distance(cm * 1e-2);
        let landed = flight.fly(um * 1e-6, there, 1.0).unwrap();
        proptest::prop_assert!(landed.amounts.iter().all(|n| n.is_finite() && *n >= 0.0));
        proptest::prop_assert!(landed.temperature_k.is_finite() && landed.speed_m_s > 0.0 && landed.time_s > 0.0);
        proptest::prop_assert!(landed.volume >= solids * (1.0 - 1e-12));
        let molar: Vec<f64> = flight.surface().species.iter().map(|s| s.molar_volume_m3_mol).collect();
        let liquid: f64 = landed.amounts.iter().zip(&molar).map(|(n, v)| n * v).sum();
        approx::assert_relative_eq!(landed.volume, liquid + solids, max_relative = 1e-9);
        // Of the volatile solvent; water comes and goes.
        if share > 0.05 {
            let acetone = |l: &Landed| l.amounts[0] / flight.start()[0];
            let mut other = flight.clone();
            let finer = other.fly(0.7 * um * 1e-6, there, 1.0).unwrap();
            let farther = other.fly(um * 1e-6, End::Distance(1.3 * cm * 1e-2), 1.0).unwrap();
            proptest::prop_assert!(acetone(&finer) <= acetone(&landed) + 2e-3);
            proptest::prop_assert!(acetone(&farther) <= acetone(&landed) + 2e-3);
            proptest::prop_assert!(acetone(&landed) <= 1.0 + 1e-9);
        }
    }
}
