//! Do these coats go on top of each other in this order; and if not, which order does?
//!
//! Each coat is judged over the one below it ([`super::coat_over_coat`]). Where the given order does not work, all
//! orders that keep primers at the bottom and finishing coats at the top are tried, and the one with the mildest
//! verdicts is proposed, among equals the one nearest to what was asked.
//!
//! Neglected: what lies deeper than the next coat. Solvent in a heavy coat reaches two coats down.

use super::coats::{coat_over_coat, coat_rules};
use super::judgement::{Judgement, Verdict};
use crate::error::{Result, out_of_range};
use crate::paint::Family;
use crate::quantity::{Quantity, Time, show};
use crate::table::{Cell, Column, Table};
use serde::{Deserialize, Serialize};

/// Most coats of a stack: all orders of the middle are tried.
const MOST: usize = 8;

/// Where in the stack a coat belongs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Place {
    /// On the bare part.
    Primer,
    /// Colour, clear between colours, wash: anywhere between.
    Between,
    /// Last: varnish or final clear.
    Finish,
}

/// One coat of a stack.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Layer {
    /// What it is, for example "hull green".
    pub name: String,
    /// Its family.
    pub family: Family,
    /// Where it belongs.
    pub place: Place,
    /// How long it waits before the next coat; None: as long as it needs.
    #[serde(default, with = "crate::quantity::as_text::option", skip_serializing_if = "Option::is_none")]
    pub wait: Option<Time>,
}

impl Layer {
    /// A coat between primer and finish that waits as long as it needs.
    pub fn new(name: &str, family: Family) -> Self {
        Self { name: name.to_owned(), family, place: Place::Between, wait: None }
    }

    /// The same coat at this place.
    #[must_use]
    pub fn at(mut self, place: Place) -> Self {
        self.place = place;
        self
    }

    /// The same coat with this wait before the next one.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a negative wait or one over a year.
    pub fn waiting(mut self, wait: Time) -> Result<Self> {
        if !(0.0..=365.0 * 86_400.0).contains(&wait.si()) {
            return Err(out_of_range(
                "wait before the next coat",
                show(wait),
                "0 s to 365 d",
                "count from the end of this coat; leave it out for as long as it needs",
            ));
        }
        self.wait = Some(wait);
        Ok(self)
    }
}

/// A stack with its verdicts, from the part upwards.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StackCheck {
    /// The coats as asked.
    pub layers: Vec<Layer>,
    /// Each coat over the one below: one less than coats.
    pub pairs: Vec<Judgement>,
    /// The sternest verdict.
    pub verdict: Verdict,
    /// A milder order of the same coats, bottom first; None when the given one is the mildest there is.
    pub better_order: Option<Vec<Layer>>,
    /// What would help when no order is free of a "no".
    pub advice: Option<String>,
}

/// Judges a stack, from the part upwards.
///
/// # Errors
/// A [`crate::error::RangeError`] for less than two or more than eight coats.
///
/// ```
/// use mistcoat::layers::{Layer, Place, Verdict, check_stack};
/// use mistcoat::paint::Family;
/// let check = check_stack(&[
///     Layer::new("red oxide primer", Family::AlkydEnamel).at(Place::Primer),
///     Layer::new("hull green", Family::SolventLacquer),
/// ])?;
/// assert_eq!(check.verdict, Verdict::No); // the lacquer lifts the enamel
/// assert!(check.advice.is_some());
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn check_stack(layers: &[Layer]) -> Result<StackCheck> {
    if !(2..=MOST).contains(&layers.len()) {
        return Err(out_of_range(
            "number of coats",
            layers.len().to_string(),
            format!("2 to {MOST}"),
            "name the coats from the part upwards; several coats of one paint count as one",
        ));
    }
    let pairs = judge(layers)?;
    let verdict = sternest(&pairs);
    let better = if verdict == Verdict::Fine && in_place(layers) { None } else { mildest_order(layers)? };
    let best = better.as_ref().map_or(verdict, |(v, _)| *v);
    let patient: Vec<Layer> = layers.iter().map(|l| Layer { wait: None, ..l.clone() }).collect();
    let advice = if best != Verdict::No {
        None
    } else if sternest(&judge(&patient)?) < Verdict::No {
        Some("the order is right, the waits are too short: give each coat the time named".to_owned())
    } else {
        Some(
            "no order of these coats is free of a no: put a coat of a family between that goes with both (a \
             waterborne clear keeps most solvents apart), or change one paint"
                .to_owned(),
        )
    };
    Ok(StackCheck {
        layers: layers.to_vec(),
        pairs,
        verdict,
        better_order: better.map(|(_, order)| order),
        advice,
    })
}

