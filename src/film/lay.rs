//! Does the coat lie down: level before it sets, without running, without turning white? What fails first?
//!
//! The ripple that the drops leave falls to `exp(−∫ r dt)` of its height, with the rate of Orchard ([`super::levelling_rate`])
//! along the drying film: thickness, viscosity ([`Drying::viscosities`]) and temperature as they go. On a face the surface
//! slides by `∫ ρ g h² sin α/(2 η) dt`. Blush is in [`Drying::blush`]. The limits are those of `data/lay.toml`: common practice
//! and judgement.
//!
//! **Which ripple?** Short ones go flat in a blink; the eye sees those of 1 to 3 mm. The default is 2 mm. From drops
//! ([`Ripple::of_drops`]): ten drop diameters, since a drop spreads to two or three diameters and random drops heap over some
//! four footprints. The rate goes with the fourth power of the wavelength, which is by far the largest part of every interval
//! here: compare mixes, do not trust one number.

use super::blush::{Blush, within_zero_and_one};
use super::coat::{Film, Moved};
use super::course::Course;
use super::drying::Drying;
use super::flash_off::{MODEL_SPREAD, moved_by, uncertain_inputs};
use super::flow::Flow;
use super::levelling::check_steepness;
use super::viscosity::{LONG_WAVE_M, Moving, Nudge, Thickening};
use super::yielding::{hanging_m, held_ripple};
use crate::answer::Answer;
use crate::error::{Error, Result, bad_data, out_of_range};
use crate::estimate::{Estimate, Input, ModelError, Scale, propagate};
use crate::quantity::{Length, Number, Quantity, Ratio, digits, show};
use crate::warning::Warning;
use crate::working::{Step, Working};
use serde::{Deserialize, Serialize};
use std::cell::RefCell;
use std::sync::LazyLock;

const FILE: &str = "data/lay.toml";
/// Share of the rise of ln η, one standard deviation (source key `FILM_VISCOSITY`).
const RISE_SPREAD: f64 = 0.15;
/// A slide that nobody sees, m: what hangs by its yield stress has no logarithm.
const UNSEEN_M: f64 = 1e-5;
/// Height of a held ripple over the wet coat that is told.
const HELD_SEEN: f64 = 0.05;
/// Place of the yield stress among the moves of the flow.
const YIELD: usize = 4;
/// Wavelengths accepted, m.
const WAVELENGTH_M: (f64, f64) = (1e-6, 0.1);

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Figure {
    value: f64,
    unit: String,
    #[serde(default = "one")]
    spread: f64,
    #[serde(rename = "why")]
    _why: String,
    #[serde(rename = "source")]
    _source: String,
}

fn one() -> f64 {
    1.0
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Table {
    ripple_left: Figure,
    ripple_wavelength: Figure,
    drops_to_wavelength: Figure,
    sag: Figure,
}

static TABLE: LazyLock<Result<Table>> = LazyLock::new(|| {
    let remedy = "restore the file from the release";
    let table: Table = toml::from_str(include_str!("../../data/lay.toml"))
        .map_err(|e| bad_data(FILE, None, None, e.message(), remedy))?;
    let units = [
        (&table.ripple_left, "%"),
        (&table.ripple_wavelength, "mm"),
        (&table.drops_to_wavelength, "1"),
        (&table.sag, "mm"),
    ];
    for (v, unit) in units {
        if v.unit != unit || !(v.value > 0.0 && v.value.is_finite() && v.spread >= 1.0) {
            let problem = format!("{} {} where a positive number in {unit} belongs", v.value, v.unit);
            return Err(bad_data(FILE, None, None, problem, remedy));
        }
    }
    Ok(table)
});

fn table() -> Result<&'static Table> {
    TABLE.as_ref().map_err(Error::clone)
}

/// What counts as level and as a run: common practice and judgement, from `data/lay.toml`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// Share of the ripple that may be left.
    pub ripple_left: Ratio,
    /// Way that the surface may slide.
    pub sag: Length,
}

