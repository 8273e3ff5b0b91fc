//! I have this paint, this thinner, this cup, this room: what do half a part, one, two and three parts of
//! thinner to one of paint do?
//!
//! For each ratio: volume solids, viscosity, seconds in the cup, the dry film a wet coat leaves, flash-off and
//! what is left in the coat by then, touch dry, recoat, blush limit, ripple left, VOC, and drops when a dropper is given. The chain is that of the parts it
//! is made of: mass balance and dilution law ([`crate::paint`]), cup equation ([`crate::cup`]), drying engine
//! ([`crate::film`]); each brings its own interval, warnings and working, and the comparison carries them on.
//!
//! Without a gun it leaves out the spray between nozzle and part: solvent lost in flight makes the coat arrive thicker and
//! drier than this says. With one ([`Compare::airbrush`]) each ratio is sprayed ([`crate::spray`]), judged ([`Setup::judge`])
//! and dried as it lands.
//!
//! [`Setup::judge`]: super::Setup::judge

use super::comparison::{Comparison, Row, Spraying};
use super::jobs::Job;
use crate::air::Room;
use crate::answer::Answer;
use crate::blend::Blend;
use crate::cup::FlowCup;
use crate::dose::{Dropper, Parts, Thinning};
use crate::error::{Error, Result, out_of_range};
use crate::film::Substrate;
use crate::paint::{Droppers, Mix, Paint};
use crate::quantity::{Length, Quantity, RelativeHumidity, Temperature, Time, Volume};
use crate::spray::Airbrush;
use crate::warning::Warning;
use cautions::cautions;
use coat::{Coat, Dries, attack};
#[cfg(feature = "parallel")]
use rayon::prelude::*;

mod cautions;
mod coat;

/// Thinner to one part of paint when nothing is said.
pub const USUAL_RATIOS: [f64; 4] = [0.5, 1.0, 2.0, 3.0];
/// Wet film when nothing is said: what a few passes of an airbrush lay down (common practice).
const USUAL_WET_FILM_M: f64 = 25e-6;
/// Job that sprayed coats are judged for when nothing is said.
const USUAL_JOB: &str = "base coat";
/// Room when nothing is said, K and relative humidity.
const USUAL_ROOM: (f64, f64) = (294.15, 0.5);
/// Rows at most; a page holds fewer.
const MOST_ROWS: usize = 50;

/// What is compared, and under which conditions. Build with [`Compare::new`], refine, then [`Compare::run`].
///
/// ```
/// use mistcoat::bench::Compare;
/// use mistcoat::blend::{Basis, Blend};
/// use mistcoat::cup::FlowCup;
/// use mistcoat::paint::{Family, Paint};
/// let paint = Paint::typical(Family::SolventLacquer, "hull green")?;
/// let thinner = Blend::from_names(&[("acetone", 30.0), ("n-butyl acetate", 70.0)], Basis::Volume, Some("house thinner"))?;
/// let cup = FlowCup::standard("ISO 2431", "4")?;
/// let comparison = Compare::new(&paint, &thinner).cup(&cup).run()?;
/// let rows = comparison.rows();
/// assert_eq!(rows.len(), 4);
/// assert!(rows[0].viscosity.best() > rows[3].viscosity.best());
/// assert!(comparison.table().to_text().contains("hull green"));
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Compare {
    paint: Paint,
    thinner: Blend,
    ratios: Vec<f64>,
    cup: Option<FlowCup>,
    room: Option<Room>,
    /// None: what the passes of the gun lay, or the usual film without a gun.
    wet_film: Option<Length>,
    gun: Option<Airbrush>,
    wet_passes: u32,
    job: Option<Job>,
    substrate: Substrate,
    dropper: Option<(Dropper, Option<Volume>)>,
}

impl Compare {
    /// Compares the usual ratios in a room of 21 °C, 50 % relative humidity and no felt draught, for a wet film of
    /// 25 µm on polystyrene, without a cup.
    pub fn new(paint: &Paint, thinner: &Blend) -> Self {
        Self {
            paint: paint.clone(),
            thinner: thinner.clone(),
            ratios: USUAL_RATIOS.to_vec(),
            cup: None,
            room: None,
            wet_film: None,
            gun: None,
            wet_passes: 1,
            job: None,
            substrate: Substrate::default(),
            dropper: None,
        }
    }

