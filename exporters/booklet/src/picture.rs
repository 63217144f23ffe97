//! The tints and lines of a figure, and the scale at which they are drawn.
//!
//! **Does not** hold arrows or words.

use traywright_look::{Colour, LineStyle};
use traywright_paper::{Block, PointMm, Step, StrokePath};

use crate::free::Free;
use crate::visible::{Region, Seen};

/// Tints and lines, in mm of the card.
#[derive(Clone, Debug, Default)]
pub(crate) struct Picture {
    pub(crate) fills: Vec<(Colour, Region)>,
    pub(crate) lines: Vec<(LineStyle, Vec<Seen>)>,
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
        for (look, line) in &self.lines {
            let line: Vec<PointMm> = line.iter().map(|&place| scale.on_paper(place)).collect();
            block.run(*look, run(&line));
            free.take_line(&line);
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
