//! The drying engine: state, rates, and the run from wet to dry.
//!
//! State: amount of each species per area (as a share of all that arrived), then the temperatures of the film
//! and of the substrate layers above that of the room. `dnᵢ/dt = −Jᵢ`; `C dT/dt = h (T_room − T) − Σ Jᵢ ΔHᵢ − q_substrate`; conduction
//! from layer to layer; the back face exchanges heat with the room like the front.

use super::solver::linear::Matrix;
use super::solver::rosenbrock::{Rosenbrock, Stuck, System, Work};
use super::substrate::{Conduction, NODES};
use super::surface::Surface;
use crate::error::{Result, out_of_range};
use crate::quantity::{Quantity, Time, show};

/// Heat capacity of binder and pigment, J/(m3 K) (source key `SOLIDS_HEAT`).
const SOLIDS_HEAT_J_M3_K: f64 = 1.8e6;
/// Heat capacity of the skin of whatever carries the film, J/(m2 K): about 4 µm of plastic. Keeps the
/// temperature of the last trace of a film without solids defined.
const SKIN_HEAT_J_M2_K: f64 = 5.0;
/// A film is done when this share of what arrived is left.
const GONE: f64 = 1e-3;
/// Relative tolerance of a run; measured: times within 0.04 % of a run at 1e-7.
pub(crate) const TOLERANCE: f64 = 5e-4;
/// Absolute tolerance of an amount, as a share of the relative one.
const AMOUNT_TOLERANCE: f64 = 1e-2;
/// Absolute tolerance of a temperature, K for a relative one of 1.
const TEMPERATURE_TOLERANCE_K: f64 = 20.0;
/// No film cools below the room by this much; guards the vapour pressure law against a wild stage.
const COLDEST_DROP_K: f64 = 150.0;
/// More steps than any film has needed in the tests, by a factor 20.
const MAX_STEPS: usize = 20_000;
/// Recorded points per step of the integrator.
const POINTS: usize = 4;
/// Steps for differences in the Jacobian: share of all amounts, and kelvin.
const AMOUNT_DIFFERENCE: f64 = 1e-7;
const TEMPERATURE_DIFFERENCE: f64 = 1e-4;

/// Settings of a run that a user has no need to touch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Options {
    pub(crate) relative_tolerance: f64,
    pub(crate) max_steps: usize,
}

impl Default for Options {
    fn default() -> Self {
        Self { relative_tolerance: TOLERANCE, max_steps: MAX_STEPS }
    }
}

/// How the film exchanges heat with what carries it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Support {
    Free,
    Isothermal,
    Plate(Conduction),
}

/// Share of the arrived volatiles still in the film, over one step: `r = 1 − s`,
/// `left = y0 r + s (y1 + r (c0 + s c1))`.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
pub(crate) struct Segment {
    pub(crate) t0_s: f64,
    pub(crate) t1_s: f64,
    y0: f64,
    y1: f64,
    c0: f64,
    c1: f64,
}

impl Segment {
    pub(crate) fn left(&self, t_s: f64) -> f64 {
        let s = (t_s - self.t0_s) / (self.t1_s - self.t0_s);
        let r = 1.0 - s;
        self.y0 * r + s * (self.y1 + r * (self.c0 + s * self.c1))
    }

    /// When the share falls to `left` within this step.
    pub(crate) fn time_of(&self, left: f64) -> Option<f64> {
        if self.y0 < left || self.y1 > left {
            return None;
        }
        let (mut low, mut high) = (self.t0_s, self.t1_s);
        for _ in 0..60 {
            let middle = 0.5 * (low + high);
            if self.left(middle) > left {
                low = middle;
            } else {
                high = middle;
            }
        }
        Some(0.5 * (low + high))
    }
}

/// What a run leaves behind, raw.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Trace {
    pub(crate) times_s: Vec<f64>,
    /// By species, mol/m2 at `times_s`.
    pub(crate) amounts_mol_m2: Vec<Vec<f64>>,
    pub(crate) temperature_k: Vec<f64>,
    pub(crate) segments: Vec<Segment>,
    pub(crate) work: Work,
}

/// The system of equations with its working space.
#[derive(Debug, Clone)]
pub(crate) struct Engine {
    surface: Surface,
    support: Support,
    n: usize,
    /// All that arrived, mol/m2.
    scale: f64,
    /// Share of the arrived mass per unit of state; zero for what only the air brings.
    mass_share: Vec<f64>,
    amounts: Vec<f64>,
    flux: Vec<f64>,
    moved: Vec<f64>,
    rate: Vec<f64>,
    relative_tolerance: f64,
    /// Of the latest call of `rate`, W/(m2 K).
    heat_coefficient: f64,
}

