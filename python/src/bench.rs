//! The bench questions in Python: `compare` and its result.

use crate::air::PyRoom;
use crate::blend::Liquid;
use crate::cup::PyFlowCup;
use crate::dose::PyDropper;
use crate::errors::CallResult;
use crate::estimate::{PyEstimate, PyWorking, warn_all};
use crate::paint::{PyMix, PyPaint};
use crate::quantity::{Arg, PyLength, PyMassConcentration, PyTemperature};
use crate::setup::{JobArg, PyJudged};
use crate::spray::PyAirbrush;
use crate::table::{Columns, PyTable, columns};
use mistcoat::bench::{Compare, Comparison, Row, USUAL_RATIOS, waterborne_table};
use mistcoat::film::Substrate;
use mistcoat::quantity::{self as q, Quantity, show};
use mistcoat::{Answer, Warning};
use pyo3::{exceptions::PyTypeError, prelude::*};

/// Compares thinning ratios from bottle to flash-off: what do half a part, one, two and three parts of thinner
/// to one part of paint do?
///
/// ``thinner`` is a ``Blend``, a ``Solvent`` or the name of one. ``thinner_per_paint`` lists parts of thinner to one part of paint, by volume. ``room`` is 21 °C, 50 % relative
/// humidity and no draught unless given; ``cup`` adds the seconds in that flow cup; ``dropper`` adds whole drops of
/// paint and thinner for ``total``. ``wet_thickness`` is the wet film of one coat, ``substrate`` what it lies on.
///
/// With an ``airbrush`` each ratio is sprayed: drop size, loss in flight, film a pass, passes and the first fault come to the
/// table, and the coat that dries is the one that lands, in ``wet_passes`` wet in wet, or ``wet_thickness`` of it in as many as
/// it takes. ``job`` says whose targets it is judged for, "base coat" unless given.
///
/// Raises ``RangeError`` for a ratio below zero, ``PhaseSplit`` when paint and thinner do not stay one liquid. What
/// to mind stands in ``result.warnings`` and in the notes under the table.
#[pyfunction]
#[pyo3(signature = (paint, thinner, *, thinner_per_paint=None, airbrush=None, wet_passes=1, job=None, room=None, cup=None,
    wet_thickness=None, substrate=None, dropper=None, total=None))]
#[allow(
    clippy::too_many_arguments,
    clippy::needless_pass_by_value,
    reason = "keyword arguments of one question"
)]
pub fn compare(
    py: Python<'_>,
    paint: PyRef<'_, PyPaint>,
    thinner: Liquid,
    thinner_per_paint: Option<Vec<f64>>,
    airbrush: Option<PyRef<'_, PyAirbrush>>,
    wet_passes: u32,
    job: Option<JobArg<'_>>,
    room: Option<PyRef<'_, PyRoom>>,
    cup: Option<PyRef<'_, PyFlowCup>>,
    wet_thickness: Option<Arg<q::Length>>,
    substrate: Option<&str>,
    dropper: Option<PyRef<'_, PyDropper>>,
    total: Option<Arg<q::Volume>>,
) -> CallResult<PyComparison> {
    let ratios = thinner_per_paint.unwrap_or_else(|| USUAL_RATIOS.to_vec());
    let mut question = Compare::new(&paint.0, &thinner.0).thinner_per_paint(&ratios);
    if let Some(gun) = airbrush {
        question = question.airbrush(&gun.0).wet_passes(wet_passes);
    } else if wet_passes != 1 || job.is_some() {
        let says = "wet_passes and job belong to an airbrush; without one state wet_thickness";
        return Err(PyTypeError::new_err(says).into());
    }
    if let Some(job) = job {
        question = question.job(&job.job()?);
    }
    if let Some(room) = room {
        question = question.room(&room.0);
    }
    if let Some(cup) = cup {
        question = question.cup(&cup.0);
    }
    if let Some(wet) = wet_thickness {
        question = question.wet_film(wet.value);
    }
    if let Some(substrate) = substrate {
        question = question.substrate(Substrate::named(substrate)?);
    }
    if let Some(dropper) = dropper {
        question = question.dropper(&dropper.0, total.map(|t| t.value));
    }
    let comparison = py.detach(|| question.run())?;
    warn_once(py, &comparison)?;
    Ok(PyComparison(comparison))
}

/// One real waterborne paint, timed before and after thinning: predicted seconds beside measured ones.
///
/// Six published pairs in a Ford no. 4 cup. Each is predicted from its undiluted time alone, with the shape of the
/// dilution law taken from the other five.
#[pyfunction]
pub fn measured_dilutions() -> CallResult<PyTable> {
    Ok(PyTable(waterborne_table()?))
}

