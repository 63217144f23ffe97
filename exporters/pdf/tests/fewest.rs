//! No grid of sheets needs fewer than the PDF has pages.
//!
//! Source: a search by brute force that shares nothing with the exporter: it lays grids at every offset of a few
//! millimetres, both ways round, marks which sheets show each place along the lines, and tries every set of sheets, the
//! smallest first, until one shows all places and hangs together.

use std::collections::BTreeSet;
use traywright_document::steady::Steady;

use traywright_document::{BoxSize, Document, Length, Output, Page, Paper, example};

/// Between the offsets that are tried.
const STEP: f64 = 6.0;
/// Between the places along a line.
const PLACES: f64 = 2.0;
/// The fewest sheets are looked for up to this many.
const MOST: u32 = 6;

/// A page, its sides, its margin and its overlap.
const PAPERS: [[f64; 4]; 3] = [
    [130.0, 150.0, 5.0, 10.0],
    [148.0, 210.0, 6.0, 10.0],
    [165.0, 165.0, 6.0, 15.0],
];

#[test]
fn no_grid_needs_fewer_sheets() {
    let (mut several, mut judged) = (0, 0);
    for paper in PAPERS {
        for blank in blanks() {
            let document = document(&blank, paper);
            let pages = traywright_pdf::sheet_count(&document).expect("the blank can be printed");
            let fewest = by_force(&blank, paper);
            assert!(
                fewest.is_none_or(|fewest| pages <= fewest),
                "{pages} pages, {fewest:?} by force: {paper:?} {blank:?}"
            );
            several += usize::from(pages > 1);
            judged += usize::from(fewest.is_some() && pages > 1);
        }
    }
    assert!(judged > 20, "only {judged} of {several} were judged");
}

#[test]
fn a_sheet_holds_what_fits_between_its_margins_either_way() {
    // Source: tests/facts/paper.md prn-07: 210 x 134 on A4 with margins of 6 is one page, turned; 285 by 198 just fits.
    for (length, width, expected) in [
        (210.0, 134.0, 1),
        (134.0, 210.0, 1),
        (285.0, 198.0, 1),
        (285.1, 198.0, 2),
    ] {
        let blank = rectangle(0.0, 0.0, length, width);
        let pages = traywright_pdf::sheet_count(&document(&blank, [210.0, 297.0, 6.0, 10.0]))
            .expect("it can be printed");
        assert_eq!(pages, expected, "{length} x {width}");
    }
}

#[test]
fn a_long_strip_takes_as_many_sheets_as_the_formula_says() {
    // Source: tests/facts/paper.md prn-08 and P7: ceil((L - o) / (p - o)) sheets along one side: L 400, p 198, o 10
    // gives 3 on the short side and, with p 285, 2 on the long one, which is the better way.
    let strip = rectangle(0.0, 0.0, 400.0, 100.0);
    let pages =
        |paper| traywright_pdf::sheet_count(&document(&strip, paper)).expect("it can be printed");
    assert_eq!(pages([210.0, 297.0, 6.0, 10.0]), 2);
    // A square page of the same 198 mm can only be laid one way.
    assert_eq!(pages([210.0, 210.0, 6.0, 10.0]), 3);
}

/// Corners of a closed outline.
type Blank = Vec<[f64; 2]>;

/// Rectangles, crosses, an L and a U, of sizes that need one to six sheets.
fn blanks() -> Vec<Blank> {
    let mut blanks = Vec::new();
    for (length, width) in [
        (130.0, 90.0),
        (180.0, 150.0),
        (230.0, 100.0),
        (260.0, 190.0),
    ] {
        blanks.push(rectangle(3.0, -7.0, length, width));
        for corner in [0.2, 0.34] {
            blanks.push(cross(length, width, corner));
        }
        blanks.push(vec![
            [0.0, 0.0],
            [length, 0.0],
            [length, 30.0],
            [40.0, 30.0],
            [40.0, width],
            [0.0, width],
        ]);
        let (left, right) = (35.0, length - 45.0);
        blanks.push(vec![
            [0.0, 0.0],
            [length, 0.0],
            [length, width],
            [right, width],
            [right, 25.0],
            [left, 25.0],
            [left, width],
            [0.0, width],
        ]);
        // Slanted sides: a grid that only knows upright rectangles would be one sheet off.
        blanks.push(vec![
            [0.0, width / 2.0],
            [length / 2.0, 0.0],
            [length, width / 2.0],
            [length / 2.0, width],
        ]);
    }
    blanks
}

fn rectangle(x: f64, y: f64, length: f64, width: f64) -> Blank {
    vec![
        [x, y],
        [x + length, y],
        [x + length, y + width],
        [x, y + width],
    ]
}

/// A rectangle whose corners are missing, as of most trays.
fn cross(length: f64, width: f64, share: f64) -> Blank {
    let (x, y) = (share * length, share * width);
    let (right, top) = (length - x, width - y);
    vec![
        [x, 0.0],
        [right, 0.0],
        [right, y],
        [length, y],
        [length, top],
        [right, top],
        [right, width],
        [x, width],
        [x, top],
        [0.0, top],
        [0.0, y],
        [x, y],
    ]
}

