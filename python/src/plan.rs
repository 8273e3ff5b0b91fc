//! A whole session: layers and bench in, plan out.

use crate::blend::Liquid;
use crate::cautions::PyCaution;
use crate::colour_change::{PyRinseBench, ShadeArg};
use crate::dose::PyDropper;
use crate::errors::CallResult;
use crate::estimate::PyEstimate;
use crate::hiding::PyHidingPower;
use crate::layers::place;
use crate::plan_results::{PyGunWash, PyMaterial, PyPlanStep, PyPlannedLayer};
use crate::quantity::{Arg, PyArea, PyTime};
use crate::session::PySessionExposure;
use crate::setup::{JobArg, PySetup};
use crate::table::PyTable;
use mistcoat::bench::{Plan, PlanLayer, Price, Session};
use mistcoat::quantity as q;
use pyo3::{prelude::*, types::PyBool};
#[cfg(feature = "stubs")]
use pyo3::{type_hint_identifier, type_hint_union};
use std::collections::BTreeMap;

/// Whether something is masked, or how long it takes.
pub enum Mask {
    /// In the usual time, or not at all.
    Whether(bool),
    /// In this time.
    For(q::Time),
}

impl<'a, 'py> FromPyObject<'a, 'py> for Mask {
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const INPUT_TYPE: pyo3::inspect::PyStaticExpr = type_hint_union!(
        type_hint_identifier!("builtins", "bool"),
        <Arg<q::Time> as FromPyObject<'a, 'py>>::INPUT_TYPE
    );

    fn extract(ob: Borrowed<'a, 'py, PyAny>) -> PyResult<Self> {
        if let Ok(whether) = ob.cast::<PyBool>() {
            return Ok(Self::Whether(whether.is_true()));
        }
        Ok(Self::For(ob.extract::<Arg<q::Time>>()?.value))
    }
}

/// One layer of a session: a setting, a job, the area it covers on one part.
///
/// ``setup`` has paint, thinner and ratio, gun, passes wet in wet, room and part; take one that ``recommend`` chose.
/// ``place`` is "primer", "between" or "finish". ``mask``: whether something is masked before it, or the time it takes.
/// ``shade`` (a ``rinse.Shade`` or a colour class) sizes the rinses; ``hiding`` (a ``hiding.HidingPower``) adds passes until
/// the ground no longer shows. ``wait`` before the next layer is taken when it is long enough. ``cleaner`` after it, where it
/// is another than that of the session.
///
/// >>> import mistcoat as mc
/// >>> green = mc.Paint.typical("solvent lacquer", name="hull green")
/// >>> gun = mc.Airbrush(nozzle="0.3 mm", pressure="20 psi", distance="80 mm")
/// >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
/// >>> setup = mc.Setup(green, "n-butyl acetate", airbrush=gun, room=room, substrate="wood")
/// >>> mc.PlanLayer(setup, "over a mask", area="250 cm2", mask=True, shade="deep green")
/// <PlanLayer hull green: over a mask, 250 cm2>
#[pyclass(frozen, eq, name = "PlanLayer", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyPlanLayer(pub PlanLayer);

