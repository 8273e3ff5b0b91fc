//! `Voc`: volatile organic content.

use crate::errors::CallResult;
use crate::estimate::PyWorking;
use crate::quantity::PyMassConcentration;
use mistcoat::paint::Voc;
use mistcoat::quantity::show;
use pyo3::prelude::*;

/// Volatile organic content of a mix.
#[pyclass(frozen, eq, name = "Voc", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyVoc(pub Voc);

#[pymethods]
impl PyVoc {
    /// Organic volatiles per volume of the mix.
    #[getter]
    fn total(&self) -> PyMassConcentration {
        PyMassConcentration(self.0.total)
    }
    /// Organic volatiles per volume less water and exempt solvents, the figure most rules limit.
    #[getter]
    fn less_water_and_exempt(&self) -> PyMassConcentration {
        PyMassConcentration(self.0.less_water_and_exempt)
    }
    /// The steps.
    fn working(&self) -> PyWorking {
        PyWorking(self.0.working.clone())
    }
    /// The content as JSON text, which ``from_json`` and pickling read back.
    fn to_json(&self) -> CallResult<String> {
        crate::json::dump(&self.0)
    }
    /// The content from what ``to_json`` wrote. Raises ``DataError`` for text that is none.
    #[staticmethod]
    fn from_json(text: &str) -> CallResult<Self> {
        Ok(Self(crate::json::load(text)?))
    }
    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> CallResult<(Bound<'py, PyAny>, (String,))> {
        crate::json::reduce(slf, "from_json", &slf.get().0)
    }
    fn __str__(&self) -> String {
        format!(
            "{}, {} less water and exempt solvents",
            show(self.0.total),
            show(self.0.less_water_and_exempt)
        )
    }
    fn __repr__(&self) -> String {
        format!("<Voc {}>", self.__str__())
    }
}
