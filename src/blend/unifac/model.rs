//! The kernel: everything that does not depend on temperature or composition is worked out once.

use super::{Interaction, Table, interaction, subgroup};
use crate::error::{Result, out_of_range};

/// A subgroup and how often it occurs in a molecule.
pub type GroupCount<'a> = (&'a str, f64);

/// Half the coordination number of the lattice, fixed in both models.
const HALF_COORDINATION: f64 = 5.0;
/// Products that the slopes need beside one for each main group.
const RANK: usize = 3;

/// Size and shape of one species.
#[derive(Debug, Clone, PartialEq)]
struct Shape {
    /// Σ ν R.
    r: f64,
    /// Σ ν Q.
    q: f64,
    /// `r` (original) or `r^¾` (Dortmund), for φ/x.
    r_flory: f64,
    ln_r_flory: f64,
    ln_q: f64,
    /// ln(r/q).
    ln_r_over_q: f64,
}

/// Activity coefficients of a fixed list of species; build once, call often.
///
/// ```
/// use mistcoat::blend::unifac::{Model, Table};
/// let ethanol = [("CH3", 1.0), ("CH2", 1.0), ("OH(P)", 1.0)];
/// let water = [("H2O", 1.0)];
/// let model = Model::new(Table::Dortmund, &[&ethanol, &water])?;
/// let (mut scratch, mut ln_gamma) = (model.scratch(), [0.0; 2]);
/// model.ln_gamma(298.15, &[0.01, 0.99], &mut scratch, &mut ln_gamma);
/// assert!((ln_gamma[0].exp() - 4.5).abs() < 0.3); // ethanol is pushed out of much water
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Model {
    table: Table,
    shapes: Vec<Shape>,
    /// Names of the main groups in use.
    groups: Vec<String>,
    /// Row i: surface of each main group in species i.
    surface: Vec<f64>,
    /// Row M: parameters of main group M with N.
    interactions: Vec<Interaction>,
    missing: Vec<(String, String)>,
}

/// What [`Model::ln_gamma`] keeps between calls. Made by [`Model::scratch`]; one for each thread.
#[derive(Debug, Clone, PartialEq)]
pub struct Scratch {
    temperature_k: f64,
    /// Row i: P_iN.
    p: Vec<f64>,
    /// Σ_N Q_iN ln P_iN.
    pure: Vec<f64>,
    /// ln W_N.
    ln_w: Vec<f64>,
    /// 1/W_N.
    per_w: Vec<f64>,
    /// Θ_N / W_N.
    ratio: Vec<f64>,
    /// Of the latest call: Σ x, Σ x r, Σ x q, Σ x r_flory.
    sums: [f64; 4],
    /// Working space of the slopes.
    left: Vec<f64>,
    right: Vec<f64>,
    calls: usize,
}

impl Scratch {
    /// How often it has served [`Model::ln_gamma`].
    pub fn calls(&self) -> usize {
        self.calls
    }
}

