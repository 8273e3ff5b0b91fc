//! Would another order of the colours save cleaner?

use super::session::Session;
use crate::error::{Error, Result};
use crate::layers::{Layer, Place, Verdict, check_stack};
use crate::quantity::{Quantity, show};

/// Cleaner saved from which it is worth a word, as a share.
const WORTH: f64 = 0.1;

/// A sentence on the order of the colours with the least cleaner, where that order is worth it and no coat objects.
pub(super) fn colours(session: &Session) -> Result<Option<String>> {
    let mut shades = Vec::new();
    for layer in session.layers.iter().filter(|l| l.place == Place::Between) {
        if let Some(shade) = layer.shade()? {
            shades.push(shade.named(&layer.name)?);
        }
    }
    if shades.len() < 2 {
        return Ok(None);
    }
    let best = match session.bench.colour_order(&shades, None) {
        Ok(best) => best,
        // Two shades of one name: nothing to say.
        Err(Error::Range(_)) => return Ok(None),
        Err(e) => return Err(e),
    };
    let (least, given) = (best.cleaner.best.si(), best.as_given.best.si());
    if least > given * (1.0 - WORTH) {
        return Ok(None);
    }
    let mut order = best.order.iter();
    let mut layers = Vec::with_capacity(session.layers.len());
    for layer in &session.layers {
        let moves = layer.place == Place::Between && shades.iter().any(|s| s.name() == layer.name.trim());
        let named = if moves { order.next() } else { None };
        let at = named.and_then(|name| session.layers.iter().find(|l| l.name.trim() == name));
        let at = at.unwrap_or(layer);
        layers.push(Layer::new(&at.name, at.paint().family()).at(at.place));
    }
    if check_stack(&layers)?.verdict == Verdict::No {
        return Ok(None);
    }
    Ok(Some(format!(
        "in the order {} the changes take {} of cleaner instead of {}, if edges and masks allow it",
        best.order.join(", "),
        show(best.cleaner.best),
        show(best.as_given.best)
    )))
}
