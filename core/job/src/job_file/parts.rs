//! Checks of the lines box, slot, draw and set beyond single values.
//!
//! **Input:** a line whose values are in the form, and the keys that could not be read. **Output:** consequences, in
//! the form. **Errors:** values that contradict each other.

use traywright_engine::SourceError;
use traywright_engine::job::{Cut, Paper, Setting};

use super::form::Form;
use super::nodes::Node;
use super::pages;
use super::together::without_open_cut;
use super::values::{self, answer};

/// The unit of the box is that of the job, and decides the default paper.
pub(super) fn finish_box(node: &Node<'_>, form: &mut Form, faults: &mut Vec<SourceError>) {
    let job = &mut form.job;
    let are_known = node.has_read("length") && node.has_read("width");
    if are_known && job.box_size.length < job.box_size.width {
        swapped(node, faults);
    } else if let Some(length) = node.entry("length").filter(|_| node.unread.is_empty()) {
        job.unit = values::unit(length);
        job.output.paper = Paper::Sheets(pages::usual_page(job.unit));
    }
}

// Source: common practice of measuring guides: the length of a box is the longer side of its opening.
fn swapped(node: &Node<'_>, faults: &mut Vec<SourceError>) {
    let (Some(length), Some(width)) = (node.entry("length"), node.entry("width")) else {
        return;
    };
    let fault = SourceError::new(
        length.place(),
        "the box is wider than long",
        format!(
            "the length is the longer side: swap the two, length={} width={}",
            width.written_value(),
            length.written_value()
        ),
    );
    faults.push(fault.with_context(width.place(), "this is the longer one"));
}

/// Finger notches need an opening without flaps.
pub(super) fn finish_slot(node: &Node<'_>, form: &mut Form, faults: &mut Vec<SourceError>) {
    let slot = &mut form.job.slot;
    slot.place = Some(node.place.clone());
    let Some(entry) = node.entry("finger") else {
        return;
    };
    if slot.cut == Cut::Open || !node.has_read("cut") {
        return;
    }
    faults.push(without_open_cut(entry, node.entry("cut")));
}

/// The line has a key.
pub(super) fn finish_draw(node: &Node<'_>, _form: &mut Form, faults: &mut Vec<SourceError>) {
    if node.properties().is_empty() {
        let example = "face=\"inside\" or face=\"outside\"; letters=#false leaves the letters of the parts out";
        node.lacks("face", example, faults);
    }
}

/// A line without lengths gives the default perforation.
pub(super) fn finish_perforate(node: &Node<'_>, form: &mut Form, _: &mut Vec<SourceError>) {
    if node.unread.is_empty() {
        form.job.output.machine.perforation.get_or_insert_default();
    }
}

/// The settings of the style, whose names are not in the table of keys.
pub(super) fn finish_set(node: &Node<'_>, form: &mut Form, faults: &mut Vec<SourceError>) {
    if node.properties().is_empty() {
        node.lacks("name", "what it sets, as in set \"tab-max\"=(mm)40", faults);
    }
    let settings = &mut form.job.settings;
    for entry in node.properties() {
        let place = entry.place();
        if let Some(first) = settings.iter().find(|setting| setting.name == entry.name) {
            let fault = SourceError::new(
                place,
                format!("`{}` is set twice", entry.name),
                "take one of the two away",
            );
            faults.push(fault.with_context(first.place.clone(), "the first stands here"));
        } else if let Some(answer) = answer(entry, faults) {
            let name = entry.name.to_owned();
            settings.push(Setting {
                name,
                answer,
                place,
            });
        }
    }
}
