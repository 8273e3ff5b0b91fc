//! Settings at the bench: the job, the setting, what it does.

use crate::air::PyRoom;
use crate::blend::{Liquid, PyBlend};
use crate::dict::Ordered;
use crate::dose::Share;
use crate::errors::CallResult;
use crate::hiding::{self, GroundArg, PyHidingPower};
use crate::paint::PyPaint;
use crate::quantity::{Arg, PyLength, PyPressure, PyRatio, PyTemperature, PyTime};
use crate::spray::PyAirbrush;
use mistcoat::bench::{Cover, Fault, Job, Judged, RetarderShare, Setup};
use mistcoat::film::Substrate;
use mistcoat::quantity::{self as q, Quantity};
use pyo3::{exceptions::PyTypeError, prelude::*};

/// A job by its name, or one of your own.
#[derive(FromPyObject)]
pub enum JobArg<'py> {
    /// With targets of its own.
    Own(PyRef<'py, PyJob>),
    /// By name.
    Name(String),
}

impl JobArg<'_> {
    /// The job itself.
    pub fn job(&self) -> CallResult<Job> {
        Ok(match self {
            Self::Own(job) => job.0.clone(),
            Self::Name(name) => Job::named(name)?,
        })
    }
}

/// Targets of a job: "base coat", "fine lines", "soft edge", "over a mask", "gloss clear", "metallic", "primer".
///
/// The usual targets are common practice; each may be changed by name. ``contrast`` (98 % of ISO 6504 for a base coat and
/// over a mask) takes the place of ``dry_film`` for a ``Setup`` with ``hiding``. ``touch_dry_within`` and ``recoat_within`` limit
/// how long a coat may dry; longer is the fault "slow drying".
///
/// >>> import mistcoat as mc
/// >>> mine = mc.Job("base coat", dry_film="8 um", most_passes=6)
/// >>> print(mine.dry_film, mine.largest_drop)
/// 8 µm 50 µm
#[pyclass(frozen, eq, name = "Job", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyJob(pub Job);

#[pymethods]
impl PyJob {
    #[new]
    #[pyo3(signature = (name, *, dry_film=None, contrast=None, most_passes=None, largest_drop=None, ripple_left=None,
        touch_dry_within=None, recoat_within=None))]
    #[allow(
        clippy::too_many_arguments,
        clippy::needless_pass_by_value,
        reason = "keyword arguments of Python"
    )]
    fn new(
        name: &str,
        dry_film: Option<Arg<q::Length>>,
        contrast: Option<Share>,
        most_passes: Option<f64>,
        largest_drop: Option<Arg<q::Length>>,
        ripple_left: Option<Arg<q::Ratio>>,
        touch_dry_within: Option<Arg<q::Time>>,
        recoat_within: Option<Arg<q::Time>>,
    ) -> CallResult<Self> {
        let mut job = Job::named(name)?;
        if let Some(film) = dry_film {
            job.dry_film = film.value;
        }
        if let Some(contrast) = contrast {
            job.contrast = Some(q::Ratio::from_si(contrast.0));
        }
        if let Some(passes) = most_passes {
            job.most_passes = passes;
        }
        if let Some(drop) = largest_drop {
            job.largest_drop = drop.value;
        }
        if let Some(left) = ripple_left {
            job.ripple_left = Some(left.value);
        }
        if let Some(longest) = touch_dry_within {
            job.touch_dry_within = Some(longest.value);
        }
        if let Some(longest) = recoat_within {
            job.recoat_within = Some(longest.value);
        }
        Ok(Self(job.checked()?))
    }
    /// Names of the usual jobs.
    #[staticmethod]
    fn list() -> CallResult<Vec<String>> {
        Ok(Job::all()?.iter().map(|j| j.name.clone()).collect())
    }
    /// Its name, as the table of usual jobs has it.
    #[getter]
    fn name(&self) -> &str {
        &self.0.name
    }
    /// What matters in it, in a sentence.
    #[getter]
    fn note(&self) -> &str {
        &self.0.note
    }
    /// Dry film to build over all passes.
    #[getter]
    fn dry_film(&self) -> PyLength {
        PyLength(self.0.dry_film)
    }
    /// Contrast at which the ground counts as hidden; ``None`` where the colour need not hide it.
    #[getter]
    fn contrast(&self) -> Option<PyRatio> {
        self.0.contrast.map(PyRatio)
    }
    /// Most passes over one place.
    #[getter]
    fn most_passes(&self) -> f64 {
        self.0.most_passes
    }
    /// Coarsest drops, by their Sauter mean.
    #[getter]
    fn largest_drop(&self) -> PyLength {
        PyLength(self.0.largest_drop)
    }
    /// Share of the ripple that may be left; ``None`` where it does not matter.
    #[getter]
    fn ripple_left(&self) -> Option<PyRatio> {
        self.0.ripple_left.map(PyRatio)
    }
    /// Longest time until a coat is touch dry; ``None`` without a limit.
    #[getter]
    fn touch_dry_within(&self) -> Option<PyTime> {
        self.0.touch_dry_within.map(PyTime)
    }
    /// Longest time until the next coat may go on; ``None`` without a limit.
    #[getter]
    fn recoat_within(&self) -> Option<PyTime> {
        self.0.recoat_within.map(PyTime)
    }
    fn __repr__(&self) -> String {
        format!("<Job {}: {}>", self.0.name, self.0.note)
    }
    #[staticmethod]
    fn _from_json(text: &str) -> CallResult<Self> {
        let job: Job = crate::json::load(text)?;
        Ok(Self(job.checked()?))
    }
    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> CallResult<(Bound<'py, PyAny>, (String,))> {
        crate::json::reduce(slf, "_from_json", &slf.get().0)
    }
}

