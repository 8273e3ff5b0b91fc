//! The order conditions of the method and of its fifth stages, from the coefficients as they stand (Hairer and Wanner,
//! Solving Ordinary Differential Equations II, section IV.7; from memory).

use super::rosenbrock::{A2, A3, C2, C3, C4, CHECK, CHECK_ERROR, DENSE, DENSE_INNER, ERROR, GAMMA, NEW};

type Row = [f64; 5];

/// The method in the terms of its theory: `α`, `α + γ`, and what turns weights of stages into theirs.
struct Theory {
    alpha: [Row; 5],
    beta: [Row; 5],
    gamma: [Row; 5],
}

fn padded(short: &[f64]) -> Row {
    let mut row = [0.0; 5];
    row[..short.len()].copy_from_slice(short);
    row
}

fn times(a: &Row, b: &[Row; 5]) -> Row {
    core::array::from_fn(|j| (0..5).map(|k| a[k] * b[k][j]).sum())
}

fn dot(a: &Row, b: &Row) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

impl Theory {
    fn with_fifth_stage(c5: [f64; 4]) -> Self {
        let a = [padded(&[]), padded(&A2), padded(&A3), padded(&A3), padded(&NEW)];
        let c = [padded(&[]), padded(&C2), padded(&C3), padded(&C4), padded(&c5)];
        // Γ is the inverse of I/γ − C, a lower triangle.
        let mut gamma = [[0.0; 5]; 5];
        for i in 0..5 {
            let (done, rest) = gamma.split_at_mut(i);
            for (j, entry) in rest[0].iter_mut().enumerate().take(i + 1) {
                let unit = if i == j { 1.0 } else { 0.0 };
                *entry = GAMMA * (unit + done.iter().zip(&c[i]).map(|(row, c)| c * row[j]).sum::<f64>());
            }
        }
        let alpha = a.map(|row| times(&row, &gamma));
        let beta = core::array::from_fn(|i| core::array::from_fn(|j| alpha[i][j] + gamma[i][j]));
        Self { alpha, beta, gamma }
    }

    /// The four sums of order up to 3, then the four of order 4, for these weights of the stages.
    fn conditions(&self, weights: &Row) -> [f64; 8] {
        let b = times(weights, &self.gamma);
        let row_sums = |m: &[Row; 5]| m.map(|row| row.iter().sum::<f64>());
        let (at, lag) = (row_sums(&self.alpha), row_sums(&self.beta));
        let squares = at.map(|a| a * a);
        let through = |m: &[Row; 5], v: &Row| m.map(|row| dot(&row, v));
        let twice = through(&self.beta, &lag);
        let weighted: Row = core::array::from_fn(|i| b[i] * at[i]);
        [
            b.iter().sum(),
            dot(&b, &lag),
            dot(&b, &squares),
            dot(&b, &twice),
            dot(&b, &at.map(|a| a * a * a)),
            dot(&weighted, &through(&self.alpha, &lag)),
            dot(&b, &through(&self.beta, &squares)),
            dot(&b, &through(&self.beta, &twice)),
        ]
    }
}

fn assert_near(ours: &[f64], wanted: &[f64]) {
    for (ours, wanted) in ours.iter().zip(wanted) {
        assert!((ours - wanted).abs() < 1e-8, "{ours} for {wanted}");
    }
}

#[test]
fn the_step_is_of_order_four_and_both_estimates_of_order_three() {
    let theory = Theory::with_fifth_stage(CHECK);
    let wanted = [1.0, 0.5, 1.0 / 3.0, 1.0 / 6.0, 0.25, 0.125, 1.0 / 12.0, 1.0 / 24.0];
    assert_near(&theory.conditions(&padded(&NEW)), &wanted);
    let (first, second) = (theory.conditions(&padded(&ERROR)), theory.conditions(&CHECK_ERROR));
    assert_near(&first[..4], &[0.0; 4]);
    assert_near(&second[..4], &[0.0; 4]);
    // In a smooth step the second is near to minus the first; neither is blind.
    for (first, second) in first[4..6].iter().zip(&second[4..6]) {
        assert!((-second / first - 1.0).abs() < 0.05 && first.abs() > 0.05, "{first} {second}");
    }
}

#[test]
fn dense_output_is_of_order_three_at_any_moment() {
    let theory = Theory::with_fifth_stage(DENSE);
    for s in [0.1, 0.25, 0.5, 0.9, 1.0] {
        let weights: Row = core::array::from_fn(|i| {
            let new = padded(&NEW)[i];
            s * new + s * (1.0 - s) * (DENSE_INNER[0][i] + s * DENSE_INNER[1][i])
        });
        let (square, cube) = (s * s, s * s * s);
        assert_near(&theory.conditions(&weights)[..4], &[s, square / 2.0, cube / 3.0, cube / 6.0]);
    }
}
