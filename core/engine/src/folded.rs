//! The folded tray: every panel as a solid of the card's thickness, posed by rotation about the creases.
//!
//! **Input:** a tray and its blank. **Output:** each panel's rigid motion from the flat frame, and the outer size. The
//! folded frame is the flat frame of the root with z out of the drawn face; z = 0 is the middle of the root's card. The
//! axis of a valley fold lies `hinge` above the middle of the card and that of a mountain fold as far below: always
//! towards the inside of its own fold. Panels are rigid. **Does not** check for collisions.

mod bounds;
pub(crate) mod collisions;
mod fits;
mod fold;
mod places;
mod reaches;
mod solids;

pub(crate) use bounds::Bounds;
pub(crate) use fits::{clearances, stands_up};
pub(crate) use fold::{Exactness, Folded};
pub(crate) use reaches::{Reach, is_cut};
pub(crate) use solids::{PanelSolids, Tongues};

use crate::blank::Blank;
use crate::geometry::Point;
use crate::ids::IdVec;
use crate::tray::{Panel, PanelId, Tray};
use std::f64::consts::FRAC_PI_2;

use traywright_document::steady::Steady;
use traywright_document::{Hinge, Pose};

/// A tray in space.
#[derive(Clone, Debug)]
pub(crate) struct FoldedTray {
    /// Pose of each panel from the flat into the folded frame.
    pub(crate) motions: IdVec<Panel, Pose>,
    /// Least and greatest coordinates of all panel solids.
    pub(crate) least: [f64; 3],
    pub(crate) most: [f64; 3],
    /// Corners of all panel solids, seen from above.
    pub(crate) footprint: Vec<Point>,
}

impl FoldedTray {
    /// Folds every crease to its angle.
    pub(crate) fn fold(tray: &Tray, blank: &Blank) -> FoldedTray {
        let fold = |panel: PanelId| {
            tray.panels[panel]
                .hanging
                .as_ref()
                .map_or(0.0, |hanging| hanging.fold_deg)
        };
        let motions = tray.poses(fold);
        let mut folded = FoldedTray {
            motions,
            least: [f64::INFINITY; 3],
            most: [f64::NEG_INFINITY; 3],
            footprint: Vec::new(),
        };
        for (panel, motion) in folded.motions.clone().enumerated() {
            for corner in solid_corners(tray, blank, panel) {
                folded.reach(motion.apply(corner));
            }
            let Some(hanging) = &tray.panels[panel].hanging else {
                continue;
            };
            let parent = folded.motions[hanging.parent];
            for corner in bend_corners(&tray.hinge_of(hanging), tray.caliper) {
                folded.reach(parent.apply(corner));
            }
        }
        folded
    }

    /// Extends the outer size to include a corner of the card.
    fn reach(&mut self, place: [f64; 3]) {
        self.least = std::array::from_fn(|axis| self.least[axis].min(place[axis]));
        self.most = std::array::from_fn(|axis| self.most[axis].max(place[axis]));
        self.footprint.push(Point::new(place[0], place[1]));
    }

    /// Outer size of the folded tray along x, y and z.
    pub(crate) fn outside(&self) -> [f64; 3] {
        std::array::from_fn(|axis| self.most[axis] - self.least[axis])
    }
}

/// Corners of a panel's solid in the flat frame, below and above.
pub(crate) fn solid_corners(
    tray: &Tray,
    blank: &Blank,
    panel: PanelId,
) -> impl Iterator<Item = [f64; 3]> {
    let half = tray.caliper / 2.0;
    let points: Vec<Point> = blank.panels[panel].outline.points().collect();
    points
        .into_iter()
        .flat_map(move |point| [[point.x, point.y, -half], [point.x, point.y, half]])
}

/// Corners around the outside of a bend, in the flat frame of the panel whose crease it is.
// Derived: the outer side turns about the hinge at the radius caliper / 2 + height. Where its two ends are continued until
// they meet, the corner lies radius × tan(angle / 2) beyond the crease, as in the crease rule. A bend of more than a right
// angle is bounded by two corners, each of half the angle.
fn bend_corners(hinge: &Hinge, caliper: f64) -> Vec<[f64; 3]> {
    let angle = hinge.fold_deg.abs().to_radians();
    let radius = caliper / 2.0 + hinge.height;
    let (inwards, corners) = (
        hinge.fold_deg.signum(),
        if angle > FRAC_PI_2 + 1e-9 { 2 } else { 1 },
    );
    let part = angle / f64::from(2 * corners);
    let far = radius / part.steady_cos();
    let corner = |at: i32| {
        let turned = part * f64::from(2 * at + 1);
        let (beyond, out) = (far * turned.steady_sin(), far * turned.steady_cos());
        let height = inwards * (hinge.height - out);
        hinge.line.map(|end| {
            let place = end + hinge.into_panel() * beyond;
            [place.x, place.y, height]
        })
    };
    (0..corners).flat_map(corner).collect()
}
