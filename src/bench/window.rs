//! Where are the good settings, and what goes wrong at their edges? A map over any two of them.
//!
//! Each cell of the map is one [`Setup`] judged in full: spray, flight, drying, levelling, sag, dew. It shows the fault that
//! is met by most (in standard uncertainties), or none. On all cores with feature `parallel`; a
//! [`crate::progress::Progress`] tells how far it is and stops it, and what was done by then is kept.

use super::axis::{Axis, no_retarder};
use super::fault::Fault;
use super::jobs::Job;
use super::setup::{Setup, Stage};
use crate::error::{Error, Result, bad_data, out_of_range};
use crate::progress::{Progress, for_rows};
use serde::{Deserialize, Serialize};

/// Cells along one side at most.
const MOST: usize = 1000;

/// One cell.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Cell {
    /// Not judged: the work was stopped before.
    Waiting,
    /// Inside every limit, with the least margin in standard uncertainties.
    Good(f64),
    /// A fault is met, with its margin in standard uncertainties, below zero.
    Fault(Fault, f64),
    /// The settings cannot be judged: out of range, or a mix that separates.
    Refused,
}

/// A map of the settings.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Stored")]
pub struct WindowMap {
    /// What runs to the right, and its values.
    pub x: (Axis, Vec<f64>),
    /// What runs upwards, and its values.
    pub y: (Axis, Vec<f64>),
    /// Row by row from the first value of y: `cells[iy * nx + ix]`.
    pub cells: Vec<Cell>,
    /// The setting that the map starts from.
    pub start: Setup,
    /// The job.
    pub job: Job,
    /// The first error among refused cells, in words.
    pub refused: Option<String>,
}

/// The fields of a [`WindowMap`] as stored, not yet checked.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Stored {
    x: (Axis, Vec<f64>),
    y: (Axis, Vec<f64>),
    cells: Vec<Cell>,
    start: Setup,
    job: Job,
    refused: Option<String>,
}

impl TryFrom<Stored> for WindowMap {
    type Error = Error;

    fn try_from(s: Stored) -> Result<Self> {
        check(&s.start, &s.x, &s.y)?;
        let (wanted, found) = (s.x.1.len() * s.y.1.len(), s.cells.len());
        if found != wanted {
            let problem = format!("{found} cells where the axes have {wanted}");
            let remedy = "make the map again and store that";
            return Err(bad_data("stored map", None, Some("cells"), problem, remedy));
        }
        Ok(Self { x: s.x, y: s.y, cells: s.cells, start: s.start, job: s.job.checked()?, refused: s.refused })
    }
}

impl WindowMap {
    /// A cell.
    pub fn cell(&self, ix: usize, iy: usize) -> Option<Cell> {
        self.cells.get(iy * self.x.1.len() + ix).copied().filter(|_| ix < self.x.1.len())
    }

    /// Share of the judged cells that are good.
    pub fn good_share(&self) -> f64 {
        let judged = self.cells.iter().filter(|c| !matches!(c, Cell::Waiting)).count();
        let good = self.cells.iter().filter(|c| matches!(c, Cell::Good(_))).count();
        if judged == 0 { 0.0 } else { good as f64 / judged as f64 }
    }

    /// Whether every cell was judged.
    pub fn is_complete(&self) -> bool {
        !self.cells.iter().any(|c| matches!(c, Cell::Waiting))
    }
}

