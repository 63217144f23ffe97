//! The page of cutting: in which order, how, and what is checked before folding.
//!
//! All creases are made before; the sheet is whole until the outline is cut.

use traywright_look::filled;

use crate::before::put_beside;
use crate::blank::{About, figure, relief};
use crate::book::Book;
use crate::crease_way::CreaseWay;
use crate::creasing::FIGURE;
use crate::tray::BookletInput;

/// What is cut first and what last.
pub(crate) fn cutting(book: &mut Book, tray: &BookletInput) {
    let (words, flat) = (&tray.words().cutting, &tray.document.flat);
    let width = (1.0 - FIGURE) * book.grid.width() - 3.0 * book.grid.words;
    book.title(&words.title);
    let has_openings = !flat.holes.is_empty() || !flat.open_cuts.is_empty();
    if has_openings {
        let text = book.entry(&words.openings, true, width);
        put_beside(book, figure(flat, About::Openings), text, FIGURE);
    }
    let text = book.entry(&words.outline, true, width);
    put_beside(book, figure(flat, About::Outline), text, FIGURE);
    if let Some(figure) = relief(tray.document) {
        let text = book.entry(&words.reliefs, false, width);
        put_beside(book, figure, text, FIGURE);
    }
    let once = match CreaseWay::of(&tray.document.board) {
        CreaseWay::Pressed | CreaseWay::Crushed => &words.once,
        CreaseWay::HalfCut => &words.once_half_cut,
    };
    let check = filled(&words.check, &[("blank", &tray.drawn_size())]);
    book.list(&[check, once.clone()], true);
}
