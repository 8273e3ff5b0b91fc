//! Droppers.

use crate::errors::CallResult;
use crate::estimate::PyEstimate;
use crate::quantity::{Arg, PyLength, PyQuantity};
use mistcoat::dose::Dropper;
use mistcoat::error::out_of_range;
use mistcoat::quantity as q;
use pyo3::prelude::*;

/// A dropper, pipette or bottle tip: ``Dropper(tip="3 mm")``.
///
/// ``tip`` is the outer diameter, which a liquid that wets the tip hangs from; ``bore`` is for a liquid that does not wet
/// it. ``by_hand=True`` adds the 5 % by which drops let fall by hand are heavier. ``Dropper.weighed`` and
/// ``Dropper.counted`` are better than the theory: use them for your own liquid.
///
/// >>> import mistcoat as mc
/// >>> d = mc.Dropper.weighed(drops=20, mass="0.41 g", density="0.88 g/mL")
/// >>> print(d.drop_volume().best)
/// 23.3 µL
#[pyclass(frozen, eq, name = "Dropper", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyDropper(pub Dropper);

/// What `drop_volume` needs of a liquid: asked of any object with these methods, so that a blend, a solvent or a mix
/// will do.
fn asked<Q: PyQuantity>(liquid: &Bound<'_, PyAny>, method: &str, at: &Bound<'_, PyAny>) -> PyResult<Q> {
    Ok(liquid.call_method1(method, (at,))?.extract::<Arg<Q>>()?.value)
}

#[pymethods]
impl PyDropper {
    #[new]
    #[pyo3(signature = (*, tip=None, bore=None, by_hand=false))]
    fn new(tip: Option<Arg<q::Length>>, bore: Option<Arg<q::Length>>, by_hand: bool) -> CallResult<Self> {
        let dropper = match (tip, bore) {
            (Some(d), None) => Dropper::tip(d.value)?,
            (None, Some(d)) => Dropper::unwetted_tip(d.value)?,
            _ => {
                return Err(out_of_range(
                    "dropper",
                    if tip.is_some() { "tip and bore" } else { "neither tip nor bore" },
                    "one of tip= and bore=",
                    "give the outer diameter, Dropper(tip=\"3 mm\"); bore= only for a liquid that does not wet the tip",
                )
                .into());
            }
        };
        Ok(Self(if by_hand { dropper.by_hand() } else { dropper }))
    }
    /// Drops weighed together: 20 of them on a scale that reads 0.01 g. Good for that liquid only.
    #[staticmethod]
    fn weighed(drops: u32, mass: Arg<q::Mass>, density: Arg<q::Density>) -> CallResult<Self> {
        Ok(Self(Dropper::weighed(drops, mass.value, density.value)?))
    }
    /// Drops counted into a graduated syringe or cylinder. Good for that liquid only.
    #[staticmethod]
    fn counted(drops: u32, volume: Arg<q::Volume>) -> CallResult<Self> {
        Ok(Self(Dropper::counted(drops, volume.value)?))
    }
    /// The tip that gives this drop of this liquid: measure with water, then use it for other liquids.
    #[staticmethod]
    fn tip_from_drop(
        drop: Arg<q::Volume>,
        surface_tension: Arg<q::SurfaceTension>,
        density: Arg<q::Density>,
    ) -> CallResult<Self> {
        Ok(Self(Dropper::tip_from_drop(drop.value, surface_tension.value, density.value)?))
    }
    /// Volume of one drop of a liquid, with its interval: ±10 %, ±35 % above 100 mPa s.
    ///
    /// ``liquid`` is anything that answers ``surface_tension(temperature)`` and ``density(temperature)``, such as a
    /// ``Blend``; or give ``surface_tension`` and ``density`` (and ``viscosity`` of a thick liquid). A weighed or counted
    /// dropper needs none of them.
    #[pyo3(signature = (liquid=None, temperature=None, *, surface_tension=None, density=None, viscosity=None))]
    fn drop_volume(
        &self,
        py: Python<'_>,
        liquid: Option<&Bound<'_, PyAny>>,
        temperature: Option<&Bound<'_, PyAny>>,
        surface_tension: Option<Arg<q::SurfaceTension>>,
        density: Option<Arg<q::Density>>,
        viscosity: Option<Arg<q::DynamicViscosity>>,
    ) -> CallResult<PyEstimate> {
        let viscosity = viscosity.map(|v| v.value);
        let (gamma, rho, viscosity) = match (liquid, temperature, surface_tension, density) {
            (Some(liquid), Some(at), None, None) => {
                let eta = match viscosity {
                    Some(eta) => Some(eta),
                    None if liquid.hasattr("viscosity")? => Some(asked(liquid, "viscosity", at)?),
                    None => None,
                };
                (asked(liquid, "surface_tension", at)?, asked(liquid, "density", at)?, eta)
            }
            (None, None, Some(gamma), Some(rho)) => (gamma.value, rho.value, viscosity),
            _ => {
                if let Some(v) = self.0.measured() {
                    return Ok(PyEstimate::new(v.clone()));
                }
                return Err(out_of_range(
                    "liquid of the drop",
                    "incomplete",
                    "a liquid with a temperature, or surface_tension= with density=",
                    "write for example drop_volume(blend, \"20 degC\")",
                )
                .into());
            }
        };
        Ok(PyEstimate::answer(py, self.0.drop_volume(gamma, rho, viscosity)?)?)
    }
    /// Diameter of the circle from which the drop hangs; ``None`` for a measured dropper.
    #[getter]
    fn tip_diameter(&self) -> Option<PyLength> {
        self.0.tip_diameter().map(PyLength)
    }
    fn __repr__(&self) -> String {
        match (self.0.tip_diameter(), self.0.measured()) {
            (Some(d), _) => format!("<Dropper with a tip of {}>", q::show(d)),
            (None, Some(v)) => format!("<Dropper of {v} a drop>"),
            (None, None) => "<Dropper>".to_owned(),
        }
    }
}

crate::json::pickles!(PyDropper);
