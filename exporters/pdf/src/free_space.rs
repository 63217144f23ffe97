//! Free room on a sheet, for what stands beside the lines of the blank.
//!
//! Given what a sheet shows already; knows which of its small squares are taken, and by what. What is free here is free,
//! but room narrower than a square may be missed. [`placement`](crate::placement) finds places in it.

use std::cell::OnceCell;
use std::rc::Rc;

use traywright_document::ProcessingStep;
use traywright_look::Layer;
use traywright_paper::PointMm;

use crate::pieces::Piece;
use crate::squares::{Squares, Sums};
use crate::whole::{rounded_down, rounded_up};
use crate::window::Window;

/// White that words keep from lines.
const CLEAR: f64 = 1.5;
/// Side of a square; wider on paper with more than so many along a side, and twice as wide on one of many sheets.
const SQUARE: f64 = 1.2;
const MOST_SQUARES: f64 = 350.0;
const MANY_SHEETS: usize = 60;
/// The layer of cuts.
const CUT: Layer = Layer::Step(ProcessingStep::Cutting);

/// What is free on a sheet.
#[derive(Clone)]
pub(crate) struct Room {
    pub(crate) window: Window,
    pub(crate) square: f64,
    pub(crate) size: [usize; 2],
    /// Squares with a cut, with any line of the blank, with a thin line, with words or marks, and those on the blank.
    pub(crate) cuts: Squares,
    pub(crate) lines: Squares,
    pub(crate) thin_lines: Squares,
    pub(crate) taken: Squares,
    pub(crate) blank: Squares,
    /// Whether all of the blank is taken.
    pub(crate) is_closed: bool,
    /// Summed when they are asked for first, for all copies of this room: what lines cost, and the blank.
    line_sums: Rc<OnceCell<Sums>>,
    blank_sums: Rc<OnceCell<Sums>>,
}

impl Room {
    /// An empty sheet, one of so many.
    pub(crate) fn new(window: Window, sheets: usize) -> Room {
        let sides = window.size();
        let square = SQUARE.max(sides[0].max(sides[1]) / MOST_SQUARES);
        let square = if sheets > MANY_SHEETS {
            2.0 * square
        } else {
            square
        };
        let size = sides.map(|side| (side / square) as usize);
        Room {
            window,
            square,
            size,
            cuts: Squares::new(size),
            lines: Squares::new(size),
            thin_lines: Squares::new(size),
            taken: Squares::new(size),
            blank: Squares::new(size),
            is_closed: false,
            line_sums: Rc::default(),
            blank_sums: Rc::default(),
        }
    }

