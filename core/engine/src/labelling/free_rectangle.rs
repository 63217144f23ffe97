//! The free rectangle of a panel in which words can be largest.
//!
//! **Input:** a panel with the lines of the blank, a frame whose second axis is the top of the words, and the shape of
//! the words. **Output:** of all free rectangles the one that takes the largest words; among those that take words large
//! enough the one with the largest area, then the lowest, then the leftmost. Free is what lies on the panel and keeps a
//! margin from every cut, crease and label.
//!
//! The panel is divided by the lines that run along the frame's axes, each moved by the margin to both sides, and by an
//! even grid for lines that do not. A cell is free if no line comes nearer to it than the margin. The rectangles are
//! found row by row from the heights of free cells above each other.

use traywright_document::{Chords, Point, Vector};

use super::{DrawnTray, MARGIN, SAME_MM};

/// The widest chord of an arc.
const CHORDS: Chords = Chords::Spanning(15.0);
/// Cells of the even grid in each direction.
// Source: a choice of this project: a label beside a slanted edge loses at most this share of its panel.
const GRID: usize = 64;

/// A frame on the card.
#[derive(Clone, Copy, Debug)]
pub(super) struct Frame {
    right: Vector,
    up: Vector,
    /// Whether words run along its second axis.
    is_across: bool,
}

/// The shape of words, for capitals of 1 mm.
#[derive(Clone, Copy, Debug)]
pub(super) struct Wanted {
    pub(super) width: f64,
    pub(super) height: f64,
    /// Larger capitals than this are not asked for, in mm.
    pub(super) enough: f64,
}

/// A free rectangle.
#[derive(Clone, Copy, Debug)]
pub(super) struct FreeRectangle {
    pub(super) middle: Point,
    /// The largest capitals that have room, in mm.
    pub(super) height: f64,
}

/// The cells of a panel.
struct Cells {
    x: Vec<f64>,
    y: Vec<f64>,
    /// Row by row, the lowest first.
    free: Vec<bool>,
}

impl Frame {
    /// The frame of words whose top lies that way, or which run that way.
    pub(super) fn of(top: Vector, is_across: bool) -> Frame {
        Frame {
            right: top.right(),
            up: top,
            is_across,
        }
    }

    fn inside(&self, at: Point) -> [f64; 2] {
        let way = at - Point::ORIGIN;
        [way.dot(self.right), way.dot(self.up)]
    }

    fn outside(&self, [x, y]: [f64; 2]) -> Point {
        Point::ORIGIN + self.right * x + self.up * y
    }
}

/// The free rectangle in which words can be largest; none where nothing is free.
pub(super) fn largest(
    tray: DrawnTray,
    panel: usize,
    (frame, beside): (Frame, &[[Point; 4]]),
    wanted: Wanted,
) -> Option<FreeRectangle> {
    let rings: Vec<Vec<[f64; 2]>> = tray.panels[panel]
        .contours()
        .map(|ring| ring.corners(CHORDS).into_iter())
        .map(|ring| ring.map(|at| frame.inside(at)).collect())
        .collect();
    let mut lines: Vec<[[f64; 2]; 2]> = rings.iter().flat_map(|ring| sides(ring)).collect();
    let cuts = tray.flat.open_cuts.iter().map(|cut| cut.corners(CHORDS));
    for cut in cuts {
        let ends = cut.windows(2);
        lines.extend(ends.map(|ends| [frame.inside(ends[0]), frame.inside(ends[1])]));
    }
    for corners in beside {
        lines.extend(sides(&corners.map(|at| frame.inside(at))));
    }
    let cells = Cells::of(&rings, &lines, MARGIN + tray.caliper);
    let found = cells.rectangles(|[x, y], size| {
        let [along, up] = match frame.is_across {
            true => [size[1], size[0]],
            false => size,
        };
        let height = (along / wanted.width).min(up / wanted.height);
        // Rounding must not decide between two rectangles that are alike.
        let even = |value: f64| (value / SAME_MM).round();
        let rank = [height.min(wanted.enough), size[0] * size[1], -y, -x];
        (rank.map(even), height)
    })?;
    Some(FreeRectangle {
        middle: frame.outside(found.0),
        height: found.1,
    })
}

/// The sides of a closed ring.
fn sides(ring: &[[f64; 2]]) -> Vec<[[f64; 2]; 2]> {
    let ends = ring.iter().zip(ring.iter().cycle().skip(1));
    ends.map(|(from, to)| [*from, *to]).collect()
}

impl Cells {
    fn of(rings: &[Vec<[f64; 2]>], lines: &[[[f64; 2]; 2]], margin: f64) -> Cells {
        let [x, y] = [0, 1].map(|axis| steps(rings, lines, axis, margin));
        let count = x.len().saturating_sub(1) * y.len().saturating_sub(1);
        let mut cells = Cells {
            x,
            y,
            free: vec![false; count],
        };
        cells.mark_card(rings);
        for line in lines {
            cells.block(*line, margin);
        }
        cells
    }

    fn columns(&self) -> usize {
        self.x.len().saturating_sub(1)
    }

    fn rows(&self) -> usize {
        self.y.len().saturating_sub(1)
    }

