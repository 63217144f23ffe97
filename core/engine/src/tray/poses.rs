//! Positions of a tray's panels when its creases are turned.

use super::{Panel, PanelId, Tray};
use crate::ids::IdVec;
use traywright_document::Pose;

impl Tray {
    /// Each panel's pose, from the flat into the folded frame, when every crease is turned to the angle from
    /// `fold_deg`.
    pub(crate) fn poses(&self, fold_deg: impl Fn(PanelId) -> f64) -> IdVec<Panel, Pose> {
        let mut poses: IdVec<Panel, Pose> = IdVec::default();
        for (id, panel) in self.panels.enumerated() {
            let pose = match &panel.hanging {
                Some(hanging) => {
                    let turned = self.hinge_of(hanging).fold(fold_deg(id));
                    poses[hanging.parent].after(&turned)
                }
                None => Pose::STILL,
            };
            poses.push(pose);
        }
        poses
    }
}

/// The turn of every panel about its crease, flat and folded: both are worked out once for the many states of a folding.
#[derive(Clone, Debug)]
pub(crate) struct CreaseTurns {
    /// By panel, when its crease is flat and when it is folded.
    turns: IdVec<Panel, [Pose; 2]>,
}

impl CreaseTurns {
    /// The turns of a tray.
    pub(crate) fn of(tray: &Tray) -> CreaseTurns {
        let turns = tray.panels.iter().map(|panel| match &panel.hanging {
            Some(hanging) => {
                let hinge = tray.hinge_of(hanging);
                [0.0, hanging.fold_deg].map(|angle| hinge.fold(angle))
            }
            None => [Pose::STILL; 2],
        });
        CreaseTurns {
            turns: turns.collect(),
        }
    }

    /// Each panel's pose, from the flat into the folded frame, while the panels of `folded` are folded and all others
    /// are flat.
    pub(crate) fn poses(&self, tray: &Tray, folded: &IdVec<Panel, bool>) -> IdVec<Panel, Pose> {
        let mut poses: IdVec<Panel, Pose> = IdVec::default();
        for (id, panel) in tray.panels.enumerated() {
            let turn = &self.turns[id][usize::from(folded[id])];
            let parent = panel.hanging.as_ref().map(|hanging| hanging.parent);
            poses.push(parent.map_or(Pose::STILL, |parent| poses[parent].after(turn)));
        }
        poses
    }
}
