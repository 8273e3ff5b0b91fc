//! `Solvent` and its Hansen parameters.

use crate::errors::CallResult;
use crate::estimate::PyEstimate;
use crate::quantity::{Arg, PyMolarMass, PyQuantity, PySolubilityParameter, PyTemperature};
use crate::safety::{PyExposureLimit, PyPropertySource, PySafetyValue};
use mistcoat::estimate::{Estimate, ModelError};
use mistcoat::quantity::{self as q, Quantity};
use mistcoat::solvent::{Hansen, Solvent};
use pyo3::prelude::*;
use std::collections::HashMap;
use std::hash::{DefaultHasher, Hash, Hasher};

/// The built-in solvent of this name, identifier or synonym; case, hyphens and spaces do not matter.
///
/// >>> import mistcoat as mc
/// >>> mc.solvent("N-Butyl Acetate").flash_point.to("degC")
/// 22.0
#[pyfunction]
pub fn solvent(name: &str) -> CallResult<PySolvent> {
    Ok(PySolvent(mistcoat::solvent::find(name)?))
}

/// A pure liquid or a petroleum cut. Get one from ``solvent(name)`` or from a ``Catalogue``.
///
/// Values at a temperature are ``Estimate`` objects, whose interval tells how far the sources differ;
/// outside the range of its equation a value is refused with ``RangeError``.
#[pyclass(frozen, eq, name = "Solvent", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PySolvent(pub Solvent);

/// A temperature with its spread, which is that of an `Estimate` and else zero.
fn temperature(t: Arg<q::Temperature>) -> Estimate<q::Temperature> {
    Estimate::absolute(t.value, &[ModelError::new("temperature", t.std)])
}

impl PySolvent {
    fn at<Q: PyQuantity>(
        &self,
        t: Arg<q::Temperature>,
        property: impl Fn(&Solvent, q::Temperature) -> mistcoat::Result<Estimate<Q>>,
    ) -> CallResult<PyEstimate> {
        Ok(PyEstimate::new(self.0.at(&temperature(t), property)?))
    }
}

