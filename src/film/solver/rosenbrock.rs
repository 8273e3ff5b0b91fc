//! A Rosenbrock method: one matrix a step, no Newton iteration, hence no step that fails to converge.
//!
//! GRK4T of Kaps and Rentrop (source key `KAPS_RENTROP`): order 4 with an embedded order 3 from four stages that need
//! three rates, stable on the whole negative axis (A(89.3°), damps what is infinitely stiff by 0.45 a step). With
//! `E = I/(γh) − J` every stage solves `E kᵢ = f(y + Σ aᵢⱼ kⱼ) + Σ cᵢⱼ kⱼ/h`; the new value is `y + Σ mᵢ kᵢ` and
//! `Σ eᵢ kᵢ` the error estimate. For autonomous systems.
//!
//! Those rates look at no later moment than 0.88 of the step. A film that turns stiff as its binder closes, or that has
//! nothing left, does so within a step, and what happens in its last eighth would pass unseen. So a fifth stage is added at
//! the new value, whose rate the next step needs anyway:
//!
//! * `CHECK`, which with the others gives a second error estimate of the same order, near to minus the first in a smooth
//!   step; a step must pass both. Its weights meet all conditions of order 3 (which leaves three free coefficients)
//!   and were chosen for the least error of order 4 and the least response to what is infinitely stiff;
//! * `DENSE`, with which there are weights that meet the conditions of order 3 at any moment within the step, for dense
//!   output. Chosen in the same way. Both are our own (order checked by the tests).
//!
//! Measured on the films of `tests/data/film_reference.csv` against a stiffly accurate method of six stages at the same
//! accuracy: a tenth fewer steps at half the rates.

use super::linear::{Factors, Jacobian};

pub(super) const GAMMA: f64 = 0.231;
/// `aᵢⱼ` of the second stage, and of the third, whose rate the fourth shares.
pub(super) const A2: [f64; 1] = [2.0];
pub(super) const A3: [f64; 2] = [4.524_708_207_373_116, 4.163_528_860_947_486];
/// `cᵢⱼ` of stages 2 to 4.
pub(super) const C2: [f64; 1] = [-5.071_675_338_776_316];
pub(super) const C3: [f64; 2] = [6.020_152_728_650_786, 0.159_750_684_672_711_7];
pub(super) const C4: [f64; 3] = [-1.856_343_618_686_113, -8.505_380_858_179_826, -2.084_075_136_023_187];
/// `mᵢ`, and `eᵢ`.
pub(super) const NEW: [f64; 4] =
    [3.957_503_746_640_777, 4.624_892_388_363_313, 0.617_477_263_875_010_8, 1.282_612_945_269_037];
pub(super) const ERROR: [f64; 4] =
    [2.302_155_402_932_996, 3.073_634_485_392_623, -0.873_280_801_804_503_2, -1.282_612_945_269_037];
/// Fifth stage for the check: `c₅ⱼ`, then the weights of all five in the second error estimate.
pub(super) const CHECK: [f64; 4] =
    [13.991_704_746_942_8, 2.042_874_967_601_690_6, -2.722_912_605_803_294_6, -4.337_299_538_449_368];
pub(super) const CHECK_ERROR: [f64; 5] = [
    -6.284_328_050_981_035,
    -3.259_173_152_874_322,
    -2.500_488_291_648_190_8,
    3.464_077_536_501_744,
    4.329_004_329_004_329,
];
/// Fifth stage for the dense output: `c₅ⱼ`, then the weights of all five in its two inner coefficients.
pub(super) const DENSE: [f64; 4] =
    [4.668_219_203_676_874, -1.462_150_912_332_374_6, -0.164_294_087_455_283_62, -3.697_633_462_550_956_4];
pub(super) const DENSE_INNER: [[f64; 5]; 2] = [
    [
        5.400_229_583_787_755,
        -1.332_108_074_684_292_8,
        -5.546_244_017_015_343,
        1.168_349_100_702_688,
        3.499_356_849_975_408,
    ],
    [
        -2.852_292_403_568_205,
        -2.676_097_767_524_374,
        6.884_371_497_899_1,
        -7.216_114_873_433_462,
        -6.998_713_588_839_346,
    ],
];

