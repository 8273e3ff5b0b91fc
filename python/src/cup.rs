//! Flow cups in Python.

use crate::array::{Column, ColumnOut, OnBad};
use crate::errors::{CallResult, UnitError};
use crate::estimate::{PyEstimate, PyWorking, warn_all};
use crate::quantity::{Arg, PyDensity, PyKinematicViscosity, PyLength, PyRatio, PyTemperature, PyTime};
use mistcoat::Estimate;
use mistcoat::cup::reference::ReferenceLiquid;
use mistcoat::cup::{Calibration, Equation, FlowCup, Kind, Reading, cups_for, timing};
use mistcoat::estimate::ModelError;
use mistcoat::quantity::{self as q, Quantity, show};
use mistcoat::source;
#[cfg(feature = "stubs")]
use pyo3::{inspect::PyStaticExpr, type_hint_identifier, type_hint_union};
use pyo3::{
    prelude::*,
    types::{PyBool, PyString, PyTuple},
};

/// A size as people write it: `4`, `2.5`, `"4 mm"`, `"No. 4"`.
pub struct Size(String);

impl<'a, 'py> FromPyObject<'a, 'py> for Size {
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr = type_hint_union!(
        type_hint_identifier!("builtins", "float"),
        type_hint_identifier!("builtins", "str")
    );

    fn extract(ob: Borrowed<'a, 'py, PyAny>) -> PyResult<Self> {
        if let Ok(text) = ob.cast::<PyString>() {
            return Ok(Self(text.to_str()?.to_owned()));
        }
        if ob.is_instance_of::<PyBool>() {
            return Err(UnitError::new_err(
                "a size is a number or text; write for example 4, 2.5 or \"4 mm\"",
            ));
        }
        Ok(Self(ob.extract::<f64>()?.to_string()))
    }
}

/// An argument with its spread as an estimate; `what` names the cause.
fn estimate<Q: Quantity>(arg: &Arg<Q>, what: &str) -> Estimate<Q> {
    let best = arg.value.si();
    if arg.std > 0.0 && best > 0.0 {
        Estimate::relative(arg.value, &[ModelError::new(what, arg.std / best)])
    } else {
        Estimate::exact(arg.value)
    }
}

fn reading(viscosity: &Arg<q::KinematicViscosity>, time: &Arg<q::Time>) -> Reading {
    let one_run = Reading::new(viscosity.value, time.value);
    let time = if time.std > 0.0 { estimate(time, "cup timing") } else { one_run.time };
    Reading { viscosity: estimate(viscosity, "calibration liquid"), time }
}

/// A flow cup: seconds to kinematic viscosity and back.
///
/// ``FlowCup("ISO 2431", 4)``; likewise ``("ASTM D1200", 4)``, ``("ASTM D4212 Zahn", 2)``, ``("ASTM D4212 Shell", 2.5)``,
/// ``("DIN 53211", 4)``, ``("GB/T 1723", 4)``. ``FlowCup.list()`` gives them all, ``FlowCup.calibrate`` makes one from a
/// syringe barrel or a drilled cup. Times outside the cup's range give a value with a warning that names a cup that
/// would serve; times at or below ``zero_time`` raise ``RangeError``. Newtonian liquids only.
///
/// >>> import mistcoat as mc
/// >>> cup = mc.FlowCup("ISO 2431", 4)
/// >>> print(cup.kinematic_viscosity("35 s").best, cup.efflux_time("40 mm2/s").best)
/// 42.2 mm2/s 33.5 s
#[pyclass(frozen, eq, name = "FlowCup", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyFlowCup(pub FlowCup);

