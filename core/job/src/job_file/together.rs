//! Checks across several lines of a job, made when all of them have been read.
//!
//! **Input:** the lines and the filled form. **Errors:** finger notches of an item whose opening is not cut open, and a
//! tray that is too high for its box.

use traywright_engine::SourceError;
use traywright_engine::job::Cut;
use traywright_engine::wording::length;

use super::form::Form;
use super::nodes::{Entry, Nodes};

/// Checks each line against the others.
pub(super) fn check(nodes: &mut Nodes<'_>, form: &Form, faults: &mut Vec<SourceError>) {
    let slot = form.job.slot.cut;
    for node in nodes.named("item") {
        let is_open = match node.entry("cut") {
            Some(cut) => cut.value().as_string() == Some("open"),
            None => slot == Cut::Open,
        };
        if let Some(finger) = node.entry("finger").filter(|_| !is_open) {
            faults.push(without_open_cut(finger, node.entry("cut")));
        }
    }
    let (size, fit) = (&form.job.box_size, &form.job.fit);
    let most = size.depth.mm() - fit.around_tray.mm();
    let height = form
        .job
        .tray_height
        .filter(|height| height.mm() > most + 1e-6);
    let tray = nodes.named("tray").next();
    let entry = tray.and_then(|node| node.entry("height"));
    if let (Some(_), Some(entry), true) = (height, entry, size.depth.mm() > 0.0) {
        let most = length(most.max(0.0), form.job.unit);
        faults.push(SourceError::new(
            entry.place(),
            "the tray is higher than the box leaves room for",
            format!("it is at most {most}: the depth of the box less `fit box`"),
        ));
    }
}

/// Finger notches beside flaps.
pub(super) fn without_open_cut(finger: &Entry<'_>, cut: Option<&Entry<'_>>) -> SourceError {
    let fault = SourceError::new(
        finger.place(),
        "finger notches need an open cut",
        "flaps hang where the notches would be: write cut=\"open\", or leave `finger` out",
    );
    match cut {
        Some(cut) => fault.with_context(cut.place(), "this cut has flaps"),
        None => fault,
    }
}
