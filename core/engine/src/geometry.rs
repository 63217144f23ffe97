//! Points, directions and rigid frames on the flat card, and closed outlines with straight and round edges.
//!
//! Lengths in mm, y up, turning counter-clockwise is positive. Every outline is finite: [`Outline::new`] is the one door,
//! and after it nobody checks again. No offsetting and no set operations here.

use std::f64::consts::{FRAC_PI_2, TAU};
use std::ops::{Add, Mul, Neg, Sub};
use traywright_document::steady::Steady;

/// Two places nearer than this are one place.
// Derived: 10^5 times the rounding of a 5000 mm coordinate in f64, and 10^-5 of the thinnest card; nothing a maker
// cuts is smaller.
pub const TOUCH_MM: f64 = 1e-7;

/// A place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// Along the frame's first axis.
    pub x: f64,
    /// Along the frame's second axis.
    pub y: f64,
}

/// A way from one place to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Vector {
    /// Along the frame's first axis.
    pub x: f64,
    /// Along the frame's second axis.
    pub y: f64,
}

impl Point {
    /// The origin of a frame.
    pub const ORIGIN: Point = Point { x: 0.0, y: 0.0 };

    /// The place with these coordinates.
    pub fn new(x: f64, y: f64) -> Self {
        Point { x, y }
    }

    /// The place halfway to another.
    pub fn middle(self, other: Point) -> Point {
        self + (other - self) * 0.5
    }

    /// The place that part of the way to another.
    pub fn on_the_way(self, other: Point, part: f64) -> Point {
        self + (other - self) * part
    }

    /// Whether both are one place.
    pub fn touches(self, other: Point) -> bool {
        (other - self).length() < TOUCH_MM
    }
}

impl Vector {
    /// The vector with these components.
    pub fn new(x: f64, y: f64) -> Self {
        Vector { x, y }
    }

    /// Its length.
    pub fn length(self) -> f64 {
        self.x.steady_hypot(self.y)
    }

    /// The same direction, one long. A vector without length stays what it is.
    pub fn unit(self) -> Vector {
        let length = self.length();
        if length == 0.0 {
            self
        } else {
            self * (1.0 / length)
        }
    }

    /// A quarter turn counter-clockwise.
    pub fn left(self) -> Vector {
        Vector::new(-self.y, self.x)
    }

    /// A quarter turn clockwise.
    pub fn right(self) -> Vector {
        Vector::new(self.y, -self.x)
    }

    /// Scalar product.
    pub fn dot(self, other: Vector) -> f64 {
        self.x * other.x + self.y * other.y
    }

    /// Area of the parallelogram, positive when `other` lies to the left.
    pub fn cross(self, other: Vector) -> f64 {
        self.x * other.y - self.y * other.x
    }
}

impl Sub for Point {
    type Output = Vector;
    fn sub(self, other: Point) -> Vector {
        Vector::new(self.x - other.x, self.y - other.y)
    }
}

impl Add<Vector> for Point {
    type Output = Point;
    fn add(self, way: Vector) -> Point {
        Point::new(self.x + way.x, self.y + way.y)
    }
}

impl Add for Vector {
    type Output = Vector;
    fn add(self, other: Vector) -> Vector {
        Vector::new(self.x + other.x, self.y + other.y)
    }
}

impl Mul<f64> for Vector {
    type Output = Vector;
    fn mul(self, factor: f64) -> Vector {
        Vector::new(self.x * factor, self.y * factor)
    }
}

impl Neg for Vector {
    type Output = Vector;
    fn neg(self) -> Vector {
        Vector::new(-self.x, -self.y)
    }
}

/// A right-handed frame laid down in another one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// Its origin, in the other frame.
    pub origin: Point,
    /// Its first axis, one long, in the other frame.
    pub x_axis: Vector,
}

impl Frame {
    /// The frame itself.
    pub const SAME: Frame = Frame {
        origin: Point::ORIGIN,
        x_axis: Vector { x: 1.0, y: 0.0 },
    };

    /// Where a place of this frame lies in the other one.
    pub fn place(&self, point: Point) -> Point {
        self.origin + self.turn(Vector::new(point.x, point.y))
    }

    /// Where a place of the other frame lies in this one.
    pub fn from_outside(&self, point: Point) -> Point {
        let way = point - self.origin;
        Point::new(way.dot(self.x_axis), way.dot(self.x_axis.left()))
    }

    /// How a direction of this frame points in the other one.
    pub fn turn(&self, way: Vector) -> Vector {
        self.x_axis * way.x + self.x_axis.left() * way.y
    }

    /// A frame that lies in this one, seen from the other one.
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
    /// The place.
    pub at: Point,
    /// Tangent of a quarter of the angle swept by the edge to the next corner: 0 straight, positive counter-clockwise.
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
    /// When a coordinate is not finite: formulas and jobs let no such number through.
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

