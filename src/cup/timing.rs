//! Repeat runs: the mean, the rule for a third run, the run to drop, the interval.

use super::standard::{FlowCup, LIMIT_PER_STD};
use crate::answer::Answer;
use crate::error::{Result, out_of_range};
use crate::estimate::{Estimate, ModelError};
use crate::quantity::{Quantity, Time, digits, show};
use crate::warning::Warning;
use crate::working::{Step, Working};

/// Two runs further apart than this share of their mean call for a third (ISO 2431, JIS K 5600-2-2).
const THIRD_RUN: f64 = 0.05;
/// Standard deviation of one run, relative: 5 % repeatability over 1.96 √2 (JIS K 5600-2-2).
const RUN_STD: f64 = 0.05 / LIMIT_PER_STD;
/// Times are read and reported to this many seconds (ASTM D4212).
const RESOLUTION_S: f64 = 0.2;
/// No cup is watched for longer than a day.
const LONGEST_S: f64 = 86_400.0;

/// Mean of repeat runs in the same cup, with the rule of ISO 2431.
///
/// * One run stands alone, at the method's repeatability.
/// * Two runs more than 5 % of their mean apart call for a third: warning `cup-timing-third-run`.
/// * Of three or more, a run further than 5 % from the median is dropped (warning `cup-timing-dropped`) as
///   long as two remain; if no two agree, all are kept (warning `cup-timing-scatter`).
/// * Three or more runs that rise or fall steadily by more than 5 % warn `cup-timing-drift`: solvent leaves,
///   the liquid warms, or it is not Newtonian.
///
/// The standard uncertainty of the mean is the larger of the scatter seen and the method's 1.8 % per run,
/// over √n, with the reading resolution of 0.2 s. The choice of the run to drop is ours; the standard asks
/// only for the third.
///
/// # Errors
/// [`crate::error::RangeError`] for an empty list or a time that is not above zero and finite.
///
/// ```
/// use mistcoat::{cup::timing, quantity::{parse, show}};
/// let t = timing(&[parse("35.1 s")?, parse("34.6 s")?])?;
/// assert_eq!(show(t.best()), "34.9 s");
/// assert!(t.warnings.is_empty());
/// let apart = timing(&[parse("35 s")?, parse("38 s")?])?;
/// assert_eq!(apart.warnings[0].code, "cup-timing-third-run");
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn timing(runs: &[Time]) -> Result<Answer<Time>> {
    timing_with(runs, RUN_STD, "JIS_K5600_2_2")
}

impl FlowCup {
    /// Mean of repeat runs in this cup; [`timing`] with the repeatability of this cup's method.
    ///
    /// # Errors
    /// As for [`timing`].
    pub fn time(&self, runs: &[Time]) -> Result<Answer<Time>> {
        timing_with(runs, self.precision.run_std(), &self.precision.source)
    }
}

