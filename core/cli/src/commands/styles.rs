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
    let mut text = format!("{name}, from {}\n", style_text.path);
    text.push_str(&paragraph("  ", style.about()));
    text.push_str(&paragraph("  ", &items(&style)));
    let questions: Vec<Question> = style.questions().collect();
    if !questions.is_empty() {
        text.push_str("\nIt asks, and where a job does not answer it takes what is usual:\n");
        let width = questions
            .iter()
            .map(|question| question.name.chars().count())
            .max()
            .unwrap_or_default();
        for Question {
            name,
            question,
            usual,
            answers,
        } in &questions
        {
            let words = format!(
                "{} Usual: {usual}; possible: {answers}.",
                sentence(question)
            );
            text.push_str(&paragraph(&format!("  {name:width$}  "), &words));
        }
    }
    if questions
        .iter()
        .any(|question| question.answers.contains("gap"))
    {
        text.push_str(&paragraph(
            "  ",
            "(Here gap is half of `fit play`; other names are figures of the job.)",
        ));
    }
    text.push_str(&format!("\nIn a job:\n  tray style=\"{name}\"\n"));
    if let Some(answer) = questions.iter().find_map(example) {
        text.push_str(&format!("  {answer}\n"));
    }
    let start =
        format!("`traywright start --style {name} my-tray.kdl` writes a whole job to fill in.");
    text.push_str(&format!("\n{}", paragraph("", &start)));
    Ok(text)
}

fn items(style: &Style) -> String {
    match style.items() {
        (1, 1) => "It takes one item.".to_owned(),
        (least, most) if least == most => format!("It takes {least} items."),
        (least, most) => format!("It takes {least} to {most} items."),
    }
}

/// A question with its usual answer as a job writes it, where that is no formula.
fn example(question: &Question) -> Option<String> {
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
