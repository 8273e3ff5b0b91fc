//! How thick is the coat at every moment, from sprayed to glassy?
//!
//! ln η over the volume fraction of solids, a monotone curve ([`super::monotone`]) through what is known:
//!
//! | point | from |
//! |---|---|
//! | the wet coat, the undiluted paint | dilution law of the mix, at the temperature of the film (Lewis and Squires) |
//! | touch dry 1e3 Pa s, block-free 1e7 Pa s, glassy 1e12 Pa s | the solids at which this film comes to 55 K, 21 K and 0 K above its glass transition (Fox, Williams-Landel-Ferry) as it dries |
//! | dispersion in water | the dilution law carried past the stock paint, at least Krieger and Dougherty, to 1e7 Pa s where the particles touch (74 vol%) |
//! | alkyd and oil | the dilution law carried on to the resin without solvent; oxygen thickens it later |
//!
//! Accuracy: nobody measured it on these paints. The wet end is as good as the mix's viscosity; the way up is judgement, one
//! standard deviation 15 % of the rise of ln η (a factor 3 at a thousand times the wet viscosity). What levels and sags
//! does so mostly while the coat is within ten times of that. Neglected: shear thinning and thixotropy (the film is taken as
//! Newtonian above a yield stress, where one is given), a skin, gelling of a resin that its last solvent does not dissolve.

use super::coat::{Film, Moved};
use super::course::Course;
use super::drying::Drying;
use super::engine::{BLOCK_FREE_K, TOUCH_DRY_K};
use super::flow::Flow;
use super::levelling::{mobility, weight_flow};
use super::monotone;
use super::yielding::hanging_m;
use crate::error::{Result, out_of_range};
use crate::quantity::{DynamicViscosity, Quantity, Temperature};

/// ln of 1e3, 1e7 and 1e12 Pa s: touch dry, block-free, glassy (source keys `DRYING_MARKS` and `WLF`).
const DRY_MARKS: [(f64, f64); 3] =
    [(TOUCH_DRY_K, 6.907_755_279), (BLOCK_FREE_K, 16.118_095_651), (0.0, 27.631_021_116)];
/// Constants of Williams, Landel and Ferry (source key `WLF`).
const WLF_1: f64 = 17.44;
const WLF_2_K: f64 = 51.6;
/// The rule for the temperature of paint holds between these, K; beyond them the film keeps the viscosity of the end.
const RULE_K: (f64, f64) = (273.15, 323.15);
/// Change of ln η per kelvin up to which the rule was tested.
const TESTED_PER_K: f64 = 0.08;
/// Points of solids or ln η nearer than this are one.
const APART: f64 = 1e-6;
/// Halvings that find the solids of a mark in a film that stays softer.
const HALVINGS: usize = 40;
/// A paint that hardens by oxygen flows for about this share of its time to touch dry (source key `FILM_VISCOSITY`).
const FLOWS_UNTIL: f64 = 0.5;

/// What is not known of the flow, moved: standard deviations of the wet viscosity, share of the rise of ln η.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Nudge {
    pub(super) viscosity_stds: f64,
    pub(super) rise: f64,
    /// Logarithm of a factor on the yield stress.
    pub(super) ln_yield: f64,
}

/// What has moved in a coat by an end: both divided by what does not change while it dries.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Moving {
    /// Levelling exponent over surface tension, m/N.
    pub(super) levelling: f64,
    /// Way of the surface on its face over the steepness of that, m.
    pub(super) sag_m: f64,
    /// ∫ dt/η, 1/Pa.
    pub(super) fluidity: f64,
}

/// A wave so long that every film is thin beside it, m.
pub(super) const LONG_WAVE_M: f64 = 0.1;

impl Moving {
    /// `∫ γ h³/(3 η) dt`, m⁴, of what moved with [`LONG_WAVE_M`].
    pub(super) fn conductance(&self, film: &Film) -> f64 {
        let tension = film.flow().map_or(0.0, |f| f.surface_tension().best.si());
        // The rate of a thin film is γ h³ k⁴/(3 η).
        tension * self.levelling / (core::f64::consts::TAU / LONG_WAVE_M).powi(4)
    }
}

