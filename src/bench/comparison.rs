//! What thinning does, row by row: the answer of [`super::Compare`], as numbers, table, warnings and working.
//!
//! A [`Row`] keeps what the chain gave at one ratio, with its interval; a [`Comparison`] lays the rows side by
//! side. Nothing is worked out here.

use crate::air::Room;
use crate::answer::Answer;
use crate::cup::FlowCup;
use crate::error::{Result, out_of_range};
use crate::estimate::Estimate;
use crate::paint::Mix;
use crate::quantity::{
    DynamicViscosity, Length, MassConcentration, Quantity, Ratio, Temperature, Time, as_text, digits, show,
    to,
};
use crate::table::{Cell, Column, Table};
use crate::warning::Warning;
use crate::working::{Step, Working};
use serde::{Deserialize, Serialize};

/// Causes of a spread with a smaller share of the variance are not told.
const LEAST_CAUSE: f64 = 0.02;

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
    /// Touch dry; none for paints that harden by oxygen, with the reason in the warnings.
    #[serde(default)]
    pub touch_dry: Option<Answer<Time>>,
    /// Earliest time for another coat of another paint (block-free); none for binders without such a time.
    #[serde(default)]
    pub recoat: Option<Answer<Time>>,
    /// Highest relative humidity without dew on the coat; none for waterborne ones.
    #[serde(default)]
    pub blush_limit: Option<Answer<Ratio>>,
    /// Share left of a ripple of 2 mm when the coat has set; none where the flow is not known.
    #[serde(default)]
    pub ripple_left: Option<Answer<Ratio>>,
    /// Organic volatiles per volume of the mix.
    #[serde(with = "as_text")]
    pub voc: MassConcentration,
    /// Whole drops of paint and of thinner; none without a dropper.
    pub drops: Option<(u32, u32)>,
    /// What to mind at this ratio.
    pub warnings: Vec<Warning>,
}

