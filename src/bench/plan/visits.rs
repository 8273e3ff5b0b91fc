//! When people are at the bench, and when they are away while a part dries.

use super::habits::Habits;
use super::steps::Step;
use crate::error::Result;
use crate::quantity::{Quantity, Time, as_text};
use serde::{Deserialize, Serialize};

/// A stretch of the timeline in which somebody works, or waits at the bench for the next step.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Visit {
    /// From the begin of the session.
    #[serde(with = "as_text")]
    pub start: Time,
    /// When nobody has anything to do for longer than [`Habits::away`], or at all.
    #[serde(with = "as_text")]
    pub end: Time,
}

impl Visit {
    /// How long.
    pub fn lasts(&self) -> Time {
        self.end - self.start
    }
}

/// The visits of a timeline whose steps stand in order of time.
pub(super) fn of(steps: &[Step]) -> Result<Vec<Visit>> {
    let away = Habits::usual()?.away;
    let mut out: Vec<Visit> = Vec::new();
    for step in steps.iter().filter(|s| s.what.is_work()) {
        match out.last_mut() {
            Some(last) if step.start.si() - last.end.si() <= away.si() => {
                if step.end() > last.end {
                    last.end = step.end();
                }
            }
            _ => out.push(Visit { start: step.start, end: step.end() }),
        }
    }
    Ok(out)
}

#[cfg(test)]
mod tests {
    use super::super::steps::{Made, What};
    use super::*;

    fn work(start_s: f64, lasts_s: f64, person: usize) -> Step {
        Made { what: What::Mix, layer: 0, coat: None, person, gun: None, start_s, lasts_s }.into()
    }

    fn dry(start_s: f64, lasts_s: f64) -> Step {
        Made { what: What::Dry, layer: 0, coat: None, person: 0, gun: None, start_s, lasts_s }.into()
    }

    #[rstest::rstest]
    // Two hours between are waited through at the bench, a minute more is not.
    #[case(&[work(0.0, 600.0, 0), work(7800.0, 60.0, 0)], &[(0.0, 7860.0)])]
    #[case(&[work(0.0, 600.0, 0), work(7860.0, 60.0, 0)], &[(0.0, 600.0), (7860.0, 7920.0)])]
    // The other person is still there; what dries afterwards keeps nobody.
    #[case(&[work(0.0, 9000.0, 0), work(10.0, 60.0, 1), work(9100.0, 60.0, 0), dry(9160.0, 90_000.0)], &[(0.0, 9160.0)])]
    fn long_waits_are_time_away(#[case] steps: &[Step], #[case] visits: &[(f64, f64)]) {
        let found: Vec<(f64, f64)> = of(steps).unwrap().iter().map(|v| (v.start.si(), v.end.si())).collect();
        assert_eq!(found, visits);
    }
}
