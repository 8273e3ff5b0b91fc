//! When may it be touched, when handled, masked and recoated, and how much solvent is still in it?
//!
//! Hardness follows how far the film is above its glass transition ([`super::binder`]): viscosity by Williams, Landel and
//! Ferry is 1e12 Pa s at Tg, `log₁₀ η = 12 − 17.44 ΔT/(51.6 + ΔT)`.
//!
//! * **Touch dry**: T − Tg has fallen to 55 K, 1e3 Pa s: a light finger takes nothing away, though it may feel
//!   sticky. ASTM D1640 calls this set-to-touch.
//! * **Block-free**: T − Tg has fallen to 21 K, 1e7 Pa s: two painted faces pressed together for seconds come apart
//!   clean. This is the state in which a part may be handled and masked; D1640's dry-through (a pressed and
//!   twisted thumb leaves no wrinkle) and the print-free state of ISO 9117-6 lie here or later.
//! * **Residual solvent**: volume of what the coat arrived with and still holds, as a share of it and the solids.
//!
//! No published rule says when a lacquer may be *recoated*: lifting depends on the solvents of the next coat. Block-free
//! is the earliest sensible time, and no promise.
//!
//! For films with a [`super::Binder`]; the touch dry of what coalesces from water is in [`super::Dispersion`], and for what
//! hardens by oxygen the error names the range of common practice ([`super::Film::oxidative_cure`]).
//!
//! Checked against an independent integration of 175 films (`tests/data/film_reference.csv`, `tests/data/film_catalogue_reference.csv`): marks within 0.1 %. The
//! model itself knows the dry stage within a factor 3.

use super::dispersion;
use super::drying::Drying;
use super::engine::{BLOCK_FREE_K, TOUCH_DRY_K};
use super::trace::{Segment, Trace};
use crate::answer::Answer;
use crate::error::{Error, Result, out_of_range};
use crate::estimate::Scale;
use crate::quantity::{Quantity, Ratio, Time, show};
use crate::working::Step;

/// Which mark: place in the list of the engine, name, kelvin above the glass transition.
#[derive(Debug, Clone, Copy)]
struct Mark {
    index: usize,
    name: &'static str,
    above_k: f64,
}

const TOUCH_DRY: Mark = Mark { index: 0, name: "touch dry", above_k: TOUCH_DRY_K };
const BLOCK_FREE: Mark = Mark { index: 1, name: "block-free", above_k: BLOCK_FREE_K };

impl Drying {
    /// When a light touch takes nothing away: the film is 55 K above its glass transition; a [`super::Dispersion`] has packed
    /// and lost its water.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a coat without a [`super::Binder`], or one that stays softer while it
    /// is followed.
    ///
    /// ```
    /// use mistcoat::{air::Room, blend::{Basis, Blend}, film::{Binder, Film}};
    /// use mistcoat::quantity::{parse, RelativeHumidity, VolumeFraction};
    /// let thinner = Blend::from_names(&[("n-butyl acetate", 1.0)], Basis::Mass, None)?;
    /// let room = Room::new(parse("25 °C")?, RelativeHumidity::new(0.5)?)?;
    /// let dry = Film::new(&thinner, VolumeFraction::new(0.15)?, parse("25 µm")?, &room)?
    ///     .with_binder(Binder::new(parse("50 °C")?)?)
    ///     .dry()?;
    /// assert!(dry.touch_dry()?.best() < dry.block_free()?.best());
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn touch_dry(&self) -> Result<Answer<Time>> {
        if self.film().dispersion().is_some() {
            return dispersion::touch_dry(self);
        }
        self.mark(TOUCH_DRY)
    }

    /// When faces pressed together come apart clean: the film is 21 K above its glass transition. The earliest time
    /// to handle, mask or recoat; a next coat with strong solvents may lift it even then.
    ///
    /// # Errors
    /// As [`Drying::touch_dry`].
    pub fn block_free(&self) -> Result<Answer<Time>> {
        self.mark(BLOCK_FREE)
    }

