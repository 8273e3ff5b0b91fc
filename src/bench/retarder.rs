//! What do 10, 20 and 30 % of a slow solvent in the thinner buy, and what do they cost?
//!
//! The **retarder** takes the place of that share of the thinner, by volume; the amount of thinner stays. For each share:
//! ripple left and slide on an upright face ([`crate::film::Drying::lay`]), blush limit, flash-off, touch dry. Common practice
//! is 15 to 30 % in lacquers (TM 43-0139), and that more than 20 % may slow drying too much.
//!
//! Accuracy: that of the parts; rows differ by far more surely than each of them is known, since draught, wavelength and film
//! move them together. Left out: whether the resin stays dissolved in what leaves last.

use super::slowed::{PLENTY, RetarderShare};
use crate::air::Room;
use crate::answer::Answer;
use crate::blend::Blend;
use crate::dose::Thinning;
use crate::error::{Error, Result, out_of_range};
use crate::film::{Blush, Film, Lay, Ripple, Substrate};
use crate::paint::{Mix, Paint};
use crate::quantity::{
    DynamicViscosity, Length, Quantity, Ratio, RelativeHumidity, Temperature, Time, digits, show,
};
use crate::table::{Cell, Column, Table};
use crate::warning::Warning;
use serde::{Deserialize, Serialize};

/// Shares looked at when nothing is said.
pub const USUAL_SHARES: [f64; 4] = [0.0, 0.1, 0.2, 0.3];
/// Most shares that a page holds.
const MOST_ROWS: usize = 50;
/// Wet film, room (K and relative humidity) when nothing is said, as in a comparison.
const USUAL_WET_FILM_M: f64 = 25e-6;
const USUAL_ROOM: (f64, f64) = (294.15, 0.5);
/// A retarder is slower than the thinner by at least this factor in flash-off, or it is told.
const SLOWER: f64 = 1.05;

/// The question. Build with [`Retarder::new`], refine, then [`Retarder::run`].
///
/// ```
/// use mistcoat::bench::Retarder;
/// use mistcoat::blend::{Basis, Blend};
/// use mistcoat::dose::{Parts, Thinning};
/// use mistcoat::paint::{Family, Paint};
/// let paint = Paint::typical(Family::SolventLacquer, "hull green")?;
/// let thinner = Blend::from_names(&[("acetone", 50.0), ("n-butyl acetate", 50.0)], Basis::Volume, None)?;
/// let slow = Blend::from_names(&[("2-butoxyethanol", 1.0)], Basis::Volume, None)?;
/// let one_to_one = Thinning::from_parts(Parts { thinner: 1.0, paint: 1.0 })?;
/// let answer = Retarder::new(&paint, &thinner, &slow, one_to_one).shares(&[0.0, 0.2]).run()?;
/// let [plain, slowed] = answer.rows() else { panic!() };
/// assert!(slowed.lay.as_ref().unwrap().levelling.best() < plain.lay.as_ref().unwrap().levelling.best());
/// assert!(slowed.flash_off.as_ref().unwrap().best() > plain.flash_off.as_ref().unwrap().best());
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Retarder {
    paint: Paint,
    thinner: Blend,
    slow: Blend,
    thinning: Thinning,
    shares: Vec<f64>,
    room: Option<Room>,
    wet_film: Length,
    substrate: Substrate,
    ripple: Option<Ripple>,
    steepness: Ratio,
}

/// One share of retarder.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RetarderRow {
    /// Share of the thinner that is retarder, by volume, 0 to 1.
    pub share: f64,
    /// The mix.
    pub mix: Mix,
    /// Viscosity at room temperature.
    pub viscosity: Answer<DynamicViscosity>,
    /// Ripple left, slide, nearest limit; none where the flow is not known, with the reason in the warnings.
    pub lay: Option<Lay>,
    /// Blush limit; none for waterborne coats.
    pub blush: Option<Blush>,
    /// Time to lose 90 % of the volatile mass; none when the coat never does.
    pub flash_off: Option<Answer<Time>>,
    /// Touch dry; none for binders that do not harden by losing solvent, with the reason in the warnings.
    pub touch_dry: Option<Answer<Time>>,
    /// What to mind at this share.
    pub warnings: Vec<Warning>,
}

/// The answer to [`Retarder`].
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RetarderAnswer {
    title: String,
    conditions: String,
    retarder: String,
    rows: Vec<RetarderRow>,
}

