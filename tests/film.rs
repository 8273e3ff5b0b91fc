//! Drying films: sanity table, extremes, bad input, monotone responses.

#![allow(clippy::unwrap_used, clippy::too_many_arguments, reason = "helpers and tables of a test")]

use mistcoat::Result;
use mistcoat::air::Room;
use mistcoat::blend::{Basis, Blend};
use mistcoat::film::{Binder, Drying, Film, Substrate};
use mistcoat::quantity::{
    Length, Quantity, Ratio, RelativeHumidity, Temperature, Time, Velocity, VolumeFraction, parse, to,
};
use proptest::prelude::*;

fn blend(parts: &[(&str, f64)]) -> Blend {
    Blend::from_names(parts, Basis::Mass, None).unwrap()
}

fn ternary() -> Blend {
    blend(&[("acetone", 50.0), ("n-butyl acetate", 35.0), ("2-butoxyethanol", 15.0)])
}

fn room(celsius: f64, humidity: f64, air: f64) -> Room {
    Room::new(Temperature::from_si(celsius + 273.15), RelativeHumidity::new(humidity).unwrap())
        .unwrap()
        .with_air_speed(Velocity::from_si(air))
        .unwrap()
}

fn film(volatile: &Blend, solids: f64, micrometres: f64, room: &Room) -> Film {
    let thickness = Length::from_si(micrometres * 1e-6);
    Film::new(volatile, VolumeFraction::new(solids).unwrap(), thickness, room).unwrap()
}

fn seconds(dry: &Drying, percent: f64) -> f64 {
    dry.time_to_lose(Ratio::from_si(percent / 100.0)).unwrap().si()
}

/// One row of `tests/data/film_reference.csv`.
#[derive(serde::Deserialize)]
#[allow(non_snake_case, reason = "column names carry units")]
struct Row {
    mass_parts: String,
    solids_pct: f64,
    wet_um: f64,
    temperature_degC: f64,
    relative_humidity_pct: f64,
    air_speed_m_s: f64,
    part_length_mm: f64,
    substrate: String,
    binder_tg_degC: Option<f64>,
    t50_s: Option<f64>,
    t90_s: Option<f64>,
    t99_s: Option<f64>,
    coldest_degC: f64,
    touch_dry_s: Option<f64>,
    block_free_s: Option<f64>,
    residual_1h_pct: Option<f64>,
    residual_24h_pct: Option<f64>,
    source: String,
}

