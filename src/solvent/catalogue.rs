//! All solvents known: the ones that come with the crate, and those of the user's own files.

use super::build::{Place, build};
use super::pure::Solvent;
use super::record::Record;
use crate::error::{Error, Result, bad_data, unknown_name};
use crate::names::fold;
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::collections::HashMap;
use std::io::Read as _;
use std::ops::Range;
use std::path::Path;
use std::sync::LazyLock;

/// Largest file read. The whole built-in catalogue is a tenth of it.
const LARGEST_FILE_BYTES: u64 = 2_000_000;

macro_rules! data_files {
    ($($name:literal),+ $(,)?) => {
        &[$((concat!("data/solvents/", $name), include_str!(concat!("../../data/solvents/", $name)))),+]
    };
}

/// The catalogue by family, in the order of the table.
const FILES: &[(&str, &str)] = data_files![
    "water_and_alcohols.toml",
    "ketones.toml",
    "esters.toml",
    "glycol_ethers.toml",
    "aromatics.toml",
    "alkanes.toml",
    "terpenes.toml",
    "petroleum_cuts.toml",
    "glycols.toml",
];

static BUILTIN: LazyLock<Result<Catalogue>> = LazyLock::new(|| {
    let mut all = Catalogue::default();
    for (file, text) in FILES {
        all = all.extended(text, file)?;
    }
    Ok(all)
});

/// Solvents by name.
///
/// ```
/// use mistcoat::solvent::Catalogue;
/// let mine = Catalogue::from_toml(r#"
///     [[solvent]]
///     name = "shed thinner"
///     source = "label and safety data sheet of the can"
///     formula = "C7H14O2"
///     boiling_point = { value = "140 °C" }
///     density = { at_20C = "0.86 g/mL", per_kelvin = "-0.9 kg/m3" }
///     viscosity = { readings = [{ at = "20 °C", value = "0.8 mPa.s" }] }
///     surface_tension = { at_20C = "25 mN/m" }
///     vapour_pressure = { form = "point-and-boiling-point", point = { at = "20 °C", value = "600 Pa" } }
/// "#, "my_solvents.toml")?;
/// let all = Catalogue::builtin()?.with(&mine);
/// assert_eq!(all.find("Shed Thinner")?.name(), "shed thinner");
/// assert_eq!(all.find("IPA")?.name(), "isopropanol");
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Catalogue {
    solvents: Vec<Solvent>,
    /// Folded name, identifier and synonyms to the place in the list.
    index: HashMap<String, usize>,
}

/// The list of its solvents.
impl Serialize for Catalogue {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.solvents.serialize(serializer)
    }
}

impl<'de> Deserialize<'de> for Catalogue {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let mut all = Self::default();
        for solvent in Vec::<Solvent>::deserialize(deserializer)? {
            all.push(solvent);
        }
        Ok(all)
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    solvent: Vec<toml::Spanned<Record>>,
}

