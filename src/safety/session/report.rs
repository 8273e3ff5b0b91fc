//! What a session comes to: sums over the limits, their course, the ventilation that would do, and what to mind.

use super::SessionAir;
use super::over_time::{Air, MOST_AIR_CHANGES_S, NEAR_M, SHORT_S, Vapour, check_room_for};
use super::source::VapourSource;
use crate::air::Room;
use crate::air::build_up::{BuildUp, Piece};
use crate::error::Result;
use crate::estimate::{Estimate, ModelError};
use crate::quantity::{
    Frequency, Mass, Number, Quantity, Ratio, Time, VolumeRate, as_text, digits, show, show_in,
};
use crate::safety::cautions::{all_cautions, is_glycol_ether};
use crate::safety::exposure::{
    Authority, ExposureTerm, MixtureExposure, SHIFT_S, mixture_exposure, short_term_exposure,
};
use crate::safety::fire::TENTH;
use crate::solvent::{Concentration, LimitKind, Solvent};
use crate::source;
use crate::warning::Warning;
use serde::{Deserialize, Serialize};

/// Points of the time course besides those where something begins or ends.
const POINTS: u32 = 120;
/// A moment before a change, s.
const JUST_BEFORE_S: f64 = 0.01;
/// The course is shown for a shift, or so long after the last work, s.
const AFTERWARDS_S: f64 = 3600.0;

/// One vapour over the session.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SessionVapour {
    /// The liquid as it was poured.
    pub solvent: String,
    /// Given off by all sources.
    #[serde(with = "as_text")]
    pub released: Mass,
    /// Never given off: still in films and cups, or poured away.
    #[serde(with = "as_text")]
    pub kept: Mass,
    /// Highest share of the room's air by volume.
    #[serde(with = "as_text")]
    pub peak: Ratio,
    /// Mean over the worst 8 h (of the sum of all vapours).
    #[serde(with = "as_text")]
    pub shift_mean: Ratio,
    /// Mean over the worst 15 minutes (of the sum of all vapours).
    #[serde(with = "as_text")]
    pub short_mean: Ratio,
}

/// Fresh air that would keep the room's mean below a share of the limits.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Ventilation {
    /// The share of the limits.
    #[serde(with = "as_text")]
    pub below: Ratio,
    /// Air changes; none when even 200 an hour are too few.
    pub air_changes: Option<Estimate<Frequency>>,
    /// The same as a flow of fresh air.
    pub flow: Option<Estimate<VolumeRate>>,
    /// In words, with what it leaves out.
    pub words: String,
}

/// The air of a session against the limits.
///
/// Sums count concentrations over limits; 1 is the limit. `shift` and `short` are means of the whole room with each vapour's
/// limit and its source; the estimates carry the interval of the room's mixing.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SessionExposure {
    /// The room.
    pub room: Room,
    /// Whose limits.
    pub authority: Authority,
    /// What gave off vapour.
    pub sources: Vec<VapourSource>,
    /// The vapours, the one that released most first.
    pub vapours: Vec<SessionVapour>,
    /// Worst 8 h, room's mean, against limits over 8 h.
    pub shift: MixtureExposure,
    /// Worst 15 minutes, room's mean, against short-term limits.
    pub short: MixtureExposure,
    /// Sum of `shift` with its interval.
    pub shift_sum: Estimate<Number>,
    /// Sum of `short` with its interval.
    pub short_sum: Estimate<Number>,
    /// The same close to the work.
    pub near_shift_sum: Estimate<Number>,
    /// The same close to the work.
    pub near_short_sum: Estimate<Number>,
    /// When the worst 15 minutes begin.
    #[serde(with = "as_text")]
    pub worst_from: Time,
    /// Fresh air that would do.
    pub ventilation: Ventilation,
    /// Most that the room's mean comes to of the lower flammable limit.
    #[serde(with = "as_text")]
    pub flammable_share: Ratio,
    /// What to mind; never empty.
    pub warnings: Vec<Warning>,
    /// Of the curves.
    pub(super) times_s: Vec<f64>,
    pub(super) shares: Vec<f64>,
    pub(super) near_shares: Vec<f64>,
    /// Of the room, as it was counted.
    pub(super) mixing: f64,
    pub(super) near_m3_s: f64,
    pub(super) glycol_ether: bool,
}

