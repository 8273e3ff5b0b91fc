//! What a question gets back: the estimate, the advice that goes with it, and the working.

use crate::estimate::Estimate;
use crate::quantity::Quantity;
use crate::warning::Warning;
use crate::working::Working;
use serde::{Deserialize, Serialize};

/// An [`Estimate`] with its warnings and its working.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(bound = "Q: Quantity", deny_unknown_fields)]
pub struct Answer<Q> {
    /// Best value, interval and what the spread comes from.
    pub estimate: Estimate<Q>,
    /// Usable, but mind this; empty when there is nothing to mind.
    pub warnings: Vec<Warning>,
    /// The steps, with numbers and sources.
    pub working: Working,
}

impl<Q: Quantity> Answer<Q> {
    /// Builds an answer without warnings.
    pub fn new(estimate: Estimate<Q>, working: Working) -> Self {
        Self { estimate, warnings: Vec::new(), working }
    }

    /// The same answer with these warnings added.
    #[must_use]
    pub fn with_warnings(mut self, warnings: impl IntoIterator<Item = Warning>) -> Self {
        self.warnings.extend(warnings);
        self
    }

    /// The best single value.
    pub fn best(&self) -> Q {
        self.estimate.best
    }
}

impl<Q: Quantity> core::fmt::Display for Answer<Q> {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        self.estimate.fmt(f)
    }
}
