//! `SessionAir` and what it comes to, in Python.

use crate::air::PyRoom;
use crate::blend::Liquid;
use crate::drying::PyDrying;
use crate::errors::CallResult;
use crate::estimate::{PyEstimate, PyWorking, warn_all};
use crate::exposure::{PyMixtureExposure, authority};
use crate::film::Curve;
use crate::open_cup::PyCupCourse;
use crate::paint::PyMix;
use crate::quantity::{Arg, PyMass, PyRatio, PyTime};
use crate::table::PyTable;
use mistcoat::Warning;
use mistcoat::quantity::{self as q, Quantity};
use mistcoat::safety::{SessionAir, SessionExposure, SessionVapour, VapourSource, Ventilation};
use pyo3::prelude::*;

/// The air of a room over a session: add sources of vapour one by one, then ``run``.
///
/// ``room`` needs ``volume`` and ``air_changes``. ``authority``: whose limits, as for ``mixture_exposure``. ``keep_below``:
/// share of the limits that ventilation is worked out for, half unless given (1 to 100 %). ``mixing``: 1 for perfect mixing,
/// 0.1 to 0.5 is common practice; 0.22 within a factor 2 unless given. ``leaving_at``: when people leave and breathe clean air
/// for the rest of the 8 h; unless given they stay for the worst 8 h. Times count from the begin of the session.
///
/// It says how bad a room is, never that one is safe.
///
/// >>> import warnings
/// >>> import mistcoat as mc
/// >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %", volume="30 m3", air_changes="0.5 /h")
/// >>> thinner = mc.Blend({"acetone": 40, "n-butyl acetate": 60}, basis="volume")
/// >>> mix = mc.demo_paint("hull green").thin(thinner, thinner=1, paint=1)
/// >>> dry = mc.Film(mix, wet_thickness="25 um", room=room).dry()
/// >>> evening = mc.safety.SessionAir(room)
/// >>> evening = evening.coat("hull green", mix, sprayed="8 mL", landed="40 %", drying=dry, spraying="10 min")
/// >>> evening = evening.cleaning("gun", thinner, "6 mL", evaporated="30 %", start="15 min", lasts="5 min")
/// >>> with warnings.catch_warnings(record=True):
/// ...     warnings.simplefilter("always")
/// ...     air = evening.run()
/// >>> air.near_short_sum.best > air.short_sum.best  # it is worse at the bench
/// True
/// >>> "decide" in air.cautions[-1]
/// True
#[pyclass(frozen, eq, name = "SessionAir", module = "mistcoat.safety")]
#[derive(Clone, PartialEq)]
pub struct PySessionAir(pub SessionAir);

fn from_begin(start: Option<Arg<q::Time>>) -> q::Time {
    start.map_or_else(|| q::Time::from_si(0.0), |t| t.value)
}

