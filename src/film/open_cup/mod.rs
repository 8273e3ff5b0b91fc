//! How long does the mix in my open cup stay as thin as I made it, and how many drops bring it back?
//!
//! A pot of diameter d holds the mix to a depth; the liquid stands some way below the rim. Every species leaves by the
//! law of the film ([`super`]): `J = k F (a psat − p_room)/(R T)`, with the pot's diameter as length. Below the rim
//! the gas is at rest, in series with the moving air: `1/k' = 1/k + H/D` (Stefan's tube). The liquid is well mixed; its
//! heat comes from the air above and through the wall of the pot under it.
//!
//! **Viscosity.** What is left holds more solids: the paint fraction `x = VS(t)/VS_stock` goes into the dilution law of the
//! mix, and the liquid's own viscosity follows its composition:
//! `η(t) = η(0) · [η_liquid(t)/η_liquid(0)] · exp[a x/(1 − b x) − a x₀/(1 − b x₀)]`.
//!
//! **Drops.** What leaves first is the fast part. Whole thinner brings back the viscosity, but the restored mix holds more
//! slow solvent and dries slower: [`TopUp`] tells its composition and by how much.
//!
//! Neglected: the level sinking (it makes the pot slower), a skin (stir it), heat through the side of the wall, that the
//! solvent left may be a poorer one, in which resin thickens more, and that vapour gathers over a pot in a dead corner.
//! Past the stock paint (x above 1) the dilution law is followed beyond its readings, with a warning.
//!
//! Checked against: the textbook case of water at the bottom of a still tube (Geankoplis, from memory: 1.595e-7
//! kmol/(m2 s)), 1 % with its diffusivity and 4 % with ours. The flux law itself holds within a factor 1.22.

mod course;
pub(crate) mod run;
mod top_up;

pub use course::CupCourse;
pub use top_up::TopUp;

use self::run::{Pool, Thickening};
use super::coat::Moved;
use super::substrate::Substrate;
use crate::air::Room;
use crate::error::{Result, out_of_range};
use crate::paint::Mix;
use crate::quantity::{Length, Quantity, Time, as_text, show};
use serde::{Deserialize, Serialize};

/// Pots from a thimble to a paint can, m.
const DIAMETER_M: (f64, f64) = (5e-3, 0.5);
/// Depth of the mix, m.
const DEPTH_M: (f64, f64) = (2e-4, 0.3);
/// Most free height below the rim, m.
const FREEBOARD_M: f64 = 0.3;
/// Wall of a plastic mixing cup, m (source key `MIXING_CUP`).
const WALL_M: f64 = 1e-3;
/// A session, and the longest followed, s.
const UNTIL_S: f64 = 4.0 * 3600.0;
const LONGEST_S: f64 = 7.0 * 86_400.0;

/// A small open pot with a mix in it.
///
/// Defaults: filled to the rim (as fast as it can go), a wall of 1 mm of polystyrene, followed for 4 h.
///
/// ```
/// use mistcoat::{air::Room, blend::{Basis, Blend}, dose::{Dropper, Parts, Thinning}, film::OpenCup};
/// use mistcoat::{paint::{Family, Paint}, quantity::{parse, Quantity, RelativeHumidity}};
/// let paint = Paint::typical(Family::SolventLacquer, "hull green")?;
/// let thinner = Blend::from_names(&[("acetone", 40.0), ("n-butyl acetate", 60.0)], Basis::Volume, None)?;
/// let mix = paint.thin(&thinner, Thinning::from_parts(Parts { thinner: 1.0, paint: 1.0 })?)?;
/// let room = Room::new(parse("21 °C")?, RelativeHumidity::new(0.5)?)?;
/// let course = OpenCup::new(&mix, parse("30 mm")?, parse("8 mm")?, &room)?.with_freeboard(parse("10 mm")?)?.stand()?;
/// let fifth = course.time_to_thicken(parse("20 %")?)?;
/// let again = course.top_up(fifth.best(), &Dropper::tip(parse("3 mm")?)?)?;
/// assert!(again.drops.best.si() > 1.0 && again.evaporation_rate.value < 1.0);
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Record", into = "Record")]
pub struct OpenCup {
    mix: Mix,
    diameter: Length,
    depth: Length,
    freeboard: Length,
    room: Room,
    pot: Substrate,
    until: Time,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    mix: Mix,
    #[serde(with = "as_text")]
    diameter: Length,
    #[serde(with = "as_text")]
    depth: Length,
    #[serde(with = "as_text")]
    freeboard: Length,
    room: Room,
    pot: Substrate,
    #[serde(with = "as_text")]
    until: Time,
}