    /// Takes the room of straight lines of the blank, or of thin ones, which a bar would rather cross.
    pub(crate) fn take_lines<'a>(
        &mut self,
        pieces: impl IntoIterator<Item = &'a Piece>,
        are_thin: bool,
    ) {
        let reach = self.window.wider(CLEAR);
        let grid = self.grid();
        for piece in pieces {
            let Some(shares) = piece.within(&reach) else {
                continue;
            };
            let is_cut = piece.layer == CUT;
            along(&piece.part(shares), 0.5 * self.square, CLEAR, |around| {
                let [first, last] = grid.touched(around);
                if are_thin {
                    self.thin_lines.set(first, last);
                } else {
                    self.lines.set(first, last);
                }
                if is_cut {
                    self.cuts.set(first, last);
                }
            });
        }
        self.line_sums = Rc::default();
    }

    /// Takes the room of rectangles.
    pub(crate) fn take(&mut self, rectangles: impl IntoIterator<Item = Window>) {
        let grid = self.grid();
        for rectangle in rectangles {
            let [first, last] = grid.touched(&rectangle);
            self.taken.set(first, last);
        }
    }

    /// Takes the room of the blank itself, and of so much around its outline, which is straight pieces.
    pub(crate) fn take_blank(&mut self, outline: &[Piece], around: f64) {
        let grid = self.grid();
        for piece in outline {
            along(piece, 0.5 * self.square, around, |rectangle| {
                let [first, last] = grid.touched(rectangle);
                self.taken.set(first, last);
            });
        }
        self.taken.add(&self.blank);
        self.is_closed = true;
    }

    /// Takes the room of the blank: what comes after stands beside it.
    pub(crate) fn close_blank(&mut self) {
        self.taken.add(&self.blank);
        self.is_closed = true;
    }

    /// Learns where the blank lies: within an outline of straight pieces, by the rule of odd crossings.
    pub(crate) fn lay_blank(&mut self, outline: &[Piece]) {
        let middle = |row: usize| self.window.least[1] + (row as f64 + 0.5) * self.square;
        let mut crossings: Vec<Vec<f64>> = vec![Vec::new(); self.size[1]];
        for piece in outline {
            let ends = [piece.from[1], piece.to[1]];
            let [low, high] = [ends[0].min(ends[1]), ends[0].max(ends[1])]
                .map(|y| (y - self.window.least[1]) / self.square - 0.5);
            let rows = rounded_down(low).max(0) as usize..(rounded_up(high) + 1).max(0) as usize;
            for (row, crossed) in crossings
                .iter_mut()
                .enumerate()
                .take(rows.end)
                .skip(rows.start)
            {
                let y = middle(row);
                if (ends[0] <= y) != (ends[1] <= y) {
                    let share = (y - ends[0]) / (ends[1] - ends[0]);
                    crossed.push(piece.at(share)[0]);
                }
            }
        }
        for (row, mut crossed) in crossings.into_iter().enumerate() {
            crossed.sort_by(f64::total_cmp);
            for pair in crossed.chunks_exact(2) {
                let [first, last] = [pair[0], pair[1]]
                    .map(|x| ((x - self.window.least[0]) / self.square + 0.5).max(0.0) as usize);
                self.blank.set([first, row], [last, row + 1]);
            }
        }
        self.blank_sums = Rc::default();
    }

    fn grid(&self) -> SquareGrid {
        SquareGrid {
            least: self.window.least,
            square: self.square,
        }
    }

    /// What the lines under a rectangle cost.
    pub(crate) fn line_sums(&self) -> &Sums {
        let worth = [(&self.lines, 10), (&self.thin_lines, 1)];
        self.line_sums.get_or_init(|| Sums::of(&worth))
    }

    /// How much of the blank lies under a rectangle.
    pub(crate) fn blank_sums(&self) -> &Sums {
        self.blank_sums
            .get_or_init(|| Sums::of(&[(&self.blank, 1)]))
    }
}

/// Where the squares of a sheet lie.
#[derive(Clone, Copy)]
struct SquareGrid {
    least: PointMm,
    square: f64,
}

impl SquareGrid {
    /// The squares that a rectangle touches, from the first up to the one after the last.
    fn touched(&self, rectangle: &Window) -> [[usize; 2]; 2] {
        let index = |place: PointMm, axis: usize| (place[axis] - self.least[axis]) / self.square;
        let first = [0, 1].map(|axis| rounded_down(index(rectangle.least, axis)).max(0) as usize);
        let last = [0, 1].map(|axis| rounded_up(index(rectangle.most, axis)).max(0) as usize);
        [first, last]
    }
}

/// Rectangles of white about a straight piece: one about an upright or level piece, and else squares so close that none of
/// the white lies between them.
fn along(piece: &Piece, step: f64, white: f64, mut take: impl FnMut(&Window)) {
    if (0..2).any(|axis| piece.from[axis] == piece.to[axis]) {
        return take(&Window::around([piece.from, piece.to]).wider(white));
    }
    let steps = (piece.length() / step).ceil().max(1.0);
    for index in 0..=steps as u32 {
        take(&Window::at(piece.at(f64::from(index) / steps)).wider(white));
    }
}
