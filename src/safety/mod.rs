//! What is in my lungs, may it burn, and what must everybody know before opening the bottle?
//!
//! * [`mixture_exposure`]: the sum `Σ C/L` of the vapours in the air against the limits of an authority;
//!   [`time_weighted_average`];
//! * [`SessionAir`]: the room's air over a session of coats, cleanings and open cups against the limits, ventilation;
//! * [`near_gun`]: the air in the spray and around it against the lower flammable limit;
//! * [`lower_flammable_limit`], [`vapour_volume`], [`cupboard`], [`flammable_liquid`]: fire;
//! * [`cautions`]: the usual cautions for these materials and this work, each with its source.
//!
//! Many limits and flash points here are **from memory** and say so wherever they are shown. The safety data sheet of
//! the product, local codes and licensed practice decide. Isocyanate two-packs are refused when a paint is built ([`crate::paint::refuse_two_pack`]).

mod cautions;
mod exposure;
mod fire;
mod near_gun;
mod session;

pub use cautions::{Caution, Work, all_cautions, cautions};
pub use exposure::{
    Authority, EXCURSION, ExposureTerm, MixtureExposure, mixture_exposure, short_term_exposure,
    sum_of_shares, time_weighted_average,
};
pub use fire::{
    Cupboard, FlammableClass, FlammableLimit, FlammableLiquid, cupboard, flammable_liquid,
    lower_flammable_limit, vapour_volume,
};
pub use near_gun::{GunAir, NearGun, near_gun};
pub use session::{SessionAir, SessionExposure, SessionVapour, SourceKind, VapourSource, Ventilation};
