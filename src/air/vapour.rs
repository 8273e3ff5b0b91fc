//! How much vapour does the air of the room hold while I work, and how much air does it take to stay below a value?
//!
//! The well-mixed room: whatever evaporates is at once spread over all of its air, and fresh air replaces it,
//!
//! ```text
//! V dC/dt = G(t) − k Q C
//! ```
//!
//! with volume V, flow of fresh air Q = (air changes) V and mixing factor k. For a release G over the time τ, with
//! λ = k Q/V: `C = G/(k Q) (1 − e^(−λτ))`, then decay by `e^(−λ t)`. Releases add. Everything here is closed form, the
//! means over a time too.
//!
//! **k**: fresh air does not sweep a room evenly; 0.1 to 0.5 is common practice (Crowl and Louvar, Chemical Process
//! Safety), 1 is perfect mixing. Unless given it is 0.22 with a standard uncertainty of 40 %.
//!
//! Accuracy: the formulas are exact, the room is not: where air leaves by one window a factor 2 to either side is
//! usual, and that is what the interval says. **It is an average.** At the gun, over the bench and in front of your
//! face the air holds many times more; a vapour that is heavier than air lies on the floor. Nothing here says that a
//! room is safe: exposure limits, the safety data sheet and local codes decide. Neglected: what walls and clothes take
//! up, vapour that comes back, other rooms.

use super::Room;
use super::properties::GAS_CONSTANT;
use crate::answer::Answer;
use crate::error::{Result, out_of_range};
use crate::estimate::{Estimate, Input, Scale, propagate};
use crate::quantity::{
    Frequency, Mass, MassConcentration, MolarMass, Quantity, Ratio, Time, Volume, as_text, digits, show,
};
use crate::warning::Warning;
use crate::working::{Step, Working};
use serde::{Deserialize, Serialize};

/// Mixing factor when none is given, and its spread: 0.1 to 0.5 are two deviations to either side on a log scale
/// (source key `ROOM_MIXING`).
const MIXING: f64 = 0.22;
const MIXING_SPREAD: f64 = 0.40;
/// Most air changes a room can be given.
const MOST_AIR_CHANGES_S: f64 = 200.0 / 3600.0;
/// Halvings that bring a number of air changes to its last digits.
const BISECTIONS: usize = 60;
/// Below this the series is exact to the last digit.
const SMALL: f64 = 1e-3;
/// Longest time spoken for, s: a year.
const LONGEST_S: f64 = 365.0 * 86_400.0;

/// Vapour set free evenly over a time.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Release {
    /// What evaporates.
    #[serde(with = "as_text")]
    mass: Mass,
    /// When it begins, from the start of the session.
    #[serde(with = "as_text")]
    from: Time,
    /// How long it takes; zero for a spill that is gone at once.
    #[serde(with = "as_text")]
    lasts: Time,
}

impl Release {
    /// This mass, evaporating evenly from `from` for `lasts`.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a mass outside 0 to 1000 kg or times outside 0 to 365 d.
    pub fn new(mass: Mass, from: Time, lasts: Time) -> Result<Self> {
        if !(0.0..=1000.0).contains(&mass.si()) {
            let remedy = "give the mass that evaporates, in grams for a coat or a cleaned gun";
            return Err(out_of_range("released mass", show(mass), "0 g to 1000 kg", remedy));
        }
        check_time("begin of a release", from)?;
        check_time("duration of a release", lasts)?;
        Ok(Self { mass, from, lasts })
    }

    /// What evaporates.
    pub fn mass(&self) -> Mass {
        self.mass
    }

    /// When it begins.
    pub fn from(&self) -> Time {
        self.from
    }

    /// How long it takes.
    pub fn lasts(&self) -> Time {
        self.lasts
    }

    /// Share of the released mass that the room holds at this time.
    fn held(&self, lambda: f64, t: f64) -> f64 {
        let (since, lasts) = (t - self.from.si(), self.lasts.si());
        if since < 0.0 {
            0.0
        } else if since < lasts {
            since / lasts * rising(lambda * since)
        } else {
            rising(lambda * lasts) * (-lambda * (since - lasts)).exp()
        }
    }

