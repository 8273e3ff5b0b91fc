//! How near to burning is the air in front of the gun?
//!
//! The jet of the gun carries the vapour of what has evaporated on the way, in the air it left the nozzle with and all that it
//! has drawn in ([`crate::air::Jet`]):
//!
//! ```text
//! y(x) = b n(x)/(n(x) + ṁ(x)/M_air)     n: vapour set free up to x, mol/s;  b: axis over mean, 1.6 (from memory)
//! E(x) = y Σ y_i/L_i                    share of the lower flammable limit (Le Chatelier)
//! Q    = 4 (1 − L)/L · G                fresh air that keeps a quarter of the limit, 29 CFR 1910.94(c) (from memory)
//! ```
//!
//! The same is told **with the mist**: all solvent counted as if it were vapour. Drops of a flammable liquid carry a flame
//! though their vapour alone is too thin, also below the flash point, so that this is the number to look at. And for the
//! air around, within half a metre, where spray that bounced off gathers (the near zone of [`super::SessionAir`]).
//!
//! Accuracy: a factor 2 to 3, half of it from the paint flow unless given. Neglected: gusts of the jet, in which the mix is
//! two to three times richer than its mean for moments; what gathers in a box, a booth without air, or at the floor; sparks
//! from charge. **There is no safe number here**: a flame or a spark has no place near a gun at any of them. The safety data
//! sheet, local codes and licensed practice decide.

use super::fire::{FlammableLimit, QUARTER, lower_flammable_limit};
use super::session::near_flow_m3_s;
use crate::air::properties::{AIR_MOLAR_MASS, GAS_CONSTANT};
use crate::error::{Result, out_of_range};
use crate::estimate::{Estimate, ModelError};
use crate::quantity::{Length, Quantity, Ratio, VolumeRate, as_text, digits, show, show_in};
use crate::source;
use crate::spray::Shot;
use crate::table::{Cell, Column, Table};
use crate::warning::Warning;
use crate::working::{Step, Working};
use serde::{Deserialize, Serialize};

/// Vapour on the axis over that of the whole jet, both far from the nozzle (source key `JET_SCALAR`).
const AXIS: f64 = 1.6;
/// Standard uncertainties of logarithms: the jet's dilution, published flammable limits, loss in flight.
const JET_STD: f64 = 0.15;
const LIMIT_STD: f64 = 0.12;
const FLIGHT_STD: f64 = 0.25;
/// Exchange of the air around with the room: a factor 3 (95 %).
const AROUND_STD: f64 = 0.55;
/// Places told when none are named, as shares of the distance of the part.
const PLACES: [f64; 4] = [0.1, 0.25, 0.5, 1.0];
/// Nearest place spoken for, m.
const NEAREST_M: f64 = 5e-3;
/// Farthest place that the reach of the limit is looked for, m.
const FARTHEST_M: f64 = 3.0;
/// Most places in one answer.
const MOST_PLACES: usize = 100;
const BISECTIONS: usize = 50;

/// The air in the spray at one distance from the nozzle.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GunAir {
    /// From the nozzle.
    #[serde(with = "as_text")]
    pub distance: Length,
    /// Share of the sprayed solvent that is vapour there.
    #[serde(with = "as_text")]
    pub evaporated: Ratio,
    /// Vapour on the axis, by volume of air.
    #[serde(with = "as_text")]
    pub vapour: Ratio,
    /// Of the lower flammable limit, vapour alone.
    pub share_of_limit: Estimate<Ratio>,
    /// Of the lower flammable limit, all solvent counted as vapour: what burns in a mist.
    pub with_mist: Estimate<Ratio>,
}

