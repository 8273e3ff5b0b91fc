//! How well does *this* bottle hide? Fitted from a black and white card.

use super::gloss::Gloss;
use super::ground::{Criterion, Ground};
use super::optics::{Optics, from_two_grounds};
use super::power::HidingPower;
use super::typical::ColourClass;
use crate::error::{Result, out_of_range};
use crate::estimate::{Estimate, Input, Scale, propagate};
use crate::quantity::{Length, Quantity, Ratio, Reflectance, positive};

/// Standard uncertainty of the contrast at which an eye calls the card hidden; judgement.
const EYE_STD: f64 = 0.005;
/// A count of passes stops somewhere within the last one.
const PASS_STD: f64 = 0.288_675_134_594_812_9; // 1/sqrt(12)
/// Nobody counts more.
const MOST_PASSES: u32 = 500;

/// Reflectances of one dry film over two grounds, and of the bare grounds.
///
/// ```
/// use mistcoat::hiding::CardReading;
/// use mistcoat::quantity::{parse, Ratio, Reflectance, Quantity};
/// use mistcoat::estimate::Estimate;
/// // A film of S = 0.10 1/µm and 90 % reflectivity, 30 µm dry.
/// let reading = CardReading {
///     over_black: Reflectance::new(0.7408)?, over_white: Reflectance::new(0.8566)?,
///     black: Reflectance::ZERO, white: Reflectance::new(0.80)?,
///     std: Ratio::from_si(0.003),
/// };
/// let paint = reading.fit("cream, trial card", &Estimate::exact(parse("30 µm")?), None)?;
/// assert!((paint.scattering().best.si() * 1e-6 - 0.10).abs() < 2e-3);
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CardReading {
    /// The film over the black ground.
    pub over_black: Reflectance,
    /// The film over the white ground.
    pub over_white: Reflectance,
    /// The bare black ground.
    pub black: Reflectance,
    /// The bare white ground.
    pub white: Reflectance,
    /// Standard uncertainty of each of the two readings of the film.
    pub std: Ratio,
}

impl CardReading {
    /// Fits scattering and reflectivity. With `gloss`, all four readings are first freed of the surface.
    ///
    /// The spread comes from both readings and from the thickness. Scattering and reflectivity share the
    /// readings' errors; that tie is left out, which makes later ranges a little wide.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] when the film hides already, when no film can give the readings, or for a
    /// thickness that is not above zero.
    pub fn fit(&self, name: &str, dry: &Estimate<Length>, gloss: Option<Gloss>) -> Result<HidingPower> {
        positive("dry film thickness", dry.best)?;
        let std = self.std.si();
        if !(0.0..0.5).contains(&std) {
            let remedy = "0.3 % to 1 % is usual for a small meter";
            return Err(out_of_range(
                "spread of the readings",
                crate::quantity::show(self.std),
                "0 % to 50 %",
                remedy,
            ));
        }
        let inside = |r: f64| {
            let r = Reflectance::new(r)?;
            gloss.map_or(Ok(r), |g| g.internal(r))
        };
        let grounds = [inside(self.black.get())?, inside(self.white.get())?];
        let optics = |x: &[f64]| -> Result<Optics> {
            from_two_grounds([inside(x[0])?, inside(x[1])?], grounds, Length::from_si(x[2].exp()))
        };
        let inputs = [
            Input::new("reading over black", self.over_black.get(), std),
            Input::new("reading over white", self.over_white.get(), std),
            dry.as_log_input("dry film of the card"),
        ];
        let scattering = propagate(&inputs, &[], Scale::Log, |x| Ok(optics(x)?.scattering().si()))?;
        let reflectivity: Estimate<Ratio> =
            propagate(&inputs, &[], Scale::Linear, |x| Ok(optics(x)?.reflectivity().get()))?;
        let fitted = HidingPower::new(name, scattering, reflectivity, "own-card")?;
        Ok(gloss.map_or(fitted.clone(), |g| fitted.with_gloss(g)))
    }
}

impl HidingPower {
    /// Fits scattering to the number of passes after which the black and the white of a card look alike.
    ///
    /// `reflectivity` is that of the finished colour, by a meter or from [`HidingPower::typical`]; its spread is
    /// carried on. `passes` is the first count at which nothing shows, so the truth lies within the last pass. What
    /// the eye calls hidden is taken as a contrast of 0.98 give or take 0.005; used for the same eye and the same
    /// criterion this error all but cancels.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a count outside 1 to 500 or a film per pass that is not above zero;
    /// [`crate::error::UnknownName`] for an unknown colour class.
    ///
    /// ```
    /// use mistcoat::{estimate::{Estimate, ModelError}, hiding::HidingPower, quantity::parse};
    /// let per_pass = Estimate::relative(parse("2 µm")?, &[ModelError::new("dry film per pass", 0.15)]);
    /// let green = HidingPower::from_card_passes("hull green", "deep green", None, 6, &per_pass)?;
    /// println!("{}", green.scattering());
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn from_card_passes(
        name: &str,
        class: &str,
        reflectivity: Option<&Estimate<Ratio>>,
        passes: u32,
        dry_per_pass: &Estimate<Length>,
    ) -> Result<Self> {
        if !(1..=MOST_PASSES).contains(&passes) {
            let remedy = "give the first count at which black and white look alike";
            return Err(out_of_range("passes on the card", passes.to_string(), "1 to 500", remedy));
        }
        positive("dry film per pass", dry_per_pass.best)?;
        let class = ColourClass::find(class)?;
        let r = reflectivity.unwrap_or(&class.reflectivity);
        let inputs = [
            Input::new("count of passes", f64::from(passes) - 0.5, PASS_STD),
            dry_per_pass.as_log_input("dry film per pass on the card"),
            r.as_input("reflectivity"),
            Input::new("what the eye calls hidden", Criterion::STANDARD.get(), EYE_STD),
        ];
        let scattering = propagate(&inputs, &[Self::model_error()], Scale::Log, |x| {
            let unit = crate::quantity::OpticalCoefficient::from_si(1.0);
            let film = Optics::from_reflectivity(super::optics::clipped(x[2]), unit)?;
            let power = Ground::Card.power(&film, Criterion::try_from(x[3])?, None)?;
            Ok(power / (x[0] * x[1].exp()))
        })?;
        let mut fitted = Self::new(name, scattering, r.clone(), "own-card")?;
        fitted.class = Some(class.name.clone());
        Ok(fitted)
    }
}
