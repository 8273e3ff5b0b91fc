//! How far a paint is thinned, in whatever words.

use super::Share;
use crate::errors::{CallError, CallResult, UnitError};
use crate::quantity::{Arg, PyVolume};
use mistcoat::dose::{Densities, Parts, Thinning};
use mistcoat::error::{out_of_range, unknown_name};
use mistcoat::quantity::{self as q, Quantity};
#[cfg(feature = "stubs")]
use pyo3::{PyTypeInfo, inspect::PyStaticExpr, type_hint_identifier, type_hint_union};
use pyo3::{
    prelude::*,
    types::{PyBool, PyFloat, PyInt, PyString},
};

/// An argument whose name says percent: the number 50 and the text `"50 %"` are the same.
#[derive(Clone, Copy)]
pub struct Percent(pub q::Ratio);

impl<'a, 'py> FromPyObject<'a, 'py> for Percent {
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr = <Share as FromPyObject<'a, 'py>>::INPUT_TYPE;

    fn extract(ob: Borrowed<'a, 'py, PyAny>) -> PyResult<Self> {
        let number = ob.is_instance_of::<PyFloat>() || ob.is_instance_of::<PyInt>();
        if number && !ob.is_instance_of::<PyBool>() {
            return Ok(Self(q::Ratio::from_si(ob.extract::<f64>()? / 100.0)));
        }
        Ok(Self(ob.extract::<Arg<q::Ratio>>()?.value))
    }
}

/// A thinning given as an object, or as words that name the parts.
#[derive(Clone, Copy)]
pub struct ThinningArg(pub Thinning);

impl<'a, 'py> FromPyObject<'a, 'py> for ThinningArg {
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr =
        type_hint_union!(PyThinning::TYPE_HINT, type_hint_identifier!("builtins", "str"));

    fn extract(ob: Borrowed<'a, 'py, PyAny>) -> PyResult<Self> {
        if let Ok(t) = ob.cast::<PyThinning>() {
            return Ok(Self(t.get().0));
        }
        if let Ok(text) = ob.cast::<PyString>() {
            let read = Thinning::from_text(text.to_str()?).map_err(CallError::from)?;
            return Ok(Self(read));
        }
        Err(UnitError::new_err(format!(
            "expected a Thinning or words such as \"2 parts thinner to 1 part paint\"; got {}",
            ob.repr()?
        )))
    }
}

/// How far a paint is thinned, the parts always named.
///
/// ``Thinning(thinner=2, paint=1)``, ``Thinning(percent_of_paint=50)``, ``Thinning(percent_of_mix=33)``,
/// ``Thinning(paint_fraction=0.4)``, or words: ``Thinning("2 parts thinner to 1 part paint")``. A bare "2:1" is refused
/// with both readings shown. By volume, or with ``by="mass"`` and both densities by mass.
///
/// >>> import mistcoat as mc
/// >>> mc.Thinning(thinner=2, paint=1).paint_fraction == mc.Thinning("paint:thinner 1:2").paint_fraction
/// True
#[pyclass(frozen, eq, name = "Thinning", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyThinning(pub Thinning);

fn densities(thinner: Option<Arg<q::Density>>, paint: Option<Arg<q::Density>>) -> CallResult<Densities> {
    match (thinner, paint) {
        (Some(t), Some(p)) => Ok(Densities { thinner: t.value, paint: p.value }),
        _ => Err(out_of_range(
            "densities for a ratio by mass",
            "missing",
            "thinner_density and paint_density",
            "give both, for example thinner_density=\"0.87 g/mL\", paint_density=\"1.2 g/mL\"",
        )
        .into()),
    }
}

