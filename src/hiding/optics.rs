//! A layer over a ground: the two fluxes of Kubelka and Munk, in closed form.

use crate::error::{Result, out_of_range};
use crate::quantity::{Length, OpticalCoefficient, Quantity, Reflectance, not_negative, positive, show};

/// Below this the hyperbolic tangent equals its argument in every digit.
const SMALL: f64 = 1e-8;

/// Exact optics of a dry film: how much light each micrometre scatters back and how much it swallows.
///
/// ```
/// use mistcoat::hiding::Optics;
/// use mistcoat::quantity::{parse, Reflectance};
/// let white = Optics::from_reflectivity(Reflectance::new(0.90)?, parse("0.10 1/µm")?)?;
/// let over_black = white.reflectance(parse("30 µm")?, Reflectance::ZERO)?;
/// assert!((over_black.get() - 0.7408).abs() < 2e-4);
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Optics {
    /// S, per metre; above zero.
    scattering: f64,
    /// K/S; zero or above.
    ratio: f64,
}

impl Optics {
    /// From both coefficients.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] unless scattering is above zero and absorption zero or above.
    pub fn new(scattering: OpticalCoefficient, absorption: OpticalCoefficient) -> Result<Self> {
        let s = positive("scattering coefficient", scattering)?;
        Ok(Self { scattering: s, ratio: not_negative("absorption coefficient", absorption)? / s })
    }

    /// From the reflectance of a film so thick that nothing shows through, and the scattering coefficient.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a reflectivity of 0 %, which no scattering film has, or a scattering
    /// coefficient that is not above zero.
    pub fn from_reflectivity(reflectivity: Reflectance, scattering: OpticalCoefficient) -> Result<Self> {
        Ok(Self {
            scattering: positive("scattering coefficient", scattering)?,
            ratio: absorption_over_scattering(reflectivity)?,
        })
    }

    /// Scattering coefficient S.
    pub fn scattering(&self) -> OpticalCoefficient {
        OpticalCoefficient::from_si(self.scattering)
    }

    /// Absorption coefficient K.
    pub fn absorption(&self) -> OpticalCoefficient {
        OpticalCoefficient::from_si(self.scattering * self.ratio)
    }

    /// K/S.
    pub fn absorption_over_scattering(&self) -> f64 {
        self.ratio
    }

    /// Reflectance of a film that hides completely: `a − b`.
    pub fn reflectivity(&self) -> Reflectance {
        // 1/(a + b): the difference a - b of two near numbers loses digits for dark films.
        let (a, b) = self.a_b();
        clipped(1.0 / (a + b))
    }

    /// Reflectance of a film of this thickness over a ground; the ground's own at no thickness.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a negative thickness.
    pub fn reflectance(&self, thickness: Length, ground: Reflectance) -> Result<Reflectance> {
        Ok(self.over(self.scattering * not_negative("film thickness", thickness)?, ground))
    }

    /// Reflectance at a scattering power `sx` = S X.
    pub(crate) fn over(&self, sx: f64, ground: Reflectance) -> Reflectance {
        let (a, b) = self.a_b();
        let (rg, t) = (ground.get(), tanh_over(b, sx));
        clipped((rg + (1.0 - a * rg) * t) / (1.0 + (a - rg) * t))
    }

    pub(crate) fn thickness(&self, sx: f64) -> Length {
        Length::from_si(sx / self.scattering)
    }

    fn a_b(&self) -> (f64, f64) {
        // a^2 - 1 = (K/S)(2 + K/S), without cancellation for near-white films.
        (1.0 + self.ratio, (self.ratio * (2.0 + self.ratio)).sqrt())
    }

    /// What two films of one thickness give when their wet paints are mixed: `share` of `other` by volume of
    /// dry paint in this one. K and S of the parts add by their shares.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a share outside 0 to 1.
    ///
    /// ```
    /// use mistcoat::hiding::Optics;
    /// use mistcoat::quantity::{parse, Reflectance};
    /// let white = Optics::from_reflectivity(Reflectance::new(0.90)?, parse("0.1 1/µm")?)?;
    /// let black = Optics::from_reflectivity(Reflectance::new(0.04)?, parse("0.1 1/µm")?)?;
    /// // A thousandth of black takes three percent of the light of white.
    /// assert!((white.mixed_with(&black, 1e-3)?.reflectivity().get() - 0.832).abs() < 1e-3);
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn mixed_with(&self, other: &Self, share: f64) -> Result<Self> {
        if !(0.0..=1.0).contains(&share) {
            let remedy = "give the part of the dry paint that is the other colour, for example 0.001";
            return Err(out_of_range("share of the second colour", share.to_string(), "0 to 1", remedy));
        }
        let s = (1.0 - share) * self.scattering + share * other.scattering;
        let k = (1.0 - share) * self.scattering * self.ratio + share * other.scattering * other.ratio;
        Ok(Self { scattering: s, ratio: k / s })
    }
}

