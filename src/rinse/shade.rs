//! How much of the old colour may stay before the new one looks wrong?

use crate::error::{Result, out_of_range};
use crate::hiding::{HidingPower, Optics};
use crate::quantity::{OpticalCoefficient, Quantity, Ratio, Reflectance};
use serde::{Deserialize, Serialize};

/// Shades nearer in lightness than this differ by hue, which one reflectance cannot see; judgement.
const NEAR_LIGHTNESS: f64 = 30.0;
/// What such a pair is allowed: a hundredth; judgement.
const NEAR_SHARE: f64 = 0.01;
/// More of an old colour than this is never left in on purpose; judgement.
const MOST_SHARE: f64 = 0.2;
/// Smallest share looked for.
const LEAST_SHARE: f64 = 1e-8;
const HALVINGS: usize = 60;

/// A paint as the next colour sees it: how light it is, and how strongly it tints.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Record", into = "Record")]
pub struct Shade {
    name: String,
    /// As given; the optics would give it back but for its last digit.
    reflectivity: Reflectance,
    strength: f64,
    optics: Optics,
}

/// The form in files.
#[derive(Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    name: String,
    reflectivity: f64,
    strength: f64,
}

impl From<Shade> for Record {
    fn from(s: Shade) -> Self {
        Self { reflectivity: s.reflectivity().get(), strength: s.strength(), name: s.name }
    }
}

impl TryFrom<Record> for Shade {
    type Error = crate::error::Error;
    fn try_from(r: Record) -> Result<Self> {
        Self::new(&r.name, Reflectance::new(r.reflectivity)?, r.strength)
    }
}

impl Shade {
    /// From the luminous reflectance of a film that hides, and the tinting strength relative to the other paints:
    /// twice the strength moves a mix as twice the amount does. 1 for paints alike.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a reflectivity below 0.01 %, a strength outside 0.001 to 1000, or no name.
    pub fn new(name: &str, reflectivity: Reflectance, strength: f64) -> Result<Self> {
        if name.trim().is_empty() {
            let remedy = "name the colour, for example \"cream\"";
            return Err(out_of_range("name of a colour", "empty", "a name", remedy));
        }
        if !(1e-3..=1e3).contains(&strength) {
            let remedy = "compare equal drops in the same white; 1 for paints alike";
            return Err(out_of_range("tinting strength", strength.to_string(), "0.001 to 1000", remedy));
        }
        // Only the ratio of two strengths matters; the unit of S cancels.
        let optics =
            Optics::from_reflectivity(reflectivity, OpticalCoefficient::from_si(strength * STRENGTH_ONE))?;
        Ok(Self { name: name.trim().to_owned(), reflectivity, strength, optics })
    }

    /// From the hiding power of the paint: its scattering is its strength.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] when the record holds impossible values.
    pub fn of(paint: &HidingPower) -> Result<Self> {
        let optics = paint.optics()?;
        Self::new(paint.name(), optics.reflectivity(), optics.scattering().si() / STRENGTH_ONE)
    }

    /// A colour class of [`crate::hiding::ColourClass`].
    ///
    /// # Errors
    /// [`crate::error::UnknownName`] with near names.
    pub fn typical(class: &str) -> Result<Self> {
        Self::of(&HidingPower::typical(class)?)
    }

    /// The same shade under another name.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for an empty name.
    pub fn named(&self, name: &str) -> Result<Self> {
        Self::new(name, self.reflectivity(), self.strength())
    }

    /// Name of the colour.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Luminous reflectance of a film that hides.
    pub fn reflectivity(&self) -> Reflectance {
        self.reflectivity
    }

    /// Tinting strength relative to the other paints.
    pub fn strength(&self) -> f64 {
        self.strength
    }

    /// Lightness L* of a film that hides.
    pub fn lightness(&self) -> f64 {
        lightness(self.reflectivity())
    }

    /// Lightness of this paint with a share of another in it.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a share outside 0 to 1.
    pub fn lightness_with(&self, other: &Self, share: f64) -> Result<f64> {
        Ok(lightness(self.optics.mixed_with(&other.optics, share)?.reflectivity()))
    }

