//! The plan on paper: layers, timeline, materials; and the whole as text.

use super::habits::Habits;
use super::planned::PlannedLayer;
use super::record::Plan;
use super::steps::{Step, What};
use super::waits::Wait;
use crate::quantity::{Quantity, Time, Volume, digits, show, show_in, to};
use crate::source::cite;
use crate::table::{Cell, Column, Table};
use core::fmt::Write as _;

/// Causes of the spread of the whole that are named.
const MOST_CAUSES: usize = 3;
/// A dash for what is not.
const NONE: &str = "-";

fn column(key: &str, title: &str, unit: &str, cells: Vec<Cell>) -> Column {
    Column { key: key.to_owned(), title: title.to_owned(), unit: unit.to_owned(), cells }
}

fn ml(v: Volume) -> f64 {
    to(v, "mL").unwrap_or(f64::NAN)
}

fn minutes(t: Time) -> f64 {
    t.si() / 60.0
}

/// Hours and minutes from the begin, as on a clock: `1:05`; days in front when there are any.
fn clock(t: Time) -> String {
    let minutes = (t.si() / 60.0).round();
    let (days, rest) = ((minutes / 1440.0).floor(), minutes % 1440.0);
    let (hours, minutes) = ((rest / 60.0).floor(), rest % 60.0);
    if days > 0.0 {
        format!("{days:.0} d {hours:.0}:{minutes:02.0}")
    } else {
        format!("{hours:.0}:{minutes:02.0}")
    }
}

/// As one says it: 40 s, 2.5 min, 35 min, 2 h 05 min, 3.2 d.
fn said(t: Time) -> String {
    let s = t.si();
    if s < 100.0 {
        return format!("{s:.0} s");
    }
    if s < 570.0 {
        return format!("{} min", digits(s / 60.0, 2));
    }
    let minutes = (s / 60.0).round();
    if minutes < 100.0 {
        return format!("{minutes:.0} min");
    }
    if minutes >= 2880.0 {
        return format!("{} d", digits(minutes / 1440.0, 2));
    }
    let (hours, rest) = ((minutes / 60.0).floor(), minutes % 60.0);
    if rest > 0.0 { format!("{hours:.0} h {rest:02.0} min") } else { format!("{hours:.0} h") }
}

fn volume(v: Volume) -> String {
    show_in(v, "mL", 2).unwrap_or_default()
}

/// Rows of the timeline: steps of one kind and layer, of the gun with the most users.
struct Stretch<'a> {
    what: What,
    layer: usize,
    steps: Vec<&'a Step>,
}

impl Stretch<'_> {
    fn start(&self) -> Time {
        self.steps
            .iter()
            .map(|s| s.start)
            .fold(Time::from_si(f64::INFINITY), |a, b| if b < a { b } else { a })
    }

    fn end(&self) -> Time {
        self.steps.iter().map(|s| s.end()).fold(Time::from_si(0.0), |a, b| if b > a { b } else { a })
    }
}

