//! The lines of the blank in pieces that never turn back, so that they can be cut off at the edges of a sheet.
//!
//! Given a document; gives every line as pieces along which x and y only rise or only fall, in drawing
//! order, and the stretch of a piece that lies in a window. Curves stay circles until they are drawn. It moves nothing.

use std::f64::consts::FRAC_PI_2;
use traywright_document::steady::Steady;

use traywright_document::{Arc, Contour, Document, Edge, Point, ProcessingStep};
use traywright_look::Layer;
use traywright_paper::PointMm;

use crate::window::{TOUCH, Window};

/// A piece of a line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Piece {
    /// Where it begins.
    pub(crate) from: PointMm,
    /// Where it ends.
    pub(crate) to: PointMm,
    /// The arc that it is, at most a quarter of a circle; none for a straight piece.
    pub(crate) bend: Option<Arc>,
    /// What is done along it.
    pub(crate) layer: Layer,
    /// Pieces of one line follow each other and carry one number.
    pub(crate) line: usize,
    /// How far along its line it begins, for the pattern of dashes.
    pub(crate) along: f64,
}

/// All lines to cut and crease; of a sheet of stock also its edge, which nobody cuts.
pub(crate) fn pieces(document: &Document) -> Vec<Piece> {
    let (flat, is_stock) = (&document.flat, !document.nested.is_empty());
    let mut drawing = Drawing::default();
    let cuts = std::iter::once(&flat.outline)
        .chain(&flat.holes)
        .chain(&flat.open_cuts);
    cuts.for_each(|contour| drawing.contour(contour));
    if is_stock {
        let edge = drawing.pieces.iter_mut().filter(|piece| piece.line == 1);
        edge.for_each(|piece| piece.layer = Layer::Step(ProcessingStep::Dimensions));
    }
    for crease in &flat.creases {
        drawing.next_line(document.step_of(crease));
        drawing.add(crease.from, crease.to, None);
    }
    drawing.pieces
}

/// A straight line that is a measure.
pub(crate) fn measure_line(from: PointMm, to: PointMm) -> Piece {
    Piece {
        from,
        to,
        bend: None,
        layer: Layer::Step(ProcessingStep::Dimensions),
        line: 0,
        along: 0.0,
    }
}

impl Piece {
    /// The place at a share of it, 0 at its start and 1 at its end.
    pub(crate) fn at(&self, share: f64) -> PointMm {
        match self.bend {
            _ if share <= 0.0 => self.from,
            _ if share >= 1.0 => self.to,
            None => [0, 1].map(|axis| self.from[axis] + share * (self.to[axis] - self.from[axis])),
            Some(arc) => place(arc.at(share)),
        }
    }

    /// How long it is.
    pub(crate) fn length(&self) -> f64 {
        match self.bend {
            None => (self.to[0] - self.from[0]).steady_hypot(self.to[1] - self.from[1]),
            Some(arc) => arc.length(),
        }
    }

    /// The part of it between two shares.
    pub(crate) fn part(&self, [first, last]: [f64; 2]) -> Piece {
        let bend = self.bend.map(|arc| arc.part([first, last]));
        Piece {
            from: self.at(first),
            to: self.at(last),
            bend,
            along: self.along + first * self.length(),
            ..*self
        }
    }

    /// Straight pieces that leave it by so much at most.
    // Derived: a chord of the angle a leaves its circle by r a²/8, and a little less.
    pub(crate) fn chords(&self, within: f64) -> Vec<Piece> {
        let count = self.bend.map_or(1, |arc| {
            let angle = (8.0 * within / arc.radius).sqrt();
            (arc.sweep.abs() / angle).ceil().clamp(1.0, 1000.0) as u32
        });
        let place = |index: u32| self.at(f64::from(index) / f64::from(count));
        let chord = |index: u32| Piece {
            from: place(index),
            to: place(index + 1),
            bend: None,
            ..*self
        };
        (0..count).map(chord).collect()
    }

    /// The shares between which it lies in a window, edges included.
    pub(crate) fn within(&self, window: &Window) -> Option<[f64; 2]> {
        let along_x = self.between(0, window.least[0], window.most[0])?;
        let along_y = self.between(1, window.least[1], window.most[1])?;
        let shares = [along_x[0].max(along_y[0]), along_x[1].min(along_y[1])];
        (shares[0] < shares[1]).then_some(shares)
    }

    /// Whether it meets another piece, both taken as straight.
    pub(crate) fn meets(&self, other: &Piece) -> bool {
        let side = |line: &Piece, place: PointMm| {
            let along = point(line.to) - point(line.from);
            along.cross(point(place) - point(line.from))
        };
        let parts =
            |line: &Piece, apart: &Piece| side(line, apart.from) * side(line, apart.to) < 0.0;
        parts(self, other) && parts(other, self)
    }

