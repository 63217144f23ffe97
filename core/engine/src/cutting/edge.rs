//! Edges of a path, straight or round, and what a tool meets along them.
//!
//! Given contours of a document; gives edges that know their length, their direction at both ends and any stretch of
//! themselves, and gives contours back. An edge without length is left out on the way in.

use traywright_document::steady::Steady;
use traywright_document::{self as document, Contour, Segment};

use crate::geometry::{Point, TOUCH_MM, Vector};

/// One straight or round way between two places.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Edge {
    pub(super) from: Point,
    pub(super) to: Point,
    /// Tangent of a quarter of the angle swept: 0 straight, positive counter-clockwise.
    pub(super) bulge: f64,
}

/// Edges that follow each other.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Stroke {
    pub(super) edges: Vec<Edge>,
    pub(super) closed: bool,
}

impl Edge {
    /// The angle swept, in radians; positive counter-clockwise.
    pub(super) fn sweep(&self) -> f64 {
        4.0 * self.bulge.steady_atan()
    }

    /// Centre and radius of a round edge.
    // Source: DXF reference, LWPOLYLINE, group 42: the bulge is also the height of the arc over half its chord; radius
    // and centre follow from the right triangle in the circle.
    pub(super) fn circle(&self) -> Option<(Point, f64)> {
        if self.bulge == 0.0 {
            return None;
        }
        let chord = self.to - self.from;
        let left = (1.0 - self.bulge * self.bulge) / (4.0 * self.bulge);
        let centre = self.from.middle(self.to) + chord.left() * left;
        Some((centre, (self.from - centre).length()))
    }

    pub(super) fn length(&self) -> f64 {
        match self.circle() {
            None => (self.to - self.from).length(),
            Some((_, radius)) => radius * self.sweep().abs(),
        }
    }

    /// The directions in which it leaves and arrives.
    pub(super) fn directions(&self) -> [Vector; 2] {
        let chord = (self.to - self.from).unit();
        let half = self.sweep() / 2.0;
        [turned(chord, -half), turned(chord, half)]
    }

    /// The stretch between two lengths along it.
    pub(super) fn part(&self, first: f64, last: f64) -> Edge {
        let length = self.length();
        Edge {
            from: self.at(first / length),
            to: self.at(last / length),
            bulge: (self.sweep() * (last - first) / length / 4.0).steady_tan(),
        }
    }

    /// The place at a share of it, 0 at its start and 1 at its end.
    pub(super) fn at(&self, share: f64) -> Point {
        match self.circle() {
            _ if share <= 0.0 => self.from,
            _ if share >= 1.0 => self.to,
            None => self.from + (self.to - self.from) * share,
            Some((centre, _)) => centre + turned(self.from - centre, self.sweep() * share),
        }
    }

    pub(super) fn reversed(&self) -> Edge {
        Edge {
            from: self.to,
            to: self.from,
            bulge: -self.bulge,
        }
    }
}

impl Stroke {
    pub(super) fn of(contour: &Contour) -> Stroke {
        let mut from = point(contour.start);
        let mut edges = Vec::new();
        for segment in &contour.segments {
            let bulge = match *segment {
                Segment::Line { .. } => 0.0,
                Segment::Arc { bulge, .. } => bulge,
            };
            let to = point(segment.to());
            if (to - from).length() > TOUCH_MM {
                edges.push(Edge { from, to, bulge });
            }
            from = to;
        }
        Stroke {
            edges,
            closed: contour.closed,
        }
    }

    pub(super) fn contour(&self) -> Contour {
        let place = |point: Point| document::Point {
            x: point.x,
            y: point.y,
        };
        let segment = |edge: &Edge| match edge.bulge {
            0.0 => Segment::Line { to: place(edge.to) },
            bulge => Segment::Arc {
                to: place(edge.to),
                bulge,
            },
        };
        Contour {
            start: place(self.start()),
            segments: self.edges.iter().map(segment).collect(),
            closed: self.closed,
        }
    }

    /// Where it begins; the origin for a path without edges.
    pub(super) fn start(&self) -> Point {
        self.edges.first().map_or(Point::ORIGIN, |edge| edge.from)
    }

    /// Where it ends.
    pub(super) fn end(&self) -> Point {
        self.edges.last().map_or(Point::ORIGIN, |edge| edge.to)
    }

    /// The same path the other way.
    pub(super) fn reversed(&self) -> Stroke {
        Stroke {
            edges: self.edges.iter().rev().map(Edge::reversed).collect(),
            closed: self.closed,
        }
    }

    /// Twice the area that it goes round, positive when it lies on the left.
    pub(super) fn doubled_area(&self) -> f64 {
        let piece = |edge: &Edge| {
            let triangle = (edge.from - Point::ORIGIN).cross(edge.to - Point::ORIGIN);
            // Derived: circular segment of angle A in a circle of radius r: r² (A - sin A) / 2.
            let beyond = edge.circle().map_or(0.0, |(_, radius)| {
                radius * radius * (edge.sweep() - edge.sweep().steady_sin())
            });
            triangle + beyond
        };
        self.edges.iter().map(piece).sum()
    }
}

/// A direction turned counter-clockwise by radians.
pub(super) fn turned(way: Vector, radians: f64) -> Vector {
    let (sin, cos) = radians.steady_sin_cos();
    way * cos + way.left() * sin
}

fn point(point: document::Point) -> Point {
    Point::new(point.x, point.y)
}
