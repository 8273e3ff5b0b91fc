//! Passes and paint: from the film that hides to the gun and the bottle.

use super::ground::{Criterion, Ground};
use super::power::HidingPower;
use crate::answer::Answer;
use crate::dose::{Thinning, practical_spreading_rate, spreading_rate};
use crate::error::{Result, out_of_range};
use crate::estimate::{Estimate, Scale, propagate};
use crate::quantity::{
    Area, Length, Number, Quantity, Ratio, SpreadingRate, Velocity, Volume, VolumeFraction, VolumeRate,
    digits, positive, show,
};
use crate::warning::Warning;
use crate::working::{Step, Working};
use serde::{Deserialize, Serialize};

/// Above this many passes an undercoat or less thinner is the better plan; judgement.
const MANY_PASSES: f64 = 12.0;
/// No count above this is worth printing.
const MOST: f64 = 1e6;

/// Passes until the ground no longer shows.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Passes {
    /// The film that hides over the film of one pass; not rounded.
    pub number: Answer<Number>,
    /// Whole passes at the best value; none when the undercoat already looks the same.
    pub whole: u32,
    /// Whole passes at the low end of the range.
    pub fewest: u32,
    /// Whole passes at the high end.
    pub most: u32,
    /// Dry film that hides.
    pub thickness: Estimate<Length>,
}

/// Dry film left by one pass: wet film times the volume solids of the mix.
///
/// # Errors
/// A [`crate::error::RangeError`] for a film that is not above zero, or solids outside 0 to 100 %.
pub fn dry_film_per_pass(
    wet: &Estimate<Length>,
    solids_of_mix: &Estimate<Ratio>,
) -> Result<Estimate<Length>> {
    positive("wet film per pass", wet.best)?;
    solids(solids_of_mix)?;
    let inputs = [wet.as_log_input("wet film per pass"), solids_of_mix.as_log_input("volume solids")];
    propagate(&inputs, &[], Scale::Log, |x| Ok((x[0] + x[1]).exp()))
}

/// Dry film left by one pass of a spray: `Q VS η/(w v)`, paint flow, volume solids of the mix, the share that lands,
/// width of the swath and speed of the gun. Even over the swath; a real one is thicker in the middle.
///
/// # Errors
/// A [`crate::error::RangeError`] for a flow, width or speed that is not above zero.
///
/// ```
/// use mistcoat::hiding::dry_film_of_spray;
/// use mistcoat::quantity::{parse, show, VolumeFraction};
/// let film = dry_film_of_spray(
///     parse("0.5 mL/min")?, VolumeFraction::new(0.15)?, VolumeFraction::new(0.6)?, parse("20 mm")?, parse("50 mm/s")?)?;
/// assert_eq!(show(film), "0.75 µm");
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn dry_film_of_spray(
    flow: VolumeRate,
    solids_of_mix: VolumeFraction,
    share_that_lands: VolumeFraction,
    swath: Length,
    speed: Velocity,
) -> Result<Length> {
    let q = positive("flow of the mix", flow)? * solids_of_mix.get() * share_that_lands.get();
    let film = q / (positive("width of the swath", swath)? * positive("speed of the gun", speed)?);
    positive("dry film of a pass", Length::from_si(film)).map(Length::from_si)
}

fn solids(share: &Estimate<Ratio>) -> Result<f64> {
    let vs = VolumeFraction::try_from(share.best)?.get();
    if vs > 0.0 {
        return Ok(vs);
    }
    let remedy = "take the volume solids from the data sheet, for example \"35 %\"";
    Err(out_of_range("volume solids", show(share.best), "above 0 %", remedy))
}

impl HidingPower {
    /// Passes until the ground no longer shows, each leaving this dry film.
    ///
    /// Passes add: each dries before the next, and none is lost by sanding or bounce. Twice the thinner at the same
    /// wet film is half the dry film and twice the passes.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a film per pass that is not above zero, or an impossible ground.
    ///
    /// ```
    /// use mistcoat::{estimate::Estimate, hiding::{Criterion, Ground, HidingPower}, quantity::parse};
    /// let per_pass = Estimate::exact(parse("3 µm")?);
    /// let bottom = HidingPower::typical("red oxide")?;
    /// let passes = bottom.passes_to_hide(&per_pass, Ground::Card, Criterion::STANDARD)?;
    /// assert!(passes.fewest <= passes.whole && passes.whole <= passes.most);
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn passes_to_hide(
        &self,
        dry_per_pass: &Estimate<Length>,
        ground: Ground,
        criterion: Criterion,
    ) -> Result<Passes> {
        let one = positive("dry film per pass", dry_per_pass.best)?;
        let thickness = self.thickness_to_hide(ground, criterion)?.estimate;
        let estimate = if thickness.best.si() > 0.0 {
            let mut inputs = self.inputs();
            inputs.push(dry_per_pass.as_log_input("dry film per pass"));
            propagate(&inputs, &[Self::model_error()], Scale::Log, |x| {
                Ok(self.needed(x, ground, criterion)?.si() / x[2].exp())
            })?
        } else {
            Estimate::exact(Number::from_si(0.0))
        };
        let mut w = self.working("Passes to hide")?;
        w.push(self.step_thickness(ground, criterion)?);
        w.push(
            Step::new("passes", "n = X/X₁", "n = X/X_1")
                .numbers(format!("{}/{}", show(thickness.best), show(Length::from_si(one))))
                .result(digits(estimate.best.si(), 2)),
        );
        let mut warnings = self.warnings();
        if estimate.best.si() > MANY_PASSES {
            let n = digits(estimate.best.si().ceil(), 2);
            warnings.push(Warning::new(
                "many-passes",
                format!(
                    "about {n} passes (12 or fewer are comfortable): thin less, lay wetter passes, or spray an undercoat \
                     near the colour first"
                ),
            ));
        }
        Ok(Passes {
            whole: whole(estimate.best),
            fewest: whole(estimate.low),
            most: whole(estimate.high),
            thickness,
            number: Answer::new(estimate, w).with_warnings(warnings),
        })
    }
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "kept within 0 and a million")]
fn whole(n: Number) -> u32 {
    // A count that is whole but for rounding is that count.
    (n.si() - 1e-9).ceil().clamp(0.0, MOST) as u32
}

