//! The dimensions and their units. One table each; factors are exact SI definitions (NIST SP 811).

use super::{Quantity, Unit};
pub use uom::si::f64::{
    Area, DynamicViscosity, Frequency, KinematicViscosity, Length, Mass, MassConcentration, MassFlux,
    MolarEnergy, MolarMass, MolarVolume, Pressure, Ratio, SurfaceTension, Time, Velocity, Volume, VolumeRate,
};

/// A temperature on a scale with a zero; differences are [`TemperatureDifference`].
pub type Temperature = uom::si::f64::ThermodynamicTemperature;
/// A difference of two temperatures.
pub type TemperatureDifference = uom::si::f64::TemperatureInterval;
/// Mass per volume of one body.
pub type Density = uom::si::f64::MassDensity;
/// Diffusivity of a vapour in air or of a solvent in a film.
pub type Diffusivity = uom::si::f64::DiffusionCoefficient;
/// Area covered per volume of paint.
pub type SpreadingRate = uom::si::f64::ReciprocalLength;

/// A Hansen parameter or distance, the square root of a pressure.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct SolubilityParameter {
    /// In Pa^0.5.
    value: f64,
}

/// Scattering or absorption of light per length of film, the S and K of Kubelka and Munk.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct OpticalCoefficient {
    /// Per metre.
    value: f64,
}

/// A plain number: a relative evaporation rate, a distance ratio, an activity coefficient.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Number {
    value: f64,
}

macro_rules! si_value {
    ($($Q:ident => $unit:path),+ $(,)?) => {$(
        impl SiValue for $Q {
            fn make(si: f64) -> Self { Self::new::<$unit>(si) }
        }
    )+};
}

/// Builds the `uom` type from its base-unit number. `uom` keeps that constructor per unit.
trait SiValue {
    fn make(si: f64) -> Self;
}

use uom::si as u;
si_value! {
    Area => u::area::square_meter,
    Density => u::mass_density::kilogram_per_cubic_meter,
    Diffusivity => u::diffusion_coefficient::square_meter_per_second,
    DynamicViscosity => u::dynamic_viscosity::pascal_second,
    Frequency => u::frequency::hertz,
    KinematicViscosity => u::kinematic_viscosity::square_meter_per_second,
    Length => u::length::meter,
    Mass => u::mass::kilogram,
    MassConcentration => u::mass_concentration::kilogram_per_cubic_meter,
    MassFlux => u::mass_flux::kilogram_per_square_meter_second,
    MolarEnergy => u::molar_energy::joule_per_mole,
    MolarMass => u::molar_mass::kilogram_per_mole,
    MolarVolume => u::molar_volume::cubic_meter_per_mole,
    Pressure => u::pressure::pascal,
    Ratio => u::ratio::ratio,
    SpreadingRate => u::reciprocal_length::reciprocal_meter,
    SurfaceTension => u::surface_tension::newton_per_meter,
    Temperature => u::thermodynamic_temperature::kelvin,
    TemperatureDifference => u::temperature_interval::kelvin,
    Time => u::time::second,
    Velocity => u::velocity::meter_per_second,
    Volume => u::volume::cubic_meter,
    VolumeRate => u::volume_rate::cubic_meter_per_second,
}

impl SiValue for SolubilityParameter {
    fn make(si: f64) -> Self {
        Self { value: si }
    }
}

impl SiValue for OpticalCoefficient {
    fn make(si: f64) -> Self {
        Self { value: si }
    }
}

impl SiValue for Number {
    fn make(si: f64) -> Self {
        Self { value: si }
    }
}

// Exact definitions that several tables share.
const INCH: f64 = 0.0254;
const FOOT: f64 = 0.3048;
const POUND: f64 = 0.453_592_37;
const US_GALLON: f64 = 231.0 * INCH * INCH * INCH;
const IMPERIAL_GALLON: f64 = 4.546_09e-3;
/// Standard gravity, m/s2, exact (NIST SP 811).
pub(crate) const STANDARD_GRAVITY: f64 = 9.806_65;
const PSI: f64 = POUND * STANDARD_GRAVITY / (INCH * INCH);
const TORR: f64 = 101_325.0 / 760.0;

