//! The wind of the vapour itself (Stefan flow): how much faster does it leave for pushing the air away?

/// `F = ln(1 + B)(1 + B)/B` for vapour mole fractions at the surface and in the room.
pub(crate) fn stefan_factor(surface: f64, room: f64) -> f64 {
    let b = (surface - room) / (1.0 - surface);
    let log_ratio = if b.abs() < 1e-5 { 1.0 - 0.5 * b } else { b.ln_1p() / b };
    log_ratio * (1.0 + b)
}

/// `d ln F/d surface` of [`stefan_factor`].
pub(super) fn stefan_slope(surface: f64, room: f64) -> f64 {
    let step = surface - room;
    if step.abs() < 1e-3 {
        return 0.5 / (1.0 - surface);
    }
    let log = ((1.0 - room) / (1.0 - surface)).ln();
    1.0 / ((1.0 - surface) * log) - 1.0 / step
}

#[cfg(test)]
mod tests {
    use super::*;

    // Acetone at 25 °C: y_s 0.303, F 1.19 (worked from the cited equation).
    #[test]
    fn stefan_factor_of_acetone() {
        approx::assert_relative_eq!(stefan_factor(0.303, 0.0), 1.19, max_relative = 2e-3);
        approx::assert_relative_eq!(stefan_factor(0.02, 0.02), 1.0, epsilon = 1e-12);
        // Both forms meet.
        approx::assert_relative_eq!(
            stefan_factor(0.99e-5, 0.0),
            stefan_factor(1.01e-5, 0.0),
            max_relative = 2e-7
        );
    }
}
