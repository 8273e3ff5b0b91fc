//! Can it burn, and how much of it makes a cupboard dangerous?
//!
//! * Vapour of a liquid once it has evaporated: `V = m R T/(M p)`, summed over the blend.
//! * Lower flammable limit of that vapour by Le Chatelier, `1/Σ(y/L)` with y the share of each vapour among all that
//!   burn.
//! * A closed space that takes it up: percent of that limit, evenly mixed. A layer at the floor is richer long before.
//!
//! Accuracy: published limits of one vapour differ by 20 to 30 %, and many here are from memory. A quarter of the limit
//! is where fire codes draw the line for ventilation; the safety data sheet and the local code decide.

use crate::blend::Blend;
use crate::error::{Result, out_of_range};
use crate::quantity::{Quantity, Ratio, Temperature, Volume, as_text, digits, show};
use crate::solvent::{ATMOSPHERE_PA, GAS_CONSTANT_J_MOL_K};
use crate::source;
use serde::{Deserialize, Serialize};

/// Share of the lower flammable limit that ventilation is to stay below (source key `LEL_FRACTIONS`).
pub const QUARTER: f64 = 0.25;
/// Share of the lower flammable limit at which gas alarms sound (source key `LEL_FRACTIONS`).
pub const TENTH: f64 = 0.1;

/// Lower flammable limit of the vapour of a blend, all evaporated.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FlammableLimit {
    /// Share of the air by volume.
    #[serde(with = "as_text")]
    pub limit: Ratio,
    /// Limit of each vapour with its source, in words.
    pub terms: Vec<String>,
    /// Whether any of them is from memory.
    pub from_memory: bool,
    /// Where each of them stands, and the rule that joins them, with how far to trust it.
    pub sources: Vec<String>,
}

impl FlammableLimit {
    /// What goes with the number wherever it is shown; never empty, and who decides comes last.
    pub fn cautions(&self) -> Vec<String> {
        let mut out = vec![
            "Published limits of one vapour differ by 20 to 30 %, and mist burns where its vapour alone is too thin."
                .to_owned(),
        ];
        if self.from_memory {
            out.push("Limits from memory: check them against the safety data sheet.".to_owned());
        }
        out.push(WHO_DECIDES.to_owned());
        out
    }
}

/// The last caution of all.
const WHO_DECIDES: &str = "The safety data sheets, local codes and licensed practice decide.";

/// Adds the citations that are not there yet.
fn cite_once(all: &mut Vec<String>, citations: impl IntoIterator<Item = String>) {
    for citation in citations {
        if !all.contains(&citation) {
            all.push(citation);
        }
    }
}

/// Moles of each ingredient per volume of liquid, with what it is.
fn moles(blend: &Blend, t: Temperature) -> Result<Vec<(usize, f64)>> {
    let density = blend.density(t)?.best().si();
    Ok(blend
        .ingredients()
        .iter()
        .enumerate()
        .map(|(i, ing)| (i, density * ing.mass_fraction / ing.solvent.molar_mass().si()))
        .collect())
}

/// Volume of vapour, at one atmosphere, that a volume of liquid gives once it has evaporated.
///
/// # Errors
/// A [`crate::error::RangeError`] for a negative volume; those of [`Blend::density`].
///
/// ```
/// use mistcoat::blend::{Basis, Blend};
/// use mistcoat::quantity::{Quantity, parse};
/// use mistcoat::safety::vapour_volume;
/// let acetone = Blend::from_names(&[("acetone", 1.0)], Basis::Volume, None)?;
/// // 29 CFR 1910.94(c), from memory: 44.0 cubic feet a US gallon at 70 °F, which is 329 times its volume.
/// let vapour = vapour_volume(&acetone, parse("1 mL")?, parse("70 °F")?)?;
/// assert!((vapour.si() / 1e-6 / 329.0 - 1.0).abs() < 0.02);
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn vapour_volume(blend: &Blend, liquid: Volume, t: Temperature) -> Result<Volume> {
    check_volume(liquid, "volume of liquid")?;
    let moles: f64 = moles(blend, t)?.iter().map(|(_, n)| n).sum();
    Ok(Volume::from_si(liquid.si() * moles * GAS_CONSTANT_J_MOL_K * t.si() / ATMOSPHERE_PA))
}

