//! What a setting does: the chain run once, and its distance from every fault.

use super::cover::Target;
use super::fault::{Fault, Margin};
use super::in_time;
use super::jobs::Job;
use super::setup::{Setup, Stage};
use crate::error::{Error, Result, out_of_range};
use crate::estimate::Estimate;
use crate::film::{Film, Flow, Limits, Ripple, thinned_yield_stress};
use crate::quantity::{Length, Quantity, Ratio, Temperature, Time, digits, show};
use crate::spray::Shot;
use crate::spray::checks::WATER_SEEN;
use serde::{Deserialize, Serialize};

/// A factor that is as good as no limit, and its counterpart.
pub(super) const FAR: f64 = 100.0;
/// Wet films that a coat may be given, m: those of [`Film`].
const WET_FILM_M: (f64, f64) = (1e-6, 5e-3);

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
    /// Water that the drops took from the air, as a share of the volume that lands.
    #[serde(default = "nothing", with = "crate::quantity::as_text")]
    pub water_from_air: Ratio,
    /// Wet film of one pass.
    #[serde(with = "crate::quantity::as_text")]
    pub wet_per_pass: Length,
    /// Dry film of one pass.
    #[serde(with = "crate::quantity::as_text")]
    pub dry_per_pass: Length,
    /// Width of one pass.
    #[serde(with = "crate::quantity::as_text")]
    pub swath: Length,
    /// Wet film of one coat, laid wet in wet.
    #[serde(with = "crate::quantity::as_text")]
    pub wet_film: Length,
    /// Passes of one coat.
    pub wet_passes: f64,
    /// Dry film to build in all, and why.
    pub target: Target,
    /// Passes until it is there; those of one coat at least.
    pub passes: f64,
    /// Flash-off of one coat, where it has one.
    #[serde(with = "crate::quantity::as_text::option")]
    pub flash_off: Option<Time>,
    /// Touch dry, where the film has it.
    #[serde(with = "crate::quantity::as_text::option")]
    pub touch_dry: Option<Time>,
    /// When the next coat may go on: block-free for a lacquer, for a waterborne or oxidising paint common practice; None for a
    /// film that stays softer, or lands as dust.
    #[serde(default, with = "crate::quantity::as_text::option")]
    pub recoat: Option<Time>,
    /// Lowest film temperature.
    #[serde(with = "crate::quantity::as_text")]
    pub coldest: Temperature,
}

