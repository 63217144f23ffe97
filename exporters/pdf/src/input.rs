//! A document as the pages need it: its lines in pieces, its measures, its words and its font.
//!
//! **Errors:** a language without words. **Does not** know on which sheets the lines stand.

use std::rc::Rc;

use traywright_document::{Document, ExportError};
use traywright_look::words;
use traywright_paper::Font;

use crate::made_texts::Texts;
use crate::measures::Measures;
use crate::pieces::{Piece, pieces};
use crate::window::Window;
use crate::words::SheetWords;

/// How far a chord may leave its arc, in mm: a small part of the squares in which room is counted.
const CHORDS: f64 = 0.05;

/// A tray as it is to be printed.
pub(crate) struct PdfInput<'a> {
    /// All that is known of it.
    pub(crate) document: &'a Document,
    /// The letters.
    pub(crate) font: &'a Font,
    /// What its sheets say.
    pub(crate) words: Rc<SheetWords>,
    /// Its lines.
    pub(crate) pieces: Rc<[Piece]>,
    /// The same lines, arcs as chords that lie within 0.05 mm, for what asks only where there is room.
    pub(crate) straight: Rc<[Piece]>,
    /// Its measures.
    pub(crate) measures: Measures,
    /// The forms of what sheets say.
    pub(crate) texts: Texts,
}

impl<'a> PdfInput<'a> {
    /// Reads a document.
    ///
    /// # Refuses
    /// A language without words.
    pub(crate) fn new(document: &'a Document, font: &'a Font) -> Result<PdfInput<'a>, ExportError> {
        let words: SheetWords = words(&document.output.language)?;
        let pieces = pieces(document);
        Ok(PdfInput {
            document,
            font,
            straight: pieces
                .iter()
                .flat_map(|piece| piece.chords(CHORDS))
                .collect(),
            pieces: pieces.into(),
            measures: Measures::new(&document.flat, &words, font),
            words: Rc::new(words),
            texts: Texts::default(),
        })
    }

    /// The same tray on a page of another size.
    pub(crate) fn on_page_of<'b>(&'b self, document: &'b Document) -> PdfInput<'b> {
        PdfInput {
            document,
            font: self.font,
            words: Rc::clone(&self.words),
            pieces: Rc::clone(&self.pieces),
            straight: Rc::clone(&self.straight),
            measures: self.measures.clone(),
            texts: self.texts.of_other_page(),
        }
    }

    /// The rectangle around the blank, and the one around its measures as well.
    pub(crate) fn extents(&self) -> [Window; 2] {
        let blank = Window::around(self.pieces.iter().flat_map(|piece| [piece.from, piece.to]));
        let measures = self.measures.extent().corners().into_iter();
        let measures = measures.filter(|place| place[0].is_finite());
        [
            blank,
            Window::around(blank.corners().into_iter().chain(measures)),
        ]
    }

    /// Millimetres on paper for one of the blank, along x and y of a page that lies upright or turned.
    pub(crate) fn enlarged(&self, turned: bool) -> [f64; 2] {
        let page = self.document.output.paper.page();
        let bar = self.document.unit.check_bar();
        let [across, down] = [page.bar_across, page.bar_down]
            .map(|reading| reading.map_or(1.0, |reading| bar / reading.mm()));
        if turned {
            [down, across]
        } else {
            [across, down]
        }
    }

    /// Width and height of a page that lies upright or turned.
    pub(crate) fn paper(&self, turned: bool) -> [f64; 2] {
        let page = self.document.output.paper.page();
        let (width, height) = (page.width.mm(), page.height.mm());
        let (short, long) = (width.min(height), width.max(height));
        if turned { [long, short] } else { [short, long] }
    }

    /// The pieces of the outline.
    pub(crate) fn outline(&self) -> &[Piece] {
        first_line(&self.pieces)
    }

    /// The outline in straight pieces.
    pub(crate) fn straight_outline(&self) -> &[Piece] {
        first_line(&self.straight)
    }
}

/// The pieces of the first line.
fn first_line(pieces: &[Piece]) -> &[Piece] {
    let lines = pieces.chunk_by(|one, next| one.line == next.line);
    lines.into_iter().next().unwrap_or_default()
}

/// A blank that has nothing to draw.
pub(crate) fn no_lines() -> ExportError {
    ExportError::Refused("the blank has no lines".to_owned())
}
