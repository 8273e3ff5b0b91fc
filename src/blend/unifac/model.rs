//! The kernel: everything that does not depend on temperature or composition is worked out once.

use super::{Interaction, Table, interaction, subgroup};
use crate::error::{Result, out_of_range};

/// A subgroup and how often it occurs in a molecule.
pub type GroupCount<'a> = (&'a str, f64);

/// Half the coordination number of the lattice, fixed in both models.
const HALF_COORDINATION: f64 = 5.0;
/// Products that the slopes need beside one for each main group.
const RANK: usize = 3;

/// Values of four main groups.
type Four = [f64; 4];

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
    /// q (1 − ln q).
    q_less_ln: f64,
    r_over_q: f64,
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
    /// Surface of each main group in each species: all species for the first four main groups, then for the next, the last
    /// four filled up with nothing. Short loops of fixed length are what the compiler can do side by side.
    surface: Vec<Four>,
    /// Row M: parameters of main group M with N.
    interactions: Vec<Interaction>,
    missing: Vec<(String, String)>,
}

/// What [`Model::ln_gamma`] keeps between calls. Made by [`Model::scratch`]; one for each thread.
#[derive(Debug, Clone, PartialEq)]
pub struct Scratch {
    temperature_k: f64,
    /// P_iN, in the order of the surfaces.
    p: Vec<Four>,
    /// Σ_N Q_iN ln P_iN.
    pure: Vec<f64>,
    /// 1/W_N.
    per_w: Vec<Four>,
    /// Θ_N / W_N.
    ratio: Vec<Four>,
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
                q_less_ln: q * (1.0 - q.ln()),
                r_over_q: r / q,
                ln_r_over_q: (r / q).ln(),
            });
        }
        let width = groups.len();
        let fours = width.div_ceil(4);
        let mut surface = vec![[0.0; 4]; species.len() * fours];
        for (i, main, q) in entries {
            surface[main / 4 * species.len() + i][main % 4] += q;
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
            p: vec![[0.0; 4]; self.surface.len()],
            pure: vec![0.0; n],
            per_w: vec![[0.0; 4]; width.div_ceil(4)],
            ratio: vec![[0.0; 4]; width.div_ceil(4)],
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
        scratch.calls += 1;
        let Scratch { p, pure, per_w, ratio, sums, .. } = scratch;
        let n = self.shapes.len();
        let (mut total, mut r_sum, mut q_sum, mut flory_sum) = (0.0, 0.0, 0.0, 0.0);
        for (shape, &xi) in self.shapes.iter().zip(x) {
            total += xi;
            r_sum += xi * shape.r;
            q_sum += xi * shape.q;
            flory_sum += xi * shape.r_flory;
        }
        *sums = [total, r_sum, q_sum, flory_sum];
        // Where only ratios enter (Q/R, Θ/W, W/Q) the scale of `x` cancels.
        let (per_q, q_over_r, per_flory) = (1.0 / q_sum, q_sum / r_sum, total / flory_sum);
        let common = 1.0 + per_flory.ln();
        let ln_q_over_r = q_over_r.ln();
        for ((shape, ln_gamma), pure) in self.shapes.iter().zip(out.iter_mut()).zip(pure.iter()) {
            let surplus = 1.0 - shape.r_over_q * q_over_r + shape.ln_r_over_q + ln_q_over_r;
            let combinatorial =
                common - shape.r_flory * per_flory + shape.ln_r_flory - HALF_COORDINATION * shape.q * surplus;
            *ln_gamma = combinatorial + shape.q_less_ln + pure;
        }
        let kept = per_w.iter_mut().zip(ratio.iter_mut());
        let groups = p.chunks_exact(n).zip(self.surface.chunks_exact(n)).zip(kept);
        for (four, ((p, surface), (per_w, ratio))) in groups.enumerate() {
            let (mut w, mut theta) = ([0.0; 4], [0.0; 4]);
            for ((p, s), &xi) in p.iter().zip(surface).zip(x) {
                for lane in 0..4 {
                    w[lane] += xi * p[lane];
                    theta[lane] += xi * s[lane];
                }
            }
            let (mut ln_w, mut per, mut over) = ([0.0; 4], [0.0; 4], [0.0; 4]);
            for lane in 0..4.min(self.groups.len() - 4 * four) {
                ln_w[lane] = (w[lane] * per_q).ln();
                per[lane] = 1.0 / w[lane];
                over[lane] = theta[lane] * per[lane];
            }
            (*per_w, *ratio) = (per, over);
            for ((p, s), ln_gamma) in p.iter().zip(surface).zip(out.iter_mut()) {
                let mut residual = [0.0; 4];
                for lane in 0..4 {
                    residual[lane] = s[lane] * ln_w[lane] + p[lane] * over[lane];
                }
                *ln_gamma -= (residual[0] + residual[2]) + (residual[1] + residual[3]);
            }
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
        let (ratio, per_w) = (ratio.as_flattened(), per_w.as_flattened());
        for (i, ((left, right), shape)) in rows.zip(&self.shapes).enumerate() {
            let a = 1.0 - shape.r_flory * per_flory;
            let b = shape.q * per_q - shape.r * per_r;
            left[width..].copy_from_slice(&[a * per_total, -HALF_COORDINATION * q_sum * b, shape.q * per_q]);
            right[width..].copy_from_slice(&[a, b, shape.q]);
            for group in 0..width {
                let (four, lane) = (group / 4 * n + i, group % 4);
                let (p, s) = (p[four][lane], self.surface[four][lane]);
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
        let (n_species, width) = (self.shapes.len(), self.groups.len());
        scratch.temperature_k = temperature_k;
        scratch.p.fill([0.0; 4]);
        let p = &mut scratch.p;
        let per_t = 1.0 / temperature_k;
        for (m, row) in self.interactions.chunks_exact(width).enumerate() {
            for (n, k) in row.iter().enumerate() {
                let psi =
                    if m == n { 1.0 } else { (-(k.a_k * per_t + k.b + k.c_per_k * temperature_k)).exp() };
                for i in 0..n_species {
                    p[n / 4 * n_species + i][n % 4] += self.surface[m / 4 * n_species + i][m % 4] * psi;
                }
            }
        }
        scratch.pure.fill(0.0);
        for (p, surface) in p.chunks_exact(n_species).zip(self.surface.chunks_exact(n_species)) {
            for ((pure, p), surface) in scratch.pure.iter_mut().zip(p).zip(surface) {
                let own = p.iter().zip(surface).filter(|(_, s)| **s > 0.0);
                *pure += own.map(|(p, s)| s * p.ln()).sum::<f64>();
            }
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
