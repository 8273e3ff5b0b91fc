//! Paint, thinner, their mix: what is in the bottle, and what does so much thinner make of it?

mod calibrate;
mod drops;
mod family;
mod file;
mod fit;
mod law;
mod mix;
mod prior;
mod settling;
mod stock;
mod temperature;
mod uncertain;

pub use calibrate::{Calibrated, Measured, PaintReading};
pub use drops::{Droppers, MixDrops};
pub use family::{Family, Typical};
pub use fit::{DilutionReading, READING_STD, ThinnerViscosity};
pub use law::{DilutionLaw, Viscosity};
pub use mix::{Mix, Voc};
pub use prior::ShapePrior;
pub use settling::{Settling, settling};
pub use stock::{Paint, Pigment};
pub use temperature::ViscosityTemperature;
