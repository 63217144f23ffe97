//! Points and vectors in space, rigid motions, and the fold of a panel about its hinge.
//!
//! Lengths in mm, angles in degrees. A pose moves a panel from the flat frame to its position. In a composition of
//! poses the inner motion is applied first.

use crate::panels::{Hinge, Pose};
use crate::plane::{Point, Vector};
use crate::steady::Steady;

/// A point or a vector in space.
pub type Vec3 = [f64; 3];

/// Scalar product.
pub fn dot(one: Vec3, other: Vec3) -> f64 {
    one[0] * other[0] + one[1] * other[1] + one[2] * other[2]
}

/// Vector product.
pub fn cross(one: Vec3, other: Vec3) -> Vec3 {
    [
        one[1] * other[2] - one[2] * other[1],
        one[2] * other[0] - one[0] * other[2],
        one[0] * other[1] - one[1] * other[0],
    ]
}

/// The first vector plus a multiple of the second.
pub fn plus(one: Vec3, other: Vec3, times: f64) -> Vec3 {
    std::array::from_fn(|axis| one[axis] + other[axis] * times)
}

/// The vector from the second point to the first.
pub fn minus(one: Vec3, other: Vec3) -> Vec3 {
    plus(one, other, -1.0)
}

/// The point between two points, `part` of the way along.
pub fn between(one: Vec3, other: Vec3, part: f64) -> Vec3 {
    std::array::from_fn(|axis| one[axis] + (other[axis] - one[axis]) * part)
}

/// The unit vector of the same direction; a vector without length stays as it is.
pub fn unit(way: Vec3) -> Vec3 {
    let length = dot(way, way).sqrt();
    if length == 0.0 {
        return way;
    }
    way.map(|part| part / length)
}

impl Point {
    /// The point of the blank in space, in the middle of the card.
    pub fn in_space(self) -> Vec3 {
        [self.x, self.y, 0.0]
    }
}

impl Pose {
    /// The identity.
    pub const STILL: Pose = Pose {
        rows: [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]],
        shift: [0.0; 3],
    };

    /// A rotation about a unit axis through the origin.
    // Source: Rodrigues' rotation formula.
    pub fn rotation(axis: Vec3, angle_deg: f64) -> Pose {
        let (sin, cos) = exact_sin_cos(angle_deg);
        let along =
            |at: usize| -> Vec3 { std::array::from_fn(|axis| f64::from(u8::from(axis == at))) };
        let part = |row: usize, column: usize| {
            let same = if row == column { cos } else { 0.0 };
            same + sin * cross(axis, along(column))[row] + (1.0 - cos) * axis[row] * axis[column]
        };
        Pose {
            rows: [0, 1, 2].map(|row| [0, 1, 2].map(|column| part(row, column))),
            shift: [0.0; 3],
        }
    }

    /// A rotation about a unit axis through a point.
    pub fn rotation_about(point: Vec3, axis: Vec3, angle_deg: f64) -> Pose {
        let rotation = Pose::rotation(axis, angle_deg);
        Pose {
            shift: minus(point, rotation.turn(point)),
            ..rotation
        }
    }

    /// The image of a point.
    pub fn apply(&self, point: Vec3) -> Vec3 {
        plus(self.turn(point), self.shift, 1.0)
    }

    /// The image of a vector.
    pub fn turn(&self, way: Vec3) -> Vec3 {
        self.rows.map(|row| dot(row, way))
    }

    /// The vector whose image this is.
    // Derived: the inverse of a rotation is its transpose.
    pub fn turn_back(&self, way: Vec3) -> Vec3 {
        self.columns().map(|column| dot(column, way))
    }

    /// The inverse motion.
    pub fn inverse(&self) -> Pose {
        Pose {
            rows: self.columns(),
            shift: self.turn_back(self.shift).map(|part| -part),
        }
    }

    /// The composition: first `inner`, then this.
    pub fn after(&self, inner: &Pose) -> Pose {
        let columns = inner.columns();
        Pose {
            rows: self.rows.map(|row| columns.map(|column| dot(row, column))),
            shift: self.apply(inner.shift),
        }
    }

    fn columns(&self) -> [Vec3; 3] {
        [0, 1, 2].map(|column| self.rows.map(|row| row[column]))
    }
}

