//! One layer worked out: passes, coats, mix, waits, and what to mind.

use super::amounts::{self, MixAmounts};
use super::habits::Habits;
use super::layer::PlanLayer;
use super::session::Session;
use super::waits::{self, Wait};
use crate::answer::Answer;
use crate::bench::Judged;
use crate::dose::{Parts, Thinning};
use crate::error::{Error, Result, out_of_range};
use crate::estimate::{Estimate, Input, Scale, propagate};
use crate::film::Drying;
use crate::hiding::{Criterion, Ground, Passes};
use crate::layers::{Place, Verdict, cleaner_with_paint, thinner_with_paint};
use crate::paint::{Family, Mix};
use crate::quantity::{Area, Length, Number, Quantity, Time, Volume, as_text, digits, show};
use crate::spray::Shot;
use crate::warning::Warning;
use serde::{Deserialize, Serialize};

/// More coats than the drying engine lays on one another, and than anybody sprays.
const MOST_COATS: f64 = 50.0;
/// A count that is whole but for rounding is that count.
const ROUNDING: f64 = 1e-9;

/// A layer as it is sprayed by each person.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlannedLayer {
    /// Its name.
    pub name: String,
    /// Its place in the stack.
    pub place: Place,
    /// Family of the paint.
    pub family: Family,
    /// Name of the job.
    pub job: String,
    /// Parts of thinner to one part of paint, by volume, as wanted.
    pub thinner_per_paint: f64,
    /// What goes into one cup.
    pub mix: MixAmounts,
    /// Passes over every place.
    pub passes: u32,
    /// Passes for the dry film of the job, not rounded, with interval and working.
    pub passes_for_job: Answer<Number>,
    /// Passes to hide, where the hiding power was given.
    pub passes_to_hide: Option<Passes>,
    /// Coats: the passes of one are laid wet in wet, then it flashes off. The last may have fewer.
    pub coats: u32,
    /// Passes of one coat.
    pub wet_passes: u32,
    /// Dry film of all passes.
    pub dry_film: Estimate<Length>,
    /// Time to lay one pass over the area.
    pub pass_time: Estimate<Time>,
    /// Between coats.
    pub flash_off: Wait,
    /// From the last coat until a light touch takes nothing away.
    pub touch_dry: Wait,
    /// From the last coat until tape does no harm.
    pub until_mask: Wait,
    /// From the last coat to the next layer; after the last layer until it is touch dry.
    pub until_next: Wait,
    /// Time for masking before the layer, where something is masked.
    #[serde(default, with = "as_text::option", skip_serializing_if = "Option::is_none")]
    pub mask: Option<Time>,
    /// How far the setting keeps from every fault.
    pub judged: Judged,
    /// What to mind.
    pub warnings: Vec<Warning>,
}

/// What the air needs beside it: the mix, how much of it goes through the gun for one part, how a coat dries by itself.
pub(super) struct Sprayed {
    pub(super) mix: Mix,
    pub(super) drying: Drying,
    /// Volume of one pass, and passes of each coat.
    pass: Volume,
    passes: Vec<u32>,
}

impl Sprayed {
    /// Mix through the gun for a coat of one part, counted from 1.
    pub(super) fn of_coat(&self, coat: u32) -> Volume {
        let passes = (coat as usize).checked_sub(1).and_then(|i| self.passes.get(i)).copied().unwrap_or(0);
        self.pass * f64::from(passes)
    }
}

impl PlannedLayer {
    /// Passes of a coat, counted from 1.
    pub fn passes_of_coat(&self, coat: u32) -> u32 {
        let before = coat.saturating_sub(1).saturating_mul(self.wet_passes);
        self.passes.saturating_sub(before).min(self.wet_passes)
    }

    pub(super) fn of(
        session: &Session,
        layer: &PlanLayer,
        next: Option<&PlanLayer>,
    ) -> Result<(Self, Sprayed)> {
        let setup = &layer.setup;
        let judged = setup.judge(&layer.job)?;
        let thinning = Thinning::from_parts(Parts { thinner: setup.thinner_per_paint, paint: 1.0 })?;
        let mix = setup.paint.thin(&setup.slowed_thinner()?, thinning)?;
        let shot = setup.gun.spray(&mix, &setup.room)?;
        let per_pass = shot.dry_film_per_pass()?;
        let build = judged.target.dry_film;
        let passes_for_job = shot.passes_for(if build.si() > 0.0 { build } else { layer.job.dry_film })?;
        let wet_passes = of_a_coat(&judged);
        let passes_to_hide = match &layer.hiding {
            Some(hiding) => {
                Some(hiding.passes_to_hide(&per_pass.estimate, Ground::Card, Criterion::STANDARD)?)
            }
            None => None,
        };
        let hide = passes_to_hide.as_ref().map_or(0.0, |p| p.number.best().si());
        let passes = whole_passes(passes_for_job.best().si().max(hide), wet_passes, layer)?;
        let coats = passes.div_ceil(wet_passes);
        let dry_film = times(&per_pass.estimate, passes)?;
        let (amounts, mut warnings) = amounts::of(session, layer, &mix, dry_film.best)?;
        let film =
            shot.film(wet_passes).map_err(|e| no_coat(layer, e))?.with_substrate(setup.substrate.clone());
        let alone = film.dry()?;
        let (flash_off, top, late) = waits::between_coats(&film, &alone, coats)?;
        warnings.extend(late.into_iter().map(|w| about(layer, w)));
        let drying = top.dry()?;
        let family = layer.paint().family();
        let touch_dry = waits::touch_dry(&drying, family)?;
        let until_mask = waits::before_masking(&drying, family)?;
        let until_next = match next {
            Some(next) => {
                let families = [family, next.paint().family()];
                let (wait, warning) =
                    waits::before_next(&touch_dry, &flash_off, families, layer.wait, &layer.name)?;
                warnings.extend(warning);
                wait
            }
            None => touch_dry.clone(),
        };
        warnings.extend(of_models(layer, &judged, &shot, &drying));
        warnings.extend(passes_to_hide.iter().flat_map(|p| p.number.warnings.iter().cloned()));
        warnings.extend(of_liquids(session, layer)?);
        let planned = Self {
            name: layer.name.clone(),
            place: layer.place,
            family,
            job: layer.job.name.clone(),
            thinner_per_paint: setup.thinner_per_paint,
            mix: amounts,
            passes,
            passes_for_job: Answer { warnings: Vec::new(), ..passes_for_job },
            passes_to_hide,
            coats,
            wet_passes,
            dry_film,
            pass_time: pass_time(layer.area, &shot)?,
            flash_off,
            touch_dry,
            until_mask,
            until_next,
            mask: layer.mask,
            judged,
            warnings,
        };
        let sprayed = Sprayed {
            mix,
            drying: alone,
            pass: planned.mix.sprayed.best / f64::from(passes),
            passes: (1..=coats).map(|c| planned.passes_of_coat(c)).collect(),
        };
        Ok((planned, sprayed))
    }
}

