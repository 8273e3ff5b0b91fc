//! How long do a thousand settings take to dry? Tables of coats, on all cores.
//!
//! State once what does not change ([`DryTable`]: what is laid, what it lies on) and give a [`Setting`] for every row. Each
//! row is dried as [`Film::dry`] would, bit for bit, whatever the rows beside it. Best values only: an interval needs about
//! five more runs a row; ask [`Film::dry`] for the settings that matter.
//!
//! With feature `parallel` the rows are shared out to all cores; a [`Progress`] tells how far they are and stops them.

use super::binder::Binder;
use super::coat::{Film, Moved};
use super::course::{Course, phase_split};
use super::dispersion::touch_dry_reader;
use super::drying::{check_share, first_time};
use super::flash_off::FLASH_OFF_SHARE;
use super::marks::residual_share;
use super::substrate::Substrate;
use crate::air::Room;
use crate::blend::Blend;
use crate::dose::{Parts, Thinning};
use crate::error::{Error, Result, out_of_range};
use crate::paint::{Mix, Paint};
use crate::progress::{Progress, for_rows};
use crate::quantity::{
    Length, Quantity, Ratio, RelativeHumidity, Temperature, Time, Unit, Velocity, VolumeFraction, to, unit,
};
use crate::warning::Warning;
use std::collections::HashMap;

/// Thinned paints that one core keeps at hand.
const KEPT_MIXES: usize = 256;
/// Columns that every table has.
const ALWAYS: [&str; 5] = ["flash_off_s", "touch_dry_s", "block_free_s", "coldest_degC", "dew_margin_K"];
const HOUR_S: f64 = 3600.0;

/// One row: numbers in the units of their names, as a column of a data frame has them. NaN makes the row NaN.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Setting {
    /// Wet film, 1 to 5000 µm.
    pub wet_thickness_um: f64,
    /// Room, 0 to 60 °C.
    pub temperature_degc: f64,
    /// Room, 0 to 100 %.
    pub relative_humidity_pct: f64,
    /// Over the part, 0 to 30 m/s.
    pub air_speed_m_s: f64,
    /// Of a blend: volume that stays, 0 to 98 %.
    pub solids_pct: Option<f64>,
    /// Glass transition of the dry binder; a mix brings its own unless given.
    pub binder_tg_degc: Option<f64>,
    /// Of a paint: volumes of thinner to one of paint, 0 or more.
    pub thinner_per_paint: Option<f64>,
}

impl Setting {
    fn has_nan(&self) -> bool {
        let asked =
            [self.wet_thickness_um, self.temperature_degc, self.relative_humidity_pct, self.air_speed_m_s];
        let maybe = [self.solids_pct, self.binder_tg_degc, self.thinner_per_paint];
        asked.into_iter().chain(maybe.into_iter().flatten()).any(f64::is_nan)
    }
}

/// What is laid in every row.
#[derive(Debug, Clone)]
enum Laid {
    Blend(Box<Blend>),
    Mix(Box<Mix>),
    Paint(Box<(Paint, Blend)>),
}

/// What all rows of a table share, and what is asked of them.
///
/// ```
/// use mistcoat::blend::{Basis, Blend};
/// use mistcoat::film::{DryTable, Setting};
/// use mistcoat::progress::Progress;
/// let thinner = Blend::from_names(&[("acetone", 50.0), ("n-butyl acetate", 50.0)], Basis::Mass, None)?;
/// let wet_um = [10.0, 20.0, 40.0];
/// let table = DryTable::of_blend(&thinner);
/// let dried = table.run(
///     wet_um.len(),
///     |row| Setting {
///         wet_thickness_um: wet_um[row],
///         temperature_degc: 21.0,
///         relative_humidity_pct: 55.0,
///         air_speed_m_s: 0.15,
///         solids_pct: Some(15.0),
///         binder_tg_degc: None,
///         thinner_per_paint: None,
///     },
///     &Progress::new(wet_um.len()),
/// )?;
/// let flash_off = dried.column("flash_off_s").unwrap();
/// assert!(flash_off[0] < flash_off[1] && flash_off[1] < flash_off[2]);
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone)]
pub struct DryTable {
    laid: Laid,
    substrate: Substrate,
    part_length: Option<Length>,
    until: Option<Time>,
    lost: Vec<(String, Ratio)>,
    residual: Vec<(String, f64)>,
}

