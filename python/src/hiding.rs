//! How well a paint hides: `mistcoat.hiding`.

use crate::dict::Ordered;
use crate::dose::Share;
use crate::errors::CallResult;
use crate::estimate::PyEstimate;
use crate::quantity::{Arg, PyQuantity};
use mistcoat::estimate::{Estimate, ModelError};
use mistcoat::hiding::{self as h, CardReading, ColourClass, Criterion, Gloss, Ground, HidingPower, Passes};
use mistcoat::quantity::{self as q, Quantity, Reflectance};
use pyo3::{exceptions::PyTypeError, prelude::*, types::PyString};
#[cfg(feature = "stubs")]
use pyo3::{inspect::PyStaticExpr, type_hint_union};

/// The best value of an argument with its spread; a positive quantity spreads by a factor.
pub fn estimate<Q: PyQuantity>(arg: &Arg<Q>, what: &str) -> Estimate<Q> {
    if arg.std > 0.0 && arg.value.si() > 0.0 {
        return Estimate::relative(arg.value, &[ModelError::new(what, arg.std / arg.value.si())]);
    }
    Estimate::exact(arg.value)
}

/// A share with its spread: a plain number, a `Ratio`, text, or an `Estimate` of a ratio.
#[derive(Clone, Copy)]
pub struct SpreadShare {
    value: f64,
    std: f64,
}

impl<'a, 'py> FromPyObject<'a, 'py> for SpreadShare {
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr = <Share as FromPyObject<'a, 'py>>::INPUT_TYPE;

    fn extract(ob: Borrowed<'a, 'py, PyAny>) -> PyResult<Self> {
        if let Ok(e) = ob.cast::<PyEstimate>() {
            let arg = e.extract::<Arg<q::Ratio>>()?;
            return Ok(Self { value: arg.value.si(), std: arg.std });
        }
        Ok(Self { value: ob.extract::<Share>()?.0, std: 0.0 })
    }
}

impl SpreadShare {
    pub fn estimate(self, what: &str) -> Estimate<q::Ratio> {
        let value = q::Ratio::from_si(self.value);
        if self.std > 0.0 {
            return Estimate::absolute(value, &[ModelError::new(what, self.std)]);
        }
        Estimate::exact(value)
    }
}

fn reflectance(share: Share) -> CallResult<Reflectance> {
    Ok(Reflectance::new(share.0)?)
}

/// What lies under the coat: "card", the reflectance of an even undercoat, or (darkest, lightest).
pub struct GroundArg(Ground);

impl<'a, 'py> FromPyObject<'a, 'py> for GroundArg {
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr = type_hint_union!(
        <Share as FromPyObject<'a, 'py>>::INPUT_TYPE,
        <(Share, Share) as FromPyObject<'a, 'py>>::INPUT_TYPE
    );

    fn extract(ob: Borrowed<'a, 'py, PyAny>) -> PyResult<Self> {
        if ob.cast::<PyString>().is_ok_and(|s| s.to_string().trim().eq_ignore_ascii_case("card")) {
            return Ok(Self(Ground::Card));
        }
        if let Ok((darkest, lightest)) = ob.extract::<(Share, Share)>() {
            let ground = Ground::Patchy { darkest: reflectance(darkest)?, lightest: reflectance(lightest)? };
            return Ok(Self(ground));
        }
        match ob.extract::<Share>() {
            Ok(share) => Ok(Self(Ground::Undercoat(reflectance(share)?))),
            Err(_) => Err(PyTypeError::new_err(
                "ground is \"card\", the reflectance of an even undercoat such as \"40 %\", or (darkest, lightest)",
            )),
        }
    }
}

/// The ground; a card when nothing is said.
pub fn ground(given: Option<GroundArg>) -> Ground {
    given.map_or(Ground::Card, |g| g.0)
}

fn criterion(given: Option<Share>) -> CallResult<Criterion> {
    Ok(given.map_or(Ok(Criterion::STANDARD), |c| Criterion::new(q::Ratio::from_si(c.0)))?)
}

