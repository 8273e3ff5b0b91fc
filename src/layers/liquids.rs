//! May this liquid go into that paint, clean it off, or touch that plastic?
//!
//! Three things are looked at: the rule of the family (water throws solvent resins out, strong solvent makes
//! dispersions clump), whether the liquids stay one liquid, and the Hansen distance to the binder: RED up to 1
//! dissolves, beyond it does not. The distance counts for the fresh mix **and as it dries**: where the good solvents
//! leave first, the last liquid may be none, and it throws the binder out in the film, which dries dull, white or
//! brittle.
//!
//! **Limits**: most spheres of binders are from memory, so that RED between 1 and 1.2 asks for a trial; alcohol
//! acrylics and oils have no published sphere and rest on the family rule. Against published immersions of six liquids
//! (`tests/data/plastic_immersion.csv`) the distance ranks well (rank correlation -0.94 for PVC, -0.78 for ABS), but
//! the radius misses: three of four liquids that dissolved ABS lie inside it, none of the four that attacked PVC. So
//! no number here calls a solvent on a plastic fine.

use super::judgement::{Judgement, Reason, Verdict};
use crate::air::Room;
use crate::blend::{Basis, Blend, hansen};
use crate::dose::{Parts, Thinning};
use crate::error::{Error, Result, unknown_name};
use crate::film::Film;
use crate::names::fold;
use crate::paint::{Family, Mix, Paint};
use crate::quantity::{Length, Quantity, Ratio, RelativeHumidity, Temperature, VolumeFraction, digits, show};
use crate::solvent::{PolystyreneAttack, Solvent};

/// RED up to this dissolves; up to the second it may, since the spheres are uncertain (judgement).
const DISSOLVES: f64 = 1.0;
const DOUBTFUL: f64 = 1.2;
/// RED of what is left in a drying film beyond which nobody need try (judgement).
const HOPELESS: f64 = 1.4;
/// Shares of the volatile mass lost at which the liquid left in the film is looked at.
const STAGES: [f64; 3] = [0.5, 0.75, 0.9];
const FRESH: &str = "the fresh mix";
/// The film on which that is watched: 25 µm in a room of 21 °C and 50 % humidity.
const FILM_M: f64 = 25e-6;
const ROOM: (f64, f64) = (294.15, 0.5);
/// Water in a liquid from which it counts as watery.
const WATERY: f64 = 0.5;

/// Polymers that stand for the binder of a family: one of them is likely in the bottle. Empty: no sphere known.
const fn binders(family: Family) -> &'static [&'static str] {
    match family {
        Family::SolventLacquer => &["nitrocellulose", "poly(ethyl methacrylate)"],
        Family::AlkydEnamel => &["long-oil alkyd"],
        Family::WaterborneAcrylic | Family::AlcoholAcrylic | Family::ArtistsOil => &[],
    }
}

/// Will this thinner dissolve the paint, fresh and as it dries, or curdle it? Judged at equal parts.
///
/// # Errors
/// Those of [`Paint::thin`] and of the drying engine, except a blend that splits, which is a reason.
///
/// ```
/// use mistcoat::blend::{Basis, Blend};
/// use mistcoat::layers::{Verdict, thinner_with_paint};
/// use mistcoat::paint::{Family, Paint};
/// let lacquer = Paint::typical(Family::SolventLacquer, "hull green")?;
/// let spirit = Blend::from_names(&[("white spirit", 1.0)], Basis::Volume, None)?;
/// assert_ne!(thinner_with_paint(&lacquer, &spirit)?.verdict, Verdict::Fine);
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn thinner_with_paint(paint: &Paint, thinner: &Blend) -> Result<Judgement> {
    let question = format!("{} as thinner for {} ({})", thinner.label(), paint.name(), paint.family());
    let mut reasons = Vec::new();
    match paint.thin(thinner, Thinning::from_parts(Parts { thinner: 1.0, paint: 1.0 })?) {
        Ok(mix) => {
            reasons.extend(mix.compatibility().into_iter().map(|w| Reason {
                verdict: Verdict::No,
                text: w.message,
                source: "compat-practice".to_owned(),
            }));
            reasons.extend(as_it_dries(&mix, &mix.volatile()?)?);
        }
        Err(Error::PhaseSplit(split)) => reasons.push(Reason {
            verdict: Verdict::No,
            text: format!("the liquids do not stay one: {split}"),
            source: "compat-practice".to_owned(),
        }),
        Err(e) => return Err(e),
    }
    if binders(paint.family()).is_empty() {
        reasons.push(Reason {
            verdict: Verdict::TestFirst,
            text: format!("no Hansen sphere is published for the binder of a {}", paint.family()),
            source: "compat-practice".to_owned(),
        });
    }
    Ok(Judgement::new(
        question,
        reasons,
        "three drops of paint and three of thinner on glass: stir, tilt, look for crumbs or strings; let it dry and \
         look for haze",
    ))
}

