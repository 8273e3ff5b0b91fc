//! Pure liquids of the catalogue.

use super::report::{Measure, Row, Section, celsius, data, number};
use mistcoat::quantity::Quantity;
use mistcoat::solvent::{Solvent, find};

fn property(s: &Solvent, property: &str, celsius_t: f64) -> Option<(f64, &'static str)> {
    let t = celsius(celsius_t);
    Some(match property {
        "vapour_pressure" => (s.vapour_pressure(t).ok()?.best.si(), "Pa"),
        "density" => (s.density(t).ok()?.best.si(), "kg/m³"),
        "viscosity" => (1e3 * s.viscosity(t).ok()?.best.si(), "mPa·s"),
        "surface_tension" => (1e3 * s.surface_tension(t).ok()?.best.si(), "mN/m"),
        "diffusivity" => (1e6 * s.diffusivity(t).ok()?.best.si(), "mm²/s"),
        "heat_of_vaporisation" => (1e-3 * s.heat_of_vaporisation(t).ok()?.best.si(), "kJ/mol"),
        "heat_capacity" => (s.heat_capacity_per_kelvin().best.si(), "J/(mol·K)"),
        other => panic!("{other}"),
    })
}

pub fn vapour_pressures() -> Section {
    let data = data("vapour_pressure_20c.csv");
    let rows = data.iter().map(|r| {
        let (value, unit) = property(&find(&r["solvent"]).unwrap(), "vapour_pressure", 20.0).unwrap();
        let tolerance = (r["verdict"] == "confirmed").then(|| number(r, "tolerance_percent"));
        let conditions = if r["verdict"] == "confirmed" { "20 °C" } else { "20 °C, sources differ" };
        let published = number(r, "independent_pa");
        let row = Row::new(&r["solvent"], conditions, unit, published, value, &r["source"]).within(tolerance);
        // The median of correlations in open libraries, each fitted to measurements.
        if r["source"].starts_with("median") { row.said_to_be("computed") } else { row }
    });
    let text = "The number that decides over flash-off, against correlations independent of the catalogue's own. Where \
        sources differ by more than 3 % the catalogue carries the spread in its interval and no tolerance stands here.";
    Section::new("Vapour pressure at 20 °C", Measure::Percent, rows.collect(), text)
}

pub fn single_values() -> Section {
    let data = data("solvent_published.csv");
    let rows = data.iter().map(|r| {
        let t = number(r, "temperature_c");
        let (value, unit) = property(&find(&r["solvent"]).unwrap(), &r["property"], t).unwrap();
        let name = format!("{} of {}", r["property"].replace('_', " "), r["solvent"]);
        Row::new(&name, &format!("{t} °C"), unit, number(r, "value"), value, &r["source"])
            .within(number(r, "tolerance_percent"))
    });
    let text =
        "Handbook values, each with the tolerance that its rounding and the scatter of handbooks ask for.";
    Section::new("Properties of liquids", Measure::Percent, rows.collect(), text)
}

pub fn open_libraries() -> Section {
    let data = data("solvent_references.csv");
    let rows = data.iter().filter_map(|r| {
        let t = number(r, "temperature_c");
        let (value, unit) = property(&find(&r["solvent"]).unwrap(), &r["property"], t)?;
        let name = format!("{} of {}", r["property"].replace('_', " "), r["solvent"]);
        Some(
            Row::new(&name, &format!("{t} °C"), unit, number(r, "value"), value, &r["source"])
                .said_to_be("computed"),
        )
    });
    let text = "Every correlation that two open libraries have for a property, at several temperatures, the broken ones and \
        those outside their range included; so there is no claim row by row. `tests/solvent/references.rs` takes the median of the \
        independent ones and holds the catalogue to 0.25 to 4 % of it near room temperature. What the table shows is how far \
        libraries lie apart.";
    Section::new("Open libraries of properties", Measure::Percent, rows.collect(), text).worst(10)
}