impl Engine {
    pub(crate) fn new(surface: Surface, support: Support, options: Options) -> Self {
        let n = surface.species.len();
        let scale = surface.species.iter().map(|s| s.arrived_mol_m2).sum();
        let mass: f64 = surface.species.iter().map(|s| s.arrived_mol_m2 * s.molar_mass_kg_mol).sum();
        let mass_share = surface
            .species
            .iter()
            .map(|s| if s.arrived_mol_m2 > 0.0 { s.molar_mass_kg_mol * scale / mass } else { 0.0 })
            .collect();
        let size = n + 1 + if matches!(support, Support::Plate(_)) { NODES } else { 0 };
        Self {
            surface,
            support,
            n,
            scale,
            mass_share,
            amounts: vec![0.0; n],
            flux: vec![0.0; n],
            moved: vec![0.0; size],
            rate: vec![0.0; size],
            relative_tolerance: options.relative_tolerance,
            heat_coefficient: 0.0,
        }
    }

    fn start(&self) -> Vec<f64> {
        let mut y = vec![0.0; self.moved.len()];
        for (y, s) in y.iter_mut().zip(&self.surface.species) {
            *y = s.arrived_mol_m2 / self.scale;
        }
        y
    }

    /// From wet until all is gone or `until_s` is reached.
    pub(crate) fn run(mut self, until_s: f64, options: Options) -> Result<Trace> {
        let start = self.start();
        let mut solver = Rosenbrock::new(&mut self, start, options.relative_tolerance, options.max_steps);
        let mut trace = Trace {
            times_s: vec![0.0],
            amounts_mol_m2: self.surface.species.iter().map(|s| vec![s.arrived_mol_m2]).collect(),
            temperature_k: vec![self.surface.room_temperature_k],
            segments: Vec::new(),
            work: Work::default(),
        };
        while solver.t() < until_s {
            if let Err(stuck) = solver.step(&mut self, until_s) {
                return Err(stuck_error(stuck, solver.t(), solver.work(), options.max_steps));
            }
            self.record(&solver, &mut trace);
            let left: f64 = solver.y().iter().zip(&self.mass_share).map(|(y, w)| y * w).sum();
            if left <= GONE {
                break;
            }
        }
        trace.work = solver.work();
        Ok(trace)
    }

    fn record(&self, solver: &Rosenbrock, trace: &mut Trace) {
        let (t0, t1) = (solver.t_old(), solver.t());
        for point in 1..=POINTS {
            let t = t0 + (t1 - t0) * point as f64 / POINTS as f64;
            trace.times_s.push(t);
            for (i, amounts) in trace.amounts_mol_m2.iter_mut().enumerate() {
                amounts.push(solver.dense(i, t).max(0.0) * self.scale);
            }
            trace.temperature_k.push(self.surface.room_temperature_k + solver.dense(self.n, t));
        }
        let mut c = [0.0; 4];
        for (i, w) in self.mass_share.iter().enumerate() {
            for (c, d) in c.iter_mut().zip(solver.dense_coefficients(i)) {
                *c += w * d;
            }
        }
        trace.segments.push(Segment { t0_s: t0, t1_s: t1, y0: c[0], y1: c[1], c0: c[2], c1: c[3] });
    }
}

impl System for Engine {
    fn rate(&mut self, y: &[f64], dy: &mut [f64]) {
        let n = self.n;
        for (to, from) in self.amounts.iter_mut().zip(y) {
            *to = from * self.scale;
        }
        let film = y[n];
        let film_k = self.surface.room_temperature_k + film;
        let h = self.surface.fluxes(&self.amounts, film_k, &mut self.flux);
        self.heat_coefficient = h;
        let mut heat = -h * film;
        let mut capacity = self.surface.solids_m * SOLIDS_HEAT_J_M3_K + SKIN_HEAT_J_M2_K;
        for (i, s) in self.surface.species.iter().enumerate() {
            dy[i] = -self.flux[i] / self.scale;
            heat -= self.flux[i] * s.heat_of_vaporisation_j_mol;
            capacity += self.amounts[i].max(0.0) * s.heat_capacity_j_mol_k;
        }
        match &self.support {
            Support::Isothermal => {
                dy[n] = 0.0;
                return;
            }
            Support::Free => {}
            Support::Plate(plate) => {
                let mut inflow = plate.conductance[0] * (film - y[n + 1]);
                heat -= inflow;
                for node in 0..NODES {
                    let here = y[n + 1 + node];
                    let outflow = if node + 1 < NODES {
                        plate.conductance[node + 1] * (here - y[n + 2 + node])
                    } else {
                        h * here
                    };
                    dy[n + 1 + node] = (inflow - outflow) / plate.capacity[node];
                    inflow = outflow;
                }
            }
        }
        dy[n] = heat / capacity;
    }

