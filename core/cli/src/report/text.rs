//! `check` for people: the verdict, what to change, the figures, the choices that were made.
//!
//! Given a judgement, gives a block of text in 80 columns. Figures are in the maker's unit; a figure that was not
//! reached is left out. Never repeats a finding and never judges.

use std::fmt::Write;

use traywright_engine::job::Unit;
use traywright_engine::{Finding, Level};

use crate::judgement::Judgement;
use crate::report::sentence::{self, figure, length, lengths, paragraph};

/// The whole block about one tray.
pub(crate) fn block(judgement: &Judgement) -> String {
    let mut text = verdict(judgement);
    text.push_str(&changes(judgement));
    let figures = figures(judgement);
    if !figures.is_empty() {
        text.push_str("\nFigures\n");
        text.push_str(&figures);
    }
    let notes: String = judgement.findings(Level::Note).map(told).collect();
    if !notes.is_empty() {
        text.push_str("\nGood to know\n");
        text.push_str(&notes);
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
    let card = match &job.board.name {
        Some(name) => format!("{name}, {}", length(job.board.caliper, job.unit)),
        None => length(job.board.caliper, job.unit),
    };
    let mut text = paragraph("", &format!("{}: {said}", job.title));
    text.push_str(&paragraph(
        "  ",
        &format!("{}; style {}; card {card}", judgement.path, job.style),
    ));
    text
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

fn told(finding: &Finding) -> String {
    let named = finding.message.contains(&finding.place);
    let about = if named {
        String::new()
    } else {
        format!("{}: ", finding.place)
    };
    let said = format!(
        "{about}{} [{}]",
        sentence::sentence(&finding.message),
        finding.code
    );
    let mut text = paragraph("  - ", &said);
    if let Some(cure) = &finding.cure {
        text.push_str(&paragraph("    Cure: ", &sentence::sentence(cure)));
    }
    text
}

/// The figures a maker wants, a line each.
fn figures(judgement: &Judgement) -> String {
    let unit = judgement.job.unit;
    let mut table = Table {
        judgement,
        text: String::new(),
    };
    table.three("Outside, folded", "folded");
    table.three("Room in the box", "box_clearance");
    table.openings();
    table.pair("Deck", "deck_length", "deck_width");
    if let Some(height) = judgement.measure("wall_height") {
        table.line("Side walls", &format!("{} high", length(height, unit)));
    }
    table.pair("Blank", "blank_length", "blank_width");
    table.rest();
    table.text
}

/// Names of figures that have a line of their own.
const SHOWN: [&str; 3] = ["deck_length", "deck_width", "wall_height"];
/// Beginnings of the names of figures that share a line.
const SHARED: [&str; 5] = ["folded_", "box_clearance_", "blank_", "slot_", "clear_"];

struct Table<'a> {
    judgement: &'a Judgement,
    text: String,
}

impl Table<'_> {
    fn unit(&self) -> Unit {
        self.judgement.job.unit
    }

    fn line(&mut self, label: &str, words: &str) {
        self.text
            .push_str(&paragraph(&format!("  {label:<18}"), words));
    }

    fn three(&mut self, label: &str, stem: &str) {
        let find = |direction| self.judgement.measure(&format!("{stem}_{direction}"));
        if let (Some(along), Some(across), Some(up)) =
            (find("length"), find("width"), find("depth"))
        {
            let words = lengths(&[along, across, up], self.unit());
            self.line(label, &words);
        }
    }

    fn pair(&mut self, label: &str, first: &str, second: &str) {
        if let (Some(first), Some(second)) = (
            self.judgement.measure(first),
            self.judgement.measure(second),
        ) {
            let words = lengths(&[first, second], self.unit());
            self.line(label, &words);
        }
    }

    fn openings(&mut self) {
        let unit = self.unit();
        let judgement = self.judgement;
        for item in &judgement.job.items {
            let find = |stem: &str| {
                let along = judgement.measure(&format!("{stem}_length.{}", item.name))?;
                let across = judgement.measure(&format!("{stem}_width.{}", item.name))?;
                Some([along, across])
            };
            let Some(slot) = find("slot") else { continue };
            let mut words = format!("opening {}", lengths(&slot, unit));
            if let Some(clear) = find("clear") {
                let play = [clear[0] - item.length, clear[1] - item.width];
                let _ = write!(
                    words,
                    "; {} stays clear, so it has {} to spare",
                    lengths(&clear, unit),
                    lengths(&play, unit)
                );
            }
            self.line(&item.name, &words);
        }
    }

    /// What a style reports of its own.
    fn rest(&mut self) {
        let unit = self.unit();
        let own: Vec<String> = self
            .judgement
            .report()
            .measures
            .iter()
            .filter(|measure| !SHOWN.contains(&measure.name.as_str()))
            .filter(|measure| !SHARED.iter().any(|stem| measure.name.starts_with(stem)))
            .map(|measure| {
                format!(
                    "{} {}",
                    measure.name.replace(['_', '-'], " "),
                    figure(measure.value, unit)
                )
            })
            .collect();
        if !own.is_empty() {
            self.line(
                &format!("More, in {}", sentence::name(unit)),
                &own.join("; "),
            );
        }
    }
}
