//! Whether rectangles fit into a field, and at which positions: found, or shown to be impossible.
//!
//! **Input:** rectangles, some of which may be rotated by 90°, and the field's size. **Output:** a position for each,
//! or that there is none, or that the step limit was reached first. Exact: lengths are whole ticks of a millionth of a
//! micrometre. The web between rectangles is added to each of them and to the field beforehand.
//!
//! ```text
//!    |                       Push all rectangles of a packing down and left. Then there is an order to place them in
//!    c--+                    in which none is below and left of an earlier one. So each begins at a corner `c` of the stairs
//!    |##|                    along those placed so far, and it is enough to try these corners.
//!    |##c---+                Source: Martello, Pisinger and Vigo, "The three-dimensional bin packing problem", 2000,
//!    |######|                section 4, for two dimensions; the bound at the start is Fekete and Schepers, "A general
//!    +------c------          framework for bounds for higher-dimensional orthogonal packing problems", 2004.
//! ```

use std::collections::HashSet;

/// Maximum number of rectangles in a search.
// Source: the outside contract of the project.
pub const MOST_PIECES: usize = 12;

/// Ticks in a millimetre.
// Derived: a thousandth of what counts as one place, and 10^3 times the rounding of a sum of lengths in f64.
const TICKS_A_MM: f64 = 1e9;

/// A rectangle to place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Piece {
    /// Along the field's length, in mm.
    pub length: f64,
    /// Along the field's width, in mm.
    pub width: f64,
    /// Whether it may also be rotated by 90°.
    pub turns: bool,
}

/// A rectangle's position: its lower left corner relative to that of the field, in mm.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct PlacedRect {
    /// Along the field's length.
    pub x: f64,
    /// Along the field's width.
    pub y: f64,
    /// Whether its length lies along the field's width.
    pub turned: bool,
}

/// The result of a search.
#[derive(Clone, Debug, PartialEq)]
pub enum Packing {
    /// A position for each rectangle, in the order given.
    Found(Vec<PlacedRect>),
    /// There is no packing.
    Impossible,
    /// The step limit was reached before a result.
    Unsettled,
}

/// Packs rectangles into a field of this length and width, or shows that they do not fit.
///
/// Gives the same answer for the same input on every machine. A step is one rectangle tried at one corner; it takes
/// about a microsecond.
///
/// # Panics
/// With more than [`MOST_PIECES`] rectangles.
pub fn pack(pieces: &[Piece], field: [f64; 2], most_steps: usize) -> Packing {
    let count = pieces.len();
    assert!(count <= MOST_PIECES, "{count} rectangles to pack");
    let ticks = |length: f64| (length * TICKS_A_MM).round() as i64;
    let mut order: Vec<usize> = (0..count).collect();
    let size = |piece: usize| [pieces[piece].length, pieces[piece].width].map(ticks);
    let largest_first = |&piece: &usize| {
        let [length, width] = size(piece);
        let area = i128::from(length) * i128::from(width);
        (-area, length, pieces[piece].turns)
    };
    order.sort_by_key(largest_first);
    let mut search = Search {
        // Each length is off by at most half a tick, so a fitting rectangle is never rejected for rounding.
        field: field.map(|side| ticks(side) + count as i64),
        sizes: order.iter().map(|&piece| size(piece)).collect(),
        turns: order.iter().map(|&piece| pieces[piece].turns).collect(),
        steps_left: most_steps,
        failed: HashSet::new(),
        laid: vec![PlacedRect::default(); count],
    };
    if search.is_too_much() {
        return Packing::Impossible;
    }
    match search.lay(Rest::all(count), vec![[0, 0]]) {
        SearchEnd::Found => {
            let mut laid = vec![PlacedRect::default(); count];
            for (place, piece) in search.laid.into_iter().zip(order) {
                laid[piece] = place;
            }
            Packing::Found(laid)
        }
        SearchEnd::Fails => Packing::Impossible,
        SearchEnd::OutOfSteps => Packing::Unsettled,
    }
}

/// A position, or a size, in ticks.
type Ticks = [i64; 2];

/// The pieces yet to be placed, one bit each.
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
struct Rest(u16);

impl Rest {
    fn all(count: usize) -> Rest {
        Rest((1 << count) - 1)
    }

    fn without(self, piece: usize) -> Rest {
        Rest(self.0 & !(1 << piece))
    }

