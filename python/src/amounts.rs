//! How much paint a hidden area takes, and the dry film of a pass, in Python.

use crate::dose::{Share, ThinningArg};
use crate::errors::CallResult;
use crate::estimate::PyEstimate;
use crate::hiding::{SpreadShare, estimate};
use crate::quantity::{Arg, PyLength};
use mistcoat::Answer;
use mistcoat::hiding::{self as h, Amounts, Job};
use mistcoat::quantity::{self as q};
use pyo3::{prelude::*, types::PyString};

/// Paint and thinner for an area.
///
/// >>> from mistcoat import hiding
/// >>> need = hiding.amounts("0.05 m2", dry="12 um", volume_solids="22 %", loss="airbrush")
/// >>> need.paint.low < need.paint.best < need.paint.high
/// True
#[pyclass(frozen, eq, name = "Amounts", module = "mistcoat.hiding")]
#[derive(Clone, PartialEq)]
pub struct PyAmounts(pub Amounts);

#[pymethods]
impl PyAmounts {
    /// Paint as it stands in the bottle.
    #[getter]
    fn paint(&self) -> PyEstimate {
        PyEstimate::kept(Answer::clone(&self.0.paint))
    }
    /// Thinner to go with it.
    #[getter]
    fn thinner(&self) -> PyEstimate {
        PyEstimate::new(self.0.thinner.clone())
    }
    /// Paint and thinner together.
    #[getter]
    fn mix(&self) -> PyEstimate {
        PyEstimate::new(self.0.mix.clone())
    }
    /// Area covered by a volume of paint, after losses.
    #[getter]
    fn practical_rate(&self) -> PyEstimate {
        PyEstimate::new(self.0.practical_rate.clone())
    }
    fn __repr__(&self) -> String {
        format!("<Amounts: paint {}, thinner {}>", self.0.paint, self.0.thinner)
    }
}

crate::json::pickles!(PyAmounts);

/// Paint and thinner for an area at a dry film.
///
/// ``loss`` is the share that does not end on the part, or the name of a tool (airbrush, spray gun, brush, roller) for a
/// usual one. What stays in cup and gun comes on top.
///
/// >>> from mistcoat import hiding
/// >>> need = hiding.amounts("5.2 m2", dry="125 um", volume_solids="65 %", loss=0)
/// >>> print(need.paint)
/// 1 L
#[pyfunction]
#[pyo3(signature = (area, *, dry, volume_solids, thinning=None, loss))]
pub fn amounts(
    area: Arg<q::Area>,
    dry: Arg<q::Length>,
    volume_solids: SpreadShare,
    thinning: Option<ThinningArg>,
    loss: &Bound<'_, PyAny>,
) -> CallResult<PyAmounts> {
    let loss = match loss.cast::<PyString>().map(ToString::to_string) {
        Ok(text) if !text.trim_start().starts_with(|c: char| c.is_ascii_digit() || "+-.".contains(c)) => {
            h::typical_loss(&text)?.share.clone()
        }
        _ => loss.extract::<SpreadShare>()?.estimate("loss"),
    };
    let job = Job {
        area: area.value,
        dry: estimate(&dry, "dry film"),
        volume_solids: volume_solids.estimate("volume solids"),
        thinning: thinning.map_or(mistcoat::dose::Thinning::NONE, |t| t.0),
        loss,
    };
    Ok(PyAmounts(job.amounts()?))
}

/// Dry film left by one pass: the wet film times the volume solids of the mix.
///
/// >>> from mistcoat import hiding
/// >>> print(hiding.dry_film_per_pass("20 um", "15 %"))
/// 3 µm
#[pyfunction]
pub fn dry_film_per_pass(wet: Arg<q::Length>, solids_of_mix: SpreadShare) -> CallResult<PyEstimate> {
    let film =
        h::dry_film_per_pass(&estimate(&wet, "wet film per pass"), &solids_of_mix.estimate("volume solids"))?;
    Ok(PyEstimate::new(film))
}

/// Dry film left by one pass of a spray, even over the swath.
///
/// >>> from mistcoat import hiding
/// >>> print(hiding.dry_film_of_spray(
/// ...     flow="0.5 mL/min", solids_of_mix="15 %", share_that_lands=0.6, swath="20 mm", speed="50 mm/s"))
/// 0.75 µm
#[pyfunction]
#[pyo3(signature = (*, flow, solids_of_mix, share_that_lands, swath, speed))]
pub fn dry_film_of_spray(
    flow: Arg<q::VolumeRate>,
    solids_of_mix: Share,
    share_that_lands: Share,
    swath: Arg<q::Length>,
    speed: Arg<q::Velocity>,
) -> CallResult<PyLength> {
    let film = h::dry_film_of_spray(
        flow.value,
        solids_of_mix.fraction()?,
        share_that_lands.fraction()?,
        swath.value,
        speed.value,
    )?;
    Ok(PyLength(film))
}
