//! Tables of drying coats: columns of settings in, columns of times out.

use crate::array::{Column, ColumnOut, OnBad};
use crate::blend::{Liquid, PyBlend};
use crate::dict::Ordered;
use crate::errors::{CallResult, Interrupted, RangeError, UnitError};
use crate::estimate::warn_all;
use crate::paint::{PyMix, PyPaint};
use crate::quantity::Arg;
use crate::watch::watched;
use mistcoat::Warning;
use mistcoat::film::{BadRows, DryTable, RowState, Setting, Substrate};
use mistcoat::progress::Progress;
use mistcoat::quantity as q;
use numpy::{IntoPyArray, PyArrayDyn, ndarray::ArrayD};
use pyo3::{exceptions::PyKeyboardInterrupt, prelude::*};
use std::borrow::Cow;

/// What is laid in every row.
#[derive(FromPyObject)]
pub enum Laid<'py> {
    /// A paint; thinner and ratio come apart.
    Paint(PyRef<'py, PyPaint>),
    /// A thinned paint.
    Mix(PyRef<'py, PyMix>),
    /// Volatile liquids.
    Blend(PyRef<'py, PyBlend>),
}

/// A column stretched to the shape of all: one number, or one for each row.
enum Stretched<'a> {
    Same(f64),
    Each(Cow<'a, [f64]>),
}

impl Stretched<'_> {
    fn at(&self, row: usize) -> f64 {
        match self {
            Self::Same(x) => *x,
            Self::Each(all) => all[row],
        }
    }
}

/// The shape that all columns stretch to, by numpy's rule: from the last axis on, lengths are equal or 1.
fn common_shape<'a>(columns: impl Iterator<Item = (&'static str, &'a Column<'a>)>) -> CallResult<Vec<usize>> {
    let mut shape: Vec<usize> = Vec::new();
    for (name, column) in columns {
        let Column::Array(a) = column else { continue };
        let own = a.as_array().shape().to_vec();
        let mut longer = vec![1; own.len().saturating_sub(shape.len())];
        longer.append(&mut shape);
        shape = longer;
        let offset = shape.len() - own.len();
        for (all, own) in shape.iter_mut().skip(offset).zip(own) {
            if *all == 1 {
                *all = own;
            } else if own != 1 && own != *all {
                return Err(mistcoat::error::out_of_range(
                    format!("length of {name}"),
                    own.to_string(),
                    format!("1 or {all}, as the columns before it"),
                    "give every column one number, the same length, or shapes that numpy can broadcast",
                )
                .into());
            }
        }
    }
    Ok(shape)
}

fn stretch<'a>(column: &'a Column<'_>, shape: &[usize]) -> CallResult<Stretched<'a>> {
    Ok(match column {
        Column::Scalar(x) => Stretched::Same(*x),
        Column::Array(a) => {
            if a.as_slice().is_ok() && numpy::PyUntypedArrayMethods::shape(&**a) == shape {
                Stretched::Each(Cow::Borrowed(a.as_slice().map_err(|e| UnitError::new_err(e.to_string()))?))
            } else {
                let view = a.as_array();
                let whole = view
                    .broadcast(shape.to_vec())
                    .ok_or_else(|| UnitError::new_err("columns that do not broadcast"))?;
                Stretched::Each(Cow::Owned(whole.iter().copied().collect()))
            }
        }
    })
}

/// Dries a table of coats; the typed wrapper stands in `mistcoat.columns`.
#[pyfunction]
#[pyo3(signature = (wet, *, thinner, wet_thickness_um, temperature_degc, relative_humidity_pct, air_speed_m_s,
    solids_pct, binder_tg_degc, thinner_per_paint, substrate, substrate_thickness, part_length, until, lost_pct,
    residual_h, errors, progress))]
