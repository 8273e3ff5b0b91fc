//! What does a drop lose between the nozzle and the part?
//!
//! The drop rides the decaying jet ([`crate::air::Jet`]), is as cold as its evaporation makes it, and is one well-mixed
//! liquid with solids that stay:
//!
//! * `dn_i/dt = −π d Sh_i D_i F (p_i − p_i,air)/(R T_m)`, the activities, the cap at one liquid, the factor of the
//!   polymer and the Stefan factor F as in [`crate::film`]; gas properties at the mean of drop and gas;
//! * `C dT/dt = π d Nu k (T_gas − T) − Σ (−dn_i/dt) ΔH_i`;
//! * `m dv/dt = 3 π μ d (1 + 0.15 Re^0.687) (u − v)`, `dx/dt = v`;
//! * the air holds the humidity of the room and the vapour that a spray of such drops has given to the air entrained
//!   so far.
//!
//! **Integration.** Rates are nearly linear in what they drain: each step solves the linear system of one rate per
//! amount, for the temperature and for the speed exactly, with the coefficients of the middle of the step (second
//! order). Amounts cannot go negative, a drop gone dry is no stiff case, and the step follows the difference to the
//! first-order solution. Checked against an independent integration by scipy of 96 flights of eight liquids: 3.5 points of
//! the loss, most of it from other vapour pressures; usual drops lose within 0.5 point of what finer steps give.
//!
//! Water that cold drops take from humid air comes by the same laws; that reference had none, so it is checked by hand: a fresh drop
//! in still air takes up `12 D p_w/(d² R T)` per volume and second (Ranz and Marshall at rest), within 10 %. The Stefan factor is
//! that of what leaves and is used for what comes against the stream too, which overstates it, by some 15 % for acetone as cold as it flies.
//!
//! Neglected: diffusion inside the drop and a skin on it (fine drops of polymer solution lose less than told here),
//! turbulence, gravity, internal heat gradients, vapour between drops of different size, adiabatic recovery of the
//! cold core.

use super::drop::{drag_factor, transfer_number};
use crate::air::Jet;
use crate::air::properties::{
    AIR_HEAT_CAPACITY, AIR_MOLAR_MASS, GAS_CONSTANT, conductivity_w_m_k, density_kg_m3, viscosity_pa_s,
};
use crate::error::{Result, out_of_range};
use crate::film::{self, Surface};
use crate::quantity::{Length, Quantity, show};

/// Speed of the paint where the air takes it, m/s: far below that of the air, so that its value hardly matters.
const START_SPEED_M_S: f64 = 1.0;
/// Density of binder and pigment, kg/m3; enters only the drag.
const SOLIDS_DENSITY: f64 = 1200.0;
/// Exponents of diffusivity and kinematic viscosity, and of conductivity of air with temperature.
const DIFFUSION_EXPONENT: f64 = 1.75;
const CONDUCTION_EXPONENT: f64 = 0.9;
/// Vapour at the drop stays below this share of the air pressure.
const BOILING: f64 = 0.95;
/// A drop with less liquid than this share of what it had is solids.
const DRY: f64 = 1e-7;
/// Wanted difference of one step to its first-order solution, in the volume share of a species.
const TOLERANCE: f64 = 8e-3;
/// The same for the temperature, K, and for the speed, as a share of that of the air.
const TEMPERATURE_TOLERANCE_K: f64 = 0.6;
const SPEED_TOLERANCE: f64 = 0.08;
/// The last step ends within this share of the distance.
const LANDED: f64 = 1e-6;
/// No flight known needs a tenth of it.
const MAX_STEPS: usize = 5_000;
/// The slope of the activity coefficients with temperature is renewed when the drop has cooled or warmed by so much, K,
/// or after so many steps.
const RENEWED_AFTER_K: f64 = 4.0;
const RENEWED_AFTER_STEPS: usize = 6;
/// Coldest drop, K: the vapour pressure equations end somewhere.
const COLDEST_K: f64 = 180.0;

