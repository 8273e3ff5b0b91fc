//! A standard cup stretched down to water by one reading of your own.

use super::MM2;
use super::calibrate::Reading;
use super::equation::Equation;
use super::standard::{FlowCup, Kind, Span};
use crate::error::{Result, out_of_range};
use crate::quantity::{Quantity, Time, digits, show};

/// The anchored curve is fitted to the standard from this time upwards: the low end of ISO 2431, and the one
/// that ASTM D1200 prefers. Below it the straight lines bend away from any cup.
const ANCHOR_FIT_FROM_S: f64 = 30.0;

impl FlowCup {
    /// Stretches a standard cup down to water: `ν = K t − B/t` through one reading of your own, as close as
    /// may be to the standard's equation over its time range.
    ///
    /// The straight lines of the ASTM cups fail below about 20 s; the water time of a Ford No. 4 cup, 9.9 s,
    /// would read 20.8 mm2/s. With that reading as anchor the new equation gives 1.0 mm2/s there and stays
    /// within 1.3 % of ASTM D1200 from 30 to 100 s (6 % at 20 s). The note of the new cup states the largest deviation.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] unless the reading lies below the cup's time range and above zero, or
    /// when no such curve exists.
    ///
    /// ```
    /// use mistcoat::cup::{FlowCup, Reading, reference::ReferenceLiquid};
    /// use mistcoat::quantity::{parse, to};
    /// let water = Reading::of(ReferenceLiquid::water(), parse("20 °C")?, parse("9.9 s")?)?;
    /// let cup = FlowCup::standard("ASTM D1200", "4")?.anchored(&water)?;
    /// let nu = cup.kinematic_viscosity(parse("18 s")?)?;
    /// assert!((to(nu.best(), "mm2/s")? - 46.6).abs() < 0.5);
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn anchored(&self, reading: &Reading) -> Result<FlowCup> {
        let (t_w, nu_w) = (reading.time.best.si(), reading.viscosity.best.si() / MM2);
        if !(t_w > 0.0 && t_w < self.times.low.si() && nu_w > 0.0 && nu_w.is_finite()) {
            return Err(out_of_range(
                "anchor of the cup",
                format!("{} at {}", show(reading.viscosity.best), show(reading.time.best)),
                format!("a liquid of known viscosity that runs out between 0 s and {}", show(self.times.low)),
                "time water in this cup",
            ));
        }
        // With B = t_w (K t_w − ν_w) the curve passes through the reading; K is fitted to relative errors.
        let steps = 70_u32;
        let high = self.times.high.si();
        let low = self.times.low.si().max(ANCHOR_FIT_FROM_S).min(0.5 * high);
        let grid = (0..=steps).map(|i| low + (high - low) * f64::from(i) / f64::from(steps));
        let (mut top, mut bottom) = (0.0, 0.0);
        for t in grid.clone() {
            let standard = self.equation.kinematic_viscosity_mm2_s(t);
            let (p, q) = (t - t_w * t_w / t, nu_w * t_w / t);
            top += p * (standard - q) / (standard * standard);
            bottom += p * p / (standard * standard);
        }
        let k = top / bottom;
        let b = t_w * (k * t_w - nu_w);
        let equation = Equation::Hyperbolic { a_mm2_s2: k, b_mm2: b };
        if equation.fault().is_some() || equation.zero_time_s() >= t_w {
            return Err(out_of_range(
                "anchor of the cup",
                format!("K = {} mm2/s2, B = {} mm2", digits(k, 3), digits(b, 3)),
                "a positive K and B",
                "the reading does not suit this cup: check the time and the viscosity",
            ));
        }
        let worst = grid
            .map(|t| {
                let standard = self.equation.kinematic_viscosity_mm2_s(t);
                (equation.kinematic_viscosity_mm2_s(t) / standard - 1.0).abs()
            })
            .fold(0.0, f64::max);
        Ok(FlowCup {
            standard: format!("{} (anchored)", self.standard),
            kind: Kind::Fit,
            equation,
            times: Span { low: reading.time.best, high: self.times.high },
            viscosities: Span { low: reading.viscosity.best, high: self.viscosities.high },
            source: "CUP_ANCHOR".to_owned(),
            note: format!(
                "Anchored on {} at {}; within {:.1} % of {} over {}.",
                show(reading.viscosity.best),
                show(reading.time.best),
                100.0 * worst,
                self.name(),
                Span { low: Time::from_si(low), high: self.times.high }
            ),
            ..self.clone()
        })
    }
}