#[pymethods]
impl PyFlowCup {
    #[new]
    #[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
    fn new(standard: &str, size: Size) -> CallResult<Self> {
        Ok(Self(FlowCup::standard(standard, &size.0)?))
    }
    /// All cups of the catalogue; fits to published tables are named as such (``kind``).
    #[staticmethod]
    fn list() -> CallResult<Vec<Self>> {
        Ok(FlowCup::list()?.iter().cloned().map(Self).collect())
    }
    /// Builds a home-made cup from timed liquids of known viscosity: ``[(viscosity, time), ...]``, at least two.
    ///
    /// ``ReferenceLiquid.water()`` and ``ReferenceLiquid.glycerol_water("60 %")`` give viscosities with their
    /// uncertainty; times may be those of ``time()``. Raises ``RangeError`` when the readings are too few, too close
    /// or contradict each other.
    #[staticmethod]
    #[pyo3(signature = (readings, name="home-made cup"))]
    #[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
    fn calibrate(
        py: Python<'_>,
        readings: Vec<(Arg<q::KinematicViscosity>, Arg<q::Time>)>,
        name: &str,
    ) -> CallResult<Self> {
        let readings: Vec<Reading> = readings.iter().map(|(nu, t)| reading(nu, t)).collect();
        let cup = FlowCup::calibrate(&readings, name)?;
        if let Some(c) = cup.calibration() {
            warn_all(py, &c.warnings)?;
        }
        Ok(Self(cup))
    }
    /// Stretches this cup down to a thin liquid timed in it, such as water: ``v = K t - B/t`` through that reading and
    /// as close as may be to the standard's equation.
    fn anchored(&self, viscosity: Arg<q::KinematicViscosity>, time: Arg<q::Time>) -> CallResult<Self> {
        Ok(Self(self.0.anchored(&reading(&viscosity, &time))?))
    }
    /// Kinematic viscosity of a liquid that ran out in ``time``, with its interval, warnings and working.
    fn kinematic_viscosity(&self, py: Python<'_>, time: Arg<q::Time>) -> CallResult<PyEstimate> {
        let answer = if time.std > 0.0 {
            self.0.kinematic_viscosity_from(&estimate(&time, "cup timing"))?
        } else {
            self.0.kinematic_viscosity(time.value)?
        };
        Ok(PyEstimate::answer(py, answer)?)
    }
    /// Efflux time to expect of a liquid of known kinematic viscosity.
    fn efflux_time(&self, py: Python<'_>, viscosity: Arg<q::KinematicViscosity>) -> CallResult<PyEstimate> {
        Ok(PyEstimate::answer(py, self.0.efflux_time_from(&estimate(&viscosity, "viscosity"))?)?)
    }
    /// Mean of repeat runs: ``cup.time("35.1 s", "34.6 s")``. Two runs more than 5 % apart ask for a third; of three or
    /// more, a run more than 5 % from the middle one is dropped, with a warning.
    #[pyo3(signature = (*runs: "Time | str | Estimate | HasUnits"))]
    fn time(&self, py: Python<'_>, runs: &Bound<'_, PyTuple>) -> CallResult<PyEstimate> {
        let mut times = Vec::with_capacity(runs.len());
        for run in runs.iter() {
            times.push(run.extract::<Arg<q::Time>>()?.value);
        }
        Ok(PyEstimate::answer(py, self.0.time(&times)?)?)
    }
    /// Standard and size, or the name of a home-made cup.
    #[getter]
    fn name(&self) -> String {
        self.0.name()
    }
    /// Name of the standard.
    #[getter]
    fn standard(&self) -> &str {
        self.0.standard_name()
    }
    /// Size within the standard; empty for a home-made cup.
    #[getter]
    fn size(&self) -> &str {
        self.0.size()
    }
    /// "standard", "withdrawn standard", "fit to a published table" or "home-made".
    #[getter]
    fn kind(&self) -> &'static str {
        self.0.kind().words()
    }
    /// Diameter of the hole, where known.
    #[getter]
    fn orifice(&self) -> Option<PyLength> {
        self.0.orifice().map(PyLength)
    }
    /// Temperature at which the liquid is timed; ``None`` for a home-made cup.
    #[getter]
    fn temperature(&self) -> Option<PyTemperature> {
        self.0.temperature().map(PyTemperature)
    }
    /// Times between which the equation holds.
    #[getter]
    fn time_range(&self) -> (PyTime, PyTime) {
        let r = self.0.time_range();
        (PyTime(r.low), PyTime(r.high))
    }
    /// Viscosities the cup is meant for.
    #[getter]
    fn viscosity_range(&self) -> (PyKinematicViscosity, PyKinematicViscosity) {
        let r = self.0.viscosity_range();
        (PyKinematicViscosity(r.low), PyKinematicViscosity(r.high))
    }
    /// Time at which the equation gives zero viscosity; shorter times are refused.
    #[getter]
    fn zero_time(&self) -> PyTime {
        PyTime(self.0.zero_time())
    }
    /// Share of the mean by which two results of one operator may differ, at 95 %.
    #[getter]
    fn repeatability(&self) -> PyRatio {
        PyRatio(self.0.precision().repeatability)
    }
    /// Share of the mean by which results of two laboratories may differ, at 95 %.
    #[getter]
    fn reproducibility(&self) -> PyRatio {
        PyRatio(self.0.precision().reproducibility)
    }
    /// Citation of the equation.
    #[getter]
    fn source(&self) -> String {
        source::cite(self.0.source())
    }
    /// Citation of the precision.
    #[getter]
    fn precision_source(&self) -> String {
        source::cite(&self.0.precision().source)
    }
    /// What else to know about this cup; may be empty.
    #[getter]
    fn note(&self) -> &str {
        self.0.note()
    }
    /// How a home-made cup was calibrated; ``None`` for others.
    #[getter]
    fn calibration(&self) -> Option<PyCalibration> {
        self.0.calibration().cloned().map(PyCalibration)
    }
    fn __hash__(&self) -> u64 {
        use std::hash::{DefaultHasher, Hash, Hasher};
        let mut h = DefaultHasher::new();
        self.0.name().hash(&mut h);
        self.0.zero_time().si().to_bits().hash(&mut h);
        h.finish()
    }
    fn __str__(&self) -> String {
        self.0.name()
    }
    fn __repr__(&self) -> String {
        let in_catalogue = self.0.kind() != Kind::HomeMade
            && FlowCup::standard(self.0.standard_name(), self.0.size()).is_ok_and(|c| c == self.0);
        if !in_catalogue {
            return format!("<FlowCup {} ({})>", self.0.name(), self.0.kind().words());
        }
        format!("FlowCup({:?}, {})", self.0.standard_name(), self.0.size())
    }
}

