//! Drops, parts, percent and mass in Python.

use crate::errors::{CallResult, UnitError};
use crate::estimate::PyEstimate;
use crate::json;
use crate::quantity::{Arg, PyLength, PyMassConcentration, PyQuantity, PySpreadingRate, PyVolume};
use mistcoat::Estimate;
use mistcoat::dose::{
    self, Batch, Counting, Densities, DropRecipe, DropVolumes, Dropper, Parts, Repair, Thinning, VocContent,
};
use mistcoat::error::out_of_range;
use mistcoat::estimate::ModelError;
use mistcoat::quantity::{self as q, Quantity, VolumeFraction};
#[cfg(feature = "stubs")]
use pyo3::{PyTypeInfo, inspect::PyStaticExpr, type_hint_identifier, type_hint_union};
use pyo3::{
    prelude::*,
    types::{PyBool, PyFloat, PyInt, PyString},
};

/// A share of a whole: a plain number between 0 and 1, a `Ratio`, or text such as `"35 %"`.
#[derive(Clone, Copy)]
pub struct Share(pub f64);

impl<'a, 'py> FromPyObject<'a, 'py> for Share {
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr = type_hint_union!(
        type_hint_identifier!("builtins", "float"),
        <Arg<q::Ratio> as FromPyObject<'a, 'py>>::INPUT_TYPE
    );

    fn extract(ob: Borrowed<'a, 'py, PyAny>) -> PyResult<Self> {
        let number = ob.is_instance_of::<PyFloat>() || ob.is_instance_of::<PyInt>();
        if number && !ob.is_instance_of::<PyBool>() {
            return Ok(Self(ob.extract()?));
        }
        Ok(Self(ob.extract::<Arg<q::Ratio>>()?.value.si()))
    }
}

impl Share {
    fn fraction(self) -> CallResult<VolumeFraction> {
        Ok(VolumeFraction::new(self.0)?)
    }
}

/// An argument whose name says percent: the number 50 and the text `"50 %"` are the same.
#[derive(Clone, Copy)]
pub struct Percent(q::Ratio);

impl<'a, 'py> FromPyObject<'a, 'py> for Percent {
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr = <Share as FromPyObject<'a, 'py>>::INPUT_TYPE;

    fn extract(ob: Borrowed<'a, 'py, PyAny>) -> PyResult<Self> {
        let number = ob.is_instance_of::<PyFloat>() || ob.is_instance_of::<PyInt>();
        if number && !ob.is_instance_of::<PyBool>() {
            return Ok(Self(q::Ratio::from_si(ob.extract::<f64>()? / 100.0)));
        }
        Ok(Self(ob.extract::<Arg<q::Ratio>>()?.value))
    }
}

/// A thinning given as an object, or as words that name the parts.
#[derive(Clone, Copy)]
pub struct ThinningArg(pub Thinning);

impl<'a, 'py> FromPyObject<'a, 'py> for ThinningArg {
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr =
        type_hint_union!(PyThinning::TYPE_HINT, type_hint_identifier!("builtins", "str"));

    fn extract(ob: Borrowed<'a, 'py, PyAny>) -> PyResult<Self> {
        if let Ok(t) = ob.cast::<PyThinning>() {
            return Ok(Self(t.get().0));
        }
        if let Ok(text) = ob.cast::<PyString>() {
            let read = Thinning::from_text(text.to_str()?).map_err(crate::errors::CallError::from)?;
            return Ok(Self(read));
        }
        Err(UnitError::new_err(format!(
            "expected a Thinning or words such as \"2 parts thinner to 1 part paint\"; got {}",
            ob.repr()?
        )))
    }
}

/// How far a paint is thinned, the parts always named.
///
/// ``Thinning(thinner=2, paint=1)``, ``Thinning(percent_of_paint=50)``, ``Thinning(percent_of_mix=33)``,
/// ``Thinning(paint_fraction=0.4)``, or words: ``Thinning("2 parts thinner to 1 part paint")``. A bare "2:1" is refused
/// with both readings shown. By volume, or with ``by="mass"`` and both densities by mass.
///
/// >>> import mistcoat as mc
/// >>> mc.Thinning(thinner=2, paint=1).paint_fraction == mc.Thinning("paint:thinner 1:2").paint_fraction
/// True
#[pyclass(frozen, eq, name = "Thinning", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyThinning(pub Thinning);

