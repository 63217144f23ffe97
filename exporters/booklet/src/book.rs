//! The pages of the booklet: a grid, three sizes of type, and blocks one under the other.
//!
//! Given blocks; keeps each whole, a title never apart from what follows it, lets `flow` break them into pages, and numbers
//! these. It does not know what a block says.

use traywright_document::{Document, Unit};
use traywright_look::filled;
use traywright_paper::{Block, Font, Line, Page};

use crate::flow::{self, Body, Group, Row};
use crate::line_styles;

/// The measures of a page.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Grid {
    /// Width and height of the paper.
    pub(crate) size: [f64; 2],
    /// White at the left and at the right, and above and below.
    pub(crate) border: [f64; 2],
    /// Capitals of the tray's name, of titles, and of all other words.
    pub(crate) title: f64,
    pub(crate) heading: f64,
    pub(crate) words: f64,
}

/// A4 and Letter, taken where the job's paper is larger than A3 or too small for a step.
// Source: ISO 216; ANSI A, 8.5 x 11 in.
const A4: [f64; 2] = [210.0, 297.0];
const LETTER: [f64; 2] = [215.9, 279.4];
/// The largest paper that is taken.
// Source: ISO 216, A3.
const A3: [f64; 2] = [297.0, 420.0];
/// The smallest.
// Source: ISO 216, A6; below it a step has no room for its figure and its words.
const A6: [f64; 2] = [105.0, 148.0];
/// Capitals in mm on A4.
// Source: common practice, none published: 2 mm capitals, about 8 points, are read at arm's length.
const TITLE: f64 = 5.2;
const HEADING: f64 = 3.0;
const WORDS: f64 = 2.05;
/// White between blocks, over the capitals of words.
const BETWEEN: f64 = 1.5;
/// Room for the number of the page.
const FOOT: f64 = 6.0;

impl Grid {
    /// The grid of a document's pages, upright.
    pub(crate) fn of(document: &Document) -> Grid {
        let page = document.output.paper.page();
        let (width, height) = (page.width.mm(), page.height.mm());
        let wanted = [width.min(height), width.max(height)];
        let within = |least: [f64; 2], size: [f64; 2], most: [f64; 2]| {
            (0..2).all(|side| (least[side]..=most[side]).contains(&size[side]))
        };
        let size = if within(A6, wanted, A3) {
            wanted
        } else if document.unit == Unit::Inch {
            LETTER
        } else {
            A4
        };
        // Small paper is held nearer, large paper lies on the table.
        let type_size = (size[0] / A4[0]).sqrt().clamp(0.92, 1.2);
        let margin = page.margin.mm();
        let side = (0.08 * size[0]).clamp(9.0, 20.0).max(margin);
        Grid {
            size,
            border: [side, side.max(margin + FOOT)],
            title: TITLE * type_size,
            heading: HEADING * type_size,
            words: WORDS * type_size,
        }
    }

    /// Width of what stands on the page.
    pub(crate) fn width(&self) -> f64 {
        self.size[0] - 2.0 * self.border[0]
    }

    /// Height of what stands on the page.
    pub(crate) fn height(&self) -> f64 {
        self.size[1] - 2.0 * self.border[1]
    }

    /// White between blocks.
    pub(crate) fn between(&self) -> f64 {
        BETWEEN * self.words
    }
}

/// Pages in the making.
pub(crate) struct Book<'a> {
    pub(crate) font: &'a Font,
    pub(crate) grid: Grid,
    groups: Vec<Group<'a>>,
    /// Titles and other rows that wait for what follows them.
    waiting: Vec<Row<'a>>,
    /// Whether the next unit begins a page.
    begins_page: bool,
}

