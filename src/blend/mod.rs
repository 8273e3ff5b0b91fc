//! What does this thinner do? Liquids together: density, viscosity, vapour, fire, solvency, drying.
//!
//! ```
//! use mistcoat::blend::{Basis, Blend};
//! use mistcoat::quantity::{parse, show};
//! let thinner = Blend::from_names(
//!     &[("acetone", 50.0), ("n-butyl acetate", 35.0), ("2-butoxyethanol", 15.0)],
//!     Basis::Mass,
//!     Some("house thinner"),
//! )?;
//! let t = parse("20 °C")?;
//! thinner.require_one_liquid(t)?;
//! assert_eq!(show(thinner.density(t)?.best()), "0.836 g/mL");
//! println!("{}", thinner.viscosity(t)?);
//! println!("flash point {}", thinner.flash_point()?.unwrap());
//! # Ok::<(), mistcoat::Error>(())
//! ```
//!
//! A [`Blend`] holds *ingredients* (what is poured, petroleum cuts as they are sold) and *species* (pure
//! liquids, cuts replaced by their surrogate composition). Density, viscosity and Hansen parameters go by
//! ingredients; activities, vapour pressures, surface tension, flash point and drying by species.
//!
//! Each property states its rule, its source and its measured error on its own page: [`unifac`] and
//! [`Activity`] (activities), [`Phases`] (one liquid or two), [`hansen`] (solvency), and the methods of
//! [`Blend`].

mod activity;
mod bulk;
mod evaporation;
mod flash;
pub mod hansen;
mod miscibility;
mod parts;
mod phases;
mod surface;
pub mod unifac;

pub use activity::{Activity, Vapour};
pub use evaporation::{DryingRow, DryingTable};
pub use parts::{Basis, Ingredient, Species};
pub use phases::{Liquid, Phases};
pub use surface::winterfeld_scriven_davis;

use crate::solvent::Solvent;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// Solvents mixed in given proportions. Cheap to clone, never changed once made.
///
/// Two blends are equal when name, basis and amounts are; the order in which solvents are named does not
/// matter. In files a blend is its name, its basis and its recipe.
#[derive(Debug, Clone)]
pub struct Blend {
    name: Option<String>,
    basis: Basis,
    parts: Vec<(Solvent, f64)>,
    ingredients: Vec<Ingredient>,
    species: Vec<Species>,
    activity: Activity,
}

impl PartialEq for Blend {
    fn eq(&self, other: &Self) -> bool {
        self.name == other.name
            && self.basis == other.basis
            && self.parts.len() == other.parts.len()
            && self.parts.iter().all(|part| other.parts.contains(part))
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Stored {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    name: Option<String>,
    basis: Basis,
    parts: Vec<StoredPart>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct StoredPart {
    solvent: Solvent,
    amount: f64,
}

impl Serialize for Blend {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let parts = self
            .parts
            .iter()
            .map(|(solvent, amount)| StoredPart { solvent: solvent.clone(), amount: *amount })
            .collect();
        Stored { name: self.name.clone(), basis: self.basis, parts }.serialize(serializer)
    }
}

impl<'de> Deserialize<'de> for Blend {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        use serde::de::Error as _;
        let stored = Stored::deserialize(deserializer)?;
        let parts = stored.parts.into_iter().map(|p| (p.solvent, p.amount)).collect();
        Self::new(parts, stored.basis, stored.name.as_deref()).map_err(D::Error::custom)
    }
}

impl core::fmt::Display for Blend {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(&self.label())
    }
}
