//! `Film` in Python, and the curves of a course.

use crate::air::PyRoom;
use crate::binder::{PyBinder, PyDispersion, PyOxidativeCure};
use crate::blend::PyBlend;
use crate::dict::Ordered;
use crate::drying::PyDrying;
use crate::errors::{CallResult, UnitError};
use crate::estimate::{PyEstimate, warn_all};
use crate::paint::PyMix;
use crate::programme::PyProgramme;
use crate::quantity::{Arg, PyLength, PyRatio};
use mistcoat::film::{Binder, Film, Programme, Substrate};
use mistcoat::quantity::{self as q, Quantity};
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
pub type Curves = Ordered<Curve>;

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
