//! Strokes of a tool: sequences of edges that can be reversed, cut apart and joined.
//!
//! **Input:** contours of a document. **Output:** strokes, and contours again.

pub(super) use traywright_document::Edge;
use traywright_document::{Contour, Point};

/// Edges that follow each other.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Stroke {
    pub(super) edges: Vec<Edge>,
    pub(super) closed: bool,
}

impl Stroke {
    /// The edges of a contour, except those without length.
    pub(super) fn of(contour: &Contour) -> Stroke {
        let has_length = |edge: &Edge| !edge.from.touches(edge.to);
        Stroke {
            edges: contour.edges().filter(has_length).collect(),
            closed: contour.closed,
        }
    }

    /// The stroke as a contour; a path without edges is a point at the origin.
    pub(super) fn contour(&self) -> Contour {
        let nowhere = Contour {
            start: Point::ORIGIN,
            segments: Vec::new(),
            closed: self.closed,
        };
        Contour::of_edges(self.edges.iter().copied(), self.closed).unwrap_or(nowhere)
    }

    /// Its start; the origin for a path without edges.
    pub(super) fn start(&self) -> Point {
        self.edges.first().map_or(Point::ORIGIN, |edge| edge.from)
    }

    /// Its end.
    pub(super) fn end(&self) -> Point {
        self.edges.last().map_or(Point::ORIGIN, |edge| edge.to)
    }

    /// The same path in the opposite direction.
    pub(super) fn reversed(&self) -> Stroke {
        Stroke {
            edges: self.edges.iter().rev().map(Edge::reversed).collect(),
            closed: self.closed,
        }
    }

    /// Twice the enclosed area, positive if it is on the left.
    pub(super) fn doubled_area(&self) -> f64 {
        self.edges.iter().map(Edge::doubled_area).sum()
    }
}
