//! The equations of flow cups, in raw numbers for loops over arrays.

use serde::{Deserialize, Serialize};

/// Efflux time to kinematic viscosity for one cup, and back; both in closed form.
///
/// A `Copy` value, so that a loop over a million readings carries it in registers. It does no checking: a
/// time at or below [`Equation::zero_time_s`] gives a viscosity that is zero or negative, which the caller
/// must refuse.
///
/// ```
/// use mistcoat::cup::FlowCup;
/// let equation = FlowCup::standard("ISO 2431", "4")?.equation();
/// let nu = equation.kinematic_viscosity_mm2_s(35.0);
/// assert_eq!(nu, 1.37 * 35.0 - 200.0 / 35.0);
/// assert!((equation.efflux_time_s(nu) - 35.0).abs() < 1e-12);
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(tag = "form", rename_all = "kebab-case", deny_unknown_fields)]
pub enum Equation {
    /// `ν = a t − b/t`; the second term is what the liquid's own speed takes from the head (kinetic energy).
    Hyperbolic {
        /// `a` in mm2/s2.
        a_mm2_s2: f64,
        /// `b` in mm2.
        b_mm2: f64,
    },
    /// `ν = a (t − zero)`, a straight line that serves within the time range of its standard.
    Linear {
        /// `a` in mm2/s2.
        a_mm2_s2: f64,
        /// Time at which the line crosses zero, in s.
        zero_s: f64,
    },
    /// Two straight lines `t = slope ν + zero`, printed the other way round than the rest.
    TwoLines {
        /// Slope of the line for short times, in s2/mm2.
        low_slope_s2_mm2: f64,
        /// Its time at zero viscosity, in s.
        low_zero_s: f64,
        /// Slope of the line for long times, in s2/mm2.
        high_slope_s2_mm2: f64,
        /// Its time at zero viscosity, in s.
        high_zero_s: f64,
        /// The line for long times holds from this time upwards, in s.
        join_s: f64,
    },
}

impl Equation {
    /// Kinematic viscosity in mm2/s at an efflux time in s. Not positive at or below the zero time.
    #[inline]
    pub fn kinematic_viscosity_mm2_s(self, efflux_s: f64) -> f64 {
        match self {
            Self::Hyperbolic { a_mm2_s2, b_mm2 } => a_mm2_s2 * efflux_s - b_mm2 / efflux_s,
            Self::Linear { a_mm2_s2, zero_s } => a_mm2_s2 * (efflux_s - zero_s),
            Self::TwoLines { low_slope_s2_mm2, low_zero_s, high_slope_s2_mm2, high_zero_s, join_s } => {
                if efflux_s < join_s {
                    (efflux_s - low_zero_s) / low_slope_s2_mm2
                } else {
                    (efflux_s - high_zero_s) / high_slope_s2_mm2
                }
            }
        }
    }

    /// Efflux time in s at a kinematic viscosity in mm2/s; the inverse of the same equation.
    ///
    /// Where two lines overlap (two times give the same viscosity), the line for long times is taken.
    #[inline]
    pub fn efflux_time_s(self, kinematic_viscosity_mm2_s: f64) -> f64 {
        let nu = kinematic_viscosity_mm2_s;
        match self {
            Self::Hyperbolic { a_mm2_s2, b_mm2 } => {
                (nu + (nu * nu + 4.0 * a_mm2_s2 * b_mm2).sqrt()) / (2.0 * a_mm2_s2)
            }
            Self::Linear { a_mm2_s2, zero_s } => nu / a_mm2_s2 + zero_s,
            Self::TwoLines { low_slope_s2_mm2, low_zero_s, high_slope_s2_mm2, high_zero_s, join_s } => {
                if nu >= (join_s - high_zero_s) / high_slope_s2_mm2 {
                    high_slope_s2_mm2 * nu + high_zero_s
                } else {
                    low_slope_s2_mm2 * nu + low_zero_s
                }
            }
        }
    }

    /// Time in s at which the equation gives zero viscosity. Shorter times mean nothing in this cup.
    #[inline]
    pub fn zero_time_s(self) -> f64 {
        match self {
            Self::Hyperbolic { a_mm2_s2, b_mm2 } => (b_mm2 / a_mm2_s2).sqrt(),
            Self::Linear { zero_s, .. } => zero_s,
            Self::TwoLines { low_zero_s, .. } => low_zero_s,
        }
    }

    /// `d ln ν / d ln t`: by how many percent the viscosity moves when the time moves by one percent.
    ///
    /// 1 far above the zero time; 3.0 for the 3 mm cup of ISO 2431 at 30 s, where one second is a tenth of
    /// the viscosity.
    #[inline]
    pub fn sensitivity(self, efflux_s: f64) -> f64 {
        match self {
            Self::Hyperbolic { a_mm2_s2, b_mm2 } => {
                (a_mm2_s2 * efflux_s + b_mm2 / efflux_s) / (a_mm2_s2 * efflux_s - b_mm2 / efflux_s)
            }
            Self::Linear { zero_s, .. } => efflux_s / (efflux_s - zero_s),
            Self::TwoLines { low_zero_s, high_zero_s, join_s, .. } => {
                efflux_s / (efflux_s - if efflux_s < join_s { low_zero_s } else { high_zero_s })
            }
        }
    }

