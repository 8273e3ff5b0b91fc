//! How a coat lies down, in Python: levelling, sag, blush, the window of the wet film.

use crate::dict::Ordered;
use crate::errors::CallResult;
use crate::estimate::{PyEstimate, PyWorking, warn_all};
use crate::film::PyFilm;
use crate::quantity::{Arg, PyFrequency, PyLength, PyRatio, PyTemperature, PyVelocity};
use mistcoat::Estimate;
use mistcoat::film::{
    Blush, FilmWindow, Flow, Lay, Ripple, hanging_thickness as hangs, levelling_rate as rate,
    sag_speed as speed,
};
use mistcoat::quantity::{self as q, Quantity};
use pyo3::prelude::*;

/// A ripple from what was given: its wavelength, drops, or the usual one.
pub fn ripple(wavelength: Option<Arg<q::Length>>, drops: Option<Arg<q::Length>>) -> mistcoat::Result<Ripple> {
    match (wavelength, drops) {
        (Some(w), _) => Ripple::new(&estimate(w.value, w.std, "wavelength of the ripple")),
        (None, Some(d)) => Ripple::of_drops(&estimate(d.value, d.std, "drop size")),
        (None, None) => Ripple::usual(),
    }
}

fn estimate<Q: Quantity>(best: Q, std: f64, what: &str) -> Estimate<Q> {
    Estimate::relative(best, &[mistcoat::estimate::ModelError::new(what, std / best.si().abs())])
}

/// A yield stress with its spread; zero has none.
pub fn stress(given: &Arg<q::Pressure>) -> Estimate<q::Pressure> {
    if given.value.si() > 0.0 {
        estimate(given.value, given.std, "yield stress")
    } else {
        Estimate::exact(given.value)
    }
}

pub fn upright(steepness: Option<Arg<q::Ratio>>) -> q::Ratio {
    steepness.map_or_else(|| q::Ratio::from_si(1.0), |s| s.value)
}

/// How a wet coat flows and thickens, for a ``Film`` that is not of a ``Mix``: ``viscosity`` of the wet coat at
/// ``temperature``, ``thicker`` a list of (volume solids, viscosity) it comes to as it dries, in rising order.
///
/// ``surface_tension`` is 27 mN/m and ``density`` 1 g/mL, each within 10 %, unless given. ``yield_stress`` is that of a coat that
/// stiffens at rest, 0 to 100 Pa; none unless given. Estimates carry their spread on.
/// Raises ``RangeError`` for values out of order or range.
///
/// >>> import mistcoat as mc
/// >>> flow = mc.Flow("60 mPa.s", temperature="21 degC", thicker=[("30 %", "1 Pa.s")], surface_tension="25 mN/m")
/// >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
/// >>> blend = mc.Blend({"n-butyl acetate": 1}, basis="mass")
/// >>> film = mc.Film(blend, wet_thickness="20 um", room=room, solids="15 %", binder_tg="50 degC")
/// >>> 0 <= mc.lay(flow.on(film)).levelling.to("%") < 100
/// True
#[pyclass(frozen, eq, name = "Flow", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyFlow(pub Flow);

