//! The pages after the last fold: into the box, the item in and out again, and what to change when it is tight or loose.
//!
//! The new values for a job are computed from the clearances that the document reports.

use traywright_document::{Item, Unit};
use traywright_look::filled;

use crate::before::put_beside;
use crate::book::Book;
use crate::cutaway;
use crate::holding;
use crate::section::Axis;
use crate::step_figures::Staging;
use crate::tray::BookletInput;

/// How far off a tray may be found, in mm.
const OFF: [f64; 3] = [0.5, 1.0, 2.0];
/// What leaves less air is no number for a job.
// Source: reasoning: a tray or an item cannot be larger than what it goes into. Whether less jams, the program says.
const LEAST_LEFT: f64 = 0.01;
/// Share of the page's width that a figure takes beside its words.
const FIGURE: f64 = 0.42;

/// Height of a row to write in by hand.
const ROOM_TO_WRITE: f64 = 6.0;

/// Writes them.
pub(crate) fn pages(book: &mut Book, tray: &BookletInput, staging: &Staging) {
    let words = &tray.words().in_use;
    let width = (1.0 - FIGURE) * book.grid.width() - 3.0 * book.grid.words;
    book.title(&words.title);
    if holding::has_limp_flaps(tray) {
        let packing = book.entry(&words.flaps_limp, true, book.grid.width());
        book.put(packing);
    }
    let text = book.entry(&words.lower, true, width);
    put_beside(book, staging.over_the_box(), text, FIGURE);
    if !tray.has_floor() {
        let text = book.entry(&putting_in(tray), true, width);
        put_beside(book, staging.items_above(), text, FIGURE);
    }
    cutaway::figures(book, tray, staging);
    if !tray.document.items.is_empty() {
        book.list(std::slice::from_ref(&words.check_item), true);
    }
    let mut out_again = Vec::from_iter((!tray.has_floor()).then_some(words.items_out.as_str()));
    out_again.push(&words.out_again);
    out_again.extend(staging.has_flaps().then_some(words.spare_flaps.as_str()));
    book.words(&out_again.join(" "));
    book.title(&words.trouble);
    let about = filled(&words.trouble_about, &[("meant", &meant(tray))]);
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

/// How the items go in, and what holds them.
fn putting_in(tray: &BookletInput) -> String {
    let words = &tray.words().in_use;
    let mut sentences = holding::pads_under(tray);
    sentences.push(filled(&words.item_in, &[("items", &tray.item_names())]));
    sentences.extend(holding::held(tray));
    sentences.join(" ")
}

/// The clearance that the job asks for around the tray, and around the first item in its opening, crease to crease.
fn air(tray: &BookletInput) -> [Option<f64>; 2] {
    let item = tray.document.items.first();
    let asked = item.and_then(|item| play(tray, item, Axis::Along, "slot"));
    [tray.measure("box_clearance_length"), asked]
}

/// The least clearance of any item in its opening: what a maker can measure, since the card of folded flaps takes its
/// part of the opening.
fn least_play(tray: &BookletInput) -> Option<f64> {
    let items = tray.document.items.iter();
    let both = items.flat_map(|item| [Axis::Along, Axis::Across].map(|axis| (item, axis)));
    both.filter_map(|(item, axis)| play(tray, item, axis, "clear"))
        .reduce(f64::min)
}

/// How much larger than an item its opening is, by one of the opening's measures.
fn play(tray: &BookletInput, item: &Item, axis: Axis, measure: &str) -> Option<f64> {
    let (side, item_side) = match axis {
        Axis::Along => ("length", item.length),
        Axis::Across => ("width", item.width),
    };
    Some(tray.measure(&format!("{measure}_{side}.{}", item.name))? - item_side)
}

/// The same in words.
fn meant(tray: &BookletInput) -> String {
    let words = &tray.words().in_use;
    let sentences = [&words.meant_tray, &words.meant_item];
    let told = sentences
        .into_iter()
        .zip([air(tray)[0], least_play(tray)])
        .filter_map(|(sentence, air)| {
            let air = tray.lengths().say(air?);
            Some(filled(sentence, &[("air", &air)]))
        });
    told.collect::<Vec<_>>().join(", ")
}

/// What is found, and what the job should say then.
fn trouble(tray: &BookletInput) -> Vec<Vec<String>> {
    let words = &tray.words().in_use;
    let lengths = tray.lengths();
    let mut rows = vec![
        std::iter::once(words.found.clone())
            .chain(OFF.map(|off| lengths.say(off)))
            .collect(),
    ];
    let [around_tray, asked] = air(tray);
    let play = least_play(tray).or(asked);
    let changes = [
        (&words.tray_tight, "fit box", around_tray, around_tray, 1.0),
        (&words.tray_loose, "fit box", around_tray, around_tray, -1.0),
        (&words.item_tight, "fit item", asked, play, 1.0),
        (&words.item_loose, "fit item", asked, play, -1.0),
    ];
    for (found, name, now, free, sign) in changes {
        let (Some(now), Some(free)) = (now, free) else {
            continue;
        };
        let cell = |off: f64| match free + sign * off {
            left if left < LEAST_LEFT => "–".to_owned(),
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
