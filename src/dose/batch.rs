//! Batches: repair a mix gone too thin or too thick, combine two, scale one, alligation.

use super::thinning::Thinning;
use crate::error::{Error, Result, out_of_range};
use crate::quantity::{Quantity, Ratio, Volume, VolumeFraction, as_text, positive, show};
use serde::{Deserialize, Serialize};

/// Parts of a strong and a weak stock that give a wanted strength between them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Alligation {
    /// Parts of the strong stock.
    pub strong: f64,
    /// Parts of the weak stock.
    pub weak: f64,
}

/// Alligation: parts of strong to weak are `(target − weak) : (strong − target)`, scaled to add up to 1.
///
/// # Errors
/// [`crate::error::RangeError`] when the target does not lie between the two.
///
/// ```
/// use mistcoat::{dose::alligation, quantity::VolumeFraction};
/// let f = VolumeFraction::new;
/// let parts = alligation(f(0.50)?, f(0.0)?, f(0.30)?)?;
/// assert!((parts.strong / parts.weak - 1.5).abs() < 1e-12); // 3 : 2
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn alligation(
    strong: VolumeFraction,
    weak: VolumeFraction,
    target: VolumeFraction,
) -> Result<Alligation> {
    let (s, w, t) = (strong.get(), weak.get(), target.get());
    if w < s && (w..=s).contains(&t) {
        return Ok(Alligation { strong: (t - w) / (s - w), weak: (s - t) / (s - w) });
    }
    Err(out_of_range(
        "wanted strength",
        target.to_string(),
        format!("{weak} to {strong} (the weak and the strong stock, which must differ)"),
        "a mix lies between its two stocks: choose a stronger stock or a lower target",
    ))
}

/// What to add to a mix.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Repair {
    /// Too thick: add thinner.
    AddThinner(Volume),
    /// Too thin: add paint of the stated thinning.
    AddPaint(Volume),
    /// Already there.
    Nothing,
}

/// A volume of mix and how far it is thinned.
///
/// ```
/// use mistcoat::dose::{Batch, Repair, Thinning};
/// use mistcoat::quantity::{parse, show, VolumeFraction};
/// let x = |v: f64| VolumeFraction::new(v).and_then(Thinning::from_paint_fraction);
/// // 20 mL at 20 % paint, to be 30 %, with a half-thinned stock: add 10 mL of it.
/// let batch = Batch::new(parse("20 mL")?, x(0.20)?)?;
/// let Repair::AddPaint(v) = batch.repair(x(0.30)?, x(0.50)?)? else { panic!("too thin") };
/// assert_eq!(show(v), "10 mL");
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Record")]
pub struct Batch {
    #[serde(with = "as_text")]
    volume: Volume,
    thinning: Thinning,
}

/// The form in files, before it is checked.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    #[serde(with = "as_text")]
    volume: Volume,
    thinning: Thinning,
}

impl TryFrom<Record> for Batch {
    type Error = Error;

    fn try_from(r: Record) -> Result<Self> {
        Self::new(r.volume, r.thinning)
    }
}

/// Paint fractions nearer than this, relative, are the same: a third is no number of binary digits.
const SAME: f64 = 1e-12;

impl Batch {
    /// A batch.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] for a volume that is not above zero.
    pub fn new(volume: Volume, thinning: Thinning) -> Result<Self> {
        positive("volume of the batch", volume)?;
        Ok(Self { volume, thinning })
    }

    /// The whole volume.
    pub fn volume(&self) -> Volume {
        self.volume
    }

    /// How far it is thinned.
    pub fn thinning(&self) -> Thinning {
        self.thinning
    }

    /// Volume of stock paint in it.
    pub fn paint(&self) -> Volume {
        Volume::from_si(self.volume.si() * self.thinning.paint_fraction().get())
    }

    /// Volume of thinner in it.
    pub fn thinner(&self) -> Volume {
        Volume::from_si(self.volume.si() * self.thinning.percent_of_mix().si())
    }

    /// What brings it to `target`: thinner when it is too thick, or stock (undiluted, or thinned to `stock`)
    /// when it is too thin: `V_add = V (x_t − x)/(x_stock − x_t)`.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] when it is too thin and the stock is no stronger than the target.
    pub fn repair(&self, target: Thinning, stock: Thinning) -> Result<Repair> {
        let x = |t: Thinning| t.paint_fraction().get();
        let (now, wanted, with) = (x(self.thinning), x(target), x(stock));
        let v = self.volume.si();
        if (now - wanted).abs() <= SAME * wanted {
            Ok(Repair::Nothing)
        } else if now > wanted {
            Ok(Repair::AddThinner(Volume::from_si(v * (now - wanted) / wanted)))
        } else if with > wanted {
            Ok(Repair::AddPaint(Volume::from_si(v * (wanted - now) / (with - wanted))))
        } else {
            Err(out_of_range(
                "paint fraction of the stock",
                show(Ratio::from_si(with)),
                format!("above the target, {}", show(Ratio::from_si(wanted))),
                "add paint that is thinned less than the target, or undiluted paint",
            ))
        }
    }

    /// Two batches of the same paint and thinner poured together.
    ///
    /// # Errors
    /// None in practice: the paint fraction of a mix lies between those of its parts.
    pub fn combined(&self, other: &Self) -> Result<Self> {
        let thinning =
            Thinning::from_volumes(self.thinner() + other.thinner(), self.paint() + other.paint())?;
        Ok(Self { volume: self.volume + other.volume, thinning })
    }

    /// The same mix for another total volume: the club's litre from the bench's cup.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] for a volume that is not above zero.
    pub fn scaled_to(&self, volume: Volume) -> Result<Self> {
        Self::new(volume, self.thinning)
    }

    /// The batch that uses up a volume of stock paint.
    ///
    /// # Errors
    /// [`crate::error::RangeError`] for a volume that is not above zero.
    pub fn from_paint(paint: Volume, thinning: Thinning) -> Result<Self> {
        positive("volume of paint", paint)?;
        Self::new(Volume::from_si(paint.si() / thinning.paint_fraction().get()), thinning)
    }
}
