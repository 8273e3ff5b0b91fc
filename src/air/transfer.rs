//! How fast does the air carry vapour and heat from a flat part?
//!
//! `J = k Δc`, `k = Sh D/L`. Three ways of transport add by their cubes:
//!
//! * **forced**, laminar plate: `Sh = 0.664 Re^½ Sc^⅓` (Pohlhausen); above Re 5e5
//!   `Sh = (0.037 Re^0.8 − 871) Sc^⅓`;
//! * **free**, part facing up, on `L* = area/perimeter = L/4`: vapour heavier than air drains over the rim,
//!   `Sh* = 0.27 Ra^¼`; lighter vapour (water) rises, `Sh* = 0.54 Ra^¼`, above Ra 1e7 `0.15 Ra^⅓`, with
//!   `Ra = g |Δρ/ρ| L*³/(ν D)` (McAdams);
//! * **still air**: a disc in gas at rest, `Sh = 8/π`.
//!
//! Heat goes the same way with the thermal diffusivity in place of D, plus radiation, about 5.4 W/(m2 K)
//! at room temperature for a painted surface.
//!
//! Accuracy: single correlations 10 to 20 %; in rooms the air speed itself is the larger unknown. One
//! constant in this law reproduces 37 published relative evaporation rates spread over a factor 400 within a
//! factor 1.17 (rms; 1.21 over the 14 seen in a source). Neglected: the high-flux correction of heat transfer, rims and undersides.

use super::Room;
use super::properties::{AIR_HEAT_CAPACITY, GRAVITY, conductivity_w_m_k, density_kg_m3, viscosity_pa_s};
use crate::error::{Result, out_of_range};
use crate::quantity::{Diffusivity, Length, Quantity, Ratio, Velocity, show};

/// Radiation of a painted surface near room temperature, `4 ε σ T³` with ε 0.9 at 25 °C, in W/(m2 K)
/// (source key `RADIATION`).
pub(crate) const RADIATION_W_M2_K: f64 = 5.4;
/// Reynolds number at which a smooth plate turns turbulent (source key `POHLHAUSEN`).
const TURBULENT_RE: f64 = 5e5;
/// Factors of free convection: heavy layer, light layer, light layer above [`TURBULENT_RA`] (source key `MCADAMS`).
const HEAVY: f64 = 0.27;
const LIGHT: f64 = 0.54;
const LIGHT_TURBULENT: f64 = 0.15;
const TURBULENT_RA: f64 = 1e7;
/// Density differences below this are drowned by any draught; it rounds the cusp of |Δρ|^¼ at zero.
const DENSITY_FLOOR: f64 = 1e-6;

/// Sherwood number of a plate in a stream (source key `POHLHAUSEN`).
pub fn sherwood_plate(reynolds: f64, schmidt: f64) -> f64 {
    let re = reynolds.max(0.0);
    if re < TURBULENT_RE {
        0.664 * re.sqrt() * schmidt.cbrt()
    } else {
        (0.037 * re.powf(0.8) - 871.0) * schmidt.cbrt()
    }
}

/// Sherwood number of free convection over a part facing up, on the length area/perimeter
/// (source key `MCADAMS`). `heavy`: the layer on the part is denser than the room.
pub fn sherwood_free(rayleigh: f64, heavy: bool) -> f64 {
    if heavy {
        HEAVY * rayleigh.powf(0.25)
    } else if rayleigh < TURBULENT_RA {
        LIGHT * rayleigh.powf(0.25)
    } else {
        LIGHT_TURBULENT * rayleigh.cbrt()
    }
}

/// Everything between one diffusivity and its transfer coefficient that does not change while a film dries.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Path {
    /// Forced and still-air part, cubed.
    base: f64,
    /// Rayleigh number at a density difference of 1.
    rayleigh: f64,
    /// Its power ¾.
    rayleigh_cubed_quarter: f64,
    /// `D/L`, or `k/L` for heat.
    per_sherwood: f64,
    /// Resistance of gas at rest before the moving air, s/m; zero over an open part.
    before: f64,
}

/// Brings a Sherwood number on `L* = L/4` to the length L, cubed.
const LENGTH_RATIO_CUBED: f64 = 64.0;