impl Limits {
    /// The usual limits: a fifth of the ripple, 1.6 mm.
    ///
    /// # Errors
    /// A [`crate::error::DataError`] when the embedded file is damaged.
    pub fn usual() -> Result<Self> {
        let t = table()?;
        Ok(Self {
            ripple_left: Ratio::from_si(t.ripple_left.value / 100.0),
            sag: Length::from_si(t.sag.value * 1e-3),
        })
    }
}

/// The ripple that is to go flat.
///
/// ```
/// use mistcoat::{Estimate, film::Ripple, quantity::{parse, to}};
/// let fine = Ripple::of_drops(&Estimate::exact(parse("30 µm")?))?;
/// assert!((to(fine.wavelength().best, "mm")? - 0.3).abs() < 1e-9);
/// assert!(Ripple::usual()?.wavelength().best > fine.wavelength().best);
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Ripple {
    wavelength: Estimate<Length>,
}

impl Ripple {
    /// The orange peel that the eye sees: 2 mm, within a factor 1.3 (one standard deviation).
    ///
    /// # Errors
    /// A [`crate::error::DataError`] when the embedded file is damaged.
    pub fn usual() -> Result<Self> {
        let v = &table()?.ripple_wavelength;
        let spread = [ModelError::new("wavelength of the ripple", v.spread.ln())];
        Ok(Self { wavelength: Estimate::relative(Length::from_si(v.value * 1e-3), &spread) })
    }

    /// A ripple of this wavelength, from hill to hill.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 1 µm to 100 mm.
    pub fn new(wavelength: &Estimate<Length>) -> Result<Self> {
        if !(WAVELENGTH_M.0..=WAVELENGTH_M.1).contains(&wavelength.best.si()) {
            return Err(out_of_range(
                "wavelength of the ripple",
                show(wavelength.best),
                "1 µm to 100 mm",
                "orange peel has 1 mm to 3 mm from hill to hill, drops of an airbrush leave a few tenths of one",
            ));
        }
        Ok(Self { wavelength: wavelength.clone() })
    }

    /// The ripple that drops of this diameter leave: ten diameters, within a factor 1.5 (judgement).
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for drops outside 0.1 µm to 10 mm.
    pub fn of_drops(diameter: &Estimate<Length>) -> Result<Self> {
        let rule = &table()?.drops_to_wavelength;
        let parts = [
            ModelError::new("drop size", diameter.relative_std()),
            ModelError::new("wavelength of the ripple", rule.spread.ln()),
        ];
        Self::new(&Estimate::relative(diameter.best * rule.value, &parts))
    }

    /// From hill to hill.
    pub fn wavelength(&self) -> &Estimate<Length> {
        &self.wavelength
    }
}

/// A limit that a coat may meet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Limit {
    /// The ripple stays: orange peel.
    Levelling,
    /// The coat slides: a run.
    Sag,
    /// Dew on the cold film: it turns white.
    Blush,
}

impl Limit {
    /// One word for tables.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Levelling => "levelling",
            Self::Sag => "sag",
            Self::Blush => "blush",
        }
    }
}

impl core::fmt::Display for Limit {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(match self {
            Self::Levelling => "levelling (orange peel)",
            Self::Sag => "sag (a run)",
            Self::Blush => "blush",
        })
    }
}

/// How a coat lies down.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Lay {
    /// The ripple looked at.
    pub ripple: Ripple,
    /// Share of its height that is left, 0 to 1.
    pub levelling: Answer<Ratio>,
    /// Way of the surface down the face.
    pub sag: Answer<Length>,
    /// Dew; none for a waterborne coat or air without a dew point.
    pub blush: Option<Blush>,
    /// Each limit with the factor by which the coat keeps from it: above 1 it holds, below 1 it fails. Nearest first.
    pub factors: Vec<(Limit, f64)>,
    /// What to mind.
    pub warnings: Vec<Warning>,
}

