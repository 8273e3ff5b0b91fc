//! One drying simulation: the 25 µm ternary film with its substrate, with solids and with a binder that resists.

use criterion::{Criterion, criterion_group, criterion_main};
use mistcoat::air::Room;
use mistcoat::blend::{Basis, Blend};
use mistcoat::film::{Binder, Film};
use mistcoat::quantity::{RelativeHumidity, VolumeFraction, parse};
use std::hint::black_box;

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

criterion_group!(benches, films);
criterion_main!(benches);