    /// Parts of thinner to one part of paint, by volume, one row each.
    #[must_use]
    pub fn thinner_per_paint(mut self, ratios: &[f64]) -> Self {
        self.ratios = ratios.to_vec();
        self
    }

    /// The cup on the bench.
    #[must_use]
    pub fn cup(mut self, cup: &FlowCup) -> Self {
        self.cup = Some(cup.clone());
        self
    }

    /// The room.
    #[must_use]
    pub fn room(mut self, room: &Room) -> Self {
        self.room = Some(room.clone());
        self
    }

    /// The wet film of one coat. With a gun: of what lands, in as many passes as it takes.
    #[must_use]
    pub fn wet_film(mut self, wet_film: Length) -> Self {
        self.wet_film = Some(wet_film);
        self
    }

    /// Sprays each ratio with this gun: drop size, loss in flight, film a pass and the first fault come to the table, and the
    /// coat that dries is the one that lands, in one pass unless [`Self::wet_passes`] or [`Self::wet_film`] says otherwise.
    ///
    /// ```
    /// use mistcoat::bench::Compare;
    /// use mistcoat::blend::{Basis, Blend};
    /// use mistcoat::paint::{Family, Paint};
    /// use mistcoat::quantity::parse;
    /// use mistcoat::spray::Airbrush;
    /// let paint = Paint::typical(Family::SolventLacquer, "hull green")?;
    /// let thinner = Blend::from_names(&[("acetone", 30.0), ("n-butyl acetate", 70.0)], Basis::Volume, None)?;
    /// let gun = Airbrush::new(parse("0.3 mm")?, parse("20 psi")?, parse("80 mm")?)?;
    /// let comparison = Compare::new(&paint, &thinner).airbrush(&gun).wet_passes(2).run()?;
    /// let [first, .., last] = comparison.rows() else { panic!() };
    /// let size = |row: &mistcoat::bench::Row| row.sprayed.as_ref().map(|s| s.drop_size.best());
    /// assert!(size(first) > size(last));
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    #[must_use]
    pub fn airbrush(mut self, gun: &Airbrush) -> Self {
        self.gun = Some(gun.clone());
        self
    }

    /// Passes of the gun laid wet in wet, 1 to 20; 1 when not called.
    #[must_use]
    pub fn wet_passes(mut self, passes: u32) -> Self {
        self.wet_passes = passes;
        self
    }

    /// The job whose targets sprayed coats are judged for; "base coat" when not called.
    #[must_use]
    pub fn job(mut self, job: &Job) -> Self {
        self.job = Some(job.clone());
        self
    }

    /// What the coat lies on.
    #[must_use]
    pub fn substrate(mut self, substrate: Substrate) -> Self {
        self.substrate = substrate;
        self
    }

    /// Counts drops from this dropper, for an amount of mix when given.
    #[must_use]
    pub fn dropper(mut self, dropper: &Dropper, total: Option<Volume>) -> Self {
        self.dropper = Some((dropper.clone(), total));
        self
    }

    /// Works it out.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for no ratio, more than 50, or a negative one; a
    /// [`crate::error::PhaseSplit`] when carrier and thinner do not mix; errors of the parts.
    pub fn run(&self) -> Result<Comparison> {
        if self.ratios.is_empty() || self.ratios.len() > MOST_ROWS {
            return Err(out_of_range(
                "number of ratios",
                self.ratios.len().to_string(),
                format!("1 to {MOST_ROWS}"),
                "name parts of thinner to one part of paint, for example 0.5, 1, 2 and 3",
            ));
        }
        let room = match &self.room {
            Some(room) => room.clone(),
            None => Room::new(Temperature::from_si(USUAL_ROOM.0), RelativeHumidity::new(USUAL_ROOM.1)?)?,
        };
        // Worked out side by side, but looked at in order: the error told is always that of the first bad ratio.
        #[cfg(feature = "parallel")]
        let rows: Vec<Result<Row>> = self.ratios.par_iter().map(|r| self.row(*r, &room)).collect();
        #[cfg(not(feature = "parallel"))]
        let rows = self.ratios.iter().map(|r| self.row(*r, &room));
        let rows = rows.into_iter().collect::<Result<Vec<_>>>()?;
        Ok(Comparison {
            paint: self.paint.name().to_owned(),
            family: self.paint.family().name().to_owned(),
            thinner: self.thinner.label(),
            cup: self.cup.clone(),
            room,
            substrate: self.substrate.to_string(),
            wet_film: match (&self.gun, self.wet_film) {
                (None, None) => Some(Length::from_si(USUAL_WET_FILM_M)),
                (_, stated) => stated,
            },
            spraying: match &self.gun {
                Some(gun) => {
                    Some(Spraying { gun: gun.clone(), wet_passes: self.wet_passes, job: self.wanted()?.name })
                }
                None => None,
            },
            cautions: cautions(&rows)?,
            rows,
        })
    }

