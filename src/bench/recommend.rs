//! What ratio, pressure and distance should I use for this job, and how many passes?
//!
//! All settings on a grid of ratios, pressures, distances, passes wet in wet and, where asked, shares of a retarder are judged ([`Setup::judge`]). Those inside
//! every limit are ranked by their worst margin, counted in standard uncertainties of that fault, so that a setting far
//! inside a limit that is hardly known does not beat one that is safe. Each choice names the limit that binds it. When
//! nothing fits, the nearest misses come back with what to change.
//!
//! A slow thinner levels best, so a search with no limit on drying may choose a coat that stays wet for an evening:
//! [`Search::touch_dry_within`] and [`Search::recoat_within`] say how long there is. No choice exceeds them.
//!
//! Best values: a choice one standard uncertainty inside keeps its worst limit in about five cases of six, as far as the
//! models know. Try it on card first.

use super::comparison::sentence;
use super::fault::{Fault, Margin};
use super::jobs::Job;
use super::judged::Judged;
use super::setup::{Setup, Stage};
use super::slowed::{PLENTY, RetarderShare};
use crate::blend::Blend;
use crate::error::{Error, Result, out_of_range};
use crate::progress::{Progress, for_rows};
use crate::quantity::{Length, Pressure, Quantity, Ratio, Time, digits, show, show_in};
use crate::table::{Cell, Column, Table};
use serde::{Deserialize, Serialize};

/// Parts of thinner to one of paint that are looked at.
pub const RATIOS: [f64; 9] = [0.0, 0.25, 0.5, 0.75, 1.0, 1.5, 2.0, 3.0, 4.0];
/// Steps between the ends of pressure and distance.
const PRESSURES: usize = 5;
const DISTANCES: usize = 4;
/// Choices that are told.
const TOLD: usize = 5;

/// A setting with what it does.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Choice {
    /// The setting.
    pub setup: Setup,
    /// What it does.
    pub judged: Judged,
}

impl Choice {
    /// The limit that binds it.
    pub fn binding(&self) -> &Margin {
        self.judged.worst()
    }
}

/// Settings for a job, best first.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Recommendation {
    /// The job.
    pub job: Job,
    /// Settings inside every limit, safest first; one a ratio.
    pub choices: Vec<Choice>,
    /// When none is: the nearest misses.
    pub misses: Vec<Choice>,
    /// When none is: what to change.
    pub advice: Vec<String>,
    /// Settings judged.
    pub judged: usize,
    /// Settings that were to be judged; more than were, when the search was stopped, a mix separates, or some are out of
    /// range.
    pub asked: usize,
}

/// Searches the settings of a job at the usual ratios; [`Search`] asks for more.
///
/// `start` gives paint, thinner, gun, room and part; its ratio, pressure, distance and passes are what is sought.
///
/// # Errors
/// As [`Search::run`].
///
/// ```
/// use mistcoat::air::Room;
/// use mistcoat::bench::{Job, Setup, recommend};
/// use mistcoat::blend::{Basis, Blend};
/// use mistcoat::film::Substrate;
/// use mistcoat::paint::{Family, Paint};
/// use mistcoat::quantity::{RelativeHumidity, parse};
/// use mistcoat::spray::Airbrush;
/// let green = Paint::typical(Family::SolventLacquer, "hull green")?;
/// let thinner = Blend::from_names(&[("acetone", 30.0), ("n-butyl acetate", 70.0)], Basis::Volume, None)?;
/// let gun = Airbrush::new(parse("0.3 mm")?, parse("20 psi")?, parse("80 mm")?)?;
/// let room = Room::new(parse("21 °C")?, RelativeHumidity::new(0.5)?)?;
/// let mut start = Setup::new(&green, &thinner, 1.0, &gun, &room);
/// start.substrate = Substrate::named("wood")?;
/// let found = recommend(&start, &Job::named("base coat")?)?;
/// assert!(found.choices.iter().all(|c| c.judged.is_good()));
/// assert!(!found.choices.is_empty() || !found.advice.is_empty());
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn recommend(start: &Setup, job: &Job) -> Result<Recommendation> {
    Search::new(start, job).run()
}

