//! The field: the part of a panel in which openings may be arranged.
//!
//! **Input:** a slot of the style and its openings on one panel. **Output:** the largest upright rectangle that keeps
//! clear of the folded layers behind all edges, of the opening's own flaps, and of the web. **Does not** arrange.

use super::openings::Rect;
use super::{EvalError, Values};
use crate::geometry::{Point, TOUCH_MM, Vector};
use crate::style::graph::{HingeParent, MemberId, OpeningMemberId};
use crate::style::names::Scope;
use crate::style::text::{SlotCut, SlotEntry};

/// Narrowings of the search for the largest rectangle in each direction.
// Derived: each leaves two thirds, and (2/3)^72 of 5 m is below what counts as one place.
const NARROWINGS: usize = 72;

/// One side of a line: the points with `inwards` · point of at least `from`.
struct HalfPlane {
    inwards: Vector,
    from: f64,
}

impl<'a> Values<'a> {
    /// The field of a slot's openings on a panel; none if the panel has an inner corner.
    // Source: core/GEOMETRY.md, "Multi-slot: the field": the layers behind an edge, the inner half of the opening's own
    // flap, and the edge web. The flap counts whatever the cut, so that another cut moves no opening.
    pub(super) fn field(
        &self,
        slot: &'a SlotEntry,
        panel: MemberId,
        openings: &[OpeningMemberId],
    ) -> Result<Option<Rect>, EvalError> {
        let own = match slot.cut {
            SlotCut::Job => self.inner(90.0),
            SlotCut::Open | SlotCut::Uncut => 0.0,
        };
        let web = self.built_in_length("edge-web")?;
        let shape = self.shape(panel)?;
        let count = shape.corners.len();
        let mut planes = Vec::new();
        for (index, corner) in shape.corners.iter().enumerate() {
            let way = (shape.corners[(index + 1) % count].at - corner.at).unit();
            let after =
                shape.corners[(index + 2) % count].at - shape.corners[(index + 1) % count].at;
            if way.cross(after.unit()) < -TOUCH_MM {
                return Ok(None);
            }
            let behind = match &corner.edge {
                Some(edge) => self.stands_behind(slot, panel, edge, openings)?,
                None => None,
            };
            let border = behind.map_or(0.0, |behind| behind + own) + web;
            let inwards = way.left();
            planes.push(HalfPlane {
                inwards,
                from: (corner.at - Point::ORIGIN).dot(inwards) + border,
            });
        }
        Ok(Some(largest_rectangle(&planes)))
    }

    /// How far the folded layers behind an edge reach inwards from its line, if the style states it.
    fn stands_behind(
        &self,
        slot: &'a SlotEntry,
        panel: MemberId,
        edge: &str,
        openings: &[OpeningMemberId],
    ) -> Result<Option<f64>, EvalError> {
        let hung: Vec<MemberId> = self
            .graph
            .hung_on(HingeParent::Panel(panel), edge)
            .collect();
        let mut farthest: Option<f64> = None;
        for (key, stack) in slot.stacks.iter() {
            let entry = self.sheet().panels.id(&key.word);
            let mut outer = (key.word == edge).then_some(0.0);
            for &member in &hung {
                let named = &self.graph.members[member];
                let meant =
                    Some(named.entry) == entry || named.name == key.word || key.word == edge;
                if meant && self.panel_exists(member)? {
                    let fold_deg = self.fold_deg(member)?;
                    outer = Some(self.outer(fold_deg.abs()));
                }
            }
            let Some(outer) = outer else {
                continue;
            };
            for &opening in openings {
                let reach = self.amount(stack, Scope::Opening(opening))? - outer;
                farthest = Some(farthest.map_or(reach, |other: f64| other.max(reach)));
            }
        }
        Ok(farthest)
    }
}

/// The largest upright rectangle on the inner side of all lines; turned inside out if there is none.
fn largest_rectangle(planes: &[HalfPlane]) -> Rect {
    let along_x = |plane: &&HalfPlane| plane.inwards.y.abs() < TOUCH_MM;
    let bound = |right: bool| {
        let bounds = planes.iter().filter(along_x);
        let bounds = bounds.filter(move |plane| (plane.inwards.x < 0.0) == right);
        bounds.map(|plane| plane.from / plane.inwards.x)
    };
    let left = bound(false).fold(f64::NEG_INFINITY, f64::max);
    let right = bound(true).fold(f64::INFINITY, f64::min);
    let slanting = planes
        .iter()
        .any(|plane| plane.inwards.x.abs() >= TOUCH_MM && plane.inwards.y.abs() >= TOUCH_MM);
    if !slanting {
        return between(planes, left, right);
    }
    let reach = widest(planes);
    let (least, most) = (left.max(reach[0]), right.min(reach[1]));
    let best_right = |left: f64| {
        let right = peak(left, most, |right| worth(&between(planes, left, right)));
        between(planes, left, right)
    };
    let left = peak(least, most, |left| worth(&best_right(left)));
    best_right(left)
}

/// The area, or if there is none, the missing length as a negative number.
fn worth(rect: &Rect) -> f64 {
    if rect.width <= 0.0 {
        rect.width
    } else {
        rect.length * rect.width
    }
}

/// The highest rectangle within the lines between two positions along x.
fn between(planes: &[HalfPlane], left: f64, right: f64) -> Rect {
    let (mut lower, mut upper) = (f64::NEG_INFINITY, f64::INFINITY);
    for HalfPlane { inwards, from } in planes {
        if inwards.y.abs() < TOUCH_MM {
            continue;
        }
        let nearest = if inwards.x > 0.0 { left } else { right };
        // A horizontal line does not limit x.
        let across = if inwards.x.abs() < TOUCH_MM {
            0.0
        } else {
            inwards.x * nearest
        };
        let level = (from - across) / inwards.y;
        if inwards.y > 0.0 {
            lower = lower.max(level);
        } else {
            upper = upper.min(level);
        }
    }
    Rect {
        centre: Point::new((left + right) / 2.0, (lower + upper) / 2.0),
        length: right - left,
        width: upper - lower,
    }
}

/// The range along x of the corners at which two lines meet, beyond which there is no rectangle.
fn widest(planes: &[HalfPlane]) -> [f64; 2] {
    let mut reach = [f64::INFINITY, f64::NEG_INFINITY];
    for (index, one) in planes.iter().enumerate() {
        let other = &planes[(index + 1) % planes.len()];
        let cross = one.inwards.cross(other.inwards);
        if cross.abs() > TOUCH_MM {
            let x = (one.from * other.inwards.y - other.from * one.inwards.y) / cross;
            reach = [reach[0].min(x), reach[1].max(x)];
        }
    }
    reach
}

/// The argument at which a function that rises and then falls is greatest.
fn peak(mut from: f64, mut to: f64, figure: impl Fn(f64) -> f64) -> f64 {
    for _ in 0..NARROWINGS {
        let third = (to - from) / 3.0;
        if figure(from + third) < figure(to - third) {
            from += third;
        } else {
            to -= third;
        }
    }
    (from + to) / 2.0
}
