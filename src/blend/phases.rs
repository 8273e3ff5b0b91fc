//! Does this thinner stay one liquid?
//!
//! A blend that separates into two layers is the commonest silent failure of a home-made thinner. The test is
//! Michelsen's tangent-plane criterion (Fluid Phase Equilibria 9 (1982) 1): a liquid of composition z is
//! unstable when some other composition w lowers the Gibbs energy,
//! `Σ w_i (ln w_i + ln γ_i(w) − ln z_i − ln γ_i(z)) < 0`. Its stationary points are sought by successive
//! substitution from every pure species; where one lies below zero the two liquids are worked out from
//! `x_i γ_i = x'_i γ'_i`.
//!
//! **Checked** (25 °C): water with n-butyl acetate, with toluene, white spirit with methanol split; acetone,
//! ethanol and 2-butoxyethanol with water do not. **Accuracy**: whether it splits is foretold well where
//! solubility is poor or full; within some percent of the limit it is not, and temperature limits of
//! miscibility may be 20 K off. Dissolved binder shifts the limit too: test a spoonful.

use super::Blend;
use super::activity::{Activity, bench_temperature};
use crate::error::{Error, PhaseSplit, Result};
use crate::quantity::{Quantity, Temperature, show};
use crate::warning::Warning;

/// Steps of successive substitution; near the limit of miscibility it creeps.
const STEPS: usize = 2000;
/// Change of ln W at which it has settled.
const SETTLED: f64 = 1e-10;
/// Σ W above 1 by this much means a lower Gibbs energy.
const UNSTABLE: f64 = 1e-7;
/// Largest difference of a mole fraction below which a trial has fallen back on the blend itself.
const TRIVIAL: f64 = 1e-4;

/// One of two liquids.
#[derive(Debug, Clone, PartialEq)]
pub struct Liquid {
    /// Its share of the mass of the blend, 0 to 1.
    pub share_of_mass: f64,
    /// Ingredient that gathers in it.
    pub rich_in: String,
    /// Mole fraction of every species, in the order of [`Blend::species`].
    pub mole_fractions: Vec<f64>,
    /// Mass fraction of every species.
    pub mass_fractions: Vec<f64>,
}

/// How many liquids a blend is.
#[derive(Debug, Clone, PartialEq)]
pub enum Phases {
    /// One clear liquid.
    One,
    /// Two layers, the larger one first.
    Two(Box<[Liquid; 2]>),
}

impl Phases {
    /// Whether it is one liquid.
    pub fn is_one(&self) -> bool {
        matches!(self, Self::One)
    }
}

impl Blend {
    /// Whether the blend is one liquid at this temperature, or which two it becomes.
    ///
    /// A blend with a solvent of unknown groups counts as one liquid; [`Activity::warnings`] then says that
    /// it could not be seen.
    ///
    /// ```
    /// use mistcoat::blend::{Basis, Blend, Phases};
    /// use mistcoat::quantity::parse;
    /// let b = Blend::from_names(&[("water", 1.0), ("toluene", 1.0)], Basis::Volume, None)?;
    /// let Phases::Two(liquids) = b.phases(parse("25 °C")?)? else { panic!("water does not take up toluene") };
    /// assert_eq!((liquids[0].rich_in.as_str(), liquids[1].rich_in.as_str()), ("water", "toluene"));
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    ///
    /// # Errors
    /// A temperature outside -20 to 80 °C.
    pub fn phases(&self, temperature: Temperature) -> Result<Phases> {
        let (t_k, _) = bench_temperature(temperature)?;
        let z = self.mole_fractions();
        let Some(trial) = unstable(&self.activity, t_k, &z) else { return Ok(Phases::One) };
        let (first, second, share) = split(&self.activity, t_k, &z, &trial);
        Ok(Phases::Two(Box::new(self.liquids(first, second, share))))
    }

    /// Passes a blend that stays one liquid; what mixing and thinning call first.
    ///
    /// # Errors
    /// [`PhaseSplit`] with the temperature, the component each liquid is richer in and a remedy; a
    /// temperature outside -20 to 80 °C.
    pub fn require_one_liquid(&self, temperature: Temperature) -> Result<()> {
        match self.phases(temperature)? {
            Phases::One => Ok(()),
            Phases::Two(liquids) => Err(Error::PhaseSplit(Box::new(PhaseSplit {
                blend: self.label(),
                temperature: show(temperature),
                first: liquids[0].rich_in.clone(),
                second: liquids[1].rich_in.clone(),
                remedy: format!(
                    "leave out {} or {}, or add a solvent that mixes with both, such as an alcohol or a glycol ether",
                    liquids[0].rich_in, liquids[1].rich_in
                ),
            }))),
        }
    }

    /// A warning where the blend splits at this temperature.
    pub(super) fn split_warning(&self, t_k: f64) -> Option<Warning> {
        unstable(&self.activity, t_k, &self.mole_fractions()).map(|_| {
            Warning::new(
                "blend-splits",
                format!(
                    "{} separates into two liquids at {}; this value is for a mixture that does not exist",
                    self.label(),
                    show(Temperature::from_si(t_k))
                ),
            )
        })
    }

