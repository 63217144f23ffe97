//! Corners that are added to the shapes of panels and removed from them.
//!
//! **Input:** points of the flat frame. **Output:** the tray whose panels have one more corner on an edge, or one fewer.
//! The names of edges, and the tongues and cut-outs on them, stay with the part of the edge that keeps its place.

use super::{Panel, PanelId, Tray};
use crate::geometry::{Point, TOUCH_MM};
use crate::values::ShapeCorner;

impl Tray {
    /// Makes a point on an edge beside a corner a corner of its own, in every panel with such a corner and such an edge.
    /// Whatever hangs on the edge is then on its part away from the first corner.
    pub(crate) fn add_corner_beside(&mut self, corner: Point, on: Point) {
        for id in self.panels.ids() {
            let frame = self.frames[id];
            let (corner, on) = (frame.from_outside(corner), frame.from_outside(on));
            self.panels[id].add_corner_beside(corner, on);
        }
    }

    /// Removes the corner at a point from every panel.
    pub(crate) fn drop_corner(&mut self, corner: Point) {
        for id in self.panels.ids() {
            let corner = self.frames[id].from_outside(corner);
            self.panels[id].drop_corner(corner);
        }
    }

    /// The creases of all panels in the flat frame.
    pub(crate) fn creases(&self) -> Vec<[Point; 2]> {
        let panels = PanelId::up_to(self.panels.len());
        panels
            .filter_map(|panel| self.panels[panel].hanging.as_ref())
            .map(|hanging| self.hinge_of(hanging).line)
            .collect()
    }
}

impl Panel {
    fn add_corner_beside(&mut self, corner: Point, on: Point) {
        let corners = &self.shape.corners;
        let count = corners.len();
        let Some(at) = corners.iter().position(|known| known.at.touches(corner)) else {
            return;
        };
        let (before, next) = ((at + count - 1) % count, (at + 1) % count);
        if lies_between(on, corners[at].at, corners[next].at) {
            let edge = self.shape.corners[at].edge.take();
            self.insert(at, ShapeCorner { at: on, edge });
        } else if lies_between(on, corners[before].at, corners[at].at) {
            self.insert(before, ShapeCorner { at: on, edge: None });
        }
    }

    /// Puts a corner on the edge that begins at another corner.
    fn insert(&mut self, edge: usize, corner: ShapeCorner) {
        let from = self.shape.corners[edge].at;
        let far = (corner.at - from).length();
        for run in self.tongues.iter_mut().chain(&mut self.edge_cutouts) {
            let beyond = (run.first().at - from).length() > far - TOUCH_MM;
            if run.edge > edge || run.edge == edge && beyond {
                run.edge += 1;
            }
        }
        self.shape.corners.insert(edge + 1, corner);
    }

    fn drop_corner(&mut self, corner: Point) {
        let corners = &mut self.shape.corners;
        let Some(at) = corners.iter().position(|known| known.at.touches(corner)) else {
            return;
        };
        corners.remove(at);
        let count = corners.len();
        corners[(at + count - 1) % count].edge = None;
        for run in self.tongues.iter_mut().chain(&mut self.edge_cutouts) {
            if run.edge > at {
                run.edge -= 1;
            }
        }
    }
}

/// Whether a point lies on the line between two others, and touches neither.
fn lies_between(place: Point, from: Point, to: Point) -> bool {
    let (there, along) = (place - from, (to - from).unit());
    let (aside, far) = (along.cross(there), along.dot(there));
    aside.abs() < TOUCH_MM && far > TOUCH_MM && far < (to - from).length() - TOUCH_MM
}
