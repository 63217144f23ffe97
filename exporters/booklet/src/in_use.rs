//! The pages after the last fold: into the box, the item in and out again, and what to change when it is tight or loose.
//!
//! What a job's numbers should become is worked out from the clearances that the document reports.

use traywright_document::{Stands, Unit};
use traywright_paper::filled;

use crate::before::beside;
use crate::book::Book;
use crate::staging::Staging;
use crate::tray::Tray;

/// How far off a tray may be found, in mm.
const OFF: [f64; 3] = [0.5, 1.0, 2.0];
/// What is less free jams.
// Source: common practice, none published.
const LEAST_FREE: f64 = 0.1;
/// Share of the page's width that a figure takes beside its words.
const FIGURE: f64 = 0.42;

/// Height of a row to write in by hand.
const ROOM_TO_WRITE: f64 = 6.0;

/// Writes them.
pub(crate) fn pages(book: &mut Book, tray: &Tray, staging: &Staging) {
    let words = &tray.words().in_use;
    let width = (1.0 - FIGURE) * book.grid.width() - 3.0 * book.grid.words;
    book.title(&words.title);
    let text = book.entry(&words.lower, true, width);
    let block = beside(book, &staging.over_the_box(), text, FIGURE);
    book.put(block);
    let and_flaps = |sentence: &str, flaps: &str| match staging.has_flaps() {
        true => format!("{sentence} {flaps}"),
        false => sentence.to_owned(),
    };
    if tray.document.stands == Stands::DeckUp {
        let sentence = filled(&words.item_in, &[("items", &tray.item_names())]);
        let sentence = match tray.missed() {
            Some((items, gap)) => {
                let gap = tray.lengths().say(gap);
                let missed = filled(&words.flaps_miss, &[("items", &items), ("gap", &gap)]);
                format!("{sentence} {missed}")
            }
            None => and_flaps(&sentence, &words.flaps_hold),
        };
        let text = book.entry(&sentence, true, width);
        let block = beside(book, &staging.items_above(), text, FIGURE);
        book.put(block);
    }
    book.words(&and_flaps(&words.out_again, &words.spare_flaps));
    book.title(&words.trouble);
    let air = tray.measure("box_clearance_length").unwrap_or_default();
    let about = filled(&words.trouble_about, &[("air", &tray.lengths().say(air))]);
    let about = book.lines(&about, book.grid.words, book.grid.width());
    book.lead(about);
    book.table(&trouble(tray), &[0.31, 0.23, 0.23, 0.23], 0.0);
    book.title(&words.notes);
    // Two notes in a row, each with room beside it.
    let rows: Vec<Vec<String>> = words
        .note
        .chunks(2)
        .map(|names| {
            names
                .iter()
                .flat_map(|name| [name.clone(), String::new()])
                .collect()
        })
        .collect();
    book.table(&rows, &[0.24, 0.26, 0.24, 0.26], ROOM_TO_WRITE);
}

/// What is found, and what the job should say then.
fn trouble(tray: &Tray) -> Vec<Vec<String>> {
    let words = &tray.words().in_use;
    let lengths = tray.lengths();
    let mut rows = vec![
        std::iter::once(words.found.clone())
            .chain(OFF.map(|off| lengths.say(off)))
            .collect(),
    ];
    let around_tray = tray.measure("box_clearance_length");
    let around_item = tray.document.items.first().and_then(|item| {
        let slot = tray.measure(&format!("slot_length.{}", item.name))?;
        Some(slot - item.length)
    });
    // The card of folded flaps takes its part of what is around the item.
    let play = tray.document.items.first().and_then(|item| {
        let play = tray.measure(&format!("play.{}", item.name));
        play.or(around_item)
    });
    let changes = [
        (&words.tray_tight, "fit box", around_tray, around_tray, 1.0),
        (&words.tray_loose, "fit box", around_tray, around_tray, -1.0),
        (&words.item_tight, "fit item", around_item, play, 1.0),
        (&words.item_loose, "fit item", around_item, play, -1.0),
    ];
    for (found, name, now, free, sign) in changes {
        let (Some(now), Some(free)) = (now, free) else {
            continue;
        };
        let cell = |off: f64| match free + sign * off {
            left if left < LEAST_FREE => "–".to_owned(),
            _ => setting(name, now + sign * off, tray.document.unit),
        };
        rows.push(
            std::iter::once(found.clone())
                .chain(OFF.map(cell))
                .collect(),
        );
    }
    rows
}

/// A setting as a job writes it.
fn setting(name: &str, length_mm: f64, unit: Unit) -> String {
    // A job writes a point, whatever the language.
    format!("{name}=({}){}", unit.sign(), unit.figure(length_mm))
}
