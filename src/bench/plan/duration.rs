//! How long it all takes: the timeline as planned, and the estimate with what spreads it.

use super::habits::Habits;
use super::planned::PlannedLayer;
use super::schedule::{Load, end_s, schedule};
use super::session::Session;
use super::steps::Step;
use super::visits::{self, Visit};
use super::wash::GunWash;
use crate::error::Result;
use crate::estimate::{COVERAGE, Contributor, Estimate};
use crate::quantity::{Quantity, Time};

/// Where in its interval something is taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Pace {
    /// Best value of handwork, upper end of waits.
    Planned,
    Low,
    Best,
    High,
}

impl Pace {
    fn of<Q: Quantity>(self, estimate: &Estimate<Q>) -> f64 {
        match self {
            Self::Low => estimate.low.si(),
            Self::Planned | Self::Best => estimate.best.si(),
            Self::High => estimate.high.si(),
        }
    }
}

/// The timeline and what is read off it.
pub(super) struct Duration {
    pub(super) steps: Vec<Step>,
    pub(super) total: Estimate<Time>,
    pub(super) visits: Vec<Visit>,
}

/// One layer at the ends of its intervals.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Spread {
    pub(super) low: Load,
    pub(super) best: Load,
    pub(super) high: Load,
    /// Layers of one paint have the same number.
    pub(super) paint: usize,
}

/// What moves together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Cause {
    Hands,
    Spraying,
    Drying(usize),
}

pub(super) fn of(session: &Session, layers: &[PlannedLayer], washes: &[GunWash]) -> Result<Duration> {
    let (people, guns) = (session.people as usize, session.guns as usize);
    let at = |pace| {
        let loads = layers.iter().enumerate().map(|(index, layer)| {
            let wash = washes.iter().find(|w| w.after == index);
            load(layer, wash, index + 1 == layers.len(), pace)
        });
        loads.collect::<Result<Vec<Load>>>()
    };
    let steps = schedule(&at(Pace::Planned)?, people, guns);
    let mut paints: Vec<&str> = Vec::new();
    let mut spreads = Vec::with_capacity(layers.len());
    let ends = at(Pace::Low)?.into_iter().zip(at(Pace::Best)?).zip(at(Pace::High)?);
    for (layer, ((low, best), high)) in session.layers.iter().zip(ends) {
        let alike = session.layers.iter().zip(&spreads).find(|(l, _)| l.setup.paint == layer.setup.paint);
        let paint = alike.map_or(paints.len(), |(_, spread): (_, &Spread)| spread.paint);
        if paint == paints.len() {
            paints.push(layer.paint().name());
        }
        spreads.push(Spread { low, best, high, paint });
    }
    let total = total(&spreads, &paints, people, guns);
    let visits = visits::of(&steps)?;
    Ok(Duration { steps, total, visits })
}

/// What a layer takes of hands and guns.
fn load(planned: &PlannedLayer, wash: Option<&GunWash>, is_last: bool, pace: Pace) -> Result<Load> {
    let habits = Habits::usual()?;
    let portions = f64::from(wash.map_or(0, |w| w.split.portions));
    let rinse = portions * pace.of(&habits.portion);
    let masking = pace.of(&habits.mask) / habits.mask.best.si();
    let pass_s = pace.of(&planned.pass_time);
    Ok(Load {
        mask: planned.mask.map(|m| m.si() * masking),
        mix: pace.of(&habits.mix),
        coats: (1..=planned.coats).map(|c| f64::from(planned.passes_of_coat(c)) * pass_s).collect(),
        flash_off: planned.flash_off.at(pace).si(),
        until_mask: planned.until_mask.at(pace).si(),
        until_next: planned.until_next.at(pace).si(),
        rinse: if is_last { rinse + pace.of(&habits.clean_up) } else { rinse },
        hand_over: pace.of(&habits.hand_over),
    })
}

impl Spread {
    fn end(&self, pace: Pace) -> &Load {
        match pace {
            Pace::Low => &self.low,
            Pace::Planned | Pace::Best => &self.best,
            Pace::High => &self.high,
        }
    }

    /// Hands, spraying and drying each at their own pace.
    fn at(&self, pace: impl Fn(Cause) -> Pace) -> Load {
        let hands = self.end(pace(Cause::Hands));
        let drying = self.end(pace(Cause::Drying(self.paint)));
        Load {
            coats: self.end(pace(Cause::Spraying)).coats.clone(),
            flash_off: drying.flash_off,
            until_mask: drying.until_mask,
            until_next: drying.until_next,
            ..hands.clone()
        }
    }
}

/// Best value and interval: causes by squares, never beyond all of them at their ends.
///
/// A timeline is sums and the later of two ends, so that no cause at its low end makes it longer, and all together reach
/// at least as far as each alone.
fn total(layers: &[Spread], paints: &[&str], people: usize, guns: usize) -> Estimate<Time> {
    let end = |pace: &dyn Fn(Cause) -> Pace| {
        let loads: Vec<Load> = layers.iter().map(|l| l.at(pace)).collect();
        end_s(&schedule(&loads, people, guns))
    };
    let best = end(&|_| Pace::Best);
    let named = [
        ("pace of the handwork".to_owned(), Cause::Hands),
        ("pace of the spraying".to_owned(), Cause::Spraying),
    ];
    let drying = paints.iter().enumerate().map(|(i, name)| (format!("drying of {name}"), Cause::Drying(i)));
    let mut parts: Vec<(String, f64)> = Vec::new();
    let (mut down, mut up) = (0.0, 0.0);
    for (what, cause) in named.into_iter().chain(drying) {
        let moved = |to: Pace| end(&|of| if of == cause { to } else { Pace::Best });
        let (less, more) = ((best - moved(Pace::Low)).max(0.0), (moved(Pace::High) - best).max(0.0));
        down += less * less;
        up += more * more;
        let half = 0.5 * (less + more);
        parts.push((what, half * half));
    }
    let variance: f64 = parts.iter().map(|(_, part)| part).sum();
    let mut contributors: Vec<Contributor> = parts
        .into_iter()
        .filter(|(_, part)| *part > 0.0)
        .map(|(what, part)| Contributor { what, share: part / variance })
        .collect();
    contributors.sort_by(|a, b| b.share.total_cmp(&a.share));
    let low = (best - f64::sqrt(down)).max(end(&|_| Pace::Low)).min(best);
    let high = (best + f64::sqrt(up)).min(end(&|_| Pace::High)).max(best);
    Estimate {
        best: Time::from_si(best),
        low: Time::from_si(low),
        high: Time::from_si(high),
        coverage: COVERAGE,
        contributors,
    }
}

