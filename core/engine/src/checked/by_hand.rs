//! A tray drawn with a ruler: how coarsely the places of its corners may be rounded.
//!
//! Given a tray that passed its checks; gives the coarser of two steps at which the tray with rounded corners still makes
//! one blank, folds in its order, goes into its box and takes its items. Its slabs may meet a little deeper than the exact
//! tray's, see [`MEET`]; the style's own rules and the card that stays around openings are not asked again.

use traywright_document::{Extent, rounded};

use super::tolerance::{Clearance, spread};
use super::{CheckedTray, clearances, collisions, wall_support};
use crate::blank::flat_check::flaws;
use crate::blank::{Blank, FlatPanel};
use crate::finding::{BuiltIn, Finding};
use crate::folded::FoldedTray;
use crate::geometry::Point;
use crate::job::{DrawnFace, Job};
use crate::motion::{Folding, first_collision};
use crate::solids::PanelSolids;
use crate::tray::Tray;

/// How deep panels of the rounded tray may meet, as a part of the caliper and as a part of the step, whichever is less.
// Derived: a fold lies somewhere between the middle of the card and its face, so no tray of card is truer than half a
// caliper; and a place that is rounded moves by half a step, so what meets deeper has lost more than one rounding.
const MEET: f64 = 0.5;

/// A panel with less card than this has vanished, in mm².
// Derived: the narrowest strip that is cut, 0.01 mm, over a length of as much.
const VANISHED_MM2: f64 = 1e-4;

/// The coarsest step to which corners may be rounded, counted from the left and the lower edge of the blank as the drawn
/// face is seen; none when the tray needs finer places.
pub(crate) fn coarsest_step(checked: &CheckedTray) -> Option<f64> {
    let steps = checked.job.unit.ruler_steps();
    steps.into_iter().find(|&step| keeps(checked, step))
}

/// Whether the tray drawn on places of that step still passes.
fn keeps(checked: &CheckedTray, step: f64) -> bool {
    let tray = checked.tray.rounded(&on_marks(checked, step));
    let blank = Blank::lay(&tray);
    let vanishes = |panel: &FlatPanel| panel.outline.area() < VANISHED_MM2;
    if blank.panels.iter().any(vanishes) || !flaws(&tray, &blank).is_empty() {
        return false;
    }
    let (folded, solids) = (
        FoldedTray::fold(&tray, &blank),
        PanelSolids::of(&tray, &blank),
    );
    let touch = MEET * tray.caliper.min(step);
    let folding = Folding {
        touch,
        ..Folding::of(&tray, &solids)
    };
    clearances_remain_certain(checked, &tray, &folded)
        && collisions::deepest(&tray, &solids, &folded, touch).is_none()
        && first_collision(folding, &checked.order).is_none()
        && wall_support::judge(&wall_support::of(folding)).len() <= loose(checked)
}

/// Rounds places of the flat frame.
fn on_marks(checked: &CheckedTray, step: f64) -> impl Fn(Point) -> Point {
    let Extent { least, most } = checked.blank.extent();
    let seen_from_below = checked.job.drawn_face == DrawnFace::Outside;
    move |place: Point| {
        let y = least.y + rounded(place.y - least.y, step);
        let x = if seen_from_below {
            most.x - rounded(most.x - place.x, step)
        } else {
            least.x + rounded(place.x - least.x, step)
        };
        Point::new(x, y)
    }
}

/// Whether every clearance is left, and none that was sure has become unsure.
fn clearances_remain_certain(checked: &CheckedTray, tray: &Tray, folded: &FoldedTray) -> bool {
    let job: &Job = &checked.job;
    let uncertain_clearances = spread(job).expanded;
    let before = clearances(job, &checked.tray, &checked.folded);
    let after = clearances(job, tray, folded);
    let stays = |(before, after): (&Clearance, &Clearance)| {
        after.value > 0.0
            && (after.value >= uncertain_clearances || before.value < uncertain_clearances)
    };
    before.iter().zip(&after).all(stays)
}

/// How many families of walls nothing but the box holds.
fn loose(checked: &CheckedTray) -> usize {
    let found = checked.report.findings.iter();
    let loose = |found: &&Finding| matches!(found.built_in(), Some(BuiltIn::WallNotHeld));
    found.filter(loose).count()
}
