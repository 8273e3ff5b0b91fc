//! Where a number comes from. Every constant names a source key; every key resolves to a citation here.
//!
//! ```
//! let s = mistcoat::source::find("ISO2431")?;
//! assert!(s.citation.contains("ISO 2431"));
//! assert_eq!(s.provenance, mistcoat::source::Provenance::Published);
//! # Ok::<(), mistcoat::Error>(())
//! ```

use crate::error::{Error, Result, bad_data, unknown_name};
use serde::{Deserialize, Serialize};
use std::sync::LazyLock;

/// How far a number can be trusted, by where it was seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Provenance {
    /// Seen in a published source.
    Published,
    /// Computed from a stated equation and published inputs.
    Computed,
    /// A habit of the trade, not a measured value.
    CommonPractice,
    /// Stated from memory; check before relying on it.
    FromMemory,
}

impl Provenance {
    /// The words shown to a reader.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Published => "published",
            Self::Computed => "computed",
            Self::CommonPractice => "common practice",
            Self::FromMemory => "from memory",
        }
    }
}

impl core::fmt::Display for Provenance {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(self.words())
    }
}

/// A key and what it stands for.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Source {
    /// Short key used beside values, for example `ISO2431`.
    pub key: String,
    /// Full citation.
    pub citation: String,
    /// How far to trust it.
    pub provenance: Provenance,
}

impl core::fmt::Display for Source {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{} ({})", self.citation, self.provenance)
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    #[serde(default)]
    source: Vec<Source>,
}

macro_rules! source_files {
    ($($name:literal),+ $(,)?) => {
        &[$((concat!("data/sources/", $name), include_str!(concat!("../data/sources/", $name)))),+]
    };
}

/// One file a concern, named after the module that cites it most.
const FILES: &[(&str, &str)] = source_files![
    "general.toml",
    "solvent.toml",
    "blend.toml",
    "cup.toml",
    "dose.toml",
    "paint.toml",
    "film.toml",
    "lay.toml",
    "bench.toml",
    "layers.toml",
    "safety.toml",
    "spray.toml",
    "hiding.toml",
    "rinse.toml",
];

static SOURCES: LazyLock<Result<Vec<Source>>> = LazyLock::new(|| {
    let mut all = Vec::new();
    for (name, text) in FILES {
        let file: File = toml::from_str(text)
            .map_err(|e| bad_data(*name, None, None, e.message(), "restore the file from the release"))?;
        all.extend(file.source);
    }
    Ok(all)
});

/// All sources, in the order of the data file.
///
/// # Errors
/// A [`crate::error::DataError`] when the embedded file is damaged.
pub fn all() -> Result<&'static [Source]> {
    SOURCES.as_ref().map(Vec::as_slice).map_err(Error::clone)
}

/// The source behind a key.
///
/// # Errors
/// [`crate::error::UnknownName`] with near keys.
pub fn find(key: &str) -> Result<&'static Source> {
    let sources = all()?;
    sources.iter().find(|s| s.key == key).ok_or_else(|| {
        unknown_name(
            "source key",
            key,
            sources.iter().map(|s| s.key.as_str()),
            "source::all() lists the keys; a user file may write a citation in place of a key",
        )
    })
}

/// The citation behind a key, or the text itself when it is not a key: a user file may cite in full.
pub fn cite(key_or_text: &str) -> String {
    find(key_or_text).map_or_else(|_| key_or_text.to_owned(), Source::to_string)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_are_unique_and_citations_say_something() {
        let mut seen = std::collections::HashSet::new();
        for s in all().unwrap() {
            assert!(seen.insert(&s.key), "{} stands twice", s.key);
            assert!(s.citation.len() > 15, "{}: {:?} cites nothing", s.key, s.citation);
        }
    }

    #[test]
    fn unknown_key_offers_a_near_one() {
        assert!(find("ISO2413").unwrap_err().to_string().contains("ISO2431"));
    }
}
