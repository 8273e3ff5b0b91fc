//! `Estimate` and `Working` in Python: one class each, whatever the dimension.

use crate::errors::{CallResult, MistcoatWarning, UnitError};
use crate::quantity::{Dimension, PyQuantity, dimension};
use mistcoat::estimate::Contributor;
use mistcoat::{Answer, Estimate, Warning, Working};
use pyo3::{PyTypeInfo, prelude::*, types::PyString};
use std::{collections::HashMap, ffi::CString};

/// A value with the interval that holds it with the stated coverage, what the spread comes from, the
/// warnings that go with it and the working behind it.
///
/// ``best``, ``low`` and ``high`` are quantities (or floats for plain numbers); ``to(unit)`` gives the best
/// value as a number and ``interval(unit)`` the two ends. An ``Estimate`` may be passed wherever its
/// quantity is wanted; its spread is carried on.
#[pyclass(frozen, name = "Estimate", module = "mistcoat")]
#[derive(Clone)]
pub struct PyEstimate {
    pub dimension: Dimension,
    pub best: f64,
    pub low: f64,
    pub high: f64,
    coverage: f64,
    contributors: Vec<Contributor>,
    warnings: Vec<Warning>,
    working: Option<Working>,
}

impl PyEstimate {
    /// Standard uncertainty in SI units.
    pub fn std(&self) -> f64 {
        (self.high - self.low) / (2.0 * 1.959_964)
    }

    /// From an estimate that has no working of its own.
    pub fn new<Q: PyQuantity>(e: Estimate<Q>) -> Self {
        Self {
            dimension: Dimension::of::<Q>(),
            best: e.best.si(),
            low: e.low.si(),
            high: e.high.si(),
            coverage: e.coverage,
            contributors: e.contributors,
            warnings: Vec::new(),
            working: None,
        }
    }

    /// From an answer; its warnings are also given as Python warnings.
    pub fn answer<Q: PyQuantity>(py: Python<'_>, a: Answer<Q>) -> PyResult<Self> {
        warn_all(py, &a.warnings)?;
        Ok(Self::kept(a))
    }

    /// From an answer whose warnings were given before.
    pub fn kept<Q: PyQuantity>(a: Answer<Q>) -> Self {
        Self { warnings: a.warnings, working: Some(a.working), ..Self::new(a.estimate) }
    }
}

/// Gives every warning as a Python warning of class `MistcoatWarning`.
pub fn warn_all(py: Python<'_>, warnings: &[Warning]) -> PyResult<()> {
    for w in warnings {
        let category = MistcoatWarning::type_object(py);
        let text = CString::new(w.message.replace('\0', " "))?;
        PyErr::warn(py, category.as_any(), &text, 1)?;
    }
    Ok(())
}

type State = (String, f64, f64, f64, f64, String, String, Option<String>);

fn json<T: serde::Serialize>(value: &T) -> CallResult<String> {
    serde_json::to_string(value).map_err(|e| UnitError::new_err(e.to_string()).into())
}

