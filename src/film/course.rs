//! The whole course of a coat: over what earlier coats kept, through the air of its programme.
//!
//! Every stretch of constant air is a leg of the engine. Between legs the film is a [`Moment`]: amounts, and absolute
//! temperatures of film and substrate. Liquids keep the molar volume of the room in which the first coat landed.

use super::advice::coat_on_hard_film;
use super::coat::{Film, Moved};
use super::engine::{Engine, Options, Support};
use super::flash_off::air_speed_std;
use super::liquid::Liquid;
use super::moment::Moment;
use super::polymer::{CHI_SOLVENT, CHI_WATER};
use super::substrate::Substrate;
use super::surface::{Surface, Transfer};
use super::tip::PACKED;
use super::trace::Trace;
use super::volatile::Volatile;
use crate::air::Room;
use crate::air::properties::ATMOSPHERE_PA;
use crate::air::transfer::GasSide;
use crate::blend::Activity;
use crate::error::{Error, Result};
use crate::quantity::{Quantity, Velocity};
use crate::solvent::{self, Solvent};
use crate::warning::Warning;

/// What a course leaves behind.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Course {
    /// Species; arrived is what the coats brought and the film held when the last coat had landed.
    pub(crate) species: Vec<Volatile>,
    /// After the last landing.
    pub(crate) trace: Trace,
    /// Each stretch of air of every coat, in order.
    pub(crate) airs: Vec<Seen>,
    pub(crate) warnings: Vec<Warning>,
}

/// A stretch of air with what was seen in it.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Seen {
    pub(crate) room: Room,
    pub(crate) coldest_k: f64,
    /// Share of the volatile mass of the wet film that was left when it set in.
    pub(crate) left: f64,
}

pub(crate) fn run(film: &Film, moved: Moved) -> Result<Course> {
    let mut stage = Stage::bare(film, moved)?;
    let mut kept = Vec::with_capacity(film.earlier.len());
    let mut brought = 0.0;
    let mut hard_below = None;
    for (index, under) in film.earlier.iter().enumerate() {
        brought += stage.lands(&under.film);
        let (_, below) = stage.dries(&under.film, under.wait.si())?;
        let packed = under.film.dispersion().is_some() && stage.solids_share() > PACKED;
        if packed || below.soft_until_s.iter().all(Option::is_some) {
            hard_below = hard_below.or(Some(index + 2));
        }
        kept.push(stage.held() / brought);
    }
    brought += stage.lands(film);
    let wet_share = if kept.is_empty() { 1.0 } else { stage.held() / brought };
    let (species, mut trace) = stage.dries(film, film.followed_for().si())?;
    (trace.kept, trace.wet_share) = (kept, wet_share);
    let mut warnings = stage.activity.warnings().to_vec();
    warnings.extend(hard_below.map(coat_on_hard_film));
    Ok(Course { species, trace, airs: stage.airs, warnings })
}

/// The surface of the wet coat in its first air, over what earlier coats kept.
pub(crate) fn wet_surface(film: &Film) -> Result<Surface> {
    let mut stage = Stage::bare(film, Moved::NOTHING)?;
    for under in &film.earlier {
        stage.lands(&under.film);
        stage.dries(&under.film, under.wait.si())?;
    }
    stage.lands(film);
    stage.surface(film, film.room())
}

/// A part with what lies on it.
struct Stage {
    moved: Moved,
    solvents: Vec<Solvent>,
    activity: Activity,
    /// As they are in the room of the first coat.
    species: Vec<Volatile>,
    support: Support,
    at: Moment,
    /// By the coats, not by the air.
    brought: Vec<bool>,
    solids_m: f64,
    airs: Vec<Seen>,
}

