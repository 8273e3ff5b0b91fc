//! Several thin coats with waits, or one thick one?
//!
//! A [`Stack`] is sprayed coat by coat: each lands on what the earlier ones kept, mixes with it, and the whole dries on.
//! [`Stack::dry`] compares it with the same paint laid at once in the air of the last coat:
//!
//! * what the coats below still held when each landed;
//! * flash-off, touch dry and block-free after the last coat, and counted from the first;
//! * the solvent trapped later, in the stack and in the one coat.
//!
//! Flash-off of the stack is reached when a tenth of all volatile matter that the coats brought is left, so that both
//! ways are measured by the same amount.
//!
//! Neglected: gradients across the film. Each coat mixes at once with all below; in truth the new coat is wetter on top for
//! a while, and a hard coat below takes up less. The longer the waits, the more this matters; a stack whose coats were
//! block-free before the next landed is better judged coat by coat. A thick coat may also run, which no drying time tells.
//!
//! Accuracy: six stacks against an independent integration (`tests/data/film_programme_reference.csv`), times within
//! 0.5 %; the model as for one coat, with a factor 3 on times ruled by diffusion in the binder.

use super::coat::Film;
use super::drying::{Drying, first_time};
use super::flash_off::FLASH_OFF_SHARE;
use super::trace::Trace;
use crate::answer::Answer;
use crate::error::{Result, out_of_range};
use crate::estimate::{Estimate, Scale};
use crate::quantity::{Length, Quantity, Ratio, Time, show, show_beside};
use crate::table::{Cell, Column, Table};
use crate::working::Step;
use serde::{Deserialize, Serialize};

/// Coats sprayed on one another, with the waits between them.
///
/// ```
/// use mistcoat::{air::Room, blend::{Basis, Blend}, film::{Binder, Film, Stack}};
/// use mistcoat::quantity::{parse, RelativeHumidity, VolumeFraction};
/// let thinner = Blend::from_names(
///     &[("acetone", 50.0), ("n-butyl acetate", 35.0), ("2-butoxyethanol", 15.0)], Basis::Mass, None)?;
/// let room = Room::new(parse("21 °C")?, RelativeHumidity::new(0.5)?)?;
/// let coat = Film::new(&thinner, VolumeFraction::new(0.15)?, parse("12 µm")?, &room)?
///     .with_binder(Binder::new(parse("50 °C")?)?);
/// let hull = Stack::repeat(&coat, 3, parse("3 min")?)?.dry()?;
/// // Wet, the last thin coat needs less than the thick one; with the waits the stack takes longer.
/// assert!(hull.after_last().touch_dry()?.best() < hull.one_coat().touch_dry()?.best());
/// assert!(hull.touch_dry()?.best() > hull.spraying_time());
/// println!("{}", hull.table().to_text());
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Stack {
    top: Film,
}

impl Stack {
    /// Starts with one coat.
    pub fn new(first: Film) -> Self {
        Self { top: first }
    }

    /// The same coat several times, with the same wait between.
    ///
    /// # Errors
    /// As [`Stack::then`], and a [`crate::error::RangeError`] for no coat.
    pub fn repeat(coat: &Film, coats: usize, wait: Time) -> Result<Self> {
        if coats == 0 {
            return Err(out_of_range("coats", "0", "1 or more", "a stack has at least one coat"));
        }
        (1..coats).try_fold(Self::new(coat.clone()), |stack, _| stack.then(wait, coat.clone()))
    }

    /// Another coat, so long after the one before it has landed. Until then the air of that one holds; its own air (room
    /// or programme) from then on.
    ///
    /// # Errors
    /// As [`Film::over`], and a [`crate::error::RangeError`] when all coats together are wetter than 5 mm.
    pub fn then(self, wait: Time, coat: Film) -> Result<Self> {
        let top = coat.over(&self.top, wait)?;
        top.as_one_coat()?;
        Ok(Self { top })
    }

    /// The last coat, over all others.
    pub fn film(&self) -> &Film {
        &self.top
    }

    /// How many coats.
    pub fn coats(&self) -> usize {
        self.top.all_coats().count()
    }

    /// From the landing of the first coat to that of the last.
    pub fn spraying_time(&self) -> Time {
        self.top.earlier.iter().fold(Time::from_si(0.0), |sum, e| sum + e.wait)
    }

    /// Dries the stack, and the same paint in one coat.
    ///
    /// # Errors
    /// As [`Film::dry`].
    pub fn dry(&self) -> Result<StackDrying> {
        Ok(StackDrying { drying: self.top.dry()?, one_coat: self.top.as_one_coat()?.dry()? })
    }
}