// The same equations and data, integrated by scipy's LSODA at 1e-7 with activities of the `thermo` package
// (tests/data/make_film_reference.py): times within 0.5 % and 0.1 K, marks and residual solvent within 1 %. The second
// table was drawn after the tolerances of the engine were set.
#[rstest::rstest]
#[case::bench("tests/data/film_reference.csv", 156, 5e-3, 1e-2)]
#[case::catalogue("tests/data/film_catalogue_reference.csv", 200, 3e-3, 2e-3)]
fn independent_integration(
    #[case] table: &str,
    #[case] films: usize,
    #[case] most_off: f64,
    #[case] mark_off: f64,
) {
    let mut rows = csv::Reader::from_path(table).unwrap();
    let (mut count, mut lacquers, mut steps, mut most_steps) = (0, 0, 0, 0);
    let (mut worst, mut worst_mark, mut worst_k) = (0.0_f64, 0.0_f64, 0.0_f64);
    let mut misses: Vec<String> = Vec::new();
    for row in rows.deserialize() {
        let row: Row = row.unwrap();
        let parts: Vec<(&str, f64)> = row
            .mass_parts
            .split(';')
            .map(|p| p.split_once('=').map(|(n, v)| (n, v.parse().unwrap())).unwrap())
            .collect();
        let air = room(row.temperature_degC, row.relative_humidity_pct / 100.0, row.air_speed_m_s);
        let mut wet = film(&blend(&parts), row.solids_pct / 100.0, row.wet_um, &air);
        if let Some(celsius) = row.binder_tg_degC {
            wet = wet.with_binder(Binder::new(Temperature::from_si(celsius + 273.15)).unwrap());
            lacquers += 1;
        }
        let dry = wet
            .with_substrate(Substrate::named(&row.substrate).unwrap())
            .with_part_length(Length::from_si(row.part_length_mm * 1e-3))
            .unwrap()
            .dry()
            .unwrap();
        let what = format!(
            "{}, {} µm on {}, binder {:?} ({})",
            row.mass_parts, row.wet_um, row.substrate, row.binder_tg_degC, row.source
        );
        let mut check = |name: &str, off: f64, limit: f64, worst: &mut f64| {
            *worst = worst.max(off.abs());
            if off.is_nan() || off.abs() > limit {
                misses.push(format!("{what}: {name} is off by {off:.5}"));
            }
        };
        for (percent, reference) in [(50.0, row.t50_s), (90.0, row.t90_s), (99.0, row.t99_s)] {
            let Some(reference) = reference else {
                // Not within the day that the reference follows a lacquer.
                let ours = dry.time_to_lose(Ratio::from_si(percent / 100.0));
                assert!(ours.is_err() || ours.unwrap().si() > 86_000.0, "{what}");
                continue;
            };
            // Hydrocarbons under dew part from the water they gather; the moment of it is ill defined, in the reference too.
            let hydrocarbons = parts.iter().all(|(n, _)| ["o-xylene", "toluene", "n-heptane"].contains(n));
            let limit = if hydrocarbons && dry.warnings().iter().any(|w| w.code == "blush-dew") {
                2.5e-2
            } else {
                most_off
            };
            let (off, mut parted) = (seconds(&dry, percent) / reference - 1.0, 0.0);
            check(
                &format!("t{percent}"),
                off,
                limit,
                if limit > most_off { &mut parted } else { &mut worst },
            );
        }
        let cold = to(dry.coldest(), "°C").unwrap();
        check("coldest, K,", cold - row.coldest_degC, 0.1, &mut worst_k);
        for (mark, reference) in [(dry.touch_dry(), row.touch_dry_s), (dry.block_free(), row.block_free_s)] {
            let ours = mark.as_ref().ok().map(|m| m.best().si()).filter(|s| *s < 86_400.0);
            assert_eq!(ours.is_some(), reference.is_some(), "{what}: {:?}", mark.map(|m| m.estimate));
            if let (Some(ours), Some(reference)) = (ours, reference) {
                check("mark", ours / reference - 1.0, mark_off, &mut worst_mark);
            }
        }
        for (hours, reference) in [(1.0, row.residual_1h_pct), (24.0, row.residual_24h_pct)] {
            let Some(reference) = reference else { continue };
            let ours = 100.0 * dry.residual_solvent(Time::from_si(hours * 3600.0)).unwrap().best().si();
            // The last ten-thousandth of what arrived, here against the solids, is not followed.
            let allowed = 0.01 * reference + 0.011 * (100.0 - row.solids_pct) / row.solids_pct;
            assert!((ours - reference).abs() < allowed, "{what}: {ours} % after {hours} h, {reference} %");
        }
        count += 1;
        most_steps = most_steps.max(dry.steps());
        steps += dry.steps();
    }
    println!(
        "{count} films, {lacquers} with a binder; worst {:.3} %, marks {:.3} %, {worst_k:.3} K; {:.1} steps, at most {most_steps}",
        100.0 * worst,
        100.0 * worst_mark,
        steps as f64 / count as f64
    );
    assert!(misses.is_empty(), "{}", misses.join("\n"));
    assert!(count == films && lacquers >= 70);
}

