//! What a cup that stood open can tell: curves, the time until it is too thick, how thick it is when.

use super::OpenCup;
use super::run::{Followed, Thickening};
use crate::answer::Answer;
use crate::error::{Error, Result, out_of_range};
use crate::estimate::{Input, ModelError, Scale, propagate};
use crate::film::coat::Moved;
use crate::film::flash_off::{MODEL_SPREAD, VAPOUR_PRESSURE_SPREAD};
use crate::quantity::{
    DynamicViscosity, Mass, MassFlux, Quantity, Ratio, Temperature, Time, Velocity, digits, show,
};
use crate::warning::Warning;
use crate::working::{Step, Working};

/// Depth of the mix by a look at the cup (source key `MIXING_CUP`).
const DEPTH_SPREAD: f64 = 0.1;
/// Most thickening that is asked for: tenfold is paste.
const MOST_RISE: f64 = 9.0;

/// The course of a mix in an open cup.
///
/// Curves have one entry for each of [`CupCourse::times`].
#[derive(Debug, Clone, PartialEq)]
pub struct CupCourse {
    pub(super) cup: OpenCup,
    pub(super) followed: Followed,
    pub(super) law: Thickening,
    ln_rise: Vec<f64>,
    viscosity: DynamicViscosity,
    warnings: Vec<Warning>,
}

impl CupCourse {
    pub(super) fn new(cup: OpenCup, followed: Followed) -> Result<Self> {
        let law = Thickening::of(cup.mix(), cup.room(), 0.0)?;
        let viscosity = cup.mix().viscosity(cup.room().temperature())?;
        let points = followed.trace.times_s.len();
        let ln_rise =
            (0..points).map(|i| followed.ln_rise(&law, &followed.amounts(i))).collect::<Result<Vec<_>>>()?;
        let mut warnings = followed.warnings.clone();
        warnings.extend(viscosity.warnings.iter().cloned());
        let end = law.paint_fraction_at(followed.solids(&followed.amounts(points.saturating_sub(1))));
        if end > 1.0 {
            let stock = followed.times_until(|n| law.paint_fraction_at(followed.solids(n)) > 1.0);
            let from = stock.map_or_else(String::new, |t| format!(" after {}", show(Time::from_si(t))));
            warnings.push(Warning::new(
                "cup-past-stock",
                format!(
                    "the mix grows thicker than the undiluted paint{from}: from there its viscosity follows the dilution law \
                     beyond any reading; top it up before, or cover it"
                ),
            ));
        }
        Ok(Self { cup, followed, law, ln_rise, viscosity: viscosity.best(), warnings })
    }

    /// The cup.
    pub fn cup(&self) -> &OpenCup {
        &self.cup
    }

    /// Names of the species, water from the air last.
    pub fn species(&self) -> Vec<&str> {
        self.followed.species.iter().map(|s| s.name.as_str()).collect()
    }

    /// Times of the points, from zero.
    pub fn times(&self) -> Vec<Time> {
        self.followed.trace.times_s.iter().map(|t| Time::from_si(*t)).collect()
    }

    fn curve(&self, mut at: impl FnMut(&[f64]) -> f64) -> Vec<f64> {
        (0..self.followed.trace.times_s.len()).map(|i| at(&self.followed.amounts(i))).collect()
    }

    /// Mass the cup has lost at each time, what it took up from the air taken off.
    pub fn mass_lost(&self) -> Vec<Mass> {
        let poured = self.followed.mass_kg_m2(&self.followed.amounts(0));
        let area = self.cup.area_m2();
        let lost = self.curve(|n| (poured - self.followed.mass_kg_m2(n)) * area);
        lost.into_iter().map(Mass::from_si).collect()
    }

