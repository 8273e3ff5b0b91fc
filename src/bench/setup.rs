//! These settings, this job: what goes wrong first, and how far is everything else from its limit?
//!
//! A [`Setup`] is one way to work: paint, thinner and ratio, gun, passes laid wet in wet, part, room. [`Setup::judge`] runs
//! the whole chain once (mix, nozzle, flight, film, drying, levelling, sag, dew) and gives for each [`Fault`] the factor by
//! which the setting keeps from it: 1 is the edge, 2 is twice inside.
//!
//! Best values only: how sure each factor is says [`Fault::ln_std`]. The attack on the part is judged by
//! [`crate::layers::thinner_on_substrate`], and left out on a primed part.
//!
//! **Against common practice**, typical paints at 20 psi, 80 mm, 25 °C, 50 % humidity, 0.3 mm nozzle: at equal parts one
//! pass is touch dry after 59 s (alcohol acrylic) and 34 s (lacquer in a thinner without retarder), which agrees with
//! "about a minute"; a waterborne acrylic takes 3 min, which does not. Two parts of thinner make drops of 12 instead of
//! 16 µm and take half as many passes again. Paint flow and transfer efficiency are typical values chosen before, so the
//! number of passes (12 for 12 µm at equal parts) is good to a factor 3.

use super::fault::{Fault, Margin};
use super::jobs::Job;
use crate::air::Room;
use crate::blend::Blend;
use crate::dose::{Parts, Thinning};
use crate::error::{Error, Result, out_of_range};
use crate::film::{Film, Limits, Ripple, Substrate, Tip, wipe_every};
use crate::layers::{Verdict, thinner_on_substrate};
use crate::paint::{Mix, Paint};
use crate::quantity::{Length, Quantity, Ratio, Temperature, Time, digits, show};
use crate::spray::{Airbrush, Shot};
use serde::{Deserialize, Serialize};

/// A factor that is as good as no limit, and its counterpart.
const FAR: f64 = 100.0;
/// A tip that needs wiping more often than this is a fault, s (source key `job-practice`).
const WIPE_S: f64 = 60.0;
/// Factors of the verdicts on thinner and part (judgement).
const ATTACKED: f64 = 0.5;
const DOUBTFUL: f64 = 2.0;
/// What the warning of an air that drives the film aside stands for.
const DRIVEN: f64 = 0.7;

/// One way to work.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Setup {
    /// The paint.
    pub paint: Paint,
    /// The thinner.
    pub thinner: Blend,
    /// Parts of thinner to one part of paint, by volume.
    pub thinner_per_paint: f64,
    /// The gun with pressure and distance.
    pub gun: Airbrush,
    /// Passes laid wet in wet.
    pub wet_passes: u32,
    /// The room.
    pub room: Room,
    /// What is sprayed.
    pub substrate: Substrate,
    /// Whether a dry primer lies on it that stands the thinner.
    pub primed: bool,
    /// Sine of the angle of the face to the horizontal: 1 upright, 0 level.
    #[serde(with = "crate::quantity::as_text")]
    pub steepness: Ratio,
}

/// What a setting does.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Judged {
    /// Distance from every fault, nearest first.
    pub margins: Vec<Margin>,
    /// Sauter mean of the drops.
    #[serde(with = "crate::quantity::as_text")]
    pub drop_size: Length,
    /// Share of the volatile mass lost in flight.
    #[serde(with = "crate::quantity::as_text")]
    pub flight_loss: Ratio,
    /// Wet and dry film of one pass.
    #[serde(with = "crate::quantity::as_text")]
    pub wet_per_pass: Length,
    /// Dry film of one pass.
    #[serde(with = "crate::quantity::as_text")]
    pub dry_per_pass: Length,
    /// Width of one pass.
    #[serde(with = "crate::quantity::as_text")]
    pub swath: Length,
    /// Passes until the dry film of the job is there.
    pub passes: f64,
    /// Flash-off of one wet-in-wet coat, where it has one.
    #[serde(with = "crate::quantity::as_text::option")]
    pub flash_off: Option<Time>,
    /// Touch dry, where the film has it.
    #[serde(with = "crate::quantity::as_text::option")]
    pub touch_dry: Option<Time>,
    /// Lowest film temperature.
    #[serde(with = "crate::quantity::as_text")]
    pub coldest: Temperature,
}