/// One ratio of a comparison.
#[pyclass(frozen, eq, name = "ComparisonRow", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyRow(pub Row);

/// An answer whose warnings were given when the comparison was made.
fn quietly<Q: crate::quantity::PyQuantity>(answer: &Answer<Q>) -> PyEstimate {
    PyEstimate::kept(answer.clone())
}

#[pymethods]
impl PyRow {
    /// Parts of thinner to one part of paint, by volume.
    #[getter]
    fn thinner_per_paint(&self) -> f64 {
        self.0.thinner_per_paint
    }
    /// The mix that the row is about.
    #[getter]
    fn mix(&self) -> PyMix {
        PyMix(self.0.mix.clone())
    }
    /// Volume of dry film per volume of mix, 0 to 1, with its interval.
    #[getter]
    fn volume_solids(&self) -> PyEstimate {
        PyEstimate::new(self.0.volume_solids.clone())
    }
    /// Viscosity at room temperature.
    #[getter]
    fn viscosity(&self) -> PyEstimate {
        quietly(&self.0.viscosity)
    }
    /// Seconds in the cup; ``None`` without a cup.
    #[getter]
    fn efflux_time(&self) -> Option<PyEstimate> {
        self.0.efflux_time.as_ref().map(quietly)
    }
    /// What the coat does at best values with its margins from every fault; ``None`` without an airbrush.
    #[getter]
    fn judged(&self) -> Option<PyJudged> {
        self.0.sprayed.as_ref().map(|s| PyJudged(s.judged.clone()))
    }
    /// Sauter mean of the drops; ``None`` without an airbrush.
    #[getter]
    fn drop_size(&self) -> Option<PyEstimate> {
        self.0.sprayed.as_ref().map(|s| quietly(&s.drop_size))
    }
    /// Share of the volatile mass lost in flight; ``None`` without an airbrush.
    #[getter]
    fn flight_loss(&self) -> Option<PyEstimate> {
        self.0.sprayed.as_ref().map(|s| quietly(&s.flight_loss))
    }
    /// Wet film of one pass; ``None`` without an airbrush.
    #[getter]
    fn wet_film_per_pass(&self) -> Option<PyEstimate> {
        self.0.sprayed.as_ref().map(|s| quietly(&s.wet_per_pass))
    }
    /// Dry film of one pass; ``None`` without an airbrush.
    #[getter]
    fn dry_film_per_pass(&self) -> Option<PyEstimate> {
        self.0.sprayed.as_ref().map(|s| quietly(&s.dry_per_pass))
    }
    /// Wet film of the coat, as stated or as the gun lays it.
    #[getter]
    fn wet_film(&self) -> PyLength {
        PyLength(self.0.wet_film)
    }
    /// What the wet film leaves.
    #[getter]
    fn dry_film(&self) -> PyEstimate {
        PyEstimate::new(self.0.dry_film.clone())
    }
    /// Time until 90 % of the volatile mass has left; ``None`` when the coat never gets there.
    #[getter]
    fn flash_off(&self) -> Option<PyEstimate> {
        self.0.flash_off.as_ref().map(quietly)
    }
    /// (liquid, share of the mass) of what is left at flash-off, largest first.
    #[getter]
    fn left_at_flash_off(&self) -> Vec<(String, f64)> {
        self.0.left_at_flash_off.clone()
    }
    /// Coldest the film gets.
    #[getter]
    fn coldest(&self) -> PyTemperature {
        PyTemperature(self.0.coldest)
    }
    /// Touch dry; ``None`` for paints that harden by oxygen.
    #[getter]
    fn touch_dry(&self) -> Option<PyEstimate> {
        self.0.touch_dry.as_ref().map(quietly)
    }
    /// Earliest time for another coat of another paint (block-free); ``None`` for binders without such a time.
    #[getter]
    fn recoat(&self) -> Option<PyEstimate> {
        self.0.recoat.as_ref().map(quietly)
    }
    /// Highest relative humidity without dew on the coat, 0 to 1; ``None`` for waterborne ones.
    #[getter]
    fn blush_limit(&self) -> Option<PyEstimate> {
        self.0.blush_limit.as_ref().map(quietly)
    }
    /// Share left of a ripple of 2 mm when the coat has set, 0 to 1; ``None`` where the flow is not known.
    #[getter]
    fn ripple_left(&self) -> Option<PyEstimate> {
        self.0.ripple_left.as_ref().map(quietly)
    }
    /// Organic volatiles per volume of the mix.
    #[getter]
    fn voc(&self) -> PyMassConcentration {
        PyMassConcentration(self.0.voc)
    }
    /// Whole drops of (paint, thinner); ``None`` without a dropper.
    #[getter]
    fn drops(&self) -> Option<(u32, u32)> {
        self.0.drops
    }
    /// What to mind at this ratio.
    #[getter]
    fn warnings(&self) -> Vec<String> {
        self.0.warnings.iter().map(|w| w.message.clone()).collect()
    }
    fn __repr__(&self) -> String {
        format!(
            "<{} parts thinner to 1 part paint: {}, flash-off {}>",
            self.0.thinner_per_paint,
            show(self.0.viscosity.best()),
            self.0.flash_off.as_ref().map_or("never".to_owned(), |f| show(f.best()))
        )
    }
}

