//! Activity coefficients on columns of temperatures and compositions.

use crate::array::{Column, ColumnOut, OnBad, report};
use crate::blend::PyBlend;
use crate::errors::{CallResult, UnitError};
use mistcoat::blend::Activity;
use numpy::{IntoPyArray, ndarray::ArrayD};
use pyo3::prelude::*;
use rayon::prelude::*;

/// Temperatures in K for which the equations serve: -20 to 80 °C.
const TEMPERATURES_K: std::ops::RangeInclusive<f64> = 253.15..=353.15;
/// Rows from which a second core pays.
const PARALLEL_FROM: usize = 4096;

/// Activity coefficients on columns; the typed wrapper stands in `mistcoat.columns`.
#[pyfunction]
#[pyo3(signature = (temperature_k, mole_fractions, *, blend, model=None, errors="nan"))]
#[allow(clippy::needless_pass_by_value, reason = "extracted arguments")]
pub fn activity_coefficients(
    py: Python<'_>,
    temperature_k: Column<'_>,
    mole_fractions: Column<'_>,
    blend: PyRef<'_, PyBlend>,
    model: Option<&str>,
    errors: &str,
) -> CallResult<ColumnOut> {
    let on_bad = OnBad::parse(errors)?;
    let own;
    let activity = match model {
        None => blend.0.activity(),
        Some(text) => {
            own = Activity::new(blend.0.species().iter().map(|s| &s.solvent), Some(text.parse()?))?;
            &own
        }
    };
    let width = activity.len();
    let (x, shape) = match &mole_fractions {
        Column::Scalar(x) => (vec![*x], vec![1]),
        Column::Array(a) => (a.as_array().iter().copied().collect(), a.as_array().shape().to_vec()),
    };
    if shape.last() != Some(&width) {
        return Err(mistcoat::error::out_of_range(
            "last axis of mole_fractions",
            format!("{:?}", shape.last().copied().unwrap_or(0)),
            format!("{width}, one column for each of: {}", blend.species_names().join(", ")),
            "give the mole fractions in the order of blend.species",
        )
        .into());
    }
    let rows = x.len() / width;
    let temperatures = match &temperature_k {
        Column::Scalar(t) => vec![*t; rows],
        Column::Array(a) if a.as_array().len() == rows => a.as_array().iter().copied().collect(),
        Column::Array(a) => {
            return Err(mistcoat::error::out_of_range(
                "number of temperatures",
                a.as_array().len().to_string(),
                format!("1 or {rows}, one for each row of mole_fractions"),
                "give one temperature for all rows, or one for each",
            )
            .into());
        }
    };
    let mut out = vec![0.0; x.len()];
    py.detach(|| {
        let row = |scratch: &mut _, ((out, x), t): ((&mut [f64], &[f64]), &f64)| {
            let total: f64 = x.iter().sum();
            let good =
                TEMPERATURES_K.contains(t) && total.is_finite() && total > 0.0 && x.iter().all(|x| *x >= 0.0);
            if good {
                activity.ln_gamma(*t, x, scratch, out);
                for g in out.iter_mut() {
                    *g = g.exp();
                }
            } else {
                out.fill(f64::NAN);
            }
        };
        if rows >= PARALLEL_FROM {
            out.par_chunks_exact_mut(width)
                .zip(x.par_chunks_exact(width))
                .zip(&temperatures)
                .with_min_len(PARALLEL_FROM / 4)
                .for_each_init(|| activity.scratch(), row);
        } else {
            let mut scratch = activity.scratch();
            let columns = out.chunks_exact_mut(width).zip(x.chunks_exact(width)).zip(&temperatures);
            columns.for_each(|item| row(&mut scratch, item));
        }
    });
    let given =
        |row: usize| temperatures[row].is_nan() || x[row * width..][..width].iter().any(|v| v.is_nan());
    let mut bad = (0..rows).filter(|row| out[row * width].is_nan() && !given(*row));
    if let Some(first) = bad.next() {
        let limit = "a temperature of 253.15 to 353.15 K and mole fractions of 0 or more, not all 0";
        report(py, on_bad, "activity_coefficients", limit, 1 + bad.count(), first, temperatures[first])?;
    }
    let shaped = ArrayD::from_shape_vec(shape, out).map_err(|e| UnitError::new_err(e.to_string()))?;
    Ok(ColumnOut::Array(shaped.into_pyarray(py).unbind()))
}
