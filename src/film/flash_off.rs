//! When may the next pass go on?
//!
//! **Flash-off**, as used here: the time until 90 % by mass of the volatile matter that the wet coat arrived
//! with has left. ISO 4618 describes flash-off in words, as the wait between coats in which most of the
//! volatile matter leaves, and gives no number; 90 % is ours. Other numbers people mean by the word are one
//! call away: [`Drying::flash_off_at`] with 50, 75, 95 or 99 %.
//!
//! The interval: the coat is dried again with one input moved at a time by one standard uncertainty
//! (draught 30 %, wet film thickness 15 % unless stated, vapour pressures 3 %; with a binder its glass transition, and a
//! factor 3 on diffusion in it), and the flux law's own error, a factor
//! 1.22 (rms over the published evaporation rates that were seen in a source, see [`super::EvaporationTest`]), is added.

use super::coat::{Film, Moved};
use super::course::wet_surface;
use super::drying::{Drying, check_share, first_time};
use super::trace::Trace;
use crate::answer::Answer;
use crate::error::Result;
use crate::estimate::{Input, ModelError, Scale, propagate};
use crate::quantity::{Length, Number, Quantity, Ratio, Time, Velocity, digits, show};
use crate::working::{Step, Working};

/// Share of the volatile matter lost at flash-off (source key `FLASH_OFF`).
pub const FLASH_OFF_SHARE: f64 = 0.9;
/// Spread of the draught in a room, one standard deviation: share of it, and at least, m/s
/// (source key `HOBBY_SPREAD`).
const AIR_SPEED_SPREAD: f64 = 0.3;
const AIR_SPEED_LEAST_M_S: f64 = 0.03;
/// Spread of catalogue vapour pressures between sources (source key `EVAPORATION_FIT`).
pub(super) const VAPOUR_PRESSURE_SPREAD: f64 = 0.03;
/// ln 3: diffusion of solvent in a binder (source key `FILM_DIFFUSION`).
const DIFFUSION_SPREAD: f64 = 1.099;
/// ln 1.22: the flux law against published evaporation rates (source key `EVAPORATION_FIT`).
pub(super) const MODEL_SPREAD: f64 = 0.199;

/// One standard deviation of an air speed, m/s.
pub(super) fn air_speed_std(air_speed_m_s: f64) -> f64 {
    (AIR_SPEED_SPREAD * air_speed_m_s).max(AIR_SPEED_LEAST_M_S)
}

/// What is not known of a drying: standard deviations of each air speed and each coat, vapour pressures, the binder.
pub(super) fn uncertain_inputs(film: &Film) -> Vec<Input> {
    let thickness_known = film.all_coats().all(|coat| coat.thickness_std_m() <= 0.0);
    let mut inputs = vec![
        Input::new("air speed in the room", 0.0, 1.0),
        Input::new("wet film thickness", 0.0, if thickness_known { 0.0 } else { 1.0 }),
        Input::new("vapour pressures", 1.0, VAPOUR_PRESSURE_SPREAD),
    ];
    if let Some(binder) = film.binder() {
        inputs.push(Input::new("glass transition of the binder", 0.0, binder.glass_transition().std()));
        inputs.push(Input::new("diffusion in the binder", 0.0, DIFFUSION_SPREAD));
    }
    inputs
}

/// The same as moved: values of [`uncertain_inputs`].
pub(super) fn moved_by(x: &[f64]) -> Moved {
    Moved {
        air_speed_stds: x.first().copied().unwrap_or(0.0),
        wet_thickness_stds: x.get(1).copied().unwrap_or(0.0),
        vapour_pressure: x.get(2).copied().unwrap_or(1.0),
        glass_transition_k: x.get(3).copied().unwrap_or(0.0),
        film_diffusivity: x.get(4).map_or(1.0, |ln| ln.exp()),
    }
}

impl Drying {
    /// Flash-off: when 90 % by mass of the volatile matter has left.
    ///
    /// # Errors
    /// As [`Drying::time_to_lose`]: a coat with a slow solvent, or water in humid air, may never get there.
    pub fn flash_off(&self) -> Result<Answer<Time>> {
        self.flash_off_at(Ratio::from_si(FLASH_OFF_SHARE))
    }

