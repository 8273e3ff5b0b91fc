//! What a gun does with a mix: drops, loss in flight, film a pass, and what to mind.

use super::airbrush::Airbrush;
use super::checks;
use super::model::{AtNozzle, Cause, Inputs, Moved, OnPart, check_wet};
use super::nozzle::shear_rate_per_s;
use crate::air::Room;
use crate::answer::Answer;
use crate::blend::{Basis, Blend};
use crate::error::{Error, Result, out_of_range};
use crate::estimate::{Estimate, Scale, propagate};
use crate::film::Film;
use crate::paint::Mix;
use crate::quantity::{
    Frequency, Length, Number, Quantity, Ratio, Temperature, Time, Velocity, VolumeFraction, VolumeRate, show,
};
use crate::solvent::{self, Solvent};
use crate::warning::Warning;
use serde::{Deserialize, Serialize};

/// Less liquid than this share of what was sprayed is none, mol per mol.
const NOTHING: f64 = 1e-9;

/// A mix sprayed by a gun in a room.
///
/// Made by [`Airbrush::spray`]. Files hold gun, mix and room; the rest is worked out again when read.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Record", into = "Record")]
pub struct Shot {
    gun: Airbrush,
    mix: Mix,
    room: Room,
    pub(super) inputs: Inputs,
    pub(super) nozzle: AtNozzle,
    pub(super) part: OnPart,
    /// How far the air pushes the wet film of a pass, m.
    pub(super) pushed_m: f64,
    warnings: Vec<Warning>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    gun: Airbrush,
    mix: Mix,
    room: Room,
}

impl From<Shot> for Record {
    fn from(s: Shot) -> Self {
        Self { gun: s.gun, mix: s.mix, room: s.room }
    }
}

impl TryFrom<Record> for Shot {
    type Error = Error;
    fn try_from(r: Record) -> Result<Self> {
        Self::new(r.gun, r.mix, r.room)
    }
}

/// One class of drop sizes at the part.
#[derive(Debug, Clone, PartialEq)]
pub struct DropClass {
    /// Diameter at the nozzle.
    pub diameter: Length,
    /// Share of the volume sprayed.
    pub share: Ratio,
    /// Share of its volatile mass lost in flight.
    pub lost: Ratio,
    /// Volume solids on arrival.
    pub solids: Ratio,
    /// Diameter on arrival.
    pub diameter_on_arrival: Length,
    /// Temperature on arrival.
    pub temperature: Temperature,
    /// Speed on arrival.
    pub speed: Velocity,
    /// Time of flight.
    pub time: Time,
    /// Whether it lands dry, as dust: touch dry, or a packed dispersion.
    pub dry: bool,
}

impl Shot {
    pub(super) fn new(gun: Airbrush, mix: Mix, room: Room) -> Result<Self> {
        let inputs = Inputs::new(gun.clone(), &mix, room.clone())?;
        let stated = Moved::default();
        let nozzle = inputs.at_nozzle(&stated)?;
        let part = inputs.on_part(&nozzle, &stated)?;
        let mut shot = Self { gun, mix, room, inputs, nozzle, part, pushed_m: 0.0, warnings: Vec::new() };
        shot.pushed_m = checks::pushed_m(&shot)?;
        shot.warnings.extend(shot.inputs.warnings.iter().cloned());
        shot.warnings.extend(checks::all(&shot));
        Ok(shot)
    }

    /// The gun.
    pub fn gun(&self) -> &Airbrush {
        &self.gun
    }

    /// The mix as it was in the cup.
    pub fn mix(&self) -> &Mix {
        &self.mix
    }

    /// The room.
    pub fn room(&self) -> &Room {
        &self.room
    }

    /// The air of the gun on its way to the part, loaded with the paint.
    pub fn jet(&self) -> &crate::air::Jet {
        &self.nozzle.jet
    }

    /// Spatter, dry spray, a nozzle too fine, too little air; empty when there is nothing to mind.
    pub fn warnings(&self) -> &[Warning] {
        &self.warnings
    }

    /// Sauter mean diameter of the drops at the nozzle.
    ///
    /// # Errors
    /// None is known; those of the propagation.
    pub fn drop_size(&self) -> Result<Answer<Length>> {
        let causes = [Cause::DropSize, Cause::Viscosity, Cause::Tension, Cause::AirArea, Cause::PaintFlow];
        let estimate =
            self.spread_over(&causes, Scale::Log, |moved| Ok(self.inputs.at_nozzle(moved)?.sauter_mean_m))?;
        Ok(Answer::new(estimate, self.working_to_drops()))
    }

