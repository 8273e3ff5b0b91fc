//! How humid may the air be before this coat turns white?
//!
//! Evaporation cools the film. Where its coldest moment meets the dew point, water condenses into it and throws out the
//! binder: **blush**. The limit humidity solves `p_w(T_coldest(RH)) = RH p_w(T_room)`: the coldest temperature itself
//! moves a little with the humidity, as the film takes up water before there is dew.
//!
//! Accuracy: no measured limit with a described film was found in print. Solvent makers' charts (% relative humidity at
//! 26.7 °C, from memory; their film is not described) lie between the free film and the plastic plate of this model: methyl
//! ethyl ketone 45 against 37 and 77, ethyl acetate 40 against 31 and 74, methyl isobutyl ketone 78 against 66 and 85. So the
//! substrate decides most, and the limit of one substrate is not known better than about 10 points: a standard deviation of
//! 5 points stands beside the spread of draught, thickness and vapour pressure.
//!
//! **Water from the flight.** Drops of fast solvents fly below the dew point. A coat that a gun lays starts with the water they
//! took up ([`crate::spray::Shot::water_from_air`]): at usual settings (20 psi, 80 mm, equal parts, 25 °C) a lacquer thinned with
//! acetone lands with 3 % of its volume at 50 % humidity and 6 % at 90 %, an alcohol acrylic with 1 to 2 % and 3 to 5 %, an
//! alkyd with none and 0.4 %; that is two to five times what the film takes up afterwards. In the limit it moves little, half a
//! point to one, since water that leaves cools the film in its turn; that the liquid may part with it is a warning of the
//! spray. The uptake agrees with a hand calculation by Ranz and Marshall within 10 % (a drop in still air).
//!
//! Neglected: that water which has parted may stay when the film is warmer than the dew point, and the other two whitenings that
//! are no matter of dew, a resin and a polymer thrown out by the last solvent.

use super::brief::WATERBORNE;
use super::coat::{Film, Moved};
use super::course::Course;
use super::drying::Drying;
use super::flash_off::{moved_by, uncertain_inputs};
use super::root::crossing;
use crate::air::Room;
use crate::air::psychrometrics::saturation_pressure;
use crate::answer::Answer;
use crate::error::{Result, out_of_range};
use crate::estimate::{Estimate, ModelError, Scale, propagate};
use crate::quantity::{
    Quantity, Ratio, RelativeHumidity, Temperature, TemperatureDifference, Time, as_text, show,
};
use crate::warning::Warning;
use crate::working::{Step, Working};
use serde::{Deserialize, Serialize};

/// Model error of the limit, share of relative humidity (two of them are the 10 points that it is not known better than),
/// and of the margin, K (source key `BLUSH_LIMIT`).
const LIMIT_STD: f64 = 0.05;
const MARGIN_STD_K: f64 = 0.8;
/// A film is coldest within its first hour.
const COLDEST_WITHIN_S: f64 = 3600.0;
/// When the limit is found.
const FOUND: f64 = 1e-4;

/// The humidity at which a coat blushes, and how far this room is from it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Blush {
    /// Highest relative humidity without dew on the coat; 100 % for a coat that never gets so cold.
    pub limit: Answer<Ratio>,
    /// Coldest temperature of the film less the dew point of the room; below zero there is dew.
    pub margin: Estimate<TemperatureDifference>,
    /// Coldest the film gets in this room.
    #[serde(with = "as_text")]
    pub coldest: Temperature,
    /// Relative humidity of this room.
    #[serde(with = "as_text")]
    pub humidity: Ratio,
}

impl Blush {
    /// Whether dew forms in this room.
    pub fn blushes(&self) -> bool {
        self.margin.best.si() < 0.0
    }
}

impl core::fmt::Display for Blush {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let verdict = if self.blushes() { "blushes" } else { "does not blush" };
        write!(
            f,
            "{verdict} at {}: limit {}; the film cools to {}, {} from the dew point",
            show(self.humidity),
            self.limit,
            show(self.coldest),
            self.margin
        )
    }
}

