//! `Blend`: recipe in, properties out.

use crate::blend_results::{PyDryingTable, PyPhases};
use crate::dict::Ordered;
use crate::errors::{CallError, CallResult, UnitError};
use crate::estimate::{PyEstimate, warn_all};
use crate::quantity::{Arg, PyMolarMass, PyPressure, PyQuantity, PySolubilityParameter};
use crate::solvent::{PyHansen, PySolvent};
use mistcoat::blend::{Basis, Blend, hansen, unifac::Table};
use mistcoat::estimate::{Estimate, ModelError};
use mistcoat::quantity::{self as q, Quantity, digits};
use mistcoat::solvent::Solvent;
use mistcoat::{Answer, working::escape_html};
use pyo3::{
    exceptions::PyTypeError,
    prelude::*,
    types::{PyBool, PyFloat, PyInt, PyMapping, PyString},
};
#[cfg(feature = "stubs")]
use pyo3::{inspect::PyStaticExpr, type_hint_identifier, type_hint_subscript, type_hint_union};
use std::fmt::Write as _;
use std::hash::{DefaultHasher, Hash, Hasher};

/// Solvents with their amounts: a mapping, or one solvent alone.
pub struct Parts(Vec<(Solvent, f64)>);

fn solvent(key: &Bound<'_, PyAny>) -> CallResult<Solvent> {
    if let Ok(own) = key.cast::<PySolvent>() {
        return Ok(own.get().0.clone());
    }
    let Ok(name) = key.cast::<PyString>() else {
        let got = key.repr()?;
        let fix =
            format!("{got} is no solvent; write its name, for example \"acetone\", or solvent(\"acetone\")");
        return Err(UnitError::new_err(fix).into());
    };
    Ok(mistcoat::solvent::find(name.to_str()?)?)
}

fn amount(solvent: &Solvent, value: &Bound<'_, PyAny>) -> PyResult<f64> {
    let number = value.is_instance_of::<PyFloat>() || value.is_instance_of::<PyInt>();
    // numpy integers are no `int`; text and quantities are refused below.
    let number = number || (!value.is_instance_of::<PyString>() && value.hasattr("__index__")?);
    if number && !value.is_instance_of::<PyBool>() {
        return value.extract();
    }
    Err(UnitError::new_err(format!(
        "amount of {}: {} is not a plain number; write shares as numbers and say with basis= what they count, for \
         example Blend({{\"acetone\": 50, \"toluene\": 50}}, basis=\"volume\")",
        solvent.name(),
        value.repr()?
    )))
}

impl<'a, 'py> FromPyObject<'a, 'py> for Parts {
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr = type_hint_union!(
        type_hint_subscript!(
            type_hint_identifier!("collections.abc", "Mapping"),
            type_hint_identifier!("builtins", "str"),
            type_hint_identifier!("builtins", "float")
        ),
        type_hint_subscript!(
            type_hint_identifier!("collections.abc", "Mapping"),
            <PySolvent as pyo3::PyTypeInfo>::TYPE_HINT,
            type_hint_identifier!("builtins", "float")
        ),
        type_hint_identifier!("builtins", "str"),
        <PySolvent as pyo3::PyTypeInfo>::TYPE_HINT
    );

    fn extract(ob: Borrowed<'a, 'py, PyAny>) -> PyResult<Self> {
        let Ok(mapping) = ob.cast::<PyMapping>() else {
            return Ok(Self(vec![(solvent(&ob)?, 1.0)]));
        };
        let mut parts = Vec::new();
        for item in mapping.items()?.try_iter()? {
            let (key, value): (Bound<'py, PyAny>, Bound<'py, PyAny>) = item?.extract()?;
            let solvent = solvent(&key)?;
            let share = amount(&solvent, &value)?;
            parts.push((solvent, share));
        }
        Ok(Self(parts))
    }
}

/// A liquid to thin with: a blend, or one solvent by itself or by name.
pub struct Liquid(pub Blend);

impl<'a, 'py> FromPyObject<'a, 'py> for Liquid {
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr = type_hint_union!(
        <PyBlend as pyo3::PyTypeInfo>::TYPE_HINT,
        <PySolvent as pyo3::PyTypeInfo>::TYPE_HINT,
        type_hint_identifier!("builtins", "str")
    );

