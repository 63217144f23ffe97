//! Sizes and shapes of panels, with the crease rule, which turns sizes of the folded tray into crease-to-crease sizes.
//!
//! **Input:** a panel of the graph. **Output:** its fold, its crease on the carrying edge and its flat size.

use super::{EvalError, Values};
use crate::finding::SourceError;
use crate::finding::SourceSpan;
use crate::geometry::Point;
use crate::style::either::Inset;
use crate::style::graph::{HingeParent, HingeRef, MemberId};
use crate::style::names::Scope;
use crate::style::text::{HingedEntry, PanelEntry, Sense, Size};
use crate::style::written::Written;

/// A fold of this angle or more has no corner that can be measured.
// Derived: tan(89.5°) is 115: the corner would lie a hundred calipers away from the crease.
const SHARPEST_FOLD_DEG: f64 = 179.0;

/// The position of a crease on the edge that carries it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct CreaseSpan {
    /// From the edge's first end.
    pub(crate) start: f64,
    pub(crate) span: f64,
}

impl<'a> Values<'a> {
    /// Whether a panel exists in this job: by its own condition and that of the panel or opening that carries it.
    pub(crate) fn panel_exists(&self, panel: MemberId) -> Result<bool, EvalError> {
        let Some(hang) = &self.graph.members[panel].hangs else {
            return Ok(true);
        };
        let carried = match hang.on {
            HingeParent::Panel(parent) => self.panel_exists(parent)?,
            HingeParent::Opening(opening) => self.opening_exists(opening)?,
        };
        if !carried {
            return Ok(false);
        }
        let (_, entry) = self.hinge(panel);
        self.get_or_compute(&self.memo.panel_exists, panel, || {
            self.holds(entry.when.as_ref(), Scope::Style)
        })
    }

    /// Angle of a hinged panel's finished fold; positive folds the drawn face inwards.
    pub(crate) fn fold_deg(&self, panel: MemberId) -> Result<f64, EvalError> {
        let (_, entry) = self.hinge(panel);
        let Some(written) = &entry.angle else {
            return Ok(if entry.sense == Sense::Valley {
                90.0
            } else {
                -90.0
            });
        };
        let angle = self.get_or_compute(&self.memo.angles, panel, || {
            self.unbounded(written, Scope::Panel(panel))
        })?;
        if angle <= 0.0 || angle >= 180.0 {
            let message = format!("this fold is {angle} degrees");
            let label = "more than 0 and less than 180 degrees";
            return Err(EvalError::fault(SourceError::new(
                written.place.clone(),
                message,
                label,
            )));
        }
        Ok(if entry.sense == Sense::Valley {
            angle
        } else {
            -angle
        })
    }

    /// Flat size of a hinged panel away from its crease.
    pub(crate) fn reach(&self, panel: MemberId) -> Result<f64, EvalError> {
        let (_, entry) = self.hinge(panel);
        self.get_or_compute(&self.memo.reaches, panel, || {
            let scope = Scope::Panel(panel);
            let Some(size) = &entry.reach else {
                // A panel without a reach has an outline.
                let corners = self.places(entry.outline.as_deref().unwrap_or_default(), scope)?;
                return Ok(corners.iter().map(|point| point.y).fold(0.0, f64::max));
            };
            let creases = [vec![panel], self.hung(HingeParent::Panel(panel), "far")?];
            self.flat(size, scope, &creases)
        })
    }

    /// The position of a hinged panel's crease on its edge.
    pub(crate) fn crease(&self, panel: MemberId) -> Result<CreaseSpan, EvalError> {
        self.get_or_compute(&self.memo.creases, panel, || {
            let edge = self.edge_length(panel)?;
            let (_, entry) = self.hinge(panel);
            let [right, left] = self.insets(panel)?;
            let Some(span) = &entry.span else {
                return Ok(CreaseSpan {
                    start: right.unwrap_or(0.0),
                    span: edge - right.unwrap_or(0.0) - left.unwrap_or(0.0),
                });
            };
            let span = self.amount(span, Scope::Panel(panel))?;
            let start = match (right, left) {
                (Some(right), _) => right,
                (None, Some(left)) => edge - left - span,
                (None, None) => (edge - span) / 2.0,
            };
            Ok(CreaseSpan { start, span })
        })
    }

    /// Distance of the crease from both ends of its edge: at the right flank, which is the edge's first end, and at the
    /// left one; none if the style does not state it.
    fn insets(&self, panel: MemberId) -> Result<[Option<f64>; 2], EvalError> {
        let (hang, entry) = self.hinge(panel);
        match &entry.inset {
            Inset::None => Ok([None, None]),
            Inset::Both(inset) => {
                let inset = self.amount(inset, Scope::Panel(panel))?;
                Ok([Some(inset), Some(inset)])
            }
            Inset::ByFlank(insets) => {
                let at = |flank: &str| {
                    insets
                        .get(flank)
                        .map(|inset| self.amount(inset, Scope::Panel(panel)))
                        .transpose()
                };
                Ok([at(&hang.right)?, at(&hang.left)?])
            }
        }
    }

