//! The short lines of a job: tray, box, fit, slot, draw and set.
//!
//! Given a node, gives its part of the job, with the defaults of core/CONTRACT.md, "Job file", for what is not written.
//! A part that has a fault is left out or keeps its default: the job is refused then all the same.

use traywright_engine::SourceError;
use traywright_engine::finding::SourceSpan;
use traywright_engine::job::{BoxSize, Cut, DrawnFace, Fit, Rounding, Setting, Slot, Unit};

use super::nodes::Node;
use super::values::{self, answer, word};
use super::words::{CUTS, FACES};
use crate::library::LANGUAGES;

/// What the line `tray` says.
pub(super) struct TrayLine {
    pub(super) title: String,
    pub(super) style: String,
    pub(super) style_place: SourceSpan,
}

/// What the line `box` says.
pub(super) struct InBox {
    pub(super) size: BoxSize,
    pub(super) rounding: Rounding,
    pub(super) unit: Unit,
}

/// The title and the style; a tray without a name is called after its file.
pub(super) fn tray(node: &Node<'_>, stem: &str, faults: &mut Vec<SourceError>) -> Option<TrayLine> {
    let style = node.written("style", faults);
    let style_name =
        style.and_then(|entry| word(entry, "the name of a style in double quotes", faults));
    let title = match node.entry("name") {
        Some(_) => node.name("name", faults),
        None => Some(stem),
    };
    Some(TrayLine {
        title: title?.to_owned(),
        style: style_name?.to_owned(),
        style_place: style?.place(),
    })
}

/// The inside of the box.
pub(super) fn in_box(node: &Node<'_>, faults: &mut Vec<SourceError>) -> Option<InBox> {
    let (box_length, box_width, box_depth) = (
        node.length("length", faults),
        node.length("width", faults),
        node.length("depth", faults),
    );
    let (corner, floor_corner) = (
        node.length("corner", faults),
        node.length("floor-corner", faults),
    );
    let (box_length, box_width) = (box_length?, box_width?);
    if box_length < box_width {
        swapped(node, faults);
        return None;
    }
    Some(InBox {
        size: BoxSize {
            length: box_length,
            width: box_width,
            depth: box_depth?,
        },
        rounding: Rounding {
            corner: corner?,
            floor_corner: floor_corner?,
        },
        unit: node.entry("length").map(values::unit)?,
    })
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

/// The clearances.
pub(super) fn fit(node: &Node<'_>, faults: &mut Vec<SourceError>) -> Option<Fit> {
    let (around_tray, around_item, play) = (
        node.length("box", faults),
        node.length("item", faults),
        node.length("play", faults),
    );
    Some(Fit {
        around_tray: around_tray?,
        around_item: around_item?,
        play: play?,
    })
}

/// How openings are cut.
pub(super) fn slot(node: &Node<'_>, faults: &mut Vec<SourceError>) -> Slot {
    let cut = node.choice("cut", &CUTS, faults);
    let finger = node.length("finger", faults);
    if let (Some(entry), Some(Cut::Cross | Cut::Doors)) = (node.entry("finger"), cut) {
        let mut fault = SourceError::new(
            entry.place(),
            "finger notches need an open cut",
            "flaps hang where the notches would be: write cut=\"open\", or leave `finger` out",
        );
        if let Some(cut_entry) = node.entry("cut") {
            fault = fault.with_context(cut_entry.place(), "this cut has flaps");
        }
        faults.push(fault);
    }
    Slot {
        cut: cut.unwrap_or_default(),
        finger,
        place: node.is_written.then(|| node.place.clone()),
    }
}

/// The face that carries the lines.
pub(super) fn drawn_face(node: &Node<'_>, faults: &mut Vec<SourceError>) -> DrawnFace {
    node.choice("face", &FACES, faults).unwrap_or_default()
}

/// The language of the words on paper; English where the job does not say.
pub(super) fn language(node: &Node<'_>, faults: &mut Vec<SourceError>) -> String {
    let known: Vec<(&str, &str)> = LANGUAGES.iter().map(|&code| (code, code)).collect();
    let named = node.choice("language", &known, faults);
    named.unwrap_or("en").to_owned()
}

/// The settings that the job sets.
pub(super) fn settings<'a, 'k: 'a>(
    nodes: impl Iterator<Item = &'a Node<'k>>,
    faults: &mut Vec<SourceError>,
) -> Vec<Setting> {
    let mut settings: Vec<Setting> = Vec::new();
    for node in nodes {
        if node.properties().is_empty() {
            node.lacks("name", "what it sets, as in set \"tab-max\"=(mm)40", faults);
        }
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
    settings
}