    /// Diameter below which this share of the sprayed volume lies.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a share outside 0.1 to 99.9 %.
    pub fn drop_size_below(&self, share: Ratio) -> Result<Length> {
        if !(0.001..=0.999).contains(&share.si()) {
            return Err(out_of_range(
                "share of the sprayed volume",
                show(share),
                "0.1 % to 99.9 %",
                "50 % gives the volume median, 90 % the coarse end",
            ));
        }
        Ok(Length::from_si(self.gun.spread().relative_quantile(share.si()) * self.nozzle.sauter_mean_m))
    }

    /// Free air the nozzle needs.
    ///
    /// # Errors
    /// None is known; those of the propagation.
    pub fn air_demand(&self) -> Result<Answer<VolumeRate>> {
        let causes = [Cause::AirArea, Cause::Pressure];
        let estimate =
            self.spread_over(&causes, Scale::Log, |moved| Ok(self.inputs.at_nozzle(moved)?.free_air_m3_s))?;
        Ok(Answer::new(estimate, self.working_of_air()))
    }

    /// Paint sprayed in a time: given, or what the trigger half drawn gives, at most what the nozzle passes of this mix.
    ///
    /// # Errors
    /// None is known; those of the propagation.
    pub fn paint_flow(&self) -> Result<Answer<VolumeRate>> {
        let causes = [Cause::PaintFlow, Cause::Viscosity, Cause::Pressure];
        let estimate =
            self.spread_over(&causes, Scale::Log, |moved| Ok(self.inputs.at_nozzle(moved)?.paint_m3_s))?;
        Ok(Answer::new(estimate, self.working_of_paint()))
    }

    /// Shear rate of the paint in the bore, for a viscosity read at another shear.
    pub fn shear_rate(&self) -> Frequency {
        Frequency::from_si(shear_rate_per_s(self.nozzle.paint_m3_s, self.gun.nozzle().si()))
    }

    /// Share of the volatile mass that is lost between nozzle and part; water gained from humid air does not count.
    ///
    /// # Errors
    /// None is known; those of the flight.
    pub fn flight_loss(&self) -> Result<Answer<Ratio>> {
        let causes = [
            Cause::DropSize,
            Cause::Viscosity,
            Cause::AirArea,
            Cause::PaintFlow,
            Cause::Distance,
            Cause::Evaporation,
        ];
        let mut estimate: Estimate<Ratio> =
            self.spread_over(&causes, Scale::Linear, |moved| Ok(self.moved_part(moved)?.lost))?;
        estimate.low = Ratio::from_si(estimate.low.si().max(0.0));
        estimate.high = Ratio::from_si(estimate.high.si().min(1.0));
        Ok(Answer::new(estimate, self.working_to_arrival()))
    }

    /// Wet film that one pass leaves, as thick as it lies when it lands.
    ///
    /// # Errors
    /// None is known; those of the flight.
    pub fn wet_film_per_pass(&self) -> Result<Answer<Length>> {
        let estimate =
            self.spread_over(&FILM_CAUSES, Scale::Log, |moved| Ok(self.moved_part(moved)?.wet_m))?;
        Ok(Answer::new(estimate, self.working()).with_warnings(self.warnings.iter().cloned()))
    }

    /// Dry film that one pass leaves.
    ///
    /// # Errors
    /// None is known; those of the propagation.
    pub fn dry_film_per_pass(&self) -> Result<Answer<Length>> {
        let mut causes: Vec<Cause> = FILM_CAUSES.to_vec();
        causes.retain(|c| *c != Cause::Evaporation);
        let solids = self.mix.volume_solids();
        let mut estimate: Estimate<Length> =
            self.spread_over(&causes, Scale::Log, |moved| Ok(self.moved_part(moved)?.dry_m))?;
        let parts = [
            crate::estimate::ModelError::new("all but the solids", estimate.relative_std()),
            crate::estimate::ModelError::new("volume solids", solids.relative_std()),
        ];
        let whole = Estimate::relative(estimate.best, &parts);
        // The causes stay named one by one; the solids join them by their share.
        let share = |what: &str| whole.contributors.iter().find(|c| c.what == what).map_or(0.0, |c| c.share);
        let (others, own) = (share("all but the solids"), share("volume solids"));
        for c in &mut estimate.contributors {
            c.share *= others;
        }
        let own = crate::estimate::Contributor { what: "volume solids".to_owned(), share: own };
        estimate.contributors.push(own);
        estimate.contributors.sort_by(|a, b| b.share.total_cmp(&a.share));
        estimate.contributors.retain(|c| c.share > 0.0);
        (estimate.low, estimate.high) = (whole.low, whole.high);
        Ok(Answer::new(estimate, self.working()).with_warnings(self.warnings.iter().cloned()))
    }

