//! Conversions against NIST SP 811 and against uom's own units; bad input by table.

use super::*;
use crate::error::Error;
use rstest::rstest;

// Factors as printed in NIST SP 811 (2008), appendix B.8 and B.9.
#[rstest]
#[case::psi(to(parse::<Pressure>("20 psi").unwrap(), "kPa").unwrap(), 20.0 * 6.894_757)]
#[case::atm(to(parse::<Pressure>("1 atm").unwrap(), "Pa").unwrap(), 101_325.0)]
#[case::mmhg(to(parse::<Pressure>("1 mmHg").unwrap(), "Pa").unwrap(), 133.322_4)]
#[case::fahrenheit(to(parse::<Temperature>("70 °F").unwrap(), "°C").unwrap(), 21.111_11)]
#[case::us_fl_oz(to(parse::<Volume>("1 US fl oz").unwrap(), "mL").unwrap(), 29.573_53)]
#[case::imp_fl_oz(to(parse::<Volume>("1 imp fl oz").unwrap(), "mL").unwrap(), 28.413_06)]
#[case::us_gal(to(parse::<Volume>("1 US gal").unwrap(), "L").unwrap(), 3.785_412)]
#[case::mil(to(parse::<Length>("1 mil").unwrap(), "µm").unwrap(), 25.4)]
#[case::poise(to(parse::<DynamicViscosity>("1 P").unwrap(), "mPa.s").unwrap(), 100.0)]
#[case::stokes(to(parse::<KinematicViscosity>("1 St").unwrap(), "mm2/s").unwrap(), 100.0)]
#[case::lb_per_gal(to(parse::<Density>("1 lb/US gal").unwrap(), "g/L").unwrap(), 119.826_4)]
#[case::cal(to(parse::<SolubilityParameter>("1 (cal/cm3)^0.5").unwrap(), "MPa^0.5").unwrap(), 2.045_483)]
fn nist_sp_811(#[case] ours: f64, #[case] published: f64) {
    approx::assert_relative_eq!(ours, published, max_relative = 5e-7); // published to seven digits
}

#[test]
fn same_as_uom() {
    use uom::si::{pressure::psi, volume::fluid_ounce};
    let p: Pressure = parse("20 psi").unwrap();
    approx::assert_relative_eq!(p.get::<psi>(), 20.0, max_relative = 1e-6);
    let v: Volume = parse("3 US fl oz").unwrap();
    approx::assert_relative_eq!(v.get::<fluid_ounce>(), 3.0, max_relative = 1e-6);
}

#[rstest]
#[case("20psi", "138 kPa")]
#[case(" 0.3mm ", "0.3 mm")]
fn as_people_write_it(#[case] text: &str, #[case] shown: &str) {
    let got = parse::<Pressure>(text).map(show).or_else(|_| parse::<Length>(text).map(show)).unwrap();
    assert_eq!(got, shown);
}

#[rstest]
#[case("18 mPa·s")]
#[case("18 mPa.s")]
#[case("18 mPa s")]
#[case("18mPa*s")]
#[case("0.018 Pa.s")]
fn spellings_of_one_viscosity(#[case] text: &str) {
    approx::assert_relative_eq!(parse::<DynamicViscosity>(text).unwrap().si(), 0.018, max_relative = 1e-15);
}

#[rstest]
#[case("", "no number")]
#[case("mm", "no number")]
#[case("0.3", "has no unit")]
#[case("0.3 mn", "unknown unit")]
#[case("nan mm", "not a finite")]
#[case("1e999 mm", "not a finite")]
#[case("--3 mm", "no number")]
#[case("3 psi", "unknown unit")]
fn bad_lengths(#[case] text: &str, #[case] says: &str) {
    let message = parse::<Length>(text).unwrap_err().to_string();
    assert!(message.contains(says), "{message}");
    assert!(message.contains("0.3 mm"), "no example of the right form in: {message}");
}

#[test]
fn ambiguous_units_name_both_readings() {
    let message = parse::<Volume>("3 fl oz").unwrap_err().to_string();
    assert!(message.contains("29.57 mL") && message.contains("28.41 mL"), "{message}");
    assert!(matches!(
        parse::<TemperatureDifference>("3 °C"),
        Err(Error::Unit(crate::error::UnitError::Ambiguous { .. }))
    ));
}

#[test]
fn fractions_stay_inside() {
    assert!(RelativeHumidity::new(1.2).unwrap_err().to_string().contains("120 %"));
    assert!(VolumeFraction::new(f64::NAN).is_err());
    assert!(VolumeFraction::new(-0.01).is_err());
}

#[test]
fn files_hold_value_and_unit() {
    let p: Pressure = parse("20 psi").unwrap();
    let json = serde_json::to_string(&as_text::Text(p)).unwrap();
    let back: as_text::Text<Pressure> = serde_json::from_str(&json).unwrap();
    assert_eq!(back.0, p, "{json}");
    assert!(json.contains("\"unit\""));
    let from_text: as_text::Text<Pressure> = serde_json::from_str("\"20 psi\"").unwrap();
    assert_eq!(from_text.0, p);
    let bare = serde_json::from_str::<as_text::Text<Pressure>>("20").unwrap_err().to_string();
    assert!(bare.contains("with a unit"), "{bare}");
    assert!(serde_json::from_str::<as_text::Text<Pressure>>(r#"{"value":1,"unit":"Pa","x":1}"#).is_err());
}

proptest::proptest! {
    #[test]
    fn every_unit_round_trips(value in -1e6_f64..1e6, index in 0usize..9) {
        let unit = Pressure::UNITS[index % Pressure::UNITS.len()].symbols[0];
        let back = to(of::<Pressure>(value, unit).unwrap(), unit).unwrap();
        proptest::prop_assert!((back - value).abs() <= 1e-14 * value.abs().max(1e-300));
    }

    #[test]
    fn parser_never_panics(text in "\\PC{0,24}") {
        let _ = parse::<Volume>(&text);
        let _ = parse::<Temperature>(&text);
    }
}