/// How near to burning the air at the gun is.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct NearGun {
    /// In the spray, from near to far.
    pub places: Vec<GunAir>,
    /// Within half a metre of the work once spray has bounced off the part, of the lower flammable limit; adds to what the
    /// room already holds.
    pub around: Estimate<Ratio>,
    /// Up to here the spray, mist and all, passes the limit.
    #[serde(with = "as_text")]
    pub burns_to: Length,
    /// Up to here it passes a quarter of it.
    #[serde(with = "as_text")]
    pub quarter_to: Length,
    /// Fresh air that keeps the vapour of this gun at a quarter of the limit, evenly mixed.
    pub air_for_quarter: Estimate<VolumeRate>,
    /// Lower flammable limit of all that evaporates.
    pub limit: FlammableLimit,
    /// What to mind; never empty.
    pub warnings: Vec<Warning>,
    working: Working,
}

/// The air at a gun that sprays: in the spray at these distances from the nozzle (a tenth, a quarter, half and the whole
/// distance of the part when none is named), and around the work. None when nothing in the mix burns.
///
/// # Errors
/// A [`crate::error::RangeError`] for a distance outside 5 to 500 mm, more than 100 of them, or a liquid whose flammable limit
/// is not known; those of the spray.
///
/// ```
/// use mistcoat::{air::Room, blend::{Basis, Blend}, dose::{Parts, Thinning}, paint::{Family, Paint}};
/// use mistcoat::quantity::{RelativeHumidity, parse};
/// use mistcoat::{safety::near_gun, spray::Airbrush};
/// let thinner = Blend::from_names(&[("acetone", 40.0), ("n-butyl acetate", 60.0)], Basis::Volume, None)?;
/// let mix = Paint::typical(Family::SolventLacquer, "hull green")?
///     .thin(&thinner, Thinning::from_parts(Parts { thinner: 1.0, paint: 1.0 })?)?;
/// let room = Room::new(parse("21 °C")?, RelativeHumidity::new(0.5)?)?;
/// let shot = Airbrush::new(parse("0.3 mm")?, parse("20 psi")?, parse("80 mm")?)?.spray(&mix, &room)?;
/// let air = near_gun(&shot, &[])?.expect("lacquer burns");
/// assert!(air.places[0].with_mist.best > air.places[3].with_mist.best);
/// assert!(air.cautions().iter().any(|c| c.contains("mist")));
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn near_gun(shot: &Shot, distances: &[Length]) -> Result<Option<NearGun>> {
    let Some(limit) = lower_flammable_limit(&shot.mix().volatile()?)? else { return Ok(None) };
    let distances = places(shot, distances)?;
    let sprayed = Sprayed::of(shot)?;
    let flow = shot.paint_flow()?;
    let flow_std = ModelError::new("paint flow", flow.estimate.relative_std());
    let jet_std = ModelError::new("jet of the gun", JET_STD);
    let limit_std = ModelError::new("published flammable limits", LIMIT_STD);
    let of_limit = |share: f64, more: Option<ModelError>| -> Estimate<Ratio> {
        let mut parts = vec![flow_std.clone(), jet_std.clone(), limit_std.clone()];
        parts.extend(more);
        Estimate::relative(Ratio::from_si(share), &parts)
    };
    let mut found = Vec::with_capacity(distances.len());
    for x in distances {
        let there = shot.gun().clone().at_distance(x)?.spray(shot.mix(), shot.room())?;
        let gone = sprayed.gone(&there);
        let (vapour, share) = sprayed.in_jet(shot, x.si(), &gone);
        let (_, mist) = sprayed.in_jet(shot, x.si(), &vec![1.0; gone.len()]);
        found.push(GunAir {
            distance: x,
            evaporated: Ratio::from_si(sprayed.mass_share(&gone)),
            vapour: Ratio::from_si(vapour),
            share_of_limit: of_limit(share, Some(ModelError::new("loss in flight", FLIGHT_STD))),
            with_mist: of_limit(mist, None),
        });
    }
    let (room, flow_mol_s) = (shot.room(), sprayed.total_mol_s());
    let vapour_m3_s = flow_mol_s * GAS_CONSTANT * room.temperature().si() / room.pressure().si();
    let around = vapour_m3_s / near_flow_m3_s(room) * sprayed.per_limit();
    let around = Estimate::relative(
        Ratio::from_si(around),
        &[flow_std.clone(), limit_std.clone(), ModelError::new("air around the work", AROUND_STD)],
    );
    let lower = 1.0 / sprayed.per_limit();
    let air = (1.0 - lower) / lower / QUARTER * vapour_m3_s;
    let air_for_quarter = Estimate::relative(VolumeRate::from_si(air), &[flow_std, limit_std]);
    let [burns_to, quarter_to] = [1.0, QUARTER].map(|level| Length::from_si(sprayed.reach_m(shot, level)));
    let mut all = NearGun {
        places: found,
        around,
        burns_to,
        quarter_to,
        air_for_quarter,
        limit,
        warnings: Vec::new(),
        working: flow.working,
    };
    all.warnings = all.warn();
    all.explain(shot, &sprayed);
    Ok(Some(all))
}

