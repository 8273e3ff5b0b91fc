//! From settings to what lands, in one pass of plain numbers; the answers move its inputs one at a time.

use super::airbrush::Airbrush;
use super::atomise::{DROP_SIZE_STD, Tip};
use super::flight::{End, Flight, Landed};
use super::nozzle::{self, NozzleTypical};
use crate::air::properties::density_kg_m3;
use crate::air::{Jet, Orifice, Room};
use crate::error::{Result, out_of_range};
use crate::estimate::{Estimate, Input, ModelError};
use crate::film::{self, Film, TOUCH_DRY_K};
use crate::paint::Mix;
use crate::quantity::{
    Area, Density, DynamicViscosity, Length, Quantity, Ratio, SurfaceTension, Velocity, VolumeRate, show,
};
use crate::warning::Warning;

/// Any thickness serves: the flight asks the film for the liquid, not for the coat.
const FILM_M: f64 = 1e-4;
/// Width of a pass over the distance (source key `CONE`): √(π/ln 2) times the half-speed radius 0.094 x.
const CONE: f64 = 0.20;
/// Solids from which a dispersion in water no longer flows (source key `LATEX_PACKING`).
pub(crate) const PACKED: f64 = 0.74;
/// Room made for 95 % of solids in what lands: more is dust.
const MOST_SOLIDS: f64 = 0.98;
/// Spread of the habits, standard deviations of the logarithm (source key `SPRAY_HABITS`).
const DISTANCE_STD: f64 = 0.1;
const SWATH_STD: f64 = 0.15;
const PRESSURE_STD: f64 = 0.025;
/// The evaporation law against published rates, ln 1.22 (source key `EVAPORATION_FIT`).
const EVAPORATION_STD: f64 = 0.199;

/// An input that can be moved for an interval.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Cause {
    DropSize,
    Viscosity,
    Tension,
    AirArea,
    PaintFlow,
    Transfer,
    Hand,
    Swath,
    Distance,
    Pressure,
    Evaporation,
}

/// Factors on the stated values, as logarithms; zero for all that is not named.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Moved([f64; 11]);

impl Moved {
    pub(crate) fn by(causes: &[Cause], ln: &[f64]) -> Self {
        let mut moved = Self::default();
        for (cause, ln) in causes.iter().zip(ln) {
            moved.0[*cause as usize] = *ln;
        }
        moved
    }

    fn factor(&self, cause: Cause) -> f64 {
        self.0[cause as usize].exp()
    }
}

/// Settings with the properties of the mix at room temperature.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Inputs {
    pub(crate) gun: Airbrush,
    pub(crate) room: Room,
    film: Film,
    pub(crate) viscosity: Estimate<DynamicViscosity>,
    pub(crate) density: Estimate<Density>,
    pub(crate) tension: Estimate<SurfaceTension>,
    pub(crate) air_area: Estimate<Area>,
    /// As given, or typical at the reference pressure.
    pub(crate) paint: Estimate<VolumeRate>,
    pub(crate) transfer: Estimate<Ratio>,
    pub(crate) hand: Estimate<Velocity>,
    pub(crate) warnings: Vec<Warning>,
}

/// What leaves the nozzle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct AtNozzle {
    pub(crate) jet: Jet,
    pub(crate) tip: Tip,
    pub(crate) free_air_m3_s: f64,
    pub(crate) paint_m3_s: f64,
    /// With the trigger half drawn, and most that the nozzle passes; equal when the flow is given.
    pub(crate) wanted_m3_s: f64,
    pub(crate) full_m3_s: f64,
    pub(crate) sauter_mean_m: f64,
    pub(crate) distance_m: f64,
}

/// One class of drops at the part.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct ClassLanded {
    pub(crate) diameter_m: f64,
    pub(crate) share: f64,
    pub(crate) lost: f64,
    pub(crate) dry: bool,
    pub(crate) landed: Landed,
}

