//! A session's colours in the order that needs the least cleaner.

use super::change::{Bench, Change, care};
use super::order::best_order;
use super::shade::Shade;
use crate::error::{Result, out_of_range, unknown_name};
use crate::estimate::{Estimate, Scale, propagate};
use crate::names::fold;
use crate::quantity::{Quantity, Volume, digits, show, to};
use crate::table::{Cell, Column, Table};
use crate::warning::Warning;
use serde::{Deserialize, Serialize};

/// Added for each step of L* upwards, m3: a millionth of a millilitre, to choose among orders that pour alike.
const TIE: f64 = 1e-12;

/// An order of colours with its changes.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ColourOrder {
    /// Names in the order to spray.
    pub order: Vec<String>,
    /// The changes between them.
    pub changes: Vec<Change>,
    /// Cleaner for all changes. The wash at the end is the same for every order and not in it.
    pub cleaner: Estimate<Volume>,
    /// Cleaner for the order in which the colours were given (with the start moved to the front).
    pub as_given: Estimate<Volume>,
    /// What to mind; never empty.
    pub cautions: Vec<String>,
    /// Pairs for which the answer is a judgement.
    pub warnings: Vec<Warning>,
}

impl Bench {
    /// The order with the least cleaner, exact up to 16 colours; from `start` if that is in the gun already.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for no colour, more than 16, two of one name, or an impossible bench;
    /// [`crate::error::UnknownName`] for a start that is not among the colours.
    ///
    /// ```
    /// use mistcoat::{quantity::parse, rinse::{Bench, Gun, Shade, Tolerance}};
    /// // The Saltmarsh Lane boat (invented): bottom, hull, deckhouse.
    /// let colours = ["red oxide", "deep green", "cream"].map(Shade::typical);
    /// let colours = colours.into_iter().collect::<mistcoat::Result<Vec<_>>>()?;
    /// let bench = Bench {
    ///     hold_up: Gun::find("gravity airbrush")?.hold_up.clone(), fill: parse("2 mL")?,
    ///     least_portion: parse("1 mL")?, tolerance: Tolerance::Perceptible };
    /// let plan = bench.colour_order(&colours, None)?;
    /// assert_eq!(plan.order[0], "cream"); // light before dark
    /// println!("{}", plan.table().to_text());
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn colour_order(&self, colours: &[Shade], start: Option<&str>) -> Result<ColourOrder> {
        self.check()?;
        let start = find_start(colours, start)?;
        let n = colours.len();
        if n > super::order::MOST_COLOURS {
            best_order(&vec![Vec::new(); n], None)?; // refuses, before 17 x 16 changes are worked out
        }
        let mut changes: Vec<Vec<Option<Change>>> = Vec::with_capacity(n);
        for (a, from) in colours.iter().enumerate() {
            let row =
                colours.iter().enumerate().map(|(b, to)| (a != b).then(|| self.change(from, to)).transpose());
            changes.push(row.collect::<Result<_>>()?);
        }
        // Portions cannot be smaller than the least one, so many orders pour alike; of those, light goes before dark.
        let cost: Vec<Vec<f64>> = changes
            .iter()
            .zip(colours)
            .map(|(row, from)| {
                let one = |(c, to): (&Option<Change>, &Shade)| {
                    let lighter = (to.lightness() - from.lightness()).max(0.0) * TIE;
                    c.as_ref().map_or(0.0, |c| c.split.total.si() + lighter)
                };
                row.iter().zip(colours).map(one).collect()
            })
            .collect();
        let best = best_order(&cost, start)?;
        let mut given: Vec<usize> = (0..n).collect();
        if let Some(s) = start {
            given[..=s].rotate_right(1);
        }
        let along = |order: &[usize]| -> Vec<Change> {
            order.windows(2).filter_map(|w| changes[w[0]][w[1]].clone()).collect()
        };
        let used = along(&best.order);
        let cautions = care()?;
        Ok(ColourOrder {
            order: best.order.iter().map(|&i| colours[i].name().to_owned()).collect(),
            cleaner: self.sum(&used)?,
            as_given: self.sum(&along(&given))?,
            warnings: used.iter().flat_map(|c| c.cleaner.warnings.clone()).collect(),
            changes: used,
            cautions,
        })
    }

    /// The changes share one gun and one eye, so their spreads add straight, not by squares.
    fn sum(&self, changes: &[Change]) -> Result<Estimate<Volume>> {
        if changes.is_empty() {
            return Ok(Estimate::exact(Volume::from_si(0.0)));
        }
        let mut e: Estimate<Volume> = propagate(&self.inputs(), &[], Scale::Log, |x| {
            let one = |c: &Change| self.cleaner(x[0].exp(), c.tolerated.si() * x[1].exp(), c.split.portions);
            Ok(changes.iter().map(one).sum())
        })?;
        e.low = self.floored(e.low, changes.iter().map(|c| c.split.portions).sum());
        Ok(e)
    }
}

pub(super) fn find_start(colours: &[Shade], start: Option<&str>) -> Result<Option<usize>> {
    let mut seen = std::collections::HashSet::new();
    if let Some(twice) = colours.iter().find(|c| !seen.insert(fold(c.name()))) {
        let remedy = "give each colour a name of its own";
        return Err(out_of_range("name of a colour", twice.name(), "one that stands once", remedy));
    }
    let Some(name) = start else { return Ok(None) };
    let at = colours.iter().position(|c| fold(c.name()) == fold(name));
    at.map(Some).ok_or_else(|| {
        let known = colours.iter().map(Shade::name);
        unknown_name("first colour", name, known, "take one of the colours of the session")
    })
}

impl ColourOrder {
    /// The changes as a table, cautions under it.
    pub fn table(&self) -> Table {
        let ml = |v: Volume| to(v, "mL").unwrap_or(f64::NAN);
        let number = |v: f64| Cell::number(digits(v, 2), v);
        let column = |key: &str, title: &str, unit: &str, cell: &dyn Fn(&Change) -> Cell| Column {
            key: key.to_owned(),
            title: title.to_owned(),
            unit: unit.to_owned(),
            cells: self.changes.iter().map(cell).collect(),
        };
        let mut notes = self.warnings.iter().map(|w| w.message.clone()).collect::<Vec<_>>();
        notes.push(format!("cleaner for the order as given: {}", self.as_given));
        notes.extend(self.cautions.iter().cloned());
        Table {
            caption: format!(
                "Colours in the order with the least cleaner: {}; {}",
                self.order.join(", "),
                self.cleaner
            ),
            columns: vec![
                column("from", "from", "", &|c| Cell::words(c.from.clone())),
                column("to", "to", "", &|c| Cell::words(c.to.clone())),
                column("tolerated", "may stay\nin the fill", "ppm", &|c| {
                    Cell::number(show(c.tolerated), c.tolerated.si() * 1e6)
                }),
                column("portions", "portions", "1", &|c| number(f64::from(c.split.portions))),
                column("portion", "each\nmL", "mL", &|c| number(ml(c.split.each))),
                column("cleaner", "cleaner\nmL", "mL", &|c| {
                    let e = &c.cleaner.estimate;
                    let (best, low, high) = (ml(e.best), ml(e.low), ml(e.high));
                    let text = format!("{} ({} to {})", digits(best, 2), digits(low, 2), digits(high, 2));
                    Cell::estimate(text, best, low, high)
                }),
            ],
            notes,
        }
    }
}
