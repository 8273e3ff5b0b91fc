//! One pure liquid or petroleum cut and what can be asked of it.

use super::build::BENCH_K;
use super::kernel::{PureKernel, T25_K, fuller_m2_s};
use super::provenance::{PropertySource, SafetyValue};
use super::record::{
    Concentration, ExposureLimit, LimitKind, PolystyreneAttack, PublishedRate, Record, Sourced,
};
use super::spread;
use super::vapour::Law;
use crate::error::{Result, out_of_range};
use crate::estimate::{Estimate, ModelError, Scale, propagate};
use crate::quantity::{
    Density, Diffusivity, DynamicViscosity, KinematicViscosity, MolarEnergy, MolarMass, MolarVolume,
    Pressure, Quantity, Ratio, SolubilityParameter, SurfaceTension, Temperature, show,
};
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::sync::Arc;

/// Temperatures for which a diffusivity in air is given: those of rooms and dryers.
const AIR_K: (f64, f64) = (253.15, 373.15);
/// Watson's exponent of the heat of vaporisation (source `WATSON`).
const WATSON_EXPONENT: f64 = 0.38;
/// Critical over boiling temperature where no critical temperature is known (source `GULDBERG`).
const CRITICAL_OVER_BOILING: f64 = 1.5;

/// A solvent. Cloning is cheap; two solvents are equal when all their data are.
///
/// Values at a temperature come as [`Estimate`]s, whose interval tells how far sources differ and how well
/// the equation follows them. Outside the range of its equation, and below the melting point, a value is
/// refused; a blend that keeps a frozen component liquid uses [`Solvent::kernel`].
///
/// ```
/// use mistcoat::quantity::{parse, show, Temperature};
/// let acetone = mistcoat::solvent::find("acetone")?;
/// let p = acetone.vapour_pressure(parse::<Temperature>("20 °C")?)?;
/// assert_eq!(show(p.best), "24.7 kPa");
/// let e = acetone.density(parse("90 °C")?).unwrap_err().to_string();
/// assert!(e.contains("90 °C") && e.contains("60 °C"), "{e}");
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Clone, PartialEq)]
pub struct Solvent(pub(super) Arc<Inner>);

#[derive(PartialEq)]
pub(super) struct Inner {
    pub id: String,
    pub record: Record,
    /// The file it came from.
    pub origin: String,
    pub law: Law,
    pub kernel: PureKernel,
    pub surrogate: Vec<(Solvent, f64)>,
}

/// Hansen solubility parameters.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Hansen {
    /// Dispersion.
    #[serde(with = "crate::quantity::as_text")]
    pub d: SolubilityParameter,
    /// Polar.
    #[serde(with = "crate::quantity::as_text")]
    pub p: SolubilityParameter,
    /// Hydrogen bonding.
    #[serde(with = "crate::quantity::as_text")]
    pub h: SolubilityParameter,
}

/// A decomposition into groups, by group name.
pub type Groups = Vec<(String, u32)>;

impl Solvent {
    pub(super) fn record(&self) -> &Record {
        &self.0.record
    }

    pub(super) fn all_names(&self) -> impl Iterator<Item = &str> {
        let own = [self.name(), self.id()];
        own.into_iter().chain(self.synonyms().iter().map(String::as_str))
    }

    /// The name used in tables.
    pub fn name(&self) -> &str {
        &self.record().name
    }

    /// Short stable name, for example `n_butyl_acetate`.
    pub fn id(&self) -> &str {
        &self.0.id
    }

    /// Other names it is sold or written under.
    pub fn synonyms(&self) -> &[String] {
        &self.record().synonyms
    }

    /// CAS registry number.
    pub fn cas(&self) -> Option<&str> {
        self.record().cas.as_deref()
    }

    /// Molecular formula; of a cut, the mean molecule.
    pub fn formula(&self) -> &str {
        &self.record().formula
    }

    /// The file it came from.
    pub fn origin(&self) -> &str {
        &self.0.origin
    }

    /// What to mind about this record.
    pub fn note(&self) -> Option<&str> {
        self.record().note.as_deref()
    }

    /// Whether it is a cut: a mixture with a boiling range, sold as one liquid.
    pub fn is_cut(&self) -> bool {
        !self.0.surrogate.is_empty()
    }

    /// The pure liquids, by mole fraction, that stand for a cut where its composition changes: activity,
    /// drying. Empty for a pure liquid.
    pub fn surrogate(&self) -> &[(Self, f64)] {
        &self.0.surrogate
    }

    /// Constants for a loop.
    pub fn kernel(&self) -> &PureKernel {
        &self.0.kernel
    }

