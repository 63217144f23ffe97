//! The search for the fewest sheets: where the grid begins, and which way the sheets lie.
//!
//! Given the pieces of the blank and both ways to lay the paper; gives the grids that need the fewest sheets, those first
//! that keep lines away from the edges of sheets. The count of sheets changes only where the edge of a sheet passes the
//! end of a line, so these places are tried, and the middles between them.

use std::collections::BTreeSet;

use traywright_document::{ProcessingStep, TOUCH_MM};
use traywright_look::Layer;

use crate::measures::Measures;
use crate::pieces::Piece;
use crate::spread::{Cell, Grid};
use crate::window::Window;

/// A line that runs along the edge of a sheet stays this far from it where that is possible.
pub(crate) const EDGE_CLEAR: f64 = 3.0;
/// The number of beginnings tried along one axis, beside those that follow from the lines.
const EVEN_STEPS: u32 = 40;
/// The most and the fewest beginnings tried along one axis.
const MOST_BEGINNINGS: f64 = 320.0;
const FEWEST_BEGINNINGS: f64 = 6.0;
/// So many sheets and lines are looked at in all, about; a large blank on small sheets is searched less closely.
const LOOKS: f64 = 2.0e6;
/// The most sheets that are judged for their looks, over all grids.
const MOST_JUDGED: usize = 4000;

/// A way to print the blank.
#[derive(Clone, Debug)]
pub(crate) struct Spread {
    /// The grid.
    pub(crate) grid: Grid,
    /// Its sheets that are printed.
    pub(crate) sheets: BTreeSet<Cell>,
    /// Whether the long side of the paper lies across.
    pub(crate) turned: bool,
    /// How much of the lines runs along edges of sheets, how many openings no sheet shows whole, how many measures are lost,
    /// and how far off the middle it lies.
    faults: [f64; 4],
}

/// The paper in one of its two ways.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Paper {
    /// What a sheet can show.
    pub(crate) size: [f64; 2],
    /// How much of it the next sheet shows too.
    pub(crate) overlap: f64,
    /// Whether the long side lies across.
    pub(crate) turned: bool,
}

/// The best ways to print, none if each needs more sheets than that.
pub(crate) fn spreads(
    pieces: &[Piece],
    measures: &Measures,
    papers: &[Paper],
    most: usize,
) -> Vec<Spread> {
    let mut fewest = most;
    let mut found: Vec<(Paper, [f64; 2], usize)> = Vec::new();
    for paper in papers {
        let most = most_beginnings(pieces, paper);
        let ends: Vec<f64> = pieces
            .iter()
            .flat_map(|piece| [piece.from[0], piece.to[0]])
            .collect();
        for begin_x in beginnings(paper, 0, &ends, most) {
            let columns = paper.grid([begin_x, 0.0]).columns(pieces);
            for begin_y in beginnings(paper, 1, &columns.ends(), most) {
                let grid = paper.grid([begin_x, begin_y]);
                if let Some(sheets) = grid.sheets(&columns, fewest) {
                    fewest = sheets.len();
                    found.push((*paper, grid.begin, fewest));
                }
            }
        }
    }
    found.retain(|(_, _, count)| *count == fewest);
    let stride = found.len().div_ceil((MOST_JUDGED / fewest).max(8)).max(1);
    let mut spreads: Vec<Spread> = found
        .into_iter()
        .step_by(stride)
        .filter_map(|(paper, begin, count)| {
            let grid = paper.grid(begin);
            let sheets = grid.sheets(&grid.columns(pieces), count)?;
            let faults = faults(&grid, &sheets, pieces, measures);
            Some(Spread {
                grid,
                sheets,
                turned: paper.turned,
                faults,
            })
        })
        .collect();
    spreads.sort_by(|one, other| {
        one.faults
            .partial_cmp(&other.faults)
            .expect("lengths are numbers")
    });
    spreads
}

impl Spread {
    /// Sheets of a grid that nobody has judged.
    pub(crate) fn new(grid: Grid, sheets: BTreeSet<Cell>, turned: bool) -> Spread {
        Spread {
            grid,
            sheets,
            turned,
            faults: [0.0; 4],
        }
    }

    /// How much of the lines runs within 3 mm along the edge of a sheet.
    pub(crate) fn along_edges(&self) -> f64 {
        self.faults[0]
    }

    /// How many openings no sheet shows whole: a seam runs through them.
    pub(crate) fn cut_openings(&self) -> f64 {
        self.faults[1]
    }
}

impl Paper {
    /// The grid of sheets that begins there.
    pub(crate) fn grid(&self, begin: [f64; 2]) -> Grid {
        Grid {
            begin,
            size: self.size,
            overlap: self.overlap,
        }
    }
}

