//! What a meter reads above a glossy film, and what the film itself gives back.

use super::optics::clipped;
use crate::error::{Result, out_of_range};
use crate::quantity::Reflectance;
use serde::{Deserialize, Serialize};

/// Of light that falls straight on a binder of refractive index 1.5, this share is mirrored.
const MIRRORED: f64 = 0.04;
/// Of diffuse light inside such a binder, this share is thrown back at the surface.
const THROWN_BACK: f64 = 0.6;

/// The surface of a film after Saunderson: `R_m = k₁ + (1 − k₁)(1 − k₂) R/(1 − k₂ R)`.
///
/// Kubelka and Munk know no surface, so readings of a glossy film are turned into what the film would give
/// without one, and results are turned back. The mirrored light `k₁` is left out for meters that do not see it
/// (45°/0°, or sphere with the gloss trap open), which is how contrast ratios are read.
///
/// ```
/// use mistcoat::{hiding::Gloss, quantity::Reflectance};
/// let gloss = Gloss::typical();
/// let inside = gloss.internal(Reflectance::new(0.80)?)?;
/// assert!((inside.get() - 0.926).abs() < 1e-3);
/// assert!((gloss.measured(inside).get() - 0.80).abs() < 1e-12);
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Record", into = "Record")]
pub struct Gloss {
    mirrored: f64,
    thrown_back: f64,
    mirrored_is_seen: bool,
}

/// The form in files.
#[derive(Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    mirrored: f64,
    thrown_back: f64,
    mirrored_is_seen: bool,
}

impl From<Gloss> for Record {
    fn from(g: Gloss) -> Self {
        Self { mirrored: g.mirrored, thrown_back: g.thrown_back, mirrored_is_seen: g.mirrored_is_seen }
    }
}

impl TryFrom<Record> for Gloss {
    type Error = crate::error::Error;
    fn try_from(r: Record) -> Result<Self> {
        Self::new(Reflectance::new(r.mirrored)?, Reflectance::new(r.thrown_back)?, r.mirrored_is_seen)
    }
}

impl Gloss {
    /// A glossy film of refractive index 1.5, read without the mirrored light: k₁ 4 %, k₂ 60 % (from memory).
    pub const fn typical() -> Self {
        Self { mirrored: MIRRORED, thrown_back: THROWN_BACK, mirrored_is_seen: false }
    }

    /// From both constants; `mirrored_is_seen` for a meter that counts the mirrored light.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for k₁ of 20 % or more, or k₂ of 90 % or more: no binder does that.
    pub fn new(mirrored: Reflectance, thrown_back: Reflectance, mirrored_is_seen: bool) -> Result<Self> {
        let remedy = "4 % and 60 % serve for a glossy binder of refractive index 1.5";
        if mirrored.get() >= 0.2 {
            return Err(out_of_range("mirrored share k1", mirrored.to_string(), "below 20 %", remedy));
        }
        if thrown_back.get() >= 0.9 {
            return Err(out_of_range("thrown-back share k2", thrown_back.to_string(), "below 90 %", remedy));
        }
        Ok(Self { mirrored: mirrored.get(), thrown_back: thrown_back.get(), mirrored_is_seen })
    }

    /// Share of the light mirrored at right angles, k₁.
    pub const fn mirrored(&self) -> f64 {
        self.mirrored
    }

    /// Share of the light thrown back inside, k₂.
    pub const fn thrown_back(&self) -> f64 {
        self.thrown_back
    }

    /// Whether the meter counts the mirrored light.
    pub const fn mirrored_is_seen(&self) -> bool {
        self.mirrored_is_seen
    }

    /// What the meter reads above a film that gives back `internal`.
    pub fn measured(&self, internal: Reflectance) -> Reflectance {
        let (k1, k2, r) = (self.mirrored, self.thrown_back, internal.get());
        clipped(self.seen() + (1.0 - k1) * (1.0 - k2) * r / (1.0 - k2 * r))
    }

    /// What the film gives back, from the reading above it.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a reading that no film under this surface gives: below the mirrored
    /// share when that is seen, or above what a perfect white gives.
    pub fn internal(&self, measured: Reflectance) -> Result<Reflectance> {
        let least = clipped(self.seen());
        let most = self.measured(Reflectance::ONE);
        if !(least..=most).contains(&measured) {
            return Err(out_of_range(
                "measured reflectance",
                measured.to_string(),
                format!("{least} to {most} under this surface"),
                "say whether the meter counts the mirrored light, or leave the surface correction out for matt films",
            ));
        }
        let m = measured.get() - self.seen();
        Ok(clipped(m / ((1.0 - self.mirrored) * (1.0 - self.thrown_back) + self.thrown_back * m)))
    }

    fn seen(&self) -> f64 {
        if self.mirrored_is_seen { self.mirrored } else { 0.0 }
    }
}
