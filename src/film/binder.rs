//! What stays: how soft is the film with this much solvent in it, and how fast does the rest come through?
//!
//! **Softness.** The glass transition of the film by Fox, `1/Tg = Σ wᵢ/Tgᵢ` over binder and liquid: a solvent counts
//! with 0.66 of its melting point, water with 136 K. What is felt and pressed follows the distance `T − Tg`.
//!
//! **Resistance of the film.** Solvent must reach the surface first. In series with the air,
//! `1/K = 1/k + (c_gas/c_film)/k_f` with `k_f = (π²/4) D/h`, whose first-order rate is that of the slowest mode of a
//! sheet losing through one face, `π²D/4h²`. The diffusivity falls steeply as the film stiffens:
//! `log₁₀ D = log₁₀ D_g + b · 17.44 ΔT/(51.6 + ΔT)` with ΔT = T − Tg above the glass transition, a tenth of a decade per
//! kelvin below it, at most 1e-9 m2/s.
//!
//! Accuracy: `D_g` 1e-14 m2/s and b 0.37 are orders of magnitude from the literature of free volume, not fitted to
//! measured films; every time ruled by them carries a factor 3. Neglected: a skin that dries ahead of the rest, stress,
//! sorption into plastic below.

use super::polymer::{CHI_SOLVENT, CHI_WATER};
use crate::error::{Result, out_of_range};
use crate::estimate::{Estimate, ModelError};
use crate::quantity::{
    Density, Diffusivity, Number, Quantity, Ratio, Temperature, VolumeFraction, as_text, show,
};
use serde::{Deserialize, Serialize};

/// Glass transitions accepted, K: soft alkyds to hard engineering plastics.
const GLASS_K: (f64, f64) = (150.0, 500.0);
/// Standard uncertainty of a glass transition given as a bare temperature, K (source key `BINDER`).
const GLASS_STD_K: f64 = 10.0;
/// Density of a lacquer resin, kg/m3 (source key `BINDER`).
const DENSITY_KG_M3: f64 = 1180.0;
/// Diffusivity of a solvent at the glass transition, m2/s, and steepness above it (source key `FILM_DIFFUSION`).
const DIFFUSIVITY_AT_GLASS_M2_S: f64 = 1e-14;
const STEEPNESS: f64 = 0.37;
/// Universal constants of Williams, Landel and Ferry (source key `WLF`).
const WLF_1: f64 = 17.44;
const WLF_2_K: f64 = 51.6;
/// Decades of diffusivity per kelvin below the glass transition, and the most anywhere (source key `FILM_DIFFUSION`).
const DECADES_PER_K: f64 = 0.1;
const LARGEST_M2_S: f64 = 1e-9;

/// The binder of a coat that dries by losing solvent.
///
/// ```
/// use mistcoat::film::Binder;
/// use mistcoat::quantity::parse;
/// let hard = Binder::new(parse("50 °C")?)?.with_diffusivity_at_glass(parse("0.00000002 mm2/s")?)?;
/// assert!(Binder::new(parse("400 °C")?).is_err());
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Binder {
    glass_transition: Estimate<Temperature>,
    #[serde(with = "as_text")]
    density: Density,
    /// Binder in the solids, by volume; the rest is pigment.
    #[serde(with = "as_text")]
    share: Ratio,
    #[serde(with = "as_text")]
    diffusivity_at_glass: Diffusivity,
    #[serde(default = "usual_steepness")]
    steepness: f64,
    #[serde(default = "usual_chi")]
    chi: f64,
    #[serde(default = "usual_chi_of_water")]
    chi_of_water: f64,
}

fn usual_steepness() -> f64 {
    STEEPNESS
}

fn usual_chi() -> f64 {
    CHI_SOLVENT
}

fn usual_chi_of_water() -> f64 {
    CHI_WATER
}

impl Binder {
    /// A binder of this glass transition, taken to be known within 10 K; density 1.18 g/mL, no pigment.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 150 to 500 K.
    pub fn new(glass_transition: Temperature) -> Result<Self> {
        let std = [ModelError::new("glass transition of the binder", GLASS_STD_K)];
        Self::estimated(&Estimate::absolute(glass_transition, &std))
    }

