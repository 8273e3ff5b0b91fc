//! Portions of cleaner and what they leave: `mistcoat.rinse`.

use crate::dose::Share;
use crate::errors::CallResult;
use crate::estimate::PyEstimate;
use crate::quantity::{Arg, PyVolume};
use mistcoat::quantity::{self as q, Quantity};
use mistcoat::rinse::{self as r, Gun, Split};
use pyo3::prelude::*;

/// Equal portions of cleaner.
#[pyclass(frozen, eq, name = "Split", module = "mistcoat.rinse")]
#[derive(Clone, PartialEq)]
pub struct PySplit(pub Split);

#[pymethods]
impl PySplit {
    /// Number of equal portions.
    #[getter]
    fn portions(&self) -> u32 {
        self.0.portions
    }
    /// Size of each portion of cleaner; all are alike.
    #[getter]
    fn each(&self) -> PyVolume {
        PyVolume(self.0.each)
    }
    /// Cleaner in all portions together.
    #[getter]
    fn total(&self) -> PyVolume {
        PyVolume(self.0.total)
    }
    fn __str__(&self) -> String {
        format!("{} × {}, {} in all", self.0.portions, q::show(self.0.each), q::show(self.0.total))
    }
    fn __repr__(&self) -> String {
        format!("<Split: {}>", self.__str__())
    }
}

crate::json::pickles!(PySplit);

/// Share of the old paint left after portions of cleaner: the product of h/(h + v).
///
/// >>> from mistcoat import rinse
/// >>> print(rinse.fraction_left("0.15 mL", ("2 mL",) * 3))
/// 0.034 %
#[pyfunction]
#[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
pub fn fraction_left(
    hold_up: Arg<q::Volume>,
    portions: Vec<Arg<q::Volume>>,
) -> CallResult<crate::quantity::PyRatio> {
    let portions: Vec<q::Volume> = portions.iter().map(|p| p.value).collect();
    Ok(crate::quantity::PyRatio(r::fraction_left(hold_up.value, &portions)?))
}

/// Portions of this size until no more than ``fraction`` is left.
///
/// >>> from mistcoat import rinse
/// >>> rinse.portions_needed("0.15 mL", "2 mL", "0.1 %")
/// 3
#[pyfunction]
pub fn portions_needed(hold_up: Arg<q::Volume>, portion: Arg<q::Volume>, fraction: Share) -> CallResult<u32> {
    Ok(r::portions_needed(hold_up.value, portion.value, q::Ratio::from_si(fraction.0))?)
}

/// The size of ``portions`` equal portions that leave ``fraction``. Unequal ones need more in all.
///
/// >>> from mistcoat import rinse
/// >>> print(rinse.equal_portions("0.15 mL", "0.1 %", 3))
/// 3 × 1.35 mL, 4.05 mL in all
#[pyfunction]
pub fn equal_portions(hold_up: Arg<q::Volume>, fraction: Share, portions: u32) -> CallResult<PySplit> {
    Ok(PySplit(r::equal_portions(hold_up.value, q::Ratio::from_si(fraction.0), portions)?))
}

/// The split with the least cleaner when a portion must be at least ``least_portion`` to wet cup and passages.
///
/// >>> from mistcoat import rinse
/// >>> print(rinse.best_split("0.15 mL", "0.1 %", least_portion="1 mL"))
/// 4 × 1 mL, 4 mL in all
#[pyfunction]
#[pyo3(signature = (hold_up, fraction, *, least_portion))]
pub fn best_split(
    hold_up: Arg<q::Volume>,
    fraction: Share,
    least_portion: Arg<q::Volume>,
) -> CallResult<PySplit> {
    Ok(PySplit(r::best_split(hold_up.value, q::Ratio::from_si(fraction.0), least_portion.value)?))
}

/// What endlessly many portions would need, h ln(1/f): the floor under every split.
///
/// >>> from mistcoat import rinse
/// >>> round(rinse.least_cleaner("0.15 mL", 0.001).to("mL"), 2)
/// 1.04
#[pyfunction]
pub fn least_cleaner(hold_up: Arg<q::Volume>, fraction: Share) -> CallResult<PyVolume> {
    Ok(PyVolume(r::least_cleaner(hold_up.value, q::Ratio::from_si(fraction.0))?))
}

/// Cheap cleaner first, then good thinner that carries the cheap one out: (cheap, good).
///
/// ``cheap_left`` is the share of cheap cleaner allowed in what the gun keeps. Test that the two mix.
///
/// >>> from mistcoat import rinse
/// >>> cheap, good = rinse.cheap_then_good("0.15 mL", "0.01 %", least_portion="1 mL", cheap_left="5 %")
/// >>> cheap.portions, good.portions
/// (3, 2)
#[pyfunction]
#[pyo3(signature = (hold_up, fraction, *, least_portion, cheap_left))]
pub fn cheap_then_good(
    hold_up: Arg<q::Volume>,
    fraction: Share,
    least_portion: Arg<q::Volume>,
    cheap_left: Share,
) -> CallResult<(PySplit, PySplit)> {
    let ratio = |s: Share| q::Ratio::from_si(s.0);
    let plan = r::cheap_then_good(hold_up.value, ratio(fraction), least_portion.value, ratio(cheap_left))?;
    Ok((PySplit(plan.cheap), PySplit(plan.good)))
}

/// Liquid that a kind of gun usually keeps after pouring out; a judgement, factor 2 to 3. ``guns()`` lists the kinds.
///
/// >>> from mistcoat import rinse
/// >>> print(rinse.typical_hold_up("gravity airbrush"))
/// 0.15 mL (0.05 mL to 0.4 mL)
#[pyfunction]
pub fn typical_hold_up(gun: &str) -> CallResult<PyEstimate> {
    Ok(PyEstimate::new(Gun::find(gun)?.hold_up.clone()))
}

/// Kinds of gun that ``typical_hold_up`` knows.
///
/// >>> from mistcoat import rinse
/// >>> len(rinse.guns()) > 1
/// True
#[pyfunction]
pub fn guns() -> CallResult<Vec<&'static str>> {
    Ok(Gun::list()?.iter().map(|g| g.name.as_str()).collect())
}

/// Hold-up from two weighings of the gun: clean and dry, and poured out. ``std`` is the standard uncertainty of one.
///
/// >>> from mistcoat import rinse
/// >>> h = rinse.weighed_hold_up(dry="112.40 g", wet="112.53 g", liquid="0.87 g/mL", std="0.01 g")
/// >>> print(h.best)
/// 0.149 mL
#[pyfunction]
#[pyo3(signature = (*, dry, wet, liquid, std))]
pub fn weighed_hold_up(
    dry: Arg<q::Mass>,
    wet: Arg<q::Mass>,
    liquid: Arg<q::Density>,
    std: Arg<q::Mass>,
) -> CallResult<PyEstimate> {
    Ok(PyEstimate::new(r::weighed_hold_up(dry.value, wet.value, liquid.value, std.value)?))
}

/// The cautions that go with every plan.
///
/// >>> from mistcoat import rinse
/// >>> len(rinse.cleaning_cautions()) > 0
/// True
#[pyfunction]
pub fn cleaning_cautions() -> CallResult<Vec<&'static str>> {
    Ok(r::cautions()?.iter().map(|c| c.text.as_str()).collect())
}
