//! The edge at a mask, in Python.

use crate::errors::CallResult;
use crate::estimate::{PyEstimate, warn_all};
use crate::film::PyFilm;
use crate::quantity::{Arg, PyLength};
use mistcoat::Estimate;
use mistcoat::estimate::ModelError;
use mistcoat::film::{Mask, MaskEdge};
use mistcoat::quantity as q;
use pyo3::prelude::*;

fn estimate(arg: &Arg<q::Length>, what: &str) -> Estimate<q::Length> {
    use q::Quantity as _;
    Estimate::relative(arg.value, &[ModelError::new(what, arg.std / arg.value.si().abs())])
}

/// What coats like this one leave at the edge of a mask: the step of the film, the ridge that the wet film draws up at the
/// wall of the tape, how far it bleeds along a channel under it, and when to lift it.
///
/// ``film`` is one wet coat of a ``Mix``; ``coats`` of it (1 to 100) are laid, each dry before the next. ``tape`` thickness (1 um
/// to 5 mm) is 100 um and the ``gap`` under its edge (1 nm to 1 mm) 0.3 um unless given; along the grain of wood a gap is wider.
/// The ridge follows from surface tension and how long the film flows, good to a factor 2 to 3; the bleed is an upper
/// bound where there is a gap, which is hardly ever known: compare mixes. Raises ``RangeError``
/// for values outside, a film whose flow is not known, one over others, or one without solids.
///
/// >>> import mistcoat as mc
/// >>> paint = mc.Paint.typical("solvent lacquer", name="hull green")
/// >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
/// >>> def edge(thinner, coats):
/// ...     mix = paint.thin("n-butyl acetate", thinner=thinner, paint=1)
/// ...     return mc.mask_edge(mc.Film(mix, wet_thickness="8 um", room=room), coats=coats)
/// >>> edge(2, 4).height < edge(1, 4).height  # pass for pass, more thinner leaves less
/// True
/// >>> edge(2, 6).ridge.best > edge(1, 4).ridge.best  # to the same dry film it does not
/// True
#[pyfunction]
#[pyo3(signature = (film, *, coats=1, tape=None, gap=None))]
#[allow(clippy::needless_pass_by_value, reason = "keyword arguments of Python")]
pub fn mask_edge(
    py: Python<'_>,
    film: PyRef<'_, PyFilm>,
    coats: u32,
    tape: Option<Arg<q::Length>>,
    gap: Option<Arg<q::Length>>,
) -> CallResult<PyMaskEdge> {
    let mut mask = Mask::usual()?;
    if let Some(tape) = tape {
        mask = mask.with_tape(&estimate(&tape, "thickness of the tape"))?;
    }
    if let Some(gap) = gap {
        mask = mask.with_gap(&estimate(&gap, "gap under the tape"))?;
    }
    let film = film.0.clone();
    let edge = py.detach(|| film.dry()?.mask_edge(&mask, coats))?;
    warn_all(py, &edge.warnings)?;
    Ok(PyMaskEdge(edge))
}

/// The answer to ``mask_edge``.
///
/// >>> import mistcoat as mc
/// >>> mix = mc.Paint.typical("solvent lacquer", name="hull green").thin("n-butyl acetate", thinner=1, paint=1)
/// >>> edge = mc.mask_edge(mc.Film(mix, wet_thickness="8 um", room=mc.Room(temperature="21 degC", relative_humidity="50 %")), coats=3)
/// >>> edge.height > edge.step.best
/// True
#[pyclass(frozen, eq, name = "MaskEdge", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyMaskEdge(pub MaskEdge);

#[pymethods]
impl PyMaskEdge {
    /// Coats laid, each dry before the next.
    #[getter]
    fn coats(&self) -> u32 {
        self.0.coats
    }
    /// Dry film of all coats.
    #[getter]
    fn step(&self) -> PyEstimate {
        PyEstimate::new(self.0.step.clone())
    }
    /// Ridge at the edge, above the film.
    #[getter]
    fn ridge(&self) -> PyEstimate {
        PyEstimate::kept(self.0.ridge.clone())
    }
    /// Top of the ridge above the face under the mask, best value.
    #[getter]
    fn height(&self) -> PyLength {
        PyLength(self.0.height())
    }
    /// How far paint creeps along a channel under the mask, where there is one.
    #[getter]
    fn bleed(&self) -> PyEstimate {
        PyEstimate::kept(self.0.bleed.clone())
    }
    /// Earliest time to lift the mask, counted from the last coat: touch dry; ``None`` for a coat without one.
    #[getter]
    fn lift_from(&self) -> Option<PyEstimate> {
        self.0.lift_from.clone().map(PyEstimate::kept)
    }
    /// Latest time before the film is hard and chips along the edge: block-free; ``None`` for a coat without one.
    #[getter]
    fn lift_until(&self) -> Option<PyEstimate> {
        self.0.lift_until.clone().map(PyEstimate::kept)
    }
    /// Warnings of this result, in words; empty when there are none.
    #[getter]
    fn warnings(&self) -> Vec<String> {
        self.0.warnings.iter().map(|w| w.message.clone()).collect()
    }
    fn __str__(&self) -> String {
        self.0.to_string()
    }
    fn __repr__(&self) -> String {
        format!("<MaskEdge: {}>", self.0)
    }
}

crate::json::travels!(PyMaskEdge, "The answer");
