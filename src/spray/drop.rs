//! One drop in moving air: how fast does it take heat, give vapour, and follow the air?
//!
//! * Ranz and Marshall: `Sh = 2 + 0.6 Re^½ Sc^⅓`, `Nu = 2 + 0.6 Re^½ Pr^⅓`, Re up to 200;
//! * drag: Stokes times `1 + 0.15 Re^0.687` (Schiller and Naumann), Re up to 800;
//! * the d² law of a drop at its wet bulb in still air: `d² = d0² − K t`, `K = 8 D (c_s − c_room) M/ρ`.
//!
//! Accuracy: 5 % on single drops held on wires (the experiments of Ranz and Marshall). Drops in the jet of a gun are
//! smaller and in turbulence; nobody measured them there.

/// Ranz and Marshall's factor on the part of the flow (source key `RANZ_MARSHALL`).
const FLOW: f64 = 0.6;

/// Sherwood or Nusselt number of a sphere in a stream, from Re^½ and Sc^⅓ or Pr^⅓ (source key `RANZ_MARSHALL`).
pub(crate) fn transfer_number(root_reynolds: f64, root3_schmidt: f64) -> f64 {
    2.0 + FLOW * root_reynolds * root3_schmidt
}

/// Sherwood number of a sphere in a stream; with the Prandtl number its Nusselt number (source key `RANZ_MARSHALL`).
///
/// ```
/// // At rest a sphere has 2 exactly.
/// assert!((mistcoat::spray::sherwood_sphere(0.0, 0.6) - 2.0).abs() < 1e-12);
/// ```
pub fn sherwood_sphere(reynolds: f64, schmidt: f64) -> f64 {
    transfer_number(reynolds.max(0.0).sqrt(), schmidt.max(0.0).cbrt())
}

/// Drag of a sphere over that of Stokes (source key `SCHILLER_NAUMANN`).
pub fn drag_factor(reynolds: f64) -> f64 {
    1.0 + 0.15 * reynolds.max(0.0).powf(0.687)
}

#[cfg(test)]
mod tests {
    use super::*;

    // Worked from the cited forms: water drop in air (Sc 0.6, Pr 0.71) at Re 100: Sh 7.06, Nu 7.35.
    // Schiller and Naumann: C_D = 24/Re (1 + 0.15 Re^0.687) is 1.09 at Re 100, the standard drag curve of a sphere
    // has 1.09 there (Clift, Grace and Weber, Bubbles, Drops and Particles, from memory), and 4.26 against 4.15 at 10.
    #[test]
    fn worked_values() {
        approx::assert_relative_eq!(sherwood_sphere(100.0, 0.6), 7.06, max_relative = 1e-3);
        approx::assert_relative_eq!(sherwood_sphere(100.0, 0.71), 7.35, max_relative = 1e-3);
        approx::assert_relative_eq!(24.0 / 100.0 * drag_factor(100.0), 1.09, max_relative = 0.02);
        approx::assert_relative_eq!(24.0 / 10.0 * drag_factor(10.0), 4.15, max_relative = 0.03);
    }
}
