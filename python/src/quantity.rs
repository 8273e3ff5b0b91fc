//! One frozen Python class per dimension, and the argument type that accepts it.

use crate::errors::{CallError, CallResult, UnitError};
use crate::estimate::PyEstimate;
use mistcoat::quantity::{self as q, Quantity, exact_form, of, parse, show, show_beside, to};
use pyo3::{
    IntoPyObjectExt, intern,
    prelude::*,
    types::{PyBool, PyFloat, PyInt, PyString},
};
#[cfg(feature = "stubs")]
use pyo3::{type_hint_identifier, type_hint_union};
use std::{
    hash::{Hash, Hasher},
    marker::PhantomData,
};

/// A core quantity that has a Python face.
pub trait PyQuantity: Quantity {
    /// The Python object for a value: its class, or `float` for a plain number.
    fn wrap(self, py: Python<'_>) -> PyResult<Py<PyAny>>;
    /// The value inside an object of the class.
    fn unwrap(ob: &Bound<'_, PyAny>) -> Option<Self>;
    /// The class in a type stub.
    #[cfg(feature = "stubs")]
    const HINT: pyo3::inspect::PyStaticExpr;
}

/// A dimension as data, for classes that hold a value of any dimension.
#[derive(Clone, Copy)]
pub struct Dimension {
    pub class: &'static str,
    pub to: fn(f64, &str) -> mistcoat::Result<f64>,
    /// A value in the unit that suits another one beside it.
    pub show_beside: fn(f64, f64) -> String,
    pub wrap: fn(Python<'_>, f64) -> PyResult<Py<PyAny>>,
    pub customary: &'static str,
}

impl Dimension {
    pub fn of<Q: PyQuantity>() -> Self {
        Self {
            class: Q::CLASS,
            to: |si, unit| to(Q::from_si(si), unit),
            show_beside: |si, beside| show_beside(Q::from_si(si), Q::from_si(beside)),
            wrap: |py, si| Q::from_si(si).wrap(py),
            customary: Q::CUSTOMARY,
        }
    }
}

/// The first argument of a quantity class: a number when a unit follows, else anything [`Arg`] takes.
struct Given<'py, Q>(Bound<'py, PyAny>, PhantomData<Q>);

impl<'a, 'py, Q: PyQuantity> FromPyObject<'a, 'py> for Given<'py, Q> {
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const INPUT_TYPE: pyo3::inspect::PyStaticExpr = type_hint_union!(
        type_hint_identifier!("builtins", "float"),
        <Arg<Q> as FromPyObject<'a, 'py>>::INPUT_TYPE
    );

    fn extract(ob: Borrowed<'a, 'py, PyAny>) -> PyResult<Self> {
        Ok(Self(ob.to_owned(), PhantomData))
    }
}

fn construct<Q: PyQuantity>(value: &Bound<'_, PyAny>, unit: Option<&str>) -> CallResult<Q> {
    let Some(unit) = unit else {
        return Ok(value.extract::<Arg<Q>>()?.value);
    };
    if value.is_instance_of::<PyBool>() || value.is_instance_of::<PyString>() {
        let got = value.repr()?;
        let message = format!("{got} is not a number; write {}({}, {:?})", Q::CLASS, 1, Q::CUSTOMARY);
        return Err(UnitError::new_err(message).into());
    }
    Ok(of(value.extract::<f64>()?, unit)?)
}

/// `".3g"` in the customary unit, `".3g psi"` in a named one, nothing for the short form.
fn format_spec<Q: Quantity>(value: Q, spec: &Bound<'_, PyString>) -> CallResult<String> {
    let text = spec.to_str()?.trim();
    if text.is_empty() {
        return Ok(show(value));
    }
    let (number, unit) = text.split_once(' ').unwrap_or((text, Q::CUSTOMARY));
    let (number, unit) = if q::unit::<Q>(text).is_ok() { ("", text) } else { (number, unit.trim()) };
    let float = PyFloat::new(spec.py(), to(value, unit)?);
    let shown = float.call_method1("__format__", (number,))?;
    Ok(format!("{shown} {unit}"))
}

fn checked<Q: Quantity>(si: f64, what: &str) -> CallResult<Q> {
    if si.is_finite() {
        Ok(Q::from_si(si))
    } else {
        Err(UnitError::new_err(format!("{what} gives no finite {}", Q::NAME)).into())
    }
}

fn hash_si(si: f64) -> u64 {
    let mut h = std::collections::hash_map::DefaultHasher::new();
    (si + 0.0).to_bits().hash(&mut h); // -0.0 and 0.0 hash alike
    h.finish()
}

macro_rules! py_quantity {
    ($Py:ident, $Q:ty, $class:literal, $example:literal { $($extra:tt)* }) => {
        #[doc = concat!("A value of dimension ", $class, " with its unit: ``", $class, "(\"", $example, "\")`` or ``", $class,
            "(number, unit)``.\n\nImmutable. ``.to(unit)`` gives the number, ``format(q, \".3g unit\")`` prints it. ",
            "Compares, adds and scales within its dimension; hashes and pickles.")]
        #[pyclass(frozen, eq, ord, name = $class, module = "mistcoat")]
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
        pub struct $Py(pub $Q);