    /// Integral of [`Self::held`] from the begin to this time, s.
    fn dose(&self, lambda: f64, t: f64) -> f64 {
        let (since, lasts) = (t - self.from.si(), self.lasts.si());
        if since <= 0.0 {
            return 0.0;
        }
        if since < lasts {
            return since * since / lasts * risen(lambda * since);
        }
        let after = since - lasts;
        lasts * risen(lambda * lasts) + rising(lambda * lasts) * after * rising(lambda * after)
    }
}

/// Mixing factor when none is given, and the standard uncertainty of its logarithm.
pub(crate) const fn vapour_mixing() -> (f64, f64) {
    (MIXING, MIXING_SPREAD)
}

/// `(1 − e^(−x))/x`.
pub(super) fn rising(x: f64) -> f64 {
    if x < SMALL { 1.0 - x / 2.0 + x * x / 6.0 - x * x * x / 24.0 } else { -(-x).exp_m1() / x }
}

/// `(x − 1 + e^(−x))/x²`.
pub(super) fn risen(x: f64) -> f64 {
    if x < 10.0 * SMALL {
        0.5 - x / 6.0 + x * x / 24.0 - x * x * x / 120.0 + x * x * x * x / 720.0
    } else {
        (x + (-x).exp_m1()) / (x * x)
    }
}

/// The vapour of one liquid in the air of a room, over a session.
///
/// ```
/// use mistcoat::{air::{Release, Room, RoomVapour}, quantity::{parse, RelativeHumidity}, solvent::find};
/// let room = Room::new(parse("21 °C")?, RelativeHumidity::new(0.5)?)?
///     .with_volume(parse("30 m3")?)?
///     .with_air_changes(parse("0.5 /h")?)?;
/// let acetone = find("acetone")?.molar_mass();
/// let air = RoomVapour::new(&room, acetone)?
///     .with_release(Release::new(parse("4 g")?, parse("0 min")?, parse("10 min")?)?);
/// let peak = air.peak()?;
/// assert!(peak.warnings.iter().any(|w| w.code == "room-average"));
/// let ppm = air.volume_share(peak.best())?;
/// assert!(ppm < parse("56 ppm")?);
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Record", into = "Record")]
pub struct RoomVapour {
    room: Room,
    molar_mass: MolarMass,
    mixing: Option<f64>,
    releases: Vec<Release>,
    /// Of the room, SI.
    volume_m3: f64,
    air_changes_s: f64,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    room: Room,
    #[serde(with = "as_text")]
    molar_mass: MolarMass,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    mixing: Option<f64>,
    releases: Vec<Release>,
}

impl From<RoomVapour> for Record {
    fn from(v: RoomVapour) -> Self {
        Self { room: v.room, molar_mass: v.molar_mass, mixing: v.mixing, releases: v.releases }
    }
}

impl TryFrom<Record> for RoomVapour {
    type Error = crate::Error;
    fn try_from(r: Record) -> Result<Self> {
        let mut vapour = Self::new(&r.room, r.molar_mass)?;
        if let Some(mixing) = r.mixing {
            vapour = vapour.with_mixing(Ratio::from_si(mixing))?;
        }
        for release in r.releases {
            vapour = vapour.with_release(Release::new(release.mass, release.from, release.lasts)?);
        }
        Ok(vapour)
    }
}

impl RoomVapour {
    /// Clean air in a room of known volume and air changes, for a vapour of this molar mass.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] when the room has no volume or no air changes, or for a molar mass outside 2 to
    /// 1000 g/mol.
    pub fn new(room: &Room, molar_mass: MolarMass) -> Result<Self> {
        let volume_m3 = room.volume().map(Quantity::si).ok_or_else(|| {
            out_of_range(
                "room volume",
                "not given",
                "a volume",
                "give the room its volume: length × width × height",
            )
        })?;
        let air_changes_s = room.air_changes().map(Quantity::si).ok_or_else(|| {
            let remedy =
                "give the room its air changes: 0.5 /h with closed windows, fan flow over volume with a fan";
            out_of_range("air changes", "not given", "a number per hour, 0 /h for a closed box", remedy)
        })?;
        if !(2e-3..=1.0).contains(&molar_mass.si()) {
            let remedy = "take it from the solvent, for example 58.08 g/mol for acetone";
            return Err(out_of_range("molar mass", show(molar_mass), "2 g/mol to 1000 g/mol", remedy));
        }
        Ok(Self {
            room: room.clone(),
            molar_mass,
            mixing: None,
            releases: Vec::new(),
            volume_m3,
            air_changes_s,
        })
    }

