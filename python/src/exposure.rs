//! What is in the air, may it burn, what must everybody know: `mistcoat.safety`.

use crate::blend::Liquid;
use crate::errors::CallResult;
use crate::paint::PyPaint;
use crate::quantity::{Arg, PyRatio, PyTemperature, PyVolume};
use mistcoat::blend::Blend;
use mistcoat::error::unknown_name;
use mistcoat::paint::Paint;
use mistcoat::quantity::{self as q, Quantity};
use mistcoat::safety::{
    self, Authority, Caution, Cupboard, FlammableLimit, FlammableLiquid, MixtureExposure, Work,
};
use mistcoat::solvent::{Concentration, LimitKind};
#[cfg(feature = "stubs")]
use pyo3::{inspect::PyStaticExpr, type_hint_identifier, type_hint_subscript, type_hint_union};
use pyo3::{prelude::*, types::PyMapping};

/// A concentration by volume ("50 ppm") or by mass ("120 mg/m3").
pub struct InAir(pub Concentration);

impl<'a, 'py> FromPyObject<'a, 'py> for InAir {
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr = type_hint_union!(
        <Arg<q::Ratio> as FromPyObject<'a, 'py>>::INPUT_TYPE,
        <Arg<q::MassConcentration> as FromPyObject<'a, 'py>>::INPUT_TYPE
    );

    fn extract(ob: Borrowed<'a, 'py, PyAny>) -> PyResult<Self> {
        match ob.extract::<Arg<q::Ratio>>() {
            Ok(share) => Ok(Self(Concentration::Volume(share.value))),
            Err(first) => match ob.extract::<Arg<q::MassConcentration>>() {
                Ok(mass) => Ok(Self(Concentration::Mass(mass.value))),
                Err(_) => Err(first),
            },
        }
    }
}

/// Solvents by name with their concentrations.
pub struct AirParts(Vec<(String, InAir)>);

impl<'a, 'py> FromPyObject<'a, 'py> for AirParts {
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr = type_hint_subscript!(
        type_hint_identifier!("collections.abc", "Mapping"),
        type_hint_identifier!("builtins", "str"),
        <InAir as FromPyObject<'a, 'py>>::INPUT_TYPE
    );

    fn extract(ob: Borrowed<'a, 'py, PyAny>) -> PyResult<Self> {
        let mapping = ob.cast::<PyMapping>()?;
        mapping.items()?.try_iter()?.map(|item| item?.extract()).collect::<PyResult<_>>().map(Self)
    }
}

pub fn authority(text: &str) -> CallResult<Authority> {
    match text {
        "lowest" => Ok(Authority::Lowest),
        "OSHA PEL" => Ok(Authority::OshaPel),
        "NIOSH REL" => Ok(Authority::NioshRel),
        other => {
            let known = ["lowest", "OSHA PEL", "NIOSH REL"];
            Err(unknown_name(
                "authority",
                other,
                known,
                "\"lowest\" takes the lowest limit of all that are known",
            )
            .into())
        }
    }
}

fn limit_kind(text: &str) -> CallResult<LimitKind> {
    match text {
        "8 h" => Ok(LimitKind::Shift),
        "15 min" => Ok(LimitKind::ShortTerm),
        "ceiling" => Ok(LimitKind::Ceiling),
        "immediate danger" => Ok(LimitKind::ImmediateDanger),
        other => {
            let known = ["8 h", "15 min", "ceiling", "immediate danger"];
            Err(unknown_name(
                "averaging time of a limit",
                other,
                known,
                "limits are means over 8 h or 15 min",
            )
            .into())
        }
    }
}

/// Vapours in the air against the limits of an authority: the sum of concentration over limit.
///
/// ``air`` maps solvents by name to their concentrations. ``authority``: "lowest" of all known, "OSHA PEL" or "NIOSH
/// REL"; ``over``: "8 h", "15 min", "ceiling" or "immediate danger". Many limits are from memory and say so.
///
/// >>> from mistcoat import safety
/// >>> found = safety.mixture_exposure({"acetone": "55 ppm", "n-butyl acetate": "20 ppm"}, authority="OSHA PEL")
/// >>> round(found.sum, 3)
/// 0.188
#[pyfunction]
#[pyo3(signature = (air, *, authority="lowest", over="8 h"))]
pub fn mixture_exposure(air: AirParts, authority: &str, over: &str) -> CallResult<PyMixtureExposure> {
    let (who, over) = (self::authority(authority)?, limit_kind(over)?);
    let mut parts = Vec::with_capacity(air.0.len());
    for (name, InAir(concentration)) in air.0 {
        parts.push((mistcoat::solvent::find(&name)?, concentration));
    }
    Ok(PyMixtureExposure(safety::mixture_exposure(&parts, who, over)?))
}

