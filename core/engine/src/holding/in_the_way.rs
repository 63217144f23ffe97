//! Card in the place of an item, or in its path into the tray.
//!
//! Lengths in mm, in the frame of the standing tray. Flaps and fences of an item's own opening must not reach into the
//! item's place either. They do not block its path, because the item pushes its flaps down.

use super::lying::Lying;
use super::section::{heights_over, seen_from_above};
use super::standing::{Piece, Standing};
use crate::ids::IdVec;
use crate::order::{ActionKind, Ordered};
use crate::tray::{OpeningCut, PanelId, Tray};

/// Card that reaches at most this deep into an item's place counts as touching the item.
// Source: a choice of this project: a hundredth of what a ruler shows.
const MAY_OVERLAP_MM: f64 = 0.01;

/// A panel that occupies an item's place or its path.
#[derive(Clone, Debug)]
pub(super) struct InTheWay {
    pub(super) panel: String,
    /// Penetration depth of the panel in the item's space.
    pub(super) depth: f64,
    pub(super) how: How,
}

/// How a panel is in the way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum How {
    /// The panel is in the item's place.
    InPlace,
    /// The panel is a flap or a fence of the item's own opening and leans into the item's place.
    Leaning,
    /// The panel blocks the item's path from above.
    Above,
}

/// The panel that collides with each item, if there is one.
pub(super) fn judge(
    standing: &Standing,
    ordered: &Ordered,
    lying: &[Lying],
) -> Vec<Option<InTheWay>> {
    let tray = ordered.folded.tray();
    let open = as_it_takes_items(ordered);
    let found = |lying: &Lying| {
        // A maker cuts a pad to fit the free space, so the pad's place is not checked.
        let place = [lying.base(), lying.upright()[1]];
        let above = [lying.base(), f64::INFINITY];
        let entered = open.as_ref().unwrap_or(standing);
        let found = |how| {
            move |(panel, depth): (PanelId, f64)| InTheWay {
                panel: tray.panels[panel].name.clone(),
                depth,
                how,
            }
        };
        let others = |panel| !is_own(tray, lying, panel);
        let in_place = deepest(standing, tray, lying, place, others);
        let leaning = || {
            deepest(standing, tray, lying, place, |panel| {
                is_own(tray, lying, panel)
            })
        };
        let on_the_way = || deepest(entered, tray, lying, above, others);
        in_place
            .map(found(How::InPlace))
            .or_else(|| leaning().map(found(How::Leaning)))
            .or_else(|| on_the_way().map(found(How::Above)))
    };
    lying.iter().map(found).collect()
}

/// The tray when the items go in; none if all folds come before that.
fn as_it_takes_items(ordered: &Ordered) -> Option<Standing> {
    let tray = ordered.folded.tray();
    let actions = &ordered.order.actions;
    let place = actions
        .iter()
        .position(|action| matches!(action.kind, ActionKind::Place))?;
    let mut folded = IdVec::of_each(false, tray.panels.len());
    for action in &actions[..place] {
        if let ActionKind::Fold(panels) = &action.kind {
            panels.iter().for_each(|&panel| folded[panel] = true);
        }
    }
    let fold = |panel: PanelId| match &tray.panels[panel].hanging {
        Some(hanging) if folded[panel] => hanging.fold_deg,
        _ => 0.0,
    };
    let all = tray
        .panels
        .ids()
        .all(|panel| folded[panel] || panel == PanelId::ROOT);
    (!all).then(|| Standing::with(&ordered.folded, &tray.poses(fold)))
}

/// Whether a panel is hinged to an edge of the item's own opening.
fn is_own(tray: &Tray, lying: &Lying, panel: PanelId) -> bool {
    let mut edges = tray.openings[lying.opening].edges.iter();
    edges.any(|edge| {
        let mut hung = tray.hung_on_opening(lying.opening, edge);
        hung.any(|hung| hung == panel)
    })
}

/// The panel, among those that `of` accepts, that reaches deepest into an item's outline between two heights.
fn deepest(
    standing: &Standing,
    tray: &Tray,
    lying: &Lying,
    heights: [f64; 2],
    of: impl Fn(PanelId) -> bool,
) -> Option<(PanelId, f64)> {
    let opening = &tray.openings[lying.opening];
    let is_around =
        |panel: PanelId| panel == opening.panel && !matches!(opening.cut, OpeningCut::Uncut);
    let reach = lying.plan.extent();
    let depth = |piece: &Piece| {
        if !piece.lies_over(reach) {
            return None;
        }
        let polygon = seen_from_above(&piece.solid, heights)?;
        let upright = piece.most[2].min(heights[1]) - piece.least[2].max(heights[0]);
        Some(lying.plan.overlap(&polygon).min(upright))
    };
    standing
        .between(heights)
        .filter(|piece| !is_around(piece.panel) && of(piece.panel))
        .filter_map(|piece| Some((piece.panel, depth(piece)?)))
        .filter(|(_, depth)| *depth > MAY_OVERLAP_MM)
        .max_by(|one, other| one.1.total_cmp(&other.1))
}

impl Standing {
    /// How far an item can rise before card or the lid stops it; negative if card or the lid already reaches into it.
    pub(super) fn lift(&self, lying: &Lying) -> f64 {
        let top = lying.top();
        let (outline, reach) = (lying.plan.corners(), lying.plan.extent());
        let above = self.between([top, f64::INFINITY]).filter_map(|piece| {
            if !piece.lies_over(reach) {
                return None;
            }
            let polygon = seen_from_above(&piece.solid, [top, f64::INFINITY])?;
            if lying.plan.overlap(&polygon) <= MAY_OVERLAP_MM {
                return None;
            }
            let [low, _] = heights_over(&piece.solid, &outline, [top, self.lid])?;
            Some(low - top)
        });
        above.fold(self.lid - top, f64::min)
    }
}