/// Those vapours that have this limit, each over it.
fn shares<'a>(air: &Air, vapours: &'a [Vapour], limit: impl Fn(&Solvent) -> Option<f64> + 'a) -> Vec<Piece> {
    air.over(vapours.iter().filter_map(move |v| Some((v, limit(&v.solvent)?))))
}

pub(super) fn exposure(session: &SessionAir) -> Result<SessionExposure> {
    let (air, authority) = (Air::new(session), session.authority);
    let mut vapours = Vapour::gather(session);
    vapours.sort_by(|a, b| b.released_kg().total_cmp(&a.released_kg()));
    check_room_for(&air, &vapours)?;
    let over_shift = shares(&air, &vapours, |s| Some(authority.limit(s, LimitKind::Shift)?.0.si()));
    let over_short = shares(&air, &vapours, |s| Some(authority.short_limit(s)?.0.si()));
    let burning = shares(&air, &vapours, |s| Some(s.lower_flammable_limit()?.value.si()));
    let course = BuildUp::new(&over_shift, air.lambda());
    let worst_shift = air.worst(&course, SHIFT_S, false);
    let worst_short = air.worst(&BuildUp::new(&over_short, air.lambda()), SHORT_S, false);
    let mut rows = Vec::with_capacity(vapours.len());
    let (mut in_shift, mut in_short) = (Vec::new(), Vec::new());
    for v in &vapours {
        let alone = BuildUp::new(&air.over(core::iter::once((v, 1.0))), air.lambda());
        let row = SessionVapour {
            solvent: v.solvent.name().to_owned(),
            released: Mass::from_si(v.released_kg()),
            kept: Mass::from_si(v.kept_kg),
            peak: Ratio::from_si(alone.peak().1),
            shift_mean: Ratio::from_si(air.mean(&alone, worst_shift.from_s, SHIFT_S)),
            short_mean: Ratio::from_si(air.mean(&alone, worst_short.from_s, SHORT_S)),
        };
        in_shift.push((v.solvent.clone(), Concentration::Volume(row.shift_mean)));
        in_short.push((v.solvent.clone(), Concentration::Volume(row.short_mean)));
        rows.push(row);
    }
    let (times_s, shares, near_shares) = curves(session, &air, &course);
    let mut all = SessionExposure {
        room: session.room.clone(),
        authority,
        sources: session.sources(),
        vapours: rows,
        shift: mixture_exposure(&in_shift, authority, LimitKind::Shift)?,
        short: short_term_exposure(&in_short, authority)?,
        shift_sum: air.sum(&over_shift, SHIFT_S, false)?,
        short_sum: air.sum(&over_short, SHORT_S, false)?,
        near_shift_sum: air.sum(&over_shift, SHIFT_S, true)?,
        near_short_sum: air.sum(&over_short, SHORT_S, true)?,
        worst_from: Time::from_si(worst_short.from_s),
        ventilation: ventilation(session, &air, [&over_shift, &over_short]),
        flammable_share: Ratio::from_si(BuildUp::new(&burning, air.lambda()).peak().1),
        warnings: Vec::new(),
        times_s,
        shares,
        near_shares,
        mixing: air.mixing,
        near_m3_s: air.near_m3_s,
        glycol_ether: vapours.iter().any(|v| is_glycol_ether(&v.solvent)),
    };
    all.warnings = warnings(&all, &vapours);
    Ok(all)
}

/// Times, the room's sum over limits of 8 h, and that near the work.
fn curves(session: &SessionAir, air: &Air, course: &BuildUp) -> (Vec<f64>, Vec<f64>, Vec<f64>) {
    let ends = session.emitters.iter().map(|e| (e.source.start + e.source.lasts).si());
    let horizon = ends.fold(0.0, f64::max) + AFTERWARDS_S;
    let horizon = horizon.max(SHIFT_S);
    let mut times: Vec<f64> = (0..=POINTS).map(|i| horizon * f64::from(i) / f64::from(POINTS)).collect();
    // At each change, and the moment before it: near the work the sum steps.
    let changes = course.times().iter().flat_map(|t| [*t, (*t - JUST_BEFORE_S).max(0.0)]);
    times.extend(changes.filter(|t| *t <= horizon));
    times.sort_by(f64::total_cmp);
    times.dedup();
    let held: Vec<f64> = times.iter().map(|t| course.held(*t)).collect();
    let near = times.iter().zip(&held).map(|(t, c)| c + air.beside_s() * course.rate(*t)).collect();
    (times, held, near)
}