/// One way to work: paint, thinner and ratio, gun, passes laid wet in wet, part, room.
///
/// ``thinner`` is a ``Blend``, a ``Solvent`` or the name of one; ``thinner_per_paint`` parts of thinner to one part of
/// paint, by volume. ``retarder`` is a slow liquid in the place of ``retarder_share`` of the thinner. ``wet_thickness`` is the
/// wet film of one coat, however many passes it takes, in place of ``wet_passes``. ``hiding`` is the ``HidingPower`` of the
/// paint over ``ground`` ("card", the reflectance of an even undercoat, or (darkest, lightest)): the passes then build the
/// film that hides, where the job asks for a contrast. ``yield_stress`` is that of the undiluted paint, 0 to 100 Pa, where it
/// stiffens at rest (0.5 to 5 Pa are usual then): such a coat hangs where it is thin. ``primed``: whether a dry primer that stands the thinner lies on the part. ``steepness``: sine of the
/// angle of the face to the horizontal, 100 % upright, 0 % level.
///
/// >>> import mistcoat as mc
/// >>> green = mc.Paint.typical("alcohol acrylic", name="hull green")
/// >>> gun = mc.Airbrush(nozzle="0.3 mm", pressure="20 psi", distance="80 mm")
/// >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
/// >>> setup = mc.Setup(green, "isopropanol", thinner_per_paint=1, airbrush=gun, room=room, substrate="wood")
/// >>> print(setup)
/// hull green, thinner 1 : paint 1 (isopropanol); 0.3 mm nozzle, 138 kPa, 80 mm away; 1 pass on wood, 3 mm; 21 °C, 50 % humidity
/// >>> judged = setup.judge("base coat")
/// >>> judged.worst in mc.Setup.faults()
/// True
#[pyclass(frozen, eq, name = "Setup", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PySetup(pub Setup);

