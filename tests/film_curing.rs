//! Coats that do not dry like a lacquer: particles in water, and paints that harden by oxygen.

#![allow(clippy::unwrap_used, reason = "helpers and tables of a test")]

use mistcoat::air::Room;
use mistcoat::blend::{Basis, Blend};
use mistcoat::dose::{Parts, Thinning};
use mistcoat::film::{Binder, Dispersion, Drying, Film, Substrate};
use mistcoat::paint::{Family, Mix, Paint};
use mistcoat::quantity::{
    Length, Number, Quantity, Ratio, RelativeHumidity, Temperature, VolumeFraction, parse,
};
use proptest::prelude::*;

fn room(celsius: f64, humidity: f64) -> Room {
    Room::new(Temperature::from_si(273.15 + celsius), RelativeHumidity::new(humidity).unwrap()).unwrap()
}

fn mix(family: Family, thinner: &str) -> Mix {
    let thinner = Blend::from_names(&[(thinner, 1.0)], Basis::Volume, None).unwrap();
    let thinning = Thinning::from_parts(Parts { thinner: 1.0, paint: 3.0 }).unwrap();
    Paint::typical(family, "hull green").unwrap().thin(&thinner, thinning).unwrap()
}

fn acrylic(micrometres: f64, celsius: f64, humidity: f64) -> Drying {
    let wet = Length::from_si(micrometres * 1e-6);
    let film = Film::of_mix(&mix(Family::WaterborneAcrylic, "water"), wet, &room(celsius, humidity)).unwrap();
    film.dry().unwrap()
}

fn codes(dry: &Drying) -> Vec<&str> {
    dry.warnings().iter().map(|w| w.code.as_str()).collect()
}

// Common practice: an airbrushed waterborne coat is touch dry in 5 to 30 minutes of a room.
#[test]
fn a_waterborne_coat_is_touch_dry_within_the_half_hour() {
    let touch = acrylic(25.0, 21.0, 0.5).touch_dry().unwrap();
    let minutes = touch.best().si() / 60.0;
    assert!((4.0..40.0).contains(&minutes), "{minutes}");
    assert!(touch.estimate.contributors.iter().any(|c| c.what.contains("touch dry means")));
    assert!(touch.working.to_string().contains("particles packed"));
}

// Kiil (Prog. Org. Coat. 57 (2006) 236, abstract): the rate is constant until 74 vol% of solids. Pure water and particles.
#[test]
fn the_rate_is_constant_until_the_particles_touch() {
    let water = Blend::from_names(&[("water", 1.0)], Basis::Mass, None).unwrap();
    let dry =
        Film::new(&water, VolumeFraction::new(0.30).unwrap(), parse("300 µm").unwrap(), &room(23.0, 0.5))
            .unwrap()
            .with_substrate(Substrate::named("isothermal").unwrap())
            .with_dispersion(Dispersion::new(parse("10 °C").unwrap()).unwrap())
            .dry()
            .unwrap();
    // Water left at 74 vol% of solids: 0.30 × 0.26/0.74 of the wet volume, of 0.70.
    let packed = 1.0 - 0.30 * 0.26 / 0.74 / 0.70;
    let half = dry.time_to_lose(parse("42 %").unwrap()).unwrap().si();
    let all = dry.time_to_lose(Ratio::from_si(packed)).unwrap().si();
    approx::assert_relative_eq!(all / half, packed / 0.42, max_relative = 0.02);
    // The dry layer, D 7e-7 m2/s: 90 µm of it stretch the last stage by k h/(2 D), a tenth or so; the mark is later for it.
    let touch = dry.touch_dry().unwrap().best().si();
    assert!(touch > dry.time_to_lose(parse("97 %").unwrap()).unwrap().si() * 0.97);
}

#[test]
fn cold_rooms_are_told() {
    let warm = acrylic(25.0, 23.0, 0.5);
    assert!(!codes(&warm).iter().any(|c| c.starts_with("film-formation")), "{:?}", warm.warnings());
    let cool = acrylic(25.0, 9.0, 0.6);
    assert!(codes(&cool).contains(&"film-formation-near"), "{:?}", cool.warnings());
    let water = Blend::from_names(&[("water", 1.0)], Basis::Mass, None).unwrap();
    let bare =
        Film::new(&water, VolumeFraction::new(0.3).unwrap(), parse("25 µm").unwrap(), &room(16.0, 0.4))
            .unwrap()
            .with_dispersion(Dispersion::new(parse("15 °C").unwrap()).unwrap());
    let dry = bare.dry().unwrap();
    // The room is warm enough, the film while its water leaves is not.
    let text = dry.warnings().iter().find(|w| w.code == "film-formation").unwrap().message.clone();
    assert!(text.contains("15 °C") && text.contains("powdery"), "{text}");
    let back: Film = serde_json::from_str(&serde_json::to_string(&bare).unwrap()).unwrap();
    assert_eq!(back, bare);
}