impl Lay {
    /// The limit that is hit first, with the factor by which the coat keeps from it. For levelling the factor is on the levelling
    /// exponent (twice the time in which it flows), for sag on the way, for blush on the humidity.
    pub fn first(&self) -> Option<(Limit, f64)> {
        self.factors.first().copied()
    }

    /// Whether every limit holds.
    pub fn lies_well(&self) -> bool {
        self.factors.iter().all(|(_, factor)| *factor >= 1.0)
    }
}

impl core::fmt::Display for Lay {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let left = &self.levelling.estimate;
        let [best, low, high] = [left.best, left.low, left.high].map(ripple_words);
        write!(f, "ripple left {best} ({low} to {high}), slides {}", self.sag)?;
        if let Some((limit, factor)) = self.first() {
            let how = if factor >= 1.0 { "nearest limit" } else { "fails by" };
            write!(f, "; {how}: {limit}, factor {}", digits(factor, 2))?;
        }
        Ok(())
    }
}

impl Drying {
    /// How the coat lies down: ripple left, way it slides on a face of this steepness (sine of its angle to the horizontal, 1
    /// upright), blush, and which limit is hit first.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a coat whose flow is not known ([`Film::with_flow`]), or a steepness outside 0 to 1.
    ///
    /// ```
    /// use mistcoat::{air::Room, blend::{Basis, Blend}, dose::{Parts, Thinning}, paint::{Family, Paint}};
    /// use mistcoat::film::{Film, Ripple};
    /// use mistcoat::quantity::{parse, RelativeHumidity};
    /// let thinner = Blend::from_names(&[("n-butyl acetate", 1.0)], Basis::Volume, None)?;
    /// let mix = Paint::typical(Family::SolventLacquer, "hull green")?
    ///     .thin(&thinner, Thinning::from_parts(Parts { thinner: 1.0, paint: 1.0 })?)?;
    /// let room = Room::new(parse("21 °C")?, RelativeHumidity::new(0.5)?)?;
    /// let lay = |wet: &str| Film::of_mix(&mix, parse(wet)?, &room)?.dry()?.lay(&Ripple::usual()?, parse("100 %")?);
    /// let (thin, thick) = (lay("15 µm")?, lay("60 µm")?);
    /// assert!(thick.levelling.best() < thin.levelling.best());
    /// assert!(thick.sag.best() > thin.sag.best());
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn lay(&self, ripple: &Ripple, steepness: Ratio) -> Result<Lay> {
        check_steepness(steepness)?;
        let flows = Flows::on_face(self.film(), steepness);
        let exponent = flows.exponent(ripple)?;
        let sag = flows.sag(ripple, steepness)?;
        let blush = match self.blush() {
            Ok(blush) => Some(blush),
            Err(Error::Range(_)) => None,
            Err(e) => return Err(e),
        };
        let limits = Limits::usual()?;
        let mut factors = vec![(Limit::Levelling, exponent.best.si() / needed(&limits))];
        if sag.best.si() > 0.0 {
            factors.push((Limit::Sag, limits.sag.si() / sag.best.si()));
        }
        if let Some(b) = &blush {
            let bears = b.limit.best().si() / b.humidity.si().max(f64::MIN_POSITIVE);
            factors.push((Limit::Blush, bears));
        }
        factors.sort_by(|a, b| a.1.total_cmp(&b.1));
        let levelling = self.levelling_answer(ripple, &exponent);
        let mut working = self.flow_working("Sag");
        working.push(
            Step::new(
                "way of the surface",
                "s = ∫ ρ g h² sin α/(2 η) dt",
                r"s = \int \frac{\rho g h^2 \sin\alpha}{2\eta}\,dt",
            )
            .numbers(format!("sin α = {}", digits(steepness.si(), 3)))
            .result(sag.to_string())
            .source("SAG_FLOW"),
        );
        working.steps.extend(self.held_step(steepness));
        let mut warnings = levelling.warnings.clone();
        warnings.extend(self.held_warning(ripple));
        if sag.best > limits.sag {
            warnings.push(Warning::new(
                "runs",
                format!(
                    "on this face the coat slides {} before it sets, more than the {} that common practice allows: lay it in \
                     thinner passes, use less or faster thinner, or turn the part level while it sets",
                    show(sag.best),
                    show(limits.sag)
                ),
            ));
        }
        warnings.extend(blush.iter().flat_map(|b| b.limit.warnings.iter().cloned()));
        Ok(Lay {
            ripple: ripple.clone(),
            levelling,
            sag: Answer::new(sag, working),
            blush,
            factors,
            warnings,
        })
    }

