//! Paints, mixes and the dilution law in Python.

use crate::blend::PyBlend;
use crate::cup::PyFlowCup;
use crate::dose::{Percent, PyDropRecipe, PyDropper, PyThinning, Share, ThinningArg};
use crate::errors::{CallError, CallResult};
use crate::estimate::{PyEstimate, PyWorking, warn_all};
use crate::quantity::{Arg, PyMassConcentration, PyQuantity, PyRatio, PyTemperature, PyVelocity};
use mistcoat::dose::{Densities, Parts, Thinning};
use mistcoat::error::{out_of_range, unknown_name};
use mistcoat::estimate::{Estimate, ModelError};
use mistcoat::paint::{
    DilutionLaw, DilutionReading, Droppers, Family, Measured, Mix, MixDrops, Paint, PaintReading, ShapePrior,
    Viscosity, Voc,
};
use mistcoat::quantity::{self as q, Quantity, VolumeFraction, show};
use pyo3::{
    exceptions::PyTypeError,
    prelude::*,
    types::{PyBool, PyFloat, PyInt, PyString, PyTuple},
};
#[cfg(feature = "stubs")]
use pyo3::{type_hint_identifier, type_hint_union};
use serde::{Deserialize, Serialize};
use std::path::PathBuf;

/// An argument as an estimate; its spread, when it has one, acts as a factor.
fn estimate<Q: PyQuantity>(arg: &Arg<Q>) -> Estimate<Q> {
    if arg.std == 0.0 {
        return Estimate::exact(arg.value);
    }
    Estimate::relative(arg.value, &[ModelError::new("as given", arg.std / arg.value.si().abs())])
}

fn number(ob: &Bound<'_, PyAny>) -> Option<f64> {
    let is_number =
        (ob.is_instance_of::<PyFloat>() || ob.is_instance_of::<PyInt>()) && !ob.is_instance_of::<PyBool>();
    if is_number { ob.extract().ok() } else { None }
}

/// A number of seconds, since the argument is called `seconds`, or a `Time` or text such as `"45 s"`.
struct Seconds(q::Time);

impl<'a, 'py> FromPyObject<'a, 'py> for Seconds {
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const INPUT_TYPE: pyo3::inspect::PyStaticExpr = type_hint_union!(
        type_hint_identifier!("builtins", "float"),
        <Arg<q::Time> as FromPyObject<'a, 'py>>::INPUT_TYPE
    );

    fn extract(ob: Borrowed<'a, 'py, PyAny>) -> PyResult<Self> {
        let seconds = number(&ob).map(q::Time::from_si);
        seconds.map_or_else(|| Ok(Self(ob.extract::<Arg<q::Time>>()?.value)), |t| Ok(Self(t)))
    }
}

/// A dynamic or a kinematic viscosity.
enum AnyViscosity {
    Dynamic(Estimate<q::DynamicViscosity>),
    Kinematic(Estimate<q::KinematicViscosity>),
}

impl<'a, 'py> FromPyObject<'a, 'py> for AnyViscosity {
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const INPUT_TYPE: pyo3::inspect::PyStaticExpr = type_hint_union!(
        <Arg<q::DynamicViscosity> as FromPyObject<'a, 'py>>::INPUT_TYPE,
        <q::KinematicViscosity as PyQuantity>::HINT
    );

    fn extract(ob: Borrowed<'a, 'py, PyAny>) -> PyResult<Self> {
        match ob.extract::<Arg<q::DynamicViscosity>>() {
            Ok(v) => Ok(Self::Dynamic(estimate(&v))),
            // What fits neither is reported as the dynamic viscosity that was most likely meant.
            Err(e) => ob
                .extract::<Arg<q::KinematicViscosity>>()
                .map(|v| Self::Kinematic(estimate(&v)))
                .map_err(|_| e),
        }
    }
}

impl AnyViscosity {
    fn dynamic(self) -> CallResult<Estimate<q::DynamicViscosity>> {
        match self {
            Self::Dynamic(v) => Ok(v),
            Self::Kinematic(v) => Err(mixed(show(v.best), "dynamic", "18 mPa.s")),
        }
    }

    fn kinematic(self) -> CallResult<Estimate<q::KinematicViscosity>> {
        match self {
            Self::Kinematic(v) => Ok(v),
            Self::Dynamic(v) => Err(mixed(show(v.best), "kinematic", "40 mm2/s")),
        }
    }
}

fn mixed(value: String, kind: &str, example: &str) -> CallError {
    out_of_range(
        "viscosity",
        value,
        format!("a {kind} viscosity, as the thinner's"),
        format!("give all viscosities of one law in one kind, for example \"{example}\""),
    )
    .into()
}

