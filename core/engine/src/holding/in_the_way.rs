//! Card in the place of an item, or in its way in.
//!
//! Lengths in mm, in the frame of the standing tray. The flaps and fences of an item's own opening are left aside: whether
//! the item goes in between them is asked where its opening is drawn.

use super::lying::Lying;
use super::section::{heights_over, seen_from_above};
use super::standing::{Piece, Standing};
use crate::ids::IdVec;
use crate::order::{ActionKind, Ordered};
use crate::tray::{OpeningCut, PanelId, Tray};

/// How deep card may reach into an item's place and still only touch it.
// Source: a choice of this project: a hundredth of what a ruler shows.
const TOUCH_MM: f64 = 0.01;

/// A panel that an item and the tray cannot both have.
#[derive(Clone, Debug)]
pub(super) struct InTheWay {
    pub(super) panel: String,
    /// How deep it reaches into the item's room.
    pub(super) depth: f64,
    /// Whether it stands in the place itself, or only in the way from above.
    pub(super) in_place: bool,
}

/// What stands in the way of each item, if anything does.
pub(super) fn judge(
    standing: &Standing,
    ordered: &Ordered,
    lying: &[Lying],
) -> Vec<Option<InTheWay>> {
    let tray = ordered.folded.tray();
    let open = as_it_takes_items(ordered);
    let found = |lying: &Lying| {
        let in_place = deepest(standing, tray, lying, [lying.base(), lying.upright()[1]]);
        let found = |in_place| {
            move |(panel, depth): (PanelId, f64)| InTheWay {
                panel: tray.panels[panel].name.clone(),
                depth,
                in_place,
            }
        };
        let entered = open.as_ref().unwrap_or(standing);
        in_place.map(found(true)).or_else(|| {
            let way_in = deepest(entered, tray, lying, [lying.base(), f64::INFINITY]);
            way_in.map(found(false))
        })
    };
    lying.iter().map(found).collect()
}

/// The tray as it stands when the items go in, if folds come after that.
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

/// The panel that reaches deepest into an item's outline between two heights.
fn deepest(
    standing: &Standing,
    tray: &Tray,
    lying: &Lying,
    heights: [f64; 2],
) -> Option<(PanelId, f64)> {
    let opening = &tray.openings[lying.opening];
    let looks_out_of =
        |panel: PanelId| panel == opening.panel && !matches!(opening.cut, OpeningCut::Uncut);
    let own = |panel: PanelId| {
        let mut edges = opening.edges.iter();
        edges.any(|edge| {
            tray.hung_on_opening(lying.opening, edge)
                .any(|hung| hung == panel)
        })
    };
    let depth = |piece: &Piece| {
        let polygon = seen_from_above(&piece.solid, heights)?;
        let upright = piece.most[2].min(heights[1]) - piece.least[2].max(heights[0]);
        Some(lying.plan.overlap(&polygon).min(upright))
    };
    standing
        .between(heights)
        .filter(|piece| !looks_out_of(piece.panel) && !own(piece.panel))
        .filter_map(|piece| Some((piece.panel, depth(piece)?)))
        .filter(|(_, depth)| *depth > TOUCH_MM)
        .max_by(|one, other| one.1.total_cmp(&other.1))
}

impl Standing {
    /// How far an item can go up before card above it, or the lid, stops it; negative when it reaches through.
    pub(super) fn lift(&self, lying: &Lying) -> f64 {
        let top = lying.top();
        let outline = lying.plan.corners();
        let above = self.between([top, f64::INFINITY]).filter_map(|piece| {
            let polygon = seen_from_above(&piece.solid, [top, f64::INFINITY])?;
            if lying.plan.overlap(&polygon) <= TOUCH_MM {
                return None;
            }
            let [low, _] = heights_over(&piece.solid, &outline, [top, self.lid])?;
            Some(low - top)
        });
        above.fold(self.lid - top, f64::min)
    }
}
