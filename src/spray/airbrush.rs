//! The airbrush as it is set and held.

use super::atomise::Correlation;
use super::nozzle::{NozzleTypical, check_bore};
use super::shot::Shot;
use super::sizes::{CLASSES, SizeSpread};
use crate::air::{Jet, Orifice, Room};
use crate::error::{Error, Result, out_of_range};
use crate::estimate::{Estimate, ModelError};
use crate::paint::Mix;
use crate::quantity::{Area, Length, Pressure, Quantity, Ratio, Velocity, VolumeRate, as_text, show};
use serde::{Deserialize, Serialize};

/// Gauge pressures of airbrushes and mini guns, Pa.
const PRESSURE_PA: (f64, f64) = (2e4, 7e5);
/// Distances of the part, m.
const DISTANCE_M: (f64, f64) = (5e-3, 0.5);
/// Share of the sprayed solids that stays on the part: best, and standard deviation of its logarithm, so that 95 % lies
/// between 0.13 and 0.6 (source key `TRANSFER_EFFICIENCY`).
const TRANSFER: f64 = 0.28;
const TRANSFER_STD: f64 = 0.4;
/// Hand speed, m/s, and standard deviation of its logarithm (source key `SPRAY_HABITS`).
const HAND_M_S: f64 = 0.05;
const HAND_STD: f64 = 0.24;
/// Classes of drop size when not given.
const USUAL_CLASSES: usize = 5;

/// An airbrush or mini gun: bore, gauge pressure at the gun, distance from the part.
///
/// What is not given is typical, common practice, with its wide range: the air gap and the paint flow by the bore
/// ([`NozzleTypical`]), 28 % of the solids on the part (13 to 60 %), a pass as wide as the jet (a fifth of the
/// distance), a hand that moves 50 mm/s.
///
/// ```
/// use mistcoat::air::Room;
/// use mistcoat::blend::{Basis, Blend};
/// use mistcoat::dose::{Parts, Thinning};
/// use mistcoat::paint::{Family, Paint};
/// use mistcoat::quantity::{parse, RelativeHumidity};
/// use mistcoat::spray::Airbrush;
/// let paint = Paint::typical(Family::SolventLacquer, "hull green")?;
/// let thinner = Blend::from_names(&[("n-butyl acetate", 70.0), ("acetone", 30.0)], Basis::Volume, None)?;
/// let mix = paint.thin(&thinner, Thinning::from_parts(Parts { thinner: 1.0, paint: 1.0 })?)?;
/// let room = Room::new(parse("21 °C")?, RelativeHumidity::new(0.55)?)?;
/// let gun = Airbrush::new(parse("0.3 mm")?, parse("20 psi")?, parse("80 mm")?)?;
/// let shot = gun.spray(&mix, &room)?;
/// println!("{}", shot.drop_size()?);
/// let dry = shot.film(2)?.dry()?;
/// assert!(dry.touch_dry()?.best() < parse("5 min")?);
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Record", into = "Record")]
pub struct Airbrush {
    nozzle: Length,
    pressure: Pressure,
    distance: Length,
    air_area: Option<Estimate<Area>>,
    paint_flow: Option<Estimate<VolumeRate>>,
    transfer_efficiency: Option<Estimate<Ratio>>,
    swath: Option<Length>,
    hand_speed: Option<Estimate<Velocity>>,
    compressor: Option<VolumeRate>,
    drop_size: Option<Estimate<Length>>,
    spread: SizeSpread,
    classes: usize,
    correlation: Correlation,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    #[serde(with = "as_text")]
    nozzle: Length,
    #[serde(with = "as_text")]
    pressure: Pressure,
    #[serde(with = "as_text")]
    distance: Length,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    air_area: Option<Estimate<Area>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    paint_flow: Option<Estimate<VolumeRate>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    transfer_efficiency: Option<Estimate<Ratio>>,
    #[serde(default, with = "as_text::option", skip_serializing_if = "Option::is_none")]
    swath: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    hand_speed: Option<Estimate<Velocity>>,
    #[serde(default, with = "as_text::option", skip_serializing_if = "Option::is_none")]
    compressor: Option<VolumeRate>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    drop_size: Option<Estimate<Length>>,
    #[serde(default)]
    spread: SizeSpread,
    #[serde(default = "usual_classes")]
    classes: usize,
    #[serde(default)]
    correlation: Correlation,
}

