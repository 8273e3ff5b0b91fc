//! What gives off vapour, when and how much: a sprayed coat, a cleaning, an open cup, in pieces of even release.

use crate::air::build_up::Piece;
use crate::blend::Blend;
use crate::error::{Result, out_of_range};
use crate::film::{CupCourse, Drying};
use crate::paint::Mix;
use crate::quantity::{Mass, Quantity, Ratio, Time, Volume, VolumeFraction, as_text, show};
use crate::solvent::Solvent;
use serde::{Deserialize, Serialize};

/// Most that one source may be, m3: more is no hobby.
const MOST_VOLUME_M3: f64 = 0.1;
/// A session is one day, s.
const DAY_S: f64 = 86_400.0;
/// Pieces of a drying curve: the first ends after this, each further one is so many times later, s.
const FIRST_PIECE_S: f64 = 5.0;
const NEXT_PIECE: f64 = 1.35;
/// A film that holds this much more of a liquid than the mix brought is of another mix.
const OTHER_MIX: f64 = 0.02;
/// Less of a liquid than this share of the moles is rounding of the flight.
const NOTHING: f64 = 1e-6;

/// What a source of vapour is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SourceKind {
    /// Sprayed: overspray and loss in flight at once, the film as it dries.
    Coat,
    /// Cleaner that evaporates.
    Cleaning,
    /// A mix in an open cup.
    OpenCup,
}

impl SourceKind {
    /// The words shown to a reader.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Coat => "sprayed coat",
            Self::Cleaning => "cleaning",
            Self::OpenCup => "open cup",
        }
    }
}

/// One source of vapour over the session. Water does not count.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct VapourSource {
    /// Its name.
    pub name: String,
    /// What it is.
    pub kind: SourceKind,
    /// When it begins, from the begin of the session.
    #[serde(with = "as_text")]
    pub start: Time,
    /// How long is sprayed or cleaned, or the cup open; the film goes on drying afterwards.
    #[serde(with = "as_text")]
    pub lasts: Time,
    /// Solvent sprayed, poured out or standing in the cup.
    #[serde(with = "as_text")]
    pub brought: Mass,
    /// Vapour given off in all.
    #[serde(with = "as_text")]
    pub released: Mass,
    /// Of it, what never landed or was lost in flight.
    #[serde(with = "as_text")]
    pub in_flight: Mass,
    /// What never became vapour: still in the film when it was last looked at, poured away, or left in the cup.
    #[serde(with = "as_text")]
    pub kept: Mass,
}

/// A source with what it gives off, kg, by solvent as it is poured.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Emitter {
    pub(super) source: VapourSource,
    pub(super) given: Vec<(Solvent, Vec<Piece>)>,
    pub(super) kept: Vec<(Solvent, f64)>,
}

impl Emitter {
    fn new(name: &str, kind: SourceKind, start: Time, lasts: Time) -> Result<Self> {
        check_time("start of a source of vapour", start)?;
        check_time("duration of a source of vapour", lasts)?;
        check_time("end of a source of vapour", Time::from_si(start.si() + lasts.si()))?;
        let zero = Mass::from_si(0.0);
        let source = VapourSource {
            name: name.to_owned(),
            kind,
            start,
            lasts,
            brought: zero,
            released: zero,
            in_flight: zero,
            kept: zero,
        };
        Ok(Self { source, given: Vec::new(), kept: Vec::new() })
    }

    /// This mass at these times, from the start of the source.
    fn gives(&mut self, solvent: &Solvent, from_s: f64, until_s: f64, mass_kg: f64) {
        if mass_kg <= 0.0 {
            return;
        }
        let start = self.source.start.si();
        let piece = Piece { from_s: start + from_s, until_s: start + until_s, amount: mass_kg };
        self.source.released += Mass::from_si(mass_kg);
        match self.given.iter_mut().find(|(s, _)| s.id() == solvent.id()) {
            Some((_, pieces)) => pieces.push(piece),
            None => self.given.push((solvent.clone(), vec![piece])),
        }
    }

    fn keeps(&mut self, solvent: &Solvent, mass_kg: f64) {
        self.source.kept += Mass::from_si(mass_kg);
        match self.kept.iter_mut().find(|(s, _)| s.id() == solvent.id()) {
            Some((_, sum)) => *sum += mass_kg,
            None => self.kept.push((solvent.clone(), mass_kg)),
        }
    }

