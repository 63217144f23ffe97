//! The card itself: sizes that vanish, strips too narrow to crease, the flat proof, and room to swing.

use super::finding;
use crate::blank::Blank;
use crate::blank::proof::{Flaw, flaws};
use crate::finding::{Finding, Level};
use crate::geometry::TOUCH_MM;
use crate::job::Job;
use crate::motion::hits;
use crate::steps::FoldOrder;
use crate::tray::{HangsOn, Panel, Tray};
use crate::wording::length;

/// Width under which a strip cannot be creased as two lines by hand.
// Source: common practice, none published.
const NARROW_MM: f64 = 1.0;

/// Panels that have no size, and strips between two like creases that are too narrow.
pub(super) fn judge_sizes(tray: &Tray, job: &Job) -> Vec<Finding> {
    let mut findings = Vec::new();
    let mut told: Vec<Option<usize>> = Vec::new();
    for (index, panel) in tray.panels.iter().enumerate() {
        let Some(hanging) = panel.hanging.as_ref().filter(|_| panel.entry.is_some()) else {
            continue;
        };
        // What is true of one panel of a family is true of all; told once.
        if told.contains(&panel.entry) {
            continue;
        }
        let span =
            (hanging.crease.1 - hanging.crease.0).dot((hanging.crease.1 - hanging.crease.0).unit());
        let (_, reach) = panel.shape.extent();
        let forward = forward(panel);
        let strip = is_strip(tray, index);
        let found = if strip && (reach <= TOUCH_MM || !forward) {
            let message = format!(
                "the strip between its two creases has no width ({})",
                length(if forward { reach } else { -reach }, job.unit)
            );
            Some(
                finding(
                    Level::Error,
                    "spine-too-narrow",
                    panel.name.clone(),
                    message,
                )
                .measured(if forward { reach } else { -reach }, 0.0)
                .cured_by("more `play` in `fit`"),
            )
        } else if reach <= TOUCH_MM || span <= TOUCH_MM || !forward {
            let message = format!(
                "{} would have no size: {} by {}",
                panel.name,
                length(span, job.unit),
                length(if forward { reach } else { -reach }, job.unit)
            );
            Some(
                finding(Level::Error, "panel-too-small", panel.name.clone(), message)
                    .cured_by("a larger box, or thinner card"),
            )
        } else if strip && reach < NARROW_MM - TOUCH_MM {
            let message = format!(
                "the strip between its two creases is {} wide (at least {} to crease it as two lines by hand)",
                length(reach, job.unit),
                length(NARROW_MM, job.unit)
            );
            let cure = format!(
                "fit play={}, or crease it as one rounded fold",
                length(job.fit.play + NARROW_MM - reach, job.unit)
            );
            Some(
                finding(Level::Warning, "spine-narrow", panel.name.clone(), message)
                    .measured(reach, NARROW_MM)
                    .cured_by(cure),
            )
        } else {
            None
        };
        if let Some(found) = found {
            told.push(panel.entry);
            findings.push(found);
        }
    }
    findings
}

/// Whether a panel lies on the far side of its own crease, with its crease the right way round.
fn forward(panel: &Panel) -> bool {
    let points: Vec<_> = panel.shape.points().collect();
    let doubled: f64 = points
        .iter()
        .zip(points.iter().cycle().skip(1))
        .map(|(from, to)| from.x * to.y - from.y * to.x)
        .sum();
    doubled > 0.0
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
            Flaw::Overlap { one, other, area } => {
                let message = format!("{} and {} would be cut from the same {area:.1} mm² of card", name(one), name(other));
                finding(Level::Error, "panels-overlap", name(one), message).measured(area, 0.0).cured_by("a larger box, or other settings of the style")
            }
            Flaw::Broken { area, pieces } => {
                let message = format!("the blank is not one piece with one edge: {pieces} pieces, {area:.4} mm² apart from its panels");
                finding(Level::Error, "outline-broken", name(0), message).measured(area, 0.0)
            }
            Flaw::OffEdge { panel } => {
                let message = format!("the crease of {} reaches beyond the edge that it hangs on", name(panel));
                finding(Level::Error, "crease-off-edge", name(panel), message)
            }
        });
    }
    // One overlap that is too much for many pairs has one cause.
    findings.truncate(1);
    findings
}

/// Panels that cannot be folded in their place of the order.
pub(super) fn judge_swing(tray: &Tray, blank: &Blank, order: &FoldOrder) -> Vec<Finding> {
    let Some(hit) = hits(tray, blank, order).into_iter().next() else {
        return Vec::new();
    };
    let (panel, other) = (&tray.panels[hit.panel].name, &tray.panels[hit.other].name);
    let message = format!(
        "{panel} cannot be folded: after {:.0}° it runs into {other}",
        hit.angle_deg
    );
    let fold_deg = tray.panels[hit.panel]
        .hanging
        .as_ref()
        .map_or(0.0, |hanging| hanging.fold_deg.abs());
    let found = finding(Level::Error, "no-swing-room", panel.clone(), message)
        .measured(hit.angle_deg, fold_deg);
    vec![found.cured_by("a longer or a lower box")]
}
