//! What paint is this, what may meet what, in which order: `mistcoat.layers`.

use crate::blend::Liquid;
use crate::dict::Ordered;
use crate::errors::CallResult;
use crate::paint::PyPaint;
use crate::quantity::{Arg, PyTime};
use mistcoat::error::unknown_name;
use mistcoat::layers::{
    self, Identification, Identify, Judgement, Layer, NextTest, Place, StackCheck,
    cleaner_with_paint as clean, coat_over_coat as over_coat, thinner_on_substrate as on_substrate,
    thinner_with_paint as thin,
};
use mistcoat::paint::Family;
use mistcoat::quantity::{self as q, Quantity};
use pyo3::prelude::*;
use std::collections::BTreeMap;

/// A test that tells kinds of paint apart.
#[pyclass(frozen, eq, name = "PaintTest", module = "mistcoat.layers")]
#[derive(Clone, PartialEq)]
pub struct PyPaintTest(pub NextTest);

#[pymethods]
impl PyPaintTest {
    /// Its name, as ``identify(tests=...)`` takes it.
    #[getter]
    fn name(&self) -> &str {
        &self.0.name
    }
    /// How the test is done, in words for the bench.
    #[getter]
    fn how(&self) -> &str {
        &self.0.how
    }
    /// The answers it may give, as ``identify(tests=...)`` takes them.
    #[getter]
    fn answers(&self) -> Vec<String> {
        self.0.answers.clone()
    }
    /// Information to be expected from it, in bits.
    #[getter]
    fn expected_bits(&self) -> f64 {
        self.0.expected_bits
    }
    /// Trouble, from 1 (reading) to 4 (a week of waiting).
    #[getter]
    fn effort(&self) -> u8 {
        self.0.effort
    }
    fn __repr__(&self) -> String {
        format!("<PaintTest {:?}: {:.2} bits>", self.0.name, self.0.expected_bits)
    }
}

crate::json::pickles!(PyPaintTest);

/// What is this paint? Weighs label words and tests; every answer is common practice, made to rank.
///
/// ``label`` is what stands on the bottle. ``tests`` pairs names with answers, as ``identification_tests()`` lists them.
/// Raises ``UnknownName`` with near names, ``RangeError`` without any clue.
///
/// >>> from mistcoat import layers
/// >>> found = layers.identify(label="Acrylic lacquer", tests={"smell": "nail varnish or pear drops"})
/// >>> found.best
/// 'solvent lacquer'
/// >>> found.next_test.name
/// 'thinner named on the label'
#[pyfunction]
#[pyo3(signature = (label=None, tests=None))]
#[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
pub fn identify(
    label: Option<&str>,
    tests: Option<BTreeMap<String, String>>,
) -> CallResult<PyIdentification> {
    let mut clues = Identify::new();
    if let Some(label) = label {
        clues = clues.label(label)?;
    }
    for (name, answer) in tests.iter().flatten() {
        clues = clues.test(name, answer)?;
    }
    Ok(PyIdentification(clues.run()?))
}

/// All tests that tell kinds of paint apart, most telling first.
#[pyfunction]
pub fn identification_tests() -> CallResult<Vec<PyPaintTest>> {
    Ok(Identify::tests()?.into_iter().map(PyPaintTest).collect())
}

/// How likely each kind of paint is, and what to try next.
#[pyclass(frozen, eq, name = "Identification", module = "mistcoat.layers")]
#[derive(Clone, PartialEq)]
pub struct PyIdentification(pub Identification);

#[pymethods]
impl PyIdentification {
    /// Name of the likeliest kind.
    #[getter]
    fn best(&self) -> &'static str {
        self.0.best().kind.name()
    }
    /// Likelihood of every kind, 0 to 1, likeliest first.
    #[getter]
    fn likelihoods(&self) -> Ordered<f64> {
        let all = self.0.candidates().iter();
        Ordered(all.map(|c| (c.kind.name().to_owned(), c.likelihood.si())).collect())
    }
    /// Whether one kind has 95 % or more.
    #[getter]
    fn is_settled(&self) -> bool {
        self.0.is_settled()
    }
    /// What was said, with what to know about it.
    #[getter]
    fn clues(&self) -> Vec<String> {
        self.0.clues().to_vec()
    }
    /// The most telling test that is left; ``None`` when no test would tell anything.
    #[getter]
    fn next_test(&self) -> Option<PyPaintTest> {
        self.0.next_test().cloned().map(PyPaintTest)
    }
    /// Tests not made yet, most telling first.
    #[getter]
    fn tests_left(&self) -> Vec<PyPaintTest> {
        self.0.tests_left().iter().cloned().map(PyPaintTest).collect()
    }
    /// What to mind while testing.
    #[getter]
    fn cautions(&self) -> Vec<String> {
        self.0.cautions().to_vec()
    }
    /// Where the shares behind the likelihoods come from.
    #[getter]
    fn source(&self) -> String {
        mistcoat::source::cite(self.0.source())
    }
}

