//! Warnings of all layers, each said once.

use super::planned::PlannedLayer;
use crate::warning::Warning;

/// One warning a code: the first layer that has it speaks, the others are named.
pub(super) fn gathered(layers: &[PlannedLayer], of_the_plan: Vec<Warning>) -> Vec<Warning> {
    let mut out: Vec<(Warning, Vec<&str>)> = Vec::new();
    for layer in layers {
        for warning in &layer.warnings {
            match out.iter_mut().find(|(w, _)| w.code == warning.code) {
                Some((first, also)) => {
                    if *first != *warning && !also.contains(&layer.name.as_str()) {
                        also.push(&layer.name);
                    }
                }
                None => out.push((warning.clone(), Vec::new())),
            }
        }
    }
    let told = out.into_iter().map(|(w, also)| match also.as_slice() {
        [] => w,
        names => Warning { message: format!("{} (likewise {})", w.message, names.join(", ")), ..w },
    });
    let mut all: Vec<Warning> = told.collect();
    for warning in of_the_plan {
        if !all.contains(&warning) {
            all.push(warning);
        }
    }
    all
}
