//! Lays outlines on sheets of stock.
//!
//! **Input:** outlines, how many of each, the stock, the gap, and how long to search. **Output:** sheets with the place of
//! every blank, without overlap; equal sheets are one sheet with a number of copies. **Does not** read, print, or ask the time: whether
//! to go on is a question to the caller.
//!
//! A sheet begins with blanks laid one after the other where they touch (`start`). Then one more blank is laid on it, over
//! the others, and the overlaps are removed (`separate`), as long as that works. What lies on the last sheet is moved
//! together in the same way, so that the rest of the sheet is as large as possible (`fill`).

mod convex;
mod fill;
mod left_over;
mod no_fit;
mod polygon;
mod random;
mod separate;
mod shapes;
mod start;
#[cfg(test)]
mod tests;

use traywright_document::{Extent, Placement, Point, TOUCH_MM, Turn};

use fill::Filling;
use polygon::Outline;
use random::Random;
use shapes::{Kind, Shapes, Spot};

/// One kind of blank.
#[derive(Clone, Debug)]
pub struct Piece {
    /// The corners of its outline, arcs as chords.
    pub outline: Vec<Point>,
    /// How far its lines may lie outside those corners, in mm: arcs beyond their chords, and a kerf.
    pub stand_off: f64,
    /// How many are wanted.
    pub count: usize,
    /// The turns in which it may lie.
    pub turns: Vec<Turn>,
}

/// What blanks are laid on. Lengths are in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stock {
    /// Its sides along x and y.
    pub sides: [f64; 2],
    /// What stays free along its edges.
    pub margin: f64,
    /// The least distance between the lines of two blanks.
    pub gap: f64,
}

/// How long to search.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Effort {
    /// The seed of its random choices.
    pub seed: u64,
    /// The number of moves for each sheet.
    pub moves: usize,
}

/// A blank on a sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Laid {
    /// The index of its piece.
    pub piece: usize,
    /// Where it lies; the lower left corner of the stock is the origin.
    pub placement: Placement,
}

/// A sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// Its blanks.
    pub blanks: Vec<Laid>,
    /// How many such sheets are cut.
    pub copies: usize,
    /// The area of its blanks over that of the stock.
    pub use_share: f64,
    /// How far the blanks reach along the longer side of the stock, margin included.
    pub used_length: f64,
    /// The largest upright rectangle of the stock that no blank and no gap takes.
    pub left_over: Extent,
}

/// All sheets.
#[derive(Clone, Debug, PartialEq)]
pub struct Nesting {
    /// The sheets, the last one with the least on it.
    pub sheets: Vec<Sheet>,
}

/// Why blanks cannot be laid.
#[derive(Clone, Debug, PartialEq)]
pub enum NestError {
    /// An outline without an area.
    NoOutline {
        /// The index of its piece.
        piece: usize,
    },
    /// A blank that is larger than the stock, less its margin, in every turn that it may take.
    TooLarge {
        /// The index of its piece.
        piece: usize,
        /// The sides of its lines as they lie with the least turn.
        sides: [f64; 2],
        /// The room on the stock.
        room: [f64; 2],
    },
    /// A mistake of the search: two blanks that are nearer than the gap, or one beyond the margin. Nothing that was laid
    /// like this leaves this crate.
    NotApart {
        /// The indexes of their pieces; twice the same for a blank beyond the margin.
        pieces: [usize; 2],
    },
}

impl Nesting {
    /// The number of sheets.
    pub fn sheet_count(&self) -> usize {
        self.sheets.iter().map(|sheet| sheet.copies).sum()
    }

    /// Whether this is the better one of two: fewer sheets, or the last one used less far.
    pub fn is_better_than(&self, other: &Nesting) -> bool {
        let last = |nesting: &Nesting| nesting.sheets.last().map_or(0.0, |sheet| sheet.used_length);
        let (own, theirs) = (self.sheet_count(), other.sheet_count());
        own < theirs || own == theirs && last(self) < last(other) - 1e-9
    }
}

/// What is left of an effort.
pub(crate) struct Budget<'a> {
    moves: usize,
    go_on: &'a dyn Fn() -> bool,
}

impl Budget<'_> {
    /// Takes one move; false if none is left.
    pub(crate) fn spend(&mut self) -> bool {
        if !self.is_left() {
            return false;
        }
        self.moves -= 1;
        true
    }

    pub(crate) fn is_left(&self) -> bool {
        self.moves > 0 && (self.go_on)()
    }
}

