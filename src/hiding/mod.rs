//! How many passes until the ground no longer shows, and how much paint?
//!
//! A film scatters light back (S, per length) and swallows it (K). Kubelka and Munk follow one flux down and one up:
//!
//! ```text
//! R = [R_g + (1 − a R_g) T]/[1 + (a − R_g) T]     T = tanh(b S X)/b,  a = 1 + K/S,  b = √(a² − 1)
//! K/S = (1 − R∞)²/(2 R∞)                          R∞ = a − b, the film that hides
//! C = R₀/R₀.₈₀ ≥ 0.98                             hides (ASTM D2805, ISO 6504)
//! n = X/X₁,  X₁ = wet film per pass × volume solids of the mix
//! ```
//!
//! S and K are best fitted from a black and white card: by counting the passes that hide it
//! ([`HidingPower::from_card_passes`]) or by two readings of a meter ([`CardReading`]). Without a card, a colour class
//! gives a value good to a factor 2 ([`HidingPower::typical`]). Gloss is corrected after Saunderson ([`Gloss`]).
//!
//! Neglected: colour (one luminous reflectance stands for the spectrum), pigment crowding, light that leaves at the
//! edges, uneven film. Metallic and pearl flakes mirror instead of scattering; none of this holds for them. The closed
//! form agrees with numerical integration of the two fluxes within 1e-9; against real films take 10 % on the thickness
//! (judgement), and the range of the coefficients on top.
//!
//! Sources: Kubelka 1948, ASTM D2805, ISO 6504, Saunderson 1942; see `data/sources/hiding.toml`.

mod card;
mod gloss;
mod ground;
mod optics;
mod passes;
mod power;
mod typical;

pub use card::CardReading;
pub use gloss::Gloss;
pub use ground::{Criterion, Ground};
pub use optics::{Optics, absorption_over_scattering, from_two_grounds, scattering_power};
pub use passes::{Amounts, Job, Passes, dry_film_of_spray, dry_film_per_pass};
pub use power::HidingPower;
pub use typical::{ColourClass, Loss, typical_loss};