#[pymethods]
impl PyThinning {
    #[new]
    #[pyo3(signature = (text=None, *, thinner=None, paint=None, percent_of_paint=None, percent_of_mix=None, paint_fraction=None, by="volume", thinner_density=None, paint_density=None))]
    #[allow(clippy::too_many_arguments, reason = "the wordings of one thing; exactly one is given")]
    fn new(
        text: Option<&str>,
        thinner: Option<f64>,
        paint: Option<f64>,
        percent_of_paint: Option<Percent>,
        percent_of_mix: Option<Percent>,
        paint_fraction: Option<Share>,
        by: &str,
        thinner_density: Option<Arg<q::Density>>,
        paint_density: Option<Arg<q::Density>>,
    ) -> CallResult<Self> {
        let mass = match by {
            "volume" => None,
            "mass" => Some(densities(thinner_density, paint_density)?),
            other => {
                return Err(
                    unknown_name("basis", other, ["volume", "mass"], "by is \"volume\" or \"mass\"").into()
                );
            }
        };
        Ok(Self(match (text, thinner, paint, percent_of_paint, percent_of_mix, paint_fraction, mass) {
            (Some(words), None, None, None, None, None, None) => Thinning::from_text(words)?,
            (None, Some(thinner), Some(paint), None, None, None, mass) => {
                let parts = Parts { thinner, paint };
                mass.map_or_else(|| Thinning::from_parts(parts), |d| Thinning::from_parts_by_mass(parts, d))?
            }
            (None, None, None, Some(p), None, None, None) => Thinning::from_percent_of_paint(p.0)?,
            (None, None, None, Some(p), None, None, Some(d)) => {
                Thinning::from_percent_of_paint_by_mass(p.0, d)?
            }
            (None, None, None, None, Some(p), None, None) => Thinning::from_percent_of_mix(p.0)?,
            (None, None, None, None, Some(p), None, Some(d)) => {
                Thinning::from_percent_of_mix_by_mass(p.0, d)?
            }
            (None, None, None, None, None, Some(x), None) => Thinning::from_paint_fraction(x.fraction()?)?,
            _ => {
                return Err(out_of_range(
                    "wording of the thinning",
                    "none, or more than one",
                    "thinner= with paint=, percent_of_paint=, percent_of_mix=, paint_fraction= or words by volume",
                    "give exactly one, for example Thinning(thinner=2, paint=1)",
                )
                .into());
            }
        }))
    }
    /// Share of stock paint in the volume of the mix, 0 to 1.
    #[getter]
    fn paint_fraction(&self) -> f64 {
        self.0.paint_fraction().get()
    }
    /// Volumes of thinner to one volume of paint.
    #[getter]
    fn thinner_per_paint(&self) -> f64 {
        self.0.thinner_per_paint()
    }
    /// Thinner as percent of the paint's volume.
    #[getter]
    fn percent_of_paint(&self) -> f64 {
        100.0 * self.0.percent_of_paint().si()
    }
    /// Thinner as percent of the volume of the mix.
    #[getter]
    fn percent_of_mix(&self) -> f64 {
        100.0 * self.0.percent_of_mix().si()
    }
    /// Masses of thinner to one mass of paint.
    fn thinner_per_paint_by_mass(
        &self,
        thinner_density: Arg<q::Density>,
        paint_density: Arg<q::Density>,
    ) -> CallResult<f64> {
        Ok(self.0.thinner_per_paint_by_mass(densities(Some(thinner_density), Some(paint_density))?)?)
    }
    /// Thinner to add to a volume of stock paint.
    fn thinner_for(&self, paint: Arg<q::Volume>) -> CallResult<PyVolume> {
        Ok(PyVolume(self.0.thinner_for(paint.value)?))
    }
    /// This mix thinned once more.
    fn then(&self, again: ThinningArg) -> CallResult<Self> {
        Ok(Self(self.0.then(again.0)?))
    }
    fn __hash__(&self) -> u64 {
        self.0.paint_fraction().get().to_bits()
    }
    fn __str__(&self) -> String {
        self.0.to_string()
    }
    fn __repr__(&self) -> String {
        format!("Thinning(paint_fraction={:?})", self.0.paint_fraction().get())
    }
}

crate::json::pickles!(PyThinning);