impl Retarder {
    /// Shares of 0, 10, 20 and 30 % in a room of 21 °C and 50 % relative humidity without a felt draught; 25 µm wet on
    /// polystyrene, upright; a ripple of 2 mm.
    pub fn new(paint: &Paint, thinner: &Blend, retarder: &Blend, thinning: Thinning) -> Self {
        Self {
            paint: paint.clone(),
            thinner: thinner.clone(),
            slow: retarder.clone(),
            thinning,
            shares: USUAL_SHARES.to_vec(),
            room: None,
            wet_film: Length::from_si(USUAL_WET_FILM_M),
            substrate: Substrate::default(),
            ripple: None,
            steepness: Ratio::from_si(1.0),
        }
    }

    /// Shares of the thinner that are retarder, by volume, 0 to 1; one row each.
    #[must_use]
    pub fn shares(mut self, shares: &[f64]) -> Self {
        self.shares = shares.to_vec();
        self
    }

    /// The room.
    #[must_use]
    pub fn room(mut self, room: &Room) -> Self {
        self.room = Some(room.clone());
        self
    }

    /// The wet film of one coat.
    #[must_use]
    pub fn wet_film(mut self, wet_film: Length) -> Self {
        self.wet_film = wet_film;
        self
    }

    /// What the coat lies on.
    #[must_use]
    pub fn substrate(mut self, substrate: Substrate) -> Self {
        self.substrate = substrate;
        self
    }

    /// The ripple that is to go flat.
    #[must_use]
    pub fn ripple(mut self, ripple: &Ripple) -> Self {
        self.ripple = Some(ripple.clone());
        self
    }

    /// Sine of the angle of the face to the horizontal, 1 upright.
    #[must_use]
    pub fn steepness(mut self, steepness: Ratio) -> Self {
        self.steepness = steepness;
        self
    }

    /// Works it out.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for no share, more than 50, or one outside 0 to 1; a
    /// [`crate::error::PhaseSplit`] when paint, thinner and retarder do not stay one liquid; errors of the parts.
    pub fn run(&self) -> Result<RetarderAnswer> {
        if self.shares.is_empty() || self.shares.len() > MOST_ROWS {
            return Err(out_of_range(
                "number of shares of retarder",
                self.shares.len().to_string(),
                format!("1 to {MOST_ROWS}"),
                "name shares of the thinner, for example 0 %, 10 %, 20 % and 30 %",
            ));
        }
        let room = match &self.room {
            Some(room) => room.clone(),
            None => Room::new(Temperature::from_si(USUAL_ROOM.0), RelativeHumidity::new(USUAL_ROOM.1)?)?,
        };
        let ripple = match &self.ripple {
            Some(ripple) => ripple.clone(),
            None => Ripple::usual()?,
        };
        let rows =
            self.shares.iter().map(|s| self.row(*s, &room, &ripple)).collect::<Result<Vec<RetarderRow>>>()?;
        let steep = if self.steepness.si() >= 1.0 {
            "upright".to_owned()
        } else {
            format!("steepness {}", show(self.steepness))
        };
        Ok(RetarderAnswer {
            title: format!(
                "{} ({}), {}, {} with {} in its place",
                self.paint.name(),
                self.paint.family().name(),
                self.thinning,
                self.thinner.label(),
                self.slow.label()
            ),
            conditions: format!(
                "{}, {} relative humidity, air at {}; {} wet on {}, {steep}; ripple of {}",
                show(room.temperature()),
                room.relative_humidity(),
                show(room.air_speed()),
                show(self.wet_film),
                self.substrate,
                show(ripple.wavelength().best)
            ),
            retarder: self.slow.label(),
            rows,
        })
    }

    fn row(&self, share: f64, room: &Room, ripple: &Ripple) -> Result<RetarderRow> {
        let thinner = RetarderShare::new(&self.slow, Ratio::from_si(share))?.thinner(&self.thinner)?;
        let mix = self.paint.thin(&thinner, self.thinning)?;
        let viscosity = mix.viscosity(room.temperature())?;
        let mut warnings = viscosity.warnings.clone();
        let dry = Film::of_mix(&mix, self.wet_film, room)?.with_substrate(self.substrate.clone()).dry()?;
        let lay = super::or_warning(dry.lay(ripple, self.steepness), "no-levelling", &mut warnings)?;
        warnings.extend(lay.iter().flat_map(|l| l.warnings.iter().cloned()));
        let blush = match (&lay, dry.blush()) {
            (Some(lay), _) => lay.blush.clone(),
            (None, Ok(blush)) => Some(blush),
            (None, Err(Error::Range(_))) => None,
            (None, Err(e)) => return Err(e),
        };
        let flash_off = super::or_warning(dry.flash_off(), "no-flash-off", &mut warnings)?;
        let touch_dry = super::or_warning(dry.touch_dry(), "no-touch-dry", &mut warnings)?;
        warnings.extend(dry.warnings().iter().cloned());
        if share > PLENTY {
            warnings.push(Warning::new(
                "much-retarder",
                "more than 20 % of retarder may slow drying too much (common practice): give the coat longer before the next one",
            ));
        }
        Ok(RetarderRow {
            share,
            mix,
            viscosity,
            lay,
            blush,
            flash_off,
            touch_dry,
            warnings: super::distinct(warnings),
        })
    }
}

