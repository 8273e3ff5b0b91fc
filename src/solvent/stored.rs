//! How a solvent is written down and read back.

use super::build::{Place, build};
use super::pure::Solvent;
use super::record::Record;
use crate::names::fold;
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

/// A built-in solvent is its name; another is its whole record.
#[derive(Serialize, Deserialize)]
#[serde(untagged, expecting = "the name of a solvent, or its whole record")]
enum Stored {
    Name(String),
    Own {
        origin: String,
        solvent: Box<Record>,
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        components: Vec<Solvent>,
    },
}

impl Serialize for Solvent {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let stored = match super::find(self.name()) {
            Ok(builtin) if builtin == *self => Stored::Name(self.name().to_owned()),
            _ => Stored::Own {
                origin: self.0.origin.clone(),
                solvent: Box::new(self.record().clone()),
                components: self.surrogate().iter().map(|(s, _)| s.clone()).collect(),
            },
        };
        stored.serialize(serializer)
    }
}

impl<'de> Deserialize<'de> for Solvent {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        match Stored::deserialize(deserializer)? {
            Stored::Name(name) => super::find(&name).map_err(de::Error::custom),
            Stored::Own { origin, solvent, components } => {
                let find = |name: &str| {
                    let wanted = fold(name);
                    let own = components.iter().find(|s| s.all_names().any(|n| fold(n) == wanted));
                    own.cloned().map_or_else(|| super::find(name), Ok)
                };
                let place = Place { file: &origin, line: &|_| None };
                build(*solvent, &place, &find).map_err(de::Error::custom)
            }
        }
    }
}
