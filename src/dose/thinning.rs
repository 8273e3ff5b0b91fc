//! How far a paint is thinned, in whatever words: one number inside, the parts always named.

use crate::error::{Error, Result, out_of_range};
use crate::quantity::{Density, Mass, Quantity, Ratio, Volume, VolumeFraction, digits, positive, show};
use serde::{Deserialize, Serialize};

/// Parts of thinner and of paint; the field names keep them apart.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Parts {
    /// Parts of thinner.
    pub thinner: f64,
    /// Parts of paint.
    pub paint: f64,
}

/// Densities of thinner and paint, for ratios by mass.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Densities {
    /// Density of the thinner.
    pub thinner: Density,
    /// Density of the stock paint.
    pub paint: Density,
}

/// How far a paint is thinned: the paint fraction `x`, above 0 and up to 1 (undiluted).
///
/// ```
/// use mistcoat::dose::{Densities, Parts, Thinning};
/// use mistcoat::quantity::parse;
/// let half = Thinning::from_percent_of_paint(parse("50 %")?)?;     // 1 part thinner to 2 parts paint
/// let third = Thinning::from_percent_of_mix(parse("33.3333333333 %")?)?;
/// assert!((half.paint_fraction().get() - third.paint_fraction().get()).abs() < 1e-12);
/// // 1:1 by volume of a paint of 1.20 g/mL and a thinner of 0.87 g/mL is 1:0.725 by mass.
/// let even = Thinning::from_parts(Parts { thinner: 1.0, paint: 1.0 })?;
/// let d = Densities { thinner: parse("0.87 g/mL")?, paint: parse("1.20 g/mL")? };
/// assert!((even.thinner_per_paint_by_mass(d)? - 0.725).abs() < 1e-12);
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(try_from = "Record", into = "Record")]
pub struct Thinning {
    x: VolumeFraction,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    paint_fraction: f64,
}

impl TryFrom<Record> for Thinning {
    type Error = Error;
    fn try_from(r: Record) -> Result<Self> {
        Self::of(r.paint_fraction)
    }
}

impl From<Thinning> for Record {
    fn from(t: Thinning) -> Self {
        Self { paint_fraction: t.x.get() }
    }
}

/// Less paint than this, a drop in a lake, is a slip of the pen; it also keeps `1/x` in numbers.
const LEAST_PAINT: f64 = 1e-12;

impl Thinning {
    /// Undiluted paint.
    pub const NONE: Self = Self { x: VolumeFraction::ONE };

    fn of(x: f64) -> Result<Self> {
        if (LEAST_PAINT..=1.0).contains(&x) {
            return Ok(Self { x: VolumeFraction::new(x)? });
        }
        let remedy = "a mix holds some paint: write for example thinner=1, paint=2";
        let limit = "above 0 and up to 1 (and no less than 1e-12)";
        Err(out_of_range("paint fraction of the mix", digits(x, 4), limit, remedy))
    }

    /// From the share of stock paint in the volume of the mix.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] for zero: a mix holds some paint.
    pub fn from_paint_fraction(x: VolumeFraction) -> Result<Self> {
        Self::of(x.get())
    }

    /// From parts by volume.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] unless paint is above zero and thinner not negative, both finite.
    pub fn from_parts(parts: Parts) -> Result<Self> {
        check_parts(parts)?;
        Self::of(parts.paint / (parts.paint + parts.thinner))
    }

    /// From parts by mass.
    ///
    /// # Errors
    /// As for [`Thinning::from_parts`], and for a density that is not above zero.
    pub fn from_parts_by_mass(parts: Parts, densities: Densities) -> Result<Self> {
        check_parts(parts)?;
        let (thinner, paint) = densities.check()?;
        Self::from_parts(Parts { thinner: parts.thinner / thinner, paint: parts.paint / paint })
    }

    /// From two volumes.
    ///
    /// # Errors
    /// As for [`Thinning::from_parts`].
    pub fn from_volumes(thinner: Volume, paint: Volume) -> Result<Self> {
        Self::from_parts(Parts { thinner: thinner.si(), paint: paint.si() })
    }

    /// From two masses.
    ///
    /// # Errors
    /// As for [`Thinning::from_parts_by_mass`].
    pub fn from_masses(thinner: Mass, paint: Mass, densities: Densities) -> Result<Self> {
        Self::from_parts_by_mass(Parts { thinner: thinner.si(), paint: paint.si() }, densities)
    }

    /// From thinner as a share of the paint's volume: "thin by 20 %" of a data sheet. May exceed 100 %.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] for a share that is negative, infinite or NaN.
    pub fn from_percent_of_paint(thinner: Ratio) -> Result<Self> {
        check_share("thinner as a share of the paint", thinner, f64::INFINITY)?;
        Self::of(1.0 / (1.0 + thinner.si()))
    }

    /// From thinner as a share of the whole mix.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] outside 0 % to below 100 %.
    pub fn from_percent_of_mix(thinner: Ratio) -> Result<Self> {
        check_share("thinner as a share of the mix", thinner, 1.0)?;
        Self::of(1.0 - thinner.si())
    }