#[cfg(test)]
mod tests {
    use super::super::schedule::tests::{load, scaled};
    use super::*;
    use proptest::prelude::*;

    fn spread() -> impl Strategy<Value = Spread> {
        let ends = prop::array::uniform3(1.0..3.0_f64);
        (load(), ends, 0..3_usize).prop_map(|(best, by, paint)| Spread {
            low: scaled(&best, by.map(f64::recip)),
            high: scaled(&best, by),
            best,
            paint,
        })
    }

    const NAMES: [&str; 3] = ["a", "b", "c"];

    // One person, one coat each, no mask: mix, spray, wait, spray, dry; the rinses fall into the waits.
    fn waiting(until_next: f64, paint: usize) -> Spread {
        let best = Load {
            mask: None,
            mix: 10.0,
            coats: vec![10.0],
            flash_off: 0.0,
            until_mask: 0.0,
            until_next,
            rinse: 1.0,
            hand_over: 0.0,
        };
        Spread { low: scaled(&best, [1.0, 1.0, 0.5]), high: scaled(&best, [1.0, 1.0, 3.0]), best, paint }
    }

    // By hand: 10 + 10 + 100 + 10 + 300 = 430 s. Waits of 100 and 300 s, half to three times as long: one paint moves both,
    // −200 and +800 s; two paints −√(50² + 150²) = −158.1 and +√(200² + 600²) = +632.5 s.
    #[rstest::rstest]
    #[case(0, 230.0, 1230.0, &[1.0])]
    #[case(1, 430.0 - 158.113_883, 430.0 + 632.455_532, &[0.9, 0.1])]
    fn one_paint_moves_together(
        #[case] other: usize,
        #[case] low: f64,
        #[case] high: f64,
        #[case] shares: &[f64],
    ) {
        let found = total(&[waiting(100.0, 0), waiting(300.0, other)], &NAMES[..=other], 1, 1);
        approx::assert_relative_eq!(found.best.si(), 430.0, max_relative = 1e-12);
        approx::assert_relative_eq!(found.low.si(), low, max_relative = 1e-8);
        approx::assert_relative_eq!(found.high.si(), high, max_relative = 1e-8);
        let told: Vec<f64> = found.contributors.iter().map(|c| c.share).collect();
        assert_eq!(told.len(), shares.len(), "{found:?}");
        assert!(told.iter().zip(shares).all(|(a, b)| (a - b).abs() < 1e-9), "{found:?}");
        assert!(found.contributors[0].what == ["drying of a", "drying of b"][other], "{found:?}");
    }

    proptest! {
        // Never narrower than its widest part, never beyond all parts together, and a range about the best value.
        #[test]
        fn an_interval_holds_each_of_its_parts(
            layers in prop::collection::vec(spread(), 1..5), people in 1..5_usize, share in 0..5_usize,
        ) {
            let guns = 1 + share % people;
            let found = total(&layers, &NAMES, people, guns);
            let end = |pace: &dyn Fn(Cause) -> Pace| {
                let loads: Vec<Load> = layers.iter().map(|l| l.at(pace)).collect();
                end_s(&schedule(&loads, people, guns))
            };
            let (low, best, high) = (found.low.si(), found.best.si(), found.high.si());
            prop_assert!(0.0 < low && low <= best && best <= high);
            for cause in [Cause::Hands, Cause::Spraying, Cause::Drying(0), Cause::Drying(1), Cause::Drying(2)] {
                let moved = |to: Pace| end(&|of| if of == cause { to } else { Pace::Best });
                prop_assert!(low <= moved(Pace::Low) + 1e-6 && moved(Pace::High) <= high + 1e-6, "{cause:?}");
            }
            prop_assert!(end(&|_| Pace::Low) <= low + 1e-6 && high <= end(&|_| Pace::High) + 1e-6);
            let whole: f64 = found.contributors.iter().map(|c| c.share).sum();
            prop_assert!((whole - 1.0).abs() < 1e-9 && found.contributors.windows(2).all(|w| w[0].share >= w[1].share));
        }

        // One part, one paint after the other: that all coats are of one paint never narrows the interval.
        #[test]
        fn the_same_paint_spreads_more(waits in prop::collection::vec(1.0..9000.0_f64, 2..4)) {
            let of = |paint: &dyn Fn(usize) -> usize| {
                let layers: Vec<Spread> = waits.iter().enumerate().map(|(i, w)| waiting(*w, paint(i))).collect();
                total(&layers, &NAMES, 1, 1)
            };
            let (one, several) = (of(&|_| 0), of(&|i| i));
            prop_assert!(one.high >= several.high && one.low <= several.low && one.best == several.best);
        }
    }
}
