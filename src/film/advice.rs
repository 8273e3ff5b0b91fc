//! What to mind about a coat: dew, warmth that softens the part, solvent in warm air, a film below that is hard.

use super::coat::Film;
use super::course::{Seen, is_water};
use super::engine::BLOCK_FREE_K;
use crate::quantity::{Quantity, Ratio, Temperature, show};
use crate::warning::Warning;

/// A surface should stay this far above the dew point, K (source key `ISO8502_4`).
const DEW_MARGIN_K: f64 = 3.0;
/// Air that no room has by itself, K: 40 °C. From here on it is a cabinet, with its dangers.
const CABINET_K: f64 = 313.15;

/// Dew on the film, or too near to it, in the air where it comes nearest. Humid air over a waterborne coat is slow,
/// not blush.
pub(super) fn dew_warning(film: &Film, airs: &[Seen]) -> Option<Warning> {
    if film.is_waterborne() {
        return None;
    }
    let margins = airs.iter().filter_map(|seen| {
        let dew = seen.room.dew_point().ok()?;
        Some((seen, dew, seen.coldest_k - dew.si()))
    });
    let (seen, dew, margin) = margins.min_by(|a, b| a.2.total_cmp(&b.2))?;
    let coldest = Temperature::from_si(seen.coldest_k);
    let humidity = seen.room.relative_humidity();
    let cures = "dry or warm the room, slow the thinner, or lay thinner coats";
    if margin < 0.0 {
        Some(Warning::new(
            "blush-dew",
            format!(
                "the film cools to {}, below the dew point {} of this room ({humidity}): water condenses into it and it may \
                 turn white (blush); {cures}",
                show(coldest),
                show(dew)
            ),
        ))
    } else if margin < DEW_MARGIN_K {
        Some(Warning::new(
            "blush-near",
            format!(
                "the film cools to {}, less than 3 K above the dew point {} of this room ({humidity}), the margin painters keep; \
                 {cures}",
                show(coldest),
                show(dew)
            ),
        ))
    } else {
        None
    }
}

/// A coat, counted from 1, that landed when the film below was block-free, or its particles packed.
pub(super) fn coat_on_hard_film(coat: usize) -> Warning {
    Warning::new(
        "coat-on-hard-film",
        format!(
            "the film below was already hard (block-free, or its particles packed) when coat {coat} landed: it takes up solvent more \
             slowly than reckoned here, and a strong solvent may lift it; shorten the wait, or dry the new coat as one by itself"
        ),
    )
}

/// A film that gets block-free in one air and is soft in another, though nothing is left in it.
pub(super) fn soft_when_warm(film: &Film, airs: &[Seen]) -> Option<Warning> {
    let glass = film.binder()?.glass_transition().best;
    let warmest = airs.iter().map(|a| a.room.temperature()).max_by(|a, b| a.si().total_cmp(&b.si()))?;
    (warmest.si() - glass.si() > BLOCK_FREE_K).then(|| {
        Warning::new(
            "soft-when-warm",
            format!(
                "in air of {} this binder (glass transition {}) is soft, however dry: block-free holds in the cooler air; let \
                 the part cool before it is handled, masked or stacked",
                show(warmest),
                show(glass)
            ),
        )
    })
}

/// Warm air: what it does to the part, and the vapour of what is still wet.
pub(super) fn warm_warnings(film: &Film, airs: &[Seen]) -> Vec<Warning> {
    let mut out = Vec::new();
    let Some(warmest) =
        airs.iter().max_by(|a, b| a.room.temperature().si().total_cmp(&b.room.temperature().si()))
    else {
        return out;
    };
    let temperature = warmest.room.temperature();
    // A substrate that is not in the table was refused when the coat was dried.
    if let Ok(Some(limit)) = film.substrate().warm_limit()
        && temperature.si() > limit.temperature.si()
    {
        out.push(Warning::new(
                "warm-substrate",
                format!(
                    "air of {} is warmer than the {} that common practice allows {}: {}; dry it cooler and longer",
                    show(temperature),
                    show(limit.temperature),
                    film.substrate(),
                    limit.why
                ),
            ));
    }
    let organic =
        film.all_coats().any(|coat| coat.volatile().ingredients().iter().any(|i| !is_water(&i.solvent)));
    let wettest =
        airs.iter().filter(|a| a.room.temperature().si() > CABINET_K).map(|a| a.left).reduce(f64::max);
    if let (Some(left), true) = (wettest, organic) {
        out.push(Warning::new(
            "warm-solvent",
            format!(
                "the part goes into warm air with {} of its solvent still in the film: solvent vapour and air can explode. \
                 Never put a solvent-wet part into a closed, unventilated or sparking oven, nor into one used for food; \
                 flash it off first in moving air, carry the vapour outside, keep bare heaters, contacts and flames away. \
                 The safety data sheet, local codes and licensed practice decide",
                show(Ratio::from_si((1e3 * left).round() / 1e3))
            ),
        ));
    }
    out
}