impl Judged {
    /// The fault that is nearest in standard uncertainties, or met by most.
    pub fn worst(&self) -> &Margin {
        &self.margins[0]
    }

    /// Whether every limit holds at best values.
    pub fn is_good(&self) -> bool {
        self.margins.iter().all(Margin::holds)
    }

    /// The distance from one fault.
    pub fn margin(&self, fault: Fault) -> Option<&Margin> {
        self.margins.iter().find(|m| m.fault == fault)
    }
}

/// What does not change when only the gun moves: the mix, the paint on the tip, and what the thinner does to the part.
#[derive(Debug, Clone)]
pub(super) struct Stage {
    mix: Mix,
    tip: Margin,
    attack: Margin,
}

impl Setup {
    /// A setting on an upright face of bare polystyrene, one pass wet.
    pub fn new(paint: &Paint, thinner: &Blend, thinner_per_paint: f64, gun: &Airbrush, room: &Room) -> Self {
        Self {
            paint: paint.clone(),
            thinner: thinner.clone(),
            thinner_per_paint,
            gun: gun.clone(),
            wet_passes: 1,
            room: room.clone(),
            substrate: Substrate::default(),
            primed: false,
            steepness: Ratio::from_si(1.0),
        }
    }

    /// The whole chain, once.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a bad ratio or number of passes; a [`crate::error::PhaseSplit`] for a mix that
    /// separates; those of the parts. Spray that lands as dust is no error but a fault.
    pub fn judge(&self, job: &Job) -> Result<Judged> {
        let stage = self.stage()?;
        self.judge_staged(&stage, job)
    }

    pub(super) fn stage(&self) -> Result<Stage> {
        let parts = Parts { thinner: self.thinner_per_paint, paint: 1.0 };
        let mix = self.paint.thin(&self.thinner, Thinning::from_parts(parts)?)?;
        let tip = tip_margin(&mix, &self.room)?;
        Ok(Stage { mix, tip, attack: self.attack()? })
    }

    pub(super) fn judge_staged(&self, stage: &Stage, job: &Job) -> Result<Judged> {
        if !(1..=20).contains(&self.wet_passes) {
            return Err(out_of_range(
                "passes wet in wet",
                self.wet_passes.to_string(),
                "1 to 20",
                "count passes before the coat is left to flash off",
            ));
        }
        let shot = self.gun.spray(&stage.mix, &self.room)?;
        let brief = shot.brief();
        let mut margins = vec![stage.tip.clone(), stage.attack.clone()];
        let drop = brief.sauter_mean;
        margins.push(Margin {
            fault: Fault::Spatter,
            factor: job.largest_drop.si() / drop.si(),
            why: format!("drops of {}, at most {} for {}", show(drop), show(job.largest_drop), job.name),
        });
        margins.push(dry_spray(&shot));
        margins.extend(spidering(&shot));
        margins.extend(too_wide(&shot, brief.wet_per_pass, job));
        let passes = job.dry_film.si() / brief.dry_per_pass.si();
        margins.push(Margin {
            fault: Fault::TooManyPasses,
            factor: job.most_passes / passes,
            why: format!(
                "{} passes for {} of dry film, at most {} for {}",
                digits(passes, 2),
                show(job.dry_film),
                digits(job.most_passes, 2),
                job.name
            ),
        });
        let mut judged = Judged {
            margins,
            drop_size: drop,
            flight_loss: brief.flight_loss,
            wet_per_pass: brief.wet_per_pass,
            dry_per_pass: brief.dry_per_pass,
            swath: shot.swath(),
            passes,
            flash_off: None,
            touch_dry: None,
            coldest: self.room.temperature(),
        };
        match shot.film(self.wet_passes) {
            Ok(film) => self.lies(&film.with_substrate(self.substrate.clone()), job, &mut judged)?,
            // Dust, or a film too thin to be one: the faults above say so.
            Err(Error::Range(_)) => {}
            Err(e) => return Err(e),
        }
        judged.margins.sort_by(|a, b| a.sigmas().total_cmp(&b.sigmas()));
        Ok(judged)
    }

