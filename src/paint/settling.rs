//! How often must I stir the cup before the pigment sinks?
//!
//! Stokes' law for the grain, slowed by its neighbours as Richardson and Zaki measured:
//!
//! ```text
//! v = d² (ρp − ρ) g / (18 η),   v_hindered = v (1 − φ)^4.65
//! ```
//!
//! `d` is the diameter of the grain as it floats (a flocculate counts as one grain), `φ` the volume fraction
//! of pigment in the mix. The grain falls through the liquid between the grains, whose viscosity is taken as
//! that of the mix divided by Einstein's `1 + 2.5 φ`. Accuracy: the law itself is exact for spheres at these
//! Reynolds numbers; the diameter is seldom known within a factor of 2, so the time is seldom known within a
//! factor of 4, and the interval says so. Neglected: gel strength at rest (makes paints settle slower),
//! Brownian motion (matters below 0.5 µm), convection.

use crate::answer::Answer;
use crate::error::{Result, out_of_range};
use crate::estimate::{Estimate, Scale, propagate};
use crate::quantity::{
    Density, DynamicViscosity, Length, Quantity, Ratio, STANDARD_GRAVITY, Time, Velocity, VolumeFraction,
    digits, positive, show,
};
use crate::warning::Warning;
use crate::working::{Step, Working};
use serde::{Deserialize, Serialize};

/// Richardson-Zaki exponent at low Reynolds number.
const HINDERED_EXPONENT: f64 = 4.65;
/// Einstein's coefficient for spheres.
const EINSTEIN: f64 = 2.5;
/// Above this volume fraction neither relation holds.
const LARGEST_FRACTION: f64 = 0.4;
/// Below this diameter heat motion keeps grains afloat.
const BROWNIAN_M: f64 = 0.5e-6;
/// Stokes holds below this Reynolds number within 2 %.
const LARGEST_REYNOLDS: f64 = 0.1;

/// How pigment settles in a mix.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Settling {
    /// Speed of the grains; negative when they rise.
    pub velocity: Answer<Velocity>,
    /// Time to fall the given depth; the clear layer is that deep then.
    pub time: Answer<Time>,
}

