//! A whole session: what do I mix, spray, wait for, rinse and buy, and how long does it take?
//!
//! State the layers from the part upwards ([`PlanLayer`]) and the bench ([`Session`]), and ask for the [`Plan`]:
//!
//! * passes: dry film of the job, or the film that hides when that is more, over the film of a pass
//!   ([`crate::spray::Shot`]), rounded up; laid in coats of some passes wet in wet;
//! * the mix of each layer, in drops and by volume: `V = A X/(VS TE)` (area, dry film, volume solids, share that lands:
//!   [`crate::hiding::Job`]), plus a margin and what the gun keeps;
//! * the wait between coats (flash-off or touch dry, whichever comes first), before the next layer (touch dry) and before
//!   masking (block-free): **upper ends** of the drying engine's intervals over what the coats below kept
//!   ([`crate::film::Film::over`]), and never less than the table of common practice asks for
//!   ([`crate::layers::coat_over_coat`]);
//! * a rinse after each layer ([`crate::rinse::Bench`]), a wash at the end;
//! * a timeline: a gun does one thing at a time, a person too; parts dry side by side; who shares a gun takes turns. A gun
//!   is rinsed while the layer dries; the next mix is made just before it is sprayed;
//! * materials with amounts and cost, exposure over each sitting where the room has a size ([`crate::safety::SessionAir`]:
//!   coats, rinses, and each person's open cups of mix and thinner, [`Session::cups_open`]), and the cautions.
//!
//! **No plan without cautions.** [`Plan`] has no public field and one maker; a file holds the session and the cautions,
//! the plan is worked out again when it is read, and a file whose cautions do not follow from its session is refused.
//! Isocyanate two-packs are refused by every name in a session.
//!
//! **Bench and clock.** Nobody sits by an enamel overnight: a wait of more than 2 h in which nobody works ([`Habits::away`])
//! is time away, every shorter one is spent at the bench ([`Plan::visits`]). How long it all takes ([`Plan::total`]) is
//! the timeline at best values, with an interval: each cause is taken to the ends of its own interval, the timeline is laid
//! out again, and what each adds or saves is combined by squares, never beyond all causes together at their ends,
//!
//! ```text
//! high = min(T + √Σ(T_i,high − T)², T_all high)        low alike
//! ```
//!
//! so that the interval is never narrower than that of any cause by itself. The causes: the pace of the handwork (all of it
//! together: the same hands), the pace of the spraying, and the drying of each paint: in one room all waits for one paint
//! move together, waits for another paint do not. What paints of one family share (their diffusion constants, the draught
//! of the room) is neglected here: a session of several alike spreads more, up to the sums in place of the squares.
//!
//! **How sure.** As its parts: film a pass good to a factor 2.5 and so passes and amounts; waits within their intervals;
//! handwork is common practice ([`Habits`]) within a factor 2. Spray a card first and count what it takes.
//!
//! Neglected: layers below the one that dries (a few micrometres that are dry), gradients in the film, the edge of a mask,
//! paint that thickens in the cup during the layer ([`crate::film::OpenCup`]), fetching and talking. A layer's coats are
//! taken as equally thick everywhere; the last may have fewer passes and is taken as thick as the others for its waits.

mod advice;
mod air;
mod amounts;
mod cups;
mod duration;
mod habits;
mod hint;
mod layer;
mod materials;
mod planned;
mod record;
mod schedule;
mod session;
mod steps;
mod tables;
mod visits;
mod waits;
mod wash;

pub use amounts::MixAmounts;
pub use habits::Habits;
pub use layer::PlanLayer;
pub use materials::{Material, MaterialKind};
pub use planned::PlannedLayer;
pub use record::Plan;
pub use session::{Price, Session};
pub use steps::{Step, What};
pub use visits::Visit;
pub use waits::Wait;
pub use wash::GunWash;