/// Paint and thinner for an area.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Amounts {
    /// Paint as it stands in the bottle.
    pub paint: Answer<Volume>,
    /// Thinner to go with it.
    pub thinner: Estimate<Volume>,
    /// Both together.
    pub mix: Estimate<Volume>,
    /// Area covered by a volume of paint, after losses.
    pub practical_rate: Estimate<SpreadingRate>,
}

/// A coat to be laid: how thick, with what, how much goes past.
#[derive(Debug, Clone, PartialEq)]
pub struct Job {
    /// Area of the part.
    pub area: Area,
    /// Dry film over all of it.
    pub dry: Estimate<Length>,
    /// Volume solids of the paint in the bottle.
    pub volume_solids: Estimate<Ratio>,
    /// How far it is thinned.
    pub thinning: Thinning,
    /// Share of the paint that does not end on the part; [`super::typical_loss`] has habits.
    pub loss: Estimate<Ratio>,
}

impl Job {
    /// Paint, thinner and spreading rate. Neglected: what stays in cup and gun; add the gun's hold-up for each colour.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for an area or film that is not above zero, no solids, or a loss of everything.
    ///
    /// ```
    /// use mistcoat::{dose::Thinning, estimate::Estimate, hiding::Job};
    /// use mistcoat::quantity::{parse, show};
    /// let job = Job {
    ///     area: parse("5.2 m2")?, dry: Estimate::exact(parse("125 µm")?),
    ///     volume_solids: Estimate::exact(parse("65 %")?), thinning: Thinning::NONE, loss: Estimate::exact(parse("0 %")?) };
    /// assert_eq!(show(job.amounts()?.paint.best()), "1 L");
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn amounts(&self) -> Result<Amounts> {
        let area = positive("area", self.area)?;
        positive("dry film thickness", self.dry.best)?;
        solids(&self.volume_solids)?;
        // The arithmetic of `dose` checks and works at every moved input.
        let rate = |x: &[f64]| -> Result<f64> {
            let vs = VolumeFraction::new(x[1].exp().min(1.0))?;
            let theoretical = spreading_rate(vs, Length::from_si(x[0].exp()))?;
            Ok(practical_spreading_rate(theoretical, VolumeFraction::new(x[2].max(0.0))?)?.si())
        };
        let inputs = [
            self.dry.as_log_input("dry film"),
            self.volume_solids.as_log_input("volume solids"),
            self.loss.as_input("loss"),
        ];
        let estimate = |per_paint: f64| -> Result<Estimate<Volume>> {
            if per_paint <= 0.0 {
                return Ok(Estimate::exact(Volume::from_si(0.0)));
            }
            propagate(&inputs, &[], Scale::Log, |x| Ok(per_paint * area / rate(x)?))
        };
        let thinner_per_paint = self.thinning.thinner_per_paint();
        let practical_rate: Estimate<SpreadingRate> = propagate(&inputs, &[], Scale::Log, rate)?;
        let paint = estimate(1.0)?;
        let mut w = Working::new("Paint for an area");
        w.push(
            Step::new(
                "practical spreading rate",
                "rate = VS (1 − loss)/DFT",
                r"\mathit{rate} = VS\,(1 - \ell)/DFT",
            )
            .numbers(format!(
                "{} × (1 − {})/{}",
                show(self.volume_solids.best),
                show(self.loss.best),
                show(self.dry.best)
            ))
            .result(show(practical_rate.best))
            .source("spreading-rate"),
        );
        w.push(
            Step::new("paint", "V = A/rate", r"V = A/\mathit{rate}")
                .numbers(format!("{}/({})", show(self.area), show(practical_rate.best)))
                .result(show(paint.best)),
        );
        Ok(Amounts {
            thinner: estimate(thinner_per_paint)?,
            mix: estimate(1.0 + thinner_per_paint)?,
            practical_rate,
            paint: Answer::new(paint, w),
        })
    }
}