macro_rules! dimension {
    ($Q:ty, $class:literal, $name:literal, $example:literal, $customary:literal,
     units: [$([$($symbol:literal),+ $(,)?] => $factor:expr $(, $offset:expr)?;)+],
     print: [$(($print:literal, $from:expr)),+ $(,)?]
     $(, ambiguous: $ambiguous:expr)?) => {
        impl Quantity for $Q {
            const NAME: &'static str = $name;
            const CLASS: &'static str = $class;
            const EXAMPLE: &'static str = $example;
            const CUSTOMARY: &'static str = $customary;
            const UNITS: &'static [Unit] =
                &[$(Unit { symbols: &[$($symbol),+], factor: $factor, offset: 0.0 $(+ $offset)? }),+];
            const PRINT: &'static [(&'static str, f64)] = &[$(($print, $from)),+];
            $(const AMBIGUOUS: &'static [(&'static str, &'static str)] = $ambiguous;)?
            fn from_si(si: f64) -> Self { <$Q as SiValue>::make(si) }
            fn si(self) -> f64 { self.value }
        }
    };
}

dimension!(Temperature, "Temperature", "temperature", "21 °C", "°C",
    units: [
        ["K", "kelvin"] => 1.0;
        ["°C", "degC", "C", "celsius"] => 1.0, 273.15;
        ["°F", "degF", "F", "fahrenheit"] => 5.0 / 9.0, 459.67;
    ],
    print: [("°C", 0.0)]);
dimension!(TemperatureDifference, "TemperatureDifference", "temperature difference", "3 K", "K",
units: [
    ["K", "kelvin", "delta_degC", "Δ°C", "delta °C"] => 1.0;
    ["Δ°F", "delta_degF", "delta °F"] => 5.0 / 9.0;
],
print: [("K", 0.0)],
ambiguous: &[
    ("degC", "a difference is written in \"K\" (or \"Δ°C\"), a temperature on the scale needs the type Temperature"),
    ("degF", "a difference is written in \"Δ°F\", a temperature on the scale needs the type Temperature"),
]);
dimension!(Pressure, "Pressure", "pressure", "20 psi", "kPa",
    units: [
        ["Pa"] => 1.0; ["hPa"] => 100.0; ["kPa"] => 1e3; ["MPa"] => 1e6; ["mbar"] => 100.0; ["bar"] => 1e5;
        ["psi", "psig", "lbf/in2"] => PSI; ["atm"] => 101_325.0; ["mmHg", "mm Hg", "Torr", "torr"] => TORR;
    ],
    print: [("Pa", 0.0), ("kPa", 1e3)]);
dimension!(Length, "Length", "length", "0.3 mm", "mm",
    units: [
        ["m"] => 1.0; ["cm"] => 1e-2; ["mm"] => 1e-3; ["µm", "um", "micron", "microns"] => 1e-6; ["nm"] => 1e-9;
        ["in", "inch", "inches", "\""] => INCH; ["mil", "mils", "thou"] => INCH * 1e-3; ["ft", "foot", "feet"] => FOOT;
    ],
    print: [("µm", 0.0), ("mm", 2e-4), ("m", 1.0)]);
dimension!(Area, "Area", "area", "120 cm2", "cm2",
    units: [
        ["m2"] => 1.0; ["dm2"] => 1e-2; ["cm2"] => 1e-4; ["mm2"] => 1e-6;
        ["in2", "sq in"] => INCH * INCH; ["ft2", "sq ft"] => FOOT * FOOT;
    ],
    print: [("cm2", 0.0), ("m2", 0.1)]);
