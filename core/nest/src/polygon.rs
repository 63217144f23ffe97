//! Outlines as polygons: area, extent, turns, and the distance between two of them.

use traywright_document::{Extent, Point, Turn, Vector};

/// A simple polygon, its corners counter-clockwise.
#[derive(Clone, Debug)]
pub(crate) struct Outline {
    pub(crate) corners: Vec<Point>,
}

impl Outline {
    /// The polygon with these corners, in either direction; none without an area.
    pub(crate) fn new(mut corners: Vec<Point>) -> Option<Outline> {
        corners.dedup_by(|one, other| one.touches(*other));
        while corners.len() > 1 && corners[0].touches(corners[corners.len() - 1]) {
            corners.pop();
        }
        let area = doubled_area(&corners);
        if area < 0.0 {
            corners.reverse();
        }
        let is_sound = corners.len() >= 3 && area.is_finite() && area != 0.0;
        is_sound.then_some(Outline { corners })
    }

    pub(crate) fn area(&self) -> f64 {
        doubled_area(&self.corners) / 2.0
    }

    pub(crate) fn extent(&self) -> Extent {
        Extent::around(self.corners.iter().copied())
    }

    /// Each edge, from corner to corner.
    pub(crate) fn edges(&self) -> impl Iterator<Item = [Point; 2]> {
        let ends = self.corners.iter().cycle().skip(1);
        self.corners.iter().zip(ends).map(|(from, to)| [*from, *to])
    }

    /// Turned about the origin.
    pub(crate) fn turned(&self, turn: Turn) -> Outline {
        let turned = |corner: &Point| Point::ORIGIN + turn.of(*corner - Point::ORIGIN);
        Outline {
            corners: self.corners.iter().map(turned).collect(),
        }
    }

    pub(crate) fn moved(&self, by: Vector) -> Outline {
        Outline {
            corners: self.corners.iter().map(|corner| *corner + by).collect(),
        }
    }

    /// Whether a point is inside, by the rule of odd crossings.
    pub(crate) fn contains(&self, at: Point) -> bool {
        self.edges().filter(|edge| crosses(*edge, at)).count() % 2 == 1
    }

    /// The smallest distance between two polygons; 0 if they overlap.
    pub(crate) fn distance(&self, other: &Outline) -> f64 {
        if self.contains(other.corners[0]) || other.contains(self.corners[0]) {
            return 0.0;
        }
        let mut least = f64::INFINITY;
        for one in self.edges() {
            for two in other.edges() {
                least = least.min(between(one, two));
            }
        }
        least.sqrt()
    }
}

/// Whether an edge crosses the level line that runs from a point to the right.
pub(crate) fn crosses([from, to]: [Point; 2], at: Point) -> bool {
    (from.y > at.y) != (to.y > at.y)
        && at.x < from.x + (at.y - from.y) / (to.y - from.y) * (to.x - from.x)
}

/// Twice the area, positive if the corners run counter-clockwise.
fn doubled_area(corners: &[Point]) -> f64 {
    let ends = corners.iter().cycle().skip(1);
    let cross = |(from, to): (&Point, &Point)| (*from - Point::ORIGIN).cross(*to - Point::ORIGIN);
    corners.iter().zip(ends).map(cross).sum()
}

/// The square of the distance from a point to an edge.
pub(crate) fn beside([from, to]: [Point; 2], at: Point) -> f64 {
    let (way, out) = (to - from, at - from);
    let share = (out.dot(way) / way.dot(way)).clamp(0.0, 1.0);
    let off = out + -(way * share);
    off.dot(off)
}

/// The square of the distance between two edges.
fn between(one: [Point; 2], other: [Point; 2]) -> f64 {
    let side = |[from, to]: [Point; 2], at: Point| (to - from).cross(at - from);
    let parts = |line, [from, to]: [Point; 2]| side(line, from) * side(line, to) < 0.0;
    if parts(one, other) && parts(other, one) {
        return 0.0;
    }
    let ends = [
        beside(one, other[0]),
        beside(one, other[1]),
        beside(other, one[0]),
        beside(other, one[1]),
    ];
    ends.into_iter().fold(f64::INFINITY, f64::min)
}
