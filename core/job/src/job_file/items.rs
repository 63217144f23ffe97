//! The items of a job, repeats written out.
//!
//! Given the lines `item` in their order, gives one item an opening: `count=3` of a vial gives `vial`, `vial.2` and
//! `vial.3`. Refuses names that stand twice and more openings than a tray may have.

use traywright_engine::SourceError;
use traywright_engine::job::{Item, ItemShape};

use super::keys::MOST_OPENINGS;
use super::nodes::Node;
use super::words::SHAPES;

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
    let item_name = node.name("name", faults);
    let (length, width, depth) = (
        node.length("length", faults),
        node.length("width", faults),
        node.length("depth", faults),
    );
    let shape = node.choice("shape", &SHAPES, faults);
    let repeats = node.count("count", faults);
    let turns = node.yes_no("turn", faults);
    let item = Item {
        shape: shape?,
        turns: turns?,
        place: node
            .entry("name")
            .map_or(node.place.clone(), |entry| entry.place()),
        ..Item::plain(item_name?, [length?, width?, depth?])
    };
    if item.shape == ItemShape::Round && (item.length.mm() - item.width.mm()).abs() > 1e-6 {
        not_round(node, faults);
        return None;
    }
    Some((item, repeats?))
}

fn not_round(node: &Node<'_>, faults: &mut Vec<SourceError>) {
    let (Some(shape), Some(width)) = (node.entry("shape"), node.entry("width")) else {
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
        .entry("count")
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