/// Step factor limits and safety of the usual controller.
const SAFETY: f64 = 0.9;
const SHRINK: f64 = 0.2;
const GROW: f64 = 3.0;
/// Length of the first step, as a share of that in which something moves by the root of its tolerance.
const FIRST: f64 = 1.5;
/// A step this small against the time reached means that no step succeeds.
const SMALLEST: f64 = 1e-14;

/// Attempts that the tolerance holds for, times its fourth root: several times what any film has needed that does not
/// part. Beyond them the tolerance doubles every so many, so that a path that jumps to and fro between two branches (a
/// liquid about to part into two) still ends in bounded work.
const AMPLE_STEPS: f64 = 60.0;
const STEPS_PER_DOUBLING: f64 = 25.0;

/// Adds these multiples of the first stages to each component.
fn add<const N: usize>(to: &mut [f64], weights: [f64; N], k: &[Vec<f64>; 5]) {
    let n = to.len();
    let k: [&[f64]; N] = core::array::from_fn(|stage| &k[stage][..n]);
    for (i, to) in to.iter_mut().enumerate() {
        for (weight, k) in weights.iter().zip(&k) {
            *to += weight * k[i];
        }
    }
}

fn fourth_root(x: f64) -> f64 {
    x.sqrt().sqrt()
}

/// What is integrated: `dy/dt = f(y)`.
pub(crate) trait System {
    /// Writes `f(y)`.
    fn rate(&mut self, y: &[f64], dy: &mut [f64]);
    /// Told of each state from which a step may start, before its rate is asked for.
    fn renew(&mut self, _y: &[f64]) {}
    /// How many unknowns all act on each other; the rest hang on the last of them as a chain.
    fn core(&self) -> usize;
    /// Writes the Jacobian at `y`, where `f(y)` is known, over the one of the step before (zeros at first).
    /// The latest call of `rate` was at `y`.
    fn jacobian(&mut self, y: &[f64], f: &[f64], jacobian: &mut Jacobian);
    /// Whether `y` is a state that may exist (no negative amount beyond rounding).
    fn allowed(&self, y: &[f64]) -> bool;
    /// What an error of component `i` is held against: its value, or what it would move in all the time so far.
    fn size(&self, _i: usize, value: f64, _moves: f64) -> f64 {
        value
    }
    /// Absolute tolerance of component `i`.
    fn absolute_tolerance(&self, i: usize) -> f64;
    /// The longest step that makes sense from `y`, where `f(y)` is known.
    fn longest_step(&self, y: &[f64], f: &[f64]) -> f64;
}

/// Why the integration stopped short.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Stuck {
    /// The step became too small to advance time.
    StepTooSmall,
    /// The allowed number of steps is used up.
    TooManySteps,
}

/// Work done so far.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) struct Work {
    /// Accepted steps.
    pub(crate) steps: usize,
    /// Rejected steps.
    pub(crate) rejected: usize,
    /// Of the activity model, where the system uses one.
    pub(crate) evaluations: usize,
    /// Whether the tolerance had to give.
    pub(crate) gave_way: bool,
}

/// The integrator with all its memory; stepping allocates nothing.
#[derive(Debug, Clone)]
pub(crate) struct Rosenbrock {
    relative_tolerance: f64,
    max_steps: usize,
    t: f64,
    y: Vec<f64>,
    f: Vec<f64>,
    next_step: f64,
    /// Start of the last accepted step.
    t_old: f64,
    y_old: Vec<f64>,
    dense: [Vec<f64>; 2],
    /// All components of each stage.
    k: [Vec<f64>; 5],
    /// Where a stage looks, and in the end the new value with its rate.
    stage: Vec<f64>,
    rate: Vec<f64>,
    error: Vec<f64>,
    /// One over what an error of each component is held against.
    per_scale: Vec<f64>,
    jacobian: Jacobian,
    factors: Factors,
    previous_error: f64,
    previous_step: f64,
    work: Work,
}

