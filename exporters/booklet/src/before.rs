//! The pages before the first cut: the finished tray, the tools, the dangers, the print, a trial in paper.
//!
//! Cautions stand here, before anything is cut. Each has a source in practice or in a rule; local rules that ask for
//! more come first.

use traywright_document::{BoardKind, Item, Unit};
use traywright_look::filled;
use traywright_paper::Block;

use crate::book::Book;
use crate::crease_way::{CreaseWay, is_taped};
use crate::cutaway;
use crate::figure::{Figure, Setting};
use crate::holding;
use crate::step_figures::Staging;
use crate::tray::BookletInput;

/// From this caliper on, several light cuts are better than a heavy one.
// Source: common practice, none published.
const THICK_TO_CUT: f64 = 0.4;
/// Above this caliper a trial in paper does not show the size.
// Source: a choice of this project: the tray of paper is smaller by about the caliper, and the usual fit is 2 mm.
const THICK_TO_TRY: f64 = 0.6;
/// Card up to this caliper can be cut with scissors.
// Source: common practice, none published.
const FOR_SCISSORS: f64 = 0.5;
/// Where among the cautions the one about children stands: after those about the knife.
const CHILDREN: usize = 4;
/// What fits into this cylinder is a small part.
// Source: 16 CFR 1501.4: 1.25 in wide, 1 to 2.25 in deep; the deep side is the cautious one.
const CYLINDER: [f64; 2] = [31.75, 57.15];
/// Share of the page's height that the tray on the cover takes: least, usual, greatest.
const COVER: [f64; 3] = [0.26, 0.38, 0.46];
/// Card grows by so much of its length at most on a humidity test, across the grain.
// Source: a table of paper properties: bond paper, upper value 0.40 %.
pub(crate) const GROWTH: f64 = 0.004;

/// The cover: the tray in its box, and the figures that matter.
pub(crate) fn cover(book: &mut Book, tray: &BookletInput, staging: &Staging) {
    let figure = staging.in_the_box();
    let (grid, words, lengths) = (book.grid, &tray.words().cover, tray.lengths());
    let document = tray.document;
    let title = book.lines(&document.title, grid.title, grid.width());
    book.put(title);
    let about = match document.has_box() {
        true => filled(&words.about, &[("items", &tray.item_names())]),
        false => tray.words().strip.about.clone(),
    };
    let about = format!("{about} {}", words.no_glue);
    let about = book.lines(&about, 0.85 * grid.heading, grid.width());
    book.put(about);
    let watch = (!document.warnings.is_empty()).then(|| watch(tray));
    for caution in holding::loose(tray).into_iter().chain(watch) {
        book.words(&caution);
    }
    put_wide(book, figure, COVER);
    cutaway::cover(book, tray, staging);
    book.title(&words.figures);
    let inside = document.box_size;
    let mut rows = Vec::new();
    if document.has_box() {
        let inside = [inside.length, inside.width, inside.depth].map(|side| side.mm());
        rows.push(row(&words.in_box, lengths.size(&inside)));
    }
    for (item, _) in document.kinds().take(4) {
        rows.extend(item_rows(tray, item));
    }
    let name = document.board.name.as_deref().unwrap_or_default();
    rows.push(row(
        &words.card,
        format!("{} {name}", lengths.say(document.board.caliper)),
    ));
    let outside = tray.outside();
    if !outside.is_empty() && document.has_box() {
        rows.push(row(&words.outside, lengths.size(&outside)));
    }
    let clearances =
        ["length", "width", "depth"].map(|side| tray.measure(&format!("box_clearance_{side}")));
    if let [Some(length), Some(width), Some(depth)] = clearances {
        rows.push(row(&words.clearance, lengths.size(&[length, width, depth])));
    }
    rows.push(row(&words.style, document.style.clone()));
    rows.push(row(&words.blank, lengths.size(&tray.blank())));
    rows.push(row(&words.steps, document.steps.len().to_string()));
    book.table(&rows, &[0.36, 0.64], 0.0);
}

