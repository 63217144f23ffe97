//! Sizes of tongues and of half-round notches, as the style states them.
//!
//! **Input:** an entry. **Output:** its values, or none if it does not exist in this job. Draws nothing.

use super::{EvalError, Values};
use crate::style::names::{JobFigure, Scope, TongueSide};
use crate::style::text::{OpeningEntry, OpeningEntryId, TongueId};
use crate::style::written::Written;

/// The dimensions of a tongue.
#[derive(Clone, Copy, Debug)]
pub(crate) struct TongueForm {
    pub(crate) count: usize,
    /// Distance between the middles of neighbours; none for even spacing over the edge.
    pub(crate) spacing: Option<f64>,
    pub(crate) width: f64,
    pub(crate) length: f64,
    /// How far each side is drawn in at the tip.
    pub(crate) taper: f64,
    /// Length cut off the tip's corners.
    pub(crate) chamfer: f64,
    /// How much larger the slit is on each side.
    pub(crate) play: f64,
}

impl<'a> Values<'a> {
    /// The dimensions of a tongue, if it exists in this job.
    pub(crate) fn tongue_form(&self, tongue: TongueId) -> Result<Option<TongueForm>, EvalError> {
        let entry = &self.sheet().tongues[tongue].1;
        if !self.holds(entry.when.as_ref(), Scope::Style)? {
            return Ok(None);
        }
        let (length, width) = (
            self.tongue_side(tongue, TongueSide::Length)?,
            self.tongue_side(tongue, TongueSide::Width)?,
        );
        let gap = self.job_figure(JobFigure::Gap);
        Ok(Some(TongueForm {
            count: entry.count,
            spacing: self.of_tongue(tongue, entry.spacing.as_ref())?,
            width,
            length,
            taper: self.of_tongue(tongue, entry.taper.as_ref())?.unwrap_or(0.0),
            chamfer: self
                .of_tongue(tongue, entry.chamfer.as_ref())?
                .unwrap_or(0.0),
            play: self.of_tongue(tongue, entry.play.as_ref())?.unwrap_or(gap),
        }))
    }

    fn of_tongue(
        &self,
        tongue: TongueId,
        written: Option<&'a Written>,
    ) -> Result<Option<f64>, EvalError> {
        written
            .map(|written| self.amount(written, Scope::Tongue(tongue)))
            .transpose()
    }

    /// The width or the length of a tongue.
    pub(super) fn tongue_side(&self, tongue: TongueId, side: TongueSide) -> Result<f64, EvalError> {
        let (name, entry) = &self.sheet().tongues[tongue];
        if !self.holds(entry.when.as_ref(), Scope::Style)? {
            return Err(EvalError::absent(&name.word));
        }
        let written = match side {
            TongueSide::Width => &entry.width,
            TongueSide::Length => &entry.length,
        };
        self.get_or_compute(&self.memo.tongues, (tongue, side), || {
            self.unbounded(written, Scope::Tongue(tongue))
        })
    }

    /// Radius of a half-round notch, and the distance of its middle from that of its edge, if it exists in this job.
    pub(crate) fn thumb_notch(
        &self,
        opening: OpeningEntryId,
    ) -> Result<Option<(f64, f64)>, EvalError> {
        let OpeningEntry::ThumbNotch(notch) = &self.sheet().openings[opening].1 else {
            return Ok(None);
        };
        if !self.holds(notch.when.as_ref(), Scope::Style)? {
            return Ok(None);
        }
        let radius = self.amount(&notch.radius, Scope::Style)?;
        let at = notch
            .at
            .as_ref()
            .map(|at| self.amount(at, Scope::Style))
            .transpose()?;
        Ok(Some((radius, at.unwrap_or(0.0))))
    }
}
