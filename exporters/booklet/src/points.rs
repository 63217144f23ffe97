//! The corners of the blank with numbers, and how they are joined, for those who draw it by hand.
//!
//! Given the lines of the blank; gives points counted from its left and lower edge, each once, the outline's first.
//! Corners lie on the marks of a ruler where a step is given; what lies on a curve follows from the curve. An arc of
//! about a fifth of a circle or more is drawn with compasses about its own point; a flatter arc, as in an oval, is
//! drawn through points. Reliefs too small for a pencil are left out: they are pricked.

use traywright_document::{
    self as document, Contour, Edge, Flat, Point, ProcessingStep, Segment, rounded,
};

use crate::card::{CHORDS, chords};
use crate::visible::Seen;

/// A closed hole that is smaller in both directions is a relief: a knife cannot turn in it.
// Source: common practice, none published: what is under a millimetre is pricked and not drawn.
pub(crate) const RELIEF_MM: f64 = 1.0;
/// Points nearer to each other than this are one.
// Derived: a hundredth of what is printed of a coordinate, so two points with one pair of numbers are one point.
const SAME_MM: f64 = 1e-4;
/// The bulge from which an arc is drawn with compasses: a fifth of a circle, near enough.
// Derived: tan(72° / 4).
const WIDE: f64 = 0.325;

/// Numbered points and the runs that join them.
#[derive(Clone, Debug, Default)]
pub(crate) struct Points {
    /// Where each stands, from the left and from the lower edge.
    pub(crate) places: Vec<Seen>,
    pub(crate) runs: Vec<PointRun>,
}

/// Points joined by lines.
#[derive(Clone, Debug)]
pub(crate) struct PointRun {
    pub(crate) kind: RunKind,
    /// Indices of the points, in order.
    pub(crate) points: Vec<usize>,
    /// What of it is drawn with compasses.
    pub(crate) arcs: Vec<Arc>,
    /// What it looks like, from the left and from the lower edge.
    pub(crate) line: Vec<Seen>,
}

/// An arc drawn with compasses.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Arc {
    /// The points at its ends; none for a whole circle.
    pub(crate) between: Option<[usize; 2]>,
    /// The point that the needle stands in.
    pub(crate) about: usize,
    pub(crate) radius: f64,
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

impl PointRun {
    /// All its points, the centres of its arcs last.
    pub(crate) fn all_points(&self) -> impl Iterator<Item = usize> + '_ {
        let centres = self.arcs.iter().map(|arc| arc.about);
        self.points.iter().copied().chain(centres)
    }

    /// The same, to be numbered anew; a point that is named twice comes twice.
    pub(crate) fn all_points_mut(&mut self) -> impl Iterator<Item = &mut usize> + '_ {
        let arcs = self.arcs.iter_mut();
        let arcs = arcs.flat_map(|arc| arc.between.iter_mut().flatten().chain([&mut arc.about]));
        self.points.iter_mut().chain(arcs)
    }
}

impl Points {
    /// The points of a blank.
    pub(crate) fn of(flat: &Flat, step: Option<f64>) -> Points {
        let mut points = Points::default();
        let sheet = NumberingState {
            least: flat.extent.least,
            step,
        };
        points.join(RunKind::Outline, &sheet.drawn(&flat.outline));
        for crease in &flat.creases {
            let kind = match crease.step() {
                ProcessingStep::ReverseCreasing => RunKind::Outwards,
                _ => RunKind::Inwards,
            };
            let line = Contour::line(crease.from, crease.to);
            points.join(kind, &sheet.drawn(&line));
        }
        for hole in flat.holes.iter().filter(|hole| !is_relief(hole)) {
            points.join(RunKind::Hole, &sheet.drawn(hole));
        }
        for cut in &flat.open_cuts {
            points.join(RunKind::Cut, &sheet.drawn(cut));
        }
        points
    }

