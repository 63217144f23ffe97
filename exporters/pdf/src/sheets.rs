//! The sheets of one way to print: which lines, marks and words stand on each.
//!
//! Given a tray and a way to print it; gives pages, and how far they fall short of what is wanted: every line in its
//! place, both bars and the words beside the lines. It chooses no way itself.

use std::collections::BTreeSet;

use traywright_document::{DrawnFace, Length};
use traywright_look::Layer;
use traywright_paper::{Kept, Mark, Page, Step, StrokePath};

use crate::annotations::{Asked, Placed, SheetAnnotations};
use crate::bleed;
use crate::crosses::crosses;
use crate::free_space::Room;
use crate::input::PdfInput;
use crate::marks::{Cross, FAINT};
use crate::measures::Measures;
use crate::pieces::{Piece, measure_line};
use crate::printed;
use crate::search::Spread;
use crate::spread::Cell;
use crate::window::Window;
use crate::words_sheet::SheetText;

/// A sheet that falls short by this much has no room for something that it should say.
const SCARCE: f64 = 4.0;

/// The sheets of one way to print with the places of their words, and how far they fall short. Nothing is drawn yet.
pub(crate) struct Sheets<'a> {
    common: Common<'a>,
    /// What stands beside the lines, for each sheet, the uppermost row first.
    placed: Vec<Placed>,
    /// 0 where nothing is amiss.
    pub(crate) penalty: f64,
    /// What one of them says in full for all.
    pub(crate) said: BTreeSet<SheetText>,
}

/// What is the same on all sheets of one way to print.
struct Common<'a> {
    tray: &'a PdfInput<'a>,
    /// Its measures, names moved to where these sheets show them.
    measures: Measures,
    spread: &'a Spread,
    /// Sheets in the order of printing.
    cells: Vec<Cell>,
    crosses: Vec<Cross>,
    lost: Vec<usize>,
    asked: Asked,
}

impl<'a> PdfInput<'a> {
    /// How far the bars alone fall short on the sheets of one way to print; none if that is a limit or more.
    pub(crate) fn bars_short(&self, spread: &Spread, limit: f64) -> Option<f64> {
        let common = Common::new(self, spread);
        let mut penalty = common.penalty();
        for cell in &common.cells {
            if penalty >= limit {
                return None;
            }
            penalty += common.with_bars(*cell).penalty;
        }
        (penalty < limit).then_some(penalty)
    }

    /// Lays out one way to print; none if it falls short by a limit or more, or lacks what is asked for.
    pub(crate) fn sheets<'b>(
        &'b self,
        spread: &'b Spread,
        limit: f64,
        asked: Asked,
    ) -> Option<Sheets<'b>> {
        let common = Common {
            asked,
            ..Common::new(self, spread)
        };
        let mut penalty = common.penalty();
        let mut lacks = !common.lost.is_empty();
        let (mut placed, mut said) = (Vec::new(), BTreeSet::new());
        for cell in &common.cells {
            if penalty >= limit {
                return None;
            }
            let furnished = common.furnish(*cell, &said);
            penalty += furnished.penalty;
            lacks |= furnished.lacks;
            if common.is_over(lacks) {
                return None;
            }
            said.extend(furnished.said);
            placed.push(furnished.placed);
        }
        (penalty < limit).then_some(Sheets {
            common,
            placed,
            penalty,
            said,
        })
    }
}

impl Sheets<'_> {
    /// Draws the pages, the uppermost row first.
    pub(crate) fn pages(&self) -> Vec<Page> {
        let sheets = self.common.cells.iter().zip(&self.placed);
        sheets
            .map(|(cell, placed)| self.common.page(*cell, placed))
            .collect()
    }
}

