//! Many releases in one room: the well-mixed balance carried from one change of the release to the next.
//!
//! The same law as [`super::RoomVapour`], `dC/dt = g − λC`, which is the reference for one vapour. Here `g` is the sum of
//! any number of releases, so that a session of thousands of pieces costs one pass over them. As the law is linear, `g` may
//! as well be a weighted sum over vapours, such as the sum of concentrations over limits.

/// Amount set free evenly from one time to another, per volume of the room; at once when the two are the same.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Piece {
    pub(crate) from_s: f64,
    pub(crate) until_s: f64,
    pub(crate) amount: f64,
}

/// What the air holds over time.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct BuildUp {
    lambda: f64,
    /// Where the release changes, rising.
    times_s: Vec<f64>,
    /// Release after each of them.
    rate: Vec<f64>,
    /// Held at each of them, what is set free there at once included.
    held: Vec<f64>,
    /// Integral of what is held, and what was released, up to each of them.
    dose: Vec<f64>,
    released: Vec<f64>,
}

/// The stretch of time with the highest mean.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Window {
    pub(crate) from_s: f64,
    pub(crate) until_s: f64,
    pub(crate) mean: f64,
}

/// Before a change, as a share of the stretch between two changes.
const EDGE: f64 = 1e-9;
/// Halvings that find a time to its last digits.
const BISECTIONS: usize = 50;

impl BuildUp {
    /// From these pieces, with fresh air at the rate λ, 1/s.
    pub(crate) fn new(pieces: &[Piece], lambda: f64) -> Self {
        let mut steps: Vec<(f64, f64, f64)> = Vec::with_capacity(2 * pieces.len() + 1);
        steps.push((0.0, 0.0, 0.0));
        for p in pieces.iter().filter(|p| p.amount > 0.0) {
            if p.until_s > p.from_s {
                let rate = p.amount / (p.until_s - p.from_s);
                steps.push((p.from_s, rate, 0.0));
                steps.push((p.until_s, -rate, 0.0));
            } else {
                steps.push((p.from_s, 0.0, p.amount));
            }
        }
        steps.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut all = Self {
            lambda,
            times_s: Vec::with_capacity(steps.len()),
            rate: Vec::with_capacity(steps.len()),
            held: Vec::with_capacity(steps.len()),
            dose: Vec::with_capacity(steps.len()),
            released: Vec::with_capacity(steps.len()),
        };
        let (mut rate, mut held, mut dose, mut released, mut now) = (0.0_f64, 0.0, 0.0, 0.0, 0.0);
        for (time, change, at_once) in steps {
            let span = time - now;
            if span > 0.0 || all.times_s.is_empty() {
                dose += dose_over(held, rate, lambda, span);
                released += rate * span;
                held = held_after(held, rate, lambda, span);
                now = time;
                all.times_s.push(time);
                for column in [&mut all.rate, &mut all.held, &mut all.dose, &mut all.released] {
                    column.push(0.0);
                }
            }
            // What is left of a sum of differences is rounding.
            rate = (rate + change).max(0.0);
            held += at_once;
            released += at_once;
            let last = all.times_s.len() - 1;
            (all.rate[last], all.held[last]) = (rate, held);
            (all.dose[last], all.released[last]) = (dose, released);
        }
        all
    }

    /// Times at which the release changes.
    pub(crate) fn times(&self) -> &[f64] {
        &self.times_s
    }

    fn at(&self, t_s: f64) -> (usize, f64) {
        let after = self.times_s.partition_point(|x| *x <= t_s).max(1);
        (after - 1, (t_s - self.times_s[after - 1]).max(0.0))
    }

    /// What a volume of air holds.
    pub(crate) fn held(&self, t_s: f64) -> f64 {
        let (i, since) = self.at(t_s);
        held_after(self.held[i], self.rate[i], self.lambda, since)
    }

    /// What is being set free, per volume and second.
    pub(crate) fn rate(&self, t_s: f64) -> f64 {
        self.rate[self.at(t_s).0]
    }

    fn dose(&self, t_s: f64) -> f64 {
        let (i, since) = self.at(t_s);
        self.dose[i] + dose_over(self.held[i], self.rate[i], self.lambda, since)
    }

