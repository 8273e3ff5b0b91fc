//! The form of a quantity in files: `{"value": 20.0, "unit": "psi"}`, or the text `"20 psi"` when read.
//!
//! A bare number is never written nor accepted, because its unit would be a guess. Use with
//! `#[serde(with = "mistcoat::quantity::as_text")]`, or `as_text::option` for an optional field.

use super::{Quantity, exact_form, of, parse};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    value: f64,
    unit: String,
}

fn record<Q: Quantity>(q: Q) -> Record {
    let (value, unit) = exact_form(q);
    Record { value, unit: unit.to_owned() }
}

/// Writes `{"value": ..., "unit": ...}`.
///
/// # Errors
/// Those of the serializer.
pub fn serialize<Q: Quantity, S: Serializer>(q: &Q, serializer: S) -> Result<S::Ok, S::Error> {
    record(*q).serialize(serializer)
}

/// Reads either form.
///
/// # Errors
/// Those of the deserializer, and any unit error with its remedy.
pub fn deserialize<'de, Q: Quantity, D: Deserializer<'de>>(deserializer: D) -> Result<Q, D::Error> {
    struct Visitor<Q>(core::marker::PhantomData<Q>);
    impl<'de, Q: Quantity> de::Visitor<'de> for Visitor<Q> {
        type Value = Q;
        fn expecting(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
            write!(f, "a {} with a unit, for example {:?}", Q::NAME, Q::EXAMPLE)
        }
        fn visit_str<E: de::Error>(self, text: &str) -> Result<Q, E> {
            parse(text).map_err(E::custom)
        }
        fn visit_map<A: de::MapAccess<'de>>(self, map: A) -> Result<Q, A::Error> {
            let r = Record::deserialize(de::value::MapAccessDeserializer::new(map))?;
            of(r.value, &r.unit).map_err(de::Error::custom)
        }
    }
    deserializer.deserialize_any(Visitor(core::marker::PhantomData))
}

/// A quantity that serialises on its own; for lists and maps of quantities.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Text<Q>(pub Q);

impl<Q: Quantity> Serialize for Text<Q> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serialize(&self.0, serializer)
    }
}

impl<'de, Q: Quantity> Deserialize<'de> for Text<Q> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserialize(deserializer).map(Self)
    }
}

/// The same for an optional field.
pub mod option {
    use super::{Deserialize, Deserializer, Quantity, Serialize, Serializer, Text};

    /// Writes the value or null.
    ///
    /// # Errors
    /// Those of the serializer.
    #[allow(clippy::ref_option, reason = "the signature that serde's `with` calls")]
    pub fn serialize<Q: Quantity, S: Serializer>(q: &Option<Q>, serializer: S) -> Result<S::Ok, S::Error> {
        q.map(Text).serialize(serializer)
    }

    /// Reads the value or null.
    ///
    /// # Errors
    /// Those of the deserializer, and any unit error with its remedy.
    pub fn deserialize<'de, Q: Quantity, D: Deserializer<'de>>(
        deserializer: D,
    ) -> Result<Option<Q>, D::Error> {
        Ok(Option::<Text<Q>>::deserialize(deserializer)?.map(|t| t.0))
    }
}
