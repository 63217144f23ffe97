//! The fourth stage: the folds in an order that hands can follow.
//!
//! **Input:** the folded tray and the steps of its style. **Output:** the order, and how far each wall can turn
//! outwards. **Errors:** one finding that says why no order works.

mod contacts;
mod foldability;
mod motion;
mod reach;
mod search;
mod steps;
mod wall_support;

pub(crate) use steps::{Action, ActionKind, FoldOrder};
pub(crate) use wall_support::WallSupport;

use crate::finding::Finding;
use crate::folded::Folded;
use crate::stage::Judged;
use crate::style::Style;
use motion::{Folding, first_collision};

/// A tray with the order of its folds.
#[derive(Clone, Debug)]
pub(crate) struct Ordered {
    pub(crate) folded: Folded,
    pub(crate) order: FoldOrder,
    /// The stop of each family of walls.
    pub(crate) support: Vec<WallSupport>,
}

impl Ordered {
    /// Orders the folds and checks each of them.
    ///
    /// # Errors
    /// No order, or one in which a panel hits another.
    pub(crate) fn arrange(style: &Style, folded: Folded) -> Result<Judged<Ordered>, Box<Finding>> {
        let (order, note) = foldability::judge(style, Folding::of(&folded))?;
        let mut ordered = Ordered::with_support(folded, order);
        ordered.findings.extend(note);
        Ok(ordered)
    }

    /// The same order for a tray whose corners have moved; none if the tray cannot be folded that way any more.
    pub(crate) fn keep(folded: Folded, order: &FoldOrder) -> Option<Judged<Ordered>> {
        let blocked = first_collision(Folding::of(&folded), order).is_some();
        (!blocked).then(|| Ordered::with_support(folded, order.clone()))
    }

    /// The first action after which other panels hold every wall; none if only the box holds one of them.
    pub(crate) fn stands_after(&self) -> Option<usize> {
        let is_loose = |support: &WallSupport| support.stop.is_none();
        if self.support.iter().any(is_loose) {
            return None;
        }
        wall_support::stands_after(Folding::of(&self.folded), &self.order)
    }

    fn with_support(folded: Folded, order: FoldOrder) -> Judged<Ordered> {
        let support = wall_support::of(Folding::of(&folded));
        let findings = if folded.laid.drawn.job.has_box() {
            wall_support::judge(&support)
        } else {
            Vec::new()
        };
        let ordered = Ordered {
            folded,
            order,
            support,
        };
        Judged::new(ordered, findings)
    }
}
