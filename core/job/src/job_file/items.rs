//! The items of a job, repeats written out.
//!
//! Given the lines `item` in their order, gives one item an opening: `count=3` of a vial gives `vial`, `vial.2` and
//! `vial.3`. Refuses names that stand twice and more openings than a tray may have.

use traywright_engine::SourceError;
use traywright_engine::job::{Item, ItemShape};

use super::nodes::Node;
use super::values::{SIZE, choice, count, length, name, truth};

/// Openings in all.
// Source: the contract, "Job file".
const MOST_OPENINGS: usize = 64;

/// All items of the job.
pub(super) fn all<'a, 'k: 'a>(
    nodes: impl Iterator<Item = &'a Node<'k>>,
    faults: &mut Vec<SourceError>,
) -> Vec<Item> {
    let mut items: Vec<Item> = Vec::new();
    let mut openings = 0;
    for node in nodes {
        let Some((item, repeats)) = one(node, faults) else {
            continue;
        };
        let before = openings;
        openings += repeats;
        if before <= MOST_OPENINGS && openings > MOST_OPENINGS {
            too_many(node, openings, faults);
        }
        if openings > MOST_OPENINGS {
            continue;
        }
        for number in 1..=repeats {
            let name = match number {
                1 => item.name.clone(),
                _ => format!("{}.{number}", item.name),
            };
            if items.iter().any(|other| other.name == name) {
                clash(&item, &name, &items, faults);
                break;
            }
            items.push(Item {
                name,
                number,
                ..item.clone()
            });
        }
    }
    items
}

/// One line, and how often it is repeated.
fn one(node: &Node<'_>, faults: &mut Vec<SourceError>) -> Option<(Item, usize)> {
    let item_name = match &node.argument {
        Some(entry) => name(entry, faults),
        None => {
            node.lacks(
                "name",
                "one in double quotes behind `item`, as in item \"lens\"",
                faults,
            );
            None
        }
    };
    let mut measure = |name: &str| {
        let example = format!("{name}=(mm)… or {name}=(in)…");
        let entry = node.required(name, &example, faults)?;
        length(entry, SIZE, faults)
    };
    let (item_length, item_width, item_depth) =
        (measure("length"), measure("width"), measure("depth"));
    let shape = shape(node, faults);
    let repeats = match node.property("count") {
        Some(entry) => count(entry, MOST_OPENINGS, faults),
        None => Some(1),
    };
    let turns = match node.property("turn") {
        Some(entry) => truth(entry, faults),
        None => Some(false),
    };
    let item = Item {
        name: item_name?.to_owned(),
        number: 1,
        length: item_length?,
        width: item_width?,
        depth: item_depth?,
        shape: shape?,
        turns: turns?,
        place: node
            .argument
            .map_or(node.place.clone(), |entry| entry.place()),
    };
    if item.shape == ItemShape::Round && (item.length - item.width).abs() > 1e-6 {
        not_round(node, faults);
        return None;
    }
    Some((item, repeats?))
}

fn shape(node: &Node<'_>, faults: &mut Vec<SourceError>) -> Option<ItemShape> {
    let known = [
        ("rectangle", ItemShape::Rectangle),
        ("oval", ItemShape::Oval),
        ("round", ItemShape::Round),
    ];
    match node.property("shape") {
        Some(entry) => choice(entry, &known, faults),
        None => Some(ItemShape::Rectangle),
    }
}

fn not_round(node: &Node<'_>, faults: &mut Vec<SourceError>) {
    let (Some(shape), Some(width)) = (node.property("shape"), node.property("width")) else {
        return;
    };
    let fault = SourceError::new(
        shape.place(),
        "a round item is as wide as long",
        "write its diameter for both, or shape=\"oval\"",
    );
    faults.push(fault.with_context(width.place(), "this is not its length"));
}

fn too_many(node: &Node<'_>, openings: usize, faults: &mut Vec<SourceError>) {
    let place = node
        .property("count")
        .map_or(node.place.clone(), |entry| entry.place());
    faults.push(SourceError::new(
        place,
        format!("a tray has at most {MOST_OPENINGS} openings"),
        format!("with this line the job asks for {openings}"),
    ));
}

fn clash(item: &Item, name: &str, others: &[Item], faults: &mut Vec<SourceError>) {
    let other = others.iter().find(|other| other.name == name);
    let first = other.and_then(|other| others.iter().find(|first| first.place == other.place));
    let (Some(other), Some(first)) = (other, first) else {
        return;
    };
    let is_repeat = item.name != name || first.name != name;
    let (title, label) = if is_repeat {
        (
            format!("two items would be called `{name}`"),
            "the repeats of `count` are called NAME.2, NAME.3, …: rename one of the two",
        )
    } else {
        (
            format!("a second item called `{name}`"),
            "give it another name, or write count=2 with the first",
        )
    };
    let fault = SourceError::new(item.place.clone(), title, label);
    faults.push(fault.with_context(other.place.clone(), format!("this one gives `{name}`")));
}
