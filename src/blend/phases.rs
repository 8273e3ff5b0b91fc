//! Does this thinner stay one liquid?
//!
//! A blend that separates into two layers is the commonest silent failure of a home-made thinner.
//!
//! **Measured miscibility comes first** (`data/miscibility.csv`): a blend of two known liquids goes by their
//! measured solubilities, and water with solvents that all mix with it in every proportion is one liquid.
//!
//! **Else the model.** Michelsen's tangent-plane criterion (Fluid Phase Equilibria 9 (1982) 1): a liquid of
//! composition z is unstable when some other composition w lowers the Gibbs energy,
//! `Σ w_i (ln w_i + ln γ_i(w) − ln z_i − ln γ_i(z)) < 0`. Its stationary points are sought by successive
//! substitution from every pure species; where one lies below zero the two liquids follow from
//! `x_i γ_i = x'_i γ'_i`.
//!
//! **Accuracy of the model** with water at 25 °C: solubilities of six measured liquids within a factor 1.5, of
//! 1-methoxy-2-propyl acetate and 1-butoxy-2-propanol five times too low; dimethyl carbonate is taken for
//! miscible, and six solvents that do mix with water are taken to split (2-butoxyethanol between 6 and 78 %
//! by mass, diacetone alcohol, ethyl lactate, three larger glycol ethers). The measured list corrects these
//! in the blends it covers; with a third liquid a split foretold for one of them may be false. Test a spoonful:
//! dissolved binder shifts the limit too.

use super::Blend;
use super::activity::{Activity, bench_temperature};
use super::miscibility::{Known, known};
use super::parts::is_water;
use crate::error::{Error, PhaseSplit, Result};
use crate::quantity::{Quantity, Temperature, show};
use crate::warning::Warning;
use serde::{Deserialize, Serialize};

/// Steps of successive substitution; near the limit of miscibility it creeps.
const STEPS: usize = 2000;
/// Change of ln W at which it has settled.
const SETTLED: f64 = 1e-10;
/// Σ W above 1 by this much means a lower Gibbs energy.
const UNSTABLE: f64 = 1e-7;
/// Largest difference of a mole fraction below which a trial has fallen back on the blend itself.
const TRIVIAL: f64 = 1e-4;
/// Source key of the model.
const MODEL: &str = "MICHELSEN82";

/// One liquid of a blend.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Liquid {
    /// Its share of the mass of the blend, 0 to 1.
    pub share_of_mass: f64,
    /// Ingredient that gathers in it; of a single liquid, the one with most mass.
    pub rich_in: String,
    /// Mole fraction of every species, in the order of [`Blend::species`].
    pub mole_fractions: Vec<f64>,
    /// Mass fraction of every species.
    pub mass_fractions: Vec<f64>,
}

/// How many liquids a blend is.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Phases {
    /// One liquid, or two with the larger first.
    pub liquids: Vec<Liquid>,
    /// Source key of what decided: measured miscibility or the tangent-plane criterion.
    pub source: String,
    /// Usable, but mind this: a solvent without groups, whose split cannot be seen.
    pub warnings: Vec<Warning>,
}

impl Phases {
    /// Whether it is one liquid.
    pub fn is_one(&self) -> bool {
        self.liquids.len() == 1
    }
}

impl Blend {
    /// Whether the blend is one liquid at this temperature, or which two it becomes.
    ///
    /// ```
    /// use mistcoat::blend::{Basis, Blend};
    /// use mistcoat::quantity::parse;
    /// let b = Blend::from_names(&[("water", 1.0), ("toluene", 1.0)], Basis::Volume, None)?;
    /// let phases = b.phases(parse("25 °C")?)?;
    /// let layers: Vec<&str> = phases.liquids.iter().map(|l| l.rich_in.as_str()).collect();
    /// assert_eq!(layers, ["water", "toluene"]);
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    ///
    /// # Errors
    /// A temperature outside -20 to 80 °C.
    pub fn phases(&self, temperature: Temperature) -> Result<Phases> {
        let (t_k, warning) = bench_temperature(temperature)?;
        let mut phases = self.phases_at(t_k);
        phases.warnings.extend(warning);
        Ok(phases)
    }

    /// Passes a blend that stays one liquid; what mixing and thinning call first.
    ///
    /// # Errors
    /// [`PhaseSplit`] with the temperature, the component each liquid is richer in and a remedy; a
    /// temperature outside -20 to 80 °C.
    pub fn require_one_liquid(&self, temperature: Temperature) -> Result<()> {
        let phases = self.phases(temperature)?;
        let [one, two] = phases.liquids.as_slice() else { return Ok(()) };
        Err(Error::PhaseSplit(Box::new(PhaseSplit {
            blend: self.label(),
            temperature: show(temperature),
            first: one.rich_in.clone(),
            second: two.rich_in.clone(),
            remedy: format!(
                "leave out {} or {}, or add a solvent that mixes with both, such as an alcohol or a glycol ether",
                one.rich_in, two.rich_in
            ),
        })))
    }

