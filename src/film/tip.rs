//! How often must I wipe the needle of the airbrush?
//!
//! Paint that stays on the tip between strokes is a film of some 20 µm on a needle a millimetre long, in the air of the
//! nozzle or, with the air shut off too, in still air. It loses its volatiles by the law of the film ([`super`]), on steel that
//! feeds it heat, until it no longer flows: a solution when the dilution law of the mix makes it ten times as thick, a
//! dispersion when its particles touch (74 vol% of solids). What sprays past then drags it into spatter.
//!
//! **Index**: the pause between strokes over that time. Below 1 the paint on the tip is still liquid when the next stroke
//! takes it along; above 1 the tip must be wiped.
//!
//! **Evaporation is half of it.** A lacquer that has set is dissolved again by the next stroke of the same paint; a
//! dispersion that has coalesced is not: each pause leaves its layer, until a clot disturbs the spray
//! ([`TipDrying::wipe_every`]). That is why waterborne acrylics are known for tip drying although water leaves more slowly
//! than a lacquer thinner, and why a glycol helps them so much: it keeps the particles apart when the water has gone.
//!
//! Accuracy: a factor 2. The film on a tip was not found measured, the speed of the air at the tip is the nozzle's order of
//! magnitude, and a plate stands for a cone; ratios between mixes are surer than times. Neglected: fresh paint that
//! keeps the tip wet while it flows, the cooling of the air as it expands, dirt that starts a clot.

use super::coat::Moved;
use super::flash_off::{MODEL_SPREAD, VAPOUR_PRESSURE_SPREAD};
use super::open_cup::run::{Followed, Pool, Thickening};
use super::substrate::Substrate;
use crate::air::Room;
use crate::answer::Answer;
use crate::error::{Result, out_of_range};
use crate::estimate::{Estimate, Input, ModelError, Scale, propagate};
use crate::paint::{Family, Mix};
use crate::quantity::{Length, Number, Quantity, Time, Velocity, as_text, digits, show};
use crate::warning::Warning;
use crate::working::{Step, Working};
use serde::{Deserialize, Serialize};

/// Film on the tip, length and wall of the needle's end, m (source key `NEEDLE_TIP`).
const FILM_M: f64 = 20e-6;
const TIP_M: f64 = 1e-3;
const NEEDLE_M: f64 = 0.2e-3;
/// Air past the tip with the trigger down, m/s, and pause between strokes, s (source key `NEEDLE_TIP`).
const AIR_M_S: f64 = 100.0;
const PAUSE_S: f64 = 10.0;
/// What may be asked.
const FILMS_M: (f64, f64) = (2e-6, 200e-6);
const SPEEDS_M_S: (f64, f64) = (0.0, 350.0);
const PAUSES_S: (f64, f64) = (0.1, 3600.0);
/// So many times thicker it no longer flows (source key `NEEDLE_TIP`).
const SET: f64 = 10.0;
/// Volume fraction at which the particles of a dispersion pack (source key `CLOSE_PACKING`).
pub(super) const PACKED: f64 = 0.74;
/// ln of the spread of the film on a tip and of everything else about it: together a factor 2 (source key `NEEDLE_TIP`).
const FILM_SPREAD: f64 = 0.4;
const TIP_SPREAD: f64 = 0.3;
const SHAPE_SPREAD: f64 = 1.0;
/// Layers of this height together disturb the spray, m: a sixth of a small nozzle (source key `NEEDLE_TIP`).
const CLOT_M: f64 = 50e-6;
/// Nothing sets later than this, s.
const UNTIL_S: f64 = 86_400.0;

/// What lies on the tip, and how long it lies there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tip {
    film: Length,
    air_speed: Velocity,
    pause: Time,
}

impl Default for Tip {
    fn default() -> Self {
        Self {
            film: Length::from_si(FILM_M),
            air_speed: Velocity::from_si(AIR_M_S),
            pause: Time::from_si(PAUSE_S),
        }
    }
}

impl Tip {
    /// The same with another wet film on the tip, 20 µm unless called.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 2 to 200 µm.
    pub fn with_film(mut self, film: Length) -> Result<Self> {
        if !(FILMS_M.0..=FILMS_M.1).contains(&film.si()) {
            return Err(out_of_range("film on the tip", show(film), "2 µm to 200 µm", "20 µm is usual"));
        }
        self.film = film;
        Ok(self)
    }

    /// The same with other air past the tip: 100 m/s with the trigger down unless called, 0 m/s with the air shut off.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 0 to 350 m/s.
    pub fn with_air_speed(mut self, air_speed: Velocity) -> Result<Self> {
        if !(SPEEDS_M_S.0..=SPEEDS_M_S.1).contains(&air_speed.si()) {
            return Err(out_of_range(
                "air speed past the tip",
                show(air_speed),
                "0 m/s to 350 m/s",
                "0 m/s with the air shut off; no nozzle of this kind blows faster than sound",
            ));
        }
        self.air_speed = air_speed;
        Ok(self)
    }

