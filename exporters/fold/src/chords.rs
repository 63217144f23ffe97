//! Runs as straight pieces: a FOLD file knows no curve.
//!
//! Given a contour; gives the corners of a run of chords that leaves its arcs by at most [`CHORD_MM`]. The ends of
//! segments stay where they are, and an arc has the same chords whichever way it runs.

use std::f64::consts::FRAC_PI_2;
use traywright_document::steady::Steady;

use traywright_document::{Contour, Point, Segment};

/// How far a chord may leave its arc.
// Source: common practice, none published: a tenth of what a hand cuts to.
pub(crate) const CHORD_MM: f64 = 0.01;

/// The corners of a contour; the last one of a closed contour is not its first again.
pub(crate) fn corners(contour: &Contour) -> Vec<Point> {
    let mut corners = vec![contour.start];
    let mut from = contour.start;
    for segment in &contour.segments {
        if let Segment::Arc { to, bulge } = *segment {
            corners.extend(between(from, to, bulge));
        }
        from = segment.to();
        corners.push(from);
    }
    if contour.closed && corners.len() > 1 {
        corners.pop();
    }
    corners
}

/// The corners inside an arc.
// Source: DXF reference, LWPOLYLINE, group 42: the bulge is the tangent of a quarter of the angle swept; centre and
// radius follow from the right triangle in the circle.
fn between(from: Point, to: Point, bulge: f64) -> Vec<Point> {
    let (run, rise) = (to.x - from.x, to.y - from.y);
    let radius = run.steady_hypot(rise) * (1.0 + bulge * bulge) / (4.0 * bulge.abs());
    if !radius.is_finite() || radius == 0.0 {
        return Vec::new();
    }
    let left = (1.0 - bulge * bulge) / (4.0 * bulge);
    let centre = Point {
        x: (from.x + to.x) / 2.0 - rise * left,
        y: (from.y + to.y) / 2.0 + run * left,
    };
    let sweep = 4.0 * bulge.steady_atan();
    // Derived: a chord over the angle a leaves its circle by radius (1 - cos(a / 2)).
    let widest = (2.0 * (1.0 - CHORD_MM / radius).max(0.0).steady_acos()).min(FRAC_PI_2);
    // A little less than the quotient, so that the same arc run the other way has as many.
    let pieces = (sweep.abs() / widest - 1e-9).ceil().max(1.0);
    (1..pieces as u32)
        .map(|piece| turn(from, centre, sweep * f64::from(piece) / pieces))
        .collect()
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
