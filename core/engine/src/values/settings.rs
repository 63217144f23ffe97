//! The job's items and settings, checked against the style's settings and their ranges.
//!
//! **Input:** a style and a job. **Output:** the value of each setting. **Errors:** those in the job.

use super::{EvalError, Values};
use crate::finding::{Refusal, SourceError};
use crate::formula::{Kind, Value};
use crate::geometry::TOUCH_MM;
use crate::job::{Job, Setting, SettingInput, Unit};
use crate::renamed::{ITEM_PROPERTIES, SETTINGS, new_name};
use crate::style::Style;
use crate::style::names::{Scope, setting_kind};
use crate::style::text::{SettingEntry, SettingId};
use crate::wording::{length, nearest};

/// Parts of the job that the style cannot accept, whatever the lengths.
pub(super) fn judge_job(style: &Style, job: &Job) -> Vec<SourceError> {
    let mut faults = Vec::new();
    let (min, max) = style.items();
    let count = job.items.len();
    if count > max {
        let place = job.items[max].place.clone();
        let message = format!(
            "the style `{}` takes {}, the job has {count}",
            style.name(),
            items(min, max)
        );
        faults.push(SourceError::new(
            place,
            message,
            "leave this one out, or choose a style that takes more",
        ));
    } else if count < min {
        let place = job.items.last().map_or(0..0, |item| item.place.clone());
        let message = format!(
            "the style `{}` takes {}, the job has {count}",
            style.name(),
            items(min, max)
        );
        faults.push(SourceError::new(place, message, "add the missing ones"));
    }
    faults.extend(judge_box(style, job));
    for setting in &job.settings {
        faults.extend(judge_setting(style, setting));
    }
    faults
}

/// A tray goes into a box; a piece for no item does not.
fn judge_box(style: &Style, job: &Job) -> Option<SourceError> {
    let name = style.name();
    let (message, label) = match (job.has_box(), style.items()) {
        (true, (_, 0)) => (
            format!("the style `{name}` takes no item and goes into no box"),
            "leave the lines `box` and `item` out",
        ),
        (false, (_, 1..)) => (
            format!("the style `{name}` makes a tray for a box, and the job has none"),
            "add its inside, as in box length=(mm)182 width=(mm)121 depth=(mm)34",
        ),
        _ => return None,
    };
    Some(SourceError::new(job.style_place.clone(), message, label))
}

fn items(min: usize, max: usize) -> String {
    match (min, max) {
        (_, 0) => "no item".to_owned(),
        (1, 1) => "one item".to_owned(),
        (min, max) if min == max => format!("{max} items"),
        (min, max) => format!("{min} to {max} items"),
    }
}

/// Whether the style has such a setting, of that kind.
fn judge_setting(style: &Style, setting: &Setting) -> Option<SourceError> {
    let known = &style.sheet.settings;
    let Some(entry) = known.get(&setting.name) else {
        return Some(unknown_setting(style, setting));
    };
    let wanted = setting_kind(entry);
    let fits = match (&setting.answer, entry) {
        (SettingInput::Word(word), SettingEntry::Choice { of, .. }) => {
            of.iter().any(|option| option.word == *word)
        }
        (answer, _) => kind(answer) == wanted,
    };
    let label = match entry {
        SettingEntry::Choice { of, .. } => {
            let words: Vec<String> = of
                .iter()
                .map(|option| format!("\"{}\"", option.word))
                .collect();
            format!("one of {}", words.join(", "))
        }
        SettingEntry::Length { .. } => {
            "a length with its unit, such as (mm)3 or (in)\"1/8\"".to_owned()
        }
        SettingEntry::Angle { .. } => "an angle, such as (deg)5".to_owned(),
        SettingEntry::Number { .. } => "a number without a unit, such as 3".to_owned(),
        SettingEntry::YesNo { .. } => "#true or #false".to_owned(),
    };
    let message = format!("\"{}\" cannot be answered so", setting.name);
    (!fits).then(|| {
        SourceError::new(setting.place.clone(), message, label)
            .with_hint(question(entry).to_owned())
    })
}

fn kind(answer: &SettingInput) -> Kind {
    match answer {
        SettingInput::Length(_) => Kind::Length,
        SettingInput::Angle(_) => Kind::Angle,
        SettingInput::Number(_) => Kind::Number,
        SettingInput::Word(_) => Kind::Word,
        SettingInput::YesNo(_) => Kind::Truth,
    }
}

