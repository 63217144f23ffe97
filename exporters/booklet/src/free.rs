//! Free places for words in a figure.
//!
//! Given the lines and words that stand there; gives the nearest place to where words are wanted that meets none of them.
//! Lines lie in cells, so that only those near a place are asked.

use traywright_document::steady::Steady;
use traywright_paper::PointMm;

/// What is taken in a frame.
#[derive(Clone, Debug)]
pub(crate) struct Free {
    size: [f64; 2],
    /// The lines that enter each cell, row by row.
    cells: Vec<Vec<[PointMm; 2]>>,
    /// Cells in a row, and rows.
    count: [usize; 2],
    words: Vec<[PointMm; 2]>,
}

/// White around words.
const AROUND: f64 = 0.9;
/// Between the places that are tried.
const STEP: f64 = 1.25;
/// Side of a cell.
const CELL: f64 = 4.0;

impl Free {
    /// A frame with nothing in it.
    pub(crate) fn new(size: [f64; 2]) -> Free {
        let count = size.map(|side| (side / CELL).ceil().max(1.0) as usize);
        Free {
            size,
            cells: vec![Vec::new(); count[0] * count[1]],
            count,
            words: Vec::new(),
        }
    }

    /// A line is drawn.
    pub(crate) fn take_line(&mut self, line: &[PointMm]) {
        for ends in line.windows(2) {
            let ends = [ends[0], ends[1]];
            let least = [0, 1].map(|axis| ends[0][axis].min(ends[1][axis]));
            let most = [0, 1].map(|axis| ends[0][axis].max(ends[1][axis]));
            for [column, row] in self.cells_of(least, most) {
                let low = [column as f64 * CELL, row as f64 * CELL];
                // Cells at the border take what lies beyond it.
                let is_inner =
                    column > 0 && row > 0 && column + 1 < self.count[0] && row + 1 < self.count[1];
                if !is_inner || enters(ends, low, low.map(|side| side + CELL)) {
                    self.cells[row * self.count[0] + column].push(ends);
                }
            }
        }
    }

    /// The cells that a rectangle meets: column and row.
    fn cells_of(&self, least: PointMm, most: PointMm) -> impl Iterator<Item = [usize; 2]> + use<> {
        let [columns, rows] = [0, 1].map(|axis| {
            let cell = |side: f64| ((side / CELL).max(0.0) as usize).min(self.count[axis] - 1);
            cell(least[axis])..=cell(most[axis])
        });
        rows.flat_map(move |row| columns.clone().map(move |column| [column, row]))
    }

    /// Words are written, or a thing is drawn that fills a rectangle.
    pub(crate) fn take_words(&mut self, at: PointMm, size: [f64; 2]) {
        self.words.push([at, [at[0] + size[0], at[1] + size[1]]]);
    }

    /// The free place for words of a size that is nearest to an anchor: its lower left corner. Where a line is to lead to
    /// the anchor, that keeps off other words too.
    pub(crate) fn find(&self, size: [f64; 2], anchor: PointMm, leads: bool) -> Option<PointMm> {
        let most = [0, 1].map(|axis| self.size[axis] - size[axis] - AROUND);
        if most.iter().any(|most| *most < AROUND) {
            return None;
        }
        let middle = [0, 1].map(|axis| anchor[axis] - size[axis] / 2.0);
        let rings = (self.size[0].max(self.size[1]) / STEP).ceil() as i32;
        // Rings of places around the anchor, the nearest ring first.
        for ring in 0..=rings {
            let mut places: Vec<(f64, PointMm)> = Vec::new();
            for across in -ring..=ring {
                let edge = across.abs() == ring;
                let ups = (-ring..=ring).step_by(if edge || ring == 0 {
                    1
                } else {
                    2 * ring as usize
                });
                for up in ups {
                    let [x, y] = [across, up].map(|step| f64::from(step) * STEP);
                    let at = [middle[0] + x, middle[1] + y];
                    if (0..2).all(|axis| (AROUND..=most[axis]).contains(&at[axis])) {
                        places.push((x.steady_hypot(y), at));
                    }
                }
            }
            places.sort_by(|one, other| one.0.total_cmp(&other.0));
            let mut places = places.into_iter().map(|(_, at)| at);
            if let Some(at) = places.find(|&at| {
                self.is_free(at, size)
                    && !(leads && self.runs_through_words(leader(at, size, anchor)))
            }) {
                return Some(at);
            }
        }
        None
    }

    /// Whether a line runs through words.
    fn runs_through_words(&self, line: [PointMm; 2]) -> bool {
        let near = |words: &[PointMm; 2]| {
            let least = words[0].map(|side| side - AROUND / 2.0);
            enters(line, least, words[1].map(|side| side + AROUND / 2.0))
        };
        self.words.iter().any(near)
    }

    fn is_free(&self, at: PointMm, size: [f64; 2]) -> bool {
        let least = at.map(|side| side - AROUND);
        let most = [0, 1].map(|axis| at[axis] + size[axis] + AROUND);
        // What hangs below the foot of a line needs a third of a capital (common practice, none published).
        let least = [least[0], least[1] - 0.3 * size[1]];
        let apart = |words: &[PointMm; 2]| {
            (0..2).any(|axis| words[1][axis] <= least[axis] || words[0][axis] >= most[axis])
        };
        let crossed = |[column, row]: [usize; 2]| {
            let lines = &self.cells[row * self.count[0] + column];
            lines.iter().any(|line| enters(*line, least, most))
        };
        self.words.iter().all(apart) && !self.cells_of(least, most).any(crossed)
    }
}

/// The line from words at a place to their anchor.
pub(crate) fn leader(at: PointMm, size: [f64; 2], anchor: PointMm) -> [PointMm; 2] {
    let foot = [0, 1].map(|axis| anchor[axis].clamp(at[axis] - 0.5, at[axis] + size[axis] + 0.5));
    [foot, anchor]
}

/// Whether a line has a place within a rectangle.
// Source: Liang and Barsky, clipping of a line.
fn enters([from, to]: [PointMm; 2], least: PointMm, most: PointMm) -> bool {
    let (mut start, mut end) = (0.0_f64, 1.0_f64);
    for axis in 0..2 {
        let way = to[axis] - from[axis];
        if way == 0.0 {
            if from[axis] < least[axis] || from[axis] > most[axis] {
                return false;
            }
            continue;
        }
        let [one, other] = [least[axis], most[axis]].map(|side| (side - from[axis]) / way);
        start = start.max(one.min(other));
        end = end.min(one.max(other));
    }
    start <= end
}