    /// The same with another pause between strokes, 10 s unless called.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 0.1 s to 1 h.
    pub fn with_pause(mut self, pause: Time) -> Result<Self> {
        if !(PAUSES_S.0..=PAUSES_S.1).contains(&pause.si()) {
            return Err(out_of_range(
                "pause between strokes",
                show(pause),
                "0.1 s to 1 h",
                "10 s is usual; after an hour clean the gun",
            ));
        }
        self.pause = pause;
        Ok(self)
    }

    /// Wet film on the tip.
    pub fn film(&self) -> Length {
        self.film
    }

    /// Air past the tip.
    pub fn air_speed(&self) -> Velocity {
        self.air_speed
    }

    /// Pause between strokes.
    pub fn pause(&self) -> Time {
        self.pause
    }
}

/// How soon the paint on the tip of the needle sets.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TipDrying {
    /// Until the paint on the tip is ten times as thick.
    pub sets_after: Answer<Time>,
    /// The pause over that time: above 1 the tip dries between strokes.
    pub index: Estimate<Number>,
    /// Whether the next stroke of the same paint dissolves what has set.
    pub redissolves: bool,
    /// Time in pauses after which layers that do not dissolve have built a clot of 50 µm; `None` when the paint stays wet
    /// between strokes, or dissolves again.
    #[serde(with = "as_text::option")]
    pub wipe_every: Option<Time>,
    /// What to do.
    pub advice: String,
}

/// Time in pauses after which the tip wants wiping, best value alone; `None` when it never does. For maps: one run, and none
/// for a paint that dissolves again.
///
/// # Errors
/// Errors of the mix.
pub(crate) fn wipe_every(mix: &Mix, room: &Room, tip: Tip) -> Result<Option<Time>> {
    if redissolves(mix.paint().family()) {
        return Ok(None);
    }
    let needle = needle()?;
    let pool = pool_on(&needle, mix, room, tip);
    let law = Thickening::of(mix, room, 0.0)?;
    let sets = sets_after(&pool.follow(Moved::NOTHING)?, mix, &law)?;
    let layer_m = tip.film.si() * mix.volume_solids().best.si();
    Ok(sets.filter(|sets| tip.pause.si() > *sets).map(|_| wipe_after(tip, layer_m)))
}

/// What the tip is, thermally.
fn needle() -> Result<Substrate> {
    Substrate::named("steel")?.with_thickness(Length::from_si(NEEDLE_M))
}

fn pool_on<'a>(needle: &'a Substrate, mix: &'a Mix, room: &'a Room, tip: Tip) -> Pool<'a> {
    Pool {
        mix,
        room,
        depth_m: tip.film.si(),
        length_m: TIP_M,
        freeboard_m: 0.0,
        air_speed_m_s: tip.air_speed.si(),
        wall: needle,
        until_s: UNTIL_S,
    }
}

/// When what was followed no longer flows, s.
fn sets_after(followed: &Followed, mix: &Mix, law: &Thickening) -> Result<Option<f64>> {
    if mix.paint().family() == Family::WaterborneAcrylic {
        followed.time_of_solids(PACKED)
    } else {
        followed.time_of_rise(law, SET.ln())
    }
}

/// Pauses that build a clot out of layers of this dry height.
fn wipe_after(tip: Tip, layer_m: f64) -> Time {
    Time::from_si(tip.pause.si() * (CLOT_M / layer_m).max(1.0))
}

