//! The flat proof of a document, apart from the engine's own: panels, lines and creases of one blank agree.
//!
//! Given a document, it works out with another library what its panels cover together, and reckons areas with their
//! arcs. It gives how far they are apart; [`check`] says how far they may be. It reads nothing but the document.

use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::float::simplify::SimplifyShape;
use i_overlay::float::single::SingleFloatOverlay;
use traywright_document::{Contour, Document, Point, Segment};

/// How far the library's grid may move a place.
// Source: measured on 1000 random trees of panels: 3.4e-7 mm at most.
const ROUNDING_MM: f64 = 1e-6;

/// Two places nearer than this are one.
const TOUCH_MM: f64 = 1e-6;

/// How far beside a crease card is looked for.
const BESIDE_MM: f64 = 1e-4;

type Place = [f64; 2];

/// How well the parts of a document agree, in mm².
#[derive(Clone, Copy, Debug, Default)]
pub struct Agreement {
    /// Card that two panels claim.
    pub overlap: f64,
    /// What the panels cover and the lines do not enclose, or the other way round.
    pub apart: f64,
    /// Sum of the panels' areas less the area inside the lines, arcs and all.
    pub area: f64,
}

impl Agreement {
    /// The worse of two, figure by figure.
    pub fn worse(self, other: Agreement) -> Agreement {
        Agreement {
            overlap: self.overlap.max(other.overlap),
            apart: self.apart.max(other.apart),
            area: self.area.max(other.area),
        }
    }
}

impl Agreement {
    fn judge(&self, title: &str, most: f64, most_exact: f64) {
        let Agreement {
            overlap,
            apart,
            area,
        } = self;
        assert!(overlap.abs() < most, "{title}: panels share {overlap} mm²");
        assert!(
            *apart < most,
            "{title}: panels and lines are {apart} mm² apart"
        );
        assert!(
            *area < most_exact,
            "{title}: the areas differ by {area} mm²"
        );
    }
}

/// Holds a document against itself.
///
/// # Panics
/// When its panels overlap, do not make the blank, or when a crease lacks card on one side.
pub fn check(document: &Document) -> Agreement {
    let ends: Vec<Point> = document
        .flat
        .creases
        .iter()
        .flat_map(|crease| [crease.from, crease.to])
        .collect();
    let shapes: Vec<Vec<Vec<Place>>> = document
        .panels
        .iter()
        .map(|panel| shape(&panel.outline, &panel.holes, &ends))
        .collect();
    let lines = shape(&document.flat.outline, &document.flat.holes, &ends);
    check_holes(document, &shapes);
    let edges: f64 = shapes.iter().flatten().map(|run| length(run)).sum();
    let union = shapes.simplify_shape(FillRule::NonZero);
    let covered: f64 = union.iter().map(|shape| area(shape)).sum();
    let apart = union.overlay(&lines, OverlayRule::Xor, FillRule::NonZero);
    let exact = |outline: &Contour, holes: &[Contour]| {
        enclosed(outline) + holes.iter().map(enclosed).sum::<f64>()
    };
    let panels: f64 = document
        .panels
        .iter()
        .map(|panel| exact(&panel.outline, &panel.holes))
        .sum();
    let agreement = Agreement {
        overlap: shapes.iter().map(|shape| area(shape)).sum::<f64>() - covered,
        apart: apart.iter().map(|shape| area(shape)).sum(),
        area: (panels - exact(&document.flat.outline, &document.flat.holes)).abs(),
    };
    let title = format!("{} {:?}", document.style, document.box_size);
    assert_eq!(union.len(), 1, "{title}: the blank falls apart");
    agreement.judge(&title, ROUNDING_MM * edges, 1e-9 * panels);
    check_runs(document, &title);
    check_creases(document, &title);
    agreement
}

/// No hole of a panel lies on another one or beyond the panel, where its area would count for nothing.
fn check_holes(document: &Document, shapes: &[Vec<Vec<Place>>]) {
    for (panel, shape) in document.panels.iter().zip(shapes) {
        let card = shape.simplify_shape(FillRule::Positive);
        let covered: f64 = card.iter().map(|shape| area(shape)).sum();
        let astray = (covered - area(shape)).abs();
        let edges: f64 = shape.iter().map(|run| length(run)).sum();
        assert!(
            astray < ROUNDING_MM * edges,
            "{}: {astray} mm² of its holes lie on one another or beside it",
            panel.name
        );
    }
}

