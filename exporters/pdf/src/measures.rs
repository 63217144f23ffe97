//! The measures beside the blank, the names in its openings and the labels on its panels: which of them fit on the sheets, and how they are drawn.
//!
//! Given dimensions and labels that have their places already; gives for each whether sheets can show all of it, and the marks on
//! one sheet. Words are never cut off: a measure whose words fit on no sheet is left out whole. It moves nothing.

use traywright_document::{Dimension, Flat, Label, Point, ProcessingStep};
use traywright_look::{DIMENSIONS, INK, Layer};
use traywright_paper::{Font, LaidWords, Mark, Page, PointMm, StrokePath, Words};

use crate::pieces::{Piece, measure_line};
use crate::window::Window;
use crate::words::SheetWords;

/// How far a name may move either way, in steps of so many mm, and how small it may become.
const STEPS: i32 = 20;
const STEP: f64 = 3.0;
const SMALLER: [f64; 3] = [1.0, 0.8, 0.6];
/// White between a name and the lines of the blank.
const CLEAR: f64 = 0.8;

/// All measures with the room that they take.
#[derive(Clone)]
pub(crate) struct Measures {
    list: Vec<Measure>,
}

/// One measure, or a name, which is a measure without lines.
#[derive(Clone)]
struct Measure {
    text: String,
    capital: f64,
    words: Window,
    lines: Vec<Piece>,
    heads: Vec<[PointMm; 3]>,
    /// Whether a reader misses it where no sheet shows it: a letter stands on the map of the booklet too.
    is_needed: bool,
    /// The words as they lie on their panel, if they are printed on one. They neither move nor lack: every sheet shows its part.
    laid: Option<LaidWords>,
}

impl Measures {
    /// Reads them, with the width of their words in a font.
    pub(crate) fn new(flat: &Flat, words: &SheetWords, font: &Font) -> Measures {
        let dimensions = flat.dimensions.iter();
        let dimensions = dimensions.map(|dimension| Measure::new(dimension, words, font));
        let names = flat.labels.iter().map(|label| Measure::name(label, font));
        let letters = flat
            .letters
            .iter()
            .map(|label| Measure::letter(label, font));
        Measures {
            list: dimensions
                .chain(names)
                .chain(letters)
                .chain(printed(flat))
                .collect(),
        }
    }

    /// The same with the names that these sheets would cut moved to where a sheet shows them whole, smaller if need be: off
    /// all lines of the blank, and within what lies between the same ones.
    pub(crate) fn settled(&self, sheets: &[Window], pieces: &[Piece]) -> Measures {
        let mut settled = self.clone();
        for at in 0..settled.list.len() {
            let name = &settled.list[at];
            if name.is_name() && !sheets.iter().any(|sheet| sheet.covers(&name.words)) {
                let others = settled.list.iter().enumerate();
                let others = others.filter(|(other, _)| *other != at);
                let taken: Vec<Window> = others.map(|(_, other)| other.words).collect();
                if let Some(moved) = name.moved(sheets, pieces, &taken) {
                    settled.list[at] = moved;
                }
            }
        }
        settled
    }

    /// Those that these sheets do not show whole.
    pub(crate) fn lost(&self, sheets: &[Window]) -> Vec<usize> {
        let shown = |measure: &Measure| {
            sheets.iter().any(|sheet| sheet.covers(&measure.words))
                && measure.lines.iter().all(|line| is_shown(line, sheets))
        };
        (0..self.list.len())
            .filter(|index| self.list[*index].is_needed && !shown(&self.list[*index]))
            .collect()
    }

    /// The rectangle around all of them.
    pub(crate) fn extent(&self) -> Window {
        let lines = self
            .list
            .iter()
            .flat_map(|measure| &measure.lines)
            .flat_map(|line| [line.from, line.to]);
        let words = self
            .list
            .iter()
            .flat_map(|measure| [measure.words.least, measure.words.most]);
        Window::around(lines.chain(words))
    }

    /// The lines of all of them.
    pub(crate) fn lines(&self) -> impl Iterator<Item = &Piece> {
        self.list.iter().flat_map(|measure| &measure.lines)
    }

    /// The room of the words of all of them.
    pub(crate) fn words(&self) -> impl Iterator<Item = Window> {
        self.list.iter().map(|measure| measure.words)
    }

    /// What of them lies on one sheet: lines, and the room of words.
    pub(crate) fn on(&self, sheet: &Window, lost: &[usize]) -> (Vec<Piece>, Vec<Window>) {
        let mut lines = Vec::new();
        let mut words = Vec::new();
        for (_, measure) in self
            .list
            .iter()
            .enumerate()
            .filter(|(index, _)| !lost.contains(index))
        {
            lines.extend(
                measure
                    .lines
                    .iter()
                    .filter_map(|line| Some(line.part(line.within(sheet)?))),
            );
            let is_on = |words: &Window| match measure.laid {
                Some(_) => words.common(sheet).is_some(),
                None => sheet.covers(words),
            };
            words.extend(Some(measure.words).filter(is_on));
        }
        (lines, words)
    }

    /// Draws the part of the printed words that lies on one sheet.
    pub(crate) fn print(&self, page: &mut Page, sheet: &Window) {
        for measure in &self.list {
            let near = measure.words.common(sheet);
            if let (Some(laid), Some(_)) = (&measure.laid, near) {
                let is_whole = sheet.covers(&measure.words);
                let shown = (!is_whole).then_some([sheet.least, sheet.most]);
                let words = LaidWords {
                    shown,
                    ..laid.clone()
                };
                page.marks.push((None, Mark::Laid(words)));
            }
        }
    }