/// A spray of one liquid in one jet, with working space.
#[derive(Debug, Clone)]
pub(crate) struct Flight {
    surface: Surface,
    jet: Option<Jet>,
    /// Amounts in the liquid as sprayed, mol/m3.
    start: Vec<f64>,
    /// Share of the volume that stays.
    solids: f64,
    /// Volume of paint per second, m3/s.
    paint_m3_s: f64,
    still: Still,
    eval: Eval,
    rates: Rates,
    /// At the start of the step.
    first_rates: Rates,
    /// Amounts: now, at the middle of the step, at its end, and at its end to first order.
    now: Vec<f64>,
    middle: Vec<f64>,
    end: Vec<f64>,
    first: Vec<f64>,
}

/// Of the air, at the temperature of the room.
#[derive(Debug, Clone)]
struct Still {
    kinematic_viscosity: f64,
    viscosity: f64,
    conductivity: f64,
    root3_prandtl: f64,
    root3_schmidt: Vec<f64>,
}

#[derive(Debug, Clone, Default)]
struct Eval {
    amounts: Vec<f64>,
    ln_gamma: Vec<f64>,
    psat: Vec<f64>,
    pressure: Vec<f64>,
    in_air: Vec<f64>,
}

/// Linear laws of one state: `dn_i/dt = −drain_i n_i + gain_i`, `dT/dt = (T_eq − T)/τ_T`, `dv/dt = (u − v)/τ_v`.
#[derive(Debug, Clone, Default)]
struct Rates {
    drain: Vec<f64>,
    gain: Vec<f64>,
    equilibrium_k: f64,
    per_tau_temperature: f64,
    air_m_s: f64,
    per_tau_speed: f64,
}

/// Where a drop is and how it moves, but for its amounts.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Motion {
    temperature_k: f64,
    speed_m_s: f64,
    place_m: f64,
}

/// A drop when it meets the part, or when its time is over.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Landed {
    /// Amounts left per volume of the drop as sprayed, mol/m3.
    pub(crate) amounts: Vec<f64>,
    pub(crate) temperature_k: f64,
    pub(crate) coldest_k: f64,
    pub(crate) speed_m_s: f64,
    pub(crate) time_s: f64,
    /// Volume left per volume sprayed.
    pub(crate) volume: f64,
    pub(crate) steps: usize,
}

/// When a flight ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum End {
    Distance(f64),
    #[cfg_attr(not(test), allow(dead_code, reason = "drops in still air serve the tests"))]
    Time(f64),
}

impl Flight {
    /// `surface` is that of a film of the liquid, `film_m` thick when wet. Without a jet the drop hangs in still air.
    pub(crate) fn new(surface: Surface, film_m: f64, jet: Option<Jet>, paint_m3_s: f64) -> Self {
        let n = surface.species.len();
        let room_k = surface.room_temperature_k;
        let (viscosity, density) = (viscosity_pa_s(room_k), density_kg_m3(room_k, surface.pressure_pa));
        let conductivity = conductivity_w_m_k(room_k);
        let nu = viscosity / density;
        let still = Still {
            kinematic_viscosity: nu,
            viscosity,
            conductivity,
            root3_prandtl: (viscosity * AIR_HEAT_CAPACITY / conductivity).cbrt(),
            root3_schmidt: surface.species.iter().map(|s| (nu / s.diffusivity_m2_s).cbrt()).collect(),
        };
        let empty = || vec![0.0; n];
        Self {
            start: surface.species.iter().map(|s| s.arrived_mol_m2 / film_m).collect(),
            solids: surface.solids_m / film_m,
            jet,
            paint_m3_s,
            still,
            eval: Eval {
                amounts: empty(),
                ln_gamma: empty(),
                psat: empty(),
                pressure: empty(),
                in_air: empty(),
            },
            rates: Rates { drain: empty(), gain: empty(), ..Rates::default() },
            first_rates: Rates { drain: empty(), gain: empty(), ..Rates::default() },
            now: empty(),
            middle: empty(),
            end: empty(),
            first: empty(),
            surface,
        }
    }

