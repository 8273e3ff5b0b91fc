//! The wet coat as it lies in the room: what a user states before drying it.

use super::binder::Binder;
use super::course::{self, Course};
use super::dispersion::Dispersion;
use super::drying::Drying;
use super::flow::Flow;
use super::over::Earlier;
use super::programme::{Change, Programme};
use super::substrate::Substrate;
use crate::air::Room;
use crate::air::transfer::check_length;
use crate::blend::Blend;
use crate::error::{Error, Result, out_of_range};
use crate::estimate::Estimate;
use crate::paint::{Family, Mix, OxidativeCure};
use crate::quantity::{Length, Pressure, Quantity, Ratio, Temperature, Time, VolumeFraction, as_text, show};
use serde::{Deserialize, Serialize};

/// Wet films that the model speaks for, m: one micrometre is a dry-sprayed mist coat, five millimetres a puddle.
const THICKNESS_M: (f64, f64) = (1e-6, 5e-3);
/// More solids than this leaves nothing to dry.
const MOST_SOLIDS: f64 = 0.98;
/// Spread of a hobby wet film (source key `HOBBY_SPREAD`).
const THICKNESS_SPREAD: f64 = 0.15;
/// Part length when none is given, m.
const PART_LENGTH_M: f64 = 0.1;
/// How long a coat is followed when nothing is said, and at most, s.
const UNTIL_S: f64 = 7.0 * 86_400.0;
const LONGEST_S: f64 = 365.0 * 86_400.0;

/// A wet coat: volatile blend, solids, thickness, what it lies on and the room.
///
/// Defaults: 1.5 mm of polystyrene, a part of 100 mm, followed for 7 days at most.
///
/// ```
/// use mistcoat::{air::Room, blend::{Basis, Blend}, film::{Film, Substrate}};
/// use mistcoat::quantity::{parse, RelativeHumidity, VolumeFraction};
/// let thinner = Blend::from_names(
///     &[("acetone", 50.0), ("n-butyl acetate", 35.0), ("2-butoxyethanol", 15.0)], Basis::Mass, None)?;
/// let room = Room::new(parse("25 °C")?, RelativeHumidity::new(0.5)?)?;
/// let dry = Film::new(&thinner, VolumeFraction::new(0.15)?, parse("25 µm")?, &room)?
///     .with_substrate(Substrate::named("wood")?)
///     .dry()?;
/// let flash_off = dry.flash_off()?;
/// assert!(flash_off.estimate.low < flash_off.best() && flash_off.best() < flash_off.estimate.high);
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Record", into = "Record")]
pub struct Film {
    volatile: Blend,
    solids: VolumeFraction,
    wet_thickness: Length,
    wet_thickness_uncertainty: Option<Length>,
    pub(super) room: Room,
    substrate: Substrate,
    part_length: Length,
    until: Time,
    binder: Option<Binder>,
    dispersion: Option<Dispersion>,
    /// Of the paint, when it is one.
    family: Option<Family>,
    /// How it flows, when known.
    flow: Option<Flow>,
    /// Air that comes after that of `room`.
    pub(super) changes: Vec<Change>,
    /// Coats under this one, the first first.
    pub(super) earlier: Vec<Earlier>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    volatile: Blend,
    #[serde(with = "as_text")]
    solids: Ratio,
    #[serde(with = "as_text")]
    wet_thickness: Length,
    #[serde(default, with = "as_text::option", skip_serializing_if = "Option::is_none")]
    wet_thickness_uncertainty: Option<Length>,
    room: Room,
    substrate: Substrate,
    #[serde(with = "as_text")]
    part_length: Length,
    #[serde(with = "as_text")]
    until: Time,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    binder: Option<Binder>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    dispersion: Option<Dispersion>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    family: Option<Family>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    flow: Option<Flow>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    changes: Vec<Change>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    earlier: Vec<Earlier>,
}

impl From<Film> for Record {
    fn from(f: Film) -> Self {
        Self {
            volatile: f.volatile,
            solids: f.solids.into(),
            wet_thickness: f.wet_thickness,
            wet_thickness_uncertainty: f.wet_thickness_uncertainty,
            room: f.room,
            substrate: f.substrate,
            part_length: f.part_length,
            until: f.until,
            binder: f.binder,
            dispersion: f.dispersion,
            family: f.family,
            flow: f.flow,
            changes: f.changes,
            earlier: f.earlier,
        }
    }
}

