//! This went wrong at these settings: what caused it, and what is the smallest change that cures it?
//!
//! A defect, by the trade's word, points to faults of the model (`data/defects.toml`, common practice). The setting is
//! judged ([`Setup::judge`]) and each fault takes the probability that its limit is broken, `Φ(−ln f/s)` with the factor f
//! and the standard uncertainty s of its logarithm. For each the settings at hand are then moved one at a time, in steps of
//! a tenth up to a factor 3 (a retarder, where the setting names one, in steps of 5 % to 30 %), until the limit holds; a
//! change that keeps all other limits too goes before one that does not, and a small one before a large one.
//!
//! **Against common practice**: for 38 usual causes, each with a setting that has it (`tests/data/defect_practice.csv`), the
//! cause comes first in 37, where a blind choice among the faults of a defect would put it first in 29. In 10 of the 35 that
//! the model knows, it comes first although its limit is kept: the model holds spray that practice calls dry for wet enough
//! (16 % likely), damp air for dry enough (31 and 38 %), and a tip wiped every two minutes for bearable. Where one change
//! cures, 18 of 20 are cures of the trade.
//!
//! Causes beyond the model (a split nozzle, grease, water in the line) stand beside, as common practice tells them. When
//! every fault is improbable, look there.

use super::axis::Axis;
use super::fault::{Fault, Margin};
use super::jobs::Job;
use super::judged::Judged;
use super::setup::Setup;
use crate::error::{Error, Result, bad_data, unknown_name};
use crate::names::fold;
use crate::quantity::digits;
use crate::table::{Cell, Column, Table};
use serde::{Deserialize, Serialize};
use std::sync::LazyLock;

const FILE: &str = "data/defects.toml";
/// Factor of one step of a setting that is moved.
const STEP: f64 = 1.1;
/// Step of a share of retarder, %, and the most that is tried.
const SHARE_STEP: f64 = 5.0;
const MOST_SHARE: f64 = 30.0;
/// Steps to a factor 3.
const STEPS: i32 = 12;
/// Below this probability a fault is no explanation.
const IMPROBABLE: f64 = 0.05;

/// A defect as it is seen.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Defect {
    /// The trade's word.
    pub name: String,
    /// What people also call it.
    pub also: Vec<String>,
    /// How it looks.
    pub looks: String,
    /// Faults of the model that may stand behind it.
    pub faults: Vec<Fault>,
    /// Causes beyond the model.
    pub beyond: Vec<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    schema: u32,
    #[serde(rename = "source")]
    _source: String,
    defect: Vec<Defect>,
}

static DEFECTS: LazyLock<Result<Vec<Defect>>> = LazyLock::new(|| {
    let damaged = |what: &str| bad_data(FILE, None, None, what, "restore the file from the release");
    let file: File =
        toml::from_str(include_str!("../../data/defects.toml")).map_err(|e| damaged(e.message()))?;
    if file.schema == 1 { Ok(file.defect) } else { Err(damaged("another schema than 1")) }
});

impl Defect {
    /// All defects known.
    ///
    /// # Errors
    /// A [`crate::error::DataError`] when the embedded table is damaged.
    pub fn all() -> Result<&'static [Self]> {
        DEFECTS.as_ref().map(Vec::as_slice).map_err(Error::clone)
    }

    /// A defect by the trade's word.
    ///
    /// # Errors
    /// [`crate::error::UnknownName`] with near names.
    ///
    /// ```
    /// assert_eq!(mistcoat::bench::Defect::named("sags")?.name, "run");
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn named(name: &str) -> Result<&'static Self> {
        let wanted = fold(name);
        let all = Self::all()?;
        all.iter().find(|d| fold(&d.name) == wanted || d.also.iter().any(|a| fold(a) == wanted)).ok_or_else(
            || {
                let known =
                    all.iter().flat_map(|d| core::iter::once(&d.name).chain(&d.also)).map(String::as_str);
                unknown_name(
                    "defect",
                    name,
                    known,
                    "describe what is seen with one of the words of the trade",
                )
            },
        )
    }
}

/// One setting moved.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Change {
    /// The setting.
    pub setting: Axis,
    /// As it was, in the unit of the setting.
    pub from: f64,
    /// As it cures.
    pub to: f64,
    /// Whether all other limits hold then.
    pub keeps_all: bool,
}

impl core::fmt::Display for Change {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let but = if self.keeps_all { "" } else { " (another limit is met then)" };
        write!(f, "{} from {} to {}{but}", self.setting.title(), digits(self.from, 2), digits(self.to, 2))
    }
}

/// A cause with how likely it is.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LikelyCause {
    /// The fault with the number behind it.
    pub margin: Margin,
    /// Probability that its limit is broken, 0 to 1, as far as the models know.
    pub probability: f64,
    /// The smallest change of one setting that cures it; None when its limit holds, or no change within a factor 3 does.
    pub change: Option<Change>,
}

/// Causes of a defect, likeliest first.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Diagnosis {
    /// The defect.
    pub defect: Defect,
    /// Causes in the model, likeliest first.
    pub causes: Vec<LikelyCause>,
    /// Whether every cause in the model is improbable, so that the cause is likely one beyond it.
    pub look_beyond: bool,
}

