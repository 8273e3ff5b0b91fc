//! `Room` in Python.

use crate::errors::CallResult;
use crate::quantity::{Arg, PyFrequency, PyPressure, PyRatio, PyTemperature, PyVelocity, PyVolume};
use crate::spray::PyAirbrush;
use mistcoat::air::{Draught, Room};
use mistcoat::quantity as q;
use pyo3::prelude::*;

/// A room with its air.
///
/// ``temperature`` 0 to 60 °C; ``relative_humidity`` 0 to 100 %; ``air_speed`` over the part, 0 to 30 m/s: 0.15 m/s (no
/// draught) unless given, 0.5 m/s before a fan or in a booth; ``volume`` and ``air_changes`` for what concerns your lungs;
/// ``pressure`` absolute, one atmosphere unless given. Values outside raise ``RangeError``.
///
/// >>> import mistcoat as mc
/// >>> room = mc.Room(temperature="21 degC", relative_humidity="55 %")
/// >>> print(room.dew_point)
/// 11.6 °C
#[pyclass(frozen, eq, name = "Room", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyRoom(pub Room);

#[pymethods]
impl PyRoom {
    #[new]
    #[pyo3(signature = (*, temperature, relative_humidity, air_speed=None, volume=None, air_changes=None, pressure=None))]
    fn new(
        temperature: Arg<q::Temperature>,
        relative_humidity: Arg<q::Ratio>,
        air_speed: Option<Arg<q::Velocity>>,
        volume: Option<Arg<q::Volume>>,
        air_changes: Option<Arg<q::Frequency>>,
        pressure: Option<Arg<q::Pressure>>,
    ) -> CallResult<Self> {
        let mut room = Room::new(temperature.value, relative_humidity.value.try_into()?)?;
        if let Some(v) = air_speed {
            room = room.with_air_speed(v.value)?;
        }
        if let Some(v) = volume {
            room = room.with_volume(v.value)?;
        }
        if let Some(v) = air_changes {
            room = room.with_air_changes(v.value)?;
        }
        if let Some(v) = pressure {
            room = room.with_pressure(v.value)?;
        }
        Ok(Self(room))
    }
    /// The same air warmed (a cabinet) or cooled to this temperature, 0 to 60 °C: it holds the same water, so that warming
    /// dries it. Raises ``RangeError`` below its dew point.
    ///
    /// >>> import mistcoat as mc
    /// >>> room = mc.Room(temperature="21 degC", relative_humidity="55 %")
    /// >>> print(room.warmed_to("45 degC"))
    /// 45 °C, 14.3 % humidity, air at 0.15 m/s
    fn warmed_to(&self, temperature: Arg<q::Temperature>) -> CallResult<Self> {
        Ok(Self(self.0.warmed_to(temperature.value)?))
    }
    /// The same room with air that moves as usual in such a place: "still air" (0), "no draught" (0.15 m/s), "fan" or
    /// "spray booth" (0.5 m/s). Raises ``UnknownName`` for others.
    fn with_draught(&self, draught: &str) -> CallResult<Self> {
        Ok(Self(self.0.clone().with_draught(draught.parse::<Draught>()?)))
    }
    /// The same room with this air speed over the part, 0 to 30 m/s; for the air of a gun see ``under_gun``.
    fn with_air_speed(&self, air_speed: Arg<q::Velocity>) -> CallResult<Self> {
        Ok(Self(self.0.clone().with_air_speed(air_speed.value)?))
    }
    /// The same room under the air of a gun with its paint off, at most 30 m/s: nearer, the jet would blow the coat about.
    ///
    /// ``distance`` from the nozzle to the part, 0 to 3 m: that of the gun unless given. The speed on the axis of a round jet,
    /// good to 20 % from 3 cm on. Raises ``RangeError`` for a distance outside, or where the jet is faster than 30 m/s.
    ///
    /// >>> import mistcoat as mc
    /// >>> room = mc.Room(temperature="21 degC", relative_humidity="55 %")
    /// >>> gun = mc.Airbrush(nozzle="0.3 mm", pressure="20 psi", distance="80 mm")
    /// >>> print(room.under_gun(gun, distance="20 cm"))
    /// 21 °C, 55 % humidity, air at 9.08 m/s
    #[pyo3(signature = (airbrush, *, distance=None))]
    #[allow(clippy::needless_pass_by_value, reason = "extracted arguments")]
    fn under_gun(
        &self,
        airbrush: PyRef<'_, PyAirbrush>,
        distance: Option<Arg<q::Length>>,
    ) -> CallResult<Self> {
        let gun = &airbrush.0;
        let distance = distance.map_or_else(|| gun.distance(), |x| x.value);
        Ok(Self(self.0.under_gun(&gun.air_jet(&self.0)?, distance)?))
    }
    /// Temperature of the air of the room.
    #[getter]
    fn temperature(&self) -> PyTemperature {
        PyTemperature(self.0.temperature())
    }
    /// Relative humidity of the air, as a share of saturation.
    #[getter]
    fn relative_humidity(&self) -> PyRatio {
        PyRatio(self.0.relative_humidity().into())
    }
    /// Air speed over the part.
    #[getter]
    fn air_speed(&self) -> PyVelocity {
        PyVelocity(self.0.air_speed())
    }
    /// Absolute air pressure.
    #[getter]
    fn pressure(&self) -> PyPressure {
        PyPressure(self.0.pressure())
    }
    /// Volume of the room; None when not given.
    #[getter]
    fn volume(&self) -> Option<PyVolume> {
        self.0.volume().map(PyVolume)
    }
    /// Air changes; None when not given.
    #[getter]
    fn air_changes(&self) -> Option<PyFrequency> {
        self.0.air_changes().map(PyFrequency)
    }
    /// The temperature at which dew forms on a surface; within 0.03 K of the ASHRAE equations.
    ///
    /// Raises ``RangeError`` for air drier than 0.1 % relative humidity.
    #[getter]
    fn dew_point(&self) -> CallResult<PyTemperature> {
        Ok(PyTemperature(self.0.dew_point()?))
    }
    /// The temperature a water-wet surface settles at; within 0.01 K of the ASHRAE equations.
    #[getter]
    fn wet_bulb(&self) -> CallResult<PyTemperature> {
        Ok(PyTemperature(self.0.wet_bulb()?))
    }
    /// Mass of water vapour per mass of dry air.
    #[getter]
    fn humidity_ratio(&self) -> CallResult<PyRatio> {
        Ok(PyRatio(self.0.humidity_ratio()?))
    }
    fn __str__(&self) -> String {
        let r = &self.0;
        format!(
            "{}, {} humidity, air at {}",
            q::show(r.temperature()),
            r.relative_humidity(),
            q::show(r.air_speed())
        )
    }
}

crate::json::travels!(PyRoom, "The room", evaluates);
