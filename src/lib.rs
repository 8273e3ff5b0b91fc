//! Finishing chemistry for the hobby bench: from a bottle of paint to a dry film, with numbers.
#![deny(missing_docs)]

pub mod answer;
pub mod error;
pub mod estimate;
pub mod names;
pub mod quantity;
pub mod source;
pub mod table;
pub mod warning;
pub mod working;

pub mod solvent;

pub mod blend;

pub mod cup;

pub mod dose;

pub mod paint;

pub mod air;

pub mod film;

pub mod bench;

pub use answer::Answer;
pub use error::{Error, Result};
pub use estimate::Estimate;
pub use warning::Warning;
pub use working::Working;

/// The snippets of the README, run as doctests.
#[cfg(doctest)]
#[doc = include_str!("../README.md")]
pub struct ReadmeSnippets;
