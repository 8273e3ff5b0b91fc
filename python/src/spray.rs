//! `Airbrush` and `Shot` in Python.

use crate::air::PyRoom;
use crate::blend::PyBlend;
use crate::dict::Ordered;
use crate::errors::{CallResult, UnitError};
use crate::estimate::{PyEstimate, PyWorking, warn_all};
use crate::film::{Curve, PyFilm};
use crate::paint::PyMix;
use crate::quantity::{
    Arg, PyFrequency, PyLength, PyPressure, PyQuantity, PyRatio, PyTemperature, PyTime, PyVelocity,
};
use crate::table::PyTable;
use mistcoat::estimate::ModelError;
use mistcoat::film::Substrate;
use mistcoat::quantity::{self as q, Quantity};
use mistcoat::spray::{Airbrush, Correlation, Shot, SizeSpread};
use mistcoat::working::escape_html;
use mistcoat::{Answer, Estimate, Result as CoreResult};
use pyo3::prelude::*;

/// Zero of the Celsius scale in kelvin.
const ZERO_CELSIUS: f64 = 273.15;

/// An `Estimate` keeps its spread, all else is taken as exact.
fn with_spread<Q: Quantity>(arg: Arg<Q>, what: &str) -> Estimate<Q> {
    if arg.std > 0.0 && arg.value.si() > 0.0 {
        Estimate::relative(arg.value, &[ModelError::new(what, arg.std / arg.value.si())])
    } else {
        Estimate::exact(arg.value)
    }
}

/// An airbrush or mini gun as it is set and held.
///
/// ``nozzle``: bore of the paint nozzle, 0.15 to 1.5 mm. ``pressure``: gauge pressure while air flows, 20 to 700 kPa.
/// ``distance`` of the part, 5 to 500 mm. What is left out is typical, common practice, with its wide range: ``air_area``
/// (effective area of the air gap) and ``paint_flow`` by the bore, ``transfer_efficiency`` 28 % (13 to 60 %) of the solids on
/// the part, ``swath`` (width of a pass) a fifth of the distance, ``hand_speed`` 50 mm/s. ``compressor``: free air it
/// delivers, to be warned when it is too little. ``drop_size``: a measured Sauter mean diameter in place of ``correlation``
/// ("Rizk and Lefebvre", "Lorenzetto and Lefebvre", "Nukiyama and Tanasawa"). Sizes spread by ``rosin_rammler``, 3 unless
/// given, or by a log-normal law of ``geometric_standard_deviation``, in so many ``classes``. Values outside raise
/// ``RangeError``, unknown names ``UnknownName``. Of an ``Estimate`` the spread is carried on.
///
/// >>> import mistcoat as mc
/// >>> gun = mc.Airbrush(nozzle="0.3 mm", pressure="20 psi", distance="80 mm")
/// >>> print(gun)
/// 0.3 mm nozzle, 138 kPa, 80 mm away
#[pyclass(frozen, eq, name = "Airbrush", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyAirbrush(pub Airbrush);

