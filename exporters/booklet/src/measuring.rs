//! The measures of a cut-away: their pens, their arrows, and rows for their words.
//!
//! **Does not** know what is measured.
// Source: ISO 129-1: heads outside where a measure is short (from memory).

use traywright_document::{Dimension, Point};
use traywright_look::LineStyle;
use traywright_paper::{Block, PointMm};

use crate::line_styles as looks;

/// Length of an arrow's head.
pub(crate) const HEAD: f64 = 1.9;

/// A measure in height.
pub(crate) struct Measure {
    pub(crate) text: String,
    pub(crate) ends: [f64; 2],
    pub(crate) pen: Pen,
}

/// How a measure is drawn.
#[derive(Clone, Copy)]
pub(crate) enum Pen {
    Thin,
    Thick,
    Fault,
}

/// The play at the left side of the item.
pub(crate) struct Play {
    pub(crate) length: f64,
    pub(crate) text: String,
}

impl Pen {
    pub(crate) fn look(self) -> LineStyle {
        match self {
            Pen::Thin => looks::MEASURE,
            Pen::Thick => looks::THICK_MEASURE,
            Pen::Fault => looks::FAULT,
        }
    }
}

/// A measure's line with its heads; a short one has them outside.
pub(crate) fn draw_arrows(block: &mut Block, look: LineStyle, ends: [PointMm; 2]) {
    let line = ends.map(|[x, y]| Point::new(x, y));
    let measure = Dimension {
        text: String::new(),
        text_at: line[0],
        text_height: HEAD,
        line,
        extensions: Vec::new(),
    };
    let heads = measure.heads();
    let way = (line[1] - line[0]).unit();
    let is_short = (line[1] - line[0]).length() < 3.0 * HEAD;
    let more = if is_short { 2.0 * HEAD } else { -0.8 * HEAD };
    let [from, to] = [line[0] + way * -more, line[1] + way * more];
    block.line(look, [from.x, from.y], [to.x, to.y]);
    for head in heads {
        let corners = head.map(|corner| [corner.x, corner.y]);
        block.fill(look.colour, corners.to_vec());
    }
}

/// Heights of rows of words near where they are wanted, none on another, between 0 and a height.
pub(crate) fn rows(wanted: &[(f64, f64)], height: f64) -> Vec<f64> {
    let mut order: Vec<usize> = (0..wanted.len()).collect();
    order.sort_by(|one, other| wanted[*one].0.total_cmp(&wanted[*other].0));
    let mut rows = vec![0.0; wanted.len()];
    let mut reached = 0.0;
    for &index in &order {
        let (middle, tall) = wanted[index];
        rows[index] = middle.max(reached + tall / 2.0);
        reached = rows[index] + tall / 2.0;
    }
    let mut reached = height;
    for &index in order.iter().rev() {
        let tall = wanted[index].1;
        rows[index] = rows[index].min(reached - tall / 2.0);
        reached = rows[index] - tall / 2.0;
    }
    rows
}