/// The 25 µm film of 50/35/15 acetone, n-butyl acetate, 2-butoxyethanol at 25 °C, 50 %, 0.2 m/s in its
/// variants: t90, t99 in s and coldest in °C, worked independently with the pure properties of the `thermo`
/// package (computed). Ours differ: vapour pressure of 2-butoxyethanol −2 %, of n-butyl acetate −4 %, density
/// up to 5 %; measured deviations reach 5 % on times and 0.2 K.
#[rstest::rstest]
#[case::plastic(Substrate::default(), 25.0, 0.5, 0.2, 25.0, 170.0, 387.0, Some(22.0))]
#[case::isothermal(Substrate::Isothermal, 25.0, 0.5, 0.2, 25.0, 147.0, 354.0, Some(25.0))]
#[case::free(Substrate::FreeFilm, 25.0, 0.5, 0.2, 25.0, 190.0, 406.0, Some(8.7))]
#[case::still_air(Substrate::default(), 25.0, 0.5, 0.0, 25.0, 415.0, 1162.0, None)]
#[case::fan(Substrate::default(), 25.0, 0.5, 0.5, 25.0, 112.0, 252.0, None)]
#[case::cool(Substrate::default(), 15.0, 0.5, 0.2, 25.0, 321.0, 749.0, None)]
#[case::warm(Substrate::default(), 35.0, 0.5, 0.2, 25.0, 93.0, 211.0, None)]
#[case::humid(Substrate::default(), 25.0, 0.8, 0.2, 25.0, 215.0, 502.0, None)]
#[case::thin(Substrate::default(), 25.0, 0.5, 0.2, 10.0, 65.0, 153.0, None)]
#[case::thick(Substrate::default(), 25.0, 0.5, 0.2, 50.0, 347.0, 773.0, None)]
fn ternary_table(
    #[case] substrate: Substrate,
    #[case] celsius: f64,
    #[case] humidity: f64,
    #[case] air: f64,
    #[case] micrometres: f64,
    #[case] t90: f64,
    #[case] t99: f64,
    #[case] coldest: Option<f64>,
) {
    let dry = film(&ternary(), 0.0, micrometres, &room(celsius, humidity, air))
        .with_substrate(substrate)
        .dry()
        .unwrap();
    let (ours90, ours99) = (seconds(&dry, 90.0), seconds(&dry, 99.0));
    println!("t90 {ours90:.1} ({t90}), t99 {ours99:.1} ({t99})");
    // At 15 °C the Antoine fit of 2-butoxyethanol here is 13 % below the one used there.
    let tolerance = if celsius < 20.0 { 0.16 } else { 0.10 };
    approx::assert_relative_eq!(ours90, t90, max_relative = tolerance);
    approx::assert_relative_eq!(ours99, t99, max_relative = tolerance);
    if let Some(coldest) = coldest {
        approx::assert_abs_diff_eq!(to(dry.coldest(), "°C").unwrap(), coldest, epsilon = 0.2);
    }
}

// Residue of the same film at 25, 50, 75 and 90 % lost: acetone/n-butyl acetate/2-butoxyethanol/water in
// mass per cent (computed, `thermo` properties).
#[rstest::rstest]
#[case(25.0, [34.0, 45.0, 20.0, 1.0])]
#[case(50.0, [8.0, 60.0, 29.0, 3.5])]
#[case(75.0, [0.0, 42.0, 54.0, 4.0])]
#[case(90.0, [0.0, 0.0, 94.0, 6.0])]
fn residue(#[case] lost: f64, #[case] expected: [f64; 4]) {
    let dry = film(&ternary(), 0.0, 25.0, &room(25.0, 0.5, 0.2)).dry().unwrap();
    let time = dry.time_to_lose(Ratio::from_si(lost / 100.0)).unwrap();
    for ((name, share), expected) in dry.composition_at(time).unwrap().iter().zip(expected) {
        let ours = 100.0 * share.si();
        assert!((ours - expected).abs() < 3.0, "{name} at {lost} % lost: {ours:.1} against {expected}");
    }
}

/// A water film that is thick enough settles at the wet bulb of the room but for radiation and the substrate.
#[test]
fn free_water_film_settles_near_the_wet_bulb() {
    let air = room(25.0, 0.5, 1.0);
    let dry =
        film(&blend(&[("water", 1.0)]), 0.0, 500.0, &air).with_substrate(Substrate::FreeFilm).dry().unwrap();
    let (cold, wet) = (dry.coldest().si(), air.wet_bulb().unwrap().si());
    assert!(cold > wet - 0.6 && cold < wet + 1.2, "{cold} K against {wet} K");
}

#[test]
fn mass_closes_and_curves_are_sane() {
    for (volatile, solids) in
        [(ternary(), 0.0), (ternary(), 0.2), (blend(&[("water", 80.0), ("ethanol", 20.0)]), 0.3)]
    {
        let dry = film(&volatile, solids, 30.0, &room(21.0, 0.55, 0.15)).dry().unwrap();
        let points = dry.times().len();
        assert!(dry.times().windows(2).all(|w| w[0] < w[1]));
        assert!(dry.amounts().iter().all(|a| a.len() == points && a.iter().all(|m| *m >= 0.0)));
        assert!(dry.amounts().iter().map(|a| a[0]).sum::<f64>() - 1.0 < 1e-12);
        approx::assert_relative_eq!(dry.solvent_left()[0], 1.0, max_relative = 1e-12);
        for (composition, left) in dry.composition().iter().zip(dry.amounts()) {
            assert!(
                composition.iter().zip(left).all(|(c, m)| (0.0..=1.0).contains(c) && (*m > 0.0 || *c == 0.0))
            );
        }
        let (first, last) = (dry.thicknesses()[0].si(), dry.thicknesses()[points - 1].si());
        approx::assert_relative_eq!(first, 30e-6, max_relative = 1e-12);
        assert!(last >= solids * 30e-6 && last < 1.05 * solids * 30e-6 + 1e-7, "{last}");
    }
}

