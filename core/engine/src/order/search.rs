//! A folding order found backwards, by undoing one fold after another.
//!
//! **Input:** a folded tray. **Output:** its panels in an order in which each can be folded; none if there is no such
//! order or the attempts run out. A fold that can be undone now could have been the last one, so the order is found from
//! its end. Among several folds the search prefers flaps, then the family that it undid most recently, then a panel
//! before the panel it hangs on; if a choice leads nowhere, it tries another.

use super::motion::{FoldMotion, Folding};
use crate::ids::IdVec;
use crate::tray::{Panel, PanelId};

/// Attempts before the search gives up.
// Source: common practice, none published: a tray of 25 panels needs 24 when no choice is wrong.
const MOST_TRIES: usize = 400;

/// The same for each panel of a tray with many of them.
// Derived: every panel needs one; as many again are for wrong choices.
const TRIES_PER_PANEL: usize = 2;

/// The panels in an order in which they can be folded; none if no order was found.
pub(crate) fn worked_out(folding: Folding) -> Option<Vec<PanelId>> {
    let panels = folding.tray.panels.iter();
    let folded = panels.map(|panel| panel.hanging.is_some()).collect();
    let mut search = Search {
        folding,
        folded,
        undone: Vec::new(),
        tries: 0,
        most_tries: MOST_TRIES.max(TRIES_PER_PANEL * folding.tray.panels.len()),
    };
    search.undo_all().then(|| {
        search.undone.reverse();
        search.undone
    })
}

/// Whether a panel can be folded while all others are as `folded` states.
pub(crate) fn can_be_folded(
    folding: Folding,
    folded: &IdVec<Panel, bool>,
    panel: PanelId,
) -> Result<(), PanelId> {
    match FoldMotion::of(folding, folded, panel).first_meeting() {
        Some((other, _)) => Err(other),
        None => Ok(()),
    }
}

struct Search<'t> {
    folding: Folding<'t>,
    folded: IdVec<Panel, bool>,
    undone: Vec<PanelId>,
    tries: usize,
    most_tries: usize,
}

impl Search<'_> {
    fn undo_all(&mut self) -> bool {
        let mut candidates: Vec<PanelId> = self.folded.ids_where(|&folded| folded).collect();
        if candidates.is_empty() {
            return true;
        }
        let hung = self.still_hung();
        candidates.sort_by_cached_key(|&panel| self.rank(panel, hung[panel]));
        for panel in candidates {
            self.tries += 1;
            if self.tries > self.most_tries {
                return false;
            }
            self.folded[panel] = false;
            if can_be_folded(self.folding, &self.folded, panel).is_ok() {
                self.undone.push(panel);
                if self.undo_all() {
                    return true;
                }
                self.undone.pop();
            }
            self.folded[panel] = true;
        }
        false
    }

    /// How many folded panels are hinged to each panel.
    fn still_hung(&self) -> IdVec<Panel, usize> {
        let panels = &self.folding.tray.panels;
        let mut hung = IdVec::of_each(0, panels.len());
        for panel in self.folded.ids_where(|&folded| folded) {
            if let Some(hanging) = &panels[panel].hanging {
                hung[hanging.parent] += 1;
            }
        }
        hung
    }

    /// The order of undoing: the job's flaps, then panels of the family undone last, then the outermost panels.
    fn rank(&self, panel: PanelId, still_hung: usize) -> (bool, bool, usize, usize) {
        let panels = &self.folding.tray.panels;
        let last = self.undone.last().map(|&last| panels[last].key.as_str());
        let other_family = last != Some(panels[panel].key.as_str());
        (
            panels[panel].entry.is_some(),
            other_family,
            still_hung,
            panels.len() - panel.index(),
        )
    }
}
