//! the questions of the bench, answered in one call.
