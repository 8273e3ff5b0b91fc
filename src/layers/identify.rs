//! What is this paint? Labels mislead; a few cheap trials tell.
//!
//! Each kind of paint starts with its share on a hobby bench. Each clue multiplies that share by how often the kind
//! gives such an answer (Bayes), and the products are scaled to add up to one:
//! `P(kind | clues) ∝ P(kind) Π P(clue | kind)`. The words of one label hang together, so each counts with the
//! power 0.7 only. The next test is the one from which the most information is to be expected: the mean fall of
//! `−Σ P log₂ P` over its possible answers, in bits.
//!
//! Accuracy: the shares in `data/identify.toml` are judgement from common practice, counted by nobody. They rank;
//! take 90 % for "very likely", not for nine in ten. Neglected: clues that hang together beyond the label, kinds of
//! paint not in the list (shellac, casein, epoxy, one-pack moisture-cured urethane).

use crate::error::{Error, Result, bad_data, out_of_range, unknown_name};
use crate::names::fold;
use crate::paint::Family;
use crate::quantity::{Quantity, Ratio, as_text, show};
use crate::table::{Cell, Column, Table};
use serde::{Deserialize, Serialize};
use std::sync::LazyLock;

const FILE: &str = "data/identify.toml";
const TEXT: &str = include_str!("../../data/identify.toml");
const TWO_PACK: &str = "isocyanate two-pack";
/// Power with which each word of a label counts: the words of one label are not independent (judgement).
const LABEL_WEIGHT: f64 = 0.7;
/// From this likelihood of an isocyanate two-pack on, nobody is asked to smell the bottle, and the caution is told.
const TWO_PACK_ALARM: f64 = 0.10;
/// A test that would tell less than this, in bits, is not worth its cloth.
const LEAST_BITS: f64 = 0.02;
/// A likelihood above this settles the matter as far as such clues can.
const SETTLED: f64 = 0.95;

/// What a bottle may hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub enum Kind {
    /// One of the families that the rest of this library works with.
    Family(Family),
    /// A paint hardened by an isocyanate from a second can: not for home spraying, and refused everywhere here.
    IsocyanateTwoPack,
}

impl Kind {
    /// All kinds, in the order of the data file.
    pub const ALL: [Self; 6] = [
        Self::Family(Family::WaterborneAcrylic),
        Self::Family(Family::AlcoholAcrylic),
        Self::Family(Family::SolventLacquer),
        Self::Family(Family::AlkydEnamel),
        Self::Family(Family::ArtistsOil),
        Self::IsocyanateTwoPack,
    ];

    /// The name of the kind.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Family(family) => family.name(),
            Self::IsocyanateTwoPack => TWO_PACK,
        }
    }

    /// The family, when it is one this library works with.
    pub const fn family(self) -> Option<Family> {
        match self {
            Self::Family(family) => Some(family),
            Self::IsocyanateTwoPack => None,
        }
    }
}

impl core::fmt::Display for Kind {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(self.name())
    }
}

impl From<Kind> for String {
    fn from(kind: Kind) -> Self {
        kind.name().to_owned()
    }
}

impl TryFrom<String> for Kind {
    type Error = Error;
    fn try_from(name: String) -> Result<Self> {
        let wanted = fold(&name);
        let known = Self::ALL.map(Self::name);
        Self::ALL.into_iter().find(|k| fold(k.name()) == wanted).ok_or_else(|| {
            unknown_name(
                "kind of paint",
                &name,
                known,
                "the kinds are the five families and isocyanate two-pack",
            )
        })
    }
}

