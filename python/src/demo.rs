//! The invented paints of the demonstration.

use crate::errors::CallResult;
use crate::paint::PyPaint;
use mistcoat::error::unknown_name;
use mistcoat::paint::Paint;
use pyo3::prelude::*;

/// Paint files of the Saltmarsh Lane club; invented, as each says in its first line.
const PAINTS: [(&str, &str, &str); 3] = [
    ("hull green", "hull_green.toml", include_str!("../../data/demo/hull_green.toml")),
    ("red oxide", "red_oxide.toml", include_str!("../../data/demo/red_oxide.toml")),
    ("cream", "cream.toml", include_str!("../../data/demo/cream.toml")),
];

/// An invented paint of the Saltmarsh Lane club: "hull green", "red oxide" or "cream".
#[pyfunction]
pub fn demo_paint(name: &str) -> CallResult<PyPaint> {
    let wanted = mistcoat::names::fold(name);
    let found = PAINTS.iter().find(|(known, _, _)| mistcoat::names::fold(known) == wanted);
    let (_, file, text) = found.ok_or_else(|| {
        let known = PAINTS.iter().map(|(known, _, _)| *known);
        unknown_name("demo paint", name, known, "the demo has hull green, red oxide and cream")
    })?;
    Ok(PyPaint(Paint::from_toml(text, file)?))
}
