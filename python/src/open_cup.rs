//! `OpenCup`, `CupCourse`, `TopUp`, `tip_drying` and `TipDrying` in Python.

use crate::air::PyRoom;
use crate::dict::Ordered;
use crate::dose::PyDropper;
use crate::errors::CallResult;
use crate::estimate::{PyEstimate, PyWorking, warn_all};
use crate::film::{Curve, ZERO_CELSIUS};
use crate::paint::PyMix;
use crate::quantity::{Arg, PyLength, PyMass, PyRatio, PyTime, PyVolume};
use mistcoat::film::{CupCourse, OpenCup, Substrate, Tip, TipDrying, TopUp};
use mistcoat::quantity::{self as q, Quantity};
use pyo3::prelude::*;

/// A small open pot with a mix in it.
///
/// ``diameter`` 5 to 500 mm across the liquid, ``depth`` 0.2 to 300 mm as poured, ``freeboard`` 0 to 300 mm from the liquid
/// to the rim (0 mm unless given: full, and as fast as it can go). ``pot`` is a substrate name, ``wall`` its thickness (1 mm of
/// polystyrene unless given). ``until``: how long it is followed, 4 h unless given, 7 d at most. Values outside raise
/// ``RangeError``, unknown names ``UnknownName``.
///
/// >>> import mistcoat as mc
/// >>> thinner = mc.Blend({"acetone": 40, "n-butyl acetate": 60}, basis="volume")
/// >>> mix = mc.demo_paint("hull green").thin(thinner, thinner=1, paint=1)
/// >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
/// >>> course = mc.OpenCup(mix, diameter="30 mm", depth="8 mm", freeboard="10 mm", room=room).stand()
/// >>> 10 < course.time_to_thicken("20 %").to("min") < 60
/// True
/// >>> again = course.top_up("15 min", dropper=mc.Dropper(tip="3 mm"))
/// >>> again.drops.best > 5 and again.evaporation_rate.to("%") < 100
/// True
#[pyclass(frozen, eq, name = "OpenCup", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyOpenCup(pub OpenCup);

#[pymethods]
impl PyOpenCup {
    #[new]
    #[pyo3(signature = (mix, *, diameter, depth, room, freeboard=None, pot=None, wall=None, until=None))]
    #[allow(
        clippy::too_many_arguments,
        clippy::needless_pass_by_value,
        reason = "keyword arguments of Python"
    )]
    fn new(
        mix: PyRef<'_, PyMix>,
        diameter: Arg<q::Length>,
        depth: Arg<q::Length>,
        room: PyRef<'_, PyRoom>,
        freeboard: Option<Arg<q::Length>>,
        pot: Option<&str>,
        wall: Option<Arg<q::Length>>,
        until: Option<Arg<q::Time>>,
    ) -> CallResult<Self> {
        let mut cup = OpenCup::new(&mix.0, diameter.value, depth.value, &room.0)?;
        if let Some(height) = freeboard {
            cup = cup.with_freeboard(height.value)?;
        }
        let mut material = pot.map_or_else(|| Ok(cup.pot().clone()), Substrate::named)?;
        if let Some(thickness) = wall {
            material = material.with_thickness(thickness.value)?;
        }
        cup = cup.with_pot(material);
        if let Some(until) = until {
            cup = cup.until(until.value)?;
        }
        Ok(Self(cup))
    }
    /// The mix that was poured, as a ``Mix``.
    #[getter]
    fn mix(&self) -> PyMix {
        PyMix(self.0.mix().clone())
    }
    /// Inner diameter, across the liquid.
    #[getter]
    fn diameter(&self) -> PyLength {
        PyLength(self.0.diameter())
    }
    /// Depth of the mix as poured.
    #[getter]
    fn depth(&self) -> PyLength {
        PyLength(self.0.depth())
    }
    /// From the liquid to the rim.
    #[getter]
    fn freeboard(&self) -> PyLength {
        PyLength(self.0.freeboard())
    }
    /// The room it stands in.
    #[getter]
    fn room(&self) -> PyRoom {
        PyRoom(self.0.room().clone())
    }
    /// Lets it stand open and gives its course.
    fn stand(&self, py: Python<'_>) -> CallResult<PyCupCourse> {
        let course = py.detach(|| self.0.stand())?;
        warn_all(py, course.warnings())?;
        Ok(PyCupCourse(course))
    }
    fn __str__(&self) -> String {
        let c = &self.0;
        format!("open cup of {} with {} of mix", q::show(c.diameter()), q::show(c.depth()))
    }
}