impl Path {
    /// The coefficient, and the exponent with which it follows the density difference.
    ///
    /// `difference_cubed_quarter` is the density difference to the power ¾: the quarter-power laws need no root
    /// of their own.
    fn coefficient(&self, heavy: bool, difference: f64, difference_cubed_quarter: f64) -> (f64, f64) {
        let (free_cubed, power) = if heavy {
            (HEAVY.powi(3) * self.rayleigh_cubed_quarter * difference_cubed_quarter, 0.25)
        } else if self.rayleigh * difference < TURBULENT_RA {
            (LIGHT.powi(3) * self.rayleigh_cubed_quarter * difference_cubed_quarter, 0.25)
        } else {
            (LIGHT_TURBULENT.powi(3) * self.rayleigh * difference, 1.0 / 3.0)
        };
        let free = LENGTH_RATIO_CUBED * free_cubed;
        let all = self.base + free;
        let coefficient = cube_root(all) * self.per_sherwood;
        if self.before > 0.0 {
            let moving = 1.0 / (1.0 + coefficient * self.before);
            return (coefficient * moving, power * free / all * moving);
        }
        (coefficient, power * free / all)
    }
}

/// Transfer coefficients of every species and of heat, in raw SI numbers for the drying engine.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct GasSide {
    species: Vec<Path>,
    heat: Path,
}

impl GasSide {
    /// For species of these diffusivities in air (m2/s, at the temperature and pressure of the room).
    pub(crate) fn new(room: &Room, length_m: f64, diffusivities_m2_s: &[f64]) -> Self {
        let (t, p) = (room.temperature().si(), room.pressure().si());
        let rho = density_kg_m3(t, p);
        let nu = viscosity_pa_s(t) / rho;
        let conductivity = conductivity_w_m_k(t);
        let thermal = conductivity / (rho * AIR_HEAT_CAPACITY);
        let reynolds = room.air_speed().si() * length_m / nu;
        let still = (8.0 / core::f64::consts::PI).powi(3);
        let l_star = length_m / 4.0;
        let path = |diffusivity: f64, transported: f64| {
            let rayleigh = GRAVITY * l_star.powi(3) / (nu * diffusivity);
            Path {
                base: sherwood_plate(reynolds, nu / diffusivity).powi(3) + still,
                rayleigh,
                rayleigh_cubed_quarter: rayleigh.powf(0.75),
                per_sherwood: transported / length_m,
                before: 0.0,
            }
        };
        Self {
            species: diffusivities_m2_s.iter().map(|&d| path(d, d)).collect(),
            heat: path(thermal, conductivity),
        }
    }

    /// The same under a column of gas at rest, as between a liquid and the rim of its pot: `1/k + H/D`. Heat also
    /// passes through the wall and by radiation, and is left as it is.
    pub(crate) fn below_rim(mut self, height_m: f64, diffusivities_m2_s: &[f64]) -> Self {
        for (path, diffusivity) in self.species.iter_mut().zip(diffusivities_m2_s) {
            path.before = height_m / diffusivity;
        }
        self
    }

    /// Writes the mass transfer coefficients (m/s) and returns that of heat with radiation (W/(m2 K)) for a
    /// relative density difference `(ρ_surface − ρ_room)/ρ_room`.
    pub(crate) fn coefficients(&self, density_difference: f64, k_m_s: &mut [f64]) -> f64 {
        let (heavy, size, size_cubed_quarter) = density_terms(density_difference);
        for (k, path) in k_m_s.iter_mut().zip(&self.species) {
            *k = path.coefficient(heavy, size, size_cubed_quarter).0;
        }
        self.heat.coefficient(heavy, size, size_cubed_quarter).0 + RADIATION_W_M2_K
    }

    /// Writes the relative change of each mass transfer coefficient per change of the density difference, and
    /// returns the change of the heat transfer coefficient, W/(m2 K).
    pub(crate) fn slopes(&self, density_difference: f64, relative: &mut [f64]) -> f64 {
        let (heavy, size, size_cubed_quarter) = density_terms(density_difference);
        let per_difference = density_difference / (size * size);
        for (slope, path) in relative.iter_mut().zip(&self.species) {
            *slope = path.coefficient(heavy, size, size_cubed_quarter).1 * per_difference;
        }
        let (h, power) = self.heat.coefficient(heavy, size, size_cubed_quarter);
        h * power * per_difference
    }
}

