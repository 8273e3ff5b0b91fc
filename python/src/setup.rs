//! Settings at the bench: judge, recommend, map, diagnose.

use crate::air::PyRoom;
use crate::blend::{Liquid, PyBlend};
use crate::dict::Ordered;
use crate::errors::{CallResult, Interrupted, UnitError};
use crate::film::Curve;
use crate::paint::PyPaint;
use crate::quantity::{Arg, PyLength, PyRatio, PyTemperature, PyTime};
use crate::spray::PyAirbrush;
use crate::table::PyTable;
use crate::watch::watched;
use mistcoat::bench::{
    self, Axis, Cell, Choice, Defect, Diagnosis, Fault, Job, Judged, RATIOS, Recommendation, Setup, WindowMap,
};
use mistcoat::film::Substrate;
use mistcoat::progress::Progress;
use mistcoat::quantity as q;
use numpy::{IntoPyArray, PyArray2, ndarray::Array2};
use pyo3::{exceptions::PyKeyboardInterrupt, prelude::*, types::PyString};

/// Codes of cells without a fault.
const GOOD: i8 = -1;
const REFUSED: i8 = -2;
const WAITING: i8 = -3;

/// A job by its name, or one of your own.
#[derive(FromPyObject)]
pub enum JobArg<'py> {
    /// With targets of its own.
    Own(PyRef<'py, PyJob>),
    /// By name.
    Name(String),
}

impl JobArg<'_> {
    fn job(&self) -> CallResult<Job> {
        Ok(match self {
            Self::Own(job) => job.0.clone(),
            Self::Name(name) => Job::named(name)?,
        })
    }
}

/// Targets of a job: "base coat", "fine lines", "soft edge", "over a mask", "gloss clear", "metallic", "primer".
///
/// The usual targets are common practice; each may be changed by name.
///
/// >>> import mistcoat as mc
/// >>> mine = mc.Job("base coat", dry_film="8 um", most_passes=6)
/// >>> print(mine.dry_film, mine.largest_drop)
/// 8 µm 50 µm
#[pyclass(frozen, eq, name = "Job", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyJob(pub Job);

#[pymethods]
impl PyJob {
    #[new]
    #[pyo3(signature = (name, *, dry_film=None, most_passes=None, largest_drop=None, ripple_left=None))]
    #[allow(clippy::needless_pass_by_value, reason = "extracted arguments")]
    fn new(
        name: &str,
        dry_film: Option<Arg<q::Length>>,
        most_passes: Option<f64>,
        largest_drop: Option<Arg<q::Length>>,
        ripple_left: Option<Arg<q::Ratio>>,
    ) -> CallResult<Self> {
        let mut job = Job::named(name)?;
        if let Some(film) = dry_film {
            job.dry_film = film.value;
        }
        if let Some(passes) = most_passes {
            job.most_passes = passes;
        }
        if let Some(drop) = largest_drop {
            job.largest_drop = drop.value;
        }
        if let Some(left) = ripple_left {
            job.ripple_left = Some(left.value);
        }
        Ok(Self(job.checked()?))
    }
    /// Names of the usual jobs.
    #[staticmethod]
    fn list() -> CallResult<Vec<String>> {
        Ok(Job::all()?.iter().map(|j| j.name.clone()).collect())
    }
    /// Its name, as the table of usual jobs has it.
    #[getter]
    fn name(&self) -> &str {
        &self.0.name
    }
    /// What matters in it, in a sentence.
    #[getter]
    fn note(&self) -> &str {
        &self.0.note
    }
    /// Dry film to build over all passes.
    #[getter]
    fn dry_film(&self) -> PyLength {
        PyLength(self.0.dry_film)
    }
    /// Most passes over one place.
    #[getter]
    fn most_passes(&self) -> f64 {
        self.0.most_passes
    }
    /// Coarsest drops, by their Sauter mean.
    #[getter]
    fn largest_drop(&self) -> PyLength {
        PyLength(self.0.largest_drop)
    }
    /// Share of the ripple that may be left; ``None`` where it does not matter.
    #[getter]
    fn ripple_left(&self) -> Option<PyRatio> {
        self.0.ripple_left.map(PyRatio)
    }
    fn __repr__(&self) -> String {
        format!("<Job {}: {}>", self.0.name, self.0.note)
    }
    #[staticmethod]
    fn _from_json(text: &str) -> CallResult<Self> {
        let job: Job = crate::json::load(text)?;
        Ok(Self(job.checked()?))
    }
    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> CallResult<(Bound<'py, PyAny>, (String,))> {
        crate::json::reduce(slf, "_from_json", &slf.get().0)
    }
}

