//! `retarder`, its answer and the rows of it, in Python.

use crate::air::PyRoom;
use crate::blend::Liquid;
use crate::errors::CallResult;
use crate::estimate::{PyEstimate, warn_all};
use crate::lay::{PyBlush, PyLay, ripple, upright};
use crate::paint::{PyMix, PyPaint};
use crate::quantity::{Arg, PyRatio};
use crate::table::{Columns, columns};
use mistcoat::bench::{Retarder, RetarderAnswer, RetarderRow, USUAL_SHARES};
use mistcoat::dose::{Parts, Thinning};
use mistcoat::film::Substrate;
use mistcoat::quantity::{self as q, Quantity};
use pyo3::prelude::*;

/// What a slow solvent in place of part of the thinner buys, and what it costs.
///
/// ``shares`` of the thinner are ``retarder``, by volume; 0, 10, 20 and 30 % unless given. ``thinner_per_paint``: parts of
/// thinner, retarder included, to one part of paint, 1 unless given. The rest as ``compare`` and ``lay``. Raises ``RangeError``
/// for a share outside 0 to 100 %, ``PhaseSplit`` when the liquids do not stay one.
///
/// >>> import mistcoat as mc
/// >>> paint = mc.Paint.typical("solvent lacquer", name="hull green")
/// >>> thinner = mc.Blend({"acetone": 50, "n-butyl acetate": 50}, basis="volume")
/// >>> answer = mc.retarder(paint, thinner, retarder="2-butoxyethanol", shares=("0 %", "20 %"))
/// >>> plain, slowed = answer.rows
/// >>> slowed.lay.levelling.best < plain.lay.levelling.best and slowed.touch_dry.best > plain.touch_dry.best
/// True
#[pyfunction]
#[pyo3(signature = (paint, thinner, *, retarder, shares=None, thinner_per_paint=1.0, room=None, wet_thickness=None, substrate=None,
    wavelength=None, drops=None, steepness=None))]
#[allow(
    clippy::too_many_arguments,
    clippy::needless_pass_by_value,
    reason = "keyword arguments of one question"
)]
pub fn retarder(
    py: Python<'_>,
    paint: PyRef<'_, PyPaint>,
    thinner: Liquid,
    retarder: Liquid,
    shares: Option<Vec<Arg<q::Ratio>>>,
    thinner_per_paint: f64,
    room: Option<PyRef<'_, PyRoom>>,
    wet_thickness: Option<Arg<q::Length>>,
    substrate: Option<&str>,
    wavelength: Option<Arg<q::Length>>,
    drops: Option<Arg<q::Length>>,
    steepness: Option<Arg<q::Ratio>>,
) -> CallResult<PyRetarderAnswer> {
    let thinning = Thinning::from_parts(Parts { thinner: thinner_per_paint, paint: 1.0 })?;
    let shares: Vec<f64> =
        shares.map_or_else(|| USUAL_SHARES.to_vec(), |s| s.iter().map(|s| s.value.si()).collect());
    let mut question = Retarder::new(&paint.0, &thinner.0, &retarder.0, thinning)
        .shares(&shares)
        .ripple(&ripple(wavelength, drops)?)
        .steepness(upright(steepness));
    if let Some(room) = room {
        question = question.room(&room.0);
    }
    if let Some(wet) = wet_thickness {
        question = question.wet_film(wet.value);
    }
    if let Some(substrate) = substrate {
        question = question.substrate(Substrate::named(substrate)?);
    }
    let answer = py.detach(|| question.run())?;
    warn_all(py, &answer.warnings())?;
    Ok(PyRetarderAnswer(answer))
}

/// One share of retarder.
#[pyclass(frozen, eq, name = "RetarderRow", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyRetarderRow(pub RetarderRow);

#[pymethods]
impl PyRetarderRow {
    /// Share of the thinner that is retarder, by volume.
    #[getter]
    fn share(&self) -> PyRatio {
        PyRatio(q::Ratio::from_si(self.0.share))
    }
    /// The thinned paint with this share of retarder in its thinner.
    #[getter]
    fn mix(&self) -> PyMix {
        PyMix(self.0.mix.clone())
    }
    /// Viscosity at room temperature.
    #[getter]
    fn viscosity(&self) -> PyEstimate {
        PyEstimate::kept(self.0.viscosity.clone())
    }
    /// Ripple left, slide, nearest limit; ``None`` where the flow is not known.
    #[getter]
    fn lay(&self) -> Option<PyLay> {
        self.0.lay.clone().map(PyLay)
    }
    /// Limit humidity; ``None`` for waterborne coats.
    #[getter]
    fn blush(&self) -> Option<PyBlush> {
        self.0.blush.clone().map(PyBlush)
    }
    /// Time until 90 % of the volatile mass has left; ``None`` when the coat never gets there.
    #[getter]
    fn flash_off(&self) -> Option<PyEstimate> {
        self.0.flash_off.clone().map(PyEstimate::kept)
    }
    /// Touch dry; ``None`` for binders without such a time.
    #[getter]
    fn touch_dry(&self) -> Option<PyEstimate> {
        self.0.touch_dry.clone().map(PyEstimate::kept)
    }
    /// What to mind at this share.
    #[getter]
    fn warnings(&self) -> Vec<String> {
        self.0.warnings.iter().map(|w| w.message.clone()).collect()
    }
    fn __repr__(&self) -> String {
        let lay = self.0.lay.as_ref().map_or("flow not known".to_owned(), ToString::to_string);
        format!("<{} retarder: {lay}>", q::show(q::Ratio::from_si(self.0.share)))
    }
}

crate::json::pickles!(PyRetarderRow);

/// The answer to ``retarder``: a table as text and HTML, a sentence, and every number behind them.
#[pyclass(frozen, eq, name = "RetarderAnswer", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyRetarderAnswer(pub RetarderAnswer);

#[pymethods]
impl PyRetarderAnswer {
    /// One row a share, in the order asked.
    #[getter]
    fn rows(&self) -> Vec<PyRetarderRow> {
        self.0.rows().iter().cloned().map(PyRetarderRow).collect()
    }
    /// What the most retarder buys and costs against the least; ``None`` with one row.
    #[getter]
    fn sentence(&self) -> Option<String> {
        self.0.sentence()
    }
    /// Warnings of this result, in words; empty when there are none.
    #[getter]
    fn warnings(&self) -> Vec<String> {
        self.0.warnings().into_iter().map(|w| w.message).collect()
    }
    /// Columns by name with unit; intervals as ``..._low`` and ``..._high``, ``None`` where there is no answer.
    fn columns(&self, py: Python<'_>) -> PyResult<Columns> {
        columns(py, &self.0.table())
    }
}

crate::table::shows!(PyRetarderAnswer, "The answer as a table.");

crate::json::travels!(PyRetarderAnswer, "The answer");