fn check_volume(volume: Volume, what: &str) -> Result<()> {
    if volume.si() >= 0.0 && volume.si().is_finite() {
        return Ok(());
    }
    Err(out_of_range(
        what,
        show(volume),
        "0 mL or more",
        "give the amount that evaporates, for example \"10 mL\"",
    ))
}

/// Lower flammable limit of the vapour of a blend, by Le Chatelier; None when nothing in it burns.
///
/// # Errors
/// A [`crate::error::RangeError`] for an organic liquid whose limit is not known.
pub fn lower_flammable_limit(blend: &Blend) -> Result<Option<FlammableLimit>> {
    let mut burning = Vec::new();
    for i in blend.ingredients().iter().filter(|i| i.solvent.id() != "water" && i.mass_fraction > 0.0) {
        let limit = i.solvent.lower_flammable_limit().ok_or_else(|| {
            out_of_range(
                format!("lower flammable limit of {}", i.solvent.name()),
                "unknown",
                "a known share of the air",
                "take it from the safety data sheet, and treat the liquid as flammable",
            )
        })?;
        burning.push((i.mass_fraction / i.solvent.molar_mass().si(), i.solvent.name(), limit));
    }
    let total: f64 = burning.iter().map(|(n, ..)| n).sum();
    if total <= 0.0 {
        return Ok(None);
    }
    let mut sources = Vec::new();
    cite_once(&mut sources, burning.iter().flat_map(|(.., l)| l.source.citations.iter().cloned()));
    cite_once(&mut sources, [source::cite("LE_CHATELIER")]);
    let sum: f64 = burning.iter().map(|(n, _, l)| n / total / l.value.si()).sum();
    Ok(Some(FlammableLimit {
        limit: Ratio::from_si(1.0 / sum),
        terms: burning.iter().map(|(_, name, l)| format!("{name} {l}")).collect(),
        from_memory: burning.iter().any(|(.., l)| l.source.is_from_memory()),
        sources,
    }))
}

/// A closed space in which a liquid has evaporated.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cupboard {
    /// Share of the lower flammable limit, evenly mixed: 1 burns.
    #[serde(with = "as_text")]
    pub share_of_limit: Ratio,
    /// Most liquid that keeps the space below a quarter of the limit.
    #[serde(with = "as_text")]
    pub most_liquid: Volume,
    /// The limit.
    pub limit: FlammableLimit,
    /// What to mind.
    pub cautions: Vec<String>,
}

/// How near a closed space comes to the lower flammable limit when this much liquid evaporates in it; None when nothing
/// in it burns.
///
/// # Errors
/// A [`crate::error::RangeError`] for a bad volume; those of [`lower_flammable_limit`].
///
/// ```
/// use mistcoat::blend::{Basis, Blend};
/// use mistcoat::quantity::{Quantity, parse};
/// use mistcoat::safety::cupboard;
/// let acetone = Blend::from_names(&[("acetone", 1.0)], Basis::Volume, None)?;
/// let shelf = cupboard(&acetone, parse("30 mL")?, parse("0.2 m3")?, parse("21 °C")?)?.expect("it burns");
/// assert!(shelf.share_of_limit.si() > 1.0); // an open jar in a cupboard is enough
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn cupboard(blend: &Blend, liquid: Volume, space: Volume, t: Temperature) -> Result<Option<Cupboard>> {
    check_volume(liquid, "volume of liquid")?;
    if !(1e-3..=1e5).contains(&space.si()) {
        return Err(out_of_range(
            "closed space",
            show(space),
            "1 L to 100 000 m3",
            "length × width × height",
        ));
    }
    let Some(limit) = lower_flammable_limit(blend)? else { return Ok(None) };
    let burning = 1.0 - blend.water_volume_fraction();
    let per_liquid = vapour_volume(blend, Volume::from_si(1e-6), t)?.si() / 1e-6 * burning;
    let share = |v: f64| v * per_liquid / space.si() / limit.limit.si();
    let share_of_limit = Ratio::from_si(share(liquid.si()));
    let most = QUARTER * space.si() * limit.limit.si() / per_liquid;
    let mut cautions = vec![
        "Vapour is heavier than air: at the floor of the space it is richer than this even mixture says."
            .to_owned(),
    ];
    if share_of_limit.si() > QUARTER {
        cautions.push(format!(
            "More than a quarter of the lower flammable limit ({} times): open it, air it, no switch and no flame.",
            digits(share_of_limit.si() / QUARTER, 2)
        ));
    }
    if limit.from_memory {
        cautions.push("Limits from memory: check them against the safety data sheet.".to_owned());
    }
    cautions.push(WHO_DECIDES.to_owned());
    Ok(Some(Cupboard { share_of_limit, most_liquid: Volume::from_si(most), limit, cautions }))
}

