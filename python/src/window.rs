//! The map of the settings.

use crate::errors::{CallResult, Interrupted, UnitError};
use crate::film::Curve;
use crate::setup::{JobArg, PyJob, PySetup};
use crate::watch::{Report, watched};
use mistcoat::bench::{self, Axis, Cell, Fault, WindowMap};
use mistcoat::progress::Progress;
use mistcoat::quantity as q;
use numpy::{IntoPyArray, PyArray2, ndarray::Array2};
use pyo3::{exceptions::PyKeyboardInterrupt, prelude::*};

/// Codes of cells without a fault.
const GOOD: i8 = -1;
const REFUSED: i8 = -2;
const WAITING: i8 = -3;

/// A map over two settings: the first fault of every cell, or none.
///
/// >>> import mistcoat as mc
/// >>> green = mc.Paint.typical("alcohol acrylic", name="hull green")
/// >>> gun = mc.Airbrush(nozzle="0.3 mm", pressure="25 psi", distance="65 mm")
/// >>> room = mc.Room(temperature="23 degC", relative_humidity="50 %")
/// >>> setup = mc.Setup(green, "isopropanol", airbrush=gun, room=room, substrate="wood")
/// >>> found = mc.window(setup, "base coat", x=("thinner_per_paint", [1, 2]), y=("pressure_kPa", [100, 150, 200]))
/// >>> found.codes.shape
/// (3, 2)
#[pyclass(frozen, eq, name = "WindowMap", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyWindowMap(pub WindowMap);

impl PyWindowMap {
    fn grid<T: numpy::Element + Copy>(
        &self,
        py: Python<'_>,
        pick: impl Fn(Cell) -> T,
    ) -> CallResult<Py<PyArray2<T>>> {
        let values: Vec<T> = self.0.cells.iter().map(|c| pick(*c)).collect();
        let shape = (self.0.y.1.len(), self.0.x.1.len());
        let grid = Array2::from_shape_vec(shape, values).map_err(|e| UnitError::new_err(e.to_string()))?;
        Ok(grid.into_pyarray(py).unbind())
    }
}

fn code(fault: Fault) -> i8 {
    // Ten faults at most.
    Fault::ALL.iter().position(|f| *f == fault).and_then(|i| i8::try_from(i).ok()).unwrap_or(REFUSED)
}

#[pymethods]
impl PyWindowMap {
    /// What runs to the right, by its key with unit.
    #[getter]
    fn x_name(&self) -> &'static str {
        self.0.x.0.key()
    }
    /// What runs upwards, by its key with unit.
    #[getter]
    fn y_name(&self) -> &'static str {
        self.0.y.0.key()
    }
    /// What runs to the right, in words with its unit.
    #[getter]
    fn x_title(&self) -> &'static str {
        self.0.x.0.title()
    }
    /// What runs upwards, in words with its unit.
    #[getter]
    fn y_title(&self) -> &'static str {
        self.0.y.0.title()
    }
    /// Values to the right, one for each column.
    #[getter]
    fn x(&self) -> Curve {
        Curve(self.0.x.1.clone())
    }
    /// Values upwards, one for each row.
    #[getter]
    fn y(&self) -> Curve {
        Curve(self.0.y.1.clone())
    }
    /// The faults that the codes of ``codes`` count from 0.
    #[getter]
    #[allow(clippy::unused_self, reason = "a property in Python")]
    fn faults(&self) -> Vec<&'static str> {
        Fault::ALL.map(Fault::name).to_vec()
    }
    /// One row for each of ``y``, one column for each of ``x``: -1 inside every limit, -2 cannot be judged, -3 not judged
    /// because the work was stopped, else the fault met by most.
    #[getter]
    fn codes(&self, py: Python<'_>) -> CallResult<Py<PyArray2<i8>>> {
        self.grid(py, |cell| match cell {
            Cell::Good(_) => GOOD,
            Cell::Refused => REFUSED,
            Cell::Waiting => WAITING,
            Cell::Fault(fault, _) => code(fault),
        })
    }
    /// Least margin of each cell in standard uncertainties, below zero outside; NaN where there is none.
    #[getter]
    fn margins(&self, py: Python<'_>) -> CallResult<Py<PyArray2<f64>>> {
        self.grid(py, |cell| match cell {
            Cell::Good(sigmas) | Cell::Fault(_, sigmas) => sigmas,
            Cell::Refused | Cell::Waiting => f64::NAN,
        })
    }
    /// Share of the judged cells that are inside every limit.
    #[getter]
    fn good_share(&self) -> f64 {
        self.0.good_share()
    }
    /// Whether every cell was judged.
    #[getter]
    fn is_complete(&self) -> bool {
        self.0.is_complete()
    }
    /// What stood in the way of the first cell that could not be judged; ``None`` without one.
    #[getter]
    fn refused(&self) -> Option<String> {
        self.0.refused.clone()
    }
    /// The setting that the map starts from.
    #[getter]
    fn setup(&self) -> PySetup {
        PySetup(self.0.start.clone())
    }
    /// The job that the cells are judged for.
    #[getter]
    fn job(&self) -> PyJob {
        PyJob(self.0.job.clone())
    }
    /// What is mapped, in one line.
    #[getter]
    fn title(&self) -> String {
        let s = &self.0.start;
        format!("{} of {} with {}", self.0.job.name, s.paint.name(), s.thinner.label())
    }
    /// What stays the same over the map, in one line.
    #[getter]
    fn conditions(&self) -> String {
        let s = &self.0.start;
        let on = |axis: Axis| self.0.x.0 == axis || self.0.y.0 == axis;
        let mut parts = Vec::new();
        if !on(Axis::ThinnerPerPaint) {
            parts.push(format!("thinner {} : paint 1", s.thinner_per_paint));
        }
        if !on(Axis::Pressure) {
            parts.push(q::show(s.gun.pressure()));
        }
        if !on(Axis::Distance) {
            parts.push(q::show_in(s.gun.distance(), "mm", 3).unwrap_or_default());
        }
        if !on(Axis::Temperature) {
            parts.push(q::show(s.room.temperature()));
        }
        if !on(Axis::Humidity) {
            parts.push(format!("{} humidity", s.room.relative_humidity()));
        }
        if !on(Axis::Retarder)
            && let Some(slowed) = &s.retarder
        {
            parts.push(format!("{} of {} in the thinner", q::show(slowed.share), slowed.retarder.label()));
        }
        if on(Axis::WetFilm) || on(Axis::WetPasses) {
            // Stands on the axis.
        } else if let Some(film) = s.wet_film {
            parts.push(format!("{} wet", q::show(film)));
        } else {
            let passes =
                if s.wet_passes == 1 { "1 pass".to_owned() } else { format!("{} passes", s.wet_passes) };
            parts.push(format!("{passes} wet in wet"));
        }
        parts.push(s.substrate.to_string());
        parts.join(", ")
    }
    /// The map as a matplotlib figure (needs matplotlib: ``pip install mistcoat[charts]``).
    fn chart<'py>(slf: &Bound<'py, Self>) -> PyResult<Bound<'py, PyAny>> {
        slf.py().import("mistcoat.charts")?.call_method1("window", (slf,))
    }
    fn __repr__(&self) -> String {
        format!(
            "<WindowMap {} x {} of {}, {:.0} % inside every limit>",
            self.0.x.1.len(),
            self.0.y.1.len(),
            self.0.job.name,
            100.0 * self.0.good_share()
        )
    }
}

