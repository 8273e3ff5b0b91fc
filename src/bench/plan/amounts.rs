//! What goes into one cup: how much the layer takes, with margin and remainder, in drops and by volume.

use super::layer::PlanLayer;
use super::session::Session;
use crate::error::{Error, Result};
use crate::estimate::Estimate;
use crate::hiding;
use crate::paint::{Droppers, Mix, MixDrops};
use crate::quantity::{Length, Quantity, Ratio, Volume, as_text, digits, show};
use crate::warning::Warning;
use crate::working::Working;
use serde::{Deserialize, Serialize};

/// More drops than this are quicker measured with a syringe.
const PATIENT_DROPS: u32 = 100;

/// The mix of one layer for one person.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MixAmounts {
    /// Mix that goes through the gun for one part, with its interval: transfer efficiency and solids spread it.
    pub sprayed: Estimate<Volume>,
    /// What the gun keeps after it is poured out.
    pub remainder: Estimate<Volume>,
    /// Share added to what is sprayed.
    #[serde(with = "as_text")]
    pub margin: Ratio,
    /// Mix to make: best value sprayed, the margin on it, and the remainder.
    #[serde(with = "as_text")]
    pub wanted: Volume,
    /// Stock paint that is measured out; whole drops where drops are counted.
    #[serde(with = "as_text")]
    pub paint: Volume,
    /// Thinner that is measured out; whole drops where drops are counted.
    #[serde(with = "as_text")]
    pub thinner: Volume,
    /// The counts, best recipe first; None for an amount that drops do not measure.
    pub drops: Option<MixDrops>,
    /// The steps.
    pub working: Working,
}

impl MixAmounts {
    /// Paint and thinner together.
    pub fn made(&self) -> Volume {
        self.paint + self.thinner
    }

    /// "38 drops paint, 52 drops thinner", where there are few enough to count.
    pub fn in_drops(&self) -> Option<String> {
        let recipe = self.drops.as_ref()?.recipes.first()?;
        if recipe.paint_drops.max(recipe.thinner_drops) > PATIENT_DROPS {
            return None;
        }
        Some(format!("{} drops paint, {} drops thinner", recipe.paint_drops, recipe.thinner_drops))
    }
}

/// Amounts for one person and one part.
pub(super) fn of(
    session: &Session,
    layer: &PlanLayer,
    mix: &Mix,
    dry_film: Length,
) -> Result<(MixAmounts, Vec<Warning>)> {
    let efficiency = layer.setup.gun.transfer_efficiency();
    let missed = |share: Ratio| Ratio::from_si(1.0 - share.si());
    let job = hiding::Job {
        area: layer.area,
        dry: Estimate::exact(dry_film),
        volume_solids: layer.paint().volume_solids().clone(),
        thinning: mix.thinning(),
        loss: Estimate {
            best: missed(efficiency.best),
            low: missed(efficiency.high),
            high: missed(efficiency.low),
            coverage: efficiency.coverage,
            contributors: efficiency.contributors,
        },
    };
    let amounts = job.amounts()?;
    let remainder = session.bench.hold_up.clone();
    let wanted = Volume::from_si(amounts.mix.best.si() * (1.0 + session.margin.si()) + remainder.best.si());
    let fraction = mix.paint_fraction().get();
    let (mut paint, mut thinner) = (wanted * fraction, wanted * (1.0 - fraction));
    let droppers = Droppers { paint: &session.paint_dropper, thinner: &session.thinner_dropper };
    let mut warnings = Vec::new();
    let drops = match mix.drops(Some(wanted), droppers, layer.setup.room.temperature()) {
        Ok(drops) => Some(drops),
        Err(Error::Range(e)) => {
            warnings.push(Warning::new(
                "drops-not-counted",
                format!("{}: {} is measured by volume, not in drops: {}", layer.name, show(wanted), e.remedy),
            ));
            None
        }
        Err(e) => return Err(e),
    };
    if let Some(recipe) = drops.as_ref().and_then(|d| d.recipes.first().map(|r| (r, &d.drops))) {
        let (recipe, each) = recipe;
        paint = each.paint.best * f64::from(recipe.paint_drops);
        thinner = each.thinner.best * f64::from(recipe.thinner_drops);
        if recipe.paint_drops.max(recipe.thinner_drops) > PATIENT_DROPS {
            warnings.push(Warning::new(
                "many-drops",
                format!(
                    "{}: {} and {} drops are many to count; a syringe measures {} and {} quicker",
                    layer.name,
                    recipe.paint_drops,
                    recipe.thinner_drops,
                    show(paint),
                    show(thinner)
                ),
            ));
        }
    }
    warnings.extend(drops.iter().flat_map(|d| d.warnings.iter().cloned()));
    let mut working = amounts.paint.working;
    working.push(
        crate::working::Step::new(
            "mix to make",
            "V = V_sprayed (1 + margin) + V_gun",
            r"V = V_s (1 + m) + h",
        )
        .numbers(format!(
            "{} × {} + {}",
            show(amounts.mix.best),
            digits(1.0 + session.margin.si(), 3),
            show(remainder.best)
        ))
        .result(show(wanted))
        .source("bench-times"),
    );
    Ok((
        MixAmounts {
            sprayed: amounts.mix,
            remainder,
            margin: session.margin,
            wanted,
            paint,
            thinner,
            drops,
            working,
        },
        warnings,
    ))
}
