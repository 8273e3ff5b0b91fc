//! One layer of a session, as its finisher states it.

use super::habits::Habits;
use crate::bench::{Job, Setup};
use crate::blend::Blend;
use crate::error::{Result, out_of_range};
use crate::hiding::HidingPower;
use crate::layers::Place;
use crate::paint::{Paint, refuse_two_pack};
use crate::quantity::{Area, Quantity, Time, as_text, show};
use crate::rinse::Shade;
use serde::{Deserialize, Serialize};

/// Areas of the face of a part, m2: a square millimetre to a hundred square metres.
const AREA_M2: (f64, f64) = (1e-6, 100.0);
/// Longest time for masking, s.
const MASKING_S: f64 = 86_400.0;
/// Longest wait that can be asked for, s.
const WAIT_S: f64 = 365.0 * 86_400.0;

/// A layer: paint, thinner and gun as a judged [`Setup`], the job, and the area it covers on one part.
///
/// ```
/// use mistcoat::air::Room;
/// use mistcoat::bench::{Job, PlanLayer, Setup};
/// use mistcoat::blend::{Basis, Blend};
/// use mistcoat::layers::Place;
/// use mistcoat::paint::{Family, Paint};
/// use mistcoat::quantity::{RelativeHumidity, parse};
/// use mistcoat::spray::Airbrush;
/// let green = Paint::typical(Family::SolventLacquer, "hull green")?;
/// let thinner = Blend::from_names(&[("acetone", 30.0), ("n-butyl acetate", 70.0)], Basis::Volume, None)?;
/// let gun = Airbrush::new(parse("0.3 mm")?, parse("20 psi")?, parse("80 mm")?)?;
/// let room = Room::new(parse("21 °C")?, RelativeHumidity::new(0.5)?)?;
/// let setup = Setup::new(&green, &thinner, 1.0, &gun, &room);
/// let hull = PlanLayer::new(&setup, Job::named("over a mask")?, parse("300 cm2")?).masked()?;
/// assert_eq!((hull.name.as_str(), hull.place), ("hull green", Place::Between));
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlanLayer {
    /// What it is, for example "hull green"; the name of the paint unless changed.
    pub name: String,
    /// Where in the stack it belongs.
    pub place: Place,
    /// Paint, thinner and ratio, gun, passes wet in wet, room, part.
    pub setup: Setup,
    /// Its targets.
    pub job: Job,
    /// Area that it covers on one part.
    #[serde(with = "as_text")]
    pub area: Area,
    /// Time for masking before it; None when nothing is masked.
    #[serde(default, with = "as_text::option", skip_serializing_if = "Option::is_none")]
    pub mask: Option<Time>,
    /// Its colour as the next one sees it, for rinsing; that of `hiding`, or of the setup's cover, unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shade: Option<Shade>,
    /// Its hiding power: it then gets the passes that hide, when they are more than those of the job.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hiding: Option<HidingPower>,
    /// Wait wanted before the next layer. Taken when it is safe; longer when it must be.
    #[serde(default, with = "as_text::option", skip_serializing_if = "Option::is_none")]
    pub wait: Option<Time>,
    /// Cleaner after this layer; that of the session unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cleaner: Option<Blend>,
}

impl PlanLayer {
    /// A layer between primer and finish, named like its paint, nothing masked.
    pub fn new(setup: &Setup, job: Job, area: Area) -> Self {
        Self {
            name: setup.paint.name().to_owned(),
            place: Place::Between,
            setup: setup.clone(),
            job,
            area,
            mask: None,
            shade: None,
            hiding: None,
            wait: None,
            cleaner: None,
        }
    }

    /// The same layer under another name.
    #[must_use]
    pub fn named(mut self, name: &str) -> Self {
        name.clone_into(&mut self.name);
        self
    }

    /// The same layer at this place.
    #[must_use]
    pub fn at(mut self, place: Place) -> Self {
        self.place = place;
        self
    }

    /// The same layer, masked before it, in the usual time.
    ///
    /// # Errors
    /// A [`crate::error::DataError`] when the embedded table is damaged.
    pub fn masked(mut self) -> Result<Self> {
        self.mask = Some(Habits::usual()?.mask.best);
        Ok(self)
    }

    /// The same layer with the shade of its colour.
    #[must_use]
    pub fn with_shade(mut self, shade: Shade) -> Self {
        self.shade = Some(shade);
        self
    }

    /// The same layer with its hiding power.
    #[must_use]
    pub fn with_hiding(mut self, hiding: HidingPower) -> Self {
        self.hiding = Some(hiding);
        self
    }

    /// The paint.
    pub fn paint(&self) -> &Paint {
        &self.setup.paint
    }

    /// The shade, given or that of the hiding power.
    pub(super) fn shade(&self) -> Result<Option<Shade>> {
        let hiding = self.hiding.as_ref().or(self.setup.cover.as_ref().map(|c| &c.power));
        match (&self.shade, hiding) {
            (Some(shade), _) => Ok(Some(shade.clone())),
            (None, Some(hiding)) => Ok(Some(Shade::of(hiding)?)),
            (None, None) => Ok(None),
        }
    }

    /// Whether it can be a layer.
    pub(super) fn check(&self) -> Result<()> {
        if self.name.trim().is_empty() {
            return Err(out_of_range("name of a layer", "empty", "a name", "call it after its colour"));
        }
        // Paints are refused when they are built; words can stand in these too.
        let cleaner = self.cleaner.as_ref().and_then(Blend::name);
        let thinner = self.setup.thinner.name();
        let retarder = self.setup.retarder.as_ref().and_then(|r| r.retarder.name());
        let words = [Some(self.name.as_str()), Some(self.paint().name()), self.paint().note()];
        for words in
            words.into_iter().chain([thinner, retarder, cleaner, Some(self.job.name.as_str())]).flatten()
        {
            refuse_two_pack(words)?;
        }
        self.job.clone().checked()?;
        if !(AREA_M2.0..=AREA_M2.1).contains(&self.area.si()) {
            return Err(out_of_range(
                format!("area of {}", self.name),
                show(self.area),
                "1 mm2 to 100 m2",
                "give the face that is sprayed on one part, for example \"450 cm2\"",
            ));
        }
        if let Some(mask) = self.mask
            && !(0.0..=MASKING_S).contains(&mask.si())
        {
            return Err(out_of_range(
                format!("time for masking before {}", self.name),
                show(mask),
                "0 s to 24 h",
                "give the time that tape and paper take on one part",
            ));
        }
        if let Some(wait) = self.wait
            && !(0.0..=WAIT_S).contains(&wait.si())
        {
            return Err(out_of_range(
                format!("wait after {}", self.name),
                show(wait),
                "0 s to 365 d",
                "leave it out for as long as the coat needs",
            ));
        }
        Ok(())
    }
}