crate::json::travels!(PyOpenCup, "The cup", evaluates);

/// The course of a mix in an open cup, from ``OpenCup.stand``.
///
/// The curves are float64 arrays with one entry for each of ``time_s``; ``columns()`` has them all under names with their units.
#[pyclass(frozen, eq, name = "CupCourse", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyCupCourse(pub CupCourse);

impl PyCupCourse {
    fn seconds(&self) -> Vec<f64> {
        self.0.times().iter().map(|t| t.si()).collect()
    }
    fn grams(&self) -> Vec<f64> {
        self.0.mass_lost().iter().map(|m| m.si() * 1e3).collect()
    }
    fn millipascal_seconds(&self) -> Vec<f64> {
        self.0.viscosities().iter().map(|v| v.si() * 1e3).collect()
    }
    fn celsius(&self) -> Vec<f64> {
        self.0.temperatures().iter().map(|t| t.si() - ZERO_CELSIUS).collect()
    }
    /// The cup's own warnings were given when it stood.
    fn estimate<Q: crate::quantity::PyQuantity>(
        py: Python<'_>,
        answer: mistcoat::Result<mistcoat::Answer<Q>>,
    ) -> CallResult<PyEstimate> {
        let mut answer = answer?;
        answer.warnings.clear();
        Ok(PyEstimate::answer(py, answer)?)
    }
}