    /// The time to lose another share of the volatile matter, with its interval.
    ///
    /// # Errors
    /// As [`Drying::time_to_lose`].
    pub fn flash_off_at(&self, share: Ratio) -> Result<Answer<Time>> {
        check_share(share)?;
        let best = self.time_to_lose(share)?;
        let read =
            |trace: &Trace| first_time(&trace.segments, share).map(Time::si).ok_or_else(|| self.never(share));
        self.answer(best.si(), Scale::Log, read, |result| {
            Step::new(
                format!("time to lose {} of the volatile matter", show(share)),
                "m(t)/m(0) = 1 − share, integrated",
                r"m(t)/m(0) = 1 - s",
            )
            .numbers(format!("{} of it lost after", show(share)))
            .result(result)
            .source("FLASH_OFF")
        })
    }

    /// An answer read off the course: its interval by drying again with one input moved at a time.
    pub(super) fn answer<Q: Quantity>(
        &self,
        best: f64,
        scale: Scale,
        read: impl Fn(&Trace) -> Result<f64>,
        last_step: impl FnOnce(String) -> Step,
    ) -> Result<Answer<Q>> {
        let model = [ModelError::new("evaporation model", MODEL_SPREAD)];
        let estimate = propagate(&uncertain_inputs(self.film()), &model, scale, |x| {
            let moved = moved_by(x);
            if moved == Moved::NOTHING { Ok(best) } else { read(&self.film().dry_moved(moved)?.trace) }
        })?;
        let mut working = self.working();
        working.push(last_step(estimate.to_string()));
        Ok(Answer::new(estimate, working).with_warnings(self.warnings().iter().cloned()))
    }

    /// How the curves were worked out: the wet coat, the air, the first flux, the end.
    pub fn working(&self) -> Working {
        let film = self.film();
        let mut w = Working::new(format!(
            "Drying of {} wet film of {} on {}",
            show(film.wet_thickness()),
            film.volatile().label(),
            film.substrate()
        ));
        w.push(
            Step::new("volatile part of the wet film", "h_v = h (1 − VS)", r"h_v = h\,(1 - V_S)")
                .numbers(format!("{} × (1 − {})", show(film.wet_thickness()), film.solids()))
                .result(show(Length::from_si(film.wet_thickness().si() * (1.0 - film.solids().get())))),
        );
        if !film.earlier.is_empty() {
            w.push(
                Step::new(
                    "mixed with what earlier coats kept",
                    "n = n_kept + n_new",
                    r"n = n_\mathrm{kept} + n_\mathrm{new}",
                )
                .numbers(format!("{} coats", film.all_coats().count()))
                .result(format!("{} dry in all", show(film.dry_build()))),
            );
        }
        if let Ok(surface) = wet_surface(film) {
            for line in surface.first_fluxes() {
                w.push(
                    Step::new(
                        format!("{} at the start", line.name),
                        "J = k F (γ x f p_sat − p_room) M/(R T)",
                        r"J = k F (\gamma x f p_\mathrm{sat} - p_\mathrm{room}) M/(R T)",
                    )
                    .numbers(format!(
                        "k {}, F {}, γ {}, x {}, f {}, p_sat {}, p_room {}",
                        show(Velocity::from_si(line.k_m_s)),
                        digits(line.stefan_factor, 3),
                        digits(line.gamma, 3),
                        digits(line.mole_fraction, 3),
                        digits(line.polymer_factor, 3),
                        show(crate::quantity::Pressure::from_si(line.psat_pa)),
                        show(crate::quantity::Pressure::from_si(line.room_pressure_pa)),
                    ))
                    .result(show(crate::quantity::MassFlux::from_si(line.flux_kg_m2_s)))
                    .source("POHLHAUSEN"),
                );
            }
        }
        w.push(
            Step::new(
                "lowest film temperature",
                "C dT/dt = h (T_room − T) − Σ J ΔH − q_substrate",
                r"C\,dT/dt = h (T_\infty - T) - \sum_i J_i \Delta H_i - q_\mathrm{sub}",
            )
            .numbers(format!("{}; {}", film.programme(), film.substrate()))
            .result(show(self.coldest()))
            .source("KAPS_RENTROP"),
        );
        w.push(
            Step::new("steps of the integrator", "GRK4T, order 4", r"\mathrm{GRK4T}")
                .result(show(Number::from_si(self.steps() as f64)))
                .source("KAPS_RENTROP"),
        );
        w
    }
}
