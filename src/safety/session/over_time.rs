//! Sums of vapours over limits as they build up in the room, and near the work.

use super::SessionAir;
use crate::air::Room;
use crate::air::build_up::{BuildUp, Piece, Window};
use crate::air::properties::GAS_CONSTANT;
use crate::air::vapour_mixing;
use crate::error::{Result, out_of_range};
use crate::estimate::{Estimate, Input, Scale, propagate};
use crate::quantity::{Number, Quantity};
use crate::safety::exposure::SHIFT_S;
use crate::solvent::Solvent;

/// A short time, s.
pub(super) const SHORT_S: f64 = 900.0;
/// From the work to the face at a bench: radius of the near zone, m (source key `NEAR_FIELD`).
pub(super) const NEAR_M: f64 = 0.5;
/// Air over a bench never stands stiller than this, m/s: people move and are warm.
const LEAST_AIR_M_S: f64 = 0.05;
/// The exchange of the near zone is known to a factor 3 (95 %): standard deviation of its logarithm.
const NEAR_STD: f64 = 0.55;
/// Most air changes a room can be given, 1/s.
pub(super) const MOST_AIR_CHANGES_S: f64 = 200.0 / 3600.0;
/// Halvings that find a rate to its last digits.
const BISECTIONS: usize = 50;

/// Exchange of the air within [`NEAR_M`] of the work with the room: half of the surface of the half sphere times the speed of
/// the air, m3/s.
pub(crate) fn near_flow_m3_s(room: &Room) -> f64 {
    let speed = room.air_speed().si().max(LEAST_AIR_M_S);
    0.5 * 2.0 * core::f64::consts::PI * NEAR_M * NEAR_M * speed
}

/// All pieces of one vapour.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Vapour {
    pub(super) solvent: Solvent,
    /// kg.
    pub(super) pieces: Vec<Piece>,
    pub(super) kept_kg: f64,
}

impl Vapour {
    /// Of all sources together.
    pub(super) fn gather(session: &SessionAir) -> Vec<Self> {
        let mut all: Vec<Self> = Vec::new();
        let find = |all: &mut Vec<Self>, solvent: &Solvent| -> usize {
            all.iter().position(|v| v.solvent.id() == solvent.id()).unwrap_or_else(|| {
                all.push(Self { solvent: solvent.clone(), pieces: Vec::new(), kept_kg: 0.0 });
                all.len() - 1
            })
        };
        for emitter in &session.emitters {
            for (solvent, pieces) in &emitter.given {
                let i = find(&mut all, solvent);
                all[i].pieces.extend_from_slice(pieces);
            }
            for (solvent, kept) in &emitter.kept {
                let i = find(&mut all, solvent);
                all[i].kept_kg += kept;
            }
        }
        all
    }

    pub(super) fn released_kg(&self) -> f64 {
        self.pieces.iter().map(|p| p.amount).sum()
    }
}

/// The room in plain numbers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Air {
    pub(super) volume_m3: f64,
    pub(super) renewal_s: f64,
    /// `R T/P`, m3/mol.
    molar_volume_m3: f64,
    pub(super) mixing: f64,
    mixing_std: f64,
    /// Exchange of the near zone with the room, m3/s.
    pub(super) near_m3_s: f64,
    leaves_s: f64,
}

impl Air {
    pub(super) fn new(session: &SessionAir) -> Self {
        let room: &Room = &session.room;
        let (usual, usual_std) = vapour_mixing();
        Self {
            volume_m3: room.volume().map_or(f64::NAN, Quantity::si),
            renewal_s: room.air_changes().map_or(f64::NAN, Quantity::si),
            molar_volume_m3: GAS_CONSTANT * room.temperature().si() / room.pressure().si(),
            mixing: session.mixing.unwrap_or(usual),
            mixing_std: if session.mixing.is_some() { 0.0 } else { usual_std },
            near_m3_s: near_flow_m3_s(room),
            leaves_s: session.leaves.map_or(f64::INFINITY, Quantity::si),
        }
    }

