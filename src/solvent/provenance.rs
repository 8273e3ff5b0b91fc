//! Which source stands behind a property, and how far to trust it.

use super::pure::{Solvent, unstated};
use super::record::Keys;
use crate::error::Result;
use crate::quantity::{Quantity, as_text, show};
use crate::source::{self, Provenance};
use serde::{Deserialize, Serialize};

/// The source of one property of one solvent.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PropertySource {
    /// Name of the property, for example `flash_point`.
    pub property: String,
    /// Source keys, or citations in full where the file gives no key.
    pub keys: Vec<String>,
    /// What the keys stand for.
    pub citations: Vec<String>,
    /// The least trusted of the sources.
    pub provenance: Provenance,
    /// What to mind.
    pub note: Option<String>,
}

impl PropertySource {
    /// Whether the value was stated from memory and needs checking before use.
    pub fn is_from_memory(&self) -> bool {
        self.provenance == Provenance::FromMemory
    }
}

impl core::fmt::Display for PropertySource {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(&self.citations.join("; "))?;
        if let Some(note) = &self.note {
            write!(f, " [{note}]")?;
        }
        Ok(())
    }
}

/// A figure on which someone's safety may rest. Its text form carries the caution it needs.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(bound = "Q: Quantity", deny_unknown_fields)]
pub struct SafetyValue<Q> {
    /// The figure.
    #[serde(with = "as_text")]
    pub value: Q,
    /// Where it stands.
    pub source: PropertySource,
}

impl<Q: Quantity> core::fmt::Display for SafetyValue<Q> {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(&show(self.value))?;
        if self.source.is_from_memory() {
            f.write_str(" (from memory, check the safety data sheet)")?;
        }
        Ok(())
    }
}

/// Names that [`Solvent::source`] knows.
pub const PROPERTIES: [&str; 21] = [
    "molar_mass",
    "boiling_point",
    "melting_point",
    "density",
    "viscosity",
    "surface_tension",
    "vapour_pressure",
    "heat_of_vaporisation",
    "heat_capacity_per_kelvin",
    "diffusivity",
    "relative_evaporation_rate",
    "predicted_relative_evaporation_rate",
    "flash_point",
    "lower_flammable_limit",
    "upper_flammable_limit",
    "exposure_limits",
    "hansen",
    "unifac",
    "voc_exempt",
    "odour_threshold",
    "polystyrene_attack",
];

impl Solvent {
    /// The source behind a property, by the name of its function: one of [`PROPERTIES`]. None where the
    /// solvent has no such value.
    ///
    /// # Errors
    /// [`crate::error::DataError`] that lists the names, for any other name.
    ///
    /// ```
    /// let s = mistcoat::solvent::find("methanol")?.source("flash_point")?.unwrap();
    /// assert!(s.is_from_memory());
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn source(&self, property: &str) -> Result<Option<PropertySource>> {
        let r = self.record();
        let of = |keys: &Keys, note: &Option<String>| Some(self.describe(property, keys, note.as_deref()));
        let key = |key: &str| Some(self.describe(property, &Keys(vec![key.to_owned()]), None));
        Ok(match property {
            "molar_mass" => r.molar_mass.as_ref().map_or_else(|| key("IUPAC"), |s| of(&s.source, &s.note)),
            "boiling_point" => of(&r.boiling_point.source, &r.boiling_point.note),
            "melting_point" => {
                r.melting_point.as_ref().map_or_else(|| key("EST_TM"), |s| of(&s.source, &s.note))
            }
            "density" => of(&r.density.source, &r.density.note),
            "viscosity" => of(&r.viscosity.source, &r.viscosity.note),
            "surface_tension" => of(&r.surface_tension.source, &r.surface_tension.note),
            "vapour_pressure" => of(&r.vapour_pressure.source, &r.vapour_pressure.note),
            "heat_of_vaporisation" => {
                r.heat_of_vaporisation.as_ref().map_or_else(|| key("CLAUSIUS"), |s| of(&s.source, &s.note))
            }
            "heat_capacity_per_kelvin" => {
                r.heat_capacity_per_kelvin.as_ref().map_or_else(|| key("EST_CP"), |s| of(&s.source, &s.note))
            }
            "diffusivity" => key("FULLER69"),
            "relative_evaporation_rate" => {
                let mut keys: Vec<String> =
                    r.evaporation_rates.iter().filter(|p| p.used).flat_map(|p| p.source.0.clone()).collect();
                keys.dedup();
                (!r.evaporation_rates.is_empty()).then(|| self.describe(property, &Keys(keys), None))
            }
            "predicted_relative_evaporation_rate" => key("WETBULB"),
            "flash_point" => r.flash_point.as_ref().and_then(|s| of(&s.source, &s.note)),
            "lower_flammable_limit" => r.lower_flammable_limit.as_ref().and_then(|s| of(&s.source, &s.note)),
            "upper_flammable_limit" => r.upper_flammable_limit.as_ref().and_then(|s| of(&s.source, &s.note)),
            "exposure_limits" => {
                let mut keys: Vec<String> =
                    r.exposure_limits.iter().flat_map(|l| l.source.0.clone()).collect();
                keys.sort();
                keys.dedup();
                (!r.exposure_limits.is_empty())
                    .then(|| self.describe(property, &Keys(keys), r.safety_note.as_deref()))
            }
            "hansen" => r.hansen.as_ref().and_then(|s| of(&s.source, &s.note)),
            "unifac" => r.unifac.as_ref().and_then(|s| of(&s.source, &s.note)),
            "voc_exempt" => r.voc_exempt.as_ref().and_then(|s| of(&s.source, &s.note)),
            "odour_threshold" => r.odour_threshold.as_ref().and_then(|s| of(&s.source, &s.note)),
            "polystyrene_attack" => r.polystyrene.as_ref().and_then(|s| of(&s.source, &s.note)),
            other => return Err(unstated(self.name(), other, &PROPERTIES)),
        })
    }

    pub(super) fn describe(&self, property: &str, keys: &Keys, note: Option<&str>) -> PropertySource {
        let keys = if keys.is_empty() { &self.record().source } else { keys };
        let property = property.to_owned();
        let note = note.map(str::to_owned);
        if keys.is_empty() {
            let citation = format!("{}, which names no source", self.0.origin);
            let provenance = Provenance::FromMemory;
            return PropertySource {
                property,
                keys: Vec::new(),
                citations: vec![citation],
                provenance,
                note,
            };
        }
        // A citation in full counts as published: its author saw it.
        let trust = |key: &String| source::find(key).map_or(Provenance::Published, |s| s.provenance);
        let provenance = keys.0.iter().map(trust).max_by_key(|p| doubt(*p)).unwrap_or(Provenance::FromMemory);
        let citations = keys.0.iter().map(|k| source::cite(k)).collect();
        PropertySource { property, keys: keys.0.clone(), citations, provenance, note }
    }
}

const fn doubt(p: Provenance) -> u8 {
    match p {
        Provenance::Published => 0,
        Provenance::Computed => 1,
        Provenance::CommonPractice => 2,
        Provenance::FromMemory => 3,
    }
}
