//! The lines `print`: their places in the text, for errors that are found later.

use std::mem;

use traywright_engine::SourceError;

use super::form::Form;
use super::nodes::Node;

/// Maximum number of pictures of one tray.
// Source: a choice of this project, stated in core/CONTRACT.md, "Job file".
const MOST_PICTURES: usize = 8;

/// Adds the picture of a line to the job.
pub(super) fn finish(node: &Node<'_>, form: &mut Form, faults: &mut Vec<SourceError>) {
    let mut print = mem::replace(&mut form.print, Form::blank_print());
    if !node.unread.is_empty() {
        return;
    }
    let place = |name: &str| {
        let entry = node.entry(name);
        entry.map_or(node.place.clone(), |entry| entry.place())
    };
    (print.place, print.panel_place) = (place("image"), place("on"));
    let prints = &mut form.job.prints;
    prints.push(print);
    if prints.len() == MOST_PICTURES + 1 {
        faults.push(SourceError::new(
            node.place.clone(),
            format!(
                "this is picture number {}; a tray has at most {MOST_PICTURES} pictures",
                prints.len()
            ),
            "take some of them away",
        ));
    }
}
