//! What stands beside the lines on one sheet: bars, words, map and legend, each in the best free place.
//!
//! Given the room that the lines leave; puts blocks onto the page one by one, the most needed first, in smaller forms
//! where there is less room, and counts what falls short. Words never stand on lines. A bar crosses lines only where a
//! sheet has no free stretch as long as the bar.

use std::collections::BTreeSet;

use traywright_document::{DrawnFace, ProcessingStep, Unit};
use traywright_look::{CREASING, CUTTING, DIMENSIONS, LineStyle, REVERSE_CREASING};
use traywright_paper::{Block, Line, Page, PointMm};

use crate::free_space::{PlacementRequest, Room};
use crate::input::PdfInput;
use crate::marks;
use crate::spread::{Cell, Grid};
use crate::window::Window;
use crate::words;
use crate::words_sheet::{ScaleAdvice, SheetText};

/// White between blocks.
const BETWEEN: f64 = 2.5;
/// What a bar without a place costs: more than all else together can.
pub(crate) const NO_BAR: f64 = 1e6;
/// Capitals of the tray's name, of other words, and of words where room is short.
// Source: common practice, none published: 2 mm capitals, about 8 points, are read at arm's length.
const NAME: f64 = 3.2;
const WORDS: f64 = 2.2;
const SMALL: f64 = 1.8;

/// How much worse smaller words are, and words in another shape, in millimetres away from where they are wanted.
const SMALLER: f64 = 300.0;
const ANOTHER_SHAPE: f64 = 15.0;
/// How much worse a sheet is that does not name its tray: worse than any place on the blank.
const NAMELESS: f64 = 5000.0;

/// The blocks of one sheet.
pub(crate) struct SheetAnnotations<'a> {
    tray: &'a PdfInput<'a>,
    free_space: Room,
    page: &'a mut Page,
    /// How far the sheet falls short.
    pub(crate) penalty: f64,
    /// Whether something that it should say has no room, or only across lines.
    pub(crate) lacks: bool,
    /// What it says in full of that which one sheet may say for all.
    pub(crate) said: BTreeSet<SheetText>,
}

