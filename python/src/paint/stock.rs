//! `Paint`: what is in the bottle.

use super::arguments::{Reading, Seconds, or_20c};
use super::law::PyDilutionLaw;
use super::mix::PyMix;
use super::wording::Wording;
use crate::blend::{Liquid, PyBlend};
use crate::cup::PyFlowCup;
use crate::dose::Percent;
use crate::errors::CallResult;
use crate::estimate::{PyEstimate, warn_all};
use crate::quantity::{Arg, PyTemperature};
use mistcoat::error::out_of_range;
use mistcoat::paint::{Family, Paint, PaintReading};
use mistcoat::quantity::{self as q, show};
use pyo3::prelude::*;
use std::path::PathBuf;

/// A paint as it comes in the bottle.
///
/// ``Paint.typical(family, name)`` knows only the family and fills in typical values, marked as common practice, with
/// their wide range; ``Paint.load(path)`` reads a paint file; ``calibrated(readings)`` makes it your own bottle.
/// Families: waterborne acrylic, alcohol acrylic, solvent lacquer, alkyd enamel, artists' oil. Liquid paint is
/// followed from 0 to 50 °C.
///
/// >>> import mistcoat as mc
/// >>> green = mc.Paint.typical("solvent lacquer", name="hull green")
/// >>> print(green.volume_solids)
/// 22 % (15 % to 30 %)
/// >>> thinner = mc.Blend({"acetone": 50, "n-butyl acetate": 35, "2-butoxyethanol": 15}, basis="mass")
/// >>> own = green.calibrated([(1, "135 mPa.s", "20 degC"), (0.7, "40 mPa.s", "20 degC")], thinner=thinner)
/// >>> mix = own.thin(thinner, thinner=1, paint=1)
/// >>> print(mix.viscosity("20 degC").best)
/// 15.3 mPa.s
#[pyclass(frozen, eq, name = "Paint", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyPaint(pub Paint);