impl Catalogue {
    /// The solvents that come with the crate.
    ///
    /// # Errors
    /// A [`crate::error::DataError`] when the embedded data are damaged.
    pub fn builtin() -> Result<&'static Self> {
        BUILTIN.as_ref().map_err(Error::clone)
    }

    /// Reads solvents from text in the form of the files of `data/solvents/`; the README beside them lists the
    /// fields. `file_name` appears in messages. A cut may name solvents of the same text or built-in ones.
    ///
    /// # Errors
    /// A [`crate::error::DataError`] with file, line and field: the text is empty, too long or malformed, a
    /// unit is wrong, a value is not possible, a name stands twice.
    pub fn from_toml(text: &str, file_name: &str) -> Result<Self> {
        let builtin = Self::builtin()?;
        Self::read(text, file_name, &|name| builtin.find(name))
    }

    /// Reads a file; see [`Catalogue::from_toml`].
    ///
    /// # Errors
    /// As [`Catalogue::from_toml`], and when the file cannot be read or is larger than 2 MB.
    pub fn load(path: impl AsRef<Path>) -> Result<Self> {
        let path = path.as_ref();
        let name = path.display().to_string();
        let unreadable = |e: std::io::Error| {
            bad_data(name.clone(), None, None, format!("cannot be read: {e}"), "check path and permissions")
        };
        let mut text = Vec::new();
        let file = std::fs::File::open(path).map_err(unreadable)?;
        // One byte more than allowed tells a large file without reading all of it.
        file.take(LARGEST_FILE_BYTES + 1).read_to_end(&mut text).map_err(unreadable)?;
        let text = String::from_utf8(text).map_err(|_| {
            bad_data(name.clone(), None, None, "is not UTF-8 text", "save it as UTF-8 in a text editor")
        })?;
        Self::from_toml(&text, &name)
    }

    /// These solvents and those of `other`; where both know a name, `other` wins.
    #[must_use]
    pub fn with(&self, other: &Self) -> Self {
        let mut all = Self::default();
        let replaced = |s: &Solvent| other.index.contains_key(&fold(s.name()));
        for s in other.solvents.iter().chain(self.solvents.iter().filter(|s| !replaced(s))) {
            all.push(s.clone()); // the first to take a name keeps it
        }
        // The table shows the additions last.
        let added = other.solvents.len();
        let total = all.solvents.len();
        all.solvents.rotate_left(added);
        for place in all.index.values_mut() {
            *place = (*place + total - added) % total;
        }
        all
    }

    /// The solvent of this name, identifier or synonym; case, hyphens and spaces do not matter.
    ///
    /// # Errors
    /// [`crate::error::UnknownName`] with near names.
    pub fn find(&self, name: &str) -> Result<Solvent> {
        self.index.get(&fold(name)).map(|i| self.solvents[*i].clone()).ok_or_else(|| {
            let known = self
                .solvents
                .iter()
                .flat_map(|s| std::iter::once(s.name()).chain(s.synonyms().iter().map(String::as_str)));
            unknown_name(
                "solvent",
                name,
                known,
                "the catalogue lists all names; a file of your own adds others",
            )
        })
    }

    /// All solvents, in order.
    pub fn iter(&self) -> impl ExactSizeIterator<Item = &Solvent> {
        self.solvents.iter()
    }

    /// How many there are.
    pub fn len(&self) -> usize {
        self.solvents.len()
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.solvents.is_empty()
    }

    fn extended(self, text: &str, file: &str) -> Result<Self> {
        let new = Self::read(text, file, &|name| self.find(name))?;
        for s in new.iter() {
            if let Some(taken) = s.all_names().find(|n| self.index.contains_key(&fold(n))) {
                return Err(twice(file, None, taken));
            }
        }
        Ok(self.with(&new))
    }

    fn read(text: &str, file: &str, elsewhere: &dyn Fn(&str) -> Result<Solvent>) -> Result<Self> {
        if text.len() as u64 > LARGEST_FILE_BYTES {
            let problem = format!("is {} bytes long, allowed is {LARGEST_FILE_BYTES}", text.len());
            return Err(bad_data(file, None, None, problem, "split it, or check that it is the right file"));
        }
        if text.trim().is_empty() {
            let remedy = "a solvent file has one [[solvent]] table for each liquid";
            return Err(bad_data(file, None, None, "the file is empty", remedy));
        }
        let parsed: File = toml::from_str(text).map_err(|e| malformed(text, file, &e))?;
        // Pure liquids first, so that cuts find them.
        let (cuts, pure): (Vec<_>, Vec<_>) =
            parsed.solvent.into_iter().partition(|r| r.get_ref().surrogate.is_some());
        let mut all = Self::default();
        for record in pure.into_iter().chain(cuts) {
            let span = record.span();
            let line = |field: &str| Some(line_of(text, find_field(text, &span, field)));
            let place = Place { file, line: &line };
            let find = |name: &str| all.find(name).or_else(|_| elsewhere(name));
            let solvent = build(record.into_inner(), &place, &find)?;
            if let Some(taken) = solvent.all_names().find(|n| all.index.contains_key(&fold(n))) {
                return Err(twice(file, line("name"), taken));
            }
            all.push(solvent);
        }
        Ok(all)
    }

    fn push(&mut self, solvent: Solvent) {
        let place = self.solvents.len();
        for name in solvent.all_names() {
            self.index.entry(fold(name)).or_insert(place);
        }
        self.solvents.push(solvent);
    }
}

fn twice(file: &str, line: Option<usize>, name: &str) -> Error {
    let problem = format!("the name {name:?} is taken by another solvent");
    bad_data(file, line, Some("name"), problem, "give each solvent names of its own")
}

/// The reader's message with the line, and the field that stands on it.
fn malformed(text: &str, file: &str, error: &toml::de::Error) -> Error {
    let at = error.span().map(|s| s.start);
    let field = at.and_then(|at| {
        let start = text.get(..at)?.rfind('\n').map_or(0, |i| i + 1);
        let line = text.get(start..)?.lines().next()?;
        let key = line.split_once('=')?.0.trim();
        let plain =
            !key.is_empty() && key.chars().all(|c| c.is_alphanumeric() || matches!(c, '_' | '-' | '.'));
        plain.then(|| key.to_owned())
    });
    let message = error.message().trim_end_matches('.').to_owned();
    let remedy = "see data/solvents/ for the form; quantities are text with a unit, such as \"0.88 g/mL\"";
    bad_data(file, at.map(|at| line_of(text, at)), field.as_deref(), message, remedy)
}

fn line_of(text: &str, at: usize) -> usize {
    1 + text.bytes().take(at).filter(|b| *b == b'\n').count()
}

/// Where `field` is set inside the record, else where the record begins.
fn find_field(text: &str, span: &Range<usize>, field: &str) -> usize {
    let top = field.split('.').next().unwrap_or(field);
    let Some(body) = text.get(span.start..) else { return span.start };
    let mut at = span.start;
    for (n, line) in body.split_inclusive('\n').enumerate() {
        if n > 0 && line.trim_start().starts_with("[[") {
            break;
        }
        let trimmed = line.trim_start().trim_start_matches("[solvent.");
        let is_it =
            trimmed.strip_prefix(top).is_some_and(|rest| rest.trim_start().starts_with(['=', ']', '.']));
        if is_it {
            return at;
        }
        at += line.len();
    }
    span.start
}
