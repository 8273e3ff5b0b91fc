//! What a blend is made of: ingredients as they are poured, species as they evaporate.

use super::Blend;
use super::activity::Activity;
use crate::error::{Result, out_of_range, unknown_name};
use crate::solvent::Solvent;
use serde::{Deserialize, Serialize};

/// Temperature at which volumes are measured, in kelvin: 20 °C, that of the catalogue's densities.
pub(super) const VOLUME_TEMPERATURE_K: f64 = 293.15;

/// What the amounts of a recipe count.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Basis {
    /// Grams, or percent by weight.
    Mass,
    /// Millilitres or parts by volume, measured at 20 °C before mixing.
    Volume,
    /// Moles.
    Mole,
}

impl Basis {
    /// Name as written in files and in Python: `mass`, `volume` or `mole`.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Mass => "mass",
            Self::Volume => "volume",
            Self::Mole => "mole",
        }
    }
}

impl core::str::FromStr for Basis {
    type Err = crate::error::Error;

    fn from_str(text: &str) -> Result<Self> {
        match crate::names::fold(text).as_str() {
            "mass" | "weight" => Ok(Self::Mass),
            "volume" => Ok(Self::Volume),
            "mole" | "moles" | "molar" => Ok(Self::Mole),
            _ => Err(unknown_name(
                "basis",
                text,
                ["mass", "volume", "mole"],
                "write \"mass\", \"volume\" or \"mole\"",
            )),
        }
    }
}

impl core::fmt::Display for Basis {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(self.name())
    }
}

/// One liquid as it is poured, with its share of the blend on each basis.
#[derive(Debug, Clone, PartialEq)]
pub struct Ingredient {
    /// The liquid; may be a petroleum cut.
    pub solvent: Solvent,
    /// Share of the mass, 0 to 1.
    pub mass_fraction: f64,
    /// Share of the volumes before mixing at 20 °C, 0 to 1.
    pub volume_fraction: f64,
    /// Share of the moles, 0 to 1; a cut counts with its mean molar mass.
    pub mole_fraction: f64,
}

/// One pure species, as it acts in the liquid and in the vapour.
#[derive(Debug, Clone, PartialEq)]
pub struct Species {
    /// The pure solvent.
    pub solvent: Solvent,
    /// Share of the moles of all species, 0 to 1.
    pub mole_fraction: f64,
    /// Place in [`Blend::ingredients`] of the ingredient that brings most of it.
    pub ingredient: usize,
}

impl Blend {
    /// Builds a blend from solvents and their amounts on one basis.
    ///
    /// Only proportions count: 1 to 1 is 50 to 50. A solvent named twice counts once, with the amounts added;
    /// an amount of zero is left out.
    ///
    /// # Errors
    /// No part, an amount that is negative, NaN or infinite, or all amounts zero.
    pub fn new(parts: Vec<(Solvent, f64)>, basis: Basis, name: Option<&str>) -> Result<Self> {
        let mut merged: Vec<(Solvent, f64)> = Vec::with_capacity(parts.len());
        for (solvent, amount) in parts {
            if !(amount.is_finite() && amount >= 0.0) {
                return Err(out_of_range(
                    format!("{} of {}", basis.name(), solvent.name()),
                    amount.to_string(),
                    "0 or more, and finite",
                    "give each solvent its share of the recipe, for example 50",
                ));
            }
            match merged.iter_mut().find(|(s, _)| s.id() == solvent.id()) {
                Some((_, sum)) => *sum += amount,
                None => merged.push((solvent, amount)),
            }
        }
        merged.retain(|(_, amount)| *amount > 0.0);
        // A sum beyond the largest number would turn every share into zero.
        let total = merged.iter().fold(0.0, |sum, (_, amount)| sum + amount);
        if merged.is_empty() || !total.is_finite() {
            return Err(out_of_range(
                "total amount of the blend",
                total.to_string(),
                "more than 0, and finite",
                "name at least one solvent with its share, for example acetone 50",
            ));
        }
        let ingredients = ingredients(&merged, basis);
        let species = species(&ingredients);
        let activity = Activity::new(species.iter().map(|s| &s.solvent), None)?;
        Ok(Self { name: name.map(str::to_owned), basis, parts: merged, ingredients, species, activity })
    }

