//! Paint files: one paint in one readable TOML file.
//!
//! ```toml
//! schema = 1
//! name = "hull green"
//! family = "solvent lacquer"
//! volume_solids = { best = "22 %", low = "20 %", high = "24 %" }
//! density = "0.98 g/mL"
//! stock_viscosity = "135 mPa.s"
//! stock_temperature = "20 °C"
//! ```
//!
//! Only `schema`, `name` and `family` are needed; what is left out is typical of the family. A value is a text
//! with its unit, or a table of `best`, `low` and `high`. Unknown fields are refused.

use super::family::Family;
use super::prior::ShapePrior;
use super::stock::Paint;
use super::temperature::ViscosityTemperature;
use super::uncertain::{Plain, Uncertain};
use crate::blend::Blend;
use crate::error::{Error, Result, bad_data};
use crate::estimate::Estimate;
use crate::quantity::{Density, DynamicViscosity, Length, Quantity, Ratio, SurfaceTension, Temperature};
use serde::{Deserialize, Deserializer, Serialize, de::Error as _};
use std::path::Path;

pub(super) const SCHEMA: u32 = 1;
/// A paint file is a page of text; anything larger is not one.
const LARGEST_FILE: u64 = 256 * 1024;

#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PaintFile {
    pub(super) schema: u32,
    pub(super) name: String,
    #[serde(deserialize_with = "family_by_any_name")]
    pub(super) family: Family,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) note: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) volume_solids: Option<Uncertain<Ratio>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) density: Option<Uncertain<Density>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) stock_viscosity: Option<Uncertain<DynamicViscosity>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) stock_temperature: Option<Plain<Temperature>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) binder_tg: Option<Uncertain<Temperature>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) surface_tension: Option<Uncertain<SurfaceTension>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) pigment: Option<PigmentFile>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) carrier: Option<Blend>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) temperature_rule: Option<ViscosityTemperature>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) shape: Option<ShapePrior>,
}

#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PigmentFile {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) density: Option<Uncertain<Density>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) diameter: Option<Uncertain<Length>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) volume_concentration: Option<Uncertain<Ratio>>,
}

/// A file may say "lacquer" where the code says `Family::SolventLacquer`, as [`Family::find`] reads it.
fn family_by_any_name<'de, D: Deserializer<'de>>(name: D) -> core::result::Result<Family, D::Error> {
    Family::find(&String::deserialize(name)?).map_err(D::Error::custom)
}

impl PaintFile {
    pub(super) fn bare(family: Family, name: &str) -> Self {
        Self {
            schema: SCHEMA,
            name: name.to_owned(),
            family,
            note: None,
            volume_solids: None,
            density: None,
            stock_viscosity: None,
            stock_temperature: None,
            binder_tg: None,
            surface_tension: None,
            pigment: None,
            carrier: None,
            temperature_rule: None,
            shape: None,
        }
    }
}

impl From<Paint> for PaintFile {
    fn from(p: Paint) -> Self {
        fn own<Q: Quantity>(typical: &[&str], field: &str, e: &Estimate<Q>) -> Option<Uncertain<Q>> {
            (!typical.contains(&field)).then(|| Uncertain::of(e))
        }
        let t = p.typical.as_slice();
        let pigment = PigmentFile {
            density: own(t, "pigment.density", &p.pigment.density),
            diameter: own(t, "pigment.diameter", &p.pigment.diameter),
            volume_concentration: own(t, "pigment.volume_concentration", &p.pigment.volume_concentration),
        };
        let any =
            pigment.density.is_some() || pigment.diameter.is_some() || pigment.volume_concentration.is_some();
        let usual_shape = p.family.shape_prior().is_ok_and(|s| *s == p.shape);
        Self {
            schema: SCHEMA,
            family: p.family,
            volume_solids: own(t, "volume_solids", &p.volume_solids),
            density: own(t, "density", &p.density),
            stock_viscosity: own(t, "stock_viscosity", &p.stock_viscosity),
            stock_temperature: Some(Plain(p.stock_temperature)),
            binder_tg: own(t, "binder_tg", &p.binder_tg),
            surface_tension: own(t, "surface_tension", &p.surface_tension),
            pigment: any.then_some(pigment),
            carrier: (!t.contains(&"carrier")).then_some(p.carrier),
            temperature_rule: Some(p.temperature_rule).filter(|r| *r != ViscosityTemperature::LewisSquires),
            shape: (!usual_shape).then_some(p.shape),
            name: p.name,
            note: p.note,
        }
    }
}