crate::json::pickles!(PyWindowMap);

/// Where are the good settings, and what goes wrong at their edges? A map over two of them.
///
/// ``x`` and ``y`` are (setting, values) with the settings "thinner_per_paint", "pressure_kPa", "distance_mm",
/// "temperature_degC", "relative_humidity_pct", "wet_passes", "wet_film_um" (of one coat, however many passes it takes),
/// "retarder_pct" (of a ``setup`` with a retarder) and "air_speed_m_s"; all else stays as in ``setup``. Every cell is judged
/// in full, on all cores, without the interpreter lock. ``progress`` is True for a line on stderr when it takes longer than a
/// second, or a function that is called with (done, total) about five times a second. Ctrl-C raises ``Interrupted``, which
/// holds the map so far in ``partial``.
///
/// >>> import mistcoat as mc
/// >>> green = mc.Paint.typical("alcohol acrylic", name="hull green")
/// >>> gun = mc.Airbrush(nozzle="0.3 mm", pressure="20 psi", distance="80 mm")
/// >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
/// >>> setup = mc.Setup(green, "isopropanol", airbrush=gun, room=room, substrate="wood")
/// >>> ratios, far = ("thinner_per_paint", [0.5, 1, 2]), ("distance_mm", [60, 120])
/// >>> mc.window(setup, "base coat", x=ratios, y=far).codes.shape
/// (2, 3)
#[pyfunction]
#[pyo3(signature = (setup, job, *, x, y, progress=None))]
#[allow(clippy::needless_pass_by_value, reason = "extracted arguments")]
pub fn window(
    py: Python<'_>,
    setup: PyRef<'_, PySetup>,
    job: JobArg<'_>,
    x: (String, Vec<f64>),
    y: (String, Vec<f64>),
    progress: Option<Bound<'_, PyAny>>,
) -> CallResult<PyWindowMap> {
    let job = job.job()?;
    let (x, y) = ((Axis::find(&x.0)?, x.1), (Axis::find(&y.0)?, y.1));
    let handle = Progress::new(x.1.len() * y.1.len());
    let start = setup.0.clone();
    let report = Report::new(py, progress, "judging cells")?;
    let (map, stopped) =
        watched(py, &handle, report.function(), || bench::window(&start, &job, x, y, &handle));
    report.close()?;
    let map = PyWindowMap(map?);
    let Some(stop) = stopped else { return Ok(map) };
    let finished = map.grid(py, |cell| cell != Cell::Waiting)?;
    if stop.is_instance_of::<PyKeyboardInterrupt>(py) {
        let error = Interrupted::new_err((map, finished));
        error.set_cause(py, Some(stop));
        return Err(error.into());
    }
    let value = stop.value(py);
    // An exception class may refuse attributes; what went wrong is then still told.
    let _ = value.setattr("partial", map);
    let _ = value.setattr("finished", finished);
    Err(stop.into())
}