/// The fewest sheets of any grid that was tried; none if all of them need more than are looked for.
fn by_force(blank: &Blank, [width, height, margin, overlap]: [f64; 4]) -> Option<usize> {
    let places = places(blank);
    let (short, long) = (width - 2.0 * margin, height - 2.0 * margin);
    let mut best = MOST + 1;
    for size in [[short, long], [long, short]] {
        let pitch = size.map(|side| side - overlap);
        let steps = pitch.map(|pitch| (pitch / STEP).ceil() as i32);
        for offset in (0..steps[0])
            .flat_map(|x| (0..steps[1]).map(move |y| [f64::from(x) * STEP, f64::from(y) * STEP]))
        {
            let shown: BTreeSet<Vec<[i32; 2]>> = places
                .iter()
                .map(|place| sheets_at(*place, offset, size, pitch))
                .collect();
            best = best.min(smallest_cover(&shown, best));
        }
    }
    (best <= MOST).then_some(best as usize)
}

/// The sheets that show a place.
fn sheets_at(place: [f64; 2], offset: [f64; 2], size: [f64; 2], pitch: [f64; 2]) -> Vec<[i32; 2]> {
    let range = |axis: usize| {
        (-9..9).filter(move |index| {
            let from = place[axis] - offset[axis] - f64::from(*index) * pitch[axis];
            from >= 0.0 && from <= size[axis]
        })
    };
    range(0)
        .flat_map(|column| range(1).map(move |row| [column, row]))
        .collect()
}

/// The size of the smallest set of sheets that shows everything and hangs together, if it is below a limit.
fn smallest_cover(shown: &BTreeSet<Vec<[i32; 2]>>, limit: u32) -> u32 {
    let sheets: Vec<[i32; 2]> = shown
        .iter()
        .flatten()
        .copied()
        .collect::<BTreeSet<_>>()
        .into_iter()
        .collect();
    let forced = shown.iter().filter(|choice| choice.len() == 1).count() as u32;
    if sheets.len() > 20 || forced >= limit {
        return limit;
    }
    let bit = |sheet: &[i32; 2]| {
        1_u32
            << sheets
                .iter()
                .position(|other| other == sheet)
                .expect("a listed sheet")
    };
    let masks: Vec<u32> = shown
        .iter()
        .map(|choice| choice.iter().map(bit).sum())
        .collect();
    (1..1_u32 << sheets.len())
        .filter(|set| set.count_ones() < limit && masks.iter().all(|mask| mask & set != 0))
        .filter(|set| hangs_together(&sheets, *set))
        .map(u32::count_ones)
        .min()
        .unwrap_or(limit)
}

fn hangs_together(sheets: &[[i32; 2]], set: u32) -> bool {
    let inside: Vec<[i32; 2]> = (0..sheets.len())
        .filter(|index| set >> index & 1 == 1)
        .map(|index| sheets[index])
        .collect();
    let mut reached = vec![inside[0]];
    let mut next = 0;
    while next < reached.len() {
        let [column, row] = reached[next];
        let beside = |other: &&[i32; 2]| (other[0] - column).abs() + (other[1] - row).abs() == 1;
        let fresh: Vec<[i32; 2]> = inside
            .iter()
            .filter(beside)
            .filter(|other| !reached.contains(other))
            .copied()
            .collect();
        reached.extend(fresh);
        next += 1;
    }
    reached.len() == inside.len()
}

/// Places along the outline.
fn places(blank: &Blank) -> Vec<[f64; 2]> {
    let ends = blank.iter().zip(blank.iter().cycle().skip(1));
    let along = ends.flat_map(|(from, to)| {
        let steps = ((to[0] - from[0]).steady_hypot(to[1] - from[1]) / PLACES).ceil();
        (0..=steps as u32).map(move |step| {
            [0, 1].map(|axis| from[axis] + f64::from(step) / steps * (to[axis] - from[axis]))
        })
    });
    along.collect()
}

/// Pages of a file: its page objects are written in plain.
// Source: ISO 32000-1, 7.7.3.3: every page is a dictionary of type Page.
fn document(blank: &Blank, [width, height, margin, overlap]: [f64; 4]) -> Document {
    let outline = example::run(blank, true);
    let page = Page {
        name: "tried".to_owned(),
        width: Length::known(width),
        height: Length::known(height),
        margin: Length::known(margin),
        overlap: Length::known(overlap),
        ..Page::default()
    };
    Document {
        style: "tried".to_owned(),
        box_size: BoxSize {
            length: Length::known(100.0),
            width: Length::known(80.0),
            depth: Length::known(30.0),
        },
        output: Output {
            paper: Paper::Sheets(page),
            ..Output::default()
        },
        ..example::plain(example::flat(outline))
    }
}