/// RED of the fresh mix and of what is left in the film, for each likely binder.
fn as_it_dries(mix: &Mix, volatile: &Blend) -> Result<Vec<Reason>> {
    let family = mix.paint().family();
    if binders(family).is_empty() {
        return Ok(Vec::new());
    }
    let room = Room::new(Temperature::from_si(ROOM.0), RelativeHumidity::new(ROOM.1)?)?;
    let solids = VolumeFraction::new(mix.volume_solids().best.si())?;
    let dry = Film::new(volatile, solids, Length::from_si(FILM_M), &room)?.dry()?;
    let mut stages = vec![(FRESH.to_owned(), volatile.clone())];
    for share in STAGES.map(Ratio::from_si) {
        // A coat that never loses so much has nothing to be looked at there.
        let Ok(time) = dry.time_to_lose(share) else { break };
        let left: Vec<(String, f64)> =
            dry.composition_at(time)?.into_iter().map(|(n, x)| (n, x.si())).collect();
        if let Some(blend) = of_species(volatile, &left)? {
            stages.push((format!("what is left when {} has gone", show(share)), blend));
        }
    }
    binders(family).iter().map(|binder| worst_stage(binder, &stages)).collect()
}

/// The species left, by mass, as a blend; water that only the air brought stays out.
fn of_species(volatile: &Blend, left: &[(String, f64)]) -> Result<Option<Blend>> {
    let parts: Vec<(Solvent, f64)> = volatile
        .species()
        .iter()
        .filter_map(|s| {
            let share = left.iter().find(|(name, _)| name == s.solvent.name())?.1;
            (share > 1e-6).then(|| (s.solvent.clone(), share))
        })
        .collect();
    if parts.is_empty() {
        return Ok(None);
    }
    Blend::new(parts, Basis::Mass, None).map(Some)
}

fn worst_stage(binder: &str, stages: &[(String, Blend)]) -> Result<Reason> {
    let mut worst: Option<(f64, &str)> = None;
    for (stage, blend) in stages {
        let red = blend.red(binder)?.red.si();
        if worst.is_none_or(|(most, _)| red > most) {
            worst = Some((red, stage));
        }
    }
    let (red, stage) = worst.unwrap_or((0.0, FRESH));
    let (verdict, does) = match red {
        r if r <= DISSOLVES => (Verdict::Fine, "dissolves it throughout"),
        r if r <= DOUBTFUL => (Verdict::TestFirst, "may not hold it dissolved"),
        _ => (Verdict::No, "throws it out"),
    };
    let (verdict, hint) = if verdict == Verdict::No && stage != FRESH {
        let verdict = if red > HOPELESS { verdict } else { Verdict::TestFirst };
        (verdict, ", so that the film may dry dull or white")
    } else {
        (verdict, "")
    };
    Ok(Reason {
        verdict,
        text: format!("{binder}: {stage} {does} (RED {}, 1 is the edge){hint}", digits(red, 2)),
        source: hansen::polymer(binder)?.source.clone(),
    })
}

/// Will this liquid take the paint off: wet paint in the gun, or a dry film?
///
/// # Errors
/// As [`thinner_with_paint`].
pub fn cleaner_with_paint(paint: &Paint, cleaner: &Blend, dried: bool) -> Result<Judgement> {
    let family = paint.family();
    let state = if dried { "dried" } else { "wet" };
    let question = format!("{} to clean off {state} {} ({family})", cleaner.label(), paint.name());
    let trial = "a drop on a dry brush-out and a wipe after ten seconds; for the gun, catch the first rinse in a glass \
                 and look for crumbs";
    if !dried {
        let mut wet = thinner_with_paint(paint, cleaner)?;
        // What throws the binder out in a drying film is rinsed away long before.
        wet.reasons.retain(|r| !r.text.contains("what is left when"));
        return Ok(Judgement::new(question, wet.reasons, trial));
    }
    let reasons = match family {
        Family::AlkydEnamel | Family::ArtistsOil => vec![Reason {
            verdict: Verdict::TestFirst,
            text: "a film that has taken up oxygen no longer dissolves; strong solvent swells and lifts it, and what \
                   is under it with it"
                .to_owned(),
            source: "coats-practice".to_owned(),
        }],
        Family::WaterborneAcrylic => {
            let watery = cleaner.water_volume_fraction() > WATERY;
            vec![Reason {
                verdict: if watery { Verdict::No } else { Verdict::TestFirst },
                text: if watery {
                    "a coalesced dispersion no longer comes off with water".to_owned()
                } else {
                    "alcohols and glycol ethers soften a dried acrylic dispersion; it comes off as crumbs".to_owned()
                },
                source: "coats-practice".to_owned(),
            }]
        }
        Family::AlcoholAcrylic => vec![Reason {
            verdict: if cleaner.water_volume_fraction() > WATERY { Verdict::No } else { Verdict::TestFirst },
            text: "alcohols and its own thinner dissolve it again, water alone does not".to_owned(),
            source: "coats-practice".to_owned(),
        }],
        Family::SolventLacquer => {
            let fresh = [("it".to_owned(), cleaner.clone())];
            binders(family).iter().map(|b| worst_stage(b, &fresh)).collect::<Result<_>>()?
        }
    };
    Ok(Judgement::new(question, reasons, trial))
}