fn judge(layers: &[Layer]) -> Result<Vec<Judgement>> {
    layers
        .windows(2)
        .map(|pair| {
            let mut judged = coat_over_coat(pair[1].family, pair[0].family, pair[0].wait)?;
            judged.question = format!("{} over {} ({})", pair[1].name, pair[0].name, judged.question);
            Ok(judged)
        })
        .collect()
}

fn sternest(pairs: &[Judgement]) -> Verdict {
    pairs.iter().map(|p| p.verdict).max().unwrap_or(Verdict::Fine)
}

fn in_place(layers: &[Layer]) -> bool {
    layers.windows(2).all(|pair| pair[0].place <= pair[1].place)
}

/// How bad an order is: number of noes, of tests, then of pairs that changed places.
type Badness = (usize, usize, usize);

/// The mildest other order, when it is milder than the given one or puts coats where they belong.
fn mildest_order(layers: &[Layer]) -> Result<Option<(Verdict, Vec<Layer>)>> {
    let mut best: Option<(Badness, Vec<usize>)> = None;
    let mut order: Vec<usize> = (0..layers.len()).collect();
    let mut given = None;
    let n = layers.len();
    permute(&mut order, n, &mut |order| {
        let placed: Vec<&Layer> = order.iter().map(|&i| &layers[i]).collect();
        let identity = order.windows(2).all(|p| p[0] < p[1]);
        if !placed.windows(2).all(|pair| pair[0].place <= pair[1].place) {
            return Ok(());
        }
        let badness = badness(&placed, order)?;
        if identity {
            given = Some(badness);
        }
        if best.as_ref().is_none_or(|(least, _)| badness < *least) {
            best = Some((badness, order.to_vec()));
        }
        Ok(())
    })?;
    let Some((least, order)) = best else { return Ok(None) };
    if given.is_some_and(|given| least >= given) {
        return Ok(None);
    }
    let verdict = match least {
        (0, 0, _) => Verdict::Fine,
        (0, ..) => Verdict::TestFirst,
        _ => Verdict::No,
    };
    Ok(Some((verdict, order.into_iter().map(|i| layers[i].clone()).collect())))
}

/// In another order the waits asked for say nothing, so each coat has as long as it needs.
fn badness(placed: &[&Layer], order: &[usize]) -> Result<Badness> {
    let (mut noes, mut tests) = (0, 0);
    for pair in placed.windows(2) {
        let rule = coat_rules()?.iter().find(|r| r.over == pair[1].family && r.under == pair[0].family);
        match rule.map(|r| r.verdict) {
            Some(Verdict::No) => noes += 1,
            Some(Verdict::TestFirst) => tests += 1,
            _ => {}
        }
    }
    let swapped = (0..order.len()).flat_map(|i| (i + 1..order.len()).map(move |j| (i, j)));
    Ok((noes, tests, swapped.filter(|&(i, j)| order[i] > order[j]).count()))
}

/// Heap's algorithm.
fn permute(order: &mut Vec<usize>, k: usize, visit: &mut impl FnMut(&[usize]) -> Result<()>) -> Result<()> {
    if k <= 1 {
        return visit(order);
    }
    for i in 0..k {
        permute(order, k - 1, visit)?;
        if i + 1 < k {
            let other = if k.is_multiple_of(2) { i } else { 0 };
            order.swap(other, k - 1);
        }
    }
    Ok(())
}