    /// Molar mass.
    pub fn molar_mass(&self) -> MolarMass {
        MolarMass::from_si(self.kernel().molar_mass_kg_mol)
    }

    /// Normal boiling point; of a cut, the middle of its range.
    pub fn boiling_point(&self) -> Temperature {
        self.record().boiling_point.value
    }

    /// Melting point; half the boiling point where none is stated, see `source("melting_point")`.
    pub fn melting_point(&self) -> Temperature {
        Temperature::from_si(self.kernel().melting_point_k)
    }

    /// Density, `rho20 + slope (t - 20 °C)`; of water with a square term besides.
    ///
    /// Valid from 0 °C or the melting point to 60 °C, where it follows the reference equations within 0.4 %.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] outside that range.
    pub fn density(&self, t: Temperature) -> Result<Estimate<Density>> {
        let t_k = self.liquid(t, "density", BENCH_K)?;
        let parts = spread::line(&self.record().density, spread::DENSITY, t_k);
        Ok(Estimate::relative(Density::from_si(self.kernel().density_kg_m3(t_k)), &parts))
    }

    /// Volume of one mole.
    ///
    /// # Errors
    /// As [`Solvent::density`].
    pub fn molar_volume(&self, t: Temperature) -> Result<Estimate<MolarVolume>> {
        let t_k = self.liquid(t, "molar volume", BENCH_K)?;
        let parts = spread::line(&self.record().density, spread::DENSITY, t_k);
        Ok(Estimate::relative(MolarVolume::from_si(self.kernel().molar_volume_m3_mol(t_k)), &parts))
    }

    /// Dynamic viscosity, `ln(eta / mPa s) = a + b/(T + c)`, `c` being zero for most.
    ///
    /// Valid over the range of the record, else 0 to 60 °C.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] outside that range.
    pub fn viscosity(&self, t: Temperature) -> Result<Estimate<DynamicViscosity>> {
        let t_k = self.liquid(t, "viscosity", self.viscosity_range_k())?;
        let parts = spread::viscosity(&self.record().viscosity, self.kernel());
        Ok(Estimate::relative(DynamicViscosity::from_si(self.kernel().viscosity_pa_s(t_k)), &parts))
    }

    /// Kinematic viscosity: dynamic viscosity over density.
    ///
    /// # Errors
    /// As [`Solvent::viscosity`] and [`Solvent::density`].
    pub fn kinematic_viscosity(&self, t: Temperature) -> Result<Estimate<KinematicViscosity>> {
        let (low, high) = self.viscosity_range_k();
        let t_k = self.liquid(t, "kinematic viscosity", (low.max(BENCH_K.0), high.min(BENCH_K.1)))?;
        let mut parts = spread::viscosity(&self.record().viscosity, self.kernel());
        parts.extend(spread::line(&self.record().density, spread::DENSITY, t_k));
        let nu = self.kernel().viscosity_pa_s(t_k) / self.kernel().density_kg_m3(t_k);
        Ok(Estimate::relative(KinematicViscosity::from_si(nu), &parts))
    }

    /// Surface tension against air, a straight line through 20 °C; from 0 °C or the melting point to 60 °C.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] outside that range.
    pub fn surface_tension(&self, t: Temperature) -> Result<Estimate<SurfaceTension>> {
        let t_k = self.liquid(t, "surface tension", BENCH_K)?;
        let parts = spread::line(&self.record().surface_tension, spread::SURFACE_TENSION, t_k);
        Ok(Estimate::relative(SurfaceTension::from_si(self.kernel().surface_tension_n_m(t_k)), &parts))
    }

    /// Vapour pressure by the equation the record names, over its own range.
    ///
    /// Of a cut, that of the fresh liquid: it falls as the light part leaves, for which see
    /// [`Solvent::surrogate`].
    ///
    /// # Errors
    /// [`crate::error::RangeError`] outside the range of the equation.
    pub fn vapour_pressure(&self, t: Temperature) -> Result<Estimate<Pressure>> {
        let v = &self.record().vapour_pressure;
        let range = v.valid.as_ref().map_or(BENCH_K, |s| (s.low_k(), s.high_k()));
        let t_k = self.liquid(t, "vapour pressure", range)?;
        let parts = spread::vapour_pressure(self.record());
        Ok(Estimate::relative(Pressure::from_si(self.0.law.pressure_pa(t_k)), &parts))
    }