    fn liquids(&self, first: Vec<f64>, second: Vec<f64>, share_of_second: f64) -> [Liquid; 2] {
        let mass = |x: &[f64]| -> Vec<f64> {
            let m: Vec<f64> =
                x.iter().zip(&self.species).map(|(x, s)| x * s.solvent.kernel().molar_mass_kg_mol).collect();
            let total: f64 = m.iter().sum();
            m.iter().map(|m| m / total).collect()
        };
        let molar = |x: &[f64]| -> f64 {
            x.iter().zip(&self.species).map(|(x, s)| x * s.solvent.kernel().molar_mass_kg_mol).sum()
        };
        let (w1, w2) = (mass(&first), mass(&second));
        let (m1, m2) = ((1.0 - share_of_second) * molar(&first), share_of_second * molar(&second));
        let rich = |mine: &[f64], other: &[f64]| -> String {
            let mut surplus = vec![0.0; self.ingredients.len()];
            for ((a, b), s) in mine.iter().zip(other).zip(&self.species) {
                surplus[s.ingredient] += a - b;
            }
            let best = (0..surplus.len()).max_by(|&i, &j| surplus[i].total_cmp(&surplus[j])).unwrap_or(0);
            self.ingredients[best].solvent.name().to_owned()
        };
        let (rich1, rich2) = (rich(&w1, &w2), rich(&w2, &w1));
        let one = Liquid {
            share_of_mass: m1 / (m1 + m2),
            rich_in: rich1,
            mole_fractions: first,
            mass_fractions: w1,
        };
        let two = Liquid {
            share_of_mass: m2 / (m1 + m2),
            rich_in: rich2,
            mole_fractions: second,
            mass_fractions: w2,
        };
        if one.share_of_mass >= two.share_of_mass { [one, two] } else { [two, one] }
    }
}

/// A composition with a lower Gibbs energy than the tangent plane at z, if there is one.
fn unstable(activity: &Activity, t_k: f64, z: &[f64]) -> Option<Vec<f64>> {
    let n = z.len();
    if n < 2 || activity.table().is_none() {
        return None;
    }
    let mut scratch = activity.scratch();
    let mut ln_gamma = vec![0.0; n];
    activity.ln_gamma(t_k, z, &mut scratch, &mut ln_gamma);
    let plane: Vec<f64> = z.iter().zip(&ln_gamma).map(|(z, g)| z.ln() + g).collect();
    let mut worst: Option<(f64, Vec<f64>)> = None;
    for start in 0..n {
        let mut w: Vec<f64> = z.iter().map(|z| 1e-3 * z).collect();
        w[start] += 0.999;
        let mut sum = 1.0;
        for _ in 0..STEPS {
            activity.ln_gamma(t_k, &w, &mut scratch, &mut ln_gamma);
            let mut moved = 0.0_f64;
            let total: f64 = w.iter().sum();
            for i in 0..n {
                let next = (plane[i] - ln_gamma[i]).exp();
                moved = moved.max((next - w[i]).abs() / total);
                w[i] = next;
            }
            sum = w.iter().sum();
            if moved < SETTLED {
                break;
            }
        }
        let trivial = w.iter().zip(z).all(|(w, z)| (w / sum - z).abs() < TRIVIAL);
        if sum > 1.0 + UNSTABLE && !trivial && worst.as_ref().is_none_or(|(s, _)| sum > *s) {
            worst = Some((sum, w.iter().map(|w| w / sum).collect()));
        }
    }
    worst.map(|(_, w)| w)
}

/// The two liquids in equilibrium, and the mole share of the second.
fn split(activity: &Activity, t_k: f64, z: &[f64], trial: &[f64]) -> (Vec<f64>, Vec<f64>, f64) {
    let n = z.len();
    let mut scratch = activity.scratch();
    let (mut g1, mut g2) = (vec![0.0; n], vec![0.0; n]);
    let mut k: Vec<f64> = trial.iter().zip(z).map(|(w, z)| w / z).collect();
    let (mut first, mut second, mut share) = (z.to_vec(), trial.to_vec(), 0.0);
    for _ in 0..STEPS {
        share = second_share(z, &k);
        for i in 0..n {
            first[i] = z[i] / (1.0 + share * (k[i] - 1.0));
            second[i] = first[i] * k[i];
        }
        activity.ln_gamma(t_k, &first, &mut scratch, &mut g1);
        activity.ln_gamma(t_k, &second, &mut scratch, &mut g2);
        let mut moved = 0.0_f64;
        for i in 0..n {
            let next = (g1[i] - g2[i]).exp();
            moved = moved.max((next / k[i]).ln().abs());
            k[i] = next;
        }
        if moved < SETTLED {
            break;
        }
    }
    let normal = |x: &[f64]| -> Vec<f64> {
        let total: f64 = x.iter().sum();
        x.iter().map(|x| x / total).collect()
    };
    (normal(&first), normal(&second), share)
}

/// Rachford and Rice: the mole share β of the second liquid with `Σ z (K − 1)/(1 + β (K − 1)) = 0`.
fn second_share(z: &[f64], k: &[f64]) -> f64 {
    const BISECTIONS: usize = 60;
    let balance =
        |share: f64| -> f64 { z.iter().zip(k).map(|(z, k)| z * (k - 1.0) / (1.0 + share * (k - 1.0))).sum() };
    // The balance falls with β: at an end with the wrong sign the split has not opened yet.
    let (mut low, mut high) = (0.0, 1.0);
    if balance(low) <= 0.0 {
        return 1e-6;
    }
    if balance(high) >= 0.0 {
        return 1.0 - 1e-6;
    }
    for _ in 0..BISECTIONS {
        let middle = 0.5 * (low + high);
        if balance(middle) > 0.0 { low = middle } else { high = middle }
    }
    0.5 * (low + high)
}
