//! I have this paint, this thinner, this cup, this room: what do half a part, one, two and three parts of
//! thinner to one of paint do?
//!
//! For each ratio: volume solids, viscosity, seconds in the cup, the dry film a wet coat leaves, flash-off and
//! what is left in the coat by then, VOC, and drops when a dropper is given. The chain is that of the parts it
//! is made of: mass balance and dilution law ([`crate::paint`]), cup equation ([`crate::cup`]), drying engine
//! ([`crate::film`]); each brings its own interval, warnings and working, and the comparison carries them on.
//!
//! What it leaves out: the spray between nozzle and part (solvent lost in flight makes the coat arrive thicker
//! and drier than this says) and everything after flash-off.

use super::table::{Cell, Column, Table};
use crate::air::Room;
use crate::answer::Answer;
use crate::blend::Blend;
use crate::cup::FlowCup;
use crate::dose::{Dropper, Parts, Thinning};
use crate::error::{Error, Result, out_of_range};
use crate::estimate::Estimate;
use crate::film::{Film, Substrate};
use crate::paint::{Droppers, Mix, Paint};
use crate::quantity::{
    DynamicViscosity, Length, MassConcentration, Quantity, Ratio, RelativeHumidity, Temperature, Time,
    Volume, as_text, digits, show, to,
};
use crate::solvent::PolystyreneAttack;
use crate::warning::Warning;
use crate::working::Working;
use serde::{Deserialize, Serialize};

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

/// One ratio of the comparison.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Row {
    /// Parts of thinner to one part of paint, by volume.
    pub thinner_per_paint: f64,
    /// The mix.
    pub mix: Mix,
    /// Solids by volume.
    pub volume_solids: Estimate<Ratio>,
    /// Viscosity at room temperature.
    pub viscosity: Answer<DynamicViscosity>,
    /// Seconds in the cup; none without a cup.
    pub efflux_time: Option<Answer<Time>>,
    /// What the wet film leaves.
    pub dry_film: Estimate<Length>,
    /// Flash-off; none when the coat never loses that much, with the reason in the warnings.
    pub flash_off: Option<Answer<Time>>,
    /// Share by mass of each liquid, as poured, in what is left at flash-off; largest first, from 0.5 %. Of a
    /// petroleum cut it is the heavy end that is left; water also comes out of the air.
    pub left_at_flash_off: Vec<(String, f64)>,
    /// Coldest the film gets.
    #[serde(with = "as_text")]
    pub coldest: Temperature,
    /// Organic volatiles per volume of the mix.
    #[serde(with = "as_text")]
    pub voc: MassConcentration,
    /// Whole drops of paint and of thinner; none without a dropper.
    pub drops: Option<(u32, u32)>,
    /// What to mind at this ratio.
    pub warnings: Vec<Warning>,
}

/// The answer to [`Compare`].
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Comparison {
    paint: String,
    family: String,
    thinner: String,
    cup: Option<FlowCup>,
    room: Room,
    substrate: String,
    #[serde(with = "as_text")]
    wet_film: Length,
    cautions: Vec<String>,
    rows: Vec<Row>,
}

impl Compare {
    /// Compares the usual ratios in a room of 21 °C, 50 % relative humidity and no draught, for a wet film of
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
        let rows = self.ratios.iter().map(|r| self.row(*r, &room)).collect::<Result<Vec<_>>>()?;
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
        let efflux_time = match &self.cup {
            None => None,
            Some(cup) => match mix.efflux_time(cup, t) {
                Ok(time) => {
                    warnings.extend(time.warnings.iter().cloned());
                    Some(time)
                }
                Err(Error::Range(e)) => {
                    warnings.push(Warning::new("no-cup-time", e.to_string()));
                    None
                }
                Err(e) => return Err(e),
            },
        };
        let solids = mix.volume_solids();
        let volatile = mix.volatile()?;
        let film = Film::new(&volatile, solids.best.try_into()?, self.wet_film, room)?
            .with_substrate(self.substrate.clone());
        warnings.extend(attack(&volatile, &self.substrate));
        let dry = film.dry()?;
        let (flash_off, left_at_flash_off) = match dry.flash_off() {
            Ok(flash) => {
                warnings.extend(flash.warnings.iter().cloned());
                let left = as_poured(&volatile, dry.composition_at(flash.best())?);
                (Some(flash), left)
            }
            Err(Error::Range(e)) => {
                warnings.push(Warning::new("no-flash-off", e.to_string()));
                (None, Vec::new())
            }
            Err(e) => return Err(e),
        };
        let drops = match &self.dropper {
            None => None,
            Some((dropper, total)) => {
                let drops = mix.drops(*total, Droppers::same(dropper), t)?;
                warnings.extend(drops.warnings.iter().cloned());
                drops.recipes.first().map(|r| (r.paint_drops, r.thinner_drops))
            }
        };
        let mut kept: Vec<Warning> = Vec::new();
        for w in warnings {
            if !kept.contains(&w) {
                kept.push(w);
            }
        }
        Ok(Row {
            thinner_per_paint,
            volume_solids: solids,
            viscosity,
            efflux_time,
            dry_film: mix.dry_film(self.wet_film)?,
            flash_off,
            left_at_flash_off,
            coldest: dry.coldest(),
            voc: mix.voc()?.total,
            drops,
            warnings: kept,
            mix,
        })
    }
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
    (!names.is_empty()).then(|| {
        Warning::new(
            "attacks-polystyrene",
            format!(
                "{} dissolve or soften polystyrene (general experience, from memory): prime the plastic, mist thin \
                 coats and try on scrap of the same part first",
                names.join(", ")
            ),
        )
    })
}

