//! A mix that loses its volatiles where it stands: amounts in time, and how thick it has become.

use crate::air::Room;
use crate::air::transfer::GasSide;
use crate::blend::{Activity, Basis, Blend};
use crate::error::Result;
use crate::film::coat::Moved;
use crate::film::course::{is_water, volatile_of};
use crate::film::engine::{Engine, Options, Support};
use crate::film::liquid::Liquid;
use crate::film::moment::Moment;
use crate::film::substrate::Substrate;
use crate::film::surface::{Surface, Transfer};
use crate::film::trace::Trace;
use crate::film::volatile::{FirstFlux, Volatile};
use crate::paint::Mix;
use crate::quantity::{Quantity, Velocity};
use crate::solvent::{self, Solvent};
use crate::warning::Warning;

/// Finer than a film needs, since viscosity is read off the curve by straight lines.
const RELATIVE_TOLERANCE: f64 = 1e-4;
/// Most that the dilution law is followed to: 1 − b x at its singular point is zero.
const LEAST_DENOMINATOR: f64 = 0.02;
/// ln of the thickest liquid told apart, a million times the mix.
const THICKEST_LN: f64 = 13.8;
/// Shares of a mole below this no longer colour the viscosity of the liquid.
const TRACE: f64 = 1e-9;
/// Halvings that bring a time to its last digits.
const BISECTIONS: usize = 40;

/// A layer of a mix and the air over it, as stated.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Pool<'a> {
    pub(crate) mix: &'a Mix,
    pub(crate) room: &'a Room,
    pub(crate) depth_m: f64,
    /// Along the air.
    pub(crate) length_m: f64,
    pub(crate) freeboard_m: f64,
    pub(crate) air_speed_m_s: f64,
    pub(crate) wall: &'a Substrate,
    pub(crate) until_s: f64,
}

/// How the dilution law reads for this mix: `ln(η/ηs) = a x/(1 − b x)` with x from the volume of solids.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Thickening {
    a: f64,
    b: f64,
    stock_solids: f64,
    paint_fraction: f64,
}

impl Thickening {
    /// From the mix at the temperature of the room, its shape moved by so many standard uncertainties.
    pub(crate) fn of(mix: &Mix, room: &Room, shape_stds: f64) -> Result<Self> {
        let law = mix.paint().law(mix.thinner(), room.temperature())?;
        let shape = law.shape();
        let b = (law.b() + shape_stds * shape.std()).min(1.0 - LEAST_DENOMINATOR);
        Ok(Self {
            a: law.a() * (1.0 - b) / (1.0 - law.b()),
            b,
            stock_solids: mix.paint().volume_solids().best.si(),
            paint_fraction: mix.paint_fraction().get(),
        })
    }

    /// ln of the viscosity over that of the liquid, at a volume fraction of solids.
    fn ln_relative(&self, solids: f64) -> f64 {
        let x = solids / self.stock_solids;
        let below = 1.0 - self.b * x;
        if below < LEAST_DENOMINATOR { THICKEST_LN } else { (self.a * x / below).min(THICKEST_LN) }
    }

    /// ln of the viscosity over that of the mix as poured; `ln_liquid` is that of the liquid part alone.
    pub(crate) fn ln_rise(&self, solids: f64, ln_liquid: f64) -> f64 {
        let poured = self.ln_relative(self.paint_fraction * self.stock_solids);
        (self.ln_relative(solids) - poured + ln_liquid).min(THICKEST_LN)
    }

    /// Paint fraction of a mix of this much solids; above 1 it is thicker than the stock paint.
    pub(crate) fn paint_fraction_at(&self, solids: f64) -> f64 {
        solids / self.stock_solids
    }
}

/// What was followed.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Followed {
    pub(crate) solvents: Vec<Solvent>,
    pub(crate) species: Vec<Volatile>,
    pub(crate) trace: Trace,
    pub(crate) warnings: Vec<Warning>,
    pub(crate) room_k: f64,
}