#[derive(Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Law {
    Dynamic(DilutionLaw<q::DynamicViscosity>),
    Kinematic(DilutionLaw<q::KinematicViscosity>),
}

/// How viscosity falls with thinner: ``ln(eta/eta_s) = a x / (1 - b x)``, ``x`` the volume of stock paint per
/// volume of mix, ``eta_s`` the viscosity of the thinner.
///
/// Build one with ``DilutionLaw.fit`` from readings, or take that of a paint with ``Paint.law``. Holds alike for
/// dynamic and kinematic viscosity. Measured error: glycerol-water from two readings 3.3 %, a waterborne paint
/// 0.23 s in 20 s of a Ford cup, polymer solutions 24 % rms from one reading and 11 % median from two.
#[pyclass(frozen, eq, name = "DilutionLaw", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyDilutionLaw(Law);

macro_rules! with_law {
    ($law:expr, $l:ident => $body:expr) => {
        match $law {
            Law::Dynamic($l) => $body,
            Law::Kinematic($l) => $body,
        }
    };
}

fn fit<V: Viscosity>(
    readings: Vec<(f64, Estimate<V>)>,
    thinner: &Estimate<V>,
    prior: &ShapePrior,
) -> CallResult<DilutionLaw<V>> {
    let readings = readings
        .into_iter()
        .map(|(x, v)| DilutionReading::new(x, v))
        .collect::<mistcoat::Result<Vec<_>>>()?;
    Ok(DilutionLaw::fit(&readings, thinner, prior)?)
}

#[pymethods]
impl PyDilutionLaw {
    /// Fits the law to ``(paint_fraction, viscosity)`` readings by least squares in ln viscosity.
    ///
    /// ``paint_fraction`` is 1 for the stock paint; one reading is enough, a second between 0.55 and 0.85 fixes the
    /// shape. ``family`` names the paint family whose habit stands in for what the readings leave open; ``None``
    /// takes a wide one. A reading without a spread is given that of a flow cup (5 % at 95 %).
    ///
    /// Raises ``RangeError`` for no reading, a fraction outside (0, 1], a reading at or below the thinner's
    /// viscosity, or a viscosity that rises on adding thinner.
    #[staticmethod]
    #[pyo3(signature = (readings, thinner_viscosity, family=None))]
    fn fit(
        py: Python<'_>,
        readings: Vec<(Share, AnyViscosity)>,
        thinner_viscosity: AnyViscosity,
        family: Option<&str>,
    ) -> CallResult<Self> {
        let prior = match family {
            Some(name) => Family::find(name)?.shape_prior()?.clone(),
            None => ShapePrior::unknown()?,
        };
        let law = match thinner_viscosity {
            AnyViscosity::Dynamic(thinner) => {
                let rows =
                    readings.into_iter().map(|(x, v)| Ok((x.0, v.dynamic()?))).collect::<CallResult<_>>()?;
                Law::Dynamic(fit(rows, &thinner, &prior)?)
            }
            AnyViscosity::Kinematic(thinner) => {
                let rows = readings
                    .into_iter()
                    .map(|(x, v)| Ok((x.0, v.kinematic()?)))
                    .collect::<CallResult<_>>()?;
                Law::Kinematic(fit(rows, &thinner, &prior)?)
            }
        };
        warn_all(py, with_law!(&law, l => l.warnings()))?;
        Ok(Self(law))
    }
    /// Constant ``a`` of the law.
    #[getter]
    fn a(&self) -> f64 {
        with_law!(&self.0, l => l.a())
    }
    /// Shape constant ``b`` of the law: 0 is a straight line in ln viscosity.
    #[getter]
    fn b(&self) -> f64 {
        with_law!(&self.0, l => l.b())
    }
    /// Shape constant ``b`` with its interval.
    #[getter]
    fn shape(&self) -> PyEstimate {
        PyEstimate::new(with_law!(&self.0, l => l.shape()))
    }
    /// Viscosity of the stock paint as the law sees it.
    #[getter]
    fn paint_viscosity(&self) -> PyEstimate {
        with_law!(&self.0, l => PyEstimate::new(l.paint_viscosity()))
    }
    /// Viscosity of the thinner.
    #[getter]
    fn thinner_viscosity(&self) -> PyEstimate {
        with_law!(&self.0, l => PyEstimate::new(l.thinner_viscosity()))
    }
    /// Viscosity of a mix with this volume fraction of stock paint, above 0 up to 1.
    fn viscosity(&self, paint_fraction: Share) -> CallResult<PyEstimate> {
        let x = VolumeFraction::new(paint_fraction.0)?;
        // What there is to mind about the readings was said when the law was fitted.
        Ok(with_law!(&self.0, l => PyEstimate::kept(l.viscosity(x)?)))
    }
    /// Volume fraction of stock paint that gives the wanted viscosity.
    ///
    /// Raises ``RangeError`` at or below the thinner's viscosity and above the paint's.
    fn paint_fraction_for(&self, viscosity: AnyViscosity) -> CallResult<PyEstimate> {
        Ok(PyEstimate::kept(match &self.0 {
            Law::Dynamic(l) => l.paint_fraction_for(viscosity.dynamic()?.best)?,
            Law::Kinematic(l) => l.paint_fraction_for(viscosity.kinematic()?.best)?,
        }))
    }
    /// Thinner to add for the wanted viscosity, as a share of the paint's volume.
    fn thinner_per_paint_for(&self, viscosity: AnyViscosity) -> CallResult<PyRatio> {
        Ok(PyRatio(match &self.0 {
            Law::Dynamic(l) => l.thinner_per_paint_for(viscosity.dynamic()?.best)?,
            Law::Kinematic(l) => l.thinner_per_paint_for(viscosity.kinematic()?.best)?,
        }))
    }
    /// Slope ``d ln(viscosity)/dx``: at 7, one percent more paint makes the mix 7 % thicker.
    fn sensitivity(&self, paint_fraction: Share) -> CallResult<f64> {
        let x = VolumeFraction::new(paint_fraction.0)?;
        Ok(with_law!(&self.0, l => l.sensitivity(x)?.si()))
    }
    /// What to mind about the readings behind the law.
    #[getter]
    fn warnings(&self) -> Vec<String> {
        with_law!(&self.0, l => l.warnings().iter().map(|w| w.message.clone()).collect())
    }
    /// The law as JSON text.
    fn to_json(&self) -> CallResult<String> {
        crate::json::dump(&self.0)
    }
    /// The law from what ``to_json`` wrote.
    #[staticmethod]
    fn from_json(text: &str) -> CallResult<Self> {
        Ok(Self(crate::json::load(text)?))
    }
    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> CallResult<(Bound<'py, PyAny>, (String,))> {
        crate::json::reduce(slf, "from_json", &slf.get().0)
    }
    fn __str__(&self) -> String {
        with_law!(&self.0, l => format!(
            "{} paint in {} thinner, a = {:.4}, b = {:.3}", l.paint_viscosity(), l.thinner_viscosity(), l.a(), l.b()
        ))
    }
    fn __repr__(&self) -> String {
        format!("<DilutionLaw {}>", self.__str__())
    }
}

