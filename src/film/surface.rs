//! What leaves the surface of a wet film each second.
//!
//! Species i leaves with `J_i = k_i F (a_i psat_i(T_s) − p_i,room)/(R T_room)`, mol/(m2 s), where
//!
//! * `a_i = γ_i x_i · f_i`, at most 1: UNIFAC activity among the volatiles times the polymer factor;
//! * `F = ln(1 + B)(1 + B)/B`, `B = (y_s − y_room)/(1 − y_s)`, the vapour's own wind (Stefan flow);
//!   One factor for all: exact for vapours that the room has none of; for water coming in against the wind it is
//!   too large, which moves times by less than 2 % (measured on the ternary film at 35 °C and 90 % humidity);
//! * `k_i` from [`crate::air::transfer`], with free convection by the present density of the layer;
//! * in a film with a binder, `1/K = 1/k + (c_gas/c_film)/k_f` takes the place of k ([`super::binder`]);
//! * `p_room` is the humidity for water and zero for all else. A negative flux is uptake.

use super::binder::{Matter, Stiffness};
use super::liquid::Liquid;
use super::polymer;
use super::solver::linear::Matrix;
use super::volatile::{FirstFlux, Volatile};
use super::wind::{stefan_factor, stefan_slope};
use crate::air::properties::GAS_CONSTANT;
use crate::air::transfer::GasSide;

/// Vapour pressure at the surface stays below this share of the air pressure: a film that would boil is
/// limited by heat, not by this law.
const BOILING: f64 = 0.95;

/// π²/4: the slowest mode of a sheet that loses through one face.
const SLOWEST_MODE: f64 = core::f64::consts::PI * core::f64::consts::PI / 4.0;

/// Transfer to the room.
#[derive(Debug, Clone)]
pub(crate) enum Transfer {
    Room(GasSide),
    /// Constants of a test cabinet: k in m/s, then the heat transfer coefficient in W/(m2 K).
    Constant(Vec<f64>, f64),
}

/// Everything constant about the surface, and working space. No call allocates.
#[derive(Debug, Clone)]
pub(crate) struct Surface {
    pub(crate) species: Vec<Volatile>,
    pub(crate) liquid: Liquid,
    pub(crate) transfer: Transfer,
    pub(crate) stefan_flow: bool,
    /// Solids, m3/m2.
    pub(crate) solids_m: f64,
    /// None: the film offers no resistance of its own.
    pub(crate) binder: Option<Matter>,
    pub(crate) room_temperature_k: f64,
    pub(crate) pressure_pa: f64,
    amounts: Vec<f64>,
    state: State,
}

/// What the latest call of [`Surface::fluxes`] worked out, for the slopes.
#[derive(Debug, Clone, Default)]
struct State {
    per_total: f64,
    /// Liquid, m3/m2.
    volume_m: f64,
    /// Volume fraction of liquid in the film.
    phi: f64,
    density_difference: f64,
    vapour_pa: f64,
    room_vapour_pa: f64,
    ln_gamma: Vec<f64>,
    /// Resistance of the film included.
    k: Vec<f64>,
    of: Vec<OfSpecies>,
    stiffness: Stiffness,
    /// Slope of the logarithm of the diffusivity in the film with T − Tg.
    ln_diffusivity_slope: f64,
    /// Flux per pressure difference without `k`.
    per_rt: f64,
}

/// The part of [`State`] that each species has for itself.
#[derive(Debug, Clone, Copy)]
struct OfSpecies {
    /// Change of the relative density of the layer per partial pressure in it; constant.
    density_per_pa: f64,
    /// No partial pressure may be higher: that of the pure liquid, where it might be reached, or short of boiling.
    most_pa: f64,
    /// Partial pressure per amount, without the limits on it.
    pa_per_amount: f64,
    pressure_pa: f64,
    /// Share of the air in the whole resistance; 1 without a binder.
    air_share: f64,
}

impl OfSpecies {
    fn new(species: &Volatile, pressure_pa: f64) -> Self {
        Self {
            density_per_pa: species.density_per_pa(pressure_pa),
            most_pa: 0.0,
            pa_per_amount: 0.0,
            pressure_pa: 0.0,
            air_share: 1.0,
        }
    }

