//! How sure: a best value, the interval around it, and what the spread comes from.
//!
//! Uncertainties combine as in the *Guide to the expression of uncertainty in measurement*: independent
//! contributions add by squares, each found by moving one input by its standard uncertainty. Quantities
//! that cannot be negative (a viscosity, a time) combine in the logarithm, so that "a factor 1.3" reads
//! the same up and down and the interval never reaches below zero.
//!
//! ```
//! use mistcoat::estimate::{Estimate, Input, Scale, propagate};
//! use mistcoat::quantity::{parse, Quantity, KinematicViscosity};
//! // v = 1.37 t - 200/t, timed 35.0 s with a standard uncertainty of 0.6 s.
//! let v: Estimate<KinematicViscosity> =
//!     propagate(&[Input::new("cup timing", 35.0, 0.6)], &[], Scale::Log, |x| Ok((1.37 * x[0] - 200.0 / x[0]) * 1e-6))?;
//! assert!((v.best.si() * 1e6 - 42.236).abs() < 1e-3);
//! assert!(v.low < v.best && v.best < v.high);
//! # Ok::<(), mistcoat::Error>(())
//! ```

use crate::error::{Error, Result, out_of_range};
use crate::quantity::{Quantity, as_text, show, show_beside};
use serde::{Deserialize, Serialize};

/// Standard deviations on either side of the best value; 95 % of a normal distribution.
pub(crate) const K95: f64 = 1.959_964;
/// Coverage of every interval given here.
pub const COVERAGE: f64 = 0.95;

/// ln of the widest factor up or down that an interval tells, a thousand million: beyond it nothing is known.
const WIDEST_FACTOR_LN: f64 = 20.723_265_836_946_41;
/// Largest standard uncertainty, so that its square is a number.
const WIDEST_STD: f64 = 1e150;

/// One cause of the spread and its share of the variance.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Contributor {
    /// What it is, for example "cup timing".
    pub what: String,
    /// Share of the variance, 0 to 1.
    pub share: f64,
}

/// A value with the interval that holds it with probability [`COVERAGE`], and where the spread comes from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(bound = "Q: Quantity", try_from = "Record<Q>")]
pub struct Estimate<Q> {
    /// The best single value.
    #[serde(with = "as_text")]
    pub best: Q,
    /// Lower end of the interval.
    #[serde(with = "as_text")]
    pub low: Q,
    /// Upper end of the interval.
    #[serde(with = "as_text")]
    pub high: Q,
    /// Probability that the interval holds the true value, as far as the stated causes go.
    pub coverage: f64,
    /// What the spread comes from, largest first.
    pub contributors: Vec<Contributor>,
}

/// The form in files, before it is checked.
#[derive(Deserialize)]
#[serde(bound = "Q: Quantity", deny_unknown_fields)]
struct Record<Q> {
    #[serde(with = "as_text")]
    best: Q,
    #[serde(with = "as_text")]
    low: Q,
    #[serde(with = "as_text")]
    high: Q,
    coverage: f64,
    contributors: Vec<Contributor>,
}

impl<Q: Quantity> TryFrom<Record<Q>> for Estimate<Q> {
    type Error = Error;

    fn try_from(r: Record<Q>) -> Result<Self> {
        if !(r.low <= r.best && r.best <= r.high) {
            return Err(out_of_range(
                format!("estimate of a {}", Q::NAME),
                format!("{} with the interval {} to {}", show(r.best), show(r.low), show(r.high)),
                "a best value inside its interval",
                "give low, best and high in rising order",
            ));
        }
        if !(r.coverage > 0.0 && r.coverage <= 1.0) {
            return Err(out_of_range(
                "coverage of an estimate",
                r.coverage.to_string(),
                "above 0 and up to 1",
                "intervals written here hold the value with probability 0.95",
            ));
        }
        if let Some(c) = r.contributors.iter().find(|c| !(0.0..=1.0).contains(&c.share)) {
            return Err(out_of_range(
                format!("share of {:?} in the variance", c.what),
                c.share.to_string(),
                "0 to 1",
                "shares are parts of one whole",
            ));
        }
        Ok(Self {
            best: r.best,
            low: r.low,
            high: r.high,
            coverage: r.coverage,
            contributors: r.contributors,
        })
    }
}

