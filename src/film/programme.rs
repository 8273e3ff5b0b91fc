//! What does the air of the gun, a fan, a warm cabinet save?
//!
//! A [`Programme`] is the air over the coat as it changes: say 20 s under the air of the gun, then 5 min before a fan,
//! then a cabinet at 45 °C. Amounts in the film, and the temperatures of the film and of what carries it, go on from one
//! air to the next; gas side, humidity and activities are those of the air in force.
//!
//! Neglected: the time a cabinet takes to warm up (the air changes at once, the part follows by its own heat), the
//! expansion of the liquids (0.1 % per kelvin; they keep the volume they had on arrival), heating by lamps.
//! Accuracy: eight films through two or three airs against an independent integration
//! (`tests/data/film_programme_reference.csv`), times within 0.5 %; the model itself as for one room.
//!
//! **Mind.** Warmth makes vapour. Solvent vapour and air explode: no part that is still wet goes into a closed, unventilated
//! or sparking oven. The safety data sheet, local codes and licensed practice decide.

use crate::air::Room;
use crate::error::{Error, Result, out_of_range};
use crate::quantity::{Quantity, Time, as_text, show};
use serde::{Deserialize, Serialize};

/// Shortest and longest that air may last, s.
const LASTS_S: (f64, f64) = (1e-3, 365.0 * 86_400.0);
/// More changes than any recipe has.
const MOST_CHANGES: usize = 100;

/// Air that comes after other air has lasted for a while.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Change {
    /// How long the air before it lasts.
    #[serde(with = "as_text")]
    pub(super) after: Time,
    pub(super) room: Room,
}

/// The air over a coat as it changes with time.
///
/// ```
/// use mistcoat::air::{Draught, Room};
/// use mistcoat::film::Programme;
/// use mistcoat::quantity::{parse, show, RelativeHumidity};
/// let room = Room::new(parse("21 °C")?, RelativeHumidity::new(0.55)?)?;
/// let fan = room.clone().with_draught(Draught::Fan);
/// let cabinet = room.warmed_to(parse("45 °C")?)?.with_draught(Draught::Fan);
/// let programme = Programme::new(room) // as it is sprayed
///     .after(parse("1 min")?, fan)?
///     .after(parse("10 min")?, cabinet)?; // ten minutes of the fan, then warm for as long as it takes
/// let begins: Vec<String> = programme.phases().iter().map(|p| show(p.begins)).collect();
/// assert_eq!(begins, ["0 ms", "60 s", "11 min"]);
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Record", into = "Record")]
pub struct Programme {
    first: Room,
    changes: Vec<Change>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    first: Room,
    #[serde(default)]
    changes: Vec<Change>,
}

impl From<Programme> for Record {
    fn from(p: Programme) -> Self {
        Self { first: p.first, changes: p.changes }
    }
}

impl TryFrom<Record> for Programme {
    type Error = Error;
    fn try_from(r: Record) -> Result<Self> {
        Self::of(r.first, r.changes)
    }
}

/// One stretch of air of a [`Programme`].
#[derive(Debug, Clone, PartialEq)]
pub struct Phase {
    /// The air.
    pub room: Room,
    /// When it sets in, from the wet coat on.
    pub begins: Time,
    /// How long it lasts; None for the last, which goes on.
    pub lasts: Option<Time>,
}

impl Programme {
    /// The same air for good; [`Self::after`] changes it.
    pub fn new(room: Room) -> Self {
        Self { first: room, changes: Vec::new() }
    }

    /// When the air so far has lasted for this time, `room` takes its place.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a time outside 1 ms to 365 d, or more than 100 changes.
    pub fn after(mut self, lasts: Time, room: Room) -> Result<Self> {
        self.changes.push(Change { after: lasts, room });
        Self::of(self.first, self.changes)
    }

    pub(super) fn of(first: Room, changes: Vec<Change>) -> Result<Self> {
        for change in &changes {
            if !(LASTS_S.0..=LASTS_S.1).contains(&change.after.si()) {
                return Err(out_of_range(
                    "time that the air lasts",
                    show(change.after),
                    "1 ms to 365 d",
                    "count from the change before, not from the wet coat; leave out air that does not last",
                ));
            }
        }
        if changes.len() > MOST_CHANGES {
            return Err(out_of_range(
                "changes of the air",
                changes.len().to_string(),
                format!("at most {MOST_CHANGES}"),
                "describe a slow rise by a few steps",
            ));
        }
        Ok(Self { first, changes })
    }

    /// From parts that were checked.
    pub(super) fn checked(first: Room, changes: Vec<Change>) -> Self {
        Self { first, changes }
    }

    pub(super) fn into_parts(self) -> (Room, Vec<Change>) {
        (self.first, self.changes)
    }

    /// The air at the start.
    pub fn first(&self) -> &Room {
        &self.first
    }

    /// The stretches of air, in order.
    pub fn phases(&self) -> Vec<Phase> {
        let mut begins = Time::from_si(0.0);
        let rooms = core::iter::once(&self.first).chain(self.changes.iter().map(|c| &c.room));
        let ends = self.changes.iter().map(|c| Some(c.after)).chain([None]);
        rooms
            .zip(ends)
            .map(|(room, lasts)| {
                let phase = Phase { room: room.clone(), begins, lasts };
                begins = lasts.map_or(begins, |lasts| begins + lasts);
                phase
            })
            .collect()
    }
}

impl From<Room> for Programme {
    fn from(room: Room) -> Self {
        Self::new(room)
    }
}

impl core::fmt::Display for Programme {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        for (index, phase) in self.phases().iter().enumerate() {
            let r = &phase.room;
            let then = if index > 0 { ", then " } else { "" };
            write!(f, "{then}{} with air at {}", show(r.temperature()), show(r.air_speed()))?;
            if let Some(lasts) = phase.lasts {
                write!(f, " for {}", show(lasts))?;
            }
        }
        Ok(())
    }
}
