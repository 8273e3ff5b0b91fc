//! Fast, medium or slow? The two scales of relative evaporation rate, and how one turns into the other.
//!
//! The *rate* of ASTM D3539 sets n-butyl acetate to 1 and grows with speed. The *evaporation number* of DIN
//! 53170 sets diethyl ether to 1 and grows with time. They turn into each other by `number = c / rate`, with c
//! 11.5 for liquids without hydroxyl, 14.5 for simple alcohols, 24 for water, within 15 % (source `VD_E`): air
//! humidity and the paper differ between the tests.

use super::record::Keys;
use crate::error::{Result, out_of_range};
use crate::estimate::{Estimate, ModelError};
use crate::quantity::{Number, Quantity};
use serde::{Deserialize, Serialize};

/// Standard uncertainty of the change of scale: 15 % as the 95 % reach.
pub(super) const SCALE_STD: f64 = 0.075;

/// How fast, in words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum EvaporationClass {
    /// Rate above 3; number below 10.
    Fast,
    /// Rate 0.8 to 3; number 10 to 35.
    Medium,
    /// Rate below 0.8; number 35 to 50.
    Slow,
    /// Number above 50; the rate scale has no such class.
    VerySlow,
}

impl core::fmt::Display for EvaporationClass {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(match self {
            Self::Fast => "fast",
            Self::Medium => "medium",
            Self::Slow => "slow",
            Self::VerySlow => "very slow",
        })
    }
}

impl EvaporationClass {
    /// Class of a rate with n-butyl acetate = 1: above 3 fast, 0.8 to 3 medium, below 0.8 slow.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] for a rate that is not above zero.
    pub fn of_rate(rate: Number) -> Result<Self> {
        let e = positive(rate, "relative evaporation rate")?;
        Ok(if e > 3.0 {
            Self::Fast
        } else if e >= 0.8 {
            Self::Medium
        } else {
            Self::Slow
        })
    }

    /// Class of an evaporation number of DIN 53170, ether = 1: below 10, 10 to 35, 35 to 50, above 50.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] for a number that is not above zero.
    pub fn of_number(number: Number) -> Result<Self> {
        let n = positive(number, "evaporation number")?;
        Ok(if n < 10.0 {
            Self::Fast
        } else if n <= 35.0 {
            Self::Medium
        } else if n <= 50.0 {
            Self::Slow
        } else {
            Self::VerySlow
        })
    }
}

fn positive(q: Number, what: &str) -> Result<f64> {
    let value = q.si();
    if value.is_finite() && value > 0.0 {
        return Ok(value);
    }
    Err(out_of_range(what, format!("{value}"), "more than 0", "take it from the data sheet, with its scale"))
}

/// The families that differ in how the two scales compare.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ScaleFamily {
    /// No hydroxyl group, or one beside an ether or ketone group.
    Plain,
    /// An alcohol without other oxygen.
    Alcohol,
    /// Water.
    Water,
}

impl ScaleFamily {
    /// The product of rate and number.
    pub(super) const fn product(self) -> f64 {
        match self {
            Self::Plain => 11.5,
            Self::Alcohol => 14.5,
            Self::Water => 24.0,
        }
    }

    /// The evaporation number (ether = 1) of a rate (n-butyl acetate = 1), within 15 %.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] for a rate that is not above zero.
    ///
    /// ```
    /// use mistcoat::{quantity::{Number, Quantity}, solvent::ScaleFamily};
    /// let number = ScaleFamily::Plain.number_of_rate(Number::from_si(5.6))?; // acetone; DIN 53170 lists 2
    /// assert!(number.low.si() < 2.0 && 2.0 < number.high.si());
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn number_of_rate(self, rate: Number) -> Result<Estimate<Number>> {
        self.turned(positive(rate, "relative evaporation rate")?)
    }

