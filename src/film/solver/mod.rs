//! Integration of stiff ordinary differential equations, for the drying engine.
//!
//! A film holds processes that differ by a factor 1e4 in speed (heat through the first tenth of a
//! millimetre, acetone leaving, a glycol ether leaving), so the method must be stiff-safe: [`rosenbrock`]
//! holds a Rosenbrock method of order 4 with error control, dense output and a bound on the
//! work; [`linear`] the small dense linear algebra.

pub(crate) mod linear;
pub(crate) mod rosenbrock;

#[cfg(test)]
mod order_tests;
#[cfg(test)]
mod tests;
