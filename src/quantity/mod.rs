//! Values with units: which dimension, read from text as people write it, printed with sensible digits.
//!
//! The types are `uom` quantities in SI base units, so a length can never be passed for a volume. This
//! module adds what the bench needs on top: a table of the units in use for each dimension
//! ([`Quantity::UNITS`]), a parser ([`parse`]), a printer ([`show`]) and a form for files ([`as_text`]).
//! Conversion factors are the exact definitions of NIST Special Publication 811 (2008), appendix B.
//!
//! ```
//! use mistcoat::quantity::{parse, show, to, Pressure, Volume};
//! let p: Pressure = parse("20psi")?;
//! assert_eq!(show(p), "138 kPa");
//! assert!((to(p, "psi")? - 20.0).abs() < 1e-12);
//! // A bare fluid ounce is two different volumes; the error names both.
//! let e = parse::<Volume>("3 fl oz").unwrap_err();
//! assert!(e.to_string().contains("US fl oz"));
//! # Ok::<(), mistcoat::Error>(())
//! ```

pub mod as_text;
mod check;
mod dimensions;
mod fraction;
mod parse;
mod print;

pub use dimensions::{
    Area, Density, Diffusivity, DynamicViscosity, Frequency, KinematicViscosity, Length, Mass,
    MassConcentration, MassFlux, MolarEnergy, MolarMass, MolarVolume, Number, OpticalCoefficient, Pressure,
    Ratio, SolubilityParameter, SpreadingRate, SurfaceTension, Temperature, TemperatureDifference, Time,
    Velocity, Volume, VolumeRate,
};
pub use fraction::{Reflectance, RelativeHumidity, VolumeFraction};
pub use parse::parse;
pub use print::{digits, exact_form, show, show_beside, show_in};

pub(crate) use check::{not_negative, positive};
pub(crate) use dimensions::STANDARD_GRAVITY;

use crate::error::{Result, UnitError};

/// One unit of a dimension: `SI value = (number + offset) * factor`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// Spellings, the preferred one first. Superscripts and `µ` are folded before comparison.
    pub symbols: &'static [&'static str],
    /// SI value of one unit.
    pub factor: f64,
    /// Added to the number before the factor; zero except for temperatures.
    pub offset: f64,
}

/// A dimension: its name, its units, and the way to and from the SI number.
pub trait Quantity: Copy + PartialEq + PartialOrd + core::fmt::Debug + Send + Sync + 'static {
    /// What the dimension is called in messages, for example "kinematic viscosity".
    const NAME: &'static str;
    /// The name of the Python class and the word used in corrected calls.
    const CLASS: &'static str;
    /// A value that reads well in an error message, for example "35 s".
    const EXAMPLE: &'static str;
    /// All units understood; the first is the SI unit with factor 1.
    const UNITS: &'static [Unit];
    /// The unit the trade writes.
    const CUSTOMARY: &'static str;
    /// Units to print in, each from this SI magnitude upwards; ascending, the first from zero.
    const PRINT: &'static [(&'static str, f64)];
    /// Spellings that mean two things, with the readings to choose from.
    const AMBIGUOUS: &'static [(&'static str, &'static str)] = &[];

    /// From the number in SI base units.
    fn from_si(si: f64) -> Self;
    /// The number in SI base units.
    fn si(self) -> f64;
}

/// Finds a unit by any of its spellings.
///
/// # Errors
/// [`UnitError::Ambiguous`] for a spelling with two meanings, [`UnitError::UnknownUnit`] otherwise.
pub fn unit<Q: Quantity>(symbol: &str) -> Result<&'static Unit> {
    let symbol = symbol.trim();
    let wanted = parse::fold_unit(symbol);
    if let Some((_, choices)) = Q::AMBIGUOUS.iter().find(|(s, _)| *s == wanted) {
        return Err(UnitError::Ambiguous { dimension: Q::NAME, unit: symbol.to_owned(), choices }.into());
    }
    Q::UNITS.iter().find(|u| u.symbols.iter().any(|s| parse::fold_unit(s) == wanted)).ok_or_else(|| {
        let expected: Vec<&str> = Q::UNITS.iter().map(|u| u.symbols[0]).collect();
        UnitError::UnknownUnit {
            dimension: Q::NAME,
            unit: symbol.to_owned(),
            expected: expected.join(", "),
            example: Q::EXAMPLE,
        }
        .into()
    })
}

/// Builds a quantity from a number and a unit name.
///
/// # Errors
/// A [`UnitError`] when the unit is unknown or ambiguous, or the number is NaN or infinite.
///
/// ```
/// use mistcoat::quantity::{of, to, Temperature};
/// let t: Temperature = of(70.0, "°F")?;
/// assert!((to(t, "°C")? - 21.111_111).abs() < 1e-6);
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn of<Q: Quantity>(value: f64, symbol: &str) -> Result<Q> {
    let u = unit::<Q>(symbol)?;
    let si = (value + u.offset) * u.factor;
    if si.is_finite() {
        Ok(Q::from_si(si))
    } else {
        let text = format!("{value} {symbol}");
        Err(UnitError::NotFinite { dimension: Q::NAME, text, example: Q::EXAMPLE }.into())
    }
}

/// The number of `q` in the named unit.
///
/// # Errors
/// A [`UnitError`] when the unit is unknown or ambiguous.
pub fn to<Q: Quantity>(q: Q, symbol: &str) -> Result<f64> {
    let u = unit::<Q>(symbol)?;
    Ok(q.si() / u.factor - u.offset)
}

#[cfg(test)]
mod tests;