type Shares = [f64; Kind::ALL.len()];

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    schema: u32,
    source: String,
    order: Vec<Kind>,
    bench: Shares,
    word: Vec<Word>,
    test: Vec<Test>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Word {
    text: String,
    also: Vec<String>,
    share: Shares,
    note: String,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Test {
    name: String,
    how: String,
    effort: u8,
    answer: Vec<PossibleAnswer>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct PossibleAnswer {
    text: String,
    share: Shares,
}

static TABLE: LazyLock<Result<File>> = LazyLock::new(|| read(TEXT));

fn read(text: &str) -> Result<File> {
    let damaged = |what: &str| bad_data(FILE, None, None, what, "restore the file from the release");
    let file: File = toml::from_str(text).map_err(|e| damaged(e.message()))?;
    let adds_up = |columns: &[&Shares]| {
        (0..Kind::ALL.len()).all(|k| (columns.iter().map(|c| c[k]).sum::<f64>() - 1.0).abs() < 1e-6)
    };
    let share = |s: &Shares| s.iter().all(|v| *v > 0.0 && *v < 1.0);
    let words = file.word.iter().all(|w| share(&w.share));
    let tests = file.test.iter().all(|t| {
        let columns: Vec<&Shares> = t.answer.iter().map(|a| &a.share).collect();
        adds_up(&columns) && columns.iter().all(|c| share(c))
    });
    if file.schema != 1 || file.order != Kind::ALL || !words || !tests {
        return Err(damaged("shares that do not add up, another order of kinds, or another schema than 1"));
    }
    if (file.bench.iter().sum::<f64>() - 1.0).abs() > 1e-6 {
        return Err(damaged("shares of the bench that do not add up to 1"));
    }
    Ok(file)
}

fn table() -> Result<&'static File> {
    TABLE.as_ref().map_err(Error::clone)
}

/// A kind with its likelihood.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Candidate {
    /// The kind.
    pub kind: Kind,
    /// Its likelihood after all clues.
    #[serde(with = "as_text")]
    pub likelihood: Ratio,
}

/// A test that has not been made, and what it is expected to tell.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct NextTest {
    /// Its name.
    pub name: String,
    /// How it is done.
    pub how: String,
    /// The answers it may give, as [`Identify::test`] takes them.
    pub answers: Vec<String>,
    /// Information to be expected, bits.
    pub expected_bits: f64,
    /// Trouble, from 1 (reading) to 4 (a week of waiting).
    pub effort: u8,
}

/// Gathers clues. Build, add what was seen, then [`Identify::run`].
///
/// ```
/// use mistcoat::layers::Identify;
/// let found = Identify::new()
///     .label("Acrylic Lacquer, fast drying")?
///     .test("drop in water", "skins or curdles at once")?
///     .run()?;
/// assert_eq!(found.best().kind.name(), "solvent lacquer"); // though the label says acrylic
/// assert!(found.next_test().is_some());
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Identify {
    words: Vec<String>,
    tests: Vec<(String, String)>,
}

impl Identify {
    /// No clue yet.
    pub fn new() -> Self {
        Self::default()
    }

    /// What the label says: every known word in it counts once.
    ///
    /// # Errors
    /// [`crate::error::UnknownName`] when no word of it is known.
    pub fn label(mut self, text: &str) -> Result<Self> {
        let file = table()?;
        let label = format!(" {} ", plain(text));
        let says = |phrase: &str| label.contains(&format!(" {} ", plain(phrase)));
        let before = self.words.len();
        for word in &file.word {
            let found = says(&word.text) || word.also.iter().any(|also| says(also));
            if found && !self.words.contains(&word.text) {
                self.words.push(word.text.clone());
            }
        }
        let known = file.word.iter().flat_map(|w| core::iter::once(&w.text).chain(&w.also));
        let repeated = known.clone().any(|phrase| says(phrase));
        if self.words.len() == before && !repeated {
            return Err(unknown_name(
                "word on a label",
                text,
                known.map(String::as_str),
                "leave it out, and answer a test instead",
            ));
        }
        Ok(self)
    }

    /// What a test gave; a second answer to the same test takes the place of the first.
    ///
    /// # Errors
    /// [`crate::error::UnknownName`] for a test or an answer that is not in the list, with near ones.
    pub fn test(mut self, name: &str, answer: &str) -> Result<Self> {
        let file = table()?;
        let wanted = fold(name);
        let test = file.test.iter().find(|t| fold(&t.name) == wanted).ok_or_else(|| {
            let known = file.test.iter().map(|t| t.name.as_str());
            unknown_name("test", name, known, "Identify::tests() lists them with their answers")
        })?;
        let said = fold(answer);
        let answer = test.answer.iter().find(|a| fold(&a.text) == said).ok_or_else(|| {
            let known = test.answer.iter().map(|a| a.text.as_str());
            unknown_name("answer", answer, known, "Identify::tests() lists the answers of each test")
        })?;
        self.tests.retain(|(done, _)| *done != test.name);
        self.tests.push((test.name.clone(), answer.text.clone()));
        Ok(self)
    }