/// A paint as it comes in the bottle.
///
/// ``Paint.typical(family, name)`` knows only the family and fills in typical values, marked as common practice, with
/// their wide range; ``Paint.load(path)`` reads a paint file; ``calibrated(readings)`` makes it your own bottle.
/// Families: waterborne acrylic, alcohol acrylic, solvent lacquer, alkyd enamel, artists' oil.
#[pyclass(frozen, eq, name = "Paint", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyPaint(pub Paint);

fn at_20c() -> q::Temperature {
    q::Temperature::from_si(293.15)
}

fn or_20c(t: Option<Arg<q::Temperature>>) -> q::Temperature {
    t.map_or_else(at_20c, |t| t.value)
}

/// One reading: ``(paint_fraction, viscosity, temperature)`` or ``(paint_fraction, cup, time, temperature)``.
struct Reading(PaintReading);

impl<'a, 'py> FromPyObject<'a, 'py> for Reading {
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const INPUT_TYPE: pyo3::inspect::PyStaticExpr = type_hint_union!(
        <(Share, AnyViscosity, Arg<q::Temperature>) as FromPyObject<'a, 'py>>::INPUT_TYPE,
        <(Share, PyRef<'py, PyFlowCup>, Arg<q::Time>, Arg<q::Temperature>) as FromPyObject<'a, 'py>>::INPUT_TYPE
    );

    fn extract(ob: Borrowed<'a, 'py, PyAny>) -> PyResult<Self> {
        let form = "a reading is (paint_fraction, viscosity, temperature) or (paint_fraction, cup, time, \
                    temperature), for example (1.0, \"135 mPa.s\", \"20 degC\")";
        let wrong = || PyTypeError::new_err(form);
        let tuple = ob.cast::<PyTuple>().map_err(|_| wrong())?;
        let x = tuple.get_item(0).map_err(|_| wrong())?.extract::<Share>()?.0;
        let temperature = |i: usize| -> PyResult<q::Temperature> {
            Ok(tuple.get_item(i)?.extract::<Arg<q::Temperature>>()?.value)
        };
        Ok(Self(match tuple.len() {
            3 => {
                let measured = match tuple.get_item(1)?.extract::<AnyViscosity>()? {
                    AnyViscosity::Dynamic(v) => Measured::Viscosity(v),
                    AnyViscosity::Kinematic(v) => Measured::KinematicViscosity(v),
                };
                PaintReading { paint_fraction: q::Ratio::from_si(x), temperature: temperature(2)?, measured }
            }
            4 => {
                let cup = tuple.get_item(1)?;
                let cup = cup.cast::<PyFlowCup>().map_err(|_| wrong())?.get();
                let time = tuple.get_item(2)?.extract::<Arg<q::Time>>()?;
                PaintReading::cup_time(x, &cup.0, estimate(&time), temperature(3)?)
            }
            _ => return Err(wrong()),
        }))
    }
}

/// The one way in which a thinning was stated.
struct Wording<'py> {
    ratio: Option<Bound<'py, PyAny>>,
    thinner: Option<f64>,
    paint: Option<f64>,
    percent_of_paint: Option<Percent>,
    percent_of_mix: Option<Percent>,
    by: &'py str,
}

