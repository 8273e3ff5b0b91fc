//! A spray holds fine and coarse drops: how much of the paint is in each size?
//!
//! Shares are by volume, since volume is what lands. Two usual laws, both scaled so that their Sauter mean d32
//! (`1/d32 = Σ share/d`) is the given one:
//!
//! * **Rosin and Rammler**: share below d is `1 − exp(−(d/X)^q)`. With q 3, the default, the volume median is 1.2 times
//!   d32, the ratio that Simmons found for airblast and pressure nozzles alike. q 1.5 to 4 is seen;
//! * **log-normal** with a geometric standard deviation; aerosol of car paint had 2 to 3.
//!
//! The law is cut in few classes at the points of Gauss and Legendre on the square root of the cumulative share, which
//! resolves the fine drops that lose most.

use crate::error::{Result, out_of_range};
use crate::quantity::digits;
use serde::{Deserialize, Serialize};

/// Exponent of the default law (source key `SIMMONS`).
const USUAL_EXPONENT: f64 = 3.0;
/// Exponents for which the Sauter mean exists and that occur.
const EXPONENTS: (f64, f64) = (1.5, 20.0);
/// Geometric standard deviations that occur.
const DEVIATIONS: (f64, f64) = (1.01, 4.0);
/// Classes that may be asked for.
pub(crate) const CLASSES: (usize, usize) = (1, 99);

/// How drop sizes spread around their mean.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", try_from = "Record", into = "Record")]
pub enum SizeSpread {
    /// Rosin and Rammler with its exponent.
    RosinRammler(f64),
    /// Log-normal with its geometric standard deviation.
    LogNormal(f64),
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
enum Record {
    RosinRammler { exponent: f64 },
    LogNormal { geometric_standard_deviation: f64 },
}

impl From<SizeSpread> for Record {
    fn from(s: SizeSpread) -> Self {
        match s {
            SizeSpread::RosinRammler(exponent) => Self::RosinRammler { exponent },
            SizeSpread::LogNormal(g) => Self::LogNormal { geometric_standard_deviation: g },
        }
    }
}

impl TryFrom<Record> for SizeSpread {
    type Error = crate::error::Error;
    fn try_from(r: Record) -> Result<Self> {
        match r {
            Record::RosinRammler { exponent } => Self::RosinRammler(exponent).checked(),
            Record::LogNormal { geometric_standard_deviation: g } => Self::LogNormal(g).checked(),
        }
    }
}

impl Default for SizeSpread {
    fn default() -> Self {
        Self::RosinRammler(USUAL_EXPONENT)
    }
}

/// One class: diameter over the Sauter mean, and share of the volume.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Class {
    pub(crate) relative_diameter: f64,
    pub(crate) share: f64,
}

impl SizeSpread {
    /// The same when its number is usable.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for an exponent outside 1.5 to 20 or a deviation outside 1.01 to 4.
    pub fn checked(self) -> Result<Self> {
        let (what, value, (low, high), remedy) = match self {
            Self::RosinRammler(q) => (
                "Rosin-Rammler exponent of the drop sizes",
                q,
                EXPONENTS,
                "3 is usual, 1.5 a wide and 4 a narrow spray",
            ),
            Self::LogNormal(g) => (
                "geometric standard deviation of the drop sizes",
                g,
                DEVIATIONS,
                "aerosol of car paint has 2 to 3, one size alone 1.01",
            ),
        };
        if (low..=high).contains(&value) {
            return Ok(self);
        }
        Err(out_of_range(what, digits(value, 4), format!("{low} to {high}"), remedy))
    }

    /// Diameter below which this share of the volume lies, in some unit.
    fn quantile(self, share: f64) -> f64 {
        match self {
            Self::RosinRammler(q) => (-(-share).ln_1p()).powf(1.0 / q),
            Self::LogNormal(g) => (g.ln() * normal_quantile(share)).exp(),
        }
    }

    /// Classes from fine to coarse; their Sauter mean is 1 exactly.
    pub(crate) fn classes(self, count: usize) -> Vec<Class> {
        let mut classes: Vec<Class> = gauss_legendre(count)
            .into_iter()
            .map(|(root, weight)| Class {
                relative_diameter: self.quantile(root * root),
                share: 2.0 * root * weight,
            })
            .collect();
        let surface: f64 = classes.iter().map(|c| c.share / c.relative_diameter).sum();
        for class in &mut classes {
            class.relative_diameter *= surface;
        }
        classes
    }

    /// Diameter below which a share of the volume lies, over the Sauter mean; exact.
    pub(crate) fn relative_quantile(self, share: f64) -> f64 {
        let per_sauter = match self {
            // d32 = X/Γ(1 − 1/q).
            Self::RosinRammler(q) => gamma(1.0 - 1.0 / q),
            // d32 = D exp(−s²/2) with D the median.
            Self::LogNormal(g) => (0.5 * g.ln() * g.ln()).exp(),
        };
        per_sauter * self.quantile(share)
    }
}

/// Points and weights of Gauss and Legendre on 0 to 1, ascending (Newton on the recurrence).
fn gauss_legendre(count: usize) -> Vec<(f64, f64)> {
    let n = count as f64;
    let mut points: Vec<(f64, f64)> = (0..count)
        .map(|i| {
            let mut z = (core::f64::consts::PI * (i as f64 + 0.75) / (n + 0.5)).cos();
            let mut slope = 1.0;
            for _ in 0..20 {
                let (mut p, mut before) = (1.0, 0.0);
                for j in 0..count {
                    let j = j as f64;
                    (p, before) = (((2.0 * j + 1.0) * z * p - j * before) / (j + 1.0), p);
                }
                slope = n * (z * p - before) / (z * z - 1.0);
                let step = p / slope;
                z -= step;
                if step.abs() < 1e-15 {
                    break;
                }
            }
            (0.5 * (1.0 - z), 1.0 / ((1.0 - z * z) * slope * slope))
        })
        .collect();
    points.sort_by(|a, b| a.0.total_cmp(&b.0));
    points
}

