//! The tints and lines of a figure, the words printed on its card, and the scale at which they are drawn.
//!
//! **Does not** hold arrows or the words of the figure itself.

use std::rc::Rc;

use traywright_document::PngFile;
use traywright_look::{Colour, LineStyle};
use traywright_paper::{Block, LaidPicture, LaidWords, PointMm, Step, StrokePath};

use crate::free::Free;
use crate::visible::{Region, Seen};

/// Tints, lines and printed words, in mm of the card.
#[derive(Clone, Debug, Default)]
pub(crate) struct Picture {
    pub(crate) fills: Vec<(Colour, Region)>,
    pub(crate) lines: Vec<(LineStyle, Vec<Seen>)>,
    pub(crate) words: Vec<PrintedWords>,
    pub(crate) prints: Vec<PrintedPicture>,
}

/// A picture that is printed on the card.
#[derive(Clone, Debug)]
pub(crate) struct PrintedPicture {
    pub(crate) file: Rc<PngFile>,
    /// Its lower left corner, and the ways along its foot and to its top, all of them.
    pub(crate) at: Seen,
    pub(crate) across: Seen,
    pub(crate) up: Seen,
    pub(crate) shown: Region,
}

/// Words that are printed on the card.
#[derive(Clone, Debug)]
pub(crate) struct PrintedWords {
    pub(crate) text: String,
    /// The middle of their baseline.
    pub(crate) at: Seen,
    /// A millimetre of the card along them, and from their baseline to their top.
    pub(crate) along: Seen,
    pub(crate) up: Seen,
    /// Height of a capital on the card.
    pub(crate) capital: f64,
    pub(crate) colour: Colour,
}

/// From the plane of the view to the paper.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Scale {
    pub(crate) factor: f64,
    pub(crate) shift: PointMm,
}

impl Picture {
    /// Draws the picture and marks its lines as taken.
    pub(crate) fn draw(&self, scale: Scale, block: &mut Block, free: &mut Free) {
        for (colour, region) in &self.fills {
            let ring = |ring: &Vec<Seen>| ring.iter().map(|&place| scale.on_paper(place)).collect();
            block.area(*colour, region.iter().map(ring).collect());
        }
        for print in &self.prints {
            block.picture(print.on_paper(scale));
        }
        for words in &self.words {
            block.laid(words.on_paper(scale));
        }
        for (look, line) in &self.lines {
            let line: Vec<PointMm> = line.iter().map(|&place| scale.on_paper(place)).collect();
            block.run(*look, run(&line));
            free.take_line(&line);
        }
    }
}

impl PrintedPicture {
    fn on_paper(&self, scale: Scale) -> LaidPicture {
        let way = |way: Seen| way.map(|part| part * scale.factor);
        let ring = |ring: &Vec<Seen>| ring.iter().map(|&place| scale.on_paper(place)).collect();
        LaidPicture {
            file: Rc::clone(&self.file),
            at: scale.on_paper(self.at),
            across: way(self.across),
            up: way(self.up),
            shown: self.shown.iter().map(ring).collect(),
            window: None,
        }
    }
}

impl PrintedWords {
    fn on_paper(&self, scale: Scale) -> LaidWords {
        let way = |way: Seen| way.map(|part| part * scale.factor);
        LaidWords {
            text: self.text.clone(),
            at: scale.on_paper(self.at),
            along: way(self.along),
            up: way(self.up),
            capital: self.capital,
            colour: self.colour,
            shown: None,
        }
    }
}

impl Scale {
    /// Where a place stands on paper.
    pub(crate) fn on_paper(self, place: Seen) -> PointMm {
        [0, 1].map(|axis| self.shift[axis] + self.factor * place[axis])
    }
}

/// A line through places.
pub(crate) fn run(line: &[PointMm]) -> StrokePath {
    StrokePath {
        start: line[0],
        steps: line[1..].iter().map(|&place| Step::To(place)).collect(),
        closed: false,
    }
}