    /// Passes over the same place until the dry film is this thick.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] unless the film is above zero.
    pub fn passes_for(&self, dry_film: Length) -> Result<Answer<Number>> {
        let wanted = crate::quantity::positive("dry film", dry_film)?;
        let per_pass = self.dry_film_per_pass()?;
        let passes = |film: Length| Number::from_si(wanted / film.si());
        let e = per_pass.estimate;
        let estimate = Estimate {
            best: passes(e.best),
            low: passes(e.high),
            high: passes(e.low),
            coverage: e.coverage,
            contributors: e.contributors,
        };
        let mut working = per_pass.working;
        working.push(
            crate::working::Step::new("passes", "n = X/X1", r"n = X/X_1")
                .numbers(format!("{} / {}", show(dry_film), show(e.best)))
                .result(estimate.to_string()),
        );
        Ok(Answer::new(estimate, working).with_warnings(per_pass.warnings))
    }

    /// Width of one pass.
    pub fn swath(&self) -> Length {
        Length::from_si(self.part.swath_m)
    }

    /// Air speed on the axis at the part.
    pub fn air_speed_at_part(&self) -> Velocity {
        Velocity::from_si(self.nozzle.jet.speed_m_s(self.nozzle.distance_m))
    }

    /// Time of flight, the mean over the sprayed volume.
    pub fn flight_time(&self) -> Time {
        Time::from_si(self.part.classes.iter().map(|c| c.share * c.landed.time_s).sum())
    }

    /// Temperature of the drops on arrival, the mean over the volume that lands.
    pub fn drop_temperature(&self) -> Temperature {
        let sum: f64 =
            self.part.classes.iter().map(|c| c.share * c.landed.volume * c.landed.temperature_k).sum();
        Temperature::from_si(sum / self.part.volume)
    }

    /// Drop sizes from fine to coarse, and how each lands.
    pub fn classes(&self) -> Vec<DropClass> {
        self.part
            .classes
            .iter()
            .map(|c| DropClass {
                diameter: Length::from_si(c.diameter_m),
                share: Ratio::from_si(c.share),
                lost: Ratio::from_si(c.lost),
                solids: Ratio::from_si(self.part.solids / c.landed.volume),
                diameter_on_arrival: Length::from_si(c.diameter_m * c.landed.volume.cbrt()),
                temperature: Temperature::from_si(c.landed.temperature_k),
                speed: Velocity::from_si(c.landed.speed_m_s),
                time: Time::from_si(c.landed.time_s),
                dry: c.dry,
            })
            .collect()
    }

    /// Share of the sprayed volume in drops that land dry.
    pub fn dust(&self) -> Ratio {
        Ratio::from_si(self.part.dust)
    }

    /// Share of each volatile species that is lost in flight, by name; of water from the air there is none to lose.
    pub fn lost_by_species(&self) -> Vec<(String, Ratio)> {
        let part = &self.part;
        part.names
            .iter()
            .zip(part.start.iter().zip(&part.left))
            .filter(|(_, (start, _))| **start > 0.0)
            .map(|(name, (start, left))| (name.clone(), Ratio::from_si((1.0 - left / start).clamp(0.0, 1.0))))
            .collect()
    }

    /// Water that the drops took from humid air on the way, as a share of the volume that lands; 0 when they gave water off.
    ///
    /// Drops of fast solvents fly below the dew point: at usual settings in a room of 25 °C a lacquer thinned with acetone lands
    /// with 3 % of it at 50 % humidity and 6 % at 90 %, one thinned with slower esters with half of that, an alkyd with none.
    /// [`Shot::deposit`] and the film that lands have it in them. Good to a factor 2, as the drop size is. A warning
    /// `water-in-flight` comes where the liquid that lands cannot hold it.
    ///
    /// ```
    /// use mistcoat::{air::Room, blend::Blend, dose::{Parts, Thinning}, paint::{Family, Paint}, spray::Airbrush};
    /// use mistcoat::quantity::{Quantity, RelativeHumidity, parse};
    /// let paint = Paint::typical(Family::SolventLacquer, "deckhouse cream")?;
    /// let thinner = Blend::from_names(&[("acetone", 1.0)], mistcoat::blend::Basis::Volume, None)?;
    /// let mix = paint.thin(&thinner, Thinning::from_parts(Parts { thinner: 1.0, paint: 1.0 })?)?;
    /// let gun = Airbrush::new(parse("0.3 mm")?, parse("20 psi")?, parse("80 mm")?)?;
    /// let damp = Room::new(parse("25 °C")?, RelativeHumidity::new(0.9)?)?;
    /// let share = gun.spray(&mix, &damp)?.water_from_air();
    /// assert!((0.02..0.15).contains(&share.si()));
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn water_from_air(&self) -> Ratio {
        Ratio::from_si(self.part.water_gained / self.part.volume)
    }

