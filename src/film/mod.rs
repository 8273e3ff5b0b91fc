//! When is the coat ready for the next one? A thin coat losing its solvent in a room.
//!
//! State the wet coat ([`Film`]), dry it, and ask the result ([`Drying`]) for [`Drying::flash_off`], for the
//! time to lose any share, for what is left when, for the film temperature and the risk of dew.
//!
//! The model, in one page:
//!
//! * every species leaves with `J = k F (a psat(T_s) − p_room)/(R T)`: gas-side coefficient ([`crate::air`]),
//!   Stefan factor, activity by UNIFAC ([`crate::blend`]);
//! * water goes both ways with the humidity of the room;
//! * evaporation cools the film, air and [`Substrate`] warm it;
//! * binder and pigment stay and hold the solvent back (Flory and Huggins);
//! * with a [`Binder`], the film itself resists more and more as it stiffens;
//! * the air may change with time ([`Programme`]), and a coat may lie on what others kept ([`Stack`]).
//!
//! Checked against: the exact solution of the ideal isothermal film (1e-6 at a tight tolerance); an independent
//! integration of the same equations for 156 films in `tests/data/film_reference.csv` and 200 over the whole catalogue in
//! `tests/data/film_catalogue_reference.csv`: times to lose 50, 90 and 99 % within 0.4 % and 0.21 % (one film of hydrocarbons
//! that gathers dew and parts: 0.5 %), marks within 0.1 %, coldest within 0.07 K; changing air and stacks against the same in `tests/data/film_programme_reference.csv`. Measured drying curves
//! of blends were not found in print; the flux law with one constant reproduces 37 published evaporation rates within a
//! factor 1.17 (rms), 1.21 over the 14 that were seen in a source. The wider, rounded to 1.22, is the model error in
//! every interval.
//!
//! Neglected, and what it does: without a [`Binder`] diffusion inside the film (times past about 15 vol% of
//! solvent left in a hard binder are then too short); solvent vapour in the room, which is taken as none (too short in a
//! small closed room, [`crate::air::RoomVapour`] tells how much there is); oxidation (when an alkyd or an oil is hard is
//! common practice, [`Film::oxidative_cure`]); gradients across the film, a skin that closes early, sorption into what
//! lies below; what spraying takes on the way, unless the drops are followed first ([`crate::spray`]). What waterborne
//! paint does is in [`Dispersion`]; levelling, runs and whitening are in [`Lay`] and [`Blush`].

mod advice;
mod binder;
mod blush;
mod brief;
mod coat;
mod course;
mod dispersion;
mod drying;
mod engine;
mod evaporometer;
mod flash_off;
mod flow;
mod lay;
mod levelling;
mod liquid;
mod marks;
mod mask_edge;
mod moment;
mod monotone;
mod open_cup;
mod over;
mod polymer;
mod programme;
mod root;
mod solver;
mod stack;
mod stored;
mod substrate;
mod surface;
mod table;
mod tip;
mod trace;
mod viscosity;
mod volatile;
mod wind;
mod window;
mod yielding;

#[cfg(test)]
mod engine_tests;

// For the drops that become the film.
pub(crate) use course::{is_water, wet_surface};
pub(crate) use engine::{SOLIDS_HEAT_J_M3_K, TOUCH_DRY_K};
pub(crate) use polymer::exponent as polymer_exponent;
pub(crate) use surface::Surface;
pub(crate) use wind::stefan_factor;
pub(crate) use yielding::{check_yield_stress, thinned as thinned_yield_stress};

pub use binder::Binder;
pub use blush::Blush;
pub use coat::Film;
pub use dispersion::Dispersion;
pub use drying::Drying;
pub use evaporometer::EvaporationTest;
pub use flash_off::FLASH_OFF_SHARE;
pub use flow::Flow;
pub(crate) use lay::ripple_words;
pub use lay::{Lay, Limit, Limits, Ripple};
pub use levelling::{levelling_rate, sag_speed};
pub use mask_edge::{Mask, MaskEdge};
pub use open_cup::{CupCourse, OpenCup, TopUp};
pub use programme::{Phase, Programme};
pub use stack::{Stack, StackDrying};
pub use substrate::{Substrate, WarmLimit};
pub use table::{BadRows, DriedTable, DryTable, RowState, Setting};
pub(crate) use tip::wipe_every;
pub use tip::{Tip, TipDrying, tip_drying};
pub use window::FilmWindow;
pub use yielding::hanging_thickness;
