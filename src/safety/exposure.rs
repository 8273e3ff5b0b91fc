//! How much of what people may breathe is in the air?
//!
//! Vapours that harm alike add up: `E = Σ C_i/L_i`, to be kept at 1 or below (29 CFR 1910.1000(d)(2)). Over a shift the
//! mean counts, `Σ C t / 8 h` (d)(1), with nothing for the rest of the shift.
//!
//! **Peaks** are held to short-term limits, means over 15 minutes. Where an authority gives none, the usual rule for
//! excursions stands in, three times the 8-hour limit (from memory; [`short_term_exposure`]).
//!
//! **Limits** are taken from the solvent catalogue, where each has its authority and source; many of them are from
//! memory and marked so. A vapour without a limit cannot be counted: the result names it, and is then a lower bound.
//! Neglected: skin uptake, mist, heavier breathing at work, and everybody for whom limits were not made.

use crate::error::{Result, out_of_range};
use crate::quantity::{Number, Quantity, Ratio, Time, as_text, digits, show, show_in};
use crate::solvent::{Concentration, LimitKind, PropertySource, Solvent};
use crate::source::Provenance;
use crate::table::{Cell, Column, Table};
use serde::{Deserialize, Serialize};

/// A working shift, s.
pub(super) const SHIFT_S: f64 = 8.0 * 3600.0;
/// How far a short time may pass an 8-hour limit where no short-term limit is known (source key `EXCURSION`).
pub const EXCURSION: f64 = 3.0;

/// Whose limits count.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Authority {
    /// Legal limits of the United States: often decades old.
    OshaPel,
    /// Recommended limits of NIOSH.
    NioshRel,
    /// The lowest that any authority in the catalogue gives: the cautious choice.
    #[default]
    Lowest,
}

impl Authority {
    /// The words shown to a reader.
    pub const fn words(self) -> &'static str {
        match self {
            Self::OshaPel => "OSHA PEL",
            Self::NioshRel => "NIOSH REL",
            Self::Lowest => "lowest of all authorities known",
        }
    }

    /// The limits in a caption.
    pub(super) const fn limits_words(self) -> &'static str {
        match self {
            Self::OshaPel => "the limits of OSHA (PEL)",
            Self::NioshRel => "the limits of NIOSH (REL)",
            Self::Lowest => "the lowest limits known of all authorities",
        }
    }

    /// The limit of a vapour over `over`, by volume, with the name of its authority and where it stands.
    pub(super) fn limit(self, solvent: &Solvent, over: LimitKind) -> Option<Limit> {
        solvent
            .exposure_limits()
            .iter()
            .filter(|l| l.over == over && !l.droplets)
            .filter(|l| match self {
                Self::Lowest => true,
                Self::OshaPel | Self::NioshRel => l.name == self.words(),
            })
            .map(|l| (solvent.by_volume(l.value), l.name.clone(), solvent.exposure_limit_source(l)))
            .min_by(|a, b| a.0.si().total_cmp(&b.0.si()))
    }

    /// The limit for a short time: the short-term limit or the ceiling, whichever is lower, else three times the 8-hour limit.
    pub(super) fn short_limit(self, solvent: &Solvent) -> Option<Limit> {
        let stated = [LimitKind::ShortTerm, LimitKind::Ceiling].into_iter().filter_map(|kind| {
            let (limit, name, source) = self.limit(solvent, kind)?;
            Some((limit, format!("{name} ({kind})"), source))
        });
        if let Some(found) = stated.min_by(|a, b| a.0.si().total_cmp(&b.0.si())) {
            return Some(found);
        }
        let (limit, name, mut source) = self.limit(solvent, LimitKind::Shift)?;
        source.keys.push("EXCURSION".to_owned());
        source.citations.push(crate::source::cite("EXCURSION"));
        source.provenance = Provenance::FromMemory;
        Some((limit * EXCURSION, format!("{EXCURSION} × {name} (8 h)"), source))
    }
}

