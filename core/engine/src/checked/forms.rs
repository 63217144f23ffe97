//! Whether an opening has the form that the job asks for: the item's curve, and notches for fingers.
//!
//! Given an opening as it is cut; gives what was left aside, with the reason, and notches that are wider than the edge
//! they sit on.

use super::finding;
use super::openings::called;
use crate::finding::{Finding, Level};
use crate::geometry::TOUCH_MM;
use crate::job::{Cut, Item, ItemShape, Unit};
use crate::style::text::{SlotCut, SlotEntry};
use crate::tray::{Opening, OpeningCut};
use crate::values::Values;
use crate::wording::{lengths_apart, setting};

/// Judges the form of an opening for an item.
pub(super) fn judge(
    values: &Values,
    opening: &Opening,
    slot: &SlotEntry,
    item: &Item,
) -> Vec<Finding> {
    let job = values.job;
    let unasked = slot.cut != SlotCut::Job && job.slot.place.is_some() && job.slot.cut != Cut::Open;
    let unnotched = job.slot.finger.is_some() && opening.form.finger.is_none();
    let straight = item.shape != ItemShape::Rectangle && !opening.form.curved;
    let found = [
        unasked.then(|| {
            let why = format!("the style cuts no flaps at {}", opening.name);
            let message = format!("{why}, so the job's `slot` is left aside");
            finding(Level::Note, "slot-ignored", opening.name.clone(), message)
        }),
        unnotched.then(|| {
            let why = format!("panels of the style hang on the edges of {}", opening.name);
            let message = format!("{why}, so it has no finger notches");
            finding(Level::Note, "slot-ignored", opening.name.clone(), message)
        }),
        straight.then(|| as_rectangle(opening, item)),
        opening
            .form
            .finger
            .and_then(|finger| too_wide(opening, item, finger, job.unit)),
    ];
    found.into_iter().flatten().collect()
}

/// A curved item whose opening is the rectangle around it.
fn as_rectangle(opening: &Opening, item: &Item) -> Finding {
    let is = match item.shape {
        ItemShape::Round => "round",
        _ => "oval",
    };
    let (hang, fix) = match opening.cut {
        OpeningCut::Flaps(_) => ("flaps", Some("slot cut=\"open\", which cuts the curve")),
        _ => ("panels", None),
    };
    let message = format!(
        "{} is {is}, but {hang} hang on straight edges: its opening is the rectangle around it",
        item.name
    );
    let place = called(opening, item);
    let found = finding(Level::Note, "shape-as-rectangle", place, message);
    match fix {
        Some(fix) => found.with_fix(fix),
        None => found,
    }
}

/// Notches wider than the edge they sit on.
fn too_wide(opening: &Opening, item: &Item, finger: f64, unit: Unit) -> Option<Finding> {
    let edge = opening.rect.length.max(opening.rect.width);
    (finger > edge + TOUCH_MM).then(|| {
        let (is, most) = lengths_apart(finger, edge, unit);
        let message = format!("the finger notches are {is} wide, and their edge is {most} long");
        // Source: common practice, none published: a notch takes up to half of its edge.
        let fix = format!("slot cut=\"open\" finger={}", setting(edge / 2.0, unit));
        let place = called(opening, item);
        finding(Level::Error, "finger-too-wide", place, message)
            .measured(finger, edge)
            .with_fix(fix)
    })
}
