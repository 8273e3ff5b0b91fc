//! What will go wrong at the gun, and at which number.
//!
//! * **spatter**: the Sauter mean is above 50 µm, the coarse end of air spray;
//! * **dry spray**: what lands is within 15 K of touch dry (or, a dispersion, packed), so that it cannot flow together;
//!   **dust**: a fifth of the paint lands dry already;
//! * **nozzle too fine**: the paint does not come as fast as wanted with the trigger fully drawn; more than 40 % of
//!   volume solids; grains above a tenth of the gap around the needle;
//! * **spidering**: the air pushes the wet film aside. Wall shear under a round jet
//!   `τ = 44.6 ρ u0² Re^−½ (d/x)²` moves a film h of viscosity η by `τ h/(2 η)` times the time under the jet;
//!   it is told when that is more than half the width of the pass;
//! * **water from the air**: the drops are colder than the dew point and take up more water than the liquid that lands can
//!   hold (its activity is above 1, pure water's) and enough of it to be seen (1 % of the coat, a judgement). Whether the haze stays
//!   is not computed: it clears where the water leaves before the binder sets. US Army TM 43-0139 sprays no lacquer above 65 %
//!   humidity; at equal parts, 20 psi, 80 mm and 25 °C the warning comes from 68 % on with acetone and butyl acetate (87 % at
//!   21 °C), from 82 % with acetone alone, from 96 % with 15 % of 2-butoxyethanol among the thinner, which mixes with water, and
//!   already from 38 % with 30 % of toluene, which holds next to none: how long such a haze lasts decides, and is not known;
//! * **compressor**: it delivers less free air than the nozzle takes.
//!
//! All limits are common practice put in numbers; the model is no better than a factor 2 on drop size.

use super::model::{Cause, Moved};
use super::nozzle::GAP;
use super::shot::Shot;
use crate::error::Result;
use crate::film::TOUCH_DRY_K;
use crate::paint::Family;
use crate::quantity::{
    Length, Pressure, Quantity, Ratio, Velocity, VolumeFraction, VolumeRate, digits, show,
};
use crate::warning::Warning;

/// Coarse end of air spray, m (source key `AIR_SPRAY_SIZES`).
pub(crate) const COARSEST_M: f64 = 50e-6;
/// A deposit so near its touch-dry state does not flow together, K.
pub(super) const NEARLY_TOUCH_DRY_K: f64 = 15.0;
/// Solids at which a dispersion is near packed.
pub(super) const NEARLY_PACKED: f64 = 0.62;
/// Share of dry drops that is felt as grit.
pub(super) const GRITTY: f64 = 0.2;
/// Solids that clog, and grains over the gap (source key `NEEDLE_GAP`).
const CLOGGING_SOLIDS: f64 = 0.40;
const GRAIN_PER_GAP: f64 = 0.1;
/// Wall shear under a jet (source key `PHARES`).
const WALL_SHEAR: f64 = 44.6;
/// Share of the width of a pass by which the air may push it.
pub(super) const MOST_PUSHED: f64 = 0.5;
/// Least share of water from the air that counts, of the volume that lands (source key `WATER_SEEN`).
pub(crate) const WATER_SEEN: f64 = 0.01;
/// Pressures tried when one is advised, Pa.
const HIGHEST_PA: f64 = 4e5;

pub(super) fn all(shot: &Shot) -> Vec<Warning> {
    let mut found = Vec::new();
    found.extend(spatter(shot));
    found.extend(dry_spray(shot));
    found.extend(too_fine(shot));
    found.extend(spidering(shot));
    found.extend(water_from_air(shot));
    found.extend(compressor(shot));
    found
}

