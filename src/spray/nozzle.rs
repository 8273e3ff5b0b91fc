//! What does a nozzle of this bore pass: how much air, how much paint, and is it too fine for this paint?
//!
//! **Air**: effective area by bore from `data/nozzles.toml` (common practice, factor 1.5), or as measured.
//!
//! **Paint**: the hand on the trigger sets the flow. A working flow by bore (common practice, factor 2) goes with the root
//! of the pressure. It can be had as long as the nozzle passes it with the trigger fully drawn: suction (in proportion to
//! the gauge pressure) against viscous and inertial resistance of the gap,
//! `p/p_ref = (1 − β)(η/η_ref) q + β q²`, `q = Q/(2 Q_ref)`, β 0.15. Thick paint hardly comes; thin paint comes faster
//! than wanted unless the trigger or the pressure is eased.
//!
//! Accuracy: no measured paint flow of an airbrush was found in print; weigh the cup before and after a minute of
//! spraying and give the flow. The shape of the law is the textbook form of laminar and inertial resistance.

use crate::error::{Error, Result, bad_data, out_of_range};
use crate::estimate::{Estimate, ModelError};
use crate::quantity::{Area, DynamicViscosity, Length, Pressure, Quantity, VolumeRate, parse, show};
use serde::Deserialize;
use std::sync::LazyLock;

const FILE: &str = "data/nozzles.toml";
/// ln of a factor over this is its standard deviation when it holds 95 %.
const K95: f64 = 1.959_964;
/// Flow with the trigger fully drawn over the working flow, at the reference state.
const FULLY_DRAWN: f64 = 2.0;
/// Share of the inertial resistance at the reference state: 0.7 m/s through a 50 µm gap is 0.3 kPa of dynamic pressure
/// against a few kPa of suction.
const INERTIAL: f64 = 0.15;
/// Working gap around the needle over the bore (source key `NEEDLE_GAP`).
pub(crate) const GAP: f64 = 0.15;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    schema: u32,
    reference_pressure: String,
    reference_viscosity: String,
    air_area_factor: f64,
    paint_flow_factor: f64,
    source: String,
    nozzle: Vec<Row>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    bore: String,
    air_area: String,
    paint_flow: String,
}

struct Table {
    reference_pa: f64,
    reference_pa_s: f64,
    air_area_std: f64,
    paint_flow_std: f64,
    source: String,
    /// Logarithms of bore, area and flow in SI units.
    rows: Vec<[f64; 3]>,
}

static TABLE: LazyLock<Result<Table>> = LazyLock::new(|| read(include_str!("../../data/nozzles.toml")));

fn read(text: &str) -> Result<Table> {
    let damaged = |what: String| bad_data(FILE, None, None, what, "restore the file from the release");
    let file: File = toml::from_str(text).map_err(|e| damaged(e.message().to_owned()))?;
    let ln = |si: f64| -> Result<f64> {
        if si > 0.0 { Ok(si.ln()) } else { Err(damaged(format!("{si} where a positive number belongs"))) }
    };
    let mut rows = Vec::with_capacity(file.nozzle.len());
    for row in &file.nozzle {
        rows.push([
            ln(parse::<Length>(&row.bore)?.si())?,
            ln(parse::<Area>(&row.air_area)?.si())?,
            ln(parse::<VolumeRate>(&row.paint_flow)?.si())?,
        ]);
    }
    if file.schema != 1 || rows.len() < 2 || !rows.is_sorted_by(|a, b| a[0] < b[0]) {
        return Err(damaged("schema 1 with at least two nozzles of rising bore is needed".to_owned()));
    }
    Ok(Table {
        reference_pa: parse::<Pressure>(&file.reference_pressure)?.si(),
        reference_pa_s: parse::<DynamicViscosity>(&file.reference_viscosity)?.si(),
        air_area_std: ln(file.air_area_factor)? / K95,
        paint_flow_std: ln(file.paint_flow_factor)? / K95,
        source: file.source,
        rows,
    })
}

fn table() -> Result<&'static Table> {
    TABLE.as_ref().map_err(Error::clone)
}

/// What nozzles of a bore usually pass.
///
/// ```
/// use mistcoat::quantity::{parse, to};
/// use mistcoat::spray::NozzleTypical;
/// let n = NozzleTypical::of(parse("0.3 mm")?)?;
/// assert!((to(n.air_area.best, "mm2")? - 0.4).abs() < 1e-9);
/// assert!(n.paint_flow.low < n.paint_flow.best);
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct NozzleTypical {
    /// Effective area of the air gap, discharge coefficient included.
    pub air_area: Estimate<Area>,
    /// Paint with the trigger half drawn at 138 kPa (20 psi).
    pub paint_flow: Estimate<VolumeRate>,
    /// Source key.
    pub source: &'static str,
}

impl NozzleTypical {
    /// By the bore of the paint nozzle, 0.15 to 1.5 mm.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside that.
    pub fn of(bore: Length) -> Result<Self> {
        check_bore(bore)?;
        let table = table()?;
        let x = bore.si().ln();
        let upper = table.rows.partition_point(|r| r[0] < x).clamp(1, table.rows.len() - 1);
        let (a, b) = (&table.rows[upper - 1], &table.rows[upper]);
        let at = |column: usize| (a[column] + (b[column] - a[column]) * (x - a[0]) / (b[0] - a[0])).exp();
        Ok(Self {
            air_area: Estimate::relative(
                Area::from_si(at(1)),
                &[ModelError::new("air area of the nozzle (typical)", table.air_area_std)],
            ),
            paint_flow: Estimate::relative(
                VolumeRate::from_si(at(2)),
                &[ModelError::new("paint flow (typical)", table.paint_flow_std)],
            ),
            source: &table.source,
        })
    }
}

