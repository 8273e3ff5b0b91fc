use super::*;
use crate::blend::{Basis, Blend};
use crate::dose::{Dropper, Parts, Thinning};
use crate::film::open_cup::run::Followed;
use crate::paint::{Family, Paint};
use crate::quantity::{Ratio, RelativeHumidity, parse};
use crate::solvent;
use proptest::prelude::*;
use rstest::rstest;

fn room(celsius: f64, humidity: f64, speed: f64) -> Room {
    Room::new(parse(&format!("{celsius} °C")).unwrap(), RelativeHumidity::new(humidity).unwrap())
        .unwrap()
        .with_air_speed(parse(&format!("{speed} m/s")).unwrap())
        .unwrap()
}

fn mix(family: Family, thinner: &[(&str, f64)], parts: f64) -> Mix {
    let paint = Paint::typical(family, "hull green").unwrap();
    let thinner = Blend::from_names(thinner, Basis::Volume, None).unwrap();
    paint.thin(&thinner, Thinning::from_parts(Parts { thinner: parts, paint: 1.0 }).unwrap()).unwrap()
}

fn lacquer() -> Mix {
    mix(Family::SolventLacquer, &[("acetone", 40.0), ("n-butyl acetate", 60.0)], 1.0)
}

fn cup(mix: &Mix, air: &Room, millimetres: [f64; 3]) -> OpenCup {
    let [diameter, depth, freeboard] = millimetres.map(|mm| Length::from_si(mm * 1e-3));
    OpenCup::new(mix, diameter, depth, air).unwrap().with_freeboard(freeboard).unwrap()
}

/// Net loss over all of the course, kg/(m2 s).
fn loss(followed: &Followed) -> f64 {
    let last = followed.trace.times_s.len() - 1;
    let lost = followed.mass_kg_m2(&followed.amounts(0)) - followed.mass_kg_m2(&followed.amounts(last));
    lost / followed.trace.times_s[last]
}

// Water at the bottom of a still tube of 0.1524 m at 20 °C, dry air over it: 1.595e-7 kmol/(m2 s) with a diffusivity of
// 0.250 cm2/s (Geankoplis, worked example, from memory). Ours by Fuller is 3 % smaller.
#[test]
fn water_in_a_tube() {
    let air = room(20.0, 0.0, 30.0);
    // Waterborne paint thinned a thousandfold: water with a trace of solids.
    let water = mix(Family::WaterborneAcrylic, &[("water", 1.0)], 1000.0);
    let tube = cup(&water, &air, [10.0, 10.0, 152.4])
        .with_pot(Substrate::Isothermal)
        .until(parse("1 h").unwrap())
        .unwrap();
    let course = tube.stand().unwrap();
    let per_area = loss(&course.followed) / 18.015;
    let fuller = solvent::find("water").unwrap().kernel().diffusivity_m2_s(293.15);
    approx::assert_relative_eq!(per_area, 1.595e-7, max_relative = 0.04);
    approx::assert_relative_eq!(per_area * 2.5e-5 / fuller, 1.595e-7, max_relative = 0.01);
}

// Open tank of toluene, 1.524 m across at 25 °C: K 0.482 cm/s, 0.162 lb/min (Crowl and Louvar, Chemical Process Safety, from
// memory). Their K is a cautious one for plants: the flux at *that* K must agree, and a room's own must lie below.
#[test]
fn open_tank_of_toluene() {
    let toluene = solvent::find("toluene").unwrap();
    let area = core::f64::consts::PI * 1.524_f64.powi(2) / 4.0;
    let book = 0.162 * 0.453_592 / 60.0;
    let at_k = 0.482e-2 * toluene.kernel().vapour_pressure_pa(298.15) * 0.09214 / (8.314_463 * 298.15) * area;
    approx::assert_relative_eq!(at_k, book, max_relative = 0.02);
    let paint = mix(Family::SolventLacquer, &[("toluene", 1.0)], 1000.0);
    let tank = Pool {
        mix: &paint,
        room: &room(25.0, 0.5, 0.5),
        depth_m: 0.1,
        length_m: 1.524,
        freeboard_m: 0.0,
        air_speed_m_s: 0.5,
        wall: &Substrate::Isothermal,
        until_s: 600.0,
    };
    let ours = loss(&tank.follow(Moved::NOTHING).unwrap()) * area;
    assert!((0.1..0.9).contains(&(ours / book)), "{}", ours / book);
}

