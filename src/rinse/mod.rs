//! How to get from one colour to the next with the least cleaner?
//!
//! Poured out, a gun still holds `h` of liquid. Each portion `v` of cleaner mixes with it and is poured out in turn:
//!
//! ```text
//! f = Π h/(h + vᵢ)            share of the old paint left
//! V = n h (f^(−1/n) − 1)      n equal portions, the best split; never less than h ln(1/f)
//! c = f h/F                   share of the old paint in a fill F of the new one
//! ```
//!
//! How much may stay depends on the pair: black in white shows at 3 parts in 10 000, white in black at 9 in 100
//! ([`Shade::tolerates`], Kubelka-Munk mixing of [`crate::hiding`]). So light colours go first, and the order with the
//! least cleaner is found exactly ([`Bench::colour_order`]), and with prices the one that costs least, cheap cleaner before
//! good thinner where that pays ([`Bench::cheapest_order`]).
//!
//! Neglected: dried paint and dead corners. Dried or dried-on paint does not rinse: wipe, brush, and spray a test on
//! white card. Rinsing is well mixed only when the cleaner is swilled and sprayed through; the hold-up of a gun is known
//! to a factor 2 to 3 unless weighed. The colour threshold sees lightness only and is good to a factor 3 (judgement).
//!
//! Sources: extraction arithmetic of any chemistry text; Paravina and others 2015 for the thresholds; see
//! `data/sources/rinse.toml`.

mod change;
mod dilution;
mod gun;
mod order;
mod plan;
mod price;
mod shade;

pub use change::{Bench, Change};
pub use dilution::{
    Split, TwoStage, best_split, cheap_then_good, equal_portions, fraction_left, least_cleaner,
    portions_needed,
};
pub use gun::{Caution, Gun, cautions, weighed_hold_up};
pub use order::{BestOrder, MOST_COLOURS, best_order};
pub use plan::ColourOrder;
pub use price::{CheapCleaner, CleanerPrice, Cleaners, PricedChange, PricedOrder, PricedRinse};
pub use shade::{Shade, Tolerance, Tolerated, lightness};
