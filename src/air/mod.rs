//! The room you paint in: how damp it is, how fast it carries vapour and heat away from a coat.
//!
//! * [`Room`]: temperature, relative humidity, draught, size; its dew point and wet bulb.
//! * [`Draught`]: usual air speeds.
//! * [`psychrometrics`]: water vapour in air.
//! * [`properties`]: density, viscosity and conductivity of dry air.
//! * [`Orifice`], [`Restriction`]: compressed air through a nozzle.
//! * [`Jet`]: the air of a gun on its way to the part.
//! * [`RoomVapour`]: vapour in the air of the room over a session.
//! * [`transfer`]: mass and heat transfer between a flat part and the air around it.
//!
//! ```
//! use mistcoat::air::Room;
//! use mistcoat::quantity::{parse, show, RelativeHumidity};
//! let shed = Room::new(parse("12 °C")?, RelativeHumidity::new(0.85)?)?;
//! assert_eq!(show(shed.dew_point()?), "9.6 °C");
//! # Ok::<(), mistcoat::Error>(())
//! ```

pub(crate) mod build_up;
mod draught;
mod jet;
mod orifice;
pub mod properties;
pub mod psychrometrics;
mod room;
pub mod transfer;
mod vapour;

pub use draught::Draught;
pub use jet::Jet;
pub use orifice::{Orifice, Restriction, critical_pressure_ratio};
pub use room::Room;
pub(crate) use vapour::vapour_mixing;
pub use vapour::{Release, RoomVapour};