fn question(entry: &SettingEntry) -> &str {
    let (SettingEntry::Length { question, .. }
    | SettingEntry::Angle { question, .. }
    | SettingEntry::Number { question, .. }
    | SettingEntry::Choice { question, .. }
    | SettingEntry::YesNo { question, .. }) = entry;
    question
}

impl Values<'_> {
    /// The value of a setting: the job's, or the default.
    pub(crate) fn answer(&self, setting: SettingId) -> Result<Value, EvalError> {
        let (name, entry) = &self.sheet().settings[setting];
        if let Some(setting) = self
            .job
            .settings
            .iter()
            .find(|setting| setting.name == name.word)
        {
            return Ok(value(&setting.answer));
        }
        match entry {
            SettingEntry::Choice { default, .. } => Ok(Value::Word(default.word.clone())),
            SettingEntry::YesNo { default, .. } => Ok(Value::Truth(*default)),
            SettingEntry::Length { default, .. }
            | SettingEntry::Angle { default, .. }
            | SettingEntry::Number { default, .. } => {
                self.get_or_compute(&self.memo.settings, setting, || {
                    self.value(default, Scope::Style)
                })
            }
        }
    }
}

/// Checks the job's settings against the ranges of the style.
pub(super) fn judge_ranges(values: &Values) -> Result<(), Refusal> {
    let mut faults = Vec::new();
    for setting in &values.job.settings {
        let answer = value(&setting.answer);
        let Some(
            entry @ (SettingEntry::Length { min, max, .. }
            | SettingEntry::Angle { min, max, .. }
            | SettingEntry::Number { min, max, .. }),
        ) = values.sheet().settings.get(&setting.name)
        else {
            continue;
        };
        let Some(amount) = answer.amount() else {
            continue;
        };
        let in_the_style = |stop: EvalError| Refusal::Style(vec![stop.into_fault()]);
        let min = values.amount(min, Scope::Style).map_err(in_the_style)?;
        let max = values.amount(max, Scope::Style).map_err(in_the_style)?;
        if amount < min - TOUCH_MM || amount > max + TOUCH_MM {
            let written = |amount| written(answer.kind(), amount, values.job.unit);
            let message = format!("\"{}\" is {}", setting.name, written(amount));
            let label = format!("between {} and {}", written(min), written(max));
            faults.push(
                SourceError::new(setting.place.clone(), message, label)
                    .with_hint(question(entry).to_owned()),
            );
        }
    }
    if faults.is_empty() {
        Ok(())
    } else {
        Err(Refusal::Job(faults))
    }
}

fn value(answer: &SettingInput) -> Value {
    match answer {
        SettingInput::Length(mm) => Value::Length(*mm),
        SettingInput::Angle(degrees) => Value::Angle(*degrees),
        SettingInput::Number(number) => Value::Number(*number),
        SettingInput::Word(word) => Value::Word(word.clone()),
        SettingInput::YesNo(truth) => Value::Truth(*truth),
    }
}

fn written(kind: Kind, amount: f64, unit: Unit) -> String {
    match kind {
        Kind::Length => length(amount, unit),
        Kind::Angle => format!("{amount} degrees"),
        _ => amount.to_string(),
    }
}

/// A setting that the style does not have: it was renamed, belongs to an item, or is misspelt.
fn unknown_setting(style: &Style, setting: &Setting) -> SourceError {
    let known = style.sheet.settings.iter();
    let names: Vec<&str> = known.map(|(name, _)| name.word.as_str()).collect();
    let name = &setting.name;
    let (message, label) = if let Some(new) = new_name(SETTINGS, name, &names) {
        let message = format!("the setting \"{name}\" is now called \"{new}\"");
        (message, format!("write \"{new}\""))
    } else if ITEM_PROPERTIES.contains(&name.as_str()) {
        let label = format!("write it on the item's line: item \"…\" … {name}=(mm)3");
        (format!("`{name}` is a property of an item"), label)
    } else {
        let label = match nearest(name, names.iter().copied()) {
            Some(word) => format!("did you mean \"{word}\"?"),
            None => format!("its settings: {}", names.join(", ")),
        };
        let message = format!("the style `{}` has no setting \"{name}\"", style.name());
        (message, label)
    };
    SourceError::new(setting.place.clone(), message, label)
}
