//! What a rinse costs, in Python.

use crate::colour_change::{PyRinseBench, ShadeArg};
use crate::dose::Share;
use crate::errors::CallResult;
use crate::estimate::PyEstimate;
use crate::quantity::{Arg, PyVolume};
use crate::rinse::PySplit;
use mistcoat::quantity::{self as q};
use mistcoat::rinse::{CheapCleaner, CleanerPrice, Cleaners, PricedChange, PricedOrder, PricedRinse, Shade};
use pyo3::prelude::*;

/// What a volume of a cleaner or thinner costs: ``costs`` for ``per``. ``currency`` is a label; nothing is converted.
///
/// >>> from mistcoat import rinse
/// >>> thinner = rinse.CleanerPrice("house thinner", 9.50, per="1 L", currency="EUR")
/// >>> round(thinner.of("20 mL"), 3)
/// 0.19
#[pyclass(frozen, eq, name = "CleanerPrice", module = "mistcoat.rinse")]
#[derive(Clone, PartialEq)]
pub struct PyCleanerPrice(pub CleanerPrice);

#[pymethods]
impl PyCleanerPrice {
    #[new]
    #[pyo3(signature = (name, costs, *, per, currency=""))]
    fn new(name: &str, costs: f64, per: Arg<q::Volume>, currency: &str) -> CallResult<Self> {
        Ok(Self(CleanerPrice::new(name, costs, per.value, currency)?))
    }
    /// Name of the liquid that it is for.
    #[getter]
    fn name(&self) -> &str {
        self.0.name()
    }
    /// What ``per`` costs, 0 or above.
    #[getter]
    fn costs(&self) -> f64 {
        self.0.costs()
    }
    /// The volume that ``costs`` is for.
    #[getter]
    fn per(&self) -> PyVolume {
        PyVolume(self.0.per())
    }
    /// Label of the currency.
    #[getter]
    fn currency(&self) -> &str {
        self.0.currency()
    }
    /// What so much of it costs.
    fn of(&self, volume: Arg<q::Volume>) -> f64 {
        self.0.of(volume.value)
    }
    fn __repr__(&self) -> String {
        let p = &self.0;
        format!("<CleanerPrice {}: {} {} for {}>", p.name(), p.costs(), p.currency(), q::show(p.per()))
    }
}

crate::json::pickles!(PyCleanerPrice);

fn cleaners(good: &PyCleanerPrice, cheap: Option<PyRef<'_, PyCleanerPrice>>, may_stay: Share) -> Cleaners {
    let cheap =
        cheap.map(|c| CheapCleaner { price: c.0.clone(), may_stay: q::Quantity::from_si(may_stay.0) });
    Cleaners { good: good.0.clone(), cheap }
}

/// Share of cheap cleaner that may stay in the gun unless given: serves where the two mix; a judgement.
const MAY_STAY: f64 = 0.05;

fn or_usual(may_stay: Option<Share>) -> Share {
    may_stay.unwrap_or(Share(MAY_STAY))
}

/// The cheapest rinse that leaves ``fraction`` of the old paint: portions of cheap cleaner where they pay, then ``good``
/// thinner until no more than ``cheap_left`` (5 % unless given) of the cheap one is left in the gun.
///
/// >>> from mistcoat import rinse
/// >>> good = rinse.CleanerPrice("house thinner", 9.50, per="1 L", currency="EUR")
/// >>> cheap = rinse.CleanerPrice("recovered thinner", 2.00, per="1 L", currency="EUR")
/// >>> plan = rinse.cheapest_rinse("0.15 mL", "0.01 %", least_portion="1 mL", good=good, cheap=cheap)
/// >>> plan.saves > 0
/// True
#[pyfunction]
#[pyo3(signature = (hold_up, fraction, *, least_portion, good, cheap=None, cheap_left=None))]
#[allow(clippy::needless_pass_by_value, reason = "extracted arguments")]
pub fn cheapest_rinse(
    hold_up: Arg<q::Volume>,
    fraction: Share,
    least_portion: Arg<q::Volume>,
    good: PyRef<'_, PyCleanerPrice>,
    cheap: Option<PyRef<'_, PyCleanerPrice>>,
    cheap_left: Option<Share>,
) -> CallResult<PyPricedRinse> {
    let cleaners = cleaners(&good, cheap, or_usual(cheap_left));
    let fraction = q::Quantity::from_si(fraction.0);
    Ok(PyPricedRinse(cleaners.cheapest(hold_up.value, fraction, least_portion.value)?))
}