#[pymethods]
impl PyAirbrush {
    #[new]
    #[pyo3(signature = (*, nozzle, pressure, distance, air_area=None, paint_flow=None, transfer_efficiency=None, swath=None,
        hand_speed=None, compressor=None, drop_size=None, correlation=None, rosin_rammler=None,
        geometric_standard_deviation=None, classes=None))]
    #[allow(clippy::too_many_arguments, reason = "keyword arguments of Python")]
    fn new(
        nozzle: Arg<q::Length>,
        pressure: Arg<q::Pressure>,
        distance: Arg<q::Length>,
        air_area: Option<Arg<q::Area>>,
        paint_flow: Option<Arg<q::VolumeRate>>,
        transfer_efficiency: Option<Arg<q::Ratio>>,
        swath: Option<Arg<q::Length>>,
        hand_speed: Option<Arg<q::Velocity>>,
        compressor: Option<Arg<q::VolumeRate>>,
        drop_size: Option<Arg<q::Length>>,
        correlation: Option<&str>,
        rosin_rammler: Option<f64>,
        geometric_standard_deviation: Option<f64>,
        classes: Option<usize>,
    ) -> CallResult<Self> {
        let mut gun = Airbrush::new(nozzle.value, pressure.value, distance.value)?;
        if let Some(x) = air_area {
            gun = gun.with_air_area(with_spread(x, "air area as given"))?;
        }
        if let Some(x) = paint_flow {
            gun = gun.with_paint_flow(with_spread(x, "paint flow as given"))?;
        }
        if let Some(x) = transfer_efficiency {
            gun = gun.with_transfer_efficiency(with_spread(x, "transfer efficiency as given"))?;
        }
        if let Some(x) = swath {
            gun = gun.with_swath(x.value)?;
        }
        if let Some(x) = hand_speed {
            gun = gun.with_hand_speed(with_spread(x, "hand speed as given"))?;
        }
        if let Some(x) = compressor {
            gun = gun.with_compressor(x.value)?;
        }
        if let Some(x) = drop_size {
            gun = gun.with_drop_size(with_spread(x, "drop size as given"))?;
        }
        if let Some(name) = correlation {
            gun = gun.with_correlation(Correlation::find(name)?);
        }
        match (rosin_rammler, geometric_standard_deviation) {
            (Some(_), Some(_)) => {
                let why = "drop sizes spread by one law: give rosin_rammler=3 or geometric_standard_deviation=2, not both";
                return Err(UnitError::new_err(why).into());
            }
            (Some(exponent), None) => gun = gun.with_spread(SizeSpread::RosinRammler(exponent))?,
            (None, Some(g)) => gun = gun.with_spread(SizeSpread::LogNormal(g))?,
            (None, None) => {}
        }
        if let Some(count) = classes {
            gun = gun.with_classes(count)?;
        }
        Ok(Self(gun))
    }
    /// Sprays a ``Mix`` in a ``Room``; gives a ``MistcoatWarning`` for each thing to mind.
    ///
    /// Raises ``RangeError`` for a room outside 0 to 50 °C or a mix with more than 98 % of volume solids.
    fn spray(&self, py: Python<'_>, mix: &PyMix, room: &PyRoom) -> CallResult<PyShot> {
        let shot = py.detach(|| self.0.spray(&mix.0, &room.0))?;
        warn_all(py, shot.warnings())?;
        Ok(PyShot(shot))
    }
    /// The same gun at another gauge pressure.
    fn at_pressure(&self, pressure: Arg<q::Pressure>) -> CallResult<Self> {
        Ok(Self(self.0.clone().at_pressure(pressure.value)?))
    }
    /// The same gun from another distance.
    fn at_distance(&self, distance: Arg<q::Length>) -> CallResult<Self> {
        Ok(Self(self.0.clone().at_distance(distance.value)?))
    }
    /// Bore of the paint nozzle.
    #[getter]
    fn nozzle(&self) -> PyLength {
        PyLength(self.0.nozzle())
    }
    /// Gauge pressure while air flows.
    #[getter]
    fn pressure(&self) -> PyPressure {
        PyPressure(self.0.pressure())
    }
    /// Distance of the part from the nozzle.
    #[getter]
    fn distance(&self) -> PyLength {
        PyLength(self.0.distance())
    }
    /// Effective area of the air gap: given, or typical of the bore.
    #[getter]
    fn air_area(&self) -> CallResult<PyEstimate> {
        Ok(PyEstimate::new(self.0.air_area()?))
    }
    /// Share of the sprayed solids that stays on the part: given, or typical.
    #[getter]
    fn transfer_efficiency(&self) -> PyEstimate {
        PyEstimate::new(self.0.transfer_efficiency())
    }
    /// Speed of the hand over the part: given, or typical.
    #[getter]
    fn hand_speed(&self) -> PyEstimate {
        PyEstimate::new(self.0.hand_speed())
    }
    fn __str__(&self) -> String {
        self.0.to_string()
    }
}

crate::json::travels!(PyAirbrush, "The gun", evaluates);