#[pymethods]
impl PyCupCourse {
    /// The cup that stood open, as an ``OpenCup``.
    #[getter]
    fn cup(&self) -> PyOpenCup {
        PyOpenCup(self.0.cup().clone())
    }
    /// Times in seconds, from zero.
    #[getter]
    fn time_s(&self) -> Curve {
        Curve(self.seconds())
    }
    /// Mass lost in g, less what came from the air.
    #[getter]
    fn mass_lost_g(&self) -> Curve {
        Curve(self.grams())
    }
    /// Volume fraction of solids.
    #[getter]
    fn volume_solids(&self) -> Curve {
        Curve(self.0.volume_solids())
    }
    /// Viscosity in mPa s at room temperature.
    #[getter(viscosity_mPa_s)]
    fn viscosity(&self) -> Curve {
        Curve(self.millipascal_seconds())
    }
    /// Temperature of the liquid in °C.
    #[getter(temperature_degC)]
    fn temperature(&self) -> Curve {
        Curve(self.celsius())
    }
    /// All curves by names with their units, ready for a data frame; the masses left in g by species.
    fn columns(&self) -> Ordered<Curve> {
        let mut all = vec![
            ("time_s".to_owned(), self.seconds()),
            ("mass_lost_g".to_owned(), self.grams()),
            ("volume_solids".to_owned(), self.0.volume_solids()),
            ("viscosity_mPa_s".to_owned(), self.millipascal_seconds()),
            ("temperature_degC".to_owned(), self.celsius()),
        ];
        let left = self.0.amounts();
        all.extend(self.0.species().iter().zip(left).map(|(name, masses)| {
            (format!("{name} g"), masses.iter().map(|m| m.si() * 1e3).collect::<Vec<_>>())
        }));
        Ordered(all.into_iter().map(|(name, curve)| (name, Curve(curve))).collect())
    }
    /// Mass fractions of the liquid at one time, by species.
    fn composition_at(&self, time: Arg<q::Time>) -> CallResult<Ordered<f64>> {
        Ok(fractions(&self.0.composition_at(time.value)?))
    }
    /// When the viscosity has risen by this share, 1 to 900 %: "20 %" is a fifth thicker.
    ///
    /// Raises ``RangeError`` when it does not while the cup is followed; the message says how far it comes.
    fn time_to_thicken(&self, py: Python<'_>, rise: Arg<q::Ratio>) -> CallResult<PyEstimate> {
        let answer = py.detach(|| self.0.time_to_thicken(rise.value));
        Self::estimate(py, answer)
    }
    /// Viscosity at a time over that of the mix as poured, with its interval.
    fn thickened(&self, py: Python<'_>, time: Arg<q::Time>) -> CallResult<PyEstimate> {
        let answer = py.detach(|| self.0.thickened(time.value));
        Self::estimate(py, answer)
    }
    /// Drops of the mix's own thinner that restore its viscosity at a time, and what they make of it.
    ///
    /// Warns when the restored mix dries more than a tenth slower: what left was the fast part.
    #[pyo3(signature = (time, *, dropper))]
    fn top_up(&self, py: Python<'_>, time: Arg<q::Time>, dropper: &PyDropper) -> CallResult<PyTopUp> {
        let top_up = py.detach(|| self.0.top_up(time.value, &dropper.0))?;
        let new: Vec<_> =
            top_up.warnings.iter().filter(|w| !self.0.warnings().contains(w)).cloned().collect();
        warn_all(py, &new)?;
        Ok(PyTopUp(top_up))
    }
    /// What to mind; empty when there is nothing.
    #[getter]
    fn warnings(&self) -> Vec<String> {
        self.0.warnings().iter().map(|w| w.message.clone()).collect()
    }
    /// The steps behind the curves, with numbers and sources.
    fn working(&self) -> PyWorking {
        PyWorking(self.0.working())
    }
    /// The cup as JSON text, from which the course is worked out again.
    fn to_json(&self) -> CallResult<String> {
        crate::json::dump(self.0.cup())
    }
    /// The course from what ``to_json`` wrote.
    #[staticmethod]
    fn from_json(text: &str) -> CallResult<Self> {
        let cup: OpenCup = crate::json::load(text)?;
        Ok(Self(cup.stand()?))
    }
    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> CallResult<(Bound<'py, PyAny>, (String,))> {
        crate::json::reduce(slf, "from_json", slf.get().0.cup())
    }
    fn __len__(&self) -> usize {
        self.0.times().len()
    }
    fn __str__(&self) -> String {
        let cup = self.0.cup();
        let lost = self.0.mass_lost().last().copied().unwrap_or_else(|| q::Mass::from_si(0.0));
        format!(
            "{} lost by a cup of {} in {}",
            q::show(lost),
            q::show(cup.diameter()),
            q::show(cup.followed_for())
        )
    }
    fn __repr__(&self) -> String {
        format!("<CupCourse: {}>", self.__str__())
    }
}

fn fractions(shares: &[(String, q::Ratio)]) -> Ordered<f64> {
    Ordered(shares.iter().map(|(name, share)| (name.clone(), share.si())).collect())
}

/// What brings a mix in an open cup back to the viscosity it was poured with, from ``CupCourse.top_up``.
#[pyclass(frozen, eq, name = "TopUp", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyTopUp(pub TopUp);

#[pymethods]
impl PyTopUp {
    /// Mass that has left, less what came from the air.
    #[getter]
    fn lost_mass(&self) -> PyMass {
        PyMass(self.0.lost_mass)
    }
    /// Volume of what has left, less what came from the air.
    #[getter]
    fn lost_volume(&self) -> PyVolume {
        PyVolume(self.0.lost_volume)
    }
    /// Volume of whole thinner to add.
    #[getter]
    fn thinner(&self) -> PyEstimate {
        PyEstimate::new(self.0.thinner.clone())
    }
    /// Drops of whole thinner to add, with their interval.
    #[getter]
    fn drops(&self) -> PyEstimate {
        PyEstimate::new(self.0.drops.clone())
    }
    /// By species: mass fraction of the liquid as poured.
    #[getter]
    fn poured(&self) -> Ordered<f64> {
        fractions(&self.0.poured)
    }
    /// By species: mass fraction of the liquid once restored, richer in what is slow.
    #[getter]
    fn restored(&self) -> Ordered<f64> {
        fractions(&self.0.restored)
    }
    /// Mass that leaves the restored mix each second over that of the mix as poured.
    #[getter]
    fn evaporation_rate(&self) -> PyRatio {
        PyRatio(self.0.evaporation_rate)
    }
    /// What to mind; empty when there is nothing.
    #[getter]
    fn warnings(&self) -> Vec<String> {
        self.0.warnings.iter().map(|w| w.message.clone()).collect()
    }
    /// The steps behind it, with numbers and sources.
    fn working(&self) -> PyWorking {
        PyWorking(self.0.working.clone())
    }
    fn __str__(&self) -> String {
        let t = &self.0;
        format!("add {} drops of thinner ({})", q::digits(t.drops.best.si(), 2), q::show(t.thinner.best))
    }
    fn __repr__(&self) -> String {
        format!("<TopUp: {}>", self.__str__())
    }
}

