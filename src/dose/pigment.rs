//! Pigment volume concentration, its critical value, and the cut of a resin.
//!
//! ```text
//! PVC  = V_pigment / (V_pigment + V_binder)
//! CPVC = 1 / (1 + OA ρ_pigment / ρ_oil)       OA in g oil per g pigment, ρ_oil = 0.935 g/mL
//! ```
//!
//! A thinner that leaves does not change the PVC of the dry film. Linseed oil used as a thinner does, and so
//! does clear medium: both stay.

use crate::error::{Result, out_of_range};
use crate::quantity::{
    Density, Mass, MassConcentration, Quantity, Ratio, Volume, VolumeFraction, not_negative, positive, show,
};

/// Density of the linseed oil of oil absorption tests, kg/m3. Source key `ASBECK1949`.
const LINSEED_OIL_KG_M3: f64 = 935.0;

/// Pigment volume concentration of the dry film.
///
/// # Errors
/// [`crate::error::RangeError`] for a negative volume, or when both are zero.
pub fn pvc(pigment: Volume, binder: Volume) -> Result<VolumeFraction> {
    let p = not_negative("volume of pigment", pigment)?;
    let b = not_negative("volume of binder", binder)?;
    if p + b > 0.0 {
        return VolumeFraction::new(p / (p + b));
    }
    let remedy = "give the volumes of pigment and of dry binder";
    Err(out_of_range("volume of pigment and binder", "0 mL", "above 0 mL", remedy))
}

/// Oil absorption of the finest carbon blacks and silicas, with room to spare (common practice).
const MOST_OIL: f64 = 5.0;

/// Critical pigment volume concentration from the oil absorption (g oil per g pigment, so 20 g/100 g is
/// 20 %): above it the binder no longer fills the gaps, and the film is porous and flat.
///
/// # Errors
/// [`crate::error::RangeError`] for values that are not above zero, or an oil absorption above 500 %: the number of
/// a data sheet, 20, was then taken for a share.
///
/// ```
/// use mistcoat::{dose::cpvc, quantity::parse};
/// assert!((cpvc(parse("20 %")?, parse("4.1 g/mL")?)?.get() - 0.5327).abs() < 5e-4);
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn cpvc(oil_absorption: Ratio, pigment: Density) -> Result<VolumeFraction> {
    let oa = positive("oil absorption", oil_absorption)?;
    if oa > MOST_OIL {
        return Err(out_of_range(
            "oil absorption",
            show(oil_absorption),
            format!("up to {} (the finest blacks and silicas)", show(Ratio::from_si(MOST_OIL))),
            "20 g of oil for 100 g of pigment is \"20 %\"",
        ));
    }
    let rho = positive("density of the pigment", pigment)?;
    VolumeFraction::new(1.0 / (1.0 + oa * rho / LINSEED_OIL_KG_M3))
}

/// Cut of a resin as mass per volume of *solution*: 31 g in 100 mL of varnish is 310 g/L.
///
/// # Errors
/// [`crate::error::RangeError`] for a volume that is not above zero or a negative mass.
pub fn cut_of_solution(resin: Mass, solution: Volume) -> Result<MassConcentration> {
    let m = not_negative("mass of resin", resin)?;
    Ok(MassConcentration::from_si(m / positive("volume of solution", solution)?))
}

/// The same resin given as mass per volume of *solvent*, turned into mass per volume of solution: the resin
/// takes up room. The traditional "pound cut" counts solvent.
///
/// # Errors
/// [`crate::error::RangeError`] for values that are not above zero.
///
/// ```
/// use mistcoat::{dose::cut_of_solvent, quantity::{parse, to}};
/// // 2 lb of resin of 1.1 g/mL to 1 US gal of solvent: 240 g/L of solvent, 197 g/L of solution.
/// let cut = cut_of_solvent(parse("2 lb")?, parse("1 US gal")?, parse("1.1 g/mL")?)?;
/// assert!((to(cut, "g/L")? - 196.8).abs() < 0.1);
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn cut_of_solvent(resin: Mass, solvent: Volume, resin_density: Density) -> Result<MassConcentration> {
    let m = not_negative("mass of resin", resin)?;
    let v = positive("volume of solvent", solvent)?;
    let rho = positive("density of the resin", resin_density)?;
    let cut = MassConcentration::from_si(m / (v + m / rho));
    if cut.si().is_finite() {
        return Ok(cut);
    }
    Err(out_of_range("cut", show(cut), "a finite concentration", "check the mass and the volume"))
}
