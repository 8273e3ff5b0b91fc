//! The catalogue of pure solvents against published values, open libraries and nature's own limits.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "helpers of tests, which clippy takes for production code"
)]

mod evaporation;
mod files;
mod plausible;
mod references;
mod sources;
mod vapour;

use mistcoat::quantity::{Quantity, Temperature, parse};

/// A temperature as it would be typed.
fn t(text: &str) -> Temperature {
    parse(text).expect("a temperature")
}

/// Rows of a file of tests/data, by column name.
fn rows(file: &str) -> Vec<std::collections::HashMap<String, String>> {
    let path = format!("{}/tests/data/{file}", env!("CARGO_MANIFEST_DIR"));
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_path(path).expect("the file");
    reader.deserialize().collect::<Result<_, _>>().expect("its rows")
}

fn number(row: &std::collections::HashMap<String, String>, column: &str) -> f64 {
    row[column].parse().unwrap_or_else(|_| panic!("{column} of {row:?}"))
}

/// Middle value; of an even count, the mean of the two in the middle.
fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    let n = values.len();
    0.5 * (values[(n - 1) / 2] + values[n / 2])
}

fn si<Q: Quantity>(q: Q) -> f64 {
    q.si()
}