    /// The rate (n-butyl acetate = 1) of an evaporation number (ether = 1), within 15 %.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] for a number that is not above zero.
    pub fn rate_of_number(self, number: Number) -> Result<Estimate<Number>> {
        self.turned(positive(number, "evaporation number")?)
    }

    #[allow(clippy::unnecessary_wraps, reason = "keeps the two callers one line each")]
    fn turned(self, value: f64) -> Result<Estimate<Number>> {
        let parts = [ModelError::new("change of evaporation scale", SCALE_STD)];
        Ok(Estimate::relative(Number::from_si(self.product() / value), &parts))
    }
}

/// The reference liquid of an evaporation scale.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum RateScale {
    /// Rate, n-butyl acetate = 1; a higher number is faster.
    #[serde(rename = "n-butyl acetate = 1")]
    ButylAcetate,
    /// Evaporation number of DIN 53170, diethyl ether = 1; a higher number is slower.
    #[serde(rename = "diethyl ether = 1")]
    Ether,
    /// Rate, 2-butoxyethanol = 1 (an early toxicology paper).
    #[serde(rename = "2-butoxyethanol = 1")]
    Butoxyethanol,
}

/// A relative evaporation rate as published.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PublishedRate {
    /// The number as printed.
    pub value: f64,
    /// The scale it was printed on.
    pub scale: RateScale,
    /// Whether it enters the consensus.
    #[serde(default = "yes")]
    pub used: bool,
    /// Where it stands.
    #[serde(default, skip_serializing_if = "Keys::is_empty")]
    pub source: Keys,
    /// Why it is or is not used, where that needs saying.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

const fn yes() -> bool {
    true
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::digits;

    // Class limits as printed in trade glossaries and DIN 53170.
    #[rstest::rstest]
    #[case(5.6, EvaporationClass::Fast)]
    #[case(3.0, EvaporationClass::Medium)]
    #[case(0.8, EvaporationClass::Medium)]
    #[case(0.79, EvaporationClass::Slow)]
    fn class_of_rate(#[case] rate: f64, #[case] class: EvaporationClass) {
        assert_eq!(EvaporationClass::of_rate(Number::from_si(rate)).unwrap(), class);
    }

    #[rstest::rstest]
    #[case(2.0, EvaporationClass::Fast)]
    #[case(11.0, EvaporationClass::Medium)]
    #[case(38.0, EvaporationClass::Slow)]
    #[case(163.0, EvaporationClass::VerySlow)]
    fn class_of_number(#[case] number: f64, #[case] class: EvaporationClass) {
        assert_eq!(EvaporationClass::of_number(Number::from_si(number)).unwrap(), class);
    }

    #[rstest::rstest]
    #[case(0.0)]
    #[case(-1.0)]
    #[case(f64::NAN)]
    #[case(f64::INFINITY)]
    fn no_class_of_nonsense(#[case] rate: f64) {
        let text = EvaporationClass::of_rate(Number::from_si(rate)).unwrap_err().to_string();
        assert!(text.contains("more than 0") && text.contains("data sheet"), "{text}");
    }

    // Pairs of both scales for one solvent: DIN 53170 numbers as tabulated by Brock, Groteklaes and Mischke
    // against rates of trade glossaries. 15 % is what the rule claims.
    #[rstest::rstest]
    #[case("acetone", 2.0, 5.6)]
    #[case("toluene", 6.1, 1.95)]
    #[case("MIBK", 7.0, 1.6)]
    #[case("2-butoxyethanol", 163.0, 0.072)]
    #[case("ethanol", 8.3, 1.65)]
    #[case("n-butanol", 33.0, 0.44)]
    #[case("water", 80.0, 0.3)]
    fn scales_turn(#[case] name: &str, #[case] number: f64, #[case] rate: f64) {
        let family = crate::solvent::find(name).unwrap().scale_family();
        let turned = family.rate_of_number(Number::from_si(number)).unwrap();
        assert!((turned.best.si() / rate - 1.0).abs() < 0.15, "{} for {name}", digits(turned.best.si(), 3));
    }
}
