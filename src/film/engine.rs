//! The drying engine: state, rates, and the run from wet to dry.
//!
//! State: amount of each species per area (as a share of all that arrived), then the temperatures of the film
//! and of the substrate layers above that of the room. `dnᵢ/dt = −Jᵢ`; `C dT/dt = h (T_room − T) − Σ Jᵢ ΔHᵢ − q_substrate`; conduction
//! from layer to layer; the back face exchanges heat with the room like the front.

use super::moment::Moment;
use super::solver::linear::{Jacobian, Link};
use super::solver::rosenbrock::{Rosenbrock, Stuck, System, Work};
use super::substrate::{Conduction, NODES};
use super::surface::{Slopes, Surface};
use super::trace::{Cubic, Segment, Trace, falls_to};
use crate::error::{Result, out_of_range};
use crate::quantity::{Quantity, Time, show};

/// Heat capacity of binder and pigment, J/(m3 K) (source key `SOLIDS_HEAT`).
pub(crate) const SOLIDS_HEAT_J_M3_K: f64 = 1.8e6;
/// Heat capacity of the skin of whatever carries the film, J/(m2 K): about 4 µm of plastic. Keeps the
/// temperature of the last trace of a film without solids defined.
pub(super) const SKIN_HEAT_J_M2_K: f64 = 5.0;
/// A film is done when this share of what arrived is left; with a binder, whose last solvent is asked for, later.
const GONE: f64 = 1e-3;
const GONE_FROM_BINDER: f64 = 1e-4;
/// Share of what arrived that is nothing at all.
const NOTHING: f64 = 1e-12;
/// A film that came from warmer air may harden by cooling alone, until it is this near to the room, K.
const COOLED_K: f64 = 0.5;
/// Relative tolerance of a run; with this the films of `tests/data/film_reference.csv` keep within 0.5 % of their times.
pub(crate) const TOLERANCE: f64 = 3e-3;
/// The same with a binder, whose last solvent leaves so slowly that a small error in amount is a large one in
/// time.
const TOLERANCE_WITH_BINDER: f64 = 1.5e-3;
/// Absolute tolerance of an amount, as a share of the relative one.
const AMOUNT_TOLERANCE: f64 = 2e-2;
/// The same for water that only the air brings: little of it parts a hydrocarbon in two.
const GATHERED_TOLERANCE: f64 = 2e-3;
/// Absolute tolerance of a temperature, K for a relative one of 1.
const TEMPERATURE_TOLERANCE_K: f64 = 60.0;
/// No film cools below the room by this much; guards the vapour pressure law against a wild stage.
const COLDEST_DROP_K: f64 = 150.0;
/// More steps than any film has needed in the tests, by a factor 20 (films that part while they dry: up to 700).
const MAX_STEPS: usize = 20_000;
/// Kelvin above its glass transition at which a film is touch dry, and block-free (source key `DRYING_MARKS`).
pub(crate) const TOUCH_DRY_K: f64 = 55.0;
pub(crate) const BLOCK_FREE_K: f64 = 21.0;
/// Recorded points per step of the integrator.
pub(super) const POINTS: usize = 4;

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

impl Options {
    /// For a film with this surface.
    pub(crate) fn of(surface: &Surface) -> Self {
        let relative_tolerance = if surface.binder.is_some() { TOLERANCE_WITH_BINDER } else { TOLERANCE };
        Self { relative_tolerance, ..Self::default() }
    }
}

/// How the film exchanges heat with what carries it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Support {
    Free,
    Isothermal,
    /// A thin sheet as warm as the film: its heat capacity, J/(m2 K).
    Sheet(f64),
    Plate(Conduction),
}