impl Plan {
    /// The layers: mix in drops and by volume, passes, coats, waits.
    pub fn table(&self) -> Table {
        let session = self.session();
        let over = |pick: &dyn Fn(&PlannedLayer) -> Cell| self.layers().iter().map(pick).collect::<Vec<_>>();
        let number = |v: Volume| Cell::number(digits(ml(v), 2), ml(v));
        let until = (0..self.layers().len()).filter_map(|index| {
            let (wait, for_tape) = self.then(index)?;
            let words = if for_tape { format!("{}, tape", said(wait.lasts)) } else { said(wait.lasts) };
            Some(Cell::number(words, minutes(wait.lasts)))
        });
        let mut notes = self.waits_in_words();
        notes.push(format!(
            "Amounts are for one person: what goes through the gun at best values, {} more, and what the gun keeps. \
             Film a pass is good to a factor 2.5: spray a card first and count the passes that it takes.",
            show(session.margin)
        ));
        notes.extend(self.warnings().iter().map(|w| w.message.clone()));
        notes.extend(self.colour_hint().map(|hint| format!("Colours: {hint}.")));
        notes.extend(self.caution_lines());
        Table {
            caption: format!("{}: layers from the part upwards", session.title),
            columns: vec![
                column("layer", "layer", "", over(&|l| Cell::words(&l.name))),
                column("job", "job", "", over(&|l| Cell::words(&l.job))),
                column("mix", "mix\nmL", "mL", over(&|l| number(l.mix.made()))),
                column("paint", "paint\nmL", "mL", over(&|l| number(l.mix.paint))),
                column("thinner", "thinner\nmL", "mL", over(&|l| number(l.mix.thinner))),
                column("drops", "drops paint\n+ thinner", "", over(&|l| Cell::words(drops(l)))),
                column("passes", "passes", "1", over(&passes)),
                column(
                    "coats",
                    "coats",
                    "1",
                    over(&|l| Cell::number(l.coats.to_string(), f64::from(l.coats))),
                ),
                column(
                    "flash_off",
                    "between\ncoats",
                    "min",
                    over(&|l| Cell::number(said(l.flash_off.lasts), minutes(l.flash_off.lasts))),
                ),
                column("until_next", "then\nwait", "min", until.collect()),
            ],
            notes,
        }
    }

