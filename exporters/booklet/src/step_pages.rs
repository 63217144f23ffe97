//! The pages of folding: one action a step, one figure a step, in the order that was checked.
//!
//! Each step begins with its number, says in the language of the job which panel goes where, and then what the style says
//! about it.

use traywright_document::{Action, Document, DrawnFace, Step};
use traywright_look::filled;
use traywright_paper::Block;

use crate::book::Book;
use crate::figure::{Figure, Setting};
use crate::holding;
use crate::part_map;
use crate::sense::Sense;
use crate::step_figures::{Staging, StepFigure};
use crate::tray::BookletInput;

/// Share of the page's width that a step's figure takes.
const FIGURE: f64 = 0.72;
/// Height of a step's figure over its width, at least and at most, where the page asks for no other.
const LEAST_HEIGHT: f64 = 0.35;
const HEIGHT: f64 = 0.62;
/// The same of the two figures of a tray that is turned over.
const TURNED_OVER: f64 = 0.42;
/// How far a page may squeeze and stretch it.
// Source: common practice, none published; chosen by looking at the pages.
const ELASTIC: [f64; 3] = [0.8, 1.0, 1.25];
/// White between a tray before and after it is turned, over the width of both.
const BETWEEN: f64 = 0.16;
/// Height of the figures of a tray that is turned round, over the width of both.
const TURN: f64 = 0.3;
/// Writes all steps.
pub(crate) fn pages(book: &mut Book, tray: &BookletInput, staging: &Staging) {
    let words = &tray.words().folding;
    book.title(&words.title);
    let begin = match tray.document.output.drawn_face {
        DrawnFace::Inside => &words.begin,
        DrawnFace::Outside => &words.begin_outside,
    };
    for sentence in [begin, &words.reading] {
        book.lead(book.lines(sentence, book.grid.words, book.grid.width()));
    }
    if is_named_by_sides(tray.document) {
        let names = match tray.document.output.drawn_face {
            DrawnFace::Inside => &words.names,
            DrawnFace::Outside => &words.names_outside,
        };
        book.lead(book.lines(names, book.grid.words, book.grid.width()));
    }
    let steps = &tray.document.steps;
    for index in 0..steps.len() {
        let staged = staging.step(index, &|sense| sense_word(tray, sense).to_owned());
        let text = sentences(tray, index, &staged);
        if let Some(figures) = &staged.turned_round {
            book.lead(turn_block(book, tray, figures));
        }
        put_step(book, tray, index, staged, &text);
    }
}

/// Whether a panel's name says on which side of the drawing it lies.
fn is_named_by_sides(document: &Document) -> bool {
    let names = document.panels.iter().map(|panel| &panel.name);
    let mut parts = names.flat_map(|name| name.split('-'));
    parts.any(|part| matches!(part, "south" | "north" | "west" | "east"))
}

/// The tray before and after it is turned round, and the words for it.
fn turn_block(book: &Book, tray: &BookletInput, figures: &[Figure; 2]) -> Block {
    let grid = book.grid;
    let size = [FIGURE * grid.width(), TURN * FIGURE * grid.width()];
    let left = size[0] + 2.0 * grid.words;
    let words = &tray.words().folding.round;
    let words = book.lines(words, grid.words, grid.width() - left);
    let setting = Setting {
        font: book.font,
        capital: 0.9 * grid.words,
        size,
    };
    let mut block = Block::new([grid.width(), size[1].max(words.size[1])]);
    let height = block.size[1];
    block.hold(
        before_and_after(figures.each_ref(), setting),
        [0.0, height - size[1]],
    );
    let top = height - words.size[1];
    block.hold(words, [left, top]);
    block
}

/// The words for a sense.
fn sense_word<'a>(tray: &BookletInput<'a>, sense: Sense) -> &'a str {
    let words = &tray.words().folding;
    match sense {
        Sense::Up => &words.up,
        Sense::Down => &words.down,
        Sense::Over => &words.over,
        Sense::In => &words.inward,
        Sense::Out => &words.outward,
    }
}

