//! `DilutionLaw`: viscosity against thinner.

use super::arguments::AnyViscosity;
use crate::dose::Share;
use crate::errors::CallResult;
use crate::estimate::{PyEstimate, warn_all};
use crate::quantity::PyRatio;
use mistcoat::estimate::Estimate;
use mistcoat::paint::{DilutionLaw, DilutionReading, Family, ShapePrior, Viscosity};
use mistcoat::quantity::{self as q, Quantity, VolumeFraction};
use pyo3::prelude::*;
use serde::{Deserialize, Serialize};

#[derive(Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Law {
    Dynamic(DilutionLaw<q::DynamicViscosity>),
    Kinematic(DilutionLaw<q::KinematicViscosity>),
}

/// How viscosity falls with thinner: ``ln(eta/eta_s) = a x / (1 - b x)``, ``x`` the volume of stock paint per
/// volume of mix, ``eta_s`` the viscosity of the thinner.
///
/// Build one with ``DilutionLaw.fit`` from readings, or take that of a paint with ``Paint.law``. Holds alike for
/// dynamic and kinematic viscosity, at the one temperature of its readings. Measured error: glycerol-water from two
/// readings 3.3 %, a waterborne paint 0.23 s in 20 s of a Ford cup, polymer solutions 24 % rms from one reading and
/// 11 % median from two. Shear thinning is neglected.
///
/// >>> import mistcoat as mc
/// >>> law = mc.DilutionLaw.fit([(1, "120 mPa.s"), (0.7, "38 mPa.s")], thinner_viscosity="0.7 mPa.s")
/// >>> print(law.viscosity(0.5).best)
/// 15.1 mPa.s
/// >>> print(law.paint_fraction_for("18 mPa.s").best)
/// 53.6 %
#[pyclass(frozen, eq, name = "DilutionLaw", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyDilutionLaw(Law);

macro_rules! with_law {
    ($law:expr, $l:ident => $body:expr) => {
        match $law {
            Law::Dynamic($l) => $body,
            Law::Kinematic($l) => $body,
        }
    };
}

fn fit<V: Viscosity>(
    readings: Vec<(f64, Estimate<V>)>,
    thinner: &Estimate<V>,
    prior: &ShapePrior,
) -> CallResult<DilutionLaw<V>> {
    let readings = readings
        .into_iter()
        .map(|(x, v)| DilutionReading::new(x, v))
        .collect::<mistcoat::Result<Vec<_>>>()?;
    Ok(DilutionLaw::fit(&readings, thinner, prior)?)
}

impl From<DilutionLaw<q::DynamicViscosity>> for PyDilutionLaw {
    fn from(law: DilutionLaw<q::DynamicViscosity>) -> Self {
        Self(Law::Dynamic(law))
    }
}