/// How soon a mix dries on the tip of the needle in this room.
///
/// # Errors
/// Errors of the mix; a [`crate::error::RangeError`] for a mix that does not set within a day.
///
/// ```
/// use mistcoat::{air::Room, blend::{Basis, Blend}, dose::{Parts, Thinning}, film::{Tip, tip_drying}};
/// use mistcoat::{paint::{Family, Paint}, quantity::{parse, RelativeHumidity}};
/// let paint = Paint::typical(Family::SolventLacquer, "deckhouse cream")?;
/// let equal = Thinning::from_parts(Parts { thinner: 1.0, paint: 1.0 })?;
/// let fast = Blend::from_names(&[("acetone", 60.0), ("ethyl acetate", 40.0)], Basis::Volume, None)?;
/// let slow = Blend::from_names(&[("n-butyl acetate", 80.0), ("2-butoxyethanol", 20.0)], Basis::Volume, None)?;
/// let room = Room::new(parse("21 °C")?, RelativeHumidity::new(0.5)?)?;
/// let index = |thinner| tip_drying(&paint.thin(thinner, equal)?, &room, Tip::default());
/// assert!(index(&fast)?.sets_after.best() < index(&slow)?.sets_after.best());
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn tip_drying(mix: &Mix, room: &Room, tip: Tip) -> Result<TipDrying> {
    let needle = needle()?;
    let base = pool_on(&needle, mix, room, tip);
    let dispersion = mix.paint().family() == Family::WaterborneAcrylic;
    let inputs = [
        Input::new("air speed past the tip", 0.0, 1.0),
        Input::new("vapour pressures", 1.0, VAPOUR_PRESSURE_SPREAD),
        Input::new("film on the tip", 0.0, FILM_SPREAD),
        Input::new("shape of the dilution law", 0.0, SHAPE_SPREAD),
    ];
    let model = [
        ModelError::new("evaporation model", MODEL_SPREAD),
        ModelError::new("a plate for the tip of a needle", TIP_SPREAD),
    ];
    let estimate: Estimate<Time> = propagate(&inputs, &model, Scale::Log, |x| {
        let law = Thickening::of(mix, room, x[3])?;
        let pool = Pool { depth_m: base.depth_m * x[2].exp(), ..base.clone() };
        let moved = Moved { air_speed_stds: x[0], vapour_pressure: x[1], ..Moved::NOTHING };
        sets_after(&pool.follow(moved)?, mix, &law)?.ok_or_else(|| {
            out_of_range(
                "time until the paint on the tip sets",
                "more than 1 d",
                "at most 1 d",
                "such a mix does not dry on the tip; wipe it when you clean the gun",
            )
        })
    })?;
    let redissolves = redissolves(mix.paint().family());
    let index = Estimate {
        best: Number::from_si(tip.pause.si() / estimate.best.si()),
        low: Number::from_si(tip.pause.si() / estimate.high.si()),
        high: Number::from_si(tip.pause.si() / estimate.low.si()),
        coverage: estimate.coverage,
        contributors: estimate.contributors.clone(),
    };
    let mut working = Working::new(format!(
        "Paint on the tip: {} of {} in air of {}",
        show(tip.film),
        mix.volatile()?.label(),
        show(tip.air_speed)
    ));
    working.push(
        if dispersion {
            Step::new("sets when the particles touch", "φ(t) = 0.74", r"\phi(t) = 0.74")
                .source("CLOSE_PACKING")
        } else {
            Step::new("sets when it is ten times as thick", "η(t) = 10 η0", r"\eta(t) = 10\,\eta_0")
                .source("NEEDLE_TIP")
        }
        .result(estimate.to_string()),
    );
    working.push(
        Step::new("index", "pause / time to set", r"t_\mathrm{pause}/t_\mathrm{set}")
            .numbers(format!("{} / {}", show(tip.pause), show(estimate.best)))
            .result(digits(index.best.si(), 2))
            .source("NEEDLE_TIP"),
    );
    let layer_m = tip.film.si() * mix.volume_solids().best.si();
    let builds_up = index.best.si() > 1.0 && !redissolves;
    let wipe_every = builds_up.then(|| wipe_after(tip, layer_m));
    if let Some(wipe) = wipe_every {
        working.push(
            Step::new(
                "pauses until a clot has built up",
                "t_pause h_clot/(h VS)",
                r"t_\mathrm{pause} h_c/(h\,V_S)",
            )
            .numbers(format!(
                "{} × {} / {}",
                show(tip.pause),
                show(Length::from_si(CLOT_M)),
                show(Length::from_si(layer_m))
            ))
            .result(show(wipe))
            .source("NEEDLE_TIP"),
        );
    }
    let advice = advice(estimate.best, index.best.si() > 1.0, wipe_every);
    let warnings = (index.best.si() > 1.0).then(|| Warning::new("tip-drying", advice.clone()));
    Ok(TipDrying {
        sets_after: Answer::new(estimate, working).with_warnings(warnings),
        index,
        redissolves,
        wipe_every,
        advice,
    })
}

/// Paints whose own liquid dissolves what has dried; common practice (source key `NEEDLE_TIP`).
fn redissolves(family: Family) -> bool {
    match family {
        Family::SolventLacquer | Family::AlcoholAcrylic | Family::AlkydEnamel | Family::ArtistsOil => true,
        Family::WaterborneAcrylic => false,
    }
}

fn advice(sets_after: Time, sets: bool, wipe_every: Option<Time>) -> String {
    let after = show(rounded(sets_after));
    match (sets, wipe_every) {
        (false, _) => {
            format!("the tip stays wet between strokes: it sets after {after} (a factor 2 either way)")
        }
        (true, None) => format!(
            "paint on the tip sets after {after}, sooner than the next stroke, which dissolves most of it again: spray a short \
             burst aside before each stroke; with spatter, add retarder or shut the air off in pauses"
        ),
        (true, Some(wipe)) => format!(
            "paint on the tip sets after {after}, sooner than the next stroke, and does not dissolve again: wipe the tip every \
             {} of pauses (a factor 2 either way) with a brush wet with cleaner; add the paint's retarder, or shut the air off \
             in pauses",
            show(rounded(wipe))
        ),
    }
}

