//! The engine against the one film that has an exact solution, and its ledger.

use super::engine::{Engine, Options, POINTS, Support};
use super::liquid::Liquid;
use super::surface::{Surface, Transfer};
use super::trace::Trace;
use super::volatile::Volatile;
use crate::air::properties::GAS_CONSTANT;

const ROOM_K: f64 = 298.15;

fn species(name: &str, m_g_mol: f64, kg_m2: f64, psat: f64, rho: f64) -> Volatile {
    let m = m_g_mol * 1e-3;
    Volatile {
        name: name.to_owned(),
        molar_mass_kg_mol: m,
        molar_volume_m3_mol: m / rho,
        diffusivity_m2_s: 7e-6,
        heat_of_vaporisation_j_mol: 40e3,
        heat_capacity_j_mol_k: 200.0,
        // A constant vapour pressure: this film stays at room temperature.
        ln_psat: [psat.ln(), 0.0, 0.0],
        room_pressure_pa: 0.0,
        chi: super::polymer::CHI_SOLVENT,
        glass_transition_k: 130.0,
        arrived_mol_m2: kg_m2 / m,
    }
}

/// 50/35/15 by mass of acetone, n-butyl acetate and 2-butoxyethanol, 25 µm; properties at 25 °C from the
/// `thermo` package 0.4, k from 2.82e-3 m/s for n-butyl acetate with the 2/3 power of the diffusivities.
fn ternary() -> (Vec<Volatile>, Vec<f64>) {
    let species = vec![
        species("acetone", 58.07914, 0.010305711516930181, 30746.814582685118, 784.7736),
        species("n-butyl acetate", 116.15828, 0.007213998061851127, 1618.8036769132998, 876.0244),
        species("2-butoxyethanol", 118.17416, 0.0030917134550790546, 117.0, 851.0109),
    ];
    (species, vec![0.00363660892257195, 0.00282, 0.0027893406894013875])
}

fn ideal_run(tolerance: f64) -> Trace {
    let (species, k) = ternary();
    let mut surface =
        Surface::new(species, Liquid::ideal(3), Transfer::Constant(k, 10.0), 0.0, ROOM_K, 101_325.0);
    surface.stefan_flow = false;
    let options = Options { relative_tolerance: tolerance, ..Options::default() };
    Engine::new(surface, Support::Isothermal, options).run(1e6, options).unwrap()
}

/// Exact: with κ = k psat/(R T), `n = n0 exp(−κ s)` and `t = Σ n0/κ (1 − exp(−κ s))`.
fn exact_time(lost: f64) -> f64 {
    let (species, k) = ternary();
    let kappa: Vec<f64> =
        species.iter().zip(&k).map(|(s, k)| k * s.psat_pa(ROOM_K) / (GAS_CONSTANT * ROOM_K)).collect();
    let mass = |s: f64| -> f64 {
        species.iter().zip(&kappa).map(|(v, k)| v.arrived_mol_m2 * v.molar_mass_kg_mol * (-k * s).exp()).sum()
    };
    let (mut low, mut high) = (0.0, 1e9);
    for _ in 0..200 {
        let middle = 0.5 * (low + high);
        if mass(middle) > (1.0 - lost) * mass(0.0) {
            low = middle;
        } else {
            high = middle;
        }
    }
    species.iter().zip(&kappa).map(|(v, k)| v.arrived_mol_m2 / k * (1.0 - (-k * low).exp())).sum()
}

fn time_to_lose(trace: &Trace, lost: f64) -> f64 {
    trace.segments.iter().find_map(|s| s.time_of(1.0 - lost)).unwrap()
}

// Closed solution, and the times worked from it independently (computed) to their last digit: their psat
// differs in the sixth digit.
#[rstest::rstest]
#[case(0.5, 8.572)]
#[case(0.75, 42.463)]
#[case(0.9, 105.175)]
#[case(0.99, 223.127)]
fn exact_isothermal_film(#[case] lost: f64, #[case] worked: f64) {
    let time = time_to_lose(&ideal_run(1e-9), lost);
    approx::assert_relative_eq!(time, exact_time(lost), max_relative = 1e-6);
    approx::assert_relative_eq!(time, worked, max_relative = 2e-4);
    // The tolerance in everyday use.
    approx::assert_relative_eq!(
        time_to_lose(&ideal_run(super::engine::TOLERANCE), lost),
        exact_time(lost),
        max_relative = 2e-3
    );
}