pub(crate) fn check_bore(bore: Length) -> Result<()> {
    // The ends themselves are meant, however they were written.
    if (0.149e-3..=1.501e-3).contains(&bore.si()) {
        return Ok(());
    }
    Err(out_of_range(
        "bore of the paint nozzle",
        show(bore),
        "0.15 mm to 1.5 mm",
        "airbrushes have 0.15 mm to 0.5 mm, mini guns 0.5 mm to 1.5 mm; it is stamped on the nozzle or the needle",
    ))
}

/// Working flow at a pressure, m3/s.
pub(crate) fn working_flow(at_reference_m3_s: f64, gauge_pa: f64) -> Result<f64> {
    Ok(at_reference_m3_s * (gauge_pa / table()?.reference_pa).sqrt())
}

/// Flow with the trigger fully drawn, m3/s.
pub(crate) fn full_flow(at_reference_m3_s: f64, gauge_pa: f64, viscosity_pa_s: f64) -> Result<f64> {
    let table = table()?;
    let drive = gauge_pa / table.reference_pa;
    let viscous = (1.0 - INERTIAL) * viscosity_pa_s / table.reference_pa_s;
    // The positive root of β q² + viscous q = drive, in the form that loses no digits.
    let q = 2.0 * drive / (viscous + (viscous * viscous + 4.0 * INERTIAL * drive).sqrt());
    Ok(FULLY_DRAWN * at_reference_m3_s * q)
}

/// Shear rate at the wall of a round passage of this bore, 1/s: `32 Q/(π d³)`.
pub(crate) fn shear_rate_per_s(paint_m3_s: f64, bore_m: f64) -> f64 {
    32.0 * paint_m3_s / (core::f64::consts::PI * bore_m.powi(3))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::to;

    #[test]
    fn rows_and_between() {
        let at = |mm: f64| NozzleTypical::of(Length::from_si(mm * 1e-3)).unwrap();
        for (mm, mm2, ml) in [(0.15, 0.25, 0.4), (0.2, 0.3, 0.7), (1.5, 5.0, 100.0)] {
            approx::assert_relative_eq!(to(at(mm).air_area.best, "mm2").unwrap(), mm2, max_relative = 1e-9);
            approx::assert_relative_eq!(
                to(at(mm).paint_flow.best, "mL/min").unwrap(),
                ml,
                max_relative = 1e-9
            );
        }
        assert!(at(0.4).paint_flow.best > at(0.3).paint_flow.best);
        assert!(at(0.4).paint_flow.best < at(0.5).paint_flow.best);
        assert!(crate::source::find(at(0.4).source).is_ok());
        assert!(NozzleTypical::of(parse("0.1 mm").unwrap()).unwrap_err().to_string().contains("stamped"));
        assert!(NozzleTypical::of(Length::from_si(f64::NAN)).is_err());
    }

    // Published figures: 10 to 20 L/min of free air for hobby airbrushes, at 1 to 2.5 bar.
    #[test]
    fn air_is_what_hobby_compressors_are_made_for() {
        use crate::air::{Orifice, Room};
        use crate::quantity::RelativeHumidity;
        let room = Room::new(parse("20 °C").unwrap(), RelativeHumidity::new(0.5).unwrap()).unwrap();
        let area = NozzleTypical::of(parse("0.3 mm").unwrap()).unwrap().air_area.best;
        let flow = Orifice::effective(area).unwrap().free_air(parse("20 psi").unwrap(), &room).unwrap();
        assert!((10.0..20.0).contains(&to(flow, "L/min").unwrap()));
    }

    // 0.5 mL/min through 0.30 mm: 3100 1/s (worked from the cited form).
    #[test]
    fn shear_rate() {
        approx::assert_relative_eq!(shear_rate_per_s(0.5e-6 / 60.0, 0.3e-3), 3100.0, max_relative = 0.02);
    }

    proptest::proptest! {
        #[test]
        fn thick_paint_comes_slowly(mu in 5e-4_f64..10.0, kpa in 20.0_f64..600.0) {
            let flow = |mu: f64, kpa: f64| full_flow(1e-8, kpa * 1e3, mu).unwrap();
            let q = flow(mu, kpa);
            proptest::prop_assert!(q > 0.0 && q.is_finite());
            proptest::prop_assert!(flow(1.1 * mu, kpa) < q && flow(mu, 1.1 * kpa) > q);
            // It solves its law.
            let x = q / 2e-8;
            let drive = 0.85 * mu / 15e-3 * x + 0.15 * x * x;
            approx::assert_relative_eq!(drive, kpa / 138.0, max_relative = 1e-9);
        }
    }

    #[test]
    fn damaged_table_is_refused() {
        let text = include_str!("../../data/nozzles.toml");
        assert!(read(&text.replace("0.3 mm\"", "0.1 mm\"")).is_err());
        assert!(read(&text.replace("schema = 1", "schema = 2")).is_err());
        assert!(read(&text.replace("\"0.4 mm2\"", "\"-0.4 mm2\"")).is_err());
    }
}
