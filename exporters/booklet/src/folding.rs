//! How the tray lies on the table after each action of the hands.
//!
//! Given the document; gives a stage before the first action and one after each. Poses follow from the creases and the
//! angles reached. The hands see the card with its hidden face up, whichever face carries the lines, until they turn it
//! over.

use traywright_document::{Action, Document, DrawnFace, Pose};

use crate::card::Card;
use crate::space::{STILL, joined, rotation, turn};

/// The tray between two actions.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Stage {
    /// The angle of every panel's crease.
    pub(crate) angles: Vec<f64>,
    /// Whether it was turned over.
    pub(crate) turned: bool,
    /// Whether the items are in.
    pub(crate) placed: bool,
    drawn_face: DrawnFace,
}

/// The stages, one more than there are steps.
pub(crate) fn stages(document: &Document) -> Vec<Stage> {
    let mut stage = Stage {
        angles: vec![0.0; document.panels.len()],
        turned: false,
        placed: false,
        drawn_face: document.drawn_face,
    };
    let mut stages = vec![stage.clone()];
    for step in &document.steps {
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
        }
        stages.push(stage.clone());
    }
    stages
}

impl Stage {
    /// Where every panel stands: the pose that takes it from the flat frame onto the table, z up.
    pub(crate) fn poses(&self, card: &Card) -> Vec<Pose> {
        let mut poses: Vec<Pose> = Vec::with_capacity(card.panels.len());
        for (index, panel) in card.panels.iter().enumerate() {
            let pose = match panel.hinge {
                Some((hinge, outwards)) if hinge.parent < index => {
                    let turn = turn(&hinge, outwards, self.angles[index]);
                    joined(&poses[hinge.parent], &turn)
                }
                _ => self.lie(),
            };
            poses.push(pose);
        }
        poses
    }

    /// How the root lies on the table.
    pub(crate) fn lie(&self) -> Pose {
        let hidden_face_up = match self.drawn_face {
            DrawnFace::Inside => STILL,
            DrawnFace::Outside => rotation([0.0, 1.0, 0.0], 180.0),
        };
        if self.turned {
            joined(&rotation([1.0, 0.0, 0.0], 180.0), &hidden_face_up)
        } else {
            hidden_face_up
        }
    }
}
