//! What `lint` says of a search.
//!
//! Given what was found, gives paragraphs: the verdict, how many jobs came to what, and over which sizes.

use std::path::PathBuf;

use traywright_engine::job::Unit;
use traywright_engine::lint::Tally;
use traywright_engine::wording::{length, list};
use traywright_job::report::sentence::{paragraph, sentence};

use super::search::{Search, Shown};

/// A style in which no fault was found.
pub(super) fn sound(path: &str, found: &Search) -> String {
    let verdict = if found.cut_short {
        "no fault found, but the time was up before the search was done: `--thorough` ends it."
    } else {
        "sound."
    };
    format!(
        "{}{}{}",
        paragraph("", &format!("{path}: {verdict}")),
        counts(&found.tally),
        made(&found.tally)
    )
}

/// A style in which a fault was found; the job that shows it is told elsewhere.
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

/// What was written.
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

/// Over which sizes trays were made, and which walls the box holds by design.
fn made(tally: &Tally) -> String {
    let mut text = String::new();
    if let Some(spans) = &tally.spans {
        text.push_str(&paragraph("  ", &sizes(spans)));
    }
    let loose: Vec<&str> = tally.never_held().into_iter().collect();
    if !loose.is_empty() {
        let held = format!(
            "Nothing but the box keeps {} from turning out.",
            list(&loose)
        );
        text.push_str(&paragraph("  ", &held));
    }
    text
}

fn sizes(spans: &[[f64; 2]; 6]) -> String {
    let span = |which: usize| {
        let [least, most] = spans[which].map(|figure| length(figure, Unit::Millimetre));
        format!("{} to {most}", least.trim_end_matches(" mm"))
    };
    // What takes no item goes into no box.
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
        "Trays made: {boxes}card of {}; blanks {} by {}.",
        span(3),
        span(4),
        span(5)
    )
}
