//! `Catalogue`: the solvents as a table, and files of one's own.

use crate::errors::CallResult;
use crate::solvent::PySolvent;
use crate::table::{Columns, columns};
use mistcoat::quantity::{self as q, Quantity, digits, of, to};
use mistcoat::solvent::{Catalogue, Solvent};
use mistcoat::table::{Cell, Column, Table};
use pyo3::prelude::*;
use std::path::PathBuf;

/// The solvents that come with the package, as a table.
///
/// >>> import mistcoat as mc
/// >>> len(mc.solvents())
/// 58
#[pyfunction]
pub fn solvents() -> CallResult<PyCatalogue> {
    Ok(PyCatalogue(Catalogue::builtin()?.clone()))
}

/// Solvents by name: iterate, index by name, print as a table.
///
/// ``Catalogue.load(path)`` reads a file of your own; ``solvents().extended(mine)`` puts it over the others.
#[pyclass(frozen, eq, name = "Catalogue", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyCatalogue(Catalogue);

fn words(text: Option<String>) -> Cell {
    Cell::words(text.unwrap_or_else(|| "–".to_owned()))
}

fn estimate<Q: Quantity>(e: &mistcoat::Estimate<Q>, unit: &str) -> Cell {
    let number = |v: Q| to(v, unit).unwrap_or(f64::NAN);
    Cell::estimate(digits(number(e.best), 3), number(e.best), number(e.low), number(e.high))
}

fn at_20(s: &Solvent, cell: impl Fn(&Solvent, q::Temperature) -> mistcoat::Result<Cell>) -> Cell {
    of(20.0, "°C").and_then(|t| cell(s, t)).unwrap_or_else(|_| words(None))
}

impl PyCatalogue {
    fn table(&self) -> Table {
        let column = |key: &str, title: &str, unit: &str, cell: &dyn Fn(&Solvent) -> Cell| Column {
            key: key.to_owned(),
            title: title.to_owned(),
            unit: unit.to_owned(),
            cells: self.0.iter().map(cell).collect(),
        };
        let columns = vec![
            column("name", "solvent", "", &|s| words(Some(s.name().to_owned()))),
            column("boiling_point", "boils\n°C", "°C", &|s| {
                let v = to(s.boiling_point(), "°C").unwrap_or(f64::NAN);
                Cell::number(digits(v, 3), v)
            }),
            column("density", "density\ng/mL", "g/mL", &|s| {
                at_20(s, |s, t| Ok(estimate(&s.density(t)?, "g/mL")))
            }),
            column("viscosity", "viscosity\nmPa.s", "mPa.s", &|s| {
                at_20(s, |s, t| Ok(estimate(&s.viscosity(t)?, "mPa.s")))
            }),
            column("vapour_pressure", "vapour\npressure Pa", "Pa", &|s| {
                at_20(s, |s, t| Ok(estimate(&s.vapour_pressure(t)?, "Pa")))
            }),
            column("surface_tension", "surface\ntension mN/m", "mN/m", &|s| {
                at_20(s, |s, t| Ok(estimate(&s.surface_tension(t)?, "mN/m")))
            }),
            column("evaporation_rate", "evaporation\nn-BuAc = 1", "1", &|s| {
                s.evaporation_rate().map_or_else(|_| words(None), |e| estimate(&e, "1"))
            }),
            column("evaporation_class", "class", "", &|s| {
                words(s.evaporation_class().ok().map(|c| c.to_string()))
            }),
            column("flash_point", "flash point", "°C", &|s| match s.flash_point() {
                Some(f) => {
                    let v = to(f.value, "°C").unwrap_or(f64::NAN);
                    let mark = if f.source.is_from_memory() { " †" } else { "" };
                    Cell::number(format!("{}{mark}", digits(v, 3)), v)
                }
                None => words(None),
            }),
            column("polystyrene_attack", "on polystyrene", "", &|s| {
                words(s.polystyrene_attack().map(|a| a.to_string()))
            }),
        ];
        Table {
            caption: format!("{} solvents at 20 °C", self.0.len()),
            columns,
            notes: vec![
                "† flash point stated from memory: check the safety data sheet.".to_owned(),
                "Effects on polystyrene are general experience: try on scrap.".to_owned(),
            ],
        }
    }
}

#[pymethods]
impl PyCatalogue {
    /// Reads a solvent file of your own, in the form of the files that come with the package.
    #[staticmethod]
    #[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
    fn load(path: PathBuf) -> CallResult<Self> {
        Ok(Self(Catalogue::load(path)?))
    }
    /// The same from text; ``name`` appears in messages.
    #[staticmethod]
    #[pyo3(signature = (text, name = "text"))]
    fn from_toml(text: &str, name: &str) -> CallResult<Self> {
        Ok(Self(Catalogue::from_toml(text, name)?))
    }
    /// These solvents and those of ``other``; where both know a name, ``other`` wins.
    fn extended(&self, other: &Self) -> Self {
        Self(self.0.with(&other.0))
    }
    /// The solvent of this name, identifier or synonym.
    fn solvent(&self, name: &str) -> CallResult<PySolvent> {
        Ok(PySolvent(self.0.find(name)?))
    }
    /// The names of the solvents, in the order of the catalogue.
    fn names(&self) -> Vec<String> {
        self.0.iter().map(|s| s.name().to_owned()).collect()
    }
    /// The table as columns, ready for a data frame; the unit stands at the end of the name, ``None`` where there is
    /// no value.
    fn columns(&self, py: Python<'_>) -> PyResult<Columns> {
        columns(py, &self.table())
    }
    fn __len__(&self) -> usize {
        self.0.len()
    }
    fn __contains__(&self, name: &str) -> bool {
        self.0.find(name).is_ok()
    }
    fn __getitem__(&self, name: &str) -> CallResult<PySolvent> {
        self.solvent(name)
    }
    fn __iter__(&self) -> SolventIterator {
        let all: Vec<PySolvent> = self.0.iter().cloned().map(PySolvent).collect();
        SolventIterator(all.into_iter())
    }
    fn __str__(&self) -> String {
        self.table().to_text()
    }
    fn __repr__(&self) -> String {
        format!("<Catalogue of {} solvents>", self.0.len())
    }
    fn _repr_html_(&self) -> String {
        self.table().to_html()
    }
}

crate::json::pickles!(PyCatalogue);

/// Walks over the solvents of a catalogue.
#[pyclass(name = "SolventIterator", module = "mistcoat")]
pub struct SolventIterator(std::vec::IntoIter<PySolvent>);

#[pymethods]
impl SolventIterator {
    fn __iter__(slf: PyRef<'_, Self>) -> PyRef<'_, Self> {
        slf
    }
    fn __next__(&mut self) -> Option<PySolvent> {
        self.0.next()
    }
}
