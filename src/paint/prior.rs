//! What a family of paints usually does on thinning, before anything is measured.

use crate::error::{Result, out_of_range};
use crate::quantity::digits;
use serde::{Deserialize, Serialize};

/// Expected shape `b` of the dilution law: `b = at_zero + per_reach ln(η1/ηs)`, with its spread.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ShapePrior {
    /// Whose habit this is, for example "solvent lacquer".
    pub label: String,
    /// Expected `b` of a paint hardly thicker than its thinner.
    pub at_zero: f64,
    /// Change of the expected `b` per unit of ln(paint viscosity / thinner viscosity).
    pub per_reach: f64,
    /// Standard deviation of `b` between paints.
    pub std: f64,
    /// How far mixes stray from the law: standard deviation of ln η is this times `(1 − x)(1 + 0.1/x)`.
    pub law_scatter: f64,
    /// What the numbers rest on.
    pub evidence: String,
    /// Source key or citation.
    pub source: String,
}

impl ShapePrior {
    /// The prior for a liquid of no known family: a wide one around the log-linear rule.
    ///
    /// # Errors
    /// A [`crate::error::DataError`] when the embedded data is damaged.
    pub fn unknown() -> Result<Self> {
        super::family::unknown_prior()
    }

    /// A shape known from an earlier calibration.
    /// Refuses a prior that would make the fit meaningless.
    pub(super) fn check(&self) -> Result<()> {
        let numbers = [self.at_zero, self.per_reach, self.std, self.law_scatter];
        if numbers.iter().all(|v| v.is_finite())
            && self.at_zero < 1.0
            && self.std > 0.0
            && self.law_scatter >= 0.0
        {
            return Ok(());
        }
        Err(out_of_range(
            format!("shape of {}", self.label),
            format!(
                "at_zero {}, per_reach {}, std {}, law_scatter {}",
                self.at_zero, self.per_reach, self.std, self.law_scatter
            ),
            "finite numbers with at_zero below 1, std above 0 and law_scatter not below 0",
            "leave it out to use the family's, or calibrate the paint with readings",
        ))
    }

    pub(super) fn known(label: String, shape: f64, std: f64, law_scatter: f64) -> Self {
        Self {
            label,
            at_zero: shape,
            per_reach: 0.0,
            std,
            law_scatter,
            evidence: "readings of this paint".to_owned(),
            source: "dilution-law".to_owned(),
        }
    }

    /// Expected `b` when ln(paint viscosity / thinner viscosity) is `reach`.
    pub fn shape_for(&self, reach: f64) -> f64 {
        self.at_zero + self.per_reach * reach
    }

    /// Row of the least-squares problem in (ln paint, b, ln thinner).
    pub(super) fn row(&self) -> [f64; 3] {
        [-self.per_reach / self.std, 1.0 / self.std, self.per_reach / self.std]
    }

    pub(super) fn residual(&self, theta: &[f64; 3]) -> f64 {
        (self.shape_for(theta[0] - theta[2]) - theta[1]) / self.std
    }
}

impl core::fmt::Display for ShapePrior {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{}: b = {}", self.label, digits(self.at_zero, 2))?;
        if self.per_reach != 0.0 {
            write!(f, " + ({}) ln(η1/ηs)", digits(self.per_reach, 2))?;
        }
        write!(f, " ± {}", digits(self.std, 2))
    }
}