/// Lays all pieces on as few sheets as it finds.
///
/// # Errors
/// A piece without an outline, and one that no sheet holds; and blanks that are not apart, which would be a mistake here.
pub fn nest(
    pieces: &[Piece],
    stock: &Stock,
    effort: Effort,
    go_on: &dyn Fn() -> bool,
) -> Result<Nesting, NestError> {
    let room = Extent {
        least: Point::new(stock.margin, stock.margin),
        most: Point::new(stock.sides[0] - stock.margin, stock.sides[1] - stock.margin),
    };
    let shapes = shapes(pieces, stock, &room)?;
    let filling = Filling {
        shapes: &shapes,
        room,
        along: usize::from(stock.sides[1] > stock.sides[0]),
    };
    let mut random = Random::new(effort.seed);
    let mut demand: Vec<usize> = pieces.iter().map(|piece| piece.count).collect();
    let mut sheets = Vec::new();
    while demand.iter().any(|count| *count > 0) {
        let mut budget = Budget {
            moves: effort.moves,
            go_on,
        };
        let mut laid = filling.fill(&demand, &mut random, &mut budget);
        let mut on_sheet = vec![0; demand.len()];
        laid.iter().for_each(|spot| on_sheet[spot.kind] += 1);
        let times = |(&wanted, &there): (&usize, &usize)| (there > 0).then(|| wanted / there);
        let copies = demand
            .iter()
            .zip(&on_sheet)
            .filter_map(times)
            .min()
            .unwrap_or(0);
        if copies == 0 {
            // Every blank has room alone, so a sheet is never empty; without this a mistake there would never end.
            break;
        }
        for (wanted, there) in demand.iter_mut().zip(&on_sheet) {
            *wanted -= copies * there;
        }
        if demand.iter().all(|count| *count == 0) && copies == 1 {
            filling.compress(&mut laid, &mut random, &mut budget);
        }
        keeps_apart(&laid, &filling)?;
        sheets.push(sheet(&laid, &filling, copies, stock));
    }
    Ok(Nesting { sheets })
}

fn shapes(pieces: &[Piece], stock: &Stock, room: &Extent) -> Result<Shapes, NestError> {
    let mut kinds = Vec::new();
    for (piece, asked) in pieces.iter().enumerate() {
        let polygon = Outline::new(asked.outline.clone()).ok_or(NestError::NoOutline { piece })?;
        kinds.push(Kind::new(&polygon, asked.stand_off, &asked.turns));
    }
    let shapes = Shapes::new(kinds, stock.gap);
    for (piece, asked) in pieces.iter().enumerate() {
        let fits = |&turn: &Turn| shapes.inner(piece, turn, room).is_some();
        if !asked.turns.iter().any(fits) {
            let turn = asked.turns.first().copied().unwrap_or(Turn::None);
            return Err(NestError::TooLarge {
                piece,
                sides: shapes.kinds[piece].extents[turn.quarters()].size(),
                room: room.size(),
            });
        }
    }
    Ok(shapes)
}

/// Checks a sheet by the distances of its outlines, without the regions of the search.
fn keeps_apart(laid: &[Spot], filling: &Filling) -> Result<(), NestError> {
    let shapes = filling.shapes;
    let outline = |spot: &Spot| {
        let polygon = &shapes.kinds[spot.kind].polygons[spot.turn.quarters()];
        polygon.moved(spot.at - Point::ORIGIN)
    };
    let outlines: Vec<Outline> = laid.iter().map(outline).collect();
    for (index, spot) in laid.iter().enumerate() {
        let (around, room) = (spot.extent(shapes), filling.room.wider(TOUCH_MM, TOUCH_MM));
        if room.with(around) != room {
            return Err(NestError::NotApart {
                pieces: [spot.kind; 2],
            });
        }
        for (other, lies) in laid.iter().enumerate().skip(index + 1) {
            let distance = outlines[index].distance(&outlines[other]);
            if distance == 0.0 || distance < shapes.gap(spot.kind, lies.kind) {
                return Err(NestError::NotApart {
                    pieces: [spot.kind, lies.kind],
                });
            }
        }
    }
    Ok(())
}

fn sheet(laid: &[Spot], filling: &Filling, copies: usize, stock: &Stock) -> Sheet {
    let blank = |spot: &Spot| Laid {
        piece: spot.kind,
        placement: Placement {
            turn: spot.turn,
            shift: spot.at - Point::ORIGIN,
        },
    };
    Sheet {
        blanks: laid.iter().map(blank).collect(),
        copies,
        use_share: filling.covered(laid) / (stock.sides[0] * stock.sides[1]),
        used_length: filling.used(laid) + stock.margin,
        left_over: left_over::largest(laid, filling.shapes, stock),
    }
}
