//! The air at the gun against the lower flammable limit, in Python.

use crate::errors::CallResult;
use crate::estimate::{PyEstimate, PyWorking};
use crate::fire::PyFlammableLimit;
use crate::quantity::{Arg, PyLength, PyRatio};
use crate::spray::PyShot;
use mistcoat::quantity as q;
use mistcoat::safety::{self, GunAir, NearGun};
use pyo3::prelude::*;

/// The air at a gun that sprays, against the lower flammable limit: in the spray at these ``distances`` from the nozzle (5 to
/// 500 mm; a tenth, a quarter, half and the whole distance of the part unless given) and around the work. ``None`` when
/// nothing in the mix burns.
///
/// Vapour alone, and with the mist, which burns though its vapour alone is too thin. No number here makes a flame near a gun
/// safe.
///
/// >>> import mistcoat as mc
/// >>> thinner = mc.Blend({"acetone": 40, "n-butyl acetate": 60}, basis="volume")
/// >>> mix = mc.demo_paint("hull green").thin(thinner, thinner=1, paint=1)
/// >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
/// >>> shot = mc.Airbrush(nozzle="0.3 mm", pressure="20 psi", distance="80 mm").spray(mix, room)
/// >>> air = mc.safety.near_gun(shot)
/// >>> air.places[0].with_mist.best > air.places[-1].with_mist.best
/// True
/// >>> any("mist" in caution for caution in air.cautions)
/// True
#[pyfunction]
#[pyo3(signature = (shot, distances=Vec::new()))]
#[allow(clippy::needless_pass_by_value, reason = "extracted arguments")]
pub fn near_gun(shot: PyRef<'_, PyShot>, distances: Vec<Arg<q::Length>>) -> CallResult<Option<PyNearGun>> {
    let distances: Vec<q::Length> = distances.iter().map(|x| x.value).collect();
    Ok(safety::near_gun(&shot.0, &distances)?.map(PyNearGun))
}

/// The air in the spray at one distance from the nozzle.
#[pyclass(frozen, eq, name = "GunAir", module = "mistcoat.safety")]
#[derive(Clone, PartialEq)]
pub struct PyGunAir(pub GunAir);

#[pymethods]
impl PyGunAir {
    /// Distance from the nozzle.
    #[getter]
    fn distance(&self) -> PyLength {
        PyLength(self.0.distance)
    }
    /// Share of the sprayed solvent that is vapour there.
    #[getter]
    fn evaporated(&self) -> PyRatio {
        PyRatio(self.0.evaporated)
    }
    /// Vapour on the axis, by volume of air.
    #[getter]
    fn vapour(&self) -> PyRatio {
        PyRatio(self.0.vapour)
    }
    /// Share of the lower flammable limit, vapour alone.
    #[getter]
    fn share_of_limit(&self) -> PyEstimate {
        PyEstimate::new(self.0.share_of_limit.clone())
    }
    /// Share of the lower flammable limit with all solvent counted as vapour: what burns in a mist.
    #[getter]
    fn with_mist(&self) -> PyEstimate {
        PyEstimate::new(self.0.with_mist.clone())
    }
    fn __repr__(&self) -> String {
        format!(
            "<GunAir at {}: {} of the limit with the mist>",
            q::show(self.0.distance),
            q::show(self.0.with_mist.best)
        )
    }
}

crate::json::pickles!(PyGunAir);

/// How near to burning the air at the gun is; prints as a table with the cautions under it.
#[pyclass(frozen, eq, name = "NearGun", module = "mistcoat.safety")]
#[derive(Clone, PartialEq)]
pub struct PyNearGun(pub NearGun);

#[pymethods]
impl PyNearGun {
    /// The air in the spray, from near to far.
    #[getter]
    fn places(&self) -> Vec<PyGunAir> {
        self.0.places.iter().cloned().map(PyGunAir).collect()
    }
    /// Share of the lower flammable limit within half a metre of the work; adds to what the room already holds.
    #[getter]
    fn around(&self) -> PyEstimate {
        PyEstimate::new(self.0.around.clone())
    }
    /// Up to here the spray, mist and all, passes the limit.
    #[getter]
    fn burns_to(&self) -> PyLength {
        PyLength(self.0.burns_to)
    }
    /// Up to here it passes a quarter of the limit.
    #[getter]
    fn quarter_to(&self) -> PyLength {
        PyLength(self.0.quarter_to)
    }
    /// Fresh air that keeps the vapour of this gun at a quarter of the limit, evenly mixed.
    #[getter]
    fn air_for_quarter(&self) -> PyEstimate {
        PyEstimate::new(self.0.air_for_quarter.clone())
    }
    /// Lower flammable limit of all that evaporates.
    #[getter]
    fn limit(&self) -> PyFlammableLimit {
        PyFlammableLimit(self.0.limit.clone())
    }
    /// What to mind; never empty.
    #[getter]
    fn warnings(&self) -> Vec<String> {
        self.0.warnings.iter().map(|w| w.message.clone()).collect()
    }
    /// What goes with the numbers wherever they are shown; never empty, and who decides comes last.
    #[getter]
    fn cautions(&self) -> Vec<String> {
        self.0.cautions()
    }
    /// Citations of what the numbers rest on, each with how far to trust it.
    #[getter]
    fn citations(&self) -> Vec<String> {
        self.0.citations()
    }
    /// Formulas with numbers and sources.
    fn working(&self) -> PyWorking {
        PyWorking(self.0.working().clone())
    }
}

crate::table::shows!(PyNearGun, "Places in the spray, and the cautions under them.");

crate::json::pickles!(PyNearGun);
