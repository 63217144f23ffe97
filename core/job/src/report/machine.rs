//! What a maker must know before a machine creases and cuts the blank.
//!
//! **Input:** a checked job whose tray fits. **Output:** the size of the blank, and a sentence about the creases that are
//! to be made from the face that the machine does not see. **Does not** change a line.

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
    if checked_job.job.tool.by != ToolKind::Machine {
        return String::new();
    }
    let document = tray.unrounded().document();
    let creases = match is_perforated {
        true => None,
        false => creases_on_the_far_face(&document),
    };
    let told = std::iter::once(blank(&document)).chain(creases);
    told.map(|words| paragraph("", &format!("{}: {words}", checked_job.path)))
        .collect()
}

/// What has to go onto the machine.
fn blank(document: &Document) -> String {
    let unit = document.unit;
    let sides = document.flat.extent.size().map(|side| unit.figure(side));
    format!("the blank is {} {}.", sides.join(" × "), unit.sign())
}

/// That creases are to be made on the face that the machine does not see: most of them, by length, or some.
fn creases_on_the_far_face(document: &Document) -> Option<String> {
    let (far_step, far_group) = match document.board.is_crushed() {
        true => (ProcessingStep::ReverseCreasing, "reverse-creasing"),
        false => (ProcessingStep::Creasing, "creasing"),
    };
    let (mut far, mut all, mut far_length, mut all_length) = (0, 0, 0.0, 0.0);
    for crease in &document.flat.creases {
        let along = (crease.to - crease.from).length();
        (all, all_length) = (all + 1, all_length + along);
        if crease.step() == far_step {
            (far, far_length) = (far + 1, far_length + along);
        }
    }
    let (now, other) = match document.output.drawn_face {
        DrawnFace::Inside => ("inside", "outside"),
        DrawnFace::Outside => ("outside", "inside"),
    };
    let unit = document.unit;
    let are_most = 2.0 * far_length > all_length;
    let (far_length, all_length) = (length(far_length, unit), length(all_length, unit));
    if !are_most {
        return (far > 0).then(|| {
            format!(
                "{far} of {all} creases ({far_length} of {all_length}) belong on the other face, and a machine creases the face that it sees. They are the lines of \"{far_group}\": leave these out on the machine and make them by hand, or turn the card over for them."
            )
        });
    }
    Some(format!(
        "the lines are on the face \"{now}\", but {far} of {all} creases ({far_length} of {all_length}) belong on the other face, and a machine creases the face that it sees. Write draw face=\"{other}\" into the job."
    ))
}
