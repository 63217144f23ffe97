//! A closed cut offset away from the piece by half the kerf.
//!
//! **Input:** a closed path with the piece on its left. **Output:** the path at that distance on its right, with mitred
//! corners. Arcs keep their centres. **Errors:** the point at which the kerf is too wide, and how wide the notch or
//! opening is there: an edge shrinks to nothing, or the path crosses itself.

use super::ToolpathError;
use super::stroke::{Edge, Stroke};
use crate::geometry::{Point, TOUCH_MM, Vector};
use traywright_document::steady::Steady;
use traywright_document::{Arc, Chords};

/// Two edges whose directions differ by less than this continue without a corner.
// Derived: at a turn of 1e-6 the moved ends of two edges 1 mm beside differ by a millionth of a millimetre.
const SMOOTH: f64 = 1e-6;

/// The path offset from a closed one.
///
/// # Refuses
/// A distance at which an edge shrinks to nothing, or the path would cross itself or turn inside out.
pub(super) fn beside(path: &Stroke, distance: f64) -> Result<Stroke, ToolpathError> {
    let mut sides: Vec<Side> = Vec::new();
    for edge in &path.edges {
        sides.push(Side::of(*edge, distance).ok_or_else(|| filled(edge))?);
    }
    let edges = joined(&sides)?;
    let lost = sides.iter().zip(&edges);
    let lost = lost.filter(|(side, edge)| !side.goes_like(edge));
    let shortest = lost.map(|(side, _)| side.edge).min_by(|one, other| {
        let width = |edge: &Edge| (edge.to - edge.from).length();
        width(one).total_cmp(&width(other))
    });
    if let Some(edge) = shortest {
        return Err(filled(&edge));
    }
    let moved = Stroke {
        edges,
        closed: true,
    };
    match flaw(path, &moved) {
        Some(error) => Err(error),
        None => Ok(moved),
    }
}

/// The error that the kerf fills the place at an edge: that place is as wide as the edge, or as its circle.
fn filled(edge: &Edge) -> ToolpathError {
    let chord = (edge.to - edge.from).length();
    ToolpathError::KerfTooWide {
        at: edge.from.middle(edge.to),
        width: edge.arc().map_or(chord, |arc| chord.min(2.0 * arc.radius)),
    }
}

/// An edge of the piece, and the offset line or circle of the tool.
#[derive(Clone, Copy, Debug)]
struct Side {
    edge: Edge,
    moved: Edge,
}

impl Side {
    /// None for an arc whose centre, on the kerf's side, is nearer than the distance: the kerf fills the arc.
    fn of(edge: Edge, distance: f64) -> Option<Side> {
        if edge
            .arc()
            .is_some_and(|arc| edge.bulge < 0.0 && arc.radius <= distance)
        {
            return None;
        }
        let [leaves, arrives] = edge.directions();
        let moved = Edge {
            from: edge.from + leaves.right() * distance,
            to: edge.to + arrives.right() * distance,
            bulge: edge.bulge,
        };
        Some(Side { edge, moved })
    }

    /// Whether an edge between two corner points still has the direction of the piece's edge.
    fn goes_like(&self, between: &Edge) -> bool {
        match self.moved.arc() {
            None => (between.to - between.from).dot(self.moved.to - self.moved.from) > 0.0,
            // A reversed arc has become the long way around its circle.
            Some(_) => between.bulge.abs() < 2.0 * self.moved.bulge.abs().max(1.0),
        }
    }
}

/// The edges between the points where each side meets the next.
fn joined(sides: &[Side]) -> Result<Vec<Edge>, ToolpathError> {
    let count = sides.len();
    let mut meets = Vec::with_capacity(count);
    for (index, side) in sides.iter().enumerate() {
        let next = &sides[(index + 1) % count];
        let shorter = || match side.edge.length() < next.edge.length() {
            true => filled(&side.edge),
            false => filled(&next.edge),
        };
        meets.push(meeting(side, next).ok_or_else(shorter)?);
    }
    let edge = |index: usize| {
        let (from, to) = (meets[(index + count - 1) % count], meets[index]);
        let bulge = match sides[index].moved.arc() {
            None => 0.0,
            Some(arc) => bulge(from - arc.centre, to - arc.centre, arc.sweep),
        };
        Edge { from, to, bulge }
    };
    Ok((0..count).map(edge).collect())
}

/// The bulge of an arc between two directions from its centre, with the sense of rotation of `like`.
fn bulge(from: Vector, to: Vector, like: f64) -> f64 {
    let mut angle = from.cross(to).steady_atan2(from.dot(to));
    if like > 0.0 && angle < 0.0 {
        angle += std::f64::consts::TAU;
    } else if like < 0.0 && angle > 0.0 {
        angle -= std::f64::consts::TAU;
    }
    (angle / 4.0).steady_tan()
}

