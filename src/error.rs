//! What can go wrong, one type per concern. Every message names the value, the limit and the remedy.
//!
//! A caller who embeds the crate matches on [`Error`]; each variant holds a struct whose fields carry the
//! same facts as its message, so that a program can act on them.

/// Result alias of the crate.
pub type Result<T, E = Error> = core::result::Result<T, E>;

/// Everything that can go wrong, by concern.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum Error {
    /// A text or unit could not be read as the wanted quantity.
    #[error(transparent)]
    Unit(#[from] UnitError),
    /// A value lies outside what a relation, a standard or nature allows.
    #[error(transparent)]
    Range(#[from] Box<RangeError>),
    /// A name is not in a catalogue.
    #[error(transparent)]
    UnknownName(#[from] Box<UnknownName>),
    /// A blend separates into two liquids.
    #[error(transparent)]
    PhaseSplit(#[from] Box<PhaseSplit>),
    /// A file or record is malformed.
    #[error(transparent)]
    Data(#[from] Box<DataError>),
}

/// A text or unit that could not be read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum UnitError {
    /// The unit is not one of this dimension.
    #[error("unknown unit {unit:?} for a {dimension}; use one of: {expected} (for example {example:?})")]
    UnknownUnit {
        /// The dimension that was wanted.
        dimension: &'static str,
        /// What was written.
        unit: String,
        /// Units that are understood.
        expected: String,
        /// A value that would have worked.
        example: &'static str,
    },
    /// The unit means two things; both are named.
    #[error("{unit:?} is ambiguous for a {dimension}: {choices}")]
    Ambiguous {
        /// The dimension that was wanted.
        dimension: &'static str,
        /// What was written.
        unit: String,
        /// The readings to choose from.
        choices: &'static str,
    },
    /// A number without a unit.
    #[error("{text:?} has no unit; a {dimension} needs one, for example {example:?}")]
    NoUnit {
        /// The dimension that was wanted.
        dimension: &'static str,
        /// What was written.
        text: String,
        /// A value that would have worked.
        example: &'static str,
    },
    /// A text that does not start with a number.
    #[error("cannot read {text:?} as a {dimension}: no number at the start; write for example {example:?}")]
    NoNumber {
        /// The dimension that was wanted.
        dimension: &'static str,
        /// What was written.
        text: String,
        /// A value that would have worked.
        example: &'static str,
    },
    /// A decimal comma.
    #[error("{text:?} has a comma in its number; a {dimension} is written with a point: {corrected:?}")]
    DecimalComma {
        /// The dimension that was wanted.
        dimension: &'static str,
        /// What was written.
        text: String,
        /// The same with a point.
        corrected: String,
    },
    /// A number that is NaN or infinite.
    #[error("{text:?} is not a finite {dimension}; write for example {example:?}")]
    NotFinite {
        /// The dimension that was wanted.
        dimension: &'static str,
        /// What was written.
        text: String,
        /// A value that would have worked.
        example: &'static str,
    },
}

/// A value outside its limits.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{what} is {value}, allowed is {limit}: {remedy}")]
pub struct RangeError {
    /// What the value is, for example "efflux time".
    pub what: String,
    /// The value with its unit.
    pub value: String,
    /// The limit it broke, for example "more than 21.3 s (where the equation of this cup gives zero)".
    pub limit: String,
    /// What to do about it.
    pub remedy: String,
}

/// Builds a [`RangeError`]; every part is text ready to show.
pub fn out_of_range(
    what: impl Into<String>,
    value: impl Into<String>,
    limit: impl Into<String>,
    remedy: impl Into<String>,
) -> Error {
    Error::Range(Box::new(RangeError {
        what: what.into(),
        value: value.into(),
        limit: limit.into(),
        remedy: remedy.into(),
    }))
}

/// A name that is in no catalogue, with the names that come near.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("unknown {kind} {name:?}{}; {remedy}", near_text(.near))]
pub struct UnknownName {
    /// What was looked for, for example "solvent".
    pub kind: &'static str,
    /// What was written.
    pub name: String,
    /// Known names that come near, best first; may be empty.
    pub near: Vec<String>,
    /// What to do about it.
    pub remedy: &'static str,
}

fn near_text(near: &[String]) -> String {
    match near {
        [] => String::new(),
        names => {
            let quoted: Vec<String> = names.iter().map(|n| format!("{n:?}")).collect();
            format!("; did you mean {}?", quoted.join(", "))
        }
    }
}

/// Builds an [`UnknownName`], looking among `known` for up to four names that come near `name`.
pub fn unknown_name<'a>(
    kind: &'static str,
    name: &str,
    known: impl IntoIterator<Item = &'a str>,
    remedy: &'static str,
) -> Error {
    let wanted = crate::names::fold(name);
    let mut scored: Vec<(f64, &str)> = known
        .into_iter()
        .map(|k| {
            let folded = crate::names::fold(k);
            let inside = wanted.len() >= 3 && folded.contains(&wanted);
            (if inside { 0.95 } else { strsim::jaro_winkler(&wanted, &folded) }, k)
        })
        .filter(|(score, _)| *score > 0.78)
        .collect();
    scored.sort_by(|a, b| b.0.total_cmp(&a.0).then_with(|| a.1.cmp(b.1)));
    scored.dedup_by(|a, b| a.1 == b.1);
    let near = scored.into_iter().take(4).map(|(_, k)| k.to_owned()).collect();
    Error::UnknownName(Box::new(UnknownName { kind, name: name.to_owned(), near, remedy }))
}

/// A blend that does not stay one liquid.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error(
    "{blend} separates into two liquids at {temperature}: one richer in {first}, one richer in {second}; \
     allowed is a blend that stays one liquid: {remedy}"
)]
pub struct PhaseSplit {
    /// Name or recipe of the blend.
    pub blend: String,
    /// Temperature of the check, as text.
    pub temperature: String,
    /// Component enriched in the first liquid.
    pub first: String,
    /// Component enriched in the second liquid.
    pub second: String,
    /// What to do about it.
    pub remedy: String,
}

