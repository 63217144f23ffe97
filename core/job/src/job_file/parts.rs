//! The short lines of a job: tray, box, fit, slot, draw and set.
//!
//! Given a node, gives its part of the job, with the contract's defaults for what is not written. A part that has a
//! fault is left out or keeps its default: the job is refused then all the same.

use traywright_engine::SourceError;
use traywright_engine::job::{
    BoxSize, Cut, DrawnFace, Fit, Rounding, Setting, Slot, SourceSpan, Unit,
};

use super::nodes::Node;
use super::values::{self, FROM_ZERO, SIZE, answer, choice, length, name, word};
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
pub(super) fn tray(
    node: Option<&Node<'_>>,
    stem: &str,
    faults: &mut Vec<SourceError>,
) -> Option<TrayLine> {
    let node = node?;
    let style = node.required(
        "style",
        "style=\"NAME\"; `traywright styles` lists the names",
        faults,
    );
    let style_name =
        style.and_then(|entry| word(entry, "the name of a style in double quotes", faults));
    let title = match node.property("name") {
        Some(entry) => name(entry, faults),
        None => Some(stem),
    };
    Some(TrayLine {
        title: title?.to_owned(),
        style: style_name?.to_owned(),
        style_place: style?.place(),
    })
}

/// The inside of the box.
pub(super) fn in_box(node: Option<&Node<'_>>, faults: &mut Vec<SourceError>) -> Option<InBox> {
    let node = node?;
    let mut measure = |name: &str| {
        let example = format!("{name}=(mm)… or {name}=(in)…, measured inside the box");
        let entry = node.required(name, &example, faults)?;
        length(entry, SIZE, faults)
    };
    let (box_length, box_width, box_depth) =
        (measure("length"), measure("width"), measure("depth"));
    let mut radius = |name: &str| match node.property(name) {
        Some(entry) => length(entry, FROM_ZERO, faults),
        None => Some(0.0),
    };
    let (corner, floor_corner) = (radius("corner"), radius("floor-corner"));
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
        unit: node.property("length").map(values::unit)?,
    })
}

// Source: common practice of measuring guides: the length of a box is the longer side of its opening.
fn swapped(node: &Node<'_>, faults: &mut Vec<SourceError>) {
    let (Some(length), Some(width)) = (node.property("length"), node.property("width")) else {
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
pub(super) fn fit(node: Option<&Node<'_>>, faults: &mut Vec<SourceError>) -> Fit {
    let mut clearance = |name: &str, default: f64| {
        let entry = node.and_then(|node| node.property(name));
        entry
            .and_then(|entry| length(entry, FROM_ZERO, faults))
            .unwrap_or(default)
    };
    let default = Fit::default();
    Fit {
        around_tray: clearance("box", default.around_tray),
        around_item: clearance("item", default.around_item),
        play: clearance("play", default.play),
    }
}

/// How openings are cut.
pub(super) fn slot(node: Option<&Node<'_>>, faults: &mut Vec<SourceError>) -> Slot {
    let known = [
        ("cross", Cut::Cross),
        ("doors", Cut::Doors),
        ("open", Cut::Open),
    ];
    let cut_entry = node.and_then(|node| node.property("cut"));
    let cut = match cut_entry {
        Some(entry) => choice(entry, &known, faults),
        None => Some(Cut::Cross),
    };
    let finger_entry = node.and_then(|node| node.property("finger"));
    let finger = finger_entry.and_then(|entry| length(entry, SIZE, faults));
    if let (Some(entry), Some(Cut::Cross | Cut::Doors)) = (finger_entry, cut) {
        let mut fault = SourceError::new(
            entry.place(),
            "finger notches need an open cut",
            "flaps hang where the notches would be: write cut=\"open\", or leave `finger` out",
        );
        if let Some(cut_entry) = cut_entry {
            fault = fault.with_context(cut_entry.place(), "this cut has flaps");
        }
        faults.push(fault);
    }
    Slot {
        cut: cut.unwrap_or_default(),
        finger,
        place: node.map(|node| node.place.clone()),
    }
}

/// The face that carries the lines.
pub(super) fn drawn_face(node: Option<&Node<'_>>, faults: &mut Vec<SourceError>) -> DrawnFace {
    let known = [
        ("inside", DrawnFace::Inside),
        ("outside", DrawnFace::Outside),
    ];
    let entry =
        node.and_then(|node| node.required("face", "face=\"inside\" or face=\"outside\"", faults));
    entry
        .and_then(|entry| choice(entry, &known, faults))
        .unwrap_or_default()
}

/// The language of the words on paper; English where the job does not say.
pub(super) fn language(node: Option<&Node<'_>>, faults: &mut Vec<SourceError>) -> String {
    let known: Vec<(&str, &str)> = LANGUAGES.iter().map(|&code| (code, code)).collect();
    let named = node.and_then(|node| {
        if node.argument.is_none() {
            node.lacks("language", "one, as in words \"de\"", faults);
        }
        choice(node.argument.as_ref()?, &known, faults)
    });
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
