//! An item in its place in the standing tray, and the opening around it.
//!
//! Lengths in mm, in the frame of the standing tray.

use traywright_document::{Orientation, Point, Vector};

use super::plan::{Plan, edges};
use super::section::{hull, seen_from_above, shared};
use super::standing::Standing;
use crate::job::{Item, ItemId, ItemShape, Job};
use crate::tray::{Opening, OpeningCut, OpeningId, PanelId, Tray, clear, oval_in};
use crate::values::{Rect, lies_along};

/// An item may slide this much further than its clearance and still count as held.
// Source: a choice of this project: a fifth of what a ruler shows.
const MORE_THAN_PLAY_MM: f64 = 0.1;

/// Maximum lean of the normal of a level panel; a panel that is not level leans by degrees.
// Derived: the rounding of a pose.
const LEVEL: f64 = 1e-9;

/// Heights closer than this count as equal.
// Derived: the lean of a level panel, over the length of the longest.
const LEVEL_MM: f64 = 1e-5;

/// Maximum height above the floor, in thicknesses of card, of card that an item can rest on.
// Source: a choice of this project: card that lies flat, in at most three layers.
const SEAT_CALIPERS: f64 = 3.0;

/// Maximum distance between a chord and the curve of an oval item.
// Derived: what an item travels is told to 0.01 mm.
const CHORD_MM: f64 = 0.002;

/// An item in its opening.
#[derive(Clone, Debug)]
pub(super) struct Lying {
    pub(super) id: ItemId,
    pub(super) opening: OpeningId,
    /// The item, its length along the first axis of the panel.
    pub(super) item: Item,
    pub(super) plan: Plan,
    /// Height of the card or floor under the item or its pad.
    pub(super) seat: f64,
    /// Height of the floor, without card on it.
    pub(super) bare: f64,
    /// Height of the top face of the panel around the item; none if the item is not in a cut opening.
    pub(super) deck: Option<f64>,
    /// The panels at the item's ends (along the box) and at its sides.
    pub(super) beside: [Beside; 2],
    /// Clearance in the opening along the box and across it, and how far the item's curve enters finger notches.
    pub(super) play: [f64; 2],
    pub(super) notches: [f64; 2],
    /// How far the creases of flaps lie below the top of their panel.
    pub(super) hinge: f64,
}

/// The panels at two opposite edges of an opening.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Beside {
    /// No panel, or one at only one of the two edges.
    Bare,
    /// Flaps that hang down: the flat depth of the shallower one.
    Flaps(f64),
    /// Fences that stand up: the height of the lower one.
    Fences(f64),
}

impl Lying {
    /// The item of an opening; none if the panel with the opening is not level.
    pub(super) fn of(standing: &Standing, tray: &Tray, job: &Job, id: OpeningId) -> Option<Lying> {
        let opening = &tray.openings[id];
        let (number, item) = (opening.item?, opening.item_as_it_lies(job)?);
        let pose = &standing.poses[opening.panel];
        if pose.turn([0.0, 0.0, 1.0])[2].abs() < 1.0 - LEVEL {
            return None;
        }
        let at = |point: Point| {
            let flat = tray.frames[opening.panel].place(point);
            let [x, y, _] = pose.apply([flat.x, flat.y, 0.0]);
            Point::new(x, y)
        };
        let along = at(opening.rect.centre + Vector::new(1.0, 0.0)) - at(opening.rect.centre);
        // The first axis of a panel that is hinged to the side of another panel is across the box.
        let crossed = along.x.abs() < along.y.abs();
        let in_the_box = |pair: [f64; 2]| if crossed { [pair[1], pair[0]] } else { pair };
        let plan = plan(opening, &item, at);
        let bare = standing.bare_floor(tray, &plan);
        let clear = clear(tray, id);
        let edges = if crossed {
            [[0, 2], [1, 3]]
        } else {
            [[1, 3], [0, 2]]
        };
        Some(Lying {
            id: number,
            opening: id,
            seat: standing.seat(&plan, bare, tray.caliper),
            bare,
            deck: deck(standing, tray, opening),
            beside: edges.map(|pair| beside(standing, tray, id, pair)),
            play: in_the_box([
                clear.length - item.length.mm(),
                clear.width - item.width.mm(),
            ]),
            notches: in_the_box(notches(opening, &item)),
            hinge: tray.caliper / 2.0 + tray.hinge,
            plan,
            item,
        })
    }

    /// The longest travel along an axis with which the item still counts as held.
    pub(super) fn allowed(&self, axis: usize) -> f64 {
        self.play[axis] + self.notches[axis] + MORE_THAN_PLAY_MM
    }

    /// Height of the item's underside, on its pad.
    pub(super) fn base(&self) -> f64 {
        self.seat + self.item.pad.mm()
    }

    /// Height of the item's top.
    pub(super) fn top(&self) -> f64 {
        self.base() + self.item.depth.mm()
    }

    /// The lowest and highest point between which the item has its full outline.
    pub(super) fn upright(&self) -> [f64; 2] {
        [self.base(), self.base() + self.item.straight()]
    }
}

/// The outline of an item in its opening.
fn plan(opening: &Opening, item: &Item, at: impl Fn(Point) -> Point) -> Plan {
    let centre = opening.rect.centre;
    let [length, width] = [item.length.mm(), item.width.mm()];
    let half = Vector::new(length / 2.0, width / 2.0);
    match item.shape {
        ItemShape::Round => Plan::Disc {
            middle: at(centre),
            radius: half.x,
        },
        ItemShape::Oval => {
            let around = Rect {
                centre,
                length,
                width,
            };
            let curve = oval_in(&around).flattened(CHORD_MM);
            Plan::Polygon(hull(
                curve
                    .into_iter()
                    .map(|[x, y]| at(Point::new(x, y)))
                    .collect(),
            ))
        }
        _ => {
            let corners = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)]
                .map(|(x, y)| at(centre + Vector::new(x * half.x, y * half.y)));
            Plan::Polygon(hull(corners.to_vec()))
        }
    }
}