    /// From thinner as a share of the paint's mass.
    ///
    /// # Errors
    /// As for [`Thinning::from_percent_of_paint`], and for a density that is not above zero.
    pub fn from_percent_of_paint_by_mass(thinner: Ratio, densities: Densities) -> Result<Self> {
        check_share("thinner as a share of the paint's mass", thinner, f64::INFINITY)?;
        Self::from_parts_by_mass(Parts { thinner: thinner.si(), paint: 1.0 }, densities)
    }

    /// From thinner as a share of the mass of the mix.
    ///
    /// # Errors
    /// As for [`Thinning::from_percent_of_mix`], and for a density that is not above zero.
    pub fn from_percent_of_mix_by_mass(thinner: Ratio, densities: Densities) -> Result<Self> {
        check_share("thinner as a share of the mass of the mix", thinner, 1.0)?;
        Self::from_parts_by_mass(Parts { thinner: thinner.si(), paint: 1.0 - thinner.si() }, densities)
    }

    /// Reads words that name the parts: `"2 parts thinner to 1 part paint"`, `"thinner 2 : paint 1"`,
    /// `"paint:thinner 1:2"`, `"50 % of paint"`, `"33 % of mix"`.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] for a text that leaves open which number is the thinner, such as `"2:1"`
    /// or `"50 %"`, with both readings shown.
    ///
    /// ```
    /// use mistcoat::dose::Thinning;
    /// assert_eq!(Thinning::from_text("thinner:paint 2:1")?, Thinning::from_text("paint 1 : thinner 2")?);
    /// assert!(Thinning::from_text("50 %").unwrap_err().to_string().contains("of mix"));
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn from_text(text: &str) -> Result<Self> {
        super::text::read(text)
    }

    /// Share of stock paint in the volume of the mix.
    pub fn paint_fraction(&self) -> VolumeFraction {
        self.x
    }

    /// Share of thinner in the volume of the mix.
    pub fn percent_of_mix(&self) -> Ratio {
        Ratio::from_si(1.0 - self.x.get())
    }

    /// Thinner as a share of the paint's volume.
    pub fn percent_of_paint(&self) -> Ratio {
        Ratio::from_si(self.thinner_per_paint())
    }

    /// Volumes of thinner per volume of paint.
    pub fn thinner_per_paint(&self) -> f64 {
        (1.0 - self.x.get()) / self.x.get()
    }

    /// Masses of thinner per mass of paint.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] for a density that is not above zero.
    pub fn thinner_per_paint_by_mass(&self, densities: Densities) -> Result<f64> {
        let (thinner, paint) = densities.check()?;
        Ok(self.thinner_per_paint() * thinner / paint)
    }

    /// Share of thinner in the mass of the mix.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] for a density that is not above zero.
    pub fn percent_of_mix_by_mass(&self, densities: Densities) -> Result<Ratio> {
        let r = self.thinner_per_paint_by_mass(densities)?;
        Ok(Ratio::from_si(r / (1.0 + r)))
    }

    /// Thinner to add to a volume of stock paint.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] for a volume that is not above zero.
    pub fn thinner_for(&self, paint: Volume) -> Result<Volume> {
        Ok(Volume::from_si(positive("volume of paint", paint)? * self.thinner_per_paint()))
    }

    /// Thinning of a mix that is thinned once more.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] when no paint is left that a number can express.
    pub fn then(&self, again: Self) -> Result<Self> {
        Self::of(self.x.get() * again.x.get())
    }
}

impl core::fmt::Display for Thinning {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let r = self.thinner_per_paint();
        if r == 0.0 {
            return f.write_str("undiluted");
        }
        let parts = |n: f64, of: &str| {
            let number = digits(n, 3);
            if number == "1" { format!("1 part {of}") } else { format!("{number} parts {of}") }
        };
        if r >= 1.0 {
            write!(f, "{} to 1 part paint", parts(r, "thinner"))
        } else {
            write!(f, "1 part thinner to {}", parts(1.0 / r, "paint"))
        }
    }
}

impl Densities {
    fn check(self) -> Result<(f64, f64)> {
        Ok((positive("density of the thinner", self.thinner)?, positive("density of the paint", self.paint)?))
    }
}

fn check_parts(parts: Parts) -> Result<()> {
    let good = |x: f64, least: bool| x.is_finite() && (if least { x > 0.0 } else { x >= 0.0 });
    if !good(parts.paint, true) {
        let remedy = "write for example thinner=2, paint=1";
        return Err(out_of_range("parts of paint", parts.paint.to_string(), "above 0 and finite", remedy));
    }
    if !good(parts.thinner, false) {
        let remedy = "write for example thinner=2, paint=1; thinner=0 is undiluted paint";
        return Err(out_of_range(
            "parts of thinner",
            parts.thinner.to_string(),
            "0 or above, and finite",
            remedy,
        ));
    }
    Ok(())
}

fn check_share(what: &str, share: Ratio, below: f64) -> Result<()> {
    let s = share.si();
    if s >= 0.0 && s < below && s.is_finite() {
        return Ok(());
    }
    let (limit, remedy) = if below.is_finite() {
        ("0 % to below 100 %", "for more thinner than paint give it as a share of the paint, or as parts")
    } else {
        ("0 % or above, and finite", "write for example \"20 %\"")
    };
    Err(out_of_range(what, show(share), limit, remedy))
}
