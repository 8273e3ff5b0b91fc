//! What thinning does, row by row: the answer of [`super::Compare`], as numbers, table, warnings and working.
//!
//! A [`Row`] keeps what the chain gave at one ratio, with its interval; a [`Comparison`] lays the rows side by
//! side. Nothing is worked out here.

use super::judged::Judged;
use crate::air::Room;
use crate::answer::Answer;
use crate::cup::FlowCup;
use crate::error::{Result, out_of_range};
use crate::estimate::Estimate;
use crate::paint::Mix;
use crate::quantity::{
    DynamicViscosity, Length, MassConcentration, Ratio, Temperature, Time, as_text, digits, show,
};
use crate::spray::Airbrush;
use crate::warning::Warning;
use crate::working::{Step, Working};
use serde::{Deserialize, Serialize};

mod table;

pub(super) use table::{estimate_cell, share_cell};

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
    /// What the gun does with it; none without a gun.
    #[serde(default)]
    pub sprayed: Option<Sprayed>,
    /// Wet film of the coat, as stated or as the gun lays it.
    #[serde(with = "as_text")]
    pub wet_film: Length,
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

impl Row {
    /// Volume solids of the wet film: those of the mix, or of what lands.
    fn solids_of_wet_film(&self) -> Ratio {
        self.dry_film.best / self.wet_film
    }
}

/// What the gun does with the mix of a row, and what goes wrong first.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sprayed {
    /// Sauter mean of the drops at the nozzle.
    pub drop_size: Answer<Length>,
    /// Share of the volatile mass lost in flight.
    pub flight_loss: Answer<Ratio>,
    /// Wet film of one pass.
    pub wet_per_pass: Answer<Length>,
    /// Dry film of one pass.
    pub dry_per_pass: Answer<Length>,
    /// Distance from every fault, at best values.
    pub judged: Judged,
}

/// How the rows are sprayed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Spraying {
    pub(super) gun: Airbrush,
    pub(super) wet_passes: u32,
    pub(super) job: String,
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
    #[serde(default, with = "as_text::option")]
    pub(super) wet_film: Option<Length>,
    #[serde(default)]
    pub(super) spraying: Option<Spraying>,
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

    /// The wet film of one coat, where it is the same for all rows: not with the passes of a gun.
    pub fn wet_film(&self) -> Option<Length> {
        self.wet_film
    }

    /// The gun, when there was one.
    pub fn airbrush(&self) -> Option<&Airbrush> {
        self.spraying.as_ref().map(|s| &s.gun)
    }

    /// What one coat is: `25 µm wet`, `2 passes wet in wet`.
    pub fn coat(&self) -> String {
        match (&self.spraying, self.wet_film) {
            (_, Some(film)) => format!("{} wet", show(film)),
            (Some(s), None) if s.wet_passes > 1 => format!("{} passes wet in wet", s.wet_passes),
            _ => "1 pass".to_owned(),
        }
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
        let gun = self.spraying.as_ref().map_or(String::new(), |s| format!("{}; ", s.gun));
        format!(
            "{}, {} relative humidity, air at {}; {gun}{} on {}",
            show(self.room.temperature()),
            self.room.relative_humidity(),
            show(self.room.air_speed()),
            self.coat(),
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
            if let Some(sprayed) = &row.sprayed {
                out.append(sprayed.dry_per_pass.working.clone());
            }
            out.push(
                Step::new("dry film", "h_dry = h VS'", r"h_\mathrm{dry} = h\,VS'")
                    .numbers(format!("{} × {}", show(row.wet_film), show(row.solids_of_wet_film())))
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
