//! Shades, changes of colour and their order, in Python.

use crate::dose::Share;
use crate::errors::CallResult;
use crate::estimate::{PyEstimate, warn_all};
use crate::hiding::{PyHidingPower, estimate};
use crate::quantity::{Arg, PyVolume};
use crate::rinse::PySplit;
use mistcoat::error::unknown_name;
use mistcoat::quantity::{self as q, Quantity, Reflectance};
use mistcoat::rinse::{self as r, Bench, Change, ColourOrder, Shade, Tolerance};
use pyo3::{prelude::*, types::PyString};
#[cfg(feature = "stubs")]
use pyo3::{type_hint_identifier, type_hint_union};

/// A paint as the next colour sees it: how light it is and how strongly it tints.
///
/// ``reflectivity`` is the luminous reflectance of a film that hides; ``strength`` the tinting strength relative to the
/// other paints, 1 for paints alike. ``Shade.typical`` takes a colour class, ``Shade.of`` a fitted ``HidingPower``.
///
/// >>> from mistcoat import rinse
/// >>> white, black = rinse.Shade("white", 0.90), rinse.Shade("black", 0.04)
/// >>> print(white.tolerates(black), black.tolerates(white))
/// 0.0342 % 9.27 %
#[pyclass(frozen, eq, name = "Shade", module = "mistcoat.rinse")]
#[derive(Clone, PartialEq)]
pub struct PyShade(pub Shade);

#[pymethods]
impl PyShade {
    #[new]
    #[pyo3(signature = (name, reflectivity, *, strength=1.0))]
    fn new(name: &str, reflectivity: Share, strength: f64) -> CallResult<Self> {
        Ok(Self(Shade::new(name, Reflectance::new(reflectivity.0)?, strength)?))
    }
    /// A colour class, under a name of your own if given. Raises ``UnknownName`` with near names.
    #[staticmethod]
    #[pyo3(signature = (colour, *, name=None))]
    fn typical(colour: &str, name: Option<&str>) -> CallResult<Self> {
        let shade = Shade::typical(colour)?;
        Ok(Self(match name {
            Some(name) => shade.named(name)?,
            None => shade,
        }))
    }
    /// From a fitted hiding power: its scattering is its strength.
    #[staticmethod]
    #[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
    fn of(paint: PyRef<'_, PyHidingPower>) -> CallResult<Self> {
        Ok(Self(Shade::of(&paint.0)?))
    }
    /// Name the colour was given.
    #[getter]
    fn name(&self) -> &str {
        self.0.name()
    }
    /// Luminous reflectance of a film that hides.
    #[getter]
    fn reflectivity(&self) -> f64 {
        self.0.reflectivity().get()
    }
    /// Tinting strength relative to the other paints.
    #[getter]
    fn strength(&self) -> f64 {
        self.0.strength()
    }
    /// CIE lightness L* of a film that hides.
    #[getter]
    fn lightness(&self) -> f64 {
        self.0.lightness()
    }
    /// Lightness of this paint with a share of another in it.
    #[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
    fn lightness_with(&self, other: PyRef<'_, Self>, share: Share) -> CallResult<f64> {
        Ok(self.0.lightness_with(&other.0, share.0)?)
    }
    /// Share of ``old`` that may stay in a fill of this paint. Lightness only; pairs near in lightness are held to 1 %.
    ///
    /// ``tolerance``: "perceptible" (CIELAB 1.2), "acceptable" (2.7), or "perceptible ciede2000" (0.8), "acceptable
    /// ciede2000" (1.8), of which the lightness term is used.
    #[pyo3(signature = (old, *, tolerance="perceptible"))]
    #[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
    fn tolerates(&self, old: PyRef<'_, Self>, tolerance: &str) -> CallResult<crate::quantity::PyRatio> {
        Ok(crate::quantity::PyRatio(self.0.tolerates(&old.0, named_tolerance(tolerance)?)?.share))
    }
    fn __repr__(&self) -> String {
        format!("Shade({:?}, {}, strength={})", self.0.name(), self.reflectivity(), self.0.strength())
    }
}

crate::json::pickles!(PyShade);

const TOLERANCES: [(&str, Tolerance); 4] = [
    ("perceptible", Tolerance::Perceptible),
    ("acceptable", Tolerance::Acceptable),
    ("perceptible ciede2000", Tolerance::PerceptibleCiede2000),
    ("acceptable ciede2000", Tolerance::AcceptableCiede2000),
];

