//! What kind of paint is this, and what does a bottle of that kind usually hold?
//!
//! Five families cover what a hobby bench meets. Each carries typical values *with a range*, marked as
//! common practice: a starting point until the bottle, its data sheet or a reading says better. Labels
//! mislead (a "lacquer" may be an acrylic), so synonyms are found by name but the family stays your choice.

use super::prior::ShapePrior;
use super::uncertain::Uncertain;
use crate::error::{Error, Result, bad_data, unknown_name};
use crate::estimate::Estimate;
use crate::names::fold;
use crate::quantity::{Density, DynamicViscosity, Length, Ratio, SurfaceTension, Temperature};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::sync::LazyLock;

/// Temperature at which the typical viscosities and densities hold.
pub(super) const TYPICAL_TEMPERATURE_K: f64 = 293.15;

const FILE: &str = "data/paint_families.toml";
const TEXT: &str = include_str!("../../data/paint_families.toml");

/// A family of paints.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Family {
    /// Acrylic dispersion in water.
    #[serde(rename = "waterborne acrylic")]
    WaterborneAcrylic,
    /// Acrylic resin in alcohols and glycol ethers, some water.
    #[serde(rename = "alcohol acrylic")]
    AlcoholAcrylic,
    /// Cellulose or acrylic polymer in esters, ketones and aromatics; dries by evaporation alone.
    #[serde(rename = "solvent lacquer")]
    SolventLacquer,
    /// Oil-modified polyester in white spirit; dries, then hardens by oxygen.
    #[serde(rename = "alkyd enamel")]
    AlkydEnamel,
    /// Pigment paste in drying oil.
    #[serde(rename = "artists' oil")]
    ArtistsOil,
}

/// Typical values of a family: best value and range, common practice.
#[derive(Debug, Clone, PartialEq)]
pub struct Typical {
    /// Volume of the dry film per volume of wet paint.
    pub volume_solids: Estimate<Ratio>,
    /// Density of the paint at 20 °C.
    pub density: Estimate<Density>,
    /// Viscosity of the stock paint at 20 °C.
    pub stock_viscosity: Estimate<DynamicViscosity>,
    /// Glass transition temperature of the dry binder.
    pub binder_tg: Estimate<Temperature>,
    /// Surface tension of the paint; surfactants hold waterborne paints far below water.
    pub surface_tension: Estimate<SurfaceTension>,
    /// Density of the pigment.
    pub pigment_density: Estimate<Density>,
    /// Diameter of the pigment as it floats in the paint.
    pub pigment_diameter: Estimate<Length>,
    /// Volume of pigment per volume of dry film.
    pub pigment_volume_concentration: Estimate<Ratio>,
    /// Carrier: volume parts by solvent name.
    pub carrier: Vec<(String, f64)>,
    /// Some of the family thicken at low shear when warmed (metallic waterborne basecoats).
    pub thickens_when_warm: bool,
    /// What to know about the family.
    pub note: String,
    /// Source key.
    pub source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    schema: u32,
    unknown: ShapeRow,
    family: Vec<Row>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ShapeRow {
    at_zero: f64,
    per_reach: f64,
    std: f64,
    law_scatter: f64,
    evidence: String,
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    name: Family,
    also: Vec<String>,
    volume_solids: Uncertain<Ratio>,
    density: Uncertain<Density>,
    stock_viscosity: Uncertain<DynamicViscosity>,
    binder_tg: Uncertain<Temperature>,
    surface_tension: Uncertain<SurfaceTension>,
    pigment_density: Uncertain<Density>,
    pigment_diameter: Uncertain<Length>,
    pigment_volume_concentration: Uncertain<Ratio>,
    carrier: BTreeMap<String, f64>,
    thickens_when_warm: bool,
    note: String,
    source: String,
    shape: ShapeRow,
}

struct Entry {
    family: Family,
    also: Vec<String>,
    typical: Typical,
    shape: ShapePrior,
}

struct Table {
    unknown: ShapePrior,
    entries: Vec<Entry>,
}

static TABLE: LazyLock<Result<Table>> = LazyLock::new(|| read(TEXT));

fn read(text: &str) -> Result<Table> {
    let damaged = |what: String| bad_data(FILE, None, None, what, "restore the file from the release");
    let file: File = toml::from_str(text).map_err(|e| damaged(e.message().to_owned()))?;
    if file.schema != 1 {
        return Err(damaged(format!("schema {} where 1 is allowed", file.schema)));
    }
    let mut entries = Vec::with_capacity(file.family.len());
    for row in file.family {
        let label = |what: &str| format!("typical {what} of {}", row.name);
        let typical = Typical {
            volume_solids: row.volume_solids.estimate(&label("volume solids"))?,
            density: row.density.estimate(&label("density"))?,
            stock_viscosity: row.stock_viscosity.estimate(&label("stock viscosity"))?,
            binder_tg: row.binder_tg.estimate(&label("binder glass transition"))?,
            surface_tension: row.surface_tension.estimate(&label("surface tension"))?,
            pigment_density: row.pigment_density.estimate(&label("pigment density"))?,
            pigment_diameter: row.pigment_diameter.estimate(&label("pigment diameter"))?,
            pigment_volume_concentration: row
                .pigment_volume_concentration
                .estimate(&label("pigment volume concentration"))?,
            carrier: row.carrier.into_iter().collect(),
            thickens_when_warm: row.thickens_when_warm,
            note: row.note,
            source: row.source,
        };
        let shape = prior(row.name.name().to_owned(), row.shape);
        entries.push(Entry { family: row.name, also: row.also, typical, shape });
    }
    if let Some(missing) = Family::ALL.iter().find(|f| !entries.iter().any(|e| e.family == **f)) {
        return Err(damaged(format!("no entry for {missing}")));
    }
    Ok(Table { unknown: prior("a liquid of unknown family".to_owned(), file.unknown), entries })
}

fn prior(label: String, row: ShapeRow) -> ShapePrior {
    ShapePrior {
        label,
        at_zero: row.at_zero,
        per_reach: row.per_reach,
        std: row.std,
        law_scatter: row.law_scatter,
        evidence: row.evidence,
        source: row.source,
    }
}

fn table() -> Result<&'static Table> {
    TABLE.as_ref().map_err(Error::clone)
}

