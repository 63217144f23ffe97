//! The figures of the report, under the names that are promised to the outside.
//!
//! Given the figures of the style, the tray and the folded tray; gives measures in mm. Rounds nothing, judges nothing.

use super::arrangement;
use super::fits::clearances;
use super::openings::{clear, stands_under_the_deck};
use crate::blank::Blank;
use crate::folded::FoldedTray;
use crate::job::Job;
use crate::measure::{ItemMeasure, Measure, Measured, TrayMeasure};
use crate::style::names::{JobFigure, Scope};
use crate::tray::{OpeningCut, Tray};
use crate::values::{EvalError, Values};
use traywright_document::Extent;

fn of_tray(measure: TrayMeasure, value: f64) -> Measure {
    Measure {
        of: Measured::Tray(measure),
        value,
    }
}

/// Figures that need no folding: the root, the style's own, and the openings.
pub(super) fn of_numbers(values: &mut Values, tray: &Tray) -> Result<Vec<Measure>, EvalError> {
    let (length, width) = tray.panels[0].shape.extent();
    let mut measures = vec![
        of_tray(TrayMeasure::DeckLength, length),
        of_tray(TrayMeasure::DeckWidth, width),
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
    for (index, opening) in tray.openings.iter().enumerate() {
        let (Some(number), Some(item)) = (opening.item, opening.item_as_it_lies(values.job)) else {
            continue;
        };
        let clear = clear(tray, index);
        let of = |measure, value| Measure {
            of: Measured::Item {
                measure,
                item: number,
                name: item.name.clone(),
            },
            value,
        };
        if opening.turned {
            measures.push(of(ItemMeasure::ItemLength, item.length));
            measures.push(of(ItemMeasure::ItemWidth, item.width));
        }
        measures.push(of(ItemMeasure::SlotLength, opening.rect.length));
        measures.push(of(ItemMeasure::SlotWidth, opening.rect.width));
        measures.push(of(ItemMeasure::ClearLength, clear.length));
        measures.push(of(ItemMeasure::ClearWidth, clear.width));
        measures.push(of(ItemMeasure::Play, clear.play(&item)));
        let standing = values
            .slot_entry(opening.member)
            .is_some_and(stands_under_the_deck);
        if standing {
            let deck = values.job_figure(JobFigure::TrayDepth);
            measures.push(of(ItemMeasure::BelowDeck, deck - item.depth));
        }
        if let OpeningCut::Flaps(plan) = &opening.cut {
            measures.push(of(ItemMeasure::FlapDepth, plan.depth));
            measures.push(of(ItemMeasure::FlapLimit, plan.limit));
        }
    }
    Ok(measures)
}

/// Figures of the folded tray in its box, and of the blank.
pub(super) fn of_folded(job: &Job, blank: &Blank, folded: &FoldedTray) -> Vec<Measure> {
    let outside = folded.outside();
    let clearance = clearances(job, folded);
    let Extent { least, most } = blank.extent();
    vec![
        of_tray(TrayMeasure::FoldedLength, outside[0]),
        of_tray(TrayMeasure::FoldedWidth, outside[1]),
        of_tray(TrayMeasure::FoldedDepth, outside[2]),
        of_tray(TrayMeasure::BoxClearanceLength, clearance[0]),
        of_tray(TrayMeasure::BoxClearanceWidth, clearance[1]),
        of_tray(TrayMeasure::BoxClearanceDepth, clearance[2]),
        of_tray(TrayMeasure::BlankLength, most.x - least.x),
        of_tray(TrayMeasure::BlankWidth, most.y - least.y),
    ]
}

/// Puts the promised measures first.
pub(super) fn put_in_order(measures: &mut [Measure]) {
    measures.sort_by_key(|measure| measure.of.rank());
}