impl Stage {
    /// Before the first coat.
    fn bare(film: &Film, moved: Moved) -> Result<Self> {
        let first = film.all_coats().next().unwrap_or(film);
        let mut solvents: Vec<Solvent> = Vec::new();
        for species in film.all_coats().flat_map(|coat| coat.volatile().species()) {
            if !solvents.iter().any(|s| s.id() == species.solvent.id()) {
                solvents.push(species.solvent.clone());
            }
        }
        let humid = film.all_coats().any(|coat| coat.rooms().any(|r| r.relative_humidity().get() > 0.0));
        if humid && !solvents.iter().any(is_water) {
            solvents.push(solvent::find("water")?);
        }
        let support = match (film.substrate(), film.substrate().conduction()?) {
            (_, Some(plate)) => Support::Plate(plate),
            (Substrate::Isothermal, None) => Support::Isothermal,
            (_, None) => Support::Free,
        };
        let room_k = first.room().temperature().si();
        Ok(Self {
            activity: Activity::new(solvents.iter(), None)?,
            species: solvents.iter().map(|s| volatile_of(s, first.room(), moved)).collect(),
            at: Moment::bare(solvents.len(), room_k),
            brought: vec![false; solvents.len()],
            moved,
            solvents,
            support,
            solids_m: 0.0,
            airs: Vec::new(),
        })
    }

    /// A coat lands; gives the volatile mass it brings, kg/m2.
    fn lands(&mut self, coat: &Film) -> f64 {
        let thickness = coat.moved_thickness_m(self.moved);
        let solids_m = thickness * coat.solids().get();
        let mut laid = Moment::bare(self.species.len(), coat.room().temperature().si());
        for species in coat.volatile().species() {
            let index = self.solvents.iter().position(|s| s.id() == species.solvent.id());
            if let Some(index) = index {
                laid.amounts_mol_m2[index] += species.mole_fraction;
                self.brought[index] = true;
            }
        }
        let volume: f64 =
            laid.amounts_mol_m2.iter().zip(&self.species).map(|(x, s)| x * s.molar_volume_m3_mol).sum();
        for x in &mut laid.amounts_mol_m2 {
            *x *= (thickness - solids_m) / volume;
        }
        self.at.lands(&laid, &self.species, [self.solids_m, solids_m]);
        self.solids_m += solids_m;
        laid.amounts_mol_m2.iter().zip(&self.species).map(|(n, s)| n * s.molar_mass_kg_mol).sum()
    }

    /// Volatile mass brought by the coats and still held, kg/m2.
    fn held(&self) -> f64 {
        let amounts = self.at.amounts_mol_m2.iter().zip(&self.species).zip(&self.brought);
        amounts.map(|((n, s), brought)| if *brought { n.max(0.0) * s.molar_mass_kg_mol } else { 0.0 }).sum()
    }

    /// Solids in the film, by volume.
    fn solids_share(&self) -> f64 {
        let liquid = self.at.amounts_mol_m2.iter().zip(&self.species);
        self.solids_m / (self.solids_m + liquid.map(|(n, s)| n.max(0.0) * s.molar_volume_m3_mol).sum::<f64>())
    }

    /// The film as it is now, in this air.
    fn surface(&self, coat: &Film, room: &Room) -> Result<Surface> {
        let speed = room.air_speed().si();
        let moved_speed = (speed + self.moved.air_speed_stds * air_speed_std(speed)).max(0.0);
        let moved_room = room.clone().with_air_speed(Velocity::from_si(moved_speed))?;
        let mut species = Vec::with_capacity(self.species.len());
        for (i, solvent) in self.solvents.iter().enumerate() {
            species.push(Volatile {
                molar_volume_m3_mol: self.species[i].molar_volume_m3_mol,
                arrived_mol_m2: if self.brought[i] { self.at.amounts_mol_m2[i].max(0.0) } else { 0.0 },
                ..volatile_of(solvent, room, self.moved)
            });
            if let (Some(binder), Some(last)) = (coat.binder(), species.last_mut()) {
                let chi = if is_water(solvent) { binder.chi_of_water() } else { binder.chi() };
                last.chi = chi.si();
            }
        }
        let diffusivities: Vec<f64> = species.iter().map(|s| s.diffusivity_m2_s).collect();
        let room_k = room.temperature().si();
        let mut surface = Surface::new(
            species,
            Liquid::new(self.activity.clone(), room_k),
            Transfer::Room(GasSide::new(&moved_room, coat.part_length().si(), &diffusivities)),
            self.solids_m,
            room_k,
            room.pressure().si(),
        );
        if let (Some(binder), true) = (coat.binder(), self.solids_m > 0.0) {
            let m = &self.moved;
            surface.binder = Some(binder.matter(self.solids_m, m.glass_transition_k, m.film_diffusivity));
        }
        Ok(surface)
    }