/// Passes laid wet in wet: as set, or as many as make the wet film nearly.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "kept within 1 and 1000")]
fn of_a_coat(judged: &Judged) -> u32 {
    judged.wet_passes.round().clamp(1.0, 1000.0) as u32
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "kept within 1 and 1000")]
fn whole_passes(needed: f64, wet_passes: u32, layer: &PlanLayer) -> Result<u32> {
    let whole = (needed - ROUNDING).ceil().max(1.0);
    if whole <= MOST_COATS * f64::from(wet_passes) {
        return Ok(whole as u32);
    }
    Err(out_of_range(
        format!("passes for {}", layer.name),
        digits(whole, 3),
        format!(
            "at most {}: {MOST_COATS} coats of {wet_passes} wet in wet",
            MOST_COATS * f64::from(wet_passes)
        ),
        "thin less, come nearer or lay more passes wet in wet; bench::recommend searches settings for a job",
    ))
}

/// A coat too thin or too thick to be one: a paint that hardly leaves the gun, or floods.
fn no_coat(layer: &PlanLayer, error: Error) -> Error {
    let Error::Range(e) = error else { return error };
    let e = *e;
    out_of_range(
        format!("{} of a coat of {}", e.what, layer.name),
        e.value,
        e.limit,
        "change what leaves the gun: thinner, pressure, distance or passes wet in wet; bench::recommend searches settings for a job",
    )
}

/// So many passes.
fn times(per_pass: &Estimate<Length>, passes: u32) -> Result<Estimate<Length>> {
    let n = f64::from(passes);
    propagate(&[per_pass.as_log_input("dry film per pass")], &[], Scale::Log, |x| Ok(n * x[0].exp()))
}

/// Area over swath and hand speed, and turning the part.
fn pass_time(area: Area, shot: &Shot) -> Result<Estimate<Time>> {
    let inputs: [Input; 2] = [
        shot.gun().hand_speed().as_log_input("hand speed"),
        Habits::usual()?.turning.as_log_input("turning and looking"),
    ];
    let lanes = area.si() / shot.swath().si();
    propagate(&inputs, &[], Scale::Log, |x| Ok(lanes / x[0].exp() * x[1].exp()))
}

fn about(layer: &PlanLayer, w: Warning) -> Warning {
    Warning { message: format!("{}: {}", layer.name, w.message), ..w }
}

/// Limits not kept, and what spray and drying say.
fn of_models(layer: &PlanLayer, judged: &Judged, shot: &Shot, drying: &Drying) -> Vec<Warning> {
    let met = judged.margins.iter().filter(|m| !m.holds());
    let met = met.map(|m| {
        let code = format!("limit-{}", m.fault.name().replace(' ', "-"));
        Warning::new(&code, format!("{m}; {}", m.fault.cure()))
    });
    // A coat on hard ones is dealt with by the waits.
    let dries = drying.warnings().iter().filter(|w| w.code != waits::ON_HARD_FILM);
    let all = met.chain(shot.warnings().iter().cloned()).chain(dries.cloned());
    all.map(|w| about(layer, w)).collect()
}

/// What the thinner does to the paint, and the cleaner.
fn of_liquids(session: &Session, layer: &PlanLayer) -> Result<Vec<Warning>> {
    let thinner = thinner_with_paint(layer.paint(), &layer.setup.slowed_thinner()?)?;
    let cleaner = cleaner_with_paint(layer.paint(), &session.cleaner_after(layer), false)?;
    let told = [("thinner", thinner), ("cleaner", cleaner)].into_iter();
    Ok(told
        .filter(|(_, judged)| judged.verdict != Verdict::Fine)
        .map(|(what, judged)| {
            let verdict = judged.verdict;
            let reason = judged.reasons.first().map_or("", |r| r.text.as_str());
            Warning::new(
                &format!("{what}-{}", if verdict == Verdict::No { "no" } else { "test-first" }),
                format!("{}: {verdict}: {reason}", judged.question),
            )
        })
        .collect())
}

impl core::fmt::Display for PlannedLayer {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(
            f,
            "{}: {} of mix, {} passes in {} coats, {} between, then {}",
            self.name,
            show(self.mix.made()),
            self.passes,
            self.coats,
            show(self.flash_off.lasts),
            show(self.until_next.lasts)
        )
    }
}