impl Wording<'_> {
    fn thinning(self, stock: &Paint, blend: &PyBlend) -> CallResult<Thinning> {
        let by_mass = match self.by {
            "volume" => false,
            "mass" => true,
            other => {
                return Err(
                    unknown_name("basis", other, ["volume", "mass"], "by is \"volume\" or \"mass\"").into()
                );
            }
        };
        let ways = usize::from(self.ratio.is_some())
            + usize::from(self.thinner.is_some() || self.paint.is_some())
            + usize::from(self.percent_of_paint.is_some())
            + usize::from(self.percent_of_mix.is_some());
        if ways != 1 {
            return Err(out_of_range(
                "ways in which the thinning is stated",
                ways.to_string(),
                "exactly 1",
                "write thinner=2, paint=1, or percent_of_paint=20, or percent_of_mix=50",
            )
            .into());
        }
        let densities =
            Densities { thinner: blend.0.density(at_20c())?.best(), paint: stock.density_at_20c().best };
        if let Some(ratio) = self.ratio {
            return named_ratio(&ratio, by_mass);
        }
        Ok(if let Some(Percent(p)) = self.percent_of_paint {
            if by_mass {
                Thinning::from_percent_of_paint_by_mass(p, densities)?
            } else {
                Thinning::from_percent_of_paint(p)?
            }
        } else if let Some(Percent(p)) = self.percent_of_mix {
            if by_mass {
                Thinning::from_percent_of_mix_by_mass(p, densities)?
            } else {
                Thinning::from_percent_of_mix(p)?
            }
        } else {
            let (Some(thinner), Some(paint)) = (self.thinner, self.paint) else {
                let (given, value, missing) =
                    self.thinner.map_or(("paint", self.paint, "thinner"), |t| ("thinner", Some(t), "paint"));
                return Err(out_of_range(
                    "parts of the mix",
                    format!("{given}={}", value.unwrap_or(f64::NAN)),
                    "both parts named",
                    format!("say how much {missing} goes with it, for example thinner=2, paint=1"),
                )
                .into());
            };
            let parts = Parts { thinner, paint };
            if by_mass {
                Thinning::from_parts_by_mass(parts, densities)?
            } else {
                Thinning::from_parts(parts)?
            }
        })
    }
}

/// A thinning given by position: an object, or text that names its parts; a bare number is refused that show both readings.
fn named_ratio(ratio: &Bound<'_, PyAny>, by_mass: bool) -> CallResult<Thinning> {
    if ratio.is_instance_of::<PyString>() || ratio.is_instance_of::<PyThinning>() {
        if by_mass {
            return Err(out_of_range(
                "by",
                "\"mass\" beside a thinning in words",
                "by=\"volume\", which words and Thinning objects count in",
                "write thinner=2, paint=1, by=\"mass\"",
            )
            .into());
        }
        return Ok(ratio.extract::<ThinningArg>()?.0);
    }
    let got = ratio.repr()?.to_string();
    Err(out_of_range(
        "ratio",
        got.clone(),
        "thinner and paint each by name, since it reads both ways",
        format!(
            "write thinner={got}, paint=1 ({got} parts thinner to 1 part paint) or thinner=1, paint={got} (1 part \
             thinner to {got} parts paint)"
        ),
    )
    .into())
}

