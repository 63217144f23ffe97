//! A folding order found backwards: the fold that can be undone, then the one before it.
//!
//! **Input:** a folded tray. **Output:** its panels in an order in which each can be folded, or none. A fold that can
//! be undone now could have been the last one, so the order is found from its end. Among several folds the search
//! undoes first the one that keeps a family together and hinged panels before their parents; if that fails, it tries
//! another.

use super::motion::{FoldMotion, Folding};
use crate::ids::IdVec;
use crate::tray::{Panel, PanelId};

/// Attempts before the search gives up.
// Source: common practice, none published: a tray of 25 panels needs 24 when no choice is wrong.
const MOST_TRIES: usize = 400;

/// The panels in an order in which they can be folded; none if no order was found.
pub(crate) fn worked_out(folding: Folding) -> Option<Vec<PanelId>> {
    let panels = folding.tray.panels.iter();
    let folded = panels.map(|panel| panel.hanging.is_some()).collect();
    let mut search = Search {
        folding,
        folded,
        undone: Vec::new(),
        tries: 0,
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
}

impl Search<'_> {
    fn undo_all(&mut self) -> bool {
        let mut candidates: Vec<PanelId> = self.folded.ids_where(|&folded| folded).collect();
        if candidates.is_empty() {
            return true;
        }
        candidates.sort_by_key(|&panel| self.rank(panel));
        for panel in candidates {
            self.tries += 1;
            if self.tries > MOST_TRIES {
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

    /// The order of undoing: the job's flaps, then panels of the family undone last, then the outermost panels.
    fn rank(&self, panel: PanelId) -> (bool, bool, usize, usize) {
        let panels = &self.folding.tray.panels;
        let last = self.undone.last().map(|&last| panels[last].key.as_str());
        let still_hung = panels.ids().filter(|&other| {
            self.folded[other]
                && panels[other]
                    .hanging
                    .as_ref()
                    .is_some_and(|hanging| hanging.parent == panel)
        });
        let other_family = last != Some(panels[panel].key.as_str());
        (
            panels[panel].entry.is_some(),
            other_family,
            still_hung.count(),
            panels.len() - panel.index(),
        )
    }
}