impl From<OpenCup> for Record {
    fn from(c: OpenCup) -> Self {
        Self {
            mix: c.mix,
            diameter: c.diameter,
            depth: c.depth,
            freeboard: c.freeboard,
            room: c.room,
            pot: c.pot,
            until: c.until,
        }
    }
}

impl TryFrom<Record> for OpenCup {
    type Error = crate::error::Error;
    fn try_from(r: Record) -> Result<Self> {
        Self::new(&r.mix, r.diameter, r.depth, &r.room)?
            .with_pot(r.pot)
            .with_freeboard(r.freeboard)?
            .until(r.until)
    }
}

impl OpenCup {
    /// A round pot of this inner diameter, holding the mix to this depth.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a diameter outside 5 to 500 mm, a depth outside 0.2 to 300 mm, or a room
    /// outside 0 to 50 °C, where no viscosity is known; errors of the mix.
    pub fn new(mix: &Mix, diameter: Length, depth: Length, room: &Room) -> Result<Self> {
        if !(DIAMETER_M.0..=DIAMETER_M.1).contains(&diameter.si()) {
            return Err(out_of_range(
                "diameter of the cup",
                show(diameter),
                "5 mm to 500 mm",
                "measure across the liquid; an airbrush cup has 15 mm to 40 mm",
            ));
        }
        if !(DEPTH_M.0..=DEPTH_M.1).contains(&depth.si()) {
            return Err(out_of_range(
                "depth of the mix",
                show(depth),
                "0.2 mm to 300 mm",
                "give how deep the mix stands in the cup; a thinner layer is a film",
            ));
        }
        Thickening::of(mix, room, 0.0)?;
        Ok(Self {
            mix: mix.clone(),
            diameter,
            depth,
            freeboard: Length::from_si(0.0),
            room: room.clone(),
            pot: Substrate::named("polystyrene")?.with_thickness(Length::from_si(WALL_M))?,
            until: Time::from_si(UNTIL_S),
        })
    }

    /// The same with the liquid standing this far below the rim.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 0 to 300 mm.
    pub fn with_freeboard(mut self, freeboard: Length) -> Result<Self> {
        if !(0.0..=FREEBOARD_M).contains(&freeboard.si()) {
            return Err(out_of_range(
                "height from the liquid to the rim",
                show(freeboard),
                "0 mm to 300 mm",
                "0 mm is a cup full to the rim",
            ));
        }
        self.freeboard = freeboard;
        Ok(self)
    }

    /// The same in a pot of another material and wall; `Substrate::Isothermal` for one that keeps room temperature.
    #[must_use]
    pub fn with_pot(mut self, pot: Substrate) -> Self {
        self.pot = pot;
        self
    }

    /// The same, followed for this long at most.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 1 s to 7 d.
    pub fn until(mut self, until: Time) -> Result<Self> {
        if !(1.0..=LONGEST_S).contains(&until.si()) {
            return Err(out_of_range(
                "time to follow the cup",
                show(until),
                "1 s to 7 d",
                "a session is 1 h to 4 h",
            ));
        }
        self.until = until;
        Ok(self)
    }

    /// The mix.
    pub fn mix(&self) -> &Mix {
        &self.mix
    }

    /// Inner diameter.
    pub fn diameter(&self) -> Length {
        self.diameter
    }

    /// Depth of the mix as poured.
    pub fn depth(&self) -> Length {
        self.depth
    }

    /// From the liquid to the rim.
    pub fn freeboard(&self) -> Length {
        self.freeboard
    }

    /// The room it stands in.
    pub fn room(&self) -> &Room {
        &self.room
    }

    /// Material and wall of the pot.
    pub fn pot(&self) -> &Substrate {
        &self.pot
    }

    /// How long it is followed at most.
    pub fn followed_for(&self) -> Time {
        self.until
    }

    /// Lets it stand open.
    ///
    /// # Errors
    /// [`crate::error::UnknownName`] for a pot of a material that is not in the table; errors of the mix.
    pub fn stand(&self) -> Result<CupCourse> {
        CupCourse::new(self.clone(), self.pool().follow(Moved::NOTHING)?)
    }

    pub(super) fn area_m2(&self) -> f64 {
        core::f64::consts::PI * self.diameter.si().powi(2) / 4.0
    }

    pub(super) fn pool(&self) -> Pool<'_> {
        Pool {
            mix: &self.mix,
            room: &self.room,
            depth_m: self.depth.si(),
            length_m: self.diameter.si(),
            freeboard_m: self.freeboard.si(),
            air_speed_m_s: self.room.air_speed().si(),
            wall: &self.pot,
            until_s: self.until.si(),
        }
    }
}

#[cfg(test)]
mod tests;
