//! What colours usually do, and what tools usually lose: `data/hiding.toml`.

use crate::error::{Error, Result, bad_data, unknown_name};
use crate::estimate::{COVERAGE, Contributor, Estimate};
use crate::names::fold;
use crate::quantity::as_text::Text;
use crate::quantity::{OpticalCoefficient, Quantity, Ratio};
use serde::Deserialize;
use std::sync::LazyLock;

const FILE: &str = "data/hiding.toml";
/// Source key of every colour class.
pub(super) const SOURCE: &str = "hiding-typical";

/// A class of colours with usual values of its dry film. Judgement; the range is meant to hold most bottles.
#[derive(Debug, Clone, PartialEq)]
pub struct ColourClass {
    /// Name of the class.
    pub name: String,
    /// Other names.
    pub also: Vec<String>,
    /// Scattering coefficient of the dry film, for the light the eye weighs.
    pub scattering: Estimate<OpticalCoefficient>,
    /// Luminous reflectance of a film that hides, without its surface.
    pub reflectivity: Estimate<Ratio>,
    /// Why it hides poorly and what helps; none when it hides well.
    pub hides_poorly: Option<String>,
    /// Source key.
    pub source: String,
}

/// Share of paint that a tool usually loses.
#[derive(Debug, Clone, PartialEq)]
pub struct Loss {
    /// The tool.
    pub tool: String,
    /// Share that does not end on the part.
    pub share: Estimate<Ratio>,
    /// What it rests on.
    pub note: String,
    /// Source key.
    pub source: String,
}

#[derive(Deserialize)]
#[serde(bound = "Q: Quantity", deny_unknown_fields)]
struct Range<Q> {
    low: Text<Q>,
    best: Text<Q>,
    high: Text<Q>,
}

impl<Q: Quantity> Range<Q> {
    fn estimate(self, what: String) -> Result<Estimate<Q>> {
        let (low, best, high) = (self.low.0, self.best.0, self.high.0);
        if low <= best && best <= high {
            let contributors = vec![Contributor { what, share: 1.0 }];
            return Ok(Estimate { best, low, high, coverage: COVERAGE, contributors });
        }
        Err(damaged(format!("{what}: the range does not rise")))
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    colour: Vec<ColourRow>,
    loss: Vec<LossRow>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ColourRow {
    name: String,
    also: Vec<String>,
    scattering: Range<OpticalCoefficient>,
    reflectivity: Range<Ratio>,
    hides_poorly: Option<String>,
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct LossRow {
    tool: String,
    share: Range<Ratio>,
    note: String,
    source: String,
}

struct Table {
    colours: Vec<ColourClass>,
    losses: Vec<Loss>,
}

static TABLE: LazyLock<Result<Table>> = LazyLock::new(|| read(include_str!("../../data/hiding.toml")));

fn damaged(problem: String) -> Error {
    bad_data(FILE, None, None, problem, "restore the file from the release")
}

fn read(text: &str) -> Result<Table> {
    let file: File = toml::from_str(text).map_err(|e| damaged(e.message().to_owned()))?;
    let mut colours = Vec::with_capacity(file.colour.len());
    for row in file.colour {
        colours.push(ColourClass {
            scattering: row.scattering.estimate(format!("typical scattering of {}", row.name))?,
            reflectivity: row.reflectivity.estimate(format!("typical reflectivity of {}", row.name))?,
            name: row.name,
            also: row.also,
            hides_poorly: row.hides_poorly,
            source: row.source,
        });
    }
    let mut losses = Vec::with_capacity(file.loss.len());
    for row in file.loss {
        let share = row.share.estimate(format!("typical loss of {}", row.tool))?;
        losses.push(Loss { tool: row.tool, share, note: row.note, source: row.source });
    }
    Ok(Table { colours, losses })
}

fn table() -> Result<&'static Table> {
    TABLE.as_ref().map_err(Error::clone)
}

impl ColourClass {
    /// All classes.
    ///
    /// # Errors
    /// A [`crate::error::DataError`] when the embedded file is damaged.
    pub fn list() -> Result<&'static [Self]> {
        Ok(&table()?.colours)
    }

    /// Finds a class by name; case and hyphens do not matter.
    ///
    /// # Errors
    /// [`crate::error::UnknownName`] with near names.
    ///
    /// ```
    /// use mistcoat::hiding::ColourClass;
    /// assert_eq!(ColourClass::find("Red-Oxide")?.name, "red oxide");
    /// assert!(ColourClass::find("creme").unwrap_err().to_string().contains("cream"));
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn find(name: &str) -> Result<&'static Self> {
        let wanted = fold(name);
        let all = Self::list()?;
        let hit = |c: &&Self| fold(&c.name) == wanted || c.also.iter().any(|a| fold(a) == wanted);
        all.iter().find(hit).ok_or_else(|| {
            let known =
                all.iter().flat_map(|c| core::iter::once(c.name.as_str()).chain(c.also.iter().map(String::as_str)));
            unknown_name(
                "colour class",
                name,
                known,
                "take the nearest in lightness: white, cream, yellow, ochre, grey, bright red, red oxide, brown, deep \
                 green, blue or black",
            )
        })
    }
}

/// Share of paint that a tool usually loses.
///
/// # Errors
/// [`crate::error::UnknownName`] with near names.
///
/// ```
/// let loss = mistcoat::hiding::typical_loss("airbrush")?;
/// println!("{} ({})", loss.share, loss.note);
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn typical_loss(tool: &str) -> Result<&'static Loss> {
    let losses = &table()?.losses;
    losses.iter().find(|l| fold(&l.tool) == fold(tool)).ok_or_else(|| {
        let known = losses.iter().map(|l| l.tool.as_str());
        unknown_name("tool", tool, known, "the tools are: airbrush, spray gun, brush, roller")
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_class_is_usable_and_named_once() {
        let mut names = std::collections::HashSet::new();
        for c in ColourClass::list().unwrap() {
            assert!(c.scattering.low.si() > 0.0 && c.scattering.low < c.scattering.high, "{}", c.name);
            assert!(c.reflectivity.low.si() > 0.01 && c.reflectivity.high.si() < 0.97, "{}", c.name);
            assert_eq!(c.source, SOURCE);
            for name in c.also.iter().chain([&c.name]) {
                assert!(names.insert(fold(name)), "{name} stands for two classes");
            }
        }
        assert!(names.len() > 10);
    }

    #[test]
    fn damaged_table_is_refused() {
        let text = include_str!("../../data/hiding.toml");
        assert!(read(&text.replace("scattering", "scatter")).is_err());
        let bad = text.replacen("low = \"0.05 1/µm\"", "low = \"5 1/µm\"", 1);
        assert!(read(&bad).err().unwrap().to_string().contains("does not rise"));
    }
}
