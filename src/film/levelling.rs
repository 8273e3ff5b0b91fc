//! How fast does a ripple in the wet coat go flat, and how fast does the coat slide down?
//!
//! **Levelling.** Surface tension pulls a ripple of wavelength λ flat; its amplitude falls as `exp(−∫ r dt)`. For a film of
//! any depth, slow flow, on a solid that does not slip (S. E. Orchard, Appl. Sci. Res. A11 (1962) 451):
//!
//! ```text
//! r = γ k/(2 η) · (sinh kh cosh kh − kh)/(cosh² kh + (kh)²),   k = 2π/λ
//! ```
//!
//! For a film thin beside the ripple this is `r = 16 π⁴ γ h³/(3 λ⁴ η)`: twice as thick levels eight times as fast, a ripple
//! twice as wide sixteen times as slowly. For a deep one it is `γ k/(2 η)`.
//!
//! **Sag.** On a face of angle α to the horizontal a wet coat of depth h moves at its surface with `ρ g h² sin α/(2 η)`.
//!
//! Both for a Newtonian liquid; a yield stress against sag may be given ([`super::hanging_thickness`]). Neglected: thixotropy, surface tension that
//! differs from place to place as solvent leaves (it drives ripples of its own), gravity on a level face (4 % at λ = 2 mm),
//! beads at edges.

use crate::error::Result;
use crate::quantity::{
    Density, DynamicViscosity, Frequency, Length, Quantity, Ratio, STANDARD_GRAVITY, SurfaceTension,
    Velocity, positive,
};

/// Below this kh the series is exact to the last digits that matter.
const THIN: f64 = 0.05;

/// Rate at which a ripple goes flat, 1/s: its amplitude falls as `exp(−rate × time)`. Film of any depth.
///
/// # Errors
/// A [`crate::error::RangeError`] for a value that is not above zero.
///
/// ```
/// use mistcoat::film::levelling_rate;
/// use mistcoat::quantity::parse;
/// let rate = levelling_rate(parse("25 mN/m")?, parse("100 mPa.s")?, parse("50 µm")?, parse("2 mm")?)?;
/// assert!((rate.value / 1.0 - 1.0).abs() < 0.05); // thin film: 16 π⁴ γ h³/(3 λ⁴ η) = 1.01 1/s
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn levelling_rate(
    surface_tension: SurfaceTension,
    viscosity: DynamicViscosity,
    thickness: Length,
    wavelength: Length,
) -> Result<Frequency> {
    positive("surface tension", surface_tension)?;
    positive("viscosity", viscosity)?;
    positive("film thickness", thickness)?;
    positive("wavelength", wavelength)?;
    Ok(Frequency::from_si(surface_tension.si() / viscosity.si() * mobility(thickness.si(), wavelength.si())))
}

/// Speed of the surface of a coat that runs down a face: `ρ g h² s/(2 η)`, with `s` the sine of the angle between the face and
/// the horizontal, 1 for an upright one.
///
/// # Errors
/// A [`crate::error::RangeError`] for a density, viscosity or thickness that is not above zero, or `s` outside 0 to 1.
///
/// ```
/// use mistcoat::film::sag_speed;
/// use mistcoat::quantity::{parse, to};
/// let speed = sag_speed(parse("1 g/mL")?, parse("100 mPa.s")?, parse("50 µm")?, parse("100 %")?)?;
/// assert!((to(speed, "mm/s")? - 0.1226).abs() < 1e-4); // 1000 × 9.80665 × (50e-6)²/(2 × 0.1) m/s
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn sag_speed(
    density: Density,
    viscosity: DynamicViscosity,
    thickness: Length,
    steepness: Ratio,
) -> Result<Velocity> {
    positive("density", density)?;
    positive("viscosity", viscosity)?;
    positive("film thickness", thickness)?;
    check_steepness(steepness)?;
    Ok(Velocity::from_si(steepness.si() * weight_flow(density.si(), thickness.si()) / viscosity.si()))
}