    fn extract(ob: Borrowed<'a, 'py, PyAny>) -> PyResult<Self> {
        if let Ok(own) = ob.cast::<PyBlend>() {
            return Ok(Self(own.get().0.clone()));
        }
        if !ob.is_instance_of::<PyString>() && !ob.is_instance_of::<PySolvent>() {
            return Err(PyTypeError::new_err(format!(
                "expected a Blend, a Solvent or the name of one such as \"white spirit\"; got {}",
                ob.repr()?
            )));
        }
        let alone = vec![(solvent(&ob)?, 1.0)];
        Ok(Self(Blend::new(alone, Basis::Mass, None).map_err(CallError::from)?))
    }
}

/// Solvents mixed in given proportions.
///
/// ``parts`` maps solvents, by name or as ``Solvent``, to their shares; ``basis`` says what the shares count:
/// ``"mass"`` (grams, percent by weight), ``"volume"`` (millilitres or parts, before mixing, at 20 °C) or
/// ``"mole"``. It may be left out for a liquid alone. Only proportions count.
///
/// >>> import mistcoat as mc
/// >>> thinner = mc.Blend({"acetone": 50, "n-butyl acetate": 35, "2-butoxyethanol": 15}, basis="mass", name="house thinner")
/// >>> print(thinner.density("20 degC").best)
/// 0.836 g/mL
/// >>> thinner.phases("20 degC").is_one
/// True
#[pyclass(frozen, eq, name = "Blend", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyBlend(pub Blend);

fn temperature(t: Arg<q::Temperature>) -> Estimate<q::Temperature> {
    Estimate::absolute(t.value, &[ModelError::new("temperature", t.std)])
}

impl PyBlend {
    fn at<Q: PyQuantity>(
        &self,
        py: Python<'_>,
        t: Arg<q::Temperature>,
        property: impl Fn(&Blend, q::Temperature) -> mistcoat::Result<Answer<Q>>,
    ) -> CallResult<PyEstimate> {
        Ok(PyEstimate::answer(py, self.0.at(&temperature(t), property)?)?)
    }

    pub fn species_names(&self) -> Vec<String> {
        self.0.species().iter().map(|s| s.solvent.name().to_owned()).collect()
    }
}

