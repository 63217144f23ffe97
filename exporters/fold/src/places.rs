//! The points of the blank, each with one number, and edges split at the points on them.
//!
//! **Input:** points. **Output:** numbers, equal for two points that touch. A numbered point never moves, so of two
//! that touch the first is kept.

use std::collections::BTreeMap;
use traywright_document::steady::Steady;

use traywright_document::Point;

/// Two points nearer than this count as one.
// Derived: ten times the document's `TOUCH_MM`: a corner of one panel and the end of another's crease come from
// different sums, and each may be off by it.
pub(crate) const SAME_MM: f64 = 1e-6;

/// The number of a point.
pub(crate) type VertexIndex = usize;

/// All numbered points.
#[derive(Debug, Default)]
pub(crate) struct Places {
    points: Vec<Point>,
    /// Numbers by the cell of a grid of [`SAME_MM`], in the order of x.
    cells: BTreeMap<(i64, i64), Vec<VertexIndex>>,
}

impl Places {
    /// The number of a point.
    pub(crate) fn number(&mut self, point: Point) -> VertexIndex {
        let (column, row) = cell(point);
        let beside =
            (column - 1..=column + 1).flat_map(|x| (row - 1..=row + 1).map(move |y| (x, y)));
        let mut near = beside.filter_map(|cell| self.cells.get(&cell)).flatten();
        if let Some(&place) = near.find(|&&place| distance(self.points[place], point) < SAME_MM) {
            return place;
        }
        let place = self.points.len();
        self.points.push(point);
        self.cells.entry((column, row)).or_default().push(place);
        place
    }

    /// The coordinates of a point.
    pub(crate) fn point(&self, place: VertexIndex) -> Point {
        self.points[place]
    }

    /// The path from one point to another through every point between them, both ends included.
    pub(crate) fn way(&self, from: VertexIndex, to: VertexIndex) -> Vec<VertexIndex> {
        let (start, end) = (self.point(from), self.point(to));
        let long = distance(start, end);
        let (x, y) = ((end.x - start.x) / long, (end.y - start.y) / long);
        let (low, high) = (
            cell(start).0.min(cell(end).0),
            cell(start).0.max(cell(end).0),
        );
        let mut between: Vec<(f64, VertexIndex)> = self
            .cells
            .range((low - 1, i64::MIN)..=(high + 1, i64::MAX))
            .flat_map(|(_, places)| places)
            .filter(|&&place| place != from && place != to)
            .filter_map(|&place| {
                let (right, up) = (
                    self.points[place].x - start.x,
                    self.points[place].y - start.y,
                );
                let (along, aside) = (right * x + up * y, up * x - right * y);
                (aside.abs() < SAME_MM && along > 0.0 && along < long).then_some((along, place))
            })
            .collect();
        between.sort_by(|one, other| one.0.total_cmp(&other.0));
        let mut way = vec![from];
        way.extend(between.into_iter().map(|(_, place)| place));
        way.push(to);
        way
    }

    /// A closed ring with every point on its edges inserted.
    pub(crate) fn ring(&self, ring: &[VertexIndex]) -> Vec<VertexIndex> {
        let next = ring.iter().cycle().skip(1);
        let edges = ring.iter().zip(next);
        edges
            .flat_map(|(&from, &to)| {
                let mut way = self.way(from, to);
                way.pop();
                way
            })
            .collect()
    }
}

/// Distance of two points.
pub(crate) fn distance(one: Point, other: Point) -> f64 {
    (one.x - other.x).steady_hypot(one.y - other.y)
}

fn cell(point: Point) -> (i64, i64) {
    let along = |length: f64| (length / SAME_MM).floor() as i64;
    (along(point.x), along(point.y))
}