    /// Draws what lies on one sheet.
    pub(crate) fn draw(&self, page: &mut Page, sheet: &Window, lost: &[usize]) {
        let layer = Some(Layer::Step(ProcessingStep::Dimensions));
        for (_, measure) in self
            .list
            .iter()
            .enumerate()
            .filter(|(index, _)| !lost.contains(index))
        {
            for line in measure
                .lines
                .iter()
                .filter_map(|line| Some(line.part(line.within(sheet)?)))
            {
                let run = StrokePath::straight(line.from, line.to);
                page.marks.push((
                    layer,
                    Mark::Stroke {
                        look: DIMENSIONS,
                        phase: 0.0,
                        run,
                    },
                ));
            }
            for head in measure
                .heads
                .iter()
                .filter(|head| head.iter().all(|corner| sheet.has(*corner)))
            {
                page.marks
                    .push((layer, Mark::Fill(DIMENSIONS.colour, vec![head.to_vec()])));
            }
            if measure.laid.is_some() {
                continue;
            }
            if sheet.covers(&measure.words) {
                let words = Words {
                    text: measure.text.clone(),
                    at: measure.words.least,
                    capital: measure.capital,
                    colour: DIMENSIONS.colour,
                    climbing: false,
                };
                page.marks.push((layer, Mark::Words(words)));
            }
        }
    }
}

impl Measure {
    fn new(dimension: &Dimension, words: &SheetWords, font: &Font) -> Measure {
        let lines = std::iter::once(&dimension.line).chain(&dimension.extensions);
        Measure {
            lines: lines
                .map(|[from, to]| measure_line(place(*from), place(*to)))
                .collect(),
            heads: dimension.heads().map(|head| head.map(place)).into(),
            ..Measure::words(
                &words.decimal(&dimension.text),
                dimension.text_at,
                dimension.text_height,
                font,
            )
        }
    }

    fn is_name(&self) -> bool {
        self.lines.is_empty() && self.heads.is_empty() && self.laid.is_none()
    }

    /// A name at the nearest place where a sheet shows it, off the lines of the blank and off other words.
    fn moved(&self, sheets: &[Window], pieces: &[Piece], taken: &[Window]) -> Option<Measure> {
        let middle = self.words.middle();
        let mut steps: Vec<[f64; 2]> = (-STEPS..=STEPS)
            .flat_map(|x| (-STEPS..=STEPS).map(move |y| [f64::from(x) * STEP, f64::from(y) * STEP]))
            .collect();
        let far = |step: &[f64; 2]| step[0].abs() + step[1].abs();
        steps.sort_by(|one, other| far(one).total_cmp(&far(other)));
        SMALLER.into_iter().find_map(|share| {
            let size = self.words.size().map(|side| side * share);
            let at = |step: &[f64; 2]| {
                let least = [0, 1].map(|axis| middle[axis] + step[axis] - size[axis] / 2.0);
                let words = Window::new(least, size);
                let clear = words.wider(CLEAR);
                let is_shown = sheets.iter().any(|sheet| sheet.covers(&words));
                let way = measure_line(middle, words.middle());
                let is_free = pieces
                    .iter()
                    .all(|piece| piece.within(&clear).is_none() && !way.meets(piece));
                let is_alone = taken.iter().all(|other| other.common(&clear).is_none());
                (is_shown && is_free && is_alone).then_some(words)
            };
            let words = steps.iter().find_map(at)?;
            Some(Measure {
                words,
                capital: self.capital * share,
                ..self.clone()
            })
        })
    }

    fn name(label: &Label, font: &Font) -> Measure {
        Measure::words(&label.text, label.at, label.height, font)
    }

    fn letter(label: &Label, font: &Font) -> Measure {
        Measure {
            is_needed: false,
            ..Measure::name(label, font)
        }
    }

    /// Words alone, over the middle of their foot.
    fn words(text: &str, middle: Point, capital: f64, font: &Font) -> Measure {
        let width = font.width(text, capital);
        let foot = [middle.x - width / 2.0, middle.y];
        Measure {
            text: text.to_owned(),
            capital,
            words: Window::new(foot, [width, capital]),
            lines: Vec::new(),
            heads: Vec::new(),
            is_needed: true,
            laid: None,
        }
    }
}

/// The labels on the drawn face.
fn printed(flat: &Flat) -> impl Iterator<Item = Measure> + '_ {
    let drawn = flat.panel_labels.iter().filter(|label| label.is_drawn());
    drawn.map(|label| {
        let (along, up) = (label.along(), label.up);
        let words = LaidWords {
            text: label.text.clone(),
            at: place(label.foot()),
            along: [along.x, along.y],
            up: [up.x, up.y],
            capital: label.height,
            colour: INK,
            shown: None,
        };
        Measure {
            text: String::new(),
            capital: label.height,
            words: Window::around(label.corners().map(place)),
            lines: Vec::new(),
            heads: Vec::new(),
            is_needed: false,
            laid: Some(words),
        }
    })
}

/// Whether every part of a line lies on a sheet.
fn is_shown(line: &Piece, sheets: &[Window]) -> bool {
    let mut shown: Vec<[f64; 2]> = sheets
        .iter()
        .filter_map(|sheet| line.within(sheet))
        .collect();
    shown.sort_by(|one, other| one[0].total_cmp(&other[0]));
    let reached = shown.iter().fold(0.0, |reached, [first, last]| {
        if *first <= reached + 1e-6 {
            last.max(reached)
        } else {
            reached
        }
    });
    reached > 1.0 - 1e-6
}

fn place(point: Point) -> PointMm {
    [point.x, point.y]
}