#[pymethods]
impl PyFlow {
    #[new]
    #[pyo3(signature = (viscosity, *, temperature, thicker=None, surface_tension=None, density=None,
        yield_stress=None))]
    #[allow(clippy::needless_pass_by_value, reason = "keyword arguments of Python")]
    fn new(
        viscosity: Arg<q::DynamicViscosity>,
        temperature: Arg<q::Temperature>,
        thicker: Option<Vec<(Arg<q::Ratio>, Arg<q::DynamicViscosity>)>>,
        surface_tension: Option<Arg<q::SurfaceTension>>,
        density: Option<Arg<q::Density>>,
        yield_stress: Option<Arg<q::Pressure>>,
    ) -> CallResult<Self> {
        let wet = estimate(viscosity.value, viscosity.std, "viscosity of the wet coat");
        let mut flow = Flow::new(&wet, temperature.value)?;
        for (solids, eta) in thicker.unwrap_or_default() {
            let eta = estimate(eta.value, eta.std, "viscosity of the thicker coat");
            flow = flow.thickens_to(solids.value.try_into()?, &eta)?;
        }
        if let Some(s) = surface_tension {
            flow = flow.with_surface_tension(&estimate(s.value, s.std, "surface tension"))?;
        }
        if let Some(d) = density {
            flow = flow.with_density(&estimate(d.value, d.std, "density of the wet coat"))?;
        }
        if let Some(y) = yield_stress {
            flow = flow.with_yield_stress(&stress(&y))?;
        }
        Ok(Self(flow))
    }
    /// The same film with this flow.
    fn on(&self, film: &Bound<'_, PyFilm>) -> PyFilm {
        PyFilm(film.get().0.clone().with_flow(self.0.clone()))
    }
    /// Viscosity of the wet coat.
    #[getter]
    fn viscosity(&self) -> PyEstimate {
        PyEstimate::new(self.0.viscosity().clone())
    }
    /// Surface tension of the wet coat.
    #[getter]
    fn surface_tension(&self) -> PyEstimate {
        PyEstimate::new(self.0.surface_tension().clone())
    }
    /// Density of the wet coat.
    #[getter]
    fn density(&self) -> PyEstimate {
        PyEstimate::new(self.0.density().clone())
    }
    /// Yield stress of the wet coat; ``None`` unless given.
    #[getter]
    fn yield_stress(&self) -> Option<PyEstimate> {
        self.0.yield_stress().cloned().map(PyEstimate::new)
    }
    fn __repr__(&self) -> String {
        format!("<Flow: {} at {} wet>", self.0.viscosity(), q::show(self.0.temperature()))
    }
}

crate::json::travels!(PyFlow, "The flow");

/// Rate at which a ripple in a wet film goes flat; its height falls as exp(-rate x time). Orchard's film of any depth.
///
/// Every argument must be above zero, else ``RangeError``.
///
/// >>> import mistcoat as mc
/// >>> mc.levelling_rate(surface_tension="25 mN/m", viscosity="100 mPa.s", thickness="50 um", wavelength="2 mm").to("1/s") > 0.9
/// True
#[pyfunction]
#[pyo3(signature = (*, surface_tension, viscosity, thickness, wavelength))]
#[allow(clippy::needless_pass_by_value, reason = "keyword arguments of Python")]
pub fn levelling_rate(
    surface_tension: Arg<q::SurfaceTension>,
    viscosity: Arg<q::DynamicViscosity>,
    thickness: Arg<q::Length>,
    wavelength: Arg<q::Length>,
) -> CallResult<PyFrequency> {
    Ok(PyFrequency(rate(surface_tension.value, viscosity.value, thickness.value, wavelength.value)?))
}

/// Speed of the surface of a wet coat that slides down a face, ``rho g h^2 steepness/(2 viscosity)``.
///
/// ``steepness`` is the sine of the angle of the face to the horizontal: "100 %" upright, "50 %" at 30 degrees. Raises
/// ``RangeError`` for values not above zero, or a steepness outside 0 to 100 %.
///
/// >>> import mistcoat as mc
/// >>> round(mc.sag_speed(density="1 g/mL", viscosity="100 mPa.s", thickness="50 um").to("mm/s"), 3)
/// 0.123
#[pyfunction]
#[pyo3(signature = (*, density, viscosity, thickness, steepness=None))]
#[allow(clippy::needless_pass_by_value, reason = "keyword arguments of Python")]
pub fn sag_speed(
    density: Arg<q::Density>,
    viscosity: Arg<q::DynamicViscosity>,
    thickness: Arg<q::Length>,
    steepness: Option<Arg<q::Ratio>>,
) -> CallResult<PyVelocity> {
    Ok(PyVelocity(speed(density.value, viscosity.value, thickness.value, upright(steepness))?))
}

