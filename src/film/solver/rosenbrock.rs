//! A Rosenbrock method: one matrix a step, no Newton iteration, hence no step that fails to converge.
//!
//! RODAS of Hairer and Wanner: six stages, order 4 with an embedded order 3 for the error, L-stable and
//! stiffly accurate, dense output of order 3 (source key `HAIRER_WANNER`; order checked by the tests). With
//! `E = I/(γh) − J` every stage solves `E kᵢ = f(y + Σ aᵢⱼ kⱼ) + Σ cᵢⱼ kⱼ/h`; the new value is the sixth
//! stage value plus `k₆`, and `k₆` is the error estimate. For autonomous systems.

use super::linear::{Factors, Jacobian};

const GAMMA: f64 = 0.25;
/// `aᵢⱼ` of stages 2 to 5; the sixth stage value is the fifth plus `k₅`.
const A2: [f64; 1] = [1.544];
const A3: [f64; 2] = [0.946_678_528_081_582_6, 0.255_701_169_898_328_4];
const A4: [f64; 3] = [3.314_825_187_068_521, 2.896_124_015_972_201, 0.998_641_913_997_781_7];
const A5: [f64; 4] =
    [1.221_224_509_226_641, 6.019_134_481_288_629, 12.537_083_329_320_87, -0.687_886_036_105_895];
/// `cᵢⱼ` of stages 2 to 6.
const C2: [f64; 1] = [-5.6688];
const C3: [f64; 2] = [-2.430_093_356_833_875, -0.206_359_915_709_191_5];
const C4: [f64; 3] = [-0.107_352_905_815_137_5, -9.594_562_251_023_355, -20.470_286_148_096_16];
const C5: [f64; 4] =
    [7.496_443_313_967_647, -10.246_804_314_641_22, -33.999_903_528_199_05, 11.708_908_932_061_6];
const C6: [f64; 5] = [
    8.083_246_795_921_522,
    -7.981_132_988_064_893,
    -31.521_594_328_743_71,
    16.319_305_431_231_36,
    -6.058_818_238_834_054,
];
/// Dense output: weights of `k₁..k₅` in the two inner coefficients.
const DENSE: [[f64; 5]; 2] = [
    [
        10.126_235_083_445_86,
        -7.487_995_877_610_167,
        -34.800_918_615_557_47,
        -7.992_771_707_568_823,
        1.025_137_723_295_662,
    ],
    [
        -0.676_280_339_280_125_3,
        6.087_714_651_680_015,
        16.430_843_208_924_78,
        24.767_225_114_183_86,
        -6.594_389_125_716_872,
    ],
];

/// Step factor limits and safety of the usual controller.
const SAFETY: f64 = 0.9;
const SHRINK: f64 = 0.2;
const GROW: f64 = 3.0;
/// A step this small against the time reached means that no step succeeds.
const SMALLEST: f64 = 1e-14;

/// Attempts that the tolerance holds for, times its fourth root: several times what any film has needed that does not
/// part. Beyond them the tolerance doubles every so many, so that a path that jumps to and fro between two branches (a
/// liquid about to part into two) still ends in bounded work.
const AMPLE_STEPS: f64 = 60.0;
const STEPS_PER_DOUBLING: f64 = 25.0;

/// Sum of the first `N` stages with these weights.
fn dot<const N: usize>(weights: &[f64; N], k: &[f64; 5]) -> f64 {
    weights.iter().zip(k).map(|(w, k)| w * k).sum()
}