/// The whole drying time is the sum of the times of the components by themselves: 3.93 + 33.72 + 198.73 s.
#[test]
fn total_time_is_the_sum_of_the_parts() {
    let trace = ideal_run(1e-9);
    let (species, k) = ternary();
    let rest: f64 = species
        .iter()
        .zip(&k)
        .zip(&trace.amounts_mol_m2)
        .map(|((s, k), n)| n.last().unwrap() / (k * s.psat_pa(ROOM_K) / (GAS_CONSTANT * ROOM_K)))
        .sum();
    let total = trace.times_s.last().unwrap() + rest;
    approx::assert_relative_eq!(total, exact_time(1.0), max_relative = 1e-6);
    approx::assert_relative_eq!(total, 236.375, max_relative = 1e-4);
}

#[test]
fn amounts_never_negative() {
    for tolerance in [1e-2, super::engine::TOLERANCE, 1e-6] {
        let trace = ideal_run(tolerance);
        assert!(trace.amounts_mol_m2.iter().flatten().all(|n| *n >= 0.0));
    }
}

/// The ledger: what leaves through the surface is what the film loses, and what it gathers from the air came through it.
/// The flux law is integrated by itself over the recorded course, by Boole's rule on the points of each step; the error of
/// that rule sets the tolerance.
#[rstest::rstest]
#[case::ideal(ideal_surface(), Support::Free, 200.0, 1e-10, 1e-9)]
#[case::real(real_surface(0.2, None), plate(), 100.0, 1e-8, 1e-9)]
#[case::with_binder(real_surface(0.2, Some(-60.0)), plate(), 100.0, 1e-8, 1e-9)]
fn flux_accounts_for_the_loss(
    #[case] mut surface: Surface,
    #[case] support: Support,
    #[case] until_s: f64,
    #[case] relative_tolerance: f64,
    #[case] tolerance: f64,
) {
    let options = Options { relative_tolerance, ..Options::default() };
    let trace = Engine::new(surface.clone(), support, options).run(until_s, options).unwrap();
    assert!((trace.times_s.len() - 1).is_multiple_of(POINTS) && !trace.work.gave_way);
    let species = surface.species.len();
    let mut flux = vec![0.0; species];
    let mut gone = vec![0.0; species];
    for step in 0..(trace.times_s.len() - 1) / POINTS {
        let points = step * POINTS..=(step + 1) * POINTS;
        let width = trace.times_s[*points.end()] - trace.times_s[*points.start()];
        for (index, (point, weight)) in points.zip([7.0, 32.0, 12.0, 32.0, 7.0]).enumerate() {
            let amounts: Vec<f64> = trace.amounts_mol_m2.iter().map(|a| a[point]).collect();
            if index == 0 {
                surface.liquid.renew(trace.temperature_k[point], &amounts);
            }
            surface.fluxes(&amounts, trace.temperature_k[point], &mut flux);
            for (gone, flux) in gone.iter_mut().zip(&flux) {
                *gone += width * weight / 90.0 * flux;
            }
        }
    }
    let scale: f64 = trace.amounts_mol_m2.iter().map(|a| a[0]).sum();
    for (gone, amounts) in gone.iter().zip(&trace.amounts_mol_m2) {
        let lost = amounts[0] - amounts.last().unwrap();
        approx::assert_abs_diff_eq!(*gone / scale, lost / scale, epsilon = tolerance);
    }
}

fn ideal_surface() -> Surface {
    let (species, k) = ternary();
    Surface::new(species, Liquid::ideal(3), Transfer::Constant(k, 10.0), 5e-6, ROOM_K, 101_325.0)
}