impl Drying {
    /// The limit humidity of this coat on its substrate, and the margin in its room.
    ///
    /// With a programme it is the first air that counts.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a coat whose volatile part is mostly water, which does not blush, or a room without
    /// a dew point (under 0.1 % relative humidity).
    ///
    /// ```
    /// use mistcoat::{air::Room, blend::{Basis, Blend}, film::{Film, Substrate}};
    /// use mistcoat::quantity::{parse, RelativeHumidity, VolumeFraction};
    /// let acetone = Blend::from_names(&[("acetone", 1.0)], Basis::Mass, None)?;
    /// let room = Room::new(parse("25 °C")?, RelativeHumidity::new(0.5)?)?.with_air_speed(parse("0.2 m/s")?)?;
    /// let film = Film::new(&acetone, VolumeFraction::new(0.0)?, parse("25 µm")?, &room)?;
    /// let on_plastic = film.clone().dry()?.blush()?;
    /// let free = film.with_substrate(Substrate::FreeFilm).dry()?.blush()?;
    /// assert!(!on_plastic.blushes() && free.blushes());
    /// assert!(on_plastic.limit.best() > 3.0 * free.limit.best());
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn blush(&self) -> Result<Blush> {
        let film = short(self.film())?;
        let water = film.water_share();
        if water > WATERBORNE {
            return Err(out_of_range(
                "water in the volatile part of the coat",
                show(Ratio::from_si(water)),
                format!("at most {} for a blush limit", show(Ratio::from_si(WATERBORNE))),
                "humid air over a waterborne coat is slow, not blush; ask for its drying times",
            ));
        }
        let room = film.room().clone();
        let dew_k = room.dew_point()?.si();
        let inputs = uncertain_inputs(&film);
        let best = limit_of(&film)?;
        // Moved inputs shift the limit by what is then to spare there, over how fast that falls with humidity.
        let beside = if best > ASIDE { best - ASIDE } else { best + ASIDE };
        let fall = |humidity: f64| spare(&film, Moved::NOTHING, humidity);
        let per_humidity = ((fall(beside)? - fall(best)?) / (best - beside)).max(LEAST_FALL);
        let limit =
            propagate(&inputs, &[ModelError::new("rule of the dew point", LIMIT_STD)], Scale::Linear, |x| {
                let moved = moved_by(x);
                if moved == Moved::NOTHING {
                    Ok(best)
                } else {
                    Ok(best + spare(&film, moved, best)? / per_humidity)
                }
            })?;
        let limit = within_zero_and_one(&limit);
        let margin: Estimate<TemperatureDifference> = propagate(
            &inputs,
            &[ModelError::new("rule of the dew point", MARGIN_STD_K)],
            Scale::Linear,
            |x| Ok(coldest_k(&film.dry_moved(moved_by(x))?, &room) - dew_k),
        )?;
        let coldest = Temperature::from_si(margin.best.si() + dew_k);
        let mut working = Working::new(format!(
            "Blush of {} wet film of {} on {}",
            show(film.wet_thickness()),
            film.volatile().label(),
            film.substrate()
        ));
        working.push(
            Step::new(
                "margin in this room",
                "ΔT = T_coldest − T_dew",
                r"\Delta T = T_\mathrm{min} - T_\mathrm{dew}",
            )
            .numbers(format!("{} − {}", show(coldest), show(Temperature::from_si(dew_k))))
            .result(margin.to_string())
            .source("WMO_MAGNUS"),
        );
        working.push(
            Step::new(
                "limit humidity",
                "p_w(T_coldest(RH)) = RH p_w(T_room)",
                r"p_w(T_\mathrm{min}(RH)) = RH\,p_w(T_\infty)",
            )
            .numbers(format!("room at {}", show(room.temperature())))
            .result(limit.to_string())
            .source("BLUSH_LIMIT"),
        );
        let humidity: Ratio = room.relative_humidity().into();
        let over = (limit.best < humidity).then(|| {
            Warning::new(
                "blush-limit",
                format!(
                    "this coat blushes above {} relative humidity, the room has {}: dry or warm the room, use a slower \
                     thinner or a retarder, or lay thinner coats",
                    show(limit.best),
                    show(humidity)
                ),
            )
        });
        let limit = Answer::new(limit, working).with_warnings(over);
        Ok(Blush { limit, margin, coldest, humidity })
    }
}

/// The same coat followed for as long as it takes to be coldest.
fn short(film: &Film) -> Result<Film> {
    let until = film.followed_for().si().min(COLDEST_WITHIN_S);
    film.clone().until(Time::from_si(until))
}

/// Coldest the film gets in this air.
fn coldest_k(course: &Course, room: &Room) -> f64 {
    let seen = course.airs.iter().filter(|seen| seen.room == *room);
    seen.map(|seen| seen.coldest_k).fold(room.temperature().si(), f64::min)
}

/// What the coldest film would bear in air of this humidity, less that humidity.
fn spare(film: &Film, moved: Moved, humidity: f64) -> Result<f64> {
    let room = film.room();
    let room_pa = saturation_pressure(room.temperature())?.si();
    let air = Room::new(room.temperature(), RelativeHumidity::new(humidity)?)?
        .with_air_speed(room.air_speed())?
        .with_pressure(room.pressure())?;
    let course = film.changed(Some(air.clone()), None).dry_moved(moved)?;
    let coldest = Temperature::from_si(coldest_k(&course, &air).max(COLDEST_K));
    Ok(saturation_pressure(coldest)?.si() / room_pa - humidity)
}

/// The humidity that meets the coldest film: what there is to spare falls all the way.
fn limit_of(film: &Film) -> Result<f64> {
    let at = |humidity: f64| spare(film, Moved::NOTHING, humidity);
    if at(1.0)? >= 0.0 {
        return Ok(1.0);
    }
    crossing([0.0, 1.0], FOUND, at)
}

/// Step of humidity for the slope, and its least value: what is to spare falls at about 0.5 to 1 per unit of humidity.
const ASIDE: f64 = 0.02;
const LEAST_FALL: f64 = 0.2;
/// Coldest for which the vapour pressure of water is known, K.
const COLDEST_K: f64 = 233.15;

/// A share with its interval kept between nothing and all.
pub(super) fn within_zero_and_one(e: &Estimate<Ratio>) -> Estimate<Ratio> {
    let clamp = |r: Ratio| Ratio::from_si(r.si().clamp(0.0, 1.0));
    Estimate { best: clamp(e.best), low: clamp(e.low), high: clamp(e.high), ..e.clone() }
}
