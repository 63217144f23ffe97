//! A blank drawn in characters: cuts as lines, creases dotted, the names of panels where they fit.
//!
//! **Input:** the document of a tray and a size. **Output:** lines of text in characters that every terminal font has.
//! It draws all lines of a document at the one scale that fits, so that a part thinner than a character becomes one
//! line.

mod signs;

use traywright_document::{Chords, Contour, Document, Point};

use signs::{Cell, Line, slanting};

/// Maximum size of a picture.
#[derive(Clone, Copy, Debug)]
pub(super) struct Size {
    /// Characters in a line.
    pub(super) columns: usize,
    /// Lines.
    pub(super) rows: usize,
}

/// Ratio of a character's height to its width.
// Source: common practice, none published: most typefaces for terminals.
const UPRIGHT: f64 = 2.0;

/// The widest chord of an arc: a quarter circle in 8 chords looks round in characters.
const CHORD_DEG: f64 = 90.0 / 8.0;

/// Draws the blank within a size; `names` are the words for its panels, by their full names.
pub(super) fn picture<'n>(
    document: &Document,
    size: Size,
    names: impl Fn(&str) -> Option<&'n str>,
) -> Vec<String> {
    let mut sheet = TextCanvas::over(document, size);
    let flat = &document.flat;
    for crease in &flat.creases {
        sheet.line(crease.from, crease.to, Line::Crease);
    }
    let contours = std::iter::once(&flat.outline).chain(&flat.holes);
    for contour in contours.chain(&flat.open_cuts) {
        for line in points(contour).windows(2) {
            sheet.line(line[0], line[1], Line::Cut);
        }
    }
    for panel in &document.panels {
        if let Some(name) = names(&panel.name) {
            sheet.write(name, &points(&panel.outline));
        }
    }
    sheet.lines()
}

/// A grid of characters over the blank, with the same number on both sides of its middle.
struct TextCanvas {
    middle: Point,
    /// Columns per millimetre.
    scale: f64,
    rows: Vec<Vec<Cell>>,
}

impl TextCanvas {
    fn over(document: &Document, size: Size) -> TextCanvas {
        let extent = document.flat.extent;
        let (width, height) = (
            extent.most.x - extent.least.x,
            extent.most.y - extent.least.y,
        );
        let across = (size.columns - 1) as f64 / width;
        let scale = across.min((size.rows - 1) as f64 * UPRIGHT / height);
        let count = |length: f64| 2 * (length * scale / 2.0).round() as usize + 1;
        TextCanvas {
            middle: Point {
                x: (extent.least.x + extent.most.x) / 2.0,
                y: (extent.least.y + extent.most.y) / 2.0,
            },
            scale,
            rows: vec![vec![Cell::default(); count(width)]; count(height / UPRIGHT)],
        }
    }

    /// A point in columns and rows from the middle; cells have their middles at whole numbers.
    fn place(&self, point: Point) -> (f64, f64) {
        (
            (point.x - self.middle.x) * self.scale,
            (self.middle.y - point.y) * self.scale / UPRIGHT,
        )
    }

    /// The column and the row of a point, rounded symmetrically about the middle.
    fn cell_at(&self, (x, y): (f64, f64)) -> (usize, usize) {
        let counted = |from_middle: f64, count: usize| {
            // A sum that should be a half may be off by a rounding error on one side, so that error is removed first.
            let from_middle = (from_middle * 1e6).round() / 1e6;
            let number = (count / 2) as f64 + from_middle.round();
            (number.max(0.0) as usize).min(count - 1)
        };
        (counted(x, self.rows[0].len()), counted(y, self.rows.len()))
    }

