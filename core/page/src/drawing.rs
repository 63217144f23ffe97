//! A small drawing of a style for a form: cuts and creases of the blank of its example job.
//!
//! Frame: mm, x to the right, y down, from the upper left corner of the blank.

use serde_json::{Value, json};
use traywright_document::{Chords, Contour, Document, Point};
use traywright_engine::Style;
use traywright_job::example_job::ExampleJob;

/// The widest chord of an arc, in degrees.
// Derived: on a picture 60 pixels wide an arc of 10 pixels is off its chords by 0.1 pixels.
const CHORD_DEG: f64 = 22.5;

/// Cuts and creases as paths of SVG with the size of the blank; null for a style that makes no tray of an example job.
pub(crate) fn drawing(style: &Style) -> Value {
    let tray = ExampleJob::of(style).tray;
    tray.map_or(Value::Null, |tray| drawn(&tray.unrounded().document()))
}

fn drawn(document: &Document) -> Value {
    let flat = &document.flat;
    let (least, most) = (flat.extent.least, flat.extent.most);
    let place = |point: Point| {
        let (x, y) = (point.x - least.x, most.y - point.y);
        format!("{x:.1} {y:.1}")
    };
    let path = |contour: &Contour| {
        let points = contour.corners(Chords::Spanning(CHORD_DEG));
        let places: Vec<String> = points.into_iter().map(place).collect();
        let end = if contour.closed { "Z" } else { "" };
        format!("M{}{end}", places.join("L"))
    };
    let contours = std::iter::once(&flat.outline).chain(&flat.holes);
    let cuts: String = contours.chain(&flat.open_cuts).map(path).collect();
    let creases = flat.creases.iter();
    let creases: String = creases
        .map(|crease| format!("M{}L{}", place(crease.from), place(crease.to)))
        .collect();
    json!({ "width": most.x - least.x, "height": most.y - least.y, "cuts": cuts, "creases": creases })
}