/// What is sought, and where. Build with [`Search::new`], refine, then [`Search::run`].
///
/// ```
/// # use mistcoat::air::Room;
/// # use mistcoat::bench::{Job, Search, Setup};
/// # use mistcoat::blend::{Basis, Blend};
/// # use mistcoat::film::Substrate;
/// # use mistcoat::paint::{Family, Paint};
/// # use mistcoat::quantity::{RelativeHumidity, parse};
/// # use mistcoat::spray::Airbrush;
/// # let green = Paint::typical(Family::SolventLacquer, "hull green")?;
/// # let thinner = Blend::from_names(&[("acetone", 30.0), ("n-butyl acetate", 70.0)], Basis::Volume, None)?;
/// # let gun = Airbrush::new(parse("0.3 mm")?, parse("20 psi")?, parse("80 mm")?)?;
/// # let room = Room::new(parse("21 °C")?, RelativeHumidity::new(0.5)?)?;
/// # let mut start = Setup::new(&green, &thinner, 1.0, &gun, &room);
/// # start.substrate = Substrate::named("wood")?;
/// let slow = Blend::from_names(&[("2-butoxyethanol", 1.0)], Basis::Volume, None)?;
/// let found = Search::new(&start, &Job::named("gloss clear")?)
///     .thinner_per_paint(&[1.0, 2.0])
///     .retarder(&slow, &[0.0, 0.1, 0.2])
///     .run()?;
/// for choice in &found.choices {
///     let share = choice.setup.retarder.as_ref().map_or(0.0, |r| r.share.value);
///     assert!([0.0, 0.1, 0.2].contains(&share) && choice.judged.is_good());
/// }
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Search {
    start: Setup,
    job: Job,
    ratios: Vec<f64>,
    /// The slow liquid and its shares; without one the thinner stays as it is.
    retarder: Option<(Blend, Vec<f64>)>,
}

impl Search {
    /// Over the usual ratios ([`RATIOS`]), with the thinner as `start` has it.
    pub fn new(start: &Setup, job: &Job) -> Self {
        Self { start: start.clone(), job: job.clone(), ratios: RATIOS.to_vec(), retarder: None }
    }

    /// Over these parts of thinner to one part of paint.
    #[must_use]
    pub fn thinner_per_paint(mut self, ratios: &[f64]) -> Self {
        self.ratios = ratios.to_vec();
        self
    }

    /// Over these shares of a slow liquid in the thinner too, by volume, 0 to 1; [`super::USUAL_SHARES`] are usual.
    #[must_use]
    pub fn retarder(mut self, slow: &Blend, shares: &[f64]) -> Self {
        self.retarder = Some((slow.clone(), shares.to_vec()));
        self
    }

    /// Only settings whose coat is touch dry within this time, above 0 s to 365 d.
    ///
    /// ```
    /// # use mistcoat::air::Room;
    /// # use mistcoat::bench::{Job, Search, Setup};
    /// # use mistcoat::blend::{Basis, Blend};
    /// # use mistcoat::film::Substrate;
    /// # use mistcoat::paint::{Family, Paint};
    /// # use mistcoat::quantity::{RelativeHumidity, parse};
    /// # use mistcoat::spray::Airbrush;
    /// # let cream = Paint::typical(Family::SolventLacquer, "deckhouse cream")?;
    /// # let thinner = Blend::from_names(&[("acetone", 30.0), ("n-butyl acetate", 70.0)], Basis::Volume, None)?;
    /// # let gun = Airbrush::new(parse("0.3 mm")?, parse("20 psi")?, parse("80 mm")?)?;
    /// # let room = Room::new(parse("21 °C")?, RelativeHumidity::new(0.5)?)?;
    /// # let mut start = Setup::new(&cream, &thinner, 1.0, &gun, &room);
    /// # start.substrate = Substrate::named("wood")?;
    /// let slow = Blend::from_names(&[("2-butoxyethanol", 1.0)], Basis::Volume, None)?;
    /// let found = Search::new(&start, &Job::named("base coat")?)
    ///     .thinner_per_paint(&[1.0, 1.5])
    ///     .retarder(&slow, &[0.0, 0.3])
    ///     .touch_dry_within(parse("5 min")?)
    ///     .recoat_within(parse("3 h")?)
    ///     .run()?;
    /// assert!(found.choices.iter().all(|c| c.judged.touch_dry <= Some(parse("5 min").unwrap())));
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    #[must_use]
    pub fn touch_dry_within(mut self, longest: Time) -> Self {
        self.job.touch_dry_within = Some(longest);
        self
    }

    /// Only settings whose coat bears the next one within this time, above 0 s to 365 d ([`Judged::recoat`]).
    #[must_use]
    pub fn recoat_within(mut self, longest: Time) -> Self {
        self.job.recoat_within = Some(longest);
        self
    }

