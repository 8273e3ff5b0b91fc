//! Fractions that cannot leave their interval.

use super::{Quantity, Ratio, as_text, show};
use crate::error::{Result, out_of_range};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

macro_rules! bounded {
    ($(#[$doc:meta])* $Name:ident, $what:literal, $remedy:literal) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
        pub struct $Name(f64);

        impl $Name {
            /// Nothing of it.
            pub const ZERO: Self = Self(0.0);
            /// All of it.
            pub const ONE: Self = Self(1.0);

            /// From a plain number between 0 and 1.
            ///
            /// # Errors
            /// A [`crate::error::RangeError`] outside 0 to 1, or for NaN.
            pub fn new(fraction: f64) -> Result<Self> {
                if (0.0..=1.0).contains(&fraction) {
                    Ok(Self(fraction))
                } else {
                    Err(out_of_range($what, show(Ratio::from_si(fraction)), "0 % to 100 %", $remedy))
                }
            }

            /// The number between 0 and 1.
            pub fn get(self) -> f64 {
                self.0
            }
        }

        impl TryFrom<Ratio> for $Name {
            type Error = crate::error::Error;
            fn try_from(ratio: Ratio) -> Result<Self> {
                Self::new(ratio.si())
            }
        }

        impl From<$Name> for Ratio {
            fn from(fraction: $Name) -> Self {
                Ratio::from_si(fraction.0)
            }
        }

        impl Serialize for $Name {
            fn serialize<S: Serializer>(&self, serializer: S) -> core::result::Result<S::Ok, S::Error> {
                as_text::serialize(&Ratio::from(*self), serializer)
            }
        }

        impl<'de> Deserialize<'de> for $Name {
            fn deserialize<D: Deserializer<'de>>(deserializer: D) -> core::result::Result<Self, D::Error> {
                Self::try_from(as_text::deserialize::<Ratio, D>(deserializer)?).map_err(de::Error::custom)
            }
        }

        impl core::fmt::Display for $Name {
            fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
                f.write_str(&show(Ratio::from(*self)))
            }
        }
    };
}

bounded!(
    /// Share of a volume, between 0 and 1.
    VolumeFraction,
    "volume fraction",
    "give the share of the whole, for example \"40 %\""
);
bounded!(
    /// Relative humidity of air over liquid water, between 0 and 1.
    RelativeHumidity,
    "relative humidity",
    "read the hygrometer again and write for example \"55 %\""
);

bounded!(
    /// Share of the light that comes back, weighted as the eye does (luminous reflectance), between 0 and 1.
    Reflectance,
    "reflectance",
    "give the share of light that comes back, for example \"80 %\"; black card is near 0 %, white card near 80 %"
);