    /// Amounts in the liquid as sprayed, mol/m3.
    pub(crate) fn start(&self) -> &[f64] {
        &self.start
    }

    pub(crate) fn surface(&self) -> &Surface {
        &self.surface
    }

    /// Of the species in a liquid, not all amounts zero.
    pub(crate) fn activity_coefficients(&mut self, amounts: &[f64], temperature_k: f64) -> Vec<f64> {
        let mut ln_gamma = vec![0.0; amounts.len()];
        self.surface.liquid.renew(temperature_k, amounts);
        self.surface.liquid.ln_gamma(temperature_k, amounts, &mut ln_gamma);
        ln_gamma.into_iter().map(f64::exp).collect()
    }

    /// Sends a drop of this diameter on its way.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] should the integration need more than 5000 steps; no case is known.
    pub(crate) fn fly(&mut self, diameter_m: f64, end: End, tolerance_factor: f64) -> Result<Landed> {
        self.now.copy_from_slice(&self.start);
        let room_k = self.surface.room_temperature_k;
        let mut motion = Motion {
            temperature_k: room_k,
            speed_m_s: if self.jet.is_some() { START_SPEED_M_S } else { 0.0 },
            place_m: 0.0,
        };
        let (mut time, mut coldest, mut steps) = (0.0, room_k, 0);
        let (mut since_renewed, mut renewed_at_k) = (RENEWED_AFTER_STEPS, room_k);
        // A first step that no drop can feel; the controller takes it from there.
        let mut step = 1e-3 * diameter_m * diameter_m / self.still.kinematic_viscosity;
        loop {
            let left = match end {
                End::Distance(x) => {
                    let rest = x - motion.place_m;
                    if rest <= LANDED * x {
                        break;
                    }
                    rest / motion.speed_m_s.max(START_SPEED_M_S)
                }
                End::Time(t) => {
                    if time >= t {
                        break;
                    }
                    t - time
                }
            };
            let now = core::mem::take(&mut self.now);
            if since_renewed >= RENEWED_AFTER_STEPS
                || (motion.temperature_k - renewed_at_k).abs() > RENEWED_AFTER_K
            {
                self.renew(&now, motion.temperature_k);
                (since_renewed, renewed_at_k) = (0, motion.temperature_k);
            }
            since_renewed += 1;
            self.rate(&now, motion, diameter_m);
            core::mem::swap(&mut self.rates, &mut self.first_rates);
            let mut taken = step.min(left);
            let landed = loop {
                steps += 1;
                if steps > MAX_STEPS {
                    self.now = now;
                    return Err(stuck(diameter_m, motion.place_m));
                }
                let half = advance(&self.first_rates, &now, motion, 0.5 * taken, &mut self.middle);
                let middle = core::mem::take(&mut self.middle);
                self.rate(&middle, half, diameter_m);
                self.middle = middle;
                let full = advance(&self.rates, &now, motion, taken, &mut self.end);
                let rough = advance(&self.first_rates, &now, motion, taken, &mut self.first);
                if let End::Distance(x) = end {
                    // A drop that still gathers speed gets farther than was guessed.
                    let covered = (full.place_m - motion.place_m) / (x - motion.place_m);
                    if full.place_m > (1.0 + LANDED) * x {
                        taken *= (1.0 / covered).min(0.99);
                        continue;
                    }
                }
                let off = self.difference(full, rough) / tolerance_factor;
                // The difference grows with the square of the step.
                let factor = (0.9 / off.max(1e-4).sqrt()).clamp(0.2, 4.0);
                if off <= 1.0 {
                    if taken >= step || factor < 1.0 {
                        step = taken * factor;
                    }
                    break full;
                }
                taken *= factor.min(0.9);
                step = taken;
            };
            time += taken;
            motion = landed;
            coldest = coldest.min(motion.temperature_k);
            self.now = now;
            core::mem::swap(&mut self.now, &mut self.end);
        }
        Ok(Landed {
            volume: self.volume(&self.now),
            amounts: self.now.clone(),
            temperature_k: motion.temperature_k,
            coldest_k: coldest,
            speed_m_s: motion.speed_m_s,
            time_s: time,
            steps,
        })
    }

