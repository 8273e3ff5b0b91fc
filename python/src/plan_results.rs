//! What a plan holds: layers worked out, rinses, steps, materials.

use crate::colour_change::PyChange;
use crate::dict::Ordered;
use crate::errors::CallResult;
use crate::estimate::PyEstimate;
use crate::hiding::PyPasses;
use crate::json;
use crate::paint::PyMixDrops;
use crate::quantity::{PyTime, PyVolume};
use crate::rinse::PySplit;
use crate::setup::PyJudged;
use mistcoat::bench::{GunWash, Material, PlannedLayer, Step, Wait};
use mistcoat::quantity as q;
use pyo3::prelude::*;

/// A wait of a part: how long as planned, how long at best values, and why.
#[pyclass(frozen, eq, name = "Wait", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyWait(pub Wait);

#[pymethods]
impl PyWait {
    /// How long, as planned: the upper end, or common practice where that asks for more.
    #[getter]
    fn lasts(&self) -> PyTime {
        PyTime(self.0.lasts)
    }
    /// As long as it takes when the coat dries as the best value says; never less than common practice.
    #[getter]
    fn at_best(&self) -> PyTime {
        PyTime(self.0.at_best)
    }
    /// No shorter than this, however soon the coat dries: what common practice asks for before the coat above; else zero.
    #[getter]
    fn least(&self) -> PyTime {
        PyTime(self.0.least)
    }
    /// The time behind it with its interval; ``None`` for a rule of common practice.
    #[getter]
    fn estimate(&self) -> Option<PyEstimate> {
        self.0.estimate.clone().map(PyEstimate::new)
    }
    /// Why the part waits so long.
    #[getter]
    fn why(&self) -> &str {
        &self.0.why
    }
    /// Where that comes from.
    #[getter]
    fn source(&self) -> String {
        mistcoat::source::cite(&self.0.source)
    }
    fn __str__(&self) -> String {
        self.0.to_string()
    }
    fn __repr__(&self) -> String {
        format!("<Wait {}>", self.0)
    }
}

crate::json::pickles!(PyWait);

/// A layer as each person sprays it.
#[pyclass(frozen, eq, name = "PlannedLayer", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyPlannedLayer(pub PlannedLayer);