impl<'a> Common<'a> {
    fn new(tray: &'a PdfInput<'a>, spread: &'a Spread) -> Common<'a> {
        let mut cells: Vec<Cell> = spread.sheets.iter().copied().collect();
        cells.sort_by_key(|[column, row]| (-row, *column));
        let windows: Vec<Window> = cells.iter().map(|cell| spread.grid.window(*cell)).collect();
        let measures = tray.measures.settled(&windows, &tray.pieces);
        let lines: Vec<Piece> = tray
            .pieces
            .iter()
            .chain(measures.lines())
            .copied()
            .collect();
        let words: Vec<Window> = measures.words().collect();
        Common {
            tray,
            spread,
            crosses: crosses(spread, &lines, &words),
            lost: measures.lost(&windows),
            measures,
            cells,
            asked: Asked::WhatHasRoom,
        }
    }

    /// How far it falls short before any words have their places: lines along edges, and lost measures.
    fn penalty(&self) -> f64 {
        self.spread.along_edges() + 3.0 * self.lost.len() as f64
    }

    /// A page.
    fn page(&self, cell: Cell, placed: &Placed) -> Page {
        let window = self.spread.grid.window(cell);
        let enlarged = self.tray.enlarged(self.spread.turned);
        let margin = self.tray.document.output.paper.page().margin.mm();
        let mut page = Page {
            origin: [0, 1].map(|axis| margin - window.least[axis] * enlarged[axis]),
            enlarged,
            kept: self.bleed().map(|bleed| self.kept(bleed)),
            ..Page::new(self.tray.paper(self.spread.turned))
        };
        for seam in self.seams(cell) {
            page.line(FAINT, seam.from, seam.to);
        }
        for cross in self.crosses_on(&window) {
            cross.draw(&mut page);
        }
        placed.put(&mut page);
        if self.bleed().is_some() {
            for (layer, _) in &mut page.marks {
                layer.get_or_insert(Layer::Legend);
            }
        }
        if let Some(bleed) = self.bleed().filter(|bleed| *bleed > 0.0) {
            let lines = bleed::lines(self.tray.straight_outline(), bleed);
            page.marks.extend(lines);
        }
        printed::draw(&self.tray.document.flat, &mut page, &window);
        self.measures.print(&mut page, &window);
        self.draw_lines(&mut page, &window);
        self.measures.draw(&mut page, &window, &self.lost);
        page
    }

    /// How far print reaches beyond the blank, on a page for a print shop.
    fn bleed(&self) -> Option<f64> {
        self.tray.document.output.paper.bleed().map(Length::mm)
    }

    /// The blank as what is kept of a page.
    fn kept(&self, bleed: f64) -> Kept {
        let [Window { least, most }, _] = self.tray.extents();
        Kept { least, most, bleed }
    }

    /// Gives everything that stands beside the lines its place. Where room is scarce, what comes first may leave none for
    /// the rest, so both orders of the large blocks are tried.
    fn furnish(&self, cell: Cell, said: &BTreeSet<SheetText>) -> SheetAnnotations<'a> {
        let with_bars = self.with_bars(cell);
        let by_name = self.furnish_in_order(with_bars.clone(), cell, (said, false));
        // On the face that shows, the name alone may stand on the blank, and it comes first.
        let face_shows = self.tray.document.output.drawn_face == DrawnFace::Outside;
        let is_over = self.is_over(by_name.lacks);
        if (by_name.penalty < SCARCE && !is_over) || face_shows {
            return by_name;
        }
        let by_advice = self.furnish_in_order(with_bars, cell, (said, true));
        if is_over || by_advice.penalty < by_name.penalty {
            by_advice
        } else {
            by_name
        }
    }

    /// Whether what lacks is asked for, so that nothing more needs a place.
    fn is_over(&self, lacks: bool) -> bool {
        lacks && self.asked == Asked::All
    }