#[test]
fn flash_off_says_what_the_spread_comes_from() {
    let dry = film(&ternary(), 0.15, 25.0, &room(25.0, 0.5, 0.2)).dry().unwrap();
    let answer = dry.flash_off().unwrap();
    approx::assert_relative_eq!(answer.best().si(), seconds(&dry, 90.0), max_relative = 1e-12);
    let names: Vec<&str> = answer.estimate.contributors.iter().map(|c| c.what.as_str()).collect();
    assert_eq!(names[0], "evaporation model");
    assert!(names.contains(&"wet film thickness") && names.contains(&"air speed in the room"), "{names:?}");
    // A factor 1.22 (rms) alone spans a factor 1.48 either way; the room and the film add to it.
    let factor = answer.estimate.high.si() / answer.best().si();
    assert!((1.48..2.2).contains(&factor), "{factor}");
    // A measured thickness counts as measured.
    let known = film(&ternary(), 0.15, 25.0, &room(25.0, 0.5, 0.2))
        .with_wet_thickness_uncertainty(parse("0 µm").unwrap())
        .unwrap();
    let known = known.dry().unwrap().flash_off().unwrap();
    assert!(known.estimate.contributors.iter().all(|c| c.what != "wet film thickness"));
    assert!(known.estimate.relative_std() < answer.estimate.relative_std());
    let text = answer.working.to_text();
    for part in ["acetone at the start", "2-butoxyethanol", "90 %", "GRK4T"] {
        assert!(text.contains(part), "no {part:?} in {text}");
    }
    for source in answer.working.steps.iter().map(|s| &s.source).filter(|s| !s.is_empty()) {
        assert!(mistcoat::source::find(source).is_ok(), "{source}");
    }
}

fn lacquer(celsius: f64, glass: &str) -> Film {
    film(&ternary(), 0.15, 25.0, &room(celsius, 0.5, 0.2))
        .with_binder(Binder::new(parse(glass).unwrap()).unwrap())
}

/// 15 vol% of a resin of 50 °C in the ternary thinner, 25 µm: touch dry, block-free in s, worked independently with the
/// pure properties of the `thermo` package (computed); deviations as in `ternary_table`.
#[rstest::rstest]
#[case(25.0, 203.0, 318.0)]
#[case(15.0, 322.0, 550.0)]
#[case(35.0, 131.0, 195.0)]
fn lacquer_table(#[case] celsius: f64, #[case] touch: f64, #[case] block_free: f64) {
    let dry = lacquer(celsius, "50 °C").dry().unwrap();
    let (ours_touch, ours_block) =
        (dry.touch_dry().unwrap().best().si(), dry.block_free().unwrap().best().si());
    println!("touch {ours_touch:.1} ({touch}), block-free {ours_block:.1} ({block_free})");
    approx::assert_relative_eq!(ours_touch, touch, max_relative = 0.16);
    approx::assert_relative_eq!(ours_block, block_free, max_relative = 0.2);
}

#[test]
fn marks_say_what_the_spread_comes_from() {
    let dry = lacquer(25.0, "50 °C").dry().unwrap();
    let free = dry.block_free().unwrap();
    let names: Vec<&str> = free.estimate.contributors.iter().map(|c| c.what.as_str()).collect();
    assert!(names.contains(&"glass transition of the binder"), "{names:?}");
    assert!(free.working.to_text().contains("block-free"));
    // After a day what is left depends on the binder above all.
    let day = dry.residual_solvent(parse("24 h").unwrap()).unwrap();
    let causes: Vec<&str> = day.estimate.contributors.iter().take(2).map(|c| c.what.as_str()).collect();
    assert!(causes.contains(&"diffusion in the binder"), "{causes:?}");
    let hour = dry.residual_solvent(parse("1 h").unwrap()).unwrap();
    assert!(day.best() < hour.best() && hour.estimate.low < hour.best());
    approx::assert_relative_eq!(
        dry.residual_solvent(parse("0 s").unwrap()).unwrap().best().si(),
        0.85,
        max_relative = 1e-9
    );
    for source in free.working.steps.iter().chain(&hour.working.steps).map(|s| &s.source) {
        assert!(source.is_empty() || mistcoat::source::find(source).is_ok(), "{source}");
    }
}

