//! Who does what when: each gun and each person does one thing at a time, parts dry side by side.
//!
//! Everybody sprays the layers in the order of the stack. Within a layer those who share a gun take turns coat by coat,
//! so that one part flashes off while the next is sprayed. A mix is finished when spraying begins. The gun is rinsed as
//! soon as the layer is laid, while it dries. Tape goes on as soon as it may.

use super::steps::{Made, Step, What};
use crate::quantity::Quantity;

/// Seconds of one layer.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Load {
    /// Handwork: masking before it, none when nothing is masked.
    pub(super) mask: Option<f64>,
    pub(super) mix: f64,
    /// Each coat.
    pub(super) coats: Vec<f64>,
    pub(super) flash_off: f64,
    /// From the last coat to tape, and to the next layer (or to touch dry).
    pub(super) until_mask: f64,
    pub(super) until_next: f64,
    /// Rinse of the gun after it, the clean-up after the last.
    pub(super) rinse: f64,
    pub(super) hand_over: f64,
}

/// Lays out a session; steps in order of time.
pub(super) fn schedule(loads: &[Load], people: usize, guns: usize) -> Vec<Step> {
    let mut at = Clock {
        hands: vec![0.0; people],
        part: vec![0.0; people],
        tape: vec![0.0; people],
        gun: vec![0.0; guns],
        steps: Vec::new(),
    };
    for (layer, load) in loads.iter().enumerate() {
        for person in 0..people {
            at.mask(layer, load, person);
        }
        for gun in 0..guns {
            let users: Vec<usize> = (gun..people).step_by(guns).collect();
            at.spray(layer, load, gun, &users);
            at.rinse(layer, load, gun, &users, layer + 1 == loads.len());
        }
        let next_is_masked = loads.get(layer + 1).is_some_and(|next| next.mask.is_some());
        for person in 0..people {
            at.wait(layer, load, person, next_is_masked, layer + 1 == loads.len());
        }
    }
    let mut steps = at.steps;
    steps.sort_by(|a, b| {
        let order = a.start.si().total_cmp(&b.start.si());
        order.then(a.layer.cmp(&b.layer)).then(a.what.cmp(&b.what)).then(a.person.cmp(&b.person))
    });
    steps
}

/// When each is free, s.
struct Clock {
    hands: Vec<f64>,
    /// The part may be sprayed, and taped.
    part: Vec<f64>,
    tape: Vec<f64>,
    gun: Vec<f64>,
    steps: Vec<Step>,
}

impl Clock {
    fn push(&mut self, made: Made) {
        if made.lasts_s > 0.0 {
            self.steps.push(made.into());
        }
    }

    fn mask(&mut self, layer: usize, load: &Load, person: usize) {
        let Some(lasts_s) = load.mask else { return };
        let start_s = self.hands[person].max(self.tape[person]);
        self.push(Made { what: What::Mask, layer, coat: None, person, gun: None, start_s, lasts_s });
        self.hands[person] = start_s + lasts_s;
        self.part[person] = self.part[person].max(self.hands[person]);
    }

    fn spray(&mut self, layer: usize, load: &Load, gun: usize, users: &[usize]) {
        let last = load.coats.len().saturating_sub(1);
        let mut coat_number = 0;
        for (index, &lasts_s) in load.coats.iter().enumerate() {
            coat_number += 1;
            let coat = Some(coat_number);
            for (turn, &person) in users.iter().enumerate() {
                let mut start_s = self.part[person].max(self.gun[gun]).max(self.hands[person]);
                if index == 0 {
                    start_s = start_s.max(self.hands[person] + load.mix);
                    let (from_s, mix_s) = (start_s - load.mix, load.mix);
                    self.push(Made {
                        what: What::Mix,
                        layer,
                        coat: None,
                        person,
                        gun: None,
                        start_s: from_s,
                        lasts_s: mix_s,
                    });
                }
                let end_s = start_s + lasts_s;
                let gun_of = Some(gun);
                self.push(Made { what: What::Spray, layer, coat, person, gun: gun_of, start_s, lasts_s });
                (self.hands[person], self.gun[gun], self.part[person]) = (end_s, end_s, end_s);
                if index < last {
                    let (start_s, lasts_s) = (end_s, load.flash_off);
                    self.push(Made {
                        what: What::FlashOff,
                        layer,
                        coat,
                        person,
                        gun: None,
                        start_s,
                        lasts_s,
                    });
                    self.part[person] = end_s + load.flash_off;
                }
                let goes_on = users.len() > 1 && !(index == last && turn + 1 == users.len());
                if goes_on {
                    let (start_s, lasts_s) = (end_s, load.hand_over);
                    let what = What::HandOver;
                    self.push(Made { what, layer, coat, person, gun: gun_of, start_s, lasts_s });
                    self.gun[gun] += load.hand_over;
                    self.hands[person] += load.hand_over;
                }
            }
        }
    }

    /// Whoever sprayed last rinses.
    fn rinse(&mut self, layer: usize, load: &Load, gun: usize, users: &[usize], is_last: bool) {
        let Some(&person) = users.last() else { return };
        let start_s = self.gun[gun].max(self.hands[person]);
        let what = if is_last { What::CleanUp } else { What::Rinse };
        let lasts_s = load.rinse;
        self.push(Made { what, layer, coat: None, person, gun: Some(gun), start_s, lasts_s });
        (self.gun[gun], self.hands[person]) = (start_s + lasts_s, start_s + lasts_s);
    }

