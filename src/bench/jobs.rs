//! What does this job ask of the spray: an even coat, a fine line, a clear like glass?
//!
//! Targets of usual jobs stand in `data/jobs.toml`; all are common practice put in numbers. A job of your own takes one of
//! them and changes what differs.

use crate::error::{Error, Result, bad_data, out_of_range, unknown_name};
use crate::hiding::Criterion;
use crate::names::fold;
use crate::quantity::{Length, Pressure, Quantity, Ratio, Time, as_text, show};
use serde::{Deserialize, Serialize};
use std::sync::LazyLock;

const FILE: &str = "data/jobs.toml";
const TEXT: &str = include_str!("../../data/jobs.toml");

/// Targets of a job.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Job {
    /// Its name.
    pub name: String,
    /// What people also call it.
    #[serde(default)]
    pub also: Vec<String>,
    /// Dry film to build.
    #[serde(with = "as_text")]
    pub dry_film: Length,
    /// Contrast at which the ground counts as hidden, where the colour has to hide it. It takes the place of `dry_film` for a
    /// setting that says how well its paint hides; see [`super::Cover`].
    #[serde(default, with = "as_text::option", skip_serializing_if = "Option::is_none")]
    pub contrast: Option<Ratio>,
    /// Most passes over one place.
    pub most_passes: f64,
    /// Coarsest drops: Sauter mean.
    #[serde(with = "as_text")]
    pub largest_drop: Length,
    /// Widest pass, where it matters.
    #[serde(default, with = "as_text::option", skip_serializing_if = "Option::is_none")]
    pub widest_pass: Option<Length>,
    /// Thickest wet film of one pass, where it matters.
    #[serde(default, with = "as_text::option", skip_serializing_if = "Option::is_none")]
    pub thickest_pass: Option<Length>,
    /// Share of the ripple that may be left, where it matters.
    #[serde(default, with = "as_text::option", skip_serializing_if = "Option::is_none")]
    pub ripple_left: Option<Ratio>,
    /// Longest time until a coat is touch dry, where it matters; above 0 s, at most 365 d. See [`super::Fault::SlowDrying`].
    #[serde(default, with = "as_text::option", skip_serializing_if = "Option::is_none")]
    pub touch_dry_within: Option<Time>,
    /// Longest time until the next coat may go on, where it matters; above 0 s, at most 365 d. Block-free for a lacquer, common
    /// practice for what hardens by oxygen or from water.
    #[serde(default, with = "as_text::option", skip_serializing_if = "Option::is_none")]
    pub recoat_within: Option<Time>,
    /// Passes laid wet in wet before a flash-off: fewest and most.
    pub wet_passes: (u32, u32),
    /// Distances to look at.
    #[serde(with = "pair")]
    pub distance: (Length, Length),
    /// Gauge pressures to look at.
    #[serde(with = "pair")]
    pub pressure: (Pressure, Pressure),
    /// What matters in it.
    pub note: String,
}

/// Two quantities as a list of two texts.
mod pair {
    use crate::quantity::{Quantity, as_text::Text};
    use serde::{Deserialize, Deserializer, Serialize, Serializer};

    pub(super) fn serialize<Q: Quantity, S: Serializer>(pair: &(Q, Q), s: S) -> Result<S::Ok, S::Error> {
        (Text(pair.0), Text(pair.1)).serialize(s)
    }

    pub(super) fn deserialize<'de, Q: Quantity, D: Deserializer<'de>>(d: D) -> Result<(Q, Q), D::Error> {
        let (low, high) = <(Text<Q>, Text<Q>)>::deserialize(d)?;
        Ok((low.0, high.0))
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    schema: u32,
    #[serde(rename = "source")]
    _source: String,
    job: Vec<Job>,
}

static JOBS: LazyLock<Result<Vec<Job>>> = LazyLock::new(|| {
    let damaged = |what: String| bad_data(FILE, None, None, what, "restore the file from the release");
    let file: File = toml::from_str(TEXT).map_err(|e| damaged(e.message().to_owned()))?;
    if file.schema != 1 {
        return Err(damaged(format!("schema {} where 1 is allowed", file.schema)));
    }
    file.job.into_iter().map(Job::checked).collect()
});

impl Job {
    /// All usual jobs.
    ///
    /// # Errors
    /// A [`crate::error::DataError`] when the embedded table is damaged.
    pub fn all() -> Result<&'static [Self]> {
        JOBS.as_ref().map(Vec::as_slice).map_err(Error::clone)
    }

    /// A usual job by name: base coat, fine lines, soft edge, over a mask, gloss clear, metallic, primer.
    ///
    /// # Errors
    /// [`crate::error::UnknownName`] with near names.
    ///
    /// ```
    /// use mistcoat::bench::Job;
    /// assert!(Job::named("fine lines")?.dry_film < Job::named("gloss clear")?.dry_film);
    /// assert!(Job::named("glos").is_err());
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn named(name: &str) -> Result<Self> {
        let wanted = fold(name);
        let all = Self::all()?;
        let found = all.iter().find(|j| fold(&j.name) == wanted || j.also.iter().any(|a| fold(a) == wanted));
        found.cloned().ok_or_else(|| {
            let known = all.iter().flat_map(|j| core::iter::once(&j.name).chain(&j.also)).map(String::as_str);
            unknown_name("job", name, known, "take the nearest and change its targets")
        })
    }

    /// The same job, when its targets make sense.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a film, a number of passes or a drop that is not above zero, a contrast outside
    /// 50 % to 99.9 %, a limit on drying outside 0 s to 365 d, or a range that ends before it begins.
    pub fn checked(self) -> Result<Self> {
        let wrong = |what: &str, value: String, limit: &str| {
            Err(out_of_range(
                format!("{what} of the job {}", self.name),
                value,
                limit,
                "see data/jobs.toml for usual targets",
            ))
        };
        if !(self.dry_film.si() > 0.0 && self.dry_film.si() <= 1e-3) {
            return wrong("dry film", show(self.dry_film), "above 0 µm, at most 1 mm");
        }
        self.check_time_limits()?;
        if let Some(contrast) = self.contrast {
            Criterion::new(contrast)?;
        }
        if !(self.most_passes >= 1.0 && self.most_passes <= 1000.0) {
            return wrong("most passes", self.most_passes.to_string(), "1 to 1000");
        }
        if !(self.largest_drop.si() > 0.0 && self.largest_drop.si() <= 1e-3) {
            return wrong("largest drop", show(self.largest_drop), "above 0 µm, at most 1 mm");
        }
        if self.wet_passes.0 < 1 || self.wet_passes.0 > self.wet_passes.1 || self.wet_passes.1 > 20 {
            return wrong("passes wet in wet", format!("{:?}", self.wet_passes), "fewest to most, 1 to 20");
        }
        if !(self.distance.0.si() > 0.0 && self.distance.0 <= self.distance.1) {
            return wrong("distance", show(self.distance.0), "above 0 mm, nearest first");
        }
        if !(self.pressure.0.si() > 0.0 && self.pressure.0 <= self.pressure.1) {
            return wrong("pressure", show(self.pressure.0), "above 0 kPa, lowest first");
        }
        Ok(self)
    }
}
