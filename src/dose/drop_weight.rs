//! Weight of a drop that falls from a tip: Tate's law with the correction of Harkins and Brown.
//!
//! `m g = 2π r γ f(r/V^(1/3))`: not the whole of the hanging drop falls. `f` is the fit of Lee, Chan and
//! Pogaku (2008), within 1.2 % of the values of Harkins and Brown from 0.30 to 1.20 and within 0.5 % from
//! 0.40 to 1.15. The start value is the explicit fit of Yildirim, Xu and Basaran (2005).

use crate::error::{Result, out_of_range};
use crate::quantity::digits;
use core::f64::consts::TAU;

/// Coefficients of f(x), x⁰ first. Source key `LEE2008`.
const LEE: [f64; 8] = [1.0, -0.9121, -2.109, 13.38, -27.29, 27.53, -13.58, 2.593];
/// The fit holds up to here.
const X_MAX: f64 = 1.2;
/// `ρ g r²/γ = 3.60 x^2.81`. Source key `YILDIRIM2005`.
const YILDIRIM: (f64, f64) = (3.60, 2.81);

/// Share of the ideal drop that falls, at `x = r/V^(1/3)`.
///
/// # Errors
/// [`crate::error::RangeError`] outside 0 to 1.2, where the fit was made.
///
/// ```
/// // Harkins and Brown 1919 as tabulated by Adamson: 0.6515 at 0.50.
/// assert!((mistcoat::dose::drop_factor(0.50)? / 0.6515 - 1.0).abs() < 0.005);
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn drop_factor(x: f64) -> Result<f64> {
    if (0.0..=X_MAX).contains(&x) {
        return Ok(factor(x));
    }
    Err(out_of_range(
        "tip radius over the cube root of the drop volume",
        digits(x, 3),
        "0 to 1.2",
        "use a narrower tip: from a wide one the drop no longer hangs as one body",
    ))
}

fn factor(x: f64) -> f64 {
    LEE.iter().rev().fold(0.0, |sum, c| sum * x + c)
}

/// `x = r/V^(1/3)` of the drop that falls, from `ρ g r²/γ`; then `V = (r/x)³`.
///
/// # Errors
/// [`crate::error::RangeError`] for a number that is not above zero, or beyond the range of the fit (a tip
/// wider than 14 mm for water, 9 mm for a solvent).
pub fn tip_ratio(gravity_over_tension: f64) -> Result<f64> {
    let wanted = gravity_over_tension;
    let balance = |x: f64| TAU * x.powi(3) * factor(x);
    if !(wanted > 0.0 && wanted <= balance(X_MAX)) {
        return Err(out_of_range(
            "gravity over surface tension at the tip (density × g × radius² / surface tension)",
            digits(wanted, 3),
            format!("above 0 and up to {}", digits(balance(X_MAX), 3)),
            "use a narrower tip: from a wide one the drop no longer hangs as one body",
        ));
    }
    // Newton from a start within a few percent, kept inside a bracket that shrinks.
    let (mut low, mut high) = (0.0, X_MAX);
    let mut x = (wanted / YILDIRIM.0).powf(1.0 / YILDIRIM.1).min(X_MAX);
    for _ in 0..60 {
        let miss = balance(x) - wanted;
        if miss > 0.0 {
            high = x;
        } else {
            low = x;
        }
        let slope = (balance(x * (1.0 + 1e-6)) - balance(x * (1.0 - 1e-6))) / (2e-6 * x);
        let newton = x - miss / slope;
        let next = if newton > low && newton < high { newton } else { 0.5 * (low + high) };
        if (next - x).abs() <= 1e-14 * x {
            return Ok(next);
        }
        x = next;
    }
    Ok(x)
}
