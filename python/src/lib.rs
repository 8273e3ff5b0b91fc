//! The only crate that knows about Python: conversion, classes, exceptions; no physics.
//!
//! One file a core module. Each holds the classes of that module and nothing that the core could do.

#![allow(clippy::trivially_copy_pass_by_ref, reason = "methods of Python classes take &self")]

mod array;
mod blend;
mod catalogue;
mod cup;
mod dose;
mod errors;
mod estimate;
mod json;
mod paint;
mod quantity;
mod solvent;

use pyo3::prelude::*;

/// Native part of `mistcoat`.
#[pymodule]
mod _core {
    #[pymodule_export]
    use crate::blend::{PyBlend, PyDryingTable, PyPhases, polymers};
    #[pymodule_export]
    use crate::catalogue::{PyCatalogue, solvents};
    #[pymodule_export]
    use crate::cup::{
        PyCalibration, PyFlowCup, PyReferenceLiquid, efflux_time_s, kinematic_viscosity_mm2_s, repeat_runs,
        suggest,
    };
    #[pymodule_export]
    use crate::dose::{
        PyBatch, PyDropRecipe, PyDropper, PyThinning, alligation, counted_volume, cpvc, drop_recipes,
        dry_film, practical_spreading_rate, pvc, resin_cut, spreading_rate, thinned_solids, voc,
        voc_after_thinning, volume_solids, wet_film,
    };
    #[pymodule_export]
    use crate::estimate::{PyEstimate, PyWorking};
    #[pymodule_export]
    use crate::paint::{PyDilutionLaw, PyMix, PyMixDrops, PyPaint, PyVoc};
    #[pymodule_export]
    use crate::quantity::{
        PyArea, PyDensity, PyDiffusivity, PyDynamicViscosity, PyFrequency, PyKinematicViscosity, PyLength,
        PyMass, PyMassConcentration, PyMassFlux, PyMolarEnergy, PyMolarMass, PyMolarVolume, PyPressure,
        PyRatio, PySolubilityParameter, PySpreadingRate, PySurfaceTension, PyTemperature,
        PyTemperatureDifference, PyTime, PyVelocity, PyVolume, PyVolumeRate,
    };
    #[pymodule_export]
    use crate::solvent::{PyExposureLimit, PyHansen, PyPropertySource, PySafetyValue, PySolvent, solvent};
    #[pymodule_export]
    #[allow(non_upper_case_globals, reason = "the name Python gives it")]
    const __version__: &str = env!("CARGO_PKG_VERSION");
}
