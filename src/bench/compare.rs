//! I have this paint, this thinner, this cup, this room: what do half a part, one, two and three parts of
//! thinner to one of paint do?
//!
//! For each ratio: volume solids, viscosity, seconds in the cup, the dry film a wet coat leaves, flash-off and
//! what is left in the coat by then, touch dry, recoat, blush limit, ripple left, VOC, and drops when a dropper is given. The chain is that of the parts it
//! is made of: mass balance and dilution law ([`crate::paint`]), cup equation ([`crate::cup`]), drying engine
//! ([`crate::film`]); each brings its own interval, warnings and working, and the comparison carries them on.
//!
//! What it leaves out: the spray between nozzle and part (solvent lost in flight makes the coat arrive thicker
//! and drier than this says).

use super::comparison::{Comparison, Row};
use crate::air::Room;
use crate::answer::Answer;
use crate::blend::Blend;
use crate::cup::FlowCup;
use crate::dose::{Dropper, Parts, Thinning};
use crate::error::{Error, Result, out_of_range};
use crate::film::{Drying, Film, Ripple, Substrate};
use crate::paint::{Droppers, Family, Mix, Paint};
use crate::quantity::{Length, Quantity, Ratio, RelativeHumidity, Temperature, Time, Volume, show};
use crate::solvent::PolystyreneAttack;
use crate::warning::Warning;
#[cfg(feature = "parallel")]
use rayon::prelude::*;

