//! The dilution law from one, two or more readings: least squares in ln viscosity, the habit of the paint's
//! family being one more row.
//!
//! Unknowns are ln of the paint's viscosity, the shape `b` and ln of the thinner's viscosity. Rows are the
//! readings (standard deviation of the reading, widened inside the range by the scatter of the law), the
//! thinner's viscosity, and the prior `(b − b0)/sd`. With one reading the prior decides `b`, with two good
//! readings it hardly matters, with a second reading too near the stock it keeps `b` sane; there is no
//! switch in between. With two exact readings and no prior the answer is the closed form
//! `b = (L1/x1 − L2/x2)/(L1 − L2)`, `L = ln(η/ηs)`.

use super::law::{Cause, DilutionLaw, Viscosity, check_fraction, check_thicker, gradient, law_scatter};
use super::prior::ShapePrior;
use crate::error::{Error, Result, out_of_range};
use crate::estimate::Estimate;
use crate::quantity::{Quantity, Ratio, VolumeFraction, as_text, digits, positive, show};
use crate::warning::Warning;
use serde::{Deserialize, Serialize};

/// Standard deviation of ln of one reading that came without an interval: flow-cup repeatability of 5 % at
/// 95 % (source key `JIS_K5600_2_2`).
pub const READING_STD: f64 = 0.018;
/// Least standard deviation of ln of any reading or thinner viscosity; keeps the equations well scaled.
const LEAST_STD: f64 = 1e-4;
/// Readings of thinned paint all above this paint fraction say next to nothing about the shape
/// (a methylcellulose set read at 0.90 gave b = −3.6 against −1.0 from all its points).
const TOO_NEAR_STOCK: f64 = 0.9;
/// Standard deviations by which the fitted shape may leave its prior before a warning.
const PRIOR_ALARM: f64 = 2.5;
/// Largest shape the solver steps to; the law itself ends at 1.
const LARGEST_SHAPE: f64 = 0.95;
const STEPS: usize = 200;

/// One reading: the paint fraction of a mix and its viscosity.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, bound = "V: Viscosity")]
pub struct DilutionReading<V> {
    /// Volume of stock paint per volume of mix, above 0 up to 1; 1 is the stock paint.
    #[serde(with = "as_text")]
    pub paint_fraction: Ratio,
    /// Its viscosity; without an interval the repeatability of a flow cup is assumed.
    pub viscosity: Estimate<V>,
}

impl<V: Viscosity> DilutionReading<V> {
    /// A reading with its own interval.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a paint fraction outside (0, 1] or a viscosity that is not positive.
    pub fn new(paint_fraction: f64, viscosity: Estimate<V>) -> Result<Self> {
        check_fraction(paint_fraction)?;
        positive("viscosity read", viscosity.best)?;
        Ok(Self { paint_fraction: Ratio::from_si(paint_fraction), viscosity })
    }

    /// A reading without an interval.
    ///
    /// # Errors
    /// Those of [`Self::new`].
    pub fn exact(paint_fraction: f64, viscosity: V) -> Result<Self> {
        Self::new(paint_fraction, Estimate::exact(viscosity))
    }

    /// The paint fraction as a validated fraction.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 0 to 1.
    pub fn fraction(&self) -> Result<VolumeFraction> {
        self.paint_fraction.try_into()
    }
}

struct Row {
    what: String,
    x: f64,
    ln_value: f64,
    reading_std: f64,
}

impl<V: Viscosity> DilutionLaw<V> {
    /// Fits the law to readings of one paint with one thinner at one temperature.
    ///
    /// `readings` holds at least one; `x` = 1 is the stock paint. `thinner_viscosity` is that of the pure
    /// thinner. `prior` is the habit of the family ([`super::Family::shape_prior`]) or
    /// [`ShapePrior::unknown`].
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for no reading, a paint fraction outside (0, 1], a reading at or below
    /// the thinner's viscosity, a viscosity that rises on adding thinner, or readings no law of this form fits.
    pub fn fit(
        readings: &[DilutionReading<V>],
        thinner_viscosity: &Estimate<V>,
        prior: &ShapePrior,
    ) -> Result<Self> {
        prior.check()?;
        let thinner = thinner_viscosity;
        positive("viscosity of the thinner", thinner.best)?;
        let rows = rows(readings, thinner)?;
        let thinner_std = thinner.relative_std().max(LEAST_STD);
        let ln_thinner = thinner.best.si().ln();
        let fitted = solve(&rows, ln_thinner, thinner_std, prior)?;
        let mut law = Self {
            ln_paint: fitted.theta[0],
            shape: fitted.theta[1],
            ln_thinner: fitted.theta[2],
            law_scatter: prior.law_scatter,
            causes: fitted.causes,
            warnings: Vec::new(),
            source: prior.source.clone(),
            kind: core::marker::PhantomData,
        };
        law.warnings = warnings(&rows, &law, prior);
        Ok(law)
    }
}

