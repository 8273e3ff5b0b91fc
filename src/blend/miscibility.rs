//! Pairs of solvents whose miscibility is known by measurement, read from `data/miscibility.csv`.

use crate::error::{Error, Result, bad_data};
use crate::names::fold;
use crate::solvent::Solvent;
use serde::Deserialize;
use std::sync::LazyLock;

const FILE: (&str, &str) = ("data/miscibility.csv", include_str!("../../data/miscibility.csv"));

#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Relation {
    Full,
    Limited,
}

#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(non_snake_case, reason = "column names of the data file, with the unit as it is written")]
struct Row {
    first: String,
    second: String,
    relation: Relation,
    from_C: f64,
    to_C: f64,
    first_in_second_mass_percent: Option<f64>,
    second_in_first_mass_percent: Option<f64>,
    source: String,
}

/// What is known of a pair.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Known {
    /// One liquid in all proportions.
    Full {
        /// Source key.
        source: &'static str,
    },
    /// Two liquids between these limits.
    Limited {
        /// Mass fraction of the solvent asked for first at which the other is just saturated with it.
        least: f64,
        /// Mass fraction of the first at which it is itself just saturated with the other.
        most: f64,
        /// Source key.
        source: &'static str,
    },
}

static PAIRS: LazyLock<Result<Vec<Row>>> = LazyLock::new(|| {
    let (file, text) = FILE;
    csv::Reader::from_reader(text.as_bytes())
        .deserialize()
        .enumerate()
        .map(|(n, row)| {
            row.map_err(|e| {
                bad_data(file, Some(n + 2), None, e.to_string(), "restore the file from the release")
            })
        })
        .collect()
});

fn pairs() -> Result<&'static [Row]> {
    PAIRS.as_ref().map(Vec::as_slice).map_err(Error::clone)
}

/// What is known of this pair at this temperature; None where nothing is.
pub(super) fn known(first: &Solvent, second: &Solvent, t_k: f64) -> Option<Known> {
    let (a, b) = (fold(first.name()), fold(second.name()));
    let celsius = t_k - 273.15;
    pairs().ok()?.iter().find_map(|row| {
        let (x, y) = (fold(&row.first), fold(&row.second));
        let swapped = (x == b) && (y == a);
        // Reading a temperature from text moves its last digit.
        if !(swapped || (x == a && y == b)) || !(row.from_C - 1e-6..=row.to_C + 1e-6).contains(&celsius) {
            return None;
        }
        let source = row.source.as_str();
        match row.relation {
            Relation::Full => Some(Known::Full { source }),
            Relation::Limited => {
                let in_second = row.first_in_second_mass_percent? / 100.0;
                let in_first = row.second_in_first_mass_percent? / 100.0;
                let (least, most) =
                    if swapped { (in_first, 1.0 - in_second) } else { (in_second, 1.0 - in_first) };
                Some(Known::Limited { least, most, source })
            }
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_pair_is_in_the_catalogue_and_makes_sense() {
        for row in pairs().unwrap() {
            let (a, b) =
                (crate::solvent::find(&row.first).unwrap(), crate::solvent::find(&row.second).unwrap());
            crate::source::find(&row.source).unwrap();
            let t_k = 0.5 * (row.from_C + row.to_C) + 273.15;
            match (known(&a, &b, t_k), known(&b, &a, t_k)) {
                (Some(Known::Full { .. }), Some(Known::Full { .. })) => {}
                (
                    Some(Known::Limited { least, most, .. }),
                    Some(Known::Limited { least: other_least, most: other_most, .. }),
                ) => {
                    assert!(0.0 < least && least < most && most < 1.0, "{row:?}");
                    approx::assert_relative_eq!(least, 1.0 - other_most, epsilon = 1e-12);
                    approx::assert_relative_eq!(most, 1.0 - other_least, epsilon = 1e-12);
                }
                other => panic!("{row:?} reads as {other:?}"),
            }
        }
    }
}
