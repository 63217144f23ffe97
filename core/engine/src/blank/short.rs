//! The edges of an outline that are too short for the tool, and the moves of one corner that make such an edge longer.
//!
//! **Input:** an outline with the card on its left, and the tool. **Output:** the short edges, each with its moves, the
//! one that removes the least card first. No move adds card, and none turns a crease.
//!
//! ```text
//!     --+   card          --+   card       a step: its outer corner moves along the edge
//!       |        ->          \
//!       +-----                 +---
//!
//!     +  +                 +    \          a relief: one of its corners moves into the card
//!     |  |  card   ->      |     \
//!     +--+                 +------+
//! ```

use traywright_document::steady::Steady;

use crate::geometry::{Outline, Point, TOUCH_MM, Vector};
use crate::job::{FILE_ROUNDING_MM, Machine};
use traywright_document::Edge;

/// How far a corner moves at most, in shortest edges, if it does not move along an edge.
// Derived: a move at 30 degrees to the edge that it lengthens needs two; one that needs more removes too much card.
const FARTHEST: f64 = 2.0;

/// How exactly a move is found, in halvings of the longest move.
const HALVINGS: u32 = 40;

/// What a tool can follow.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Tool {
    smallest: f64,
    half_kerf: f64,
}

/// An edge whose toolpath is too short.
#[derive(Clone, Debug)]
pub(super) struct ShortEdge {
    pub(super) edge: Edge,
    pub(super) moves: Vec<Move>,
}

/// One way to lengthen a short edge.
#[derive(Clone, Copy, Debug)]
pub(super) struct Move {
    /// The corner.
    pub(super) corner: Point,
    /// The corners before and after it.
    pub(super) beside: [Point; 2],
    /// The corner's new position; none if it is cut off from one neighbour to the other.
    pub(super) to: Option<Point>,
    /// The card that the move removes, in mm².
    pub(super) area: f64,
}

impl Tool {
    /// The tool of a job; none if the job does not say what it can follow.
    pub(crate) fn of(machine: &Machine) -> Option<Tool> {
        Some(Tool {
            smallest: machine.smallest?.mm(),
            half_kerf: machine.kerf.mm() / 2.0,
        })
    }

    /// Length of the toolpath beside an edge, which half the kerf shortens at inner corners and lengthens at outer ones.
    // Derived: two lines that turn by an angle, moved aside by d, meet d tan(angle / 2) beyond the moved corner.
    fn path(&self, before: &Edge, edge: &Edge, after: &Edge) -> f64 {
        let corner = |one: &Edge, other: &Edge| {
            let (arrives, leaves) = (one.directions()[1], other.directions()[0]);
            let turn = arrives.cross(leaves).steady_atan2(arrives.dot(leaves));
            (turn / 2.0).steady_tan()
        };
        let grown = edge.arc().map_or(0.0, |arc| {
            edge.length() * self.half_kerf * edge.bulge.signum() / arc.radius
        });
        edge.length() + grown + self.half_kerf * (corner(before, edge) + corner(edge, after))
    }
}

/// The edges of an outline that are too short.
pub(super) fn short_edges(
    outline: &Outline,
    creases: &[[Point; 2]],
    tool: &Tool,
) -> Vec<ShortEdge> {
    let edges: Vec<Edge> = outline.edges().collect();
    let count = edges.len();
    let around = |at: usize| Around {
        edges: std::array::from_fn(|step| edges[(at + count - 2 + step) % count]),
        creases,
        tool,
    };
    let still = [Vector::new(0.0, 0.0); 2];
    let all = (0..count).map(around);
    all.filter(|around| around.path(still) < tool.smallest)
        .map(|around| ShortEdge {
            edge: around.edges[2],
            moves: around.moves(),
        })
        .collect()
}

/// A short edge with the two edges before and after it.
struct Around<'a> {
    edges: [Edge; 5],
    creases: &'a [[Point; 2]],
    tool: &'a Tool,
}

