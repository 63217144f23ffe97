//! The card as figures need it: panels with their edges as chords, parted into what is cut and what is creased.
//!
//! Given the document; gives for every panel its rings in the flat frame, the stretches of them that are cut, and the side
//! of its crease on which it lies. An edge that is a crease belongs to the panel that it moves, once.

use traywright_document::steady::Steady;
use traywright_document::{Contour, Document, Hinge, Point, Pose, Segment};

use crate::space::{Vec3, cross, dot, flat, plus, unit};

/// The widest angle that one chord of an arc stands for.
// Source: common practice, none published: 48 chords of a circle are seen as round on paper.
const CHORD_DEG: f64 = 7.5;
/// Places nearer to each other are one.
const SAME_MM: f64 = 1e-3;

/// All panels.
#[derive(Clone, Debug)]
pub(crate) struct Card {
    pub(crate) panels: Vec<Panel>,
}

/// One panel.
#[derive(Clone, Debug)]
pub(crate) struct Panel {
    /// Its outline, then its holes.
    pub(crate) rings: Vec<Vec<Point>>,
    /// What is cut of its rings.
    pub(crate) cuts: Vec<[Point; 2]>,
    /// Its crease and the way from it into the panel; none for the root.
    pub(crate) hinge: Option<(Hinge, Vec3)>,
    /// How far it reaches from its crease.
    pub(crate) reach: f64,
}

impl Card {
    /// Whether other panels hang on the far half of a panel, so that it carries them outwards.
    pub(crate) fn carries_outwards(&self, panel: usize) -> bool {
        let Some((own, outwards)) = self.panels[panel].hinge else {
            return false;
        };
        let half = self.panels[panel].reach / 2.0;
        let hinges = self.panels.iter().filter_map(|panel| panel.hinge);
        let mut others = hinges.map(|(hinge, _)| hinge);
        others.any(|other| {
            let far = |end: Point| along(&own, outwards, end) > half;
            other.parent == panel && other.line.into_iter().all(far)
        })
    }

    /// The card of a document.
    pub(crate) fn of(document: &Document) -> Card {
        let panels = &document.panels;
        let hinges = |index: usize| -> Vec<&Hinge> {
            let own = panels[index].hinge.iter();
            let others = panels.iter().filter_map(|panel| panel.hinge.as_ref());
            own.chain(others.filter(|hinge| hinge.parent == index))
                .collect()
        };
        let panel = |index: usize| {
            let panel = &panels[index];
            let contours = std::iter::once(&panel.outline).chain(&panel.holes);
            let rings: Vec<Vec<Point>> = contours.map(chords).collect();
            let creases = hinges(index);
            let cuts = rings.iter().flat_map(|ring| cuts(ring, &creases)).collect();
            let hinge = panel
                .hinge
                .as_ref()
                .map(|hinge| (*hinge, outwards(hinge, &rings[0])));
            let reach = hinge.map_or(0.0, |(hinge, out)| {
                let beyond = |point: &Point| along(&hinge, out, *point);
                rings[0].iter().map(beyond).fold(0.0, f64::max)
            });
            Panel {
                rings,
                cuts,
                hinge,
                reach,
            }
        };
        Card {
            panels: (0..panels.len()).map(panel).collect(),
        }
    }
}

impl Panel {
    /// The middle of its crease, or of its outline.
    pub(crate) fn root(&self) -> Vec3 {
        match self.hinge {
            Some((hinge, _)) => {
                let [from, to] = hinge.line.map(flat);
                plus(from, plus(to, from, -1.0), 0.5)
            }
            None => {
                let count = self.rings[0].len() as f64;
                let sum = self.rings[0]
                    .iter()
                    .fold([0.0; 3], |sum, &point| plus(sum, flat(point), 1.0));
                sum.map(|part| part / count)
            }
        }
    }
}

impl Panel {
    /// Whether a place on its plane lies within the rectangle around its outline, when it stands so.
    pub(crate) fn frames(&self, pose: &Pose, place: Vec3) -> bool {
        let from_shift = plus(place, pose.shift, -1.0);
        // Derived: the inverse of a rotation is its transpose.
        let own = |axis: usize| {
            (0..3)
                .map(|row| pose.rows[row][axis] * from_shift[row])
                .sum::<f64>()
        };
        let within = |at: f64, side: fn(&Point) -> f64| {
            let sides = self.rings[0].iter().map(side);
            let least = sides.clone().fold(f64::INFINITY, f64::min);
            (least..=sides.fold(f64::NEG_INFINITY, f64::max)).contains(&at)
        };
        within(own(0), |point| point.x) && within(own(1), |point| point.y)
    }
}