/// The promise of the document: outer edges counter-clockwise, holes clockwise, all closed.
fn check_runs(document: &Document, title: &str) {
    let flat = &document.flat;
    let panels = document.panels.iter();
    let outer = panels
        .clone()
        .map(|panel| &panel.outline)
        .chain([&flat.outline]);
    for run in outer {
        assert!(run.closed && enclosed(run) > 0.0, "{title}: {run:?}");
    }
    for hole in panels.flat_map(|panel| &panel.holes).chain(&flat.holes) {
        assert!(hole.closed && enclosed(hole) < 0.0, "{title}: {hole:?}");
    }
    for cut in &flat.open_cuts {
        assert!(!cut.closed && !cut.segments.is_empty(), "{title}: {cut:?}");
    }
    check_drawn_once(document, title);
}

/// The promise of the document: nothing is drawn twice.
fn check_drawn_once(document: &Document, title: &str) {
    let flat = &document.flat;
    let runs = flat
        .holes
        .iter()
        .chain(&flat.open_cuts)
        .chain([&flat.outline]);
    let mut lines: Vec<(Point, Point)> = runs.flat_map(straight).collect();
    lines.extend(flat.creases.iter().map(|crease| (crease.from, crease.to)));
    for (index, &(from, to)) in lines.iter().enumerate() {
        let long = (to.x - from.x).hypot(to.y - from.y);
        let (x, y) = ((to.x - from.x) / long, (to.y - from.y) / long);
        let along = |place: Point| (place.x - from.x) * x + (place.y - from.y) * y;
        let aside = |place: Point| ((place.y - from.y) * x - (place.x - from.x) * y).abs();
        for &(start, end) in &lines[index + 1..] {
            if aside(start) > TOUCH_MM || aside(end) > TOUCH_MM {
                continue;
            }
            let (first, last) = (along(start).min(along(end)), along(start).max(along(end)));
            let shared = last.min(long) - first.max(0.0);
            assert!(
                shared < TOUCH_MM,
                "{title}: {shared} mm are drawn twice: {from:?} {to:?} and {start:?} {end:?}"
            );
        }
    }
}

/// The panel on one side of its crease, the panel that bears it on the other, all the way along.
fn check_creases(document: &Document, title: &str) {
    for crease in &document.flat.creases {
        let panel = &document.panels[crease.panel];
        let hinge = panel.hinge.as_ref().expect("a panel with a crease hangs");
        let parent = &document.panels[hinge.parent];
        let (dx, dy) = (crease.to.x - crease.from.x, crease.to.y - crease.from.y);
        let long = dx.hypot(dy);
        let (x, y) = (-dy / long * BESIDE_MM, dx / long * BESIDE_MM);
        for part in [0.001, 0.1, 0.3, 0.5, 0.7, 0.9, 0.999] {
            let middle = [crease.from.x + dx * part, crease.from.y + dy * part];
            let (left, right) = (
                [middle[0] + x, middle[1] + y],
                [middle[0] - x, middle[1] - y],
            );
            let card = |place| (bears(parent, place), bears(panel, place));
            let sides = [card(left), card(right)];
            assert!(
                sides == [(true, false), (false, true)] || sides == [(false, true), (true, false)],
                "{title}: the crease of {} at {middle:?}: {sides:?}",
                panel.name
            );
        }
    }
}

fn bears(panel: &traywright_document::Panel, place: Place) -> bool {
    let runs = std::iter::once(&panel.outline).chain(&panel.holes);
    let crossings: usize = runs
        .map(|run| {
            let places = pieces(run, &[]);
            let next = places.iter().cycle().skip(1);
            places
                .iter()
                .zip(next)
                .filter(|(from, to)| {
                    (from[1] > place[1]) != (to[1] > place[1])
                        && place[0]
                            < from[0] + (place[1] - from[1]) / (to[1] - from[1]) * (to[0] - from[0])
                })
                .count()
        })
        .sum();
    crossings % 2 == 1
}

fn shape(outline: &Contour, holes: &[Contour], ends: &[Point]) -> Vec<Vec<Place>> {
    std::iter::once(outline)
        .chain(holes)
        .map(|run| pieces(run, ends))
        .collect()
}

