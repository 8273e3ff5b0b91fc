//! The room: what the hygrometer and the thermometer on the wall say.

use super::draught::NO_DRAUGHT_M_S;
use super::properties::{ATMOSPHERE_PA, ZERO_CELSIUS};
use super::psychrometrics::{self, saturation_pressure_pa};
use crate::error::{Error, Result, out_of_range};
use crate::quantity::{
    Frequency, Pressure, Quantity, Ratio, RelativeHumidity, Temperature, Velocity, Volume, as_text, show,
};
use serde::{Deserialize, Serialize};

/// A room with its air.
///
/// Defaults: 0.15 m/s ("no draught"), one atmosphere, size and ventilation not given. Each `with_...` call
/// checks its value and returns the changed room.
///
/// ```
/// use mistcoat::air::Room;
/// use mistcoat::quantity::{parse, RelativeHumidity};
/// let room = Room::new(parse("21 °C")?, RelativeHumidity::new(0.55)?)?
///     .with_air_speed(parse("0.5 m/s")?)? // a fan
///     .with_volume(parse("30 m3")?)?
///     .with_air_changes(parse("1 /h")?)?;
/// assert!(room.dew_point()? < room.wet_bulb()?);
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Record", into = "Record")]
pub struct Room {
    temperature: Temperature,
    relative_humidity: RelativeHumidity,
    air_speed: Velocity,
    pressure: Pressure,
    volume: Option<Volume>,
    air_changes: Option<Frequency>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    #[serde(with = "as_text")]
    temperature: Temperature,
    #[serde(with = "as_text")]
    relative_humidity: Ratio,
    #[serde(with = "as_text")]
    air_speed: Velocity,
    #[serde(with = "as_text")]
    pressure: Pressure,
    #[serde(default, with = "as_text::option")]
    volume: Option<Volume>,
    #[serde(default, with = "as_text::option")]
    air_changes: Option<Frequency>,
}

impl From<Room> for Record {
    fn from(r: Room) -> Self {
        Self {
            temperature: r.temperature,
            relative_humidity: r.relative_humidity.into(),
            air_speed: r.air_speed,
            pressure: r.pressure,
            volume: r.volume,
            air_changes: r.air_changes,
        }
    }
}

impl TryFrom<Record> for Room {
    type Error = Error;
    fn try_from(r: Record) -> Result<Self> {
        let mut room = Self::new(r.temperature, r.relative_humidity.try_into()?)?
            .with_air_speed(r.air_speed)?
            .with_pressure(r.pressure)?;
        if let Some(volume) = r.volume {
            room = room.with_volume(volume)?;
        }
        if let Some(air_changes) = r.air_changes {
            room = room.with_air_changes(air_changes)?;
        }
        Ok(room)
    }
}

impl Room {
    /// A room at this temperature (0 to 60 °C) and relative humidity.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a temperature outside 0 to 60 °C.
    pub fn new(temperature: Temperature, relative_humidity: RelativeHumidity) -> Result<Self> {
        check_temperature(temperature)?;
        Ok(Self {
            temperature,
            relative_humidity,
            air_speed: Velocity::from_si(NO_DRAUGHT_M_S),
            pressure: Pressure::from_si(ATMOSPHERE_PA),
            volume: None,
            air_changes: None,
        })
    }

    /// The same room with this air speed over the part: 0.1 to 0.2 m/s no draught, 0.5 m/s a fan or a
    /// spray booth, 5 m/s and more under the air of a gun.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 0 to 30 m/s.
    pub fn with_air_speed(mut self, air_speed: Velocity) -> Result<Self> {
        within(air_speed, 0.0, 30.0, "air speed", "0 m/s (still air) to 30 m/s", "0.15 m/s is no draught")?;
        self.air_speed = air_speed;
        Ok(self)
    }

    /// For speeds known to be in range.
    pub(crate) fn moving_at(mut self, air_speed: Velocity) -> Self {
        self.air_speed = air_speed;
        self
    }