/// Height of the top face of the panel around an item in a cut opening.
fn deck(standing: &Standing, tray: &Tray, opening: &Opening) -> Option<f64> {
    let height = standing.poses[opening.panel].apply([0.0; 3])[2];
    let cut = !matches!(opening.cut, OpeningCut::Uncut);
    cut.then_some(height + tray.caliper / 2.0)
}

/// The panels at two opposite edges of an opening.
fn beside(standing: &Standing, tray: &Tray, id: OpeningId, pair: [usize; 2]) -> Beside {
    let deepest = |side: usize| {
        let edge = &tray.openings[id].edges[side];
        let hung = tray.hung_on_opening(id, edge).map(|panel| {
            let (_, reach) = tray.panels[panel].shape.extent();
            let way = tray.frames[panel].turn(Vector::new(0.0, 1.0));
            let up = standing.poses[panel].turn([way.x, way.y, 0.0])[2] > 0.0;
            (reach, up)
        });
        hung.max_by(|one, other| one.0.total_cmp(&other.0))
    };
    match pair.map(deepest) {
        [Some((one, up)), Some((other, also))] if up == also => {
            let depth = one.min(other);
            if up {
                Beside::Fences(depth)
            } else {
                Beside::Flaps(depth)
            }
        }
        _ => Beside::Bare,
    }
}

/// How far a curved item enters the finger notches of its opening, on both sides together, along the panel's axes.
// Derived: a curve of radius r goes r - √(r² - (w/2)²) into a gap of width w in a straight edge; at the ends of its axes the
// radius of an ellipse is the square of one half axis by the other. The edge of a circle curves away from a disc by the
// same of its own radius; that of an oval is taken for straight, which allows it a little more.
fn notches(opening: &Opening, item: &Item) -> [f64; 2] {
    let curved = item.shape != ItemShape::Rectangle;
    let Some(finger) = opening.form.finger.filter(|_| curved) else {
        return [0.0, 0.0];
    };
    let enters = |beside: f64, towards: f64| {
        let radius = (beside / 2.0) * (beside / 2.0) / (towards / 2.0);
        let half = (finger / 2.0).min(radius);
        radius - (radius * radius - half * half).sqrt()
    };
    let rect = &opening.rect;
    let round = item.shape == ItemShape::Round && opening.form.curved;
    let more = |[beside, towards]: [f64; 2], [wide, long]: [f64; 2]| {
        let edge = if round { enters(wide, long) } else { 0.0 };
        2.0 * (enters(beside, towards) - edge).max(0.0)
    };
    let [length, width] = [item.length.mm(), item.width.mm()];
    if lies_along(rect.length, rect.width) {
        [0.0, more([length, width], [rect.length, rect.width])]
    } else {
        [more([width, length], [rect.width, rect.length]), 0.0]
    }
}

impl Standing {
    /// Height of the floor under an outline: the root panel if the tray stands on it, else the box's floor.
    fn bare_floor(&self, tray: &Tray, plan: &Plan) -> f64 {
        let upper = self.poses[PanelId::ROOT].apply([0.0; 3])[2] + tray.caliper / 2.0;
        let layer = [upper - LEVEL_MM, upper + LEVEL_MM];
        match self.stands {
            Orientation::RootDown if self.carries(plan, layer, |panel| panel == PanelId::ROOT) => {
                upper
            }
            _ => 0.0,
        }
    }

    /// The height at which an item rests: on flat card under it, or on the floor. Card that touches only the item's rim
    /// does not carry the item; it is in the item's way.
    fn seat(&self, plan: &Plan, bare: f64, caliper: f64) -> f64 {
        let highest = bare + SEAT_CALIPERS * caliper + LEVEL_MM;
        let mut tops: Vec<f64> = self
            .pieces
            .iter()
            .filter(|piece| piece.most[2] > bare + LEVEL_MM && piece.most[2] <= highest)
            .filter(|piece| piece.most[2] - piece.least[2] < caliper + LEVEL_MM)
            .map(|piece| piece.most[2])
            .collect();
        tops.sort_by(|one, other| other.total_cmp(one));
        let carries = |top: &f64| self.carries(plan, [top - LEVEL_MM, top + LEVEL_MM], |_| true);
        tops.into_iter().find(carries).unwrap_or(bare)
    }

    /// Whether card with its top face in a layer carries an outline: the outline's middle is within the supporting
    /// area.
    fn carries(&self, plan: &Plan, [low, high]: [f64; 2], of: impl Fn(PanelId) -> bool) -> bool {
        let pieces = self.pieces.iter().filter(|piece| of(piece.panel));
        let under = pieces.filter(|piece| piece.most[2] > low && piece.most[2] <= high);
        let bearing = under.flat_map(|piece| {
            let whole = [piece.least[2], piece.most[2]];
            let polygon = seen_from_above(&piece.solid, whole).unwrap_or_default();
            shared(&plan.corners(), &polygon)
        });
        let support = hull(bearing.collect());
        let middle = plan.middle();
        let inside = |(from, to): (Point, Point)| (to - from).cross(middle - from) > 0.0;
        support.len() > 2 && edges(&support).all(inside)
    }
}
