//! Will this thinner dissolve that resin, or attack that plastic?
//!
//! Hansen splits cohesion into dispersion, polar and hydrogen-bond parts (δD, δP, δH). A blend is averaged by
//! volume. The distance to a polymer is `Ra = sqrt(4 ΔδD² + ΔδP² + ΔδH²)` and `RED = Ra/R0` compares it with
//! the polymer's radius R0: below 1 it dissolves or swells, above it does not.
//!
//! **Limits**: small molecules act beyond the radius, bulky ones fall short of it: for polystyrene the sphere
//! alone misplaces heavy paraffins (RED 1.01 to 1.04, no attack). Most spheres here are from memory; each
//! carries its confidence. Test on scrap.

use super::Blend;
use crate::error::{Error, Result, bad_data, out_of_range, unknown_name};
use crate::names::fold;
use crate::quantity::{Number, Quantity, SolubilityParameter, as_text};
use crate::solvent::Hansen;
use crate::warning::Warning;
use serde::{Deserialize, Serialize};
use std::sync::LazyLock;

const FILE: (&str, &str) = ("data/polymers_hsp.csv", include_str!("../../data/polymers_hsp.csv"));
/// SI value of one MPa^0.5.
const MPA_HALF: f64 = 1e3;

/// How far a Hansen sphere can be trusted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Confidence {
    /// Lists disagree, or no grade is known.
    Low,
    /// Repeated in several compilations.
    Medium,
    /// Seen in a source.
    High,
}

/// A binder or plastic with its Hansen sphere.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Polymer {
    /// Name.
    pub name: String,
    /// Grade, or what it stands for.
    pub remark: String,
    /// Centre of the sphere.
    pub hansen: Hansen,
    /// Radius of interaction; None where none was found.
    #[serde(with = "as_text::option")]
    pub radius: Option<SolubilityParameter>,
    /// How far to trust it.
    pub confidence: Confidence,
    /// Source key.
    pub source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(non_snake_case, reason = "column names of the data file, with the unit as it is written")]
struct Row {
    polymer: String,
    remark: String,
    dD_MPa05: f64,
    dP_MPa05: f64,
    dH_MPa05: f64,
    R0_MPa05: Option<f64>,
    confidence: Confidence,
    source: String,
}

static POLYMERS: LazyLock<Result<Vec<Polymer>>> = LazyLock::new(|| {
    let (file, text) = FILE;
    csv::Reader::from_reader(text.as_bytes())
        .deserialize::<Row>()
        .enumerate()
        .map(|(n, row)| {
            let row = row.map_err(|e| {
                bad_data(file, Some(n + 2), None, e.to_string(), "restore the file from the release")
            })?;
            let part = |v: f64| SolubilityParameter::from_si(v * MPA_HALF);
            Ok(Polymer {
                name: row.polymer,
                remark: row.remark,
                hansen: Hansen { d: part(row.dD_MPa05), p: part(row.dP_MPa05), h: part(row.dH_MPa05) },
                radius: row.R0_MPa05.map(part),
                confidence: row.confidence,
                source: row.source,
            })
        })
        .collect()
});

/// All polymers known.
///
/// # Errors
/// A [`crate::error::DataError`] when the embedded table is damaged.
pub fn polymers() -> Result<&'static [Polymer]> {
    POLYMERS.as_ref().map(Vec::as_slice).map_err(Error::clone)
}

/// The polymer of this name.
///
/// # Errors
/// [`crate::error::UnknownName`] with near names.
pub fn polymer(name: &str) -> Result<&'static Polymer> {
    let all = polymers()?;
    let wanted = fold(name);
    all.iter().find(|p| fold(&p.name) == wanted).ok_or_else(|| {
        let known = all.iter().map(|p| p.name.as_str());
        unknown_name("polymer", name, known, "the sphere is known for plastics and binders such as polystyrene, ABS, PVC, PMMA, polycarbonate and \
             nitrocellulose")
    })
}

/// Hansen distance `Ra = sqrt(4 ΔδD² + ΔδP² + ΔδH²)`.
///
/// ```
/// use mistcoat::blend::hansen::{distance, polymer};
/// use mistcoat::quantity::show_in;
/// let acetone = mistcoat::solvent::find("acetone")?.hansen().expect("known");
/// let ra = distance(&acetone, &polymer("PVC")?.hansen);
/// assert_eq!(show_in(ra, "MPa^0.5", 2)?, "6.3 MPa^0.5");
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn distance(a: &Hansen, b: &Hansen) -> SolubilityParameter {
    let (d, p, h) = (a.d.si() - b.d.si(), a.p.si() - b.p.si(), a.h.si() - b.h.si());
    SolubilityParameter::from_si((4.0 * d * d + p * p + h * h).sqrt())
}

/// How near a blend comes to a polymer.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Red {
    /// Distance from the polymer.
    #[serde(with = "as_text")]
    pub distance: SolubilityParameter,
    /// Relative energy difference Ra/R0: below 1 it dissolves or swells the polymer.
    #[serde(with = "as_text")]
    pub red: Number,
    /// How far to trust the sphere.
    pub confidence: Confidence,
    /// Usable, but mind this.
    pub warnings: Vec<Warning>,
}

impl Blend {
    /// Hansen parameters, averaged by volume.
    ///
    /// # Errors
    /// An ingredient without Hansen parameters.
    pub fn hansen(&self) -> Result<Hansen> {
        let mut sum = [0.0; 3];
        for i in &self.ingredients {
            let own = i.solvent.hansen().ok_or_else(|| {
                out_of_range(
                    format!("Hansen parameters of {}", i.solvent.name()),
                    "unknown",
                    "three known values",
                    "add them to the solvent file, or leave it out of the comparison",
                )
            })?;
            for (sum, part) in sum.iter_mut().zip([own.d, own.p, own.h]) {
                *sum += i.volume_fraction * part.si();
            }
        }
        let [d, p, h] = sum.map(SolubilityParameter::from_si);
        Ok(Hansen { d, p, h })
    }

    /// Distance to a polymer and RED.
    ///
    /// # Errors
    /// An unknown polymer, one without a radius, or an ingredient without Hansen parameters.
    pub fn red(&self, polymer_name: &str) -> Result<Red> {
        let polymer = polymer(polymer_name)?;
        let Some(radius) = polymer.radius else {
            return Err(out_of_range(
                format!("radius of interaction of {}", polymer.name),
                "unknown",
                "a published radius",
                "compare distances only, or test on scrap",
            ));
        };
        let ra = distance(&self.hansen()?, &polymer.hansen);
        let warnings = if polymer.confidence == Confidence::Low {
            vec![Warning::new(
                "hansen-low-confidence",
                format!("the sphere of {} is uncertain ({}): test on scrap", polymer.name, polymer.remark),
            )]
        } else {
            Vec::new()
        };
        let red = Number::from_si(ra.si() / radius.si());
        Ok(Red { distance: ra, red, confidence: polymer.confidence, warnings })
    }
}
