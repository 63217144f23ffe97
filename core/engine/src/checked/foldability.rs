//! Room to swing: whether every fold can be made in its place of the order, and what tray could be folded instead.
//!
//! Given the folded tray; gives the order in which it can be folded, or the one finding why it cannot.

use super::{finding, flat, openings, rules};
use crate::blank::Blank;
use crate::finding::{Finding, Level, Refusal};
use crate::job::Job;
use crate::motion::{Collision, Folding, first_collision};
use crate::order::worked_out;
use crate::solids::PanelSolids;
use crate::steps::FoldOrder;
use crate::style::Style;
use crate::tray::Tray;
use crate::values::{EvalError, Values};
use crate::wording::{length, setting_at_most};

/// The codes of a fold that cannot be made.
const BLOCKED: [&str; 2] = ["no-swing-room", "step-blocked"];

/// How finely a lower tray is looked for.
const STEPS: usize = 12;

/// Puts the folds in order and turns each of them; or tells the first that runs into something.
pub(super) fn judge(style: &Style, folding: Folding) -> Result<FoldOrder, Box<Finding>> {
    let Some(order) = FoldOrder::arrange(style, folding) else {
        let root = folding.tray.panels[0].name.clone();
        let message = "no order of folds leads to this tray: in each, one panel runs into another";
        return Err(Box::new(finding(
            Level::Error,
            "step-blocked",
            root,
            message,
        )));
    };
    match first_collision(folding, &order) {
        Some(collision) => Err(Box::new(blocked(folding, &order, &collision))),
        None => Ok(order),
    }
}

/// What is in the way of a fold: the order, if there is another one in which the tray can be folded, or the tray itself.
fn blocked(folding: Folding, order: &FoldOrder, collision: &Collision) -> Finding {
    let panels = &folding.tray.panels;
    let (panel, other) = (&panels[collision.panel].name, &panels[collision.other].name);
    let meets = if collision.angle_deg < 1.0 {
        format!("there is no room to turn it, it lies against {other} at once")
    } else {
        format!("after {:.0}° it runs into {other}", collision.angle_deg)
    };
    let whole = panels[collision.panel]
        .hanging
        .as_ref()
        .map_or(0.0, |hanging| hanging.fold_deg.abs());
    let found = if let Some(other_order) = worked_out(folding) {
        let step = collision.action + 1;
        let message = format!(
            "step {step} cannot be done: {panel} cannot be folded, {meets}{}",
            reason(order, collision)
        );
        let names: Vec<&str> = other_order
            .iter()
            .map(|&panel| panels[panel].name.as_str())
            .collect();
        let fix = format!("another order in the style: {}", names.join(", "));
        finding(Level::Error, "step-blocked", panel.clone(), message).with_fix(fix)
    } else {
        let message = format!("{panel} cannot be folded: {meets}");
        finding(Level::Error, "no-swing-room", panel.clone(), message)
    };
    found.measured(collision.angle_deg, whole)
}

/// The style's own reason for the order that does not work.
fn reason(order: &FoldOrder, collision: &Collision) -> String {
    match order.actions[collision.action].why.as_str() {
        "" => String::new(),
        why => format!(" (the style says: {})", why.trim_end_matches('.')),
    }
}

/// Adds to a blocked fold the box in which it has room.
pub(super) fn with_lower_box(mut refusal: Refusal, style: &Style, job: &Job) -> Refusal {
    if let Refusal::Tray(report) = &mut refusal {
        let blocked = |found: &&mut Finding| BLOCKED.contains(&found.code.as_str());
        for found in report.findings.iter_mut().filter(blocked) {
            let lower = fix(style, job);
            found.fix = Some(match &found.fix {
                Some(order) => format!("{lower}; or {order}"),
                None => lower,
            });
        }
    }
    refusal
}

fn fix(style: &Style, job: &Job) -> String {
    match lower(style, job) {
        Some(depth) => format!(
            "a longer box, or a tray that is {} lower: say box depth={}",
            length(job.box_size.depth - depth, job.unit),
            setting_at_most(depth, job.unit)
        ),
        None => "a longer or a lower box".to_owned(),
    }
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
fn can_be_folded(style: &Style, job: &Job, depth: f64) -> Result<bool, Option<EvalError>> {
    let mut job = job.clone();
    job.box_size.depth = depth;
    let mut values = Values::for_job(style, &job).map_err(|_| None)?;
    let tray = Tray::draw(&mut values).map_err(Some)?;
    let found = rules::judge(&mut values).map_err(Some)?;
    let sizes = flat::judge_sizes(&tray, &job);
    let openings = openings::judge(&mut values, &tray).map_err(Some)?;
    if found
        .iter()
        .chain(&sizes)
        .chain(&openings)
        .any(|finding| finding.level == Level::Error)
    {
        return Err(None);
    }
    let blank = Blank::lay(&tray);
    let solids = PanelSolids::of(&tray, &blank);
    let folding = Folding::of(&tray, &solids);
    let order = FoldOrder::arrange(style, folding);
    Ok(order.is_some_and(|order| first_collision(folding, &order).is_none()))
}
