//! Is the coat dry in the time there is?
//!
//! A job may say how long a coat may take until it is touch dry, and until the next coat may go on it
//! ([`Job::touch_dry_within`], [`Job::recoat_within`]). Where the drying engine knows, it is asked; where it does not, common
//! practice answers, and the reason of the margin says so:
//!
//! | family | touch dry | next coat |
//! |---|---|---|
//! | solvent lacquer, alcohol acrylic | [`crate::film::Drying::touch_dry`] | block-free, the earliest sensible time |
//! | waterborne acrylic | packed, and the water gone | touch dry, or the wait of common practice if that is longer |
//! | alkyd enamel, artists' oil | by oxygen, common practice | by oxygen, common practice |
//!
//! Best values of one coat by itself, as all limits of a setting: lacquers are known within a factor 3. A coat over others
//! that are still wet takes longer.

use super::fault::{Fault, Margin};
use super::jobs::Job;
use super::judged::{FAR, Judged};
use crate::error::{Result, out_of_range};
use crate::film::Film;
use crate::layers::coat_rules;
use crate::paint::Family;
use crate::quantity::{Quantity, Time, show};

/// Longest limit, s: a year, as long as a coat is followed at most.
const LONGEST_S: f64 = 365.0 * 86_400.0;

/// A time with the words that say where it comes from.
type Known = Option<(Time, &'static str)>;

impl Job {
    /// Whether it says how long the coat may take to dry.
    pub(super) fn has_time_limit(&self) -> bool {
        self.touch_dry_within.is_some() || self.recoat_within.is_some()
    }

    /// Whether its limits on drying make sense.
    pub(super) fn check_time_limits(&self) -> Result<()> {
        for (what, limit) in [("touch dry", self.touch_dry_within), ("the next coat", self.recoat_within)] {
            if let Some(limit) = limit
                && !(limit.si() > 0.0 && limit.si() <= LONGEST_S)
            {
                return Err(out_of_range(
                    format!("longest time to {what}"),
                    show(limit),
                    "above 0 s, at most 365 d",
                    "lacquers are touch dry in minutes, enamels in hours, oils in days; leave it out for no limit",
                ));
            }
        }
        Ok(())
    }
}

/// Until the next coat: block-free as the engine says, or common practice.
pub(super) fn recoat(film: &Film, block_free: Option<Time>, touch_dry: Option<Time>) -> Result<Option<Time>> {
    if film.dispersion().is_some() {
        let family = Family::WaterborneAcrylic;
        let rule = coat_rules()?.iter().find(|r| r.over == family && r.under == family);
        let wait = rule.and_then(|r| r.after);
        return Ok(touch_dry.map(|touch| wait.filter(|w| *w > touch).unwrap_or(touch)));
    }
    Ok(block_free.or_else(|| film.oxidative_cure().map(|cure| cure.recoat.best)))
}

/// The distance of a drying coat from the tighter of the job's limits.
pub(super) fn margin(film: &Film, judged: &Judged, job: &Job) -> Option<Margin> {
    let practice = "common practice";
    let touch: Known = match (judged.touch_dry, film.oxidative_cure()) {
        (Some(touch), _) => Some((touch, "")),
        (None, Some(cure)) => Some((cure.touch.best, practice)),
        (None, None) => None,
    };
    let by_practice = film.oxidative_cure().is_some()
        || (film.dispersion().is_some() && judged.recoat.is_some_and(|r| Some(r) != judged.touch_dry));
    let next: Known = judged.recoat.map(|t| (t, if by_practice { practice } else { "" }));
    let limits = [("touch dry", touch, job.touch_dry_within), ("next coat", next, job.recoat_within)];
    let margins = limits.into_iter().filter_map(|(what, known, limit)| {
        let limit = limit?;
        Some(match known {
            Some((time, whence)) => {
                let whence = if whence.is_empty() { String::new() } else { format!(" ({whence})") };
                let why = format!("{what} after {}{whence}, {} allowed", show(time), show(limit));
                Margin::new(Fault::SlowDrying, (limit.si() / time.si()).clamp(1.0 / FAR, FAR), why)
            }
            None => Margin::new(
                Fault::SlowDrying,
                1.0 / FAR,
                format!(
                    "{what} never while it is followed ({}), {} allowed",
                    show(film.followed_for()),
                    show(limit)
                ),
            ),
        })
    });
    margins.min_by(|a, b| a.factor.total_cmp(&b.factor))
}

/// What lies too thin to be a film, or as dust, has no time: a limit is not kept by what is not known.
pub(super) fn no_film() -> Margin {
    Margin::new(Fault::SlowDrying, 1.0 / FAR, "no film whose drying could be told")
}