    /// Settings that are judged.
    pub fn pieces(&self) -> usize {
        let shares = self.retarder.as_ref().map_or(1, |(_, shares)| shares.len());
        let passes = (self.job.wet_passes.1 - self.job.wet_passes.0 + 1) as usize;
        self.ratios.len() * shares * PRESSURES * DISTANCES * passes
    }

    /// Judges them all and ranks them.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] without a ratio or share, for a share outside 0 to 1, or a limit on drying outside 0 s to
    /// 365 d; those of the parts for every
    /// setting alike: an unknown material, a paint and a thinner that separate at every ratio.
    pub fn run(&self) -> Result<Recommendation> {
        self.run_watched(&Progress::new(self.pieces()))
    }

    /// [`Self::run`] with progress. Stopped early it ranks what was judged by then.
    ///
    /// # Errors
    /// As [`Self::run`].
    pub fn run_watched(&self, progress: &Progress) -> Result<Recommendation> {
        let job = &self.job;
        job.check_time_limits()?;
        let stages = self.stages()?;
        let mut rows: Vec<Row> = Vec::new();
        for stage in 0..stages.len() {
            for pressure in steps(job.pressure.0.si(), job.pressure.1.si(), PRESSURES) {
                for distance in steps(job.distance.0.si(), job.distance.1.si(), DISTANCES) {
                    for wet_passes in job.wet_passes.0..=job.wet_passes.1 {
                        rows.push(Row { stage, pressure, distance, wet_passes, choice: None });
                    }
                }
            }
        }
        for_rows(
            &mut rows,
            progress,
            || (),
            |(), _, row| {
                let (setup, stage) = &stages[row.stage];
                row.choice = Some(row.judge(setup, stage, job));
            },
        );
        ranked(job, rows, self.pieces())
    }

    /// A mix is made once for all settings of the gun; one that separates costs its ratio, not the search.
    fn stages(&self) -> Result<Vec<(Setup, Stage)>> {
        if self.ratios.is_empty() {
            return Err(out_of_range(
                "number of ratios",
                "0",
                "1 or more",
                "name parts of thinner to one part of paint",
            ));
        }
        let slowed: Vec<Option<RetarderShare>> = match &self.retarder {
            None => vec![self.start.retarder.clone()],
            Some((_, shares)) if shares.is_empty() => {
                return Err(out_of_range(
                    "number of shares of retarder",
                    "0",
                    "1 or more",
                    "name shares of the thinner, for example 0 %, 10 % and 20 %",
                ));
            }
            Some((slow, shares)) => shares
                .iter()
                .map(|s| RetarderShare::new(slow, Ratio::from_si(*s)).map(Some))
                .collect::<Result<_>>()?,
        };
        let mut stages = Vec::with_capacity(self.ratios.len() * slowed.len());
        let mut refused = None;
        for &thinner_per_paint in &self.ratios {
            for retarder in &slowed {
                let retarder = retarder.clone();
                let setup = Setup { thinner_per_paint, retarder, wet_film: None, ..self.start.clone() };
                match setup.stage(&self.job) {
                    Ok(stage) => stages.push((setup, stage)),
                    Err(e @ (Error::PhaseSplit(_) | Error::Range(_))) => refused = Some(e),
                    Err(e) => return Err(e),
                }
            }
        }
        match refused {
            Some(e) if stages.is_empty() => Err(e),
            _ => Ok(stages),
        }
    }
}

fn ranked(job: &Job, rows: Vec<Row>, asked: usize) -> Result<Recommendation> {
    let mut choices: Vec<Choice> = Vec::new();
    let mut failed = None;
    for row in rows {
        match row.choice {
            Some(Ok(choice)) => choices.push(choice),
            // One gun setting out of its range is no reason to lose the others.
            Some(Err(e)) => failed = Some(e),
            None => {}
        }
    }
    if let (true, Some(e)) = (choices.is_empty(), failed) {
        return Err(e);
    }
    let judged = choices.len();
    choices.sort_by(|a, b| b.binding().sigmas().total_cmp(&a.binding().sigmas()));
    let best = one_a_ratio(&choices, |c| c.judged.is_good());
    let (misses, advice) = if best.is_empty() {
        let misses = one_a_ratio(&choices, |_| true);
        let mut advice = advice(&misses);
        if job.has_time_limit() && !misses.is_empty() {
            advice.insert(1, quickest(&choices));
        }
        (misses, advice)
    } else {
        (Vec::new(), Vec::new())
    };
    Ok(Recommendation { job: job.clone(), choices: best, misses, advice, judged, asked })
}