        impl PyQuantity for $Q {
            fn wrap(self, py: Python<'_>) -> PyResult<Py<PyAny>> {
                $Py(self).into_py_any(py)
            }
            fn unwrap(ob: &Bound<'_, PyAny>) -> Option<Self> {
                ob.cast::<$Py>().ok().map(|v| v.get().0)
            }
            #[cfg(feature = "stubs")]
            const HINT: pyo3::inspect::PyStaticExpr = <$Py as pyo3::PyTypeInfo>::TYPE_HINT;
        }

        #[pymethods]
        impl $Py {
            #[new]
            #[pyo3(signature = (value, unit=None))]
            #[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
            fn new(value: Given<'_, $Q>, unit: Option<&str>) -> CallResult<Self> {
                Ok(Self(construct(&value.0, unit)?))
            }
            /// The number in the named unit.
            fn to(&self, unit: &str) -> CallResult<f64> {
                Ok(to(self.0, unit)?)
            }
            /// The units understood, the SI unit first.
            #[staticmethod]
            fn units() -> Vec<&'static str> {
                <$Q as Quantity>::UNITS.iter().map(|u| u.symbols[0]).collect()
            }
            fn __repr__(&self) -> String {
                let (value, unit) = exact_form(self.0);
                format!("{}({value:?}, {unit:?})", $class)
            }
            fn __str__(&self) -> String {
                show(self.0)
            }
            fn __format__(&self, spec: &Bound<'_, PyString>) -> CallResult<String> {
                format_spec(self.0, spec)
            }
            fn __hash__(&self) -> u64 {
                hash_si(self.0.si())
            }
            fn __getnewargs__(&self) -> (f64, &'static str) {
                (self.0.si(), <$Q as Quantity>::UNITS[0].symbols[0])
            }
            $($extra)*
        }
    };
}

/// The classes whose values add, subtract and scale.
macro_rules! py_linear {
    ($($Py:ident, $Q:ty, $class:literal, $example:literal;)+) => {$(
        py_quantity!($Py, $Q, $class, $example {
            fn __add__(&self, other: Arg<$Q>) -> CallResult<Self> {
                Ok(Self(checked(self.0.si() + other.value.si(), "the sum")?))
            }
            fn __sub__(&self, other: Arg<$Q>) -> CallResult<Self> {
                Ok(Self(checked(self.0.si() - other.value.si(), "the difference")?))
            }
            fn __mul__(&self, factor: f64) -> CallResult<Self> {
                Ok(Self(checked(self.0.si() * factor, "the product")?))
            }
            fn __rmul__(&self, factor: f64) -> CallResult<Self> {
                self.__mul__(factor)
            }
            /// A quantity over its like is a plain number; over a number it is scaled.
            fn __truediv__<'py>(&self, py: Python<'py>, divisor: &Bound<'py, PyAny>) -> CallResult<Py<PyAny>> {
                if let Ok(number) = divisor.extract::<f64>() {
                    return Ok(Self(checked(self.0.si() / number, "the quotient")?).into_py_any(py)?);
                }
                let other = divisor.extract::<Arg<$Q>>()?;
                Ok((self.0.si() / other.value.si()).into_py_any(py)?)
            }
            fn __neg__(&self) -> Self {
                Self(<$Q as Quantity>::from_si(-self.0.si()))
            }
            fn __abs__(&self) -> Self {
                Self(<$Q as Quantity>::from_si(self.0.si().abs()))
            }
        });
    )+};
}

py_quantity!(PyTemperature, q::Temperature, "Temperature", "21 °C" {
    fn __add__(&self, difference: Arg<q::TemperatureDifference>) -> CallResult<Self> {
        Ok(Self(checked(self.0.si() + difference.value.si(), "the sum")?))
    }
    /// A temperature less a difference is a temperature; less a temperature it is a difference.
    fn __sub__<'py>(&self, py: Python<'py>, other: &Bound<'py, PyAny>) -> CallResult<Py<PyAny>> {
        if let Some(t) = <q::Temperature as PyQuantity>::unwrap(other) {
            return Ok(q::TemperatureDifference::from_si(self.0.si() - t.si()).wrap(py)?);
        }
        let d = other.extract::<Arg<q::TemperatureDifference>>()?;
        Ok(Self(checked(self.0.si() - d.value.si(), "the difference")?).into_py_any(py)?)
    }
});