fn usual_classes() -> usize {
    USUAL_CLASSES
}

impl From<Airbrush> for Record {
    fn from(a: Airbrush) -> Self {
        Self {
            nozzle: a.nozzle,
            pressure: a.pressure,
            distance: a.distance,
            air_area: a.air_area,
            paint_flow: a.paint_flow,
            transfer_efficiency: a.transfer_efficiency,
            swath: a.swath,
            hand_speed: a.hand_speed,
            compressor: a.compressor,
            drop_size: a.drop_size,
            spread: a.spread,
            classes: a.classes,
            correlation: a.correlation,
        }
    }
}

impl TryFrom<Record> for Airbrush {
    type Error = Error;
    fn try_from(r: Record) -> Result<Self> {
        let mut gun = Self::new(r.nozzle, r.pressure, r.distance)?
            .with_spread(r.spread)?
            .with_classes(r.classes)?
            .with_correlation(r.correlation);
        if let Some(x) = r.air_area {
            gun = gun.with_air_area(x)?;
        }
        if let Some(x) = r.paint_flow {
            gun = gun.with_paint_flow(x)?;
        }
        if let Some(x) = r.transfer_efficiency {
            gun = gun.with_transfer_efficiency(x)?;
        }
        if let Some(x) = r.swath {
            gun = gun.with_swath(x)?;
        }
        if let Some(x) = r.hand_speed {
            gun = gun.with_hand_speed(x)?;
        }
        if let Some(x) = r.compressor {
            gun = gun.with_compressor(x)?;
        }
        if let Some(x) = r.drop_size {
            gun = gun.with_drop_size(x)?;
        }
        Ok(gun)
    }
}

impl Airbrush {
    /// A gun with a paint nozzle of this bore, at this gauge pressure while air flows, this far from the part.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a bore outside 0.15 to 1.5 mm, a pressure outside 20 to 700 kPa or a
    /// distance outside 5 to 500 mm.
    pub fn new(nozzle: Length, pressure: Pressure, distance: Length) -> Result<Self> {
        check_bore(nozzle)?;
        within(
            pressure,
            PRESSURE_PA,
            "gauge pressure of the airbrush",
            "20 kPa to 700 kPa (3 psi to 100 psi)",
            "read the regulator while air flows; 55 kPa for fine lines, 100 kPa to 170 kPa for coats",
        )?;
        within(
            distance,
            DISTANCE_M,
            "distance of the part",
            "5 mm to 500 mm",
            "20 mm to 50 mm for lines, 50 mm to 150 mm for coats with an airbrush",
        )?;
        Ok(Self {
            nozzle,
            pressure,
            distance,
            air_area: None,
            paint_flow: None,
            transfer_efficiency: None,
            swath: None,
            hand_speed: None,
            compressor: None,
            drop_size: None,
            spread: SizeSpread::default(),
            classes: USUAL_CLASSES,
            correlation: Correlation::default(),
        })
    }

    /// The same with the effective area of its air gap, as measured ([`Orifice::from_free_air`]).
    ///
    /// # Errors
    /// Those of [`Orifice::effective`].
    pub fn with_air_area(mut self, area: Estimate<Area>) -> Result<Self> {
        for end in [area.low, area.best, area.high] {
            Orifice::effective(end)?;
        }
        self.air_area = Some(area);
        Ok(self)
    }

    /// The same with the paint it sprays in a time, as weighed.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 0.01 to 1000 mL/min.
    pub fn with_paint_flow(mut self, flow: Estimate<VolumeRate>) -> Result<Self> {
        let per_minute = 1e-6 / 60.0;
        within(
            flow.best,
            (0.01 * per_minute, 1000.0 * per_minute),
            "paint flow",
            "0.01 mL/min to 1000 mL/min",
            "weigh the cup before and after a minute; an airbrush sprays 0.2 mL/min to 5 mL/min",
        )?;
        self.paint_flow = Some(flow);
        Ok(self)
    }