impl RetarderAnswer {
    /// One row a share, in the order asked.
    pub fn rows(&self) -> &[RetarderRow] {
        &self.rows
    }

    /// Paint, thinner and retarder in one line.
    pub fn title(&self) -> &str {
        &self.title
    }

    /// Room, coat and face in one line.
    pub fn conditions(&self) -> &str {
        &self.conditions
    }

    /// What the most retarder asked for buys and costs against the least, in one sentence; none with a single row.
    pub fn sentence(&self) -> Option<String> {
        let least = self.rows.iter().min_by(|a, b| a.share.total_cmp(&b.share))?;
        let most = self.rows.iter().max_by(|a, b| a.share.total_cmp(&b.share))?;
        if most.share <= least.share {
            return None;
        }
        let percent = |share: f64| format!("{} %", digits(share * 100.0, 3));
        let mut facts = Vec::new();
        if let (Some(a), Some(b)) = (&least.lay, &most.lay) {
            let left = |l: &Lay| crate::film::ripple_words(l.levelling.best());
            facts.push(format!("the ripple left goes from {} to {}", left(a), left(b)));
            facts.push(format!(
                "the slide on the face from {} to {}",
                show(a.sag.best()),
                show(b.sag.best())
            ));
        }
        if let (Some(a), Some(b)) = (&least.blush, &most.blush) {
            let limit = |b: &Blush| show(b.limit.best());
            facts.push(format!("the blush limit from {} to {} relative humidity", limit(a), limit(b)));
        }
        for (what, a, b) in [
            ("flash-off", &least.flash_off, &most.flash_off),
            ("touch dry", &least.touch_dry, &most.touch_dry),
        ] {
            if let (Some(a), Some(b)) = (a, b) {
                facts.push(format!("{what} from {} to {}", show(a.best()), show(b.best())));
            }
        }
        let (last, first) = facts.split_last()?;
        let list = if first.is_empty() { last.clone() } else { format!("{} and {last}", first.join(", ")) };
        Some(format!(
            "From {} to {} of {}: {list}.",
            percent(least.share),
            percent(most.share),
            self.retarder
        ))
    }

    /// What to mind, each once.
    pub fn warnings(&self) -> Vec<Warning> {
        let mut all: Vec<Warning> = Vec::new();
        for w in self.rows.iter().flat_map(|r| &r.warnings) {
            if !all.iter().any(|known| known.code == w.code) {
                all.push(w.clone());
            }
        }
        let slow: Vec<f64> =
            self.rows.iter().filter_map(|r| r.flash_off.as_ref()).map(|f| f.best().si()).collect();
        if let (Some(first), Some(last)) = (slow.first(), slow.last())
            && self.rows.len() > 1
            && self.rows.windows(2).all(|w| w[1].share > w[0].share)
            && *last < SLOWER * first
        {
            all.push(Warning::new(
                "no-retarder",
                format!("{} is no slower than the thinner: it does not retard", self.retarder),
            ));
        }
        all
    }

