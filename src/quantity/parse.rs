//! Reads `"20psi"`, `"0.3 mm"`, `"70 °F"`, `"-5 °C"`, `"1e-3 m2/s"`.

use super::{Quantity, of};
use crate::error::{Result, UnitError};

/// Reads a number followed by a unit; the space between them is optional.
///
/// # Errors
/// A [`UnitError`] that shows an example of the right form: no number, a decimal comma, no unit, an unknown or
/// ambiguous unit, or a number that is not finite.
///
/// ```
/// use mistcoat::quantity::{parse, show, Length, Temperature};
/// assert_eq!(show(parse::<Length>("0.3 mm")?), "0.3 mm");
/// assert_eq!(show(parse::<Temperature>("70 °F")?), "21.1 °C");
/// assert!(parse::<Length>("0.3").is_err());
/// assert!(parse::<Length>("0,3 mm").unwrap_err().to_string().contains("0.3 mm"));
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn parse<Q: Quantity>(text: &str) -> Result<Q> {
    let cleaned = text.trim().replace('\u{2212}', "-");
    let (number, unit) = cleaned.split_at(number_end(&cleaned));
    let value: f64 = number.parse().map_err(|_| {
        if matches!(cleaned.to_lowercase().get(..3), Some("nan" | "inf" | "-in")) {
            UnitError::NotFinite { dimension: Q::NAME, text: text.to_owned(), example: Q::EXAMPLE }
        } else {
            UnitError::NoNumber { dimension: Q::NAME, text: text.to_owned(), example: Q::EXAMPLE }
        }
    })?;
    if unit.strip_prefix(',').is_some_and(|rest| rest.starts_with(|c: char| c.is_ascii_digit())) {
        let (text, corrected) = (text.to_owned(), cleaned.replacen(',', ".", 1));
        return Err(UnitError::DecimalComma { dimension: Q::NAME, text, corrected }.into());
    }
    if unit.trim().is_empty() {
        return Err(
            UnitError::NoUnit { dimension: Q::NAME, text: text.to_owned(), example: Q::EXAMPLE }.into()
        );
    }
    of(value, unit)
}

/// Byte index where the number ends. An `e` belongs to it only when a digit or sign follows.
fn number_end(s: &str) -> usize {
    s.char_indices()
        .find(|&(i, c)| {
            let exponent = matches!(c, 'e' | 'E')
                && s[i + 1..].starts_with(|d: char| d.is_ascii_digit() || matches!(d, '+' | '-'));
            !(c.is_ascii_digit() || matches!(c, '.' | '+' | '-') || exponent)
        })
        .map_or(s.len(), |(i, _)| i)
}

/// One spelling for `m²/s`, `m^2/s` and `m2/s`; for `µm`, `μm` and `um`; for `mPa·s`, `mPa*s` and `mPa.s`.
/// Case stays, because `mPa` and `MPa` differ.
pub(super) fn fold_unit(symbol: &str) -> String {
    let mut out = String::with_capacity(symbol.len());
    for c in symbol.trim().chars() {
        match c {
            '²' => out.push('2'),
            '³' => out.push('3'),
            'µ' | 'μ' => out.push('u'),
            '·' | '*' | '⋅' => out.push('.'),
            '°' | 'º' => out.push_str("deg"),
            '^' => {}
            c if c.is_whitespace() => {
                if !out.ends_with(' ') {
                    out.push(' ');
                }
            }
            c => out.push(c),
        }
    }
    // `mPa s`, `mPa. s` and `m2 / s` are the same as the compact form; `US fl oz` keeps its spaces.
    out.replace(" / ", "/")
        .replace(" /", "/")
        .replace(". ", ".")
        .replace("Pa s", "Pa.s")
        .replace("deg ", "deg")
}