    /// The same room with a known mixing factor: 1 for perfect mixing, 0.1 to 0.5 in practice.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 0.01 to 1.
    pub fn with_mixing(mut self, mixing: Ratio) -> Result<Self> {
        if !(0.01..=1.0).contains(&mixing.si()) {
            let remedy = "1 is perfect mixing, 0.1 to 0.5 is common practice";
            return Err(out_of_range("mixing factor", digits(mixing.si(), 3), "0.01 to 1", remedy));
        }
        self.mixing = Some(mixing.si());
        Ok(self)
    }

    /// The same room with one more release; they may overlap.
    #[must_use]
    pub fn with_release(mut self, release: Release) -> Self {
        self.releases.push(release);
        self
    }

    /// The room.
    pub fn room(&self) -> &Room {
        &self.room
    }

    /// Molar mass of the vapour.
    pub fn molar_mass(&self) -> MolarMass {
        self.molar_mass
    }

    /// Mixing factor, given or usual.
    pub fn mixing(&self) -> Ratio {
        Ratio::from_si(self.mixing.unwrap_or(MIXING))
    }

    /// What evaporates when.
    pub fn releases(&self) -> &[Release] {
        &self.releases
    }

    /// Volume of the room.
    pub fn volume(&self) -> Volume {
        Volume::from_si(self.volume_m3)
    }

    /// The average concentration in the room at this time after the start.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a time outside 0 to 365 d.
    pub fn concentration(&self, at: Time) -> Result<Answer<MassConcentration>> {
        check_time("time after the start", at)?;
        let name = format!("concentration after {}", show(at));
        self.answer(&name, "C = Σ G/(k Q) (1 − e^(−λτ)) e^(−λ(t−τ))", |lambda| {
            self.concentration_si(lambda, at.si())
        })
    }

    /// The highest concentration, and [`Self::peak_time`] is when.
    ///
    /// # Errors
    /// None is known; the signature leaves room for it.
    pub fn peak(&self) -> Result<Answer<MassConcentration>> {
        self.answer("highest concentration", "max C(t), at the end of a release", |lambda| {
            self.peak_si(lambda).1
        })
    }

    /// When the concentration is highest: at the end of a release, or at the begin of a spill.
    pub fn peak_time(&self) -> Time {
        Time::from_si(self.peak_si(self.lambda(self.mixing().si())).0)
    }

    /// The time-weighted average from one time to another, as exposure limits over 8 h or 15 min are stated.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] unless 0 ≤ from < until ≤ 365 d.
    pub fn average(&self, from: Time, until: Time) -> Result<Answer<MassConcentration>> {
        check_window(from, until)?;
        let name = format!("mean from {} to {}", show(from), show(until));
        self.answer(&name, "C_mean = ∫ C dt/(t2 − t1)", |lambda| {
            self.average_si(lambda, from.si(), until.si())
        })
    }

    /// The concentration that a release going on for ever, `mass` every `each`, settles at: `C = G/(k Q)`.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] in a room without air changes, or for a time that is not positive.
    pub fn steady(&self, mass: Mass, each: Time) -> Result<Answer<MassConcentration>> {
        Release::new(mass, Time::from_si(0.0), each)?;
        if each.si() <= 0.0 {
            return Err(out_of_range(
                "time of a release",
                show(each),
                "more than 0 s",
                "give 0.1 g in 1 min as mass and time",
            ));
        }
        if self.air_changes_s <= 0.0 {
            let remedy = "without fresh air the concentration grows for ever; ask for it at a time";
            return Err(out_of_range("air changes", "0 /h", "more than 0 /h for a steady state", remedy));
        }
        let per_volume = mass.si() / each.si() / self.volume_m3;
        self.answer("steady concentration", "C = G/(k Q)", |lambda| per_volume / lambda)
    }

