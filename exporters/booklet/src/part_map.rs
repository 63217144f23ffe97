//! The map of lettered parts: the blank with a letter on each part, and the names of the letters beside it.
//!
//! **Input:** the parts of the document. **Output:** a section at the front of the booklet, and for each step the names of
//! what it folds, with their letters. **Does not** choose a letter: `Document::parts` does, for every file alike.

use traywright_document::{Document, Move, PartKind};
use traywright_look::filled;
use traywright_paper::Block;

use crate::blank::{About, figure};
use crate::book::Book;
use crate::card::chords;
use crate::drawn::inner_place;
use crate::figure::{Figure, Label, Setting};
use crate::tray::BookletInput;
use crate::visible::{Region, Seen, area};

/// Share of the page's width that the map takes.
const FIGURE: f64 = 0.7;
/// Of a part with more panels than this only the first few have letters on the map.
const MANY: usize = 16;
const FIRST_FEW: usize = 4;
/// More panels than this are not all named.
const MOST_NAMED: usize = 4;

/// Writes the section.
pub(crate) fn map(book: &mut Book, tray: &BookletInput) {
    let (grid, words) = (book.grid, &tray.words().parts);
    let parts = tray.document.parts();
    if parts.is_empty() {
        return;
    }
    book.title(&words.title);
    let on_blank = (!tray.document.flat.letters.is_empty()).then_some(words.on_blank.as_str());
    let about: Vec<&str> = std::iter::once(words.about.as_str())
        .chain(on_blank)
        .collect();
    book.lead(book.lines(&about.join(" "), grid.words, grid.width()));
    let [length, width] = tray.blank();
    let across = FIGURE * grid.width();
    let usual = (across * width / length + 4.0).min(0.5 * grid.height());
    let figure = lettered(tray, &parts);
    let left = across + 2.0 * grid.words;
    let names = names(book, tray, &parts, grid.width() - left);
    let heights = [0.75, 1.0, 1.0].map(|part| (part * usual).max(names.size[1]));
    let font = book.font;
    book.put_elastic(heights, move |height| {
        let size = [across, height.min(usual)];
        let setting = Setting {
            font,
            capital: grid.words,
            size,
        };
        let mut block = Block::new([grid.width(), height]);
        block.hold(figure.block(setting), [0.0, height - size[1]]);
        let high = height - names.size[1];
        block.hold(names.clone(), [left, high]);
        block
    });
}

/// The blank with a letter for each panel.
fn lettered(tray: &BookletInput, parts: &[PartKind]) -> Figure {
    let mut map = figure(&tray.document.flat, About::All);
    for part in parts {
        let most = match part.panels.len() {
            count if count > MANY => FIRST_FEW,
            count => count,
        };
        let panels = part.panels.iter().take(most);
        map.labels.extend(panels.filter_map(|&panel| {
            let contours = tray.document.panels[panel].contours();
            let ring = |contour| chords(contour).iter().map(|at| [at.x, at.y]).collect();
            let region: Region = contours.map(ring).collect::<Vec<Vec<Seen>>>();
            Some(Label {
                text: part.letter.clone(),
                at: inner_place(&region)?,
                within: vec![region],
                leads: true,
            })
        }));
    }
    // Letters that fit into their panels have their places before those that must stand beside them.
    let size = |label: &Label| label.within.iter().map(area).sum::<f64>();
    map.labels
        .sort_by(|one, other| size(other).total_cmp(&size(one)));
    map
}

/// The letters with their names, one under the other.
fn names(book: &Book, tray: &BookletInput, parts: &[PartKind], width: f64) -> Block {
    let capital = book.grid.words;
    let indent = 3.5 * capital;
    let rows: Vec<(Block, Block)> = parts
        .iter()
        .map(|part| {
            let name = tray.file.drawing.part_name(part.word);
            let name = book.lines(&name, capital, width - indent);
            (book.lines(&part.letter, capital, indent), name)
        })
        .collect();
    let gap = 0.6 * capital;
    let height = rows.iter().map(|(_, name)| name.size[1] + gap).sum();
    let mut block = Block::new([width, height]);
    let mut top = height;
    for (letter, name) in rows {
        let (low, first) = (top - name.size[1], top - letter.size[1]);
        top = low - gap;
        block.hold(letter, [0.0, first]);
        block.hold(name, [indent, low]);
    }
    block
}

/// The letter of each panel.
pub(crate) fn letters(document: &Document) -> Vec<String> {
    let mut letters = vec![String::new(); document.panels.len()];
    for part in document.parts() {
        for &panel in &part.panels {
            letters[panel] = part.letter.clone();
        }
    }
    letters
}

/// What a step folds: each part by its name and its letter, and by the names of its panels where it folds some of them.
pub(crate) fn moved(tray: &BookletInput, moves: &[Move]) -> String {
    let words = &tray.words().parts;
    let parts = tray.document.parts();
    let moved = |panel: &usize| moves.iter().any(|one| one.panel == *panel);
    let told = parts.iter().filter_map(|part| {
        let own: Vec<&usize> = part.panels.iter().filter(|panel| moved(panel)).collect();
        let form = match own.len() {
            0 => return None,
            count if count == part.panels.len() => &words.lettered,
            _ => &words.some,
        };
        let mut names: Vec<String> = own
            .iter()
            .take(MOST_NAMED)
            .map(|&&panel| tray.document.panels[panel].name.clone())
            .collect();
        if own.len() > MOST_NAMED {
            let more = (own.len() - MOST_NAMED).to_string();
            names.push(filled(&tray.words().and_more, &[("count", &more)]));
        }
        let name = tray.file.drawing.part_name(part.word);
        let gaps = [
            ("part", name.as_str()),
            ("letter", &part.letter),
            ("panels", &names.join(", ")),
        ];
        Some(filled(form, &gaps))
    });
    begun(&told.collect::<Vec<_>>().join("; "))
}

/// A sentence begins with a capital.
fn begun(words: &str) -> String {
    let mut letters = words.chars();
    let first = letters.next().into_iter().flat_map(char::to_uppercase);
    first.chain(letters).collect()
}