    /// Adds a run as it lies on the sheet, with its points.
    fn join(&mut self, kind: RunKind, contour: &Contour) {
        let mut run = PointRun {
            kind,
            points: Vec::new(),
            arcs: Vec::new(),
            line: chords(contour).into_iter().map(seen).collect(),
        };
        run.line
            .extend(run.line.first().copied().filter(|_| contour.closed));
        if let Some((about, radius)) = circle(contour) {
            run.arcs.push(Arc {
                between: None,
                about: self.number(about),
                radius,
            });
            self.runs.push(run);
            return;
        }
        run.points.push(self.number(contour.start));
        for edge in contour.edges() {
            self.follow(&mut run, edge);
        }
        run.points.dedup();
        if contour.closed && run.points.len() > 1 && run.points.first() == run.points.last() {
            run.points.pop();
        }
        if run.points.len() > 1 {
            self.runs.push(run);
        }
    }

    /// Adds an edge to a run: its end, what lies on the way of a flat arc, and the needle of a wide one.
    fn follow(&mut self, run: &mut PointRun, edge: Edge) {
        let arc = edge.arc();
        if arc.is_some() && edge.bulge.abs() < WIDE {
            let places = edge.between(CHORDS).into_iter().chain([edge.to]);
            run.points.extend(places.map(|point| self.number(point)));
            return;
        }
        let [from, to] = [edge.from, edge.to].map(|end| self.number(end));
        run.points.push(to);
        if let Some(arc) = arc {
            run.arcs.push(Arc {
                between: Some([from, to]),
                about: self.number(arc.centre),
                radius: arc.radius,
            });
        }
    }

    /// The number of a place, less one.
    fn number(&mut self, place: Point) -> usize {
        let place = seen(place);
        let same = |other: &Seen| (0..2).all(|axis| (place[axis] - other[axis]).abs() < SAME_MM);
        self.places.iter().position(same).unwrap_or_else(|| {
            self.places.push(place);
            self.places.len() - 1
        })
    }
}

/// Where the maker draws: places count from the left and the lower edge of the blank, on the marks of a ruler if there is
/// a step.
struct NumberingState {
    least: Point,
    step: Option<f64>,
}

impl NumberingState {
    /// A place of the flat frame on the sheet.
    fn lies(&self, point: Point) -> Point {
        Point::ORIGIN + (point - self.least)
    }

    fn on_marks(&self, point: Point) -> Point {
        let mark = |side: f64| self.step.map_or(side, |step| rounded(side, step));
        Point::new(mark(point.x), mark(point.y))
    }

    /// A run as it is drawn: corners on the marks, and a curve all round as a whole, its middle on one.
    // Source: the document's `hand_step`, which says what was proved.
    fn drawn(&self, contour: &Contour) -> Contour {
        let is_arc = |segment: &Segment| matches!(segment, Segment::Arc { .. });
        let count = contour.segments.len() as f64;
        let sum = |side: fn(Point) -> f64| -> f64 {
            let ends = contour.segments.iter().map(Segment::to);
            ends.map(|end| side(self.lies(end))).sum()
        };
        let is_curve = contour.closed && contour.segments.iter().all(is_arc);
        let middle = Point::new(sum(|end| end.x) / count, sum(|end| end.y) / count);
        let there = self.on_marks(middle);
        let place = |point: Point| {
            let point = self.lies(point);
            if !is_curve {
                return self.on_marks(point);
            }
            point + (there - middle)
        };
        let edges = contour.edges().map(|edge| Edge {
            from: place(edge.from),
            to: place(edge.to),
            ..edge
        });
        Contour {
            start: place(contour.start),
            segments: edges.map(Segment::from).collect(),
            closed: contour.closed,
        }
    }
}

fn seen(point: Point) -> Seen {
    [point.x, point.y]
}

/// Centre and radius of a closed run that is one circle.
fn circle(contour: &Contour) -> Option<(Point, f64)> {
    let mut arcs = contour.edges().map(|edge| edge.arc());
    let first = arcs.next()??;
    let same = |other: document::Arc| (other.centre - first.centre).length() < SAME_MM;
    let is_one = arcs.all(|other| other.is_some_and(same));
    (is_one && contour.closed).then_some((first.centre, first.radius))
}

/// Whether a hole is too small to be drawn.
pub(crate) fn is_relief(hole: &Contour) -> bool {
    hole.extent().size().iter().all(|side| *side < RELIEF_MM)
}
