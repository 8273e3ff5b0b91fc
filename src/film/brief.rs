//! A coat in a few best values, from one run of the engine: what maps of thousands of settings need.

use super::coat::{Film, Moved};
use super::dispersion::touch_dry_reader;
use super::drying::first_time;
use super::flash_off::FLASH_OFF_SHARE;
use super::viscosity::{Nudge, Thickening};
use super::{Ripple, course::is_water};
use crate::error::Result;
use crate::quantity::{Length, Quantity, Ratio, Temperature, Time};

/// Water among the volatiles from which a coat counts as waterborne, by mass.
pub(super) const WATERBORNE: f64 = 0.5;

/// Best values of a drying coat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Brief {
    pub(crate) flash_off: Option<Time>,
    pub(crate) touch_dry: Option<Time>,
    pub(crate) block_free: Option<Time>,
    pub(crate) coldest: Temperature,
    /// Levelling exponent and way of the surface; None for a coat whose flow is not known.
    pub(crate) flow: Option<(f64, Length)>,
}

impl Film {
    /// Dries the coat once and reads it.
    pub(crate) fn brief(&self, ripple: &Ripple, steepness: Ratio) -> Result<Brief> {
        let course = self.dry_moved(Moved::NOTHING)?;
        let trace = &course.trace;
        let flow = match self.flow() {
            Some(flow) => {
                let mut thickening = Thickening::new(self, &course, Moved::NOTHING, Nudge::default())?;
                thickening.on_face(steepness.si());
                let moving = thickening.moving(ripple.wavelength().best.si(), [0.0, f64::INFINITY]);
                let exponent = moving.levelling * flow.surface_tension().best.si();
                Some((exponent, Length::from_si(moving.sag_m * steepness.si())))
            }
            None => None,
        };
        Ok(Brief {
            flash_off: first_time(&trace.segments, Ratio::from_si(FLASH_OFF_SHARE)),
            touch_dry: if self.dispersion().is_some() {
                touch_dry_reader(self).and_then(|read| read(trace)).ok().map(Time::from_si)
            } else {
                trace.soft_until_s[0].map(Time::from_si)
            },
            block_free: trace.soft_until_s[1].map(Time::from_si),
            coldest: Temperature::from_si(trace.temperature_k.iter().copied().fold(f64::INFINITY, f64::min)),
            flow,
        })
    }

    /// Share of water in all that leaves, by mass.
    pub(crate) fn water_share(&self) -> f64 {
        let ingredients = self.volatile().ingredients().iter();
        ingredients.filter(|i| is_water(&i.solvent)).map(|i| i.mass_fraction).sum()
    }

    /// Whether most of what leaves is water.
    pub(crate) fn is_waterborne(&self) -> bool {
        self.water_share() > WATERBORNE
    }
}