py_linear! {
    PyTemperatureDifference, q::TemperatureDifference, "TemperatureDifference", "3 K";
    PyPressure, q::Pressure, "Pressure", "20 psi";
    PyLength, q::Length, "Length", "0.3 mm";
    PyArea, q::Area, "Area", "120 cm2";
    PyVolume, q::Volume, "Volume", "5 mL";
    PyMass, q::Mass, "Mass", "0.41 g";
    PyTime, q::Time, "Time", "35 s";
    PyDensity, q::Density, "Density", "0.88 g/mL";
    PyMassConcentration, q::MassConcentration, "MassConcentration", "420 g/L";
    PyDynamicViscosity, q::DynamicViscosity, "DynamicViscosity", "18 mPa.s";
    PyKinematicViscosity, q::KinematicViscosity, "KinematicViscosity", "40 mm2/s";
    PySurfaceTension, q::SurfaceTension, "SurfaceTension", "25 mN/m";
    PyDiffusivity, q::Diffusivity, "Diffusivity", "7.2 mm2/s";
    PyMolarMass, q::MolarMass, "MolarMass", "116.16 g/mol";
    PyMolarVolume, q::MolarVolume, "MolarVolume", "132.6 cm3/mol";
    PyMolarEnergy, q::MolarEnergy, "MolarEnergy", "43.9 kJ/mol";
    PyMassFlux, q::MassFlux, "MassFlux", "0.19 g/(m2.s)";
    PyVelocity, q::Velocity, "Velocity", "0.1 m/s";
    PyFrequency, q::Frequency, "Frequency", "1 /h";
    PyVolumeRate, q::VolumeRate, "VolumeRate", "12 L/min";
    PySpreadingRate, q::SpreadingRate, "SpreadingRate", "8 m2/L";
    PyOpticalCoefficient, q::OpticalCoefficient, "OpticalCoefficient", "0.1 1/µm";
    PySolubilityParameter, q::SolubilityParameter, "SolubilityParameter", "15.8 MPa^0.5";
    PyRatio, q::Ratio, "Ratio", "55 %";
}

impl PyQuantity for q::Number {
    fn wrap(self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.si().into_py_any(py)
    }
    fn unwrap(ob: &Bound<'_, PyAny>) -> Option<Self> {
        ob.cast::<PyFloat>().ok().map(|f| Self::from_si(f.value()))
    }
    #[cfg(feature = "stubs")]
    const HINT: pyo3::inspect::PyStaticExpr = type_hint_identifier!("builtins", "float");
}

/// The dimension behind a class name; how an unpickled [`PyEstimate`] finds its own.
pub fn dimension(class: &str) -> Option<Dimension> {
    macro_rules! table {
        ($($Q:ident),+ $(,)?) => {
            match class { $(stringify!($Q) => Some(Dimension::of::<q::$Q>()),)+ _ => None }
        };
    }
    table!(
        Area,
        Density,
        Diffusivity,
        DynamicViscosity,
        Frequency,
        KinematicViscosity,
        Length,
        Mass,
        MassConcentration,
        MassFlux,
        MolarEnergy,
        MolarMass,
        MolarVolume,
        Number,
        OpticalCoefficient,
        Pressure,
        Ratio,
        SolubilityParameter,
        SpreadingRate,
        SurfaceTension,
        Temperature,
        TemperatureDifference,
        Time,
        Velocity,
        Volume,
        VolumeRate,
    )
}

/// What a function that wants a quantity accepts: its class, text such as `"60 s"`, an `Estimate` of it, or
/// a quantity of another units library. A bare number is refused, because its unit would be a guess.
#[derive(Debug, Clone, Copy)]
pub struct Arg<Q> {
    /// The best value.
    pub value: Q,
    /// Standard uncertainty in SI units; zero unless an `Estimate` was given.
    pub std: f64,
}

impl<'a, 'py, Q: PyQuantity> FromPyObject<'a, 'py> for Arg<Q> {
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const INPUT_TYPE: pyo3::inspect::PyStaticExpr = type_hint_union!(
        Q::HINT,
        type_hint_identifier!("builtins", "str"),
        <PyEstimate as pyo3::PyTypeInfo>::TYPE_HINT,
        type_hint_identifier!("mistcoat.protocols", "HasUnits")
    );