    /// The shares between which one of its coordinates lies in a range.
    pub(crate) fn between(&self, axis: usize, least: f64, most: f64) -> Option<[f64; 2]> {
        let (from, to) = (self.from[axis], self.to[axis]);
        if from.min(to) > most + TOUCH || from.max(to) < least - TOUCH {
            return None;
        }
        let (enters, leaves) = if from <= to {
            (least, most)
        } else {
            (most, least)
        };
        let rises = (to - from).signum();
        let first = if (enters - from) * rises > TOUCH {
            self.share(axis, enters)
        } else {
            0.0
        };
        let last = if (to - leaves) * rises > TOUCH {
            self.share(axis, leaves)
        } else {
            1.0
        };
        Some([first, last])
    }

    /// The share at which a coordinate that it passes is reached.
    fn share(&self, axis: usize, value: f64) -> f64 {
        let (from, to) = (self.from[axis], self.to[axis]);
        if self.bend.is_none() {
            return ((value - from) / (to - from)).clamp(0.0, 1.0);
        }
        let rises = to > from;
        let (mut low, mut high) = (0.0, 1.0);
        // Each round halves the range; after 60 it is narrower than a number can tell.
        for _ in 0..60 {
            let middle = (low + high) / 2.0;
            if (self.at(middle)[axis] < value) == rises {
                low = middle
            } else {
                high = middle
            }
        }
        (low + high) / 2.0
    }

    /// The two places that draw it as a cubic curve; none for a straight piece.
    // Source: the usual cubic for a circle: handles of 4/3 tan(sweep/4) radii along the tangents. For an eighth of a turn
    // it is out by 0.0000042 radii (computed), so a piece is drawn in two.
    pub(crate) fn curves(&self) -> Vec<[PointMm; 3]> {
        let Some(arc) = self.bend else {
            return Vec::new();
        };
        let handle = 4.0 / 3.0 * (arc.sweep / 8.0).steady_tan();
        let curve = |[first, last]: [f64; 2]| {
            let tangent = |share: f64| arc.part([share, share]).start.left() * handle;
            let to = self.at(last);
            let leaves = point(self.at(first)) + tangent(first);
            let arrives = point(to) + -tangent(last);
            [place(leaves), place(arrives), to]
        };
        [[0.0, 0.5], [0.5, 1.0]].map(curve).into()
    }
}

/// Pieces as they are gathered.
#[derive(Default)]
struct Drawing {
    pieces: Vec<Piece>,
    line: usize,
    along: f64,
    layer: Option<ProcessingStep>,
}

impl Drawing {
    fn next_line(&mut self, step: ProcessingStep) {
        self.line += 1;
        self.along = 0.0;
        self.layer = Some(step);
    }

    /// An arc is cut at the quarters of its circle, so that no piece turns back.
    fn contour(&mut self, contour: &Contour) {
        self.next_line(ProcessingStep::Cutting);
        for edge in contour.edges() {
            // An arc that leaves its chord by less than a thousandth of the finest line is drawn as its chord.
            match edge.arc().filter(|_| edge.rise() >= 0.000_2) {
                None => self.add(edge.from, edge.to, None),
                Some(arc) => self.arc(&edge, &arc),
            }
        }
    }

    fn arc(&mut self, edge: &Edge, arc: &Arc) {
        let mut shares = vec![0.0];
        shares.extend(quarters(arc));
        shares.push(1.0);
        for ends in shares.windows(2) {
            let part = arc.part([ends[0], ends[1]]);
            self.add(edge.at(ends[0]), edge.at(ends[1]), Some(part));
        }
    }

    fn add(&mut self, from: Point, to: Point, bend: Option<Arc>) {
        if from == to {
            return;
        }
        let piece = Piece {
            from: place(from),
            to: place(to),
            bend,
            layer: Layer::Step(self.layer.unwrap_or(ProcessingStep::Cutting)),
            line: self.line,
            along: self.along,
        };
        self.along += piece.length();
        self.pieces.push(piece);
    }
}

/// The shares of an arc at which it passes a quarter of its circle, in order.
fn quarters(arc: &Arc) -> Vec<f64> {
    let start = arc.start.y.steady_atan2(arc.start.x);
    let mut shares: Vec<f64> = (-8..=8)
        .map(|quarter| (f64::from(quarter) * FRAC_PI_2 - start) / arc.sweep)
        .filter(|share| *share > 1e-9 && *share < 1.0 - 1e-9)
        .collect();
    shares.sort_by(f64::total_cmp);
    shares
}

fn place(point: Point) -> PointMm {
    [point.x, point.y]
}

fn point(place: PointMm) -> Point {
    Point::new(place[0], place[1])
}

#[cfg(test)]
mod tests;
