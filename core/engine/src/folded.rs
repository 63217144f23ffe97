//! The folded tray: every panel a solid of the caliper, posed by turning about the creases.
//!
//! Given a tray and its blank; gives each panel's rigid motion from the flat frame and the outside of the whole.
//! The folded frame is the flat frame of the root with z out of the drawn face; z = 0 is the middle of the root's card.
//! A valley's axis lies `hinge` above the middle of the card, a mountain's as far below: always towards the inside of
//! its own fold. Panels are rigid; whether solids meet is not asked here.

pub(crate) mod collisions;
mod fits;
mod fold;
mod places;
mod solids;

pub(crate) use fits::{clearances, stands_up};
pub(crate) use fold::{Exactness, Folded};
pub(crate) use solids::{PanelSolids, Tongues};

use crate::blank::Blank;
use crate::geometry::Point;
use crate::ids::IdVec;
use crate::tray::{Panel, PanelId, Tray};
use traywright_document::Pose;

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
                let place = motion.apply(corner);
                folded.least = std::array::from_fn(|axis| folded.least[axis].min(place[axis]));
                folded.most = std::array::from_fn(|axis| folded.most[axis].max(place[axis]));
                folded.footprint.push(Point::new(place[0], place[1]));
            }
        }
        folded
    }

    /// Outside of the folded tray along x, y and z.
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