#[test]
fn a_harder_binder_is_sooner_hard_and_holds_more_solvent() {
    let (soft, hard) = (lacquer(25.0, "40 °C").dry().unwrap(), lacquer(25.0, "80 °C").dry().unwrap());
    assert!(hard.touch_dry().unwrap().best() < soft.touch_dry().unwrap().best());
    assert!(hard.block_free().unwrap().best() < soft.block_free().unwrap().best());
    let day: Time = parse("24 h").unwrap();
    assert!(hard.residual_solvent(day).unwrap().best() > soft.residual_solvent(day).unwrap().best());
    // Without a binder the film offers no resistance.
    let free = film(&ternary(), 0.15, 25.0, &room(25.0, 0.5, 0.2)).dry().unwrap();
    assert!(seconds(&free, 99.0) < seconds(&soft, 99.0));
}

#[test]
fn marks_that_never_come_say_why() {
    let plain = film(&ternary(), 0.15, 25.0, &room(25.0, 0.5, 0.2)).dry().unwrap();
    let soft = lacquer(35.0, "5 °C").dry().unwrap();
    let clear = film(&ternary(), 0.0, 25.0, &room(25.0, 0.5, 0.2)).dry().unwrap();
    let good = lacquer(25.0, "50 °C").dry().unwrap();
    let checks: [(Result<()>, [&str; 3]); 5] = [
        (plain.touch_dry().map(drop), ["touch dry", "unknown", "with_binder"]),
        (soft.block_free().map(drop), ["21 K", "in 7 d", "5 °C"]),
        (clear.residual_solvent(parse("1 h").unwrap()).map(drop), ["0 %", "more than 0 %", "composition_at"]),
        (good.residual_solvent(parse("-1 h").unwrap()).map(drop), ["-60 min", "7 d", "until"]),
        (good.residual_solvent(parse("8 d").unwrap()).map(drop), ["8 d", "7 d", "until"]),
    ];
    for (result, says) in checks {
        let text = result.unwrap_err().to_string();
        for part in says {
            assert!(text.contains(part), "no {part:?} in: {text}");
        }
    }
}

#[test]
fn paints_that_dry_by_evaporation_bring_their_binder() {
    use mistcoat::dose::{Parts, Thinning};
    use mistcoat::paint::{Family, Paint};
    let made = |family: Family, thinner: &[(&str, f64)]| {
        let paint = Paint::typical(family, "hull green").unwrap();
        let parts = Thinning::from_parts(Parts { thinner: 1.0, paint: 1.0 }).unwrap();
        let mix = paint.thin(&blend(thinner), parts).unwrap();
        Film::of_mix(&mix, parse("25 µm").unwrap(), &room(21.0, 0.5, 0.15)).unwrap()
    };
    let lacquer = made(Family::SolventLacquer, &[("n-butyl acetate", 1.0)]);
    assert!(lacquer.dry().unwrap().block_free().is_ok());
    let json = serde_json::to_string(&lacquer).unwrap();
    assert_eq!(serde_json::from_str::<Film>(&json).unwrap(), lacquer);
    assert!(made(Family::WaterborneAcrylic, &[("water", 1.0)]).binder().is_none());
    assert!(made(Family::AlkydEnamel, &[("white spirit", 1.0)]).binder().is_none());
}

