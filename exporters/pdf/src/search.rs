//! The search for the fewest sheets: where the grid begins, and which way the sheets lie.
//!
//! Given the pieces of the blank and both ways to lay the paper; gives the grids that need the fewest sheets, those first
//! that keep lines away from the edges of sheets. The count of sheets changes only where the edge of a sheet passes the
//! end of a line, so these places are tried, and the middles between them.

use std::collections::BTreeSet;
use std::rc::Rc;

use traywright_document::{ProcessingStep, TOUCH_MM};
use traywright_look::Layer;

use crate::measures::Measures;
use crate::pieces::Piece;
use crate::spread::{Cell, Columns, Grid};
use crate::window::{TOUCH, Window};

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
    pub(crate) sheets: Rc<BTreeSet<Cell>>,
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

/// A grid that needs as few sheets as any, and the sheets.
type Counted = (Paper, [f64; 2], Rc<BTreeSet<Cell>>);

/// Grids of one paper that differ in where their columns begin, but not in what these must show.
struct Alike {
    columns: Columns,
    /// Where rows may begin, with the sheets that are needed then.
    rows: Vec<(f64, Rc<BTreeSet<Cell>>)>,
}

/// The best ways to print, none if each needs more sheets than that: of those with the fewest sheets the ones that keep
/// lines off the edges of sheets and seams off openings as well as any, in the order of their other faults.
pub(crate) fn spreads(
    pieces: &[Piece],
    measures: &Measures,
    papers: &[Paper],
    most: usize,
) -> Vec<Spread> {
    let found = counted(pieces, papers, most);
    let fewest = found.first().map_or(1, |(.., sheets)| sheets.len().max(1));
    let stride = found.len().div_ceil((MOST_JUDGED / fewest).max(8)).max(1);
    let judged = found.into_iter().step_by(stride);
    let edges = Edges::of(pieces);
    let along = |(paper, begin, sheets): Counted| {
        let grid = paper.grid(begin);
        let spread = Spread::new(grid, sheets, paper.turned);
        let length: f64 = spread.windows().map(|window| edges.along(&window)).sum();
        ((length * 10.0).round(), spread)
    };
    let mut spreads = least_faulty(judged.map(along).collect(), 0);
    let openings = openings(pieces);
    let cut = |spread: Spread| (spread.cuts(&openings) as f64, spread);
    spreads = least_faulty(spreads.into_iter().map(cut).collect(), 1);
    let blank = Window::around(pieces.iter().flat_map(|piece| [piece.from, piece.to]));
    for spread in &mut spreads {
        let windows: Vec<Window> = spread.windows().collect();
        spread.faults[2] = measures.lost(&windows).len() as f64;
        spread.faults[3] = off_middle(&windows, &blank);
    }
    spreads.sort_by(|one, other| {
        one.faults
            .partial_cmp(&other.faults)
            .expect("lengths are numbers")
    });
    spreads
}

/// Those that have the least of one fault, which they note.
fn least_faulty(judged: Vec<(f64, Spread)>, fault: usize) -> Vec<Spread> {
    let least = judged
        .iter()
        .map(|(much, _)| *much)
        .fold(f64::INFINITY, f64::min);
    let best = judged.into_iter().filter(|(much, _)| *much <= least);
    best.map(|(much, mut spread)| {
        spread.faults[fault] = much;
        spread
    })
    .collect()
}

/// The grids that need the fewest sheets, none if each needs more than so many.
fn counted(pieces: &[Piece], papers: &[Paper], most: usize) -> Vec<Counted> {
    let mut fewest = most;
    let mut found: Vec<Counted> = Vec::new();
    let ends: Vec<f64> = pieces
        .iter()
        .flat_map(|piece| [piece.from[0], piece.to[0]])
        .collect();
    for paper in papers {
        let most = most_beginnings(pieces, paper);
        let mut known: Vec<Alike> = Vec::new();
        for begin_x in beginnings(paper, 0, &ends, most) {
            let grid = paper.grid([begin_x, 0.0]);
            let columns = grid.columns(pieces);
            if grid.fewest_of(&columns) > fewest {
                continue;
            }
            let alike = known.iter().position(|alike| alike.columns == columns);
            let alike = alike.unwrap_or_else(|| {
                let rows = rows(paper, &columns, most, &mut fewest);
                known.push(Alike { columns, rows });
                known.len() - 1
            });
            for (begin_y, sheets) in &known[alike].rows {
                if sheets.len() <= fewest {
                    found.push((*paper, [begin_x, *begin_y], sheets.clone()));
                }
            }
        }
    }
    found.retain(|(.., sheets)| sheets.len() == fewest);
    found
}