struct Row {
    stage: usize,
    pressure: f64,
    distance: f64,
    wet_passes: u32,
    choice: Option<Result<Choice>>,
}

impl Row {
    fn judge(&self, setup: &Setup, stage: &Stage, job: &Job) -> Result<Choice> {
        let gun = setup
            .gun
            .clone()
            .at_pressure(Pressure::from_si(self.pressure))?
            .at_distance(Length::from_si(self.distance))?;
        let setup = Setup { gun, wet_passes: self.wet_passes, ..setup.clone() };
        let judged = setup.judge_staged(stage, job)?;
        Ok(Choice { setup, judged })
    }
}

/// So many values from one end to the other, in equal ratios.
fn steps(low: f64, high: f64, count: usize) -> impl Iterator<Item = f64> {
    let last = (count - 1).max(1) as f64;
    (0..count).map(move |i| low * (high / low).powf(i as f64 / last))
}

/// The best of each ratio, in order, as many as are told.
fn one_a_ratio(choices: &[Choice], keep: impl Fn(&Choice) -> bool) -> Vec<Choice> {
    let mut told: Vec<Choice> = Vec::new();
    for choice in choices.iter().filter(|c| keep(c)) {
        let known = told
            .iter()
            .any(|t| t.setup.thinner_per_paint.to_bits() == choice.setup.thinner_per_paint.to_bits());
        if !known {
            told.push(choice.clone());
        }
        if told.len() == TOLD {
            break;
        }
    }
    told
}

/// What stands in the way of the nearest misses, each fault once, and what helps against it.
fn advice(misses: &[Choice]) -> Vec<String> {
    if misses.is_empty() {
        return vec!["Stopped before any setting was judged: ask again, or name fewer ratios.".to_owned()];
    }
    let mut faults: Vec<Fault> = Vec::new();
    for miss in misses {
        for margin in miss.judged.margins.iter().filter(|m| !m.holds()) {
            if !faults.contains(&margin.fault) {
                faults.push(margin.fault);
            }
        }
    }
    let mut out = vec!["No setting looked at keeps every limit.".to_owned()];
    out.extend(faults.iter().map(|f| format!("Against {f}: {}.", f.cure())));
    out.push("Beyond that: another thinner, another nozzle, or another room.".to_owned());
    out
}

/// Whether time alone stands in the way, and how near the quickest comes.
fn quickest(choices: &[Choice]) -> String {
    let slow = |c: &Choice| c.judged.margin(Fault::SlowDrying).map_or(f64::NEG_INFINITY, |m| m.factor);
    let others_hold = |c: &&Choice| {
        c.judged.margins.iter().all(|m| m.holds() || m.fault == Fault::SlowDrying) && slow(c) > 0.0
    };
    let Some(nearest) = choices.iter().filter(others_hold).max_by(|a, b| slow(a).total_cmp(&slow(b))) else {
        return "Without the limit on drying none would fit either.".to_owned();
    };
    let why = nearest.judged.margin(Fault::SlowDrying).map_or("", |m| m.why.as_str());
    let setup = &nearest.setup;
    let retarder = setup.retarder.as_ref().map_or(String::new(), |r| {
        format!(", {} % of it {}", digits(r.share.si() * 100.0, 3), r.retarder.label())
    });
    format!(
        "The quickest that keeps every other limit: {why}; {} of thinner to 1 of paint{retarder}, {}, {}, {}.",
        digits(setup.thinner_per_paint, 2),
        show(setup.gun.pressure()),
        show_in(setup.gun.distance(), "mm", 2).unwrap_or_default(),
        counted(setup.wet_passes)
    )
}

fn counted(passes: u32) -> String {
    if passes == 1 { "1 pass".to_owned() } else { format!("{passes} passes wet in wet") }
}

