//! Paints that stiffen at rest: a yield stress in the sag of a coat and in the judgement of a setting.
#![allow(clippy::unwrap_used, reason = "a failed test panics")]

use mistcoat::Estimate;
use mistcoat::air::Room;
use mistcoat::bench::{Fault, Job, Setup};
use mistcoat::blend::{Basis, Blend};
use mistcoat::dose::{Parts, Thinning};
use mistcoat::estimate::ModelError;
use mistcoat::film::{Film, Flow, Ripple, hanging_thickness};
use mistcoat::paint::{Family, Paint};
use mistcoat::quantity::{Length, Pressure, Quantity, Ratio, RelativeHumidity, of, parse};
use mistcoat::spray::Airbrush;
use proptest::prelude::*;

fn room() -> Room {
    Room::new(parse("23 °C").unwrap(), RelativeHumidity::new(0.5).unwrap()).unwrap()
}

fn thinner(family: Family) -> Blend {
    let name = if family == Family::WaterborneAcrylic { "water" } else { "white spirit" };
    Blend::from_names(&[(name, 1.0)], Basis::Volume, None).unwrap()
}

fn coat(family: Family, wet_um: f64) -> Film {
    let thinning = Thinning::from_parts(Parts { thinner: 0.5, paint: 1.0 }).unwrap();
    let mix =
        Paint::typical(family, "hull green (invented)").unwrap().thin(&thinner(family), thinning).unwrap();
    Film::of_mix(&mix, of(wet_um, "µm").unwrap(), &room()).unwrap()
}

fn slides(film: &Film, steepness: f64) -> Estimate<Length> {
    film.dry().unwrap().lay(&Ripple::usual().unwrap(), Ratio::from_si(steepness)).unwrap().sag.estimate
}

fn stiff(film: &Film, pa: f64) -> Film {
    film.clone().with_yield_stress(&Estimate::exact(Pressure::from_si(pa))).unwrap()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]
    // No yield stress is today's answer to the last digit; more of it never slides farther, and on the thickness that it holds
    // not at all.
    #[test]
    fn more_of_it_never_slides_farther(
        waterborne in proptest::bool::ANY, wet_um in 15.0..90.0_f64, pa in 0.01..2.0_f64, more in 1.0..3.0_f64,
        steepness in 0.1..1.0_f64,
    ) {
        let film = coat(if waterborne { Family::WaterborneAcrylic } else { Family::AlkydEnamel }, wet_um);
        let plain = slides(&film, steepness);
        prop_assert_eq!(&slides(&stiff(&film, 0.0), steepness), &plain);
        let (some, much) = (slides(&stiff(&film, pa), steepness), slides(&stiff(&film, more * pa), steepness));
        prop_assert!(some.best <= plain.best && much.best <= some.best);
        let density = film.flow().unwrap().density().best;
        let hangs = hanging_thickness(Pressure::from_si(pa), density, Ratio::from_si(steepness)).unwrap();
        if hangs >= film.wet_thickness() {
            prop_assert_eq!(some.best.si().to_bits(), 0);
        } else if film.wet_thickness() > 1.1 * hangs {
            // Just above it the coat hangs as soon as it has lost a little, after a slide that nobody sees.
            prop_assert!(some.best.si() > 0.0);
        }
        prop_assert!(some.low <= some.best && some.best <= some.high);
    }
}

// Bingham down a face, by hand (Bird, Stewart and Lightfoot): of a coat that does not dry, twice as thick as what hangs, the
// surface goes at a quarter of the Newtonian speed, (h − h_y)²/h².
#[test]
fn a_plug_rides_on_what_flows() {
    let slow = Blend::from_names(&[("glycerol", 1.0)], Basis::Mass, None).unwrap();
    let flow = Flow::new(&Estimate::exact(parse("2 Pa.s").unwrap()), parse("23 °C").unwrap()).unwrap();
    let solids = mistcoat::quantity::VolumeFraction::new(0.0).unwrap();
    let dry_air = Room::new(parse("23 °C").unwrap(), RelativeHumidity::new(0.0).unwrap()).unwrap();
    let film = Film::new(&slow, solids, parse("200 µm").unwrap(), &dry_air)
        .unwrap()
        .until(parse("60 s").unwrap())
        .unwrap()
        .with_flow(flow);
    let pa = 1000.0 * 9.80665 * 100e-6;
    let ratio = slides(&stiff(&film, pa), 1.0).best.si() / slides(&film, 1.0).best.si();
    approx::assert_relative_eq!(ratio, 0.25, max_relative = 0.01);
    // On a face half as steep h_y is the whole film.
    assert_eq!(slides(&stiff(&film, pa), 0.5).best.si().to_bits(), 0);
}

