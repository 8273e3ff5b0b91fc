//! A small table of results: every number with its interval, printed as text or HTML.
//!
//! Columns are kept as numbers in a stated unit, so that a program reads the same table a person sees.

use crate::working::escape_html;
use serde::{Deserialize, Serialize};
use std::fmt::Write as _;

/// Characters of a column of words before its cells are broken in lines.
const WIDEST_WORDS: usize = 56;
/// Words up to this long are never broken on a page.
const SHORT: usize = 28;

/// One cell: what is shown, and the numbers behind it when there are any.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cell {
    /// Text for people.
    pub text: String,
    /// Best value in the unit of the column; none for words.
    pub value: Option<f64>,
    /// Ends of the interval; none for exact values and words.
    pub interval: Option<(f64, f64)>,
}

impl Cell {
    /// A number with its text.
    pub fn number(text: impl Into<String>, value: f64) -> Self {
        Self { text: text.into(), value: Some(value), interval: None }
    }

    /// A number with its interval.
    pub fn estimate(text: impl Into<String>, value: f64, low: f64, high: f64) -> Self {
        Self { text: text.into(), value: Some(value), interval: Some((low, high)) }
    }

    /// Words, or a dash where there is no answer.
    pub fn words(text: impl Into<String>) -> Self {
        Self { text: text.into(), value: None, interval: None }
    }
}

/// One column.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Column {
    /// Name for programs, without unit: `viscosity`.
    pub key: String,
    /// Heading for people; may hold one line break.
    pub title: String,
    /// Unit of the numbers; empty for words.
    pub unit: String,
    /// One cell a row.
    pub cells: Vec<Cell>,
}

impl Column {
    /// Name with the unit for data frames and files: `viscosity_mPa_s`, `volume_solids_percent`.
    ///
    /// ```
    /// let c = mistcoat::table::Column {
    ///     key: "voc".into(), title: "VOC".into(), unit: "g/L".into(), cells: vec![] };
    /// assert_eq!(c.name_with_unit(), "voc_g_L");
    /// ```
    pub fn name_with_unit(&self) -> String {
        let unit: String = match self.unit.as_str() {
            "" | "1" => return self.key.clone(),
            "%" => "percent".to_owned(),
            "°C" => "degC".to_owned(),
            unit => unit.chars().map(|c| if c == 'µ' { 'u' } else { c }).collect(),
        };
        format!("{}_{}", self.key, unit.replace(|c: char| !c.is_ascii_alphanumeric(), "_"))
    }

    /// Whether the cells are numbers; a column of words has no unit.
    pub fn is_numeric(&self) -> bool {
        !self.unit.is_empty()
    }

    /// What stands in a row; nothing beyond the end.
    fn text(&self, row: usize) -> &str {
        self.cells.get(row).map_or("", |cell| cell.text.as_str())
    }

    /// The lines that stand in a row; long words are broken.
    fn lines(&self, row: usize) -> Vec<String> {
        if self.is_numeric() { vec![self.text(row).to_owned()] } else { wrap(self.text(row), WIDEST_WORDS) }
    }

    /// Whether any cell has an interval.
    pub fn has_intervals(&self) -> bool {
        self.cells.iter().any(|c| c.interval.is_some())
    }
}

/// A titled table with notes under it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Table {
    /// What was compared, under which conditions.
    pub caption: String,
    /// The columns; a shorter one ends in empty cells.
    pub columns: Vec<Column>,
    /// What to mind when reading it.
    pub notes: Vec<String>,
}

impl Table {
    /// Number of rows, that of the longest column.
    pub fn rows(&self) -> usize {
        self.columns.iter().map(|c| c.cells.len()).max().unwrap_or(0)
    }

    /// Plain text for a terminal; numbers line up on the right, words on the left, long ones broken in lines.
    pub fn to_text(&self) -> String {
        let mut out = String::new();
        for line in wrap(&self.caption, 100) {
            let _ = writeln!(out, "{line}");
        }
        out.push('\n');
        let titles: Vec<Vec<String>> =
            self.columns.iter().map(|c| c.title.split('\n').map(str::to_owned).collect()).collect();
        let rows: Vec<Vec<Vec<String>>> =
            (0..self.rows()).map(|row| self.columns.iter().map(|c| c.lines(row)).collect()).collect();
        let widths: Vec<usize> = (0..self.columns.len())
            .map(|i| {
                let cells = core::iter::once(&titles).chain(&rows).flat_map(|row| &row[i]);
                cells.map(|line| line.chars().count()).max().unwrap_or(0)
            })
            .collect();
        let left: Vec<bool> = self.columns.iter().map(|c| !c.is_numeric()).collect();
        push_row(&mut out, &titles, &widths, &left);
        let rule: Vec<Vec<String>> = widths.iter().map(|w| vec!["-".repeat(*w)]).collect();
        push_row(&mut out, &rule, &widths, &left);
        for row in &rows {
            push_row(&mut out, row, &widths, &left);
        }
        if !self.notes.is_empty() {
            out.push('\n');
        }
        for note in &self.notes {
            for (i, line) in wrap(note, 96).iter().enumerate() {
                let _ = writeln!(out, "{} {line}", if i == 0 { "  *" } else { "   " });
            }
        }
        out
    }