// A mass balance of its own: the mass lost by the curves equals the fluxes at each point, integrated by trapezia.
#[test]
fn what_left_is_what_flowed_out() {
    let (mix, air) = (lacquer(), room(21.0, 0.5, 0.15));
    let cup = cup(&mix, &air, [30.0, 8.0, 10.0]).with_pot(Substrate::Isothermal);
    let course = cup.stand().unwrap();
    let (mut flowed, mut before) = (0.0, None);
    for (i, &t) in course.followed.trace.times_s.iter().enumerate() {
        let fluxes = cup.pool().fluxes(Some(&course.followed.amounts(i))).unwrap();
        let flux: f64 = fluxes.iter().map(|f| f.flux_kg_m2_s).sum();
        if let Some((t0, flux0)) = before {
            flowed += 0.5 * (flux + flux0) * (t - t0);
        }
        before = Some((t, flux));
    }
    let lost = course.mass_lost().last().unwrap().si() / cup.area_m2();
    approx::assert_relative_eq!(flowed, lost, max_relative = 1e-3);
    // By species: poured = left + lost, to the last digits.
    let poured: f64 = course.amounts().iter().map(|a| a[0].si()).sum();
    let left: f64 = course.amounts().iter().map(|a| a.last().unwrap().si()).sum();
    approx::assert_relative_eq!(poured - left, course.mass_lost().last().unwrap().si(), max_relative = 1e-9);
}

#[test]
fn an_evening_with_lacquer() {
    let (mix, air) = (lacquer(), room(21.0, 0.5, 0.15));
    let course = cup(&mix, &air, [30.0, 8.0, 10.0]).stand().unwrap();
    let times = ["10 %", "20 %", "50 %"].map(|r| course.time_to_thicken(parse(r).unwrap()).unwrap());
    for t in &times {
        assert!(t.estimate.low < t.estimate.best && t.estimate.best < t.estimate.high);
    }
    assert!(times[0].best() < times[1].best() && times[1].best() < times[2].best());
    let at = times[1].best();
    approx::assert_relative_eq!(course.thickened(at).unwrap().best().si(), 1.2, max_relative = 1e-3);
    let back = course.top_up(at, &Dropper::tip(parse("3 mm").unwrap()).unwrap()).unwrap();
    // What left was acetone: the restored mix is poorer in it and slower.
    let share = |of: &[(String, Ratio)]| of.iter().find(|(n, _)| n == "acetone").unwrap().1.si();
    assert!(share(&back.restored) < share(&back.poured));
    assert!(back.evaporation_rate.si() < 1.0);
    assert!(back.lost_volume.si() > 0.0 && back.thinner.best.si() < 1.5 * back.lost_volume.si());
    let drop = back.thinner.best.si() / back.drops.best.si();
    assert!((5e-9..5e-8).contains(&drop), "a drop of {drop} m3");
    // Cooling moves the time by less than a tenth, whatever the pot is made of.
    for pot in [Substrate::Isothermal, Substrate::FreeFilm, Substrate::named("glass").unwrap()] {
        let other = cup(&mix, &air, [30.0, 8.0, 10.0]).with_pot(pot).stand().unwrap();
        let fifth = other.time_to_thicken(parse("20 %").unwrap()).unwrap();
        approx::assert_relative_eq!(fifth.best().si(), at.si(), max_relative = 0.1);
    }
}

