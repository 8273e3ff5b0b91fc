//! Files that were tampered with: every number of a saved value is replaced by absurd ones. Reading either
//! refuses the file, or gives a value that still answers in finite numbers or with a typed error.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed test panics")]

use mistcoat::Result;
use mistcoat::air::Room;
use mistcoat::blend::{Basis, Blend};
use mistcoat::cup::{FlowCup, Reading, reference::ReferenceLiquid};
use mistcoat::dose::{Batch, Dropper, Parts, Thinning};
use mistcoat::estimate::{Estimate, ModelError};
use mistcoat::paint::{DilutionLaw, Family, Measured, Mix, Paint, PaintReading};
use mistcoat::quantity::{DynamicViscosity, Quantity, Ratio, RelativeHumidity, Time, VolumeFraction, parse};
use serde::{Serialize, de::DeserializeOwned};
use serde_json::Value;

const ABSURD: [f64; 8] = [-1e300, -1.0, 0.0, 1e-300, 1e-6, 7.0, 1e6, 1e300];

/// The unit of a text such as `"22 %"`, else none.
fn unit(text: &str) -> Option<&str> {
    text.split_once(' ').filter(|(number, _)| number.parse::<f64>().is_ok()).map(|(_, unit)| unit)
}

/// Paths to all numbers inside a JSON value, with a unit or without.
fn numbers(value: &Value, path: &str, found: &mut Vec<String>) {
    match value {
        Value::Number(_) => found.push(path.to_owned()),
        Value::String(text) if unit(text).is_some() => found.push(path.to_owned()),
        Value::Array(list) => {
            list.iter().enumerate().for_each(|(i, v)| numbers(v, &format!("{path}/{i}"), found));
        }
        Value::Object(map) => map.iter().for_each(|(k, v)| numbers(v, &format!("{path}/{k}"), found)),
        _ => {}
    }
}

fn spread<Q: Quantity>(e: &Estimate<Q>) -> Vec<f64> {
    vec![e.best.si(), e.low.si(), e.high.si(), e.relative_std(), e.std()]
}

/// Tampers with each number in turn; returns how many files were refused and how many still answered.
fn tamper<T: Serialize + DeserializeOwned>(
    saved: &T,
    ask: impl Fn(&T) -> Result<Vec<f64>>,
) -> (usize, usize) {
    let good = serde_json::to_value(saved).unwrap();
    assert!(ask(&serde_json::from_value::<T>(good.clone()).unwrap()).is_ok());
    let mut paths = Vec::new();
    numbers(&good, "", &mut paths);
    assert!(!paths.is_empty());
    let (mut refused, mut answered) = (0, 0);
    for path in paths {
        for absurd in ABSURD {
            let mut changed = good.clone();
            let place = changed.pointer_mut(&path).unwrap();
            *place = match place.as_str().and_then(unit) {
                Some(unit) => Value::from(format!("{absurd:e} {unit}")),
                None => Value::from(absurd),
            };
            match serde_json::from_value::<T>(changed).map(|v| ask(&v)) {
                Ok(Ok(numbers)) => {
                    answered += 1;
                    assert!(numbers.iter().all(|n| n.is_finite()), "{path} = {absurd:e} gives {numbers:?}");
                }
                Ok(Err(_)) | Err(_) => refused += 1,
            }
        }
    }
    (refused, answered)
}

fn thinner() -> Blend {
    let parts = [("acetone", 50.0), ("n-butyl acetate", 35.0), ("2-butoxyethanol", 15.0)];
    Blend::from_names(&parts, Basis::Mass, Some("house thinner")).unwrap()
}

fn even() -> Thinning {
    Thinning::from_parts(Parts { thinner: 1.0, paint: 1.0 }).unwrap()
}

fn lacquer() -> Paint {
    Paint::typical(Family::SolventLacquer, "hull green (invented)").unwrap()
}

/// A paint with readings at two temperatures and of a mix, so that every part of its file is filled.
fn calibrated() -> Paint {
    let read = |x: f64, t: &str, eta: &str| PaintReading {
        paint_fraction: Ratio::from_si(x),
        temperature: parse(t).unwrap(),
        measured: Measured::Viscosity(Estimate::relative(
            parse(eta).unwrap(),
            &[ModelError::new("reading", 0.02)],
        )),
    };
    let readings =
        [read(1.0, "20 °C", "140 mPa.s"), read(1.0, "30 °C", "100 mPa.s"), read(0.7, "20 °C", "30 mPa.s")];
    lacquer().calibrated(&thinner(), &readings).unwrap().paint
}

