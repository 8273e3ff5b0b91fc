//! What leaves the surface of a wet film each second.
//!
//! Species i leaves with `J_i = k_i F (a_i psat_i(T_s) − p_i,room)/(R T_room)`, mol/(m2 s), where
//!
//! * `a_i = γ_i x_i · f_i`, at most 1: UNIFAC activity among the volatiles times the polymer factor;
//! * `F = ln(1 + B)(1 + B)/B`, `B = (y_s − y_room)/(1 − y_s)`, the vapour's own wind (Stefan flow);
//!   One factor for all: exact for vapours that the room has none of; for water coming in against the wind it is
//!   too large, which moves times by less than 2 % (measured on the ternary film at 35 °C and 90 % humidity);
//! * `k_i` from [`crate::air::transfer`], with free convection by the present density of the layer;
//! * `p_room` is the humidity for water and zero for all else. A negative flux is uptake.

use super::polymer;
use crate::air::properties::{AIR_MOLAR_MASS, GAS_CONSTANT};
use crate::air::transfer::GasSide;
use crate::blend::{self, unifac::Scratch};

/// Vapour pressure at the surface stays below this share of the air pressure: a film that would boil is
/// limited by heat, not by this law.
const BOILING: f64 = 0.95;

/// One volatile species, raw SI numbers at the temperature of the room.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Volatile {
    pub(crate) name: String,
    pub(crate) molar_mass_kg_mol: f64,
    pub(crate) molar_volume_m3_mol: f64,
    pub(crate) diffusivity_m2_s: f64,
    pub(crate) heat_of_vaporisation_j_mol: f64,
    pub(crate) heat_capacity_j_mol_k: f64,
    /// `ln psat = a − b/(T + c)`, Pa and K.
    pub(crate) ln_psat: [f64; 3],
    pub(crate) room_pressure_pa: f64,
    pub(crate) chi: f64,
    /// What the coat arrived with, mol/m2; zero for water that only the air brings.
    pub(crate) arrived_mol_m2: f64,
}

impl Volatile {
    pub(crate) fn psat_pa(&self, temperature_k: f64) -> f64 {
        let [a, b, c] = self.ln_psat;
        (a - b / (temperature_k + c)).exp()
    }
}

/// Activity among the volatiles.
#[derive(Debug, Clone)]
pub(crate) enum Activity {
    #[cfg(test)]
    Ideal,
    Blend(Box<blend::Activity>, Option<Scratch>),
}

impl From<blend::Activity> for Activity {
    fn from(activity: blend::Activity) -> Self {
        let scratch = activity.scratch();
        Self::Blend(Box::new(activity), scratch)
    }
}

/// One species at the start, for the working of a result.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct FirstFlux {
    pub(crate) name: String,
    pub(crate) k_m_s: f64,
    pub(crate) stefan_factor: f64,
    pub(crate) gamma: f64,
    pub(crate) mole_fraction: f64,
    pub(crate) polymer_factor: f64,
    pub(crate) psat_pa: f64,
    pub(crate) room_pressure_pa: f64,
    pub(crate) flux_kg_m2_s: f64,
}

/// Transfer to the room.
#[derive(Debug, Clone)]
pub(crate) enum Transfer {
    Room(GasSide),
    /// Constants for tests against exact solutions: k in m/s, then the heat transfer coefficient.
    #[cfg(test)]
    Constant(Vec<f64>, f64),
}

/// Everything constant about the surface, and working space. No call allocates.
#[derive(Debug, Clone)]
pub(crate) struct Surface {
    pub(crate) species: Vec<Volatile>,
    pub(crate) activity: Activity,
    pub(crate) transfer: Transfer,
    pub(crate) stefan_flow: bool,
    /// Solids, m3/m2.
    pub(crate) solids_m: f64,
    pub(crate) room_temperature_k: f64,
    pub(crate) pressure_pa: f64,
    ln_gamma: Vec<f64>,
    amounts: Vec<f64>,
    pressures: Vec<f64>,
    k: Vec<f64>,
}

impl Surface {
    pub(crate) fn new(
        species: Vec<Volatile>,
        activity: Activity,
        transfer: Transfer,
        solids_m: f64,
        room_temperature_k: f64,
        pressure_pa: f64,
    ) -> Self {
        let n = species.len();
        Self {
            species,
            activity,
            transfer,
            stefan_flow: true,
            solids_m,
            room_temperature_k,
            pressure_pa,
            ln_gamma: vec![0.0; n],
            amounts: vec![0.0; n],
            pressures: vec![0.0; n],
            k: vec![0.0; n],
        }
    }