impl StackCheck {
    /// The stack, bottom first, with what each coat does on the one below.
    pub fn table(&self) -> Table {
        let words = |text: &dyn Fn(usize, &Layer) -> String| {
            self.layers.iter().enumerate().map(|(i, l)| Cell::words(text(i, l))).collect()
        };
        let column = |key: &str, title: &str, cells| Column {
            key: key.to_owned(),
            title: title.to_owned(),
            unit: String::new(),
            cells,
        };
        let pair = |i: usize| i.checked_sub(1).and_then(|i| self.pairs.get(i));
        let mut notes = Vec::new();
        if let Some(order) = &self.better_order {
            let names: Vec<&str> = order.iter().map(|l| l.name.as_str()).collect();
            notes.push(format!("A milder order, from the part upwards: {}.", names.join(", then ")));
        }
        notes.extend(self.advice.clone());
        if let Some(first) = self.pairs.first() {
            notes.push(format!("Trial: {}", first.trial));
            notes.push(format!(
                "Source: {}.",
                crate::source::cite(first.reasons.first().map_or("", |r| &r.source))
            ));
            notes.extend(first.cautions.iter().cloned());
        }
        Table {
            caption: format!("Coats from the part upwards: {}", self.verdict),
            columns: vec![
                column("coat", "coat", words(&|_, l| l.name.clone())),
                column("family", "family", words(&|_, l| l.family.name().to_owned())),
                column(
                    "verdict",
                    "on the one below",
                    words(&|i, _| pair(i).map_or("-".into(), |p| p.verdict.words().into())),
                ),
                column(
                    "reason",
                    "because",
                    words(&|i, _| {
                        pair(i).map_or("on the part itself".into(), |p| {
                            let texts: Vec<&str> = p.reasons.iter().map(|r| r.text.as_str()).collect();
                            texts.join("; ")
                        })
                    }),
                ),
            ],
            notes,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::parse;
    use proptest::prelude::*;

    fn boat() -> Vec<Layer> {
        vec![
            Layer::new("red oxide", Family::SolventLacquer).at(Place::Primer),
            Layer::new("hull green", Family::WaterborneAcrylic),
            Layer::new("oil wash", Family::ArtistsOil),
            Layer::new("clear", Family::WaterborneAcrylic),
        ]
    }

    #[test]
    fn finds_the_order_that_works() {
        let check = check_stack(&boat()).unwrap();
        assert_eq!(check.verdict, Verdict::No);
        let names: Vec<String> = check.better_order.unwrap().into_iter().map(|l| l.name).collect();
        assert_eq!(names, ["red oxide", "hull green", "clear", "oil wash"]);
        assert!(check.advice.is_none());
        // A finish that must be last leaves no way out.
        let mut varnished = boat();
        varnished[3] = varnished[3].clone().at(Place::Finish);
        let check = check_stack(&varnished).unwrap();
        assert!(check.better_order.is_none() && check.advice.is_some());
    }

    #[test]
    fn waits_count() {
        let soon = Layer::new("a", Family::SolventLacquer).waiting(parse("5 min").unwrap()).unwrap();
        let check = check_stack(&[soon, Layer::new("b", Family::SolventLacquer)]).unwrap();
        assert_eq!(check.verdict, Verdict::No);
        assert!(check.advice.unwrap().contains("too short"));
        assert!(check.pairs[0].to_string().contains("5 min"));
        let text = check_stack(&boat()[..1]).unwrap_err().to_string();
        assert!(text.contains("2 to 8"), "{text}");
        assert!(Layer::new("a", Family::ArtistsOil).waiting(parse("-1 s").unwrap()).is_err());
    }

    #[test]
    fn table_tells_all() {
        let text = check_stack(&boat()).unwrap().table().to_text();
        let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
        for part in ["fat over lean", "red oxide", "milder order", "Trial", "common practice", "safety data"]
        {
            assert!(text.contains(part), "no {part:?} in {text}");
        }
    }

    proptest! {
        // The proposed order is a permutation with primers first and no worse than the given one.
        #[test]
        fn proposals_hold_what_they_claim(kinds in proptest::collection::vec((0..5_usize, 0..3_usize), 2..6)) {
            let layers: Vec<Layer> = kinds.iter().enumerate().map(|(i, (family, place))| {
                let place = [Place::Primer, Place::Between, Place::Finish][*place];
                Layer::new(&i.to_string(), Family::ALL[*family]).at(place)
            }).collect();
            let check = check_stack(&layers).unwrap();
            if let Some(order) = check.better_order {
                let mut names: Vec<&str> = order.iter().map(|l| l.name.as_str()).collect();
                names.sort_unstable();
                prop_assert_eq!(names.len(), layers.len());
                prop_assert!(names.windows(2).all(|w| w[0] != w[1]));
                prop_assert!(in_place(&order));
                let again = check_stack(&order).unwrap();
                prop_assert!(again.better_order.is_none());
                prop_assert!(!in_place(&layers) || again.verdict <= check.verdict);
            }
        }
    }
}
