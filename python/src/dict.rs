//! Dictionaries that keep the order of what they show.

#[cfg(feature = "stubs")]
use pyo3::inspect::PyStaticExpr;
use pyo3::{prelude::*, types::PyDict};

/// Becomes a `dict` in this order.
pub struct Ordered<V>(pub Vec<(String, V)>);

impl<V> Ordered<V> {
    /// Pairs names with values.
    pub fn zip(names: &[String], values: impl IntoIterator<Item = V>) -> Self {
        Self(names.iter().cloned().zip(values).collect())
    }
}

impl<'py, V: IntoPyObject<'py>> IntoPyObject<'py> for Ordered<V> {
    type Target = PyDict;
    type Output = Bound<'py, PyDict>;
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const OUTPUT_TYPE: PyStaticExpr =
        <std::collections::BTreeMap<String, V> as IntoPyObject<'py>>::OUTPUT_TYPE;

    fn into_pyobject(self, py: Python<'py>) -> PyResult<Self::Output> {
        let dict = PyDict::new(py);
        for (name, value) in self.0 {
            dict.set_item(name, value)?;
        }
        Ok(dict)
    }
}
