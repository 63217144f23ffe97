//! Room to swing: whether each fold of the order can be turned through its angle.
//!
//! Given a tray, its blank and an order; gives for each fold that hits something the panel it hits and the angle. One
//! crease turns at a time; panels folded before stand, the others lie flat. The way of a corner about the axis is
//! a circle, so it meets the plane of a face where A cos θ + B sin θ + C = 0: contacts are found exactly, not by
//! stepping. Judged are corners of what moves against slabs that stand, and the other way round; two edges that cross
//! with no corner of either inside are not looked for here.

use crate::blank::Blank;
use crate::folded::{Motion, motions, slab};
use crate::geometry::{Outline, Point};
use crate::steps::{ActionKind, FoldOrder};
use crate::tray::Tray;

/// Depth under which a corner only touches.
// Derived: an edge that ends where it just touches, such as a second fold that jams under its deck, sweeps past that
// place by (t/2 - h)² / 2s on its way; on card of 1.5 mm and a panel of the least size of 6 mm that is 0.047 mm.
const TOUCH_DEPTH_MM: f64 = 0.05;

/// One fold that cannot be made.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Hit {
    /// The panel that is folded.
    pub(crate) panel: usize,
    /// The panel that it, or what hangs on it, runs into.
    pub(crate) other: usize,
    /// How far it could be turned.
    pub(crate) angle_deg: f64,
}

/// The folds of the order that hit something, each with the first thing that it hits.
pub(crate) fn hits(tray: &Tray, blank: &Blank, order: &FoldOrder) -> Vec<Hit> {
    let mut folded = vec![false; tray.panels.len()];
    let mut hits = Vec::new();
    for action in &order.actions {
        let ActionKind::Fold(panels) = &action.kind else {
            continue;
        };
        for &panel in panels {
            let swing = Swing::set_up(tray, blank, &folded, panel);
            hits.extend(swing.first_hit());
        }
        for &panel in panels {
            folded[panel] = true;
        }
    }
    hits
}

/// One crease about to turn.
struct Swing<'t> {
    tray: &'t Tray,
    blank: &'t Blank,
    panel: usize,
    /// Where all panels are before it turns.
    before: Vec<Motion>,
    /// Whether a panel moves.
    moves: Vec<bool>,
    /// The turn in space at an angle is `outer` after the flat turn after `inner`.
    axis: Axis,
}

/// An axis in space.
struct Axis {
    origin: [f64; 3],
    /// Direction, one long; turning is positive about it.
    way: [f64; 3],
    /// The whole angle, positive about `way`.
    angle: f64,
}

impl<'t> Swing<'t> {
    fn set_up(tray: &'t Tray, blank: &'t Blank, folded: &[bool], panel: usize) -> Self {
        let fold = |other: usize| match &tray.panels[other].hanging {
            Some(hanging) if folded[other] => hanging.fold_deg,
            _ => 0.0,
        };
        let before = motions(tray, blank, fold);
        let mut moves = vec![false; tray.panels.len()];
        moves[panel] = true;
        for other in 0..tray.panels.len() {
            let parent = tray.panels[other]
                .hanging
                .as_ref()
                .map(|hanging| hanging.parent);
            moves[other] |= parent.is_some_and(|parent| moves[parent]);
        }
        let crease = blank
            .creases
            .iter()
            .find(|crease| crease.panel == panel)
            .expect("only hung panels are folded");
        let parent = tray.panels[panel]
            .hanging
            .as_ref()
            .expect("only hung panels are folded")
            .parent;
        let along = (crease.from - crease.to).unit();
        let height = tray.hinge * crease.fold_deg.signum();
        let origin = before[parent].apply([crease.from.x, crease.from.y, height]);
        let ahead =
            before[parent].apply([crease.from.x + along.x, crease.from.y + along.y, height]);
        let sense = crease.fold_deg.signum();
        let axis = Axis {
            origin,
            way: std::array::from_fn(|at| (ahead[at] - origin[at]) * sense),
            angle: crease.fold_deg.abs().to_radians(),
        };
        Swing {
            tray,
            blank,
            panel,
            before,
            moves,
            axis,
        }
    }

