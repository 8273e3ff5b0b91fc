//! A home-made cup: syringe barrel, drilled cap, pipette. Time liquids of known viscosity, fit two constants.
//!
//! `ν = K t − B/t`, fitted by least squares to relative errors. Time water first, then one or two glycerol
//! mixes that are about as thick as the paints to be measured; the range of validity is the range of times
//! used. Standard errors come from the timing and the reference liquids, or from the scatter around the fit
//! if that is larger.

use super::MM2;
use super::equation::Equation;
use super::reference::ReferenceLiquid;
use super::standard::{FlowCup, Kind, LIMIT_PER_STD, Precision, Span};
use crate::error::{Result, out_of_range};
use crate::estimate::{Estimate, ModelError};
use crate::quantity::{KinematicViscosity, Quantity, Ratio, Temperature, Time, digits, show};
use crate::warning::Warning;
use crate::working::{Step, Working};
use serde::{Deserialize, Serialize};

/// The longest time must be at least this many times the shortest, or B cannot be told from K.
const LEAST_SPREAD: f64 = 1.3;
/// Residuals above this share of the viscosity get a warning: a misread time or a wrong mix.
const LARGE_RESIDUAL: f64 = 0.10;
/// Repeatability assumed for a home-made cup, that of ISO 2431 (JIS K 5600-2-2).
const REPEATABILITY: f64 = 0.05;
/// Standard deviation of one run, relative.
const RUN_STD: f64 = REPEATABILITY / LIMIT_PER_STD;

/// One timed liquid.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Reading {
    /// Its kinematic viscosity at the temperature of the run.
    pub viscosity: Estimate<KinematicViscosity>,
    /// Its efflux time, best the mean of repeat runs ([`super::timing`]).
    pub time: Estimate<Time>,
}

impl Reading {
    /// A viscosity taken as exact and one timed run, with the repeatability of a flow cup (5 % at 95 %).
    pub fn new(viscosity: KinematicViscosity, time: Time) -> Self {
        Self { viscosity: Estimate::exact(viscosity), time: one_run(time) }
    }

    /// A reference liquid at the temperature of the run; its uncertainty counts.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] for a temperature outside 0 to 60 °C.
    pub fn of(liquid: ReferenceLiquid, temperature: Temperature, time: Time) -> Result<Self> {
        Ok(Self { viscosity: liquid.kinematic_viscosity(temperature)?, time: one_run(time) })
    }
}

fn one_run(time: Time) -> Estimate<Time> {
    Estimate::relative(time, &[ModelError::new("one run (5 % repeatability)", RUN_STD)])
}

/// The constants of a home-made cup with their standard errors.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Calibration {
    /// K in mm2/s2.
    pub k_mm2_s2: f64,
    /// B in mm2.
    pub b_mm2: f64,
    /// Standard error of K.
    pub k_std_mm2_s2: f64,
    /// Standard error of B.
    pub b_std_mm2: f64,
    /// Correlation of the two errors, −1 to 1.
    pub correlation: f64,
    /// The readings used.
    pub readings: Vec<Reading>,
    /// Relative residual of each reading: (fit − given)/given.
    pub residuals: Vec<f64>,
    /// What to mind about this calibration.
    pub warnings: Vec<Warning>,
    /// The steps.
    pub working: Working,
}

impl Calibration {
    /// Standard error of the viscosity that the fit gives at a time in s, from the errors of K and B.
    pub fn viscosity_std_mm2_s(&self, efflux_s: f64) -> f64 {
        let (along, across) = (efflux_s * self.k_std_mm2_s2, self.b_std_mm2 / efflux_s);
        (along * along + across * across - 2.0 * self.correlation * along * across).max(0.0).sqrt()
    }
}

/// A weighted fit of K and B.
struct Fit {
    k: f64,
    b: f64,
    /// Variances of K and B and their covariance.
    variance: [f64; 3],
}