/// Judges every pair of values; see [`WindowMap`].
///
/// # Errors
/// A [`crate::error::RangeError`] for one axis twice, wet film beside passes wet in wet, a share of a retarder that is not
/// named, no value, more than 1000 a side, or values that are no numbers.
/// Settings that cannot be judged are cells, not errors.
///
/// ```
/// use mistcoat::air::Room;
/// use mistcoat::bench::{Axis, Job, Setup, window};
/// use mistcoat::blend::{Basis, Blend};
/// use mistcoat::film::Substrate;
/// use mistcoat::paint::{Family, Paint};
/// use mistcoat::progress::Progress;
/// use mistcoat::quantity::{RelativeHumidity, parse};
/// use mistcoat::spray::Airbrush;
/// let green = Paint::typical(Family::SolventLacquer, "hull green")?;
/// let thinner = Blend::from_names(&[("acetone", 30.0), ("n-butyl acetate", 70.0)], Basis::Volume, None)?;
/// let gun = Airbrush::new(parse("0.3 mm")?, parse("20 psi")?, parse("80 mm")?)?;
/// let room = Room::new(parse("21 °C")?, RelativeHumidity::new(0.5)?)?;
/// let mut start = Setup::new(&green, &thinner, 1.0, &gun, &room);
/// start.substrate = Substrate::named("wood")?;
/// let x = (Axis::ThinnerPerPaint, vec![0.5, 1.0, 2.0]);
/// let y = (Axis::Distance, vec![60.0, 120.0]);
/// let map = window(&start, &Job::named("base coat")?, x, y, &Progress::new(6))?;
/// assert!(map.is_complete() && map.cells.len() == 6);
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn window(
    start: &Setup,
    job: &Job,
    x: (Axis, Vec<f64>),
    y: (Axis, Vec<f64>),
    progress: &Progress,
) -> Result<WindowMap> {
    check(start, &x, &y)?;
    let nx = x.1.len();
    // Mix and tip are made once for all cells that share them.
    let stages = match (x.0.changes_stage(), y.0.changes_stage()) {
        (false, false) => Stages::One(Box::new(start.stage(job)?)),
        (true, false) => Stages::AlongX(along(start, job, &x)),
        (false, true) => Stages::AlongY(along(start, job, &y)),
        (true, true) => Stages::EachCell,
    };
    let mut cells: Vec<(Cell, Option<String>)> = vec![(Cell::Waiting, None); nx * y.1.len()];
    for_rows(
        &mut cells,
        progress,
        || (),
        |(), i, cell| {
            let (ix, iy) = (i % nx, i / nx);
            let made = match &stages {
                Stages::One(stage) => Some(Ok(stage.as_ref())),
                Stages::AlongX(all) => Some(all[ix].as_ref().map_err(Clone::clone)),
                Stages::AlongY(all) => Some(all[iy].as_ref().map_err(Clone::clone)),
                Stages::EachCell => None,
            };
            let settings = [(x.0, x.1[ix]), (y.0, y.1[iy])];
            *cell = match made.transpose().and_then(|stage| judge(start, job, stage, settings)) {
                Ok(found) => (found, None),
                Err(e) => (Cell::Refused, Some(e.to_string())),
            };
        },
    );
    let refused = cells.iter_mut().find_map(|(_, why)| why.take());
    Ok(WindowMap {
        x,
        y,
        cells: cells.into_iter().map(|(cell, _)| cell).collect(),
        start: start.clone(),
        job: job.clone(),
        refused,
    })
}

/// Mixes with what they do on the tip, where cells share them; a value that gives none keeps its error.
enum Stages {
    One(Box<Stage>),
    AlongX(Vec<Result<Stage>>),
    AlongY(Vec<Result<Stage>>),
    EachCell,
}

fn along(start: &Setup, job: &Job, (axis, values): &(Axis, Vec<f64>)) -> Vec<Result<Stage>> {
    let mut made: Vec<Option<Result<Stage>>> = vec![None; values.len()];
    for_rows(
        &mut made,
        &Progress::new(values.len()),
        || (),
        |(), i, stage| {
            let mut setup = start.clone();
            *stage = Some(axis.set(&mut setup, values[i]).and_then(|()| setup.stage(job)));
        },
    );
    made.into_iter().flatten().collect()
}

fn judge(start: &Setup, job: &Job, common: Option<&Stage>, settings: [(Axis, f64); 2]) -> Result<Cell> {
    let mut setup = start.clone();
    for (axis, value) in settings {
        axis.set(&mut setup, value)?;
    }
    let judged = match common {
        Some(stage) => setup.judge_staged(stage, job)?,
        None => setup.judge(job)?,
    };
    let worst = judged.worst();
    Ok(if judged.is_good() { Cell::Good(worst.sigmas()) } else { Cell::Fault(worst.fault, worst.sigmas()) })
}

fn check(start: &Setup, x: &(Axis, Vec<f64>), y: &(Axis, Vec<f64>)) -> Result<()> {
    if x.0 == y.0 {
        return Err(out_of_range(
            "axes of the map",
            x.0.key(),
            "two different settings",
            "let one of them run over another",
        ));
    }
    if matches!((x.0, y.0), (Axis::WetFilm, Axis::WetPasses) | (Axis::WetPasses, Axis::WetFilm)) {
        return Err(out_of_range(
            "axes of the map",
            "wet film and passes wet in wet",
            "one of them",
            "a wet film takes as many passes as it takes",
        ));
    }
    for (axis, values) in [x, y] {
        if *axis == Axis::Retarder && start.retarder.is_none() {
            return Err(no_retarder());
        }
        if values.is_empty() || values.len() > MOST {
            return Err(out_of_range(
                format!("number of values of {}", axis.key()),
                values.len().to_string(),
                format!("1 to {MOST}"),
                "a map of 40 to 100 a side is easy to read",
            ));
        }
        if let Some(bad) = values.iter().find(|v| !v.is_finite()) {
            return Err(out_of_range(
                axis.key(),
                bad.to_string(),
                "a finite number",
                "drop it from the list",
            ));
        }
    }
    Ok(())
}
