//! I timed my own paint, neat and thinned: make the library answer for *this* bottle.
//!
//! Each reading is a paint fraction, a temperature and either a viscosity or a cup time. Cup times become
//! dynamic viscosities through the cup's equation and the density of that mix; readings at several temperatures
//! are carried to one by the paint's temperature rule (fitted by Andrade's law when the stock itself was read at
//! two temperatures); then the dilution law is fitted with the family's habit as prior. When the stock was not
//! read, its earlier value enters as one more reading with its own, usually wide, interval.

use super::fit::DilutionReading;
use super::law::{DilutionLaw, check_fraction, share};
use super::mix::mix_density;
use super::prior::ShapePrior;
use super::stock::Paint;
use super::temperature::ViscosityTemperature;
use crate::blend::Blend;
use crate::cup::FlowCup;
use crate::error::{Result, out_of_range};
use crate::estimate::{Contributor, Estimate};
use crate::quantity::{DynamicViscosity, KinematicViscosity, Quantity, Ratio, Temperature, Time, show};
use crate::warning::Warning;

/// A cup time within this factor of the thinner's own time says nothing about the paint.
const TOO_NEAR_THINNER: f64 = 1.2;
/// Rounds of carrying readings to one temperature; each shrinks the change by about ten.
const ROUNDS: usize = 25;

/// What was read.
#[derive(Debug, Clone, PartialEq)]
pub enum Measured {
    /// A dynamic viscosity, from a viscometer.
    Viscosity(Estimate<DynamicViscosity>),
    /// A kinematic viscosity.
    KinematicViscosity(Estimate<KinematicViscosity>),
    /// An efflux time in a flow cup.
    CupTime {
        /// The cup.
        cup: Box<FlowCup>,
        /// The time; without an interval the cup's repeatability is assumed.
        time: Estimate<Time>,
    },
}

/// One reading of a paint, neat or thinned.
#[derive(Debug, Clone, PartialEq)]
pub struct PaintReading {
    /// Volume of stock paint per volume of mix, above 0 up to 1.
    pub paint_fraction: Ratio,
    /// Temperature of the liquid.
    pub temperature: Temperature,
    /// What was read.
    pub measured: Measured,
}

/// A calibrated paint and what to mind about its readings.
#[derive(Debug, Clone, PartialEq)]
pub struct Calibrated {
    /// The paint with its own viscosity and shape.
    pub paint: Paint,
    /// The law that was fitted, at the paint's new [`Paint::stock_temperature`].
    pub law: DilutionLaw<DynamicViscosity>,
    /// What to mind.
    pub warnings: Vec<Warning>,
}

struct Dynamic {
    x: f64,
    t: Temperature,
    eta: Estimate<DynamicViscosity>,
}

impl Paint {
    /// This paint with viscosity, temperature rule and dilution shape from readings.
    ///
    /// `thinner` is what the thinned readings were thinned with; for readings of the stock alone any suitable
    /// thinner does.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for no reading, a paint fraction outside (0, 1], a temperature outside 0 to
    /// 50 °C, a time the cup cannot give, or readings that fit no dilution law (see [`DilutionLaw::fit`]).
    pub fn calibrated(&self, thinner: &Blend, readings: &[PaintReading]) -> Result<Calibrated> {
        if readings.is_empty() {
            return Err(out_of_range(
                "number of readings",
                "0",
                "at least 1",
                "time the stock paint once, better also a mix of 55 % to 85 % paint",
            ));
        }
        let mut warnings = Vec::new();
        let mut rows = Vec::with_capacity(readings.len());
        for reading in readings {
            rows.push(self.dynamic(thinner, reading, &mut warnings)?);
        }
        let stock: Vec<_> = rows.iter().filter(|r| r.x >= 1.0).map(|r| (r.t, r.eta.clone())).collect();
        let rule = ViscosityTemperature::fit(&stock)?.unwrap_or_else(|| self.temperature_rule.clone());
        let reference = stock.first().map_or(self.stock_temperature, |(t, _)| *t);
        if stock.is_empty() {
            rows.push(Dynamic { x: 1.0, t: self.stock_temperature, eta: self.stock_viscosity.clone() });
        }
        let law = self.fit_at(thinner, &rows, &rule, reference)?;
        warnings.extend(law.warnings().iter().cloned());
        let mut paint = self.clone();
        paint.stock_viscosity = Estimate { contributors: stock_viscosity_cause(), ..law.paint_viscosity() };
        paint.stock_temperature = reference;
        paint.temperature_rule = rule;
        paint.typical.retain(|f| *f != "stock_viscosity");
        // Readings of the stock alone say nothing about its thinning.
        if readings.iter().any(|r| r.paint_fraction.si() < 1.0) {
            let shape = law.shape();
            paint.shape = ShapePrior::known(
                format!("readings of {}", self.name),
                law.b(),
                shape.std(),
                self.shape.law_scatter,
            );
        }
        paint.check()?;
        Ok(Calibrated { paint, law, warnings })
    }