    /// The same concentration as a share of the air by volume, in ppm: `C R T/(M P)`.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a concentration below zero or above that of the pure vapour.
    pub fn volume_share(&self, concentration: MassConcentration) -> Result<Ratio> {
        let share = concentration.si() * GAS_CONSTANT * self.room.temperature().si()
            / (self.molar_mass.si() * self.room.pressure().si());
        if (0.0..=1.0).contains(&share) {
            return Ok(Ratio::from_si(share));
        }
        let remedy =
            "more vapour than air: check masses and volume; a liquid cannot evaporate past its saturation";
        Err(out_of_range(
            "concentration of vapour",
            show(concentration),
            "0 to that of the pure vapour",
            remedy,
        ))
    }

    /// The fewest air changes with which the room average never rises above `limit`; of the interval, plan with the
    /// high end. Zero when the room needs none.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a limit that is not positive, or one that 200 air changes per hour do not keep.
    pub fn air_changes_to_stay_below(&self, limit: MassConcentration) -> Result<Answer<Frequency>> {
        self.least_air_changes("air changes to stay below", limit, |lambda| self.peak_si(lambda).1)
    }

    /// The fewest air changes with which the mean from one time to another stays below `limit`.
    ///
    /// # Errors
    /// As [`Self::air_changes_to_stay_below`] and [`Self::average`].
    pub fn air_changes_for_average(
        &self,
        limit: MassConcentration,
        from: Time,
        until: Time,
    ) -> Result<Answer<Frequency>> {
        check_window(from, until)?;
        let what = format!("air changes for a mean from {} to {} below", show(from), show(until));
        self.least_air_changes(&what, limit, |lambda| self.average_si(lambda, from.si(), until.si()))
    }

    fn lambda(&self, mixing: f64) -> f64 {
        mixing * self.air_changes_s
    }

    fn concentration_si(&self, lambda: f64, t: f64) -> f64 {
        self.releases.iter().map(|r| r.mass.si() * r.held(lambda, t)).sum::<f64>() / self.volume_m3
    }

    fn average_si(&self, lambda: f64, from: f64, until: f64) -> f64 {
        let dose = |r: &Release| r.mass.si() * (r.dose(lambda, until) - r.dose(lambda, from));
        self.releases.iter().map(dose).sum::<f64>() / (self.volume_m3 * (until - from))
    }

    /// When, and how much. Between the ends of releases the concentration rises towards its steady value or falls, so
    /// that the highest stands at an end or a begin.
    fn peak_si(&self, lambda: f64) -> (f64, f64) {
        let ends = self.releases.iter().flat_map(|r| [r.from.si(), r.from.si() + r.lasts.si()]);
        ends.map(|t| (t, self.concentration_si(lambda, t)))
            .fold((0.0, 0.0), |best, next| if next.1 > best.1 { next } else { best })
    }

    fn mixing_input(&self) -> Input {
        let std = if self.mixing.is_some() { 0.0 } else { MIXING_SPREAD };
        Input::new("mixing of the room's air", self.mixing().si().ln(), std)
    }

    fn answer(
        &self,
        name: &str,
        formula: &str,
        model: impl Fn(f64) -> f64,
    ) -> Result<Answer<MassConcentration>> {
        let best = model(self.lambda(self.mixing().si()));
        let estimate = if best > 0.0 {
            propagate(&[self.mixing_input()], &[], Scale::Log, |x| Ok(model(self.lambda(x[0].exp()))))?
        } else {
            Estimate::exact(MassConcentration::from_si(0.0))
        };
        let share = self.volume_share(estimate.best).map_or_else(
            |_| "beyond pure vapour".to_owned(),
            |share| format!("{} ppm", digits(1e6 * share.si(), 3)),
        );
        let mut working = self.working();
        working.push(Step::new(name, formula, r"V\,dC/dt = G - kQC").result(format!("{estimate}, {share}")));
        let answer = Answer::new(estimate, working).with_warnings([average_only()]);
        if share.starts_with("beyond") {
            let text = "more vapour than the room has air: not all of it can evaporate";
            return Ok(answer.with_warnings([Warning::new("beyond-saturation", text)]));
        }
        Ok(answer)
    }

