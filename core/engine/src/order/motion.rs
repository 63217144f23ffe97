//! Whether each fold of the order can be turned through its full angle.
//!
//! **Input:** a tray, its solids and an order. **Output:** the first blocked fold, the panel that it hits and the
//! angle. One crease turns at a time, with all panels beyond it; folded panels stay folded, the others are flat. The
//! flaps of one opening are not compared with each other: they only rub along their common cuts. On the way tongues are
//! left out of the collision test, because hands bend them past.

use super::contacts::first_entry;
use super::steps::{ActionKind, FoldOrder};
use crate::folded::{Bounds, Exactness, Folded, PanelSolids, Tongues};
use crate::geometry::{Point, TOUCH_MM};
use crate::ids::IdVec;
use crate::space::{ConvexSolid, Vec3, cross, dot, minus};
use crate::tray::poses::CreaseTurns;
use crate::tray::{HangsOn, Panel, PanelId, Tray};
use traywright_document::{Hinge, Pose};

/// A tray and its solids, to be folded.
#[derive(Clone, Copy)]
pub(crate) struct Folding<'t> {
    pub(crate) tray: &'t Tray,
    pub(crate) solids: &'t PanelSolids,
    pub(crate) turns: &'t CreaseTurns,
    /// Maximum penetration depth of two solids, while one turns, that counts as touching.
    pub(crate) touch: f64,
}

/// Maximum penetration depth of two panels, while one turns, that counts as touching.
// Source: common practice, none published; card gives way by far more.
const TOUCH_TURNING_MM: f64 = 0.05;

impl<'t> Folding<'t> {
    /// A folded tray, to be folded again crease by crease.
    pub(crate) fn of(folded: &'t Folded) -> Folding<'t> {
        let tray = folded.tray();
        Folding {
            tray,
            solids: &folded.solids,
            turns: &folded.turns,
            touch: match folded.exactness {
                Exactness::Drawn => TOUCH_TURNING_MM.min(tray.caliper / 4.0),
                Exactness::Rounded(touch) => touch,
            },
        }
    }
}

/// One fold that cannot be made.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Collision {
    /// The action with the fold.
    pub(crate) action: usize,
    /// The panel that is folded.
    pub(crate) panel: PanelId,
    /// The panel that it, or a panel hinged to it, hits.
    pub(crate) other: PanelId,
    /// The angle at which it is blocked.
    pub(crate) angle_deg: f64,
}

/// The first fold of the order that hits a panel.
pub(crate) fn first_collision(folding: Folding, order: &FoldOrder) -> Option<Collision> {
    let mut folded = IdVec::of_each(false, folding.tray.panels.len());
    for (action, step) in order.actions.iter().enumerate() {
        let ActionKind::Fold(panels) = &step.kind else {
            continue;
        };
        for &panel in panels {
            if let Some((other, angle_deg)) =
                FoldMotion::of(folding, &folded, panel).first_meeting()
            {
                return Some(Collision {
                    action,
                    panel,
                    other,
                    angle_deg,
                });
            }
        }
        for &panel in panels {
            folded[panel] = true;
        }
    }
    None
}

/// One crease about to turn, and all panels in the frame of its axis.
pub(crate) struct FoldMotion<'t> {
    folding: Folding<'t>,
    panel: PanelId,
    /// Whether each panel turns.
    turns: IdVec<Panel, bool>,
    /// Pose of each panel before the turn, in a frame whose third axis is the crease's and in which the fold turns
    /// positively.
    seen: IdVec<Panel, Pose>,
    /// The full angle.
    most: f64,
    /// Maximum penetration depth that counts as touching.
    touch: f64,
    /// Whether tongues are stiff, as in the finished tray, or bent by hands into their slits.
    tongues: Tongues,
}

