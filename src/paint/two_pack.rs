//! Isocyanate two-packs are refused: no path through this library gives settings for spraying them.
//!
//! A paint is known here by its name, its family and its note. Where one of them names such a paint, it is not built,
//! whether it comes from Rust, from Python or from a file. Words can hide what is in a can; the safety data sheet
//! cannot.

use crate::error::{Result, out_of_range};
use crate::names::fold;

/// Words, folded, that name an isocyanate two-pack.
const WORDS: [&str; 9] = [
    "isocyanat",
    "twopack",
    "2pack",
    "twocomponent",
    "2component",
    "2kpaint",
    "2kclear",
    "2kpu",
    "2kurethane",
];
/// Said of paints that are none.
const DENIALS: [&str; 4] = ["isocyanatefree", "freeofisocyanate", "noisocyanate", "withoutisocyanate"];

/// Refuses what its own words name as an isocyanate two-pack.
///
/// # Errors
/// A [`crate::error::RangeError`] that says why and where such work belongs.
///
/// ```
/// use mistcoat::paint::refuse_two_pack;
/// assert!(refuse_two_pack("2K clear with isocyanate hardener").is_err());
/// assert!(refuse_two_pack("hull green").is_ok());
/// ```
pub fn refuse_two_pack(words: &str) -> Result<()> {
    let denied = DENIALS.iter().fold(fold(words), |text, denial| text.replace(denial, ""));
    let hardener = words.split(|c: char| !c.is_alphanumeric()).any(|w| w.eq_ignore_ascii_case("2k"));
    if !hardener && !WORDS.iter().any(|w| denied.contains(w)) {
        return Ok(());
    }
    Err(out_of_range(
        "paint",
        words,
        "a paint without isocyanate hardener",
        "isocyanate two-packs are not for home spraying and get no settings here: cartridge masks do not protect from \
         them, and one exposure can start asthma for life; they belong to licensed practice with supplied air",
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::paint::{Family, Paint};

    #[rstest::rstest]
    #[case("Isocyanate hardener")]
    #[case("two-pack urethane")]
    #[case("2K PU gloss")]
    #[case("2K")]
    #[case("Polyisocyanat B")]
    #[case("2-component clear")]
    fn refused_on_every_path(#[case] words: &str) {
        let says = |text: String| {
            assert!(text.contains("not for home spraying") && text.contains("licensed practice"), "{text}");
        };
        says(refuse_two_pack(words).unwrap_err().to_string());
        says(Paint::typical(Family::SolventLacquer, words).unwrap_err().to_string());
        says(Family::find(words).unwrap_err().to_string());
        let file =
            format!("schema = 1\nname = \"gloss\"\nfamily = \"solvent lacquer\"\nnote = \"{words}\"\n");
        says(Paint::from_toml(&file, "gloss.toml").unwrap_err().to_string());
        let json = serde_json::to_string(&Paint::typical(Family::SolventLacquer, "gloss").unwrap()).unwrap();
        let json = json.replace("\"gloss\"", &serde_json::to_string(words).unwrap());
        says(serde_json::from_str::<Paint>(&json).unwrap_err().to_string());
    }

    #[rstest::rstest]
    #[case("hull green")]
    #[case("urethane dispersion, isocyanate-free")]
    #[case("72K red")]
    fn others_pass(#[case] words: &str) {
        assert!(Paint::typical(Family::WaterborneAcrylic, words).is_ok());
    }
}
