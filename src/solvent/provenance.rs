//! Which source stands behind a property, and how far to trust it.

use super::pure::Solvent;
use super::record::{Keys, Line, Other, Sourced};
use crate::error::{Result, unknown_name};
use crate::quantity::{Quantity, as_text, show};
use crate::source::{self, Provenance};
use serde::{Deserialize, Serialize};

/// The source of one property of one solvent.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize, Deserialize)]
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
    /// What other sources give, each with its source.
    pub others: Vec<String>,
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
    /// [`crate::error::UnknownName`] for any other name.
    ///
    /// ```
    /// let s = mistcoat::solvent::find("methanol")?.source("flash_point")?.unwrap();
    /// assert!(s.is_from_memory());
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn source(&self, property: &str) -> Result<Option<PropertySource>> {
        let r = self.record();
        let key = |key: &str| Some(self.describe(property, &Keys(vec![key.to_owned()]), None));
        let or_key = |cited: Option<PropertySource>, fallback: &str| cited.or_else(|| key(fallback));
        Ok(match property {
            "molar_mass" => or_key(self.sourced(property, r.molar_mass.as_ref()), "IUPAC"),
            "boiling_point" => self.sourced(property, Some(&r.boiling_point)),
            "melting_point" => or_key(self.sourced(property, r.melting_point.as_ref()), "EST_TM"),
            "density" => Some(self.line(property, &r.density)),
            "viscosity" => {
                let v = &r.viscosity;
                Some(self.with_others(property, &v.source, v.note.as_deref(), &v.other))
            }
            "surface_tension" => Some(self.line(property, &r.surface_tension)),
            "vapour_pressure" => {
                let v = &r.vapour_pressure;
                Some(self.with_others(property, &v.source, v.note.as_deref(), &v.other))
            }
            "heat_of_vaporisation" => {
                or_key(self.sourced(property, r.heat_of_vaporisation.as_ref()), "CLAUSIUS")
            }
            "heat_capacity_per_kelvin" => {
                or_key(self.sourced(property, r.heat_capacity_per_kelvin.as_ref()), "EST_CP")
            }
            "diffusivity" => key("FULLER69"),
            "relative_evaporation_rate" => {
                let used = r.evaporation_rates.iter().filter(|p| p.used).map(|p| &p.source);
                self.joint(property, used, None)
            }
            "predicted_relative_evaporation_rate" => key("WETBULB"),
            "flash_point" => self.sourced(property, r.flash_point.as_ref()),
            "lower_flammable_limit" => self.sourced(property, r.lower_flammable_limit.as_ref()),
            "upper_flammable_limit" => self.sourced(property, r.upper_flammable_limit.as_ref()),
            "exposure_limits" => {
                let all = r.exposure_limits.iter().map(|l| &l.source);
                self.joint(property, all, r.safety_note.as_deref())
            }
            "hansen" => r.hansen.as_ref().map(|h| self.describe(property, &h.source, h.note.as_deref())),
            "unifac" => r.unifac.as_ref().map(|u| self.describe(property, &u.source, u.note.as_deref())),
            "voc_exempt" => {
                r.voc_exempt.as_ref().map(|f| self.describe(property, &f.source, f.note.as_deref()))
            }
            "odour_threshold" => self.sourced(property, r.odour_threshold.as_ref()),
            "polystyrene_attack" => {
                r.polystyrene.as_ref().map(|f| self.describe(property, &f.source, f.note.as_deref()))
            }
            other => return Err(unknown_property(other)),
        })
    }

    pub(super) fn sourced<Q: Quantity>(
        &self,
        property: &str,
        s: Option<&Sourced<Q>>,
    ) -> Option<PropertySource> {
        s.map(|s| self.with_others(property, &s.source, s.note.as_deref(), &s.other))
    }

    fn line<Q: Quantity>(&self, property: &str, l: &Line<Q>) -> PropertySource {
        self.with_others(property, &l.source, l.note.as_deref(), &l.other)
    }

    fn with_others<Q: Quantity>(
        &self,
        property: &str,
        keys: &Keys,
        note: Option<&str>,
        others: &[Other<Q>],
    ) -> PropertySource {
        let text = |o: &Other<Q>| {
            let cited: Vec<String> = o.source.0.iter().map(|k| source::cite(k)).collect();
            let note = o.note.as_ref().map_or_else(String::new, |n| format!(" [{n}]"));
            format!("{}: {}{note}", show(o.value), cited.join("; "))
        };
        PropertySource { others: others.iter().map(text).collect(), ..self.describe(property, keys, note) }
    }

    /// The sources of a list of values; None when it is empty.
    fn joint<'a>(
        &self,
        property: &str,
        all: impl Iterator<Item = &'a Keys>,
        note: Option<&str>,
    ) -> Option<PropertySource> {
        let mut keys: Vec<String> = Vec::new();
        let mut any = false;
        for key in all.inspect(|_| any = true).flat_map(|k| &k.0) {
            if !keys.contains(key) {
                keys.push(key.clone());
            }
        }
        any.then(|| self.describe(property, &Keys(keys), note))
    }

    pub(super) fn describe(&self, property: &str, keys: &Keys, note: Option<&str>) -> PropertySource {
        let keys = if keys.is_empty() { &self.record().source } else { keys };
        // A citation in full counts as published: its author saw it.
        let trust = |key: &String| source::find(key).map_or(Provenance::Published, |s| s.provenance);
        let mut citations: Vec<String> = keys.0.iter().map(|k| source::cite(k)).collect();
        if citations.is_empty() {
            citations.push(format!("{}, which names no source", self.0.origin));
        }
        PropertySource {
            property: property.to_owned(),
            keys: keys.0.clone(),
            citations,
            provenance: keys.0.iter().map(trust).max_by_key(|p| doubt(*p)).unwrap_or(Provenance::FromMemory),
            note: note.map(str::to_owned),
            others: Vec::new(),
        }
    }
}

fn unknown_property(name: &str) -> crate::Error {
    unknown_name(
        "property",
        name,
        PROPERTIES,
        "write it as the property is called, such as density, vapour_pressure, flash_point, hansen",
    )
}

const fn doubt(p: Provenance) -> u8 {
    match p {
        Provenance::Published => 0,
        Provenance::Computed => 1,
        Provenance::CommonPractice => 2,
        Provenance::FromMemory => 3,
    }
}
