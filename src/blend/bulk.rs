//! How heavy and how thick is the thinner itself?
//!
//! **Density**: volumes add, `1/ρ = Σ w_i/ρ_i`. **Viscosity**: `ln η = Σ x_i ln η_i` with mole fractions
//! (Arrhenius; Grunberg and Nissan 1949 without interaction term), and with water an excess,
//! `+ K(t) φ_w (1 − φ_w)`, φ_w the volume fraction of water before mixing and
//! `K = 4.15 exp(−0.0143 (t/°C − 20))`.
//!
//! The excess is this project's own fit to the ethanol/water table of Bingham and Jackson (10 to 90 % by
//! weight, 0 to 60 °C), which it follows within 13 %; without it the rule is low by a factor of 2.8 at 20 °C
//! and 3.9 at 0 °C. Other water-soluble solvents differ (methanol and acetone less, 2-propanol alike), which
//! the interval of an aqueous blend carries.
//!
//! **Neglected**: contraction. Ethanol with water takes up to 3.6 % less room than its parts, organic solvents
//! among themselves stay within about 0.5 %.

use super::activity::bench_temperature;
use super::{Blend, Ingredient};
use crate::answer::Answer;
use crate::error::Result;
use crate::estimate::{Estimate, ModelError, Scale, propagate};
use crate::quantity::{
    Density, DynamicViscosity, KinematicViscosity, MolarMass, Quantity, Temperature, digits, show,
};
use crate::warning::Warning;
use crate::working::{Step, Working};

/// Excess of ln η of an aqueous blend at 20 °C over φ_w (1 − φ_w), fitted (source `AQUEOUS_VISCOSITY`).
const AQUEOUS_EXCESS_20C: f64 = 4.15;
/// How that excess falls with temperature, per kelvin (source `AQUEOUS_VISCOSITY`).
const AQUEOUS_EXCESS_FALL_PER_K: f64 = 0.0143;
const T20_K: f64 = 293.15;

/// Standard uncertainty of ln η of the mixing rule for organic blends: the four rules in use spread by ±15 %
/// on a pair of viscosity 1 : 4.
const ORGANIC_VISCOSITY_STD: f64 = 0.08;
/// Standard uncertainty of the excess of a water-soluble solvent other than ethanol, relative to the excess.
const AQUEOUS_EXCESS_STD: f64 = 0.3;
/// Standard uncertainty of ln ρ of organic blends by ideal volumes (from memory).
const ORGANIC_DENSITY_STD: f64 = 0.003;
/// The same at equal volumes of water and organic solvent: ethanol/water contracts 3.6 %.
const AQUEOUS_DENSITY_STD: f64 = 0.024;

impl Blend {
    /// A property at a temperature that is itself uncertain: its spread is carried into the interval.
    ///
    /// ```
    /// use mistcoat::blend::{Basis, Blend};
    /// use mistcoat::{estimate::{Estimate, ModelError}, quantity::{parse, Temperature}};
    /// let room = Estimate::absolute(parse::<Temperature>("20 °C")?, &[ModelError::new("thermometer", 4.0)]);
    /// let b = Blend::from_names(&[("glycerol", 1.0), ("propylene glycol", 1.0)], Basis::Mass, None)?;
    /// let eta = b.at(&room, Blend::viscosity)?;
    /// assert_eq!(eta.estimate.contributors[0].what, "temperature");
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    ///
    /// # Errors
    /// Those of the property at the best temperature.
    pub fn at<Q: Quantity>(
        &self,
        temperature: &Estimate<Temperature>,
        property: impl Fn(&Self, Temperature) -> Result<Answer<Q>>,
    ) -> Result<Answer<Q>> {
        let there = property(self, temperature.best)?;
        if temperature.std() <= 0.0 {
            return Ok(there);
        }
        let spread = there.estimate.relative_std();
        let causes = there.estimate.contributors.iter();
        let own: Vec<ModelError> =
            causes.map(|c| ModelError::new(c.what.as_str(), spread * c.share.sqrt())).collect();
        let estimate = propagate(&[temperature.as_input("temperature")], &own, Scale::Log, |x| {
            Ok(property(self, Temperature::from_si(x[0]))?.best().si())
        })?;
        Ok(Answer { estimate, ..there })
    }