/// Cube root of a positive number of ordinary size, within 1e-12; a third of the time of a library's last digit.
///
/// A guess by a third of the exponent, within 5 %, then two steps of Halley's rule, each cubing the error.
fn cube_root(x: f64) -> f64 {
    /// Two thirds of the bias of the exponent, less what balances the error of the guess.
    const BIAS: u64 = 0x2A9F_7893_0000_0000;
    let mut root = f64::from_bits(x.to_bits() / 3 + BIAS);
    for _ in 0..2 {
        let cube = root * root * root;
        root *= (cube + 2.0 * x) / (2.0 * cube + x);
    }
    root
}

/// Whether the layer is heavier than the room, the size of the difference, and its power ¾.
fn density_terms(difference: f64) -> (bool, f64, f64) {
    let size = (difference * difference + DENSITY_FLOOR * DENSITY_FLOOR).sqrt();
    let root = size.sqrt();
    (difference > 0.0, size, root * root.sqrt())
}

/// Mass transfer coefficient over a flat part of this length, facing up.
///
/// `density_difference` is `(ρ_surface − ρ_room)/ρ_room` of the vapour-laden layer, positive for solvent
/// vapours (heavier than air); zero leaves free convection out.
///
/// # Errors
/// A [`crate::error::RangeError`] for a length outside 1 mm to 10 m, a diffusivity outside 1e-7 to 1e-3 m2/s,
/// or a density difference outside −1 to 10.
///
/// ```
/// use mistcoat::air::{Room, transfer::mass_transfer_coefficient};
/// use mistcoat::quantity::{parse, to, Quantity, Ratio, RelativeHumidity};
/// let room = Room::new(parse("25 °C")?, RelativeHumidity::new(0.5)?)?.with_air_speed(parse("0.2 m/s")?)?;
/// // n-butyl acetate vapour over a 100 mm part: 2.2 mm/s from the draught alone.
/// let k = mass_transfer_coefficient(&room, parse("100 mm")?, parse("7.22 mm2/s")?, Ratio::from_si(0.0))?;
/// assert!((to(k, "mm/s")? - 2.22).abs() < 0.01);
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn mass_transfer_coefficient(
    room: &Room,
    length: Length,
    diffusivity: Diffusivity,
    density_difference: Ratio,
) -> Result<Velocity> {
    check_length(length)?;
    if !(1e-7..=1e-3).contains(&diffusivity.si()) {
        return Err(out_of_range(
            "diffusivity in air",
            show(diffusivity),
            "0.1 mm2/s to 1000 mm2/s",
            "solvent vapours have 5 to 25 mm2/s",
        ));
    }
    if !(-1.0..=10.0).contains(&density_difference.si()) {
        return Err(out_of_range(
            "density difference",
            show(density_difference),
            "-100 % to 1000 %",
            "give (density at the surface - density of the room)/density of the room",
        ));
    }
    let mut k = [0.0];
    GasSide::new(room, length.si(), &[diffusivity.si()]).coefficients(density_difference.si(), &mut k);
    Ok(Velocity::from_si(k[0]))
}