fn rows<V: Viscosity>(readings: &[DilutionReading<V>], thinner: &Estimate<V>) -> Result<Vec<Row>> {
    if readings.is_empty() {
        return Err(out_of_range(
            "number of readings",
            "0",
            "at least 1",
            "time the stock paint once (paint fraction 1), better also a mix of 55 % to 85 % paint",
        ));
    }
    let mut rows = Vec::with_capacity(readings.len());
    for r in readings {
        let x = r.paint_fraction.si();
        check_fraction(x)?;
        positive("viscosity read", r.viscosity.best)?;
        let percent = show(r.paint_fraction);
        check_thicker(&format!("viscosity read at {percent} paint"), r.viscosity.best, thinner.best)?;
        let own = r.viscosity.relative_std();
        rows.push(Row {
            // An undiluted paint may be typical, stated or read; its own cause says which.
            what: match r.viscosity.contributors.first() {
                Some(cause) if x >= 1.0 => cause.what.clone(),
                None if x >= 1.0 => "reading of the stock paint".to_owned(),
                _ => format!("reading at {percent} paint"),
            },
            x,
            ln_value: r.viscosity.best.si().ln(),
            reading_std: if own > 0.0 { own.max(LEAST_STD) } else { READING_STD },
        });
    }
    rows.sort_by(|a, b| b.x.total_cmp(&a.x));
    for (i, more) in rows.iter().enumerate() {
        for less in rows.iter().skip(i + 1).filter(|r| r.x < more.x) {
            let noise = more.reading_std.hypot(less.reading_std);
            if less.ln_value > more.ln_value + 3.0 * noise {
                return Err(rising::<V>(more, less));
            }
        }
    }
    Ok(rows)
}

fn rising<V: Viscosity>(more: &Row, less: &Row) -> Error {
    out_of_range(
        format!("viscosity read at {} paint", show(Ratio::from_si(less.x))),
        show(V::from_si(less.ln_value.exp())),
        format!(
            "no more than {} as read at {} paint, since thinner was added",
            show(V::from_si(more.ln_value.exp())),
            show(Ratio::from_si(more.x))
        ),
        "a wrong thinner throws the resin out, and some water-reducible paints thicken at first: test a few \
         drops on glass for curds, stir, bring both to one temperature and read again",
    )
}

struct Fitted {
    theta: [f64; 3],
    causes: Vec<Cause>,
}

/// Damped Gauss-Newton in (ln paint, b, ln thinner).
fn solve(rows: &[Row], ln_thinner: f64, thinner_std: f64, prior: &ShapePrior) -> Result<Fitted> {
    let Some(thickest) = rows.first() else {
        return Err(no_fit("no reading"));
    };
    let reach = (thickest.ln_value - ln_thinner) / thickest.x;
    // Weights stay fixed during the solve.
    let stds: Vec<f64> = rows
        .iter()
        .map(|r| r.reading_std.hypot(law_scatter(prior.law_scatter, r.ln_value - ln_thinner, r.x)))
        .collect();
    let mut theta = [ln_thinner + reach, prior.shape_for(reach).min(LARGEST_SHAPE), ln_thinner];
    let mut cost = cost(rows, &stds, ln_thinner, thinner_std, prior, &theta);
    for _ in 0..STEPS {
        let (normal, right) = normal_equations(rows, &stds, ln_thinner, thinner_std, prior, &theta);
        let step = times(&inverse(&normal).ok_or_else(|| no_fit("the readings coincide"))?, &right);
        let mut scale = 1.0;
        let moved = loop {
            let trial = [theta[0] + scale * step[0], theta[1] + scale * step[1], theta[2] + scale * step[2]];
            if trial[1] <= LARGEST_SHAPE && trial[0] > trial[2] {
                let trial_cost = self::cost(rows, &stds, ln_thinner, thinner_std, prior, &trial);
                if trial_cost <= cost * (1.0 + 1e-12) + 1e-18 {
                    break Some((trial, trial_cost));
                }
            }
            scale *= 0.5;
            if scale < 1e-9 {
                break None;
            }
        };
        let Some((trial, trial_cost)) = moved else { break };
        let change = (0..3).map(|i| (trial[i] - theta[i]).abs()).fold(0.0, f64::max);
        theta = trial;
        cost = trial_cost;
        if change < 1e-13 {
            break;
        }
    }
    if !theta.iter().all(|t| t.is_finite()) || theta[1] > LARGEST_SHAPE - 1e-3 {
        return Err(out_of_range(
            "shape constant b from these readings",
            digits(theta[1], 3),
            format!("less than {LARGEST_SHAPE}"),
            "the second mix is far thinner than any paint becomes; check its paint fraction and read it again",
        ));
    }
    let (normal, _) = normal_equations(rows, &stds, ln_thinner, thinner_std, prior, &theta);
    let covariance = inverse(&normal).ok_or_else(|| no_fit("the readings coincide"))?;
    // More scatter than the rows allow widens everything (Birge ratio).
    let freedom = rows.len() as f64 - 1.0;
    let widen = if rows.len() > 2 { (cost / freedom).sqrt().max(1.0) } else { 1.0 };
    let cause =
        |what: String, row: [f64; 3]| Cause { what, moves: times(&covariance, &row).map(|m| m * widen) };
    let mut causes: Vec<Cause> = rows
        .iter()
        .zip(&stds)
        .map(|(r, std)| cause(r.what.clone(), gradient(theta[0] - theta[2], theta[1], r.x).map(|g| g / std)))
        .collect();
    causes.push(cause("viscosity of the thinner".to_owned(), [0.0, 0.0, 1.0 / thinner_std]));
    causes.push(cause(format!("shape assumed for {}", prior.label), prior.row()));
    Ok(Fitted { theta, causes })
}

