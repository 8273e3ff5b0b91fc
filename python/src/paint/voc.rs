//! `Voc`: volatile organic content.

use crate::estimate::PyWorking;
use crate::quantity::PyMassConcentration;
use mistcoat::paint::Voc;
use mistcoat::quantity::show;
use pyo3::prelude::*;

/// Volatile organic content of a mix, from ``Mix.voc``: a mass balance with ideal volumes at 20 °C.
///
/// >>> import mistcoat as mc
/// >>> thinner = mc.Blend({"acetone": 50, "n-butyl acetate": 35, "2-butoxyethanol": 15}, basis="mass")
/// >>> voc = mc.demo_paint("hull green").thin(thinner, thinner=1, paint=1).voc()
/// >>> print(voc)
/// 545 g/L, 741 g/L less water and exempt solvents
/// >>> voc.less_water_and_exempt > voc.total  # acetone is exempt
/// True
#[pyclass(frozen, eq, name = "Voc", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyVoc(pub Voc);

#[pymethods]
impl PyVoc {
    /// Mass of organic volatiles per volume of the mix; exempt solvents are not counted.
    #[getter]
    fn total(&self) -> PyMassConcentration {
        PyMassConcentration(self.0.total)
    }
    /// Mass of organic volatiles per volume of the mix less its water and exempt solvents, the figure most rules limit.
    #[getter]
    fn less_water_and_exempt(&self) -> PyMassConcentration {
        PyMassConcentration(self.0.less_water_and_exempt)
    }
    /// The steps behind both figures, with formulas, numbers and sources.
    fn working(&self) -> PyWorking {
        PyWorking(self.0.working.clone())
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

crate::json::travels!(PyVoc, "The content");