impl Pool<'_> {
    fn surface(
        &self,
        moved: Moved,
        amounts: Option<&[f64]>,
    ) -> Result<(Vec<Solvent>, Surface, Vec<Warning>)> {
        let volatile = self.mix.volatile()?;
        let mut parts: Vec<(Solvent, f64)> =
            volatile.species().iter().map(|s| (s.solvent.clone(), s.mole_fraction)).collect();
        if self.room.relative_humidity().get() > 0.0 && !parts.iter().any(|(s, _)| is_water(s)) {
            parts.push((solvent::find("water")?, 0.0));
        }
        let room_k = self.room.temperature().si();
        let solids_m = self.depth_m * self.mix.volume_solids().best.si();
        let mut species: Vec<Volatile> =
            parts.iter().map(|(s, _)| volatile_of(s, self.room, moved)).collect();
        let molar: f64 = species.iter().zip(&parts).map(|(s, (_, x))| x * s.molar_volume_m3_mol).sum();
        for (i, s) in species.iter_mut().enumerate() {
            let poured = parts[i].1 * (self.depth_m - solids_m) / molar;
            s.arrived_mol_m2 = amounts.map_or(poured, |n| n.get(i).copied().unwrap_or(0.0));
        }
        let std = crate::film::flash_off::air_speed_std(self.air_speed_m_s);
        let speed = (self.air_speed_m_s + moved.air_speed_stds * std).max(0.0);
        let diffusivities: Vec<f64> = species.iter().map(|s| s.diffusivity_m2_s).collect();
        let gas = GasSide::new(
            &self.room.clone().moving_at(Velocity::from_si(speed)),
            self.length_m,
            &diffusivities,
        )
        .below_rim(self.freeboard_m, &diffusivities);
        let solvents: Vec<Solvent> = parts.into_iter().map(|(s, _)| s).collect();
        let activity = Activity::new(solvents.iter(), None)?;
        let warnings = activity.warnings().to_vec();
        let liquid = Liquid::new(activity, room_k);
        let surface =
            Surface::new(species, liquid, Transfer::Room(gas), solids_m, room_k, self.room.pressure().si());
        Ok((solvents, surface, warnings))
    }

    pub(crate) fn follow(&self, moved: Moved) -> Result<Followed> {
        let (solvents, surface, warnings) = self.surface(moved, None)?;
        let species = surface.species.clone();
        let support = match (self.wall, self.wall.conduction()?) {
            (_, Some(plate)) => Support::Plate(plate),
            (Substrate::Isothermal, None) => Support::Isothermal,
            (_, None) => Support::Free,
        };
        let options = Options { relative_tolerance: RELATIVE_TOLERANCE, ..Options::default() };
        let mut start = Moment::bare(species.len(), surface.room_temperature_k);
        start.amounts_mol_m2 = species.iter().map(|s| s.arrived_mol_m2).collect();
        let mut trace = Trace::starting(&start, surface.solids_m);
        Engine::new(surface, support, options).follow(start, [0.0, self.until_s], options, &mut trace)?;
        Ok(Followed { solvents, species, trace, warnings, room_k: self.room.temperature().si() })
    }

    /// The fluxes at room temperature of the mix as poured, or with these amounts in it (mol/m2).
    pub(crate) fn fluxes(&self, amounts: Option<&[f64]>) -> Result<Vec<FirstFlux>> {
        Ok(self.surface(Moved::NOTHING, amounts)?.1.first_fluxes())
    }
}

impl Followed {
    /// Amounts at a time, mol/m2, by straight lines; the last known for times past the end.
    pub(crate) fn amounts_at(&self, t_s: f64) -> Vec<f64> {
        let times = &self.trace.times_s;
        let after = times.partition_point(|x| *x <= t_s).min(times.len().saturating_sub(1)).max(1);
        let before = after - 1;
        let part = ((t_s - times[before]) / (times[after] - times[before])).clamp(0.0, 1.0);
        let curves = self.trace.amounts_mol_m2.iter();
        curves.map(|a| a[before] + part * (a[after] - a[before])).collect()
    }

    /// Amounts at a recorded point.
    pub(crate) fn amounts(&self, point: usize) -> Vec<f64> {
        self.trace.amounts_mol_m2.iter().map(|a| a[point]).collect()
    }

    /// Volume of liquid, m3/m2.
    pub(crate) fn liquid_m(&self, amounts: &[f64]) -> f64 {
        amounts.iter().zip(&self.species).map(|(n, s)| n.max(0.0) * s.molar_volume_m3_mol).sum()
    }

    /// Mass of liquid, kg/m2.
    pub(crate) fn mass_kg_m2(&self, amounts: &[f64]) -> f64 {
        amounts.iter().zip(&self.species).map(|(n, s)| n.max(0.0) * s.molar_mass_kg_mol).sum()
    }

    /// Volume fraction of solids.
    pub(crate) fn solids(&self, amounts: &[f64]) -> f64 {
        self.trace.solids_m / (self.trace.solids_m + self.liquid_m(amounts))
    }

    /// The liquid with these amounts.
    pub(crate) fn liquid(&self, amounts: &[f64]) -> Result<Blend> {
        let total: f64 = amounts.iter().map(|n| n.max(0.0)).sum();
        let masses = amounts.iter().zip(&self.species).zip(&self.solvents).map(|((n, s), solvent)| {
            let kept = if *n > TRACE * total { *n } else { 0.0 };
            (solvent.clone(), kept * s.molar_mass_kg_mol)
        });
        Blend::new(masses.collect(), Basis::Mass, None)
    }

    /// ln of the viscosity over that of the mix as poured.
    pub(crate) fn ln_rise(&self, law: &Thickening, amounts: &[f64]) -> Result<f64> {
        let poured = self.liquid(&self.amounts(0))?.viscosity_pa_s(self.room_k);
        // A dried-up pot has no liquid to speak of.
        let Ok(now) = self.liquid(amounts) else { return Ok(THICKEST_LN) };
        Ok(law.ln_rise(self.solids(amounts), (now.viscosity_pa_s(self.room_k) / poured).ln()))
    }

    /// First time at which the viscosity has risen to so much.
    pub(crate) fn time_of_rise(&self, law: &Thickening, ln_rise: f64) -> Result<Option<f64>> {
        self.first_time(|amounts| Ok(self.ln_rise(law, amounts)? >= ln_rise))
    }

    /// First time at which so much of the volume is solids.
    pub(crate) fn time_of_solids(&self, solids: f64) -> Result<Option<f64>> {
        self.first_time(|amounts| Ok(self.solids(amounts) >= solids))
    }

    /// First time at which something holds of the amounts: between two points these are straight lines.
    fn first_time(&self, holds: impl Fn(&[f64]) -> Result<bool>) -> Result<Option<f64>> {
        let mut before = 0.0;
        for (point, &t) in self.trace.times_s.iter().enumerate().skip(1) {
            if holds(&self.amounts(point))? {
                let (mut low, mut high) = (before, t);
                for _ in 0..BISECTIONS {
                    let middle = 0.5 * (low + high);
                    if holds(&self.amounts_at(middle))? {
                        high = middle;
                    } else {
                        low = middle;
                    }
                }
                return Ok(Some(0.5 * (low + high)));
            }
            before = t;
        }
        Ok(None)
    }
}