fn places(shot: &Shot, distances: &[Length]) -> Result<Vec<Length>> {
    if distances.len() > MOST_PLACES {
        return Err(out_of_range(
            "number of distances",
            distances.len().to_string(),
            format!("at most {MOST_PLACES}"),
            "name a few places between nozzle and part",
        ));
    }
    let mut all: Vec<Length> = if distances.is_empty() {
        let part = shot.gun().distance().si();
        PLACES.iter().map(|share| Length::from_si((share * part).max(NEAREST_M))).collect()
    } else {
        // The gun refuses what it cannot be held at, NaN too, before anything is sorted.
        distances.iter().try_for_each(|x| shot.gun().clone().at_distance(*x).map(|_| ()))?;
        distances.to_vec()
    };
    all.sort_by(|a, b| a.si().total_cmp(&b.si()));
    all.dedup();
    Ok(all)
}

/// What leaves the nozzle of each flammable species.
struct Sprayed {
    names: Vec<String>,
    mol_s: Vec<f64>,
    molar_mass: Vec<f64>,
    /// Lower flammable limit of the liquid that brings it.
    limit: Vec<f64>,
}

impl Sprayed {
    fn of(shot: &Shot) -> Result<Self> {
        let volatile = shot.mix().volatile()?;
        let t_k = shot.room().temperature().si();
        let volumes = volatile.species().iter();
        let molar_volume: f64 =
            volumes.map(|s| s.mole_fraction * s.solvent.kernel().molar_volume_m3_mol(t_k)).sum();
        let liquid = shot.paint_flow()?.best().si() * (1.0 - shot.mix().volume_solids().best.si());
        let mut all =
            Self { names: Vec::new(), mol_s: Vec::new(), molar_mass: Vec::new(), limit: Vec::new() };
        for s in volatile.species().iter().filter(|s| s.solvent.id() != "water") {
            let poured = &volatile.ingredients()[s.ingredient].solvent;
            // Known: the limit of the whole was worked out from them.
            let Some(limit) = poured.lower_flammable_limit() else { continue };
            all.names.push(s.solvent.name().to_owned());
            all.mol_s.push(liquid * s.mole_fraction / molar_volume);
            all.molar_mass.push(s.solvent.molar_mass().si());
            all.limit.push(limit.value.si());
        }
        Ok(all)
    }

    fn total_mol_s(&self) -> f64 {
        self.mol_s.iter().sum()
    }

    /// `Σ y/L` of the vapour once all has evaporated.
    fn per_limit(&self) -> f64 {
        let total = self.total_mol_s();
        self.mol_s.iter().zip(&self.limit).map(|(n, l)| n / total / l).sum()
    }

    /// Share of each species that is vapour where this shot ends.
    fn gone(&self, shot: &Shot) -> Vec<f64> {
        let lost = shot.lost_by_species();
        let of = |name: &String| lost.iter().find(|(n, _)| n == name).map_or(0.0, |(_, share)| share.si());
        self.names.iter().map(of).collect()
    }

    fn mass_share(&self, gone: &[f64]) -> f64 {
        let mass = || self.mol_s.iter().zip(&self.molar_mass).map(|(n, m)| n * m);
        mass().zip(gone).map(|(m, g)| m * g).sum::<f64>() / mass().sum::<f64>()
    }

