//! The coat of one ratio: laid as stated or by the gun, and what is read off while it dries.

use super::Compare;
use crate::air::Room;
use crate::answer::Answer;
use crate::bench::comparison::Sprayed;
use crate::bench::{Setup, or_warning};
use crate::blend::Blend;
use crate::error::Result;
use crate::estimate::{Estimate, ModelError};
use crate::film::{Film, Ripple, Substrate};
use crate::paint::Mix;
use crate::quantity::{Length, Quantity, Ratio, Temperature, Time};
use crate::solvent::PolystyreneAttack;
use crate::spray::{Airbrush, Shot};
use crate::warning::Warning;

/// Shares below this are left out of what a reader is shown.
const LEAST_SHARE: f64 = 0.005;

/// A wet coat, before it dries.
pub(super) struct Coat {
    pub(super) wet_film: Length,
    pub(super) dry_film: Estimate<Length>,
    /// None when the spray lands as dust.
    pub(super) film: Option<Film>,
    pub(super) sprayed: Option<Sprayed>,
}

impl Coat {
    /// As stated: of the mix as it is in the cup.
    pub(super) fn stated(mix: &Mix, wet_film: Length, room: &Room) -> Result<Self> {
        let film = Some(Film::of_mix(mix, wet_film, room)?);
        Ok(Self { wet_film, dry_film: mix.dry_film(wet_film)?, film, sprayed: None })
    }

    /// As the gun lays it: so many passes wet in wet, or a wet film that takes as many as it takes.
    pub(super) fn sprayed(
        question: &Compare,
        (gun, thinner_per_paint): (&Airbrush, f64),
        mix: &Mix,
        room: &Room,
        warnings: &mut Vec<Warning>,
    ) -> Result<Self> {
        let shot = gun.spray(mix, room)?;
        warnings.extend(shot.warnings().iter().cloned());
        let setup = Setup {
            wet_passes: question.wet_passes,
            wet_film: question.wet_film,
            substrate: question.substrate.clone(),
            ..Setup::new(&question.paint, &question.thinner, thinner_per_paint, gun, room)
        };
        let judged = setup.judge(&question.wanted()?)?;
        let dry_per_pass = shot.dry_film_per_pass()?;
        let film = match question.wet_film {
            Some(wet) => shot.film_of(wet),
            None => shot.film(question.wet_passes),
        };
        Ok(Self {
            wet_film: judged.wet_film,
            dry_film: dry_film(question, &shot, &dry_per_pass.estimate),
            film: or_warning(film, "no-film", warnings)?,
            sprayed: Some(Sprayed {
                drop_size: shot.drop_size()?,
                flight_loss: shot.flight_loss()?,
                wet_per_pass: shot.wet_film_per_pass()?,
                dry_per_pass,
                judged,
            }),
        })
    }
}

/// Of a stated wet film only the solids are uncertain; of passes, all that a pass hangs on.
fn dry_film(question: &Compare, shot: &Shot, per_pass: &Estimate<Length>) -> Estimate<Length> {
    if let Some(wet) = question.wet_film {
        let std = shot.mix().volume_solids().relative_std();
        let best = wet * shot.deposit_solids().get();
        return Estimate::relative(best, &[ModelError::new("volume solids", std)]);
    }
    let passes = f64::from(question.wet_passes);
    let times = |film: Length| film * passes;
    Estimate {
        best: times(per_pass.best),
        low: times(per_pass.low),
        high: times(per_pass.high),
        ..per_pass.clone()
    }
}

/// What a coat does, as far as it can be had; nothing of a spray that lands as dust.
pub(super) struct Dries {
    pub(super) flash_off: Option<Answer<Time>>,
    pub(super) left_at_flash_off: Vec<(String, f64)>,
    pub(super) coldest: Temperature,
    pub(super) touch_dry: Option<Answer<Time>>,
    pub(super) recoat: Option<Answer<Time>>,
    pub(super) blush_limit: Option<Answer<Ratio>>,
    pub(super) ripple_left: Option<Answer<Ratio>>,
}

impl Dries {
    pub(super) fn of(
        film: Option<Film>,
        volatile: &Blend,
        room: &Room,
        warnings: &mut Vec<Warning>,
    ) -> Result<Self> {
        let Some(film) = film else {
            return Ok(Self {
                flash_off: None,
                left_at_flash_off: Vec::new(),
                coldest: room.temperature(),
                touch_dry: None,
                recoat: None,
                blush_limit: None,
                ripple_left: None,
            });
        };
        let dry = film.dry()?;
        let flash_off = or_warning(dry.flash_off(), "no-flash-off", warnings)?;
        let left_at_flash_off = match &flash_off {
            Some(flash) => {
                warnings.extend(flash.warnings.iter().cloned());
                as_poured(volatile, dry.composition_at(flash.best())?)
            }
            None => Vec::new(),
        };
        let touch_dry = or_warning(dry.touch_dry(), "no-touch-dry", warnings)?;
        // A binder without the one has not the other, for the same reason: told once.
        let mut why = Vec::new();
        let recoat = or_warning(dry.block_free(), "no-recoat", &mut why)?;
        if touch_dry.is_some() {
            warnings.extend(why);
        }
        // A waterborne coat has no limit and needs no word about it; dew in this room is told by the drying.
        let blush_limit = or_warning(dry.blush(), "no-blush-limit", &mut Vec::new())?.map(|b| b.limit);
        let ripple_left = or_warning(dry.levelling(&Ripple::usual()?), "no-levelling", warnings)?;
        if let Some(ripple) = &ripple_left {
            warnings.extend(ripple.warnings.iter().cloned());
        }
        let coldest = dry.coldest();
        Ok(Self { flash_off, left_at_flash_off, coldest, touch_dry, recoat, blush_limit, ripple_left })
    }
}

/// Gathers species under the liquid that brought most of them; water from the air stands by itself.
fn as_poured(volatile: &Blend, species: Vec<(String, Ratio)>) -> Vec<(String, f64)> {
    let mut left: Vec<(String, f64)> = Vec::new();
    for (name, share) in species {
        let poured = volatile.species().iter().find(|s| s.solvent.name() == name);
        let name = poured.map_or(name, |s| volatile.ingredients()[s.ingredient].solvent.name().to_owned());
        match left.iter_mut().find(|(known, _)| *known == name) {
            Some((_, sum)) => *sum += share.si(),
            None => left.push((name, share.si())),
        }
    }
    left.retain(|(_, share)| *share > LEAST_SHARE);
    left.sort_by(|a, b| b.1.total_cmp(&a.1));
    left
}

/// Warns when a liquid of the coat is known to dissolve the polystyrene it is laid on.
pub(super) fn attack(volatile: &Blend, substrate: &Substrate) -> Option<Warning> {
    if !matches!(substrate, Substrate::Plate { material, .. } if material == "polystyrene") {
        return None;
    }
    let names: Vec<&str> = volatile
        .ingredients()
        .iter()
        .filter(|i| i.solvent.polystyrene_attack() == Some(PolystyreneAttack::Dissolves))
        .map(|i| i.solvent.name())
        .collect();
    let verb = if names.len() == 1 { "dissolves or softens" } else { "dissolve or soften" };
    (!names.is_empty()).then(|| {
        Warning::new(
            "attacks-polystyrene",
            format!(
                "{} {verb} polystyrene (general experience, from memory): prime the plastic, mist thin \
                 coats and try on scrap of the same part first",
                names.join(", ")
            ),
        )
    })
}