#[pymethods]
impl PyPlannedLayer {
    /// Name of the layer, as it was given.
    #[getter]
    fn name(&self) -> &str {
        &self.0.name
    }
    /// Family of the paint.
    #[getter]
    fn family(&self) -> &'static str {
        self.0.family.name()
    }
    /// Name of the job that it does.
    #[getter]
    fn job(&self) -> &str {
        &self.0.job
    }
    /// Parts of thinner to one part of paint, by volume, as wanted.
    #[getter]
    fn thinner_per_paint(&self) -> f64 {
        self.0.thinner_per_paint
    }
    /// Mix to make for one person.
    #[getter]
    fn mix(&self) -> PyVolume {
        PyVolume(self.0.mix.made())
    }
    /// Stock paint in that mix.
    #[getter]
    fn paint(&self) -> PyVolume {
        PyVolume(self.0.mix.paint)
    }
    /// Thinner in it; whole drops where drops are counted.
    #[getter]
    fn thinner(&self) -> PyVolume {
        PyVolume(self.0.mix.thinner)
    }
    /// The mix in whole drops; ``None`` for an amount that drops do not measure.
    #[getter]
    fn drops(&self) -> Option<PyMixDrops> {
        self.0.mix.drops.clone().map(PyMixDrops)
    }
    /// Mix that goes through the gun for one part, before margin and remainder.
    #[getter]
    fn sprayed(&self) -> PyEstimate {
        PyEstimate::new(self.0.mix.sprayed.clone())
    }
    /// What the gun keeps of it.
    #[getter]
    fn remainder(&self) -> PyEstimate {
        PyEstimate::new(self.0.mix.remainder.clone())
    }
    /// Passes over every place.
    #[getter]
    fn passes(&self) -> u32 {
        self.0.passes
    }
    /// Passes for the dry film of the job, not rounded, with interval and working.
    #[getter]
    fn passes_for_job(&self) -> PyEstimate {
        PyEstimate::kept(self.0.passes_for_job.clone())
    }
    /// Passes until the ground no longer shows; ``None`` where the hiding power was not given.
    #[getter]
    fn passes_to_hide(&self) -> Option<PyPasses> {
        self.0.passes_to_hide.clone().map(PyPasses)
    }
    /// Coats: the passes of one are laid wet in wet, then it flashes off.
    #[getter]
    fn coats(&self) -> u32 {
        self.0.coats
    }
    /// Passes of one coat; the last may have fewer.
    #[getter]
    fn wet_passes(&self) -> u32 {
        self.0.wet_passes
    }
    /// Dry film of all passes together.
    #[getter]
    fn dry_film(&self) -> PyEstimate {
        PyEstimate::new(self.0.dry_film.clone())
    }
    /// Time to lay one pass over the area.
    #[getter]
    fn pass_time(&self) -> PyEstimate {
        PyEstimate::new(self.0.pass_time.clone())
    }
    /// Between coats: flash-off or touch dry, whichever comes first.
    #[getter]
    fn flash_off(&self) -> PyWait {
        PyWait(self.0.flash_off.clone())
    }
    /// From the last coat until a light touch takes nothing away.
    #[getter]
    fn touch_dry(&self) -> PyWait {
        PyWait(self.0.touch_dry.clone())
    }
    /// From the last coat until tape does no harm.
    #[getter]
    fn until_mask(&self) -> PyWait {
        PyWait(self.0.until_mask.clone())
    }
    /// From the last coat to the next layer.
    #[getter]
    fn until_next(&self) -> PyWait {
        PyWait(self.0.until_next.clone())
    }
    /// Time for masking before it; ``None`` when nothing is masked.
    #[getter]
    fn mask(&self) -> Option<PyTime> {
        self.0.mask.map(PyTime)
    }
    /// How far the setting keeps from every fault.
    #[getter]
    fn judged(&self) -> PyJudged {
        PyJudged(self.0.judged.clone())
    }
    /// What to mind in this layer.
    #[getter]
    fn warnings(&self) -> Vec<String> {
        self.0.warnings.iter().map(|w| w.message.clone()).collect()
    }
    fn __repr__(&self) -> String {
        format!("<PlannedLayer {}>", self.0)
    }
}

crate::json::pickles!(PyPlannedLayer);

/// A rinse of one gun after a layer.
#[pyclass(frozen, eq, name = "GunWash", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyGunWash {
    pub layer: String,
    pub wash: GunWash,
}

#[pymethods]
impl PyGunWash {
    /// Name of the layer that was in the gun.
    #[getter]
    fn after(&self) -> &str {
        &self.layer
    }
    /// Portions of cleaner.
    #[getter]
    fn split(&self) -> PySplit {
        PySplit(self.wash.split)
    }
    /// Cleaner in all, with its interval.
    #[getter]
    fn cleaner(&self) -> PyEstimate {
        PyEstimate::new(self.wash.cleaner.clone())
    }
    /// Name of the cleaner that is poured.
    #[getter]
    fn cleaner_name(&self) -> &str {
        &self.wash.with
    }
    /// The change of colour, where both shades are known.
    #[getter]
    fn change(&self) -> Option<PyChange> {
        self.wash.change.clone().map(PyChange)
    }
    /// Why so much cleaner.
    #[getter]
    fn why(&self) -> &str {
        &self.wash.why
    }
    fn __repr__(&self) -> String {
        format!("<GunWash after {}: {}>", self.layer, self.wash)
    }
    #[staticmethod]
    fn _from_json(text: &str) -> CallResult<Self> {
        let (layer, wash) = json::load(text)?;
        Ok(Self { layer, wash })
    }
    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> CallResult<(Bound<'py, PyAny>, (String,))> {
        let own = slf.get();
        json::reduce(slf, "_from_json", &(&own.layer, &own.wash))
    }
}

