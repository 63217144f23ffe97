//! The cut-aways: how each kind of item lies in the closed box, what holds it, and the measures that matter.
//!
//! **Input:** the items of the document with what holds them. **Output:** for each kind of item a figure along the box,
//! and one across the box if a different stop holds the item there. **Does not** compute how an item is held.

use traywright_document::{CreaseKind, Held, Holder, Item, Stop};
use traywright_look::filled;
use traywright_paper::Block;

use crate::book::{Book, stacked};
use crate::cutaway_figure::CutawayFigure;
use crate::holding::held_by;
use crate::measuring::{Measure, Pen, Play};
use crate::section::{Axis, Section};
use crate::step_figures::Staging;
use crate::tray::BookletInput;
use crate::wording::Cutaway as Words;

/// A drawing takes so much of the page's width and height at most, among measures and on the cover.
const SHARE: [f64; 2] = [0.5, 0.4];
const COVER: [f64; 2] = [0.8, 0.16];
/// Cut-aways of more kinds of items than this are left out.
const MOST_KINDS: usize = 6;
/// A measure of less is none.
// Derived: half of the least that a length is written with.
const NOTHING_MM: f64 = 0.005;
/// Heights that differ by less are one.
const SAME_MM: f64 = 0.05;

/// Writes them.
pub(crate) fn figures(book: &mut Book, tray: &BookletInput, staging: &Staging) {
    for (item, _) in tray.document.kinds().take(MOST_KINDS) {
        for axis in [Axis::Along, Axis::Across] {
            let Some(held) = item.held.filter(|held| is_told(held, axis)) else {
                continue;
            };
            if let Some(section) = staging.section(item, axis) {
                let stop = match axis {
                    Axis::Along => held.along,
                    Axis::Across => held.across,
                };
                let cut = Cut {
                    tray,
                    item,
                    held,
                    stop,
                    axis,
                };
                cut.put(book, &section);
            }
        }
    }
}

/// The first kind of item in the closed box, cut along it, as the cover shows it: without measures.
pub(crate) fn cover(book: &mut Book, tray: &BookletInput, staging: &Staging) {
    let mut kinds = tray.document.kinds();
    let Some((item, _)) = kinds.find(|(item, _)| item.held.is_some()) else {
        return;
    };
    let Some(section) = staging.section(item, Axis::Along) else {
        return;
    };
    let figure = CutawayFigure {
        section: &section,
        item,
        measures: Vec::new(),
        play: None,
    };
    let zones = figure.zones(book.grid, COVER);
    let block = figure.block(book, &zones);
    let caption = filled(&tray.words().cover.cut_open, &[("item", &item.name)]);
    let caption = book.lines(&caption, book.grid.words, book.grid.width());
    let white = Block::new([0.0, 0.5 * book.grid.between()]);
    book.put(stacked([block, white, caption]));
}

/// Whether a figure along an axis says what the one before it does not.
fn is_told(held: &Held, axis: Axis) -> bool {
    let (one, other) = (&held.along, &held.across);
    let bears = |stop: &Stop| stop.heights[1] - stop.heights[0];
    axis == Axis::Along
        || one.by != other.by
        || one.firm != other.firm
        || (bears(one) - bears(other)).abs() > SAME_MM
}

/// An item cut along an axis.
struct Cut<'a> {
    tray: &'a BookletInput<'a>,
    item: &'a Item,
    held: Held,
    stop: Stop,
    axis: Axis,
}

impl Cut<'_> {
    fn put(&self, book: &mut Book, section: &Section) {
        let words = self.words();
        let figure = CutawayFigure {
            section,
            item: self.item,
            measures: self.measures(section),
            play: self.play(),
        };
        let zones = figure.zones(book.grid, SHARE);
        let form = match self.axis {
            Axis::Along => &words.along,
            Axis::Across => &words.across,
        };
        let scale = format!("1\u{a0}:\u{a0}{}", (1.0 / zones.factor).round());
        let caption = filled(form, &[("item", &self.item.name), ("scale", &scale)]);
        let caption = [Some(caption), self.held()].into_iter().flatten();
        let caption = caption.collect::<Vec<_>>().join(" ");
        let caption = book.lines(&caption, book.grid.words, book.grid.width());
        let block = figure.block(book, &zones);
        let white = || Block::new([0.0, 0.5 * book.grid.between()]);
        let figure = stacked([white(), caption, white(), block]);
        book.put(figure);
    }

    fn words(&self) -> &Words {
        &self.tray.words().cutaway
    }

    fn say(&self, form: &str, length: f64) -> String {
        filled(form, &[("length", &self.tray.lengths().say(length))])
    }

    fn bears(&self) -> f64 {
        self.stop.heights[1] - self.stop.heights[0]
    }

    /// What holds it, in a sentence.
    fn held(&self) -> Option<String> {
        let words = self.words();
        let by = match self.stop.by {
            Holder::Flaps => self.say(&words.by_flap, self.bears()),
            Holder::Fences => self.say(&words.by_fence, self.bears()),
            Holder::Nothing => self.say(&words.by_nothing, self.stop.travel),
            other => held_by(self.tray, other)?.to_owned(),
        };
        let is_springy = matches!(self.stop.by, Holder::Flaps | Holder::Fences) && !self.stop.firm;
        let by = match (is_springy, self.tray.document.board.crease) {
            (true, CreaseKind::Pressed) => filled(&words.springy, &[("by", &by)]),
            (true, CreaseKind::HalfCut) => filled(&words.limp, &[("by", &by)]),
            (false, _) => by,
        };
        Some(filled(&words.held, &[("by", &by)]))
    }

    /// The measures in height, those of no length left out.
    fn measures(&self, section: &Section) -> Vec<Measure> {
        let (words, item) = (self.words(), self.item);
        let top = item.rest + item.depth;
        let upright = item.rest + item.straight.unwrap_or(item.depth);
        let mut found: Vec<(&str, [f64; 2], Pen)> = vec![
            (&words.pad, [item.rest - item.pad, item.rest], Pen::Thin),
            (&words.item, [item.rest, top], Pen::Thin),
            (&words.rise, [top, top + self.held.rise], Pen::Thin),
        ];
        found.extend(self.held.deck.map(|deck| match top > deck {
            true => (words.above.as_str(), [deck, top], Pen::Thin),
            false => (words.below.as_str(), [top, deck], Pen::Thin),
        }));
        let hung = match self.held.deck {
            Some(_) => &words.flap,
            None => &words.fence,
        };
        found.extend(section.hung.map(|ends| (hung.as_str(), ends, Pen::Thin)));
        match (self.stop.by, section.low_end()) {
            (Holder::Nothing, Some(end)) => found.push((&words.gap, [upright, end], Pen::Fault)),
            (Holder::Nothing, None) => {}
            _ => found.push((&words.bears, self.stop.heights, Pen::Thick)),
        }
        let told = found
            .into_iter()
            .filter(|(_, [low, high], _)| high - low > NOTHING_MM);
        told.map(|(form, ends, pen)| Measure {
            text: self.say(form, ends[1] - ends[0]),
            ends,
            pen,
        })
        .collect()
    }

    /// The play at one side.
    fn play(&self) -> Option<Play> {
        let travel = self.stop.travel;
        let is_held = self.stop.by != Holder::Nothing && travel > NOTHING_MM;
        let lengths = self.tray.lengths();
        let [half, all] = [travel / 2.0, travel].map(|length| lengths.say(length));
        is_held.then(|| Play {
            length: travel / 2.0,
            text: filled(&self.words().play, &[("length", &half), ("all", &all)]),
        })
    }
}
