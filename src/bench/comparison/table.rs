//! The comparison as a table for people and programs.

use super::{Comparison, Row, Sprayed, sentence};
use crate::answer::Answer;
use crate::bench::judged::Judged;
use crate::estimate::Estimate;
use crate::quantity::{Quantity, Ratio, Time, digits, show, to};
use crate::table::{Cell, Column, Table};

/// Causes of a spread with a smaller share of the variance are not told.
const LEAST_CAUSE: f64 = 0.02;

impl Comparison {
    /// The comparison as a table, with what to mind under it.
    pub fn table(&self) -> Table {
        let rows = &self.rows;
        let mut columns = vec![
            column("thinner_parts_per_paint_part", "thinner to\n1 paint", "1", rows, |r| {
                Cell::number(digits(r.thinner_per_paint, 3), r.thinner_per_paint)
            }),
            column("paint_fraction", "paint in\nthe mix", "%", rows, |r| {
                let x = r.mix.paint_fraction().get() * 100.0;
                Cell::number(format!("{} %", digits(x, 3)), x)
            }),
            column("volume_solids", "volume\nsolids", "%", rows, |r| {
                estimate_cell(&r.volume_solids, "%", false)
            }),
            column("viscosity", "viscosity, mPa.s\n(95 % range)", "mPa.s", rows, |r| {
                estimate_cell(&r.viscosity.estimate, "mPa.s", true)
            }),
        ];
        if let Some(cup) = &self.cup {
            let title = format!("seconds in {}\n(95 % range)", cup.name());
            columns.push(column("efflux_time", &title, "s", rows, |r| match &r.efflux_time {
                Some(t) => {
                    let mut cell = estimate_cell(&t.estimate, "s", true);
                    if outside_cup(t) {
                        cell.text = format!("[{}]", cell.text);
                    }
                    cell
                }
                None => Cell::words("–"),
            }));
        }
        columns.extend(self.spray_columns());
        let film = format!("dry film, µm,\nof {}", self.coat());
        columns.push(column("dry_film", &film, "µm", rows, |r| estimate_cell(&r.dry_film, "µm", false)));
        columns.push(column("flash_off", "flash-off, s\n(95 % range)", "s", rows, |r| match &r.flash_off {
            Some(t) => estimate_cell(&t.estimate, "s", true),
            None => Cell::words("never"),
        }));
        columns.push(column("left_at_flash_off", "mostly left\nby then", "", rows, |r| {
            Cell::words(
                r.left_at_flash_off
                    .first()
                    .map_or("–".to_owned(), |(n, s)| format!("{n} {:.0} %", s * 100.0)),
            )
        }));
        columns.push(column("touch_dry", "touch\ndry", "s", rows, |r| time_cell(r.touch_dry.as_ref())));
        if rows.iter().any(|r| r.recoat.is_some()) {
            columns.push(column("recoat", "recoat", "s", rows, |r| time_cell(r.recoat.as_ref())));
        }
        if rows.iter().any(|r| r.blush_limit.is_some()) {
            columns.push(column("blush_limit", "blushes\nabove, RH", "%", rows, |r| {
                r.blush_limit
                    .as_ref()
                    .map_or_else(|| Cell::words("–"), |b| estimate_cell(&b.estimate, "%", false))
            }));
        }
        columns.push(column("ripple_left", "ripple\nleft, %", "%", rows, |r| {
            r.ripple_left.as_ref().map_or_else(|| Cell::words("–"), |l| share_cell(&l.estimate, false))
        }));
        columns.push(column("voc", "VOC,\ng/L", "g/L", rows, |r| {
            let v = to(r.voc, "g/L").unwrap_or(f64::NAN);
            Cell::number(digits(v, 3), v)
        }));
        if rows.iter().any(|r| r.drops.is_some()) {
            columns.push(column("drops", "drops, paint\n+ thinner", "", rows, |r| {
                Cell::words(r.drops.map_or("–".to_owned(), |(p, t)| format!("{p} + {t}")))
            }));
        }
        Table { caption: format!("{}. {}.", self.title(), self.conditions()), columns, notes: self.notes() }
    }

    /// Drops, loss in flight, film a pass, passes and first fault of a gun.
    fn spray_columns(&self) -> Vec<Column> {
        if self.spraying.is_none() {
            return Vec::new();
        }
        let sprayed = |key: &str, title: &str, unit: &str, pick: &dyn Fn(&Sprayed) -> Cell| {
            column(key, title, unit, &self.rows, |r| {
                r.sprayed.as_ref().map_or_else(|| Cell::words("–"), pick)
            })
        };
        vec![
            sprayed("drop_size", "drops, µm\n(95 % range)", "µm", &|s| {
                estimate_cell(&s.drop_size.estimate, "µm", true)
            }),
            sprayed("flight_loss", "lost in\nflight", "%", &|s| {
                estimate_cell(&s.flight_loss.estimate, "%", false)
            }),
            sprayed("wet_film_per_pass", "wet film a\npass, µm", "µm", &|s| {
                estimate_cell(&s.wet_per_pass.estimate, "µm", true)
            }),
            sprayed("passes", "passes\nin all", "1", &|s| {
                Cell::number(digits(s.judged.passes.ceil(), 2), s.judged.passes)
            }),
            sprayed("first_fault", "goes wrong first", "", &|s| Cell::words(first_fault(&s.judged))),
        ]
    }