    /// What the sprayed coats are judged for: an even coat of colour unless another job is named.
    fn wanted(&self) -> Result<Job> {
        self.job.clone().map_or_else(|| Job::named(USUAL_JOB), Ok)
    }

    fn row(&self, thinner_per_paint: f64, room: &Room) -> Result<Row> {
        let parts = Parts { thinner: thinner_per_paint, paint: 1.0 };
        let mix = self.paint.thin(&self.thinner, Thinning::from_parts(parts)?)?;
        let t = room.temperature();
        let viscosity = mix.viscosity(t)?;
        let mut warnings = viscosity.warnings.clone();
        let efflux_time = self.efflux_time(&mix, t, &mut warnings)?;
        let volatile = mix.volatile()?;
        warnings.extend(attack(&volatile, &self.substrate));
        let coat = match &self.gun {
            Some(gun) => Coat::sprayed(self, (gun, thinner_per_paint), &mix, room, &mut warnings)?,
            None => Coat::stated(&mix, self.wet_film.unwrap_or(Length::from_si(USUAL_WET_FILM_M)), room)?,
        };
        let film = coat.film.map(|film| film.with_substrate(self.substrate.clone()));
        let dries = Dries::of(film, &volatile, room, &mut warnings)?;
        let drops = self.drops(&mix, t, &mut warnings)?;
        Ok(Row {
            thinner_per_paint,
            volume_solids: mix.volume_solids(),
            viscosity,
            efflux_time,
            sprayed: coat.sprayed,
            wet_film: coat.wet_film,
            dry_film: coat.dry_film,
            flash_off: dries.flash_off,
            left_at_flash_off: dries.left_at_flash_off,
            coldest: dries.coldest,
            touch_dry: dries.touch_dry,
            recoat: dries.recoat,
            blush_limit: dries.blush_limit,
            ripple_left: dries.ripple_left,
            voc: mix.voc()?.total,
            drops,
            warnings: distinct(warnings),
            mix,
        })
    }

    fn efflux_time(&self, mix: &Mix, t: Temperature, to: &mut Vec<Warning>) -> Result<Option<Answer<Time>>> {
        let Some(cup) = &self.cup else { return Ok(None) };
        let time = or_warning(mix.efflux_time(cup, t), "no-cup-time", to)?;
        to.extend(time.iter().flat_map(|t| t.warnings.iter().cloned()));
        Ok(time)
    }

    fn drops(&self, mix: &Mix, t: Temperature, to: &mut Vec<Warning>) -> Result<Option<(u32, u32)>> {
        let Some((dropper, total)) = &self.dropper else { return Ok(None) };
        let Some(drops) = or_warning(mix.drops(*total, Droppers::same(dropper), t), "no-drop-recipe", to)?
        else {
            return Ok(None);
        };
        to.extend(drops.warnings);
        Ok(drops.recipes.first().map(|r| (r.paint_drops, r.thinner_drops)))
    }
}

/// One figure that cannot be had must not cost the reader the row: out of range becomes a warning.
pub(super) fn or_warning<T>(answer: Result<T>, code: &str, warnings: &mut Vec<Warning>) -> Result<Option<T>> {
    match answer {
        Ok(found) => Ok(Some(found)),
        Err(Error::Range(e)) => {
            warnings.push(Warning::new(code, e.to_string()));
            Ok(None)
        }
        Err(e) => Err(e),
    }
}

/// The warnings in their order, each once.
pub(super) fn distinct(warnings: Vec<Warning>) -> Vec<Warning> {
    let mut kept: Vec<Warning> = Vec::with_capacity(warnings.len());
    for w in warnings {
        if !kept.contains(&w) {
            kept.push(w);
        }
    }
    kept
}

#[cfg(test)]
mod tests;
