//! Batches: repair, combine, scale.

use super::thinning::{PyThinning, ThinningArg};
use crate::errors::CallResult;
use crate::quantity::{Arg, PyVolume};
use mistcoat::dose::{Batch, Repair, Thinning};
use mistcoat::quantity::{self as q, Quantity};
use pyo3::prelude::*;

/// A volume of mix and how far it is thinned: repair it, combine two, scale one.
///
/// >>> import mistcoat as mc
/// >>> batch = mc.Batch("20 mL", mc.Thinning(paint_fraction=0.2))
/// >>> what, volume = batch.repair(mc.Thinning(paint_fraction=0.3), stock=mc.Thinning(paint_fraction=0.5))
/// >>> print(what, volume)
/// paint 10 mL
#[pyclass(frozen, eq, name = "Batch", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyBatch(pub Batch);

#[pymethods]
impl PyBatch {
    #[new]
    fn new(volume: Arg<q::Volume>, thinning: ThinningArg) -> CallResult<Self> {
        Ok(Self(Batch::new(volume.value, thinning.0)?))
    }
    /// The batch that uses up a volume of stock paint.
    #[staticmethod]
    fn from_paint(paint: Arg<q::Volume>, thinning: ThinningArg) -> CallResult<Self> {
        Ok(Self(Batch::from_paint(paint.value, thinning.0)?))
    }
    /// The whole volume, paint and thinner together.
    #[getter]
    fn volume(&self) -> PyVolume {
        PyVolume(self.0.volume())
    }
    /// How far it is thinned.
    #[getter]
    fn thinning(&self) -> PyThinning {
        PyThinning(self.0.thinning())
    }
    /// Volume of stock paint in it.
    #[getter]
    fn paint(&self) -> PyVolume {
        PyVolume(self.0.paint())
    }
    /// Volume of thinner in it.
    #[getter]
    fn thinner(&self) -> PyVolume {
        PyVolume(self.0.thinner())
    }
    /// What to add to reach ``target``: ``("thinner", volume)``, ``("paint", volume)`` of undiluted paint or of ``stock``,
    /// or ``("nothing", zero)``.
    #[pyo3(signature = (target, *, stock=None))]
    fn repair(
        &self,
        target: ThinningArg,
        stock: Option<ThinningArg>,
    ) -> CallResult<(&'static str, PyVolume)> {
        let stock = stock.map_or(Thinning::NONE, |s| s.0);
        Ok(match self.0.repair(target.0, stock)? {
            Repair::AddThinner(v) => ("thinner", PyVolume(v)),
            Repair::AddPaint(v) => ("paint", PyVolume(v)),
            Repair::Nothing => ("nothing", PyVolume(q::Volume::from_si(0.0))),
        })
    }
    /// Two batches of the same paint and thinner poured together.
    #[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
    fn combined(&self, other: PyRef<'_, Self>) -> CallResult<Self> {
        Ok(Self(self.0.combined(&other.0)?))
    }
    /// The same mix for another total volume.
    fn scaled_to(&self, volume: Arg<q::Volume>) -> CallResult<Self> {
        Ok(Self(self.0.scaled_to(volume.value)?))
    }
    fn __repr__(&self) -> String {
        format!("<Batch of {}, {}>", q::show(self.0.volume()), self.0.thinning())
    }
}

crate::json::pickles!(PyBatch);