/// A malformed file or record.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{file}{}{}: {problem}; {remedy}", line_text(*.line), field_text(.field.as_deref()))]
pub struct DataError {
    /// File name, or a description of the text.
    pub file: String,
    /// Line, counted from 1, when known.
    pub line: Option<usize>,
    /// Field, when known, for example `density.at_20C`.
    pub field: Option<String>,
    /// What is wrong, with the offending value and the limit.
    pub problem: String,
    /// What to do about it.
    pub remedy: String,
}

fn line_text(line: Option<usize>) -> String {
    line.map_or_else(String::new, |n| format!(", line {n}"))
}

fn field_text(field: Option<&str>) -> String {
    field.map_or_else(String::new, |f| format!(", field `{f}`"))
}

/// Builds a [`DataError`].
pub fn bad_data(
    file: impl Into<String>,
    line: Option<usize>,
    field: Option<&str>,
    problem: impl Into<String>,
    remedy: impl Into<String>,
) -> Error {
    Error::Data(Box::new(DataError {
        file: file.into(),
        line,
        field: field.map(str::to_owned),
        problem: problem.into(),
        remedy: remedy.into(),
    }))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn near_names_are_offered_best_first() {
        let e = unknown_name("solvent", "acetne", ["acetone", "toluene", "methyl acetate"], "see the list");
        let text = e.to_string();
        assert!(text.starts_with("unknown solvent \"acetne\"; did you mean \"acetone\""), "{text}");
    }

    #[test]
    fn data_error_names_file_line_and_field() {
        let e = bad_data("my.toml", Some(7), Some("density"), "missing", "add it");
        assert_eq!(e.to_string(), "my.toml, line 7, field `density`: missing; add it");
    }
}
