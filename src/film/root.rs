//! Where does a curve cross zero? Regula falsi in the Illinois way: an end that stays twice counts half.

use crate::error::Result;

const ROUNDS: usize = 60;

/// The zero of `curve` between two abscissae with values of unlike sign, to within `close`; the end nearer to zero when the signs
/// are alike.
pub(super) fn crossing(
    [mut low, mut high]: [f64; 2],
    close: f64,
    curve: impl Fn(f64) -> Result<f64>,
) -> Result<f64> {
    let (mut at_low, mut at_high) = (curve(low)?, curve(high)?);
    if at_low * at_high >= 0.0 {
        return Ok(if at_low.abs() <= at_high.abs() { low } else { high });
    }
    let mut kept = 0_i8;
    for _ in 0..ROUNDS {
        let next = (low * at_high - high * at_low) / (at_high - at_low);
        let at = curve(next)?;
        let moved = if at * at_low > 0.0 {
            if kept == 1 {
                at_high *= 0.5;
            }
            kept = 1;
            let moved = (next - low).abs();
            (low, at_low) = (next, at);
            moved
        } else {
            if kept == -1 {
                at_low *= 0.5;
            }
            kept = -1;
            let moved = (next - high).abs();
            (high, at_high) = (next, at);
            moved
        };
        if at == 0.0 || moved < close || (high - low).abs() < close {
            return Ok(next);
        }
    }
    Ok(0.5 * (low + high))
}

#[cfg(test)]
mod tests {
    use super::crossing;

    #[test]
    fn finds_roots() {
        let two = crossing([0.0, 2.0], 1e-10, |x| Ok(x * x - 2.0)).unwrap();
        approx::assert_abs_diff_eq!(two, 2.0_f64.sqrt(), epsilon = 1e-9);
        let steep = crossing([-10.0, 10.0], 1e-10, |x| Ok(x.exp() - 1e-3)).unwrap();
        approx::assert_abs_diff_eq!(steep, 1e-3_f64.ln(), epsilon = 1e-8);
        approx::assert_abs_diff_eq!(crossing([1.0, 2.0], 1e-10, Ok).unwrap(), 1.0, epsilon = 0.0);
    }
}