    /// A falling curve of what is held, let go of piece by piece; `smeared_s` is the time over which the source itself was laid.
    fn lets_go(&mut self, solvent: &Solvent, times_s: &[f64], held_kg: &[f64], smeared_s: f64) {
        let end = times_s.last().copied().unwrap_or(0.0);
        let (mut before, mut from_s) = (held_kg.first().copied().unwrap_or(0.0), 0.0);
        let mut next_s = FIRST_PIECE_S;
        while from_s < end {
            let until_s = next_s.min(end);
            // Water that comes and goes can push a little solvent back and forth; what left has left.
            let now = at(times_s, held_kg, until_s).min(before);
            self.gives(solvent, from_s, until_s + smeared_s, before - now);
            (before, from_s, next_s) = (now, until_s, next_s * NEXT_PIECE);
        }
        self.keeps(solvent, before);
    }

    /// `sprayed` of the mix, of which `landed` reaches the part and dries as `drying`.
    pub(super) fn coat(
        name: &str,
        mix: &Mix,
        (sprayed, landed): (Volume, Ratio),
        drying: &Drying,
        (start, spraying): (Time, Time),
    ) -> Result<Self> {
        let volume = check_volume("volume of mix sprayed", sprayed)?;
        let landed = check_share(
            "share of the spray that lands",
            landed,
            "30 % to 60 % of an airbrush on a small part, more on a large one",
        )?;
        let mut all = Self::new(name, SourceKind::Coat, start, spraying)?;
        let film = drying.film();
        let t_k = film.room().temperature().si();
        let volatile = mix.volatile()?;
        let solids: VolumeFraction = mix.volume_solids().best.try_into()?;
        let wet = moles_per_volume(&volatile, solids.get(), t_k);
        let laid = moles_per_volume(film.volatile(), film.solids().get(), t_k);
        let times_s: Vec<f64> = drying.times().iter().map(|t| t.si()).collect();
        for (species, n) in volatile.species().iter().zip(&wet).filter(|(s, _)| s.solvent.id() != "water") {
            let mass = volume * n * species.solvent.molar_mass().si();
            let poured = &volatile.ingredients()[species.ingredient].solvent;
            all.source.brought += Mass::from_si(mass);
            let in_film = film
                .volatile()
                .species()
                .iter()
                .position(|s| s.solvent.id() == species.solvent.id())
                .map_or(0.0, |i| laid[i]);
            // Per solids: what flies does not change them.
            let reaches = if solids.get() > 0.0 && film.solids().get() > 0.0 {
                (in_film / film.solids().get()) / (n / solids.get())
            } else {
                1.0
            };
            if reaches > 1.0 + OTHER_MIX {
                return Err(other_mix(name, species.solvent.name()));
            }
            let reaches = reaches.min(1.0);
            let flown = mass * (1.0 - landed * reaches);
            all.source.in_flight += Mass::from_si(flown);
            all.gives(poured, 0.0, spraying.si(), flown);
            let mine = drying.species().iter().position(|s| s == species.solvent.name());
            let curve = mine.and_then(|i| drying.amounts().get(i));
            match curve.and_then(|c| c.first().map(|first| (c, *first))) {
                Some((curve, first)) if first > 0.0 => {
                    let held: Vec<f64> =
                        curve.iter().map(|a| mass * landed * reaches * (a / first).clamp(0.0, 1.0)).collect();
                    all.lets_go(poured, &times_s, &held, spraying.si());
                }
                _ => all.gives(poured, 0.0, spraying.si(), mass - flown),
            }
        }
        for (s, _) in film.volatile().species().iter().zip(&laid).filter(|(s, _)| s.mole_fraction > NOTHING) {
            let brought = volatile.species().iter().any(|v| v.solvent.id() == s.solvent.id());
            if !brought && s.solvent.id() != "water" {
                return Err(other_mix(name, s.solvent.name()));
            }
        }
        Ok(all)
    }

    /// `volume` of a cleaner, of which `evaporated` becomes vapour, of each of its liquids alike.
    pub(super) fn cleaning(
        name: &str,
        cleaner: &Blend,
        (volume, evaporated): (Volume, Ratio),
        (start, lasts): (Time, Time),
        room_temperature: crate::quantity::Temperature,
    ) -> Result<Self> {
        let volume = check_volume("volume of cleaner", volume)?;
        let share = check_share(
            "share of the cleaner that evaporates",
            evaporated,
            "100 % if sprayed through the gun into the room, 10 % to 30 % if poured from cup to can",
        )?;
        let mut all = Self::new(name, SourceKind::Cleaning, start, lasts)?;
        let density = cleaner.density(room_temperature)?.best().si();
        for i in cleaner.ingredients().iter().filter(|i| i.solvent.id() != "water") {
            let mass = volume * density * i.mass_fraction;
            all.source.brought += Mass::from_si(mass);
            all.gives(&i.solvent, 0.0, lasts.si(), share * mass);
            all.keeps(&i.solvent, (1.0 - share) * mass);
        }
        Ok(all)
    }

