//! One drying simulation: the 25 µm ternary film with its substrate, with solids and with a binder that resists.

use criterion::{Criterion, criterion_group, criterion_main};
use mistcoat::air::Room;
use mistcoat::blend::{Basis, Blend};
use mistcoat::film::{Binder, Film};
use mistcoat::quantity::{RelativeHumidity, VolumeFraction, parse};
use std::hint::black_box;
use std::time::Instant;

fn films(c: &mut Criterion) {
    let setup = || -> mistcoat::Result<[(&'static str, Film); 5]> {
        let parts = [("acetone", 50.0), ("n-butyl acetate", 35.0), ("2-butoxyethanol", 15.0)];
        let thinner = Blend::from_names(&parts, Basis::Mass, None)?;
        let four = [
            ("acetone", 40.0),
            ("ethyl acetate", 20.0),
            ("n-butyl acetate", 25.0),
            ("2-butoxyethanol", 15.0),
        ];
        let four = Blend::from_names(&four, Basis::Mass, None)?;
        let binder = Binder::new(parse("50 °C")?)?;
        let water = Blend::from_names(&[("water", 1.0)], Basis::Mass, None)?;
        let room =
            Room::new(parse("25 °C")?, RelativeHumidity::new(0.5)?)?.with_air_speed(parse("0.2 m/s")?)?;
        let film = |blend: &Blend, solids: f64| {
            Film::new(blend, VolumeFraction::new(solids)?, parse("25 µm")?, &room)
        };
        Ok([
            ("ternary", film(&thinner, 0.0)?),
            ("ternary with solids", film(&thinner, 0.15)?),
            ("four solvents with solids", film(&four, 0.15)?),
            ("four solvents with binder", film(&four, 0.15)?.until(parse("1 d")?)?.with_binder(binder)),
            ("water", film(&water, 0.3)?),
        ])
    };
    let Ok(films) = setup() else { return };
    for (name, film) in films {
        c.bench_function(&format!("film/dry/{name}"), |b| b.iter(|| black_box(&film).dry()));
    }
}

/// How far above the activities alone: a run cannot be cheaper than its UNIFAC evaluations.
#[allow(clippy::print_stdout, reason = "the output of a benchmark")]
fn yardstick(_: &mut Criterion) {
    let measure = || -> mistcoat::Result<(usize, f64, f64)> {
        let parts = [
            ("acetone", 40.0),
            ("ethyl acetate", 20.0),
            ("n-butyl acetate", 25.0),
            ("2-butoxyethanol", 15.0),
            ("water", 0.1),
        ];
        let four = Blend::from_names(&parts[..4], Basis::Mass, None)?;
        let room =
            Room::new(parse("25 °C")?, RelativeHumidity::new(0.5)?)?.with_air_speed(parse("0.2 m/s")?)?;
        let film = Film::new(&four, VolumeFraction::new(0.15)?, parse("25 µm")?, &room)?;
        let seconds = |runs: u32, work: &mut dyn FnMut()| {
            let start = Instant::now();
            (0..runs).for_each(|_| work());
            start.elapsed().as_secs_f64() / f64::from(runs)
        };
        let whole = seconds(2000, &mut || drop(black_box(black_box(&film).dry())));
        let with_water = Blend::from_names(&parts, Basis::Mass, None)?;
        let activity = with_water.activity();
        let (mut scratch, mut out) = (activity.scratch(), [0.0; 5]);
        let one = seconds(200_000, &mut || {
            let x = black_box([0.4, 0.2, 0.25, 0.15, 0.01]);
            activity.ln_gamma(299.15, &x, &mut scratch, &mut out);
            black_box(&out);
        });
        Ok((film.dry()?.activity_evaluations(), one, whole))
    };
    let Ok((count, one, whole)) = measure() else { return };
    println!(
        "film/yardstick: {count} UNIFAC evaluations of {:.0} ns make {:.1} us of {:.1} us, {:.1} times as long",
        one * 1e9,
        count as f64 * one * 1e6,
        whole * 1e6,
        whole / (count as f64 * one)
    );
}

criterion_group!(benches, films, yardstick);
criterion_main!(benches);