#[pymethods]
impl PyBlend {
    #[new]
    #[pyo3(signature = (parts, basis=None, name=None))]
    #[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
    fn new(parts: Parts, basis: Option<&str>, name: Option<&str>) -> CallResult<Self> {
        let basis = match basis {
            Some(text) => text.parse::<Basis>()?,
            None if parts.0.len() < 2 => Basis::Mass,
            None => {
                let recipe: Vec<String> = parts.0.iter().map(|(s, a)| format!("{} {a}", s.name())).collect();
                return Err(UnitError::new_err(format!(
                    "{} of what? The three readings give different blends: write basis=\"mass\" (grams, percent by \
                     weight), basis=\"volume\" (millilitres or parts) or basis=\"mole\"",
                    recipe.join(", ")
                ))
                .into());
            }
        };
        Ok(Self(Blend::new(parts.0, basis, name)?))
    }
    /// The name, if it has one.
    #[getter]
    fn name(&self) -> Option<&str> {
        self.0.name()
    }
    /// What the amounts of ``parts`` count: "mass", "volume" or "mole".
    #[getter]
    fn basis(&self) -> &'static str {
        self.0.basis().name()
    }
    /// The recipe: amounts on the basis, by solvent.
    #[getter]
    fn parts(&self) -> Ordered<f64> {
        Ordered(self.0.parts().iter().map(|(s, a)| (s.name().to_owned(), *a)).collect())
    }
    /// The liquids as they are poured, by name, each with its share of "mass", "volume" and "mole", 0 to 1.
    #[getter]
    fn components(&self) -> Ordered<Ordered<f64>> {
        let shares = |i: &mistcoat::blend::Ingredient| {
            let values =
                [("mass", i.mass_fraction), ("volume", i.volume_fraction), ("mole", i.mole_fraction)];
            Ordered(values.map(|(n, v)| (n.to_owned(), v)).into())
        };
        Ordered(self.0.ingredients().iter().map(|i| (i.solvent.name().to_owned(), shares(i))).collect())
    }
    /// Mole fractions of the pure species, by name: petroleum cuts are replaced by their surrogate composition.
    #[getter]
    fn species(&self) -> Ordered<f64> {
        Ordered::zip(&self.species_names(), self.0.mole_fractions())
    }
    /// Mean molar mass of the species.
    #[getter]
    fn molar_mass(&self) -> PyMolarMass {
        PyMolarMass(self.0.molar_mass())
    }
    /// Density, volumes taken to add; alcohol with water is up to 4 % denser.
    fn density(&self, py: Python<'_>, temperature: Arg<q::Temperature>) -> CallResult<PyEstimate> {
        self.at(py, temperature, Blend::density)
    }
    /// Dynamic viscosity by the logarithmic rule, with a fitted excess where there is water.
    fn viscosity(&self, py: Python<'_>, temperature: Arg<q::Temperature>) -> CallResult<PyEstimate> {
        self.at(py, temperature, Blend::viscosity)
    }
    /// Kinematic viscosity: dynamic viscosity over density.
    fn kinematic_viscosity(
        &self,
        py: Python<'_>,
        temperature: Arg<q::Temperature>,
    ) -> CallResult<PyEstimate> {
        self.at(py, temperature, Blend::kinematic_viscosity)
    }
    /// Surface tension against air.
    fn surface_tension(&self, py: Python<'_>, temperature: Arg<q::Temperature>) -> CallResult<PyEstimate> {
        self.at(py, temperature, Blend::surface_tension)
    }
    /// Flash point, closed cup, after Liaw; None when nothing in it burns. An estimate: the safety data sheet decides.
    fn flash_point(&self, py: Python<'_>) -> CallResult<Option<PyEstimate>> {
        Ok(self.0.flash_point()?.map(|a| PyEstimate::answer(py, a)).transpose()?)
    }
    /// Hansen solubility parameters, averaged by volume.
    #[getter]
    fn hansen(&self) -> CallResult<PyHansen> {
        Ok(PyHansen(self.0.hansen()?))
    }
    /// Hansen distance from a polymer named in ``polymers()``.
    fn hansen_distance(&self, polymer: &str) -> CallResult<PySolubilityParameter> {
        let polymer = hansen::polymer(polymer)?;
        Ok(PySolubilityParameter(hansen::distance(&self.0.hansen()?, &polymer.hansen)))
    }
    /// Hansen distance from a polymer over its radius: below 1 the blend dissolves or swells it. Test on scrap.
    fn red(&self, py: Python<'_>, polymer: &str) -> CallResult<f64> {
        let red = self.0.red(polymer)?;
        warn_all(py, &red.warnings)?;
        Ok(red.red.si())
    }
    /// Activity coefficient of every species by name; ``model`` is "original" or "dortmund" UNIFAC, or None for the
    /// table that suits the blend (see ``activity_model``).
    #[pyo3(signature = (temperature, model=None))]
    fn activity_coefficients(
        &self,
        temperature: Arg<q::Temperature>,
        model: Option<&str>,
    ) -> CallResult<Ordered<f64>> {
        let model = model.map(str::parse::<Table>).transpose()?;
        Ok(Ordered(self.0.activity_coefficients(temperature.value, model)?))
    }
    /// The UNIFAC table chosen for this blend ("original", "dortmund", or "ideal" where groups are missing) and why.
    #[getter]
    fn activity_model(&self) -> (&'static str, &str) {
        let activity = self.0.activity();
        (activity.table().map_or("ideal", Table::name), activity.reason())
    }
    /// Partial pressure of every species above the blend, by name.
    fn partial_pressures(
        &self,
        py: Python<'_>,
        temperature: Arg<q::Temperature>,
    ) -> CallResult<Ordered<PyPressure>> {
        let vapour = self.0.partial_pressures(temperature.value)?;
        warn_all(py, &vapour.warnings)?;
        Ok(Ordered(vapour.partial.into_iter().map(|(n, p)| (n, PyPressure(p))).collect()))
    }
    /// Vapour pressure of the whole blend.
    fn vapour_pressure(&self, py: Python<'_>, temperature: Arg<q::Temperature>) -> CallResult<PyPressure> {
        warn_all(py, &self.0.partial_pressures(temperature.value)?.warnings)?;
        Ok(PyPressure(self.0.vapour_pressure(temperature.value)?))
    }
    /// Whether it is one liquid at this temperature, or which two it becomes.
    fn phases(&self, py: Python<'_>, temperature: Arg<q::Temperature>) -> CallResult<PyPhases> {
        let phases = self.0.phases(temperature.value)?;
        warn_all(py, &phases.warnings)?;
        Ok(PyPhases { phases, species: self.species_names() })
    }
    /// Raises ``PhaseSplit`` when the blend separates into two liquids at this temperature.
    fn require_one_liquid(&self, temperature: Arg<q::Temperature>) -> CallResult<()> {
        Ok(self.0.require_one_liquid(temperature.value)?)
    }
    /// Evaporation rate of the fresh blend, n-butyl acetate = 1.
    #[getter]
    fn relative_evaporation_rate(&self, py: Python<'_>) -> CallResult<PyEstimate> {
        Ok(PyEstimate::answer(py, self.0.relative_evaporation_rate()?)?)
    }
    /// "fast", "medium" or "slow": the class of the fresh blend.
    #[getter]
    fn evaporation_class(&self) -> CallResult<String> {
        Ok(self.0.evaporation_class()?.to_string())
    }
    /// What is left and how fast it leaves, at ``rows`` equal steps of mass lost.
    #[pyo3(signature = (rows=10))]
    fn evaporation_as_it_dries(&self, py: Python<'_>, rows: usize) -> CallResult<PyDryingTable> {
        let table = py.detach(|| self.0.evaporation_as_it_dries(rows))?;
        warn_all(py, &table.warnings)?;
        Ok(PyDryingTable(table))
    }
    /// This blend with another, ``own`` and ``others`` being the volumes of each that are poured together.
    #[pyo3(signature = (other, *, own, others, name=None))]
    fn mixed_with(&self, other: &Self, own: f64, others: f64, name: Option<&str>) -> CallResult<Self> {
        Ok(Self(self.0.mixed_with(own, &other.0, others, name)?))
    }
    /// The same blend under another name.
    fn named(&self, name: &str) -> Self {
        Self(self.0.clone().named(name))
    }
    fn __str__(&self) -> String {
        self.0.label()
    }
    fn __repr__(&self, py: Python<'_>) -> CallResult<String> {
        let parts = self.parts().into_pyobject(py)?.repr()?.to_string();
        let name = match self.0.name() {
            Some(name) => format!(", name={}", PyString::new(py, name).repr()?),
            None => String::new(),
        };
        Ok(format!("Blend({parts}, basis='{}'{name})", self.0.basis().name()))
    }
    fn _repr_html_(&self) -> String {
        let mut html = format!(
            "<table><caption>{}</caption><tr><th>solvent</th><th>% by mass</th><th>% by volume</th><th>% of moles</th></tr>",
            escape_html(&self.0.label())
        );
        for i in self.0.ingredients() {
            let percent = |f: f64| digits(f * 100.0, 3);
            let _ = write!(
                html,
                "<tr><td>{}</td><td>{}</td><td>{}</td><td>{}</td></tr>",
                escape_html(i.solvent.name()),
                percent(i.mass_fraction),
                percent(i.volume_fraction),
                percent(i.mole_fraction)
            );
        }
        html.push_str("</table>");
        html
    }
    fn __hash__(&self) -> u64 {
        let hash = |value: &dyn Fn(&mut DefaultHasher)| {
            let mut h = DefaultHasher::new();
            value(&mut h);
            h.finish()
        };
        // The order of the parts does not count, so their hashes are combined without one.
        let parts = self
            .0
            .parts()
            .iter()
            .fold(0, |sum, (s, a)| sum ^ hash(&|h| (s.name(), (a + 0.0).to_bits()).hash(h)));
        hash(&|h| (self.0.name(), self.0.basis(), parts).hash(h))
    }
}

crate::json::travels!(PyBlend, "The recipe");

/// Names of the binders and plastics whose Hansen sphere is known.
#[pyfunction]
pub fn polymers() -> CallResult<Vec<&'static str>> {
    Ok(hansen::polymers()?.iter().map(|p| p.name.as_str()).collect())
}
