//! `RoomVapour` in Python.

use crate::air::PyRoom;
use crate::errors::{CallResult, UnitError};
use crate::estimate::PyEstimate;
use crate::quantity::{Arg, PyMolarMass, PyRatio, PyTime};
use crate::solvent::PySolvent;
use mistcoat::air::{Release, RoomVapour};
use mistcoat::quantity::{self as q, Quantity};
use pyo3::prelude::*;

/// A liquid of the catalogue, or its name.
#[derive(FromPyObject)]
pub enum Which<'py> {
    /// From a catalogue.
    Solvent(PyRef<'py, PySolvent>),
    /// By name.
    Name(String),
}

/// The vapour of one liquid in the air of a well-mixed room, over a session.
///
/// ``room`` needs ``volume`` and ``air_changes``; give the ``solvent`` (a name or a ``Solvent``) or a ``molar_mass``.
/// ``mixing``: 1 for perfect mixing, 0.1 to 0.5 is common practice; 0.22 within a factor 2 unless given. Releases are added by
/// ``release`` and may overlap.
///
/// **It is an average.** Near the gun, over the bench and in front of your face the air holds many times more, and every
/// answer warns of it. Exposure limits, the safety data sheet and local codes decide; smell does not warn in time.
///
/// >>> import warnings
/// >>> import mistcoat as mc
/// >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %", volume="30 m3", air_changes="0.5 /h")
/// >>> air = mc.RoomVapour(room, solvent="acetone").release("4 g", lasts="10 min")
/// >>> with warnings.catch_warnings(record=True) as cautions:
/// ...     warnings.simplefilter("always")
/// ...     peak = air.peak
/// >>> round(air.volume_share(peak.best).to("ppm"), 1)
/// 54.9
/// >>> "many times higher" in str(cautions[0].message)
/// True
#[pyclass(frozen, eq, name = "RoomVapour", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyRoomVapour(pub RoomVapour);

#[pymethods]
impl PyRoomVapour {
    #[new]
    #[pyo3(signature = (room, *, solvent=None, molar_mass=None, mixing=None))]
    #[allow(clippy::needless_pass_by_value, reason = "extracted arguments")]
    fn new(
        room: PyRef<'_, PyRoom>,
        solvent: Option<Which<'_>>,
        molar_mass: Option<Arg<q::MolarMass>>,
        mixing: Option<Arg<q::Ratio>>,
    ) -> CallResult<Self> {
        let mass = match (solvent, molar_mass) {
            (Some(Which::Solvent(s)), None) => s.0.molar_mass(),
            (Some(Which::Name(name)), None) => mistcoat::solvent::find(&name)?.molar_mass(),
            (None, Some(mass)) => mass.value,
            _ => {
                let why = "give either solvent=\"acetone\" or molar_mass=\"58.08 g/mol\"";
                return Err(UnitError::new_err(why).into());
            }
        };
        let mut vapour = RoomVapour::new(&room.0, mass)?;
        if let Some(mixing) = mixing {
            vapour = vapour.with_mixing(mixing.value)?;
        }
        Ok(Self(vapour))
    }
    /// The same room with one more release: this mass, evaporating evenly from ``start`` (the begin of the session unless
    /// given) for ``lasts``; zero for a spill that is gone at once.
    #[pyo3(signature = (mass, *, lasts, start=None))]
    fn release(
        &self,
        mass: Arg<q::Mass>,
        lasts: Arg<q::Time>,
        start: Option<Arg<q::Time>>,
    ) -> CallResult<Self> {
        let start = start.map_or_else(|| q::Time::from_si(0.0), |s| s.value);
        Ok(Self(self.0.clone().with_release(Release::new(mass.value, start, lasts.value)?)))
    }
    /// The room with its volume and air changes.
    #[getter]
    fn room(&self) -> PyRoom {
        PyRoom(self.0.room().clone())
    }
    /// Molar mass of the vapour.
    #[getter]
    fn molar_mass(&self) -> PyMolarMass {
        PyMolarMass(self.0.molar_mass())
    }
    /// Mixing factor, given or usual.
    #[getter]
    fn mixing(&self) -> PyRatio {
        PyRatio(self.0.mixing())
    }
    /// The average concentration in the room at this time after the start.
    fn concentration(&self, py: Python<'_>, time: Arg<q::Time>) -> CallResult<PyEstimate> {
        Ok(PyEstimate::answer(py, self.0.concentration(time.value)?)?)
    }
    /// The highest concentration.
    #[getter]
    fn peak(&self, py: Python<'_>) -> CallResult<PyEstimate> {
        Ok(PyEstimate::answer(py, self.0.peak()?)?)
    }
    /// When the concentration is highest.
    #[getter]
    fn peak_time(&self) -> PyTime {
        PyTime(self.0.peak_time())
    }
    /// The time-weighted average from ``start`` to ``end``, as exposure limits over 8 h or 15 min are stated.
    fn average(&self, py: Python<'_>, start: Arg<q::Time>, end: Arg<q::Time>) -> CallResult<PyEstimate> {
        Ok(PyEstimate::answer(py, self.0.average(start.value, end.value)?)?)
    }
    /// The concentration that a release going on for ever, ``mass`` in every ``each``, settles at.
    fn steady(&self, py: Python<'_>, mass: Arg<q::Mass>, each: Arg<q::Time>) -> CallResult<PyEstimate> {
        Ok(PyEstimate::answer(py, self.0.steady(mass.value, each.value)?)?)
    }
    /// A concentration as a share of the air by volume, in ppm.
    fn volume_share(&self, concentration: Arg<q::MassConcentration>) -> CallResult<PyRatio> {
        Ok(PyRatio(self.0.volume_share(concentration.value)?))
    }
    /// The fewest air changes with which the room average never rises above ``limit``; plan with the high end of the
    /// interval. Raises ``RangeError`` when 200 an hour do not keep it.
    fn air_changes_to_stay_below(
        &self,
        py: Python<'_>,
        limit: Arg<q::MassConcentration>,
    ) -> CallResult<PyEstimate> {
        Ok(PyEstimate::answer(py, self.0.air_changes_to_stay_below(limit.value)?)?)
    }
    /// The fewest air changes with which the mean from ``start`` to ``end`` stays below ``limit``.
    fn air_changes_for_average(
        &self,
        py: Python<'_>,
        limit: Arg<q::MassConcentration>,
        start: Arg<q::Time>,
        end: Arg<q::Time>,
    ) -> CallResult<PyEstimate> {
        Ok(PyEstimate::answer(py, self.0.air_changes_for_average(limit.value, start.value, end.value)?)?)
    }
    fn __str__(&self) -> String {
        let total: f64 = self.0.releases().iter().map(|r| r.mass().si()).sum();
        format!("{} into {}", q::show(q::Mass::from_si(total)), q::show(self.0.volume()))
    }
}

crate::json::travels!(PyRoomVapour, "The room and its releases", evaluates);
