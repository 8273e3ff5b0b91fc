//! The only crate that knows about Python: conversion, classes, exceptions; no physics.
//!
//! One file a core module. Each holds the classes of that module and nothing that the core could do.

#![allow(clippy::trivially_copy_pass_by_ref, reason = "methods of Python classes take &self")]

mod air;
mod amounts;
mod array;
mod bench;
mod binder;
mod blend;
mod blend_columns;
mod blend_results;
mod catalogue;
mod cautions;
mod colour_change;
mod cup;
mod demo;
mod diagnose;
mod dict;
mod dose;
mod drying;
mod errors;
mod estimate;
mod evaporometer;
mod exposure;
mod film;
mod film_columns;
mod fire;
mod hiding;
mod json;
mod lay;
mod layers;
mod mask;
mod near_gun;
mod open_cup;
mod paint;
mod plan;
mod plan_results;
mod programme;
mod quantity;
mod recommend;
mod retarder;
mod rinse;
mod rinse_price;
mod safety;
mod session;
mod setup;
mod solvent;
mod spray;
mod table;
mod vapour;
mod watch;
mod window;

use pyo3::prelude::*;

/// Native part of `mistcoat`.
#[pymodule]
mod _core {
    #[pymodule_export]
    use crate::air::PyRoom;
    #[pymodule_export]
    use crate::amounts::{PyAmounts, amounts, dry_film_of_spray, dry_film_per_pass};
    #[pymodule_export]
    use crate::bench::{PyComparison, PyRow, compare, measured_dilutions};
    #[pymodule_export]
    use crate::binder::{PyBinder, PyDispersion, PyOxidativeCure};
    #[pymodule_export]
    use crate::blend::{PyBlend, polymers};
    #[pymodule_export]
    use crate::blend_columns::activity_coefficients;
    #[pymodule_export]
    use crate::blend_results::{PyDryingTable, PyPhases};
    #[pymodule_export]
    use crate::catalogue::{PyCatalogue, solvents};
    #[pymodule_export]
    use crate::cautions::{PyCaution, cautions};
    #[pymodule_export]
    use crate::colour_change::{PyChange, PyColourOrder, PyRinseBench, PyShade, best_order};
    #[pymodule_export]
    use crate::cup::{
        PyCalibration, PyFlowCup, PyReferenceLiquid, efflux_time_s, kinematic_viscosity_mm2_s, repeat_runs,
        suggest,
    };
    #[pymodule_export]
    use crate::demo::demo_paint;
    #[pymodule_export]
    use crate::diagnose::{PyDiagnosis, defects, diagnose};
    #[pymodule_export]
    use crate::dose::{
        PyBatch, PyDropRecipe, PyDropper, PyThinning, alligation, counted_volume, cpvc, drop_recipes,
        dry_film, practical_spreading_rate, pvc, resin_cut, spreading_rate, thinned_solids, voc,
        voc_after_thinning, volume_solids, wet_film,
    };
    #[pymodule_export]
    use crate::drying::PyDrying;
    #[pymodule_export]
    use crate::estimate::{PyEstimate, PyWorking};
    #[pymodule_export]
    use crate::evaporometer::PyEvaporationTest;
    #[pymodule_export]
    use crate::exposure::{
        PyMixtureExposure, mixture_exposure, short_term_exposure, sum_of_shares, time_weighted_average,
        vapour_volume,
    };
    #[pymodule_export]
    use crate::film::PyFilm;
    #[pymodule_export]
    use crate::film_columns::dry_columns;
    #[pymodule_export]
    use crate::fire::{
        PyCupboard, PyFlammableLimit, PyFlammableLiquid, cupboard, flammable_class, lower_flammable_limit,
    };
    #[pymodule_export]
    use crate::hiding::{
        PyGloss, PyHidingPower, PyPasses, absorption_over_scattering, colour_classes, scattering_power,
    };
    #[pymodule_export]
    use crate::lay::{
        PyBlush, PyFilmWindow, PyFlow, PyLay, film_window, hanging_thickness, lay, levelling_rate, sag_speed,
    };
    #[pymodule_export]
    use crate::layers::{
        PyIdentification, PyJudgement, PyLayer, PyPaintTest, PyStackCheck, check_stack, cleaner_with_paint,
        coat_over_coat, identification_tests, identify, thinner_on_substrate, thinner_with_paint,
    };
    #[pymodule_export]
    use crate::mask::{PyMaskEdge, mask_edge};
    #[pymodule_export]
    use crate::near_gun::{PyGunAir, PyNearGun, near_gun};
    #[pymodule_export]
    use crate::open_cup::{PyCupCourse, PyOpenCup, PyTipDrying, PyTopUp, tip_drying};
    #[pymodule_export]
    use crate::paint::{PyDilutionLaw, PyMix, PyMixDrops, PyPaint, PyVoc};
    #[pymodule_export]
    use crate::plan::{PyPlan, PyPlanLayer, plan};
    #[pymodule_export]
    use crate::plan_results::{PyGunWash, PyMaterial, PyPlanStep, PyPlannedLayer, PyWait};
    #[pymodule_export]
    use crate::programme::{PyProgramme, PyStack, PyStackDrying};
    #[pymodule_export]
    use crate::quantity::{
        PyArea, PyDensity, PyDiffusivity, PyDynamicViscosity, PyFrequency, PyKinematicViscosity, PyLength,
        PyMass, PyMassConcentration, PyMassFlux, PyMolarEnergy, PyMolarMass, PyMolarVolume,
        PyOpticalCoefficient, PyPressure, PyRatio, PySolubilityParameter, PySpreadingRate, PySurfaceTension,
        PyTemperature, PyTemperatureDifference, PyTime, PyVelocity, PyVolume, PyVolumeRate,
    };
    #[pymodule_export]
    use crate::recommend::{PyRecommendation, recommend};
    #[pymodule_export]
    use crate::retarder::{PyRetarderAnswer, PyRetarderRow, retarder};
    #[pymodule_export]
    use crate::rinse::{
        PySplit, best_split, cheap_then_good, cleaning_cautions, equal_portions, fraction_left, guns,
        least_cleaner, portions_needed, typical_hold_up, weighed_hold_up,
    };
    #[pymodule_export]
    use crate::rinse_price::{
        PyCleanerPrice, PyPricedChange, PyPricedOrder, PyPricedRinse, cheapest_order, cheapest_rinse,
    };
    #[pymodule_export]
    use crate::safety::{PyExposureLimit, PyPropertySource, PySafetyValue};
    #[pymodule_export]
    use crate::session::{PySessionAir, PySessionExposure, PySessionVapour, PyVapourSource, PyVentilation};
    #[pymodule_export]
    use crate::setup::{PyJob, PyJudged, PySetup};
    #[pymodule_export]
    use crate::solvent::{PyHansen, PySolvent, solvent};
    #[pymodule_export]
    use crate::spray::{PyAirbrush, PyShot};
    #[pymodule_export]
    use crate::table::PyTable;
    #[pymodule_export]
    use crate::vapour::PyRoomVapour;
    #[pymodule_export]
    use crate::window::{PyWindowMap, window};
    #[pymodule_export]
    #[allow(non_upper_case_globals, reason = "the name Python gives it")]
    const __version__: &str = env!("CARGO_PKG_VERSION");
}
