//! What is done when, by whom, with which gun.

use crate::quantity::{Quantity, Time, as_text, show};
use serde::{Deserialize, Serialize};

/// What a step is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum What {
    /// Tape and paper on the part.
    Mask,
    /// Count, stir, strain.
    Mix,
    /// One coat.
    Spray,
    /// The gun goes to the next person.
    HandOver,
    /// The part waits for the next coat.
    FlashOff,
    /// The part waits for tape or the next layer.
    Wait,
    /// The last layer dries until a light touch takes nothing away.
    Dry,
    /// Cleaner through the gun.
    Rinse,
    /// The last rinse, and the gun taken apart.
    CleanUp,
}

impl What {
    /// All of them, in the order in which a layer meets them.
    pub const ALL: [Self; 9] = [
        Self::Mask,
        Self::Mix,
        Self::Spray,
        Self::HandOver,
        Self::FlashOff,
        Self::Wait,
        Self::Dry,
        Self::Rinse,
        Self::CleanUp,
    ];

    /// The word shown to a reader.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Mask => "mask",
            Self::Mix => "mix",
            Self::Spray => "spray",
            Self::HandOver => "hand over",
            Self::FlashOff => "flash-off",
            Self::Wait => "wait",
            Self::Dry => "dry",
            Self::Rinse => "rinse",
            Self::CleanUp => "clean up",
        }
    }

    /// Whether hands are busy with it.
    pub const fn is_work(self) -> bool {
        matches!(self, Self::Mask | Self::Mix | Self::Spray | Self::HandOver | Self::Rinse | Self::CleanUp)
    }
}

impl core::fmt::Display for What {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(self.word())
    }
}

/// One step of the timeline.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Step {
    /// What is done.
    pub what: What,
    /// Layer, counted from 0.
    pub layer: usize,
    /// Coat, counted from 1, of spraying and flash-off.
    pub coat: Option<u32>,
    /// Person, counted from 1.
    pub person: u32,
    /// Gun, counted from 1, of what needs one.
    pub gun: Option<u32>,
    /// From the begin of the session.
    #[serde(with = "as_text")]
    pub start: Time,
    /// How long.
    #[serde(with = "as_text")]
    pub lasts: Time,
}

impl Step {
    /// When it is over.
    pub fn end(&self) -> Time {
        self.start + self.lasts
    }
}

impl core::fmt::Display for Step {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{} at {} for {}, person {}", self.what, show(self.start), show(self.lasts), self.person)?;
        self.gun.map_or(Ok(()), |gun| write!(f, ", gun {gun}"))
    }
}

/// Seconds as a step.
pub(super) struct Made {
    pub(super) what: What,
    pub(super) layer: usize,
    pub(super) coat: Option<u32>,
    pub(super) person: usize,
    pub(super) gun: Option<usize>,
    pub(super) start_s: f64,
    pub(super) lasts_s: f64,
}

impl From<Made> for Step {
    fn from(m: Made) -> Self {
        let counted = |index: usize| u32::try_from(index + 1).unwrap_or(u32::MAX);
        Self {
            what: m.what,
            layer: m.layer,
            coat: m.coat,
            person: counted(m.person),
            gun: m.gun.map(counted),
            start: Time::from_si(m.start_s),
            lasts: Time::from_si(m.lasts_s),
        }
    }
}