    /// The same, with the interval of the glass transition.
    ///
    /// # Errors
    /// As [`Binder::new`].
    pub fn estimated(glass_transition: &Estimate<Temperature>) -> Result<Self> {
        if !(GLASS_K.0..=GLASS_K.1).contains(&glass_transition.best.si()) {
            return Err(out_of_range(
                "glass transition of the binder",
                show(glass_transition.best),
                format!(
                    "{} to {}",
                    show(Temperature::from_si(GLASS_K.0)),
                    show(Temperature::from_si(GLASS_K.1))
                ),
                "lacquer resins have 30 °C to 110 °C; see the data sheet of the resin",
            ));
        }
        Ok(Self {
            glass_transition: glass_transition.clone(),
            density: Density::from_si(DENSITY_KG_M3),
            share: Ratio::from_si(1.0),
            diffusivity_at_glass: Diffusivity::from_si(DIFFUSIVITY_AT_GLASS_M2_S),
            steepness: STEEPNESS,
            chi: CHI_SOLVENT,
            chi_of_water: CHI_WATER,
        })
    }

    /// The same binder with another density.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 0.7 to 2.5 g/mL.
    pub fn with_density(mut self, density: Density) -> Result<Self> {
        if !(700.0..=2500.0).contains(&density.si()) {
            return Err(out_of_range(
                "density of the binder",
                show(density),
                "0.7 g/mL to 2.5 g/mL",
                "resins have 1.0 g/mL to 1.3 g/mL; leave the pigment out",
            ));
        }
        self.density = density;
        Ok(self)
    }

    /// The same binder with pigment: its share of the volume of the dry film.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for more than 90 %.
    pub fn with_pigment(mut self, volume_concentration: VolumeFraction) -> Result<Self> {
        if volume_concentration.get() > 0.9 {
            return Err(out_of_range(
                "pigment volume concentration",
                volume_concentration.to_string(),
                "at most 90 %",
                "above that there is no film; gloss paints have 10 % to 25 %, matt ones 40 % to 60 %",
            ));
        }
        self.share = Ratio::from_si(1.0 - volume_concentration.get());
        Ok(self)
    }

    /// The same binder with a measured diffusivity of solvent at its glass transition.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 1e-18 to 1e-9 m2/s.
    pub fn with_diffusivity_at_glass(mut self, diffusivity: Diffusivity) -> Result<Self> {
        if !(1e-18..=LARGEST_M2_S).contains(&diffusivity.si()) {
            return Err(out_of_range(
                "diffusivity of solvent in the binder at its glass transition",
                format!("{:e} m2/s", diffusivity.si()),
                "1e-18 m2/s to 1e-9 m2/s",
                "1e-14 m2/s is the usual order; leave it out unless measured",
            ));
        }
        self.diffusivity_at_glass = diffusivity;
        Ok(self)
    }

    /// The same binder with another steepness of that diffusivity above the glass transition, as a share of the steepness
    /// of viscosity (the universal curve of Williams, Landel and Ferry); 0.37 unless called. Smaller: solvent diffuses almost as
    /// slowly in the soft binder as in the hard one.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 0.05 to 1.
    pub fn with_steepness(mut self, steepness: Number) -> Result<Self> {
        if !(0.05..=1.0).contains(&steepness.si()) {
            return Err(out_of_range(
                "steepness of diffusion in the binder",
                show(steepness),
                "0.05 to 1",
                "1 is as steep as viscosity; small solvent molecules have 0.3 to 0.6, leave it out unless fitted",
            ));
        }
        self.steepness = steepness.si();
        Ok(self)
    }

    /// The same binder with another interaction parameter χ of Flory and Huggins for its solvents; 0.4 unless called.
    /// From 0.5 on, a long polymer no longer mixes with the solvent in all proportions, which is not described here.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside −1 to 2.
    pub fn with_chi(mut self, chi: Number) -> Result<Self> {
        if !(-1.0..=2.0).contains(&chi.si()) {
            return Err(out_of_range(
                "interaction parameter of solvent and binder",
                show(chi),
                "-1 to 2",
                "good solvents have 0.2 to 0.5; above 0.5 the binder begins to come out",
            ));
        }
        self.chi = chi.si();
        Ok(self)
    }