    fn volume(&self, amounts: &[f64]) -> f64 {
        let liquid: f64 =
            amounts.iter().zip(&self.surface.species).map(|(n, s)| n * s.molar_volume_m3_mol).sum();
        liquid + self.solids
    }

    fn difference(&self, full: Motion, rough: Motion) -> f64 {
        let mut off = (full.temperature_k - rough.temperature_k).abs() / TEMPERATURE_TOLERANCE_K;
        let air = self.rates.air_m_s.max(START_SPEED_M_S);
        off = off.max((full.speed_m_s - rough.speed_m_s).abs() / (SPEED_TOLERANCE * air));
        for ((a, b), s) in self.end.iter().zip(&self.first).zip(&self.surface.species) {
            off = off.max((a - b).abs() * s.molar_volume_m3_mol / TOLERANCE);
        }
        off
    }

    fn renew(&mut self, amounts: &[f64], temperature_k: f64) {
        if amounts.iter().sum::<f64>() > DRY * self.start.iter().sum::<f64>() {
            self.surface.liquid.renew(temperature_k, amounts);
        }
    }

    /// Works out the linear laws at one state.
    fn rate(&mut self, amounts: &[f64], motion: Motion, diameter_m: f64) {
        let Motion { temperature_k: drop_k, place_m, speed_m_s } = motion;
        let room_k = self.surface.room_temperature_k;
        let (air_m_s, gas_k, air_mol_s) = match &self.jet {
            Some(jet) => (
                jet.speed_m_s(place_m),
                jet.temperature_k(place_m),
                jet.mass_flow_kg_s * jet.entrained(place_m) / AIR_MOLAR_MASS,
            ),
            None => (0.0, room_k, f64::INFINITY),
        };
        let mean_k = 0.5 * (drop_k + gas_k);
        let ln_ratio = (mean_k / room_k).ln();
        let diffusion = (DIFFUSION_EXPONENT * ln_ratio).exp();
        let conductivity = self.still.conductivity * (CONDUCTION_EXPONENT * ln_ratio).exp();
        let volume = self.volume(amounts).max(1e-12);
        let shrunk = volume.cbrt();
        let d = diameter_m * shrunk;
        let reynolds = (air_m_s - speed_m_s).abs() * d / (self.still.kinematic_viscosity * diffusion);
        let root_re = reynolds.sqrt();
        // π d over the volume as sprayed.
        let per_volume = 6.0 * shrunk / (diameter_m * diameter_m);
        let heat_w_m3_k = per_volume * transfer_number(root_re, self.still.root3_prandtl) * conductivity;
        let mut capacity = self.solids * film::SOLIDS_HEAT_J_M3_K;
        let mut mass = self.solids * SOLIDS_DENSITY;
        let (mut total, mut liquid) = (0.0, 0.0);
        for (n, s) in amounts.iter().zip(&self.surface.species) {
            capacity += n * s.heat_capacity_j_mol_k;
            mass += n * s.molar_mass_kg_mol;
            total += n;
            liquid += n * s.molar_volume_m3_mol;
        }
        let rates = &mut self.rates;
        rates.air_m_s = air_m_s;
        // ρ = μ/ν: the viscosity rises with temperature to the power ¾.
        let viscosity = self.still.viscosity * diffusion * room_k / mean_k;
        rates.per_tau_speed = if self.jet.is_some() {
            18.0 * viscosity * shrunk * drag_factor(reynolds) / (mass * diameter_m * diameter_m)
        } else {
            0.0
        };
        let mut heat = heat_w_m3_k * (gas_k - drop_k);
        let mut per_kelvin = heat_w_m3_k;
        if total > DRY * self.start.iter().sum::<f64>() {
            let eval = &mut self.eval;
            eval.amounts.copy_from_slice(amounts);
            self.surface.liquid.ln_gamma(drop_k, &eval.amounts, &mut eval.ln_gamma);
            let phi = liquid / volume;
            let limit = BOILING * self.surface.pressure_pa;
            let (mut at_drop, mut in_air) = (0.0, 0.0);
            for (i, s) in self.surface.species.iter().enumerate() {
                let psat = s.psat_pa(drop_k.max(COLDEST_K));
                let exponent = eval.ln_gamma[i] + film::polymer_exponent(phi, s.chi);
                let per_amount = phi / total * exponent.exp() * psat;
                eval.psat[i] = psat;
                eval.pressure[i] = (amounts[i] * per_amount).min(psat).min(limit);
                // Slope of pressure with amount, for the linear law.
                rates.drain[i] = if amounts[i] > 0.0 { eval.pressure[i] / amounts[i] } else { per_amount };
                let given = (self.start[i] - amounts[i]) * self.paint_m3_s / air_mol_s;
                eval.in_air[i] = (s.room_pressure_pa + given * self.surface.pressure_pa).max(0.0);
                at_drop += eval.pressure[i];
                in_air += eval.in_air[i];
            }
            let at_drop = at_drop.min(limit) / self.surface.pressure_pa;
            let in_air = in_air.min(limit) / self.surface.pressure_pa;
            let per_pa =
                per_volume * diffusion * film::stefan_factor(at_drop, in_air) / (GAS_CONSTANT * mean_k);
            for (i, s) in self.surface.species.iter().enumerate() {
                let conductance =
                    per_pa * s.diffusivity_m2_s * transfer_number(root_re, self.still.root3_schmidt[i]);
                heat -= conductance * (eval.pressure[i] - eval.in_air[i]) * s.heat_of_vaporisation_j_mol;
                let [_, b, c] = s.ln_psat;
                let slope = b / ((drop_k + c) * (drop_k + c));
                per_kelvin += conductance * eval.pressure[i] * slope * s.heat_of_vaporisation_j_mol;
                rates.drain[i] *= conductance;
                rates.gain[i] = conductance * eval.in_air[i];
            }
        } else {
            rates.drain.fill(0.0);
            rates.gain.fill(0.0);
        }
        rates.per_tau_temperature = per_kelvin / capacity.max(1.0);
        rates.equilibrium_k = (drop_k + heat / per_kelvin).max(COLDEST_K);
    }
}