#[test]
fn step_cap_is_a_typed_error() {
    let (species, k) = ternary();
    let surface =
        Surface::new(species, Liquid::ideal(3), Transfer::Constant(k, 10.0), 0.0, ROOM_K, 101_325.0);
    let options = Options { max_steps: 5, ..Options::default() };
    let text = Engine::new(surface, Support::Free, options).run(1e6, options).unwrap_err().to_string();
    assert!(
        text.contains("after 5 steps") && text.contains("5 steps of") && text.contains("shorter"),
        "{text}"
    );
}

/// The worked-out Jacobian against differences of the rates, on the real equations: two liquids with water
/// from the air, binder, plate; heavy and light layer.
#[rstest::rstest]
#[case::wet(&[0.5, 0.3, 0.1, 0.05], -4.0)]
#[case::nearly_dry(&[1e-6, 0.01, 0.05, 0.002], -0.2)]
#[case::warm(&[0.1, 0.3, 0.1, 0.0], 3.0)]
fn jacobian_is_the_derivative_of_the_rate(#[case] amounts: &[f64], #[case] film_k: f64) {
    use super::solver::linear::Jacobian;
    use super::solver::rosenbrock::System;
    for (stagnant, mut engine) in [
        (false, real_engine(0.2, None)),
        (true, real_engine(0.0, None)),
        (false, real_engine(0.2, Some(50.0))),
        (true, real_engine(0.0, Some(-20.0))),
    ] {
        let nodes = super::substrate::NODES;
        let (n, core) = (4, 5);
        let mut y = amounts.to_vec();
        y.push(film_k);
        y.extend((0..nodes).map(|k| film_k / (k + 2) as f64));
        let (mut f, mut moved_rate) = (vec![0.0; y.len()], vec![0.0; y.len()]);
        engine.renew(&y);
        engine.rate(&y, &mut f);
        let mut jacobian = Jacobian::zeros(core, nodes);
        engine.jacobian(&y, &f, &mut jacobian);
        for j in 0..y.len() {
            let step = if j < n { 1e-6 * (y[j] + 0.01) } else { 1e-4 };
            let mut moved = y.clone();
            moved[j] += step;
            engine.rate(&moved, &mut moved_rate);
            for i in 0..y.len() {
                let difference = (moved_rate[i] - f[i]) / step;
                let exact = if i < core && j < core {
                    jacobian.core[(i, j)]
                } else if i == n && j == core {
                    jacobian.core_from_chain
                } else if i >= core && j + 1 >= i && j <= i + 1 {
                    let link = jacobian.chain[i - core];
                    [link.above, link.here, link.below][j + 1 - i]
                } else if i + 1 == y.len() && j < core {
                    continue; // the back face's own h, left out
                } else {
                    0.0
                };
                // Relative to the row: what decides over the error of a step.
                let row: f64 = (0..core).map(|j| jacobian.core[(i.min(n), j)].abs()).fold(0.0, f64::max);
                // Activities are differentiated at the upper of two temperatures, up to 8 K away.
                let tolerance = 0.02 * exact.abs() + 0.02 * row;
                assert!(
                    (difference - exact).abs() <= tolerance,
                    "row {i}, column {j}, stagnant {stagnant}: {exact} against {difference}"
                );
            }
        }
    }
}

/// The ternary with water on polystyrene, binder included, from the catalogue.
fn real_surface(air_m_s: f64, glass_transition_degc: Option<f64>) -> Surface {
    use crate::air::Room;
    use crate::blend::{Basis, Blend};
    use crate::film::{Binder, Film};
    use crate::quantity::{Quantity, RelativeHumidity, Temperature, Velocity, VolumeFraction, parse};
    let parts = [("acetone", 50.0), ("n-butyl acetate", 35.0), ("2-butoxyethanol", 15.0)];
    let thinner = Blend::from_names(&parts, Basis::Mass, None).unwrap();
    let room = Room::new(parse("25 °C").unwrap(), RelativeHumidity::new(0.5).unwrap())
        .unwrap()
        .with_air_speed(Velocity::from_si(air_m_s))
        .unwrap();
    let mut film =
        Film::new(&thinner, VolumeFraction::new(0.15).unwrap(), parse("25 µm").unwrap(), &room).unwrap();
    if let Some(celsius) = glass_transition_degc {
        film = film.with_binder(Binder::new(Temperature::from_si(celsius + 273.15)).unwrap());
    }
    super::course::wet_surface(&film).unwrap()
}