/// Every corner ends in an answer or a typed error, in bounded work.
#[rstest::rstest]
#[case::acetone_in_a_gale(&[("acetone", 1.0)], 0.0, 1.0, 60.0, 0.0, 30.0)]
#[case::acetone_in_a_damp_gale(&[("acetone", 1.0)], 0.0, 1.0, 60.0, 1.0, 30.0)]
#[case::thick_acetone(&[("acetone", 1.0)], 0.3, 5000.0, 0.0, 1.0, 0.0)]
#[case::pentane_like(&[("n-hexane", 1.0)], 0.0, 100.0, 60.0, 0.5, 5.0)]
#[case::glycerol(&[("glycerol", 1.0)], 0.0, 25.0, 20.0, 0.5, 0.0)]
#[case::dry_glycerol(&[("glycerol", 1.0)], 0.2, 25.0, 20.0, 0.0, 0.0)]
#[case::wet_glycerol(&[("glycerol", 30.0), ("water", 70.0)], 0.2, 25.0, 20.0, 1.0, 0.1)]
#[case::water_at_saturation(&[("water", 1.0)], 0.0, 25.0, 20.0, 1.0, 0.1)]
#[case::water_near_saturation(&[("water", 1.0)], 0.4, 25.0, 20.0, 0.999, 0.1)]
#[case::dry_air(&[("water", 90.0), ("propylene glycol", 10.0)], 0.3, 40.0, 25.0, 0.0, 0.2)]
#[case::much_solids(&[("n-butyl acetate", 1.0)], 0.98, 25.0, 25.0, 0.5, 0.2)]
#[case::white_spirit(&[("white spirit", 1.0)], 0.4, 40.0, 18.0, 0.6, 0.1)]
#[case::splits(&[("water", 50.0), ("toluene", 50.0)], 0.0, 25.0, 25.0, 0.5, 0.2)]
fn extremes(
    #[case] parts: &[(&str, f64)],
    #[case] solids: f64,
    #[case] micrometres: f64,
    #[case] celsius: f64,
    #[case] humidity: f64,
    #[case] air: f64,
) {
    for substrate in
        [Substrate::default(), Substrate::FreeFilm, Substrate::Isothermal, Substrate::named("brass").unwrap()]
    {
        let dry = film(&blend(parts), solids, micrometres, &room(celsius, humidity, air))
            .with_substrate(substrate.clone())
            .dry()
            .unwrap();
        println!("{parts:?} on {substrate}: {} steps, lost {:?}", dry.steps(), dry.most_lost());
        assert!(dry.steps() < 1000, "{} steps on {substrate}", dry.steps());
        assert!(dry.temperatures().iter().all(|t| t.si().is_finite() && t.si() > 150.0));
        assert!(dry.amounts().iter().flatten().all(|m| m.is_finite() && *m >= 0.0));
        match dry.flash_off() {
            Ok(answer) => assert!(answer.best().si() > 0.0 && answer.estimate.high.si().is_finite()),
            Err(e) => {
                let text = e.to_string();
                assert!(
                    text.contains("90 %") && text.contains("stays") && text.contains("at most"),
                    "{text}"
                );
            }
        }
    }
}

#[test]
fn what_never_dries_says_what_holds_it() {
    let dry = film(&blend(&[("water", 1.0)]), 0.0, 25.0, &room(20.0, 1.0, 0.1)).dry().unwrap();
    let text = dry.flash_off().unwrap_err().to_string();
    assert!(text.contains("water stays") && text.contains("100 %") && text.contains("dry the air"), "{text}");
    let dry = film(&blend(&[("glycerol", 1.0)]), 0.0, 25.0, &room(20.0, 0.5, 0.0))
        .until(parse("1 h").unwrap())
        .unwrap()
        .dry()
        .unwrap();
    let text = dry.time_to_lose(Ratio::from_si(0.5)).unwrap_err().to_string();
    assert!(text.contains("glycerol stays") && text.contains("60 min") && text.contains("until"), "{text}");
}

#[test]
fn dew_on_a_cold_film_is_told() {
    let codes = |celsius: f64, humidity: f64, parts: &[(&str, f64)], substrate: Substrate| -> Vec<String> {
        let dry = film(&blend(parts), 0.1, 25.0, &room(celsius, humidity, 0.2))
            .with_substrate(substrate)
            .dry()
            .unwrap();
        dry.warnings().iter().map(|w| w.code.clone()).collect()
    };
    let acetone: &[(&str, f64)] = &[("acetone", 1.0)];
    assert_eq!(codes(25.0, 0.7, acetone, Substrate::default()), ["blush-dew"]);
    assert!(codes(25.0, 0.3, acetone, Substrate::default()).is_empty());
    assert_eq!(codes(25.0, 0.3, acetone, Substrate::FreeFilm), ["blush-dew"]);
    assert_eq!(codes(25.0, 0.85, &[("n-butyl acetate", 1.0)], Substrate::default()), ["blush-near"]);
    // What does not stay one liquid is dried, and told.
    assert_eq!(codes(25.0, 0.3, &[("water", 1.0), ("toluene", 1.0)], Substrate::Isothermal), ["phase-split"]);
    // A waterborne coat is not blushing when it is near the dew point.
    assert!(codes(25.0, 0.9, &[("water", 1.0)], Substrate::default()).is_empty());
}

#[rstest::rstest]
#[case("0 µm", 0.1, ["0 µm", "1 µm to 5 mm", "comb gauge"])]
#[case("6 mm", 0.1, ["6 mm", "1 µm to 5 mm", "comb gauge"])]
#[case("-25 µm", 0.1, ["-25 µm", "1 µm to 5 mm", "comb gauge"])]
#[case("25 µm", 1.0, ["100 %", "98 %", "thinned paint"])]
fn bad_coats(#[case] thickness: &str, #[case] solids: f64, #[case] says: [&str; 3]) {
    let solids = VolumeFraction::new(solids).unwrap();
    let text = Film::new(&ternary(), solids, parse(thickness).unwrap(), &room(21.0, 0.5, 0.1))
        .unwrap_err()
        .to_string();
    for part in says {
        assert!(text.contains(part), "no {part:?} in: {text}");
    }
}

