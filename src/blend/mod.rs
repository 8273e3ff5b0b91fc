//! liquids together: activities, vapour pressures, density, viscosity, flash point.

pub mod unifac;