    fn pieces(self) -> impl Iterator<Item = usize> {
        (0..MOST_PIECES).filter(move |piece| self.0 & (1 << piece) != 0)
    }
}

enum SearchEnd {
    Found,
    Fails,
    OutOfSteps,
}

/// One piece at one corner, and the corners after it.
struct Try {
    /// Lower ranks are tried earlier.
    rank: i128,
    piece: usize,
    turned: bool,
    at: Ticks,
    corners: Vec<Ticks>,
}

/// The search, its pieces sorted by area, the largest first.
struct Search {
    field: Ticks,
    sizes: Vec<Ticks>,
    turns: Vec<bool>,
    steps_left: usize,
    /// States known to fail: the rest depends on nothing but the corners.
    failed: HashSet<(Rest, Vec<Ticks>)>,
    laid: Vec<PlacedRect>,
}

impl Search {
    /// Places the rest at these corners, which run from upper left to lower right.
    fn lay(&mut self, rest: Rest, mut corners: Vec<Ticks>) -> SearchEnd {
        if rest == Rest(0) {
            return SearchEnd::Found;
        }
        if !self.keep_useful(rest, &mut corners) {
            return SearchEnd::Fails;
        }
        let state = (rest, corners);
        if self.failed.contains(&state) {
            return SearchEnd::Fails;
        }
        let Some(mut tries) = self.tries(rest, &state.1) else {
            return SearchEnd::OutOfSteps;
        };
        tries.sort_by_key(|one| one.rank);
        for one in tries {
            match self.lay(rest.without(one.piece), one.corners) {
                SearchEnd::Fails => {}
                SearchEnd::OutOfSteps => return SearchEnd::OutOfSteps,
                SearchEnd::Found => {
                    self.laid[one.piece] = PlacedRect {
                        x: one.at[0] as f64 / TICKS_A_MM,
                        y: one.at[1] as f64 / TICKS_A_MM,
                        turned: one.turned,
                    };
                    return SearchEnd::Found;
                }
            }
        }
        self.failed.insert(state);
        SearchEnd::Fails
    }

    /// Every piece at every corner, except placements that fail at once; none when the step limit is reached.
    fn tries(&mut self, rest: Rest, corners: &[Ticks]) -> Option<Vec<Try>> {
        let mut tries = Vec::new();
        let mut before: Option<usize> = None;
        for piece in rest.pieces() {
            // Among equal pieces the first is placed first.
            if before.is_some_and(|before| self.are_alike(before, piece)) {
                continue;
            }
            before = Some(piece);
            let left = rest.without(piece);
            for (turned, size) in self.ways(piece) {
                for &at in corners {
                    if !self.may_lie(piece, size, at) {
                        continue;
                    }
                    self.steps_left = self.steps_left.checked_sub(1)?;
                    let mut corners = after(corners, at, size);
                    if self.keep_useful(left, &mut corners) {
                        let rank = -(self.free(&corners) + area(size));
                        tries.push(Try {
                            rank,
                            piece,
                            turned,
                            at,
                            corners,
                        });
                    }
                }
            }
        }
        Some(tries)
    }

    fn are_alike(&self, one: usize, other: usize) -> bool {
        self.sizes[one] == self.sizes[other] && self.turns[one] == self.turns[other]
    }

    /// The orientations of a piece, each with its size.
    fn ways(&self, piece: usize) -> impl Iterator<Item = (bool, Ticks)> + use<> {
        let [length, width] = self.sizes[piece];
        let turned = self.turns[piece] && length != width;
        let turned = turned.then_some((true, [width, length]));
        std::iter::once((false, [length, width])).chain(turned)
    }

    fn fits(&self, size: Ticks, at: Ticks) -> bool {
        (0..2).all(|axis| at[axis] + size[axis] <= self.field[axis])
    }

    fn fits_at_all(&self, piece: usize, corners: &[Ticks]) -> bool {
        self.ways(piece)
            .any(|(_, size)| corners.iter().any(|&at| self.fits(size, at)))
    }

    /// Whether a piece may begin at a corner. The mirror image of a packing is a packing, so the largest piece need
    /// only be tried with its middle in the lower left quarter, if no other piece is equal to it.
    fn may_lie(&self, piece: usize, size: Ticks, at: Ticks) -> bool {
        let one_of_a_kind = self.sizes.len() == 1 || !self.are_alike(0, 1);
        let in_quarter = |axis: usize| 2 * at[axis] + size[axis] <= self.field[axis];
        self.fits(size, at) && (piece > 0 || !one_of_a_kind || (0..2).all(in_quarter))
    }

