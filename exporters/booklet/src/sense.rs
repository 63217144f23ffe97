//! The sense of a fold as hands know it: up, down, over, in, out.
//!
//! Given the stages before and after; derives the sense from the directions in which the panel extends from its crease.
//! It knows no panel's name.

use crate::card::Card;
use traywright_document::space::{Vec3, dot, minus};
use traywright_document::{Stage, Vector};

/// The way a panel goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Sense {
    Up,
    Down,
    Over,
    In,
    Out,
}

/// From so steep on a way is up or down.
// Derived: 30 degrees, the angle halfway to the next of three equal parts of a right angle.
const STEEP: f64 = 0.5;

impl Sense {
    /// How a panel moved between two stages.
    pub(crate) fn of(card: &Card, before: &Stage, after: &Stage, panel: usize) -> Sense {
        let Some(hinge) = card.panels[panel].hinge else {
            return Sense::Up;
        };
        let Vector { x, y } = hinge.into_panel();
        let reaches = |stage: &Stage| card.poses(stage)[panel].turn([x, y, 0.0]);
        let (was, is) = (reaches(before), reaches(after));
        if is[2] > STEEP {
            return Sense::Up;
        }
        if is[2] < -STEEP {
            return Sense::Down;
        }
        if was[2].abs() > STEEP || dot(was, is) < -STEEP {
            return Sense::Over;
        }
        let poses = card.poses(after);
        let centre: Vec3 = poses[0].apply(card.panels[0].root());
        let crease = poses[panel].apply(card.panels[panel].root());
        if dot(is, minus(centre, crease)) < 0.0 {
            Sense::Out
        } else {
            Sense::In
        }
    }
}
