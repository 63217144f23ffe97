//! `check` for people: the verdict, what to change, the figures, the order of folds, the choices that were made.
//!
//! Given a checked job, gives a block of text in 80 columns. Lengths are in the maker's unit; a figure that was not
//! reached is left out. Never judges: all that is said comes from the engine's report.

use std::fmt::Write;

use traywright_engine::finding::BuiltIn;
use traywright_engine::wording::length;
use traywright_engine::{Finding, Level, PassedCheck};

use crate::checked_job::CheckedJob;
use crate::report::dimensions;
use crate::report::fixes;
use crate::report::folding::folding;
use crate::report::sentence::{paragraph, sentence};

/// The blocks about all trays, an empty line between two.
pub fn blocks(checked_jobs: &[CheckedJob]) -> String {
    let blocks: Vec<String> = checked_jobs.iter().map(block).collect();
    blocks.join("\n")
}

/// Why a tray was not made.
pub fn refusal(checked_job: &CheckedJob) -> String {
    format!("{}{}\n", verdict(checked_job), changes(checked_job))
}

fn block(checked_job: &CheckedJob) -> String {
    let mut text = verdict(checked_job);
    text.push_str(&changes(checked_job));
    let sections = [
        ("Figures", dimensions::table(checked_job)),
        ("Proved", proofs(checked_job)),
        ("Folding", folding(checked_job)),
        ("Good to know", notes(checked_job)),
    ];
    for (heading, said) in sections {
        if !said.is_empty() {
            let _ = write!(text, "\n{heading}\n{said}");
        }
    }
    if !checked_job.report().findings.is_empty() {
        let more = "`traywright check --explain CODE` says more about a code in brackets.";
        let _ = write!(text, "\n{}", paragraph("", more));
    }
    text
}

/// The verdict in one line, and beneath it the job's file, the style and the card.
pub fn verdict(checked_job: &CheckedJob) -> String {
    let job = &checked_job.job;
    let said = match checked_job.findings(Level::Error).count() {
        _ if checked_job.fits() => "the tray fits.".to_owned(),
        0 | 1 => "the tray does not fit.".to_owned(),
        faults => format!("the tray does not fit, for {faults} reasons."),
    };
    let caliper = length(job.board.caliper.mm(), job.unit);
    let card = match &job.board.name {
        Some(name) => format!("{name}, {caliper}"),
        None => caliper,
    };
    let basis = format!("{}; style {}; card {card}", checked_job.path, job.style);
    paragraph("", &format!("{}: {said}", job.title)) + &paragraph("  ", &basis)
}

/// Errors, then warnings, each with its cure.
pub fn changes(checked_job: &CheckedJob) -> String {
    let mut text = String::new();
    for (level, heading) in [
        (Level::Error, "What to change"),
        (Level::Warning, "What to watch"),
    ] {
        let entry = |found| finding_text(found, checked_job);
        let entries: String = checked_job.findings(level).map(entry).collect();
        if !entries.is_empty() {
            let _ = write!(
                text,
                "\n{heading}
{entries}"
            );
        }
    }
    let fixes = fixes::section(checked_job);
    if !fixes.is_empty() {
        let _ = write!(text, "\nWhat would help, each tried\n{fixes}");
    }
    text
}

/// The checks that the tray has passed.
fn proofs(checked_job: &CheckedJob) -> String {
    let unit = checked_job.job.unit;
    let row = |passed: &PassedCheck| dimensions::row(passed.name(), &passed.message(unit));
    checked_job.report().proofs.iter().map(row).collect()
}

/// What was decided for the maker, as far as the figures do not show it.
fn notes(checked_job: &CheckedJob) -> String {
    // The table of dimensions has the clear size of each opening.
    let in_table =
        |found: &&Finding| matches!(found.built_in(), Some(BuiltIn::ClearOpening { .. }));
    checked_job
        .findings(Level::Note)
        .filter(|found| !in_table(found))
        .map(|found| finding_text(found, checked_job))
        .collect()
}

/// A finding as a list entry. The place of a part leads a sentence that does not name it; neither is written in other
/// letters than the maker's.
fn finding_text(finding: &Finding, checked_job: &CheckedJob) -> String {
    let unit = checked_job.job.unit;
    let message = finding.message(unit);
    let asked = finding.sentence();
    let entry = if asked.starts_with("{place}") {
        message.trim_end_matches('.').to_owned() + "."
    } else if asked.contains("{place}") || !finding.place.leads() {
        sentence(&message)
    } else {
        format!("{}: {}.", finding.place, message.trim_end_matches('.'))
    };
    let mut text = paragraph("  - ", &format!("{entry} [{}]", finding.code()));
    if let Some(fix) = checked_job.advice(finding) {
        text.push_str(&paragraph("    Cure: ", fix.trim_end_matches('.')));
    }
    text
}
