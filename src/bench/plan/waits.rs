//! How long does a coat wait: before the next one, before the next layer, before tape?
//!
//! Where the drying engine knows, the **upper end** of its interval is taken, rounded up to what a clock on the wall
//! shows; where it does not, common practice. A wait is never shorter than the table of coats asks for.

use super::duration::Pace;
use super::habits::Habits;
use crate::answer::Answer;
use crate::error::{Error, Result};
use crate::estimate::Estimate;
use crate::film::{Drying, Film};
use crate::layers::coat_rules;
use crate::paint::Family;
use crate::quantity::{Quantity, Time, as_text, show};
use crate::warning::Warning;
use serde::{Deserialize, Serialize};

/// Steps of the clock on the wall: waits below the first number are rounded up to the second, s.
const CLOCK_S: [(f64, f64); 5] =
    [(120.0, 10.0), (600.0, 30.0), (3600.0, 60.0), (10_800.0, 300.0), (f64::INFINITY, 1800.0)];

/// Warning of the engine for a coat on a film that is hard.
pub(super) const ON_HARD_FILM: &str = "coat-on-hard-film";

/// An upper end beyond a day and so many times the best value is no time to plan by.
const HARDLY_KNOWN: f64 = 10.0;

/// A wait with its reason.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Wait {
    /// How long, as planned.
    #[serde(with = "as_text")]
    pub lasts: Time,
    /// As long as it takes when the coat dries as the best value says; never less than common practice.
    #[serde(with = "as_text")]
    pub at_best: Time,
    /// No shorter than this, however soon the coat dries: what common practice asks for before the coat above; else zero.
    #[serde(with = "as_text")]
    pub least: Time,
    /// The time behind it with its interval; None for a rule of common practice.
    pub estimate: Option<Estimate<Time>>,
    /// Why so long.
    pub why: String,
    /// Source key of what decided.
    pub source: String,
}

impl core::fmt::Display for Wait {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{}: {}", show(self.lasts), self.why)
    }
}

impl Wait {
    /// The upper end of an answer of the engine; the last step of its working says by which model.
    fn engine(answer: Answer<Time>, what: &str) -> Result<Self> {
        let steps = answer.working.steps.iter().rev();
        let source = steps.map(|s| s.source.as_str()).find(|s| !s.is_empty()).unwrap_or("FLASH_OFF");
        let estimate = answer.estimate;
        let habits = Habits::usual()?;
        let unknown = estimate.high.si() > HARDLY_KNOWN * estimate.best.si();
        if !unknown || estimate.high <= habits.handle {
            return Ok(Self::upper(estimate, what, source));
        }
        // A film that nearly stays soft: the upper end is no time any more.
        let (best, handle) = (on_the_clock(estimate.best), habits.handle);
        let lasts = if best > handle { best } else { handle };
        Ok(Self {
            lasts,
            at_best: best,
            least: Time::from_si(0.0),
            why: format!("{what} {}, but it may never come; common practice taken", show(estimate.best)),
            estimate: Some(estimate),
            source: habits.source.clone(),
        })
    }

    /// The upper end of an interval.
    fn upper(estimate: Estimate<Time>, what: &str, source: &str) -> Self {
        Self {
            lasts: on_the_clock(estimate.high),
            at_best: on_the_clock(estimate.best),
            least: Time::from_si(0.0),
            why: format!("{what} {estimate}, upper end taken"),
            estimate: Some(estimate),
            source: source.to_owned(),
        }
    }

    /// A rule without a model.
    fn rule(lasts: Time, why: String, source: &str) -> Self {
        Self { lasts, at_best: lasts, least: lasts, estimate: None, why, source: source.to_owned() }
    }

    /// As long as it takes at one end of its interval or at the best value. A rule has no interval; a film that may never
    /// come is waited for no longer than planned.
    pub(super) fn at(&self, pace: Pace) -> Time {
        let Some(estimate) = &self.estimate else { return self.lasts };
        let found = match pace {
            Pace::Planned => return self.lasts,
            Pace::Low => estimate.low,
            Pace::Best => estimate.best,
            Pace::High => estimate.high,
        };
        let found = if found < self.lasts { found } else { self.lasts };
        if found > self.least { found } else { self.least }
    }
}

