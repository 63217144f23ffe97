//! The figures of the report, under the names that are promised to the outside.
//!
//! Given the figures of the style, the tray and the folded tray; gives measures in mm. Rounds nothing, judges nothing.

use super::arrangement;
use super::fits::clearances;
use super::openings::{clear, stands_under_the_deck};
use crate::blank::Blank;
use crate::folded::FoldedTray;
use crate::job::Job;
use crate::style::names::{JobFigure, Scope};
use crate::tray::{OpeningCut, Tray};
use crate::values::{EvalError, Values};
use traywright_document::{Extent, Measure};

/// Names that come first, in this order; the style's own follow, then those of the items.
const FIRST: [&str; 11] = [
    "deck_length",
    "deck_width",
    "wall_height",
    "folded_length",
    "folded_width",
    "folded_depth",
    "box_clearance_length",
    "box_clearance_width",
    "box_clearance_depth",
    "blank_length",
    "blank_width",
];

fn measure(name: impl Into<String>, value: f64) -> Measure {
    Measure {
        name: name.into(),
        value,
    }
}

/// Figures that need no folding: the root, the style's own, and the openings.
pub(super) fn of_numbers(values: &mut Values, tray: &Tray) -> Result<Vec<Measure>, EvalError> {
    let (length, width) = tray.panels[0].shape.extent();
    let mut measures = vec![measure("deck_length", length), measure("deck_width", width)];
    for (name, written) in values.sheet().measures.iter() {
        match values.amount(written, Scope::Style) {
            Ok(value) => measures.push(measure(name.word.clone(), value)),
            Err(EvalError::Absent(_)) => {}
            Err(stop) => return Err(stop),
        }
    }
    measures.extend(arrangement::measures(values, tray)?);
    for (index, opening) in tray.openings.iter().enumerate() {
        let Some(item) = opening.item_as_it_lies(values.job) else {
            continue;
        };
        let clear = clear(tray, index);
        let named = |figure: &str| format!("{figure}.{}", item.name);
        if opening.turned {
            measures.push(measure(named("item_length"), item.length));
            measures.push(measure(named("item_width"), item.width));
        }
        measures.push(measure(named("slot_length"), opening.rect.length));
        measures.push(measure(named("slot_width"), opening.rect.width));
        measures.push(measure(named("clear_length"), clear.length));
        measures.push(measure(named("clear_width"), clear.width));
        measures.push(measure(named("play"), clear.play(&item)));
        let standing = values
            .slot_entry(opening.member)
            .is_some_and(stands_under_the_deck);
        if standing {
            let deck = values.job_figure(JobFigure::TrayDepth);
            measures.push(measure(named("below_deck"), deck - item.depth));
        }
        if let OpeningCut::Flaps(plan) = &opening.cut {
            measures.push(measure(named("flap_depth"), plan.depth));
            measures.push(measure(named("flap_limit"), plan.limit));
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
        measure("folded_length", outside[0]),
        measure("folded_width", outside[1]),
        measure("folded_depth", outside[2]),
        measure("box_clearance_length", clearance[0]),
        measure("box_clearance_width", clearance[1]),
        measure("box_clearance_depth", clearance[2]),
        measure("blank_length", most.x - least.x),
        measure("blank_width", most.y - least.y),
    ]
}

/// Puts the promised figures first.
pub(super) fn put_in_order(measures: &mut [Measure]) {
    let rank = |measure: &Measure| {
        let first = FIRST.iter().position(|name| *name == measure.name);
        first.unwrap_or(if measure.name.contains('.') {
            FIRST.len() + 1
        } else {
            FIRST.len()
        })
    };
    measures.sort_by_key(rank);
}
