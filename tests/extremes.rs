//! Legal but absurd values: every public constructor gives a finite number or a typed error, never a panic,
//! an infinity or NaN.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed test panics")]

use mistcoat::Result;
use mistcoat::air::Room;
use mistcoat::bench::Compare;
use mistcoat::blend::{Basis, Blend};
use mistcoat::cup::{FlowCup, Reading, reference::ReferenceLiquid, timing};
use mistcoat::dose::{
    Batch, Counting, Densities, DropVolumes, Dropper, Parts, Repair, Thinning, VocContent, alligation,
    counted_volume, cpvc, cut_of_solution, cut_of_solvent, drop_recipes, dry_film, practical_spreading_rate,
    pvc, spreading_rate, volume_solids_from_resin, volume_solids_from_volatile, wet_film,
};
use mistcoat::estimate::{Estimate, ModelError};
use mistcoat::film::Film;
use mistcoat::paint::{DilutionLaw, DilutionReading, Family, Paint, ShapePrior, settling};
use mistcoat::quantity::{
    Density, DynamicViscosity, Frequency, Length, Mass, MassConcentration, Pressure, Quantity,
    RelativeHumidity, SpreadingRate, SurfaceTension, Temperature, Velocity, Volume, VolumeFraction, parse,
};

const VALUES: [f64; 15] = [
    f64::NEG_INFINITY,
    -1.0,
    0.0,
    1e-300,
    1e-12,
    1e-6,
    1e-3,
    1.0,
    20.0,
    300.0,
    1e6,
    1e300,
    f64::MAX,
    f64::INFINITY,
    f64::NAN,
];

fn q<Q: Quantity>(si: f64) -> Q {
    Q::from_si(si)
}

fn share(v: f64) -> Result<VolumeFraction> {
    VolumeFraction::new(v)
}

fn spread<Q: Quantity>(e: &Estimate<Q>) -> Vec<f64> {
    vec![e.best.si(), e.low.si(), e.high.si(), e.relative_std(), e.std()]
}

/// Runs `f` on every pair of values; what succeeds must be finite.
fn pairs(name: &str, f: impl Fn(f64, f64) -> Result<Vec<f64>>) {
    let mut answered = 0;
    for a in VALUES {
        for b in VALUES {
            match f(a, b) {
                Ok(numbers) => {
                    answered += 1;
                    assert!(numbers.iter().all(|n| n.is_finite()), "{name}({a:e}, {b:e}) = {numbers:?}");
                }
                Err(e) => assert!(e.to_string().len() > 30, "{name}({a:e}, {b:e}): {e}"),
            }
        }
    }
    assert!(answered > 0, "{name} refused everything: the test is blind");
}

#[test]
fn dose() {
    pairs("from_parts", |a, b| {
        let t = Thinning::from_parts(Parts { thinner: a, paint: b })?;
        Ok(vec![t.paint_fraction().get(), t.thinner_per_paint(), t.percent_of_mix().si()])
    });
    pairs("from_parts_by_mass", |a, b| {
        let densities = Densities { thinner: q(a), paint: q(b) };
        let t = Thinning::from_parts_by_mass(Parts { thinner: 1.0, paint: 1.0 }, densities)?;
        Ok(vec![t.thinner_per_paint(), t.percent_of_mix_by_mass(densities)?.si()])
    });
    pairs("percent", |a, _| {
        let t = Thinning::from_percent_of_paint(q(a))?;
        Ok(vec![t.thinner_per_paint(), t.thinner_for(q(1.0))?.si()])
    });
    pairs("batch", |a, b| {
        let batch = Batch::from_paint(q(a), Thinning::from_percent_of_paint(q(b))?)?;
        let added = match batch.repair(Thinning::from_paint_fraction(share(0.5)?)?, Thinning::NONE)? {
            Repair::AddThinner(v) | Repair::AddPaint(v) => v.si(),
            Repair::Nothing => 0.0,
        };
        let both = batch.combined(&batch)?;
        Ok(vec![batch.volume().si(), batch.thinner().si(), added, both.volume().si()])
    });
    pairs("alligation", |a, b| {
        let parts = alligation(share(a)?, share(b)?, share(0.5)?)?;
        Ok(vec![parts.strong, parts.weak])
    });
    pairs("wet_film", |a, b| Ok(vec![wet_film(q(a), share(b)?)?.si()]));
    pairs("dry_film", |a, b| Ok(vec![dry_film(q(a), share(b)?)?.si()]));
    pairs("spreading_rate", |a, b| Ok(vec![spreading_rate(share(b)?, q(a))?.si()]));
    pairs("practical", |a, b| Ok(vec![practical_spreading_rate(q::<SpreadingRate>(a), share(b)?)?.si()]));
    pairs("solids by volatile", |a, b| Ok(vec![volume_solids_from_volatile(q(0.5), q(a), q(b))?.get()]));
    pairs("solids by resin", |a, b| Ok(vec![volume_solids_from_resin(q(0.5), q(a), q(b))?.get()]));
    pairs("pvc", |a, b| Ok(vec![pvc(q(a), q(b))?.get()]));
    pairs("cpvc", |a, b| Ok(vec![cpvc(q(a), q(b))?.get()]));
    pairs("cut of solution", |a, b| Ok(vec![cut_of_solution(q(a), q(b))?.si()]));
    pairs("cut of solvent", |a, b| Ok(vec![cut_of_solvent(q(a), q(b), q(1000.0))?.si()]));
    pairs("voc", |a, b| {
        let voc = VocContent::new(q::<Volume>(a), q::<Mass>(b))?;
        Ok(vec![voc.total().si(), voc.less_water_and_exempt()?.si()])
    });
    pairs("voc after thinning", |a, b| {
        let third = Thinning::from_paint_fraction(share(0.3)?)?;
        Ok(vec![mistcoat::dose::voc_after_thinning(q::<MassConcentration>(a), q(b), third)?.si()])
    });
}

