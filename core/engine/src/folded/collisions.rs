//! Collisions of the folded tray with itself: no two panel solids may occupy the same space.
//!
//! The measure is penetration depth, not shared volume: faces that touch by design share no volume, but over a large
//! face rounding errors add up to a volume. A panel and its parent share the bend at their crease.

use crate::finding::{Advice, BuiltIn, Finding, Mm, Place};
use crate::folded::FoldedTray;
use crate::folded::{Bounds, PanelSolids, Tongues};
use crate::ids::IdVec;
use crate::space::ConvexSolid;
use crate::tray::{Panel, PanelId, Tray};

/// The finding about two panels that overlap, if any do.
pub(super) fn judge(
    tray: &Tray,
    solids: &PanelSolids,
    folded: &FoldedTray,
    touch: f64,
) -> Option<Finding> {
    let (one, other, depth) = deepest(tray, solids, folded, touch)?;
    let name = |panel: PanelId| tray.panels[panel].name.clone();
    let found = BuiltIn::PanelsCollide {
        other: name(other),
        depth: Mm(depth),
    };
    let found = Finding::new(found, Place::Panel(name(one))).measured(depth, 0.0);
    Some(found.with_fix(Advice::LargerBoxOrSettings))
}

/// The two panels that overlap deepest, and the depth, if it is more than `touch`.
fn deepest(
    tray: &Tray,
    solids: &PanelSolids,
    folded: &FoldedTray,
    touch: f64,
) -> Option<(PanelId, PanelId, f64)> {
    let placed = folded.motions.enumerated();
    let bounds: IdVec<Panel, Bounds> = placed
        .map(|(panel, pose)| solids.bounds(panel).placed(pose))
        .collect();
    let mut deepest: Option<(PanelId, PanelId, f64)> = None;
    for one in tray.panels.ids() {
        for other in tray.panels.ids().take_while(|&other| other < one) {
            if bounds[one].apart(&bounds[other]) {
                continue;
            }
            let [solids, others] = solids.pair(tray, one, other, Tongues::Stiff);
            let placed = |solids: Vec<&ConvexSolid>, panel: PanelId| -> Vec<ConvexSolid> {
                solids
                    .into_iter()
                    .map(|solid| solid.moved(&folded.motions[panel]))
                    .collect()
            };
            let (solids, others) = (placed(solids, one), placed(others, other));
            let pairs = solids
                .iter()
                .flat_map(|solid| others.iter().map(move |other| (solid, other)));
            let depth = pairs
                .map(|(solid, other)| solid.depth(other))
                .fold(0.0, f64::max);
            if depth > deepest.map_or(touch, |(_, _, depth)| depth) {
                deepest = Some((one, other, depth));
            }
        }
    }
    deepest
}
