//! Records as JSON text: the same text the Rust crate reads, and what pickling stores.

use crate::errors::{CallResult, DataError};
use pyo3::{PyClass, prelude::*};
use serde::{Serialize, de::DeserializeOwned};

#[cold]
fn bad(e: &serde_json::Error) -> PyErr {
    let problem = e.to_string();
    let remedy = "compare with what to_json() writes";
    let line = (e.line() > 0).then(|| e.line());
    DataError::new_err((
        format!("JSON text: {problem}; {remedy}"),
        "JSON text",
        line,
        None::<String>,
        problem,
        remedy,
    ))
}

/// Writes a record.
pub fn dump<T: Serialize>(value: &T) -> CallResult<String> {
    serde_json::to_string(value).map_err(|e| bad(&e).into())
}

/// Reads a record.
pub fn load<T: DeserializeOwned>(text: &str) -> CallResult<T> {
    serde_json::from_str(text).map_err(|e| bad(&e).into())
}

/// What `__reduce__` returns: the static method `reader` of the class, and the JSON text it takes.
pub fn reduce<'py, C: PyClass, T: Serialize>(
    slf: &Bound<'py, C>,
    reader: &str,
    value: &T,
) -> CallResult<(Bound<'py, PyAny>, (String,))> {
    Ok((slf.as_any().get_type().getattr(reader)?, (dump(value)?,)))
}