impl<'a> SheetAnnotations<'a> {
    /// A sheet with its lines drawn, or at least their room taken.
    pub(crate) fn new(
        tray: &'a PdfInput<'a>,
        free_space: Room,
        page: &'a mut Page,
    ) -> SheetAnnotations<'a> {
        SheetAnnotations {
            tray,
            free_space,
            page,
            penalty: 0.0,
            lacks: false,
            said: BTreeSet::new(),
        }
    }

    /// Keeps the face that shows in the finished tray free of the words that come next.
    pub(crate) fn spare_the_face(&mut self) {
        if self.tray.document.output.drawn_face == DrawnFace::Outside {
            self.free_space.close_blank();
        }
    }

    /// Both check bars.
    pub(crate) fn bars(&mut self, turned: bool) {
        let unit = self.unit();
        for climbs in [false, true] {
            let name = self.tray.words.bar(climbs == turned, unit);
            let bar = |name: Option<&str>| {
                let bar = marks::bar(name, unit, self.tray.font);
                if climbs { bar.climbing() } else { bar }
            };
            let named = bar(Some(&name));
            let wish = if climbs {
                wish([1.0, 0.0], [1.0, 0.3])
            } else {
                wish([0.0, 0.0], [0.3, 1.0])
            };
            if !self.place(vec![(0.0, named.clone())], wish) {
                // A bar without its name is better than no sheet.
                let penalty = if self.place_across_lines(named, wish) {
                    100.0
                } else if self.place_across_lines(bar(None), wish) {
                    300.0
                } else {
                    NO_BAR
                };
                self.lack(penalty);
            }
        }
    }

    /// Which sheet of which tray this is.
    pub(crate) fn name(&mut self, [row, column]: [usize; 2], count: usize) {
        let document = self.tray.document;
        let place = self.tray.words.sheet([row, column], count);
        let capital = if count == 1 { WORDS } else { NAME };
        let title = words::shortened(&document.title, 60);
        let long = [
            line(&title, NAME),
            line(&place, capital),
            line(&self.tray.words.about(document), WORDS),
            line(
                self.tray.words.drawing.face(document.output.drawn_face),
                WORDS,
            ),
        ];
        let short = [line(&title, WORDS), line(&place, capital)];
        let mut forms = self.shapes(|_| long.to_vec(), &[132.0, 85.0, 62.0, 48.0], WORDS);
        forms.push((SMALLER, self.lines(&short, 60.0)));
        let least = self.lines(&[line(&place, SMALL)], 60.0);
        forms.push((NAMELESS, least.clone()));
        if !self.place(forms, wish([0.0, 1.0], [0.5, 1.0])) {
            self.lack(50.0);
            self.place_across_lines(least, wish([0.0, 1.0], [1.0, 1.0]));
        }
    }

    /// The small map.
    pub(crate) fn map(&mut self, grid: &Grid, cells: &[Cell], this: Cell) {
        let sizes = [
            (0.0, [38.0, 28.0]),
            (100.0, [26.0, 20.0]),
            (SMALLER, [17.0, 13.0]),
        ];
        let map = |size| marks::map(grid, cells, this, self.tray.outline(), size);
        let forms = sizes.map(|(worse, size)| (worse, map(size)));
        if !self.place(forms.into(), wish([1.0, 1.0], [0.5, 1.0])) {
            self.lack(10.0);
        }
    }

    /// How the bars are read: in one block, or in two where there is no room for one, or in short.
    pub(crate) fn advice(&mut self) {
        let (page, unit, words) = (
            self.tray.document.output.paper.page(),
            self.unit(),
            &self.tray.words,
        );
        let ScaleAdvice {
            before,
            causes,
            after,
        } = self.tray.scale_advice();
        let whole = [&before[..], &causes, &after].concat();
        let mut forms = self.sentences(&whole, &[120.0, 90.0, 70.0, 55.0], WORDS);
        forms.extend(self.sentences(&whole, &[90.0, 130.0, 66.0, 50.0, 40.0], SMALL));
        let wish = wish([0.0, 0.0], [0.5, 1.0]);
        if self.place(forms, wish) {
            self.said.insert(SheetText::Scale);
            return;
        }
        self.lack(5.0);
        let halves = [[&before[..], &after].concat(), causes.to_vec()];
        let widths = [90.0, 130.0, 66.0, 50.0, 40.0, 33.0];
        let halves = halves.map(|half| self.place(self.sentences(&half, &widths, SMALL), wish));
        if halves == [true, true] {
            self.said.insert(SheetText::Scale);
        }
        if halves[0] {
            self.penalty += if halves[1] { 0.0 } else { 20.0 };
            return;
        }
        self.penalty += 50.0;
        let correction = words.correction(page, unit).into_iter();
        let short: Vec<String> = correction.chain([words.short_advice(unit)]).collect();
        self.place(
            self.sentences(&short, &[90.0, 60.0, 40.0, 28.0], SMALL),
            wish,
        );
    }

    /// How sheets are joined.
    pub(crate) fn joining(&mut self, overlap: f64) {
        let text = self.tray.words.joining(overlap, self.unit());
        let text = [text];
        let mut forms = self.sentences(&text, &[110.0, 75.0, 50.0], WORDS);
        forms.extend(self.sentences(&text, &[75.0, 45.0, 33.0], SMALL));
        self.say_once(SheetText::Joining, forms);
    }

    /// The usual cautions.
    pub(crate) fn cautions(&mut self) {
        let cautions = self.tray.cautions();
        let mut forms = self.sentences(&cautions, &[120.0, 75.0, 50.0], WORDS);
        forms.extend(self.sentences(&cautions, &[75.0, 45.0, 33.0], SMALL));
        self.say_once(SheetText::Cautions, forms);
    }

    /// What the kinds of line ask of the hands.
    pub(crate) fn legend(&mut self) {
        let flat = &self.tray.document.flat;
        let has = |wanted: ProcessingStep| match wanted {
            ProcessingStep::Cutting => true,
            ProcessingStep::Dimensions => !flat.dimensions.is_empty(),
            step => flat.creases.iter().any(|crease| crease.step() == step),
        };
        let kinds = [
            (ProcessingStep::Cutting, CUTTING),
            (ProcessingStep::Creasing, CREASING),
            (ProcessingStep::ReverseCreasing, REVERSE_CREASING),
            (ProcessingStep::Dimensions, DIMENSIONS),
        ];
        let entries: Vec<(LineStyle, &str)> = kinds
            .into_iter()
            .filter(|(step, _)| has(*step))
            .map(|(step, look)| (look, self.tray.words.drawing.line(step, self.tray.document)))
            .collect();
        let lines = |capital: f64| -> Vec<Line> {
            let entry = |(look, text): &(LineStyle, &str)| Line {
                sample: Some(*look),
                ..line(text, capital)
            };
            entries.iter().map(entry).collect()
        };
        let mut forms = self.shapes(lines, &[110.0, 60.0], WORDS);
        forms.extend(self.shapes(lines, &[60.0, 42.0, 31.0], SMALL));
        if !self.place(forms, wish([1.0, 0.0], [0.5, 1.0])) {
            self.lack(5.0);
        }
    }

    /// The pads to cut beside the blank.
    pub(crate) fn pads(&mut self) {
        let pads = self.tray.words.pads(self.tray.document);
        if pads.is_empty() {
            return;
        }
        let mut forms = self.sentences(&pads, &[110.0, 70.0, 50.0], WORDS);
        forms.extend(self.sentences(&pads, &[60.0, 42.0, 31.0], SMALL));
        self.say_once(SheetText::Pads, forms);
    }

    /// What the letters on the blank mean, where there is room: the booklet says it too.
    pub(crate) fn parts(&mut self) {
        let parts = self.tray.words.drawing.parts(self.tray.document);
        if parts.is_empty() {
            return;
        }
        let mut forms = self.sentences(&parts, &[110.0, 70.0, 50.0], WORDS);
        forms.extend(self.sentences(&parts, &[60.0, 42.0, 31.0], SMALL));
        self.place(forms, wish([1.0, 0.0], [0.5, 1.0]));
    }

    /// The way of the grain, on the blank where there is room.
    pub(crate) fn grain(&mut self) {
        let Some(grain) = self.tray.document.board.grain else {
            return;
        };
        let words = self.tray.words.grain(self.tray.document.board.kind);
        let arrow = |length| marks::grain(grain, length, (words, self.tray.font));
        let forms = vec![
            (0.0, arrow(36.0)),
            (100.0, arrow(28.0)),
            (400.0, arrow(22.0)),
        ];
        // A piece that is printed stays clean.
        let on_blank = PlacementRequest {
            on_blank: self.tray.document.output.paper.bleed().is_none(),
            ..wish([0.5, 0.5], [1.0, 1.0])
        };
        if !self.place(forms, on_blank) {
            self.lack(3.0);
        }
    }

    /// That measures are missing.
    pub(crate) fn lost(&mut self, count: usize) {
        let Some(text) = self.tray.words.lost(count) else {
            return;
        };
        let text = [text];
        let mut forms = self.sentences(&text, &[110.0, 60.0], WORDS);
        forms.extend(self.sentences(&text, &[45.0], SMALL));
        self.place(forms, wish([1.0, 0.0], [0.5, 1.0]));
    }

    /// Says what one sheet may say for all.
    fn say_once(&mut self, text: SheetText, forms: Vec<(f64, Block)>) {
        if self.place(forms, wish([1.0, 0.0], [0.5, 1.0])) {
            self.said.insert(text);
        } else {
            self.lack(5.0);
        }
    }

    /// Counts what has no room.
    fn lack(&mut self, penalty: f64) {
        self.penalty += penalty;
        self.lacks = true;
    }

    /// Puts the best of these forms where there is room for it. Each stands with how much worse it is than the first.
    fn place(&mut self, forms: Vec<(f64, Block)>, wish: PlacementRequest) -> bool {
        let mut best: Option<(f64, PointMm, Block)> = None;
        for (worse, form) in forms {
            let size = form.size.map(|side| side + 2.0 * BETWEEN);
            if let Some((at, cost)) = self.free_space.find(size, wish)
                && best
                    .as_ref()
                    .is_none_or(|(least, ..)| cost + worse < *least)
            {
                best = Some((cost + worse, at, form));
            }
        }
        let Some((cost, at, form)) = best else {
            return false;
        };
        self.penalty += cost / 1000.0;
        self.lacks |= cost >= NAMELESS;
        self.put(form, at);
        true
    }

    /// Puts a block where it meets the fewest lines, if the sheet is large enough at all.
    fn place_across_lines(&mut self, form: Block, wish: PlacementRequest) -> bool {
        let size = form.size.map(|side| side + 2.0 * BETWEEN);
        let found = self.free_space.find_across_lines(size, wish);
        if let Some(at) = found {
            self.put(form, at);
        }
        found.is_some()
    }

    fn put(&mut self, form: Block, at: PointMm) {
        let taken = Window::new(at, form.size.map(|side| side + 2.0 * BETWEEN));
        self.free_space.take([taken.wider(-0.5 * BETWEEN)]);
        form.put(self.page, at.map(|side| side + BETWEEN));
    }

    /// Sentences in several widths, each beginning a line.
    fn sentences(&self, sentences: &[String], widths: &[f64], capital: f64) -> Vec<(f64, Block)> {
        let lines = |capital| sentences.iter().map(|text| line(text, capital)).collect();
        self.shapes(lines, widths, capital)
    }

    /// Lines of words in several widths, each a little worse than the one before.
    fn shapes(
        &self,
        lines: impl Fn(f64) -> Vec<Line>,
        widths: &[f64],
        capital: f64,
    ) -> Vec<(f64, Block)> {
        let smaller = if capital < WORDS { SMALLER } else { 0.0 };
        let shape = |(index, widest): (usize, &f64)| {
            let worse = smaller + ANOTHER_SHAPE * index as f64;
            (worse, self.lines(&lines(capital), *widest))
        };
        widths.iter().enumerate().map(shape).collect()
    }

    fn lines(&self, lines: &[Line], widest: f64) -> Block {
        Block::of_lines(self.tray.font, lines, widest)
    }

    fn unit(&self) -> Unit {
        self.tray.document.unit
    }
}

fn wish(near: [f64; 2], pull: [f64; 2]) -> PlacementRequest {
    PlacementRequest {
        near,
        pull,
        on_blank: false,
    }
}

fn line(text: &str, capital: f64) -> Line {
    Line {
        text: text.to_owned(),
        capital,
        sample: None,
    }
}
