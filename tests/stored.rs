//! Results that are read back from a file are those that were written, or are refused.
#![allow(clippy::unwrap_used, reason = "a test says by panicking what went wrong")]

use mistcoat::air::Room;
use mistcoat::bench::{Axis, Job, Setup, WindowMap, window};
use mistcoat::blend::{Basis, Blend};
use mistcoat::dose::{Dropper, Parts, Thinning};
use mistcoat::film::{OpenCup, Tip, TipDrying, TopUp, tip_drying};
use mistcoat::paint::{Family, Mix, OxidativeCure, Paint};
use mistcoat::progress::Progress;
use mistcoat::quantity::{RelativeHumidity, parse};
use mistcoat::spray::Airbrush;
use rstest::rstest;
use serde::{Serialize, de::DeserializeOwned};
use serde_json::{Value, json};

fn room() -> Room {
    Room::new(parse("21 °C").unwrap(), RelativeHumidity::new(0.5).unwrap()).unwrap()
}

fn thinner() -> Blend {
    Blend::from_names(&[("acetone", 40.0), ("n-butyl acetate", 60.0)], Basis::Volume, Some("house thinner"))
        .unwrap()
}

fn mix(family: Family, thinner: &Blend) -> Mix {
    let equal = Thinning::from_parts(Parts { thinner: 1.0, paint: 1.0 }).unwrap();
    Paint::typical(family, "hull green").unwrap().thin(thinner, equal).unwrap()
}

fn top_up() -> TopUp {
    let mix = mix(Family::SolventLacquer, &thinner());
    let cup = OpenCup::new(&mix, parse("30 mm").unwrap(), parse("8 mm").unwrap(), &room()).unwrap();
    let dropper = Dropper::tip(parse("3 mm").unwrap()).unwrap();
    cup.stand().unwrap().top_up(parse("15 min").unwrap(), &dropper).unwrap()
}

fn map() -> WindowMap {
    let paint = Paint::typical(Family::SolventLacquer, "hull green").unwrap();
    let gun = Airbrush::new(parse("0.3 mm").unwrap(), parse("20 psi").unwrap(), parse("80 mm").unwrap());
    let start = Setup::new(&paint, &thinner(), 1.0, &gun.unwrap(), &room());
    let (x, y) = ((Axis::ThinnerPerPaint, vec![0.5, 1.0]), (Axis::Distance, vec![60.0, 900.0]));
    window(&start, &Job::named("base coat").unwrap(), x, y, &Progress::new(4)).unwrap()
}

fn comes_back<T: Serialize + DeserializeOwned + PartialEq + core::fmt::Debug>(made: &T) {
    let back: T = serde_json::from_str(&serde_json::to_string(made).unwrap()).unwrap();
    assert_eq!(&back, made);
}

#[test]
fn results_come_back_as_they_were() {
    comes_back::<TopUp>(&top_up());
    comes_back::<WindowMap>(&map());
    let water = Blend::from_names(&[("water", 1.0)], Basis::Mass, None).unwrap();
    for mix in [mix(Family::SolventLacquer, &thinner()), mix(Family::WaterborneAcrylic, &water)] {
        let tip: TipDrying = tip_drying(&mix, &room(), Tip::default()).unwrap();
        comes_back(&tip);
    }
    let cure: &OxidativeCure = Family::AlkydEnamel.oxidative_cure().unwrap().unwrap();
    comes_back(cure);
}

/// What the reader says of a result in which one value was changed.
fn refusal<T: Serialize + DeserializeOwned>(made: &T, path: &str, with: Value) -> String {
    let mut value = serde_json::to_value(made).unwrap();
    *value.pointer_mut(path).unwrap() = with;
    serde_json::from_value::<T>(value).err().unwrap().to_string()
}

#[rstest]
#[case::too_much("/poured/0/1", json!("120 %"), "one whole")]
#[case::lost_species("/restored", json!([]), "one whole")]
#[case::negative_rate("/evaporation_rate", json!("-1 %"), "below zero")]
#[case::bare("/lost_mass", json!(1.0), "with a unit")]
#[case::interval("/drops/low", json!("1000000000 1"), "inside its interval")]
fn a_top_up_that_cannot_be(#[case] path: &str, #[case] with: Value, #[case] says: &str) {
    let told = refusal(&top_up(), path, with);
    assert!(told.contains(says), "{told}");
}

#[rstest]
#[case::lost_cell("/cells", json!(["refused"]), "1 cells where the axes have 4")]
#[case::other_cell("/cells/0", json!("perfect"), "perfect")]
#[case::one_axis("/y/0", json!("thinner-per-paint"), "two different settings")]
#[case::no_values("/x/1", json!([]), "number of values")]
#[case::no_passes("/job/most_passes", json!(-1.0), "passes")]
fn a_map_that_cannot_be(#[case] path: &str, #[case] with: Value, #[case] says: &str) {
    let told = refusal(&map(), path, with);
    assert!(told.contains(says), "{told}");
}

#[test]
fn a_setting_reads_in_one_line() {
    let mut setup = map().start;
    assert_eq!(
        setup.to_string(),
        "hull green, thinner 1 : paint 1 (house thinner); 0.3 mm nozzle, 138 kPa, 80 mm away; 1 pass on \
         polystyrene, 1.5 mm; 21 °C, 50 % humidity"
    );
    setup.wet_passes = 4;
    assert!(setup.to_string().contains("; 4 passes wet in wet on "));
    setup.wet_film = Some(parse("30 µm").unwrap());
    assert!(setup.to_string().contains("; 30 µm wet on "));
}