fn densities(thinner: Option<Arg<q::Density>>, paint: Option<Arg<q::Density>>) -> CallResult<Densities> {
    match (thinner, paint) {
        (Some(t), Some(p)) => Ok(Densities { thinner: t.value, paint: p.value }),
        _ => Err(out_of_range(
            "densities for a ratio by mass",
            "missing",
            "thinner_density and paint_density",
            "give both, for example thinner_density=\"0.87 g/mL\", paint_density=\"1.2 g/mL\"",
        )
        .into()),
    }
}

#[pymethods]
impl PyThinning {
    #[new]
    #[pyo3(signature = (text=None, *, thinner=None, paint=None, percent_of_paint=None, percent_of_mix=None, paint_fraction=None, by="volume", thinner_density=None, paint_density=None))]
    #[allow(clippy::too_many_arguments, reason = "the wordings of one thing; exactly one is given")]
    fn new(
        text: Option<&str>,
        thinner: Option<f64>,
        paint: Option<f64>,
        percent_of_paint: Option<Percent>,
        percent_of_mix: Option<Percent>,
        paint_fraction: Option<Share>,
        by: &str,
        thinner_density: Option<Arg<q::Density>>,
        paint_density: Option<Arg<q::Density>>,
    ) -> CallResult<Self> {
        let mass = match by {
            "volume" => None,
            "mass" => Some(densities(thinner_density, paint_density)?),
            other => {
                return Err(mistcoat::error::unknown_name(
                    "basis",
                    other,
                    ["volume", "mass"],
                    "by is \"volume\" or \"mass\"",
                )
                .into());
            }
        };
        Ok(Self(match (text, thinner, paint, percent_of_paint, percent_of_mix, paint_fraction, mass) {
            (Some(words), None, None, None, None, None, None) => Thinning::from_text(words)?,
            (None, Some(thinner), Some(paint), None, None, None, mass) => {
                let parts = Parts { thinner, paint };
                mass.map_or_else(|| Thinning::from_parts(parts), |d| Thinning::from_parts_by_mass(parts, d))?
            }
            (None, None, None, Some(p), None, None, None) => Thinning::from_percent_of_paint(p.0)?,
            (None, None, None, Some(p), None, None, Some(d)) => {
                Thinning::from_percent_of_paint_by_mass(p.0, d)?
            }
            (None, None, None, None, Some(p), None, None) => Thinning::from_percent_of_mix(p.0)?,
            (None, None, None, None, Some(p), None, Some(d)) => {
                Thinning::from_percent_of_mix_by_mass(p.0, d)?
            }
            (None, None, None, None, None, Some(x), None) => Thinning::from_paint_fraction(x.fraction()?)?,
            _ => {
                return Err(out_of_range(
                    "wording of the thinning",
                    "none, or more than one",
                    "thinner= with paint=, percent_of_paint=, percent_of_mix=, paint_fraction= or words by volume",
                    "give exactly one, for example Thinning(thinner=2, paint=1)",
                )
                .into());
            }
        }))
    }
    /// Share of stock paint in the volume of the mix, 0 to 1.
    #[getter]
    fn paint_fraction(&self) -> f64 {
        self.0.paint_fraction().get()
    }
    /// Volumes of thinner to one volume of paint.
    #[getter]
    fn thinner_per_paint(&self) -> f64 {
        self.0.thinner_per_paint()
    }
    /// Thinner as percent of the paint's volume.
    #[getter]
    fn percent_of_paint(&self) -> f64 {
        100.0 * self.0.percent_of_paint().si()
    }
    /// Thinner as percent of the volume of the mix.
    #[getter]
    fn percent_of_mix(&self) -> f64 {
        100.0 * self.0.percent_of_mix().si()
    }
    /// Masses of thinner to one mass of paint.
    fn thinner_per_paint_by_mass(
        &self,
        thinner_density: Arg<q::Density>,
        paint_density: Arg<q::Density>,
    ) -> CallResult<f64> {
        Ok(self.0.thinner_per_paint_by_mass(densities(Some(thinner_density), Some(paint_density))?)?)
    }
    /// Thinner to add to a volume of stock paint.
    fn thinner_for(&self, paint: Arg<q::Volume>) -> CallResult<PyVolume> {
        Ok(PyVolume(self.0.thinner_for(paint.value)?))
    }
    /// This mix thinned once more.
    fn then(&self, again: ThinningArg) -> CallResult<Self> {
        Ok(Self(self.0.then(again.0)?))
    }
    fn __hash__(&self) -> u64 {
        self.0.paint_fraction().get().to_bits()
    }
    fn __str__(&self) -> String {
        self.0.to_string()
    }
    fn __repr__(&self) -> String {
        format!("Thinning(paint_fraction={:?})", self.0.paint_fraction().get())
    }
    #[staticmethod]
    fn _from_json(text: &str) -> CallResult<Self> {
        Ok(Self(json::load(text)?))
    }
    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> CallResult<(Bound<'py, PyAny>, (String,))> {
        json::reduce(slf, "_from_json", &slf.get().0)
    }
}