crate::json::pickles!(PyRow);

/// The answer to ``compare``: a table as text and HTML, a chart, the working, and every number behind them.
#[pyclass(frozen, eq, name = "Comparison", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyComparison(pub Comparison);

#[pymethods]
impl PyComparison {
    /// Paint and thinner in one line.
    #[getter]
    fn title(&self) -> String {
        self.0.title()
    }
    /// Room, coat and substrate in one line.
    #[getter]
    fn conditions(&self) -> String {
        self.0.conditions()
    }
    /// One row a ratio, in the order asked.
    #[getter]
    fn rows(&self) -> Vec<PyRow> {
        self.0.rows().iter().cloned().map(PyRow).collect()
    }
    /// Name of the cup; ``None`` without one.
    #[getter]
    fn cup(&self) -> Option<String> {
        self.0.cup().map(mistcoat::cup::FlowCup::name)
    }
    /// Range of the cup in seconds; ``None`` without one.
    #[getter]
    fn cup_range_s(&self) -> Option<(f64, f64)> {
        self.0.cup().map(|c| (c.time_range().low.si(), c.time_range().high.si()))
    }
    /// The wet film of one coat; ``None`` where each row has its own, from the passes of an airbrush.
    #[getter]
    fn wet_thickness(&self) -> Option<PyLength> {
        self.0.wet_film().map(PyLength)
    }
    /// The gun that sprayed; ``None`` without one.
    #[getter]
    fn airbrush(&self) -> Option<PyAirbrush> {
        self.0.airbrush().cloned().map(PyAirbrush)
    }
    /// What one coat is, in words: ``25 µm wet``, ``2 passes wet in wet``.
    #[getter]
    fn coat(&self) -> String {
        self.0.coat()
    }
    /// What to mind, each with the ratios it was seen at.
    #[getter]
    fn warnings(&self) -> Vec<String> {
        self.0.warnings().into_iter().map(|w| w.message).collect()
    }
    /// Fire, air, and who decides.
    #[getter]
    fn cautions(&self) -> Vec<String> {
        self.0.cautions().to_vec()
    }
    /// Columns by name with unit; intervals as ``..._low`` and ``..._high``, ``None`` where there is no answer.
    fn columns(&self, py: Python<'_>) -> PyResult<Columns> {
        columns(py, &self.0.table())
    }
    /// A pandas data frame of the columns.
    fn to_pandas<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.table().to_pandas(py)
    }
    /// A polars data frame of the columns.
    fn to_polars<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.table().to_polars(py)
    }
    /// The chart as a matplotlib figure (needs matplotlib: ``pip install mistcoat[charts]``).
    fn chart<'py>(slf: &Bound<'py, Self>) -> PyResult<Bound<'py, PyAny>> {
        slf.py().import("mistcoat.charts")?.call_method1("comparison", (slf,))
    }
    /// The steps with numbers and sources, of one ratio or of all.
    #[pyo3(signature = (thinner_per_paint=None))]
    fn working(&self, thinner_per_paint: Option<f64>) -> CallResult<PyWorking> {
        Ok(PyWorking(self.0.working(thinner_per_paint)?))
    }
}

crate::table::shows!(PyComparison, "The comparison as a table.");

crate::json::travels!(PyComparison, "The comparison");

/// Gives the warnings of a comparison as Python warnings, all in one.
fn warn_once(py: Python<'_>, comparison: &Comparison) -> PyResult<()> {
    let all: Vec<String> = comparison.warnings().into_iter().map(|w| w.message).collect();
    if all.is_empty() {
        return Ok(());
    }
    warn_all(py, &[Warning::new("comparison", all.join("; "))])
}