impl<'t> FoldMotion<'t> {
    /// The fold of a panel while the panels of `folded` are folded and all others are flat.
    pub(crate) fn of(
        folding: Folding<'t>,
        folded: &IdVec<Panel, bool>,
        panel: PanelId,
    ) -> FoldMotion<'t> {
        let tray = folding.tray;
        let before = folding.turns.poses(tray, folded);
        let hanging = tray.panels[panel]
            .hanging
            .as_ref()
            .expect("only hung panels are folded");
        let frame = axis_frame(&tray.hinge_of(hanging), &before[hanging.parent]);
        let mut turns: IdVec<Panel, bool> = IdVec::default();
        for (other, hung) in tray.panels.enumerated() {
            let parent = hung.hanging.as_ref().map(|hanging| hanging.parent);
            let turns_too = parent.is_some_and(|parent| turns[parent]);
            turns.push(other == panel || turns_too);
        }
        let seen = before.iter().map(|motion| frame.after(motion)).collect();
        FoldMotion {
            folding,
            panel,
            turns,
            seen,
            most: hanging.fold_deg.abs().to_radians(),
            touch: folding.touch,
            tongues: Tongues::Bowed,
        }
    }

    /// The same crease turned the other way by at most `most_deg`, which opens a finished fold.
    pub(crate) fn back(mut self, most_deg: f64) -> FoldMotion<'t> {
        // Half a turn about the first axis reverses the third one and leaves both sides of the card where they are.
        let other_way = Pose {
            rows: [[1.0, 0.0, 0.0], [0.0, -1.0, 0.0], [0.0, 0.0, -1.0]],
            shift: [0.0; 3],
        };
        self.seen = self
            .seen
            .iter()
            .map(|motion| other_way.after(motion))
            .collect();
        self.most = most_deg.to_radians();
        self.touch = TOUCH_MM;
        self.tongues = Tongues::Stiff;
        self
    }

    /// The first panel that it touches, and the angle in degrees.
    pub(crate) fn first_meeting(&self) -> Option<(PanelId, f64)> {
        let placed = self.seen.enumerated();
        let bounds: IdVec<Panel, Bounds> = placed
            .map(|(panel, pose)| self.folding.solids.bounds(panel).placed(pose))
            .collect();
        let mut first: Option<(PanelId, f64)> = None;
        for turning in self.turns.ids_where(|&turns| turns) {
            for still in self.turns.ids_where(|&turns| !turns) {
                if bounds[turning].pass_by(&bounds[still]) {
                    continue;
                }
                let most = first.map_or(self.most, |(_, angle)| angle);
                if let Some(angle) = self.meeting(turning, still, most) {
                    first = Some((still, angle));
                }
            }
        }
        first.map(|(panel, angle)| (panel, angle.to_degrees()))
    }

    fn meeting(&self, turning: PanelId, still: PanelId, most: f64) -> Option<f64> {
        if self.only_rubs(turning, still) {
            return None;
        }
        let tray = self.folding.tray;
        let [one, other] = self.folding.solids.pair(tray, turning, still, self.tongues);
        let one: Vec<ConvexSolid> = one
            .into_iter()
            .map(|solid| solid.moved(&self.seen[turning]))
            .collect();
        let other: Vec<ConvexSolid> = other
            .into_iter()
            .map(|solid| solid.moved(&self.seen[still]))
            .collect();
        let pairs = one
            .iter()
            .flat_map(|one| other.iter().map(move |other| (one, other)));
        pairs
            .filter_map(|(one, other)| first_entry(one, other, most, self.touch))
            .min_by(f64::total_cmp)
    }

    /// Whether two panels share only a cut without width: the flaps of one opening, or a panel cut out of its parent's
    /// card and the parent. They rub along the cut as thick card does, which does not block the fold.
    fn only_rubs(&self, turning: PanelId, still: PanelId) -> bool {
        let tray = self.folding.tray;
        let flap = tray.flap_of(turning);
        let cut_out = tray.panels[turning]
            .hanging
            .as_ref()
            .is_some_and(|hanging| {
                turning == self.panel
                    && hanging.parent == still
                    && matches!(hanging.on, HangsOn::Opening { .. })
            });
        cut_out || flap.is_some() && flap == tray.flap_of(still)
    }
}

/// The transformation into a frame whose origin and third axis are a crease's, with its fold turning positively.
fn axis_frame(hinge: &Hinge, parent: &Pose) -> Pose {
    let sense = hinge.fold_deg.signum();
    let height = hinge.height * sense;
    let [origin, ahead] = hinge
        .line
        .map(|point: Point| parent.apply([point.x, point.y, height]));
    let along = minus(origin, ahead);
    let length = dot(along, along).sqrt();
    let third: Vec3 = along.map(|part| sense * part / length);
    let up = parent.turn([0.0, 0.0, 1.0]);
    let rows = [up, cross(third, up), third];
    Pose {
        rows,
        shift: rows.map(|row| -dot(row, origin)),
    }
}
