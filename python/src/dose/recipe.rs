//! Whole-drop recipes and counted drops.

use super::Share;
use super::thinning::{PyThinning, ThinningArg};
use crate::errors::CallResult;
use crate::estimate::PyEstimate;
use crate::quantity::{Arg, PyVolume};
use mistcoat::Estimate;
use mistcoat::dose::{self, Counting, DropRecipe, DropVolumes};
use mistcoat::estimate::ModelError;
use mistcoat::quantity::{self as q, Quantity};
use pyo3::prelude::*;

/// A drop volume given as a quantity or an estimate, with its spread.
fn drop(arg: &Arg<q::Volume>) -> Estimate<q::Volume> {
    let best = arg.value.si();
    if arg.std > 0.0 && best > 0.0 {
        Estimate::relative(arg.value, &[ModelError::new("volume of a drop", arg.std / best)])
    } else {
        Estimate::exact(arg.value)
    }
}

/// A recipe in whole drops, with the error that rounding makes.
#[pyclass(frozen, eq, name = "DropRecipe", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyDropRecipe(pub DropRecipe);

#[pymethods]
impl PyDropRecipe {
    /// Number of drops of stock paint.
    #[getter]
    fn paint_drops(&self) -> u32 {
        self.0.paint_drops
    }
    /// Number of drops of thinner.
    #[getter]
    fn thinner_drops(&self) -> u32 {
        self.0.thinner_drops
    }
    /// The thinning that the counts of drops make.
    #[getter]
    fn thinning(&self) -> PyThinning {
        PyThinning(self.0.thinning)
    }
    /// (made - wanted)/wanted of thinner per paint.
    #[getter]
    fn ratio_error(&self) -> f64 {
        self.0.ratio_error.si()
    }
    /// Volume of the mix that the drops make.
    #[getter]
    fn total(&self) -> PyVolume {
        PyVolume(self.0.total)
    }
    /// (made - wanted)/wanted of the amount; ``None`` when no amount was wanted.
    #[getter]
    fn amount_error(&self) -> Option<f64> {
        self.0.amount_error.map(Quantity::si)
    }
    /// Paint fraction with the spread from drop volumes and counting.
    #[getter]
    fn paint_fraction(&self) -> PyEstimate {
        PyEstimate::new(self.0.paint_fraction.clone())
    }
    fn __str__(&self) -> String {
        self.0.to_string()
    }
    fn __repr__(&self) -> String {
        format!("<DropRecipe {}>", self.0)
    }
}

crate::json::travels!(PyDropRecipe, "The recipe");

/// Recipes in whole drops for a thinning, best first: nearest ratio and amount, or without ``total`` the fewest drops
/// first. The drops of paint and thinner differ in size; give both volumes.
#[pyfunction]
#[pyo3(signature = (thinning, *, paint_drop, thinner_drop, total=None, most=5))]
pub fn drop_recipes(
    thinning: ThinningArg,
    paint_drop: Arg<q::Volume>,
    thinner_drop: Arg<q::Volume>,
    total: Option<Arg<q::Volume>>,
    most: usize,
) -> CallResult<Vec<PyDropRecipe>> {
    let drops = DropVolumes { paint: drop(&paint_drop), thinner: drop(&thinner_drop) };
    let found = dose::drop_recipes(thinning.0, total.map(|t| t.value), &drops, most)?;
    Ok(found.into_iter().map(PyDropRecipe).collect())
}

/// Volume of so many drops, with the spread from the drop volume, from single drops (7 % unless given) and from a
/// doubtful last drop.
#[pyfunction]
#[pyo3(signature = (drops, drop_volume, *, scatter=None, doubtful_last_drop=false))]
pub fn counted_volume(
    drops: u32,
    drop_volume: Arg<q::Volume>,
    scatter: Option<Share>,
    doubtful_last_drop: bool,
) -> CallResult<PyEstimate> {
    let usual = Counting::default();
    let scatter = scatter.map_or(usual.scatter, |s| q::Ratio::from_si(s.0));
    let counting = Counting { scatter, doubtful_last_drop };
    Ok(PyEstimate::new(dose::counted_volume(drops, &drop(&drop_volume), counting)?))
}
