//! Creases that a machine perforates: short cuts with gaps between them, for cutters without a creasing tool.
//!
//! **Input:** the lengths of a cut and a gap, and a crease. **Output:** its cuts. A crease begins and ends with a gap,
//! and all its gaps are alike and at least as long as asked.

use serde::{Deserialize, Serialize};

use crate::flat::{Contour, ProcessingStep};
use crate::{Length, Point};

/// The lengths of cuts and gaps along a crease.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Perforation {
    /// Length of a cut.
    pub cut: Length,
    /// Length of a gap at least.
    pub gap: Length,
}

/// The lengths in a job that states none.
// Source: core/CONTRACT.md, "Job file" (common practice, none published).
impl Default for Perforation {
    fn default() -> Perforation {
        Perforation {
            cut: Length::known(2.0),
            gap: Length::known(2.0),
        }
    }
}

impl Perforation {
    /// The shortest crease that can be perforated: a cut between two gaps.
    pub fn shortest_crease(&self) -> f64 {
        self.cut.mm() + 2.0 * self.gap.mm()
    }

    /// The cuts along a crease; none if it is too short for one cut between two gaps.
    // Derived: n cuts lie between n + 1 gaps, so the most that leave gaps of at least `gap` are (length - gap) / (cut + gap).
    pub fn cuts(&self, from: Point, to: Point) -> Vec<Contour> {
        let (cut, gap, length) = (self.cut.mm(), self.gap.mm(), (to - from).length());
        let count = ((length - gap) / (cut + gap) + ROUNDING).floor().max(0.0);
        let even = (length - count * cut) / (count + 1.0);
        let along = (to - from).unit();
        let piece = |index: usize| {
            let start = even + index as f64 * (cut + even);
            Contour::line(from + along * start, from + along * (start + cut))
        };
        (0..count as usize).map(piece).collect()
    }
}

/// A crease just long enough for its cuts is long enough.
// Derived: far more than the rounding of a quotient, far less than a part of a cut.
const ROUNDING: f64 = 1e-9;

impl ProcessingStep {
    /// The step of the cuts of a perforated crease that would otherwise be creased in this step.
    pub fn perforated(self) -> ProcessingStep {
        match self {
            ProcessingStep::ReverseCreasing => ProcessingStep::ReversePerforating,
            ProcessingStep::Creasing => ProcessingStep::Perforating,
            other => other,
        }
    }
}
