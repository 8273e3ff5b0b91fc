//! A verdict with its reasons and the trial that settles it.

use crate::table::{Cell, Column, Table};
use serde::{Deserialize, Serialize};

/// May it be done?
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// Nothing known against it.
    Fine,
    /// May go wrong: make the trial on scrap first.
    TestFirst,
    /// Known to go wrong.
    No,
}

impl Verdict {
    /// The words shown to a reader.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Fine => "fine",
            Self::TestFirst => "test first",
            Self::No => "no",
        }
    }
}

impl core::fmt::Display for Verdict {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(self.words())
    }
}

/// One reason, with the verdict it leads to by itself and where it comes from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Reason {
    /// What this reason alone would say.
    pub verdict: Verdict,
    /// The reason in words, with its number where it has one.
    pub text: String,
    /// Source key.
    pub source: String,
}

/// The answer to "does this go with that?".
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Judgement {
    /// What was asked.
    pub question: String,
    /// The sternest of the reasons.
    pub verdict: Verdict,
    /// Why, sternest first.
    pub reasons: Vec<Reason>,
    /// The trial on scrap that settles it.
    pub trial: String,
    /// What to mind while trying.
    pub cautions: Vec<String>,
}

/// Whoever tries solvents reads this first.
pub(super) const CAUTION: &str = "Gloves that stand the solvent, ventilation to the outside, no flame or spark. The \
                                  safety data sheets, local codes and licensed practice decide.";

impl Judgement {
    /// The sternest reason decides; without any, nothing is known against it.
    pub(super) fn new(question: String, mut reasons: Vec<Reason>, trial: &str) -> Self {
        reasons.sort_by_key(|r| core::cmp::Reverse(r.verdict));
        let verdict = reasons.first().map_or(Verdict::Fine, |r| r.verdict);
        Self { question, verdict, reasons, trial: trial.to_owned(), cautions: vec![CAUTION.to_owned()] }
    }

    /// Reasons, trial and cautions as a table.
    pub fn table(&self) -> Table {
        let words =
            |pick: &dyn Fn(&Reason) -> String| self.reasons.iter().map(|r| Cell::words(pick(r))).collect();
        let column = |key: &str, title: &str, cells| Column {
            key: key.to_owned(),
            title: title.to_owned(),
            unit: String::new(),
            cells,
        };
        let mut notes = vec![format!("Trial: {}", self.trial)];
        let mut keys: Vec<&str> = self.reasons.iter().map(|r| r.source.as_str()).collect();
        keys.dedup();
        notes.extend(keys.iter().map(|key| format!("Source: {}.", crate::source::cite(key))));
        notes.extend(self.cautions.iter().cloned());
        Table {
            caption: format!("{}: {}", self.question, self.verdict),
            columns: vec![
                column("verdict", "verdict", words(&|r| r.verdict.words().to_owned())),
                column("reason", "because", words(&|r| r.text.clone())),
            ],
            notes,
        }
    }
}

impl core::fmt::Display for Judgement {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{}: {}", self.question, self.verdict)?;
        self.reasons.iter().try_for_each(|r| write!(f, "; {}", r.text))
    }
}