impl Rosenbrock {
    /// Starts at `t = 0` from `y`.
    pub(crate) fn new<S: System>(
        system: &mut S,
        y: Vec<f64>,
        relative_tolerance: f64,
        max_steps: usize,
    ) -> Self {
        let n = y.len();
        let core = system.core();
        let mut f = vec![0.0; n];
        system.renew(&y);
        system.rate(&y, &mut f);
        let mut this = Self {
            relative_tolerance,
            max_steps,
            t: 0.0,
            f,
            next_step: 0.0,
            t_old: 0.0,
            y_old: y.clone(),
            y,
            dense: [vec![0.0; n], vec![0.0; n]],
            k: [(); 5].map(|()| vec![0.0; n]),
            stage: vec![0.0; n],
            rate: vec![0.0; n],
            error: vec![0.0; n],
            per_scale: vec![0.0; n],
            jacobian: Jacobian::zeros(core, n - core),
            factors: Factors::new(core, n - core),
            previous_error: 1.0,
            previous_step: 0.0,
            work: Work::default(),
        };
        this.next_step = this.first_step(system);
        this
    }

    /// A step in which nothing moves by more than some tolerances' root: error of order 4 then fits.
    fn first_step<S: System>(&self, system: &S) -> f64 {
        let mut speed: f64 = 0.0;
        for (i, (y, f)) in self.y.iter().zip(&self.f).enumerate() {
            let scale = system.absolute_tolerance(i) + self.relative_tolerance * y.abs();
            speed = speed.max(f.abs() / scale);
        }
        let step = if speed > 0.0 { FIRST / (self.relative_tolerance.sqrt() * speed) } else { 1.0 };
        step.min(system.longest_step(&self.y, &self.f))
    }

    pub(crate) fn t(&self) -> f64 {
        self.t
    }

    pub(crate) fn y(&self) -> &[f64] {
        &self.y
    }

    pub(crate) fn t_old(&self) -> f64 {
        self.t_old
    }

    pub(crate) fn work(&self) -> Work {
        self.work
    }

    /// Component `i` within the last accepted step.
    pub(crate) fn dense(&self, i: usize, t: f64) -> f64 {
        let width = self.t - self.t_old;
        if width <= 0.0 {
            return self.y[i];
        }
        let s = ((t - self.t_old) / width).clamp(0.0, 1.0);
        let r = 1.0 - s;
        self.y_old[i] * r + s * (self.y[i] + r * (self.dense[0][i] + s * self.dense[1][i]))
    }

    /// Component `i` over the last step as `y0 r + s (y1 + r (c0 + s c1))`, `s` from 0 to 1 and `r = 1 − s`.
    pub(crate) fn dense_coefficients(&self, i: usize) -> [f64; 4] {
        [self.y_old[i], self.y[i], self.dense[0][i], self.dense[1][i]]
    }

    /// One accepted step, not past `t_end`.
    pub(crate) fn step<S: System>(&mut self, system: &mut S, t_end: f64) -> Result<(), Stuck> {
        system.jacobian(&self.y, &self.f, &mut self.jacobian);
        let mut h = self.next_step.min(system.longest_step(&self.y, &self.f));
        let mut after_rejection = false;
        loop {
            if self.work.steps + self.work.rejected >= self.max_steps {
                return Err(Stuck::TooManySteps);
            }
            let last = self.t + h * (1.0 + 1e-10) >= t_end;
            if last {
                h = t_end - self.t;
            }
            if h <= SMALLEST * self.t.max(1e-6) || !h.is_finite() {
                return Err(Stuck::StepTooSmall);
            }
            let error = self.attempt(system, h);
            if error <= 1.0 {
                self.accept(h, if last { Some(t_end) } else { None });
                // Gustafsson's controller: also looks at how the error of the previous step turned out.
                let mut factor = SAFETY / fourth_root(error.max(1e-10));
                // Not after a rejection, whose step says little of the one before it.
                if self.work.steps > 1 && !after_rejection {
                    let predictive = factor
                        * (h / self.previous_step)
                        * fourth_root(self.previous_error / error.max(1e-10));
                    factor = factor.min(predictive.max(SHRINK));
                }
                factor = factor.clamp(SHRINK, if after_rejection { 1.0 } else { GROW });
                self.previous_error = error.max(1e-2);
                self.previous_step = h;
                self.next_step = h * factor;
                return Ok(());
            }
            self.work.rejected += 1;
            after_rejection = true;
            h *= if error.is_finite() { (SAFETY / fourth_root(error)).clamp(SHRINK, 0.9) } else { SHRINK };
        }
    }