/// The system of equations with its working space.
#[derive(Debug, Clone)]
pub(crate) struct Engine {
    surface: Surface,
    support: Support,
    /// When the air of this leg sets in; the time of the solver counts from there.
    from_s: f64,
    n: usize,
    /// All that arrived, mol/m2.
    scale: f64,
    /// Share of the arrived mass per unit of state; zero for what only the air brings.
    mass_share: Vec<f64>,
    amounts: Vec<f64>,
    flux: Vec<f64>,
    slopes: Slopes,
    relative_tolerance: f64,
    /// Of the latest call of `rate`: W/(m2 K), and J/(m2 K).
    heat_coefficient: f64,
    capacity: f64,
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
        Self {
            surface,
            support,
            from_s: 0.0,
            n,
            scale,
            mass_share,
            amounts: vec![0.0; n],
            flux: vec![0.0; n],
            slopes: Slopes::new(n),
            relative_tolerance: options.relative_tolerance,
            heat_coefficient: 0.0,
            capacity: 1.0,
        }
    }

    /// The state at this moment, in the terms of this engine: shares, and kelvin above the room.
    fn start(&self, at: &Moment) -> Vec<f64> {
        let room_k = self.surface.room_temperature_k;
        let mut y: Vec<f64> = at.amounts_mol_m2.iter().map(|n| n / self.scale).collect();
        y.push(if self.support == Support::Isothermal { 0.0 } else { at.film_k - room_k });
        if matches!(self.support, Support::Plate(_)) {
            y.extend(at.nodes_k.map(|k| k - room_k));
        }
        y
    }

    fn moment(&self, y: &[f64]) -> Moment {
        let room_k = self.surface.room_temperature_k;
        let mut at = Moment::bare(self.n, room_k);
        for (n, y) in at.amounts_mol_m2.iter_mut().zip(y) {
            *n = y * self.scale;
        }
        at.film_k += y[self.n];
        for (node, y) in at.nodes_k.iter_mut().zip(&y[self.n + 1..]) {
            *node += y;
        }
        at
    }

    /// From wet until all is gone or `until_s` is reached.
    #[cfg(test)]
    pub(crate) fn run(mut self, until_s: f64, options: Options) -> Result<Trace> {
        let mut start = Moment::bare(self.n, self.surface.room_temperature_k);
        start.amounts_mol_m2 = self.surface.species.iter().map(|s| s.arrived_mol_m2).collect();
        let mut trace = Trace::starting(&start, self.surface.solids_m);
        self.follow(start, [0.0, until_s], options, &mut trace)?;
        Ok(trace)
    }

    /// Goes on with `trace` from the first to the second time, at which the film is as returned; records nothing more
    /// once all is gone.
    pub(crate) fn follow(
        &mut self,
        start: Moment,
        [from_s, until_s]: [f64; 2],
        options: Options,
        trace: &mut Trace,
    ) -> Result<Moment> {
        let y = self.start(&start);
        self.from_s = from_s;
        let lasts_s = until_s - from_s;
        if from_s > 0.0 && self.is_done(&y, trace) {
            self.rate(&y, &mut vec![0.0; y.len()]); // for the heat transfer coefficient
            return Ok(self.at_rest(start, lasts_s));
        }
        let mut solver = Rosenbrock::new(&mut *self, y, options.relative_tolerance, options.max_steps);
        let mut done = false;
        while solver.t() < lasts_s && !done {
            if let Err(stuck) = solver.step(&mut *self, lasts_s) {
                return Err(stuck_error(stuck, from_s + solver.t(), solver.work(), options.max_steps));
            }
            self.record(&solver, trace);
            self.watch_hardness(&solver, trace);
            done = self.is_done(solver.y(), trace);
        }
        trace.work.steps += solver.work().steps;
        trace.work.rejected += solver.work().rejected;
        trace.work.gave_way |= solver.work().gave_way;
        trace.work.evaluations += self.surface.liquid.evaluations();
        Ok(self.at_rest(self.moment(solver.y()), lasts_s - solver.t()))
    }

    /// Whether all is gone, and nothing more to be seen by waiting.
    fn is_done(&self, y: &[f64], trace: &Trace) -> bool {
        let gone = if self.surface.binder.is_some() { GONE_FROM_BINDER } else { GONE };
        let left: f64 = y.iter().zip(&self.mass_share).map(|(y, w)| y * w).sum();
        let hardens = self.from_s > 0.0
            && self.surface.binder.is_some()
            && trace.soft_until_s.contains(&None)
            && y[self.n] > COOLED_K;
        left <= gone && !hardens
    }

    /// The same film later, when it has nothing more to lose.
    fn at_rest(&self, mut at: Moment, seconds: f64) -> Moment {
        if seconds > 0.0 {
            if self.surface.binder.is_none() {
                // The last trace leaves as it was leaving, and in the end is no more.
                for (n, flux) in at.amounts_mol_m2.iter_mut().zip(&self.flux) {
                    let later = if *n > 0.0 { *n * (-flux.max(0.0) * seconds / *n).exp() } else { 0.0 };
                    *n = if later > NOTHING * self.scale { later } else { 0.0 };
                }
            }
            let capacity = at.heat_capacity(&self.surface.species, self.surface.solids_m);
            at.rests(
                &self.support,
                self.heat_coefficient,
                capacity,
                self.surface.room_temperature_k,
                seconds,
            );
        }
        at
    }

    fn record(&self, solver: &Rosenbrock, trace: &mut Trace) {
        let (t0, t1) = (solver.t_old(), solver.t());
        for point in 1..=POINTS {
            let t = t0 + (t1 - t0) * point as f64 / POINTS as f64;
            trace.times_s.push(self.from_s + t);
            for (i, amounts) in trace.amounts_mol_m2.iter_mut().enumerate() {
                amounts.push(solver.dense(i, t).max(0.0) * self.scale);
            }
            trace.temperature_k.push(self.surface.room_temperature_k + solver.dense(self.n, t));
        }
        let (mut left, mut volume) = ([0.0; 4], [0.0; 4]);
        for (i, (share, s)) in self.mass_share.iter().zip(&self.surface.species).enumerate() {
            let molar_volume = if *share > 0.0 { s.molar_volume_m3_mol * self.scale } else { 0.0 };
            for (c, d) in solver.dense_coefficients(i).into_iter().enumerate() {
                left[c] += share * d;
                volume[c] += molar_volume * d;
            }
        }
        let [t0_s, t1_s] = [t0, t1].map(|t| self.from_s + t);
        trace.segments.push(Segment { t0_s, t1_s, left: Cubic(left), volume: Cubic(volume) });
    }

    /// Notes when the film has hardened to each mark within the last step.
    fn watch_hardness(&mut self, solver: &Rosenbrock, trace: &mut Trace) {
        if self.surface.binder.is_none() {
            return;
        }
        let (t0, t1) = (solver.t_old(), solver.t());
        let above = self.above_glass_k(solver, t1);
        let least = trace.least_above_glass_k.unwrap_or(f64::INFINITY);
        trace.least_above_glass_k = Some(least.min(above));
        for (mark, level) in [TOUCH_DRY_K, BLOCK_FREE_K].into_iter().enumerate() {
            if trace.soft_until_s[mark].is_some() || above > level {
                continue;
            }
            // The first of the points within the step that has hardened, and the way to it.
            let at = |point: usize| t0 + (t1 - t0) * point as f64 / POINTS as f64;
            let first = (1..POINTS).find(|point| self.above_glass_k(solver, at(*point)) <= level);
            let end = first.unwrap_or(POINTS);
            let time = falls_to(level, at(end - 1), at(end), |t| self.above_glass_k(solver, t));
            trace.soft_until_s[mark] = Some(self.from_s + time);
        }
    }

    fn above_glass_k(&mut self, solver: &Rosenbrock, t: f64) -> f64 {
        for (i, amount) in self.amounts.iter_mut().enumerate() {
            *amount = solver.dense(i, t) * self.scale;
        }
        let temperature = self.surface.room_temperature_k + solver.dense(self.n, t);
        self.surface.above_glass_k(&self.amounts, temperature).unwrap_or(f64::INFINITY)
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
        let per_scale = 1.0 / self.scale;
        let given = self.flux.iter().zip(&self.amounts).zip(&self.surface.species);
        for (dy, ((flux, amount), s)) in dy.iter_mut().zip(given) {
            *dy = -flux * per_scale;
            heat -= flux * s.heat_of_vaporisation_j_mol;
            capacity += amount.max(0.0) * s.heat_capacity_j_mol_k;
        }
        match &self.support {
            Support::Isothermal => {
                dy[n] = 0.0;
                return;
            }
            Support::Free => {}
            Support::Sheet(heat) => capacity += heat,
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
        self.capacity = capacity;
        dy[n] = heat / capacity;
    }

    fn renew(&mut self, y: &[f64]) {
        for (to, from) in self.amounts.iter_mut().zip(y) {
            *to = (from * self.scale).max(0.0);
        }
        self.surface.liquid.renew(self.surface.room_temperature_k + y[self.n], &self.amounts);
    }

    fn core(&self) -> usize {
        self.n + 1
    }

    fn jacobian(&mut self, y: &[f64], f: &[f64], jacobian: &mut Jacobian) {
        let n = self.n;
        let (film, h, capacity) = (y[n], self.heat_coefficient, self.capacity);
        self.surface.slopes(
            &self.amounts,
            self.surface.room_temperature_k + film,
            &self.flux,
            &mut self.slopes,
        );
        for j in 0..=n {
            // A column by an amount is by a share of all that arrived.
            let unit = if j < n { self.scale } else { 1.0 };
            let mut heat = -self.slopes.heat[j] * film;
            let per_scale = unit / self.scale;
            let given = self.slopes.flux.column(j).iter().zip(&self.surface.species);
            for (to, (flux, s)) in jacobian.core.column_mut(j).iter_mut().zip(given) {
                *to = -flux * per_scale;
                heat -= flux * s.heat_of_vaporisation_j_mol;
            }
            if let Some(s) = self.surface.species.get(j) {
                heat -= f[n] * s.heat_capacity_j_mol_k;
            }
            jacobian.core[(n, j)] = match self.support {
                Support::Isothermal => 0.0,
                Support::Free | Support::Sheet(_) | Support::Plate(_) => heat * unit / capacity,
            };
        }
        match &self.support {
            Support::Isothermal => {}
            Support::Free | Support::Sheet(_) => jacobian.core[(n, n)] -= h / capacity,
            Support::Plate(plate) => {
                jacobian.core[(n, n)] -= (h + plate.conductance[0]) / capacity;
                jacobian.core_from_chain = plate.conductance[0] / capacity;
                // The change of h at the back face is left out: it acts through all of the plate.
                for (node, link) in jacobian.chain.iter_mut().enumerate() {
                    let above = plate.conductance[node];
                    let below = plate.conductance.get(node + 1);
                    let own = plate.capacity[node];
                    *link = Link {
                        above: above / own,
                        here: -(above + below.unwrap_or(&h)) / own,
                        below: below.map_or(0.0, |below| below / own),
                    };
                }
            }
        }
    }

    fn allowed(&self, y: &[f64]) -> bool {
        // The law is smooth through zero and draws a trace of negative amount back to it; what is recorded is
        // never negative.
        let trace = AMOUNT_TOLERANCE * self.relative_tolerance;
        y[..self.n].iter().all(|y| *y >= -trace)
            && y[..self.n].iter().sum::<f64>() > 0.0
            && y[self.n] > -COLDEST_DROP_K
    }

    /// Times are asked for: where an amount hardly moves any more, a small error in it is a large one in time.
    fn size(&self, i: usize, value: f64, moves: f64) -> f64 {
        if i < self.n { value.min(moves) } else { value }
    }

    fn absolute_tolerance(&self, i: usize) -> f64 {
        let scale = match self.mass_share.get(i) {
            Some(share) if *share > 0.0 => AMOUNT_TOLERANCE,
            Some(_) => GATHERED_TOLERANCE,
            None => TEMPERATURE_TOLERANCE_K,
        };
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