    /// Partial pressure over amount.
    fn slope(&self, amount: f64) -> f64 {
        let plain = self.pa_per_amount;
        if amount * plain > self.pressure_pa { self.pressure_pa / amount } else { plain }
    }
}

/// Derivatives of the fluxes and of the heat transfer coefficient: by each amount, then by temperature.
#[derive(Debug, Clone)]
pub(crate) struct Slopes {
    /// Row i: of flux i.
    pub(crate) flux: Matrix,
    pub(crate) heat: Vec<f64>,
    /// Working space: relative slopes of the transfer coefficients.
    k: Vec<f64>,
    /// Working space: relative slopes of the resistance of the film, before what is common to all species.
    film: Vec<f64>,
}

impl Slopes {
    pub(crate) fn new(species: usize) -> Self {
        Self {
            flux: Matrix::zeros(species + 1),
            heat: vec![0.0; species + 1],
            k: vec![0.0; species],
            film: vec![0.0; species],
        }
    }
}

impl Surface {
    pub(crate) fn new(
        species: Vec<Volatile>,
        mut liquid: Liquid,
        transfer: Transfer,
        solids_m: f64,
        room_temperature_k: f64,
        pressure_pa: f64,
    ) -> Self {
        let n = species.len();
        let arrived: Vec<f64> = species.iter().map(|s| s.arrived_mol_m2).collect();
        liquid.renew(room_temperature_k, &arrived);
        Self {
            liquid,
            transfer,
            stefan_flow: true,
            solids_m,
            binder: None,
            room_temperature_k,
            pressure_pa,
            amounts: vec![0.0; n],
            state: State {
                room_vapour_pa: species.iter().map(|s| s.room_pressure_pa).sum(),
                ln_gamma: vec![0.0; n],
                k: vec![0.0; n],
                of: species.iter().map(|s| OfSpecies::new(s, pressure_pa)).collect(),
                ..State::default()
            },
            species,
        }
    }

    /// Writes the molar fluxes out of the film and returns the heat transfer coefficient, W/(m2 K).
    ///
    /// `amounts` in mol/m2. A slightly negative amount (a stage of the integrator) gives a slightly negative
    /// mole fraction, so that the law stays smooth through zero.
    pub(crate) fn fluxes(&mut self, amounts: &[f64], temperature_k: f64, flux: &mut [f64]) -> f64 {
        let state = &mut self.state;
        let (mut total, mut volume) = (0.0, 0.0);
        for ((to, &n), s) in self.amounts.iter_mut().zip(amounts).zip(&self.species) {
            *to = n.max(0.0);
            total += *to;
            volume += *to * s.molar_volume_m3_mol;
        }
        state.per_total = if total > 0.0 { 1.0 / total } else { 0.0 };
        if total > 0.0 {
            self.liquid.ln_gamma(temperature_k, &self.amounts, &mut state.ln_gamma);
        }
        state.volume_m = volume;
        state.phi = if self.solids_m > 0.0 { volume / (volume + self.solids_m) } else { 1.0 };
        let scale = state.phi * state.per_total;
        let limit = BOILING * self.pressure_pa;
        let mut vapour = 0.0;
        let mut density = (self.room_temperature_k - temperature_k) / self.room_temperature_k;
        let inputs = amounts.iter().zip(&state.ln_gamma).zip(&self.species);
        for (of, ((&amount, ln_gamma), s)) in state.of.iter_mut().zip(inputs) {
            let exponent = ln_gamma + polymer::exponent(state.phi, s.chi);
            of.pa_per_amount = scale * (exponent + s.ln_psat_pa(temperature_k)).exp();
            // A liquid of higher activity than 1 would stand beside the film as a second liquid. As eᶻ < 1/(1 − z/2)²,
            // most need no second exponential to be known for less.
            let rest = 1.0 - 0.5 * exponent;
            let is_less = rest > 0.0 && amount * scale <= rest * rest;
            of.most_pa = if is_less { limit } else { s.psat_pa(temperature_k).min(limit) };
            of.pressure_pa = (amount * of.pa_per_amount).min(of.most_pa);
            vapour += of.pressure_pa;
            density += (of.pressure_pa - s.room_pressure_pa) * of.density_per_pa;
        }
        let state = &mut self.state;
        state.density_difference = density;
        state.vapour_pa = vapour.min(limit);
        let heat = match &self.transfer {
            Transfer::Room(gas) => gas.coefficients(density, &mut state.k),
            Transfer::Constant(k, h) => {
                state.k.copy_from_slice(k);
                *h
            }
        };
        if let Some(binder) = &self.binder {
            let film_m = state.volume_m + self.solids_m;
            state.stiffness = stiffness(binder, &self.amounts, &self.species);
            let (ln_d, slope) = binder.ln_diffusivity(temperature_k - state.stiffness.glass_k);
            state.ln_diffusivity_slope = slope;
            // c_gas/c_film = (p/RT)/(n/h), over k_f = (π²/4) D/h.
            let per_slope =
                film_m * film_m * (-ln_d).exp() / (SLOWEST_MODE * GAS_CONSTANT * self.room_temperature_k);
            for ((of, k), &amount) in state.of.iter_mut().zip(&mut state.k).zip(amounts) {
                of.air_share = 1.0 / (1.0 + *k * of.slope(amount) * per_slope);
                *k *= of.air_share;
            }
        }
        let wind = if self.stefan_flow {
            stefan_factor(state.vapour_pa / self.pressure_pa, state.room_vapour_pa / self.pressure_pa)
        } else {
            1.0
        };
        state.per_rt = wind / (GAS_CONSTANT * self.room_temperature_k);
        for (((flux, k), of), s) in flux.iter_mut().zip(&state.k).zip(&state.of).zip(&self.species) {
            *flux = k * state.per_rt * (of.pressure_pa - s.room_pressure_pa);
        }
        heat
    }