dimension!(Volume, "Volume", "volume", "5 mL", "mL",
units: [
    ["m3"] => 1.0; ["L", "l", "dm3", "litre", "liter"] => 1e-3; ["mL", "ml", "cm3", "cc"] => 1e-6;
    ["µL", "ul", "mm3"] => 1e-9;
    ["US fl oz", "fl oz (US)", "floz_us", "US_fl_oz"] => US_GALLON / 128.0;
    ["imp fl oz", "fl oz (imp)", "imperial fl oz", "UK fl oz", "floz_imp", "imp_fl_oz"] => IMPERIAL_GALLON / 160.0;
    ["US gal", "gal (US)", "gal_us"] => US_GALLON;
    ["imp gal", "gal (imp)", "imperial gal", "UK gal", "gal_imp"] => IMPERIAL_GALLON;
    ["US pt", "pt (US)"] => US_GALLON / 8.0; ["imp pt", "pt (imp)", "UK pt"] => IMPERIAL_GALLON / 8.0;
    ["ft3"] => FOOT * FOOT * FOOT; ["in3"] => INCH * INCH * INCH;
],
print: [("µL", 0.0), ("mL", 1e-7), ("L", 1e-3), ("m3", 1.0)],
ambiguous: &[
    ("fl oz", "write \"US fl oz\" (29.57 mL) or \"imp fl oz\" (28.41 mL)"),
    ("floz", "write \"US fl oz\" (29.57 mL) or \"imp fl oz\" (28.41 mL)"),
    ("oz", "write \"US fl oz\" (29.57 mL) or \"imp fl oz\" (28.41 mL); a plain ounce is a mass"),
    ("gal", "write \"US gal\" (3.785 L) or \"imp gal\" (4.546 L)"),
    ("gallon", "write \"US gal\" (3.785 L) or \"imp gal\" (4.546 L)"),
    ("pt", "write \"US pt\" (473.2 mL) or \"imp pt\" (568.3 mL)"),
    ("pint", "write \"US pt\" (473.2 mL) or \"imp pt\" (568.3 mL)"),
    ("drop", "a drop has no fixed volume: build a Dropper and ask it for drop_volume"),
    ("drops", "a drop has no fixed volume: build a Dropper and ask it for drop_volume"),
]);
dimension!(Mass, "Mass", "mass", "0.41 g", "g",
    units: [
        ["kg"] => 1.0; ["g"] => 1e-3; ["mg"] => 1e-6; ["lb"] => POUND; ["oz"] => POUND / 16.0; ["gr", "grain"] => POUND / 7000.0;
    ],
    print: [("mg", 0.0), ("g", 1e-4), ("kg", 1.0)]);
dimension!(Time, "Time", "time", "35 s", "s",
    units: [
        ["s", "sec", "second", "seconds"] => 1.0; ["ms"] => 1e-3; ["min", "minute", "minutes"] => 60.0;
        ["h", "hr", "hour", "hours"] => 3600.0; ["d", "day", "days"] => 86400.0;
    ],
    print: [("ms", 0.0), ("s", 0.1), ("min", 300.0), ("h", 7200.0), ("d", 172_800.0)]);
dimension!(Density, "Density", "density", "0.88 g/mL", "g/mL",
    units: [
        ["kg/m3", "g/L", "g/l"] => 1.0; ["g/mL", "g/ml", "g/cm3", "g/cc", "kg/L", "kg/l"] => 1e3;
        ["lb/US gal"] => POUND / US_GALLON; ["lb/imp gal"] => POUND / IMPERIAL_GALLON;
    ],
    print: [("g/mL", 0.0)],
    ambiguous: &[("lb/gal", "write \"lb/US gal\" or \"lb/imp gal\"")]);
dimension!(MassConcentration, "MassConcentration", "mass concentration", "420 g/L", "g/L",
    units: [
        ["kg/m3", "g/L", "g/l"] => 1.0; ["g/m3", "mg/L", "mg/l"] => 1e-3; ["mg/m3"] => 1e-6;
        ["lb/US gal"] => POUND / US_GALLON; ["lb/imp gal"] => POUND / IMPERIAL_GALLON;
    ],
    print: [("mg/m3", 0.0), ("g/L", 0.1)],
    ambiguous: &[("lb/gal", "write \"lb/US gal\" or \"lb/imp gal\"")]);
dimension!(DynamicViscosity, "DynamicViscosity", "dynamic viscosity", "18 mPa.s", "mPa.s",
    units: [
        ["Pa.s"] => 1.0; ["mPa.s"] => 1e-3; ["cP", "cps"] => 1e-3; ["P", "poise"] => 0.1;
    ],
    print: [("mPa.s", 0.0), ("Pa.s", 10.0)]);
dimension!(KinematicViscosity, "KinematicViscosity", "kinematic viscosity", "40 mm2/s", "mm2/s",
    units: [
        ["m2/s"] => 1.0; ["mm2/s"] => 1e-6; ["cSt"] => 1e-6; ["St", "stokes", "cm2/s"] => 1e-4;
    ],
    print: [("mm2/s", 0.0)]);
dimension!(SurfaceTension, "SurfaceTension", "surface tension", "25 mN/m", "mN/m",
    units: [
        ["N/m"] => 1.0; ["mN/m"] => 1e-3; ["dyn/cm", "dyne/cm"] => 1e-3;
    ],
    print: [("mN/m", 0.0)]);
dimension!(Diffusivity, "Diffusivity", "diffusivity", "7.2 mm2/s", "mm2/s",
    units: [["m2/s"] => 1.0; ["mm2/s"] => 1e-6; ["cm2/s"] => 1e-4;],
    print: [("m2/s", 0.0), ("mm2/s", 1e-8)]);
