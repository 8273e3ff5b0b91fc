//! How will it spray: how fine, how wet does it land, how thick is a pass, and what goes wrong at the gun?
//!
//! State the gun ([`Airbrush`]: bore, pressure, distance), spray a mix in a room, and ask the [`Shot`] for the drop size,
//! the loss in flight, the film of a pass, and for the [`crate::film::Film`] that a number of passes leaves. One chain:
//!
//! * air through the nozzle and its jet ([`crate::air::Orifice`], [`crate::air::Jet`]);
//! * paint flow by bore, pressure and viscosity ([`NozzleTypical`], or as weighed);
//! * drop size by an airblast correlation ([`Correlation`]), spread over classes ([`SizeSpread`]);
//! * flight of each class: evaporation with activities, cooling, water exchange, drag;
//! * wet film `h = Q TE V/(w v)`: flow, transfer efficiency, volume kept in flight, width of the pass, hand speed.
//!
//! **How sure.** Drop size within a factor 2 (three correlations differ by that, no airbrush was measured in print); loss
//! in flight follows it; film a pass within a factor 2.5 as long as flow and transfer efficiency are typical values. What
//! to measure first: the paint flow (weigh the cup), then the transfer efficiency (weigh the part). The single pieces are
//! checked against published tables and worked examples; a measured loss in flight of air spray was not found.
//!
//! Neglected: turbulence and the fan of a spray cap, gravity, skins on drops, paint that thins under shear, charge, the
//! edge of the part.
//!
//! Spray mist and vapour harm and burn. Extract them, wear a fitted mask with cartridges for organic vapour and particles,
//! and never spray two-packs with isocyanates at home; the safety data sheets, local codes and licensed practice decide.

mod airbrush;
mod atomise;
mod brief;
pub(crate) mod checks;
mod drop;
mod flight;
mod model;
mod nozzle;
mod report;
mod shot;
mod sizes;

pub use airbrush::Airbrush;
pub use atomise::{Atomisation, Correlation};
pub use drop::{drag_factor, sherwood_sphere};
pub use nozzle::NozzleTypical;
pub use shot::{DropClass, Shot};
pub use sizes::SizeSpread;
