//! Places and ways in space, and rigid motions of panels.
//!
//! Lengths in mm. A pose moves a panel from the flat frame to where it stands; poses are joined inside out: the inner
//! motion happens first.

use traywright_document::steady::Steady;
use traywright_document::{Hinge, Point, Pose};

/// A place or a way in space.
pub(crate) type Vec3 = [f64; 3];

/// No motion at all.
pub(crate) const STILL: Pose = Pose {
    rows: [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]],
    shift: [0.0; 3],
};

pub(crate) fn dot(one: Vec3, other: Vec3) -> f64 {
    one[0] * other[0] + one[1] * other[1] + one[2] * other[2]
}

pub(crate) fn cross(one: Vec3, other: Vec3) -> Vec3 {
    [
        one[1] * other[2] - one[2] * other[1],
        one[2] * other[0] - one[0] * other[2],
        one[0] * other[1] - one[1] * other[0],
    ]
}

/// The first way, and so many times the second.
pub(crate) fn plus(one: Vec3, other: Vec3, times: f64) -> Vec3 {
    std::array::from_fn(|axis| one[axis] + other[axis] * times)
}

/// The place between two places, `part` of the way along.
pub(crate) fn between(one: Vec3, other: Vec3, part: f64) -> Vec3 {
    std::array::from_fn(|axis| one[axis] + (other[axis] - one[axis]) * part)
}

/// The same way, one long; a way of no length stays as it is.
pub(crate) fn unit(way: Vec3) -> Vec3 {
    let length = dot(way, way).sqrt();
    if length == 0.0 {
        return way;
    }
    way.map(|part| part / length)
}

/// Where a place goes.
pub(crate) fn placed(pose: &Pose, place: Vec3) -> Vec3 {
    plus(turned(pose, place), pose.shift, 1.0)
}

/// How a way turns.
pub(crate) fn turned(pose: &Pose, way: Vec3) -> Vec3 {
    pose.rows.map(|row| dot(row, way))
}

/// First `inner`, then `outer`.
pub(crate) fn joined(outer: &Pose, inner: &Pose) -> Pose {
    let column = |at: usize| -> Vec3 { std::array::from_fn(|row: usize| inner.rows[row][at]) };
    Pose {
        rows: outer
            .rows
            .map(|row| [0, 1, 2].map(|at| dot(row, column(at)))),
        shift: placed(outer, inner.shift),
    }
}

/// A turn of a panel about its crease, in the flat frame; positive lifts the panel on the side of `outwards` out of the
/// drawn face.
pub(crate) fn turn(hinge: &Hinge, outwards: Vec3, angle_deg: f64) -> Pose {
    // Derived: turning `outwards` about `outwards` x z by a quarter gives z.
    let axis = cross(outwards, [0.0, 0.0, 1.0]);
    let height = hinge.height * hinge.fold_deg.signum();
    let origin = [hinge.line[0].x, hinge.line[0].y, height];
    let mut pose = rotation(axis, angle_deg);
    pose.shift = plus(origin, turned(&pose, origin), -1.0);
    pose
}

/// A rotation about an axis through the origin, one long.
// Source: Rodrigues' rotation formula.
pub(crate) fn rotation(axis: Vec3, angle_deg: f64) -> Pose {
    let (sin, cos) = angle_deg.to_radians().steady_sin_cos();
    let along = |at: usize| -> Vec3 { std::array::from_fn(|axis| f64::from(u8::from(axis == at))) };
    let part = |row: usize, column: usize| {
        let same = if row == column { cos } else { 0.0 };
        same + sin * cross(axis, along(column))[row] + (1.0 - cos) * axis[row] * axis[column]
    };
    let rows = [0, 1, 2].map(|row| [0, 1, 2].map(|column| part(row, column)));
    Pose {
        rows,
        shift: [0.0; 3],
    }
}

/// A point of the blank in space.
pub(crate) fn flat(point: Point) -> Vec3 {
    [point.x, point.y, 0.0]
}