#[test]
fn bad_questions() {
    let good = film(&ternary(), 0.1, 25.0, &room(21.0, 0.5, 0.1));
    assert!(
        Film::new(&ternary(), VolumeFraction::new(0.1).unwrap(), Length::from_si(f64::NAN), good.room())
            .is_err()
    );
    let unsure = parse("20 µm").unwrap();
    let checks: [(Result<()>, [&str; 3]); 5] = [
        (good.clone().with_wet_thickness_uncertainty(unsure).map(drop), ["20 µm", "12.5 µm", "comb gauge"]),
        (good.clone().with_part_length(parse("0 mm").unwrap()).map(drop), ["0 µm", "10 m", "draught"]),
        (good.clone().until(parse("0 s").unwrap()).map(drop), ["0 ms", "365 d", "7 d"]),
        (good.dry().unwrap().time_to_lose(Ratio::from_si(1.0)).map(drop), ["100 %", "99.9 %", "flash-off"]),
        (
            good.dry().unwrap().time_to_lose(Ratio::from_si(f64::NAN)).map(drop),
            ["NaN", "99.9 %", "flash-off"],
        ),
    ];
    for (result, says) in checks {
        let text = result.unwrap_err().to_string();
        for part in says {
            assert!(text.contains(part), "no {part:?} in: {text}");
        }
    }
}

#[test]
fn json_round_trip() {
    let f = film(&ternary(), 0.1, 25.0, &room(21.0, 0.5, 0.1))
        .until(parse("2 h").unwrap())
        .unwrap()
        .with_wet_thickness_uncertainty(parse("2 µm").unwrap())
        .unwrap();
    let json = serde_json::to_string(&f).unwrap();
    assert_eq!(serde_json::from_str::<Film>(&json).unwrap(), f);
    let dry = f.dry().unwrap();
    let json = serde_json::to_string(&dry).unwrap();
    assert_eq!(serde_json::from_str::<Drying>(&json).unwrap(), dry);
    let bad = serde_json::to_string(&f).unwrap().replace("\"solids\"", "\"solid\"");
    assert!(serde_json::from_str::<Film>(&bad).is_err());
}

