//! What a drying or mixing loop needs of a solvent: plain numbers, the unit in every name.
//!
//! The rest of this crate speaks in quantities; inside a loop that runs thousands of times a plain `f64`
//! is what counts. [`PureKernel`] is a copy of the constants, cheap to hold, with the laws of
//! [`super::Solvent`] as inline functions. It does not check ranges: whoever builds it does.

use serde::{Deserialize, Serialize};

/// Molar gas constant in J/(mol K), exact since 2019 (source `SI_2019`).
pub const GAS_CONSTANT_J_MOL_K: f64 = 8.314_462_618;
/// Standard atmosphere in Pa (source `NIST_SP811`).
pub const ATMOSPHERE_PA: f64 = 101_325.0;
/// Molar mass of dry air in kg/mol (source `AIR`).
pub const AIR_MOLAR_MASS_KG_MOL: f64 = 0.028_965;
/// Diffusion volume of air (source `FULLER69`).
pub const AIR_FULLER_VOLUME: f64 = 19.7;
/// Temperature of the values "at 20 °C".
pub(super) const T20_K: f64 = 293.15;
/// Temperature of the values "at 25 °C".
pub(super) const T25_K: f64 = 298.15;

/// Constants of one pure liquid.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PureKernel {
    /// Molar mass.
    pub molar_mass_kg_mol: f64,
    /// `A` of `log10(P/Pa) = A - B/(T + C)`.
    pub antoine_a: f64,
    /// `B` in K.
    pub antoine_b_k: f64,
    /// `C` in K.
    pub antoine_c_k: f64,
    /// Density at 20 °C.
    pub density20_kg_m3: f64,
    /// Change of density with temperature, below zero.
    pub density_slope_kg_m3_k: f64,
    /// Change of that slope; zero but for water.
    pub density_curvature_kg_m3_k2: f64,
    /// `ln_a` of `ln(viscosity / mPa s) = ln_a + b / (T + c)`.
    pub viscosity_ln_a: f64,
    /// `b` in K.
    pub viscosity_b_k: f64,
    /// `c` in K; zero for most.
    pub viscosity_c_k: f64,
    /// Surface tension at 20 °C.
    pub surface_tension20_n_m: f64,
    /// Change of surface tension with temperature, below zero.
    pub surface_tension_slope_n_m_k: f64,
    /// Heat of vaporisation at 25 °C.
    pub heat_of_vaporisation_j_mol: f64,
    /// Heat capacity of the liquid at 25 °C.
    pub heat_capacity_j_kg_k: f64,
    /// Diffusion volume of the molecule.
    pub fuller_volume: f64,
    /// Melting point.
    pub melting_point_k: f64,
    /// Glass transition of the liquid: water 136 K, others 0.66 of the melting point.
    pub glass_transition_k: f64,
    /// Normal boiling point.
    pub boiling_point_k: f64,
}

impl PureKernel {
    /// Vapour pressure in Pa by the Antoine equation, made for 0 to 60 °C.
    #[inline]
    #[must_use]
    pub fn vapour_pressure_pa(&self, t_k: f64) -> f64 {
        (core::f64::consts::LN_10 * (self.antoine_a - self.antoine_b_k / (t_k + self.antoine_c_k))).exp()
    }

    /// `d ln P / dT` in 1/K.
    #[inline]
    #[must_use]
    pub fn vapour_pressure_log_slope(&self, t_k: f64) -> f64 {
        core::f64::consts::LN_10 * self.antoine_b_k / (t_k + self.antoine_c_k).powi(2)
    }

    /// Diffusivity of the vapour in air at one atmosphere in m2/s, by Fuller.
    #[inline]
    #[must_use]
    pub fn diffusivity_m2_s(&self, t_k: f64) -> f64 {
        fuller_m2_s(t_k, self.molar_mass_kg_mol, self.fuller_volume)
    }

    /// Density in kg/m3.
    #[inline]
    #[must_use]
    pub fn density_kg_m3(&self, t_k: f64) -> f64 {
        let warmer_k = t_k - T20_K;
        let slope = self.density_slope_kg_m3_k + self.density_curvature_kg_m3_k2 * warmer_k;
        self.density20_kg_m3 + slope * warmer_k
    }

    /// Molar volume in m3/mol.
    #[inline]
    #[must_use]
    pub fn molar_volume_m3_mol(&self, t_k: f64) -> f64 {
        self.molar_mass_kg_mol / self.density_kg_m3(t_k)
    }

    /// Dynamic viscosity in Pa s.
    #[inline]
    #[must_use]
    pub fn viscosity_pa_s(&self, t_k: f64) -> f64 {
        1e-3 * (self.viscosity_ln_a + self.viscosity_b_k / (t_k + self.viscosity_c_k)).exp()
    }

    /// Surface tension in N/m.
    #[inline]
    #[must_use]
    pub fn surface_tension_n_m(&self, t_k: f64) -> f64 {
        self.surface_tension20_n_m + self.surface_tension_slope_n_m_k * (t_k - T20_K)
    }
}

/// Fuller, Schettler and Giddings: diffusivity in air at one atmosphere in m2/s.
pub(super) fn fuller_m2_s(t_k: f64, molar_mass_kg_mol: f64, volume: f64) -> f64 {
    // The equation has M in g/mol, pressure in bar and gives cm2/s.
    let m_ab = 2.0e3 / (1.0 / molar_mass_kg_mol + 1.0 / AIR_MOLAR_MASS_KG_MOL);
    let bar = ATMOSPHERE_PA * 1e-5;
    let width = (volume.cbrt() + AIR_FULLER_VOLUME.cbrt()).powi(2);
    1e-4 * 0.001_43 * t_k.powf(1.75) / (bar * m_ab.sqrt() * width)
}
