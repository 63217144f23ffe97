//! The way of a panel that is folded, as an arc.
//!
//! Given the stages before and after; gives places along the way of the middle of its far edge, from just after the
//! beginning to just before the end. A small panel's arc is drawn as if it reached farther, so that it can be seen.

use crate::card::Card;
use crate::folding::Stage;
use crate::space::{Space, joined, placed, plus, turn};

/// Places on an arc.
const PLACES: usize = 24;
/// Share of the way that is left out at its beginning, and at its end.
const LEFT_OUT: [f64; 2] = [0.06, 0.03];

/// The way of a panel; it reaches `least` at least.
pub(crate) fn path(
    card: &Card,
    [before, after]: [&Stage; 2],
    panel: usize,
    least: f64,
) -> Vec<Space> {
    let Some((hinge, outwards)) = card.panels[panel].hinge else {
        return vec![placed(&after.lie(), card.panels[panel].root()); 2];
    };
    let parent = after.poses(card)[hinge.parent];
    let reach = card.panels[panel].reach.max(least);
    let tip = plus(card.panels[panel].root(), outwards, reach);
    let (from, to) = (before.angles[panel], after.angles[panel]);
    let place = |step: usize| {
        let share = LEFT_OUT[0] + (1.0 - LEFT_OUT[0] - LEFT_OUT[1]) * step as f64 / PLACES as f64;
        let pose = joined(&parent, &turn(&hinge, outwards, from + share * (to - from)));
        placed(&pose, tip)
    };
    (0..=PLACES).map(place).collect()
}
