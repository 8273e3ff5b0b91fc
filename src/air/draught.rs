//! How fast does the air move over the part?
//!
//! | where | speed | source |
//! |---|---|---|
//! | closed box, no air moves but by itself | 0 m/s | |
//! | room without a felt draught | 0.15 m/s | `ROOM_AIR` |
//! | fan across the bench, spray booth | 0.5 m/s | `ROOM_AIR` |
//! | under the gun | of the jet at that distance | [`Jet::speed_at`] |
//!
//! Between rooms the speed differs by a factor 1.35 (one standard deviation), which every drying time carries.
//! A jet meets the part head on, the drying laws are those of a stream along it: expect a factor 1.5 on times under a gun,
//! and only where the jet points. Its own air has mixed with 10 to 100 parts of the room's, so that humidity and
//! temperature are taken as the room's.
//! A fan close to the part is faster: hold a vane anemometer there, or take 1 to 2 m/s (common practice).

use super::{Jet, Room};
use crate::error::{Result, out_of_range, unknown_name};
use crate::names::fold;
use crate::quantity::{Length, Quantity, Velocity, show};
use serde::{Deserialize, Serialize};

/// A room without a fan and without a felt draught moves at 0.1 to 0.2 m/s (source key `ROOM_AIR`).
pub(super) const NO_DRAUGHT_M_S: f64 = 0.15;
/// Before a fan or in a booth; the booth rule has 0.51 m/s at the face (source key `ROOM_AIR`).
const FAN_M_S: f64 = 0.5;

/// Usual movement of the air over a part.
///
/// ```
/// use mistcoat::air::Draught;
/// use mistcoat::quantity::show;
/// assert_eq!(show("spray booth".parse::<Draught>()?.air_speed()), "0.5 m/s");
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Draught {
    /// A closed box or cupboard: only vapour and warmth move the air.
    StillAir,
    /// A room without a felt draught.
    NoDraught,
    /// A fan that blows across the bench.
    Fan,
    /// A spray booth with its extractor on.
    SprayBooth,
}

impl Draught {
    /// All of them, slowest first.
    pub const ALL: [Self; 4] = [Self::StillAir, Self::NoDraught, Self::Fan, Self::SprayBooth];

    /// Name in files and in Python.
    pub const fn name(self) -> &'static str {
        match self {
            Self::StillAir => "still air",
            Self::NoDraught => "no draught",
            Self::Fan => "fan",
            Self::SprayBooth => "spray booth",
        }
    }

    /// Speed of the air over the part.
    pub fn air_speed(self) -> Velocity {
        Velocity::from_si(match self {
            Self::StillAir => 0.0,
            Self::NoDraught => NO_DRAUGHT_M_S,
            Self::Fan | Self::SprayBooth => FAN_M_S,
        })
    }
}

impl core::str::FromStr for Draught {
    type Err = crate::error::Error;

    fn from_str(text: &str) -> Result<Self> {
        let wanted = fold(text);
        Self::ALL.into_iter().find(|d| fold(d.name()) == wanted).ok_or_else(|| {
            unknown_name(
                "draught",
                text,
                Self::ALL.map(Self::name),
                "give the air speed itself when it is none of these, for example \"1 m/s\"",
            )
        })
    }
}

impl core::fmt::Display for Draught {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(self.name())
    }
}

impl Room {
    /// The same room with air that moves as usual in such a place.
    ///
    /// ```
    /// use mistcoat::air::{Draught, Room};
    /// use mistcoat::quantity::{parse, RelativeHumidity};
    /// let room = Room::new(parse("21 °C")?, RelativeHumidity::new(0.55)?)?;
    /// assert!(room.clone().with_draught(Draught::Fan).air_speed() > room.air_speed());
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    #[must_use]
    pub fn with_draught(self, draught: Draught) -> Self {
        self.moving_at(draught.air_speed())
    }

    /// The same room under the air of a gun, held so far from the part with the paint off. At most 30 m/s: nearer, the
    /// jet would blow the coat about.
    ///
    /// # Errors
    /// Those of [`Jet::speed_at`], and a [`crate::error::RangeError`] where the jet is faster than 30 m/s.
    ///
    /// ```
    /// use mistcoat::air::{Jet, Orifice, Room};
    /// use mistcoat::quantity::{parse, show, RelativeHumidity};
    /// let room = Room::new(parse("21 °C")?, RelativeHumidity::new(0.55)?)?;
    /// let jet = Jet::new(&Orifice::effective(parse("0.4 mm2")?)?, parse("1.4 bar")?, &room)?;
    /// assert_eq!(show(room.under_gun(&jet, parse("15 cm")?)?.air_speed()), "12.2 m/s");
    /// assert!(room.under_gun(&jet, parse("2 cm")?).is_err());
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn under_gun(&self, jet: &Jet, distance: Length) -> Result<Self> {
        let speed = jet.speed_at(distance)?;
        self.clone().with_air_speed(speed).map_err(|_| {
            out_of_range(
                "air of the gun at the part",
                show(speed),
                "at most 30 m/s",
                "hold the gun farther away, or turn its pressure down",
            )
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{RelativeHumidity, parse};

    #[test]
    fn speeds_rise_and_fit_a_room() {
        let room = Room::new(parse("21 °C").unwrap(), RelativeHumidity::new(0.5).unwrap()).unwrap();
        assert_eq!(room.clone().with_draught(Draught::NoDraught), room);
        for pair in Draught::ALL.windows(2) {
            assert!(pair[0].air_speed() <= pair[1].air_speed());
        }
        for draught in Draught::ALL {
            assert_eq!(draught.to_string().parse::<Draught>().unwrap(), draught);
            assert!(room.clone().with_air_speed(draught.air_speed()).is_ok());
        }
        let text = "fann".parse::<Draught>().unwrap_err().to_string();
        assert!(text.contains("fann") && text.contains("\"fan\"") && text.contains("air speed"), "{text}");
    }
}
