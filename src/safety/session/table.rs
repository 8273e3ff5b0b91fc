//! A session's vapours as tables and as working.

use super::over_time::NEAR_M;
use super::report::SessionExposure;
use crate::quantity::{Frequency, Mass, Quantity, Ratio, Velocity, VolumeRate, digits, show, show_in};
use crate::safety::exposure::{ExposureTerm, MixtureExposure};
use crate::table::{Cell, Column, Table};
use crate::working::{Step, Working};

/// Less than this is told as that, g.
const LEAST_G: f64 = 0.001;

fn column(key: &str, title: &str, unit: &str, cells: Vec<Cell>) -> Column {
    Column { key: key.to_owned(), title: title.to_owned(), unit: unit.to_owned(), cells }
}

fn grams(mass: Mass) -> Cell {
    let g = 1e3 * mass.si();
    Cell::number(if g > 0.0 && g < LEAST_G { format!("<{LEAST_G}") } else { digits(g, 2) }, g)
}

fn ppm(share: Ratio) -> Cell {
    Cell::number(digits(1e6 * share.si(), 2), 1e6 * share.si())
}

/// The limit of a vapour: whose, how much, and its share, or that there is none.
fn against(term: Option<&ExposureTerm>) -> (Cell, Cell) {
    let Some(t) = term else { return (Cell::words("none known"), Cell::words("–")) };
    let memory = if t.source.is_from_memory() { ", from memory" } else { "" };
    let limit = format!("{}, {}{memory}", show_in(t.limit, "ppm", 3).unwrap_or_default(), t.authority);
    (Cell::words(limit), Cell::number(digits(t.share.si(), 2), t.share.si()))
}

fn term<'a>(of: &'a MixtureExposure, solvent: &str) -> Option<&'a ExposureTerm> {
    of.terms.iter().find(|t| t.solvent == solvent)
}

impl SessionExposure {
    /// The vapours with their means, limits and shares; the notes hold sums, ventilation, cautions and sources.
    pub fn table(&self) -> Table {
        let rows = &self.vapours;
        let cells = |pick: &dyn Fn(usize) -> Cell| (0..rows.len()).map(pick).collect::<Vec<_>>();
        let short = |i: usize| against(term(&self.short, &rows[i].solvent));
        let shift = |i: usize| against(term(&self.shift, &rows[i].solvent));
        let mut notes = vec![
            format!(
                "Worst 8 h, whole room: sum {} of the limits; close to the work {}.",
                self.shift_sum, self.near_shift_sum
            ),
            format!(
                "Worst 15 min, whole room, from {}: sum {} of the limits; close to the work {}.",
                show(self.worst_from),
                self.short_sum,
                self.near_short_sum
            ),
            format!("{}.", self.ventilation.words),
            format!("Whole room at most {} of the lower flammable limit.", show(self.flammable_share)),
        ];
        notes.extend(self.cautions());
        notes.push(format!("Sources: {}.", self.citations().join("; ")));
        Table {
            caption: format!(
                "Vapour in {} with {} over the session, against {}",
                self.room.volume().map_or_else(|| "the room".to_owned(), show),
                self.room.air_changes().map_or_else(String::new, show),
                self.authority.limits_words()
            ),
            columns: vec![
                column("solvent", "solvent", "", cells(&|i| Cell::words(&rows[i].solvent))),
                column("released", "into the air\ng", "g", cells(&|i| grams(rows[i].released))),
                column("kept", "not evaporated\ng", "g", cells(&|i| grams(rows[i].kept))),
                column("peak", "highest\nppm", "ppm", cells(&|i| ppm(rows[i].peak))),
                column("short_mean", "worst 15 min\nppm", "ppm", cells(&|i| ppm(rows[i].short_mean))),
                column("short_limit", "limit for 15 min", "", cells(&|i| short(i).0)),
                column("short_share", "share", "1", cells(&|i| short(i).1)),
                column("shift_mean", "worst 8 h\nppm", "ppm", cells(&|i| ppm(rows[i].shift_mean))),
                column("shift_limit", "limit for 8 h", "", cells(&|i| shift(i).0)),
                column("shift_share", "share", "1", cells(&|i| shift(i).1)),
            ],
            notes,
        }
    }

