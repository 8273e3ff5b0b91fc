//! Time to viscosity and back, with the interval, the warnings and the working.

use super::MM2;
use super::equation::Equation;
use super::standard::FlowCup;
use super::suggest::advice;
use crate::answer::Answer;
use crate::error::{Result, out_of_range};
use crate::estimate::{Estimate, Input, ModelError, Scale, propagate};
use crate::quantity::{KinematicViscosity, Quantity, Time, positive, show};
use crate::warning::Warning;
use crate::working::{Step, Working};

impl FlowCup {
    /// Kinematic viscosity of a liquid that ran out in `time`.
    ///
    /// The interval takes one run at the method's repeatability and, for a standard cup, the spread between
    /// cups and laboratories (the published reproducibility); for a home-made cup the standard errors of its
    /// calibration. Valid at the cup's temperature, between its [`FlowCup::time_range`]; outside, the answer
    /// carries the warning `cup-time-below-range` or `cup-time-above-range` with cups that would serve.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] for a time at or below [`FlowCup::zero_time`], infinite or NaN.
    ///
    /// ```
    /// use mistcoat::{cup::FlowCup, quantity::{parse, to}};
    /// let nu = FlowCup::standard("ASTM D1200", "4")?.kinematic_viscosity(parse("36 s")?)?;
    /// // A reference-oil maker gives 120 mm2/s for 36 s; the equation is 1.1 % above it.
    /// assert!((to(nu.best(), "mm2/s")? - 121.3).abs() < 0.1);
    /// assert!(nu.working.to_text().contains("3.85 × (36 − 4.49)"));
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn kinematic_viscosity(&self, time: Time) -> Result<Answer<KinematicViscosity>> {
        let what = format!("one run ({} repeatability)", show(self.precision.repeatability));
        self.viscosity_from_input(Input::new(what, time.si(), time.si() * self.precision.run_std()))
    }

    /// The same from a timing that carries its own spread, such as the mean of repeat runs
    /// ([`FlowCup::time`]).
    ///
    /// # Errors
    /// As for [`FlowCup::kinematic_viscosity`].
    pub fn kinematic_viscosity_from(&self, timing: &Estimate<Time>) -> Result<Answer<KinematicViscosity>> {
        self.viscosity_from_input(timing.as_input("cup timing"))
    }

    fn viscosity_from_input(&self, timing: Input) -> Result<Answer<KinematicViscosity>> {
        let (equation, t) = (self.equation, timing.best);
        self.check_time(t)?;
        let nu = equation.kinematic_viscosity_mm2_s(t);
        let mut errors = Vec::new();
        let mut inputs = vec![timing];
        if let Some(calibration) = &self.calibration {
            errors.push(ModelError::new("calibration of the cup", calibration.viscosity_std_mm2_s(t) / nu));
        } else {
            let what =
                format!("cup and laboratory ({} reproducibility)", show(self.precision.reproducibility));
            inputs.push(Input::new(what, 1.0, self.precision.laboratory_std()));
        }
        let estimate = propagate(&inputs, &errors, Scale::Log, |x| {
            let moved = x[0] * x.get(1).copied().unwrap_or(1.0);
            self.check_time(moved)?;
            Ok(equation.kinematic_viscosity_mm2_s(moved) * MM2)
        })?;
        let (formula, latex) = equation.formula();
        let mut working =
            Working::new(format!("Kinematic viscosity from {} in {self}", show(Time::from_si(t))));
        working.push(
            Step::new(self.step_name(), formula, latex)
                .numbers(equation.numbers(t))
                .result(show(estimate.best))
                .source(self.source.clone()),
        );
        working.push(self.interval_step(&estimate));
        Ok(Answer::new(estimate, working).with_warnings(self.warnings(t, nu)))
    }

    /// Efflux time to expect of a liquid of known kinematic viscosity.
    ///
    /// The interval is the spread between cups and laboratories; warnings as for
    /// [`FlowCup::kinematic_viscosity`].
    ///
    /// # Errors
    /// [`crate::error::RangeError`] for a viscosity that is not above zero, infinite or NaN.
    ///
    /// ```
    /// use mistcoat::{cup::FlowCup, quantity::{parse, show}};
    /// let t = FlowCup::standard("ISO 2431", "4")?.efflux_time(parse("40 mm2/s")?)?;
    /// assert_eq!(show(t.best()), "33.5 s");
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn efflux_time(&self, viscosity: KinematicViscosity) -> Result<Answer<Time>> {
        self.efflux_time_from(&Estimate::exact(viscosity))
    }