impl TryFrom<Record> for Film {
    type Error = Error;
    fn try_from(r: Record) -> Result<Self> {
        let film = Self::new(&r.volatile, r.solids.try_into()?, r.wet_thickness, &r.room)?
            .with_substrate(r.substrate)
            .with_part_length(r.part_length)?
            .until(r.until)?;
        let film =
            Self { binder: r.binder, dispersion: r.dispersion, family: r.family, flow: r.flow, ..film };
        let film = match r.wet_thickness_uncertainty {
            Some(std) => film.with_wet_thickness_uncertainty(std)?,
            None => film,
        };
        let film = film.with_programme(Programme::of(r.room, r.changes)?);
        r.earlier.into_iter().rev().try_fold(film, |film, under| film.over(&under.film, under.wait))
    }
}

/// One input moved for the interval of a result.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Moved {
    /// Of every air speed, and of the thickness of every coat: standard deviations added.
    pub(crate) air_speed_stds: f64,
    pub(crate) wet_thickness_stds: f64,
    /// Factor.
    pub(crate) vapour_pressure: f64,
    /// Of the binder: kelvin added to its glass transition, factor on the diffusivity in it.
    pub(crate) glass_transition_k: f64,
    pub(crate) film_diffusivity: f64,
}

impl Moved {
    /// The stated values, nothing moved.
    pub(crate) const NOTHING: Self = Self {
        air_speed_stds: 0.0,
        wet_thickness_stds: 0.0,
        vapour_pressure: 1.0,
        glass_transition_k: 0.0,
        film_diffusivity: 1.0,
    };
}

impl Film {
    /// A wet coat of this thickness: `volatile` is everything that may leave (thinner, the paint's own solvent,
    /// water), `solids` the share of the wet volume that stays.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a thickness outside 1 µm to 5 mm or more than 98 % of solids.
    pub fn new(volatile: &Blend, solids: VolumeFraction, wet_thickness: Length, room: &Room) -> Result<Self> {
        check_wet(solids, wet_thickness)?;
        Ok(Self {
            volatile: volatile.clone(),
            solids,
            wet_thickness,
            wet_thickness_uncertainty: None,
            room: room.clone(),
            substrate: Substrate::default(),
            part_length: Length::from_si(PART_LENGTH_M),
            until: Time::from_si(UNTIL_S),
            binder: None,
            dispersion: None,
            family: None,
            flow: None,
            changes: Vec::new(),
            earlier: Vec::new(),
        })
    }

    /// A wet coat of a thinned paint: its carrier and thinner leave, its volume solids stay.
    ///
    /// Lacquers and alcohol-borne acrylics bring their [`Binder`], waterborne acrylics their [`Dispersion`]. Alkyds and oils
    /// harden by oxygen, so that the glass transition of the cured binder says nothing about the drying film: see
    /// [`Film::oxidative_cure`].
    ///
    /// # Errors
    /// As [`Film::new`], and those of [`Mix::volatile`] and [`Binder::estimated`].
    ///
    /// ```
    /// use mistcoat::{air::Room, blend::Blend, dose::{Parts, Thinning}, film::Film, paint::{Family, Paint}};
    /// use mistcoat::quantity::{parse, RelativeHumidity};
    /// let paint = Paint::typical(Family::SolventLacquer, "hull green")?;
    /// let thinner = Blend::from_names(&[("n-butyl acetate", 1.0)], mistcoat::blend::Basis::Mass, None)?;
    /// let mix = paint.thin(&thinner, Thinning::from_parts(Parts { thinner: 2.0, paint: 1.0 })?)?;
    /// let room = Room::new(parse("21 °C")?, RelativeHumidity::new(0.55)?)?;
    /// let film = Film::of_mix(&mix, parse("25 µm")?, &room)?;
    /// assert!(film.dry_thickness() < film.wet_thickness() / 3.0);
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn of_mix(mix: &Mix, wet_thickness: Length, room: &Room) -> Result<Self> {
        let film = Self::new(&mix.volatile()?, mix.volume_solids().best.try_into()?, wet_thickness, room)?;
        let paint = mix.paint();
        let flow = Flow::of_mix(mix, room.temperature());
        let film = Self { family: Some(paint.family()), flow, ..film };
        let pigment = paint.pigment().volume_concentration.best;
        match paint.family() {
            Family::SolventLacquer | Family::AlcoholAcrylic => {
                let binder = Binder::estimated(paint.binder_tg())?.with_pigment(pigment.try_into()?)?;
                Ok(film.with_binder(binder))
            }
            Family::WaterborneAcrylic => match paint.family().film_formation_temperature()? {
                Some(mfft) => {
                    Ok(film.with_dispersion(Dispersion::estimated(mfft)?.with_pigment(pigment.try_into()?)?))
                }
                None => Ok(film),
            },
            Family::AlkydEnamel | Family::ArtistsOil => Ok(film),
        }
    }

