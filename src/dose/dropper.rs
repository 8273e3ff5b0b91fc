//! How big is a drop? From the tip and the liquid, or weighed, or counted.
//!
//! ```text
//! ρ V g = 2π r γ f(r/V^(1/3))
//! ```
//!
//! `r` is the *outer* radius of a tip that the liquid wets, the radius of the bore when it does not
//! (a greasy plastic tip with water). See [`super::drop_factor`] for f.
//!
//! # How good it is
//!
//! The equation describes a drop that forms slowly on a clean, upright tip. Against published tables: drops
//! of water from rings below 3 mm within 3 % (a medical dropper of 3 mm gives 47.6 mg, inside the
//! pharmacopoeia's 45 to 55 mg), but 6 to 8 % too light from 3 to 8 mm and 13 % at 11 mm, because drops let
//! fall at a finite rate carry more: hence [`Dropper::by_hand`], which adds 5 %. From one glass dropper,
//! with the tip fitted to water: ammonia water 1 %, chloroform 4 %, dilute alcohol 5 %, turpentine 8 %, but
//! alcohol and ether 14 to 15 % too many drops, and glycerol 34 %, because a viscous neck does not break
//! where the theory has it break. So the interval is ±10 %, and ±35 % above 100 mPa s. A weighed dropper is
//! better than all of this: weigh 20 drops of your own liquid.

use super::counting::{DROP_SCATTER, LAST_DROP_STD};
use super::drop_weight::tip_ratio;
use crate::answer::Answer;
use crate::error::{Error, Result, out_of_range};
use crate::estimate::{Estimate, K95, ModelError};
use crate::quantity::{
    Density, DynamicViscosity, Length, Mass, Quantity, STANDARD_GRAVITY, SurfaceTension, Volume, as_text,
    digits, positive, show,
};
use crate::warning::Warning;
use crate::working::{Step, Working};
use serde::{Deserialize, Serialize};

/// Measured drops run about this much heavier than slow ones (comparison with Eschbaum's drops; see tests).
const HAND_FACTOR: f64 = 1.05;
/// Half-widths of the 95 % interval: solvents and water, and viscous liquids.
const REACH_THIN: f64 = 0.10;
const REACH_VISCOUS: f64 = 0.35;
/// Above this the theory does not hold (judgement between turpentine, 1.5 mPa s, and glycerol, 1400 mPa s).
const VISCOUS_PA_S: f64 = 0.1;
/// Reading of a kitchen or jeweller's scale, rectangular.
const SCALE_KG: f64 = 1e-5;
/// Reading of a small syringe or graduated pipette, standard uncertainty relative to the volume (judgement).
const SYRINGE_STD: f64 = 0.01;

/// A dropper, pipette or bottle tip.
///
/// ```
/// use mistcoat::dose::Dropper;
/// use mistcoat::quantity::{parse, to};
/// let tip = Dropper::tip(parse("3 mm")?)?;
/// let water = tip.drop_volume(parse("72.74 mN/m")?, parse("0.9982 g/mL")?, None)?;
/// assert!((to(water.best(), "uL")? - 47.7).abs() < 0.2);
/// let alcohol = tip.drop_volume(parse("22.4 mN/m")?, parse("0.789 g/mL")?, None)?;
/// assert!(to(alcohol.best(), "uL")? < 18.0);
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Record")]
pub struct Dropper {
    kind: Kind,
    by_hand: bool,
}

/// The form in files, before it is checked.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    kind: Kind,
    #[serde(default)]
    by_hand: bool,
}

impl TryFrom<Record> for Dropper {
    type Error = Error;

    fn try_from(r: Record) -> Result<Self> {
        match &r.kind {
            Kind::Tip(diameter) => positive("diameter of the tip", *diameter)?,
            Kind::Measured(volume) => positive("volume of a drop", volume.low)?,
        };
        Ok(Self { kind: r.kind, by_hand: r.by_hand })
    }
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
enum Kind {
    /// A drop hangs from a circle of this diameter.
    Tip(#[serde(with = "as_text")] Length),
    /// Weighed or counted with the liquid itself.
    Measured(Estimate<Volume>),
}

impl Dropper {
    /// A tip that the liquid wets, by its outer diameter: the usual case.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] for a diameter that is not above zero.
    pub fn tip(outer_diameter: Length) -> Result<Self> {
        positive("outer diameter of the tip", outer_diameter)?;
        Ok(Self { kind: Kind::Tip(outer_diameter), by_hand: false })
    }