    /// An HTML fragment; its few styles are inline, so that it prints the same in a notebook and on a page.
    pub fn to_html(&self) -> String {
        const NUMBER: &str = "padding:.3em .8em;text-align:right;white-space:nowrap";
        const SHORT_WORDS: &str = "padding:.3em .8em;text-align:left;white-space:nowrap";
        const WORDS: &str = "padding:.3em .8em;text-align:left;max-width:30em";
        let style = |c: &Column| match c.cells.iter().map(|cell| cell.text.chars().count()).max() {
            _ if c.is_numeric() => NUMBER,
            Some(longest) if longest > SHORT => WORDS,
            _ => SHORT_WORDS,
        };
        let mut out = String::from("<table class=\"mistcoat-table\" style=\"border-collapse:collapse\">");
        let _ = write!(
            out,
            "<caption style=\"text-align:left;padding:.3em 0\"><b>{}</b></caption><thead><tr>",
            escape_html(&self.caption)
        );
        for c in &self.columns {
            let title = escape_html(&c.title).replace('\n', "<br>");
            let _ = write!(out, "<th style=\"{};border-bottom:1.5px solid\">{title}</th>", style(c));
        }
        out.push_str("</tr></thead><tbody>");
        for row in 0..self.rows() {
            out.push_str("<tr>");
            for c in &self.columns {
                let text = escape_html(c.text(row));
                let _ = write!(out, "<td style=\"{};border-bottom:.5px solid #999\">{text}</td>", style(c));
            }
            out.push_str("</tr>");
        }
        out.push_str("</tbody></table>");
        if !self.notes.is_empty() {
            out.push_str("<ul>");
            for note in &self.notes {
                let _ = write!(out, "<li><small>{}</small></li>", escape_html(note));
            }
            out.push_str("</ul>");
        }
        out
    }
}

/// One row of cells, each of one or more lines.
fn push_row(out: &mut String, cells: &[Vec<String>], widths: &[usize], left: &[bool]) {
    for i in 0..cells.iter().map(Vec::len).max().unwrap_or(0) {
        let mut line = String::new();
        for ((cell, &width), left) in cells.iter().zip(widths).zip(left) {
            let text = cell.get(i).map_or("", String::as_str);
            let pad = " ".repeat(width.saturating_sub(text.chars().count()));
            let _ = if *left { write!(line, "{text}{pad}  ") } else { write!(line, "{pad}{text}  ") };
        }
        out.push_str(line.trim_end());
        out.push('\n');
    }
}

/// Breaks text into lines of at most `width` characters at spaces.
fn wrap(text: &str, width: usize) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in text.split_whitespace() {
        let last = lines.len() - 1;
        let taken = lines[last].chars().count();
        if taken > 0 && taken + 1 + word.chars().count() > width {
            lines.push(word.to_owned());
        } else {
            if taken > 0 {
                lines[last].push(' ');
            }
            lines[last].push_str(word);
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    fn table() -> Table {
        Table {
            caption: "Red <oxide>".into(),
            columns: vec![
                Column {
                    key: "ratio".into(),
                    title: "thinner\nto 1 paint".into(),
                    unit: "1".into(),
                    cells: vec![Cell::number("0.5", 0.5), Cell::number("2", 2.0)],
                },
                Column {
                    key: "word".into(),
                    title: "verdict".into(),
                    unit: String::new(),
                    cells: vec![Cell::words("thick"), Cell::words("–")],
                },
            ],
            notes: vec!["mind the gap".into()],
        }
    }

    #[test]
    fn columns_line_up() {
        let text = table().to_text();
        let lines: Vec<&str> = text.lines().collect();
        assert_eq!(lines[2], "   thinner  verdict");
        let mut long = table();
        long.columns[1].cells[0] = Cell::words("word ".repeat(20));
        assert!(long.to_text().lines().all(|line| line.chars().count() < 75));
        assert_eq!(lines[3], "to 1 paint");
        assert_eq!(lines[5], "       0.5  thick");
        assert!(text.contains("* mind the gap"));
    }

    #[test]
    fn a_short_column_ends_in_empty_cells() {
        let mut t = table();
        t.columns[1].cells.pop();
        assert_eq!(t.rows(), 2);
        assert!(t.to_text().lines().any(|l| l.trim() == "2") && t.to_html().contains("></td>"));
    }

    #[test]
    fn html_is_escaped() {
        let html = table().to_html();
        assert!(html.contains("Red &lt;oxide&gt;") && html.contains("thinner<br>to 1 paint"));
    }
}