#[pymethods]
impl PyEstimate {
    /// The best single value.
    #[getter]
    fn best(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        (self.dimension.wrap)(py, self.best)
    }
    /// Lower end of the interval.
    #[getter]
    fn low(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        (self.dimension.wrap)(py, self.low)
    }
    /// Upper end of the interval.
    #[getter]
    fn high(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        (self.dimension.wrap)(py, self.high)
    }
    /// Probability that the interval holds the true value, as far as the stated causes go.
    #[getter]
    fn coverage(&self) -> f64 {
        self.coverage
    }
    /// What the spread comes from: (cause, share of the variance), largest first.
    #[getter]
    fn contributors(&self) -> Vec<(String, f64)> {
        self.contributors.iter().map(|c| (c.what.clone(), c.share)).collect()
    }
    /// What to mind; empty when there is nothing.
    #[getter]
    fn warnings(&self) -> Vec<String> {
        self.warnings.iter().map(|w| w.message.clone()).collect()
    }
    /// The best value as a number in the named unit.
    fn to(&self, unit: &str) -> CallResult<f64> {
        Ok((self.dimension.to)(self.best, unit)?)
    }
    /// The two ends of the interval as numbers in the named unit.
    fn interval(&self, unit: &str) -> CallResult<(f64, f64)> {
        Ok(((self.dimension.to)(self.low, unit)?, (self.dimension.to)(self.high, unit)?))
    }
    /// The steps behind the value, with formulas, numbers and sources.
    fn working(&self) -> PyWorking {
        PyWorking(self.working.clone().unwrap_or_else(|| Working::new("No working was kept for this value")))
    }
    fn __float__(&self) -> CallResult<f64> {
        if self.dimension.class == "Number" {
            return Ok(self.best);
        }
        let fix = format!("this is a {}; write .to({:?})", self.dimension.class, self.dimension.customary);
        Err(UnitError::new_err(fix).into())
    }
    fn __str__(&self) -> String {
        let show = |end| (self.dimension.show_beside)(end, self.best);
        if self.low.to_bits() == self.high.to_bits() {
            return show(self.best);
        }
        let [low, high] = [self.low, self.high].map(show);
        if low == high {
            return low; // narrower than what is printed
        }
        format!("{} ({low} to {high})", show(self.best))
    }
    fn __repr__(&self) -> String {
        format!("<Estimate {}>", self.__str__())
    }
    fn __format__(&self, spec: &Bound<'_, PyString>) -> PyResult<String> {
        let best = self.best(spec.py())?;
        if spec.len()? == 0 {
            return Ok(self.__str__());
        }
        best.bind(spec.py()).call_method1("__format__", (spec,))?.extract()
    }
    fn _repr_html_(&self) -> String {
        use mistcoat::working::escape_html;
        use std::fmt::Write as _;
        let causes: Vec<String> = self
            .contributors
            .iter()
            .take(2)
            .map(|c| format!("{} {:.0} %", c.what, c.share * 100.0))
            .collect();
        let mut html = format!("<b>{}</b>", escape_html(&self.__str__()));
        if !causes.is_empty() {
            let _ = write!(html, " <small>spread: {}</small>", escape_html(&causes.join(", ")));
        }
        for w in &self.warnings {
            let _ = write!(html, "<br><small>mind: {}</small>", escape_html(&w.message));
        }
        html
    }
    fn __eq__(&self, other: &Bound<'_, PyAny>) -> bool {
        other.cast::<Self>().is_ok_and(|o| {
            let o = o.get();
            self.dimension.class == o.dimension.class
                && (self.best, self.low, self.high) == (o.best, o.low, o.high)
                && self.contributors == o.contributors
        })
    }
    fn __hash__(&self) -> u64 {
        (self.best + 0.0).to_bits() ^ (self.low + 0.0).to_bits().rotate_left(1)
    }
    #[staticmethod]
    fn _from_state(state: State) -> CallResult<Self> {
        let (class, best, low, high, coverage, contributors, warnings, working) = state;
        let bad = || UnitError::new_err("not the state of an Estimate");
        let dimension = dimension(&class).ok_or_else(bad)?;
        Ok(Self {
            dimension,
            best,
            low,
            high,
            coverage,
            contributors: serde_json::from_str(&contributors).map_err(|_| bad())?,
            warnings: serde_json::from_str(&warnings).map_err(|_| bad())?,
            working: working.map(|w| serde_json::from_str(&w)).transpose().map_err(|_| bad())?,
        })
    }
    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> CallResult<(Bound<'py, PyAny>, (State,))> {
        let e = slf.get();
        let working = e.working.as_ref().map(json).transpose()?;
        let state = (
            e.dimension.class.to_owned(),
            e.best,
            e.low,
            e.high,
            e.coverage,
            json(&e.contributors)?,
            json(&e.warnings)?,
            working,
        );
        Ok((slf.get_type().getattr("_from_state")?, (state,)))
    }
}

/// The steps of a result: formula, the numbers put in, the outcome with its unit, the source.
#[pyclass(frozen, eq, name = "Working", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyWorking(pub Working);

#[pymethods]
impl PyWorking {
    /// What was worked out, as the heading of the steps.
    #[getter]
    fn title(&self) -> String {
        self.0.title.clone()
    }
    /// The steps as dictionaries with the keys name, formula, latex, numbers, result and source.
    #[getter]
    fn steps(&self) -> Vec<HashMap<&'static str, String>> {
        let one = |s: &mistcoat::working::Step| {
            HashMap::from([
                ("name", s.name.clone()),
                ("formula", s.formula.clone()),
                ("latex", s.latex.clone()),
                ("numbers", s.numbers.clone()),
                ("result", s.result.clone()),
                ("source", mistcoat::source::cite(&s.source)),
            ])
        };
        self.0.steps.iter().map(one).collect()
    }
    /// Plain text for a terminal.
    fn to_text(&self) -> String {
        self.0.to_text()
    }
    /// An HTML fragment for a page.
    fn to_html(&self) -> String {
        self.0.to_html()
    }
    /// LaTeX for a handout.
    fn to_latex(&self) -> String {
        self.0.to_latex()
    }
    fn _repr_html_(&self) -> String {
        self.0.to_html()
    }
    fn __str__(&self) -> String {
        self.0.to_text()
    }
    fn __repr__(&self) -> String {
        self.0.to_text()
    }
    fn __len__(&self) -> usize {
        self.0.steps.len()
    }
}

crate::json::pickles!(PyWorking);
