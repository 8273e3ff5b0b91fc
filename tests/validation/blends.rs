//! Liquids together.

use super::report::{Measure, Row, Section, celsius, data, number};
use mistcoat::blend::unifac::{Model, Table};
use mistcoat::blend::{Basis, Blend};
use mistcoat::quantity::Quantity;
use mistcoat::quantity::to;
use std::collections::HashMap;

fn pair(a: &str, b: &str, percent: f64, basis: Basis) -> Blend {
    Blend::from_names(&[(a, percent), (b, 100.0 - percent)], basis, None).unwrap()
}

fn gammas(table: Table, groups: &[Vec<(&str, f64)>], kelvin: f64, x: &[f64]) -> Vec<f64> {
    let species: Vec<&[(&str, f64)]> = groups.iter().map(Vec::as_slice).collect();
    let model = Model::new(table, &species).unwrap();
    let mut out = vec![f64::NAN; x.len()];
    model.ln_gamma(kelvin, x, &mut model.scratch(), &mut out);
    out.iter().map(|g| g.exp()).collect()
}

pub fn ethanol_water_equilibrium() -> Section {
    let mut rows = Vec::new();
    let tables =
        [(Table::Original, "OH", 0.03, "original UNIFAC"), (Table::Dortmund, "OH(P)", 0.012, "Dortmund")];
    for (table, oh, tolerance, name) in tables {
        for r in data("ethanol_water_vle.csv") {
            let (t, x) = (number(&r, "temperature_C"), number(&r, "x_ethanol"));
            let groups = [vec![("CH3", 1.0), ("CH2", 1.0), (oh, 1.0)], vec![("H2O", 1.0)]];
            let g = gammas(table, &groups, t + 273.15, &[x, 1.0 - x]);
            let ethanol = x * g[0] * number(&r, "psat_ethanol_Pa");
            let water = (1.0 - x) * g[1] * number(&r, "psat_water_Pa");
            let y = ethanol / (ethanol + water);
            let conditions = format!("x {x}, {t} °C, {name}");
            rows.push(
                Row::new("ethanol in the vapour", &conditions, "", number(&r, "y_ethanol"), y, &r["source"])
                    .within(tolerance),
            );
        }
    }
    let text = "Mole fraction over ethanol and water at 1 atm. The engine takes the Dortmund table for alcohols with water, the \
        original one for glycol ethers, which Dortmund falsely splits.";
    Section::new("Ethanol and water, vapour and liquid", Measure::Difference(""), rows, text)
}

pub fn unifac() -> Section {
    let all = data("unifac_reference.csv");
    let mut rows = Vec::new();
    for blend in all.chunk_by(|a, b| a["blend"] == b["blend"]) {
        let groups: Vec<Vec<(&str, f64)>> = blend.iter().map(|r| parse(&r["groups"])).collect();
        let x: Vec<f64> = blend.iter().map(|r| number(r, "mole_fraction")).collect();
        let table = if blend[0]["table"] == "original" { Table::Original } else { Table::Dortmund };
        let t = number(&blend[0], "temperature_C");
        for (r, ours) in blend.iter().zip(gammas(table, &groups, t + 273.15, &x)) {
            let conditions = format!("blend {} at {t} °C, {}", r["blend"], r["table"]);
            rows.push(
                Row::new(
                    &format!("activity coefficient of {}", r["solvent"]),
                    &conditions,
                    "",
                    number(r, "gamma"),
                    ours,
                    &r["source"],
                )
                .within(1e-4),
            );
        }
    }
    let text =
        "Two hundred random blends against another implementation: checks the arithmetic, not the model.";
    Section::new("Activity coefficients", Measure::Percent, rows, text).worst(5)
}

fn parse(groups: &str) -> Vec<(&str, f64)> {
    groups
        .split(';')
        .map(|part| part.trim().rsplit_once(':').map(|(name, count)| (name, count.parse().unwrap())).unwrap())
        .collect()
}

fn percents(r: &HashMap<String, String>, column: &str) -> Option<f64> {
    Some(number(r, column)).filter(|w| *w > 0.0 && *w < 100.0)
}

pub fn ethanol_water_viscosity() -> Section {
    let rows = data("ethanol_water_viscosity.csv");
    let rows = rows.iter().filter_map(|r| {
        let w = percents(r, "ethanol_mass_percent")?;
        let t = number(r, "temperature_C");
        let blend = pair("ethanol", "water", w, Basis::Mass);
        let eta = 1e3 * blend.viscosity(celsius(t)).unwrap().best().si();
        let conditions = format!("{w} % by mass, {t} °C");
        Some(
            Row::new("viscosity", &conditions, "mPa·s", number(r, "viscosity_mPa_s"), eta, &r["source"])
                .within(13.5),
        )
    });
    let text = "The excess of alcohol with water was fitted to this table: it shows the quality of the fit, not a prediction.";
    Section::new("Viscosity of ethanol and water", Measure::Percent, rows.collect(), text)
}

pub fn surface_tension() -> Section {
    let rows = data("aqueous_surface_tension.csv");
    let rows = rows.iter().filter_map(|r| {
        let w = percents(r, "mass_percent")?;
        let blend = pair(&r["solvent"], "water", w, Basis::Mass);
        let sigma = 1e3 * blend.surface_tension(celsius(25.0)).unwrap().best().si();
        let quantity = format!("{} in water", r["solvent"]);
        let published = number(r, "surface_tension_mN_m");
        Some(
            Row::new(&quantity, &format!("{w} % by mass, 25 °C"), "mN/m", published, sigma, &r["source"])
                .within(16.0),
        )
    });
    let text = "An alcohol crowds at the surface of water: the plain rule of mixing is 25 to 50 % off, the one used here 16 % at most.";
    Section::new("Surface tension of alcohol and water", Measure::Percent, rows.collect(), text)
}

pub fn flash_points() -> Section {
    let rows = data("ethanol_water_flash_point.csv");
    let rows = rows.iter().map(|r| {
        let v = number(r, "ethanol_volume_percent");
        let blend = pair("ethanol", "water", v, Basis::Volume);
        let t = to(blend.flash_point().unwrap().unwrap().best(), "°C").unwrap();
        Row::new(
            "flash point",
            &format!("ethanol {v} % by volume"),
            "°C",
            number(r, "flash_point_C"),
            t,
            &r["source"],
        )
        .within(4.0)
    });
    let text = "Closed cup, by the rule of Le Chatelier with activities. Printed to whole degrees, and the two sources disagree \
        whether the percent is by weight or volume. The safety data sheet of the can decides.";
    Section::new("Flash point of ethanol and water", Measure::Difference("K"), rows.collect(), text)
}
