//! When is an enamel or an oil hard, and how cold may a waterborne paint dry? What no evaporation can tell.
//!
//! **Oxygen.** Alkyds and drying oils lose their solvent as any film does, then harden by taking up oxygen over hours to
//! months. That chemistry is not computed here: [`OxidativeCure`] has the ranges of common practice, and the caution that goes
//! with such paints.
//!
//! **Coalescence.** The particles of a dispersion flow together only above the minimum film-formation temperature (MFFT) of
//! their polymer; below it the film dries to powder or cracks. A coalescing aid (glycol ethers, ester alcohols) softens
//! them until it has left: each mass per cent of it on the binder lowers the MFFT by 2.5 K (1 K standard uncertainty), up to
//! 12 % (common practice). Propylene glycol and glycerol stay in the water and do not count.

use super::family::Family;
use super::uncertain::Uncertain;
use crate::error::{Error, Result, bad_data};
use crate::estimate::Estimate;
use crate::quantity::{Temperature, Time};
use serde::{Deserialize, Serialize};
use std::sync::LazyLock;

const FILE: &str = "data/curing.toml";
const TEXT: &str = include_str!("../../data/curing.toml");

/// How long a paint that hardens by oxygen takes; common practice.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OxidativeCure {
    /// Until a light touch takes nothing away.
    pub touch: Estimate<Time>,
    /// Until the next coat of the same paint.
    pub recoat: Estimate<Time>,
    /// Until hard through.
    pub through: Estimate<Time>,
    /// What speeds and slows it.
    pub words: String,
    /// Self-heating rags.
    pub caution: String,
    /// Source key of the times.
    pub source: String,
    /// Source key of the caution.
    pub caution_source: String,
}

impl core::fmt::Display for OxidativeCure {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(
            f,
            "touch dry after {}, next coat after {}, hard through after {} (common practice); {}",
            self.touch, self.recoat, self.through, self.words
        )
    }
}

/// What coalescing aid does to the MFFT.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Coalescing {
    /// Kelvin per mass per cent on the binder, and its standard uncertainty.
    pub(crate) per_percent_k: f64,
    pub(crate) per_percent_std_k: f64,
    /// More than this brings nothing.
    pub(crate) most_percent: f64,
    pub(crate) aids: Vec<String>,
    pub(crate) source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    schema: u32,
    rag_caution: String,
    rag_source: String,
    oxidative: Vec<OxidativeRow>,
    dispersion: Vec<DispersionRow>,
    coalescing: Coalescing,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct OxidativeRow {
    family: Family,
    touch: Uncertain<Time>,
    recoat: Uncertain<Time>,
    through: Uncertain<Time>,
    words: String,
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct DispersionRow {
    family: Family,
    mfft: Uncertain<Temperature>,
    source: String,
}

struct Table {
    oxidative: Vec<(Family, OxidativeCure)>,
    mfft: Vec<(Family, Estimate<Temperature>, String)>,
    coalescing: Coalescing,
}

static TABLE: LazyLock<Result<Table>> = LazyLock::new(|| read(TEXT));

fn read(text: &str) -> Result<Table> {
    let damaged = |what: String| bad_data(FILE, None, None, what, "restore the file from the release");
    let file: File = toml::from_str(text).map_err(|e| damaged(e.message().to_owned()))?;
    if file.schema != 1 {
        return Err(damaged(format!("schema {} where 1 is allowed", file.schema)));
    }
    let mut oxidative = Vec::with_capacity(file.oxidative.len());
    for row in file.oxidative {
        let label = |what: &str| format!("{what} of {}", row.family);
        let cure = OxidativeCure {
            touch: row.touch.estimate(&label("time to touch dry"))?,
            recoat: row.recoat.estimate(&label("time to the next coat"))?,
            through: row.through.estimate(&label("time to through-dry"))?,
            words: row.words,
            caution: file.rag_caution.clone(),
            source: row.source,
            caution_source: file.rag_source.clone(),
        };
        oxidative.push((row.family, cure));
    }
    let mut mfft = Vec::with_capacity(file.dispersion.len());
    for row in file.dispersion {
        let estimate = row.mfft.estimate(&format!("minimum film-formation temperature of {}", row.family))?;
        mfft.push((row.family, estimate, row.source));
    }
    Ok(Table { oxidative, mfft, coalescing: file.coalescing })
}

fn table() -> Result<&'static Table> {
    TABLE.as_ref().map_err(Error::clone)
}

/// The rule of coalescing aids.
pub(crate) fn coalescing() -> Result<&'static Coalescing> {
    Ok(&table()?.coalescing)
}

impl Family {
    /// How long paints of this family take to harden by oxygen; `None` for those that do not.
    ///
    /// # Errors
    /// A [`crate::error::DataError`] when the embedded data is damaged.
    ///
    /// ```
    /// use mistcoat::paint::Family;
    /// let cure = Family::AlkydEnamel.oxidative_cure()?.unwrap();
    /// assert!(cure.touch.high < cure.through.best && cure.caution.contains("metal can"));
    /// assert!(Family::SolventLacquer.oxidative_cure()?.is_none());
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn oxidative_cure(self) -> Result<Option<&'static OxidativeCure>> {
        Ok(table()?.oxidative.iter().find(|(f, _)| *f == self).map(|(_, cure)| cure))
    }

    /// Minimum film-formation temperature of the family's particles without coalescing aid; `None` for paints that are no
    /// dispersion.
    ///
    /// # Errors
    /// A [`crate::error::DataError`] when the embedded data is damaged.
    pub fn film_formation_temperature(self) -> Result<Option<&'static Estimate<Temperature>>> {
        Ok(table()?.mfft.iter().find(|(f, ..)| *f == self).map(|(_, mfft, _)| mfft))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ranges_rise_and_are_cited() {
        let table = table().unwrap();
        for (family, cure) in &table.oxidative {
            assert!(cure.touch.best < cure.recoat.best && cure.recoat.best < cure.through.best, "{family}");
            assert!(crate::source::find(&cure.caution_source).is_ok());
            for e in [&cure.touch, &cure.recoat, &cure.through] {
                assert!(e.low < e.best && e.best < e.high);
            }
            assert_eq!(
                crate::source::find(&cure.source).unwrap().provenance,
                crate::source::Provenance::CommonPractice
            );
        }
        for (_, mfft, source) in &table.mfft {
            assert!(mfft.low < mfft.best && mfft.best < mfft.high && crate::source::find(source).is_ok());
        }
        assert!(crate::source::find(&table.coalescing.source).is_ok());
        for aid in &table.coalescing.aids {
            assert!(crate::solvent::find(aid).is_ok(), "{aid}");
        }
        // Every family hardens in one way only.
        for family in Family::ALL {
            let ways = [
                family.oxidative_cure().unwrap().is_some(),
                family.film_formation_temperature().unwrap().is_some(),
                matches!(family, Family::SolventLacquer | Family::AlcoholAcrylic),
            ];
            assert_eq!(ways.iter().filter(|w| **w).count(), 1, "{family}");
        }
    }

    #[test]
    fn a_damaged_table_is_refused() {
        assert!(read("schema = 2").is_err());
        assert!(read(&TEXT.replace("schema = 1", "schema = 2")).is_err());
        assert!(read(&TEXT.replace("touch = { best = \"4 h\"", "touch = { best = \"40 h\"")).is_err());
    }
}