#[pymethods]
impl PyPlanLayer {
    #[new]
    #[pyo3(signature = (setup, job, *, area, name=None, place="between", mask=Mask::Whether(false), shade=None,
        hiding=None, wait=None, cleaner=None))]
    #[allow(
        clippy::too_many_arguments,
        clippy::needless_pass_by_value,
        reason = "keyword arguments of Python"
    )]
    fn new(
        setup: PyRef<'_, PySetup>,
        job: JobArg<'_>,
        area: Arg<q::Area>,
        name: Option<&str>,
        place: &str,
        mask: Mask,
        shade: Option<ShadeArg>,
        hiding: Option<PyRef<'_, PyHidingPower>>,
        wait: Option<Arg<q::Time>>,
        cleaner: Option<Liquid>,
    ) -> CallResult<Self> {
        let mut layer = PlanLayer::new(&setup.0, job.job()?, area.value).at(self::place(place)?);
        if let Some(name) = name {
            layer = layer.named(name);
        }
        match mask {
            Mask::Whether(false) => {}
            Mask::Whether(true) => layer = layer.masked()?,
            Mask::For(time) => layer.mask = Some(time),
        }
        layer.shade = shade.map(|s| s.0);
        layer.hiding = hiding.map(|h| h.0.clone());
        layer.wait = wait.map(|w| w.value);
        layer.cleaner = cleaner.map(|c| c.0);
        Ok(Self(layer))
    }
    /// What it is called in the plan.
    #[getter]
    fn name(&self) -> &str {
        &self.0.name
    }
    /// Paint, thinner, gun, room and part.
    #[getter]
    fn setup(&self) -> PySetup {
        PySetup(self.0.setup.clone())
    }
    /// Name of the job that it does.
    #[getter]
    fn job(&self) -> &str {
        &self.0.job.name
    }
    /// Area that it covers on one part.
    #[getter]
    fn area(&self) -> PyArea {
        PyArea(self.0.area)
    }
    /// Time for masking before it; ``None`` when nothing is masked.
    #[getter]
    fn mask(&self) -> Option<PyTime> {
        self.0.mask.map(PyTime)
    }
    fn __repr__(&self) -> String {
        format!("<PlanLayer {}: {}, {}>", self.0.name, self.0.job.name, q::show(self.0.area))
    }
}

crate::json::pickles!(PyPlanLayer);

/// A whole session: what to mix, spray, wait for, rinse and bring, how long it takes, and what to mind.
///
/// Layers from the part upwards. ``cleaner`` and ``rinse`` (a ``rinse.RinseBench``, of a gravity airbrush unless given) size
/// the rinses, ``paint_dropper`` and ``thinner_dropper`` (a pipette of 3 mm unless given) the drops. ``people`` each spray a
/// part of their own with ``guns`` between them, one each unless given. Their cups of mix and thinner stand open while a layer
/// is sprayed, at most ``cups_open`` (1 h unless given; ``"0 min"`` with lids on). ``margin`` is added to every amount. ``prices`` gives
/// by name of paint, thinner or cleaner what a volume costs: ``{"hull green": (3.20, "17 mL")}``.
///
/// Waits are upper ends of what the drying engine gives; amounts are good to a factor 2.5: spray a card first. Raises
/// ``RangeError`` for coats that do not stand each other, with the order that works.
///
/// >>> import mistcoat as mc
/// >>> green = mc.Paint.typical("solvent lacquer", name="hull green")
/// >>> gun = mc.Airbrush(nozzle="0.3 mm", pressure="20 psi", distance="80 mm")
/// >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
/// >>> setup = mc.Setup(green, "n-butyl acetate", airbrush=gun, room=room, substrate="wood")
/// >>> hull = mc.PlanLayer(setup, "base coat", area="250 cm2", shade="deep green")
/// >>> plan = mc.plan([hull], cleaner="acetone", people=4, guns=2)
/// >>> plan.cautions[-1].topic
/// 'Who decides'
#[pyfunction]
#[pyo3(signature = (layers, *, cleaner, title=None, rinse=None, paint_dropper=None, thinner_dropper=None, people=1,
    guns=None, cups_open=None, margin=None, prices=None, currency=""))]
#[allow(clippy::too_many_arguments, clippy::needless_pass_by_value, reason = "keyword arguments of Python")]
pub fn plan(
    py: Python<'_>,
    layers: Vec<PyRef<'_, PyPlanLayer>>,
    cleaner: Liquid,
    title: Option<&str>,
    rinse: Option<PyRef<'_, PyRinseBench>>,
    paint_dropper: Option<PyRef<'_, PyDropper>>,
    thinner_dropper: Option<PyRef<'_, PyDropper>>,
    people: u32,
    guns: Option<u32>,
    cups_open: Option<Arg<q::Time>>,
    margin: Option<Arg<q::Ratio>>,
    prices: Option<BTreeMap<String, (f64, Arg<q::Volume>)>>,
    currency: &str,
) -> CallResult<PyPlan> {
    let layers = layers.iter().map(|l| l.0.clone()).collect();
    let mut session = Session::new(layers, &cleaner.0)?.for_people(people);
    if let Some(guns) = guns {
        session = session.sharing(guns);
    }
    if let Some(title) = title {
        title.clone_into(&mut session.title);
    }
    if let Some(bench) = rinse {
        session.bench = bench.0.clone();
    }
    if let Some(dropper) = paint_dropper {
        session.paint_dropper = dropper.0.clone();
    }
    if let Some(dropper) = thinner_dropper {
        session.thinner_dropper = dropper.0.clone();
    }
    if let Some(open) = cups_open {
        session.cups_open = open.value;
    }
    if let Some(margin) = margin {
        session.margin = margin.value;
    }
    let of = |(name, (costs, per)): (String, (f64, Arg<q::Volume>))| Price { name, costs, per: per.value };
    session.prices = prices.unwrap_or_default().into_iter().map(of).collect();
    currency.clone_into(&mut session.currency);
    Ok(PyPlan(py.detach(|| session.plan())?))
}

