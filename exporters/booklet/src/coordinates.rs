//! Tables of the coordinates of numbered points.
//!
//! Given where points stand, from the left and from the lower edge of the blank; gives rows under a head, in as many
//! columns as a page is wide. Rows that do not fit onto a page continue on the next one, under a head of their own.

use traywright_document::Unit;
use traywright_paper::Block;

use crate::book::{Book, stacked};
use crate::tray::BookletInput;
use crate::visible::Seen;

/// Width of a column over the capitals of its words, and height of a row.
const COLUMN: f64 = 23.0;
const ROW: f64 = 1.75;
/// A table is parted where it takes more of a page's height than this.
const PART: f64 = 0.45;
/// Coordinates that are not rounded are told to so many mm.
const FINE: f64 = 0.01;
/// The part of a step that a coordinate on a mark may be off by arithmetic.
const ON_MARK: f64 = 1e-6;

/// Puts the table of some points onto as many pages as it takes.
pub(crate) fn put(book: &mut Book, tray: &BookletInput, places: &[Seen], points: &[usize]) {
    // One row is the head.
    let rows = ((PART * book.grid.height() / (ROW * book.grid.words)) as usize).saturating_sub(1);
    let held = rows.max(1) * columns(book);
    for now in points.chunks(held) {
        book.put(stacked(table(book, tray, places, now)));
    }
}

fn columns(book: &Book) -> usize {
    let count = book.grid.width() / (COLUMN * book.grid.words);
    count.floor().max(1.0) as usize
}

/// The rows of the table of some points, its head first.
pub(crate) fn table(
    book: &Book,
    tray: &BookletInput,
    places: &[Seen],
    points: &[usize],
) -> Vec<Block> {
    if points.is_empty() {
        return Vec::new();
    }
    let words = &tray.words().by_hand;
    let columns = columns(book);
    let each = points.len().div_ceil(columns);
    let head = [&words.point, &words.from_left, &words.from_below].map(String::clone);
    let mut rows: Vec<Vec<[String; 3]>> = vec![vec![head; points.len().div_ceil(each)]];
    for row in 0..each {
        let points_of_row = (0..columns).filter_map(|column| points.get(column * each + row));
        let told = points_of_row.map(|&point| {
            let [left, below] = places[point].map(|side| tray.coordinate(side));
            [(point + 1).to_string(), left, below]
        });
        rows.push(told.collect());
    }
    rows.iter().map(|row| line(book, row, columns)).collect()
}

/// A row: a number and two coordinates in each column.
fn line(book: &Book, row: &[[String; 3]], columns: usize) -> Block {
    let grid = book.grid;
    let column = grid.width() / columns as f64;
    let shares = [0.24, 0.36, 0.36].map(|share| share * column);
    let mut line = Block::new([grid.width(), ROW * grid.words]);
    for (at, texts) in row.iter().enumerate() {
        let mut x = at as f64 * column;
        for (text, share) in texts.iter().zip(shares) {
            line.hold(book.lines(text, grid.words, share), [x, 0.0]);
            x += share;
        }
    }
    line
}

impl BookletInput<'_> {
    /// Whether a coordinate lies on a mark of the ruler.
    pub(crate) fn is_on_mark(&self, side: f64) -> bool {
        let off = |step: f64| (side / step - (side / step).round()).abs();
        self.document
            .hand_step
            .is_some_and(|step| off(step) < ON_MARK)
    }

    /// A coordinate in the maker's unit.
    fn coordinate(&self, side: f64) -> String {
        match (self.document.unit, self.document.hand_step) {
            (Unit::Inch, Some(step)) if self.is_on_mark(side) => {
                self.lengths().fraction(side, (25.4 / step).round() as i64)
            }
            (Unit::Inch, _) => self.lengths().decimal(&Unit::Inch.figure(side)),
            (Unit::Millimetre, _) => self.lengths().figure((side / FINE).round() * FINE),
        }
    }
}