impl Recommendation {
    /// Choices, or the nearest misses, as a table.
    pub fn table(&self) -> Table {
        let shown = if self.choices.is_empty() { &self.misses } else { &self.choices };
        let numbers = |key: &str, title: &str, unit: &str, pick: &dyn Fn(&Choice) -> (String, f64)| Column {
            key: key.to_owned(),
            title: title.to_owned(),
            unit: unit.to_owned(),
            cells: shown.iter().map(pick).map(|(text, v)| Cell::number(text, v)).collect(),
        };
        let words = |key: &str, title: &str, pick: &dyn Fn(&Choice) -> String| Column {
            key: key.to_owned(),
            title: title.to_owned(),
            unit: String::new(),
            cells: shown.iter().map(|c| Cell::words(pick(c))).collect(),
        };
        let seconds = |t: Option<Time>| t.map_or("-".to_owned(), show);
        let mut notes = self.advice.clone();
        notes.extend(self.remarks());
        notes.push(format!(
            "{} settings judged. Best values: margins in standard uncertainties, above 0 inside. Targets: {}.",
            self.judged,
            crate::source::cite("job-practice")
        ));
        notes.push(
            "Spray where the air is drawn outdoors, with a fitted mask for organic vapour and particles, away from flame \
             and spark. The safety data sheets, local codes and licensed practice decide."
                .to_owned(),
        );
        let verdict = if self.choices.is_empty() {
            "nothing fits; nearest misses"
        } else {
            "settings that fit, safest first"
        };
        let mut columns = vec![numbers("thinner_per_paint", "thinner to\n1 part paint", "1", &|c| {
            (digits(c.setup.thinner_per_paint, 2), c.setup.thinner_per_paint)
        })];
        if shown.iter().any(|c| c.setup.retarder.is_some()) {
            columns.push(numbers("retarder", "retarder in\nthe thinner", "%", &|c| {
                let percent = c.setup.retarder_share().si() * 100.0;
                (format!("{} %", digits(percent, 3)), percent)
            }));
        }
        columns.extend([
            numbers("pressure", "pressure", "kPa", &|c| {
                let p = c.setup.gun.pressure();
                (show(p), p.si() * 1e-3)
            }),
            numbers("distance", "distance", "mm", &|c| {
                let d = c.setup.gun.distance();
                (show_in(d, "mm", 2).unwrap_or_default(), d.si() * 1e3)
            }),
            numbers("wet_passes", "passes\nwet in wet", "1", &|c| {
                (c.setup.wet_passes.to_string(), f64::from(c.setup.wet_passes))
            }),
            numbers("passes", "passes\nin all", "1", &|c| {
                (format!("{:.0}", c.judged.passes.ceil()), c.judged.passes)
            }),
            words("flash_off", "flash-off", &|c| seconds(c.judged.flash_off)),
            words("touch_dry", "touch dry", &|c| seconds(c.judged.touch_dry)),
        ]);
        if self.job.recoat_within.is_some() {
            columns.push(words("recoat", "next coat", &|c| seconds(c.judged.recoat)));
        }
        columns.extend([
            numbers("margin", "margin", "1", &|c| {
                let s = c.binding().sigmas();
                (format!("{s:+.1}"), s)
            }),
            words("binding", "what binds", &|c| c.binding().why.clone()),
        ]);
        Table { caption: format!("{} ({}): {verdict}", self.job.name, self.job.note), columns, notes }
    }

    /// Which film the passes build, what the retarder is, and how much of the search was done.
    fn remarks(&self) -> Vec<String> {
        let shown = if self.choices.is_empty() { &self.misses } else { &self.choices };
        let mut notes = Vec::new();
        if let Some(first) = shown.first() {
            notes.push(format!("Passes build {}.", first.judged.target.words()));
            if let (Some(cover), Some(_)) = (&first.setup.cover, first.judged.target.contrast) {
                notes.extend(cover.power.warnings().iter().map(|w| sentence(&w.message)));
            }
        }
        if let Some(slowed) = shown.iter().find_map(|c| c.setup.retarder.as_ref()) {
            notes.push(format!(
                "Retarder: {}, in the place of that share of the thinner.",
                slowed.retarder.label()
            ));
        }
        if shown.iter().any(|c| c.setup.retarder_share().si() > PLENTY) {
            notes.push(
                "More than 20 % of retarder may slow drying too much (common practice): give the coat longer before the next \
                 one."
                    .to_owned(),
            );
        }
        let asked = [("touch dry", self.job.touch_dry_within), ("next coat", self.job.recoat_within)];
        for (what, limit) in asked.into_iter().filter_map(|(what, limit)| limit.map(|l| (what, l))) {
            notes.push(format!(
                "Asked for: {what} within {}. Best values of one coat by itself; lacquers are known within a factor 3.",
                show(limit)
            ));
        }
        if self.judged < self.asked {
            notes.push(format!(
                "{} of {} settings were not judged: the search was stopped, the mix separates, or they are out of range.",
                self.asked - self.judged,
                self.asked
            ));
        }
        notes
    }
}
