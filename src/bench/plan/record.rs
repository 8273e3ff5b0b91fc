//! The plan itself: what is in it, how it is made, and its form in files.

use super::duration::{self, Duration};
use super::habits::Habits;
use super::materials::{self, Material};
use super::planned::PlannedLayer;
use super::session::Session;
use super::steps::Step;
use super::visits::Visit;
use super::wash::{self, GunWash};
use crate::blend::Blend;
use crate::error::{Error, Result, bad_data, out_of_range};
use crate::estimate::Estimate;
use crate::layers::{Layer, StackCheck, Verdict, check_stack};
use crate::paint::Paint;
use crate::quantity::{Quantity, Time, show};
use crate::safety::{Caution, SessionExposure, Work, cautions};
use crate::warning::Warning;
use serde::{Deserialize, Serialize};

/// Form of the file.
const SCHEMA: u32 = 1;

/// A session worked out. Made by [`Session::plan`] alone, always with its cautions.
///
/// A file holds the session and the cautions; the rest is worked out again when it is read. A file whose cautions are not
/// those of its session is refused.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Record", into = "Record")]
pub struct Plan {
    session: Session,
    stack: Option<StackCheck>,
    layers: Vec<PlannedLayer>,
    washes: Vec<GunWash>,
    steps: Vec<Step>,
    total: Estimate<Time>,
    visits: Vec<Visit>,
    materials: Vec<Material>,
    exposures: Vec<SessionExposure>,
    colour_hint: Option<String>,
    cautions: Vec<Caution>,
    warnings: Vec<Warning>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    schema: u32,
    session: Session,
    cautions: Vec<Caution>,
}

impl From<Plan> for Record {
    fn from(p: Plan) -> Self {
        Self { schema: SCHEMA, session: p.session, cautions: p.cautions }
    }
}

impl TryFrom<Record> for Plan {
    type Error = Error;

    fn try_from(r: Record) -> Result<Self> {
        let wrong =
            |field, problem: String, remedy| Err(bad_data("plan", None, Some(field), problem, remedy));
        if r.schema != SCHEMA {
            let remedy = "make the plan again from its session";
            return wrong("schema", format!("{} where {SCHEMA} is allowed", r.schema), remedy);
        }
        let plan = Self::of(&r.session)?;
        if plan.cautions != r.cautions {
            let missing = plan.cautions.iter().filter(|c| !r.cautions.contains(c));
            let missing: Vec<&str> = missing.map(|c| c.topic.as_str()).collect();
            let problem = if missing.is_empty() {
                "they are not those of the session, in their order".to_owned()
            } else {
                format!("cautions of the session are missing or changed: {}", missing.join(", "))
            };
            return wrong(
                "cautions",
                problem,
                "a plan goes with all its cautions: leave them as they were written",
            );
        }
        Ok(plan)
    }
}

impl Plan {
    pub(super) fn of(session: &Session) -> Result<Self> {
        session.check()?;
        let mut warnings = Vec::new();
        let mut layers = Vec::with_capacity(session.layers.len());
        let mut sprayed = Vec::with_capacity(session.layers.len());
        for (index, layer) in session.layers.iter().enumerate() {
            let (planned, air) = PlannedLayer::of(session, layer, session.layers.get(index + 1))?;
            layers.push(planned);
            sprayed.push(air);
        }
        let stack = stack(session, &layers)?;
        warnings.extend(stack.iter().flat_map(test_first));
        let mut washes = Vec::new();
        for index in 0..layers.len() {
            let (wash, warning) = wash::after(session, &layers, index)?;
            warnings.extend(warning);
            washes.extend(wash);
        }
        let Duration { steps, total, visits } = duration::of(session, &layers, &washes)?;
        warnings.extend(another_day(&layers)?);
        let (exposures, unknown) = super::air::of(session, &layers, &sprayed, &washes, &steps)?;
        warnings.extend(unknown);
        warnings.extend(exposures.iter().flat_map(|e| e.warnings.iter().cloned()));
        Ok(Self {
            materials: materials::of(session, &layers, &washes)?,
            colour_hint: super::hint::colours(session)?,
            cautions: of_materials(session)?,
            session: session.clone(),
            warnings: super::advice::gathered(&layers, warnings),
            stack,
            layers,
            washes,
            steps,
            exposures,
            total,
            visits,
        })
    }

    /// What was asked.
    pub fn session(&self) -> &Session {
        &self.session
    }

    /// Each coat over the one below; None for a single layer.
    pub fn stack(&self) -> Option<&StackCheck> {
        self.stack.as_ref()
    }

    /// The layers from the part upwards.
    pub fn layers(&self) -> &[PlannedLayer] {
        &self.layers
    }

    /// Rinses of each gun, in order; the last is the wash at the end.
    pub fn washes(&self) -> &[GunWash] {
        &self.washes
    }

    /// Everything that is done, in order of time: at the usual pace, with waits at their upper ends.
    pub fn steps(&self) -> &[Step] {
        &self.steps
    }

    /// From the begin until the last layer is touch dry and the guns are clean: what it will take when each coat is
    /// watched, with the spread of waits, handwork and spraying, largest cause first. Waits of one paint move together,
    /// those of different paints do not; see the chapter of the module.
    pub fn total(&self) -> &Estimate<Time> {
        &self.total
    }

    /// The same as the timeline has it: handwork at best values, waits at their upper ends. Time to plan by.
    pub fn planned(&self) -> Time {
        self.steps.iter().map(Step::end).fold(Time::from_si(0.0), |a, b| if b > a { b } else { a })
    }

