//! From a record as written to a solvent that can be asked: checks, and what a lean record leaves out.
//!
//! What a record may leave out, and what then stands in:
//!
//! | left out | stands in | source |
//! |---|---|---|
//! | molar mass | sum over the formula | `IUPAC` |
//! | diffusion volume | sum over the formula; give it for an aromatic, whose ring counts -18.3 | `FULLER69` |
//! | heat of vaporisation | slope of the vapour pressure, `R T² d ln P/dT` at 25 °C | `CLAUSIUS` |
//! | heat capacity | 2.0 J/(g K), as most organic liquids within 15 % | `EST_CP` |
//! | melting point | 0.5 of the boiling point, within 20 % | `EST_TM` |
//! | Antoine constants | fitted to the vapour pressure given, 0 to 60 °C | `FIT` |
//! | viscosity at other temperatures, one reading given | Lewis and Squires | `LEWIS_SQUIRES` |

use super::kernel::{ATMOSPHERE_PA, GAS_CONSTANT_J_MOL_K, PureKernel, T20_K, T25_K};
use super::pure::{Inner, Solvent};
use super::record::{Form, Record, Viscosity};
use super::vapour::{Law, fit_antoine};
use crate::error::{Result, bad_data};
use crate::names::fold;
use crate::quantity::{Quantity, digits, show};
use std::sync::Arc;

/// Specific heat that stands in for a missing one, J/(kg K).
const TYPICAL_HEAT_CAPACITY_J_KG_K: f64 = 2000.0;
/// Melting point over boiling point that stands in for a missing melting point.
const MELTING_OVER_BOILING: f64 = 0.5;
/// Glass transition over melting point (source `TG_TM`).
const GLASS_OVER_MELTING: f64 = 0.66;
/// Glass transition of water in K (source `TG_TM`).
const WATER_GLASS_K: f64 = 136.0;
/// Range of the straight lines and of the Antoine refit.
pub(super) const BENCH_K: (f64, f64) = (273.15, 333.15);

/// Atomic masses (source `IUPAC`) in g/mol and diffusion volumes (source `FULLER69`).
const ATOMS: [(&str, f64, f64); 9] = [
    ("C", 12.011, 15.9),
    ("H", 1.008, 2.31),
    ("O", 15.999, 6.11),
    ("N", 14.007, 4.54),
    ("F", 18.998, 14.7),
    ("Cl", 35.45, 21.0),
    ("Br", 79.904, 21.9),
    ("I", 126.904, 29.8),
    ("S", 32.06, 22.9),
];

/// Names the place of a fault.
pub(super) struct Place<'a> {
    pub file: &'a str,
    pub line: &'a dyn Fn(&str) -> Option<usize>,
}

impl Place<'_> {
    fn fault(&self, field: &str, problem: impl Into<String>, remedy: &str) -> crate::Error {
        bad_data(self.file, (self.line)(field), Some(field), problem, remedy)
    }

    /// Refuses a value outside what any liquid used as a thinner shows.
    fn within<Q: Quantity>(&self, field: &str, q: Q, low: f64, high: f64) -> Result<f64> {
        let value = q.si();
        if (low..=high).contains(&value) {
            return Ok(value);
        }
        let (low, high) = (show(Q::from_si(low)), show(Q::from_si(high)));
        let problem = format!("{} is {}, allowed is {low} to {high}", Q::NAME, show(q));
        Err(self.fault(field, problem, "check the number and its unit"))
    }
}