    /// Marks the cells whose middle lies on card.
    fn mark_card(&mut self, rings: &[Vec<[f64; 2]>]) {
        let columns = self.columns();
        for row in 0..self.rows() {
            let level = (self.y[row] + self.y[row + 1]) / 2.0;
            let mut crossed: Vec<f64> = rings
                .iter()
                .flat_map(|ring| sides(ring))
                .filter(|[from, to]| (from[1] <= level) != (to[1] <= level))
                .map(|[from, to]| {
                    from[0] + (level - from[1]) / (to[1] - from[1]) * (to[0] - from[0])
                })
                .collect();
            crossed.sort_by(f64::total_cmp);
            for column in 0..columns {
                let middle = (self.x[column] + self.x[column + 1]) / 2.0;
                let left = crossed.partition_point(|at| *at < middle);
                self.free[row * columns + column] = left % 2 == 1;
            }
        }
    }

    /// Takes the cells that a line comes too near to.
    fn block(&mut self, line: [[f64; 2]; 2], margin: f64) {
        let columns = self.columns();
        let near = margin - SAME_MM;
        let reach = |axis: usize, steps: &[f64], count: usize| {
            let low = line[0][axis].min(line[1][axis]) - near;
            let high = line[0][axis].max(line[1][axis]) + near;
            let first = steps.partition_point(|at| *at <= low).saturating_sub(1);
            let last = steps.partition_point(|at| *at < high);
            first..last.min(count)
        };
        let (across, up) = (reach(0, &self.x, columns), reach(1, &self.y, self.rows()));
        for row in up {
            for column in across.clone() {
                let least = [self.x[column] - near, self.y[row] - near];
                let most = [self.x[column + 1] + near, self.y[row + 1] + near];
                if meets(line, least, most) {
                    self.free[row * columns + column] = false;
                }
            }
        }
    }

    /// The middle and the value of the best free rectangle, by its lower left corner and its size.
    fn rectangles<R: PartialOrd>(
        &self,
        rank: impl Fn([f64; 2], [f64; 2]) -> (R, f64),
    ) -> Option<([f64; 2], f64)> {
        let columns = self.columns();
        let mut heights = vec![0_usize; columns + 1];
        let mut best: Option<(R, [f64; 2], f64)> = None;
        for row in 0..self.rows() {
            for (column, height) in heights[..columns].iter_mut().enumerate() {
                let is_free = self.free[row * columns + column];
                *height = if is_free { *height + 1 } else { 0 };
            }
            // Columns whose free cells reach higher and higher, each with the first column of its rectangle.
            let mut open: Vec<(usize, usize)> = Vec::new();
            for (column, &height) in heights.iter().enumerate() {
                let mut first = column;
                while let Some(&(from, higher)) = open.last().filter(|(_, it)| *it > height) {
                    open.pop();
                    first = from;
                    let low = [self.x[from], self.y[row + 1 - higher]];
                    let size = [self.x[column] - low[0], self.y[row + 1] - low[1]];
                    let (rank, value) = rank(low, size);
                    if best.as_ref().is_none_or(|(known, ..)| rank > *known) {
                        let middle = [low[0] + size[0] / 2.0, low[1] + size[1] / 2.0];
                        best = Some((rank, middle, value));
                    }
                }
                if height > 0 && open.last().is_none_or(|(_, it)| *it < height) {
                    open.push((first, height));
                }
            }
        }
        best.map(|(_, middle, value)| (middle, value))
    }
}

/// The places along an axis at which cells end.
fn steps(rings: &[Vec<[f64; 2]>], lines: &[[[f64; 2]; 2]], axis: usize, margin: f64) -> Vec<f64> {
    let places = || rings.iter().flatten().map(|place| place[axis]);
    let least = places().fold(f64::INFINITY, f64::min);
    let most = places().fold(f64::NEG_INFINITY, f64::max);
    let lies_across = |line: &&[[f64; 2]; 2]| (line[0][axis] - line[1][axis]).abs() < SAME_MM;
    let straight = lines.iter().filter(lies_across).map(|line| line[0][axis]);
    let mut steps: Vec<f64> = straight
        .flat_map(|at| [at - margin, at + margin])
        .chain((0..=GRID).map(|part| least + (most - least) * part as f64 / GRID as f64))
        .filter(|at| (least..=most).contains(at))
        .collect();
    steps.sort_by(f64::total_cmp);
    steps.dedup_by(|next, last| *next - *last < SAME_MM);
    steps
}

/// Whether a line passes through the inside of a rectangle.
// Source: Liang and Barsky, "A new concept and method for line clipping", 1984.
fn meets([from, to]: [[f64; 2]; 2], least: [f64; 2], most: [f64; 2]) -> bool {
    let (mut enters, mut leaves) = (0.0_f64, 1.0_f64);
    for axis in 0..2 {
        let way = to[axis] - from[axis];
        let sides = [least[axis] - from[axis], most[axis] - from[axis]];
        if way == 0.0 {
            if sides[0] >= 0.0 || sides[1] <= 0.0 {
                return false;
            }
            continue;
        }
        let [one, other] = sides.map(|side| side / way);
        enters = enters.max(one.min(other));
        leaves = leaves.min(one.max(other));
    }
    enters < leaves
}
