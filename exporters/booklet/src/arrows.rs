//! The arcs that show how a panel moves when it is folded, and how a tray is rotated or turned over.
//!
//! Given the stages before and after; gives points on the path of the middle of a panel's far edge, from just after its
//! beginning to just before its end. A small panel's arc is enlarged, so that it can be seen: if the panel carries
//! others outwards, as if it reached farther; otherwise with the same end.

use crate::card::Card;
use crate::scene::Scene;
use crate::view::View;
use crate::visible::Seen;
use traywright_document::space::{Vec3, plus};
use traywright_document::steady::Steady;
use traywright_document::{Stage, Vector};

/// Places on an arc.
const PLACES: usize = 24;
/// Share of the way that is left out at its beginning, and at its end.
const LEFT_OUT: [f64; 2] = [0.06, 0.03];
/// What reaches less far, in mm, has no way of its own that could be drawn larger.
const LEAST_OWN: f64 = 0.01;
/// Heads of two arrows lie so far apart, over the diagonal of the figure, and all but their beginnings so far; nearer ones
/// would be read as one.
// Source for both: common practice, none published; chosen by looking at the pages.
const HEADS_APART: f64 = 0.13;
const ARROWS_APART: f64 = 0.03;
/// The part of an arrow that is its beginning: doors begin to open where they meet.
const BEGINNING: usize = 4;
/// Radius of the way over a tray, as a part of half its width or height, and the share of a half turn left out at each end.
const OVER_TRAY: f64 = 1.15;
const RISEN: f64 = 0.12;

/// The way of a panel; it reaches `least` at least.
pub(crate) fn path(
    card: &Card,
    [before, after]: [&Stage; 2],
    panel: usize,
    least: f64,
) -> Vec<Vec3> {
    let Some(hinge) = card.panels[panel].hinge else {
        return vec![after.lie().apply(card.panels[panel].root()); 2];
    };
    let parent = card.poses(after)[hinge.parent];
    let own = card.panels[panel].reach;
    let (reach, larger) = if card.carries_outwards(panel) || own < LEAST_OWN {
        (own.max(least), 1.0)
    } else {
        (own, (least / own).max(1.0))
    };
    let Vector { x, y } = hinge.into_panel();
    let tip = plus(card.panels[panel].root(), [x, y, 0.0], reach);
    let (from, to) = (before.angles[panel], after.angles[panel]);
    let place = |step: usize| {
        let share = LEFT_OUT[0] + (1.0 - LEFT_OUT[0] - LEFT_OUT[1]) * step as f64 / PLACES as f64;
        let pose = parent.after(&hinge.fold(from + share * (to - from)));
        pose.apply(tip)
    };
    let end = place(PLACES);
    let from_end = |at: Vec3| [0, 1, 2].map(|axis| end[axis] + larger * (at[axis] - end[axis]));
    (0..=PLACES).map(|step| from_end(place(step))).collect()
}

/// The way of a tray that is seen first from one side and then from another: along its circle on the table, past the side
/// that is nearest to the eye before it turns.
pub(crate) fn round(scene: &Scene, views: [View; 2]) -> Vec<Vec3> {
    let (middle, radius) = scene.turntable();
    let turn = views[0].turn_to(views[1]);
    let place = |step: usize| {
        let share = step as f64 / PLACES as f64 - 0.5;
        let (sin, cos) = (views[0].azimuth_deg + share * turn)
            .to_radians()
            .steady_sin_cos();
        plus(middle, [radius * cos, radius * sin, 0.0], 1.0)
    };
    (0..=PLACES).map(place).collect()
}

/// The way of a tray that is turned over about the box's length: from its side that is nearest to the eye, over its top,
/// towards the other one.
pub(crate) fn over(scene: &Scene, view: View) -> Vec<Vec3> {
    let [least, most] = scene.reach();
    let middle = [0, 1, 2].map(|axis| (least[axis] + most[axis]) / 2.0);
    let half = (most[1] - least[1]).max(most[2] - least[2]) / 2.0;
    let radius = OVER_TRAY * half;
    let nearest = view.axes()[2][1].signum();
    let place = |step: usize| {
        let share = RISEN + (1.0 - 2.0 * RISEN) * step as f64 / PLACES as f64;
        let (sin, cos) = (std::f64::consts::PI * share).steady_sin_cos();
        plus(middle, [0.0, nearest * radius * cos, radius * sin], 1.0)
    };
    (0..=PLACES).map(place).collect()
}

/// Whether two arrows in a figure of this diagonal are read as two.
pub(crate) fn are_apart(way: &[Seen], other: &[Seen], diagonal: f64) -> bool {
    let far = |[here, there]: [&Seen; 2], least: f64| {
        (here[0] - there[0]).steady_hypot(here[1] - there[1]) > least * diagonal
    };
    let [way, other] = [way, other].map(|way| &way[way.len() / BEGINNING..]);
    let heads = way.last().zip(other.last());
    heads.is_none_or(|(one, two)| far([one, two], HEADS_APART))
        && way
            .iter()
            .all(|one| other.iter().all(|two| far([one, two], ARROWS_APART)))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A straight way in as many places as a drawn one.
    fn way(from: Seen, to: Seen) -> Vec<Seen> {
        let side = |side: usize, share: f64| from[side] + share * (to[side] - from[side]);
        (0..=24)
            .map(|step| f64::from(step) / 24.0)
            .map(|share| [side(0, share), side(1, share)])
            .collect()
    }

    #[test]
    fn arrows_that_meet_are_not_two() {
        let one = way([0.0, 0.0], [40.0, 0.0]);
        // Heads meet; shafts cross; one runs into the other's side; doors open from where they meet.
        for (from, to, is_apart) in [
            ([40.0, 40.0], [40.0, 5.0], false),
            ([20.0, -30.0], [20.0, 30.0], false),
            ([20.0, 40.0], [20.0, 2.0], false),
            ([0.0, 1.0], [-40.0, 0.0], true),
        ] {
            assert_eq!(are_apart(&way(from, to), &one, 100.0), is_apart, "{to:?}");
            assert_eq!(are_apart(&one, &way(from, to), 100.0), is_apart, "{to:?}");
        }
    }
}
