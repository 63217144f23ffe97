//! The largest rectangle that is left of a sheet.
//!
//! **Input:** what lies on it. **Output:** an upright rectangle that keeps the gap from every blank, found on a grid of
//! squares: it is free, and the true largest may be a few squares larger. It may reach to the edges of the stock.

use traywright_document::{Extent, Point};

use crate::Stock;
use crate::shapes::{Shapes, Spot};

/// Squares along the longer side of the stock.
const SQUARES: f64 = 1000.0;

/// The largest rectangle; one without an area if all squares are taken.
pub(crate) fn largest(laid: &[Spot], shapes: &Shapes, stock: &Stock) -> Extent {
    let side = (stock.sides[0].max(stock.sides[1]) / SQUARES).max(0.5);
    let size = stock.sides.map(|length| (length / side) as usize);
    let mut taken = vec![false; size[0] * size[1]];
    for spot in laid {
        take(spot, shapes, stock.gap, (side, size), &mut taken);
    }
    let [from, to] = widest(&taken, size);
    let corner = |[column, row]: [usize; 2]| Point::new(column as f64 * side, row as f64 * side);
    Extent {
        least: corner(from),
        most: corner(to),
    }
}

/// Takes the squares on a blank and those within the gap of its outline.
fn take(
    spot: &Spot,
    shapes: &Shapes,
    gap: f64,
    (side, size): (f64, [usize; 2]),
    taken: &mut [bool],
) {
    let polygon =
        shapes.kinds[spot.kind].polygons[spot.turn.quarters()].moved(spot.at - Point::ORIGIN);
    let reach = gap.max(shapes.gap(spot.kind, spot.kind) - gap);
    let squares = |least: f64, most: f64, axis: usize| {
        let first = (least / side).max(0.0) as usize;
        first.min(size[axis])..((most / side).max(0.0) as usize + 1).min(size[axis])
    };
    for [from, to] in polygon.edges() {
        let steps = ((to - from).length() / side).ceil().max(1.0) as usize;
        for step in 0..=steps {
            let at = from.on_the_way(to, step as f64 / steps as f64);
            let around = Extent {
                least: at,
                most: at,
            }
            .wider(reach + side / 2.0, reach + side / 2.0);
            for row in squares(around.least.y, around.most.y, 1) {
                for column in squares(around.least.x, around.most.x, 0) {
                    taken[row * size[0] + column] = true;
                }
            }
        }
    }
    let extent = polygon.extent();
    for row in squares(extent.least.y, extent.most.y, 1) {
        let y = (row as f64 + 0.5) * side;
        let mut ends: Vec<f64> = polygon
            .edges()
            .filter(|edge| (edge[0].y > y) != (edge[1].y > y))
            .map(|[from, to]| from.x + (y - from.y) / (to.y - from.y) * (to.x - from.x))
            .collect();
        ends.sort_by(f64::total_cmp);
        for pair in ends.chunks_exact(2) {
            for column in squares(pair[0], pair[1], 0) {
                taken[row * size[0] + column] = true;
            }
        }
    }
}

/// The free rectangle of the most squares, as its first square and the one behind its last.
// Source: the largest rectangle below a histogram, row by row (common practice, none published).
fn widest(taken: &[bool], [columns, rows]: [usize; 2]) -> [[usize; 2]; 2] {
    let mut heights = vec![0_usize; columns + 1];
    let mut best = [[0, 0], [0, 0]];
    let mut most = 0;
    for row in 0..rows {
        for column in 0..columns {
            let is_taken = taken[row * columns + column];
            heights[column] = if is_taken { 0 } else { heights[column] + 1 };
        }
        let mut open: Vec<(usize, usize)> = Vec::new();
        for (column, &height) in heights.iter().enumerate() {
            let mut start = column;
            while let Some(&(from, high)) = open.last() {
                if high < height {
                    break;
                }
                open.pop();
                if high * (column - from) > most {
                    most = high * (column - from);
                    best = [[from, row + 1 - high], [column, row + 1]];
                }
                start = from;
            }
            if height > 0 {
                open.push((start, height));
            }
        }
    }
    best
}
