//! The report of `lint` about a search.
//!
//! **Input:** the result of a search. **Output:** paragraphs: the verdict, the number of jobs by outcome, and their
//! sizes.

use std::path::PathBuf;

use traywright_engine::job::Unit;
use traywright_engine::lint::Tally;
use traywright_engine::wording::{length, list};
use traywright_job::report::sentence::{paragraph, sentence};

use super::search::{Search, Shown};

/// A style without known errors, with the jobs that were tried.
pub(super) fn no_fault(path: &str, found: &Search) -> String {
    let verdict = tried(&found.tally);
    let rest = if found.cut_short {
        "The time was up before the search was done: `--thorough` ends it."
    } else {
        "Other sizes and settings were not tried."
    };
    format!(
        "{}{}{}{}",
        paragraph("", &format!("{path}: {verdict}")),
        paragraph("  ", rest),
        counts(&found.tally),
        loose(&found.tally)
    )
}

/// The number of trays tried without an error, and their sizes.
fn tried(tally: &Tally) -> String {
    let trays = format!("tried {} trays", tally.made);
    match &tally.spans {
        Some(spans) => format!("{trays} over {}: no fault found.", sizes(spans)),
        None => format!("{trays}: no fault found."),
    }
}

/// A style with an error; the job that shows it is printed elsewhere.
pub(super) fn faulty(path: &str, found: &Search, shown: &Shown) -> String {
    let flaw = &shown.flaw;
    let said = format!("{path}: {} [{}]", sentence(&flaw.message), flaw.code);
    let others: Vec<&str> = found
        .tally
        .at_fault
        .keys()
        .map(String::as_str)
        .filter(|code| *code != flaw.code)
        .collect();
    let mut text = paragraph("", &said);
    text.push_str(&counts(&found.tally));
    if !others.is_empty() {
        let more = format!(
            "Others showed, too, and may have the same cause: {}.",
            list(&others)
        );
        text.push_str(&paragraph("  ", &more));
    }
    text
}

/// The files written.
pub(super) fn written(files: &[PathBuf]) -> String {
    let names: Vec<String> = files
        .iter()
        .map(|file| file.display().to_string())
        .collect();
    paragraph("", &format!("Wrote {}.", list(&names)))
}

fn counts(tally: &Tally) -> String {
    let mut said = vec![
        format!("{} jobs drawn", tally.drawn),
        format!("{} trays made", tally.made),
    ];
    let refused: usize = tally.refused.values().sum();
    if refused > 0 {
        let mut by_code: Vec<(&String, &usize)> = tally.refused.iter().collect();
        by_code.sort_by_key(|(code, count)| (usize::MAX - **count, *code));
        let by_code: Vec<String> = by_code
            .into_iter()
            .map(|(code, count)| format!("{code} {count}"))
            .collect();
        said.push(format!(
            "{refused} refused as they should be ({})",
            by_code.join(", ")
        ));
    }
    let at_fault: usize = tally.at_fault.values().sum();
    if at_fault > 0 {
        said.push(format!("{at_fault} at fault"));
    }
    if tally.beyond > 0 {
        said.push(format!("{} beyond the range not made", tally.beyond));
    }
    if tally.left > 0 {
        said.push(format!(
            "{} left out, for they cannot be made yet",
            tally.left
        ));
    }
    paragraph("  ", &format!("{}.", list(&said)))
}

/// The walls that only the box holds, by design.
fn loose(tally: &Tally) -> String {
    let loose: Vec<&str> = tally.never_held().into_iter().collect();
    if loose.is_empty() {
        return String::new();
    }
    let held = format!(
        "In all of them only the box keeps {} upright.",
        list(&loose)
    );
    paragraph("  ", &held)
}

/// Least and greatest size of the boxes, the card and the blanks.
fn sizes(spans: &[[f64; 2]; 6]) -> String {
    let span = |which: usize| {
        let [least, most] = spans[which].map(|figure| length(figure, Unit::Millimetre));
        format!("{} to {most}", least.trim_end_matches(" mm"))
    };
    // A piece for no item goes into no box.
    let boxes = match spans[0][1] > 0.0 {
        true => format!(
            "boxes {} long, {} wide, {} deep; ",
            span(0),
            span(1),
            span(2)
        ),
        false => String::new(),
    };
    format!(
        "{boxes}card of {}, and blanks {} by {}",
        span(3),
        span(4),
        span(5)
    )
}