    /// What is done when: for the gun with the most users, steps of a layer together.
    pub fn timeline(&self) -> Table {
        let stretches = self.stretches();
        let over = |pick: &dyn Fn(&Stretch<'_>) -> Cell| stretches.iter().map(pick).collect::<Vec<_>>();
        let session = self.session();
        let mut notes = vec![format!(
            "Waits are upper ends of what the drying engine gives, or common practice where that asks for more. Handwork \
             is taken at the usual pace: {}.",
            cite("bench-times")
        )];
        if session.people > 1 {
            let most = session.people.div_ceil(session.guns);
            notes.push(if most > 1 {
                let one = if session.guns > 1 { format!(": gun 1, shared by {most}") } else { String::new() };
                format!(
                    "{} people with {}{one}, who take turns.",
                    session.people,
                    plural(session.guns, "gun", "guns")
                )
            } else {
                format!("{} people, each with a gun, side by side.", session.people)
            });
        }
        notes.extend(self.visits_in_words());
        notes.push(format!(
            "{}: a finger on the edge of the masking tape tells, not one on the part.",
            self.total_in_words()
        ));
        notes.extend(self.caution_lines());
        Table {
            caption: format!(
                "{}: {} at the bench, {} until the last layer is touch dry, as planned",
                session.title,
                said(self.bench_time()),
                said(self.planned())
            ),
            columns: vec![
                column("start", "at", "min", over(&|s| Cell::number(clock(s.start()), minutes(s.start())))),
                column(
                    "lasts",
                    "for",
                    "min",
                    over(&|s| {
                        let lasts = s.end() - s.start();
                        Cell::number(said(lasts), minutes(lasts))
                    }),
                ),
                column("what", "what", "", over(&|s| Cell::words(s.what.word()))),
                column("layer", "layer", "", over(&|s| Cell::words(&self.layers()[s.layer].name))),
                column("detail", "how", "", over(&|s| Cell::words(self.detail(s)))),
            ],
            notes,
        }
    }

    /// Paint, thinner and cleaner, with margin, each and in all, and what they cost.
    pub fn materials_table(&self) -> Table {
        let session = self.session();
        let all = self.materials();
        let amount = |v: Volume| Cell::number(digits(ml(v), 2), ml(v));
        let mut columns = vec![
            column("kind", "what", "", all.iter().map(|m| Cell::words(m.kind.word())).collect()),
            column("name", "name", "", all.iter().map(|m| Cell::words(&m.name)).collect()),
            column("each", "for one\nmL", "mL", all.iter().map(|m| amount(m.each)).collect()),
            column("total", "for all\nmL", "mL", all.iter().map(|m| amount(m.total)).collect()),
            column(
                "used",
                "used up\nmL",
                "mL",
                all.iter()
                    .map(|m| {
                        let u = &m.used;
                        let (b, l, h) = (ml(u.best), ml(u.low), ml(u.high));
                        let text = format!("{} ({} to {})", digits(b, 2), digits(l, 2), digits(h, 2));
                        Cell::estimate(text, b, l, h)
                    })
                    .collect(),
            ),
        ];
        let mut notes = vec![format!(
            "Bring \"for all\": {}, {}, {} margin; paint and thinner for each person, cleaner for each gun. \
             The high end of \"used up\" is the bottle that surely lasts.",
            plural(session.people, "person", "people"),
            plural(session.guns, "gun", "guns"),
            show(session.margin)
        )];
        if let Some(cost) = self.cost() {
            let title = format!("cost\n{}", session.currency);
            let cell = |m: &super::Material| {
                m.cost.map_or_else(|| Cell::words(NONE), |c| Cell::number(format!("{c:.2}"), c))
            };
            columns.push(column("cost", title.trim_end(), "1", all.iter().map(cell).collect()));
            let unpriced = all.iter().filter(|m| m.cost.is_none()).count();
            let rest = if unpriced > 0 { format!("; {unpriced} without a price") } else { String::new() };
            notes.push(format!("Together {cost:.2} {}{rest}.", session.currency));
        }
        notes.extend(self.caution_lines());
        Table { caption: format!("{}: what to bring", session.title), columns, notes }
    }

    /// What a layer waits for before the work goes on, and whether that is for tape: it may want a harder coat than the next
    /// layer does.
    fn then(&self, index: usize) -> Option<(&Wait, bool)> {
        let layer = self.layers().get(index)?;
        let masked = self.layers().get(index + 1).is_some_and(|next| next.mask.is_some());
        let for_tape = masked && layer.until_mask.lasts > layer.until_next.lasts;
        Some((if for_tape { &layer.until_mask } else { &layer.until_next }, for_tape))
    }

    /// How long the parts wait and why; layers that wait alike share a line.
    fn waits_in_words(&self) -> Vec<String> {
        let mut out: Vec<(Vec<&str>, String)> = Vec::new();
        for (index, l) in self.layers().iter().enumerate() {
            let between = if l.coats > 1 {
                format!("{} between coats ({}); ", said(l.flash_off.lasts), l.flash_off.why)
            } else {
                String::new()
            };
            let (wait, for_tape) = self.then(index).unwrap_or((&l.until_next, false));
            let after = if for_tape { "before tape" } else { "after it" };
            let words = format!("{between}{} {after} ({})", said(wait.lasts), wait.why);
            match out.iter_mut().find(|(_, known)| *known == words) {
                Some((names, _)) => names.push(&l.name),
                None => out.push((vec![&l.name], words)),
            }
        }
        out.into_iter().map(|(names, words)| format!("{}: {words}.", names.join(", "))).collect()
    }

    /// When people come and go; nothing for a single visit.
    fn visits_in_words(&self) -> Option<String> {
        if self.visits().len() < 2 {
            return None;
        }
        let away = Habits::usual().ok()?.away;
        let each: Vec<String> =
            self.visits().iter().map(|v| format!("{} to {}", clock(v.start), clock(v.end))).collect();
        Some(format!(
            "At the bench in {} visits: {}. A wait of more than {} without work is time away.",
            each.len(),
            each.join(", "),
            said(away)
        ))
    }

    /// The estimate of the whole, with its largest causes.
    fn total_in_words(&self) -> String {
        let total = self.total();
        let causes: Vec<&str> =
            total.contributors.iter().take(MOST_CAUSES).map(|c| c.what.as_str()).collect();
        let causes =
            if causes.is_empty() { String::new() } else { format!(", spread by {}", causes.join(", ")) };
        format!(
            "The waits above are upper ends; by best values it takes {} in all ({} to {}{causes})",
            said(total.best),
            said(total.low),
            said(total.high)
        )
    }

    /// The cautions as lines for a page.
    fn caution_lines(&self) -> impl Iterator<Item = String> {
        self.cautions().iter().map(|c| format!("{c}"))
    }

    /// The steps of the first gun, which has the most users, together where they belong together.
    fn stretches(&self) -> Vec<Stretch<'_>> {
        let guns = self.session().guns;
        let mut out: Vec<Stretch<'_>> = Vec::new();
        for step in self.steps().iter().filter(|s| (s.person - 1) % guns == 0) {
            // Hand-overs and flash-off are part of spraying.
            let what =
                if matches!(step.what, What::HandOver | What::FlashOff) { What::Spray } else { step.what };
            match out.iter_mut().find(|s| s.what == what && s.layer == step.layer) {
                Some(known) => known.steps.push(step),
                None => out.push(Stretch { what, layer: step.layer, steps: vec![step] }),
            }
        }
        out.sort_by(|a, b| a.start().si().total_cmp(&b.start().si()));
        out
    }

