//! The corners of the blank with numbers, and how they are joined, for those who draw it by hand.
//!
//! Given the lines of the blank; gives points counted from its left and lower edge, rounded to a step where one is given,
//! each once, the outline's first. Reliefs too small for a pencil are left out: they are pricked.

use traywright_document::{Contour, Flat, Point, ProcessingStep};

use crate::card::chords;
use crate::visible::Seen;

/// A closed hole that is smaller in both directions is a relief.
// Source: common practice, none published: what is under a millimetre is pricked and not drawn.
const RELIEF_MM: f64 = 1.0;
/// Points nearer to each other than this are one.
const SAME_MM: f64 = 1e-4;

/// Numbered points and the runs that join them.
#[derive(Clone, Debug, Default)]
pub(crate) struct Points {
    /// Where each stands, from the left and from the lower edge.
    pub(crate) places: Vec<Seen>,
    pub(crate) runs: Vec<Run>,
}

/// Points joined by lines.
#[derive(Clone, Debug)]
pub(crate) struct Run {
    pub(crate) kind: RunKind,
    /// Indices of the points, in order.
    pub(crate) points: Vec<usize>,
}

/// What is done along a run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum RunKind {
    Outline,
    Hole,
    Cut,
    Inwards,
    Outwards,
}

impl RunKind {
    /// All kinds, in the order in which they are drawn.
    pub(crate) const ALL: [RunKind; 5] = [
        RunKind::Outline,
        RunKind::Inwards,
        RunKind::Outwards,
        RunKind::Hole,
        RunKind::Cut,
    ];
}

impl Points {
    /// The points of a blank.
    pub(crate) fn of(flat: &Flat, step: Option<f64>) -> Points {
        let mut points = Points::default();
        let least = flat.extent.least;
        let place = |point: Point| {
            [point.x - least.x, point.y - least.y].map(|side| match step {
                Some(step) => (side / step).round() * step,
                None => side,
            })
        };
        let mut join = |kind: RunKind, corners: &[Point]| {
            let mut run: Vec<usize> = corners
                .iter()
                .map(|&corner| points.number(place(corner)))
                .collect();
            run.dedup();
            if run.len() > 1 {
                points.runs.push(Run { kind, points: run });
            }
        };
        join(RunKind::Outline, &chords(&flat.outline));
        for crease in &flat.creases {
            let kind = match crease.step() {
                ProcessingStep::ReverseCreasing => RunKind::Outwards,
                _ => RunKind::Inwards,
            };
            join(kind, &[crease.from, crease.to]);
        }
        for hole in flat.holes.iter().filter(|hole| !is_relief(hole)) {
            join(RunKind::Hole, &chords(hole));
        }
        for cut in &flat.open_cuts {
            join(RunKind::Cut, &chords(cut));
        }
        points
    }

    /// The number of a place, less one.
    fn number(&mut self, place: Seen) -> usize {
        let same = |other: &Seen| (0..2).all(|axis| (place[axis] - other[axis]).abs() < SAME_MM);
        self.places.iter().position(same).unwrap_or_else(|| {
            self.places.push(place);
            self.places.len() - 1
        })
    }
}

fn is_relief(hole: &Contour) -> bool {
    let corners = chords(hole);
    let extent = |side: fn(&Point) -> f64| {
        let sides = corners.iter().map(side);
        sides.clone().fold(f64::NEG_INFINITY, f64::max) - sides.fold(f64::INFINITY, f64::min)
    };
    extent(|point| point.x) < RELIEF_MM && extent(|point| point.y) < RELIEF_MM
}