/// One way to work: paint, thinner and ratio, gun, passes laid wet in wet, part, room.
///
/// ``thinner`` is a ``Blend``, a ``Solvent`` or the name of one; ``thinner_per_paint`` parts of thinner to one part of
/// paint, by volume. ``primed``: whether a dry primer that stands the thinner lies on the part. ``steepness``: sine of the
/// angle of the face to the horizontal, 100 % upright, 0 % level.
///
/// >>> import mistcoat as mc
/// >>> green = mc.Paint.typical("alcohol acrylic", name="hull green")
/// >>> gun = mc.Airbrush(nozzle="0.3 mm", pressure="20 psi", distance="80 mm")
/// >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
/// >>> setup = mc.Setup(green, "isopropanol", thinner_per_paint=1, airbrush=gun, room=room, substrate="wood")
/// >>> judged = setup.judge("base coat")
/// >>> judged.worst in mc.Setup.faults()
/// True
#[pyclass(frozen, eq, name = "Setup", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PySetup(pub Setup);

#[pymethods]
impl PySetup {
    #[new]
    #[pyo3(signature = (paint, thinner, *, thinner_per_paint=1.0, airbrush, room, wet_passes=1, substrate="polystyrene",
        substrate_thickness=None, primed=false, steepness=None))]
    #[allow(
        clippy::too_many_arguments,
        clippy::needless_pass_by_value,
        reason = "keyword arguments of Python"
    )]
    fn new(
        paint: PyRef<'_, PyPaint>,
        thinner: Liquid,
        thinner_per_paint: f64,
        airbrush: PyRef<'_, PyAirbrush>,
        room: PyRef<'_, PyRoom>,
        wet_passes: u32,
        substrate: &str,
        substrate_thickness: Option<Arg<q::Length>>,
        primed: bool,
        steepness: Option<Arg<q::Ratio>>,
    ) -> CallResult<Self> {
        let mut plate = Substrate::named(substrate)?;
        if let Some(thickness) = substrate_thickness {
            plate = plate.with_thickness(thickness.value)?;
        }
        let mut setup = Setup::new(&paint.0, &thinner.0, thinner_per_paint, &airbrush.0, &room.0);
        setup.wet_passes = wet_passes;
        setup.substrate = plate;
        setup.primed = primed;
        if let Some(steepness) = steepness {
            setup.steepness = steepness.value;
        }
        Ok(Self(setup))
    }
    /// Names of the faults that settings are judged for.
    #[staticmethod]
    fn faults() -> Vec<&'static str> {
        Fault::ALL.map(Fault::name).to_vec()
    }
    /// The whole chain once, against the targets of a job: what goes wrong first, and how far is everything else?
    ///
    /// ``job`` is the name of a usual job or a ``Job``. Best values. Raises ``PhaseSplit`` for a mix that separates,
    /// ``RangeError`` for settings out of range.
    #[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
    fn judge(&self, py: Python<'_>, job: JobArg<'_>) -> CallResult<PyJudged> {
        let job = job.job()?;
        Ok(PyJudged(py.detach(|| self.0.judge(&job))?))
    }
    /// The thinner that is added to the paint.
    #[getter]
    fn thinner(&self) -> PyBlend {
        PyBlend(self.0.thinner.clone())
    }
    /// Parts of thinner to one part of paint, by volume.
    #[getter]
    fn thinner_per_paint(&self) -> f64 {
        self.0.thinner_per_paint
    }
    /// The gun with its pressure and distance.
    #[getter]
    fn airbrush(&self) -> PyAirbrush {
        PyAirbrush(self.0.gun.clone())
    }
    /// The room that is sprayed and dried in.
    #[getter]
    fn room(&self) -> PyRoom {
        PyRoom(self.0.room.clone())
    }
    /// Passes laid wet in wet before a flash-off.
    #[getter]
    fn wet_passes(&self) -> u32 {
        self.0.wet_passes
    }
    /// What is sprayed, with its thickness.
    #[getter]
    fn substrate(&self) -> String {
        self.0.substrate.to_string()
    }
    /// The setting as JSON text.
    fn to_json(&self) -> CallResult<String> {
        crate::json::dump(&self.0)
    }
    /// The setting from what ``to_json`` wrote.
    #[staticmethod]
    fn from_json(text: &str) -> CallResult<Self> {
        Ok(Self(crate::json::load(text)?))
    }
    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> CallResult<(Bound<'py, PyAny>, (String,))> {
        crate::json::reduce(slf, "from_json", &slf.get().0)
    }
    fn __repr__(&self, py: Python<'_>) -> CallResult<String> {
        Ok(format!("Setup.from_json({})", PyString::new(py, &crate::json::dump(&self.0)?).repr()?))
    }
}

