//! A million cup times to viscosities and back: the loop behind `mistcoat.columns`.

#![allow(missing_docs, clippy::unwrap_used, reason = "a benchmark")]

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use mistcoat::cup::FlowCup;
use mistcoat::quantity::{Quantity, Time};
use std::hint::black_box;

const ROWS: u32 = 1_000_000;

fn cup(c: &mut Criterion) {
    let cup = FlowCup::standard("ISO 2431", "4").unwrap();
    let equation = cup.equation();
    let seconds: Vec<f64> = (0..ROWS).map(|i| 30.0 + 70.0 * f64::from(i) / f64::from(ROWS)).collect();
    let viscosities: Vec<f64> = seconds.iter().map(|t| equation.kinematic_viscosity_mm2_s(*t)).collect();
    let mut out = vec![0.0; seconds.len()];

    let mut group = c.benchmark_group("cup");
    group.throughput(Throughput::Elements(u64::from(ROWS)));
    group.bench_function("time to viscosity, 1e6", |b| {
        b.iter(|| {
            for (y, t) in out.iter_mut().zip(&seconds) {
                *y = equation.kinematic_viscosity_mm2_s(*t);
            }
            black_box(&out);
        });
    });
    group.bench_function("viscosity to time, 1e6", |b| {
        b.iter(|| {
            for (y, nu) in out.iter_mut().zip(&viscosities) {
                *y = equation.efflux_time_s(*nu);
            }
            black_box(&out);
        });
    });
    group.finish();
    c.bench_function("cup, one time with interval and working", |b| {
        b.iter(|| cup.kinematic_viscosity(black_box(Time::from_si(35.0))).unwrap());
    });
}

criterion_group!(benches, cup);
criterion_main!(benches);
