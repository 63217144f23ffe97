//! One panel as simple faces.
//!
//! **Input:** a panel's edges, holes and slits. **Output:** faces without holes that cover it. Every hole and slit is
//! joined to the next line on its left and right by a line across the card, and a cut that ends in the card is extended
//! until it meets an edge. These lines, the joins, are neither cut nor creased: the faces on both sides stay one panel.
//!
//! ```text
//!   +-----------------+
//!   |       2         |     joins (- -) of a hole: from its lower left corner to the left,
//!   |    +-----+- - - |     from its upper right corner to the right
//!   |    |     |      |
//!   |- - +-----+   1  |
//!   +-----------------+
//! ```

use std::collections::{BTreeMap, BTreeSet};
use std::f64::consts::TAU;
use traywright_document::steady::Steady;

use traywright_document::{Panel, Point};

use crate::chords;
use crate::edges::{closed, edges_of, either_way, pieces};
use crate::places::{Places, SAME_MM, VertexIndex};

/// The lines of one panel.
#[derive(Debug)]
pub(crate) struct PanelLines {
    /// The outline and the holes, with the card on their left.
    pub(crate) rings: Vec<Vec<VertexIndex>>,
    /// Cuts within the card.
    pub(crate) slits: Vec<Vec<[VertexIndex; 2]>>,
    /// Lines across the card.
    pub(crate) joins: BTreeSet<[VertexIndex; 2]>,
}

/// A line that ends a join.
struct Obstacle {
    /// The ring or slit that it belongs to; none for a join.
    run: Option<usize>,
    ends: [Point; 2],
}

/// A line from a point across the card, away from the path at which it starts.
struct Ray {
    run: usize,
    from: Point,
    way: [f64; 2],
}

impl PanelLines {
    /// The lines of a panel as in the document.
    pub(crate) fn new(panel: &Panel, places: &mut Places) -> PanelLines {
        let contours = std::iter::once(&panel.outline).chain(&panel.holes);
        let rings = contours.map(|contour| {
            let corners = chords::corners(contour);
            let mut ring: Vec<VertexIndex> =
                corners.into_iter().map(|at| places.number(at)).collect();
            ring.dedup();
            ring
        });
        PanelLines {
            rings: rings.collect(),
            slits: Vec::new(),
            joins: BTreeSet::new(),
        }
    }

    /// Whether a point is in the card of the panel.
    pub(crate) fn covers(&self, point: Point, places: &Places) -> bool {
        let edges = self.rings.iter().flat_map(|ring| edges_of(ring));
        let crossed = edges
            .map(|edge| edge.map(|place| places.point(place)))
            .filter(|[one, other]| {
                let part = (point.y - one.y) / (other.y - one.y);
                (one.y > point.y) != (other.y > point.y)
                    && point.x < one.x + part * (other.x - one.x)
            });
        crossed.count() % 2 == 1
    }

    /// Adds the joins that the faces need.
    pub(crate) fn join(&mut self, places: &mut Places) {
        let mut obstacles = self.obstacles(places);
        for ray in self.rays(places) {
            let Some(end) = ray.end(&obstacles) else {
                continue;
            };
            let join = [places.number(ray.from), places.number(end)];
            if join[0] != join[1] && self.joins.insert(either_way(join)) {
                let ends = join.map(|place| places.point(place));
                obstacles.push(Obstacle { run: None, ends });
            }
        }
    }

    fn obstacles(&self, places: &Places) -> Vec<Obstacle> {
        let obstacle = |run: usize, edge: [VertexIndex; 2]| Obstacle {
            run: Some(run),
            ends: edge.map(|place| places.point(place)),
        };
        let rings = self
            .rings
            .iter()
            .enumerate()
            .flat_map(|(run, ring)| edges_of(ring).map(move |edge| (run, edge)));
        let first_slit = self.rings.len();
        let slits = self.slits.iter().enumerate();
        let slits = slits
            .flat_map(|(slit, edges)| edges.iter().map(move |&edge| (first_slit + slit, edge)));
        rings
            .chain(slits)
            .map(|(run, edge)| obstacle(run, edge))
            .collect()
    }

