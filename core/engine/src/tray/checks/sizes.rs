//! Panels without a size, and strips that are too narrow to crease; one finding for a family of panels.

use super::strips;
use crate::finding::{Advice, BuiltIn, Finding, Mm, Place};
use crate::geometry::{Outline, TOUCH_MM};
use crate::job::Job;
use crate::tray::{HangsOn, Panel, PanelId, Tray};

/// Panels without a size, and strips between two creases that are too narrow.
pub(super) fn judge(tray: &Tray, job: &Job) -> Vec<Finding> {
    let mut families: Vec<&str> = Vec::new();
    let mut findings = Vec::new();
    for (id, panel) in tray.panels.enumerated() {
        // All panels of a family have the same finding, so only the first is checked.
        if panel.entry.is_some() && !families.contains(&panel.key.as_str()) {
            let found = judge_size(tray, id, job);
            families.extend(found.is_some().then_some(panel.key.as_str()));
            findings.extend(found);
        }
    }
    findings
}

fn judge_size(tray: &Tray, id: PanelId, job: &Job) -> Option<Finding> {
    let panel = &tray.panels[id];
    let (span, reach) = size(panel);
    let found = |found| Finding::new(found, Place::Panel(panel.key.clone()));
    if span > TOUCH_MM && reach > TOUCH_MM {
        return strips::judge(tray, id, reach, job);
    }
    if is_strip(tray, id) && span > TOUCH_MM {
        let narrow = found(BuiltIn::BridgeTooNarrow { width: Mm(reach) }).measured(reach, 0.0);
        return Some(narrow.with_fix(Advice::MorePlay));
    }
    let vanished = found(BuiltIn::PanelTooSmall {
        panel: panel.name.clone(),
        span: Mm(span),
        reach: Mm(reach),
    });
    let vanished = vanished.measured(span.min(reach), 0.0);
    Some(vanished.with_fix(Advice::LargerBoxOrThinnerCard))
}

/// Length of a panel's crease and how far the panel reaches from it; negative if the panel is turned inside out.
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

/// Both sides of the rectangle around the root; the first is negative if the corners run clockwise.
fn root_size(panel: &Panel) -> (f64, f64) {
    let (length, width) = panel.shape.extent();
    if Outline::straight(panel.shape.points()).area() > 0.0 {
        (length, width)
    } else {
        (-length, width)
    }
}

/// Whether another panel on this panel's far edge folds in the same direction.
pub(super) fn is_strip(tray: &Tray, id: PanelId) -> bool {
    let sense = |panel: &Panel| {
        panel
            .hanging
            .as_ref()
            .map(|hanging| hanging.fold_deg.signum())
    };
    let own = sense(&tray.panels[id]);
    tray.panels.iter().any(|panel| {
        let on_far = panel.hanging.as_ref().is_some_and(|hanging| {
            hanging.parent == id && hanging.on == HangsOn::Edge("far".to_owned())
        });
        on_far && sense(panel) == own
    })
}
