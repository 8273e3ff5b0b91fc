//! How much vapour do we breathe over the evening, and how much fresh air would keep it low?
//!
//! A session is a list of sources of vapour, each with its time: a coat sprayed and drying, a cleaning, an open cup.
//!
//! * **Coat.** Of the mix sprayed, what does not land evaporates while spraying; of what lands, the part that the flight
//!   took is gone too; the film gives off the rest as the drying engine says ([`crate::film::Drying`]), solvent by solvent.
//!   What the film still holds when it was last looked at is told as kept, so that the balance closes.
//! * **Cleaning.** The stated share of the cleaner evaporates evenly over its time.
//! * **Open cup.** As [`crate::film::OpenCup`] says.
//!
//! Each vapour spreads over the whole room and leaves with the air ([`crate::air::RoomVapour`]); what people breathe is added
//! up over the vapours,
//!
//! ```text
//! E(t) = Σ C_i(t)/L_i                          1 is the limit, 29 CFR 1910.1000(d)(2)
//! E_8h = max (1/8 h) ∫ E dt                    limits over 8 h
//! E_15 = max (1/15 min) ∫ Σ C_i/S_i dt         short-term limits; where none is known, S = 3 L (from memory)
//! C_near = C + G/β,  β = ½ · 2π r² · s         within r = 0.5 m of the work (two zones, from memory)
//! ```
//!
//! with `s` the speed of the air over the bench and at least 5 cm/s. Of all windows of 8 h and of 15 min the worst counts.
//!
//! **Accuracy.** Limits aside, the room's mean is known to a factor 2 (mixing, see [`crate::air::RoomVapour`]), and β to a
//! factor 3: both stand in the intervals. Times of the drying film add a factor 1.7 to how fast, nothing to how much.
//!
//! Neglected: in the spray that bounces off the part, vapour and mist are denser than the near zone says; mist, which is
//! breathed too; what skin takes up; vapour lost from a mix on its way to the gun counts twice when its cup is a source as
//! well (to the safe side); of a cleaner all liquids evaporate alike.
//!
//! It is for planning. It says how bad a room is; it never says that a room is safe. The safety data sheet, local codes and
//! licensed practice decide.

mod over_time;
mod report;
mod source;
mod stored;
mod table;

pub(super) use over_time::near_flow_m3_s;
pub(super) use report::sentence;
pub use report::{SessionExposure, SessionVapour, Ventilation};
pub use source::{SourceKind, VapourSource};

use self::source::Emitter;
use self::stored::Stored;
use super::exposure::Authority;
use crate::air::{Room, RoomVapour};
use crate::blend::Blend;
use crate::error::{Result, out_of_range};
use crate::film::{CupCourse, Drying};
use crate::paint::Mix;
use crate::quantity::{MolarMass, Quantity, Ratio, Time, Volume, show};
use serde::{Deserialize, Serialize};

/// Share of the limit that ventilation is worked out for when none is chosen (source key `ACTION_LEVEL`).
const ACTION_LEVEL: f64 = 0.5;

/// The air of a room over a session: sources of vapour are added one by one, then [`SessionAir::run`].
///
/// ```
/// use mistcoat::{air::Room, blend::{Basis, Blend}, dose::{Parts, Thinning}, film::Film, paint::{Family, Paint}};
/// use mistcoat::quantity::{Quantity, Ratio, RelativeHumidity, parse};
/// use mistcoat::safety::SessionAir;
/// let room = Room::new(parse("21 °C")?, RelativeHumidity::new(0.5)?)?
///     .with_volume(parse("30 m3")?)?
///     .with_air_changes(parse("0.5 /h")?)?;
/// let thinner = Blend::from_names(&[("acetone", 40.0), ("n-butyl acetate", 60.0)], Basis::Volume, None)?;
/// let mix = Paint::typical(Family::SolventLacquer, "hull green")?
///     .thin(&thinner, Thinning::from_parts(Parts { thinner: 1.0, paint: 1.0 })?)?;
/// let drying = Film::of_mix(&mix, parse("25 µm")?, &room)?.dry()?;
/// let evening = SessionAir::new(&room)?
///     .coat("hull green", &mix, parse("8 mL")?, parse("40 %")?, &drying, parse("0 min")?, parse("10 min")?)?
///     .cleaning("gun", &thinner, parse("6 mL")?, parse("30 %")?, parse("15 min")?, parse("5 min")?)?
///     .run()?;
/// assert!(evening.near_short_sum.best > evening.short_sum.best); // it is worse at the bench
/// assert!(evening.cautions().last().is_some_and(|c| c.contains("decide")));
/// println!("{}", evening.table().to_text());
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Stored", into = "Stored")]
pub struct SessionAir {
    room: Room,
    authority: Authority,
    below: f64,
    mixing: Option<f64>,
    leaves: Option<Time>,
    emitters: Vec<Emitter>,
}

