//! One drying simulation: the 25 µm ternary film with its substrate, and with binder.

use criterion::{Criterion, criterion_group, criterion_main};
use mistcoat::air::Room;
use mistcoat::blend::{Basis, Blend};
use mistcoat::film::Film;
use mistcoat::quantity::{RelativeHumidity, VolumeFraction, parse};
use std::hint::black_box;

fn films(c: &mut Criterion) {
    let setup = || -> mistcoat::Result<[(&'static str, Film); 3]> {
        let parts = [("acetone", 50.0), ("n-butyl acetate", 35.0), ("2-butoxyethanol", 15.0)];
        let thinner = Blend::from_names(&parts, Basis::Mass, None)?;
        let water = Blend::from_names(&[("water", 1.0)], Basis::Mass, None)?;
        let room =
            Room::new(parse("25 °C")?, RelativeHumidity::new(0.5)?)?.with_air_speed(parse("0.2 m/s")?)?;
        let film = |blend: &Blend, solids: f64| {
            Film::new(blend, VolumeFraction::new(solids)?, parse("25 µm")?, &room)
        };
        Ok([
            ("ternary", film(&thinner, 0.0)?),
            ("ternary with binder", film(&thinner, 0.15)?),
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
