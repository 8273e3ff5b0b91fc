//! How many drops of each?
//!
//! The drop of the paint and the drop of the thinner differ, since a drop grows with surface tension over
//! density: the recipe counts each with its own volume. The paint's surface tension is that of its family unless
//! given; from a weighed dropper the drop is taken as weighed.

use super::mix::Mix;
use crate::dose::{DropRecipe, DropVolumes, Dropper, drop_recipes};
use crate::error::Result;
use crate::quantity::{Temperature, Volume, show};
use crate::warning::Warning;
use crate::working::Working;
use serde::{Deserialize, Deserializer, Serialize, de};

/// Recipes named at most.
const RECIPES: usize = 3;

/// The droppers: one for both liquids, or one each.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Droppers<'a> {
    /// Dropper of the paint.
    pub paint: &'a Dropper,
    /// Dropper of the thinner.
    pub thinner: &'a Dropper,
}

impl<'a> Droppers<'a> {
    /// One dropper for both, rinsed in between.
    pub const fn same(dropper: &'a Dropper) -> Self {
        Self { paint: dropper, thinner: dropper }
    }
}

/// Recipes in whole drops, best first.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MixDrops {
    /// Recipes, best first; never empty.
    #[serde(deserialize_with = "at_least_one")]
    pub recipes: Vec<DropRecipe>,
    /// Volume of one drop of each liquid.
    pub drops: DropVolumes,
    /// What to mind.
    pub warnings: Vec<Warning>,
    /// The steps.
    pub working: Working,
}

/// Recipes from a file, of which there must be one.
fn at_least_one<'de, D: Deserializer<'de>>(
    deserializer: D,
) -> core::result::Result<Vec<DropRecipe>, D::Error> {
    let recipes = Vec::deserialize(deserializer)?;
    if recipes.is_empty() {
        return Err(de::Error::invalid_length(0, &"at least 1 recipe"));
    }
    Ok(recipes)
}

impl Mix {
    /// Whole drops of paint and of thinner for this mix, near `total` when given.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for an amount below a few drops or above 2000, and errors of the liquids'
    /// properties at `t`.
    ///
    /// ```
    /// use mistcoat::blend::{Basis, Blend};
    /// use mistcoat::dose::{Dropper, Parts, Thinning};
    /// use mistcoat::paint::{Droppers, Family, Paint};
    /// use mistcoat::quantity::parse;
    /// let paint = Paint::typical(Family::SolventLacquer, "hull green")?;
    /// let thinner = Blend::from_names(&[("n-butyl acetate", 1.0)], Basis::Volume, None)?;
    /// let mix = paint.thin(&thinner, Thinning::from_parts(Parts { thinner: 2.0, paint: 1.0 })?)?;
    /// let tip = Dropper::tip(parse("3 mm")?)?;
    /// let drops = mix.drops(Some(parse("1 mL")?), Droppers::same(&tip), parse("20 °C")?)?;
    /// assert!(drops.recipes[0].thinner_drops > drops.recipes[0].paint_drops);
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn drops(&self, total: Option<Volume>, droppers: Droppers<'_>, t: Temperature) -> Result<MixDrops> {
        let paint = droppers.paint.drop_volume(
            self.paint().surface_tension().best,
            self.paint().density(t)?.best,
            Some(self.paint().viscosity(t)?.best),
        )?;
        let thinner = droppers.thinner.drop_volume(
            self.thinner().surface_tension(t)?.best(),
            self.thinner().density(t)?.best(),
            Some(self.thinner().viscosity(t)?.best()),
        )?;
        let drops = DropVolumes { paint: paint.estimate, thinner: thinner.estimate };
        let recipes = drop_recipes(self.thinning(), total, &drops, RECIPES)?;
        let mut working = Working::new(format!(
            "Drops: {} paint, {} thinner each",
            show(drops.paint.best),
            show(drops.thinner.best)
        ));
        working.append(paint.working);
        working.append(thinner.working);
        let warnings = paint.warnings.into_iter().chain(thinner.warnings).collect();
        Ok(MixDrops { recipes, drops, warnings, working })
    }
}
