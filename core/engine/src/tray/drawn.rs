//! The first stage: a style and a job become a tray in numbers.

use super::checks::{self, is_without_size, judge_board_and_box};
use super::{OpeningCut, PanelId, Tray};
use crate::finding::{Refusal, Report};
use crate::job::Job;
use crate::stage::Judged;
use crate::style::Style;
use crate::style::text::{self, Direction};
use crate::values::{EvalError, Values};
use traywright_document::Orientation;

/// A tray in numbers, with the parts of its style and its job that later stages need.
#[derive(Clone, Debug)]
pub(crate) struct Drawn {
    pub(crate) style: StyleFacts,
    pub(crate) job: Job,
    pub(crate) tray: Tray,
}

/// Facts of the style about the tray as a whole.
#[derive(Clone, Debug)]
pub(crate) struct StyleFacts {
    pub(crate) name: String,
    /// Orientation of the folded tray in its box.
    pub(crate) orientation: Orientation,
    /// The directions of the box that the folded tray fills.
    pub(crate) fills: Vec<Direction>,
}

impl Drawn {
    /// Draws the tray and checks its values: the style's rules, the items and their openings, the sizes of panels.
    ///
    /// # Errors
    /// A job that does not suit the style, and a style whose formulas fail in this job.
    pub(crate) fn draw(style: &Style, job: &Job) -> Result<Judged<Drawn>, Refusal> {
        let values = Values::for_job(style, job)?;
        let mut report = Report::default();
        report.take(Judged::new((), judge_board_and_box(job)))?;
        let drawn = Tray::draw(&values).and_then(|tray| {
            let (findings, measures) = checks::judge(&values, &tray)?;
            Ok((tray, findings, measures))
        });
        let (tray, found, measures) =
            drawn.map_err(|error| refused(error, &values, &mut report))?;
        let mut findings = report.findings;
        findings.extend(found);
        let drawn = Drawn {
            style: StyleFacts::of(style),
            job: job.clone(),
            tray,
        };
        Ok(Judged {
            stage: drawn,
            findings,
            measures,
        })
    }
}

impl StyleFacts {
    fn of(style: &Style) -> StyleFacts {
        StyleFacts {
            name: style.name().to_owned(),
            orientation: match style.sheet.stands {
                text::Orientation::RootUp => Orientation::RootUp,
                text::Orientation::RootDown => Orientation::RootDown,
            },
            fills: style.sheet.fills.clone(),
        }
    }
}

impl Drawn {
    /// Whether a panel of the tray has no size.
    pub(crate) fn is_without_size(&self) -> bool {
        is_without_size(&self.tray, &self.job)
    }
}

impl Tray {
    /// Whether an opening for an item is cut in a panel: a large item may reach beyond its panel, but a window of the
    /// style should not.
    pub(crate) fn is_cut_for_items(&self, panel: PanelId) -> bool {
        let mut openings = self.openings.iter();
        openings.any(|opening| {
            let cut = !matches!(opening.cut, OpeningCut::Uncut);
            opening.panel == panel && opening.item.is_some() && cut
        })
    }
}

/// A failed evaluation as a refusal: no fallback that fits, a job that the style's own rules reject, or an error in the
/// style.
fn refused(error: EvalError, values: &Values, report: &mut Report) -> Refusal {
    if let EvalError::NoFallback(finding) = error {
        return report.refuse(*finding);
    }
    let broken = checks::broken_rules(values);
    match report.take(Judged::new((), broken)) {
        Err(refusal) => refusal,
        Ok(()) => Refusal::Style(vec![error.into_fault()]),
    }
}