#[pymethods]
impl PyPaint {
    /// A paint of which only the family is known: typical values, common practice, with their wide range.
    ///
    /// Label words such as "nitrocellulose lacquer" or "enamel" are understood. ``name`` is the family's unless given.
    /// Raises ``UnknownName`` with near names for the family, ``RangeError`` for an empty name.
    #[staticmethod]
    #[pyo3(signature = (family, name=None))]
    fn typical(family: &str, name: Option<&str>) -> CallResult<Self> {
        let family = Family::find(family)?;
        Ok(Self(Paint::typical(family, name.unwrap_or_else(|| family.name()))?))
    }
    /// Reads a paint file (TOML), in which every value has its unit; what it leaves out takes the typical value of the
    /// family. Raises ``DataError`` with file, line and field.
    #[staticmethod]
    fn load(path: PathBuf) -> CallResult<Self> {
        Ok(Self(Paint::load(path)?))
    }
    /// Writes a paint file (TOML), replacing one that is there; typical values are left out. Raises ``DataError`` when
    /// the file cannot be written.
    fn save(&self, path: PathBuf) -> CallResult<()> {
        Ok(self.0.save(path)?)
    }
    /// Reads a paint from the text of a paint file. Raises ``DataError`` with line and field.
    #[staticmethod]
    fn from_toml(text: &str) -> CallResult<Self> {
        Ok(Self(Paint::from_toml(text, "paint text")?))
    }
    /// The paint as the text of a paint file; typical values are left out.
    fn to_toml(&self) -> CallResult<String> {
        Ok(self.0.to_toml()?)
    }
    /// Names of the paint families, as ``typical`` and ``DilutionLaw.fit`` take them.
    #[staticmethod]
    fn families() -> Vec<&'static str> {
        Family::ALL.iter().map(|f| f.name()).collect()
    }
    /// Name of the paint, as given or read from its file.
    #[getter]
    fn name(&self) -> &str {
        self.0.name()
    }
    /// Name of the paint's family, one of ``families()``.
    #[getter]
    fn family(&self) -> &'static str {
        self.0.family().name()
    }
    /// Remark in the paint file, or ``None`` when there is none.
    #[getter]
    fn note(&self) -> Option<&str> {
        self.0.note()
    }
    /// Volume of dry film per volume of wet paint, 0 to 1, with its interval.
    #[getter]
    fn volume_solids(&self) -> PyEstimate {
        PyEstimate::new(self.0.volume_solids().clone())
    }
    /// Dynamic viscosity of the undiluted paint at ``stock_temperature``, with its interval.
    #[getter]
    fn stock_viscosity(&self) -> PyEstimate {
        PyEstimate::new(self.0.stock_viscosity().clone())
    }
    /// Temperature at which ``stock_viscosity`` holds.
    #[getter]
    fn stock_temperature(&self) -> PyTemperature {
        PyTemperature(self.0.stock_temperature())
    }
    /// Glass transition temperature of the dry binder, with its interval.
    #[getter]
    fn binder_tg(&self) -> PyEstimate {
        PyEstimate::new(self.0.binder_tg().clone())
    }
    /// Surface tension of the paint near 20 °C, with its interval.
    #[getter]
    fn surface_tension(&self) -> PyEstimate {
        PyEstimate::new(self.0.surface_tension().clone())
    }
    /// Density of the pigment grains themselves, with its interval.
    #[getter]
    fn pigment_density(&self) -> PyEstimate {
        PyEstimate::new(self.0.pigment().density.clone())
    }
    /// Diameter of the pigment grains as they float, clumps counting as grains, with its interval.
    #[getter]
    fn pigment_diameter(&self) -> PyEstimate {
        PyEstimate::new(self.0.pigment().diameter.clone())
    }
    /// Volume of pigment per volume of dry film (PVC), 0 to 1, with its interval.
    #[getter]
    fn pigment_volume_concentration(&self) -> PyEstimate {
        PyEstimate::new(self.0.pigment().volume_concentration.clone())
    }
    /// The volatile part of the paint, which thins and then leaves, as a ``Blend``.
    #[getter]
    fn carrier(&self) -> PyBlend {
        PyBlend(self.0.carrier().clone())
    }
    /// Names of the fields that nobody gave and the family filled in with typical values.
    #[getter]
    fn typical_fields(&self) -> Vec<&'static str> {
        self.0.typical_fields().to_vec()
    }
    /// What is expected of its thinning: the shape ``b`` of the dilution law in words, and whose habit it is.
    #[getter]
    fn shape(&self) -> String {
        self.0.shape().to_string()
    }
    /// Dynamic viscosity of the undiluted paint at a temperature, with its interval.
    ///
    /// ``temperature`` is 0 to 50 °C; ``RangeError`` outside.
    fn viscosity(&self, temperature: Arg<q::Temperature>) -> CallResult<PyEstimate> {
        Ok(PyEstimate::new(self.0.viscosity(temperature.value)?))
    }
    /// Density at a temperature, with its interval; the carrier expands, the solids are taken not to.
    ///
    /// ``temperature`` is 0 to 50 °C, 20 °C unless given; ``RangeError`` outside.
    #[pyo3(signature = (temperature=None))]
    fn density(&self, temperature: Option<Arg<q::Temperature>>) -> CallResult<PyEstimate> {
        Ok(PyEstimate::new(self.0.density(or_20c(temperature))?))
    }
    /// This paint with viscosity and dilution shape from readings.
    ///
    /// Each reading is ``(paint_fraction, viscosity, temperature)`` or ``(paint_fraction, cup, time, temperature)``;
    /// the fraction, above 0 up to 1, is 1 for the stock paint, the viscosity dynamic or kinematic, the temperature 0
    /// to 50 °C. ``thinner`` is what the thinned readings were thinned with, the paint's own carrier unless given.
    /// Stock readings at two temperatures 3 K or more apart also fix how it changes with temperature.
    ///
    /// Raises ``RangeError`` for no reading, values outside these limits, a time the cup cannot give, or readings that
    /// fit no dilution law; ``TypeError`` for a reading of another form.
    #[pyo3(signature = (readings, thinner=None))]
    #[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
    fn calibrated(
        &self,
        py: Python<'_>,
        readings: Vec<Reading>,
        thinner: Option<Liquid>,
    ) -> CallResult<Self> {
        let readings: Vec<PaintReading> = readings.into_iter().map(|r| r.0).collect();
        let thinner = thinner.as_ref().map_or_else(|| self.0.carrier(), |b| &b.0);
        let calibrated = self.0.calibrated(thinner, &readings)?;
        warn_all(py, &calibrated.warnings)?;
        Ok(Self(calibrated.paint))
    }
    /// The dilution law of this paint with a thinner at a temperature, in dynamic viscosity.
    ///
    /// ``temperature`` is 0 to 50 °C; ``RangeError`` outside, or for a thinner thicker than the paint.
    #[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
    fn law(&self, thinner: Liquid, temperature: Arg<q::Temperature>) -> CallResult<PyDilutionLaw> {
        Ok(self.0.law(&thinner.0, temperature.value)?.into())
    }
    /// Thins the paint: ``p.thin(b, thinner=2, paint=1)``, ``percent_of_paint=20`` (of the paint's volume),
    /// ``percent_of_mix=50``; with ``by="mass"`` the same by weight. Text must name its parts: "2 parts thinner to
    /// 1 part paint".
    ///
    /// What it is thinned with is a ``Blend``, a ``Solvent`` or the name of one: ``p.thin("white spirit", ...)``.
    /// State the thinning in exactly one way. Parts are 0 or above with paint in the mix, ``percent_of_mix`` 0 to below
    /// 100. Volumes are measured at 20 °C.
    ///
    /// Raises ``RangeError`` for a bare ratio, which reads both ways, or a value outside, ``UnknownName`` for another
    /// ``by``, and ``PhaseSplit`` when carrier and thinner do not stay one liquid at 20 °C.
    #[pyo3(signature = (blend, ratio=None, /, *, thinner=None, paint=None, percent_of_paint=None, percent_of_mix=None, by="volume"))]
    #[allow(
        clippy::too_many_arguments,
        clippy::needless_pass_by_value,
        reason = "keyword arguments of one question"
    )]
    fn thin<'py>(
        &self,
        py: Python<'py>,
        blend: Liquid,
        ratio: Option<Bound<'py, PyAny>>,
        thinner: Option<f64>,
        paint: Option<f64>,
        percent_of_paint: Option<Percent>,
        percent_of_mix: Option<Percent>,
        by: &str,
    ) -> CallResult<PyMix> {
        let wording = Wording { ratio, thinner, paint, percent_of_paint, percent_of_mix, by };
        let mix = self.0.thin(&blend.0, wording.thinning(&self.0, &blend.0)?)?;
        warn_all(py, &mix.compatibility())?;
        Ok(PyMix(mix))
    }
    /// Thins the paint to a dynamic ``viscosity``, or to ``seconds`` in a ``cup``, at a temperature.
    ///
    /// Give either ``viscosity``, above the thinner's and up to the paint's, or ``seconds`` (a number, or ``"45 s"``)
    /// with ``cup``; ``temperature`` is 0 to 50 °C. Raises ``RangeError`` for both or neither, a target that the
    /// thinner or the cup cannot give, or a temperature outside, and ``PhaseSplit`` when carrier and thinner do not
    /// stay one liquid.
    #[pyo3(signature = (blend, /, *, temperature, viscosity=None, seconds=None, cup=None))]
    #[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
    fn thin_to(
        &self,
        py: Python<'_>,
        blend: Liquid,
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
    fn __str__(&self) -> String {
        format!(
            "{} ({}), {} solids by volume",
            self.0.name(),
            self.0.family(),
            show(self.0.volume_solids().best)
        )
    }
}

crate::json::travels!(PyPaint, "The paint", evaluates);
