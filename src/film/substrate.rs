//! What does the coat lie on, and how much heat can that give?
//!
//! An evaporating solvent cools the film; what lies under it warms it again. 25 µm of acetone cools to
//! about −3 °C as a free film and only to +17 °C on 1.5 mm of polystyrene, so the substrate matters more
//! than any fine point of the air. Heat conduction is solved on eight layers, thin at the coat and each 1.5
//! times the one above; the back face exchanges heat with the room like the front. Data with sources:
//! `data/substrates.toml`.

use crate::air::properties::ZERO_CELSIUS;
use crate::error::{Error, Result, bad_data, out_of_range, unknown_name};
use crate::names::fold;
use crate::quantity::{Length, Quantity, Temperature, as_text, show};
use serde::{Deserialize, Serialize};
use std::sync::LazyLock;

/// Layers of the conduction grid.
pub(crate) const NODES: usize = 8;
/// Each layer is this much thicker than the one above it.
const GRID_RATIO: f64 = 1.5;
const FILE: &str = "data/substrates.toml";

/// A substrate with its thickness, or one of the two limits: a film by itself, a film held at room temperature.
///
/// ```
/// use mistcoat::film::Substrate;
/// use mistcoat::quantity::parse;
/// let hull = Substrate::named("wood")?.with_thickness(parse("4 mm")?)?;
/// assert_eq!(hull.to_string(), "wood, 4 mm");
/// assert!(Substrate::named("polystirene").unwrap_err().to_string().contains("polystyrene"));
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum Substrate {
    /// A plate of a material from the table.
    Plate {
        /// Name in the table.
        material: String,
        /// Thickness.
        #[serde(with = "as_text")]
        thickness: Length,
    },
    /// Nothing behind the film: a fibre, a mesh, a drop in flight.
    FreeFilm,
    /// A heavy metal block: the film stays at room temperature.
    Isothermal,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Value {
    value: f64,
    unit: String,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    name: String,
    synonyms: Vec<String>,
    conductivity: Value,
    density: Value,
    heat_capacity: Value,
    thickness: Value,
    source: String,
    warm_limit: Option<Limit>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Limit {
    value: f64,
    unit: String,
    why: String,
    source: String,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    substrate: Vec<Record>,
}

static TABLE: LazyLock<Result<Vec<Record>>> = LazyLock::new(|| {
    let remedy = "restore the file from the release";
    let file: File = toml::from_str(include_str!("../../data/substrates.toml"))
        .map_err(|e| bad_data(FILE, None, None, e.message(), remedy))?;
    for r in &file.substrate {
        let columns = [
            (&r.conductivity, "W/(m.K)"),
            (&r.density, "kg/m3"),
            (&r.heat_capacity, "J/(kg.K)"),
            (&r.thickness, "mm"),
        ];
        for (value, unit) in columns {
            if value.unit != unit || !(value.value.is_finite() && value.value > 0.0) {
                let problem =
                    format!("{} {} where a positive number in {unit} belongs", value.value, value.unit);
                return Err(bad_data(FILE, None, Some(&r.name), problem, remedy));
            }
        }
        if let Some(limit) = &r.warm_limit
            && (limit.unit != "°C" || !limit.value.is_finite())
        {
            let problem = format!("{} {} where a temperature in °C belongs", limit.value, limit.unit);
            return Err(bad_data(FILE, None, Some(&r.name), problem, remedy));
        }
    }
    Ok(file.substrate)
});

fn table() -> Result<&'static [Record]> {
    TABLE.as_ref().map(Vec::as_slice).map_err(Error::clone)
}

/// How warm the air around a substrate may be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WarmLimit {
    /// The limit of common practice.
    pub temperature: Temperature,
    /// What happens above.
    pub why: &'static str,
    /// Source key.
    pub source: &'static str,
}

/// The conduction grid in raw SI numbers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Conduction {
    /// Conductance between the film and the first node, then from node to node, W/(m2 K).
    pub(crate) conductance: [f64; NODES],
    /// Heat capacity of each layer, J/(m2 K).
    pub(crate) capacity: [f64; NODES],
}

impl Substrate {
    /// A plate of a named material at its usual thickness; also "free film" and "isothermal".
    ///
    /// # Errors
    /// [`crate::error::UnknownName`] with near names.
    pub fn named(name: &str) -> Result<Self> {
        let wanted = fold(name);
        match wanted.as_str() {
            "freefilm" | "none" => return Ok(Self::FreeFilm),
            "isothermal" => return Ok(Self::Isothermal),
            _ => {}
        }
        let records = table()?;
        let found = records
            .iter()
            .find(|r| fold(&r.name) == wanted || r.synonyms.iter().any(|s| fold(s) == wanted))
            .ok_or_else(|| {
                let known = records.iter().flat_map(|r| {
                    core::iter::once(r.name.as_str()).chain(r.synonyms.iter().map(String::as_str))
                });
                unknown_name(
                    "substrate",
                    name,
                    known,
                    "take the one nearest in conductivity and density: polystyrene, abs, resin, wood, card, glass, \
                     brass or steel; \"free film\" and \"isothermal\" are the two limits",
                )
            })?;
        Ok(Self::Plate {
            material: found.name.clone(),
            thickness: Length::from_si(found.thickness.value * 1e-3),
        })
    }