/// A point known: solids, ln Pa s, one standard deviation of it.
#[derive(Debug, Clone, Copy)]
struct Known {
    solids: f64,
    ln: f64,
    std: f64,
}

/// The way of one film from wet to dry.
pub(super) struct Thickening<'a> {
    film: &'a Film,
    flow: &'a Flow,
    course: &'a Course,
    nudge: Nudge,
    liquid: Vec<Known>,
    dry: Vec<(f64, f64)>,
    /// Outermost layer that rides as a plug, m.
    plug_m: f64,
}

impl<'a> Thickening<'a> {
    /// Fails for a coat whose flow is not known.
    pub(super) fn new(film: &'a Film, course: &'a Course, moved: Moved, nudge: Nudge) -> Result<Self> {
        let Some(flow) = film.flow() else {
            return Err(out_of_range(
                "viscosity of the wet coat",
                "unknown",
                "known, for levelling and sag",
                "dry the film of a Mix between 0 °C and 50 °C, or give Film::with_flow its viscosity",
            ));
        };
        let mut liquid = vec![Known {
            solids: flow.wet_solids(film.solids()),
            ln: flow.viscosity().best.si().ln(),
            std: flow.viscosity().relative_std(),
        }];
        for t in flow.thicker() {
            let (solids, ln) = (t.solids.si(), t.viscosity.best.si().ln());
            if let Some(last) = liquid.last()
                && solids > last.solids + APART
                && ln > last.ln + APART
            {
                let own = t.viscosity.relative_std();
                let std = if own > 0.0 { own } else { last.std };
                liquid.push(Known { solids, ln, std });
            }
        }
        let mut thickening = Self { film, flow, course, nudge, liquid, dry: Vec::new(), plug_m: 0.0 };
        thickening.dry = thickening.marks(moved);
        if film.solids().get() > 0.0 && thickening.dry.is_empty() && thickening.liquid.len() == 1 {
            return Err(out_of_range(
                "viscosity of the coat as it dries",
                "known only while wet",
                "known at one more share of solids",
                "give the film a binder, or Flow::thickens_to the viscosity of the undiluted paint",
            ));
        }
        thickening.on_face(1.0);
        Ok(thickening)
    }

    /// On a face of this steepness, above 0 to 1; upright until called. Matters to a coat with a yield stress alone.
    pub(super) fn on_face(&mut self, steepness: f64) {
        if let Some(stress) = self.flow.yield_stress() {
            let pa = stress.best.si() * self.nudge.ln_yield.exp();
            self.plug_m = hanging_m(pa, self.flow.density().best.si(), steepness);
        }
    }

    /// Points at which the course was recorded.
    fn points(&self) -> usize {
        self.course.trace.times_s.len()
    }

    fn time_s(&self, i: usize) -> f64 {
        self.course.trace.times_s.get(i).copied().unwrap_or(0.0)
    }

    fn film_k(&self, i: usize) -> f64 {
        self.course.trace.temperature_k.get(i).copied().unwrap_or(RULE_K.0)
    }

    /// Thickness at a point, m.
    fn thickness_m(&self, i: usize) -> f64 {
        let amounts = self.course.trace.amounts_mol_m2.iter().zip(&self.course.species);
        let liquids: f64 =
            amounts.map(|(n, s)| n.get(i).copied().unwrap_or(0.0) * s.molar_volume_m3_mol).sum();
        self.course.trace.solids_m + liquids
    }

    /// Kelvin above the glass transition at a point, with its liquids multiplied; and the solids then.
    fn above_glass_k(&self, i: usize, moved: Moved, of_liquids: f64) -> Option<(f64, f64)> {
        let solids_m = self.course.trace.solids_m;
        let matter = self.film.binder()?.matter(solids_m, moved.glass_transition_k, 1.0);
        let amounts = self.course.trace.amounts_mol_m2.iter().zip(&self.course.species);
        let amounts = amounts.map(|(n, s)| (n.get(i).copied().unwrap_or(0.0) * of_liquids, s));
        let liquid_m: f64 = amounts.clone().map(|(n, s)| n * s.molar_volume_m3_mol).sum();
        let stiffness =
            matter.stiffness(amounts.map(|(n, s)| (n * s.molar_mass_kg_mol, s.glass_transition_k)));
        Some((self.film_k(i) - stiffness.glass_k, solids_m / (solids_m + liquid_m)))
    }

