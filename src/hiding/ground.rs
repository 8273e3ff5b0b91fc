//! What lies under the coat, and when it counts as hidden.

use super::gloss::Gloss;
use super::optics::Optics;
use crate::error::{Result, out_of_range};
use crate::quantity::{Length, Ratio, Reflectance, VolumeFraction, show};
use serde::{Deserialize, Serialize};

/// Reflectance of the white part of the standard card, ASTM D2805.
const CARD_WHITE: f64 = 0.80;
/// Contrast ratio at which a film counts as hiding, ISO 6504.
const HIDING: f64 = 0.98;
/// Scattering power beyond which every paint hides.
const MOST_POWER: f64 = 1e6;
/// Halvings of the bracket: more than a number has digits.
const HALVINGS: usize = 80;

/// The ground under a coat. Reflectances are as a meter reads them.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Ground {
    /// The black and white card of the standards: 0 and 80 %. Contrast is `R₀/R₀.₈₀`.
    Card,
    /// A ground with a darkest and a lightest part: filler on bare wood, a sanded primer.
    Patchy {
        /// Its darkest part.
        darkest: Reflectance,
        /// Its lightest part.
        lightest: Reflectance,
    },
    /// An even undercoat: the coat is compared with the same paint at full hiding.
    Undercoat(Reflectance),
}

/// When a film counts as hiding: the ratio of the darker to the lighter place.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(try_from = "f64", into = "f64")]
pub struct Criterion(f64);

impl Criterion {
    /// 0.98, the figure of ISO 6504. The eye sees a smaller contrast in one smooth field (Haslam 1930).
    pub const STANDARD: Self = Self(HIDING);

    /// Another ratio.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 50 % to 99.9 %.
    pub fn new(ratio: Ratio) -> Result<Self> {
        let si = crate::quantity::Quantity::si(ratio);
        if (0.5..=0.999).contains(&si) {
            return Ok(Self(si));
        }
        let remedy = "98 % is the figure of the standards; only an endless film hides completely";
        Err(out_of_range("contrast ratio to reach", show(ratio), "50 % to 99.9 %", remedy))
    }

    /// The ratio as a plain number.
    pub fn get(self) -> f64 {
        self.0
    }
}

impl TryFrom<f64> for Criterion {
    type Error = crate::error::Error;
    fn try_from(ratio: f64) -> Result<Self> {
        Self::new(crate::quantity::Quantity::from_si(ratio))
    }
}

impl From<Criterion> for f64 {
    fn from(c: Criterion) -> Self {
        c.0
    }
}

impl Ground {
    /// Contrast of a coat over this ground: the darker place over the lighter one, 1 when nothing shows.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a negative thickness, a patchy ground in the wrong order, or a
    /// reflectance that the surface cannot give.
    ///
    /// ```
    /// use mistcoat::hiding::{Ground, Optics};
    /// use mistcoat::quantity::{parse, Reflectance};
    /// let white = Optics::from_reflectivity(Reflectance::new(0.90)?, parse("0.10 1/µm")?)?;
    /// let contrast = Ground::Card.contrast(&white, parse("30 µm")?, None)?;
    /// assert!((contrast.get() - 0.8648).abs() < 2e-4);
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn contrast(
        &self,
        optics: &Optics,
        thickness: Length,
        gloss: Option<&Gloss>,
    ) -> Result<VolumeFraction> {
        use crate::quantity::{Quantity, not_negative};
        let sx = not_negative("film thickness", thickness)? * optics.scattering().si();
        VolumeFraction::new(self.prepared(gloss)?.contrast(optics, sx))
    }

    /// Thickness at which the contrast reaches `criterion`; zero when it does without a coat.
    ///
    /// # Errors
    /// As for [`Ground::contrast`].
    pub fn thickness(&self, optics: &Optics, criterion: Criterion, gloss: Option<&Gloss>) -> Result<Length> {
        Ok(optics.thickness(self.power(optics, criterion, gloss)?))
    }

    /// Scattering power `S X` at which the contrast reaches `criterion`. Contrast rises with it, so halving finds it.
    pub(super) fn power(&self, optics: &Optics, criterion: Criterion, gloss: Option<&Gloss>) -> Result<f64> {
        let ground = self.prepared(gloss)?;
        let hides = |sx: f64| ground.contrast(optics, sx) >= criterion.0;
        if hides(0.0) {
            return Ok(0.0);
        }
        let (mut low, mut high) = (0.0, 1e-3);
        while !hides(high) {
            if high > MOST_POWER {
                let remedy = "ask for a lower ratio";
                let got = criterion.0.to_string();
                return Err(out_of_range(
                    "contrast ratio to reach",
                    got,
                    "what this paint can reach",
                    remedy,
                ));
            }
            low = high;
            high *= 2.0;
        }
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(low, high);
            if hides(middle) {
                high = middle;
            } else {
                low = middle;
            }
        }
        Ok(high)
    }

    fn prepared<'a>(&self, gloss: Option<&'a Gloss>) -> Result<Prepared<'a>> {
        let inside = |r: Reflectance| gloss.map_or(Ok(r), |g| g.internal(r));
        let (dark, light) = match *self {
            // Bare black gives back nothing, whatever the meter counts beside it.
            Self::Card => (Reflectance::ZERO, Some(inside(super::optics::clipped(CARD_WHITE))?)),
            Self::Patchy { darkest, lightest } if darkest < lightest => {
                (inside(darkest)?, Some(inside(lightest)?))
            }
            Self::Patchy { darkest, lightest } => {
                return Err(out_of_range(
                    "darkest part of the ground",
                    darkest.to_string(),
                    format!("below {lightest}, its lightest part"),
                    "exchange them; an even ground is an undercoat",
                ));
            }
            Self::Undercoat(r) => (inside(r)?, None),
        };
        Ok(Prepared { dark, light, gloss })
    }
}

impl core::fmt::Display for Ground {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::Card => f.write_str("a black and white card"),
            Self::Patchy { darkest, lightest } => {
                write!(f, "a ground of {darkest} to {lightest} reflectance")
            }
            Self::Undercoat(r) => write!(f, "an undercoat of {r} reflectance"),
        }
    }
}

/// A ground without its surface.
struct Prepared<'a> {
    dark: Reflectance,
    light: Option<Reflectance>,
    gloss: Option<&'a Gloss>,
}

impl Prepared<'_> {
    fn contrast(&self, optics: &Optics, sx: f64) -> f64 {
        let read = |r: Reflectance| self.gloss.map_or(r, |g| g.measured(r)).get();
        let one = read(optics.over(sx, self.dark));
        let other = read(self.light.map_or_else(|| optics.reflectivity(), |light| optics.over(sx, light)));
        let (less, more) = if one < other { (one, other) } else { (other, one) };
        if more > 0.0 { less / more } else { 1.0 }
    }
}