/// The order of colours that costs least to rinse between, exact up to 16; from ``start`` if that is in the gun already.
///
/// ``bench`` is a ``RinseBench``, colours are ``Shade`` objects or names of colour classes, ``good``, ``cheap`` and
/// ``cheap_left`` as for ``cheapest_rinse``.
///
/// >>> from mistcoat import rinse
/// >>> bench = rinse.RinseBench(rinse.typical_hold_up("gravity airbrush"), fill="2 mL")
/// >>> good = rinse.CleanerPrice("house thinner", 9.50, per="1 L", currency="EUR")
/// >>> boat = "red oxide", "deep green", "cream"
/// >>> rinse.cheapest_order(bench, boat, good=good).order[0]
/// 'cream'
#[pyfunction]
#[pyo3(signature = (bench, colours, *, good, cheap=None, cheap_left=None, start=None))]
#[allow(clippy::needless_pass_by_value, reason = "extracted arguments")]
pub fn cheapest_order(
    bench: PyRef<'_, PyRinseBench>,
    colours: Vec<ShadeArg>,
    good: PyRef<'_, PyCleanerPrice>,
    cheap: Option<PyRef<'_, PyCleanerPrice>>,
    cheap_left: Option<Share>,
    start: Option<&str>,
) -> CallResult<PyPricedOrder> {
    let shades: Vec<Shade> = colours.into_iter().map(|c| c.0).collect();
    let cleaners = cleaners(&good, cheap, or_usual(cheap_left));
    Ok(PyPricedOrder(bench.0.cheapest_order(&shades, start, &cleaners)?))
}

/// A rinse with its cost.
#[pyclass(frozen, eq, name = "PricedRinse", module = "mistcoat.rinse")]
#[derive(Clone, PartialEq)]
pub struct PyPricedRinse(pub PricedRinse);

#[pymethods]
impl PyPricedRinse {
    /// Portions of cheap cleaner, poured first; ``None`` when they do not pay.
    #[getter]
    fn cheap(&self) -> Option<PySplit> {
        self.0.cheap.map(PySplit)
    }
    /// Portions of good thinner, poured last.
    #[getter]
    fn good(&self) -> PySplit {
        PySplit(self.0.good)
    }
    /// What they cost together, in ``currency``.
    #[getter]
    fn cost(&self) -> f64 {
        self.0.cost
    }
    /// What good thinner alone costs, in its own best split.
    #[getter]
    fn good_alone(&self) -> f64 {
        self.0.good_alone
    }
    /// What the cheap cleaner saves.
    #[getter]
    fn saves(&self) -> f64 {
        self.0.saves()
    }
    /// Label of the currency.
    #[getter]
    fn currency(&self) -> &str {
        &self.0.currency
    }
    fn __str__(&self) -> String {
        self.0.words()
    }
    fn __repr__(&self) -> String {
        format!("<PricedRinse: {}>", self.0.words())
    }
}

crate::json::pickles!(PyPricedRinse);

/// One change of colour with its cost.
#[pyclass(frozen, eq, name = "PricedChange", module = "mistcoat.rinse")]
#[derive(Clone, PartialEq)]
pub struct PyPricedChange(pub PricedChange);

#[pymethods]
impl PyPricedChange {
    /// Colour that was in the gun.
    #[getter]
    fn before(&self) -> &str {
        &self.0.from
    }
    /// Colour that follows.
    #[getter]
    fn after(&self) -> &str {
        &self.0.to
    }
    /// Portions of cleaner and their cost.
    #[getter]
    fn rinse(&self) -> PyPricedRinse {
        PyPricedRinse(self.0.rinse.clone())
    }
    fn __repr__(&self) -> String {
        format!("<PricedChange from {} to {}: {}>", self.0.from, self.0.to, self.0.rinse.words())
    }
}

crate::json::pickles!(PyPricedChange);

/// The order of colours that costs least to rinse between; prints as a table with the cautions under it.
#[pyclass(frozen, eq, name = "PricedOrder", module = "mistcoat.rinse")]
#[derive(Clone, PartialEq)]
pub struct PyPricedOrder(pub PricedOrder);

#[pymethods]
impl PyPricedOrder {
    /// Names in the order to spray.
    #[getter]
    fn order(&self) -> Vec<String> {
        self.0.order.clone()
    }
    /// The changes between them, with portions and cost.
    #[getter]
    fn changes(&self) -> Vec<PyPricedChange> {
        self.0.changes.iter().cloned().map(PyPricedChange).collect()
    }
    /// Cost of all changes, in ``currency``; the wash at the end comes on top.
    #[getter]
    fn cost(&self) -> PyEstimate {
        PyEstimate::new(self.0.cost.clone())
    }
    /// Cost of the same changes with good thinner alone.
    #[getter]
    fn good_alone(&self) -> f64 {
        self.0.good_alone
    }
    /// Cost in the order in which the colours were given.
    #[getter]
    fn as_given(&self) -> f64 {
        self.0.as_given
    }
    /// Label of the currency.
    #[getter]
    fn currency(&self) -> &str {
        &self.0.currency
    }
    /// What to mind when cleaning; never empty.
    #[getter]
    fn cautions(&self) -> Vec<String> {
        self.0.cautions.clone()
    }
    /// Pairs for which the answer is a judgement, and the test a cheap cleaner needs.
    #[getter]
    fn warnings(&self) -> Vec<String> {
        self.0.warnings.iter().map(|w| w.message.clone()).collect()
    }
}

crate::table::shows!(PyPricedOrder, "The changes as a table, cautions under it.");

crate::json::pickles!(PyPricedOrder);
