//! `Mix`: a thinned paint.

use super::arguments::or_20c;
use super::drops::PyMixDrops;
use super::stock::PyPaint;
use super::voc::PyVoc;
use crate::blend::PyBlend;
use crate::cup::PyFlowCup;
use crate::dose::{PyDropper, PyThinning};
use crate::errors::CallResult;
use crate::estimate::{PyEstimate, PyWorking, warn_all};
use crate::quantity::{Arg, PyVelocity};
use mistcoat::paint::{Droppers, Mix};
use mistcoat::quantity::{self as q, Quantity};
use pyo3::prelude::*;

/// A paint thinned to a stated degree.
///
/// Made by ``Paint.thin`` and ``Paint.thin_to``; answers for viscosity, seconds in a cup, solids, film build, VOC,
/// drops and settling. Volumes are measured at 20 °C and taken to add. Temperatures are 0 to 50 °C; ``RangeError``
/// outside.
///
/// >>> import mistcoat as mc
/// >>> thinner = mc.Blend({"acetone": 50, "n-butyl acetate": 35, "2-butoxyethanol": 15}, basis="mass")
/// >>> mix = mc.demo_paint("hull green").thin(thinner, thinner=1, paint=1)
/// >>> print(mix.viscosity("21 degC").best)
/// 17.7 mPa.s
/// >>> print(mix.dry_film("25 um").best)
/// 2.75 µm
#[pyclass(frozen, eq, name = "Mix", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyMix(pub Mix);

