//! Tables of results: text, HTML, columns for data frames.

use crate::dict::Ordered;
use mistcoat::table::{Column, Table};
use pyo3::{IntoPyObjectExt, prelude::*};

/// Column names with unit, and their cells: numbers, None or words.
pub type Columns = Ordered<Vec<Py<PyAny>>>;

/// The columns of a table for a data frame; intervals as further columns `..._low` and `..._high`.
pub fn columns(py: Python<'_>, table: &Table) -> PyResult<Columns> {
    let mut out = Vec::new();
    for c in &table.columns {
        let name = c.name_with_unit();
        if !c.is_numeric() {
            let words =
                c.cells.iter().map(|cell| cell.text.as_str().into_py_any(py)).collect::<PyResult<_>>()?;
            out.push((name, words));
            continue;
        }
        let numbers = |pick: &dyn Fn(&mistcoat::table::Cell) -> Option<f64>| {
            c.cells.iter().map(|cell| pick(cell).into_py_any(py)).collect::<PyResult<Vec<_>>>()
        };
        out.push((name.clone(), numbers(&|cell| cell.value)?));
        if c.has_intervals() {
            out.push((format!("{name}_low"), numbers(&|cell| cell.interval.map(|i| i.0))?));
            out.push((format!("{name}_high"), numbers(&|cell| cell.interval.map(|i| i.1))?));
        }
    }
    Ok(Ordered(out))
}

/// `shows!(PySplit, "What the table holds.")`: `table`, and the class prints as it, in a notebook as HTML.
macro_rules! shows {
    ($class:ident, $what:literal) => {
        #[pyo3::pymethods]
        impl $class {
            #[doc = $what]
            fn table(&self) -> $crate::table::PyTable {
                $crate::table::PyTable(self.0.table())
            }
            fn __repr__(&self) -> String {
                self.0.table().to_text()
            }
            fn _repr_html_(&self) -> String {
                self.0.table().to_html()
            }
        }
    };
}
pub(crate) use shows;

/// A table of results: text, HTML in notebooks, columns for data frames.
#[pyclass(frozen, eq, name = "Table", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyTable(pub Table);

#[pymethods]
impl PyTable {
    /// What was compared, under which conditions.
    #[getter]
    fn caption(&self) -> &str {
        &self.0.caption
    }
    /// What to mind when reading it.
    #[getter]
    fn notes(&self) -> Vec<String> {
        self.0.notes.clone()
    }
    /// Headings of the columns.
    #[getter]
    fn titles(&self) -> Vec<String> {
        self.0.columns.iter().map(|c: &Column| c.title.replace('\n', " ")).collect()
    }
    /// Columns by name with unit; intervals as ``..._low`` and ``..._high``, ``None`` where there is no answer.
    fn columns(&self, py: Python<'_>) -> PyResult<Columns> {
        columns(py, &self.0)
    }
    /// A pandas data frame of the columns.
    pub fn to_pandas<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        py.import("pandas")?.call_method1("DataFrame", (columns(py, &self.0)?,))
    }
    /// A polars data frame of the columns.
    pub fn to_polars<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        py.import("polars")?.call_method1("DataFrame", (columns(py, &self.0)?,))
    }
    fn __len__(&self) -> usize {
        self.0.rows()
    }
    fn __str__(&self) -> String {
        self.0.to_text()
    }
    fn __repr__(&self) -> String {
        self.0.to_text()
    }
    fn _repr_html_(&self) -> String {
        self.0.to_html()
    }
}

crate::json::pickles!(PyTable);
