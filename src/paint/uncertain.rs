//! A value in a file: exact, with a spread, or with a range.

use crate::error::{Result, out_of_range};
use crate::estimate::{COVERAGE, Contributor, Estimate};
use crate::quantity::as_text::Text;
use crate::quantity::{Quantity, of, parse, show};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

/// `"22 %"`, or `{ best = "22 %", low = "15 %", high = "30 %" }` with the range taken as 95 %.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Uncertain<Q> {
    Range { best: Q, low: Q, high: Q },
    Exact(Q),
}

#[derive(Serialize)]
#[serde(bound = "Q: Quantity")]
struct Range<Q> {
    best: Text<Q>,
    low: Text<Q>,
    high: Text<Q>,
}

#[derive(Deserialize)]
#[serde(bound = "Q: Quantity", deny_unknown_fields)]
struct Parts<Q> {
    value: Option<f64>,
    unit: Option<String>,
    best: Option<Text<Q>>,
    low: Option<Text<Q>>,
    high: Option<Text<Q>>,
}

impl<Q: Quantity> Serialize for Uncertain<Q> {
    fn serialize<S: Serializer>(&self, serializer: S) -> core::result::Result<S::Ok, S::Error> {
        match self {
            Self::Exact(q) => Text(*q).serialize(serializer),
            Self::Range { best, low, high } => {
                Range { best: Text(*best), low: Text(*low), high: Text(*high) }.serialize(serializer)
            }
        }
    }
}

impl<'de, Q: Quantity> Deserialize<'de> for Uncertain<Q> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> core::result::Result<Self, D::Error> {
        struct Visitor<Q>(core::marker::PhantomData<Q>);
        impl<'de, Q: Quantity> de::Visitor<'de> for Visitor<Q> {
            type Value = Uncertain<Q>;
            fn expecting(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
                write!(
                    f,
                    "a {} with a unit, for example {:?}, or a table of best, low and high",
                    Q::NAME,
                    Q::EXAMPLE
                )
            }
            fn visit_str<E: de::Error>(self, text: &str) -> core::result::Result<Self::Value, E> {
                parse(text).map(Uncertain::Exact).map_err(E::custom)
            }
            fn visit_map<A: de::MapAccess<'de>>(self, map: A) -> core::result::Result<Self::Value, A::Error> {
                let parts = Parts::<Q>::deserialize(de::value::MapAccessDeserializer::new(map))?;
                match parts {
                    Parts { value: Some(v), unit: Some(u), best: None, low: None, high: None } => {
                        of(v, &u).map(Uncertain::Exact).map_err(de::Error::custom)
                    }
                    Parts {
                        best: Some(Text(best)),
                        low: Some(Text(low)),
                        high: Some(Text(high)),
                        value: None,
                        unit: None,
                    } => Ok(Uncertain::Range { best, low, high }),
                    _ => Err(de::Error::custom(
                        "a range needs best, low and high together; a single value is a text or value and unit",
                    )),
                }
            }
        }
        deserializer.deserialize_any(Visitor(core::marker::PhantomData))
    }
}

impl<Q: Quantity> Uncertain<Q> {
    pub(super) fn of(estimate: &Estimate<Q>) -> Self {
        if estimate.low == estimate.high {
            return Self::Exact(estimate.best);
        }
        Self::Range { best: estimate.best, low: estimate.low, high: estimate.high }
    }

    /// The estimate, its spread put down to `what`. The range need not be symmetric.
    pub(super) fn estimate(&self, what: &str) -> Result<Estimate<Q>> {
        match self {
            Self::Exact(best) => Ok(Estimate::exact(*best)),
            Self::Range { best, low, high } => {
                if low <= best && best <= high && low < high {
                    Ok(Estimate {
                        best: *best,
                        low: *low,
                        high: *high,
                        coverage: COVERAGE,
                        contributors: vec![Contributor { what: what.to_owned(), share: 1.0 }],
                    })
                } else {
                    Err(out_of_range(
                        what,
                        format!("{} with the range {} to {}", show(*best), show(*low), show(*high)),
                        "a best value inside low to high",
                        "give low, best and high in rising order",
                    ))
                }
            }
        }
    }
}