    /// All tests, as if nothing was known yet.
    ///
    /// # Errors
    /// A [`crate::error::DataError`] when the embedded table is damaged.
    pub fn tests() -> Result<Vec<NextTest>> {
        let file = table()?;
        Ok(remaining(file, &file.bench, &[]))
    }

    /// Weighs the clues.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] without any clue; a [`crate::error::DataError`] when the embedded table is
    /// damaged.
    pub fn run(&self) -> Result<Identification> {
        let file = table()?;
        if self.words.is_empty() && self.tests.is_empty() {
            return Err(out_of_range(
                "number of clues",
                "0",
                "at least 1",
                "say what stands on the label, or answer a test: a drop in water is the quickest",
            ));
        }
        let mut chances = file.bench;
        for word in file.word.iter().filter(|w| self.words.contains(&w.text)) {
            for (chance, share) in chances.iter_mut().zip(word.share) {
                *chance *= share.powf(LABEL_WEIGHT);
            }
        }
        for test in &file.test {
            let Some((_, said)) = self.tests.iter().find(|(name, _)| *name == test.name) else { continue };
            let shares = test.answer.iter().filter(|a| a.text == *said).flat_map(|a| a.share);
            chances.iter_mut().zip(shares).for_each(|(chance, share)| *chance *= share);
        }
        scale(&mut chances);
        let mut candidates: Vec<Candidate> = Kind::ALL
            .into_iter()
            .zip(chances)
            .map(|(kind, p)| Candidate { kind, likelihood: Ratio::from_si(p) })
            .collect();
        candidates.sort_by(|a, b| b.likelihood.si().total_cmp(&a.likelihood.si()));
        let done: Vec<&str> = self.tests.iter().map(|(name, _)| name.as_str()).collect();
        Ok(Identification {
            candidates,
            clues: self.clues(file),
            tests_left: remaining(file, &chances, &done),
            cautions: cautions(&chances),
            source: file.source.clone(),
        })
    }

    fn clues(&self, file: &File) -> Vec<String> {
        let words = file.word.iter().filter(|w| self.words.contains(&w.text));
        let words = words.map(|w| format!("label says {:?}: {}", w.text, w.note));
        words.chain(self.tests.iter().map(|(name, answer)| format!("{name}: {answer}"))).collect()
    }
}

/// Lower case, every run of other signs one blank: "Water-Based!" is "water based".
fn plain(text: &str) -> String {
    let signs = |c: char| !c.is_alphanumeric();
    let words: Vec<String> = text.split(signs).filter(|w| !w.is_empty()).map(str::to_lowercase).collect();
    words.join(" ")
}

fn scale(chances: &mut Shares) {
    let sum: f64 = chances.iter().sum();
    for chance in chances {
        *chance /= sum;
    }
}

/// `−Σ P log₂ P`.
fn uncertainty_bits(chances: &Shares) -> f64 {
    -chances.iter().filter(|p| **p > 0.0).map(|p| p * p.log2()).sum::<f64>()
}

fn expected_bits(chances: &Shares, test: &Test) -> f64 {
    let mut left = 0.0;
    for answer in &test.answer {
        let mut after: Shares = core::array::from_fn(|k| chances[k] * answer.share[k]);
        let frequency: f64 = after.iter().sum();
        scale(&mut after);
        left += frequency * uncertainty_bits(&after);
    }
    (uncertainty_bits(chances) - left).max(0.0)
}