    /// Length of the edge that a panel is hinged to.
    pub(crate) fn edge_length(&self, panel: MemberId) -> Result<f64, EvalError> {
        let (from, to) = self.carrying_edge(panel)?;
        Ok((to - from).length())
    }

    /// The edge that a panel is hinged to, in the frame of the edge's panel, with that panel on its left.
    pub(crate) fn carrying_edge(&self, panel: MemberId) -> Result<(Point, Point), EvalError> {
        let (hang, _) = self.hinge(panel);
        match hang.on {
            HingeParent::Opening(opening) => self.opening_edge(opening, &hang.edge),
            HingeParent::Panel(parent) => {
                let shape = self.shape(parent)?;
                shape.edge(&hang.edge).ok_or_else(|| {
                    let name = &self.sheet().panels[self.graph.members[panel].entry].0;
                    let message = format!(
                        "nothing straight is left of the edge that `{}` hangs on",
                        name.word
                    );
                    EvalError::fault(SourceError::new(
                        name.place.clone(),
                        message,
                        "trim that edge less",
                    ))
                })
            }
        }
    }

    /// The panels that are hinged to an edge in this job.
    pub(crate) fn hung(
        &self,
        carrier: HingeParent,
        edge: &str,
    ) -> Result<Vec<MemberId>, EvalError> {
        let candidates: Vec<MemberId> = self.graph.hung_on(carrier, edge).collect();
        let mut hung = Vec::new();
        for panel in candidates {
            if self.panel_exists(panel)? {
                hung.push(panel);
            }
        }
        Ok(hung)
    }

    /// Converts a size into crease to crease. `creases` are the panels hinged at its two ends, if any.
    pub(super) fn flat(
        &self,
        size: &'a Size,
        scope: Scope,
        creases: &[Vec<MemberId>],
    ) -> Result<f64, EvalError> {
        let (written, allowance): (&Written, fn(&Self, f64) -> f64) = match size {
            Size::Flat(written) => return self.amount(written, scope),
            Size::Outside(written) => (written, |values, angle| -values.outer(angle)),
            Size::Inside(written) => (written, |values, angle| values.inner(angle)),
        };
        let mut length = self.amount(written, scope)?;
        let mut sense: Option<f64> = None;
        for end in creases {
            let Some(fold_deg) = self.shared_fold(end, &written.place)? else {
                continue;
            };
            if sense.is_some_and(|sense| sense != fold_deg.signum()) {
                let label = "one end folds up and the other down: give its Flat size";
                return Err(EvalError::fault(SourceError::new(
                    written.place.clone(),
                    "a size between unlike folds has no outside",
                    label,
                )));
            }
            sense = Some(fold_deg.signum());
            length += allowance(self, fold_deg.abs());
        }
        Ok(length)
    }

    /// Converts a size with a crease at one end into crease to edge.
    pub(crate) fn flat_with_crease(
        &self,
        size: &'a Size,
        scope: Scope,
        angle_deg: f64,
    ) -> Result<f64, EvalError> {
        let (Size::Outside(written) | Size::Inside(written) | Size::Flat(written)) = size;
        let length = self.amount(written, scope)?;
        Ok(match size {
            Size::Outside(_) => length - self.outer(angle_deg),
            Size::Inside(_) => length + self.inner(angle_deg),
            Size::Flat(_) => length,
        })
    }

    /// The fold angle shared by all panels at one end of a size, if there are any.
    pub(super) fn shared_fold(
        &self,
        panels: &[MemberId],
        place: &SourceSpan,
    ) -> Result<Option<f64>, EvalError> {
        let mut shared = None;
        let refuse = |message: &str, label: &str| {
            Err(EvalError::fault(SourceError::new(
                place.clone(),
                message,
                label,
            )))
        };
        for &panel in panels {
            let fold_deg = self.fold_deg(panel)?;
            if shared.is_some_and(|shared| shared != fold_deg) {
                let label = "the panels at one end fold by unlike angles: give its Flat size";
                return refuse("this size has no one outside", label);
            }
            if fold_deg.abs() >= SHARPEST_FOLD_DEG {
                let label = "a fold of 179 degrees or more has no corner: give its Flat size";
                return refuse("this size has no outside and no inside", label);
            }
            shared = Some(fold_deg);
        }
        Ok(shared)
    }

    /// The hinge of a panel, and its entry.
    pub(super) fn hinge(&self, panel: MemberId) -> (&HingeRef, &'a HingedEntry) {
        let member = &self.graph.members[panel];
        match (&member.hangs, &self.sheet().panels[member.entry].1) {
            (Some(hang), PanelEntry::Hinged(entry)) => (hang, entry),
            _ => unreachable!("only the root hangs on nothing"),
        }
    }
}