    /// For each species its mass in the cup at each time.
    pub fn amounts(&self) -> Vec<Vec<Mass>> {
        let area = self.cup.area_m2();
        let curves = self.followed.trace.amounts_mol_m2.iter().zip(&self.followed.species);
        curves
            .map(|(n, s)| n.iter().map(|n| Mass::from_si(n * s.molar_mass_kg_mol * area)).collect())
            .collect()
    }

    /// Volume fraction of solids at each time.
    pub fn volume_solids(&self) -> Vec<f64> {
        self.curve(|n| self.followed.solids(n))
    }

    /// Viscosity at each time, at room temperature.
    pub fn viscosities(&self) -> Vec<DynamicViscosity> {
        self.ln_rise.iter().map(|ln| DynamicViscosity::from_si(self.viscosity.si() * ln.exp())).collect()
    }

    /// Temperature of the liquid at each time.
    pub fn temperatures(&self) -> Vec<Temperature> {
        self.followed.trace.temperature_k.iter().map(|t| Temperature::from_si(*t)).collect()
    }

    /// Mass fractions of the liquid at one time.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a time outside those followed.
    pub fn composition_at(&self, time: Time) -> Result<Vec<(String, Ratio)>> {
        self.check_time(time)?;
        Ok(self.shares(&self.followed.amounts_at(time.si())))
    }

    pub(super) fn shares(&self, amounts: &[f64]) -> Vec<(String, Ratio)> {
        let total = self.followed.mass_kg_m2(amounts).max(f64::MIN_POSITIVE);
        let species = self.followed.species.iter().zip(amounts);
        species
            .map(|(s, n)| (s.name.clone(), Ratio::from_si(n.max(0.0) * s.molar_mass_kg_mol / total)))
            .collect()
    }

    /// What to mind: missing activity parameters, a mix thicker than the stock paint.
    pub fn warnings(&self) -> &[Warning] {
        &self.warnings
    }

    /// When the viscosity has risen by this share: 20 % is a fifth thicker.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a rise outside 1 to 900 %, or one not reached while the cup is followed.
    pub fn time_to_thicken(&self, rise: Ratio) -> Result<Answer<Time>> {
        if !(0.01..=MOST_RISE).contains(&rise.si()) {
            return Err(out_of_range(
                "rise of the viscosity",
                show(rise),
                "1 % to 900 %",
                "10 % to 50 % is what a spray gun forgives",
            ));
        }
        let level = rise.si().ln_1p();
        let model = [ModelError::new("evaporation model", MODEL_SPREAD)];
        let estimate = propagate(&Self::inputs(), &model, Scale::Log, |x| {
            let (followed, law) = self.again(x)?;
            followed.time_of_rise(&law, level)?.ok_or_else(|| self.too_slow(rise))
        })?;
        let mut working = self.working();
        working.push(
            Step::new(
                format!("viscosity risen by {}", show(rise)),
                "ln η/η0 = ln η_liquid/η_liquid,0 + a x/(1 − b x) − a x0/(1 − b x0)",
                r"\ln\frac{\eta}{\eta_0} = \ln\frac{\eta_l}{\eta_{l,0}} + \frac{a x}{1-bx} - \frac{a x_0}{1-bx_0}",
            )
            .result(estimate.to_string())
            .source("dilution-law"),
        );
        Ok(Answer::new(estimate, working).with_warnings(self.warnings.iter().cloned()))
    }

    /// Viscosity at a time, over that of the mix as poured.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a time outside those followed.
    pub fn thickened(&self, time: Time) -> Result<Answer<Ratio>> {
        self.check_time(time)?;
        let mut inputs = Self::inputs();
        // Faster air and more time are the same thing.
        inputs.push(Input::new("evaporation model", 0.0, MODEL_SPREAD));
        let estimate = propagate(&inputs, &[], Scale::Log, |x| {
            let (followed, law) = self.again(x)?;
            let at = followed.amounts_at(time.si() * x.last().map_or(1.0, |ln| ln.exp()));
            Ok(followed.ln_rise(&law, &at)?.exp())
        })?;
        let mut working = self.working();
        working.push(
            Step::new(format!("viscosity after {}", show(time)), "η/η0", r"\eta/\eta_0")
                .result(estimate.to_string())
                .source("dilution-law"),
        );
        Ok(Answer::new(estimate, working).with_warnings(self.warnings.iter().cloned()))
    }

