//! What column functions accept and return: a float, or anything `numpy.asarray` reads as float64.
//! A float in gives a float out; an array in gives a new array of the same shape out.

use crate::errors::{CallResult, RangeError};
use numpy::{PyArrayDyn, PyArrayMethods, PyReadonlyArrayDyn, PyUntypedArray, PyUntypedArrayMethods};
use pyo3::{
    exceptions::PyTypeError,
    intern,
    prelude::*,
    sync::PyOnceLock,
    types::{PyBool, PyFloat, PyInt},
};
#[cfg(feature = "stubs")]
use pyo3::{inspect::PyStaticExpr, type_hint_identifier, type_hint_subscript, type_hint_union};
use rayon::prelude::*;

/// A column: one number or an array.
pub enum Column<'py> {
    Scalar(f64),
    Array(PyReadonlyArrayDyn<'py, f64>),
}

/// A result in the shape the input had.
pub enum ColumnOut {
    Scalar(f64),
    Array(Py<PyArrayDyn<f64>>),
}

/// What to do with rows that have no answer.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum OnBad {
    Nan,
    Raise,
}

impl OnBad {
    pub fn parse(text: &str) -> CallResult<Self> {
        match text {
            "nan" => Ok(Self::Nan),
            "raise" => Ok(Self::Raise),
            other => Err(mistcoat::error::unknown_name(
                "errors mode",
                other,
                ["nan", "raise"],
                "errors is \"nan\" (bad rows become NaN, counted in a warning) or \"raise\"",
            )
            .into()),
        }
    }
}

fn asarray<'py>(ob: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
    static ASARRAY: PyOnceLock<Py<PyAny>> = PyOnceLock::new();
    ASARRAY.import(ob.py(), "numpy", "asarray")?.call1((ob,))
}

#[cold]
fn refuse(ob: &Bound<'_, PyAny>, why: &str) -> PyErr {
    let name = ob.get_type().name().map_or_else(|_| "object".into(), |n| n.to_string());
    PyTypeError::new_err(format!("{name}: {why}"))
}

impl<'a, 'py> FromPyObject<'a, 'py> for Column<'py> {
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr = type_hint_union!(
        type_hint_identifier!("builtins", "float"),
        type_hint_identifier!("numpy.typing", "ArrayLike")
    );

    fn extract(ob: Borrowed<'a, 'py, PyAny>) -> PyResult<Self> {
        if let Ok(f) = ob.cast::<PyFloat>() {
            return Ok(Self::Scalar(f.value())); // a numpy float64 is a float as well
        }
        if ob.is_instance_of::<PyBool>() {
            return Err(refuse(&ob, "expected real numbers"));
        }
        if ob.is_exact_instance_of::<PyInt>() {
            return Ok(Self::Scalar(ob.extract()?));
        }
        let py = ob.py();
        // Plain ndarray only: a subclass may carry units or a mask, which numpy would drop without a word.
        if ob.is_exact_instance_of::<PyUntypedArray>() {
            if let Ok(a) = ob.cast::<PyArrayDyn<f64>>() {
                return Ok(Self::Array(a.try_readonly()?));
            }
        } else {
            let masked = ob.is_instance_of::<PyUntypedArray>() && ob.hasattr(intern!(py, "mask"))?;
            for attribute in [intern!(py, "units"), intern!(py, "unit")] {
                if masked || ob.hasattr(attribute)? {
                    return Err(refuse(
                        &ob,
                        "carries its own units or mask; pass plain numbers in the unit the argument is named after",
                    ));
                }
            }
        }
        let a = asarray(&ob)?;
        let kind: char = a.getattr(intern!(py, "dtype"))?.getattr(intern!(py, "kind"))?.extract()?;
        if !matches!(kind, 'f' | 'i' | 'u') {
            return Err(refuse(&ob, &format!("expected real numbers, got dtype kind {kind:?}")));
        }
        let a = match a.cast_into::<PyArrayDyn<f64>>() {
            Ok(a) => a, // no copy
            Err(e) => e
                .into_inner()
                .call_method1(intern!(py, "astype"), (intern!(py, "float64"),))?
                .cast_into::<PyArrayDyn<f64>>()?,
        };
        if a.ndim() == 0 {
            return Ok(Self::Scalar(ob.extract()?));
        }
        Ok(Self::Array(a.try_readonly()?))
    }
}

