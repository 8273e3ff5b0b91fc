//! Does the diagnosis agree with what the trade puts a defect down to?
//!
//! `tests/data/defect_practice.csv` states, in our own words and marked common practice, a usual cause of each defect, a
//! setting that has this cause and is sound otherwise, the faults of the model that stand for the cause, and the cures the
//! trade names. The diagnosis must put one of the faults first, find its limit broken, and its smallest change must be one of
//! the cures. Where it differs the column `differs` says why.
//!
//! The table was written before the diagnosis was asked. That first time the cause came first in 36 of 38 rows (a blind choice
//! among the faults listed for the defect does so in 28 or 29), its limit was broken in 25 of the 35 rows that name a fault of
//! the model, and the smallest change was a cure of the trade in 18 of the 20 rows that had one. Since then one fault was struck from
//! the list of a defect: a run is not blown into legs. The gap is on the dry side: the model holds spray that practice
//! calls dry for wet enough to flow, and air that practice calls too damp for dry enough.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed test panics")]

use mistcoat::air::Room;
use mistcoat::bench::{Axis, Change, Diagnosis, Job, RetarderShare, Setup, diagnose};
use mistcoat::blend::{Basis, Blend};
use mistcoat::film::Substrate;
use mistcoat::paint::{Family, Paint};
use mistcoat::quantity::{Quantity, Ratio, RelativeHumidity, Temperature, Velocity, of};
use mistcoat::spray::Airbrush;
use serde::Deserialize;

#[derive(Debug, Deserialize)]
struct Row {
    defect: String,
    cause: String,
    faults: String,
    cures: String,
    family: String,
    thinner: String,
    thinner_per_paint: f64,
    psi: f64,
    mm: f64,
    bore_mm: f64,
    wet_passes: u32,
    celsius: f64,
    humidity_pct: f64,
    draught_m_s: f64,
    substrate: String,
    job: String,
    retarder: String,
    differs: String,
    source: String,
}

fn liquid(text: &str) -> Blend {
    let parts: Vec<(&str, f64)> = text
        .split(" + ")
        .map(|part| match part.rsplit_once(' ') {
            Some((name, share)) if share.parse::<f64>().is_ok() => (name, share.parse().unwrap()),
            _ => (part, 1.0),
        })
        .collect();
    Blend::from_names(&parts, Basis::Volume, None).unwrap()
}

impl Row {
    fn all() -> Vec<Self> {
        let text = include_str!("data/defect_practice.csv");
        csv::Reader::from_reader(text.as_bytes()).deserialize().map(Result::unwrap).collect()
    }

    fn setup(&self) -> Setup {
        let room = Room::new(
            Temperature::from_si(self.celsius + 273.15),
            RelativeHumidity::new(self.humidity_pct / 100.0).unwrap(),
        )
        .unwrap()
        .with_air_speed(Velocity::from_si(self.draught_m_s))
        .unwrap();
        let gun = Airbrush::new(
            of(self.bore_mm, "mm").unwrap(),
            of(self.psi, "psi").unwrap(),
            of(self.mm, "mm").unwrap(),
        )
        .unwrap();
        let paint = Paint::typical(Family::find(&self.family).unwrap(), "club paint (invented)").unwrap();
        let mut setup = Setup::new(&paint, &liquid(&self.thinner), self.thinner_per_paint, &gun, &room);
        setup.substrate = Substrate::named(&self.substrate).unwrap();
        setup.wet_passes = self.wet_passes;
        if !self.retarder.is_empty() {
            setup.retarder = Some(RetarderShare::new(&liquid(&self.retarder), Ratio::from_si(0.0)).unwrap());
        }
        setup
    }

    fn diagnosis(&self) -> Diagnosis {
        diagnose(&self.defect, &self.setup(), &Job::named(&self.job).unwrap()).unwrap()
    }

    /// Whether the first cause is the one the trade names; beyond the model where it names none of the model's.
    fn cause_agrees(&self, found: &Diagnosis) -> bool {
        match found.causes.first() {
            None => self.faults.is_empty() && found.look_beyond,
            Some(first) => self.faults.split('|').any(|f| f == key(first.margin.fault)),
        }
    }

    /// Whether the smallest change is one that the trade names; None where there is none to compare.
    fn cure_agrees(&self, found: &Diagnosis) -> Option<bool> {
        let change = found.causes.first()?.change?;
        Some(self.cures.split('|').any(|cure| cure == words(change)))
    }
}

fn key(fault: mistcoat::bench::Fault) -> String {
    serde_json::to_string(&fault).unwrap().trim_matches('"').to_owned()
}

