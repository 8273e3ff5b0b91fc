//! `MixDrops`: a mix in whole drops.

use crate::dose::PyDropRecipe;
use crate::errors::CallResult;
use crate::estimate::{PyEstimate, PyWorking};
use mistcoat::error::out_of_range;
use mistcoat::paint::MixDrops;
use pyo3::prelude::*;

/// A mix in whole drops, from ``Mix.drops``: ``recipes``, best first, and the drop of each liquid.
///
/// >>> import mistcoat as mc
/// >>> thinner = mc.Blend({"acetone": 50, "n-butyl acetate": 35, "2-butoxyethanol": 15}, basis="mass")
/// >>> mix = mc.demo_paint("hull green").thin(thinner, thinner=2, paint=1)
/// >>> thick = mc.Dropper.weighed(drops=20, mass="0.41 g", density="0.98 g/mL")
/// >>> thin = mc.Dropper.weighed(drops=20, mass="0.29 g", density="0.84 g/mL")
/// >>> drops = mix.drops(total="1 mL", dropper=thick, thinner_dropper=thin)
/// >>> drops.thinner_drops, drops.paint_drops
/// (39, 16)
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
    /// The recipes, best first; there is always one.
    #[getter]
    fn recipes(&self) -> Vec<PyDropRecipe> {
        self.0.recipes.iter().cloned().map(PyDropRecipe).collect()
    }
    /// Number of drops of stock paint in the best recipe.
    #[getter]
    fn paint_drops(&self) -> CallResult<u32> {
        Ok(self.best()?.paint_drops)
    }
    /// Number of drops of thinner in the best recipe.
    #[getter]
    fn thinner_drops(&self) -> CallResult<u32> {
        Ok(self.best()?.thinner_drops)
    }
    /// Volume of one drop of the stock paint, with its interval.
    #[getter]
    fn paint_drop(&self) -> PyEstimate {
        PyEstimate::new(self.0.drops.paint.clone())
    }
    /// Volume of one drop of the thinner, with its interval.
    #[getter]
    fn thinner_drop(&self) -> PyEstimate {
        PyEstimate::new(self.0.drops.thinner.clone())
    }
    /// What to mind about the drops, one text each; empty when there is nothing.
    #[getter]
    fn warnings(&self) -> Vec<String> {
        self.0.warnings.iter().map(|w| w.message.clone()).collect()
    }
    /// The steps behind the volume of each drop, with formulas, numbers and sources.
    fn working(&self) -> PyWorking {
        PyWorking(self.0.working.clone())
    }
    fn __str__(&self) -> CallResult<String> {
        Ok(self.best()?.to_string())
    }
    fn __repr__(&self) -> CallResult<String> {
        Ok(format!("<MixDrops {}>", self.__str__()?))
    }
}

crate::json::travels!(PyMixDrops, "The recipes");