/// Where rows may begin so that no more than the fewest sheets are needed, which may become fewer.
fn rows(
    paper: &Paper,
    columns: &Columns,
    most: usize,
    fewest: &mut usize,
) -> Vec<(f64, Rc<BTreeSet<Cell>>)> {
    let ends = columns.ends();
    let edges = at_edges(paper, 1, &ends);
    let mut rows = Vec::new();
    let mut between: Option<(usize, Option<Rc<BTreeSet<Cell>>>)> = None;
    for begin_y in beginnings(paper, 1, &ends, most) {
        let count = || {
            paper
                .grid([0.0, begin_y])
                .sheets(columns, *fewest)
                .map(Rc::new)
        };
        // Between two neighbouring edges no sheet begins or ceases to show a line.
        let sheets = match gap(&edges, begin_y) {
            None => count(),
            Some(gap) => match &between {
                Some((known, sheets)) if *known == gap => sheets.clone(),
                _ => {
                    let sheets = count();
                    between = Some((gap, sheets.clone()));
                    sheets
                }
            },
        };
        if let Some(sheets) = sheets.filter(|sheets| sheets.len() <= *fewest) {
            *fewest = sheets.len();
            rows.push((begin_y, sheets));
        }
    }
    rows
}

/// The number of edges below a beginning, if it lies clearly between edges.
fn gap(edges: &[f64], begin: f64) -> Option<usize> {
    let below = edges.partition_point(|edge| *edge < begin);
    let near = edges[below.saturating_sub(1)..]
        .iter()
        .take(2)
        .any(|edge| (edge - begin).abs() < 100.0 * TOUCH);
    (!near).then_some(below)
}

impl Spread {
    /// Sheets of a grid that nobody has judged.
    pub(crate) fn new(grid: Grid, sheets: impl Into<Rc<BTreeSet<Cell>>>, turned: bool) -> Spread {
        Spread {
            grid,
            sheets: sheets.into(),
            turned,
            faults: [0.0; 4],
        }
    }

    /// What its sheets show.
    fn windows(&self) -> impl Iterator<Item = Window> {
        self.sheets.iter().map(|cell| self.grid.window(*cell))
    }

    /// How many of these openings no sheet shows whole.
    fn cuts(&self, openings: &[Window]) -> usize {
        let is_cut = |opening: &&Window| !self.windows().any(|window| window.covers(opening));
        openings.iter().filter(is_cut).count()
    }

    /// How much of the lines runs within 3 mm along the edge of a sheet.
    pub(crate) fn along_edges(&self) -> f64 {
        self.faults[0]
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
    let pitch = paper.size[axis] - paper.overlap;
    let outermost =
        [f64::min, f64::max].map(|outer| ends.iter().copied().reduce(outer).unwrap_or(0.0));
    let edges = at_edges(paper, axis, ends);
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
            .chain(at_edges(paper, axis, &outermost))
            .collect(),
    )
}

/// Where a grid begins if the edge of a sheet passes the end of a line.
fn at_edges(paper: &Paper, axis: usize, ends: &[f64]) -> Vec<f64> {
    let (size, pitch) = (paper.size[axis], paper.size[axis] - paper.overlap);
    let edges = ends.iter().flat_map(|end| [*end, end - size]);
    settled(edges.map(|edge| edge.rem_euclid(pitch)).collect())
}

/// In order, and each once.
fn settled(mut values: Vec<f64>) -> Vec<f64> {
    values.sort_by(f64::total_cmp);
    values.dedup_by(|one, other| (*one - *other).abs() < TOUCH_MM);
    values
}

/// How far the paper lies off the middle of the blank.
fn off_middle(windows: &[Window], blank: &Window) -> f64 {
    let paper = Window::around(windows.iter().flat_map(Window::corners));
    let (paper, blank) = (paper.middle(), blank.middle());
    let off = [0, 1].map(|axis| (paper[axis] - blank[axis]).abs());
    off[0] + off[1]
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

/// The lines that may run along edges of sheets: by the axis across them.
struct Edges<'a>([Vec<Along<'a>>; 2]);

/// A line that runs along one axis.
struct Along<'a> {
    piece: &'a Piece,
    length: f64,
    /// Where it lies across that axis.
    least: f64,
    most: f64,
}

impl<'a> Edges<'a> {
    /// A line that leaves the edge by more than a sixth of its way crosses it rather than running along.
    fn of(pieces: &'a [Piece]) -> Edges<'a> {
        let mut edges = Edges([Vec::new(), Vec::new()]);
        for piece in pieces {
            let way = [0, 1].map(|axis| (piece.to[axis] - piece.from[axis]).abs());
            if let Some(across) = (0..2).find(|across| way[*across] * 6.0 <= way[1 - across]) {
                let ends = [piece.from[across], piece.to[across]];
                edges.0[across].push(Along {
                    piece,
                    length: piece.length(),
                    least: ends[0].min(ends[1]),
                    most: ends[0].max(ends[1]),
                });
            }
        }
        edges
    }

    /// The length of lines that run along an edge of a sheet, nearer than they should.
    fn along(&self, window: &Window) -> f64 {
        let mut length = 0.0;
        let reach = window.wider(EDGE_CLEAR);
        for (across, lines) in self.0.iter().enumerate() {
            for edge in [window.least[across], window.most[across]] {
                let mut strip = reach;
                strip.least[across] = edge - EDGE_CLEAR + 1e-3;
                strip.most[across] = edge + EDGE_CLEAR - 1e-3;
                let near = |line: &&Along| {
                    line.most >= strip.least[across] - TOUCH
                        && line.least <= strip.most[across] + TOUCH
                };
                for line in lines.iter().filter(near) {
                    if let Some([first, last]) = line.piece.within(&strip) {
                        length += (last - first) * line.length;
                    }
                }
            }
        }
        length
    }
}
