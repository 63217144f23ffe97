//! Common mistakes in KDL, each with the correct form.
//!
//! **Input:** the text and the point where the parser stopped. **Output:** the wrong word and the part of the text to
//! blank out so that the rest can be read. Knows no job: it looks at one word and its neighbour.

use kdl::KdlDiagnostic;
use traywright_engine::SourceError;
use traywright_engine::finding::SourceSpan;
use traywright_engine::job::Unit;

use super::{SkippedSpan, Slip, stopped_at};
use crate::lengths::{as_people_write, in_job};

/// Describes the mistake at which the parser stopped.
pub(super) fn slip(text: &str, diagnostic: &KdlDiagnostic) -> Slip {
    let said = diagnostic.message.as_deref().unwrap_or_default();
    if said.contains("quoted string") || said.contains("multi-line") || said.contains("raw string")
    {
        return unclosed(text, diagnostic.span.offset().min(text.len()));
    }
    let at = stopped_at(text, diagnostic);
    if let Some(brace) = text[at..].chars().next().filter(|c| "{}".contains(*c)) {
        return stray_brace(at, brace);
    }
    let token = token_at(text, at);
    if said.contains("node name") {
        return no_node(text, token);
    }
    let before = token_before(text, token.start);
    if text[at..].starts_with('=') && lacks_value(&text[before.clone()]) {
        let fault = no_value(text, &before);
        return slip_of(fault, before);
    }
    if let Some(fault) = split_fraction(text, &before, &token) {
        return slip_of(fault, before.start..token.end);
    }
    let word = &text[token.clone()];
    let line = text[..token.start].rsplit('\n').next().unwrap_or_default();
    let sets = line.trim_start().starts_with("set");
    match slip_in(word, sets, token.clone()) {
        Some(fault) => slip_of(fault, token),
        // A quote without its partner would swallow the rest of the line, so the whole line is blanked out.
        None if word.matches('"').count() % 2 == 1 => slip_of_line(unreadable(text, &token), text),
        None => slip_of(unreadable(text, &token), token),
    }
}

fn slip_of(fault: SourceError, place: SourceSpan) -> Slip {
    let spoiled = SkippedSpan {
        place,
        whole_line: false,
    };
    Slip { fault, spoiled }
}

fn slip_of_line(fault: SourceError, text: &str) -> Slip {
    let start = text[..fault.place.start].rfind('\n').map_or(0, |at| at + 1);
    let spoiled = SkippedSpan {
        place: start..line_end(text, fault.place.start),
        whole_line: true,
    };
    Slip { fault, spoiled }
}

fn line_end(text: &str, from: usize) -> usize {
    let end = text[from..]
        .find(['\n', '\r'])
        .map_or(text.len(), |at| from + at);
    text.floor_char_boundary(end)
}

/// The word around a point, or the one before it if the point is in a gap.
fn token_at(text: &str, at: usize) -> SourceSpan {
    let breaks = |c: char| c.is_whitespace() || ";{}".contains(c);
    let start = text[..at]
        .rfind(breaks)
        .map_or(0, |gap| text.ceil_char_boundary(gap + 1));
    let end = text[at..].find(breaks).map_or(text.len(), |gap| at + gap);
    if start == end && start > 0 {
        return token_before(text, start);
    }
    start..end
}

/// The last word before a point, in the same line.
fn token_before(text: &str, start: usize) -> SourceSpan {
    let line = text[..start].rfind('\n').map_or(0, |at| at + 1);
    let kept = text[line..start].trim_end();
    let from = kept
        .rfind(char::is_whitespace)
        .map_or(0, |gap| kept.ceil_char_boundary(gap + 1));
    line + from..line + kept.len()
}

fn unclosed(text: &str, at: usize) -> Slip {
    let end = line_end(text, at).max(at);
    let fault = SourceError::new(
        at..end,
        "text in quotes that is not closed in its line",
        "put a `\"` at its end",
    );
    slip_of(fault, token_at(text, at).start.min(at)..end)
}

fn stray_brace(at: usize, brace: char) -> Slip {
    let fault = SourceError::new(
        at..at + 1,
        format!("`{brace}` has no place in a job"),
        "a job has no inner parts: what belongs to a word stands behind it on its line",
    );
    slip_of(fault, at..at + 1)
}

fn no_node(text: &str, token: SourceSpan) -> Slip {
    let word = &text[token.clone()];
    let label = match word.chars().next() {
        Some('#') => "a comment begins with `//`",
        _ => {
            "a line begins with one of the words tray, box, item, board, fit, slot, page, draw, set"
        }
    };
    let fault = SourceError::new(
        token.clone(),
        format!("`{word}` cannot begin a line"),
        label,
    );
    slip_of_line(fault, text)
}

/// Whether a word ends with `=` or with `=(mm)`.
fn lacks_value(word: &str) -> bool {
    word.split_once('=')
        .is_some_and(|(_, value)| split_annotation(value).1.is_empty())
}

