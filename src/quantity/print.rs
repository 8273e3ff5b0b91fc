//! Prints a quantity in a unit people use, with as many digits as carry meaning.

use super::{Quantity, of, to};
use crate::error::Result;

/// So many significant digits, trailing zeros removed: `137.9`, `0.3`, `12300`, `1.2e-8`.
///
/// ```
/// use mistcoat::quantity::digits;
/// assert_eq!(digits(137.895, 3), "138");
/// assert_eq!(digits(0.30000001, 3), "0.3");
/// assert_eq!(digits(0.000_012_58, 3), "1.26e-5");
/// ```
pub fn digits(value: f64, significant: usize) -> String {
    if value == 0.0 || !value.is_finite() {
        return format!("{value}");
    }
    let rounded = format!("{value:.*e}", significant.saturating_sub(1));
    let (_, exponent) = rounded.split_once('e').unwrap_or((&rounded, "0"));
    let exponent: i32 = exponent.parse().unwrap_or(0);
    if !(-4..=6).contains(&exponent) {
        let (mantissa, _) = rounded.split_once('e').unwrap_or((&rounded, ""));
        return format!("{}e{exponent}", strip_zeros(mantissa));
    }
    let wanted = i32::try_from(significant).unwrap_or(3) - 1 - exponent;
    let decimals = usize::try_from(wanted.max(0)).unwrap_or(0);
    // Numbers above 10^significant keep their whole part: 1234 drops are not 1230 drops.
    strip_zeros(&format!("{value:.decimals$}")).to_owned()
}

fn strip_zeros(number: &str) -> &str {
    if number.contains('.') { number.trim_end_matches('0').trim_end_matches('.') } else { number }
}

/// The number and unit that give back this very value: the shortest decimal in the unit that suits the size, else the
/// SI number, which always does.
///
/// ```
/// use mistcoat::quantity::{exact_form, parse, Length};
/// assert_eq!(exact_form(parse::<Length>("25 µm")?), (25.0, "µm"));
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn exact_form<Q: Quantity>(q: Q) -> (f64, &'static str) {
    for unit in [suited_unit(q), Q::CUSTOMARY] {
        let number = to(q, unit).unwrap_or(f64::NAN);
        let short =
            [5, 9, 14].into_iter().filter_map(|digits| format!("{number:.digits$e}").parse::<f64>().ok());
        for candidate in short.chain([number]) {
            if of::<Q>(candidate, unit).is_ok_and(|back| back == q) {
                return (candidate, unit);
            }
        }
    }
    (q.si(), Q::UNITS[0].symbols[0])
}

/// The unit that suits the size.
fn suited_unit<Q: Quantity>(q: Q) -> &'static str {
    let size = q.si().abs();
    Q::PRINT.iter().rev().find(|(_, from)| size >= *from).map_or(Q::CUSTOMARY, |(unit, _)| *unit)
}

/// Prints with three significant digits in the unit that suits the size: `25 µm`, `0.3 mm`, `138 kPa`.
pub fn show<Q: Quantity>(q: Q) -> String {
    show_beside(q, q)
}

/// Prints as [`show`] does, in the unit that suits `beside`: the ends of an interval in the unit of its best value.
pub fn show_beside<Q: Quantity>(q: Q, beside: Q) -> String {
    show_in(q, suited_unit(beside), 3).unwrap_or_else(|_| format!("{} (SI)", q.si()))
}

/// Prints in the named unit with the given number of significant digits.
///
/// # Errors
/// A [`crate::error::UnitError`] when the unit is unknown or ambiguous.
pub fn show_in<Q: Quantity>(q: Q, unit: &str, significant: usize) -> Result<String> {
    let value = to(q, unit)?;
    // A temperature is read to a tenth of a degree whatever its size.
    let number = if Q::CLASS == "Temperature" && value.abs() < 1000.0 {
        strip_zeros(&format!("{value:.1}")).to_owned()
    } else {
        digits(value, significant)
    };
    let number = if number == "-0" { "0".to_owned() } else { number };
    Ok(if Q::CLASS == "Number" { number } else { format!("{number} {unit}") })
}