pub(super) fn unknown_prior() -> Result<ShapePrior> {
    Ok(table()?.unknown.clone())
}

impl Family {
    /// All families.
    pub const ALL: [Self; 5] = [
        Self::WaterborneAcrylic,
        Self::AlcoholAcrylic,
        Self::SolventLacquer,
        Self::AlkydEnamel,
        Self::ArtistsOil,
    ];

    /// The name of the family.
    pub const fn name(self) -> &'static str {
        match self {
            Self::WaterborneAcrylic => "waterborne acrylic",
            Self::AlcoholAcrylic => "alcohol acrylic",
            Self::SolventLacquer => "solvent lacquer",
            Self::AlkydEnamel => "alkyd enamel",
            Self::ArtistsOil => "artists' oil",
        }
    }

    /// Finds a family by its name or by what labels call it; case and hyphens do not matter.
    ///
    /// # Errors
    /// [`crate::error::UnknownName`] with near names; a [`crate::error::RangeError`] for isocyanate two-packs.
    ///
    /// ```
    /// use mistcoat::paint::Family;
    /// assert_eq!(Family::find("Nitrocellulose lacquer")?, Family::SolventLacquer);
    /// assert!(Family::find("laquer").unwrap_err().to_string().contains("lacquer"));
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn find(name: &str) -> Result<Self> {
        super::two_pack::refuse_two_pack(name)?;
        let wanted = fold(name);
        let entries = &table()?.entries;
        let hit = entries
            .iter()
            .find(|e| fold(e.family.name()) == wanted || e.also.iter().any(|a| fold(a) == wanted));
        hit.map(|e| e.family).ok_or_else(|| {
            let known = entries
                .iter()
                .flat_map(|e| core::iter::once(e.family.name()).chain(e.also.iter().map(String::as_str)));
            unknown_name(
                "paint family",
                name,
                known,
                "the families are: waterborne acrylic, alcohol acrylic, solvent lacquer, alkyd enamel, artists' oil",
            )
        })
    }

    /// What labels call paints of this family.
    ///
    /// # Errors
    /// A [`crate::error::DataError`] when the embedded data is damaged.
    pub fn also(self) -> Result<&'static [String]> {
        Ok(&self.entry()?.also)
    }

    /// Typical values with their ranges; common practice.
    ///
    /// # Errors
    /// A [`crate::error::DataError`] when the embedded data is damaged.
    pub fn typical(self) -> Result<&'static Typical> {
        Ok(&self.entry()?.typical)
    }

    /// What paints of this family usually do on thinning.
    ///
    /// # Errors
    /// A [`crate::error::DataError`] when the embedded data is damaged.
    pub fn shape_prior(self) -> Result<&'static ShapePrior> {
        Ok(&self.entry()?.shape)
    }

    /// Whether the resin bears water in its thinner.
    pub const fn takes_water(self) -> bool {
        matches!(self, Self::WaterborneAcrylic | Self::AlcoholAcrylic)
    }

    fn entry(self) -> Result<&'static Entry> {
        table()?.entries.iter().find(|e| e.family == self).ok_or_else(|| {
            bad_data(FILE, None, Some(self.name()), "no entry", "restore the file from the release")
        })
    }
}

