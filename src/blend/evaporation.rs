//! How fast does this thinner leave, and what stays behind?
//!
//! Rates are relative to n-butyl acetate, which has 1 (ASTM D3539: equal volumes on filter paper, dry air,
//! 25 °C, 90 % of the mass lost). Every species leaves by the law of the pure ones with its activity,
//!
//! ```text
//! N_i = c D_i^(2/3) γ_i x_i P_i(T_s) / (R T_f) · ln(1/(1 − Y)) / Y,   Y = Σ γ_i x_i P_i(T_s) / P_atm
//! X h (T − T_s) = Σ N_i ΔH_i
//! ```
//!
//! (the wet face cools to T_s; T_f the mean of face and air; c cancels against n-butyl acetate). As the film
//! dries, every species decays with the κ_i = N_i/n_i of the moment; each step takes them from its middle.
//!
//! **Measured** on pure solvents: median error 8 %, nine of ten within 27 % of published rates; on petroleum
//! cuts see the tests. No published weight-time curve of a measured blend was found, so for blends the law
//! stands on the activities, checked by vapour-liquid equilibria and flash points. **Neglected**: air
//! humidity (the scale is defined in dry air), polymer, the paper. For a film in a room use the drying engine.

use super::Blend;
use crate::answer::Answer;
use crate::error::{Result, out_of_range};
use crate::estimate::{Estimate, ModelError};
use crate::quantity::{Number, Quantity, Temperature, as_text, digits, show};
use crate::solvent::{ATMOSPHERE_PA, EvaporationClass, GAS_CONSTANT_J_MOL_K, PureKernel};
use crate::warning::Warning;
use crate::working::{Step, Working};
use serde::{Deserialize, Serialize};

/// Air temperature of the scale in K: 25 °C.
const AIR_K: f64 = 298.15;
/// Heat that reaches the paper over that by convection on its wet face (source `WETBULB`).
const HEAT_FACTOR: f64 = 3.29;
/// Volumetric heat capacity of air in J/(m3 K) (source `AIR`).
const AIR_RHO_CP_J_M3_K: f64 = 1192.0;
/// Thermal diffusivity of air in m2/s (source `AIR`).
const AIR_ALPHA_M2_S: f64 = 2.19e-5;
/// Standard uncertainty of the logarithm of a rate (source `WETBULB`).
const RATE_STD: f64 = 0.174;
/// Mass left at the end of the scale's test.
const LEFT_AT_END: f64 = 0.1;
/// Share of the first mass lost in one step.
const STEP: f64 = 0.0025;
/// Most rows of a table.
const MOST_ROWS: usize = 1000;

/// The state at one moment of drying.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DryingRow {
    /// Share of the mass lost, 0 to 1.
    pub mass_lost: f64,
    /// Time so far, in units of the time in which the same volume of n-butyl acetate loses 90 %.
    pub time: f64,
    /// Rate of this moment, n-butyl acetate = 1.
    #[serde(with = "as_text")]
    pub relative_rate: Number,
    /// Mass fraction of every species in what is left, in the order of [`DryingTable::species`].
    pub residue: Vec<f64>,
}

/// A blend as it dries; made by [`Blend::evaporation_as_it_dries`].
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DryingTable {
    /// Names of the species.
    pub species: Vec<String>,
    /// From the fresh blend onwards.
    pub rows: Vec<DryingRow>,
    /// Rate over the loss of 90 % of the mass, as the scale is defined; n-butyl acetate = 1.
    pub overall_rate: Estimate<Number>,
    /// Class of the fresh blend.
    pub class_fresh: EvaporationClass,
    /// Class of what is left when 90 % are lost.
    pub class_at_90: EvaporationClass,
    /// Usable, but mind this.
    pub warnings: Vec<Warning>,
}

/// Fluxes over the constant of the test.
struct Flux {
    /// κ_i n_total: molar flux over mole fraction.
    conductance: Vec<f64>,
    /// Temperature of the wet face.
    face_k: f64,
}