impl Around<'_> {
    /// Length of the toolpath if the edge's two ends move.
    fn path(&self, by: [Vector; 2]) -> f64 {
        let [_, before, edge, after, _] = self.edges;
        let ends = [edge.from + by[0], edge.to + by[1]];
        let before = Edge {
            to: ends[0],
            ..before
        };
        let after = Edge {
            from: ends[1],
            ..after
        };
        let edge = Edge {
            from: ends[0],
            to: ends[1],
            ..edge
        };
        self.tool.path(&before, &edge, &after)
    }

    /// The moves that make the edge long enough.
    fn moves(&self) -> Vec<Move> {
        if self.edges[2].bulge != 0.0 {
            return Vec::new();
        }
        let mut moves: Vec<Move> = (0..2).flat_map(|end| self.moves_of(end)).collect();
        moves.sort_by(|one, other| one.area.total_cmp(&other.area));
        moves
    }

    /// The moves of one end.
    fn moves_of(&self, end: usize) -> Vec<Move> {
        let (other, edge) = (&self.edges[1 + 2 * end], &self.edges[2]);
        let (corner, beside) = match end {
            0 => (edge.from, [other.from, edge.to]),
            _ => (edge.to, [edge.from, other.to]),
        };
        let (far, straight) = (beside[end], other.bulge == 0.0);
        let along = (far - corner).unit();
        let held = self.creases_at(corner);
        let mut ways: Vec<Vector> = held.iter().flat_map(|way| [*way, -*way]).collect();
        if straight {
            ways.extend([along, -along, (corner - beside[1 - end]).unit()]);
        }
        let moved = |way: Vector| {
            // Derived: the area of a polygon changes by half of way × (next corner - corner before).
            let removed = -way.cross(beside[1] - beside[0]) / 2.0;
            // The card is on the left of both edges. On one side alone a move could add card and still remove more.
            let sides = [corner - beside[0], beside[1] - corner];
            let adds = sides.iter().any(|side| side.unit().cross(way) < -TOUCH_MM);
            let is_free = held.iter().all(|crease| crease.cross(way).abs() < TOUCH_MM);
            if adds || !is_free || removed < TOUCH_MM {
                return None;
            }
            let most = match way.dot(along) > 1.0 - TOUCH_MM {
                true => (far - corner).length() - self.tool.smallest,
                false => FARTHEST * self.tool.smallest,
            };
            let far = self.far_enough(end, way, most)?;
            let (to, area) = (Some(corner + way * far), removed * far);
            Some(Move {
                corner,
                beside,
                to,
                area,
            })
        };
        let mut moves: Vec<Move> = ways.into_iter().filter_map(moved).collect();
        // A corner between two short edges goes as a whole.
        let outer = (corner - beside[0]).cross(beside[1] - corner);
        if held.is_empty() && straight && other.length() < self.tool.smallest && outer > 0.0 {
            let (to, area) = (None, outer / 2.0);
            moves.push(Move {
                corner,
                beside,
                to,
                area,
            });
        }
        moves
    }

    /// The directions of the creases that end at a corner.
    fn creases_at(&self, corner: Point) -> Vec<Vector> {
        let ends_here = |line: &&[Point; 2]| line.iter().any(|place| place.touches(corner));
        let creases = self.creases.iter().filter(ends_here);
        creases.map(|line| (line[1] - line[0]).unit()).collect()
    }

    /// How far an end must move to make the edge long enough; none if the longest move does not.
    fn far_enough(&self, end: usize, way: Vector, most: f64) -> Option<f64> {
        let wanted = self.tool.smallest + FILE_ROUNDING_MM;
        let path = |far: f64| {
            let mut by = [Vector::new(0.0, 0.0); 2];
            by[end] = way * far;
            self.path(by)
        };
        if most <= 0.0 || path(most) < wanted {
            return None;
        }
        let (mut short, mut long) = (0.0, most);
        for _ in 0..HALVINGS {
            let middle = (short + long) / 2.0;
            match path(middle) < wanted {
                true => short = middle,
                false => long = middle,
            }
        }
        Some(long)
    }
}