/// Checks a record and makes a solvent of it.
pub(super) fn build(
    record: Record,
    place: &Place<'_>,
    find: &dyn Fn(&str) -> Result<Solvent>,
) -> Result<Solvent> {
    let id = record.id.clone().unwrap_or_else(|| record.name.clone());
    if fold(&id).is_empty() || fold(&record.name).is_empty() {
        return Err(place.fault("name", "the name is empty", "write for example name = \"club thinner\""));
    }
    if let Some(v) = record.molar_mass.as_ref().map(|m| m.value) {
        place.within("molar_mass", v, 0.01, 1.0)?;
    }
    let (molar_mass_kg_mol, formula_volume) = from_formula(&record, place)?;
    let fuller_volume = record.diffusion_volume.as_ref().map_or(formula_volume, |f| f.value);
    if !(5.0..=1000.0).contains(&fuller_volume) {
        let problem = format!("diffusion volume is {fuller_volume}, allowed is 5 to 1000");
        return Err(place.fault("diffusion_volume", problem, "leave it out to sum it over the formula"));
    }
    let boiling_point_k = place.within("boiling_point", record.boiling_point.value, 250.0, 700.0)?;
    let melting_point_k = match &record.melting_point {
        Some(m) => place.within("melting_point", m.value, 50.0, 330.0)?,
        None => MELTING_OVER_BOILING * boiling_point_k,
    };
    let density20_kg_m3 = place.within("density", record.density.at_20c, 400.0, 3000.0)?;
    let density_slope_kg_m3_k = record.density.per_kelvin.map_or(0.0, Quantity::si);
    let density_curvature_kg_m3_k2 = record.density.per_kelvin_squared.map_or(0.0, Quantity::si);
    for end_k in [BENCH_K.0, T20_K, BENCH_K.1] {
        let slope = density_slope_kg_m3_k + 2.0 * density_curvature_kg_m3_k2 * (end_k - T20_K);
        falling(place, "density", slope, 0.005 * density20_kg_m3)?;
    }
    let surface_tension20_n_m = place.within("surface_tension", record.surface_tension.at_20c, 0.005, 0.1)?;
    let surface_tension_slope_n_m_k = record.surface_tension.per_kelvin.map_or(0.0, Quantity::si);
    falling(place, "surface_tension", surface_tension_slope_n_m_k, 0.012 * surface_tension20_n_m)?;
    let [viscosity_ln_a, viscosity_b_k, viscosity_c_k] = viscosity(&record.viscosity, place)?;
    let law = vapour_pressure(&record, boiling_point_k, place)?;
    let antoine = record.antoine.clone().unwrap_or_else(|| fit_antoine(&law));
    let mut kernel = PureKernel {
        molar_mass_kg_mol,
        antoine_a: antoine.a,
        antoine_b_k: antoine.b,
        antoine_c_k: antoine.c,
        density20_kg_m3,
        density_slope_kg_m3_k,
        density_curvature_kg_m3_k2,
        viscosity_ln_a,
        viscosity_b_k,
        viscosity_c_k,
        surface_tension20_n_m,
        surface_tension_slope_n_m_k,
        heat_of_vaporisation_j_mol: 0.0,
        heat_capacity_j_kg_k: TYPICAL_HEAT_CAPACITY_J_KG_K,
        fuller_volume,
        melting_point_k,
        glass_transition_k: if fold(&record.name) == "water" {
            WATER_GLASS_K
        } else {
            GLASS_OVER_MELTING * melting_point_k
        },
        boiling_point_k,
    };
    for t_k in [BENCH_K.0, T20_K, BENCH_K.1] {
        let (ours, theirs) = (kernel.vapour_pressure_pa(t_k), law.pressure_pa(t_k));
        let apart = (ours / theirs - 1.0).abs();
        if apart.is_nan() || apart >= 0.01 {
            let problem = format!(
                "the Antoine constants give {} Pa at {t_k} K, the vapour pressure gives {} Pa; allowed is 1 % apart",
                digits(ours, 4),
                digits(theirs, 4)
            );
            return Err(place.fault("antoine", problem, "leave `antoine` out to have it fitted"));
        }
    }
    kernel.heat_of_vaporisation_j_mol = match &record.heat_of_vaporisation {
        Some(h) => place.within("heat_of_vaporisation", h.value, 1.5e4, 1.5e5)?,
        None => GAS_CONSTANT_J_MOL_K * T25_K * T25_K * kernel.vapour_pressure_log_slope(T25_K),
    };
    if let Some(c) = &record.heat_capacity_per_kelvin {
        kernel.heat_capacity_j_kg_k =
            place.within("heat_capacity_per_kelvin", c.value, 20.0, 2000.0)? / molar_mass_kg_mol;
    }
    safety(&record, place)?;
    let surrogate = surrogate(&record, place, find)?;
    let origin = place.file.to_owned();
    Ok(Solvent(Arc::new(Inner { id, record, origin, law, kernel, surrogate })))
}

fn falling(place: &Place<'_>, field: &str, slope: f64, steepest: f64) -> Result<()> {
    if slope <= 0.0 && slope >= -steepest {
        return Ok(());
    }
    let problem = format!(
        "changes by {} SI units for each kelvin, allowed is {} to 0",
        digits(slope, 3),
        digits(-steepest, 3)
    );
    Err(place.fault(field, problem, "a liquid grows lighter and slacker when warmed; check sign and unit"))
}

