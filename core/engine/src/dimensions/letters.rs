//! The letters of the parts, each written on its panel.
//!
//! **Input:** a document with its panels, its steps, and the lines, names and dimensions of its blank. **Output:** a letter for each panel
//! with room for one, in the flat frame: inside the panel, off every line, every name and every dimension. A panel without room, such as
//! a bridge, has none; the map in the booklet has them all. **Does not** choose the letters, which `Document::parts` does.

use traywright_document::steady::Steady;
use traywright_document::{Chords, Dimension, Document, Extent, Label, Panel, Point};

use super::names::{places, words};
use super::room::Room;

/// Heights of the letters with the white that they keep from lines, the largest first.
// Source: ISO 3098-1, nominal sizes of lettering (the series is from memory); for the white common practice, none published.
const SIZES: [(f64, f64); 3] = [(5.0, 4.0), (3.5, 2.5), (2.5, 1.2)];
/// White between a letter and the figures of dimensions, which look alike.
// Source: common practice, none published.
const APART: f64 = 2.0;
/// Of a part with more panels than this only the first few carry letters: one opening tells how the flaps of all are called.
const MANY: usize = 16;
const FIRST_FEW: usize = 4;
/// The widest chord of an arc.
const CHORDS: Chords = Chords::Spanning(4.0);

/// Writes the letters of the parts onto their panels.
pub fn letters(document: &Document) -> Vec<Label> {
    let mut room = Room::new(&document.flat);
    room.keep_words(document.flat.labels.iter().map(words));
    room.keep_words(document.flat.dimensions.iter().flat_map(reach));
    let parts = document.parts();
    let told = parts.iter().flat_map(|part| {
        let most = match part.panels.len() {
            count if count > MANY => FIRST_FEW,
            count => count,
        };
        let panels = part.panels.iter().take(most);
        panels.filter_map(|&panel| letter(&part.letter, &document.panels[panel], &room))
    });
    told.collect()
}

/// The room that a dimension takes: its figure, with white around it, and its lines.
fn reach(dimension: &Dimension) -> Vec<Extent> {
    let figure = words(&Label {
        text: dimension.text.clone(),
        at: dimension.text_at,
        height: dimension.text_height,
    });
    let lines = std::iter::once(&dimension.line).chain(&dimension.extensions);
    let lines = lines.map(|line| Extent::around(*line));
    lines.chain([figure.wider(APART, APART)]).collect()
}

/// A letter as large and as near to the middle of its panel as the lines allow.
fn letter(text: &str, panel: &Panel, room: &Room) -> Option<Label> {
    let rings: Vec<Vec<Point>> = panel.contours().map(|ring| ring.corners(CHORDS)).collect();
    let around = Extent::around(rings.iter().flatten().copied());
    let middle = around.least.middle(around.most);
    SIZES.into_iter().find_map(|(height, clear)| {
        let label = |at: Point| Label {
            text: text.to_owned(),
            at,
            height,
        };
        let centre = |label: &Label| Point::new(label.at.x, label.at.y + height / 2.0);
        let free = |label: &Label| {
            let border = words(label).wider(clear, clear);
            contains(&rings, centre(label)) && !room.has_blank(border) && !room.has_words(border)
        };
        let away = |label: &Label| {
            let way = centre(label) - middle;
            way.x.steady_hypot(way.y)
        };
        let free = places(&around, height).map(label).filter(free);
        free.min_by(|one, other| away(one).total_cmp(&away(other)))
    })
}

/// Whether a point lies within an outline and in none of its holes.
// Derived: a ray to the right crosses the edges around such a point an odd number of times.
fn contains(rings: &[Vec<Point>], at: Point) -> bool {
    let crossed = |ring: &Vec<Point>| {
        let edges = ring.iter().zip(ring.iter().cycle().skip(1));
        let right = edges.filter(|(from, to)| {
            let spans = (from.y <= at.y) != (to.y <= at.y);
            spans && from.x + (at.y - from.y) / (to.y - from.y) * (to.x - from.x) > at.x
        });
        right.count()
    };
    rings.iter().map(crossed).sum::<usize>() % 2 == 1
}
