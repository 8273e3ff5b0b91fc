//! The published UNIFAC tables: group sizes and group interaction parameters, read from `data/unifac/`.

use super::Table;
use crate::error::{Error, Result, bad_data, unknown_name};
use serde::{Deserialize, de::DeserializeOwned};
use std::collections::HashMap;
use std::sync::LazyLock;

const GROUPS: (&str, &str) = ("data/unifac/groups.csv", include_str!("../../../data/unifac/groups.csv"));
const INTERACTIONS: (&str, &str) =
    ("data/unifac/interactions.csv", include_str!("../../../data/unifac/interactions.csv"));

/// Size of one subgroup and the main group it interacts as.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Subgroup {
    /// Table it belongs to.
    pub table: Table,
    /// Main group; interactions are tabulated between main groups.
    pub main_group: String,
    /// Name of the subgroup, for example `CH3COO`.
    pub subgroup: String,
    /// Relative van der Waals volume.
    pub r: f64,
    /// Relative van der Waals surface.
    pub q: f64,
    /// Source key.
    pub source: String,
}

/// `psi = exp(-(a/T + b + c T))` of one ordered pair of main groups, T in kelvin.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Interaction {
    /// In kelvin.
    pub a_k: f64,
    /// Plain number; zero in the original table.
    pub b: f64,
    /// Per kelvin; zero in the original table.
    pub c_per_k: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(non_snake_case, reason = "column names of the data file, with the unit as it is written")]
struct PairRow {
    table: Table,
    group_i: String,
    group_j: String,
    a_ij_K: f64,
    b_ij: f64,
    c_ij_per_K: f64,
    a_ji_K: f64,
    b_ji: f64,
    c_ji_per_K: f64,
    #[allow(dead_code, reason = "read so that a row without a source is refused")]
    source: String,
}

struct Tables {
    subgroups: HashMap<(Table, String), Subgroup>,
    interactions: HashMap<(Table, String, String), Interaction>,
}

static TABLES: LazyLock<Result<Tables>> = LazyLock::new(read);

fn rows<T: DeserializeOwned>((file, text): (&str, &str)) -> Result<Vec<T>> {
    csv::Reader::from_reader(text.as_bytes())
        .deserialize()
        .enumerate()
        .map(|(n, row)| {
            row.map_err(|e| {
                bad_data(file, Some(n + 2), None, e.to_string(), "restore the file from the release")
            })
        })
        .collect()
}

fn read() -> Result<Tables> {
    let subgroups =
        rows::<Subgroup>(GROUPS)?.into_iter().map(|row| ((row.table, row.subgroup.clone()), row)).collect();
    let mut interactions = HashMap::new();
    for row in rows::<PairRow>(INTERACTIONS)? {
        let forth = Interaction { a_k: row.a_ij_K, b: row.b_ij, c_per_k: row.c_ij_per_K };
        let back = Interaction { a_k: row.a_ji_K, b: row.b_ji, c_per_k: row.c_ji_per_K };
        interactions.insert((row.table, row.group_i.clone(), row.group_j.clone()), forth);
        interactions.insert((row.table, row.group_j, row.group_i), back);
    }
    Ok(Tables { subgroups, interactions })
}

fn tables() -> Result<&'static Tables> {
    TABLES.as_ref().map_err(Error::clone)
}

/// Looks up a subgroup by its name.
///
/// # Errors
/// [`crate::error::UnknownName`] with near names of the same table.
pub fn subgroup(table: Table, name: &str) -> Result<&'static Subgroup> {
    let all = &tables()?.subgroups;
    all.get(&(table, name.to_owned())).ok_or_else(|| {
        unknown_name(
            "UNIFAC subgroup",
            name,
            all.keys().filter(|(t, _)| *t == table).map(|(_, n)| n.as_str()),
            "use a subgroup of data/unifac/groups.csv, spelled exactly",
        )
    })
}

/// Parameters of main group `i` with main group `j`: zero for a group with itself, `None` where no value
/// is published.
///
/// # Errors
/// A [`crate::error::DataError`] when the embedded tables are damaged.
pub fn interaction(table: Table, i: &str, j: &str) -> Result<Option<Interaction>> {
    if i == j {
        return Ok(Some(Interaction::default()));
    }
    Ok(tables()?.interactions.get(&(table, i.to_owned(), j.to_owned())).copied())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_has_a_known_source_and_every_pair_known_groups() {
        let t = tables().unwrap();
        assert_eq!(t.subgroups.len(), rows::<Subgroup>(GROUPS).unwrap().len(), "a subgroup stands twice");
        for row in t.subgroups.values() {
            crate::source::find(&row.source).unwrap();
            assert!(row.r > 0.0 && row.q >= 0.0, "{row:?}");
        }
        for row in rows::<PairRow>(INTERACTIONS).unwrap() {
            crate::source::find(&row.source).unwrap();
            for g in [&row.group_i, &row.group_j] {
                assert!(
                    t.subgroups.values().any(|s| s.table == row.table && s.main_group == *g),
                    "{:?} {g}",
                    row.table
                );
            }
        }
    }

    #[test]
    fn misspelt_subgroup_offers_the_right_one() {
        let e = subgroup(Table::Original, "CH3C0O").unwrap_err().to_string();
        assert!(e.contains("CH3COO"), "{e}");
    }
}
