//! The bench and the people of a session.

use super::habits::Habits;
use super::layer::PlanLayer;
use super::record::Plan;
use crate::blend::Blend;
use crate::dose::Dropper;
use crate::error::{Result, out_of_range, unknown_name};
use crate::names::fold;
use crate::paint::refuse_two_pack;
use crate::quantity::{Length, Quantity, Ratio, Time, Volume, as_text, positive, show};
use crate::rinse::{Bench, Gun, Tolerance};
use serde::{Deserialize, Serialize};

/// Most layers and people: a club night, not a factory.
const MOST_LAYERS: usize = 8;
const MOST_PEOPLE: u32 = 60;
/// Margin on every amount unless given (source key `bench-times`).
const MARGIN: f64 = 0.25;
/// Margins that can be given.
const MOST_MARGIN: f64 = 5.0;
/// Tip of a usual pipette, m.
const TIP_M: f64 = 3e-3;
/// Usual fill of an airbrush cup and least portion of cleaner, m3.
const FILL_M3: f64 = 2e-6;
const PORTION_M3: f64 = 1e-6;

/// Longest that a cup may be said to stand open, s.
const LONGEST_OPEN_S: f64 = 86_400.0;

/// As the embedded table says; a damaged one is told when the session is made.
fn usual_cups_open() -> Time {
    Habits::usual().map_or(Time::from_si(0.0), |h| h.cups_open)
}

/// What a bottle costs.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Price {
    /// The paint, thinner or cleaner by its name.
    pub name: String,
    /// What the volume costs, in the currency of the session.
    pub costs: f64,
    /// The volume.
    #[serde(with = "as_text")]
    pub per: Volume,
}

/// Layers from the part upwards, and the bench on which they are sprayed.
///
/// ```
/// use mistcoat::air::Room;
/// use mistcoat::bench::{Job, PlanLayer, Session, Setup};
/// use mistcoat::blend::{Basis, Blend};
/// use mistcoat::paint::{Family, Paint};
/// use mistcoat::quantity::{RelativeHumidity, parse};
/// use mistcoat::spray::Airbrush;
/// let thinner = Blend::from_names(&[("acetone", 30.0), ("n-butyl acetate", 70.0)], Basis::Volume, None)?;
/// let gun = Airbrush::new(parse("0.3 mm")?, parse("20 psi")?, parse("80 mm")?)?;
/// let room = Room::new(parse("21 °C")?, RelativeHumidity::new(0.5)?)?;
/// let layer = |name, job| {
///     let paint = Paint::typical(Family::SolventLacquer, name)?;
///     let mut setup = Setup::new(&paint, &thinner, 1.0, &gun, &room);
///     setup.primed = true;
///     Ok::<_, mistcoat::Error>(PlanLayer::new(&setup, Job::named(job)?, parse("300 cm2")?))
/// };
/// let cleaner = Blend::from_names(&[("acetone", 1.0)], Basis::Volume, None)?;
/// let session = Session::new(vec![layer("hull green", "base coat")?, layer("clear", "gloss clear")?], &cleaner)?;
/// let plan = session.plan()?;
/// assert!(!plan.cautions().is_empty() && plan.planned() > plan.layers()[0].until_next.lasts);
/// println!("{plan}");
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Session {
    /// What stands on top of the plan.
    pub title: String,
    /// Layers from the part upwards, 1 to 8.
    pub layers: Vec<PlanLayer>,
    /// Cleaner for the gun.
    pub cleaner: Blend,
    /// What the gun keeps, the least portion, how much of a difference may show. The fill of a change is at most the
    /// mix of the layer that follows.
    pub bench: Bench,
    /// Dropper of the paints.
    pub paint_dropper: Dropper,
    /// Dropper of the thinners.
    pub thinner_dropper: Dropper,
    /// People, each with one part, 1 to 60.
    pub people: u32,
    /// Guns, at most one for each person; who shares takes turns.
    pub guns: u32,
    /// How long each person's cups of mix and thinner stand open while a layer is sprayed, at most; 0 s with a lid on
    /// them, up to 24 h. [`Habits::cups_open`] unless given.
    #[serde(default = "usual_cups_open", with = "as_text")]
    pub cups_open: Time,
    /// Added to every amount, as a share.
    #[serde(with = "as_text")]
    pub margin: Ratio,
    /// What bottles cost; empty when cost does not matter.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub prices: Vec<Price>,
    /// Label of the currency.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub currency: String,
}