    /// A warning where the blend splits at this temperature.
    pub(super) fn split_warning(&self, t_k: f64) -> Option<Warning> {
        (!self.phases_at(t_k).is_one()).then(|| {
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

    fn phases_at(&self, t_k: f64) -> Phases {
        let z = self.mole_fractions();
        if let Some((source, layers)) = self.measured(t_k) {
            let liquids = match layers {
                None => vec![self.whole()],
                Some((first, second, share)) => self.liquids(first, second, share),
            };
            return Phases { liquids, source: source.to_owned(), warnings: Vec::new() };
        }
        let liquids = match unstable(&self.activity, t_k, &z) {
            None => vec![self.whole()],
            Some(trial) => {
                let (first, second, share) = split(&self.activity, t_k, &z, &trial);
                self.liquids(first, second, share)
            }
        };
        let unseen = self.activity.warnings().iter().filter(|w| w.code == "activity-ideal").cloned();
        Phases { liquids, source: MODEL.to_owned(), warnings: unseen.collect() }
    }

    /// What measured miscibility says: the source, and the two liquids where there are two.
    fn measured(&self, t_k: f64) -> Option<(&'static str, Option<Layers>)> {
        if let [a, b] = self.ingredients.as_slice() {
            return match known(&a.solvent, &b.solvent, t_k)? {
                Known::Full { source } => Some((source, None)),
                Known::Limited { least, most, source } => {
                    let w = a.mass_fraction;
                    if w <= least || w >= most {
                        return Some((source, None));
                    }
                    // Species are the two solvents themselves: no cut stands in the list of limited pairs.
                    let [m1, m2] = [&a.solvent, &b.solvent].map(|s| s.kernel().molar_mass_kg_mol);
                    let mole = |w: f64| -> Vec<f64> {
                        let (x, y) = (w / m1, (1.0 - w) / m2);
                        vec![x / (x + y), y / (x + y)]
                    };
                    let mass_of_second = (w - least) / (most - least);
                    let moles = |w: f64, mass: f64| mass * (w / m1 + (1.0 - w) / m2);
                    let (n1, n2) = (moles(least, 1.0 - mass_of_second), moles(most, mass_of_second));
                    Some((source, Some((mole(least), mole(most), n2 / (n1 + n2)))))
                }
            };
        }
        let water = self.ingredients.iter().find(|i| is_water(&i.solvent))?;
        let mut source = None;
        for i in self.ingredients.iter().filter(|i| !is_water(&i.solvent)) {
            match known(&i.solvent, &water.solvent, t_k)? {
                Known::Full { source: s } => source = Some(s),
                Known::Limited { .. } => return None,
            }
        }
        Some((source?, None))
    }

    fn whole(&self) -> Liquid {
        let most = self.ingredients.iter().max_by(|a, b| a.mass_fraction.total_cmp(&b.mass_fraction));
        let x = self.mole_fractions();
        Liquid {
            share_of_mass: 1.0,
            rich_in: most.map_or_else(String::new, |i| i.solvent.name().to_owned()),
            mass_fractions: self.masses(&x).0,
            mole_fractions: x,
        }
    }

    /// Mass fractions that belong to mole fractions, and the mean molar mass in kg/mol.
    fn masses(&self, x: &[f64]) -> (Vec<f64>, f64) {
        let m: Vec<f64> =
            x.iter().zip(&self.species).map(|(x, s)| x * s.solvent.kernel().molar_mass_kg_mol).collect();
        let total: f64 = m.iter().sum();
        (m.iter().map(|m| m / total).collect(), total)
    }

    fn liquids(&self, first: Vec<f64>, second: Vec<f64>, share_of_second: f64) -> Vec<Liquid> {
        let ((w1, m1), (w2, m2)) = (self.masses(&first), self.masses(&second));
        let (m1, m2) = ((1.0 - share_of_second) * m1, share_of_second * m2);
        let rich = |mine: &[f64], other: &[f64]| -> String {
            let mut surplus = vec![0.0; self.ingredients.len()];
            for ((a, b), s) in mine.iter().zip(other).zip(&self.species) {
                surplus[s.ingredient] += a - b;
            }
            let best = (0..surplus.len()).max_by(|&i, &j| surplus[i].total_cmp(&surplus[j])).unwrap_or(0);
            self.ingredients[best].solvent.name().to_owned()
        };
        let (rich1, rich2) = (rich(&w1, &w2), rich(&w2, &w1));
        let liquid = |mass: f64, rich_in: String, mole_fractions: Vec<f64>, mass_fractions: Vec<f64>| {
            Liquid { share_of_mass: mass / (m1 + m2), rich_in, mole_fractions, mass_fractions }
        };
        let mut liquids = vec![liquid(m1, rich1, first, w1), liquid(m2, rich2, second, w2)];
        liquids.sort_by(|a, b| b.share_of_mass.total_cmp(&a.share_of_mass));
        liquids
    }
}

/// Mole fractions of the first and second liquid, and the mole share of the second.
type Layers = (Vec<f64>, Vec<f64>, f64);

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
fn split(activity: &Activity, t_k: f64, z: &[f64], trial: &[f64]) -> Layers {
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