    /// Volume solids of what lands.
    pub fn deposit_solids(&self) -> VolumeFraction {
        VolumeFraction::new((self.part.solids / self.part.volume).clamp(0.0, 1.0))
            .unwrap_or(VolumeFraction::ONE)
    }

    /// Volume that lands per volume sprayed, were none of it to miss the part.
    pub fn volume_kept(&self) -> Ratio {
        Ratio::from_si(self.part.volume)
    }

    /// The liquid in what lands, species by species; water that the drops took from the air is in it.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] when the spray lands as dust.
    pub fn deposit(&self) -> Result<Blend> {
        check_wet(self.part.solids / self.part.volume)?;
        let sprayed: f64 = self.part.start.iter().sum();
        let volatile = self.inputs.film().volatile();
        let mut parts: Vec<(Solvent, f64)> = volatile
            .species()
            .iter()
            .zip(&self.part.left)
            .map(|(s, n)| (s.solvent.clone(), if *n > NOTHING * sprayed { *n } else { 0.0 }))
            .collect();
        if let Some(n) = self.part.left.get(parts.len()).filter(|n| **n > NOTHING * sprayed) {
            parts.push((solvent::find("water")?, *n));
        }
        Blend::new(parts, Basis::Mole, None)
    }

    /// The coat that this many passes leave, one on the other before any of them has dried, on polystyrene unless
    /// changed. It starts at room temperature; the chill of the drops is left out, a fraction of what the film itself
    /// cools by.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for no pass or more than 1000, a film outside 1 µm to 5 mm, or a spray that lands
    /// as dust.
    pub fn film(&self, passes: u32) -> Result<Film> {
        if !(1..=1000).contains(&passes) {
            return Err(out_of_range(
                "number of passes",
                passes.to_string(),
                "1 to 1000",
                "count each time the spray crosses the place",
            ));
        }
        // The share of the loss in flight in the spread of the film is small beside that of flow and transfer.
        let direct = [Cause::PaintFlow, Cause::Transfer, Cause::Hand, Cause::Swath];
        let variance: f64 = self.inputs.spread(&direct).iter().map(|i| i.std * i.std).sum();
        let thickness = Length::from_si(self.part.wet_m * f64::from(passes));
        self.film_of(thickness)?.with_wet_thickness_uncertainty(thickness * variance.sqrt().min(0.5))
    }

    /// The coat of what lands at a wet thickness that you state, however many passes it takes; else as [`Self::film`].
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a film outside 1 µm to 5 mm, or a spray that lands as dust.
    pub fn film_of(&self, wet_thickness: Length) -> Result<Film> {
        Ok(Film::of_mix(&self.mix, wet_thickness, &self.room)?
            .arrived(self.deposit()?, self.deposit_solids()))
    }

    fn moved_part(&self, moved: &Moved) -> Result<OnPart> {
        if *moved == Moved::default() {
            return Ok(self.part.clone());
        }
        self.inputs.on_part(&self.inputs.at_nozzle(moved)?, moved)
    }

    fn spread_over<Q: Quantity>(
        &self,
        causes: &[Cause],
        scale: Scale,
        model: impl Fn(&Moved) -> Result<f64>,
    ) -> Result<Estimate<Q>> {
        propagate(&self.inputs.spread(causes), &[], scale, |ln| model(&Moved::by(causes, ln)))
    }
}

/// What a film a pass hangs on.
const FILM_CAUSES: [Cause; 9] = [
    Cause::DropSize,
    Cause::Viscosity,
    Cause::AirArea,
    Cause::PaintFlow,
    Cause::Transfer,
    Cause::Hand,
    Cause::Swath,
    Cause::Distance,
    Cause::Evaporation,
];