impl<'a> Book<'a> {
    /// A book with nothing in it.
    pub(crate) fn new(font: &'a Font, grid: Grid) -> Book<'a> {
        Book {
            font,
            grid,
            groups: Vec::new(),
            waiting: Vec::new(),
            begins_page: false,
        }
    }

    /// What follows begins a new page.
    pub(crate) fn turn_page(&mut self) {
        self.begins_page = true;
    }

    /// A title, kept with what follows.
    pub(crate) fn title(&mut self, words: &str) {
        let grid = self.grid;
        let under_title = 0.6 * grid.between();
        let words = self.lines(words, grid.heading, grid.width());
        let mut block = Block::new([grid.width(), words.size[1] + 1.6]);
        block.line(line_styles::RULE, [0.0, 0.6], [grid.width(), 0.6]);
        block.hold(words, [0.0, 1.6]);
        self.waiting.push(Row {
            body: Body::Fixed(block),
            above: grid.between(),
            below: under_title,
        });
    }

    /// A block that is kept with what follows.
    pub(crate) fn lead(&mut self, block: Block) {
        let row = self.row(Body::Fixed(block), self.grid.between());
        self.waiting.push(row);
    }

    /// A paragraph.
    pub(crate) fn words(&mut self, words: &str) {
        let block = self.lines(words, self.grid.words, self.grid.width());
        self.put(block);
    }

    /// Sentences, each with a mark before it or a box to tick.
    pub(crate) fn list(&mut self, sentences: &[String], ticked: bool) {
        for (index, sentence) in sentences.iter().enumerate() {
            let block = self.entry(sentence, ticked, self.grid.width());
            let is_last = index + 1 == sentences.len();
            let below = if is_last { 1.0 } else { 0.5 };
            self.put_close(block, below * self.grid.between());
        }
    }

    /// One entry of a list.
    pub(crate) fn entry(&self, sentence: &str, ticked: bool, width: f64) -> Block {
        let capital = self.grid.words;
        let indent = if ticked { 2.6 * capital } else { 1.6 * capital };
        let words = self.lines(sentence, capital, width - indent);
        let mut block = Block::new([width, words.size[1]]);
        // The first line's capitals stand between these heights.
        let foot = words.size[1] - 1.4 * capital;
        if ticked {
            let side = 1.35 * capital;
            let low = foot - 0.18 * capital;
            let corners = [
                [0.0, low],
                [side, low],
                [side, low + side],
                [0.0, low + side],
            ];
            block.run(
                line_styles::TICK_BOX,
                traywright_paper::StrokePath::ring(&corners),
            );
        } else {
            let (low, high) = (foot + 0.3 * capital, foot + 0.7 * capital);
            let mark = vec![
                [0.0, low],
                [0.4 * capital, low],
                [0.4 * capital, high],
                [0.0, high],
            ];
            block.fill(traywright_look::INK, mark);
        }
        block.hold(words, [indent, 0.0]);
        block
    }

    /// Words in lines.
    pub(crate) fn lines(&self, words: &str, capital: f64, width: f64) -> Block {
        let line = Line {
            text: words.to_owned(),
            capital,
            sample: None,
        };
        Block::of_lines(self.font, &[line], width)
    }

    /// Rows of cells between rules, so high at least. A table stays whole where a page can hold it, and its rows anywhere.
    pub(crate) fn table(&mut self, rows: &[Vec<String>], shares: &[f64], least: f64) {
        let rows: Vec<Block> = rows
            .iter()
            .map(|row| self.table_row(row, shares, least))
            .collect();
        let height: f64 = rows.iter().map(|row| row.size[1]).sum();
        if height > self.grid.height() - 3.0 * self.grid.heading {
            let count = rows.len();
            for (index, row) in rows.into_iter().enumerate() {
                let is_last = index + 1 == count;
                let below = if is_last { self.grid.between() } else { 0.0 };
                self.put_close(row, below);
            }
            return;
        }
        self.put(stacked(rows));
    }

    fn table_row(&self, row: &[String], shares: &[f64], least: f64) -> Block {
        let width = self.grid.width();
        let gap = 1.5 * self.grid.words;
        let cells: Vec<Block> = row
            .iter()
            .zip(shares)
            .map(|(cell, share)| self.lines(cell, self.grid.words, share * width - gap))
            .collect();
        let height = cells.iter().map(|cell| cell.size[1]).fold(least, f64::max) + 1.4;
        let mut block = Block::new([width, height]);
        let mut x = 0.0;
        for (cell, share) in cells.into_iter().zip(shares) {
            let high = height - 0.4 - cell.size[1];
            block.hold(cell, [x, high]);
            x += share * width;
        }
        block.line(line_styles::LEADER, [0.0, 0.3], [width, 0.3]);
        block
    }

    /// Puts a block under the last one, on a new page where this one has no room for it.
    pub(crate) fn put(&mut self, block: Block) {
        self.put_close(block, self.grid.between());
    }

    /// The same with so much white below.
    pub(crate) fn put_close(&mut self, block: Block, below: f64) {
        self.put_row(Body::Fixed(block), below);
    }

    /// Puts a figure that is drawn for the height that its page gives it: its least, its usual and its greatest.
    pub(crate) fn put_elastic(&mut self, heights: [f64; 3], draw: impl Fn(f64) -> Block + 'a) {
        let most = self.grid.height();
        let heights = heights.map(|height| height.min(most));
        self.put_row(Body::Elastic(heights, Box::new(draw)), self.grid.between());
    }

    /// Puts a row, with what waits for it.
    fn put_row(&mut self, body: Body<'a>, below: f64) {
        let mut rows = std::mem::take(&mut self.waiting);
        rows.push(self.row(body, below));
        self.groups.push(Group {
            rows,
            begins_page: std::mem::take(&mut self.begins_page),
        });
    }

    fn row(&self, body: Body<'a>, below: f64) -> Row<'a> {
        Row {
            body,
            above: 0.0,
            below,
        }
    }

    /// The pages, numbered.
    pub(crate) fn pages(self, title: &str, number: &str) -> Vec<Page> {
        let (grid, font) = (self.grid, self.font);
        let pages = flow::pages(self.groups, grid.height());
        let count = pages.len().to_string();
        let pages = pages.into_iter().enumerate();
        pages
            .map(|(index, blocks)| {
                let mut page = Page::new(grid.size);
                for (block, down) in blocks {
                    let at = [grid.border[0], grid.size[1] - grid.border[1] - down];
                    let mut sheet = Block::new(grid.size);
                    sheet.hold(block, at);
                    sheet.rounded().put(&mut page, [0.0, 0.0]);
                }
                let index = (index + 1).to_string();
                let number = filled(number, &[("page", &index), ("count", &count)]);
                foot(grid, font, [title, &number])
                    .put(&mut page, [grid.border[0], grid.border[1] - FOOT + 1.0]);
                page
            })
            .collect()
    }
}

/// The foot of a page: the tray's name, and the number at the right.
fn foot(grid: Grid, font: &Font, [title, number]: [&str; 2]) -> Block {
    let capital = 0.85 * grid.words;
    let mut foot = Block::new([grid.width(), capital]);
    foot.words(title, [0.0, 0.0], capital);
    let width = font.width(number, capital);
    foot.words(number, [grid.width() - width, 0.0], capital);
    foot
}

/// Blocks one under the other, as one that is not parted.
pub(crate) fn stacked(blocks: impl IntoIterator<Item = Block>) -> Block {
    let blocks: Vec<Block> = blocks.into_iter().collect();
    let width = blocks.iter().map(|block| block.size[0]).fold(0.0, f64::max);
    let mut left: f64 = blocks.iter().map(|block| block.size[1]).sum();
    let mut whole = Block::new([width, left]);
    for block in blocks {
        left -= block.size[1];
        whole.hold(block, [0.0, left]);
    }
    whole
}