/// What a setting does: margins from every fault, film, drying.
#[pyclass(frozen, eq, name = "Judged", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyJudged(pub Judged);

#[pymethods]
impl PyJudged {
    /// Whether every limit holds at best values.
    #[getter]
    fn is_good(&self) -> bool {
        self.0.is_good()
    }
    /// The fault that is nearest, or met by most.
    #[getter]
    fn worst(&self) -> &'static str {
        self.0.worst().fault.name()
    }
    /// By fault, nearest first: standard uncertainties inside its limit, below zero outside.
    #[getter]
    fn margins(&self) -> Ordered<f64> {
        Ordered(self.0.margins.iter().map(|m| (m.fault.name().to_owned(), m.sigmas())).collect())
    }
    /// By fault, nearest first: the number behind it and its limit.
    #[getter]
    fn reasons(&self) -> Ordered<String> {
        Ordered(self.0.margins.iter().map(|m| (m.fault.name().to_owned(), m.why.clone())).collect())
    }
    /// Sauter mean of the drops.
    #[getter]
    fn drop_size(&self) -> PyLength {
        PyLength(self.0.drop_size)
    }
    /// Share of the volatile mass lost in flight.
    #[getter]
    fn flight_loss(&self) -> PyRatio {
        PyRatio(self.0.flight_loss)
    }
    /// Wet film of one pass where it lands.
    #[getter]
    fn wet_per_pass(&self) -> PyLength {
        PyLength(self.0.wet_per_pass)
    }
    /// Dry film of one pass.
    #[getter]
    fn dry_per_pass(&self) -> PyLength {
        PyLength(self.0.dry_per_pass)
    }
    /// Passes until the dry film of the job is there.
    #[getter]
    fn passes(&self) -> f64 {
        self.0.passes
    }
    /// Flash-off of one wet-in-wet coat; ``None`` when it never gets there, or lands as dust.
    #[getter]
    fn flash_off(&self) -> Option<PyTime> {
        self.0.flash_off.map(PyTime)
    }
    /// Touch dry; ``None`` where the film has no such mark.
    #[getter]
    fn touch_dry(&self) -> Option<PyTime> {
        self.0.touch_dry.map(PyTime)
    }
    /// Lowest film temperature while it dries.
    #[getter]
    fn coldest(&self) -> PyTemperature {
        PyTemperature(self.0.coldest)
    }
    fn __repr__(&self) -> String {
        let worst = self.0.worst();
        format!("<Judged: {worst}; margin {:+.1}>", worst.sigmas())
    }
    #[staticmethod]
    fn _from_json(text: &str) -> CallResult<Self> {
        Ok(Self(crate::json::load(text)?))
    }
    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> CallResult<(Bound<'py, PyAny>, (String,))> {
        crate::json::reduce(slf, "_from_json", &slf.get().0)
    }
}

