//! `Film` and `Drying` in Python.

use crate::air::PyRoom;
use crate::binder::{PyBinder, PyDispersion, PyOxidativeCure};
use crate::blend::PyBlend;
use crate::dict::Ordered;
use crate::errors::{CallResult, UnitError};
use crate::estimate::{PyEstimate, PyWorking, warn_all};
use crate::paint::PyMix;
use crate::programme::PyProgramme;
use crate::quantity::{Arg, PyLength, PyRatio, PyTemperature};
use mistcoat::film::{Binder, Drying, Film, Programme, Substrate};
use mistcoat::quantity::{self as q, Quantity};
use mistcoat::working::escape_html;
use mistcoat::{Answer, Result as CoreResult};
use numpy::IntoPyArray;
use pyo3::prelude::*;
#[cfg(feature = "stubs")]
use pyo3::{inspect::PyStaticExpr, type_hint_identifier, type_hint_subscript};

/// Zero of the Celsius scale in kelvin.
pub const ZERO_CELSIUS: f64 = 273.15;

/// A curve: one float64 for each of the times.
pub struct Curve(pub Vec<f64>);

impl<'py> IntoPyObject<'py> for Curve {
    type Target = PyAny;
    type Output = Bound<'py, PyAny>;
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const OUTPUT_TYPE: PyStaticExpr = type_hint_subscript!(
        type_hint_identifier!("numpy.typing", "NDArray"),
        type_hint_identifier!("numpy", "float64")
    );
    fn into_pyobject(self, py: Python<'py>) -> PyResult<Self::Output> {
        Ok(self.0.into_pyarray(py).into_any())
    }
}

/// Curves by name, in order.
type Curves = Ordered<Curve>;

