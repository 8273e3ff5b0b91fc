//! What is this liquid? Pure solvents and petroleum cuts: how heavy, how thin, how fast it leaves, when it
//! burns.
//!
//! ```
//! use mistcoat::quantity::{parse, show, Temperature};
//! let s = mistcoat::solvent::find("N-Butyl Acetate")?;
//! let t: Temperature = parse("20 °C")?;
//! assert_eq!(show(s.density(t)?.best), "0.881 g/mL");
//! assert_eq!(s.evaporation_class()?.to_string(), "medium");
//! println!("flash point {}", s.flash_point().unwrap());
//! # Ok::<(), mistcoat::Error>(())
//! ```
//!
//! The catalogue holds water and 57 solvents of the paint trade, in human-readable files under
//! `data/solvents/`, every value with its source; files of the same form add others ([`Catalogue::load`]).
//! Equations, each with its range on the function: a line for density and surface tension, `ln eta = a + b/T`
//! for viscosity, Antoine, Wagner, DIPPR and IAPWS forms for vapour pressure, Watson for the heat of
//! vaporisation, Fuller for the diffusivity in air.
//!
//! Measured: 37 of the vapour pressures lie within 3 % of an independent median at 20 °C, the rest say how
//! far they may be off; evaporation rates are predicted with a median error of 8 % (see [`EvaporationClass`]).
//! Neglected: pressure, dissolved water, stabilisers, and what one maker's grade differs from another's.

mod build;
mod catalogue;
mod evaporation;
mod kernel;
mod provenance;
mod pure;
mod record;
mod spread;
mod vapour;

pub use catalogue::Catalogue;
pub use evaporation::{EvaporationClass, ScaleFamily};
pub use kernel::{AIR_FULLER_VOLUME, AIR_MOLAR_MASS_KG_MOL, ATMOSPHERE_PA, GAS_CONSTANT_J_MOL_K, PureKernel};
pub use provenance::{PROPERTIES, PropertySource, SafetyValue};
pub use pure::{Groups, Hansen, Solvent};
pub use record::{
    Concentration, ExposureLimit, Keys, LimitKind, Other, PolystyreneAttack, PublishedRate, RateScale,
};

use crate::error::Result;

/// The built-in solvent of this name, identifier or synonym; case, hyphens and spaces do not matter.
///
/// # Errors
/// [`crate::error::UnknownName`] with near names.
///
/// ```
/// let e = mistcoat::solvent::find("acetne").unwrap_err().to_string();
/// assert!(e.contains("did you mean \"acetone\""), "{e}");
/// ```
pub fn find(name: &str) -> Result<Solvent> {
    Catalogue::builtin()?.find(name)
}