/// Gamma function for 0 < x ≤ 1 by Lanczos (g 7, nine terms; source key `LANCZOS`).
fn gamma(x: f64) -> f64 {
    const TERMS: [f64; 8] = [
        676.520_368_121_885_1,
        -1_259.139_216_722_402_8,
        771.323_428_777_653_1,
        -176.615_029_162_140_6,
        12.507_343_278_686_905,
        -0.138_571_095_265_720_12,
        9.984_369_578_019_572e-6,
        1.505_632_735_149_311_6e-7,
    ];
    // Γ(x) = Γ(x + 1)/x; the sum is made for arguments above ½.
    let sum =
        TERMS.iter().enumerate().fold(0.999_999_999_999_809_9, |s, (i, c)| s + c / (x + (i + 1) as f64));
    let t = x + 7.5;
    (2.0 * core::f64::consts::PI).sqrt() * t.powf(x + 0.5) * (-t).exp() * sum / x
}

/// Quantile of the normal distribution: Abramowitz and Stegun 26.2.23 (source key `AS_QUANTILE`), within 4.5e-4, good
/// for a law whose deviation is known to a tenth.
fn normal_quantile(p: f64) -> f64 {
    let tail = if p < 0.5 { p } else { 1.0 - p };
    let t = (-2.0 * tail.ln()).sqrt();
    let z = t
        - (2.515_517 + t * (0.802_853 + t * 0.010_328))
            / (1.0 + t * (1.432_788 + t * (0.189_269 + t * 0.001_308)));
    if p < 0.5 { -z } else { z }
}

#[cfg(test)]
mod tests {
    use super::*;

    // Γ(½) = √π, Γ(⅔) = 1.354118, Γ(0.9) = 1.068629 (Abramowitz and Stegun, table 6.1).
    #[test]
    fn gamma_values() {
        approx::assert_relative_eq!(gamma(0.5), core::f64::consts::PI.sqrt(), max_relative = 1e-12);
        approx::assert_relative_eq!(gamma(2.0 / 3.0), 1.354_117_939, max_relative = 1e-8);
        approx::assert_relative_eq!(gamma(0.9), 1.068_628_702, max_relative = 1e-8);
    }

    // Two and three points of Gauss and Legendre, Abramowitz and Stegun, table 25.4.
    #[test]
    fn points_and_weights() {
        let [a, b] = gauss_legendre(2)[..] else { panic!() };
        approx::assert_relative_eq!(b.0 - a.0, 0.577_350_269_189_626, max_relative = 1e-12);
        let three = gauss_legendre(3);
        approx::assert_relative_eq!(three[1].1, 0.888_888_888_888_889 / 2.0, max_relative = 1e-12);
        approx::assert_relative_eq!(
            gauss_legendre(31).iter().map(|p| p.1).sum::<f64>(),
            1.0,
            max_relative = 1e-12
        );
    }

    // Simmons: mass median over Sauter mean 1.2 in airblast and pressure sprays; with q 3 it is 1.198.
    #[test]
    fn median_over_sauter_mean() {
        approx::assert_relative_eq!(SizeSpread::default().relative_quantile(0.5), 1.20, max_relative = 5e-3);
        // Log-normal, Hatch and Choate: ln d32 = ln MMD − ½ ln² GSD.
        approx::assert_relative_eq!(
            SizeSpread::LogNormal(2.0).relative_quantile(0.5),
            (0.5 * core::f64::consts::LN_2.powi(2)).exp(),
            max_relative = 1e-3
        );
    }

    #[rstest::rstest]
    #[case(SizeSpread::RosinRammler(1.5))]
    #[case(SizeSpread::default())]
    #[case(SizeSpread::LogNormal(2.5))]
    fn classes_keep_volume_and_surface(#[case] spread: SizeSpread) {
        for count in [1, 5, 7, 40] {
            let classes = spread.classes(count);
            assert_eq!(classes.len(), count);
            let volume: f64 = classes.iter().map(|c| c.share).sum();
            let surface: f64 = classes.iter().map(|c| c.share / c.relative_diameter).sum();
            approx::assert_relative_eq!(volume, 1.0, max_relative = 1e-12);
            approx::assert_relative_eq!(surface, 1.0, max_relative = 1e-12);
            assert!(classes.windows(2).all(|w| w[0].relative_diameter < w[1].relative_diameter));
        }
        // Few classes stand where the law does: what is left to correct is small.
        let points = gauss_legendre(7);
        let exact = spread.relative_quantile(points[3].0.powi(2));
        approx::assert_relative_eq!(spread.classes(7)[3].relative_diameter, exact, max_relative = 0.03);
    }

    #[test]
    fn bad_spreads() {
        for (spread, part) in [
            (SizeSpread::RosinRammler(1.0), "1.5 to 20"),
            (SizeSpread::RosinRammler(f64::NAN), "1.5 to 20"),
            (SizeSpread::LogNormal(0.5), "1.01 to 4"),
        ] {
            assert!(spread.checked().unwrap_err().to_string().contains(part));
        }
        let json = serde_json::to_string(&SizeSpread::LogNormal(2.0)).unwrap();
        assert_eq!(serde_json::from_str::<SizeSpread>(&json).unwrap(), SizeSpread::LogNormal(2.0));
        assert!(serde_json::from_str::<SizeSpread>(&json.replace("2.0", "9.0")).is_err());
    }
}
