//! How long handwork takes: common practice, `data/session.toml`.

use crate::error::{Error, Result, bad_data};
use crate::estimate::{COVERAGE, Contributor, Estimate};
use crate::quantity::as_text::Text;
use crate::quantity::{Length, Number, Quantity, Ratio, Time, Volume};
use serde::Deserialize;
use std::sync::LazyLock;

const FILE: &str = "data/session.toml";
const TEXT: &str = include_str!("../../../data/session.toml");

/// Times of handwork and judgements that a plan takes for granted; common practice, source key in [`Habits::source`].
#[derive(Debug, Clone, PartialEq)]
pub struct Habits {
    /// Counting, stirring and straining one mix.
    pub mix: Estimate<Time>,
    /// Handing the gun on and filling it again with the same paint.
    pub hand_over: Estimate<Time>,
    /// Masking, when no time is given.
    pub mask: Estimate<Time>,
    /// One portion of cleaner.
    pub portion: Estimate<Time>,
    /// Taking the gun apart at the end.
    pub clean_up: Estimate<Time>,
    /// Time of a pass over bare area over hand speed: turning, looking, edges.
    pub turning: Estimate<Number>,
    /// Flash-off where none is reached.
    pub flash_off: Time,
    /// Wait before handling and masking where no model knows the end.
    pub handle: Time,
    /// How long paint may stand in the gun.
    pub gun_stands: Time,
    /// A wait from which the work goes on another day.
    pub another_day: Time,
    /// A wait in which nobody works counts as time at the bench up to this long; through a longer one people go away.
    pub away: Time,
    /// Share of old paint left by the wash at the end, and by a change whose shades are not known.
    pub left: Ratio,
    /// Share of the cleaner that ends in the air.
    pub cleaner_evaporates: Ratio,
    /// Inner diameter of the cups that stand on the bench.
    pub cup_diameter: Length,
    /// Thinner in a cup beside the mix.
    pub cup_thinner: Volume,
    /// How long cups stand open at most.
    pub cups_open: Time,
    /// Source key of all of them.
    pub source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    schema: u32,
    source: String,
    mix: Row<Time>,
    hand_over: Row<Time>,
    mask: Row<Time>,
    portion: Row<Time>,
    clean_up: Row<Time>,
    turning: Plain,
    rules: Rules,
}

#[derive(Deserialize)]
#[serde(bound = "Q: Quantity", deny_unknown_fields)]
struct Row<Q: Quantity> {
    low: Text<Q>,
    best: Text<Q>,
    high: Text<Q>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Plain {
    low: f64,
    best: f64,
    high: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Rules {
    flash_off: Text<Time>,
    handle: Text<Time>,
    gun_stands: Text<Time>,
    another_day: Text<Time>,
    away: Text<Time>,
    left: Text<Ratio>,
    cleaner_evaporates: Text<Ratio>,
    cup_diameter: Text<Length>,
    cup_thinner: Text<Volume>,
    cups_open: Text<Time>,
}

static HABITS: LazyLock<Result<Habits>> = LazyLock::new(|| read(TEXT));

fn read(text: &str) -> Result<Habits> {
    let file: File = toml::from_str(text).map_err(|e| damaged(e.message()))?;
    if file.schema != 1 {
        return Err(damaged("another schema than 1"));
    }
    Ok(Habits {
        mix: file.mix.estimate("mixing")?,
        hand_over: file.hand_over.estimate("handing the gun on")?,
        mask: file.mask.estimate("masking")?,
        portion: file.portion.estimate("a portion of cleaner")?,
        clean_up: file.clean_up.estimate("cleaning up")?,
        turning: ranged(file.turning.number(), "turning and looking")?,
        flash_off: file.rules.flash_off.0,
        handle: file.rules.handle.0,
        gun_stands: file.rules.gun_stands.0,
        another_day: file.rules.another_day.0,
        away: file.rules.away.0,
        left: file.rules.left.0,
        cleaner_evaporates: file.rules.cleaner_evaporates.0,
        cup_diameter: file.rules.cup_diameter.0,
        cup_thinner: file.rules.cup_thinner.0,
        cups_open: file.rules.cups_open.0,
        source: file.source,
    })
}

fn damaged(what: &str) -> Error {
    bad_data(FILE, None, None, what, "restore the file from the release")
}

impl Plain {
    fn number(&self) -> [Number; 3] {
        [self.low, self.best, self.high].map(Number::from_si)
    }
}

impl<Q: Quantity> Row<Q> {
    fn estimate(self, what: &str) -> Result<Estimate<Q>> {
        ranged([self.low.0, self.best.0, self.high.0], what)
    }
}

fn ranged<Q: Quantity>([low, best, high]: [Q; 3], what: &str) -> Result<Estimate<Q>> {
    if !(low.si() > 0.0 && low <= best && best <= high) {
        return Err(damaged(&format!("{what}: the range does not rise")));
    }
    let contributors = vec![Contributor { what: format!("habit: {what}"), share: 1.0 }];
    Ok(Estimate { best, low, high, coverage: COVERAGE, contributors })
}

impl Habits {
    /// The habits of the embedded table.
    ///
    /// # Errors
    /// A [`crate::error::DataError`] when the embedded table is damaged.
    ///
    /// ```
    /// use mistcoat::bench::Habits;
    /// let habits = Habits::usual()?;
    /// assert!(habits.mix.best < habits.mask.best);
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn usual() -> Result<&'static Self> {
        HABITS.as_ref().map_err(Error::clone)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_is_whole_and_damage_is_refused() {
        assert!(crate::source::find(&Habits::usual().unwrap().source).is_ok());
        assert!(read("schema = 2").is_err());
        assert!(read(&TEXT.replace("schema = 1", "schema = 3")).is_err());
        assert!(read(&TEXT.replacen("low = \"2 min\"", "low = \"20 min\"", 1)).is_err());
    }
}