/// What lands.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct OnPart {
    pub(crate) classes: Vec<ClassLanded>,
    /// mol per m3 of mix sprayed: at the start, and of what lands.
    pub(crate) start: Vec<f64>,
    pub(crate) left: Vec<f64>,
    pub(crate) names: Vec<String>,
    pub(crate) molar_mass: Vec<f64>,
    pub(crate) solids: f64,
    /// Volume that lands per volume sprayed, if all of it met the part.
    pub(crate) volume: f64,
    /// Share of the volatile mass sprayed that is lost; water gained does not count.
    pub(crate) lost: f64,
    /// Water that the drops took from the air, m3 per m3 sprayed.
    pub(crate) water_gained: f64,
    /// Activity of water in the liquid that lands, at room temperature; above 1 it drops out.
    pub(crate) water_activity: f64,
    /// Kelvin above the glass transition of what lands, at room temperature; none without a binder that hardens so.
    pub(crate) above_glass_k: Option<f64>,
    /// Share of the volume sprayed in drops that land dry.
    pub(crate) dust: f64,
    pub(crate) wet_m: f64,
    pub(crate) dry_m: f64,
    pub(crate) swath_m: f64,
    pub(crate) hand_m_s: f64,
}

impl Inputs {
    pub(crate) fn new(gun: Airbrush, mix: &Mix, room: Room) -> Result<Self> {
        let t = room.temperature();
        let viscosity = mix.viscosity(t)?;
        let film = Film::of_mix(mix, Length::from_si(FILM_M), &room)?;
        let paint = match gun.paint_flow() {
            Some(flow) => flow.clone(),
            None => NozzleTypical::of(gun.nozzle())?.paint_flow,
        };
        Ok(Self {
            film,
            density: mix.density(t)?,
            tension: surface_tension(mix, &room)?,
            air_area: gun.air_area()?,
            paint,
            transfer: gun.transfer_efficiency(),
            hand: gun.hand_speed(),
            viscosity: viscosity.estimate,
            warnings: viscosity.warnings,
            gun,
            room,
        })
    }

    /// A coat of the mix as sprayed; what lands differs in its liquid.
    pub(crate) fn film(&self) -> &Film {
        &self.film
    }

    /// The causes as inputs of [`crate::estimate::propagate`], in the logarithm around zero.
    pub(crate) fn spread(&self, causes: &[Cause]) -> Vec<Input> {
        let input = |what: &str, std: f64| Input::new(what, 0.0, std);
        causes
            .iter()
            .map(|cause| match cause {
                Cause::DropSize => match self.gun.given_drop_size() {
                    Some(given) => input("drop size as given", given.relative_std()),
                    None => input("drop size correlation (factor 2)", DROP_SIZE_STD),
                },
                Cause::Viscosity => input("viscosity of the mix", self.viscosity.relative_std()),
                Cause::Tension => input("surface tension", self.tension.relative_std()),
                Cause::AirArea => input("air area of the nozzle", self.air_area.relative_std()),
                Cause::PaintFlow => input("paint flow", self.paint.relative_std()),
                Cause::Transfer => input("transfer efficiency", self.transfer.relative_std()),
                Cause::Hand => input("hand speed", self.hand.relative_std()),
                Cause::Swath => {
                    input("width of the pass", if self.gun.swath().is_some() { 0.0 } else { SWATH_STD })
                }
                Cause::Distance => input("distance kept", DISTANCE_STD),
                Cause::Pressure => input("pressure read", PRESSURE_STD),
                Cause::Evaporation => input("evaporation model", EVAPORATION_STD),
            })
            .collect()
    }