/// How many beginnings along one axis there is time for.
fn most_beginnings(pieces: &[Piece], paper: &Paper) -> usize {
    let blank = Window::around(pieces.iter().flat_map(|piece| [piece.from, piece.to]));
    let along = |axis: usize| blank.size()[axis] / (paper.size[axis] - paper.overlap) + 1.0;
    let looks = along(0) * along(1) + pieces.len() as f64;
    (LOOKS / looks)
        .sqrt()
        .clamp(FEWEST_BEGINNINGS, MOST_BEGINNINGS) as usize
}

/// Where a grid may begin along one axis: the edges of sheets at the ends of lines, just clear of them, and between.
/// Those at the ends of the whole blank are never left out.
fn beginnings(paper: &Paper, axis: usize, ends: &[f64], most: usize) -> Vec<f64> {
    let (size, pitch) = (paper.size[axis], paper.size[axis] - paper.overlap);
    let at = |ends: &[f64]| -> Vec<f64> {
        let edges = ends.iter().flat_map(|end| [*end, end - size]);
        settled(edges.map(|edge| edge.rem_euclid(pitch)).collect())
    };
    let outermost =
        [f64::min, f64::max].map(|outer| ends.iter().copied().reduce(outer).unwrap_or(0.0));
    let edges = at(ends);
    let middles = edges.windows(2).map(|pair| (pair[0] + pair[1]) / 2.0);
    let beside = |by: f64| edges.iter().map(move |edge| (edge + by).rem_euclid(pitch));
    let clear = beside(1.01 * EDGE_CLEAR).chain(beside(-1.01 * EDGE_CLEAR));
    let even = (0..EVEN_STEPS).map(|step| pitch * f64::from(step) / f64::from(EVEN_STEPS));
    let all = settled(
        edges
            .iter()
            .copied()
            .chain(middles)
            .chain(clear)
            .chain(even)
            .collect(),
    );
    let stride = all.len().div_ceil(most);
    settled(
        all.into_iter()
            .step_by(stride)
            .chain(at(&outermost))
            .collect(),
    )
}

/// In order, and each once.
fn settled(mut values: Vec<f64>) -> Vec<f64> {
    values.sort_by(f64::total_cmp);
    values.dedup_by(|one, other| (*one - *other).abs() < TOUCH_MM);
    values
}

fn faults(grid: &Grid, sheets: &BTreeSet<Cell>, pieces: &[Piece], measures: &Measures) -> [f64; 4] {
    let windows: Vec<Window> = sheets.iter().map(|cell| grid.window(*cell)).collect();
    let along: f64 = windows
        .iter()
        .map(|window| along_edges(window, pieces))
        .sum();
    let cut = openings(pieces)
        .iter()
        .filter(|opening| !windows.iter().any(|window| window.covers(opening)))
        .count();
    let lost = measures.lost(&windows).len();
    let paper = Window::around(windows.iter().flat_map(Window::corners));
    let blank = Window::around(pieces.iter().flat_map(|piece| [piece.from, piece.to]));
    let middle = |window: &Window, axis: usize| (window.least[axis] + window.most[axis]) / 2.0;
    let off = [0, 1].map(|axis| (middle(&paper, axis) - middle(&blank, axis)).abs());
    let along = (along * 10.0).round();
    [along, cut as f64, lost as f64, off[0] + off[1]]
}

/// The rectangles around the cuts inside the blank.
fn openings(pieces: &[Piece]) -> Vec<Window> {
    let is_cut = |piece: &&Piece| piece.layer == Layer::Step(ProcessingStep::Cutting);
    let cuts: Vec<&Piece> = pieces.iter().filter(is_cut).collect();
    let lines = cuts.chunk_by(|one, next| one.line == next.line);
    // The first of the cuts is the outline.
    let inside = lines.skip(1);
    inside
        .map(|line| Window::around(line.iter().flat_map(|piece| [piece.from, piece.to])))
        .collect()
}

/// The length of lines that run along an edge of a sheet, nearer than they should.
fn along_edges(window: &Window, pieces: &[Piece]) -> f64 {
    let mut length = 0.0;
    let reach = window.wider(EDGE_CLEAR);
    for piece in pieces {
        let way = [0, 1].map(|axis| (piece.to[axis] - piece.from[axis]).abs());
        // A line that leaves the edge by more than a sixth of its way crosses it rather than running along.
        let Some(across) = [0, 1]
            .into_iter()
            .find(|across| way[*across] * 6.0 <= way[1 - across])
        else {
            continue;
        };
        for edge in [window.least[across], window.most[across]] {
            let mut strip = reach;
            strip.least[across] = edge - EDGE_CLEAR + 1e-3;
            strip.most[across] = edge + EDGE_CLEAR - 1e-3;
            if let Some([first, last]) = piece.within(&strip) {
                length += (last - first) * piece.length();
            }
        }
    }
    length
}