fn ventilation(session: &SessionAir, air: &Air, [shift, short]: [&[Piece]; 2]) -> Ventilation {
    let below = session.below;
    let limits = format!(
        "{} of the limits ({}{})",
        show(Ratio::from_si(below)),
        session.authority.words(),
        if (below - super::ACTION_LEVEL).abs() < 1e-9 {
            "; half as the level from which one acts is from memory"
        } else {
            ""
        }
    );
    let face = "at the bench it is more: draw the air away from the face and outdoors";
    // The room renews its air by k Q/V; the mixing factor turns it into what the fan must move.
    let air_changes = air.least_lambda(shift, short, below).map(|lambda| lambda / air.mixing);
    let air_changes = air_changes.filter(|n| *n <= MOST_AIR_CHANGES_S);
    let Some(best) = air_changes else {
        let words = format!(
            "Not even 200 air changes per hour keep the room's mean below {limits}: use less solvent, work in a booth with \
             its own extraction, or out of doors"
        );
        return Ventilation { below: Ratio::from_si(below), air_changes: None, flow: None, words };
    };
    if best <= 0.0 {
        let words = format!(
            "The room's mean stays below {limits} by the room's size alone; that says nothing of the bench: {face}"
        );
        let (none, still) = (Frequency::from_si(0.0), VolumeRate::from_si(0.0));
        return Ventilation {
            below: Ratio::from_si(below),
            air_changes: Some(Estimate::exact(none)),
            flow: Some(Estimate::exact(still)),
            words,
        };
    }
    let spread = [ModelError::new("mixing of the room's air", air.mixing_std())];
    let air_changes: Estimate<Frequency> = Estimate::relative(Frequency::from_si(best), &spread);
    let flow: Estimate<VolumeRate> = Estimate::relative(VolumeRate::from_si(best * air.volume_m3), &spread);
    let words = format!(
        "Air changes of {air_changes}, {} of fresh air at the high end, keep the room's mean below {limits}; the room has {}; {face}",
        show_in(flow.high, "m3/h", 2).unwrap_or_default(),
        show(Frequency::from_si(air.renewal_s)),
    );
    Ventilation { below: Ratio::from_si(below), air_changes: Some(air_changes), flow: Some(flow), words }
}

fn warnings(all: &SessionExposure, vapours: &[Vapour]) -> Vec<Warning> {
    let mut out = vec![Warning::new("room-average", all.near_words())];
    let sums = [
        ("8 h limits", "whole room", &all.shift_sum, "over-limit"),
        ("short-term limits", "whole room", &all.short_sum, "over-short-limit"),
        ("8 h limits", "air close to the work", &all.near_shift_sum, "near-over-limit"),
        ("short-term limits", "air close to the work", &all.near_short_sum, "near-over-short-limit"),
    ];
    for (limits, place, sum, code) in sums {
        if sum.high.si() > 1.0 {
            let may = if sum.best.si() > 1.0 { "passes" } else { "may pass" };
            out.push(Warning::new(
                code,
                format!(
                    "the {place} {may} the {limits}: sum {sum}, 1 is the limit; more fresh air, less solvent, or out of doors"
                ),
            ));
        }
    }
    let named = |unknown: &dyn Fn(&Solvent) -> bool| -> String {
        let names = vapours.iter().filter(|v| unknown(&v.solvent)).map(|v| v.solvent.name());
        names.collect::<Vec<_>>().join(", ")
    };
    if !all.shift.without_limit.is_empty() {
        out.push(Warning::new(
            "without-limit",
            format!(
                "no exposure limit of this authority is known for {}: the sums are lower bounds; see the safety data sheet",
                all.shift.without_limit.join(", ")
            ),
        ));
    }
    let unknown = named(&|s| s.lower_flammable_limit().is_none());
    if !unknown.is_empty() {
        let text = format!(
            "no flammable limit is known for {unknown}: the share of the flammable limit is a lower bound"
        );
        out.push(Warning::new("without-flammable-limit", text));
    }
    if all.flammable_share.si() > TENTH {
        out.push(Warning::new(
            "flammable",
            format!(
                "the room's mean comes to {} of the lower flammable limit, where gas alarms sound at a tenth (from memory): \
                 near the work and at the floor it may burn; out, no switch, no flame",
                show(all.flammable_share)
            ),
        ));
    }
    if all.terms().any(|t| t.source.is_from_memory()) {
        let text = "some limits are from memory and marked so: check them against the safety data sheet";
        out.push(Warning::new("from-memory", text));
    }
    out
}

