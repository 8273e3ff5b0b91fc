//! What a cup is: equation, ranges, precision, source.

use super::calibrate::Calibration;
use super::equation::Equation;
use crate::error::{Error, Result, bad_data};
use crate::quantity::{KinematicViscosity, Length, Quantity, Ratio, Temperature, Time, as_text, show};
use serde::{Deserialize, Serialize};

/// From a low to a high value.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(bound = "Q: Quantity", deny_unknown_fields)]
pub struct Span<Q> {
    /// The low end.
    #[serde(with = "as_text")]
    pub low: Q,
    /// The high end.
    #[serde(with = "as_text")]
    pub high: Q,
}

impl<Q: Quantity> Span<Q> {
    /// Whether the value lies between the ends.
    pub fn contains(&self, q: Q) -> bool {
        self.low <= q && q <= self.high
    }
}

impl<Q: Quantity> core::fmt::Display for Span<Q> {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{} to {}", show(self.low), show(self.high))
    }
}

/// Where a cup's equation comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Kind {
    /// A standard in force.
    Standard,
    /// A standard that was withdrawn; its seconds are still quoted.
    Withdrawn,
    /// Our fit to a published table; no standard stands behind it.
    Fit,
    /// Calibrated by its owner.
    HomeMade,
}

impl Kind {
    /// The words shown to a reader.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Standard => "standard",
            Self::Withdrawn => "withdrawn standard",
            Self::Fit => "fit to a published table",
            Self::HomeMade => "home-made",
        }
    }
}

/// By how much two results of a method may differ, at 95 %, as a share of their mean time.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Precision {
    /// One operator, one cup, one liquid.
    #[serde(with = "as_text")]
    pub repeatability: Ratio,
    /// Two laboratories. Twice the repeatability where nothing is published.
    #[serde(with = "as_text")]
    pub reproducibility: Ratio,
    /// Source key.
    pub source: String,
}

/// A limit on the difference of two results is this many standard deviations (1.96 √2; ISO 5725-6).
pub(super) const LIMIT_PER_STD: f64 = 2.772;

impl Precision {
    /// Standard deviation of one run, relative.
    pub fn run_std(&self) -> f64 {
        self.repeatability.si() / LIMIT_PER_STD
    }

    /// Standard deviation between cups and laboratories, without the run's own, relative.
    pub(super) fn laboratory_std(&self) -> f64 {
        let (r, big_r) = (self.repeatability.si(), self.reproducibility.si());
        (big_r * big_r - r * r).max(0.0).sqrt() / LIMIT_PER_STD
    }
}

/// A flow cup: its equation, the range it holds in, and how well it repeats.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Record")]
pub struct FlowCup {
    pub(super) standard: String,
    pub(super) size: String,
    pub(super) kind: Kind,
    pub(super) equation: Equation,
    #[serde(with = "as_text::option", skip_serializing_if = "Option::is_none")]
    pub(super) orifice: Option<Length>,
    #[serde(with = "as_text::option", skip_serializing_if = "Option::is_none")]
    pub(super) temperature: Option<Temperature>,
    pub(super) times: Span<Time>,
    pub(super) viscosities: Span<KinematicViscosity>,
    pub(super) precision: Precision,
    pub(super) source: String,
    #[serde(skip_serializing_if = "String::is_empty")]
    pub(super) note: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) calibration: Option<Calibration>,
}

/// The form in files, before it is checked.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    standard: String,
    size: String,
    kind: Kind,
    equation: Equation,
    #[serde(default, with = "as_text::option")]
    orifice: Option<Length>,
    #[serde(default, with = "as_text::option")]
    temperature: Option<Temperature>,
    times: Span<Time>,
    viscosities: Span<KinematicViscosity>,
    precision: Precision,
    source: String,
    #[serde(default)]
    note: String,
    #[serde(default)]
    calibration: Option<Calibration>,
}

impl TryFrom<Record> for FlowCup {
    type Error = Error;