/// Ranks the causes of a defect at these settings.
///
/// # Errors
/// [`crate::error::UnknownName`] for a defect that is not known; those of [`Setup::judge`].
pub fn diagnose(defect: &str, setup: &Setup, job: &Job) -> Result<Diagnosis> {
    let defect = Defect::named(defect)?;
    let judged = setup.judge(job)?;
    let mut causes = Vec::new();
    for fault in &defect.faults {
        let Some(margin) = judged.margin(*fault) else { continue };
        causes.push(LikelyCause {
            margin: margin.clone(),
            probability: below(-margin.sigmas()),
            change: if margin.holds() { None } else { smallest_change(setup, job, *fault)? },
        });
    }
    causes.sort_by(|a, b| b.probability.total_cmp(&a.probability));
    let look_beyond = causes.iter().all(|c| c.probability < IMPROBABLE);
    Ok(Diagnosis { defect: defect.clone(), causes, look_beyond })
}

/// `Φ(z)` by the logistic curve that stays within 0.01 of it.
fn below(z: f64) -> f64 {
    1.0 / (1.0 + (-1.702 * z).exp())
}

/// Settings that are moved.
fn moved(setup: &Setup) -> Vec<Axis> {
    let coat = if setup.wet_film.is_some() { Axis::WetFilm } else { Axis::WetPasses };
    let mut all = vec![Axis::ThinnerPerPaint, Axis::Pressure, Axis::Distance, coat];
    if setup.retarder.is_some() {
        all.push(Axis::Retarder);
    }
    all
}

/// Values to try, nearest first, up and down in turn.
fn tries(axis: Axis, from: f64) -> Vec<f64> {
    if axis == Axis::Retarder {
        let at = |k: i32| from + SHARE_STEP * f64::from(k);
        return (1..=6).flat_map(|k| [at(k), at(-k)]).filter(|v| (0.0..=MOST_SHARE).contains(v)).collect();
    }
    if axis == Axis::WetPasses {
        return [from + 1.0, from - 1.0, from + 2.0, from - 2.0, from + 3.0]
            .into_iter()
            .filter(|v| *v >= 1.0)
            .collect();
    }
    // No thinner at all is stepped away from by tenths of a part.
    let at = |k: i32| if from > 0.0 { from * STEP.powi(k) } else { 0.1 * f64::from(k) };
    (1..=STEPS).flat_map(|k| [at(k), at(-k)]).filter(|v| *v > 0.0).collect()
}

fn smallest_change(setup: &Setup, job: &Job, fault: Fault) -> Result<Option<Change>> {
    // Paint that lands as dust has no film to judge: that cures nothing.
    let holds = |judged: &Judged| judged.margin(fault).is_some_and(Margin::holds);
    let mut best: Option<(bool, f64, Change)> = None;
    let stage = setup.stage(job)?;
    for axis in moved(setup) {
        let from = axis.of(setup);
        for to in tries(axis, from) {
            let mut moved = setup.clone();
            if axis.set(&mut moved, to).is_err() {
                continue;
            }
            // A setting out of range is no cure.
            let judged =
                if axis.changes_stage() { moved.judge(job) } else { moved.judge_staged(&stage, job) };
            let Ok(judged) = judged else { continue };
            if !holds(&judged) {
                continue;
            }
            let size = match axis {
                // A step of retarder counts as one step of another setting.
                Axis::Retarder => (to - from).abs() / SHARE_STEP * STEP.ln(),
                _ if from > 0.0 => (to / from).ln().abs(),
                _ => to,
            };
            let change = Change { setting: axis, from, to, keeps_all: judged.is_good() };
            let rank = (!change.keeps_all, size);
            if best.as_ref().is_none_or(|(other, s, _)| rank < (*other, *s)) {
                best = Some((rank.0, rank.1, change));
            }
            if change.keeps_all {
                break;
            }
        }
    }
    Ok(best.map(|(.., change)| change))
}

impl Diagnosis {
    /// Causes with their numbers and cures.
    pub fn table(&self) -> Table {
        let words = |key: &str, title: &str, pick: &dyn Fn(&LikelyCause) -> String| Column {
            key: key.to_owned(),
            title: title.to_owned(),
            unit: String::new(),
            cells: self.causes.iter().map(|c| Cell::words(pick(c))).collect(),
        };
        let mut notes: Vec<String> = Vec::new();
        if self.look_beyond {
            notes.push("None of these is likely at these settings: look beyond them.".to_owned());
        }
        notes.extend(self.defect.beyond.iter().map(|b| format!("Beyond the model: {b}.")));
        notes.push(format!(
            "Which faults stand behind a defect: {}.",
            crate::source::cite("defects-practice")
        ));
        Table {
            caption: format!("{}: {}", self.defect.name, self.defect.looks),
            columns: vec![
                words("cause", "cause", &|c| c.margin.fault.name().to_owned()),
                Column {
                    key: "probability".into(),
                    title: "limit\nbroken".into(),
                    unit: "%".into(),
                    cells: self
                        .causes
                        .iter()
                        .map(|c| {
                            Cell::number(format!("{:.0} %", 100.0 * c.probability), 100.0 * c.probability)
                        })
                        .collect(),
                },
                words("number", "the number", &|c| c.margin.why.clone()),
                words("change", "smallest change that cures it", &|c| match c.change {
                    Some(change) => change.to_string(),
                    None if c.margin.holds() => {
                        format!("its limit holds; to be safer: {}", c.margin.fault.cure())
                    }
                    None => format!("no one setting within a factor 3; {}", c.margin.fault.cure()),
                }),
            ],
            notes,
        }
    }
}