/// `K/S = (1 − R∞)²/(2 R∞)`.
///
/// # Errors
/// A [`crate::error::RangeError`] for a reflectivity of 0 %.
///
/// ```
/// use mistcoat::{hiding::absorption_over_scattering, quantity::Reflectance};
/// assert_eq!(absorption_over_scattering(Reflectance::new(0.5)?)?, 0.25);
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn absorption_over_scattering(reflectivity: Reflectance) -> Result<f64> {
    let r = reflectivity.get();
    if r < LEAST_REFLECTIVITY {
        let remedy = "even black paint gives back 3 to 6 %; measure a film that hides completely";
        return Err(out_of_range("reflectivity", reflectivity.to_string(), "0.01 % to 100 %", remedy));
    }
    Ok((1.0 - r).powi(2) / (2.0 * r))
}

/// No paint film is blacker.
const LEAST_REFLECTIVITY: f64 = 1e-4;

/// Scattering power `S X` of a film from its reflectance over black: `artanh[b R₀/(1 − a R₀)]/b`.
///
/// # Errors
/// A [`crate::error::RangeError`] when the film over black is as bright as the film that hides.
///
/// ```
/// use mistcoat::{hiding::scattering_power, quantity::Reflectance};
/// // S = 0.10 1/µm at 30 µm.
/// let sx = scattering_power(Reflectance::new(0.7408)?, Reflectance::new(0.90)?)?;
/// assert!((sx - 3.0).abs() < 2e-3);
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn scattering_power(over_black: Reflectance, reflectivity: Reflectance) -> Result<f64> {
    let q = absorption_over_scattering(reflectivity)?;
    let (a, b) = (1.0 + q, (q * (2.0 + q)).sqrt());
    let r0 = over_black.get();
    if r0 >= reflectivity.get() {
        return Err(out_of_range(
            "reflectance over black",
            over_black.to_string(),
            format!("below {reflectivity}, that of the film that hides completely"),
            "measure a thinner film",
        ));
    }
    Ok(artanh_over(b, r0 / (1.0 - a * r0)))
}

/// S and K of a film of known thickness from its reflectances over two grounds; any two that differ will do.
///
/// # Errors
/// A [`crate::error::RangeError`] when the grounds do not differ, the film hides both, or the readings cannot
/// come from one film.
pub fn from_two_grounds(
    film: [Reflectance; 2],
    ground: [Reflectance; 2],
    thickness: Length,
) -> Result<Optics> {
    let x = positive("dry film thickness", thickness)?;
    let ([r1, r2], [g1, g2]) = (film.map(Reflectance::get), ground.map(Reflectance::get));
    let shown = || format!("{} and {} over grounds of {} and {}", film[0], film[1], ground[0], ground[1]);
    let refused = |limit: &str, remedy: &str| Err(out_of_range("reflectances", shown(), limit, remedy));
    if (g1 - g2).abs() < LEAST_STEP {
        return refused(
            "grounds that differ by 5 % or more",
            "measure over the black and the white of a card",
        );
    }
    // b coth(b S X) (R - Rg) = 1 - a (R + Rg) + R Rg for both; their ratio is linear in a.
    let (d1, d2) = (r1 - g1, r2 - g2);
    let a = ((1.0 + r1 * g1) * d2 - (1.0 + r2 * g2) * d1) / ((r1 + g1) * d2 - (r2 + g2) * d1);
    let remedy = "check that both readings are of one film, in the order of their grounds, less the gloss";
    if !(1.0 - CONSISTENT..1e6).contains(&a) {
        return refused("readings that one film can give over both grounds", remedy);
    }
    let a = a.max(1.0);
    let ratio = a - 1.0;
    let b = (ratio * (2.0 + ratio)).sqrt();
    // The ground that the film changes most tells the thickness best.
    let (r, g) = if d1.abs() > d2.abs() { (r1, g1) } else { (r2, g2) };
    let tanh_b = (r - g) / (1.0 - a * (r + g) + r * g);
    let sx = artanh_over(b, tanh_b);
    if !(sx.is_finite() && sx > 0.0) {
        return refused(
            "a film that lets the ground show a little",
            "measure a thinner film, or one of fewer passes",
        );
    }
    Optics::new(OpticalCoefficient::from_si(sx / x), OpticalCoefficient::from_si(ratio * sx / x)).map_err(
        |_| out_of_range("dry film thickness", show(thickness), "that of a paint film", "check its unit"),
    )
}

/// Grounds nearer than this tell nothing about the film.
const LEAST_STEP: f64 = 0.05;
/// a may fall short of 1 by rounding of the readings: a film without absorption.
const CONSISTENT: f64 = 2e-3;

/// `tanh(b y)/b`, y itself without absorption.
fn tanh_over(b: f64, y: f64) -> f64 {
    if b * y < SMALL { y } else { (b * y).tanh() / b }
}

/// `artanh(b t)/b`, t itself without absorption; not finite where the film hides.
fn artanh_over(b: f64, t: f64) -> f64 {
    if (b * t).abs() < SMALL { t } else { (b * t).atanh() / b }
}

/// Rounding may put a reflectance past its bounds in the last digit.
pub(super) fn clipped(r: f64) -> Reflectance {
    Reflectance::new(r.clamp(0.0, 1.0)).unwrap_or(Reflectance::ZERO)
}