    /// Both bars have their places.
    fn with_bars(&self, cell: Cell) -> SheetAnnotations<'a> {
        let mut annotations = SheetAnnotations::new(self.tray, self.free_space(cell));
        annotations.asked = self.asked;
        annotations.bars(self.spread.turned);
        annotations
    }

    fn furnish_in_order(
        &self,
        mut annotations: SheetAnnotations<'a>,
        cell: Cell,
        (said, advice_first): (&BTreeSet<SheetText>, bool),
    ) -> SheetAnnotations<'a> {
        let several = self.cells.len() > 1;
        if advice_first {
            annotations.advice();
        }
        annotations.name(self.number(cell), self.cells.len());
        annotations.spare_the_face();
        if several {
            annotations.map(&self.spread.grid, &self.cells, cell);
        }
        if !advice_first {
            annotations.advice();
        }
        if several {
            annotations.joining(self.spread.grid.overlap);
        }
        annotations.legend();
        let is_first = self.cells.first() == Some(&cell);
        if !said.contains(&SheetText::Pads) {
            annotations.pads();
        }
        annotations.grain();
        if is_first {
            annotations.parts();
            annotations.lost(self.lost.len());
        }
        if !said.contains(&SheetText::Cautions) {
            annotations.cautions();
        }
        annotations
    }

    /// The room that lines, measures and crosses leave on a sheet.
    fn free_space(&self, cell: Cell) -> Room {
        let window = self.spread.grid.window(cell);
        let (measure_lines, measure_words) = self.measures.on(&window, &self.lost);
        let crosses = self
            .crosses_on(&window)
            .map(|cross| cross.window().wider(1.0));
        let mut free_space = Room::new(window, self.cells.len());
        free_space.lay_blank(self.tray.straight_outline());
        if let Some(bleed) = self.bleed() {
            free_space.take_blank(self.tray.straight_outline(), bleed);
        }
        free_space.take(crosses.chain(measure_words.iter().map(|words| words.wider(1.5))));
        free_space.take_lines(self.tray.straight.iter(), false);
        free_space.take_lines(measure_lines.iter().chain(&self.seams(cell)), true);
        free_space
    }

    fn crosses_on(&self, window: &Window) -> impl Iterator<Item = &Cross> {
        let window = *window;
        let is_on = move |cross: &&Cross| window.covers(&cross.window());
        self.crosses.iter().filter(is_on)
    }

    /// Row and column as they are counted on the table, from the upper left.
    fn number(&self, [column, row]: Cell) -> [usize; 2] {
        let first_column = self
            .cells
            .iter()
            .map(|cell| cell[0])
            .min()
            .unwrap_or(column);
        let first_row = self.cells.iter().map(|cell| cell[1]).max().unwrap_or(row);
        [
            (first_row - row) as usize + 1,
            (column - first_column) as usize + 1,
        ]
    }

    /// Where the drawing of each neighbour begins on this sheet.
    fn seams(&self, [column, row]: Cell) -> Vec<Piece> {
        let window = self.spread.grid.window([column, row]);
        let mut seams = Vec::new();
        for (axis, step) in [(0, 1), (0, -1), (1, 1), (1, -1)] {
            let mut next = [column, row];
            next[axis] += step;
            if !self.spread.sheets.contains(&next) {
                continue;
            }
            let other = self.spread.grid.window(next);
            let edge = if step > 0 {
                other.least[axis]
            } else {
                other.most[axis]
            };
            let (mut from, mut to) = (window.least, window.most);
            (from[axis], to[axis]) = (edge, edge);
            seams.push(measure_line(from, to));
        }
        seams
    }

    /// The lines of the blank that this sheet shows, each run of them in one stroke.
    fn draw_lines(&self, page: &mut Page, window: &Window) {
        let mut last: Option<&Piece> = None;
        let mut runs: Vec<(Layer, f64, StrokePath)> = Vec::new();
        let shown: Vec<Piece> = self
            .tray
            .pieces
            .iter()
            .filter_map(|piece| Some(piece.part(piece.within(window)?)))
            .collect();
        for piece in &shown {
            let goes_on = last.is_some_and(|last| last.line == piece.line && last.to == piece.from);
            if !goes_on {
                let run = StrokePath {
                    start: piece.from,
                    steps: Vec::new(),
                    closed: false,
                };
                runs.push((piece.layer, piece.along, run));
            }
            if let Some((_, _, run)) = runs.last_mut() {
                match piece.bend {
                    None => run.steps.push(Step::To(piece.to)),
                    Some(_) => run
                        .steps
                        .extend(piece.curves().into_iter().map(Step::Curve)),
                }
                run.closed = piece.to == run.start;
            }
            last = Some(piece);
        }
        for (layer, phase, run) in runs {
            page.marks.push((
                Some(layer),
                Mark::Stroke {
                    look: layer.look(),
                    phase,
                    run,
                },
            ));
        }
    }
}
