//! How thick must a coat be to level, and how thick may it be before it runs?
//!
//! The **window of the wet film**: the thinnest coat that levels and the thickest that does not run, at these settings. Both the
//! levelling exponent and the slide rise with thickness, so each has one answer; it is sought on the drying engine.

use super::coat::Film;
use super::flash_off::{MODEL_SPREAD, moved_by, uncertain_inputs};
use super::lay::{Limits, Ripple, needed};
use super::levelling::check_steepness;
use super::root::crossing;
use super::viscosity::{Moving, Nudge, Thickening};
use crate::answer::Answer;
use crate::error::Result;
use crate::estimate::{Input, ModelError, Scale, propagate};
use crate::quantity::{Length, Quantity, Ratio, show};
use crate::warning::Warning;
use crate::working::{Step, Working};
use serde::{Deserialize, Serialize};

/// Wet films looked at, m.
const THICKNESS_M: (f64, f64) = (1e-6, 5e-3);
/// When the logarithm of the thickness is found.
const FOUND: f64 = 1e-4;
/// Shares of the rise of ln η, and of a thickness for the evaporation model, one standard deviation each.
const RISE_SPREAD: f64 = 0.15;
/// Both limits go with about this power of thickness over time: part of the error of the model that reaches the thickness.
const MODEL_SHARE: f64 = 0.25;

/// Thinnest wet coat that levels, thickest that does not run.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FilmWindow {
    /// Thinnest that levels; `None` when the thinnest and the thickest film looked at do the same, see the warnings.
    pub thinnest: Option<Answer<Length>>,
    /// Thickest that does not run; `None` likewise, and on a level face.
    pub thickest: Option<Answer<Length>>,
    /// An empty window, or one without an end.
    pub warnings: Vec<Warning>,
}

impl FilmWindow {
    /// Whether no thickness both levels and holds.
    pub fn is_empty(&self) -> bool {
        match (&self.thinnest, &self.thickest) {
            (Some(thin), Some(thick)) => thin.best() > thick.best(),
            _ => self.warnings.iter().any(|w| matches!(w.code.as_str(), "never-levels" | "always-runs")),
        }
    }
}

impl core::fmt::Display for FilmWindow {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let words = |a: &Option<Answer<Length>>| a.as_ref().map_or("none".to_owned(), ToString::to_string);
        write!(f, "levels from {}, holds up to {}", words(&self.thinnest), words(&self.thickest))
    }
}

impl Film {
    /// The window of the wet film for this ripple, on a face of this steepness (sine of its angle to the horizontal).
    ///
    /// # Errors
    /// As [`super::Drying::lay`].
    ///
    /// ```
    /// use mistcoat::{air::Room, blend::{Basis, Blend}, dose::{Parts, Thinning}, paint::{Family, Paint}};
    /// use mistcoat::film::{Film, Ripple};
    /// use mistcoat::quantity::{parse, RelativeHumidity};
    /// let thinner = Blend::from_names(&[("n-butyl acetate", 1.0)], Basis::Volume, None)?;
    /// let mix = Paint::typical(Family::SolventLacquer, "hull green")?
    ///     .thin(&thinner, Thinning::from_parts(Parts { thinner: 1.0, paint: 1.0 })?)?;
    /// let room = Room::new(parse("21 °C")?, RelativeHumidity::new(0.5)?)?;
    /// let window = Film::of_mix(&mix, parse("25 µm")?, &room)?.window(&Ripple::usual()?, parse("100 %")?)?;
    /// assert!(window.thinnest.is_some() && window.thickest.is_some());
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn window(&self, ripple: &Ripple, steepness: Ratio) -> Result<FilmWindow> {
        check_steepness(steepness)?;
        let limits = Limits::usual()?;
        let tension = self.flow().map_or(0.0, |f| f.surface_tension().best.si());
        let levels = move |m: Moving| m.levelling * tension / needed(&limits);
        let slides = move |m: Moving| steepness.si() * m.sag_m / limits.sag.si();
        let mut warnings = Vec::new();
        let thinnest = match self.crossing(ripple, steepness.si(), true, &levels)? {
            Crossing::At(answer) => Some(answer),
            Crossing::Always => {
                warnings.push(Warning::new(
                    "always-levels",
                    "a film of 1 µm levels already: thinness is no limit here",
                ));
                None
            }
            Crossing::Never => {
                warnings.push(Warning::new(
                    "never-levels",
                    "no film up to 5 mm levels before it sets: thin the paint more, or use a slower thinner or a retarder",
                ));
                None
            }
        };
        let thickest = match self.crossing(ripple, steepness.si(), false, &slides)? {
            Crossing::At(answer) => Some(answer),
            Crossing::Always => {
                warnings.push(Warning::new(
                    "always-runs",
                    "a film of 1 µm runs already: thin the paint less, or use a faster thinner",
                ));
                None
            }
            Crossing::Never => {
                warnings.push(Warning::new("never-runs", "no film up to 5 mm runs on this face"));
                None
            }
        };
        if let (Some(thin), Some(thick)) = (&thinnest, &thickest)
            && thin.best() > thick.best()
        {
            warnings.push(Warning::new(
                "empty-window",
                format!(
                    "no wet film both levels and holds: it levels from {}, but runs from {} on; lay the part level while it sets, or \
                     build the coat in passes that each flash off",
                    show(thin.best()),
                    show(thick.best())
                ),
            ));
        }
        Ok(FilmWindow { thinnest, thickest, warnings })
    }

