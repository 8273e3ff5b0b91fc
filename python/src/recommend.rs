//! What ratio, pressure, distance and how many passes for a job?

use crate::blend::Liquid;
use crate::dose::Share;
use crate::errors::CallResult;
use crate::quantity::Arg;
use crate::setup::{JobArg, PyJudged, PySetup};
use crate::watch::{Report, watched};
use mistcoat::bench::{Choice, Recommendation, Search, USUAL_SHARES};
use mistcoat::progress::Progress;
use mistcoat::quantity as q;
use pyo3::{
    exceptions::{PyKeyboardInterrupt, PyTypeError},
    prelude::*,
};

/// Settings for a job, safest first; or the nearest misses and what to change.
///
/// >>> import mistcoat as mc
/// >>> green = mc.Paint.typical("alcohol acrylic", name="hull green")
/// >>> gun = mc.Airbrush(nozzle="0.3 mm", pressure="25 psi", distance="65 mm")
/// >>> room = mc.Room(temperature="23 degC", relative_humidity="50 %")
/// >>> setup = mc.Setup(green, "isopropanol", airbrush=gun, room=room, substrate="wood")
/// >>> found = mc.recommend(setup, "base coat", thinner_per_paint=[1])
/// >>> bool(found.choices or found.misses)
/// True
#[pyclass(frozen, eq, name = "Recommendation", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyRecommendation(pub Recommendation);

fn pairs(choices: &[Choice]) -> Vec<(PySetup, PyJudged)> {
    choices.iter().map(|c| (PySetup(c.setup.clone()), PyJudged(c.judged.clone()))).collect()
}

#[pymethods]
impl PyRecommendation {
    /// Settings inside every limit with what they do, safest first; one a ratio.
    #[getter]
    fn choices(&self) -> Vec<(PySetup, PyJudged)> {
        pairs(&self.0.choices)
    }
    /// When none is inside: the nearest misses.
    #[getter]
    fn misses(&self) -> Vec<(PySetup, PyJudged)> {
        pairs(&self.0.misses)
    }
    /// When none is inside: what to change.
    #[getter]
    fn advice(&self) -> Vec<String> {
        self.0.advice.clone()
    }
    /// How many settings were judged.
    #[getter]
    fn judged(&self) -> usize {
        self.0.judged
    }
    /// How many were to be judged; more when it was stopped, or some are out of range.
    #[getter]
    fn asked(&self) -> usize {
        self.0.asked
    }
}

crate::table::shows!(PyRecommendation, "Choices, or the nearest misses, with what binds each.");

crate::json::pickles!(PyRecommendation);

/// What ratio, pressure, distance and how many passes for this job?
///
/// ``setup`` gives paint, thinner, gun, room and part; its ratio, pressure, distance and passes are what is sought.
/// ``thinner_per_paint`` lists the ratios to look at, 0 to 4 unless given. ``retarder`` is a slow liquid; its shares of the
/// thinner are sought too, among ``retarder_shares``, 0, 10, 20 and 30 % unless given. No choice takes longer than
/// ``touch_dry_within`` until it is touch dry, or than ``recoat_within`` until the next coat may go on (``Judged.recoat``);
/// when nothing is so quick, ``advice`` names the quickest. A slow thinner levels best, so set one of them when you search over
/// a retarder. ``progress`` is True for a line on
/// stderr when it takes longer than a second, or a function that is called with (done, total) about five times a second.
/// Ctrl-C ranks what was judged by then, and a note of the table says so.
///
/// >>> import mistcoat as mc
/// >>> green = mc.Paint.typical("alcohol acrylic", name="hull green")
/// >>> gun = mc.Airbrush(nozzle="0.3 mm", pressure="20 psi", distance="80 mm")
/// >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
/// >>> setup = mc.Setup(green, "isopropanol", airbrush=gun, room=room, substrate="wood")
/// >>> found = mc.recommend(setup, "soft edge", thinner_per_paint=[1, 2])
/// >>> all(judged.is_good for _, judged in found.choices)
/// True
/// >>> soon = mc.recommend(setup, "soft edge", thinner_per_paint=[1], touch_dry_within="2 min", recoat_within="1 h")
/// >>> all(judged.touch_dry <= mc.Time("2 min") for _, judged in soon.choices)
/// True
#[pyfunction]
#[pyo3(signature = (setup, job, *, thinner_per_paint=None, retarder=None, retarder_shares=None,
    touch_dry_within=None, recoat_within=None, progress=None))]
#[allow(clippy::too_many_arguments, clippy::needless_pass_by_value, reason = "keyword arguments of Python")]
pub fn recommend(
    py: Python<'_>,
    setup: PyRef<'_, PySetup>,
    job: JobArg<'_>,
    thinner_per_paint: Option<Vec<f64>>,
    retarder: Option<Liquid>,
    retarder_shares: Option<Vec<Share>>,
    touch_dry_within: Option<Arg<q::Time>>,
    recoat_within: Option<Arg<q::Time>>,
    progress: Option<Bound<'_, PyAny>>,
) -> CallResult<PyRecommendation> {
    let mut search = Search::new(&setup.0, &job.job()?);
    if let Some(ratios) = thinner_per_paint {
        search = search.thinner_per_paint(&ratios);
    }
    search = match (retarder, retarder_shares) {
        (Some(slow), None) => search.retarder(&slow.0, &USUAL_SHARES),
        (Some(slow), Some(shares)) => {
            search.retarder(&slow.0, &shares.iter().map(|s| s.0).collect::<Vec<_>>())
        }
        (None, None) => search,
        (None, Some(_)) => return Err(PyTypeError::new_err("retarder_shares needs a retarder").into()),
    };
    if let Some(longest) = touch_dry_within {
        search = search.touch_dry_within(longest.value);
    }
    if let Some(longest) = recoat_within {
        search = search.recoat_within(longest.value);
    }
    let handle = Progress::new(search.pieces());
    let report = Report::new(py, progress, "judging settings")?;
    let (found, stopped) = watched(py, &handle, report.function(), || search.run_watched(&handle));
    report.close()?;
    match stopped {
        Some(stop) if !stop.is_instance_of::<PyKeyboardInterrupt>(py) => Err(stop.into()),
        _ => Ok(PyRecommendation(found?)),
    }
}
