//! The outlines of a call in all their turns, and the no-fit regions of each two of them.

use std::sync::OnceLock;

use traywright_document::{Extent, Point, Turn, Vector};

use crate::convex::{self, Convex};
use crate::no_fit::NoFit;
use crate::polygon::Outline;

/// One kind of blank.
#[derive(Debug)]
pub(crate) struct Kind {
    /// Its outline by turn.
    pub(crate) polygons: [Outline; 4],
    /// How far its lines reach by turn, what stands off the outline included.
    pub(crate) extents: [Extent; 4],
    pub(crate) turns: Vec<Turn>,
    pub(crate) area: f64,
    stand_off: f64,
    pieces: [Vec<Convex>; 4],
}

/// All kinds.
#[derive(Debug)]
pub(crate) struct Shapes {
    pub(crate) kinds: Vec<Kind>,
    gap: f64,
    /// By first kind, second kind and the turn of the second against the first.
    no_fits: Vec<OnceLock<NoFit>>,
}

impl Kind {
    pub(crate) fn new(polygon: &Outline, stand_off: f64, turns: &[Turn]) -> Kind {
        let polygons = Turn::ALL.map(|turn| polygon.turned(turn));
        let reach = |polygon: &Outline| polygon.extent().wider(stand_off, stand_off);
        Kind {
            extents: polygons.each_ref().map(reach),
            pieces: polygons.each_ref().map(convex::pieces),
            area: polygon.area(),
            turns: turns.to_vec(),
            stand_off,
            polygons,
        }
    }
}

impl Shapes {
    pub(crate) fn new(kinds: Vec<Kind>, gap: f64) -> Shapes {
        let count = kinds.len() * kinds.len() * Turn::ALL.len();
        Shapes {
            no_fits: (0..count).map(|_| OnceLock::new()).collect(),
            kinds,
            gap,
        }
    }

    /// The gap between the outlines of two kinds that leaves the asked one between their lines.
    pub(crate) fn gap(&self, one: usize, other: usize) -> f64 {
        self.gap + self.kinds[one].stand_off + self.kinds[other].stand_off
    }

    /// The no-fit region of two kinds whose turns differ by so much, the first one not turned.
    pub(crate) fn no_fit(&self, one: usize, other: usize, turned: Turn) -> &NoFit {
        let index = (one * self.kinds.len() + other) * Turn::ALL.len() + turned.quarters();
        self.no_fits[index].get_or_init(|| {
            let first = &self.kinds[one].pieces[0];
            let second = &self.kinds[other].pieces[turned.quarters()];
            NoFit::new(first, second, self.gap(one, other))
        })
    }

    /// How deep a blank lies in the no-fit region of another.
    pub(crate) fn depth(&self, first: &Spot, second: &Spot) -> f64 {
        let region = self.no_fit(first.kind, second.kind, between(first.turn, second.turn));
        region.depth(back(first.turn).of(second.at - first.at))
    }

    /// The edges of a no-fit region on the sheet: where the origin of a blank may not lie for one that lies there.
    pub(crate) fn region(
        &self,
        lies: &Spot,
        kind: usize,
        turn: Turn,
    ) -> impl Iterator<Item = [Point; 2]> {
        let region = self.no_fit(lies.kind, kind, between(lies.turn, turn));
        let place = |corner: Point| lies.at + lies.turn.of(corner - Point::ORIGIN);
        region
            .edges
            .iter()
            .map(move |[from, to]| [place(*from), place(*to)])
    }

    /// Where the origin of a blank may lie so that the blank lies in a room; none if it is too large.
    pub(crate) fn inner(&self, kind: usize, turn: Turn, room: &Extent) -> Option<Extent> {
        let reach = self.kinds[kind].extents[turn.quarters()];
        let inner = Extent {
            least: room.least + (Point::ORIGIN - reach.least),
            most: room.most + (Point::ORIGIN - reach.most),
        };
        let size = inner.size();
        (size[0] >= 0.0 && size[1] >= 0.0).then_some(inner)
    }
}

/// A blank that lies somewhere.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Spot {
    pub(crate) kind: usize,
    pub(crate) turn: Turn,
    /// Where its origin lies.
    pub(crate) at: Point,
}

impl Spot {
    /// The rectangle around its lines.
    pub(crate) fn extent(&self, shapes: &Shapes) -> Extent {
        let reach = shapes.kinds[self.kind].extents[self.turn.quarters()];
        let by: Vector = self.at - Point::ORIGIN;
        Extent {
            least: reach.least + by,
            most: reach.most + by,
        }
    }
}

/// The turn that leads from one to another.
pub(crate) fn between(from: Turn, to: Turn) -> Turn {
    Turn::ALL[(to.quarters() + 4 - from.quarters()) % 4]
}

fn back(turn: Turn) -> Turn {
    between(turn, Turn::None)
}