/// What a part is made of, and the polymer whose sphere stands for it.
const MATERIALS: [(&str, &[&str], Option<&str>); 12] = [
    ("polystyrene", &["ps", "styrene", "hips"], Some("polystyrene")),
    ("abs", &["abs plastic"], Some("ABS")),
    ("pvc", &["vinyl", "pvc foam"], Some("PVC")),
    ("pmma", &["acrylic sheet", "acrylic glass"], Some("PMMA")),
    ("polycarbonate", &["pc"], Some("polycarbonate")),
    ("resin", &["cast resin", "epoxy", "printed resin"], Some("epoxy")),
    ("wood", &["timber", "plywood"], None),
    ("card", &["paper", "cardboard"], None),
    ("glass", &[], None),
    ("steel", &["iron", "tin plate"], None),
    ("brass", &["copper"], None),
    ("aluminium", &["aluminum"], None),
];

/// Does this liquid attack that material? Never a bare "fine" for a solvent on polystyrene.
///
/// `material`: polystyrene, ABS, PVC, PMMA, polycarbonate, resin, wood, card, glass, steel, brass or aluminium.
///
/// # Errors
/// [`crate::error::UnknownName`] for another material; a solvent without Hansen parameters.
///
/// ```
/// use mistcoat::blend::{Basis, Blend};
/// use mistcoat::layers::{Verdict, thinner_on_substrate};
/// let acetone = Blend::from_names(&[("acetone", 1.0)], Basis::Volume, None)?;
/// assert_eq!(thinner_on_substrate(&acetone, "polystyrene")?.verdict, Verdict::No);
/// assert_eq!(thinner_on_substrate(&acetone, "glass")?.verdict, Verdict::Fine);
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn thinner_on_substrate(thinner: &Blend, material: &str) -> Result<Judgement> {
    let wanted = fold(material);
    let found = MATERIALS
        .iter()
        .find(|(name, also, _)| fold(name) == wanted || also.iter().any(|a| fold(a) == wanted))
        .ok_or_else(|| {
            let known =
                MATERIALS.iter().flat_map(|(name, also, _)| core::iter::once(name).chain(also.iter()));
            unknown_name("material", material, known.copied(), "take the one nearest to it, and try on scrap")
        })?;
    let (name, _, polymer) = *found;
    let question = format!("{} on {name}", thinner.label());
    let reasons = match polymer {
        Some(polymer) => on_plastic(thinner, name, polymer)?,
        None => on_plain(thinner, name),
    };
    Ok(Judgement::new(
        question,
        reasons,
        "a drop on a piece of the same sprue or an inner face, left until dry: look for gloss gone dull, stickiness, \
         hair cracks at bends",
    ))
}

fn on_plain(thinner: &Blend, name: &str) -> Vec<Reason> {
    let fibres = matches!(name, "wood" | "card");
    if fibres && thinner.water_volume_fraction() > WATERY {
        return vec![Reason {
            verdict: Verdict::TestFirst,
            text: format!("water raises the grain of {name} and warps thin parts: seal it first"),
            source: "coats-practice".to_owned(),
        }];
    }
    vec![Reason {
        verdict: Verdict::Fine,
        text: format!("solvents of paints do not attack {name} itself; glue lines and fillers may be"),
        source: "coats-practice".to_owned(),
    }]
}

fn on_plastic(thinner: &Blend, name: &str, polymer: &str) -> Result<Vec<Reason>> {
    let mut out = Vec::new();
    if name == "polystyrene" {
        for i in thinner.ingredients() {
            let (verdict, does) = match i.solvent.polystyrene_attack() {
                Some(PolystyreneAttack::Dissolves) => (Verdict::No, "dissolves or softens polystyrene"),
                Some(PolystyreneAttack::Slow) => {
                    (Verdict::TestFirst, "softens it slowly or crazes parts under stress")
                }
                _ => continue,
            };
            out.push(Reason {
                verdict,
                text: format!(
                    "{} ({} by volume) {does}; through a dry primer, in thin mists, people do it all the same",
                    i.solvent.name(),
                    show(Ratio::from_si(i.volume_fraction))
                ),
                source: "PS_EXPERIENCE_mem".to_owned(),
            });
        }
    }
    if thinner.water_volume_fraction() > 0.999 {
        out.push(Reason {
            verdict: Verdict::Fine,
            text: format!("water does not attack {name}"),
            source: "coats-practice".to_owned(),
        });
        return Ok(out);
    }
    let red = thinner.red(polymer)?.red.si();
    let (verdict, does) = if red <= DISSOLVES {
        (Verdict::No, "swells or dissolves it")
    } else {
        // Small molecules act beyond the radius: no number allows a solvent on a plastic unseen.
        (Verdict::TestFirst, "lies outside its sphere, which small molecules do not always heed")
    };
    out.push(Reason {
        verdict,
        text: format!("{polymer}: RED {} {does}", digits(red, 2)),
        source: hansen::polymer(polymer)?.source.clone(),
    });
    Ok(out)
}

#[cfg(test)]
mod tests;