/// How far a point lies beyond a crease.
fn along(hinge: &Hinge, outwards: Vec3, point: Point) -> f64 {
    dot(plus(flat(point), flat(hinge.line[0]), -1.0), outwards)
}

/// The way from a crease into the panel that hangs on it.
fn outwards(hinge: &Hinge, ring: &[Point]) -> Vec3 {
    let [from, to] = hinge.line.map(flat);
    let across = unit(cross([0.0, 0.0, 1.0], plus(to, from, -1.0)));
    let farthest = ring
        .iter()
        .map(|&point| along(hinge, across, point))
        .max_by(|one, other| one.abs().total_cmp(&other.abs()))
        .unwrap_or(1.0);
    across.map(|part| part * farthest.signum())
}

/// A closed run as corners, arcs as chords.
pub(crate) fn chords(contour: &Contour) -> Vec<Point> {
    let mut corners = vec![contour.start];
    let mut here = contour.start;
    for segment in &contour.segments {
        match *segment {
            Segment::Line { to } => corners.push(to),
            Segment::Arc { to, bulge } => corners.extend(arc(here, to, bulge)),
        }
        here = segment.to();
    }
    if contour.closed && corners.len() > 1 {
        corners.pop();
    }
    corners
}

/// Corners on an arc, its end the last.
fn arc(from: Point, to: Point, bulge: f64) -> Vec<Point> {
    let swept = 4.0 * bulge.steady_atan();
    let count = (swept.abs().to_degrees() / CHORD_DEG).ceil().max(1.0) as usize;
    let centre = centre(from, to, bulge);
    let [x, y] = [from.x - centre.x, from.y - centre.y];
    let on_arc = |step: usize| {
        let (sin, cos) = (swept * step as f64 / count as f64).steady_sin_cos();
        Point {
            x: centre.x + x * cos - y * sin,
            y: centre.y + x * sin + y * cos,
        }
    };
    (1..count).map(on_arc).chain([to]).collect()
}

/// The centre of an arc.
// Source: DXF reference, LWPOLYLINE: a bulge is the tangent of a quarter of the angle swept.
pub(crate) fn centre(from: Point, to: Point, bulge: f64) -> Point {
    let [half_x, half_y] = [(to.x - from.x) / 2.0, (to.y - from.y) / 2.0];
    // Derived: the centre lies (1 - b²) / 2b half chords to the left of the chord's middle.
    let aside = (1.0 - bulge * bulge) / (2.0 * bulge);
    Point {
        x: from.x + half_x - half_y * aside,
        y: from.y + half_y + half_x * aside,
    }
}

/// The stretches of a ring that no crease runs along.
fn cuts(ring: &[Point], creases: &[&Hinge]) -> Vec<[Point; 2]> {
    let mut cuts = Vec::new();
    for (at, &from) in ring.iter().enumerate() {
        let to = ring[(at + 1) % ring.len()];
        let way = [to.x - from.x, to.y - from.y];
        let length = way[0].steady_hypot(way[1]);
        if length < SAME_MM {
            continue;
        }
        let mut taken: Vec<[f64; 2]> = creases
            .iter()
            .filter_map(|hinge| shared(from, way, length, hinge))
            .collect();
        taken.sort_by(|one, other| one[0].total_cmp(&other[0]));
        let place = |part: f64| Point {
            x: from.x + way[0] * part,
            y: from.y + way[1] * part,
        };
        let mut reached = 0.0;
        for [start, end] in taken.into_iter().chain([[1.0, 1.0]]) {
            if (start - reached) * length > SAME_MM {
                cuts.push([place(reached), place(start)]);
            }
            reached = end.max(reached);
        }
    }
    cuts
}

/// The part of an edge along which a crease runs, as shares of its length.
fn shared(from: Point, way: [f64; 2], length: f64, hinge: &Hinge) -> Option<[f64; 2]> {
    let parts = hinge.line.map(|end| {
        let [x, y] = [end.x - from.x, end.y - from.y];
        let aside = (x * way[1] - y * way[0]) / length;
        let part = (x * way[0] + y * way[1]) / (length * length);
        (aside.abs() < SAME_MM).then_some(part)
    });
    let [one, other] = [parts[0]?, parts[1]?];
    let (start, end) = (one.min(other).max(0.0), one.max(other).min(1.0));
    (end > start).then_some([start, end])
}
