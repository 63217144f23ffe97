//! The best place for a rectangle in the room of a sheet.
//!
//! Given a size and a wish; finds the place where a rectangle meets no line and no other words, outside the blank if there
//! is room, and near the corner where it is wanted. It looks at all places of a row at once, the rows nearest to the wish
//! first, and stops where no further row can be better.

use traywright_paper::PointMm;

use crate::free_space::Room;
use crate::squares::Squares;

/// How much worse a place on the blank is than one beside it, in millimetres away from where it is wanted: half of it for
/// any part of the blank, and the rest by how much.
const ON_BLANK: f64 = 1000.0;
const ANY_BLANK: f64 = 0.5 * ON_BLANK;

/// Where something is wanted.
#[derive(Clone, Copy, Debug)]
pub(crate) struct PlacementRequest {
    /// A corner or side of the sheet: shares of its width and height.
    pub(crate) near: [f64; 2],
    /// How much a millimetre away from it counts along x and y.
    pub(crate) pull: [f64; 2],
    /// Whether it belongs onto the blank rather than beside it.
    pub(crate) on_blank: bool,
}

/// The corner of a place in squares, and what it costs.
type Found = Option<([usize; 2], f64)>;

/// The places of a rectangle on a sheet.
struct Places<'a> {
    room: &'a Room,
    /// Its sides in squares, and the first corner along each axis at which it leaves the sheet.
    squares: [usize; 2],
    ends: [usize; 2],
    /// Where it is wanted, in millimetres from the corner of the sheet, and how much a millimetre counts.
    wanted: [f64; 2],
    pull: [f64; 2],
    on_blank: bool,
}

impl Room {
    /// The lower left corner of the best free place for a rectangle, and how far it is from what was wished: less than a
    /// limit, or there is none.
    pub(crate) fn find(
        &self,
        size: [f64; 2],
        wish: PlacementRequest,
        limit: f64,
    ) -> Option<(PointMm, f64)> {
        let places = Places::new(self, size, wish)?;
        let occupied = (self.taken.clone())
            .with(&self.lines)
            .with(&self.thin_lines);
        // On a closed blank nothing has room, so what has room lies beside it already.
        let has_others = !self.is_closed || wish.on_blank;
        let wrong = match (wish.on_blank, has_others) {
            (true, _) => occupied.clone().with_others(&self.blank),
            (false, true) => occupied.clone().with(&self.blank),
            (false, false) => occupied.clone(),
        };
        let best = places.nearest(&wrong.met_by(places.squares));
        let least = best.map_or(limit, |(_, cost)| cost.min(limit));
        let best = if least > ANY_BLANK && has_others {
            let met = occupied.met_by(places.squares);
            places.search(&met, (least, ANY_BLANK), |_| 0.0).or(best)
        } else {
            best
        };
        let (corner, cost) = best.filter(|(_, cost)| *cost < limit)?;
        Some((self.place(corner), cost))
    }

    /// The lower left corner of the place where a rectangle meets the fewest lines, and no cut unless there is no other.
    pub(crate) fn find_across_lines(
        &self,
        size: [f64; 2],
        wish: PlacementRequest,
    ) -> Option<PointMm> {
        let places = Places::new(self, size, wish)?;
        let lines = self.line_sums();
        let crossed = |corner| ON_BLANK * f64::from(lines.within(corner, places.squares));
        let mut off_cuts = self.taken.clone();
        off_cuts.add(&self.cuts);
        let found = [off_cuts, self.taken.clone()]
            .into_iter()
            .find_map(|taken| {
                let met = taken.met_by(places.squares);
                places.search(&met, (f64::INFINITY, 0.0), crossed)
            });
        found.map(|(corner, _)| self.place(corner))
    }

    fn place(&self, corner: [usize; 2]) -> PointMm {
        [0, 1].map(|axis| self.window.least[axis] + corner[axis] as f64 * self.square)
    }
}