/// To two digits, for words.
fn rounded(t: Time) -> Time {
    let s = t.si();
    let unit = 10.0_f64.powf(s.log10().floor() - 1.0);
    Time::from_si((s / unit).round() * unit)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::blend::{Basis, Blend};
    use crate::dose::{Parts, Thinning};
    use crate::paint::Paint;
    use crate::quantity::{RelativeHumidity, parse};
    use proptest::prelude::*;

    fn room() -> Room {
        Room::new(parse("21 °C").unwrap(), RelativeHumidity::new(0.5).unwrap()).unwrap()
    }

    fn tip(family: Family, thinner: &[(&str, f64)], parts: f64, tip: Tip) -> TipDrying {
        let paint = Paint::typical(family, "hull green").unwrap();
        let thinner = Blend::from_names(thinner, Basis::Volume, None).unwrap();
        let thinning = Thinning::from_parts(Parts { thinner: parts, paint: 1.0 }).unwrap();
        tip_drying(&paint.thin(&thinner, thinning).unwrap(), &room(), tip).unwrap()
    }

    const FAST: &[(&str, f64)] = &[("acetone", 50.0), ("ethyl acetate", 50.0)];
    const RETARDED: &[(&str, f64)] = &[("acetone", 38.0), ("ethyl acetate", 37.0), ("2-butoxyethanol", 25.0)];

    fn still() -> Tip {
        Tip::default().with_air_speed(parse("0 m/s").unwrap()).unwrap()
    }

    // Common practice: fast thinners and acrylics dry on the tip, retarder helps both, and the acrylic is what must be wiped
    // off every few minutes.
    #[test]
    fn as_the_bench_knows_it() {
        for air in [Tip::default(), still()] {
            let fast = tip(Family::SolventLacquer, FAST, 1.0, air);
            let retarded = tip(Family::SolventLacquer, RETARDED, 1.0, air);
            let water = tip(Family::WaterborneAcrylic, &[("water", 1.0)], 0.5, air);
            let glycol =
                tip(Family::WaterborneAcrylic, &[("water", 80.0), ("propylene glycol", 20.0)], 0.5, air);
            let time = |t: &TipDrying| t.sets_after.best().si();
            assert!(time(&retarded) > 1.3 * time(&fast) && time(&glycol) > 1.8 * time(&water));
            // Water itself leaves the more slowly; that its film stays is what makes it the worse one.
            assert!(time(&water) > time(&fast));
            assert!(fast.redissolves && !water.redissolves && fast.wipe_every.is_none());
            assert!(fast.index.low < fast.index.best && fast.index.best < fast.index.high);
        }
        let water = tip(Family::WaterborneAcrylic, &[("water", 1.0)], 0.5, Tip::default());
        assert!((60.0..600.0).contains(&water.wipe_every.unwrap().si()), "{}", water.advice);
        assert!(water.advice.contains("wipe the tip every") && water.sets_after.warnings.len() == 1);
        let shut = tip(Family::WaterborneAcrylic, &[("water", 1.0)], 0.5, still());
        assert!(shut.wipe_every.is_none() && shut.sets_after.warnings.is_empty(), "{}", shut.advice);
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(12))]
        #[test]
        fn thicker_films_and_less_air_set_later(film in 5.0_f64..60.0, speed in 1.0_f64..100.0) {
            let time = |film: f64, speed: f64| {
                let settings = Tip::default()
                    .with_film(Length::from_si(film * 1e-6)).unwrap()
                    .with_air_speed(Velocity::from_si(speed)).unwrap();
                tip(Family::SolventLacquer, FAST, 1.0, settings).sets_after.best().si()
            };
            let here = time(film, speed);
            prop_assert!(time(film * 1.5, speed) > here);
            prop_assert!(time(film, speed * 2.0) < here);
        }
    }

    #[test]
    fn bad_tips() {
        let base = Tip::default();
        let checks = [
            (base.with_film(parse("1 mm").unwrap()), ["1 mm", "200 µm", "20 µm is usual"]),
            (base.with_air_speed(Velocity::from_si(f64::NAN)), ["NaN", "350 m/s", "sound"]),
            (base.with_pause(parse("0 s").unwrap()), ["0 s", "1 h", "clean the gun"]),
        ];
        for (made, says) in checks {
            let text = made.unwrap_err().to_string();
            for part in says {
                assert!(text.contains(part), "no {part:?} in: {text}");
            }
        }
    }
}
