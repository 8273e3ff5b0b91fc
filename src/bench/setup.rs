//! These settings, this job: what goes wrong first, and how far is everything else from its limit?
//!
//! A [`Setup`] is one way to work: paint, thinner and ratio, gun, passes laid wet in wet, part, room. [`Setup::judge`] runs
//! the whole chain once (mix, nozzle, flight, film, drying, levelling, sag, dew) and gives for each [`Fault`] the factor by
//! which the setting keeps from it: 1 is the edge, 2 is twice inside.
//!
//! Four things may be stated besides: the yield stress of a paint that stiffens at rest, a slow liquid in the place of a share of the thinner ([`RetarderShare`]), the wet film
//! of a coat instead of its passes, and how well the colour hides what lies under it ([`Cover`]), which then sets the dry film
//! to build for jobs that ask for it.
//!
//! A job that says how long a coat may take to dry ([`Job::touch_dry_within`], [`Job::recoat_within`]) is judged for that too.
//!
//! Best values only: how sure each factor is says [`Margin::ln_std`]. The attack on the part is judged by
//! [`crate::layers::thinner_on_substrate`], and left out on a primed part.
//!
//! **Against common practice**, typical paints at 20 psi, 80 mm, 25 °C, 50 % humidity, 0.3 mm nozzle: at equal parts one
//! pass is touch dry after 59 s (alcohol acrylic) and 34 s (lacquer in a thinner without retarder), which agrees with
//! "about a minute"; a waterborne acrylic takes 3 min, which does not. Two parts of thinner make drops of 12 instead of
//! 16 µm and take half as many passes again. Paint flow and transfer efficiency are typical values chosen before, so the
//! number of passes (12 for 12 µm at equal parts) is good to a factor 3. Thinner still needs lower pressure: 30 mm from the
//! part, the highest pressure at which the air leaves the film of an alcohol acrylic in its place is 18 psi at equal parts, 11 at two
//! parts of thinner and 8 at three.

use super::cover::{Cover, Target};
use super::fault::{Fault, Margin};
use super::jobs::Job;
use super::judged::{FAR, Judged};
use super::slowed::RetarderShare;
use crate::air::Room;
use crate::blend::Blend;
use crate::dose::{Parts, Thinning};
use crate::error::Result;
use crate::film::{Substrate, Tip, check_yield_stress, wipe_every};
use crate::layers::{Verdict, thinner_on_substrate};
use crate::paint::{Mix, Paint};
use crate::quantity::{Length, Pressure, Quantity, Ratio, as_text, show};
use crate::spray::Airbrush;
use serde::{Deserialize, Serialize};

/// A tip that needs wiping more often than this is a fault, s (source key `job-practice`).
const WIPE_S: f64 = 60.0;
/// Factors of the verdicts on thinner and part (judgement).
const ATTACKED: f64 = 0.5;
const DOUBTFUL: f64 = 2.0;

/// One way to work.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Setup {
    /// The paint.
    pub paint: Paint,
    /// The thinner.
    pub thinner: Blend,
    /// A slow liquid in the place of a share of the thinner.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub retarder: Option<RetarderShare>,
    /// Parts of thinner, retarder and all, to one part of paint, by volume.
    pub thinner_per_paint: f64,
    /// The gun with pressure and distance.
    pub gun: Airbrush,
    /// Passes laid wet in wet, 1 to 20.
    pub wet_passes: u32,
    /// Wet film of one coat, 1 µm to 5 mm, where it is given: it takes as many passes wet in wet as it takes, and
    /// `wet_passes` does not count.
    #[serde(default, with = "as_text::option", skip_serializing_if = "Option::is_none")]
    pub wet_film: Option<Length>,
    /// How well the colour hides and what lies under it, where that sets the dry film to build.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cover: Option<Cover>,
    /// Yield stress of the undiluted paint, 0 to 100 Pa, where it stiffens at rest: a coat then hangs where its weight does not
    /// reach that of what lands ([`crate::film::hanging_thickness`]), which goes with the third power of the solids.
    #[serde(default, with = "as_text::option", skip_serializing_if = "Option::is_none")]
    pub yield_stress: Option<Pressure>,
    /// The room.
    pub room: Room,
    /// What is sprayed.
    pub substrate: Substrate,
    /// Whether a dry primer lies on it that stands the thinner.
    pub primed: bool,
    /// Sine of the angle of the face to the horizontal: 1 upright, 0 level.
    #[serde(with = "as_text")]
    pub steepness: Ratio,
}