fn named_tolerance(name: &str) -> CallResult<Tolerance> {
    let wanted = mistcoat::names::fold(name);
    let found = TOLERANCES.iter().find(|(n, _)| mistcoat::names::fold(n) == wanted);
    found.map(|(_, t)| *t).ok_or_else(|| {
        let remedy = "take perceptible, acceptable, perceptible ciede2000 or acceptable ciede2000";
        unknown_name("tolerance", name, TOLERANCES.iter().map(|(n, _)| *n), remedy).into()
    })
}

/// The cheapest path through all colours, ``cost[a][b]`` being the change from a to b: (order, cost).
///
/// Exact up to 16 colours; ``RangeError`` beyond. ``start`` fixes the first.
///
/// >>> from mistcoat import rinse
/// >>> rinse.best_order([[0, 9, 1], [1, 0, 9], [9, 2, 0]])
/// ([1, 0, 2], 2.0)
#[pyfunction]
#[pyo3(signature = (cost, *, start=None))]
#[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
pub fn best_order(cost: Vec<Vec<f64>>, start: Option<usize>) -> CallResult<(Vec<usize>, f64)> {
    let best = r::best_order(&cost, start)?;
    Ok((best.order, best.cost))
}

/// A colour: a `Shade`, or the name of a colour class.
pub struct ShadeArg(pub Shade);

impl<'a, 'py> FromPyObject<'a, 'py> for ShadeArg {
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const INPUT_TYPE: pyo3::inspect::PyStaticExpr =
        type_hint_union!(<PyShade as pyo3::PyTypeInfo>::TYPE_HINT, type_hint_identifier!("builtins", "str"));