    /// Solids and ln η of the marks of a binder, as far as it hardens.
    fn marks(&self, moved: Moved) -> Vec<(f64, f64)> {
        let mut out = Vec::new();
        if self.film.binder().is_none() || self.course.trace.solids_m <= 0.0 {
            return out;
        }
        let course: Vec<(f64, f64)> =
            (0..self.points()).filter_map(|i| self.above_glass_k(i, moved, 1.0)).collect();
        let Some(last) = self.points().checked_sub(1) else { return out };
        for (above, ln) in DRY_MARKS {
            let crossed = course.windows(2).find_map(|w| match w {
                [(a0, s0), (a1, s1)] if *a0 > above && *a1 <= above => {
                    Some(s0 + (s1 - s0) * (a0 - above) / (a0 - a1))
                }
                _ => None,
            });
            let dry = self.above_glass_k(last, moved, 0.0);
            let solids = match (crossed, dry) {
                (Some(solids), _) => Some(solids),
                // Softer while it is followed: where it would be with less of its last liquids.
                (None, Some((least, _))) if least < above => {
                    let (mut low, mut high) = (0.0, 1.0);
                    for _ in 0..HALVINGS {
                        let middle = 0.5 * (low + high);
                        match self.above_glass_k(last, moved, middle) {
                            Some((a, _)) if a > above => high = middle,
                            _ => low = middle,
                        }
                    }
                    self.above_glass_k(last, moved, low).map(|(_, solids)| solids)
                }
                (None, Some((least, _))) => {
                    // The binder by itself is softer than this mark.
                    let ln10 = core::f64::consts::LN_10;
                    out.push((1.0, ln10 * (12.0 - WLF_1 * least / (WLF_2_K + least))));
                    return out;
                }
                (None, None) => None,
            };
            if let Some(solids) = solids {
                out.push((solids, ln));
            }
        }
        out
    }

    /// ln of the viscosity, Pa s, at this share of solids and temperature.
    pub(super) fn ln_at(&self, solids: f64, film_k: f64) -> f64 {
        let mut points: Vec<(f64, f64)> = Vec::with_capacity(self.liquid.len() + self.dry.len());
        for known in &self.liquid {
            let ln = known.ln + self.warmed(known.ln, film_k) + self.nudge.viscosity_stds * known.std;
            push_rising(&mut points, (known.solids, ln));
        }
        // What the binder says outranks a stock paint that lies beyond it.
        if let Some(first) = self.dry.first() {
            while points.len() > 1 && points.last().is_some_and(|p| p.0 >= first.0 || p.1 >= first.1) {
                points.pop();
            }
        }
        for mark in &self.dry {
            push_rising(&mut points, *mark);
        }
        let wet = points.first().map_or(0.0, |p| p.1);
        let ln = monotone::value(&points, solids).unwrap_or(wet);
        ln + self.nudge.rise * (ln - wet).max(0.0)
    }

    /// Change of ln η from the temperature of the flow to that of the film.
    fn warmed(&self, ln: f64, film_k: f64) -> f64 {
        let to = film_k.clamp(RULE_K.0, RULE_K.1);
        let from = self.flow.temperature();
        let most = TESTED_PER_K * (to - from.si()).abs();
        let viscosity = DynamicViscosity::from_si(ln.exp());
        match self.flow.rule().ln_change(viscosity, from, Temperature::from_si(to)) {
            Ok((change, _)) => change.clamp(-most, most),
            Err(_) => most.copysign(from.si() - to),
        }
    }

    /// ln η at a point of the course.
    fn ln_of_point(&self, i: usize) -> f64 {
        self.ln_at(self.course.trace.solids_m / self.thickness_m(i), self.film_k(i))
    }

    /// How long it flows, s.
    fn flows_s(&self) -> f64 {
        let followed = self.film.followed_for().si();
        self.film.oxidative_cure().map_or(followed, |cure| (FLOWS_UNTIL * cure.touch.best.si()).min(followed))
    }

