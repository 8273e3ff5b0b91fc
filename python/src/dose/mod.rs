//! Drops, parts, percent and mass in Python.

mod arithmetic;
mod batch;
mod dropper;
mod recipe;
mod thinning;

pub use arithmetic::{
    alligation, cpvc, dry_film, practical_spreading_rate, pvc, resin_cut, spreading_rate, thinned_solids,
    voc, voc_after_thinning, volume_solids, wet_film,
};
pub use batch::PyBatch;
pub use dropper::PyDropper;
pub use recipe::{PyDropRecipe, counted_volume, drop_recipes};
pub use thinning::{Percent, PyThinning, ThinningArg};

use crate::errors::CallResult;
use crate::quantity::Arg;
use mistcoat::quantity::{self as q, Quantity, VolumeFraction};
#[cfg(feature = "stubs")]
use pyo3::{inspect::PyStaticExpr, type_hint_identifier, type_hint_union};
use pyo3::{
    prelude::*,
    types::{PyBool, PyFloat, PyInt},
};

/// A share of a whole: a plain number between 0 and 1, a `Ratio`, or text such as `"35 %"`.
#[derive(Clone, Copy)]
pub struct Share(pub f64);

impl<'a, 'py> FromPyObject<'a, 'py> for Share {
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr = type_hint_union!(
        type_hint_identifier!("builtins", "float"),
        <Arg<q::Ratio> as FromPyObject<'a, 'py>>::INPUT_TYPE
    );

    fn extract(ob: Borrowed<'a, 'py, PyAny>) -> PyResult<Self> {
        let number = ob.is_instance_of::<PyFloat>() || ob.is_instance_of::<PyInt>();
        if number && !ob.is_instance_of::<PyBool>() {
            return Ok(Self(ob.extract()?));
        }
        Ok(Self(ob.extract::<Arg<q::Ratio>>()?.value.si()))
    }
}

impl Share {
    pub fn fraction(self) -> CallResult<VolumeFraction> {
        Ok(VolumeFraction::new(self.0)?)
    }
}