    /// Heat of vaporisation per mole: the value at 25 °C carried by Watson's rule,
    /// `dH = dH25 ((Tc - T)/(Tc - 298.15 K))^0.38`, with `Tc` of the vapour pressure equation or, failing
    /// that, 1.5 times the boiling point. From 0 °C or the melting point to 60 °C.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] outside that range.
    pub fn heat_of_vaporisation(&self, t: Temperature) -> Result<Estimate<MolarEnergy>> {
        let t_k = self.liquid(t, "heat of vaporisation", BENCH_K)?;
        let tc_k = match self.0.law {
            Law::Wagner { tc_k, .. } => tc_k,
            Law::IapwsIf97 => 647.096,
            _ => CRITICAL_OVER_BOILING * self.kernel().boiling_point_k,
        };
        let factor = ((tc_k - t_k) / (tc_k - T25_K)).powf(WATSON_EXPONENT);
        let h = MolarEnergy::from_si(self.kernel().heat_of_vaporisation_j_mol * factor);
        let parts = spread::heat(self.record().heat_of_vaporisation.as_ref(), spread::HEAT_OF_VAPORISATION);
        Ok(Estimate::relative(h, &parts))
    }

    /// Heat that warms one mole of the liquid by one kelvin, at 25 °C.
    pub fn heat_capacity_per_kelvin(&self) -> Estimate<MolarEnergy> {
        let k = self.kernel();
        let c = MolarEnergy::from_si(k.heat_capacity_j_kg_k * k.molar_mass_kg_mol);
        Estimate::relative(c, &spread::heat_capacity(self.record()))
    }

    /// Diffusivity of the vapour in air at one atmosphere, after Fuller, Schettler and Giddings; it goes with
    /// the inverse of the pressure. From -20 to 100 °C; standard uncertainty 6 %.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] outside that range.
    pub fn diffusivity(&self, t: Temperature) -> Result<Estimate<Diffusivity>> {
        let t_k = self.within(t, "diffusivity in air", AIR_K, "give the temperature of the air")?;
        let k = self.kernel();
        let d = fuller_m2_s(t_k, k.molar_mass_kg_mol, k.fuller_volume);
        Ok(Estimate::relative(Diffusivity::from_si(d), &[spread::fuller()]))
    }

