//! `Programme`, `Stack` and `StackDrying` in Python.

use crate::air::PyRoom;
use crate::drying::PyDrying;
use crate::errors::{CallResult, UnitError};
use crate::estimate::{PyEstimate, warn_all};
use crate::film::PyFilm;
use crate::quantity::{Arg, PyLength, PyTime};
use crate::table::PyTable;
use mistcoat::film::{Programme, Stack, StackDrying};
use mistcoat::quantity as q;
use pyo3::prelude::*;

/// The air over a coat as it changes with time: gun, fan, warm cabinet.
///
/// Starts with ``room``; ``after(lasts, room)``: when the air so far has lasted for this time (1 ms to 365 d), another takes
/// its place. The last goes on for as long as it takes. Air changes at once, the part follows by its own heat.
///
/// Warmth makes vapour: solvent vapour and air explode. No part that is still wet goes into a closed, unventilated or
/// sparking oven; the safety data sheet, local codes and licensed practice decide.
///
/// >>> import mistcoat as mc
/// >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
/// >>> fan = room.with_draught("fan")
/// >>> warm = fan.warmed_to("38 degC")
/// >>> programme = mc.Programme(room).after("1 min", fan).after("10 min", warm)
/// >>> print(programme)
/// 21 °C with air at 0.15 m/s for 60 s, then 21 °C with air at 0.5 m/s for 10 min, then 38 °C with air at 0.5 m/s
/// >>> thinner = mc.Blend({"acetone": 50, "n-butyl acetate": 35, "2-butoxyethanol": 15}, basis="mass")
/// >>> settings = dict(wet_thickness="25 um", solids="15 %", binder_tg="50 degC")
/// >>> forced = mc.Film(thinner, programme=programme, **settings).dry()
/// >>> forced.handle.best < mc.Film(thinner, room=room, **settings).dry().handle.best
/// True
#[pyclass(frozen, eq, name = "Programme", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyProgramme(pub Programme);

#[pymethods]
impl PyProgramme {
    #[new]
    fn new(room: &PyRoom) -> Self {
        Self(Programme::new(room.0.clone()))
    }
    /// When the air so far has lasted for this time, ``room`` takes its place.
    ///
    /// Raises ``RangeError`` for a time outside 1 ms to 365 d, or more than 100 changes.
    fn after(&self, lasts: Arg<q::Time>, room: &PyRoom) -> CallResult<Self> {
        Ok(Self(self.0.clone().after(lasts.value, room.0.clone())?))
    }
    /// The rooms, in order.
    #[getter]
    fn rooms(&self) -> Vec<PyRoom> {
        self.0.phases().into_iter().map(|p| PyRoom(p.room)).collect()
    }
    /// When each sets in, from the wet coat on.
    #[getter]
    fn begins(&self) -> Vec<PyTime> {
        self.0.phases().into_iter().map(|p| PyTime(p.begins)).collect()
    }
    fn __len__(&self) -> usize {
        self.0.phases().len()
    }
    fn __str__(&self) -> String {
        self.0.to_string()
    }
}

crate::json::travels!(PyProgramme, "The programme", evaluates);

/// Coats sprayed on one another, with waits: spray, flash, spray.
///
/// ``Stack(coat, coats=3, wait="3 min")`` is the same coat three times; ``then(wait, coat)`` adds another one so long after the
/// last has landed. The air of each coat (its room or programme) holds until the next lands. A coat mixes at once with what
/// the coats below kept; gradients are neglected. Coats must share substrate, part length and binder.
///
/// >>> import mistcoat as mc
/// >>> thinner = mc.Blend({"acetone": 50, "n-butyl acetate": 35, "2-butoxyethanol": 15}, basis="mass")
/// >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
/// >>> coat = mc.Film(thinner, wet_thickness="12 um", room=room, solids="15 %", binder_tg="50 degC")
/// >>> hull = mc.Stack(coat, coats=3, wait="3 min").dry()
/// >>> hull.after_last.touch_dry.best < hull.one_coat.touch_dry.best
/// True
/// >>> [round(kept.to("%"), 1) for kept in hull.kept]
/// [5.7, 6.0]
#[pyclass(frozen, eq, name = "Stack", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyStack(pub Stack);