#[pymethods]
impl PyMix {
    /// The stock paint that was thinned.
    #[getter]
    fn paint(&self) -> PyPaint {
        PyPaint(self.0.paint().clone())
    }
    /// What the paint was thinned with, as a ``Blend``.
    #[getter]
    fn thinner(&self) -> PyBlend {
        PyBlend(self.0.thinner().clone())
    }
    /// Volume of stock paint per volume of mix, above 0 up to 1.
    #[getter]
    fn paint_fraction(&self) -> f64 {
        self.0.paint_fraction().get()
    }
    /// How far the paint is thinned, in every wording.
    #[getter]
    fn thinning(&self) -> PyThinning {
        PyThinning(self.0.thinning())
    }
    /// Parts of thinner to one part of paint, by volume: 0 or above.
    #[getter]
    fn thinner_per_paint(&self) -> f64 {
        self.0.thinning().thinner_per_paint()
    }
    /// Volume of dry film per volume of mix, 0 to 1, with its interval.
    #[getter]
    fn volume_solids(&self) -> PyEstimate {
        PyEstimate::new(self.0.volume_solids())
    }
    /// All that evaporates: carrier and thinner together, as a ``Blend``.
    #[getter]
    fn volatile(&self) -> CallResult<PyBlend> {
        Ok(PyBlend(self.0.volatile()?))
    }
    /// What is known to go wrong between this family and this thinner, one text each; empty when nothing is.
    #[getter]
    fn compatibility(&self) -> Vec<String> {
        self.0.compatibility().into_iter().map(|w| w.message).collect()
    }
    /// Dynamic viscosity at a temperature, with its interval.
    ///
    /// ``temperature`` is 0 to 50 °C. Raises ``RangeError`` outside, or for a thinner thicker than the paint; warns
    /// when the paint's viscosity is only typical of its family.
    fn viscosity(&self, py: Python<'_>, temperature: Arg<q::Temperature>) -> CallResult<PyEstimate> {
        Ok(PyEstimate::answer(py, self.0.viscosity(temperature.value)?)?)
    }
    /// Kinematic viscosity at a temperature, with its interval: dynamic viscosity over density.
    ///
    /// ``temperature`` is 0 to 50 °C. Raises ``RangeError`` outside, or for a thinner thicker than the paint.
    fn kinematic_viscosity(
        &self,
        py: Python<'_>,
        temperature: Arg<q::Temperature>,
    ) -> CallResult<PyEstimate> {
        Ok(PyEstimate::answer(py, self.0.kinematic_viscosity(temperature.value)?)?)
    }
    /// Seconds to expect in a flow cup, with their interval; warns and names cups that serve when the mix is too thin
    /// for this one.
    ///
    /// ``temperature`` is 0 to 50 °C. Raises ``RangeError`` outside, or where the cup's equation ends.
    fn efflux_time(
        &self,
        py: Python<'_>,
        cup: &PyFlowCup,
        temperature: Arg<q::Temperature>,
    ) -> CallResult<PyEstimate> {
        Ok(PyEstimate::answer(py, self.0.efflux_time(&cup.0, temperature.value)?)?)
    }
    /// Density at a temperature, with its interval; ideal volumes.
    ///
    /// ``temperature`` is 0 to 50 °C, 20 °C unless given; ``RangeError`` outside.
    #[pyo3(signature = (temperature=None))]
    fn density(&self, temperature: Option<Arg<q::Temperature>>) -> CallResult<PyEstimate> {
        Ok(PyEstimate::new(self.0.density(or_20c(temperature))?))
    }
    /// Volatile organic content in g/L: total, and less water and exempt solvents.
    ///
    /// Raises ``RangeError`` when water and exempt solvents are all there is.
    fn voc(&self) -> CallResult<PyVoc> {
        Ok(PyVoc(self.0.voc()?))
    }
    /// Whole drops of paint and thinner for this mix, near ``total`` when given.
    ///
    /// ``dropper`` serves both liquids unless ``thinner_dropper`` is given; the drop of each liquid is its own.
    /// ``temperature`` is 0 to 50 °C, 20 °C unless given. ``total`` lies between one drop of paint with its thinner and
    /// 2000 drops. Raises ``RangeError`` outside these limits.
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
    /// Dry film that a wet film of this mix leaves, with its interval: ``wet`` times ``volume_solids``.
    ///
    /// ``wet`` is a thickness above 0, for example ``"25 um"``; ``RangeError`` for others.
    fn dry_film(&self, wet: Arg<q::Length>) -> CallResult<PyEstimate> {
        Ok(PyEstimate::new(self.0.dry_film(wet.value)?))
    }
    /// Wet film of this mix that leaves the wanted dry film, with its interval: ``dry`` over ``volume_solids``.
    ///
    /// ``dry`` is a thickness above 0, for example ``"5 um"``; ``RangeError`` for others.
    fn wet_film(&self, dry: Arg<q::Length>) -> CallResult<PyEstimate> {
        Ok(PyEstimate::new(self.0.wet_film(dry.value)?))
    }
    /// Time until the top ``depth`` of the cup is clear of pigment, with its interval: stir well before.
    ///
    /// ``depth`` is above 0, for example ``"2 mm"``; ``temperature`` is 0 to 50 °C. Raises ``RangeError`` outside, for
    /// pigment lighter than the liquid or above 40 % of the mix, and for grit too coarse for Stokes' law.
    fn settling_time(
        &self,
        py: Python<'_>,
        depth: Arg<q::Length>,
        temperature: Arg<q::Temperature>,
    ) -> CallResult<PyEstimate> {
        Ok(PyEstimate::answer(py, self.0.settling(depth.value, temperature.value)?.time)?)
    }
    /// Speed at which the pigment sinks, best value.
    ///
    /// ``temperature`` is 0 to 50 °C. Raises ``RangeError`` outside, for pigment lighter than the liquid or above 40 %
    /// of the mix, and for grit too coarse for Stokes' law.
    fn settling_velocity(&self, temperature: Arg<q::Temperature>) -> CallResult<PyVelocity> {
        let depth = q::Length::from_si(1e-3); // any depth: the speed does not depend on it
        Ok(PyVelocity(self.0.settling(depth, temperature.value)?.velocity.best()))
    }
    /// What is in the mix and how its solids follow, step by step, with formulas, numbers and sources.
    fn working(&self) -> PyWorking {
        PyWorking(self.0.working())
    }
    fn __str__(&self) -> String {
        format!("{}, {}", self.0.paint().name(), self.0.thinning())
    }
}

crate::json::travels!(PyMix, "The mix", evaluates);