/// The intersection of two sides nearest to the corner between them.
fn meeting(side: &Side, next: &Side) -> Option<Point> {
    let ([_, arrives], [leaves, _]) = (side.moved.directions(), next.moved.directions());
    let follow = side.edge.to.touches(next.edge.from);
    if follow && arrives.cross(leaves).abs() < SMOOTH && arrives.dot(leaves) > 0.0 {
        return Some(side.moved.to);
    }
    let corner = side.edge.to.middle(next.edge.from);
    let candidates = match (side.moved.arc(), next.moved.arc()) {
        (None, None) => lines_meet(&side.moved, &next.moved).into_iter().collect(),
        (None, Some(arc)) => line_and_circle(&side.moved, &arc),
        (Some(arc), None) => line_and_circle(&next.moved, &arc),
        (Some(one), Some(other)) => circles_meet(&one, &other),
    };
    let away = |place: &Point| (*place - corner).length();
    // If the edge between two shrank to nothing, both are shortened; neither grows.
    let shortens = |place: &Point| {
        follow
            || (*place - side.moved.to).dot(arrives) < TOUCH_MM
                && (*place - next.moved.from).dot(leaves) > -TOUCH_MM
    };
    candidates
        .into_iter()
        .filter(shortens)
        .min_by(|one, other| away(one).total_cmp(&away(other)))
}

fn lines_meet(one: &Edge, other: &Edge) -> Option<Point> {
    let (along, across) = ((one.to - one.from).unit(), (other.to - other.from).unit());
    let turn = along.cross(across);
    (turn.abs() > SMOOTH).then(|| one.from + along * ((other.from - one.from).cross(across) / turn))
}

fn line_and_circle(line: &Edge, &Arc { centre, radius, .. }: &Arc) -> Vec<Point> {
    let along = (line.to - line.from).unit();
    let foot = line.from + along * (centre - line.from).dot(along);
    let half = radius * radius - (foot - centre).dot(foot - centre);
    if half < 0.0 {
        return Vec::new();
    }
    [-half.sqrt(), half.sqrt()]
        .map(|off| foot + along * off)
        .to_vec()
}

fn circles_meet(one: &Arc, other: &Arc) -> Vec<Point> {
    let (radius, beside) = (one.radius, other.radius);
    let between = other.centre - one.centre;
    let apart = between.length();
    if apart < TOUCH_MM {
        return Vec::new();
    }
    // Derived: both circles' equations subtracted give the line through the places where they meet.
    let along = (apart * apart + radius * radius - beside * beside) / (2.0 * apart);
    let half = radius * radius - along * along;
    if half < 0.0 {
        return Vec::new();
    }
    let foot = one.centre + between.unit() * along;
    [-half.sqrt(), half.sqrt()]
        .map(|off| foot + between.unit().left() * off)
        .to_vec()
}

/// Where an offset path crosses itself, or its start if it runs round in the wrong sense.
fn flaw(path: &Stroke, moved: &Stroke) -> Option<ToolpathError> {
    if path.doubled_area() * moved.doubled_area() <= 0.0 {
        let shortest = path.edges.iter().min_by(|one, other| {
            let length = |edge: &Edge| edge.length();
            length(one).total_cmp(&length(other))
        });
        return shortest.map(filled);
    }
    let pieces: Vec<(usize, Edge)> = moved
        .edges
        .iter()
        .enumerate()
        .flat_map(|(index, edge)| chords(edge).into_iter().map(move |piece| (index, piece)))
        .collect();
    let count = pieces.len();
    for (index, (edge, one)) in pieces.iter().enumerate() {
        // Neighbours share an end.
        let others = pieces.get(index + 2..count - usize::from(index == 0));
        for (beside, other) in others.unwrap_or_default() {
            if cross(one, other) {
                return Some(ToolpathError::KerfTooWide {
                    at: lines_meet(one, other).unwrap_or(one.from),
                    width: apart(&path.edges[*edge], &path.edges[*beside]),
                });
            }
        }
    }
    None
}

/// An edge in straight pieces of at most a thirty-second of a turn.
fn chords(edge: &Edge) -> Vec<Edge> {
    edge.pieces(Chords::Spanning(360.0 / 32.0))
}

/// The least distance between two edges that do not cross, by their chords.
pub(super) fn apart(one: &Edge, other: &Edge) -> f64 {
    let (here, there) = (chords(one), chords(other));
    let pairs = here
        .iter()
        .flat_map(|one| there.iter().map(move |other| one.apart(other)));
    pairs.fold(f64::INFINITY, f64::min)
}

/// Whether two straight edges cross.
pub(super) fn cross(one: &Edge, other: &Edge) -> bool {
    let side = |edge: &Edge, place: Point| (edge.to - edge.from).cross(place - edge.from);
    side(one, other.from) * side(one, other.to) < 0.0
        && side(other, one.from) * side(other, one.to) < 0.0
}
