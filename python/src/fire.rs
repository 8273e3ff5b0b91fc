//! Flammable limits, a closed cupboard and the class of a liquid, in Python.

use crate::blend::Liquid;
use crate::errors::CallResult;
use crate::quantity::{Arg, PyRatio, PyTemperature, PyVolume};
use mistcoat::quantity::{self as q};
use mistcoat::safety::{self, Cupboard, FlammableLimit, FlammableLiquid};
use pyo3::prelude::*;

/// Lower flammable limit of the vapour of a liquid, all evaporated, with the limit and source of each part.
#[pyclass(frozen, eq, name = "FlammableLimit", module = "mistcoat.safety")]
#[derive(Clone, PartialEq)]
pub struct PyFlammableLimit(pub FlammableLimit);

#[pymethods]
impl PyFlammableLimit {
    /// Share of the air by volume.
    #[getter]
    fn limit(&self) -> PyRatio {
        PyRatio(self.0.limit)
    }
    /// Limit of each vapour, in words.
    #[getter]
    fn terms(&self) -> Vec<String> {
        self.0.terms.clone()
    }
    /// Whether any of them is from memory and needs checking against the safety data sheet.
    #[getter]
    fn is_from_memory(&self) -> bool {
        self.0.from_memory
    }
    /// Where each of them stands, and the rule that joins them, with how far to trust it.
    #[getter]
    fn sources(&self) -> Vec<String> {
        self.0.sources.clone()
    }
    /// What goes with the number wherever it is shown; never empty, and who decides comes last.
    #[getter]
    fn cautions(&self) -> Vec<String> {
        self.0.cautions()
    }
    fn __str__(&self) -> String {
        let memory = if self.0.from_memory { " (from memory, check the safety data sheet)" } else { "" };
        format!("{}{memory}", q::show(self.0.limit))
    }
    fn __repr__(&self) -> String {
        format!("<FlammableLimit {}>", self.__str__())
    }
}

crate::json::pickles!(PyFlammableLimit);

/// Lower flammable limit of the vapour of a liquid, all evaporated (Le Chatelier); ``None`` when nothing in it burns.
///
/// >>> from mistcoat import safety
/// >>> 0.02 < safety.lower_flammable_limit("acetone").limit.to("1") < 0.03
/// True
#[pyfunction]
#[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
pub fn lower_flammable_limit(liquid: Liquid) -> CallResult<Option<PyFlammableLimit>> {
    Ok(safety::lower_flammable_limit(&liquid.0)?.map(PyFlammableLimit))
}

/// A closed space in which a liquid has evaporated.
#[pyclass(frozen, eq, name = "Cupboard", module = "mistcoat.safety")]
#[derive(Clone, PartialEq)]
pub struct PyCupboard(pub Cupboard);

#[pymethods]
impl PyCupboard {
    /// Share of the lower flammable limit, evenly mixed: 100 % burns.
    #[getter]
    fn share_of_limit(&self) -> PyRatio {
        PyRatio(self.0.share_of_limit)
    }
    /// Most liquid that keeps the space below a quarter of the limit.
    #[getter]
    fn most_liquid(&self) -> PyVolume {
        PyVolume(self.0.most_liquid)
    }
    /// The lower flammable limit that the shares are measured against.
    #[getter]
    fn limit(&self) -> PyFlammableLimit {
        PyFlammableLimit(self.0.limit.clone())
    }
    /// Cautions on what the numbers leave out; show them beside the numbers.
    #[getter]
    fn cautions(&self) -> Vec<String> {
        self.0.cautions.clone()
    }
    fn __repr__(&self) -> String {
        format!("<Cupboard at {} of the lower flammable limit>", q::show(self.0.share_of_limit))
    }
}

crate::json::pickles!(PyCupboard);

/// How near a closed ``space`` comes to the lower flammable limit when so much liquid evaporates in it; ``None`` when
/// nothing in it burns.
///
/// >>> from mistcoat import safety
/// >>> shelf = safety.cupboard("acetone", "30 mL", space="0.2 m3", temperature="21 degC")
/// >>> shelf.share_of_limit > shelf.share_of_limit.__class__("100 %")  # an open jar is enough
/// True
#[pyfunction]
#[pyo3(signature = (liquid, amount, *, space, temperature))]
#[allow(clippy::needless_pass_by_value, reason = "extracted arguments")]
pub fn cupboard(
    liquid: Liquid,
    amount: Arg<q::Volume>,
    space: Arg<q::Volume>,
    temperature: Arg<q::Temperature>,
) -> CallResult<Option<PyCupboard>> {
    Ok(safety::cupboard(&liquid.0, amount.value, space.value, temperature.value)?.map(PyCupboard))
}

/// How readily a liquid catches fire, with the flash point behind it; its text tells when that is from memory.
#[pyclass(frozen, eq, name = "FlammableLiquid", module = "mistcoat.safety")]
#[derive(Clone, PartialEq)]
pub struct PyFlammableLiquid(pub FlammableLiquid);

#[pymethods]
impl PyFlammableLiquid {
    /// The class of its flash point in words.
    #[getter]
    fn words(&self) -> &'static str {
        self.0.class.words()
    }
    /// Flash point, closed cup; computed for a blend, ``None`` where it has none.
    #[getter]
    fn flash_point(&self) -> Option<PyTemperature> {
        self.0.flash_point.map(PyTemperature)
    }
    /// Whether a flash point behind it is from memory and needs checking against the safety data sheet.
    #[getter]
    fn is_from_memory(&self) -> bool {
        self.0.from_memory
    }
    /// Where flash points and classes stand, with how far to trust each.
    #[getter]
    fn sources(&self) -> Vec<String> {
        self.0.sources.clone()
    }
    /// What to mind; never empty, and who decides comes last.
    #[getter]
    fn cautions(&self) -> Vec<String> {
        self.0.cautions.clone()
    }
    fn __str__(&self) -> String {
        self.0.to_string()
    }
    fn __repr__(&self) -> String {
        format!("<FlammableLiquid: {}>", self.0)
    }
}

crate::json::pickles!(PyFlammableLiquid);

/// How readily a liquid catches fire, by its flash point (computed for a blend).
///
/// >>> from mistcoat import safety
/// >>> print(safety.flammable_class("acetone").words)
/// highly flammable: its vapour burns at room temperature
#[pyfunction]
#[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
pub fn flammable_class(liquid: Liquid) -> CallResult<PyFlammableLiquid> {
    Ok(PyFlammableLiquid(safety::flammable_liquid(&liquid.0)?))
}
