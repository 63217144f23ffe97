//! The face of a panel that shows in the finished tray, and the way that is up on it.
//!
//! **Input:** a panel of a posed tray, and a point on it. **Output:** the face with more room in front of the point, and
//! the way in the flat frame that the maker sees as up. **Does not** look at words.

use traywright_document::space::{Vec3, dot, minus, plus};
use traywright_document::{Chords, Extent, Panel, Point, PrintedFace, Vector};

use super::{DrawnTray, SAME_MM};

/// A panel is level where its face leans less than this from level: the cosine of 45°.
const LEVEL: f64 = std::f64::consts::FRAC_1_SQRT_2;
/// The widest chord of an arc, in degrees.
const CHORDS: Chords = Chords::Spanning(15.0);
/// Room in front of both faces that differs by less is the same, in mm.
// Source: a choice of this project: more than any card that this program folds is thick.
const SAME_ROOM: f64 = 5.0;

/// The way in the flat frame that is up for the reader: north on a level panel, else up.
pub(super) fn top(tray: &DrawnTray, panel: usize) -> Vector {
    let pose = &tray.panels[panel].pose;
    let up = if is_level(&tray.panels[panel]) {
        [0.0, 1.0, 0.0]
    } else {
        [0.0, 0.0, tray.up()]
    };
    let [x, y, _] = pose.turn_back(up);
    // A square tray has square labels.
    let [x, y] = [x, y].map(|part| if part.abs() < SAME_MM { 0.0 } else { part });
    Vector::new(x, y).unit()
}

/// The face that shows at a point of a panel.
pub(super) fn face_at(tray: &DrawnTray, panel: usize, at: Point) -> PrintedFace {
    let own = &tray.panels[panel];
    let out = own.pose.turn([0.0, 0.0, 1.0]);
    let first_choice = if is_level(own) {
        out[2] * tray.up() > 0.0
    } else {
        dot(out, minus(own.pose.apply(at.in_space()), middle(tray))) > 0.0
    };
    let of = |is_drawn: bool| match is_drawn {
        true => PrintedFace::Drawn,
        false => PrintedFace::Far,
    };
    if own.hinge.is_none() {
        return of(first_choice);
    }
    let room = |way: Vec3| room_in_front(tray, panel, at, way);
    let (drawn, far) = (room(out), room(out.map(|part| -part)));
    match (drawn - far).abs() < SAME_ROOM || drawn == far {
        true => of(first_choice),
        false => of(drawn > far),
    }
}

fn is_level(panel: &Panel) -> bool {
    panel.pose.rows[2][2].abs() > LEVEL
}

/// The middle of the folded tray.
fn middle(tray: &DrawnTray) -> Vec3 {
    let (mut least, mut most) = ([f64::INFINITY; 3], [f64::NEG_INFINITY; 3]);
    for panel in tray.panels {
        for corner in panel.outline.corners(CHORDS) {
            let place = panel.pose.apply(corner.in_space());
            for axis in 0..3 {
                least[axis] = least[axis].min(place[axis]);
                most[axis] = most[axis].max(place[axis]);
            }
        }
    }
    std::array::from_fn(|axis| (least[axis] + most[axis]) / 2.0)
}

/// How far the next panel lies in front of a point, straight ahead; without end where there is none.
fn room_in_front(tray: &DrawnTray, panel: usize, at: Point, way: Vec3) -> f64 {
    let from = tray.panels[panel].pose.apply(at.in_space());
    let others = tray.panels.iter().enumerate();
    let others = others.filter(|(other, _)| *other != panel);
    let distances = others.filter_map(|(_, other)| distance(other, from, way));
    distances.fold(f64::INFINITY, f64::min)
}

/// How far a panel lies ahead of a point in space.
fn distance(panel: &Panel, from: Vec3, way: Vec3) -> Option<f64> {
    let out = panel.pose.turn([0.0, 0.0, 1.0]);
    let slope = dot(out, way);
    if slope.abs() < SAME_MM {
        return None;
    }
    let ahead = dot(out, minus(panel.pose.shift, from)) / slope;
    if ahead <= 0.0 {
        return None;
    }
    let [x, y, _] = panel.pose.inverse().apply(plus(from, way, ahead));
    has(panel, Point::new(x, y)).then_some(ahead)
}

/// Whether a panel has card at a point of the flat frame.
fn has(panel: &Panel, at: Point) -> bool {
    let Extent { least, most } = panel.outline.extent();
    if at.x < least.x || at.x > most.x || at.y < least.y || at.y > most.y {
        return false;
    }
    let rings = panel.contours().map(|ring| ring.corners(CHORDS));
    let crossed: usize = rings.map(|ring| crossings(&ring, at)).sum();
    crossed % 2 == 1
}

/// How many edges of a ring a ray to the right crosses.
// Derived: a ray crosses the edges around a point on card an odd number of times.
fn crossings(ring: &[Point], at: Point) -> usize {
    let edges = ring.iter().zip(ring.iter().cycle().skip(1));
    let right = edges.filter(|(from, to)| {
        let spans = (from.y <= at.y) != (to.y <= at.y);
        spans && from.x + (at.y - from.y) / (to.y - from.y) * (to.x - from.x) > at.x
    });
    right.count()
}
