//! The card itself: sizes that vanish, strips too narrow to crease, and the flat proof.
//!
//! Given the tray and its blank; gives findings, one of each family and one overlap, for more would have one cause.

use crate::blank::Blank;
use crate::blank::flat_check::{FlatError, flaws};
use crate::finding::{Advice, BuiltIn, Change, Finding, Mm, Place, SquareMm};
use crate::geometry::{Outline, TOUCH_MM};
use crate::job::Job;
use crate::tray::{HangsOn, OpeningCut, Panel, Tray};

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
    let found = |found| Finding::new(found, Place::Panel(panel.key.clone()));
    if span > TOUCH_MM && reach > TOUCH_MM {
        if !strip || reach > NARROW_MM - TOUCH_MM {
            return None;
        }
        let play = job.fit.play + NARROW_MM - reach;
        let looser = Change::at_least("fit", "play", play, job.unit);
        let narrow = found(BuiltIn::BridgeNarrow).measured(reach, NARROW_MM);
        return Some(narrow.with_fix(Advice::ChangeOrRoundedFold.by(looser)));
    }
    if strip && span > TOUCH_MM {
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

/// What is wrong with the blank as one flat piece; at most one finding, since one overlap causes others.
pub(super) fn judge_blank(tray: &Tray, blank: &Blank) -> Option<Finding> {
    let name = |panel: usize| tray.panels[panel].name.clone();
    let found = |found, panel| Finding::new(found, Place::Panel(name(panel)));
    Some(match flaws(tray, blank).into_iter().next()? {
        FlatError::Openings { panel, area } => {
            let words = SquareMm(area);
            let overlap = if is_cut_for_items(tray, panel) {
                BuiltIn::ItemOpeningsRunTogether { area: words }
            } else {
                BuiltIn::OpeningsRunTogether { area: words }
            };
            found(overlap, panel)
                .measured(area, 0.0)
                .with_fix(Advice::OpeningsSmallerOrApart)
        }
        FlatError::Overlap { one, other, area } => {
            let overlap = BuiltIn::PanelsOverlap {
                other: name(other),
                area: SquareMm(area),
            };
            found(overlap, one)
                .measured(area, 0.0)
                .with_fix(Advice::LargerBoxOrSettings)
        }
        FlatError::Broken { area, pieces } => {
            let broken = BuiltIn::OutlineBroken {
                pieces,
                area: SquareMm(area),
            };
            found(broken, 0).measured(area, 0.0)
        }
        FlatError::OffEdge { panel } => found(BuiltIn::CreaseOffEdge, panel),
    })
}

/// Whether an opening is cut in a panel for an item: a large item runs over its panel, a window of the style should not.
fn is_cut_for_items(tray: &Tray, panel: usize) -> bool {
    let mut openings = tray.openings.iter();
    openings.any(|opening| {
        let cut = !matches!(opening.cut, OpeningCut::Uncut);
        opening.panel == panel && opening.item.is_some() && cut
    })
}
