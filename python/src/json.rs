//! Records as JSON text: the same text the Rust crate reads, and what pickling stores.
//!
//! A class whose field `.0` is the record writes one line after its methods: [`pickles!`], or [`travels!`] where users may
//! store the text themselves. A class that keeps something else writes the methods out with [`dump`], [`load`] and
//! [`reduce`].

use crate::errors::{CallResult, DataError};
use pyo3::{PyClass, prelude::*, types::PyString};
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

/// What `__reduce__` returns: a static method of the class, and the JSON text it takes.
pub type Reduced<'py> = (Bound<'py, PyAny>, (String,));

/// The static method `reader` of the class with the text of the record.
pub fn reduce<'py, C: PyClass, T: Serialize>(
    slf: &Bound<'py, C>,
    reader: &str,
    value: &T,
) -> CallResult<Reduced<'py>> {
    Ok((slf.as_any().get_type().getattr(reader)?, (dump(value)?,)))
}

/// An expression that gives the record back: the name of the class, and `from_json` of the text.
pub fn evaluates<C: PyClass, T: Serialize>(slf: &Bound<'_, C>, value: &T) -> CallResult<String> {
    let text = PyString::new(slf.py(), &dump(value)?);
    Ok(format!("{}.from_json({})", slf.as_any().get_type().name()?, text.repr()?))
}

/// `pickles!(PyChange)`: the class pickles and copies.
macro_rules! pickles {
    ($class:ident) => {
        #[pyo3::pymethods]
        impl $class {
            #[staticmethod]
            fn _from_json(text: &str) -> $crate::errors::CallResult<Self> {
                Ok(Self($crate::json::load(text)?))
            }
            fn __reduce__<'py>(
                slf: &pyo3::Bound<'py, Self>,
            ) -> $crate::errors::CallResult<$crate::json::Reduced<'py>> {
                $crate::json::reduce(slf, "_from_json", &slf.get().0)
            }
        }
    };
}
pub(crate) use pickles;

/// `travels!(PyRoom, "The room", evaluates)`: `to_json`, `from_json`, pickling, and a `__repr__` that evaluates where so asked.
/// `note = "..."` says more of the text.
macro_rules! travels {
    ($class:ident, $what:literal $(, note = $note:literal)?) => {
        $crate::json::travels!(@ $class, $what, concat!($($note)?), {});
    };
    ($class:ident, $what:literal, evaluates $(, note = $note:literal)?) => {
        $crate::json::travels!(@ $class, $what, concat!($($note)?), {
            fn __repr__(slf: &pyo3::Bound<'_, Self>) -> $crate::errors::CallResult<String> {
                $crate::json::evaluates(slf, &slf.get().0)
            }
        });
    };
    (@ $class:ident, $what:literal, $note:expr, { $($repr:item)? }) => {
        #[pyo3::pymethods]
        impl $class {
            #[doc = concat!($what, " as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.")]
            #[doc = $note]
            fn to_json(&self) -> $crate::errors::CallResult<String> {
                $crate::json::dump(&self.0)
            }
            #[doc = concat!(
                $what, " from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong."
            )]
            #[staticmethod]
            fn from_json(text: &str) -> $crate::errors::CallResult<Self> {
                Ok(Self($crate::json::load(text)?))
            }
            fn __reduce__<'py>(
                slf: &pyo3::Bound<'py, Self>,
            ) -> $crate::errors::CallResult<$crate::json::Reduced<'py>> {
                $crate::json::reduce(slf, "from_json", &slf.get().0)
            }
            $($repr)?
        }
    };
}
pub(crate) use travels;
