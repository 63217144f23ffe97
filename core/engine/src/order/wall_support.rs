//! What holds the folded tray: how far each wall can turn out before another panel stops it.
//!
//! Every panel is turned back about its crease, with all that hangs on it, while all others stand. Panels are rigid and
//! nothing presses on them, so what is told is what card stops, not what friction or spring does.

use super::motion::{FoldMotion, Folding};
use super::steps::{ActionKind, FoldOrder};
use crate::finding::{Advice, BuiltIn, Finding, Place};
use crate::ids::IdVec;
use crate::tray::{HangsOn, PanelId, Tray};

/// How far a wall may turn out and still be said to be held.
// Source: common practice, none published; at 10° a wall of 30 mm leans out by 5 mm.
const HELD_DEG: f64 = 10.0;

/// How far one family of walls can turn out.
#[derive(Clone, Debug)]
pub(crate) struct WallSupport {
    /// The family's name.
    pub(crate) key: String,
    /// The angle at which it is stopped and the panel that stops it; none where nothing does.
    pub(crate) stop: Option<(f64, String)>,
}

/// What stops the walls of the root, by family: the loosest of each.
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

/// The first action after which every wall stands and is stopped before it has turned out far.
pub(super) fn stands_after(folding: Folding, order: &FoldOrder) -> Option<usize> {
    let tray = folding.tray;
    let walls: Vec<PanelId> = tray
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
        if walls.iter().all(|&wall| folded[wall]) && walls.iter().all(is_stopped) {
            return Some(number);
        }
    }
    None
}

/// Whether a panel hangs on the root's outline: such a panel stands between the tray and its box.
fn is_wall(tray: &Tray, panel: PanelId) -> bool {
    let hanging = tray.panels[panel].hanging.as_ref();
    hanging.is_some_and(|hanging| {
        hanging.parent == PanelId::ROOT && matches!(hanging.on, HangsOn::Edge(_))
    })
}

/// Walls that nothing holds but the box around the tray.
pub(super) fn judge(supports: &[WallSupport]) -> Vec<Finding> {
    let loose = supports.iter().filter(|support| support.stop.is_none());
    loose
        .map(|support| {
            let place = Place::Panel(support.key.clone());
            Finding::new(BuiltIn::WallNotHeld, place).with_fix(Advice::WallsTrapped)
        })
        .collect()
}
