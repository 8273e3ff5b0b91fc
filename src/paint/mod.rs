//! Paint, thinner, their mix: what is in the bottle, and what does so much thinner make of it?

mod family;
mod fit;
mod law;
mod prior;
mod settling;
mod temperature;
mod uncertain;

pub use family::{Family, Typical};
pub use fit::{DilutionReading, READING_STD, ThinnerViscosity};
pub use law::{DilutionLaw, Viscosity};
pub use prior::ShapePrior;
pub use settling::{Settling, settling};
pub use temperature::ViscosityTemperature;