/// Settings for a job, safest first; or the nearest misses and what to change.
#[pyclass(frozen, eq, name = "Recommendation", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyRecommendation(pub Recommendation);

fn pairs(choices: &[Choice]) -> Vec<(PySetup, PyJudged)> {
    choices.iter().map(|c| (PySetup(c.setup.clone()), PyJudged(c.judged.clone()))).collect()
}

#[pymethods]
impl PyRecommendation {
    /// Settings inside every limit with what they do, safest first; one a ratio.
    #[getter]
    fn choices(&self) -> Vec<(PySetup, PyJudged)> {
        pairs(&self.0.choices)
    }
    /// When none is inside: the nearest misses.
    #[getter]
    fn misses(&self) -> Vec<(PySetup, PyJudged)> {
        pairs(&self.0.misses)
    }
    /// When none is inside: what to change.
    #[getter]
    fn advice(&self) -> Vec<String> {
        self.0.advice.clone()
    }
    /// How many settings were judged.
    #[getter]
    fn judged(&self) -> usize {
        self.0.judged
    }
    /// Choices, or the nearest misses, with what binds each.
    #[getter]
    fn table(&self) -> PyTable {
        PyTable(self.0.table())
    }
    fn __repr__(&self) -> String {
        self.0.table().to_text()
    }
    fn _repr_html_(&self) -> String {
        self.0.table().to_html()
    }
    #[staticmethod]
    fn _from_json(text: &str) -> CallResult<Self> {
        Ok(Self(crate::json::load(text)?))
    }
    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> CallResult<(Bound<'py, PyAny>, (String,))> {
        crate::json::reduce(slf, "_from_json", &slf.get().0)
    }
}

/// What ratio, pressure, distance and how many passes for this job?
///
/// ``setup`` gives paint, thinner, gun, room and part; its ratio, pressure, distance and passes are what is sought.
/// ``thinner_per_paint`` lists the ratios to look at, 0 to 4 unless given. ``progress`` is called with (done, total) about
/// five times a second. Ctrl-C ranks what was judged by then.
///
/// >>> import mistcoat as mc
/// >>> green = mc.Paint.typical("alcohol acrylic", name="hull green")
/// >>> gun = mc.Airbrush(nozzle="0.3 mm", pressure="20 psi", distance="80 mm")
/// >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
/// >>> setup = mc.Setup(green, "isopropanol", airbrush=gun, room=room, substrate="wood")
/// >>> found = mc.recommend(setup, "soft edge", thinner_per_paint=[1, 2])
/// >>> all(judged.is_good for _, judged in found.choices)
/// True
#[pyfunction]
#[pyo3(signature = (setup, job, *, thinner_per_paint=None, progress=None))]
#[allow(clippy::needless_pass_by_value, reason = "extracted arguments")]
pub fn recommend(
    py: Python<'_>,
    setup: PyRef<'_, PySetup>,
    job: JobArg<'_>,
    thinner_per_paint: Option<Vec<f64>>,
    progress: Option<Bound<'_, PyAny>>,
) -> CallResult<PyRecommendation> {
    let job = job.job()?;
    let ratios = thinner_per_paint.unwrap_or_else(|| RATIOS.to_vec());
    let handle = Progress::new(bench::pieces(&job, &ratios));
    let start = setup.0.clone();
    let (found, stopped) =
        watched(py, &handle, progress.as_ref(), || bench::recommend_watched(&start, &job, &ratios, &handle));
    match stopped {
        Some(stop) if !stop.is_instance_of::<PyKeyboardInterrupt>(py) => Err(stop.into()),
        _ => Ok(PyRecommendation(found?)),
    }
}