impl Paint {
    /// Reads a paint from the text of a paint file; `file_name` is named in errors.
    ///
    /// # Errors
    /// A [`crate::error::DataError`] with file, line and field for broken TOML, an unknown or missing field, a
    /// value without a unit or out of its range, an unknown solvent or family, or another schema.
    ///
    /// ```
    /// use mistcoat::paint::Paint;
    /// let text = "schema = 1\nname = \"cream\"\nfamily = \"waterborne acrylic\"\ndensity = \"1.25 g/mL\"\n";
    /// assert_eq!(Paint::from_toml(text, "cream.toml")?.name(), "cream");
    /// let e = Paint::from_toml(&text.replace("density", "desnity"), "cream.toml").unwrap_err();
    /// assert!(e.to_string().starts_with("cream.toml, line 4, field `desnity`: "));
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn from_toml(text: &str, file_name: &str) -> Result<Self> {
        let file: PaintFile = toml::from_str(text).map_err(|e| toml_error(text, file_name, &e))?;
        if file.schema != SCHEMA {
            return Err(bad_data(
                file_name,
                line_of(text, "schema"),
                Some("schema"),
                format!("schema {} where {SCHEMA} is known", file.schema),
                format!("write schema = {SCHEMA}, or update this program"),
            ));
        }
        Self::try_from(file).map_err(|e| in_file(text, file_name, &e))
    }

    /// Reads a paint file.
    ///
    /// # Errors
    /// A [`crate::error::DataError`] when the file is missing, unreadable or larger than 256 kB, and those of
    /// [`Self::from_toml`].
    pub fn load(path: impl AsRef<Path>) -> Result<Self> {
        let path = path.as_ref();
        let name = path.display().to_string();
        let unreadable = |e: std::io::Error| {
            bad_data(
                &name,
                None,
                None,
                format!("cannot be read ({e})"),
                "check the path and that it is UTF-8 text",
            )
        };
        let size = std::fs::metadata(path).map_err(unreadable)?.len();
        if size > LARGEST_FILE {
            return Err(bad_data(
                &name,
                None,
                None,
                format!("holds {size} bytes where {LARGEST_FILE} are allowed"),
                "give a paint file: one paint, a page of text",
            ));
        }
        Self::from_toml(&std::fs::read_to_string(path).map_err(unreadable)?, &name)
    }

    /// The paint as the text of a paint file; typical values are left out.
    ///
    /// # Errors
    /// A [`crate::error::DataError`] when a value cannot be written.
    pub fn to_toml(&self) -> Result<String> {
        toml::to_string(&PaintFile::from(self.clone()))
            .map_err(|e| bad_data(&self.name, None, None, e.to_string(), "save the paint as JSON instead"))
    }

    /// Writes a paint file, replacing one that is there.
    ///
    /// # Errors
    /// A [`crate::error::DataError`] when the file cannot be written.
    pub fn save(&self, path: impl AsRef<Path>) -> Result<()> {
        let path = path.as_ref();
        std::fs::write(path, self.to_toml()?).map_err(|e| {
            bad_data(
                path.display().to_string(),
                None,
                None,
                format!("cannot be written ({e})"),
                "check that the folder exists and may be written to",
            )
        })
    }
}

fn toml_error(text: &str, file_name: &str, e: &toml::de::Error) -> Error {
    let line = e.span().map(|s| text[..s.start.min(text.len())].matches('\n').count() + 1);
    let field = line.and_then(|n| text.lines().nth(n - 1)).and_then(key_of);
    bad_data(
        file_name,
        line,
        field,
        e.message().trim(),
        "see the fields of a paint file: schema, name, family, note, volume_solids, density, stock_viscosity, \
         stock_temperature, binder_tg, surface_tension, pigment, carrier, temperature_rule, shape",
    )
}

/// The key at the start of a line of TOML, or the name of a table header.
fn key_of(line: &str) -> Option<&str> {
    let header = line.trim().strip_prefix('[').and_then(|l| l.split_once(']')).map(|(name, _)| name);
    let key = header.or_else(|| line.split_once('=').map(|(key, _)| key))?.trim().trim_matches('"');
    let plain = |c: char| c.is_alphanumeric() || matches!(c, '_' | '-' | '.');
    (!key.is_empty() && key.chars().all(plain)).then_some(key)
}

fn line_of(text: &str, field: &str) -> Option<usize> {
    let last = field.rsplit('.').next().unwrap_or(field);
    text.lines().position(|l| key_of(l).is_some_and(|k| k == field || k == last)).map(|n| n + 1)
}

/// Puts a value error down to the line of the file that holds the field.
fn in_file(text: &str, file_name: &str, e: &Error) -> Error {
    match e {
        Error::Range(r) => {
            let field = r.what.replace(' ', "_");
            let line = line_of(text, &field);
            bad_data(
                file_name,
                line,
                line.map(|_| field.as_str()),
                format!("{} is {}, allowed is {}", r.what, r.value, r.limit),
                r.remedy.clone(),
            )
        }
        other => bad_data(file_name, None, None, other.to_string(), "correct the value"),
    }
}