#[pymethods]
impl PyPaint {
    /// A paint of which only the family is known: typical values, common practice.
    ///
    /// Label words such as "nitrocellulose lacquer" or "enamel" are understood. Raises ``UnknownName`` with near names.
    #[staticmethod]
    #[pyo3(signature = (family, name=None))]
    fn typical(family: &str, name: Option<&str>) -> CallResult<Self> {
        let family = Family::find(family)?;
        Ok(Self(Paint::typical(family, name.unwrap_or_else(|| family.name()))?))
    }
    /// Reads a paint file (TOML). Raises ``DataError`` with file, line and field.
    #[staticmethod]
    fn load(path: PathBuf) -> CallResult<Self> {
        Ok(Self(Paint::load(path)?))
    }
    /// Writes a paint file, replacing one that is there; typical values are left out.
    fn save(&self, path: PathBuf) -> CallResult<()> {
        Ok(self.0.save(path)?)
    }
    /// Reads a paint from the text of a paint file.
    #[staticmethod]
    fn from_toml(text: &str) -> CallResult<Self> {
        Ok(Self(Paint::from_toml(text, "paint text")?))
    }
    /// The paint as the text of a paint file.
    fn to_toml(&self) -> CallResult<String> {
        Ok(self.0.to_toml()?)
    }
    /// The families.
    #[staticmethod]
    fn families() -> Vec<&'static str> {
        Family::ALL.iter().map(|f| f.name()).collect()
    }
    /// Name of the paint.
    #[getter]
    fn name(&self) -> &str {
        self.0.name()
    }
    /// Family of the paint.
    #[getter]
    fn family(&self) -> &'static str {
        self.0.family().name()
    }
    /// Remark in the paint file, or ``None``.
    #[getter]
    fn note(&self) -> Option<&str> {
        self.0.note()
    }
    /// Volume of dry film per volume of wet paint.
    #[getter]
    fn volume_solids(&self) -> PyEstimate {
        PyEstimate::new(self.0.volume_solids().clone())
    }
    /// Viscosity of the stock paint at ``stock_temperature``.
    #[getter]
    fn stock_viscosity(&self) -> PyEstimate {
        PyEstimate::new(self.0.stock_viscosity().clone())
    }
    /// Temperature of ``stock_viscosity``.
    #[getter]
    fn stock_temperature(&self) -> PyTemperature {
        PyTemperature(self.0.stock_temperature())
    }
    /// Glass transition temperature of the dry binder.
    #[getter]
    fn binder_tg(&self) -> PyEstimate {
        PyEstimate::new(self.0.binder_tg().clone())
    }
    /// Surface tension near 20 °C.
    #[getter]
    fn surface_tension(&self) -> PyEstimate {
        PyEstimate::new(self.0.surface_tension().clone())
    }
    /// Density of the pigment.
    #[getter]
    fn pigment_density(&self) -> PyEstimate {
        PyEstimate::new(self.0.pigment().density.clone())
    }
    /// Diameter of the pigment as it floats.
    #[getter]
    fn pigment_diameter(&self) -> PyEstimate {
        PyEstimate::new(self.0.pigment().diameter.clone())
    }
    /// Volume of pigment per volume of dry film (PVC).
    #[getter]
    fn pigment_volume_concentration(&self) -> PyEstimate {
        PyEstimate::new(self.0.pigment().volume_concentration.clone())
    }
    /// The volatile part of the paint.
    #[getter]
    fn carrier(&self) -> PyBlend {
        PyBlend(self.0.carrier().clone())
    }
    /// Fields that nobody gave and the family filled in with typical values.
    #[getter]
    fn typical_fields(&self) -> Vec<&'static str> {
        self.0.typical_fields().to_vec()
    }
    /// What is expected of its thinning: the shape ``b`` of the dilution law in words.
    #[getter]
    fn shape(&self) -> String {
        self.0.shape().to_string()
    }
    /// Viscosity of the stock paint at a temperature, 0 to 50 °C.
    fn viscosity(&self, temperature: Arg<q::Temperature>) -> CallResult<PyEstimate> {
        Ok(PyEstimate::new(self.0.viscosity(temperature.value)?))
    }
    /// Density at a temperature, 20 °C unless given.
    #[pyo3(signature = (temperature=None))]
    fn density(&self, temperature: Option<Arg<q::Temperature>>) -> CallResult<PyEstimate> {
        Ok(PyEstimate::new(self.0.density(or_20c(temperature))?))
    }
    /// This paint with viscosity and shape from readings.
    ///
    /// Each reading is ``(paint_fraction, viscosity, temperature)`` or ``(paint_fraction, cup, time, temperature)``;
    /// the fraction is 1 for the stock paint. ``thinner`` is what the thinned readings were thinned with, the paint's
    /// own carrier unless given. Stock readings at two temperatures 3 K or more apart also fix how it changes with
    /// temperature.
    #[pyo3(signature = (readings, thinner=None))]
    fn calibrated(
        &self,
        py: Python<'_>,
        readings: Vec<Reading>,
        thinner: Option<&PyBlend>,
    ) -> CallResult<Self> {
        let readings: Vec<PaintReading> = readings.into_iter().map(|r| r.0).collect();
        let thinner = thinner.map_or_else(|| self.0.carrier(), |b| &b.0);
        let calibrated = self.0.calibrated(thinner, &readings)?;
        warn_all(py, &calibrated.warnings)?;
        Ok(Self(calibrated.paint))
    }
    /// The dilution law of this paint with a thinner at a temperature.
    fn law(&self, thinner: &PyBlend, temperature: Arg<q::Temperature>) -> CallResult<PyDilutionLaw> {
        Ok(PyDilutionLaw(Law::Dynamic(self.0.law(&thinner.0, temperature.value)?)))
    }
    /// Thins the paint: ``p.thin(b, thinner=2, paint=1)``, ``percent_of_paint=20`` (of the paint's volume),
    /// ``percent_of_mix=50``; with ``by="mass"`` the same by weight. Text must name its parts: "2 parts thinner to
    /// 1 part paint".
    ///
    /// Raises ``RangeError`` for a bare ratio, which reads both ways, and ``PhaseSplit`` when carrier and thinner do
    /// not stay one liquid at 20 °C.
    #[pyo3(signature = (blend, ratio=None, /, *, thinner=None, paint=None, percent_of_paint=None, percent_of_mix=None, by="volume"))]
    #[allow(clippy::too_many_arguments, reason = "keyword arguments of one question")]
    fn thin<'py>(
        &self,
        py: Python<'py>,
        blend: &PyBlend,
        ratio: Option<Bound<'py, PyAny>>,
        thinner: Option<f64>,
        paint: Option<f64>,
        percent_of_paint: Option<Percent>,
        percent_of_mix: Option<Percent>,
        by: &str,
    ) -> CallResult<PyMix> {
        let wording = Wording { ratio, thinner, paint, percent_of_paint, percent_of_mix, by };
        let mix = self.0.thin(&blend.0, wording.thinning(&self.0, blend)?)?;
        warn_all(py, &mix.compatibility())?;
        Ok(PyMix(mix))
    }
    /// Thins the paint to a ``viscosity``, or to ``seconds`` in a ``cup``, at a temperature.
    ///
    /// Raises ``RangeError`` for a target the thinner cannot give.
    #[pyo3(signature = (blend, /, *, temperature, viscosity=None, seconds=None, cup=None))]
    fn thin_to(
        &self,
        py: Python<'_>,
        blend: &PyBlend,
        temperature: Arg<q::Temperature>,
        viscosity: Option<Arg<q::DynamicViscosity>>,
        seconds: Option<Seconds>,
        cup: Option<&PyFlowCup>,
    ) -> CallResult<PyMix> {
        let mix = match (viscosity, seconds, cup) {
            (Some(v), None, None) => self.0.thin_to(&blend.0, v.value, temperature.value)?,
            (None, Some(t), Some(cup)) => self.0.thin_to_time(&blend.0, t.0, &cup.0, temperature.value)?,
            (v, s, c) => {
                let given: Vec<&str> =
                    [("viscosity", v.is_some()), ("seconds", s.is_some()), ("cup", c.is_some())]
                        .iter()
                        .filter(|(_, is)| *is)
                        .map(|(name, _)| *name)
                        .collect();
                return Err(out_of_range(
                    "target of the thinning",
                    if given.is_empty() { "missing".to_owned() } else { given.join(" and ") },
                    "either viscosity, or seconds together with cup",
                    "write viscosity=\"18 mPa.s\", or seconds=\"45 s\", cup=FlowCup(\"ISO 2431\", 3)",
                )
                .into());
            }
        };
        warn_all(py, &mix.compatibility())?;
        Ok(PyMix(mix))
    }
    /// The paint as JSON text.
    fn to_json(&self) -> CallResult<String> {
        crate::json::dump(&self.0)
    }
    /// The paint from what ``to_json`` wrote.
    #[staticmethod]
    fn from_json(text: &str) -> CallResult<Self> {
        Ok(Self(crate::json::load(text)?))
    }
    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> CallResult<(Bound<'py, PyAny>, (String,))> {
        crate::json::reduce(slf, "from_json", &slf.get().0)
    }
    fn __str__(&self) -> String {
        format!(
            "{} ({}), {} solids by volume",
            self.0.name(),
            self.0.family(),
            show(self.0.volume_solids().best)
        )
    }
    fn __repr__(&self, py: Python<'_>) -> CallResult<String> {
        Ok(format!("Paint.from_json({})", PyString::new(py, &crate::json::dump(&self.0)?).repr()?))
    }
}