/// Molar mass in kg/mol and diffusion volume by the formula; the record's molar mass wins.
fn from_formula(record: &Record, place: &Place<'_>) -> Result<(f64, f64)> {
    let problem = || {
        place.fault(
            "formula",
            format!("cannot read {:?} as a formula of C, H, O, N, F, Cl, Br, I, S", record.formula),
            "write for example formula = \"C6H12O2\"",
        )
    };
    let (mut mass, mut volume) = (0.0, 0.0);
    let mut rest = record.formula.trim();
    while !rest.is_empty() {
        let (symbol, grams, size) = ATOMS
            .iter()
            .filter(|(symbol, ..)| rest.starts_with(symbol))
            .max_by_key(|(symbol, ..)| symbol.len())
            .ok_or_else(problem)?;
        rest = &rest[symbol.len()..];
        let end = rest.find(|c: char| !(c.is_ascii_digit() || c == '.')).unwrap_or(rest.len());
        let count = if end == 0 { 1.0 } else { rest[..end].parse::<f64>().map_err(|_| problem())? };
        rest = &rest[end..];
        mass += count * grams;
        volume += count * size;
    }
    if mass <= 0.0 {
        return Err(problem());
    }
    let Some(stated) = &record.molar_mass else { return Ok((mass * 1e-3, volume)) };
    let stated = stated.value.si();
    if (stated * 1e3 / mass - 1.0).abs() > 0.03 {
        let text = format!(
            "{} g/mol does not fit {}: {} g/mol",
            digits(stated * 1e3, 5),
            record.formula,
            digits(mass, 5)
        );
        return Err(place.fault("molar_mass", text, "leave it out to sum it over the formula"));
    }
    Ok((stated, volume))
}

/// `ln_a` (mPa s), `b` (K) and `c` (K).
fn viscosity(v: &Viscosity, place: &Place<'_>) -> Result<[f64; 3]> {
    for reading in &v.readings {
        place.within("viscosity", reading.value, 1e-4, 10.0)?;
        place.within("viscosity", reading.at, 240.0, 400.0)?;
    }
    let [ln_a, b, c] = match (v.ln_a, v.b, v.readings.as_slice()) {
        (Some(ln_a), Some(b), []) => [ln_a, b.si(), v.c.map_or(0.0, Quantity::si)],
        (None, None, [one]) => {
            let (t, mu) = (one.at.si(), one.value.si() * 1e3);
            let (low, high) = (lewis_squires(mu, BENCH_K.0 - t), lewis_squires(mu, BENCH_K.1 - t));
            two_points(BENCH_K.0, low, BENCH_K.1, high)
        }
        (None, None, [a, z]) if (a.at.si() - z.at.si()).abs() >= 3.0 => {
            two_points(a.at.si(), a.value.si() * 1e3, z.at.si(), z.value.si() * 1e3)
        }
        _ => {
            let problem =
                "give either ln_a and b, or readings at one temperature or at two that lie 3 K apart";
            let remedy = "write viscosity = { readings = [{ at = \"20 °C\", value = \"0.73 mPa.s\" }] }";
            return Err(place.fault("viscosity", problem, remedy));
        }
    };
    let at_20 = (ln_a + b / (T20_K + c)).exp();
    if (-230.0..=100.0).contains(&c) && (50.0..=10_000.0).contains(&b) && (0.1..=5000.0).contains(&at_20) {
        return Ok([ln_a, b, c]);
    }
    let problem = format!(
        "gives {} mPa.s at 20 °C with b = {} K and c = {} K, allowed is 0.1 to 5000 mPa.s, 50 to 10000 K and \
         -230 to 100 K",
        digits(at_20, 3),
        digits(b, 4),
        digits(c, 4)
    );
    Err(place.fault("viscosity", problem, "a liquid grows thinner when warmed; check the numbers and units"))
}

/// Lewis and Squires: the viscosity in mPa s at `warmer_k` above that of `mu_mpa_s`.
fn lewis_squires(mu_mpa_s: f64, warmer_k: f64) -> f64 {
    (mu_mpa_s.powf(-0.2661) + warmer_k / 233.0).max(0.05).powf(-1.0 / 0.2661)
}

fn two_points(t1_k: f64, mu1: f64, t2_k: f64, mu2: f64) -> [f64; 3] {
    let b = (mu1 / mu2).ln() / (1.0 / t1_k - 1.0 / t2_k);
    [mu1.ln() - b / t1_k, b, 0.0]
}