crate::table::shows!(PyIdentification, "Kinds with their likelihoods, clues, next test and cautions.");

crate::json::travels!(PyIdentification, "The answer");

/// The answer to "does this go with that?": "fine", "test first" or "no", why, and the trial that settles it.
#[pyclass(frozen, eq, name = "Judgement", module = "mistcoat.layers")]
#[derive(Clone, PartialEq)]
pub struct PyJudgement(pub Judgement);

#[pymethods]
impl PyJudgement {
    /// The question about the two layers that this answers.
    #[getter]
    fn question(&self) -> &str {
        &self.0.question
    }
    /// "fine", "test first" or "no".
    #[getter]
    fn verdict(&self) -> &'static str {
        self.0.verdict.words()
    }
    /// Why, sternest first.
    #[getter]
    fn reasons(&self) -> Vec<String> {
        self.0.reasons.iter().map(|r| r.text.clone()).collect()
    }
    /// Where each reason comes from.
    #[getter]
    fn sources(&self) -> Vec<String> {
        self.0.reasons.iter().map(|r| mistcoat::source::cite(&r.source)).collect()
    }
    /// The trial on scrap that settles it.
    #[getter]
    fn trial(&self) -> &str {
        &self.0.trial
    }
    /// What to mind while trying.
    #[getter]
    fn cautions(&self) -> Vec<String> {
        self.0.cautions.clone()
    }
    fn __str__(&self) -> String {
        self.0.to_string()
    }
}

crate::table::shows!(PyJudgement, "Reasons, trial, sources and cautions as a table.");

crate::json::travels!(PyJudgement, "The judgement");

/// Will this thinner dissolve the paint, fresh and as it dries, or curdle it? Judged at equal parts.
///
/// ``thinner`` is a ``Blend``, a ``Solvent`` or the name of one.
///
/// >>> import mistcoat as mc
/// >>> green = mc.Paint.typical("solvent lacquer", name="hull green")
/// >>> mc.layers.thinner_with_paint(green, "white spirit").verdict
/// 'no'
#[pyfunction]
#[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
pub fn thinner_with_paint(paint: PyRef<'_, PyPaint>, thinner: Liquid) -> CallResult<PyJudgement> {
    Ok(PyJudgement(thin(&paint.0, &thinner.0)?))
}

/// Will this liquid take the paint off: wet in the gun, or a film that has ``dried``?
///
/// >>> import mistcoat as mc
/// >>> cream = mc.Paint.typical("waterborne acrylic", name="deckhouse cream")
/// >>> mc.layers.cleaner_with_paint(cream, "water", dried=True).verdict
/// 'no'
#[pyfunction]
#[pyo3(signature = (paint, cleaner, *, dried=false))]
#[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
pub fn cleaner_with_paint(
    paint: PyRef<'_, PyPaint>,
    cleaner: Liquid,
    dried: bool,
) -> CallResult<PyJudgement> {
    Ok(PyJudgement(clean(&paint.0, &cleaner.0, dried)?))
}

/// Does this liquid attack that material? Never a bare "fine" for a solvent on polystyrene.
///
/// ``material``: polystyrene, ABS, PVC, PMMA, polycarbonate, resin, wood, card, glass, steel, brass, aluminium.
///
/// >>> import mistcoat as mc
/// >>> mc.layers.thinner_on_substrate("acetone", "polystyrene").verdict
/// 'no'
#[pyfunction]
#[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
pub fn thinner_on_substrate(thinner: Liquid, material: &str) -> CallResult<PyJudgement> {
    Ok(PyJudgement(on_substrate(&thinner.0, material)?))
}

