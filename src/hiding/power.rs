//! The hiding power of one paint, with how sure it is.

use super::gloss::Gloss;
use super::ground::{Criterion, Ground};
use super::optics::{Optics, clipped};
use super::typical::{self, ColourClass};
use crate::answer::Answer;
use crate::error::{Result, out_of_range};
use crate::estimate::{Estimate, Input, ModelError, Scale, propagate};
use crate::quantity::{Length, OpticalCoefficient, Quantity, Ratio, Reflectance, digits, show};
use crate::warning::Warning;
use crate::working::{Step, Working};
use serde::{Deserialize, Serialize};

/// Standard uncertainty of a thickness from two-flux optics, judgement: real films crowd their pigment, mirror at
/// the surface and are not even.
pub(super) const MODEL_STD: f64 = 0.10;
const MODEL: &str = "two-flux optics and uneven film";

/// Scattering coefficient and reflectivity of a paint's dry film, with their spread.
///
/// ```
/// use mistcoat::hiding::{Criterion, Ground, HidingPower};
/// let cream = HidingPower::typical("cream")?;
/// let dry = cream.thickness_to_hide(Ground::Card, Criterion::STANDARD)?;
/// println!("{dry}"); // best value and range, micrometres of dry film
/// println!("{}", dry.working);
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HidingPower {
    pub(super) name: String,
    pub(super) scattering: Estimate<OpticalCoefficient>,
    pub(super) reflectivity: Estimate<Ratio>,
    pub(super) gloss: Option<Gloss>,
    pub(super) class: Option<String>,
    pub(super) source: String,
}

impl HidingPower {
    /// From known coefficients: measured, or of a data sheet. `source` is a source key or a citation in full.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] unless the scattering coefficient is above zero and the reflectivity between
    /// 0.01 % and 100 %.
    pub fn new(
        name: &str,
        scattering: Estimate<OpticalCoefficient>,
        reflectivity: Estimate<Ratio>,
        source: &str,
    ) -> Result<Self> {
        Optics::from_reflectivity(Reflectance::try_from(reflectivity.best)?, scattering.best)?;
        let (name, source) = (name.to_owned(), source.to_owned());
        Ok(Self { name, scattering, reflectivity, gloss: None, class: None, source })
    }

    /// A paint known by its colour class only. Wide; a card narrows it: [`HidingPower::from_card_passes`].
    ///
    /// # Errors
    /// [`crate::error::UnknownName`] with near names.
    pub fn typical(class: &str) -> Result<Self> {
        let class = ColourClass::find(class)?;
        Ok(Self {
            name: class.name.clone(),
            scattering: class.scattering.clone(),
            reflectivity: class.reflectivity.clone(),
            gloss: None,
            class: Some(class.name.clone()),
            source: class.source.clone(),
        })
    }

    /// The same paint under another name.
    #[must_use]
    pub fn named(mut self, name: &str) -> Self {
        name.clone_into(&mut self.name);
        self
    }

    /// The same paint read through a glossy surface: contrasts are those a meter shows.
    #[must_use]
    pub fn with_gloss(mut self, gloss: Gloss) -> Self {
        self.gloss = Some(gloss);
        self
    }

    /// Name of the paint.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Scattering coefficient of the dry film.
    pub fn scattering(&self) -> &Estimate<OpticalCoefficient> {
        &self.scattering
    }

    /// Reflectance of a film that hides, without its surface.
    pub fn reflectivity(&self) -> &Estimate<Ratio> {
        &self.reflectivity
    }

    /// The surface, if it is taken into account.
    pub fn gloss(&self) -> Option<&Gloss> {
        self.gloss.as_ref()
    }

    /// The colour class the values were taken from, if any.
    pub fn class(&self) -> Option<&str> {
        self.class.as_deref()
    }

    /// Source key or citation of the values.
    pub fn source(&self) -> &str {
        &self.source
    }

    /// The best values as exact optics.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] when a record from a file holds impossible values.
    pub fn optics(&self) -> Result<Optics> {
        Optics::from_reflectivity(Reflectance::try_from(self.reflectivity.best)?, self.scattering.best)
    }

    /// ln S and R∞ with their spread.
    pub(super) fn inputs(&self) -> Vec<Input> {
        vec![self.scattering.as_log_input("scattering"), self.reflectivity.as_input("reflectivity")]
    }

    pub(super) fn model_error() -> ModelError {
        ModelError::new(MODEL, MODEL_STD)
    }

    /// Reflectance as a meter reads it, of this dry film over a ground.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a negative thickness or an impossible ground.
    pub fn reflectance(&self, dry: &Estimate<Length>, ground: Reflectance) -> Result<Answer<Ratio>> {
        let ground = self.gloss.map_or(Ok(ground), |g| g.internal(ground))?;
        let estimate = self.share(dry, |optics, x| {
            let inside = optics.reflectance(x, ground)?;
            Ok(self.gloss.map_or(inside, |g| g.measured(inside)).get())
        })?;
        let o = self.optics()?;
        let mut w = self.working("Reflectance of a film over a ground")?;
        w.push(
            Step::new(
                "layer over a ground",
                "R = [R_g + (1 − a R_g) T]/[1 + (a − R_g) T], T = tanh(b S X)/b, a = 1 + K/S",
                r"R = \frac{R_g + (1 - a R_g) T}{1 + (a - R_g) T},\quad T = \tanh(b S X)/b",
            )
            .numbers(format!(
                "S X = {}, R_g = {ground}, a = {}",
                digits(o.scattering().si() * dry.best.si(), 3),
                digits(1.0 + o.absorption_over_scattering(), 4)
            ))
            .result(show(estimate.best))
            .source("Kubelka-1948"),
        );
        Ok(Answer::new(estimate, w).with_warnings(self.warnings()))
    }

