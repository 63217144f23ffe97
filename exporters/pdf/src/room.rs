//! Free room on a sheet, for what stands beside the lines of the blank.
//!
//! Given what a sheet shows already; finds the place for a rectangle where it meets no line and no other words, outside
//! the blank if there is room, and near the corner where it is wanted. It works on a grid of small squares, so what it
//! finds is free, but room narrower than a square may be missed.

use traywright_paper::Place;

use crate::pieces::Piece;
use crate::window::Window;

/// White that words keep from lines.
const CLEAR: f64 = 1.6;
/// Side of a square; wider on paper with more than so many along a side.
const SQUARE: f64 = 1.0;
const MOST_SQUARES: f64 = 420.0;
/// How much worse a place on the blank is than one beside it, in millimetres away from where it is wanted.
const ON_BLANK: f64 = 1000.0;

/// The squares of a sheet.
pub(crate) struct Room {
    window: Window,
    square: f64,
    columns: usize,
    rows: usize,
    /// Taken by words and marks, and by lines.
    taken: Vec<bool>,
    lined: Vec<bool>,
    on_blank: Vec<bool>,
    /// Sums of them over all squares below and to the left.
    taken_sums: Vec<u32>,
    line_sums: Vec<u32>,
    blank_sums: Vec<u32>,
}

/// Where something is wanted.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Wish {
    /// A corner or side of the sheet: shares of its width and height.
    pub(crate) near: [f64; 2],
    /// How much a millimetre away from it counts along x and y.
    pub(crate) pull: [f64; 2],
    /// Whether it belongs onto the blank rather than beside it.
    pub(crate) on_blank: bool,
}

impl Room {
    /// An empty sheet.
    pub(crate) fn new(window: Window) -> Room {
        let [width, height] = window.size();
        let square = SQUARE.max(width.max(height) / MOST_SQUARES);
        let (columns, rows) = ((width / square) as usize, (height / square) as usize);
        let mut room = Room {
            window,
            square,
            columns,
            rows,
            taken: vec![false; columns * rows],
            lined: vec![false; columns * rows],
            on_blank: vec![false; columns * rows],
            taken_sums: Vec::new(),
            line_sums: Vec::new(),
            blank_sums: Vec::new(),
        };
        room.sum();
        room
    }