/// May a coat of the family ``over`` go on one of the family ``under`` that has ``waited`` so long?
///
/// Without ``waited`` the lower coat counts as having had its time. Common practice; try on scrap.
///
/// >>> import mistcoat as mc
/// >>> mc.layers.coat_over_coat("alkyd enamel", "alkyd enamel", waited="6 h").verdict
/// 'no'
#[pyfunction]
#[pyo3(signature = (over, under, *, waited=None))]
#[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
pub fn coat_over_coat(over: &str, under: &str, waited: Option<Arg<q::Time>>) -> CallResult<PyJudgement> {
    let families = (Family::find(over)?, Family::find(under)?);
    Ok(PyJudgement(over_coat(families.0, families.1, waited.map(|w| w.value))?))
}

/// Where a coat belongs.
pub fn place(name: &str) -> CallResult<Place> {
    match name {
        "primer" => Ok(Place::Primer),
        "between" => Ok(Place::Between),
        "finish" => Ok(Place::Finish),
        other => {
            let known = ["primer", "between", "finish"];
            let remedy = "a coat is a primer, between, or a finish";
            Err(unknown_name("place of a coat", other, known, remedy).into())
        }
    }
}

/// One coat of a stack: its name, its family, where it belongs ("primer", "between" or "finish"), and how long it waits
/// before the next coat (as long as it needs unless given).
#[pyclass(frozen, eq, name = "Layer", module = "mistcoat.layers")]
#[derive(Clone, PartialEq)]
pub struct PyLayer(pub Layer);

#[pymethods]
impl PyLayer {
    #[new]
    #[pyo3(signature = (name, family, *, place="between", wait=None))]
    #[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
    fn new(name: &str, family: &str, place: &str, wait: Option<Arg<q::Time>>) -> CallResult<Self> {
        let layer = Layer::new(name, Family::find(family)?).at(self::place(place)?);
        Ok(Self(match wait {
            Some(wait) => layer.waiting(wait.value)?,
            None => layer,
        }))
    }
    /// Name of the layer, as it was given.
    #[getter]
    fn name(&self) -> &str {
        &self.0.name
    }
    /// Family of the paint, by its name.
    #[getter]
    fn family(&self) -> &'static str {
        self.0.family.name()
    }
    /// How long it waits before the next coat; ``None``: as long as it needs.
    #[getter]
    fn wait(&self) -> Option<PyTime> {
        self.0.wait.map(PyTime)
    }
    fn __repr__(&self) -> String {
        format!("<Layer {:?}, {}>", self.0.name, self.0.family)
    }
}

crate::json::pickles!(PyLayer);

/// A stack of coats with its verdicts, from the part upwards.
#[pyclass(frozen, eq, name = "StackCheck", module = "mistcoat.layers")]
#[derive(Clone, PartialEq)]
pub struct PyStackCheck(pub StackCheck);

#[pymethods]
impl PyStackCheck {
    /// The sternest verdict: "fine", "test first" or "no".
    #[getter]
    fn verdict(&self) -> &'static str {
        self.0.verdict.words()
    }
    /// Each coat over the one below.
    #[getter]
    fn pairs(&self) -> Vec<PyJudgement> {
        self.0.pairs.iter().cloned().map(PyJudgement).collect()
    }
    /// Names in a milder order, from the part upwards; ``None`` when there is none.
    #[getter]
    fn better_order(&self) -> Option<Vec<String>> {
        self.0.better_order.as_ref().map(|o| o.iter().map(|l| l.name.clone()).collect())
    }
    /// What would help when no order is free of a "no".
    #[getter]
    fn advice(&self) -> Option<String> {
        self.0.advice.clone()
    }
}

crate::table::shows!(PyStackCheck, "The stack as a table, with sources and cautions.");

crate::json::travels!(PyStackCheck, "The check");

/// Do these coats go on top of each other in this order, from the part upwards; and if not, which order does?
///
/// >>> from mistcoat.layers import Layer, check_stack
/// >>> check = check_stack([Layer("red oxide", "solvent lacquer", place="primer"),
/// ...     Layer("oil wash", "artists' oil"), Layer("clear", "waterborne acrylic")])
/// >>> print(check.verdict, *check.better_order, sep=", ")
/// no, red oxide, clear, oil wash
#[pyfunction]
#[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
pub fn check_stack(coats: Vec<PyRef<'_, PyLayer>>) -> CallResult<PyStackCheck> {
    let coats: Vec<Layer> = coats.iter().map(|c| c.0.clone()).collect();
    Ok(PyStackCheck(layers::check_stack(&coats)?))
}