    fn wait(&mut self, layer: usize, load: &Load, person: usize, masked: bool, is_last: bool) {
        let end_s = self.part[person];
        let what = if is_last { What::Dry } else { What::Wait };
        // Tape may go on before the next layer may: the rest of the wait then passes under it.
        let lasts_s = if masked { load.until_mask } else { load.until_next };
        self.push(Made { what, layer, coat: None, person, gun: None, start_s: end_s, lasts_s });
        self.tape[person] = end_s + load.until_mask;
        self.part[person] = end_s + load.until_next;
    }
}

/// End of the last step, s.
pub(super) fn end_s(steps: &[Step]) -> f64 {
    steps.iter().map(|s| s.end().si()).fold(0.0, f64::max)
}

#[cfg(test)]
pub(super) mod tests {
    use super::*;
    use proptest::prelude::*;

    pub(crate) fn load() -> impl Strategy<Value = Load> {
        let times = prop::collection::vec(1.0..300.0_f64, 1..6);
        (prop::option::of(10.0..2000.0_f64), 1.0..500.0_f64, times, 1.0..900.0_f64, 0.0..9000.0_f64)
            .prop_flat_map(|(mask, mix, coats, flash_off, until_next)| {
                (Just((mask, mix, coats, flash_off, until_next)), 0.0..9000.0_f64, 0.0..300.0_f64)
            })
            .prop_map(|((mask, mix, coats, flash_off, until_next), until_mask, rinse)| Load {
                mask,
                mix,
                coats,
                flash_off,
                until_mask,
                until_next,
                rinse,
                hand_over: 0.3 * rinse,
            })
    }

    /// All handwork at another pace, spraying at another, and waits at a third.
    pub(crate) fn scaled(load: &Load, [hands, spraying, drying]: [f64; 3]) -> Load {
        Load {
            mask: load.mask.map(|m| m * hands),
            mix: load.mix * hands,
            coats: load.coats.iter().map(|c| c * spraying).collect(),
            flash_off: load.flash_off * drying,
            until_mask: load.until_mask * drying,
            until_next: load.until_next * drying,
            rinse: load.rinse * hands,
            hand_over: load.hand_over * hands,
        }
    }

    /// No two of these at the same time, but for rounding.
    fn apart(mut steps: Vec<&Step>) -> bool {
        steps.sort_by(|a, b| a.start.si().total_cmp(&b.start.si()));
        steps.windows(2).all(|w| w[0].end().si() <= w[1].start.si() + 1e-6)
    }

    proptest! {
        #[test]
        fn one_thing_at_a_time(loads in prop::collection::vec(load(), 1..5), people in 1..7_usize, share in 0..7_usize) {
            let guns = 1 + share % people;
            let steps = schedule(&loads, people, guns);
            prop_assert!(steps.windows(2).all(|w| w[0].start <= w[1].start));
            prop_assert!(steps.iter().all(|s| s.start.si() >= 0.0 && s.lasts.si() > 0.0));
            for gun in 1..=u32::try_from(guns).unwrap() {
                prop_assert!(apart(steps.iter().filter(|s| s.gun == Some(gun)).collect()));
            }
            for person in 1..=u32::try_from(people).unwrap() {
                let own: Vec<&Step> = steps.iter().filter(|s| s.person == person).collect();
                prop_assert!(apart(own.iter().copied().filter(|s| s.what.is_work()).collect()));
                let part = |s: &&Step| matches!(s.what, What::Spray | What::FlashOff | What::Mask);
                prop_assert!(apart(own.iter().copied().filter(part).collect()));
                for (i, load) in loads.iter().enumerate() {
                    let sprayed: Vec<&&Step> =
                        own.iter().filter(|s| s.layer == i && s.what == What::Spray).collect();
                    prop_assert_eq!(sprayed.len(), load.coats.len());
                    // Between coats, before the next layer and before tape at least the wait.
                    for two in sprayed.windows(2) {
                        prop_assert!(two[1].start.si() + 1e-6 >= two[0].end().si() + load.flash_off);
                    }
                    let end = sprayed.last().unwrap().end().si();
                    let next = own.iter().find(|s| s.layer == i + 1 && s.what == What::Spray);
                    prop_assert!(next.is_none_or(|s| s.start.si() + 1e-6 >= end + load.until_next));
                    let tape = own.iter().find(|s| s.layer == i + 1 && s.what == What::Mask);
                    prop_assert!(tape.is_none_or(|s| s.start.si() + 1e-6 >= end + load.until_mask));
                    let mixed = own.iter().find(|s| s.layer == i && s.what == What::Mix).unwrap();
                    prop_assert!((mixed.end().si() - sprayed[0].start.si()).abs() < 1e-6);
                }
            }
            // Not below the way of one part, nor below the work of the busiest gun.
            let part: f64 = loads.iter().map(|l| {
                l.coats.iter().sum::<f64>() + l.flash_off * (l.coats.len() - 1) as f64 + l.until_next
            }).sum();
            let turns = people.div_ceil(guns) as f64;
            let gun: f64 = loads.iter().map(|l| turns * l.coats.iter().sum::<f64>() + l.rinse).sum();
            prop_assert!(end_s(&steps) + 1e-6 >= part.max(gun) + loads[0].mix);
        }

        // More guns never take longer; a slower hand never takes less.
        #[test]
        fn guns_help(loads in prop::collection::vec(load(), 1..4), people in 1..6_usize) {
            let shared = end_s(&schedule(&loads, people, 1));
            let own = end_s(&schedule(&loads, people, people));
            prop_assert!(own <= shared + 1e-6);
            let alone = end_s(&schedule(&loads, 1, 1));
            prop_assert!((own - alone).abs() < 1e-6);
            let slower: Vec<Load> = loads.iter().map(|l| scaled(l, [1.3, 1.1, 1.0])).collect();
            prop_assert!(end_s(&schedule(&slower, people, 1)) + 1e-6 >= shared);
        }
    }
}
