//! The drawing so far, and whether another part has space in it.
//!
//! **Input:** the blank's lines and the dimensions placed so far, in the flat frame. **Output:** the parts that a
//! rectangle would touch. All parts of a dimension are parallel to the axes, so rectangles are enough. Never chooses a
//! position.

use std::ops::Range;
use traywright_document::steady::Steady;

use traywright_document::{Chords, Contour, Extent, Flat, PanelLabel, Point, Vector};

use super::Axis;
use super::drawing::Drawing;

/// The widest chord of an arc.
// Derived: a chord over 4 degrees leaves its arc by no more than 0.0007 of its radius.
const CHORD_DEG: f64 = 4.0;

/// The sheet with all that is drawn on it.
#[derive(Clone)]
pub(super) struct Room {
    /// The blank's lines, arcs as chords.
    blank: Vec<[Point; 2]>,
    /// The rectangle around each of them.
    bounds: Vec<Extent>,
    /// The lines of each contour, and each crease, with the rectangle around them, because most queries concern few of
    /// them.
    runs: Vec<(Extent, Range<usize>)>,
    words: Vec<Extent>,
    strokes: Vec<(Axis, Extent)>,
    leads: Vec<Extent>,
}

impl Axis {
    /// A point from its coordinates along the axis and across it.
    pub(super) fn point(self, along: f64, across: f64) -> Point {
        match self {
            Axis::AlongX => Point {
                x: along,
                y: across,
            },
            Axis::AlongY => Point {
                x: across,
                y: along,
            },
        }
    }

    /// The coordinate along the axis.
    pub(super) fn along(self, point: Point) -> f64 {
        match self {
            Axis::AlongX => point.x,
            Axis::AlongY => point.y,
        }
    }

    /// The coordinate across the axis.
    pub(super) fn across(self, point: Point) -> f64 {
        match self {
            Axis::AlongX => point.y,
            Axis::AlongY => point.x,
        }
    }

    /// The rectangle over a range along the axis and one across it.
    pub(super) fn rect(self, along: [f64; 2], across: [f64; 2]) -> Extent {
        Extent {
            least: self.point(along[0].min(along[1]), across[0].min(across[1])),
            most: self.point(along[0].max(along[1]), across[0].max(across[1])),
        }
    }
}

/// Length of the part of a straight line in the rectangle; none if they do not meet.
// Source: Liang and Barsky, "A new concept and method for line clipping", 1984.
fn share_in(rect: &Extent, [from, to]: [Point; 2]) -> Option<f64> {
    let Vector { x: run, y: rise } = to - from;
    let (mut enters, mut leaves) = (0.0_f64, 1.0_f64);
    let borders = [
        (-run, from.x - rect.least.x),
        (run, rect.most.x - from.x),
        (-rise, from.y - rect.least.y),
        (rise, rect.most.y - from.y),
    ];
    for (outward, distance) in borders {
        if outward == 0.0 {
            if distance < 0.0 {
                return None;
            }
        } else if outward < 0.0 {
            enters = enters.max(distance / outward);
        } else {
            leaves = leaves.min(distance / outward);
        }
    }
    (enters <= leaves).then(|| (leaves - enters) * run.steady_hypot(rise))
}

impl Room {
    /// The sheet with only the blank and what is printed on its panels.
    pub(super) fn new(flat: &Flat) -> Room {
        let mut room = Room {
            blank: Vec::new(),
            bounds: Vec::new(),
            runs: Vec::new(),
            words: Vec::new(),
            strokes: Vec::new(),
            leads: Vec::new(),
        };
        let cuts = flat.holes.iter().chain(&flat.open_cuts);
        for contour in std::iter::once(&flat.outline).chain(cuts) {
            room.add_run(|lines| add_contour(contour, lines));
        }
        for crease in &flat.creases {
            room.add_run(|lines| lines.push([crease.from, crease.to]));
        }
        let printed = flat.panel_labels.iter().filter(|label| label.is_drawn());
        room.keep_words(printed.map(PanelLabel::extent));
        room
    }

