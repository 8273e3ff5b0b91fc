//! Paint, thinner and their mix: what is in the bottle, and what does so much thinner make of it?
//!
//! A [`Paint`] is a family ([`Family`], with typical values marked as common practice) and whatever the label or a
//! reading adds. [`Paint::thin`] makes a [`Mix`], which answers for viscosity, seconds in a cup, solids, film
//! build, VOC, drops and settling. Behind the viscosity stands one law with two constants ([`DilutionLaw`]):
//!
//! ```text
//! ln(η/ηs) = a x / (1 − b x),   x = volume of stock paint per volume of mix
//! ```
//!
//! | known | constants | measured error |
//! |---|---|---|
//! | family only | typical viscosity, family's `b` | the range of the family: a factor of 2.5 |
//! | stock timed once | family's `b` | waterborne 0.23 s in 20 s; polymer solutions 24 % |
//! | stock and one mix | both fitted | glycerol-water 3.3 %, polymer solutions 11 % (median) |
//!
//! Calibrate your own bottle with [`Paint::calibrated`]; keep it in a file with [`Paint::save`].
//!
//! ```
//! use mistcoat::blend::{Basis, Blend};
//! use mistcoat::dose::{Parts, Thinning};
//! use mistcoat::paint::Paint;
//! use mistcoat::quantity::{parse, show};
//! let green = Paint::load("data/demo/hull_green.toml")?;
//! let thinner = Blend::from_names(
//!     &[("acetone", 50.0), ("n-butyl acetate", 35.0), ("2-butoxyethanol", 15.0)], Basis::Mass, None)?;
//! let mix = green.thin(&thinner, Thinning::from_parts(Parts { thinner: 1.0, paint: 1.0 })?)?;
//! assert_eq!(show(mix.volume_solids().best), "11 %");
//! let eta = mix.viscosity(parse("21 °C")?)?;
//! assert!(eta.best().value < 0.03 && eta.estimate.high.value > 0.02);
//! # Ok::<(), mistcoat::Error>(())
//! ```

mod calibrate;
mod compatibility;
mod contents;
pub(crate) mod curing;
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
mod two_pack;
mod uncertain;

pub use calibrate::{Calibrated, Measured, PaintReading};
pub use contents::Voc;
pub use curing::OxidativeCure;
pub use drops::{Droppers, MixDrops};
pub use family::{Family, Typical};
pub use fit::{DilutionReading, READING_STD};
pub use law::{DilutionLaw, Viscosity};
pub use mix::Mix;
pub use prior::ShapePrior;
pub use settling::{Settling, settling};
pub use stock::{Paint, Pigment};
pub use temperature::ViscosityTemperature;
pub use two_pack::refuse_two_pack;