/// One step of the timeline.
#[pyclass(frozen, eq, name = "PlanStep", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyPlanStep {
    pub layer: String,
    pub step: Step,
}

#[pymethods]
impl PyPlanStep {
    /// "mask", "mix", "spray", "hand over", "flash-off", "wait", "dry", "rinse" or "clean up".
    #[getter]
    fn what(&self) -> &'static str {
        self.step.what.word()
    }
    /// Whether hands are busy with it.
    #[getter]
    fn is_work(&self) -> bool {
        self.step.what.is_work()
    }
    /// Name of the layer it belongs to.
    #[getter]
    fn layer(&self) -> &str {
        &self.layer
    }
    /// Coat, counted from 1, of spraying and flash-off.
    #[getter]
    fn coat(&self) -> Option<u32> {
        self.step.coat
    }
    /// Person, counted from 1.
    #[getter]
    fn person(&self) -> u32 {
        self.step.person
    }
    /// Gun, counted from 1, of what needs one.
    #[getter]
    fn gun(&self) -> Option<u32> {
        self.step.gun
    }
    /// Begin, from the start of the session.
    #[getter]
    fn start(&self) -> PyTime {
        PyTime(self.step.start)
    }
    /// How long the step lasts.
    #[getter]
    fn lasts(&self) -> PyTime {
        PyTime(self.step.lasts)
    }
    /// End, from the start of the session.
    #[getter]
    fn end(&self) -> PyTime {
        PyTime(self.step.end())
    }
    fn __repr__(&self) -> String {
        format!("<PlanStep {}, {}>", self.step, self.layer)
    }
    #[staticmethod]
    fn _from_json(text: &str) -> CallResult<Self> {
        let (layer, step) = json::load(text)?;
        Ok(Self { layer, step })
    }
    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> CallResult<(Bound<'py, PyAny>, (String,))> {
        let own = slf.get();
        json::reduce(slf, "_from_json", &(&own.layer, &own.step))
    }
}

/// A paint, thinner or cleaner to bring.
#[pyclass(frozen, eq, name = "Material", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyMaterial(pub Material);

#[pymethods]
impl PyMaterial {
    /// "paint", "thinner" or "cleaner".
    #[getter]
    fn kind(&self) -> &'static str {
        self.0.kind.word()
    }
    /// Name of the paint, or name or recipe of the liquid.
    #[getter]
    fn name(&self) -> &str {
        &self.0.name
    }
    /// For one person, of the cleaner for one gun; with margin.
    #[getter]
    fn each(&self) -> PyVolume {
        PyVolume(self.0.each)
    }
    /// For all people or guns; with margin.
    #[getter]
    fn total(&self) -> PyVolume {
        PyVolume(self.0.total)
    }
    /// What all will use, without margin.
    #[getter]
    fn used(&self) -> PyEstimate {
        PyEstimate::new(self.0.used.clone())
    }
    /// What the total costs; ``None`` without a price.
    #[getter]
    fn cost(&self) -> Option<f64> {
        self.0.cost
    }
    /// Kind, name and amounts as text, for a list.
    fn as_dict(&self) -> Ordered<String> {
        Ordered(vec![
            ("kind".to_owned(), self.0.kind.word().to_owned()),
            ("name".to_owned(), self.0.name.clone()),
            ("each".to_owned(), q::show(self.0.each)),
            ("total".to_owned(), q::show(self.0.total)),
        ])
    }
    fn __repr__(&self) -> String {
        format!("<Material {} {}: {}>", self.0.kind, self.0.name, q::show(self.0.total))
    }
}

crate::json::pickles!(PyMaterial);