/// A session worked out; prints as layers, timeline, what to bring, and the cautions.
///
/// Made by ``plan`` alone. A file holds the session and the cautions; the rest is worked out again when it is read, and a
/// file whose cautions are not those of its session is refused.
#[pyclass(frozen, eq, name = "Plan", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyPlan(pub Plan);

#[pymethods]
impl PyPlan {
    /// What stands on top of the plan.
    #[getter]
    fn title(&self) -> &str {
        &self.0.session().title
    }
    /// How many people, each with one part.
    #[getter]
    fn people(&self) -> u32 {
        self.0.session().people
    }
    /// How many guns they have between them.
    #[getter]
    fn guns(&self) -> u32 {
        self.0.session().guns
    }
    /// The layers worked out, from the part upwards.
    #[getter]
    fn layers(&self) -> Vec<PyPlannedLayer> {
        self.0.layers().iter().cloned().map(PyPlannedLayer).collect()
    }
    /// The layers as they were given: settings, jobs and areas.
    #[getter]
    fn given(&self) -> Vec<PyPlanLayer> {
        self.0.session().layers.iter().cloned().map(PyPlanLayer).collect()
    }
    /// Each coat over the one below: (question, verdict).
    #[getter]
    fn coats(&self) -> Vec<(String, &'static str)> {
        let pairs = self.0.stack().map_or(&[][..], |s| s.pairs.as_slice());
        pairs.iter().map(|p| (p.question.clone(), p.verdict.words())).collect()
    }
    /// Rinses of each gun, in order; the last is the wash at the end.
    #[getter]
    fn washes(&self) -> Vec<PyGunWash> {
        let layers = self.0.layers();
        let of = |w: &mistcoat::bench::GunWash| PyGunWash {
            layer: layers.get(w.after).map(|l| l.name.clone()).unwrap_or_default(),
            wash: w.clone(),
        };
        self.0.washes().iter().map(of).collect()
    }
    /// Everything that is done, in order of time.
    #[getter]
    fn steps(&self) -> Vec<PyPlanStep> {
        let layers = self.0.layers();
        let of = |s: &mistcoat::bench::Step| PyPlanStep {
            layer: layers.get(s.layer).map(|l| l.name.clone()).unwrap_or_default(),
            step: s.clone(),
        };
        self.0.steps().iter().map(of).collect()
    }
    /// From the begin until the last layer is touch dry and the guns are clean, when each coat is watched: best value, 95 %
    /// range over waits, handwork and spraying, largest cause first. Waits of one paint move together.
    #[getter]
    fn total(&self) -> PyEstimate {
        PyEstimate::new(self.0.total().clone())
    }
    /// The same as the timeline has it, with waits at their upper ends: time to plan by.
    #[getter]
    fn planned(&self) -> PyTime {
        PyTime(self.0.planned())
    }
    /// Time at the bench, busy or waiting: all visits together.
    #[getter]
    fn bench_time(&self) -> PyTime {
        PyTime(self.0.bench_time())
    }
    /// Time of the timeline that nobody spends at the bench: waits of more than 2 h without work, and drying at the end.
    #[getter]
    fn time_away(&self) -> PyTime {
        PyTime(self.0.time_away())
    }
    /// Begin and end of each stretch at the bench; a wait of more than 2 h without work lies between two.
    #[getter]
    fn visits(&self) -> Vec<(PyTime, PyTime)> {
        self.0.visits().iter().map(|v| (PyTime(v.start), PyTime(v.end))).collect()
    }
    /// What to bring: paints, thinners, cleaners.
    #[getter]
    fn materials(&self) -> Vec<PyMaterial> {
        self.0.materials().iter().cloned().map(PyMaterial).collect()
    }
    /// What the materials with a price cost together; ``None`` without prices.
    #[getter]
    fn cost(&self) -> Option<f64> {
        self.0.cost()
    }
    /// Label of the currency.
    #[getter]
    fn currency(&self) -> &str {
        &self.0.session().currency
    }
    /// What the air of the room holds over the session, of several sittings the worst; ``None`` where the room has no volume or
    /// no air changes.
    #[getter]
    fn exposure(&self) -> Option<PySessionExposure> {
        self.0.exposure().cloned().map(PySessionExposure)
    }
    /// The same for each sitting; a wait until another day ends one.
    #[getter]
    fn exposures(&self) -> Vec<PySessionExposure> {
        self.0.exposures().iter().cloned().map(PySessionExposure).collect()
    }
    /// A word on the order of the colours, where another needs clearly less cleaner.
    #[getter]
    fn colour_hint(&self) -> Option<&str> {
        self.0.colour_hint()
    }
    /// What everybody must know before opening a bottle; never empty, the last one says who decides.
    #[getter]
    fn cautions(&self) -> Vec<PyCaution> {
        self.0.cautions().iter().cloned().map(PyCaution).collect()
    }
    /// What to mind in this plan, each said once.
    #[getter]
    fn warnings(&self) -> Vec<String> {
        self.0.warnings().iter().map(|w| w.message.clone()).collect()
    }
    /// The layers: mixes, passes, waits; warnings and cautions under them.
    fn table(&self) -> PyTable {
        PyTable(self.0.table())
    }
    /// What is done when, for the gun with the most users.
    fn timeline(&self) -> PyTable {
        PyTable(self.0.timeline())
    }
    /// What to bring, for one and for all, and what it costs.
    fn material_table(&self) -> PyTable {
        PyTable(self.0.materials_table())
    }
    /// The timeline as a matplotlib figure (needs matplotlib: ``pip install mistcoat[charts]``).
    fn chart<'py>(slf: &Bound<'py, Self>) -> PyResult<Bound<'py, PyAny>> {
        slf.py().import("mistcoat.charts")?.call_method1("plan", (slf,))
    }
    /// Cards to print: "A6" gives one a layer for the bench, "A4" and "Letter" a sheet of the whole session with timeline, what
    /// to bring, cost, air and cautions. The result shows itself in a notebook; ``save("cards.html")`` writes it, and a browser
    /// prints it at its size. Every card carries its cautions. Other sizes raise ``UnknownName``.
    #[pyo3(signature = (size="A6"))]
    fn card<'py>(slf: &Bound<'py, Self>, size: &str) -> PyResult<Bound<'py, PyAny>> {
        slf.py().import("mistcoat.cards")?.call_method1("of_plan", (slf, size))
    }
    /// JSON text: the session and its cautions; the Rust crate reads the same.
    fn to_json(&self) -> CallResult<String> {
        crate::json::dump(&self.0)
    }
    /// Works out again what ``to_json`` wrote; raises ``DataError`` when the cautions are not those of the session.
    #[staticmethod]
    fn from_json(py: Python<'_>, text: &str) -> CallResult<Self> {
        py.detach(|| crate::json::load(text)).map(Self)
    }
    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> CallResult<(Bound<'py, PyAny>, (String,))> {
        crate::json::reduce(slf, "from_json", &slf.get().0)
    }
    fn __str__(&self) -> String {
        self.0.to_string()
    }
    fn __repr__(&self) -> String {
        self.0.to_string()
    }
    fn _repr_html_(&self) -> String {
        let air = self.0.exposures().iter().map(mistcoat::safety::SessionExposure::table);
        let tables = [self.0.table(), self.0.timeline(), self.0.materials_table()];
        tables
            .into_iter()
            .chain(air)
            .collect::<Vec<_>>()
            .iter()
            .map(mistcoat::table::Table::to_html)
            .collect()
    }
}
