//! Rows, sections and the page made of them.

use mistcoat::quantity::{Temperature, digits};
use std::collections::HashMap;
use std::fmt::Write as _;
use std::path::PathBuf;

/// How a row is compared.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Measure {
    /// `100 (computed/published − 1)`, in percent.
    Percent,
    /// Computed less published, in this unit.
    Difference(&'static str),
    /// The factor between the two less 1, negative where too little is computed: for values that spread over decades.
    /// A tolerance is the factor less 1 too.
    Factor,
}

/// One published value beside what the crate computes.
#[derive(Debug, Clone)]
pub struct Row {
    pub quantity: String,
    pub conditions: String,
    pub unit: String,
    pub published: f64,
    pub computed: f64,
    /// Largest deviation allowed, in the measure of the section. None: the source describes something else, or is not
    /// accepted; shown, not claimed.
    pub tolerance: Option<f64>,
    /// Key of `data/sources/` or a citation in full.
    pub source: String,
    pub provenance: &'static str,
}

impl Row {
    /// A row whose provenance follows from its source.
    pub fn new(
        quantity: &str,
        conditions: &str,
        unit: &str,
        published: f64,
        computed: f64,
        source: &str,
    ) -> Self {
        let (source, provenance) = mistcoat::source::find(source).map_or_else(
            |_| (source.to_owned(), provenance(source)),
            |s| (s.citation.clone(), s.provenance.words()),
        );
        Self {
            quantity: quantity.to_owned(),
            conditions: conditions.to_owned(),
            unit: unit.to_owned(),
            published,
            computed,
            tolerance: None,
            source,
            provenance,
        }
    }

    pub fn within(mut self, tolerance: impl Into<Option<f64>>) -> Self {
        self.tolerance = tolerance.into();
        self
    }

    pub fn said_to_be(mut self, provenance: &str) -> Self {
        self.provenance = word(provenance);
        self
    }
}

/// What a citation in full says about itself.
fn provenance(source: &str) -> &'static str {
    if source.contains("from memory") {
        "from memory"
    } else if [
        "computed",
        "thermo ",
        "chemicals ",
        "by hand",
        "(arithmetic)",
        "definition",
        "mass balance",
        "GUM:",
        "V(st-s1)",
    ]
    .iter()
    .any(|w| source.contains(w))
    {
        "computed"
    } else {
        "published"
    }
}

/// The words of a column `provenance`.
fn word(provenance: &str) -> &'static str {
    match provenance {
        "published" => "published",
        "computed" => "computed",
        "from-memory" => "from memory",
        "mean of published and from-memory" => "published and from memory",
        other => panic!("no provenance {other:?}"),
    }
}

/// The finest deviation that is printed.
const FINEST: f64 = 5e-4;

/// One subject of the report.
pub struct Section {
    pub title: &'static str,
    /// Plain sentences before the table: what is compared, what is claimed, what the worst rows mean.
    pub text: String,
    pub measure: Measure,
    pub rows: Vec<Row>,
    /// All rows are checked; so many of the largest deviations are printed.
    pub listed: usize,
}

impl Section {
    pub fn new(title: &'static str, measure: Measure, rows: Vec<Row>, text: &str) -> Self {
        Self { title, text: text.to_owned(), measure, rows, listed: usize::MAX }
    }

    /// Prints only the rows that deviate most: for long tables worked by other libraries.
    pub fn worst(mut self, listed: usize) -> Self {
        self.listed = listed;
        self
    }

    pub fn deviation(&self, row: &Row) -> f64 {
        match self.measure {
            Measure::Percent => 100.0 * (row.computed / row.published - 1.0),
            Measure::Difference(_) => row.computed - row.published,
            Measure::Factor => {
                let ln = (row.computed / row.published).ln();
                (ln.abs().exp() - 1.0) * ln.signum()
            }
        }
    }

