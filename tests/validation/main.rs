//! The validation report: every published value of the tests beside what the crate computes, in `docs/validation.md`.
//!
//! To add a subject: put the published values into a file of `tests/data/` with a source beside each; write a function
//! that returns a [`report::Section`] (read the rows with [`report::data`], compute, one [`report::Row`] each, with its
//! tolerance); add the function to [`SECTIONS`]; run `UPDATE=1 cargo test --test validation` and read what it wrote.
//! Where another test computes the same rows, put the computation into `tests/published/` and use it from both.
#![allow(clippy::unwrap_used, clippy::panic, clippy::print_stdout, reason = "a failed test panics")]

mod air;
mod bench;
mod blends;
#[path = "../published/case.rs"]
mod case;
mod evaporation;
mod films;
mod liquids;
#[path = "../published/dose.rs"]
mod published_dose;
#[path = "../published/near_gun.rs"]
mod published_near_gun;
#[path = "../published/room_vapour.rs"]
mod published_room;
#[path = "../published/session_vapour.rs"]
mod published_session;
mod report;

use report::{Section, keep, page};

/// In the order of the page.
const SECTIONS: &[fn() -> Section] = &[
    bench::cups,
    bench::glycerol_water,
    bench::dilution_arithmetic,
    bench::drops,
    liquids::vapour_pressures,
    liquids::single_values,
    liquids::open_libraries,
    blends::ethanol_water_equilibrium,
    blends::unifac,
    blends::ethanol_water_viscosity,
    blends::surface_tension,
    blends::flash_points,
    evaporation::paper,
    evaporation::metal_plate,
    evaporation::ether_scale,
    evaporation::every_published_rate,
    air::psychrometrics,
    air::humidity_ratios,
    air::nozzles,
    air::room_vapour,
    air::session_vapour,
    air::near_gun,
    films::times,
    films::temperatures,
];

/// Every row within its tolerance; the committed page is what the crate computes today.
#[test]
fn report_is_current_and_every_row_holds() {
    let sections: Vec<Section> = SECTIONS.iter().map(|section| section()).collect();
    let faults: Vec<String> = sections.iter().flat_map(Section::faults).collect();
    assert!(faults.is_empty(), "{} rows out of tolerance:\n{}", faults.len(), faults.join("\n"));
    assert!(sections.iter().all(|s| s.rows.len() > 5), "a section lost its rows");
    keep("docs/validation.md", &page(&sections));
}

/// The points of the scatter plot, which `docs/evaporation_rates.py` draws.
#[test]
fn points_of_the_plot_are_current() {
    keep("docs/evaporation-rates.csv", &evaporation::points());
}

/// A row that is off is found, and a number that is none.
#[test]
fn a_wrong_row_is_a_fault() {
    use report::{Measure, Row};
    let row = |computed: f64| Row::new("x", "y", "s", 100.0, computed, "worked by hand").within(1.0);
    let section = |row: Row| Section::new("t", Measure::Percent, vec![row], "");
    assert!(section(row(100.9)).faults().is_empty());
    assert_eq!(section(row(101.1)).faults().len(), 1);
    assert_eq!(section(row(f64::NAN)).faults().len(), 1);
}
