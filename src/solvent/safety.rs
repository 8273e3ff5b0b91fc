//! Can it burn, and how much of it may hang in the air? Figures with the source to show beside them.
//!
//! None of these replaces the safety data sheet of the can in hand.

use super::kernel::{ATMOSPHERE_PA, GAS_CONSTANT_J_MOL_K, T25_K};
use super::limits::{Concentration, ExposureLimit, LimitKind, PolystyreneAttack};
use super::provenance::{PropertySource, SafetyValue};
use super::pure::Solvent;
use super::record::Sourced;
use crate::quantity::{Quantity, Ratio, Temperature};

impl Solvent {
    /// Flash point, closed cup, with the source to show beside it. None for water, or where none is known.
    pub fn flash_point(&self) -> Option<SafetyValue<Temperature>> {
        self.safety_value("flash_point", self.record().flash_point.as_ref())
    }

    /// Lowest share of vapour in air, by volume, that burns.
    pub fn lower_flammable_limit(&self) -> Option<SafetyValue<Ratio>> {
        self.safety_value("lower_flammable_limit", self.record().lower_flammable_limit.as_ref())
    }

    /// Highest share of vapour in air, by volume, that burns.
    pub fn upper_flammable_limit(&self) -> Option<SafetyValue<Ratio>> {
        self.safety_value("upper_flammable_limit", self.record().upper_flammable_limit.as_ref())
    }

    /// What to mind about fire and health figures.
    pub fn safety_note(&self) -> Option<&str> {
        self.record().safety_note.as_deref()
    }

    /// Published exposure limits; [`Solvent::exposure_limit_source`] tells where each stands.
    pub fn exposure_limits(&self) -> &[ExposureLimit] {
        &self.record().exposure_limits
    }

    /// The lowest published vapour limit over a working shift, as a share of the air by volume at 25 °C.
    pub fn lowest_shift_limit(&self) -> Option<SafetyValue<Ratio>> {
        self.exposure_limits()
            .iter()
            .filter(|l| l.over == LimitKind::Shift && !l.droplets)
            .map(|l| SafetyValue { value: self.by_volume(l.value), source: self.exposure_limit_source(l) })
            .min_by(|a, b| a.value.si().total_cmp(&b.value.si()))
    }

    /// Where an exposure limit stands.
    pub fn exposure_limit_source(&self, limit: &ExposureLimit) -> PropertySource {
        self.describe("exposure_limits", &limit.source, limit.note.as_deref())
    }

    /// A concentration as share of the air by volume, at 25 °C and one atmosphere.
    pub fn by_volume(&self, c: Concentration) -> Ratio {
        match c {
            Concentration::Volume(r) => r,
            Concentration::Mass(m) => Ratio::from_si(
                m.si() * GAS_CONSTANT_J_MOL_K * T25_K / (ATMOSPHERE_PA * self.kernel().molar_mass_kg_mol),
            ),
        }
    }

    /// Concentration at which half a panel smells it. Smell is no safeguard: several solvents harm below it.
    pub fn odour_threshold(&self) -> Option<SafetyValue<Ratio>> {
        self.safety_value("odour_threshold", self.record().odour_threshold.as_ref())
    }

    /// What it does to polystyrene in practice.
    pub fn polystyrene_attack(&self) -> Option<PolystyreneAttack> {
        self.record().polystyrene.as_ref().map(|f| f.value)
    }

    fn safety_value<Q: Quantity>(&self, property: &str, s: Option<&Sourced<Q>>) -> Option<SafetyValue<Q>> {
        Some(SafetyValue { value: s?.value, source: self.sourced(property, s)? })
    }
}
