//! One species of a film in raw numbers, and how it leaves at the start.

use crate::air::properties::AIR_MOLAR_MASS;

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
    pub(crate) glass_transition_k: f64,
    /// What the coat arrived with, mol/m2; zero for water that only the air brings.
    pub(crate) arrived_mol_m2: f64,
}

impl Volatile {
    pub(crate) fn psat_pa(&self, temperature_k: f64) -> f64 {
        self.ln_psat_pa(temperature_k).exp()
    }

    pub(super) fn ln_psat_pa(&self, temperature_k: f64) -> f64 {
        let [a, b, c] = self.ln_psat;
        a - b / (temperature_k + c)
    }

    /// Change of the relative density of the layer per partial pressure in it.
    pub(super) fn density_per_pa(&self, pressure_pa: f64) -> f64 {
        (self.molar_mass_kg_mol - AIR_MOLAR_MASS) / (pressure_pa * AIR_MOLAR_MASS)
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
