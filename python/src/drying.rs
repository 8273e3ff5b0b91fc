//! `Drying`: the course of a coat and the marks read off it, in Python.

use crate::dict::Ordered;
use crate::errors::CallResult;
use crate::estimate::{PyEstimate, PyWorking};
use crate::film::{Curve, Curves, PyFilm, ZERO_CELSIUS};
use crate::quantity::{Arg, PyRatio, PyTemperature};
use mistcoat::film::Drying;
use mistcoat::quantity::{self as q, Quantity};
use mistcoat::working::escape_html;
use mistcoat::{Answer, Result as CoreResult};
use pyo3::prelude::*;

/// The course of one drying coat.
///
/// The curves are float64 arrays with one entry for each of ``time_s``; ``columns()`` has them all under names with their
/// units, ready for a data frame. "Lost" counts only what the coat arrived with, not water taken up from the air.
#[pyclass(frozen, eq, name = "Drying", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyDrying(pub Drying);

impl PyDrying {
    /// The dew was told when the coat was dried; telling it again with every time would be noise.
    pub fn estimate<Q: crate::quantity::PyQuantity>(
        py: Python<'_>,
        answer: CoreResult<Answer<Q>>,
    ) -> CallResult<PyEstimate> {
        let mut answer = answer?;
        answer.warnings.clear();
        Ok(PyEstimate::answer(py, answer)?)
    }

    fn by_species(&self, curves: Vec<Vec<f64>>) -> Curves {
        Ordered::zip(self.0.species(), curves.into_iter().map(Curve))
    }

    fn seconds(&self) -> Vec<f64> {
        self.0.times().iter().map(|t| t.si()).collect()
    }

    fn celsius(&self) -> Vec<f64> {
        self.0.temperatures().iter().map(|t| t.si() - ZERO_CELSIUS).collect()
    }

    fn micrometres(&self) -> Vec<f64> {
        self.0.thicknesses().iter().map(|h| h.si() * 1e6).collect()
    }
}

