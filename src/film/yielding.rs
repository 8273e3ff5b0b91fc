//! May a coat hang without sliding at all, because the paint stiffens at rest?
//!
//! Waterborne paints and enamels are made to: below a **yield stress** they do not flow. The shear in a coat is largest at the
//! wall, `ρ g h sin α`; a coat thinner than `h_y = τ_y/(ρ g sin α)` hangs, and in a thicker one the outer `h_y` rides as a plug on
//! what flows below (Bingham, as in Bird, Stewart and Lightfoot):
//!
//! ```text
//! u = ρ g sin α (h − h_y)²/(2 η),   0 where h ≤ h_y
//! ```
//!
//! Without a yield stress it is the Newtonian law ([`super::sag_speed`]). **To measure it**: lay stripes of rising thickness on a
//! card, hang it upright (ASTM D4400 does so); the thickest stripe that stays put is h_y. Paints that stiffen have 0.5 to
//! 5 Pa undiluted (common practice, from memory); none is taken unless given, as no family is known well enough.
//!
//! Thinning weakens it: with the third power of the share of solids (structures of touching particles, from memory, powers of
//! 2.5 to 4 are told).
//!
//! Neglected: the seconds in which a sheared paint is still thin before its structure is back (it slides more than told
//! then), and that drying raises the stress (less than told later). The same stress holds ripples lower than
//! `τ_y λ³/(8 π³ γ h)`; levelling is worked out without it and says so where that is much.

use crate::error::{Result, out_of_range};
use crate::quantity::{
    Density, Length, Pressure, Quantity, Ratio, STANDARD_GRAVITY, SurfaceTension, positive, show,
};

/// Most, Pa: more is a paste that no gun sprays.
const MOST_PA: f64 = 100.0;
/// Power of the share of solids (source key `YIELD_STRESS`).
const POWER: f64 = 3.0;

/// Thickest coat that hangs on a face without sliding: `τ_y/(ρ g sin α)`. `steepness` is the sine of the angle of the face to the
/// horizontal, above 0 to 1.
///
/// # Errors
/// A [`crate::error::RangeError`] for a yield stress outside 0 to 100 Pa, a density that is not above zero, or a level face.
///
/// ```
/// use mistcoat::film::hanging_thickness;
/// use mistcoat::quantity::{parse, to};
/// let stripe = hanging_thickness(parse("1 Pa")?, parse("1 g/mL")?, parse("100 %")?)?;
/// assert!((to(stripe, "µm")? - 102.0).abs() < 0.1); // 1/(1000 × 9.80665)
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn hanging_thickness(yield_stress: Pressure, density: Density, steepness: Ratio) -> Result<Length> {
    check_yield_stress(yield_stress)?;
    positive("density", density)?;
    super::levelling::check_steepness(steepness)?;
    positive("steepness of the face", steepness)?;
    Ok(Length::from_si(hanging_m(yield_stress.si(), density.si(), steepness.si())))
}

pub(super) fn hanging_m(yield_pa: f64, density_kg_m3: f64, steepness: f64) -> f64 {
    if yield_pa <= 0.0 { 0.0 } else { yield_pa / (density_kg_m3 * STANDARD_GRAVITY * steepness) }
}

/// The yield stress of a paint whose share of solids has changed by this factor.
pub(crate) fn thinned(yield_stress: Pressure, solids_over_stock: f64) -> Pressure {
    yield_stress * solids_over_stock.max(0.0).powf(POWER)
}

/// Height of the ripple that the stress just holds, from middle to crest.
pub(super) fn held_ripple(
    yield_stress: Pressure,
    tension: SurfaceTension,
    wavelength: Length,
    thickness: Length,
) -> Length {
    let k = core::f64::consts::TAU / wavelength.si();
    Length::from_si(yield_stress.si() / (tension.si() * k.powi(3) * thickness.si()))
}

pub(crate) fn check_yield_stress(yield_stress: Pressure) -> Result<()> {
    if (0.0..=MOST_PA).contains(&yield_stress.si()) {
        return Ok(());
    }
    Err(out_of_range(
        "yield stress of the paint",
        show(yield_stress),
        "0 Pa to 100 Pa",
        "paints that stiffen at rest have 0.5 Pa to 5 Pa; a stripe of 100 µm that hangs without sliding shows 1 Pa",
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::parse;

    // Worked: 0.25 Pa at 1 g/mL hang 25.5 µm upright and twice that at 30°.
    #[test]
    fn worked() {
        let hangs = |face: &str| {
            hanging_thickness(parse("0.25 Pa").unwrap(), parse("1 g/mL").unwrap(), parse(face).unwrap())
                .unwrap()
                .si()
        };
        approx::assert_relative_eq!(hangs("100 %"), 25.49e-6, max_relative = 1e-3);
        approx::assert_relative_eq!(hangs("50 %"), 2.0 * hangs("100 %"), max_relative = 1e-12);
        // Half the solids, an eighth of the stress.
        approx::assert_relative_eq!(thinned(Pressure::from_si(2.0), 0.5).si(), 0.25, max_relative = 1e-12);
        // The crest a = τ λ³/(8 π³ γ h) of 0.1 Pa, 2 mm, 25 mN/m, 40 µm: 3.2 µm.
        let held = held_ripple(
            Pressure::from_si(0.1),
            SurfaceTension::from_si(0.025),
            Length::from_si(2e-3),
            Length::from_si(40e-6),
        );
        approx::assert_relative_eq!(held.si(), 3.225e-6, max_relative = 1e-3);
    }

    #[rstest::rstest]
    #[case(-1.0)]
    #[case(f64::NAN)]
    #[case(101.0)]
    fn bad_stress(#[case] pa: f64) {
        let e = hanging_thickness(Pressure::from_si(pa), parse("1 g/mL").unwrap(), parse("100 %").unwrap());
        assert!(e.unwrap_err().to_string().contains("0 Pa to 100 Pa"));
        assert!(
            hanging_thickness(parse("1 Pa").unwrap(), parse("1 g/mL").unwrap(), parse("0 %").unwrap())
                .is_err()
        );
    }
}
