//! From one colour to the next: how much may stay, how many portions, how much cleaner.

use super::dilution::{Split, best_split};
use super::gun::cautions;
use super::shade::{Shade, Tolerance};
use crate::answer::Answer;
use crate::error::{Result, out_of_range};
use crate::estimate::{Estimate, Input, K95, Scale, propagate};
use crate::quantity::{Quantity, Ratio, Volume, digits, positive, show};
use crate::warning::Warning;
use crate::working::{Step, Working};
use serde::{Deserialize, Serialize};

/// The share that may stay is good to a factor 3 either way; judgement (tinting strengths differ, eyes differ).
const TOLERATED_FACTOR: f64 = 3.0;
/// Least fraction a rinse is asked for; below it, film on the walls decides.
const LEAST_FRACTION: f64 = 1e-6;

/// The bench: what the gun keeps, how much of the next paint goes in, how small a portion still wets everything.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Bench {
    /// Liquid left in cup, passages and nozzle after pouring out.
    pub hold_up: Estimate<Volume>,
    /// Fill of the next colour. A larger one forgives more.
    #[serde(with = "crate::quantity::as_text")]
    pub fill: Volume,
    /// Smallest portion of cleaner that wets cup and passages.
    #[serde(with = "crate::quantity::as_text")]
    pub least_portion: Volume,
    /// How much of a difference may show.
    pub tolerance: Tolerance,
}

/// One change of colour.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Change {
    /// Colour that was in the gun.
    pub from: String,
    /// Colour that follows.
    pub to: String,
    /// Share of the old paint that may stand in the fill of the new one.
    #[serde(with = "crate::quantity::as_text")]
    pub tolerated: Ratio,
    /// Share of the old paint in the gun that the rinse may leave.
    #[serde(with = "crate::quantity::as_text")]
    pub fraction: Ratio,
    /// Portions of cleaner.
    pub split: Split,
    /// Cleaner in all, with its range and the working.
    pub cleaner: Answer<Volume>,
}

impl Bench {
    /// Whether the volumes can be those of a bench.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a volume that is not above zero, or a fill below the hold-up.
    pub fn check(&self) -> Result<()> {
        let h = positive("hold-up", self.hold_up.best)?;
        let fill = positive("fill of the next colour", self.fill)?;
        positive("least portion of cleaner", self.least_portion)?;
        if fill < h {
            return Err(out_of_range(
                "fill of the next colour",
                show(self.fill),
                format!("at least {}, the hold-up", show(self.hold_up.best)),
                "give the paint that goes into the cup, and the liquid that stays after pouring out",
            ));
        }
        Ok(())
    }

    /// Cleaner between two colours. At least one portion, however alike they are.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a volume that is not above zero, or a fill below the hold-up.
    ///
    /// ```
    /// use mistcoat::{quantity::parse, rinse::{Bench, Gun, Shade, Tolerance}};
    /// let bench = Bench {
    ///     hold_up: Gun::find("gravity airbrush")?.hold_up.clone(), fill: parse("2 mL")?,
    ///     least_portion: parse("1 mL")?, tolerance: Tolerance::Perceptible };
    /// let change = bench.change(&Shade::typical("red oxide")?, &Shade::typical("cream")?)?;
    /// assert!(change.split.portions >= 2);
    /// println!("{}", change.cleaner.working);
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn change(&self, from: &Shade, to: &Shade) -> Result<Change> {
        self.check()?;
        let tolerated = to.tolerates(from, self.tolerance)?;
        let fraction = self.fraction(self.hold_up.best.si(), tolerated.share.si());
        let split = best_split(self.hold_up.best, Ratio::from_si(fraction), self.least_portion)?;
        let inputs = self.inputs();
        let mut estimate: Estimate<Volume> = propagate(&inputs, &[], Scale::Log, |x| {
            Ok(self.cleaner(x[0].exp(), tolerated.share.si() * x[1].exp(), split.portions))
        })?;
        estimate.low = self.floored(estimate.low, split.portions);
        let mut w = Working::new(format!("Cleaner from {} to {}", from.name(), to.name()));
        w.push(
            Step::new(
                "what may stay in the fill",
                "K/S of the mix moves L* no more than the tolerance",
                r"|\Delta L^*| \le \Delta",
            )
            .numbers(format!(
                "L* {} to {}, tolerance {}",
                digits(from.lightness(), 3),
                digits(to.lightness(), 3),
                self.tolerance.difference()
            ))
            .result(show(tolerated.share))
            .source(if tolerated.hue_may_show { "rinse-judgement" } else { "Paravina-2015" }),
        );
        w.push(
            Step::new("what the rinse may leave", "f = c F/h", "f = c F/h")
                .numbers(format!(
                    "{} × {}/{}",
                    show(tolerated.share),
                    show(self.fill),
                    show(self.hold_up.best)
                ))
                .result(show(Ratio::from_si(fraction)))
                .source("well-mixed-rinse"),
        );
        w.push(
            Step::new(
                "equal portions",
                "V = n h (f^(−1/n) − 1), each no less than the least portion",
                r"V = n h (f^{-1/n} - 1)",
            )
            .numbers(format!("n = {}, each {}", split.portions, show(split.each)))
            .result(show(split.total))
            .source("well-mixed-rinse"),
        );
        let mut warnings = Vec::new();
        if tolerated.hue_may_show {
            warnings.push(Warning::new(
                "hue-may-show",
                format!(
                    "{} and {} are near in lightness, so hue decides: {} in the fill is allowed by judgement; spray a test \
                     on white card",
                    from.name(),
                    to.name(),
                    show(tolerated.share)
                ),
            ));
        }
        Ok(Change {
            from: from.name().to_owned(),
            to: to.name().to_owned(),
            tolerated: tolerated.share,
            fraction: Ratio::from_si(fraction),
            split,
            cleaner: Answer::new(estimate, w).with_warnings(warnings),
        })
    }

    /// The end of an interval, no lower than what so many least portions pour.
    pub(super) fn floored(&self, low: Volume, portions: u32) -> Volume {
        Volume::from_si(low.si().max(f64::from(portions) * self.least_portion.si() * (1.0 - 1e-12)))
    }

    /// ln of the hold-up and of the factor on what is tolerated.
    pub(super) fn inputs(&self) -> Vec<Input> {
        vec![
            self.hold_up.as_log_input("hold-up of the gun"),
            Input::new("what the eye tolerates", 0.0, TOLERATED_FACTOR.ln() / K95),
        ]
    }

    pub(super) fn fraction(&self, h: f64, share: f64) -> f64 {
        (share * self.fill.si() / h).clamp(LEAST_FRACTION, 1.0)
    }

    /// Cleaner at a moved hold-up and tolerance, in the same number of portions.
    pub(super) fn cleaner(&self, h: f64, share: f64, portions: u32) -> f64 {
        let n = f64::from(portions);
        let each = h * (self.fraction(h, share).powf(-1.0 / n) - 1.0);
        n * each.max(self.least_portion.si())
    }
}

/// What always goes with a rinse, as lines for a page.
pub(super) fn care() -> Result<Vec<String>> {
    Ok(cautions()?.iter().map(|c| c.text.clone()).collect())
}
