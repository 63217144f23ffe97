//! One dimension as lines and words, and whether it collides with other parts of the drawing.
//!
//! **Input:** a length, the level of its dimension line across the axis and a spot for its words. **Output:** the
//! strokes, the leads and the rectangle of the words, and whether all of it is free. **Does not** choose.
//!
//! ```text
//!        lead |    words     |                  |  words
//!             |<-- stroke -->|   or, short:  -->|<------ tail
//! ```

use traywright_document::{Dimension, Extent, Point};

use super::room::Room;
use super::span::Span;
use super::{Axis, HEAD_LENGTH, TEXT_HEIGHT};

/// Distance from a line of the blank to the first dimension line.
// Source: common practice, none published: 8 to 10 mm.
pub(super) const FIRST: f64 = 9.0;
/// Distance from one dimension line to the next.
// Source: common practice, none published: at least 7 mm.
pub(super) const NEXT: f64 = 7.0;
/// Minimum distance of parallel dimension lines on different levels.
const APART: f64 = 5.0;
/// A lead starts at this distance from the measured line, and extends beyond the dimension line by twice as much.
// Source: common practice, none published.
pub(super) const GAP: f64 = 1.0;
/// Distance of words from their own line.
pub(super) const WORDS_OFF: f64 = 0.8;
/// Minimum distance of words from any other line.
const WORDS_CLEAR: f64 = 0.6;
/// Half the width of an arrow head: a third as wide as it is long.
pub(super) const HEAD_HALF: f64 = HEAD_LENGTH / 6.0;
/// The ends of a dimension line are on lines of the blank on purpose, so this much of each end may touch the blank.
pub(super) const END_FREE: f64 = 1.0;
/// Lines of one chain of dimensions touch at their ends, and tails start on measured lines: no collision.
const TOUCHING: f64 = 0.3;
/// Length of a tail with an arrow head outside.
const TAIL: f64 = 2.0 * HEAD_LENGTH;

/// A dimension at its position.
pub(super) struct Drawing {
    pub(super) axis: Axis,
    pub(super) words: Extent,
    /// The dimension line, as wide as an arrow head.
    stroke: Extent,
    /// Its tails, equally wide.
    tails: Vec<Extent>,
    /// The lines that lead to it.
    pub(super) leads: Vec<Extent>,
    line: [Point; 2],
    extensions: Vec<[Point; 2]>,
}

/// A position for the words, with the tails of the dimension line beyond the length.
pub(super) struct Spot {
    words: Extent,
    /// Ranges along the axis, from the length outwards.
    tails: Vec<[f64; 2]>,
    /// How much worse than the best spot it is.
    pub(super) cost: f64,
}

impl Drawing {
    /// Draws a length at a level with its words at a spot.
    pub(super) fn new(span: &Span, across: f64, spot: Spot) -> Drawing {
        let axis = span.axis;
        let [low, high] = span.ends.map(|end| end.along);
        let own_end = TOUCHING.min((high - low) / 4.0);
        let stroke = |along| axis.rect(along, [across - HEAD_HALF, across + HEAD_HALF]);
        let line = stroke([low + own_end, high - own_end]);
        let tails = spot.tails.iter().map(|[from, to]| {
            let outwards = (to - from).signum();
            stroke([from + outwards * TOUCHING, *to])
        });
        let tails = tails.collect();
        let mut extensions = leads(span, across);
        let thin = |[from, to]: &[Point; 2]| {
            Axis::AlongX
                .rect([from.x, to.x], [from.y, to.y])
                .wider(0.1, 0.1)
        };
        let leads = extensions.iter().map(thin).collect();
        let carried = spot.tails.iter();
        extensions.extend(carried.map(|tail| tail.map(|along| axis.point(along, across))));
        Drawing {
            axis,
            words: spot.words,
            stroke: line,
            tails,
            leads,
            line: [axis.point(low, across), axis.point(high, across)],
            extensions,
        }
    }

    /// The dimension as exporters draw it.
    pub(super) fn dimension(self, text: &str) -> Dimension {
        Dimension {
            text: text.to_owned(),
            text_at: Point {
                x: (self.words.least.x + self.words.most.x) / 2.0,
                y: self.words.least.y,
            },
            text_height: TEXT_HEIGHT,
            line: self.line,
            extensions: self.extensions,
        }
    }

    /// Whether no part of it is left of the blank or above it.
    pub(super) fn is_beside(&self, extent: Extent) -> bool {
        let Extent { least, most } = extent;
        let mut points = self.line.iter().chain(self.extensions.iter().flatten());
        self.words.least.x >= least.x
            && self.words.most.y <= most.y
            && points.all(|point| point.x >= least.x - 0.01 && point.y <= most.y + 0.01)
    }

    /// The dimension line and its tails.
    pub(super) fn strokes(&self) -> impl Iterator<Item = &Extent> {
        std::iter::once(&self.stroke).chain(&self.tails)
    }