    fn crossing(
        &self,
        ripple: &Ripple,
        steepness: f64,
        levelling: bool,
        read: &dyn Fn(Moving) -> f64,
    ) -> Result<Crossing> {
        let mut inputs = uncertain_inputs(self);
        let of_drying = inputs.len();
        for input in inputs.iter_mut().filter(|i| i.what == "wet film thickness") {
            input.std = 0.0; // it is what is sought
        }
        inputs.push(Input::new("viscosity of the wet coat", 0.0, 1.0));
        inputs.push(Input::new("viscosity on the way to dry", 0.0, RISE_SPREAD));
        let wavelength = ripple.wavelength().as_log_input("wavelength of the ripple");
        inputs.push(Input { std: if levelling { wavelength.std } else { 0.0 }, ..wavelength });
        let ln_over = |x: &[f64], ln_h: f64| -> Result<f64> {
            let (drying, flow) = x.split_at(of_drying);
            let [viscosity_stds, rise, ln_wavelength] = *flow else { return Ok(0.0) };
            let moved = moved_by(drying);
            let film = self.changed(None, Some(Length::from_si(ln_h.exp())));
            let course = film.dry_moved(moved)?;
            let nudge = Nudge { viscosity_stds, rise, ..Nudge::default() };
            let mut thickening = Thickening::new(&film, &course, moved, nudge)?;
            thickening.on_face(steepness);
            let value = read(thickening.moving(ln_wavelength.exp(), [0.0, f64::INFINITY]));
            Ok(value.max(f64::MIN_POSITIVE).ln())
        };
        let best: Vec<f64> = inputs.iter().map(|i| i.best).collect();
        let (thin, thick) = (THICKNESS_M.0.ln(), THICKNESS_M.1.ln());
        if ln_over(&best, thin)? >= 0.0 {
            return Ok(Crossing::Always);
        }
        if ln_over(&best, thick)? < 0.0 {
            return Ok(Crossing::Never);
        }
        let model = [ModelError::new("evaporation model", MODEL_SHARE * MODEL_SPREAD)];
        let estimate = propagate(&inputs, &model, Scale::Log, |x| {
            Ok(crossing([thin, thick], FOUND, |h| ln_over(x, h))?.exp())
        })?;
        let (name, rule, source) = if levelling {
            ("thinnest wet film that levels", "exp(−∫ r dt) = limit", "RIPPLE_SEEN")
        } else {
            ("thickest wet film that does not run", "∫ ρ g h² sin α/(2 η) dt = limit", "SAG_SEEN")
        };
        let mut working = Working::new(name);
        working.push(Step::new(name, rule, "").result(estimate.to_string()).source(source));
        Ok(Crossing::At(Answer::new(estimate, working)))
    }
}

enum Crossing {
    At(Answer<Length>),
    /// At the thinnest already.
    Always,
    /// Not even at the thickest.
    Never,
}
