//! What to bring: paint, thinner and cleaner, for each person and for all, and what it costs.

use super::planned::PlannedLayer;
use super::session::Session;
use super::wash::GunWash;
use crate::error::Result;
use crate::estimate::Estimate;
use crate::names::fold;
use crate::quantity::{Quantity, Volume, as_text};
use serde::{Deserialize, Serialize};

/// Kinds of material.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum MaterialKind {
    /// Stock paint.
    Paint,
    /// What thins it.
    Thinner,
    /// What cleans the gun.
    Cleaner,
}

impl MaterialKind {
    /// The word shown to a reader.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Paint => "paint",
            Self::Thinner => "thinner",
            Self::Cleaner => "cleaner",
        }
    }
}

impl core::fmt::Display for MaterialKind {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(self.word())
    }
}

/// One material.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Material {
    /// What it is for.
    pub kind: MaterialKind,
    /// Name of the paint, or name or recipe of the liquid.
    pub name: String,
    /// For one person; of the cleaner for one gun. With margin.
    #[serde(with = "as_text")]
    pub each: Volume,
    /// For all.
    #[serde(with = "as_text")]
    pub total: Volume,
    /// What all will use, without margin, with its interval: the high end is the bottle that surely lasts.
    pub used: Estimate<Volume>,
    /// What the total costs, where a price was given.
    pub cost: Option<f64>,
}

/// Everything, in the order in which it is needed.
pub(super) fn of(session: &Session, layers: &[PlannedLayer], washes: &[GunWash]) -> Result<Vec<Material>> {
    let mut out: Vec<Material> = Vec::new();
    let (people, guns) = (f64::from(session.people), f64::from(session.guns));
    for (layer, planned) in session.layers.iter().zip(layers) {
        let mix = &planned.mix;
        // What stays in the gun is used up too.
        let part = |share: f64| {
            let of = |v: Volume, rest: Volume| (v + rest) * (share * people);
            let (s, r) = (&mix.sprayed, &mix.remainder);
            Estimate {
                best: of(s.best, r.best),
                low: of(s.low, r.low),
                high: of(s.high, r.high),
                coverage: s.coverage,
                contributors: s.contributors.clone(),
            }
        };
        let ratio = planned.thinner_per_paint;
        let (paint, thinner) = (1.0 / (1.0 + ratio), ratio / (1.0 + ratio));
        add(&mut out, MaterialKind::Paint, layer.paint().name(), mix.paint, people, part(paint));
        if thinner > 0.0 {
            let name = layer.setup.slowed_thinner()?.label();
            add(&mut out, MaterialKind::Thinner, &name, mix.thinner, people, part(thinner));
        }
    }
    for wash in washes {
        let with_margin = wash.split.total * (1.0 + session.margin.si());
        let c = &wash.cleaner;
        let used = Estimate { best: c.best * guns, low: c.low * guns, high: c.high * guns, ..c.clone() };
        add(&mut out, MaterialKind::Cleaner, &wash.with, with_margin, guns, used);
    }
    out.sort_by_key(|m| m.kind);
    for material in &mut out {
        let price = session.prices.iter().find(|p| fold(&p.name) == fold(&material.name));
        material.cost = price.map(|p| p.costs * (material.total.si() / p.per.si()));
    }
    Ok(out)
}

/// Amounts of one material share their causes (one hand, one gun), so that their intervals add straight.
fn add(
    out: &mut Vec<Material>,
    kind: MaterialKind,
    name: &str,
    each: Volume,
    count: f64,
    used: Estimate<Volume>,
) {
    if let Some(known) = out.iter_mut().find(|m| m.kind == kind && m.name == name) {
        known.each += each;
        known.total += each * count;
        known.used.best += used.best;
        known.used.low += used.low;
        known.used.high += used.high;
        return;
    }
    out.push(Material { kind, name: name.to_owned(), each, total: each * count, used, cost: None });
}
