//! `Binder`, `Dispersion` and `OxidativeCure` in Python: what stays in the film, and how it hardens.

use crate::blend::PyBlend;
use crate::errors::CallResult;
use crate::estimate::PyEstimate;
use crate::quantity::{Arg, PyDensity, PyDiffusivity, PyRatio};
use mistcoat::estimate::{Estimate, ModelError};
use mistcoat::film::{Binder, Dispersion};
use mistcoat::paint::OxidativeCure;
use mistcoat::quantity::{self as q, Quantity};
use pyo3::prelude::*;

/// The binder of a coat that dries by losing solvent.
///
/// ``tg``: glass transition of the dry binder, -123 to 227 °C, known within 10 K unless an ``Estimate`` is given. ``density``
/// 0.7 to 2.5 g/mL, 1.18 g/mL unless given. ``pigment``: its share of the volume of the dry film, none unless given.
/// ``diffusivity_at_glass`` of solvent, 1e-14 m2/s unless measured; ``steepness`` of its rise above the glass transition as
/// a share of that of viscosity, 0.05 to 1, 0.37 unless fitted. ``chi``, ``chi_of_water``: interaction parameters of Flory and
/// Huggins with the solvents (-1 to 2, 0.4 unless given) and with water (0 to 6, 3 unless given). Values outside raise
/// ``RangeError``.
///
/// >>> import mistcoat as mc
/// >>> binder = mc.Binder(tg="60 degC", density="1.15 g/mL", pigment="12 %", chi=0.35)
/// >>> binder.chi, binder.share
/// (0.35, Ratio(88.0, "%"))
#[pyclass(frozen, eq, name = "Binder", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyBinder(pub Binder);

#[pymethods]
impl PyBinder {
    #[new]
    #[pyo3(signature = (*, tg, density=None, pigment=None, diffusivity_at_glass=None, steepness=None, chi=None,
        chi_of_water=None))]
    #[allow(
        clippy::too_many_arguments,
        clippy::needless_pass_by_value,
        reason = "keyword arguments of Python"
    )]
    fn new(
        tg: Arg<q::Temperature>,
        density: Option<Arg<q::Density>>,
        pigment: Option<Arg<q::Ratio>>,
        diffusivity_at_glass: Option<Arg<q::Diffusivity>>,
        steepness: Option<f64>,
        chi: Option<f64>,
        chi_of_water: Option<f64>,
    ) -> CallResult<Self> {
        let mut binder = if tg.std > 0.0 {
            Binder::estimated(&known(tg.value, tg.std, "glass transition of the binder"))?
        } else {
            Binder::new(tg.value)?
        };
        if let Some(density) = density {
            binder = binder.with_density(density.value)?;
        }
        if let Some(share) = pigment {
            binder = binder.with_pigment(share.value.try_into()?)?;
        }
        if let Some(diffusivity) = diffusivity_at_glass {
            binder = binder.with_diffusivity_at_glass(diffusivity.value)?;
        }
        if let Some(steepness) = steepness {
            binder = binder.with_steepness(q::Number::from_si(steepness))?;
        }
        if let Some(chi) = chi {
            binder = binder.with_chi(q::Number::from_si(chi))?;
        }
        if let Some(chi) = chi_of_water {
            binder = binder.with_chi_of_water(q::Number::from_si(chi))?;
        }
        Ok(Self(binder))
    }
    /// Glass transition of the dry binder.
    #[getter]
    fn tg(&self) -> PyEstimate {
        PyEstimate::new(self.0.glass_transition().clone())
    }
    /// Density of the binder.
    #[getter]
    fn density(&self) -> PyDensity {
        PyDensity(self.0.density())
    }
    /// Binder as a share of the volume of solids; the rest is pigment.
    #[getter]
    fn share(&self) -> PyRatio {
        PyRatio(self.0.share())
    }
    /// Diffusivity of solvent at the glass transition.
    #[getter]
    fn diffusivity_at_glass(&self) -> PyDiffusivity {
        PyDiffusivity(self.0.diffusivity_at_glass())
    }
    /// Steepness of its rise above the glass transition, as a share of that of viscosity.
    #[getter]
    fn steepness(&self) -> f64 {
        self.0.steepness().si()
    }
    /// Interaction parameter with the solvents.
    #[getter]
    fn chi(&self) -> f64 {
        self.0.chi().si()
    }
    /// Interaction parameter with water.
    #[getter]
    fn chi_of_water(&self) -> f64 {
        self.0.chi_of_water().si()
    }
}