fn spatter(shot: &Shot) -> Option<Warning> {
    let size = shot.nozzle.sauter_mean_m;
    if size <= COARSEST_M {
        return None;
    }
    let now = shot.gun().pressure().si();
    let enough = |pa: f64| {
        let moved = Moved::by(&[Cause::Pressure], &[(pa / now).ln()]);
        shot.inputs.at_nozzle(&moved).is_ok_and(|n| n.sauter_mean_m <= COARSEST_M)
    };
    let cure = if now < HIGHEST_PA && enough(HIGHEST_PA) {
        let (mut low, mut high) = (now, HIGHEST_PA);
        for _ in 0..12 {
            let middle = 0.5 * (low + high);
            if enough(middle) {
                high = middle;
            } else {
                low = middle;
            }
        }
        format!("thin it further, or raise the pressure to {}", show(Pressure::from_si(high)))
    } else {
        "thin it further: pressure alone does not tear paint this thick".to_owned()
    };
    Some(Warning::new(
        "spatter",
        format!(
            "drops of {} on average are coarser than the {} of usual air spray at {} and {}: expect spatter and orange \
             peel; {cure}",
            show(Length::from_si(size)),
            show(Length::from_si(COARSEST_M)),
            show(shot.gun().pressure()),
            show(shot.inputs.viscosity.best)
        ),
    ))
}

fn dry_spray(shot: &Shot) -> Option<Warning> {
    let part = &shot.part;
    let solids = part.solids / part.volume;
    let cures = "come nearer, lower the pressure, or take a slower thinner or a retarder";
    let near = match (part.above_glass_k, shot.mix().paint().family()) {
        (Some(above), _) => (above <= TOUCH_DRY_K + NEARLY_TOUCH_DRY_K)
            .then(|| format!("{above:.0} K above its glass transition, {TOUCH_DRY_K} K is touch dry")),
        (None, Family::WaterborneAcrylic) => (solids >= NEARLY_PACKED)
            .then(|| format!("{} solids, packed at 74 %", show(Ratio::from_si(solids)))),
        // Alkyds and oils stay liquid without their solvent.
        (None, _) => None,
    };
    let lost = show(Ratio::from_si(part.lost));
    if let Some(state) = near {
        return Some(Warning::new(
            "dry-spray",
            format!(
                "the spray loses {lost} of its volatile matter on the way and lands nearly dry ({state}): the coat will \
                 be rough and dusty; {cures}"
            ),
        ));
    }
    (part.dust >= GRITTY && !matches!(shot.mix().paint().family(), Family::AlkydEnamel | Family::ArtistsOil))
        .then(|| {
            Warning::new(
                "dry-spray-dust",
                format!(
                    "{} of the paint flies in drops so fine that they land dry and make the coat gritty; {cures}",
                    show(Ratio::from_si(part.dust))
                ),
            )
        })
}

fn too_fine(shot: &Shot) -> Vec<Warning> {
    let mut found = Vec::new();
    let n = &shot.nozzle;
    let bore = shot.gun().nozzle();
    if n.full_m3_s < n.wanted_m3_s {
        found.push(Warning::new(
            "nozzle-too-thick",
            format!(
                "at {} only {} comes through a {} nozzle with the trigger fully drawn, less than the {} usual for a \
                 coat: thin it further, take a larger nozzle or more pressure",
                show(shot.inputs.viscosity.best),
                show(VolumeRate::from_si(n.full_m3_s)),
                show(bore),
                show(VolumeRate::from_si(n.wanted_m3_s))
            ),
        ));
    }
    let solids = shot.mix().volume_solids().best.si();
    if solids > CLOGGING_SOLIDS {
        found.push(Warning::new(
            "nozzle-solids",
            format!(
                "{} volume solids clog an airbrush: thin it below {}",
                show(Ratio::from_si(solids)),
                VolumeFraction::new(CLOGGING_SOLIDS).map_or_else(|_| String::new(), |v| v.to_string())
            ),
        ));
    }
    let gap = GAP * bore.si();
    let grain = shot.mix().paint().pigment().diameter.high.si();
    if grain > GRAIN_PER_GAP * gap {
        found.push(Warning::new(
            "nozzle-pigment",
            format!(
                "grains up to {} bridge the gap of about {} around the needle of a {} nozzle: strain the paint, and take \
                 a nozzle of {} or more",
                show(Length::from_si(grain)),
                show(Length::from_si(gap)),
                show(bore),
                show(Length::from_si(grain / (GRAIN_PER_GAP * GAP)))
            ),
        ));
    }
    found
}

