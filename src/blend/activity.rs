//! Which UNIFAC table serves this blend, and what the vapour above it holds.
//!
//! Rule of the automatic choice, from the measured errors of both tables: *modified (Dortmund)* for alcohols
//! with water, where its errors are 1.7 to 1.8 times smaller (Perry's ethanol/water table, published flash
//! points); *original, with the glycol-ether groups* for all else, because Dortmund makes 2-butoxyethanol
//! split from water at 25 °C, which it does only above 49 °C. The choice is recorded in
//! [`Activity::reason`].

use super::Blend;
use super::unifac::{GroupCount, Model, Scratch, Table};
use crate::error::{Result, out_of_range};
use crate::quantity::{Pressure, Quantity, Temperature, show};
use crate::solvent::{Groups, Solvent};
use crate::warning::Warning;

/// Bench temperatures for which the pure-solvent equations were fitted, in kelvin: 0 to 60 °C.
const FITTED_K: (f64, f64) = (273.15, 333.15);
/// Temperatures accepted, in kelvin: -20 to 80 °C. Between the two ranges a result carries a warning.
const ACCEPTED_K: (f64, f64) = (253.15, 353.15);

/// Activity coefficients of a list of pure solvents, with the choice of table and its reason.
///
/// This is what the drying engine builds for the species in a film (which may include water from the air).
#[derive(Debug, Clone, PartialEq)]
pub struct Activity {
    /// None where a solvent has no groups: then every species counts as ideal.
    model: Option<Model>,
    species: usize,
    reason: String,
    warnings: Vec<Warning>,
}

impl Activity {
    /// Builds the model for these pure solvents; `table` None chooses by the rule of this module.
    ///
    /// # Errors
    /// An empty list, a solvent whose groups are not in the table, or a table asked for by name for a solvent
    /// without groups.
    pub fn new<'a>(solvents: impl IntoIterator<Item = &'a Solvent>, table: Option<Table>) -> Result<Self> {
        let solvents: Vec<&Solvent> = solvents.into_iter().collect();
        if let Some(table) = table {
            let Some(groups) = groups_of(&solvents, table) else {
                let without: Vec<&str> =
                    solvents.iter().filter(|s| groups(s, table).is_none()).map(|s| s.name()).collect();
                return Err(out_of_range(
                    format!("number of {table} UNIFAC groups of {}", without.join(", ")),
                    "0",
                    "at least 1",
                    "add its groups to the solvent file, or use a catalogue solvent like it",
                ));
            };
            return Self::with_table(table, &groups, "asked for".to_owned(), &solvents);
        }
        let (Some(original), dortmund) =
            (groups_of(&solvents, Table::Original), groups_of(&solvents, Table::Dortmund))
        else {
            return Ok(Self::ideal(&solvents));
        };
        let water = solvents.iter().any(|s| super::parts::is_water(s));
        let alcohol = original.iter().any(|g| has(g, &["OH", "CH3OH"]));
        let glycol_ether = original
            .iter()
            .any(|g| has(g, &["C2H5O2", "C2H4O2"]) || (has(g, &["OH"]) && has(g, &["CH3O", "CH2O", "CHO"])));
        if let (true, true, false, Some(dortmund)) = (water, alcohol, glycol_ether, dortmund) {
            let model = Self::with_table(
                Table::Dortmund,
                &dortmund,
                "alcohol with water, no glycol ether".to_owned(),
                &solvents,
            )?;
            if model.warnings.is_empty() {
                return Ok(model);
            }
        }
        let reason = match (water, glycol_ether) {
            (true, true) => "glycol ether with water",
            (false, _) => "no water",
            (true, false) => "no alcohol with the water",
        };
        Self::with_table(Table::Original, &original, reason.to_owned(), &solvents)
    }

    fn with_table(table: Table, groups: &[Groups], reason: String, solvents: &[&Solvent]) -> Result<Self> {
        let counts: Vec<Vec<GroupCount<'_>>> =
            groups.iter().map(|g| g.iter().map(|(n, c)| (n.as_str(), f64::from(*c))).collect()).collect();
        let rows: Vec<&[GroupCount<'_>]> = counts.iter().map(Vec::as_slice).collect();
        let model = Model::new(table, &rows)?;
        let warnings = missing_pairs(&model);
        Ok(Self { model: Some(model), species: solvents.len(), reason, warnings })
    }

    fn ideal(solvents: &[&Solvent]) -> Self {
        let without: Vec<&str> =
            solvents.iter().filter(|s| groups(s, Table::Original).is_none()).map(|s| s.name()).collect();
        // A liquid alone is ideal whatever it is made of.
        let warnings = if solvents.len() < 2 {
            Vec::new()
        } else {
            vec![Warning::new(
                "activity-ideal",
                format!(
                    "no UNIFAC groups known for {}: all activity coefficients count as 1, and a split into two \
                     liquids cannot be seen; add the groups to the solvent file",
                    without.join(", ")
                ),
            )]
        };
        Self { model: None, species: solvents.len(), reason: "no groups known".to_owned(), warnings }
    }

    /// The table in use; None when every species counts as ideal.
    pub fn table(&self) -> Option<Table> {
        self.model.as_ref().map(Model::table)
    }

    /// Why this table.
    pub fn reason(&self) -> &str {
        &self.reason
    }

    /// Number of species.
    pub fn len(&self) -> usize {
        self.species
    }

    /// Whether there are no species; never true.
    pub fn is_empty(&self) -> bool {
        self.species == 0
    }

    /// Missing interaction parameters (`unifac-missing-pair`), or missing groups (`activity-ideal`).
    pub fn warnings(&self) -> &[Warning] {
        &self.warnings
    }

    /// Working space for [`Self::ln_gamma`]; None when every species counts as ideal.
    pub fn scratch(&self) -> Option<Scratch> {
        self.model.as_ref().map(Model::scratch)
    }

    /// Natural logarithms of the activity coefficients; see [`Model::ln_gamma`].
    pub fn ln_gamma(&self, temperature_k: f64, x: &[f64], scratch: &mut Option<Scratch>, out: &mut [f64]) {
        match (&self.model, scratch) {
            (Some(model), Some(scratch)) => model.ln_gamma(temperature_k, x, scratch, out),
            _ => out.fill(0.0),
        }
    }

    /// Slopes of [`Self::ln_gamma`] by the amounts, for its latest call with this `scratch`; zero when ideal.
    pub(crate) fn slopes(&self, scratch: &mut Option<Scratch>, out: &mut [f64]) {
        match (&self.model, scratch) {
            (Some(model), Some(scratch)) => model.slopes(scratch, out),
            _ => out.fill(0.0),
        }
    }

    /// Activity coefficients in a new list; for use outside loops.
    pub(super) fn gamma(&self, temperature_k: f64, x: &[f64]) -> Vec<f64> {
        let mut out = vec![0.0; x.len()];
        self.ln_gamma(temperature_k, x, &mut self.scratch(), &mut out);
        out.iter().map(|g| g.exp()).collect()
    }
}