/// What does not change when only the gun moves: the mix, the paint on the tip, what the thinner does to the part, and the
/// film to build.
#[derive(Debug, Clone)]
pub(super) struct Stage {
    pub(super) mix: Mix,
    pub(super) tip: Margin,
    pub(super) attack: Margin,
    pub(super) target: Target,
}

/// In one line: what is mixed, how it is sprayed, on what and where.
impl core::fmt::Display for Setup {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let ratio = crate::quantity::digits(self.thinner_per_paint, 3);
        write!(f, "{}, thinner {ratio} : paint 1 ({}", self.paint.name(), self.thinner.label())?;
        if let Some(slowed) = &self.retarder {
            write!(f, " with {} of {}", show(slowed.share), slowed.retarder.label())?;
        }
        write!(f, "); {}; ", self.gun)?;
        match (self.wet_film, self.wet_passes) {
            (Some(film), _) => write!(f, "{} wet", show(film))?,
            (None, 1) => f.write_str("1 pass")?,
            (None, passes) => write!(f, "{passes} passes wet in wet")?,
        }
        let (warm, damp) = (show(self.room.temperature()), self.room.relative_humidity());
        write!(f, " on {}; {warm}, {damp} humidity", self.substrate)
    }
}

impl Setup {
    /// A setting on an upright face of bare polystyrene, one pass wet.
    pub fn new(paint: &Paint, thinner: &Blend, thinner_per_paint: f64, gun: &Airbrush, room: &Room) -> Self {
        Self {
            paint: paint.clone(),
            thinner: thinner.clone(),
            thinner_per_paint,
            gun: gun.clone(),
            retarder: None,
            wet_passes: 1,
            wet_film: None,
            cover: None,
            yield_stress: None,
            room: room.clone(),
            substrate: Substrate::default(),
            primed: false,
            steepness: Ratio::from_si(1.0),
        }
    }

    /// The thinner as it is poured: with its share of retarder.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a share outside 0 to 100 %.
    pub fn slowed_thinner(&self) -> Result<Blend> {
        self.retarder.as_ref().map_or_else(|| Ok(self.thinner.clone()), |r| r.thinner(&self.thinner))
    }

    /// Share of the thinner that is retarder, 0 without one.
    pub fn retarder_share(&self) -> Ratio {
        self.retarder.as_ref().map_or(Ratio::from_si(0.0), |r| r.share)
    }

    /// The whole chain, once.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a bad ratio, share of retarder, wet film, number of passes or limit on drying; a
    /// [`crate::error::PhaseSplit`] for a mix that separates; those of the parts. Spray that lands as dust is no error but a
    /// fault.
    pub fn judge(&self, job: &Job) -> Result<Judged> {
        let stage = self.stage(job)?;
        self.judge_staged(&stage, job)
    }

    pub(super) fn stage(&self, job: &Job) -> Result<Stage> {
        job.check_time_limits()?;
        if let Some(stress) = self.yield_stress {
            check_yield_stress(stress)?;
        }
        let parts = Parts { thinner: self.thinner_per_paint, paint: 1.0 };
        let thinner = self.slowed_thinner()?;
        let mix = self.paint.thin(&thinner, Thinning::from_parts(parts)?)?;
        let tip = tip_margin(&mix, &self.room)?;
        let target = Target::of(job, self.cover.as_ref())?;
        Ok(Stage { mix, tip, attack: self.attack(&thinner)?, target })
    }

    fn attack(&self, thinner: &Blend) -> Result<Margin> {
        let part = match &self.substrate {
            Substrate::Plate { material, .. } if !self.primed => material.as_str(),
            _ => {
                let why = "a primer that stands the thinner lies between, or there is nothing to attack";
                return Ok(Margin::new(Fault::Attack, FAR, why));
            }
        };
        let judged = thinner_on_substrate(thinner, part)?;
        let factor = match judged.verdict {
            Verdict::Fine => FAR,
            Verdict::TestFirst => DOUBTFUL,
            Verdict::No => ATTACKED,
        };
        let reason = judged.reasons.first().map_or("nothing known against it", |r| r.text.as_str());
        Ok(Margin::new(Fault::Attack, factor, format!("{}: {reason}", judged.question)))
    }
}

/// Most mixes of a lacquer dry on the tip and are dissolved again: only what builds up is a fault.
fn tip_margin(mix: &Mix, room: &Room) -> Result<Margin> {
    let (factor, why) = match wipe_every(mix, room, Tip::default())? {
        Some(every) => (every.si() / WIPE_S, format!("the tip wants wiping every {}", show(every))),
        None => (FAR, "the paint stays wet on the tip, or dissolves again".to_owned()),
    };
    Ok(Margin::new(Fault::TipDrying, factor.min(FAR), why))
}