    /// A property at a temperature that is itself uncertain: its spread is carried into the interval.
    ///
    /// # Errors
    /// Those of the property at the best temperature.
    ///
    /// ```
    /// use mistcoat::{estimate::{Estimate, ModelError}, quantity::{parse, Temperature}, solvent::Solvent};
    /// let room = Estimate::absolute(parse::<Temperature>("20 °C")?, &[ModelError::new("thermometer", 1.0)]);
    /// let p = mistcoat::solvent::find("acetone")?.at(&room, Solvent::vapour_pressure)?;
    /// assert_eq!(p.contributors[0].what, "temperature");
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn at<Q: Quantity>(
        &self,
        t: &Estimate<Temperature>,
        property: impl Fn(&Self, Temperature) -> Result<Estimate<Q>>,
    ) -> Result<Estimate<Q>> {
        let there = property(self, t.best)?;
        if t.std() <= 0.0 {
            return Ok(there);
        }
        let spread = there.relative_std();
        let own: Vec<ModelError> =
            there.contributors.iter().map(|c| ModelError::new(&*c.what, spread * c.share.sqrt())).collect();
        propagate(&[t.as_input("temperature")], &own, Scale::Log, |x| {
            Ok(property(self, Temperature::from_si(x[0]))?.best.si())
        })
    }

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
        use super::kernel::{ATMOSPHERE_PA, GAS_CONSTANT_J_MOL_K};
        match c {
            Concentration::Volume(r) => r,
            Concentration::Mass(m) => Ratio::from_si(
                m.si() * GAS_CONSTANT_J_MOL_K * T25_K / (ATMOSPHERE_PA * self.kernel().molar_mass_kg_mol),
            ),
        }
    }

    /// Hansen solubility parameters at 25 °C.
    pub fn hansen(&self) -> Option<Hansen> {
        self.record().hansen.as_ref().map(|h| Hansen { d: h.d, p: h.p, h: h.h })
    }

    /// Groups of original UNIFAC; glycol ethers with their combined groups. None for a cut or where unknown.
    pub fn unifac_original(&self) -> Option<Groups> {
        self.groups(|u| &u.original)
    }

    /// Groups of original UNIFAC with glycol ethers split into ether and alcohol groups, where that differs.
    pub fn unifac_original_split(&self) -> Option<Groups> {
        self.groups(|u| &u.original_split)
    }

    /// Groups of modified UNIFAC (Dortmund).
    pub fn unifac_dortmund(&self) -> Option<Groups> {
        self.groups(|u| &u.dortmund)
    }

    fn groups(
        &self,
        which: impl Fn(&super::record::Unifac) -> &std::collections::BTreeMap<String, u32>,
    ) -> Option<Groups> {
        let groups = which(self.record().unifac.as_ref()?);
        (!groups.is_empty()).then(|| groups.iter().map(|(g, n)| (g.clone(), *n)).collect())
    }

    /// Whether US federal rules exempt it from the count of volatile organic compounds; None for water and
    /// where not stated.
    pub fn voc_exempt(&self) -> Option<bool> {
        self.record().voc_exempt.as_ref().map(|f| f.value)
    }

    /// Concentration at which half a panel smells it. Smell is no safeguard: several solvents harm below it.
    pub fn odour_threshold(&self) -> Option<SafetyValue<Ratio>> {
        self.safety_value("odour_threshold", self.record().odour_threshold.as_ref())
    }

    /// What it does to polystyrene in practice.
    pub fn polystyrene_attack(&self) -> Option<PolystyreneAttack> {
        self.record().polystyrene.as_ref().map(|f| f.value)
    }

    /// Relative evaporation rates as published, used or not.
    pub fn published_rates(&self) -> &[PublishedRate] {
        &self.record().evaporation_rates
    }

    fn safety_value<Q: Quantity>(&self, property: &str, s: Option<&Sourced<Q>>) -> Option<SafetyValue<Q>> {
        Some(SafetyValue { value: s?.value, source: self.sourced(property, s)? })
    }

    fn viscosity_range_k(&self) -> (f64, f64) {
        self.record().viscosity.valid.as_ref().map_or(BENCH_K, |s| (s.low_k(), s.high_k()))
    }

    /// The temperature in K when it lies in the range and above the melting point.
    fn liquid(&self, t: Temperature, what: &str, (low, high): (f64, f64)) -> Result<f64> {
        let melting = self.kernel().melting_point_k;
        // A melting point that was estimated is no ground for a refusal.
        let frozen = self.record().melting_point.is_some() && t.si() < melting && melting >= low;
        if frozen {
            let limit = format!("{} or more, its melting point", show(self.melting_point()));
            let remedy = "it is solid below; mixed with other liquids it may stay liquid, so ask the blend";
            return Err(out_of_range(
                format!("temperature of {} for its {what}", self.name()),
                show(t),
                limit,
                remedy,
            ));
        }
        self.within(t, what, (low, high), "use a temperature of the bench, or another source of data")
    }

    fn within(&self, t: Temperature, what: &str, (low, high): (f64, f64), remedy: &str) -> Result<f64> {
        /// Reading a temperature from text moves its last digit.
        const ROUNDING_K: f64 = 1e-9;
        let t_k = t.si();
        if (low - ROUNDING_K..=high + ROUNDING_K).contains(&t_k) {
            return Ok(t_k);
        }
        let limit = format!("{} to {}", show(Temperature::from_si(low)), show(Temperature::from_si(high)));
        Err(out_of_range(format!("temperature of {} for its {what}", self.name()), show(t), limit, remedy))
    }
}

impl core::fmt::Debug for Solvent {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "Solvent({:?})", self.name())
    }
}

impl core::fmt::Display for Solvent {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(self.name())
    }
}

/// A built-in solvent is its name; another is its whole record.
#[derive(Serialize, Deserialize)]
#[serde(untagged, expecting = "the name of a solvent, or its whole record")]
enum Stored {
    Name(String),
    Own {
        origin: String,
        solvent: Box<Record>,
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        components: Vec<Solvent>,
    },
}

impl Serialize for Solvent {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let stored = match super::find(self.name()) {
            Ok(builtin) if builtin == *self => Stored::Name(self.name().to_owned()),
            _ => Stored::Own {
                origin: self.0.origin.clone(),
                solvent: Box::new(self.record().clone()),
                components: self.surrogate().iter().map(|(s, _)| s.clone()).collect(),
            },
        };
        stored.serialize(serializer)
    }
}

impl<'de> Deserialize<'de> for Solvent {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        use serde::de::Error as _;
        match Stored::deserialize(deserializer)? {
            Stored::Name(name) => super::find(&name).map_err(D::Error::custom),
            Stored::Own { origin, solvent, components } => {
                let find = |name: &str| {
                    let wanted = crate::names::fold(name);
                    let own =
                        components.iter().find(|s| s.all_names().any(|n| crate::names::fold(n) == wanted));
                    own.cloned().map_or_else(|| super::find(name), Ok)
                };
                let place = super::build::Place { file: &origin, line: &|_| None };
                super::build::build(*solvent, &place, &find).map_err(D::Error::custom)
            }
        }
    }
}
