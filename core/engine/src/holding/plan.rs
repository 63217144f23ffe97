//! The item seen from above: its travel until it meets a convex polygon, and the depth to which a polygon overlaps it.
//!
//! Lengths in mm, in the plan of the standing tray: x along the box's length, y across. An item is an upright prism
//! that moves horizontally, so its outline is enough. Polygons are convex and run counter-clockwise.

use traywright_document::{Point, TOUCH_MM, Vector};

/// An overlap thinner than this, measured across the direction of motion, is a graze and does not stop the item.
// Derived: ten times `TOUCH_MM`, since both shapes carry the rounding of their poses.
const GRAZE_MM: f64 = 1e-6;

/// The outline of an item in its place.
#[derive(Clone, Debug)]
pub(super) enum Plan {
    /// Straight edges all round, or chords of a curve.
    Polygon(Vec<Point>),
    /// A circle.
    Disc { middle: Point, radius: f64 },
}

impl Plan {
    /// The outline moved by a vector.
    pub(super) fn moved(&self, way: Vector) -> Plan {
        match self {
            Plan::Polygon(points) => Plan::Polygon(points.iter().map(|&at| at + way).collect()),
            Plan::Disc { middle, radius } => Plan::Disc {
                middle: *middle + way,
                radius: *radius,
            },
        }
    }

    /// The middle of the outline.
    pub(super) fn middle(&self) -> Point {
        match self {
            Plan::Disc { middle, .. } => *middle,
            Plan::Polygon(points) => {
                let sum = points.iter().fold(Vector::new(0.0, 0.0), |sum, &point| {
                    sum + (point - Point::ORIGIN)
                });
                Point::ORIGIN + sum * (1.0 / points.len() as f64)
            }
        }
    }

    /// Least and greatest extent along a unit vector.
    pub(super) fn reach(&self, way: Vector) -> [f64; 2] {
        match self {
            Plan::Polygon(points) => reach(points, way),
            Plan::Disc { middle, radius } => {
                let at = (*middle - Point::ORIGIN).dot(way);
                [at - radius, at + radius]
            }
        }
    }

    /// Least and greatest extent along the box, then across it.
    pub(super) fn extent(&self) -> [[f64; 2]; 2] {
        [
            self.reach(Vector::new(1.0, 0.0)),
            self.reach(Vector::new(0.0, 1.0)),
        ]
    }

    /// Corners of a polygon inside the outline: its own corners, or those of a circle's chords.
    pub(super) fn corners(&self) -> Vec<Point> {
        match self {
            Plan::Polygon(points) => points.clone(),
            Plan::Disc { middle, radius } => {
                let chord = std::f64::consts::TAU / f64::from(CHORDS);
                let corner =
                    |at: u32| *middle + Vector::new(*radius, 0.0).turned(chord * f64::from(at));
                (0..CHORDS).map(corner).collect()
            }
        }
    }

    /// Travel along a unit vector until the outline meets the polygon; none if it passes the polygon.
    pub(super) fn way_until(&self, polygon: &[Point], way: Vector) -> Option<f64> {
        let [meets, leaves] = match self {
            Plan::Polygon(points) => polygon_meets(points, polygon, way)?,
            Plan::Disc { middle, radius } => disc_meets(*middle, *radius, polygon, way)?,
        };
        (meets < leaves - GRAZE_MM && leaves > GRAZE_MM).then_some(meets.max(0.0))
    }

    /// Penetration depth: the shortest move that separates polygon and outline; 0 if they do not overlap.
    // Source: separating axis theorem; of a disc also the way from its middle to the nearest corner.
    pub(super) fn overlap(&self, polygon: &[Point]) -> f64 {
        let mut normals: Vec<Vector> = normals(polygon).collect();
        match self {
            Plan::Polygon(points) => normals.extend(self::normals(points)),
            Plan::Disc { middle, .. } => {
                let away = |corner: &&Point| (**corner - *middle).length();
                let nearest = polygon
                    .iter()
                    .min_by(|one, other| away(one).total_cmp(&away(other)));
                normals.extend(nearest.map(|corner| (*corner - *middle).unit()));
            }
        }
        let shared = normals.into_iter().map(|normal| {
            let ([one_least, one_most], [other_least, other_most]) =
                (self.reach(normal), reach(polygon, normal));
            (one_most - other_least).min(other_most - one_least)
        });
        shared.fold(f64::INFINITY, f64::min).max(0.0)
    }
}