#[pymethods]
impl PyDilutionLaw {
    /// Fits the law to ``(paint_fraction, viscosity)`` readings by least squares in ln viscosity.
    ///
    /// ``paint_fraction``, above 0 up to 1 (or text, ``"70 %"``), is 1 for the stock paint; one reading is enough, a
    /// second between 0.55 and 0.85 fixes the shape. ``viscosity`` and ``thinner_viscosity`` are dynamic
    /// (``"38 mPa.s"``) or kinematic (``"40 mm2/s"``), all of one kind and at one temperature. ``family`` names the
    /// paint family whose habit stands in for what the readings leave open; ``None`` takes a wide one. A reading
    /// without a spread is given that of a flow cup (5 % at 95 %).
    ///
    /// Raises ``RangeError`` for no reading, a fraction outside (0, 1], a reading at or below the thinner's viscosity,
    /// viscosities of two kinds, or a viscosity that rises on adding thinner; ``UnknownName`` for a family.
    #[staticmethod]
    #[pyo3(signature = (readings, thinner_viscosity, family=None))]
    fn fit(
        py: Python<'_>,
        readings: Vec<(Share, AnyViscosity)>,
        thinner_viscosity: AnyViscosity,
        family: Option<&str>,
    ) -> CallResult<Self> {
        let prior = match family {
            Some(name) => Family::find(name)?.shape_prior()?.clone(),
            None => ShapePrior::unknown()?,
        };
        let law = match thinner_viscosity {
            AnyViscosity::Dynamic(thinner) => {
                let rows =
                    readings.into_iter().map(|(x, v)| Ok((x.0, v.dynamic()?))).collect::<CallResult<_>>()?;
                Law::Dynamic(fit(rows, &thinner, &prior)?)
            }
            AnyViscosity::Kinematic(thinner) => {
                let rows = readings
                    .into_iter()
                    .map(|(x, v)| Ok((x.0, v.kinematic()?)))
                    .collect::<CallResult<_>>()?;
                Law::Kinematic(fit(rows, &thinner, &prior)?)
            }
        };
        warn_all(py, with_law!(&law, l => l.warnings()))?;
        Ok(Self(law))
    }
    /// Constant ``a`` of the law, no unit: ``(1 - b) ln(eta_paint/eta_s)``, above 0.
    #[getter]
    fn a(&self) -> f64 {
        with_law!(&self.0, l => l.a())
    }
    /// Shape constant ``b`` of the law, no unit, below 1: 0 is a straight line in ln viscosity, above 0 thins faster at
    /// first, below 0 slower.
    #[getter]
    fn b(&self) -> f64 {
        with_law!(&self.0, l => l.b())
    }
    /// Shape constant ``b`` with its interval, no unit.
    #[getter]
    fn shape(&self) -> PyEstimate {
        PyEstimate::new(with_law!(&self.0, l => l.shape()))
    }
    /// Viscosity of the stock paint as the law sees it, with its interval; dynamic or kinematic as the readings.
    #[getter]
    fn paint_viscosity(&self) -> PyEstimate {
        with_law!(&self.0, l => PyEstimate::new(l.paint_viscosity()))
    }
    /// Viscosity of the thinner, ``eta_s`` of the law; dynamic or kinematic as the readings.
    #[getter]
    fn thinner_viscosity(&self) -> PyEstimate {
        with_law!(&self.0, l => PyEstimate::new(l.thinner_viscosity()))
    }
    /// Viscosity of a mix with this volume fraction of stock paint, with its interval; dynamic or kinematic as the
    /// readings.
    ///
    /// ``paint_fraction`` is above 0 up to 1, or text such as ``"50 %"``. Raises ``RangeError`` at 0, since pure
    /// thinner is not a mix, and above 1.
    fn viscosity(&self, paint_fraction: Share) -> CallResult<PyEstimate> {
        let x = VolumeFraction::new(paint_fraction.0)?;
        // What there is to mind about the readings was said when the law was fitted.
        Ok(with_law!(&self.0, l => PyEstimate::kept(l.viscosity(x)?)))
    }
    /// Volume fraction of stock paint, 0 to 1, that gives the wanted viscosity, with its interval.
    ///
    /// ``viscosity`` is of the law's own kind, above the thinner's and up to the paint's; ``RangeError`` outside.
    fn paint_fraction_for(&self, viscosity: AnyViscosity) -> CallResult<PyEstimate> {
        Ok(PyEstimate::kept(match &self.0 {
            Law::Dynamic(l) => l.paint_fraction_for(viscosity.dynamic()?.best)?,
            Law::Kinematic(l) => l.paint_fraction_for(viscosity.kinematic()?.best)?,
        }))
    }
    /// Thinner to add for the wanted viscosity, as a share of the paint's volume: 1 means as much thinner as paint.
    ///
    /// ``viscosity`` is of the law's own kind, above the thinner's and up to the paint's; ``RangeError`` outside.
    fn thinner_per_paint_for(&self, viscosity: AnyViscosity) -> CallResult<PyRatio> {
        Ok(PyRatio(match &self.0 {
            Law::Dynamic(l) => l.thinner_per_paint_for(viscosity.dynamic()?.best)?,
            Law::Kinematic(l) => l.thinner_per_paint_for(viscosity.kinematic()?.best)?,
        }))
    }
    /// Slope ``d ln(viscosity)/dx = a/(1 - b x)^2``, no unit: at 7, one percent more paint makes the mix 7 % thicker.
    ///
    /// ``paint_fraction`` is above 0 up to 1; ``RangeError`` outside.
    fn sensitivity(&self, paint_fraction: Share) -> CallResult<f64> {
        let x = VolumeFraction::new(paint_fraction.0)?;
        Ok(with_law!(&self.0, l => l.sensitivity(x)?.si()))
    }
    /// What to mind about the readings behind the law, one text each; empty when there is nothing.
    #[getter]
    fn warnings(&self) -> Vec<String> {
        with_law!(&self.0, l => l.warnings().iter().map(|w| w.message.clone()).collect())
    }
    fn __str__(&self) -> String {
        with_law!(&self.0, l => format!(
            "{} paint in {} thinner, a = {:.4}, b = {:.3}", l.paint_viscosity(), l.thinner_viscosity(), l.a(), l.b()
        ))
    }
    fn __repr__(&self) -> String {
        format!("<DilutionLaw {}>", self.__str__())
    }
}

crate::json::travels!(PyDilutionLaw, "The law");
