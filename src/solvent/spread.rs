//! How far a value may be off, as standard uncertainties of its logarithm.
//!
//! A record states its own `uncertainty` where its sources differ by more than is usual. Else these hold:
//! the usual spread between handbooks for common solvents at room temperature, seen when the catalogue was
//! compared with independent tables.

use super::kernel::PureKernel;
use super::kernel::{T20_K, T25_K};
use super::record::{Line, Record, Sourced, Viscosity};
use crate::estimate::ModelError;
use crate::quantity::{Quantity, Ratio};

/// Densities of two handbooks differ by a quarter of a per cent.
pub(super) const DENSITY: Usual = Usual { what: "density data", relative: 0.002_5, per_kelvin: 1e-4 };
/// Surface tensions of two handbooks differ by one per cent.
pub(super) const SURFACE_TENSION: Usual =
    Usual { what: "surface tension data", relative: 0.01, per_kelvin: 4e-4 };
/// Viscosities of two handbooks differ by two per cent.
const VISCOSITY: f64 = 0.02;
/// Vapour pressures of two handbooks differ by one per cent.
const VAPOUR_PRESSURE: f64 = 0.01;
/// Heats of vaporisation of two handbooks, and Watson's rule over 35 K, differ by one per cent.
pub(super) const HEAT_OF_VAPORISATION: f64 = 0.01;
/// From the slope of the vapour pressure, which treats the vapour as an ideal gas.
const HEAT_BY_SLOPE: f64 = 0.03;
const HEAT_CAPACITY: f64 = 0.01;
const HEAT_CAPACITY_TYPICAL: f64 = 0.15;
/// Fuller's equation is off by 4 to 8 per cent.
const FULLER: f64 = 0.06;

/// Usual spread of a straight line: at 20 °C, and for each kelvin away from it.
#[derive(Clone, Copy)]
pub(super) struct Usual {
    what: &'static str,
    relative: f64,
    per_kelvin: f64,
}

fn stated(uncertainty: Option<Ratio>, usual: f64) -> f64 {
    uncertainty.map_or(usual, Quantity::si)
}

pub(super) fn line<Q: Quantity>(l: &Line<Q>, usual: Usual, t_k: f64) -> Vec<ModelError> {
    // A value with a note was set aside for the reason given there.
    let others = l.other.iter().filter(|o| o.note.is_none());
    let apart = others.map(|o| (o.value.si() / l.at_20c.si()).ln().abs()).fold(0.0, f64::max);
    vec![
        ModelError::new(usual.what, stated(l.uncertainty, usual.relative).max(apart / 2.0)),
        ModelError::new(
            format!("{}, change with temperature", usual.what),
            usual.per_kelvin * (t_k - T20_K).abs(),
        ),
    ]
}

/// What the handbooks differ by, and the fit of the two constants to one of them.
pub(super) fn viscosity(v: &Viscosity, k: &PureKernel) -> Vec<ModelError> {
    let ours = k.viscosity_pa_s(T25_K);
    let apart = v.other.iter().map(|o| (o.value.si() / ours).ln().abs()).fold(0.0, f64::max);
    vec![
        ModelError::new("viscosity data", stated(v.uncertainty, VISCOSITY).max(apart / 2.0)),
        // A largest deviation, taken as the end of an even spread.
        ModelError::new("fit of the viscosity equation", stated(v.worst_deviation, 0.0) / 3.0_f64.sqrt()),
    ]
}

/// Half of what the correlations compared span, at least one per cent.
pub(super) fn vapour_pressure(r: &Record) -> Vec<ModelError> {
    let v = &r.vapour_pressure;
    let spanned = v.range.as_ref().map_or(0.0, |(low, high)| (high.0.si() / low.0.si()).ln() / 2.0);
    let parts = stated(v.uncertainty, VAPOUR_PRESSURE.max(spanned));
    vec![ModelError::new("vapour pressure data", parts)]
}

pub(super) fn heat<Q: Quantity>(s: Option<&Sourced<Q>>, usual: f64) -> Vec<ModelError> {
    let u = s.map_or(HEAT_BY_SLOPE, |s| stated(s.uncertainty, usual));
    vec![ModelError::new("heat of vaporisation data", u)]
}

pub(super) fn heat_capacity(r: &Record) -> Vec<ModelError> {
    let u = r
        .heat_capacity_per_kelvin
        .as_ref()
        .map_or(HEAT_CAPACITY_TYPICAL, |s| stated(s.uncertainty, HEAT_CAPACITY));
    vec![ModelError::new("heat capacity data", u)]
}

pub(super) fn fuller() -> ModelError {
    ModelError::new("Fuller's equation", FULLER)
}
