//! Whether the entries of a style agree: names are unique and are known where they are used, and no field contradicts
//! another.
//!
//! **Input:** a style file and its graph. **Output:** errors with source spans. `kinds` checks the kinds of formulas.

mod built_in_settings;
mod words;

pub(super) use built_in_settings::add_built_in_settings;

use std::collections::HashMap;

use super::either::Inset;
use super::graph::{Graph, HingeParent, MemberId, OpeningMemberId};
use super::names::undrawn;
use super::text::{
    HingedEntry, OpeningEntry, PanelEntry, SettingEntry, SlotCut, SlotEntry, SlotPlace, StyleFile,
    Trim,
};
use super::written::Name;
use crate::finding::SourceError;
use crate::wording::nearest;

/// Maximum number of corners of a panel.
// Source: common practice, none published: a round deck of 60 sides is round to any hand.
const MOST_CORNERS: usize = 60;

/// Maximum number of names listed if no name is similar.
// Source: no rule of the trade; more are not read.
const MOST_LISTED: usize = 30;

/// Number of errors after which messages no longer list names.
// Source: no rule of the trade; more than anybody reads at once.
const MOST_NAMED: usize = 50;

/// Errors of entries that name other entries or contradict themselves.
pub(super) fn entries(sheet: &StyleFile, graph: &Graph) -> Vec<SourceError> {
    let mut faults = Vec::new();
    for (_, setting) in sheet.settings.iter() {
        if let SettingEntry::Choice { default, of, .. } = setting {
            one_of(
                default,
                of.iter().map(|word| word.word.as_str()),
                "answer",
                &mut faults,
            );
        }
    }
    for (entry, name, panel) in sheet.panels.enumerated() {
        match panel {
            PanelEntry::Hinged(hinged) => {
                let family: Vec<MemberId> = graph.family(entry).collect();
                self::hinged(name, hinged, graph, &family, &mut faults);
            }
            PanelEntry::Regular { sides, edges, .. } => regular(name, *sides, edges, &mut faults),
            PanelEntry::Polygon { corners, .. } if !(3..=MOST_CORNERS).contains(&corners.len()) => {
                let message = format!("a polygon has 3 to {MOST_CORNERS} corners");
                let label = format!("this one has {}", corners.len());
                faults.push(SourceError::new(name.place.clone(), message, label));
            }
            _ => {}
        }
    }
    for (entry, name, opening) in sheet.openings.enumerated() {
        if let OpeningEntry::Slot(slot) = opening {
            let openings: Vec<OpeningMemberId> = graph.openings_of(entry).collect();
            self::slot(sheet, (name, slot), graph, &openings, &mut faults);
        }
    }
    tongues(sheet, graph, &mut faults);
    words::rules(sheet, graph, &mut faults);
    words::steps(sheet, graph, &mut faults);
    one_name_each(sheet, graph, &mut faults);
    faults
}

/// Rejects a name that is not one of the allowed names.
fn one_of<'k>(
    name: &Name,
    known: impl Iterator<Item = &'k str>,
    what: &str,
    faults: &mut Vec<SourceError>,
) {
    let mut known: Vec<&str> = known.collect();
    if known.contains(&name.word.as_str()) || faults.len() > MOST_NAMED {
        return;
    }
    known.dedup();
    let label = match nearest(&name.word, known.iter().copied()) {
        Some(word) => format!("did you mean `{word}`?"),
        None if known.len() > MOST_LISTED => format!("there are {} others", known.len()),
        None => format!("there are {}", known.join(", ")),
    };
    let message = format!("there is no {what} `{}`", name.word);
    faults.push(SourceError::new(name.place.clone(), message, label));
}

fn regular(name: &Name, sides: usize, edges: &[Name], faults: &mut Vec<SourceError>) {
    let mut refuse = |message: &str, label: String| {
        faults.push(SourceError::new(name.place.clone(), message, label));
    };
    if !(4..=MOST_CORNERS).contains(&sides) || sides % 2 == 1 {
        let message = "a regular panel has an even number of sides, four at least";
        refuse(
            message,
            format!("this one has {sides}; write a Polygon for other shapes"),
        );
    } else if edges.len() != sides {
        let label = format!("it has {sides} sides and {} names", edges.len());
        refuse("a regular panel has a name for each edge", label);
    }
}