crate::json::travels!(PyFlowCup, "The cup");

/// The constants of a home-made cup, ``v = K t - B/t``, with their standard errors.
#[pyclass(frozen, eq, name = "Calibration", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyCalibration(Calibration);

#[pymethods]
impl PyCalibration {
    /// Constant K of ``v = K t - B/t``, in mm2/s2.
    #[getter]
    fn k_mm2_s2(&self) -> f64 {
        self.0.k_mm2_s2
    }
    /// Constant B of ``v = K t - B/t``, in mm2.
    #[getter]
    fn b_mm2(&self) -> f64 {
        self.0.b_mm2
    }
    /// Standard error of K in mm2/s2.
    #[getter]
    fn k_std_mm2_s2(&self) -> f64 {
        self.0.k_std_mm2_s2
    }
    /// Standard error of B in mm2.
    #[getter]
    fn b_std_mm2(&self) -> f64 {
        self.0.b_std_mm2
    }
    /// Correlation of the two errors.
    #[getter]
    fn correlation(&self) -> f64 {
        self.0.correlation
    }
    /// Relative residual of each reading: (fit - given)/given.
    #[getter]
    fn residuals(&self) -> Vec<f64> {
        self.0.residuals.clone()
    }
    /// What to mind; empty when there is nothing.
    #[getter]
    fn warnings(&self) -> Vec<String> {
        self.0.warnings.iter().map(|w| w.message.clone()).collect()
    }
    /// The steps of the fit, with formulas, numbers and sources.
    fn working(&self) -> PyWorking {
        PyWorking(self.0.working.clone())
    }
    fn __repr__(&self) -> String {
        let d = |x: f64, n: usize| q::digits(x, n);
        let c = &self.0;
        format!(
            "<Calibration K = {} ± {} mm2/s2, B = {} ± {} mm2>",
            d(c.k_mm2_s2, 4),
            d(c.k_std_mm2_s2, 2),
            d(c.b_mm2, 4),
            d(c.b_std_mm2, 2)
        )
    }
}

crate::json::pickles!(PyCalibration);

/// A liquid of known viscosity at 0 to 60 °C, for calibrating a home-made cup: water, or glycerol with water.
///
/// >>> import mistcoat as mc
/// >>> water = mc.ReferenceLiquid.water()
/// >>> print(f"{water.kinematic_viscosity('20 °C').best:.3f}")
/// 1.003 mm2/s
#[pyclass(frozen, eq, name = "ReferenceLiquid", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyReferenceLiquid(pub ReferenceLiquid);

#[pymethods]
impl PyReferenceLiquid {
    /// Pure water, of known viscosity and density.
    #[staticmethod]
    fn water() -> Self {
        Self(ReferenceLiquid::water())
    }
    /// Glycerol and water, by the share of glycerol in the mass of the mix: ``"60 %"``.
    #[staticmethod]
    fn glycerol_water(glycerol_by_mass: Arg<q::Ratio>) -> CallResult<Self> {
        Ok(Self(ReferenceLiquid::glycerol_water(glycerol_by_mass.value)?))
    }
    /// Share of glycerol in the mass.
    #[getter]
    fn glycerol_by_mass(&self) -> PyRatio {
        PyRatio(self.0.glycerol_by_mass())
    }
    /// Dynamic viscosity with its uncertainty.
    fn viscosity(&self, temperature: Arg<q::Temperature>) -> CallResult<PyEstimate> {
        Ok(PyEstimate::new(self.0.dynamic_viscosity(temperature.value)?))
    }
    /// Kinematic viscosity with its uncertainty.
    fn kinematic_viscosity(&self, temperature: Arg<q::Temperature>) -> CallResult<PyEstimate> {
        Ok(PyEstimate::new(self.0.kinematic_viscosity(temperature.value)?))
    }
    /// Density at a temperature, 0 to 60 °C; ``RangeError`` outside.
    fn density(&self, temperature: Arg<q::Temperature>) -> CallResult<PyDensity> {
        Ok(PyDensity(self.0.density(temperature.value)?))
    }
    /// Citation of the viscosity.
    #[getter]
    fn source(&self) -> String {
        source::cite(self.0.source())
    }
    #[staticmethod]
    fn _from_fraction(fraction: f64) -> CallResult<Self> {
        Ok(Self(ReferenceLiquid::glycerol_water(q::Ratio::from_si(fraction))?))
    }
    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> CallResult<(Bound<'py, PyAny>, (f64,))> {
        let read = slf.as_any().get_type().getattr("_from_fraction")?;
        Ok((read, (slf.get().0.glycerol_by_mass().si(),)))
    }
    fn __hash__(&self) -> u64 {
        self.0.glycerol_by_mass().si().to_bits()
    }
    fn __repr__(&self) -> String {
        if self.0.glycerol_by_mass().si() == 0.0 {
            return "ReferenceLiquid.water()".to_owned();
        }
        format!("ReferenceLiquid.glycerol_water({:?})", show(self.0.glycerol_by_mass()))
    }
    fn __str__(&self) -> String {
        self.0.to_string()
    }
}