    fn notes(&self) -> Vec<String> {
        let mut notes = vec![
            "Parts are by volume. Flash-off: the time until 90 % of the volatile mass has left the wet coat."
                .to_owned(),
        ];
        if let Some(spraying) = &self.spraying {
            notes.push(format!(
                "Sprayed coats are judged for {} at best values; in brackets how far the fault is from its limit, in standard \
                 uncertainties, below 0 where the limit is broken. Passes in all build its dry film.",
                spraying.job
            ));
        }
        if self.rows.iter().any(|r| r.ripple_left.is_some()) {
            notes.push(
                "Ripple left: what the coat keeps of a ripple of 2 mm when it has set; up to 20 % counts as level. It hangs on the \
                 fourth power of the wavelength: compare the rows, do not trust one number."
                    .to_owned(),
            );
        }
        if self.rows.iter().any(|r| r.recoat.is_some()) {
            notes.push(
                "Touch dry and recoat (block-free) are known within a factor 3; no published rule says when another \
                 paint may go over."
                    .to_owned(),
            );
        }
        // Undiluted paint has no law in it; the first mix speaks for the others.
        if let Some(row) = self.rows.iter().find(|r| r.thinner_per_paint > 0.0).or(self.rows.first()) {
            let causes: Vec<String> = row
                .viscosity
                .estimate
                .contributors
                .iter()
                .take(2)
                .filter(|c| c.share > LEAST_CAUSE)
                .map(|c| format!("{} ({:.0} %)", c.what, c.share * 100.0))
                .collect();
            if !causes.is_empty() {
                notes.push(format!(
                    "Where the viscosity range comes from: {}. One cup reading of a mix narrows it.",
                    causes.join(", ")
                ));
            }
        }
        if self.cup.is_some() && self.rows.iter().any(|r| r.efflux_time.as_ref().is_some_and(outside_cup)) {
            notes.push("Seconds in [brackets] lie outside the range of the cup.".to_owned());
        }
        notes.extend(self.warnings().into_iter().map(|w| sentence(&w.message)));
        notes.extend(self.cautions.iter().cloned());
        notes
    }
}

/// `run (-1.2)`, or `nothing; nearest run (+0.8)`.
fn first_fault(judged: &Judged) -> String {
    let worst = judged.worst();
    let told = format!("{} ({:+.1})", worst.fault, worst.sigmas());
    if worst.holds() { format!("nothing; nearest {told}") } else { told }
}

fn outside_cup(time: &Answer<Time>) -> bool {
    time.warnings.iter().any(|w| matches!(w.code.as_str(), "cup-time-below-range" | "cup-time-above-range"))
}

fn column(key: &str, title: &str, unit: &str, rows: &[Row], cell: impl Fn(&Row) -> Cell) -> Column {
    Column {
        key: key.to_owned(),
        title: title.to_owned(),
        unit: unit.to_owned(),
        cells: rows.iter().map(cell).collect(),
    }
}

/// A time in the unit that suits its size.
fn time_cell(time: Option<&Answer<Time>>) -> Cell {
    let Some(time) = time else { return Cell::words("–") };
    let e = &time.estimate;
    Cell::estimate(show(e.best), e.best.si(), e.low.si(), e.high.si())
}

/// Percent of a ripple; what is less than a tenth of a percent is told as that.
pub(in crate::bench) fn share_cell(e: &Estimate<Ratio>, with_range: bool) -> Cell {
    let [best, low, high] = [e.best, e.low, e.high].map(|r| r.si() * 100.0);
    let words = |v: f64| if v < 0.1 { "<0.1".to_owned() } else { digits(v, 2) };
    let text =
        if with_range { format!("{} ({}–{})", words(best), words(low), words(high)) } else { words(best) };
    Cell::estimate(text, best, low, high)
}

/// `20 (14–29)` or `20`; the unit stands in the heading, a percent sign in the cell.
pub(in crate::bench) fn estimate_cell<Q: Quantity>(e: &Estimate<Q>, unit: &str, with_range: bool) -> Cell {
    let value = |q: Q| to(q, unit).unwrap_or(f64::NAN);
    let (best, low, high) = (value(e.best), value(e.low), value(e.high));
    let text = if with_range {
        format!("{} ({}–{})", digits(best, 2), digits(low, 2), digits(high, 2))
    } else if unit == "%" {
        format!("{} %", digits(best, 2))
    } else {
        digits(best, 2)
    };
    Cell::estimate(text, best, low, high)
}