impl FlowCup {
    /// Builds a cup from timed liquids of known viscosity.
    ///
    /// Two readings fix the two constants exactly; more are fitted by weighted least squares. Conversions
    /// carry the standard errors, and warn outside the times used here.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] for fewer than two readings (with one, start from a standard cup:
    /// [`FlowCup::anchored`]), for times that lie too close together, for values that are not above zero,
    /// and for readings that contradict each other (a thicker liquid that ran out sooner).
    ///
    /// ```
    /// use mistcoat::cup::{FlowCup, Reading, reference::ReferenceLiquid};
    /// use mistcoat::quantity::{parse, to};
    /// let room = parse("21 °C")?;
    /// let cup = FlowCup::calibrate(
    ///     &[
    ///         Reading::of(ReferenceLiquid::water(), room, parse("8.3 s")?)?,
    ///         Reading::of(ReferenceLiquid::glycerol_water(parse("50 %")?)?, room, parse("15 s")?)?,
    ///         Reading::of(ReferenceLiquid::glycerol_water(parse("70 %")?)?, room, parse("44 s")?)?,
    ///     ],
    ///     "10 mL syringe",
    /// )?;
    /// let nu = cup.kinematic_viscosity(parse("30 s")?)?;
    /// assert!(to(nu.best(), "mm2/s")? > 10.0 && nu.warnings.is_empty());
    /// assert_eq!(cup.kinematic_viscosity(parse("60 s")?)?.warnings[0].code, "cup-time-above-range");
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn calibrate(readings: &[Reading], name: &str) -> Result<FlowCup> {
        check(readings)?;
        let mut fit = solve(readings, None);
        // The weights need the slope of the curve, which needs the fit.
        for _ in 0..3 {
            fit = solve(readings, Some(&fit));
        }
        let mut warnings = Vec::new();
        let contradict = |value: String| {
            out_of_range(
                "calibration of the home-made cup",
                value,
                "a positive K and a B that is not negative",
                "the readings contradict each other: check which time belongs to which liquid, and the temperature",
            )
        };
        let b_std = fit.variance[1].sqrt();
        if !(fit.k.is_finite() && fit.b.is_finite()) || fit.k <= 0.0 || fit.b < -2.0 * b_std {
            return Err(contradict(format!("K = {} mm2/s2, B = {} mm2", digits(fit.k, 3), digits(fit.b, 3))));
        }
        if fit.b < 0.0 {
            warnings.push(Warning::new(
                "cup-calibration-b-zero",
                format!(
                    "B came out as {} ± {} mm2, zero within its error, and is set to zero: time a thinner \
                     liquid (water) to fix it",
                    digits(fit.b, 2),
                    digits(b_std, 2)
                ),
            ));
            fit.k = proportional(readings);
            fit.b = 0.0;
        }
        let equation = Equation::Hyperbolic { a_mm2_s2: fit.k, b_mm2: fit.b };
        let (times, viscosities) = spans(readings);
        if equation.zero_time_s() >= times.low.si() {
            return Err(contradict(format!(
                "zero viscosity at {}",
                show(Time::from_si(equation.zero_time_s()))
            )));
        }
        let residuals: Vec<f64> = readings
            .iter()
            .map(|r| equation.kinematic_viscosity_mm2_s(r.time.best.si()) * MM2 / r.viscosity.best.si() - 1.0)
            .collect();
        for (r, e) in readings.iter().zip(&residuals).filter(|(_, e)| e.abs() > LARGE_RESIDUAL) {
            warnings.push(Warning::new(
                "cup-calibration-residual",
                format!(
                    "the fit misses the liquid of {} ({}) by {:+.0} %, more than 10 %: time it again or leave it out",
                    show(r.viscosity.best),
                    show(r.time.best),
                    100.0 * e
                ),
            ));
        }
        let working = working(name, readings, &fit);
        let (k_std, b_std) = (fit.variance[0].sqrt(), fit.variance[1].sqrt());
        let calibration = Calibration {
            k_mm2_s2: fit.k,
            b_mm2: fit.b,
            k_std_mm2_s2: k_std,
            b_std_mm2: b_std,
            correlation: (fit.variance[2] / (k_std * b_std)).clamp(-1.0, 1.0),
            readings: readings.to_vec(),
            residuals,
            warnings,
            working,
        };
        let repeatability = Ratio::from_si(REPEATABILITY);
        Ok(FlowCup {
            standard: name.to_owned(),
            size: String::new(),
            kind: Kind::HomeMade,
            equation,
            orifice: None,
            temperature: None,
            times,
            viscosities,
            // One cup, one owner: there is no second laboratory.
            precision: Precision {
                repeatability,
                reproducibility: repeatability,
                source: "JIS_K5600_2_2".into(),
            },
            source: "HOME_CUP".to_owned(),
            note: String::new(),
            calibration: Some(calibration),
        })
    }
}

