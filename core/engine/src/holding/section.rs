//! What a horizontal layer, or an upright prism, cuts out of a convex solid.
//!
//! Lengths in mm, in the frame of the standing tray, z upwards. Only extents and plans are given, never a new solid.

use traywright_document::space::{Vec3, between, dot};
use traywright_document::{Point, Vector};

use super::plan::edges;
use crate::space::ConvexSolid;

/// A layer thinner than this holds nothing.
// Derived: as thin as an overlap that only grazes; the poses of panels carry rounding.
const THIN_MM: f64 = 1e-6;

/// The part of a solid between two heights, seen from above: a convex polygon run counter-clockwise; none where the solid
/// only touches the layer.
pub(super) fn seen_from_above(solid: &ConvexSolid, [low, high]: [f64; 2]) -> Option<Vec<Point>> {
    let [least, most] = solid.heights();
    if most.min(high) - least.max(low) < THIN_MM {
        return None;
    }
    let inside = |corner: &&Vec3| corner[2] >= low && corner[2] <= high;
    let mut points: Vec<Point> = solid.corners.iter().filter(inside).map(plan).collect();
    for &(from, to) in &solid.edges {
        let (from, to) = (solid.corners[from], solid.corners[to]);
        for level in [low, high] {
            let (below, above) = (from[2] - level, to[2] - level);
            if below * above < 0.0 {
                points.push(plan(&between(from, to, below / (below - above))));
            }
        }
    }
    let hull = hull(points);
    (hull.len() > 2).then_some(hull)
}

fn plan(corner: &Vec3) -> Point {
    Point::new(corner[0], corner[1])
}

/// The heights between which a solid stands in an upright prism over a convex polygon; none where it stands beside it.
pub(super) fn heights_over(
    solid: &ConvexSolid,
    polygon: &[Point],
    [low, high]: [f64; 2],
) -> Option<[f64; 2]> {
    let mut bounds = upright_sides(polygon);
    bounds.push(([0.0, 0.0, -1.0], -low));
    bounds.push(([0.0, 0.0, 1.0], high));
    // What both share has its corners on faces of the solid, or where upright edges of the prism go through the solid.
    let cut = solid.faces().map(|face| kept(face, &bounds));
    let upright = polygon.iter().map(|corner| {
        kept(
            vec![[corner.x, corner.y, low], [corner.x, corner.y, high]],
            &solid.planes,
        )
    });
    let heights = cut.chain(upright).flatten().map(|corner| corner[2]);
    let reached = heights.fold(
        [f64::INFINITY, f64::NEG_INFINITY],
        |[least, most], height| [least.min(height), most.max(height)],
    );
    (reached[1] - reached[0] > THIN_MM).then_some(reached)
}

/// Corners of what two convex polygons share.
pub(super) fn shared(one: &[Point], other: &[Point]) -> Vec<Point> {
    let face = one.iter().map(|corner| corner.in_space()).collect();
    let shared = kept(face, &upright_sides(other));
    shared.iter().map(plan).collect()
}

/// The upright planes through the edges of a polygon, outwards.
fn upright_sides(polygon: &[Point]) -> Vec<(Vec3, f64)> {
    let side = |(from, to): (Point, Point)| {
        let out = (to - from).unit().right();
        ([out.x, out.y, 0.0], out.dot(from - Point::ORIGIN))
    };
    edges(polygon).map(side).collect()
}

/// What of a flat face, or of a line of two corners, lies on the inner side of all planes.
// Source: Sutherland and Hodgman's clipping of a polygon by one plane after the other.
fn kept(mut face: Vec<Vec3>, planes: &[(Vec3, f64)]) -> Vec<Vec3> {
    for (normal, far) in planes {
        let beyond = |corner: Vec3| dot(corner, *normal) - far;
        let mut next = Vec::with_capacity(face.len() + 1);
        for (at, &from) in face.iter().enumerate() {
            let to = face[(at + 1) % face.len()];
            let (here, there) = (beyond(from), beyond(to));
            if here <= 0.0 {
                next.push(from);
            }
            if here * there < 0.0 {
                next.push(between(from, to, here / (here - there)));
            }
        }
        face = next;
    }
    face
}

/// The convex hull of points, counter-clockwise, without corners on its edges.
// Source: Andrew's monotone chain.
pub(super) fn hull(mut points: Vec<Point>) -> Vec<Point> {
    points.sort_by(|one, other| one.x.total_cmp(&other.x).then(one.y.total_cmp(&other.y)));
    points.dedup_by(|one, other| one.touches(*other));
    if points.len() < 3 {
        return points;
    }
    let half = |points: &mut dyn Iterator<Item = &Point>| {
        let mut chain: Vec<Point> = Vec::new();
        for &point in points {
            while let [.., before, last] = chain[..] {
                let turn: Vector = last - before;
                if turn.cross(point - before) > 1e-12 {
                    break;
                }
                chain.pop();
            }
            chain.push(point);
        }
        chain.pop();
        chain
    };
    let mut round = half(&mut points.iter());
    round.extend(half(&mut points.iter().rev()));
    round
}
