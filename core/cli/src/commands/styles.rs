//! `styles [NAME]`: the styles, a line each, or what one of them is and asks.
//!
//! Given folders of styles besides those that ship, reads each style and gives the list as text. A style that cannot be
//! read is told as a trouble after the list of the others.

use traywright_engine::{Question, Style};

use crate::Verdict;
use crate::args::{Everywhere, StylesArguments};
use crate::library::{StyleText, Styles};
use crate::nearest::suggestion;
use crate::report::Voice;
use crate::report::sentence::{paragraph, sentence};
use crate::trouble::Trouble;

/// Lists styles or tells about one.
pub(crate) fn run(
    asked: &StylesArguments,
    everywhere: &Everywhere,
    voice: &Voice,
) -> Result<Verdict, Vec<Trouble>> {
    let styles = Styles::find(&everywhere.styles)?;
    let troubles = match &asked.name {
        Some(name) => {
            voice.answer(&told(named(name, &styles)?)?)?;
            Vec::new()
        }
        None => {
            let (list, troubles) = listed(&styles);
            voice.answer(&list)?;
            troubles
        }
    };
    if troubles.is_empty() {
        Ok(Verdict::Done)
    } else {
        Err(troubles)
    }
}

fn named<'a>(name: &str, styles: &'a Styles) -> Result<&'a StyleText, Trouble> {
    let unknown = || {
        Trouble::sentence(format_args!(
            "there is no style `{name}`; {}",
            suggestion(name, &styles.names())
        ))
    };
    styles.get(name).ok_or_else(unknown)
}

fn listed(styles: &Styles) -> (String, Vec<Trouble>) {
    let names = styles.names();
    let width = names
        .iter()
        .map(|name| name.chars().count())
        .max()
        .unwrap_or_default();
    let mut list = String::new();
    let mut troubles = Vec::new();
    for style_text in styles.all() {
        match style_text.read() {
            Ok(style) => list.push_str(&paragraph(
                &format!("{:width$}  ", style.name()),
                style.about(),
            )),
            Err(trouble) => troubles.push(trouble),
        }
    }
    (list, troubles)
}

/// All that a maker needs to choose a style and to adjust it.
fn told(style_text: &StyleText) -> Result<String, Trouble> {
    let style = style_text.read()?;
    let name = style.name();
    let start =
        format!("`traywright start --style {name} my-tray.kdl` writes a whole job to fill in.");
    let mut text = format!("{name}, from {}\n", style_text.path);
    text.push_str(&paragraph("  ", style.about()));
    text.push_str(&paragraph("  ", &items(&style)));
    text.push_str(&asked(&style));
    text.push_str(&format!("\nIn a job:\n  tray style=\"{name}\"\n\n"));
    text.push_str(&paragraph("", &start));
    Ok(text)
}

/// What a style asks, each with the line that answers it as usual.
fn asked(style: &Style) -> String {
    let questions: Vec<Question> = style.questions().collect();
    if questions.is_empty() {
        return String::new();
    }
    let mut text =
        "\nIt asks, and takes the usual answer where a job has no such line:\n".to_owned();
    let width = questions
        .iter()
        .map(|question| question.name.chars().count())
        .max()
        .unwrap_or_default();
    for question in &questions {
        let words = format!(
            "{} Possible: {}. Usual:",
            sentence(question.question),
            question.answers
        );
        text.push_str(&paragraph(&format!("  {:width$}  ", question.name), &words));
        let usual = answer(question).unwrap_or_else(|| question.usual.clone());
        text.push_str(&paragraph(&format!("  {:width$}  ", ""), &usual));
    }
    if questions
        .iter()
        .any(|question| question.answers.contains("gap"))
    {
        let gap = "(Here gap is half of `fit play`; other names are figures of the job.)";
        text.push_str(&paragraph("  ", gap));
    }
    text
}

fn items(style: &Style) -> String {
    match style.items() {
        (1, 1) => "It takes one item.".to_owned(),
        (least, most) if least == most => format!("It takes {least} items."),
        (least, most) => format!("It takes {least} to {most} items."),
    }
}

/// A question with its usual answer as a job writes it, where that is no formula.
fn answer(question: &Question) -> Option<String> {
    let usual = question.usual.as_str();
    let number = |text: &str| text.parse::<f64>().is_ok();
    let written = ["mm", "in", "deg"].iter().find_map(|unit| {
        let figure = usual.strip_suffix(unit)?.trim_end();
        number(figure).then(|| format!("({unit}){figure}"))
    });
    let word = |text: &str| question.answers.split(", ").any(|answer| answer == text);
    let written = match written {
        Some(length) => length,
        None if usual.starts_with('#') || number(usual) => usual.to_owned(),
        None if word(usual) => format!("\"{usual}\""),
        None => return None,
    };
    Some(format!("set \"{}\"={written}", question.name))
}