    fn rays(&self, places: &Places) -> Vec<Ray> {
        let mut rays = Vec::new();
        let holes = self.rings.iter().skip(1).cloned();
        let slits = self.slits.iter().map(|slit| slit.concat());
        for (index, run) in holes.chain(slits).enumerate() {
            let mut points: Vec<Point> = run.iter().map(|&place| places.point(place)).collect();
            points.sort_by(|one, other| one.x.total_cmp(&other.x).then(one.y.total_cmp(&other.y)));
            let ends = points.first().zip(points.last());
            rays.extend(ends.into_iter().flat_map(|(&left, &right)| {
                [(left, -1.0), (right, 1.0)].map(|(from, x)| Ray {
                    run: index + 1,
                    from,
                    way: [x, 0.0],
                })
            }));
        }
        for (run, ring) in self.rings.iter().enumerate() {
            let ring = places.ring(ring);
            let count = ring.len();
            let tips =
                (0..count).filter(|at| ring[(at + count - 1) % count] == ring[(at + 1) % count]);
            rays.extend(tips.map(|at| {
                let [root, from] =
                    [ring[(at + 1) % count], ring[at]].map(|place| places.point(place));
                let long = crate::places::distance(root, from);
                Ray {
                    run,
                    from,
                    way: [(from.x - root.x) / long, (from.y - root.y) / long],
                }
            }));
        }
        rays
    }

    /// The faces, each a ring with the card on its left and with every point on its edges inserted.
    pub(crate) fn faces(&self, places: &Places) -> Vec<Vec<VertexIndex>> {
        let mut edges: Vec<[VertexIndex; 2]> = Vec::new();
        for ring in &self.rings {
            edges.extend(pieces(&closed(&places.ring(ring))));
        }
        for &[one, other] in self.slits.iter().flatten().chain(&self.joins) {
            let way = places.way(one, other);
            edges.extend(pieces(&way).flat_map(|[from, to]| [[from, to], [to, from]]));
        }
        let mut leaving: BTreeMap<VertexIndex, Vec<usize>> = BTreeMap::new();
        for (index, edge) in edges.iter().enumerate() {
            leaving.entry(edge[0]).or_default().push(index);
        }
        let mut walked = vec![false; edges.len()];
        let mut faces = Vec::new();
        for start in 0..edges.len() {
            let mut face = Vec::new();
            let mut at = start;
            while !walked[at] {
                walked[at] = true;
                face.push(edges[at][0]);
                let Some(next) = leftmost(edges[at], &edges, &leaving, places) else {
                    break;
                };
                at = next;
            }
            if !face.is_empty() {
                faces.push(face);
            }
        }
        faces
    }

    /// The pieces of the joins, independent of direction.
    pub(crate) fn join_pieces(&self, places: &Places) -> BTreeSet<[VertexIndex; 2]> {
        let ways = self
            .joins
            .iter()
            .map(|&[one, other]| places.way(one, other));
        ways.flat_map(|way| pieces(&way).map(either_way).collect::<Vec<_>>())
            .collect()
    }
}

impl Ray {
    /// Its first point on an obstacle; none if it starts on another path already.
    fn end(&self, obstacles: &[Obstacle]) -> Option<Point> {
        let mut nearest = f64::INFINITY;
        for obstacle in obstacles {
            for along in self.meetings(&obstacle.ends).into_iter().flatten() {
                if along > SAME_MM {
                    nearest = nearest.min(along);
                } else if along > -SAME_MM && obstacle.run.is_some_and(|run| run != self.run) {
                    return None;
                }
            }
        }
        nearest.is_finite().then(|| Point {
            x: self.from.x + nearest * self.way[0],
            y: self.from.y + nearest * self.way[1],
        })
    }

    /// Distances along the ray at which an edge meets it.
    fn meetings(&self, ends: &[Point; 2]) -> [Option<f64>; 2] {
        let [x, y] = self.way;
        let seen = ends.map(|end| {
            let (right, up) = (end.x - self.from.x, end.y - self.from.y);
            (right * x + up * y, up * x - right * y)
        });
        let touches = seen.map(|(along, aside)| (aside.abs() < SAME_MM).then_some(along));
        let [(along, aside), (along_there, aside_there)] = seen;
        if touches == [None, None] && (aside > 0.0) != (aside_there > 0.0) {
            let part = aside / (aside - aside_there);
            return [Some(along + part * (along_there - along)), None];
        }
        touches
    }
}

/// The edge that turns most to the left after the one given.
fn leftmost(
    edge: [VertexIndex; 2],
    edges: &[[VertexIndex; 2]],
    leaving: &BTreeMap<VertexIndex, Vec<usize>>,
    places: &Places,
) -> Option<usize> {
    let heading = |from: VertexIndex, to: VertexIndex| {
        let (start, end) = (places.point(from), places.point(to));
        (end.y - start.y).steady_atan2(end.x - start.x)
    };
    let back = heading(edge[1], edge[0]);
    let clockwise = |&next: &usize| {
        let [from, to] = edges[next];
        if to == edge[0] {
            return TAU;
        }
        (back - heading(from, to)).rem_euclid(TAU)
    };
    let next = leaving.get(&edge[1])?.iter().copied();
    next.min_by(|one, other| clockwise(one).total_cmp(&clockwise(other)))
}