// 5 vol% of a glycol ether of 0.95 g/mL in a carrier at 30 vol% solids of 1.18 g/mL: 9.4 mass per cent on the binder, 2.5 K each.
#[test]
fn coalescing_aid_lowers_the_film_formation_temperature() {
    let carrier =
        Blend::from_names(&[("water", 95.0), ("dipropylene glycol methyl ether", 5.0)], Basis::Volume, None)
            .unwrap();
    let particles = Dispersion::new(parse("20 °C").unwrap()).unwrap();
    let at = |solids: f64| {
        particles.film_formation_temperature(&carrier, VolumeFraction::new(solids).unwrap()).unwrap()
    };
    approx::assert_abs_diff_eq!(at(0.3).best.si(), 293.15 - 2.5 * 9.4, epsilon = 0.5);
    // No more than 12 % counts, and glycol does not.
    approx::assert_abs_diff_eq!(at(0.1).best.si(), 293.15 - 30.0, epsilon = 1e-9);
    let glycol =
        Blend::from_names(&[("water", 90.0), ("propylene glycol", 10.0)], Basis::Volume, None).unwrap();
    let same = particles.film_formation_temperature(&glycol, VolumeFraction::new(0.3).unwrap()).unwrap();
    assert_eq!(&same, particles.bare());
    assert!(at(0.3).std() > particles.bare().std());
}

#[test]
fn humid_air_and_glycol_keep_it_wet_and_say_so() {
    let carrier = Blend::from_names(&[("water", 60.0), ("glycerol", 40.0)], Basis::Volume, None).unwrap();
    let film =
        Film::new(&carrier, VolumeFraction::new(0.3).unwrap(), parse("25 µm").unwrap(), &room(21.0, 0.8))
            .unwrap()
            .with_dispersion(Dispersion::new(parse("5 °C").unwrap()).unwrap())
            .until(parse("1 d").unwrap())
            .unwrap();
    let text = film.dry().unwrap().touch_dry().unwrap_err().to_string();
    assert!(text.contains("glycol") && text.contains("24 h"), "{text}");
}

#[test]
fn oxygen_is_common_practice_and_says_so() {
    for (family, range) in [(Family::AlkydEnamel, "2 h"), (Family::ArtistsOil, "2 d")] {
        let wet = parse("30 µm").unwrap();
        let dry = Film::of_mix(&mix(family, "white spirit"), wet, &room(20.0, 0.5)).unwrap().dry().unwrap();
        for refused in [dry.touch_dry(), dry.block_free()] {
            let text = refused.unwrap_err().to_string();
            assert!(
                text.contains("oxygen") && text.contains("common practice") && text.contains(range),
                "{text}"
            );
        }
        assert!(dry.film().oxidative_cure().unwrap().caution.contains("catch fire"));
        assert!(dry.flash_off().is_ok());
    }
    let lacquer = Film::of_mix(
        &mix(Family::SolventLacquer, "n-butyl acetate"),
        parse("25 µm").unwrap(),
        &room(20.0, 0.5),
    );
    assert!(lacquer.unwrap().oxidative_cure().is_none());
}

#[test]
fn a_dispersion_has_no_block_free_time() {
    let text = acrylic(25.0, 21.0, 0.5).block_free().unwrap_err().to_string();
    assert!(text.contains("goes on hardening"), "{text}");
    assert!(Dispersion::new(parse("-80 °C").unwrap()).unwrap_err().to_string().contains("data sheet"));
    assert!(Dispersion::new(Temperature::from_si(f64::NAN)).is_err());
}

// What the parameters of a binder do to a lacquer.
#[test]
fn parameters_of_the_binder_act() {
    let thinner = Blend::from_names(&[("n-butyl acetate", 1.0)], Basis::Mass, None).unwrap();
    let binder = || Binder::new(parse("50 °C").unwrap()).unwrap();
    let dry = |binder: Binder| {
        Film::new(&thinner, VolumeFraction::new(0.2).unwrap(), parse("40 µm").unwrap(), &room(23.0, 0.5))
            .unwrap()
            .with_binder(binder)
            .dry()
            .unwrap()
    };
    let number = Number::from_si;
    let left = |d: &Drying| d.residual_solvent(parse("1 h").unwrap()).unwrap().best().si();
    let usual = dry(binder());
    // A better solvent (smaller χ) is held more strongly; faster diffusion leaves less behind.
    let better = dry(binder().with_chi(number(0.0)).unwrap());
    assert!(better.touch_dry().unwrap().best() > usual.touch_dry().unwrap().best());
    let loose = dry(binder().with_steepness(number(0.6)).unwrap());
    assert!(left(&loose) < left(&usual));
    // A binder that likes water takes up more of it.
    let water = |d: &Drying| d.amounts().last().unwrap().last().copied().unwrap();
    assert!(water(&dry(binder().with_chi_of_water(number(1.0)).unwrap())) > water(&usual));
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(16) })]
    #[test]
    fn thicker_and_damper_is_later(wet in 8.0_f64..80.0, celsius in 15.0_f64..30.0, humidity in 0.1_f64..0.6) {
        let time = |wet: f64, humidity: f64| acrylic(wet, celsius, humidity).touch_dry().unwrap().best().si();
        let here = time(wet, humidity);
        prop_assert!(time(wet * 1.3, humidity) > here);
        prop_assert!(time(wet, humidity + 0.1) > here);
    }
}