    /// The answer as a table, with the sentence and what to mind under it.
    pub fn table(&self) -> Table {
        let rows = &self.rows;
        let column = |key: &str, title: &str, unit: &str, cell: &dyn Fn(&RetarderRow) -> Cell| Column {
            key: key.to_owned(),
            title: title.to_owned(),
            unit: unit.to_owned(),
            cells: rows.iter().map(cell).collect(),
        };
        let dash = || Cell::words("–");
        let columns = vec![
            column("retarder", "retarder in\nthe thinner", "%", &|r| {
                Cell::number(format!("{} %", digits(r.share * 100.0, 3)), r.share * 100.0)
            }),
            column("viscosity", "viscosity,\nmPa.s", "mPa.s", &|r| {
                super::estimate_cell(&r.viscosity.estimate, "mPa.s", false)
            }),
            column("ripple_left", "ripple left, %\n(95 % range)", "%", &|r| {
                r.lay.as_ref().map_or_else(dash, |l| super::share_cell(&l.levelling.estimate, true))
            }),
            column("sag", "slide, mm\n(95 % range)", "mm", &|r| {
                r.lay.as_ref().map_or_else(dash, |l| super::estimate_cell(&l.sag.estimate, "mm", true))
            }),
            column("blush_limit", "blushes\nabove, % RH", "%", &|r| {
                r.blush.as_ref().map_or_else(dash, |b| super::estimate_cell(&b.limit.estimate, "%", false))
            }),
            column("flash_off", "flash-off, s\n(95 % range)", "s", &|r| {
                r.flash_off
                    .as_ref()
                    .map_or_else(|| Cell::words("never"), |t| super::estimate_cell(&t.estimate, "s", true))
            }),
            column("touch_dry", "touch dry, s\n(95 % range)", "s", &|r| {
                r.touch_dry.as_ref().map_or_else(dash, |t| super::estimate_cell(&t.estimate, "s", true))
            }),
            column("nearest_limit", "nearest limit,\nfactor", "", &|r| {
                let first = r.lay.as_ref().and_then(Lay::first);
                Cell::words(first.map_or("–".to_owned(), |(l, f)| format!("{} {}", l.word(), digits(f, 2))))
            }),
        ];
        let mut notes: Vec<String> = self.sentence().into_iter().collect();
        notes.push(
            "The retarder replaces that share of the thinner, by volume; the amount of thinner stays. Factor: above 1 the \
             limit holds, below 1 it fails."
                .to_owned(),
        );
        notes.extend(self.warnings().into_iter().map(|w| super::sentence(&w.message)));
        Table { caption: format!("{}. {}.", self.title, self.conditions), columns, notes }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::blend::Basis;
    use crate::dose::Parts;
    use crate::paint::Family;
    use rstest::rstest;

    fn ask(retarder: &str) -> Retarder {
        let paint = Paint::typical(Family::SolventLacquer, "hull green (invented)").unwrap();
        let parts = [("acetone", 40.0), ("n-butyl acetate", 40.0), ("toluene", 20.0)];
        let thinner = Blend::from_names(&parts, Basis::Volume, Some("house thinner")).unwrap();
        let slow = Blend::from_names(&[(retarder, 1.0)], Basis::Volume, None).unwrap();
        let thinning = Thinning::from_parts(Parts { thinner: 1.0, paint: 1.0 }).unwrap();
        Retarder::new(&paint, &thinner, &slow, thinning)
    }

    // Common practice (TM 43-0139 and the trade): a retarder of 15 to 30 % levels better, dries slower, sags more, and bears
    // damper air.
    #[rstest]
    #[case("2-butoxyethanol")]
    #[case("diacetone alcohol")]
    fn does_what_the_trade_says(#[case] retarder: &str) {
        let answer = ask(retarder).shares(&[0.0, 0.15, 0.3]).run().unwrap();
        println!("{}", answer.table().to_text());
        for pair in answer.rows().windows(2) {
            let lay = |r: &RetarderRow| r.lay.clone().unwrap();
            let (a, b) = (lay(&pair[0]), lay(&pair[1]));
            assert!(b.levelling.best() < a.levelling.best(), "levels better");
            assert!(b.sag.best() > a.sag.best(), "sags more");
            assert!(b.blush.unwrap().limit.best() > a.blush.unwrap().limit.best(), "bears damper air");
            let time = |t: &Option<Answer<Time>>| t.as_ref().unwrap().best();
            assert!(time(&pair[1].flash_off) > time(&pair[0].flash_off), "dries slower");
            assert!(time(&pair[1].touch_dry) > time(&pair[0].touch_dry), "dries slower");
        }
        let sentence = answer.sentence().unwrap();
        assert!(sentence.contains("From 0 % to 30 %") && sentence.contains("touch dry from"), "{sentence}");
        assert!(answer.warnings().iter().any(|w| w.code == "much-retarder"));
        let json = serde_json::to_string(&answer).unwrap();
        assert_eq!(serde_json::from_str::<RetarderAnswer>(&json).unwrap(), answer);
    }

    #[test]
    fn a_fast_liquid_is_no_retarder() {
        let answer = ask("acetone").shares(&[0.0, 0.5]).run().unwrap();
        assert!(answer.warnings().iter().any(|w| w.code == "no-retarder"), "{:?}", answer.warnings());
    }

    #[test]
    fn a_retarder_that_splits_is_refused() {
        let e = ask("water").shares(&[0.0, 0.5]).run().unwrap_err();
        assert!(matches!(e, Error::PhaseSplit(_)), "{e}");
    }

    #[rstest]
    #[case::none(&[], "1 to 50")]
    #[case::negative(&[-0.1], "-10 %")]
    #[case::above(&[1.5], "150 %")]
    #[case::nan(&[f64::NAN], "NaN")]
    fn bad_shares(#[case] shares: &[f64], #[case] says: &str) {
        let e = ask("2-butoxyethanol").shares(shares).run().unwrap_err().to_string();
        assert!(e.contains(says), "{e}");
    }
}