#[pymethods]
impl PySetup {
    #[new]
    #[pyo3(signature = (paint, thinner, *, thinner_per_paint=1.0, retarder=None, retarder_share=None, airbrush, room,
        wet_passes=1, wet_thickness=None, substrate="polystyrene", substrate_thickness=None, primed=false, steepness=None,
        hiding=None, ground=None, yield_stress=None))]
    #[allow(
        clippy::too_many_arguments,
        clippy::needless_pass_by_value,
        reason = "keyword arguments of Python"
    )]
    fn new(
        paint: PyRef<'_, PyPaint>,
        thinner: Liquid,
        thinner_per_paint: f64,
        retarder: Option<Liquid>,
        retarder_share: Option<Share>,
        airbrush: PyRef<'_, PyAirbrush>,
        room: PyRef<'_, PyRoom>,
        wet_passes: u32,
        wet_thickness: Option<Arg<q::Length>>,
        substrate: &str,
        substrate_thickness: Option<Arg<q::Length>>,
        primed: bool,
        steepness: Option<Arg<q::Ratio>>,
        hiding: Option<PyRef<'_, PyHidingPower>>,
        ground: Option<GroundArg>,
        yield_stress: Option<Arg<q::Pressure>>,
    ) -> CallResult<Self> {
        let mut plate = Substrate::named(substrate)?;
        if let Some(thickness) = substrate_thickness {
            plate = plate.with_thickness(thickness.value)?;
        }
        let mut setup = Setup::new(&paint.0, &thinner.0, thinner_per_paint, &airbrush.0, &room.0);
        setup.retarder = match (retarder, retarder_share) {
            (Some(slow), Some(share)) => Some(RetarderShare::new(&slow.0, q::Ratio::from_si(share.0))?),
            (None, None) => None,
            _ => {
                let says = "retarder and retarder_share belong together: name a slow liquid and, for example, \"15 %\"";
                return Err(PyTypeError::new_err(says).into());
            }
        };
        setup.wet_passes = wet_passes;
        setup.wet_film = wet_thickness.map(|film| film.value);
        setup.cover = match (hiding, ground) {
            (Some(power), under) => Some(Cover { power: power.0.clone(), ground: hiding::ground(under) }),
            (None, None) => None,
            (None, Some(_)) => {
                return Err(PyTypeError::new_err("ground needs hiding, the HidingPower of the paint").into());
            }
        };
        setup.yield_stress = yield_stress.map(|stress| stress.value);
        setup.substrate = plate;
        setup.primed = primed;
        if let Some(steepness) = steepness {
            setup.steepness = steepness.value;
        }
        Ok(Self(setup))
    }
    /// Names of the faults that settings are judged for.
    #[staticmethod]
    fn faults() -> Vec<&'static str> {
        Fault::ALL.map(Fault::name).to_vec()
    }
    /// The whole chain once, against the targets of a job: what goes wrong first, and how far is everything else?
    ///
    /// ``job`` is the name of a usual job or a ``Job``. Best values. Raises ``PhaseSplit`` for a mix that separates,
    /// ``RangeError`` for settings out of range.
    #[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
    fn judge(&self, py: Python<'_>, job: JobArg<'_>) -> CallResult<PyJudged> {
        let job = job.job()?;
        Ok(PyJudged(py.detach(|| self.0.judge(&job))?))
    }
    /// The stock paint that is thinned.
    #[getter]
    fn paint(&self) -> PyPaint {
        PyPaint(self.0.paint.clone())
    }
    /// The thinner that is added to the paint.
    #[getter]
    fn thinner(&self) -> PyBlend {
        PyBlend(self.0.thinner.clone())
    }
    /// Parts of thinner to one part of paint, by volume.
    #[getter]
    fn thinner_per_paint(&self) -> f64 {
        self.0.thinner_per_paint
    }
    /// The slow liquid that takes the place of a share of the thinner; ``None`` without one.
    #[getter]
    fn retarder(&self) -> Option<PyBlend> {
        self.0.retarder.as_ref().map(|r| PyBlend(r.retarder.clone()))
    }
    /// Share of the thinner that is retarder, by volume.
    #[getter]
    fn retarder_share(&self) -> PyRatio {
        PyRatio(self.0.retarder_share())
    }
    /// How well the paint hides, where that sets the film to build; ``None`` otherwise.
    #[getter]
    fn hiding(&self) -> Option<PyHidingPower> {
        self.0.cover.as_ref().map(|c| PyHidingPower(c.power.clone()))
    }
    /// Yield stress of the undiluted paint, where one is given.
    #[getter]
    fn yield_stress(&self) -> Option<PyPressure> {
        self.0.yield_stress.map(PyPressure)
    }
    /// The gun with its pressure and distance.
    #[getter]
    fn airbrush(&self) -> PyAirbrush {
        PyAirbrush(self.0.gun.clone())
    }
    /// The room that is sprayed and dried in.
    #[getter]
    fn room(&self) -> PyRoom {
        PyRoom(self.0.room.clone())
    }
    /// Passes laid wet in wet before a flash-off.
    #[getter]
    fn wet_passes(&self) -> u32 {
        self.0.wet_passes
    }
    /// Wet film of one coat, where it is given in place of passes.
    #[getter]
    fn wet_thickness(&self) -> Option<PyLength> {
        self.0.wet_film.map(PyLength)
    }
    /// What is sprayed, with its thickness.
    #[getter]
    fn substrate(&self) -> String {
        self.0.substrate.to_string()
    }
    fn __str__(&self) -> String {
        self.0.to_string()
    }
    fn __repr__(&self) -> String {
        format!("<Setup: {}>", self.0)
    }
}