    /// Vapour on the axis of the jet by volume, and over the limit, with these shares evaporated.
    fn in_jet(&self, shot: &Shot, x_m: f64, gone: &[f64]) -> (f64, f64) {
        let jet = shot.jet();
        let drawn_in = jet.entrained(x_m);
        let air_mol_s = jet.mass_flow_kg_s * drawn_in / AIR_MOLAR_MASS;
        let vapour: f64 = self.mol_s.iter().zip(gone).map(|(n, g)| n * g).sum();
        // In the core the axis is as the nozzle left it.
        let on_axis = AXIS.min(drawn_in) * vapour;
        let share = on_axis / (on_axis + air_mol_s);
        let over = self.mol_s.iter().zip(gone).zip(&self.limit).map(|((n, g), l)| n * g / l).sum::<f64>();
        (share, if vapour > 0.0 { share * over / vapour } else { 0.0 })
    }

    /// Farthest place where the spray with its mist passes this share of the limit; zero when it does not.
    fn reach_m(&self, shot: &Shot, level: f64) -> f64 {
        let all = vec![1.0; self.mol_s.len()];
        let passes = |x: f64| self.in_jet(shot, x, &all).1 > level;
        if passes(FARTHEST_M) {
            return FARTHEST_M;
        }
        if !passes(0.0) {
            return 0.0;
        }
        let (mut low, mut high) = (0.0, FARTHEST_M);
        for _ in 0..BISECTIONS {
            let middle = 0.5 * (low + high);
            if passes(middle) { low = middle } else { high = middle }
        }
        high
    }
}

impl NearGun {
    fn warn(&self) -> Vec<Warning> {
        let mut out = vec![Warning::new(
            "mist-burns",
            format!(
                "mist burns though its vapour alone is too thin, also below the flash point: up to {} from the nozzle the spray \
                 with its mist passes the lower flammable limit, up to {} a quarter of it; gusts are two to three times richer",
                show(self.burns_to),
                show(self.quarter_to)
            ),
        )];
        if self.around.high.si() > QUARTER {
            out.push(Warning::new(
                "around-flammable",
                format!(
                    "around the work the air may come to {} of the lower flammable limit, above the quarter where fire codes \
                     draw the line: much more air, or a smaller flow",
                    show(self.around.high)
                ),
            ));
        }
        if self.limit.from_memory {
            let text = "some flammable limits are from memory and marked so: check them against the safety data sheet";
            out.push(Warning::new("from-memory", text));
        }
        out
    }

    fn explain(&mut self, shot: &Shot, sprayed: &Sprayed) {
        let w = &mut self.working;
        "Vapour at the gun against the lower flammable limit".clone_into(&mut w.title);
        w.push(
            Step::new("lower flammable limit of the vapour", "1/Σ(y/L)", r"1/\sum(y/L)")
                .numbers(self.limit.terms.join("; "))
                .result(show(Ratio::from_si(1.0 / sprayed.per_limit())))
                .source("LE_CHATELIER"),
        );
        for place in &self.places {
            let air = shot.jet().entrained(place.distance.si());
            w.push(
                Step::new(
                    format!("in the spray at {}", show(place.distance)),
                    "E = y Σ y_i/L_i, y = b n/(b n + ṁ/M_air)",
                    r"E = y\sum y_i/L_i,\quad y = \frac{b n}{b n + \dot m/M_a}",
                )
                .numbers(format!(
                    "{} evaporated in {} times the air of the nozzle",
                    show(place.evaporated),
                    digits(air, 3)
                ))
                .result(format!("{} of the limit, {} with the mist", place.share_of_limit, place.with_mist))
                .source("JET_SCALAR"),
            );
        }
        w.push(
            Step::new("around the work", "E = G/β Σ y/L", r"E = \frac{G}{\beta}\sum y/L")
                .numbers(format!(
                    "β {}",
                    show_in(VolumeRate::from_si(near_flow_m3_s(shot.room())), "m3/h", 3).unwrap_or_default()
                ))
                .result(self.around.to_string())
                .source("NEAR_FIELD"),
        );
        w.push(
            Step::new("fresh air for a quarter of the limit", "Q = 4 G (1 − L)/L", r"Q = 4 G (1-L)/L")
                .result(self.air_for_quarter.to_string())
                .source("CFR_1910_94"),
        );
    }