#[pymethods]
impl PySessionAir {
    #[new]
    #[pyo3(signature = (room, *, authority="lowest", keep_below=None, mixing=None, leaving_at=None))]
    #[allow(clippy::needless_pass_by_value, reason = "extracted arguments")]
    fn new(
        room: PyRef<'_, PyRoom>,
        authority: &str,
        keep_below: Option<Arg<q::Ratio>>,
        mixing: Option<Arg<q::Ratio>>,
        leaving_at: Option<Arg<q::Time>>,
    ) -> CallResult<Self> {
        let mut session = SessionAir::new(&room.0)?.with_authority(self::authority(authority)?);
        if let Some(share) = keep_below {
            session = session.keeping_below(share.value)?;
        }
        if let Some(mixing) = mixing {
            session = session.with_mixing(mixing.value)?;
        }
        if let Some(time) = leaving_at {
            session = session.leaving_at(time.value)?;
        }
        Ok(Self(session))
    }
    /// The same with a coat: ``sprayed`` of the mix through all guns in the time ``spraying``, of which the share ``landed``
    /// (of the solids) reaches the part and dries as ``drying`` says. What the flight took is read off the drying film: dry
    /// ``shot.film(passes)``, or a ``Film`` of the mix for a brushed coat. A film of another mix raises ``RangeError``.
    #[pyo3(signature = (name, mix, *, sprayed, landed, drying, spraying, start=None))]
    #[allow(
        clippy::too_many_arguments,
        clippy::needless_pass_by_value,
        reason = "keyword arguments of Python"
    )]
    fn coat(
        &self,
        name: &str,
        mix: PyRef<'_, PyMix>,
        sprayed: Arg<q::Volume>,
        landed: Arg<q::Ratio>,
        drying: PyRef<'_, PyDrying>,
        spraying: Arg<q::Time>,
        start: Option<Arg<q::Time>>,
    ) -> CallResult<Self> {
        let start = from_begin(start);
        let session = self.0.clone();
        Ok(Self(session.coat(name, &mix.0, sprayed.value, landed.value, &drying.0, start, spraying.value)?))
    }
    /// The same with a cleaning: of ``amount`` of ``cleaner`` the share ``evaporated`` becomes vapour, evenly while it
    /// ``lasts``.
    #[pyo3(signature = (name, cleaner, amount, *, evaporated, lasts, start=None))]
    #[allow(clippy::needless_pass_by_value, reason = "extracted arguments")]
    fn cleaning(
        &self,
        name: &str,
        cleaner: Liquid,
        amount: Arg<q::Volume>,
        evaporated: Arg<q::Ratio>,
        lasts: Arg<q::Time>,
        start: Option<Arg<q::Time>>,
    ) -> CallResult<Self> {
        let (session, start) = (self.0.clone(), from_begin(start));
        Ok(Self(session.cleaning(name, &cleaner.0, amount.value, evaporated.value, start, lasts.value)?))
    }
    /// The same with a mix standing in an open cup for ``open_for``; ``course`` is what ``OpenCup.stand`` gave.
    #[pyo3(signature = (name, course, *, open_for, start=None))]
    #[allow(clippy::needless_pass_by_value, reason = "extracted arguments")]
    fn open_cup(
        &self,
        name: &str,
        course: PyRef<'_, PyCupCourse>,
        open_for: Arg<q::Time>,
        start: Option<Arg<q::Time>>,
    ) -> CallResult<Self> {
        Ok(Self(self.0.clone().open_cup(name, &course.0, from_begin(start), open_for.value)?))
    }
    /// The room with its volume and air changes.
    #[getter]
    fn room(&self) -> PyRoom {
        PyRoom(self.0.room().clone())
    }
    /// The sources of vapour so far.
    #[getter]
    fn sources(&self) -> Vec<PyVapourSource> {
        self.0.sources().into_iter().map(PyVapourSource).collect()
    }
    /// What the room's air holds over the session, against the limits; what to mind is also given as one Python warning.
    /// Raises ``RangeError`` without a source, or for more vapour than air.
    fn run(&self, py: Python<'_>) -> CallResult<PySessionExposure> {
        let found = self.0.run()?;
        let all: Vec<String> = found.warnings.iter().map(|w| w.message.clone()).collect();
        warn_all(py, &[Warning::new("session-air", all.join("; "))])?;
        Ok(PySessionExposure(found))
    }
    fn __repr__(&self) -> String {
        let names: Vec<String> = self.0.sources().into_iter().map(|s| s.name).collect();
        format!("<SessionAir: {}>", if names.is_empty() { "no source".to_owned() } else { names.join(", ") })
    }
}

crate::json::pickles!(PySessionAir);

/// One source of vapour over the session. Water does not count.
#[pyclass(frozen, eq, name = "VapourSource", module = "mistcoat.safety")]
#[derive(Clone, PartialEq)]
pub struct PyVapourSource(pub VapourSource);

