//! `styles NAME`: all that a maker needs to choose a style and to adjust it.
//!
//! **Input:** a style. **Output:** its purpose with a picture, its settings, its limits and a job to copy. The values
//! are those of the shown job; no other job is promised to fit.

use traywright_engine::formula::Value;
use traywright_engine::job::Unit;
use traywright_engine::{Level, SettingInfo, SettingValue, Style};
use traywright_job::example_job::ExampleJob;
use traywright_job::job_file::{self, setting};
use traywright_job::report::sentence::{paragraph, sentence};

use super::picture::Size;
use super::shown;

/// Size of a picture with space for names.
// Source: common practice, none published: a terminal has 80 columns and 24 lines.
const LARGE: Size = Size {
    columns: 75,
    rows: 21,
};

/// The style in full.
pub(super) fn describe_style(style: &Style, path: &str) -> String {
    let usual = ExampleJob::of(style);
    let name = style.name();
    let mut text = format!("{name}, from {path}\n");
    text.push_str(&paragraph("  ", style.about()));
    text.push_str(&paragraph("  ", &items(style)));
    if let Some(picture) = shown(style, &usual, LARGE, true) {
        text.push_str("\nIts blank for the job below, cuts as lines and creases dotted:\n\n");
        text.push_str(&picture);
    }
    text.push_str(&settings(style, &usual));
    text.push_str(&limits(style, &usual));
    text.push_str(&job(&usual));
    let start = match style.items() {
        (_, 0) => String::new(),
        _ => format!("`traywright start --style {name} my-tray.kdl` writes a job to fill in; "),
    };
    let more =
        format!("{start}`traywright styles {name} --tree` shows how its panels hang together.");
    text.push_str(&paragraph("", &more));
    text
}

fn items(style: &Style) -> String {
    match style.items() {
        (_, 0) => {
            "It takes no item and goes into no box: a job for it has a board alone.".to_owned()
        }
        (1, 1) => "It takes one item.".to_owned(),
        (min, max) if min == max => format!("It takes {min} items."),
        (min, max) => format!("It takes {min} to {max} items."),
    }
}

/// The settings of a style, each with the line that sets it to its default.
fn settings(style: &Style, usual: &ExampleJob) -> String {
    let questions = style.questions(Some(&usual.job));
    if questions.is_empty() {
        return String::new();
    }
    let mut text = "\nSettings (default shown; change one with this line in the job):\n".to_owned();
    for question in &questions {
        text.push_str(&paragraph("  ", &sentence(question.question)));
        text.push_str(&paragraph(
            &format!("    {}  ", line(question)),
            &possible(question),
        ));
    }
    text
}

/// The line of a job with the default.
fn line(question: &SettingInfo) -> String {
    match &question.default.value {
        Some(value) => setting(question.name, in_a_job(value)),
        None => setting(question.name, "…"),
    }
}

fn in_a_job(value: &Value) -> job_file::Value<'_> {
    // Adding 0 makes a zero of a negative one.
    let rounded = |number: f64| (number * 1e4).round() / 1e4 + 0.0;
    match value {
        Value::Length(mm) => job_file::Value::Mm(rounded(*mm)),
        Value::Angle(degrees) => job_file::Value::Degrees(rounded(*degrees)),
        Value::Truth(truth) => job_file::Value::YesNo(*truth),
        Value::Word(word) => job_file::Value::Text(word),
        Value::Number(number) | Value::Area(number) => job_file::Value::Number(rounded(*number)),
    }
}

/// The possible values, and the default if it is more than a number.
fn possible(question: &SettingInfo) -> String {
    let answers = match &question.possible[..] {
        [] => "#true or #false".to_owned(),
        [min, max]
            if min
                .value
                .as_ref()
                .is_none_or(|value| value.word().is_none()) =>
        {
            format!("{} to {}", figure(min), figure(max))
        }
        words => {
            let words: Vec<String> = words
                .iter()
                .map(|word| format!("\"{}\"", word.written))
                .collect();
            words.join(" or ")
        }
    };
    match &question.default {
        SettingValue {
            value: Some(value), ..
        } if value.amount().is_none() => answers,
        default if is_formula(default) => format!("{answers}; default: {}", figure(default)),
        _ => answers,
    }
}

/// A formula with its value; a plain number alone.
fn figure(setting: &SettingValue) -> String {
    match &setting.value {
        Some(value) if is_formula(setting) => {
            format!(
                "{} here, `{}`",
                value.in_words(Unit::Millimetre),
                setting.written
            )
        }
        Some(value) => value.in_words(Unit::Millimetre),
        None => setting.written.to_owned(),
    }
}

fn is_formula(setting: &SettingValue) -> bool {
    setting
        .written
        .contains(|letter: char| letter.is_ascii_alphabetic())
        && !setting
            .written
            .starts_with(|first: char| first.is_ascii_digit())
        || setting.written.contains([' ', '('])
}

/// The style's rules, apart from those for every tray.
fn limits(style: &Style, usual: &ExampleJob) -> String {
    let limits = style.limits(&usual.job);
    let width = limits.iter().map(|limit| limit.code.chars().count()).max();
    let mut text = String::new();
    for (level, head) in [
        (Level::Error, "Errors it can report"),
        (Level::Warning, "Warnings it can print"),
        (Level::Note, "Notes it can print"),
    ] {
        let mut of_level = limits
            .iter()
            .filter(|limit| limit.level == level)
            .peekable();
        if of_level.peek().is_none() {
            continue;
        }
        text.push_str(&format!("\n{head} (limits for the job below):\n"));
        for limit in of_level {
            let mut words = sentence(&limit.says);
            if let Some(fix) = limit.fix {
                words.push_str(&format!(" Fix: {}.", fix.trim_end_matches('.')));
            }
            let width = width.unwrap_or_default();
            text.push_str(&paragraph(&format!("  {:width$}  ", limit.code), &words));
        }
    }
    text
}

/// A job to copy.
fn job(usual: &ExampleJob) -> String {
    let head = match usual.tray {
        Some(_) => "A job to begin with, which fits:",
        None => "A job to change until it fits; none of the common boxes did:",
    };
    let lines: String = usual
        .text
        .lines()
        .map(|line| format!("  {line}\n"))
        .collect();
    format!("\n{head}\n\n{lines}\n")
}