    /// Whether the coat hangs by its yield stress, or slides with an outer layer as a plug.
    fn held_step(&self, steepness: Ratio) -> Option<Step> {
        let film = self.film();
        let flow = film.flow()?;
        let stress = flow.yield_stress().filter(|_| steepness.si() > 0.0)?;
        let hangs = hanging_m(stress.best.si(), flow.density().best.si(), steepness.si());
        let verdict = if hangs >= film.wet_thickness().si() {
            "the coat hangs and does not slide"
        } else {
            "it slides under a plug of that thickness"
        };
        Some(
            Step::new(
                "yield stress decides",
                "h_y = τ_y/(ρ g sin α); s = ∫ ρ g (h − h_y)² sin α/(2 η) dt",
                r"h_y = \frac{\tau_y}{\rho g \sin\alpha}",
            )
            .numbers(format!("τ_y {stress}, wet coat {}", show(film.wet_thickness())))
            .result(format!("h_y {}: {verdict}", show(Length::from_si(hangs))))
            .source("BINGHAM_FILM"),
        )
    }

    /// Levelling is worked out without the yield stress: what of a ripple it would hold.
    fn held_warning(&self, ripple: &Ripple) -> Option<Warning> {
        let film = self.film();
        let flow = film.flow()?;
        let stress = flow.yield_stress()?;
        let tension = flow.surface_tension().best;
        let held = held_ripple(stress.best, tension, ripple.wavelength.best, film.wet_thickness());
        (held.si() > HELD_SEEN * film.wet_thickness().si()).then(|| {
            Warning::new(
                "yield-holds-ripple",
                format!(
                    "levelling is worked out without the yield stress of {}, which holds a ripple of {} up to {} high once the paint \
                     has stiffened: what is to level must do so before",
                    show(stress.best),
                    show(ripple.wavelength.best),
                    show(held)
                ),
            )
        })
    }

    /// Share of the ripple left, alone: what [`Drying::lay`] has without sag and blush, in a third of the time.
    ///
    /// # Errors
    /// As [`Drying::lay`].
    pub fn levelling(&self, ripple: &Ripple) -> Result<Answer<Ratio>> {
        let exponent = Flows::new(self.film()).exponent(ripple)?;
        Ok(self.levelling_answer(ripple, &exponent))
    }

    fn levelling_answer(&self, ripple: &Ripple, exponent: &Estimate<Number>) -> Answer<Ratio> {
        let left = |e: Number| Ratio::from_si((-e.si()).exp());
        let estimate = within_zero_and_one(&Estimate {
            best: left(exponent.best),
            low: left(exponent.high),
            high: left(exponent.low),
            coverage: exponent.coverage,
            contributors: exponent.contributors.clone(),
        });
        let mut working = self.flow_working("Levelling");
        working.push(
            Step::new(
                "share of the ripple left",
                "a/a₀ = exp(−∫ 16 π⁴ γ h³/(3 λ⁴ η) dt), with the depth of Orchard",
                r"a/a_0 = \exp\left(-\int \frac{16\pi^4\gamma h^3}{3\lambda^4\eta}\,dt\right)",
            )
            .numbers(format!("λ {}, exponent {exponent}", ripple.wavelength))
            .result({
                let [best, low, high] = [estimate.best, estimate.low, estimate.high].map(ripple_words);
                format!("{best} ({low} to {high})")
            })
            .source("ORCHARD"),
        );
        let limit = Limits::usual().map_or(1.0, |l| l.ripple_left.si());
        let peel = (estimate.best.si() > limit).then(|| {
            Warning::new(
                "orange-peel",
                format!(
                    "the coat sets with {} of a ripple of {} left, more than the {} that counts as level: lay it wetter, thin it more, or \
                     use a slower thinner or a retarder",
                    show(estimate.best),
                    show(ripple.wavelength.best),
                    show(Ratio::from_si(limit))
                ),
            )
        });
        Answer::new(estimate, working).with_warnings(peel)
    }