/// How readily a liquid catches fire, by its flash point (source key `GHS_FLAMMABLE`).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum FlammableClass {
    /// Flashes below 23 °C and boils at 35 °C or below.
    Extremely,
    /// Flashes below 23 °C: in a cool room already.
    Highly,
    /// Flashes at 23 to 60 °C: on a hot day, and as mist always.
    Flammable,
    /// Flashes at 60 to 93 °C: when heated, and as mist.
    Combustible,
    /// No flash point up to 93 °C.
    None,
}

impl FlammableClass {
    /// The class of a flash point, closed cup, and the boiling point where known.
    ///
    /// ```
    /// use mistcoat::quantity::parse;
    /// use mistcoat::safety::FlammableClass;
    /// assert_eq!(FlammableClass::of(Some(parse("-20 °C")?), Some(parse("56 °C")?)), FlammableClass::Highly);
    /// assert_eq!(FlammableClass::of(Some(parse("40 °C")?), None), FlammableClass::Flammable);
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn of(flash_point: Option<Temperature>, boiling_point: Option<Temperature>) -> Self {
        let celsius = |t: Temperature| t.si() - 273.15;
        match flash_point.map(celsius) {
            Some(f) if f < 23.0 && boiling_point.is_some_and(|b| celsius(b) <= 35.0) => Self::Extremely,
            Some(f) if f < 23.0 => Self::Highly,
            Some(f) if f <= 60.0 => Self::Flammable,
            Some(f) if f <= 93.0 => Self::Combustible,
            _ => Self::None,
        }
    }

    /// The words shown to a reader.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Extremely => "extremely flammable",
            Self::Highly => "highly flammable: its vapour burns at room temperature",
            Self::Flammable => "flammable: its vapour burns on a hot day, its mist always",
            Self::Combustible => "combustible: burns when heated, and as mist",
            Self::None => "no flash point up to 93 °C",
        }
    }
}

/// How readily a liquid catches fire, with the flash point behind it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FlammableLiquid {
    /// Class by its flash point.
    pub class: FlammableClass,
    /// Flash point, closed cup; computed for a blend, none where it has none.
    #[serde(default, with = "as_text::option")]
    pub flash_point: Option<Temperature>,
    /// Whether a flash point behind it is from memory.
    pub from_memory: bool,
    /// Where flash points and classes stand, with how far to trust each.
    pub sources: Vec<String>,
    /// What to mind; never empty, and who decides comes last.
    pub cautions: Vec<String>,
}

impl core::fmt::Display for FlammableLiquid {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(self.class.words())?;
        if self.from_memory {
            f.write_str(" (flash point from memory, check the safety data sheet)")?;
        }
        Ok(())
    }
}