impl SessionExposure {
    /// Times of the curves, from the begin of the session.
    pub fn times(&self) -> Vec<Time> {
        self.times_s.iter().map(|t| Time::from_si(*t)).collect()
    }

    /// The room's mean at each time: sum of concentrations over limits of 8 h.
    pub fn shares(&self) -> &[f64] {
        &self.shares
    }

    /// The same close to the work.
    pub fn near_shares(&self) -> &[f64] {
        &self.near_shares
    }

    /// Highest sum of the room's mean over limits of 8 h, at any moment.
    pub fn peak(&self) -> Number {
        Number::from_si(self.shares.iter().copied().fold(0.0, f64::max))
    }

    /// Vapour given off by all sources.
    pub fn released(&self) -> Mass {
        self.sources.iter().fold(Mass::from_si(0.0), |sum, s| sum + s.released)
    }

    /// Every limit that was counted.
    fn terms(&self) -> impl Iterator<Item = &ExposureTerm> {
        self.shift.terms.iter().chain(&self.short.terms)
    }

    /// How much the room's mean leaves out.
    pub(super) fn near_words(&self) -> String {
        let near = self.near_shares.iter().copied().fold(0.0, f64::max);
        format!(
            "sums of the whole room are means: within {} m of the work they come to {} at the worst moment and {} over the \
             worst 15 min, where the whole room has {} and {} (two zones, a factor 3 either way); in the spray that bounces \
             off the part it is more again",
            digits(NEAR_M, 2),
            digits(near, 2),
            digits(self.near_short_sum.best.si(), 2),
            digits(self.peak().si(), 2),
            digits(self.short_sum.best.si(), 2),
        )
    }

    /// What goes with the numbers wherever they are shown; never empty, and who decides comes last.
    pub fn cautions(&self) -> Vec<String> {
        let mut out: Vec<String> = self.warnings.iter().map(|w| sentence(&w.message)).collect();
        out.push("Paint mist, which is breathed too, is not in these numbers.".to_owned());
        let known = all_cautions().unwrap_or_default();
        let wanted = ["odour", if self.glycol_ether { "glycol-ether" } else { "" }];
        out.extend(known.iter().filter(|c| wanted.contains(&c.key.as_str())).map(|c| c.text.clone()));
        for caution in self.short.cautions.iter().chain(&self.shift.cautions) {
            // Said above with the interval, or below as the last word.
            let said = ["The limits are passed", "lower bound", "from memory: check", "decide."];
            if !said.iter().any(|s| caution.contains(s)) && !out.contains(caution) {
                out.push(caution.clone());
            }
        }
        out.push(
            "A limit is no line between safe and harmful. The safety data sheets, local codes and licensed practice decide."
                .to_owned(),
        );
        out
    }

    /// Citations of every limit and rule behind the numbers, each with how far to trust it.
    pub fn citations(&self) -> Vec<String> {
        let mut out: Vec<String> = Vec::new();
        let rules =
            ["CFR_1910_1000", "ROOM_MIXING", "NEAR_FIELD", "ACTION_LEVEL", "LE_CHATELIER", "LEL_FRACTIONS"];
        let rules = rules.iter().map(|key| source::cite(key));
        for citation in self.terms().flat_map(|t| t.source.citations.iter().cloned()).chain(rules) {
            if !out.contains(&citation) {
                out.push(citation);
            }
        }
        out
    }
}

/// With a capital and a full stop.
pub(in crate::safety) fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    let head = letters.next().map_or_else(String::new, |c| c.to_uppercase().collect());
    format!("{head}{}.", letters.as_str())
}
