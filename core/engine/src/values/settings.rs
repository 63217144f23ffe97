//! The job held against what the style asks: items, answers and their ranges.
//!
//! Given a style and a job, gives the faults of the job, or the answer to each ask. Works out nothing else.

use super::{EvalError, Key, Values};
use crate::finding::{Refusal, SourceError};
use crate::formula::{Kind, Value};
use crate::geometry::TOUCH_MM;
use crate::job::{Job, Setting, SettingInput, Unit};
use crate::style::Style;
use crate::style::names::{Scope, ask_kind};
use crate::style::text::SettingEntry;
use crate::wording::{length, nearest};

/// What the style cannot take of the job, whatever the numbers.
pub(super) fn judge_job(style: &Style, job: &Job) -> Vec<SourceError> {
    let mut faults = Vec::new();
    let (least, most) = style.items();
    let count = job.items.len();
    if count > most {
        let place = job.items[most].place.clone();
        let message = format!(
            "the style `{}` takes {}, the job has {count}",
            style.name(),
            items(least, most)
        );
        faults.push(SourceError::new(
            place,
            message,
            "leave this one out, or choose a style that takes more",
        ));
    } else if count < least {
        let place = job.items.last().map_or(0..0, |item| item.place.clone());
        let message = format!(
            "the style `{}` takes {}, the job has {count}",
            style.name(),
            items(least, most)
        );
        faults.push(SourceError::new(place, message, "add the missing ones"));
    }
    for setting in &job.settings {
        faults.extend(judge_setting(style, setting));
    }
    faults
}

fn items(least: usize, most: usize) -> String {
    match (least, most) {
        (1, 1) => "one item".to_owned(),
        (least, most) if least == most => format!("{most} items"),
        (least, most) => format!("{least} to {most} items"),
    }
}

/// Whether the style asks such a thing, and for an answer of that kind.
fn judge_setting(style: &Style, setting: &Setting) -> Option<SourceError> {
    let asks = &style.sheet.asks;
    let Some(ask) = asks.get(&setting.name) else {
        let names: Vec<&str> = asks.iter().map(|(name, _)| name.word.as_str()).collect();
        let label = match nearest(&setting.name, names.iter().copied()) {
            Some(word) => format!("did you mean \"{word}\"?"),
            None => format!("it asks {}", names.join(", ")),
        };
        let message = format!("the style `{}` asks no \"{}\"", style.name(), setting.name);
        return Some(SourceError::new(setting.place.clone(), message, label));
    };
    let wanted = ask_kind(ask);
    let fits = match (&setting.answer, ask) {
        (SettingInput::Word(word), SettingEntry::Choice { of, .. }) => {
            of.iter().any(|option| option.word == *word)
        }
        (answer, _) => kind(answer) == wanted,
    };
    let label = match ask {
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
        SettingEntry::Truth { .. } => "#true or #false".to_owned(),
    };
    let message = format!("\"{}\" cannot be answered so", setting.name);
    (!fits).then(|| {
        SourceError::new(setting.place.clone(), message, label).with_hint(question(ask).to_owned())
    })
}

fn kind(answer: &SettingInput) -> Kind {
    match answer {
        SettingInput::Length(_) => Kind::Length,
        SettingInput::Angle(_) => Kind::Angle,
        SettingInput::Number(_) => Kind::Number,
        SettingInput::Word(_) => Kind::Word,
        SettingInput::Truth(_) => Kind::Truth,
    }
}

fn question(ask: &SettingEntry) -> &str {
    let (SettingEntry::Length { ask, .. }
    | SettingEntry::Angle { ask, .. }
    | SettingEntry::Number { ask, .. }
    | SettingEntry::Choice { ask, .. }
    | SettingEntry::Truth { ask, .. }) = ask;
    ask
}

impl Values<'_> {
    /// The answer to an ask, by its entry: the job's, or the usual one.
    pub(crate) fn answer(&mut self, ask: usize) -> Result<Value, EvalError> {
        let (name, entry) = &self.sheet().asks.0[ask];
        if let Some(setting) = self
            .job
            .settings
            .iter()
            .find(|setting| setting.name == name.word)
        {
            return Ok(value(&setting.answer));
        }
        match entry {
            SettingEntry::Choice { usual, .. } => Ok(Value::Word(usual.word.clone())),
            SettingEntry::Truth { usual, .. } => Ok(Value::Truth(*usual)),
            SettingEntry::Length { usual, .. }
            | SettingEntry::Angle { usual, .. }
            | SettingEntry::Number { usual, .. } => self.figure(Key::SettingEntry(ask), |values| {
                values.value(usual, Scope::Style)
            }),
        }
    }
}

/// Holds the job's answers against the ranges that the style gives.
pub(super) fn judge_ranges(values: &mut Values) -> Result<(), Refusal> {
    let mut faults = Vec::new();
    for setting in &values.job.settings {
        let ask = values
            .sheet()
            .asks
            .get(&setting.name)
            .expect("settings were judged before");
        let (SettingEntry::Length { least, most, .. }
        | SettingEntry::Angle { least, most, .. }
        | SettingEntry::Number { least, most, .. }) = ask
        else {
            continue;
        };
        let in_the_style = |stop: EvalError| Refusal::Style(vec![stop.into_fault()]);
        let least = values.amount(least, Scope::Style).map_err(in_the_style)?;
        let most = values.amount(most, Scope::Style).map_err(in_the_style)?;
        let answer = value(&setting.answer);
        let amount = answer
            .amount()
            .expect("the answer is of the kind that was asked");
        if amount < least - TOUCH_MM || amount > most + TOUCH_MM {
            let written = |amount| written(answer.kind(), amount, values.job.unit);
            let message = format!("\"{}\" is {}", setting.name, written(amount));
            let label = format!("between {} and {}", written(least), written(most));
            faults.push(
                SourceError::new(setting.place.clone(), message, label)
                    .with_hint(question(ask).to_owned()),
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
        SettingInput::Truth(truth) => Value::Truth(*truth),
    }
}

fn written(kind: Kind, amount: f64, unit: Unit) -> String {
    match kind {
        Kind::Length => length(amount, unit),
        Kind::Angle => format!("{amount} degrees"),
        _ => amount.to_string(),
    }
}