fn residual(row: &Row, std: f64, theta: &[f64; 3]) -> f64 {
    let g = super::law::share(theta[1], row.x);
    (row.ln_value - (1.0 - g) * theta[2] - g * theta[0]) / std
}

fn cost(
    rows: &[Row],
    stds: &[f64],
    ln_thinner: f64,
    thinner_std: f64,
    prior: &ShapePrior,
    t: &[f64; 3],
) -> f64 {
    let readings: f64 = rows.iter().zip(stds).map(|(r, s)| residual(r, *s, t).powi(2)).sum();
    readings + ((ln_thinner - t[2]) / thinner_std).powi(2) + prior.residual(t).powi(2)
}

fn normal_equations(
    rows: &[Row],
    stds: &[f64],
    ln_thinner: f64,
    thinner_std: f64,
    prior: &ShapePrior,
    theta: &[f64; 3],
) -> ([[f64; 3]; 3], [f64; 3]) {
    let mut normal = [[0.0; 3]; 3];
    let mut right = [0.0; 3];
    let mut add = |jacobian: [f64; 3], residual: f64| {
        for i in 0..3 {
            right[i] += jacobian[i] * residual;
            for j in 0..3 {
                normal[i][j] += jacobian[i] * jacobian[j];
            }
        }
    };
    for (r, std) in rows.iter().zip(stds) {
        let g = gradient(theta[0] - theta[2], theta[1], r.x).map(|v| v / std);
        add(g, residual(r, *std, theta));
    }
    add([0.0, 0.0, 1.0 / thinner_std], (ln_thinner - theta[2]) / thinner_std);
    add(prior.row(), prior.residual(theta));
    (normal, right)
}

/// Inverse of a symmetric positive 3 by 3 matrix, scaled to a unit diagonal first.
fn inverse(m: &[[f64; 3]; 3]) -> Option<[[f64; 3]; 3]> {
    let d: [f64; 3] = core::array::from_fn(|i| m[i][i].sqrt());
    if d.iter().any(|v| !(v.is_finite() && *v > 0.0)) {
        return None;
    }
    let s: [[f64; 3]; 3] = core::array::from_fn(|i| core::array::from_fn(|j| m[i][j] / (d[i] * d[j])));
    let minor = |i: usize, j: usize| {
        let (a, b) = ((i + 1) % 3, (i + 2) % 3);
        let (p, q) = ((j + 1) % 3, (j + 2) % 3);
        s[a][p] * s[b][q] - s[a][q] * s[b][p]
    };
    let determinant: f64 = (0..3).map(|j| s[0][j] * minor(0, j)).sum();
    if !(determinant.is_finite() && determinant > 1e-14) {
        return None;
    }
    Some(core::array::from_fn(|i| core::array::from_fn(|j| minor(j, i) / determinant / (d[i] * d[j]))))
}

fn times(m: &[[f64; 3]; 3], v: &[f64; 3]) -> [f64; 3] {
    core::array::from_fn(|i| (0..3).map(|j| m[i][j] * v[j]).sum())
}

fn no_fit(why: &str) -> Error {
    out_of_range(
        "dilution readings",
        why,
        "readings that fix the law",
        "read the stock paint and one mix of 55 % to 85 % paint",
    )
}

fn warnings<V: Viscosity>(rows: &[Row], law: &DilutionLaw<V>, prior: &ShapePrior) -> Vec<Warning> {
    let mut out = Vec::new();
    let thinned: Vec<&Row> = rows.iter().filter(|r| r.x < 1.0).collect();
    if let Some(least) = thinned.last().filter(|r| r.x > TOO_NEAR_STOCK) {
        out.push(Warning::new(
            "dilution-reading-too-near-stock",
            format!(
                "the thinnest mix read holds {} paint; above {} the reading says little about further thinning: \
                 read one between 55 % and 85 % paint",
                show(Ratio::from_si(least.x)),
                show(Ratio::from_si(TOO_NEAR_STOCK))
            ),
        ));
    }
    let expected = prior.shape_for(law.ln_paint - law.ln_thinner);
    if (law.shape - expected).abs() > PRIOR_ALARM * prior.std {
        out.push(Warning::new(
            "dilution-shape-unusual",
            format!(
                "the readings give a shape of b = {}; {} has {} ± {}: check the paint fractions and \
                 temperatures, or the family",
                digits(law.shape, 2),
                prior.label,
                digits(expected, 2),
                digits(prior.std, 2)
            ),
        ));
    }
    out
}
