//! Arguments of more than one form: a viscosity of either kind, seconds, a reading, a temperature left out.

use crate::cup::PyFlowCup;
use crate::dose::Share;
use crate::errors::{CallError, CallResult};
use crate::quantity::{Arg, PyQuantity};
use mistcoat::error::out_of_range;
use mistcoat::estimate::{Estimate, ModelError};
use mistcoat::paint::{Measured, PaintReading};
use mistcoat::quantity::{self as q, Quantity, show};
use pyo3::{
    exceptions::PyTypeError,
    prelude::*,
    types::{PyBool, PyFloat, PyInt, PyTuple},
};
#[cfg(feature = "stubs")]
use pyo3::{type_hint_identifier, type_hint_union};

/// An argument as an estimate; its spread, when it has one, acts as a factor.
pub fn estimate<Q: PyQuantity>(arg: &Arg<Q>) -> Estimate<Q> {
    if arg.std == 0.0 {
        return Estimate::exact(arg.value);
    }
    Estimate::relative(arg.value, &[ModelError::new("as given", arg.std / arg.value.si().abs())])
}

fn number(ob: &Bound<'_, PyAny>) -> Option<f64> {
    let is_number =
        (ob.is_instance_of::<PyFloat>() || ob.is_instance_of::<PyInt>()) && !ob.is_instance_of::<PyBool>();
    if is_number { ob.extract().ok() } else { None }
}

/// A number of seconds, since the argument is called `seconds`, or a `Time` or text such as `"45 s"`.
pub struct Seconds(pub q::Time);

impl<'a, 'py> FromPyObject<'a, 'py> for Seconds {
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const INPUT_TYPE: pyo3::inspect::PyStaticExpr = type_hint_union!(
        type_hint_identifier!("builtins", "float"),
        <Arg<q::Time> as FromPyObject<'a, 'py>>::INPUT_TYPE
    );

    fn extract(ob: Borrowed<'a, 'py, PyAny>) -> PyResult<Self> {
        let seconds = number(&ob).map(q::Time::from_si);
        seconds.map_or_else(|| Ok(Self(ob.extract::<Arg<q::Time>>()?.value)), |t| Ok(Self(t)))
    }
}

/// A dynamic or a kinematic viscosity.
pub enum AnyViscosity {
    Dynamic(Estimate<q::DynamicViscosity>),
    Kinematic(Estimate<q::KinematicViscosity>),
}

impl<'a, 'py> FromPyObject<'a, 'py> for AnyViscosity {
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const INPUT_TYPE: pyo3::inspect::PyStaticExpr = type_hint_union!(
        <Arg<q::DynamicViscosity> as FromPyObject<'a, 'py>>::INPUT_TYPE,
        <q::KinematicViscosity as PyQuantity>::HINT
    );

    fn extract(ob: Borrowed<'a, 'py, PyAny>) -> PyResult<Self> {
        match ob.extract::<Arg<q::DynamicViscosity>>() {
            Ok(v) => Ok(Self::Dynamic(estimate(&v))),
            // What fits neither is reported as the dynamic viscosity that was most likely meant.
            Err(e) => ob
                .extract::<Arg<q::KinematicViscosity>>()
                .map(|v| Self::Kinematic(estimate(&v)))
                .map_err(|_| e),
        }
    }
}

impl AnyViscosity {
    pub fn dynamic(self) -> CallResult<Estimate<q::DynamicViscosity>> {
        match self {
            Self::Dynamic(v) => Ok(v),
            Self::Kinematic(v) => Err(mixed(show(v.best), "dynamic", "18 mPa.s")),
        }
    }

    pub fn kinematic(self) -> CallResult<Estimate<q::KinematicViscosity>> {
        match self {
            Self::Kinematic(v) => Ok(v),
            Self::Dynamic(v) => Err(mixed(show(v.best), "kinematic", "40 mm2/s")),
        }
    }
}

fn mixed(value: String, kind: &str, example: &str) -> CallError {
    out_of_range(
        "viscosity",
        value,
        format!("a {kind} viscosity, as the thinner's"),
        format!("give all viscosities of one law in one kind, for example \"{example}\""),
    )
    .into()
}

pub fn at_20c() -> q::Temperature {
    q::Temperature::from_si(293.15)
}

pub fn or_20c(t: Option<Arg<q::Temperature>>) -> q::Temperature {
    t.map_or_else(at_20c, |t| t.value)
}

/// One reading: ``(paint_fraction, viscosity, temperature)`` or ``(paint_fraction, cup, time, temperature)``.
pub struct Reading(pub PaintReading);

impl<'a, 'py> FromPyObject<'a, 'py> for Reading {
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const INPUT_TYPE: pyo3::inspect::PyStaticExpr = type_hint_union!(
        <(Share, AnyViscosity, Arg<q::Temperature>) as FromPyObject<'a, 'py>>::INPUT_TYPE,
        <(Share, PyRef<'py, PyFlowCup>, Arg<q::Time>, Arg<q::Temperature>) as FromPyObject<'a, 'py>>::INPUT_TYPE
    );

    fn extract(ob: Borrowed<'a, 'py, PyAny>) -> PyResult<Self> {
        let form = "a reading is (paint_fraction, viscosity, temperature) or (paint_fraction, cup, time, \
                    temperature), for example (1.0, \"135 mPa.s\", \"20 degC\")";
        let wrong = || PyTypeError::new_err(form);
        let tuple = ob.cast::<PyTuple>().map_err(|_| wrong())?;
        let x = tuple.get_item(0).map_err(|_| wrong())?.extract::<Share>()?.0;
        let temperature = |i: usize| -> PyResult<q::Temperature> {
            Ok(tuple.get_item(i)?.extract::<Arg<q::Temperature>>()?.value)
        };
        Ok(Self(match tuple.len() {
            3 => {
                let measured = match tuple.get_item(1)?.extract::<AnyViscosity>()? {
                    AnyViscosity::Dynamic(v) => Measured::Viscosity(v),
                    AnyViscosity::Kinematic(v) => Measured::KinematicViscosity(v),
                };
                PaintReading { paint_fraction: q::Ratio::from_si(x), temperature: temperature(2)?, measured }
            }
            4 => {
                let cup = tuple.get_item(1)?;
                let cup = cup.cast::<PyFlowCup>().map_err(|_| wrong())?.get();
                let time = tuple.get_item(2)?.extract::<Arg<q::Time>>()?;
                PaintReading::cup_time(x, &cup.0, estimate(&time), temperature(3)?)
            }
            _ => return Err(wrong()),
        }))
    }
}
