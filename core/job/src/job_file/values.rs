//! Values of a job: lengths, words, counts, and settings of a style.
//!
//! **Input:** one entry. **Output:** its value in millimetres or plain. **Errors:** an invalid value, with the correct
//! form. No value that is not finite or is outside the job's limits passes here.

use kdl::KdlValue;
use traywright_engine::SourceError;
use traywright_engine::job::{Length, SettingInput, Unit};
use traywright_engine::wording::nearest;

use super::nodes::Entry;
use crate::lengths::{FractionFault, INCH, as_people_write, fraction, in_job, trimmed};

/// The longest length of a job.
// Source: core/CONTRACT.md, "Job file".
const LONGEST: f64 = 5000.0;

/// The limits of a length.
#[derive(Clone, Copy, Debug)]
pub(super) struct Limits {
    least: f64,
    most: f64,
    /// Why it cannot be less.
    below: &'static str,
    /// Why it cannot be more.
    above: &'static str,
}

const TOO_LONG: &str = "a length is at most 5000 mm (196.85 in)";

/// For a length that cannot be 0.
// Source: core/CONTRACT.md, "Job file".
pub(super) const SIZE: Limits = Limits {
    least: 0.01,
    most: LONGEST,
    below: "it is at least 0.01 mm",
    above: TOO_LONG,
};

/// For a length that may be 0.
pub(super) const FROM_ZERO: Limits = Limits {
    least: 0.0,
    most: LONGEST,
    below: "it is 0 or more",
    above: TOO_LONG,
};

/// For the caliper: trial jobs go down to a thickness near 0, where the trade's formulas still hold.
pub(super) const CALIPER: Limits = Limits {
    least: f64::MIN_POSITIVE,
    most: LONGEST,
    below: "a card is thicker than that: measure one sheet",
    above: TOO_LONG,
};

/// For lengths whose limits are checked elsewhere.
pub(super) const SIGNED: Limits = Limits {
    least: -LONGEST,
    most: LONGEST,
    below: TOO_LONG,
    above: TOO_LONG,
};

/// For a ruler's reading of a check bar.
// Source: core/CONTRACT.md, "Job file": 90 to 110 for a bar of 100.
pub(super) const BAR: Limits = Limits {
    least: 90.0,
    most: 110.0,
    below: "the bar is 100 mm long, or 4 in in an inch job: a reading lies between 90 and 110 mm",
    above: "the bar is 100 mm long, or 4 in in an inch job: a reading lies between 90 and 110 mm",
};

/// A length in mm.
pub(super) fn length(
    entry: &Entry<'_>,
    limits: Limits,
    faults: &mut Vec<SourceError>,
) -> Option<Length> {
    // Limits of these lengths begin at 0 or above.
    signed(entry, limits, faults).map(Length::known)
}

/// A length within limits that may begin below 0.
pub(super) fn signed(
    entry: &Entry<'_>,
    limits: Limits,
    faults: &mut Vec<SourceError>,
) -> Option<f64> {
    let mm = match in_mm(entry) {
        Ok(mm) => mm,
        Err(fault) => {
            faults.push(*fault);
            return None;
        }
    };
    let label = match mm {
        _ if mm < limits.least => limits.below,
        _ if mm > limits.most => limits.above,
        _ => return Some(mm),
    };
    let mut title = format!("`{}` is {}", entry.name, said(entry));
    if entry.unit() == Some("in") && mm.abs() < 1e9 {
        title.push_str(&format!(", which is {} mm", trimmed(mm, 3)));
    }
    faults.push(SourceError::new(entry.place(), title, label));
    None
}

/// The unit in which a length is written.
pub(super) fn unit(entry: &Entry<'_>) -> Unit {
    match entry.unit() {
        Some("in") => Unit::Inch,
        _ => Unit::Millimetre,
    }
}

/// The number with its unit, in the order in which people say it.
fn said(entry: &Entry<'_>) -> String {
    format!(
        "{} {}",
        entry.figure().trim_matches('"'),
        entry.unit().unwrap_or_default()
    )
}

fn in_mm(entry: &Entry<'_>) -> Result<f64, Box<SourceError>> {
    let Some(unit) = entry.unit() else {
        return Err(Box::new(unitless(entry)));
    };
    let scale = match unit {
        "mm" => 1.0,
        "in" => INCH,
        _ => return Err(Box::new(unknown_unit(entry, unit))),
    };
    match entry.value() {
        KdlValue::Integer(number) => Ok(*number as f64 * scale),
        KdlValue::Float(number) if number.is_finite() => Ok(number * scale),
        KdlValue::Float(_) => Err(Box::new(endless(entry))),
        KdlValue::String(text) if unit == "in" => match fraction(text) {
            Ok(inches) => Ok(inches * scale),
            Err(fault) => Err(Box::new(no_fraction(entry, text, fault))),
        },
        KdlValue::String(text) => Err(Box::new(quoted(entry, text))),
        KdlValue::Bool(_) | KdlValue::Null => Err(Box::new(no_length(entry))),
    }
}

