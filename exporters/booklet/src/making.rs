//! The pages of creasing and cutting: on which face, with what, how deep, in which order and why.
//!
//! A crease is pressed on the face that is outside its fold. Where the template's lines are on the other face, they are
//! carried over by pricks of a pin.

use traywright_document::{Document, Grain, ProcessingStep};
use traywright_look::filled;

use crate::before::beside;
use crate::blank::{About, figure, relief};
use crate::book::Book;
use crate::tray::BookletInput;

/// Up to this caliper a creasing rule of 2 points suits the card.
// Source: a rule maker's advice: 2-point rule for board up to 0.020 in, 3 or 4 point above. That 2 points are 0.7 mm, as
// the words have it, is from memory: a point of rule is 1/72 in.
const TWO_POINT: f64 = 0.508;
/// Above it one crease by hand is not enough.
// Source: common practice, none published.
const ONE_CREASE: f64 = 0.6;
/// Share of the page's width that a figure takes beside its words.
const FIGURE: f64 = 0.42;

/// How creases are made.
pub(crate) fn creasing(book: &mut Book, tray: &BookletInput) {
    let (words, document) = (&tray.words().creasing, tray.document);
    let caliper = document.board.caliper;
    let [inwards, outwards] = [ProcessingStep::Creasing, ProcessingStep::ReverseCreasing]
        .map(|step| has_creases(document, step));
    book.title(&words.title);
    let caption = reported(&[
        (true, &words.caption),
        (inwards, &words.towards),
        (outwards, &words.away),
    ]);
    let width = (1.0 - FIGURE) * book.grid.width() - 3.0 * book.grid.words;
    let caption = book.lines(&caption.join(" "), book.grid.words, width);
    let block = beside(
        book,
        &figure(&document.flat, About::Creases),
        caption,
        FIGURE,
    );
    book.put(block);
    let point = if caliper <= TWO_POINT {
        &words.two_point
    } else {
        &words.wide_point
    };
    let mut rules = reported(&[
        (true, &words.outside),
        (inwards, &words.inwards),
        (outwards, &words.outwards),
        (true, &words.tool),
        (true, point),
    ]);
    rules.push(filled(
        &words.depth,
        &[("caliper", &tray.lengths().say(caliper))],
    ));
    rules.push(grain(tray));
    if caliper > ONE_CREASE {
        rules.push(words.thick.clone());
    }
    book.list(&rules, false);
}

/// The sentences that hold for this tray.
fn reported(sentences: &[(bool, &String)]) -> Vec<String> {
    let reported = sentences.iter().filter(|(holds, _)| *holds);
    reported.map(|(_, sentence)| (*sentence).clone()).collect()
}

fn has_creases(document: &Document, step: ProcessingStep) -> bool {
    let mut creases = document.flat.creases.iter();
    creases.any(|crease| crease.step() == step)
}

/// The way of the grain: told, or how it is found and where it is best.
fn grain(tray: &BookletInput) -> String {
    let words = &tray.words().creasing;
    let (sentence, grain) = match tray.document.board.grain {
        Some(grain) => (&words.grain_known, grain),
        None => (&words.grain_unknown, most_creases(tray.document)),
    };
    let way = match grain {
        Grain::Length => &words.along_length,
        Grain::Width => &words.along_width,
    };
    filled(sentence, &[("way", way)])
}

/// The way along which most of the length of creases runs.
fn most_creases(document: &Document) -> Grain {
    let along = |axis: fn(f64, f64) -> f64| -> f64 {
        let creases = document.flat.creases.iter();
        creases
            .map(|crease| {
                axis(
                    (crease.to.x - crease.from.x).abs(),
                    (crease.to.y - crease.from.y).abs(),
                )
            })
            .sum()
    };
    if along(|x, _| x) > along(|_, y| y) {
        Grain::Length
    } else {
        Grain::Width
    }
}

/// What is cut first and what last.
pub(crate) fn cutting(book: &mut Book, tray: &BookletInput) {
    let (words, flat) = (&tray.words().cutting, &tray.document.flat);
    let width = (1.0 - FIGURE) * book.grid.width() - 3.0 * book.grid.words;
    book.title(&words.title);
    let has_openings = !flat.holes.is_empty() || !flat.open_cuts.is_empty();
    if has_openings {
        let text = book.entry(&words.openings, true, width);
        let block = beside(book, &figure(flat, About::Openings), text, FIGURE);
        book.put(block);
    }
    let text = book.entry(&words.outline, true, width);
    let block = beside(book, &figure(flat, About::Outline), text, FIGURE);
    book.put(block);
    if let Some(figure) = relief(tray.document) {
        let text = book.entry(&words.reliefs, false, width);
        let block = beside(book, &figure, text, FIGURE);
        book.put(block);
    }
    book.list(&[words.check.clone(), words.once.clone()], true);
}