/// A map over two settings: the first fault of every cell, or none.
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
        if !on(Axis::WetPasses) {
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

/// Where are the good settings, and what goes wrong at their edges? A map over two of them.
///
/// ``x`` and ``y`` are (setting, values) with the settings "thinner_per_paint", "pressure_kPa", "distance_mm",
/// "temperature_degC", "relative_humidity_pct", "wet_passes" and "air_speed_m_s"; all else stays as in ``setup``. Every
/// cell is judged in full, on all cores, without the interpreter lock. ``progress`` is called with (done, total) about five
/// times a second. Ctrl-C raises ``Interrupted``, which holds the map so far in ``partial``.
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
    let (map, stopped) =
        watched(py, &handle, progress.as_ref(), || bench::window(&start, &job, x, y, &handle));
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

/// Causes of a defect, likeliest first, each with the number behind it and the smallest change that cures it.
#[pyclass(frozen, eq, name = "Diagnosis", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyDiagnosis(pub Diagnosis);

#[pymethods]
impl PyDiagnosis {
    /// The defect by the trade's word.
    #[getter]
    fn defect(&self) -> &str {
        &self.0.defect.name
    }
    /// By cause, likeliest first: probability that its limit is broken, 0 to 1, as far as the models know.
    #[getter]
    fn causes(&self) -> Ordered<f64> {
        Ordered(self.0.causes.iter().map(|c| (c.margin.fault.name().to_owned(), c.probability)).collect())
    }
    /// By cause: the smallest change of one setting that cures it; ``None`` when its limit holds, or none does.
    #[getter]
    fn changes(&self) -> Ordered<Option<String>> {
        let each = |c: &bench::LikelyCause| {
            (c.margin.fault.name().to_owned(), c.change.map(|change| change.to_string()))
        };
        Ordered(self.0.causes.iter().map(each).collect())
    }
    /// Whether every cause in the model is improbable, so that the cause is likely one beyond it.
    #[getter]
    fn look_beyond(&self) -> bool {
        self.0.look_beyond
    }
    /// Causes beyond the model, as common practice tells them.
    #[getter]
    fn beyond(&self) -> Vec<String> {
        self.0.defect.beyond.clone()
    }
    /// Causes with their numbers and cures.
    #[getter]
    fn table(&self) -> PyTable {
        PyTable(self.0.table())
    }
    fn __repr__(&self) -> String {
        self.0.table().to_text()
    }
    fn _repr_html_(&self) -> String {
        self.0.table().to_html()
    }
    #[staticmethod]
    fn _from_json(text: &str) -> CallResult<Self> {
        Ok(Self(crate::json::load(text)?))
    }
    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> CallResult<(Bound<'py, PyAny>, (String,))> {
        crate::json::reduce(slf, "_from_json", &slf.get().0)
    }
}

/// This went wrong at these settings: why, and what is the smallest change that cures it?
///
/// ``defect`` is the trade's word, see ``defects()``. Raises ``UnknownName`` with near words.
///
/// >>> import mistcoat as mc
/// >>> green = mc.Paint.typical("solvent lacquer", name="hull green")
/// >>> gun = mc.Airbrush(nozzle="0.3 mm", pressure="10 psi", distance="80 mm")
/// >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
/// >>> setup = mc.Setup(green, "n-butyl acetate", thinner_per_paint=0, airbrush=gun, room=room, substrate="wood")
/// >>> next(iter(mc.diagnose("spatter", setup, "base coat").causes))
/// 'spatter'
#[pyfunction]
#[allow(clippy::needless_pass_by_value, reason = "extracted arguments")]
pub fn diagnose(
    py: Python<'_>,
    defect: &str,
    setup: PyRef<'_, PySetup>,
    job: JobArg<'_>,
) -> CallResult<PyDiagnosis> {
    let job = job.job()?;
    let setup = setup.0.clone();
    Ok(PyDiagnosis(py.detach(|| bench::diagnose(defect, &setup, &job))?))
}

/// The defects that ``diagnose`` knows, by the trade's words, with how each looks.
#[pyfunction]
pub fn defects() -> CallResult<Ordered<String>> {
    let all = Defect::all()?;
    Ok(Ordered(all.iter().map(|d| (d.name.clone(), d.looks.clone())).collect()))
}