impl Session {
    /// One person with a usual airbrush, pipettes with a tip of 3 mm, a quarter more of everything than needed.
    ///
    /// # Errors
    /// A [`crate::error::DataError`] when the embedded tables are damaged.
    pub fn new(layers: Vec<PlanLayer>, cleaner: &Blend) -> Result<Self> {
        let dropper = Dropper::tip(Length::from_si(TIP_M))?.by_hand();
        Ok(Self {
            title: "Session".to_owned(),
            layers,
            cleaner: cleaner.clone(),
            bench: Bench {
                hold_up: Gun::find("gravity airbrush")?.hold_up.clone(),
                fill: Volume::from_si(FILL_M3),
                least_portion: Volume::from_si(PORTION_M3),
                tolerance: Tolerance::Perceptible,
            },
            paint_dropper: dropper.clone(),
            thinner_dropper: dropper,
            people: 1,
            guns: 1,
            cups_open: Habits::usual()?.cups_open,
            margin: Ratio::from_si(MARGIN),
            prices: Vec::new(),
            currency: String::new(),
        })
    }

    /// The same session for so many people, each with a gun.
    #[must_use]
    pub fn for_people(mut self, people: u32) -> Self {
        (self.people, self.guns) = (people, people);
        self
    }

    /// The same people sharing so many guns.
    #[must_use]
    pub fn sharing(mut self, guns: u32) -> Self {
        self.guns = guns;
        self
    }

    /// Works out the plan.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a session that cannot be, a coat known to go wrong over the one below (the
    /// message names the order that works), a job that takes more than 50 coats; isocyanate two-packs; those of the parts.
    pub fn plan(&self) -> Result<Plan> {
        Plan::of(self)
    }

    /// The cleaner after a layer.
    pub(super) fn cleaner_after(&self, layer: &PlanLayer) -> Blend {
        layer.cleaner.clone().unwrap_or_else(|| self.cleaner.clone())
    }

    /// Whether it can be a session.
    pub(super) fn check(&self) -> Result<()> {
        for words in [Some(self.title.as_str()), self.cleaner.name()].into_iter().flatten() {
            refuse_two_pack(words)?;
        }
        if !(1..=MOST_LAYERS).contains(&self.layers.len()) {
            return Err(out_of_range(
                "number of layers",
                self.layers.len().to_string(),
                format!("1 to {MOST_LAYERS}"),
                "name the layers from the part upwards; several coats of one paint are one layer",
            ));
        }
        self.layers.iter().try_for_each(PlanLayer::check)?;
        let mut seen = std::collections::HashSet::new();
        if let Some(twice) = self.layers.iter().find(|l| !seen.insert(fold(&l.name))) {
            let remedy =
                "give each layer a name of its own, for example \"first clear\" and \"second clear\"";
            return Err(out_of_range("name of a layer", &twice.name, "one that stands once", remedy));
        }
        if let Some(other) = self.layers.iter().find(|l| l.setup.room != self.layers[0].setup.room) {
            return Err(out_of_range(
                format!("room of {}", other.name),
                "another one",
                format!("the room of {}", self.layers[0].name),
                "a session is in one room; plan what is sprayed elsewhere by itself",
            ));
        }
        if !(1..=MOST_PEOPLE).contains(&self.people) {
            let remedy = "plan larger groups in turns";
            return Err(out_of_range(
                "number of people",
                self.people.to_string(),
                format!("1 to {MOST_PEOPLE}"),
                remedy,
            ));
        }
        if !(1..=self.people).contains(&self.guns) {
            let limit = format!("1 to {}, one for each person", self.people);
            return Err(out_of_range("number of guns", self.guns.to_string(), limit, "count guns in use"));
        }
        if !(0.0..=MOST_MARGIN).contains(&self.margin.si()) {
            let remedy = "a quarter more than needed is usual: \"25 %\"";
            return Err(out_of_range("margin", show(self.margin), "0 % to 500 %", remedy));
        }
        if !(0.0..=LONGEST_OPEN_S).contains(&self.cups_open.si()) {
            let remedy = "give how long cups stand open while a layer is sprayed; \"0 min\" with lids on";
            return Err(out_of_range("time the cups are open", show(self.cups_open), "0 s to 24 h", remedy));
        }
        self.bench.check()?;
        self.prices.iter().try_for_each(|p| self.check_price(p))
    }

    fn check_price(&self, price: &Price) -> Result<()> {
        let known = self.materials()?;
        if !known.iter().any(|k| fold(k) == fold(&price.name)) {
            let names = known.iter().map(String::as_str);
            return Err(unknown_name("priced material", &price.name, names, "take a name of the session"));
        }
        if !(0.0..=1e9).contains(&price.costs) {
            let remedy = "give what the bottle costs as a plain number";
            return Err(out_of_range(
                format!("price of {}", price.name),
                price.costs.to_string(),
                "0 to 1e9",
                remedy,
            ));
        }
        positive(&format!("volume for the price of {}", price.name), price.per).map(|_| ())
    }

    /// Names of all paints, thinners and cleaners.
    fn materials(&self) -> Result<Vec<String>> {
        let of = |l: &PlanLayer| {
            Ok([
                l.paint().name().to_owned(),
                l.setup.slowed_thinner()?.label(),
                self.cleaner_after(l).label(),
            ])
        };
        Ok(self.layers.iter().map(of).collect::<Result<Vec<_>>>()?.into_iter().flatten().collect())
    }
}