    /// A tip that the liquid does not wet, by the diameter of its bore.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] for a diameter that is not above zero.
    pub fn unwetted_tip(bore: Length) -> Result<Self> {
        positive("bore of the tip", bore)?;
        Ok(Self { kind: Kind::Tip(bore), by_hand: false })
    }

    /// The tip that gives this drop of this liquid: time-honoured with water, then used for other liquids.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] for values that are not above zero, or a drop that no tip within the
    /// range of the theory gives.
    pub fn tip_from_drop(drop: Volume, surface_tension: SurfaceTension, density: Density) -> Result<Self> {
        let v = positive("volume of a drop", drop)?;
        let gamma = positive("surface tension", surface_tension)?;
        let rho = positive("density", density)?;
        let volume = |r: f64| {
            Ok::<f64, crate::Error>((r / tip_ratio(rho * STANDARD_GRAVITY * r * r / gamma)?).powi(3))
        };
        // The drop grows with the tip; the widest tip is where the theory ends.
        let (mut low, mut high) = (1e-6, (7.0 * gamma / (rho * STANDARD_GRAVITY)).sqrt());
        if !(volume(low)?..=volume(high)?).contains(&v) {
            return Err(out_of_range(
                "volume of a drop",
                show(drop),
                format!(
                    "{} to {}",
                    show(Volume::from_si(volume(low)?)),
                    show(Volume::from_si(volume(high)?))
                ),
                "count the drops again; one drop of water from a medical dropper is about 0.05 mL",
            ));
        }
        for _ in 0..100 {
            let middle = 0.5 * (low + high);
            if volume(middle)? < v {
                low = middle;
            } else {
                high = middle;
            }
        }
        Self::tip(Length::from_si(low + high))
    }

    /// Drops weighed together: `v = m/(N ρ)`. Good for that liquid only.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] for zero drops or values that are not above zero.
    ///
    /// ```
    /// use mistcoat::{dose::Dropper, quantity::{parse, show}};
    /// let d = Dropper::weighed(20, parse("0.41 g")?, parse("0.88 g/mL")?)?;
    /// assert_eq!(show(d.measured().unwrap().best), "23.3 µL");
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn weighed(drops: u32, mass: Mass, density: Density) -> Result<Self> {
        let n = count(drops)?;
        let (m, rho) = (positive("mass of the drops", mass)?, positive("density", density)?);
        if m < SCALE_KG {
            return Err(out_of_range(
                "mass of the drops",
                show(mass),
                format!("at least {} (what the scale is read to)", show(Mass::from_si(SCALE_KG))),
                "weigh 20 drops or more together",
            ));
        }
        let parts = [
            ModelError::new("scatter of the drops", DROP_SCATTER / n.sqrt()),
            ModelError::new("reading of the scale", SCALE_KG / 12.0_f64.sqrt() / m),
        ];
        Ok(Self::from_measured(Estimate::relative(Volume::from_si(m / rho / n), &parts)))
    }

    /// Drops counted into a graduated syringe or cylinder: `v = V/N`. Good for that liquid only.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] for zero drops or a volume that is not above zero.
    pub fn counted(drops: u32, volume: Volume) -> Result<Self> {
        let n = count(drops)?;
        let v = positive("volume of the drops", volume)?;
        let parts = [
            ModelError::new("scatter of the drops", DROP_SCATTER / n.sqrt()),
            ModelError::new("last drop", LAST_DROP_STD / n),
            ModelError::new("reading of the syringe", SYRINGE_STD),
        ];
        Ok(Self::from_measured(Estimate::relative(Volume::from_si(v / n), &parts)))
    }

    fn from_measured(volume: Estimate<Volume>) -> Self {
        Self { kind: Kind::Measured(volume), by_hand: false }
    }

    /// Drops let fall by hand at about one a second, 5 % heavier than slow ones. No effect on a measured
    /// dropper.
    #[must_use]
    pub fn by_hand(self) -> Self {
        Self { by_hand: true, ..self }
    }

