//! The stage between the checked tray and its document: the coarsest ruler step for drawing it by hand.
//!
//! A copy of the tray, with its corners rounded to this step, is put through the same stages again. Its panels may overlap a little deeper than those of the exact
//! tray, see [`MEET`]; the style's own rules and the card left around openings are not checked again.

use traywright_document::rounded;

use crate::CheckedTray;
use crate::blank::{FlatPanel, Laid};
use crate::checked::Clearance;
use crate::folded::{Exactness, Folded};
use crate::geometry::Point;
use crate::holding::Held;
use crate::job::DrawnFace;
use crate::order::Ordered;
use crate::tray::Drawn;

/// Maximum penetration depth of the rounded tray's panels, as a part of the thickness and as a part of the step.
// Derived: a fold lies somewhere between the middle of the card and its face, so no tray of card is truer than half a
// caliper; and a place that is rounded moves by half a step, so what meets deeper has lost more than one rounding.
const MEET: f64 = 0.5;

/// A panel with less card than this has vanished, in mm².
// Derived: the narrowest strip that is cut, 0.01 mm, over a length of as much.
const VANISHED_MM2: f64 = 1e-4;

/// A checked tray with the coarsest step to which a maker may round the positions of its corners.
#[derive(Clone, Copy, Debug)]
pub struct FinishedTray<'t> {
    pub(crate) checked: &'t CheckedTray,
    /// Counted from the left and the lower edge of the blank seen from the drawn face; none if the tray needs finer
    /// positions, and none from [`unrounded`](CheckedTray::unrounded), which does not search.
    pub(crate) hand_step: Option<f64>,
}

impl CheckedTray {
    /// Finds the coarsest of the ruler's usual steps at which the rounded tray still folds and fits.
    pub fn finish(&self) -> FinishedTray<'_> {
        let steps = self.drawn().job.unit.ruler_steps();
        FinishedTray {
            checked: self,
            hand_step: steps.into_iter().find(|&step| keeps(self, step)),
        }
    }

    /// The tray without a search for a step, for a report that does not use it.
    pub fn unrounded(&self) -> FinishedTray<'_> {
        FinishedTray {
            checked: self,
            hand_step: None,
        }
    }
}

/// Whether the tray still passes if it is drawn on positions of that step.
fn keeps(checked: &CheckedTray, step: f64) -> bool {
    let tray = checked.drawn().tray.moved(&on_marks(checked, step));
    let touch = MEET * tray.caliper.min(step);
    let drawn = Drawn {
        tray,
        ..checked.drawn().clone()
    };
    let vanishes = |panel: &FlatPanel| panel.outline.area() < VANISHED_MM2;
    let ordered = Laid::lay(drawn)
        .sound()
        .filter(|laid| !laid.blank.panels.iter().any(vanishes))
        .and_then(|laid| Folded::fold(laid, Exactness::Rounded(touch)).sound())
        .filter(|folded| {
            !checked.drawn().job.has_box() || clearances_remain_certain(checked, folded)
        })
        .and_then(|folded| Ordered::keep(folded, &checked.ordered().order))
        .filter(|ordered| Held::hold(ordered.stage.clone()).sound().is_some());
    let loose = |ordered: &Ordered| {
        ordered
            .support
            .iter()
            .filter(|wall| wall.stop.is_none())
            .count()
    };
    ordered.is_some_and(|ordered| loose(&ordered.stage) <= loose(checked.ordered()))
}

/// Rounds positions of the flat frame.
fn on_marks(checked: &CheckedTray, step: f64) -> impl Fn(Point) -> Point {
    let traywright_document::Extent { least, most } = checked.laid().blank.extent();
    let seen_from_below = checked.drawn().job.output.drawn_face == DrawnFace::Outside;
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

/// Whether every clearance remains, and none that was certain has become uncertain.
fn clearances_remain_certain(checked: &CheckedTray, rounded: &Folded) -> bool {
    let before = Clearance::all(checked.folded());
    let after = Clearance::all(rounded);
    let stays = |(before, after): (&Clearance, &Clearance)| {
        let certain = |clearance: &Clearance| clearance.value >= clearance.expanded();
        after.value > 0.0 && (certain(after) || !certain(before))
    };
    before.iter().zip(&after).all(stays)
}