    fn extract(ob: Borrowed<'a, 'py, PyAny>) -> PyResult<Self> {
        if let Ok(text) = ob.cast::<PyString>() {
            let shade = Shade::typical(text.to_str()?).map_err(crate::errors::CallError::from)?;
            return Ok(Self(shade));
        }
        Ok(Self(ob.extract::<PyRef<'_, PyShade>>()?.0.clone()))
    }
}

/// The bench at which colours are changed.
///
/// ``hold_up`` of the gun (``typical_hold_up`` or ``weighed_hold_up``); ``fill``, paint of the next colour that goes in;
/// ``least_portion`` of cleaner that still wets cup and passages; ``tolerance`` as for ``Shade.tolerates``. Colours are
/// ``Shade`` objects or names of colour classes.
///
/// >>> from mistcoat import rinse
/// >>> bench = rinse.RinseBench(rinse.typical_hold_up("gravity airbrush"), fill="2 mL")
/// >>> print(bench.change("deep green", "cream").split)
/// 2 × 1 mL, 2 mL in all
#[pyclass(frozen, eq, name = "RinseBench", module = "mistcoat.rinse")]
#[derive(Clone, PartialEq)]
pub struct PyRinseBench(pub Bench);

#[pymethods]
impl PyRinseBench {
    #[new]
    #[pyo3(signature = (hold_up, *, fill, least_portion=None, tolerance="perceptible"))]
    fn new(
        hold_up: Arg<q::Volume>,
        fill: Arg<q::Volume>,
        least_portion: Option<Arg<q::Volume>>,
        tolerance: &str,
    ) -> CallResult<Self> {
        let bench = Bench {
            hold_up: estimate(&hold_up, "hold-up of the gun"),
            fill: fill.value,
            least_portion: least_portion.map_or(q::Volume::from_si(ONE_ML), |v| v.value),
            tolerance: named_tolerance(tolerance)?,
        };
        bench.check()?;
        Ok(Self(bench))
    }
    /// Liquid left in the gun after pouring out.
    #[getter]
    fn hold_up(&self) -> PyEstimate {
        PyEstimate::new(self.0.hold_up.clone())
    }
    /// Paint of the next colour that goes in.
    #[getter]
    fn fill(&self) -> PyVolume {
        PyVolume(self.0.fill)
    }
    /// Smallest portion of cleaner that wets cup and passages.
    #[getter]
    fn least_portion(&self) -> PyVolume {
        PyVolume(self.0.least_portion)
    }
    fn __repr__(&self) -> String {
        let b = &self.0;
        let (kept, fill, least) = (q::show(b.hold_up.best), q::show(b.fill), q::show(b.least_portion));
        format!("<RinseBench: hold-up {kept}, fill {fill}, portions of {least} or more>")
    }
    /// Cleaner between two colours; at least one portion, however alike they are.
    #[pyo3(signature = (before, after))]
    #[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
    fn change(&self, py: Python<'_>, before: ShadeArg, after: ShadeArg) -> CallResult<PyChange> {
        let change = self.0.change(&before.0, &after.0)?;
        warn_all(py, &change.cleaner.warnings)?;
        Ok(PyChange(change))
    }
    /// The order of colours with the least cleaner, exact up to 16; from ``start`` if that is in the gun already.
    ///
    /// Pairs that differ by hue rather than lightness are named in ``warnings`` of the result.
    #[pyo3(signature = (colours, *, start=None))]
    #[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
    fn colour_order(&self, colours: Vec<ShadeArg>, start: Option<&str>) -> CallResult<PyColourOrder> {
        let shades: Vec<Shade> = colours.into_iter().map(|c| c.0).collect();
        Ok(PyColourOrder(self.0.colour_order(&shades, start)?))
    }
}

crate::json::pickles!(PyRinseBench);

/// Least portion unless given: wets the cup of an airbrush.
const ONE_ML: f64 = 1e-6;

/// One change of colour.
#[pyclass(frozen, eq, name = "Change", module = "mistcoat.rinse")]
#[derive(Clone, PartialEq)]
pub struct PyChange(pub Change);

#[pymethods]
impl PyChange {
    /// Colour that was in the gun.
    #[getter]
    fn before(&self) -> &str {
        &self.0.from
    }
    /// Colour that follows.
    #[getter]
    fn after(&self) -> &str {
        &self.0.to
    }
    /// Share of the old paint that may stand in the fill of the new one.
    #[getter]
    fn tolerated(&self) -> crate::quantity::PyRatio {
        crate::quantity::PyRatio(self.0.tolerated)
    }
    /// Share of the old paint in the gun that the rinse may leave.
    #[getter]
    fn fraction(&self) -> crate::quantity::PyRatio {
        crate::quantity::PyRatio(self.0.fraction)
    }
    /// Portions of cleaner.
    #[getter]
    fn split(&self) -> PySplit {
        PySplit(self.0.split)
    }
    /// Cleaner in all, with its range and working.
    #[getter]
    fn cleaner(&self) -> PyEstimate {
        PyEstimate::kept(self.0.cleaner.clone())
    }
    fn __repr__(&self) -> String {
        format!("<Change from {} to {}: {}>", self.0.from, self.0.to, self.0.cleaner)
    }
}

crate::json::pickles!(PyChange);

/// An order of colours with its changes; prints as a table with the cautions under it.
#[pyclass(frozen, eq, name = "ColourOrder", module = "mistcoat.rinse")]
#[derive(Clone, PartialEq)]
pub struct PyColourOrder(pub ColourOrder);

#[pymethods]
impl PyColourOrder {
    /// Names in the order to spray.
    #[getter]
    fn order(&self) -> Vec<String> {
        self.0.order.clone()
    }
    /// The changes between them.
    #[getter]
    fn changes(&self) -> Vec<PyChange> {
        self.0.changes.iter().cloned().map(PyChange).collect()
    }
    /// Cleaner for all changes; the wash at the end comes on top.
    #[getter]
    fn cleaner(&self) -> PyEstimate {
        PyEstimate::new(self.0.cleaner.clone())
    }
    /// Cleaner for the order in which the colours were given.
    #[getter]
    fn as_given(&self) -> PyEstimate {
        PyEstimate::new(self.0.as_given.clone())
    }
    /// What to mind when cleaning; never empty.
    #[getter]
    fn cautions(&self) -> Vec<String> {
        self.0.cautions.clone()
    }
    /// Pairs for which the answer is a judgement.
    #[getter]
    fn warnings(&self) -> Vec<String> {
        self.0.warnings.iter().map(|w| w.message.clone()).collect()
    }
}

crate::table::shows!(PyColourOrder, "The changes as a table, cautions under it.");

crate::json::pickles!(PyColourOrder);
