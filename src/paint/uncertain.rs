//! A value in a file: exact, with a spread, or with a range.

use crate::error::{Result, out_of_range};
use crate::estimate::{COVERAGE, Contributor, Estimate};
use crate::quantity::as_text::{self, Text};
use crate::quantity::{Quantity, of, parse, show, to};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

/// `"22 %"`, or `{ best = "22 %", low = "15 %", high = "30 %" }` with the range taken as 95 %.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Uncertain<Q> {
    Range { best: Q, low: Q, high: Q },
    Exact(Q),
}

/// A quantity written as a text such as `"22 %"`, read in any form.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Plain<Q>(pub(super) Q);

impl<Q: Quantity> Serialize for Plain<Q> {
    fn serialize<S: Serializer>(&self, serializer: S) -> core::result::Result<S::Ok, S::Error> {
        // The customary unit when it gives back the very same number, else the SI unit, which always does.
        let text = |unit: &str| to(self.0, unit).map(|v| format!("{v} {unit}"));
        let customary = text(Q::CUSTOMARY).ok().filter(|t| parse::<Q>(t).is_ok_and(|q| q == self.0));
        customary
            .unwrap_or_else(|| format!("{} {}", self.0.si(), Q::UNITS[0].symbols[0]))
            .serialize(serializer)
    }
}

impl<'de, Q: Quantity> Deserialize<'de> for Plain<Q> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> core::result::Result<Self, D::Error> {
        as_text::deserialize(deserializer).map(Self)
    }
}

#[derive(Serialize)]
#[serde(bound = "Q: Quantity")]
struct Range<Q> {
    best: Plain<Q>,
    low: Plain<Q>,
    high: Plain<Q>,
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
            Self::Exact(q) => Plain(*q).serialize(serializer),
            Self::Range { best, low, high } => {
                Range { best: Plain(*best), low: Plain(*low), high: Plain(*high) }.serialize(serializer)
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
