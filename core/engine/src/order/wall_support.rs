//! The support of the walls: how far each wall can turn outwards before another panel stops it.
//!
//! Each wall of the root panel is turned back about its crease, at most by `HELD_DEG`, with all panels beyond it, while
//! the others stay folded. Panels are rigid and nothing presses on them, so only card limits the angles, not friction or
//! spring.

use super::motion::{FoldMotion, Folding};
use super::steps::{ActionKind, FoldOrder};
use crate::finding::{Advice, BuiltIn, Finding, Place};
use crate::ids::IdVec;
use crate::tray::{HangsOn, PanelId, Tray};

/// Maximum angle by which a wall may turn outwards and still count as held.
// Source: common practice, none published; at 10° a wall of 30 mm leans out by 5 mm.
const HELD_DEG: f64 = 10.0;

/// How far one family of walls can turn outwards.
#[derive(Clone, Debug)]
pub(crate) struct WallSupport {
    /// The family's name.
    pub(crate) key: String,
    /// The angle at which a panel stops it, and that panel; none if nothing stops it.
    pub(crate) stop: Option<(f64, String)>,
}

/// The stops of the root's walls, by family: the loosest wall of each.
pub(super) fn of(folding: Folding) -> Vec<WallSupport> {
    let tray = folding.tray;
    let panels = tray.panels.iter();
    let folded = panels.map(|panel| panel.hanging.is_some()).collect();
    let mut supports: Vec<WallSupport> = Vec::new();
    for panel in tray.panels.ids().filter(|&panel| is_wall(tray, panel)) {
        let stop = FoldMotion::of(folding, &folded, panel)
            .back(HELD_DEG)
            .first_meeting();
        let stop = stop.map(|(other, angle_deg)| (angle_deg, tray.panels[other].name.clone()));
        let key = &tray.panels[panel].key;
        let angle =
            |stop: &Option<(f64, String)>| stop.as_ref().map_or(f64::INFINITY, |(angle, _)| *angle);
        match supports.iter_mut().find(|support| support.key == *key) {
            Some(support) if angle(&support.stop) >= angle(&stop) => {}
            Some(support) => support.stop = stop,
            None => supports.push(WallSupport {
                key: key.clone(),
                stop,
            }),
        }
    }
    supports
}

/// The first action after which every wall is folded and cannot turn out further than `HELD_DEG`.
pub(super) fn stands_after(folding: Folding, order: &FoldOrder) -> Option<usize> {
    let tray = folding.tray;
    let mut walls: Vec<PanelId> = tray
        .panels
        .ids()
        .filter(|&panel| is_wall(tray, panel))
        .collect();
    let mut folded = IdVec::of_each(false, tray.panels.len());
    for (number, action) in order.actions.iter().enumerate() {
        let ActionKind::Fold(panels) = &action.kind else {
            continue;
        };
        panels.iter().for_each(|&panel| folded[panel] = true);
        let is_stopped = |&wall: &PanelId| {
            let back = FoldMotion::of(folding, &folded, wall).back(HELD_DEG);
            back.first_meeting().is_some()
        };
        if !walls.iter().all(|&wall| folded[wall]) {
            continue;
        }
        match walls.iter().position(|wall| !is_stopped(wall)) {
            None => return Some(number),
            // It is the most likely to be loose after the next action too.
            Some(loose) => walls.swap(0, loose),
        }
    }
    None
}

/// Whether a panel is hinged to the root's outline, and so is between the tray and its box.
fn is_wall(tray: &Tray, panel: PanelId) -> bool {
    let hanging = tray.panels[panel].hanging.as_ref();
    hanging.is_some_and(|hanging| {
        hanging.parent == PanelId::ROOT && matches!(hanging.on, HangsOn::Edge(_))
    })
}

/// Walls that only the box around the tray holds.
pub(super) fn judge(supports: &[WallSupport]) -> Vec<Finding> {
    let loose = supports.iter().filter(|support| support.stop.is_none());
    loose
        .map(|support| {
            let place = Place::Panel(support.key.clone());
            Finding::new(BuiltIn::WallNotHeld, place).with_fix(Advice::WallsTrapped)
        })
        .collect()
}
