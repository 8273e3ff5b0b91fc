//! Figures on which safety may rest, exposure limits, and the sources behind properties.

use crate::errors::{CallResult, UnitError};
use crate::quantity::{Dimension, PyQuantity};
use mistcoat::quantity::{self as q, Quantity};
use mistcoat::solvent::{Concentration, ExposureLimit, PropertySource, SafetyValue};
use pyo3::prelude::*;
use serde::{Deserialize, Serialize};
use std::hash::{DefaultHasher, Hash, Hasher};

/// A figure on which someone's safety may rest, with its source. Its text says when it was stated from memory.
#[pyclass(frozen, eq, name = "SafetyValue", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PySafetyValue {
    state: SafetyState,
    text: String,
}

#[derive(Clone, PartialEq, Serialize, Deserialize)]
struct SafetyState {
    class: String,
    si: f64,
    source: PropertySource,
}

impl PySafetyValue {
    pub fn new<Q: PyQuantity>(v: SafetyValue<Q>) -> Self {
        let text = v.to_string();
        Self { state: SafetyState { class: Q::CLASS.to_owned(), si: v.value.si(), source: v.source }, text }
    }

    fn dimension(&self) -> CallResult<Dimension> {
        let found = crate::quantity::dimension(&self.state.class);
        Ok(found.ok_or_else(|| UnitError::new_err("no such dimension"))?)
    }
}

#[pymethods]
impl PySafetyValue {
    /// The figure: a temperature or a ratio.
    #[getter]
    fn value(&self, py: Python<'_>) -> CallResult<Py<PyAny>> {
        Ok((self.dimension()?.wrap)(py, self.state.si)?)
    }
    /// Source of the figure, with its citation.
    #[getter]
    fn source(&self) -> PyPropertySource {
        PyPropertySource(self.state.source.clone())
    }
    /// The figure as a number in the named unit.
    fn to(&self, unit: &str) -> CallResult<f64> {
        Ok((self.dimension()?.to)(self.state.si, unit)?)
    }
    fn __str__(&self) -> &str {
        &self.text
    }
    fn __repr__(&self) -> String {
        format!("<SafetyValue {}>", self.text)
    }
    fn __hash__(&self) -> u64 {
        (self.state.si + 0.0).to_bits()
    }
    #[staticmethod]
    fn _from_json(text: &str) -> CallResult<Self> {
        fn read<Q: PyQuantity>(s: SafetyState) -> PySafetyValue {
            PySafetyValue::new(SafetyValue { value: Q::from_si(s.si), source: s.source })
        }
        let state: SafetyState = crate::json::load(text)?;
        Ok(if state.class == q::Temperature::CLASS {
            read::<q::Temperature>(state)
        } else {
            read::<q::Ratio>(state)
        })
    }
    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> CallResult<(Bound<'py, PyAny>, (String,))> {
        crate::json::reduce(slf, "_from_json", &slf.get().state)
    }
}

/// One exposure limit as its authority gives it.
#[pyclass(frozen, eq, name = "ExposureLimit", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyExposureLimit(pub ExposureLimit, pub PropertySource);

#[pymethods]
impl PyExposureLimit {
    /// Whose limit, for example "OSHA PEL".
    #[getter]
    fn name(&self) -> &str {
        &self.0.name
    }
    /// Over what time: "8 h", "15 min", "ceiling" or "immediate danger".
    #[getter]
    fn over(&self) -> String {
        self.0.over.to_string()
    }
    /// The limit: a ratio (ppm) or a mass concentration.
    #[getter]
    fn value(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        match self.0.value {
            Concentration::Volume(r) => r.wrap(py),
            Concentration::Mass(m) => m.wrap(py),
        }
    }
    /// Whether it counts floating droplets, not vapour.
    #[getter]
    fn droplets(&self) -> bool {
        self.0.droplets
    }
    /// Remark that goes with the limit, or ``None``.
    #[getter]
    fn note(&self) -> Option<&str> {
        self.0.note.as_deref()
    }
    /// Source of the limit, with its citation.
    #[getter]
    fn source(&self) -> PyPropertySource {
        PyPropertySource(self.1.clone())
    }
    fn __str__(&self) -> String {
        let caution =
            if self.1.is_from_memory() { " (from memory, check the safety data sheet)" } else { "" };
        format!("{} {}, {}{caution}", self.0.name, self.0.value, self.0.over)
    }
    fn __repr__(&self) -> String {
        format!("<ExposureLimit {}>", self.__str__())
    }
    fn __hash__(&self) -> u64 {
        let mut h = DefaultHasher::new();
        self.__str__().hash(&mut h);
        h.finish()
    }
    #[staticmethod]
    fn _from_json(text: &str) -> CallResult<Self> {
        let (limit, source) = crate::json::load(text)?;
        Ok(Self(limit, source))
    }
    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> CallResult<(Bound<'py, PyAny>, (String,))> {
        let l = slf.get();
        crate::json::reduce(slf, "_from_json", &(&l.0, &l.1))
    }
}

/// The source of one property: keys, citations, how far to trust it, and what other sources give.
#[pyclass(frozen, eq, hash, name = "PropertySource", module = "mistcoat")]
#[derive(Clone, PartialEq, Eq, Hash)]
pub struct PyPropertySource(pub PropertySource);

#[pymethods]
impl PyPropertySource {
    /// Name of the property.
    #[getter]
    fn property_name(&self) -> &str {
        &self.0.property
    }
    /// Source keys, or citations in full where a file gives no key.
    #[getter]
    fn keys(&self) -> Vec<String> {
        self.0.keys.clone()
    }
    /// What the keys stand for.
    #[getter]
    fn citations(&self) -> Vec<String> {
        self.0.citations.clone()
    }
    /// The least trusted of the sources: "published", "computed", "common practice" or "from memory".
    #[getter]
    fn provenance(&self) -> &'static str {
        self.0.provenance.words()
    }
    /// Whether the value was stated from memory and needs checking before use.
    #[getter]
    fn is_from_memory(&self) -> bool {
        self.0.is_from_memory()
    }
    /// What to mind about the source, or ``None``.
    #[getter]
    fn note(&self) -> Option<&str> {
        self.0.note.as_deref()
    }
    /// What other sources give, each with its source.
    #[getter]
    fn others(&self) -> Vec<String> {
        self.0.others.clone()
    }
    fn __str__(&self) -> String {
        self.0.to_string()
    }
    fn __repr__(&self) -> String {
        format!("<PropertySource of {}: {}>", self.0.property, self.0)
    }
}

crate::json::pickles!(PyPropertySource);