impl Blend {
    /// Relative evaporation rate of the fresh blend, n-butyl acetate = 1.
    ///
    /// It falls as the light part leaves: see [`Blend::evaporation_as_it_dries`]. For a liquid alone this is
    /// the predicted rate; [`crate::solvent::Solvent::relative_evaporation_rate`] has the published one.
    ///
    /// # Errors
    /// A [`crate::error::PhaseSplit`] for a blend that separates at 25 °C; damaged embedded data.
    pub fn relative_evaporation_rate(&self) -> Result<Answer<Number>> {
        self.require_one_liquid(Temperature::from_si(AIR_K))?;
        let x = self.mole_fractions();
        let flux = self.flux(&x, AIR_K);
        let reference = reference_rate_m_s()?;
        let rate = Number::from_si(self.rate_m_s(&flux, &x) / reference);
        let mut working = Working::new(format!("Relative evaporation rate of {}, fresh", self.label()));
        working.push(
            Step::new(
                "wet face in dry air at 25 °C",
                "X h (T − Ts) = Σ N ΔH",
                r"X h (T - T_s) = \sum N_i \Delta H_i",
            )
            .result(format!("Ts = {}", show(Temperature::from_si(flux.face_k))))
            .source("WETBULB"),
        );
        let total: f64 = flux.conductance.iter().zip(&x).map(|(k, x)| k * x).sum();
        let terms: Vec<String> = self
            .species
            .iter()
            .zip(flux.conductance.iter().zip(&x))
            .map(|(s, (k, x))| format!("{} {} %", s.solvent.name(), digits(100.0 * k * x / total, 3)))
            .collect();
        working.push(
            Step::new(
                "share of each species in the vapour that leaves",
                "N ~ D^(2/3) γ x P(Ts)",
                r"N_i \sim D_i^{2/3}\gamma_i x_i P_i(T_s)",
            )
            .result(terms.join(", "))
            .source("WETBULB"),
        );
        working.push(
            Step::new(
                "against n-butyl acetate, equal volumes",
                "rate = Σ N M/ρ over the same of n-butyl acetate",
                r"E = \frac{\sum N_i M_i/\rho}{(N M/\rho)_{ref}}",
            )
            .result(show(rate))
            .source("WETBULB"),
        );
        let estimate = Estimate::relative(rate, &[ModelError::new("wet-bulb model of the test", RATE_STD)]);
        Ok(Answer::new(estimate, working).with_warnings(self.evaporation_warnings()))
    }

    /// Class of the fresh blend on the n-butyl acetate scale.
    ///
    /// # Errors
    /// As [`Blend::relative_evaporation_rate`].
    pub fn evaporation_class(&self) -> Result<EvaporationClass> {
        EvaporationClass::of_rate(self.relative_evaporation_rate()?.best())
    }

    /// What is left, and how fast it leaves, at `rows` equal steps of mass lost, from the fresh blend on.
    ///
    /// With 10 rows: 0, 10, 20 ... 90 % lost.
    ///
    /// ```
    /// use mistcoat::blend::{Basis, Blend};
    /// let parts = [("acetone", 50.0), ("n-butyl acetate", 35.0), ("2-butoxyethanol", 15.0)];
    /// let table = Blend::from_names(&parts, Basis::Mass, None)?.evaporation_as_it_dries(10)?;
    /// let last = table.rows.last().unwrap();
    /// assert_eq!(table.species[2], "2-butoxyethanol");
    /// assert!(last.residue[2] > 0.9); // the slow tail sets the flash-off
    /// assert_eq!(table.class_fresh.to_string(), "fast");
    /// assert_eq!(table.class_at_90.to_string(), "slow");
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    ///
    /// # Errors
    /// A [`crate::error::PhaseSplit`] for a blend that separates at 25 °C, fewer than 2 rows or more than 1000;
    /// damaged embedded data.
    pub fn evaporation_as_it_dries(&self, rows: usize) -> Result<DryingTable> {
        self.require_one_liquid(Temperature::from_si(AIR_K))?;
        if !(2..=MOST_ROWS).contains(&rows) {
            return Err(out_of_range(
                "number of rows of a drying table",
                rows.to_string(),
                format!("2 to {MOST_ROWS}"),
                "take 10 for steps of 10 %",
            ));
        }
        let reference = reference_rate_m_s()?;
        let volume = 1.0 / self.fresh_density();
        // Time in which as much n-butyl acetate loses 90 %.
        let unit = (1.0 - LEFT_AT_END) * volume / reference;
        let mut state = State::new(self);
        let mut out = Vec::with_capacity(rows);
        let (mut time_at_90, mut rate_at_90) = (0.0, 0.0);
        let is_end = |lost: f64| (lost - (1.0 - LEFT_AT_END)).abs() < 1e-12;
        // Each row as (share lost, whether it is shown), and the end of the scale's test between them.
        let mut stops: Vec<(f64, bool)> = (0..rows).map(|k| (k as f64 / rows as f64, true)).collect();
        if !stops.iter().any(|(lost, _)| is_end(*lost)) {
            stops.push((1.0 - LEFT_AT_END, false));
            stops.sort_by(|a, b| a.0.total_cmp(&b.0));
        }
        for (lost, shown) in stops {
            state.dry_to(1.0 - lost);
            let rate = state.rate_m_s() / reference;
            if is_end(lost) {
                (time_at_90, rate_at_90) = (state.time, rate);
            }
            if shown {
                out.push(DryingRow {
                    mass_lost: lost,
                    time: state.time / unit,
                    relative_rate: Number::from_si(rate),
                    residue: state.mass_fractions(),
                });
            }
        }
        let overall = Number::from_si(unit / time_at_90);
        Ok(DryingTable {
            species: self.species.iter().map(|s| s.solvent.name().to_owned()).collect(),
            class_fresh: EvaporationClass::of_rate(out[0].relative_rate)?,
            class_at_90: EvaporationClass::of_rate(Number::from_si(rate_at_90))?,
            rows: out,
            overall_rate: Estimate::relative(
                overall,
                &[ModelError::new("wet-bulb model of the test", RATE_STD)],
            ),
            warnings: self.evaporation_warnings(),
        })
    }