/// What lies wet: a thinned paint, or volatile liquids alone.
#[derive(FromPyObject)]
pub enum Wet<'py> {
    /// A thinned paint.
    Mix(PyRef<'py, PyMix>),
    /// Volatile liquids.
    Blend(PyRef<'py, PyBlend>),
}

/// What stays and hardens.
#[derive(FromPyObject)]
pub enum Hardens<'py> {
    /// By losing solvent.
    Binder(PyRef<'py, PyBinder>),
    /// By flowing together as water leaves.
    Dispersion(PyRef<'py, PyDispersion>),
}

/// A wet coat in a room.
///
/// ``wet`` is a ``Mix`` (its volume solids stay) or a ``Blend`` (everything may leave but the ``solids`` given, none
/// unless given). The air is one ``room``, or a ``programme`` that changes with time. ``wet_thickness`` 1 µm to 5 mm; when it is an ``Estimate`` its spread is carried on, else 15 % is taken. ``substrate``: "polystyrene", "abs", "resin", "wood", "card", "glass",
/// "brass", "steel" (see ``Film.substrates()``), "free film" or "isothermal"; ``substrate_thickness`` its thickness, the
/// usual one unless given. ``binder_tg``: glass transition of the dry binder, for the marks of a film that hardens by
/// losing solvent; ``binder``: a ``Binder`` with more of its properties, or a ``Dispersion`` for particles in water. A ``Mix`` brings its own. ``part_length`` along the draught, 100 mm unless given. ``until``: how long the coat is
/// followed at most, 7 d unless given. Values outside raise ``RangeError``, unknown names ``UnknownName``.
///
/// >>> import mistcoat as mc
/// >>> thinner = mc.Blend({"acetone": 50, "n-butyl acetate": 35, "2-butoxyethanol": 15}, basis="mass")
/// >>> room = mc.Room(temperature="25 degC", relative_humidity="50 %", air_speed="0.2 m/s")
/// >>> dry = mc.Film(thinner, wet_thickness="25 um", room=room, solids="15 %").dry()
/// >>> 140 < dry.flash_off.to("s") < 155
/// True
#[pyclass(frozen, eq, name = "Film", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyFilm(pub Film);

#[pymethods]
impl PyFilm {
    #[new]
    #[pyo3(signature = (wet, *, wet_thickness, room=None, programme=None, substrate="polystyrene", solids=None, substrate_thickness=None,
        binder_tg=None, binder=None, part_length=None, until=None))]
    #[allow(
        clippy::too_many_arguments,
        clippy::needless_pass_by_value,
        reason = "keyword arguments of Python"
    )]
    fn new(
        wet: Wet<'_>,
        wet_thickness: Arg<q::Length>,
        room: Option<PyRef<'_, PyRoom>>,
        programme: Option<PyRef<'_, PyProgramme>>,
        substrate: &str,
        solids: Option<Arg<q::Ratio>>,
        substrate_thickness: Option<Arg<q::Length>>,
        binder_tg: Option<Arg<q::Temperature>>,
        binder: Option<Hardens<'_>>,
        part_length: Option<Arg<q::Length>>,
        until: Option<Arg<q::Time>>,
    ) -> CallResult<Self> {
        let air = match (room, programme) {
            (Some(room), None) => Programme::new(room.0.clone()),
            (None, Some(programme)) => programme.0.clone(),
            _ => {
                let why = "give the air once: room=..., or programme=... for air that changes";
                return Err(UnitError::new_err(why).into());
            }
        };
        let room = air.first();
        let mut film = match (wet, solids) {
            (Wet::Mix(mix), None) => Film::of_mix(&mix.0, wet_thickness.value, room)?,
            (Wet::Mix(_), Some(_)) => {
                let why = "a Mix brings its own volume solids: leave `solids` out, or pass mix.volatile with solids=\"15 %\"";
                return Err(UnitError::new_err(why).into());
            }
            (Wet::Blend(blend), solids) => {
                let share = solids.map_or_else(|| q::Ratio::from_si(0.0), |s| s.value);
                Film::new(&blend.0, share.try_into()?, wet_thickness.value, room)?
            }
        };
        film = film.with_programme(air);
        if wet_thickness.std > 0.0 {
            film = film.with_wet_thickness_uncertainty(q::Length::from_si(wet_thickness.std))?;
        }
        let mut plate = Substrate::named(substrate)?;
        if let Some(thickness) = substrate_thickness {
            plate = plate.with_thickness(thickness.value)?;
        }
        film = film.with_substrate(plate);
        match (binder_tg, binder) {
            (None, None) => {}
            (Some(glass), None) => film = film.with_binder(Binder::new(glass.value)?),
            (None, Some(Hardens::Binder(binder))) => film = film.with_binder(binder.0.clone()),
            (None, Some(Hardens::Dispersion(particles))) => film = film.with_dispersion(particles.0.clone()),
            (Some(_), Some(_)) => {
                let why =
                    "binder_tg and binder say the same: give the glass transition inside the Binder alone";
                return Err(UnitError::new_err(why).into());
            }
        }
        if let Some(length) = part_length {
            film = film.with_part_length(length.value)?;
        }
        if let Some(until) = until {
            film = film.until(until.value)?;
        }
        Ok(Self(film))
    }
    /// Names of the substrates with thermal data.
    #[staticmethod]
    fn substrates() -> CallResult<Vec<&'static str>> {
        Ok(Substrate::list()?)
    }
    /// Everything that may leave.
    #[getter]
    fn volatile(&self) -> PyBlend {
        PyBlend(self.0.volatile().clone())
    }
    /// Share of the wet volume that stays.
    #[getter]
    fn solids(&self) -> PyRatio {
        PyRatio(self.0.solids().into())
    }
    /// Thickness of the wet coat, before anything has left it.
    #[getter]
    fn wet_thickness(&self) -> PyLength {
        PyLength(self.0.wet_thickness())
    }
    /// Thickness of the solids by themselves.
    #[getter]
    fn dry_thickness(&self) -> PyLength {
        PyLength(self.0.dry_thickness())
    }
    /// What it lies on, with its thickness.
    #[getter]
    fn substrate(&self) -> String {
        self.0.substrate().to_string()
    }
    /// The air it dries in, from the start on.
    #[getter]
    fn programme(&self) -> PyProgramme {
        PyProgramme(self.0.programme())
    }
    /// This coat, sprayed on ``under`` when that has dried for ``wait``; its times count from its own landing. See ``Stack``.
    ///
    /// Raises ``RangeError`` for a wait outside 0 s to 365 d, more than 50 coats, and coats that differ in substrate, part length
    /// or binder.
    fn over(&self, under: &Self, wait: Arg<q::Time>) -> CallResult<Self> {
        Ok(Self(self.0.clone().over(&under.0, wait.value)?))
    }
    /// This coat with a yield stress, 0 to 100 Pa, as it lies wet: it hangs where its weight does not reach it. None is taken
    /// unless given; see ``hanging_thickness``.
    ///
    /// Raises ``RangeError`` outside that range, and for a coat whose flow is not known.
    ///
    /// >>> import mistcoat as mc
    /// >>> mix = mc.Paint.typical("alkyd enamel", name="hull green").thin("white spirit", thinner=1, paint=2)
    /// >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
    /// >>> stiff = mc.Film(mix, wet_thickness="50 um", room=room).with_yield_stress("1 Pa")
    /// >>> mc.lay(stiff).sag.to("mm")
    /// 0.0
    #[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
    fn with_yield_stress(&self, yield_stress: Arg<q::Pressure>) -> CallResult<Self> {
        Ok(Self(self.0.clone().with_yield_stress(&crate::lay::stress(&yield_stress))?))
    }
    /// Thickness of the solids of this coat and of all under it.
    #[getter]
    fn dry_build(&self) -> PyLength {
        PyLength(self.0.dry_build())
    }
    /// The room it dries in, at first when there is a programme.
    #[getter]
    fn room(&self) -> PyRoom {
        PyRoom(self.0.room().clone())
    }
    /// Minimum film-formation temperature of a waterborne coat with its coalescing aid; ``None`` for others.
    #[getter]
    fn film_formation_temperature(&self) -> Option<PyEstimate> {
        self.0.film_formation_temperature().map(PyEstimate::new)
    }
    /// How long the paint of a ``Mix`` hardens by oxygen after its solvent has left (alkyd enamel, artists' oil): ranges of
    /// common practice, with the caution about oily rags; ``None`` for others.
    #[getter]
    fn oxidative_cure(&self) -> Option<PyOxidativeCure> {
        self.0.oxidative_cure().cloned().map(PyOxidativeCure)
    }
    /// Dries the coat; takes well under a millisecond. Gives a ``MistcoatWarning`` when dew may form on it.
    fn dry(&self, py: Python<'_>) -> CallResult<PyDrying> {
        let dry = py.detach(|| self.0.dry())?;
        warn_all(py, dry.warnings())?;
        Ok(PyDrying(dry))
    }
    fn __str__(&self) -> String {
        let f = &self.0;
        format!(
            "{} of {} with {} solids on {}",
            q::show(f.wet_thickness()),
            f.volatile().label(),
            f.solids(),
            f.substrate()
        )
    }
}

crate::json::travels!(PyFilm, "The coat", evaluates);

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