    fn jacobian(&mut self, y: &[f64], f: &[f64], jacobian: &mut Matrix) {
        let n = self.n;
        let (mut moved, mut rate) = (core::mem::take(&mut self.moved), core::mem::take(&mut self.rate));
        moved.copy_from_slice(y);
        let total: f64 = y[..n].iter().sum();
        let heat_coefficient = self.heat_coefficient;
        for j in 0..=n {
            // Forward, so that an amount of zero is not stepped below.
            let step = if j < n {
                AMOUNT_DIFFERENCE * (y[j] + 0.01 * total) + 1e-300
            } else {
                TEMPERATURE_DIFFERENCE
            };
            moved[j] = y[j] + step;
            let step = moved[j] - y[j];
            self.rate(&moved, &mut rate);
            for (i, (new, old)) in rate.iter().zip(f).enumerate() {
                jacobian[(i, j)] = (new - old) / step;
            }
            moved[j] = y[j];
        }
        if let Support::Plate(plate) = &self.support {
            let capacity = self.surface.solids_m * SOLIDS_HEAT_J_M3_K
                + SKIN_HEAT_J_M2_K
                + self
                    .surface
                    .species
                    .iter()
                    .zip(y)
                    .map(|(s, y)| (y * self.scale).max(0.0) * s.heat_capacity_j_mol_k)
                    .sum::<f64>();
            jacobian[(n, n + 1)] = plate.conductance[0] / capacity;
            for node in 0..NODES {
                let here = n + 1 + node;
                let below = if node + 1 < NODES {
                    jacobian[(here, here + 1)] = plate.conductance[node + 1] / plate.capacity[node];
                    plate.conductance[node + 1]
                } else {
                    heat_coefficient
                };
                if node > 0 {
                    jacobian[(here, here - 1)] = plate.conductance[node] / plate.capacity[node];
                }
                jacobian[(here, here)] = -(plate.conductance[node] + below) / plate.capacity[node];
            }
        }
        self.moved = moved;
        self.rate = rate;
    }

    fn allowed(&self, y: &[f64]) -> bool {
        // The law is smooth through zero and draws a trace of negative amount back to it; what is recorded is
        // never negative.
        let trace = AMOUNT_TOLERANCE * self.relative_tolerance;
        y[..self.n].iter().all(|y| *y >= -trace)
            && y[..self.n].iter().sum::<f64>() > 0.0
            && y[self.n] > -COLDEST_DROP_K
    }

    fn absolute_tolerance(&self, i: usize) -> f64 {
        let scale = if i < self.n { AMOUNT_TOLERANCE } else { TEMPERATURE_TOLERANCE_K };
        scale * self.relative_tolerance
    }

    fn longest_step(&self, y: &[f64], f: &[f64]) -> f64 {
        if self.surface.solids_m > 0.0 {
            return f64::INFINITY;
        }
        // Without solids the film ends at a definite time, where the equations end too.
        let (total, loss) =
            y[..self.n].iter().zip(f).fold((0.0, 0.0), |(total, loss), (y, f)| (total + y, loss - f));
        if loss > 0.0 { 0.95 * total / loss } else { f64::INFINITY }
    }
}

fn stuck_error(stuck: Stuck, t_s: f64, work: Work, max_steps: usize) -> crate::error::Error {
    let at = show(Time::from_si(t_s));
    let steps = work.steps + work.rejected;
    let limit = match stuck {
        Stuck::TooManySteps => format!("{max_steps} steps of the integrator"),
        Stuck::StepTooSmall => "a step that still advances the time".to_owned(),
    };
    out_of_range(
        "drying calculation",
        format!("still at {at} after {steps} steps"),
        limit,
        "give a shorter `until`, a thicker film or less air; report the case, it should not happen",
    )
}