crate::json::travels!(PySetup, "The setting");

/// What a setting does: margins from every fault, film, drying.
///
/// >>> import mistcoat as mc
/// >>> green = mc.Paint.typical("alcohol acrylic", name="hull green")
/// >>> gun = mc.Airbrush(nozzle="0.3 mm", pressure="25 psi", distance="65 mm")
/// >>> room = mc.Room(temperature="23 degC", relative_humidity="50 %")
/// >>> setup = mc.Setup(green, "isopropanol", airbrush=gun, room=room, substrate="wood")
/// >>> judged = setup.judge("base coat")
/// >>> list(judged.margins)[0] == judged.worst
/// True
#[pyclass(frozen, eq, name = "Judged", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyJudged(pub Judged);

#[pymethods]
impl PyJudged {
    /// Whether every limit holds at best values.
    #[getter]
    fn is_good(&self) -> bool {
        self.0.is_good()
    }
    /// The fault that is nearest, or met by most.
    #[getter]
    fn worst(&self) -> &'static str {
        self.0.worst().fault.name()
    }
    /// By fault, nearest first: standard uncertainties inside its limit, below zero outside.
    #[getter]
    fn margins(&self) -> Ordered<f64> {
        Ordered(self.0.margins.iter().map(|m| (m.fault.name().to_owned(), m.sigmas())).collect())
    }
    /// By fault, nearest first: the number behind it and its limit.
    #[getter]
    fn reasons(&self) -> Ordered<String> {
        Ordered(self.0.margins.iter().map(|m| (m.fault.name().to_owned(), m.why.clone())).collect())
    }
    /// Sauter mean of the drops.
    #[getter]
    fn drop_size(&self) -> PyLength {
        PyLength(self.0.drop_size)
    }
    /// Share of the volatile mass lost in flight.
    #[getter]
    fn flight_loss(&self) -> PyRatio {
        PyRatio(self.0.flight_loss)
    }
    /// Water that the drops took from the air, as a share of the volume that lands.
    #[getter]
    fn water_from_air(&self) -> PyRatio {
        PyRatio(self.0.water_from_air)
    }
    /// Wet film of one pass where it lands.
    #[getter]
    fn wet_per_pass(&self) -> PyLength {
        PyLength(self.0.wet_per_pass)
    }
    /// Dry film of one pass.
    #[getter]
    fn dry_per_pass(&self) -> PyLength {
        PyLength(self.0.dry_per_pass)
    }
    /// Wet film of one coat, laid wet in wet.
    #[getter]
    fn wet_film(&self) -> PyLength {
        PyLength(self.0.wet_film)
    }
    /// Passes that make one coat, laid wet in wet.
    #[getter]
    fn wet_passes(&self) -> f64 {
        self.0.wet_passes
    }
    /// Dry film to build over all passes: that of the job, or the one that hides.
    #[getter]
    fn dry_film(&self) -> PyLength {
        PyLength(self.0.target.dry_film)
    }
    /// What that dry film is for, in words.
    #[getter]
    fn target(&self) -> &str {
        &self.0.target.reason
    }
    /// Passes until the dry film to build is there.
    #[getter]
    fn passes(&self) -> f64 {
        self.0.passes
    }
    /// Flash-off of one wet-in-wet coat; ``None`` when it never gets there, or lands as dust.
    #[getter]
    fn flash_off(&self) -> Option<PyTime> {
        self.0.flash_off.map(PyTime)
    }
    /// Touch dry; ``None`` where the film has no such mark.
    #[getter]
    fn touch_dry(&self) -> Option<PyTime> {
        self.0.touch_dry.map(PyTime)
    }
    /// When the next coat may go on: block-free for a lacquer, the earliest sensible time; common practice for a waterborne or
    /// oxidising paint; ``None`` for a film that stays softer, or lands as dust.
    #[getter]
    fn recoat(&self) -> Option<PyTime> {
        self.0.recoat.map(PyTime)
    }
    /// Lowest film temperature while it dries.
    #[getter]
    fn coldest(&self) -> PyTemperature {
        PyTemperature(self.0.coldest)
    }
    fn __repr__(&self) -> String {
        let worst = self.0.worst();
        format!("<Judged: {worst}; margin {:+.1}>", worst.sigmas())
    }
}

crate::json::pickles!(PyJudged);
