//! Is it thin enough? Seconds in a flow cup to kinematic viscosity and back.
//!
//! A flow cup is a small vessel with a hole in its floor; the time to the first break of the stream tells
//! the kinematic viscosity. Each cup has its equation ([`Equation`]):
//!
//! ```text
//! ν = a t − b/t      ISO 2431, DIN 53211, home-made cups
//! ν = a (t − t0)     ASTM D1200 (Ford), ASTM D4212 (Zahn, Shell)
//! t = s ν + c        GB/T 1723, two lines that join at 23 s
//! ```
//!
//! with ν in mm2/s and t in s. Each holds at the cup's own temperature and inside its time range; outside,
//! the value comes with a [`crate::Warning`] that names a cup that would serve, and at or below the time
//! where the equation gives zero it is refused. Airbrush-thin liquids, below about 35 mm2/s, are out of
//! reach of every 4 mm cup: take ISO 2431 3 mm, ASTM D1200 No. 1, ASTM D4212 Zahn No. 1 or Shell No. 1 to
//! 2.5, or calibrate a home-made one ([`FlowCup::calibrate`]) with water and glycerol ([`mod@reference`]).
//!
//! # How good it is
//!
//! Against published tables: the ISO equations meet the corner points of a cup maker's range table within
//! 1.5 % and the class limits of the UN/ADR transport rules within 8 % inside the time range (13 to 19 %
//! off at 20 s, which is below it); the ASTM equations meet a reference-oil maker's drain times within
//! 3.5 %. Between laboratories, seconds of one liquid differ by 10 % (ISO 2431) to 33 % (Zahn); that
//! reproducibility is in every interval given here. Newtonian liquids only: a paint that thins under shear
//! reads thicker in a cup than it is in the nozzle.
//!
//! ```
//! use mistcoat::cup::FlowCup;
//! use mistcoat::quantity::{parse, show};
//! let cup = FlowCup::standard("ISO 2431", "4")?;
//! let nu = cup.kinematic_viscosity(parse("35 s")?)?;
//! assert_eq!(show(nu.best()), "42.2 mm2/s");
//! assert!(nu.warnings.is_empty());
//! // 20 s is below the cup's range: a number, and the name of a cup that would serve.
//! let thin = cup.kinematic_viscosity(parse("20 s")?)?;
//! assert!(thin.warnings[0].message.contains("ISO 2431 3"));
//! # Ok::<(), mistcoat::Error>(())
//! ```

mod anchor;
mod calibrate;
mod catalogue;
mod convert;
mod equation;
pub mod reference;
mod standard;
mod suggest;
mod timing;

pub use calibrate::{Calibration, Reading};
pub use equation::Equation;
pub use standard::{FlowCup, Kind, Precision, Span};
pub use suggest::{Suggestion, cups_for};
pub use timing::timing;

/// m2/s in one mm2/s.
const MM2: f64 = 1e-6;