#[pymethods]
impl PySolvent {
    /// Name used in tables.
    #[getter]
    fn name(&self) -> &str {
        self.0.name()
    }
    /// Short stable name, for example ``n_butyl_acetate``.
    #[getter]
    fn id(&self) -> &str {
        self.0.id()
    }
    /// Other names it is sold or written under.
    #[getter]
    fn synonyms(&self) -> Vec<String> {
        self.0.synonyms().to_vec()
    }
    /// CAS registry number.
    #[getter]
    fn cas(&self) -> Option<&str> {
        self.0.cas()
    }
    /// Molecular formula; of a cut, the mean molecule.
    #[getter]
    fn formula(&self) -> &str {
        self.0.formula()
    }
    /// What to mind about this record.
    #[getter]
    fn note(&self) -> Option<&str> {
        self.0.note()
    }
    /// Whether it is a cut: a mixture with a boiling range, sold as one liquid.
    #[getter]
    fn is_cut(&self) -> bool {
        self.0.is_cut()
    }
    /// Mole fractions of the pure liquids that stand for a cut, by name; empty for a pure liquid.
    #[getter]
    fn surrogate(&self) -> HashMap<String, f64> {
        self.0.surrogate().iter().map(|(s, x)| (s.name().to_owned(), *x)).collect()
    }
    /// Molar mass of the solvent, above 0.
    #[getter]
    fn molar_mass(&self) -> PyMolarMass {
        PyMolarMass(self.0.molar_mass())
    }
    /// Normal boiling point; of a cut, the middle of its range.
    #[getter]
    fn boiling_point(&self) -> PyTemperature {
        PyTemperature(self.0.boiling_point())
    }
    /// Melting point at ordinary pressure.
    #[getter]
    fn melting_point(&self) -> PyTemperature {
        PyTemperature(self.0.melting_point())
    }
    /// Density at a temperature.
    fn density(&self, temperature: Arg<q::Temperature>) -> CallResult<PyEstimate> {
        self.at(temperature, Solvent::density)
    }
    /// Volume of one mole at a temperature.
    fn molar_volume(&self, temperature: Arg<q::Temperature>) -> CallResult<PyEstimate> {
        self.at(temperature, Solvent::molar_volume)
    }
    /// Dynamic viscosity at a temperature.
    fn viscosity(&self, temperature: Arg<q::Temperature>) -> CallResult<PyEstimate> {
        self.at(temperature, Solvent::viscosity)
    }
    /// Kinematic viscosity at a temperature: dynamic viscosity over density.
    fn kinematic_viscosity(&self, temperature: Arg<q::Temperature>) -> CallResult<PyEstimate> {
        self.at(temperature, Solvent::kinematic_viscosity)
    }
    /// Surface tension against air at a temperature.
    fn surface_tension(&self, temperature: Arg<q::Temperature>) -> CallResult<PyEstimate> {
        self.at(temperature, Solvent::surface_tension)
    }
    /// Vapour pressure at a temperature; of a cut, that of the fresh liquid.
    fn vapour_pressure(&self, temperature: Arg<q::Temperature>) -> CallResult<PyEstimate> {
        self.at(temperature, Solvent::vapour_pressure)
    }
    /// Heat of vaporisation per mole at a temperature.
    fn heat_of_vaporisation(&self, temperature: Arg<q::Temperature>) -> CallResult<PyEstimate> {
        self.at(temperature, Solvent::heat_of_vaporisation)
    }
    /// Diffusivity of the vapour in air of one atmosphere at a temperature.
    fn diffusivity(&self, temperature: Arg<q::Temperature>) -> CallResult<PyEstimate> {
        self.at(temperature, Solvent::diffusivity)
    }
    /// Heat that warms one mole of the liquid by one kelvin, at 25 °C.
    #[getter]
    fn heat_capacity_per_kelvin(&self) -> PyEstimate {
        PyEstimate::new(self.0.heat_capacity_per_kelvin())
    }
    /// Published evaporation rate, n-butyl acetate = 1; None where nothing is published.
    #[getter]
    fn relative_evaporation_rate(&self) -> Option<PyEstimate> {
        self.0.relative_evaporation_rate().map(PyEstimate::new)
    }
    /// Evaporation rate predicted from the properties, n-butyl acetate = 1.
    #[getter]
    fn predicted_relative_evaporation_rate(&self) -> CallResult<PyEstimate> {
        Ok(PyEstimate::new(self.0.predicted_relative_evaporation_rate()?))
    }
    /// Fast, medium or slow, by the published rate, else the predicted one.
    #[getter]
    fn evaporation_class(&self) -> CallResult<String> {
        Ok(self.0.evaporation_class()?.to_string())
    }
    /// Evaporation number, ether = 1, turned from the rate; a higher number is slower.
    #[getter]
    fn evaporation_number(&self) -> CallResult<PyEstimate> {
        Ok(PyEstimate::new(self.0.evaporation_number()?))
    }
    /// Flash point, closed cup; None for water, or where none is known.
    #[getter]
    fn flash_point(&self) -> Option<PySafetyValue> {
        self.0.flash_point().map(PySafetyValue::new)
    }
    /// Lowest share of vapour in air, by volume, that burns.
    #[getter]
    fn lower_flammable_limit(&self) -> Option<PySafetyValue> {
        self.0.lower_flammable_limit().map(PySafetyValue::new)
    }
    /// Highest share of vapour in air, by volume, that burns.
    #[getter]
    fn upper_flammable_limit(&self) -> Option<PySafetyValue> {
        self.0.upper_flammable_limit().map(PySafetyValue::new)
    }
    /// Published exposure limits.
    #[getter]
    fn exposure_limits(&self) -> Vec<PyExposureLimit> {
        let limits = self.0.exposure_limits().iter();
        limits.map(|l| PyExposureLimit(l.clone(), self.0.exposure_limit_source(l))).collect()
    }
    /// What to mind about fire and health figures.
    #[getter]
    fn safety_note(&self) -> Option<&str> {
        self.0.safety_note()
    }
    /// Concentration at which half a panel smells it. Smell is no safeguard.
    #[getter]
    fn odour_threshold(&self) -> Option<PySafetyValue> {
        self.0.odour_threshold().map(PySafetyValue::new)
    }
    /// Hansen solubility parameters.
    #[getter]
    fn hansen(&self) -> Option<PyHansen> {
        self.0.hansen().map(PyHansen)
    }
    /// Whether US federal rules exempt it from the count of volatile organic compounds.
    #[getter]
    fn voc_exempt(&self) -> Option<bool> {
        self.0.voc_exempt()
    }
    /// What it does to polystyrene: "none in normal use", "slow or crazing" or "dissolves or softens".
    #[getter]
    fn polystyrene_attack(&self) -> Option<String> {
        self.0.polystyrene_attack().map(|a| a.to_string())
    }
    /// The source behind a property, by its name; None where the solvent has no such value.
    fn source(&self, property: &str) -> CallResult<Option<PyPropertySource>> {
        Ok(self.0.source(property)?.map(PyPropertySource))
    }
    fn __repr__(&self) -> String {
        match mistcoat::solvent::find(self.0.name()) {
            Ok(builtin) if builtin == self.0 => format!("solvent({:?})", self.0.name()),
            _ => format!("<Solvent {:?} of {}>", self.0.name(), self.0.origin()),
        }
    }
    fn __str__(&self) -> &str {
        self.0.name()
    }
    fn __hash__(&self) -> u64 {
        let mut h = DefaultHasher::new();
        self.0.name().hash(&mut h);
        h.finish()
    }
}