    fn extract(ob: Borrowed<'a, 'py, PyAny>) -> PyResult<Self> {
        if let Some(value) = Q::unwrap(&ob) {
            return Ok(Self { value, std: 0.0 });
        }
        if let Ok(text) = ob.cast::<PyString>() {
            let value = parse(text.to_str()?).map_err(CallError::from)?;
            return Ok(Self { value, std: 0.0 });
        }
        if let Ok(estimate) = ob.cast::<PyEstimate>() {
            let e = estimate.get();
            if e.dimension.class == Q::CLASS {
                return Ok(Self { value: Q::from_si(e.best), std: e.std() });
            }
            return Err(wrong_dimension::<Q>(e.dimension.class));
        }
        if ob.is_instance_of::<PyInt>() || ob.is_instance_of::<PyFloat>() {
            return Err(bare_number::<Q>(&ob));
        }
        if let Some(value) = foreign::<Q>(&ob)? {
            return Ok(Self { value, std: 0.0 });
        }
        let name = ob.get_type().name()?;
        if dimension(name.to_str()?).is_some() {
            return Err(wrong_dimension::<Q>(name.to_str()?));
        }
        Err(UnitError::new_err(format!(
            "expected a {} with a unit, for example {:?} or {}; got {}",
            Q::NAME,
            Q::EXAMPLE,
            corrected_call::<Q>("1"),
            ob.repr()?
        )))
    }
}

fn corrected_call<Q: Quantity>(number: &str) -> String {
    format!("{}({number}, {:?})", Q::CLASS, Q::CUSTOMARY)
}

#[cold]
fn bare_number<Q: Quantity>(ob: &Bound<'_, PyAny>) -> PyErr {
    let number = ob.repr().map_or_else(|_| "1".to_owned(), |r| r.to_string());
    // 0.55 may be a share or a percentage: both readings are shown, as with a bare "2:1".
    if let (true, Ok(share)) = (Q::CLASS == "Ratio", ob.extract::<f64>())
        && share.abs() <= 1.0
    {
        let percent = q::digits(share * 100.0, 6);
        return UnitError::new_err(format!(
            "bare number {number} for a {}: its unit would be a guess; write \"{percent} %\" if it is a share of one, \
             \"{number} %\" if it is a percentage",
            Q::NAME
        ));
    }
    UnitError::new_err(format!(
        "bare number {number} for a {}: its unit would be a guess; write \"{number} {}\" or {}",
        Q::NAME,
        Q::CUSTOMARY,
        corrected_call::<Q>(&number)
    ))
}

#[cold]
fn wrong_dimension<Q: Quantity>(got: &str) -> PyErr {
    UnitError::new_err(format!(
        "expected a {}, got a {got}; write for example {:?} or {}",
        Q::NAME,
        Q::EXAMPLE,
        corrected_call::<Q>("1")
    ))
}

/// A quantity of a units library: `.to(unit).magnitude`.
fn foreign<Q: Quantity>(ob: &Bound<'_, PyAny>) -> PyResult<Option<Q>> {
    let py = ob.py();
    if !ob.hasattr(intern!(py, "magnitude"))? || !ob.hasattr(intern!(py, "to"))? {
        return Ok(None);
    }
    if Q::CLASS == "TemperatureDifference" {
        let units = ob.getattr(intern!(py, "units"))?.str()?.to_string();
        if units.contains("degree") && !units.contains("delta") {
            return Err(UnitError::new_err(format!(
                "{units} is a temperature on its scale, a temperature difference was wanted; write for example \"3 K\""
            )));
        }
    }
    let unit = algebraic(Q::UNITS[0].symbols[0]);
    let converted = ob.call_method1(intern!(py, "to"), (unit,)).map_err(|cause| {
        // One kind of error for every wrong dimension; what the other library said stays as its cause.
        let got = ob.str().map_or_else(|_| "quantity of another dimension".to_owned(), |s| s.to_string());
        let error = wrong_dimension::<Q>(&format!("quantity of {got}"));
        error.set_cause(py, Some(cause));
        error
    })?;
    let value: f64 = converted.getattr(intern!(py, "magnitude"))?.extract()?;
    let value = of(value, Q::UNITS[0].symbols[0]).map_err(CallError::from)?;
    Ok(Some(value))
}

/// `kg/(m2.s)` in the form units libraries parse: `kg/(m**2*s)`.
fn algebraic(symbol: &str) -> String {
    let mut out = String::new();
    for c in symbol.chars() {
        match c {
            '.' if !out.ends_with('0') => out.push('*'),
            '^' => out.push_str("**"),
            c if c.is_ascii_digit() && out.chars().last().is_some_and(char::is_alphabetic) => {
                out.push_str("**");
                out.push(c);
            }
            c => out.push(c),
        }
    }
    if out.starts_with('/') { format!("1{out}") } else { out }
}