/// A paint thinned to a stated degree.
///
/// Made by ``Paint.thin`` and ``Paint.thin_to``; answers for viscosity, seconds in a cup, solids, film build, VOC,
/// drops and settling. Volumes are measured at 20 °C and taken to add.
#[pyclass(frozen, eq, name = "Mix", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyMix(pub Mix);

#[pymethods]
impl PyMix {
    /// The paint.
    #[getter]
    fn paint(&self) -> PyPaint {
        PyPaint(self.0.paint().clone())
    }
    /// The thinner.
    #[getter]
    fn thinner(&self) -> PyBlend {
        PyBlend(self.0.thinner().clone())
    }
    /// Volume of stock paint per volume of mix, 0 to 1.
    #[getter]
    fn paint_fraction(&self) -> f64 {
        self.0.paint_fraction().get()
    }
    /// How far the paint is thinned.
    #[getter]
    fn thinning(&self) -> PyThinning {
        PyThinning(self.0.thinning())
    }
    /// Parts of thinner to one part of paint, by volume.
    #[getter]
    fn thinner_per_paint(&self) -> f64 {
        self.0.thinning().thinner_per_paint()
    }
    /// Volume of dry film per volume of mix.
    #[getter]
    fn volume_solids(&self) -> PyEstimate {
        PyEstimate::new(self.0.volume_solids())
    }
    /// All that evaporates: carrier and thinner together.
    #[getter]
    fn volatile(&self) -> CallResult<PyBlend> {
        Ok(PyBlend(self.0.volatile()?))
    }
    /// What is known to go wrong between this family and this thinner; empty when nothing is.
    #[getter]
    fn compatibility(&self) -> Vec<String> {
        self.0.compatibility().into_iter().map(|w| w.message).collect()
    }
    /// Dynamic viscosity at a temperature, 0 to 50 °C.
    fn viscosity(&self, py: Python<'_>, temperature: Arg<q::Temperature>) -> CallResult<PyEstimate> {
        Ok(PyEstimate::answer(py, self.0.viscosity(temperature.value)?)?)
    }
    /// Kinematic viscosity at a temperature, 0 to 50 °C.
    fn kinematic_viscosity(
        &self,
        py: Python<'_>,
        temperature: Arg<q::Temperature>,
    ) -> CallResult<PyEstimate> {
        Ok(PyEstimate::answer(py, self.0.kinematic_viscosity(temperature.value)?)?)
    }
    /// Seconds to expect in a flow cup; warns and names cups that serve when the mix is too thin for this one.
    fn efflux_time(
        &self,
        py: Python<'_>,
        cup: &PyFlowCup,
        temperature: Arg<q::Temperature>,
    ) -> CallResult<PyEstimate> {
        Ok(PyEstimate::answer(py, self.0.efflux_time(&cup.0, temperature.value)?)?)
    }
    /// Density at a temperature, 20 °C unless given.
    #[pyo3(signature = (temperature=None))]
    fn density(&self, temperature: Option<Arg<q::Temperature>>) -> CallResult<PyEstimate> {
        Ok(PyEstimate::new(self.0.density(or_20c(temperature))?))
    }
    /// Volatile organic content: total, and less water and exempt solvents.
    fn voc(&self) -> CallResult<PyVoc> {
        Ok(PyVoc(self.0.voc()?))
    }
    /// Whole drops of paint and thinner for this mix, near ``total`` when given.
    ///
    /// ``dropper`` serves both liquids unless ``thinner_dropper`` is given. The drop of each liquid is its own.
    #[pyo3(signature = (*, dropper, total=None, thinner_dropper=None, temperature=None))]
    fn drops(
        &self,
        py: Python<'_>,
        dropper: &PyDropper,
        total: Option<Arg<q::Volume>>,
        thinner_dropper: Option<&PyDropper>,
        temperature: Option<Arg<q::Temperature>>,
    ) -> CallResult<PyMixDrops> {
        let droppers = Droppers { paint: &dropper.0, thinner: thinner_dropper.map_or(&dropper.0, |d| &d.0) };
        let drops = self.0.drops(total.map(|t| t.value), droppers, or_20c(temperature))?;
        warn_all(py, &drops.warnings)?;
        Ok(PyMixDrops(drops))
    }
    /// Dry film that a wet film of this mix leaves.
    fn dry_film(&self, wet: Arg<q::Length>) -> CallResult<PyEstimate> {
        Ok(PyEstimate::new(self.0.dry_film(wet.value)?))
    }
    /// Wet film of this mix that leaves the wanted dry film.
    fn wet_film(&self, dry: Arg<q::Length>) -> CallResult<PyEstimate> {
        Ok(PyEstimate::new(self.0.wet_film(dry.value)?))
    }
    /// Time until the top ``depth`` of the cup is clear of pigment: stir well before.
    fn settling_time(
        &self,
        py: Python<'_>,
        depth: Arg<q::Length>,
        temperature: Arg<q::Temperature>,
    ) -> CallResult<PyEstimate> {
        Ok(PyEstimate::answer(py, self.0.settling(depth.value, temperature.value)?.time)?)
    }
    /// Speed at which the pigment sinks.
    fn settling_velocity(&self, temperature: Arg<q::Temperature>) -> CallResult<PyVelocity> {
        let depth = q::Length::from_si(1e-3); // any depth: the speed does not depend on it
        Ok(PyVelocity(self.0.settling(depth, temperature.value)?.velocity.best()))
    }
    /// What is in the mix, step by step.
    fn working(&self) -> PyWorking {
        PyWorking(self.0.working())
    }
    /// The mix as JSON text.
    fn to_json(&self) -> CallResult<String> {
        crate::json::dump(&self.0)
    }
    /// The mix from what ``to_json`` wrote.
    #[staticmethod]
    fn from_json(text: &str) -> CallResult<Self> {
        Ok(Self(crate::json::load(text)?))
    }
    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> CallResult<(Bound<'py, PyAny>, (String,))> {
        crate::json::reduce(slf, "from_json", &slf.get().0)
    }
    fn __str__(&self) -> String {
        format!("{}, {}", self.0.paint().name(), self.0.thinning())
    }
    fn __repr__(&self, py: Python<'_>) -> CallResult<String> {
        Ok(format!("Mix.from_json({})", PyString::new(py, &crate::json::dump(&self.0)?).repr()?))
    }
}

