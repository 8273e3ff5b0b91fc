//! Film and substrate at one moment, in absolute numbers: what one stretch of air, or one coat, hands to the next.

use super::engine::{SKIN_HEAT_J_M2_K, SOLIDS_HEAT_J_M3_K, Support};
use super::substrate::NODES;
use super::volatile::Volatile;

/// Steps in which a dried film comes to the temperature of the room, and how much longer each is than the one before.
const REST_STEPS: i32 = 24;
const REST_GROWTH: f64 = 1.5;

/// State of a film and of what carries it.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Moment {
    pub(crate) amounts_mol_m2: Vec<f64>,
    pub(crate) film_k: f64,
    /// Layers of the substrate, from the film down.
    pub(crate) nodes_k: [f64; NODES],
}

impl Moment {
    /// A bare part at the temperature of the room.
    pub(crate) fn bare(species: usize, room_k: f64) -> Self {
        Self { amounts_mol_m2: vec![0.0; species], film_k: room_k, nodes_k: [room_k; NODES] }
    }

    /// J/(m2 K), with this much solids.
    pub(crate) fn heat_capacity(&self, species: &[Volatile], solids_m: f64) -> f64 {
        let liquid =
            self.amounts_mol_m2.iter().zip(species).map(|(n, s)| n.max(0.0) * s.heat_capacity_j_mol_k);
        solids_m * SOLIDS_HEAT_J_M3_K + SKIN_HEAT_J_M2_K + liquid.sum::<f64>()
    }

    /// A coat at `coat_k` lands on it and mixes with it: amounts add, heat balances. What lies below is as it was.
    pub(crate) fn lands(&mut self, laid: &Self, species: &[Volatile], solids_m: [f64; 2]) {
        let [under, over] = solids_m;
        let kept = self.heat_capacity(species, under);
        let brought = laid.heat_capacity(species, over) - SKIN_HEAT_J_M2_K;
        self.film_k = (kept * self.film_k + brought * laid.film_k) / (kept + brought);
        for (n, more) in self.amounts_mol_m2.iter_mut().zip(&laid.amounts_mol_m2) {
            // A trace below zero is within the tolerance of the film below, not of a thinner one that follows.
            *n = n.max(0.0) + more;
        }
    }

    /// A film that has nothing left to lose comes to the temperature of the room: heat alone, by implicit steps (first
    /// order; there is less than a kelvin left to even out).
    pub(crate) fn rests(&mut self, support: &Support, h: f64, capacity: f64, room_k: f64, seconds: f64) {
        let Support::Plate(plate) = support else {
            self.film_k = match support {
                Support::Isothermal => room_k,
                _ => room_k + (self.film_k - room_k) * (-h * seconds / capacity).exp(),
            };
            return;
        };
        let mut step = seconds * (REST_GROWTH - 1.0) / (REST_GROWTH.powi(REST_STEPS) - 1.0);
        for _ in 0..REST_STEPS {
            // Rows from the film down: C (T' − T)/dt = g_above (T_above' − T') − g_below (T' − T_below').
            let mut value = [0.0; NODES + 1];
            let mut upper = [0.0; NODES + 1];
            let mut before = (0.0, 0.0);
            for row in 0..=NODES {
                let above = if row == 0 { h } else { plate.conductance[row - 1] };
                let below = plate.conductance.get(row).copied().unwrap_or(h);
                let (here, heat) = if row == 0 {
                    (self.film_k, capacity)
                } else {
                    (self.nodes_k[row - 1], plate.capacity[row - 1])
                };
                let lower = if row == 0 { 0.0 } else { above };
                let pivot = heat / step + above + below - lower * before.0;
                upper[row] = if row == NODES { 0.0 } else { below / pivot };
                value[row] = (heat / step * (here - room_k) + lower * before.1) / pivot;
                before = (upper[row], value[row]);
            }
            let mut below = 0.0;
            for row in (0..=NODES).rev() {
                below = value[row] + upper[row] * below;
                if row == 0 {
                    self.film_k = room_k + below;
                } else {
                    self.nodes_k[row - 1] = room_k + below;
                }
            }
            step *= REST_GROWTH;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::film::Substrate;

    // A plate much warmer than the room, thin for its conductivity: `ΔT = ΔT0 exp(−2 h t/C)` (computed).
    #[test]
    fn a_resting_plate_cools_like_a_lump() {
        let plate = Substrate::named("brass").unwrap().conduction().unwrap().unwrap();
        let capacity: f64 = plate.capacity.iter().sum();
        let mut moment = Moment::bare(0, 300.0);
        moment.rests(&Support::Plate(plate), 10.0, 5.0, 290.0, 30.0);
        let expected = 290.0 + 10.0 * (-2.0 * 10.0 * 30.0 / (capacity + 5.0)).exp();
        approx::assert_abs_diff_eq!(moment.film_k, expected, epsilon = 0.3);
        approx::assert_abs_diff_eq!(moment.nodes_k[NODES - 1], expected, epsilon = 0.3);
        moment.rests(&Support::Plate(plate), 10.0, 5.0, 290.0, 86_400.0);
        approx::assert_abs_diff_eq!(moment.film_k, 290.0, epsilon = 1e-3);
        for support in [Support::Free, Support::Isothermal] {
            moment.rests(&support, 10.0, 5.0, 280.0, 3600.0);
            approx::assert_abs_diff_eq!(moment.film_k, 280.0, epsilon = 1e-6);
        }
    }
}
