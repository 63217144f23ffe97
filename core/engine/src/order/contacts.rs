//! The angles at which a solid that turns about an axis touches a fixed one.
//!
//! **Input:** both solids in a frame whose third axis is the axis of rotation. **Output:** the angle of the
//! first contact. A turning corner moves along a circle and meets the plane of a face where A cos θ + B sin θ + C =
//! 0; two edges lie in one plane where an equation of the same form holds. Between neighbouring angles the set of
//! touching corners and edges does not change, so the middle of each interval is enough (if the solids
//! overlap in the middle, its end is looked at too): no interval is searched in steps.

use std::f64::consts::{PI, TAU};
use traywright_document::Pose;
use traywright_document::steady::Steady;

use crate::space::{ConvexSolid, Vec3, cross, dot, minus, plus};

/// How far outside an edge or a face a contact may lie and still count; more than all rounding errors.
const BESIDE_MM: f64 = 1e-6;

/// The angle in (0, most) at which a turning solid first overlaps a fixed one by more than `touch`.
pub(crate) fn first_entry(
    turning: &ConvexSolid,
    still: &ConvexSolid,
    most: f64,
    touch: f64,
) -> Option<f64> {
    if pass_by(turning, still, most) {
        return None;
    }
    let mut angles = vec![0.0, most];
    corners_on_planes(turning, still, 1.0, &mut angles);
    corners_on_planes(still, turning, -1.0, &mut angles);
    edges_on_edges(turning, still, &mut angles);
    angles.retain(|angle| (0.0..=most).contains(angle));
    angles.sort_by(f64::total_cmp);
    let depth = |angle: f64| turned(turning, angle).depth(still);
    let inside = |pair: &&[f64]| {
        if pair[1] - pair[0] <= 1e-9 {
            return false;
        }
        let middle = depth((pair[0] + pair[1]) / 2.0);
        // Solids that overlap in the middle may overlap deepest at the end.
        middle > touch || middle > 0.0 && depth(pair[1]) > touch
    };
    angles.windows(2).find(inside).map(|pair| pair[0])
}

/// A solid turned about the third axis.
pub(crate) fn turned(solid: &ConvexSolid, angle: f64) -> ConvexSolid {
    let (sin, cos) = angle.steady_sin_cos();
    solid.moved(&Pose {
        rows: [[cos, -sin, 0.0], [sin, cos, 0.0], [0.0, 0.0, 1.0]],
        shift: [0.0; 3],
    })
}

/// Whether one quick test shows that the solids never meet: along the axis, away from it, or around it.
fn pass_by(turning: &ConvexSolid, still: &ConvexSolid, most: f64) -> bool {
    let along = |solid: &ConvexSolid| reach(solid, |corner| corner[2]);
    let away = |solid: &ConvexSolid| reach(solid, |[x, y, _]| x * x + y * y).1.sqrt();
    let nearest = |solid: &ConvexSolid| distance_from_axis(solid);
    let (one, two) = (along(turning), along(still));
    if one.1 <= two.0
        || two.1 <= one.0
        || away(turning) <= nearest(still)
        || away(still) <= nearest(turning)
    {
        return true;
    }
    let (Some(one), Some(two)) = (around(turning), around(still)) else {
        return false;
    };
    // The turning solid sweeps from its own least angle to its own greatest, plus the whole rotation.
    let gap = (two.0 - one.0).rem_euclid(TAU);
    let sweep = one.1 - one.0 + most;
    gap > sweep && gap + (two.1 - two.0) < TAU
}

fn reach(solid: &ConvexSolid, of: impl Fn(Vec3) -> f64) -> (f64, f64) {
    solid.corners.iter().fold(
        (f64::INFINITY, f64::NEG_INFINITY),
        |(least, most), &corner| (least.min(of(corner)), most.max(of(corner))),
    )
}

/// A lower bound for the distance between the solid and the axis.
fn distance_from_axis(solid: &ConvexSolid) -> f64 {
    // If the axis lies wholly outside a face's plane, the solid is at least that far from the axis.
    let keeps = |(normal, offset): &(Vec3, f64)| {
        if normal[2].abs() < 1e-12 {
            -offset
        } else {
            0.0
        }
    };
    solid.planes.iter().map(keeps).fold(0.0, f64::max)
}