impl<'py> IntoPyObject<'py> for ColumnOut {
    type Target = PyAny;
    type Output = Bound<'py, PyAny>;
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const OUTPUT_TYPE: PyStaticExpr = type_hint_union!(
        type_hint_identifier!("builtins", "float"),
        type_hint_subscript!(
            type_hint_identifier!("numpy.typing", "NDArray"),
            type_hint_identifier!("numpy", "float64")
        )
    );
    fn into_pyobject(self, py: Python<'py>) -> PyResult<Self::Output> {
        Ok(match self {
            Self::Scalar(v) => PyFloat::new(py, v).into_any(),
            Self::Array(a) => a.into_bound(py).into_any(),
        })
    }
}

/// Elements from which a second core pays.
const PARALLEL_FROM: usize = 100_000;
/// Elements one core takes at a time.
const CHUNK: usize = 32_768;

impl Column<'_> {
    /// Runs `f` on every element, with the interpreter released for arrays and on all cores for long ones.
    /// `f` answers NaN for a row that has no answer; NaN in stays NaN without being counted as bad.
    ///
    /// `what` names the argument and `limit` what it must satisfy, for the message about bad rows.
    pub fn map(
        &self,
        py: Python<'_>,
        on_bad: OnBad,
        what: &str,
        limit: &str,
        f: impl Fn(f64) -> f64 + Sync,
    ) -> CallResult<ColumnOut> {
        match self {
            Self::Scalar(x) => {
                let y = f(*x);
                if y.is_nan() {
                    report(py, on_bad, what, limit, 1, 0, *x)?;
                }
                Ok(ColumnOut::Scalar(y))
            }
            Self::Array(a) => {
                let view = a.as_array();
                // numpy allocates the result: its large arrays sit on large pages, which a plain vector does not.
                let out = PyArrayDyn::<f64>::zeros(py, view.raw_dim(), false);
                let bad = {
                    let mut writer = out.readwrite();
                    let values = writer.as_slice_mut().map_err(|e| PyTypeError::new_err(e.to_string()))?;
                    py.detach(|| {
                        let clean = match view.as_slice() {
                            Some(s) if s.len() >= PARALLEL_FROM => values
                                .par_chunks_mut(CHUNK)
                                .zip(s.par_chunks(CHUNK))
                                .map(|(y, x)| fill(y, x, &f))
                                .reduce(|| true, |a, b| a & b),
                            Some(s) => fill(values, s, &f),
                            None => view.iter().zip(values.iter_mut()).fold(true, |clean, (&x, y)| {
                                *y = f(x);
                                clean & !y.is_nan()
                            }),
                        };
                        if clean { None } else { first_bad(view.iter().copied(), values) }
                    })
                };
                if let Some((count, index, x)) = bad {
                    report(py, on_bad, what, limit, count, index, x)?;
                }
                Ok(ColumnOut::Array(out.unbind()))
            }
        }
    }
}

/// Fills `y` from `x`; true when no value is NaN. Without branches, so that it becomes vector code.
fn fill(y: &mut [f64], x: &[f64], f: impl Fn(f64) -> f64) -> bool {
    let mut bad = false;
    for (y, &x) in y.iter_mut().zip(x) {
        *y = f(x);
        bad |= y.is_nan();
    }
    !bad
}

/// How many rows went from a number to NaN, and the first of them.
fn first_bad(inputs: impl Iterator<Item = f64>, outputs: &[f64]) -> Option<(usize, usize, f64)> {
    let mut bad = inputs.zip(outputs).enumerate().filter(|(_, (x, y))| y.is_nan() && !x.is_nan());
    let (index, (x, _)) = bad.next()?;
    Some((1 + bad.count(), index, x))
}

/// Says which rows were bad: raises, or warns.
#[cold]
pub fn report(
    py: Python<'_>,
    on_bad: OnBad,
    what: &str,
    limit: &str,
    count: usize,
    index: usize,
    value: f64,
) -> CallResult<()> {
    let remedy = "mend or drop these rows, or pass errors=\"nan\" to keep them as NaN";
    let message =
        format!("{what}: {count} bad row(s), first at index {index}: {value}; allowed is {limit}; {remedy}");
    match on_bad {
        OnBad::Raise => {
            Err(RangeError::new_err((message, what.to_owned(), value.to_string(), limit.to_owned(), remedy))
                .into())
        }
        OnBad::Nan if value.is_nan() => Ok(()),
        OnBad::Nan => {
            crate::estimate::warn_all(py, &[mistcoat::Warning::new("bad-rows", message)])?;
            Ok(())
        }
    }
}