#[pymethods]
impl PyVapourSource {
    /// Name that it was given.
    #[getter]
    fn name(&self) -> &str {
        &self.0.name
    }
    /// "sprayed coat", "cleaning" or "open cup".
    #[getter]
    fn kind(&self) -> &'static str {
        self.0.kind.words()
    }
    /// When it begins, from the begin of the session.
    #[getter]
    fn start(&self) -> PyTime {
        PyTime(self.0.start)
    }
    /// How long is sprayed or cleaned, or the cup open; a film goes on drying afterwards.
    #[getter]
    fn lasts(&self) -> PyTime {
        PyTime(self.0.lasts)
    }
    /// Solvent sprayed, poured out or standing in the cup.
    #[getter]
    fn brought(&self) -> PyMass {
        PyMass(self.0.brought)
    }
    /// Vapour given off in all.
    #[getter]
    fn released(&self) -> PyMass {
        PyMass(self.0.released)
    }
    /// Of it, what never landed or was lost in flight.
    #[getter]
    fn in_flight(&self) -> PyMass {
        PyMass(self.0.in_flight)
    }
    /// What never became vapour: still in film or cup, or poured away.
    #[getter]
    fn kept(&self) -> PyMass {
        PyMass(self.0.kept)
    }
    fn __repr__(&self) -> String {
        format!("<VapourSource {}: {}>", self.0.name, q::show(self.0.released))
    }
}

crate::json::pickles!(PyVapourSource);

/// One vapour over the session, as means of the whole room.
#[pyclass(frozen, eq, name = "SessionVapour", module = "mistcoat.safety")]
#[derive(Clone, PartialEq)]
pub struct PySessionVapour(pub SessionVapour);

#[pymethods]
impl PySessionVapour {
    /// The liquid as it was poured.
    #[getter]
    fn solvent(&self) -> &str {
        &self.0.solvent
    }
    /// Given off by all sources.
    #[getter]
    fn released(&self) -> PyMass {
        PyMass(self.0.released)
    }
    /// Never given off: still in films and cups, or poured away.
    #[getter]
    fn kept(&self) -> PyMass {
        PyMass(self.0.kept)
    }
    /// Highest share of the room's air by volume.
    #[getter]
    fn peak(&self) -> PyRatio {
        PyRatio(self.0.peak)
    }
    /// Mean over the worst 8 h of the sum of all vapours.
    #[getter]
    fn shift_mean(&self) -> PyRatio {
        PyRatio(self.0.shift_mean)
    }
    /// Mean over the worst 15 minutes of the sum of all vapours.
    #[getter]
    fn short_mean(&self) -> PyRatio {
        PyRatio(self.0.short_mean)
    }
    fn __repr__(&self) -> String {
        format!("<SessionVapour {}: {}>", self.0.solvent, q::show(self.0.released))
    }
}

crate::json::pickles!(PySessionVapour);

/// Fresh air that would keep the room's mean below a share of the limits; its text says what it leaves out.
#[pyclass(frozen, eq, name = "Ventilation", module = "mistcoat.safety")]
#[derive(Clone, PartialEq)]
pub struct PyVentilation(pub Ventilation);

#[pymethods]
impl PyVentilation {
    /// The share of the limits.
    #[getter]
    fn below(&self) -> PyRatio {
        PyRatio(self.0.below)
    }
    /// Air changes; ``None`` when even 200 an hour are too few. Plan with the high end.
    #[getter]
    fn air_changes(&self) -> Option<PyEstimate> {
        self.0.air_changes.clone().map(PyEstimate::new)
    }
    /// The same as a flow of fresh air.
    #[getter]
    fn flow(&self) -> Option<PyEstimate> {
        self.0.flow.clone().map(PyEstimate::new)
    }
    fn __str__(&self) -> &str {
        &self.0.words
    }
    fn __repr__(&self) -> String {
        format!("<Ventilation: {}>", self.0.words)
    }
}

crate::json::pickles!(PyVentilation);

/// The air of a session against the limits; prints as a table with sums, ventilation, cautions and sources under it.
///
/// Sums count concentrations over limits; 1 is the limit.
#[pyclass(frozen, eq, name = "SessionExposure", module = "mistcoat.safety")]
#[derive(Clone, PartialEq)]
pub struct PySessionExposure(pub SessionExposure);

