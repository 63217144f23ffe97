//! `check` for people: the verdict, errors, warnings and fixes, and the main lines; or everything.
//!
//! **Input:** a checked job. **Output:** a block of text in 80 columns. Lengths are in the maker's unit; a measure that
//! was not computed is left out. **Does not** check: all content comes from the engine's report.

use std::fmt::Write;

use traywright_document::Document;
use traywright_engine::finding::BuiltIn;
use traywright_engine::{Finding, Level, PassedCheck};

use crate::checked_job::{CheckedJob, TrayVerdict};
use crate::report::folding::folding;
use crate::report::sentence::{paragraph, sentence};
use crate::report::{card, cutaway, dimensions, fixes, labels};

/// The amount of detail of a report.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Detail {
    /// The main points.
    Short,
    /// All dimensions, checks, folds and notes.
    All,
}

/// The blocks of all trays, separated by an empty line. For a single tray in full it shows each item's cross-section.
pub fn blocks(checked_jobs: &[CheckedJob], detail: Detail) -> String {
    let is_alone = checked_jobs.len() == 1;
    let one = |checked_job| one(checked_job, detail, is_alone);
    let blocks: Vec<String> = checked_jobs.iter().map(one).collect();
    blocks.join("\n")
}

/// The block of one tray; in full it shows each item's cross-section if the tray `is_alone`.
pub fn one(checked_job: &CheckedJob, detail: Detail, is_alone: bool) -> String {
    match detail {
        Detail::Short => short(checked_job),
        Detail::All => block(checked_job, is_alone),
    }
}

/// The reasons why a tray was not made.
pub fn refusal(checked_job: &CheckedJob) -> String {
    format!("{}{}\n", verdict(checked_job), changes(checked_job))
}

fn short(checked_job: &CheckedJob) -> String {
    let mut text = verdict(checked_job);
    text.push_str(&changes(checked_job));
    text.push_str(&labels::notes(checked_job));
    let mut rows = dimensions::short(checked_job);
    rows.push_str(&checks_in_short(checked_job));
    if !rows.is_empty() {
        let _ = write!(text, "\n{rows}");
    }
    let path = match checked_job.path.contains(char::is_whitespace) {
        true => format!("'{}'", checked_job.path),
        false => checked_job.path.clone(),
    };
    let more = format!("All dimensions, checks, folds and notes: `traywright check {path} --all`.");
    let _ = write!(text, "\n{}", paragraph("", &more));
    text
}

/// What has been checked, and what the checks ignore; empty for a refused tray.
fn checks_in_short(checked_job: &CheckedJob) -> String {
    let mut names: Vec<&str> = checked_job
        .report()
        .proofs
        .iter()
        .map(PassedCheck::subject)
        .collect();
    names.dedup();
    match names.is_empty() {
        true => String::new(),
        false => dimensions::row(
            "Checked",
            &format!("by calculation: {}. {LEFT_OUT}", names.join(", ")),
        ),
    }
}

fn block(checked_job: &CheckedJob, is_alone: bool) -> String {
    let mut text = verdict(checked_job);
    text.push_str(&changes(checked_job));
    text.push_str(&labels::notes(checked_job));
    let tray = checked_job.tray.as_ref().ok();
    let document = tray.map(|tray| tray.unrounded().document());
    let of_document =
        |words: fn(&Document) -> String| document.as_ref().map_or_else(String::new, words);
    let cutaway = if is_alone {
        of_document(cutaway::figures)
    } else {
        String::new()
    };
    let sections = [
        ("Dimensions", dimensions::table(checked_job)),
        ("Checked by calculation", proofs(checked_job)),
        ("Cross-section along the box, heights not to scale", cutaway),
        ("Folding order", of_document(folding)),
        ("Notes", notes(checked_job)),
    ];
    for (heading, said) in sections {
        if !said.is_empty() {
            let _ = write!(text, "\n{heading}\n{said}");
        }
    }
    if !checked_job.report().findings.is_empty() {
        let more = "For details of a code in brackets: `traywright check --explain CODE`.";
        let _ = write!(text, "\n{}", paragraph("", more));
    }
    text
}