/// A run as places, its arcs in 24 pieces each; places of `ends` on a straight edge are put in, because one that is
/// off a slanting edge by a rounding would leave a hairline.
fn pieces(run: &Contour, ends: &[Point]) -> Vec<Place> {
    let mut places = Vec::new();
    let mut from = run.start;
    for segment in &run.segments {
        places.push([from.x, from.y]);
        match *segment {
            Segment::Line { to } => {
                let long = (to.x - from.x).hypot(to.y - from.y);
                let (x, y) = ((to.x - from.x) / long, (to.y - from.y) / long);
                let mut between: Vec<(f64, Point)> = ends
                    .iter()
                    .map(|end| ((end.x - from.x) * x + (end.y - from.y) * y, *end))
                    .filter(|(at, end)| {
                        let aside = (end.y - from.y) * x - (end.x - from.x) * y;
                        aside.abs() < TOUCH_MM && *at > TOUCH_MM && *at < long - TOUCH_MM
                    })
                    .collect();
                between.sort_by(|one, other| one.0.total_cmp(&other.0));
                places.extend(between.into_iter().map(|(_, end)| [end.x, end.y]));
            }
            Segment::Arc { to, bulge } => {
                for piece in 1..24 {
                    places.push(on_arc(from, to, bulge, f64::from(piece) / 24.0));
                }
            }
        }
        from = segment.to();
    }
    places
}

/// A place on an arc, by the part of its angle.
// Derived: half the angle swept is 2 atan(bulge); centre and radius follow from the chord.
fn on_arc(from: Point, to: Point, bulge: f64, part: f64) -> Place {
    let half = 2.0 * bulge.atan();
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    let up = 1.0 / (2.0 * half.tan());
    let centre = [
        (from.x + to.x) / 2.0 - dy * up,
        (from.y + to.y) / 2.0 + dx * up,
    ];
    let (sin, cos) = (2.0 * half * part).sin_cos();
    let (x, y) = (from.x - centre[0], from.y - centre[1]);
    [centre[0] + x * cos - y * sin, centre[1] + x * sin + y * cos]
}

fn straight(run: &Contour) -> Vec<(Point, Point)> {
    let mut from = run.start;
    let mut lines = Vec::new();
    for segment in &run.segments {
        if let Segment::Line { to } = *segment {
            lines.push((from, to));
        }
        from = segment.to();
    }
    lines
}

/// Signed area inside a closed run, arcs exact.
// Derived: the shoelace formula, and a circular segment of angle A on radius r has r² (A - sin A) / 2.
pub fn enclosed(run: &Contour) -> f64 {
    let mut from = run.start;
    let mut doubled = 0.0;
    for segment in &run.segments {
        let to = segment.to();
        doubled += from.x * to.y - from.y * to.x;
        if let Segment::Arc { bulge, .. } = *segment {
            let angle = 4.0 * bulge.atan();
            let radius = (to.x - from.x).hypot(to.y - from.y) / 2.0 / (angle / 2.0).sin();
            doubled += radius * radius * (angle - angle.sin());
        }
        from = to;
    }
    doubled / 2.0
}

fn area(shape: &[Vec<Place>]) -> f64 {
    let signed = |run: &Vec<Place>| {
        let next = run.iter().cycle().skip(1);
        let doubled: f64 = run
            .iter()
            .zip(next)
            .map(|(from, to)| from[0] * to[1] - from[1] * to[0])
            .sum();
        doubled / 2.0
    };
    shape.iter().map(signed).sum::<f64>().abs()
}

fn length(run: &[Place]) -> f64 {
    let next = run.iter().cycle().skip(1);
    run.iter()
        .zip(next)
        .map(|(from, to)| (from[0] - to[0]).hypot(from[1] - to[1]))
        .sum()
}

/// The area that two outlines share, by the other library.
pub fn overlap(one: &[[f64; 2]], other: &[[f64; 2]]) -> f64 {
    let shared = one
        .to_vec()
        .overlay(&other.to_vec(), OverlayRule::Intersect, FillRule::NonZero);
    let ring = |ring: &Vec<[f64; 2]>| {
        let ends = ring.iter().cycle().skip(1);
        let cross = |(from, to): (&[f64; 2], &[f64; 2])| from[0] * to[1] - from[1] * to[0];
        ring.iter().zip(ends).map(cross).sum::<f64>() / 2.0
    };
    shared.iter().flatten().map(ring).sum::<f64>().abs()
}
