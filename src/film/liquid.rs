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
    /// Amounts and upper temperature that `ln_warm` is for.
    known_for: Vec<f64>,
    known_at_k: f64,
    /// Row i: `∂ln γ_i/∂n_j`.
    slopes: Vec<f64>,
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
            known_for: vec![0.0; n],
            known_at_k: f64::NAN,
            slopes: vec![0.0; n * n],
            per_kelvin: vec![0.0; n],
            warm_k: 0.0,
        }
    }

    /// Evaluations of the activity model so far.
    pub(crate) fn evaluations(&self) -> usize {
        [&self.cool, &self.warm].into_iter().flatten().map(Scratch::calls).sum()
    }

    /// Writes `ln γ` at `amounts` (none negative, not all zero).
    pub(crate) fn ln_gamma(&mut self, temperature_k: f64, amounts: &[f64], out: &mut [f64]) {
        if self.activity.is_none() {
            return;
        }
        self.know(amounts);
        let above = temperature_k - self.warm_k;
        for ((out, warm), slope) in out.iter_mut().zip(&self.ln_warm).zip(&self.per_kelvin) {
            *out = warm + above * slope;
        }
    }

    /// Brings `ln_warm` to these amounts.
    #[allow(clippy::float_cmp, reason = "what is known is known for these very numbers")]
    fn know(&mut self, amounts: &[f64]) {
        let Some(activity) = &self.activity else { return };
        if self.known_at_k != self.warm_k || self.known_for != amounts {
            activity.ln_gamma(self.warm_k, amounts, &mut self.warm, &mut self.ln_warm);
            self.known_at_k = self.warm_k;
            self.known_for.copy_from_slice(amounts);
        }
    }

    /// Renews the slopes with temperature around this one; amounts as for `ln_gamma`.
    pub(crate) fn renew(&mut self, temperature_k: f64, amounts: &[f64]) {
        self.warm_k = self.top_k + WIDTH_K * ((temperature_k - self.top_k) / WIDTH_K).ceil();
        self.know(amounts);
        let Some(activity) = &self.activity else { return };
        activity.ln_gamma(self.warm_k - WIDTH_K, amounts, &mut self.cool, &mut self.ln_cool);
        for ((slope, warm), cool) in self.per_kelvin.iter_mut().zip(&self.ln_warm).zip(&self.ln_cool) {
            *slope = (warm - cool) / WIDTH_K;
        }
    }

    /// `∂ln γ_i/∂T`.
    pub(crate) fn per_kelvin(&self, i: usize) -> f64 {
        self.per_kelvin[i]
    }

    /// Brings [`Self::per_amount`] to these amounts, at the upper temperature.
    pub(crate) fn renew_slopes(&mut self, amounts: &[f64]) {
        self.know(amounts);
        if let Some(activity) = &self.activity {
            activity.slopes(&mut self.warm, &mut self.slopes);
        }
    }

    /// `∂ln γ_i/∂n_j` of every species i; symmetric.
    pub(crate) fn per_amount(&self, j: usize) -> &[f64] {
        let n = self.per_kelvin.len();
        &self.slopes[j * n..(j + 1) * n]
    }
}
