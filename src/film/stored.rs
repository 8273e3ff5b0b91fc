//! A drying read back from a file: the curves must fit each other before anything looks into them.

use super::coat::Film;
use super::drying::Drying;
use super::trace::Segment;
use crate::error::{Error, bad_data};
use crate::warning::Warning;
use serde::Deserialize;

/// The fields of a [`Drying`] as stored, not yet checked.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Stored {
    film: Film,
    species: Vec<String>,
    times_s: Vec<f64>,
    temperature_k: Vec<f64>,
    amounts: Vec<Vec<f64>>,
    left: Vec<f64>,
    volume_m: Vec<f64>,
    segments: Vec<Segment>,
    soft_until_s: [Option<f64>; 2],
    least_above_glass_k: Option<f64>,
    arrived: Vec<bool>,
    #[serde(default)]
    kept: Vec<f64>,
    #[serde(default = "whole")]
    wet_share: f64,
    warnings: Vec<Warning>,
    steps: usize,
    #[serde(default)]
    evaluations: usize,
}

/// Of a coat by itself.
fn whole() -> f64 {
    1.0
}

impl TryFrom<Stored> for Drying {
    type Error = Error;

    fn try_from(s: Stored) -> Result<Self, Error> {
        let wrong = |field: &str, problem: &str| {
            bad_data("stored drying", None, Some(field), problem, "dry the film again and store that")
        };
        let points = s.times_s.len();
        if points == 0 || s.segments.is_empty() {
            return Err(wrong("times_s", "holds no curve"));
        }
        let rises = s.times_s.windows(2).all(|t| t[0] <= t[1]);
        if !rises || !s.times_s.iter().all(|t| t.is_finite() && *t >= 0.0) {
            return Err(wrong("times_s", "does not rise from zero"));
        }
        if s.amounts.len() != s.species.len() || s.arrived.len() != s.species.len() {
            return Err(wrong("amounts", "has not one curve for each species"));
        }
        let shares = s.kept.iter().chain([&s.wet_share]).all(|k| k.is_finite() && *k >= 0.0);
        if !shares || s.kept.len() + 1 != s.film.all_coats().count() {
            return Err(wrong("kept", "has not one share for each coat under the last"));
        }
        let curves = s.amounts.iter().chain([&s.temperature_k, &s.left, &s.volume_m]);
        for curve in curves {
            if curve.len() != points || !curve.iter().all(|v| v.is_finite() && *v >= 0.0) {
                return Err(wrong(
                    "amounts",
                    "has a curve of another length, or one that is not a number from zero up",
                ));
            }
        }
        Ok(Self {
            film: s.film,
            species: s.species,
            times_s: s.times_s,
            temperature_k: s.temperature_k,
            amounts: s.amounts,
            left: s.left,
            volume_m: s.volume_m,
            segments: s.segments,
            soft_until_s: s.soft_until_s,
            least_above_glass_k: s.least_above_glass_k,
            arrived: s.arrived,
            kept: s.kept,
            wet_share: s.wet_share,
            warnings: s.warnings,
            steps: s.steps,
            evaluations: s.evaluations,
        })
    }
}

#[cfg(test)]
mod tests {
    use crate::air::Room;
    use crate::blend::{Basis, Blend};
    use crate::film::{Drying, Film};
    use crate::quantity::{RelativeHumidity, VolumeFraction, parse};
    use rstest::rstest;
    use serde_json::{Value, json};

    fn stored() -> Value {
        let thinner =
            Blend::from_names(&[("acetone", 1.0), ("n-butyl acetate", 1.0)], Basis::Mass, None).unwrap();
        let room = Room::new(parse("21 °C").unwrap(), RelativeHumidity::new(0.5).unwrap()).unwrap();
        let film = Film::new(&thinner, VolumeFraction::new(0.1).unwrap(), parse("25 µm").unwrap(), &room);
        serde_json::to_value(film.unwrap().dry().unwrap()).unwrap()
    }

    #[test]
    fn comes_back_as_it_was() {
        let value = stored();
        let back: Drying = serde_json::from_value(value.clone()).unwrap();
        assert_eq!(serde_json::to_value(back).unwrap(), value);
    }

    #[rstest]
    #[case::short_curve("/amounts/0", json!([1.0]), "another length")]
    #[case::lost_species("/amounts", json!([]), "for each species")]
    #[case::lost_flags("/arrived", json!([]), "for each species")]
    #[case::no_points("/times_s", json!([]), "no curve")]
    #[case::no_segments("/segments", json!([]), "no curve")]
    #[case::backwards("/times_s/1", json!(-5.0), "does not rise")]
    #[case::kept_of_no_coat("/kept", json!([0.5]), "each coat under")]
    #[case::short_temperatures("/temperature_k", json!([300.0]), "another length")]
    #[case::negative("/left/0", json!(-1.0), "from zero up")]
    fn curves_that_do_not_fit_are_refused(#[case] path: &str, #[case] with: Value, #[case] says: &str) {
        let mut value = stored();
        *value.pointer_mut(path).unwrap() = with;
        let error = serde_json::from_value::<Drying>(value).unwrap_err().to_string();
        assert!(error.contains(says), "{error}");
    }
}
