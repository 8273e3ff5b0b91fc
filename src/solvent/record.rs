//! The form of one solvent in a file: what [`super::Catalogue`] reads and what a user writes.
//!
//! Quantities are text with a unit. `source` holds a key of [`crate::source`] or a citation in full, or a
//! list of them; a `source` at the top of a record stands for every value that names none.

use crate::quantity::{
    Density, DynamicViscosity, MassConcentration, MolarEnergy, MolarMass, Pressure, Quantity, Ratio,
    SolubilityParameter, SurfaceTension, Temperature, TemperatureDifference, as_text,
};
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::collections::BTreeMap;

/// One key or several.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Keys(pub Vec<String>);

impl Keys {
    pub(super) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

impl Serialize for Keys {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self.0.as_slice() {
            [one] => one.serialize(serializer),
            many => many.serialize(serializer),
        }
    }
}

impl<'de> Deserialize<'de> for Keys {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        #[derive(Deserialize)]
        #[serde(untagged, expecting = "a source key or citation, or a list of them")]
        enum Form {
            One(String),
            Many(Vec<String>),
        }
        Ok(match Form::deserialize(deserializer)? {
            Form::One(key) => Self(vec![key]),
            Form::Many(keys) => Self(keys),
        })
    }
}

/// A value another source gives for the same property.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(bound = "Q: Quantity", deny_unknown_fields)]
pub struct Other<Q> {
    /// The value.
    #[serde(with = "as_text")]
    pub value: Q,
    /// Where it stands.
    pub source: Keys,
    /// Why it was not taken, where that needs saying.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

/// One value.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(bound = "Q: Quantity", deny_unknown_fields)]
pub struct Sourced<Q> {
    #[serde(with = "as_text")]
    pub value: Q,
    #[serde(default, skip_serializing_if = "Keys::is_empty")]
    pub source: Keys,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub other: Vec<Other<Q>>,
    #[serde(default, with = "as_text::option", skip_serializing_if = "Option::is_none")]
    pub uncertainty: Option<Ratio>,
}

/// The value at 20 °C and its change with temperature.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(bound = "Q: Quantity", deny_unknown_fields)]
pub struct Line<Q> {
    #[serde(rename = "at_20C", with = "as_text")]
    pub at_20c: Q,
    /// Change for each kelvin; without it the value is taken as constant.
    #[serde(default, with = "as_text::option", skip_serializing_if = "Option::is_none")]
    pub per_kelvin: Option<Q>,
    /// Change of that change, for water, which a straight line does not follow.
    #[serde(default, with = "as_text::option", skip_serializing_if = "Option::is_none")]
    pub per_kelvin_squared: Option<Q>,
    #[serde(default, skip_serializing_if = "Keys::is_empty")]
    pub source: Keys,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    #[serde(rename = "other_at_20C", default, skip_serializing_if = "Vec::is_empty")]
    pub other: Vec<Other<Q>>,
    #[serde(default, with = "as_text::option", skip_serializing_if = "Option::is_none")]
    pub uncertainty: Option<Ratio>,
}

/// Two temperatures, lower first.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Span(pub as_text::Text<Temperature>, pub as_text::Text<Temperature>);

impl Span {
    pub(super) fn low_k(&self) -> f64 {
        self.0.0.si()
    }
    pub(super) fn high_k(&self) -> f64 {
        self.1.0.si()
    }
}

/// Either `ln(viscosity / mPa s) = ln_a + b / (T + c)`, `c` being zero for most, or readings at one temperature
/// or two.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Viscosity {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ln_a: Option<f64>,
    #[serde(default, with = "as_text::option", skip_serializing_if = "Option::is_none")]
    pub b: Option<TemperatureDifference>,
    #[serde(default, with = "as_text::option", skip_serializing_if = "Option::is_none")]
    pub c: Option<TemperatureDifference>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub readings: Vec<Reading<DynamicViscosity>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub valid: Option<Span>,
    /// Largest deviation of the equation from its source in that range.
    #[serde(default, with = "as_text::option", skip_serializing_if = "Option::is_none")]
    pub worst_deviation: Option<Ratio>,
    #[serde(default, skip_serializing_if = "Keys::is_empty")]
    pub source: Keys,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    #[serde(rename = "other_at_25C", default, skip_serializing_if = "Vec::is_empty")]
    pub other: Vec<Other<DynamicViscosity>>,
    #[serde(default, with = "as_text::option", skip_serializing_if = "Option::is_none")]
    pub uncertainty: Option<Ratio>,
}

/// A value read at a temperature.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(bound = "Q: Quantity", deny_unknown_fields)]
pub struct Reading<Q> {
    #[serde(with = "as_text")]
    pub at: Temperature,
    #[serde(with = "as_text")]
    pub value: Q,
}