// Its spread is carried: a stress known within a factor may let the coat slide.
#[test]
fn an_unsure_stress_says_so() {
    let film = coat(Family::AlkydEnamel, 60.0);
    let density = film.flow().unwrap().density().best.si();
    let pa = 0.5 * density * 9.80665 * 60e-6;
    let unsure = Estimate::relative(Pressure::from_si(pa), &[ModelError::new("stripes", 0.2)]);
    let film = film.with_yield_stress(&unsure).unwrap();
    let dry = film.dry().unwrap();
    let lay = dry.lay(&Ripple::usual().unwrap(), Ratio::from_si(1.0)).unwrap();
    assert!(lay.sag.estimate.contributors.iter().any(|c| c.what == "yield stress"), "{:?}", lay.sag);
    let text = lay.sag.working.to_string();
    assert!(text.contains("yield stress decides") && text.contains("under a plug"), "{text}");
    assert!(lay.warnings.iter().any(|w| w.code == "yield-holds-ripple"));
    let json = serde_json::to_string(&film).unwrap();
    assert_eq!(serde_json::from_str::<Film>(&json).unwrap(), film);
}

fn setting(family: Family, psi: f64, mm: f64, ratio: f64) -> Setup {
    let paint = Paint::typical(family, "hull green (invented)").unwrap();
    let gun =
        Airbrush::new(parse("0.3 mm").unwrap(), of(psi, "psi").unwrap(), of(mm, "mm").unwrap()).unwrap();
    Setup::new(&paint, &thinner(family), ratio, &gun, &room())
}

// Common practice: waterborne paints and enamels at the trade's own settings do not run, as they stiffen at rest; a Newtonian
// liquid of their viscosity would. With the middle of the usual 0.5 to 5 Pa the first sprayed primer hangs.
#[rstest::rstest]
#[case(Family::WaterborneAcrylic)]
#[case(Family::AlkydEnamel)]
fn what_stiffens_does_not_run(#[case] family: Family) {
    let primer = Job::named("primer").unwrap();
    let run = |pa: Option<f64>| {
        let mut s = setting(family, 27.0, 100.0, 0.75);
        s.yield_stress = pa.map(Pressure::from_si);
        s.judge(&primer).unwrap()
    };
    let told = |pa: Option<f64>| run(pa).margin(Fault::Run).unwrap().clone();
    assert_eq!(told(Some(0.0)).factor.to_bits(), told(None).factor.to_bits());
    let factors: Vec<f64> = [0.0, 0.3, 1.0, 1.5, 3.0].map(|pa| told(Some(pa)).factor).to_vec();
    println!("{family:?} {factors:?} {:?}", [0.3, 1.0, 1.5, 3.0].map(|pa| told(Some(pa)).why));
    assert!(factors.windows(2).all(|f| f[1] >= f[0]), "{factors:?}");
    assert!(told(Some(3.0)).why.contains("hangs") && told(Some(3.0)).holds());
    // Only the run is judged by it.
    let (plain, stiff) = (run(None), run(Some(1.0)));
    for margin in plain.margins.iter().filter(|m| m.fault != Fault::Run) {
        assert_eq!(stiff.margin(margin.fault), Some(margin));
    }
}

#[rstest::rstest]
#[case(-0.1)]
#[case(f64::NAN)]
#[case(200.0)]
fn bad_stress(#[case] pa: f64) {
    let film = coat(Family::AlkydEnamel, 30.0);
    let stress = Estimate::exact(Pressure::from_si(pa));
    assert!(film.with_yield_stress(&stress).unwrap_err().to_string().contains("0 Pa to 100 Pa"));
    let mut s = setting(Family::AlkydEnamel, 20.0, 80.0, 1.0);
    s.yield_stress = Some(Pressure::from_si(pa));
    assert!(s.judge(&Job::named("primer").unwrap()).unwrap_err().to_string().contains("100 Pa"));
}
