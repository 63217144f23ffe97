//! Whether blanks may share a sheet.
//!
//! A sheet is of one card, and its files say one thing about face, tool and machine. **Errors:** the first job and the one
//! that differs from it, with what differs.

use traywright_document::{BoardKind, Document, DrawnFace, Unit};

use super::NestedTray;
use crate::error::CliError;

/// Checks that all trays may share a sheet.
pub(super) fn check(trays: &[NestedTray]) -> Result<(), Vec<CliError>> {
    let Some((first, others)) = trays.split_first() else {
        return Ok(());
    };
    let differ = |other: &NestedTray| {
        let [one, two] = [&first.document, &other.document];
        let words = [card, face, machine].into_iter().find_map(|say| {
            let words = [say(one), say(two)];
            (words[0] != words[1]).then_some(words)
        });
        let [one, two] = words?;
        Some(CliError::sentence(format_args!(
            "{} and {} cannot share a sheet: {} is {one}, {} is {two}; nest them in two calls",
            first.name, other.name, first.name, other.name
        )))
    };
    let errors: Vec<CliError> = others.iter().filter_map(differ).collect();
    if errors.is_empty() {
        Ok(())
    } else {
        Err(errors)
    }
}

fn card(document: &Document) -> String {
    let board = &document.board;
    let kind = match board.kind {
        BoardKind::Carton => "carton",
        BoardKind::Solid => "solid board",
        BoardKind::Corrugated => "corrugated board",
    };
    let name = board.name.as_ref().map(|name| format!(" ({name})"));
    let caliper = Unit::Millimetre.figure(board.caliper);
    format!("of {kind} of {caliper} mm{}", name.unwrap_or_default())
}

fn face(document: &Document) -> String {
    match document.output.drawn_face {
        DrawnFace::Inside => "drawn on the inside face".to_owned(),
        DrawnFace::Outside => "drawn on the outside face".to_owned(),
    }
}

fn machine(document: &Document) -> String {
    let machine = &document.output.machine;
    let figure = |length: f64| Unit::Millimetre.figure(length);
    let nicks = machine.nicks.map_or("without nicks".to_owned(), |nicks| {
        let [length, every] = [nicks.length, nicks.every].map(|length| figure(length.mm()));
        format!("with nicks of {length} mm every {every} mm")
    });
    let creases = machine.perforation.map_or(String::new(), |perforation| {
        let [cut, gap] = [perforation.cut, perforation.gap].map(|length| figure(length.mm()));
        format!(", its creases perforated with cuts of {cut} mm and gaps of {gap} mm")
    });
    format!(
        "with a kerf of {} mm, {nicks}{creases}",
        figure(machine.kerf.mm())
    )
}