/// Which equation the coefficients belong to; see [`super::vapour`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Form {
    /// `log10(P/Pa) = A - B/(T + C)`.
    #[serde(rename = "antoine-log10")]
    AntoineLog10,
    /// `ln(P/Pa) = A - B/(T + C)`.
    #[serde(rename = "antoine-ln")]
    AntoineLn,
    /// Wagner with the exponents 2.5 and 5.
    #[serde(rename = "wagner-2.5-5")]
    Wagner25,
    /// Wagner with the exponents 3 and 6.
    #[serde(rename = "wagner-3-6")]
    Wagner36,
    /// `ln P = A + B/T + C ln T + D T^E`.
    #[serde(rename = "dippr-101")]
    Dippr101,
    /// The saturation line of water.
    #[serde(rename = "iapws-if97")]
    IapwsIf97,
    /// One point and the boiling point, joined by an Antoine equation with Thomson's `C`.
    #[serde(rename = "point-and-boiling-point")]
    Point,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct VapourPressure {
    pub form: Form,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub coefficients: Vec<f64>,
    /// The point of [`Form::Point`].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub point: Option<Reading<Pressure>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub valid: Option<Span>,
    #[serde(default, skip_serializing_if = "Keys::is_empty")]
    pub source: Keys,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    /// Lowest and highest value at 20 °C over the correlations compared.
    #[serde(rename = "range_at_20C", default, skip_serializing_if = "Option::is_none")]
    pub range: Option<(as_text::Text<Pressure>, as_text::Text<Pressure>)>,
    /// Single published values at 20 °C.
    #[serde(rename = "other_at_20C", default, skip_serializing_if = "Vec::is_empty")]
    pub other: Vec<Other<Pressure>>,
    #[serde(default, with = "as_text::option", skip_serializing_if = "Option::is_none")]
    pub uncertainty: Option<Ratio>,
}

/// `log10(P/Pa) = a - b/(T + c)`, T in K, refitted to the chosen correlation.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Antoine {
    pub a: f64,
    pub b: f64,
    pub c: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fuller {
    pub value: f64,
    #[serde(default, skip_serializing_if = "Keys::is_empty")]
    pub source: Keys,
}

/// The reference liquid of an evaporation scale.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum RateScale {
    /// Rate, n-butyl acetate = 1; a higher number is faster.
    #[serde(rename = "n-butyl acetate = 1")]
    ButylAcetate,
    /// Evaporation number of DIN 53170, diethyl ether = 1; a higher number is slower.
    #[serde(rename = "diethyl ether = 1")]
    Ether,
    /// Rate, 2-butoxyethanol = 1 (an early toxicology paper).
    #[serde(rename = "2-butoxyethanol = 1")]
    Butoxyethanol,
}

/// A relative evaporation rate as published.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PublishedRate {
    /// The number as printed.
    pub value: f64,
    /// The scale it was printed on.
    pub scale: RateScale,
    /// Whether it enters the consensus.
    #[serde(default = "yes")]
    pub used: bool,
    /// Where it stands.
    #[serde(default, skip_serializing_if = "Keys::is_empty")]
    pub source: Keys,
    /// Why it is or is not used, where that needs saying.
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

const fn yes() -> bool {
    true
}

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
            Self::Volume(r) => match crate::quantity::show_in(*r, "ppm", 3) {
                Ok(text) => f.write_str(&text),
                Err(_) => Err(core::fmt::Error),
            },
            Self::Mass(m) => match crate::quantity::show_in(*m, "mg/m3", 3) {
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

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HansenRecord {
    #[serde(with = "as_text")]
    pub d: SolubilityParameter,
    #[serde(with = "as_text")]
    pub p: SolubilityParameter,
    #[serde(with = "as_text")]
    pub h: SolubilityParameter,
    #[serde(default, skip_serializing_if = "Keys::is_empty")]
    pub source: Keys,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub other: Vec<OtherHansen>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OtherHansen {
    #[serde(with = "as_text")]
    pub d: SolubilityParameter,
    #[serde(with = "as_text")]
    pub p: SolubilityParameter,
    #[serde(with = "as_text")]
    pub h: SolubilityParameter,
    pub source: Keys,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Unifac {
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub original: BTreeMap<String, u32>,
    /// Glycol ethers split into ether and alcohol groups.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub original_split: BTreeMap<String, u32>,
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub dortmund: BTreeMap<String, u32>,
    #[serde(default, skip_serializing_if = "Keys::is_empty")]
    pub source: Keys,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Flag<T> {
    pub value: T,
    #[serde(default, skip_serializing_if = "Keys::is_empty")]
    pub source: Keys,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
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

/// One solvent of a file.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Record {
    pub name: String,
    /// Short stable name; without it the folded name.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub id: Option<String>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub synonyms: Vec<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cas: Option<String>,
    /// Molecular formula; of a cut, the mean molecule.
    pub formula: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub safety_note: Option<String>,
    /// Stands for every value without a source of its own.
    #[serde(default, skip_serializing_if = "Keys::is_empty")]
    pub source: Keys,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub surrogate: Option<Surrogate>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub molar_mass: Option<Sourced<MolarMass>>,
    pub boiling_point: Sourced<Temperature>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub melting_point: Option<Sourced<Temperature>>,
    pub density: Line<Density>,
    pub viscosity: Viscosity,
    pub surface_tension: Line<SurfaceTension>,
    pub vapour_pressure: VapourPressure,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub antoine: Option<Antoine>,
    /// At 25 °C.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub heat_of_vaporisation: Option<Sourced<MolarEnergy>>,
    /// Of the liquid at 25 °C, per mole and kelvin.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub heat_capacity_per_kelvin: Option<Sourced<MolarEnergy>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub diffusion_volume: Option<Fuller>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub evaporation_rates: Vec<PublishedRate>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub flash_point: Option<Sourced<Temperature>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lower_flammable_limit: Option<Sourced<Ratio>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub upper_flammable_limit: Option<Sourced<Ratio>>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub exposure_limits: Vec<ExposureLimit>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hansen: Option<HansenRecord>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub unifac: Option<Unifac>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub voc_exempt: Option<Flag<bool>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub odour_threshold: Option<Sourced<Ratio>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub polystyrene: Option<Flag<PolystyreneAttack>>,
}

/// Pure liquids that stand for a cut, by mole fraction.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Surrogate {
    pub mole_fractions: BTreeMap<String, f64>,
    #[serde(default, skip_serializing_if = "Keys::is_empty")]
    pub source: Keys,
}
