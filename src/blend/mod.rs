//! liquids together: activities, vapour pressures, density, viscosity, flash point.