/// One vapour against its limit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ExposureTerm {
    /// The solvent.
    pub solvent: String,
    /// How much of the air it is, by volume.
    #[serde(with = "as_text")]
    pub concentration: Ratio,
    /// Its limit, by volume.
    #[serde(with = "as_text")]
    pub limit: Ratio,
    /// Whose limit.
    pub authority: String,
    /// Concentration over limit.
    #[serde(with = "as_text")]
    pub share: Number,
    /// Where the limit stands.
    pub source: PropertySource,
}

/// Several vapours against their limits.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MixtureExposure {
    /// `Σ C/L`; 1 is the limit.
    #[serde(with = "as_text")]
    pub sum: Number,
    /// Over what time the limits are means.
    pub over: LimitKind,
    /// The vapours, largest share first.
    pub terms: Vec<ExposureTerm>,
    /// Vapours without a limit: not counted, so that the sum is a lower bound.
    pub without_limit: Vec<String>,
    /// What to mind.
    pub cautions: Vec<String>,
}

/// Adds concentrations over their limits: `Σ C/L`.
///
/// # Errors
/// A [`crate::error::RangeError`] for a negative or infinite concentration, or a limit that is not above zero.
///
/// ```
/// use mistcoat::quantity::{Quantity, parse};
/// use mistcoat::safety::sum_of_shares;
/// // The example of 29 CFR 1910.1000(d)(2).
/// let pairs = [("500 ppm", "1000 ppm"), ("45 ppm", "200 ppm"), ("40 ppm", "200 ppm")];
/// let pairs: Vec<_> = pairs.iter().map(|(c, l)| Ok((parse(c)?, parse(l)?))).collect::<mistcoat::Result<_>>()?;
/// assert!((sum_of_shares(&pairs)?.si() - 0.925).abs() < 1e-12);
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn sum_of_shares(pairs: &[(Ratio, Ratio)]) -> Result<Number> {
    let mut sum = 0.0;
    for (concentration, limit) in pairs {
        check(*concentration)?;
        if !(limit.si() > 0.0 && limit.si() <= 1.0) {
            return Err(out_of_range(
                "exposure limit",
                show(*limit),
                "above 0 ppm",
                "see the safety data sheet",
            ));
        }
        sum += concentration.si() / limit.si();
    }
    Ok(Number::from_si(sum))
}

fn check(concentration: Ratio) -> Result<()> {
    if (0.0..=1.0).contains(&concentration.si()) {
        return Ok(());
    }
    Err(out_of_range(
        "concentration in the air",
        show(concentration),
        "0 ppm to 100 % by volume",
        "give the share of the air by volume, for example \"50 ppm\"",
    ))
}

/// Vapours in the air against the limits of an authority over a shift or a short time.
///
/// # Errors
/// As [`sum_of_shares`].
pub fn mixture_exposure(
    air: &[(Solvent, Concentration)],
    authority: Authority,
    over: LimitKind,
) -> Result<MixtureExposure> {
    add_up(air, over, |solvent| authority.limit(solvent, over))
}

/// Vapours in the air, as means over 15 minutes, against what a short time may reach: the short-term limit or the ceiling
/// of the authority, and where it gives neither, three times its 8-hour limit. Each term says which.
///
/// # Errors
/// As [`sum_of_shares`].
///
/// ```
/// use mistcoat::quantity::{Quantity, parse};
/// use mistcoat::safety::{Authority, short_term_exposure};
/// use mistcoat::solvent::{Concentration, find};
/// let air = [(find("acetone")?, Concentration::Volume(parse("300 ppm")?))];
/// // NIOSH states no short-term limit for acetone: 3 × 250 ppm stand in.
/// let short = short_term_exposure(&air, Authority::NioshRel)?;
/// assert!((short.sum.si() - 300.0 / 750.0).abs() < 1e-12 && short.terms[0].authority.starts_with("3 ×"));
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn short_term_exposure(
    air: &[(Solvent, Concentration)],
    authority: Authority,
) -> Result<MixtureExposure> {
    let mut found = add_up(air, LimitKind::ShortTerm, |solvent| authority.short_limit(solvent))?;
    if found.terms.iter().any(|t| t.source.keys.iter().any(|k| k == "EXCURSION")) {
        let before_the_last = found.cautions.len().saturating_sub(1);
        found.cautions.insert(
            before_the_last,
            "Where no short-term limit is known, three times the 8 h limit stands in: a rule for the rare short peak, not a \
             limit to work at (from memory)."
                .to_owned(),
        );
    }
    Ok(found)
}