/// What the check warns of.
fn watch(tray: &BookletInput) -> String {
    let warnings = tray.document.warnings.iter();
    let warnings: Vec<&str> = warnings.map(|warning| tray.warned(warning)).collect();
    format!("{}: {}.", tray.words().cover.watch, warnings.join("; "))
}

/// Puts a figure as wide as the page, whose height is so much of the page: least, usual, greatest.
fn put_wide(book: &mut Book, figure: Figure, shares: [f64; 3]) {
    let (grid, font) = (book.grid, book.font);
    let heights = shares.map(|share| share * grid.height());
    book.put_elastic(heights, move |height| {
        figure.block(Setting {
            font,
            capital: grid.words,
            size: [grid.width(), height],
        })
    });
}

/// The size of an item, and of its opening.
fn item_rows(tray: &BookletInput, item: &Item) -> Vec<Vec<String>> {
    let (words, lengths) = (&tray.words().cover, tray.lengths());
    let size = lengths.size(&[item.length, item.width, item.depth]);
    let mut rows = vec![row(&filled(&words.item, &[("item", &item.name)]), size)];
    let clear =
        ["clear_length", "clear_width"].map(|name| tray.measure(&format!("{name}.{}", item.name)));
    if let [Some(length), Some(width)] = clear {
        let name = match tray.has_floor() {
            true => &words.between_fences,
            false => &words.opening,
        };
        rows.push(row(name, lengths.size(&[length, width])));
    }
    rows
}

fn row(name: &str, value: String) -> Vec<String> {
    vec![name.to_owned(), value]
}

/// What is needed, what is dangerous, the print, and the trial.
pub(crate) fn pages(book: &mut Book, tray: &BookletInput) {
    let (words, lengths, document) = (&tray.words().before, tray.lengths(), tray.document);
    let blank = tray.sheet();
    let longest = blank[0].max(blank[1]);
    let gaps = [
        ("caliper", lengths.say(document.board.caliper)),
        ("blank", lengths.size(&blank)),
        ("longest", lengths.say(longest)),
        ("drawn", tray.drawn_size()),
        ("bar", bar(tray).to_owned()),
    ];
    let gaps = gaps.each_ref().map(|(name, value)| (*name, value.as_str()));
    let filled_in = |sentences: &[String]| -> Vec<String> {
        let sentences = sentences.iter();
        sentences.map(|sentence| filled(sentence, &gaps)).collect()
    };
    book.title(&words.cautions);
    book.list(&cautions(tray), false);
    book.title(&words.needs);
    let needs = needs(tray, filled_in(&words.need));
    book.list(&needs, true);
    book.words(&words.rest);
    if let Some(damp) = damp(tray) {
        book.words(&damp);
    }
    book.title(&words.print);
    let rules = filled_in(&words.print_rules);
    book.list(&rules, true);
    if !document.has_box() {
        return;
    }
    book.title(&words.trial);
    let trial = if document.board.caliper > THICK_TO_TRY {
        &words.trial_thick
    } else {
        &words.trial_rules
    };
    for rule in filled_in(trial) {
        book.words(&rule);
    }
    if document.board.wants_strip {
        book.words(&tray.words().strip.first);
    }
}

/// How long a check bar must be.
fn bar<'a>(tray: &BookletInput<'a>) -> &'a str {
    let words = &tray.words().before;
    match tray.document.unit {
        Unit::Millimetre => &words.bar_mm,
        Unit::Inch => &words.bar_inches,
    }
}

