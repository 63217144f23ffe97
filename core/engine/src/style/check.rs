//! Whether the entries of a style go together: names are taken once and known where they are used, and no field
//! contradicts another.
//!
//! Given a sheet and its graph; gives faults with places in the style's text. Kinds of formulas are judged next door.

use super::either::Inset;
use super::graph::{Carrier, Graph};
use super::text::{
    Ask, HingedEntry, OpeningEntry, PanelEntry, RuleEntry, Sheet, SlotCut, SlotEntry, SlotPlace,
    StepEntry,
};
use super::written::{Entries, Name};
use crate::finding::Fault;
use crate::wording::nearest;

/// Codes that the engine finds by itself; a style may not use them for rules of its own.
const HOUSE_CODES: [&str; 25] = [
    "hinge-range",
    "item-too-deep",
    "item-proud",
    "item-sunk",
    "item-does-not-enter",
    "slot-tight",
    "clear-opening",
    "opening-too-near-edge",
    "opening-too-near-end",
    "opening-too-near-side",
    "openings-do-not-fit",
    "openings-overlap",
    "flap-too-shallow",
    "flap-trimmed",
    "cut-variant",
    "spine-too-narrow",
    "spine-narrow",
    "panels-overlap",
    "outline-broken",
    "slabs-collide",
    "does-not-fill",
    "outside-too-large",
    "no-swing-room",
    "step-blocked",
    "tongue-misses",
];

/// Faults of entries that name other entries or contradict themselves.
pub(super) fn entries(sheet: &Sheet, graph: &Graph) -> Vec<Fault> {
    let mut faults = Vec::new();
    for (_, ask) in sheet.asks.iter() {
        if let Ask::Choice { usual, of, .. } = ask {
            one_of(
                usual,
                of.iter().map(|word| word.word.as_str()),
                "answer",
                &mut faults,
            );
        }
    }
    for (entry, (name, panel)) in sheet.panels.0.iter().enumerate() {
        match panel {
            PanelEntry::Hinged(hinged) => {
                self::hinged(name, hinged, graph, &graph.family(entry), &mut faults)
            }
            PanelEntry::Regular { sides, edges, .. }
                if *sides < 4 || sides % 2 == 1 || edges.len() != *sides =>
            {
                let label = format!("it has {sides} sides and {} edge names", edges.len());
                let message = "a regular panel has an even number of sides, four at least, and a name for each edge";
                faults.push(Fault::new(name.place.clone(), message, label));
            }
            _ => {}
        }
    }
    for (entry, (_, opening)) in sheet.openings.0.iter().enumerate() {
        if let OpeningEntry::Slot(slot) = opening {
            self::slot(sheet, slot, graph, &graph.openings_of(entry), &mut faults);
        }
    }
    tongues(sheet, graph, &mut faults);
    rules(sheet, graph, &mut faults);
    steps(sheet, graph, &mut faults);
    faults
}

/// Refuses a name that is none of those that may stand in its place.
fn one_of<'k>(
    name: &Name,
    known: impl Iterator<Item = &'k str>,
    what: &str,
    faults: &mut Vec<Fault>,
) {
    let known: Vec<&str> = known.collect();
    if known.contains(&name.word.as_str()) {
        return;
    }
    let label = match nearest(&name.word, known.iter().copied()) {
        Some(word) => format!("did you mean `{word}`?"),
        None => format!("there are {}", known.join(", ")),
    };
    faults.push(Fault::new(
        name.place.clone(),
        format!("there is no {what} `{}`", name.word),
        label,
    ));
}

fn hinged(
    name: &Name,
    hinged: &HingedEntry,
    graph: &Graph,
    family: &[usize],
    faults: &mut Vec<Fault>,
) {
    let flanks: Vec<&str> = family
        .iter()
        .filter_map(|&member| graph.members[member].hangs.as_ref())
        .flat_map(|hang| [hang.right.as_str(), hang.left.as_str()])
        .collect();
    if let Inset::ByFlank(insets) = &hinged.inset {
        for (flank, _) in insets.iter() {
            one_of(flank, flanks.iter().copied(), "flank", faults);
        }
        if insets.0.len() > 1 && hinged.span.is_some() {
            let label = "leave out one inset, or the span";
            faults.push(Fault::new(
                name.place.clone(),
                "two insets and a span say one thing twice",
                label,
            ));
        }
    }
    if let (Inset::Both(inset), Some(_)) = (&hinged.inset, &hinged.span) {
        let label = "leave out the span, or give the inset of one flank";
        faults.push(Fault::new(
            inset.place.clone(),
            "an inset at both ends and a span say one thing twice",
            label,
        ));
    }
    match (&hinged.reach, &hinged.outline) {
        (None, None) => {
            let label = "say its `reach`, away from its crease, or draw its `outline`";
            faults.push(Fault::new(
                name.place.clone(),
                format!("the panel `{}` has no size", name.word),
                label,
            ));
        }
        (_, Some(_))
            if !hinged.trim.0.is_empty() || hinged.wider.is_some() || hinged.reach.is_some() =>
        {
            let label = "leave out `reach`, `trim` and `wider`: the corners say it all";
            faults.push(Fault::new(
                name.place.clone(),
                "an outline is the whole panel",
                label,
            ));
        }
        _ => {}
    }
    let corners: Vec<String> = flanks.iter().map(|flank| format!("far {flank}")).collect();
    for (place, _) in hinged.trim.iter() {
        let known = flanks
            .iter()
            .copied()
            .chain(["far"])
            .chain(corners.iter().map(String::as_str));
        one_of(place, known, "edge or corner to trim", faults);
    }
}