/// How an output spreads.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Scale {
    /// Evenly up and down: temperatures, differences.
    Linear,
    /// By a factor: viscosities, times, amounts.
    Log,
}

/// An input with its standard uncertainty, both in SI units.
#[derive(Debug, Clone, PartialEq)]
pub struct Input {
    /// What it is.
    pub what: String,
    /// Best value.
    pub best: f64,
    /// Standard uncertainty.
    pub std: f64,
}

impl Input {
    /// Builds an input; `best` and `std` in SI units.
    pub fn new(what: impl Into<String>, best: f64, std: f64) -> Self {
        Self { what: what.into(), best, std }
    }
}

/// A spread that acts on the output itself: the model's own error. Relative for [`Scale::Log`].
#[derive(Debug, Clone, PartialEq)]
pub struct ModelError {
    /// What it is, for example "dilution law scatter".
    pub what: String,
    /// Standard uncertainty of ln(output) for [`Scale::Log`], of the output in SI units for [`Scale::Linear`].
    pub std: f64,
}

impl ModelError {
    /// Builds a model error.
    pub fn new(what: impl Into<String>, std: f64) -> Self {
        Self { what: what.into(), std }
    }
}

impl<Q: Quantity> Estimate<Q> {
    /// A value taken as exact: the interval has no width.
    pub fn exact(best: Q) -> Self {
        Self { best, low: best, high: best, coverage: COVERAGE, contributors: Vec::new() }
    }

    /// A value whose spread is a factor. Each part is a standard uncertainty of the logarithm.
    pub fn relative(best: Q, parts: &[ModelError]) -> Self {
        Self::from_parts(best, Scale::Log, parts)
    }

    /// A value that spreads evenly. Each part is a standard uncertainty in SI units.
    pub fn absolute(best: Q, parts: &[ModelError]) -> Self {
        Self::from_parts(best, Scale::Linear, parts)
    }

    fn from_parts(best: Q, scale: Scale, parts: &[ModelError]) -> Self {
        let variance: f64 = parts.iter().map(square).sum();
        let reach = K95 * variance.sqrt();
        let (low, high) = match scale {
            Scale::Linear => (best.si() - reach, best.si() + reach),
            Scale::Log => {
                let reach = reach.min(WIDEST_FACTOR_LN);
                (best.si() * (-reach).exp(), best.si() * reach.exp())
            }
        };
        Self {
            best,
            low: Q::from_si(low),
            high: Q::from_si(high),
            coverage: COVERAGE,
            contributors: shares(parts, variance),
        }
    }

    /// Standard uncertainty of the logarithm, from the width of the interval; of an interval that reaches
    /// zero or below, the standard uncertainty over the best value.
    pub fn relative_std(&self) -> f64 {
        let (low, high) = (self.low.si(), self.high.si());
        if high <= low {
            0.0
        } else if low > 0.0 {
            (high / low).ln() / (2.0 * K95)
        } else {
            self.std() / self.best.si().abs()
        }
    }

    /// Standard uncertainty in SI units, from the width of the interval.
    pub fn std(&self) -> f64 {
        (self.high.si() - self.low.si()) / (2.0 * K95)
    }

    /// This estimate as one input of a further step that starts from its SI number. For a spread of more than
    /// a few tens of percent take [`Estimate::as_log_input`]: a factor of 3 up and down is no ± in the number.
    pub fn as_input(&self, what: impl Into<String>) -> Input {
        Input::new(what, self.best.si(), self.std())
    }

    /// This estimate as one input of a further step that starts from the logarithm of its SI number; the model
    /// takes `exp` of it. Keeps a wide interval of a positive quantity what it is.
    pub fn as_log_input(&self, what: impl Into<String>) -> Input {
        Input::new(what, self.best.si().ln(), self.relative_std())
    }
}

impl<Q: Quantity> core::fmt::Display for Estimate<Q> {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        if self.low == self.high {
            return f.write_str(&show(self.best));
        }
        // One unit for all three: "228 s (132 s to 395 s)", not "228 s (132 s to 6.58 min)".
        let [low, high] = [self.low, self.high].map(|end| show_beside(end, self.best));
        if low == high {
            return f.write_str(&low); // narrower than what is printed
        }
        write!(f, "{} ({low} to {high})", show(self.best))
    }
}