    pub(super) fn lambda(&self) -> f64 {
        self.mixing * self.renewal_s
    }

    /// Seconds by which a release adds to the concentration beside it.
    pub(super) fn beside_s(&self) -> f64 {
        self.volume_m3 / self.near_m3_s
    }

    /// The pieces of these vapours as shares of the room's air by volume, each over its own limit.
    pub(super) fn over<'a>(&self, parts: impl Iterator<Item = (&'a Vapour, f64)>) -> Vec<Piece> {
        let mut all = Vec::new();
        for (vapour, limit) in parts {
            let per_kg = self.molar_volume_m3 / vapour.solvent.molar_mass().si() / self.volume_m3 / limit;
            all.extend(vapour.pieces.iter().map(|p| Piece { amount: p.amount * per_kg, ..*p }));
        }
        all
    }

    /// The worst stretch of so long.
    pub(super) fn worst(&self, build_up: &BuildUp, lasts_s: f64, near: bool) -> Window {
        build_up.highest_mean(lasts_s, self.leaves_s, if near { self.beside_s() } else { 0.0 })
    }

    pub(super) fn mean(&self, build_up: &BuildUp, from_s: f64, lasts_s: f64) -> f64 {
        build_up.mean(from_s, lasts_s, self.leaves_s, 0.0)
    }

    /// The worst mean with its interval.
    pub(super) fn sum(&self, pieces: &[Piece], lasts_s: f64, near: bool) -> Result<Estimate<Number>> {
        let best = self.worst(&BuildUp::new(pieces, self.lambda()), lasts_s, near).mean;
        if best <= 0.0 {
            return Ok(Estimate::exact(Number::from_si(0.0)));
        }
        let mut inputs = vec![Input::new("mixing of the room's air", self.mixing.ln(), self.mixing_std)];
        if near {
            inputs.push(Input::new("air between bench and room", self.near_m3_s.ln(), NEAR_STD));
        }
        propagate(&inputs, &[], Scale::Log, |x| {
            let moved =
                Self { mixing: x[0].exp(), near_m3_s: x.get(1).map_or(self.near_m3_s, |b| b.exp()), ..*self };
            Ok(moved.worst(&BuildUp::new(pieces, moved.lambda()), lasts_s, near).mean)
        })
    }

    /// Least `λ` with both worst means below a share of the limits; none when even 200 well-mixed air changes per hour are
    /// too few.
    pub(super) fn least_lambda(&self, shift: &[Piece], short: &[Piece], below: f64) -> Option<f64> {
        let too_much = |lambda: f64| {
            self.worst(&BuildUp::new(shift, lambda), SHIFT_S, false).mean > below
                || self.worst(&BuildUp::new(short, lambda), SHORT_S, false).mean > below
        };
        if !too_much(0.0) {
            return Some(0.0);
        }
        let (mut low, mut high) = (0.0, MOST_AIR_CHANGES_S);
        if too_much(high) {
            return None;
        }
        for _ in 0..BISECTIONS {
            let middle = 0.5 * (low + high);
            if too_much(middle) { low = middle } else { high = middle }
        }
        Some(high)
    }

    /// Standard uncertainty of the logarithm of the mixing factor.
    pub(super) fn mixing_std(&self) -> f64 {
        self.mixing_std
    }
}

/// All vapours together never fill the room.
pub(super) fn check_room_for(air: &Air, vapours: &[Vapour]) -> Result<()> {
    let all = BuildUp::new(&air.over(vapours.iter().map(|v| (v, 1.0))), air.lambda());
    let (_, share) = all.peak();
    if share < 1.0 {
        return Ok(());
    }
    Err(out_of_range(
        "vapour in the room",
        format!("{} times its air", crate::quantity::digits(share, 2)),
        "less than the air there is",
        "check volumes and units: so much cannot evaporate in a room of this size",
    ))
}
