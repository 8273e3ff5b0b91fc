//! Cups, drops and the arithmetic of thinning.

use super::report::{Measure, Row, Section, celsius, data, number};
use super::{published_dose, report};
use mistcoat::cup::{FlowCup, reference::ReferenceLiquid};
use mistcoat::quantity::{Quantity, Ratio, Time, to};

pub fn cups() -> Section {
    let data = data("flowcup_checks.csv");
    let rows = data.iter().map(|r| {
        let (standard, size) = (r["standard"].as_str(), r["size"].as_str());
        let seconds = number(r, "efflux_s");
        let cup = FlowCup::standard(standard, size).unwrap();
        let nu = to(cup.kinematic_viscosity(Time::from_si(seconds)).unwrap().best(), "mm2/s").unwrap();
        let published = number(r, "published_mm2_s");
        let what = if r["verdict"] == "agrees" { String::new() } else { format!(" ({})", r["verdict"]) };
        // Limits are stated to a tenth of a percent.
        let limit = r["limit_pct"].parse().ok().map(|l: f64| l + 0.05);
        Row::new(
            &format!("{standard} {size}"),
            &format!("{seconds} s{what}"),
            "mm²/s",
            published,
            nu,
            &r["source"],
        )
        .within(limit)
    });
    let text = "Kinematic viscosity from the equation of each standard. Conversion tables of handbooks often print cups of an \
        older shape or run outside the range of the standard; those rows miss as documented and carry no tolerance.";
    Section::new("Flow cups", Measure::Percent, rows.collect(), text)
}

pub fn glycerol_water() -> Section {
    let data = data("glycerol_water.csv");
    let rows = data.iter().map(|r| {
        let (mass, t) = (number(r, "glycerol_mass_pct"), number(r, "temperature_c"));
        let mix = ReferenceLiquid::glycerol_water(Ratio::from_si(mass / 100.0)).unwrap();
        let eta = to(mix.dynamic_viscosity(celsius(t)).unwrap().best, "mPa.s").unwrap();
        let conditions = format!("{mass} % by mass, {t} °C");
        Row::new("viscosity", &conditions, "mPa·s", number(r, "viscosity_mpa_s"), eta, &r["source"])
            .within(3.6)
    });
    let text = "The liquid to calibrate a cup with at home, by the correlation of Cheng (2008).";
    Section::new("Glycerol and water", Measure::Percent, rows.collect(), text)
}

pub fn dilution_arithmetic() -> Section {
    let rows = published_dose::checks().into_iter().map(|k| {
        let inputs: Vec<String> =
            [Some(k.a), k.b, k.c, k.d].iter().flatten().map(ToString::to_string).collect();
        let unit = if k.unit == "1" { "" } else { k.unit.as_str() };
        let name = k.what.replace('_', " ");
        // In percent of the value; those that print zero tolerance are arithmetic.
        let tolerance = 100.0 * k.tolerance / k.expected.abs();
        Row::new(
            &name,
            &format!("{} of {}", k.id, inputs.join(", ")),
            unit,
            k.expected,
            k.computed(),
            &k.source,
        )
        .within(tolerance)
    });
    let text = "Solids, film build, spreading rate, VOC, alligation: worked examples as printed, so that a row may deviate \
        by the rounding of its source.";
    Section::new("Arithmetic of thinning", Measure::Percent, rows.collect(), text)
}

pub fn drops() -> Section {
    let data = published_dose::weights();
    let rows = data.iter().map(|w| {
        let (quantity, unit) =
            if w.set == "minims" { ("drops to 60 minims", "") } else { ("mass of a drop", "mg") };
        let tip = w.tip_mm.map_or_else(|| "glass dropper".to_owned(), |d| format!("tip {d} mm"));
        let conditions = format!("{}, {} ({tip})", w.liquid, w.set);
        let tolerance = (w.deviation_pct.abs() <= 1.0).then_some(2.0);
        report::Row::new(quantity, &conditions, unit, w.published, w.predicted(&data), &w.source)
            .within(tolerance)
    });
    let text = "Drop weight after Harkins and Brown for drops that fall slowly from a wetted tip. It is claimed within 2 % \
        for such drops; the other rows (fast drops of the ring, viscous or mixed liquids of a century-old table) miss by \
        what is shown, and the tests hold them to it.";
    Section::new("Drops", Measure::Percent, rows.collect(), text)
}