fn groups(solvent: &Solvent, table: Table) -> Option<Groups> {
    match table {
        Table::Original => solvent.unifac_original(),
        Table::Dortmund => solvent.unifac_dortmund(),
    }
}

fn groups_of(solvents: &[&Solvent], table: Table) -> Option<Vec<Groups>> {
    solvents.iter().map(|s| groups(s, table)).collect()
}

fn has(groups: &Groups, any: &[&str]) -> bool {
    groups.iter().any(|(name, _)| any.contains(&name.as_str()))
}

fn missing_pairs(model: &Model) -> Vec<Warning> {
    if model.missing_pairs().is_empty() {
        return Vec::new();
    }
    let pairs: Vec<String> = model.missing_pairs().iter().map(|(i, j)| format!("{i} with {j}")).collect();
    vec![Warning::new(
        "unifac-missing-pair",
        format!(
            "the {} UNIFAC table has no parameter for {}: these groups count as indifferent to each other, which \
             may shift vapour pressures by some ten percent",
            model.table(),
            pairs.join(", ")
        ),
    )]
}

/// Vapour above a blend: what each species contributes.
#[derive(Debug, Clone, PartialEq)]
pub struct Vapour {
    /// Species in the order of [`Blend::species`] with its partial pressure.
    pub partial: Vec<(String, Pressure)>,
    /// Sum of the partial pressures.
    pub total: Pressure,
    /// Usable, but mind this.
    pub warnings: Vec<Warning>,
}

impl Blend {
    /// The activity model of [`Blend::species`] with the table chosen automatically.
    pub fn activity(&self) -> &Activity {
        &self.activity
    }