    fn detail(&self, stretch: &Stretch<'_>) -> String {
        let layer = &self.layers()[stretch.layer];
        let wash = || self.washes().iter().find(|w| w.after == stretch.layer);
        match stretch.what {
            What::Mix => {
                let recipe = layer.mix.in_drops().unwrap_or_else(|| {
                    format!("{} paint, {} thinner", volume(layer.mix.paint), volume(layer.mix.thinner))
                });
                format!("{recipe}: {}", volume(layer.mix.made()))
            }
            What::Spray | What::FlashOff | What::HandOver => {
                let mut text = if layer.coats == 1 {
                    plural(layer.passes, "pass", "passes")
                } else {
                    let coat = plural(layer.wet_passes, "pass", "passes");
                    format!(
                        "{} of {coat}, {} between",
                        plural(layer.coats, "coat", "coats"),
                        said(layer.flash_off.lasts)
                    )
                };
                let users = self.session().people.div_ceil(self.session().guns);
                if users > 1 {
                    let _ = write!(text, ", {users} people in turn");
                }
                text
            }
            What::Wait => {
                let (wait, for_tape) = self.then(stretch.layer).unwrap_or((&layer.until_next, false));
                if for_tape { format!("for tape: {}", wait.why) } else { wait.why.clone() }
            }
            What::Dry => layer.touch_dry.why.clone(),
            What::Rinse | What::CleanUp => wash().map_or_else(String::new, |w| {
                format!("{} × {} of {}", w.split.portions, volume(w.split.each), w.with)
            }),
            What::Mask => "tape and paper".to_owned(),
        }
    }
}

fn plural(n: u32, one: &str, many: &str) -> String {
    format!("{n} {}", if n == 1 { one } else { many })
}

fn drops(l: &PlannedLayer) -> String {
    let recipe = l.mix.drops.as_ref().and_then(|d| d.recipes.first());
    recipe.map_or_else(|| NONE.to_owned(), |r| format!("{} + {}", r.paint_drops, r.thinner_drops))
}

fn passes(l: &PlannedLayer) -> Cell {
    let p = &l.passes_for_job.estimate;
    Cell::estimate(
        l.passes.to_string(),
        f64::from(l.passes),
        p.low.si(),
        p.high.si().max(f64::from(l.passes)),
    )
}

impl core::fmt::Display for Plan {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        // The cautions stand once, under the last table; what is said of the air under its own.
        let mut told: Vec<String> = self.caution_lines().collect();
        told.extend(self.exposures().iter().flat_map(|e| e.warnings.iter().map(|w| w.message.clone())));
        let without = |table: Table, told: &dyn Fn(&String) -> bool| {
            Table { notes: table.notes.into_iter().filter(|n| !told(n)).collect(), ..table }.to_text()
        };
        let told = |note: &String| told.contains(note);
        writeln!(f, "{}", without(self.table(), &told))?;
        writeln!(f, "{}", without(self.timeline(), &told))?;
        for exposure in self.exposures() {
            let said = |note: &String| self.cautions().iter().any(|c| c.text == *note);
            writeln!(f, "{}", without(exposure.table(), &said))?;
        }
        f.write_str(&self.materials_table().to_text())
    }
}
