//! The page of creases: on which face, with what, how deep, and what goes wrong.
//!
//! Carton is pressed and solid board half-cut on the face that is outside the fold; corrugated board is crushed on the face
//! inside it. Where the template's lines are on the other face, they are carried over by pricks of a pin.

use traywright_document::{BoardKind, CreaseKind, Document, Grain, ProcessingStep};
use traywright_look::filled;

use crate::before::put_beside;
use crate::blank::{About, figure};
use crate::book::Book;
use crate::crease_pictures::pictures;
use crate::crease_way::{CreaseWay, half_cut_depth, is_taped};
use crate::tray::BookletInput;
use crate::wording::CreaseWords;

/// Up to this caliper a creasing rule of 2 points suits the card.
// Source: a rule maker's advice: 2-point rule for board up to 0.020 in, 3 or 4 point above. That 2 points are 0.7 mm, as
// the words have it, is from memory: a point of rule is 1/72 in.
const TWO_POINT: f64 = 0.508;
/// Share of the page's width that a figure takes beside its words.
pub(crate) const FIGURE: f64 = 0.42;
/// A fold line nearer to the middle of the card than this lies in it.
const IN_THE_MIDDLE_MM: f64 = 1e-6;

/// How creases are made.
pub(crate) fn creasing(book: &mut Book, tray: &BookletInput) {
    let (words, board) = (&tray.words().creasing, &tray.document.board);
    let way = CreaseWay::of(board);
    let own = way_words(tray, way);
    let is_perforated = tray.document.output.machine.perforation.is_some();
    book.title(match is_perforated {
        true => &words.perforated_title,
        false => &own.title,
    });
    let [inwards, outwards] = kinds(tray.document);
    let caption = holding(&[
        (!is_perforated, &words.caption),
        (inwards, &words.towards),
        (outwards, &words.away),
    ]);
    let width = (1.0 - FIGURE) * book.grid.width() - 3.0 * book.grid.words;
    let caption = book.lines(&caption.join(" "), book.grid.words, width);
    let blank = figure(&tray.document.flat, About::Creases);
    put_beside(book, blank, caption, FIGURE);
    if is_perforated {
        let mut rules = words.perforated.clone();
        rules.push(grain(tray));
        book.list(&rules, false);
        return;
    }
    let depth = tray.lengths().say(half_cut_depth(board));
    let sections = pictures(book, way, own, &depth);
    book.put(sections);
    book.list(&rules(tray, way, &depth), false);
    book.list(std::slice::from_ref(&words.check), true);
}

fn way_words<'a>(tray: &BookletInput<'a>, way: CreaseWay) -> &'a CreaseWords {
    let words = &tray.words().creasing;
    match way {
        CreaseWay::Pressed => &words.pressed,
        CreaseWay::HalfCut => &words.half_cut,
        CreaseWay::Crushed => &words.crushed,
    }
}

/// What the hands do, a sentence each.
fn rules(tray: &BookletInput, way: CreaseWay, depth: &str) -> Vec<String> {
    let (words, board) = (&tray.words().creasing, &tray.document.board);
    let own = way_words(tray, way);
    let [inwards, outwards] = kinds(tray.document);
    let point = if board.caliper <= TWO_POINT {
        &words.two_point
    } else {
        &words.wide_point
    };
    let is_dense = board.kind == BoardKind::Solid && board.crease == CreaseKind::Pressed;
    let mut rules = holding(&[
        (true, &own.side),
        (inwards, &own.inwards),
        (outwards, &own.outwards),
        (true, &own.tool),
        (way == CreaseWay::Pressed, point),
        (true, &own.depth),
        (board.hinge.abs() > IN_THE_MIDDLE_MM, &words.fold_line),
    ]);
    rules.extend(own.more.iter().cloned());
    rules.extend(is_taped(board).then(|| words.tape.clone()));
    rules.extend(is_dense.then(|| words.dense.clone()));
    let lengths = tray.lengths();
    let (caliper, hinge) = (lengths.say(board.caliper), lengths.say(board.hinge));
    let gaps = [
        ("caliper", caliper.as_str()),
        ("depth", depth),
        ("hinge", &hinge),
    ];
    let mut rules: Vec<String> = rules.iter().map(|rule| filled(rule, &gaps)).collect();
    rules.push(grain(tray));
    rules
}

/// The sentences that hold for this tray.
fn holding(sentences: &[(bool, &String)]) -> Vec<String> {
    let holding = sentences.iter().filter(|(holds, _)| *holds);
    holding.map(|(_, sentence)| (*sentence).clone()).collect()
}

/// Whether there are creases that fold the drawn face inwards, and others.
fn kinds(document: &Document) -> [bool; 2] {
    [ProcessingStep::Creasing, ProcessingStep::ReverseCreasing].map(|step| {
        let mut creases = document.flat.creases.iter();
        creases.any(|crease| crease.step() == step)
    })
}

/// The way of the grain or the flutes: told, or how it is found and where it is best.
fn grain(tray: &BookletInput) -> String {
    let (words, board) = (&tray.words().creasing, &tray.document.board);
    let most = most_creases(tray.document);
    let is_fluted = board.kind == BoardKind::Corrugated;
    let (sentence, grain) = match (is_fluted, board.grain) {
        (false, Some(grain)) => (&words.grain_known, grain),
        (false, None) => (&words.grain_unknown, most),
        (true, Some(grain)) => (&words.flutes_known, grain),
        // A crease along the flutes slips into the hollow beside it.
        // Source: common practice, none published.
        (true, None) => (&words.flutes_unknown, across(most)),
    };
    let way = match grain {
        Grain::Length => &words.along_length,
        Grain::Width => &words.along_width,
    };
    filled(sentence, &[("way", way)])
}

fn across(grain: Grain) -> Grain {
    match grain {
        Grain::Length => Grain::Width,
        Grain::Width => Grain::Length,
    }
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
