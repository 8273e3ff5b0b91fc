//! Vapour in a well-mixed room: worked examples, and what must hold for any session.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::float_cmp,
    reason = "a failed test panics; values that must be the same number are compared as such"
)]

#[path = "published/case.rs"]
mod case;
#[path = "published/room_vapour.rs"]
mod published;

use mistcoat::air::{Release, Room, RoomVapour};
use mistcoat::quantity::{
    Mass, MassConcentration, MolarMass, Quantity, Ratio, RelativeHumidity, Time, parse, to,
};
use proptest::prelude::*;

fn room(volume_m3: f64, per_hour: f64) -> Room {
    Room::new(parse("21 °C").unwrap(), RelativeHumidity::new(0.5).unwrap())
        .unwrap()
        .with_volume(parse(&format!("{volume_m3} m3")).unwrap())
        .unwrap()
        .with_air_changes(parse(&format!("{per_hour} /h")).unwrap())
        .unwrap()
}

fn acetone(room: &Room) -> RoomVapour {
    RoomVapour::new(room, parse::<MolarMass>("58.08 g/mol").unwrap()).unwrap()
}

fn release(grams: f64, from_min: f64, lasts_min: f64) -> Release {
    let minutes = |m: f64| Time::from_si(60.0 * m);
    Release::new(Mass::from_si(1e-3 * grams), minutes(from_min), minutes(lasts_min)).unwrap()
}

#[test]
fn worked_examples() {
    let rows = published::rows();
    assert_eq!(rows.len(), 9);
    for row in rows {
        let ours = published::computed(&row);
        let off = 100.0 * (ours / row.published - 1.0);
        assert!(off.abs() <= row.tolerance_percent, "{row:?}: {ours}");
    }
}

/// dC/dt = (G − kQC)/V in small steps (fourth-order Runge and Kutta), against the closed forms.
#[test]
fn closed_forms_follow_the_balance() {
    let vapour = acetone(&room(30.0, 2.0))
        .with_mixing(Ratio::from_si(0.4))
        .unwrap()
        .with_release(release(4.0, 0.0, 10.0))
        .with_release(release(2.0, 5.0, 20.0));
    let lambda = 0.4 * 2.0 / 3600.0;
    let rate = |t: f64| {
        (if t < 600.0 { 4e-3 / 600.0 } else { 0.0 }
            + if (300.0..1500.0).contains(&t) { 2e-3 / 1200.0 } else { 0.0 })
            / 30.0
    };
    let (mut c, mut dose, mut t, dt) = (0.0, 0.0, 0.0, 1.0);
    while t < 3600.0 {
        let g = rate(t + 0.5 * dt);
        let slope = |c: f64| g - lambda * c;
        let k1 = slope(c);
        let k2 = slope(c + 0.5 * dt * k1);
        let k3 = slope(c + 0.5 * dt * k2);
        let k4 = slope(c + dt * k3);
        let next = c + dt / 6.0 * (k1 + 2.0 * k2 + 2.0 * k3 + k4);
        dose += 0.5 * dt * (c + next) - dt * dt / 12.0 * (slope(next) - slope(c));
        c = next;
        t += dt;
    }
    let end = vapour.concentration(Time::from_si(3600.0)).unwrap().best().si();
    approx::assert_relative_eq!(end, c, max_relative = 1e-9);
    let mean = vapour.average(Time::from_si(0.0), Time::from_si(3600.0)).unwrap().best().si();
    approx::assert_relative_eq!(mean, dose / 3600.0, max_relative = 1e-9);
    // The first release ends at 600 s, the second at 1500 s: the peak is the higher of the two.
    let at = |t: f64| vapour.concentration(Time::from_si(t)).unwrap().best().si();
    let peak = vapour.peak().unwrap();
    assert_eq!(peak.best().si(), at(600.0).max(at(1500.0)));
    assert_eq!(at(vapour.peak_time().si()), peak.best().si());
    // The mixing was given: nothing else is uncertain.
    assert!(peak.estimate.low == peak.best() && peak.estimate.high == peak.best());
}

#[test]
fn the_interval_is_that_of_the_mixing() {
    let vapour = acetone(&room(30.0, 5.0)).with_release(release(4.0, 0.0, 60.0));
    let peak = vapour.peak().unwrap();
    assert_eq!(peak.estimate.contributors[0].what, "mixing of the room's air");
    assert!(peak.estimate.low < peak.best() && peak.best() < peak.estimate.high);
    assert!(
        peak.warnings.iter().any(|w| w.code == "room-average" && w.message.contains("safety data sheet"))
    );
    assert!(peak.working.to_text().contains("ppm"));
}

#[test]
fn a_closed_box_keeps_everything_and_a_spill_is_there_at_once() {
    let vapour = acetone(&room(30.0, 0.0)).with_release(release(3.0, 1.0, 0.0));
    let at = |t: f64| vapour.concentration(Time::from_si(t)).unwrap().best().si();
    assert_eq!(at(59.0), 0.0);
    approx::assert_relative_eq!(at(60.0), 1e-4, max_relative = 1e-12);
    approx::assert_relative_eq!(at(86_400.0), 1e-4, max_relative = 1e-12);
    assert_eq!(vapour.peak_time().si(), 60.0);
    let text = vapour.steady(Mass::from_si(1e-3), Time::from_si(60.0)).unwrap_err().to_string();
    assert!(text.contains("for ever"), "{text}");
}

#[test]
fn more_vapour_than_air_is_told() {
    let vapour = acetone(&room(1.0, 0.0)).with_release(release(9000.0, 0.0, 10.0));
    assert!(vapour.peak().unwrap().warnings.iter().any(|w| w.code == "beyond-saturation"));
}

