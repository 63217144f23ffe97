//! The part of a convex solid inside a horizontal layer or an upright prism.
//!
//! Lengths in mm, in the frame of the standing tray, z upwards. The results are extents and outlines seen from above,
//! never a new solid.

use traywright_document::space::{Vec3, between, dot};
use traywright_document::{Point, Vector};

use super::plan::edges;
use crate::space::ConvexSolid;

/// A layer thinner than this contains no section.
// Derived: as thin as an overlap that only grazes; the poses of panels carry rounding.
const THIN_MM: f64 = 1e-6;

/// The part of a solid between two heights, seen from above: a convex polygon, counter-clockwise; none if the solid
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

/// The lowest and highest point of a solid within an upright prism over a convex polygon; none if they do not overlap.
pub(super) fn heights_over(
    solid: &ConvexSolid,
    polygon: &[Point],
    [low, high]: [f64; 2],
) -> Option<[f64; 2]> {
    // Only the part of the outline over the solid is needed; outlines can have many corners.
    let seen = seen_from_above(solid, [low, high])?;
    let polygon = hull(shared(polygon, &seen));
    if polygon.len() < 3 {
        return None;
    }
    let mut bounds = upright_sides(&polygon);
    bounds.push(([0.0, 0.0, -1.0], -low));
    bounds.push(([0.0, 0.0, 1.0], high));
    // The corners of the intersection lie on faces of the solid, or where upright edges of the prism pierce the solid.
    let cut = solid.sides().map(|side| kept(side, &bounds));
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

/// Corners of the intersection of two convex polygons.
pub(super) fn shared(one: &[Point], other: &[Point]) -> Vec<Point> {
    let side = one.iter().map(|corner| corner.in_space()).collect();
    let shared = kept(side, &upright_sides(other));
    shared.iter().map(plan).collect()
}

/// The upright planes through the edges of a polygon, with outward normals.
fn upright_sides(polygon: &[Point]) -> Vec<(Vec3, f64)> {
    let side = |(from, to): (Point, Point)| {
        let out = (to - from).unit().right();
        ([out.x, out.y, 0.0], out.dot(from - Point::ORIGIN))
    };
    edges(polygon).map(side).collect()
}

/// The part of a flat face, or of a line of two corners, on the inner side of all planes.
// Source: Sutherland and Hodgman's clipping of a polygon by one plane after the other.
fn kept(mut side: Vec<Vec3>, planes: &[(Vec3, f64)]) -> Vec<Vec3> {
    for (normal, far) in planes {
        let beyond = |corner: Vec3| dot(corner, *normal) - far;
        let mut next = Vec::with_capacity(side.len() + 1);
        for (at, &from) in side.iter().enumerate() {
            let to = side[(at + 1) % side.len()];
            let (here, there) = (beyond(from), beyond(to));
            if here <= 0.0 {
                next.push(from);
            }
            if here * there < 0.0 {
                next.push(between(from, to, here / (here - there)));
            }
        }
        side = next;
    }
    side
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

#[cfg(test)]
mod tests {
    //! Source of every expectation: by hand.
    use super::*;
    use traywright_document::Pose;

    /// A wall 20 long, 1 thick and 12 high, from z = 0 upwards, leaning by an angle about its foot along x.
    fn wall(lean_deg: f64) -> ConvexSolid {
        let flat = [[0.0, 0.0], [20.0, 0.0], [20.0, 12.0], [0.0, 12.0]];
        let up = Pose::rotation([1.0, 0.0, 0.0], 90.0 - lean_deg);
        ConvexSolid::prism(&flat, 0.5).moved(&up)
    }

    #[test]
    fn a_layer_of_an_upright_wall_is_its_foot() {
        let layer = seen_from_above(&wall(0.0), [3.0, 5.0]).expect("the wall reaches there");
        let extent = traywright_document::Extent::around(layer);
        assert_eq!(
            extent.size().map(|side| (side * 1e9).round() / 1e9),
            [20.0, 1.0]
        );
        // Above the wall, and a layer that only touches its top.
        assert!(seen_from_above(&wall(0.0), [12.0, 14.0]).is_none());
    }

    #[test]
    fn a_leaning_wall_covers_what_it_leans_over() {
        // Leaning by 45°, its middle line passes over 2 between the heights 3 and 5; the card adds √2 across.
        let layer = seen_from_above(&wall(45.0), [3.0, 5.0]).expect("the wall reaches there");
        let [_, across] = traywright_document::Extent::around(layer).size();
        assert!((across - 2.0 - 2.0_f64.sqrt()).abs() < 1e-9, "{across}");
    }

    #[test]
    fn heights_are_those_of_the_part_over_an_outline() {
        let over = |least: f64, most: f64| {
            let corners = [(0.0, least), (20.0, least), (20.0, most), (0.0, most)];
            corners.map(|(x, y)| Point::new(x, y)).to_vec()
        };
        let heights = |solid: &ConvexSolid, [least, most]: [f64; 2]| {
            heights_over(solid, &over(least, most), [0.0, 10.0])
        };
        let upright = heights(&wall(0.0), [0.2, 3.0]).expect("it stands there");
        assert!(
            (upright[0]).abs() < 1e-9 && (upright[1] - 10.0).abs() < 1e-9,
            "{upright:?}"
        );
        assert!(heights(&wall(0.0), [0.6, 3.0]).is_none());
    }
}