crate::json::travels!(PyBinder, "The binder", evaluates);

fn known(best: q::Temperature, std: f64, what: &str) -> Estimate<q::Temperature> {
    Estimate::absolute(best, &[ModelError::new(what, std)])
}

/// The binder of a waterborne coat: particles that flow together above their minimum film-formation temperature.
///
/// ``mfft`` without coalescing aid, -50 to 100 °C, known within 3 K unless an ``Estimate`` is given. ``pigment``: its share of
/// the volume of the dry film, none unless given. Values outside raise ``RangeError``.
///
/// >>> import mistcoat as mc
/// >>> particles = mc.Dispersion(mfft="15 degC")
/// >>> carrier = mc.Blend({"water": 95, "dipropylene glycol methyl ether": 5}, basis="volume")
/// >>> particles.film_formation_temperature(carrier, solids="30 %").to("degC") < 0
/// True
#[pyclass(frozen, eq, name = "Dispersion", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyDispersion(pub Dispersion);

#[pymethods]
impl PyDispersion {
    #[new]
    #[pyo3(signature = (*, mfft, pigment=None))]
    #[allow(clippy::needless_pass_by_value, reason = "keyword arguments of Python")]
    fn new(mfft: Arg<q::Temperature>, pigment: Option<Arg<q::Ratio>>) -> CallResult<Self> {
        let mut particles = if mfft.std > 0.0 {
            Dispersion::estimated(&known(mfft.value, mfft.std, "minimum film-formation temperature"))?
        } else {
            Dispersion::new(mfft.value)?
        };
        if let Some(share) = pigment {
            particles = particles.with_pigment(share.value.try_into()?)?;
        }
        Ok(Self(particles))
    }
    /// Minimum film-formation temperature without coalescing aid.
    #[getter]
    fn mfft(&self) -> PyEstimate {
        PyEstimate::new(self.0.bare().clone())
    }
    /// The same with the coalescing aid (glycol ethers) of a carrier: 2.5 K lower for each mass per cent on the binder, up to
    /// 12 % (common practice). ``solids``: volume solids of the wet paint.
    #[pyo3(signature = (volatile, *, solids))]
    #[allow(clippy::needless_pass_by_value, reason = "arguments of Python")]
    fn film_formation_temperature(
        &self,
        volatile: &PyBlend,
        solids: Arg<q::Ratio>,
    ) -> CallResult<PyEstimate> {
        let solids = solids.value.try_into()?;
        Ok(PyEstimate::new(self.0.film_formation_temperature(&volatile.0, solids)?))
    }
}

crate::json::travels!(PyDispersion, "The particles", evaluates);

/// How long a paint takes to harden by oxygen once its solvent has left: ranges of common practice, not computed.
#[pyclass(frozen, eq, name = "OxidativeCure", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyOxidativeCure(pub OxidativeCure);

#[pymethods]
impl PyOxidativeCure {
    /// Until a light touch takes nothing away.
    #[getter]
    fn touch(&self) -> PyEstimate {
        PyEstimate::new(self.0.touch.clone())
    }
    /// Until the next coat of the same paint.
    #[getter]
    fn recoat(&self) -> PyEstimate {
        PyEstimate::new(self.0.recoat.clone())
    }
    /// Until hard all the way through.
    #[getter]
    fn through(&self) -> PyEstimate {
        PyEstimate::new(self.0.through.clone())
    }
    /// What speeds and slows it.
    #[getter]
    fn words(&self) -> &str {
        &self.0.words
    }
    /// Rags that heat up by themselves.
    #[getter]
    fn caution(&self) -> &str {
        &self.0.caution
    }
    fn __str__(&self) -> String {
        format!("{}. {}", self.0, self.0.caution)
    }
    fn __repr__(&self) -> String {
        format!("<OxidativeCure: touch dry {}, through {}>", self.0.touch, self.0.through)
    }
}

crate::json::pickles!(PyOxidativeCure);
