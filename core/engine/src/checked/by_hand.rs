//! A tray drawn with a ruler: how coarsely the places of its corners may be rounded.
//!
//! Given a tray that passed its checks; gives the coarser of two steps at which the tray with rounded corners passes them
//! too: card, slabs and folds, and clearances as sure as before. Judges nothing of the exact tray.

use traywright_document::{Unit, rounded};

use super::tolerance::{self, Clearance};
use super::{CheckedTray, clearances, clears, holds};
use crate::blank::proof::flaws;
use crate::blank::{Blank, FlatPanel};
use crate::folded::FoldedTray;
use crate::geometry::{Point, TOUCH_MM};
use crate::job::DrawnFace;
use crate::motion::{Folding, first_hit};
use crate::slabs::Slabs;

/// How deep panels of the rounded tray may meet, as a part of the caliper.
// Derived: a fold lies somewhere between the middle of the card and its face, so no tray of card is truer than that.
const MEET: f64 = 0.5;

/// Divisions of rulers, the coarser first, in mm.
// Source: common practice, none published: the finest marks of common rulers, and half of them by eye.
const fn steps(unit: Unit) -> [f64; 2] {
    match unit {
        Unit::Millimetre => [0.5, 0.25],
        Unit::Inch => [25.4 / 32.0, 25.4 / 64.0],
    }
}

/// The coarsest step to which corners may be rounded, counted from the left and the lower edge of the blank as the drawn
/// face is seen; none when the tray needs finer places.
pub(crate) fn coarsest_step(checked: &CheckedTray) -> Option<f64> {
    steps(checked.job.unit)
        .into_iter()
        .find(|&step| keeps(checked, step))
}

/// Whether the tray drawn on places of that step still passes.
fn keeps(checked: &CheckedTray, step: f64) -> bool {
    let job = &checked.job;
    let (least, most) = checked.blank.extent();
    let seen_from_below = job.drawn_face == DrawnFace::Outside;
    let round = |place: Point| {
        let y = least.y + rounded(place.y - least.y, step);
        let x = if seen_from_below {
            most.x - rounded(most.x - place.x, step)
        } else {
            least.x + rounded(place.x - least.x, step)
        };
        Point::new(x, y)
    };
    let tray = checked.tray.rounded(&round);
    let blank = Blank::lay(&tray);
    let vanishes = |panel: &FlatPanel| panel.outline.area() < TOUCH_MM;
    if blank.panels.iter().any(vanishes) || !flaws(&tray, &blank).is_empty() {
        return false;
    }
    let folded = FoldedTray::fold(&tray, &blank);
    let slabs = Slabs::of(&tray, &blank);
    let touch = MEET * tray.caliper;
    let folding = Folding {
        touch,
        ..Folding::of(&tray, &slabs)
    };
    let unsure = |clearances: &[Clearance]| {
        let all: Vec<&Clearance> = clearances.iter().collect();
        tolerance::judge(job, &all).len()
    };
    let before = clearances(job, &checked.tray, &checked.folded);
    let after = clearances(job, &tray, &folded);
    let told = checked.report.findings.iter();
    let loose = told.filter(|told| told.code == "wall-not-held").count();
    let has_room = after.iter().all(|clearance| clearance.value > 0.0);
    has_room
        && unsure(&after) <= unsure(&before)
        && clears::deepest(&tray, &slabs, &folded, touch).is_none()
        && first_hit(folding, &checked.order).is_none()
        && holds::judge(&holds::of(folding)).len() <= loose
}