    /// The same with the share of the sprayed solids that stays on the part.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 1 to 100 %.
    pub fn with_transfer_efficiency(mut self, share: Estimate<Ratio>) -> Result<Self> {
        within(
            share.best,
            (0.01, 1.0),
            "transfer efficiency",
            "1 % to 100 %",
            "10 % to 60 % is usual: less on small parts, at high pressure and from far",
        )?;
        self.transfer_efficiency = Some(share);
        Ok(self)
    }

    /// The same with the width of one pass; a fifth of the distance when not called.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 0.3 to 500 mm.
    pub fn with_swath(mut self, width: Length) -> Result<Self> {
        within(
            width,
            (0.3e-3, 0.5),
            "width of a pass",
            "0.3 mm to 500 mm",
            "spray one pass on card and measure where it looks even",
        )?;
        self.swath = Some(width);
        Ok(self)
    }

    /// The same with the speed of the hand over the part; 50 mm/s when not called.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 1 to 2000 mm/s.
    pub fn with_hand_speed(mut self, speed: Estimate<Velocity>) -> Result<Self> {
        within(
            speed.best,
            (1e-3, 2.0),
            "hand speed",
            "1 mm/s to 2000 mm/s",
            "length of a pass over its time; 30 mm/s to 150 mm/s with an airbrush",
        )?;
        self.hand_speed = Some(speed);
        Ok(self)
    }

    /// The same on a compressor that delivers this much free air at the working pressure (not its displacement, which is
    /// a quarter to a half more).
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 0.1 to 10 000 L/min.
    pub fn with_compressor(mut self, free_air: VolumeRate) -> Result<Self> {
        let per_minute = 1e-3 / 60.0;
        within(
            free_air,
            (0.1 * per_minute, 1e4 * per_minute),
            "free air of the compressor",
            "0.1 L/min to 10 000 L/min",
            "the delivery at pressure on its plate; small piston compressors give 10 L/min to 25 L/min",
        )?;
        self.compressor = Some(free_air);
        Ok(self)
    }

    /// The same with a measured Sauter mean diameter in place of a correlation.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside 1 to 500 µm.
    pub fn with_drop_size(mut self, sauter_mean: Estimate<Length>) -> Result<Self> {
        within(
            sauter_mean.best,
            (1e-6, 5e-4),
            "Sauter mean diameter of the drops",
            "1 µm to 500 µm",
            "air spray has 20 µm to 50 µm, airbrushes about 10 µm to 30 µm",
        )?;
        self.drop_size = Some(sauter_mean);
        Ok(self)
    }

    /// The same with another spread of drop sizes.
    ///
    /// # Errors
    /// Those of [`SizeSpread::checked`].
    pub fn with_spread(mut self, spread: SizeSpread) -> Result<Self> {
        self.spread = spread.checked()?;
        Ok(self)
    }

    /// The same with so many classes of drop size, 1 to 99; 5 when not called.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] outside that.
    pub fn with_classes(mut self, count: usize) -> Result<Self> {
        if !(CLASSES.0..=CLASSES.1).contains(&count) {
            return Err(out_of_range(
                "number of drop size classes",
                count.to_string(),
                "1 to 99",
                "5 give the loss in flight within one per cent; 1 is a spray of equal drops",
            ));
        }
        self.classes = count;
        Ok(self)
    }

    /// The same with another correlation of the drop size.
    #[must_use]
    pub fn with_correlation(mut self, correlation: Correlation) -> Self {
        self.correlation = correlation;
        self
    }

    /// The same at another gauge pressure.
    ///
    /// # Errors
    /// As [`Self::new`].
    pub fn at_pressure(mut self, pressure: Pressure) -> Result<Self> {
        self.pressure = Self::new(self.nozzle, pressure, self.distance)?.pressure;
        Ok(self)
    }

    /// The same from another distance.
    ///
    /// # Errors
    /// As [`Self::new`].
    pub fn at_distance(mut self, distance: Length) -> Result<Self> {
        self.distance = Self::new(self.nozzle, self.pressure, distance)?.distance;
        Ok(self)
    }