    fn released(&self, t_s: f64) -> f64 {
        let (i, since) = self.at(t_s);
        self.released[i] + self.rate[i] * since
    }

    /// The highest value and when.
    pub(crate) fn peak(&self) -> (f64, f64) {
        let points = self.times_s.iter().zip(&self.held);
        points.fold((0.0, 0.0), |best, (t, held)| if *held > best.1 { (*t, *held) } else { best })
    }

    /// Mean over a window of fixed length, of which only the part before `leaves_s` counts; `beside_s` is the time by
    /// which what is being released adds to it close to where it is released (seconds per second).
    pub(crate) fn mean(&self, from_s: f64, lasts_s: f64, leaves_s: f64, beside_s: f64) -> f64 {
        let until = (from_s + lasts_s).min(leaves_s);
        let beside = beside_s * (self.released(until) - self.released_before(from_s));
        (self.dose(until) - self.dose(from_s) + beside) / lasts_s
    }

    /// What is set free at once at this time not counted.
    fn released_before(&self, t_s: f64) -> f64 {
        let (i, since) = self.at(t_s);
        if since > 0.0 || i == 0 {
            return if since > 0.0 { self.released(t_s) } else { 0.0 };
        }
        self.released[i - 1] + self.rate[i - 1] * (self.times_s[i] - self.times_s[i - 1])
    }

    /// The window of this length with the highest mean; see [`Self::mean`].
    ///
    /// Between two changes of the release at either end the mean has one turning point at most: its slope is a constant plus
    /// a multiple of `e^(−λt)`.
    pub(crate) fn highest_mean(&self, lasts_s: f64, leaves_s: f64, beside_s: f64) -> Window {
        let end = self.times_s.last().copied().unwrap_or(0.0);
        // After the last release it only falls.
        let last_start = (leaves_s - lasts_s).clamp(0.0, end);
        let mut starts: Vec<f64> = self
            .times_s
            .iter()
            .flat_map(|t| [*t, *t - lasts_s])
            .chain([0.0, last_start])
            .filter(|s| (0.0..=last_start).contains(s))
            .collect();
        starts.sort_by(f64::total_cmp);
        starts.dedup();
        let mean = |s: f64| self.mean(s, lasts_s, leaves_s, beside_s);
        let mut best = Window { from_s: 0.0, until_s: lasts_s.min(leaves_s), mean: mean(0.0) };
        let mut take = |s: f64| {
            let m = mean(s);
            if m > best.mean {
                best = Window { from_s: s, until_s: (s + lasts_s).min(leaves_s), mean: m };
            }
        };
        for pair in starts.windows(2) {
            let &[mut low, mut high] = pair else { continue };
            take(low);
            take(high);
            let slope = |s: f64| {
                let beside = beside_s * (self.rate(s + lasts_s) - self.rate(s));
                self.held(s + lasts_s) - self.held(s) + beside
            };
            // A top between the ends needs a rise at the first and a fall just before the last.
            if slope(low) <= 0.0 || slope(high - EDGE * (high - low)) >= 0.0 {
                continue;
            }
            for _ in 0..BISECTIONS {
                let middle = 0.5 * (low + high);
                if middle <= low || middle >= high {
                    break;
                }
                if slope(middle) > 0.0 { low = middle } else { high = middle }
            }
            take(0.5 * (low + high));
        }
        best
    }
}

/// `C e^(−λt) + g (1 − e^(−λt))/λ`.
fn held_after(held: f64, rate: f64, lambda: f64, span: f64) -> f64 {
    let x = lambda * span;
    held * (-x).exp() + rate * span * super::vapour::rising(x)
}