    fn line(&mut self, from: Point, to: Point, line: Line) {
        let ((x, y), (to_x, to_y)) = (self.place(from), self.place(to));
        let (column, row) = self.cell_at((x, y));
        let (to_column, to_row) = self.cell_at((to_x, to_y));
        let slight = column.abs_diff(to_column) <= 1 && row.abs_diff(to_row) <= 1;
        if slight || column == to_column || row == to_row {
            self.across(row, column, to_column, line);
            self.down(to_column, row, to_row, line);
            return;
        }
        let steps = column.abs_diff(to_column).max(row.abs_diff(to_row));
        let rise = (y - to_y) / (to_x - x);
        for step in 0..=steps {
            let part = step as f64 / steps as f64;
            let (x, y) = (x + part * (to_x - x), y + part * (to_y - y));
            let (column, row) = self.cell_at((x, y));
            let cell = &mut self.rows[row][column];
            cell.slant.get_or_insert(slanting(rise, y - y.round()));
        }
    }

    fn across(&mut self, row: usize, from: usize, to: usize, line: Line) {
        for column in from.min(to)..from.max(to) {
            self.rows[row][column].right = line.over(self.rows[row][column].right);
            self.rows[row][column + 1].left = line.over(self.rows[row][column + 1].left);
        }
    }

    fn down(&mut self, column: usize, from: usize, to: usize, line: Line) {
        for row in from.min(to)..from.max(to) {
            self.rows[row][column].below = line.over(self.rows[row][column].below);
            self.rows[row + 1][column].above = line.over(self.rows[row + 1][column].above);
        }
    }

    /// Writes a name into a panel, on the free row nearest to its middle; nothing if no row is long enough.
    fn write(&mut self, name: &str, outline: &[Point]) {
        let run: Vec<(f64, f64)> = outline.iter().map(|&point| self.place(point)).collect();
        let bounds = |of: fn(&(f64, f64)) -> f64| {
            let places = || run.iter().map(of);
            (
                places().fold(f64::INFINITY, f64::min),
                places().fold(f64::NEG_INFINITY, f64::max),
            )
        };
        let ((left, right), (top, bottom)) = (bounds(|place| place.0), bounds(|place| place.1));
        let (middle, middle_row) = ((left + right) / 2.0, (top + bottom) / 2.0);
        let letters = name.chars().count();
        let (first, _) = self.cell_at((middle - (letters - 1) as f64 / 2.0, 0.0));
        let half = (self.rows.len() / 2) as f64;
        let mut rows: Vec<usize> = (0..self.rows.len()).collect();
        let distance = |row: usize| (row as f64 - half - middle_row).abs();
        rows.sort_by(|&one, &other| distance(one).total_cmp(&distance(other)));
        let free = |row: &&usize| {
            let place = self.rows[**row].get(first..first + letters);
            place.is_some_and(|place| place.iter().all(Cell::is_free))
                && holds(&run, (middle, **row as f64 - half))
        };
        if let Some(&row) = rows.iter().find(free) {
            for (cell, letter) in self.rows[row][first..].iter_mut().zip(name.chars()) {
                cell.letter = Some(letter);
            }
        }
    }

    fn lines(self) -> Vec<String> {
        let line = |row: &Vec<Cell>| {
            let signs: String = row.iter().map(|cell| cell.sign()).collect();
            signs.trim_end().to_owned()
        };
        self.rows.iter().map(line).collect()
    }
}

/// Whether a point lies inside a closed run of points.
fn holds(run: &[(f64, f64)], (x, y): (f64, f64)) -> bool {
    let mut inside = false;
    for line in run.windows(2) {
        let [(x1, y1), (x2, y2)] = [line[0], line[1]];
        if (y1 > y) != (y2 > y) && x < x1 + (y - y1) / (y2 - y1) * (x2 - x1) {
            inside = !inside;
        }
    }
    inside
}

/// The corners of a contour, arcs as chords; a closed one repeats its first corner.
fn points(contour: &Contour) -> Vec<Point> {
    let mut points = contour.corners(Chords::Spanning(CHORD_DEG));
    points.extend(contour.closed.then_some(contour.start));
    points
}