fn hinged(
    name: &Name,
    hinged: &HingedEntry,
    graph: &Graph,
    family: &[MemberId],
    faults: &mut Vec<SourceError>,
) {
    if family.is_empty() {
        return;
    }
    let mut flanks: Vec<&str> = family
        .iter()
        .filter_map(|&member| graph.members[member].hangs.as_ref())
        .flat_map(|hang| [hang.right.as_str(), hang.left.as_str()])
        .collect();
    flanks.sort_unstable();
    flanks.dedup();
    place_on_edge(name, hinged, &flanks, faults);
    size(name, hinged, faults);
    for (place, trim) in hinged.trim.iter() {
        self::trim(place, trim, &flanks, faults);
    }
}

/// Insets belong to existing flanks and do not conflict with the span.
fn place_on_edge(
    name: &Name,
    hinged: &HingedEntry,
    flanks: &[&str],
    faults: &mut Vec<SourceError>,
) {
    if let Inset::ByFlank(insets) = &hinged.inset {
        for (flank, _) in insets.iter() {
            one_of(flank, flanks.iter().copied(), "flank", faults);
        }
        if insets.len() > 1 && hinged.span.is_some() {
            let label = "leave out one inset, or the span";
            faults.push(SourceError::new(
                name.place.clone(),
                "two insets and a span say one thing twice",
                label,
            ));
        }
    }
    if let (Inset::Both(inset), Some(_)) = (&hinged.inset, &hinged.span) {
        let label = "leave out the span, or give the inset of one flank";
        faults.push(SourceError::new(
            inset.place.clone(),
            "an inset at both ends and a span say one thing twice",
            label,
        ));
    }
}

/// A panel states its size in exactly one way.
fn size(name: &Name, hinged: &HingedEntry, faults: &mut Vec<SourceError>) {
    match (&hinged.reach, &hinged.outline) {
        (None, None) => {
            let label = "say its `reach`, away from its crease, or draw its `outline`";
            faults.push(SourceError::new(
                name.place.clone(),
                format!("the panel `{}` has no size", name.word),
                label,
            ));
        }
        (_, Some(_))
            if !hinged.trim.is_empty() || hinged.overhang.is_some() || hinged.reach.is_some() =>
        {
            let label = "leave out `reach`, `trim` and `overhang`: the corners say it all";
            faults.push(SourceError::new(
                name.place.clone(),
                "an outline is the whole panel",
                label,
            ));
        }
        _ => {}
    }
    match &hinged.outline {
        Some(corners) if !(1..MOST_CORNERS).contains(&corners.len()) => {
            let label = format!(
                "1 to {MOST_CORNERS} corners from the left end of the crease to its right end"
            );
            let message = format!("this outline has {} corners", corners.len());
            faults.push(SourceError::new(name.place.clone(), message, label));
        }
        _ => {}
    }
}

/// A taper belongs to a flank, a cut to a corner.
fn trim(place: &Name, trim: &Trim, flanks: &[&str], faults: &mut Vec<SourceError>) {
    let corners: Vec<String> = flanks.iter().map(|flank| format!("far {flank}")).collect();
    let is_flank = flanks.contains(&place.word.as_str());
    let is_corner = place.word == "far" || corners.contains(&place.word);
    match trim {
        Trim::Taper(_) if is_corner => {
            let label = format!("name a flank: {}", flanks.join(", "));
            faults.push(SourceError::new(
                place.place.clone(),
                "a Taper draws a flank in",
                label,
            ));
        }
        Trim::Chamfer(_) | Trim::Notch(..) if is_flank => {
            let message = "a Chamfer or a Notch is cut off a far corner";
            let label = format!("write \"far {}\", or \"far\" for both corners", place.word);
            faults.push(SourceError::new(place.place.clone(), message, label));
        }
        _ => {
            let corners = corners.iter().map(String::as_str);
            let known = flanks.iter().copied().chain(["far"]).chain(corners);
            one_of(place, known, "flank or corner to trim", faults);
        }
    }
}