    fn try_from(r: Record) -> Result<Self> {
        let bad = |field: &str, problem: String| {
            bad_data(
                format!("cup {} {}", r.standard, r.size),
                None,
                Some(field),
                problem,
                "compare with a cup in data/cups.toml",
            )
        };
        if let Some(problem) = r.equation.fault() {
            return Err(bad("equation", problem));
        }
        let zero = Time::from_si(r.equation.zero_time_s());
        if !(r.times.low > zero && r.times.high > r.times.low && r.times.high.si().is_finite()) {
            let text = format!("{} is not a range above the zero time {}", r.times, show(zero));
            return Err(bad("times", text));
        }
        if !(r.viscosities.low.si() >= 0.0 && r.viscosities.high > r.viscosities.low) {
            return Err(bad("viscosities", format!("{} is not a range", r.viscosities)));
        }
        if let Some(c) = &r.calibration {
            let errors = [c.k_std_mm2_s2, c.b_std_mm2];
            if !(errors.iter().all(|e| e.is_finite() && *e >= 0.0) && (-1.0..=1.0).contains(&c.correlation)) {
                let text = format!(
                    "standard errors {} and {} with a correlation of {} cannot be",
                    c.k_std_mm2_s2, c.b_std_mm2, c.correlation
                );
                return Err(bad("calibration", text));
            }
        }
        let p = &r.precision;
        let share = 0.0..=1.0;
        if !(share.contains(&p.repeatability.si()) && share.contains(&p.reproducibility.si())) {
            return Err(bad("precision", "a share is not between 0 % and 100 %".to_owned()));
        }
        Ok(Self {
            standard: r.standard,
            size: r.size,
            kind: r.kind,
            equation: r.equation,
            orifice: r.orifice,
            temperature: r.temperature,
            times: r.times,
            viscosities: r.viscosities,
            precision: r.precision,
            source: r.source,
            note: r.note,
            calibration: r.calibration,
        })
    }
}

impl FlowCup {
    /// Name of the standard, or of the home-made cup.
    pub fn standard_name(&self) -> &str {
        &self.standard
    }

    /// Size within the standard: `"4"`, `"2.5"`; empty for a home-made cup.
    pub fn size(&self) -> &str {
        &self.size
    }

    /// Standard and size together, as used in messages.
    pub fn name(&self) -> String {
        let (standard, size) = (self.standard.as_str(), self.size.as_str());
        match standard {
            _ if size.is_empty() => standard.to_owned(),
            "ASTM D1200" => format!("Ford no. {size} (ASTM D1200)"),
            "ASTM D4212 Zahn" => format!("Zahn no. {size} (ASTM D4212)"),
            "ASTM D4212 Shell" => format!("Shell no. {size} (ASTM D4212)"),
            _ if standard.contains("Ford") || standard.contains("Zahn") => format!("{standard} no. {size}"),
            // The others are numbered by their hole.
            _ => format!("{standard} {size} mm"),
        }
    }

    /// Standard, withdrawn, fit or home-made.
    pub fn kind(&self) -> Kind {
        self.kind
    }

    /// The equation, for loops over arrays.
    pub fn equation(&self) -> Equation {
        self.equation
    }

    /// Diameter of the hole, where known.
    pub fn orifice(&self) -> Option<Length> {
        self.orifice
    }

    /// Temperature at which the liquid is timed; `None` for a home-made cup, which holds at any.
    pub fn temperature(&self) -> Option<Temperature> {
        self.temperature
    }

    /// Times between which the equation holds.
    pub fn time_range(&self) -> Span<Time> {
        self.times
    }

    /// Viscosities the cup is meant for, as published.
    pub fn viscosity_range(&self) -> Span<KinematicViscosity> {
        self.viscosities
    }

    /// Time at which the equation gives zero viscosity; shorter times are refused.
    pub fn zero_time(&self) -> Time {
        Time::from_si(self.equation.zero_time_s())
    }

    /// How well the method repeats.
    pub fn precision(&self) -> &Precision {
        &self.precision
    }

    /// Source key of the equation.
    pub fn source(&self) -> &str {
        &self.source
    }

    /// What else to know about this cup; may be empty.
    pub fn note(&self) -> &str {
        &self.note
    }

    /// How a home-made cup was calibrated.
    pub fn calibration(&self) -> Option<&Calibration> {
        self.calibration.as_ref()
    }
}

impl core::fmt::Display for FlowCup {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(&self.name())
    }
}
