//! Activity coefficients along a drying path, cheaply.
//!
//! Most of a UNIFAC call is spent on what depends on temperature alone. Here that is worked out for a fixed pair
//! of temperatures 8 K apart around that of the film: a call takes `ln γ` at the upper one and follows a straight
//! line whose slope is that at the start of each step of the integrator. The line is off by at most
//! `(8 K)²/8 · |d²ln γ/dT²|`, less than 2e-3 for water in a hydrocarbon, 1e-4 for most pairs.

use crate::blend::{self, unifac::Scratch};

/// Distance of the two temperatures, K.
const WIDTH_K: f64 = 8.0;
/// The upper one of the first pair stands this much above the room: films mostly cool.
const ABOVE_ROOM_K: f64 = 1.0;
/// Step for differences over composition, as a share of all amounts.
const DIFFERENCE: f64 = 1e-7;

/// Activity coefficients of the species among themselves.
#[derive(Debug, Clone)]
pub(crate) struct Liquid {
    /// None: all count as ideal.
    activity: Option<Box<blend::Activity>>,
    top_k: f64,
    cool: Option<Scratch>,
    warm: Option<Scratch>,
    ln_cool: Vec<f64>,
    ln_warm: Vec<f64>,
    ln_moved: Vec<f64>,
    per_kelvin: Vec<f64>,
    warm_k: f64,
}

impl Liquid {
    pub(crate) fn new(activity: blend::Activity, room_k: f64) -> Self {
        let n = activity.len();
        let (cool, warm) = (activity.scratch(), activity.scratch());
        // One species alone, or species without groups, are ideal.
        let activity = (n > 1 && activity.table().is_some()).then(|| Box::new(activity));
        let top_k = room_k + ABOVE_ROOM_K;
        Self { activity, top_k, cool, warm, warm_k: top_k, ..Self::ideal(n) }
    }

    pub(crate) fn ideal(n: usize) -> Self {
        Self {
            activity: None,
            top_k: 0.0,
            cool: None,
            warm: None,
            ln_cool: vec![0.0; n],
            ln_warm: vec![0.0; n],
            ln_moved: vec![0.0; n],
            per_kelvin: vec![0.0; n],
            warm_k: 0.0,
        }
    }

    /// Writes `ln γ` at `amounts` (none negative, not all zero).
    pub(crate) fn ln_gamma(&mut self, temperature_k: f64, amounts: &[f64], out: &mut [f64]) {
        let Some(activity) = &self.activity else { return };
        activity.ln_gamma(self.warm_k, amounts, &mut self.warm, &mut self.ln_warm);
        let above = temperature_k - self.warm_k;
        for ((out, warm), slope) in out.iter_mut().zip(&self.ln_warm).zip(&self.per_kelvin) {
            *out = warm + above * slope;
        }
    }

    /// Renews the slopes with temperature around this one; amounts as for `ln_gamma`.
    pub(crate) fn renew(&mut self, temperature_k: f64, amounts: &[f64]) {
        let Some(activity) = &self.activity else { return };
        self.warm_k = self.top_k + WIDTH_K * ((temperature_k - self.top_k) / WIDTH_K).ceil();
        activity.ln_gamma(self.warm_k, amounts, &mut self.warm, &mut self.ln_warm);
        activity.ln_gamma(self.warm_k - WIDTH_K, amounts, &mut self.cool, &mut self.ln_cool);
        for ((slope, warm), cool) in self.per_kelvin.iter_mut().zip(&self.ln_warm).zip(&self.ln_cool) {
            *slope = (warm - cool) / WIDTH_K;
        }
    }

    /// `∂ln γ_i/∂T`.
    pub(crate) fn per_kelvin(&self, i: usize) -> f64 {
        self.per_kelvin[i]
    }

    /// Calls `each(i, ∂ln γ_i/∂n_j)` for every species, where `ln_gamma` was called last with these amounts;
    /// taken at the upper temperature. `amounts` come back as they were.
    pub(crate) fn per_amount(
        &mut self,
        j: usize,
        amounts: &mut [f64],
        total: f64,
        mut each: impl FnMut(usize, f64),
    ) {
        let Some(activity) = &self.activity else {
            return (0..amounts.len()).for_each(|i| each(i, 0.0));
        };
        let here = amounts[j];
        // Forward, so that an amount of zero is not stepped below.
        amounts[j] = here + DIFFERENCE * total;
        let step = amounts[j] - here;
        activity.ln_gamma(self.warm_k, amounts, &mut self.warm, &mut self.ln_moved);
        amounts[j] = here;
        for (i, (moved, here)) in self.ln_moved.iter().zip(&self.ln_warm).enumerate() {
            each(i, (moved - here) / step);
        }
    }
}