    /// Activity coefficient of every species, in order, by name.
    ///
    /// `model` None uses the automatic choice. A species that is pushed out has more than 1.
    ///
    /// ```
    /// use mistcoat::blend::{Basis, Blend};
    /// use mistcoat::quantity::parse;
    /// let b = Blend::from_names(&[("ethanol", 10.0), ("water", 90.0)], Basis::Mass, None)?;
    /// let gamma = b.activity_coefficients(parse("25 °C")?, None)?;
    /// assert_eq!(gamma[0].0, "ethanol");
    /// assert!(gamma[0].1 > 3.0 && gamma[1].1 < 1.05);
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    ///
    /// # Errors
    /// A temperature outside -20 to 80 °C; a table that lacks the groups of a species.
    pub fn activity_coefficients(
        &self,
        temperature: Temperature,
        model: Option<Table>,
    ) -> Result<Vec<(String, f64)>> {
        let (t_k, _) = bench_temperature(temperature)?;
        let x = self.mole_fractions();
        let gamma = match model {
            None => self.activity.gamma(t_k, &x),
            Some(_) => Activity::new(self.species.iter().map(|s| &s.solvent), model)?.gamma(t_k, &x),
        };
        Ok(self.species.iter().map(|s| s.solvent.name().to_owned()).zip(gamma).collect())
    }

    /// Partial pressure of every species above the blend, `p_i = γ_i x_i P_i`, and their sum.
    ///
    /// Spread: that of the vapour pressures (see the solvents) and of the activity model, together 5 to 10 %
    /// for organic blends, 10 to 20 % with water. Neglected: the gas is taken as ideal, which costs less
    /// than 1 % at these pressures.
    ///
    /// # Errors
    /// A [`crate::error::PhaseSplit`] for a blend that separates, since its γ would be those of a liquid that does
    /// not exist; a temperature outside -20 to 80 °C.
    pub fn partial_pressures(&self, temperature: Temperature) -> Result<Vapour> {
        let (t_k, warning) = bench_temperature(temperature)?;
        self.require_one_liquid(temperature)?;
        let pascal = self.partial_pressures_pa(t_k);
        let mut warnings: Vec<Warning> = warning.into_iter().collect();
        warnings.extend(self.activity.warnings().iter().cloned());
        Ok(Vapour {
            total: Pressure::from_si(pascal.iter().sum()),
            partial: self
                .species
                .iter()
                .zip(&pascal)
                .map(|(s, p)| (s.solvent.name().to_owned(), Pressure::from_si(*p)))
                .collect(),
            warnings,
        })
    }

    pub(super) fn partial_pressures_pa(&self, t_k: f64) -> Vec<f64> {
        let x = self.mole_fractions();
        let gamma = self.activity.gamma(t_k, &x);
        self.species
            .iter()
            .zip(gamma.iter().zip(&x))
            .map(|(s, (g, x))| g * x * s.solvent.kernel().vapour_pressure_pa(t_k))
            .collect()
    }

    /// Vapour pressure of the whole blend: the sum of [`Blend::partial_pressures`].
    ///
    /// # Errors
    /// Those of [`Blend::partial_pressures`].
    pub fn vapour_pressure(&self, temperature: Temperature) -> Result<Pressure> {
        Ok(self.partial_pressures(temperature)?.total)
    }
}

/// The number in kelvin, with a warning outside the fitted range.
pub(super) fn bench_temperature(t: Temperature) -> Result<(f64, Option<Warning>)> {
    let t_k = t.si();
    let range = |(low, high): (f64, f64)| {
        format!("{} to {}", show(Temperature::from_si(low)), show(Temperature::from_si(high)))
    };
    if !(ACCEPTED_K.0..=ACCEPTED_K.1).contains(&t_k) {
        return Err(out_of_range(
            "temperature of the blend",
            show(t),
            range(ACCEPTED_K),
            "give the temperature of the liquid at the bench, for example \"21 °C\"",
        ));
    }
    let warning = (!(FITTED_K.0..=FITTED_K.1).contains(&t_k)).then(|| {
        Warning::new(
            "temperature-beyond-fit",
            format!(
                "{} lies outside the {} for which the solvent equations were fitted; values there are extrapolated",
                show(t),
                range(FITTED_K)
            ),
        )
    });
    Ok((t_k, warning))
}