#[allow(
    clippy::too_many_arguments,
    clippy::needless_pass_by_value,
    reason = "keyword arguments of one question"
)]
pub fn dry_columns<'py>(
    py: Python<'py>,
    wet: Laid<'py>,
    thinner: Option<Liquid>,
    wet_thickness_um: Column<'py>,
    temperature_degc: Column<'py>,
    relative_humidity_pct: Column<'py>,
    air_speed_m_s: Column<'py>,
    solids_pct: Option<Column<'py>>,
    binder_tg_degc: Option<Column<'py>>,
    thinner_per_paint: Option<Column<'py>>,
    substrate: &str,
    substrate_thickness: Option<Arg<q::Length>>,
    part_length: Option<Arg<q::Length>>,
    until: Option<Arg<q::Time>>,
    lost_pct: Vec<f64>,
    residual_h: Vec<f64>,
    errors: &str,
    progress: Option<Bound<'py, PyAny>>,
) -> CallResult<Ordered<ColumnOut>> {
    let on_bad = OnBad::parse(errors)?;
    let table = match (wet, thinner) {
        (Laid::Paint(paint), Some(thinner)) => DryTable::of_paint(&paint.0, &thinner.0),
        (Laid::Mix(mix), None) => DryTable::of_mix(&mix.0),
        (Laid::Blend(blend), None) => DryTable::of_blend(&blend.0),
        (Laid::Paint(_), None) => {
            let why = "a Paint needs its thinner: columns.dry(paint, thinner=..., thinner_per_paint=...)";
            return Err(UnitError::new_err(why).into());
        }
        (_, Some(_)) => {
            let why = "thinner goes with a Paint; a Mix or a Blend is complete: leave it out";
            return Err(UnitError::new_err(why).into());
        }
    };
    let mut plate = Substrate::named(substrate)?;
    if let Some(thickness) = substrate_thickness {
        plate = plate.with_thickness(thickness.value)?;
    }
    let mut table = table.with_substrate(plate).with_losses(&lost_pct)?.with_residuals(&residual_h)?;
    if let Some(length) = part_length {
        table = table.with_part_length(length.value);
    }
    if let Some(until) = until {
        table = table.until(until.value);
    }

    let given = [
        ("wet_thickness_um", Some(&wet_thickness_um)),
        ("temperature_degC", Some(&temperature_degc)),
        ("relative_humidity_pct", Some(&relative_humidity_pct)),
        ("air_speed_m_s", Some(&air_speed_m_s)),
        ("solids_pct", solids_pct.as_ref()),
        ("binder_tg_degC", binder_tg_degc.as_ref()),
        ("thinner_per_paint", thinner_per_paint.as_ref()),
    ];
    let scalar = given.iter().all(|(_, c)| !matches!(c, Some(Column::Array(_))));
    let shape = common_shape(given.iter().filter_map(|(name, column)| Some((*name, (*column)?))))?;
    let stretched = given
        .iter()
        .map(|(_, column)| column.map(|c| stretch(c, &shape)).transpose())
        .collect::<CallResult<Vec<_>>>()?;
    let rows: usize = shape.iter().product();
    let setting = |row: usize| {
        let at = |column: usize| stretched[column].as_ref().map(|c| c.at(row));
        Setting {
            wet_thickness_um: at(0).unwrap_or(f64::NAN),
            temperature_degc: at(1).unwrap_or(f64::NAN),
            relative_humidity_pct: at(2).unwrap_or(f64::NAN),
            air_speed_m_s: at(3).unwrap_or(f64::NAN),
            solids_pct: at(4),
            binder_tg_degc: at(5),
            thinner_per_paint: at(6),
        }
    };

    if on_bad == OnBad::Raise {
        let bad = py.detach(|| table.bad_rows(rows, setting))?;
        if let Some(bad) = bad {
            return Err(report(&bad).into());
        }
    }
    let handle = Progress::new(rows);
    let (dried, stopped) = watched(py, &handle, progress.as_ref(), || table.run(rows, setting, &handle));
    let dried = dried?;
    let warnings = dried.warnings().to_vec();
    let bad = dried.bad().cloned();
    let finished: Vec<bool> = dried.states().iter().map(|s| *s != RowState::Waiting).collect();
    let mut columns = Vec::new();
    for (name, values) in dried.into_columns() {
        let column = match values.first() {
            Some(value) if scalar => ColumnOut::Scalar(*value),
            _ => ColumnOut::Array(shaped(py, &shape, values)?),
        };
        columns.push((name, column));
    }
    let columns = Ordered(columns);
    if let Some(stop) = stopped {
        return Err(interrupted(py, stop, columns, shaped(py, &shape, finished)?)?.into());
    }
    warn_all(py, &warnings)?;
    if let Some(bad) = bad {
        match on_bad {
            OnBad::Raise => return Err(report(&bad).into()),
            OnBad::Nan => warn_all(py, &[Warning::new("bad-rows", message(&bad))])?,
        }
    }
    Ok(columns)
}

fn shaped<T: numpy::Element>(
    py: Python<'_>,
    shape: &[usize],
    values: Vec<T>,
) -> CallResult<Py<PyArrayDyn<T>>> {
    let array =
        ArrayD::from_shape_vec(shape.to_vec(), values).map_err(|e| UnitError::new_err(e.to_string()))?;
    Ok(array.into_pyarray(py).unbind())
}

/// What stopped the work, with what was finished by then.
fn interrupted(
    py: Python<'_>,
    stop: PyErr,
    partial: Ordered<ColumnOut>,
    finished: Py<PyArrayDyn<bool>>,
) -> CallResult<PyErr> {
    if stop.is_instance_of::<PyKeyboardInterrupt>(py) {
        let error = Interrupted::new_err((partial.into_pyobject(py)?.unbind(), finished));
        error.set_cause(py, Some(stop));
        return Ok(error);
    }
    let value = stop.value(py);
    // An exception class may refuse attributes; what went wrong is then still told.
    let _ = value.setattr("partial", partial.into_pyobject(py)?);
    let _ = value.setattr("finished", finished);
    Ok(stop)
}

const REMEDY: &str = "mend or drop these rows, or pass errors=\"nan\" to keep them as NaN";

fn message(bad: &BadRows) -> String {
    format!("dry: {} bad row(s), first at index {}: {}; {REMEDY}", bad.count, bad.first, bad.error)
}

#[cold]
fn report(bad: &BadRows) -> PyErr {
    let (value, limit) = match &bad.error {
        mistcoat::Error::Range(e) => (e.value.clone(), e.limit.clone()),
        _ => (String::new(), String::new()),
    };
    RangeError::new_err((message(bad), "dry".to_owned(), value, limit, REMEDY.to_owned()))
}