    /// The same coat with a binder that stiffens as it loses solvent; no effect without solids.
    #[must_use]
    pub fn with_binder(mut self, binder: Binder) -> Self {
        self.harden(binder);
        self
    }

    /// The same in place.
    pub(super) fn harden(&mut self, binder: Binder) {
        (self.binder, self.dispersion) = (Some(binder), None);
    }

    /// The same coat with a binder of particles in water, which packs as it loses water; takes the place of a
    /// [`Binder`]. A waterborne acrylic [`Mix`] brings that of its family.
    #[must_use]
    pub fn with_dispersion(mut self, dispersion: Dispersion) -> Self {
        self.dispersion = Some(dispersion);
        self.binder = None;
        self
    }

    /// The same coat with its flow, for levelling and sag; a coat of a [`Mix`] brings its own.
    #[must_use]
    pub fn with_flow(mut self, flow: Flow) -> Self {
        self.flow = Some(flow);
        self
    }

    /// The same coat with a yield stress, as it lies wet; see [`Flow::with_yield_stress`].
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 0 to 100 Pa, or for a coat whose flow is not known.
    ///
    /// ```
    /// use mistcoat::{Estimate, air::Room, blend::Blend, dose::{Parts, Thinning}, film::{Film, Ripple}, paint::{Family, Paint}};
    /// use mistcoat::quantity::{Quantity, parse, RelativeHumidity};
    /// let thinner = Blend::from_names(&[("white spirit", 1.0)], mistcoat::blend::Basis::Volume, None)?;
    /// let mix = Paint::typical(Family::AlkydEnamel, "hull green")?
    ///     .thin(&thinner, Thinning::from_parts(Parts { thinner: 0.5, paint: 1.0 })?)?;
    /// let room = Room::new(parse("21 °C")?, RelativeHumidity::new(0.5)?)?;
    /// let coat = Film::of_mix(&mix, parse("50 µm")?, &room)?;
    /// let stiff = coat.clone().with_yield_stress(&Estimate::exact(parse("1 Pa")?))?;
    /// let slides = |f: Film| Ok::<_, mistcoat::Error>(f.dry()?.lay(&Ripple::usual()?, parse("100 %")?)?.sag.best());
    /// assert!(slides(coat)?.si() > 0.0 && slides(stiff)?.si() == 0.0);
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn with_yield_stress(mut self, yield_stress: &Estimate<Pressure>) -> Result<Self> {
        self.flow = match self.flow {
            Some(flow) => Some(flow.with_yield_stress(yield_stress)?),
            None => {
                return Err(out_of_range(
                    "flow of a coat with a yield stress",
                    "unknown",
                    "known",
                    "take the film of a Mix, or give Film::with_flow its viscosity first",
                ));
            }
        };
        Ok(self)
    }

    /// How it flows, when known.
    pub fn flow(&self) -> Option<&Flow> {
        self.flow.as_ref()
    }

    /// The same coat in air that changes with time, instead of the one room.
    ///
    /// ```
    /// use mistcoat::{air::{Draught, Room}, blend::{Basis, Blend}, film::{Film, Programme}};
    /// use mistcoat::quantity::{parse, RelativeHumidity, VolumeFraction};
    /// let thinner = Blend::from_names(&[("n-butyl acetate", 1.0)], Basis::Mass, None)?;
    /// let room = Room::new(parse("21 °C")?, RelativeHumidity::new(0.55)?)?;
    /// let film = Film::new(&thinner, VolumeFraction::new(0.15)?, parse("25 µm")?, &room)?;
    /// let fan = room.clone().with_draught(Draught::Fan);
    /// let blown = film.clone().with_programme(Programme::new(room).after(parse("20 s")?, fan)?);
    /// assert!(blown.dry()?.flash_off()?.best() < film.dry()?.flash_off()?.best());
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    #[must_use]
    pub fn with_programme(mut self, programme: Programme) -> Self {
        (self.room, self.changes) = programme.into_parts();
        self
    }