    pub(crate) fn at_nozzle(&self, moved: &Moved) -> Result<AtNozzle> {
        let gun = &self.gun;
        let gauge_pa = gun.pressure().si() * moved.factor(Cause::Pressure);
        let gauge = crate::quantity::Pressure::from_si(gauge_pa);
        let hole = Orifice::effective(self.air_area.best * moved.factor(Cause::AirArea))?;
        let jet = Jet::new(&hole, gauge, &self.room)?;
        let viscosity_pa_s = self.viscosity.best.si() * moved.factor(Cause::Viscosity);
        let stated = self.paint.best.si() * moved.factor(Cause::PaintFlow);
        let (wanted_m3_s, full_m3_s) = if gun.paint_flow().is_some() {
            (stated, stated)
        } else {
            (nozzle::working_flow(stated, gauge_pa)?, nozzle::full_flow(stated, gauge_pa, viscosity_pa_s)?)
        };
        let paint_m3_s = wanted_m3_s.min(full_m3_s);
        let air_density = density_kg_m3(self.room.temperature().si(), self.room.pressure().si());
        let tip = Tip {
            nozzle_m: gun.nozzle().si(),
            air_speed_m_s: jet.exit_speed_m_s,
            air_density_kg_m3: air_density,
            air_kg_s: jet.mass_flow_kg_s,
            paint_kg_s: paint_m3_s * self.density.best.si(),
            density_kg_m3: self.density.best.si(),
            viscosity_pa_s,
            surface_tension_n_m: self.tension.best.si() * moved.factor(Cause::Tension),
        };
        let size = match gun.given_drop_size() {
            Some(given) => given.best.si(),
            None => tip.sauter_mean_m(gun.correlation()),
        };
        Ok(AtNozzle {
            free_air_m3_s: jet.mass_flow_kg_s / air_density,
            jet: jet.loaded_by(tip.paint_kg_s / jet.mass_flow_kg_s),
            tip,
            paint_m3_s,
            wanted_m3_s,
            full_m3_s,
            sauter_mean_m: size * moved.factor(Cause::DropSize),
            distance_m: gun.distance().si() * moved.factor(Cause::Distance),
        })
    }

    pub(crate) fn on_part(&self, nozzle: &AtNozzle, moved: &Moved) -> Result<OnPart> {
        let mut surface = film::wet_surface(&self.film)?;
        let pressures = moved.factor(Cause::Evaporation);
        for s in &mut surface.species {
            s.ln_psat[0] += pressures.ln();
            s.room_pressure_pa *= pressures;
        }
        let mut flight = Flight::new(surface, FILM_M, Some(nozzle.jet), nozzle.paint_m3_s);
        let start = flight.start().to_vec();
        let solids = self.film.solids().get();
        let species = flight.surface().species.clone();
        let molar_mass: Vec<f64> = species.iter().map(|s| s.molar_mass_kg_mol).collect();
        let room_k = self.room.temperature().si();
        let mut left = vec![0.0; start.len()];
        let mut classes = Vec::with_capacity(self.gun.classes());
        let (mut volume, mut dust) = (0.0, 0.0);
        for class in self.gun.spread().classes(self.gun.classes()) {
            let diameter_m = class.relative_diameter * nozzle.sauter_mean_m;
            let landed = flight.fly(diameter_m, End::Distance(nozzle.distance_m), 1.0)?;
            for (sum, n) in left.iter_mut().zip(&landed.amounts) {
                *sum += class.share * n;
            }
            volume += class.share * landed.volume;
            let dry = is_dry(&flight, &landed.amounts, solids / landed.volume, room_k);
            if dry {
                dust += class.share;
            }
            let lost = lost_share(&start, &landed.amounts, &molar_mass);
            classes.push(ClassLanded { diameter_m, share: class.share, lost, dry, landed });
        }
        let above_glass_k = above_glass(&flight, &left, room_k);
        let named = self.film.volatile().species();
        // Water that no liquid brought comes last.
        let water = named.iter().position(|s| film::is_water(&s.solvent)).unwrap_or(named.len());
        let water_gained =
            species.get(water).map_or(0.0, |s| (left[water] - start[water]).max(0.0) * s.molar_volume_m3_mol);
        let water_activity = water_activity(&mut flight, &left, water, room_k);
        let swath_m = match self.gun.swath() {
            Some(width) => width.si(),
            None => CONE * nozzle.distance_m,
        } * moved.factor(Cause::Swath);
        let hand_m_s = self.hand.best.si() * moved.factor(Cause::Hand);
        let transfer = (self.transfer.best.si() * moved.factor(Cause::Transfer)).min(1.0);
        let per_pass = nozzle.paint_m3_s * transfer / (swath_m * hand_m_s);
        Ok(OnPart {
            lost: lost_share(&start, &left, &molar_mass),
            water_gained,
            water_activity,
            names: species.into_iter().map(|s| s.name).collect(),
            wet_m: per_pass * volume,
            dry_m: per_pass * solids,
            classes,
            start,
            left,
            molar_mass,
            solids,
            volume,
            above_glass_k,
            dust,
            swath_m,
            hand_m_s,
        })
    }
}