#[pymethods]
impl PyDrying {
    /// The coat that dried.
    #[getter]
    fn film(&self) -> PyFilm {
        PyFilm(self.0.film().clone())
    }
    /// Names of the volatile species; a petroleum cut appears as its surrogates, water from the air comes last.
    #[getter]
    fn species(&self) -> Vec<String> {
        self.0.species().to_vec()
    }
    /// Times in seconds, from zero.
    #[getter]
    fn time_s(&self) -> Curve {
        Curve(self.seconds())
    }
    /// Share of the volatile mass that the coat arrived with and still holds, 1 to 0.
    #[getter]
    fn solvent_left(&self) -> Curve {
        Curve(self.0.solvent_left().to_vec())
    }
    /// Film temperature in °C.
    #[getter(temperature_degC)]
    fn temperature(&self) -> Curve {
        Curve(self.celsius())
    }
    /// Film thickness in µm, solids and liquid.
    #[getter]
    fn thickness_um(&self) -> Curve {
        Curve(self.micrometres())
    }
    /// By species: mass fraction among the volatiles in the film.
    #[getter]
    fn composition(&self) -> Curves {
        self.by_species(self.0.composition())
    }
    /// By species: mass, as a share of the volatile mass that the coat arrived with.
    #[getter]
    fn amounts(&self) -> Curves {
        self.by_species(self.0.amounts().to_vec())
    }
    /// All curves by names with their units, ready for ``pandas.DataFrame`` or ``polars.DataFrame``.
    fn columns(&self) -> Curves {
        let mut all = vec![
            ("time_s".to_owned(), self.seconds()),
            ("solvent_left".to_owned(), self.0.solvent_left().to_vec()),
            ("temperature_degC".to_owned(), self.celsius()),
            ("thickness_um".to_owned(), self.micrometres()),
        ];
        let fractions = self.0.composition();
        all.extend(
            self.0.species().iter().zip(fractions).map(|(name, c)| (format!("{name} mass fraction"), c)),
        );
        Ordered(all.into_iter().map(|(name, curve)| (name, Curve(curve))).collect())
    }
    /// Mass fractions of the volatiles in the film at one time, by species.
    fn composition_at(&self, time: Arg<q::Time>) -> CallResult<std::collections::BTreeMap<String, f64>> {
        Ok(self.0.composition_at(time.value)?.into_iter().map(|(name, share)| (name, share.si())).collect())
    }
    /// When 90 % by mass of the volatile matter that the wet coat arrived with has left.
    ///
    /// ISO 4618 describes flash-off in words (most of the volatile matter leaves before the next coat) and gives no number;
    /// 90 % is the number used here, ``time_to_lose`` has any other. Raises ``RangeError`` when the coat never gets there.
    #[getter]
    fn flash_off(&self, py: Python<'_>) -> CallResult<PyEstimate> {
        let answer = py.detach(|| self.0.flash_off());
        Self::estimate(py, answer)
    }
    /// When this share (by mass) of the volatile matter has left, more than 0 and at most 99.9 %.
    ///
    /// Raises ``RangeError`` when the coat does not lose it while it is followed; the message says what holds it.
    fn time_to_lose(&self, py: Python<'_>, share: Arg<q::Ratio>) -> CallResult<PyEstimate> {
        let answer = py.detach(|| self.0.flash_off_at(share.value));
        Self::estimate(py, answer)
    }
    /// When a light touch takes nothing away: the film has come to 55 K above its glass transition (set-to-touch of
    /// ASTM D1640), or the particles of a waterborne coat touch and its water is down to 5 % by volume.
    ///
    /// Raises ``RangeError`` for a coat without such a binder, and for one that stays soft; for paints that harden by oxygen
    /// the message has the range of common practice.
    #[getter]
    fn touch_dry(&self, py: Python<'_>) -> CallResult<PyEstimate> {
        let answer = py.detach(|| self.0.touch_dry());
        Self::estimate(py, answer)
    }
    /// When the part may be handled and masked: block-free, 21 K above the glass transition; painted faces pressed
    /// together for seconds come apart clean.
    ///
    /// Raises ``RangeError`` as ``touch_dry``.
    #[getter]
    fn handle(&self, py: Python<'_>) -> CallResult<PyEstimate> {
        let answer = py.detach(|| self.0.block_free());
        Self::estimate(py, answer)
    }
    /// The earliest sensible time for another coat of another paint: block-free, the same as ``handle``.
    ///
    /// No published rule says when a lacquer may be recoated; a next coat with strong solvents may lift it even then.
    /// For passes of the same coat see ``flash_off``. Raises ``RangeError`` as ``touch_dry``.
    #[getter]
    fn recoat(&self, py: Python<'_>) -> CallResult<PyEstimate> {
        self.handle(py)
    }
    /// Highest humidity without dew on this coat, and the margin in its room.
    ///
    /// Raises ``RangeError`` for a waterborne coat, which does not blush.
    #[getter]
    fn blush(&self, py: Python<'_>) -> CallResult<crate::lay::PyBlush> {
        Ok(crate::lay::PyBlush(py.detach(|| self.0.blush())?))
    }
    /// Viscosity of the film in mPa s, one for each of ``time_s``.
    ///
    /// Raises ``RangeError`` for a film whose flow is not known: take that of a ``Mix``, or ``Flow(...).on(film)``.
    #[getter(viscosity_mPa_s)]
    fn viscosity(&self, py: Python<'_>) -> CallResult<Curve> {
        let course = py.detach(|| self.0.viscosities())?;
        Ok(Curve(course.iter().map(|v| v.si() * 1e3).collect()))
    }
    /// Solvent left at a time, as a share of its volume and that of the solids; water from the air does not count.
    ///
    /// Raises ``RangeError`` for a negative time, one beyond ``until``, or a coat without solids.
    fn residual_solvent(&self, py: Python<'_>, time: Arg<q::Time>) -> CallResult<PyEstimate> {
        let answer = py.detach(|| self.0.residual_solvent(time.value));
        Self::estimate(py, answer)
    }
    /// Most volatile matter lost while the coat was followed.
    #[getter]
    fn most_lost(&self) -> PyRatio {
        PyRatio(self.0.most_lost())
    }
    /// Lowest film temperature.
    #[getter]
    fn coldest(&self) -> PyTemperature {
        PyTemperature(self.0.coldest())
    }
    /// What to mind: dew on the cold film, missing activity parameters; empty when there is nothing.
    #[getter]
    fn warnings(&self) -> Vec<String> {
        self.0.warnings().iter().map(|w| w.message.clone()).collect()
    }
    /// The steps behind the curves, with numbers and sources.
    fn working(&self) -> PyWorking {
        PyWorking(self.0.working())
    }
    /// The course as a matplotlib figure (needs matplotlib: ``pip install mistcoat[charts]``): marks with their ranges, what
    /// is left of each liquid, film temperature against room and dew point, thickness.
    fn chart<'py>(slf: &Bound<'py, Self>) -> PyResult<Bound<'py, PyAny>> {
        slf.py().import("mistcoat.charts")?.call_method1("drying", (slf,))
    }
    fn __len__(&self) -> usize {
        self.0.solvent_left().len()
    }
    fn __str__(&self) -> String {
        let time = |share: f64| match self.0.time_to_lose(q::Ratio::from_si(share)) {
            Ok(t) => q::show(t),
            Err(_) => "not reached".to_owned(),
        };
        format!(
            "Drying: 50 % lost {}, 90 % {}, 99 % {}; coldest {}",
            time(0.5),
            time(0.9),
            time(0.99),
            q::show(self.0.coldest())
        )
    }
    fn __repr__(&self) -> String {
        format!("<{}>", self.__str__())
    }
    fn _repr_html_(&self) -> String {
        use std::fmt::Write as _;
        let film = self.0.film();
        let mut html = format!(
            "<b>Drying of {} wet on {}</b><table><tr><th>volatile matter lost</th><th>after</th></tr>",
            escape_html(&q::show(film.wet_thickness())),
            escape_html(&film.substrate().to_string())
        );
        for share in [0.5, 0.75, 0.9, 0.95, 0.99] {
            let time = self
                .0
                .time_to_lose(q::Ratio::from_si(share))
                .map_or_else(|_| "not reached".to_owned(), q::show);
            let _ = write!(html, "<tr><td>{:.0} %</td><td>{}</td></tr>", share * 100.0, escape_html(&time));
        }
        html.push_str("</table>");
        for w in self.0.warnings() {
            let _ = write!(html, "<small>mind: {}</small><br>", escape_html(&w.message));
        }
        html
    }
}

crate::json::travels!(PyDrying, "The course");
