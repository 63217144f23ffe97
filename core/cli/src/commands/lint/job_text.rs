//! A job that shows a fault of a style, as a job file.
//!
//! Given the style, the job and the fault; gives KDL that says only what is not usual, beneath a few lines on what it
//! shows and how to see it. Read again it is the same job to the last bit.

use std::fmt::Write;

use traywright_engine::Style;
use traywright_engine::job::{Cut, Fit, Item, SettingInput};
use traywright_job::job_file::quoted;
use traywright_job::library::StyleText;
use traywright_job::report::sentence::{paragraph, sentence};

use super::search::Shown;

/// The job's file.
pub(super) fn job(text: &StyleText, style: &Style, shown: &Shown) -> String {
    let Shown { job, flaw } = shown;
    let said = format!("{} [{}]", sentence(&flaw.message), flaw.code);
    let mut file = note(&format!(
        "The style `{}` lets this job through: {said}",
        style.name()
    ));
    file.push_str(&note(&how_to_see_it(text)));
    let _ = writeln!(
        file,
        "tray style={} name=\"What shows {}\"",
        quoted(style.name()),
        flaw.code
    );
    let size = &job.box_size;
    let _ = writeln!(file, "box {}", sides([size.length, size.width, size.depth]));
    job.items
        .iter()
        .for_each(|item| file.push_str(&item_line(item)));
    let hinge = match job.board.hinge {
        0.0 => String::new(),
        hinge => format!(" hinge=(mm){hinge}"),
    };
    let _ = writeln!(file, "board caliper=(mm){}{hinge}", job.board.caliper);
    file.push_str(&fit_line(&job.fit));
    match job.slot.cut {
        Cut::Cross => {}
        Cut::Doors => file.push_str("slot cut=\"doors\"\n"),
        Cut::Open => file.push_str("slot cut=\"open\"\n"),
    }
    for setting in &job.settings {
        let _ = writeln!(
            file,
            "set {}={}",
            quoted(&setting.name),
            answer(&setting.answer)
        );
    }
    file
}

/// Words as a remark in a job, where no letter may steer the reader.
fn note(words: &str) -> String {
    let plain = |letter: char| match letter {
        '\u{200e}'
        | '\u{200f}'
        | '\u{202a}'..='\u{202e}'
        | '\u{2066}'..='\u{2069}'
        | '\u{feff}' => ' ',
        letter if letter.is_control() => ' ',
        letter => letter,
    };
    let words: String = words.chars().map(plain).collect();
    let lines = paragraph("", &words);
    lines.lines().map(|line| format!("// {line}\n")).collect()
}

fn how_to_see_it(text: &StyleText) -> String {
    let styles =
        "To see it: `traywright check --styles DIR` and this file, where DIR holds the style.";
    match StyleText::shipped_as(&text.name) {
        Some(shipped) if shipped == text.text => {
            "To see it: `traywright check` and this file.".to_owned()
        }
        Some(_) => format!(
            "{styles} First give it a name of its own: another `{}` ships with the program.",
            text.name
        ),
        None => styles.to_owned(),
    }
}

/// Repeats of an item stand in a line each, so that their names stay.
fn item_line(item: &Item) -> String {
    let sides = sides([item.length, item.width, item.depth]);
    format!("item {} {sides}\n", quoted(&item.name))
}

fn sides([length, width, depth]: [f64; 3]) -> String {
    format!("length=(mm){length} width=(mm){width} depth=(mm){depth}")
}

/// Only those that are not the default.
fn fit_line(fit: &Fit) -> String {
    let default = Fit::default();
    let clearances = [
        ("box", fit.around_tray, default.around_tray),
        ("item", fit.around_item, default.around_item),
        ("play", fit.play, default.play),
    ];
    let said: String = clearances
        .iter()
        .filter(|(_, is, default)| is != default)
        .map(|(name, is, _)| format!(" {name}=(mm){is}"))
        .collect();
    if said.is_empty() {
        said
    } else {
        format!("fit{said}\n")
    }
}

fn answer(answer: &SettingInput) -> String {
    match answer {
        SettingInput::Length(mm) => format!("(mm){mm}"),
        SettingInput::Angle(degrees) => format!("(deg){degrees}"),
        SettingInput::Number(number) => number.to_string(),
        SettingInput::Word(word) => quoted(word),
        SettingInput::YesNo(truth) => format!("#{truth}"),
    }
}
