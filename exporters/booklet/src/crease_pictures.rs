//! Pictures of a crease cut across: how it is made, how it folds, and what goes wrong.
//!
//! **Input:** the way in which creases are made, and how deep a half-cut is in words. **Output:** a block as wide as
//! the page, with the pictures side by side, each with its caption; wrong creases are crossed out. The pictures show no
//! card to scale.

use traywright_look::{LineStyle, filled};
use traywright_paper::Block;

use crate::book::Book;
use crate::crease_shapes::{self as shapes, HALF, REACH};
use crate::crease_way::CreaseWay;
use crate::free::Free;
use crate::line_styles as looks;
use crate::picture::{Picture, Scale};
use crate::visible::Seen;
use crate::wording::CreaseWords;

/// White around a picture, and between two captions.
const BORDER: f64 = 1.5;
const BETWEEN: f64 = 3.0;
/// The most that a picture is enlarged.
const MOST_ENLARGED: f64 = 1.4;
/// Height of a caption's capitals, over those of the words of the page.
const CAPTION: f64 = 0.85;
/// Half the arms of the cross through what is wrong.
const CROSS: f64 = REACH - 0.5;

/// A picture, and what it is.
struct Cell {
    picture: Picture,
    caption: String,
    /// Words at a place of the picture.
    label: Option<(String, Seen)>,
}

/// The pictures of a way of making creases; `depth` is how deep a half-cut goes.
pub(crate) fn pictures(book: &Book, way: CreaseWay, words: &CreaseWords, depth: &str) -> Block {
    let cells = cells(way, words, depth);
    let width = book.grid.width() / cells.len() as f64;
    let blocks: Vec<Block> = cells
        .iter()
        .map(|cell| cell.block(book, width - BETWEEN))
        .collect();
    let height = blocks.iter().map(|block| block.size[1]).fold(0.0, f64::max);
    let mut row = Block::new([book.grid.width(), height]);
    for (number, block) in blocks.into_iter().enumerate() {
        let low = height - block.size[1];
        row.hold(block, [number as f64 * width, low]);
    }
    row
}

/// What is shown: how a crease is made, how it folds, and what goes wrong.
fn cells(way: CreaseWay, words: &CreaseWords, depth: &str) -> Vec<Cell> {
    let (made, right, wrong) = match way {
        CreaseWay::Pressed => (
            shapes::groove(),
            shapes::folded_around_the_bead(),
            vec![shapes::folded_onto_the_groove()],
        ),
        CreaseWay::HalfCut => (
            shapes::half_cut(),
            shapes::folded_with_the_cut_outside(),
            vec![shapes::folded_onto_the_cut(), shapes::cut_through()],
        ),
        CreaseWay::Crushed => (
            shapes::crushed_flutes(),
            shapes::folded_over_the_flutes(),
            vec![shapes::liner_cut()],
        ),
    };
    let cell = |picture: Picture, caption: &str| Cell {
        picture,
        caption: caption.to_owned(),
        label: None,
    };
    let label = (way == CreaseWay::HalfCut).then(|| (depth.to_owned(), shapes::BESIDE_THE_DEPTH));
    let mut cells = vec![
        Cell {
            label,
            ..cell(made, &filled(&words.made, &[("depth", depth)]))
        },
        cell(with_tick(right), &words.right),
    ];
    let faults = wrong.into_iter().zip(&words.wrong);
    cells.extend(faults.map(|(picture, caption)| cell(crossed_out(picture), caption)));
    cells
}

impl Cell {
    /// The picture over its caption, no wider than that.
    fn block(&self, book: &Book, width: f64) -> Block {
        let caption = book.lines(&self.caption, CAPTION * book.grid.words, width);
        let below = caption.size[1] + BORDER;
        let factor = ((width / 2.0 - BORDER) / REACH).min(MOST_ENLARGED);
        let high = 2.0 * (factor * REACH + BORDER);
        let mut block = Block::new([width, high + below]);
        let scale = Scale {
            factor,
            shift: [width / 2.0, below + high / 2.0],
        };
        self.picture
            .draw(scale, &mut block, &mut Free::new([width, high + below]));
        if let Some((text, at)) = &self.label {
            block.words(text, scale.on_paper(*at), CAPTION * book.grid.words);
        }
        block.hold(caption, [0.0, 0.0]);
        block
    }
}

/// The same with a cross over it.
fn crossed_out(mut picture: Picture) -> Picture {
    let arm = |slant: f64| vec![[-CROSS, -slant * CROSS], [CROSS, slant * CROSS]];
    let crossed: [(LineStyle, Vec<Seen>); 2] = [1.0, -1.0].map(|slant| (looks::WRONG, arm(slant)));
    picture.lines.extend(crossed);
    picture
}

/// The same with a tick beside it.
fn with_tick(mut picture: Picture) -> Picture {
    let [x, y] = [REACH - 5.0, HALF + 3.0];
    let tick = vec![[x, y], [x + 1.4, y - 1.8], [x + 4.4, y + 2.6]];
    picture.lines.push((looks::RIGHT, tick));
    picture
}
