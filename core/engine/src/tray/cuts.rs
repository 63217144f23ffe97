//! How an opening is cut: the usual cuts of the trade, chosen so that no flap touches the box's floor.
//!
//! **Input:** an opening's rectangle in its panel's frame, the kind of cut, the corner notch and the maximum depth of a
//! flap. **Output:** flaps, holes and cuts in that frame. If no cut is possible, the plan shows it and the check
//! refuses it.
//!
//! ```text
//!    cross                 mitred                with a window          doors
//!   +-------+    +-----------------+    +-----------------+    +-----------------+
//!   | \   / |    | \             / |    | \+-----------+/ |    |                 |
//!   |   X   |    |   >---------<   |    |  |           |  |    |-----------------|
//!   | /   \ |    | /             \ |    | /+-----------+\ |    |                 |
//!   +-------+    +-----------------+    +-----------------+    +-----------------+
//! ```

use crate::geometry::{Outline, Point};
use crate::job::Cut;
use crate::values::Rect;

/// Least width of a window that is cut out of the middle.
// Source: common practice, none published.
const LEAST_WINDOW: f64 = 2.0;

/// How far a flap must reach beyond its corner notch.
// Source: common practice, none published.
const LEAST_FLAP: f64 = 1.0;

/// The cuts and flaps of an opening with flaps.
#[derive(Clone, Debug)]
pub(crate) struct CutPlan {
    pub(crate) variant: CutVariant,
    pub(crate) flaps: Vec<Flap>,
    /// Closed cuts, clockwise.
    pub(crate) holes: Vec<Outline>,
    /// Open cuts.
    pub(crate) cuts: Vec<(Point, Point)>,
    /// Depth of the deepest flap of the preferred cut.
    pub(crate) wanted: f64,
    /// Depth of the deepest flap.
    pub(crate) depth: f64,
    /// Depth of the shallowest flap.
    pub(crate) shallowest: f64,
    /// Maximum depth of a flap.
    pub(crate) limit: f64,
    /// Minimum depth of a flap.
    pub(crate) least: f64,
}

/// The form of the chosen cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum CutVariant {
    /// Two diagonals.
    Cross,
    /// Cuts at 45° from the corners to a slit.
    Mitred,
    /// Cuts at 45° from the corners to a window.
    MitredWindow,
    /// Two flaps that meet in the middle.
    Doors,
    /// Two flaps with a strip cut out between them.
    DoorsStrip,
}

/// One flap.
#[derive(Clone, Debug)]
pub(crate) struct Flap {
    /// The opening's edge that it is hinged to: lower, right, upper, left.
    pub(crate) side: usize,
    /// Its crease, with the card of the panel on its left.
    pub(crate) crease: (Point, Point),
    /// Its corners, counter-clockwise.
    pub(crate) points: Vec<Point>,
}

impl CutPlan {
    /// Plans the cut, with the maximum depth of a flap and the narrowest window that the tool can cut.
    pub(crate) fn draw(
        rect: &Rect,
        cut: Cut,
        doors_on_long: bool,
        notch: f64,
        [limit, narrowest]: [f64; 2],
    ) -> CutPlan {
        let window = narrowest.max(LEAST_WINDOW);
        match cut {
            Cut::Doors => doors(rect, doors_on_long, limit, window),
            // An open cut has no flaps to plan; a caller that asks for one gets the cross.
            Cut::Cross | Cut::Open => cross(rect, notch, limit, [narrowest, window]),
        }
    }

    /// A cut of that form without its flaps yet.
    fn without_flaps(variant: CutVariant, depth: f64, limit: f64) -> CutPlan {
        CutPlan {
            variant,
            flaps: Vec::new(),
            holes: Vec::new(),
            cuts: Vec::new(),
            wanted: depth,
            depth,
            shallowest: depth,
            limit,
            least: LEAST_FLAP,
        }
    }

    /// Whether the plan can be cut: its flaps are deep enough.
    pub(crate) fn hangs(&self) -> bool {
        self.shallowest >= self.least
    }

    /// Whether that edge has a flap: lower, right, upper, left.
    pub(crate) fn flap_on(&self, side: usize) -> bool {
        self.flaps.iter().any(|flap| flap.side == side)
    }
}