/// Number of chords that replace a circle where a polygon is needed.
// Derived: the middle of a chord lies r (1 - cos(π/n)) inside the circle: 0.004 mm for a radius of 50 mm.
const CHORDS: u32 = 256;

/// Least and greatest extent of points along a unit vector.
pub(super) fn reach(points: &[Point], way: Vector) -> [f64; 2] {
    let mut reached = [f64::INFINITY, f64::NEG_INFINITY];
    for &point in points {
        let at = (point - Point::ORIGIN).dot(way);
        reached = [reached[0].min(at), reached[1].max(at)];
    }
    reached
}

/// The outward unit normals of a polygon.
fn normals(polygon: &[Point]) -> impl Iterator<Item = Vector> + '_ {
    edges(polygon).map(|(from, to)| (to - from).unit().right())
}

pub(super) fn edges(polygon: &[Point]) -> impl Iterator<Item = (Point, Point)> + '_ {
    let next = polygon.iter().cycle().skip(1);
    polygon.iter().copied().zip(next.copied())
}

/// The travel at which a moving polygon first meets a fixed one, and at which it leaves it.
// Derived: two convex polygons overlap from the first to the last time that a corner of one lies on an edge of the other.
// Beside the way they have to share more than a graze.
fn polygon_meets(moving: &[Point], standing: &[Point], way: Vector) -> Option<[f64; 2]> {
    let ([least, most], [low, high]) = (reach(moving, way.left()), reach(standing, way.left()));
    if low > most - GRAZE_MM || high < least + GRAZE_MM {
        return None;
    }
    let (mut meets, mut leaves) = (f64::INFINITY, f64::NEG_INFINITY);
    let mut cross = |corners: &[Point], other: &[Point], sense: f64| {
        for &corner in corners {
            for far in on_edges(corner, other, way) {
                meets = meets.min(sense * far);
                leaves = leaves.max(sense * far);
            }
        }
    };
    cross(moving, standing, 1.0);
    cross(standing, moving, -1.0);
    (meets < leaves).then_some([meets, leaves])
}

/// Distances, along a vector, from a corner to the edges of a polygon on the line through the corner.
fn on_edges(corner: Point, polygon: &[Point], way: Vector) -> impl Iterator<Item = f64> + '_ {
    let seen = move |point: Point| ((point - corner).dot(way), (point - corner).dot(way.left()));
    edges(polygon).filter_map(move |(from, to)| {
        let ((ahead, aside), (ahead_too, aside_too)) = (seen(from), seen(to));
        let (least, most) = (aside.min(aside_too), aside.max(aside_too));
        // An edge parallel to the motion is met at its ends, by its neighbours.
        let is_met = least <= TOUCH_MM && most >= -TOUCH_MM && most - least > TOUCH_MM;
        let part = (-aside / (aside_too - aside)).clamp(0.0, 1.0);
        is_met.then_some(ahead + (ahead_too - ahead) * part)
    })
}

/// The travel at which a disc first meets a fixed polygon, and at which it leaves it: its middle enters and leaves the
/// polygon offset by the radius, which has the edges moved outwards and circles around the corners.
fn disc_meets(middle: Point, radius: f64, standing: &[Point], way: Vector) -> Option<[f64; 2]> {
    let (mut meets, mut leaves) = (f64::INFINITY, f64::NEG_INFINITY);
    let mut crosses = |at: f64| {
        meets = meets.min(at);
        leaves = leaves.max(at);
    };
    for (from, to) in edges(standing) {
        let (along, out) = ((to - from).unit(), (to - from).unit().right());
        let speed = out.dot(way);
        if speed.abs() > 1e-12 {
            let at = (radius - (middle - from).dot(out)) / speed;
            let beside = (middle + way * at - from).dot(along);
            if (0.0..=(to - from).length()).contains(&beside) {
                crosses(at);
            }
        }
        // The circle around the corner: the roots of |middle + at way - corner| = radius.
        let (ahead, aside) = ((from - middle).dot(way), (from - middle).cross(way));
        let half = radius * radius - aside * aside;
        if aside.abs() < radius - GRAZE_MM {
            crosses(ahead - half.sqrt());
            crosses(ahead + half.sqrt());
        }
    }
    (meets < leaves).then_some([meets, leaves])
}