/// What a step says: our own line, the style's, why, and what to check.
fn sentences(tray: &BookletInput, index: usize, staged: &StepFigure) -> Vec<String> {
    let words = &tray.words().folding;
    let steps = &tray.document.steps;
    let step = &steps[index];
    let is_place = matches!(step.action, Action::Place);
    let mut sentences = if is_place {
        holding::pads_under(tray)
    } else {
        Vec::new()
    };
    sentences.extend(short(tray, step, &staged.senses));
    if !step.words.is_empty() {
        sentences.push(tray.said(&step.words).to_owned());
    }
    sentences.extend(repeats(tray, index));
    let tongues = tray.file.drawing.tongues.of(step.tongues);
    sentences.extend(tongues.map(str::to_owned));
    if is_place {
        sentences.extend(holding::held(tray));
    }
    sentences.extend(staged.is_lifted.then(|| words.lifted.clone()));
    let begins_group = index == 0 || steps[index - 1].why != step.why;
    if begins_group && !step.why.is_empty() {
        sentences.push(filled(&words.why, &[("why", tray.said(&step.why))]));
    }
    sentences.extend(springs(tray, index));
    sentences
}

/// That a step is done with more than one part: its own sentences speak of one.
fn repeats(tray: &BookletInput, index: usize) -> Option<String> {
    let words = &tray.words().folding;
    match tray.times.get(index).copied().unwrap_or(1) {
        0 | 1 => None,
        2 => Some(words.other_one.clone()),
        times => {
            let others = (times - 1).to_string();
            Some(filled(&words.others, &[("others", &others)]))
        }
    }
}

/// That a wall springs back, beside the first fold, unless the tray stands at once.
fn springs(tray: &BookletInput, index: usize) -> Option<String> {
    let words = &tray.words().folding;
    let steps = &tray.document.steps;
    let first = steps
        .iter()
        .position(|step| matches!(step.action, Action::Fold(_)));
    let said = match steps.iter().position(|step| step.stands) {
        Some(stands) if stands <= index => return None,
        Some(_) => &words.springs,
        None => &words.springs_in_box,
    };
    (first == Some(index)).then(|| said.clone())
}

/// Which panels go where, or what else is done; none of an action of a later release.
fn short(tray: &BookletInput, step: &Step, senses: &[Sense]) -> Option<String> {
    let words = &tray.words().folding;
    let moves = match &step.action {
        // The style says more of it, if it says anything.
        Action::Turn if step.words.is_empty() => return Some(words.turn.clone()),
        Action::Turn => return None,
        Action::Place => return Some(filled(&words.place, &[("items", &tray.item_names())])),
        Action::Fold(moves) => moves,
        _ => return None,
    };
    let names = part_map::moved(tray, moves);
    let sense = senses.first().map_or("", |sense| sense_word(tray, *sense));
    let gaps = [("panels", names), ("sense", sense.to_owned())];
    let gaps = gaps.each_ref().map(|(name, value)| (*name, value.as_str()));
    Some(filled(&words.fold, &gaps))
}

/// What a maker should stop and check: that the tray stands, as soon as all its walls are held, and its outside when all is
/// folded.
fn checks(tray: &BookletInput, index: usize) -> Vec<String> {
    let words = &tray.words().folding;
    let steps = &tray.document.steps;
    // What goes into no box stands and is measured on a page of its own.
    if !tray.document.has_box() {
        return Vec::new();
    }
    let mut checks = Vec::from_iter(steps[index].stands.then(|| words.check_walls.clone()));
    // Flaps hang after the turn and change nothing outside.
    let turn = steps
        .iter()
        .position(|step| matches!(step.action, Action::Turn));
    let last_fold = steps[..turn.unwrap_or(steps.len())]
        .iter()
        .rposition(|step| matches!(step.action, Action::Fold(_)));
    if Some(index) == last_fold {
        let outside = tray.lengths().size(&tray.outside());
        let inside = tray.document.box_size;
        let inside = [inside.length, inside.width, inside.depth].map(|side| side.mm());
        let inside = tray.lengths().size(&inside);
        let gaps = [("outside", outside.as_str()), ("box", &inside)];
        checks.push(filled(&words.check_outside, &gaps));
    }
    // The ends are within reach until the lid closes over them.
    let ends_done = steps.iter().position(|step| step.stands).or(last_fold);
    if Some(index) == ends_done && tray.document.friction {
        checks.push(match steps[index].tongues {
            0 => words.friction.clone(),
            _ => words.friction_tongues.clone(),
        });
    }
    checks
}