    /// A deviation in words. Below [`FINEST`] it is none: the last digits differ from machine to machine.
    fn in_measure(&self, deviation: f64) -> String {
        let size = deviation.abs();
        if self.measure == Measure::Factor {
            let sign = if deviation < 0.0 { '÷' } else { '×' };
            return if size < 0.005 { "× 1".to_owned() } else { format!("{sign} {:.2}", 1.0 + size) };
        }
        let text = if size < FINEST {
            "0".to_owned()
        } else if size < 0.05 {
            format!("{size:.3}")
        } else if matches!(self.measure, Measure::Percent) {
            format!("{size:.1}")
        } else {
            format!("{size:.2}")
        };
        let sign = if deviation < 0.0 && text != "0" { "−" } else { "" };
        match self.measure {
            Measure::Percent => format!("{sign}{text} %"),
            Measure::Difference("") | Measure::Factor => format!("{sign}{text}"),
            Measure::Difference(unit) => format!("{sign}{text} {unit}"),
        }
    }

    fn tolerance(&self, tolerance: f64) -> String {
        if tolerance < FINEST { format!("{tolerance:.0e}") } else { self.in_measure(tolerance) }
    }

    /// Size of a deviation for sorting, in steps of [`FINEST`]: rows that differ by less keep their order.
    fn size(&self, row: &Row) -> f64 {
        (self.deviation(row).abs() / FINEST).round()
    }

    /// Rows out of tolerance, each with its numbers.
    pub fn faults(&self) -> Vec<String> {
        let out = self.rows.iter().filter(|r| {
            let deviation = self.deviation(r);
            !deviation.is_finite() || r.tolerance.is_some_and(|t| deviation.abs() > t)
        });
        out.map(|r| {
            format!(
                "{}: {}, {}: {} for {} {}, off by {}",
                self.title,
                r.quantity,
                r.conditions,
                digits(r.computed, 5),
                digits(r.published, 5),
                r.unit,
                self.in_measure(self.deviation(r))
            )
        })
        .collect()
    }

    fn claimed(&self) -> Vec<&Row> {
        self.rows.iter().filter(|r| r.tolerance.is_some()).collect()
    }

    fn summary(&self) -> String {
        let mut claimed = self.claimed();
        claimed.sort_by(|a, b| self.size(b).total_cmp(&self.size(a)));
        let worst = claimed.first().map(|r| (*r).clone());
        let n = claimed.len();
        let at = |i: usize| self.deviation(claimed[i]).abs();
        let median = if n == 0 { 0.0 } else { 0.5 * (at((n - 1) / 2) + at(n / 2)) };
        let count = |words: &str| claimed.iter().filter(|r| r.provenance == words).count();
        let worst = worst.map_or_else(String::new, |r| {
            let conditions =
                if r.conditions.is_empty() { String::new() } else { format!(", {}", r.conditions) };
            format!("{}: {}{conditions}", self.in_measure(self.deviation(&r)), r.quantity)
        });
        let anchor = anchor(self.title);
        format!(
            "| [{}](#{anchor}) | {n} | {} | {} | {} | {} | {worst} |",
            self.title,
            count("published"),
            count("computed"),
            n - count("published") - count("computed"),
            self.in_measure(median),
        )
    }
}

/// The link that Markdown gives a heading.
fn anchor(title: &str) -> String {
    title
        .to_lowercase()
        .chars()
        .filter(|c| c.is_alphanumeric() || *c == ' ' || *c == '-')
        .map(|c| if c == ' ' { '-' } else { c })
        .collect()
}

/// Text in a cell of a table.
fn cell(text: &str) -> String {
    text.replace('|', "\\|")
}

const HEAD: &str = "# Validation

What the crate computes beside every published value that its tests use. **Written by `cargo test --test validation`
from `tests/data/`; do not edit by hand.** After a change: `UPDATE=1 cargo test --test validation`, and read the
difference. The test fails when a row leaves its tolerance or this page is stale.