    /// Whether it meets no other dimension, and its words and tails no line of the blank. The dimension line itself was
    /// checked against the blank before.
    pub(super) fn is_free(&self, room: &Room) -> bool {
        let words = self.words.wider(WORDS_CLEAR, WORDS_CLEAR);
        let words_free = !room.has_blank(words)
            && !room.has_words(words)
            && !room.has_leads(words)
            && !room.has_strokes(words, self.axis, 0.0)
            && !self.leads.iter().any(|lead| lead.touches(&words));
        words_free
            && !self.tails.iter().any(|tail| room.has_blank(*tail))
            && self.strokes().all(|stroke| {
                !room.has_words(stroke.wider(WORDS_CLEAR, WORDS_CLEAR))
                    && !room.has_leads(*stroke)
                    && !room.has_strokes(*stroke, self.axis, APART)
            })
            && self.leads.iter().all(|lead| {
                !room.has_words(lead.wider(WORDS_CLEAR, WORDS_CLEAR))
                    && !room.has_strokes(*lead, self.axis, 0.0)
            })
    }
}

/// The lines from the measured edges past the dimension line.
pub(super) fn leads(span: &Span, across: f64) -> Vec<[Point; 2]> {
    let mut leads = Vec::new();
    for end in &span.ends {
        let (edge, outwards) = if across > end.reach[1] {
            (end.reach[1], 1.0)
        } else {
            (end.reach[0], -1.0)
        };
        if end.away(across) > 0.0 {
            let range = [edge + outwards * GAP, across + outwards * 2.0 * GAP];
            leads.push(range.map(|across| span.axis.point(end.along, across)));
        }
    }
    leads
}

/// The possible positions of a dimension line's words: above a line along x, on either side of a line along y.
pub(super) fn spots(span: &Span, across: f64) -> Vec<Spot> {
    let sides: &[f64] = match span.axis {
        Axis::AlongX => &[1.0],
        Axis::AlongY => &[1.0, -1.0],
    };
    let mut spots = Vec::new();
    for (order, &side) in sides.iter().enumerate() {
        let near = across + side * WORDS_OFF;
        let aside = [near, near + side * size_across(span)];
        let own = between(span).into_iter().chain(beyond(span));
        spots.extend(own.map(|(along, tails, cost)| Spot {
            words: span.axis.rect(along, aside),
            tails,
            cost: cost + order as f64,
        }));
    }
    spots
}

/// A range along the axis for the words, its tails, and its cost.
type Along = ([f64; 2], Vec<[f64; 2]>, f64);

/// Words between the ends, in the middle or moved aside.
fn between(span: &Span) -> Vec<Along> {
    let [low, high] = span.ends.map(|end| end.along);
    let size = size_along(span);
    let slack = high - low - size - 2.0 * WORDS_OFF;
    if slack < 0.0 {
        return Vec::new();
    }
    let shares = [
        (0.0, 0.0),
        (0.25, 2.0),
        (-0.25, 2.0),
        (0.48, 3.0),
        (-0.48, 3.0),
    ];
    let ranges = shares.map(|(share, cost)| {
        let middle = (low + high) / 2.0 + share * slack;
        let range = [middle - size / 2.0, middle + size / 2.0];
        (range, head_tails(span), cost)
    });
    ranges.into()
}

/// Words beyond one end, above or beside a tail.
fn beyond(span: &Span) -> Vec<Along> {
    let [low, high] = span.ends.map(|end| end.along);
    let size = size_along(span);
    let (off, least) = match span.is_short() {
        true => (HEAD_LENGTH + WORDS_OFF, TAIL),
        false => (WORDS_OFF, 0.0),
    };
    let ranges = [(high, 1.0), (low, -1.0)].map(|(end, outwards)| {
        let mut tails = head_tails(span);
        tails.retain(|tail| tail[0] != end);
        tails.push([end, end + outwards * (off + size).max(least)]);
        let range = [end + outwards * off, end + outwards * (off + size)];
        (range, tails, 6.0)
    });
    ranges.into()
}

/// The tails with the arrow heads of a short length.
fn head_tails(span: &Span) -> Vec<[f64; 2]> {
    let [low, high] = span.ends.map(|end| end.along);
    match span.is_short() {
        true => vec![[low, low - TAIL], [high, high + TAIL]],
        false => Vec::new(),
    }
}

/// Size of the words along the axis.
fn size_along(span: &Span) -> f64 {
    match span.axis {
        Axis::AlongX => span.text_width,
        Axis::AlongY => TEXT_HEIGHT,
    }
}

/// Size of the words across the axis.
fn size_across(span: &Span) -> f64 {
    match span.axis {
        Axis::AlongX => TEXT_HEIGHT,
        Axis::AlongY => span.text_width,
    }
}