fn slot(
    sheet: &StyleFile,
    (name, slot): (&Name, &SlotEntry),
    graph: &Graph,
    openings: &[OpeningMemberId],
    faults: &mut Vec<SourceError>,
) {
    if let (Some(SlotPlace::Rows), Some((x, _))) = (slot.place, &slot.at) {
        faults.push(SourceError::new(
            x.place.clone(),
            "rows find their own places",
            "leave out `at`, or `place: Rows`",
        ));
    }
    let on_it = |carrier: HingeParent| matches!(carrier, HingeParent::Opening(opening) if openings.contains(&opening));
    let hung = graph
        .members
        .iter()
        .find(|member| member.hangs.as_ref().is_some_and(|hang| on_it(hang.on)));
    if let (SlotCut::Job, Some(member)) = (slot.cut, hung) {
        let name = &sheet.panels[member.entry].0;
        let label = "write `cut: Open` (in the hole) or `cut: Uncut` (around it) at the slot";
        let message = format!("`{}` hangs in a slot that the job cuts flaps in", name.word);
        faults.push(
            SourceError::new(name.place.clone(), message, label)
                .with_context(slot.on.place.clone(), "the slot"),
        );
    }
    let root = graph.root();
    let panels = sheet.panels.names().map(|name| name.word.as_str());
    let known = panels.chain(root.edges.iter().map(String::as_str));
    for stack in slot.stacks.names() {
        if graph.members.iter().all(|member| member.name != stack.word) {
            one_of(stack, known.clone(), "panel or edge", faults);
        }
    }
    let max = sheet.items.max;
    if max == 0 || slot.item.is_some_and(|item| item == 0 || item > max) {
        let message = "a slot is for one of the items that the style takes";
        let label = match max {
            0 => "write a Hole, or let `items` say that the style takes items".to_owned(),
            1 => {
                "leave `item` out, or let `items` say that the style takes more than one".to_owned()
            }
            _ => format!("number them from 1 to {max}, or let `items` say that it takes more"),
        };
        faults.push(SourceError::new(name.place.clone(), message, label));
    }
}

/// The edges of all panels, by the names of their entries and their own.
fn edges_by_name(sheet: &StyleFile, graph: &Graph) -> Vec<String> {
    let mut edges = Vec::new();
    for (entry, name, _) in sheet.panels.enumerated() {
        if let Some(member) = graph.family(entry).next() {
            let own = graph.members[member].edges.iter();
            edges.extend(own.map(|edge| format!("{}.{edge}", name.word)));
        }
    }
    for member in &graph.members {
        let own = member.edges.iter();
        edges.extend(own.map(|edge| format!("{}.{edge}", member.name)));
    }
    edges
}

fn tongues(sheet: &StyleFile, graph: &Graph, faults: &mut Vec<SourceError>) {
    let edges = edges_by_name(sheet, graph);
    // Panels hinged to a panel with an error are not reported.
    let drawn = |on: &Name| {
        let key = on.word.split('.').next().unwrap_or_default();
        !undrawn(sheet, graph, key)
    };
    for (name, tongue) in sheet.tongues.iter() {
        one_of(
            &tongue.into,
            sheet
                .panels
                .iter()
                .map(|(name, _)| name.word.as_str())
                .chain(graph.members.iter().map(|member| member.name.as_str())),
            "panel",
            faults,
        );
        if drawn(&tongue.on) {
            one_of(&tongue.on, edges.iter().map(String::as_str), "edge", faults);
        }
        if tongue.count == 0 {
            faults.push(SourceError::new(
                name.place.clone(),
                "no tongue at all",
                "leave the entry out, or count one at least",
            ));
        }
    }
    for (_, opening) in sheet.openings.iter() {
        if let OpeningEntry::ThumbNotch(notch) = opening
            && drawn(&notch.on)
        {
            one_of(&notch.on, edges.iter().map(String::as_str), "edge", faults);
        }
    }
}

/// The names of members differ from each other, and from the keys of other entries.
fn one_name_each(sheet: &StyleFile, graph: &Graph, faults: &mut Vec<SourceError>) {
    let panels = graph.members.iter().map(|member| {
        let key = &sheet.panels[member.entry].0;
        (member.name.as_str(), key)
    });
    let openings = graph.openings.iter().map(|opening| {
        let key = &sheet.openings[opening.entry].0;
        (opening.name.as_str(), key)
    });
    let mut seen: HashMap<&str, &Name> = HashMap::new();
    for (name, key) in panels.chain(openings) {
        let other = seen.insert(name, key).or_else(|| {
            let keys = sheet.panels.names().chain(sheet.openings.names());
            keys.chain(sheet.tongues.names())
                .find(|other| other.word == name && other.word != key.word)
        });
        if let Some(other) = other {
            let message = format!("two things would be called `{name}`");
            let label = "give one of them another name, or hang it on other edges";
            let fault = SourceError::new(key.place.clone(), message, label);
            faults.push(fault.with_context(other.place.clone(), "the other"));
            return;
        }
    }
}