    /// Takes the room of lines.
    pub(crate) fn take_lines<'a>(&mut self, pieces: impl IntoIterator<Item = &'a Piece>) {
        let reach = self.window.wider(CLEAR);
        for piece in pieces {
            let Some(shares) = piece.within(&reach) else {
                continue;
            };
            let part = piece.part(shares);
            let steps = (part.length() / (0.5 * self.square)).ceil().max(1.0);
            for step in 0..=steps as u32 {
                let place = part.at(f64::from(step) / steps);
                self.mark(
                    &Window {
                        least: place,
                        most: place,
                    }
                    .wider(CLEAR),
                    true,
                );
            }
        }
        self.sum();
    }

    /// Takes the room of rectangles.
    pub(crate) fn take(&mut self, rectangles: impl IntoIterator<Item = Window>) {
        for rectangle in rectangles {
            self.mark(&rectangle, false);
        }
        self.sum();
    }

    /// Learns where the blank lies: within an outline, by the rule of odd crossings.
    pub(crate) fn lay_blank(&mut self, outline: &[Piece]) {
        for row in 0..self.rows {
            let y = self.window.least[1] + (row as f64 + 0.5) * self.square;
            let mut crossings: Vec<f64> = outline
                .iter()
                .filter(|piece| (piece.from[1] <= y) != (piece.to[1] <= y))
                .filter_map(|piece| Some(piece.at(piece.between(1, y, y)?[0])[0]))
                .collect();
            crossings.sort_by(f64::total_cmp);
            for column in 0..self.columns {
                let x = self.window.least[0] + (column as f64 + 0.5) * self.square;
                self.on_blank[row * self.columns + column] =
                    crossings.partition_point(|crossing| *crossing < x) % 2 == 1;
            }
        }
        self.sum();
    }

    /// The lower left corner of the best free place for a rectangle, and how far it is from what was wished.
    pub(crate) fn find(&self, size: [f64; 2], wish: Wish) -> Option<(Place, f64)> {
        self.best(size, wish, |corner, size| {
            (self.total(&self.line_sums, corner, size) == 0).then_some(0.0)
        })
    }

    /// The lower left corner of the place where a rectangle meets the fewest lines.
    pub(crate) fn find_across_lines(&self, size: [f64; 2], wish: Wish) -> Option<Place> {
        let crossed =
            |corner, size| Some(ON_BLANK * f64::from(self.total(&self.line_sums, corner, size)));
        self.best(size, wish, crossed).map(|(place, _)| place)
    }

    /// The best place by a wish and a cost of the lines there; none where that says so.
    fn best(
        &self,
        size: [f64; 2],
        wish: Wish,
        lines: impl Fn([usize; 2], [usize; 2]) -> Option<f64>,
    ) -> Option<(Place, f64)> {
        let squares = size.map(|side| (side / self.square).ceil() as usize);
        let [wide, high] = squares;
        if wide > self.columns || high > self.rows {
            return None;
        }
        let slack = [0, 1].map(|axis| (self.window.size()[axis] - size[axis]).max(0.0));
        let mut best: Option<(Place, f64)> = None;
        for row in 0..=self.rows - high {
            for column in 0..=self.columns - wide {
                let off = [column, row].map(|index| index as f64 * self.square);
                let away: f64 = (0..2)
                    .map(|axis| wish.pull[axis] * (off[axis] - wish.near[axis] * slack[axis]).abs())
                    .sum();
                let corner = [column, row];
                let is_worse = best.is_some_and(|(_, least)| away >= least);
                if is_worse || self.total(&self.taken_sums, corner, squares) > 0 {
                    continue;
                }
                let Some(crossed) = lines(corner, squares) else {
                    continue;
                };
                let blank =
                    f64::from(self.total(&self.blank_sums, corner, squares)) / (wide * high) as f64;
                let wrong = if wish.on_blank { 1.0 - blank } else { blank };
                let cost = away
                    + crossed
                    + if wrong > 0.0 {
                        ON_BLANK * (0.5 + wrong)
                    } else {
                        0.0
                    };
                if best.is_none_or(|(_, least)| cost < least) {
                    best = Some(([0, 1].map(|axis| self.window.least[axis] + off[axis]), cost));
                }
            }
        }
        best
    }

    fn mark(&mut self, rectangle: &Window, is_line: bool) {
        let index = |value: f64, axis: usize| (value - self.window.least[axis]) / self.square;
        let first = [0, 1].map(|axis| index(rectangle.least[axis], axis).floor().max(0.0) as usize);
        let last = [(0, self.columns), (1, self.rows)].map(|(axis, count)| {
            (index(rectangle.most[axis], axis).ceil().max(0.0) as usize).min(count)
        });
        let squares = if is_line {
            &mut self.lined
        } else {
            &mut self.taken
        };
        for row in first[1]..last[1] {
            for column in first[0]..last[0] {
                squares[row * self.columns + column] = true;
            }
        }
    }

    fn sum(&mut self) {
        self.line_sums = sums(&self.lined, self.columns, self.rows);
        self.taken_sums = sums(&self.taken, self.columns, self.rows);
        self.blank_sums = sums(&self.on_blank, self.columns, self.rows);
    }

    fn total(&self, sums: &[u32], [column, row]: [usize; 2], [wide, high]: [usize; 2]) -> u32 {
        let at = |column: usize, row: usize| sums[row * (self.columns + 1) + column];
        at(column + wide, row + high) + at(column, row)
            - at(column + wide, row)
            - at(column, row + high)
    }
}

/// For every corner of squares how many below and to the left are set.
fn sums(squares: &[bool], columns: usize, rows: usize) -> Vec<u32> {
    let width = columns + 1;
    let mut sums = vec![0; width * (rows + 1)];
    for row in 0..rows {
        let mut line = 0;
        for column in 0..columns {
            line += u32::from(squares[row * columns + column]);
            sums[(row + 1) * width + column + 1] = sums[row * width + column + 1] + line;
        }
    }
    sums
}
