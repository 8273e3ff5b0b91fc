//! What the air of the room holds over the session: one account a sitting.
//!
//! A coat of all people is one source, from the first trigger to the last; a rinse of all guns another; so are their cups of
//! mix and of thinner ([`super::cups`]). A wait in which nobody works until another day ends a sitting; the next begins with
//! clean air.

use super::cups;
use super::habits::Habits;
use super::planned::{PlannedLayer, Sprayed};
use super::session::Session;
use super::steps::{Step, What};
use super::wash::GunWash;
use crate::error::Result;
use crate::quantity::{Quantity, Time, Volume};
use crate::safety::{SessionAir, SessionExposure};
use crate::warning::Warning;

/// What exposure is reckoned over at most, s.
const DAY_S: f64 = 86_400.0;

/// A stretch of work with its sources.
struct Sitting<'a> {
    start_s: f64,
    end_s: f64,
    sources: Vec<Source<'a>>,
}

/// Steps of one kind, layer and coat, of everybody.
struct Source<'a> {
    what: What,
    layer: usize,
    coat: Option<u32>,
    steps: Vec<&'a Step>,
}

impl Source<'_> {
    fn span_s(&self) -> (f64, f64) {
        let starts = self.steps.iter().map(|s| s.start.si());
        let ends = self.steps.iter().map(|s| s.end().si());
        (starts.fold(f64::INFINITY, f64::min), ends.fold(0.0, f64::max))
    }
}

/// One exposure a sitting, or why there is none.
pub(super) fn of(
    session: &Session,
    planned: &[PlannedLayer],
    sprayed: &[Sprayed],
    washes: &[GunWash],
    steps: &[Step],
) -> Result<(Vec<SessionExposure>, Option<Warning>)> {
    let none = |words: &str| Ok((Vec::new(), Some(Warning::new("no-exposure", words))));
    let room = &session.layers[0].setup.room;
    if room.volume().is_none() || room.air_changes().is_none() {
        return none(
            "what the air of the room will hold is not worked out: give the room its volume and air changes. Not knowing is no \
             reason to trust it",
        );
    }
    let sittings = sittings(steps)?;
    if sittings.iter().any(|s| s.end_s - s.start_s > DAY_S) {
        return none(
            "the work goes on for more than a day without a break, over which no exposure is reckoned",
        );
    }
    let mut out = Vec::with_capacity(sittings.len());
    let cups = cups::of(session, planned, sprayed, steps)?;
    for sitting in &sittings {
        let mut air = SessionAir::new(room)?;
        for cup in cups.iter().filter(|c| (sitting.start_s..sitting.end_s).contains(&c.start.si())) {
            let start = Time::from_si(cup.start.si() - sitting.start_s);
            air = air.open_cups(&cup.name, &cup.course, cup.count, (start, cup.open_for), cup.opening)?;
        }
        for source in &sitting.sources {
            let (from, until) = source.span_s();
            let (start, lasts) = (Time::from_si(from - sitting.start_s), Time::from_si(until - from));
            let name = &session.layers[source.layer].name;
            air = if source.what == What::Spray {
                let Some(coat) = source.coat else { continue };
                let one = &sprayed[source.layer];
                let all = one.of_coat(coat) * source.steps.len() as f64;
                let landed = session.layers[source.layer].setup.gun.transfer_efficiency().best;
                air.coat(&format!("{name}, coat {coat}"), &one.mix, all, landed, &one.drying, start, lasts)?
            } else {
                let Some(wash) = washes.iter().find(|w| w.after == source.layer) else { continue };
                let all: Volume = wash.split.total * source.steps.len() as f64;
                let cleaner = session.cleaner_after(&session.layers[source.layer]);
                let share = Habits::usual()?.cleaner_evaporates;
                air.cleaning(&format!("rinse after {name}"), &cleaner, all, share, start, lasts)?
            };
        }
        out.push(air.run()?);
    }
    Ok((out, None))
}

/// Sources in order of time, apart where nobody works until another day.
fn sittings(steps: &[Step]) -> Result<Vec<Sitting<'_>>> {
    let pause = Habits::usual()?.another_day.si();
    let mut out: Vec<Sitting<'_>> = Vec::new();
    for step in steps.iter().filter(|s| s.what.is_work()) {
        let (start_s, end_s) = (step.start.si(), step.end().si());
        let goes_on = out.last().is_some_and(|last| start_s - last.end_s < pause);
        if !goes_on {
            out.push(Sitting { start_s, end_s, sources: Vec::new() });
        }
        let Some(sitting) = out.last_mut() else { continue };
        sitting.end_s = sitting.end_s.max(end_s);
        if !matches!(step.what, What::Spray | What::Rinse | What::CleanUp) {
            continue;
        }
        let same = |s: &&mut Source<'_>| (s.what, s.layer, s.coat) == (step.what, step.layer, step.coat);
        match sitting.sources.iter_mut().find(same) {
            Some(source) => source.steps.push(step),
            None => sitting.sources.push(Source {
                what: step.what,
                layer: step.layer,
                coat: step.coat,
                steps: vec![step],
            }),
        }
    }
    out.retain(|s| !s.sources.is_empty());
    Ok(out)
}