/// The range of angles around the axis that a solid occupies; none if it contains the axis or surrounds it.
fn around(solid: &ConvexSolid) -> Option<(f64, f64)> {
    let angle = |corner: Vec3| corner[1].steady_atan2(corner[0]);
    let middle = solid
        .corners
        .iter()
        .fold([0.0; 3], |sum, &corner| plus(sum, corner, 1.0));
    let first = angle(middle);
    let (mut least, mut most) = (0.0_f64, 0.0_f64);
    for &corner in &solid.corners {
        let off = (angle(corner) - first + PI).rem_euclid(TAU) - PI;
        least = least.min(off);
        most = most.max(off);
    }
    // If the range is below half a turn, the axis lies outside.
    (most - least < PI - 1e-9).then_some((first + least, first + most))
}

/// Calls `tell` with cosine and sine of each angle that solves a cos θ + b sin θ + c = 0, if there are any.
// Derived: the line a x + b y + c = 0 cuts the unit circle at the foot of its normal plus and minus half a chord.
fn solve(a: f64, b: f64, c: f64, mut tell: impl FnMut(f64, f64)) {
    let size = a * a + b * b;
    if size <= c * c {
        return;
    }
    let chord = (size - c * c).sqrt();
    tell((-a * c + b * chord) / size, (-b * c - a * chord) / size);
    tell((-a * c - b * chord) / size, (-b * c + a * chord) / size);
}

/// The angle in [0, 2π) of a cosine and a sine.
fn angle(cos: f64, sin: f64) -> f64 {
    sin.steady_atan2(cos).rem_euclid(TAU)
}

/// Angles at which corners of one solid, turning in the given sense, lie on faces of the other.
fn corners_on_planes(
    corners: &ConvexSolid,
    others: &ConvexSolid,
    sense: f64,
    angles: &mut Vec<f64>,
) {
    for &[x, y, z] in &corners.corners {
        for (normal, offset) in &others.planes {
            let a = normal[0] * x + normal[1] * y;
            let b = sense * (normal[1] * x - normal[0] * y);
            solve(a, b, normal[2] * z - offset, |cos, sin| {
                let place = [x * cos - sense * y * sin, sense * x * sin + y * cos, z];
                if others
                    .planes
                    .iter()
                    .all(|(normal, offset)| dot(*normal, place) < offset + BESIDE_MM)
                {
                    angles.push(angle(cos, sin));
                }
            });
        }
    }
}

/// Angles at which an edge of the turning solid crosses an edge of the fixed one.
fn edges_on_edges(turning: &ConvexSolid, still: &ConvexSolid, angles: &mut Vec<f64>) {
    for &(from, to) in &turning.edges {
        let start = turning.corners[from];
        let way = minus(turning.corners[to], start);
        let moment = cross(start, way);
        for &(other_from, other_to) in &still.edges {
            let other_start = still.corners[other_from];
            let other_way = minus(still.corners[other_to], other_start);
            // Derived: the edges lie in one plane where way(θ) · (other_way × other_start) = moment(θ) · other_way.
            let lever = cross(other_way, other_start);
            let a = way[0] * lever[0] + way[1] * lever[1]
                - moment[0] * other_way[0]
                - moment[1] * other_way[1];
            let b = way[0] * lever[1] - way[1] * lever[0] - moment[0] * other_way[1]
                + moment[1] * other_way[0];
            let c = way[2] * lever[2] - moment[2] * other_way[2];
            solve(a, b, c, |cos, sin| {
                let turn = |way: Vec3| {
                    [
                        way[0] * cos - way[1] * sin,
                        way[0] * sin + way[1] * cos,
                        way[2],
                    ]
                };
                if cross_each_other((turn(start), turn(way)), (other_start, other_way)) {
                    angles.push(angle(cos, sin));
                }
            });
        }
    }
}

/// Whether two coplanar edges, each a start and a vector, have a point in common.
fn cross_each_other(one: (Vec3, Vec3), other: (Vec3, Vec3)) -> bool {
    let normal = cross(one.1, other.1);
    let size = dot(normal, normal);
    if size < 1e-18 {
        return false;
    }
    let between = minus(other.0, one.0);
    let on_one = dot(cross(between, other.1), normal) / size;
    let on_other = dot(cross(between, one.1), normal) / size;
    let within = |part: f64, way: Vec3| {
        let beside = BESIDE_MM / dot(way, way).sqrt();
        part > -beside && part < 1.0 + beside
    };
    within(on_one, one.1) && within(on_other, other.1)
}
