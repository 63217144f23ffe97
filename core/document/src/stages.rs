//! How the tray lies on the table before and after each action of the hands.
//!
//! **Input:** a document. **Output:** one stage before the first action and one after each; poses follow from the
//! hinges and the current angles. Until the tray is turned over, the card lies with the face up that will be inside the
//! finished tray, whichever face carries the lines.

use crate::panels::{Panel, Pose};
use crate::steps::Action;
use crate::{Document, DrawnFace};

/// The tray between two actions.
#[derive(Clone, Debug, PartialEq)]
pub struct Stage {
    /// The angle of every panel's crease.
    pub angles: Vec<f64>,
    /// Whether the tray was turned over.
    pub turned: bool,
    /// Whether the items are in.
    pub placed: bool,
    drawn_face: DrawnFace,
}

impl Document {
    /// The stages, one more than there are steps.
    pub fn stages(&self) -> Vec<Stage> {
        let mut stage = Stage {
            angles: vec![0.0; self.panels.len()],
            turned: false,
            placed: false,
            drawn_face: self.output.drawn_face,
        };
        let mut stages = vec![stage.clone()];
        for step in &self.steps {
            match &step.action {
                Action::Fold(moves) => {
                    for one in moves {
                        if let Some(angle) = stage.angles.get_mut(one.panel) {
                            *angle = one.to_deg;
                        }
                    }
                }
                Action::Turn => stage.turned = !stage.turned,
                Action::Place => stage.placed = true,
                Action::Other(_) => {}
            }
            stages.push(stage.clone());
        }
        stages
    }
}

impl Stage {
    /// The position of every panel: the pose that takes it from the flat frame onto the table, z up.
    pub fn poses(&self, panels: &[Panel]) -> Vec<Pose> {
        let mut poses: Vec<Pose> = Vec::with_capacity(panels.len());
        for (index, panel) in panels.iter().enumerate() {
            let pose = match &panel.hinge {
                Some(hinge) if hinge.parent < index => {
                    poses[hinge.parent].after(&hinge.fold(self.angles[index]))
                }
                _ => self.lie(),
            };
            poses.push(pose);
        }
        poses
    }

    /// The position of the root on the table.
    pub fn lie(&self) -> Pose {
        let hidden_face_up = match self.drawn_face {
            DrawnFace::Inside => Pose::STILL,
            DrawnFace::Outside => Pose::rotation([0.0, 1.0, 0.0], 180.0),
        };
        if self.turned {
            Pose::rotation([1.0, 0.0, 0.0], 180.0).after(&hidden_face_up)
        } else {
            hidden_face_up
        }
    }
}