    /// The numbers that levelling and sag start from.
    fn flow_working(&self, what: &str) -> Working {
        let film = self.film();
        let mut w =
            Working::new(format!("{what} of {} wet on {}", show(film.wet_thickness()), film.substrate()));
        if let Some(flow) = film.flow() {
            w.push(
                Step::new("wet coat", "η, γ, ρ", r"\eta, \gamma, \rho")
                    .numbers(format!("γ {}, ρ {}", flow.surface_tension(), flow.density()))
                    .result(flow.viscosity().to_string())
                    .source("dilution-law"),
            );
        }
        if let Ok(course) = self.viscosities()
            && let (Some(first), Some(last)) = (course.first(), course.last())
        {
            w.push(
                Step::new("thickens as it dries", "ln η over solids", r"\ln\eta(\varphi)")
                    .numbers(format!("from {} to {}", show(*first), show(*last)))
                    .result(format!("{} points", course.len()))
                    .source("FILM_VISCOSITY"),
            );
        }
        w
    }
}

/// Share of a ripple in words; less than a tenth of a percent is told as that.
pub(crate) fn ripple_words(left: Ratio) -> String {
    let percent = left.si() * 100.0;
    if percent < 0.1 { "<0.1 %".to_owned() } else { format!("{} %", digits(percent, 2)) }
}

/// Exponent that brings a ripple down to its limit.
pub(super) fn needed(limits: &Limits) -> f64 {
    -limits.ripple_left.si().ln()
}

/// The moves of a film under what is not known; a drying that was run is not run again.
pub(super) struct Flows<'a> {
    film: &'a Film,
    run: RefCell<Vec<(Moved, Course)>>,
    steepness: f64,
}

impl<'a> Flows<'a> {
    pub(super) fn new(film: &'a Film) -> Self {
        Self { film, run: RefCell::new(Vec::new()), steepness: 1.0 }
    }

    /// On a face of this steepness.
    fn on_face(film: &'a Film, steepness: Ratio) -> Self {
        Self { steepness: steepness.si(), ..Self::new(film) }
    }

    fn moving(&self, moved: Moved, nudge: Nudge, wavelength_m: f64) -> Result<Moving> {
        let known = self.run.borrow().iter().position(|(m, _)| *m == moved);
        let index = if let Some(index) = known {
            index
        } else {
            let course = self.film.dry_moved(moved)?;
            let mut run = self.run.borrow_mut();
            run.push((moved, course));
            run.len() - 1
        };
        let run = self.run.borrow();
        let Some((_, course)) = run.get(index) else { return Ok(Moving::default()) };
        let mut thickening = Thickening::new(self.film, course, moved, nudge)?;
        thickening.on_face(self.steepness);
        Ok(thickening.moving(wavelength_m, [0.0, f64::INFINITY]))
    }

    fn inputs(&self) -> (usize, Vec<Input>) {
        let mut inputs = uncertain_inputs(self.film);
        let of_drying = inputs.len();
        inputs.push(Input::new("viscosity of the wet coat", 0.0, 1.0));
        inputs.push(Input::new("viscosity on the way to dry", 0.0, RISE_SPREAD));
        (of_drying, inputs)
    }