    fn mark(&self, mark: Mark) -> Result<Answer<Time>> {
        let best = self.soft_until_s[mark.index].ok_or_else(|| self.stays_soft(mark))?;
        let read = |trace: &Trace| trace.soft_until_s[mark.index].ok_or_else(|| self.stays_soft(mark));
        self.answer(best, Scale::Log, read, |result| {
            Step::new(
                format!("time until {}", mark.name),
                "T − Tg, 1/Tg = Σ w/Tg",
                r"T - T_g,\quad 1/T_g = \sum_i w_i/T_{g,i}",
            )
            .numbers(format!("T − Tg falls to {} K", mark.above_k))
            .result(result)
            .source("FOX")
        })
    }

    fn stays_soft(&self, mark: Mark) -> Error {
        let film = self.film();
        let Some(binder) = film.binder().filter(|_| film.dry_build().si() > 0.0) else {
            let remedy = if let Some(cure) = film.oxidative_cure() {
                format!("this paint hardens by oxygen, which is not computed: {cure}")
            } else if film.dispersion().is_some() {
                "a dispersion goes on hardening for days after touch dry, as its glycols and aids leave; handle it after a day and \
                 recoat after an hour or two as the label says (common practice)"
                    .to_owned()
            } else {
                "give Film::with_binder its glass transition, or Film::with_dispersion for particles in water"
                    .to_owned()
            };
            return out_of_range(
                format!("hardness at which a coat is {}", mark.name),
                "unknown",
                "films with solids and a binder that hardens by losing solvent",
                remedy,
            );
        };
        let softest = self.least_above_glass_k.unwrap_or(f64::INFINITY);
        out_of_range(
            format!("distance of the film from its glass transition at which it is {}", mark.name),
            format!("{} K", mark.above_k),
            format!("{softest:.0} K, what this coat comes down to in {}", show(film.followed_for())),
            format!(
                "the dry binder turns glassy at {}: dry it cooler, use a harder binder, or follow the coat longer with `until`",
                show(binder.glass_transition().best)
            ),
        )
    }

    /// Solvent left at a time: volume of what the coat arrived with and still holds, as a share of that and the
    /// solids. Water taken up from the air does not count; what is under a ten-thousandth of all that arrived is
    /// not followed.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a negative time, one beyond the time followed, or a coat without solids.
    pub fn residual_solvent(&self, time: Time) -> Result<Answer<Ratio>> {
        let film = self.film();
        if !(0.0..=film.followed_for().si()).contains(&time.si()) {
            return Err(out_of_range(
                "time",
                show(time),
                format!("0 s to {}, as long as the coat is followed", show(film.followed_for())),
                "count from the wet coat; follow it longer with `until`",
            ));
        }
        let solids_m = film.dry_build().si();
        if solids_m <= 0.0 {
            return Err(out_of_range(
                "volume solids",
                film.solids().to_string(),
                "more than 0 %",
                "a film without solids has nothing for solvent to stay in; ask composition_at or time_to_lose",
            ));
        }
        let best = residual_share(&self.segments, solids_m, time.si());
        let moved = |trace: &Trace| Ok(residual_share(&trace.segments, trace.solids_m, time.si()));
        self.answer(best, Scale::Log, moved, |result| {
            Step::new(
                format!("solvent left after {}", show(time)),
                "V/(V + V_solids)",
                r"V/(V + V_\mathrm{solids})",
            )
            .result(result)
            .source("FILM_DIFFUSION")
        })
    }
}

/// Volume of what the coats brought and the film still holds, as a share of it and the solids.
pub(super) fn residual_share(segments: &[Segment], solids_m: f64, time_s: f64) -> f64 {
    let within = segments.iter().find(|s| time_s <= s.t1_s).or(segments.last());
    let volume_m = within.map_or(0.0, |s| s.volume_m(time_s).max(0.0));
    volume_m / (volume_m + solids_m)
}
