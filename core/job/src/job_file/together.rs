//! Checks across several lines of a job, made when all of them have been read.
//!
//! **Input:** the lines and the filled form. **Errors:** finger notches of an item whose opening is not cut open, a
//! tray that is too high for its box, and a perforation that is finer than the tool.

use traywright_engine::SourceError;
use traywright_engine::job::{Cut, Length};
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
    faults.extend(perforation(nodes, form));
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

/// Cuts and gaps of a perforation that the tool cannot follow, and gaps that the kerf takes whole.
fn perforation(nodes: &Nodes<'_>, form: &Form) -> Option<SourceError> {
    let machine = &form.job.output.machine;
    let (unit, perforation) = (form.job.unit, machine.perforation?);
    let node = nodes.named("perforate").next()?;
    let smallest = machine.smallest.map_or(0.0, Length::mm);
    let place = |key| {
        node.entry(key)
            .map_or(node.place.clone(), |entry| entry.place())
    };
    for (key, is) in [("cut", perforation.cut.mm()), ("gap", perforation.gap.mm())] {
        if is < smallest {
            return Some(SourceError::new(
                place(key),
                format!(
                    "`{key}` is {}, shorter than your tool follows",
                    length(is, unit)
                ),
                format!(
                    "at least {}, the `smallest` of `tool`",
                    length(smallest, unit)
                ),
            ));
        }
    }
    let (gap, kerf) = (perforation.gap.mm(), machine.kerf.mm());
    (gap <= kerf).then(|| {
        SourceError::new(
            place("gap"),
            format!("the kerf leaves nothing of a gap of {}", length(gap, unit)),
            format!("more than {}, the `width` of `kerf`", length(kerf, unit)),
        )
    })
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