    /// Adds lines that are close together.
    fn add_run(&mut self, add: impl FnOnce(&mut Vec<[Point; 2]>)) {
        let first = self.blank.len();
        add(&mut self.blank);
        let bounds = self.blank[first..]
            .iter()
            .map(|[from, to]| Axis::AlongX.rect([from.x, to.x], [from.y, to.y]));
        self.bounds.extend(bounds);
        if let Some(around) = self.bounds[first..].iter().copied().reduce(Extent::with) {
            self.runs.push((around, first..self.blank.len()));
        }
    }

    /// Adds a placed dimension.
    pub(super) fn take(&mut self, drawing: &Drawing) {
        self.words.push(drawing.words);
        let strokes = drawing.strokes().map(|rect| (drawing.axis, *rect));
        self.strokes.extend(strokes);
        self.leads.extend_from_slice(&drawing.leads);
    }

    /// Adds words that are already on the drawing.
    pub(super) fn keep_words(&mut self, words: impl IntoIterator<Item = Extent>) {
        self.words.extend(words);
    }

    /// Keeps space clear for future leads.
    pub(super) fn keep_clear(&mut self, ways: impl IntoIterator<Item = Extent>) {
        self.leads.extend(ways);
    }

    /// The blank's lines, arcs as chords.
    pub(super) fn blank(&self) -> &[[Point; 2]] {
        &self.blank
    }

    /// Levels of the dimension lines placed so far along an axis.
    pub(super) fn levels(&self, axis: Axis) -> impl Iterator<Item = f64> {
        let strokes = self.strokes.iter().filter(move |(along, _)| *along == axis);
        strokes.map(move |(_, rect)| (axis.across(rect.least) + axis.across(rect.most)) / 2.0)
    }

    /// Lengths of the pieces of the blank's lines that lie in a rectangle.
    pub(super) fn blank_in(&self, rect: Extent) -> impl Iterator<Item = f64> {
        let runs = self.runs.iter();
        let near = runs.filter(move |(around, _)| rect.touches(around));
        near.flat_map(|(_, lines)| lines.clone())
            .filter(move |&line| rect.touches(&self.bounds[line]))
            .filter_map(move |line| share_in(&rect, self.blank[line]))
    }

    /// Whether a rectangle meets a line of the blank.
    pub(super) fn has_blank(&self, rect: Extent) -> bool {
        self.blank_in(rect).next().is_some()
    }

    /// Whether a rectangle meets words.
    pub(super) fn has_words(&self, rect: Extent) -> bool {
        self.words.iter().any(|words| words.touches(&rect))
    }

    /// Whether a rectangle meets the lines that lead to dimension lines.
    pub(super) fn has_leads(&self, rect: Extent) -> bool {
        self.leads.iter().any(|lead| lead.touches(&rect))
    }

    /// Whether a rectangle meets a dimension line that is widened by `beside` on both sides if it runs along `axis`.
    pub(super) fn has_strokes(&self, rect: Extent, axis: Axis, beside: f64) -> bool {
        self.strokes.iter().any(|(along, stroke)| {
            let border = match (*along == axis, axis) {
                (false, _) => (0.0, 0.0),
                (true, Axis::AlongX) => (0.0, beside),
                (true, Axis::AlongY) => (beside, 0.0),
            };
            stroke.wider(border.0, border.1).touches(&rect)
        })
    }
}

/// Adds the lines of a contour, arcs as chords.
fn add_contour(contour: &Contour, lines: &mut Vec<[Point; 2]>) {
    let corners = contour.corners(Chords::Spanning(CHORD_DEG));
    lines.extend(corners.windows(2).map(|ends| [ends[0], ends[1]]));
    lines.extend(
        contour
            .closed
            .then(|| [corners[corners.len() - 1], corners[0]]),
    );
}
