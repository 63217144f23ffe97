//! Points and vectors on the flat card.
//!
//! Lengths in mm, y up; counter-clockwise angles are positive. The engine and the exporters compute with these types.

use std::ops::{Add, Mul, Neg, Sub};

use serde::{Deserialize, Serialize};

use crate::steady::Steady;

/// Two points nearer than this count as one point.
// Derived: 10^5 times the rounding of a 5000 mm coordinate in f64, and 10^-5 of the thinnest card; nothing a maker
// cuts is smaller.
pub const TOUCH_MM: f64 = 1e-7;

/// A point on the flat card.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Point {
    /// Along the box's length, or along the first axis of a panel's own frame.
    pub x: f64,
    /// Along the box's width, upwards, or along the second axis of a panel's own frame.
    pub y: f64,
}

/// A vector from one point to another.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Vector {
    /// Along the frame's first axis.
    pub x: f64,
    /// Along the frame's second axis.
    pub y: f64,
}

impl Point {
    /// The origin of a frame.
    pub const ORIGIN: Point = Point { x: 0.0, y: 0.0 };

    /// The point with these coordinates.
    pub const fn new(x: f64, y: f64) -> Self {
        Point { x, y }
    }

    /// The point halfway to another.
    pub fn middle(self, other: Point) -> Point {
        self + (other - self) * 0.5
    }

    /// The point at a fraction `part` of the way to another.
    pub fn on_the_way(self, other: Point, part: f64) -> Point {
        self + (other - self) * part
    }

    /// Whether both count as one point.
    pub fn touches(self, other: Point) -> bool {
        (other - self).length() < TOUCH_MM
    }
}

impl Vector {
    /// The vector with these components.
    pub const fn new(x: f64, y: f64) -> Self {
        Vector { x, y }
    }

    /// Its length.
    pub fn length(self) -> f64 {
        self.x.steady_hypot(self.y)
    }

    /// The unit vector of the same direction. A vector without length stays as it is.
    pub fn unit(self) -> Vector {
        let length = self.length();
        if length == 0.0 {
            self
        } else {
            self * (1.0 / length)
        }
    }

    /// The vector rotated by 90° counter-clockwise.
    pub fn left(self) -> Vector {
        Vector::new(-self.y, self.x)
    }

    /// The vector rotated by 90° clockwise.
    pub fn right(self) -> Vector {
        Vector::new(self.y, -self.x)
    }

    /// The vector rotated counter-clockwise by an angle in radians.
    pub fn turned(self, radians: f64) -> Vector {
        let (sin, cos) = radians.steady_sin_cos();
        self * cos + self.left() * sin
    }

    /// Scalar product.
    pub fn dot(self, other: Vector) -> f64 {
        self.x * other.x + self.y * other.y
    }

    /// Area of the parallelogram, positive if `other` is to the left.
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

/// The smallest upright rectangle around a set of points.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Extent {
    /// Lower left corner.
    pub least: Point,
    /// Upper right corner.
    pub most: Point,
}

impl Extent {
    /// The empty rectangle, the identity of [`Extent::with`].
    pub const NOTHING: Extent = Extent {
        least: Point::new(f64::INFINITY, f64::INFINITY),
        most: Point::new(f64::NEG_INFINITY, f64::NEG_INFINITY),
    };

    /// The rectangle around points.
    pub fn around(points: impl IntoIterator<Item = Point>) -> Extent {
        let with = |extent: Extent, point: Point| Extent {
            least: Point::new(extent.least.x.min(point.x), extent.least.y.min(point.y)),
            most: Point::new(extent.most.x.max(point.x), extent.most.y.max(point.y)),
        };
        points.into_iter().fold(Extent::NOTHING, with)
    }

    /// The rectangle around both.
    pub fn with(self, other: Extent) -> Extent {
        Extent::around([self.least, self.most, other.least, other.most])
    }

    /// The same rectangle with a border on its vertical and its horizontal sides.
    pub fn wider(self, along_x: f64, along_y: f64) -> Extent {
        let border = Vector::new(along_x, along_y);
        Extent {
            least: self.least + -border,
            most: self.most + border,
        }
    }

    /// Whether two rectangles share a point.
    pub fn touches(&self, other: &Extent) -> bool {
        self.least.x <= other.most.x
            && other.least.x <= self.most.x
            && self.least.y <= other.most.y
            && other.least.y <= self.most.y
    }

    /// Its sides from corner to corner, counter-clockwise from the lower one.
    pub fn sides(&self) -> [[Point; 2]; 4] {
        let Extent { least, most } = *self;
        let corners = [
            least,
            Point::new(most.x, least.y),
            most,
            Point::new(least.x, most.y),
        ];
        [0, 1, 2, 3].map(|side| [corners[side], corners[(side + 1) % 4]])
    }

    /// Its length along x and its width along y.
    pub fn size(&self) -> [f64; 2] {
        let diagonal = self.most - self.least;
        [diagonal.x, diagonal.y]
    }
}
