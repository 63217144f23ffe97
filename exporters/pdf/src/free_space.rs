//! Free room on a sheet, for what stands beside the lines of the blank.
//!
//! Given what a sheet shows already; finds the place for a rectangle where it meets no line and no other words, outside
//! the blank if there is room, and near the corner where it is wanted. It works on a grid of small squares, so what it
//! finds is free, but room narrower than a square may be missed.

use traywright_document::ProcessingStep;
use traywright_look::Layer;
use traywright_paper::PointMm;

use crate::pieces::Piece;
use crate::squares::Squares;
use crate::window::Window;

/// White that words keep from lines.
const CLEAR: f64 = 1.5;
/// Side of a square; wider on paper with more than so many along a side, and twice as wide on one of many sheets.
const SQUARE: f64 = 1.2;
const MOST_SQUARES: f64 = 350.0;
const MANY_SHEETS: usize = 60;
/// How much worse a place on the blank is than one beside it, in millimetres away from where it is wanted.
const ON_BLANK: f64 = 1000.0;

/// The layer of cuts.
const CUT: Layer = Layer::Step(ProcessingStep::Cutting);

/// What is free on a sheet.
pub(crate) struct Room {
    window: Window,
    square: f64,
    size: [usize; 2],
    /// Squares with a cut, with any line of the blank, with a thin line, with words or marks, and those on the blank.
    cuts: Squares,
    lines: Squares,
    thin_lines: Squares,
    taken: Squares,
    blank: Squares,
}

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
        }
    }

    /// Takes the room of lines of the blank, or of thin ones, which a bar would rather cross.
    pub(crate) fn take_lines<'a>(
        &mut self,
        pieces: impl IntoIterator<Item = &'a Piece>,
        are_thin: bool,
    ) {
        let reach = self.window.wider(CLEAR);
        for piece in pieces {
            let Some(shares) = piece.within(&reach) else {
                continue;
            };
            for around in along(&piece.part(shares), 0.5 * self.square, CLEAR) {
                let [first, last] = self.squares(&around);
                if are_thin {
                    self.thin_lines.set(first, last);
                } else {
                    self.lines.set(first, last);
                }
                if piece.layer == CUT {
                    self.cuts.set(first, last);
                }
            }
        }
        self.cuts.settle();
        self.lines.settle();
        self.thin_lines.settle();
    }

    /// Takes the room of rectangles.
    pub(crate) fn take(&mut self, rectangles: impl IntoIterator<Item = Window>) {
        for rectangle in rectangles {
            let [first, last] = self.squares(&rectangle);
            self.taken.set(first, last);
        }
        self.taken.settle();
    }

    /// Takes the room of the blank itself, and of so much around its outline.
    pub(crate) fn take_blank(&mut self, outline: &[Piece], around: f64) {
        for piece in outline {
            self.take(along(piece, 0.5 * self.square, around));
        }
        self.taken.add(&self.blank);
    }

    /// Takes the room of the blank: what comes after stands beside it.
    pub(crate) fn close_blank(&mut self) {
        self.taken.add(&self.blank);
    }

    /// Learns where the blank lies: within an outline, by the rule of odd crossings.
    pub(crate) fn lay_blank(&mut self, outline: &[Piece]) {
        for row in 0..self.size[1] {
            let y = self.window.least[1] + (row as f64 + 0.5) * self.square;
            let mut crossings: Vec<f64> = outline
                .iter()
                .filter(|piece| (piece.from[1] <= y) != (piece.to[1] <= y))
                .filter_map(|piece| Some(piece.at(piece.between(1, y, y)?[0])[0]))
                .collect();
            crossings.sort_by(f64::total_cmp);
            for pair in crossings.chunks_exact(2) {
                let [first, last] = [pair[0], pair[1]]
                    .map(|x| ((x - self.window.least[0]) / self.square + 0.5).max(0.0) as usize);
                self.blank.set([first, row], [last, row + 1]);
            }
        }
        self.blank.settle();
    }

    /// The lower left corner of the best free place for a rectangle, and how far it is from what was wished.
    pub(crate) fn find(&self, size: [f64; 2], wish: PlacementRequest) -> Option<(PointMm, f64)> {
        let free = |corner, size| {
            let lines = self.lines.count(corner, size) + self.thin_lines.count(corner, size);
            (lines == 0).then_some(0.0)
        };
        self.best(size, wish, free)
    }

    /// The lower left corner of the place where a rectangle meets the fewest lines, and no cut unless there is no other.
    pub(crate) fn find_across_lines(
        &self,
        size: [f64; 2],
        wish: PlacementRequest,
    ) -> Option<PointMm> {
        let crossed = |corner, size| {
            let lines = 10 * self.lines.count(corner, size) + self.thin_lines.count(corner, size);
            Some(ON_BLANK * f64::from(lines))
        };
        let no_cut = |corner, size| match self.cuts.count(corner, size) {
            0 => crossed(corner, size),
            _ => None,
        };
        let place = self.best(size, wish, no_cut);
        let place = place.or_else(|| self.best(size, wish, crossed));
        place.map(|(place, _)| place)
    }

    /// The best place by a wish and a cost of the lines there; none where that says so.
    fn best(
        &self,
        size: [f64; 2],
        wish: PlacementRequest,
        lines: impl Fn([usize; 2], [usize; 2]) -> Option<f64>,
    ) -> Option<(PointMm, f64)> {
        let squares = size.map(|side| (side / self.square).ceil() as usize);
        if squares[0] > self.size[0] || squares[1] > self.size[1] {
            return None;
        }
        let [columns, rows] = [0, 1].map(|axis| self.nearest_first(axis, size[axis], wish));
        let mut best: Option<([usize; 2], f64)> = None;
        let is_worse = |best: Option<([usize; 2], f64)>, cost: f64| {
            best.is_some_and(|(_, least)| cost >= least)
        };
        for (row, up) in rows
            .into_iter()
            .filter(|(row, _)| row + squares[1] <= self.size[1])
        {
            if is_worse(best, up) {
                break;
            }
            for &(column, aside) in &columns {
                if is_worse(best, up + aside) {
                    break;
                }
                let corner = [column, row];
                if column + squares[0] > self.size[0] || self.taken.count(corner, squares) > 0 {
                    continue;
                }
                let Some(crossed) = lines(corner, squares) else {
                    continue;
                };
                let cost = up + aside + crossed + self.misplaced(corner, squares, wish);
                if !is_worse(best, cost) {
                    best = Some((corner, cost));
                }
            }
        }
        let (corner, cost) = best?;
        let place = |axis: usize| self.window.least[axis] + corner[axis] as f64 * self.square;
        Some(([place(0), place(1)], cost))
    }

    /// What it costs that a rectangle lies on the blank, or beside it where it should lie on it.
    fn misplaced(&self, corner: [usize; 2], squares: [usize; 2], wish: PlacementRequest) -> f64 {
        let all = (squares[0] * squares[1]) as f64;
        let blank = f64::from(self.blank.count(corner, squares)) / all;
        let wrong = if wish.on_blank { 1.0 - blank } else { blank };
        if wrong > 0.0 {
            ON_BLANK * (0.5 + wrong)
        } else {
            0.0
        }
    }

    /// Where a side of that length can begin along one axis, with the cost of its distance, the cheapest first.
    fn nearest_first(&self, axis: usize, side: f64, wish: PlacementRequest) -> Vec<(usize, f64)> {
        let wanted = wish.near[axis] * (self.window.size()[axis] - side).max(0.0);
        let away = |index: usize| wish.pull[axis] * (index as f64 * self.square - wanted).abs();
        let mut places: Vec<(usize, f64)> = (0..self.size[axis])
            .map(|index| (index, away(index)))
            .collect();
        places.sort_by(|one, other| one.1.total_cmp(&other.1));
        places
    }

    /// The squares that a rectangle touches, from the first up to the one after the last.
    fn squares(&self, rectangle: &Window) -> [[usize; 2]; 2] {
        let index =
            |place: PointMm, axis: usize| (place[axis] - self.window.least[axis]) / self.square;
        let first = [0, 1].map(|axis| index(rectangle.least, axis).floor().max(0.0) as usize);
        let last = [0, 1].map(|axis| index(rectangle.most, axis).ceil().max(0.0) as usize);
        [first, last]
    }
}

/// Squares of white about a piece, so close that none of it lies between them.
fn along(piece: &Piece, step: f64, white: f64) -> impl Iterator<Item = Window> {
    let steps = (piece.length() / step).ceil().max(1.0);
    let piece = *piece;
    (0..=steps as u32).map(move |step| Window::at(piece.at(f64::from(step) / steps)).wider(white))
}
