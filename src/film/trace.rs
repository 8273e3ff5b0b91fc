//! What a run leaves behind: points, the curves between them, and when a curve comes down to a level.

use super::engine::POINTS;
use super::moment::Moment;
use super::solver::rosenbrock::Work;

/// Halvings of a step that bring a time to its last digits.
const BISECTIONS: usize = 48;
/// Room made for so many.
const USUAL_STEPS: usize = 64;

/// A curve over one step: with s from 0 to 1 and `r = 1 − s`, `y0 r + s (y1 + r (c0 + s c1))`.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
pub(crate) struct Cubic(pub(super) [f64; 4]);

impl Cubic {
    fn at(&self, s: f64) -> f64 {
        let [y0, y1, c0, c1] = self.0;
        let r = 1.0 - s;
        y0 * r + s * (y1 + r * (c0 + s * c1))
    }
}

/// What the coat arrived with and still holds, over one step.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Segment {
    pub(crate) t0_s: f64,
    pub(crate) t1_s: f64,
    /// Share of the mass.
    pub(super) left: Cubic,
    /// Volume per area, m3/m2.
    pub(super) volume: Cubic,
}

impl Segment {
    fn part(&self, t_s: f64) -> f64 {
        ((t_s - self.t0_s) / (self.t1_s - self.t0_s)).clamp(0.0, 1.0)
    }

    pub(crate) fn left(&self, t_s: f64) -> f64 {
        self.left.at(self.part(t_s))
    }

    pub(crate) fn volume_m(&self, t_s: f64) -> f64 {
        self.volume.at(self.part(t_s))
    }

    /// When the share falls to `left` within this step.
    pub(crate) fn time_of(&self, left: f64) -> Option<f64> {
        let [y0, y1, ..] = self.left.0;
        if y0 < left || y1 > left {
            return None;
        }
        Some(falls_to(left, self.t0_s, self.t1_s, |t| self.left(t)))
    }
}

/// Where a curve that is above `level` at `low` and not at `high` comes down to it.
pub(super) fn falls_to(level: f64, mut low: f64, mut high: f64, mut curve: impl FnMut(f64) -> f64) -> f64 {
    for _ in 0..BISECTIONS {
        let middle = 0.5 * (low + high);
        if curve(middle) > level {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}

/// What a run leaves behind, raw.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Trace {
    pub(crate) times_s: Vec<f64>,
    /// By species, mol/m2 at `times_s`.
    pub(crate) amounts_mol_m2: Vec<Vec<f64>>,
    pub(crate) temperature_k: Vec<f64>,
    pub(crate) segments: Vec<Segment>,
    /// When the film is touch dry and block-free, if ever.
    pub(crate) soft_until_s: [Option<f64>; 2],
    /// Least distance from the glass transition reached, K; None without a binder.
    pub(crate) least_above_glass_k: Option<f64>,
    /// Solids as they were dried, m3/m2.
    pub(crate) solids_m: f64,
    /// When each coat but the first landed: share still held of the volatile mass that the coats before it brought.
    pub(crate) kept: Vec<f64>,
    /// Share of the volatile mass of all coats that the film held when the last had landed.
    pub(crate) wet_share: f64,
    pub(crate) work: Work,
}

impl Trace {
    /// Of a film that is still as it is at `start`.
    pub(crate) fn starting(start: &Moment, solids_m: f64) -> Self {
        Self {
            times_s: column(0.0),
            amounts_mol_m2: start.amounts_mol_m2.iter().map(|n| column(n.max(0.0))).collect(),
            temperature_k: column(start.film_k),
            segments: Vec::with_capacity(USUAL_STEPS),
            soft_until_s: [None; 2],
            least_above_glass_k: None,
            solids_m,
            kept: Vec::new(),
            wet_share: 1.0,
            work: Work::default(),
        }
    }
}

/// A curve of the usual length, with its first value.
fn column(first: f64) -> Vec<f64> {
    let mut column = Vec::with_capacity(USUAL_STEPS * POINTS + 1);
    column.push(first);
    column
}