    fn evaporation_warnings(&self) -> Vec<Warning> {
        let mut warnings: Vec<Warning> = self.activity.warnings().to_vec();
        if self.water_volume_fraction() > 0.0 {
            warnings.push(Warning::new(
                "evaporation-scale-dry-air",
                "the evaporation scale holds for dry air; in a room water leaves more slowly, at 50 % relative humidity \
                 about half as fast",
            ));
        }
        warnings
    }

    fn fresh_density(&self) -> f64 {
        self.density_kg_m3(AIR_K)
    }

    fn rate_m_s(&self, flux: &Flux, x: &[f64]) -> f64 {
        let mass: f64 = self
            .kernels()
            .zip(flux.conductance.iter().zip(x))
            .map(|(k, (c, x))| c * x * k.molar_mass_kg_mol)
            .sum();
        mass / self.fresh_density()
    }

    fn kernels(&self) -> impl Iterator<Item = &PureKernel> {
        self.species.iter().map(|s| s.solvent.kernel())
    }

    /// Fluxes of the wet face at its own temperature, starting the search at `face_k`.
    fn flux(&self, x: &[f64], face_k: f64) -> Flux {
        const STEPS: usize = 60;
        const COLDEST_K: f64 = AIR_K - 80.0;
        let heat = HEAT_FACTOR * AIR_RHO_CP_J_M3_K * AIR_ALPHA_M2_S.powf(2.0 / 3.0);
        let mut scratch = self.activity.scratch();
        let mut ln_gamma = vec![0.0; x.len()];
        let transfer: Vec<f64> = self.kernels().map(|k| k.diffusivity_m2_s(AIR_K).powf(2.0 / 3.0)).collect();
        let mut out = Flux { conductance: vec![0.0; x.len()], face_k };
        for _ in 0..STEPS {
            self.activity.ln_gamma(out.face_k, x, &mut scratch, &mut ln_gamma);
            let per_rt = 1.0 / (GAS_CONSTANT_J_MOL_K * 0.5 * (AIR_K + out.face_k));
            let mut vapour_pa = 0.0;
            for (i, k) in self.kernels().enumerate() {
                let pascal = ln_gamma[i].exp() * k.vapour_pressure_pa(out.face_k);
                out.conductance[i] = transfer[i] * pascal * per_rt;
                vapour_pa += pascal * x[i];
            }
            let y = (vapour_pa / ATMOSPHERE_PA).min(0.999);
            let stefan = if y > 1e-9 { -(-y).ln_1p() / y } else { 1.0 };
            let (mut spent, mut slope) = (0.0, heat);
            for (i, k) in self.kernels().enumerate() {
                out.conductance[i] *= stefan;
                let part = out.conductance[i] * x[i] * k.heat_of_vaporisation_j_mol;
                spent += part;
                slope += part * k.vapour_pressure_log_slope(out.face_k);
            }
            let step = (heat * (AIR_K - out.face_k) - spent) / slope;
            if step.abs() < 1e-7 {
                break;
            }
            out.face_k = (out.face_k + step).clamp(COLDEST_K, AIR_K);
        }
        out
    }
}