/// The way from a column to SI, looked up once.
#[derive(Debug, Clone, Copy)]
struct Units {
    micrometre: Unit,
    celsius: Unit,
    percent: Unit,
    metre_per_second: Unit,
}

impl Units {
    fn new() -> Result<Self> {
        Ok(Self {
            micrometre: *unit::<Length>("µm")?,
            celsius: *unit::<Temperature>("degC")?,
            percent: *unit::<Ratio>("%")?,
            metre_per_second: *unit::<Velocity>("m/s")?,
        })
    }
}

/// As [`crate::quantity::of`] does it, so that a row equals the coat stated by itself to the last bit.
fn si(value: f64, unit: Unit) -> f64 {
    (value + unit.offset) * unit.factor
}

/// How a row ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RowState {
    /// Not begun: the work was stopped before.
    Waiting,
    /// Dried.
    Dried,
    /// NaN among its settings.
    Empty,
    /// Settings outside what can be dried.
    Bad,
}

#[derive(Debug, Clone)]
struct Row {
    state: RowState,
    values: Vec<f64>,
}

/// The rows that could not be dried.
#[derive(Debug, Clone, PartialEq)]
pub struct BadRows {
    /// How many.
    pub count: usize,
    /// Index of the first.
    pub first: usize,
    /// What is wrong with the first.
    pub error: Error,
}

/// A table of dried coats: columns named with their units.
#[derive(Debug, Clone, PartialEq)]
pub struct DriedTable {
    names: Vec<String>,
    columns: Vec<Vec<f64>>,
    states: Vec<RowState>,
    bad: Option<BadRows>,
    warnings: Vec<Warning>,
}

impl DriedTable {
    /// Names of the columns, in order.
    pub fn names(&self) -> &[String] {
        &self.names
    }

    /// A column by its name; NaN where there is no such time, and for rows that are not [`RowState::Dried`].
    pub fn column(&self, name: &str) -> Option<&[f64]> {
        let index = self.names.iter().position(|n| n == name)?;
        self.columns.get(index).map(Vec::as_slice)
    }

    /// Names and columns, taken out.
    pub fn into_columns(self) -> Vec<(String, Vec<f64>)> {
        self.names.into_iter().zip(self.columns).collect()
    }

    /// How each row ended.
    pub fn states(&self) -> &[RowState] {
        &self.states
    }

    /// Whether no row was left waiting.
    pub fn is_complete(&self) -> bool {
        !self.states.contains(&RowState::Waiting)
    }

    /// The rows with settings that cannot be dried; those with NaN do not count.
    pub fn bad(&self) -> Option<&BadRows> {
        self.bad.as_ref()
    }

    /// What to mind about the liquids, seen at the first row: missing activity parameters, two liquids. Dew is told by
    /// the column `dew_margin_K`.
    pub fn warnings(&self) -> &[Warning] {
        &self.warnings
    }
}

impl DryTable {
    /// Volatile liquids, with the solids of each row.
    pub fn of_blend(blend: &Blend) -> Self {
        Self::of(Laid::Blend(Box::new(blend.clone())))
    }

    /// One thinned paint.
    pub fn of_mix(mix: &Mix) -> Self {
        Self::of(Laid::Mix(Box::new(mix.clone())))
    }

    /// A paint with the ratio of thinner of each row.
    pub fn of_paint(paint: &Paint, thinner: &Blend) -> Self {
        Self::of(Laid::Paint(Box::new((paint.clone(), thinner.clone()))))
    }

    fn of(laid: Laid) -> Self {
        Self {
            laid,
            substrate: Substrate::default(),
            part_length: None,
            until: None,
            lost: Vec::new(),
            residual: Vec::new(),
        }
    }

    /// On another substrate than 1.5 mm of polystyrene.
    #[must_use]
    pub fn with_substrate(mut self, substrate: Substrate) -> Self {
        self.substrate = substrate;
        self
    }

    /// On a part of another length than 100 mm.
    #[must_use]
    pub fn with_part_length(mut self, length: Length) -> Self {
        self.part_length = Some(length);
        self
    }

    /// Each coat followed for another time than 7 d.
    #[must_use]
    pub fn until(mut self, until: Time) -> Self {
        self.until = Some(until);
        self
    }