#[pymethods]
impl PyStack {
    #[new]
    #[pyo3(signature = (coat, *, coats=1, wait=None))]
    fn new(coat: &PyFilm, coats: usize, wait: Option<Arg<q::Time>>) -> CallResult<Self> {
        match (coats, wait) {
            (0 | 1, wait) => {
                let zero = q::Quantity::from_si(0.0);
                Ok(Self(Stack::repeat(&coat.0, coats, wait.map_or(zero, |w| w.value))?))
            }
            (_, Some(wait)) => Ok(Self(Stack::repeat(&coat.0, coats, wait.value)?)),
            (_, None) => {
                let why =
                    "several coats need the wait between them: give wait=\"3 min\", or \"0 s\" for none";
                Err(UnitError::new_err(why).into())
            }
        }
    }
    /// The stack with another coat, so long after the one before it has landed.
    ///
    /// Raises ``RangeError`` for a wait outside 0 s to 365 d, more than 50 coats or 5 mm, and coats that differ in substrate,
    /// part length or binder.
    fn then(&self, wait: Arg<q::Time>, coat: &PyFilm) -> CallResult<Self> {
        Ok(Self(self.0.clone().then(wait.value, coat.0.clone())?))
    }
    /// How many coats lie on one another.
    #[getter]
    fn coats(&self) -> usize {
        self.0.coats()
    }
    /// From the landing of the first coat to that of the last.
    #[getter]
    fn spraying_time(&self) -> PyTime {
        PyTime(self.0.spraying_time())
    }
    /// The last coat, over all others.
    #[getter]
    fn film(&self) -> PyFilm {
        PyFilm(self.0.film().clone())
    }
    /// Dries the stack, and the same paint in one coat. Gives a ``MistcoatWarning`` when there is something to mind about the
    /// stack.
    fn dry(&self, py: Python<'_>) -> CallResult<PyStackDrying> {
        let dry = py.detach(|| self.0.dry())?;
        warn_all(py, dry.after_last().warnings())?;
        Ok(PyStackDrying(dry))
    }
    fn __len__(&self) -> usize {
        self.0.coats()
    }
    fn __str__(&self) -> String {
        format!(
            "{} coats in {}, {} dry",
            self.0.coats(),
            q::show(self.0.spraying_time()),
            q::show(self.0.film().dry_build())
        )
    }
}

crate::json::travels!(PyStack, "The stack", evaluates);

/// How a stack of coats dries, beside the same paint in one coat.
///
/// ``flash_off``, ``touch_dry``, ``handle`` and ``residual_solvent`` count from the first coat; those of ``after_last`` from the last.
/// Prints as a table.
#[pyclass(frozen, eq, name = "StackDrying", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyStackDrying(pub StackDrying);

#[pymethods]
impl PyStackDrying {
    /// The stack from the landing of the last coat on; shares are of what the film held then.
    #[getter]
    fn after_last(&self) -> PyDrying {
        PyDrying(self.0.after_last().clone())
    }
    /// The same paint laid at once, in the air of the last coat.
    #[getter]
    fn one_coat(&self) -> PyDrying {
        PyDrying(self.0.one_coat().clone())
    }
    /// The coats that were dried, ready for another ``then``.
    #[getter]
    fn stack(&self) -> PyStack {
        PyStack(self.0.stack())
    }
    /// From the landing of the first coat to that of the last.
    #[getter]
    fn spraying_time(&self) -> PyTime {
        PyTime(self.0.spraying_time())
    }
    /// Thickness of all solids.
    #[getter]
    fn dry_thickness(&self) -> PyLength {
        PyLength(self.0.dry_thickness())
    }
    /// For each coat from the second on: share of the volatile mass brought before it that the film still held when it landed.
    #[getter]
    fn kept(&self, py: Python<'_>) -> CallResult<Vec<PyEstimate>> {
        let answers: Vec<_> =
            py.detach(|| (2..=self.0.stack().coats()).map(|coat| self.0.kept(coat)).collect());
        answers.into_iter().map(|answer| PyDrying::estimate(py, answer)).collect()
    }
    /// From the first coat until a tenth of all volatile matter that the coats brought is left.
    #[getter]
    fn flash_off(&self, py: Python<'_>) -> CallResult<PyEstimate> {
        let answer = py.detach(|| self.0.flash_off());
        PyDrying::estimate(py, answer)
    }
    /// From the first coat until the stack is touch dry. Raises ``RangeError`` as ``Drying.touch_dry``.
    #[getter]
    fn touch_dry(&self, py: Python<'_>) -> CallResult<PyEstimate> {
        let answer = py.detach(|| self.0.touch_dry());
        PyDrying::estimate(py, answer)
    }
    /// From the first coat until the stack may be handled and masked (block-free). Raises ``RangeError`` as ``touch_dry``.
    #[getter]
    fn handle(&self, py: Python<'_>) -> CallResult<PyEstimate> {
        let answer = py.detach(|| self.0.block_free());
        PyDrying::estimate(py, answer)
    }
    /// Solvent left so long after the first coat; in the one coat it is ``one_coat.residual_solvent(time)``.
    ///
    /// Raises ``RangeError`` for a time before the last coat, beyond what is followed, or coats without solids.
    fn residual_solvent(&self, py: Python<'_>, time: Arg<q::Time>) -> CallResult<PyEstimate> {
        let answer = py.detach(|| self.0.residual_solvent(time.value));
        PyDrying::estimate(py, answer)
    }
    /// What to mind about the stack; empty when there is nothing.
    #[getter]
    fn warnings(&self) -> Vec<String> {
        self.0.after_last().warnings().iter().map(|w| w.message.clone()).collect()
    }
    /// The stack beside the one coat, all times from the first coat.
    fn table(&self, py: Python<'_>) -> PyTable {
        PyTable(py.detach(|| self.0.table()))
    }
    fn __str__(&self, py: Python<'_>) -> String {
        py.detach(|| self.0.table()).to_text()
    }
    fn __repr__(&self) -> String {
        format!("<StackDrying: {} coats in {}>", self.0.stack().coats(), q::show(self.0.spraying_time()))
    }
    fn _repr_html_(&self, py: Python<'_>) -> String {
        py.detach(|| self.0.table()).to_html()
    }
}

crate::json::travels!(PyStackDrying, "The result");