fn unitless(entry: &Entry<'_>) -> SourceError {
    let (prefix, figure) = (entry.prefix(), entry.figure());
    let label = match entry.value() {
        KdlValue::Integer(_) => {
            format!("write {prefix}(mm){figure} for millimetres or {prefix}(in){figure} for inches")
        }
        KdlValue::Float(number) if number.is_finite() => {
            format!("write {prefix}(mm){figure} for millimetres or {prefix}(in){figure} for inches")
        }
        KdlValue::Float(_) => return endless(entry),
        KdlValue::String(text) => return quoted(entry, text),
        KdlValue::Bool(_) | KdlValue::Null => return no_length(entry),
    };
    SourceError::new(
        entry.place(),
        format!("`{}` has no unit", entry.name),
        label,
    )
}

fn endless(entry: &Entry<'_>) -> SourceError {
    SourceError::new(
        entry.place(),
        format!("`{}` is {}, which is no length", entry.name, entry.figure()),
        TOO_LONG,
    )
}

fn no_length(entry: &Entry<'_>) -> SourceError {
    SourceError::new(
        entry.place(),
        format!("`{}` is {}, which is no length", entry.name, entry.figure()),
        format!(
            "write a number with its unit: {0}(mm)182 or {0}(in)\"7 3/16\"",
            entry.prefix()
        ),
    )
}

/// Text where a number belongs: the message shows the correct form, if the text can be read at all.
fn quoted(entry: &Entry<'_>, text: &str) -> SourceError {
    let spoken = format!("{text} {}", entry.unit().unwrap_or_default());
    let read = as_people_write(&spoken, Unit::Millimetre)
        .or_else(|| as_people_write(text, Unit::Millimetre));
    let names_unit = entry.unit().is_some()
        || text.contains(|c: char| c.is_alphabetic() || "\"/½¼¾⅛⅜⅝⅞”″".contains(c));
    match read.filter(|_| names_unit) {
        Some(length) => SourceError::new(
            entry.place(),
            format!("`{}` is text, not a length", entry.name),
            format!("write {}{}", entry.prefix(), in_job(length)),
        ),
        None => no_length(entry),
    }
}

fn unknown_unit(entry: &Entry<'_>, unit: &str) -> SourceError {
    let read = as_people_write(&said(entry), Unit::Millimetre);
    let label = match read {
        Some(length) => format!(
            "a length is given in `mm` or `in`: write {}{}",
            entry.prefix(),
            in_job(length)
        ),
        None => {
            format!(
                "a length is given in `mm` or `in`{}",
                meant(unit, &["mm", "in"])
            )
        }
    };
    SourceError::new(entry.place(), format!("unknown unit `{unit}`"), label)
}

fn no_fraction(entry: &Entry<'_>, text: &str, fault: FractionFault) -> SourceError {
    let title = format!("`{text}` is no fraction of an inch");
    let label = match fault {
        FractionFault::Form => match as_people_write(&format!("{text} in"), Unit::Inch) {
            Some(length) => format!("write {}{}", entry.prefix(), in_job(length)),
            None => "write whole numbers, as in (in)\"3 5/8\" or (in)\"7/16\"".to_owned(),
        },
        FractionFault::Denominator => "below the stroke stands 2, 4, 8, 16, 32 or 64".to_owned(),
        FractionFault::Improper => {
            "the fraction beside a whole number is less than one, as in (in)\"3 5/8\"".to_owned()
        }
        FractionFault::Zero => "it is 0; where a length may be 0, write (in)0".to_owned(),
    };
    SourceError::new(entry.place(), title, label)
}

/// One of the words allowed here.
pub(super) fn choice<T: Copy>(
    entry: &Entry<'_>,
    known: &[(&str, T)],
    faults: &mut Vec<SourceError>,
) -> Option<T> {
    let words: Vec<&str> = known.iter().map(|(word, _)| *word).collect();
    let one_of = format!("one of {}", words.join(", "));
    let written = word(entry, &one_of, faults)?;
    let found = known.iter().find(|(word, _)| *word == written);
    if found.is_none() {
        let label = format!("it is {one_of}{}", meant(written, &words));
        faults.push(SourceError::new(
            entry.place(),
            format!("unknown {} `{written}`", entry.name),
            label,
        ));
    }
    found.map(|(_, meant)| *meant)
}