/// The surface of a glossy film after Saunderson: what a meter reads above it, and what the film gives back.
///
/// ``mirrored`` is the share of light mirrored at right angles, ``thrown_back`` that thrown back inside; 4 % and 60 %
/// serve for a binder of refractive index 1.5. ``mirrored_is_seen`` for a meter that counts the mirrored light.
///
/// >>> from mistcoat import hiding
/// >>> gloss = hiding.Gloss()
/// >>> round(gloss.internal("80 %"), 3)
/// 0.926
#[pyclass(frozen, eq, name = "Gloss", module = "mistcoat.hiding")]
#[derive(Clone, PartialEq)]
pub struct PyGloss(pub Gloss);

#[pymethods]
impl PyGloss {
    #[new]
    #[pyo3(signature = (mirrored=None, thrown_back=None, *, mirrored_is_seen=false))]
    fn new(mirrored: Option<Share>, thrown_back: Option<Share>, mirrored_is_seen: bool) -> CallResult<Self> {
        let usual = |given: Option<Share>, usual| reflectance(given.unwrap_or(Share(usual)));
        Ok(Self(Gloss::new(usual(mirrored, 0.04)?, usual(thrown_back, 0.6)?, mirrored_is_seen)?))
    }
    /// Share of the light mirrored at right angles.
    #[getter]
    fn mirrored(&self) -> f64 {
        self.0.mirrored()
    }
    /// Share of the light thrown back inside.
    #[getter]
    fn thrown_back(&self) -> f64 {
        self.0.thrown_back()
    }
    /// Whether the meter counts the mirrored light.
    #[getter]
    fn mirrored_is_seen(&self) -> bool {
        self.0.mirrored_is_seen()
    }
    fn __repr__(&self) -> String {
        let g = &self.0;
        let seen = if g.mirrored_is_seen() { "True" } else { "False" };
        format!("Gloss({}, {}, mirrored_is_seen={seen})", g.mirrored(), g.thrown_back())
    }
    /// What the meter reads above a film that gives back ``internal``.
    fn measured(&self, internal: Share) -> CallResult<f64> {
        Ok(self.0.measured(reflectance(internal)?).get())
    }
    /// What the film gives back, from the reading above it. Raises ``RangeError`` for a reading no film gives.
    fn internal(&self, measured: Share) -> CallResult<f64> {
        Ok(self.0.internal(reflectance(measured)?)?.get())
    }
}

crate::json::pickles!(PyGloss);

/// How well a paint hides: the scattering coefficient of its dry film and the reflectance of a film that hides.
///
/// Best fitted from your own card, ``from_card_passes`` or ``from_readings``; ``typical`` is a judgement by colour, good to a
/// factor 2 either way. Optics of Kubelka and Munk; one luminous reflectance stands for the colour. Not for metallics.
///
/// >>> from mistcoat import hiding
/// >>> green = hiding.HidingPower.from_card_passes("hull green", "deep green", passes=6, dry_per_pass="2 um")
/// >>> print(green.passes_to_hide("1.5 um").whole)  # thinned more: less dry film a pass
/// 8
#[pyclass(frozen, eq, name = "HidingPower", module = "mistcoat.hiding")]
#[derive(Clone, PartialEq)]
pub struct PyHidingPower(pub HidingPower);