    /// The same air warmed (a cabinet, a warm corner) or cooled to this temperature: it holds the same water, so
    /// that warming dries it.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 0 to 60 °C, and when the air cooled so far would be below its dew
    /// point.
    ///
    /// ```
    /// use mistcoat::air::Room;
    /// use mistcoat::quantity::{parse, RelativeHumidity};
    /// let room = Room::new(parse("21 °C")?, RelativeHumidity::new(0.55)?)?;
    /// let cabinet = room.warmed_to(parse("45 °C")?)?;
    /// assert_eq!(cabinet.relative_humidity().to_string(), "14.3 %");
    /// assert!(room.warmed_to(parse("10 °C")?).is_err()); // dew point 11.6 °C
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn warmed_to(&self, temperature: Temperature) -> Result<Self> {
        check_temperature(temperature)?;
        let [before, after] = [self.temperature, temperature].map(|t| saturation_pressure_pa(t.si()));
        let humidity = self.relative_humidity.get() * before / after;
        // At the dew point itself rounding decides.
        if humidity > 1.0 + 1e-9 {
            return Err(out_of_range(
                "temperature to bring the air to",
                show(temperature),
                format!(
                    "at or above the dew point, {}",
                    self.dew_point().map_or_else(|_| "unknown".to_owned(), show)
                ),
                "air cooled below its dew point rains out: dry it first, or give the humidity measured there",
            ));
        }
        let relative_humidity = RelativeHumidity::new(humidity.min(1.0))?;
        Ok(Self { temperature, relative_humidity, ..self.clone() })
    }

    /// The same room at another temperature, 0 to 60 °C, with the same relative humidity; [`Room::warmed_to`] keeps the water.
    ///
    /// # Errors
    /// As [`Room::new`].
    pub fn with_temperature(self, temperature: Temperature) -> Result<Self> {
        let other = Self::new(temperature, self.relative_humidity)?;
        Ok(Self { temperature: other.temperature, ..self })
    }

    /// The same room at another relative humidity.
    #[must_use]
    pub fn with_relative_humidity(mut self, relative_humidity: RelativeHumidity) -> Self {
        self.relative_humidity = relative_humidity;
        self
    }

    /// The same room at this absolute pressure; one atmosphere when not called.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 50 to 110 kPa.
    pub fn with_pressure(mut self, pressure: Pressure) -> Result<Self> {
        check_pressure(pressure)?;
        self.pressure = pressure;
        Ok(self)
    }

    /// The same room with its volume.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 1 to 100 000 m3.
    pub fn with_volume(mut self, volume: Volume) -> Result<Self> {
        within(volume, 1.0, 1e5, "room volume", "1 m3 to 100 000 m3", "length × width × height of the room")?;
        self.volume = Some(volume);
        Ok(self)
    }

    /// The same room with so many air changes per hour: 0.5 /h closed windows, 5 /h and more with an extractor.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 0 to 200 /h.
    pub fn with_air_changes(mut self, air_changes: Frequency) -> Result<Self> {
        let most = 200.0 / 3600.0;
        let remedy = "fan flow per hour divided by the room volume; 0.5 /h with closed windows";
        within(air_changes, 0.0, most, "air changes", "0 /h to 200 /h", remedy)?;
        self.air_changes = Some(air_changes);
        Ok(self)
    }

    /// Air temperature.
    pub fn temperature(&self) -> Temperature {
        self.temperature
    }

    /// Relative humidity.
    pub fn relative_humidity(&self) -> RelativeHumidity {
        self.relative_humidity
    }

    /// Air speed over the part.
    pub fn air_speed(&self) -> Velocity {
        self.air_speed
    }

    /// Absolute pressure.
    pub fn pressure(&self) -> Pressure {
        self.pressure
    }

    /// Volume of the room, when given.
    pub fn volume(&self) -> Option<Volume> {
        self.volume
    }

    /// Air changes, when given.
    pub fn air_changes(&self) -> Option<Frequency> {
        self.air_changes
    }

    /// The temperature at which dew forms on a surface.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for air drier than 0.1 % relative humidity.
    pub fn dew_point(&self) -> Result<Temperature> {
        psychrometrics::dew_point(self.temperature, self.relative_humidity)
    }

    /// The temperature a water-wet surface settles at.
    ///
    /// # Errors
    /// Those of [`psychrometrics::wet_bulb`]; none within the limits of a room.
    pub fn wet_bulb(&self) -> Result<Temperature> {
        psychrometrics::wet_bulb(self.temperature, self.relative_humidity, self.pressure)
    }

    /// Mass of water vapour per mass of dry air.
    ///
    /// # Errors
    /// Those of [`psychrometrics::humidity_ratio`]; none within the limits of a room.
    pub fn humidity_ratio(&self) -> Result<Ratio> {
        psychrometrics::humidity_ratio(self.temperature, self.relative_humidity, self.pressure)
    }
}

fn check_temperature(temperature: Temperature) -> Result<()> {
    if (0.0..=60.0).contains(&(temperature.si() - ZERO_CELSIUS)) {
        return Ok(());
    }
    Err(out_of_range(
        "room temperature",
        show(temperature),
        "0 °C to 60 °C",
        "check the thermometer and its unit; below freezing nothing here dries as it should",
    ))
}