impl Hinge {
    /// The unit vector from the crease into its panel, in the flat frame.
    pub fn into_panel(&self) -> Vector {
        let [from, to] = self.line;
        (to - from).unit().right()
    }

    /// Distance of a point of the flat frame from the crease, on the side of its panel.
    pub fn beyond(&self, point: Point) -> f64 {
        (point - self.line[0]).dot(self.into_panel())
    }

    /// The motion of its panel, in the flat frame of the card around it, when the crease is folded to an angle.
    pub fn fold(&self, angle_deg: f64) -> Pose {
        // Derived: the panel lies right of the line, so a positive turn about the line reversed lifts it out of the drawn
        // face; the axis lies on the inner side of the finished fold.
        let [from, to] = self.line;
        let along = (from - to).unit();
        let height = self.height * self.fold_deg.signum();
        let origin = [from.x, from.y, height];
        Pose::rotation_about(origin, [along.x, along.y, 0.0], angle_deg)
    }
}

/// Sine and cosine, exact at quarter turns so that square trays have square poses.
fn exact_sin_cos(angle_deg: f64) -> (f64, f64) {
    match angle_deg {
        0.0 => (0.0, 1.0),
        90.0 => (1.0, 0.0),
        -90.0 => (-1.0, 0.0),
        180.0 | -180.0 => (0.0, -1.0),
        angle => angle.to_radians().steady_sin_cos(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Whether two points are equal except for rounding.
    fn close(one: Vec3, other: Vec3) -> bool {
        minus(one, other).iter().all(|part| part.abs() < 1e-12)
    }

    /// A crease along y at x = 40 with its panel at greater x.
    fn hinge(height: f64) -> Hinge {
        Hinge {
            parent: 0,
            line: [Point::new(40.0, 0.0), Point::new(40.0, 30.0)],
            fold_deg: 90.0,
            height,
        }
    }

    #[test]
    fn a_valley_lifts_its_panel_out_of_the_drawn_face() {
        // Source: by hand: 12 mm beyond the crease, folded square, is 12 mm above the card and over the crease.
        let hinge = hinge(0.0);
        assert_eq!(hinge.beyond(Point::new(52.0, 7.0)), 12.0);
        let corner = Point::new(52.0, 30.0).in_space();
        assert_eq!(hinge.fold(90.0).apply(corner), [40.0, 30.0, 12.0]);
        assert_eq!(hinge.fold(-90.0).apply(corner), [40.0, 30.0, -12.0]);
        assert_eq!(hinge.fold(180.0).apply(corner), [28.0, 30.0, 0.0]);
        // An axis 0.2 mm above the card: the corner stands 12 mm above the axis and 0.2 mm inside it.
        let raised = super::tests::hinge(0.2).fold(90.0).apply(corner);
        assert!(close(raised, [40.2, 30.0, 12.2]), "{raised:?}");
    }

    #[test]
    fn motions_are_joined_inside_out_and_taken_back() {
        // Source: by hand: a quarter turn about z takes x to y, one about x takes y to z.
        let about_z = Pose::rotation([0.0, 0.0, 1.0], 90.0);
        let about_x = Pose::rotation_about([0.0, 0.0, 5.0], [1.0, 0.0, 0.0], 90.0);
        let both = about_x.after(&about_z);
        assert!(close(both.turn([1.0, 0.0, 0.0]), [0.0, 0.0, 1.0]));
        assert!(close(about_x.apply([0.0, 2.0, 5.0]), [0.0, 0.0, 7.0]));
        let there = both.apply([1.0, 2.0, 3.0]);
        assert!(close(both.inverse().apply(there), [1.0, 2.0, 3.0]));
        assert!(close(
            both.turn_back(both.turn([1.0, 2.0, 3.0])),
            [1.0, 2.0, 3.0]
        ));
    }
}
