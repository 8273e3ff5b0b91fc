//! `EvaporationTest` in Python.

use crate::blend::PyBlend;
use crate::errors::CallResult;
use crate::estimate::PyEstimate;
use crate::quantity::{Arg, PyRatio};
use crate::solvent::PySolvent;
use mistcoat::blend::{Basis, Blend};
use mistcoat::film::EvaporationTest;
use mistcoat::quantity as q;
use pyo3::prelude::*;

/// A liquid alone, by name or as it stands in a catalogue, or a blend.
#[derive(FromPyObject)]
pub enum Liquid<'py> {
    /// A blend.
    Blend(PyRef<'py, PyBlend>),
    /// A solvent.
    Solvent(PyRef<'py, PySolvent>),
    /// The name of one.
    Name(String),
}

impl Liquid<'_> {
    fn blend(&self) -> CallResult<Blend> {
        Ok(match self {
            Self::Blend(blend) => blend.0.clone(),
            Self::Solvent(solvent) => Blend::new(vec![(solvent.0.clone(), 1.0)], Basis::Mass, None)?,
            Self::Name(name) => Blend::from_names(&[(name, 1.0)], Basis::Mass, None)?,
        })
    }
}

/// A published way of measuring how fast a liquid evaporates, run by the drying engine: for liquids without a published
/// rate, and for blends, which dry by themselves and not as an average of their parts.
///
/// ``EvaporationTest.paper()``: filter paper in dry air (ASTM D3539), n-butyl acetate = 1.
/// ``EvaporationTest.metal_plate()``: a metal plate that stays at 25 °C, n-butyl acetate = 1; nearer to a thin coat on metal.
/// ``EvaporationTest.spot()``: a spot on paper in room air (DIN 53170), diethyl ether = 1, larger is slower.
///
/// Measured root mean square factors against published lists: 1.17 (37 liquids), 1.14 (13) and 1.17 (13).
///
/// >>> import mistcoat as mc
/// >>> thinner = mc.Blend({"acetone": 50, "n-butyl acetate": 35, "2-butoxyethanol": 15}, basis="mass")
/// >>> 0.9 < mc.EvaporationTest.paper().rate(thinner).best < 1.1
/// True
#[pyclass(frozen, eq, hash, name = "EvaporationTest", module = "mistcoat")]
#[derive(Clone, PartialEq, Eq, Hash)]
pub struct PyEvaporationTest(pub EvaporationTest);

#[pymethods]
impl PyEvaporationTest {
    /// Filter paper in dry air, as the standard evaporometer (ASTM D3539) has it; n-butyl acetate = 1.
    #[staticmethod]
    fn paper() -> Self {
        Self(EvaporationTest::Paper)
    }
    /// A smooth, heavy metal plate at 25 °C, where nothing cools; n-butyl acetate = 1.
    #[staticmethod]
    fn metal_plate() -> Self {
        Self(EvaporationTest::MetalPlate)
    }
    /// A spot on paper in room air, until it is gone (DIN 53170); diethyl ether = 1, larger is slower.
    #[staticmethod]
    fn spot() -> Self {
        Self(EvaporationTest::Spot)
    }
    /// Share of the mass lost at the end of the test: 90 %, of a spot 99 %.
    #[getter]
    fn end(&self) -> PyRatio {
        PyRatio(self.0.end())
    }
    /// The number that a table would print: relative evaporation rate on paper and metal, evaporation number of a spot.
    ///
    /// ``liquid`` is a ``Blend``, a ``Solvent`` or a name. Raises ``RangeError`` for what does not evaporate within a year.
    #[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
    fn rate(&self, py: Python<'_>, liquid: Liquid<'_>) -> CallResult<PyEstimate> {
        let (test, blend) = (self.0, liquid.blend()?);
        let answer = py.detach(|| test.rate(&blend))?;
        Ok(PyEstimate::answer(py, answer)?)
    }
    /// The time in which the liquid loses this share of its mass in the test, more than 0 and at most 99.5 %.
    ///
    /// The constant of transfer is that of the paper test; only there was a time published (470 s for n-butyl acetate).
    #[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
    fn time_to_lose(
        &self,
        py: Python<'_>,
        liquid: Liquid<'_>,
        share: Arg<q::Ratio>,
    ) -> CallResult<PyEstimate> {
        let (test, blend) = (self.0, liquid.blend()?);
        let answer = py.detach(|| test.time_to_lose(&blend, share.value))?;
        Ok(PyEstimate::answer(py, answer)?)
    }
    fn __str__(&self) -> String {
        self.0.to_string()
    }
    fn __repr__(&self) -> &'static str {
        match self.0 {
            EvaporationTest::Paper => "EvaporationTest.paper()",
            EvaporationTest::MetalPlate => "EvaporationTest.metal_plate()",
            EvaporationTest::Spot => "EvaporationTest.spot()",
        }
    }
}

crate::json::travels!(PyEvaporationTest, "The test");
