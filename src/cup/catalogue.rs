//! Cups by name: the catalogue in `data/cups.toml`.

use super::standard::FlowCup;
use crate::error::{DataError, Error, Result, UnknownName, unknown_name};
use crate::names::fold;
use serde::Deserialize;
use std::collections::HashMap;
use std::sync::LazyLock;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    #[serde(default)]
    cup: Vec<FlowCup>,
}

const FILE: &str = "data/cups.toml";

static CUPS: LazyLock<Result<Vec<FlowCup>>> = LazyLock::new(|| {
    toml::from_str::<File>(include_str!("../../data/cups.toml")).map(|f| f.cup).map_err(|e| {
        Error::Data(Box::new(DataError {
            file: FILE.to_owned(),
            line: None,
            field: None,
            problem: e.message().to_owned(),
            remedy: "restore the file from the release".to_owned(),
        }))
    })
});

/// Sizes of each standard, by its folded name, with their place in the catalogue.
static INDEX: LazyLock<HashMap<String, Vec<(f64, usize)>>> = LazyLock::new(|| {
    let mut index: HashMap<String, Vec<(f64, usize)>> = HashMap::new();
    for (i, cup) in FlowCup::list().unwrap_or_default().iter().enumerate() {
        if let Some(size) = size_number(&cup.size) {
            index.entry(fold(&cup.standard)).or_default().push((size, i));
        }
    }
    index
});

/// Short names in use beside the full one.
const ALIASES: &[(&str, &str)] = &[
    ("iso", "ISO 2431"),
    ("eniso2431", "ISO 2431"),
    ("astmd5125", "ISO 2431"),
    ("d1200", "ASTM D1200"),
    ("astmd1200ford", "ASTM D1200"),
    ("ford", "ASTM D1200"),
    ("zahn", "ASTM D4212 Zahn"),
    ("d4212zahn", "ASTM D4212 Zahn"),
    ("shell", "ASTM D4212 Shell"),
    ("d4212shell", "ASTM D4212 Shell"),
    ("din", "DIN 53211"),
    ("gbt1723coat4", "GB/T 1723"),
    ("gb1723", "GB/T 1723"),
    ("tu4", "GB/T 1723"),
];

/// `"4 mm"`, `"No. 4"`, `"#4"` and `"4.0"` are the size 4; `"2½"` is 2.5.
fn size_number(text: &str) -> Option<f64> {
    let lower = text.trim().to_lowercase().replace('½', ".5");
    let bare = lower.trim_start_matches("no").trim_start_matches(['.', '#', ' ']);
    bare.trim_end_matches("mm").trim().parse().ok().filter(|n: &f64| n.is_finite())
}

impl FlowCup {
    /// All cups of the catalogue: standards first in each family, fits to published tables named as such.
    ///
    /// # Errors
    /// A [`DataError`] when the embedded file is damaged.
    pub fn list() -> Result<&'static [FlowCup]> {
        CUPS.as_ref().map(Vec::as_slice).map_err(Error::clone)
    }

    /// A cup by the name of its standard and its size.
    ///
    /// Case, spaces and hyphens do not matter, and the everyday names work too: `("Ford", "4")`,
    /// `("iso2431", "4 mm")`, `("Zahn", "#2")`.
    ///
    /// # Errors
    /// [`crate::error::UnknownName`] with the names that come near, or with the sizes there are.
    ///
    /// ```
    /// use mistcoat::cup::FlowCup;
    /// assert_eq!(FlowCup::standard("ford", "No. 4")?, FlowCup::standard("ASTM D1200", "4")?);
    /// let e = FlowCup::standard("ISO 2413", "4").unwrap_err();
    /// assert!(e.to_string().contains("ISO 2431"));
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn standard(standard: &str, size: &str) -> Result<FlowCup> {
        Self::find(standard, size).cloned()
    }

    /// The same without a copy, for code that looks cups up often.
    ///
    /// # Errors
    /// As for [`FlowCup::standard`].
    pub fn find(standard: &str, size: &str) -> Result<&'static FlowCup> {
        let cups = Self::list()?;
        let wanted = fold(standard);
        let name = ALIASES.iter().find(|(a, _)| *a == wanted).map_or(wanted, |(_, full)| fold(full));
        let Some(family) = INDEX.get(&name) else {
            let known = cups.iter().map(|c| c.standard.as_str());
            return Err(unknown_name(
                "flow cup standard",
                standard,
                known,
                "cups with an equation follow ISO 2431, ASTM D1200, ASTM D4212 Zahn, ASTM D4212 Shell, DIN 53211 or \
                 GB/T 1723",
            ));
        };
        let number = size_number(size);
        let found = family.iter().find(|(known, _)| number == Some(*known)).and_then(|(_, i)| cups.get(*i));
        found.ok_or_else(|| {
            Error::UnknownName(Box::new(UnknownName {
                kind: "flow cup size",
                name: size.to_owned(),
                near: family.iter().filter_map(|(_, i)| cups.get(*i)).map(|c| c.size.clone()).collect(),
                remedy: "these are the sizes of this standard that have an equation",
            }))
        })
    }
}