#[pymethods]
impl PySessionExposure {
    /// The room with its volume and air changes.
    #[getter]
    fn room(&self) -> PyRoom {
        PyRoom(self.0.room.clone())
    }
    /// Worst 8 h, mean of the whole room, against limits over 8 h.
    #[getter]
    fn shift(&self) -> PyMixtureExposure {
        PyMixtureExposure(self.0.shift.clone())
    }
    /// Worst 15 minutes, mean of the whole room, against short-term limits (three times the 8 h limit where none is known).
    #[getter]
    fn short(&self) -> PyMixtureExposure {
        PyMixtureExposure(self.0.short.clone())
    }
    /// Sum of ``shift`` with its interval.
    #[getter]
    fn shift_sum(&self) -> PyEstimate {
        PyEstimate::new(self.0.shift_sum.clone())
    }
    /// Sum of ``short`` with its interval.
    #[getter]
    fn short_sum(&self) -> PyEstimate {
        PyEstimate::new(self.0.short_sum.clone())
    }
    /// Sum over the worst 8 h within half a metre of the work.
    #[getter]
    fn near_shift_sum(&self) -> PyEstimate {
        PyEstimate::new(self.0.near_shift_sum.clone())
    }
    /// Sum over the worst 15 minutes within half a metre of the work.
    #[getter]
    fn near_short_sum(&self) -> PyEstimate {
        PyEstimate::new(self.0.near_short_sum.clone())
    }
    /// When the worst 15 minutes begin.
    #[getter]
    fn worst_from(&self) -> PyTime {
        PyTime(self.0.worst_from)
    }
    /// Fresh air that would keep the room's mean below the chosen share of the limits.
    #[getter]
    fn ventilation(&self) -> PyVentilation {
        PyVentilation(self.0.ventilation.clone())
    }
    /// Most that the mean of the room comes to of the lower flammable limit.
    #[getter]
    fn flammable_share(&self) -> PyRatio {
        PyRatio(self.0.flammable_share)
    }
    /// Highest sum of the room's mean over limits of 8 h, at any moment.
    #[getter]
    fn peak(&self) -> f64 {
        self.0.peak().si()
    }
    /// Vapour given off by all sources.
    #[getter]
    fn released(&self) -> PyMass {
        PyMass(self.0.released())
    }
    /// What gave off vapour.
    #[getter]
    fn sources(&self) -> Vec<PyVapourSource> {
        self.0.sources.iter().cloned().map(PyVapourSource).collect()
    }
    /// The vapours, the one that released most first.
    #[getter]
    fn vapours(&self) -> Vec<PySessionVapour> {
        self.0.vapours.iter().cloned().map(PySessionVapour).collect()
    }
    /// Times of the curves in seconds.
    #[getter]
    fn time_s(&self) -> Curve {
        Curve(self.0.times().iter().map(|t| t.si()).collect())
    }
    /// Mean of the room at each time: sum of concentrations over limits of 8 h.
    #[getter]
    fn shares(&self) -> Curve {
        Curve(self.0.shares().to_vec())
    }
    /// The same within half a metre of the work.
    #[getter]
    fn near_shares(&self) -> Curve {
        Curve(self.0.near_shares().to_vec())
    }
    /// What to mind; never empty.
    #[getter]
    fn warnings(&self) -> Vec<String> {
        self.0.warnings.iter().map(|w| w.message.clone()).collect()
    }
    /// What goes with the numbers wherever they are shown; never empty, and who decides comes last.
    #[getter]
    fn cautions(&self) -> Vec<String> {
        self.0.cautions()
    }
    /// Citations of every limit and rule behind the numbers, each with how far to trust it.
    #[getter]
    fn citations(&self) -> Vec<String> {
        self.0.citations()
    }
    /// The sources of vapour with what each brought, gave off and kept.
    fn sources_table(&self) -> PyTable {
        PyTable(self.0.sources_table())
    }
    /// How the sums were worked out, step by step with sources.
    fn working(&self) -> PyWorking {
        PyWorking(self.0.working())
    }
}

crate::table::shows!(
    PySessionExposure,
    "The vapours with means, limits and shares; sums, ventilation, cautions and sources under them."
);

crate::json::pickles!(PySessionExposure);