    /// The first thing that is hit, by the angle at which it is.
    fn first_hit(&self) -> Option<Hit> {
        let mut first: Option<Hit> = None;
        let parent = self.tray.panels[self.panel]
            .hanging
            .as_ref()
            .map(|hanging| hanging.parent);
        for mover in (0..self.moves.len()).filter(|&panel| self.moves[panel]) {
            for still in (0..self.moves.len()).filter(|&panel| !self.moves[panel]) {
                // Both fill the same bar at the crease, and neighbouring flaps share a cut.
                let neighbours = mover == self.panel && Some(still) == parent;
                let flaps = self.tray.flap_of(mover).is_some()
                    && self.tray.flap_of(mover) == self.tray.flap_of(still);
                if neighbours || flaps {
                    continue;
                }
                let hit = self.meeting(mover, still);
                if let Some(angle) =
                    hit.filter(|angle| first.as_ref().is_none_or(|first| *angle < first.angle_deg))
                {
                    first = Some(Hit {
                        panel: self.panel,
                        other: still,
                        angle_deg: angle,
                    });
                }
            }
        }
        first
    }

    /// The angle in degrees at which a corner of one enters the other, if one does.
    fn meeting(&self, mover: usize, still: usize) -> Option<f64> {
        let out =
            |panel: usize| slab(self.tray, self.blank, panel).map(move |corner| (panel, corner));
        let there = out(mover)
            .map(|(panel, corner)| self.entering(self.before[panel].apply(corner), still, 1.0));
        let back = out(still)
            .map(|(panel, corner)| self.entering(self.before[panel].apply(corner), mover, -1.0));
        there.chain(back).flatten().min_by(f64::total_cmp)
    }

    /// The angle at which a place, turned about the axis, comes to lie inside the slab of a panel where that is now.
    fn entering(&self, place: [f64; 3], into: usize, sense: f64) -> Option<f64> {
        let circle = Circle::of(&self.axis, place, sense, &self.before[into]);
        let flat = &self.blank.panels[into];
        let half = self.tray.caliper / 2.0;
        if circle.misses(&flat.outline, half) {
            return None;
        }
        // Between two neighbouring angles at which the place crosses a face or the line of an edge nothing changes.
        let mut angles = vec![0.0, self.axis.angle];
        circle.crossings([0.0, 0.0, 1.0], half, &mut angles);
        circle.crossings([0.0, 0.0, 1.0], -half, &mut angles);
        for (corner, to) in std::iter::once(&flat.outline)
            .chain(&flat.holes)
            .flat_map(Outline::edges)
        {
            let normal = (to - corner.at).unit().left();
            let offset = normal.x * corner.at.x + normal.y * corner.at.y;
            circle.crossings([normal.x, normal.y, 0.0], offset, &mut angles);
        }
        angles.retain(|angle| (0.0..=self.axis.angle).contains(angle));
        angles.sort_by(f64::total_cmp);
        let entered = angles.windows(2).find(|pair| {
            let at = circle.at((pair[0] + pair[1]) / 2.0);
            half - at[2].abs() > TOUCH_DEPTH_MM.min(half / 2.0)
                && depth_inside(flat, Point::new(at[0], at[1])) > TOUCH_DEPTH_MM
        });
        entered.map(|pair| pair[0].to_degrees())
    }
}

/// The way of a place about an axis, seen in the flat frame of a panel: centre + u cos θ + v sin θ.
struct Circle {
    centre: [f64; 3],
    u: [f64; 3],
    v: [f64; 3],
}

