//! The folded tray in its closed box: every panel as solids, the floor, the lid and the walls.
//!
//! Lengths in mm. The frame: x along the box's length, y across it, z upwards from the box's floor; right-handed. The
//! tray is centred in its box.

use traywright_document::space::Vec3;
use traywright_document::{Orientation, Pose};

use crate::blank::Laid;
use crate::folded::{Folded, clearances, stands_up};
use crate::ids::IdVec;
use crate::space::ConvexSolid;
use crate::tray::{Panel, PanelId};

/// A tray in its box.
pub(super) struct Standing {
    /// The convex pieces of all panels.
    pub(super) pieces: Vec<Piece>,
    /// From the flat frame of each panel to its position in the box.
    pub(super) poses: IdVec<Panel, Pose>,
    /// Whether the tray stands on its root panel.
    pub(super) stands: Orientation,
    /// The underside of the closed lid.
    pub(super) lid: f64,
    /// The inner faces of the box's walls: least and greatest position along its length, then across.
    pub(super) walls: [[f64; 2]; 2],
}

/// A convex piece of a panel.
pub(super) struct Piece {
    pub(super) panel: PanelId,
    pub(super) solid: ConvexSolid,
    pub(super) least: Vec3,
    pub(super) most: Vec3,
}

impl Standing {
    /// The tray with all its folds made.
    pub(super) fn finished(folded: &Folded) -> Standing {
        Standing::with(folded, &folded.folded.motions)
    }

    /// The tray with the given pose of each panel, in the frame of the finished tray.
    pub(super) fn with(folded: &Folded, motions: &IdVec<Panel, Pose>) -> Standing {
        let (style, job) = (&folded.laid.drawn.style, &folded.laid.drawn.job);
        let outside = &folded.folded;
        let [along, across, _] = clearances(job, outside);
        let upright = match style.orientation {
            Orientation::RootDown => Pose::STILL,
            Orientation::RootUp => Pose::rotation([1.0, 0.0, 0.0], 180.0),
        };
        let (one, other) = (upright.apply(outside.least), upright.apply(outside.most));
        let up = stands_up(job, along.min(across)) - one[2].min(other[2]);
        let stand = Pose {
            shift: [0.0, 0.0, up],
            ..upright
        };
        let poses: IdVec<Panel, Pose> = motions.iter().map(|pose| stand.after(pose)).collect();
        let Laid { drawn, blank } = &folded.laid;
        let pieces = drawn.tray.panels.ids().flat_map(|panel| {
            let solids = folded.solids.beside_items(&drawn.tray, blank, panel);
            let pose = &poses[panel];
            solids
                .into_iter()
                .map(move |solid| Piece::of(panel, solid.moved(pose)))
        });
        let wall = |axis: usize, room: f64| {
            let (least, most) = (one[axis].min(other[axis]), one[axis].max(other[axis]));
            [least - room / 2.0, most + room / 2.0]
        };
        Standing {
            pieces: pieces.collect(),
            stands: style.orientation,
            lid: job.box_size.depth.mm(),
            walls: [wall(0, along), wall(1, across)],
            poses,
        }
    }

    /// The pieces that reach into a layer.
    pub(super) fn between(&self, [low, high]: [f64; 2]) -> impl Iterator<Item = &Piece> {
        self.pieces
            .iter()
            .filter(move |piece| piece.most[2] > low && piece.least[2] < high)
    }
}

impl Piece {
    /// Whether the piece overlaps a rectangle of the plan.
    pub(super) fn lies_over(&self, rectangle: [[f64; 2]; 2]) -> bool {
        let overlaps = |axis: usize| {
            let [least, most] = rectangle[axis];
            self.most[axis] > least && self.least[axis] < most
        };
        overlaps(0) && overlaps(1)
    }

    fn of(panel: PanelId, solid: ConvexSolid) -> Piece {
        let (mut least, mut most) = ([f64::INFINITY; 3], [f64::NEG_INFINITY; 3]);
        for corner in &solid.corners {
            least = std::array::from_fn(|axis| least[axis].min(corner[axis]));
            most = std::array::from_fn(|axis| most[axis].max(corner[axis]));
        }
        Piece {
            panel,
            solid,
            least,
            most,
        }
    }
}