fn nothing() -> Ratio {
    Ratio::from_si(0.0)
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

impl Setup {
    pub(super) fn judge_staged(&self, stage: &Stage, job: &Job) -> Result<Judged> {
        self.check_coat()?;
        let shot = self.gun.spray(&stage.mix, &self.room)?;
        let brief = shot.brief();
        let mut margins = vec![stage.tip.clone(), stage.attack.clone()];
        let drop = brief.sauter_mean;
        margins.push(Margin::new(
            Fault::Spatter,
            job.largest_drop.si() / drop.si(),
            format!("drops of {}, at most {} for {}", show(drop), show(job.largest_drop), job.name),
        ));
        margins.push(dry_spray(&shot));
        margins.push(spidering(&shot));
        margins.extend(too_wide(&shot, brief.wet_per_pass, job));
        let (wet_film, wet_passes) = match self.wet_film {
            Some(film) => (film, film.si() / brief.wet_per_pass.si()),
            None => (brief.wet_per_pass * f64::from(self.wet_passes), f64::from(self.wet_passes)),
        };
        let passes = (stage.target.dry_film.si() / brief.dry_per_pass.si()).max(wet_passes);
        margins.push(too_many(passes, wet_passes, wet_film, stage, job));
        let mut judged = Judged {
            margins,
            drop_size: drop,
            flight_loss: brief.flight_loss,
            water_from_air: brief.water_from_air,
            wet_per_pass: brief.wet_per_pass,
            dry_per_pass: brief.dry_per_pass,
            swath: shot.swath(),
            wet_film,
            wet_passes,
            target: stage.target.clone(),
            passes,
            flash_off: None,
            touch_dry: None,
            recoat: None,
            coldest: self.room.temperature(),
        };
        match shot.film_of(wet_film) {
            Ok(film) => {
                let film = self.stiffens(film.with_substrate(self.substrate.clone()))?;
                self.lies(&film, job, &mut judged)?;
            }
            // Dust, or a film too thin to be one: the faults above say so.
            Err(Error::Range(_)) if job.has_time_limit() && judged.is_good() => {
                judged.margins.push(in_time::no_film());
            }
            Err(Error::Range(_)) => {}
            Err(e) => return Err(e),
        }
        judged.margins.sort_by(|a, b| a.sigmas().total_cmp(&b.sigmas()));
        Ok(judged)
    }

    fn check_coat(&self) -> Result<()> {
        if let Some(film) = self.wet_film
            && !(WET_FILM_M.0..=WET_FILM_M.1).contains(&film.si())
        {
            return Err(out_of_range(
                "wet film of a coat",
                show(film),
                "1 µm to 5 mm",
                "a few passes of an airbrush lay 10 µm to 50 µm",
            ));
        }
        if (1..=20).contains(&self.wet_passes) {
            return Ok(());
        }
        Err(out_of_range(
            "passes wet in wet",
            self.wet_passes.to_string(),
            "1 to 20",
            "count passes before the coat is left to flash off",
        ))
    }

    /// With the yield stress of what lands, where the paint has one and its flow is known.
    fn stiffens(&self, film: Film) -> Result<Film> {
        let Some(stock) = self.yield_stress.filter(|_| film.flow().is_some()) else { return Ok(film) };
        let richer = film.solids().get() / self.paint.volume_solids().best.si();
        film.with_yield_stress(&Estimate::exact(thinned_yield_stress(stock, richer)))
    }

    /// How the coat lies and dries.
    fn lies(&self, film: &Film, job: &Job, judged: &mut Judged) -> Result<()> {
        let dry = film.brief(&Ripple::usual()?, self.steepness)?;
        judged.coldest = dry.coldest;
        judged.flash_off = dry.flash_off;
        judged.touch_dry = dry.touch_dry;
        judged.recoat = in_time::recoat(film, dry.block_free, dry.touch_dry)?;
        let in_time = in_time::margin(film, judged, job);
        judged.margins.extend(in_time);
        if let Some((exponent, sag)) = dry.flow {
            if let Some(left) = job.ripple_left {
                let needed = -left.si().ln();
                judged.margins.push(Margin::new(
                    Fault::OrangePeel,
                    (exponent / needed).clamp(1.0 / FAR, FAR),
                    format!(
                        "{} of the ripple left, {} allowed for {}",
                        show(Ratio::from_si((-exponent).exp())),
                        show(left),
                        job.name
                    ),
                ));
            }
            let limit = Limits::usual()?.sag;
            let why = match film.flow().and_then(Flow::yield_stress) {
                Some(stress) if sag.si() <= 0.0 => {
                    format!(
                        "hangs: its weight stays below the yield stress of {} of what lands",
                        show(stress.best)
                    )
                }
                Some(stress) => format!(
                    "slides {} over the yield stress of {}, {} allowed",
                    show(sag),
                    show(stress.best),
                    show(limit)
                ),
                None => format!("slides {}, {} allowed", show(sag), show(limit)),
            };
            let factor = (limit.si() / sag.si().max(f64::MIN_POSITIVE)).min(FAR);
            judged.margins.push(Margin::new(Fault::Run, factor, why));
        }
        if !film.is_waterborne() {
            judged.margins.extend(self.dew(dry.coldest, judged.water_from_air));
        }
        Ok(())
    }

    /// Vapour pressure of water over the cold film against that in the room.
    fn dew(&self, coldest: Temperature, from_air: Ratio) -> Option<Margin> {
        let dew = self.room.dew_point().ok()?;
        let pressure = crate::air::psychrometrics::saturation_pressure;
        let ratio = pressure(coldest).ok()?.si() / pressure(dew).ok()?.si();
        let bring = if from_air.si() >= WATER_SEEN {
            format!("; the drops bring {} of water", show(from_air))
        } else {
            String::new()
        };
        let why = format!("the film cools to {}, the dew point is {}{bring}", show(coldest), show(dew));
        Some(Margin::new(Fault::Blush, ratio, why))
    }
}

fn too_many(passes: f64, wet_passes: f64, wet_film: Length, stage: &Stage, job: &Job) -> Margin {
    let built =
        if passes > wet_passes { stage.target.words() } else { format!("a coat of {} wet", show(wet_film)) };
    let why = format!("{} passes for {built}, at most {}", digits(passes, 2), digits(job.most_passes, 2));
    let factor = (job.most_passes / passes).min(FAR);
    Margin::new(Fault::TooManyPasses, factor, why).with_target_std(stage.target.ln_std)
}

fn dry_spray(shot: &Shot) -> Margin {
    let (factor, why) = shot.wetness();
    Margin::new(Fault::DrySpray, factor.clamp(1.0 / FAR, FAR), why)
}

fn spidering(shot: &Shot) -> Margin {
    let (factor, why) = shot.stays_put();
    Margin::new(Fault::Spidering, factor.clamp(1.0 / FAR, FAR), why)
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
    Some(Margin::new(Fault::TooWide, factor, why))
}
