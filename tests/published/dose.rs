//! Dilution arithmetic and drops: published examples against what the crate computes.

use approx::assert_abs_diff_eq;
use mistcoat::dose::{
    Batch, DropVolumes, Dropper, Parts, Repair, Thinning, VocContent, alligation, cpvc, cut_of_solution,
    drop_recipes, dry_film, spreading_rate, thinned_solids, voc_after_thinning, wet_film,
};
use mistcoat::estimate::Estimate;
use mistcoat::quantity::{
    Density, Mass, MassConcentration, Quantity, Ratio, SurfaceTension, Volume, VolumeFraction, of, to,
};
use serde::Deserialize;

fn q<Q: Quantity>(value: f64, unit: &str) -> Q {
    of(value, unit).unwrap()
}

fn fraction(x: f64) -> VolumeFraction {
    VolumeFraction::new(x).unwrap()
}

fn x(value: f64) -> Thinning {
    Thinning::from_paint_fraction(fraction(value)).unwrap()
}

fn parts(thinner: f64, paint: f64) -> Thinning {
    Thinning::from_parts(Parts { thinner, paint }).unwrap()
}

fn percent(p: f64) -> Ratio {
    Ratio::from_si(p / 100.0)
}

fn rows<T: for<'de> Deserialize<'de>>(file: &str) -> Vec<T> {
    let path = format!("{}/tests/data/{file}", env!("CARGO_MANIFEST_DIR"));
    csv::Reader::from_path(path).unwrap().deserialize().map(Result::unwrap).collect()
}

/// Rows of `tests/data/dilution_checks.csv`.
pub fn checks() -> Vec<Check> {
    rows("dilution_checks.csv")
}

/// Rows of `tests/data/drop_weights.csv`.
pub fn weights() -> Vec<Weight> {
    rows("drop_weights.csv")
}

/// Sixty drops of water from the glass dropper are 60 US minims of 0.0616115 mL.
const MINIM_ML: f64 = 0.061_611_5;

/// The glass dropper of the table in minims, its tip fitted to its water drops.
pub fn glass_tip(data: &[Weight]) -> Dropper {
    let water = data.iter().find(|w| w.set == "minims" && w.liquid == "water").unwrap();
    Dropper::tip_from_drop(
        q(MINIM_ML, "mL"),
        q(water.surface_tension_mn_m, "mN/m"),
        q(water.density_g_ml, "g/mL"),
    )
    .unwrap()
}

#[derive(Debug, Deserialize)]
#[allow(dead_code, reason = "each user reads its own columns")]
pub struct Check {
    pub id: String,
    pub what: String,
    pub a: f64,
    pub b: Option<f64>,
    pub c: Option<f64>,
    pub d: Option<f64>,
    pub expected: f64,
    pub unit: String,
    pub tolerance: f64,
    pub source: String,
}

