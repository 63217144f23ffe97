//! Where the finished tray stands in its box, and where its items lie in it.
//!
//! In the frame of the folded tray, which is the flat frame of the root panel (mm, z out of the drawn face). Only the
//! finished tray is described here; [`stages`](crate::stages) has the tray while it is folded.

use crate::items::Item;
use crate::panels::Pose;
use crate::plane::{Extent, Point, Vector};
use crate::space::{Vec3, dot};
use crate::{Document, DrawnFace, Orientation};

/// An item as it lies in the finished tray.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Resting {
    /// The middle of its underside.
    pub at: Vec3,
    /// The unit vector along its length, seen along z.
    pub along: Vector,
}

impl Document {
    /// Which way along z is up in the finished tray: 1 or -1.
    // Derived: z comes out of the drawn face. A tray on its root panel has the face that is inside up; one on its walls,
    // that which is outside.
    pub fn up(&self) -> f64 {
        let inside = self.output.drawn_face == DrawnFace::Inside;
        let root_down = self.stands == Orientation::RootDown;
        if inside == root_down { 1.0 } else { -1.0 }
    }

    /// The middle of the floor of the box; of a piece without a box the middle below its lowest point.
    pub fn seat(&self) -> Vec3 {
        let half = self.board.caliper / 2.0;
        let (mut least, mut most) = ([f64::INFINITY; 3], [f64::NEG_INFINITY; 3]);
        for panel in &self.panels {
            let Extent {
                least: low,
                most: high,
            } = panel.outline.extent();
            let corners = [
                low,
                high,
                Point::new(low.x, high.y),
                Point::new(high.x, low.y),
            ];
            for place in corners.map(|corner| panel.pose.apply(corner.in_space())) {
                for axis in 0..3 {
                    let more = half * panel.pose.rows[axis][2].abs();
                    least[axis] = least[axis].min(place[axis] - more);
                    most[axis] = most[axis].max(place[axis] + more);
                }
            }
        }
        if self.panels.is_empty() {
            return [0.0; 3];
        }
        let up = self.up();
        let middle = |axis: usize| (least[axis] + most[axis]) / 2.0;
        let foot = if up > 0.0 { least[2] } else { most[2] };
        [middle(0), middle(1), foot - up * self.lift()]
    }

    /// How far a tray with rounded edges below stands over the floor of the box.
    fn lift(&self) -> f64 {
        let measure = |name: &str| {
            let found = self.measures.iter().find(|measure| measure.name == name);
            found.map(|measure| measure.value)
        };
        match (measure("folded_depth"), measure("box_clearance_depth")) {
            (Some(folded), Some(clearance)) => {
                (self.box_size.depth.mm() - folded - clearance).max(0.0)
            }
            _ => 0.0,
        }
    }

    /// Where an item lies; none for one that has no opening.
    pub fn resting(&self, item: &Item) -> Option<Resting> {
        let panel = self.panels.get(item.panel)?;
        let middle = panel.pose.apply(item.middle?.in_space());
        let (up, half) = (self.up(), self.board.caliper / 2.0);
        let deck = item.held.and_then(|held| held.deck);
        let floor = match (deck, self.stands) {
            (Some(deck), _) => middle[2] + up * (half - deck),
            (None, Orientation::RootUp) => self.seat()[2],
            (None, Orientation::RootDown) => up * half,
        };
        let way = panel.hinge.map_or([1.0, 0.0, 0.0], |hinge| {
            let [from, to] = hinge.line;
            let along = (to - from).unit();
            [along.x, along.y, 0.0]
        });
        Some(Resting {
            at: [middle[0], middle[1], floor + up * item.rest],
            along: seen_along_z(&panel.pose, way),
        })
    }
}

/// How a vector of the flat card lies in the finished tray, seen along z.
fn seen_along_z(pose: &Pose, way: Vec3) -> Vector {
    let turned = pose.turn(way);
    let length = dot([turned[0], turned[1], 0.0], turned).sqrt();
    match length > 0.5 {
        true => Vector::new(turned[0] / length, turned[1] / length),
        false => Vector::new(1.0, 0.0),
    }
}