/// A dropper, pipette or bottle tip: ``Dropper(tip="3 mm")``.
///
/// ``tip`` is the outer diameter, which a liquid that wets the tip hangs from; ``bore`` is for a liquid that does not wet
/// it. ``by_hand=True`` adds the 5 % by which drops let fall by hand are heavier. ``Dropper.weighed`` and
/// ``Dropper.counted`` are better than the theory: use them for your own liquid.
///
/// >>> import mistcoat as mc
/// >>> d = mc.Dropper.weighed(drops=20, mass="0.41 g", density="0.88 g/mL")
/// >>> print(d.drop_volume().best)
/// 23.3 µL
#[pyclass(frozen, eq, name = "Dropper", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyDropper(pub Dropper);

/// What `drop_volume` needs of a liquid: asked of any object with these methods, so that a blend, a solvent or a mix
/// will do.
fn asked<Q: PyQuantity>(liquid: &Bound<'_, PyAny>, method: &str, at: &Bound<'_, PyAny>) -> PyResult<Q> {
    Ok(liquid.call_method1(method, (at,))?.extract::<Arg<Q>>()?.value)
}

#[pymethods]
impl PyDropper {
    #[new]
    #[pyo3(signature = (*, tip=None, bore=None, by_hand=false))]
    fn new(tip: Option<Arg<q::Length>>, bore: Option<Arg<q::Length>>, by_hand: bool) -> CallResult<Self> {
        let dropper = match (tip, bore) {
            (Some(d), None) => Dropper::tip(d.value)?,
            (None, Some(d)) => Dropper::unwetted_tip(d.value)?,
            _ => {
                return Err(out_of_range(
                    "dropper",
                    if tip.is_some() { "tip and bore" } else { "neither tip nor bore" },
                    "one of tip= and bore=",
                    "give the outer diameter, Dropper(tip=\"3 mm\"); bore= only for a liquid that does not wet the tip",
                )
                .into());
            }
        };
        Ok(Self(if by_hand { dropper.by_hand() } else { dropper }))
    }
    /// Drops weighed together: 20 of them on a scale that reads 0.01 g. Good for that liquid only.
    #[staticmethod]
    fn weighed(drops: u32, mass: Arg<q::Mass>, density: Arg<q::Density>) -> CallResult<Self> {
        Ok(Self(Dropper::weighed(drops, mass.value, density.value)?))
    }
    /// Drops counted into a graduated syringe or cylinder. Good for that liquid only.
    #[staticmethod]
    fn counted(drops: u32, volume: Arg<q::Volume>) -> CallResult<Self> {
        Ok(Self(Dropper::counted(drops, volume.value)?))
    }
    /// The tip that gives this drop of this liquid: measure with water, then use it for other liquids.
    #[staticmethod]
    fn tip_from_drop(
        drop: Arg<q::Volume>,
        surface_tension: Arg<q::SurfaceTension>,
        density: Arg<q::Density>,
    ) -> CallResult<Self> {
        Ok(Self(Dropper::tip_from_drop(drop.value, surface_tension.value, density.value)?))
    }
    /// Volume of one drop of a liquid, with its interval: ±10 %, ±35 % above 100 mPa s.
    ///
    /// ``liquid`` is anything that answers ``surface_tension(temperature)`` and ``density(temperature)``, such as a
    /// ``Blend``; or give ``surface_tension`` and ``density`` (and ``viscosity`` of a thick liquid). A weighed or counted
    /// dropper needs none of them.
    #[pyo3(signature = (liquid=None, temperature=None, *, surface_tension=None, density=None, viscosity=None))]
    fn drop_volume(
        &self,
        py: Python<'_>,
        liquid: Option<&Bound<'_, PyAny>>,
        temperature: Option<&Bound<'_, PyAny>>,
        surface_tension: Option<Arg<q::SurfaceTension>>,
        density: Option<Arg<q::Density>>,
        viscosity: Option<Arg<q::DynamicViscosity>>,
    ) -> CallResult<PyEstimate> {
        let viscosity = viscosity.map(|v| v.value);
        let (gamma, rho, viscosity) = match (liquid, temperature, surface_tension, density) {
            (Some(liquid), Some(at), None, None) => {
                let eta = match viscosity {
                    Some(eta) => Some(eta),
                    None if liquid.hasattr("viscosity")? => Some(asked(liquid, "viscosity", at)?),
                    None => None,
                };
                (asked(liquid, "surface_tension", at)?, asked(liquid, "density", at)?, eta)
            }
            (None, None, Some(gamma), Some(rho)) => (gamma.value, rho.value, viscosity),
            _ => {
                if let Some(v) = self.0.measured() {
                    return Ok(PyEstimate::new(v.clone()));
                }
                return Err(out_of_range(
                    "liquid of the drop",
                    "incomplete",
                    "a liquid with a temperature, or surface_tension= with density=",
                    "write for example drop_volume(blend, \"20 degC\")",
                )
                .into());
            }
        };
        Ok(PyEstimate::answer(py, self.0.drop_volume(gamma, rho, viscosity)?)?)
    }
    /// Diameter of the circle from which the drop hangs; ``None`` for a measured dropper.
    #[getter]
    fn tip_diameter(&self) -> Option<PyLength> {
        self.0.tip_diameter().map(PyLength)
    }
    #[staticmethod]
    fn _from_json(text: &str) -> CallResult<Self> {
        Ok(Self(json::load(text)?))
    }
    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> CallResult<(Bound<'py, PyAny>, (String,))> {
        json::reduce(slf, "_from_json", &slf.get().0)
    }
    fn __repr__(&self) -> String {
        match (self.0.tip_diameter(), self.0.measured()) {
            (Some(d), _) => format!("<Dropper with a tip of {}>", q::show(d)),
            (None, Some(v)) => format!("<Dropper of {v} a drop>"),
            (None, None) => "<Dropper>".to_owned(),
        }
    }
}

