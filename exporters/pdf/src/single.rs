//! The ways to put a blank onto one sheet.
//!
//! Given the blank and both ways to lay the paper; gives places for it on a sheet that holds it, the one in the middle of
//! the upper edge first. Its lines keep off the edges of what the sheet can show, and the measures beside it are kept on
//! the paper, where there is room for that.

use std::collections::BTreeSet;

use crate::search::{EDGE_CLEAR, Paper, Spread};
use crate::window::{TOUCH, Window};

/// Where the blank may stand: shares of the room that is left along x and y.
const STANDS: [[f64; 2]; 7] = [
    [0.5, 1.0],
    [0.0, 1.0],
    [1.0, 1.0],
    [0.5, 0.5],
    [0.0, 0.5],
    [1.0, 0.5],
    [0.5, 0.0],
];

/// All ways to print it on one sheet; none where no sheet holds it.
pub(crate) fn on_one_sheet(
    blank: &Window,
    with_measures: &Window,
    papers: &[Paper],
) -> Vec<Spread> {
    let holds = |paper: &&Paper| (0..2).all(|axis| blank.size()[axis] <= paper.size[axis] + TOUCH);
    let clear = blank.wider(1.01 * EDGE_CLEAR);
    let with_measures = Window::around(clear.corners().into_iter().chain(with_measures.corners()));
    let mut ways = Vec::new();
    for paper in papers.iter().filter(holds) {
        for stand in STANDS {
            let begin = [0, 1].map(|axis| {
                let fits = |drawn: &&Window| drawn.size()[axis] <= paper.size[axis];
                let drawn = [&with_measures, &clear]
                    .into_iter()
                    .find(fits)
                    .unwrap_or(blank);
                let left = (paper.size[axis] - drawn.size()[axis]).max(0.0);
                drawn.least[axis] - left * stand[axis]
            });
            ways.push(Spread::new(
                paper.grid(begin),
                BTreeSet::from([[0, 0]]),
                paper.turned,
            ));
        }
    }
    ways
}
