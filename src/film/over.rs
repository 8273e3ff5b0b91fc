//! How does a coat dry that was sprayed on one still wet?
//!
//! It lands on what the coats below kept and mixes with it ([`Film::over`]): amounts, solids and heat add up, and the whole
//! dries on. The gradient that the mixing takes time to even out is neglected. Checked against an independent integration
//! of stacks of two and three coats (`tests/data/film_programme_reference.csv`): times within 0.5 %.

use super::coat::Film;
use crate::air::Room;
use crate::blend::{Basis, Blend};
use crate::error::{Result, out_of_range};
use crate::quantity::{Length, Quantity, Time, VolumeFraction, as_text, show};
use serde::{Deserialize, Serialize};

/// More coats than anyone lays wet on wet.
const MOST_COATS: usize = 50;
/// Longest wait, s.
const LONGEST_S: f64 = 365.0 * 86_400.0;

/// A coat under another.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Earlier {
    pub(super) film: Film,
    /// From its landing to that of the next.
    #[serde(with = "as_text")]
    pub(super) wait: Time,
}

impl Film {
    /// This coat, sprayed on another one when that has dried for a time. The other's own room or programme holds
    /// until then; it may lie over others itself.
    ///
    /// Times of the drying count from the landing of this coat, and "volatile matter" is what it brings and what the film
    /// below still holds then. The new coat arrives at the temperature of its room and mixes at once with all of the
    /// film below; what carries them keeps its temperature. Neglected: the time that takes. Until it is even, the
    /// surface is wetter than said here (and dries faster), and a hard coat below lets less in than said.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a wait outside 0 s to 365 d, more than 50 coats, or coats that differ in
    /// substrate, part length or binder.
    ///
    /// ```
    /// use mistcoat::{air::Room, blend::{Basis, Blend}, film::{Binder, Film}};
    /// use mistcoat::quantity::{parse, RelativeHumidity, VolumeFraction};
    /// let thinner = Blend::from_names(&[("n-butyl acetate", 1.0)], Basis::Mass, None)?;
    /// let room = Room::new(parse("21 °C")?, RelativeHumidity::new(0.55)?)?;
    /// let coat = Film::new(&thinner, VolumeFraction::new(0.15)?, parse("20 µm")?, &room)?
    ///     .with_binder(Binder::new(parse("50 °C")?)?);
    /// let second = coat.clone().over(&coat, parse("5 min")?)?;
    /// assert_eq!(second.dry_build(), 2.0 * coat.dry_thickness());
    /// let day = parse("24 h")?; // the thicker film holds more of its solvent
    /// assert!(second.dry()?.residual_solvent(day)?.best() > coat.dry()?.residual_solvent(day)?.best());
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn over(mut self, under: &Self, wait: Time) -> Result<Self> {
        if !(0.0..=LONGEST_S).contains(&wait.si()) {
            return Err(out_of_range(
                "wait before the next coat",
                show(wait),
                "0 s to 365 d",
                "count from the landing of the coat below; its flash-off is the usual wait",
            ));
        }
        let differs = [
            (
                "substrate",
                self.substrate() == under.substrate(),
                self.substrate().to_string(),
                under.substrate().to_string(),
            ),
            (
                "part length",
                self.part_length() == under.part_length(),
                show(self.part_length()),
                show(under.part_length()),
            ),
            (
                "binder",
                self.binder() == under.binder() && self.dispersion() == under.dispersion(),
                glass(&self),
                glass(under),
            ),
        ];
        if let Some((what, _, here, there)) = differs.into_iter().find(|(_, same, ..)| !same) {
            return Err(out_of_range(
                format!("{what} of the coat on top"),
                here,
                format!("that of the coat below, {there}"),
                "coats that mix are coats of one paint on one part; another paint waits until the first is hard",
            ));
        }
        let mut below = under.clone();
        let mut earlier = core::mem::take(&mut below.earlier);
        earlier.push(Earlier { film: below, wait });
        earlier.append(&mut self.earlier);
        if earlier.len() >= MOST_COATS {
            return Err(out_of_range(
                "coats on one another",
                (earlier.len() + 1).to_string(),
                format!("at most {MOST_COATS}"),
                "let the first coats dry and start from the dry part",
            ));
        }
        self.earlier = earlier;
        Ok(self)
    }

    /// Coats, from the first to this one.
    pub(super) fn all_coats(&self) -> impl Iterator<Item = &Self> {
        self.earlier.iter().map(|e| &e.film).chain([self])
    }

    /// The air of this coat, in order.
    pub(super) fn rooms(&self) -> impl Iterator<Item = &Room> {
        core::iter::once(&self.room).chain(self.changes.iter().map(|c| &c.room))
    }

    /// The air in the end.
    pub(super) fn last_room(&self) -> &Room {
        self.changes.last().map_or(&self.room, |c| &c.room)
    }

    /// All coats laid at once: same liquids and solids, the air of the last coat.
    pub(super) fn as_one_coat(&self) -> Result<Self> {
        if self.earlier.is_empty() {
            return Ok(self.clone());
        }
        let wet = self.all_coats().fold(Length::from_si(0.0), |sum, coat| sum + coat.wet_thickness());
        let solids = self.dry_build().si() / wet.si();
        let same = self.all_coats().all(|coat| coat.volatile() == self.volatile());
        let volatile = if same {
            self.volatile().clone()
        } else {
            let mut parts = Vec::new();
            for coat in self.all_coats() {
                let volume = (coat.wet_thickness() - coat.dry_thickness()).si();
                let liquids = coat.volatile().ingredients().iter();
                parts.extend(liquids.map(|i| (i.solvent.clone(), volume * i.volume_fraction)));
            }
            Blend::new(parts, Basis::Volume, None)?
        };
        let std: f64 = self.all_coats().map(Self::thickness_std_m).sum();
        let one = Self::new(&volatile, VolumeFraction::new(solids)?, wet, &self.room)?
            .with_programme(self.programme())
            .with_substrate(self.substrate().clone())
            .with_part_length(self.part_length())?
            .with_wet_thickness_uncertainty(Length::from_si(std))?
            .until(self.followed_for())?;
        Ok(one.hardening_like(self))
    }

    /// Thickness of the solids of this coat and of all under it: the dry film build.
    pub fn dry_build(&self) -> Length {
        self.all_coats().fold(Length::from_si(0.0), |sum, coat| sum + coat.dry_thickness())
    }
}

fn glass(film: &Film) -> String {
    if let Some(particles) = film.dispersion() {
        return format!("particles that form a film from {}", show(particles.bare().best));
    }
    film.binder().map_or_else(
        || "none".to_owned(),
        |b| format!("{} glass transition", show(b.glass_transition().best)),
    )
}
