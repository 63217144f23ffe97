//! Edges, straight or round, and the only code that computes arcs.
//!
//! **Input:** two ends and a bulge. **Output:** centre, radius, angle, length, and points along the edge. Contours
//! give their edges, their area, their extent, and their corners with chords instead of arcs.

use std::f64::consts::{FRAC_PI_2, TAU};

use crate::flat::{Contour, Segment};
use crate::plane::{Extent, Point, Vector};
use crate::steady::Steady;

/// One straight or round line between two points.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Edge {
    /// Its start.
    pub from: Point,
    /// Its end.
    pub to: Point,
    /// Tangent of a quarter of the angle of the arc: 0 straight, positive counter-clockwise.
    pub bulge: f64,
}

/// A round edge as part of its circle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Arc {
    /// Centre of the circle.
    pub centre: Point,
    /// Radius of the circle.
    pub radius: f64,
    /// The vector from the centre to the start of the arc.
    pub start: Vector,
    /// The angle of the arc in radians; positive counter-clockwise.
    pub sweep: f64,
}

/// The accuracy of chords.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Chords {
    /// Each is at most this many millimetres from the arc, and spans at most a quarter of the circle.
    Within(f64),
    /// Each spans at most this many degrees.
    Spanning(f64),
}

/// Below this bulge the area of an arc's segment is computed as a power series.
// Derived: there both ways agree to twelve digits.
const FLAT_BULGE: f64 = 0.01;

/// A fraction of a chord below this is rounding and adds no chord, so an arc has as many chords in either direction.
// Derived: far more than the rounding of an angle, far less than a chord that could be seen.
const ROUNDING: f64 = 1e-9;

impl Edge {
    /// A straight edge.
    pub const fn straight(from: Point, to: Point) -> Edge {
        let bulge = 0.0;
        Edge { from, to, bulge }
    }

    /// The circle of a round edge; none for a straight edge or one whose ends coincide.
    // Source: DXF reference, LWPOLYLINE, group 42: the bulge is the tangent of a quarter of the angle.
    // Derived: so it is also the height of the arc over half its chord; centre and radius follow from the right triangle
    // in the circle.
    pub fn arc(&self) -> Option<Arc> {
        let (chord, bulge) = (self.to - self.from, self.bulge);
        let radius = chord.length() * (1.0 + bulge * bulge) / (4.0 * bulge.abs());
        if bulge == 0.0 || radius == 0.0 || !radius.is_finite() {
            return None;
        }
        let middle = Point::new(
            (self.from.x + self.to.x) / 2.0,
            (self.from.y + self.to.y) / 2.0,
        );
        let centre = middle + chord.left() * ((1.0 - bulge * bulge) / (4.0 * bulge));
        Some(Arc {
            centre,
            radius,
            start: self.from - centre,
            sweep: 4.0 * bulge.steady_atan(),
        })
    }

    /// Its length.
    pub fn length(&self) -> f64 {
        match self.arc() {
            None => (self.to - self.from).length(),
            Some(arc) => arc.length(),
        }
    }

    /// The greatest distance between the edge and its chord.
    pub fn rise(&self) -> f64 {
        (self.to - self.from).length() * self.bulge.abs() / 2.0
    }

    /// The point at a fraction of its length, 0 at its start and 1 at its end.
    pub fn at(&self, share: f64) -> Point {
        match self.arc() {
            _ if share <= 0.0 => self.from,
            _ if share >= 1.0 => self.to,
            None => self.from.on_the_way(self.to, share),
            Some(arc) => arc.at(share),
        }
    }

    /// The unit directions at its start and at its end.
    pub fn directions(&self) -> [Vector; 2] {
        let chord = (self.to - self.from).unit();
        let half = 2.0 * self.bulge.steady_atan();
        [chord.turned(-half), chord.turned(half)]
    }

    /// The part between two lengths along it.
    pub fn part(&self, first: f64, last: f64) -> Edge {
        let length = self.length();
        let sweep = self.arc().map_or(0.0, |arc| arc.sweep);
        Edge {
            from: self.at(first / length),
            to: self.at(last / length),
            bulge: (sweep * (last - first) / length / 4.0).steady_tan(),
        }
    }

    /// The same edge in the opposite direction.
    pub fn reversed(&self) -> Edge {
        Edge {
            from: self.to,
            to: self.from,
            bulge: -self.bulge,
        }
    }

    /// Twice the area between the edge and the origin, positive if the origin is on its left.
    pub fn doubled_area(&self) -> f64 {
        let triangle = (self.from - Point::ORIGIN).cross(self.to - Point::ORIGIN);
        let Some(arc) = self.arc() else {
            return triangle;
        };
        if self.bulge.abs() < FLAT_BULGE {
            // Derived: r² (A - sin A) in powers of the bulge, since A - sin A has no digits left when A is small.
            let (chord, square) = ((self.to - self.from).length(), self.bulge * self.bulge);
            let height = self.bulge * (2.0 / 3.0 + square * (2.0 / 15.0 - square * 2.0 / 105.0));
            return triangle + chord * chord * height;
        }
        // Derived: a circular segment of angle A in a circle of radius r has the area r² (A - sin A) / 2.
        triangle + arc.radius * arc.radius * (arc.sweep - arc.sweep.steady_sin())
    }

    /// Its farthest point along a vector; of two equally far ends the first.
    pub fn farthest(&self, way: Vector) -> Point {
        let along = |point: Point| (point - Point::ORIGIN).dot(way);
        match self.arc().and_then(|arc| arc.farthest(way)) {
            Some(point) => point,
            None if along(self.to) > along(self.from) => self.to,
            None => self.from,
        }
    }

