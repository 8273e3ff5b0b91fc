//! One shot: settings, drop size and the flight of five classes, at three distances.

use criterion::{Criterion, criterion_group, criterion_main};
use mistcoat::air::Room;
use mistcoat::blend::{Basis, Blend};
use mistcoat::dose::{Parts, Thinning};
use mistcoat::paint::{Family, Paint};
use mistcoat::quantity::{RelativeHumidity, parse};
use mistcoat::spray::Airbrush;
use std::hint::black_box;

fn shots(c: &mut Criterion) {
    let setup = || -> mistcoat::Result<_> {
        let room = Room::new(parse("25 °C")?, RelativeHumidity::new(0.5)?)?;
        let parts = [("acetone", 30.0), ("toluene", 30.0), ("n-butyl acetate", 30.0), ("isopropanol", 10.0)];
        let thinner = Blend::from_names(&parts, Basis::Mass, None)?;
        let paint = Paint::typical(Family::SolventLacquer, "hull green (invented)")?;
        let mix = paint.thin(&thinner, Thinning::from_parts(Parts { thinner: 1.0, paint: 1.0 })?)?;
        let gun = |distance: &str| Airbrush::new(parse("0.3 mm")?, parse("20 psi")?, parse(distance)?);
        let guns = [("50 mm", gun("50 mm")?), ("80 mm", gun("80 mm")?), ("150 mm", gun("150 mm")?)];
        Ok((room, mix, guns))
    };
    let Ok((room, mix, guns)) = setup() else { return };
    for (name, gun) in &guns {
        c.bench_function(&format!("spray/shot/{name}"), |b| b.iter(|| black_box(gun).spray(&mix, &room)));
    }
    let Ok(shot) = guns[1].1.spray(&mix, &room) else { return };
    c.bench_function("spray/wet film with its interval", |b| b.iter(|| black_box(&shot).wet_film_per_pass()));
}

criterion_group!(benches, shots);
criterion_main!(benches);
