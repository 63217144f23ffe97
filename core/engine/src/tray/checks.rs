//! Checks of a drawn tray, before it is laid flat.
//!
//! **Input:** the values of a style and a job, and the tray. **Output:** findings and measures. If the style's rules,
//! the items or their openings fail, panels without a size are consequences and are not reported.

mod arrangement;
mod board;
mod forms;
mod interlocks;
mod measures;
mod openings;
mod rules;
mod sizes;
mod strips;
mod webs;

pub(crate) use arrangement::nearest;
pub(crate) use board::judge as judge_board_and_box;
pub(crate) use board::sides;
pub(crate) use interlocks::engaged;
pub(crate) use openings::{clear, place as place_of_opening};
pub use rules::Limit;
pub(super) use rules::errors as broken_rules;
pub(crate) use rules::limit;
pub(crate) use webs::least_web;

use crate::finding::{BuiltIn, Finding};
use crate::job::Job;
use crate::measure::Measure;
use crate::stage::fails;
use crate::tray::Tray;
use crate::values::{EvalError, Values};

/// Findings and measures that need no folding.
pub(super) fn judge(
    values: &Values,
    tray: &Tray,
) -> Result<(Vec<Finding>, Vec<Measure>), EvalError> {
    let measures = measures::of_values(values, tray)?;
    let body = rules::judge(values)?;
    let openings = openings::judge(values, tray)?;
    let mut findings = with_openings(body, openings);
    findings.extend(arrangement::judge(values, tray)?);
    if !fails(&findings) {
        findings.extend(sizes::judge(tray, values.job));
        findings.extend(interlocks::judge(tray));
    }
    Ok((findings, measures))
}

/// Whether a panel of the tray has no size.
pub(super) fn is_without_size(tray: &Tray, job: &Job) -> bool {
    fails(&sizes::judge(tray, job))
}

/// Findings of the body and the openings together. If the body fails, so do its flaps: that is not reported again.
fn with_openings(body: Vec<Finding>, openings: Vec<Finding>) -> Vec<Finding> {
    let body_fails = fails(&body);
    let is_consequence =
        |finding: &Finding| matches!(finding.built_in(), Some(BuiltIn::FlapTooShallow { .. }));
    let openings = openings.into_iter();
    body.into_iter()
        .chain(openings.filter(|finding| !(body_fails && is_consequence(finding))))
        .collect()
}