    /// Computes all stages for step `h`; leaves the candidate in `stage` and, where it is fit for acceptance, its rate in
    /// `rate`. Returns the error against the tolerance (accept at 1 or less; infinite for a state that may not exist).
    fn attempt<S: System>(&mut self, system: &mut S, h: f64) -> f64 {
        if !self.factors.factor_shifted(1.0 / (GAMMA * h), &self.jacobian) {
            return f64::INFINITY;
        }
        let per_h = 1.0 / h;
        self.rate.copy_from_slice(&self.f);
        self.solve(0, [], per_h);
        self.look(system, A2);
        self.solve(1, C2, per_h);
        self.look(system, A3);
        self.solve(2, C3, per_h);
        self.solve(3, C4, per_h);
        self.stage.copy_from_slice(&self.y);
        add(&mut self.stage, NEW, &self.k);
        let moves = self.t + h;
        for (i, (per_scale, new)) in self.per_scale.iter_mut().zip(&self.stage).enumerate() {
            let size = system.size(i, self.y[i].abs().max(new.abs()), moves * self.f[i].abs());
            *per_scale = 1.0 / (system.absolute_tolerance(i) + self.relative_tolerance * size);
        }
        let first = self.error(ERROR);
        if !first.is_finite() || !system.allowed(&self.stage) {
            return f64::INFINITY;
        }
        if first > 1.0 {
            return first;
        }
        system.renew(&self.stage);
        system.rate(&self.stage, &mut self.rate);
        self.solve(4, CHECK, per_h);
        let second = self.error(CHECK_ERROR);
        if second.is_finite() { first.max(second) } else { f64::INFINITY }
    }

    /// Root mean square of the error with these weights of the stages, against the tolerance.
    fn error<const N: usize>(&mut self, weights: [f64; N]) -> f64 {
        self.error.fill(0.0);
        add(&mut self.error, weights, &self.k);
        let squares = self.error.iter().zip(&self.per_scale).map(|(e, s)| (e * s) * (e * s));
        (squares.sum::<f64>() / self.y.len() as f64).sqrt() / self.slack()
    }

    /// Brings `rate` to where these multiples of the first stages lead.
    fn look<S: System, const N: usize>(&mut self, system: &mut S, a: [f64; N]) {
        self.stage.copy_from_slice(&self.y);
        add(&mut self.stage, a, &self.k);
        system.rate(&self.stage, &mut self.rate);
    }

    /// Solves for the stage `index` from the rate at hand and these multiples of the first stages.
    fn solve<const N: usize>(&mut self, index: usize, c: [f64; N], per_h: f64) {
        let mut rhs = core::mem::take(&mut self.k[index]);
        rhs.copy_from_slice(&self.rate);
        add(&mut rhs, c.map(|c| c * per_h), &self.k);
        self.factors.solve(&mut rhs);
        self.k[index] = rhs;
    }

    /// How much more than the tolerance is let pass after so much work.
    fn slack(&self) -> f64 {
        let ample = AMPLE_STEPS / fourth_root(self.relative_tolerance);
        let attempts = (self.work.steps + self.work.rejected) as f64;
        if attempts <= ample { 1.0 } else { ((attempts - ample) / STEPS_PER_DOUBLING).exp2() }
    }

    /// Takes the candidate, whose rate is known.
    fn accept(&mut self, h: f64, end: Option<f64>) {
        self.solve(4, DENSE, 1.0 / h);
        for (inner, weights) in self.dense.iter_mut().zip(DENSE_INNER) {
            inner.fill(0.0);
            add(inner, weights, &self.k);
        }
        self.t_old = self.t;
        core::mem::swap(&mut self.y_old, &mut self.y);
        core::mem::swap(&mut self.y, &mut self.stage);
        core::mem::swap(&mut self.f, &mut self.rate);
        self.t = end.unwrap_or(self.t + h);
        self.work.steps += 1;
        self.work.gave_way |= self.slack() > 1.0;
    }
}