/// A drop volume given as a quantity or an estimate, with its spread.
fn drop(arg: &Arg<q::Volume>) -> Estimate<q::Volume> {
    let best = arg.value.si();
    if arg.std > 0.0 && best > 0.0 {
        Estimate::relative(arg.value, &[ModelError::new("volume of a drop", arg.std / best)])
    } else {
        Estimate::exact(arg.value)
    }
}

/// A recipe in whole drops, with the error that rounding makes.
#[pyclass(frozen, eq, name = "DropRecipe", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyDropRecipe(pub DropRecipe);

#[pymethods]
impl PyDropRecipe {
    /// Drops of stock paint.
    #[getter]
    fn paint_drops(&self) -> u32 {
        self.0.paint_drops
    }
    /// Drops of thinner.
    #[getter]
    fn thinner_drops(&self) -> u32 {
        self.0.thinner_drops
    }
    /// What the counts make.
    #[getter]
    fn thinning(&self) -> PyThinning {
        PyThinning(self.0.thinning)
    }
    /// (made - wanted)/wanted of thinner per paint.
    #[getter]
    fn ratio_error(&self) -> f64 {
        self.0.ratio_error.si()
    }
    /// Volume of the mix.
    #[getter]
    fn total(&self) -> PyVolume {
        PyVolume(self.0.total)
    }
    /// (made - wanted)/wanted of the amount; ``None`` when no amount was wanted.
    #[getter]
    fn amount_error(&self) -> Option<f64> {
        self.0.amount_error.map(Quantity::si)
    }
    /// Paint fraction with the spread from drop volumes and counting.
    #[getter]
    fn paint_fraction(&self) -> PyEstimate {
        PyEstimate::new(self.0.paint_fraction.clone())
    }
    fn __str__(&self) -> String {
        self.0.to_string()
    }
    fn __repr__(&self) -> String {
        format!("<DropRecipe {}>", self.0)
    }
}

