//! May this coat go over that one, and after how long?
//!
//! A table of common practice, `data/coats.toml`: for each pair of families a verdict, why, the least wait, and an
//! early window where there is one. The drying engine knows when a lacquer has hardened; whether the next solvent
//! lifts it no published model says, so the table speaks and the trial on scrap decides.

use super::judgement::{Judgement, Reason, Verdict};
use crate::error::{Error, Result, bad_data};
use crate::paint::Family;
use crate::quantity::{Time, as_text, show};
use serde::{Deserialize, Serialize};
use std::sync::LazyLock;

const FILE: &str = "data/coats.toml";
const TEXT: &str = include_str!("../../data/coats.toml");

/// One cell of the table.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CoatRule {
    /// Family of the upper coat.
    pub over: Family,
    /// Family of the coat below.
    pub under: Family,
    /// May it be done?
    pub verdict: Verdict,
    /// End of an early window in which the lower coat is still open.
    #[serde(default, with = "as_text::option", skip_serializing_if = "Option::is_none")]
    pub within: Option<Time>,
    /// Least wait, at about 20 °C and in normal coats.
    #[serde(default, with = "as_text::option", skip_serializing_if = "Option::is_none")]
    pub after: Option<Time>,
    /// Why.
    pub reason: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    schema: u32,
    source: String,
    rule: Vec<CoatRule>,
}

static RULES: LazyLock<Result<File>> = LazyLock::new(|| {
    let damaged = |what: &str| bad_data(FILE, None, None, what, "restore the file from the release");
    let file: File = toml::from_str(TEXT).map_err(|e| damaged(e.message()))?;
    let pairs = Family::ALL.iter().flat_map(|o| Family::ALL.iter().map(move |u| (*o, *u)));
    let complete = pairs
        .into_iter()
        .all(|(over, under)| file.rule.iter().filter(|r| r.over == over && r.under == under).count() == 1);
    if file.schema != 1 || !complete {
        return Err(damaged("a pair of families that is missing or stands twice, or another schema than 1"));
    }
    Ok(file)
});

fn file() -> Result<&'static File> {
    RULES.as_ref().map_err(Error::clone)
}

/// The whole table.
///
/// # Errors
/// A [`crate::error::DataError`] when the embedded table is damaged.
pub fn coat_rules() -> Result<&'static [CoatRule]> {
    Ok(&file()?.rule)
}

/// May a coat of one family go over a coat of another that has waited so long?
///
/// Without `waited` the lower coat counts as having had its time.
///
/// # Errors
/// A [`crate::error::DataError`] when the embedded table is damaged.
///
/// ```
/// use mistcoat::layers::{Verdict, coat_over_coat};
/// use mistcoat::paint::Family;
/// use mistcoat::quantity::parse;
/// let fresh = coat_over_coat(Family::AlkydEnamel, Family::AlkydEnamel, Some(parse("6 h")?))?;
/// assert_eq!(fresh.verdict, Verdict::No); // between the two windows it wrinkles
/// let cured = coat_over_coat(Family::AlkydEnamel, Family::AlkydEnamel, Some(parse("2 d")?))?;
/// assert_eq!(cured.verdict, Verdict::TestFirst);
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn coat_over_coat(over: Family, under: Family, waited: Option<Time>) -> Result<Judgement> {
    let file = file()?;
    let question = format!("{over} over {under}");
    let mut reasons = Vec::new();
    for rule in file.rule.iter().filter(|r| r.over == over && r.under == under) {
        reasons.push(Reason {
            verdict: rule.verdict,
            text: rule.reason.clone(),
            source: file.source.clone(),
        });
        reasons.extend(too_soon(rule, waited, &file.source));
        let window = match (rule.within, rule.after) {
            (Some(within), Some(after)) => {
                format!("wait less than {} or more than {}", show(within), show(after))
            }
            (None, Some(after)) => format!("wait {} or more", show(after)),
            _ => continue,
        };
        reasons.push(Reason { verdict: Verdict::Fine, text: window, source: file.source.clone() });
    }
    Ok(Judgement::new(
        question,
        reasons,
        "both coats on scrap of the same material, as thick as on the part; after a day press a strip of tape on, \
         pull it off, look for lifted paint, wrinkles and cracks",
    ))
}

fn too_soon(rule: &CoatRule, waited: Option<Time>, source: &str) -> Option<Reason> {
    let (waited, after) = (waited?, rule.after?);
    let open = rule.within.is_some_and(|within| waited <= within);
    (waited < after && !open).then(|| Reason {
        verdict: Verdict::No,
        text: format!("{} is too soon: the coat below needs {}", show(waited), show(after)),
        source: source.to_owned(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::parse;

    // Common practice as handed down in an army field manual on painting (TM 43-0139, read) and for fat over lean in
    // every manual of oil painting (from memory).
    #[rstest::rstest]
    #[case(Family::SolventLacquer, Family::AlkydEnamel, Verdict::No)]
    #[case(Family::WaterborneAcrylic, Family::ArtistsOil, Verdict::No)]
    #[case(Family::ArtistsOil, Family::WaterborneAcrylic, Verdict::Fine)]
    #[case(Family::SolventLacquer, Family::SolventLacquer, Verdict::Fine)]
    #[case(Family::AlcoholAcrylic, Family::WaterborneAcrylic, Verdict::TestFirst)]
    fn practice(#[case] over: Family, #[case] under: Family, #[case] verdict: Verdict) {
        let judgement = coat_over_coat(over, under, None).unwrap();
        assert_eq!(judgement.verdict, verdict, "{judgement}");
        assert!(!judgement.trial.is_empty() && !judgement.cautions.is_empty());
        assert!(judgement.reasons.iter().all(|r| crate::source::find(&r.source).is_ok()));
    }

    #[rstest::rstest]
    #[case("1 h", Verdict::TestFirst)]
    #[case("8 h", Verdict::No)]
    #[case("25 h", Verdict::TestFirst)]
    fn windows(#[case] waited: &str, #[case] verdict: Verdict) {
        let judged = coat_over_coat(Family::AlkydEnamel, Family::AlkydEnamel, Some(parse(waited).unwrap()));
        assert_eq!(judged.unwrap().verdict, verdict);
    }

    #[test]
    fn never_over_wet_paint() {
        for rule in coat_rules().unwrap().iter().filter(|r| r.within.is_none() && r.after.is_some()) {
            let judged = coat_over_coat(rule.over, rule.under, Some(parse("0 s").unwrap())).unwrap();
            assert_eq!(judged.verdict, Verdict::No, "{judged}");
        }
        assert_eq!(coat_rules().unwrap().len(), 25);
    }
}
