//! Open cups on the bench: while a layer is sprayed, each person has one of its mix and one of thinner.
//!
//! A cup stands open from the begin of mixing until its last coat is laid, at most [`Session::cups_open`]; then a lid goes
//! on. It loses what [`crate::film::OpenCup`] says, full to the rim and stirred, so as fast as it can. What evaporates of
//! the mix is not taken off what is sprayed of it: that counts twice, to the safe side.

use super::habits::Habits;
use super::planned::{PlannedLayer, Sprayed};
use super::session::Session;
use super::steps::{Step, What};
use crate::dose::{Parts, Thinning};
use crate::error::Result;
use crate::film::{CupCourse, OpenCup};
use crate::paint::Mix;
use crate::quantity::{Length, Quantity, Time, Volume};

/// Parts of thinner to one of paint that stand for thinner alone: what else is in the cup is a part in a thousand.
const THINNER_ALONE: f64 = 1000.0;
/// A cup open for less is not counted, s: the shortest that is followed.
const SHORTEST_S: f64 = 1.0;

/// Nobody spreads a few drops over a wide cup: depth of the mix at least, m.
const SHALLOW_M: f64 = 1e-3;
/// Widest and deepest pot that is followed, m.
const WIDEST_M: f64 = 0.5;
const DEEPEST_M: f64 = 0.3;

/// Cups of one liquid, of everybody.
pub(super) struct Cups {
    pub(super) name: String,
    pub(super) course: CupCourse,
    pub(super) count: u32,
    /// When the first is opened.
    pub(super) start: Time,
    /// How long each is open.
    pub(super) open_for: Time,
    /// From the first that is opened to the last.
    pub(super) opening: Time,
}

/// All cups of a session, of water too: it brings no vapour that counts.
pub(super) fn of(
    session: &Session,
    planned: &[PlannedLayer],
    sprayed: &[Sprayed],
    steps: &[Step],
) -> Result<Vec<Cups>> {
    let habits = Habits::usual()?;
    let mut out = Vec::new();
    for (index, (layer, one)) in planned.iter().zip(sprayed).enumerate() {
        let Some((start, opening, open_for)) = open(steps, index, session.cups_open) else { continue };
        let thinning = Thinning::from_parts(Parts { thinner: THINNER_ALONE, paint: 1.0 })?;
        let setup = &session.layers[index].setup;
        let thinner = setup.paint.thin(&setup.slowed_thinner()?, thinning)?;
        let of = |name: String, liquid: &Mix, volume: Volume| {
            let (diameter, depth) = shape(volume, habits.cup_diameter);
            let course = OpenCup::new(liquid, diameter, depth, &setup.room)?.until(open_for)?.stand()?;
            Ok::<_, crate::Error>(Cups { name, course, count: session.people, start, open_for, opening })
        };
        out.push(of(format!("cups of {}", layer.name), &one.mix, layer.mix.made())?);
        if layer.thinner_per_paint > 0.0 {
            out.push(of(format!("cups of thinner, {}", layer.name), &thinner, habits.cup_thinner)?);
        }
    }
    Ok(out)
}

/// The first cup of a layer, the time over which all are opened, and how long each is open in the mean.
fn open(steps: &[Step], layer: usize, at_most: Time) -> Option<(Time, Time, Time)> {
    let mixed = steps.iter().filter(|s| s.layer == layer && s.what == What::Mix);
    let times: Vec<(f64, f64)> = mixed
        .map(|mix| {
            let coats =
                steps.iter().filter(|s| s.layer == layer && s.what == What::Spray && s.person == mix.person);
            let last = coats.map(|s| s.end().si()).fold(mix.end().si(), f64::max);
            (mix.start.si(), (last - mix.start.si()).min(at_most.si()))
        })
        .collect();
    let first = times.iter().map(|t| t.0).fold(f64::INFINITY, f64::min);
    let last = times.iter().map(|t| t.0).fold(0.0, f64::max);
    let mean = times.iter().map(|t| t.1).sum::<f64>() / times.len().max(1) as f64;
    (mean >= SHORTEST_S).then(|| (Time::from_si(first), Time::from_si(last - first), Time::from_si(mean)))
}

/// Diameter and depth: a usual cup, one as wide as the liquid is deep for more, a narrower one for a few drops.
fn shape(volume: Volume, usual: Length) -> (Length, Length) {
    let side = 4.0 * volume.si() / core::f64::consts::PI;
    let diameter = usual.si().min((side / SHALLOW_M).sqrt()).max(side.cbrt()).min(WIDEST_M);
    let depth = (side / (diameter * diameter)).min(DEEPEST_M);
    (Length::from_si(diameter), Length::from_si(depth))
}

#[cfg(test)]
mod tests {
    use super::super::steps::Made;
    use super::*;
    use crate::quantity::parse;

    fn step(what: What, person: usize, start_s: f64, lasts_s: f64) -> Step {
        Made { what, layer: 0, coat: None, person, gun: None, start_s, lasts_s }.into()
    }

    // Two people with one gun: mixed at 0 and 120 s, last coats laid at 900 and 960 s: open for 900 and 840 s.
    #[test]
    fn from_mixing_to_the_last_coat() {
        let steps = [
            step(What::Mix, 0, 0.0, 240.0),
            step(What::Mix, 1, 120.0, 240.0),
            step(What::Spray, 0, 240.0, 60.0),
            step(What::Spray, 1, 360.0, 60.0),
            step(What::Spray, 0, 840.0, 60.0),
            step(What::Spray, 1, 900.0, 60.0),
        ];
        let found = |at_most: f64| open(&steps, 0, Time::from_si(at_most));
        let s = |t: Option<(Time, Time, Time)>| t.map(|(a, b, c)| (a.si(), b.si(), c.si()));
        assert_eq!(s(found(3600.0)), Some((0.0, 120.0, 870.0)));
        assert_eq!(s(found(600.0)), Some((0.0, 120.0, 600.0)));
        assert_eq!(s(found(0.0)), None);
        assert_eq!(s(open(&steps, 1, Time::from_si(600.0))), None);
    }

    #[rstest::rstest]
    #[case("0.2 mL", 15.957_69)] // 1 mm deep
    #[case("5 mL", 30.0)]
    #[case("1 L", 108.385)] // (4 V/π)^(1/3)
    fn a_larger_cup_for_more(#[case] volume: &str, #[case] mm: f64) {
        let volume: Volume = parse(volume).unwrap();
        let (diameter, depth) = shape(volume, parse("30 mm").unwrap());
        approx::assert_relative_eq!(diameter.si(), 1e-3 * mm, max_relative = 1e-5);
        let held = core::f64::consts::PI / 4.0 * diameter.si().powi(2) * depth.si();
        approx::assert_relative_eq!(held, volume.si(), max_relative = 1e-12);
        assert!(depth.si() <= diameter.si() * (1.0 + 1e-9));
    }
}