/// Recipes in whole drops for a thinning, best first: nearest ratio and amount, or without ``total`` the fewest drops
/// first. The drops of paint and thinner differ in size; give both volumes.
#[pyfunction]
#[pyo3(signature = (thinning, *, paint_drop, thinner_drop, total=None, most=5))]
pub fn drop_recipes(
    thinning: ThinningArg,
    paint_drop: Arg<q::Volume>,
    thinner_drop: Arg<q::Volume>,
    total: Option<Arg<q::Volume>>,
    most: usize,
) -> CallResult<Vec<PyDropRecipe>> {
    let drops = DropVolumes { paint: drop(&paint_drop), thinner: drop(&thinner_drop) };
    let found = dose::drop_recipes(thinning.0, total.map(|t| t.value), &drops, most)?;
    Ok(found.into_iter().map(PyDropRecipe).collect())
}

/// Volume of so many drops, with the spread from the drop volume, from single drops (7 % unless given) and from a
/// doubtful last drop.
#[pyfunction]
#[pyo3(signature = (drops, drop_volume, *, scatter=None, doubtful_last_drop=false))]
pub fn counted_volume(
    drops: u32,
    drop_volume: Arg<q::Volume>,
    scatter: Option<Share>,
    doubtful_last_drop: bool,
) -> CallResult<PyEstimate> {
    let usual = Counting::default();
    let scatter = scatter.map_or(usual.scatter, |s| q::Ratio::from_si(s.0));
    let counting = Counting { scatter, doubtful_last_drop };
    Ok(PyEstimate::new(dose::counted_volume(drops, &drop(&drop_volume), counting)?))
}

/// A volume of mix and how far it is thinned: repair it, combine two, scale one.
///
/// >>> import mistcoat as mc
/// >>> batch = mc.Batch("20 mL", mc.Thinning(paint_fraction=0.2))
/// >>> what, volume = batch.repair(mc.Thinning(paint_fraction=0.3), stock=mc.Thinning(paint_fraction=0.5))
/// >>> print(what, volume)
/// paint 10 mL
#[pyclass(frozen, eq, name = "Batch", module = "mistcoat")]
#[derive(Clone, PartialEq)]
pub struct PyBatch(pub Batch);