pub(super) fn check_steepness(steepness: Ratio) -> Result<()> {
    if (0.0..=1.0).contains(&steepness.si()) {
        return Ok(());
    }
    Err(crate::error::out_of_range(
        "steepness of the face",
        crate::quantity::show(steepness),
        "0 % (level) to 100 % (upright)",
        "give the sine of its angle to the horizontal: 50 % at 30°, 71 % at 45°, 100 % upright",
    ))
}

/// Rate times viscosity over surface tension, 1/m.
pub(super) fn mobility(thickness_m: f64, wavelength_m: f64) -> f64 {
    let k = core::f64::consts::TAU / wavelength_m;
    let x = k * thickness_m;
    let shape = if x < THIN {
        // (2/3) x³ + (2/15) x⁵ + ... over 1 + 2 x² + ...
        (x.powi(3) * 2.0 / 3.0 + x.powi(5) * 2.0 / 15.0 + x.powi(7) * 4.0 / 315.0)
            / (x.cosh().powi(2) + x * x)
    } else if x < 20.0 {
        (x.sinh() * x.cosh() - x) / (x.cosh().powi(2) + x * x)
    } else {
        1.0 // to the last digit
    };
    0.5 * k * shape
}

/// Speed times viscosity on an upright face, Pa m.
pub(super) fn weight_flow(density_kg_m3: f64, thickness_m: f64) -> f64 {
    0.5 * density_kg_m3 * STANDARD_GRAVITY * thickness_m * thickness_m
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::parse;

    // T. C. Patton, Paint Flow and Pigment Dispersion (2nd ed. 1979), levelling chapter, from memory: Orchard's thin film as
    // log10(a0/a) = 226 γ h³ t/(λ⁴ η) in any consistent units.
    #[test]
    fn constant_of_the_textbook() {
        let (gamma, eta, h, lambda) = (0.030, 0.5, 50e-6, 5e-3);
        let rate = gamma / eta * mobility(h, lambda);
        let textbook = 226.0 * gamma * h * h * h / (lambda.powi(4) * eta);
        approx::assert_relative_eq!(rate / core::f64::consts::LN_10, textbook, max_relative = 0.01);
    }

    // Worked: γ 25 mN/m, h 25 µm, λ 2 mm, η 20 mPa.s: 16 π⁴ × 0.025 × 1.5625e-14/(3 × 1.6e-11 × 0.02) = 0.6342 1/s.
    #[test]
    fn thin_film_worked() {
        let rate = 0.025 / 0.02 * mobility(25e-6, 2e-3);
        approx::assert_relative_eq!(rate, 0.6342, max_relative = 0.015);
        let thin = |h: f64, l: f64| 16.0 * core::f64::consts::PI.powi(4) * h.powi(3) / (3.0 * l.powi(4));
        approx::assert_relative_eq!(mobility(1e-6, 2e-3), thin(1e-6, 2e-3), max_relative = 1e-4);
    }

    // Orchard's two limits, and one curve across the place where series and closed form meet.
    #[test]
    fn deep_film_and_seam() {
        approx::assert_relative_eq!(mobility(1.0, 1e-3), core::f64::consts::PI / 1e-3, max_relative = 1e-12);
        let at = |x: f64| mobility(x * 1e-3 / core::f64::consts::TAU, 1e-3);
        approx::assert_relative_eq!(at(THIN * (1.0 - 1e-9)), at(THIN * (1.0 + 1e-9)), max_relative = 1e-7);
        approx::assert_relative_eq!(at(19.999), at(20.001), max_relative = 1e-12);
    }

    #[test]
    fn bad_input() {
        let nan = Length::from_si(f64::NAN);
        assert!(
            levelling_rate(parse("25 mN/m").unwrap(), parse("1 Pa.s").unwrap(), nan, parse("2 mm").unwrap())
                .is_err()
        );
        let e = sag_speed(
            parse("1 g/mL").unwrap(),
            parse("1 Pa.s").unwrap(),
            parse("50 µm").unwrap(),
            Ratio::from_si(1.2),
        );
        let text = e.unwrap_err().to_string();
        assert!(text.contains("120 %") && text.contains("upright"), "{text}");
    }
}
