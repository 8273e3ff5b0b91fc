//! The constants of the viscosity law, as stated or through one or two readings.

use super::build::{BENCH_K, Place};
use super::kernel::T20_K;
use super::record::Viscosity;
use crate::error::Result;
use crate::quantity::{Quantity, digits};

/// `ln_a` (mPa s), `b` (K) and `c` (K).
pub(super) fn viscosity(v: &Viscosity, place: &Place<'_>) -> Result<[f64; 3]> {
    for reading in &v.readings {
        place.within("viscosity", reading.value, 1e-4, 10.0)?;
        place.within("viscosity", reading.at, 240.0, 400.0)?;
    }
    let [ln_a, b, c] = match (v.ln_a, v.b, v.readings.as_slice()) {
        (Some(ln_a), Some(b), []) => [ln_a, b.si(), v.c.map_or(0.0, Quantity::si)],
        (None, None, [one]) => {
            let (t, mu) = (one.at.si(), one.value.si() * 1e3);
            let (low, high) = (lewis_squires(mu, BENCH_K.0 - t), lewis_squires(mu, BENCH_K.1 - t));
            two_points(BENCH_K.0, low, BENCH_K.1, high)
        }
        (None, None, [a, z]) if (a.at.si() - z.at.si()).abs() >= 3.0 => {
            two_points(a.at.si(), a.value.si() * 1e3, z.at.si(), z.value.si() * 1e3)
        }
        _ => {
            let problem =
                "give either ln_a and b, or readings at one temperature or at two that lie 3 K apart";
            let remedy = "write viscosity = { readings = [{ at = \"20 °C\", value = \"0.73 mPa.s\" }] }";
            return Err(place.fault("viscosity", problem, remedy));
        }
    };
    let at_20 = (ln_a + b / (T20_K + c)).exp();
    if (-230.0..=100.0).contains(&c) && (50.0..=10_000.0).contains(&b) && (0.1..=5000.0).contains(&at_20) {
        return Ok([ln_a, b, c]);
    }
    let problem = format!(
        "gives {} mPa.s at 20 °C with b = {} K and c = {} K, allowed is 0.1 to 5000 mPa.s, 50 to 10000 K and \
         -230 to 100 K",
        digits(at_20, 3),
        digits(b, 4),
        digits(c, 4)
    );
    Err(place.fault("viscosity", problem, "a liquid grows thinner when warmed; check the numbers and units"))
}

/// Lewis and Squires: the viscosity in mPa s at `warmer_k` above that of `mu_mpa_s`.
fn lewis_squires(mu_mpa_s: f64, warmer_k: f64) -> f64 {
    (mu_mpa_s.powf(-0.2661) + warmer_k / 233.0).max(0.05).powf(-1.0 / 0.2661)
}

fn two_points(t1_k: f64, mu1: f64, t2_k: f64, mu2: f64) -> [f64; 3] {
    let b = (mu1 / mu2).ln() / (1.0 / t1_k - 1.0 / t2_k);
    [mu1.ln() - b / t1_k, b, 0.0]
}
