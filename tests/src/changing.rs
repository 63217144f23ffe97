//! Mistakes made in the flat document of a sound tray: panels become longer, wider or turn by another angle.

use traywright_document::{Contour, Document, Point, Segment};

/// What is done to all panels of a family in the flat document.
#[derive(Clone, Copy)]
pub enum Change {
    /// Longer away from the crease.
    Reach(f64),
    /// Wider at both flanks, at the one beside the root, or at the other one.
    Wider(f64),
    Beside(f64),
    Opposite(f64),
    /// Turned by another angle.
    Angle(f64),
}
use Change::{Angle, Beside, Opposite, Reach, Wider};

/// Changes all panels of a family.
pub fn apply(document: &mut Document, family: &str, change: Change) {
    for panel in 0..document.panels.len() {
        if document.panels[panel].name.starts_with(family) {
            apply_to(document, panel, change);
        }
    }
}

fn apply_to(document: &mut Document, panel: usize, change: Change) {
    let frame = Frame::of(document, panel);
    let far = frame.reach(&document.panels[panel].outline) / 2.0;
    // Sides as the crease is seen: 1 along it, -1 against it.
    let root = frame.along(middle(&document.panels[0].outline));
    let side = if root > 0.0 { 1.0 } else { -1.0 };
    match change {
        Angle(angle) => {
            document.panels[panel]
                .hinge
                .as_mut()
                .expect("it hangs")
                .fold_deg = angle
        }
        Reach(more) => move_part(document, panel, frame.way_out, more, &|place| {
            frame.out(place) > far
        }),
        Wider(more) => [side, -side]
            .into_iter()
            .for_each(|side| widen(document, panel, side, more)),
        Beside(more) => widen(document, panel, side, more),
        Opposite(more) => widen(document, panel, -side, more),
    }
}

/// Moves the flank on one side of the crease's middle outwards.
fn widen(document: &mut Document, panel: usize, side: f64, more: f64) {
    let frame = Frame::of(document, panel);
    let is_there = |place: Point| side * frame.along(place) > 0.0;
    move_part(document, panel, frame.way_along, side * more, &is_there);
}

/// Moves the corners of a panel that are chosen, the ends of its crease among them, and whatever hangs there.
fn move_part(
    document: &mut Document,
    panel: usize,
    way: [f64; 2],
    by: f64,
    chosen: &dyn Fn(Point) -> bool,
) {
    let children: Vec<usize> = (0..document.panels.len())
        .filter(|&child| {
            let hinge = document.panels[child]
                .hinge
                .as_ref()
                .filter(|hinge| hinge.parent == panel);
            // A panel on the far edge stays where it is when a flank moves: its crease has an end on either side.
            hinge.is_some_and(|hinge| hinge.line.iter().all(|&end| chosen(end)))
        })
        .collect();
    let shift = |place: &mut Point| {
        place.x += by * way[0];
        place.y += by * way[1];
    };
    let own = &mut document.panels[panel];
    places(&mut own.outline)
        .into_iter()
        .filter(|place| chosen(**place))
        .for_each(shift);
    let line = own.hinge.iter_mut().flat_map(|hinge| &mut hinge.line);
    line.filter(|place| chosen(**place)).for_each(shift);
    for child in children {
        move_part(document, child, way, by, &|_| true);
    }
}

fn places(contour: &mut Contour) -> Vec<&mut Point> {
    let ends = contour.segments.iter_mut().map(|segment| match segment {
        Segment::Line { to } | Segment::Arc { to, .. } => to,
    });
    std::iter::once(&mut contour.start).chain(ends).collect()
}

fn middle(contour: &Contour) -> Point {
    let count = contour.segments.len() as f64;
    let sum = contour
        .segments
        .iter()
        .map(Segment::to)
        .fold([0.0; 2], |sum, to| [sum[0] + to.x, sum[1] + to.y]);
    Point {
        x: sum[0] / count,
        y: sum[1] / count,
    }
}

/// A panel's crease as a frame of the flat card.
struct Frame {
    origin: Point,
    way_along: [f64; 2],
    way_out: [f64; 2],
}

impl Frame {
    fn of(document: &Document, panel: usize) -> Frame {
        let [from, to] = document.panels[panel]
            .hinge
            .as_ref()
            .expect("it hangs")
            .line;
        let length = (to.x - from.x).hypot(to.y - from.y);
        let way_along = [(to.x - from.x) / length, (to.y - from.y) / length];
        let mut frame = Frame {
            origin: Point {
                x: (from.x + to.x) / 2.0,
                y: (from.y + to.y) / 2.0,
            },
            way_along,
            way_out: [way_along[1], -way_along[0]],
        };
        if frame.out(middle(&document.panels[panel].outline)) < 0.0 {
            frame.way_out = frame.way_out.map(|part| -part);
        }
        frame
    }

    fn along(&self, place: Point) -> f64 {
        (place.x - self.origin.x) * self.way_along[0]
            + (place.y - self.origin.y) * self.way_along[1]
    }

    fn out(&self, place: Point) -> f64 {
        (place.x - self.origin.x) * self.way_out[0] + (place.y - self.origin.y) * self.way_out[1]
    }

    fn reach(&self, outline: &Contour) -> f64 {
        outline
            .segments
            .iter()
            .map(|segment| self.out(segment.to()))
            .fold(0.0, f64::max)
    }
}