pub(crate) fn check_length(length: Length) -> Result<()> {
    if (1e-3..=10.0).contains(&length.si()) {
        return Ok(());
    }
    Err(out_of_range(
        "part length",
        show(length),
        "1 mm to 10 m",
        "give the length of the part along the draught",
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{RelativeHumidity, parse};

    fn room(u: f64) -> Room {
        Room::new(parse("25 °C").unwrap(), RelativeHumidity::new(0.5).unwrap())
            .unwrap()
            .with_air_speed(Velocity::from_si(u))
            .unwrap()
    }

    // Worked numbers at 25 °C, L 0.1 m, u 0.2 m/s from the cited correlations (computed): Re 1289, Sh 30.8
    // at Sc 2.15; free convection on 0.025 m at Ra 6.6e4 gives Sh 4.32.
    #[test]
    fn worked_numbers() {
        approx::assert_relative_eq!(sherwood_plate(1289.0, 2.15), 30.8, max_relative = 2e-3);
        approx::assert_relative_eq!(sherwood_free(6.6e4, true), 4.32, max_relative = 3e-3);
        approx::assert_relative_eq!(sherwood_free(6.6e4, false), 8.65, max_relative = 3e-3);
    }

    // The form of the engine is the published one.
    #[rstest::rstest]
    #[case(0.05)]
    #[case(-0.02)]
    #[case(-0.9)]
    fn engine_form(#[case] difference: f64) {
        let mut k = [0.0];
        let length = 1.0;
        GasSide::new(&room(0.3), length, &[2.5e-5]).coefficients(difference, &mut k);
        let nu = viscosity_pa_s(298.15) / density_kg_m3(298.15, 101_325.0);
        let ra = GRAVITY * difference.abs() * (length / 4.0_f64).powi(3) / (nu * 2.5e-5);
        let free = 4.0 * sherwood_free(ra, difference > 0.0);
        let forced = sherwood_plate(0.3 * length / nu, nu / 2.5e-5);
        let sh = (free.powi(3) + forced.powi(3) + (8.0 / core::f64::consts::PI).powi(3)).cbrt();
        approx::assert_relative_eq!(k[0], sh * 2.5e-5 / length, max_relative = 1e-9);
    }

    proptest::proptest! {
        #[test]
        fn cube_roots(exponent in -12.0_f64..30.0) {
            let x = 10.0_f64.powf(exponent);
            approx::assert_relative_eq!(cube_root(x), x.cbrt(), max_relative = 1e-12);
        }
    }

    // Gas at rest in series: with the moving air out of the way, k = D/H; slopes as the difference quotient says.
    #[test]
    fn below_a_rim() {
        let d = 2.5e-5;
        let (open, deep) = (GasSide::new(&room(30.0), 0.02, &[d]), GasSide::new(&room(30.0), 0.02, &[d]));
        let deep = deep.below_rim(0.1524, &[d]);
        let at = |gas: &GasSide, difference: f64| {
            let mut k = [0.0];
            gas.coefficients(difference, &mut k);
            k[0]
        };
        approx::assert_relative_eq!(at(&deep, 0.01), d / 0.1524, max_relative = 2e-3);
        approx::assert_relative_eq!(
            1.0 / at(&deep, 0.01),
            1.0 / at(&open, 0.01) + 0.1524 / d,
            max_relative = 1e-12
        );
        let shallow = GasSide::new(&room(0.0), 0.05, &[d]).below_rim(0.005, &[d]);
        let mut slope = [0.0];
        shallow.slopes(0.05, &mut slope);
        let numeric = (at(&shallow, 0.0501) / at(&shallow, 0.0499)).ln() / 2e-4;
        approx::assert_relative_eq!(slope[0], numeric, max_relative = 1e-4);
    }

    // Both branches meet: plate at Re 5e5, light vapour at Ra 1e7 (published pieces meet within a few per cent).
    #[test]
    fn pieces_meet() {
        let (below, above) = (sherwood_plate(4.999e5, 1.0), sherwood_plate(5.001e5, 1.0));
        approx::assert_relative_eq!(below, above, max_relative = 0.02);
        approx::assert_relative_eq!(
            sherwood_free(9.999e6, false),
            sherwood_free(1.0001e7, false),
            max_relative = 0.08
        );
    }

    #[test]
    fn still_air_is_not_zero_and_a_draught_helps() {
        let k = |u: f64, drho: f64| {
            let mut k = [0.0];
            let h = GasSide::new(&room(u), 0.1, &[7.22e-6]).coefficients(drho, &mut k);
            (k[0], h)
        };
        // 8/π · D/L and 8/π · k/L + radiation, but for the rounded cusp at zero difference.
        let (still, h) = k(0.0, 0.0);
        assert!((1.838e-4..3.3e-4).contains(&still), "{still}");
        assert!((6.0..6.6).contains(&h), "{h}");
        assert!(k(0.2, 0.0).0 > still && k(0.0, 0.05).0 > still);
        // Rising vapour carries more than draining vapour.
        assert!(k(0.0, -0.05).0 > k(0.0, 0.05).0);
    }

    #[rstest::rstest]
    #[case("0.1 mm", "7 mm2/s", 0.0, ["100 µm", "1 mm to 10 m", "along the draught"])]
    #[case("100 mm", "7 m2/s", 0.0, ["7000000 mm2/s", "1000 mm2/s", "solvent vapours"])]
    #[case("100 mm", "7 mm2/s", f64::NAN, ["NaN", "1000 %", "density of the room"])]
    fn bad_input(#[case] l: &str, #[case] d: &str, #[case] drho: f64, #[case] says: [&str; 3]) {
        let text =
            mass_transfer_coefficient(&room(0.2), parse(l).unwrap(), parse(d).unwrap(), Ratio::from_si(drho))
                .unwrap_err()
                .to_string();
        for part in says {
            assert!(text.contains(part), "no {part:?} in: {text}");
        }
    }
}
