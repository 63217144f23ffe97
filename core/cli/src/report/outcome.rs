//! What `make` says at its end: what to watch, what was written, and what to do next.
//!
//! Given the trays and the paths of their files, gives lines for standard error. Never says that a file exists before
//! it does.

use std::path::PathBuf;

use crate::judgement::Judgement;
use crate::report::sentence::paragraph;
use crate::report::{figures, text};

/// Files that a maker prints.
const PRINTED: [&str; 2] = ["svg", "pdf"];

/// After files have been written.
pub(crate) fn written(trays: &[&Judgement], warnings: &[String], files: &[PathBuf]) -> String {
    let mut said = String::new();
    for tray in trays {
        said.push_str(&text::verdict(tray));
        said.push_str(&text::changes(tray));
    }
    for warning in warnings {
        said.push_str(&paragraph("", warning));
    }
    let names: Vec<String> = files
        .iter()
        .map(|file| file.display().to_string())
        .collect();
    said.push_str(&paragraph("", &format!("Wrote {}.", names.join(", "))));
    said.push_str(&paragraph("", &next(trays, files)));
    said
}

/// After a refusal; `fit` are the trays that would have been written.
pub(crate) fn nothing_written(fit: &[&Judgement]) -> String {
    let said = match fit.len() {
        0 => "Nothing was written.".to_owned(),
        1 => "Nothing was written. `--keep-going` writes the tray that fits.".to_owned(),
        number => {
            format!("Nothing was written. `--keep-going` writes the {number} trays that fit.")
        }
    };
    paragraph("", &said)
}

fn next(trays: &[&Judgement], files: &[PathBuf]) -> String {
    let printed = |file: &&PathBuf| {
        let ending = file.extension().and_then(|ending| ending.to_str());
        ending.is_some_and(|ending| PRINTED.contains(&ending))
    };
    let jobs: Vec<&str> = trays.iter().map(|tray| tray.path.as_str()).collect();
    let order = format!(
        "`traywright check {}` gives the order of folds",
        jobs.join(" ")
    );
    if files.iter().any(|file| printed(&file)) {
        let paper = paper(trays);
        format!(
            "Next: print at 100 %, never fitted to the page{paper}, and measure the bar: if it is as long as it says, crease, cut and fold. {order}."
        )
    } else {
        format!("Next: open it in the program of your cutter; lengths are in mm. {order}.")
    }
}

/// The paper, where one tray is in one piece in one file.
fn paper(trays: &[&Judgement]) -> String {
    let [tray] = trays else { return String::new() };
    match figures::sheet(tray) {
        Some(sheet) => format!(", on {}", sheet.words()),
        None => String::new(),
    }
}