/// Thinner to one part of paint when nothing is said.
pub const USUAL_RATIOS: [f64; 4] = [0.5, 1.0, 2.0, 3.0];
/// Wet film when nothing is said: what a few passes of an airbrush lay down (common practice).
const USUAL_WET_FILM_M: f64 = 25e-6;
/// Room when nothing is said, K and relative humidity.
const USUAL_ROOM: (f64, f64) = (294.15, 0.5);
/// Shares below this are left out of what a reader is shown.
const LEAST_SHARE: f64 = 0.005;
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
    wet_film: Length,
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
            wet_film: Length::from_si(USUAL_WET_FILM_M),
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

    /// The wet film of one coat.
    #[must_use]
    pub fn wet_film(mut self, wet_film: Length) -> Self {
        self.wet_film = wet_film;
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
            wet_film: self.wet_film,
            cautions: cautions(&rows)?,
            rows,
        })
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
        let dry = Film::of_mix(&mix, self.wet_film, room)?.with_substrate(self.substrate.clone()).dry()?;
        let flash_off = or_warning(dry.flash_off(), "no-flash-off", &mut warnings)?;
        let left_at_flash_off = match &flash_off {
            Some(flash) => {
                warnings.extend(flash.warnings.iter().cloned());
                as_poured(&volatile, dry.composition_at(flash.best())?)
            }
            None => Vec::new(),
        };
        let lies = Lies::of(&dry, &mut warnings)?;
        let drops = self.drops(&mix, t, &mut warnings)?;
        Ok(Row {
            thinner_per_paint,
            volume_solids: mix.volume_solids(),
            viscosity,
            efflux_time,
            dry_film: mix.dry_film(self.wet_film)?,
            flash_off,
            left_at_flash_off,
            coldest: dry.coldest(),
            touch_dry: lies.touch_dry,
            recoat: lies.recoat,
            blush_limit: lies.blush_limit,
            ripple_left: lies.ripple_left,
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

/// What a coat does after flash-off, as far as it can be had.
struct Lies {
    touch_dry: Option<Answer<Time>>,
    recoat: Option<Answer<Time>>,
    blush_limit: Option<Answer<Ratio>>,
    ripple_left: Option<Answer<Ratio>>,
}

impl Lies {
    fn of(dry: &Drying, warnings: &mut Vec<Warning>) -> Result<Self> {
        let touch_dry = or_warning(dry.touch_dry(), "no-touch-dry", warnings)?;
        // A binder without the one has not the other, for the same reason: told once.
        let mut why = Vec::new();
        let recoat = or_warning(dry.block_free(), "no-recoat", &mut why)?;
        if touch_dry.is_some() {
            warnings.extend(why);
        }
        // A waterborne coat has no limit and needs no word about it; dew in this room is told by the drying.
        let blush_limit = or_warning(dry.blush(), "no-blush-limit", &mut Vec::new())?.map(|b| b.limit);
        let ripple_left = or_warning(dry.levelling(&Ripple::usual()?), "no-levelling", warnings)?;
        if let Some(ripple) = &ripple_left {
            warnings.extend(ripple.warnings.iter().cloned());
        }
        Ok(Self { touch_dry, recoat, blush_limit, ripple_left })
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

/// Gathers species under the liquid that brought most of them; water from the air stands by itself.
fn as_poured(volatile: &Blend, species: Vec<(String, Ratio)>) -> Vec<(String, f64)> {
    let mut left: Vec<(String, f64)> = Vec::new();
    for (name, share) in species {
        let poured = volatile.species().iter().find(|s| s.solvent.name() == name);
        let name = poured.map_or(name, |s| volatile.ingredients()[s.ingredient].solvent.name().to_owned());
        match left.iter_mut().find(|(known, _)| *known == name) {
            Some((_, sum)) => *sum += share.si(),
            None => left.push((name, share.si())),
        }
    }
    left.retain(|(_, share)| *share > LEAST_SHARE);
    left.sort_by(|a, b| b.1.total_cmp(&a.1));
    left
}

/// Warns when a liquid of the coat is known to dissolve the polystyrene it is laid on.
fn attack(volatile: &Blend, substrate: &Substrate) -> Option<Warning> {
    if !matches!(substrate, Substrate::Plate { material, .. } if material == "polystyrene") {
        return None;
    }
    let names: Vec<&str> = volatile
        .ingredients()
        .iter()
        .filter(|i| i.solvent.polystyrene_attack() == Some(PolystyreneAttack::Dissolves))
        .map(|i| i.solvent.name())
        .collect();
    let verb = if names.len() == 1 { "dissolves or softens" } else { "dissolve or soften" };
    (!names.is_empty()).then(|| {
        Warning::new(
            "attacks-polystyrene",
            format!(
                "{} {verb} polystyrene (general experience, from memory): prime the plastic, mist thin \
                 coats and try on scrap of the same part first",
                names.join(", ")
            ),
        )
    })
}

/// Below this a liquid gives a flammable vapour in a warm room (23 °C, the limit of the older flash point classes).
const FLAMMABLE_BELOW_K: f64 = 296.15;

/// What everybody at the bench must know before opening the bottle. The thinner is not the whole of it: an
/// alcohol paint thinned with water burns too, so the paint and the liquids of every mix count.
fn cautions(rows: &[Row]) -> Result<Vec<String>> {
    let mut flash: Option<(Temperature, &str)> = None;
    let mut unknown = false;
    let mut liquids = Vec::with_capacity(rows.len() + 2);
    if let Some(row) = rows.first() {
        liquids.push(("the thinner", row.mix.thinner().clone()));
        liquids.push(("the paint", row.mix.paint().carrier().clone()));
    }
    for row in rows {
        liquids.push(("the thinned paint", row.mix.volatile()?));
    }
    for (what, liquid) in &liquids {
        match liquid.flash_point() {
            Ok(Some(f)) if flash.is_none_or(|(lowest, _)| f.best() < lowest) => {
                flash = Some((f.best(), what));
            }
            Ok(_) => {}
            Err(Error::Range(_)) => unknown = true,
            Err(e) => return Err(e),
        }
    }
    let mut out = Vec::new();
    if unknown {
        out.push(
            "Fire: the flash point of a solvent in it is not known; treat it as flammable. No flame, spark or heater; \
             rags and waste in a closed metal can."
                .to_owned(),
        );
    } else if let Some((t, what)) = flash {
        let (near, mist) = if t < Temperature::from_si(FLAMMABLE_BELOW_K) {
            ("flammable at room temperature", "")
        } else {
            ("combustible", "; its mist burns below that")
        };
        out.push(format!(
            "Fire: {what} is {near} (flash point about {}, computed{mist}). No flame, spark or heater; rags and waste \
             in a closed metal can.",
            show(t)
        ));
    }
    // Common practice of fire safety: drying oils take up oxygen and warm a heap of cloth until it burns.
    if rows.iter().any(|row| matches!(row.mix.paint().family(), Family::AlkydEnamel | Family::ArtistsOil)) {
        out.push(
            "Rags: cloth with alkyd or oil paint on it heats by itself and can catch fire hours later. Spread it out \
             to dry outdoors, or keep it wet with water in a closed metal can."
                .to_owned(),
        );
    }
    out.push(
        "Air: solvent vapour and spray mist harm lungs and nerves, and odour is no warning. Ventilate to the \
         outside, wear a fitted mask with cartridges for organic vapour and particles, gloves that stand the solvent."
            .to_owned(),
    );
    out.push(
        "The safety data sheets of the paint and the thinner, local codes and licensed practice decide; these \
         figures do not replace them."
            .to_owned(),
    );
    Ok(out)
}

#[cfg(test)]
mod tests;
