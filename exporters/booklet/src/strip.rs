//! The pages of a strip that measures its card: what it is for, its length flat, and the reading.
//!
//! A piece that goes into no box is such a strip. Its figures are those that its style reports.

use traywright_look::filled;

use crate::book::Book;
use crate::tray::BookletInput;

/// Height of a row to write in by hand.
const ROOM_TO_WRITE: f64 = 6.0;

/// Before the first fold: the length that is lost afterwards.
pub(crate) fn flat(book: &mut Book, tray: &BookletInput) {
    let words = &tray.words().strip;
    book.title(&words.flat_title);
    book.list(&[said(tray, &words.flat)], true);
}

/// After the last fold: what to measure, and where the reading goes.
pub(crate) fn reading(book: &mut Book, tray: &BookletInput) {
    let words = &tray.words().strip;
    book.title(&words.title);
    let sentences = |sentences: &[String]| -> Vec<String> {
        let filled = sentences.iter().map(|sentence| said(tray, sentence));
        filled.collect()
    };
    book.list(&sentences(&words.measure), true);
    let rows: Vec<Vec<String>> = words
        .lengths
        .iter()
        .map(|name| vec![said(tray, name), String::new()])
        .collect();
    book.table(&rows, &[0.5, 0.5], ROOM_TO_WRITE);
    book.list(&sentences(&words.then), true);
}

/// A sentence with the lengths that are expected.
fn said(tray: &BookletInput, sentence: &str) -> String {
    let length = |name: &str| {
        let measure = tray.measure(name);
        measure.map_or_else(String::new, |value| tray.lengths().say(value))
    };
    let gaps = [
        ("flat", length("flat_length")),
        ("across", length("across")),
        ("leg", length("leg_outside")),
        ("least", length("least_reading")),
        ("most", length("most_reading")),
        ("unit", tray.document.unit.sign().to_owned()),
    ];
    let gaps = gaps.each_ref().map(|(name, value)| (*name, value.as_str()));
    filled(sentence, &gaps)
}