/// What is integrated: `dy/dt = f(y)`.
pub(crate) trait System {
    /// Writes `f(y)`.
    fn rate(&mut self, y: &[f64], dy: &mut [f64]);
    /// Told of each state from which a step starts, before its rate is asked for.
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
    /// `k₁..k₅` of each component.
    k: Vec<[f64; 5]>,
    /// `k₆`, the error.
    last: Vec<f64>,
    stage: Vec<f64>,
    rate: Vec<f64>,
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
            k: vec![[0.0; 5]; n],
            last: vec![0.0; n],
            stage: vec![0.0; n],
            rate: vec![0.0; n],
            jacobian: Jacobian::zeros(core, n - core),
            factors: Factors::new(core, n - core),
            previous_error: 1.0,
            previous_step: 0.0,
            work: Work::default(),
        };
        this.next_step = this.first_step(system);
        this
    }

    /// A step in which nothing moves by more than a few tolerances' root: error of order 4 then fits.
    fn first_step<S: System>(&self, system: &S) -> f64 {
        let mut speed: f64 = 0.0;
        for (i, (y, f)) in self.y.iter().zip(&self.f).enumerate() {
            let scale = system.absolute_tolerance(i) + self.relative_tolerance * y.abs();
            speed = speed.max(f.abs() / scale);
        }
        let step = if speed > 0.0 { 0.5 / (self.relative_tolerance.sqrt() * speed) } else { 1.0 };
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
        let n = self.y.len();
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
                self.accept(system, h, if last { Some(t_end) } else { None });
                // Gustafsson's controller: also looks at how the error of the previous step turned out.
                let mut factor = SAFETY / error.max(1e-10).powf(0.25);
                if self.work.steps > 1 {
                    let predictive = factor
                        * (h / self.previous_step)
                        * (self.previous_error / error.max(1e-10)).powf(0.25);
                    factor = factor.min(predictive.max(SHRINK));
                }
                factor = factor.clamp(SHRINK, if after_rejection { 1.0 } else { GROW });
                self.previous_error = error.max(1e-2);
                self.previous_step = h;
                self.next_step = h * factor;
                debug_assert_eq!(self.y.len(), n);
                return Ok(());
            }
            self.work.rejected += 1;
            after_rejection = true;
            h *= if error.is_finite() { (SAFETY / error.powf(0.25)).clamp(SHRINK, 0.9) } else { SHRINK };
        }
    }

    /// Computes all stages for step `h`; leaves the candidate in `stage` and returns the error against the
    /// tolerance (accept at 1 or less; infinite for a state that may not exist).
    fn attempt<S: System>(&mut self, system: &mut S, h: f64) -> f64 {
        if !self.factors.factor_shifted(1.0 / (GAMMA * h), &self.jacobian) {
            return f64::INFINITY;
        }
        self.rate.copy_from_slice(&self.f);
        self.solve_stage(0);
        self.stage(system, h, A2, C2);
        self.stage(system, h, A3, C3);
        self.stage(system, h, A4, C4);
        self.stage(system, h, A5, C5);
        for (to, k) in self.stage.iter_mut().zip(&self.k) {
            *to += k[4];
        }
        system.rate(&self.stage, &mut self.rate);
        let per_h = 1.0 / h;
        for ((to, rate), k) in self.last.iter_mut().zip(&self.rate).zip(&self.k) {
            *to = rate + per_h * dot(&C6, k);
        }
        self.factors.solve(&mut self.last);
        let mut sum = 0.0;
        for (i, (new, error)) in self.stage.iter_mut().zip(&self.last).enumerate() {
            *new += error;
            let size = system.size(i, self.y[i].abs().max(new.abs()), (self.t + h) * self.f[i].abs());
            let scale = system.absolute_tolerance(i) + self.relative_tolerance * size;
            sum += (error / scale) * (error / scale);
        }
        let norm = (sum / self.y.len() as f64).sqrt();
        if norm.is_finite() && system.allowed(&self.stage) { norm / self.slack() } else { f64::INFINITY }
    }

    /// How much more than the tolerance is let pass after so much work.
    fn slack(&self) -> f64 {
        let ample = AMPLE_STEPS / self.relative_tolerance.sqrt().sqrt();
        let attempts = (self.work.steps + self.work.rejected) as f64;
        ((attempts - ample).max(0.0) / STEPS_PER_DOUBLING).exp2()
    }

    /// The stage after the first `N`, whose coefficients these are.
    fn stage<S: System, const N: usize>(&mut self, system: &mut S, h: f64, a: [f64; N], c: [f64; N]) {
        for ((to, y), k) in self.stage.iter_mut().zip(&self.y).zip(&self.k) {
            *to = y + dot(&a, k);
        }
        system.rate(&self.stage, &mut self.rate);
        let per_h = 1.0 / h;
        for (to, k) in self.rate.iter_mut().zip(&self.k) {
            *to += per_h * dot(&c, k);
        }
        self.solve_stage(N);
    }

    /// Solves for the stage `index` from its right-hand side in `rate`.
    fn solve_stage(&mut self, index: usize) {
        self.factors.solve(&mut self.rate);
        for (k, new) in self.k.iter_mut().zip(&self.rate) {
            k[index] = *new;
        }
    }

    fn accept<S: System>(&mut self, system: &mut S, h: f64, end: Option<f64>) {
        let [first, second] = &mut self.dense;
        for ((first, second), k) in first.iter_mut().zip(second.iter_mut()).zip(&self.k) {
            *first = dot(&DENSE[0], k);
            *second = dot(&DENSE[1], k);
        }
        self.t_old = self.t;
        core::mem::swap(&mut self.y_old, &mut self.y);
        core::mem::swap(&mut self.y, &mut self.stage);
        self.t = end.unwrap_or(self.t + h);
        system.renew(&self.y);
        system.rate(&self.y, &mut self.f);
        self.work.steps += 1;
        self.work.gave_way |= self.slack() > 1.0;
    }
}
