//! Which cup would serve? Named in warnings and errors.

use super::standard::{FlowCup, Kind};
use crate::error::Result;
use crate::quantity::{KinematicViscosity, Quantity, Time, digits, show};

/// A time may not amplify its error into the viscosity by more than this; 3.0 is the 3 mm cup of ISO 2431
/// at the low end of its range.
const MOST_SENSITIVE: f64 = 3.01;
/// So many cups are named at most, and so many of one standard.
const NAMED: usize = 4;
const NAMED_PER_STANDARD: usize = 2;

/// A cup that would serve for a viscosity, and the time to expect in it.
#[derive(Debug, Clone, PartialEq)]
pub struct Suggestion {
    /// The cup.
    pub cup: FlowCup,
    /// The time to expect.
    pub time: Time,
}

impl core::fmt::Display for Suggestion {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{} ({} s)", self.cup, digits(self.time.si(), 2))
    }
}

/// Standard cups that serve for a viscosity: inside their time and viscosity range, and not so steep there
/// that a second of error spoils the reading. Best first; empty when only a home-made cup would do.
///
/// # Errors
/// A [`crate::error::DataError`] when the embedded catalogue is damaged.
///
/// ```
/// use mistcoat::{cup::cups_for, quantity::parse};
/// let names: Vec<String> = cups_for(parse("15 mm2/s")?)?.iter().map(|s| s.cup.name()).collect();
/// assert!(names.contains(&"ISO 2431 3".to_owned()));
/// assert!(!names.iter().any(|n| n == "ISO 2431 4"));
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn cups_for(viscosity: KinematicViscosity) -> Result<Vec<Suggestion>> {
    let nu_mm2_s = viscosity.si() * 1e6;
    let mut fit: Vec<(f64, Suggestion)> = FlowCup::list()?
        .iter()
        .filter(|c| c.kind() == Kind::Standard && c.viscosity_range().contains(viscosity))
        .map(|c| (c, c.equation().efflux_time_s(nu_mm2_s)))
        .filter(|(c, t)| c.time_range().contains(Time::from_si(*t)))
        .map(|(c, t)| (c.equation().sensitivity(t), Suggestion { cup: c.clone(), time: Time::from_si(t) }))
        .filter(|(slope, _)| *slope <= MOST_SENSITIVE)
        .collect();
    fit.sort_by(|a, b| a.0.total_cmp(&b.0));
    Ok(fit.into_iter().map(|(_, s)| s).collect())
}

/// The best few as text, cups of `standard` first; ends with the home-made cup.
pub(super) fn advice(viscosity: KinematicViscosity, standard: &str) -> String {
    let mut all = cups_for(viscosity).unwrap_or_default();
    all.sort_by_key(|s| s.cup.standard_name() != standard);
    let mut named: Vec<&Suggestion> = Vec::new();
    for s in &all {
        let of_same = named.iter().filter(|n| n.cup.standard_name() == s.cup.standard_name()).count();
        if named.len() < NAMED && of_same < NAMED_PER_STANDARD {
            named.push(s);
        }
    }
    let list: Vec<String> = named.iter().map(ToString::to_string).collect();
    if list.is_empty() {
        return format!(
            "no standard cup of the catalogue serves at {}; calibrate a home-made cup with water and glycerol",
            show(viscosity)
        );
    }
    format!("at about {} use {}, or a calibrated home-made cup", show(viscosity), list.join(", "))
}
