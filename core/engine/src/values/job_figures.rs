//! The values that the language itself knows: of the job, the board and the items.
//!
//! **Input:** a job. **Output:** each of its values. Knows no entry of a style.

use super::{EvalError, Values};
use crate::formula::Value;
use crate::job::ItemId;
use crate::style::names::{ItemFigure, JobFigure};

impl Values<'_> {
    /// A value of the job or the board.
    pub(crate) fn job_figure(&self, figure: JobFigure) -> f64 {
        let job = self.job;
        let gap = job.fit.play.mm() / 2.0;
        match figure {
            JobFigure::BoxLength => job.box_size.length.mm(),
            JobFigure::BoxWidth => job.box_size.width.mm(),
            JobFigure::BoxDepth => job.box_size.depth.mm(),
            JobFigure::FitBox => job.fit.around_tray.mm(),
            JobFigure::FitItem => job.fit.around_item.mm(),
            JobFigure::FitPlay => job.fit.play.mm(),
            JobFigure::Gap => gap,
            JobFigure::Caliper => job.board.caliper.mm(),
            JobFigure::Hinge => job.board.hinge(),
            JobFigure::TrayLength => job.box_size.length.mm() - job.fit.around_tray.mm(),
            JobFigure::TrayWidth => job.box_size.width.mm() - job.fit.around_tray.mm(),
            JobFigure::TrayDepth => job.tray_height(),
            // A third panel beside a 90° crease begins past the bend of both its panels, and a gap further on.
            JobFigure::Recess => self.inner(90.0) + gap,
        }
    }

    pub(super) fn item_figure(&self, item: ItemId, figure: ItemFigure) -> Result<Value, EvalError> {
        let Some(item) = self.job.item(item) else {
            return Err(EvalError::absent(format!("item {}", item.index() + 1)));
        };
        Ok(Value::Length(match figure {
            ItemFigure::Length => item.length.mm(),
            ItemFigure::Width => item.width.mm(),
            ItemFigure::Depth => item.depth.mm(),
            ItemFigure::Pad => item.pad.mm(),
        }))
    }
}