/// A mix sprayed by a gun in a room; made by ``Airbrush.spray``.
///
/// Drop sizes are good to a factor 2 and films a pass to about a factor 3 as long as paint flow and transfer efficiency are
/// typical values: weigh the cup and the part to do better. Spray mist and vapour harm and burn: extract them, wear a fitted
/// mask with cartridges for organic vapour and particles; the safety data sheets, local codes and licensed practice decide.
///
/// >>> import mistcoat as mc, warnings
/// >>> warnings.simplefilter("ignore", mc.MistcoatWarning)
/// >>> thinner = mc.Blend({"acetone": 50, "n-butyl acetate": 50}, basis="mass")
/// >>> mix = mc.Paint.typical("solvent lacquer", name="hull green").thin(thinner, thinner=1, paint=1)
/// >>> room = mc.Room(temperature="25 degC", relative_humidity="50 %")
/// >>> shot = mc.Airbrush(nozzle="0.3 mm", pressure="20 psi", distance="80 mm").spray(mix, room)
/// >>> 10 < shot.drop_size.to("um") < 25
/// True
/// >>> shot.film(passes=2).dry().touch_dry.to("s") < 120
/// True
#[pyclass(frozen, eq, name = "Shot", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyShot(pub Shot);

/// The warnings were given when the shot was made; telling them again with every number would be noise.
fn told<Q: PyQuantity>(answer: CoreResult<Answer<Q>>) -> CallResult<PyEstimate> {
    Ok(PyEstimate::kept(answer?))
}