fn timing_with(runs: &[Time], run_std: f64, source: &str) -> Result<Answer<Time>> {
    if runs.is_empty() {
        return Err(out_of_range("number of runs", "0", "at least 1", "time the cup once, better twice"));
    }
    let mut seconds = Vec::with_capacity(runs.len());
    for run in runs {
        let t = run.si();
        if !(RESOLUTION_S..=LONGEST_S).contains(&t) {
            let remedy = "leave this run out or time it again, for example \"35 s\"";
            let limit =
                format!("above 0 s and finite ({RESOLUTION_S} s, to which a watch is read, to 1 day)");
            return Err(out_of_range("efflux time of a run", show(*run), limit, remedy));
        }
        seconds.push(t);
    }
    let mut warnings = Vec::new();
    let kept = match seconds.as_slice() {
        [a, b] => {
            if relative_gap(*a, *b) > THIRD_RUN {
                warnings.push(Warning::new(
                    "cup-timing-third-run",
                    format!(
                        "the two runs, {} s and {} s, differ by {} %, more than 5 % of their mean: make a third",
                        digits(*a, 3),
                        digits(*b, 3),
                        digits(100.0 * relative_gap(*a, *b), 2)
                    ),
                ));
            }
            seconds.clone()
        }
        [_] => seconds.clone(),
        _ => {
            warnings.extend(drift(&seconds));
            let (kept, warning) = drop_outliers(&seconds);
            warnings.extend(warning);
            kept
        }
    };
    let n = kept.len() as f64;
    let mean = kept.iter().sum::<f64>() / n;
    let scatter = if kept.len() > 1 {
        (kept.iter().map(|t| (t - mean).powi(2)).sum::<f64>() / (n - 1.0)).sqrt() / mean
    } else {
        0.0
    };
    let parts = [
        ModelError::new("scatter of the runs", scatter.max(run_std) / n.sqrt()),
        ModelError::new("reading to 0.2 s", RESOLUTION_S / 12.0_f64.sqrt() / mean),
    ];
    let estimate: Estimate<Time> = Estimate::relative(Time::from_si(mean), &parts);
    let listed: Vec<String> = kept.iter().map(|t| digits(*t, 3)).collect();
    let mut working = Working::new(format!("Mean of {} timed runs", runs.len()));
    working.push(
        Step::new("mean of the runs kept", "t = Σ t_i / n", r"t = \frac{1}{n}\sum t_i")
            .numbers(format!("({})/{}", listed.join(" + "), kept.len()))
            .result(show(estimate.best)),
    );
    working.push(
        Step::new(
            "standard uncertainty of the mean",
            "u/t = max(scatter, method)/√n, with the reading",
            r"\frac{u}{t} = \frac{\max(s, s_r)}{\sqrt{n}} \oplus \frac{u_\mathrm{read}}{t}",
        )
        .numbers(format!("max({:.1} %, {:.1} %)/√{}", 100.0 * scatter, 100.0 * run_std, kept.len()))
        .result(format!("{} to {}", show(estimate.low), show(estimate.high)))
        .source(source),
    );
    Ok(Answer::new(estimate, working).with_warnings(warnings))
}

fn relative_gap(a: f64, b: f64) -> f64 {
    (a - b).abs() / (0.5 * (a + b))
}

/// Keeps the runs within 5 % of the median. With three wild runs the closest pair decides.
fn drop_outliers(seconds: &[f64]) -> (Vec<f64>, Option<Warning>) {
    let mut sorted = seconds.to_vec();
    sorted.sort_by(f64::total_cmp);
    let middle = sorted.len() / 2;
    let median =
        if sorted.len() % 2 == 1 { sorted[middle] } else { 0.5 * (sorted[middle - 1] + sorted[middle]) };
    let (kept, dropped): (Vec<f64>, Vec<f64>) =
        seconds.iter().partition(|t| relative_gap(**t, median) <= THIRD_RUN);
    if dropped.is_empty() {
        return (kept, None);
    }
    let list = |v: &[f64]| v.iter().map(|t| format!("{} s", digits(*t, 3))).collect::<Vec<_>>().join(", ");
    if kept.len() < 2 {
        let warning = Warning::new(
            "cup-timing-scatter",
            format!(
                "no two of the runs {} agree within 5 %: all are kept; stir, clean the hole, hold the \
                 temperature and time again",
                list(seconds)
            ),
        );
        return (seconds.to_vec(), Some(warning));
    }
    let warning = Warning::new(
        "cup-timing-dropped",
        format!(
            "dropped {}, more than 5 % from the middle run {} s; kept {}",
            list(&dropped),
            digits(median, 3),
            list(&kept)
        ),
    );
    (kept, Some(warning))
}

fn drift(seconds: &[f64]) -> Option<Warning> {
    let rising = seconds.windows(2).all(|w| w[1] > w[0]);
    let falling = seconds.windows(2).all(|w| w[1] < w[0]);
    let (first, last) = (seconds.first()?, seconds.last()?);
    ((rising || falling) && relative_gap(*first, *last) > THIRD_RUN).then(|| {
        Warning::new(
            "cup-timing-drift",
            format!(
                "the runs {} steadily from {} s to {} s: solvent leaves, the temperature moves, or the liquid \
                 changes when sheared; cover it, wait, and time again",
                if rising { "rise" } else { "fall" },
                digits(*first, 3),
                digits(*last, 3)
            ),
        )
    })
}
