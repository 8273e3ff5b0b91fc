//! Where are the good settings, and what goes wrong at their edges? A map over any two of them.
//!
//! Each cell of the map is one [`Setup`] judged in full: spray, flight, drying, levelling, sag, dew. It shows the fault that
//! is met by most (in standard uncertainties), or none. On all cores with feature `parallel`; a
//! [`crate::progress::Progress`] tells how far it is and stops it, and what was done by then is kept.

use super::fault::Fault;
use super::jobs::Job;
use super::setup::{Setup, Stage};
use crate::error::{Result, out_of_range};
use crate::progress::{Progress, for_rows};
use crate::quantity::{Length, Pressure, Quantity, RelativeHumidity, Temperature};
use serde::{Deserialize, Serialize};

/// Cells along one side at most.
const MOST: usize = 1000;

/// A setting that a map runs over; numbers in the unit of its name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Axis {
    /// Parts of thinner to one part of paint.
    ThinnerPerPaint,
    /// Gauge pressure, kPa.
    Pressure,
    /// Distance, mm.
    Distance,
    /// Room temperature, °C.
    Temperature,
    /// Relative humidity, %.
    Humidity,
    /// Passes wet in wet.
    WetPasses,
    /// Air over the part, m/s.
    AirSpeed,
}

impl Axis {
    /// All axes.
    pub const ALL: [Self; 7] = [
        Self::ThinnerPerPaint,
        Self::Pressure,
        Self::Distance,
        Self::Temperature,
        Self::Humidity,
        Self::WetPasses,
        Self::AirSpeed,
    ];

    /// Name with unit, as programs write it.
    pub const fn key(self) -> &'static str {
        match self {
            Self::ThinnerPerPaint => "thinner_per_paint",
            Self::Pressure => "pressure_kPa",
            Self::Distance => "distance_mm",
            Self::Temperature => "temperature_degC",
            Self::Humidity => "relative_humidity_pct",
            Self::WetPasses => "wet_passes",
            Self::AirSpeed => "air_speed_m_s",
        }
    }

    /// Name with unit, for people.
    pub const fn title(self) -> &'static str {
        match self {
            Self::ThinnerPerPaint => "parts of thinner to 1 part of paint",
            Self::Pressure => "pressure, kPa gauge",
            Self::Distance => "distance, mm",
            Self::Temperature => "room, °C",
            Self::Humidity => "relative humidity, %",
            Self::WetPasses => "passes wet in wet",
            Self::AirSpeed => "air over the part, m/s",
        }
    }

    /// The axis of a name.
    ///
    /// # Errors
    /// [`crate::error::UnknownName`] with near names.
    pub fn find(name: &str) -> Result<Self> {
        Self::ALL.into_iter().find(|a| a.key() == name).ok_or_else(|| {
            let known = Self::ALL.map(Self::key);
            crate::error::unknown_name(
                "setting of a map",
                name,
                known,
                "a map runs over two of the settings listed",
            )
        })
    }

    /// Whether it changes the mix or its drying on the tip.
    const fn changes_stage(self) -> bool {
        matches!(self, Self::ThinnerPerPaint | Self::Temperature | Self::Humidity | Self::AirSpeed)
    }

    /// As it stands in a setting.
    pub(super) fn of(self, setup: &Setup) -> f64 {
        match self {
            Self::ThinnerPerPaint => setup.thinner_per_paint,
            Self::Pressure => setup.gun.pressure().si() * 1e-3,
            Self::Distance => setup.gun.distance().si() * 1e3,
            Self::WetPasses => f64::from(setup.wet_passes),
            Self::Temperature => setup.room.temperature().si() - 273.15,
            Self::Humidity => setup.room.relative_humidity().get() * 100.0,
            Self::AirSpeed => setup.room.air_speed().si(),
        }
    }

    pub(super) fn set(self, setup: &mut Setup, value: f64) -> Result<()> {
        match self {
            Self::ThinnerPerPaint => setup.thinner_per_paint = value,
            Self::Pressure => setup.gun = setup.gun.clone().at_pressure(Pressure::from_si(value * 1e3))?,
            Self::Distance => setup.gun = setup.gun.clone().at_distance(Length::from_si(value * 1e-3))?,
            Self::Temperature => {
                setup.room = setup.room.clone().with_temperature(Temperature::from_si(value + 273.15))?;
            }
            Self::Humidity => {
                setup.room = setup.room.clone().with_relative_humidity(RelativeHumidity::new(value / 100.0)?);
            }
            Self::WetPasses => {
                if !(1.0..=20.0).contains(&value) {
                    return Err(out_of_range(
                        "passes wet in wet",
                        value.to_string(),
                        "1 to 20",
                        "count whole passes",
                    ));
                }
                // Between 1 and 20 by the line above.
                #[allow(
                    clippy::cast_possible_truncation,
                    clippy::cast_sign_loss,
                    reason = "checked to be 1 to 20"
                )]
                let passes = value.round() as u32;
                setup.wet_passes = passes;
            }
            Self::AirSpeed => {
                setup.room = setup.room.clone().with_air_speed(crate::quantity::Velocity::from_si(value))?;
            }
        }
        Ok(())
    }
}

/// One cell.
#[derive(Debug, Clone, Copy, PartialEq)]
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
#[derive(Debug, Clone, PartialEq)]
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
/// A [`crate::error::RangeError`] for one axis twice, no value, more than 1000 a side, or values that are no numbers.
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
    check(&x, &y)?;
    let nx = x.1.len();
    // Mix and tip are made once for all cells that share them.
    let stages = match (x.0.changes_stage(), y.0.changes_stage()) {
        (false, false) => Stages::One(Box::new(start.stage()?)),
        (true, false) => Stages::AlongX(along(start, &x)),
        (false, true) => Stages::AlongY(along(start, &y)),
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

fn along(start: &Setup, (axis, values): &(Axis, Vec<f64>)) -> Vec<Result<Stage>> {
    let mut made: Vec<Option<Result<Stage>>> = vec![None; values.len()];
    for_rows(
        &mut made,
        &Progress::new(values.len()),
        || (),
        |(), i, stage| {
            let mut setup = start.clone();
            *stage = Some(axis.set(&mut setup, values[i]).and_then(|()| setup.stage()));
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

fn check(x: &(Axis, Vec<f64>), y: &(Axis, Vec<f64>)) -> Result<()> {
    if x.0 == y.0 {
        return Err(out_of_range(
            "axes of the map",
            x.0.key(),
            "two different settings",
            "let one of them run over another",
        ));
    }
    for (axis, values) in [x, y] {
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
