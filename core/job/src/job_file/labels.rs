//! The lines `label`: their turns, and their places in the text for errors that are found later.

use std::mem;

use kdl::KdlValue;
use traywright_engine::SourceError;
use traywright_engine::finding::SourceSpan;
use traywright_engine::job::Turn;

use super::form::Form;
use super::nodes::{Entry, Node};

/// Maximum number of labels of one tray.
// Source: a choice of this project, stated in core/CONTRACT.md, "Job file".
const MOST_LABELS: usize = 64;

/// Adds the label of a line to the job.
pub(super) fn finish(node: &Node<'_>, form: &mut Form, faults: &mut Vec<SourceError>) {
    let mut label = mem::replace(&mut form.label, Form::blank_label());
    if !node.unread.is_empty() {
        return;
    }
    let place = |name: &str| -> Option<SourceSpan> { Some(node.entry(name)?.place()) };
    let own = || node.place.clone();
    label.place = place("text").unwrap_or_else(own);
    label.panel_place = place("on").unwrap_or_else(own);
    label.size_place = place("size");
    let labels = &mut form.job.labels;
    labels.push(label);
    if labels.len() == MOST_LABELS + 1 {
        faults.push(SourceError::new(
            own(),
            format!(
                "this is label number {}; a tray has at most {MOST_LABELS} labels",
                labels.len()
            ),
            "take some of them away",
        ));
    }
}

/// A turn by quarters: (deg)0, (deg)90, (deg)180 or (deg)270.
pub(super) fn quarters(entry: &Entry<'_>, faults: &mut Vec<SourceError>) -> Option<Turn> {
    let degrees = match (entry.value(), entry.unit()) {
        (KdlValue::Integer(number), Some("deg")) => Some(*number),
        _ => None,
    };
    let mut turns = Turn::ALL.into_iter();
    let found = turns.find(|turn| degrees == Some(90 * turn.quarters() as i128));
    if found.is_none() {
        let title = format!("`{}` is {}", entry.name, entry.written_value());
        let label = "write (deg)90, (deg)180 or (deg)270, counter-clockwise; without it the words stand upright";
        faults.push(SourceError::new(entry.place(), title, label));
    }
    found
}
