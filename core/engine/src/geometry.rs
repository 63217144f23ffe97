//! Rigid frames on the flat card, and closed outlines with straight and round edges.
//!
//! Lengths in mm, y up, counter-clockwise angles positive. Points, vectors and single edges are those of the document.
//! Every outline is finite: only [`Outline::new`] checks that. No offsetting and no set operations here.

use traywright_document::{Chords, Edge};
pub use traywright_document::{Point, TOUCH_MM, Vector};

/// A right-handed frame positioned in another one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// Its origin, in the other frame.
    pub origin: Point,
    /// Its first axis, a unit vector in the other frame.
    pub x_axis: Vector,
}

impl Frame {
    /// The identity.
    pub const SAME: Frame = Frame {
        origin: Point::ORIGIN,
        x_axis: Vector { x: 1.0, y: 0.0 },
    };

    /// A point of this frame, in the other one.
    pub fn place(&self, point: Point) -> Point {
        self.origin + self.turn(Vector::new(point.x, point.y))
    }

    /// A point of the other frame, in this one.
    pub fn from_outside(&self, point: Point) -> Point {
        let way = point - self.origin;
        Point::new(way.dot(self.x_axis), way.dot(self.x_axis.left()))
    }

    /// A vector of this frame, in the other one.
    pub fn turn(&self, way: Vector) -> Vector {
        self.x_axis * way.x + self.x_axis.left() * way.y
    }

    /// A frame positioned in this one, as positioned in the other one.
    pub fn then(&self, inner: &Frame) -> Frame {
        Frame {
            origin: self.place(inner.origin),
            x_axis: self.turn(inner.x_axis),
        }
    }
}

/// One corner of an outline and the edge that begins there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Corner {
    /// Its point.
    pub at: Point,
    /// Tangent of a quarter of the edge's angle to the next corner: 0 straight, positive counter-clockwise.
    // Source: DXF reference, LWPOLYLINE, group 42.
    pub bulge: f64,
}

impl Corner {
    /// A corner with a straight edge after it.
    pub fn sharp(at: Point) -> Self {
        Corner { at, bulge: 0.0 }
    }
}

/// A closed run of edges.
#[derive(Clone, Debug, PartialEq)]
pub struct Outline {
    corners: Vec<Corner>,
}

impl Outline {
    /// The outline through these corners, closed from the last to the first.
    ///
    /// # Panics
    /// If a coordinate is not finite; formulas and jobs reject such numbers.
    pub fn new(corners: Vec<Corner>) -> Self {
        let finite = |corner: &Corner| {
            corner.at.x.is_finite() && corner.at.y.is_finite() && corner.bulge.is_finite()
        };
        assert!(corners.iter().all(finite), "an outline is finite");
        Outline { corners }
    }

    /// The outline with straight edges through these points.
    pub fn straight(points: impl IntoIterator<Item = Point>) -> Self {
        Outline::new(points.into_iter().map(Corner::sharp).collect())
    }

    /// An upright rectangle, counter-clockwise from its lower left corner.
    pub fn rectangle(least: Point, most: Point) -> Self {
        Outline::straight([
            least,
            Point::new(most.x, least.y),
            most,
            Point::new(least.x, most.y),
        ])
    }

    /// Its corners in order.
    pub fn corners(&self) -> &[Corner] {
        &self.corners
    }

    /// The points of its corners in order.
    pub fn points(&self) -> impl Iterator<Item = Point> + '_ {
        self.corners.iter().map(|corner| corner.at)
    }

    /// Its edges in order; each begins at a corner.
    pub fn edges(&self) -> impl Iterator<Item = Edge> + '_ {
        let next = self.points().skip(1).chain(self.points().take(1));
        self.corners.iter().zip(next).map(|(corner, to)| Edge {
            from: corner.at,
            to,
            bulge: corner.bulge,
        })
    }

    /// The area inside, positive if the outline is counter-clockwise.
    pub fn area(&self) -> f64 {
        let doubled: f64 = self.edges().map(|edge| edge.doubled_area()).sum();
        doubled / 2.0
    }

    /// Its corners, with points along each arc so that chords are at most `off` from it.
    pub fn flattened(&self, off: f64) -> Vec<[f64; 2]> {
        let corners = self.edges().flat_map(|edge| {
            let between = edge.between(Chords::Within(off));
            std::iter::once(edge.from).chain(between)
        });
        corners.map(|corner| [corner.x, corner.y]).collect()
    }

    /// Its farthest point along a vector.
    pub fn farthest(&self, way: Vector) -> Point {
        let along = |place: &Point| (*place - Point::ORIGIN).dot(way);
        self.edges()
            .map(|edge| edge.farthest(way))
            .max_by(|one, other| along(one).total_cmp(&along(other)))
            .unwrap_or(Point::ORIGIN)
    }

    /// The same outline in the opposite direction.
    pub fn reversed(&self) -> Outline {
        let mut corners: Vec<Corner> = self
            .edges()
            .map(|edge| Corner {
                at: edge.to,
                bulge: -edge.bulge,
            })
            .collect();
        corners.reverse();
        Outline { corners }
    }

    /// The same outline in the frame in which `frame` is positioned.
    pub fn placed(&self, frame: &Frame) -> Outline {
        let place = |corner: &Corner| Corner {
            at: frame.place(corner.at),
            bulge: corner.bulge,
        };
        Outline {
            corners: self.corners.iter().map(place).collect(),
        }
    }
}