fn slot(
    sheet: &Sheet,
    slot: &SlotEntry,
    graph: &Graph,
    openings: &[usize],
    faults: &mut Vec<Fault>,
) {
    if let (Some(SlotPlace::Rows), Some((x, _))) = (slot.place, &slot.at) {
        faults.push(Fault::new(
            x.place.clone(),
            "rows find their own places",
            "leave out `at`, or `place: Rows`",
        ));
    }
    let on_it = |carrier: Carrier| matches!(carrier, Carrier::Opening(opening) if openings.contains(&opening));
    let hung = graph
        .members
        .iter()
        .find(|member| member.hangs.as_ref().is_some_and(|hang| on_it(hang.on)));
    if let (SlotCut::Job, Some(member)) = (slot.cut, hung) {
        let name = &sheet.panels.0[member.entry].0;
        let label = "write `cut: Open` (in the hole) or `cut: Uncut` (around it) at the slot";
        let message = format!("`{}` hangs in a slot that the job cuts flaps in", name.word);
        faults.push(
            Fault::new(name.place.clone(), message, label)
                .with_context(slot.on.place.clone(), "the slot"),
        );
    }
    let root = &graph.members[0];
    for (stack, _) in slot.stacks.iter() {
        let panels = sheet.panels.iter().map(|(name, _)| name.word.as_str());
        let members = graph.members.iter().map(|member| member.name.as_str());
        one_of(
            stack,
            panels
                .chain(members)
                .chain(root.edges.iter().map(String::as_str)),
            "panel or edge",
            faults,
        );
    }
}

fn tongues(sheet: &Sheet, graph: &Graph, faults: &mut Vec<Fault>) {
    let edges = sheet
        .panels
        .0
        .iter()
        .enumerate()
        .flat_map(|(entry, (name, _))| {
            let edges = graph
                .family(entry)
                .first()
                .map(|&member| graph.members[member].edges.clone());
            edges
                .unwrap_or_default()
                .into_iter()
                .map(move |edge| format!("{}.{edge}", name.word))
        });
    let edges: Vec<String> = edges.collect();
    for (name, tongue) in sheet.tongues.iter() {
        one_of(
            &tongue.into,
            sheet.panels.iter().map(|(name, _)| name.word.as_str()),
            "panel",
            faults,
        );
        one_of(&tongue.on, edges.iter().map(String::as_str), "edge", faults);
        if tongue.count == 0 {
            faults.push(Fault::new(
                name.place.clone(),
                "no tongue at all",
                "leave the entry out, or count one at least",
            ));
        }
    }
    for (_, opening) in sheet.openings.iter() {
        if let OpeningEntry::Scoop(scoop) = opening {
            one_of(&scoop.on, edges.iter().map(String::as_str), "edge", faults);
        }
    }
}

fn rules(sheet: &Sheet, graph: &Graph, faults: &mut Vec<Fault>) {
    for (code, rule) in sheet.rules.iter() {
        let (RuleEntry::Error(rule) | RuleEntry::Warning(rule) | RuleEntry::Note(rule)) = rule;
        if HOUSE_CODES.contains(&code.word.as_str()) {
            let message = format!(
                "the code `{}` is one that the engine finds by itself",
                code.word
            );
            faults.push(Fault::new(code.place.clone(), message, "take another code"));
        }
        if let Some(at) = &rule.at {
            let entries = sheet
                .panels
                .iter()
                .map(|(name, _)| name)
                .chain(sheet.openings.iter().map(|(name, _)| name));
            let entries = entries
                .chain(sheet.tongues.iter().map(|(name, _)| name))
                .map(|name| name.word.as_str());
            one_of(
                at,
                entries.chain(graph.members.iter().map(|member| member.name.as_str())),
                "panel",
                faults,
            );
        }
    }
}

/// Every panel but the root stands in the steps exactly once.
fn steps(sheet: &Sheet, graph: &Graph, faults: &mut Vec<Fault>) {
    let mut folded: Vec<&Name> = Vec::new();
    for step in &sheet.steps {
        let StepEntry::Fold { each, panels, .. } = step else {
            continue;
        };
        for name in panels.iter().map(|(name, _)| name).chain(each) {
            one_of(
                name,
                sheet.panels.iter().map(|(name, _)| name.word.as_str()),
                "panel",
                faults,
            );
        }
        folded.extend(panels.iter().map(|(name, _)| name));
    }
    if sheet.steps.is_empty() {
        return;
    }
    for (entry, (name, panel)) in sheet.panels.0.iter().enumerate() {
        let steps: Vec<&&Name> = folded
            .iter()
            .filter(|step| step.word == name.word)
            .collect();
        match (panel, &steps[..]) {
            (PanelEntry::Hinged(_), []) => {
                let message = format!("no step folds `{}`", name.word);
                faults.push(Fault::new(
                    name.place.clone(),
                    message,
                    "give it a place in the steps",
                ));
            }
            (PanelEntry::Hinged(_), [first, second, ..]) => {
                let fault = Fault::new(
                    second.place.clone(),
                    format!("`{}` is folded twice", name.word),
                    "leave out one",
                );
                faults.push(fault.with_context(first.place.clone(), "folded here"));
            }
            (_, [step, ..]) if graph.members[0].entry == entry => {
                let message = format!("`{}` is the root and lies still", name.word);
                faults.push(Fault::new(step.place.clone(), message, "leave it out"));
            }
            _ => {}
        }
    }
}

/// What the house asks beside the style: only what the style does not ask for itself.
pub(super) fn add_house_asks(asks: &mut Entries<Ask>, house: Entries<Ask>) {
    for (name, ask) in house.0 {
        if asks.get(&name.word).is_none() {
            asks.0.push((name, ask));
        }
    }
}