    /// Sprays a mix in a room.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a room outside 0 to 50 °C or a mix with more than 98 % of volume solids;
    /// errors of the mix's viscosity.
    pub fn spray(&self, mix: &Mix, room: &Room) -> Result<Shot> {
        Shot::new(self.clone(), mix.clone(), room.clone())
    }

    /// The jet of its air alone, with the paint off, in a room; for drying with the gun ([`Room::under_gun`]).
    ///
    /// # Errors
    /// A [`crate::error::DataError`] when the embedded table is damaged.
    ///
    /// ```
    /// use mistcoat::{air::Room, quantity::{RelativeHumidity, parse, to}, spray::Airbrush};
    /// let room = Room::new(parse("21 °C")?, RelativeHumidity::new(0.55)?)?;
    /// let gun = Airbrush::new(parse("0.3 mm")?, parse("20 psi")?, parse("15 cm")?)?;
    /// let dry_with_it = room.under_gun(&gun.air_jet(&room)?, gun.distance())?;
    /// assert!((5.0..15.0).contains(&to(dry_with_it.air_speed(), "m/s")?));
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn air_jet(&self, room: &Room) -> Result<Jet> {
        Jet::new(&Orifice::effective(self.air_area()?.best)?, self.pressure, room)
    }

    /// Bore of the paint nozzle.
    pub fn nozzle(&self) -> Length {
        self.nozzle
    }

    /// Gauge pressure.
    pub fn pressure(&self) -> Pressure {
        self.pressure
    }

    /// Distance of the part.
    pub fn distance(&self) -> Length {
        self.distance
    }

    /// Effective area of the air gap: given, or typical of the bore.
    ///
    /// # Errors
    /// A [`crate::error::DataError`] when the embedded table is damaged.
    pub fn air_area(&self) -> Result<Estimate<Area>> {
        match &self.air_area {
            Some(area) => Ok(area.clone()),
            None => Ok(NozzleTypical::of(self.nozzle)?.air_area),
        }
    }

    /// Paint flow, when given.
    pub fn paint_flow(&self) -> Option<&Estimate<VolumeRate>> {
        self.paint_flow.as_ref()
    }

    /// Share of the solids that stays on the part: given, or typical.
    pub fn transfer_efficiency(&self) -> Estimate<Ratio> {
        self.transfer_efficiency.clone().unwrap_or_else(|| {
            let cause = ModelError::new("transfer efficiency (typical)", TRANSFER_STD);
            Estimate::relative(Ratio::from_si(TRANSFER), &[cause])
        })
    }

    /// Width of one pass, when given.
    pub fn swath(&self) -> Option<Length> {
        self.swath
    }

    /// Speed of the hand: given, or typical.
    pub fn hand_speed(&self) -> Estimate<Velocity> {
        self.hand_speed.clone().unwrap_or_else(|| {
            let cause = ModelError::new("hand speed (typical)", HAND_STD);
            Estimate::relative(Velocity::from_si(HAND_M_S), &[cause])
        })
    }

    /// Free air of the compressor, when given.
    pub fn compressor(&self) -> Option<VolumeRate> {
        self.compressor
    }

    /// Sauter mean diameter, when given.
    pub fn given_drop_size(&self) -> Option<&Estimate<Length>> {
        self.drop_size.as_ref()
    }

    /// Spread of the drop sizes.
    pub fn spread(&self) -> SizeSpread {
        self.spread
    }

    /// Number of drop size classes.
    pub fn classes(&self) -> usize {
        self.classes
    }

    /// Correlation of the drop size.
    pub fn correlation(&self) -> Correlation {
        self.correlation
    }
}

impl core::fmt::Display for Airbrush {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{} nozzle, {}, {} away", show(self.nozzle), show(self.pressure), show(self.distance))
    }
}

fn within<Q: Quantity>(q: Q, (low, high): (f64, f64), what: &str, limit: &str, remedy: &str) -> Result<()> {
    if (low..=high).contains(&q.si()) {
        return Ok(());
    }
    Err(out_of_range(what, show(q), limit, remedy))
}