impl Circle {
    fn of(axis: &Axis, place: [f64; 3], sense: f64, panel: &Motion) -> Circle {
        let way = axis.way.map(|part| part * sense);
        let from: [f64; 3] = std::array::from_fn(|at| place[at] - axis.origin[at]);
        let along = dot(from, way);
        let foot: [f64; 3] = std::array::from_fn(|at| axis.origin[at] + way[at] * along);
        let u: [f64; 3] = std::array::from_fn(|at| place[at] - foot[at]);
        let v = cross(way, u);
        // Into the panel's flat frame: the inverse of its motion.
        let back = |way: [f64; 3]| -> [f64; 3] {
            std::array::from_fn(|column| (0..3).map(|row| panel.rows[row][column] * way[row]).sum())
        };
        let shifted: [f64; 3] = std::array::from_fn(|at| foot[at] - panel.shift[at]);
        Circle {
            centre: back(shifted),
            u: back(u),
            v: back(v),
        }
    }

    fn at(&self, angle: f64) -> [f64; 3] {
        let (sin, cos) = angle.sin_cos();
        std::array::from_fn(|at| self.centre[at] + self.u[at] * cos + self.v[at] * sin)
    }

    /// Whether the whole circle stays outside the box around a slab.
    fn misses(&self, outline: &Outline, half: f64) -> bool {
        let radius = |at: usize| self.u[at].hypot(self.v[at]);
        let (mut least, mut most) = ([f64::INFINITY; 2], [f64::NEG_INFINITY; 2]);
        for point in outline.points() {
            least = [least[0].min(point.x), least[1].min(point.y)];
            most = [most[0].max(point.x), most[1].max(point.y)];
        }
        let beside = |at: usize| {
            self.centre[at] + radius(at) < least[at] || self.centre[at] - radius(at) > most[at]
        };
        beside(0) || beside(1) || self.centre[2].abs() - radius(2) > half
    }

    /// Adds the angles from 0 to a whole turn at which the circle crosses a plane.
    // Derived: n·(c + u cos θ + v sin θ) = offset has the solutions θ = atan2(B, A) ± acos(-C / √(A² + B²)).
    fn crossings(&self, normal: [f64; 3], offset: f64, angles: &mut Vec<f64>) {
        let (a, b, c) = (
            dot(normal, self.u),
            dot(normal, self.v),
            dot(normal, self.centre) - offset,
        );
        let size = a.hypot(b);
        if size <= c.abs() {
            return;
        }
        let (middle, half) = (b.atan2(a), (-c / size).acos());
        angles.extend(
            [middle - half, middle + half].map(|angle| angle.rem_euclid(std::f64::consts::TAU)),
        );
    }
}

/// How deep a place lies inside a panel's card, in its plane; 0 outside.
fn depth_inside(flat: &crate::blank::FlatPanel, place: Point) -> f64 {
    let contours = || std::iter::once(&flat.outline).chain(&flat.holes);
    let crossings = contours().flat_map(Outline::edges).filter(|(corner, to)| {
        let from = corner.at;
        (from.y > place.y) != (to.y > place.y)
            && place.x < from.x + (place.y - from.y) / (to.y - from.y) * (to.x - from.x)
    });
    if crossings.count() % 2 == 0 {
        return 0.0;
    }
    contours()
        .flat_map(Outline::edges)
        .map(|(corner, to)| {
            let way = to - corner.at;
            let part = ((place - corner.at).dot(way) / way.dot(way)).clamp(0.0, 1.0);
            (place - (corner.at + way * part)).length()
        })
        .fold(f64::INFINITY, f64::min)
}

fn dot(one: [f64; 3], other: [f64; 3]) -> f64 {
    one[0] * other[0] + one[1] * other[1] + one[2] * other[2]
}

fn cross(one: [f64; 3], other: [f64; 3]) -> [f64; 3] {
    [
        one[1] * other[2] - one[2] * other[1],
        one[2] * other[0] - one[0] * other[2],
        one[0] * other[1] - one[1] * other[0],
    ]
}