    /// Writes the derivatives of what the latest call of [`Self::fluxes`], with these amounts, temperature and
    /// results, gave.
    pub(crate) fn slopes(&mut self, amounts: &[f64], temperature_k: f64, flux: &[f64], out: &mut Slopes) {
        let n = self.species.len();
        let heat_slope = match &self.transfer {
            Transfer::Room(gas) => gas.slopes(self.state.density_difference, &mut out.k),
            Transfer::Constant(..) => 0.0,
        };
        let limit = BOILING * self.pressure_pa;
        self.liquid.renew_slopes(&self.amounts);
        let state = &self.state;
        let film_m = self.state.volume_m + self.solids_m;
        let per_kelvin_base = |s: &Volatile| {
            let [_, b, c] = s.ln_psat;
            b / ((temperature_k + c) * (temperature_k + c))
        };
        // Relative to the pressure of the air.
        let wind_slope = if self.stefan_flow && state.vapour_pa < limit {
            stefan_slope(state.vapour_pa / self.pressure_pa, state.room_vapour_pa / self.pressure_pa)
                / self.pressure_pa
        } else {
            0.0
        };
        let per_phi = 1.0 / state.phi;
        for j in 0..=n {
            // First the derivatives of the partial pressures, in the place of those of the fluxes.
            let slopes = out.flux.column_mut(j).iter_mut().zip(&mut out.film);
            if let Some(moved) = self.species.get(j) {
                let phi_j = moved.molar_volume_m3_mol * self.solids_m / (film_m * film_m);
                let given = state.of.iter().zip(self.liquid.per_amount(j)).zip(&self.species).zip(amounts);
                for (i, ((to, film), (((of, ln_gamma), s), amount))) in slopes.zip(given).enumerate() {
                    let own = if i == j { 1.0 } else { 0.0 };
                    let p = amount * of.pa_per_amount;
                    if p >= of.most_pa {
                        *to = 0.0;
                        *film = -own / amount;
                    } else {
                        *film = ln_gamma - state.per_total;
                        if self.solids_m > 0.0 {
                            *film += (per_phi + polymer::exponent_slope(state.phi, s.chi)) * phi_j;
                        }
                        *to = own * of.pa_per_amount + p * *film;
                    }
                }
            } else {
                for (i, ((to, film), (of, s))) in slopes.zip(state.of.iter().zip(&self.species)).enumerate() {
                    *film = if of.pressure_pa >= limit {
                        0.0
                    } else if of.pressure_pa >= of.most_pa {
                        per_kelvin_base(s)
                    } else {
                        per_kelvin_base(s) + self.liquid.per_kelvin(i)
                    };
                    *to = of.pressure_pa * *film;
                }
            }
            let (mut density, mut vapour) = (if j == n { -1.0 / self.room_temperature_k } else { 0.0 }, 0.0);
            for (slope, of) in out.flux.column_mut(j).iter().zip(&state.of) {
                density += of.density_per_pa * slope;
                vapour += slope;
            }
            let wind = wind_slope * vapour;
            let common = self.film_slope(j, film_m);
            let given = state.of.iter().zip(&state.k).zip(out.k.iter().zip(&out.film)).zip(flux);
            for (to, (((of, k), (k_slope, film)), flux)) in out.flux.column_mut(j).iter_mut().zip(given) {
                let air = of.air_share;
                let relative = air * k_slope * density - (1.0 - air) * (film + common);
                *to = k * state.per_rt * *to + flux * (relative + wind);
            }
            out.heat[j] = heat_slope * density;
        }
    }

