//! Room to swing: whether every fold can be made in its place of the order, and what tray could be folded instead.

use super::{finding, flat, rules};
use crate::blank::Blank;
use crate::finding::{Finding, Level};
use crate::job::Job;
use crate::motion::{Folding, first_hit};
use crate::numbers::{Numbers, Stop};
use crate::slabs::Slabs;
use crate::steps::FoldOrder;
use crate::style::Style;
use crate::tray::Tray;
use crate::wording::{length, setting};

/// How finely a lower tray is looked for.
const STEPS: usize = 12;

/// The first fold of the order that runs into something.
pub(super) fn judge(
    style: &Style,
    job: &Job,
    folding: Folding,
    order: &FoldOrder,
) -> Option<Finding> {
    let hit = first_hit(folding, order)?;
    let panels = &folding.tray.panels;
    let (panel, other) = (&panels[hit.panel].name, &panels[hit.other].name);
    let message = if hit.angle_deg < 1.0 {
        format!(
            "{panel} cannot be folded: there is no room to turn it, it lies against {other} at once"
        )
    } else {
        format!(
            "{panel} cannot be folded: after {:.0}° it runs into {other}",
            hit.angle_deg
        )
    };
    let fold_deg = panels[hit.panel]
        .hanging
        .as_ref()
        .map_or(0.0, |hanging| hanging.fold_deg.abs());
    let cure = match lower(style, job) {
        Some(depth) => format!(
            "a longer box, or a tray that is {} lower: say box depth={}",
            length(job.box_size.depth - depth, job.unit),
            setting(depth, job.unit)
        ),
        None => "a longer or a lower box".to_owned(),
    };
    let found = finding(Level::Error, "no-swing-room", panel.clone(), message);
    Some(found.measured(hit.angle_deg, fold_deg).cured_by(cure))
}

/// The depth of box for which a tray could be folded, if a lower one can at all.
fn lower(style: &Style, job: &Job) -> Option<f64> {
    let (mut folds, mut blocked) = (0.0, job.box_size.depth);
    for _ in 0..STEPS {
        let depth = (folds + blocked) / 2.0;
        match can_be_folded(style, job, depth) {
            Ok(true) => folds = depth,
            Ok(false) => blocked = depth,
            // Too low for the style: what folds lies above.
            Err(_) => folds = depth,
        }
    }
    // A whole millimetre below, so that following the advice is enough.
    let depth = folds.floor();
    can_be_folded(style, job, depth)
        .is_ok_and(|can| can)
        .then_some(depth)
}

/// Whether the tray for a box of that depth can be folded; an error when it cannot be made for another reason.
fn can_be_folded(style: &Style, job: &Job, depth: f64) -> Result<bool, Option<Stop>> {
    let mut job = job.clone();
    job.box_size.depth = depth;
    let mut numbers = Numbers::set_up(style, &job).map_err(|_| None)?;
    let tray = Tray::draw(&mut numbers).map_err(Some)?;
    let found = rules::judge(&mut numbers).map_err(Some)?;
    let sizes = flat::judge_sizes(&tray, &job);
    if found
        .iter()
        .chain(&sizes)
        .any(|finding| finding.level == Level::Error)
    {
        return Err(None);
    }
    let blank = Blank::lay(&tray);
    let folding = Folding {
        tray: &tray,
        blank: &blank,
        slabs: &Slabs::of(&tray, &blank),
    };
    Ok(first_hit(folding, &FoldOrder::arrange(style, &tray)).is_none())
}