    /// Stretches of the timeline in which people are at the bench, busy or waiting. A wait longer than
    /// [`Habits::away`] in which nobody works lies between two of them.
    pub fn visits(&self) -> &[Visit] {
        &self.visits
    }

    /// Time at the bench: all visits together.
    pub fn bench_time(&self) -> Time {
        self.visits.iter().map(Visit::lasts).fold(Time::from_si(0.0), |a, b| a + b)
    }

    /// Time of the timeline that nobody spends at the bench: long waits, and what dries after the last visit.
    pub fn time_away(&self) -> Time {
        self.planned() - self.bench_time()
    }

    /// What to bring.
    pub fn materials(&self) -> &[Material] {
        &self.materials
    }

    /// What the materials with a price cost together; None without prices.
    pub fn cost(&self) -> Option<f64> {
        let costs: Vec<f64> = self.materials.iter().filter_map(|m| m.cost).collect();
        (!costs.is_empty()).then(|| costs.iter().sum())
    }

    /// What the air of the room holds over each sitting; a wait until another day ends one. Empty where the room has no
    /// volume or no air changes, which a warning then says.
    pub fn exposures(&self) -> &[SessionExposure] {
        &self.exposures
    }

    /// The worst of them, by the 8-hour limits.
    pub fn exposure(&self) -> Option<&SessionExposure> {
        let worst = |a: &&SessionExposure, b: &&SessionExposure| {
            a.shift_sum.best.si().total_cmp(&b.shift_sum.best.si())
        };
        self.exposures.iter().max_by(worst)
    }

    /// A word on the order of the colours, where another needs clearly less cleaner.
    pub fn colour_hint(&self) -> Option<&str> {
        self.colour_hint.as_deref()
    }

    /// What everybody must know before opening a bottle; never empty, the last one says who decides.
    pub fn cautions(&self) -> &[Caution] {
        &self.cautions
    }

    /// What to mind in this plan, each once.
    pub fn warnings(&self) -> &[Warning] {
        &self.warnings
    }
}

/// Each coat over the one below, with the waits as planned.
fn stack(session: &Session, layers: &[PlannedLayer]) -> Result<Option<StackCheck>> {
    if layers.len() < 2 {
        return Ok(None);
    }
    let coats = layers.iter().map(|l| Layer::new(&l.name, l.family).at(l.place).waiting(l.until_next.lasts));
    let mut check = check_stack(&coats.collect::<Result<Vec<_>>>()?)?;
    let misplaced = session.layers.windows(2).find(|pair| pair[0].place > pair[1].place);
    if check.verdict != Verdict::No && misplaced.is_none() {
        // A better order is told with the verdict; without a no it is a matter of taste.
        return Ok(Some(check));
    }
    let problem = match (check.pairs.iter().find(|p| p.verdict == Verdict::No), misplaced) {
        (Some(pair), _) => pair.to_string(),
        (None, Some(pair)) => format!("{} lies under {}", pair[0].name, pair[1].name),
        (None, None) => check.verdict.to_string(),
    };
    let order = check.better_order.take().map(|order| {
        let names: Vec<String> = order.into_iter().map(|l| l.name).collect();
        format!("this order is milder, from the part upwards: {}", names.join(", then "))
    });
    let remedy = order.or(check.advice).unwrap_or_else(|| "change one paint".to_owned());
    Err(out_of_range("order of the layers", problem, "coats that stand each other", remedy))
}

fn test_first(check: &StackCheck) -> Vec<Warning> {
    let doubtful = check.pairs.iter().filter(|p| p.verdict == Verdict::TestFirst);
    doubtful.map(|p| Warning::new("coat-test-first", format!("{p}. Trial: {}", p.trial))).collect()
}

/// A night between two layers, and how to sleep on it.
fn another_day(layers: &[PlannedLayer]) -> Result<Vec<Warning>> {
    let habits = Habits::usual()?;
    let waits = layers.iter().zip(layers.iter().skip(1)).map(|(below, above)| {
        let mask = above.mask.map_or(Time::from_si(0.0), |_| below.until_mask.lasts);
        (below, if mask > below.until_next.lasts { mask } else { below.until_next.lasts })
    });
    Ok(waits
        .filter(|(_, wait)| *wait >= habits.another_day)
        .map(|(layer, wait)| {
            Warning::new(
                "another-day",
                format!(
                    "{} wants {} before the work goes on: clean up, close the bottles and come back another day",
                    layer.name,
                    show(wait)
                ),
            )
        })
        .collect())
}

/// The cautions of every paint and liquid, sprayed and rinsed.
fn of_materials(session: &Session) -> Result<Vec<Caution>> {
    let paints: Vec<&Paint> = session.layers.iter().map(super::layer::PlanLayer::paint).collect();
    let own = session.layers.iter().filter_map(|l| l.cleaner.as_ref());
    let thinners = session.layers.iter().map(|l| l.setup.slowed_thinner()).collect::<Result<Vec<Blend>>>()?;
    let liquids: Vec<&Blend> = thinners.iter().chain(own).chain([&session.cleaner]).collect();
    let work = Work { spray: true, rinse: true, workshop: session.people > 1 };
    let found: Vec<Caution> = cautions(&paints, &liquids, work)?.into_iter().cloned().collect();
    if found.is_empty() {
        return Err(bad_data(
            "data/cautions.toml",
            None,
            None,
            "no caution",
            "restore the file from the release",
        ));
    }
    Ok(found)
}