/// Rounded up to a step that a clock shows.
fn on_the_clock(t: Time) -> Time {
    let s = t.si();
    let step = CLOCK_S.iter().find(|(below, _)| s < *below).map_or(1.0, |(_, step)| *step);
    Time::from_si((s / step - 1e-9).ceil() * step)
}

/// A mark of the engine; None where the coat has no such mark or does not get there.
fn mark<T>(found: Result<T>) -> Result<Option<T>> {
    match found {
        Ok(value) => Ok(Some(value)),
        Err(Error::Range(_)) => Ok(None),
        Err(e) => Err(e),
    }
}

/// The wait between coats, and the last coat over the others.
///
/// The last coat also has to lose what the others kept, so that it is asked too; not where the coats below are hard by
/// then, which take up little: a coat on them dries as one by itself.
pub(super) fn between_coats(
    film: &Film,
    by_itself: &Drying,
    coats: u32,
) -> Result<(Wait, Film, Vec<Warning>)> {
    let (alone, warnings) = has_set(by_itself)?;
    let top = stacked(film, coats, alone.lasts)?;
    if coats == 1 {
        return Ok((alone, top, Vec::new()));
    }
    let dry = top.dry()?;
    if dry.warnings().iter().any(|w| w.code == ON_HARD_FILM) {
        return Ok((alone, top, warnings));
    }
    let (last, late) = has_set(&dry)?;
    if last.lasts <= alone.lasts {
        return Ok((alone, top, warnings));
    }
    let top = stacked(film, coats, last.lasts)?;
    Ok((last, top, late))
}

fn stacked(film: &Film, coats: u32, wait: Time) -> Result<Film> {
    (1..coats).try_fold(film.clone(), |below, _| film.clone().over(&below, wait))
}

/// Flash-off or touch dry, whichever comes first: a coat that has lost nearly all of its solvent, or that a finger no
/// longer moves, neither runs nor is stirred up by the next.
fn has_set(dry: &Drying) -> Result<(Wait, Vec<Warning>)> {
    let flash_off = mark(dry.flash_off())?.map(|found| Wait::engine(found, "flash-off")).transpose()?;
    let touch_dry = mark(dry.touch_dry())?.map(|found| Wait::engine(found, "touch dry")).transpose()?;
    let first = match (flash_off, touch_dry) {
        (Some(a), Some(b)) => Some(if b.lasts < a.lasts { b } else { a }),
        (a, b) => a.or(b),
    };
    if let Some(wait) = first {
        return Ok((wait, Vec::new()));
    }
    let habits = Habits::usual()?;
    let why = "never loses 90 % while it is followed, common practice taken".to_owned();
    let warning = Warning::new(
        "no-flash-off",
        format!(
            "the coat never loses 90 % of its volatiles: {} between coats is common practice; look whether it has dulled",
            show(habits.flash_off)
        ),
    );
    Ok((Wait::rule(habits.flash_off, why, &habits.source), vec![warning]))
}

/// Touch dry after the last coat.
pub(super) fn touch_dry(dry: &Drying, family: Family) -> Result<Wait> {
    if let Some(found) = mark(dry.touch_dry())? {
        return Wait::engine(found, "touch dry");
    }
    if let Some(cure) = family.oxidative_cure()? {
        return Ok(Wait::upper(cure.touch.clone(), "touch dry by oxygen, common practice,", &cure.source));
    }
    let habits = Habits::usual()?;
    let why = "stays soft while it is followed, common practice taken".to_owned();
    Ok(Wait::rule(habits.handle, why, &habits.source))
}