    /// Through the air of this coat for so long.
    fn dries(&mut self, coat: &Film, lasts_s: f64) -> Result<(Vec<Volatile>, Trace)> {
        let wet = self.surface(coat, coat.room())?;
        let arrived: Vec<f64> = wet.species.iter().map(|s| s.arrived_mol_m2).collect();
        let species = wet.species.clone();
        let options = Options::of(&wet);
        let mut trace = Trace::starting(&self.at, self.solids_m);
        let wet_mass = self.held();
        let (mut first, mut from_s) = (Some(wet), 0.0);
        let ends = coat.changes.iter().map(|c| c.after.si()).chain([f64::INFINITY]);
        for (room, phase_s) in coat.rooms().zip(ends) {
            let until_s = lasts_s.min(from_s + phase_s);
            if until_s <= from_s {
                break;
            }
            let surface = if let Some(wet) = first.take() {
                wet
            } else {
                let mut surface = self.surface(coat, room)?;
                for (s, n) in surface.species.iter_mut().zip(&arrived) {
                    s.arrived_mol_m2 = *n;
                }
                surface
            };
            let mut seen =
                Seen { room: room.clone(), coldest_k: self.at.film_k, left: self.held() / wet_mass };
            let before = trace.temperature_k.len();
            let mut engine = Engine::new(surface, self.support, options);
            let start = core::mem::replace(&mut self.at, Moment::bare(0, 0.0));
            self.at = engine.follow(start, [from_s, until_s], options, &mut trace)?;
            let since = trace.temperature_k.get(before..).unwrap_or_default();
            seen.coldest_k = since.iter().copied().fold(seen.coldest_k, f64::min);
            if self.support == Support::Isothermal {
                seen.coldest_k = room.temperature().si();
            }
            self.airs.push(seen);
            from_s = until_s;
        }
        Ok((species, trace))
    }
}

pub(super) fn volatile_of(solvent: &Solvent, room: &Room, moved: Moved) -> Volatile {
    let kernel = solvent.kernel();
    let room_k = room.temperature().si();
    let ln10 = core::f64::consts::LN_10;
    let mut v = Volatile {
        name: solvent.name().to_owned(),
        molar_mass_kg_mol: kernel.molar_mass_kg_mol,
        molar_volume_m3_mol: kernel.molar_volume_m3_mol(room_k),
        diffusivity_m2_s: kernel.diffusivity_m2_s(room_k) * ATMOSPHERE_PA / room.pressure().si(),
        heat_of_vaporisation_j_mol: kernel.heat_of_vaporisation_j_mol,
        heat_capacity_j_mol_k: kernel.heat_capacity_j_kg_k * kernel.molar_mass_kg_mol,
        ln_psat: [
            kernel.antoine_a * ln10 + moved.vapour_pressure.ln(),
            kernel.antoine_b_k * ln10,
            kernel.antoine_c_k,
        ],
        room_pressure_pa: 0.0,
        chi: CHI_SOLVENT,
        glass_transition_k: kernel.glass_transition_k,
        arrived_mol_m2: 0.0,
    };
    if is_water(solvent) {
        v.chi = CHI_WATER;
        // From the same law as at the surface: pure water at 100 % humidity stays as it is.
        v.room_pressure_pa = room.relative_humidity().get() * v.psat_pa(room_k);
    }
    v
}

/// By registry number; a user file may call water anything.
pub(crate) fn is_water(solvent: &Solvent) -> bool {
    solvent.cas() == Some("7732-18-5")
}

/// Whether the liquids of a coat part into two at the temperature of any air it meets.
pub(crate) fn phase_split(film: &Film) -> Option<Warning> {
    let mut met: Vec<f64> = Vec::new();
    for room in film.rooms() {
        let temperature = room.temperature();
        if met.contains(&temperature.si()) {
            continue;
        }
        met.push(temperature.si());
        if let Err(Error::PhaseSplit(split)) = film.volatile().require_one_liquid(temperature) {
            let text = format!("the film is taken as one liquid, but {split}");
            return Some(Warning::new("phase-split", text));
        }
    }
    None
}