*Provenance*: *published* was seen in the source named; *from memory* is a published value as remembered, to be checked
before you rely on it; *computed* comes from another program or a calculation by hand, which checks the arithmetic and
not the model. Rows without a tolerance are shown and not claimed: the source describes something else, and the section
says what. Deviations are computed less published; × 1.2 is computed 1.2 times too large, ÷ 1.2 too small by that factor.
";

/// The whole page.
pub fn page(sections: &[Section]) -> String {
    let mut out = HEAD.to_owned();
    out.push_str("\n| subject | claimed rows | published | computed | partly or all from memory | median deviation | worst |\n");
    out.push_str("|---|--:|--:|--:|--:|--:|---|\n");
    for section in sections {
        let _ = writeln!(out, "{}", section.summary());
    }
    let total: usize = sections.iter().map(|s| s.claimed().len()).sum();
    let shown: usize = sections.iter().map(|s| s.rows.len()).sum();
    let _ = writeln!(out, "\n{total} rows claimed, {} more shown without a claim.", shown - total);
    let mut sources: Vec<String> = Vec::new();
    for section in sections {
        let _ = write!(out, "\n## {}\n\n{}\n\n", section.title, section.text.trim());
        let mut rows: Vec<&Row> = section.rows.iter().collect();
        if rows.len() > section.listed {
            let _ = writeln!(
                out,
                "The {} largest deviations of {} rows; the others stand in the file of data.\n",
                section.listed,
                rows.len()
            );
            rows.sort_by(|a, b| section.size(b).total_cmp(&section.size(a)));
            rows.truncate(section.listed);
        }
        out.push_str("| quantity | conditions | published | computed | unit | deviation | tolerance | provenance | source |\n");
        out.push_str("|---|---|--:|--:|---|--:|--:|---|--:|\n");
        for r in rows {
            let number = sources.iter().position(|s| *s == r.source).unwrap_or_else(|| {
                sources.push(r.source.clone());
                sources.len() - 1
            });
            let _ = writeln!(
                out,
                "| {} | {} | {} | {} | {} | {} | {} | {} | {} |",
                cell(&r.quantity),
                cell(&r.conditions),
                digits(r.published, 5),
                digits(r.computed, 4),
                r.unit,
                section.in_measure(section.deviation(r)),
                r.tolerance.map_or_else(|| "–".to_owned(), |t| section.tolerance(t)),
                r.provenance,
                number + 1
            );
        }
    }
    out.push_str("\n## Sources\n\n");
    for (i, source) in sources.iter().enumerate() {
        let _ = writeln!(out, "{}. {source}", i + 1);
    }
    out
}

/// A file of the project.
pub fn path(relative: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(relative)
}

/// Compares a generated file with the committed one, or writes it when UPDATE=1.
pub fn keep(relative: &str, text: &str) {
    let file = path(relative);
    if std::env::var("UPDATE").is_ok_and(|v| v == "1") {
        std::fs::write(&file, text).unwrap();
        return;
    }
    let committed = std::fs::read_to_string(&file).unwrap_or_default();
    if committed == text {
        return;
    }
    let first = committed.lines().zip(text.lines()).find(|(a, b)| a != b);
    panic!(
        "{relative} is stale: run 'UPDATE=1 cargo test --test validation', read the difference and commit it; first \
         difference: {first:#?}"
    );
}

/// Rows of a file of `tests/data/` by column name.
pub fn data(file: &str) -> Vec<HashMap<String, String>> {
    let mut reader =
        csv::ReaderBuilder::new().comment(Some(b'#')).from_path(path("tests/data").join(file)).unwrap();
    reader.deserialize().collect::<Result<_, _>>().unwrap()
}

pub fn number(row: &HashMap<String, String>, column: &str) -> f64 {
    row[column].parse().unwrap_or_else(|_| panic!("{column} of {row:?}"))
}

pub fn celsius(t: f64) -> Temperature {
    mistcoat::quantity::of(t, "°C").unwrap()
}