    /// The same coat with the liquid and the solids that a spray has left it.
    #[must_use]
    pub(crate) fn arrived(mut self, volatile: Blend, solids: VolumeFraction) -> Self {
        self.flow = self.flow.map(|flow| flow.mixed_at(self.solids));
        self.volatile = volatile;
        self.solids = solids;
        self
    }

    /// The same coat laid otherwise, in place; for tables of settings.
    pub(super) fn relay(&mut self, solids: VolumeFraction, wet_thickness: Length, room: Room) -> Result<()> {
        check_wet(solids, wet_thickness)?;
        (self.solids, self.wet_thickness, self.room) = (solids, wet_thickness, room);
        Ok(())
    }

    /// The same coat on another substrate.
    #[must_use]
    pub fn with_substrate(mut self, substrate: Substrate) -> Self {
        self.substrate = substrate;
        self
    }

    /// The same coat on a part of this length along the draught.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 1 mm to 10 m.
    pub fn with_part_length(mut self, length: Length) -> Result<Self> {
        check_length(length)?;
        self.part_length = length;
        Ok(self)
    }

    /// The same coat with the standard uncertainty of its wet thickness, 15 % when not called.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for less than nothing or more than half the thickness.
    pub fn with_wet_thickness_uncertainty(mut self, std: Length) -> Result<Self> {
        if !(0.0..=0.5 * self.wet_thickness.si()).contains(&std.si()) {
            return Err(out_of_range(
                "standard uncertainty of the wet film thickness",
                show(std),
                format!("0 µm to half the thickness, {}", show(self.wet_thickness / 2.0)),
                "measure the wet film with a comb gauge, or dry a thin and a thick coat apart",
            ));
        }
        self.wet_thickness_uncertainty = Some(std);
        Ok(self)
    }

    /// The same coat, followed for this long at most.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] unless between 1 ms and 365 d.
    pub fn until(mut self, until: Time) -> Result<Self> {
        if !(1e-3..=LONGEST_S).contains(&until.si()) {
            return Err(out_of_range(
                "time to follow the coat",
                show(until),
                "1 ms to 365 d",
                "7 d is the usual choice; a coat still wet then is told by an error of time_to_lose",
            ));
        }
        self.until = until;
        Ok(self)
    }

    /// Everything that may leave.
    pub fn volatile(&self) -> &Blend {
        &self.volatile
    }

    /// Share of the wet volume that stays.
    pub fn solids(&self) -> VolumeFraction {
        self.solids
    }

    /// Thickness when wet.
    pub fn wet_thickness(&self) -> Length {
        self.wet_thickness
    }

    /// Standard uncertainty of the wet thickness, when given.
    pub fn wet_thickness_uncertainty(&self) -> Option<Length> {
        self.wet_thickness_uncertainty
    }

    /// Thickness of the solids by themselves.
    pub fn dry_thickness(&self) -> Length {
        self.wet_thickness * self.solids.get()
    }

    /// The binder, when given.
    pub fn binder(&self) -> Option<&Binder> {
        self.binder.as_ref()
    }

    /// The same coat with the binder or the particles and the family of another.
    pub(super) fn hardening_like(mut self, other: &Self) -> Self {
        self.binder.clone_from(&other.binder);
        self.dispersion.clone_from(&other.dispersion);
        self.family = other.family;
        self.flow.clone_from(&other.flow);
        self
    }

    /// The particles of a waterborne coat, when given.
    pub fn dispersion(&self) -> Option<&Dispersion> {
        self.dispersion.as_ref()
    }

    /// Minimum film-formation temperature of a dispersion with the coalescing aid in the wet coat.
    pub fn film_formation_temperature(&self) -> Option<Estimate<Temperature>> {
        self.dispersion.as_ref()?.film_formation_temperature(&self.volatile, self.solids).ok()
    }

