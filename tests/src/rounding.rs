//! A blank as a maker with a ruler draws it: every corner on a multiple of a step from the left and the lower edge.
//!
//! Given a document and a step; gives the document with rounded lines and panels. Poses are left as they were: whoever
//! wants the folded tray folds it anew. The rule is the document's (`hand_step`), written again apart from the program;
//! `outside_booklet` holds its lines against the words of the drafting sheet, so that what is proved is what is drawn.

use traywright_document::{Contour, Document, Point, Segment};

use crate::union::enclosed;

/// The rounded document.
pub fn rounded(mut document: Document, step: f64) -> Document {
    let least = document.flat.extent.least;
    // Halves go up; what is a half but for the noise of arithmetic is one.
    let side = |side: f64| (side / step + 0.500_001).floor() * step;
    let place = |point: Point| Point {
        x: least.x + side(point.x - least.x),
        y: least.y + side(point.y - least.y),
    };
    let flat = &mut document.flat;
    let lines = std::iter::once(&mut flat.outline)
        .chain(&mut flat.holes)
        .chain(&mut flat.open_cuts);
    lines.for_each(|line| draw(line, &place));
    for crease in &mut flat.creases {
        (crease.from, crease.to) = (place(crease.from), place(crease.to));
    }
    flat.holes.retain(|hole| !is_pricked(hole));
    for panel in &mut document.panels {
        let lines = std::iter::once(&mut panel.outline).chain(&mut panel.holes);
        lines.for_each(|line| draw(line, &place));
        panel.holes.retain(|hole| !is_pricked(hole));
        if let Some(hinge) = &mut panel.hinge {
            hinge.line = hinge.line.map(place);
        }
    }
    for interlock in &mut document.interlocks {
        draw(&mut interlock.tongue, &place);
        interlock.slit = interlock.slit.map(place);
    }
    document
}

/// Corners are rounded; a curve all round is drawn about its rounded middle.
fn draw(line: &mut Contour, place: &impl Fn(Point) -> Point) {
    let is_arc = |segment: &Segment| matches!(segment, Segment::Arc { .. });
    if line.closed && line.segments.iter().all(is_arc) {
        let middle = middle(line);
        let there = place(middle);
        let (x, y) = (there.x - middle.x, there.y - middle.y);
        move_all(line, &|point: Point| Point {
            x: point.x + x,
            y: point.y + y,
        });
    } else {
        move_all(line, place);
    }
}

/// Whether a hole has become a point or a line.
fn is_pricked(hole: &Contour) -> bool {
    enclosed(hole).abs() < 1e-9
}

fn move_all(line: &mut Contour, place: &impl Fn(Point) -> Point) {
    line.start = place(line.start);
    for segment in &mut line.segments {
        let (Segment::Line { to } | Segment::Arc { to, .. }) = segment;
        *to = place(*to);
    }
}

/// The middle of a curve's corners, which come in pairs across it.
fn middle(line: &Contour) -> Point {
    let count = line.segments.len() as f64;
    let sum = |of: fn(Point) -> f64| line.segments.iter().map(|to| of(to.to())).sum::<f64>();
    Point {
        x: sum(|point| point.x) / count,
        y: sum(|point| point.y) / count,
    }
}
