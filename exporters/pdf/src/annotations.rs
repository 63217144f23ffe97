//! What stands beside the lines on one sheet: bars, words, map and legend, each in the best free place.
//!
//! Given the room that the lines leave; gives blocks their places one by one, the most needed first, in smaller forms
//! where there is less room, and counts what falls short. Words never stand on lines. A bar crosses lines only where a
//! sheet has no free stretch as long as the bar.

use std::collections::BTreeSet;
use std::rc::Rc;

use traywright_document::DrawnFace;
use traywright_paper::{Block, Page, PointMm};

use crate::forms::{Form, SMALL, SMALLER, WORDS, line, shapes};
use crate::free_space::Room;
use crate::input::PdfInput;
use crate::marks;
use crate::placement::PlacementRequest;
use crate::spread::{Cell, Grid};
use crate::window::Window;
use crate::words;
use crate::words_sheet::SheetText;

/// White between blocks.
const BETWEEN: f64 = 2.5;
/// What a bar without a place costs: more than all else together can.
pub(crate) const NO_BAR: f64 = 1e6;
/// Capitals of the tray's name.
const NAME: f64 = 3.2;
/// How much worse a sheet is that does not name its tray: worse than any place on the blank.
const NAMELESS: f64 = 5000.0;

/// Blocks with their places.
#[derive(Clone, Default)]
pub(crate) struct Placed(Vec<(Rc<Block>, PointMm)>);

impl Placed {
    /// Puts them onto a page.
    pub(crate) fn put(&self, page: &mut Page) {
        for (block, at) in &self.0 {
            Block::clone(block).put(page, *at);
        }
    }
}

/// Whether sheets are of use that have no room for something.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Asked {
    /// Everything must have room.
    All,
    /// What has no room may be left out.
    WhatHasRoom,
}

/// The blocks of one sheet.
#[derive(Clone)]
pub(crate) struct SheetAnnotations<'a> {
    tray: &'a PdfInput<'a>,
    free_space: Room,
    /// Where all is asked for, nothing more gets a place once something lacks.
    pub(crate) asked: Asked,
    /// What has its place.
    pub(crate) placed: Placed,
    /// How far the sheet falls short.
    pub(crate) penalty: f64,
    /// Whether something that it should say has no room, or only across lines.
    pub(crate) lacks: bool,
    /// What it says in full of that which one sheet may say for all.
    pub(crate) said: BTreeSet<SheetText>,
}

