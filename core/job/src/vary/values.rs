//! The values of a variation: lists and ranges.
//!
//! **Input:** words such as `index-255,greyboard-1000` or `(mm)1..3 by (mm)0.5`. **Output:** values as a job writes
//! them. **Errors:** a range that never ends, has no step, or whose step has another unit.

use traywright_engine::job::Unit;
use traywright_engine::wording::quoted;

use super::MOST;
use crate::lengths::{INCH, WrittenLength, fraction, in_job, trimmed};

/// Decimals of a value of a range. Common practice, none published: a millionth of a millimetre.
const DECIMALS: usize = 6;

/// The values in words, at least one.
pub(super) fn read(text: &str) -> Result<Vec<String>, String> {
    let mut values = Vec::new();
    for part in parts(text) {
        if part.is_empty() {
            return Err(format!("`{}` has an empty value", text.trim()));
        }
        match Range::of(part)? {
            Some(range) => values.extend(range.values(part)?),
            None => values.push(as_kdl(part)),
        }
    }
    Ok(values)
}

/// A value as people read it: a text without its quotes.
pub(super) fn said(value: &str) -> String {
    let inner = value
        .strip_prefix('"')
        .and_then(|rest| rest.strip_suffix('"'));
    inner.unwrap_or(value).to_owned()
}

/// The parts between commas outside quotes.
fn parts(text: &str) -> Vec<&str> {
    let mut quoted = false;
    text.split(|letter: char| {
        quoted ^= letter == '"';
        letter == ',' && !quoted
    })
    .map(str::trim)
    .collect()
}

/// One value as a job writes it. Words get their quotes, so that a shell need not pass any.
fn as_kdl(text: &str) -> String {
    let without_quotes = |text: &str| text.trim_matches('"').to_owned();
    let is_number = |text: &str| {
        let plain = |letter: char| letter.is_ascii_digit() || ".+-eE".contains(letter);
        text.chars().all(plain) && text.parse::<f64>().is_ok()
    };
    match text {
        "true" | "#true" => return "#true".to_owned(),
        "false" | "#false" => return "#false".to_owned(),
        _ if is_number(text) => return text.to_owned(),
        _ => {}
    }
    match unit_of(text) {
        (Some(unit), number) if is_number(number) => format!("({unit}){number}"),
        (Some(unit), words) => format!("({unit}){}", quoted(&without_quotes(words))),
        (None, words) => quoted(&without_quotes(words)),
    }
}

/// The unit in brackets before a value, and the value. A bracket that holds more than letters is part of the value.
fn unit_of(text: &str) -> (Option<&str>, &str) {
    let inner = text.strip_prefix('(').and_then(|rest| rest.split_once(')'));
    match inner {
        Some((unit, value)) if unit.chars().all(|letter| letter.is_ascii_alphabetic()) => {
            (Some(unit), value.trim())
        }
        _ => (None, text),
    }
}

/// A range: from its first value in steps to its last, which belongs to it.
struct Range<'a> {
    unit: Option<&'a str>,
    from: f64,
    to: f64,
    by: f64,
}

impl<'a> Range<'a> {
    /// The range in these words; none if they are a value, such as the name of a file with `..` in it.
    fn of(text: &'a str) -> Result<Option<Range<'a>>, String> {
        let Some((from, rest)) = text.split_once("..") else {
            return Ok(None);
        };
        let Some((unit, from)) = figure(from, None) else {
            return Ok(None);
        };
        let wrong = |why: &str| format!("`{text}` is no range: {why}, as in (mm)1..3 by (mm)0.5");
        let (to, by) = rest
            .split_once(" by ")
            .ok_or_else(|| wrong("a range says its step"))?;
        let (to_unit, to) = figure(to, unit).ok_or_else(|| wrong("it ends with a number"))?;
        let (by_unit, by) = figure(by, None).ok_or_else(|| wrong("its step is a number"))?;
        if to_unit != unit {
            return Err(wrong("both ends have one unit"));
        }
        if by_unit != unit {
            return Err(wrong("its step has the unit of its values"));
        }
        if by <= 0.0 {
            return Err(wrong("its step is more than 0"));
        }
        if to < from {
            return Err(wrong("it runs from the smaller value to the larger"));
        }
        Ok(Some(Range { unit, from, to, by }))
    }

    fn values(&self, text: &str) -> Result<Vec<String>, String> {
        // A hundred-thousandth of a step is a rounding error: 0.1 is no exact number.
        let steps = ((self.to - self.from) / self.by + 1e-5).floor();
        if steps >= MOST as f64 {
            let count = trimmed(steps + 1.0, 0);
            return Err(format!(
                "`{text}` has {count} values, and {MOST} are the most: take a larger step"
            ));
        }
        let value = |step: u32| self.from + self.by * f64::from(step);
        Ok((0..=steps as u32)
            .map(|step| self.written(value(step)))
            .collect())
    }

    fn written(&self, value: f64) -> String {
        match self.unit {
            Some("in") => in_job(WrittenLength {
                mm: value * INCH,
                unit: Unit::Inch,
            }),
            Some(unit) => format!("({unit}){}", trimmed(value, DECIMALS)),
            None => trimmed(value, DECIMALS),
        }
    }
}

/// A finite number with its own unit or else the usual one; inches also as a fraction.
fn figure<'a>(text: &'a str, usual: Option<&'a str>) -> Option<(Option<&'a str>, f64)> {
    let (own, number) = unit_of(text.trim());
    let (unit, number) = (own.or(usual), number.trim_matches('"'));
    let parsed = number
        .parse::<f64>()
        .ok()
        .filter(|number| number.is_finite());
    let value = match unit {
        Some("in") => parsed.or_else(|| fraction(number).ok()),
        _ => parsed,
    };
    Some((unit, value?))
}