#[pymethods]
impl PyShot {
    /// The gun that sprayed.
    #[getter]
    fn airbrush(&self) -> PyAirbrush {
        PyAirbrush(self.0.gun().clone())
    }
    /// The mix as it was in the cup.
    #[getter]
    fn mix(&self) -> PyMix {
        PyMix(self.0.mix().clone())
    }
    /// The room it was sprayed in.
    #[getter]
    fn room(&self) -> PyRoom {
        PyRoom(self.0.room().clone())
    }
    /// Sauter mean diameter of the drops at the nozzle.
    #[getter]
    fn drop_size(&self, py: Python<'_>) -> CallResult<PyEstimate> {
        told(py.detach(|| self.0.drop_size()))
    }
    /// Diameter below which this share of the sprayed volume lies, 0.1 to 99.9 %.
    fn drop_size_below(&self, share: Arg<q::Ratio>) -> CallResult<PyLength> {
        Ok(PyLength(self.0.drop_size_below(share.value)?))
    }
    /// Free air that the nozzle needs.
    #[getter]
    fn air_demand(&self, py: Python<'_>) -> CallResult<PyEstimate> {
        told(py.detach(|| self.0.air_demand()))
    }
    /// Paint sprayed in a time: given, or with the trigger half drawn, at most what the nozzle passes of this mix.
    #[getter]
    fn paint_flow(&self, py: Python<'_>) -> CallResult<PyEstimate> {
        told(py.detach(|| self.0.paint_flow()))
    }
    /// Shear rate of the paint in the bore, for a viscosity read at another shear.
    #[getter]
    fn shear_rate(&self) -> PyFrequency {
        PyFrequency(self.0.shear_rate())
    }
    /// Share of the volatile mass lost between nozzle and part; water gained from humid air does not count.
    #[getter]
    fn flight_loss(&self, py: Python<'_>) -> CallResult<PyEstimate> {
        told(py.detach(|| self.0.flight_loss()))
    }
    /// Water that the drops took from humid air on the way, as a share of the volume that lands; 0 when they gave water off. It
    /// is in the film that lands. Best value, good to a factor 2.
    #[getter]
    fn water_from_air(&self) -> PyRatio {
        PyRatio(self.0.water_from_air())
    }
    /// Wet film that one pass leaves, as it lies when it lands.
    #[getter]
    fn wet_film_per_pass(&self, py: Python<'_>) -> CallResult<PyEstimate> {
        told(py.detach(|| self.0.wet_film_per_pass()))
    }
    /// Dry film that one pass leaves when all solvent is gone.
    #[getter]
    fn dry_film_per_pass(&self, py: Python<'_>) -> CallResult<PyEstimate> {
        told(py.detach(|| self.0.dry_film_per_pass()))
    }
    /// Passes over the same place until the dry film is this thick.
    fn passes_for(&self, py: Python<'_>, dry_film: Arg<q::Length>) -> CallResult<PyEstimate> {
        Ok(PyEstimate::kept(py.detach(|| self.0.passes_for(dry_film.value))?))
    }
    /// Width of one pass on the part.
    #[getter]
    fn swath(&self) -> PyLength {
        PyLength(self.0.swath())
    }
    /// Air speed on the axis of the jet at the part.
    #[getter]
    fn air_speed_at_part(&self) -> PyVelocity {
        PyVelocity(self.0.air_speed_at_part())
    }
    /// Time of flight, the mean over the sprayed volume.
    #[getter]
    fn flight_time(&self) -> PyTime {
        PyTime(self.0.flight_time())
    }
    /// Temperature of the drops on arrival, the mean over what lands.
    #[getter]
    fn drop_temperature(&self) -> PyTemperature {
        PyTemperature(self.0.drop_temperature())
    }
    /// Share of the sprayed volume in drops that land dry.
    #[getter]
    fn dust(&self) -> PyRatio {
        PyRatio(self.0.dust())
    }
    /// Volume solids of what lands.
    #[getter]
    fn deposit_solids(&self) -> PyRatio {
        PyRatio(self.0.deposit_solids().into())
    }
    /// The liquid in what lands, as a ``Blend``; raises ``RangeError`` when the spray lands as dust.
    #[getter]
    fn deposit(&self) -> CallResult<PyBlend> {
        Ok(PyBlend(self.0.deposit()?))
    }
    /// Share of each volatile species lost in flight, by name.
    #[getter]
    fn lost_by_species(&self) -> Ordered<f64> {
        Ordered(self.0.lost_by_species().into_iter().map(|(name, share)| (name, share.si())).collect())
    }
    /// Drop sizes from fine to coarse and how each lands: columns under names with their units, ready for a data frame.
    fn columns(&self) -> Ordered<Curve> {
        let classes = self.0.classes();
        let column = |name: &str, read: &dyn Fn(&mistcoat::spray::DropClass) -> f64| {
            (name.to_owned(), Curve(classes.iter().map(read).collect()))
        };
        Ordered(vec![
            column("diameter_um", &|c| c.diameter.si() * 1e6),
            column("share", &|c| c.share.si()),
            column("lost", &|c| c.lost.si()),
            column("solids", &|c| c.solids.si()),
            column("diameter_on_arrival_um", &|c| c.diameter_on_arrival.si() * 1e6),
            column("temperature_degC", &|c| c.temperature.si() - ZERO_CELSIUS),
            column("speed_m_s", &|c| c.speed.si()),
            column("time_ms", &|c| c.time.si() * 1e3),
        ])
    }
    /// The coat that this many passes leave, one on the other before any has dried.
    ///
    /// It holds what arrives: less of the fast solvent, more solids, and water the drops took up. ``substrate`` and
    /// ``substrate_thickness`` as for ``Film``. Raises ``RangeError`` for no pass, a film outside 1 µm to 5 mm, or a spray that
    /// lands as dust.
    #[pyo3(signature = (passes=1, *, substrate="polystyrene", substrate_thickness=None))]
    fn film(
        &self,
        passes: u32,
        substrate: &str,
        substrate_thickness: Option<Arg<q::Length>>,
    ) -> CallResult<PyFilm> {
        let mut plate = Substrate::named(substrate)?;
        if let Some(thickness) = substrate_thickness {
            plate = plate.with_thickness(thickness.value)?;
        }
        Ok(PyFilm(self.0.film(passes)?.with_substrate(plate)))
    }
    /// What to mind: spatter, dry spray, a nozzle too fine, too little air; empty when there is nothing.
    #[getter]
    fn warnings(&self) -> Vec<String> {
        self.0.warnings().iter().map(|w| w.message.clone()).collect()
    }
    /// The steps from the nozzle to the film of one pass, with numbers and sources.
    fn working(&self) -> PyWorking {
        PyWorking(self.0.working())
    }
    /// The shot as a table, with what to mind under it.
    fn table(&self, py: Python<'_>) -> CallResult<PyTable> {
        Ok(PyTable(py.detach(|| self.0.table())?))
    }
    fn __str__(&self, py: Python<'_>) -> CallResult<String> {
        Ok(py.detach(|| self.0.table())?.to_text())
    }
    fn _repr_html_(&self, py: Python<'_>) -> CallResult<String> {
        let html = py.detach(|| self.0.table())?.to_html();
        Ok(format!(
            "<div class=\"mistcoat-shot\" title=\"{}\">{html}</div>",
            escape_html(&self.0.gun().to_string())
        ))
    }
}

crate::json::travels!(
    PyShot,
    "The shot",
    evaluates,
    note = "It holds gun, mix and room; the rest is worked out again."
);