#[test]
fn drops() {
    let (tension, density): (SurfaceTension, Density) = (q(0.03), q(900.0));
    pairs("tip", |a, b| Ok(spread(&Dropper::tip(q(a))?.drop_volume(tension, density, Some(q(b)))?.estimate)));
    pairs("drop of a liquid", |a, b| {
        Ok(spread(&Dropper::tip(q(0.003))?.by_hand().drop_volume(q(a), q(b), None)?.estimate))
    });
    pairs("weighed", |a, b| {
        let d = Dropper::weighed(20, q(a), q(b))?;
        Ok(d.measured().map(spread).unwrap_or_default())
    });
    pairs("counted", |a, b| {
        let d = Dropper::counted(1, q(a))?;
        let counting = Counting { scatter: q(b), doubtful_last_drop: true };
        let v = counted_volume(u32::MAX, d.measured().unwrap(), counting)?;
        Ok(spread(&v))
    });
    pairs("tip from drop", |a, b| {
        Ok(vec![Dropper::tip_from_drop(q(a), q(b), density)?.tip_diameter().unwrap().si()])
    });
    pairs("recipes", |a, b| {
        let drops = DropVolumes { paint: Estimate::exact(q(3e-8)), thinner: Estimate::exact(q(b)) };
        let mut out = Vec::new();
        for total in [None, Some(q(1e-6))] {
            let recipes = drop_recipes(Thinning::from_percent_of_paint(q(a))?, total, &drops, 3)?;
            assert!(!recipes.is_empty());
            for r in recipes {
                assert!(r.paint_drops + r.thinner_drops <= 2010, "{r}");
                out.extend([r.ratio_error.si(), r.total.si()]);
            }
        }
        Ok(out)
    });
}

#[test]
fn cups() {
    for cup in FlowCup::list().unwrap() {
        pairs(&cup.name(), |a, _| Ok(spread(&cup.kinematic_viscosity(q(a))?.estimate)));
        pairs(&cup.name(), |a, _| Ok(spread(&cup.efflux_time(q(a * 1e-6))?.estimate)));
        pairs(&cup.name(), |a, b| {
            let nu = Estimate::relative(q(a * 1e-6), &[ModelError::new("guess", b)]);
            Ok(spread(&cup.efflux_time_from(&nu)?.estimate))
        });
    }
    pairs("timing", |a, b| Ok(spread(&timing(&[q(a), q(b), q(a)])?.estimate)));
    pairs("home-made", |a, b| {
        let readings = [Reading::new(q(1e-6), q(5.0)), Reading::new(q(a * 1e-6), q(b))];
        let cup = FlowCup::calibrate(&readings, "syringe")?;
        let t = (cup.time_range().low + cup.time_range().high) / 2.0;
        Ok(spread(&cup.kinematic_viscosity(t)?.estimate))
    });
    pairs("anchored", |a, b| {
        let cup = FlowCup::standard("ISO 2431", "4")?.anchored(&Reading::new(q(a * 1e-6), q(b)))?;
        Ok(spread(&cup.kinematic_viscosity(q(50.0))?.estimate))
    });
    pairs("glycerol", |a, b| {
        let liquid = ReferenceLiquid::glycerol_water(q(a))?;
        Ok(spread(&liquid.kinematic_viscosity(q(b))?))
    });
}