#[pymethods]
impl PyBatch {
    #[new]
    fn new(volume: Arg<q::Volume>, thinning: ThinningArg) -> CallResult<Self> {
        Ok(Self(Batch::new(volume.value, thinning.0)?))
    }
    /// The batch that uses up a volume of stock paint.
    #[staticmethod]
    fn from_paint(paint: Arg<q::Volume>, thinning: ThinningArg) -> CallResult<Self> {
        Ok(Self(Batch::from_paint(paint.value, thinning.0)?))
    }
    /// The whole volume.
    #[getter]
    fn volume(&self) -> PyVolume {
        PyVolume(self.0.volume())
    }
    /// How far it is thinned.
    #[getter]
    fn thinning(&self) -> PyThinning {
        PyThinning(self.0.thinning())
    }
    /// Stock paint in it.
    #[getter]
    fn paint(&self) -> PyVolume {
        PyVolume(self.0.paint())
    }
    /// Thinner in it.
    #[getter]
    fn thinner(&self) -> PyVolume {
        PyVolume(self.0.thinner())
    }
    /// What to add to reach ``target``: ``("thinner", volume)``, ``("paint", volume)`` of undiluted paint or of ``stock``,
    /// or ``("nothing", zero)``.
    #[pyo3(signature = (target, *, stock=None))]
    fn repair(
        &self,
        target: ThinningArg,
        stock: Option<ThinningArg>,
    ) -> CallResult<(&'static str, PyVolume)> {
        let stock = stock.map_or(Thinning::NONE, |s| s.0);
        Ok(match self.0.repair(target.0, stock)? {
            Repair::AddThinner(v) => ("thinner", PyVolume(v)),
            Repair::AddPaint(v) => ("paint", PyVolume(v)),
            Repair::Nothing => ("nothing", PyVolume(q::Volume::from_si(0.0))),
        })
    }
    /// Two batches of the same paint and thinner poured together.
    #[allow(clippy::needless_pass_by_value, reason = "extracted argument")]
    fn combined(&self, other: PyRef<'_, Self>) -> CallResult<Self> {
        Ok(Self(self.0.combined(&other.0)?))
    }
    /// The same mix for another total volume.
    fn scaled_to(&self, volume: Arg<q::Volume>) -> CallResult<Self> {
        Ok(Self(self.0.scaled_to(volume.value)?))
    }
    #[staticmethod]
    fn _from_json(text: &str) -> CallResult<Self> {
        Ok(Self(json::load(text)?))
    }
    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> CallResult<(Bound<'py, PyAny>, (String,))> {
        json::reduce(slf, "_from_json", &slf.get().0)
    }
    fn __repr__(&self) -> String {
        format!("<Batch of {}, {}>", q::show(self.0.volume()), self.0.thinning())
    }
}

/// Parts of a strong and a weak stock, adding up to 1, that give ``target`` between them: (strong, weak).
#[pyfunction]
pub fn alligation(strong: Share, weak: Share, target: Share) -> CallResult<(f64, f64)> {
    let parts = dose::alligation(strong.fraction()?, weak.fraction()?, target.fraction()?)?;
    Ok((parts.strong, parts.weak))
}

/// Volume solids of a mix: the paint's times the paint fraction.
#[pyfunction]
pub fn thinned_solids(volume_solids: Share, thinning: ThinningArg) -> CallResult<f64> {
    Ok(dose::thinned_solids(volume_solids.fraction()?, thinning.0)?.get())
}

/// Volume solids from solids by weight and the density of the paint, with the density of the volatile part or of the
/// dry solids.
#[pyfunction]
#[pyo3(signature = (solids_by_weight, *, paint_density, volatile_density=None, solids_density=None))]
pub fn volume_solids(
    solids_by_weight: Share,
    paint_density: Arg<q::Density>,
    volatile_density: Option<Arg<q::Density>>,
    solids_density: Option<Arg<q::Density>>,
) -> CallResult<f64> {
    let nv = q::Ratio::from_si(solids_by_weight.0);
    let paint = paint_density.value;
    match (volatile_density, solids_density) {
        (Some(v), None) => Ok(dose::volume_solids_from_volatile(nv, paint, v.value)?.get()),
        (None, Some(s)) => Ok(dose::volume_solids_from_resin(nv, paint, s.value)?.get()),
        _ => Err(out_of_range(
            "second density",
            "none, or two",
            "one of volatile_density= and solids_density=",
            "give the density of the thinner-like part, or of the dry film",
        )
        .into()),
    }
}

/// Wet film thickness that dries to ``dry``.
#[pyfunction]
pub fn wet_film(dry: Arg<q::Length>, volume_solids: Share) -> CallResult<PyLength> {
    Ok(PyLength(dose::wet_film(dry.value, volume_solids.fraction()?)?))
}