/// Four flaps: the first of cross, mitred and window whose flaps are not too deep, and whose slit the tool can cut.
fn cross(rect: &Rect, notch: f64, limit: f64, [narrowest, window]: [f64; 2]) -> CutPlan {
    let (less, more) = (rect.length.min(rect.width), rect.length.max(rect.width));
    let (variant, depth) = if more / 2.0 <= limit {
        (CutVariant::Cross, more / 2.0)
    } else if less / 2.0 <= limit && more - less >= narrowest {
        (CutVariant::Mitred, less / 2.0)
    } else {
        (CutVariant::MitredWindow, limit.min((less - window) / 2.0))
    };
    let mut plan = CutPlan {
        wanted: more / 2.0,
        shallowest: depth.min(less / 2.0),
        least: notch + LEAST_FLAP,
        ..CutPlan::without_flaps(variant, depth, limit)
    };
    let corners = rect.corners();
    let notches = notches(&corners, notch);
    let inner = inner(rect, variant, depth);
    for side in 0..4 {
        let next = (side + 1) % 4;
        let (start, end) = (notches[side], notches[next]);
        let mut points = vec![start[2], end[0], end[1], inner[next], inner[side], start[1]];
        points.dedup_by(|point, before| point.touches(*before));
        plan.flaps.push(Flap {
            side,
            crease: (end[0], start[2]),
            points,
        });
        plan.holes.push(Outline::straight([
            corners[side],
            start[0],
            start[1],
            start[2],
        ]));
    }
    plan.cuts = cross_cuts(variant, &notches, &inner);
    if variant == CutVariant::MitredWindow {
        plan.holes.push(Outline::straight(inner).reversed());
    }
    plan
}

/// For each corner of the opening the corners of its notch: on the edge before, inside, and on the edge after.
fn notches(corners: &[Point; 4], notch: f64) -> [[Point; 3]; 4] {
    std::array::from_fn(|at| {
        let (before, here, after) = (corners[(at + 3) % 4], corners[at], corners[(at + 1) % 4]);
        let (back, on) = (
            (before - here).unit() * notch,
            (after - here).unit() * notch,
        );
        [here + back, here + back + on, here + on]
    })
}

/// The shape left in the middle of a cross: a point, a slit or a window.
fn inner(rect: &Rect, variant: CutVariant, depth: f64) -> [Point; 4] {
    let [low, _, high, _] = rect.corners();
    let (inset_x, inset_y) = match variant {
        CutVariant::Cross => (rect.length / 2.0, rect.width / 2.0),
        _ => (depth, depth),
    };
    let (left, right) = (low.x + inset_x, high.x - inset_x);
    let (lower, upper) = (low.y + inset_y, high.y - inset_y);
    [
        Point::new(left, lower),
        Point::new(right, lower),
        Point::new(right, upper),
        Point::new(left, upper),
    ]
}

/// The cuts between the flaps of a cross: two whole diagonals, or four to the corners of the middle.
fn cross_cuts(
    variant: CutVariant,
    notches: &[[Point; 3]; 4],
    inner: &[Point; 4],
) -> Vec<(Point, Point)> {
    let diagonals = (0..4).map(|at| (notches[at][1], inner[at]));
    match variant {
        CutVariant::Cross => vec![
            (notches[0][1], notches[2][1]),
            (notches[1][1], notches[3][1]),
        ],
        CutVariant::Mitred => diagonals
            .chain([(inner[0], inner[2])])
            .filter(|(from, to)| !from.touches(*to))
            .collect(),
        _ => diagonals.collect(),
    }
}

/// Two flaps on opposite edges.
fn doors(rect: &Rect, on_long: bool, limit: f64, window: f64) -> CutPlan {
    let long_is_x = rect.length >= rect.width;
    // Lower and upper edge, or right and left edge.
    let first = if long_is_x == on_long { 0 } else { 1 };
    let across = if first == 0 { rect.width } else { rect.length };
    let meet = across / 2.0 <= limit;
    let (variant, depth) = if meet {
        (CutVariant::Doors, across / 2.0)
    } else {
        (CutVariant::DoorsStrip, limit.min((across - window) / 2.0))
    };
    let mut plan = CutPlan {
        wanted: across / 2.0,
        ..CutPlan::without_flaps(variant, depth, limit)
    };
    let corners = rect.corners();
    let door = |side: usize| {
        let (from, to) = (corners[side], corners[(side + 1) % 4]);
        let inwards = (to - from).unit().left() * depth;
        [from, to, to + inwards, from + inwards]
    };
    let (lower, upper) = (door(first), door(first + 2));
    for (side, points) in [(first, lower), (first + 2, upper)] {
        let crease = (points[1], points[0]);
        plan.flaps.push(Flap {
            side,
            crease,
            points: points.to_vec(),
        });
    }
    if meet {
        // Both ends from edge to edge, and the line where the doors meet.
        plan.cuts = vec![
            (lower[0], upper[1]),
            (lower[1], upper[0]),
            (lower[3], lower[2]),
        ];
    } else {
        plan.cuts = [lower, upper]
            .iter()
            .flat_map(|door| [(door[0], door[3]), (door[1], door[2])])
            .collect();
        plan.holes
            .push(Outline::straight([lower[3], lower[2], upper[3], upper[2]]).reversed());
    }
    plan
}