/// Tests that are left, most telling first. Nobody smells at what may hold isocyanate.
fn remaining(file: &File, chances: &Shares, done: &[&str]) -> Vec<NextTest> {
    let alarm = two_pack(chances) >= TWO_PACK_ALARM;
    let mut left: Vec<NextTest> = file
        .test
        .iter()
        .filter(|t| !(done.contains(&t.name.as_str()) || alarm && t.name == "smell"))
        .map(|t| NextTest {
            name: t.name.clone(),
            how: t.how.clone(),
            answers: t.answer.iter().map(|a| a.text.clone()).collect(),
            expected_bits: expected_bits(chances, t),
            effort: t.effort,
        })
        .filter(|t| t.expected_bits >= LEAST_BITS)
        .collect();
    left.sort_by(|a, b| b.expected_bits.total_cmp(&a.expected_bits));
    left
}

fn two_pack(chances: &Shares) -> f64 {
    Kind::ALL.iter().zip(chances).filter(|(k, _)| **k == Kind::IsocyanateTwoPack).map(|(_, p)| p).sum()
}

fn cautions(chances: &Shares) -> Vec<String> {
    let mut out = Vec::new();
    if two_pack(chances) >= TWO_PACK_ALARM {
        out.push(
            "It may be a two-pack with isocyanate. Keep it closed, read the safety data sheet, and do not spray it at \
             home: cartridge masks do not protect from it, and it can make people asthmatic for life. It belongs to \
             licensed practice with supplied air."
                .to_owned(),
        );
    }
    out.push(
        "Tests with solvent: gloves that stand it, ventilation, no flame or spark; cloths into a closed metal can. The \
         safety data sheet of the paint says what is in it, and decides."
            .to_owned(),
    );
    out
}

/// How likely each kind is, and what to try next.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Identification {
    candidates: Vec<Candidate>,
    clues: Vec<String>,
    tests_left: Vec<NextTest>,
    cautions: Vec<String>,
    source: String,
}

impl Identification {
    /// All kinds, likeliest first.
    pub fn candidates(&self) -> &[Candidate] {
        &self.candidates
    }

    /// The likeliest kind.
    pub fn best(&self) -> &Candidate {
        &self.candidates[0]
    }

    /// Whether the clues settle it as far as such clues can: one kind at 95 % or more.
    pub fn is_settled(&self) -> bool {
        self.best().likelihood.si() >= SETTLED
    }

    /// What was said, with what to know about it.
    pub fn clues(&self) -> &[String] {
        &self.clues
    }

    /// Tests not made yet, most telling first.
    pub fn tests_left(&self) -> &[NextTest] {
        &self.tests_left
    }

    /// The most telling test that is left; none when no test would tell anything.
    pub fn next_test(&self) -> Option<&NextTest> {
        self.tests_left.first()
    }

    /// What to mind while testing.
    pub fn cautions(&self) -> &[String] {
        &self.cautions
    }

    /// Source key of the shares behind the likelihoods.
    pub fn source(&self) -> &str {
        &self.source
    }

    /// Kinds with their likelihoods, clues, next test and cautions.
    pub fn table(&self) -> Table {
        let kinds = self.candidates.iter().map(|c| Cell::words(c.kind.name())).collect();
        let shares = self.candidates.iter().map(|c| {
            let percent = 100.0 * c.likelihood.si();
            Cell::number(
                if percent < 1.0 { "under 1 %".to_owned() } else { format!("{percent:.0} %") },
                percent,
            )
        });
        let mut notes: Vec<String> = self.clues.clone();
        if let Some(next) = self.next_test() {
            notes.push(format!(
                "Next, the most telling test: {}. {} Answers: {}.",
                next.name,
                next.how,
                next.answers.join("; ")
            ));
        }
        notes
            .push(format!("Likelihoods rank, they are not counted: {}.", crate::source::cite(self.source())));
        notes.extend(self.cautions.iter().cloned());
        Table {
            caption: format!(
                "What is this paint? Likeliest: {} ({})",
                self.best().kind,
                show(self.best().likelihood)
            ),
            columns: vec![
                Column {
                    key: "kind".into(),
                    title: "kind of paint".into(),
                    unit: String::new(),
                    cells: kinds,
                },
                Column {
                    key: "likelihood".into(),
                    title: "likelihood".into(),
                    unit: "%".into(),
                    cells: shares.collect(),
                },
            ],
            notes,
        }
    }
}

#[cfg(test)]
mod tests;