    /// Writes the molar fluxes out of the film and returns the heat transfer coefficient, W/(m2 K).
    ///
    /// `amounts` in mol/m2. A slightly negative amount (a stage of the integrator) gives a slightly negative
    /// mole fraction, so that the law stays smooth through zero.
    pub(crate) fn fluxes(&mut self, amounts: &[f64], temperature_k: f64, flux: &mut [f64]) -> f64 {
        let (mut total, mut volume) = (0.0, 0.0);
        for ((to, &n), s) in self.amounts.iter_mut().zip(amounts).zip(&self.species) {
            *to = n.max(0.0);
            total += *to;
            volume += *to * s.molar_volume_m3_mol;
        }
        let per_total = if total > 0.0 { 1.0 / total } else { 0.0 };
        match &mut self.activity {
            #[cfg(test)]
            Activity::Ideal => {}
            Activity::Blend(activity, scratch) => {
                if total > 0.0 {
                    activity.ln_gamma(temperature_k, &self.amounts, scratch, &mut self.ln_gamma);
                }
            }
        }
        let phi = if self.solids_m > 0.0 { volume / (volume + self.solids_m) } else { 1.0 };
        let limit = BOILING * self.pressure_pa;
        let (mut vapour, mut room_vapour) = (0.0, 0.0);
        let mut density = (self.room_temperature_k - temperature_k) / self.room_temperature_k;
        for (i, s) in self.species.iter().enumerate() {
            let factor = if self.solids_m > 0.0 { polymer::activity_factor(phi, s.chi) } else { 1.0 };
            // A liquid of higher activity than 1 would stand beside the film as a second liquid.
            let a = (amounts[i] * per_total * self.ln_gamma[i].exp() * factor).min(1.0);
            let p = (a * s.psat_pa(temperature_k)).min(limit);
            self.pressures[i] = p;
            vapour += p;
            room_vapour += s.room_pressure_pa;
            density += (p - s.room_pressure_pa) * (s.molar_mass_kg_mol - AIR_MOLAR_MASS)
                / (self.pressure_pa * AIR_MOLAR_MASS);
        }
        let heat = match &self.transfer {
            Transfer::Room(gas) => gas.coefficients(density, &mut self.k),
            #[cfg(test)]
            Transfer::Constant(k, h) => {
                self.k.copy_from_slice(k);
                *h
            }
        };
        let wind = if self.stefan_flow {
            stefan_factor(vapour.min(limit) / self.pressure_pa, room_vapour / self.pressure_pa)
        } else {
            1.0
        };
        let per_rt = wind / (GAS_CONSTANT * self.room_temperature_k);
        for (i, s) in self.species.iter().enumerate() {
            flux[i] = self.k[i] * per_rt * (self.pressures[i] - s.room_pressure_pa);
        }
        heat
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
        let surface: f64 = self.pressures.iter().sum();
        let wind = stefan_factor((surface / self.pressure_pa).min(BOILING), room / self.pressure_pa);
        self.species
            .iter()
            .enumerate()
            .map(|(i, s)| FirstFlux {
                name: s.name.clone(),
                k_m_s: self.k[i],
                stefan_factor: wind,
                gamma: self.ln_gamma[i].exp(),
                mole_fraction: amounts[i] / total,
                polymer_factor: polymer::activity_factor(phi, s.chi),
                psat_pa: s.psat_pa(temperature_k),
                room_pressure_pa: s.room_pressure_pa,
                flux_kg_m2_s: flux[i] * s.molar_mass_kg_mol,
            })
            .collect()
    }
}

/// `F = ln(1 + B)(1 + B)/B` for vapour mole fractions at the surface and in the room.
pub(crate) fn stefan_factor(surface: f64, room: f64) -> f64 {
    let b = (surface - room) / (1.0 - surface);
    let log_ratio = if b.abs() < 1e-5 { 1.0 - 0.5 * b } else { b.ln_1p() / b };
    log_ratio * (1.0 + b)
}

#[cfg(test)]
mod tests {
    use super::*;

    // Acetone at 25 °C: y_s 0.303, F 1.19 (worked from the cited equation).
    #[test]
    fn stefan_factor_of_acetone() {
        approx::assert_relative_eq!(stefan_factor(0.303, 0.0), 1.19, max_relative = 2e-3);
        approx::assert_relative_eq!(stefan_factor(0.02, 0.02), 1.0, epsilon = 1e-12);
        // Both forms meet.
        approx::assert_relative_eq!(
            stefan_factor(0.99e-5, 0.0),
            stefan_factor(1.01e-5, 0.0),
            max_relative = 2e-7
        );
    }
}
