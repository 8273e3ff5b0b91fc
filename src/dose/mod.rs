//! drops, parts, percent, mass; dilution arithmetic.