    /// Mean molar mass of the species.
    pub fn molar_mass(&self) -> MolarMass {
        MolarMass::from_si(
            self.species.iter().map(|s| s.mole_fraction * s.solvent.kernel().molar_mass_kg_mol).sum(),
        )
    }

    /// How far a blend is aqueous: 0 without water or in pure water, 1 at equal volumes of water and the rest.
    fn aqueous(&self) -> f64 {
        let w = self.water_volume_fraction();
        4.0 * w * (1.0 - w)
    }

    /// What the liquids' own data contribute to the spread; nothing where a solvent refuses the temperature.
    pub(super) fn own_spreads(
        &self,
        what: &str,
        std: impl Fn(&Ingredient) -> Option<f64>,
    ) -> Vec<ModelError> {
        self.ingredients
            .iter()
            .filter_map(|i| Some(ModelError::new(format!("{what} of {}", i.solvent.name()), std(i)?)))
            .collect()
    }

    /// Density, volumes taken to add.
    ///
    /// # Errors
    /// A temperature outside -20 to 80 °C.
    pub fn density(&self, temperature: Temperature) -> Result<Answer<Density>> {
        let (t_k, warning) = bench_temperature(temperature)?;
        let best = Density::from_si(self.density_kg_m3(t_k));
        let mut working = Working::new(format!("Density of {}", self.label()));
        let terms: Vec<String> = self
            .ingredients
            .iter()
            .map(|i| {
                let rho = Density::from_si(i.solvent.kernel().density_kg_m3(t_k));
                format!("{}/({})", digits(i.mass_fraction, 3), show(rho))
            })
            .collect();
        working.push(
            Step::new("volumes add", "ρ = 1 / Σ w/ρ", r"\rho = 1 / \sum w_i/\rho_i")
                .numbers(format!("1 / ({})", terms.join(" + ")))
                .result(show(best))
                .source("IDEAL_VOLUMES"),
        );
        let mut parts = self.own_spreads("density", |i| {
            Some(i.volume_fraction * i.solvent.density(temperature).ok()?.relative_std())
        });
        if self.ingredients.len() > 1 {
            parts.push(ModelError::new("volumes do not quite add", ORGANIC_DENSITY_STD));
            parts.push(ModelError::new("contraction with water", AQUEOUS_DENSITY_STD * self.aqueous()));
        }
        let mut answer = Answer::new(Estimate::relative(best, &parts), working).with_warnings(warning);
        if self.aqueous() > 0.1 && self.ingredients.len() > 1 {
            answer.warnings.push(Warning::new(
                "aqueous-contraction",
                "water and water-soluble solvents take up to 4 % less room mixed than apart, so the true density is \
                 higher by up to that much; weigh 10 mL where it matters",
            ));
        }
        Ok(answer)
    }

    /// Density in kg/m3 without checks, for loops.
    pub fn density_kg_m3(&self, t_k: f64) -> f64 {
        1.0 / self
            .ingredients
            .iter()
            .map(|i| i.mass_fraction / i.solvent.kernel().density_kg_m3(t_k))
            .sum::<f64>()
    }