    /// What goes with the numbers wherever they are shown; never empty, and who decides comes last.
    pub fn cautions(&self) -> Vec<String> {
        let mut out: Vec<String> =
            self.warnings.iter().map(|w| super::session::sentence(&w.message)).collect();
        out.push(
            "No flame, spark, heater, motor or switch near a gun at any of these numbers; vapour creeps along the floor and \
             gathers in boxes and booths without air."
                .to_owned(),
        );
        out.push("The safety data sheets, local codes and licensed practice decide.".to_owned());
        out
    }

    /// Citations of what the numbers rest on, each with how far to trust it.
    pub fn citations(&self) -> Vec<String> {
        let rules =
            ["JET_SCALAR", "RICOU_SPALDING", "LE_CHATELIER", "NEAR_FIELD", "CFR_1910_94", "LEL_FRACTIONS"];
        let mut out = self.limit.sources.clone();
        for citation in rules.iter().map(|key| source::cite(key)) {
            if !out.contains(&citation) {
                out.push(citation);
            }
        }
        out
    }

    /// Formulas with numbers.
    pub fn working(&self) -> &Working {
        &self.working
    }

    /// Places in the spray, and the cautions under them.
    pub fn table(&self) -> Table {
        let percent = |e: &Estimate<Ratio>| {
            let text = |r: Ratio| digits(100.0 * r.si(), 2);
            Cell::estimate(
                format!("{} ({} to {})", text(e.best), text(e.low), text(e.high)),
                100.0 * e.best.si(),
                100.0 * e.low.si(),
                100.0 * e.high.si(),
            )
        };
        let column = |key: &str, title: &str, unit: &str, cell: &dyn Fn(&GunAir) -> Cell| Column {
            key: key.to_owned(),
            title: title.to_owned(),
            unit: unit.to_owned(),
            cells: self.places.iter().map(cell).collect(),
        };
        let mut notes = vec![
            format!("Around the work, within half a metre: {} of the lower flammable limit.", self.around),
            format!(
                "Fresh air for a quarter of the limit: {} (29 CFR 1910.94(c), from memory).",
                in_m3_h(&self.air_for_quarter)
            ),
        ];
        notes.extend(self.cautions());
        notes.push(format!("Limits: {}.", self.limit.terms.join("; ")));
        Table {
            caption: format!(
                "Air in the spray against the lower flammable limit, {}",
                show(self.limit.limit)
            ),
            columns: vec![
                column("distance", "from nozzle\nmm", "mm", &|p| {
                    Cell::number(digits(1e3 * p.distance.si(), 3), 1e3 * p.distance.si())
                }),
                column("evaporated", "evaporated\n%", "%", &|p| {
                    Cell::number(digits(100.0 * p.evaporated.si(), 2), 100.0 * p.evaporated.si())
                }),
                column("vapour", "vapour on axis\nppm", "ppm", &|p| {
                    Cell::number(digits(1e6 * p.vapour.si(), 2), 1e6 * p.vapour.si())
                }),
                column("share_of_limit", "of the limit, vapour\n%", "%", &|p| percent(&p.share_of_limit)),
                column("with_mist", "with the mist\n%", "%", &|p| percent(&p.with_mist)),
            ],
            notes,
        }
    }
}

fn in_m3_h(flow: &Estimate<VolumeRate>) -> String {
    let text = |q: VolumeRate| digits(3600.0 * q.si(), 2);
    format!("{} m3/h ({} to {})", text(flow.best), text(flow.low), text(flow.high))
}
