//! Contours as path data: absolute M, L, A and Z in millimetres, exact to 0.0001.
//!
//! Given contours in the flat frame and the sheet; gives strokes between rounded places, with those that rounding has
//! shrunk to nothing left out, and the words of a `d` attribute. It uses no curve but the circle: C is never needed.

use std::collections::BTreeSet;

use traywright_document::{Chords, Contour, Edge};

use crate::drawing_area::DrawingArea;
use crate::ticks::{Tick, TickPoint};

/// The bend of an arc that sweeps at most a quarter of its circle.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Bend {
    radius: Tick,
    clockwise: bool,
}

/// A straight or bent line between two places that differ.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Stroke {
    from: TickPoint,
    to: TickPoint,
    bend: Option<Bend>,
}

impl Stroke {
    /// A stroke; none where both ends round to one place.
    fn new(from: TickPoint, to: TickPoint, bend: Option<Bend>) -> Option<Stroke> {
        (from != to).then_some(Stroke { from, to, bend })
    }

    /// The same stroke whichever way it was drawn.
    fn either_way(self) -> Stroke {
        if self.from <= self.to {
            return self;
        }
        let turned = |bend: Bend| Bend {
            clockwise: !bend.clockwise,
            ..bend
        };
        Stroke {
            from: self.to,
            to: self.from,
            bend: self.bend.map(turned),
        }
    }
}

/// The strokes of a contour, in order.
pub(crate) fn strokes(contour: &Contour, area: &DrawingArea) -> Vec<Stroke> {
    let mut strokes = Vec::new();
    for edge in contour.edges() {
        add_edge(&edge, area, &mut strokes);
    }
    strokes
}

/// The strokes that were not drawn before, whichever way they run.
pub(crate) fn unseen(strokes: Vec<Stroke>, seen: &mut BTreeSet<Stroke>) -> Vec<Stroke> {
    let mut fresh = strokes;
    fresh.retain(|stroke| seen.insert(stroke.either_way()));
    fresh
}

/// Path data of a ring: Z draws the last line, unless that is an arc.
pub(crate) fn closed(strokes: &[Stroke]) -> String {
    let ends_straight = strokes.last().is_some_and(|last| last.bend.is_none());
    let drawn = strokes.len() - usize::from(ends_straight);
    open(&strokes[..drawn]) + " Z"
}

/// Path data of strokes, with a new start wherever one does not go on from the last.
pub(crate) fn open(strokes: &[Stroke]) -> String {
    let mut words = Vec::new();
    let mut at = None;
    for stroke in strokes {
        if at != Some(stroke.from) {
            words.push(format!("M {}", stroke.from));
        }
        words.push(match stroke.bend {
            None => format!("L {}", stroke.to),
            Some(Bend { radius, clockwise }) => {
                let sweep = u8::from(clockwise);
                format!("A {radius} {radius} 0 0 {sweep} {}", stroke.to)
            }
        });
        at = Some(stroke.to);
    }
    words.join(" ")
}

/// Adds an edge, an arc in pieces of at most a quarter turn.
// Derived: with both ends and the radius rounded to d, the middle of an arc is out by about (1/cos(sweep/2) - 1) d,
// which is 0.41 d for a quarter turn and without bound for a half turn.
fn add_edge(edge: &Edge, area: &DrawingArea, strokes: &mut Vec<Stroke>) {
    // An arc that leaves its chord by less than the rounding is its chord.
    let arc = edge.arc().filter(|_| edge.rise() >= 0.000_05);
    let bend = arc.map(|arc| Bend {
        radius: Tick::new(arc.radius),
        // Seen on paper the direction stays: y is turned round and the sweep flag counts with it.
        clockwise: edge.bulge < 0.0,
    });
    let between = bend.map_or(Vec::new(), |_| edge.between(Chords::Spanning(90.0)));
    let mut last = area.place(edge.from);
    for next in between.into_iter().chain([edge.to]) {
        let next = area.place(next);
        strokes.extend(Stroke::new(last, next, bend));
        last = next;
    }
}

#[cfg(test)]
mod tests;