/// What everybody at the bench must know before opening the bottle.
fn cautions(rows: &[Row]) -> Result<Vec<String>> {
    let Some(row) = rows.last() else { return Ok(Vec::new()) };
    let mut out = Vec::new();
    if let Some(flash) = row.mix.thinner().flash_point()? {
        let near = if flash.best() < Temperature::from_si(296.15) {
            "flammable at room temperature"
        } else {
            "combustible"
        };
        out.push(format!(
            "Fire: the thinner is {near} (flash point about {}, computed). No flame, spark or heater; rags and waste in a closed metal can.",
            show(flash.best())
        ));
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

impl Comparison {
    /// Name of the paint.
    pub fn paint(&self) -> &str {
        &self.paint
    }

    /// Name or recipe of the thinner.
    pub fn thinner(&self) -> &str {
        &self.thinner
    }

    /// The cup, when there was one.
    pub fn cup(&self) -> Option<&FlowCup> {
        self.cup.as_ref()
    }

    /// The room.
    pub fn room(&self) -> &Room {
        &self.room
    }

    /// The wet film of one coat.
    pub fn wet_film(&self) -> Length {
        self.wet_film
    }

    /// One row a ratio, in the order asked.
    pub fn rows(&self) -> &[Row] {
        &self.rows
    }

    /// Fire, air and who decides.
    pub fn cautions(&self) -> &[String] {
        &self.cautions
    }

    /// Paint and thinner in one line.
    pub fn title(&self) -> String {
        format!("{} ({}) with {}", self.paint, self.family, self.thinner)
    }

    /// Room, coat and what it lies on in one line.
    pub fn conditions(&self) -> String {
        format!(
            "{}, {} relative humidity, air at {}; {} wet on {}",
            show(self.room.temperature()),
            self.room.relative_humidity(),
            show(self.room.air_speed()),
            show(self.wet_film),
            self.substrate
        )
    }

    /// All distinct warnings, each with the ratios it was seen at.
    pub fn warnings(&self) -> Vec<Warning> {
        let mut seen: Vec<(&Warning, Vec<f64>)> = Vec::new();
        for row in &self.rows {
            for w in &row.warnings {
                match seen.iter_mut().find(|(s, _)| s.code == w.code) {
                    Some((_, at)) if at.last() == Some(&row.thinner_per_paint) => {}
                    Some((_, at)) => at.push(row.thinner_per_paint),
                    None => seen.push((w, vec![row.thinner_per_paint])),
                }
            }
        }
        seen.into_iter()
            .map(|(w, at)| {
                if at.len() == self.rows.len() {
                    return w.clone();
                }
                let list: Vec<String> = at.iter().map(|r| digits(*r, 3)).collect();
                let parts = if list == ["1"] { "part" } else { "parts" };
                Warning::new(&w.code, format!("At {} {parts} of thinner: {}", list.join(", "), w.message))
            })
            .collect()
    }

    /// The steps of one ratio, or of all when none is named.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a ratio that was not compared.
    pub fn working(&self, thinner_per_paint: Option<f64>) -> Result<Working> {
        let chosen: Vec<&Row> = match thinner_per_paint {
            None => self.rows.iter().collect(),
            Some(r) => self.rows.iter().filter(|row| (row.thinner_per_paint - r).abs() < 1e-9).collect(),
        };
        if chosen.is_empty() {
            let known: Vec<String> = self.rows.iter().map(|r| digits(r.thinner_per_paint, 4)).collect();
            return Err(out_of_range(
                "parts of thinner to one part of paint",
                digits(thinner_per_paint.unwrap_or(f64::NAN), 4),
                format!("one of {}", known.join(", ")),
                "name a ratio that was compared",
            ));
        }
        let mut out = Working::new(format!("{}; {}", self.title(), self.conditions()));
        for row in chosen {
            // The cup's working starts with the viscosity, so one of the two is enough.
            out.append(match &row.efflux_time {
                Some(time) => time.working.clone(),
                None => row.viscosity.working.clone(),
            });
            if let Some(flash) = &row.flash_off {
                out.append(flash.working.clone());
            }
        }
        Ok(out)
    }

    /// The comparison as a table, with what to mind under it.
    pub fn table(&self) -> Table {
        let rows = &self.rows;
        let mut columns = vec![
            column("thinner_parts_per_paint_part", "thinner to\n1 paint", "1", rows, |r| {
                Cell::number(digits(r.thinner_per_paint, 3), r.thinner_per_paint)
            }),
            column("paint_fraction", "paint in\nthe mix", "%", rows, |r| {
                let x = r.mix.paint_fraction().get() * 100.0;
                Cell::number(format!("{} %", digits(x, 3)), x)
            }),
            column("volume_solids", "volume\nsolids", "%", rows, |r| {
                estimate_cell(&r.volume_solids, "%", false)
            }),
            column("viscosity", "viscosity, mPa.s\n(95 % range)", "mPa.s", rows, |r| {
                estimate_cell(&r.viscosity.estimate, "mPa.s", true)
            }),
        ];
        if let Some(cup) = &self.cup {
            let title = format!("seconds in {}\n(95 % range)", cup.name());
            columns.push(column("efflux_time", &title, "s", rows, |r| match &r.efflux_time {
                Some(t) => {
                    let mut cell = estimate_cell(&t.estimate, "s", true);
                    if t.warnings.iter().any(|w| w.code.starts_with("cup-")) {
                        cell.text = format!("[{}]", cell.text);
                    }
                    cell
                }
                None => Cell::words("–"),
            }));
        }
        let film = format!("dry film, µm,\nof {} wet", show(self.wet_film));
        columns.push(column("dry_film", &film, "µm", rows, |r| estimate_cell(&r.dry_film, "µm", false)));
        columns.push(column("flash_off", "flash-off, s\n(95 % range)", "s", rows, |r| match &r.flash_off {
            Some(t) => estimate_cell(&t.estimate, "s", true),
            None => Cell::words("never"),
        }));
        columns.push(column("left_at_flash_off", "mostly left\nby then", "", rows, |r| {
            Cell::words(
                r.left_at_flash_off
                    .first()
                    .map_or("–".to_owned(), |(n, s)| format!("{n} {:.0} %", s * 100.0)),
            )
        }));
        columns.push(column("voc", "VOC,\ng/L", "g/L", rows, |r| {
            let v = to(r.voc, "g/L").unwrap_or(f64::NAN);
            Cell::number(digits(v, 3), v)
        }));
        if rows.iter().any(|r| r.drops.is_some()) {
            columns.push(column("drops", "drops, paint\n+ thinner", "", rows, |r| {
                Cell::words(r.drops.map_or("–".to_owned(), |(p, t)| format!("{p} + {t}")))
            }));
        }
        Table { caption: format!("{}. {}.", self.title(), self.conditions()), columns, notes: self.notes() }
    }

    fn notes(&self) -> Vec<String> {
        let mut notes = vec![
            "Parts are by volume. Flash-off: the time until 90 % of the volatile mass has left the wet coat."
                .to_owned(),
        ];
        if let Some(row) = self.rows.first() {
            let causes: Vec<String> = row
                .viscosity
                .estimate
                .contributors
                .iter()
                .take(2)
                .map(|c| format!("{} ({:.0} %)", c.what, c.share * 100.0))
                .collect();
            if !causes.is_empty() {
                notes.push(format!(
                    "The viscosity range comes from {}; one cup reading of a mix narrows it.",
                    causes.join(" and ")
                ));
            }
        }
        if self.cup.is_some()
            && self.rows.iter().any(|r| r.efflux_time.as_ref().is_some_and(|t| !t.warnings.is_empty()))
        {
            notes.push("Seconds in [brackets] lie outside the range of the cup.".to_owned());
        }
        notes.extend(self.warnings().into_iter().map(|w| sentence(&w.message)));
        notes.extend(self.cautions.iter().cloned());
        notes
    }
}

/// A message as a sentence: capital letter first, full stop last.
fn sentence(message: &str) -> String {
    let mut chars = message.chars();
    let first: String = chars.next().into_iter().flat_map(char::to_uppercase).collect();
    let stop = if message.ends_with('.') { "" } else { "." };
    format!("{first}{}{stop}", chars.as_str())
}

fn column(key: &str, title: &str, unit: &str, rows: &[Row], cell: impl Fn(&Row) -> Cell) -> Column {
    Column {
        key: key.to_owned(),
        title: title.to_owned(),
        unit: unit.to_owned(),
        cells: rows.iter().map(cell).collect(),
    }
}

/// `20 (14–29)` or `20`; the unit stands in the heading, a percent sign in the cell.
fn estimate_cell<Q: Quantity>(e: &Estimate<Q>, unit: &str, with_range: bool) -> Cell {
    let value = |q: Q| to(q, unit).unwrap_or(f64::NAN);
    let (best, low, high) = (value(e.best), value(e.low), value(e.high));
    let text = if with_range {
        format!("{} ({}–{})", digits(best, 2), digits(low, 2), digits(high, 2))
    } else if unit == "%" {
        format!("{} %", digits(best, 2))
    } else {
        digits(best, 2)
    };
    Cell::estimate(text, best, low, high)
}

#[cfg(test)]
mod tests;