impl SessionAir {
    /// Clean air in a room of known volume and air changes.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] when the room has no volume or no air changes.
    pub fn new(room: &Room) -> Result<Self> {
        // The vapour of one liquid stands for all: it checks what it needs of the room.
        RoomVapour::new(room, MolarMass::from_si(0.1))?;
        Ok(Self {
            room: room.clone(),
            authority: Authority::default(),
            below: ACTION_LEVEL,
            mixing: None,
            leaves: None,
            emitters: Vec::new(),
        })
    }

    /// The same against the limits of this authority; the lowest of all that are known when not called.
    #[must_use]
    pub fn with_authority(mut self, authority: Authority) -> Self {
        self.authority = authority;
        self
    }

    /// The same with ventilation worked out for this share of the limits; half when not called.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 1 % to 100 %.
    pub fn keeping_below(mut self, share: Ratio) -> Result<Self> {
        if !(0.01..=1.0).contains(&share.si()) {
            return Err(out_of_range(
                "share of the limits to stay below",
                show(share),
                "1 % to 100 %",
                "half of the limit is the usual level from which one acts; less is better",
            ));
        }
        self.below = share.si();
        Ok(self)
    }

    /// The same with a known mixing factor of the room's air: 1 for perfect mixing, 0.1 to 0.5 in practice.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 0.01 to 1.
    pub fn with_mixing(mut self, mixing: Ratio) -> Result<Self> {
        let checked = RoomVapour::new(&self.room, MolarMass::from_si(0.1))?.with_mixing(mixing)?;
        self.mixing = Some(checked.mixing().si());
        Ok(self)
    }

    /// The same for people who leave at this time after the begin and breathe clean air for the rest of the 8 h. When not
    /// called they stay with the drying parts for the worst 8 h.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 1 min to 24 h.
    pub fn leaving_at(mut self, time: Time) -> Result<Self> {
        if !(60.0..=86_400.0).contains(&time.si()) {
            return Err(out_of_range(
                "time of leaving the room",
                show(time),
                "1 min to 24 h",
                "count from the begin of the session",
            ));
        }
        self.leaves = Some(time);
        Ok(self)
    }

    /// The same with a coat: `sprayed` of the mix through all guns, of which the share `landed` reaches the part and dries as
    /// `drying` says; spraying begins at `start` and lasts `spraying`.
    ///
    /// What the flight took is read off the drying film: it holds less solvent to its solids than the mix. So dry the film
    /// that the spray leaves ([`crate::spray::Shot::film`]), or one straight of the mix for a brushed coat.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a volume outside 0 to 100 L, a share outside 0 to 100 %, times outside one day, or a
    /// film of another mix.
    #[allow(clippy::too_many_arguments, reason = "what the hand does, in the order it is told")]
    pub fn coat(
        mut self,
        name: &str,
        mix: &Mix,
        sprayed: Volume,
        landed: Ratio,
        drying: &Drying,
        start: Time,
        spraying: Time,
    ) -> Result<Self> {
        self.emitters.push(Emitter::coat(name, mix, (sprayed, landed), drying, (start, spraying))?);
        Ok(self)
    }

    /// The same with a cleaning: of `volume` of cleaner the share `evaporated` becomes vapour, evenly over the time that it
    /// `lasts`.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a volume outside 0 to 100 L, a share outside 0 to 100 % or times outside one day.
    pub fn cleaning(
        mut self,
        name: &str,
        cleaner: &Blend,
        volume: Volume,
        evaporated: Ratio,
        start: Time,
        lasts: Time,
    ) -> Result<Self> {
        let at = self.room.temperature();
        self.emitters.push(Emitter::cleaning(name, cleaner, (volume, evaporated), (start, lasts), at)?);
        Ok(self)
    }

    /// The same with a mix standing in an open cup for so long.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for times outside one day or longer than the cup was followed.
    pub fn open_cup(mut self, name: &str, course: &CupCourse, start: Time, open_for: Time) -> Result<Self> {
        self.emitters.push(Emitter::open_cups(name, course, 1, (start, open_for), Time::from_si(0.0))?);
        Ok(self)
    }

    /// The same with several cups alike, opened one after another over the time `opening`.
    pub(crate) fn open_cups(
        mut self,
        name: &str,
        course: &CupCourse,
        cups: u32,
        times: (Time, Time),
        opening: Time,
    ) -> Result<Self> {
        self.emitters.push(Emitter::open_cups(name, course, cups, times, opening)?);
        Ok(self)
    }

    /// The room.
    pub fn room(&self) -> &Room {
        &self.room
    }

    /// The sources of vapour so far.
    pub fn sources(&self) -> Vec<VapourSource> {
        self.emitters.iter().map(|e| e.source.clone()).collect()
    }

    /// What the room's air holds over the session, against the limits.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] when no source was added, or when there is more vapour than air.
    pub fn run(&self) -> Result<SessionExposure> {
        if self.emitters.is_empty() {
            return Err(out_of_range(
                "sources of vapour",
                "none",
                "at least one",
                "add what evaporates: a coat, a cleaning, an open cup",
            ));
        }
        report::exposure(self)
    }
}
