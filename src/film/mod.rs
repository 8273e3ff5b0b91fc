//! how a thin coat loses its solvent.

mod engine;
mod polymer;
pub mod solver;
mod substrate;
mod surface;
#[cfg(test)]
mod engine_tests;

pub use substrate::Substrate;
