//! The settings that a map runs over and a diagnosis moves, as plain numbers in the unit of their name.

use super::setup::Setup;
use super::slowed::RetarderShare;
use crate::error::{Error, Result, out_of_range};
use crate::quantity::{Length, Pressure, Quantity, Ratio, RelativeHumidity, Temperature, Velocity};
use serde::{Deserialize, Serialize};

/// A setting that a map runs over; numbers in the unit of its name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Axis {
    /// Parts of thinner to one part of paint.
    ThinnerPerPaint,
    /// Gauge pressure, kPa.
    Pressure,
    /// Distance, mm.
    Distance,
    /// Room temperature, °C.
    Temperature,
    /// Relative humidity, %.
    Humidity,
    /// Passes wet in wet.
    WetPasses,
    /// Wet film of one coat, µm, however many passes it takes.
    WetFilm,
    /// Share of the thinner that is retarder, %; for a setting that names one.
    Retarder,
    /// Air over the part, m/s.
    AirSpeed,
}

impl Axis {
    /// All axes.
    pub const ALL: [Self; 9] = [
        Self::ThinnerPerPaint,
        Self::Pressure,
        Self::Distance,
        Self::Temperature,
        Self::Humidity,
        Self::WetPasses,
        Self::WetFilm,
        Self::Retarder,
        Self::AirSpeed,
    ];

    /// Name with unit, as programs write it.
    pub const fn key(self) -> &'static str {
        match self {
            Self::ThinnerPerPaint => "thinner_per_paint",
            Self::Pressure => "pressure_kPa",
            Self::Distance => "distance_mm",
            Self::Temperature => "temperature_degC",
            Self::Humidity => "relative_humidity_pct",
            Self::WetPasses => "wet_passes",
            Self::WetFilm => "wet_film_um",
            Self::Retarder => "retarder_pct",
            Self::AirSpeed => "air_speed_m_s",
        }
    }

    /// Name with unit, for people.
    pub const fn title(self) -> &'static str {
        match self {
            Self::ThinnerPerPaint => "parts of thinner to 1 part of paint",
            Self::Pressure => "pressure, kPa gauge",
            Self::Distance => "distance, mm",
            Self::Temperature => "room, °C",
            Self::Humidity => "relative humidity, %",
            Self::WetPasses => "passes wet in wet",
            Self::WetFilm => "wet film of a coat, µm",
            Self::Retarder => "retarder in the thinner, %",
            Self::AirSpeed => "air over the part, m/s",
        }
    }

    /// The axis of a name.
    ///
    /// # Errors
    /// [`crate::error::UnknownName`] with near names.
    pub fn find(name: &str) -> Result<Self> {
        Self::ALL.into_iter().find(|a| a.key() == name).ok_or_else(|| {
            let known = Self::ALL.map(Self::key);
            crate::error::unknown_name(
                "setting of a map",
                name,
                known,
                "a map runs over two of the settings listed",
            )
        })
    }

    /// Whether it changes the mix or its drying on the tip.
    pub(super) const fn changes_stage(self) -> bool {
        matches!(
            self,
            Self::ThinnerPerPaint | Self::Retarder | Self::Temperature | Self::Humidity | Self::AirSpeed
        )
    }

    /// As it stands in a setting; NaN for a wet film that is not given.
    pub fn of(self, setup: &Setup) -> f64 {
        match self {
            Self::WetFilm => setup.wet_film.map_or(f64::NAN, |film| film.si() * 1e6),
            Self::Retarder => setup.retarder_share().si() * 100.0,
            Self::ThinnerPerPaint => setup.thinner_per_paint,
            Self::Pressure => setup.gun.pressure().si() * 1e-3,
            Self::Distance => setup.gun.distance().si() * 1e3,
            Self::WetPasses => f64::from(setup.wet_passes),
            Self::Temperature => setup.room.temperature().si() - 273.15,
            Self::Humidity => setup.room.relative_humidity().get() * 100.0,
            Self::AirSpeed => setup.room.air_speed().si(),
        }
    }

    /// The same setting with this one at `value`, in the unit of its name.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a value out of the range of the setting, or the share of a retarder that is not
    /// named. A ratio or wet film out of range is refused when the setting is judged.
    pub fn set(self, setup: &mut Setup, value: f64) -> Result<()> {
        match self {
            Self::ThinnerPerPaint => setup.thinner_per_paint = value,
            Self::Pressure => setup.gun = setup.gun.clone().at_pressure(Pressure::from_si(value * 1e3))?,
            Self::Distance => setup.gun = setup.gun.clone().at_distance(Length::from_si(value * 1e-3))?,
            Self::Temperature => {
                setup.room = setup.room.clone().with_temperature(Temperature::from_si(value + 273.15))?;
            }
            Self::Humidity => {
                setup.room = setup.room.clone().with_relative_humidity(RelativeHumidity::new(value / 100.0)?);
            }
            Self::WetPasses => {
                setup.wet_film = None;
                if !(1.0..=20.0).contains(&value) {
                    return Err(out_of_range(
                        "passes wet in wet",
                        value.to_string(),
                        "1 to 20",
                        "count whole passes",
                    ));
                }
                // Between 1 and 20 by the line above.
                #[allow(
                    clippy::cast_possible_truncation,
                    clippy::cast_sign_loss,
                    reason = "checked to be 1 to 20"
                )]
                let passes = value.round() as u32;
                setup.wet_passes = passes;
            }
            Self::WetFilm => setup.wet_film = Some(Length::from_si(value * 1e-6)),
            Self::Retarder => match &mut setup.retarder {
                Some(slowed) => {
                    *slowed = RetarderShare::new(&slowed.retarder, Ratio::from_si(value / 100.0))?;
                }
                None => return Err(no_retarder()),
            },
            Self::AirSpeed => {
                setup.room = setup.room.clone().with_air_speed(Velocity::from_si(value))?;
            }
        }
        Ok(())
    }
}

pub(super) fn no_retarder() -> Error {
    out_of_range(
        "retarder",
        "none",
        "a slow liquid",
        "name the retarder of the setting before its share runs",
    )
}