/// Standard cups that serve for a viscosity, best first, each with the time to expect; empty when only a home-made cup
/// would do.
#[pyfunction(name = "cups_for")]
#[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
pub fn suggest(viscosity: Arg<q::KinematicViscosity>) -> CallResult<Vec<(PyFlowCup, PyTime)>> {
    Ok(cups_for(viscosity.value)?.into_iter().map(|s| (PyFlowCup(s.cup), PyTime(s.time))).collect())
}

/// Mean of repeat runs in any cup, with the third-run rule of ISO 2431; ``FlowCup.time`` knows the cup's own precision.
#[pyfunction(name = "timing")]
#[pyo3(signature = (*runs: "Time | str | Estimate | HasUnits"))]
pub fn repeat_runs(py: Python<'_>, runs: &Bound<'_, PyTuple>) -> CallResult<PyEstimate> {
    let mut times = Vec::with_capacity(runs.len());
    for run in runs.iter() {
        times.push(run.extract::<Arg<q::Time>>()?.value);
    }
    Ok(PyEstimate::answer(py, timing(&times)?)?)
}

/// Kinematic viscosity in mm2/s from efflux times in s.
#[pyfunction]
#[pyo3(signature = (efflux_s, *, standard, size, errors="nan"))]
#[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
pub fn kinematic_viscosity_mm2_s(
    py: Python<'_>,
    efflux_s: Column<'_>,
    standard: &str,
    size: Size,
    errors: &str,
) -> CallResult<ColumnOut> {
    let on_bad = OnBad::parse(errors)?;
    let cup = FlowCup::find(standard, &size.0)?;
    let equation = cup.equation();
    let zero = equation.zero_time_s();
    let limit = format!("above {} s (where {cup} reads zero viscosity) and finite", q::digits(zero, 3));
    // One closure a form, so that the loop holds no branch on the form.
    match equation {
        Equation::Hyperbolic { a_mm2_s2: a, b_mm2: b } => {
            efflux_s.map(py, on_bad, "efflux_s", &limit, move |t| {
                if t > zero && t < f64::INFINITY { a * t - b / t } else { f64::NAN }
            })
        }
        Equation::Linear { a_mm2_s2: a, zero_s } => efflux_s.map(py, on_bad, "efflux_s", &limit, move |t| {
            if t > zero && t < f64::INFINITY { a * (t - zero_s) } else { f64::NAN }
        }),
        Equation::TwoLines { .. } => efflux_s.map(py, on_bad, "efflux_s", &limit, move |t| {
            if t > zero && t < f64::INFINITY { equation.kinematic_viscosity_mm2_s(t) } else { f64::NAN }
        }),
    }
}

/// Efflux time in s from kinematic viscosities in mm2/s.
#[pyfunction]
#[pyo3(signature = (kinematic_viscosity_mm2_s, *, standard, size, errors="nan"))]
#[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
pub fn efflux_time_s(
    py: Python<'_>,
    kinematic_viscosity_mm2_s: Column<'_>,
    standard: &str,
    size: Size,
    errors: &str,
) -> CallResult<ColumnOut> {
    let on_bad = OnBad::parse(errors)?;
    let equation = FlowCup::find(standard, &size.0)?.equation();
    let limit = "above 0 mm2/s and finite";
    kinematic_viscosity_mm2_s.map(py, on_bad, "kinematic_viscosity_mm2_s", limit, move |nu| {
        if nu > 0.0 && nu < f64::INFINITY { equation.efflux_time_s(nu) } else { f64::NAN }
    })
}
