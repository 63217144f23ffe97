//! Strips between two creases: whether the card can fold twice so close together.
//!
//! **Input:** a panel that has a crease on its near and one on its far edge, and the card. **Output:** at most one
//! finding. The minimum distance depends on the kind of crease: two pressed creases run into one groove, a ridge splits
//! off between two half-cut creases, and corrugated board buckles.

use super::sizes::is_strip;
use crate::finding::{Advice, BuiltIn, Change, Finding, Place};
use crate::geometry::TOUCH_MM;
use crate::job::{BoardKind, CreaseKind, Job};
use crate::tray::{HangsOn, PanelId, Tray};

/// Width below which hands cannot make two creases of a strip, because each may be half a millimetre off.
// Source: common practice, none published; a creasing rule alone is 0.7 mm wide (tests/facts/card.md, C4).
const NARROW_MM: f64 = 1.0;

/// Minimum distance of two pressed creases, in thicknesses of card.
// Source: a choice of this project. A channel is 1.5 calipers and the rule wide (tests/facts/card.md, C1), and the strip
// for one trapped layer, which is folded everywhere, is two calipers wide without any play (tests/facts/folding.md, D7).
const PRESSED_CALIPERS: f64 = 2.0;

/// Minimum distance of two half-cut creases, in thicknesses of board.
// Source: a choice of this project, common practice: the ridge between two cuts half a caliper deep is as wide as the
// board is thick; a narrower one splits off where the fibres lie in layers.
const HALF_CUT_CALIPERS: f64 = 1.0;

/// Distances of two creases in corrugated board that fold the same way, in thicknesses: below the first the board
/// buckles, below the second it is crushed over its whole width.
// Source: a choice of this project. A crease crushes about as much as its channel, 1.8 to 2 calipers of crushed board and
// the rule (tests/facts/card.md, C2); two creases for one trapped layer are two calipers apart (tests/facts/folding.md, D7).
const CORRUGATED_CALIPERS: [f64; 2] = [2.0, 3.0];

/// Checks a panel that is a strip, by its reach from crease to crease.
pub(super) fn judge(tray: &Tray, id: PanelId, reach: f64, job: &Job) -> Option<Finding> {
    let is_folded_twice = tray.panels.iter().any(|panel| {
        let hanging = panel.hanging.as_ref();
        hanging.is_some_and(|hanging| {
            hanging.parent == id && hanging.on == HangsOn::Edge("far".to_owned())
        })
    });
    if !is_folded_twice || tray.panels[id].hanging.is_none() {
        return None;
    }
    let rolls_over = is_strip(tray, id);
    let (found, limit) = too_narrow(job, rolls_over, reach)?;
    let found = Finding::new(found, Place::Panel(tray.panels[id].key.clone()));
    let found = found.measured(reach, limit);
    if !rolls_over {
        return Some(found.with_fix(Advice::LargerBoxOrSettings));
    }
    let play = job.fit.play.mm() + limit - reach;
    let looser = Change::at_least("fit", "play", play, job.unit);
    let advice = match (job.board.kind(), job.board.crease()) {
        (BoardKind::Corrugated, _) => Advice::ChangeOrOtherBoard,
        (_, CreaseKind::Pressed) => Advice::ChangeOrRoundedFold,
        (_, CreaseKind::HalfCut) => Advice::Change,
    };
    Some(found.with_fix(advice.by(looser)))
}

/// The finding about a strip of that width, and a sufficient width.
fn too_narrow(job: &Job, rolls_over: bool, width: f64) -> Option<(BuiltIn, f64)> {
    let caliper = job.board.caliper.mm();
    let is_less = |limit: f64| width < limit - TOUCH_MM;
    let found = match (job.board.kind(), job.board.crease()) {
        (BoardKind::Corrugated, _) if rolls_over => {
            let [buckles, crushed] = CORRUGATED_CALIPERS.map(|count| count * caliper);
            match is_less(buckles) {
                true => (BuiltIn::RollOverBuckles, buckles),
                false => (BuiltIn::RollOverCrushed, crushed),
            }
        }
        (_, CreaseKind::Pressed) => {
            let limit = NARROW_MM.max(PRESSED_CALIPERS * caliper);
            (BuiltIn::BridgeNarrow, limit)
        }
        (_, CreaseKind::HalfCut) => {
            let limit = NARROW_MM.max(HALF_CUT_CALIPERS * caliper);
            (BuiltIn::BridgeNarrowHalfCut, limit)
        }
    };
    is_less(found.1).then_some(found)
}