    /// Removes the corners at which no remaining piece fits, and returns whether the rest may still fit. If no piece
    /// fits at a corner, none fits anywhere above and to the right of it.
    fn keep_useful(&self, rest: Rest, corners: &mut Vec<Ticks>) -> bool {
        if !rest.pieces().all(|piece| self.fits_at_all(piece, corners)) {
            return false;
        }
        corners.retain(|&at| rest.pieces().any(|piece| self.fits_at_all(piece, &[at])));
        let needed: i128 = rest.pieces().map(|piece| area(self.sizes[piece])).sum();
        needed <= self.free(corners)
    }

    /// The area above and right of the corners.
    fn free(&self, corners: &[Ticks]) -> i128 {
        let ends = corners.iter().skip(1).map(|next| next[0]);
        let columns = corners.iter().zip(ends.chain([self.field[0]]));
        columns
            .map(|(&[x, y], end)| area([end - x, self.field[1] - y]))
            .sum()
    }

    /// Whether a bound shows at once that the pieces do not fit. Beside a length above the field less `cut` only
    /// lengths below `cut` fit; so the bound may count the first as the whole field if it counts the second as 0.
    fn is_too_much(&self) -> bool {
        let all = Rest::all(self.sizes.len());
        if !all.pieces().all(|piece| self.fits_at_all(piece, &[[0, 0]])) {
            return true;
        }
        let counted = |axis: usize, length: i64, cut: i64| match length {
            length if length > self.field[axis] - cut => self.field[axis],
            length if length < cut => 0,
            length => length,
        };
        let [along_x, along_y] = [0, 1].map(|axis| self.cuts(axis));
        let bound = |cut_x: i64, cut_y: i64| -> i128 {
            let least = |piece: usize| {
                let ways = self
                    .ways(piece)
                    .filter(|(_, size)| self.fits(*size, [0, 0]));
                let counted = ways.map(|(_, size)| {
                    area([counted(0, size[0], cut_x), counted(1, size[1], cut_y)])
                });
                counted.min().unwrap_or(0)
            };
            all.pieces().map(least).sum()
        };
        along_x.iter().any(|&cut_x| {
            along_y
                .iter()
                .any(|&cut_y| bound(cut_x, cut_y) > area(self.field))
        })
    }

    /// Lengths at which the bound may change, up to half the field.
    fn cuts(&self, axis: usize) -> Vec<i64> {
        let pieces = Rest::all(self.sizes.len()).pieces();
        let lengths = pieces.flat_map(|piece| self.ways(piece).map(move |(_, size)| size[axis]));
        let cuts = lengths.flat_map(|length| [length, self.field[axis] - length + 1]);
        let mut cuts: Vec<i64> = cuts
            .chain([0])
            .filter(|&cut| cut >= 0 && 2 * cut <= self.field[axis])
            .collect();
        cuts.sort_unstable();
        cuts.dedup();
        cuts
    }
}

fn area([length, width]: Ticks) -> i128 {
    i128::from(length) * i128::from(width)
}

/// The corners after a piece was placed at one of them: nothing more begins below and left of its upper right corner.
fn after(corners: &[Ticks], at: Ticks, size: Ticks) -> Vec<Ticks> {
    let [right, top] = [at[0] + size[0], at[1] + size[1]];
    let upper_left = corners.iter().find(|corner| corner[1] <= top);
    let lower_right = corners.iter().rev().find(|corner| corner[0] <= right);
    let stay = corners
        .iter()
        .copied()
        .filter(|corner| corner[0] >= right || corner[1] >= top);
    let mut after: Vec<Ticks> = stay
        .chain(upper_left.map(|corner| [corner[0], top]))
        .chain(lower_right.map(|corner| [right, corner[1]]))
        .collect();
    after.sort_unstable();
    // A corner at least as high as an earlier one is above the stairs.
    let mut lowest = i64::MAX;
    after.retain(|corner| {
        let lower = corner[1] < lowest;
        lowest = lowest.min(corner[1]);
        lower
    });
    after
}

#[cfg(test)]
mod tests;
