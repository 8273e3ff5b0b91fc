//! At what temperature does the vapour over this blend catch fire?
//!
//! Liaw et al. (Combust. Flame 138 (2004) 308), from Le Chatelier's rule for the lower flammable limit: the
//! flash point is the T at which, summed over the flammable species, `Σ x_i γ_i P_i(T) / P_i(T_fp,i) = 1`.
//! The species of a petroleum cut share the vapour pressure that the fresh cut has at its own flash point.
//!
//! **Measured**: ethanol/water (published closed-cup values at 11 strengths, read as percent by volume) mean
//! error 1.3 K. Solvent-maker literature calls 5 K good. **Neglected**: loss of the light part while the can
//! stands open, which raises the flash point at first sight and is no safety.
//!
//! This is an estimate for planning. The safety data sheet of the product decides.

use super::Blend;
use super::parts::is_water;
use crate::answer::Answer;
use crate::error::{Result, out_of_range};
use crate::estimate::{Estimate, ModelError};
use crate::quantity::{Quantity, Temperature, digits, show};
use crate::solvent::ATMOSPHERE_PA;
use crate::warning::Warning;
use crate::working::{Step, Working};

/// Standard uncertainty of a predicted flash point: measured mean error 1.3 to 2.4 K, repeat tests 2 K.
const STD_K: f64 = 2.5;
/// How far beyond the flash points of the species the answer is sought, in K.
const REACH_K: f64 = 100.0;

impl Blend {
    /// Flash point, closed cup; None when nothing in it burns, or when it boils first.
    ///
    /// ```
    /// use mistcoat::blend::{Basis, Blend};
    /// use mistcoat::quantity::to;
    /// let parts = [("acetone", 50.0), ("n-butyl acetate", 35.0), ("2-butoxyethanol", 15.0)];
    /// let thinner = Blend::from_names(&parts, Basis::Mass, None)?;
    /// let flash = thinner.flash_point()?.expect("it burns");
    /// assert!((to(flash.best(), "°C")? + 13.0).abs() < 3.0); // acetone rules until it has gone
    /// assert!(Blend::from_names(&[("water", 1.0)], Basis::Mass, None)?.flash_point()?.is_none());
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    ///
    /// # Errors
    /// A solvent other than water without a known flash point.
    pub fn flash_point(&self) -> Result<Option<Answer<Temperature>>> {
        let flash = self
            .ingredients
            .iter()
            .map(|i| match i.solvent.flash_point() {
                None if is_water(&i.solvent) => Ok(None),
                None => Err(out_of_range(
                    format!("flash point of {}", i.solvent.name()),
                    "unknown",
                    "a known temperature, or water",
                    "add the flash point of its safety data sheet to the solvent file",
                )),
                Some(known) => Ok(Some(known)),
            })
            .collect::<Result<Vec<_>>>()?;
        let known: Vec<f64> = flash.iter().flatten().map(|f| f.value.si()).collect();
        if known.is_empty() {
            return Ok(None);
        }
        let limits_pa: Vec<Option<f64>> = self
            .species
            .iter()
            .map(|s| {
                let t_fp = flash[s.ingredient].as_ref()?.value.si();
                let ingredient = &self.ingredients[s.ingredient].solvent;
                Some(if ingredient.is_cut() {
                    ingredient.surrogate().iter().map(|(c, x)| x * c.kernel().vapour_pressure_pa(t_fp)).sum()
                } else {
                    s.solvent.kernel().vapour_pressure_pa(t_fp)
                })
            })
            .collect();
        let loading = |t_k: f64| -> f64 {
            self.partial_pressures_pa(t_k).iter().zip(&limits_pa).filter_map(|(p, l)| l.map(|l| p / l)).sum()
        };
        let (mut low, mut high) = (
            known.iter().copied().fold(f64::INFINITY, f64::min) - REACH_K,
            known.iter().copied().fold(0.0, f64::max) + REACH_K,
        );
        if loading(high) < 1.0 {
            return Ok(None);
        }
        for _ in 0..60 {
            let middle = 0.5 * (low + high);
            if loading(middle) < 1.0 { low = middle } else { high = middle }
        }
        let t_k = 0.5 * (low + high);
        if self.partial_pressures_pa(t_k).iter().sum::<f64>() > ATMOSPHERE_PA {
            return Ok(None);
        }
        let best = Temperature::from_si(t_k);
        let mut working = Working::new(format!("Flash point of {}", self.label()));
        for (i, f) in self.ingredients.iter().zip(&flash) {
            if let Some(f) = f {
                working.push(
                    Step::new(format!("flash point of {}", i.solvent.name()), "published value", "T_{fp}")
                        .result(show(f.value))
                        .source(f.source.to_string()),
                );
            }
        }
        let terms: Vec<String> = self
            .partial_pressures_pa(t_k)
            .iter()
            .zip(&limits_pa)
            .zip(&self.species)
            .filter_map(|((p, l), s)| l.map(|l| format!("{} {}", s.solvent.name(), digits(p / l, 3))))
            .collect();
        working.push(
            Step::new("Liaw", "Σ x γ P(T)/P(Tfp) = 1", r"\sum x_i\gamma_i P_i(T)/P_i(T_{fp,i}) = 1")
                .numbers(terms.join(" + "))
                .result(show(best))
                .source("LIAW04"),
        );
        let estimate = if self.ingredients.len() == 1 {
            Estimate::exact(flash.iter().flatten().next().map_or(best, |f| f.value))
        } else {
            Estimate::absolute(best, &[ModelError::new("flash point model", STD_K)])
        };
        let mut answer =
            Answer::new(estimate, working).with_warnings(self.activity.warnings().iter().cloned());
        answer.warnings.extend(self.split_warning(t_k));
        let remembered = if flash.iter().flatten().any(|f| f.source.is_from_memory()) {
            " from figures partly stated from memory"
        } else {
            ""
        };
        answer.warnings.push(Warning::new(
            "flash-point-estimate",
            format!("the flash point is an estimate for planning{remembered}: check the safety data sheet, which decides"),
        ));
        Ok(Some(answer))
    }
}
