//! Reads a thinning from words, and refuses words that leave the parts open.

use super::thinning::{Parts, Thinning};
use crate::error::{Error, Result, out_of_range};
use crate::quantity::{Quantity, Ratio};

/// One piece of the text.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Word {
    Number(f64),
    Thinner,
    Paint,
    Mix,
    Percent,
}

pub(super) fn read(text: &str) -> Result<Thinning> {
    use Word::{Mix, Number, Paint, Percent, Thinner};
    let words = split(text).ok_or_else(|| unclear(text, FORMS))?;
    match words.as_slice() {
        // 2 parts thinner to 1 part paint
        [Number(a), Thinner, Number(b), Paint] | [Thinner, Number(a), Paint, Number(b)]
        // 1 part paint to 2 parts thinner
        | [Number(b), Paint, Number(a), Thinner] | [Paint, Number(b), Thinner, Number(a)]
        // thinner:paint 2:1, 2:1 thinner:paint
        | [Thinner, Paint, Number(a), Number(b)] | [Number(a), Number(b), Thinner, Paint]
        | [Paint, Thinner, Number(b), Number(a)] | [Number(b), Number(a), Paint, Thinner] => {
            Thinning::from_parts(Parts { thinner: *a, paint: *b })
        }
        // "33 % paint" is a mix that holds 33 % paint; only "33 % of paint" is thinner on the paint's volume.
        [Number(p), Percent, Paint] if !says_of(text) => Err(unclear(
            text,
            &format!(
                "which way? Write \"{p} % of paint\" ({p} parts thinner to 100 of paint) or \"{} % of mix\" (the mix \
                 is {p} % paint)",
                100.0 - p
            ),
        )),
        [Number(p), Percent, Paint] | [Number(p), Percent, Thinner, Paint] => {
            Thinning::from_percent_of_paint(Ratio::from_si(p / 100.0))
        }
        [Number(p), Percent, Mix] | [Number(p), Percent, Thinner, Mix] => {
            Thinning::from_percent_of_mix(Ratio::from_si(p / 100.0))
        }
        [Number(a), Number(b)] => Err(both_ways(text, *a, *b)),
        [Number(p), Percent] | [Number(p), Percent, Thinner] => Err(unclear(
            text,
            &format!(
                "which whole? Write \"{p} % of paint\" ({p} parts thinner to 100 of paint) or \"{p} % of mix\" \
                 ({p} parts of 100 are thinner)"
            ),
        )),
        _ => Err(unclear(text, FORMS)),
    }
}

const FORMS: &str = "name the parts: \"2 parts thinner to 1 part paint\", \"paint:thinner 1:2\", \"50 % of paint\" \
                     or \"33 % of mix\"";

fn says_of(text: &str) -> bool {
    text.split_whitespace().any(|word| word.eq_ignore_ascii_case("of"))
}

fn unclear(text: &str, remedy: &str) -> Error {
    out_of_range(
        "thinning",
        format!("{text:?}"),
        "words that say which part is thinner and which is paint",
        remedy,
    )
}

/// Both readings of a bare ratio, each with its paint fraction.
fn both_ways(text: &str, a: f64, b: f64) -> Error {
    let fraction = |paint: f64, thinner: f64| {
        Thinning::from_parts(Parts { thinner, paint }).map_or_else(
            |_| "?".to_owned(),
            |t| format!("{:.0} % paint in the mix", 100.0 * t.paint_fraction().get()),
        )
    };
    let first = format!("write thinner={a}, paint={b} ({})", fraction(b, a));
    #[allow(clippy::float_cmp, reason = "equal as written")]
    if a == b {
        return unclear(text, &format!("{first}: equal parts too are given by name"));
    }
    unclear(text, &format!("{first} or thinner={b}, paint={a} ({})", fraction(a, b)))
}

/// `None` when a word is not understood.
fn split(text: &str) -> Option<Vec<Word>> {
    let spaced: String = text
        .to_lowercase()
        .chars()
        .flat_map(|c| match c {
            ':' | '/' | ',' | '=' => vec![' '],
            '%' => vec![' ', '%', ' '],
            c => vec![c],
        })
        .collect();
    let mut words = Vec::new();
    for token in spaced.split_whitespace() {
        match token {
            "part" | "parts" | "to" | "and" | "of" | "the" | "by" | "volume" | "in" => {}
            "thinner" => words.push(Word::Thinner),
            "paint" => words.push(Word::Paint),
            "mix" => words.push(Word::Mix),
            "%" | "percent" => words.push(Word::Percent),
            number => words.push(Word::Number(number.parse().ok().filter(|n: &f64| n.is_finite())?)),
        }
    }
    Some(words)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn equal_parts_read_one_way_only() {
        let equal = read("1:1").unwrap_err().to_string();
        assert_eq!(equal.matches("thinner=1, paint=1").count(), 1, "{equal}");
        let unequal = read("2:1").unwrap_err().to_string();
        assert!(
            unequal.contains("thinner=2, paint=1") && unequal.contains("thinner=1, paint=2"),
            "{unequal}"
        );
    }
}
