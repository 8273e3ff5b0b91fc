//! how a thin coat loses its solvent.

pub mod solver;
