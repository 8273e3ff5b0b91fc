//! A shot in a few best values: what maps of thousands of settings need.

use super::checks::{GRITTY, MOST_PUSHED, NEARLY_PACKED, NEARLY_TOUCH_DRY_K};
use super::shot::Shot;
use crate::film::TOUCH_DRY_K;
use crate::paint::Family;
use crate::quantity::{Length, Quantity, Ratio, show};

/// Best values of a shot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Brief {
    pub(crate) sauter_mean: Length,
    pub(crate) flight_loss: Ratio,
    pub(crate) water_from_air: Ratio,
    pub(crate) wet_per_pass: Length,
    pub(crate) dry_per_pass: Length,
}

impl Shot {
    pub(crate) fn brief(&self) -> Brief {
        Brief {
            sauter_mean: Length::from_si(self.nozzle.sauter_mean_m),
            flight_loss: Ratio::from_si(self.part.lost),
            water_from_air: self.water_from_air(),
            wet_per_pass: Length::from_si(self.part.wet_m),
            dry_per_pass: Length::from_si(self.part.dry_m),
        }
    }

    /// How far the wet film is from being driven aside by the air, 1 at the edge where it is warned of, and the number in
    /// words.
    pub(crate) fn stays_put(&self) -> (f64, String) {
        let most = MOST_PUSHED * self.part.swath_m;
        let why = format!(
            "air of {} pushes the wet film of a pass by up to {}, {} is too far",
            show(self.air_speed_at_part()),
            show(Length::from_si(self.pushed_m)),
            show(Length::from_si(most))
        );
        (most / self.pushed_m.max(f64::MIN_POSITIVE), why)
    }

    /// How far the spray is from landing too dry, 1 at the edge where it is warned of, and the number in words.
    pub(crate) fn wetness(&self) -> (f64, String) {
        let part = &self.part;
        let lost = show(Ratio::from_si(part.lost));
        let solids = part.solids / part.volume;
        let state = match (part.above_glass_k, self.mix().paint().family()) {
            (Some(above), _) => {
                let edge = TOUCH_DRY_K + NEARLY_TOUCH_DRY_K;
                (
                    above.max(1.0) / edge,
                    format!("lands {above:.0} K above its glass transition, {edge:.0} K is too dry"),
                )
            }
            (None, Family::WaterborneAcrylic) => (
                NEARLY_PACKED / solids.max(1e-6),
                format!(
                    "lands with {} solids, {} is too dry",
                    show(Ratio::from_si(solids)),
                    show(Ratio::from_si(NEARLY_PACKED))
                ),
            ),
            (None, Family::AlkydEnamel | Family::ArtistsOil) => {
                return (f64::INFINITY, "stays liquid without its solvent".to_owned());
            }
            (None, _) => (f64::INFINITY, String::new()),
        };
        let dust = (
            GRITTY / part.dust.max(1e-6),
            format!(
                "{} of the paint lands as dust, {} is gritty",
                show(Ratio::from_si(part.dust)),
                show(Ratio::from_si(GRITTY))
            ),
        );
        let (factor, why) = if dust.0 < state.0 { dust } else { state };
        (factor, format!("{lost} of the solvent lost in flight; {why}"))
    }
}