#[test]
fn restoring_really_restores() {
    let (mix, air) = (lacquer(), room(21.0, 0.5, 0.15));
    let course = cup(&mix, &air, [30.0, 8.0, 0.0]).stand().unwrap();
    let dropper = Dropper::tip(parse("3 mm").unwrap()).unwrap();
    let at: Time = parse("20 min").unwrap();
    let back = course.top_up(at, &dropper).unwrap();
    // Solids by volume after the top-up, by hand.
    let area = course.cup().area_m2();
    let now = course.followed.amounts_at(at.si());
    let volume = (course.followed.trace.solids_m + course.followed.liquid_m(&now)) * area;
    let solids = course.followed.trace.solids_m * area / (volume + back.thinner.best.si());
    // As thick as poured, with a liquid that is itself a little thicker: fewer solids than at first.
    assert!(solids < mix.volume_solids().best.si() * 1.001, "{solids}");
    assert!(course.top_up(parse("0 s").unwrap(), &dropper).is_err());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]
    #[test]
    fn more_air_warmth_and_width_thicken_sooner_depth_and_rim_later(
        celsius in 10.0_f64..30.0, speed in 0.05_f64..1.0, diameter in 10.0_f64..80.0, depth in 2.0_f64..30.0,
        rim in 0.0_f64..30.0, parts in 0.5_f64..2.0,
    ) {
        let mix = mix(Family::SolventLacquer, &[("acetone", 40.0), ("n-butyl acetate", 60.0)], parts);
        let time = |celsius: f64, speed: f64, depth: f64, rim: f64| {
            let course = cup(&mix, &room(celsius, 0.4, speed), [diameter, depth, rim])
                .until(parse("7 d").unwrap()).unwrap().stand().unwrap();
            course.followed.time_of_rise(&course.law, 0.2_f64.ln_1p()).unwrap().unwrap()
        };
        let here = time(celsius, speed, depth, rim);
        prop_assert!(here.is_finite() && here > 0.0);
        prop_assert!(time(celsius + 5.0, speed, depth, rim) < here);
        prop_assert!(time(celsius, speed * 2.0, depth, rim) < here);
        prop_assert!(time(celsius, speed, depth * 1.5, rim) > here);
        prop_assert!(time(celsius, speed, depth, rim + 5.0) > here);
    }

    #[test]
    fn curves_stay_sane(
        celsius in 5.0_f64..40.0, humidity in 0.0_f64..1.0, speed in 0.0_f64..5.0, diameter in 5.0_f64..200.0,
        depth in 0.2_f64..20.0, family in 0_usize..5,
    ) {
        let thinner: &[(&str, f64)] = match Family::ALL[family] {
            Family::WaterborneAcrylic => &[("water", 1.0)],
            Family::AlcoholAcrylic => &[("isopropanol", 1.0)],
            Family::SolventLacquer => &[("acetone", 1.0)],
            Family::AlkydEnamel | Family::ArtistsOil => &[("white spirit", 1.0)],
        };
        let mix = mix(Family::ALL[family], thinner, 1.0);
        let course = cup(&mix, &room(celsius, humidity, speed), [diameter, depth, 0.0]).stand().unwrap();
        for (solids, eta) in course.volume_solids().iter().zip(course.viscosities()) {
            prop_assert!((0.0..=1.0 + 1e-12).contains(solids) && eta.si().is_finite() && eta.si() > 0.0);
        }
        prop_assert!(course.amounts().iter().flatten().all(|m| m.si() >= 0.0));
    }
}

#[rstest]
#[case("2 mm", "8 mm", "0 mm", "1 h", ["2 mm", "500 mm", "airbrush cup"])]
#[case("30 mm", "0.1 mm", "0 mm", "1 h", ["100 µm", "300 mm", "a film"])]
#[case("30 mm", "8 mm", "-1 mm", "1 h", ["-1 mm", "300 mm", "full to the rim"])]
#[case("30 mm", "8 mm", "0 mm", "30 d", ["30 d", "7 d", "session"])]
fn bad_cups(
    #[case] diameter: &str,
    #[case] depth: &str,
    #[case] rim: &str,
    #[case] until: &str,
    #[case] says: [&str; 3],
) {
    let air = room(21.0, 0.5, 0.15);
    let made = OpenCup::new(&lacquer(), parse(diameter).unwrap(), parse(depth).unwrap(), &air)
        .and_then(|c| c.with_freeboard(parse(rim).unwrap()))
        .and_then(|c| c.until(parse(until).unwrap()));
    let text = made.unwrap_err().to_string();
    for part in says {
        assert!(text.contains(part), "no {part:?} in: {text}");
    }
}

#[test]
fn questions_it_cannot_answer_are_refused() {
    let air = room(21.0, 0.5, 0.15);
    let short = cup(&lacquer(), &air, [30.0, 20.0, 10.0]).until(parse("1 min").unwrap()).unwrap();
    let course = short.stand().unwrap();
    let text = course.time_to_thicken(parse("50 %").unwrap()).unwrap_err().to_string();
    assert!(text.contains("at most") && text.contains("until"), "{text}");
    assert!(course.time_to_thicken(Ratio::from_si(f64::NAN)).is_err());
    assert!(course.thickened(parse("2 min").unwrap()).is_err());
    assert!(course.composition_at(Time::from_si(f64::NAN)).is_err());
    let json = serde_json::to_string(&short).unwrap();
    assert_eq!(serde_json::from_str::<OpenCup>(&json).unwrap(), short);
}
