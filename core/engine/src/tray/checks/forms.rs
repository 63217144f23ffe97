//! Whether an opening has the form that the job asks for: the item's curve, and finger notches.
//!
//! **Input:** an opening as it is cut. **Output:** each request that was not followed, with the reason, and notches
//! wider than their edge.

use super::openings::place;
use crate::finding::{Advice, BuiltIn, Change, Clause, Finding, Fix, Place};
use crate::geometry::TOUCH_MM;
use crate::job::{Cut, Item, ItemShape, Unit};
use crate::style::text::{SlotCut, SlotEntry};
use crate::tray::{Opening, OpeningCut};
use crate::values::Values;

/// Checks the form of an opening for an item.
pub(super) fn judge(
    values: &Values,
    opening: &Opening,
    slot: &SlotEntry,
    item: &Item,
) -> Vec<Finding> {
    let job = values.job;
    let unasked =
        slot.cut != SlotCut::Job && job.slot.place.is_some() && job.cut_of(item) != Cut::Open;
    let unnotched = job.finger_of(item).is_some() && opening.form.finger.is_none();
    let straight = item.shape != ItemShape::Rectangle && !opening.form.curved;
    let found = [
        unasked.then(|| ignored(opening, BuiltIn::FlapsNotCut)),
        unnotched.then(|| ignored(opening, BuiltIn::NotchesNotCut)),
        straight.then(|| as_rectangle(opening, item)),
        opening
            .form
            .finger
            .and_then(|finger| too_wide(opening, item, finger, job.unit)),
    ];
    found.into_iter().flatten().collect()
}

/// A request of the job for the opening that the style does not follow.
fn ignored(opening: &Opening, found: BuiltIn) -> Finding {
    let place = Place::Opening {
        opening: opening.name.clone(),
        item: None,
    };
    Finding::new(found, place)
}

/// A curved item whose opening is the rectangle around it.
fn as_rectangle(opening: &Opening, item: &Item) -> Finding {
    let shape = match item.shape {
        ItemShape::Round => Clause::Round,
        _ => Clause::Oval,
    };
    let flaps = matches!(opening.cut, OpeningCut::Flaps(_));
    let found = BuiltIn::ShapeAsRectangle {
        item: item.name.clone(),
        shape,
        hang: if flaps { Clause::Flaps } else { Clause::Panels },
    };
    let found = Finding::new(found, place(opening, item));
    if flaps {
        return found.with_fix(Advice::ChangeCutsCurve.by(Change::open_cut()));
    }
    found
}

/// Notches wider than their edge.
fn too_wide(opening: &Opening, item: &Item, finger: f64, unit: Unit) -> Option<Finding> {
    let edge = opening.rect.length.max(opening.rect.width);
    (finger > edge + TOUCH_MM).then(|| {
        // Source: common practice, none published: a notch takes up to half of its edge.
        let narrower = Change::at_most("slot", "finger", edge / 2.0, unit);
        let fix = Fix {
            says: Advice::Change,
            ways: vec![vec![Change::open_cut(), narrower]],
        };
        let found = Finding::new(BuiltIn::FingerTooWide, place(opening, item));
        found.measured(finger, edge).with_fix(fix)
    })
}