/// The integral of it.
fn dose_over(held: f64, rate: f64, lambda: f64, span: f64) -> f64 {
    let x = lambda * span;
    held * span * super::vapour::rising(x) + rate * span * span * super::vapour::risen(x)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::air::{Release, Room, RoomVapour};
    use crate::quantity::{Mass, MolarMass, Quantity, Ratio, RelativeHumidity, Time, parse};
    use proptest::prelude::*;

    fn piece(from: f64, lasts: f64, amount: f64) -> Piece {
        Piece { from_s: from, until_s: from + lasts, amount }
    }

    /// A sliding mean tried at every second.
    fn tried(all: &BuildUp, lasts: f64, leaves: f64, beside: f64) -> f64 {
        let last = (leaves - lasts).max(0.0);
        let starts = (0..4000).map(f64::from).filter(|s| *s < last).chain([last]);
        starts.map(|s| all.mean(s, lasts, leaves, beside)).fold(0.0, f64::max)
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(48))]

        #[test]
        fn agrees_with_the_room_of_one_vapour(
            pieces in proptest::collection::vec((0.0_f64..3000.0, 0.0_f64..2000.0, 0.0_f64..20.0), 1..6),
            per_hour in 0.0_f64..20.0, mixing in 0.05_f64..1.0, at in 0.0_f64..9000.0,
        ) {
            let room = Room::new(parse("21 °C").unwrap(), RelativeHumidity::new(0.5).unwrap()).unwrap()
                .with_volume(parse("30 m3").unwrap()).unwrap()
                .with_air_changes(crate::quantity::of(per_hour, "/h").unwrap()).unwrap();
            let mut vapour = RoomVapour::new(&room, parse::<MolarMass>("92 g/mol").unwrap()).unwrap()
                .with_mixing(Ratio::from_si(mixing)).unwrap();
            let mut ours = Vec::new();
            for &(from, lasts, grams) in &pieces {
                let release = Release::new(Mass::from_si(1e-3 * grams), Time::from_si(from), Time::from_si(lasts));
                vapour = vapour.with_release(release.unwrap());
                ours.push(piece(from, lasts, 1e-3 * grams / 30.0));
            }
            let all = BuildUp::new(&ours, mixing * room.air_changes().unwrap().si());
            let c = vapour.concentration(Time::from_si(at)).unwrap().best().si();
            prop_assert!((all.held(at) - c).abs() <= 1e-9 * c + 1e-15);
            let peak = vapour.peak().unwrap().best().si();
            prop_assert!((all.peak().1 - peak).abs() <= 1e-9 * peak + 1e-15);
            let mean = vapour.average(Time::from_si(at), Time::from_si(at + 900.0)).unwrap().best().si();
            prop_assert!((all.mean(at, 900.0, 1e9, 0.0) - mean).abs() <= 1e-8 * mean + 1e-15);
        }

        #[test]
        fn no_other_window_is_higher(
            pieces in proptest::collection::vec((0.0_f64..2000.0, 0.0_f64..900.0, 0.0_f64..5.0), 1..5),
            lambda in 0.0_f64..5e-3, beside in 0.0_f64..300.0, leaves in 300.0_f64..4000.0,
        ) {
            let ours: Vec<Piece> = pieces.iter().map(|&(f, l, a)| piece(f, l, a)).collect();
            let all = BuildUp::new(&ours, lambda);
            let found = all.highest_mean(600.0, leaves, beside);
            let tried = tried(&all, 600.0, leaves, beside);
            prop_assert!(found.mean >= tried * (1.0 - 1e-9), "{} < {tried}", found.mean);
            prop_assert!(found.mean <= tried * (1.0 + 0.02) + 1e-12, "{} > {tried}", found.mean);
            prop_assert!(found.until_s <= leaves && found.from_s >= 0.0);
        }
    }

    #[test]
    fn a_spill_counts_from_its_moment_on() {
        let all = BuildUp::new(&[piece(60.0, 0.0, 2.0)], 0.0);
        approx::assert_relative_eq!(all.held(60.0), 2.0);
        assert!(all.held(59.9) < 1e-12);
        approx::assert_relative_eq!(all.mean(60.0, 100.0, 1e9, 10.0), 2.0 + 0.2, max_relative = 1e-12);
        approx::assert_relative_eq!(all.mean(0.0, 60.0, 1e9, 10.0), 2.0 * 10.0 / 60.0, max_relative = 1e-12);
        approx::assert_relative_eq!(all.mean(61.0, 100.0, 1e9, 10.0), 2.0, max_relative = 1e-12);
        // Who leaves after 100 s of a window of 200 s.
        approx::assert_relative_eq!(
            all.mean(0.0, 200.0, 100.0, 0.0),
            2.0 * 40.0 / 200.0,
            max_relative = 1e-12
        );
    }
}