/// Solves the linear laws over a time.
fn advance(rates: &Rates, amounts: &[f64], motion: Motion, time_s: f64, out: &mut [f64]) -> Motion {
    for ((to, from), (drain, gain)) in out.iter_mut().zip(amounts).zip(rates.drain.iter().zip(&rates.gain)) {
        let (decay, mean) = relaxation(drain * time_s);
        *to = from * decay + gain * time_s * mean;
    }
    let Motion { temperature_k, speed_m_s, place_m } = motion;
    let warmth = (-rates.per_tau_temperature * time_s).exp();
    let (pull, mean_pull) = relaxation(rates.per_tau_speed * time_s);
    let gap = speed_m_s - rates.air_m_s;
    Motion {
        temperature_k: rates.equilibrium_k + (temperature_k - rates.equilibrium_k) * warmth,
        speed_m_s: rates.air_m_s + gap * pull,
        place_m: place_m + time_s * (rates.air_m_s + gap * mean_pull),
    }
}

/// `exp(−x)`, and its mean from zero to x, `(1 − exp(−x))/x`.
fn relaxation(x: f64) -> (f64, f64) {
    let decay = (-x).exp();
    // The series is exact to 1e-13 where the difference of the closed form loses digits.
    (decay, if x < 1e-3 { 1.0 - x * (0.5 - x * (1.0 - 0.25 * x) / 6.0) } else { (1.0 - decay) / x })
}

fn stuck(diameter_m: f64, place_m: f64) -> crate::error::Error {
    out_of_range(
        "flight calculation",
        format!(
            "a drop of {} still at {}",
            show(Length::from_si(diameter_m)),
            show(Length::from_si(place_m))
        ),
        format!("{MAX_STEPS} steps of the integrator"),
        "give a shorter distance or coarser drops; report the case, it should not happen",
    )
}

#[cfg(test)]
#[path = "flight_tests.rs"]
mod tests;
