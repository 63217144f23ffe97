//! The item seen from above: how far it slides before it meets a convex polygon, and how deep one reaches into it.
//!
//! Lengths in mm, in the plan of the standing tray: x along the box's length, y across. An item is an upright prism that
//! moves level, so each question is one of its outline. Polygons are convex and run counter-clockwise.

use traywright_document::{Point, Vector};

/// An overlap thinner than this on an axis across the way is a touch along the way, and no stop.
// Derived: ten times `TOUCH_MM`, since both shapes carry the rounding of their poses.
const GRAZE_MM: f64 = 1e-6;

/// The outline of an item as it lies.
#[derive(Clone, Debug)]
pub(super) enum Plan {
    /// Straight edges all round, or chords of a curve.
    Polygon(Vec<Point>),
    /// A circle.
    Disc { middle: Point, radius: f64 },
}

impl Plan {
    /// The same outline moved.
    pub(super) fn moved(&self, way: Vector) -> Plan {
        match self {
            Plan::Polygon(points) => Plan::Polygon(points.iter().map(|&at| at + way).collect()),
            Plan::Disc { middle, radius } => Plan::Disc {
                middle: *middle + way,
                radius: *radius,
            },
        }
    }

    /// Its middle.
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

    /// From where to where it reaches along a way, one long.
    pub(super) fn reach(&self, way: Vector) -> [f64; 2] {
        match self {
            Plan::Polygon(points) => reach(points, way),
            Plan::Disc { middle, radius } => {
                let at = (*middle - Point::ORIGIN).dot(way);
                [at - radius, at + radius]
            }
        }
    }

    /// Corners of a polygon within the outline: its own, or those of a circle's chords.
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

    /// How far it goes along a way, one long, before it meets the polygon; none where it passes it by.
    pub(super) fn way_until(&self, polygon: &[Point], way: Vector) -> Option<f64> {
        let [meets, leaves] = match self {
            Plan::Polygon(points) => polygon_meets(points, polygon, way)?,
            Plan::Disc { middle, radius } => disc_meets(*middle, *radius, polygon, way)?,
        };
        (meets < leaves - GRAZE_MM && leaves > GRAZE_MM).then_some(meets.max(0.0))
    }

    /// How deep the polygon reaches into the outline: the shortest way that parts them; 0 when they are apart.
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

/// Chords that stand for a circle where a polygon is needed.
// Derived: the middle of a chord lies r (1 - cos(π/n)) inside the circle: 0.004 mm for a radius of 50 mm.
const CHORDS: u32 = 256;

/// From where to where points reach along a way, one long.
pub(super) fn reach(points: &[Point], way: Vector) -> [f64; 2] {
    let mut reached = [f64::INFINITY, f64::NEG_INFINITY];
    for &point in points {
        let at = (point - Point::ORIGIN).dot(way);
        reached = [reached[0].min(at), reached[1].max(at)];
    }
    reached
}

/// The outward normals of a polygon, one long.
fn normals(polygon: &[Point]) -> impl Iterator<Item = Vector> + '_ {
    edges(polygon).map(|(from, to)| (to - from).unit().right())
}

pub(super) fn edges(polygon: &[Point]) -> impl Iterator<Item = (Point, Point)> + '_ {
    let next = polygon.iter().cycle().skip(1);
    polygon.iter().copied().zip(next.copied())
}

/// Where on its way a moving polygon meets a standing one, and where it leaves it.
// Derived: on each normal n both are intervals, and the moving one has the speed n · way; they overlap while they overlap
// on all normals of both.
fn polygon_meets(moving: &[Point], standing: &[Point], way: Vector) -> Option<[f64; 2]> {
    let (mut meets, mut leaves) = (f64::NEG_INFINITY, f64::INFINITY);
    for normal in normals(moving).chain(normals(standing)) {
        let ([least, most], [low, high]) = (reach(moving, normal), reach(standing, normal));
        let speed = normal.dot(way);
        if speed.abs() < 1e-12 {
            if low > most - GRAZE_MM || high < least + GRAZE_MM {
                return None;
            }
            continue;
        }
        let (first, last) = ((low - most) / speed, (high - least) / speed);
        meets = meets.max(first.min(last));
        leaves = leaves.min(first.max(last));
        if meets >= leaves {
            return None;
        }
    }
    Some([meets, leaves])
}

/// Where on its way a disc meets a standing polygon, and where it leaves it: its middle enters the polygon grown by the
/// radius, whose outline is that of edges moved out and of circles around the corners.
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