/// Vapours in the air, as means over 15 minutes, against what a short time may reach: short-term limit or ceiling of the
/// ``authority``, and where it gives neither, three times its 8-hour limit (from memory). Arguments as for
/// ``mixture_exposure``.
///
/// >>> from mistcoat import safety
/// >>> round(safety.short_term_exposure({"acetone": "300 ppm"}, authority="NIOSH REL").sum, 3)
/// 0.4
#[pyfunction]
#[pyo3(signature = (air, *, authority="lowest"))]
pub fn short_term_exposure(air: AirParts, authority: &str) -> CallResult<PyMixtureExposure> {
    let who = self::authority(authority)?;
    let mut parts = Vec::with_capacity(air.0.len());
    for (name, InAir(concentration)) in air.0 {
        parts.push((mistcoat::solvent::find(&name)?, concentration));
    }
    Ok(PyMixtureExposure(safety::short_term_exposure(&parts, who)?))
}

/// Several vapours against their limits.
#[pyclass(frozen, eq, name = "MixtureExposure", module = "mistcoat.safety")]
#[derive(Clone, PartialEq)]
pub struct PyMixtureExposure(pub MixtureExposure);

#[pymethods]
impl PyMixtureExposure {
    /// Sum of concentration over limit; 1 is the limit.
    #[getter]
    fn sum(&self) -> f64 {
        self.0.sum.si()
    }
    /// Share of each vapour in the sum, largest first.
    #[getter]
    fn shares(&self) -> crate::dict::Ordered<f64> {
        crate::dict::Ordered(self.0.terms.iter().map(|t| (t.solvent.clone(), t.share.si())).collect())
    }
    /// Vapours without a known limit: not counted, so that the sum is a lower bound.
    #[getter]
    fn without_limit(&self) -> Vec<String> {
        self.0.without_limit.clone()
    }
    /// Where each limit stands, in the order of ``shares``.
    #[getter]
    fn sources(&self) -> Vec<crate::safety::PyPropertySource> {
        self.0.terms.iter().map(|t| crate::safety::PyPropertySource(t.source.clone())).collect()
    }
    /// Cautions on what the numbers leave out; show them beside the numbers.
    #[getter]
    fn cautions(&self) -> Vec<String> {
        self.0.cautions.clone()
    }
}

crate::table::shows!(PyMixtureExposure, "Vapours, limits, shares, sources and cautions.");

crate::json::pickles!(PyMixtureExposure);

/// Adds concentrations over their limits, given as pairs: the mixture formula of 29 CFR 1910.1000(d)(2).
///
/// >>> from mistcoat import safety
/// >>> round(safety.sum_of_shares([("500 ppm", "1000 ppm"), ("45 ppm", "200 ppm"), ("40 ppm", "200 ppm")]), 3)
/// 0.925
#[pyfunction]
pub fn sum_of_shares(pairs: Vec<(Arg<q::Ratio>, Arg<q::Ratio>)>) -> CallResult<f64> {
    let pairs: Vec<_> = pairs.into_iter().map(|(c, l)| (c.value, l.value)).collect();
    Ok(safety::sum_of_shares(&pairs)?.si())
}

/// Mean concentration over an eight-hour shift of (concentration, time) pieces, nothing in the rest.
///
/// >>> from mistcoat import safety
/// >>> day = [("150 ppm", "2 h"), ("75 ppm", "2 h"), ("50 ppm", "4 h")]
/// >>> round(safety.time_weighted_average(day).to("ppm"), 2)
/// 81.25
#[pyfunction]
pub fn time_weighted_average(pieces: Vec<(Arg<q::Ratio>, Arg<q::Time>)>) -> CallResult<PyRatio> {
    let pieces: Vec<_> = pieces.into_iter().map(|(c, t)| (c.value, t.value)).collect();
    Ok(PyRatio(safety::time_weighted_average(&pieces)?))
}

