//! Rows of published cases, each computed by the test of its subject.

use serde::Deserialize;

#[derive(Debug, Deserialize)]
#[allow(dead_code, reason = "each user reads its own columns")]
pub struct Row {
    pub case: String,
    pub conditions: String,
    pub published: f64,
    pub unit: String,
    pub tolerance_percent: f64,
    pub source: String,
    pub provenance: String,
}

/// All rows of a file of `tests/data/`.
pub fn rows(file: &str) -> Vec<Row> {
    let path = format!("{}/tests/data/{file}", env!("CARGO_MANIFEST_DIR"));
    csv::Reader::from_path(path).unwrap().deserialize().map(Result::unwrap).collect()
}