    /// Relative slope of `h²/D`, the part of the resistance of the film that all species share.
    fn film_slope(&self, j: usize, film_m: f64) -> f64 {
        if self.binder.is_none() {
            return 0.0;
        }
        let slope = self.state.ln_diffusivity_slope;
        let Some(s) = self.species.get(j) else { return -slope };
        let glass = self.state.stiffness.per_mass(s.glass_transition_k) * s.molar_mass_kg_mol;
        2.0 * s.molar_volume_m3_mol / film_m + slope * glass
    }

    /// How far the film is above its glass transition, K; None without a binder.
    pub(crate) fn above_glass_k(&self, amounts_mol_m2: &[f64], temperature_k: f64) -> Option<f64> {
        let binder = self.binder.as_ref()?;
        Some(temperature_k - stiffness(binder, amounts_mol_m2, &self.species).glass_k)
    }

    /// The fluxes of the wet coat at room temperature, species by species.
    pub(crate) fn first_fluxes(mut self) -> Vec<FirstFlux> {
        let amounts: Vec<f64> = self.species.iter().map(|s| s.arrived_mol_m2).collect();
        let temperature_k = self.room_temperature_k;
        let mut flux = vec![0.0; amounts.len()];
        self.fluxes(&amounts, temperature_k, &mut flux);
        let total: f64 = amounts.iter().sum();
        let volume: f64 = amounts.iter().zip(&self.species).map(|(n, s)| n * s.molar_volume_m3_mol).sum();
        let phi = volume / (volume + self.solids_m);
        let room: f64 = self.species.iter().map(|s| s.room_pressure_pa).sum();
        let surface: f64 = self.state.of.iter().map(|of| of.pressure_pa).sum();
        let wind = stefan_factor((surface / self.pressure_pa).min(BOILING), room / self.pressure_pa);
        self.species
            .iter()
            .enumerate()
            .map(|(i, s)| FirstFlux {
                name: s.name.clone(),
                k_m_s: self.state.k[i],
                stefan_factor: wind,
                gamma: self.state.ln_gamma[i].exp(),
                mole_fraction: amounts[i] / total,
                polymer_factor: polymer::activity_factor(phi, s.chi),
                psat_pa: s.psat_pa(temperature_k),
                room_pressure_pa: s.room_pressure_pa,
                flux_kg_m2_s: flux[i] * s.molar_mass_kg_mol,
            })
            .collect()
    }
}

fn stiffness(binder: &Matter, amounts_mol_m2: &[f64], species: &[Volatile]) -> Stiffness {
    let masses = amounts_mol_m2.iter().zip(species);
    binder.stiffness(masses.map(|(n, s)| (n.max(0.0) * s.molar_mass_kg_mol, s.glass_transition_k)))
}
