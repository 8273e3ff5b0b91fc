//! A session read back from a file: its settings pass the checks of [`SessionAir`], and each source must balance.

use super::SessionAir;
use super::source::{Emitter, VapourSource, check_time};
use crate::air::{Room, build_up::Piece};
use crate::error::{Error, Result, bad_data};
use crate::quantity::{Quantity, Ratio, Time, as_text};
use crate::safety::Authority;
use crate::solvent::Solvent;
use serde::{Deserialize, Serialize};

/// What is brought is given off or kept, within this share of it.
const ROUNDING: f64 = 1e-9;

/// The fields of a [`SessionAir`] as stored, not yet checked.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Stored {
    room: Room,
    authority: Authority,
    #[serde(with = "as_text")]
    keep_below: Ratio,
    #[serde(with = "as_text::option")]
    mixing: Option<Ratio>,
    #[serde(with = "as_text::option")]
    leaving_at: Option<Time>,
    sources: Vec<Source>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Source {
    told: VapourSource,
    given: Vec<Given>,
    kept: Vec<Kept>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Given {
    solvent: Solvent,
    /// Even releases: from, until (both from the begin of the session) and mass.
    pieces_s_s_kg: Vec<(f64, f64, f64)>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Kept {
    solvent: Solvent,
    mass_kg: f64,
}

impl From<SessionAir> for Stored {
    fn from(s: SessionAir) -> Self {
        Self {
            room: s.room,
            authority: s.authority,
            keep_below: Ratio::from_si(s.below),
            mixing: s.mixing.map(Ratio::from_si),
            leaving_at: s.leaves,
            sources: s.emitters.into_iter().map(Source::from).collect(),
        }
    }
}

impl TryFrom<Stored> for SessionAir {
    type Error = Error;

    fn try_from(s: Stored) -> Result<Self> {
        let mut session = Self::new(&s.room)?.with_authority(s.authority).keeping_below(s.keep_below)?;
        if let Some(mixing) = s.mixing {
            session = session.with_mixing(mixing)?;
        }
        if let Some(time) = s.leaving_at {
            session = session.leaving_at(time)?;
        }
        session.emitters = s.sources.into_iter().map(Emitter::try_from).collect::<Result<_>>()?;
        Ok(session)
    }
}

impl From<Emitter> for Source {
    fn from(e: Emitter) -> Self {
        let given = e.given.into_iter().map(|(solvent, pieces)| Given {
            solvent,
            pieces_s_s_kg: pieces.iter().map(|p| (p.from_s, p.until_s, p.amount)).collect(),
        });
        Self {
            told: e.source,
            given: given.collect(),
            kept: e.kept.into_iter().map(|(solvent, mass_kg)| Kept { solvent, mass_kg }).collect(),
        }
    }
}

impl TryFrom<Source> for Emitter {
    type Error = Error;

    fn try_from(s: Source) -> Result<Self> {
        let VapourSource { ref name, start, lasts, brought, released, in_flight, kept, .. } = s.told;
        check_time("start of a source of vapour", start)?;
        check_time("duration of a source of vapour", lasts)?;
        check_time("end of a source of vapour", Time::from_si(start.si() + lasts.si()))?;
        let wrong = |problem: &str| {
            let problem = format!("{name:?} {problem}");
            let remedy = "add the source to the session again and store that";
            Err(bad_data("stored session", None, Some("sources"), problem, remedy))
        };
        let pieces = || s.given.iter().flat_map(|g| &g.pieces_s_s_kg);
        let runs =
            pieces().all(|&(from_s, until_s, kg)| start.si() <= from_s && from_s <= until_s && kg > 0.0);
        if !runs {
            return wrong("gives off vapour before it begins, or none");
        }
        if s.kept.iter().any(|k| k.mass_kg < 0.0) || in_flight.si() < 0.0 {
            return wrong("holds a mass below zero");
        }
        let sums = [
            (released.si(), pieces().map(|p| p.2).sum::<f64>()),
            (kept.si(), s.kept.iter().map(|k| k.mass_kg).sum()),
            (brought.si(), released.si() + kept.si()),
            (in_flight.si().max(released.si()), released.si()),
        ];
        if sums.iter().any(|(told, found)| (told - found).abs() > ROUNDING * brought.si()) {
            return wrong("gives off and keeps another mass than it brings");
        }
        let piece = |(from_s, until_s, amount): (f64, f64, f64)| Piece { from_s, until_s, amount };
        Ok(Self {
            source: s.told,
            given: s
                .given
                .into_iter()
                .map(|g| (g.solvent, g.pieces_s_s_kg.into_iter().map(piece).collect()))
                .collect(),
            kept: s.kept.into_iter().map(|k| (k.solvent, k.mass_kg)).collect(),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::blend::{Basis, Blend};
    use crate::quantity::{RelativeHumidity, parse};
    use rstest::rstest;
    use serde_json::{Value, json};

    fn stored() -> Value {
        let cleaner =
            Blend::from_names(&[("acetone", 1.0), ("n-butyl acetate", 1.0)], Basis::Mass, None).unwrap();
        let room = Room::new(parse("21 °C").unwrap(), RelativeHumidity::new(0.5).unwrap()).unwrap();
        let room = room
            .with_volume(parse("30 m3").unwrap())
            .unwrap()
            .with_air_changes(parse("1 /h").unwrap())
            .unwrap();
        let (amount, share) = (parse("20 mL").unwrap(), parse("30 %").unwrap());
        let (start, lasts) = (parse("15 min").unwrap(), parse("5 min").unwrap());
        let session = SessionAir::new(&room).unwrap().with_mixing(parse("25 %").unwrap()).unwrap();
        let session = session.leaving_at(parse("3 h").unwrap()).unwrap();
        serde_json::to_value(session.cleaning("gun", &cleaner, amount, share, start, lasts).unwrap()).unwrap()
    }

    #[test]
    fn comes_back_as_it_was_and_runs_to_the_same() {
        let value = stored();
        let back: SessionAir = serde_json::from_value(value.clone()).unwrap();
        assert_eq!(serde_json::to_value(&back).unwrap(), value);
        assert_eq!(back.sources().len(), 1);
        let again: SessionAir = serde_json::from_str(&serde_json::to_string(&back).unwrap()).unwrap();
        assert_eq!(again.run().unwrap(), back.run().unwrap());
    }

    #[rstest]
    #[case::share("/keep_below", json!("150 %"), "stay below")]
    #[case::mixing("/mixing", json!("0 %"), "mixing")]
    #[case::leaving("/leaving_at", json!("2 d"), "leaving the room")]
    #[case::no_air("/room/air_changes", json!(null), "air changes")]
    #[case::day("/sources/0/told/start", json!("25 h"), "start of a source")]
    #[case::early("/sources/0/given/0/pieces_s_s_kg/0/0", json!(0.0), "before it begins")]
    #[case::backwards("/sources/0/given/0/pieces_s_s_kg/0/1", json!(0.0), "before it begins")]
    #[case::nothing("/sources/0/given/0/pieces_s_s_kg/0/2", json!(0.0), "or none")]
    #[case::more("/sources/0/given/0/pieces_s_s_kg/0/2", json!(1.0), "another mass")]
    #[case::lost("/sources/0/given", json!([]), "another mass")]
    #[case::below("/sources/0/kept/0/mass_kg", json!(-1.0), "below zero")]
    #[case::told("/sources/0/told/released", json!("0 g"), "another mass")]
    #[case::flown("/sources/0/told/in_flight", json!("1 kg"), "another mass")]
    fn what_cannot_be_is_refused(#[case] path: &str, #[case] with: Value, #[case] says: &str) {
        let mut value = stored();
        *value.pointer_mut(path).unwrap() = with;
        let error = serde_json::from_value::<SessionAir>(value).unwrap_err().to_string();
        assert!(error.contains(says), "{error}");
    }
}