#[pymethods]
impl PyHidingPower {
    #[new]
    #[pyo3(signature = (name, *, scattering, reflectivity, gloss=None, source="own measurement"))]
    #[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
    fn new(
        name: &str,
        scattering: Arg<q::OpticalCoefficient>,
        reflectivity: SpreadShare,
        gloss: Option<PyRef<'_, PyGloss>>,
        source: &str,
    ) -> CallResult<Self> {
        let scattering = estimate(&scattering, "scattering");
        let power = HidingPower::new(name, scattering, reflectivity.estimate("reflectivity"), source)?;
        Ok(Self(glossy(power, gloss)))
    }
    /// A paint known by its colour class only; ``colour_classes()`` lists them. Raises ``UnknownName`` with near names.
    #[staticmethod]
    #[pyo3(signature = (colour, *, gloss=None))]
    #[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
    fn typical(colour: &str, gloss: Option<PyRef<'_, PyGloss>>) -> CallResult<Self> {
        Ok(Self(glossy(HidingPower::typical(colour)?, gloss)))
    }
    /// Fitted to the first count of passes at which the black and the white of a card look alike.
    ///
    /// ``colour`` is the class that gives the reflectivity, unless you measured one. The truth lies within the last pass.
    #[staticmethod]
    #[pyo3(signature = (name, colour, *, passes, dry_per_pass, reflectivity=None))]
    fn from_card_passes(
        name: &str,
        colour: &str,
        passes: u32,
        dry_per_pass: Arg<q::Length>,
        reflectivity: Option<SpreadShare>,
    ) -> CallResult<Self> {
        let r = reflectivity.map(|r| r.estimate("reflectivity"));
        let film = estimate(&dry_per_pass, "dry film per pass");
        Ok(Self(HidingPower::from_card_passes(name, colour, r.as_ref(), passes, &film)?))
    }
    /// Fitted to two readings of one dry film over the black and the white of a card.
    ///
    /// ``black`` and ``white`` are readings of the bare card, ``std`` the standard uncertainty of a reading. With ``gloss``
    /// the surface is taken off all four. Raises ``RangeError`` when the film hides already or no film gives the readings.
    #[staticmethod]
    #[pyo3(signature = (name, *, over_black, over_white, dry, black=Share(0.0), white=Share(0.8), std=Share(0.005), gloss=None))]
    #[allow(clippy::too_many_arguments, clippy::needless_pass_by_value, reason = "keywords of one reading")]
    fn from_readings(
        name: &str,
        over_black: Share,
        over_white: Share,
        dry: Arg<q::Length>,
        black: Share,
        white: Share,
        std: Share,
        gloss: Option<PyRef<'_, PyGloss>>,
    ) -> CallResult<Self> {
        let reading = CardReading {
            over_black: reflectance(over_black)?,
            over_white: reflectance(over_white)?,
            black: reflectance(black)?,
            white: reflectance(white)?,
            std: q::Ratio::from_si(std.0),
        };
        Ok(Self(reading.fit(name, &estimate(&dry, "dry film of the card"), gloss.map(|g| g.0))?))
    }
    /// Name the paint was given.
    #[getter]
    fn name(&self) -> &str {
        self.0.name()
    }
    /// Scattering coefficient of the dry film.
    #[getter]
    fn scattering(&self) -> PyEstimate {
        PyEstimate::new(self.0.scattering().clone())
    }
    /// Reflectance of a film that hides, without its surface.
    #[getter]
    fn reflectivity(&self) -> PyEstimate {
        PyEstimate::new(self.0.reflectivity().clone())
    }
    /// Source of the values, in full.
    #[getter]
    fn source(&self) -> String {
        mistcoat::source::cite(self.0.source())
    }
    /// Reflectance of this dry film over a ground, as a meter reads it.
    fn reflectance(&self, py: Python<'_>, dry: Arg<q::Length>, ground: Share) -> CallResult<PyEstimate> {
        let answer = self.0.reflectance(&estimate(&dry, "dry film"), reflectance(ground)?)?;
        Ok(PyEstimate::answer(py, answer)?)
    }
    /// Contrast of this dry film over a ground, 1 when nothing shows. ``ground`` is ``"card"``, the reflectance of an
    /// even undercoat, or ``(darkest, lightest)``.
    #[pyo3(signature = (dry, ground=None))]
    fn contrast_ratio(
        &self,
        py: Python<'_>,
        dry: Arg<q::Length>,
        ground: Option<GroundArg>,
    ) -> CallResult<PyEstimate> {
        let answer = self.0.contrast_ratio(&estimate(&dry, "dry film"), self::ground(ground))?;
        Ok(PyEstimate::answer(py, answer)?)
    }
    /// Dry film at which the ground no longer shows: contrast of 0.98 unless ``contrast`` is given.
    #[pyo3(signature = (ground=None, *, contrast=None))]
    fn thickness_to_hide(
        &self,
        py: Python<'_>,
        ground: Option<GroundArg>,
        contrast: Option<Share>,
    ) -> CallResult<PyEstimate> {
        let answer = self.0.thickness_to_hide(self::ground(ground), criterion(contrast)?)?;
        Ok(PyEstimate::answer(py, answer)?)
    }
    /// Passes until the ground no longer shows, each leaving ``dry_per_pass``.
    #[pyo3(signature = (dry_per_pass, ground=None, *, contrast=None))]
    fn passes_to_hide(
        &self,
        py: Python<'_>,
        dry_per_pass: Arg<q::Length>,
        ground: Option<GroundArg>,
        contrast: Option<Share>,
    ) -> CallResult<PyPasses> {
        let film = estimate(&dry_per_pass, "dry film per pass");
        let passes = self.0.passes_to_hide(&film, self::ground(ground), criterion(contrast)?)?;
        crate::estimate::warn_all(py, &passes.number.warnings)?;
        Ok(PyPasses(passes))
    }
    fn __repr__(&self) -> String {
        format!("<HidingPower of {}: scattering {}>", self.0.name(), self.0.scattering())
    }
}