fn words(change: Change) -> String {
    let what = match change.setting {
        Axis::ThinnerPerPaint => "thinner",
        Axis::Pressure => "pressure",
        Axis::Distance => "distance",
        Axis::WetPasses => "passes",
        Axis::Retarder => "retarder",
        other => panic!("{other:?} is not moved"),
    };
    format!("{what} {}", if change.to > change.from { '+' } else { '-' })
}

#[test]
fn the_diagnosis_agrees_with_the_trade() {
    let rows = Row::all();
    let (mut causes, mut met, mut cures, mut asked, mut by_chance) = (0, 0, 0, 0, 0.0);
    let mut unexplained = Vec::new();
    for row in &rows {
        let found = row.diagnosis();
        let first = found.causes.first();
        let cause = row.cause_agrees(&found);
        let cure = row.cure_agrees(&found);
        let broken = first.is_none_or(|c| c.probability > 0.5);
        let listed = &found.defect.faults;
        let named = listed.iter().filter(|f| row.faults.split('|').any(|n| n == key(**f))).count();
        by_chance += if listed.is_empty() { 1.0 } else { named as f64 / listed.len() as f64 };
        causes += usize::from(cause);
        met += usize::from(broken);
        asked += usize::from(cure.is_some());
        cures += usize::from(cure == Some(true));
        let told = first.map_or("beyond the model".to_owned(), |c| {
            format!(
                "{} {:.0} %, {}",
                c.margin,
                100.0 * c.probability,
                c.change.map_or("no change".to_owned(), |c| c.to_string())
            )
        });
        println!(
            "{}{}{} {} ({}): {told}",
            mark(cause),
            mark(broken),
            cure.map_or('-', mark),
            row.defect,
            row.cause
        );
        let agrees = cause && broken && cure != Some(false);
        if agrees == row.differs.is_empty() {
            continue;
        }
        unexplained.push(format!("{} ({}): {told}", row.defect, row.cause));
    }
    println!(
        "cause first {causes} of {} (by chance {by_chance:.1}), limit broken {met}, cure {cures} of {asked}",
        rows.len()
    );
    assert!(unexplained.is_empty(), "differ without a word why, or a word too many: {unexplained:#?}");
}

fn mark(good: bool) -> char {
    if good { '+' } else { '!' }
}

#[test]
fn every_row_says_what_it_rests_on() {
    for row in Row::all() {
        assert_eq!(row.source, "common practice", "{row:?}");
        assert!(!row.cause.is_empty() && row.faults.is_empty() == row.cures.is_empty(), "{row:?}");
    }
}

#[derive(Debug, Deserialize)]
struct Usual {
    job: String,
    family: String,
    thinner: String,
    thinner_per_paint: f64,
    psi: f64,
    mm: f64,
    bore_mm: f64,
    wet_passes: u32,
    differs: String,
    source: String,
}

// The settings the trade names for its jobs (`tests/data/practice_settings.csv`): no limit is broken by more than one standard
// uncertainty of the model, or the row says why. The trade's own settings lie near the limits: it goes as far as it can.
// 13 of 17 keep them so; the limits were set before these rows were looked at, the reasons written after.
#[test]
fn usual_settings_keep_the_limits_as_far_as_the_model_knows() {
    let room = Room::new(Temperature::from_si(296.15), RelativeHumidity::new(0.5).unwrap()).unwrap();
    let text = include_str!("data/practice_settings.csv");
    let mut kept = 0;
    let mut unexplained = Vec::new();
    let rows: Vec<Usual> =
        csv::Reader::from_reader(text.as_bytes()).deserialize().map(Result::unwrap).collect();
    for row in &rows {
        assert_eq!(row.source, "common practice");
        let gun = Airbrush::new(
            of(row.bore_mm, "mm").unwrap(),
            of(row.psi, "psi").unwrap(),
            of(row.mm, "mm").unwrap(),
        )
        .unwrap();
        let paint = Paint::typical(Family::find(&row.family).unwrap(), "club paint (invented)").unwrap();
        let mut setup = Setup::new(&paint, &liquid(&row.thinner), row.thinner_per_paint, &gun, &room);
        setup.substrate = Substrate::named("wood").unwrap();
        setup.wet_passes = row.wet_passes;
        let judged = setup.judge(&Job::named(&row.job).unwrap()).unwrap();
        let worst = judged.worst();
        println!("{} of {}: {worst} ({:+.2})", row.job, row.family, worst.sigmas());
        kept += usize::from(worst.sigmas() > -1.0);
        if (worst.sigmas() > -1.0) != row.differs.is_empty() {
            unexplained.push(format!("{row:?}: {worst} ({:+.2})", worst.sigmas()));
        }
    }
    println!("{kept} of {} within one standard uncertainty", rows.len());
    assert!(unexplained.is_empty(), "{unexplained:#?}");
}
