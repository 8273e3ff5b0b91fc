//! What everybody at the bench must know before opening the bottle.

use crate::bench::comparison::Row;
use crate::error::{Error, Result};
use crate::paint::Family;
use crate::quantity::{Quantity, Temperature, show};

/// Below this a liquid gives a flammable vapour in a warm room (23 °C, the limit of the older flash point classes).
const FLAMMABLE_BELOW_K: f64 = 296.15;

/// What everybody at the bench must know before opening the bottle. The thinner is not the whole of it: an
/// alcohol paint thinned with water burns too, so the paint and the liquids of every mix count.
pub(super) fn cautions(rows: &[Row]) -> Result<Vec<String>> {
    let mut flash: Option<(Temperature, &str)> = None;
    let mut unknown = false;
    let mut liquids = Vec::with_capacity(rows.len() + 2);
    if let Some(row) = rows.first() {
        liquids.push(("the thinner", row.mix.thinner().clone()));
        liquids.push(("the paint", row.mix.paint().carrier().clone()));
    }
    for row in rows {
        liquids.push(("the thinned paint", row.mix.volatile()?));
    }
    for (what, liquid) in &liquids {
        match liquid.flash_point() {
            Ok(Some(f)) if flash.is_none_or(|(lowest, _)| f.best() < lowest) => {
                flash = Some((f.best(), what));
            }
            Ok(_) => {}
            Err(Error::Range(_)) => unknown = true,
            Err(e) => return Err(e),
        }
    }
    let mut out = Vec::new();
    if unknown {
        out.push(
            "Fire: the flash point of a solvent in it is not known; treat it as flammable. No flame, spark or heater; \
             rags and waste in a closed metal can."
                .to_owned(),
        );
    } else if let Some((t, what)) = flash {
        let (near, mist) = if t < Temperature::from_si(FLAMMABLE_BELOW_K) {
            ("flammable at room temperature", "")
        } else {
            ("combustible", "; its mist burns below that")
        };
        out.push(format!(
            "Fire: {what} is {near} (flash point about {}, computed{mist}). No flame, spark or heater; rags and waste \
             in a closed metal can.",
            show(t)
        ));
    }
    // Common practice of fire safety: drying oils take up oxygen and warm a heap of cloth until it burns.
    if rows.iter().any(|row| matches!(row.mix.paint().family(), Family::AlkydEnamel | Family::ArtistsOil)) {
        out.push(
            "Rags: cloth with alkyd or oil paint on it heats by itself and can catch fire hours later. Spread it out \
             to dry outdoors, or keep it wet with water in a closed metal can."
                .to_owned(),
        );
    }
    out.push(
        "Air: solvent vapour and spray mist harm lungs and nerves, and odour is no warning. Ventilate to the \
         outside, wear a fitted mask with cartridges for organic vapour and particles, gloves that stand the solvent."
            .to_owned(),
    );
    out.push(
        "The safety data sheets of the paint and the thinner, local codes and licensed practice decide; these \
         figures do not replace them."
            .to_owned(),
    );
    Ok(out)
}