/// How a [`Stack`] dries, beside the same paint in one coat.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StackDrying {
    drying: Drying,
    one_coat: Drying,
}

/// A row of the comparison: a time or share of the stack, and of the one coat; none where it is never reached.
type Row<Q> = (&'static str, Option<Estimate<Q>>, Option<Estimate<Q>>);

impl StackDrying {
    /// The stack after the last coat has landed; its times count from there, and its shares are of what the film held
    /// then.
    pub fn after_last(&self) -> &Drying {
        &self.drying
    }

    /// The same paint laid at once; its times count from its landing.
    pub fn one_coat(&self) -> &Drying {
        &self.one_coat
    }

    /// The coats.
    pub fn stack(&self) -> Stack {
        Stack { top: self.drying.film().clone() }
    }

    /// From the landing of the first coat to that of the last.
    pub fn spraying_time(&self) -> Time {
        self.stack().spraying_time()
    }

    /// Thickness of all solids.
    pub fn dry_thickness(&self) -> Length {
        self.drying.film().dry_build()
    }

    /// What the coats below still held when a coat landed, as a share of the volatile mass they had brought. Coats count
    /// from 1; the first lands on the bare part.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] unless between 2 and the number of coats.
    pub fn kept(&self, coat: usize) -> Result<Answer<Ratio>> {
        let index = coat.checked_sub(2);
        let best = index.and_then(|i| self.drying.kept().get(i)).copied().ok_or_else(|| {
            out_of_range(
                "coat",
                coat.to_string(),
                format!("2 to {}", self.drying.kept().len() + 1),
                "the first coat lands on the bare part; ask for one of the later ones",
            )
        })?;
        let read = |trace: &Trace| {
            // As many coats in every run.
            Ok(index.and_then(|i| trace.kept.get(i)).copied().unwrap_or(best).max(f64::MIN_POSITIVE))
        };
        let mut answer = self.drying.answer(best.max(f64::MIN_POSITIVE), Scale::Log, read, |result| {
            Step::new(
                format!("kept by the coats below when coat {coat} landed"),
                "m_kept/m_brought",
                r"m_\mathrm{kept}/m_\mathrm{brought}",
            )
            .result(result)
            .source("FLASH_OFF")
        })?;
        let whole = Ratio::from_si(1.0);
        if answer.estimate.high > whole {
            answer.estimate.high = whole;
        }
        Ok(answer)
    }

    /// From the first coat until a tenth of all volatile matter that the coats brought is left.
    ///
    /// # Errors
    /// As [`Drying::time_to_lose`].
    pub fn flash_off(&self) -> Result<Answer<Time>> {
        let share_of = |wet_share: f64| Ratio::from_si(1.0 - (1.0 - FLASH_OFF_SHARE) / wet_share);
        let share = share_of(self.drying.wet_share);
        if share.si() <= 0.0 {
            // So many coats that the last brings less than the tenth.
            let answer = Answer::new(Estimate::exact(Time::from_si(0.0)), self.drying.working());
            return Ok(self.since_the_first(answer.with_warnings(self.drying.warnings().iter().cloned())));
        }
        let best = first_time(&self.drying.segments, share).ok_or_else(|| self.drying.never(share))?;
        let read = |trace: &Trace| {
            let share = share_of(trace.wet_share);
            first_time(&trace.segments, share).map(Time::si).ok_or_else(|| self.drying.never(share))
        };
        let after = self.drying.answer(best.si(), Scale::Log, read, |result| {
            Step::new(
                "time after the last coat until a tenth of all volatile matter is left",
                "m(t) = 0.1 m_brought",
                r"m(t) = 0.1\,m_\mathrm{brought}",
            )
            .result(result)
            .source("FLASH_OFF")
        })?;
        Ok(self.since_the_first(after))
    }

    /// From the first coat until the stack is touch dry.
    ///
    /// # Errors
    /// As [`Drying::touch_dry`].
    pub fn touch_dry(&self) -> Result<Answer<Time>> {
        Ok(self.since_the_first(self.drying.touch_dry()?))
    }

    /// From the first coat until the stack is block-free.
    ///
    /// # Errors
    /// As [`Drying::touch_dry`].
    pub fn block_free(&self) -> Result<Answer<Time>> {
        Ok(self.since_the_first(self.drying.block_free()?))
    }

    /// Solvent left in the stack, so long after the first coat ([`Drying::residual_solvent`]); in the one coat it is
    /// `one_coat().residual_solvent(time)`.
    ///
    /// # Errors
    /// As [`Drying::residual_solvent`]; a time before the last coat has landed is out of range.
    pub fn residual_solvent(&self, time: Time) -> Result<Answer<Ratio>> {
        let since = time - self.spraying_time();
        if since.si() < 0.0 {
            return Err(out_of_range(
                "time",
                show(time),
                format!("{} or more, when the last coat has landed", show(self.spraying_time())),
                "count from the first coat; `kept` has what was left when a coat landed",
            ));
        }
        self.drying.residual_solvent(since)
    }

    /// Counts an answer from the first coat: the waits are known, only the rest spreads.
    fn since_the_first(&self, mut answer: Answer<Time>) -> Answer<Time> {
        let waits = self.spraying_time();
        let e = &mut answer.estimate;
        (e.best, e.low, e.high) = (e.best + waits, e.low + waits, e.high + waits);
        answer.working.push(
            Step::new("counted from the first coat", "t + waits", r"t + \sum t_\mathrm{wait}")
                .numbers(format!("waits {}", show(waits)))
                .result(answer.estimate.to_string()),
        );
        answer
    }

    /// The stack beside the one coat, all times from the first coat.
    pub fn table(&self) -> Table {
        let stack = self.stack();
        let est = |answer: Result<Answer<Time>>| answer.ok().map(|a| a.estimate);
        let times: [Row<Time>; 3] = [
            ("flash-off", est(self.flash_off()), est(self.one_coat.flash_off())),
            ("touch dry", est(self.touch_dry()), est(self.one_coat.touch_dry())),
            ("block-free", est(self.block_free()), est(self.one_coat.block_free())),
        ];
        let share = |answer: Result<Answer<Ratio>>| answer.ok().map(|a| a.estimate);
        let mut left: Vec<Row<Ratio>> = Vec::new();
        for (name, hours) in [("solvent left after 1 h", 1.0), ("solvent left after 24 h", 24.0)] {
            let time = Time::from_si(hours * 3600.0);
            let one = share(self.one_coat.residual_solvent(time));
            left.push((name, share(self.residual_solvent(time)), one));
        }
        let rows: Vec<[Cell; 3]> =
            times.iter().map(cells).chain(left.iter().map(cells)).filter(any_number).collect();
        let coats = stack.coats();
        let titles = [
            ("mark", "mark".to_owned()),
            ("stack", format!("{coats} coats")),
            ("one_coat", "1 coat".to_owned()),
        ];
        let columns = titles.into_iter().enumerate().map(|(i, (key, title))| Column {
            key: key.to_owned(),
            title,
            unit: String::new(),
            cells: rows.iter().map(|row| row[i].clone()).collect(),
        });
        let kept: Vec<String> = self
            .drying
            .kept()
            .iter()
            .enumerate()
            .map(|(i, kept)| format!("coat {} landed on {} of the solvent before it", i + 2, percent(*kept)))
            .collect();
        let mut notes = vec![
            "times from the landing of the first coat; flash-off: a tenth of all volatile matter is left"
                .to_owned(),
            "coats are taken to mix at once with what lies below; one thick coat may also run".to_owned(),
        ];
        if !kept.is_empty() {
            notes.insert(0, kept.join("; "));
        }
        notes.extend(self.drying.warnings().iter().map(ToString::to_string));
        Table {
            caption: format!(
                "{coats} coats in {} against one of the same {} dry on {}",
                show(self.spraying_time()),
                show(self.dry_thickness()),
                self.drying.film().substrate()
            ),
            columns: columns.collect(),
            notes,
        }
    }
}

fn percent(share: f64) -> String {
    show(Ratio::from_si((1e3 * share).round() / 1e3))
}

fn cells<Q: Quantity>((name, stack, one): &Row<Q>) -> [Cell; 3] {
    let cell = |e: &Option<Estimate<Q>>| match e {
        Some(e) => {
            let [low, high] = [e.low, e.high].map(|end| show_beside(end, e.best));
            Cell::estimate(
                format!("{} ({low} to {high})", show(e.best)),
                e.best.si(),
                e.low.si(),
                e.high.si(),
            )
        }
        None => Cell::words("not reached"),
    };
    [Cell::words(*name), cell(stack), cell(one)]
}

fn any_number(row: &[Cell; 3]) -> bool {
    row.iter().any(|cell| cell.value.is_some())
}

impl core::fmt::Display for StackDrying {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(&self.table().to_text())
    }
}