/// Volume flux of n-butyl acetate on the scale of [`Flux`].
fn reference_rate_m_s() -> Result<f64> {
    let reference = Blend::pure(crate::solvent::find("n-butyl acetate")?)?;
    Ok(reference.rate_m_s(&reference.flux(&[1.0], AIR_K), &[1.0]))
}

/// A drying layer of first mass 1 kg on 1 m2.
struct State<'a> {
    blend: &'a Blend,
    molar_mass: Vec<f64>,
    moles: Vec<f64>,
    time: f64,
    flux: Flux,
}

impl<'a> State<'a> {
    fn new(blend: &'a Blend) -> Self {
        let x = blend.mole_fractions();
        let molar_mass: Vec<f64> = blend.kernels().map(|k| k.molar_mass_kg_mol).collect();
        let mean: f64 = x.iter().zip(&molar_mass).map(|(x, m)| x * m).sum();
        let flux = blend.flux(&x, AIR_K);
        Self { blend, molar_mass, moles: x.iter().map(|x| x / mean).collect(), time: 0.0, flux }
    }

    fn mole_fractions(&self) -> Vec<f64> {
        let total: f64 = self.moles.iter().sum();
        self.moles.iter().map(|n| n / total).collect()
    }

    fn mass(&self) -> f64 {
        self.moles.iter().zip(&self.molar_mass).map(|(n, m)| n * m).sum()
    }

    fn mass_fractions(&self) -> Vec<f64> {
        let total = self.mass();
        self.moles.iter().zip(&self.molar_mass).map(|(n, m)| n * m / total).collect()
    }

    fn rate_m_s(&self) -> f64 {
        self.blend.rate_m_s(&self.flux, &self.mole_fractions())
    }

    /// Decay constants of this moment.
    fn kappa(&self) -> Vec<f64> {
        let total: f64 = self.moles.iter().sum();
        self.flux.conductance.iter().map(|c| c / total).collect()
    }

    fn refresh(&mut self) {
        self.flux = self.blend.flux(&self.mole_fractions(), self.flux.face_k);
    }

    /// Dries until the mass has fallen to `left` of the first.
    fn dry_to(&mut self, left: f64) {
        loop {
            let mass = self.mass();
            if mass <= left * (1.0 + 1e-12) {
                return;
            }
            let target = left.max(mass - STEP).max(mass * 0.9);
            let start = self.moles.clone();
            // To the middle with the constants of the start, then the whole step with those of the middle.
            let kappa = self.kappa();
            let half = 0.5 * self.time_to(&kappa, target);
            self.decay(&start, &kappa, half);
            self.refresh();
            let kappa = self.kappa();
            self.moles.clone_from(&start);
            let whole = self.time_to(&kappa, target);
            self.decay(&start, &kappa, whole);
            self.time += whole;
            self.refresh();
        }
    }

    fn decay(&mut self, start: &[f64], kappa: &[f64], time: f64) {
        for ((n, s), k) in self.moles.iter_mut().zip(start).zip(kappa) {
            *n = s * (-k * time).exp();
        }
    }

    /// Time in which these decay constants bring the mass to `target`, by Newton: the mass is convex in time,
    /// so steps from zero never overshoot.
    fn time_to(&self, kappa: &[f64], target: f64) -> f64 {
        let mut time = 0.0;
        for _ in 0..60 {
            let (mut mass, mut slope) = (0.0, 0.0);
            for ((n, m), k) in self.moles.iter().zip(&self.molar_mass).zip(kappa) {
                let part = n * m * (-k * time).exp();
                mass += part;
                slope += part * k;
            }
            let step = (mass - target) / slope;
            time += step;
            if step <= 1e-12 * time {
                break;
            }
        }
        time
    }
}