    /// A mix in so many cups alike, each of which stands open for so long; they are opened over the time `opening`.
    pub(super) fn open_cups(
        name: &str,
        course: &CupCourse,
        cups: u32,
        (start, open_for): (Time, Time),
        opening: Time,
    ) -> Result<Self> {
        let followed = course.cup().followed_for();
        if open_for.si() > followed.si() {
            return Err(out_of_range(
                "time the cup is open",
                show(open_for),
                format!("at most {}, as long as it was followed", show(followed)),
                "follow the cup longer with `until`",
            ));
        }
        let mut all = Self::new(name, SourceKind::OpenCup, start, open_for + opening)?;
        let volatile = course.cup().mix().volatile()?;
        let times_s: Vec<f64> = course.times().iter().map(|t| t.si()).collect();
        let until = times_s.partition_point(|t| *t < open_for.si());
        let mut open_s = times_s[..until].to_vec();
        open_s.push(open_for.si());
        let names: Vec<String> = course.species().iter().map(|s| (*s).to_owned()).collect();
        for (name, curve) in names.iter().zip(course.amounts()) {
            let Some(species) = volatile.species().iter().find(|s| s.solvent.name() == name) else {
                continue;
            };
            if species.solvent.id() == "water" {
                continue;
            }
            let held: Vec<f64> = curve.iter().map(|m| f64::from(cups) * m.si().max(0.0)).collect();
            let mut open: Vec<f64> = held[..until.min(held.len())].to_vec();
            open.push(at(&times_s, &held, open_for.si()));
            all.source.brought += Mass::from_si(open.first().copied().unwrap_or(0.0));
            all.lets_go(&volatile.ingredients()[species.ingredient].solvent, &open_s, &open, opening.si());
        }
        Ok(all)
    }
}

/// Moles of each species in a volume of wet coat whose solids take `solids` of it, mol/m3, as the drying engine counts them.
fn moles_per_volume(volatile: &Blend, solids: f64, t_k: f64) -> Vec<f64> {
    let volume: f64 = volatile
        .species()
        .iter()
        .map(|s| s.mole_fraction * s.solvent.kernel().molar_volume_m3_mol(t_k))
        .sum();
    volatile.species().iter().map(|s| (1.0 - solids) * s.mole_fraction / volume).collect()
}

/// A curve between its points; its last value after them.
fn at(times_s: &[f64], values: &[f64], t_s: f64) -> f64 {
    let after = times_s.partition_point(|t| *t <= t_s);
    let value = |i: usize| values.get(i).copied().unwrap_or(0.0);
    match (after.checked_sub(1), times_s.get(after)) {
        (Some(before), Some(t1)) => {
            let t0 = times_s[before];
            let s = (t_s - t0) / (t1 - t0);
            value(before) * (1.0 - s) + value(after) * s
        }
        (Some(before), None) => value(before),
        (None, _) => value(0),
    }
}

fn check_volume(what: &str, volume: Volume) -> Result<f64> {
    if (0.0..=MOST_VOLUME_M3).contains(&volume.si()) {
        return Ok(volume.si());
    }
    Err(out_of_range(
        what,
        show(volume),
        "0 mL to 100 L",
        "give what all guns of the session spray or pour together",
    ))
}

fn check_share(what: &str, share: Ratio, remedy: &str) -> Result<f64> {
    if (0.0..=1.0).contains(&share.si()) {
        return Ok(share.si());
    }
    Err(out_of_range(what, show(share), "0 % to 100 %", remedy))
}

pub(super) fn check_time(what: &str, t: Time) -> Result<()> {
    if (0.0..=DAY_S).contains(&t.si()) {
        return Ok(());
    }
    Err(out_of_range(
        what,
        show(t),
        "0 s to 24 h",
        "count from the begin of the session; a session is one day",
    ))
}

fn other_mix(coat: &str, solvent: &str) -> crate::Error {
    out_of_range(
        format!("{solvent} in the drying film of {coat:?}"),
        "more than the mix brings",
        "at most what the mix holds beside its solids",
        "dry a coat of the very mix that is sprayed: the film of its shot, or Film::of_mix",
    )
}
