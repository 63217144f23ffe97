//! What stands beside the lines on one sheet: bars, words, map and legend, each in the best free place.
//!
//! Given the room that the lines leave; puts blocks onto the page one by one, the most needed first, in smaller forms
//! where there is less room, and counts what falls short. Words never stand on lines. A bar crosses lines only where a
//! sheet has no free stretch as long as the bar.

use traywright_document::{ProcessingStep, Unit};
use traywright_paper::{CREASING, CUTTING, DIMENSIONS, Look, Page, Place, REVERSE_CREASING};

use crate::block::{Block, Line};
use crate::marks;
use crate::room::{Room, Wish};
use crate::sheets::Tray;
use crate::spread::{Cell, Grid};
use crate::window::Window;
use crate::words;

/// White between blocks.
const BETWEEN: f64 = 2.5;
/// Capitals of the tray's name, of other words, and of words where room is short.
// Source: common practice, none published: 2 mm capitals, about 8 points, are read at arm's length.
const NAME: f64 = 3.2;
const WORDS: f64 = 2.2;
const SMALL: f64 = 1.8;

/// The blocks of one sheet.
pub(crate) struct Furniture<'a> {
    tray: &'a Tray<'a>,
    room: Room,
    page: &'a mut Page,
    /// How far the sheet falls short.
    pub(crate) penalty: f64,
}