impl Model {
    /// Builds the model for these species, each given as its subgroups.
    ///
    /// # Errors
    /// An unknown subgroup, an empty list, a species without groups, or a count that is not positive.
    pub fn new(table: Table, species: &[&[GroupCount<'_>]]) -> Result<Self> {
        if species.is_empty() {
            return Err(out_of_range("number of species", "0", "at least 1", "name a solvent"));
        }
        let mut groups: Vec<String> = Vec::new();
        let mut entries: Vec<(usize, usize, f64)> = Vec::new();
        let mut shapes = Vec::with_capacity(species.len());
        for (i, counts) in species.iter().enumerate() {
            let (mut r, mut q) = (0.0, 0.0);
            for &(name, count) in *counts {
                if !(count.is_finite() && count > 0.0) {
                    return Err(out_of_range(
                        format!("number of {name} groups"),
                        count.to_string(),
                        "more than 0",
                        "leave out groups that do not occur",
                    ));
                }
                let s = subgroup(table, name)?;
                r += count * s.r;
                q += count * s.q;
                let main = groups.iter().position(|g| *g == s.main_group).unwrap_or_else(|| {
                    groups.push(s.main_group.clone());
                    groups.len() - 1
                });
                entries.push((i, main, count * s.q));
            }
            if q <= 0.0 {
                return Err(out_of_range(
                    format!("surface of species {}", i + 1),
                    q.to_string(),
                    "more than 0",
                    "give at least one group with a surface",
                ));
            }
            let r_flory = match table {
                Table::Original => r,
                Table::Dortmund => r.powf(0.75),
            };
            shapes.push(Shape {
                r,
                q,
                r_flory,
                ln_r_flory: r_flory.ln(),
                ln_q: q.ln(),
                ln_r_over_q: (r / q).ln(),
            });
        }
        let width = groups.len();
        let mut surface = vec![0.0; species.len() * width];
        for (i, main, q) in entries {
            surface[i * width + main] += q;
        }
        let (mut interactions, mut missing) = (Vec::with_capacity(width * width), Vec::new());
        for (m, i) in groups.iter().enumerate() {
            for (n, j) in groups.iter().enumerate() {
                let found = interaction(table, i, j)?;
                if found.is_none() && m < n {
                    missing.push((i.clone(), j.clone()));
                }
                interactions.push(found.unwrap_or_default());
            }
        }
        Ok(Self { table, shapes, groups, surface, interactions, missing })
    }

    /// The table in use.
    pub fn table(&self) -> Table {
        self.table
    }

    /// Number of species.
    pub fn len(&self) -> usize {
        self.shapes.len()
    }

    /// Whether there are no species; never true.
    pub fn is_empty(&self) -> bool {
        self.shapes.is_empty()
    }

    /// Pairs of main groups without a published parameter. They count as indifferent to each other (Ψ = 1).
    pub fn missing_pairs(&self) -> &[(String, String)] {
        &self.missing
    }

    /// Working space for [`Self::ln_gamma`].
    pub fn scratch(&self) -> Scratch {
        let (n, width) = (self.shapes.len(), self.groups.len());
        Scratch {
            temperature_k: f64::NAN,
            p: vec![0.0; n * width],
            pure: vec![0.0; n],
            ln_w: vec![0.0; width],
            per_w: vec![0.0; width],
            ratio: vec![0.0; width],
            sums: [0.0; 4],
            left: vec![0.0; n * (width + RANK)],
            right: vec![0.0; n * (width + RANK)],
            calls: 0,
        }
    }

    /// Natural logarithms of the activity coefficients at `temperature_k`.
    ///
    /// `x` holds mole fractions or any amounts in the same proportion, none negative, not all zero; a
    /// species with `x = 0` gets its value at infinite dilution. `x` and `out` have one entry for each
    /// species and `scratch` comes from this model: other lengths leave the surplus untouched. Nothing is
    /// allocated; a call at the temperature of the call before skips all exponentials.
    pub fn ln_gamma(&self, temperature_k: f64, x: &[f64], scratch: &mut Scratch, out: &mut [f64]) {
        // Exact comparison is meant: any change of temperature needs new sums.
        #[allow(clippy::float_cmp, reason = "cache key")]
        if scratch.temperature_k != temperature_k {
            self.set_temperature(temperature_k, scratch);
        }
        let width = self.groups.len();
        scratch.calls += 1;
        let Scratch { p, pure, ln_w, per_w, ratio, sums, .. } = scratch;
        let (mut total, mut r_sum, mut q_sum, mut flory_sum) = (0.0, 0.0, 0.0, 0.0);
        ln_w.fill(0.0);
        ratio.fill(0.0);
        for (i, (shape, &xi)) in self.shapes.iter().zip(x).enumerate() {
            total += xi;
            r_sum += xi * shape.r;
            q_sum += xi * shape.q;
            flory_sum += xi * shape.r_flory;
            let row = i * width..(i + 1) * width;
            let groups = ln_w.iter_mut().zip(ratio.iter_mut());
            for ((w, theta), (&pi, &si)) in groups.zip(p[row.clone()].iter().zip(&self.surface[row])) {
                *w += xi * pi;
                *theta += xi * si;
            }
        }
        for ((w, per_w), theta) in ln_w.iter_mut().zip(per_w.iter_mut()).zip(ratio.iter_mut()) {
            *per_w = 1.0 / *w;
            *theta *= *per_w;
            *w = w.ln();
        }
        *sums = [total, r_sum, q_sum, flory_sum];
        // Where only ratios enter (Q/R, Θ/W, Q/W) the scale of `x` cancels.
        let ln_q_sum = q_sum.ln();
        let (q_over_r, ln_q_over_r) = (q_sum / r_sum, ln_q_sum - r_sum.ln());
        let (per_flory, ln_per_flory) = (total / flory_sum, (total / flory_sum).ln());
        for (i, (shape, ln_gamma)) in self.shapes.iter().zip(out.iter_mut()).enumerate() {
            let flory = shape.r_flory * per_flory;
            let shape_ratio = shape.r / shape.q * q_over_r;
            let combinatorial = 1.0 - flory + shape.ln_r_flory + ln_per_flory
                - HALF_COORDINATION * shape.q * (1.0 - shape_ratio + shape.ln_r_over_q + ln_q_over_r);
            let mut residual = shape.q * (1.0 + ln_q_sum - shape.ln_q) + pure[i];
            let row = i * width..(i + 1) * width;
            let groups = ln_w.iter().zip(ratio.iter());
            for ((&lw, &ra), (&pi, &si)) in groups.zip(p[row.clone()].iter().zip(&self.surface[row])) {
                residual -= si * lw + pi * ra;
            }
            *ln_gamma = combinatorial + residual;
        }
    }

    /// Writes `∂ln γ_i/∂x_j` in row-major order, for the amounts and the temperature of the latest
    /// [`Self::ln_gamma`] with this `scratch`. Symmetric; each row times the amounts adds up to zero
    /// (Gibbs and Duhem).
    ///
    /// With `N = Σ x`, `b_i = q_i/Σxq − r_i/Σxr`, `a_i = 1 − F_i N/ΣxF`, `p_iN = P_iN/W_N`:
    /// `a_i a_j/N − 5 Σxq b_i b_j + q_i q_j/Σxq − Σ_N (s_iN p_jN + p_iN s_jN − Θ_N p_iN p_jN)`, which is one product
    /// of two slim matrices.
    pub(crate) fn slopes(&self, scratch: &mut Scratch, out: &mut [f64]) {
        let (n, width) = (self.shapes.len(), self.groups.len());
        let Scratch { p, per_w, ratio, sums, left, right, .. } = scratch;
        let [total, r_sum, q_sum, flory_sum] = *sums;
        let (per_total, per_r, per_q) = (1.0 / total, 1.0 / r_sum, 1.0 / q_sum);
        let per_flory = total / flory_sum;
        let rank = width + RANK;
        let rows = left.chunks_exact_mut(rank).zip(right.chunks_exact_mut(rank));
        let given = p.chunks_exact(width).zip(self.surface.chunks_exact(width));
        for (((left, right), (p, surface)), shape) in rows.zip(given).zip(&self.shapes) {
            let a = 1.0 - shape.r_flory * per_flory;
            let b = shape.q * per_q - shape.r * per_r;
            left[width..].copy_from_slice(&[a * per_total, -HALF_COORDINATION * q_sum * b, shape.q * per_q]);
            right[width..].copy_from_slice(&[a, b, shape.q]);
            for (group, (p, s)) in p.iter().zip(surface).enumerate() {
                // Twice the symmetric part of left times right is what is wanted.
                left[group] = 2.0 * s - ratio[group] * p;
                right[group] = -p * per_w[group];
            }
        }
        for i in 0..n {
            for j in 0..=i {
                let (li, ri) = (&left[i * rank..(i + 1) * rank], &right[i * rank..(i + 1) * rank]);
                let (lj, rj) = (&left[j * rank..(j + 1) * rank], &right[j * rank..(j + 1) * rank]);
                let mut sum = 0.0;
                for ((li, ri), (lj, rj)) in li.iter().zip(ri).zip(lj.iter().zip(rj)) {
                    sum += li * rj + lj * ri;
                }
                out[i * n + j] = 0.5 * sum;
                out[j * n + i] = 0.5 * sum;
            }
        }
    }

    /// P_iN and Σ Q_iN ln P_iN for a new temperature.
    fn set_temperature(&self, temperature_k: f64, scratch: &mut Scratch) {
        let width = self.groups.len();
        scratch.temperature_k = temperature_k;
        scratch.p.fill(0.0);
        let per_t = 1.0 / temperature_k;
        for (m, row) in self.interactions.chunks_exact(width).enumerate() {
            for (n, k) in row.iter().enumerate() {
                let psi =
                    if m == n { 1.0 } else { (-(k.a_k * per_t + k.b + k.c_per_k * temperature_k)).exp() };
                for i in 0..self.shapes.len() {
                    scratch.p[i * width + n] += self.surface[i * width + m] * psi;
                }
            }
        }
        for (i, pure) in scratch.pure.iter_mut().enumerate() {
            let row = i * width..(i + 1) * width;
            *pure = scratch.p[row.clone()]
                .iter()
                .zip(&self.surface[row])
                .filter(|(_, s)| **s > 0.0)
                .map(|(p, s)| s * p.ln())
                .sum();
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // The exact slopes against central differences of the values, and Gibbs and Duhem: each row times the amounts is
    // nothing. Near infinite dilution too.
    #[rstest::rstest]
    #[case(Table::Original, [0.3, 0.4, 0.2], 298.15)]
    #[case(Table::Original, [5.0, 1e-3, 2.0], 280.0)]
    #[case(Table::Dortmund, [0.3, 0.4, 0.2], 310.0)]
    #[case(Table::Dortmund, [1e-6, 0.02, 0.5], 298.15)]
    fn slopes_are_the_derivatives(#[case] table: Table, #[case] x: [f64; 3], #[case] temperature_k: f64) {
        let acetate = [("CH3", 1.0), ("CH2", 3.0), ("CH3COO", 1.0)];
        let alcohol = match table {
            Table::Original => [("CH3", 1.0), ("CH2", 1.0), ("OH", 1.0)],
            Table::Dortmund => [("CH3", 1.0), ("CH2", 1.0), ("OH(P)", 1.0)],
        };
        let water = [("H2O", 1.0)];
        let model = Model::new(table, &[&acetate, &alcohol, &water]).unwrap();
        let mut scratch = model.scratch();
        let (mut low, mut high, mut slopes) = ([0.0; 3], [0.0; 3], [0.0; 9]);
        model.ln_gamma(temperature_k, &x, &mut scratch, &mut low);
        model.slopes(&mut scratch, &mut slopes);
        for j in 0..3 {
            let step = 1e-5 * x[j];
            let mut moved = x;
            moved[j] = x[j] - step;
            model.ln_gamma(temperature_k, &moved, &mut scratch, &mut low);
            moved[j] = x[j] + step;
            model.ln_gamma(temperature_k, &moved, &mut scratch, &mut high);
            for i in 0..3 {
                let difference = (high[i] - low[i]) / (2.0 * step) * x[j];
                approx::assert_abs_diff_eq!(slopes[i * 3 + j] * x[j], difference, epsilon = 1e-8);
            }
        }
        for row in slopes.chunks(3) {
            let sum: f64 = row.iter().zip(x).map(|(s, x)| s * x).sum();
            approx::assert_abs_diff_eq!(sum, 0.0, epsilon = 1e-10);
        }
    }
}