    /// The same for a viscosity that carries its own spread, such as one predicted by a dilution law.
    ///
    /// # Errors
    /// As for [`FlowCup::efflux_time`].
    pub fn efflux_time_from(&self, viscosity: &Estimate<KinematicViscosity>) -> Result<Answer<Time>> {
        let equation = self.equation;
        let nu = positive("kinematic viscosity", viscosity.best)?;
        let t = equation.efflux_time_s(nu / MM2);
        let mut errors = vec![ModelError::new(
            format!("one run ({} repeatability)", show(self.precision.repeatability)),
            self.precision.run_std(),
        )];
        if let Some(calibration) = &self.calibration {
            // d ln t = d ln ν / sensitivity
            let std = calibration.viscosity_std_mm2_s(t) / (nu / MM2) / equation.sensitivity(t);
            errors.push(ModelError::new("calibration of the cup", std));
        } else {
            let what =
                format!("cup and laboratory ({} reproducibility)", show(self.precision.reproducibility));
            errors.push(ModelError::new(what, self.precision.laboratory_std()));
        }
        // In the logarithm: a viscosity predicted for an untimed paint is uncertain by a factor of two or three.
        let estimate = propagate(&[viscosity.as_log_input("viscosity")], &errors, Scale::Log, |ln_nu| {
            Ok(equation.efflux_time_s(ln_nu[0].exp() / MM2))
        })?;
        let (formula, latex) = equation.inverse_formula();
        let mut working = Working::new(format!("Efflux time of {} in {self}", show(viscosity.best)));
        working.push(
            Step::new(self.step_name(), formula, latex)
                .numbers(equation.inverse_numbers(nu / MM2))
                .result(show(estimate.best))
                .source(self.source.clone()),
        );
        working.push(self.interval_step(&estimate));
        Ok(Answer::new(estimate, working).with_warnings(self.warnings(t, nu / MM2)))
    }

    /// Refuses what no equation can turn into a viscosity.
    fn check_time(&self, t: f64) -> Result<()> {
        let zero = self.equation.zero_time_s();
        if t.is_finite() && t > zero {
            return Ok(());
        }
        let limit =
            format!("above {} (where {self} reads zero viscosity) and finite", show(self.zero_time()));
        // Half the least viscosity of this cup stands for "too thin for it".
        let thin = KinematicViscosity::from_si((self.viscosities.low.si() / 2.0).max(3.0 * MM2));
        let remedy = if t > 0.0 && t <= zero {
            format!("the liquid is too thin for this cup; {}", advice(thin, &self.standard))
        } else {
            format!("time the run again, {} for this cup", self.times)
        };
        Err(out_of_range("efflux time", show(Time::from_si(t)), limit, remedy))
    }

    fn warnings(&self, t: f64, nu_mm2_s: f64) -> Vec<Warning> {
        let mut out = Vec::new();
        let time = Time::from_si(t);
        // The last digit of a range must not tip a value that stands on its edge.
        let (low, high) = (self.times.low.si() * (1.0 - 1e-9), self.times.high.si() * (1.0 + 1e-9));
        if t < low || t > high {
            let (code, side) =
                if t < low { ("cup-time-below-range", "below") } else { ("cup-time-above-range", "above") };
            out.push(Warning::new(
                code,
                format!(
                    "{} is {side} the range of {self}, {}; the equation is stretched: {}",
                    show(time),
                    self.times,
                    advice(KinematicViscosity::from_si(nu_mm2_s * MM2), &self.standard)
                ),
            ));
        }
        if let Equation::TwoLines { low_slope_s2_mm2, low_zero_s, high_slope_s2_mm2, high_zero_s, join_s } =
            self.equation
        {
            let from = (join_s - high_zero_s) / high_slope_s2_mm2;
            let to = (join_s - low_zero_s) / low_slope_s2_mm2;
            if (from..=to).contains(&nu_mm2_s) {
                out.push(Warning::new(
                    "cup-branch-overlap",
                    format!(
                        "{} lies where the two lines of {self} overlap ({from:.1} to {to:.1} mm2/s around \
                         {join_s} s); the reading is uncertain by 2 %",
                        show(KinematicViscosity::from_si(nu_mm2_s * MM2))
                    ),
                ));
            }
        }
        out
    }

    fn step_name(&self) -> String {
        match self.temperature {
            Some(t) => format!("equation of {self} ({}, at {})", self.kind.words(), show(t)),
            None => format!("equation of {self} ({})", self.kind.words()),
        }
    }

    fn interval_step<Q: Quantity>(&self, estimate: &Estimate<Q>) -> Step {
        let causes: Vec<String> =
            estimate.contributors.iter().map(|c| format!("{} {:.0} %", c.what, 100.0 * c.share)).collect();
        Step::new("interval that holds it 95 times in 100", "u² = Σ u_i²", r"u^2 = \sum u_i^2")
            .numbers(causes.join(", "))
            .result(format!("{} to {}", show(estimate.low), show(estimate.high)))
            .source(self.precision.source.clone())
    }
}