fn vapour_pressure(record: &Record, boiling_k: f64, place: &Place<'_>) -> Result<Law> {
    const FIELD: &str = "vapour_pressure";
    let v = &record.vapour_pressure;
    if let Some(span) = &v.valid {
        let (low, high) = (span.low_k(), span.high_k());
        if !(low < high && low > 0.0) {
            let problem =
                format!("valid from {} to {}, allowed is the lower first", show(span.0.0), show(span.1.0));
            return Err(place.fault(FIELD, problem, "write for example valid = [\"0 °C\", \"60 °C\"]"));
        }
    }
    let law = match (&v.point, v.form) {
        (Some(point), Form::Point) if v.coefficients.is_empty() => {
            let p_pa = place.within(FIELD, point.value, 1e-4, ATMOSPHERE_PA * 0.9)?;
            let t_k = place.within(FIELD, point.at, 240.0, boiling_k - 10.0)?;
            Some(Law::through(t_k, p_pa, boiling_k))
        }
        (None, form) => Law::new(form, &v.coefficients),
        _ => None,
    };
    let Some(law) = law else {
        let problem =
            format!("{} coefficients given, allowed is {}", v.coefficients.len(), Law::wants(v.form));
        let remedy =
            "or write form = \"point-and-boiling-point\", point = { at = \"20 °C\", value = \"1.15 kPa\" }";
        return Err(place.fault(FIELD, problem, remedy));
    };
    let p = [BENCH_K.0, T20_K, BENCH_K.1].map(|t| law.pressure_pa(t));
    if p.iter().all(|p| (1e-5..2e6).contains(p)) && p[0] < p[1] && p[1] < p[2] {
        return Ok(law);
    }
    let problem = format!(
        "gives {}, {} and {} Pa at 0, 20 and 60 °C, allowed is a rise within 1e-5 to 2e6 Pa",
        digits(p[0], 3),
        digits(p[1], 3),
        digits(p[2], 3)
    );
    Err(place.fault(FIELD, problem, "check the coefficients: pressure in Pa, temperature in K"))
}

fn safety(record: &Record, place: &Place<'_>) -> Result<()> {
    if let Some(flash) = &record.flash_point {
        let t_k = place.within("flash_point", flash.value, 200.0, 500.0)?;
        if t_k >= record.boiling_point.value.si() {
            let problem = format!(
                "flash point is {}, allowed is below the boiling point of {}",
                show(flash.value),
                show(record.boiling_point.value)
            );
            return Err(place.fault("flash_point", problem, "take both from the safety data sheet"));
        }
    }
    let mut lower = 0.0;
    for (field, limit) in [
        ("lower_flammable_limit", &record.lower_flammable_limit),
        ("upper_flammable_limit", &record.upper_flammable_limit),
    ] {
        if let Some(limit) = limit {
            place.within(field, limit.value, lower, 1.0)?;
            lower = limit.value.si();
        }
    }
    for limit in &record.exposure_limits {
        match limit.value {
            super::Concentration::Volume(r) => place.within("exposure_limits", r, 1e-9, 0.1)?,
            super::Concentration::Mass(m) => place.within("exposure_limits", m, 1e-9, 1.0)?,
        };
    }
    if let Some(h) = &record.hansen {
        for part in [h.d, h.p, h.h] {
            place.within("hansen", part, 0.0, 60.0e3)?;
        }
    }
    for rate in &record.evaporation_rates {
        if !(rate.value > 0.0 && rate.value < 1e5) {
            let problem =
                format!("evaporation rate is {}, allowed is more than 0, less than 100000", rate.value);
            return Err(place.fault(
                "evaporation_rates",
                problem,
                "write the number as printed, with its scale",
            ));
        }
    }
    Ok(())
}

fn surrogate(
    record: &Record,
    place: &Place<'_>,
    find: &dyn Fn(&str) -> Result<Solvent>,
) -> Result<Vec<(Solvent, f64)>> {
    let Some(s) = &record.surrogate else { return Ok(Vec::new()) };
    let sum: f64 = s.mole_fractions.values().sum();
    if !((sum - 1.0).abs() < 1e-6 && s.mole_fractions.values().all(|x| *x > 0.0)) {
        let problem = format!("mole fractions add up to {sum}, allowed is 1, each above 0");
        return Err(place.fault("surrogate", problem, "share out the whole of the cut"));
    }
    s.mole_fractions
        .iter()
        .map(|(name, x)| match find(name) {
            Ok(solvent) if solvent.is_cut() => {
                Err(place.fault("surrogate", format!("{name:?} is a cut itself"), "name pure liquids"))
            }
            Ok(solvent) => Ok((solvent, *x)),
            Err(e) => Err(place.fault("surrogate", e.to_string(), "name pure liquids of the catalogue")),
        })
        .collect()
}