    /// Names in the table.
    ///
    /// # Errors
    /// A [`crate::error::DataError`] when the embedded file is damaged.
    pub fn list() -> Result<Vec<&'static str>> {
        Ok(table()?.iter().map(|r| r.name.as_str()).collect())
    }

    /// The same plate in another thickness; no effect on a free or isothermal film.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 0.05 to 100 mm.
    pub fn with_thickness(mut self, new: Length) -> Result<Self> {
        if !(5e-5..=0.1).contains(&new.si()) {
            return Err(out_of_range(
                "substrate thickness",
                show(new),
                "0.05 mm to 100 mm",
                "give the wall thickness under the coat; thinner is a free film, thicker makes no difference",
            ));
        }
        if let Self::Plate { thickness, .. } = &mut self {
            *thickness = new;
        }
        Ok(self)
    }

    /// Source key of the thermal data; none for the two limits.
    ///
    /// # Errors
    /// [`crate::error::UnknownName`] when a file names a material that is not in the table.
    pub fn source(&self) -> Result<Option<&'static str>> {
        let Self::Plate { material, .. } = self else { return Ok(None) };
        Ok(Some(record(material)?.source.as_str()))
    }

    /// The warmest air that common practice allows it, and what happens above; none for glass, metal and the two
    /// limits.
    ///
    /// # Errors
    /// As [`Self::source`].
    ///
    /// ```
    /// use mistcoat::film::Substrate;
    /// use mistcoat::quantity::show;
    /// let limit = Substrate::named("polystyrene")?.warm_limit()?.unwrap();
    /// assert_eq!(show(limit.temperature), "50 °C");
    /// assert!(limit.why.contains("softens"));
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn warm_limit(&self) -> Result<Option<WarmLimit>> {
        let Self::Plate { material, .. } = self else { return Ok(None) };
        Ok(record(material)?.warm_limit.as_ref().map(|l| WarmLimit {
            temperature: Temperature::from_si(l.value + ZERO_CELSIUS),
            why: &l.why,
            source: &l.source,
        }))
    }

    pub(crate) fn conduction(&self) -> Result<Option<Conduction>> {
        let Self::Plate { material, thickness } = self else { return Ok(None) };
        let r = record(material)?;
        let whole = thickness.si();
        let mut layer = whole * (GRID_RATIO - 1.0) / (GRID_RATIO.powi(8) - 1.0);
        let mut out = Conduction { conductance: [0.0; NODES], capacity: [0.0; NODES] };
        let mut above = 0.0;
        for (conductance, capacity) in out.conductance.iter_mut().zip(&mut out.capacity) {
            *conductance = r.conductivity.value / (0.5 * (above + layer));
            *capacity = layer * r.density.value * r.heat_capacity.value;
            above = layer;
            layer *= GRID_RATIO;
        }
        Ok(Some(out))
    }
}

fn record(material: &str) -> Result<&'static Record> {
    let records = table()?;
    records.iter().find(|r| r.name == material).ok_or_else(|| {
        unknown_name(
            "substrate",
            material,
            records.iter().map(|r| r.name.as_str()),
            "it is none of the materials with thermal data",
        )
    })
}

impl Default for Substrate {
    /// 1.5 mm of polystyrene.
    fn default() -> Self {
        Self::Plate { material: "polystyrene".to_owned(), thickness: Length::from_si(1.5e-3) }
    }
}

impl core::fmt::Display for Substrate {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::Plate { material, thickness } => write!(f, "{material}, {}", show(*thickness)),
            Self::FreeFilm => f.write_str("free film"),
            Self::Isothermal => f.write_str("isothermal"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::parse;

    #[test]
    fn layers_add_up_and_every_source_resolves() {
        for name in Substrate::list().unwrap() {
            let s = Substrate::named(name).unwrap();
            let r = record(name).unwrap();
            let c = s.conduction().unwrap().unwrap();
            let whole = r.thickness.value * 1e-3 * r.density.value * r.heat_capacity.value;
            approx::assert_relative_eq!(c.capacity.iter().sum::<f64>(), whole, max_relative = 1e-12);
            // Conductance from the film to the middle of the last layer: whole depth less half that layer.
            let resistance: f64 = c.conductance.iter().map(|g| 1.0 / g).sum();
            let last = c.capacity[NODES - 1] / (r.density.value * r.heat_capacity.value);
            let depth = r.thickness.value * 1e-3 - 0.5 * last;
            approx::assert_relative_eq!(resistance, depth / r.conductivity.value, max_relative = 1e-12);
            assert!(crate::source::find(s.source().unwrap().unwrap()).is_ok(), "{name}");
        }
        assert_eq!(Substrate::named("Pine").unwrap(), Substrate::named("wood").unwrap());
        assert_eq!(Substrate::default(), Substrate::named("polystyrene").unwrap());
    }

    #[test]
    fn bad_thickness_says_what_to_do() {
        let text = Substrate::default().with_thickness(parse("0 mm").unwrap()).unwrap_err().to_string();
        assert!(text.contains("0 mm") && text.contains("100 mm") && text.contains("free film"), "{text}");
        assert!(Substrate::default().with_thickness(Length::from_si(f64::NAN)).is_err());
    }

    #[test]
    fn json_round_trip() {
        for s in [Substrate::default(), Substrate::FreeFilm, Substrate::Isothermal] {
            let json = serde_json::to_string(&s).unwrap();
            assert_eq!(serde_json::from_str::<Substrate>(&json).unwrap(), s, "{json}");
        }
    }
}