/// Volume of vapour, at one atmosphere, that so much liquid gives once it has evaporated.
///
/// >>> from mistcoat import safety
/// >>> print(safety.vapour_volume("acetone", "1 mL", temperature="21 degC"))
/// 328 mL
#[pyfunction]
#[pyo3(signature = (liquid, amount, *, temperature))]
#[allow(clippy::needless_pass_by_value, reason = "extracted arguments")]
pub fn vapour_volume(
    liquid: Liquid,
    amount: Arg<q::Volume>,
    temperature: Arg<q::Temperature>,
) -> CallResult<PyVolume> {
    Ok(PyVolume(safety::vapour_volume(&liquid.0, amount.value, temperature.value)?))
}

/// Lower flammable limit of the vapour of a liquid, all evaporated, with the limit and source of each part.
#[pyclass(frozen, eq, name = "FlammableLimit", module = "mistcoat.safety")]
#[derive(Clone, PartialEq)]
pub struct PyFlammableLimit(pub FlammableLimit);

#[pymethods]
impl PyFlammableLimit {
    /// Share of the air by volume.
    #[getter]
    fn limit(&self) -> PyRatio {
        PyRatio(self.0.limit)
    }
    /// Limit of each vapour, in words.
    #[getter]
    fn terms(&self) -> Vec<String> {
        self.0.terms.clone()
    }
    /// Whether any of them is from memory and needs checking against the safety data sheet.
    #[getter]
    fn is_from_memory(&self) -> bool {
        self.0.from_memory
    }
    /// Where each of them stands, and the rule that joins them, with how far to trust it.
    #[getter]
    fn sources(&self) -> Vec<String> {
        self.0.sources.clone()
    }
    /// What goes with the number wherever it is shown; never empty, and who decides comes last.
    #[getter]
    fn cautions(&self) -> Vec<String> {
        self.0.cautions()
    }
    fn __str__(&self) -> String {
        let memory = if self.0.from_memory { " (from memory, check the safety data sheet)" } else { "" };
        format!("{}{memory}", q::show(self.0.limit))
    }
    fn __repr__(&self) -> String {
        format!("<FlammableLimit {}>", self.__str__())
    }
}

crate::json::pickles!(PyFlammableLimit);

/// Lower flammable limit of the vapour of a liquid, all evaporated (Le Chatelier); ``None`` when nothing in it burns.
///
/// >>> from mistcoat import safety
/// >>> 0.02 < safety.lower_flammable_limit("acetone").limit.to("1") < 0.03
/// True
#[pyfunction]
#[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
pub fn lower_flammable_limit(liquid: Liquid) -> CallResult<Option<PyFlammableLimit>> {
    Ok(safety::lower_flammable_limit(&liquid.0)?.map(PyFlammableLimit))
}

/// A closed space in which a liquid has evaporated.
#[pyclass(frozen, eq, name = "Cupboard", module = "mistcoat.safety")]
#[derive(Clone, PartialEq)]
pub struct PyCupboard(pub Cupboard);

#[pymethods]
impl PyCupboard {
    /// Share of the lower flammable limit, evenly mixed: 100 % burns.
    #[getter]
    fn share_of_limit(&self) -> PyRatio {
        PyRatio(self.0.share_of_limit)
    }
    /// Most liquid that keeps the space below a quarter of the limit.
    #[getter]
    fn most_liquid(&self) -> PyVolume {
        PyVolume(self.0.most_liquid)
    }
    /// The lower flammable limit that the shares are measured against.
    #[getter]
    fn limit(&self) -> PyFlammableLimit {
        PyFlammableLimit(self.0.limit.clone())
    }
    /// Cautions on what the numbers leave out; show them beside the numbers.
    #[getter]
    fn cautions(&self) -> Vec<String> {
        self.0.cautions.clone()
    }
    fn __repr__(&self) -> String {
        format!("<Cupboard at {} of the lower flammable limit>", q::show(self.0.share_of_limit))
    }
}

crate::json::pickles!(PyCupboard);

/// How near a closed ``space`` comes to the lower flammable limit when so much liquid evaporates in it; ``None`` when
/// nothing in it burns.
///
/// >>> from mistcoat import safety
/// >>> shelf = safety.cupboard("acetone", "30 mL", space="0.2 m3", temperature="21 degC")
/// >>> shelf.share_of_limit > shelf.share_of_limit.__class__("100 %")  # an open jar is enough
/// True
#[pyfunction]
#[pyo3(signature = (liquid, amount, *, space, temperature))]
#[allow(clippy::needless_pass_by_value, reason = "extracted arguments")]
pub fn cupboard(
    liquid: Liquid,
    amount: Arg<q::Volume>,
    space: Arg<q::Volume>,
    temperature: Arg<q::Temperature>,
) -> CallResult<Option<PyCupboard>> {
    Ok(safety::cupboard(&liquid.0, amount.value, space.value, temperature.value)?.map(PyCupboard))
}