    /// What moves from one time to another, s, for this wavelength, m.
    pub(super) fn moving(&self, wavelength_m: f64, [from_s, to_s]: [f64; 2]) -> Moving {
        let density = self.flow.density().best.si();
        let to_s = to_s.min(self.flows_s());
        let rate = |thickness_m: f64, film_k: f64| {
            let fluidity = (-self.ln_at(self.course.trace.solids_m / thickness_m, film_k)).exp();
            [
                mobility(thickness_m, wavelength_m) * fluidity,
                weight_flow(density, (thickness_m - self.plug_m).max(0.0)) * fluidity,
                fluidity,
            ]
        };
        let mut sum = [0.0; 3];
        let mut add = |a: [f64; 3], b: [f64; 3], seconds: f64| {
            for (sum, (a, b)) in sum.iter_mut().zip(a.into_iter().zip(b)) {
                *sum += seconds * log_mean(a, b);
            }
        };
        let Some(last) = self.points().checked_sub(1) else { return Moving::default() };
        let at = |i: usize| (self.time_s(i), self.thickness_m(i), self.film_k(i));
        let mut left = at(0);
        let mut left_rate = rate(left.1, left.2);
        for i in 1..=last {
            let right = at(i);
            let right_rate = rate(right.1, right.2);
            let (t0, t1) = (left.0.max(from_s), right.0.min(to_s));
            if t1 > t0 && right.0 > left.0 {
                let between = |t: f64| {
                    let s = (t - left.0) / (right.0 - left.0);
                    rate(left.1 + s * (right.1 - left.1), left.2 + s * (right.2 - left.2))
                };
                let middle = between(0.5 * (t0 + t1));
                let start = if t0 > left.0 { between(t0) } else { left_rate };
                let end = if t1 < right.0 { between(t1) } else { right_rate };
                add(start, middle, 0.5 * (t1 - t0));
                add(middle, end, 0.5 * (t1 - t0));
            }
            (left, left_rate) = (right, right_rate);
        }
        let rest = to_s - left.0.max(from_s);
        if rest > 0.0 && self.course.trace.solids_m > 0.0 {
            add(left_rate, left_rate, rest); // nothing more leaves, but it may still flow
        }
        Moving { levelling: sum[0], sag_m: sum[1], fluidity: sum[2] }
    }
}

/// Appends a point that lies beyond the last in both.
fn push_rising(points: &mut Vec<(f64, f64)>, point: (f64, f64)) {
    if points.last().is_none_or(|last| point.0 > last.0 + APART && point.1 > last.1 + APART) {
        points.push(point);
    }
}

/// Mean of a quantity that goes exponentially from one value to the other.
fn log_mean(a: f64, b: f64) -> f64 {
    if a <= 0.0 || b <= 0.0 {
        return 0.5 * (a + b);
    }
    let ln = (b / a).ln();
    if ln.abs() < 1e-4 { 0.5 * (a + b) } else { (b - a) / ln }
}

impl Drying {
    /// Viscosity of the film at each of [`Drying::times`].
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a coat whose flow is not known: one that is not of a [`crate::paint::Mix`] and was
    /// not given [`Film::with_flow`].
    ///
    /// ```
    /// use mistcoat::{air::Room, blend::Blend, dose::{Parts, Thinning}, film::Film, paint::{Family, Paint}};
    /// use mistcoat::quantity::{parse, RelativeHumidity};
    /// let thinner = Blend::from_names(&[("n-butyl acetate", 1.0)], mistcoat::blend::Basis::Mass, None)?;
    /// let mix = Paint::typical(Family::SolventLacquer, "hull green")?
    ///     .thin(&thinner, Thinning::from_parts(Parts { thinner: 2.0, paint: 1.0 })?)?;
    /// let room = Room::new(parse("21 °C")?, RelativeHumidity::new(0.55)?)?;
    /// let course = Film::of_mix(&mix, parse("25 µm")?, &room)?.dry()?.viscosities()?;
    /// assert!(course.last().unwrap().value > 1e6 * course[0].value);
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn viscosities(&self) -> Result<Vec<DynamicViscosity>> {
        let course = self.film().dry_moved(Moved::NOTHING)?;
        let thickening = Thickening::new(self.film(), &course, Moved::NOTHING, Nudge::default())?;
        Ok((0..thickening.points())
            .map(|i| DynamicViscosity::from_si(thickening.ln_of_point(i).exp()))
            .collect())
    }
}

#[cfg(test)]
mod tests;