/// Settling speed of pigment, and the time until a layer of the given depth is clear of it.
///
/// `pigment_fraction` is the volume of pigment per volume of mix, up to 40 %.
///
/// # Errors
/// A [`crate::error::RangeError`] for a diameter, depth or viscosity that is not positive, for pigment no denser
/// than the liquid (it does not sink), for more than 40 % pigment, and for grains so coarse that Stokes' law ends.
///
/// ```
/// use mistcoat::paint::settling;
/// use mistcoat::quantity::{parse, VolumeFraction};
/// use mistcoat::Estimate;
/// // Soil laboratories sample clay below 2 µm at 2.5 cm after about 2 h in water (Miller and Miller 1987).
/// let s = settling(
///     &Estimate::exact(parse("2 µm")?), &Estimate::exact(parse("2.65 g/mL")?), parse("0.9982 g/mL")?,
///     &Estimate::exact(parse("1.002 mPa.s")?), VolumeFraction::new(0.0)?, parse("25 mm")?,
/// )?;
/// let hours = s.time.best().value / 3600.0;
/// assert!((hours - 2.0).abs() < 0.1);
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn settling(
    pigment_diameter: &Estimate<Length>,
    pigment_density: &Estimate<Density>,
    liquid_density: Density,
    mix_viscosity: &Estimate<DynamicViscosity>,
    pigment_fraction: VolumeFraction,
    depth: Length,
) -> Result<Settling> {
    positive("pigment diameter", pigment_diameter.best)?;
    positive("liquid density", liquid_density)?;
    positive("viscosity of the mix", mix_viscosity.best)?;
    positive("depth", depth)?;
    let phi = pigment_fraction.get();
    if phi > LARGEST_FRACTION {
        return Err(out_of_range(
            "pigment volume fraction of the mix",
            show(Ratio::from(pigment_fraction)),
            "up to 40 %",
            "a paste this full does not settle grain by grain; thin it first",
        ));
    }
    if pigment_density.best <= liquid_density {
        return Err(out_of_range(
            "pigment density",
            show(pigment_density.best),
            format!("more than {} (the liquid)", show(liquid_density)),
            "pigment lighter than the liquid does not sink; check the two densities",
        ));
    }
    let hindered = (1.0 - phi).powf(HINDERED_EXPONENT) * (1.0 + EINSTEIN * phi);
    let speed = |d: f64, rho_p: f64, eta: f64| {
        d * d * (rho_p - liquid_density.si()) * STANDARD_GRAVITY / (18.0 * eta) * hindered
    };
    let best = speed(pigment_diameter.best.si(), pigment_density.best.si(), mix_viscosity.best.si());
    let reynolds = best * pigment_diameter.best.si() * liquid_density.si() / mix_viscosity.best.si();
    if reynolds > LARGEST_REYNOLDS {
        return Err(out_of_range(
            "Reynolds number of the sinking grain",
            digits(reynolds, 2),
            "up to 0.1",
            "Stokes' law ends here: such coarse grit sinks at once; strain the paint",
        ));
    }
    // In logarithms, so that a diameter known within a factor carries over as a factor.
    let inputs = [
        pigment_diameter.as_log_input("pigment diameter"),
        pigment_density.as_input("pigment density"),
        mix_viscosity.as_log_input("viscosity of the mix"),
    ];
    let least = f64::MIN_POSITIVE.sqrt();
    let velocity: Estimate<Velocity> =
        propagate(&inputs, &[], Scale::Log, |x| Ok(speed(x[0].exp(), x[1], x[2].exp()).max(least)))?;
    let time: Estimate<Time> = propagate(&inputs, &[], Scale::Log, |x| {
        Ok(depth.si() / speed(x[0].exp(), x[1], x[2].exp()).max(least))
    })?;
    let mut working = Working::new("Settling of the pigment");
    working.push(
        Step::new(
            "Stokes' law, hindered",
            "v = d² (ρp − ρ) g/(18 η) × (1 − φ)^4.65 (1 + 2.5 φ)",
            r"v = \frac{d^2(\rho_p-\rho)g}{18\,\eta}\,(1-\varphi)^{4.65}(1+2.5\,\varphi)",
        )
        .numbers(format!(
            "d {}, ρp {}, ρ {}, η {}, φ {}",
            show(pigment_diameter.best),
            show(pigment_density.best),
            show(liquid_density),
            show(mix_viscosity.best),
            digits(phi, 3)
        ))
        .result(velocity.to_string())
        .source("Stokes"),
    );
    working.push(
        Step::new("time to fall the depth", "t = depth/v", r"t = h/v")
            .numbers(format!("{} / {}", show(depth), show(velocity.best)))
            .result(time.to_string())
            .source("Richardson-Zaki-1954"),
    );
    let mut warnings = Vec::new();
    if pigment_diameter.best.si() < BROWNIAN_M {
        warnings.push(Warning::new(
            "settling-brownian",
            format!(
                "grains of {} are partly kept afloat by heat motion (below 0.5 µm); the real paint settles \
                 slower unless the grains clump: stir at this interval to be safe",
                show(pigment_diameter.best)
            ),
        ));
    }
    let velocity = Answer::new(velocity, working.clone()).with_warnings(warnings.iter().cloned());
    Ok(Settling { velocity, time: Answer::new(time, working).with_warnings(warnings) })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::parse;
    use rstest::rstest;

    fn exact<Q: Quantity>(text: &str) -> Estimate<Q> {
        Estimate::exact(parse(text).unwrap())
    }

    fn in_water(d: &str, depth: &str, phi: f64) -> Result<Settling> {
        settling(
            &exact(d),
            &exact("2.65 g/mL"),
            parse("0.9982 g/mL").unwrap(),
            &exact("1.002 mPa.s"),
            VolumeFraction::new(phi).unwrap(),
            parse(depth).unwrap(),
        )
    }

    // Soil pipette analysis at 20 °C, grains of 2.65 g/mL: 2 µm falls 10 cm in about 7.7 to 8 h, 20 µm in
    // about 4 min 40 s (laboratory manuals, from memory); 2 µm falls 2.5 cm in about 2 h (Miller and Miller
    // 1987, abstract, published).
    #[rstest]
    #[case("2 µm", "25 mm", 2.0 * 3600.0, 0.05)]
    #[case("2 µm", "10 cm", 7.85 * 3600.0, 0.02)]
    #[case("20 µm", "10 cm", 280.0, 0.02)]
    fn soil_laboratory_times(
        #[case] d: &str,
        #[case] depth: &str,
        #[case] seconds: f64,
        #[case] tolerance: f64,
    ) {
        let t = in_water(d, depth, 0.0).unwrap().time.best().si();
        assert!((t / seconds - 1.0).abs() < tolerance, "{t}");
    }

    // Richardson-Zaki at φ = 0.1 slows to 0.9^4.65 = 0.613 in the liquid's own viscosity; written with the
    // viscosity of the mix the factor is 0.613 × 1.25.
    #[test]
    fn neighbours_slow_the_grain() {
        let free = in_water("2 µm", "10 cm", 0.0).unwrap().velocity.best().si();
        let crowded = in_water("2 µm", "10 cm", 0.1).unwrap().velocity.best().si();
        approx::assert_relative_eq!(crowded / free, 0.612_7 * 1.25, max_relative = 1e-3);
    }

    #[test]
    fn a_diameter_within_a_factor_of_two_is_a_time_within_a_factor_of_four() {
        let d =
            Estimate::<Length> {
                low: parse("1 µm").unwrap(), high: parse("4 µm").unwrap(), ..exact("2 µm")
            };
        let s = settling(
            &d,
            &exact("2.65 g/mL"),
            parse("0.9982 g/mL").unwrap(),
            &exact("1.002 mPa.s"),
            VolumeFraction::new(0.0).unwrap(),
            parse("10 cm").unwrap(),
        )
        .unwrap();
        let t = s.time.estimate;
        approx::assert_relative_eq!(t.high.si() / t.best.si(), 4.0, max_relative = 0.01);
        assert_eq!(t.contributors[0].what, "pigment diameter");
    }

    #[rstest]
    #[case("2 µm", "10 cm", 0.5, "50 %", "40 %", "thin it first")]
    #[case("-2 µm", "10 cm", 0.0, "-2 µm", "above 0", "for example")]
    #[case("2 µm", "0 cm", 0.0, "depth is 0", "above 0", "for example")]
    #[case("0.5 mm", "10 cm", 0.0, "Reynolds", "0.1", "strain")]
    fn bad_input(
        #[case] d: &str,
        #[case] depth: &str,
        #[case] phi: f64,
        #[case] value: &str,
        #[case] limit: &str,
        #[case] remedy: &str,
    ) {
        let text = in_water(d, depth, phi).unwrap_err().to_string();
        assert!(text.contains(value) && text.contains(limit) && text.contains(remedy), "{text}");
    }
}