fn plate() -> Support {
    Support::Plate(crate::film::Substrate::default().conduction().unwrap().unwrap())
}

fn real_engine(air_m_s: f64, glass_transition_degc: Option<f64>) -> Engine {
    Engine::new(real_surface(air_m_s, glass_transition_degc), plate(), Options::default())
}

/// Legs in sequence, each with its transfer coefficients as multiples of the usual ones, over the ideal film.
fn legs(legs: &[(f64, f64)], support: &Support, solids_m: f64) -> (Trace, Vec<Surface>) {
    use super::moment::Moment;
    let (species, k) = ternary();
    let options = Options { relative_tolerance: 1e-9, ..Options::default() };
    let mut at = Moment::bare(3, ROOM_K);
    at.amounts_mol_m2 = species.iter().map(|s| s.arrived_mol_m2).collect();
    let mut trace = Trace::starting(&at, solids_m);
    let mut from_s = 0.0;
    let mut surfaces = Vec::new();
    for (until_s, factor) in legs {
        let transfer = Transfer::Constant(k.iter().map(|k| k * factor).collect(), 10.0 * factor);
        let mut surface =
            Surface::new(species.clone(), Liquid::ideal(3), transfer, solids_m, ROOM_K, 101_325.0);
        surface.stefan_flow = false;
        surfaces.push(surface.clone());
        let mut engine = Engine::new(surface, *support, options);
        at = engine.follow(at, [from_s, *until_s], options, &mut trace).unwrap();
        from_s = *until_s;
    }
    (trace, surfaces)
}

/// Exact: the ideal film knows time only as k t, so that with k doubled from 20 s on it is at t where the plain one is at
/// 20 s + 2 (t - 20 s).
#[rstest::rstest]
#[case(0.5)]
#[case(0.75)]
#[case(0.9)]
#[case(0.99)]
fn exact_film_over_legs(#[case] lost: f64) {
    let (trace, _) = legs(&[(20.0, 1.0), (50.0, 2.0), (1e6, 0.5)], &Support::Isothermal, 0.0);
    let plain = exact_time(lost);
    let expected = if plain < 20.0 {
        plain
    } else if plain < 80.0 {
        20.0 + (plain - 20.0) / 2.0
    } else {
        50.0 + (plain - 80.0) / 0.5
    };
    approx::assert_relative_eq!(time_to_lose(&trace, lost), expected, max_relative = 1e-6);
}

/// Nothing is lost between legs: the flux law of the air in force, integrated over the recorded course, against the
/// amounts.
#[test]
fn flux_accounts_for_the_loss_over_legs() {
    let ends = [(15.0, 1.0), (60.0, 3.0), (200.0, 0.4)];
    let (trace, mut surfaces) = legs(&ends, &Support::Free, 5e-6);
    let mut gone = [0.0; 3];
    let (mut before, mut after) = (vec![0.0; 3], vec![0.0; 3]);
    for (point, pair) in trace.times_s.windows(2).enumerate() {
        let leg = ends.iter().position(|(end, _)| pair[1] <= end + 1e-9).unwrap();
        for (flux, at) in [(&mut before, point), (&mut after, point + 1)] {
            let amounts: Vec<f64> = trace.amounts_mol_m2.iter().map(|a| a[at]).collect();
            surfaces[leg].fluxes(&amounts, trace.temperature_k[at], flux);
        }
        for ((gone, a), b) in gone.iter_mut().zip(&before).zip(&after) {
            *gone += 0.5 * (pair[1] - pair[0]) * (a + b);
        }
    }
    for (gone, amounts) in gone.iter().zip(&trace.amounts_mol_m2) {
        approx::assert_relative_eq!(*gone, amounts[0] - amounts.last().unwrap(), max_relative = 2e-4);
    }
}