    /// The same binder with another interaction parameter with water; 3 unless called, which leaves a hydrophobic binder
    /// 0.9 vol% of water at 50 % humidity. Water-loving binders (shellac, polyvinyl alcohol) have less.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 0 to 6.
    pub fn with_chi_of_water(mut self, chi: Number) -> Result<Self> {
        if !(0.0..=6.0).contains(&chi.si()) {
            return Err(out_of_range(
                "interaction parameter of water and binder",
                show(chi),
                "0 to 6",
                "acrylics have 2.5 to 3.5; 1 is a binder that swells in water",
            ));
        }
        self.chi_of_water = chi.si();
        Ok(self)
    }

    /// Binder as a share of the volume of solids; the rest is pigment.
    pub fn share(&self) -> Ratio {
        self.share
    }

    /// Diffusivity of solvent at the glass transition.
    pub fn diffusivity_at_glass(&self) -> Diffusivity {
        self.diffusivity_at_glass
    }

    /// Steepness of the diffusivity above the glass transition.
    pub fn steepness(&self) -> Number {
        Number::from_si(self.steepness)
    }

    /// Interaction parameter with solvents.
    pub fn chi(&self) -> Number {
        Number::from_si(self.chi)
    }

    /// Interaction parameter with water.
    pub fn chi_of_water(&self) -> Number {
        Number::from_si(self.chi_of_water)
    }

    /// Glass transition of the dry binder.
    pub fn glass_transition(&self) -> &Estimate<Temperature> {
        &self.glass_transition
    }

    /// Density of the binder.
    pub fn density(&self) -> Density {
        self.density
    }

    /// In raw numbers, for this much solids (m3/m2), with the glass transition moved and the diffusivity multiplied.
    pub(super) fn matter(&self, solids_m: f64, moved_k: f64, factor: f64) -> Matter {
        Matter {
            mass_kg_m2: solids_m * self.share.si() * self.density.si(),
            per_glass_k: 1.0 / (self.glass_transition.best.si() + moved_k),
            ln_diffusivity_at_glass: (self.diffusivity_at_glass.si() * factor).ln(),
            steepness: self.steepness,
        }
    }
}

/// The binder in a film, raw SI numbers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Matter {
    mass_kg_m2: f64,
    per_glass_k: f64,
    ln_diffusivity_at_glass: f64,
    steepness: f64,
}

/// How stiff a film is.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Stiffness {
    /// Glass transition of the film, K.
    pub(crate) glass_k: f64,
    /// Of binder and liquid, kg/m2.
    mass_kg_m2: f64,
}

impl Matter {
    /// From `(kg/m2, K)` of every species.
    pub(crate) fn stiffness(&self, liquids: impl Iterator<Item = (f64, f64)>) -> Stiffness {
        let (mut mass, mut sum) = (self.mass_kg_m2, self.mass_kg_m2 * self.per_glass_k);
        for (m, glass_k) in liquids {
            mass += m;
            sum += m / glass_k;
        }
        Stiffness { glass_k: mass / sum, mass_kg_m2: mass }
    }

    /// Logarithm of the diffusivity, m2/s, at this distance above the glass transition, and its slope.
    pub(crate) fn ln_diffusivity(&self, above_k: f64) -> (f64, f64) {
        let ln10 = core::f64::consts::LN_10;
        let (by, slope) = if above_k > 0.0 {
            let reach = WLF_2_K + above_k;
            (self.steepness * WLF_1 * above_k / reach, self.steepness * WLF_1 * WLF_2_K / (reach * reach))
        } else {
            (DECADES_PER_K * above_k, DECADES_PER_K)
        };
        let ln = self.ln_diffusivity_at_glass + ln10 * by;
        let most = LARGEST_M2_S.ln();
        if ln < most { (ln, ln10 * slope) } else { (most, 0.0) }
    }
}