    /// Levelling exponent.
    fn exponent(&self, ripple: &Ripple) -> Result<Estimate<Number>> {
        let (of_drying, mut inputs) = self.inputs();
        inputs.push(ripple.wavelength.as_log_input("wavelength of the ripple"));
        let tension = self.film.flow().map(|f| f.surface_tension().as_log_input("surface tension"));
        inputs.extend(tension);
        self.propagated(of_drying, &inputs, |moving, rest| {
            moving.levelling * rest.get(1).copied().unwrap_or(0.0).exp()
        })
    }

    /// Way on a face.
    fn sag(&self, ripple: &Ripple, steepness: Ratio) -> Result<Estimate<Length>> {
        if steepness.si() <= 0.0 {
            return Ok(Estimate::exact(Length::from_si(0.0)));
        }
        let (of_drying, mut inputs) = self.inputs();
        inputs.push(Input::new("wavelength of the ripple", ripple.wavelength.best.si().ln(), 0.0));
        let density = self.film.flow().map(|f| f.density().relative_std());
        inputs.push(Input::new("density of the wet coat", 0.0, density.unwrap_or(0.0)));
        let slides = |moving: Moving, rest: &[f64]| {
            steepness.si() * moving.sag_m * rest.get(1).copied().unwrap_or(0.0).exp()
        };
        let Some(stress) = self.film.flow().and_then(Flow::yield_stress) else {
            return self.propagated(of_drying, &inputs, slides);
        };
        inputs.push(Input::new("yield stress", 0.0, stress.relative_std()));
        let held = |moving: Moving, rest: &[f64]| slides(moving, rest).max(UNSEEN_M);
        let estimate: Estimate<Length> = self.propagated(of_drying, &inputs, held)?;
        if estimate.best.si() > UNSEEN_M {
            return Ok(estimate);
        }
        let still = Length::from_si(0.0);
        Ok(Estimate { best: still, low: still, ..estimate })
    }

    /// What moves at the best values.
    pub(super) fn best(&self) -> Result<Moving> {
        self.moving(Moved::NOTHING, Nudge::default(), LONG_WAVE_M)
    }

    /// Something read off what moves, with causes of its own: name, ln of the best value, its standard uncertainty.
    pub(super) fn of_edge<Q: Quantity>(
        &self,
        own: &[(&str, f64, f64)],
        (model, spread): (&str, f64),
        read: impl Fn(Moving, Moved, &[f64]) -> f64,
    ) -> Result<Estimate<Q>> {
        let (of_drying, mut inputs) = self.inputs();
        inputs.extend(own.iter().map(|(what, ln, std)| Input::new(*what, *ln, *std)));
        let model = [ModelError::new("evaporation model", MODEL_SPREAD), ModelError::new(model, spread)];
        propagate(&inputs, &model, Scale::Log, |x| {
            let (drying, flow) = x.split_at(of_drying);
            let [viscosity_stds, rise, ..] = *flow else { return Ok(0.0) };
            let moved = moved_by(drying);
            let nudge = Nudge { viscosity_stds, rise, ..Nudge::default() };
            let moving = self.moving(moved, nudge, LONG_WAVE_M)?;
            Ok(read(moving, moved, flow.get(2..).unwrap_or_default()))
        })
    }

    fn propagated<Q: Quantity>(
        &self,
        of_drying: usize,
        inputs: &[Input],
        read: impl Fn(Moving, &[f64]) -> f64,
    ) -> Result<Estimate<Q>> {
        let model = [ModelError::new("evaporation model", MODEL_SPREAD)];
        propagate(inputs, &model, Scale::Log, |x| {
            let (drying, flow) = x.split_at(of_drying);
            let [viscosity_stds, rise, ln_wavelength, ..] = *flow else { return Ok(0.0) };
            let ln_yield = flow.get(YIELD).copied().unwrap_or(0.0);
            let nudge = Nudge { viscosity_stds, rise, ln_yield };
            let moving = self.moving(moved_by(drying), nudge, ln_wavelength.exp())?;
            Ok(read(moving, flow.get(2..).unwrap_or_default()))
        })
    }
}
