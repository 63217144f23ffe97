//! Values and lists as the maker reads them.
//!
//! **Input:** values in mm and the maker's unit. **Output:** words for findings and errors. The only module of the
//! engine that knows inches and the only one that rounds; its output is never used in a computation.

use std::fmt::Write;

use strsim::osa_distance;

use traywright_document::{Unit, is_hidden};

/// Longer words are not compared with others.
// Source: no rule of the trade; longer than any name.
const MOST_LETTERS: usize = 64;

/// Maximum decimals for distinguishing two lengths: a hundred thousandth of a millimetre.
// Source: no rule of the trade; far below what any hand can measure.
const MOST_DECIMALS: usize = 5;

/// A length given in mm, written in the maker's unit: `31.71 mm` or `1.248 in`.
pub fn length(value_mm: f64, unit: Unit) -> String {
    format!("{} {}", unit.figure(value_mm), unit.sign())
}

/// A text in quotes as a job writes it; characters that a reader rejects or cannot see are escaped.
// Source: KDL 2.0.0, "Quoted String" and "Disallowed Literal Code Points".
pub fn quoted(text: &str) -> String {
    let mut written = String::from("\"");
    for letter in text.chars() {
        match letter {
            '"' | '\\' => written.extend(['\\', letter]),
            '\n' => written.push_str("\\n"),
            letter if is_hidden(letter) => {
                let _ = write!(written, "\\u{{{:x}}}", u32::from(letter));
            }
            letter => written.push(letter),
        }
    }
    written + "\""
}

/// Lengths that make up one size, given in mm: `98 × 63 mm`.
pub fn size(values_mm: &[f64], unit: Unit) -> String {
    let figures: Vec<_> = values_mm.iter().map(|value| unit.figure(*value)).collect();
    format!("{} {}", figures.join(" × "), unit.sign())
}

/// A length given in mm as a job writes it, rounded up so that the advice is sufficient: `(mm)2.3`, `(in)0.1`.
pub fn setting(value_mm: f64, unit: Unit) -> String {
    // An excess of less than a thousandth of a step is a rounding error.
    setting_in_steps(value_mm, unit, |steps| (steps - 1e-3).ceil())
}

/// The same, rounded down, for a maximum.
pub fn setting_at_most(value_mm: f64, unit: Unit) -> String {
    setting_in_steps(value_mm, unit, |steps| (steps + 1e-3).floor())
}

/// A length given in mm as a job writes it: `(mm)7.5`, `(in)"5/16"`, `(in)0.3127`.
pub fn exact_setting(value_mm: f64, unit: Unit) -> String {
    let value = in_unit(value_mm, unit);
    let sixty_fourths = (value * 64.0).round();
    if unit == Unit::Inch && (value * 64.0 - sixty_fourths).abs() < 1e-6 && value < 1e6 {
        return inch_setting(sixty_fourths as u64);
    }
    format!("({}){}", unit.sign(), rounded(value, 4))
}

/// A number of sixty-fourths of an inch as a job writes it.
fn inch_setting(sixty_fourths: u64) -> String {
    let (whole, mut part, mut of) = (sixty_fourths / 64, sixty_fourths % 64, 64);
    while part > 0 && part.is_multiple_of(2) {
        (part, of) = (part / 2, of / 2);
    }
    match (whole, part) {
        (whole, 0) => format!("(in){whole}"),
        (0, part) => format!("(in)\"{part}/{of}\""),
        (whole, part) => format!("(in)\"{whole} {part}/{of}\""),
    }
}

fn setting_in_steps(value_mm: f64, unit: Unit, whole: fn(f64) -> f64) -> String {
    let steps = match unit {
        Unit::Millimetre => 10.0,
        Unit::Inch => 100.0,
    };
    format!(
        "({}){}",
        unit.sign(),
        whole(in_unit(value_mm, unit) * steps) / steps
    )
}

/// Two different lengths given in mm, with enough decimals to show the difference: `5.999 mm`, `6 mm`.
///
/// So a finding never says that 6 mm is less than 6 mm.
pub fn lengths_apart(value_mm: f64, limit_mm: f64, unit: Unit) -> (String, String) {
    let mut decimals = decimals(unit);
    let mut said = [value_mm, limit_mm].map(|length| rounded(in_unit(length, unit), decimals));
    while said[0] == said[1] && decimals < MOST_DECIMALS {
        decimals += 1;
        said = [value_mm, limit_mm].map(|length| rounded(in_unit(length, unit), decimals));
    }
    let [value, limit] = said;
    let unit = unit.sign();
    (format!("{value} {unit}"), format!("{limit} {unit}"))
}

/// An area given in mm², written in the square of the maker's unit.
pub fn area(value_mm2: f64, unit: Unit) -> String {
    let area = in_unit(in_unit(value_mm2, unit), unit);
    format!("{} {}²", rounded(area, decimals(unit)), unit.sign())
}

/// An angle given in degrees.
pub fn angle(degrees: f64) -> String {
    format!("{}°", rounded(degrees, 2))
}

/// A number without a unit.
pub fn number(number: f64) -> String {
    rounded(number, 3)
}

/// Words joined as in a sentence: `a`, `a and b`, `a, b and c`.
pub fn list<W: AsRef<str>>(words: &[W]) -> String {
    let mut joined = String::new();
    for (position, word) in words.iter().enumerate() {
        let before = match words.len() - position {
            _ if position == 0 => "",
            1 => " and ",
            _ => ", ",
        };
        let _ = write!(joined, "{before}{}", word.as_ref());
    }
    joined
}

/// The known word that was probably meant: the one with the fewest errors, if at most every third letter is wrong.
///
/// Case is ignored, and of two equally near words the first is taken.
pub fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let letters = word.chars().count();
    if letters > MOST_LETTERS {
        return None;
    }
    let sought = word.to_lowercase();
    known
        .into_iter()
        .filter(|candidate| candidate.chars().count() <= MOST_LETTERS)
        .map(|candidate| (osa_distance(&sought, &candidate.to_lowercase()), candidate))
        .filter(|(slips, _)| slips * 3 <= letters)
        .min_by_key(|(slips, _)| *slips)
        .map(|(_, candidate)| candidate)
}

fn in_unit(value_mm: f64, unit: Unit) -> f64 {
    match unit {
        Unit::Millimetre => value_mm,
        // Source: 1 in = 25.4 mm exactly (international yard, 1959).
        Unit::Inch => value_mm / 25.4,
    }
}

/// Decimals of a length: hundredths of a millimetre and thousandths of an inch are about what digital calipers show.
// Source: common practice, none published.
fn decimals(unit: Unit) -> usize {
    match unit {
        Unit::Millimetre => 2,
        Unit::Inch => 3,
    }
}

/// A number with at most that many decimals, without trailing zeros.
fn rounded(number: f64, decimals: usize) -> String {
    let written = format!("{number:.decimals$}");
    let trimmed = if written.contains('.') {
        written.trim_end_matches('0').trim_end_matches('.')
    } else {
        &written
    };
    if trimmed == "-0" { "0" } else { trimmed }.to_owned()
}