    /// What would make the equation meaningless: a slope that is not positive, a constant that is not finite.
    pub(super) fn fault(self) -> Option<String> {
        let (positive, not_negative): (&[f64], &[f64]) = match &self {
            Self::Hyperbolic { a_mm2_s2, b_mm2 } => (&[*a_mm2_s2], &[*b_mm2]),
            Self::Linear { a_mm2_s2, zero_s } => (&[*a_mm2_s2], &[*zero_s]),
            Self::TwoLines { low_slope_s2_mm2, low_zero_s, high_slope_s2_mm2, high_zero_s, join_s } => {
                (&[*low_slope_s2_mm2, *high_slope_s2_mm2, *join_s], &[*low_zero_s, *high_zero_s])
            }
        };
        // Below its own zero either line would give a viscosity below nothing.
        let joined = match self {
            Self::TwoLines { low_zero_s, high_zero_s, join_s, .. } => join_s > low_zero_s.max(high_zero_s),
            Self::Hyperbolic { .. } | Self::Linear { .. } => true,
        };
        let good = joined
            && positive.iter().all(|&x| x.is_finite() && x > 0.0)
            && not_negative.iter().all(|&x| x.is_finite() && x >= 0.0);
        (!good).then(|| {
            format!(
                "equation {self:?} has a slope that is not above zero, a negative constant, or lines that join \
                 below their zero"
            )
        })
    }

    /// The formula in plain text and in LaTeX, time to viscosity.
    pub(super) fn formula(self) -> (&'static str, &'static str) {
        match self {
            Self::Hyperbolic { .. } => ("ν = a t − b/t", r"\nu = a\,t - \frac{b}{t}"),
            Self::Linear { .. } => ("ν = a (t − t0)", r"\nu = a\,(t - t_0)"),
            Self::TwoLines { .. } => ("ν = (t − c)/s", r"\nu = \frac{t - c}{s}"),
        }
    }

    /// The same with the numbers in it.
    pub(super) fn numbers(self, efflux_s: f64) -> String {
        let t = crate::quantity::digits(efflux_s, 4);
        match self {
            Self::Hyperbolic { a_mm2_s2, b_mm2 } => format!("{a_mm2_s2} × {t} − {b_mm2}/{t}"),
            Self::Linear { a_mm2_s2, zero_s } => format!("{a_mm2_s2} × ({t} − {zero_s})"),
            Self::TwoLines { .. } => {
                let (slope, zero) = self.line(efflux_s);
                format!("({t} − {zero})/{slope}")
            }
        }
    }

    /// The inverse formula in plain text and in LaTeX.
    pub(super) fn inverse_formula(self) -> (&'static str, &'static str) {
        match self {
            Self::Hyperbolic { .. } => {
                ("t = (ν + √(ν² + 4 a b))/(2 a)", r"t = \frac{\nu + \sqrt{\nu^2 + 4ab}}{2a}")
            }
            Self::Linear { .. } => ("t = ν/a + t0", r"t = \frac{\nu}{a} + t_0"),
            Self::TwoLines { .. } => ("t = s ν + c", r"t = s\,\nu + c"),
        }
    }

    /// The same with the numbers in it.
    pub(super) fn inverse_numbers(self, nu_mm2_s: f64) -> String {
        let nu = crate::quantity::digits(nu_mm2_s, 4);
        match self {
            Self::Hyperbolic { a_mm2_s2: a, b_mm2: b } => {
                format!("({nu} + √({nu}² + 4 × {a} × {b}))/(2 × {a})")
            }
            Self::Linear { a_mm2_s2, zero_s } => format!("{nu}/{a_mm2_s2} + {zero_s}"),
            Self::TwoLines { .. } => {
                let (slope, zero) = self.line(self.efflux_time_s(nu_mm2_s));
                format!("{slope} × {nu} + {zero}")
            }
        }
    }

    /// Slope and zero of the line in force at a time; only used to print two-line equations.
    fn line(self, efflux_s: f64) -> (f64, f64) {
        match self {
            Self::TwoLines { low_slope_s2_mm2, low_zero_s, high_slope_s2_mm2, high_zero_s, join_s } => {
                if efflux_s < join_s {
                    (low_slope_s2_mm2, low_zero_s)
                } else {
                    (high_slope_s2_mm2, high_zero_s)
                }
            }
            Self::Hyperbolic { .. } | Self::Linear { .. } => (f64::NAN, f64::NAN),
        }
    }
}
