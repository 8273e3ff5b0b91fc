//! Solids and films, volatiles, pigment, alligation.

use super::Share;
use super::thinning::ThinningArg;
use crate::errors::CallResult;
use crate::quantity::{Arg, PyLength, PyMassConcentration, PySpreadingRate};
use mistcoat::dose::{self, VocContent};
use mistcoat::error::out_of_range;
use mistcoat::quantity::{self as q, Quantity};
use pyo3::prelude::*;

/// Parts of a strong and a weak stock, adding up to 1, that give ``target`` between them: (strong, weak).
#[pyfunction]
pub fn alligation(strong: Share, weak: Share, target: Share) -> CallResult<(f64, f64)> {
    let parts = dose::alligation(strong.fraction()?, weak.fraction()?, target.fraction()?)?;
    Ok((parts.strong, parts.weak))
}

/// Volume solids of a mix: the paint's times the paint fraction.
#[pyfunction]
pub fn thinned_solids(volume_solids: Share, thinning: ThinningArg) -> CallResult<f64> {
    Ok(dose::thinned_solids(volume_solids.fraction()?, thinning.0)?.get())
}

/// Volume solids from solids by weight and the density of the paint, with the density of the volatile part or of the
/// dry solids.
#[pyfunction]
#[pyo3(signature = (solids_by_weight, *, paint_density, volatile_density=None, solids_density=None))]
pub fn volume_solids(
    solids_by_weight: Share,
    paint_density: Arg<q::Density>,
    volatile_density: Option<Arg<q::Density>>,
    solids_density: Option<Arg<q::Density>>,
) -> CallResult<f64> {
    let nv = q::Ratio::from_si(solids_by_weight.0);
    let paint = paint_density.value;
    match (volatile_density, solids_density) {
        (Some(v), None) => Ok(dose::volume_solids_from_volatile(nv, paint, v.value)?.get()),
        (None, Some(s)) => Ok(dose::volume_solids_from_resin(nv, paint, s.value)?.get()),
        _ => Err(out_of_range(
            "second density",
            "none, or two",
            "one of volatile_density= and solids_density=",
            "give the density of the thinner-like part, or of the dry film",
        )
        .into()),
    }
}

/// Wet film thickness that dries to ``dry``.
#[pyfunction]
pub fn wet_film(dry: Arg<q::Length>, volume_solids: Share) -> CallResult<PyLength> {
    Ok(PyLength(dose::wet_film(dry.value, volume_solids.fraction()?)?))
}

/// Dry film left by a wet one.
#[pyfunction]
pub fn dry_film(wet: Arg<q::Length>, volume_solids: Share) -> CallResult<PyLength> {
    Ok(PyLength(dose::dry_film(wet.value, volume_solids.fraction()?)?))
}

/// Theoretical spreading rate: area covered by a volume of paint at a dry film thickness.
#[pyfunction]
pub fn spreading_rate(volume_solids: Share, dry: Arg<q::Length>) -> CallResult<PySpreadingRate> {
    Ok(PySpreadingRate(dose::spreading_rate(volume_solids.fraction()?, dry.value)?))
}

/// Spreading rate when a share of the paint is lost.
#[pyfunction]
pub fn practical_spreading_rate(
    theoretical: Arg<q::SpreadingRate>,
    loss: Share,
) -> CallResult<PySpreadingRate> {
    Ok(PySpreadingRate(dose::practical_spreading_rate(theoretical.value, loss.fraction()?)?))
}

/// Volatile organic content: (of the whole paint, less water and exempt solvents).
#[pyfunction]
#[pyo3(signature = (volume, organic_volatiles, *, water=None, exempt=None))]
pub fn voc(
    volume: Arg<q::Volume>,
    organic_volatiles: Arg<q::Mass>,
    water: Option<Arg<q::Volume>>,
    exempt: Option<Arg<q::Volume>>,
) -> CallResult<(PyMassConcentration, PyMassConcentration)> {
    let none = q::Volume::from_si(0.0);
    let content = VocContent::new(volume.value, organic_volatiles.value)?
        .water(water.map_or(none, |w| w.value))?
        .exempt(exempt.map_or(none, |e| e.value))?;
    Ok((PyMassConcentration(content.total()), PyMassConcentration(content.less_water_and_exempt()?)))
}

/// Volatile organic content of a paint thinned with an organic thinner.
#[pyfunction]
pub fn voc_after_thinning(
    paint_voc: Arg<q::MassConcentration>,
    thinner_density: Arg<q::Density>,
    thinning: ThinningArg,
) -> CallResult<PyMassConcentration> {
    Ok(PyMassConcentration(dose::voc_after_thinning(paint_voc.value, thinner_density.value, thinning.0)?))
}

/// Pigment volume concentration of the dry film.
#[pyfunction]
pub fn pvc(pigment: Arg<q::Volume>, binder: Arg<q::Volume>) -> CallResult<f64> {
    Ok(dose::pvc(pigment.value, binder.value)?.get())
}

/// Critical pigment volume concentration from oil absorption (20 g oil per 100 g pigment is "20 %") and density.
#[pyfunction]
pub fn cpvc(oil_absorption: Share, pigment_density: Arg<q::Density>) -> CallResult<f64> {
    Ok(dose::cpvc(q::Ratio::from_si(oil_absorption.0), pigment_density.value)?.get())
}

/// Cut of a resin per volume of solution: give the volume of the solution, or of the solvent with the resin's density.
#[pyfunction]
#[pyo3(signature = (resin, *, solution=None, solvent=None, resin_density=None))]
pub fn resin_cut(
    resin: Arg<q::Mass>,
    solution: Option<Arg<q::Volume>>,
    solvent: Option<Arg<q::Volume>>,
    resin_density: Option<Arg<q::Density>>,
) -> CallResult<PyMassConcentration> {
    let cut = match (solution, solvent, resin_density) {
        (Some(v), None, None) => dose::cut_of_solution(resin.value, v.value)?,
        (None, Some(v), Some(rho)) => dose::cut_of_solvent(resin.value, v.value, rho.value)?,
        _ => {
            return Err(out_of_range(
                "volume of the cut",
                "incomplete",
                "solution=, or solvent= with resin_density=",
                "say whether the volume is that of the solution or of the solvent alone",
            )
            .into());
        }
    };
    Ok(PyMassConcentration(cut))
}
