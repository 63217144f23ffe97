//! The items of a job, repeats written out.
//!
//! **Input:** the lines `item` in their order. **Output:** one item per opening: `count=3` of a vial gives `vial`,
//! `vial.2` and `vial.3`. **Errors:** names that occur twice and more openings than a tray may have.

use std::mem;

use traywright_engine::SourceError;
use traywright_engine::job::{Item, ItemShape};

use super::form::Form;
use super::keys::MOST_OPENINGS;
use super::nodes::Node;

/// Adds the item of a line to the job, as often as it is repeated.
pub(super) fn finish(node: &Node<'_>, form: &mut Form, faults: &mut Vec<SourceError>) {
    let mut item = mem::replace(&mut form.item, Form::blank_item());
    let repeats = mem::replace(&mut form.count, 1);
    let is_known = node.unread.iter().all(|key| *key == "count");
    if is_known
        && item.shape == ItemShape::Round
        && (item.length.mm() - item.width.mm()).abs() > 1e-6
    {
        not_round(node, faults);
    } else if is_known && item.straight.is_some_and(|straight| straight > item.depth) {
        straight_beyond_top(node, faults);
    } else if node.unread.is_empty() {
        let name = node.entry("name");
        item.place = name.map_or(node.place.clone(), |entry| entry.place());
        form.openings += repeats;
        if form.openings <= MOST_OPENINGS {
            add(&item, repeats, &mut form.job.items, faults);
        } else if form.openings - repeats <= MOST_OPENINGS {
            too_many(node, form.openings, faults);
        }
    }
}

fn add(item: &Item, repeats: usize, items: &mut Vec<Item>, faults: &mut Vec<SourceError>) {
    for number in 1..=repeats {
        let name = match number {
            1 => item.name.clone(),
            _ => format!("{}.{number}", item.name),
        };
        if items.iter().any(|other| other.name == name) {
            clash(item, &name, items, faults);
            break;
        }
        items.push(Item {
            name,
            number,
            ..item.clone()
        });
    }
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

fn straight_beyond_top(node: &Node<'_>, faults: &mut Vec<SourceError>) {
    let (Some(straight), Some(depth)) = (node.entry("straight"), node.entry("depth")) else {
        return;
    };
    let fault = SourceError::new(
        straight.place(),
        "an item keeps its outline at most up to its top",
        "write the height, from its underside, up to which it is full; or leave `straight` out",
    );
    faults.push(fault.with_context(depth.place(), "this is its whole depth"));
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
