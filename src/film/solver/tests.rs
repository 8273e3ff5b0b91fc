//! Standard stiff problems with published reference solutions: Hairer and Wanner, Solving Ordinary
//! Differential Equations II, and the Test Set for IVP Solvers (Mazzia and Magherini, release 2.4).

use super::linear::Jacobian;
use super::rosenbrock::{Rosenbrock, Stuck, System};

struct Problem<const N: usize> {
    f: fn(&[f64], &mut [f64]),
    absolute: f64,
}

impl<const N: usize> System for Problem<N> {
    fn rate(&mut self, y: &[f64], dy: &mut [f64]) {
        (self.f)(y, dy);
    }
    fn core(&self) -> usize {
        N
    }
    fn jacobian(&mut self, y: &[f64], f: &[f64], jacobian: &mut Jacobian) {
        let mut moved = y.to_vec();
        let mut out = vec![0.0; N];
        for j in 0..N {
            let step = 1e-8 * y[j].abs().max(1e-12);
            moved[j] = y[j] + step;
            (self.f)(&moved, &mut out);
            for i in 0..N {
                jacobian.core[(i, j)] = (out[i] - f[i]) / step;
            }
            moved[j] = y[j];
        }
    }
    fn allowed(&self, _: &[f64]) -> bool {
        true
    }
    fn absolute_tolerance(&self, _: usize) -> f64 {
        self.absolute
    }
    fn longest_step(&self, _: &[f64], _: &[f64]) -> f64 {
        f64::INFINITY
    }
}

fn run<const N: usize>(
    f: fn(&[f64], &mut [f64]),
    y0: [f64; N],
    t_end: f64,
    relative: f64,
    absolute: f64,
) -> (Vec<f64>, usize) {
    let mut p = Problem::<N> { f, absolute };
    let mut r = Rosenbrock::new(&mut p, y0.to_vec(), relative, 20_000);
    while r.t() < t_end {
        r.step(&mut p, t_end).unwrap();
    }
    (r.y().to_vec(), r.work().steps)
}

fn robertson(y: &[f64], d: &mut [f64]) {
    d[0] = -0.04 * y[0] + 1e4 * y[1] * y[2];
    d[2] = 3e7 * y[1] * y[1];
    d[1] = -d[0] - d[2];
}

fn van_der_pol(y: &[f64], d: &mut [f64]) {
    d[0] = y[1];
    d[1] = ((1.0 - y[0] * y[0]) * y[1] - y[0]) * 1e6;
}

fn hires(y: &[f64], d: &mut [f64]) {
    d[0] = -1.71 * y[0] + 0.43 * y[1] + 8.32 * y[2] + 0.0007;
    d[1] = 1.71 * y[0] - 8.75 * y[1];
    d[2] = -10.03 * y[2] + 0.43 * y[3] + 0.035 * y[4];
    d[3] = 8.32 * y[1] + 1.71 * y[2] - 1.12 * y[3];
    d[4] = -1.745 * y[4] + 0.43 * y[5] + 0.43 * y[6];
    d[5] = -280.0 * y[5] * y[7] + 0.69 * y[3] + 1.71 * y[4] - 0.43 * y[5] + 0.69 * y[6];
    d[6] = 280.0 * y[5] * y[7] - 1.81 * y[6];
    d[7] = -d[6];
}

#[rstest::rstest]
#[case::t40(40.0, [0.715_827_068_719_394, 0.918_553_476_455_754e-5, 0.284_163_745_745_841])]
#[case::t1e11(1e11, [0.208_334_014_970_125_5e-7, 0.833_336_077_033_471_3e-13, 0.999_999_979_166_505])]
fn robertson_kinetics(#[case] t: f64, #[case] reference: [f64; 3]) {
    let (y, steps) = run(robertson, [1.0, 0.0, 0.0], t, 1e-7, 1e-16);
    for (ours, published) in y.iter().zip(reference) {
        // Without stiff accuracy the method loses order where it is stiff: 4e-5 at 1e11 s.
        approx::assert_relative_eq!(*ours, published, max_relative = 5e-5);
    }
    assert!(steps < 4000, "{steps} steps");
    // The sum of the three is conserved.
    approx::assert_relative_eq!(y.iter().sum::<f64>(), 1.0, max_relative = 1e-9);
}

#[test]
fn van_der_pol_oscillator() {
    let (y, steps) = run(van_der_pol, [2.0, 0.0], 2.0, 1e-6, 1e-6);
    // A slope that follows its equilibrium at a rate of 1e6: where a method without stiff accuracy is at its worst.
    approx::assert_relative_eq!(y[0], 1.706_167_732_170_469, max_relative = 1e-4);
    approx::assert_relative_eq!(y[1], -0.892_809_701_024_797_5, max_relative = 5e-3);
    // Radau IIA of order 5 in scipy 1.17 takes about 900 steps at this tolerance.
    assert!(steps < 2000, "{steps} steps");
}

#[test]
fn hires_light_response() {
    let reference = [
        0.737_131_257_332_566_8e-3,
        0.144_248_572_631_618_5e-3,
        0.588_872_974_096_757_5e-4,
        0.117_565_134_328_314_9e-2,
        0.238_635_619_883_133_1e-2,
        0.623_896_825_274_279_6e-2,
        0.284_999_839_518_576_9e-2,
        0.285_000_160_481_423_1e-2,
    ];
    let (y, _) = run(hires, [1.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0057], 321.8122, 1e-8, 1e-11);
    for (ours, published) in y.iter().zip(reference) {
        approx::assert_relative_eq!(*ours, published, max_relative = 1e-5);
    }
}

/// A nonlinear problem with a closed solution: y' = -y², y = 1/(1 + t); tight tolerances converge at order 4,
/// so the error must fall at least in proportion to the tolerance, at the nodes and between them.
#[test]
fn order_and_dense_output() {
    let error = |tolerance: f64| {
        let mut p = Problem::<1> { f: |y, d| d[0] = -y[0] * y[0], absolute: tolerance };
        let mut r = Rosenbrock::new(&mut p, vec![1.0], tolerance, 10_000);
        let mut worst: f64 = 0.0;
        while r.t() < 10.0 {
            r.step(&mut p, 10.0).unwrap();
            for part in [0.25, 0.5, 0.75, 1.0] {
                let t = r.t_old() + part * (r.t() - r.t_old());
                worst = worst.max((r.dense(0, t) - 1.0 / (1.0 + t)).abs());
            }
        }
        (worst, r.work().steps)
    };
    let ((coarse, few), (fine, many)) = (error(1e-4), error(1e-8));
    assert!(coarse < 1e-4 && fine < 1e-8, "{coarse} {fine}");
    // Order 4: a tolerance 1e4 times tighter costs about ten times the steps.
    assert!((4.0..20.0).contains(&(many as f64 / few as f64)), "{few} to {many} steps");
}

#[test]
fn bounded_work() {
    let mut p = Problem::<2> { f: van_der_pol, absolute: 1e-6 };
    let mut r = Rosenbrock::new(&mut p, vec![2.0, 0.0], 1e-6, 20);
    let stuck = loop {
        if let Err(stuck) = r.step(&mut p, 2.0) {
            break stuck;
        }
    };
    assert_eq!(stuck, Stuck::TooManySteps);
    // A rate that is never finite cannot be stepped over.
    let mut p = Problem::<1> { f: |_, d| d[0] = f64::NAN, absolute: 1e-6 };
    let mut r = Rosenbrock::new(&mut p, vec![1.0], 1e-6, 1000);
    assert!(r.step(&mut p, 1.0).is_err());
}