impl Stiffness {
    /// Change of the glass transition per mass of a liquid with its own, K per kg/m2.
    pub(crate) fn per_mass(&self, glass_k: f64) -> f64 {
        -self.glass_k * self.glass_k * (1.0 / glass_k - 1.0 / self.glass_k) / self.mass_kg_m2
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::parse;

    // Worked from the cited equation: ΔT 0/10/21/40/55/100 K -> 1e-14, 1.1e-13, 7.4e-13, 6.6e-12, 2.1e-11, 1.8e-10.
    #[rstest::rstest]
    #[case(0.0, 1e-14)]
    #[case(10.0, 1.1e-13)]
    #[case(21.0, 7.4e-13)]
    #[case(40.0, 6.6e-12)]
    #[case(55.0, 2.1e-11)]
    #[case(100.0, 1.8e-10)]
    #[case(-20.0, 1e-16)]
    #[case(5000.0, 1e-9)]
    fn diffusivities(#[case] above: f64, #[case] expected: f64) {
        let matter = Binder::new(parse("50 °C").unwrap()).unwrap().matter(1e-5, 0.0, 1.0);
        approx::assert_relative_eq!(matter.ln_diffusivity(above).0.exp(), expected, max_relative = 0.05);
    }

    // Fox at 25 °C with n-butyl acetate (Tg 0.66 of 195 K): the film is 55 K above its glass transition at 28.6 mass per
    // cent of solvent for a resin of 105 °C, at 21.8 for one of 50 °C; glassy at 13.8 and 5.5 (worked, computed).
    #[rstest::rstest]
    #[case("105 °C", 0.286, 55.0)]
    #[case("50 °C", 0.218, 55.0)]
    #[case("105 °C", 0.138, 0.0)]
    #[case("50 °C", 0.055, 0.0)]
    fn softness(#[case] glass: &str, #[case] solvent: f64, #[case] above: f64) {
        let matter = Binder::new(parse(glass).unwrap()).unwrap().matter(1e-5, 0.0, 1.0);
        let resin = 1e-5 * DENSITY_KG_M3;
        let liquid = resin * solvent / (1.0 - solvent);
        let stiffness = matter.stiffness([(liquid, 0.66 * 195.0)].into_iter());
        approx::assert_abs_diff_eq!(298.15 - stiffness.glass_k, above, epsilon = 0.5);
        let more = matter.stiffness([(liquid * 1.000_001, 0.66 * 195.0)].into_iter());
        let slope = (more.glass_k - stiffness.glass_k) / (liquid * 1e-6);
        approx::assert_relative_eq!(stiffness.per_mass(0.66 * 195.0), slope, max_relative = 1e-4);
    }

    #[test]
    fn bad_binders() {
        let good = Binder::new(parse("50 °C").unwrap()).unwrap();
        let number = Number::from_si;
        let checks: [(Result<Binder>, [&str; 3]); 8] = [
            (good.clone().with_steepness(number(2.0)), ["2", "0.05 to 1", "viscosity"]),
            (good.clone().with_chi(number(f64::NAN)), ["NaN", "-1 to 2", "good solvents"]),
            (good.clone().with_chi(number(2.5)), ["2.5", "-1 to 2", "good solvents"]),
            (good.clone().with_chi_of_water(number(-1.0)), ["-1", "0 to 6", "acrylics"]),
            (Binder::new(parse("400 °C").unwrap()), ["400 °C", "226.9 °C", "data sheet"]),
            (good.clone().with_density(parse("8 g/mL").unwrap()), ["8 g/mL", "2.5 g/mL", "resins"]),
            (good.clone().with_pigment(VolumeFraction::new(0.95).unwrap()), ["95 %", "90 %", "matt"]),
            (
                good.clone().with_diffusivity_at_glass(Diffusivity::from_si(1.0)),
                ["1e0 m2/s", "1e-9 m2/s", "usual"],
            ),
        ];
        for (result, says) in checks {
            let text = result.unwrap_err().to_string();
            for part in says {
                assert!(text.contains(part), "no {part:?} in: {text}");
            }
        }
        let good = good.with_steepness(number(0.5)).unwrap().with_chi(number(0.3)).unwrap();
        let good = good.with_chi_of_water(number(2.0)).unwrap();
        let json = serde_json::to_string(&good).unwrap();
        assert_eq!(serde_json::from_str::<Binder>(&json).unwrap(), good);
    }
}
