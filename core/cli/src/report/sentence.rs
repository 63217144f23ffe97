//! Wording that every report shares: lengths in the maker's unit, findings as sentences, lines of 80 columns.
//!
//! Given figures in mm and the words of findings, gives text. Never decides what is said or in which order.

use traywright_engine::Finding;
use traywright_engine::job::Unit;

/// Columns of the plainest terminal. Common practice, none published.
const COLUMNS: usize = 80;

/// A length without its unit: hundredths of a millimetre, or thousandths of an inch, no zeros at the end.
pub(crate) fn figure(length: f64, unit: Unit) -> String {
    let written = match unit {
        Unit::Millimetre => format!("{length:.2}"),
        Unit::Inch => format!("{:.3}", length / 25.4),
    };
    let trimmed = written.trim_end_matches('0').trim_end_matches('.');
    if trimmed == "-0" {
        "0".to_owned()
    } else {
        trimmed.to_owned()
    }
}

/// A length with its unit.
pub(crate) fn length(length: f64, unit: Unit) -> String {
    format!("{} {}", figure(length, unit), name(unit))
}

/// Lengths that belong together, as in `98 x 63 mm`.
pub(crate) fn lengths(lengths: &[f64], unit: Unit) -> String {
    let figures: Vec<String> = lengths.iter().map(|&length| figure(length, unit)).collect();
    format!("{} {}", figures.join(" x "), name(unit))
}

/// The unit as it is written behind a figure.
pub(crate) fn name(unit: Unit) -> &'static str {
    match unit {
        Unit::Millimetre => "mm",
        Unit::Inch => "in",
    }
}

/// A finding's sentence with its cure as the last clause, as programs read it.
pub(crate) fn with_cure(finding: &Finding) -> String {
    match &finding.cure {
        Some(cure) => format!("{}; cure: {}", clause(&finding.message), clause(cure)),
        None => clause(&finding.message).to_owned(),
    }
}

/// Words made into a sentence: a capital letter first, a full stop last.
pub(crate) fn sentence(words: &str) -> String {
    let mut letters = clause(words).chars();
    let capital: String = letters
        .next()
        .map(|letter| letter.to_uppercase().collect())
        .unwrap_or_default();
    let rest = letters.as_str();
    let stop = if rest.ends_with(['?', '!', ':']) {
        ""
    } else {
        "."
    };
    format!("{capital}{rest}{stop}")
}

fn clause(words: &str) -> &str {
    words.trim().trim_end_matches('.')
}

/// A paragraph of at most 80 columns: `first` opens it, later lines are indented to stand below the words.
pub(crate) fn paragraph(first: &str, words: &str) -> String {
    let indent = first.chars().count();
    let mut text = first.to_owned();
    let mut column = indent;
    for word in words.split_whitespace() {
        let width = word.chars().count();
        if column > indent && column + 1 + width > COLUMNS {
            text.push('\n');
            text.extend(std::iter::repeat_n(' ', indent));
            column = indent;
        } else if column > indent {
            text.push(' ');
            column += 1;
        }
        text.push_str(word);
        column += width;
    }
    text.push('\n');
    text
}
