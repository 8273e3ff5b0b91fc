//! How strongly does the binder hold its solvent?
//!
//! Flory and Huggins for one (pooled) solvent in a long polymer: `a = φ exp(φ_p + χ φ_p²)` with φ the volume
//! fraction of solvent, `φ_p = 1 − φ`. Each species takes that factor on top of its activity among the
//! volatiles, with its own χ: 0.4 for a solvent of the binder, 3 for water in a hydrophobic binder (gives
//! 0.9 vol% of water at 50 % relative humidity). Example: φ 0.3, χ 0.4 gives 0.735.
//!
//! Pigment and filler count as polymer. The resistance of the film itself to diffusion is in [`super::binder`].

/// Interaction parameter of a solvent of the binder (source key `FLORY`).
pub(crate) const CHI_SOLVENT: f64 = 0.4;
/// Interaction parameter of water in a hydrophobic binder (source key `FLORY`).
pub(crate) const CHI_WATER: f64 = 3.0;
/// The exponent stays below this, so that χ cannot overflow it.
const LARGEST_EXPONENT: f64 = 5.0;

/// Activity of a solvent at volume fraction `phi` in the film, relative to the liquid by itself.
pub(crate) fn activity_factor(phi: f64, chi: f64) -> f64 {
    phi * exponent(phi, chi).exp()
}

/// `φ_p + χ φ_p²`.
pub(crate) fn exponent(phi: f64, chi: f64) -> f64 {
    let polymer = 1.0 - phi;
    (polymer + chi * polymer * polymer).min(LARGEST_EXPONENT)
}

/// Derivative of [`exponent`] by `phi`.
pub(crate) fn exponent_slope(phi: f64, chi: f64) -> f64 {
    let polymer = 1.0 - phi;
    if polymer + chi * polymer * polymer < LARGEST_EXPONENT { -1.0 - 2.0 * chi * polymer } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    // Worked from the cited equation: φ 0.3, χ 0.4 -> 0.3 exp(0.7 + 0.196); φ 0.1 -> 0.1 exp(0.9 + 0.324).
    #[rstest::rstest]
    #[case(1.0, CHI_SOLVENT, 1.0, 1e-12)]
    #[case(0.3, CHI_SOLVENT, 0.735, 5e-4)]
    #[case(0.1, CHI_SOLVENT, 0.340, 5e-4)]
    // Water at half its vapour pressure: 0.9 vol% in a hydrophobic binder.
    #[case(0.009, CHI_WATER, 0.46, 0.05)]
    fn worked_values(#[case] phi: f64, #[case] chi: f64, #[case] expected: f64, #[case] tolerance: f64) {
        approx::assert_abs_diff_eq!(activity_factor(phi, chi), expected, epsilon = tolerance);
    }
}