/// A spread beyond every number, or NaN, counts as a very large one: nothing is known, and the interval says so.
fn square(part: &ModelError) -> f64 {
    part.std.min(WIDEST_STD).powi(2)
}

/// Largest first; nothing for a cause that contributes nothing.
fn shares(parts: &[ModelError], variance: f64) -> Vec<Contributor> {
    let mut out: Vec<Contributor> = parts
        .iter()
        .filter(|p| square(p) > 0.0)
        .map(|p| Contributor { what: p.what.clone(), share: square(p) / variance })
        .collect();
    out.sort_by(|a, b| b.share.total_cmp(&a.share));
    out
}

/// Carries the spread of the inputs through `model` (SI numbers in, SI number out).
///
/// Every input is moved by plus and minus one standard uncertainty; half the difference of the two
/// outputs is its contribution. Where the model refuses one of the two moved values (or, for [`Scale::Log`],
/// gives nothing above zero there), the other side alone is used.
///
/// # Errors
/// Whatever `model` returns at the best values; a [`crate::error::RangeError`] when that is not finite, or not
/// above zero for [`Scale::Log`].
pub fn propagate<Q: Quantity>(
    inputs: &[Input],
    model_errors: &[ModelError],
    scale: Scale,
    model: impl Fn(&[f64]) -> Result<f64>,
) -> Result<Estimate<Q>> {
    let best: Vec<f64> = inputs.iter().map(|i| i.best).collect();
    let centre = model(&best)?;
    let usable = |y: &f64| y.is_finite() && (scale == Scale::Linear || *y > 0.0);
    if !usable(&centre) {
        return Err(out_of_range(
            Q::NAME,
            show(Q::from_si(centre)),
            if scale == Scale::Log { "above zero and finite" } else { "finite" },
            "the numbers put in lie beyond what the formula can take; check their size and units",
        ));
    }
    let on_scale = |y: f64| match scale {
        Scale::Linear => y,
        Scale::Log => y.ln(),
    };
    let mut parts = model_errors.to_vec();
    for (index, input) in inputs.iter().enumerate().filter(|(_, i)| i.std > 0.0) {
        let moved = |by: f64| {
            let mut x = best.clone();
            x[index] += by;
            model(&x).ok().filter(usable).map(on_scale)
        };
        let std = match (moved(-input.std), moved(input.std)) {
            (Some(a), Some(b)) => (b - a).abs() / 2.0,
            (Some(a), None) | (None, Some(a)) => (a - on_scale(centre)).abs(),
            (None, None) => continue,
        };
        parts.push(ModelError::new(input.what.clone(), std));
    }
    Ok(Estimate::from_parts(Q::from_si(centre), scale, &parts))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Length, Time, Volume};

    // GUM worked case: u(x) = x(1-x) u(r)/r for x = 1/(1+r), r = 1, u(r)/r = 3.1 % -> 0.00775 (T034 of the
    // dilution checks, computed from the cited equation).
    #[test]
    fn ratio_uncertainty() {
        let x: Estimate<Length> =
            propagate(&[Input::new("count", 1.0, 0.031)], &[], Scale::Linear, |r| Ok(1.0 / (1.0 + r[0])))
                .unwrap();
        approx::assert_relative_eq!(x.std(), 0.007_75, max_relative = 2e-3); // second-order terms
    }

    #[test]
    fn the_ends_are_printed_in_the_unit_of_the_best_value() {
        let e = Estimate::<Time>::from_parts(Time::from_si(228.0), Scale::Log, &[ModelError::new("a", 0.28)]);
        assert_eq!(e.to_string(), "228 s (132 s to 395 s)");
    }

    // 10 mL pipette: tolerance 0.03 mL rectangular, repeatability 0.04 mL, 2.1e-4 /K over +-4 K rectangular
    // -> 0.0439 mL (metrology teaching sheet on pipette uncertainty, check T025).
    #[test]
    fn pipette() {
        let third = 3.0_f64.sqrt();
        let v: Estimate<Volume> = Estimate::absolute(
            Volume::from_si(10e-6),
            &[
                ModelError::new("tolerance", 0.03e-6 / third),
                ModelError::new("repeatability", 0.04e-6),
                ModelError::new("temperature", 10e-6 * 2.1e-4 * 4.0 / third),
            ],
        );
        approx::assert_abs_diff_eq!(v.std() * 1e6, 0.0439, epsilon = 3e-4);
        assert_eq!(v.contributors[0].what, "repeatability");
    }

    #[test]
    fn shares_add_up_and_factor_is_symmetric() {
        let t: Estimate<Time> = Estimate::relative(
            Time::from_si(100.0),
            &[ModelError::new("a", 0.3), ModelError::new("b", 0.1), ModelError::new("none", 0.0)],
        );
        approx::assert_relative_eq!(
            t.contributors.iter().map(|c| c.share).sum::<f64>(),
            1.0,
            epsilon = 1e-12
        );
        assert_eq!(t.contributors.len(), 2);
        approx::assert_relative_eq!(t.low.si() * t.high.si(), 1e4, max_relative = 1e-12);
        approx::assert_relative_eq!(t.relative_std(), 0.1_f64.sqrt(), max_relative = 1e-6);
    }

    #[test]
    fn a_wide_factor_stays_a_factor() {
        let eta: Estimate<Time> = Estimate::relative(Time::from_si(2.0), &[ModelError::new("a", 0.7)]);
        let through: Estimate<Time> =
            propagate(&[eta.as_log_input("a")], &[], Scale::Log, |x| Ok(x[0].exp())).unwrap();
        approx::assert_relative_eq!(through.low.si(), eta.low.si(), max_relative = 1e-12);
        approx::assert_relative_eq!(through.high.si(), eta.high.si(), max_relative = 1e-12);
    }

    #[test]
    fn an_unknown_spread_is_wide_and_finite() {
        for std in [1e3, 1e300, f64::INFINITY, f64::NAN] {
            let t: Estimate<Time> = Estimate::relative(
                Time::from_si(1.0),
                &[ModelError::new("a", std), ModelError::new("b", 0.1)],
            );
            assert!(t.low.si() < 1e-8 && t.high.si() > 1e8 && t.high.si().is_finite(), "{std}: {t:?}");
            assert!(t.contributors[0].what == "a" && t.contributors[0].share > 0.99, "{std}: {t:?}");
        }
    }

    #[test]
    fn an_interval_through_zero_is_not_exact() {
        let t: Estimate<Time> = Estimate::absolute(Time::from_si(1.0), &[ModelError::new("a", 0.8)]);
        approx::assert_relative_eq!(t.relative_std(), 0.8, max_relative = 1e-6);
    }

    #[test]
    fn a_model_that_gives_no_number_is_refused() {
        let e = propagate::<Time>(&[Input::new("a", 1e200, 0.0)], &[], Scale::Log, |x| Ok(x[0] * x[0]));
        assert!(e.unwrap_err().to_string().contains("above zero and finite"));
        let e = propagate::<Time>(&[Input::new("a", -1.0, 0.1)], &[], Scale::Log, |x| Ok(x[0]));
        assert!(e.unwrap_err().to_string().contains("-1 s"));
    }

    #[test]
    fn a_file_cannot_hold_an_impossible_estimate() {
        let good: Estimate<Time> = Estimate::relative(Time::from_si(37.3), &[ModelError::new("a", 0.3)]);
        let json = serde_json::to_value(&good).unwrap();
        for (field, value, says) in [
            ("low", serde_json::json!("40 s"), "inside its interval"),
            ("high", serde_json::json!("30 s"), "inside its interval"),
            ("coverage", serde_json::json!(0.0), "coverage"),
            ("contributors", serde_json::json!([{"what": "a", "share": 1.5}]), "share of \"a\""),
        ] {
            let mut changed = json.clone();
            changed[field] = value;
            let e = serde_json::from_value::<Estimate<Time>>(changed).unwrap_err().to_string();
            assert!(e.contains(says), "{e}");
        }
    }

    #[test]
    fn json_round_trip() {
        let t: Estimate<Time> = Estimate::relative(Time::from_si(37.3), &[ModelError::new("a", 0.3)]);
        let json = serde_json::to_string(&t).unwrap();
        assert_eq!(serde_json::from_str::<Estimate<Time>>(&json).unwrap(), t);
    }
}