    fn least_air_changes(
        &self,
        what: &str,
        limit: MassConcentration,
        model: impl Fn(f64) -> f64,
    ) -> Result<Answer<Frequency>> {
        if !(limit.si() > 0.0 && limit.si().is_finite()) {
            let remedy = "take a share of an exposure limit from the safety data sheet";
            return Err(out_of_range(
                "concentration to stay below",
                show(limit),
                "more than 0 mg/m3",
                remedy,
            ));
        }
        let least = |mixing: f64| -> Result<f64> {
            if model(0.0) <= limit.si() {
                return Ok(0.0);
            }
            let (mut low, mut high) = (0.0, MOST_AIR_CHANGES_S);
            if model(mixing * high) > limit.si() {
                return Err(out_of_range(
                    "concentration to stay below",
                    show(limit),
                    format!(
                        "{}, what 200 air changes per hour leave",
                        show(MassConcentration::from_si(model(mixing * high)))
                    ),
                    "evaporate less or more slowly, or work in a booth with its own extraction, or out of doors",
                ));
            }
            for _ in 0..BISECTIONS {
                let middle = 0.5 * (low + high);
                if model(mixing * middle) > limit.si() { low = middle } else { high = middle }
            }
            Ok(high)
        };
        let best = least(self.mixing().si())?;
        let estimate = if best > 0.0 {
            propagate(&[self.mixing_input()], &[], Scale::Log, |x| least(x[0].exp()))?
        } else {
            Estimate::exact(Frequency::from_si(0.0))
        };
        let mut working = self.working();
        working.push(
            Step::new(
                format!("{what} {}", show(limit)),
                "least Q/V with C ≤ limit",
                r"\min Q/V : C \le C_\mathrm{limit}",
            )
            .result(estimate.to_string()),
        );
        Ok(Answer::new(estimate, working).with_warnings([average_only()]))
    }

    fn working(&self) -> Working {
        let mut w = Working::new("Vapour in a well-mixed room");
        w.push(
            Step::new("rate of renewal", "λ = k Q/V", r"\lambda = k Q/V")
                .numbers(format!(
                    "k {}, {} of {}",
                    digits(self.mixing().si(), 2),
                    show(Frequency::from_si(self.air_changes_s)),
                    show(self.volume())
                ))
                .result(show(Frequency::from_si(self.lambda(self.mixing().si()))))
                .source("ROOM_MIXING"),
        );
        let total: f64 = self.releases.iter().map(|r| r.mass.si()).sum();
        w.push(
            Step::new("released", "m = Σ G τ", r"m = \sum G\tau")
                .numbers(format!("{} releases", self.releases.len()))
                .result(show(Mass::from_si(total))),
        );
        w
    }
}

fn average_only() -> Warning {
    Warning::new(
        "room-average",
        "an average over the whole room: near the gun and over the bench it is many times higher; exposure limits, the \
         safety data sheet and local codes decide",
    )
}

fn check_time(what: &str, t: Time) -> Result<()> {
    if (0.0..=LONGEST_S).contains(&t.si()) {
        return Ok(());
    }
    Err(out_of_range(what, show(t), "0 s to 365 d", "count the time from the start of the session"))
}

fn check_window(from: Time, until: Time) -> Result<()> {
    check_time("begin of the mean", from)?;
    check_time("end of the mean", until)?;
    if from < until {
        return Ok(());
    }
    Err(out_of_range(
        "end of the mean",
        show(until),
        format!("later than its begin, {}", show(from)),
        "exposure limits are means over 8 h or 15 min",
    ))
}
