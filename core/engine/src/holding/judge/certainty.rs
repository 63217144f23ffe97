//! The findings about items whose stop may turn out too low.
//!
//! **Input:** how an item is held, and the uncertainty of its stops. **Output:** a finding, with a pad that holds the
//! item despite the uncertainty.

use super::{About, direction};
use crate::finding::{Advice, BuiltIn, Change, Clause, Finding, Fix};
use crate::geometry::TOUCH_MM;
use crate::holding::{Beside, Holder};

impl About<'_> {
    /// The uncertainty of a stop exceeds its margin; reports the axis that is worst.
    pub(super) fn uncertain(&self) -> Option<Finding> {
        let margin = |axis: usize| {
            let hold = &self.item.holds[axis];
            Some((axis, self.margin(axis)?, hold.unsure))
        };
        let short = |&(_, margin, unsure): &(usize, f64, f64)| margin - unsure;
        let (axis, margin, unsure) = [0, 1]
            .into_iter()
            .filter_map(margin)
            .filter(|found| short(found) < -TOUCH_MM)
            .min_by(|one, other| short(one).total_cmp(&short(other)))?;
        let by = match self.item.holds[axis].by {
            Holder::Edge => Clause::TheEdge,
            Holder::Fences => Clause::TheFences,
            _ => Clause::TheFlaps,
        };
        let axis = direction(axis);
        let found = self.found(BuiltIn::HoldUncertain { axis, by });
        let found = found.measured(margin, unsure);
        let pads = self.item.pads.filter(|pads| pads.sure);
        let pad = pads.and_then(|pads| pads.named);
        let mut ways: Vec<Vec<Change>> =
            pad.into_iter().map(|pad| vec![self.pad_of(pad)]).collect();
        ways.extend(self.crossed());
        if ways.is_empty() {
            return Some(found);
        }
        let says = Advice::Change;
        Some(found.with_fix(Fix { says, ways }))
    }

    /// How much higher the item's top, or lower its stop, would have to be for the item to slide.
    fn margin(&self, axis: usize) -> Option<f64> {
        let hold = &self.item.holds[axis];
        match (&hold.by, self.item.beside[axis], self.item.below) {
            (Holder::Edge, _, Some([_, below])) => Some(self.tray.caliper - below),
            (Holder::Flaps, Beside::Flaps(depth), Some([_, below])) => {
                Some(self.item.hinge + depth - below)
            }
            (Holder::Fences, ..) => Some(hold.bears),
            _ => None,
        }
    }
}
