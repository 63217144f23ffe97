//! Edge cut-outs: a hole that reaches an edge of its panel, a half-round notch, a slit that is open to the edge.
//!
//! **Input:** a panel's shape and the part to cut out, both in the panel's frame. **Output:** the run that leaves the
//! edge and returns to it. A part that reaches more than one edge gives none: the flat check refuses it as a hole over
//! the edge.
//!
//! ```text
//!      void on the right, card on the left
//!    P ------+      +------> Q     edge, counter-clockwise around the card above it
//!            |      ^
//!            v      |              (the run goes into the card)
//!            +------+
//! ```

use super::EdgeDetour;
use crate::geometry::{Corner, Point, TOUCH_MM, Vector};
use crate::values::PanelShape;

/// One edge of a panel.
struct Edge {
    index: usize,
    from: Point,
    along: Vector,
    length: f64,
}

impl Edge {
    /// How far inside the card a point is, and how far along the edge.
    fn seen(&self, place: Point) -> (f64, f64) {
        let way = place - self.from;
        (way.dot(self.along.left()), way.dot(self.along))
    }

    /// Whether a segment of its line is between its ends.
    fn holds(&self, stretch: [f64; 2]) -> bool {
        stretch
            .iter()
            .all(|&at| at > -TOUCH_MM && at < self.length + TOUCH_MM)
    }
}

/// The edges of a shape, except those without length.
fn edges(shape: &PanelShape) -> impl Iterator<Item = Edge> {
    let points: Vec<Point> = shape.points().collect();
    let count = points.len();
    (0..count).map(move |index| {
        let way = points[(index + 1) % count] - points[index];
        Edge {
            index,
            from: points[index],
            along: way.unit(),
            length: way.length(),
        }
    })
}

/// The cut-out of a convex hole, its corners counter-clockwise, in the edge that it reaches; none if it reaches no
/// edge, or more than one.
pub(super) fn reaching(shape: &PanelShape, hole: &[Point]) -> Option<EdgeDetour> {
    let mut edge_cutouts = edges(shape).filter_map(|edge| reaching_edge(&edge, hole));
    edge_cutouts
        .next()
        .filter(|_| edge_cutouts.next().is_none())
}

fn reaching_edge(edge: &Edge, hole: &[Point]) -> Option<EdgeDetour> {
    let inside = |&place: &Point| edge.seen(place).0 > TOUCH_MM;
    if hole.iter().all(inside) || !hole.iter().any(inside) {
        return None;
    }
    // Counter-clockwise around the void, its edge on the line has the panel's direction: the run is the rest, reversed.
    let void = beyond(edge, hole);
    let on_line: Vec<f64> = void
        .iter()
        .filter(|&place| !inside(place))
        .map(|&place| edge.seen(place).1)
        .collect();
    let (least, most) = (
        on_line.iter().copied().fold(f64::INFINITY, f64::min),
        on_line.iter().copied().fold(f64::NEG_INFINITY, f64::max),
    );
    if !edge.holds([least, most]) || most - least < TOUCH_MM {
        return None;
    }
    let last = void
        .iter()
        .position(|&place| !inside(&place) && edge.seen(place).1 > most - TOUCH_MM)?;
    let round = (0..void.len()).map(|step| void[(last + step) % void.len()]);
    let between: Vec<Point> = round.skip(1).take_while(|place| inside(place)).collect();
    let on = |at: f64| edge.from + edge.along * at;
    let corners = [on(least)]
        .into_iter()
        .chain(between.into_iter().rev())
        .chain([on(most)]);
    Some(EdgeDetour {
        edge: edge.index,
        corners: corners.map(Corner::sharp).collect(),
    })
}

/// The part of a convex polygon on the card's side of an edge's line.
// Source: Sutherland and Hodgman, one half plane.
fn beyond(edge: &Edge, polygon: &[Point]) -> Vec<Point> {
    let next = polygon.iter().cycle().skip(1);
    let mut kept = Vec::new();
    for (&from, &to) in polygon.iter().zip(next) {
        let (start, end) = (edge.seen(from).0, edge.seen(to).0);
        if start > TOUCH_MM {
            kept.push(from);
        } else if start > -TOUCH_MM {
            kept.push(from + edge.along.left() * -start);
            continue;
        }
        if (start > TOUCH_MM && end < -TOUCH_MM) || (start < -TOUCH_MM && end > TOUCH_MM) {
            kept.push(from + (to - from) * (start / (start - end)));
        }
    }
    kept
}

/// A slit with corners nearer to an edge than `nearest` is extended to that edge, and from there reaches at least as far
/// in as the tool needs.
pub(super) fn opened(
    shape: &PanelShape,
    slit: [Point; 4],
    nearest: f64,
    narrowest: f64,
) -> [Point; 4] {
    let near = |edge: &Edge| {
        let seen = slit.map(|corner| edge.seen(corner));
        let close: Vec<f64> = seen
            .iter()
            .filter(|(inside, _)| *inside < nearest)
            .map(|&(_, along)| along)
            .collect();
        let ends = [
            close.iter().copied().fold(f64::INFINITY, f64::min),
            close.iter().copied().fold(f64::NEG_INFINITY, f64::max),
        ];
        !close.is_empty() && close.len() < 4 && edge.holds(ends)
    };
    let Some(edge) = edges(shape).find(near) else {
        return slit;
    };
    slit.map(|corner| {
        let (inside, along) = edge.seen(corner);
        if inside < nearest {
            edge.from + edge.along * along
        } else {
            corner + edge.along.left() * f64::max(0.0, narrowest - inside)
        }
    })
}

/// A half circle out of an edge, `at` from the edge's middle towards greater x, or greater y on an upright edge; none
/// if it is wider than the edge on either side of its middle.
pub(super) fn half_round(
    shape: &PanelShape,
    edge: usize,
    at: f64,
    radius: f64,
) -> Option<EdgeDetour> {
    let edge = edges(shape).nth(edge)?;
    let rises = if edge.along.x.abs() > TOUCH_MM {
        edge.along.x > 0.0
    } else {
        edge.along.y > 0.0
    };
    let middle = edge.length / 2.0 + if rises { at } else { -at };
    let ends = [middle - radius, middle + radius];
    if radius < TOUCH_MM || !edge.holds(ends) {
        return None;
    }
    let on = |at: f64| edge.from + edge.along * at;
    // A bulge of 1 is half a circle, and a negative one turns clockwise: into the card.
    let corners = vec![
        Corner {
            at: on(ends[0]),
            bulge: -1.0,
        },
        Corner::sharp(on(ends[1])),
    ];
    Some(EdgeDetour {
        edge: edge.index,
        corners,
    })
}