    /// How long the paint takes to harden by oxygen, after its solvent has left: common practice, not computed. `None` for
    /// paints that do not, and for a coat that is not of a [`Mix`].
    ///
    /// ```
    /// use mistcoat::{air::Room, blend::{Basis, Blend}, dose::{Parts, Thinning}, film::Film, paint::{Family, Paint}};
    /// use mistcoat::quantity::{parse, RelativeHumidity};
    /// let spirit = Blend::from_names(&[("white spirit", 1.0)], Basis::Volume, None)?;
    /// let mix = Paint::typical(Family::AlkydEnamel, "red oxide")?
    ///     .thin(&spirit, Thinning::from_parts(Parts { thinner: 1.0, paint: 2.0 })?)?;
    /// let room = Room::new(parse("20 °C")?, RelativeHumidity::new(0.5)?)?;
    /// let dry = Film::of_mix(&mix, parse("30 µm")?, &room)?.dry()?;
    /// let cure = dry.film().oxidative_cure().unwrap();
    /// assert!(cure.touch.best > dry.flash_off()?.best());
    /// assert!(dry.touch_dry().unwrap_err().to_string().contains("common practice"));
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn oxidative_cure(&self) -> Option<&'static OxidativeCure> {
        self.family?.oxidative_cure().ok().flatten()
    }

    /// The air it dries in from the start on.
    pub fn programme(&self) -> Programme {
        Programme::checked(self.room.clone(), self.changes.clone())
    }

    /// The room it dries in, at first when there is a [`Programme`].
    pub fn room(&self) -> &Room {
        &self.room
    }

    /// What it lies on.
    pub fn substrate(&self) -> &Substrate {
        &self.substrate
    }

    /// Length of the part along the draught.
    pub fn part_length(&self) -> Length {
        self.part_length
    }

    /// How long it is followed at most.
    pub fn followed_for(&self) -> Time {
        self.until
    }

    /// Dries the coat.
    ///
    /// # Errors
    /// [`crate::error::UnknownName`] for a substrate that is not in the table; a
    /// [`crate::error::RangeError`] should the integrator need more than 20 000 steps (the 356 reference films need at most 106).
    pub fn dry(&self) -> Result<Drying> {
        Ok(Drying::new(self.clone(), course::run(self, Moved::NOTHING)?))
    }

    /// Runs with one input moved.
    pub(crate) fn dry_moved(&self, moved: Moved) -> Result<Course> {
        course::run(self, moved)
    }

    /// The same coat in another first room, at another thickness.
    pub(super) fn changed(&self, room: Option<Room>, wet_thickness: Option<Length>) -> Self {
        let mut film = self.clone();
        if let Some(room) = room {
            film.room = room;
        }
        if let Some(thickness) = wet_thickness {
            let by = thickness.si() / self.wet_thickness.si();
            film.wet_thickness_uncertainty = self.wet_thickness_uncertainty.map(|std| std * by);
            film.wet_thickness = thickness;
        }
        film
    }

    /// Thickness with its spread moved, m.
    pub(super) fn moved_thickness_m(&self, moved: Moved) -> f64 {
        self.wet_thickness.si() + moved.wet_thickness_stds * self.thickness_std_m()
    }

    /// Standard uncertainty of the wet thickness, m.
    pub(super) fn thickness_std_m(&self) -> f64 {
        let usual = THICKNESS_SPREAD * self.wet_thickness.si();
        self.wet_thickness_uncertainty.map_or(usual, Length::si)
    }
}

fn check_wet(solids: VolumeFraction, wet_thickness: Length) -> Result<()> {
    let (thin, thick) = THICKNESS_M;
    if !(thin..=thick).contains(&wet_thickness.si()) {
        return Err(out_of_range(
            "wet film thickness",
            show(wet_thickness),
            "1 µm to 5 mm",
            "an airbrush lays 5 µm to 40 µm a pass, a brush 50 µm to 100 µm; measure with a comb gauge",
        ));
    }
    if solids.get() > MOST_SOLIDS {
        return Err(out_of_range(
            "volume solids",
            solids.to_string(),
            "at most 98 %",
            "a coat without volatile matter has nothing to lose; give the solids of the thinned paint",
        ));
    }
    Ok(())
}