#[test]
fn doses() {
    let (refused, _) = tamper(&even(), |t| Ok(vec![t.thinner_per_paint()]));
    assert!(refused >= 4);
    let batch = Batch::new(parse("20 mL").unwrap(), even()).unwrap();
    let (refused, _) = tamper(&batch, |b| Ok(vec![b.paint().si(), b.thinner().si(), b.volume().si()]));
    assert!(refused >= 4);
    let (tension, density) = (parse("25 mN/m").unwrap(), parse("0.9 g/mL").unwrap());
    for dropper in [
        Dropper::tip(parse("3 mm").unwrap()).unwrap().by_hand(),
        Dropper::weighed(20, parse("0.41 g").unwrap(), density).unwrap(),
    ] {
        let (refused, _) = tamper(&dropper, |d| Ok(spread(&d.drop_volume(tension, density, None)?.estimate)));
        assert!(refused >= 4);
    }
}

#[test]
fn estimates() {
    let e: Estimate<Time> = Estimate::relative(parse("35 s").unwrap(), &[ModelError::new("timing", 0.02)]);
    let (refused, _) = tamper(&e, |e| Ok(spread(e)));
    assert!(refused >= 20);
}

#[test]
fn cups() {
    let water = ReferenceLiquid::glycerol_water(Ratio::from_si(0.0)).unwrap();
    let thick = ReferenceLiquid::glycerol_water(Ratio::from_si(0.7)).unwrap();
    let t = parse("20 °C").unwrap();
    let home = FlowCup::calibrate(
        &[
            Reading::of(water, t, parse("12 s").unwrap()).unwrap(),
            Reading::of(thick, t, parse("60 s").unwrap()).unwrap(),
        ],
        "syringe",
    )
    .unwrap();
    for cup in
        [FlowCup::standard("ISO 2431", "4").unwrap(), FlowCup::standard("GB/T 1723", "4").unwrap(), home]
    {
        let (refused, answered) = tamper(&cup, |c| {
            let nu = c.kinematic_viscosity(parse("40 s")?)?;
            Ok([spread(&nu.estimate), spread(&c.efflux_time(nu.best())?.estimate)].concat())
        });
        assert!(refused > 10 && answered > 10, "{cup}: {refused} refused, {answered} answered");
    }
}

#[test]
fn laws() {
    let law: DilutionLaw<DynamicViscosity> = calibrated().law(&thinner(), parse("21 °C").unwrap()).unwrap();
    let (refused, answered) = tamper(&law, |law| {
        let mut out = spread(&law.viscosity(VolumeFraction::new(0.5)?)?.estimate);
        out.extend(spread(&law.paint_fraction_for(parse("20 mPa.s")?)?.estimate));
        Ok(out)
    });
    assert!(refused > 10 && answered > 10, "{refused} refused, {answered} answered");
}

#[test]
fn paints_and_mixes() {
    let t = parse("24 °C").unwrap();
    let cup = FlowCup::standard("ISO 2431", "4").unwrap();
    let ask = |mix: &Mix| {
        let mut out = spread(&mix.viscosity(t)?.estimate);
        out.extend(spread(&mix.efflux_time(&cup, t)?.estimate));
        out.extend(spread(&mix.volume_solids()));
        out.push(mix.voc()?.total.si());
        Ok(out)
    };
    let (refused, answered) = tamper(&calibrated().thin(&thinner(), even()).unwrap(), ask);
    assert!(refused > 50 && answered > 50, "{refused} refused, {answered} answered");
    // A mix whose file was changed to one that separates is refused like the pouring of it.
    let mix = Paint::typical(Family::AlkydEnamel, "cream").unwrap();
    let spirit = Blend::from_names(&[("white spirit", 1.0)], Basis::Volume, None).unwrap();
    let water = Blend::from_names(&[("water", 1.0)], Basis::Volume, None).unwrap();
    let mut file = serde_json::to_value(mix.thin(&spirit, even()).unwrap()).unwrap();
    file["thinner"] = serde_json::to_value(&water).unwrap();
    assert!(serde_json::from_value::<Mix>(file).unwrap_err().to_string().contains("two liquids"));
}

#[test]
fn blends_and_rooms() {
    let t = parse("21 °C").unwrap();
    let (refused, _) = tamper(&thinner(), |b| {
        Ok([spread(&b.density(t)?.estimate), spread(&b.viscosity(t)?.estimate)].concat())
    });
    assert!(refused >= 6);
    let room = Room::new(t, RelativeHumidity::new(0.5).unwrap()).unwrap();
    let (refused, _) = tamper(&room, |r| Ok(vec![r.dew_point()?.si(), r.wet_bulb()?.si()]));
    assert!(refused >= 10);
}
