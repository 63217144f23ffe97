//! The words that are printed once for all sheets, and the last sheet, for the words that have no room on any other.
//!
//! **Input:** a tray, and what its sheets said in full. **Output:** a page of words alone; none where all is said. **Does
//! not** draw a line of the blank, a check bar, or a place in the grid.

use std::collections::BTreeSet;

use traywright_paper::{Block, Line, Page};

use crate::input::PdfInput;

/// Words that one sheet may say for all: the first that has room for them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum SheetText {
    /// How the check bars are read, and what a wrong length comes from.
    Scale,
    /// How sheets are joined.
    Joining,
    /// The pads to cut.
    Pads,
    /// The usual cautions.
    Cautions,
}

/// How the check bars are read.
pub(crate) struct ScaleAdvice {
    /// What was corrected already, and what the bars must read.
    pub(crate) before: Vec<String>,
    /// What wrong readings come from.
    pub(crate) causes: Vec<String>,
    /// What helps when nothing else did.
    pub(crate) after: Vec<String>,
}

/// Capitals of the tray's name, and of the words.
// Source: common practice, none published: 2 mm capitals, about 8 points, are read at arm's length.
const CAPITALS: [f64; 2] = [3.2, 2.4];
/// White between two texts.
const BETWEEN: f64 = 6.0;
/// Widest line of words.
// Source: common practice, none published: lines of more than about 80 letters are hard to read.
const WIDEST: f64 = 150.0;

impl PdfInput<'_> {
    /// How the check bars are read on sheets of this tray.
    pub(crate) fn scale_advice(&self) -> ScaleAdvice {
        let (page, unit) = (self.document.output.paper.page(), self.document.unit);
        let correction = self.words.correction(page, unit).into_iter();
        match self.document.output.paper.bleed() {
            None => ScaleAdvice {
                before: correction.chain([self.words.goal(page, unit)]).collect(),
                causes: self.words.causes(unit).into(),
                after: vec![self.words.last_resort(page, unit)],
            },
            // What a home printer does to a sheet tells nobody who prints a whole page.
            Some(bleed) => ScaleAdvice {
                before: correction.collect(),
                causes: Vec::new(),
                after: self.words.press(self.document, bleed),
            },
        }
    }

    /// The usual cautions.
    pub(crate) fn cautions(&self) -> Vec<String> {
        let cautions = &self.words.drawing.cautions;
        cautions.of(self.document.tool.by).map(str::to_owned).into()
    }

    /// A page of words for what no sheet has said in full.
    pub(crate) fn words_sheet(&self, sheets: usize, said: &BTreeSet<SheetText>) -> Option<Page> {
        let texts = [
            SheetText::Scale,
            SheetText::Joining,
            SheetText::Pads,
            SheetText::Cautions,
        ];
        let unsaid: Vec<Vec<String>> = texts
            .into_iter()
            .filter(|text| !said.contains(text))
            .map(|text| self.text(text, sheets))
            .filter(|sentences| !sentences.is_empty())
            .collect();
        if unsaid.is_empty() {
            return None;
        }
        let paper = self.paper(false);
        let margin = self.document.output.paper.page().margin.mm();
        let widest = WIDEST.min(paper[0] - 2.0 * margin);
        let mut page = Page::new(paper);
        let mut top = paper[1] - margin;
        let title = crate::words::shortened(&self.document.title, 60);
        let texts = std::iter::once((vec![title], CAPITALS[0]));
        for (sentences, capital) in texts.chain(unsaid.into_iter().map(|text| (text, CAPITALS[1])))
        {
            let lines: Vec<Line> = sentences
                .into_iter()
                .map(|text| Line {
                    text,
                    capital,
                    sample: None,
                })
                .collect();
            let block = Block::of_lines(self.font, &lines, widest);
            top -= block.size[1];
            block.put(&mut page, [margin, top]);
            top -= BETWEEN;
        }
        Some(page)
    }

    /// What a text says of so many sheets.
    fn text(&self, text: SheetText, sheets: usize) -> Vec<String> {
        match text {
            SheetText::Scale => {
                let ScaleAdvice {
                    before,
                    causes,
                    after,
                } = self.scale_advice();
                [before, causes, after].concat()
            }
            SheetText::Joining if sheets > 1 => {
                let overlap = self.document.output.paper.page().overlap.mm();
                vec![self.words.joining(overlap, self.document.unit)]
            }
            SheetText::Joining => Vec::new(),
            SheetText::Pads => self.words.pads(self.document),
            SheetText::Cautions => self.cautions(),
        }
    }
}