impl core::fmt::Display for Family {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(self.name())
    }
}

impl core::str::FromStr for Family {
    type Err = Error;
    fn from_str(name: &str) -> Result<Self> {
        Self::find(name)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case("Waterborne Acrylic", Family::WaterborneAcrylic)]
    #[case("acrylic latex", Family::WaterborneAcrylic)]
    #[case("alcohol-reducible acrylic", Family::AlcoholAcrylic)]
    #[case("LACQUER", Family::SolventLacquer)]
    #[case("enamel", Family::AlkydEnamel)]
    #[case("artists oil", Family::ArtistsOil)]
    #[case("oil paint", Family::ArtistsOil)]
    fn labels(#[case] text: &str, #[case] family: Family) {
        assert_eq!(Family::find(text).unwrap(), family);
    }

    #[test]
    fn unknown_label_offers_near_names_and_the_list() {
        let text = Family::find("alkid enamel").unwrap_err().to_string();
        assert!(text.contains("alkyd enamel") && text.contains("the families are"), "{text}");
    }

    #[test]
    fn every_family_is_complete_and_cited() {
        let mut names = std::collections::HashSet::new();
        for family in Family::ALL {
            let t = family.typical().unwrap();
            for (low, best, high) in [
                (t.volume_solids.low.value, t.volume_solids.best.value, t.volume_solids.high.value),
                (t.stock_viscosity.low.value, t.stock_viscosity.best.value, t.stock_viscosity.high.value),
                (t.binder_tg.low.value, t.binder_tg.best.value, t.binder_tg.high.value),
                (t.density.low.value, t.density.best.value, t.density.high.value),
            ] {
                assert!(low < best && best < high, "{family}");
            }
            assert!((t.carrier.iter().map(|(_, v)| v).sum::<f64>() - 100.0).abs() < 1e-9, "{family}");
            assert!(crate::source::find(&t.source).is_ok());
            let shape = family.shape_prior().unwrap();
            assert!(crate::source::find(&shape.source).is_ok() && shape.std > 0.0);
            for name in family.also().unwrap().iter().map(String::as_str).chain([family.name()]) {
                assert!(names.insert(fold(name)), "{name} stands for two families");
            }
        }
        assert!(crate::source::find(&ShapePrior::unknown().unwrap().source).is_ok());
    }

    #[test]
    fn damaged_table_is_refused() {
        assert!(read("schema = 2").is_err());
        assert!(read(&TEXT.replace("volume_solids", "volume_solid")).is_err());
        let cut = TEXT.rfind("[[family]]").unwrap();
        assert!(read(&TEXT[..cut]).err().unwrap().to_string().contains("no entry for artists' oil"));
    }
}