/// Any thinner of the test, any room, with and without solids.
fn any_film() -> impl Strategy<Value = (Vec<(&'static str, f64)>, f64, f64, f64, f64, f64)> {
    let names =
        ["acetone", "ethanol", "n-butyl acetate", "toluene", "1-methoxy-2-propanol", "2-butoxyethanol"];
    let parts = proptest::sample::subsequence(names.to_vec(), 1..=4)
        .prop_flat_map(|names| {
            let n = names.len();
            (Just(names), proptest::collection::vec(1.0_f64..50.0, n))
        })
        .prop_map(|(names, amounts)| names.into_iter().zip(amounts).collect());
    (
        parts,
        prop_oneof![Just(0.0), 0.02..0.5_f64],
        2.0..150.0_f64,
        2.0..40.0_f64,
        0.05..0.85_f64,
        0.0..2.0_f64,
    )
}

/// Any liquids of the catalogue, in any proportion.
fn any_coat() -> impl Strategy<Value = (Vec<(&'static str, f64)>, Coat)> {
    let names = [
        "glycerol",
        "toluene",
        "n-heptane",
        "n-butyl acetate",
        "acetone",
        "ethanol",
        "propylene glycol",
        "white spirit",
        "d-limonene",
        "water",
        "o-xylene",
        "2-butoxyethanol",
        "n-butanol",
        "isododecane",
    ];
    let parts = proptest::sample::subsequence(names.to_vec(), 1..=5)
        .prop_flat_map(|names| {
            let n = names.len();
            (Just(names), proptest::collection::vec(1.0_f64..50.0, n))
        })
        .prop_map(|(names, amounts)| names.into_iter().zip(amounts).collect());
    let coat = (
        prop_oneof![Just(0.0), 0.02..0.98_f64],
        prop_oneof![1.0..100.0_f64, 100.0..5000.0_f64],
        1.0..45.0_f64,
        prop_oneof![Just(0.0), 0.0..1.0_f64, Just(1.0)],
        prop_oneof![Just(0.0), 0.0..2.0_f64, 2.0..30.0_f64],
        proptest::option::of(-60.0..150.0_f64),
        0..4_usize,
    );
    (parts, coat)
}

/// Solids, µm, °C, humidity, m/s, glass transition in °C, substrate.
type Coat = (f64, f64, f64, f64, f64, Option<f64>, usize);

fn wet_coat(parts: &[(&str, f64)], (solids, um, celsius, humidity, air, glass, substrate): Coat) -> Film {
    let substrates = [
        Substrate::default(),
        Substrate::FreeFilm,
        Substrate::Isothermal,
        Substrate::named("brass").unwrap(),
    ];
    let wet = film(&blend(parts), solids, um, &room(celsius, humidity, air))
        .with_substrate(substrates[substrate].clone());
    match glass {
        Some(celsius) if solids > 0.0 => {
            wet.with_binder(Binder::new(Temperature::from_si(celsius + 273.15)).unwrap())
        }
        _ => wet,
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    // Thicker is slower, more air is faster, warmer is faster; nothing goes negative, work stays small.
    #[test]
    fn monotone((parts, solids, um, celsius, humidity, air) in any_film()) {
        let run = |um: f64, celsius: f64, air: f64| {
            film(&blend(&parts), solids, um, &room(celsius, humidity, air)).dry().unwrap()
        };
        let base = run(um, celsius, air);
        prop_assert!(base.steps() < 600, "{} steps", base.steps());
        prop_assert!(base.amounts().iter().flatten().all(|m| *m >= 0.0 && m.is_finite()));
        let t90 = seconds(&base, 90.0);
        prop_assert!(seconds(&run(um * 1.2, celsius, air), 90.0) > t90);
        prop_assert!(seconds(&run(um, celsius, air * 1.3 + 0.1), 90.0) < t90);
        prop_assert!(seconds(&run(um, celsius + 5.0, air), 90.0) < t90);
    }

    // Anything in anything, parting liquids and hard binders included: an answer in bounded work, no negative amount, no NaN.
    #[test]
    fn whole_input_space((parts, coat) in any_coat()) {
        let dry = wet_coat(&parts, coat).dry().unwrap();
        prop_assert!(dry.steps() < 1500, "{} steps", dry.steps());
        prop_assert!(dry.amounts().iter().flatten().all(|m| *m >= 0.0 && m.is_finite()));
        prop_assert!(dry.temperatures().iter().all(|t| t.si().is_finite() && t.si() > 150.0));
        prop_assert!(dry.times().windows(2).all(|t| t[0] <= t[1]));
    }

    // With a binder too a thicker coat is slower and more air is faster, to flash-off and to touch dry (1500 random films on
    // plastic and on nothing at all, followed by hand: no exception).
    #[test]
    fn thicker_is_slower_and_more_air_faster_with_a_binder(
        (parts, solids, um, celsius, humidity, air) in any_film(), glass in 0.0..110.0_f64, free in any::<bool>()
    ) {
        let solids = solids.max(0.05);
        let substrate = if free { Substrate::FreeFilm } else { Substrate::default() };
        let run = |um: f64, air: f64| {
            let binder = Binder::new(Temperature::from_si(glass + 273.15)).unwrap();
            let wet = film(&blend(&parts), solids, um, &room(celsius, humidity, air));
            wet.with_binder(binder).with_substrate(substrate.clone()).dry().unwrap()
        };
        let base = run(um, air);
        for (fast, slow) in [(&base, &run(um * 1.2, air)), (&run(um, air * 1.3 + 0.1), &base)] {
            let half = Ratio::from_si(0.5);
            if let (Ok(a), Ok(b)) = (fast.time_to_lose(half), slow.time_to_lose(half)) {
                prop_assert!(b > a);
            }
            if let (Ok(a), Ok(b)) = (fast.touch_dry(), slow.touch_dry()) {
                prop_assert!(b.best() >= a.best());
            }
        }
    }

    // A waterborne coat: drier air is faster.
    #[test]
    fn drier_air_dries_water_faster(um in 5.0..100.0_f64, celsius in 5.0..35.0_f64, humidity in 0.1..0.9_f64, air in 0.0..2.0_f64) {
        let run = |humidity: f64| {
            seconds(&film(&blend(&[("water", 1.0)]), 0.3, um, &room(celsius, humidity, air)).dry().unwrap(), 80.0)
        };
        prop_assert!(run(humidity - 0.05) < run(humidity));
    }
}