/// What a limit is, whose it is, and where it stands.
pub(super) type Limit = (Ratio, String, PropertySource);

fn add_up(
    air: &[(Solvent, Concentration)],
    over: LimitKind,
    limit: impl Fn(&Solvent) -> Option<Limit>,
) -> Result<MixtureExposure> {
    let mut terms = Vec::with_capacity(air.len());
    let mut without_limit = Vec::new();
    for (solvent, concentration) in air.iter().filter(|(s, _)| s.id() != "water") {
        let concentration = solvent.by_volume(*concentration);
        check(concentration)?;
        let Some((limit, name, source)) = limit(solvent) else {
            without_limit.push(solvent.name().to_owned());
            continue;
        };
        terms.push(ExposureTerm {
            solvent: solvent.name().to_owned(),
            concentration,
            limit,
            authority: name,
            share: Number::from_si(concentration.si() / limit.si()),
            source,
        });
    }
    terms.sort_by(|a, b| b.share.si().total_cmp(&a.share.si()));
    let pairs: Vec<(Ratio, Ratio)> = terms.iter().map(|t| (t.concentration, t.limit)).collect();
    let sum = sum_of_shares(&pairs)?;
    let mut cautions = Vec::new();
    if sum.si() > 1.0 {
        cautions.push(format!(
            "The limits are passed {} times: more air, less solvent, fewer people, or stop.",
            digits(sum.si(), 2)
        ));
    }
    if !without_limit.is_empty() {
        cautions.push(format!(
            "No {over} limit is known here for {}: the sum is a lower bound; see the safety data sheet.",
            without_limit.join(", ")
        ));
    }
    if terms.iter().any(|t| t.source.is_from_memory()) {
        cautions.push("Some limits are from memory: check them against the safety data sheet.".to_owned());
    }
    cautions.push(
        "A limit is no line between safe and harmful. The safety data sheets, local codes and licensed practice decide."
            .to_owned(),
    );
    Ok(MixtureExposure { sum, over, terms, without_limit, cautions })
}

impl MixtureExposure {
    /// Vapours, limits, shares, sources and cautions.
    pub fn table(&self) -> Table {
        let words = |pick: &dyn Fn(&ExposureTerm) -> String| {
            self.terms.iter().map(|t| Cell::words(pick(t))).collect::<Vec<_>>()
        };
        let ppm = |r: Ratio| show_in(r, "ppm", 3).unwrap_or_default();
        let column = |key: &str, title: &str, cells| Column {
            key: key.to_owned(),
            title: title.to_owned(),
            unit: String::new(),
            cells,
        };
        let numbers = |pick: &dyn Fn(&ExposureTerm) -> (String, f64)| {
            self.terms.iter().map(pick).map(|(text, v)| Cell::number(text, v)).collect::<Vec<_>>()
        };
        Table {
            caption: format!(
                "Vapours against their {} limits: sum of shares {} (1 is the limit)",
                self.over,
                digits(self.sum.si(), 2)
            ),
            columns: vec![
                column("solvent", "solvent", words(&|t| t.solvent.clone())),
                Column {
                    key: "concentration".into(),
                    title: "in the air".into(),
                    unit: "ppm".into(),
                    cells: numbers(&|t| (ppm(t.concentration), t.concentration.si() * 1e6)),
                },
                Column {
                    key: "limit".into(),
                    title: "limit".into(),
                    unit: "ppm".into(),
                    cells: numbers(&|t| (ppm(t.limit), t.limit.si() * 1e6)),
                },
                column("authority", "whose", words(&|t| t.authority.clone())),
                Column {
                    key: "share".into(),
                    title: "share".into(),
                    unit: "1".into(),
                    cells: numbers(&|t| (digits(t.share.si(), 2), t.share.si())),
                },
                column(
                    "source",
                    "source",
                    words(&|t| {
                        let memory = if t.source.is_from_memory() { " (from memory)" } else { "" };
                        format!("{}{memory}", t.source)
                    }),
                ),
            ],
            notes: self.cautions.clone(),
        }
    }
}