#[test]
fn ventilation_meets_the_limit() {
    let session = |per_hour: f64| {
        acetone(&room(30.0, per_hour))
            .with_mixing(Ratio::from_si(0.3))
            .unwrap()
            .with_release(release(8.3, 0.0, 30.0))
    };
    let limit: MassConcentration = parse("100 mg/m3").unwrap();
    let needed = session(0.5).air_changes_to_stay_below(limit).unwrap().best();
    let per_hour = to(needed, "/h").unwrap();
    let reached = session(per_hour).peak().unwrap().best();
    approx::assert_relative_eq!(reached.si(), limit.si(), max_relative = 1e-9);
    let window = [Time::from_si(0.0), Time::from_si(8.0 * 3600.0)];
    let mean_limit: MassConcentration = parse("5 mg/m3").unwrap();
    let needed = session(0.5).air_changes_for_average(mean_limit, window[0], window[1]).unwrap().best();
    let reached = session(to(needed, "/h").unwrap()).average(window[0], window[1]).unwrap().best();
    approx::assert_relative_eq!(reached.si(), mean_limit.si(), max_relative = 1e-9);
    // A generous limit needs none.
    let none = session(0.5).air_changes_to_stay_below(parse("1 g/L").unwrap()).unwrap();
    assert_eq!(none.best().si(), 0.0);
    let text = session(0.5).air_changes_to_stay_below(parse("0.1 mg/m3").unwrap()).unwrap_err().to_string();
    assert!(
        text.contains("0.1 mg/m3") && text.contains("200 air changes") && text.contains("booth"),
        "{text}"
    );
}

#[rstest::rstest]
#[case(Release::new(Mass::from_si(-1.0), Time::from_si(0.0), Time::from_si(1.0)).map(|_| ()), ["released mass", "-1 kg", "in grams"])]
#[case(Release::new(Mass::from_si(f64::NAN), Time::from_si(0.0), Time::from_si(1.0)).map(|_| ()), ["released mass", "NaN", "in grams"])]
#[case(Release::new(Mass::from_si(1.0), Time::from_si(-1.0), Time::from_si(1.0)).map(|_| ()), ["begin", "-1 s", "start of the session"])]
#[case(RoomVapour::new(&Room::new(parse("21 °C").unwrap(), RelativeHumidity::new(0.5).unwrap()).unwrap(), parse("58 g/mol").unwrap()).map(|_| ()), ["room volume", "not given", "height"])]
#[case(RoomVapour::new(&room(30.0, 1.0), parse("0.5 g/mol").unwrap()).map(|_| ()), ["molar mass", "0.5 g/mol", "solvent"])]
#[case(acetone(&room(30.0, 1.0)).with_mixing(Ratio::from_si(2.0)).map(|_| ()), ["mixing factor", "2", "common practice"])]
#[case(acetone(&room(30.0, 1.0)).concentration(Time::from_si(f64::NAN)).map(|_| ()), ["time after", "NaN", "365 d"])]
#[case(acetone(&room(30.0, 1.0)).average(Time::from_si(5.0), Time::from_si(5.0)).map(|_| ()), ["end of the mean", "5 s", "8 h"])]
#[case(acetone(&room(30.0, 1.0)).steady(Mass::from_si(1.0), Time::from_si(0.0)).map(|_| ()), ["time of a release", "0 s", "0.1 g in 1 min"])]
#[case(acetone(&room(30.0, 1.0)).air_changes_to_stay_below(MassConcentration::from_si(0.0)).map(|_| ()), ["stay below", "0 mg/m3", "exposure limit"])]
fn bad_input(#[case] result: mistcoat::Result<()>, #[case] says: [&str; 3]) {
    let text = result.unwrap_err().to_string();
    for part in says {
        assert!(text.contains(part), "no {part:?} in: {text}");
    }
}

#[test]
fn json_round_trip_checks_again() {
    let vapour = acetone(&room(30.0, 1.0)).with_release(release(4.0, 0.0, 10.0));
    let json = serde_json::to_string(&vapour).unwrap();
    assert_eq!(serde_json::from_str::<RoomVapour>(&json).unwrap(), vapour);
    let bad = json.replace("4.0", "-4.0");
    assert_ne!(bad, json);
    assert!(serde_json::from_str::<RoomVapour>(&bad).unwrap_err().to_string().contains("released mass"));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Never negative, never more than was released; more air is never worse; the peak is the highest, the mean below it.
    #[test]
    fn bounded_and_monotone(
        grams in proptest::collection::vec((0.0_f64..20.0, 0.0_f64..60.0, 0.0_f64..120.0), 1..5),
        per_hour in 0.0_f64..20.0, mixing in 0.05_f64..1.0, t in 0.0_f64..300.0,
    ) {
        let session = |per_hour: f64| {
            let start = acetone(&room(20.0, per_hour)).with_mixing(Ratio::from_si(mixing)).unwrap();
            grams.iter().fold(start, |v, &(g, from, lasts)| v.with_release(release(g, from, lasts)))
        };
        let minutes = Time::from_si(60.0 * t);
        let total: f64 = grams.iter().map(|g| g.0).sum::<f64>() * 1e-3 / 20.0;
        let vapour = session(per_hour);
        let c = vapour.concentration(minutes).unwrap().best().si();
        let peak = vapour.peak().unwrap().best().si();
        prop_assert!((0.0..=total * (1.0 + 1e-12)).contains(&c));
        prop_assert!(c <= peak * (1.0 + 1e-12));
        prop_assert!(session(per_hour + 1.0).peak().unwrap().best().si() <= peak);
        if t > 0.0 {
            let mean = vapour.average(Time::from_si(0.0), minutes).unwrap().best().si();
            prop_assert!(mean <= peak * (1.0 + 1e-12));
        }
    }
}