    /// The edge in straight pieces.
    pub fn pieces(&self, chords: Chords) -> Vec<Edge> {
        let mut ends = vec![self.from];
        ends.extend(self.between(chords));
        ends.push(self.to);
        let piece = |ends: &[Point]| Edge::straight(ends[0], ends[1]);
        ends.windows(2).map(piece).collect()
    }

    /// The least distance between two straight edges that do not cross.
    pub fn apart(&self, other: &Edge) -> f64 {
        let ends = [
            (self.from, other),
            (self.to, other),
            (other.from, self),
            (other.to, self),
        ];
        let far = ends.map(|(place, edge)| edge.distance_of(place));
        far.into_iter().fold(f64::INFINITY, f64::min)
    }

    /// Distance of a point from a straight edge.
    fn distance_of(&self, place: Point) -> f64 {
        let (along, there) = (self.to - self.from, place - self.from);
        let share = (there.dot(along) / along.dot(along)).clamp(0.0, 1.0);
        (place - (self.from + along * share)).length()
    }

    /// The points between its chords, without its own ends; none for a straight edge.
    pub fn between(&self, chords: Chords) -> Vec<Point> {
        let Some(arc) = self.arc() else {
            return Vec::new();
        };
        let count = arc.chords(chords);
        (1..count)
            .map(|chord| arc.at(f64::from(chord) / f64::from(count)))
            .collect()
    }
}

impl Arc {
    /// Its length.
    pub fn length(&self) -> f64 {
        self.radius * self.sweep.abs()
    }

    /// The point at a fraction of it, 0 at its start and 1 at its end.
    pub fn at(&self, share: f64) -> Point {
        let (sin, cos) = (self.sweep * share).steady_sin_cos();
        self.centre + self.start * cos + self.start.left() * sin
    }

    /// The part of it between two fractions.
    pub fn part(&self, [first, last]: [f64; 2]) -> Arc {
        Arc {
            start: self.start.turned(self.sweep * first),
            sweep: self.sweep * (last - first),
            ..*self
        }
    }

    /// The point farthest along a vector, if the arc passes it.
    pub fn farthest(&self, way: Vector) -> Option<Point> {
        let angle = self.start.cross(way).steady_atan2(self.start.dot(way));
        let whole = TAU / self.sweep.abs();
        let passes = (angle / self.sweep).rem_euclid(whole) < 1.0;
        passes.then(|| self.centre + way.unit() * self.start.length())
    }

    /// Number of chords for it.
    pub fn chords(&self, chords: Chords) -> u32 {
        let widest = match chords {
            // Derived: a chord over the angle a leaves its circle by radius (1 - cos(a / 2)) = 2 radius sin²(a / 4).
            Chords::Within(off) => {
                let sine = (off / (2.0 * self.radius)).min(0.5).sqrt();
                let quarter = sine.steady_atan2((1.0 - sine * sine).sqrt());
                (4.0 * quarter).min(FRAC_PI_2)
            }
            Chords::Spanning(degrees) => degrees.to_radians(),
        };
        (self.sweep.abs() / widest - ROUNDING).ceil().max(1.0) as u32
    }
}

impl Contour {
    /// A straight open line.
    pub fn line(from: Point, to: Point) -> Contour {
        Contour {
            start: from,
            segments: vec![Segment::Line { to }],
            closed: false,
        }
    }

    /// Consecutive edges as a contour; none if there is no edge.
    pub fn of_edges(edges: impl IntoIterator<Item = Edge>, closed: bool) -> Option<Contour> {
        let mut edges = edges.into_iter().peekable();
        let start = edges.peek()?.from;
        Some(Contour {
            start,
            segments: edges.map(Segment::from).collect(),
            closed,
        })
    }

    /// Its edges in order.
    pub fn edges(&self) -> impl Iterator<Item = Edge> {
        let starts = std::iter::once(self.start).chain(self.segments.iter().map(Segment::to));
        starts.zip(&self.segments).map(|(from, segment)| Edge {
            from,
            to: segment.to(),
            bulge: segment.bulge(),
        })
    }

    /// Its corners in order, with chords for its arcs; a closed contour does not repeat its first corner.
    pub fn corners(&self, chords: Chords) -> Vec<Point> {
        let mut corners = vec![self.start];
        for edge in self.edges() {
            corners.extend(edge.between(chords));
            corners.push(edge.to);
        }
        if self.closed && corners.len() > 1 {
            corners.pop();
        }
        corners
    }

    /// The area inside a closed contour, positive if it is counter-clockwise.
    pub fn area(&self) -> f64 {
        self.edges().map(|edge| edge.doubled_area()).sum::<f64>() / 2.0
    }

    /// The rectangle around it, arcs included.
    pub fn extent(&self) -> Extent {
        let ways = [(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)];
        let ways = ways.map(|(x, y)| Vector::new(x, y));
        let farthest = |edge: Edge| ways.map(|way| edge.farthest(way));
        Extent::around(self.edges().flat_map(farthest).chain([self.start]))
    }
}

impl From<Edge> for Segment {
    fn from(edge: Edge) -> Segment {
        match edge.bulge {
            0.0 => Segment::Line { to: edge.to },
            bulge => Segment::Arc { to: edge.to, bulge },
        }
    }
}

#[cfg(test)]
mod tests;