crate::json::travels!(PyHidingPower, "The paint");

#[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
fn glossy(power: HidingPower, gloss: Option<PyRef<'_, PyGloss>>) -> HidingPower {
    match gloss {
        Some(g) => power.with_gloss(g.0),
        None => power,
    }
}

/// Passes until the ground no longer shows.
///
/// >>> from mistcoat import hiding
/// >>> passes = hiding.HidingPower.typical("deep green").passes_to_hide("2 um")
/// >>> passes.fewest <= passes.whole <= passes.most
/// True
#[pyclass(frozen, eq, name = "Passes", module = "mistcoat.hiding")]
#[derive(Clone, PartialEq)]
pub struct PyPasses(pub Passes);

#[pymethods]
impl PyPasses {
    /// The film that hides over the film of one pass, not rounded.
    #[getter]
    fn number(&self) -> PyEstimate {
        PyEstimate::kept(self.0.number.clone())
    }
    /// Whole passes at the best value.
    #[getter]
    fn whole(&self) -> u32 {
        self.0.whole
    }
    /// Whole passes at the low end of the range.
    #[getter]
    fn fewest(&self) -> u32 {
        self.0.fewest
    }
    /// Whole passes at the high end of the range.
    #[getter]
    fn most(&self) -> u32 {
        self.0.most
    }
    /// Thickness of dry film that hides, with its range.
    #[getter]
    fn thickness(&self) -> PyEstimate {
        PyEstimate::new(self.0.thickness.clone())
    }
    fn __str__(&self) -> String {
        format!("{} passes ({} to {})", self.0.whole, self.0.fewest, self.0.most)
    }
    fn __repr__(&self) -> String {
        format!("<Passes: {} ({} to {})>", self.0.whole, self.0.fewest, self.0.most)
    }
}

crate::json::pickles!(PyPasses);

/// K/S of a film that hides, from its reflectance: (1 - R)²/(2 R).
///
/// >>> from mistcoat import hiding
/// >>> hiding.absorption_over_scattering("50 %")
/// 0.25
#[pyfunction]
pub fn absorption_over_scattering(reflectivity: Share) -> CallResult<f64> {
    Ok(h::absorption_over_scattering(reflectance(reflectivity)?)?)
}

/// Scattering power S X of a film, from its reflectance over black and that of the film that hides.
///
/// >>> from mistcoat import hiding
/// >>> round(hiding.scattering_power(over_black=0.7408, reflectivity="90 %"), 2)
/// 3.0
#[pyfunction]
#[pyo3(signature = (*, over_black, reflectivity))]
pub fn scattering_power(over_black: Share, reflectivity: Share) -> CallResult<f64> {
    Ok(h::scattering_power(reflectance(over_black)?, reflectance(reflectivity)?)?)
}

/// The colour classes, each with why it hides poorly, or nothing.
///
/// >>> from mistcoat import hiding
/// >>> print(hiding.colour_classes().get("red oxide"))
/// None
#[pyfunction]
pub fn colour_classes() -> CallResult<Ordered<Option<String>>> {
    Ok(Ordered(ColourClass::list()?.iter().map(|c| (c.name.clone(), c.hides_poorly.clone())).collect()))
}