    /// The drop of a weighed or counted dropper; `None` for a tip, whose drop depends on the liquid.
    pub fn measured(&self) -> Option<&Estimate<Volume>> {
        match &self.kind {
            Kind::Measured(v) => Some(v),
            Kind::Tip(_) => None,
        }
    }

    /// Diameter of the circle from which the drop hangs; `None` for a measured dropper.
    pub fn tip_diameter(&self) -> Option<Length> {
        match &self.kind {
            Kind::Tip(d) => Some(*d),
            Kind::Measured(_) => None,
        }
    }

    /// Volume of one drop of a liquid.
    ///
    /// A tip uses the theory, ±10 % at 95 %; above 100 mPa s ±35 % with the warning `drop-viscous`. A
    /// measured dropper gives what was measured, whatever the liquid.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] for values that are not above zero, or a tip too wide for a hanging drop.
    pub fn drop_volume(
        &self,
        surface_tension: SurfaceTension,
        density: Density,
        viscosity: Option<DynamicViscosity>,
    ) -> Result<Answer<Volume>> {
        let gamma = positive("surface tension", surface_tension)?;
        let rho = positive("density", density)?;
        let diameter = match &self.kind {
            Kind::Measured(v) => {
                let mut w = Working::new("Volume of a drop");
                w.push(Step::new("as measured", "v = V/N", r"v = V/N").result(show(v.best)));
                return Ok(Answer::new(v.clone(), w));
            }
            Kind::Tip(d) => *d,
        };
        let r = diameter.si() / 2.0;
        let balance = rho * STANDARD_GRAVITY * r * r / gamma;
        let x = tip_ratio(balance)?;
        let slow = (r / x).powi(3);
        let volume = if self.by_hand { slow * HAND_FACTOR } else { slow };
        let eta = viscosity.map(|e| positive("viscosity", e)).transpose()?;
        let viscous = eta.is_some_and(|e| e > VISCOUS_PA_S);
        let reach = if viscous { REACH_VISCOUS } else { REACH_THIN };
        let part = ModelError::new(format!("drop weight theory (±{:.0} %)", 100.0 * reach), reach / K95);
        let estimate = Estimate::relative(Volume::from_si(volume), &[part]);
        let mut working = Working::new(format!("Volume of a drop from a tip of {}", show(diameter)));
        working.push(
            Step::new("gravity over surface tension", "G = ρ g r²/γ", r"G = \frac{\rho g r^2}{\gamma}")
                .numbers(format!(
                    "{} × 9.807 × ({} mm)²/{}",
                    show(density),
                    digits(r * 1e3, 3),
                    show(surface_tension)
                ))
                .result(digits(balance, 3)),
        );
        working.push(
            Step::new(
                "how far the drop necks before it falls: solve for x = r/V^(1/3)",
                "2π x³ f(x) = G",
                r"2\pi x^3 f(x) = G",
            )
            .result(format!("x = {}", digits(x, 3)))
            .source("LEE2008"),
        );
        working.push(
            Step::new("volume of the drop", "V = (r/x)³", r"V = (r/x)^3")
                .numbers(format!("({} mm/{})³", digits(r * 1e3, 3), digits(x, 3)))
                .result(show(Volume::from_si(slow)))
                .source("HARKINS1919"),
        );
        if self.by_hand {
            working.push(
                Step::new("let fall by hand", "V × 1.05", r"1.05\,V")
                    .result(show(estimate.best))
                    .source("ESCHBAUM1895"),
            );
        }
        let warning = eta.filter(|_| viscous).map(|e| {
            Warning::new(
                "drop-viscous",
                format!(
                    "a liquid of {}, above 100 mPa.s, falls in drops up to 35 % larger than the theory says: \
                     weigh 20 drops instead",
                    show(DynamicViscosity::from_si(e))
                ),
            )
        });
        Ok(Answer::new(estimate, working).with_warnings(warning))
    }
}

fn count(drops: u32) -> Result<f64> {
    if drops > 0 {
        return Ok(f64::from(drops));
    }
    Err(out_of_range("number of drops", "0", "at least 1", "weigh or count 20 drops"))
}
