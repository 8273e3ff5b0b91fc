//! From wet film to dry film, and how far a litre goes.
//!
//! ```text
//! VS' = x VS            volume solids after thinning
//! WFT = DFT / VS        wet film thickness for a dry film
//! rate = VS / DFT       theoretical spreading rate
//! ```
//!
//! Only volume counts: the thinner leaves, so the dry film is the same paint, thinner. Solids by weight are
//! turned into solids by volume with the density of the volatile or of the dry resin; measured values
//! (ISO 3233, ASTM D2697) are better. Neglected: shrinkage of the binder as it cures.

use super::thinning::Thinning;
use crate::error::{Result, out_of_range};
use crate::quantity::{Density, Length, Quantity, Ratio, SpreadingRate, VolumeFraction, positive, show};

/// Volume solids of a mix: `VS' = x VS`.
///
/// # Errors
/// None in practice; the product of two fractions is a fraction.
///
/// ```
/// use mistcoat::{dose::{Parts, Thinning, thinned_solids}, quantity::VolumeFraction};
/// let mix = Thinning::from_parts(Parts { thinner: 1.0, paint: 3.0 })?;
/// assert!((thinned_solids(VolumeFraction::new(0.60)?, mix)?.get() - 0.45).abs() < 1e-12);
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn thinned_solids(volume_solids: VolumeFraction, thinning: Thinning) -> Result<VolumeFraction> {
    VolumeFraction::new(volume_solids.get() * thinning.paint_fraction().get())
}

/// Wet film thickness that dries to `dry`: `WFT = DFT/VS`.
///
/// # Errors
/// [`crate::error::RangeError`] for a thickness that is not above zero, or no solids.
///
/// ```
/// use mistcoat::{dose::wet_film, quantity::{parse, to, VolumeFraction}};
/// let wet = wet_film(parse("150 um")?, VolumeFraction::new(0.75)?)?;
/// assert!((to(wet, "um")? - 200.0).abs() < 1e-9);
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn wet_film(dry: Length, volume_solids: VolumeFraction) -> Result<Length> {
    Ok(Length::from_si(positive("dry film thickness", dry)? / some_solids(volume_solids)?))
}

/// Dry film left by a wet one: `DFT = VS WFT`.
///
/// # Errors
/// [`crate::error::RangeError`] for a thickness that is not above zero.
pub fn dry_film(wet: Length, volume_solids: VolumeFraction) -> Result<Length> {
    Ok(Length::from_si(positive("wet film thickness", wet)? * volume_solids.get()))
}

/// Theoretical spreading rate: area covered by a volume of paint at a dry film thickness, nothing lost.
///
/// # Errors
/// [`crate::error::RangeError`] for a thickness that is not above zero, or no solids.
///
/// ```
/// use mistcoat::{dose::spreading_rate, quantity::{parse, show, VolumeFraction}};
/// assert_eq!(show(spreading_rate(VolumeFraction::new(0.65)?, parse("125 um")?)?), "5.2 m2/L");
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn spreading_rate(volume_solids: VolumeFraction, dry: Length) -> Result<SpreadingRate> {
    Ok(SpreadingRate::from_si(some_solids(volume_solids)? / positive("dry film thickness", dry)?))
}

/// Spreading rate when a share of the paint is lost in the air, the gun and the cup.
///
/// # Errors
/// [`crate::error::RangeError`] for a rate that is not above zero, or for a loss of everything.
pub fn practical_spreading_rate(theoretical: SpreadingRate, loss: VolumeFraction) -> Result<SpreadingRate> {
    let rate = positive("theoretical spreading rate", theoretical)?;
    if loss.get() >= 1.0 {
        let remedy = "give the share of paint that misses the work, for example \"35 %\"";
        return Err(out_of_range("loss", loss.to_string(), "below 100 %", remedy));
    }
    Ok(SpreadingRate::from_si(rate * (1.0 - loss.get())))
}

/// Volume solids from solids by weight and the densities of paint and volatile part:
/// `VS = 1 − (1 − NV) ρ_paint/ρ_volatile`.
///
/// # Errors
/// [`crate::error::RangeError`] for a share outside 0 % to 100 %, a density that is not above zero, or three
/// values that contradict each other.
///
/// ```
/// use mistcoat::{dose::volume_solids_from_volatile, quantity::parse};
/// let vs = volume_solids_from_volatile(parse("45 %")?, parse("1.10 g/mL")?, parse("0.87 g/mL")?)?;
/// assert!((vs.get() - 0.305).abs() < 5e-4);
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn volume_solids_from_volatile(
    solids_by_weight: Ratio,
    paint: Density,
    volatile: Density,
) -> Result<VolumeFraction> {
    let nv = weight_share(solids_by_weight)?;
    let vs = 1.0
        - (1.0 - nv) * positive("density of the paint", paint)?
            / positive("density of the volatile part", volatile)?;
    consistent(vs)
}

/// Volume solids from solids by weight and the densities of paint and dry film: `VS = NV ρ_paint/ρ_solids`.
///
/// # Errors
/// As for [`volume_solids_from_volatile`].
pub fn volume_solids_from_resin(
    solids_by_weight: Ratio,
    paint: Density,
    solids: Density,
) -> Result<VolumeFraction> {
    let nv = weight_share(solids_by_weight)?;
    consistent(nv * positive("density of the paint", paint)? / positive("density of the solids", solids)?)
}

fn some_solids(volume_solids: VolumeFraction) -> Result<f64> {
    let vs = volume_solids.get();
    if vs > 0.0 {
        return Ok(vs);
    }
    let remedy = "take the volume solids from the data sheet, for example \"35 %\"";
    Err(out_of_range("volume solids", volume_solids.to_string(), "above 0 %", remedy))
}

fn weight_share(solids: Ratio) -> Result<f64> {
    let nv = solids.si();
    if (0.0..=1.0).contains(&nv) {
        return Ok(nv);
    }
    let remedy = "take the non-volatile content by weight from the data sheet, for example \"45 %\"";
    Err(out_of_range("solids by weight", show(solids), "0 % to 100 %", remedy))
}

fn consistent(vs: f64) -> Result<VolumeFraction> {
    VolumeFraction::new(vs).map_err(|_| {
        out_of_range(
            "volume solids computed from weight solids and densities",
            show(Ratio::from_si(vs)),
            "0 % to 100 %",
            "the three values contradict each other: check the densities",
        )
    })
}