    fn dynamic(
        &self,
        thinner: &Blend,
        reading: &PaintReading,
        warnings: &mut Vec<Warning>,
    ) -> Result<Dynamic> {
        let (x, t) = (reading.paint_fraction.si(), reading.temperature);
        check_fraction(x)?;
        super::temperature::check_temperature(t)?;
        let rho = mix_density(self, thinner, x, t)?.best.si();
        let from_kinematic = |nu: &Estimate<KinematicViscosity>| Estimate {
            best: DynamicViscosity::from_si(nu.best.si() * rho),
            low: DynamicViscosity::from_si(nu.low.si() * rho),
            high: DynamicViscosity::from_si(nu.high.si() * rho),
            coverage: nu.coverage,
            contributors: nu.contributors.clone(),
        };
        let eta = match &reading.measured {
            Measured::Viscosity(eta) => eta.clone(),
            Measured::KinematicViscosity(nu) => from_kinematic(nu),
            Measured::CupTime { cup, time } => {
                let answer = if time.low == time.high {
                    cup.kinematic_viscosity(time.best)?
                } else {
                    cup.kinematic_viscosity_from(time)?
                };
                warnings.extend(answer.warnings.iter().cloned());
                warnings.extend(near_thinner(thinner, cup, time.best, t)?);
                from_kinematic(&answer.estimate)
            }
        };
        Ok(Dynamic { x, t, eta })
    }

    /// Fits the law with every reading carried to the reference temperature along the law itself.
    fn fit_at(
        &self,
        thinner: &Blend,
        rows: &[Dynamic],
        rule: &ViscosityTemperature,
        reference: Temperature,
    ) -> Result<DilutionLaw<DynamicViscosity>> {
        let thinner_ref = thinner.viscosity(reference)?.estimate;
        let mut law: Option<DilutionLaw<DynamicViscosity>> = None;
        for _ in 0..ROUNDS {
            let mut readings = Vec::with_capacity(rows.len());
            for row in rows {
                let change = match (&law, row.t == reference) {
                    (_, true) => 0.0,
                    (law, false) => {
                        let (b, paint) = law.as_ref().map_or((0.0, row.eta.best), |l| {
                            (l.b(), DynamicViscosity::from_si(l.ln_paint.exp()))
                        });
                        let g = share(b, row.x);
                        // The rule is asked from the reference, where the paint's viscosity is known.
                        let (paint_change, _) = rule.ln_change(paint, reference, row.t)?;
                        let thinner_change =
                            (thinner.viscosity(row.t)?.best().si() / thinner_ref.best.si()).ln();
                        -(g * paint_change + (1.0 - g) * thinner_change)
                    }
                };
                let factor = change.exp();
                let scale = |v: DynamicViscosity| DynamicViscosity::from_si(v.si() * factor);
                readings.push(DilutionReading::new(
                    row.x,
                    Estimate {
                        best: scale(row.eta.best),
                        low: scale(row.eta.low),
                        high: scale(row.eta.high),
                        ..row.eta.clone()
                    },
                )?);
            }
            let next = DilutionLaw::fit(&readings, &thinner_ref, &self.shape)?;
            let settled = law.as_ref().is_some_and(|l| {
                (l.ln_paint - next.ln_paint).abs() < 1e-10 && (l.shape - next.shape).abs() < 1e-10
            });
            if settled || rows.iter().all(|r| r.t == reference) {
                return Ok(next);
            }
            law = Some(next);
        }
        law.ok_or_else(|| out_of_range("number of readings", "0", "at least 1", "read the stock paint"))
    }
}

/// A cup time so near the thinner's own that it says nothing about the paint.
pub(super) fn near_thinner(
    thinner: &Blend,
    cup: &FlowCup,
    time: Time,
    t: Temperature,
) -> Result<Option<Warning>> {
    let nu = KinematicViscosity::from_si(thinner.viscosity(t)?.best().si() / thinner.density(t)?.best().si());
    let own = cup.efflux_time(nu)?.best();
    Ok((time.si() < TOO_NEAR_THINNER * own.si()).then(|| {
        Warning::new(
            "cup-time-near-thinner",
            format!(
                "{} in {cup} is within 20 % of the {} the thinner alone would take; the cup cannot tell such mixes \
                 apart: use a cup with a finer outlet",
                show(time),
                show(own)
            ),
        )
    }))
}

/// Files keep one cause a value, so a calibrated viscosity carries one.
fn stock_viscosity_cause() -> Vec<Contributor> {
    vec![Contributor { what: "stock viscosity".to_owned(), share: 1.0 }]
}

impl PaintReading {
    /// A reading in a flow cup.
    pub fn cup_time(
        paint_fraction: f64,
        cup: &FlowCup,
        time: Estimate<Time>,
        temperature: Temperature,
    ) -> Self {
        Self {
            paint_fraction: Ratio::from_si(paint_fraction),
            temperature,
            measured: Measured::CupTime { cup: Box::new(cup.clone()), time },
        }
    }

    /// A reading of a viscometer.
    pub fn viscosity(
        paint_fraction: f64,
        viscosity: Estimate<DynamicViscosity>,
        temperature: Temperature,
    ) -> Self {
        Self {
            paint_fraction: Ratio::from_si(paint_fraction),
            temperature,
            measured: Measured::Viscosity(viscosity),
        }
    }
}