impl<'a> SheetAnnotations<'a> {
    /// A sheet on which the room of its lines is taken.
    pub(crate) fn new(tray: &'a PdfInput<'a>, free_space: Room) -> SheetAnnotations<'a> {
        SheetAnnotations {
            tray,
            free_space,
            asked: Asked::WhatHasRoom,
            placed: Placed::default(),
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
        for climbs in [false, true] {
            let wish = if climbs {
                wish([1.0, 0.0], [1.0, 0.3])
            } else {
                wish([0.0, 0.0], [0.3, 1.0])
            };
            let named = self.tray.bar(climbs == turned, climbs);
            if !self.place(named, wish) {
                // A bar without its name is better than no sheet.
                let penalty = if self.place_across_lines(&named[0], wish) {
                    100.0
                } else if self.place_nameless_bar(climbs, wish) {
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
        let short = Rc::from([line(&title, WORDS), line(&place, capital)]);
        let least = Rc::from([line(&place, SMALL)]);
        let usual = shapes(
            |_| Rc::from(long.clone()),
            &[132.0, 85.0, 62.0, 48.0],
            WORDS,
        );
        // A page for a print shop grows until it has room, so it never leaves out which face it shows.
        let is_sheet = document.output.paper.bleed().is_none();
        let shorter = [
            Form::of_lines(SMALLER, short, 60.0),
            Form::of_lines(NAMELESS, least, 60.0),
        ];
        let shorter = shorter.into_iter().filter(|_| is_sheet);
        let forms: Vec<Form> = usual.chain(shorter).collect();
        if !self.place(&forms, wish([0.0, 1.0], [0.5, 1.0])) {
            self.lack(50.0);
            self.place_across_lines(&forms[forms.len() - 1], wish([0.0, 1.0], [1.0, 1.0]));
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
        let forms = sizes.map(|(worse, size)| Form::of_block(worse, map(size)));
        if !self.place(&forms, wish([1.0, 1.0], [0.5, 1.0])) {
            self.lack(10.0);
        }
    }

    /// How the bars are read: in one block, or in two where there is no room for one, or in short.
    pub(crate) fn advice(&mut self) {
        let wish = wish([0.0, 0.0], [0.5, 1.0]);
        if self.place(self.tray.advice(), wish) {
            self.said.insert(SheetText::Scale);
            return;
        }
        self.lack(5.0);
        let halves = self.tray.halves_of_advice();
        let halves = halves.map(|half| self.place(half, wish));
        if halves == [true, true] {
            self.said.insert(SheetText::Scale);
        }
        if halves[0] {
            self.penalty += if halves[1] { 0.0 } else { 20.0 };
            return;
        }
        self.penalty += 50.0;
        self.place(self.tray.short_advice(), wish);
    }

    /// How sheets are joined.
    pub(crate) fn joining(&mut self, overlap: f64) {
        self.say_once(SheetText::Joining, self.tray.joining(overlap));
    }

    /// The usual cautions.
    pub(crate) fn cautions(&mut self) {
        self.say_once(SheetText::Cautions, self.tray.forms_of_cautions());
    }

    /// What the kinds of line ask of the hands.
    pub(crate) fn legend(&mut self) {
        if !self.place(self.tray.legend(), wish([1.0, 0.0], [0.5, 1.0])) {
            self.lack(5.0);
        }
    }

    /// The pads to cut beside the blank.
    pub(crate) fn pads(&mut self) {
        if let Some(pads) = self.tray.pads() {
            self.say_once(SheetText::Pads, pads);
        }
    }

    /// What the letters on the blank mean, where there is room: the booklet says it too.
    pub(crate) fn parts(&mut self) {
        if let Some(parts) = self.tray.parts() {
            self.place(parts, wish([1.0, 0.0], [0.5, 1.0]));
        }
    }

    /// The way of the grain, on the blank where there is room.
    pub(crate) fn grain(&mut self) {
        let Some(arrows) = self.tray.grain() else {
            return;
        };
        // A piece that is printed stays clean.
        let on_blank = PlacementRequest {
            on_blank: self.tray.document.output.paper.bleed().is_none(),
            ..wish([0.5, 0.5], [1.0, 1.0])
        };
        if !self.place(arrows, on_blank) {
            self.lack(3.0);
        }
    }

    /// That measures are missing.
    pub(crate) fn lost(&mut self, count: usize) {
        if let Some(lost) = self.tray.lost(count) {
            self.place(&lost, wish([1.0, 0.0], [0.5, 1.0]));
        }
    }

    /// Says what one sheet may say for all.
    fn say_once(&mut self, text: SheetText, forms: &[Form]) {
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

    /// Puts the best of these forms where there is room for it. A form that is worse than the best one stands is not made.
    fn place(&mut self, forms: &[Form], wish: PlacementRequest) -> bool {
        if self.lacks && self.asked == Asked::All {
            return false;
        }
        let mut best: Option<(f64, PointMm, &Rc<Block>)> = None;
        for form in forms {
            let left = best.map_or(f64::INFINITY, |(least, ..)| least) - form.worse;
            if left <= 0.0 {
                continue;
            }
            let block = form.block(self.tray.font);
            if let Some((at, cost)) = self.free_space.find(with_white(block), wish, left) {
                best = Some((cost + form.worse, at, block));
            }
        }
        let Some((cost, at, block)) = best else {
            return false;
        };
        self.penalty += cost / 1000.0;
        self.lacks |= cost >= NAMELESS;
        self.put(Rc::clone(block), at);
        true
    }

    fn place_nameless_bar(&mut self, climbs: bool, wish: PlacementRequest) -> bool {
        let bar = self.tray.bar_block(None, climbs);
        self.place_across_lines(&Form::of_block(0.0, bar), wish)
    }

    /// Puts a block where it meets the fewest lines, if the sheet is large enough at all.
    fn place_across_lines(&mut self, form: &Form, wish: PlacementRequest) -> bool {
        let block = form.block(self.tray.font);
        let found = self.free_space.find_across_lines(with_white(block), wish);
        if let Some(at) = found {
            self.put(Rc::clone(block), at);
        }
        found.is_some()
    }

    fn put(&mut self, block: Rc<Block>, at: PointMm) {
        let taken = Window::new(at, with_white(&block));
        self.free_space.take([taken.wider(-0.5 * BETWEEN)]);
        self.placed.0.push((block, at.map(|side| side + BETWEEN)));
    }
}

/// The room of a block and the white around it.
fn with_white(block: &Block) -> [f64; 2] {
    block.size.map(|side| side + 2.0 * BETWEEN)
}

fn wish(near: [f64; 2], pull: [f64; 2]) -> PlacementRequest {
    PlacementRequest {
        near,
        pull,
        on_blank: false,
    }
}
