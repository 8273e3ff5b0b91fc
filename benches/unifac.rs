//! Activity coefficients of a lacquer thinner of four solvents: the innermost call of the drying engine.

use criterion::{Criterion, criterion_group, criterion_main};
use mistcoat::blend::unifac::{GroupCount, Model, Table};
use std::hint::black_box;

const ACETONE: &[GroupCount] = &[("CH3", 1.0), ("CH3CO", 1.0)];
const BUTYL_ACETATE: &[GroupCount] = &[("CH3", 1.0), ("CH2", 3.0), ("CH3COO", 1.0)];
const WATER: &[GroupCount] = &[("H2O", 1.0)];

fn four_solvents(c: &mut Criterion) {
    let butoxyethanol: [&[GroupCount]; 2] = [
        &[("CH3", 1.0), ("CH2", 3.0), ("C2H5O2", 1.0)],
        &[("CH3", 1.0), ("CH2", 4.0), ("OH(P)", 1.0), ("CH2O", 1.0)],
    ];
    for (table, glycol_ether) in [Table::Original, Table::Dortmund].into_iter().zip(butoxyethanol) {
        let Ok(model) = Model::new(table, &[ACETONE, BUTYL_ACETATE, glycol_ether, WATER]) else { return };
        let x = [0.55, 0.25, 0.1, 0.1];
        let (mut scratch, mut out) = (model.scratch(), [0.0; 4]);
        c.bench_function(&format!("unifac {table}, 4 solvents, same temperature"), |b| {
            b.iter(|| model.ln_gamma(298.15, black_box(&x), &mut scratch, black_box(&mut out)));
        });
        let mut temperature_k = 290.0;
        c.bench_function(&format!("unifac {table}, 4 solvents, new temperature each call"), |b| {
            b.iter(|| {
                temperature_k = if temperature_k > 300.0 { 290.0 } else { temperature_k + 1e-3 };
                model.ln_gamma(black_box(temperature_k), black_box(&x), &mut scratch, black_box(&mut out));
            });
        });
        c.bench_function(&format!("unifac {table}, 4 solvents, model built anew"), |b| {
            b.iter(|| Model::new(table, black_box(&[ACETONE, BUTYL_ACETATE, glycol_ether, WATER])));
        });
    }
}

criterion_group!(benches, four_solvents);
criterion_main!(benches);