/// The verdict in one line, and below it the job's file, the style, and the card with its creases.
pub fn verdict(checked_job: &CheckedJob) -> String {
    let job = &checked_job.job;
    let said = match checked_job.verdict() {
        TrayVerdict::Fits if !job.has_box() => "folds.".to_owned(),
        TrayVerdict::Fits => "fits.".to_owned(),
        TrayVerdict::Watch(warnings) => {
            let points = checked_job.report().watch_points().join("; ");
            let fits = if job.has_box() { "fits" } else { "folds" };
            format!(
                "{fits}, but check {}: {points}.",
                counted(warnings, "point")
            )
        }
        TrayVerdict::DoesNotFit => {
            let says = match job.has_box() {
                true => "does not fit",
                false => "cannot be made",
            };
            let listed = grouped(checked_job, Level::Error).len();
            format!("{says}: {}.", counted(listed, "error"))
        }
    };
    let card = card::words(&job.board, job.unit);
    let basis = format!("{}; style {}; card {card}", checked_job.path, job.style);
    paragraph("", &format!("{}: {said}", job.title)) + &paragraph("  ", &basis)
}

fn counted(number: usize, what: &str) -> String {
    match number {
        1 => format!("1 {what}"),
        _ => format!("{number} {what}s"),
    }
}

/// Errors, then warnings, then the fixes that were tried.
pub fn changes(checked_job: &CheckedJob) -> String {
    let mut text = findings(checked_job);
    let fixes = fixes::section(checked_job);
    if !fixes.is_empty() {
        let _ = write!(text, "\nFixes, each tried\n{fixes}");
    }
    text
}

/// The findings of one level as they are listed: those that differ only in their place are one.
fn grouped(checked_job: &CheckedJob, level: Level) -> Vec<Vec<&Finding>> {
    let found: Vec<&Finding> = checked_job.findings(level).collect();
    found
        .chunk_by(|one, other| one.differs_only_in_place(other))
        .map(<[&Finding]>::to_vec)
        .collect()
}

/// Errors, then warnings, each with its fix.
pub fn findings(checked_job: &CheckedJob) -> String {
    let mut text = String::new();
    for (level, heading) in [(Level::Error, "Errors"), (Level::Warning, "Warnings")] {
        let entries: String = grouped(checked_job, level)
            .iter()
            .map(|group| finding_text(group, checked_job))
            .collect();
        if !entries.is_empty() {
            let _ = write!(
                text,
                "\n{heading}
{entries}"
            );
        }
    }
    text
}

/// The checks that the tray has passed: a line for each wall, tongue and item, with the check's name before the first.
fn proofs(checked_job: &CheckedJob) -> String {
    let unit = checked_job.job.unit;
    let rows = |passed: &PassedCheck| -> String {
        let labels = std::iter::once(passed.name()).chain(std::iter::repeat(""));
        let parts = labels.zip(passed.parts(unit));
        parts
            .map(|(label, part)| dimensions::row(label, &part))
            .collect()
    };
    let rows: String = checked_job.report().proofs.iter().map(rows).collect();
    match rows.is_empty() {
        true => rows,
        false => rows + &paragraph("  ", LEFT_OUT),
    }
}

/// The effects that no check covers.
const LEFT_OUT: &str = "Friction, card that springs back, wear and a careless crease are left out.";

/// The choices made for the maker, unless the dimensions show them.
fn notes(checked_job: &CheckedJob) -> String {
    // The table of dimensions has the clear size of each opening.
    let in_table =
        |found: &&Finding| matches!(found.built_in(), Some(BuiltIn::ClearOpening { .. }));
    checked_job
        .findings(Level::Note)
        .filter(|found| !in_table(found))
        .map(|found| finding_text(&[found], checked_job))
        .collect()
}

/// Findings that differ only in their place as a list entry: the first in full, then the other places. If its sentence
/// does not name the part, the part's name comes first; the maker's names keep their case.
fn finding_text(alike: &[&Finding], checked_job: &CheckedJob) -> String {
    let finding = alike[0];
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
    let others = same_for(&alike[1..]);
    let mut text = paragraph("  - ", &format!("{entry}{others} [{}]", finding.code()));
    if let Some(fix) = checked_job.advice(finding) {
        text.push_str(&paragraph("    Fix: ", fix.trim_end_matches('.')));
    }
    text
}

/// A sentence about the other places of a finding; empty if there are none.
fn same_for(others: &[&Finding]) -> String {
    match others {
        [] => String::new(),
        [one] => format!(" The same holds for {}.", one.place),
        [first, .., last] => {
            let (first, last, count) = (&first.place, &last.place, others.len());
            format!(" The same holds for {count} more, {first} to {last}.")
        }
    }
}