dimension!(MolarMass, "MolarMass", "molar mass", "116.16 g/mol", "g/mol",
    units: [["kg/mol"] => 1.0; ["g/mol"] => 1e-3;],
    print: [("g/mol", 0.0)]);
dimension!(MolarVolume, "MolarVolume", "molar volume", "132.6 cm3/mol", "cm3/mol",
    units: [["m3/mol"] => 1.0; ["cm3/mol", "mL/mol"] => 1e-6; ["L/mol"] => 1e-3;],
    print: [("cm3/mol", 0.0)]);
dimension!(MolarEnergy, "MolarEnergy", "molar energy", "43.9 kJ/mol", "kJ/mol",
    units: [["J/mol"] => 1.0; ["kJ/mol"] => 1e3; ["kcal/mol"] => 4184.0;],
    print: [("J/mol", 0.0), ("kJ/mol", 1e3)]);
dimension!(MassFlux, "MassFlux", "mass flux", "0.19 g/(m2.s)", "g/(m2.s)",
    units: [
        ["kg/(m2.s)", "kg/m2/s"] => 1.0; ["g/(m2.s)", "g/m2/s"] => 1e-3; ["g/(m2.h)", "g/m2/h"] => 1e-3 / 3600.0;
    ],
    print: [("g/(m2.s)", 0.0)]);
dimension!(Velocity, "Velocity", "velocity", "0.1 m/s", "m/s",
    units: [
        ["m/s"] => 1.0; ["mm/s"] => 1e-3; ["cm/s"] => 1e-2; ["km/h"] => 1.0 / 3.6; ["ft/min", "fpm"] => FOOT / 60.0;
        ["ft/s"] => FOOT;
    ],
    print: [("mm/s", 0.0), ("m/s", 0.01)]);
dimension!(Frequency, "Frequency", "rate per time", "1 /h", "/h",
    units: [["/s", "1/s", "Hz"] => 1.0; ["/min", "1/min"] => 1.0 / 60.0; ["/h", "1/h"] => 1.0 / 3600.0;],
    print: [("/h", 0.0), ("/s", 1.0)]);
dimension!(VolumeRate, "VolumeRate", "volume flow", "12 L/min", "L/min",
    units: [
        ["m3/s"] => 1.0; ["m3/h"] => 1.0 / 3600.0; ["L/min", "l/min"] => 1e-3 / 60.0; ["mL/min", "ml/min"] => 1e-6 / 60.0;
        ["L/s", "l/s"] => 1e-3; ["ft3/min", "cfm"] => FOOT * FOOT * FOOT / 60.0;
    ],
    print: [("mL/min", 0.0), ("L/min", 1e-5)]);
dimension!(SpreadingRate, "SpreadingRate", "spreading rate", "8 m2/L", "m2/L",
    units: [
        ["1/m", "m2/m3"] => 1.0; ["m2/L", "m2/l"] => 1e3; ["cm2/mL", "cm2/ml"] => 1e2;
        ["ft2/US gal"] => FOOT * FOOT / US_GALLON; ["ft2/imp gal"] => FOOT * FOOT / IMPERIAL_GALLON;
    ],
    print: [("m2/L", 0.0)],
    ambiguous: &[("ft2/gal", "write \"ft2/US gal\" or \"ft2/imp gal\"")]);
dimension!(OpticalCoefficient, "OpticalCoefficient", "optical coefficient", "0.1 1/µm", "1/µm",
    units: [["1/m"] => 1.0; ["1/mm"] => 1e3; ["1/µm", "1/um", "/µm", "/um"] => 1e6; ["1/mil"] => 1.0 / (INCH * 1e-3);],
    print: [("1/µm", 0.0)]);
dimension!(SolubilityParameter, "SolubilityParameter", "solubility parameter", "15.8 MPa^0.5", "MPa^0.5",
    units: [["Pa^0.5"] => 1.0; ["MPa^0.5", "MPa½", "MPa1/2"] => 1e3; ["(cal/cm3)^0.5"] => 2_045.482_828_087_295;],
    print: [("MPa^0.5", 0.0)]);
dimension!(Ratio, "Ratio", "ratio", "55 %", "%",
    units: [["1", "fraction"] => 1.0; ["%", "percent", "pct"] => 1e-2; ["ppm"] => 1e-6; ["‰"] => 1e-3;],
    print: [("ppm", 0.0), ("%", 1e-4)]);
dimension!(Number, "Number", "plain number", "5.6 1", "1",
    units: [["1"] => 1.0;],
    print: [("1", 0.0)]);