/// Puts a step: its heading, its figures, and the words beside them.
fn put_step(
    book: &mut Book,
    tray: &BookletInput,
    index: usize,
    staged: StepFigure,
    text: &[String],
) {
    let (grid, font) = (book.grid, book.font);
    let heading = heading(book, tray, index);
    let width = FIGURE * grid.width();
    let text_left = width + 2.0 * grid.words;
    let text_width = grid.width() - text_left;
    let mut column: Vec<Block> = text
        .iter()
        .map(|words| book.lines(words, grid.words, text_width))
        .collect();
    let checks = checks(tray, index).into_iter();
    column.extend(checks.map(|words| book.entry(&words, true, text_width)));
    let column = column_of(column, 0.7 * grid.words, text_width);
    let setting = move |height: f64| Setting {
        font,
        capital: 0.9 * grid.words,
        size: [width, height],
    };
    let usual = match staged.figures.as_slice() {
        [figure] => figure
            .height(setting(0.0))
            .clamp(LEAST_HEIGHT * width, HEIGHT * width),
        _ => TURNED_OVER * width,
    };
    let above = heading.size[1] + 1.0;
    let heights = ELASTIC.map(|part| above + (part * usual).max(column.size[1]));
    let most = ELASTIC[2] * usual;
    book.put_elastic(heights, move |height| {
        let mut block = Block::new([grid.width(), height]);
        block.hold(heading.clone(), [0.0, height - heading.size[1]]);
        let below = height - above;
        let size = below.min(most);
        let drawn = figures(&staged.figures, setting(size));
        block.hold(drawn, [0.0, below - size]);
        let bottom = below - column.size[1];
        block.hold(column.clone(), [text_left, bottom]);
        block
    });
}

/// The number of a step, and how often it is done.
fn heading(book: &Book, tray: &BookletInput, index: usize) -> Block {
    let count = tray.document.steps.len().to_string();
    let gaps = [("n", &*(index + 1).to_string()), ("count", &count)];
    let mut heading = filled(&tray.words().folding.step, &gaps);
    if let Some(times) = tray.times.get(index).filter(|times| **times > 1) {
        heading.push_str(&format!("\u{2003}×\u{a0}{times}"));
    }
    book.lines(&heading, book.grid.heading * 0.9, book.grid.width())
}

/// Blocks below one another, each with a gap beneath it.
fn column_of(blocks: Vec<Block>, gap: f64, width: f64) -> Block {
    let height = blocks.iter().map(|block| block.size[1] + gap).sum();
    let mut column = Block::new([width, height]);
    let mut top = height;
    for block in blocks {
        top -= block.size[1];
        column.hold(block, [0.0, top]);
        top -= gap;
    }
    column
}

/// The figure of a step: one, or two where the tray was turned over.
fn figures(figures: &[Figure], setting: Setting) -> Block {
    match figures {
        [before, after] => before_and_after([before, after], setting),
        _ => figures[0].block(setting),
    }
}

/// Two figures side by side.
fn before_and_after(figures: [&Figure; 2], setting: Setting) -> Block {
    let [width, height] = setting.size;
    let each = Setting {
        size: [(1.0 - BETWEEN) / 2.0 * width, height],
        ..setting
    };
    let mut block = Block::new(setting.size);
    for (at, figure) in figures.into_iter().enumerate() {
        let left = at as f64 * (each.size[0] + BETWEEN * width);
        block.hold(figure.block(each), [left, 0.0]);
    }
    block
}
