//! How much of each? Drops, parts, percent and mass, and what they do to the paint.
//!
//! One measure stands inside everything: the paint fraction `x`, the share of stock paint in the volume of
//! the mix ([`Thinning`]). Words become `x` and `x` becomes words:
//!
//! | wording | paint fraction x |
//! |---|---|
//! | `n` parts thinner to `m` parts paint | m/(n + m) |
//! | thinner `p` percent of the paint's volume | 100/(100 + p) |
//! | thinner `p` percent of the mix | 1 − p/100 |
//!
//! A bare "2:1" is refused, because read backwards it is 0.667 against 0.333: half the solids.
//!
//! A drop has no fixed volume: it grows with surface tension over density and with the tip, so equal counts
//! of an alcohol thinner and a water paint are far from 1:1 ([`Dropper`], [`drop_recipes`]).
//!
//! Volumes are taken to add. Alcohol with water shrinks by a few percent, which is neglected.
//!
//! ```
//! use mistcoat::dose::{Parts, Thinning};
//! let mix = Thinning::from_parts(Parts { thinner: 2.0, paint: 1.0 })?;
//! assert!((mix.paint_fraction().get() - 1.0 / 3.0).abs() < 1e-15);
//! let e = Thinning::from_text("2:1").unwrap_err().to_string();
//! assert!(e.contains("thinner=2, paint=1") && e.contains("thinner=1, paint=2"));
//! # Ok::<(), mistcoat::Error>(())
//! ```

mod batch;
mod counting;
mod drop_weight;
mod dropper;
mod film_build;
mod pigment;
mod recipe;
mod text;
mod thinning;
mod voc;

pub use batch::{Alligation, Batch, Repair, alligation};
pub use counting::{Counting, counted_volume};
pub use drop_weight::{drop_factor, tip_ratio};
pub use dropper::Dropper;
pub use film_build::{
    dry_film, practical_spreading_rate, spreading_rate, thinned_solids, volume_solids_from_resin,
    volume_solids_from_volatile, wet_film,
};
pub use pigment::{cpvc, cut_of_solution, cut_of_solvent, pvc};
pub use recipe::{DropRecipe, DropVolumes, drop_recipes};
pub use thinning::{Densities, Parts, Thinning};
pub use voc::{VocContent, voc_after_thinning};
