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