/// How readily a liquid catches fire, by its flash point.
///
/// # Errors
/// Those of [`Blend::flash_point`].
///
/// ```
/// use mistcoat::blend::{Basis, Blend};
/// use mistcoat::safety::{FlammableClass, flammable_liquid};
/// let spirit = Blend::from_names(&[("white spirit", 1.0)], Basis::Volume, None)?;
/// let found = flammable_liquid(&spirit)?;
/// assert_eq!(found.class, FlammableClass::Flammable);
/// assert!(found.cautions.last().is_some_and(|c| c.contains("decide")) && !found.sources.is_empty());
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn flammable_liquid(blend: &Blend) -> Result<FlammableLiquid> {
    let flash = blend.flash_point()?;
    let boiling = match blend.ingredients() {
        [alone] => Some(alone.solvent.boiling_point()),
        _ => None,
    };
    let flash_point = flash.as_ref().map(crate::answer::Answer::best);
    let behind = blend.ingredients().iter().filter_map(|i| i.solvent.flash_point());
    let (mut sources, mut from_memory) = (Vec::new(), false);
    for known in behind {
        from_memory |= known.source.is_from_memory();
        cite_once(&mut sources, known.source.citations);
    }
    cite_once(&mut sources, [source::cite("GHS_FLAMMABLE")]);
    let mut cautions = vec![
        "A flash point tells of a liquid in a cup: as mist it burns below it, and a rag of it at any temperature."
            .to_owned(),
    ];
    cautions.extend(flash.iter().flat_map(|f| &f.warnings).map(|w| super::session::sentence(&w.message)));
    cautions.push(WHO_DECIDES.to_owned());
    Ok(FlammableLiquid {
        class: FlammableClass::of(flash_point, boiling),
        flash_point,
        from_memory,
        sources,
        cautions,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::blend::Basis;
    use crate::quantity::parse;

    fn one(name: &str) -> Blend {
        Blend::from_names(&[(name, 1.0)], Basis::Volume, None).unwrap()
    }

    // Cubic feet of vapour a US gallon at 70 °F, 29 CFR 1910.94(c) (table from memory); 1 gal = 0.133681 ft3. That table
    // rounds 2-propanol and 2-butoxyethanol up by 4 to 7 %.
    #[rstest::rstest]
    #[case("acetone", 44.0, 0.02)]
    #[case("n-butyl acetate", 24.8, 0.02)]
    #[case("n-butanol", 35.2, 0.02)]
    #[case("ethyl acetate", 32.8, 0.02)]
    #[case("ethanol", 55.2, 0.02)]
    #[case("methyl ethyl ketone", 36.0, 0.02)]
    #[case("toluene", 30.4, 0.02)]
    #[case("methanol", 80.8, 0.02)]
    #[case("isopropanol", 44.0, 0.05)]
    #[case("2-butoxyethanol", 24.8, 0.07)]
    #[case("cyclohexanone", 31.2, 0.02)]
    fn vapour_per_gallon(#[case] name: &str, #[case] cubic_feet: f64, #[case] tolerance: f64) {
        let gallon = Volume::from_si(3.785_411_784e-3);
        let ours =
            vapour_volume(&one(name), gallon, parse("70 °F").unwrap()).unwrap().si() / 0.028_316_846_592;
        approx::assert_relative_eq!(ours, cubic_feet, max_relative = tolerance);
    }

    // Ternary thinner all evaporated, with limits 2.5, 1.3 and 1.1 %: 1.86 vol% (worked from the cited rule). The
    // catalogue's own limits differ by up to 0.4 points.
    #[test]
    fn le_chatelier_of_the_ternary_thinner() {
        let parts = [("acetone", 50.0), ("n-butyl acetate", 35.0), ("2-butoxyethanol", 15.0)];
        let thinner = Blend::from_names(&parts, Basis::Mass, None).unwrap();
        let found = lower_flammable_limit(&thinner).unwrap().unwrap();
        approx::assert_relative_eq!(found.limit.si(), 0.0186, max_relative = 0.12);
        assert_eq!(found.terms.len(), 3);
        assert!(lower_flammable_limit(&one("water")).unwrap().is_none());
    }

    // 1 mL of toluene makes 0.226 L of vapour and needs 0.21 m3 of air to stay at a tenth of a limit of 1.1 % (worked).
    #[test]
    fn toluene_in_air() {
        let t = parse("20 °C").unwrap();
        let vapour = vapour_volume(&one("toluene"), parse("1 mL").unwrap(), t).unwrap();
        approx::assert_relative_eq!(vapour.si(), 0.226e-3, max_relative = 0.01);
        let shelf =
            cupboard(&one("toluene"), parse("1 mL").unwrap(), parse("0.21 m3").unwrap(), t).unwrap().unwrap();
        let limit = shelf.limit.limit.si();
        approx::assert_relative_eq!(shelf.share_of_limit.si() * limit / 0.011, 0.1, max_relative = 0.03);
        // The amount it allows makes just a quarter.
        let again =
            cupboard(&one("toluene"), shelf.most_liquid, parse("0.21 m3").unwrap(), t).unwrap().unwrap();
        approx::assert_relative_eq!(again.share_of_limit.si(), QUARTER, max_relative = 1e-9);
        assert!(again.cautions.iter().any(|c| c.contains("decide")));
    }

    #[test]
    fn bad_input() {
        let t = parse("20 °C").unwrap();
        assert!(vapour_volume(&one("acetone"), Volume::from_si(-1.0), t).is_err());
        assert!(vapour_volume(&one("acetone"), Volume::from_si(f64::NAN), t).is_err());
        let text =
            cupboard(&one("acetone"), parse("1 mL").unwrap(), parse("0.1 mL").unwrap(), t).unwrap_err();
        assert!(text.to_string().contains("1 L"), "{text}");
    }
}