/// Before tape touches it.
pub(super) fn before_masking(dry: &Drying, family: Family) -> Result<Wait> {
    if let Some(found) = mark(dry.block_free())? {
        return Wait::engine(found, "block-free");
    }
    if let Some(cure) = family.oxidative_cure()? {
        let what = "next coat by oxygen, common practice,";
        return Ok(Wait::upper(cure.recoat.clone(), what, &cure.source));
    }
    let habits = Habits::usual()?;
    let why = "no model knows when tape does no harm, common practice taken".to_owned();
    Ok(Wait::rule(habits.handle, why, &habits.source))
}

/// Before a layer of another family, or of the same.
pub(super) fn before_next(
    touch: &Wait,
    flash: &Wait,
    [under, over]: [Family; 2],
    asked: Option<Time>,
    name: &str,
) -> Result<(Wait, Option<Warning>)> {
    let rules = coat_rules()?;
    let rule = rules.iter().find(|r| r.under == under && r.over == over);
    let after = rule.and_then(|r| r.after);
    let mut least = touch.clone();
    if let Some(after) = after {
        least.least = after;
        if after > least.at_best {
            least.at_best = after;
        }
    }
    if let Some(after) = after.filter(|after| *after > least.lasts) {
        least = Wait::rule(after, format!("{over} over {under}: at least {}", show(after)), "coats-practice");
    }
    let Some(asked) = asked else { return Ok((least, None)) };
    let open = rule.and_then(|r| r.within).is_some_and(|within| asked <= within && asked >= flash.lasts);
    if asked >= least.lasts || open {
        let why = if open {
            format!("as asked, in the early window of {over} over {under}")
        } else {
            "as asked".to_owned()
        };
        return Ok((Wait::rule(asked, why, "coats-practice"), None));
    }
    let warning = Warning::new(
        "wait-too-short",
        format!(
            "{name}: {} was asked before the next layer, {} is taken: {}",
            show(asked),
            show(least.lasts),
            least.why
        ),
    );
    Ok((least, Some(warning)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::parse;

    #[rstest::rstest]
    #[case("31 s", "40 s")]
    #[case("40 s", "40 s")]
    #[case("121 s", "150 s")]
    #[case("11.2 min", "12 min")]
    #[case("61 min", "65 min")]
    #[case("3.2 h", "3.5 h")]
    #[case("0 s", "0 s")]
    fn rounded_up(#[case] t: &str, #[case] shown: &str) {
        let (t, shown): (Time, Time) = (parse(t).unwrap(), parse(shown).unwrap());
        approx::assert_relative_eq!(on_the_clock(t).si(), shown.si(), epsilon = 1e-9);
    }

    fn rule(text: &str) -> Wait {
        Wait::rule(parse(text).unwrap(), String::new(), "FLASH_OFF")
    }

    #[rstest::rstest]
    #[case(Family::SolventLacquer, Family::SolventLacquer, "2 min", None, "15 min", false)]
    #[case(Family::SolventLacquer, Family::SolventLacquer, "20 min", None, "20 min", false)]
    #[case(Family::SolventLacquer, Family::SolventLacquer, "2 min", Some("5 min"), "15 min", true)]
    #[case(Family::SolventLacquer, Family::SolventLacquer, "2 min", Some("1 h"), "1 h", false)]
    #[case(Family::AlkydEnamel, Family::AlkydEnamel, "8 h", None, "24 h", false)]
    #[case(Family::AlkydEnamel, Family::AlkydEnamel, "8 h", Some("1 h"), "1 h", false)]
    #[case(Family::AlkydEnamel, Family::AlkydEnamel, "8 h", Some("3 h"), "24 h", true)]
    fn never_shorter_than_practice(
        #[case] under: Family,
        #[case] over: Family,
        #[case] touch: &str,
        #[case] asked: Option<&str>,
        #[case] lasts: &str,
        #[case] warned: bool,
    ) {
        let asked = asked.map(|a| parse(a).unwrap());
        let (wait, warning) =
            before_next(&rule(touch), &rule("10 min"), [under, over], asked, "hull").unwrap();
        assert_eq!(wait.lasts, parse(lasts).unwrap());
        assert_eq!(warning.is_some(), warned);
    }
}
