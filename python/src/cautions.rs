//! The cautions that go with the work, in Python.

use crate::blend::Liquid;
use crate::errors::CallResult;
use crate::paint::PyPaint;
use mistcoat::blend::Blend;
use mistcoat::paint::Paint;
use mistcoat::safety::{self, Caution, Work};
use pyo3::prelude::*;

/// One caution: heading, text, source.
#[pyclass(frozen, eq, name = "Caution", module = "mistcoat.safety")]
#[derive(Clone, PartialEq)]
pub struct PyCaution(pub Caution);

#[pymethods]
impl PyCaution {
    /// Short key, for example "rags".
    #[getter]
    fn key(&self) -> &str {
        &self.0.key
    }
    /// Heading of one to four words.
    #[getter]
    fn topic(&self) -> &str {
        &self.0.topic
    }
    /// The caution, in words to print on a card.
    #[getter]
    fn text(&self) -> &str {
        &self.0.text
    }
    /// Citation of its source.
    #[getter]
    fn source(&self) -> CallResult<String> {
        Ok(self.0.citation()?.to_string())
    }
    fn __str__(&self) -> String {
        self.0.to_string()
    }
    fn __repr__(&self) -> String {
        format!("<Caution {}>", self.0.key)
    }
}

crate::json::pickles!(PyCaution);

/// The cautions for these paints and liquids and this work; the one that says who decides comes last.
///
/// ``spray``: sprayed, not brushed; ``rinse``: gun or brushes are cleaned; ``workshop``: other people are in the room.
///
/// >>> import mistcoat as mc
/// >>> cream = mc.Paint.typical("alkyd enamel", name="deckhouse cream")
/// >>> spirit = mc.Blend("white spirit")
/// >>> mc.safety.cautions([cream], [spirit], spray=True)[-1].key
/// 'data-sheet'
#[pyfunction]
#[pyo3(signature = (paints, liquids=Vec::new(), *, spray=false, rinse=false, workshop=false))]
#[allow(clippy::needless_pass_by_value, reason = "extracted arguments")]
pub fn cautions(
    paints: Vec<PyRef<'_, PyPaint>>,
    liquids: Vec<Liquid>,
    spray: bool,
    rinse: bool,
    workshop: bool,
) -> CallResult<Vec<PyCaution>> {
    let paints: Vec<&Paint> = paints.iter().map(|p| &p.0).collect();
    let liquids: Vec<&Blend> = liquids.iter().map(|l| &l.0).collect();
    let found = safety::cautions(&paints, &liquids, Work { spray, rinse, workshop })?;
    Ok(found.into_iter().cloned().map(PyCaution).collect())
}