    /// What is uncertain about it, as [`Self::again`] takes it.
    pub(super) fn inputs() -> Vec<Input> {
        vec![
            Input::new("air speed in the room", 0.0, 1.0),
            Input::new("vapour pressures", 1.0, VAPOUR_PRESSURE_SPREAD),
            Input::new("depth of the mix", 0.0, DEPTH_SPREAD),
            Input::new("shape of the dilution law", 0.0, 1.0),
        ]
    }

    /// The same cup with inputs moved.
    pub(super) fn again(&self, x: &[f64]) -> Result<(Followed, Thickening)> {
        let [air, vapour, depth, shape] = [0, 1, 2, 3].map(|i| x.get(i).copied().unwrap_or(0.0));
        let law = Thickening::of(self.cup.mix(), self.cup.room(), shape)?;
        if air == 0.0 && (vapour - 1.0).abs() < f64::EPSILON && depth == 0.0 {
            return Ok((self.followed.clone(), law));
        }
        let mut pool = self.cup.pool();
        pool.depth_m *= depth.exp();
        let moved = Moved { air_speed_stds: air, vapour_pressure: vapour, ..Moved::NOTHING };
        Ok((pool.follow(moved)?, law))
    }

    pub(super) fn check_time(&self, time: Time) -> Result<()> {
        if (0.0..=self.cup.followed_for().si()).contains(&time.si()) {
            return Ok(());
        }
        Err(out_of_range(
            "time",
            show(time),
            format!("0 s to {}, as long as the cup is followed", show(self.cup.followed_for())),
            "count from pouring; follow it longer with `until`",
        ))
    }

    fn too_slow(&self, rise: Ratio) -> Error {
        let most = self.ln_rise.iter().copied().fold(0.0, f64::max).exp_m1();
        out_of_range(
            "wanted rise of the viscosity",
            show(rise),
            format!(
                "at most {}, what this mix comes to in {}",
                show(Ratio::from_si(most)),
                show(self.cup.followed_for())
            ),
            "the mix keeps longer than that: ask for less, or follow it longer with `until`",
        )
    }

    /// How the curves were worked out.
    pub fn working(&self) -> Working {
        let cup = &self.cup;
        let mut w = Working::new(format!(
            "Open cup of {} with {} of mix, {} below the rim",
            show(cup.diameter()),
            show(cup.depth()),
            show(cup.freeboard())
        ));
        for line in cup.pool().fluxes(None).unwrap_or_default() {
            w.push(
                Step::new(
                    format!("{} at the start", line.name),
                    "J = k F (γ x f p_sat − p_room) M/(R T), 1/k = 1/k_air + H/D",
                    r"J = k F (\gamma x f p_\mathrm{sat} - p_\mathrm{room}) M/(R T),\quad 1/k = 1/k_a + H/D",
                )
                .numbers(format!(
                    "k {}, F {}, γ {}, x {}",
                    show(Velocity::from_si(line.k_m_s)),
                    digits(line.stefan_factor, 3),
                    digits(line.gamma, 3),
                    digits(line.mole_fraction, 3),
                ))
                .result(show(MassFlux::from_si(line.flux_kg_m2_s)))
                .source("STEFAN_TUBE"),
            );
        }
        w
    }
}

impl Followed {
    /// First recorded time at which something holds.
    fn times_until(&self, holds: impl Fn(&[f64]) -> bool) -> Option<f64> {
        let times = self.trace.times_s.iter().enumerate();
        times.map(|(i, t)| (*t, self.amounts(i))).find(|(_, n)| holds(n)).map(|(t, _)| t)
    }
}