/// How readily a liquid catches fire, with the flash point behind it; its text tells when that is from memory.
#[pyclass(frozen, eq, name = "FlammableLiquid", module = "mistcoat.safety")]
#[derive(Clone, PartialEq)]
pub struct PyFlammableLiquid(pub FlammableLiquid);

#[pymethods]
impl PyFlammableLiquid {
    /// The class of its flash point in words.
    #[getter]
    fn words(&self) -> &'static str {
        self.0.class.words()
    }
    /// Flash point, closed cup; computed for a blend, ``None`` where it has none.
    #[getter]
    fn flash_point(&self) -> Option<PyTemperature> {
        self.0.flash_point.map(PyTemperature)
    }
    /// Whether a flash point behind it is from memory and needs checking against the safety data sheet.
    #[getter]
    fn is_from_memory(&self) -> bool {
        self.0.from_memory
    }
    /// Where flash points and classes stand, with how far to trust each.
    #[getter]
    fn sources(&self) -> Vec<String> {
        self.0.sources.clone()
    }
    /// What to mind; never empty, and who decides comes last.
    #[getter]
    fn cautions(&self) -> Vec<String> {
        self.0.cautions.clone()
    }
    fn __str__(&self) -> String {
        self.0.to_string()
    }
    fn __repr__(&self) -> String {
        format!("<FlammableLiquid: {}>", self.0)
    }
}

crate::json::pickles!(PyFlammableLiquid);

/// How readily a liquid catches fire, by its flash point (computed for a blend).
///
/// >>> from mistcoat import safety
/// >>> print(safety.flammable_class("acetone").words)
/// highly flammable: its vapour burns at room temperature
#[pyfunction]
#[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
pub fn flammable_class(liquid: Liquid) -> CallResult<PyFlammableLiquid> {
    Ok(PyFlammableLiquid(safety::flammable_liquid(&liquid.0)?))
}

/// One caution: heading, text, source.
#[pyclass(frozen, eq, name = "Caution", module = "mistcoat.safety")]
#[derive(Clone, PartialEq)]
pub struct PyCaution(pub Caution);

#[pymethods]
impl PyCaution {
    /// Short key, for example "rags".
    #[getter]
    fn key(&self) -> &str {
        &self.0.key
    }
    /// Heading of one to four words.
    #[getter]
    fn topic(&self) -> &str {
        &self.0.topic
    }
    /// The caution, in words to print on a card.
    #[getter]
    fn text(&self) -> &str {
        &self.0.text
    }
    /// Citation of its source.
    #[getter]
    fn source(&self) -> CallResult<String> {
        Ok(self.0.citation()?.to_string())
    }
    fn __str__(&self) -> String {
        self.0.to_string()
    }
    fn __repr__(&self) -> String {
        format!("<Caution {}>", self.0.key)
    }
}

crate::json::pickles!(PyCaution);

/// The cautions for these paints and liquids and this work; the one that says who decides comes last.
///
/// ``spray``: sprayed, not brushed; ``rinse``: gun or brushes are cleaned; ``workshop``: other people are in the room.
///
/// >>> import mistcoat as mc
/// >>> cream = mc.Paint.typical("alkyd enamel", name="deckhouse cream")
/// >>> spirit = mc.Blend("white spirit")
/// >>> mc.safety.cautions([cream], [spirit], spray=True)[-1].key
/// 'data-sheet'
#[pyfunction]
#[pyo3(signature = (paints, liquids=Vec::new(), *, spray=false, rinse=false, workshop=false))]
#[allow(clippy::needless_pass_by_value, reason = "extracted arguments")]
pub fn cautions(
    paints: Vec<PyRef<'_, PyPaint>>,
    liquids: Vec<Liquid>,
    spray: bool,
    rinse: bool,
    workshop: bool,
) -> CallResult<Vec<PyCaution>> {
    let paints: Vec<&Paint> = paints.iter().map(|p| &p.0).collect();
    let liquids: Vec<&Blend> = liquids.iter().map(|l| &l.0).collect();
    let found = safety::cautions(&paints, &liquids, Work { spray, rinse, workshop })?;
    Ok(found.into_iter().cloned().map(PyCaution).collect())
}