/// Volatile organic content of a mix.
#[pyclass(frozen, eq, name = "Voc", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyVoc(pub Voc);

#[pymethods]
impl PyVoc {
    /// Organic volatiles per volume of the mix.
    #[getter]
    fn total(&self) -> PyMassConcentration {
        PyMassConcentration(self.0.total)
    }
    /// Organic volatiles per volume less water and exempt solvents, the figure most rules limit.
    #[getter]
    fn less_water_and_exempt(&self) -> PyMassConcentration {
        PyMassConcentration(self.0.less_water_and_exempt)
    }
    /// The steps.
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

/// A mix in whole drops: ``recipes``, best first, and the drop of each liquid.
#[pyclass(frozen, eq, name = "MixDrops", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyMixDrops(pub MixDrops);

impl PyMixDrops {
    fn best(&self) -> CallResult<&mistcoat::dose::DropRecipe> {
        self.0
            .recipes
            .first()
            .ok_or_else(|| out_of_range("recipes", "0", "at least 1", "ask for another amount of mix").into())
    }
}

#[pymethods]
impl PyMixDrops {
    /// Recipes, best first.
    #[getter]
    fn recipes(&self) -> Vec<PyDropRecipe> {
        self.0.recipes.iter().cloned().map(PyDropRecipe).collect()
    }
    /// Drops of stock paint in the best recipe.
    #[getter]
    fn paint_drops(&self) -> CallResult<u32> {
        Ok(self.best()?.paint_drops)
    }
    /// Drops of thinner in the best recipe.
    #[getter]
    fn thinner_drops(&self) -> CallResult<u32> {
        Ok(self.best()?.thinner_drops)
    }
    /// Volume of one drop of paint.
    #[getter]
    fn paint_drop(&self) -> PyEstimate {
        PyEstimate::new(self.0.drops.paint.clone())
    }
    /// Volume of one drop of thinner.
    #[getter]
    fn thinner_drop(&self) -> PyEstimate {
        PyEstimate::new(self.0.drops.thinner.clone())
    }
    /// What to mind; empty when there is nothing.
    #[getter]
    fn warnings(&self) -> Vec<String> {
        self.0.warnings.iter().map(|w| w.message.clone()).collect()
    }
    /// The steps.
    fn working(&self) -> PyWorking {
        PyWorking(self.0.working.clone())
    }
    fn __str__(&self) -> CallResult<String> {
        Ok(self.best()?.to_string())
    }
    fn __repr__(&self) -> CallResult<String> {
        Ok(format!("<MixDrops {}>", self.__str__()?))
    }
}
