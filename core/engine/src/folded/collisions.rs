//! Clearance of the folded tray with itself: no two panel solids fill the same space.
//!
//! Judged is how deep two solids are inside each other, not the volume that they share: faces that touch by design share
//! none, and yet a sum of roundings over a large face does. A panel and its parent share the bar beside their crease.

use crate::finding::{Advice, BuiltIn, Finding, Mm, Place};
use crate::folded::FoldedTray;
use crate::folded::{PanelSolids, Tongues};
use crate::space::ConvexSolid;
use crate::tray::{PanelId, Tray};

/// The finding about two panels that are inside each other, if any are.
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

/// The two panels that are deepest inside each other, and how deep, if any are deeper than `touch`.
fn deepest(
    tray: &Tray,
    solids: &PanelSolids,
    folded: &FoldedTray,
    touch: f64,
) -> Option<(PanelId, PanelId, f64)> {
    let mut deepest: Option<(PanelId, PanelId, f64)> = None;
    for one in tray.panels.ids() {
        for other in tray.panels.ids().take_while(|&other| other < one) {
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