impl<'a> Places<'a> {
    /// None where the rectangle is larger than the sheet.
    fn new(room: &'a Room, size: [f64; 2], wish: PlacementRequest) -> Option<Places<'a>> {
        let squares = size.map(|side| (side / room.square).ceil() as usize);
        if (0..2).any(|axis| squares[axis] > room.size[axis]) {
            return None;
        }
        let sides = room.window.size();
        Some(Places {
            room,
            squares,
            // A rectangle without a side needs a square to stand in.
            ends: [0, 1].map(|axis| (room.size[axis] - squares[axis] + 1).min(room.size[axis])),
            wanted: [0, 1].map(|axis| wish.near[axis] * (sides[axis] - size[axis]).max(0.0)),
            pull: wish.pull,
            on_blank: wish.on_blank,
        })
    }

    /// What it costs that a corner is not where it is wanted along one axis.
    fn away(&self, axis: usize, index: usize) -> f64 {
        self.pull[axis] * (index as f64 * self.room.square - self.wanted[axis]).abs()
    }

    /// The first corner along one axis that is not before the wanted one.
    fn wanted_index(&self, axis: usize) -> usize {
        ((self.wanted[axis] / self.room.square).ceil() as usize).min(self.ends[axis])
    }

    /// Where the rectangle can begin along one axis, with the cost of its distance, the cheapest first.
    fn nearest_first(&self, axis: usize) -> impl Iterator<Item = (usize, f64)> {
        let mut after = self.wanted_index(axis);
        let mut before = after;
        std::iter::from_fn(move || {
            let down = (before > 0).then(|| (before - 1, self.away(axis, before - 1)));
            let up = (after < self.ends[axis]).then(|| (after, self.away(axis, after)));
            match (down, up) {
                (Some(down), Some(up)) if up.1 < down.1 => {
                    after += 1;
                    Some(up)
                }
                (Some(down), _) => {
                    before -= 1;
                    Some(down)
                }
                (None, up) => {
                    after += 1;
                    up
                }
            }
        })
    }

    /// The place with the least cost of its distance at which nothing is met.
    fn nearest(&self, met: &Squares) -> Found {
        let wanted = self.wanted_index(0);
        let mut best: Found = None;
        for (row, up) in self.nearest_first(1) {
            let least = best.map_or(f64::INFINITY, |(_, cost)| cost);
            if up >= least {
                break;
            }
            let beside = [
                met.unset_before(row, wanted),
                met.unset_from(row, wanted, self.ends[0]),
            ];
            let nearest = self
                .nearer(beside)
                .map(|(_, column, aside)| (column, up + aside));
            if let Some((column, cost)) = nearest.filter(|(_, cost)| *cost < least) {
                best = Some(([column, row], cost));
            }
        }
        best
    }

    /// The nearer one of two columns, with its side and the cost of its distance.
    fn nearer(&self, beside: [Option<usize>; 2]) -> Option<(usize, usize, f64)> {
        let costs = beside.map(|column| column.map(|column| (column, self.away(0, column))));
        let [before, after] = costs;
        match (before, after) {
            (Some(before), Some(after)) if after.1 < before.1 => Some((1, after.0, after.1)),
            (Some(before), _) => Some((0, before.0, before.1)),
            (None, after) => after.map(|after| (1, after.0, after.1)),
        }
    }

    /// The best place, cheaper than a limit, where every place costs so much at least beside its distance.
    fn search(
        &self,
        met: &Squares,
        (limit, floor): (f64, f64),
        crossed: impl Fn([usize; 2]) -> f64,
    ) -> Found {
        let wanted = self.wanted_index(0);
        let (mut best, mut least) = (None, limit);
        for (row, up) in self.nearest_first(1) {
            if up + floor >= least {
                break;
            }
            let mut beside = [
                met.unset_before(row, wanted),
                met.unset_from(row, wanted, self.ends[0]),
            ];
            while let Some((side, column, aside)) = self.nearer(beside) {
                if up + aside + floor >= least {
                    break;
                }
                let corner = [column, row];
                let near = up + aside + crossed(corner);
                if near + floor < least {
                    let cost = near + self.on_wrong_side(corner);
                    if cost < least {
                        (best, least) = (Some((corner, cost)), cost);
                    }
                }
                beside[side] = if side == 0 {
                    met.unset_before(row, column)
                } else {
                    met.unset_from(row, column + 1, self.ends[0])
                };
            }
        }
        best
    }

    /// What it costs that a rectangle lies on the blank, or beside it where it should lie on it.
    fn on_wrong_side(&self, corner: [usize; 2]) -> f64 {
        let all = (self.squares[0] * self.squares[1]) as f64;
        let blank = f64::from(self.room.blank_sums().within(corner, self.squares)) / all;
        let wrong = if self.on_blank { 1.0 - blank } else { blank };
        if wrong > 0.0 {
            ANY_BLANK + ON_BLANK * wrong
        } else {
            0.0
        }
    }
}