crate::json::travels!(
    PySolvent,
    "The solvent",
    note = "A built-in one is its name, another its whole record."
);

/// Hansen solubility parameters: dispersion, polar, hydrogen bonding.
#[pyclass(frozen, eq, name = "Hansen", module = "mistcoat")]
#[derive(Clone, Copy, PartialEq)]
pub struct PyHansen(pub Hansen);

#[pymethods]
impl PyHansen {
    #[new]
    fn new(
        d: Arg<q::SolubilityParameter>,
        p: Arg<q::SolubilityParameter>,
        h: Arg<q::SolubilityParameter>,
    ) -> Self {
        Self(Hansen { d: d.value, p: p.value, h: h.value })
    }
    /// Part of the solubility parameter due to dispersion.
    #[getter]
    fn d(&self) -> PySolubilityParameter {
        PySolubilityParameter(self.0.d)
    }
    /// Part of the solubility parameter due to polarity.
    #[getter]
    fn p(&self) -> PySolubilityParameter {
        PySolubilityParameter(self.0.p)
    }
    /// Part of the solubility parameter due to hydrogen bonding.
    #[getter]
    fn h(&self) -> PySolubilityParameter {
        PySolubilityParameter(self.0.h)
    }
    fn __str__(&self) -> String {
        let [d, p, h] = [self.0.d, self.0.p, self.0.h].map(|v| q::digits(v.si() / 1e3, 3));
        format!("dispersion {d}, polar {p}, hydrogen bonding {h} MPa^0.5")
    }
    fn __repr__(&self) -> String {
        let text = |v: q::SolubilityParameter| format!("\"{} MPa^0.5\"", v.si() / 1e3);
        format!("Hansen({}, {}, {})", text(self.0.d), text(self.0.p), text(self.0.h))
    }
    fn __hash__(&self) -> u64 {
        let mut h = DefaultHasher::new();
        [self.0.d, self.0.p, self.0.h].map(|v| (v.si() + 0.0).to_bits()).hash(&mut h);
        h.finish()
    }
    fn __getnewargs__(&self) -> (PySolubilityParameter, PySolubilityParameter, PySolubilityParameter) {
        (self.d(), self.p(), self.h())
    }
}