fn check(readings: &[Reading]) -> Result<()> {
    if readings.len() < 2 {
        return Err(out_of_range(
            "number of calibration readings",
            readings.len().to_string(),
            "at least 2",
            "time water and one glycerol mix; with one reading alone, anchor a standard cup on it",
        ));
    }
    for r in readings {
        for (what, value, text) in [
            ("viscosity of a calibration liquid", r.viscosity.best.si(), show(r.viscosity.best)),
            ("efflux time of a calibration liquid", r.time.best.si(), show(r.time.best)),
        ] {
            if !(value > 0.0 && value.is_finite()) {
                return Err(out_of_range(
                    what,
                    text,
                    "above zero and finite",
                    "time this liquid again or leave it out",
                ));
            }
        }
    }
    let (times, _) = spans(readings);
    let spread = times.high.si() / times.low.si();
    if spread < LEAST_SPREAD {
        return Err(out_of_range(
            "spread of the calibration times (longest over shortest)",
            digits(spread, 3),
            format!("at least {LEAST_SPREAD}"),
            "add a liquid that is clearly thicker, such as 70 % glycerol by mass",
        ));
    }
    Ok(())
}

fn spans(readings: &[Reading]) -> (Span<Time>, Span<KinematicViscosity>) {
    let ends = |values: &mut dyn Iterator<Item = f64>| {
        values.fold((f64::INFINITY, 0.0_f64), |(low, high), v| (low.min(v), high.max(v)))
    };
    let t = ends(&mut readings.iter().map(|r| r.time.best.si()));
    let nu = ends(&mut readings.iter().map(|r| r.viscosity.best.si()));
    (
        Span { low: Time::from_si(t.0), high: Time::from_si(t.1) },
        Span { low: KinematicViscosity::from_si(nu.0), high: KinematicViscosity::from_si(nu.1) },
    )
}

/// Weighted normal equations of `ν = K t − B/t`; the weights come from the errors of time and viscosity.
fn solve(readings: &[Reading], last: Option<&Fit>) -> Fit {
    let mut s = [0.0_f64; 5];
    for r in readings {
        let (t, nu) = (r.time.best.si(), r.viscosity.best.si() / MM2);
        let weight = 1.0 / error(r, last).powi(2);
        s[0] += weight * t * t;
        s[1] += weight;
        s[2] += weight / (t * t);
        s[3] += weight * nu * t;
        s[4] += weight * nu / t;
    }
    let det = s[0] * s[2] - s[1] * s[1];
    let fit = Fit {
        k: (s[3] * s[2] - s[1] * s[4]) / det,
        b: (s[1] * s[3] - s[0] * s[4]) / det,
        variance: [s[2] / det, s[0] / det, s[1] / det],
    };
    // Scatter beyond what the errors explain widens them.
    let free = readings.len() - 2;
    let excess = if free == 0 {
        1.0
    } else {
        let chi2: f64 = readings
            .iter()
            .map(|r| {
                let (t, nu) = (r.time.best.si(), r.viscosity.best.si() / MM2);
                ((fit.k * t - fit.b / t - nu) / error(r, last)).powi(2)
            })
            .sum();
        (chi2 / free as f64).max(1.0)
    };
    Fit { variance: fit.variance.map(|v| v * excess), ..fit }
}

/// Standard error of one reading in mm2/s: of the liquid, and of the time through the slope of the curve.
fn error(r: &Reading, last: Option<&Fit>) -> f64 {
    let (t, nu) = (r.time.best.si(), r.viscosity.best.si() / MM2);
    let slope = last.map_or(nu / t, |f| f.k + f.b / (t * t));
    let of_time = slope * r.time.std();
    let of_liquid = r.viscosity.std() / MM2;
    // Readings given as exact still get equal relative weights.
    (of_time * of_time + of_liquid * of_liquid).sqrt().max(1e-6 * nu)
}

/// K alone, with B = 0: the weighted mean of ν/t.
fn proportional(readings: &[Reading]) -> f64 {
    let (mut top, mut bottom) = (0.0, 0.0);
    for r in readings {
        let (t, nu) = (r.time.best.si(), r.viscosity.best.si() / MM2);
        let weight = 1.0 / error(r, None).powi(2);
        top += weight * nu * t;
        bottom += weight * t * t;
    }
    top / bottom
}

fn working(name: &str, readings: &[Reading], fit: &Fit) -> Working {
    let mut w = Working::new(format!("Calibration of {name}"));
    let listed: Vec<String> =
        readings.iter().map(|r| format!("{} at {}", show(r.viscosity.best), show(r.time.best))).collect();
    w.push(
        Step::new("least squares through the timed liquids", "ν = K t − B/t", r"\nu = K\,t - \frac{B}{t}")
            .numbers(listed.join("; "))
            .result(format!(
                "K = {} ± {} mm2/s2, B = {} ± {} mm2",
                digits(fit.k, 4),
                digits(fit.variance[0].sqrt(), 2),
                digits(fit.b, 4),
                digits(fit.variance[1].sqrt(), 2)
            ))
            .source("HOME_CUP"),
    );
    w
}