    /// The sources of vapour with what each brought, gave off and kept.
    pub fn sources_table(&self) -> Table {
        let rows = &self.sources;
        let cells = |pick: &dyn Fn(usize) -> Cell| (0..rows.len()).map(pick).collect::<Vec<_>>();
        let minutes = |t: crate::quantity::Time| Cell::number(digits(t.si() / 60.0, 3), t.si() / 60.0);
        Table {
            caption: "What gave off vapour".to_owned(),
            columns: vec![
                column("name", "source", "", cells(&|i| Cell::words(&rows[i].name))),
                column("kind", "what", "", cells(&|i| Cell::words(rows[i].kind.words()))),
                column("start", "from\nmin", "min", cells(&|i| minutes(rows[i].start))),
                column("lasts", "for\nmin", "min", cells(&|i| minutes(rows[i].lasts))),
                column("brought", "solvent\ng", "g", cells(&|i| grams(rows[i].brought))),
                column("in_flight", "lost spraying\ng", "g", cells(&|i| grams(rows[i].in_flight))),
                column("released", "into the air\ng", "g", cells(&|i| grams(rows[i].released))),
                column("kept", "not evaporated\ng", "g", cells(&|i| grams(rows[i].kept))),
            ],
            notes: self.cautions().into_iter().rev().take(1).collect(),
        }
    }

    /// How the sums were worked out.
    pub fn working(&self) -> Working {
        let mut w = Working::new("Vapour over a session against the limits");
        for s in &self.sources {
            w.push(
                Step::new(
                    s.name.clone(),
                    "released = brought − kept",
                    r"m_\mathrm{air} = m - m_\mathrm{kept}",
                )
                .numbers(format!("{} − {}", show(s.brought), show(s.kept)))
                .result(format!(
                    "{}, of which {} while spraying",
                    show(s.released),
                    show(s.in_flight)
                )),
            );
        }
        let (volume, changes) = (self.room.volume(), self.room.air_changes());
        w.push(
            Step::new("whole room", "V dC/dt = G − k Q C", r"V\,dC/dt = G - kQC")
                .numbers(format!(
                    "V {}, Q/V {}, k {}",
                    volume.map_or_else(String::new, show),
                    changes.map_or_else(String::new, show),
                    digits(self.mixing, 2)
                ))
                .result(format!(
                    "renewed at {}",
                    show(Frequency::from_si(self.mixing * changes.map_or(0.0, Quantity::si)))
                ))
                .source("ROOM_MIXING"),
        );
        for t in &self.shift.terms {
            w.push(
                Step::new(format!("{}, worst 8 h", t.solvent), "C/L", r"C/L")
                    .numbers(format!(
                        "{} / {}",
                        show_in(t.concentration, "ppm", 3).unwrap_or_default(),
                        show_in(t.limit, "ppm", 3).unwrap_or_default()
                    ))
                    .result(digits(t.share.si(), 3))
                    .source(cited(t)),
            );
        }
        w.push(
            Step::new("worst 8 h", "E = Σ C/L", r"E = \sum C/L")
                .result(self.shift_sum.to_string())
                .source("CFR_1910_1000"),
        );
        for t in &self.short.terms {
            w.push(
                Step::new(format!("{}, worst 15 min against {}", t.solvent, t.authority), "C/S", r"C/S")
                    .numbers(format!(
                        "{} / {}",
                        show_in(t.concentration, "ppm", 3).unwrap_or_default(),
                        show_in(t.limit, "ppm", 3).unwrap_or_default()
                    ))
                    .result(digits(t.share.si(), 3))
                    .source(cited(t)),
            );
        }
        w.push(
            Step::new("worst 15 min", "E = Σ C/S", r"E = \sum C/S")
                .result(self.short_sum.to_string())
                .source("CFR_1910_1000"),
        );
        let area = 2.0 * core::f64::consts::PI * NEAR_M * NEAR_M;
        w.push(
            Step::new(
                "close to the work",
                "C_near = C + G/β, β = ½ 2π r² s",
                r"C_\mathrm{near} = C + G/\beta,\quad \beta = \tfrac12\,2\pi r^2 s",
            )
            .numbers(format!(
                "r {} m, s {}, β {}",
                digits(NEAR_M, 2),
                show(Velocity::from_si(self.near_m3_s / (0.5 * area))),
                show_in(VolumeRate::from_si(self.near_m3_s), "m3/h", 3).unwrap_or_default()
            ))
            .result(format!("15 min: {}; 8 h: {}", self.near_short_sum, self.near_shift_sum))
            .source("NEAR_FIELD"),
        );
        w.push(
            Step::new(
                format!("fresh air for {} of the limits", show(self.ventilation.below)),
                "least Q/V with E_8h and E_15 below",
                r"\min Q/V",
            )
            .result(self.ventilation.words.clone())
            .source("ACTION_LEVEL"),
        );
        w.push(
            Step::new("flammable", "Σ C/LFL (Le Chatelier)", r"\sum C/\mathrm{LFL}")
                .result(format!("{} of the lower flammable limit", show(self.flammable_share)))
                .source("LE_CHATELIER"),
        );
        w
    }
}

/// A key where there is one, else the citation itself.
fn cited(term: &ExposureTerm) -> String {
    let memory = if term.source.is_from_memory() { " (from memory)" } else { "" };
    match term.source.keys.as_slice() {
        [alone] => alone.clone(),
        _ => format!("{}{memory}", term.source),
    }
}
