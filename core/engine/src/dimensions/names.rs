//! The names written into the openings, so that nobody confuses the openings on the card.
//!
//! **Input:** the names with their rectangles, and the blank's lines. **Output:** for each name a free position in its
//! rectangle. Moves nothing; a name without a free position is left out.

use traywright_document::steady::Steady;
use traywright_document::{Extent, Flat, Label, Point};

use super::room::Room;

/// Heights of the words, the largest first.
// Source: ISO 3098-1, nominal sizes of lettering (the series is from memory).
const HEIGHTS: [f64; 3] = [3.5, 2.5, 1.8];
/// Minimum distance from the words to a line.
const CLEAR: f64 = 1.2;
/// Positions tried in each direction, including the middle.
const TRIED: u32 = 25;

/// Writes each name into its rectangle, as large and as near to its middle as the lines allow.
///
/// Dimensions and labels already in `flat` are ignored.
pub fn name(named: &[(String, Extent)], flat: &Flat) -> Vec<Label> {
    let room = Room::new(flat);
    let label = |(text, inside): &(String, Extent)| label(text, inside, &room);
    named.iter().filter_map(label).collect()
}

/// The rectangle of a label's words.
pub(super) fn words(label: &Label) -> Extent {
    let half = width_of_words(&label.text, label.height) / 2.0;
    Extent {
        least: Point {
            x: label.at.x - half,
            y: label.at.y,
        },
        most: Point {
            x: label.at.x + half,
            y: label.at.y + label.height,
        },
    }
}

fn label(text: &str, inside: &Extent, room: &Room) -> Option<Label> {
    let middle = Point {
        x: (inside.least.x + inside.most.x) / 2.0,
        y: (inside.least.y + inside.most.y) / 2.0,
    };
    HEIGHTS.into_iter().find_map(|height| {
        let label = |at: Point| Label {
            text: text.to_owned(),
            at,
            height,
        };
        let free = |label: &Label| {
            // Letters such as g and p reach below the baseline.
            let words = words(label);
            let words = Extent {
                least: Point {
                    y: words.least.y - height / 3.0,
                    ..words.least
                },
                ..words
            };
            let border = words.wider(CLEAR, CLEAR);
            let lies_inside = border.least.x >= inside.least.x
                && border.most.x <= inside.most.x
                && border.least.y >= inside.least.y
                && border.most.y <= inside.most.y;
            lies_inside && !room.has_blank(border) && !room.has_words(border)
        };
        let away = |label: &Label| {
            (label.at.x - middle.x).steady_hypot(label.at.y + height / 2.0 - middle.y)
        };
        let free = places(inside, height).map(label).filter(free);
        free.min_by(|one, other| away(one).total_cmp(&away(other)))
    })
}

/// Baseline positions all over a rectangle, lower ones first.
pub(super) fn places(inside: &Extent, height: f64) -> impl Iterator<Item = Point> {
    let Extent { least, most } = *inside;
    let part = |step: u32| f64::from(step) / f64::from(TRIED - 1);
    let place = move |(row, column)| Point {
        x: least.x + (most.x - least.x) * part(column),
        y: least.y + (most.y - least.y) * part(row) - height / 2.0,
    };
    let rows = (0..TRIED).flat_map(|row| (0..TRIED).map(move |column| (row, column)));
    rows.map(place)
}

/// Maximum width of words.
// Source: DejaVu Sans, horizontal metrics: a lower-case letter is 0.84 of a capital's height wide on average (computed over
// a to z), a figure 0.872, an `m` 1.34; common names stay below this.
pub(crate) fn width_of_words(text: &str, height: f64) -> f64 {
    let letter = |letter: char| match letter {
        'm' | 'w' | 'M' | 'W' => 1.4,
        'i' | 'j' | 'l' | '.' | ' ' => 0.5,
        letter if letter.is_uppercase() || !letter.is_ascii() => 1.1,
        _ => 0.9,
    };
    text.chars().map(letter).sum::<f64>() * height
}
