//! What must everybody know before opening the bottle?
//!
//! Cautions are data (`data/cautions.toml`), each with what calls for it and its source. [`cautions`] picks those of the
//! materials at hand and of what is done with them; "who decides" always comes last, so that no list is without it.

use crate::blend::Blend;
use crate::error::{Error, Result, bad_data};
use crate::paint::{Family, Paint};
use crate::quantity::Quantity;
use crate::solvent::Solvent;
use crate::source::Source;
use serde::{Deserialize, Serialize};
use std::sync::LazyLock;

const FILE: &str = "data/cautions.toml";
const TEXT: &str = include_str!("../../data/cautions.toml");
/// Below this boiling point the rule of thumb for cartridges does not hold, K (source key `OSHA_CHANGE`).
const LOW_BOILING_K: f64 = 343.15;
/// Shares of a liquid below this do not call for a caution.
const TRACE: f64 = 0.01;
/// What calls for a caution.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum When {
    Always,
    Solvent,
    Spray,
    WaterPaint,
    Oxidative,
    LowBoiling,
    GlycolEther,
    Workshop,
    Rinse,
    Isocyanate,
}

/// One caution.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Caution {
    /// Short key, for example "oven".
    pub key: String,
    /// What calls for it.
    when: When,
    /// Heading of one to four words.
    pub topic: String,
    /// The caution.
    pub text: String,
    /// Source key.
    pub source: String,
}

impl Caution {
    /// Citation of its source.
    ///
    /// # Errors
    /// [`crate::error::UnknownName`] when the key of the data file does not resolve.
    pub fn citation(&self) -> Result<&'static Source> {
        crate::source::find(&self.source)
    }
}

impl core::fmt::Display for Caution {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{}: {}", self.topic, self.text)
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    schema: u32,
    caution: Vec<Caution>,
}

static CAUTIONS: LazyLock<Result<Vec<Caution>>> = LazyLock::new(|| {
    let damaged = |what: &str| bad_data(FILE, None, None, what, "restore the file from the release");
    let file: File = toml::from_str(TEXT).map_err(|e| damaged(e.message()))?;
    if file.schema != 1 || !file.caution.iter().any(|c| c.when == When::Always) {
        return Err(damaged("no caution that always holds, or another schema than 1"));
    }
    Ok(file.caution)
});

/// Every caution there is.
///
/// # Errors
/// A [`crate::error::DataError`] when the embedded table is damaged.
pub fn all_cautions() -> Result<&'static [Caution]> {
    CAUTIONS.as_ref().map(Vec::as_slice).map_err(Error::clone)
}

/// What is done with the materials.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Work {
    /// Sprayed, not brushed.
    pub spray: bool,
    /// Gun or brushes are cleaned.
    pub rinse: bool,
    /// Other people are in the room.
    pub workshop: bool,
}

/// The cautions for these paints and liquids and this work; the one that says who decides comes last.
///
/// # Errors
/// A [`crate::error::DataError`] when the embedded table is damaged.
///
/// ```
/// use mistcoat::blend::{Basis, Blend};
/// use mistcoat::paint::{Family, Paint};
/// use mistcoat::safety::{Work, cautions};
/// let enamel = Paint::typical(Family::AlkydEnamel, "deckhouse cream")?;
/// let spirit = Blend::from_names(&[("white spirit", 1.0)], Basis::Volume, None)?;
/// let found = cautions(&[&enamel], &[&spirit], Work { spray: true, ..Work::default() })?;
/// assert!(found.iter().any(|c| c.key == "rags") && found.iter().any(|c| c.key == "mask"));
/// assert_eq!(found.last().map(|c| c.key.as_str()), Some("data-sheet"));
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn cautions(paints: &[&Paint], liquids: &[&Blend], work: Work) -> Result<Vec<&'static Caution>> {
    let all = all_cautions()?;
    let blends: Vec<&Blend> = paints.iter().map(|p| p.carrier()).chain(liquids.iter().copied()).collect();
    let mut solvents = blends
        .iter()
        .flat_map(|b| b.ingredients())
        .filter(|i| i.volume_fraction >= TRACE && i.solvent.id() != "water");
    let solvent = solvents.clone().next().is_some();
    let low_boiling = solvents.clone().any(|i| i.solvent.boiling_point().si() < LOW_BOILING_K);
    let glycol_ether = solvents.any(|i| is_glycol_ether(&i.solvent));
    let families = |wanted: &[Family]| paints.iter().any(|p| wanted.contains(&p.family()));
    let called = |when: When| match when {
        When::Always => true,
        When::Solvent => solvent,
        When::Spray => work.spray,
        When::WaterPaint => work.spray && families(&[Family::WaterborneAcrylic]),
        When::Oxidative => families(&[Family::AlkydEnamel, Family::ArtistsOil]),
        When::LowBoiling => low_boiling,
        When::GlycolEther => glycol_ether,
        When::Workshop => work.workshop,
        When::Rinse => work.rinse,
        When::Isocyanate => false,
    };
    let mut found: Vec<&Caution> = all.iter().filter(|c| called(c.when)).collect();
    found.sort_by_key(|c| c.when == When::Always);
    Ok(found)
}

/// By its name, as every glycol and its ether in the catalogue has it.
pub(super) fn is_glycol_ether(solvent: &Solvent) -> bool {
    let name = solvent.name();
    name.contains("oxyethanol") || name.contains("oxy-2-propanol") || name.contains("glycol")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::blend::Basis;

    #[test]
    fn every_caution_has_a_source_and_words() {
        let all = all_cautions().unwrap();
        assert!(all.len() >= 15);
        for c in all {
            assert!(c.citation().is_ok() && c.text.len() > 60 && c.text.len() < 420, "{c}");
        }
    }

    #[rstest::rstest]
    #[case(Family::WaterborneAcrylic, "water", true, &["mist", "mask"], &["rags", "cartridge-low-boiling"])]
    #[case(Family::SolventLacquer, "acetone", true, &["cartridge-low-boiling", "ignition", "gloves"], &["rags"])]
    #[case(Family::ArtistsOil, "white spirit", false, &["rags", "vapour", "odour"], &["mask", "mist"])]
    #[case(Family::AlcoholAcrylic, "1-methoxy-2-propanol", true, &["glycol-ether"], &["rags"])]
    fn what_the_materials_call_for(
        #[case] family: Family,
        #[case] liquid: &str,
        #[case] spray: bool,
        #[case] with: &[&str],
        #[case] without: &[&str],
    ) {
        let paint = Paint::typical(family, "club paint (invented)").unwrap();
        let liquid = Blend::from_names(&[(liquid, 1.0)], Basis::Volume, None).unwrap();
        let found = cautions(&[&paint], &[&liquid], Work { spray, ..Work::default() }).unwrap();
        let keys: Vec<&str> = found.iter().map(|c| c.key.as_str()).collect();
        assert!(with.iter().all(|k| keys.contains(k)), "{keys:?}");
        assert!(without.iter().all(|k| !keys.contains(k)), "{keys:?}");
        assert_eq!(keys.last(), Some(&"data-sheet"));
        assert!(!keys.contains(&"isocyanate"));
    }
}
