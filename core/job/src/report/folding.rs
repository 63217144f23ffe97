//! The folding order as a list for the hands.
//!
//! **Input:** a document. **Output:** the steps of its tray with their numbers in the booklet: steps that are alike
//! count as one. A reason is printed once, below the steps that share it.

use traywright_document::steps::alike;
use traywright_document::{Action, Document, DrawnFace, Step};

use crate::report::sentence::paragraph;

/// The whole list.
pub(crate) fn folding(document: &Document) -> String {
    let mut text = paragraph("  ", lies(document.output.drawn_face));
    let mut number = 1;
    for group in document.steps.chunk_by(|one, next| one.why == next.why) {
        for alike in alike(group) {
            let first = format!("  {:<6} ", format!("{number}."));
            text.push_str(&paragraph(&first, &words(document, alike)));
            number += 1;
        }
        if let [Step { why, .. }, ..] = group
            && !why.is_empty()
        {
            text.push_str(&paragraph("         Why: ", why));
        }
    }
    text + &paragraph("  ", &springs(document))
}

/// The caution that walls spring back, and until which step.
// Source: common practice, none published: a crease made by hand opens by some 10 to 30 degrees.
fn springs(document: &Document) -> String {
    let stands = alike(&document.steps).position(|run| run.iter().any(|step| step.stands));
    let normal = "A wall may open again when you let go of it. That is normal";
    match stands {
        Some(at) => {
            let number = at + 1;
            format!("{normal}: from step {number} on, other panels hold all walls.")
        }
        None => format!("{normal}: the box holds it."),
    }
}

/// How the blank lies at the start, and how the names of panels relate to the drawing.
fn lies(drawn: DrawnFace) -> &'static str {
    match drawn {
        DrawnFace::Inside => {
            "Lay the blank with the drawn face up. In the drawing north is above, south below, west left and east right."
        }
        DrawnFace::Outside => {
            "Lay the blank with the drawn face down. In the drawing north is above, south below, west right and east left."
        }
    }
}

/// The words of steps that are alike, with the names of their panels.
fn words(document: &Document, steps: &[Step]) -> String {
    let mut names = Vec::new();
    for step in steps {
        if let Action::Fold(moves) = &step.action {
            names.extend(
                moves
                    .iter()
                    .map(|turn| document.panels[turn.panel].name.as_str()),
            );
        }
    }
    let said = steps.first().map_or("", |step| step.words.as_str());
    let tongues = match steps.first().map_or(0, |step| step.tongues) {
        0 => "",
        1 => " Bend or tip it a little, so that its tongue snaps into its slit.",
        _ => " Bend or tip it a little, so that its tongues snap into their slits.",
    };
    if names.is_empty() {
        said.to_owned()
    } else {
        format!("{said}{tongues} ({})", names.join(", "))
    }
}