/// How far the air pushes the film of one pass, m; at most so far where that is too little to matter.
pub(crate) fn pushed_m(shot: &Shot) -> Result<f64> {
    let (n, part) = (&shot.nozzle, &shot.part);
    let jet = &n.jet;
    let speed = jet.exit_speed_m_s / jet.slowing;
    let nu = crate::air::properties::viscosity_pa_s(jet.room_temperature_k) / n.tip.air_density_kg_m3;
    let reynolds = speed * jet.diameter_m / nu;
    let near = (jet.diameter_m / n.distance_m).min(1.0 / 6.2);
    let shear = WALL_SHEAR * n.tip.air_density_kg_m3 * speed * speed / reynolds.sqrt() * near * near;
    let per_viscosity = shear * part.wet_m / 2.0 * part.swath_m / part.hand_m_s;
    // What lands is thicker than the mix: where the mix would stay, the dilution law need not be asked.
    let at_most = per_viscosity / shot.inputs.viscosity.best.si();
    if part.volume <= 1.0 && at_most <= MOST_PUSHED * part.swath_m {
        return Ok(at_most);
    }
    Ok(per_viscosity / on_part_pa_s(shot)?)
}

/// Viscosity of what lands: the dilution law at the solids on arrival.
fn on_part_pa_s(shot: &Shot) -> Result<f64> {
    let mix = shot.mix();
    let x = (mix.paint_fraction().get() / shot.part.volume).min(1.0);
    let t = shot.room().temperature();
    if x >= 1.0 {
        return Ok(mix.paint().viscosity(t)?.best.si().max(shot.inputs.viscosity.best.si()));
    }
    Ok(mix.paint().law(mix.thinner(), t)?.viscosity(VolumeFraction::new(x)?)?.best().si())
}

fn spidering(shot: &Shot) -> Option<Warning> {
    let pushed = shot.pushed_m;
    (pushed > MOST_PUSHED * shot.part.swath_m).then(|| Warning::new(
        "spidering",
        format!(
            "air of {} pushes a wet film of {} by {} within one pass of {}: it will run into legs; lower the pressure, draw \
             the trigger less, move faster or hold it farther away",
            show::<Velocity>(shot.air_speed_at_part()),
            show(Length::from_si(shot.part.wet_m)),
            show(Length::from_si(pushed)),
            show(shot.swath())
        ),
    ))
}

fn water_from_air(shot: &Shot) -> Option<Warning> {
    let share = shot.water_from_air().si();
    (share >= WATER_SEEN && shot.part.water_activity > 1.0 && !shot.inputs.film().is_waterborne()).then(|| {
        let dew = shot.room().dew_point().map_or_else(|_| String::new(), |t| format!(", the dew point is {}", show(t)));
        Warning::new(
            "water-in-flight",
            format!(
                "the drops arrive at {}{dew}: they bring {} of water from the air into the coat, more than its solvents hold, and it \
                 may land milky; it clears if the water leaves before the binder sets. Dry the room, come nearer, or take a \
                 slower thinner or a retarder that mixes with water",
                show(shot.drop_temperature()),
                show(Ratio::from_si(share))
            ),
        )
    })
}

fn compressor(shot: &Shot) -> Option<Warning> {
    let given = shot.gun().compressor()?;
    let need = shot.nozzle.free_air_m3_s;
    (need > given.si()).then(|| {
        Warning::new(
            "compressor-too-small",
            format!(
                "the nozzle takes {} of free air at {} and the compressor gives {}, {} of it: the pressure will sag; lower \
                 it, or spray in bursts from a tank",
                show(VolumeRate::from_si(need)),
                show(shot.gun().pressure()),
                show(given),
                digits(given.si() / need, 2)
            ),
        )
    })
}
