//! How far each panel can reach, however the creases are folded.
//!
//! **Input:** a folded tray. **Output:** for each panel a ball that contains it and all panels beyond it, whatever is
//! folded. A panel turns about its crease, so no part of it comes farther from the middle of the crease than it is on the flat card. If two
//! panels hang on the same panel, and in its frame their balls have no point in common, they never meet.

use traywright_document::Hinge;

use super::motion::Folding;
use crate::ids::IdVec;
use crate::space::{Vec3, dot, minus};
use crate::tray::{Panel, PanelId, Tray};

/// How far apart balls must lie; more than all rounding errors.
// Derived: the same as the distance within which two solids count as being in contact.
const APART_MM: f64 = 1e-6;

/// The balls of all panels.
pub(super) struct FoldReach<'t> {
    tray: &'t Tray,
    /// By panel, in the flat frame; the root does not move and has none.
    balls: IdVec<Panel, Option<Ball>>,
}

/// A ball around the middle of a crease.
#[derive(Clone, Copy)]
struct Ball {
    middle: Vec3,
    radius: f64,
}

impl<'t> FoldReach<'t> {
    /// The balls of a folded tray.
    pub(super) fn of(folding: Folding<'t>) -> FoldReach<'t> {
        let tray = folding.tray;
        let ball = |panel: PanelId| {
            let hanging = tray.panels[panel].hanging.as_ref()?;
            let middle = middle(&tray.hinge_of(hanging));
            let radius = folding.solids.bounds(panel).farthest(middle);
            Some(Ball { middle, radius })
        };
        let mut balls: IdVec<Panel, Option<Ball>> = tray.panels.ids().map(ball).collect();
        // A panel has a later id than the panel it hangs on, so its own ball is complete when it widens that one's.
        for panel in tray.panels.ids().rev() {
            let (Some(own), Some(parent)) = (balls[panel], parent(tray, panel)) else {
                continue;
            };
            if let Some(ball) = &mut balls[parent] {
                let away = minus(own.middle, ball.middle);
                ball.radius = ball.radius.max(dot(away, away).sqrt() + own.radius);
            }
        }
        FoldReach { tray, balls }
    }

    /// Whether a fold of one panel, with all beyond it, can meet or move another one or any beyond that.
    pub(super) fn may_meet(&self, one: PanelId, other: PanelId) -> bool {
        let (mut one, mut other) = (one, other);
        // Of two panels on different parents, the one with the later parent is not yet a child of the common one.
        while one != other {
            let parents = [one, other].map(|panel| parent(self.tray, panel));
            if parents[0] == parents[1] {
                return self.overlap(one, other);
            }
            match parents {
                [Some(up), below] if Some(up) > below => one = up,
                [_, Some(up)] => other = up,
                _ => return true,
            }
        }
        // One hangs on the other.
        true
    }

    fn overlap(&self, one: PanelId, other: PanelId) -> bool {
        let (Some(one), Some(other)) = (self.balls[one], self.balls[other]) else {
            return true;
        };
        let away = minus(one.middle, other.middle);
        dot(away, away).sqrt() <= one.radius + other.radius + APART_MM
    }
}

fn parent(tray: &Tray, panel: PanelId) -> Option<PanelId> {
    let hanging = tray.panels[panel].hanging.as_ref();
    hanging.map(|hanging| hanging.parent)
}

/// The middle of a crease, on the axis of its fold.
fn middle(hinge: &Hinge) -> Vec3 {
    let middle = hinge.line[0].middle(hinge.line[1]);
    [middle.x, middle.y, hinge.height * hinge.fold_deg.signum()]
}