    /// Share of `old` in the fill of this paint that may stay. The mix is worked out with one K and one S a paint.
    ///
    /// Limits: one luminous reflectance stands for the colour, so a change of hue at one lightness is not seen; pairs
    /// nearer than 30 in L* are therefore held to 1 % (judgement). No pair is allowed more than 20 %.
    ///
    /// # Errors
    /// None in practice; the shares tried lie within 0 and 1.
    ///
    /// ```
    /// use mistcoat::{quantity::{Quantity, Reflectance}, rinse::{Shade, Tolerance}};
    /// let white = Shade::new("white", Reflectance::new(0.90)?, 1.0)?;
    /// let black = Shade::new("black", Reflectance::new(0.04)?, 1.0)?;
    /// let after_black = white.tolerates(&black, Tolerance::Perceptible)?;
    /// assert!((after_black.share.si() / 3.4e-4 - 1.0).abs() < 0.03);
    /// let after_white = black.tolerates(&white, Tolerance::Perceptible)?;
    /// assert!(after_white.share.si() > 200.0 * after_black.share.si());
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn tolerates(&self, old: &Self, tolerance: Tolerance) -> Result<Tolerated> {
        let limit = tolerance.difference();
        let clean = self.lightness();
        let difference = |share: f64| -> Result<f64> {
            let mixed = self.lightness_with(old, share)?;
            Ok((mixed - clean).abs() / tolerance.weight(f64::midpoint(mixed, clean)))
        };
        let mut low = LEAST_SHARE.ln();
        let mut high = 0.0;
        if difference(1.0)? > limit {
            for _ in 0..HALVINGS {
                let middle = f64::midpoint(low, high);
                if difference(middle.exp())? > limit {
                    high = middle;
                } else {
                    low = middle;
                }
            }
        } else {
            low = high;
        }
        let by_lightness = low.exp();
        let hue_may_show = (old.lightness() - clean).abs() < NEAR_LIGHTNESS;
        let cap = if hue_may_show { NEAR_SHARE } else { MOST_SHARE };
        Ok(Tolerated {
            share: Ratio::from_si(by_lightness.min(cap)),
            hue_may_show: hue_may_show && by_lightness > cap,
        })
    }
}

/// S of strength 1: 0.1 per micrometre, a white; any value would do.
const STRENGTH_ONE: f64 = 1e5;

/// What may stay of an old colour.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Tolerated {
    /// Share of the old paint in the fill of the new one.
    #[serde(with = "crate::quantity::as_text")]
    pub share: Ratio,
    /// The two are so near in lightness that hue decides; the share is then a judgement.
    pub hue_may_show: bool,
}

/// How large a colour difference may be. Half of the observers see, or accept, it (Paravina and others 2015, on dental
/// ceramics side by side, so indicative).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Tolerance {
    /// CIELAB 1.2: half see it.
    Perceptible,
    /// CIELAB 2.7: half accept it.
    Acceptable,
    /// CIEDE2000 0.8: half see it; lightness term only.
    PerceptibleCiede2000,
    /// CIEDE2000 1.8: half accept it; lightness term only.
    AcceptableCiede2000,
}

impl Tolerance {
    /// The difference.
    pub const fn difference(self) -> f64 {
        match self {
            Self::Perceptible => 1.2,
            Self::Acceptable => 2.7,
            Self::PerceptibleCiede2000 => 0.8,
            Self::AcceptableCiede2000 => 1.8,
        }
    }

    /// Words for a table.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Perceptible => "half of the observers would see it (CIELAB 1.2)",
            Self::Acceptable => "half of the observers would accept it (CIELAB 2.7)",
            Self::PerceptibleCiede2000 => {
                "half of the observers would see it (CIEDE2000 0.8, lightness only)"
            }
            Self::AcceptableCiede2000 => {
                "half of the observers would accept it (CIEDE2000 1.8, lightness only)"
            }
        }
    }

    /// `S_L` of CIEDE2000 at a mean lightness; 1 for CIELAB.
    fn weight(self, mean: f64) -> f64 {
        match self {
            Self::Perceptible | Self::Acceptable => 1.0,
            Self::PerceptibleCiede2000 | Self::AcceptableCiede2000 => {
                let d = (mean - 50.0).powi(2);
                1.0 + 0.015 * d / (20.0 + d).sqrt()
            }
        }
    }
}

/// CIE lightness L* of a luminous reflectance.
///
/// ```
/// use mistcoat::{quantity::Reflectance, rinse::lightness};
/// assert!((lightness(Reflectance::new(0.184)?) - 50.0).abs() < 0.05);
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn lightness(reflectance: Reflectance) -> f64 {
    /// Where the cube root gives way to a line, CIE 15.
    const KNEE: f64 = 216.0 / 24389.0;
    const SLOPE: f64 = 24389.0 / 27.0;
    let y = reflectance.get();
    if y > KNEE { 116.0 * y.cbrt() - 16.0 } else { SLOPE * y }
}
