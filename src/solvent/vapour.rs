//! Vapour pressure of a pure liquid: the equation forms found in the handbooks.
//!
//! | form | equation |
//! |---|---|
//! | Antoine | `log10 P = A - B/(T + C)` or with the natural logarithm |
//! | Wagner | `ln(P/Pc) = (Tc/T)(A x + B x^1.5 + C x^2.5 + D x^5)`, `x = 1 - T/Tc`; or exponents 3 and 6 |
//! | DIPPR 101 | `ln P = A + B/T + C ln T + D T^E` |
//! | IAPWS-IF97 | saturation line of water, region 4 |
//!
//! P in Pa, T in K. For loops every solvent also carries one Antoine equation fitted to its own form over
//! 0 to 60 °C ([`fit_antoine`]); it follows within 0.3 %.

use super::record::{Antoine, Form};

/// IAPWS-IF97 region 4, coefficients n1..n10 of the release (source `IAPWS97`).
const IF97: [f64; 10] = [
    0.11670521452767e4,
    -0.72421316703206e6,
    -0.17073846940092e2,
    0.12020824702470e5,
    -0.32325550322333e7,
    0.14915108613530e2,
    -0.48232657361591e4,
    0.40511340542057e6,
    -0.23855557567849,
    0.65017534844798e3,
];

/// An equation with its coefficients.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Law {
    AntoineLog10 { a: f64, b: f64, c: f64 },
    AntoineLn { a: f64, b: f64, c: f64 },
    Wagner { tc_k: f64, pc_pa: f64, abcd: [f64; 4], third: f64, fourth: f64 },
    Dippr101 { a: f64, b: f64, c: f64, d: f64, e: f64 },
    IapwsIf97,
}

impl Law {
    /// From a form and its coefficients; `None` when their count does not fit.
    pub(super) fn new(form: Form, c: &[f64]) -> Option<Self> {
        Some(match (form, c) {
            (Form::AntoineLog10, &[a, b, c]) => Self::AntoineLog10 { a, b, c },
            (Form::AntoineLn, &[a, b, c]) => Self::AntoineLn { a, b, c },
            (Form::Wagner25, &[tc_k, pc_pa, a, b, c, d]) => {
                Self::Wagner { tc_k, pc_pa, abcd: [a, b, c, d], third: 2.5, fourth: 5.0 }
            }
            (Form::Wagner36, &[tc_k, pc_pa, a, b, c, d]) => {
                Self::Wagner { tc_k, pc_pa, abcd: [a, b, c, d], third: 3.0, fourth: 6.0 }
            }
            (Form::Dippr101, &[a, b, c, d, e]) => Self::Dippr101 { a, b, c, d, e },
            (Form::IapwsIf97, &[]) => Self::IapwsIf97,
            _ => return None,
        })
    }

    /// How many coefficients a form takes, in words.
    pub(super) const fn wants(form: Form) -> &'static str {
        match form {
            Form::AntoineLog10 | Form::AntoineLn => "3 coefficients A, B/K, C/K for a pressure in Pa",
            Form::Wagner25 | Form::Wagner36 => "6 coefficients Tc/K, Pc/Pa, A, B, C, D",
            Form::Dippr101 => "5 coefficients A, B, C, D, E for a pressure in Pa",
            Form::IapwsIf97 => "no coefficients",
            Form::Point => "a `point` and no coefficients",
        }
    }

    /// Through a point and the normal boiling point, with Thomson's rule `C = 18 K - 0.19 Tb` (source
    /// `THOMSON`).
    pub(super) fn through(t_k: f64, p_pa: f64, boiling_k: f64) -> Self {
        let c = 18.0 - 0.19 * boiling_k;
        let (x, xb) = (1.0 / (t_k + c), 1.0 / (boiling_k + c));
        let b = (super::kernel::ATMOSPHERE_PA / p_pa).log10() / (x - xb);
        Self::AntoineLog10 { a: p_pa.log10() + b * x, b, c }
    }

    /// Vapour pressure in Pa.
    pub(super) fn pressure_pa(&self, t_k: f64) -> f64 {
        match *self {
            Self::AntoineLog10 { a, b, c } => 10.0_f64.powf(a - b / (t_k + c)),
            Self::AntoineLn { a, b, c } => (a - b / (t_k + c)).exp(),
            Self::Wagner { tc_k, pc_pa, abcd: [a, b, c, d], third, fourth } => {
                let x = 1.0 - t_k / tc_k;
                let sum = a * x + b * x.powf(1.5) + c * x.powf(third) + d * x.powf(fourth);
                pc_pa * (sum * tc_k / t_k).exp()
            }
            Self::Dippr101 { a, b, c, d, e } => (a + b / t_k + c * t_k.ln() + d * t_k.powf(e)).exp(),
            Self::IapwsIf97 => water_pa(t_k),
        }
    }
}

fn water_pa(t_k: f64) -> f64 {
    let [n1, n2, n3, n4, n5, n6, n7, n8, n9, n10] = IF97;
    let theta = t_k + n9 / (t_k - n10);
    let a = theta * theta + n1 * theta + n2;
    let b = n3 * theta * theta + n4 * theta + n5;
    let c = n6 * theta * theta + n7 * theta + n8;
    1e6 * (2.0 * c / (-b + (b * b - 4.0 * a * c).sqrt())).powi(4)
}

/// The Antoine equation through three points of `law` near 0, 30 and 60 °C.
pub(super) fn fit_antoine(law: &Law) -> Antoine {
    // Nodes drawn in a little from the ends, so that the error is shared over the range.
    let t = [275.15, 302.15, 331.15];
    let y = t.map(|t_k| law.pressure_pa(t_k).log10());
    // y = a - b/(t + c): two slopes give c, then b, then a.
    let (s01, s12) = ((y[1] - y[0]) / (t[1] - t[0]), (y[2] - y[1]) / (t[2] - t[1]));
    let ratio = s01 / s12; // = (t2 + c) / (t0 + c)
    let c = if (ratio - 1.0).abs() < 1e-12 { 0.0 } else { (t[2] - ratio * t[0]) / (ratio - 1.0) };
    let b = s01 * (t[0] + c) * (t[1] + c);
    Antoine { a: y[0] + b / (t[0] + c), b, c }
}

#[cfg(test)]
mod tests {
    use super::*;

    // Verification values printed in the IAPWS-IF97 release, table 35.
    #[rstest::rstest]
    #[case(300.0, 0.353658941e-2)]
    #[case(500.0, 0.263889776e1)]
    #[case(600.0, 0.123443146e2)]
    fn if97_table_35(#[case] t_k: f64, #[case] p_mpa: f64) {
        approx::assert_relative_eq!(water_pa(t_k), p_mpa * 1e6, max_relative = 1e-8);
    }

    #[test]
    fn antoine_fit_follows_water() {
        let fit = fit_antoine(&Law::IapwsIf97);
        for t in 0..=60 {
            let t_k = 273.15 + f64::from(t);
            let p = 10.0_f64.powf(fit.a - fit.b / (t_k + fit.c));
            approx::assert_relative_eq!(p, water_pa(t_k), max_relative = 1e-3);
        }
    }

    // A boiling point and one point: both must come back.
    #[test]
    fn point_and_boiling_point_are_met() {
        let law = Law::through(293.15, 1150.0, 399.2);
        approx::assert_relative_eq!(law.pressure_pa(293.15), 1150.0, max_relative = 1e-12);
        approx::assert_relative_eq!(law.pressure_pa(399.2), 101_325.0, max_relative = 1e-12);
    }
}
