//! Panels that are cut out of the floor on which the tray stands: a hand pushes them up from below.
//!
//! **Input:** the card, and what a step folds. **Output:** whether the tray must be lifted for it, and what its figure
//! then shows: the table below the tray, and an arrow up from it.

use traywright_document::{Move, Orientation};

use crate::card::Card;
use crate::scene::Scene;
use crate::view::View;
use crate::visible::{Seen, contains};

/// The tray is lifted by so much of its height.
// Source: common practice, none published; chosen by looking at the pages.
const LIFTED: f64 = 0.3;
/// So far into a panel it is looked whether the panel lies within the floor.
// Derived: more than the noise of places, less than any fence is high.
const BEYOND_MM: f64 = 0.5;

/// Whether a step folds up panels that are cut out of the floor.
pub(crate) fn is_pushed(card: &Card, moves: &[Move]) -> bool {
    let Some(root) = card.panels.first() else {
        return false;
    };
    let outline: Vec<Seen> = root.rings[0].iter().map(|at| [at.x, at.y]).collect();
    let is_within = |one: &Move| {
        card.panels[one.panel].hinge.is_some_and(|hinge| {
            let [from, to] = hinge.line;
            let beyond = from.middle(to) + hinge.into_panel() * BEYOND_MM;
            hinge.parent == 0 && contains([outline.as_slice()], [beyond.x, beyond.y])
        })
    };
    card.document().stands == Orientation::RootDown && moves.iter().any(is_within)
}

/// The way of the tray up from the table, at the corner of its floor that is nearest to the eye.
pub(crate) fn way_up(scene: &Scene, view: View) -> Vec<Seen> {
    let [least, most] = scene.reach();
    let table = least[2] - LIFTED * (most[2] - least[2]);
    let corners = [least[0], most[0]].map(|x| [least[1], most[1]].map(|y| [x, y]));
    let seen = |[x, y]: [f64; 2], z: f64| view.on_plane([x, y, z]);
    let nearest = corners
        .into_iter()
        .flatten()
        .min_by(|&one, &other| seen(one, table)[1].total_cmp(&seen(other, table)[1]));
    nearest.map_or_else(Vec::new, |corner| {
        vec![seen(corner, table), seen(corner, least[2])]
    })
}

/// Adds the table below the lifted tray.
pub(crate) fn add_table(scene: &mut Scene) {
    let [least, most] = scene.reach();
    scene.add_turntable(LIFTED * (most[2] - least[2]));
}
