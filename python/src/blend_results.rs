//! What a `Blend` answers with tables: its liquids, and how it dries.

use crate::dict::Ordered;
use crate::errors::CallResult;
use crate::estimate::PyEstimate;
use crate::table::PyTable;
use mistcoat::blend::{DryingTable, Phases};
use mistcoat::quantity::{Quantity, digits};
use mistcoat::table::{Cell, Column, Table};
use pyo3::prelude::*;

/// How many liquids a blend is, and what each holds.
#[pyclass(frozen, eq, name = "Phases", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyPhases {
    pub phases: Phases,
    pub species: Vec<String>,
}

#[pymethods]
impl PyPhases {
    /// Whether it is one liquid.
    #[getter]
    fn is_one(&self) -> bool {
        self.phases.is_one()
    }
    /// Ingredient that gathers in each liquid, the larger liquid first.
    #[getter]
    fn rich_in(&self) -> Vec<String> {
        self.phases.liquids.iter().map(|l| l.rich_in.clone()).collect()
    }
    /// Share of each liquid of the mass of the blend, 0 to 1.
    #[getter]
    fn shares_of_mass(&self) -> Vec<f64> {
        self.phases.liquids.iter().map(|l| l.share_of_mass).collect()
    }
    /// Mass fraction of every species in each liquid.
    #[getter]
    fn mass_fractions(&self) -> Vec<Ordered<f64>> {
        let of = |x: &Vec<f64>| Ordered::zip(&self.species, x.iter().copied());
        self.phases.liquids.iter().map(|l| of(&l.mass_fractions)).collect()
    }
    /// Mole fraction of every species in each liquid.
    #[getter]
    fn mole_fractions(&self) -> Vec<Ordered<f64>> {
        let of = |x: &Vec<f64>| Ordered::zip(&self.species, x.iter().copied());
        self.phases.liquids.iter().map(|l| of(&l.mole_fractions)).collect()
    }
    /// What decided: measured miscibility, or the tangent-plane criterion with UNIFAC.
    #[getter]
    fn source(&self) -> String {
        mistcoat::source::cite(&self.phases.source)
    }
    /// What to mind; empty when there is nothing.
    #[getter]
    fn warnings(&self) -> Vec<String> {
        self.phases.warnings.iter().map(|w| w.message.clone()).collect()
    }
    fn __len__(&self) -> usize {
        self.phases.liquids.len()
    }
    fn __str__(&self) -> String {
        if self.phases.is_one() {
            return "one liquid".to_owned();
        }
        let liquids = self.phases.liquids.iter();
        let parts: Vec<String> = liquids
            .map(|l| format!("{} % rich in {}", digits(l.share_of_mass * 100.0, 3), l.rich_in))
            .collect();
        format!("two liquids: {}", parts.join(", "))
    }
    fn __repr__(&self) -> String {
        format!("<Phases: {}>", self.__str__())
    }
    #[staticmethod]
    fn _from_json(text: &str) -> CallResult<Self> {
        let (phases, species) = crate::json::load(text)?;
        Ok(Self { phases, species })
    }
    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> CallResult<(Bound<'py, PyAny>, (String,))> {
        let p = slf.get();
        crate::json::reduce(slf, "_from_json", &(&p.phases, &p.species))
    }
}

/// A blend as it dries on the evaporation scale: dry air, 25 °C, n-butyl acetate = 1.
#[pyclass(frozen, eq, name = "DryingTable", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyDryingTable(pub DryingTable);

impl PyDryingTable {
    fn as_table(&self) -> Table {
        let rows = &self.0.rows;
        let column = |key: &str, title: &str, unit: &str, cells: Vec<Cell>| Column {
            key: key.to_owned(),
            title: title.to_owned(),
            unit: unit.to_owned(),
            cells,
        };
        let number = |v: f64| Cell::number(digits(v, 3), v);
        let mut columns = vec![
            column("mass_lost", "% lost", "%", rows.iter().map(|r| number(r.mass_lost * 100.0)).collect()),
            column(
                "relative_rate",
                "rate\nn-butyl acetate = 1",
                "1",
                rows.iter().map(|r| number(r.relative_rate.si())).collect(),
            ),
        ];
        for (i, name) in self.0.species.iter().enumerate() {
            let share = |left: f64| Cell::number(format!("{left:.1}"), left);
            let cells = rows.iter().map(|r| share(r.residue[i] * 100.0)).collect();
            columns.push(column(name, &format!("{name}\n% of the rest"), "%", cells));
        }
        Table {
            caption: format!(
                "As it dries: {} fresh, {} at 90 % lost",
                self.0.class_fresh, self.0.class_at_90
            ),
            columns,
            notes: Vec::new(),
        }
    }
}

#[pymethods]
impl PyDryingTable {
    /// Share of the mass lost, row by row, 0 to 1.
    #[getter]
    fn mass_lost(&self) -> Vec<f64> {
        self.0.rows.iter().map(|r| r.mass_lost).collect()
    }
    /// Time so far, in units of the time in which the same volume of n-butyl acetate loses 90 %.
    #[getter]
    fn time(&self) -> Vec<f64> {
        self.0.rows.iter().map(|r| r.time).collect()
    }
    /// Rate of each moment, n-butyl acetate = 1.
    #[getter]
    fn relative_rate(&self) -> Vec<f64> {
        self.0.rows.iter().map(|r| r.relative_rate.si()).collect()
    }
    /// Mass fraction of every species in what is left, row by row.
    #[getter]
    fn residue(&self) -> Ordered<Vec<f64>> {
        let column = |i: usize| self.0.rows.iter().map(|r| r.residue[i]).collect();
        Ordered::zip(&self.0.species, (0..self.0.species.len()).map(column))
    }
    /// Rate over the loss of 90 % of the mass, as the scale is defined.
    #[getter]
    fn overall_rate(&self) -> PyEstimate {
        PyEstimate::new(self.0.overall_rate.clone())
    }
    /// Class of the fresh blend.
    #[getter]
    fn class_fresh(&self) -> String {
        self.0.class_fresh.to_string()
    }
    /// Class of what is left when 90 % are lost.
    #[getter]
    fn class_at_90(&self) -> String {
        self.0.class_at_90.to_string()
    }
    /// What to mind; empty when there is nothing.
    #[getter]
    fn warnings(&self) -> Vec<String> {
        self.0.warnings.iter().map(|w| w.message.clone()).collect()
    }
    fn __len__(&self) -> usize {
        self.0.rows.len()
    }
    fn __repr__(&self) -> String {
        format!(
            "<DryingTable {}: {} fresh, {} at 90 % lost>",
            self.0.species.join(", "),
            self.0.class_fresh,
            self.0.class_at_90
        )
    }
    fn __str__(&self) -> String {
        self.as_table().to_text()
    }
    fn _repr_html_(&self) -> String {
        self.as_table().to_html()
    }
    /// The rows as a table: text, HTML, columns for a data frame.
    fn table(&self) -> PyTable {
        PyTable(self.as_table())
    }
}

crate::json::pickles!(PyDryingTable);