/// What is needed: what every tray needs, what creases are made with, and the pads.
fn needs(tray: &BookletInput, mut needs: Vec<String>) -> Vec<String> {
    let before = &tray.words().before;
    let template = match tray.document.hand_step {
        Some(_) => &before.need_template_or_sheet,
        None => &before.need_template,
    };
    needs.insert(needs.len().min(1), template.clone());
    let words = &before.need_crease;
    let need_crease = match CreaseWay::of(&tray.document.board) {
        CreaseWay::Pressed => &words.pressed,
        CreaseWay::HalfCut => &words.half_cut,
        CreaseWay::Crushed => &words.crushed,
    };
    needs.insert(needs.len().saturating_sub(1), need_crease.clone());
    let words = &tray.words().before;
    needs.extend(is_taped(&tray.document.board).then(|| words.need_tape.clone()));
    needs.extend(holding::has_limp_flaps(tray).then(|| words.need_packing.clone()));
    needs.extend(holding::pads_to_cut(tray));
    if !tray.document.has_box() {
        needs.push(tray.words().strip.need.clone());
    }
    needs
}

fn cautions(tray: &BookletInput) -> Vec<String> {
    let words = &tray.words().before;
    let mut cautions = words.caution.clone();
    let caliper = tray.document.board.caliper;
    let children = if caliper > FOR_SCISSORS || tray.document.board.kind == BoardKind::Corrugated {
        &words.children_thick
    } else {
        &words.children
    };
    cautions.insert(cautions.len().min(CHILDREN), children.clone());
    if caliper >= THICK_TO_CUT {
        cautions.insert(1, words.light_cuts.clone());
    }
    if CreaseWay::of(&tray.document.board) == CreaseWay::HalfCut {
        cautions.insert(2, words.half_cuts.clone());
    }
    if tray.document.board.kind == BoardKind::Corrugated {
        cautions.insert(1, words.fluted.clone());
    }
    let small: Vec<&str> = tray
        .kinds()
        .into_iter()
        .filter(|(item, _)| is_small([item.length, item.width, item.depth]))
        .map(|(item, _)| item.name.as_str())
        .collect();
    if !small.is_empty() {
        cautions.push(filled(&words.small_parts, &[("items", &small.join(", "))]));
    }
    cautions.push(tray.file.drawing.cautions.acid.clone());
    cautions.push(words.local_rules.clone());
    cautions
}

/// Whether a thing goes whole into the cylinder, one of its sides along it.
// Derived: a box goes into a round hole when the diagonal of the two other sides is no wider; counted by its sides alone,
// which takes in more, so that the caution rather stands too often.
fn is_small(sides: [f64; 3]) -> bool {
    (0..3).any(|along| {
        let mut across = (0..3).filter(|side| *side != along).map(|side| sides[side]);
        sides[along] <= CYLINDER[1] && across.all(|side| side <= CYLINDER[0])
    })
}

/// What damp air can do to a long tray.
fn damp(tray: &BookletInput) -> Option<String> {
    let lengths = tray.lengths();
    let air = tray.measure("box_clearance_length")?;
    let growth = GROWTH * tray.document.box_size.length.mm();
    let gaps = [("growth", lengths.say(growth)), ("air", lengths.say(air))];
    let gaps = gaps.each_ref().map(|(name, value)| (*name, value.as_str()));
    // What is less than a thousandth of a millimetre over is a rounding.
    (growth > air + 1e-3).then(|| filled(&tray.words().before.damp, &gaps))
}

/// Puts a figure with words beside it.
pub(crate) fn put_beside(book: &mut Book, figure: Figure, words: Block, share: f64) {
    let (grid, font) = (book.grid, book.font);
    let width = share * grid.width();
    let setting = move |height: f64| Setting {
        font,
        capital: 0.9 * grid.words,
        size: [width, height],
    };
    let usual = figure.height(setting(0.6 * width)).min(0.6 * width);
    let least = words.size[1];
    let heights = [0.75, 1.0, 1.3].map(|part| (part * usual).max(least));
    book.put_elastic(heights, move |height| {
        let mut both = Block::new([grid.width(), height]);
        let size = height.min(1.3 * usual);
        both.hold(figure.block(setting(size)), [0.0, height - size]);
        let high = height - words.size[1];
        both.hold(words.clone(), [width + 2.0 * grid.words, high]);
        both
    });
}