/// A word or a text; `what` describes it for the message.
pub(super) fn word<'a>(
    entry: &Entry<'a>,
    what: &str,
    faults: &mut Vec<SourceError>,
) -> Option<&'a str> {
    let text = entry.value().as_string().filter(|_| entry.unit().is_none());
    if text.is_none() {
        let title = format!(
            "`{}` is a word, not `{}`",
            entry.name,
            said(entry).trim_end()
        );
        faults.push(SourceError::new(
            entry.place(),
            title,
            format!("write {what}"),
        ));
    }
    text
}

/// A name that people see: not empty, one line, of a length that can be printed.
pub(super) fn name<'a>(entry: &Entry<'a>, faults: &mut Vec<SourceError>) -> Option<&'a str> {
    let text = word(entry, "a name in double quotes", faults)?;
    // Common practice, none published: longer names fit no title and no table.
    const LONGEST_NAME: usize = 100;
    let label = if text.trim().is_empty() {
        "a name has at least one letter"
    } else if text.chars().any(char::is_control) {
        "a name stands on one line and has no tabs"
    } else if text.chars().count() > LONGEST_NAME {
        "a name has at most 100 characters"
    } else {
        return Some(text);
    };
    faults.push(SourceError::new(
        entry.place(),
        "this name will not do",
        label,
    ));
    None
}

/// A whole number from 1.
pub(super) fn count(
    entry: &Entry<'_>,
    most: usize,
    faults: &mut Vec<SourceError>,
) -> Option<usize> {
    let number = match (entry.value(), entry.unit()) {
        (KdlValue::Integer(number), None) => usize::try_from(*number).ok(),
        _ => None,
    };
    let count = number.filter(|number| (1..=most).contains(number));
    if count.is_none() {
        let title = format!("`{}` is {}", entry.name, said(entry).trim_end());
        let label = format!("write a whole number from 1 to {most}, without a unit");
        faults.push(SourceError::new(entry.place(), title, label));
    }
    count
}

/// Yes or no.
pub(super) fn truth(entry: &Entry<'_>, faults: &mut Vec<SourceError>) -> Option<bool> {
    let truth = match (entry.value(), entry.unit()) {
        (KdlValue::Bool(truth), None) => Some(*truth),
        _ => None,
    };
    if truth.is_none() {
        let title = format!("`{}` is {}", entry.name, said(entry).trim_end());
        faults.push(SourceError::new(
            entry.place(),
            title,
            "write #true or #false",
        ));
    }
    truth
}

/// Any value that a setting may have.
pub(super) fn answer(entry: &Entry<'_>, faults: &mut Vec<SourceError>) -> Option<SettingInput> {
    let fault = match (entry.unit(), entry.value()) {
        (Some("mm" | "in"), _) => return signed(entry, SIGNED, faults).map(SettingInput::Length),
        (Some("deg"), KdlValue::Integer(number)) => return turn(entry, *number as f64, faults),
        (Some("deg"), KdlValue::Float(number)) => return turn(entry, *number, faults),
        (None, KdlValue::Integer(number)) => return Some(SettingInput::Number(*number as f64)),
        (None, KdlValue::Float(number)) if number.is_finite() => {
            return Some(SettingInput::Number(*number));
        }
        (None, KdlValue::String(text)) => return Some(SettingInput::Word(text.clone())),
        (None, KdlValue::Bool(truth)) => return Some(SettingInput::YesNo(*truth)),
        (Some(unit), KdlValue::Integer(_) | KdlValue::Float(_)) => {
            let label = format!(
                "known are `mm`, `in` and `deg`{}",
                meant(unit, &["mm", "in", "deg"])
            );
            SourceError::new(entry.place(), format!("unknown unit `{unit}`"), label)
        }
        _ => SourceError::new(
            entry.place(),
            format!("`{}` cannot be {}", entry.name, said(entry).trim_end()),
            "write a length (mm)3, an angle (deg)5, a number 3, a \"word\", #true or #false",
        ),
    };
    faults.push(fault);
    None
}

fn turn(entry: &Entry<'_>, degrees: f64, faults: &mut Vec<SourceError>) -> Option<SettingInput> {
    if (-360.0..=360.0).contains(&degrees) {
        return Some(SettingInput::Angle(degrees));
    }
    let title = format!("`{}` is {} degrees", entry.name, entry.figure());
    faults.push(SourceError::new(
        entry.place(),
        title,
        "an angle lies between -360 and 360 degrees",
    ));
    None
}

/// The end of a sentence that lists all known words.
fn meant(word: &str, known: &[&str]) -> String {
    match nearest(word, known.iter().copied()) {
        Some(best) => format!("; did you mean `{best}`?"),
        None => String::new(),
    }
}
