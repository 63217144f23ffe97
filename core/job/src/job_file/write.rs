//! The writer of jobs, line by line or whole.
//!
//! **Input:** values by their keys, or a whole job. **Output:** lines of a job. Read again, a job in
//! millimetres has the same values to the last bit; the maker's unit is not written.

use std::fmt;

use traywright_engine::Job;
use traywright_engine::job::SettingInput;
use traywright_engine::wording::quoted;

use super::form::Form;
use super::keys::{Key, LINES, Line};
use crate::lengths::{WrittenLength, in_job};

/// A value as a job writes it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Value<'a> {
    /// A length in the maker's unit, rounded as people write it.
    Length(WrittenLength),
    /// A length in millimetres, exactly.
    Mm(f64),
    /// A length in inches, exactly.
    Inches(f64),
    /// An angle.
    Degrees(f64),
    /// A number without a unit.
    Number(f64),
    /// A whole number.
    Count(usize),
    /// A word or a text.
    Text(&'a str),
    /// `#true` or `#false`.
    YesNo(bool),
}

impl fmt::Display for Value<'_> {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Value::Length(length) => write!(to, "{}", in_job(*length)),
            Value::Mm(mm) => write!(to, "(mm){mm}"),
            Value::Inches(inches) => write!(to, "(in){inches}"),
            Value::Degrees(degrees) => write!(to, "(deg){degrees}"),
            Value::Number(number) => write!(to, "{number}"),
            Value::Count(count) => write!(to, "{count}"),
            Value::Text(text) => write!(to, "{}", quoted(text)),
            Value::YesNo(yes) => write!(to, "#{yes}"),
        }
    }
}

impl<'a> From<&'a SettingInput> for Value<'a> {
    fn from(input: &'a SettingInput) -> Self {
        match input {
            SettingInput::Length(mm) => Value::Mm(*mm),
            SettingInput::Angle(degrees) => Value::Degrees(*degrees),
            SettingInput::Number(number) => Value::Number(*number),
            SettingInput::Word(word) => Value::Text(word),
            SettingInput::YesNo(yes) => Value::YesNo(*yes),
        }
    }
}

/// One line of a job with these values, in the order of the table of keys; without a line end.
///
/// # Panics
/// If the table has no line with that name.
pub fn line(name: &str, values: &[(&str, Value<'_>)]) -> String {
    let line = Line::named(name).expect("the table of keys has every line that is written");
    line.with(|key| {
        let given = values.iter().find(|(name, _)| *name == key.name);
        given.map(|(_, value)| value.to_string())
    })
}

/// `set "edge-web"=(mm)3`, without a line end.
pub fn setting(name: &str, value: impl fmt::Display) -> String {
    format!("set {}={value}", quoted(name))
}

/// The text of a job. Lengths are in millimetres; defaults are left out.
pub fn write(job: &Job) -> String {
    let mut form = Form {
        job: job.clone(),
        ..Form::blank()
    };
    let mut lines = Vec::new();
    for line in &LINES {
        match line.name {
            "item" => {
                for kind in job.items.chunk_by(|_, next| next.number > 1) {
                    form.item = kind[0].clone();
                    form.count = kind.len();
                    lines.push(line.with(|key| key.unusual(&mut form)));
                }
            }
            "print" => {
                for print in &job.prints {
                    form.print = print.clone();
                    lines.push(line.with(|key| key.unusual(&mut form)));
                }
            }
            "label" => {
                for label in &job.labels {
                    form.label = label.clone();
                    lines.push(line.with(|key| key.unusual(&mut form)));
                }
            }
            "set" => {
                let settings = job.settings.iter();
                lines.extend(settings.map(|set| setting(&set.name, Value::from(&set.answer))));
            }
            name => {
                let written = line.with(|key| key.unusual(&mut form));
                lines.extend(Some(written).filter(|written| written != name));
            }
        }
    }
    lines.iter().map(|line| format!("{line}\n")).collect()
}

impl Line {
    /// The line with the values that are given.
    pub(crate) fn with(&self, mut value: impl FnMut(&Key) -> Option<String>) -> String {
        let mut text = self.name.to_owned();
        if let Some(value) = self.argument.as_ref().and_then(&mut value) {
            text.push_str(&format!(" {value}"));
        }
        for key in self.known_keys() {
            if let Some(value) = value(key) {
                text.push_str(&format!(" {}={value}", key.name));
            }
        }
        text
    }
}