/// The answer to [`super::Compare`].
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Comparison {
    pub(super) paint: String,
    pub(super) family: String,
    pub(super) thinner: String,
    pub(super) cup: Option<FlowCup>,
    pub(super) room: Room,
    pub(super) substrate: String,
    #[serde(with = "as_text")]
    pub(super) wet_film: Length,
    pub(super) cautions: Vec<String>,
    pub(super) rows: Vec<Row>,
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

    /// All warnings by code, each with the ratios it was seen at. Where the numbers in a message differ from
    /// ratio to ratio, the message is that of the first.
    pub fn warnings(&self) -> Vec<Warning> {
        let mut seen: Vec<Seen<'_>> = Vec::new();
        for row in &self.rows {
            for w in &row.warnings {
                match seen.iter_mut().find(|s| s.first.code == w.code) {
                    Some(s) => s.again(w, row.thinner_per_paint),
                    None => seen.push(Seen { first: w, at: vec![row.thinner_per_paint], alike: true }),
                }
            }
        }
        seen.into_iter().map(|s| s.told(self.rows.len())).collect()
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
        let several = chosen.len() > 1;
        for row in chosen {
            let first = out.steps.len();
            out.append(row.mix.working());
            // The cup's working starts with the viscosity, so one of the two is enough.
            out.append(match &row.efflux_time {
                Some(time) => time.working.clone(),
                None => row.viscosity.working.clone(),
            });
            out.push(
                Step::new("dry film", "h_dry = h VS'", r"h_\mathrm{dry} = h\,VS'")
                    .numbers(format!("{} × {}", show(self.wet_film), show(row.volume_solids.best)))
                    .result(row.dry_film.to_string()),
            );
            if let Some(flash) = &row.flash_off {
                out.append(flash.working.clone());
            }
            if several {
                for step in out.steps.iter_mut().skip(first) {
                    step.name = format!("{}, {}", row.mix.thinning(), step.name);
                }
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
                    if outside_cup(t) {
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
        columns.push(column("touch_dry", "touch\ndry", "s", rows, |r| time_cell(r.touch_dry.as_ref())));
        if rows.iter().any(|r| r.recoat.is_some()) {
            columns.push(column("recoat", "recoat", "s", rows, |r| time_cell(r.recoat.as_ref())));
        }
        if rows.iter().any(|r| r.blush_limit.is_some()) {
            columns.push(column("blush_limit", "blushes\nabove, RH", "%", rows, |r| {
                r.blush_limit
                    .as_ref()
                    .map_or_else(|| Cell::words("–"), |b| estimate_cell(&b.estimate, "%", false))
            }));
        }
        columns.push(column("ripple_left", "ripple\nleft, %", "%", rows, |r| {
            r.ripple_left.as_ref().map_or_else(|| Cell::words("–"), |l| share_cell(&l.estimate, false))
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
        if self.rows.iter().any(|r| r.ripple_left.is_some()) {
            notes.push(
                "Ripple left: what the coat keeps of a ripple of 2 mm when it has set; up to 20 % counts as level. It hangs on the \
                 fourth power of the wavelength: compare the rows, do not trust one number."
                    .to_owned(),
            );
        }
        if self.rows.iter().any(|r| r.recoat.is_some()) {
            notes.push(
                "Touch dry and recoat (block-free) are known within a factor 3; no published rule says when another \
                 paint may go over."
                    .to_owned(),
            );
        }
        // Undiluted paint has no law in it; the first mix speaks for the others.
        if let Some(row) = self.rows.iter().find(|r| r.thinner_per_paint > 0.0).or(self.rows.first()) {
            let causes: Vec<String> = row
                .viscosity
                .estimate
                .contributors
                .iter()
                .take(2)
                .filter(|c| c.share > LEAST_CAUSE)
                .map(|c| format!("{} ({:.0} %)", c.what, c.share * 100.0))
                .collect();
            if !causes.is_empty() {
                notes.push(format!(
                    "Where the viscosity range comes from: {}. One cup reading of a mix narrows it.",
                    causes.join(", ")
                ));
            }
        }
        if self.cup.is_some() && self.rows.iter().any(|r| r.efflux_time.as_ref().is_some_and(outside_cup)) {
            notes.push("Seconds in [brackets] lie outside the range of the cup.".to_owned());
        }
        notes.extend(self.warnings().into_iter().map(|w| sentence(&w.message)));
        notes.extend(self.cautions.iter().cloned());
        notes
    }
}

/// One code of warning and the ratios it was seen at.
struct Seen<'a> {
    first: &'a Warning,
    at: Vec<f64>,
    alike: bool,
}

impl Seen<'_> {
    fn again(&mut self, warning: &Warning, ratio: f64) {
        self.alike &= self.first.message == warning.message;
        if self.at.last() != Some(&ratio) {
            self.at.push(ratio);
        }
    }

    fn told(&self, rows: usize) -> Warning {
        let Warning { code, message } = self.first;
        let words = |at: &[f64]| {
            let list: Vec<String> = at.iter().map(|r| digits(*r, 3)).collect();
            let parts = if list == ["1"] { "part" } else { "parts" };
            format!("{} {parts} of thinner", list.join(", "))
        };
        match self.at.split_first() {
            _ if self.alike && self.at.len() == rows => self.first.clone(),
            Some((first, rest)) if !self.alike && !rest.is_empty() => Warning::new(
                code,
                format!("At {}: {message} (likewise at {})", words(&[*first]), words(rest)),
            ),
            _ => Warning::new(code, format!("At {}: {message}", words(&self.at))),
        }
    }
}

/// A message as a sentence: capital letter first, full stop last.
pub(super) fn sentence(message: &str) -> String {
    let mut chars = message.chars();
    let first: String = chars.next().into_iter().flat_map(char::to_uppercase).collect();
    let stop = if message.ends_with('.') { "" } else { "." };
    format!("{first}{}{stop}", chars.as_str())
}

fn outside_cup(time: &Answer<Time>) -> bool {
    time.warnings.iter().any(|w| matches!(w.code.as_str(), "cup-time-below-range" | "cup-time-above-range"))
}

fn column(key: &str, title: &str, unit: &str, rows: &[Row], cell: impl Fn(&Row) -> Cell) -> Column {
    Column {
        key: key.to_owned(),
        title: title.to_owned(),
        unit: unit.to_owned(),
        cells: rows.iter().map(cell).collect(),
    }
}

/// A time in the unit that suits its size.
fn time_cell(time: Option<&Answer<Time>>) -> Cell {
    let Some(time) = time else { return Cell::words("–") };
    let e = &time.estimate;
    Cell::estimate(show(e.best), e.best.si(), e.low.si(), e.high.si())
}

/// Percent of a ripple; what is less than a tenth of a percent is told as that.
pub(super) fn share_cell(e: &Estimate<Ratio>, with_range: bool) -> Cell {
    let [best, low, high] = [e.best, e.low, e.high].map(|r| r.si() * 100.0);
    let words = |v: f64| if v < 0.1 { "<0.1".to_owned() } else { digits(v, 2) };
    let text =
        if with_range { format!("{} ({}–{})", words(best), words(low), words(high)) } else { words(best) };
    Cell::estimate(text, best, low, high)
}

/// `20 (14–29)` or `20`; the unit stands in the heading, a percent sign in the cell.
pub(super) fn estimate_cell<Q: Quantity>(e: &Estimate<Q>, unit: &str, with_range: bool) -> Cell {
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
