//! The lines of the blank in pieces that never turn back, so that they can be cut off at the edges of a sheet.
//!
//! Given the flat of a document; gives every line as pieces along which x and y only rise or only fall, in drawing
//! order, and the stretch of a piece that lies in a window. Curves stay circles until they are drawn. It moves nothing.

use std::f64::consts::{FRAC_PI_2, TAU};
use traywright_document::steady::Steady;

use traywright_document::{Contour, Flat, ProcessingStep, Segment};
use traywright_paper::{Layer, PointMm};

use crate::window::{TOUCH, Window};

/// A piece of a line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Piece {
    /// Where it begins.
    pub(crate) from: PointMm,
    /// Where it ends.
    pub(crate) to: PointMm,
    /// The circle that it is part of; none for a straight piece.
    pub(crate) bend: Option<Bend>,
    /// What is done along it.
    pub(crate) layer: Layer,
    /// Pieces of one line follow each other and carry one number.
    pub(crate) line: usize,
    /// How far along its line it begins, for the pattern of dashes.
    pub(crate) along: f64,
}

/// Part of a circle, at most a quarter of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Bend {
    centre: PointMm,
    radius: f64,
    /// Angle of the start, and how far it turns counter-clockwise.
    start: f64,
    sweep: f64,
}

/// All lines to cut and crease.
pub(crate) fn pieces(flat: &Flat) -> Vec<Piece> {
    let mut drawing = Drawing::default();
    let cuts = std::iter::once(&flat.outline)
        .chain(&flat.holes)
        .chain(&flat.open_cuts);
    cuts.for_each(|contour| drawing.contour(contour));
    for crease in &flat.creases {
        drawing.next_line(crease.step());
        drawing.straight([crease.from.x, crease.from.y], [crease.to.x, crease.to.y]);
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
            Some(bend) => bend.at(share),
        }
    }

    /// How long it is.
    pub(crate) fn length(&self) -> f64 {
        match self.bend {
            None => (self.to[0] - self.from[0]).steady_hypot(self.to[1] - self.from[1]),
            Some(bend) => bend.radius * bend.sweep.abs(),
        }
    }

    /// The part of it between two shares.
    pub(crate) fn part(&self, [first, last]: [f64; 2]) -> Piece {
        let bend = self.bend.map(|bend| Bend {
            start: bend.start + first * bend.sweep,
            sweep: (last - first) * bend.sweep,
            ..bend
        });
        Piece {
            from: self.at(first),
            to: self.at(last),
            bend,
            along: self.along + first * self.length(),
            ..*self
        }
    }

    /// The shares between which it lies in a window, edges included.
    pub(crate) fn within(&self, window: &Window) -> Option<[f64; 2]> {
        let along_x = self.between(0, window.least[0], window.most[0])?;
        let along_y = self.between(1, window.least[1], window.most[1])?;
        let shares = [along_x[0].max(along_y[0]), along_x[1].min(along_y[1])];
        (shares[0] < shares[1]).then_some(shares)
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
        let Some(bend) = self.bend else {
            return Vec::new();
        };
        let half = bend.sweep / 2.0;
        let handle = 4.0 / 3.0 * (half / 4.0).steady_tan() * bend.radius;
        let tangent = |angle: f64| [-angle.steady_sin() * handle, angle.steady_cos() * handle];
        let sum = |place: PointMm, way: PointMm, sign: f64| {
            [place[0] + sign * way[0], place[1] + sign * way[1]]
        };
        [[0.0, 0.5], [0.5, 1.0]]
            .map(|[first, last]| {
                let (from, to) = (self.at(first), self.at(last));
                let [start, end] = [first, last].map(|share| bend.start + share * bend.sweep);
                [
                    sum(from, tangent(start), 1.0),
                    sum(to, tangent(end), -1.0),
                    to,
                ]
            })
            .into()
    }
}

impl Bend {
    fn at(&self, share: f64) -> PointMm {
        let angle = self.start + share * self.sweep;
        [
            self.centre[0] + self.radius * angle.steady_cos(),
            self.centre[1] + self.radius * angle.steady_sin(),
        ]
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

    fn contour(&mut self, contour: &Contour) {
        self.next_line(ProcessingStep::Cutting);
        let mut from = [contour.start.x, contour.start.y];
        for segment in &contour.segments {
            let to = [segment.to().x, segment.to().y];
            match *segment {
                Segment::Line { .. } => self.straight(from, to),
                Segment::Arc { bulge, .. } => self.arc(from, to, bulge),
            }
            from = to;
        }
    }

    fn straight(&mut self, from: PointMm, to: PointMm) {
        self.add(from, to, None);
    }

    /// An arc, cut at the quarters of its circle so that no piece turns back.
    fn arc(&mut self, from: PointMm, to: PointMm, bulge: f64) {
        let (run, rise) = (to[0] - from[0], to[1] - from[1]);
        let chord = run.steady_hypot(rise);
        // An arc that leaves its chord by less than a thousandth of the finest line is drawn as its chord.
        if chord * bulge.abs() / 2.0 < 0.000_2 {
            return self.straight(from, to);
        }
        // Source: DXF reference, LWPOLYLINE, group 42: the bulge is the tangent of a quarter of the angle swept, so it
        // is also the height of the arc over half its chord; radius and centre follow from the right triangle.
        let left = (1.0 - bulge * bulge) / (4.0 * bulge);
        let centre = [
            (from[0] + to[0]) / 2.0 - rise * left,
            (from[1] + to[1]) / 2.0 + run * left,
        ];
        let radius = chord * (1.0 + bulge * bulge) / (4.0 * bulge.abs());
        let start = (from[1] - centre[1]).steady_atan2(from[0] - centre[0]);
        let sweep = 4.0 * bulge.steady_atan();
        let mut last = 0.0;
        for share in quarters(start, sweep).into_iter().chain([1.0]) {
            let bend = Bend {
                centre,
                radius,
                start: start + last * sweep,
                sweep: (share - last) * sweep,
            };
            let first = if last == 0.0 { from } else { bend.at(0.0) };
            self.add(
                first,
                if share == 1.0 { to } else { bend.at(1.0) },
                Some(bend),
            );
            last = share;
        }
    }

    fn add(&mut self, from: PointMm, to: PointMm, bend: Option<Bend>) {
        if from == to {
            return;
        }
        let piece = Piece {
            from,
            to,
            bend,
            layer: Layer::Step(self.layer.unwrap_or(ProcessingStep::Cutting)),
            line: self.line,
            along: self.along,
        };
        self.along += piece.length();
        self.pieces.push(piece);
    }
}

/// The shares of a turn at which it passes a quarter of the circle, in order.
fn quarters(start: f64, sweep: f64) -> Vec<f64> {
    let mut shares: Vec<f64> = (-8..=8)
        .map(|quarter| (f64::from(quarter) * FRAC_PI_2 - start) / sweep)
        .filter(|share| *share > 1e-9 && *share < 1.0 - 1e-9 && sweep.abs() < 2.0 * TAU)
        .collect();
    shares.sort_by(f64::total_cmp);
    shares
}

#[cfg(test)]
mod tests;
