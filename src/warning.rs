//! Advice that travels with a result: the number is usable, and here is what to mind.

use serde::{Deserialize, Serialize};

/// One warning. `code` is stable for programs, `message` is for people.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Warning {
    /// Stable name, for example `cup-time-below-range`.
    pub code: String,
    /// What was seen, the limit, and what to do.
    pub message: String,
}

impl Warning {
    /// Builds a warning.
    pub fn new(code: &str, message: impl Into<String>) -> Self {
        Self { code: code.to_owned(), message: message.into() }
    }
}

impl core::fmt::Display for Warning {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(&self.message)
    }
}