    /// Asks for the times to lose these shares of the volatile matter too, in percent: 50 gives the column `t50_s`.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a share outside 0 to 99.9 %.
    pub fn with_losses(mut self, percent: &[f64]) -> Result<Self> {
        let units = Units::new()?;
        for value in percent {
            let share = Ratio::from_si(si(*value, units.percent));
            check_share(share)?;
            self.lost.push((format!("t{value}_s"), share));
        }
        Ok(self)
    }

    /// Asks for the solvent left after these hours too, in percent of the volume of solvent and solids: 1 gives the column
    /// `residual_1h_pct`.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a negative time or NaN.
    pub fn with_residuals(mut self, hours: &[f64]) -> Result<Self> {
        for value in hours {
            if !(0.0..=f64::MAX).contains(value) {
                return Err(out_of_range(
                    "time after which solvent is asked for",
                    format!("{value} h"),
                    "0 h or more",
                    "count from the wet coat, for example 1 and 24 h",
                ));
            }
            self.residual.push((format!("residual_{value}h_pct"), value * HOUR_S));
        }
        Ok(self)
    }

    /// Names of the columns that a run gives.
    pub fn names(&self) -> Vec<String> {
        let lost = self.lost.iter().map(|(name, _)| name.clone());
        let residual = self.residual.iter().map(|(name, _)| name.clone());
        ALWAYS.iter().map(|name| (*name).to_owned()).chain(lost).chain(residual).collect()
    }

    /// The rows with settings that cannot be dried, found without drying any.
    ///
    /// # Errors
    /// None at present but damage to the tables of units.
    pub fn bad_rows(&self, rows: usize, setting: impl Fn(usize) -> Setting) -> Result<Option<BadRows>> {
        let units = Units::new()?;
        let mut films = HashMap::new();
        let mut bad: Option<BadRows> = None;
        for row in 0..rows {
            let setting = setting(row);
            if setting.has_nan() {
                continue;
            }
            if let Err(error) = self.film(&mut films, units, &setting) {
                bad.get_or_insert(BadRows { count: 0, first: row, error }).count += 1;
            }
        }
        Ok(bad)
    }

    /// Dries every row. Rows that cannot be dried do not stop the others: see [`DriedTable::bad`].
    ///
    /// # Errors
    /// None at present but damage to the tables of units.
    pub fn run(
        &self,
        rows: usize,
        setting: impl Fn(usize) -> Setting + Sync + Send,
        progress: &Progress,
    ) -> Result<DriedTable> {
        let units = Units::new()?;
        let names = self.names();
        let width = names.len();
        let mut all = vec![Row { state: RowState::Waiting, values: Vec::new() }; rows];
        for_rows(&mut all, progress, HashMap::new, |films, index, row| {
            let setting = setting(index);
            row.state = if setting.has_nan() {
                RowState::Empty
            } else {
                match self.film(films, units, &setting).and_then(|film| self.values(film, width)) {
                    Ok(values) => {
                        row.values = values;
                        RowState::Dried
                    }
                    Err(_) => RowState::Bad,
                }
            };
        });
        let states: Vec<RowState> = all.iter().map(|row| row.state).collect();
        let column =
            |i: usize| all.iter().map(|row| row.values.get(i).copied().unwrap_or(f64::NAN)).collect();
        let columns = (0..width).map(column).collect();
        let again = |index: usize| self.film(&mut HashMap::new(), units, &setting(index)).map(|f| f.clone());
        let mut bad = None;
        if let Some(first) = states.iter().position(|s| *s == RowState::Bad) {
            let count = states.iter().filter(|s| **s == RowState::Bad).count();
            let error = again(first).and_then(|film| self.values(&film, width)).err();
            bad = error.map(|error| BadRows { count, first, error });
        }
        let mut warnings = Vec::new();
        if let Some(first) = states.iter().position(|s| *s == RowState::Dried) {
            let film = again(first)?;
            warnings.extend(film.dry_moved(Moved::NOTHING)?.warnings);
            warnings.extend(phase_split(&film));
        }
        Ok(DriedTable { names, columns, states, bad, warnings })
    }

