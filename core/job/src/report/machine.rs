//! What a maker must know before a machine creases and cuts the blank.
//!
//! **Input:** a checked job whose tray fits. **Output:** a sentence about the face from which most creases are to be
//! made. **Does not** change a line.

use traywright_document::{Document, DrawnFace, ProcessingStep, ToolKind};
use traywright_engine::wording::length;

use super::sentence::paragraph;
use crate::checked_job::CheckedJob;

/// The sentences for a job that a machine makes, or nothing.
pub fn notes(checked_job: &CheckedJob) -> String {
    let Ok(tray) = &checked_job.tray else {
        return String::new();
    };
    // A row of cuts goes through the card, so it is made from either face.
    let is_perforated = checked_job.job.output.machine.perforation.is_some();
    if checked_job.job.tool.by != ToolKind::Machine || is_perforated {
        return String::new();
    }
    let document = tray.unrounded().document();
    let said = creases_on_the_far_face(&document);
    said.map(|words| paragraph("", &format!("{}: {words}", checked_job.path)))
        .unwrap_or_default()
}

/// That more than half of the length of all creases is to be made on the face that the machine does not see.
fn creases_on_the_far_face(document: &Document) -> Option<String> {
    let is_far = |step: ProcessingStep| match document.board.is_crushed() {
        true => step == ProcessingStep::ReverseCreasing,
        false => step == ProcessingStep::Creasing,
    };
    let (mut far, mut all, mut far_length, mut all_length) = (0, 0, 0.0, 0.0);
    for crease in &document.flat.creases {
        let along = (crease.to - crease.from).length();
        (all, all_length) = (all + 1, all_length + along);
        if is_far(crease.step()) {
            (far, far_length) = (far + 1, far_length + along);
        }
    }
    let (now, other) = match document.output.drawn_face {
        DrawnFace::Inside => ("inside", "outside"),
        DrawnFace::Outside => ("outside", "inside"),
    };
    (2.0 * far_length > all_length).then(|| {
        let unit = document.unit;
        let (far_length, all_length) = (length(far_length, unit), length(all_length, unit));
        format!(
            "the lines are on the face \"{now}\", but {far} of {all} creases ({far_length} of {all_length}) belong on the other face, and a machine creases the face that it sees. Write draw face=\"{other}\" into the job."
        )
    })
}
