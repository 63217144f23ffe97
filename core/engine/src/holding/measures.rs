//! The measures of items in the standing tray, under the contract's names.

use super::{Beside, HeldItem, Hold};
use crate::measure::{ItemMeasure, Measure, Measured};

/// The measures of all items.
pub(super) fn of_items(items: &[HeldItem]) -> Vec<Measure> {
    items.iter().flat_map(of_item).collect()
}

fn of_item(held: &HeldItem) -> Vec<Measure> {
    let [along, across] = &held.holds;
    let flaps = |axis: usize| match held.beside[axis] {
        Beside::Flaps(depth) => Some(depth),
        Beside::Bare => held.below.map(|_| 0.0),
        Beside::Fences(_) => None,
    };
    let bears = |hold: &Hold| {
        if hold.is_within_play() {
            hold.bears
        } else {
            0.0
        }
    };
    let told = [
        (ItemMeasure::BelowDeck, held.below.map(|[below, _]| below)),
        (ItemMeasure::Pad, Some(held.item.pad.mm())),
        (ItemMeasure::Rise, Some(held.rise)),
        (ItemMeasure::TravelLength, Some(along.travel)),
        (ItemMeasure::TravelWidth, Some(across.travel)),
        (ItemMeasure::BearsLength, Some(bears(along))),
        (ItemMeasure::BearsWidth, Some(bears(across))),
        (ItemMeasure::FlapEnds, flaps(0)),
        (ItemMeasure::FlapSides, flaps(1)),
    ];
    let measure = |(measure, value): (ItemMeasure, Option<f64>)| {
        Some(Measure {
            of: Measured::Item {
                measure,
                item: held.id.index(),
                name: held.item.name.clone(),
            },
            value: value?,
        })
    };
    told.into_iter().filter_map(measure).collect()
}