/// Dry film left by a wet one.
#[pyfunction]
pub fn dry_film(wet: Arg<q::Length>, volume_solids: Share) -> CallResult<PyLength> {
    Ok(PyLength(dose::dry_film(wet.value, volume_solids.fraction()?)?))
}

/// Theoretical spreading rate: area covered by a volume of paint at a dry film thickness.
#[pyfunction]
pub fn spreading_rate(volume_solids: Share, dry: Arg<q::Length>) -> CallResult<PySpreadingRate> {
    Ok(PySpreadingRate(dose::spreading_rate(volume_solids.fraction()?, dry.value)?))
}

/// Spreading rate when a share of the paint is lost.
#[pyfunction]
pub fn practical_spreading_rate(
    theoretical: Arg<q::SpreadingRate>,
    loss: Share,
) -> CallResult<PySpreadingRate> {
    Ok(PySpreadingRate(dose::practical_spreading_rate(theoretical.value, loss.fraction()?)?))
}

/// Volatile organic content: (of the whole paint, less water and exempt solvents).
#[pyfunction]
#[pyo3(signature = (volume, organic_volatiles, *, water=None, exempt=None))]
pub fn voc(
    volume: Arg<q::Volume>,
    organic_volatiles: Arg<q::Mass>,
    water: Option<Arg<q::Volume>>,
    exempt: Option<Arg<q::Volume>>,
) -> CallResult<(PyMassConcentration, PyMassConcentration)> {
    let none = q::Volume::from_si(0.0);
    let content = VocContent::new(volume.value, organic_volatiles.value)?
        .water(water.map_or(none, |w| w.value))?
        .exempt(exempt.map_or(none, |e| e.value))?;
    Ok((PyMassConcentration(content.total()), PyMassConcentration(content.less_water_and_exempt()?)))
}

/// Volatile organic content of a paint thinned with an organic thinner.
#[pyfunction]
pub fn voc_after_thinning(
    paint_voc: Arg<q::MassConcentration>,
    thinner_density: Arg<q::Density>,
    thinning: ThinningArg,
) -> CallResult<PyMassConcentration> {
    Ok(PyMassConcentration(dose::voc_after_thinning(paint_voc.value, thinner_density.value, thinning.0)?))
}

/// Pigment volume concentration of the dry film.
#[pyfunction]
pub fn pvc(pigment: Arg<q::Volume>, binder: Arg<q::Volume>) -> CallResult<f64> {
    Ok(dose::pvc(pigment.value, binder.value)?.get())
}

/// Critical pigment volume concentration from oil absorption (20 g oil per 100 g pigment is "20 %") and density.
#[pyfunction]
pub fn cpvc(oil_absorption: Share, pigment_density: Arg<q::Density>) -> CallResult<f64> {
    Ok(dose::cpvc(q::Ratio::from_si(oil_absorption.0), pigment_density.value)?.get())
}

/// Cut of a resin per volume of solution: give the volume of the solution, or of the solvent with the resin's density.
#[pyfunction]
#[pyo3(signature = (resin, *, solution=None, solvent=None, resin_density=None))]
pub fn resin_cut(
    resin: Arg<q::Mass>,
    solution: Option<Arg<q::Volume>>,
    solvent: Option<Arg<q::Volume>>,
    resin_density: Option<Arg<q::Density>>,
) -> CallResult<PyMassConcentration> {
    let cut = match (solution, solvent, resin_density) {
        (Some(v), None, None) => dose::cut_of_solution(resin.value, v.value)?,
        (None, Some(v), Some(rho)) => dose::cut_of_solvent(resin.value, v.value, rho.value)?,
        _ => {
            return Err(out_of_range(
                "volume of the cut",
                "incomplete",
                "solution=, or solvent= with resin_density=",
                "say whether the volume is that of the solution or of the solvent alone",
            )
            .into());
        }
    };
    Ok(PyMassConcentration(cut))
}