impl Check {
    pub fn computed(&self) -> f64 {
        let (a, b, c, d) =
            (self.a, self.b.unwrap_or(f64::NAN), self.c.unwrap_or(f64::NAN), self.d.unwrap_or(f64::NAN));
        let gal: Volume = q(1.0, "US gal");
        match self.what.as_str() {
            "solids_after_percent_of_paint" => {
                let t = Thinning::from_percent_of_paint(Ratio::from_si(b)).unwrap();
                let vs = thinned_solids(fraction(a), t).unwrap().get();
                assert!((vs - c).abs() > 0.02 && (vs - d).abs() > 0.02, "one of the two wrong answers");
                vs
            }
            "wet_film_um" => to(wet_film(q(a, "um"), fraction(b)).unwrap(), "um").unwrap(),
            "dry_film_mil" => to(dry_film(q(a, "mil"), fraction(b)).unwrap(), "mil").unwrap(),
            "spreading_ft2_gal" => {
                to(spreading_rate(fraction(a), q(b, "mil")).unwrap(), "ft2/US gal").unwrap()
            }
            "spreading_m2_l" => to(spreading_rate(fraction(a), q(b, "um")).unwrap(), "m2/L").unwrap(),
            "voc_total_lb_gal" => {
                let organic: Mass = q(a * b, "lb");
                to(VocContent::new(gal, organic).unwrap().total(), "lb/US gal").unwrap()
            }
            "voc_combined_lb_gal" => {
                let one = VocContent::new(q(a, "US gal"), q(a * b, "lb")).unwrap();
                let two = VocContent::new(q(c, "US gal"), q(c * d, "lb")).unwrap();
                // The seven parts of water of the source do not change a figure less water.
                let water =
                    VocContent::new(q(7.0, "US gal"), q(0.0, "lb")).unwrap().water(q(7.0, "US gal")).unwrap();
                to(one.combined(&two).combined(&water).less_water_and_exempt().unwrap(), "lb/US gal").unwrap()
            }
            "voc_less_water_lb_gal" => {
                let organic: Mass = q((1.0 - a - b) * c, "lb");
                let paint = VocContent::new(gal, organic).unwrap().water(q(b, "US gal")).unwrap();
                to(paint.less_water_and_exempt().unwrap(), "lb/US gal").unwrap()
            }
            "lb_gal_to_g_l" => to(q::<MassConcentration>(a, "lb/US gal"), "g/L").unwrap(),
            "voc_after_thinning" => {
                let mix = Thinning::from_percent_of_paint(Ratio::from_si(c)).unwrap();
                to(voc_after_thinning(q(a, "g/L"), q(b, "g/L"), mix).unwrap(), "g/L").unwrap()
            }
            "cpvc" => cpvc(Ratio::from_si(a), q(b, "g/mL")).unwrap().get(),
            "paint_fraction" => parts(a, b).paint_fraction().get(),
            "percent_of_mix" => {
                Thinning::from_percent_of_paint(percent(a)).unwrap().percent_of_mix().si() * 100.0
            }
            "alligation" => {
                let p = alligation(fraction(a), fraction(b), fraction(c)).unwrap();
                p.strong / p.weak
            }
            "repair_ml" => {
                let batch = Batch::new(q(a, "mL"), x(b)).unwrap();
                let Repair::AddPaint(v) = batch.repair(x(c), x(d)).unwrap() else { panic!("too thin") };
                to(v, "mL").unwrap()
            }
            "cut_g_100ml" => to(cut_of_solution(q(a, "g"), q(b, "mL")).unwrap(), "g/L").unwrap() / 10.0,
            "u_x" => {
                // Ten drops against ten, the drop volumes taken as exact.
                let one = Estimate::exact(q(0.05, "mL"));
                let drops = DropVolumes { paint: one.clone(), thinner: one };
                let total: Volume = q(0.05 * (a + b), "mL");
                let best = &drop_recipes(parts(1.0, 1.0), Some(total), &drops, 1).unwrap()[0];
                assert_eq!((best.paint_drops, best.thinner_drops), (10, 10));
                assert_abs_diff_eq!(c, 0.07);
                best.paint_fraction.std()
            }
            other => panic!("unknown check {other}"),
        }
    }
}

#[derive(Debug, Deserialize)]
#[allow(dead_code, reason = "each user reads its own columns")]
pub struct Weight {
    pub set: String,
    pub liquid: String,
    pub tip_mm: Option<f64>,
    pub surface_tension_mn_m: f64,
    pub density_g_ml: f64,
    pub published: f64,
    pub deviation_pct: f64,
    pub source: String,
}

impl Weight {
    /// Mass of a drop in mg, or drops to 60 minims.
    pub fn predicted(&self, data: &[Self]) -> f64 {
        let (gamma, rho): (SurfaceTension, Density) =
            (q(self.surface_tension_mn_m, "mN/m"), q(self.density_g_ml, "g/mL"));
        let dropper = self.tip_mm.map_or_else(|| glass_tip(data), |d| Dropper::tip(q(d, "mm")).unwrap());
        let v = dropper.drop_volume(gamma, rho, None).unwrap().best();
        if self.set == "minims" { 60.0 * MINIM_ML * 1e-6 / v.si() } else { v.si() * rho.si() * 1e6 }
    }
}
