//! Molar mass and diffusion volume, summed over a molecular formula.

use super::build::Place;
use super::record::Record;
use crate::error::Result;
use crate::quantity::{Quantity, digits};

/// Atomic masses (source `IUPAC`) in g/mol and diffusion volumes (source `FULLER69`).
const ATOMS: [(&str, f64, f64); 9] = [
    ("C", 12.011, 15.9),
    ("H", 1.008, 2.31),
    ("O", 15.999, 6.11),
    ("N", 14.007, 4.54),
    ("F", 18.998, 14.7),
    ("Cl", 35.45, 21.0),
    ("Br", 79.904, 21.9),
    ("I", 126.904, 29.8),
    ("S", 32.06, 22.9),
];

/// Molar mass in kg/mol and diffusion volume by the formula; the record's molar mass wins.
pub(super) fn from_formula(record: &Record, place: &Place<'_>) -> Result<(f64, f64)> {
    let problem = || {
        place.fault(
            "formula",
            format!("cannot read {:?} as a formula of C, H, O, N, F, Cl, Br, I, S", record.formula),
            "write for example formula = \"C6H12O2\"",
        )
    };
    let (mut mass, mut volume) = (0.0, 0.0);
    let mut rest = record.formula.trim();
    while !rest.is_empty() {
        let (symbol, grams, size) = ATOMS
            .iter()
            .filter(|(symbol, ..)| rest.starts_with(symbol))
            .max_by_key(|(symbol, ..)| symbol.len())
            .ok_or_else(problem)?;
        rest = &rest[symbol.len()..];
        let end = rest.find(|c: char| !(c.is_ascii_digit() || c == '.')).unwrap_or(rest.len());
        let count = if end == 0 { 1.0 } else { rest[..end].parse::<f64>().map_err(|_| problem())? };
        rest = &rest[end..];
        mass += count * grams;
        volume += count * size;
    }
    if mass <= 0.0 {
        return Err(problem());
    }
    let Some(stated) = &record.molar_mass else { return Ok((mass * 1e-3, volume)) };
    let stated = stated.value.si();
    if (stated * 1e3 / mass - 1.0).abs() > 0.03 {
        let text = format!(
            "{} g/mol does not fit {}: {} g/mol",
            digits(stated * 1e3, 5),
            record.formula,
            digits(mass, 5)
        );
        return Err(place.fault("molar_mass", text, "leave it out to sum it over the formula"));
    }
    Ok((stated, volume))
}