    /// Builds a blend from names of the built-in catalogue.
    ///
    /// ```
    /// use mistcoat::blend::{Basis, Blend};
    /// let thinner = Blend::from_names(
    ///     &[("acetone", 50.0), ("n-butyl acetate", 35.0), ("2-butoxyethanol", 15.0)],
    ///     Basis::Mass,
    ///     Some("house thinner"),
    /// )?;
    /// assert_eq!(thinner.ingredients().len(), 3);
    /// assert!((thinner.ingredients()[0].mole_fraction - 0.668).abs() < 1e-3);
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    ///
    /// # Errors
    /// An unknown name, and as for [`Blend::new`].
    pub fn from_names(parts: &[(&str, f64)], basis: Basis, name: Option<&str>) -> Result<Self> {
        let parts = parts
            .iter()
            .map(|&(solvent, amount)| Ok((crate::solvent::find(solvent)?, amount)))
            .collect::<Result<Vec<_>>>()?;
        Self::new(parts, basis, name)
    }

    /// A blend of one solvent.
    ///
    /// # Errors
    /// Those of [`Blend::new`].
    pub fn pure(solvent: Solvent) -> Result<Self> {
        Self::new(vec![(solvent, 1.0)], Basis::Mass, None)
    }

    /// This blend together with another, by volume: paint carrier and thinner in the cup.
    ///
    /// `own` and `others` are the volumes of each that are poured together, at 20 °C, in one unit.
    ///
    /// # Errors
    /// A volume that is negative, NaN or infinite, or both zero.
    pub fn mixed_with(&self, own: f64, other: &Self, others: f64, name: Option<&str>) -> Result<Self> {
        for (volume, whose) in [(own, self), (others, other)] {
            if !(volume.is_finite() && volume >= 0.0) {
                return Err(out_of_range(
                    format!("volume of {}", whose.label()),
                    volume.to_string(),
                    "0 or more, and finite",
                    "give the volume that is poured, for example 2 parts",
                ));
            }
        }
        let part = |blend: &Self, volume: f64| -> Vec<(Solvent, f64)> {
            blend.ingredients.iter().map(|i| (i.solvent.clone(), i.volume_fraction * volume)).collect()
        };
        let mut parts = part(self, own);
        parts.extend(part(other, others));
        Self::new(parts, Basis::Volume, name)
    }

    /// The name, if it has one.
    pub fn name(&self) -> Option<&str> {
        self.name.as_deref()
    }

    /// The same blend under another name.
    #[must_use]
    pub fn named(mut self, name: &str) -> Self {
        self.name = Some(name.to_owned());
        self
    }

    /// The name, or else the recipe: `acetone 50 %, toluene 50 % by mass`, `white spirit`.
    pub fn label(&self) -> String {
        self.name.clone().unwrap_or_else(|| {
            if let [alone] = self.ingredients.as_slice() {
                return alone.solvent.name().to_owned();
            }
            let parts: Vec<String> = self
                .ingredients
                .iter()
                .map(|i| {
                    let percent = crate::quantity::digits(i.mass_fraction * 100.0, 3);
                    format!("{} {percent} %", i.solvent.name())
                })
                .collect();
            format!("{} by mass", parts.join(", "))
        })
    }

    /// The basis of the recipe.
    pub fn basis(&self) -> Basis {
        self.basis
    }

    /// The recipe: solvents with their amounts on [`Blend::basis`], each once, zeros left out.
    pub fn parts(&self) -> &[(Solvent, f64)] {
        &self.parts
    }

