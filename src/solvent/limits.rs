//! What an authority allows in the air, and what a liquid does to polystyrene.

use super::record::Keys;
use crate::quantity::{MassConcentration, Ratio, as_text, show_in};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// The time over which an exposure limit is averaged.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum LimitKind {
    /// Mean over a working shift.
    #[serde(rename = "8 h")]
    Shift,
    /// Mean over a short time, 15 minutes unless noted.
    #[serde(rename = "15 min")]
    ShortTerm,
    /// Never to be exceeded.
    #[serde(rename = "ceiling")]
    Ceiling,
    /// Immediately dangerous to life or health.
    #[serde(rename = "immediate danger")]
    ImmediateDanger,
}

impl core::fmt::Display for LimitKind {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(match self {
            Self::Shift => "8 h",
            Self::ShortTerm => "15 min",
            Self::Ceiling => "ceiling",
            Self::ImmediateDanger => "immediate danger",
        })
    }
}

/// A concentration in air, by volume or by mass as its source gives it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Concentration {
    /// Share of the air by volume.
    Volume(Ratio),
    /// Mass per volume of air.
    Mass(MassConcentration),
}

impl core::fmt::Display for Concentration {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::Volume(r) => match show_in(*r, "ppm", 3) {
                Ok(text) => f.write_str(&text),
                Err(_) => Err(core::fmt::Error),
            },
            Self::Mass(m) => match show_in(*m, "mg/m3", 3) {
                Ok(text) => f.write_str(&text),
                Err(_) => Err(core::fmt::Error),
            },
        }
    }
}

impl Serialize for Concentration {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::Volume(r) => as_text::serialize(r, serializer),
            Self::Mass(m) => as_text::serialize(m, serializer),
        }
    }
}

impl<'de> Deserialize<'de> for Concentration {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        #[derive(Deserialize)]
        #[serde(untagged, expecting = "a concentration in air, for example \"200 ppm\" or \"350 mg/m3\"")]
        enum Form {
            Volume(as_text::Text<Ratio>),
            Mass(as_text::Text<MassConcentration>),
        }
        Ok(match Form::deserialize(deserializer)? {
            Form::Volume(r) => Self::Volume(r.0),
            Form::Mass(m) => Self::Mass(m.0),
        })
    }
}

/// One exposure limit as its authority gives it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ExposureLimit {
    /// Whose limit, for example "OSHA PEL".
    pub name: String,
    /// Over what time.
    pub over: LimitKind,
    /// The limit.
    pub value: Concentration,
    /// Whether it counts floating droplets, not vapour.
    #[serde(default, skip_serializing_if = "is_false")]
    pub droplets: bool,
    /// Where it stands.
    #[serde(default, skip_serializing_if = "Keys::is_empty")]
    pub source: Keys,
    /// What goes with it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

#[allow(
    clippy::trivially_copy_pass_by_ref,
    reason = "the signature that serde's `skip_serializing_if` calls"
)]
const fn is_false(flag: &bool) -> bool {
    !*flag
}

/// What a liquid does to polystyrene in practice.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum PolystyreneAttack {
    /// No visible attack in normal use.
    #[serde(rename = "none in normal use")]
    None,
    /// Softens slowly, or crazes parts under stress.
    #[serde(rename = "slow or crazing")]
    Slow,
    /// Dissolves or softens.
    #[serde(rename = "dissolves or softens")]
    Dissolves,
}

impl core::fmt::Display for PolystyreneAttack {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(match self {
            Self::None => "none in normal use",
            Self::Slow => "slow or crazing",
            Self::Dissolves => "dissolves or softens",
        })
    }
}
