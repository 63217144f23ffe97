//! Contours as path data: absolute M, L, A and Z in millimetres, exact to 0.0001.
//!
//! Given contours in the flat frame and the sheet; gives strokes between rounded places, with those that rounding has
//! shrunk to nothing left out, and the words of a `d` attribute. Every number is rounded once, here.
//! It uses no curve but the circle: C is never needed.

use std::collections::BTreeSet;
use std::fmt;
use traywright_document::steady::Steady;

use traywright_document::{Contour, Point, Segment};

use crate::drawing_area::DrawingArea;

/// A length on the sheet in ten-thousandths of a millimetre.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Tick(i64);

/// A place on the sheet, y down.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct TickPoint {
    pub(crate) x: Tick,
    pub(crate) y: Tick,
}

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

impl Tick {
    /// Rounds a length.
    pub(crate) fn new(length: f64) -> Tick {
        // A first rounding to 1e-9 mm keeps the noise of other units from deciding at the half: a job in inches and
        // its twin in millimetres give the same digits.
        Tick(((length * 1e9).round() / 1e5).round() as i64)
    }
}

impl fmt::Display for Tick {
    fn fmt(&self, formatter: &mut fmt::Formatter) -> fmt::Result {
        let sign = if self.0 < 0 { "-" } else { "" };
        let (whole, part) = (
            self.0.unsigned_abs() / 10_000,
            self.0.unsigned_abs() % 10_000,
        );
        if part == 0 {
            return write!(formatter, "{sign}{whole}");
        }
        let digits = format!("{part:04}");
        write!(formatter, "{sign}{whole}.{}", digits.trim_end_matches('0'))
    }
}

impl fmt::Display for TickPoint {
    fn fmt(&self, formatter: &mut fmt::Formatter) -> fmt::Result {
        write!(formatter, "{} {}", self.x, self.y)
    }
}

impl Stroke {
    /// A straight line; none where both ends round to one place.
    pub(crate) fn straight(from: Point, to: Point, area: &DrawingArea) -> Option<Stroke> {
        Stroke::new(area.place(from), area.place(to), None)
    }

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
    let mut from = contour.start;
    for segment in &contour.segments {
        match *segment {
            Segment::Line { to } => strokes.extend(Stroke::straight(from, to, area)),
            Segment::Arc { to, bulge } => add_arc([from, to], bulge, area, &mut strokes),
        }
        from = segment.to();
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

/// Adds an arc in pieces of at most a quarter turn.
// Derived: with both ends and the radius rounded to d, the middle of an arc is out by about (1/cos(sweep/2) - 1) d,
// which is 0.41 d for a quarter turn and without bound for a half turn.
fn add_arc([from, to]: [Point; 2], bulge: f64, area: &DrawingArea, strokes: &mut Vec<Stroke>) {
    let (run, rise) = (to.x - from.x, to.y - from.y);
    let chord = run.steady_hypot(rise);
    // An arc that leaves its chord by less than the rounding is its chord.
    if chord * bulge.abs() / 2.0 < 0.000_05 {
        strokes.extend(Stroke::straight(from, to, area));
        return;
    }
    // Source: DXF reference, LWPOLYLINE, group 42: the bulge is the tangent of a quarter of the angle swept, so it is
    // also the height of the arc over half its chord; radius and centre follow from the right triangle in the circle.
    let left = (1.0 - bulge * bulge) / (4.0 * bulge);
    let centre = Point {
        x: (from.x + to.x) / 2.0 - rise * left,
        y: (from.y + to.y) / 2.0 + run * left,
    };
    let radius = chord * (1.0 + bulge * bulge) / (4.0 * bulge.abs());
    let sweep = 4.0 * bulge.steady_atan();
    let pieces = (sweep.abs() / std::f64::consts::FRAC_PI_2 - 1e-9)
        .ceil()
        .max(1.0);
    let bend = Bend {
        radius: Tick::new(radius),
        // Seen on paper the direction stays: y is turned round and the sweep flag counts with it.
        clockwise: bulge < 0.0,
    };
    let mut last = area.place(from);
    for piece in 1..=pieces as u32 {
        let turned = sweep * f64::from(piece) / pieces;
        let next = if f64::from(piece) == pieces {
            to
        } else {
            turn(from, centre, turned)
        };
        strokes.extend(Stroke::new(last, area.place(next), Some(bend)));
        last = area.place(next);
    }
}

/// A point turned counter-clockwise about a centre.
fn turn(point: Point, centre: Point, radians: f64) -> Point {
    let (sin, cos) = radians.steady_sin_cos();
    let (x, y) = (point.x - centre.x, point.y - centre.y);
    Point {
        x: centre.x + x * cos - y * sin,
        y: centre.y + x * sin + y * cos,
    }
}

#[cfg(test)]
mod tests;
