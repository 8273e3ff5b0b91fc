//! `MixDrops`: a mix in whole drops.

use crate::dose::PyDropRecipe;
use crate::errors::CallResult;
use crate::estimate::{PyEstimate, PyWorking};
use mistcoat::error::out_of_range;
use mistcoat::paint::MixDrops;
use pyo3::prelude::*;

/// A mix in whole drops: ``recipes``, best first, and the drop of each liquid.
#[pyclass(frozen, eq, name = "MixDrops", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyMixDrops(pub MixDrops);

impl PyMixDrops {
    fn best(&self) -> CallResult<&mistcoat::dose::DropRecipe> {
        self.0
            .recipes
            .first()
            .ok_or_else(|| out_of_range("recipes", "0", "at least 1", "ask for another amount of mix").into())
    }
}

#[pymethods]
impl PyMixDrops {
    /// Recipes, best first.
    #[getter]
    fn recipes(&self) -> Vec<PyDropRecipe> {
        self.0.recipes.iter().cloned().map(PyDropRecipe).collect()
    }
    /// Drops of stock paint in the best recipe.
    #[getter]
    fn paint_drops(&self) -> CallResult<u32> {
        Ok(self.best()?.paint_drops)
    }
    /// Drops of thinner in the best recipe.
    #[getter]
    fn thinner_drops(&self) -> CallResult<u32> {
        Ok(self.best()?.thinner_drops)
    }
    /// Volume of one drop of paint.
    #[getter]
    fn paint_drop(&self) -> PyEstimate {
        PyEstimate::new(self.0.drops.paint.clone())
    }
    /// Volume of one drop of thinner.
    #[getter]
    fn thinner_drop(&self) -> PyEstimate {
        PyEstimate::new(self.0.drops.thinner.clone())
    }
    /// What to mind; empty when there is nothing.
    #[getter]
    fn warnings(&self) -> Vec<String> {
        self.0.warnings.iter().map(|w| w.message.clone()).collect()
    }
    /// The steps.
    fn working(&self) -> PyWorking {
        PyWorking(self.0.working.clone())
    }
    /// The recipes as JSON text, which ``from_json`` and pickling read back.
    fn to_json(&self) -> CallResult<String> {
        crate::json::dump(&self.0)
    }
    /// The recipes from what ``to_json`` wrote. Raises ``DataError`` for text that is none.
    #[staticmethod]
    fn from_json(text: &str) -> CallResult<Self> {
        Ok(Self(crate::json::load(text)?))
    }
    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> CallResult<(Bound<'py, PyAny>, (String,))> {
        crate::json::reduce(slf, "from_json", &slf.get().0)
    }
    fn __str__(&self) -> CallResult<String> {
        Ok(self.best()?.to_string())
    }
    fn __repr__(&self) -> CallResult<String> {
        Ok(format!("<MixDrops {}>", self.__str__()?))
    }
}
