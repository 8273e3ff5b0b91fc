//! What is in the air, against its limits: `mistcoat.safety`.

use crate::blend::Liquid;
use crate::errors::CallResult;
use crate::quantity::{Arg, PyRatio, PyVolume};
use mistcoat::error::unknown_name;
use mistcoat::quantity::{self as q, Quantity};
use mistcoat::safety::{self, Authority, MixtureExposure};
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