#[cfg(test)]
mod tests {
    //! Source of every expectation: by hand, on squared paper.
    use super::*;

    fn square(least: [f64; 2], side: f64) -> Vec<Point> {
        let [x, y] = least;
        [(0.0, 0.0), (side, 0.0), (side, side), (0.0, side)]
            .map(|(right, up)| Point::new(x + right, y + up))
            .to_vec()
    }

    const RIGHT: Vector = Vector::new(1.0, 0.0);

    #[track_caller]
    fn goes(plan: &Plan, polygon: &[Point], expected: Option<f64>) {
        let found = plan.way_until(polygon, RIGHT);
        let alike = match (found, expected) {
            (Some(found), Some(expected)) => (found - expected).abs() < 1e-12,
            (found, expected) => found == expected,
        };
        assert!(alike, "{found:?} and not {expected:?}");
    }

    #[test]
    fn a_rectangle_stops_at_the_first_edge_or_corner_ahead() {
        let item = Plan::Polygon(square([0.0, 0.0], 10.0));
        goes(&item, &square([15.0, 4.0], 2.0), Some(5.0));
        goes(&item, &square([-9.0, 4.0], 2.0), None);
        // To one side of the motion, and only touching it.
        goes(&item, &square([15.0, 12.0], 2.0), None);
        goes(&item, &square([15.0, 10.0], 2.0), None);
        // A wedge whose tip is at (14, 5), and one whose slope meets the corner at (18, 10).
        let wedge = |x: f64, y: f64| {
            vec![
                Point::new(x, y),
                Point::new(x + 9.0, y - 9.0),
                Point::new(x + 9.0, y + 9.0),
            ]
        };
        goes(&item, &wedge(14.0, 5.0), Some(4.0));
        goes(&item, &wedge(14.0, 14.0), Some(8.0));
        // A polygon that overlaps the item stops it at once; one that the item is leaving does not.
        goes(&item, &square([9.0, 4.0], 2.0), Some(0.0));
        goes(&item, &square([-2.0, 4.0], 2.0), None);
    }

    #[test]
    fn a_disc_stops_at_an_edge_and_earlier_beside_a_corner() {
        let item = Plan::Disc {
            middle: Point::ORIGIN,
            radius: 5.0,
        };
        goes(&item, &square([20.0, -4.0], 8.0), Some(15.0));
        // Its middle is 3 below the corner at (20, 3): it goes on for 20 - √(25 - 9).
        goes(&item, &square([20.0, 3.0], 8.0), Some(16.0));
        goes(&item, &square([20.0, 5.0], 8.0), None);
    }

    #[test]
    fn an_overlap_is_the_shortest_way_out() {
        let item = Plan::Polygon(square([0.0, 0.0], 10.0));
        assert_eq!(item.overlap(&square([8.0, 5.0], 10.0)), 2.0);
        assert_eq!(item.overlap(&square([10.0, 5.0], 10.0)), 0.0);
        let disc = Plan::Disc {
            middle: Point::ORIGIN,
            radius: 5.0,
        };
        // The corner at (3, 3) lies √18 from the middle.
        let overlap = disc.overlap(&square([3.0, 3.0], 10.0));
        assert!(
            (overlap - (5.0 - 18.0_f64.sqrt())).abs() < 1e-12,
            "{overlap}"
        );
        assert_eq!(disc.overlap(&square([4.0, 4.0], 10.0)), 0.0);
    }
}
