//! What a coat must hide, where it must, and the dry film that this takes.

use super::jobs::Job;
use crate::error::Result;
use crate::hiding::{Criterion, Ground, HidingPower};
use crate::quantity::{Length, Quantity, Ratio, as_text, show};
use serde::{Deserialize, Serialize};

/// How well the colour hides, and what lies under it.
///
/// Takes the place of a job's dry film where the job asks for a contrast ([`Job::contrast`]): the passes then come from
/// [`HidingPower::thickness_to_hide`].
///
/// ```
/// use mistcoat::air::Room;
/// use mistcoat::bench::{Cover, Job, Setup};
/// use mistcoat::blend::{Basis, Blend};
/// use mistcoat::hiding::{Ground, HidingPower};
/// use mistcoat::paint::{Family, Paint};
/// use mistcoat::quantity::{Reflectance, RelativeHumidity, parse};
/// use mistcoat::spray::Airbrush;
/// let cream = Paint::typical(Family::SolventLacquer, "deckhouse cream")?;
/// let thinner = Blend::from_names(&[("acetone", 30.0), ("n-butyl acetate", 70.0)], Basis::Volume, None)?;
/// let gun = Airbrush::new(parse("0.3 mm")?, parse("20 psi")?, parse("80 mm")?)?;
/// let room = Room::new(parse("21 °C")?, RelativeHumidity::new(0.5)?)?;
/// let mut setup = Setup::new(&cream, &thinner, 1.0, &gun, &room);
/// let over = |reflectance: f64| -> mistcoat::Result<Cover> {
///     let ground = Ground::Undercoat(Reflectance::new(reflectance)?);
///     Ok(Cover { power: HidingPower::typical("cream")?, ground })
/// };
/// setup.cover = Some(over(0.10)?);
/// let over_red_oxide = setup.judge(&Job::named("base coat")?)?;
/// setup.cover = Some(over(0.65)?);
/// let over_pale_primer = setup.judge(&Job::named("base coat")?)?;
/// assert!(over_pale_primer.passes < over_red_oxide.passes);
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cover {
    /// The paint: fitted on a card, or typical of its colour.
    pub power: HidingPower,
    /// What it is sprayed over.
    pub ground: Ground,
}

/// Dry film to build, and why.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Target {
    /// The dry film.
    #[serde(with = "as_text")]
    pub dry_film: Length,
    /// Contrast at which the ground counts as hidden; none where the job's own dry film is the target.
    #[serde(default, with = "as_text::option", skip_serializing_if = "Option::is_none")]
    pub contrast: Option<Ratio>,
    /// Standard uncertainty of the logarithm of the film; 0 for a film that was asked for.
    pub ln_std: f64,
    /// What it is for: `hides a black and white card to 98 %`, `asked for base coat`.
    pub reason: String,
}

impl Target {
    /// The film of the job, or the one that hides, where the job asks for a contrast and the cover is known.
    pub(super) fn of(job: &Job, cover: Option<&Cover>) -> Result<Self> {
        let Some((cover, contrast)) = cover.zip(job.contrast) else {
            return Ok(Self {
                dry_film: job.dry_film,
                contrast: None,
                ln_std: 0.0,
                reason: format!("asked for {}", job.name),
            });
        };
        let film = cover.power.thickness_to_hide(cover.ground, Criterion::new(contrast)?)?.estimate;
        Ok(Self {
            dry_film: film.best,
            contrast: Some(contrast),
            ln_std: if film.best.si() > 0.0 { film.relative_std() } else { 0.0 },
            reason: format!("with which {} hides {} to {}", cover.power.name(), cover.ground, show(contrast)),
        })
    }

    /// `12 µm asked for base coat`, `31 µm with which cream hides a black and white card to 98 %`.
    pub(super) fn words(&self) -> String {
        format!("{} of dry film {}", show(self.dry_film), self.reason)
    }
}
