//! The first layout of a sheet: one blank after the other, each where it touches what lies there already.
//!
//! **Input:** a room and blanks in an order. **Output:** those that found a place, without overlap. The places tried are
//! the corners of the no-fit regions and the points where their edges cross, so two of a kind interlock.

use traywright_document::{Extent, Point, Turn};

use crate::no_fit::FREE_MM;
use crate::shapes::{Shapes, Spot};

/// How places are compared: a weight for how far a blank reaches along x and along y.
pub(crate) type Pull = [f64; 2];

/// At most so many edges are looked at for crossings.
const MOST_EDGES: usize = 1500;

/// Lays blanks of these kinds, in this order; a kind that once found no place is not tried again.
pub(crate) fn lay(
    shapes: &Shapes,
    room: &Extent,
    order: &[usize],
    (pull, turns): (Pull, Option<[Turn; 2]>),
) -> Vec<Spot> {
    let mut laid = Vec::new();
    let mut full = vec![false; shapes.kinds.len()];
    for &kind in order {
        if full[kind] {
            continue;
        }
        match place(shapes, room, &laid, kind, (pull, turns)) {
            Some(spot) => laid.push(spot),
            None => full[kind] = true,
        }
    }
    laid
}

/// The best free place for one more blank.
fn place(
    shapes: &Shapes,
    room: &Extent,
    laid: &[Spot],
    kind: usize,
    (pull, turns): (Pull, Option<[Turn; 2]>),
) -> Option<Spot> {
    let mut tried: Vec<(f64, Spot)> = Vec::new();
    for &turn in &shapes.kinds[kind].turns {
        let allowed = |turns: [Turn; 2]| turns.contains(&turn);
        let Some(inner) = shapes
            .inner(kind, turn, room)
            .filter(|_| turns.is_none_or(allowed))
        else {
            continue;
        };
        let reach = shapes.kinds[kind].extents[turn.quarters()].most;
        for at in candidates(shapes, laid, kind, turn, &inner) {
            let far = pull[0] * (at.x + reach.x) + pull[1] * (at.y + reach.y);
            tried.push((far, Spot { kind, turn, at }));
        }
    }
    tried.sort_by(|one, other| one.0.total_cmp(&other.0));
    let is_free = |(_, spot): &&(f64, Spot)| {
        laid.iter()
            .rev()
            .all(|lies| shapes.depth(lies, spot) < FREE_MM)
    };
    tried.iter().find(is_free).map(|(_, spot)| *spot)
}

/// Corners of the inner room and of the no-fit regions, and the points where edges of two of them cross.
fn candidates(
    shapes: &Shapes,
    laid: &[Spot],
    kind: usize,
    turn: Turn,
    inner: &Extent,
) -> Vec<Point> {
    let mut edges: Vec<(usize, [Point; 2])> = inner.sides().map(|side| (usize::MAX, side)).into();
    let reach = inner.wider(FREE_MM, FREE_MM);
    for (index, lies) in laid.iter().enumerate() {
        let region = shapes.region(lies, kind, turn);
        let near = region.filter(|edge| Extent::around(*edge).touches(&reach));
        edges.extend(near.map(|edge| (index, edge)));
    }
    if edges.len() > MOST_EDGES {
        // Round outlines have many short edges, which hardly differ.
        edges.sort_by(|(_, one), (_, other)| length(other).total_cmp(&length(one)));
        edges.truncate(MOST_EDGES);
    }
    edges.sort_by(|(_, one), (_, other)| left(one).total_cmp(&left(other)));
    let mut found: Vec<Point> = inner.sides().map(|[corner, _]| corner).into();
    for (index, (owner, edge)) in edges.iter().enumerate() {
        found.extend(edge);
        let right = edge[0].x.max(edge[1].x);
        let beside = edges[index + 1..]
            .iter()
            .take_while(|(_, other)| left(other) <= right);
        for (_, other) in beside.filter(|(other, _)| other != owner) {
            found.extend(crossing(*edge, *other));
        }
    }
    found.retain(|at| {
        let around = Extent {
            least: *at,
            most: *at,
        };
        around.touches(&inner.wider(1e-6, 1e-6))
    });
    let Extent { least, most } = *inner;
    let clamp = |at: Point| Point::new(at.x.clamp(least.x, most.x), at.y.clamp(least.y, most.y));
    found.into_iter().map(clamp).collect()
}

fn length(edge: &[Point; 2]) -> f64 {
    (edge[1] - edge[0]).dot(edge[1] - edge[0])
}

fn left(edge: &[Point; 2]) -> f64 {
    edge[0].x.min(edge[1].x)
}

/// Where two edges cross.
pub(crate) fn crossing(one: [Point; 2], other: [Point; 2]) -> Option<Point> {
    let (along, beside) = (one[1] - one[0], other[1] - other[0]);
    let area = along.cross(beside);
    if area == 0.0 {
        return None;
    }
    let between = other[0] - one[0];
    let shares = [between.cross(beside) / area, between.cross(along) / area];
    let is_within = shares.iter().all(|share| (0.0..=1.0).contains(share));
    is_within.then(|| one[0] + along * shares[0])
}
