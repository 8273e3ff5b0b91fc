//! A thinner that is slowed: a share of it is a slow liquid, the retarder.

use crate::blend::Blend;
use crate::error::{Result, out_of_range};
use crate::quantity::{Quantity, Ratio, digits, show};
use serde::{Deserialize, Serialize};

/// More than this may slow drying too much (source key `RETARDER_USE`).
pub(super) const PLENTY: f64 = 0.2;

/// A slow liquid in the place of a share of the thinner, by volume; the amount of thinner stays.
///
/// ```
/// use mistcoat::bench::RetarderShare;
/// use mistcoat::blend::{Basis, Blend};
/// use mistcoat::quantity::parse;
/// let fast = Blend::from_names(&[("acetone", 1.0)], Basis::Volume, None)?;
/// let slow = Blend::from_names(&[("2-butoxyethanol", 1.0)], Basis::Volume, None)?;
/// let slowed = RetarderShare::new(&slow, parse("15 %")?)?;
/// assert_eq!(slowed.thinner(&fast)?.label(), "acetone with 15 % of 2-butoxyethanol");
/// assert!(RetarderShare::new(&slow, parse("150 %")?).is_err());
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RetarderShare {
    /// The slow liquid.
    pub retarder: Blend,
    /// Its share of the thinner, by volume, 0 to 1.
    #[serde(with = "crate::quantity::as_text")]
    pub share: Ratio,
}

impl RetarderShare {
    /// A share of the thinner.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 0 to 100 %.
    pub fn new(retarder: &Blend, share: Ratio) -> Result<Self> {
        if !(0.0..=1.0).contains(&share.si()) {
            return Err(out_of_range(
                "share of retarder in the thinner",
                show(share),
                "0 % to 100 %",
                "retarders are used at 15 % to 30 % of the thinner",
            ));
        }
        Ok(Self { retarder: retarder.clone(), share })
    }

    /// The thinner with this share of it replaced.
    ///
    /// # Errors
    /// As [`Self::new`], for a share that was set past it; those of [`Blend::mixed_with`].
    pub fn thinner(&self, plain: &Blend) -> Result<Blend> {
        let share = Self::new(&self.retarder, self.share)?.share.si();
        if share <= 0.0 {
            return Ok(plain.clone());
        }
        let name =
            format!("{} with {} % of {}", plain.label(), digits(share * 100.0, 3), self.retarder.label());
        plain.mixed_with(1.0 - share, &self.retarder, share, Some(&name))
    }
}