/// Thickest coat that hangs on a face without sliding, ``yield_stress/(rho g steepness)``; read the other way, a stripe of 100 um
/// that stays put on an upright card shows a yield stress of 1 Pa.
///
/// Paints that stiffen at rest have 0.5 to 5 Pa undiluted (common practice, from memory); thinning weakens it with the third power
/// of the solids. Raises ``RangeError`` outside 0 to 100 Pa and for a level face.
///
/// >>> import mistcoat as mc
/// >>> round(mc.hanging_thickness(yield_stress="1 Pa", density="1 g/mL").to("um"))
/// 102
#[pyfunction]
#[pyo3(signature = (*, yield_stress, density, steepness=None))]
#[allow(clippy::needless_pass_by_value, reason = "keyword arguments of Python")]
pub fn hanging_thickness(
    yield_stress: Arg<q::Pressure>,
    density: Arg<q::Density>,
    steepness: Option<Arg<q::Ratio>>,
) -> CallResult<PyLength> {
    Ok(PyLength(hangs(yield_stress.value, density.value, upright(steepness))?))
}

/// How a coat lies down: ripple left when it sets, slide on a face, blush, and which limit is hit first.
///
/// ``wavelength`` of the ripple from hill to hill, 2 mm (the orange peel the eye sees) unless given; or ``drops``, the diameter
/// of the drops that left it: ten diameters. ``steepness``: sine of the angle of the face to the horizontal, upright unless
/// given. Raises ``RangeError`` for a film whose flow is not known: take that of a ``Mix``, or ``Flow(...).on(film)``. The
/// limits (a fifth of the ripple, 1.6 mm) are common practice and judgement; wavelength goes in with its fourth power.
///
/// >>> import mistcoat as mc
/// >>> mix = mc.Paint.typical("solvent lacquer", name="hull green").thin("n-butyl acetate", thinner=1, paint=1)
/// >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
/// >>> thin, thick = (mc.lay(mc.Film(mix, wet_thickness=h, room=room)) for h in ("15 um", "60 um"))
/// >>> thick.levelling.best < thin.levelling.best and thick.sag.best > thin.sag.best
/// True
#[pyfunction]
#[pyo3(signature = (film, *, wavelength=None, drops=None, steepness=None))]
#[allow(clippy::needless_pass_by_value, reason = "keyword arguments of Python")]
pub fn lay(
    py: Python<'_>,
    film: PyRef<'_, PyFilm>,
    wavelength: Option<Arg<q::Length>>,
    drops: Option<Arg<q::Length>>,
    steepness: Option<Arg<q::Ratio>>,
) -> CallResult<PyLay> {
    let (ripple, face) = (ripple(wavelength, drops)?, upright(steepness));
    let film = film.0.clone();
    let lay = py.detach(|| film.dry()?.lay(&ripple, face))?;
    warn_all(py, &lay.warnings)?;
    Ok(PyLay(lay))
}

/// Thinnest wet film that levels and thickest that does not run, with this film's paint, room and substrate.
///
/// Arguments as ``lay``.
///
/// >>> import mistcoat as mc
/// >>> mix = mc.Paint.typical("solvent lacquer", name="hull green").thin("n-butyl acetate", thinner=1, paint=1)
/// >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
/// >>> window = mc.film_window(mc.Film(mix, wet_thickness="25 um", room=room))
/// >>> 5 < window.thinnest.to("um") < 50
/// True
#[pyfunction]
#[pyo3(signature = (film, *, wavelength=None, drops=None, steepness=None))]
#[allow(clippy::needless_pass_by_value, reason = "keyword arguments of Python")]
pub fn film_window(
    py: Python<'_>,
    film: PyRef<'_, PyFilm>,
    wavelength: Option<Arg<q::Length>>,
    drops: Option<Arg<q::Length>>,
    steepness: Option<Arg<q::Ratio>>,
) -> CallResult<PyFilmWindow> {
    let (ripple, face) = (ripple(wavelength, drops)?, upright(steepness));
    let film = film.0.clone();
    let window = py.detach(|| film.window(&ripple, face))?;
    warn_all(py, &window.warnings)?;
    Ok(PyFilmWindow(window))
}

/// The answer to ``lay``.
#[pyclass(frozen, eq, name = "Lay", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyLay(pub Lay);