impl<'a> Furniture<'a> {
    /// A sheet with its lines drawn, or at least their room taken.
    pub(crate) fn new(tray: &'a Tray<'a>, room: Room, page: &'a mut Page) -> Furniture<'a> {
        Furniture {
            tray,
            room,
            page,
            penalty: 0.0,
        }
    }

    /// Both check bars.
    pub(crate) fn bars(&mut self, turned: bool) {
        let unit = self.unit();
        for climbs in [false, true] {
            let name = words::bar(climbs == turned, unit);
            let form = |with_name: bool| {
                let block = marks::bar(
                    Some(name.as_str()).filter(|_| with_name),
                    unit,
                    self.tray.font,
                );
                if climbs { block.climbing() } else { block }
            };
            let wish = if climbs {
                wish([1.0, 0.0], [1.0, 0.3])
            } else {
                wish([0.0, 0.0], [0.3, 1.0])
            };
            let forms = vec![form(true), form(false)];
            if !self.place(forms, wish) {
                self.penalty += 100.0;
                self.place_across_lines(form(false), wish);
            }
        }
    }

    /// Which sheet of which tray this is.
    pub(crate) fn name(&mut self, [row, column]: [usize; 2], count: usize) {
        let document = self.tray.document;
        let place = words::sheet(row, column);
        let place = if count > 1 {
            place
        } else {
            format!("{place}, the only sheet")
        };
        let title = words::shortened(&document.title, 60);
        let long = [
            line(&title, NAME),
            line(&place, if count > 1 { NAME } else { WORDS }),
            line(&words::about(document), WORDS),
            line(words::face(document.drawn_face), WORDS),
        ];
        let mut forms: Vec<Block> = [110.0, 75.0, 52.0]
            .map(|widest| self.lines(&long, widest))
            .into();
        forms.push(self.lines(&[line(&place, NAME), line(&title, SMALL)], 48.0));
        forms.push(self.lines(&[line(&place, SMALL)], 60.0));
        let last = forms.len() - 1;
        let smallest = forms[last].clone();
        if !self.place(forms, wish([0.0, 1.0], [0.5, 1.0])) {
            self.penalty += 50.0;
            self.place_across_lines(smallest, wish([0.0, 1.0], [1.0, 1.0]));
        }
    }

    /// The small map.
    pub(crate) fn map(&mut self, grid: &Grid, cells: &[Cell], this: Cell) {
        let forms = [[38.0, 28.0], [26.0, 20.0], [17.0, 13.0]];
        let forms = forms.map(|room| marks::map(grid, cells, this, self.tray.outline(), room));
        if !self.place(forms.into(), wish([1.0, 1.0], [0.5, 1.0])) {
            self.penalty += 10.0;
        }
    }

    /// How the bars are read.
    pub(crate) fn advice(&mut self) {
        let (page, unit) = (&self.tray.document.page, self.unit());
        let correction = words::correction(page, unit);
        let whole = |capital: f64| -> Vec<Line> {
            let sentences = correction.iter().cloned().chain(words::advice(page, unit));
            sentences.map(|text| line(&text, capital)).collect()
        };
        let short: Vec<Line> = correction
            .iter()
            .cloned()
            .chain([words::short_advice(unit)])
            .map(|text| line(&text, SMALL))
            .collect();
        let mut forms: Vec<Block> = [120.0, 90.0, 70.0, 55.0]
            .map(|widest| self.lines(&whole(WORDS), widest))
            .into();
        forms.extend([90.0, 66.0, 50.0, 40.0].map(|widest| self.lines(&whole(SMALL), widest)));
        if self.place(forms, wish([0.0, 0.0], [0.5, 1.0])) {
            return;
        }
        self.penalty += 20.0;
        let forms = [90.0, 60.0, 40.0].map(|widest| self.lines(&short, widest));
        if !self.place(forms.into(), wish([0.0, 0.0], [0.5, 1.0])) {
            self.penalty += 50.0;
        }
    }

    /// How sheets are joined.
    pub(crate) fn joining(&mut self, overlap: f64) {
        let text = words::joining(overlap, self.unit());
        let forms = [
            (110.0, WORDS),
            (75.0, WORDS),
            (50.0, WORDS),
            (75.0, SMALL),
            (45.0, SMALL),
        ];
        let forms = forms.map(|(widest, capital)| self.lines(&[line(&text, capital)], widest));
        if !self.place(forms.into(), wish([1.0, 0.0], [0.5, 1.0])) {
            self.penalty += 5.0;
        }
    }

    /// What the kinds of line ask of the hands.
    pub(crate) fn legend(&mut self) {
        let flat = &self.tray.document.flat;
        let mut entries: Vec<(Look, &str)> = vec![(CUTTING, "Cut")];
        let kinds = [
            (
                ProcessingStep::Creasing,
                CREASING,
                "Crease; fold with this face inwards",
            ),
            (
                ProcessingStep::ReverseCreasing,
                REVERSE_CREASING,
                "Crease; fold with this face outwards",
            ),
        ];
        for (step, look, text) in kinds {
            if flat.creases.iter().any(|crease| crease.step() == step) {
                entries.push((look, text));
            }
        }
        if !flat.dimensions.is_empty() {
            entries.push((DIMENSIONS, words::measures(self.unit())));
        }
        let lines = |capital: f64| -> Vec<Line> {
            let entry = |(look, text): &(Look, &str)| Line {
                sample: Some(*look),
                ..line(text, capital)
            };
            entries.iter().map(entry).collect()
        };
        let forms = [(110.0, WORDS), (60.0, WORDS), (60.0, SMALL), (42.0, SMALL)];
        let forms = forms.map(|(widest, capital)| self.lines(&lines(capital), widest));
        if !self.place(forms.into(), wish([1.0, 0.0], [0.5, 1.0])) {
            self.penalty += 5.0;
        }
    }

    /// The way of the grain, on the blank where there is room.
    pub(crate) fn grain(&mut self) {
        let Some(grain) = self.tray.document.board.grain else {
            return;
        };
        let block = marks::grain(grain, self.tray.font);
        let on_blank = Wish {
            on_blank: true,
            ..wish([0.5, 0.5], [1.0, 1.0])
        };
        if !self.place(vec![block], on_blank) {
            self.penalty += 3.0;
        }
    }

    /// That measures are missing.
    pub(crate) fn lost(&mut self, count: usize) {
        let Some(text) = words::lost(count) else {
            return;
        };
        let forms = [(110.0, WORDS), (60.0, WORDS), (45.0, SMALL)];
        let forms = forms.map(|(widest, capital)| self.lines(&[line(&text, capital)], widest));
        self.place(forms.into(), wish([1.0, 0.0], [0.5, 1.0]));
    }

    /// Puts the best of these forms where there is room for it; an earlier form is better by a little.
    fn place(&mut self, forms: Vec<Block>, wish: Wish) -> bool {
        let mut best: Option<(f64, usize, Place)> = None;
        for (index, form) in forms.iter().enumerate() {
            let size = form.size.map(|side| side + 2.0 * BETWEEN);
            if let Some((at, cost)) = self.room.find(size, wish) {
                let cost = cost + 12.0 * index as f64;
                if best.is_none_or(|(least, ..)| cost < least) {
                    best = Some((cost, index, at));
                }
            }
        }
        let Some((cost, index, at)) = best else {
            return false;
        };
        self.penalty += cost / 1000.0;
        self.put(forms[index].clone(), at);
        true
    }

    /// Puts a block where it meets the fewest lines.
    fn place_across_lines(&mut self, form: Block, wish: Wish) {
        let size = form.size.map(|side| side + 2.0 * BETWEEN);
        if let Some(at) = self.room.find_across_lines(size, wish) {
            self.put(form, at);
        }
    }

    fn put(&mut self, form: Block, at: Place) {
        let taken = Window::new(at, form.size.map(|side| side + 2.0 * BETWEEN));
        self.room.take([taken.wider(-0.5 * BETWEEN)]);
        form.put(self.page, at.map(|side| side + BETWEEN), self.tray.font);
    }

    fn lines(&self, lines: &[Line], widest: f64) -> Block {
        Block::of_lines(self.tray.font, lines, widest)
    }

    fn unit(&self) -> Unit {
        self.tray.document.unit
    }
}

fn wish(near: [f64; 2], pull: [f64; 2]) -> Wish {
    Wish {
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