    /// Contrast of this dry film over a ground: the darker place over the lighter one, 1 when nothing shows.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a negative thickness or an impossible ground.
    pub fn contrast_ratio(&self, dry: &Estimate<Length>, ground: Ground) -> Result<Answer<Ratio>> {
        let gloss = self.gloss.as_ref();
        let estimate = self.share(dry, |optics, x| Ok(ground.contrast(optics, x, gloss)?.get()))?;
        let mut w = self.working("Contrast ratio")?;
        w.push(
            Step::new("contrast ratio", "C = R_dark/R_light", r"C = R_\text{dark}/R_\text{light}")
                .numbers(format!("dry film {}", show(dry.best)))
                .result(show(estimate.best))
                .source("ASTM-D2805"),
        );
        Ok(Answer::new(estimate, w).with_warnings(self.warnings()))
    }

    /// Dry film at which the ground no longer shows. Zero over an undercoat that already looks the same.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for an impossible ground.
    pub fn thickness_to_hide(&self, ground: Ground, criterion: Criterion) -> Result<Answer<Length>> {
        let best = ground.thickness(&self.optics()?, criterion, self.gloss.as_ref())?;
        let estimate = if best.si() > 0.0 {
            propagate(&self.inputs(), &[Self::model_error()], Scale::Log, |x| {
                Ok(self.needed(x, ground, criterion)?.si())
            })?
        } else {
            Estimate::exact(best)
        };
        let mut w = self.working("Dry film that hides")?;
        w.push(self.step_thickness(ground, criterion)?);
        Ok(Answer::new(estimate, w).with_warnings(self.warnings()))
    }

    /// The thickness for moved inputs `[ln S, R∞, ..]`.
    pub(super) fn needed(&self, x: &[f64], ground: Ground, criterion: Criterion) -> Result<Length> {
        ground.thickness(&moved(x)?, criterion, self.gloss.as_ref())
    }

    pub(super) fn step_thickness(&self, ground: Ground, criterion: Criterion) -> Result<Step> {
        let optics = self.optics()?;
        let x = ground.thickness(&optics, criterion, self.gloss.as_ref())?;
        let (formula, source) = match ground {
            Ground::Card => ("R(X; 0)/R(X; 0.80) = C", "ASTM-D2805"),
            Ground::Patchy { .. } => ("R(X; darkest)/R(X; lightest) = C", "Kubelka-1948"),
            Ground::Undercoat(_) => ("R(X; undercoat) and R∞ within C of each other", "Kubelka-1948"),
        };
        Ok(Step::new("thickness that hides", formula, r"\text{solve } C(X) = C \text{ for } X")
            .numbers(format!(
                "C = {}, S X = {}",
                digits(criterion.get(), 3),
                digits(x.si() * optics.scattering().si(), 3)
            ))
            .result(show(x))
            .source(source))
    }

    pub(super) fn working(&self, title: &str) -> Result<Working> {
        let mut w = Working::new(format!("{title}: {}", self.name));
        let q = self.optics()?.absorption_over_scattering();
        w.push(
            Step::new("scattering coefficient", "S", "S")
                .result(self.scattering.to_string())
                .source(self.source.clone()),
        );
        w.push(
            Step::new("absorption", "K/S = (1 − R∞)²/(2 R∞)", r"K/S = (1 - R_\infty)^2/(2 R_\infty)")
                .numbers(format!("R∞ = {}", show(self.reflectivity.best)))
                .result(digits(q, 3))
                .source("Kubelka-1948"),
        );
        Ok(w)
    }

    /// What to mind whenever this paint is to hide.
    pub fn warnings(&self) -> Vec<Warning> {
        let Some(class) = self.class.as_deref().and_then(|c| ColourClass::find(c).ok()) else {
            return Vec::new();
        };
        let mut out = Vec::new();
        if self.source == typical::SOURCE {
            out.push(Warning::new(
                "typical-hiding",
                format!(
                    "hiding of {} is that of its colour class, a judgement good to a factor 2 either way: count the \
                     passes that hide a black and white card, and fit",
                    self.name
                ),
            ));
        }
        if let Some(advice) = &class.hides_poorly {
            out.push(Warning::new("hides-poorly", format!("{} hides poorly: {advice}", self.name)));
        }
        out
    }

    fn share(
        &self,
        dry: &Estimate<Length>,
        read: impl Fn(&Optics, Length) -> Result<f64>,
    ) -> Result<Estimate<Ratio>> {
        let mut inputs = self.inputs();
        inputs.push(dry.as_input("dry film"));
        let at = |x: &[f64]| read(&moved(x)?, Length::from_si(x[2]));
        let mut e: Estimate<Ratio> = propagate(&inputs, &[], Scale::Linear, at)?;
        (e.low, e.high) = (Ratio::from_si(e.low.si().max(0.0)), Ratio::from_si(e.high.si().min(1.0)));
        Ok(e)
    }
}

/// Optics at moved inputs `[ln S, R∞, ..]`.
fn moved(x: &[f64]) -> Result<Optics> {
    let [ln_s, r, ..] = *x else {
        return Err(out_of_range(
            "inputs",
            "too few",
            "scattering and reflectivity",
            "report this as a defect",
        ));
    };
    // A spread may reach past full white; the whitest film is meant.
    Optics::from_reflectivity(clipped(r), OpticalCoefficient::from_si(ln_s.exp()))
}