    /// The places of its corners in order.
    pub fn points(&self) -> impl Iterator<Item = Point> + '_ {
        self.corners.iter().map(|corner| corner.at)
    }

    /// Each edge as its corner and the place of the next corner.
    pub fn edges(&self) -> impl Iterator<Item = (Corner, Point)> + '_ {
        let next = self.points().skip(1).chain(self.points().take(1));
        self.corners.iter().copied().zip(next)
    }

    /// The area inside, positive when the outline runs counter-clockwise.
    pub fn area(&self) -> f64 {
        let doubled: f64 = self.edges().map(|(corner, to)| edge_area(corner, to)).sum();
        doubled / 2.0
    }

    /// Its corners, with places along each arc so that chords leave it by at most `off`.
    pub fn flattened(&self, off: f64) -> Vec<[f64; 2]> {
        let mut places = Vec::new();
        for (corner, to) in self.edges() {
            places.push([corner.at.x, corner.at.y]);
            if corner.bulge != 0.0 {
                places.extend(along_arc(corner, to, off));
            }
        }
        places
    }

    /// Its place that lies farthest along a way.
    pub fn farthest(&self, way: Vector) -> Point {
        let on_edge = |(corner, to): (Corner, Point)| {
            let bent = (corner.bulge != 0.0).then(|| Swept::new(corner, to).farthest(way));
            bent.flatten().unwrap_or(corner.at)
        };
        let along = |place: &Point| (*place - Point::ORIGIN).dot(way);
        self.edges()
            .map(on_edge)
            .max_by(|one, other| along(one).total_cmp(&along(other)))
            .unwrap_or(Point::ORIGIN)
    }

    /// The same outline run the other way round.
    pub fn reversed(&self) -> Outline {
        let mut corners: Vec<Corner> = self
            .edges()
            .map(|(corner, to)| Corner {
                at: to,
                bulge: -corner.bulge,
            })
            .collect();
        corners.reverse();
        Outline { corners }
    }

    /// The same outline in the frame that `frame` lies in.
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

/// A round edge as its circle: the centre, the way from it to the edge's start, and the angle swept.
struct Swept {
    centre: Point,
    start: Vector,
    angle: f64,
}

impl Swept {
    /// The circle of an edge that is not straight.
    fn new(corner: Corner, to: Point) -> Swept {
        let (chord, bulge) = (to - corner.at, corner.bulge);
        // Derived: the bulge is the height of the arc over half its chord; the centre follows from the right triangle.
        let aside = chord.left() * ((1.0 - bulge * bulge) / (4.0 * bulge));
        let centre = corner.at.middle(to) + aside;
        Swept {
            centre,
            start: corner.at - centre,
            angle: 4.0 * bulge.steady_atan(),
        }
    }

    /// The place that a share of the sweep leads to.
    fn place(&self, share: f64) -> Point {
        let (sin, cos) = (self.angle * share).steady_sin_cos();
        self.centre + self.start * cos + self.start.left() * sin
    }

    /// The place farthest along a way, if the sweep passes it.
    fn farthest(&self, way: Vector) -> Option<Point> {
        let turned = self.start.cross(way).steady_atan2(self.start.dot(way)) / self.angle;
        let whole = TAU / self.angle.abs();
        let passes = turned.rem_euclid(whole) < 1.0;
        passes.then(|| self.centre + way.unit() * self.start.length())
    }
}

/// Twice the area between an edge and the origin, the segment of an arc included.
fn edge_area(corner: Corner, to: Point) -> f64 {
    let from = corner.at;
    let triangle = (from - Point::ORIGIN).cross(to - Point::ORIGIN);
    if corner.bulge == 0.0 {
        return triangle;
    }
    let (chord, bulge) = ((to - from).length(), corner.bulge);
    if bulge.abs() < FLAT_BULGE {
        // Derived: the same in powers of the bulge, since A - sin A has no digits left when A is small.
        let square = bulge * bulge;
        let height = bulge * (2.0 / 3.0 + square * (2.0 / 15.0 - square * 2.0 / 105.0));
        return triangle + chord * chord * height;
    }
    // Derived: circular segment of angle A on chord c has the area r² (A - sin A) / 2 with r = c / (2 sin(A / 2)).
    let angle = 4.0 * bulge.steady_atan();
    let radius = chord / (2.0 * (angle / 2.0).steady_sin());
    triangle + radius * radius * (angle - angle.steady_sin())
}

/// The bulge below which the area of an arc's segment is summed in powers.
// Derived: there both ways agree to twelve digits.
const FLAT_BULGE: f64 = 0.01;

/// Places along an arc, its ends left out, whose chords leave it by at most `off`.
pub(crate) fn along_arc(corner: Corner, to: Point, off: f64) -> Vec<[f64; 2]> {
    let swept = Swept::new(corner, to);
    // Derived: a chord over the small angle a leaves its circle by radius a² / 8, and over any angle by less.
    let angle = (8.0 * off / swept.start.length()).sqrt();
    let count = (swept.angle.abs() / angle.min(FRAC_PI_2)).ceil() as usize;
    (1..count)
        .map(|piece| swept.place(piece as f64 / count as f64))
        .map(|place| [place.x, place.y])
        .collect()
}