/// Share of the volatile mass sprayed that is gone. What the air has brought is no loss made good.
fn lost_share(start: &[f64], left: &[f64], molar_mass: &[f64]) -> f64 {
    let (mut sprayed, mut lost) = (0.0, 0.0);
    for ((a, b), m) in start.iter().zip(left).zip(molar_mass) {
        if *a > 0.0 {
            sprayed += a * m;
            lost += (a - b).max(0.0) * m;
        }
    }
    if sprayed > 0.0 { (lost / sprayed).clamp(0.0, 1.0) } else { 0.0 }
}

/// Of the liquid alone: binder in it drives water out sooner.
fn water_activity(flight: &mut Flight, amounts: &[f64], water: usize, room_k: f64) -> f64 {
    let total: f64 = amounts.iter().sum();
    let Some(&held) = amounts.get(water).filter(|n| **n > 0.0) else { return 0.0 };
    held / total * flight.activity_coefficients(amounts, room_k)[water]
}

fn above_glass(flight: &Flight, amounts: &[f64], room_k: f64) -> Option<f64> {
    let per_area: Vec<f64> = amounts.iter().map(|n| n * FILM_M).collect();
    flight.surface().above_glass_k(&per_area, room_k)
}

/// Touch dry, or, without a binder that hardens by losing solvent, packed solid.
fn is_dry(flight: &Flight, amounts: &[f64], solids: f64, room_k: f64) -> bool {
    match above_glass(flight, amounts, room_k) {
        Some(above) => above <= TOUCH_DRY_K,
        None => solids >= PACKED,
    }
}

/// Of paint and thinner, roots added by volume (source key `ORGANIC_MIX`).
fn surface_tension(mix: &Mix, room: &Room) -> Result<Estimate<SurfaceTension>> {
    let paint = mix.paint().surface_tension();
    let x = mix.paint_fraction().get();
    if x >= 1.0 {
        return Ok(paint.clone());
    }
    let thinner = mix.thinner().surface_tension(room.temperature())?.estimate;
    let root = x * paint.best.si().sqrt() + (1.0 - x) * thinner.best.si().sqrt();
    let share = x * paint.best.si().sqrt() / root;
    let causes = [
        ModelError::new("surface tension of the paint", share * paint.relative_std()),
        ModelError::new("surface tension of the thinner", (1.0 - share) * thinner.relative_std()),
    ];
    Ok(Estimate::relative(SurfaceTension::from_si(root * root), &causes))
}

/// Refuses a deposit that is no coat.
pub(crate) fn check_wet(solids: f64) -> Result<()> {
    if solids <= MOST_SOLIDS {
        return Ok(());
    }
    Err(out_of_range(
        "volume solids of what lands",
        show(Ratio::from_si(solids)),
        "at most 98 %",
        "the spray lands as dust: come nearer, take a slower thinner, or spray coarser drops",
    ))
}
