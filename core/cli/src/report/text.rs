//! `check` for people: the verdict, what to change, the figures, the order of folds, the choices that were made.
//!
//! Given a judgement, gives a block of text in 80 columns. Lengths are in the maker's unit; a figure that was not
//! reached is left out. Never judges: all that is said comes from the engine's report.

use std::fmt::Write;

use traywright_engine::wording::length;
use traywright_engine::{Finding, Level, Proof};

use crate::judgement::Judgement;
use crate::report::figures::{self, IN_FIGURES};
use crate::report::folding::folding;
use crate::report::sentence::{paragraph, sentence};

/// The blocks about all trays, an empty line between two.
pub(crate) fn blocks(judgements: &[Judgement]) -> String {
    let blocks: Vec<String> = judgements.iter().map(block).collect();
    blocks.join("\n")
}

/// Why a tray was not made.
pub(crate) fn refusal(judgement: &Judgement) -> String {
    format!("{}{}\n", verdict(judgement), changes(judgement))
}

fn block(judgement: &Judgement) -> String {
    let mut text = verdict(judgement);
    text.push_str(&changes(judgement));
    let sections = [
        ("Figures", figures::table(judgement)),
        ("Proved", proofs(judgement)),
        ("Folding", folding(judgement)),
        ("Good to know", notes(judgement)),
    ];
    for (heading, said) in sections {
        if !said.is_empty() {
            let _ = write!(text, "\n{heading}\n{said}");
        }
    }
    if !judgement.report().findings.is_empty() {
        let more = "`traywright check --explain CODE` says more about a code in brackets.";
        let _ = write!(text, "\n{}", paragraph("", more));
    }
    text
}

/// The verdict in one line, and beneath it the job's file, the style and the card.
pub(crate) fn verdict(judgement: &Judgement) -> String {
    let job = &judgement.job;
    let said = match judgement.findings(Level::Error).count() {
        _ if judgement.fits() => "the tray fits.".to_owned(),
        0 | 1 => "the tray does not fit.".to_owned(),
        faults => format!("the tray does not fit, for {faults} reasons."),
    };
    let caliper = length(job.board.caliper, job.unit);
    let card = match &job.board.name {
        Some(name) => format!("{name}, {caliper}"),
        None => caliper,
    };
    let basis = format!("{}; style {}; card {card}", judgement.path, job.style);
    paragraph("", &format!("{}: {said}", job.title)) + &paragraph("  ", &basis)
}

/// Errors, then warnings, each with its cure.
pub(crate) fn changes(judgement: &Judgement) -> String {
    let mut text = String::new();
    for (level, heading) in [
        (Level::Error, "What to change"),
        (Level::Warning, "What to watch"),
    ] {
        let told: String = judgement.findings(level).map(told).collect();
        if !told.is_empty() {
            let _ = write!(text, "\n{heading}\n{told}");
        }
    }
    text
}

/// The verdict of each proof.
fn proofs(judgement: &Judgement) -> String {
    let told = |proof: &Proof| figures::row(&proof.name, &proof.says);
    judgement.report().proofs.iter().map(told).collect()
}

/// What was decided for the maker, as far as the figures do not show it.
fn notes(judgement: &Judgement) -> String {
    let shown = |finding: &&Finding| !IN_FIGURES.contains(&finding.code.as_str());
    judgement
        .findings(Level::Note)
        .filter(shown)
        .map(told)
        .collect()
}

/// A finding that does not name its place is led by it; neither is written in other letters than the maker's.
fn told(finding: &Finding) -> String {
    let Finding {
        code,
        place,
        message,
        cure,
        ..
    } = finding;
    let said = if message.starts_with(place.as_str()) {
        message.trim_end_matches('.').to_owned() + "."
    } else if message.contains(place.as_str()) {
        sentence(message)
    } else {
        format!("{place}: {}.", message.trim_end_matches('.'))
    };
    let mut text = paragraph("  - ", &format!("{said} [{code}]"));
    if let Some(cure) = cure {
        text.push_str(&paragraph("    Cure: ", cure.trim_end_matches('.')));
    }
    text
}