fn within<Q: Quantity>(q: Q, low: f64, high: f64, what: &str, limit: &str, remedy: &str) -> Result<()> {
    if (low..=high).contains(&q.si()) {
        return Ok(());
    }
    Err(out_of_range(what, show(q), limit, remedy))
}

pub(crate) fn check_pressure(pressure: Pressure) -> Result<()> {
    let remedy = "give the absolute air pressure, 101.3 kPa at sea level and about 84 kPa at 1500 m";
    within(pressure, 5e4, 1.1e5, "air pressure", "50 kPa to 110 kPa", remedy)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::parse;

    fn room() -> Room {
        Room::new(parse("21 °C").unwrap(), RelativeHumidity::new(0.55).unwrap()).unwrap()
    }

    #[rstest::rstest]
    #[case(Room::new(parse("-3 °C").unwrap(), RelativeHumidity::new(0.5).unwrap()), ["-3 °C", "0 °C to 60 °C", "check"])]
    #[case(room().with_air_speed(parse("-0.1 m/s").unwrap()), ["-0.1 m/s", "30 m/s", "no draught"])]
    #[case(room().with_air_speed(Velocity::from_si(f64::NAN)), ["NaN", "30 m/s", "no draught"])]
    #[case(room().with_pressure(parse("20 psi").unwrap()), ["138 kPa", "110 kPa", "absolute"])]
    #[case(room().with_volume(parse("30 L").unwrap()), ["30 L", "1 m3", "length"])]
    #[case(room().with_air_changes(parse("1000 /h").unwrap()), ["1000 /h", "200 /h", "fan flow"])]
    fn bad_rooms(#[case] room: Result<Room>, #[case] says: [&str; 3]) {
        let text = room.unwrap_err().to_string();
        for part in says {
            assert!(text.contains(part), "no {part:?} in: {text}");
        }
    }

    // PsychroLib (SI): GetHumRatioFromRelHum and GetRelHumFromHumRatio at 101 325 Pa, 21 °C 55 % -> 35, 45, 60 °C;
    // 5 °C 80 % -> 45 °C; 35 °C 30 % -> 16 °C (computed; see tests/data/psychrometrics.csv for the library).
    #[rstest::rstest]
    #[case("21 °C", 0.55, "35 °C", 0.243117)]
    #[case("21 °C", 0.55, "45 °C", 0.142623)]
    #[case("21 °C", 0.55, "60 °C", 0.068604)]
    #[case("5 °C", 0.80, "45 °C", 0.072759)]
    #[case("35 °C", 0.30, "16 °C", 0.928459)]
    fn warmed_air_holds_its_water(
        #[case] from: &str,
        #[case] humidity: f64,
        #[case] to: &str,
        #[case] expected: f64,
    ) {
        let room = Room::new(parse(from).unwrap(), RelativeHumidity::new(humidity).unwrap()).unwrap();
        let warm = room.warmed_to(parse(to).unwrap()).unwrap();
        approx::assert_relative_eq!(warm.relative_humidity().get(), expected, max_relative = 1e-3);
        approx::assert_relative_eq!(
            warm.humidity_ratio().unwrap().si(),
            room.humidity_ratio().unwrap().si(),
            max_relative = 1e-9
        );
        let back = warm.warmed_to(room.temperature()).unwrap();
        approx::assert_relative_eq!(back.relative_humidity().get(), humidity, max_relative = 1e-12);
    }

    #[test]
    fn air_is_not_cooled_below_its_dew_point() {
        let dew = room().dew_point().unwrap();
        assert!(room().warmed_to(dew).unwrap().relative_humidity().get() > 0.999_999);
        let text = room().warmed_to(parse("11 °C").unwrap()).unwrap_err().to_string();
        assert!(text.contains("11 °C") && text.contains("11.6 °C") && text.contains("rains out"), "{text}");
        let text = room().warmed_to(parse("80 °C").unwrap()).unwrap_err().to_string();
        assert!(text.contains("80 °C") && text.contains("0 °C to 60 °C"), "{text}");
    }

    #[test]
    fn json_round_trip_checks_again() {
        let r = room().with_volume(parse("30 m3").unwrap()).unwrap();
        let json = serde_json::to_string(&r).unwrap();
        assert_eq!(serde_json::from_str::<Room>(&json).unwrap(), r);
        let bad = json.replace("21.0", "90.0");
        assert_ne!(bad, json);
        assert!(serde_json::from_str::<Room>(&bad).unwrap_err().to_string().contains("0 °C to 60 °C"));
    }
}