#[pymethods]
impl PyLay {
    /// Share of the height of the ripple that is left, 0 to 1.
    #[getter]
    fn levelling(&self) -> PyEstimate {
        PyEstimate::kept(self.0.levelling.clone())
    }
    /// Way of the surface down the face.
    #[getter]
    fn sag(&self) -> PyEstimate {
        PyEstimate::kept(self.0.sag.clone())
    }
    /// Limit humidity and margin; ``None`` for a waterborne coat.
    #[getter]
    fn blush(&self) -> Option<PyBlush> {
        self.0.blush.clone().map(PyBlush)
    }
    /// Wavelength of the ripple.
    #[getter]
    fn wavelength(&self) -> PyEstimate {
        PyEstimate::new(self.0.ripple.wavelength().clone())
    }
    /// Factor by which the coat keeps from each limit ("levelling", "sag", "blush"), nearest first: above 1 it holds.
    #[getter]
    fn factors(&self) -> Ordered<f64> {
        Ordered(self.0.factors.iter().map(|(l, f)| (l.word().to_owned(), *f)).collect())
    }
    /// The limit that is hit first.
    #[getter]
    fn first_limit(&self) -> Option<&'static str> {
        self.0.first().map(|(limit, _)| limit.word())
    }
    /// Whether every limit holds.
    #[getter]
    fn lies_well(&self) -> bool {
        self.0.lies_well()
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
        format!("<Lay: {}>", self.0)
    }
}

crate::json::travels!(PyLay, "The answer");

/// The humidity at which a coat turns white with dew, and how far its room is from it.
#[pyclass(frozen, eq, name = "Blush", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyBlush(pub Blush);

#[pymethods]
impl PyBlush {
    /// Highest relative humidity without dew on the coat, 0 to 1.
    #[getter]
    fn limit(&self) -> PyEstimate {
        PyEstimate::kept(self.0.limit.clone())
    }
    /// Coldest film temperature less the dew point of the room, in K; below zero there is dew.
    #[getter]
    fn margin(&self) -> PyEstimate {
        PyEstimate::new(self.0.margin.clone())
    }
    /// Coldest the film gets in this room.
    #[getter]
    fn coldest(&self) -> PyTemperature {
        PyTemperature(self.0.coldest)
    }
    /// Relative humidity of the room.
    #[getter]
    fn humidity(&self) -> PyRatio {
        PyRatio(self.0.humidity)
    }
    /// Whether dew forms in this room.
    #[getter]
    fn blushes(&self) -> bool {
        self.0.blushes()
    }
    /// The steps, with numbers and sources.
    fn working(&self) -> PyWorking {
        PyWorking(self.0.limit.working.clone())
    }
    fn __str__(&self) -> String {
        self.0.to_string()
    }
    fn __repr__(&self) -> String {
        format!("<Blush: {}>", self.0)
    }
}

crate::json::travels!(PyBlush, "The answer");

/// The answer to ``film_window``.
#[pyclass(frozen, eq, name = "FilmWindow", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyFilmWindow(pub FilmWindow);

#[pymethods]
impl PyFilmWindow {
    /// Thinnest wet film that levels; ``None`` when there is no such end, see ``warnings``.
    #[getter]
    fn thinnest(&self) -> Option<PyEstimate> {
        self.0.thinnest.clone().map(PyEstimate::kept)
    }
    /// Thickest wet film that does not run; ``None`` when there is no such end.
    #[getter]
    fn thickest(&self) -> Option<PyEstimate> {
        self.0.thickest.clone().map(PyEstimate::kept)
    }
    /// Whether no thickness both levels and holds.
    #[getter]
    fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
    /// An empty window, or one without an end.
    #[getter]
    fn warnings(&self) -> Vec<String> {
        self.0.warnings.iter().map(|w| w.message.clone()).collect()
    }
    fn __str__(&self) -> String {
        self.0.to_string()
    }
    fn __repr__(&self) -> String {
        format!("<FilmWindow: {}>", self.0)
    }
}

crate::json::travels!(PyFilmWindow, "The answer");
