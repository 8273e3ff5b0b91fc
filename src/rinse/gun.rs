//! What a gun keeps when it is poured out, and the words of care that go with every plan: `data/rinse.toml`.

use crate::error::{Error, Result, bad_data, unknown_name};
use crate::estimate::{COVERAGE, Contributor, Estimate, Input, Scale, propagate};
use crate::names::fold;
use crate::quantity::as_text::Text;
use crate::quantity::{Density, Mass, Quantity, Volume, not_negative, positive, show};
use serde::Deserialize;
use std::sync::LazyLock;

const FILE: &str = "data/rinse.toml";

/// A kind of gun with the liquid it usually keeps. Judgement; weigh your own with [`weighed_hold_up`].
#[derive(Debug, Clone, PartialEq)]
pub struct Gun {
    /// Kind of gun.
    pub name: String,
    /// Liquid left in cup, passages and nozzle after pouring out.
    pub hold_up: Estimate<Volume>,
    /// Source key.
    pub source: String,
}

/// A word of care.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Caution {
    /// What to do.
    pub text: String,
    /// Source key.
    pub source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    gun: Vec<Row>,
    caution: Vec<Caution>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    name: String,
    low: Text<Volume>,
    best: Text<Volume>,
    high: Text<Volume>,
    source: String,
}

struct Table {
    guns: Vec<Gun>,
    cautions: Vec<Caution>,
}

static TABLE: LazyLock<Result<Table>> = LazyLock::new(|| read(include_str!("../../data/rinse.toml")));

fn read(text: &str) -> Result<Table> {
    let damaged = |problem: String| bad_data(FILE, None, None, problem, "restore the file from the release");
    let file: File = toml::from_str(text).map_err(|e| damaged(e.message().to_owned()))?;
    let mut guns = Vec::with_capacity(file.gun.len());
    for row in file.gun {
        let (low, best, high) = (row.low.0, row.best.0, row.high.0);
        if !(low.si() > 0.0 && low <= best && best <= high) {
            return Err(damaged(format!("hold-up of {}: the range does not rise", row.name)));
        }
        let contributors = vec![Contributor { what: format!("usual hold-up of a {}", row.name), share: 1.0 }];
        let hold_up = Estimate { best, low, high, coverage: COVERAGE, contributors };
        guns.push(Gun { name: row.name, hold_up, source: row.source });
    }
    if file.caution.is_empty() {
        return Err(damaged("no caution".to_owned()));
    }
    Ok(Table { guns, cautions: file.caution })
}

fn table() -> Result<&'static Table> {
    TABLE.as_ref().map_err(Error::clone)
}

impl Gun {
    /// All kinds.
    ///
    /// # Errors
    /// A [`crate::error::DataError`] when the embedded file is damaged.
    pub fn list() -> Result<&'static [Self]> {
        Ok(&table()?.guns)
    }

    /// Finds a kind by name.
    ///
    /// # Errors
    /// [`crate::error::UnknownName`] with near names.
    ///
    /// ```
    /// use mistcoat::rinse::Gun;
    /// println!("{}", Gun::find("gravity airbrush")?.hold_up);
    /// assert!(Gun::find("gravity air brush gun").unwrap_err().to_string().contains("gravity airbrush"));
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn find(name: &str) -> Result<&'static Self> {
        let all = Self::list()?;
        all.iter().find(|g| fold(&g.name) == fold(name)).ok_or_else(|| {
            let remedy = "take the nearest kind, or weigh yours poured out and dry";
            unknown_name("gun", name, all.iter().map(|g| g.name.as_str()), remedy)
        })
    }
}

/// The cautions that every plan carries.
///
/// # Errors
/// A [`crate::error::DataError`] when the embedded file is damaged.
pub fn cautions() -> Result<&'static [Caution]> {
    Ok(&table()?.cautions)
}

/// Hold-up from two weighings: the gun clean and dry, and again after a filling was poured out. `balance_std` is the
/// standard uncertainty of one weighing.
///
/// # Errors
/// A [`crate::error::RangeError`] for a mass or density that is not above zero, or a gun that weighs no more wet.
///
/// ```
/// use mistcoat::quantity::{parse, show};
/// use mistcoat::rinse::weighed_hold_up;
/// let h = weighed_hold_up(parse("112.40 g")?, parse("112.53 g")?, parse("0.87 g/mL")?, parse("0.01 g")?)?;
/// assert_eq!(show(h.best), "0.149 mL");
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn weighed_hold_up(dry: Mass, wet: Mass, liquid: Density, balance_std: Mass) -> Result<Estimate<Volume>> {
    let std = not_negative("spread of a weighing", balance_std)?;
    let inputs = [
        Input::new("weighing dry", positive("mass of the dry gun", dry)?, std),
        Input::new("weighing wet", positive("mass of the wet gun", wet)?, std),
    ];
    let density = positive("density of the liquid", liquid)?;
    propagate(&inputs, &[], Scale::Log, |x| {
        positive("mass of liquid left, wet less dry", Mass::from_si(x[1] - x[0]))
            .map(|m| m / density)
            .map_err(|_| {
                crate::error::out_of_range(
                    "mass of the wet gun",
                    show(wet),
                    format!("above {}, the dry mass", show(dry)),
                    "weigh after pouring out, before drying, on a balance that shows 0.01 g",
                )
            })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn table_is_whole_and_damage_is_refused() {
        assert!(Gun::list().unwrap().len() >= 4 && cautions().unwrap().len() >= 5);
        let keys = Gun::list().unwrap().iter().map(|g| &g.source);
        for key in keys.chain(cautions().unwrap().iter().map(|c| &c.source)) {
            assert!(crate::source::find(key).is_ok(), "{key}");
        }
        let text = include_str!("../../data/rinse.toml");
        assert!(read(&text.replacen("low = \"0.05 mL\"", "low = \"5 mL\"", 1)).is_err());
        let cut = text.find("[[caution]]").unwrap();
        assert!(read(&text[..cut]).is_err());
    }
}