fn no_value(text: &str, place: &SourceSpan) -> SourceError {
    let name = text[place.clone()].split('=').next().unwrap_or_default();
    SourceError::new(
        place.clone(),
        format!("`{name}` has no value"),
        format!("write it right behind the `=`, as in {name}=(mm)121 or {name}=\"word\""),
    )
}

/// `length=(in)3 5/8`: the parser stops at the second word, the mistake begins at the first.
fn split_fraction(text: &str, before: &SourceSpan, token: &SourceSpan) -> Option<SourceError> {
    let (name, value) = text[before.clone()].split_once('=')?;
    let (_, whole) = split_annotation(value);
    let fraction = &text[token.clone()];
    let plain = |word: &str| word.starts_with(|c: char| c.is_ascii_digit());
    if !plain(whole) || !plain(fraction) || !fraction.contains('/') {
        return None;
    }
    let length = as_people_write(&format!("{whole} {fraction}"), Unit::Inch)?;
    Some(SourceError::new(
        before.start..token.end,
        "a fraction of an inch stands in quotes",
        format!("write {name}={}", in_job(length)),
    ))
}

/// The unit in round brackets, if the value begins with one, and the rest.
fn split_annotation(value: &str) -> (Option<&str>, &str) {
    match value
        .strip_prefix('(')
        .and_then(|inner| inner.split_once(')'))
    {
        Some((unit, rest)) => (Some(unit), rest),
        None => (None, value),
    }
}

/// Only a word in a line `set` may be yes or no.
fn slip_in(word: &str, sets: bool, place: SourceSpan) -> Option<SourceError> {
    let fault =
        |message: String, label: String| Some(SourceError::new(place.clone(), message, label));
    let (name, value) = match word.split_once('=') {
        Some((name, value)) => (format!("{name}="), value),
        None => (String::new(), word),
    };
    if let Some((bare, unit)) = name.trim_end_matches('=').split_once('(') {
        let unit = unit.trim_end_matches(')');
        return fault(
            "the unit stands before the number".to_owned(),
            format!("write {bare}=({unit}){value}"),
        );
    }
    let (unit, number) = split_annotation(value);
    if number.is_empty() {
        return Some(no_value(word, &(0..word.len()))).map(|fault| SourceError { place, ..fault });
    }
    if let "true" | "false" | "null" | "inf" | "-inf" | "nan" = number {
        let label = match number {
            "true" | "false" if sets => {
                format!("yes and no are written #true and #false: {name}#{number}")
            }
            _ => "a figure or a word belongs here".to_owned(),
        };
        return fault(format!("`{number}` is no value"), label);
    }
    let bare_point = number.starts_with('.') || number.ends_with('.');
    let digits = number.trim_matches('.');
    if bare_point && digits.parse::<f64>().is_ok() {
        let whole = format!("{}{number}", if number.starts_with('.') { "0" } else { "" });
        let whole = whole.trim_end_matches('.');
        let label = match unit {
            Some(unit) => format!("write {name}({unit}){whole}"),
            None => format!(
                "write {whole}, and a length with its unit: {name}(mm){whole} or {name}(in){whole}"
            ),
        };
        return fault(format!("`{number}` lacks a digit beside its point"), label);
    }
    length_in(&name, unit, number).and_then(|(message, label)| fault(message, label))
}

/// A length in a form that people use and KDL does not allow.
fn length_in(name: &str, unit: Option<&str>, number: &str) -> Option<(String, String)> {
    let spoken = format!("{number} {}", unit.unwrap_or_default());
    let length = as_people_write(&spoken, Unit::Millimetre)
        .or_else(|| as_people_write(number, Unit::Millimetre))?;
    let has_unit = unit.is_some() || number.contains(|c: char| c.is_alphabetic() || c == '"');
    let right = in_job(length);
    Some(if number.contains('/') {
        (
            "a fraction of an inch stands in quotes".to_owned(),
            format!("write {name}{right}"),
        )
    } else if number.contains(',') && has_unit {
        (
            format!("`{number}` has a decimal comma"),
            format!("write a point: {name}{right}"),
        )
    } else if number.contains(',') {
        let point = number.replace(',', ".");
        let label = format!(
            "write a point, and a length with its unit: {name}(mm){point} or {name}(in){point}"
        );
        (format!("`{number}` has a decimal comma"), label)
    } else if has_unit {
        (
            "the unit stands before the number".to_owned(),
            format!("write {name}{right}"),
        )
    } else {
        return None;
    })
}

fn unreadable(text: &str, token: &SourceSpan) -> SourceError {
    let word: String = text[token.clone()].chars().take(40).collect();
    SourceError::new(
        token.clone(),
        format!("`{word}` cannot be read here"),
        "a property is written NAME=VALUE, as in length=(mm)182; text with spaces stands in double quotes",
    )
}