#[test]
fn laws() {
    pairs("law", |a, b| {
        let law = DilutionLaw::from_constants(q::<DynamicViscosity>(a), b, q(1e-3))?;
        let mut out = vec![law.a(), law.b()];
        for x in [1e-12, 0.5, 1.0] {
            out.extend(spread(&law.viscosity(share(x)?)?.estimate));
        }
        out.extend(spread(&law.paint_fraction_for(q(2e-3))?.estimate));
        Ok(out)
    });
    let prior = ShapePrior::unknown().unwrap();
    pairs("fit", |a, b| {
        let readings =
            [DilutionReading::exact(1.0, q::<DynamicViscosity>(a))?, DilutionReading::exact(0.7, q(b))?];
        let law = DilutionLaw::fit(&readings, &Estimate::exact(q(1e-3)), &prior)?;
        Ok(spread(&law.viscosity(share(0.4)?)?.estimate))
    });
    pairs("settling", |a, b| {
        let exact = |v: f64| Estimate::exact(q::<Density>(v));
        let s = settling(
            &Estimate::exact(q(a)),
            &exact(4000.0),
            q(900.0),
            &Estimate::exact(q(b)),
            share(0.1)?,
            q(0.05),
        )?;
        Ok([spread(&s.velocity.estimate), spread(&s.time.estimate)].concat())
    });
    pairs("stock at another temperature", |a, b| {
        let paint = Paint::from_toml(
            &format!(
                "schema = 1\nname = \"p\"\nfamily = \"alkyd enamel\"\nstock_viscosity = \"{a:e} Pa.s\"\n"
            ),
            "p.toml",
        )?;
        Ok(spread(&paint.viscosity(q(b))?))
    });
}

#[test]
fn blends() {
    let t: Temperature = q(293.15);
    for basis in [Basis::Mass, Basis::Volume, Basis::Mole] {
        pairs(basis.name(), |a, b| {
            let blend = Blend::from_names(&[("acetone", a), ("white spirit", b)], basis, None)?;
            let mut out = blend.mole_fractions();
            out.extend(blend.ingredients().iter().flat_map(|i| [i.mass_fraction, i.volume_fraction]));
            out.extend(spread(&blend.density(t)?.estimate));
            out.extend(spread(&blend.viscosity(t)?.estimate));
            Ok(out)
        });
    }
    let thinner = Blend::from_names(&[("acetone", 1.0)], Basis::Mass, None).unwrap();
    pairs("mixed_with", |a, b| Ok(thinner.mixed_with(a, &thinner, b, None)?.mole_fractions()));
    pairs("at a temperature", |a, _| {
        let t = q(a);
        Ok([
            spread(&thinner.density(t)?.estimate),
            spread(&thinner.viscosity(t)?.estimate),
            spread(&thinner.surface_tension(t)?.estimate),
        ]
        .concat())
    });
}

#[test]
fn rooms_and_films() {
    pairs("room", |a, b| {
        let room = Room::new(q(a), RelativeHumidity::new(b)?)?;
        Ok(vec![room.dew_point()?.si(), room.wet_bulb()?.si(), room.humidity_ratio()?.si()])
    });
    let room = Room::new(q(294.15), RelativeHumidity::new(0.5).unwrap()).unwrap();
    pairs("room, more", |a, b| {
        let room = room.clone().with_air_speed(q::<Velocity>(a))?.with_pressure(q::<Pressure>(101_325.0))?;
        let room = room.with_volume(q::<Volume>(b.abs()))?.with_air_changes(q::<Frequency>(1e-3))?;
        Ok(vec![room.wet_bulb()?.si()])
    });
    let thinner = Blend::from_names(&[("acetone", 1.0)], Basis::Mass, None).unwrap();
    for (a, b) in [(1e-6, 0.0), (5e-3, 0.0), (1e-6, 0.98), (25e-6, 1e-12), (5e-3, 0.98)] {
        let film = Film::new(&thinner, share(b).unwrap(), q::<Length>(a), &room).unwrap();
        let e = film.dry().unwrap().flash_off().unwrap().estimate;
        assert!(spread(&e).iter().all(|v| v.is_finite()), "{a} {b}");
    }
}

#[test]
fn comparisons() {
    let paint = Paint::typical(Family::SolventLacquer, "hull green (invented)").unwrap();
    let thinner = Blend::from_names(&[("n-butyl acetate", 1.0)], Basis::Volume, None).unwrap();
    let cup = FlowCup::standard("ISO 2431", "4").unwrap();
    let dropper = Dropper::tip(parse("3 mm").unwrap()).unwrap();
    for ratio in VALUES {
        let asked = Compare::new(&paint, &thinner).thinner_per_paint(&[ratio]).cup(&cup);
        for total in [None, Some(q::<Volume>(1e-6))] {
            match asked.clone().dropper(&dropper, total).run() {
                Ok(c) => {
                    let row = &c.rows()[0];
                    let mut numbers = spread(&row.viscosity.estimate);
                    numbers.extend(row.efflux_time.iter().flat_map(|t| spread(&t.estimate)));
                    numbers.extend(row.flash_off.iter().flat_map(|t| spread(&t.estimate)));
                    numbers.extend([row.voc.si(), row.dry_film.best.si(), row.coldest.si()]);
                    assert!(numbers.iter().all(|n| n.is_finite()), "{ratio:e}: {numbers:?}");
                    assert!(c.table().to_text().contains("hull green"));
                }
                Err(e) => {
                    assert!(e.to_string().contains("thinner") || e.to_string().contains("paint"), "{e}");
                }
            }
        }
    }
}