crate::json::pickles!(PyTopUp);

/// How soon a mix dries on the tip of the airbrush needle, within a factor 2.
///
/// ``film``: wet paint on the tip, 2 to 200 µm, 20 µm unless given. ``air_speed`` past the tip: 100 m/s (trigger down for air
/// alone) unless given, "0 m/s" with the air shut off. ``pause`` between strokes, 10 s unless given. Values outside raise
/// ``RangeError``; warns when the tip dries between strokes.
///
/// >>> import mistcoat as mc
/// >>> paint = mc.Paint.typical("waterborne acrylic", name="cream")
/// >>> mix = paint.thin(mc.Blend({"water": 1}), thinner=1, paint=2)
/// >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
/// >>> tip = mc.tip_drying(mix, room=room, air_speed="0 m/s")
/// >>> tip.redissolves, tip.index.best < 1
/// (False, True)
#[pyfunction]
#[pyo3(signature = (mix, *, room, film=None, air_speed=None, pause=None))]
pub fn tip_drying(
    py: Python<'_>,
    mix: &PyMix,
    room: &PyRoom,
    film: Option<Arg<q::Length>>,
    air_speed: Option<Arg<q::Velocity>>,
    pause: Option<Arg<q::Time>>,
) -> CallResult<PyTipDrying> {
    let mut tip = Tip::default();
    if let Some(film) = film {
        tip = tip.with_film(film.value)?;
    }
    if let Some(speed) = air_speed {
        tip = tip.with_air_speed(speed.value)?;
    }
    if let Some(pause) = pause {
        tip = tip.with_pause(pause.value)?;
    }
    let drying = py.detach(|| mistcoat::film::tip_drying(&mix.0, &room.0, tip))?;
    warn_all(py, &drying.sets_after.warnings)?;
    Ok(PyTipDrying(drying))
}

/// How soon the paint on the tip of the needle sets, from ``tip_drying``.
#[pyclass(frozen, eq, name = "TipDrying", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyTipDrying(pub TipDrying);

#[pymethods]
impl PyTipDrying {
    /// Until the paint on the tip no longer flows: ten times as thick, or for a dispersion its particles touch.
    #[getter]
    fn sets_after(&self) -> PyEstimate {
        PyEstimate::kept(self.0.sets_after.clone())
    }
    /// The pause between strokes over that time: above 1 the tip dries between strokes.
    #[getter]
    fn index(&self) -> PyEstimate {
        PyEstimate::new(self.0.index.clone())
    }
    /// Whether the next stroke of the same paint dissolves what has set.
    #[getter]
    fn redissolves(&self) -> bool {
        self.0.redissolves
    }
    /// Time in pauses after which a clot of 50 µm has built up; ``None`` when the tip stays wet or dissolves again.
    #[getter]
    fn wipe_every(&self) -> Option<PyTime> {
        self.0.wipe_every.map(PyTime)
    }
    /// What to do about the cup, in words for the bench.
    #[getter]
    fn advice(&self) -> String {
        self.0.advice.clone()
    }
    /// The steps behind it, with numbers and sources.
    fn working(&self) -> PyWorking {
        PyWorking(self.0.sets_after.working.clone())
    }
    fn __str__(&self) -> String {
        self.0.advice.clone()
    }
    fn __repr__(&self) -> String {
        format!("<TipDrying: {}>", self.0.sets_after.estimate)
    }
}

crate::json::pickles!(PyTipDrying);
