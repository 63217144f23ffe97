//! Measures that need no folding: the root, the style's own, and the openings.

use super::arrangement;
use super::openings::clear;
use crate::measure::{ItemMeasure, Measure, Measured, TrayMeasure};
use crate::style::names::Scope;
use crate::tray::{OpeningCut, OpeningId, PanelId, Tray};
use crate::values::{EvalError, Values};

/// The measures that need no folding: the root, the style's own, and the openings.
pub(super) fn of_values(values: &Values, tray: &Tray) -> Result<Vec<Measure>, EvalError> {
    let (length, width) = tray.panels[PanelId::ROOT].shape.extent();
    let mut measures = vec![
        Measure::of_tray(TrayMeasure::DeckLength, length),
        Measure::of_tray(TrayMeasure::DeckWidth, width),
    ];
    for (name, written) in values.sheet().measures.iter() {
        match values.amount(written, Scope::Style) {
            Ok(value) => measures.push(Measure {
                of: Measured::Style(name.word.clone()),
                value,
            }),
            Err(EvalError::Absent(_)) => {}
            Err(stop) => return Err(stop),
        }
    }
    measures.extend(arrangement::measures(values, tray)?);
    for opening in tray.openings.ids() {
        measures.extend(of_opening(values, tray, opening));
    }
    Ok(measures)
}

/// The measures of an opening and its item.
fn of_opening(values: &Values, tray: &Tray, id: OpeningId) -> Vec<Measure> {
    let opening = &tray.openings[id];
    let (Some(number), Some(item)) = (opening.item, opening.item_as_it_lies(values.job)) else {
        return Vec::new();
    };
    let clear = clear(tray, id);
    let mut measures = Vec::new();
    let mut add = |measure, value| {
        measures.push(Measure {
            of: Measured::Item {
                measure,
                item: number.index(),
                name: item.name.clone(),
            },
            value,
        });
    };
    if opening.turned {
        add(ItemMeasure::ItemLength, item.length.mm());
        add(ItemMeasure::ItemWidth, item.width.mm());
    }
    add(ItemMeasure::SlotLength, opening.rect.length);
    add(ItemMeasure::SlotWidth, opening.rect.width);
    add(ItemMeasure::ClearLength, clear.length);
    add(ItemMeasure::ClearWidth, clear.width);
    add(ItemMeasure::Play, clear.play(&item));
    if let OpeningCut::Flaps(plan) = &opening.cut {
        add(ItemMeasure::FlapDepth, plan.depth);
        add(ItemMeasure::FlapLimit, plan.limit);
    }
    measures
}
