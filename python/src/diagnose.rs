//! This went wrong: why, and what cures it?

use crate::dict::Ordered;
use crate::errors::CallResult;
use crate::setup::{JobArg, PySetup};
use mistcoat::bench::{self, Defect, Diagnosis};
use pyo3::prelude::*;

/// Causes of a defect, likeliest first, each with the number behind it and the smallest change that cures it.
#[pyclass(frozen, eq, name = "Diagnosis", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyDiagnosis(pub Diagnosis);

#[pymethods]
impl PyDiagnosis {
    /// The defect by the trade's word.
    #[getter]
    fn defect(&self) -> &str {
        &self.0.defect.name
    }
    /// By cause, likeliest first: probability that its limit is broken, 0 to 1, as far as the models know.
    #[getter]
    fn causes(&self) -> Ordered<f64> {
        Ordered(self.0.causes.iter().map(|c| (c.margin.fault.name().to_owned(), c.probability)).collect())
    }
    /// By cause: the smallest change of one setting that cures it; ``None`` when its limit holds, or none does.
    #[getter]
    fn changes(&self) -> Ordered<Option<String>> {
        let each = |c: &bench::LikelyCause| {
            (c.margin.fault.name().to_owned(), c.change.map(|change| change.to_string()))
        };
        Ordered(self.0.causes.iter().map(each).collect())
    }
    /// Whether every cause in the model is improbable, so that the cause is likely one beyond it.
    #[getter]
    fn look_beyond(&self) -> bool {
        self.0.look_beyond
    }
    /// Causes beyond the model, as common practice tells them.
    #[getter]
    fn beyond(&self) -> Vec<String> {
        self.0.defect.beyond.clone()
    }
}

crate::table::shows!(PyDiagnosis, "Causes with their numbers and cures.");

crate::json::pickles!(PyDiagnosis);

/// This went wrong at these settings: why, and what is the smallest change that cures it?
///
/// ``defect`` is the trade's word, see ``defects()``. Raises ``UnknownName`` with near words.
///
/// >>> import mistcoat as mc
/// >>> green = mc.Paint.typical("solvent lacquer", name="hull green")
/// >>> gun = mc.Airbrush(nozzle="0.3 mm", pressure="10 psi", distance="80 mm")
/// >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
/// >>> setup = mc.Setup(green, "n-butyl acetate", thinner_per_paint=0, airbrush=gun, room=room, substrate="wood")
/// >>> next(iter(mc.diagnose("spatter", setup, "base coat").causes))
/// 'spatter'
#[pyfunction]
#[allow(clippy::needless_pass_by_value, reason = "extracted arguments")]
pub fn diagnose(
    py: Python<'_>,
    defect: &str,
    setup: PyRef<'_, PySetup>,
    job: JobArg<'_>,
) -> CallResult<PyDiagnosis> {
    let job = job.job()?;
    let setup = setup.0.clone();
    Ok(PyDiagnosis(py.detach(|| bench::diagnose(defect, &setup, &job))?))
}

/// The defects that ``diagnose`` knows, by the trade's words, with how each looks.
///
/// >>> import mistcoat as mc
/// >>> "orange peel" in mc.defects()
/// True
#[pyfunction]
pub fn defects() -> CallResult<Ordered<String>> {
    let all = Defect::all()?;
    Ok(Ordered(all.iter().map(|d| (d.name.clone(), d.looks.clone())).collect()))
}