    /// Dynamic viscosity by the logarithmic rule, with an excess for water; see the module.
    ///
    /// Standard uncertainty 8 % for organic blends. With water the interval is wide and the answer says so.
    ///
    /// # Errors
    /// A [`crate::error::PhaseSplit`] for a blend that separates; a temperature outside -20 to 80 °C.
    pub fn viscosity(&self, temperature: Temperature) -> Result<Answer<DynamicViscosity>> {
        let (t_k, warning) = bench_temperature(temperature)?;
        self.require_one_liquid(temperature)?;
        let best = DynamicViscosity::from_si(self.viscosity_pa_s(t_k));
        let mut working = Working::new(format!("Viscosity of {}", self.label()));
        let ideal = DynamicViscosity::from_si(self.logarithmic_viscosity_pa_s(t_k));
        let terms: Vec<String> = self
            .ingredients
            .iter()
            .map(|i| {
                let eta = DynamicViscosity::from_si(i.solvent.kernel().viscosity_pa_s(t_k));
                format!("{} ln({})", digits(i.mole_fraction, 3), show(eta))
            })
            .collect();
        working.push(
            Step::new("logarithmic rule, mole fractions", "ln η = Σ x ln η", r"\ln\eta = \sum x_i \ln\eta_i")
                .numbers(terms.join(" + "))
                .result(show(ideal))
                .source("GRUNBERG_NISSAN49"),
        );
        let excess = self.aqueous_excess(t_k);
        if excess > 0.0 {
            working.push(
                Step::new(
                    "excess with water",
                    "ln η += K φw (1 − φw)",
                    r"\ln\eta \mathrel{+}= K\,\varphi_w(1-\varphi_w)",
                )
                .numbers(format!("ln({}) + {}", show(ideal), digits(excess, 3)))
                .result(show(best))
                .source("AQUEOUS_VISCOSITY"),
            );
        }
        let mut parts = self.own_spreads("viscosity", |i| {
            Some(i.mole_fraction * i.solvent.viscosity(temperature).ok()?.relative_std())
        });
        if self.ingredients.len() > 1 {
            parts.push(ModelError::new("viscosity mixing rule", ORGANIC_VISCOSITY_STD));
            parts.push(ModelError::new("viscosity of aqueous blends", AQUEOUS_EXCESS_STD * excess));
        }
        let mut answer = Answer::new(Estimate::relative(best, &parts), working).with_warnings(warning);
        if excess > 0.05 {
            answer.warnings.push(Warning::new(
                "aqueous-viscosity",
                "water with water-soluble solvents is far thicker than its parts, and no rule foretells by how much: \
                 time it in a cup where it matters",
            ));
        }
        Ok(answer)
    }

    /// Kinematic viscosity: dynamic viscosity over density, as a flow cup reads it.
    ///
    /// # Errors
    /// A temperature outside -20 to 80 °C.
    pub fn kinematic_viscosity(&self, temperature: Temperature) -> Result<Answer<KinematicViscosity>> {
        let eta = self.viscosity(temperature)?;
        let rho = self.density(temperature)?;
        let best = KinematicViscosity::from_si(eta.best().si() / rho.best().si());
        let parts: Vec<ModelError> = [
            ModelError::new("dynamic viscosity", eta.estimate.relative_std()),
            ModelError::new("density", rho.estimate.relative_std()),
        ]
        .into();
        let mut working = Working::new(format!("Kinematic viscosity of {}", self.label()));
        let numbers = format!("{} / ({})", show(eta.best()), show(rho.best()));
        working.append(eta.working);
        working.append(rho.working);
        working.push(
            Step::new("kinematic viscosity", "ν = η/ρ", r"\nu = \eta/\rho")
                .numbers(numbers)
                .result(show(best)),
        );
        let mut warnings = eta.warnings;
        warnings.extend(rho.warnings.into_iter().filter(|w| w.code != "temperature-beyond-fit"));
        Ok(Answer::new(Estimate::relative(best, &parts), working).with_warnings(warnings))
    }

    /// Dynamic viscosity in Pa s without checks, for loops.
    pub fn viscosity_pa_s(&self, t_k: f64) -> f64 {
        self.logarithmic_viscosity_pa_s(t_k) * self.aqueous_excess(t_k).exp()
    }

    fn logarithmic_viscosity_pa_s(&self, t_k: f64) -> f64 {
        self.ingredients
            .iter()
            .map(|i| i.mole_fraction * i.solvent.kernel().viscosity_pa_s(t_k).ln())
            .sum::<f64>()
            .exp()
    }

    pub(crate) fn aqueous_excess(&self, t_k: f64) -> f64 {
        let k = AQUEOUS_EXCESS_20C * (-AQUEOUS_EXCESS_FALL_PER_K * (t_k - T20_K)).exp();
        k * self.aqueous() / 4.0
    }
}
