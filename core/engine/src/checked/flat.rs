//! The card itself: sizes that vanish, strips too narrow to crease, and the flat proof.
//!
//! Given the tray and its blank; gives findings, one of each family and one overlap, for more would have one cause.

use super::finding;
use crate::blank::Blank;
use crate::blank::flat_check::{FlatError, flaws};
use crate::finding::{Finding, Level};
use crate::geometry::{Outline, TOUCH_MM};
use crate::job::Job;
use crate::tray::{HangsOn, Panel, Tray};
use crate::wording::{length, lengths_apart, setting};

/// Width under which a strip cannot be creased as two lines by hand.
// Source: common practice, none published.
const NARROW_MM: f64 = 1.0;

/// Panels that have no size, and strips between two like creases that are too narrow.
pub(super) fn judge_sizes(tray: &Tray, job: &Job) -> Vec<Finding> {
    let mut families: Vec<&str> = Vec::new();
    let mut findings = Vec::new();
    for (index, panel) in tray.panels.iter().enumerate() {
        // What is true of one panel of a family is true of all, and told once.
        if panel.entry.is_some() && !families.contains(&panel.key.as_str()) {
            let found = judge_size(panel, is_strip(tray, index), job);
            families.extend(found.is_some().then_some(panel.key.as_str()));
            findings.extend(found);
        }
    }
    findings
}

fn judge_size(panel: &Panel, strip: bool, job: &Job) -> Option<Finding> {
    let (span, reach) = size(panel);
    let told = |level, code, message| finding(level, code, panel.key.clone(), message);
    let write = |value| length(value, job.unit);
    if span > TOUCH_MM && reach > TOUCH_MM {
        if !strip || reach > NARROW_MM - TOUCH_MM {
            return None;
        }
        let (is, least) = lengths_apart(reach, NARROW_MM, job.unit);
        let message = format!(
            "the strip between its two creases is {is} wide (at least {least} to crease it as two lines by hand)"
        );
        let play = setting(job.fit.play + NARROW_MM - reach, job.unit);
        let fix = format!("fit play={play}, or crease it as one rounded fold");
        let found = told(Level::Warning, "spine-narrow", message);
        return Some(found.measured(reach, NARROW_MM).with_fix(fix));
    }
    if strip && span > TOUCH_MM {
        let message = format!(
            "the strip between its two creases would be {} wide",
            write(reach)
        );
        let found = told(Level::Error, "spine-too-narrow", message).measured(reach, 0.0);
        return Some(found.with_fix("more `play` in `fit`"));
    }
    let message = format!(
        "{} would be {} by {}",
        panel.name,
        write(span),
        write(reach)
    );
    let found = told(Level::Error, "panel-too-small", message).measured(span.min(reach), 0.0);
    Some(found.with_fix("a larger box, or thinner card"))
}

/// Length of a hung panel's crease and how far it reaches away from it; negative where it is turned inside out.
fn size(panel: &Panel) -> (f64, f64) {
    if panel.hanging.is_none() {
        return root_size(panel);
    }
    let span = panel
        .shape
        .edge("near")
        .map_or(0.0, |(from, to)| to.x - from.x);
    let farther = |most: f64, y: f64| if y.abs() > most.abs() { y } else { most };
    let reach = panel.shape.points().map(|point| point.y).fold(0.0, farther);
    (span, reach)
}

/// Both sides of the rectangle around the root; the first is negative where the corners run clockwise.
fn root_size(panel: &Panel) -> (f64, f64) {
    let (length, width) = panel.shape.extent();
    if Outline::straight(panel.shape.points()).area() > 0.0 {
        (length, width)
    } else {
        (-length, width)
    }
}

/// Whether another panel folds the same way on a panel's far edge.
fn is_strip(tray: &Tray, index: usize) -> bool {
    let sense = |panel: &Panel| {
        panel
            .hanging
            .as_ref()
            .map(|hanging| hanging.fold_deg.signum())
    };
    let own = sense(&tray.panels[index]);
    tray.panels.iter().any(|panel| {
        let on_far = panel.hanging.as_ref().is_some_and(|hanging| {
            hanging.parent == index && hanging.on == HangsOn::Edge("far".to_owned())
        });
        on_far && sense(panel) == own
    })
}

/// The flat proof in the maker's words.
pub(super) fn judge_blank(tray: &Tray, blank: &Blank) -> Vec<Finding> {
    let name = |panel: usize| tray.panels[panel].name.clone();
    let mut findings: Vec<Finding> = Vec::new();
    for flaw in flaws(tray, blank) {
        findings.push(match flaw {
            FlatError::Openings { panel, area } => {
                let message = format!("openings in {} run into one another or over its edge, by {area:.1} mm²", name(panel));
                finding(Level::Error, "openings-overlap", name(panel), message).measured(area, 0.0).with_fix("openings that are smaller, or lie further apart")
            }
            FlatError::Overlap { one, other, area } => {
                let message = format!("{} and {} would be cut from the same {area:.1} mm² of card", name(one), name(other));
                finding(Level::Error, "panels-overlap", name(one), message).measured(area, 0.0).with_fix("a larger box, or other settings of the style")
            }
            FlatError::Broken { area, pieces } => {
                let message = format!("the blank is not one piece with one edge: {pieces} pieces, {area:.4} mm² apart from its panels");
                finding(Level::Error, "outline-broken", name(0), message).measured(area, 0.0)
            }
            FlatError::OffEdge { panel } => {
                let message = format!("the crease of {} reaches beyond the edge that it hangs on", name(panel));
                finding(Level::Error, "crease-off-edge", name(panel), message)
            }
        });
    }
    // One overlap that is too much for many pairs has one cause.
    findings.truncate(1);
    findings
}