    /// The coat of a row. Thinned paints are kept, as working them out takes longer than drying them.
    fn film<'a>(&self, films: &'a mut HashMap<u64, Film>, units: Units, s: &Setting) -> Result<&'a mut Film> {
        let humidity = RelativeHumidity::new(si(s.relative_humidity_pct, units.percent))?;
        let room = Room::new(Temperature::from_si(si(s.temperature_degc, units.celsius)), humidity)?
            .with_air_speed(Velocity::from_si(si(s.air_speed_m_s, units.metre_per_second)))?;
        let thickness = Length::from_si(si(s.wet_thickness_um, units.micrometre));
        let key = s.thinner_per_paint.unwrap_or(0.0).to_bits();
        if films.len() > KEPT_MIXES {
            films.clear();
        }
        let film = match films.entry(key) {
            std::collections::hash_map::Entry::Occupied(kept) => kept.into_mut(),
            std::collections::hash_map::Entry::Vacant(free) => {
                let film = match (&self.laid, s.thinner_per_paint) {
                    (Laid::Blend(blend), None) => Film::new(blend, VolumeFraction::ZERO, thickness, &room)?,
                    (Laid::Mix(mix), None) => Film::of_mix(mix, thickness, &room)?,
                    (Laid::Paint(with), Some(thinner)) => {
                        let (paint, blend) = with.as_ref();
                        let thinning = Thinning::from_parts(Parts { thinner, paint: 1.0 })?;
                        Film::of_mix(&paint.thin(blend, thinning)?, thickness, &room)?
                    }
                    (Laid::Paint(_), None) => {
                        return Err(out_of_range(
                            "thinner per paint",
                            "not given",
                            "a number for every row of a paint",
                            "give thinner_per_paint, or a thinned paint",
                        ));
                    }
                    (_, Some(_)) => {
                        return Err(out_of_range(
                            "thinner per paint",
                            "given",
                            "none for a blend or a paint that is thinned already",
                            "give the paint and its thinner apart",
                        ));
                    }
                };
                let mut film = film.with_substrate(self.substrate.clone());
                if let Some(length) = self.part_length {
                    film = film.with_part_length(length)?;
                }
                if let Some(until) = self.until {
                    film = film.until(until)?;
                }
                free.insert(film)
            }
        };
        let solids = match (&self.laid, s.solids_pct) {
            (Laid::Blend(_), Some(percent)) => VolumeFraction::new(si(percent, units.percent))?,
            (_, None) => film.solids(),
            (_, Some(_)) => {
                return Err(out_of_range(
                    "volume solids",
                    "given",
                    "none for a paint, which brings its own",
                    "leave solids_pct out",
                ));
            }
        };
        film.relay(solids, thickness, room)?;
        if let Some(glass) = s.binder_tg_degc {
            film.harden(Binder::new(Temperature::from_si(si(glass, units.celsius)))?);
        }
        Ok(film)
    }

    fn values(&self, film: &Film, width: usize) -> Result<Vec<f64>> {
        let Course { trace, .. } = film.dry_moved(Moved::NOTHING)?;
        let after = |share: Ratio| first_time(&trace.segments, share).map_or(f64::NAN, Time::si);
        let touch_dry = if film.dispersion().is_some() {
            touch_dry_reader(film).and_then(|read| read(&trace)).ok()
        } else {
            trace.soft_until_s[0]
        };
        let coldest_k = trace.temperature_k.iter().copied().fold(f64::INFINITY, f64::min);
        let dew_k = film.room().dew_point().map_or(f64::NAN, Temperature::si);
        let mut values = Vec::with_capacity(width);
        values.extend([
            after(Ratio::from_si(FLASH_OFF_SHARE)),
            touch_dry.unwrap_or(f64::NAN),
            trace.soft_until_s[1].unwrap_or(f64::NAN),
            to(Temperature::from_si(coldest_k), "degC")?,
            coldest_k - dew_k,
        ]);
        values.extend(self.lost.iter().map(|(_, share)| after(*share)));
        let solids_m = film.dry_build().si();
        let followed_s = film.followed_for().si();
        for (_, time_s) in &self.residual {
            let known = solids_m > 0.0 && *time_s <= followed_s;
            let share = if known { residual_share(&trace.segments, solids_m, *time_s) } else { f64::NAN };
            values.push(to(Ratio::from_si(share), "%")?);
        }
        Ok(values)
    }
}