    /// How the coat lies and dries.
    fn lies(&self, film: &Film, job: &Job, judged: &mut Judged) -> Result<()> {
        let dry = film.brief(&Ripple::usual()?, self.steepness)?;
        judged.coldest = dry.coldest;
        judged.flash_off = dry.flash_off;
        judged.touch_dry = dry.touch_dry;
        if let Some((exponent, sag)) = dry.flow {
            if let Some(left) = job.ripple_left {
                let needed = -left.si().ln();
                judged.margins.push(Margin {
                    fault: Fault::OrangePeel,
                    factor: (exponent / needed).clamp(1.0 / FAR, FAR),
                    why: format!(
                        "{} of the ripple left, {} allowed for {}",
                        show(Ratio::from_si((-exponent).exp())),
                        show(left),
                        job.name
                    ),
                });
            }
            let limit = Limits::usual()?.sag;
            judged.margins.push(Margin {
                fault: Fault::Run,
                factor: (limit.si() / sag.si().max(f64::MIN_POSITIVE)).min(FAR),
                why: format!("slides {}, {} allowed", show(sag), show(limit)),
            });
        }
        if !film.is_waterborne() {
            judged.margins.extend(self.dew(dry.coldest));
        }
        Ok(())
    }

    /// Vapour pressure of water over the cold film against that in the room.
    fn dew(&self, coldest: Temperature) -> Option<Margin> {
        let dew = self.room.dew_point().ok()?;
        let pressure = crate::air::psychrometrics::saturation_pressure;
        let ratio = pressure(coldest).ok()?.si() / pressure(dew).ok()?.si();
        Some(Margin {
            fault: Fault::Blush,
            factor: ratio,
            why: format!("the film cools to {}, the dew point is {}", show(coldest), show(dew)),
        })
    }

    fn attack(&self) -> Result<Margin> {
        let part = match &self.substrate {
            Substrate::Plate { material, .. } if !self.primed => material.as_str(),
            _ => {
                return Ok(Margin {
                    fault: Fault::Attack,
                    factor: FAR,
                    why: "a primer that stands the thinner lies between, or there is nothing to attack"
                        .to_owned(),
                });
            }
        };
        let judged = thinner_on_substrate(&self.thinner, part)?;
        let factor = match judged.verdict {
            Verdict::Fine => FAR,
            Verdict::TestFirst => DOUBTFUL,
            Verdict::No => ATTACKED,
        };
        let reason = judged.reasons.first().map_or("nothing known against it", |r| r.text.as_str());
        Ok(Margin { fault: Fault::Attack, factor, why: format!("{}: {reason}", judged.question) })
    }
}

/// Most mixes of a lacquer dry on the tip and are dissolved again: only what builds up is a fault.
fn tip_margin(mix: &Mix, room: &Room) -> Result<Margin> {
    let (factor, why) = match wipe_every(mix, room, Tip::default())? {
        Some(every) => (every.si() / WIPE_S, format!("the tip wants wiping every {}", show(every))),
        None => (FAR, "the paint stays wet on the tip, or dissolves again".to_owned()),
    };
    Ok(Margin { fault: Fault::TipDrying, factor: factor.min(FAR), why })
}

fn dry_spray(shot: &Shot) -> Margin {
    let (factor, why) = shot.wetness();
    Margin { fault: Fault::DrySpray, factor: factor.clamp(1.0 / FAR, FAR), why }
}

fn spidering(shot: &Shot) -> Option<Margin> {
    let warning = shot.warnings().iter().find(|w| w.code == "spidering")?;
    Some(Margin { fault: Fault::Spidering, factor: DRIVEN, why: warning.message.clone() })
}

fn too_wide(shot: &Shot, wet: Length, job: &Job) -> Option<Margin> {
    let width = job.widest_pass.map(|most| {
        (
            most.si() / shot.swath().si(),
            format!("a pass {} wide, at most {} for {}", show(shot.swath()), show(most), job.name),
        )
    });
    let thick = job.thickest_pass.map(|most| {
        (
            most.si() / wet.si(),
            format!("{} of wet film a pass, at most {} for {}", show(wet), show(most), job.name),
        )
    });
    let (factor, why) = [width, thick].into_iter().flatten().min_by(|a, b| a.0.total_cmp(&b.0))?;
    Some(Margin { fault: Fault::TooWide, factor, why })
}
