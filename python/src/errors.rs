//! Core errors become Python exceptions here and nowhere else.
//!
//! A newtype, because neither `mistcoat::Error` nor `PyErr` belongs to this crate.

use mistcoat::Error;
use pyo3::{PyErr, import_exception};

import_exception!(mistcoat.errors, Interrupted);
import_exception!(mistcoat.errors, MistcoatWarning);
import_exception!(mistcoat.errors, UnitError);
import_exception!(mistcoat.errors, RangeError);
import_exception!(mistcoat.errors, UnknownName);
import_exception!(mistcoat.errors, PhaseSplit);
import_exception!(mistcoat.errors, DataError);

/// What every binding function returns on failure.
pub struct CallError(PyErr);
/// Result of a binding function.
pub type CallResult<T> = Result<T, CallError>;

impl From<Error> for CallError {
    #[cold]
    fn from(error: Error) -> Self {
        let message = error.to_string();
        Self(match error {
            Error::Unit(_) => UnitError::new_err(message),
            Error::Range(e) => RangeError::new_err((message, e.what, e.value, e.limit, e.remedy)),
            Error::UnknownName(e) => UnknownName::new_err((message, e.name, e.near)),
            Error::PhaseSplit(e) => {
                PhaseSplit::new_err((message, e.blend, e.temperature, e.first, e.second, e.remedy))
            }
            Error::Data(e) => DataError::new_err((message, e.file, e.line, e.field, e.problem, e.remedy)),
        })
    }
}

impl From<PyErr> for CallError {
    fn from(e: PyErr) -> Self {
        Self(e)
    }
}

impl From<CallError> for PyErr {
    fn from(e: CallError) -> Self {
        e.0
    }
}