    /// The liquids as they are poured; petroleum cuts stand as they are.
    pub fn ingredients(&self) -> &[Ingredient] {
        &self.ingredients
    }

    /// The pure species, with petroleum cuts replaced by their surrogate composition. Activities, vapour
    /// pressures and drying are worked out with these.
    pub fn species(&self) -> &[Species] {
        &self.species
    }

    /// Mole fractions of [`Blend::species`], in order.
    pub fn mole_fractions(&self) -> Vec<f64> {
        self.species.iter().map(|s| s.mole_fraction).collect()
    }

    /// Whether water is one of the species, and how much of the volume before mixing it takes.
    pub(crate) fn water_volume_fraction(&self) -> f64 {
        self.ingredients.iter().filter(|i| is_water(&i.solvent)).map(|i| i.volume_fraction).sum()
    }
}

/// Water is told from all others by its own group.
pub(super) fn is_water(solvent: &Solvent) -> bool {
    solvent.id() == "water"
}

fn ingredients(parts: &[(Solvent, f64)], basis: Basis) -> Vec<Ingredient> {
    let amounts: f64 = parts.iter().map(|(_, amount)| amount).sum();
    let masses: Vec<f64> = parts
        .iter()
        .map(|(solvent, amount)| {
            let k = solvent.kernel();
            // Shares first: an amount near the largest or smallest number must not overflow on the way.
            amount / amounts
                * match basis {
                    Basis::Mass => 1.0,
                    Basis::Volume => k.density_kg_m3(VOLUME_TEMPERATURE_K),
                    Basis::Mole => k.molar_mass_kg_mol,
                }
        })
        .collect();
    let share = |weigh: &dyn Fn(&Solvent, f64) -> f64| -> Vec<f64> {
        let amounts: Vec<f64> = parts.iter().zip(&masses).map(|((s, _), m)| weigh(s, *m)).collect();
        let total: f64 = amounts.iter().sum();
        amounts.iter().map(|a| a / total).collect()
    };
    let mass = share(&|_, m| m);
    let volume = share(&|s, m| m / s.kernel().density_kg_m3(VOLUME_TEMPERATURE_K));
    let mole = share(&|s, m| m / s.kernel().molar_mass_kg_mol);
    parts
        .iter()
        .enumerate()
        .map(|(i, (solvent, _))| Ingredient {
            solvent: solvent.clone(),
            mass_fraction: mass[i],
            volume_fraction: volume[i],
            mole_fraction: mole[i],
        })
        .collect()
}

/// Cuts taken apart by mass, so that the mass of the blend is kept whatever mean molar mass the cut has.
fn species(ingredients: &[Ingredient]) -> Vec<Species> {
    let mut out: Vec<(Species, f64)> = Vec::with_capacity(ingredients.len());
    let mut add = |solvent: &Solvent, moles: f64, ingredient: usize| match out
        .iter_mut()
        .find(|(s, _)| s.solvent.id() == solvent.id())
    {
        Some((s, largest)) => {
            s.mole_fraction += moles;
            if moles > *largest {
                *largest = moles;
                s.ingredient = ingredient;
            }
        }
        None => out.push((Species { solvent: solvent.clone(), mole_fraction: moles, ingredient }, moles)),
    };
    for (n, i) in ingredients.iter().enumerate() {
        let surrogate = i.solvent.surrogate();
        if surrogate.is_empty() {
            add(&i.solvent, i.mass_fraction / i.solvent.kernel().molar_mass_kg_mol, n);
        } else {
            let mean: f64 = surrogate.iter().map(|(s, x)| x * s.kernel().molar_mass_kg_mol).sum();
            for (solvent, x) in surrogate {
                add(solvent, i.mass_fraction / mean * x, n);
            }
        }
    }
    let total: f64 = out.iter().map(|(s, _)| s.mole_fraction).sum();
    out.into_iter().map(|(s, _)| Species { mole_fraction: s.mole_fraction / total, ..s }).collect()
}