/// Mean concentration over an eight-hour shift of pieces of time, nothing in the rest.
///
/// # Errors
/// A [`crate::error::RangeError`] for a bad concentration, a negative time, or more than 24 h in all.
///
/// ```
/// use mistcoat::quantity::{parse, to};
/// use mistcoat::safety::time_weighted_average;
/// // The example of 29 CFR 1910.1000(d)(1): 2 h at 150, 2 h at 75, 4 h at 50 ppm.
/// let day = [(parse("150 ppm")?, parse("2 h")?), (parse("75 ppm")?, parse("2 h")?), (parse("50 ppm")?, parse("4 h")?)];
/// assert!((to(time_weighted_average(&day)?, "ppm")? - 81.25).abs() < 1e-9);
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn time_weighted_average(pieces: &[(Ratio, Time)]) -> Result<Ratio> {
    let (mut sum, mut total) = (0.0, 0.0);
    for (concentration, time) in pieces {
        check(*concentration)?;
        if !(0.0..=86_400.0).contains(&time.si()) {
            return Err(out_of_range(
                "time in the air",
                show(*time),
                "0 s to 24 h",
                "give each stretch of the day",
            ));
        }
        sum += concentration.si() * time.si();
        total += time.si();
    }
    if total > 86_400.0 {
        return Err(out_of_range(
            "time in the air",
            show(Time::from_si(total)),
            "24 h in all",
            "count one day",
        ));
    }
    Ok(Ratio::from_si(sum / SHIFT_S))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::parse;
    use crate::solvent;

    fn air(parts: &[(&str, &str)]) -> Vec<(Solvent, Concentration)> {
        parts
            .iter()
            .map(|(name, ppm)| (solvent::find(name).unwrap(), Concentration::Volume(parse(ppm).unwrap())))
            .collect()
    }

    // The ternary thinner of the drying notes in a room: 55, 19.5, 8.2 ppm against limits of OSHA and of NIOSH (from
    // memory): 55/1000 + 19.5/150 + 8.2/50 = 0.349 by PEL.
    #[test]
    fn ternary_thinner_in_a_room() {
        let parts =
            air(&[("acetone", "55 ppm"), ("n-butyl acetate", "19.5 ppm"), ("2-butoxyethanol", "8.2 ppm")]);
        let osha = mixture_exposure(&parts, Authority::OshaPel, LimitKind::Shift).unwrap();
        approx::assert_relative_eq!(osha.sum.si(), 0.349, max_relative = 2e-3);
        assert_eq!(osha.terms[0].solvent, "2-butoxyethanol");
        let lowest = mixture_exposure(&parts, Authority::Lowest, LimitKind::Shift).unwrap();
        let niosh = mixture_exposure(&parts, Authority::NioshRel, LimitKind::Shift).unwrap();
        assert!(lowest.sum.si() >= niosh.sum.si() && niosh.sum.si() > osha.sum.si());
        assert!(lowest.cautions.iter().any(|c| c.contains("decide")));
        let text = osha.table().to_text();
        assert!(text.contains("29 CFR 1910.1000") && text.contains("OSHA"), "{text}");
    }

    #[test]
    fn what_has_no_limit_is_named() {
        let parts = air(&[("acetone", "2000 ppm"), ("propylene glycol", "5 ppm")]);
        let found = mixture_exposure(&parts, Authority::OshaPel, LimitKind::Shift).unwrap();
        assert_eq!(found.without_limit, ["propylene glycol"]);
        assert!(found.cautions[0].contains("passed 2") && found.cautions[1].contains("lower bound"));
    }

    #[rstest::rstest]
    #[case("-1 ppm", "200 ppm")]
    #[case("2000000 ppm", "200 ppm")]
    #[case("5 ppm", "0 ppm")]
    fn bad_input(#[case] c: &str, #[case] l: &str) {
        assert!(sum_of_shares(&[(parse(c).unwrap(), parse(l).unwrap())]).is_err());
        assert!(time_weighted_average(&[(parse("5 ppm").unwrap(), parse("25 h").unwrap())]).is_err());
        assert!(sum_of_shares(&[(Ratio::from_si(f64::NAN), parse("1 ppm").unwrap())]).is_err());
    }
}
